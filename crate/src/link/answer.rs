//! What the recipient of a proposal says to it, beside the plan as it then is.

use super::code::{Coded, Fields};

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

/// Characters of the sender and of the note at the most.
pub(super) const MOST_FROM: usize = 120;
pub(super) const MOST_NOTE: usize = 2_000;

impl Answer {
    /// Whether its texts are no longer than they may be.
    pub(super) fn check(&self) -> Result<(), String> {
        for (what, text, most) in [("sender", &self.from, MOST_FROM), ("note", &self.note, MOST_NOTE)] {
            let characters = text.chars().count();
            if characters > most {
                return Err(format!(
                    "the {what} of the answer has {characters} characters; at most {most} are read"
                ));
            }
        }
        Ok(())
    }
}

pub(super) fn fields(code: &mut Fields<'_>, answer: &mut Answer, usual: &Answer) -> Coded {
    let Answer { to, decided: Decided { size, make_up, frame }, from, note } = answer;
    code.number(1, to, usual.to)?;
    code.flag(2, size, usual.decided.size)?;
    code.flag(3, make_up, usual.decided.make_up)?;
    code.flag(4, frame, usual.decided.frame)?;
    code.text(5, from, &usual.from)?;
    code.text(6, note, &usual.note)
}
