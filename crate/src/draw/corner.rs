//! Rounded corners: the wall seen past the corners of a metal sheet, blended in linear light.

use super::projection::pixels;
use crate::colour::{decode, encode};
use tiny_skia::{PixmapMut, PixmapRef};

/// A pixel in a corner: where its bytes are on the canvas, and what it becomes.
pub(super) type Blended = (usize, [u8; 3]);

/// The pixels of the four corners as they are to be once the picture, whose upper left corner lies at `at`, is copied in.
pub(super) fn blended(
    canvas: &PixmapMut<'_>,
    picture: PixmapRef<'_>,
    at: (i64, i64),
    radius: f32,
) -> Vec<Blended> {
    let (width, height) = (picture.width(), picture.height());
    let mut made = Vec::new();
    for row in 0..height {
        let down = past(pixels(row) + 0.5, pixels(height), radius);
        if down <= 0.0 {
            continue;
        }
        for column in 0..width {
            let across = past(pixels(column) + 0.5, pixels(width), radius);
            let covered = (radius - libm::hypotf(across, down) + 0.5).clamp(0.0, 1.0);
            if across <= 0.0 || covered >= 1.0 {
                continue;
            }
            let place = |from: i64, by: u32| u32::try_from(from + i64::from(by)).ok();
            let (Some(x), Some(y)) = (place(at.0, column), place(at.1, row)) else { continue };
            if x >= canvas.width() || y >= canvas.height() {
                continue;
            }
            let below = (y as usize * canvas.width() as usize + x as usize) * 4;
            let above = (row as usize * width as usize + column as usize) * 4;
            let channel = |index: usize| {
                let (wall, sheet) = (canvas.as_ref().data()[below + index], picture.data()[above + index]);
                encode(decode(sheet) * covered + decode(wall) * (1.0 - covered))
            };
            made.push((below, [channel(0), channel(1), channel(2)]));
        }
    }
    made
}

/// How far a place lies beyond the middle of the nearer corner's circle, towards the corner; less than nothing between.
fn past(place: f32, whole: f32, radius: f32) -> f32 {
    (radius - place).max(place - (whole - radius))
}

/// Puts blended pixels in their places.
pub(super) fn put(canvas: &mut PixmapMut<'_>, blended: &[Blended]) {
    let data = canvas.data_mut();
    for (at, colour) in blended {
        data[*at..at + 3].copy_from_slice(colour);
    }
}
