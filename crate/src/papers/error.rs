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
                write!(f, "\"{}\" is not a date; write year, month and day, such as 2026-11-26", short(text))
            }
            Self::Sheets(count) => write!(
                f,
                "the template at full size would need {count} sheets, and at most {MOST_SHEETS} are made; leave it out and mark the wall from the hanging plan"
            ),
            Self::NoPiece { count, piece } => {
                write!(f, "there is no piece {}; choose a piece from 1 to {count}", piece + 1)
            }
            Self::NotJpeg => {
                f.write_str("the picture is not a complete JPEG file; save it again as a JPEG and use that")
            }
        }
    }
}
