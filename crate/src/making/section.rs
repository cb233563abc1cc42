//! What tells one moulding from another, and how it is called among those to buy.

use crate::colour::Colour;
use crate::length::Length;
use crate::measure::{Grade, shown};
use crate::plan::{FaceShape, Floater, Frame, Material, Surface, Units};
use crate::stock::{Profile, Stock, finish};
use crate::words::in_units;

/// What tells one moulding from another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Section {
    /// Whether it is that of a floater frame.
    pub is_floater: bool,
    /// What it is made of.
    pub material: Material,
    /// Width of its face.
    pub face: Length,
    /// From its back to its front.
    pub depth: Length,
    /// Width and depth of its rabbet; nothing for a floater.
    pub rabbet: (Length, Length),
    /// Shape and surface of its face.
    pub look: (FaceShape, Surface),
    /// Its colour.
    pub colour: Colour,
}

impl Section {
    /// The moulding of a frame.
    #[must_use]
    pub fn of_frame(frame: &Frame) -> Self {
        Self {
            is_floater: false,
            material: frame.material,
            face: frame.face,
            depth: frame.depth,
            rabbet: (frame.rabbet_width, frame.rabbet_depth),
            look: (frame.shape, frame.surface),
            colour: frame.colour,
        }
    }

    /// The moulding of a floater frame, of what a stock has it in.
    #[must_use]
    pub fn of_floater(floater: &Floater, stock: &Stock) -> Self {
        Self {
            is_floater: true,
            material: floater_material(stock, floater),
            face: floater.face,
            depth: floater.depth,
            rabbet: (Length::ZERO, Length::ZERO),
            look: (FaceShape::Flat, Surface::Grain),
            colour: floater.colour,
        }
    }

    /// The mouldings of a stock that are this one.
    fn rows(self, stock: &Stock) -> impl Iterator<Item = &Profile> {
        let Self { is_floater, material, face, depth, rabbet, colour, .. } = self;
        stock.mouldings.iter().filter(move |row| {
            row.is_floater == is_floater
                && (row.face, row.depth, (row.rabbet_width, row.rabbet_depth), row.material)
                    == (face, depth, rabbet, material)
                && row.colour.is_none_or(|own| own == colour)
        })
    }

    /// What it is made of: the wood that the stock names for this moulding, where all its rows agree, otherwise its material.
    #[must_use]
    pub fn made_of(self, stock: &Stock) -> &str {
        let mut names = self.rows(stock).map(Profile::made_of);
        match names.next() {
            Some(first) if names.all(|name| name == first) => first,
            _ => self.material.name(),
        }
    }

    /// How it is finished.
    #[must_use]
    pub fn finish(self, stock: &Stock) -> String {
        finish(self.material, self.made_of(stock), self.look.1, self.colour)
    }

    /// What it is made of, and how it is finished.
    #[must_use]
    pub fn made_of_and_finish(self, stock: &Stock) -> String {
        [self.made_of(stock), ", ", &self.finish(stock)].concat()
    }

    /// How it is called among all that are bought: its material, its finish and its face, and whatever differs between them.
    pub(super) fn words(self, all: &[Self], stock: &Stock, units: Units) -> String {
        let differs = |of: fn(&Self) -> (Length, Length)| {
            all.iter().any(|other| other.is_floater == self.is_floater && of(other) != of(&self))
        };
        let text = |length: Length| shown(length, Grade::Fine, units);
        let wood = self.made_of(stock);
        let kind = if self.is_floater { " floater" } else { " moulding" };
        let mut words = [wood, kind, ", ", &self.finish(stock), ", ", &text(self.face), " wide"].concat();
        let looks = all.iter().filter(|other| other.is_floater == self.is_floater).map(|other| other.look.0);
        if looks.clone().any(|shape| shape != self.look.0) {
            words += &[", ", self.look.0.name()].concat();
        }
        if differs(|section| (section.depth, Length::ZERO)) {
            words += &[", ", &text(self.depth), " deep"].concat();
        }
        if differs(|section| section.rabbet) {
            let (width, depth) = self.rabbet;
            words += &[
                ", ",
                &in_units("rabbet", units.first),
                " ",
                &text(width),
                " wide and ",
                &text(depth),
                " deep",
            ]
            .concat();
        }
        words
    }
}

/// What a floater frame is made of: as the stock has it, otherwise obeche (from memory).
pub(super) fn floater_material(stock: &Stock, floater: &Floater) -> Material {
    let row = stock.mouldings.iter().find(|row| row.is_of_floater(floater));
    row.map_or(Material::Obeche, |row| row.material)
}
