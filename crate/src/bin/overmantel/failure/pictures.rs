//! Why a picture file can't be read.

use super::Cause;
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
    #[error("{0} is not a picture that this program can read; save it as PNG, JPEG or TIFF, and use that")]
    Unknown(PathBuf),
    /// The colours are those of inks.
    #[error(
        "{0} is in CMYK, which this program does not convert; save it in RGB with its profile, and use that"
    )]
    Cmyk(PathBuf),
    /// The TIFF has other samples than are read here.
    #[error(
        "{0} is a kind of TIFF that this program can't read; save it as grey or RGB of 8 or 16 bits, pixel by pixel (not plane by plane), and use that"
    )]
    Tiff(PathBuf),
    /// A side has no pixels, or more than a plan can count on.
    #[error(
        "{path} says that it has {width} × {height} pixels, and a side may have 1 to {most}; save it smaller, and use that"
    )]
    Sides { path: PathBuf, width: u32, height: u32, most: u32 },
    /// The picture has to be read whole and is too large for that.
    #[error(
        "{path} says that it has {width} × {height} pixels and can only be read as a whole, which needs {mb} MB of memory, and at most {most} are allowed; save it as a PNG that is not interlaced, as a JPEG that is not progressive, or as a TIFF, and use that",
        mb = bytes.div_ceil(1_000_000), most = most / 1_000_000
    )]
    Large { path: PathBuf, width: u32, height: u32, bytes: u64, most: u64 },
    /// The file begins well and is damaged further on.
    #[error("{path} is incomplete: {why}")]
    BreaksOff { path: PathBuf, why: Cause },
    /// The file has fewer rows than it says.
    #[error("{0} ends before its last row")]
    Ends(PathBuf),
    /// The file has more coded pixels than it says.
    #[error("{0} is damaged: its data continue after its last row; save it again, and use that")]
    GoesOn(PathBuf),
    /// A turned picture can't be laid out.
    #[error(
        "the picture is stored on its side and has to be turned in a temporary file, but none can be written in {folder}: {why}; make space there, or turn the picture first"
    )]
    Turned { folder: PathBuf, why: io::Error },
    /// More rows are asked for than there are.
    #[error("there are no more rows")]
    NoRows,
}

/// What is wrong inside a picture file, where its library says it in terms of its own or finds nothing wrong.
#[derive(Clone, Copy, Debug, thiserror::Error)]
pub(crate) enum Fault {
    #[error("its data are damaged")]
    Damaged,
    #[error("it ends too early")]
    Early,
    #[error("reading it would take more memory than is allowed")]
    Memory,
    #[error("its samples are not of 8 or 16 bits; save it again with 16")]
    Bits,
    #[error("a strip is missing")]
    NoStrip,
    #[error("its samples are of another kind than it says")]
    Samples,
    #[error("its colours are of another kind than it says")]
    Colours,
    #[error("its strips or tiles are too large to be unpacked; save it in smaller ones")]
    Tiles,
    #[error("it states two sizes")]
    Sizes,
    #[error("it has no size that can be read")]
    Size,
    #[error("it ends within one of its parts")]
    CutOff,
    #[error("such a file is read as a whole and may have at most 256 MB; save it as a PNG or a TIFF")]
    Whole,
}

/// Names a file that is not what it begins as.
pub(crate) fn unreadable<E: Into<Cause>>(path: &Path, kind: &'static str) -> impl Fn(E) -> ReadError {
    move |why| ReadError::Unreadable { path: path.to_owned(), kind, why: why.into() }
}

/// Names a file that is damaged further on.
pub(crate) fn broken<E: Into<Cause>>(path: &Path) -> impl Fn(E) -> ReadError {
    move |why| ReadError::BreaksOff { path: path.to_owned(), why: why.into() }
}

impl From<png::DecodingError> for Fault {
    fn from(why: png::DecodingError) -> Self {
        match why {
            png::DecodingError::IoError(why) if why.kind() == io::ErrorKind::UnexpectedEof => Self::Early,
            png::DecodingError::LimitsExceeded => Self::Memory,
            _ => Self::Damaged,
        }
    }
}

impl From<image::ImageError> for Fault {
    fn from(why: image::ImageError) -> Self {
        match why {
            image::ImageError::Limits(_) => Self::Memory,
            image::ImageError::IoError(why) if why.kind() == io::ErrorKind::UnexpectedEof => Self::Early,
            _ => Self::Damaged,
        }
    }
}

impl From<zune_jpeg::errors::DecodeErrors> for Fault {
    fn from(why: zune_jpeg::errors::DecodeErrors) -> Self {
        match why {
            zune_jpeg::errors::DecodeErrors::ExhaustedData => Self::Early,
            _ => Self::Damaged,
        }
    }
}

impl From<tiff::TiffError> for Fault {
    fn from(why: tiff::TiffError) -> Self {
        match why {
            tiff::TiffError::LimitsExceeded => Self::Memory,
            tiff::TiffError::IoError(why) if why.kind() == io::ErrorKind::UnexpectedEof => Self::Early,
            _ => Self::Damaged,
        }
    }
}
