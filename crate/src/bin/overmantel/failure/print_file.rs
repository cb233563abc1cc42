//! Why a picture file can't be read, or a print-ready picture not be made.

use super::Cause;
use overmantel::colour::Colour;
use overmantel::length::parse::ParseError;
use overmantel::print_file::PrintFileError;
use std::io;
use std::path::{Path, PathBuf};

/// Why a picture file can't be read.
#[derive(Debug, thiserror::Error)]
pub(crate) enum ReadError {
    /// The file can't be had.
    #[error("{path} can't be read: {why}")]
    File { path: PathBuf, why: io::Error },
    /// The file is not what it begins as.
    #[error("{path} can't be read as a {kind}: {why}")]
    Unreadable { path: PathBuf, kind: &'static str, why: Cause },
    /// The file is of no kind that is read here.
    #[error("{0} is no picture that can be read here; save it as PNG, JPEG or TIFF, and use that")]
    Unknown(PathBuf),
    /// The colours are those of inks.
    #[error(
        "{0} is in printing inks (CMYK), which are not converted here; save it in RGB with its profile, and use that"
    )]
    Cmyk(PathBuf),
    /// The TIFF has other samples than are read here.
    #[error(
        "{0} is a kind of TIFF that is not read here; save it as grey or RGB of 8 or 16 bits, its colours pixel by pixel, and use that"
    )]
    Tiff(PathBuf),
    /// The picture has to be read whole and is too large for that.
    #[error(
        "{path} has {bytes} bytes of pixels and can only be read whole, up to {most}; save it as a PNG that is not interlaced, or as a TIFF, and use that"
    )]
    Large { path: PathBuf, bytes: u64, most: u64 },
    /// The file begins well and is damaged further on.
    #[error("{path} breaks off: {why}")]
    BreaksOff { path: PathBuf, why: Cause },
    /// The file has fewer rows than it says.
    #[error("{0} ends before its last row")]
    Ends(PathBuf),
    /// The file in which a turned picture is laid out can't be written.
    #[error(
        "the picture is stored turned and is laid out in a file first, but {path} can't be written: {why}; make room there, or turn the picture before"
    )]
    Turned { path: PathBuf, why: io::Error },
    /// More rows are asked for than there are.
    #[error("there are no more rows")]
    NoRows,
}

/// What is wrong inside a picture file where its library finds nothing wrong.
#[derive(Clone, Copy, Debug, thiserror::Error)]
pub(crate) enum Fault {
    #[error("its samples are not of 8 or 16 bits; save it again with 16")]
    Bits,
    #[error("a strip is missing")]
    NoStrip,
    #[error("its samples are of another kind than it says")]
    Samples,
    #[error("its colours are of another kind than it says")]
    Colours,
    #[error("its tiles are too large to be put together; save it in strips")]
    Tiles,
}

/// Names a file that is not what it begins as.
pub(crate) fn unreadable<E: Into<Cause>>(path: &Path, kind: &'static str) -> impl Fn(E) -> ReadError {
    move |why| ReadError::Unreadable { path: path.to_owned(), kind, why: why.into() }
}

/// Names a file that is damaged further on.
pub(crate) fn broken<E: Into<Cause>>(path: &Path) -> impl Fn(E) -> ReadError {
    move |why| ReadError::BreaksOff { path: path.to_owned(), why: why.into() }
}

/// Why a print-ready picture can't be made.
#[derive(Debug, thiserror::Error)]
pub(crate) enum MakeError {
    /// The bleed is no length.
    #[error("the bleed: {0}")]
    Bleed(ParseError),
    /// Nothing of the plan is printed.
    #[error("there is nothing to print: what hangs is the original")]
    Nothing,
    /// A picture is not where it is looked for.
    #[error("{0} was not found beside the plan or in a folder given by --pictures; say where it is")]
    NotFound(String),
    /// The picture that was found has fewer pixels than the plan counts on.
    #[error("{0}, or take it as it is with --smaller")]
    Smaller(PrintFileError),
    /// The plan has no such print.
    #[error(transparent)]
    Recipe(#[from] PrintFileError),
    /// A file is there already.
    #[error("{0} is there already and is left as it is; give another folder, or --force to write over it")]
    Exists(PathBuf),
    /// A coloured edge can't be said in a profile of greys.
    #[error(
        "piece {piece}: the picture is grey with a profile of greys, and the edge is {colour}; save the picture in RGB, or choose an edge without colour"
    )]
    GreyProfile { piece: usize, colour: Colour },
    /// A JPEG can't be so large.
    #[error(
        "a JPEG has at most 65535 pixels along a side, and this is {width} × {height}; choose PNG or TIFF, or ask for a lower density"
    )]
    LargeJpeg { width: u32, height: u32 },
}
