//! What a face does to the light, over the picture on it: the weave of a canvas, the gloss of a coated sheet, the room in glazing.

use super::light::Lamp;
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use super::texture;
use crate::colour::{Encoder, decode_table};
use crate::plan::Lighting;
use crate::scene::Sheen;
use tiny_skia::PixmapMut;
use wide::f32x4;

/// Threads to the inch of a plain-woven artists' canvas, each way (common practice, no source).
const THREADS: f32 = 40.0;
/// How high the uppermost thread of a plain weave lies in the mean, of [`texture::woven`].
const WOVEN_MEAN: f32 = 0.6;
/// How much lighter a thread is on its back than in the hollow between two.
const THREAD_RISE: f32 = 0.16;
/// Pixels that a thread of the drawing has at the least: the true weave of a canvas across the room is finer than any drawing of it, and
/// would be no more than a grey; drawn coarser, canvas is told from paper at first sight.
const THREAD_PX: f32 = 4.0;
/// By how much more a thread rises that is drawn coarser than it is.
const COARSE_RISE: f32 = 0.1;
/// From this scale down, in pixels per inch, the coarser weave fades.
const WEAVE_FROM: f32 = 7.0;
/// How far from its edge a canvas begins to turn round its bars, in inches; and no less than so many pixels.
const TURN: (f32, f32) = (0.4, 4.5);
/// How uneven a length of canvas is.
const SLUB: f32 = 0.05;
/// Light that a coated sheet throws back where it mirrors the lamp, against white.
const GLOSS: f32 = 0.17;
/// Light that glazing throws back at a right angle: 4 % at each face of glass or acrylic, from refractive indices of 1.52 and 1.49
/// by Fresnel's equation. Of the window before it, as bright as a white wall, so much is seen.
const REFLECTED: f32 = 0.08;
/// The same with a coating against that (from memory).
const COATED: f32 = 0.01;

/// Puts a print that fills a part of a screen into its light, as large as it is.
pub(super) fn put_alone(canvas: &mut PixmapMut<'_>, at: PixelRect, sheen: Sheen, lit: Lighting, scale: f32) {
    put(canvas, at, sheen, &Lamp::of(lit), scale, 1);
}

/// Puts a face into its light. `scale` is in pixels per inch: what is finer than a pixel is not seen.
#[inline(never)]
pub(super) fn put(
    canvas: &mut PixmapMut<'_>,
    at: PixelRect,
    sheen: Sheen,
    lamp: &Lamp,
    scale: f32,
    seed: u32,
) {
    let (width, height) = ((at.right - at.left).max(1.0), (at.bottom - at.top).max(1.0));
    match sheen {
        Sheen::Weave => {
            let threads = THREADS.min(scale / THREAD_PX);
            let rise = THREAD_RISE + COARSE_RISE * (1.0 - threads / THREADS);
            let seen = (scale / WEAVE_FROM).min(1.0);
            let turn = (TURN.0 * scale).max(TURN.1).min(width.min(height) / 3.0);
            // How far a place near an edge has turned away: nothing before it, 1 at the edge itself.
            let turned = |from_edge: f32x4| {
                let way = (1.0 - from_edge / turn).max(f32x4::ZERO);
                way * way
            };
            lit(canvas, at, |x, y| {
                let head = turned(y) * 0.6 + turned(x) * 0.35;
                let foot = turned(height - y) * 0.7 + turned(width - x) * 0.5;
                let edge = (head * 0.8 - foot * 1.1) * lamp.share;
                let (x, y) = (x / scale, y / scale);
                let uneven = (texture::noises(x * 9.0, y * 1.2, seed)
                    + texture::noises(x * 1.2, y * 9.0, seed ^ 5))
                    * 0.5;
                let mut light = (1.0 + SLUB * (uneven - 0.5)) * (1.0 + edge);
                if seen > 0.2 {
                    let high = texture::woven(x * threads, y * threads) - WOVEN_MEAN;
                    light += rise * seen * seen * high;
                }
                (light, f32x4::ZERO)
            });
        }
        Sheen::Gloss => {
            // The lamp's own place in the sheet: a broad soft band that crosses it from the side where the lamp is, and in it two soft
            // lights of the window, leaning as a window beside the wall is seen in the sheet.
            let (across, down) = lamp.fall;
            let length = libm::hypotf(across, down).max(0.01);
            let soft = |off: f32x4| {
                let share = (off / 0.03).max(f32x4::ZERO).min(f32x4::ONE);
                share * share * (3.0 - 2.0 * share)
            };
            let pane = |along: f32x4, from: f32, to: f32| soft(along - from).min(soft(to - along));
            lit(canvas, at, |x, y| {
                let (x, y) = (x / width, y / height);
                let along = (x * across + y * down) / length;
                let off = (along - 0.34) / 0.26;
                let bell = f32x4::new((off * off).to_array().map(|square| libm::expf(-square)));
                let leaning = x + y * 0.3;
                let panes = pane(leaning, 0.16, 0.36).max(pane(leaning, 0.38, 0.58)) * pane(y, -0.1, 0.82);
                let more = GLOSS * (0.55 * bell + panes * (0.9 * lamp.share));
                (f32x4::splat(1.0 - GLOSS * 0.4), more)
            });
        }
        Sheen::Glazing | Sheen::CoatedGlazing => {
            let reflected = if sheen == Sheen::CoatedGlazing { COATED } else { REFLECTED };
            // Two lights of a window, leaning as a window beside the wall is seen in it.
            let pane = |along: f32x4, from: f32, to: f32| {
                let edge = |off: f32x4| (off / 0.012).max(f32x4::ZERO).min(f32x4::ONE);
                edge(along - from).min(edge(to - along))
            };
            lit(canvas, at, |x, y| {
                let (x, y) = (x / width, y / height);
                let along = x + y * 0.22;
                let window = pane(along, 0.12, 0.27).max(pane(along, 0.29, 0.44)) * pane(y, 0.06, 0.7);
                (f32x4::ONE, reflected * (0.12 + lamp.share.min(0.6) * window))
            });
        }
    }
}

/// Multiplies the light of each pixel, and adds to it, by its place in the face: of four at once.
fn lit(canvas: &mut PixmapMut<'_>, at: PixelRect, of: impl Fn(f32x4, f32x4) -> (f32x4, f32x4)) {
    let (width, height) = (canvas.width(), canvas.height());
    let whole = |value: f32, most: u32| {
        u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0).min(most)
    };
    let (columns, rows) =
        (whole(at.left, width)..whole(at.right, width), whole(at.top, height)..whole(at.bottom, height));
    let (table, encoder) = (decode_table(), Encoder::new());
    let stride = width as usize;
    let all = canvas.data_mut().as_chunks_mut::<4>().0;
    for row in rows {
        let line = &mut all[row as usize * stride..][columns.start as usize..columns.end as usize];
        let y = f32x4::splat(pixels(row) + 0.5 - at.top);
        let mut x = pixels(columns.start) - at.left + f32x4::new([0.5, 1.5, 2.5, 3.5]);
        for four in line.chunks_mut(4) {
            let (share, more) = of(x, y);
            x += 4.0;
            for channel in 0..3 {
                let mut light = [0.0; 4];
                for (light, pixel) in light.iter_mut().zip(four.iter()) {
                    *light = table[usize::from(pixel[channel])];
                }
                let codes = encoder.codes(f32x4::new(light) * share + more);
                for (pixel, code) in four.iter_mut().zip(codes) {
                    pixel[channel] = code;
                }
            }
        }
    }
}
