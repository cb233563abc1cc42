//! Frames: a moulding with a lip, and a floater frame.

use super::material::OfMoulding;
use super::{Material, limits};
use crate::colour::Colour;
use crate::described::{Absent, Choosable, Entry, Member, Row, Thing};
use crate::length::Length;

/// A frame with a lip.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Frame {
    /// Width of the moulding's face, from its outer edge to its sight edge.
    pub face: Length,
    /// Width of the rabbet: how far the lip reaches over what is in the frame.
    pub rabbet_width: Length,
    /// Depth of the rabbet.
    pub rabbet_depth: Length,
    /// From the wall to the front of the moulding.
    pub depth: Length,
    /// Allowance in the rabbet, in total over both sides.
    pub allowance: Length,
    /// What it is made of.
    pub material: Material,
    /// How its face is shaped.
    pub shape: FaceShape,
    /// How its face is finished.
    pub surface: Surface,
    /// Its colour.
    pub colour: Colour,
}

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Length, Row, limits};

    pub static FRAME_FACE: Row = Row::length("frame.face", "face", 1, "width of the frame's face", "Width of the moulding's face.", Length::inches_ratio(3, 4)).positive().needed().metric(&[(Length::inches_ratio(3, 4), Length::mm(20))]);
    pub static FRAME_RABBET_WIDTH: Row = Row::length("frame.rabbet_width", "rabbet_width", 2, "width of the frame's rabbet (rebate)", "Width of the rabbet (rebate).", Length::inches_ratio(1, 4)).metric(&[(Length::inches_ratio(1, 4), Length::mm(6))]);
    pub static FRAME_RABBET_DEPTH: Row = Row::length("frame.rabbet_depth", "rabbet_depth", 3, "depth of the frame's rabbet (rebate)", "Depth of the rabbet (rebate).", Length::inches_ratio(5, 8)).metric(&[(Length::inches_ratio(5, 8), Length::mm(15))]);
    pub static FRAME_DEPTH: Row = Row::length("frame.depth", "depth", 4, "depth of the frame", "From the wall to the front.", Length::inches_ratio(9, 8)).positive().metric(&[(Length::inches_ratio(9, 8), Length::mm(30))]);
    pub static FRAME_ALLOWANCE: Row = Row::length("frame.allowance", "allowance", 5, "allowance in the frame's rabbet (rebate)", "Allowance in the rabbet (rebate), for both sides together.", Length::inches_ratio(1, 8)).metric(&[(Length::inches_ratio(1, 8), Length::mm(3))]);
    pub static FRAME_MATERIAL: Row = Row::choice("frame.material", "material", 6, "material of the frame", "What it is made of; oak when left out.");
    pub static FRAME_SHAPE: Row = Row::choice("frame.shape", "shape", 7, "shape of the frame's face", "How its face is shaped; flat when left out.").absent(Absent::Default);
    pub static FRAME_SURFACE: Row = Row::choice("frame.surface", "surface", 8, "surface of the frame", "How its face is finished; grain when left out.").absent(Absent::Default);
    pub static FRAME_COLOUR: Row = Row::colour("frame.colour", "colour", 9, "colour of the frame", "", 0x3b_2b_20);

    pub static FLOATER_GAP: Row = Row::length("floater.gap", "gap", 1, "gap inside the floater frame", "Gap on each side.", Length::inches_ratio(1, 4)).needed().metric(&[(Length::inches_ratio(1, 4), Length::mm(6))]);
    pub static FLOATER_FACE: Row = Row::length("floater.face", "face", 2, "width of the floater frame's face", "Width of the face.", Length::inches_ratio(3, 8)).positive().needed().metric(&[(Length::inches_ratio(3, 8), Length::mm(10))]);
    pub static FLOATER_DEPTH: Row = Row::length("floater.depth", "depth", 3, "depth of the floater frame", "From the wall to the front.", Length::inches(2)).range(Length::from_units(1), limits::PIECE);
    pub static FLOATER_COLOUR: Row = Row::colour("floater.colour", "colour", 4, "colour of the floater frame", "", 0x3b_2b_20);
}
pub use rows::*;

impl Thing for Frame {
    fn title(&self) -> (&'static str, &'static str) {
        ("Frame", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { face, rabbet_width, rabbet_depth, depth, allowance, material, shape, surface, colour } =
            self;
        vec![
            Member::of(&FRAME_FACE, face),
            Member::of(&FRAME_RABBET_WIDTH, rabbet_width),
            Member::of(&FRAME_RABBET_DEPTH, rabbet_depth),
            Member::of(&FRAME_DEPTH, depth),
            Member::of(&FRAME_ALLOWANCE, allowance),
            Member::choice(&FRAME_MATERIAL, OfMoulding(material)),
            Member::choice(&FRAME_SHAPE, shape),
            Member::choice(&FRAME_SURFACE, surface),
            Member::of(&FRAME_COLOUR, colour),
        ]
    }
}

/// How the face of a moulding is shaped, from its outer edge to its sight edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum FaceShape {
    /// Level.
    #[default]
    Flat,
    /// Falling to the sight edge in one slope.
    Bevelled,
    /// Falling to the sight edge in a hollow.
    Scooped,
    /// Falling to the sight edge in steps.
    Stepped,
    /// A half round.
    Rounded,
}

impl Choosable for FaceShape {
    const NAME: &'static str = "Shape";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Flat, Entry::new("flat", 0, "flat")),
        (Self::Bevelled, Entry::new("bevelled", 1, "bevelled")),
        (Self::Scooped, Entry::new("scooped", 2, "scooped")),
        (Self::Stepped, Entry::new("stepped", 3, "stepped")),
        (Self::Rounded, Entry::new("rounded", 4, "rounded")),
    ];
}

impl FaceShape {
    /// Its name in a sentence.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.entry().words
    }
}

/// How the face of a moulding is finished.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Surface {
    /// Wood with visible grain.
    #[default]
    Grain,
    /// Paint.
    Paint,
    /// Brushed metal.
    Metal,
    /// Leaf.
    Gilt,
}

impl Choosable for Surface {
    const NAME: &'static str = "Surface";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Grain, Entry::new("grain", 0, "grained")),
        (Self::Paint, Entry::new("paint", 1, "painted")),
        (Self::Metal, Entry::new("metal", 2, "brushed")),
        (Self::Gilt, Entry::new("gilt", 3, "gilt")),
    ];
}

impl Surface {
    /// Its name in a sentence.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.entry().words
    }
}

/// A floater frame: what is in it touches it nowhere.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Floater {
    /// Gap between canvas and frame, on each side.
    pub gap: Length,
    /// Width of the frame's face.
    pub face: Length,
    /// From the wall to the front of the frame.
    pub depth: Length,
    /// Its colour.
    pub colour: Colour,
}

impl Thing for Floater {
    fn title(&self) -> (&'static str, &'static str) {
        ("Floater", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { gap, face, depth, colour } = self;
        vec![
            Member::of(&FLOATER_GAP, gap),
            Member::of(&FLOATER_FACE, face),
            Member::of(&FLOATER_DEPTH, depth),
            Member::of(&FLOATER_COLOUR, colour),
        ]
    }
}
