//! `overmantel draw`: a plan's wall as a PNG.

use super::failure::{Failure, OtherPicture, PictureError};
use super::files::{Destination, PNG, folders};
use super::pictures::copy::copy;
use clap::Args;
use overmantel::draw::{
    LoadedPicture, MOST_SIDE_PX, Painter, Sheet, Theme, View, cut_out, projection::Projection,
};
use overmantel::figures::Figures;
use overmantel::plan::{Picture, Plan};
use overmantel::print_file::is_meant;
use overmantel::resample::Pyramid;
use overmantel::scene::scene;
use std::io::Write;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str =
    "\
Pictures are found by the file names in the plan, in the plan's folder and in the folders given with --pictures.
In place of a picture that is not found, its area is filled with a single colour, and you are told.

Examples:
  overmantel draw plan.json --out wall.png
  overmantel draw plan.json --out wall.png --width 3600 --ppi 300 --dark
  overmantel draw plan.json --out wall.png --no-lines --pictures ~/paintings
  overmantel draw plan.json --out pieces.png --alone --no-lines";

/// Pixels of a drawing at most: with all that it takes they are a little more than a gigabyte.
const MOST_DRAWN: u64 = 144_000_000;

/// Where and how to draw.
#[derive(Args)]
pub(crate) struct Draw {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// The PNG file to write, or - for standard output
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Width in pixels
    #[arg(long, default_value_t = 1600, value_parser = super::given::whole::<u32>(64, MOST_SIDE_PX))]
    width: u32,
    /// Height in pixels; what the wall needs when left out
    #[arg(long, value_parser = super::given::whole::<u32>(64, MOST_SIDE_PX))]
    height: Option<u32>,
    /// Resolution that the file declares, in pixels per inch
    #[arg(long, default_value_t = 144, value_parser = super::given::whole::<u32>(1, 4800))]
    ppi: u32,
    /// The wall in the room, as you see it from where you stand, instead of flat and to scale
    #[arg(long)]
    oblique: bool,
    /// Draw on a dark sheet
    #[arg(long)]
    dark: bool,
    /// Only the pieces with their shadows and lines, on a transparent background, to put over another picture
    #[arg(long, conflicts_with = "oblique")]
    alone: bool,
    /// Leave out dimension lines
    #[arg(long)]
    no_lines: bool,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    /// Overwrite a file that already exists
    #[arg(long)]
    force: bool,
}

pub(crate) fn run(draw: &Draw) -> Result<(), Failure> {
    let out = Destination::of(&draw.out, draw.force, PNG)?;
    let plan = super::files::read_plan(&draw.plan)?;
    let figures = Figures::of(&plan)?;
    let scene = scene(&plan, &figures);
    let folders = folders(&draw.plan, &draw.pictures);
    let shown = shown(&plan);
    let load = |(index, picture): (usize, &Picture)| match find(picture, &folders) {
        _ if !shown.contains(&index) => Ok(None),
        Some(path) => load(picture, &path, draw.width.saturating_mul(2)).map(Some),
        None => {
            not_found(picture);
            Ok(None)
        }
    };
    let copies = plan.pictures.iter().enumerate().map(load).collect::<Result<Vec<_>, Failure>>()?;
    let mut sheet = Sheet::new(draw.width, MOST_SIDE_PX);
    sheet.lines = !draw.no_lines;
    sheet.view = if draw.oblique { View::Oblique } else { View::Elevation };
    sheet.theme = if draw.dark { Theme::DARK } else { Theme::LIGHT };
    #[expect(clippy::cast_precision_loss, reason = "at most 16384")]
    let ratio = draw.width as f32 / 1200.0;
    sheet.pixel_ratio = ratio.max(1.0);
    sheet.height_px =
        draw.height.unwrap_or_else(|| Projection::height_for_width(&scene, &sheet)).min(MOST_SIDE_PX);
    let (width, height) = (sheet.width_px, sheet.height_px);
    if u64::from(width) * u64::from(height) > MOST_DRAWN {
        return Err(Failure::Drawing { width, height });
    }
    let copies: Vec<Option<&LoadedPicture>> = copies.iter().map(Option::as_ref).collect();
    if draw.alone {
        let pixels = cut_out(&scene, &copies, &sheet).ok_or(PictureError::NoRoom)?;
        return write_png(&out, sheet.width_px, sheet.height_px, draw.ppi, &Pixels::Covering(&pixels));
    }
    let mut painter = Painter::default();
    let drawing = painter.draw(&scene, &copies, &sheet);
    write_png(&out, sheet.width_px, sheet.height_px, draw.ppi, &Pixels::Opaque(drawing.pixels))
}

