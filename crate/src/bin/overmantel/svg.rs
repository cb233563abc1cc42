//! `overmantel svg`: a drawing as an SVG file at true size.

use super::failure::Failure;
use super::files::{Destination, SVG};
use super::picture::is_of_its_shape;
use clap::{Args, ValueEnum};
use overmantel::figures::Figures;
use overmantel::papers::svg::{Drawing, write};
use overmantel::papers::{Job, Paper};
use std::path::PathBuf;

pub(crate) const HELP: &str = "\
The file is at full size: one of a wall 12 ft wide is slightly wider than 12 ft. Scale it in
your own program to print it smaller. Pictures are in the file, without the other data in their files.

Examples:
  overmantel svg plan.json --out wall.svg --pictures ~/paintings
  overmantel svg plan.json --of hanging --out hanging.svg
  overmantel svg plan.json --of pieces --clear --out pieces.svg
  overmantel svg plan.json --of section --piece 2 --clear --out section.svg";

/// The plan, which drawing, and where to write it.
#[derive(Args)]
pub(crate) struct SvgOf {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// The SVG file to write, or - for standard output
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Which drawing
    #[arg(long, value_enum, default_value_t = Which::Elevation)]
    of: Which,
    /// Which piece is cut, counted from 1
    #[arg(long, default_value_t = 1, value_parser = super::given::whole::<u8>(1, 3))]
    piece: u8,
    /// On a transparent background instead of white
    #[arg(long)]
    clear: bool,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    /// Overwrite a file that already exists
    #[arg(long)]
    force: bool,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Which {
    /// The wall with its dimension lines
    Elevation,
    /// The pieces with their dimension lines, and no wall
    Pieces,
    /// The wall with its hooks
    Hanging,
    /// A cut through a piece
    Section,
}

pub(crate) fn run(stated: &SvgOf) -> Result<(), Failure> {
    let out = Destination::of(&stated.out, stated.force, SVG)?;
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = overmantel::stock::Stock::offered();
    let photos = if matches!(stated.of, Which::Elevation | Which::Pieces) {
        super::papers::photos(&plan, &stated.plan, &stated.pictures, is_of_its_shape)?
    } else {
        Vec::new()
    };
    let drawing = match stated.of {
        Which::Elevation => Drawing::Elevation,
        Which::Pieces => Drawing::Pieces,
        Which::Hanging => Drawing::Hanging,
        Which::Section => Drawing::Section(usize::from(stated.piece) - 1),
    };
    let text = write(&Job::new(&plan, &figures, &stock, Paper::A4), drawing, &photos, stated.clear)?;
    out.put(text.as_bytes())
}
