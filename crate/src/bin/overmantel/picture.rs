//! `overmantel draw`: a plan's wall as a PNG.

use super::failure::{Failure, PictureError, unreadable, unwritable};
use clap::Args;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits};
use overmantel::draw::{
    LoadedPicture, MOST_SIDE_PX, Painter, Sheet, Theme, View, cut_out, projection::Projection,
};
use overmantel::figures::Figures;
use overmantel::plan::Picture;
use overmantel::resample::{Pyramid, Raster, RasterPart, resample};
use overmantel::scene::scene;
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str = "\
Pictures are looked for by the file names in the plan, in the plan's folder and in the folders given by --pictures.
A picture that is not found is drawn as a toned sheet, and said so.

Examples:
  overmantel draw plan.json --out wall.png
  overmantel draw plan.json --out wall.png --width 3600 --ppi 300 --dark
  overmantel draw plan.json --out wall.png --no-lines --pictures ~/paintings
  overmantel draw plan.json --out pieces.png --alone --no-lines";

/// Where to and how.
#[derive(Args)]
pub(crate) struct Draw {
    /// The plan file
    plan: PathBuf,
    /// The PNG file to write
    #[arg(long)]
    out: PathBuf,
    /// Width in pixels
    #[arg(long, default_value_t = 1600, value_parser = clap::value_parser!(u32).range(64..=i64::from(MOST_SIDE_PX)))]
    width: u32,
    /// Height in pixels; what the wall needs when left out
    #[arg(long, value_parser = clap::value_parser!(u32).range(64..=i64::from(MOST_SIDE_PX)))]
    height: Option<u32>,
    /// Pixels to the inch that the file declares of itself
    #[arg(long, default_value_t = 144, value_parser = clap::value_parser!(u32).range(1..=4800))]
    ppi: u32,
    /// The room in perspective, instead of the wall flat, to scale
    #[arg(long)]
    oblique: bool,
    /// A dark sheet
    #[arg(long)]
    dark: bool,
    /// The pieces alone with their shadows and lines, on a transparent ground: to be laid over another picture
    #[arg(long, conflicts_with = "oblique")]
    alone: bool,
    /// Leave out dimension lines
    #[arg(long)]
    no_lines: bool,
    /// A further folder with picture files; may be given several times
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
}

pub(crate) fn run(draw: &Draw) -> Result<(), Failure> {
    let plan = super::read_plan(&draw.plan)?;
    let figures = Figures::of(&plan)?;
    let scene = scene(&plan, &figures);
    let mut folders = vec![draw.plan.parent().map_or_else(PathBuf::new, Path::to_path_buf)];
    folders.extend(draw.pictures.iter().cloned());
    let copies = plan
        .pictures
        .iter()
        .map(|picture| match find(picture, &folders) {
            Some(path) => load(picture, &path, draw.width).map(Some),
            None => {
                eprintln!("overmantel: {} was not found, so its place is left toned", picture.file);
                Ok(None)
            }
        })
        .collect::<Result<Vec<_>, PictureError>>()?;
    let mut sheet = Sheet::new(draw.width, MOST_SIDE_PX);
    sheet.lines = !draw.no_lines;
    sheet.view = if draw.oblique { View::Oblique } else { View::Elevation };
    sheet.theme = if draw.dark { Theme::DARK } else { Theme::LIGHT };
    #[expect(clippy::cast_precision_loss, reason = "at most 16384")]
    let ratio = draw.width as f32 / 1200.0;
    sheet.pixel_ratio = ratio.max(1.0);
    sheet.height_px =
        draw.height.unwrap_or_else(|| Projection::height_for_width(&scene, &sheet)).min(MOST_SIDE_PX);
    let copies: Vec<Option<&LoadedPicture>> = copies.iter().map(Option::as_ref).collect();
    if draw.alone {
        let pixels = cut_out(&scene, &copies, &sheet).ok_or(PictureError::NoRoom)?;
        return write_png(&draw.out, sheet.width_px, sheet.height_px, draw.ppi, &Pixels::Covering(&pixels));
    }
    let mut painter = Painter::default();
    let drawing = painter.draw(&scene, &copies, &sheet);
    write_png(&draw.out, sheet.width_px, sheet.height_px, draw.ppi, &Pixels::Opaque(drawing.pixels))
}

