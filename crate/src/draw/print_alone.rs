//! A part of a print by itself, as large as it is, with what its surface does to the light.

use super::projection::pixels;
use super::{PixelRect, Sheet, brush, face};
use crate::plan::Plan;
use crate::resample::Raster;
use crate::scene::Sheen;
use crate::true_size::TruePart;
use tiny_skia::PixmapMut;

/// A print in its place on a sheet of the wall's paint: sRGB, four bytes a pixel.
#[must_use]
pub fn print_on_wall(
    print: &Raster,
    part: &TruePart,
    sheen: Option<Sheen>,
    plan: &Plan,
    sheet: &Sheet,
) -> Option<Vec<u8>> {
    let [left, top, width, height] = part.place;
    let row = usize::try_from(sheet.width_px).ok()? * 4;
    let mut all = vec![0; row * usize::try_from(sheet.height_px).ok()?];
    let mut canvas = PixmapMut::from_bytes(&mut all, sheet.width_px, sheet.height_px)?;
    brush::all(&mut canvas, plan.wall.paint);
    let long = usize::try_from(width).ok()? * 4;
    let rows = canvas.data_mut().chunks_exact_mut(row).skip(usize::try_from(top).ok()?);
    for (line, printed) in rows.zip(print.pixels().chunks_exact(long)) {
        let from = usize::try_from(left).ok()? * 4;
        line.get_mut(from..from + long)?.copy_from_slice(printed);
    }
    if let Some(sheen) = sheen {
        let at = PixelRect::from_xywh(pixels(left), pixels(top), pixels(width), pixels(height));
        #[expect(clippy::cast_possible_truncation, reason = "pixels to the inch of a screen")]
        face::put_alone(&mut canvas, at, sheen, plan.viewing.light, part.scale as f32);
    }
    Some(all)
}
