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
    /// A coloured edge can't be said in a profile of greys.
    #[error(
        "piece {piece}: the picture is grey with a profile of greys, and the edge is {colour}; save the picture in RGB, or choose an edge without colour"
    )]
    GreyProfile { piece: usize, colour: Colour },
    /// What stands in mirror image, or is scaled, would take too much memory.
    #[error(
        "piece {piece} would take {} MB of memory, for what is read whole, stands in mirror image or is scaled, and {} are allowed; ask for a narrower bleed or another density, or save the picture as a PNG or TIFF that is read row by row",
        bytes.div_ceil(1_000_000), most / 1_000_000
    )]
    Memory { piece: usize, bytes: u64, most: u64 },
    /// A JPEG can't be so large.
    #[error(
        "a JPEG has at most 65535 pixels along a side, and this is {width} × {height}; choose PNG or TIFF, or ask for a lower density"
    )]
    LargeJpeg { width: u32, height: u32 },
}
