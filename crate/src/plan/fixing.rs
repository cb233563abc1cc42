//! What a piece hangs by.

use crate::described::{
    Absent, Entry, Form, Member, OneOf, Row, Shape, Thing, Variants, Words, maybe_filled,
};
use crate::length::Length;
use std::mem::discriminant;

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Length, Row, Shape, Words};

    pub static FIXING_KIND: Row = Row::new("fixing.kind", "", 1, "what the pieces hang by", "", Form::tagged());
    pub(super) static FIXING_SIDES_BY: Row = Row::new("", "", 6, "", "", Form::OneOf(Shape::ByKeys));
    pub static FIXING_FROM_SIDES: Row = Row::length("fixing.inset", "inset", 2, "distance of the hangers from the sides", "From each side to the rings, the keyhole plates or the ends of the cleat. When left out: where the piece can hold them.", Length::inches_ratio(3, 8)).metric(&[(Length::inches_ratio(3, 8), Length::mm(10))]);
    pub(super) static FIXING_DOWN_BY: Row = Row::new("", "", 7, "", "", Form::OneOf(Shape::ByKeys));
    pub static FIXING_DOWN: Row = Row::length("fixing.down", "down", 3, "distance of the hangers from the top edge", "From the top edge to where rings, slots, teeth or cleat rest, or to the rings of a wire. When left out: rings and slots a quarter of the height down, a third with a wire; cleat and teeth in the middle of the top leg.", Length::inches(5)).metric(&[(Length::inches(5), Length::mm(120))]);
    pub static FIXING_SLACK: Row = Row::length("fixing.slack", "slack", 4, "how much longer the wire is than its span", "", Length::inches(1)).frozen(Length::ZERO).needed().metric(&[(Length::inches(1), Length::mm(25))]);
    pub(super) static FIXING_TWO_HOOKS: Row = Row::new("", "hooks_apart", 5, "two hooks", "", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub static FIXING_APART: Row = Row::length("fixing.apart", "", 1, "distance between the two hooks", "", Length::inches(6)).frozen(Length::ZERO).metric(&[(Length::inches(6), Length::mm(150))]);
}
pub use rows::*;

/// The key of two rings.
pub const TWO_RINGS: &str = "rings";
/// The key of a wire over one hook.
pub const ONE_HOOK: &str = "one_hook";
/// The key of a wire over two hooks.
pub const TWO_HOOKS: &str = "two_hooks";
/// The key of a French cleat.
pub const CLEAT: &str = "cleat";
/// The key of a sawtooth hanger.
pub const SAWTOOTH: &str = "sawtooth";
/// The key of two keyhole plates.
pub const KEYHOLES: &str = "keyholes";

/// What a piece hangs by, the same for every piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fixing {
    /// What is on its back.
    pub hanger: Hanger,
    /// From each side of the outside to the middle of the ring or plate, or to the end of the cleat. A sawtooth hanger is in the middle.
    pub from_sides: HangerPlace,
    /// From the upper edge of the outside to where it rests on the wall; with a wire, to the rings.
    pub down: HangerPlace,
}

/// What is on the back of a piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hanger {
    /// Two rings on two hooks, no wire.
    #[default]
    Rings,
    /// A wire over one hook, or over two.
    Wire {
        /// By how much the wire is longer than the straight line between the rings.
        slack: Length,
        /// Distance between two hooks; `None` for a single one.
        hooks_apart: Option<Length>,
    },
    /// A French cleat: two battens cut to 45°, one across the back and one on the wall, which hook into each other.
    Cleat,
    /// A toothed strip in the middle of the upper leg, on one screw.
    Sawtooth,
    /// A keyhole plate let into each side, on two screws.
    Keyholes,
}

impl Hanger {
    /// Every hanger that can be chosen, with its key, its words, and what it is to begin with.
    pub const OFFERED: [(&'static str, &'static str, Self); 6] = [
        (TWO_RINGS, "two rings", Self::Rings),
        (ONE_HOOK, "a wire over one hook", Self::wire(None)),
        (TWO_HOOKS, "a wire over two hooks", Self::wire(Some(Length::inches(6)))),
        (CLEAT, "a French cleat", Self::Cleat),
        (SAWTOOTH, "a sawtooth hanger", Self::Sawtooth),
        (KEYHOLES, "two keyhole plates", Self::Keyholes),
    ];

    /// Which of [`Self::OFFERED`] it is.
    #[must_use]
    pub fn offered(self) -> Option<usize> {
        let kind = |hanger: &Self| (discriminant(hanger), hanger.hooks_apart().is_some());
        Self::OFFERED.iter().position(|(.., hanger)| kind(hanger) == kind(&self))
    }

    /// A wire over one hook or over two, as it is to begin with.
    #[must_use]
    pub const fn wire(hooks_apart: Option<Length>) -> Self {
        Self::Wire { slack: Length::inches(1), hooks_apart }
    }

