//! Why the coded pixels of a JPEG can't be read.

use std::fmt;
use std::io;

/// Why the coded pixels of a JPEG can't be read.
#[derive(Debug, thiserror::Error)]
pub(in crate::pictures) enum JpegError {
    /// The file can't be read any further.
    File(#[from] io::Error),
    /// Where a marker should stand there is none.
    NoMarker,
    /// A segment is shorter than its own length.
    NoLength,
    /// A segment ends too early.
    CutOff,
    /// The mean of a block is out of its range.
    Mean,
    /// A block has more than 64 values.
    Values,
    /// The data end before the last block.
    Early,
    /// There is no such code in the table.
    Code,
    /// There are coded data behind the last unit.
    GoesOn,
    /// A scan is of none of the kinds that are read here.
    Scan,
    /// There are more scans than any picture needs.
    Scans,
    /// What stands before the pixels is longer than it may be.
    Long,
    /// Where a restart marker should stand there is none.
    NoRestart,
}

impl fmt::Display for JpegError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::File(why) => return why.fmt(f),
            Self::NoMarker => "a marker is missing",
            Self::NoLength => "a segment has no length",
            Self::CutOff => "a segment is cut off",
            Self::Mean => "a mean is out of its range",
            Self::Values => "a block has too many values",
            Self::Early => "its data end too early",
            Self::Code => "a code has no meaning",
            Self::GoesOn => "its data continue after its declared end",
            Self::Scan => "its data are of a kind that this program can't read",
            Self::Scans => "it has more scans than any picture needs",
            Self::Long => "the data before its pixels are longer than 64 MB",
            Self::NoRestart => "a restart marker is missing",
        })
    }
}
