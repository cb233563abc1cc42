//! Why nothing can be suggested.

use crate::figures::NoAnswer;
use crate::fit::in_hand::InHandError;
use std::fmt;

/// Why nothing can be suggested.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SuggestError {
    /// A plan has no answer.
    NoAnswer(#[from] NoAnswer),
    /// An original hangs there.
    Original,
    /// The largest is asked for, and a piece has no picture.
    NoPicture,
    /// What goes into the frame in hand is asked for, and the plan states none.
    NoFrame,
    /// The frame in hand takes no print.
    InHand(InHandError),
}

impl fmt::Display for SuggestError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoAnswer(why) => why.fmt(f),
            Self::Original => f.write_str(
                "an original has a fixed size, so no other size can be suggested; make the pieces of paper, canvas or aluminium first",
            ),
            Self::NoPicture => {
                f.write_str("choose a picture first; how large it can be printed depends on its pixels")
            }
            Self::NoFrame => {
                f.write_str("no frame that you already have is stated; first say what you measured")
            }
            Self::InHand(why) => why.fmt(f),
        }
    }
}