    /// What one of them is called in a sentence.
    #[must_use]
    pub const fn noun(&self) -> &'static str {
        match self {
            Self::Rings | Self::Wire { .. } => "ring",
            Self::Cleat => "cleat",
            Self::Sawtooth => "sawtooth hanger",
            Self::Keyholes => "keyhole plate",
        }
    }

    /// What carries it on the wall, one or several.
    #[must_use]
    pub const fn at_wall(&self, are_several: bool) -> &'static str {
        let is_hooked = matches!(self, Self::Rings | Self::Wire { .. });
        match (is_hooked, are_several) {
            (true, false) => "hook",
            (true, true) => "hooks",
            (false, false) => "screw",
            (false, true) => "screws",
        }
    }

    /// How far apart two hooks under a wire are; `None` without a wire over two hooks.
    #[must_use]
    pub const fn hooks_apart(&self) -> Option<Length> {
        match self {
            Self::Wire { hooks_apart, .. } => *hooks_apart,
            _ => None,
        }
    }
}

impl Thing for Fixing {
    fn title(&self) -> (&'static str, &'static str) {
        ("", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::one_of(&FIXING_KIND, self)]
    }

    /// Version 1 knew no usual place.
    fn frozen(&mut self) {
        for (place, row) in self.places_mut().into_iter().zip([&FIXING_FROM_SIDES, &FIXING_DOWN]) {
            if let Form::Length { frozen, .. } = row.form {
                *place = HangerPlace::At(frozen);
            }
        }
    }
}

impl Fixing {
    /// Where the hangers are, from the sides and from the upper edge.
    pub const fn places_mut(&mut self) -> [&mut HangerPlace; 2] {
        [&mut self.from_sides, &mut self.down]
    }

    /// Puts another hanger on the back. A sawtooth hanger has no place but the middle.
    pub fn set_hanger(&mut self, hanger: Hanger) {
        self.hanger = hanger;
        if hanger == Hanger::Sawtooth {
            self.from_sides = HangerPlace::Usual;
        }
    }

    /// The same with the hangers where each piece holds them.
    #[must_use]
    pub fn at_usual_places(self) -> Self {
        Self { hanger: self.hanger, ..Self::default() }
    }
}

/// Where the rings are, from the sides or from the upper edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HangerPlace {
    /// Where the piece holds them; see [`crate::hang::hanger_places`].
    #[default]
    Usual,
    /// So far, measured on the outside.
    At(Length),
}

impl HangerPlace {
    /// The distance, with that of the usual place.
    #[must_use]
    pub fn or(self, usual: Length) -> Length {
        match self {
            Self::Usual => usual,
            Self::At(length) => length,
        }
    }
}

/// A place of the rings with its row.
struct HangerPlaceOf<'a> {
    place: &'a mut HangerPlace,
    row: &'static Row,
}

/// The key of rings at their usual place.
pub const USUAL_PLACE: &str = "usual";

static SIDES_BY: Variants =
    Variants { name: "", about: "", entries: &[Entry::new("", 0, ""), Entry::new("inset", 1, "")] };
static DOWN_BY: Variants =
    Variants { name: "", about: "", entries: &[Entry::new("", 0, ""), Entry::new("down", 1, "")] };

impl OneOf for HangerPlaceOf<'_> {
    fn variants(&self) -> &'static Variants {
        if *self.row == FIXING_DOWN { &DOWN_BY } else { &SIDES_BY }
    }

    fn place(&self) -> usize {
        usize::from(*self.place != HangerPlace::Usual)
    }

    fn turn(&mut self, place: usize) {
        *self.place = [HangerPlace::Usual, HangerPlace::At(self.place.or(Length::ZERO))][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self.place {
            HangerPlace::Usual => Vec::new(),
            HangerPlace::At(length) => vec![Member::of(self.row, length)],
        }
    }
}

static FIXINGS: Variants = Variants {
    name: "Fixing",
    about: "",
    entries: &[
        Entry::new("rings", 0, "two rings").about("Two rings on two hooks."),
        Entry::new("wire", 1, "a wire").about("A wire over one hook, or over two."),
        Entry::new("cleat", 2, "a French cleat").about(
            "Two battens cut to 45°, one across the back and one on the wall, which hook into each other.",
        ),
        Entry::new("sawtooth", 3, "a sawtooth hanger")
            .about("A toothed strip in the middle of the top leg, on one screw."),
        Entry::new("keyholes", 4, "two keyhole plates")
            .about("A keyhole plate set into each side, on two screws."),
    ],
};

impl OneOf for Fixing {
    fn variants(&self) -> &'static Variants {
        &FIXINGS
    }

    fn place(&self) -> usize {
        match self.hanger {
            Hanger::Rings => 0,
            Hanger::Wire { .. } => 1,
            Hanger::Cleat => 2,
            Hanger::Sawtooth => 3,
            Hanger::Keyholes => 4,
        }
    }

    fn turn(&mut self, place: usize) {
        let hangers = [Hanger::Rings, Hanger::wire(None), Hanger::Cleat, Hanger::Sawtooth, Hanger::Keyholes];
        self.set_hanger(hangers[place]);
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { hanger, from_sides, down } = self;
        let mut members = Vec::new();
        if *hanger != Hanger::Sawtooth {
            let place = HangerPlaceOf { place: from_sides, row: &FIXING_FROM_SIDES };
            members.push(Member::one_of(&FIXING_SIDES_BY, place));
        }
        members.push(Member::one_of(&FIXING_DOWN_BY, HangerPlaceOf { place: down, row: &FIXING_DOWN }));
        if let Hanger::Wire { slack, hooks_apart } = hanger {
            members.push(Member::of(&FIXING_SLACK, slack));
            let apart = Length::inches(6);
            members.push(maybe_filled(&FIXING_TWO_HOOKS, hooks_apart, &FIXING_APART, apart));
        }
        members
    }
}
