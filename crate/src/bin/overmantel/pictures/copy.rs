//! Copies of pictures: upright, over white, no larger than they are needed, made while the rows come in.

use super::source::{Source, narrowed};
use super::{Inks, open};
use crate::failure::pictures::ReadError;
use image::metadata::Orientation;
use image::{DynamicImage, RgbaImage};
use overmantel::print_file::Form;
use overmantel::resample::{Light, Raster, RasterPart, Stream};
use std::path::Path;

/// Pixels of a copy at most.
pub(crate) const MOST_COPY_PX: u32 = 48_000_000;

/// A copy of a picture whose longer side is at most so many pixels; and the pixels of the file, upright, width first.
pub(crate) fn copy(path: &Path, longest: u32) -> Result<(Raster, (u32, u32)), ReadError> {
    let source = open(path, Inks::Shown)?;
    let (file_px, orientation) = (source.upright_px(), source.orientation);
    let (size, rgba) = reduced(source, longest)?;
    let empty = || ReadError::Ends(path.to_owned());
    let mut image = DynamicImage::ImageRgba8(RgbaImage::from_raw(size.0, size.1, rgba).ok_or_else(empty)?);
    image.apply_orientation(Orientation::from_exif(orientation).unwrap_or(Orientation::NoTransforms));
    let image = image.into_rgba8();
    let (width, height) = image.dimensions();
    Raster::new(width, height, image.into_raw()).map(|raster| (raster, file_px)).ok_or_else(empty)
}

/// A size in the same shape, its longer side at most `longest`, and no more pixels than a copy may have.
fn fitted((width, height): (u32, u32), longest: u32) -> (u32, u32) {
    let longer = u64::from(width.max(height));
    let side = |px: u32, most: u64| u32::try_from(u64::from(px) * most / longer).unwrap_or(px).max(1);
    let mut most = longer.min(longest.max(1).into());
    let pixels = |most| u64::from(side(width, most)) * u64::from(side(height, most));
    while pixels(most) > MOST_COPY_PX.into() {
        most = most * 9 / 10;
    }
    (side(width, most), side(height, most))
}

/// The pixels of a smaller copy, as they are stored, red, green, blue and cover.
fn reduced(mut source: Source, longest: u32) -> Result<((u32, u32), Vec<u8>), ReadError> {
    let stored = source.stored_px;
    // Eight bits are enough to be looked at.
    let form = Form { is_wide: false, ..source.form };
    let size = fitted(stored, longest);
    let mut rgba = Vec::with_capacity(size.0 as usize * size.1 as usize * 4);
    let mut row = Vec::new();
    if size == stored {
        for _ in 0..stored.1 {
            next(&mut source, &mut row)?;
            for pixel in row.chunks_exact(form.bytes()) {
                // One grey three times, or three colours.
                let [red, green, blue] = [pixel[0], pixel[form.bytes() / 2], pixel[form.bytes() - 1]];
                rgba.extend([red, green, blue, 255]);
            }
        }
        source.rows.end()?;
        return Ok((size, rgba));
    }
    let mut means = Means::new(form, stored, (stored.0 / size.0).min(stored.1 / size.1) / 4);
    let side = |px: u32| f64::from(px) / f64::from(means.blocks);
    let part = RasterPart { left: 0.0, top: 0.0, width: side(stored.0), height: side(stored.1) };
    let mut stream = Stream::new(means.size_px(), part, size);
    let needed = stream.rows();
    let mut rgb = vec![0; size.0 as usize * 3];
    for index in 0..means.size_px().1 as usize {
        means.next(&mut source, &mut row)?;
        if needed.contains(&index) {
            stream.take(|columns, light| light.copy_from_slice(&means.row[columns]), &mut |light| {
                Form::RGB.write(light, &mut rgb);
                rgba.extend(
                    rgb.as_chunks::<3>().0.iter().flat_map(|[red, green, blue]| [*red, *green, *blue, 255]),
                );
            });
        }
    }
    source.rows.end()?;
    Ok((size, rgba))
}

/// The next row, in eight bits.
fn next(source: &mut Source, row: &mut Vec<u8>) -> Result<(), ReadError> {
    source.rows.next(row)?;
    if source.form.is_wide {
        *row = row.as_chunks::<2>().0.iter().map(narrowed).collect();
    }
    Ok(())
}

/// Rows of the means of so many pixels across and down, so that the filter need not hold many rows of a very large picture.
struct Means {
    form: Form,
    stored_px: (u32, u32),
    /// Pixels of a mean, across and down.
    blocks: u32,
    /// Pixels of the file that are in the means so far, down.
    seen: u32,
    light: Vec<Light>,
    row: Vec<Light>,
}

impl Means {
    fn new(form: Form, stored_px: (u32, u32), blocks: u32) -> Self {
        let blocks = blocks.max(1);
        let light = vec![[0.0; 4]; stored_px.0 as usize];
        let row = vec![[0.0; 4]; stored_px.0.div_ceil(blocks) as usize];
        Self { form, stored_px, blocks, seen: 0, light, row }
    }

    fn size_px(&self) -> (u32, u32) {
        (self.stored_px.0.div_ceil(self.blocks), self.stored_px.1.div_ceil(self.blocks))
    }

    /// Makes the next row of means.
    fn next(&mut self, source: &mut Source, stored: &mut Vec<u8>) -> Result<(), ReadError> {
        let high = self.blocks.min(self.stored_px.1 - self.seen);
        self.row.fill([0.0; 4]);
        for _ in 0..high {
            next(source, stored)?;
            self.form.read(stored, &mut self.light);
            for (sum, pixels) in self.row.iter_mut().zip(self.light.chunks(self.blocks as usize)) {
                #[expect(clippy::cast_precision_loss, reason = "at most some hundreds")]
                let share = 1.0 / (pixels.len() as f32 * high as f32);
                for pixel in pixels {
                    for (sum, light) in sum.iter_mut().zip(pixel) {
                        *sum += light * share;
                    }
                }
            }
        }
        if !self.form.is_coloured {
            self.row.iter_mut().for_each(|pixel| *pixel = [pixel[0], pixel[0], pixel[0], 0.0]);
        }
        self.seen += high;
        Ok(())
    }
}