/// The pictures that pieces show.
pub(crate) fn shown(plan: &Plan) -> Vec<usize> {
    let pieces = plan.pieces.iter().filter_map(|piece| piece.picture);
    pieces.chain(plan.split.map(|split| split.picture)).collect()
}

/// Tells that a picture is missing.
pub(crate) fn not_found(picture: &Picture) {
    super::tell(format_args!("{} was not found, so its area is filled with a single colour", picture.file));
}

pub(crate) fn find(picture: &Picture, folders: &[PathBuf]) -> Option<PathBuf> {
    // Only the last part of the name counts: a plan from elsewhere must not reach into other folders.
    let name = Path::new(&picture.file).file_name()?;
    folders.iter().map(|folder| folder.join(name)).find(|path| path.is_file())
}

/// Reads a picture and keeps a copy whose longer side is at most so many pixels.
///
/// # Errors
/// When it can't be read, or has another shape than the plan counts on.
pub(crate) fn load(picture: &Picture, path: &Path, longest: u32) -> Result<LoadedPicture, Failure> {
    let (raster, found) = copy(path, longest)?;
    is_of_its_shape(picture, found)?;
    Ok(LoadedPicture {
        pyramid: Pyramid::of(raster),
        file_width_px: picture.width_px,
        file_height_px: picture.height_px,
        revision: 1,
    })
}

/// Sees that a picture can be drawn where another with its pixels is meant: fewer or more of them, in the same shape.
///
/// # Errors
/// When it has another shape.
pub(crate) fn is_of_its_shape(picture: &Picture, found: (u32, u32)) -> Result<(), OtherPicture> {
    let stated = (picture.width_px, picture.height_px);
    is_meant(&picture.file, stated, found, true).map(|_| ()).map_err(OtherPicture::Shape)
}

/// Sees that a picture is the one that the plan counts on, pixel for pixel, or a smaller copy where that was allowed, which is told.
///
/// # Errors
/// When it has another shape, more pixels, or fewer and that was not allowed.
pub(crate) fn is_as_counted_on(
    picture: &Picture,
    found: (u32, u32),
    may_be_smaller: bool,
) -> Result<(), OtherPicture> {
    let stated = (picture.width_px, picture.height_px);
    is_of_its_shape(picture, found)?;
    is_meant(&picture.file, stated, found, may_be_smaller).map_err(OtherPicture::Smaller)?;
    if found.0 > stated.0 || found.1 > stated.1 {
        return Err(OtherPicture::Larger { file: picture.file.clone(), stated, found });
    }
    if found != stated {
        let ((width, height), file) = (found, &picture.file);
        super::tell(format_args!(
            "{file} has {width} × {height} pixels and is a smaller copy; all figures are for {} × {}",
            stated.0, stated.1
        ));
    }
    Ok(())
}

/// Pixels of four bytes.
pub(crate) enum Pixels<'a> {
    /// All of them whole.
    Opaque(&'a [u8]),
    /// Each with its cover.
    Covering(&'a [u8]),
}

pub(crate) fn write_png(
    out: &Destination,
    width: u32,
    height: u32,
    ppi: u32,
    pixels: &Pixels<'_>,
) -> Result<(), Failure> {
    let (kind, samples) = match pixels {
        Pixels::Covering(_) => (png::ColorType::Rgba, 4),
        Pixels::Opaque(_) => (png::ColorType::Rgb, 3),
    };
    let (Pixels::Covering(pixels) | Pixels::Opaque(pixels)) = pixels;
    out.write(|out| {
        let mut encoder = png::Encoder::new(out, width, height);
        encoder.set_color(kind);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
        // The PNG standard counts density in pixels per metre: ppi / 0.0254, to the nearest.
        let per_metre = u32::try_from((u64::from(ppi) * 10_000 + 127) / 254).unwrap_or(u32::MAX);
        encoder.set_pixel_dims(Some(png::PixelDimensions {
            xppu: per_metre,
            yppu: per_metre,
            unit: png::Unit::Meter,
        }));
        let mut writer = encoder.write_header()?;
        // Row by row: all pixels once more would be as much memory again.
        let mut stream = writer.stream_writer()?;
        let mut stored = Vec::new();
        for row in pixels.chunks_exact(width as usize * 4) {
            stored.clear();
            stored.extend(row.as_chunks::<4>().0.iter().flat_map(|pixel| &pixel[..samples]));
            stream.write_all(&stored)?;
        }
        stream.finish()?;
        Ok(writer.finish()?)
    })
}
