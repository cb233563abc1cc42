//! Why a paper, or what goes into one, can't be made.

use super::template::MOST_SHEETS;
use crate::quoted::short;
use std::fmt;

/// Why a paper, or what goes into one, can't be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PaperError {
    /// A text is no day of the calendar.
    Date(String),
    /// A template takes more sheets than anybody joins: so many.
    Sheets(usize),
    /// The plan has no such piece.
    NoPiece {
        /// How many it has.
        count: usize,
        /// Which was asked for, counted from 0.
        piece: usize,
    },
    /// A picture is no JPEG file, or not all of one.
    NotJpeg,
}

impl fmt::Display for PaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Date(text) => {
                write!(f, "\"{}\" is no date; write year, month and day, such as 2026-11-26", short(text))
            }
            Self::Sheets(count) => write!(
                f,
                "the template at full size would take {count} sheets, and more than {MOST_SHEETS} nobody joins; leave it out and mark the wall by the hanging plan"
            ),
            Self::NoPiece { count, piece } => {
                write!(f, "the plan has {count} pieces, so there is no piece {}", piece + 1)
            }
            Self::NotJpeg => {
                f.write_str("the picture is no whole JPEG file; save it again as a JPEG, and use that")
            }
        }
    }
}
