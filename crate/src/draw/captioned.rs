//! A drawing as a picture to hand on: what it is of stands in a strip below it.

use super::lettering::{self, Lettering};
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use super::sheet::LoadedPicture;
use super::{Painter, Sheet, brush};
use crate::scene::Scene;
use crate::text::typeset;
use tiny_skia::PixmapMut;

/// Height of the strip and size of its lettering, as shares of the picture's width.
const STRIP: f32 = 0.045;
const EM: f32 = 0.018;

/// The height in device pixels of a picture of this scene: the drawing at the sheet's width, with the strip below it.
#[must_use]
pub fn height(scene: &Scene, sheet: &Sheet) -> u32 {
    super::projection::Projection::height_for_width(scene, sheet) + strip_px(sheet)
}

fn strip_px(sheet: &Sheet) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most 16384 × 0.045")]
    let strip = libm::roundf(pixels(sheet.width_px) * STRIP) as u32;
    strip.max(1)
}

/// The drawing on a sheet whose height is [`height`], with a line of words in a strip below it: sRGB, four bytes a pixel.
#[must_use]
pub fn captioned(scene: &Scene, copies: &[Option<&LoadedPicture>], sheet: &Sheet, words: &str) -> Vec<u8> {
    let strip = strip_px(sheet).min(sheet.height_px.saturating_sub(1));
    let above = Sheet { height_px: sheet.height_px - strip, ..sheet.clone() };
    let mut pixels_above = Painter::default().draw(scene, copies, &above).pixels.to_vec();
    let row = usize::try_from(sheet.width_px).unwrap_or(0) * 4;
    pixels_above.resize(row * usize::try_from(sheet.height_px).unwrap_or(0), 0);
    let Some(mut canvas) = PixmapMut::from_bytes(&mut pixels_above, sheet.width_px, sheet.height_px) else {
        return Vec::new();
    };
    let (width, top) = (pixels(sheet.width_px), pixels(above.height_px));
    let area = PixelRect::from_xywh(0.0, top, width, pixels(strip));
    brush::rect(&mut canvas, area, sheet.theme.sheet);
    let words = typeset(words);
    let room = width * (1.0 - EM * 2.0);
    let (em, long) = (width * EM, lettering::length(&words, width * EM));
    // Long titles are lettered smaller, so that nothing runs off the picture.
    let (em, long) = if long > room { (em * room / long, room) } else { (em, long) };
    let middle = (width * EM + long / 2.0, top + pixels(strip) / 2.0);
    Lettering::default().letter(&mut canvas, &words, em, middle, false, sheet.theme.ink);
    pixels_above
}