pub(crate) fn find(picture: &Picture, folders: &[PathBuf]) -> Option<PathBuf> {
    // Only the last part of the name counts: a plan from elsewhere must not reach into other folders.
    let name = Path::new(&picture.file).file_name()?;
    folders.iter().map(|folder| folder.join(name)).find(|path| path.is_file())
}

/// Reads a picture and turns it upright.
pub(crate) fn decoded(path: &Path) -> Result<DynamicImage, PictureError> {
    let mut reader =
        ImageReader::open(path).and_then(ImageReader::with_guessed_format).map_err(unreadable(path))?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(4 << 30);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(unreadable(path))?;
    let orientation = decoder.orientation().map_err(unreadable(path))?;
    let mut image = DynamicImage::from_decoder(decoder).map_err(unreadable(path))?;
    image.apply_orientation(orientation);
    Ok(image)
}

/// Pixels of a file, upright.
pub(crate) fn upright_size(path: &Path) -> Result<(u32, u32), PictureError> {
    let reader =
        ImageReader::open(path).and_then(ImageReader::with_guessed_format).map_err(unreadable(path))?;
    let mut decoder = reader.into_decoder().map_err(unreadable(path))?;
    let (width, height) = decoder.dimensions();
    let is_turned = matches!(
        decoder.orientation().map_err(unreadable(path))?,
        Orientation::Rotate90
            | Orientation::Rotate270
            | Orientation::Rotate90FlipH
            | Orientation::Rotate270FlipH
    );
    Ok(if is_turned { (height, width) } else { (width, height) })
}

/// Reads a picture, turns it upright and keeps a copy no larger than the drawing can use.
pub(crate) fn load(picture: &Picture, path: &Path, width_px: u32) -> Result<LoadedPicture, PictureError> {
    let rgba = decoded(path)?.into_rgba8();
    let (width, height) = rgba.dimensions();
    let raster = Raster::new(width, height, over_white(rgba.into_raw()))
        .ok_or_else(|| PictureError::Empty(path.to_owned()))?;
    let most = width_px.saturating_mul(2);
    let raster = if width.max(height) > most {
        let side = |px: u32| {
            u32::try_from(u64::from(px) * u64::from(most) / u64::from(width.max(height))).unwrap_or(px)
        };
        resample(&raster, RasterPart::whole(&raster), side(width), side(height))
    } else {
        raster
    };
    Ok(LoadedPicture {
        pyramid: Pyramid::of(raster),
        file_width_px: picture.width_px,
        file_height_px: picture.height_px,
        revision: 1,
    })
}

/// Lays transparent pixels over white paper, in linear light.
pub(crate) fn over_white(mut pixels: Vec<u8>) -> Vec<u8> {
    use overmantel::colour::{decode, encode};
    for pixel in pixels.chunks_exact_mut(4).filter(|pixel| pixel[3] < 255) {
        let cover = f32::from(pixel[3]) / 255.0;
        for channel in &mut pixel[..3] {
            *channel = encode(decode(*channel) * cover + 1.0 - cover);
        }
        pixel[3] = 255;
    }
    pixels
}

/// Pixels of four bytes.
pub(crate) enum Pixels<'a> {
    /// All of them whole.
    Opaque(&'a [u8]),
    /// Each with its cover.
    Covering(&'a [u8]),
}

pub(crate) fn write_png(
    path: &Path,
    width: u32,
    height: u32,
    ppi: u32,
    pixels: &Pixels<'_>,
) -> Result<(), Failure> {
    let file = File::create(path).map_err(unwritable(path))?;
    let mut encoder = png::Encoder::new(BufWriter::new(file), width, height);
    let (kind, bytes) = match pixels {
        Pixels::Covering(pixels) => (png::ColorType::Rgba, pixels.to_vec()),
        Pixels::Opaque(pixels) => {
            let opaque = pixels.chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]);
            (png::ColorType::Rgb, opaque.collect())
        }
    };
    encoder.set_color(kind);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    // The PNG standard counts density in pixels to the metre: ppi / 0.0254, to the nearest.
    let per_metre = u32::try_from((u64::from(ppi) * 10_000 + 127) / 254).unwrap_or(u32::MAX);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: per_metre,
        yppu: per_metre,
        unit: png::Unit::Meter,
    }));
    let mut writer = encoder.write_header().map_err(unwritable(path))?;
    writer.write_image_data(&bytes).map_err(unwritable(path))?;
    writer.finish().map_err(unwritable(path))
}
