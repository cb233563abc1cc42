//! Why something can't be cut from what the stock has.

use super::MOST_RAILS;
use crate::geometry::Size;
use crate::length::{Length, print::plain};
use crate::plan::Material;
use std::fmt;

/// Why something can't be cut.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CutError {
    /// The stock has no sheet of a material.
    NoSheet {
        /// Of what.
        material: Material,
        /// How thick, where that was asked for.
        thickness: Option<Length>,
    },
    /// No sheet of a material is large enough.
    SmallSheets {
        /// Of what.
        material: Material,
        /// How thick, where that was asked for.
        thickness: Option<Length>,
        /// What is to be cut from it.
        blank: Size,
        /// The largest that there is.
        largest: Size,
    },
    /// More legs than are packed at once: so many.
    ManyRails(usize),
    /// A leg is nothing, or less.
    NoRail {
        /// Which of the legs, counted from 0.
        index: usize,
        /// How long it is.
        length: Length,
    },
    /// A leg is longer than what a stick gives.
    LongRail {
        /// Which of the legs, counted from 0.
        index: usize,
        /// How long it is.
        length: Length,
        /// What the stick is called.
        stick: String,
        /// What it gives.
        usable: Length,
    },
    /// The opening of a mat is nothing, or less: so large.
    NoOpening(Size),
    /// The opening of a mat reaches to an edge of the board.
    ThinBorder {
        /// The narrowest border.
        border: Length,
        /// What the bevel takes of it: the board's thickness.
        bevel: Length,
    },
}

impl fmt::Display for CutError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let thick = |thickness: &Option<Length>| {
            thickness.map_or(String::new(), |it| format!(", {} thick", plain(it)))
        };
        match self {
            Self::NoSheet { material, thickness } => write!(
                f,
                "the stock list has no sheet of {}{}; add one, or choose another material",
                material.name(),
                thick(thickness)
            ),
            Self::SmallSheets { material, thickness, blank, largest } => write!(
                f,
                "no sheet of {}{} is large enough for {} × {}; the largest in the stock list is {} × {}, so make the piece smaller or add a larger sheet",
                material.name(),
                thick(thickness),
                plain(blank.width),
                plain(blank.height),
                plain(largest.width),
                plain(largest.height)
            ),
            Self::ManyRails(count) => {
                write!(
                    f,
                    "{count} legs were given, and at most {MOST_RAILS} are packed at once; pack them in several lots"
                )
            }
            Self::NoRail { index, length } => {
                write!(f, "leg {} is {} long; a leg must be longer than zero", index + 1, plain(*length))
            }
            Self::LongRail { index, length, stick, usable } => write!(
                f,
                "leg {} is {} long and a stick \"{stick}\" allows {}; choose longer sticks or a smaller frame",
                index + 1,
                plain(*length),
                plain(*usable)
            ),
            Self::NoOpening(size) => write!(
                f,
                "the opening is {} × {}; it must be more than zero",
                plain(size.width),
                plain(size.height)
            ),
            Self::ThinBorder { border, bevel } => write!(
                f,
                "the narrowest border is {} and the bevel takes {} of it; make the board larger or the opening smaller",
                plain(*border),
                plain(*bevel)
            ),
        }
    }
}
