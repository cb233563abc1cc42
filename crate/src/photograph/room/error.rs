//! Why a photograph of a room, or what is marked in it, is refused: what was given, what is allowed and what to do.

use super::super::estimate::NoEstimate;
use super::{LEAST_SIDE_PX, MOST_MARKS, MOST_SIDE_PX};

/// Why a photograph, a mark or a file can't be used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RoomError {
    /// Too small.
    #[error(
        "the photograph has {0} × {1} pixels; at least {LEAST_SIDE_PX} each way are needed to measure a sheet in it"
    )]
    Small(u32, u32),
    /// Too long.
    #[error(
        "the photograph has {0} × {1} pixels, as long as a panorama; straight lines are bent in those: take one photograph from one place"
    )]
    Panorama(u32, u32),
    /// Larger than is kept.
    #[error("the photograph has {0} × {1} pixels; reduce it to at most {MOST_SIDE_PX} on the longer side")]
    Large(u32, u32),
    /// No file of a room.
    #[error("the file is no room as this program writes it: {0}")]
    File(String),
    /// A file of another photograph.
    #[error("the marks are of a photograph of {0} × {1} pixels, and this one has {2} × {3}")]
    OtherPhotograph(u32, u32, u32, u32),
    /// A mark that is no place.
    #[error("a mark lies at {0}, {1}, which is not in the photograph or near it")]
    Mark(f64, f64),
    /// More than are kept.
    #[error("a room has at most {MOST_MARKS} lines, lengths, things and strokes of each kind")]
    Many,
    /// A length that is none.
    #[error("\"{0}\" is no length: write a number and its unit, as in 2.04 m or 6' 8\"")]
    Length(String),
    /// A length that can't be.
    #[error("\"{0}\" is not between 1 cm and 20 m")]
    LengthRange(String),
    /// No sheet yet.
    #[error(
        "no sheet of paper was found; mark its four corners: top left, top right, bottom right, bottom left"
    )]
    NoSheet,
    /// No camera for these marks.
    #[error(transparent)]
    NoEstimate(#[from] NoEstimate),
    /// The plan takes no more.
    #[error("{0}")]
    Plan(String),
    /// A line too short to say anything.
    #[error("the line is shorter than {0} pixels; draw it along more of the edge")]
    ShortLine(u32),
    /// A kind that is none.
    #[error("there is no \"{0}\" among what can stand in a room")]
    Kind(String),
}
