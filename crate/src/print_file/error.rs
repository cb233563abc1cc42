//! Why a print-ready picture can't be made.

use super::limits;
use crate::length::{Length, print::plain};
use std::fmt;

/// Why a print-ready picture can't be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PrintFileError {
    /// The plan has no such piece.
    NoPiece {
        /// How many it has.
        count: usize,
        /// Which was asked for, counted from 0.
        piece: usize,
    },
    /// A piece, counted from 0, is the original.
    Original(usize),
    /// A piece, counted from 0, has no picture.
    NoPicture(usize),
    /// The bleed is out of its range.
    Bleed(Length),
    /// The pixels per inch are out of their range.
    Density(u32),
    /// The file would have too many pixels along a side.
    Large {
        /// Of which piece, counted from 0.
        piece: usize,
        /// Its size in pixels, width first.
        size_px: (u32, u32),
    },
    /// A picture's file has another shape than the one that the plan counts on.
    Shape {
        /// The file.
        file: String,
        /// The pixels that the plan counts on, width first.
        stated: (u32, u32),
        /// The pixels that the file has.
        found: (u32, u32),
    },
    /// A picture's file has fewer pixels than the one that the plan counts on.
    Smaller {
        /// The file.
        file: String,
        /// The pixels that the plan counts on, width first.
        stated: (u32, u32),
        /// The pixels that the file has.
        found: (u32, u32),
    },
}

impl fmt::Display for PrintFileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let px = |(width, height): &(u32, u32)| format!("{width} × {height}");
        match self {
            Self::NoPiece { count, piece } => {
                let pieces = if *count == 1 { "piece" } else { "pieces" };
                write!(f, "the plan has {count} {pieces}, so there is no piece {}", piece + 1)
            }
            Self::Original(piece) => {
                write!(f, "piece {} is the original, so there is nothing to print", piece + 1)
            }
            Self::NoPicture(piece) => write!(
                f,
                "piece {} has no picture yet, so there is nothing to print; give it one in the plan",
                piece + 1
            ),
            Self::Bleed(given) => write!(
                f,
                "a bleed of {} can't be added; allowed: 0 to {}",
                plain(*given),
                plain(limits::BLEED)
            ),
            Self::Density(given) => {
                let [least, most] = limits::DENSITY;
                write!(f, "a resolution of {given} ppi is not possible; choose {least} to {most}")
            }
            Self::Large { piece, size_px } => write!(
                f,
                "piece {} would be a file of {} pixels, and at most {} along a side are allowed; choose a lower resolution",
                piece + 1,
                px(size_px),
                limits::SIDE_PX
            ),
            Self::Shape { file, stated, found } => write!(
                f,
                "{file} has {} pixels, and the plan expects {}, which is another shape; use the picture that the plan was made with, or choose this one in the plan",
                px(found),
                px(stated)
            ),
            Self::Smaller { file, stated, found } => write!(
                f,
                "{file} has {} pixels, and the plan expects {}; this is a smaller copy, so use the picture at its full size",
                px(found),
                px(stated)
            ),
        }
    }
}
