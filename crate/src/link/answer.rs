//! What the recipient of a proposal says to it, beside the plan as it then is.

use super::LinkError;
use crate::described::{Form, Member, Row, Thing, Words};

/// What is decided; all else is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Decided {
    /// The sizes.
    pub size: bool,
    /// Of what the pieces are made, with mats and glazing.
    pub make_up: bool,
    /// The frames.
    pub frame: bool,
}

/// An answer to a plan that was sent.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Answer {
    /// The [mark](super::mark) of the plan that was sent.
    pub to: u32,
    /// What is decided.
    pub decided: Decided,
    /// Who answers.
    pub from: String,
    /// What else there is to say.
    pub note: String,
}

/// Characters of the sender and of the note at most.
pub(super) const MOST_FROM: usize = 120;
pub(super) const MOST_NOTE: usize = 2_000;

#[rustfmt::skip]
mod rows {
    use super::{Form, MOST_FROM, MOST_NOTE, Row, Words};

    pub(super) static TO: Row = Row::new("", "", 1, "mark of the plan", "", Form::Number { least: 0, most: u32::MAX as i64, usual: 0, unit: "" });
    pub(super) static SIZE: Row = Row::new("", "", 2, "sizes", "", Form::Flag(Words::NONE));
    pub(super) static MAKE_UP: Row = Row::new("", "", 3, "make-up", "", Form::Flag(Words::NONE));
    pub(super) static FRAME: Row = Row::new("", "", 4, "frames", "", Form::Flag(Words::NONE));
    pub(super) static FROM: Row = Row::new("", "", 5, "sender", "", Form::Text { most: MOST_FROM, may_be_empty: true });
    pub(super) static NOTE: Row = Row::new("", "", 6, "note", "", Form::Text { most: MOST_NOTE, may_be_empty: true });
}

impl Thing for Answer {
    fn title(&self) -> (&'static str, &'static str) {
        ("Answer", "An answer to a plan that was sent.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { to, decided: Decided { size, make_up, frame }, from, note } = self;
        vec![
            Member::of(&rows::TO, to),
            Member::of(&rows::SIZE, size),
            Member::of(&rows::MAKE_UP, make_up),
            Member::of(&rows::FRAME, frame),
            Member::of(&rows::FROM, from),
            Member::of(&rows::NOTE, note),
        ]
    }
}

impl Answer {
    /// Whether its texts are no longer than they may be.
    pub(super) fn check(&self) -> Result<(), LinkError> {
        for (what, text, most) in [("sender", &self.from, MOST_FROM), ("note", &self.note, MOST_NOTE)] {
            let given = text.chars().count();
            if given > most {
                return Err(LinkError::Long { what, given, most });
            }
        }
        Ok(())
    }
}
