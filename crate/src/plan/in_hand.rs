//! A frame that the user already has.

use super::limits;
use crate::described::{Choosable, Entry, Form, Member, Row, Thing};
use crate::geometry::Size;
use crate::length::Length;

/// A frame that the user already has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct InHand {
    /// What was measured.
    pub measured: Measured,
    /// Its width and height.
    pub size: Size,
    /// Width of the moulding's face.
    pub face: Length,
    /// Width of the rabbet.
    pub rabbet_width: Length,
    /// Allowance in the rabbet, in total over both sides.
    pub allowance: Length,
}

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Form, Length, Row, Size, limits};

    pub static IN_HAND_MEASURED: Row = Row::choice("in_hand.measured", "measured", 1, "how the frame you already have was measured", "What was measured.").needed();
    pub static IN_HAND_SIZE: Row = Row::new("in_hand.size", "size", 2, "size of the frame you already have", "Width and height of what was measured.", Form::size(Size::inches(16, 20), limits::PIECE)).needed().metric(&[(Length::inches(16), Length::mm(400)), (Length::inches(20), Length::mm(500))]);
    pub static IN_HAND_FACE: Row = Row::length("in_hand.face", "face", 4, "face of the frame you already have", "Width of the moulding's face.", Length::inches_ratio(3, 4)).positive().metric(&[(Length::inches_ratio(3, 4), Length::mm(20))]);
    pub static IN_HAND_RABBET_WIDTH: Row = Row::length("in_hand.rabbet_width", "rabbet_width", 5, "width of the rabbet (rebate) of the frame you already have", "Width of the rabbet (rebate).", Length::inches_ratio(1, 4)).metric(&[(Length::inches_ratio(1, 4), Length::mm(6))]);
    pub static IN_HAND_ALLOWANCE: Row = Row::length("in_hand.allowance", "allowance", 6, "allowance in the rabbet (rebate) of the frame you already have", "Allowance in the rabbet (rebate), for both sides together.", Length::inches_ratio(1, 8)).metric(&[(Length::inches_ratio(1, 8), Length::mm(3))]);
}
pub use rows::*;

impl Thing for InHand {
    fn title(&self) -> (&'static str, &'static str) {
        ("InHand", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { measured, size, face, rabbet_width, allowance } = self;
        vec![
            Member::choice(&IN_HAND_MEASURED, measured),
            Member::of(&IN_HAND_SIZE, size),
            Member::of(&IN_HAND_FACE, face),
            Member::of(&IN_HAND_RABBET_WIDTH, rabbet_width),
            Member::of(&IN_HAND_ALLOWANCE, allowance),
        ]
    }
}

/// What was measured of a frame that the user already has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Measured {
    /// Its glass, or the mat or board that came with it: the nominal size.
    #[default]
    Glass,
    /// Its rabbet, from wall to wall at the back.
    Rabbet,
    /// Its sight opening, from lip to lip at the front.
    Sight,
    /// Its outside.
    Outside,
}

impl Choosable for Measured {
    const NAME: &'static str = "Measured";
    const ALL: &'static [(Self, Entry)] = &[
        (
            Self::Glass,
            Entry::new("glass", 0, "by its glass").about("The glass, or the mat or board that came with it."),
        ),
        (
            Self::Rabbet,
            Entry::new("rabbet", 1, "by its rabbet")
                .about("The rabbet (rebate), from one inner side to the other."),
        ),
        (
            Self::Sight,
            Entry::new("sight", 2, "by its sight opening").about("The sight opening, from lip to lip."),
        ),
        (Self::Outside, Entry::new("outside", 3, "by its outside").about("The outside.")),
    ];
}
