//! Picture files, and what is kept of them.

use super::limits;
use crate::described::{
    Absent, Choosable, Entry, Form, Item, Leaf, Member, Packing, Referred, Row, Slot, Thing, Words,
    maybe_filled,
};

/// A picture file. The picture itself is not in the plan.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Picture {
    /// Its title; no two pictures of a plan share one.
    pub name: String,
    /// The name of its file.
    pub file: String,
    /// Pixels from left to right, upright.
    pub width_px: u32,
    /// Pixels from top to bottom, upright.
    pub height_px: u32,
    /// What must be kept: a figure, a boat.
    pub subject: Option<Focus>,
}

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Packing, Referred, Row, Words, limits};

    pub static PICTURE_NAME: Row = Row::new("", "name", 1, "title", "Its title; no two pictures share one.", Form::Text { most: limits::NAME, may_be_empty: false }).needed();
    pub static PICTURE_FILE: Row = Row::new("", "file", 2, "file name", "The name of its file.", Form::Text { most: limits::NAME * 2, may_be_empty: true }).needed();
    pub static PICTURE_PIXELS: Row = Row::new("", "pixels", 3, "number of pixels", "Width and height of the file in pixels, upright.", Form::Pair { least: 1, most: limits::PICTURE_SIDE_PX as i64, usual: [6000, 4000], packing: Packing::InTurn, sides: None }).needed();
    pub static PICTURE_SUBJECT: Row = Row::new("subject", "subject", 5, "what matters in *", "What must be kept: thousandths of the picture from the left and from the top.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static PICTURE_SUBJECT_ITSELF: Row = Row::new("", "", 1, "what matters in *", "", Form::Pair { least: 0, most: 1000, usual: [500, 500], packing: Packing::InTurn, sides: None });

    pub static SPLIT_PICTURE: Row = Row::new("split.picture", "picture", 1, "picture over all panels", "Name of the picture.", Form::Reference(Referred::Picture)).needed();
    const PERMILLE: Form = Form::Number { least: 0, most: 1000, usual: 500, unit: "‰" };
    pub static SPLIT_FOCUS_ACROSS: Row = Row::part("split.focus_across", "middle of what is kept, from the left edge of the picture", PERMILLE);
    pub static SPLIT_FOCUS_DOWN: Row = Row::part("split.focus_down", "middle of what is kept, from the top edge of the picture", PERMILLE);
    pub static SPLIT_FOCUS: Row = Row::new("split.focus", "focus", 2, "what the panels keep of the picture", "The middle of what is kept: thousandths of the picture from the left and from the top.", Form::focus(Some([&SPLIT_FOCUS_ACROSS, &SPLIT_FOCUS_DOWN]))).absent(Absent::Default);
    pub static SPLIT_STRIPS: Row = Row::choice("split.strips", "strips", 3, "what happens to the strip behind each gap", "What happens to the strips of the picture behind the gaps: hidden so that lines meet across them, or kept.").needed();
}
pub use rows::*;

impl Thing for Picture {
    fn title(&self) -> (&'static str, &'static str) {
        ("Picture", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, file, width_px, height_px, subject } = self;
        vec![
            Member::of(&PICTURE_NAME, name),
            Member::of(&PICTURE_FILE, file),
            Member { row: &PICTURE_PIXELS, slot: Slot::Pair(width_px, height_px) },
            maybe_filled(&PICTURE_SUBJECT, subject, &PICTURE_SUBJECT_ITSELF, Focus::MIDDLE),
        ]
    }

    /// The file that a picture of this name usually comes from.
    fn stated(&mut self, row: &'static Row, in_link: bool) {
        if *row == PICTURE_NAME && in_link {
            let words: Vec<String> = self
                .name
                .split(|letter: char| !letter.is_alphanumeric())
                .filter(|word| !word.is_empty())
                .map(str::to_lowercase)
                .collect();
            self.file = words.join("-") + ".jpg";
        }
    }
}

impl Item for Picture {
    fn next(_before: &[Self]) -> Self {
        crate::described::usual()
    }
}

/// The point of a picture that is kept as near the middle as it can, in thousandths of its width from the left and
/// of its height from the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Focus {
    /// From the left edge, 0 to 1000.
    pub x_permille: u16,
    /// From the top edge, 0 to 1000.
    pub y_permille: u16,
}

impl Default for Focus {
    fn default() -> Self {
        Self::MIDDLE
    }
}

impl Focus {
    /// The middle of the picture.
    pub const MIDDLE: Self = Self { x_permille: 500, y_permille: 500 };
}

impl Leaf for Focus {
    fn slot(&mut self) -> Slot<'_> {
        Slot::Pair(&mut self.x_permille, &mut self.y_permille)
    }
}

/// One picture over all the pieces.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Split {
    /// Which of [`Plan::pictures`](super::Plan::pictures).
    pub picture: usize,
    /// What is kept.
    pub focus: Focus,
    /// What happens to the strips behind the gaps.
    pub strips: Strips,
}

impl Thing for Split {
    fn title(&self) -> (&'static str, &'static str) {
        ("Split", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { picture, focus, strips } = self;
        vec![
            Member::of(&SPLIT_PICTURE, picture),
            Member::of(&SPLIT_FOCUS, focus),
            Member::choice(&SPLIT_STRIPS, strips),
        ]
    }
}

/// What happens to the strip of the picture that would lie behind a gap.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Strips {
    /// It is hidden behind the gap, so that lines meet across it.
    #[default]
    Hidden,
    /// Nothing is lost: each panel starts where the one before ends.
    Kept,
}

impl Choosable for Strips {
    const NAME: &'static str = "Strips";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Hidden, Entry::new("hidden", 0, "hidden, so that lines meet")),
        (Self::Kept, Entry::new("kept", 1, "kept, so that nothing is lost")),
    ];
}
