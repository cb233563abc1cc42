//! Why what is made can't be cut from what the stock has.

use crate::cut_list::CutError;
use std::fmt;

/// Why nothing of the stock will do for all that is made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MakingError {
    /// A part can't be cut.
    Cut(CutError),
    /// Each part has a sheet that takes it, and no sheet takes them all.
    NoOneSheet,
    /// The stock has no sticks of moulding.
    NoSticks,
}

impl fmt::Display for MakingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cut(why) => why.fmt(f),
            Self::NoOneSheet => f.write_str("no single sheet is large enough for these parts"),
            Self::NoSticks => f.write_str("the stock list has no sticks of moulding; add one"),
        }
    }
}
