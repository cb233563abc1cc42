//! What the recipient of a proposal says to it, beside the plan as it then is.

use super::LinkError;
use crate::described::{Choosable, Entry, Form, Member, Row, Thing, Words};

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

/// What is said of an option of a proposal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing is decided.
    #[default]
    Open,
    /// This is the one.
    Accepted,
    /// None of them is.
    Declined,
}

impl Choosable for Verdict {
    const NAME: &'static str = "Verdict";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Open, Entry::new("open", 0, "not decided yet")),
        (Self::Accepted, Entry::new("accepted", 1, "I'd like this one")),
        (Self::Declined, Entry::new("declined", 2, "none of these")),
    ];
}

/// An answer to a plan that was sent, or to an option of a proposal.
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
    /// The mark of the proposal that is answered; 0 for a plan that came by itself.
    pub proposal: u32,
    /// Which of its options, counted from 1; 0 for none.
    pub option: u32,
    /// What that is called.
    pub name: String,
    /// What is said of it.
    pub verdict: Verdict,
    /// Of when the answer is, such as 2027-01-31; may be empty.
    pub date: String,
    /// The sender's own number of the proposal; may be empty.
    pub number: String,
    /// Which version of it is answered.
    pub revision: u32,
}

/// Characters of the sender and of the note at most.
pub(super) const MOST_FROM: usize = 120;
pub(super) const MOST_NOTE: usize = 2_000;
/// Characters of a day.
const MOST_DATE: usize = 10;

#[rustfmt::skip]
mod rows {
    use super::{Form, MOST_DATE, MOST_FROM, MOST_NOTE, Row, Words};

    const fn number(number: u64, label: &'static str, most: i64) -> Row {
        Row::new("", "", number, label, "", Form::Number { least: 0, most, usual: 0, unit: "" })
    }

    const fn text(number: u64, label: &'static str, most: usize) -> Row {
        Row::new("", "", number, label, "", Form::Text { most, may_be_empty: true })
    }

    pub(super) static TO: Row = number(1, "mark of the plan", u32::MAX as i64);
    pub(super) static SIZE: Row = Row::new("", "", 2, "sizes", "", Form::Flag(Words::NONE));
    pub(super) static MAKE_UP: Row = Row::new("", "", 3, "make-up", "", Form::Flag(Words::NONE));
    pub(super) static FRAME: Row = Row::new("", "", 4, "frames", "", Form::Flag(Words::NONE));
    pub(super) static FROM: Row = text(5, "sender", MOST_FROM);
    pub(super) static NOTE: Row = text(6, "note", MOST_NOTE);
    pub(super) static PROPOSAL: Row = number(7, "mark of the proposal", u32::MAX as i64);
    pub(super) static OPTION: Row = number(8, "option", 6);
    pub(super) static NAME: Row = text(9, "name of the option", MOST_FROM);
    pub(super) static VERDICT: Row = Row::choice("", "", 10, "verdict", "");
    pub(super) static DATE: Row = text(11, "date", MOST_DATE);
    pub(super) static NUMBER: Row = text(12, "number of the proposal", MOST_FROM);
    pub(super) static REVISION: Row = number(13, "version of the proposal", 999);
}

impl Thing for Answer {
    fn title(&self) -> (&'static str, &'static str) {
        ("Answer", "An answer to a plan that was sent.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { to, decided: Decided { size, make_up, frame }, from, note, .. } = self;
        vec![
            Member::of(&rows::TO, to),
            Member::of(&rows::SIZE, size),
            Member::of(&rows::MAKE_UP, make_up),
            Member::of(&rows::FRAME, frame),
            Member::of(&rows::FROM, from),
            Member::of(&rows::NOTE, note),
            Member::of(&rows::PROPOSAL, &mut self.proposal),
            Member::of(&rows::OPTION, &mut self.option),
            Member::of(&rows::NAME, &mut self.name),
            Member::choice(&rows::VERDICT, &mut self.verdict),
            Member::of(&rows::DATE, &mut self.date),
            Member::of(&rows::NUMBER, &mut self.number),
            Member::of(&rows::REVISION, &mut self.revision),
        ]
    }
}

impl Answer {
    /// Whether its texts are no longer than they may be.
    pub(super) fn check(&self) -> Result<(), LinkError> {
        let texts = [
            ("sender", &self.from, MOST_FROM),
            ("note", &self.note, MOST_NOTE),
            ("option", &self.name, MOST_FROM),
            ("date", &self.date, MOST_DATE),
            ("number", &self.number, MOST_FROM),
        ];
        for (what, text, most) in texts {
            let given = text.chars().count();
            if given > most {
                return Err(LinkError::Long { what, given, most });
            }
        }
        Ok(())
    }
}
