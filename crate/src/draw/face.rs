//! What a face does to the light, over the picture on it: the weave of a canvas, the gloss of a coated sheet, the room in glazing.

use super::light::Lamp;
use super::piece::Edges;
use super::projection::pixels;
use super::texture;
use crate::colour::{Encoder, decode_table};
use crate::scene::Sheen;
use tiny_skia::PixmapMut;

/// Threads to the inch of a plain-woven artists' canvas, each way (common practice, no source).
const THREADS: f32 = 40.0;
/// How much lighter a thread is on its back than in the hollow between two.
const THREAD_RISE: f32 = 0.16;
/// How uneven a length of cloth is.
const SLUB: f32 = 0.05;
/// Light that a coated sheet throws back where it mirrors the lamp, against white.
const GLOSS: f32 = 0.06;
/// Light that glazing throws back at a right angle: 4 % at each face of glass or acrylic, from refractive indices of 1.52 and 1.49
/// by Fresnel's equation. Of the window before it, as bright as a white wall, so much is seen.
const REFLECTED: f32 = 0.08;

/// Puts a face into its light. `scale` is in pixels to the inch: what is finer than a pixel is not seen.
pub(super) fn put(canvas: &mut PixmapMut<'_>, at: Edges, sheen: Sheen, lamp: &Lamp, scale: f32, seed: u32) {
    let (width, height) = ((at.right - at.left).max(1.0), (at.bottom - at.top).max(1.0));
    match sheen {
        Sheen::Weave => {
            let seen = (scale / THREADS / 2.0).min(1.0);
            lit(canvas, at, |x, y| {
                let (x, y) = (x / scale, y / scale);
                let uneven = (texture::noise(x * 9.0, y * 1.2, seed)
                    + texture::noise(x * 1.2, y * 9.0, seed ^ 5))
                    / 2.0;
                let thread = if seen > 0.2 { texture::woven(x * THREADS, y * THREADS) - 0.5 } else { 0.0 };
                (1.0 + SLUB * (uneven - 0.5) + THREAD_RISE * seen * seen * thread, 0.0)
            });
        }
        Sheen::Gloss => {
            // The lamp's own place in the sheet: a broad soft band that crosses it from the side where the lamp is.
            let (across, down) = lamp.fall;
            let length = libm::hypotf(across, down).max(0.01);
            lit(canvas, at, |x, y| {
                let along = (x / width * across + y / height * down) / length;
                let off = (along - 0.34) / 0.2;
                (1.0 - GLOSS * 0.3, GLOSS * libm::expf(-off * off))
            });
        }
        Sheen::Glazing => {
            // Two lights of a window, leaning as a window beside the wall is seen in it.
            let pane = |along: f32, from: f32, to: f32| {
                let edge = |off: f32| (off / 0.012).clamp(0.0, 1.0);
                edge(along - from).min(edge(to - along))
            };
            lit(canvas, at, |x, y| {
                let (x, y) = (x / width, y / height);
                let along = x + y * 0.22;
                let window = pane(along, 0.12, 0.27).max(pane(along, 0.29, 0.44)) * pane(y, 0.06, 0.7);
                (1.0, REFLECTED * (0.12 + lamp.share.min(0.6) * window))
            });
        }
    }
}

/// Multiplies the light of each pixel, and adds to it, by its place in the face.
fn lit(canvas: &mut PixmapMut<'_>, at: Edges, of: impl Fn(f32, f32) -> (f32, f32)) {
    let (width, height) = (canvas.width(), canvas.height());
    let whole = |value: f32, most: u32| {
        u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0).min(most)
    };
    let (columns, rows) =
        (whole(at.left, width)..whole(at.right, width), whole(at.top, height)..whole(at.bottom, height));
    let (table, encoder) = (decode_table(), Encoder::new());
    let data = canvas.data_mut();
    for row in rows {
        let start = (row as usize * width as usize + columns.start as usize) * 4;
        for (pixel, column) in data[start..].chunks_exact_mut(4).zip(columns.clone()) {
            let (share, more) = of(pixels(column) + 0.5 - at.left, pixels(row) + 0.5 - at.top);
            for channel in &mut pixel[..3] {
                *channel = encoder.code(table[usize::from(*channel)] * share + more);
            }
        }
    }
}
