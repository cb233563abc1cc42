//! `overmantel section`: a cut through one piece of a plan, as a PNG.

use super::failure::Failure;
use super::files::{Destination, PNG};
use super::picture::{Pixels, write_png};
use clap::Args;
use overmantel::draw::{MOST_SIDE_PX, Sheet, Theme, section};
use overmantel::figures::Figures;
use std::path::PathBuf;

pub(crate) const HELP: &str =
    "\
The section is a cut through the bottom of the piece, from the wall on the left to the viewer on the right, with every layer to
scale: moulding, glazing, spacer, mats with their bevels, print, mount board and backing; bars and canvas; sheet and blocks.

Example:
  overmantel section plan.json --piece 2 --out section.png";

/// Which piece, and where to draw it.
#[derive(Args)]
pub(crate) struct Section {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// The PNG file to write, or - for standard output
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Which piece, counted from 1
    #[arg(long, default_value_t = 1, value_parser = super::given::whole::<u8>(1, 3))]
    piece: u8,
    /// Width in pixels; the height follows
    #[arg(long, default_value_t = 1200, value_parser = super::given::whole::<u32>(240, MOST_SIDE_PX))]
    width: u32,
    /// Resolution that the file declares, in pixels per inch
    #[arg(long, default_value_t = 144, value_parser = super::given::whole::<u32>(1, 4800))]
    ppi: u32,
    /// Draw on a dark sheet
    #[arg(long)]
    dark: bool,
    /// Overwrite a file that already exists
    #[arg(long)]
    force: bool,
}

pub(crate) fn run(stated: &Section) -> Result<(), Failure> {
    let out = Destination::of(&stated.out, stated.force, PNG)?;
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let index = usize::from(stated.piece) - 1;
    let cut = overmantel::scene::section::section(&plan, &figures, index)
        .ok_or_else(|| Failure::NoPiece { number: stated.piece, pieces: plan.pieces.len() })?;
    let mut sheet = Sheet::new(stated.width, MOST_SIDE_PX);
    sheet.theme = if stated.dark { Theme::DARK } else { Theme::LIGHT };
    #[expect(clippy::cast_precision_loss, reason = "at most 16384")]
    let ratio = stated.width as f32 / 600.0;
    sheet.pixel_ratio = ratio.max(1.0);
    let drawing = section::draw(&cut, &sheet, plan.units.first);
    let pixels = Pixels::Opaque(&drawing.pixels);
    write_png(&out, drawing.width_px, drawing.height_px, stated.ppi, &pixels)
}
