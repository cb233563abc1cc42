//! Why a print-ready picture can't be made.

use overmantel::colour::Colour;
use overmantel::length::parse::ParseError;
use overmantel::print_file::PrintFileError;

/// Why a print-ready picture can't be made.
#[derive(Debug, thiserror::Error)]
pub(crate) enum MakeError {
    /// The bleed is no length.
    #[error("the bleed: {0}")]
    Bleed(ParseError),
    /// Nothing of the plan is printed.
    #[error("there is nothing to print: this is the original")]
    Nothing,
    /// A picture is not where it is looked for.
    #[error("{0} was not found next to the plan or in a folder given with --pictures; say where it is")]
    NotFound(String),
    /// The picture that was found has fewer pixels than the plan counts on.
    #[error("{0}, or use it with --smaller")]
    Smaller(PrintFileError),
    /// The plan has no such print.
    #[error(transparent)]
    Recipe(#[from] PrintFileError),
    /// A coloured edge can't be said in a profile of greys.
    #[error(
        "piece {piece}: the picture is grey with a grey profile, and the solid edge is {colour}; save the picture in RGB, or choose a grey edge"
    )]
    GreyProfile { piece: usize, colour: Colour },
    /// What stands in mirror image, or is scaled, would take too much memory.
    #[error(
        "piece {piece} would need {} MB of memory, because it is read as a whole, mirrored or scaled, and at most {} are allowed; choose a narrower bleed or another resolution, or save the picture as a PNG or TIFF that can be read row by row",
        bytes.div_ceil(1_000_000), most / 1_000_000
    )]
    Memory { piece: usize, bytes: u64, most: u64 },
    /// A JPEG can't be so large.
    #[error(
        "a JPEG can have at most 65535 pixels along a side, and this one would have {width} × {height}; choose PNG or TIFF, or a lower resolution"
    )]
    LargeJpeg { width: u32, height: u32 },
}
