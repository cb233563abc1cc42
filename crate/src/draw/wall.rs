//! The wall itself: its paint in the light of the room, and its finish.
//!
//! How much light a place gets is a sum of steps: what is lost along the wall and down it, what a lit lamp adds, how the plaster
//! leans to the light. For each step the codes of the paint are worked out once.

use super::light::Lamp;
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use super::texture::noise;
use crate::colour::Colour;
use crate::rounding::nearest;
use tiny_skia::PixmapMut;

/// What the picture of a wall depends on.
pub(super) struct Wall<'a> {
    /// What it covers.
    pub(super) area: PixelRect,
    /// Its paint.
    pub(super) paint: Colour,
    /// Whether it is plastered by hand.
    pub(super) plaster: bool,
    /// Device pixels per inch.
    pub(super) scale: f32,
    /// Lamps that are lit before it: where, and how wide their light falls.
    pub(super) glows: &'a [Glow],
}

/// The light of a lit lamp on the wall behind it, in device pixels.
#[derive(Clone, Copy, Debug)]
pub(super) struct Glow {
    /// Its middle.
    pub(super) x: f32,
    /// Its middle, from the top.
    pub(super) y: f32,
    /// How far it reaches: the standard deviation of its fall.
    pub(super) reach: f32,
}

/// Steps in which light on the wall is counted, to the whole of the light.
const STEPS: f32 = 2048.0;

/// The most light that the wall gets: in full, and a lit lamp's besides.
const MOST: f32 = 1.6;

/// What a lit lamp adds where it is nearest.
const LAMP: f32 = 0.34;

/// Draws the wall.
pub(super) fn draw(canvas: &mut PixmapMut<'_>, wall: &Wall<'_>, lamp: &Lamp) {
    let PixelRect { left, top, right, bottom } = wall.area;
    let (width, height) = (canvas.width(), canvas.height());
    let whole = |value: f32, most: u32| u32::try_from(nearest(f64::from(value))).unwrap_or(0).min(most);
    let (columns, rows) =
        (whole(left, width)..whole(right, width), whole(top, height)..whole(bottom, height));
    // Its top and its right side, which may end within a pixel.
    let blended = |canvas: &mut PixmapMut<'_>, x: f32, width: f32, height: f32| {
        super::brush::rect(canvas, PixelRect::from_xywh(x, top, width, height), wall.paint);
    };
    blended(canvas, left, right - left, 2.0_f32.min(bottom - top));
    blended(canvas, right - 2.0_f32.min(right - left), 2.0_f32.min(right - left), bottom - top);
    // A small fixed pattern keeps the slow gradient from showing as bands. It is the same in every eighth row.
    let lost_across: [Vec<i32>; 8] = [0, 3, 6, 1, 4, 7, 2, 5].map(|row: u32| {
        let lost = |column| {
            let across = (pixels(column) + 0.5 - left) / (right - left) - 0.35;
            let pattern = ((column * 5 + row) % 8).cast_signed();
            steps(MOST - lamp.full + 0.06 * lamp.pool * across * across) + pattern
        };
        columns.clone().map(lost).collect()
    });
    let codes: Vec<[u8; 4]> = (0..steps(MOST))
        .map(|step| {
            let lit = wall.paint.lit(MOST - share(step));
            [lit.red, lit.green, lit.blue, u8::MAX]
        })
        .collect();
    let mut plaster = wall.plaster.then(|| Plaster::new(wall, columns.clone(), lamp));
    let mut extra = vec![0; columns.len()];
    let glows: Vec<Vec<f32>> = wall
        .glows
        .iter()
        .map(|glow| columns.clone().map(|column| bell(pixels(column) + 0.5 - glow.x, glow.reach)).collect())
        .collect();
    let data = canvas.data_mut();
    for row in rows {
        let down = (pixels(row) + 0.5 - top) / (bottom - top);
        let lost_down = steps(0.085 * lamp.pool * down * down);
        extra.fill(lost_down);
        for (glow, across) in wall.glows.iter().zip(&glows) {
            let strength = LAMP * bell(pixels(row) + 0.5 - glow.y, glow.reach) * STEPS;
            if strength >= 0.5 {
                for (extra, share) in extra.iter_mut().zip(across) {
                    #[expect(clippy::cast_possible_truncation, reason = "at most 1024")]
                    let gained = (strength * share) as i32;
                    *extra -= gained;
                }
            }
        }
        if let Some(plaster) = &mut plaster {
            plaster.add(row, &mut extra);
        }
        let start = row as usize * width as usize + columns.start as usize;
        put_row(&mut data.as_chunks_mut::<4>().0[start..], &lost_across[row as usize % 8], &extra, &codes);
    }
}

/// Puts a row of the wall: at each column the paint in the light that is left of the most that it gets.
#[inline(never)]
fn put_row(line: &mut [[u8; 4]], lost: &[i32], extra: &[i32], codes: &[[u8; 4]]) {
    let last = codes.len().saturating_sub(1);
    for ((pixel, &lost), &extra) in line.iter_mut().zip(lost).zip(extra) {
        *pixel = codes[usize::try_from(lost + extra).unwrap_or(0).min(last)];
    }
}

fn steps(share: f32) -> i32 {
    i32::try_from(nearest(f64::from(share * STEPS))).unwrap_or(0)
}

#[expect(clippy::cast_precision_loss, reason = "a few thousand steps")]
fn share(step: i32) -> f32 {
    step as f32 / STEPS
}

/// A bell, 1 in its middle.
fn bell(from: f32, reach: f32) -> f32 {
    libm::expf(-from * from / (2.0 * reach * reach))
}

/// Plaster put on by hand. Its height is worked out at the corners of a coarse net, and between them the light on it is drawn out evenly.
struct Plaster {
    scale: f32,
    corner: (f32, f32),
    /// Pixels between two corners of the net.
    mesh: u32,
    seen: Seen,
    lean: (f32, f32),
    columns: std::ops::Range<u32>,
    /// Which row of the net `upper` is, when it is known.
    at: Option<u32>,
    upper: Vec<i32>,
    lower: Vec<i32>,
}

/// How much of each of the sizes of its unevenness is large enough to be seen.
struct Seen {
    broad: f32,
    strokes: f32,
    fine: f32,
}

/// Corners are counted more finely than in steps, by so many bits.
const FINER: i32 = 8;
/// The same as a number.
const FINE_STEPS: f32 = 256.0;

/// How strongly plaster leans, in inches to the inch of way: a little over one in a hundred.
const LEAN: f32 = 0.042;

impl Plaster {
    fn new(wall: &Wall<'_>, columns: std::ops::Range<u32>, lamp: &Lamp) -> Self {
        let scale = wall.scale.max(1e-3);
        let seen = |inches: f32| ((inches * scale - 2.0) / 6.0).clamp(0.0, 1.0);
        let mesh = u32::try_from(nearest(f64::from(scale * 0.38))).unwrap_or(1).clamp(1, 64);
        // The light on a slope that rises to the left or upwards, as it changes with it.
        let flat = lamp.on_slope(0.0, 0.0);
        let lean = |right, down| (lamp.on_slope(right, down) - flat) / 0.01;
        Self {
            scale,
            corner: (wall.area.left, wall.area.top),
            mesh,
            seen: Seen { broad: seen(9.0), strokes: seen(2.6), fine: seen(0.8) },
            lean: (lean(0.01, 0.0), lean(0.0, 0.01)),
            columns,
            at: None,
            upper: Vec::new(),
            lower: Vec::new(),
        }
    }

    /// Adds what a row of pixels loses or gains.
    #[inline(never)]
    fn add(&mut self, row: u32, extra: &mut [i32]) {
        let (net, within) = (row / self.mesh, row % self.mesh);
        if self.at != Some(net) {
            self.upper = match self.at {
                Some(before) if before + 1 == net => std::mem::take(&mut self.lower),
                _ => self.net_row(net),
            };
            self.lower = self.net_row(net + 1);
            self.at = Some(net);
        }
        let (mesh, within) = (self.mesh.cast_signed(), within.cast_signed());
        // Down between the two rows of the net, then along from corner to corner.
        let down = |corner: usize| match (self.upper.get(corner), self.lower.get(corner)) {
            (Some(upper), Some(lower)) => upper + (lower - upper) * within / mesh,
            _ => 0,
        };
        let mut rest = extra;
        let mut skipped = (self.columns.start % self.mesh).cast_signed();
        for corner in 0.. {
            let (left, right) = (down(corner), down(corner + 1));
            let slope = (right - left) / mesh;
            let width = ((mesh - skipped).cast_unsigned() as usize).min(rest.len());
            let (cell, after) = rest.split_at_mut(width);
            let mut light = left + slope * skipped;
            for extra in cell {
                *extra -= light >> FINER;
                light += slope;
            }
            if after.is_empty() {
                break;
            }
            (rest, skipped) = (after, 0);
        }
    }

    /// The light at the corners of a row of the net, in steps.
    fn net_row(&self, net: u32) -> Vec<i32> {
        let y = (pixels(net * self.mesh) - self.corner.1) / self.scale;
        let (first, last) = (self.columns.start / self.mesh, self.columns.end / self.mesh + 2);
        let x = |corner: u32| (pixels(corner * self.mesh) - self.corner.0) / self.scale;
        // The trowel goes in bows, no two alike; they are so wide that they are worked out at every eighth corner.
        let bow = |corner: u32| {
            let x = x(corner);
            let aside = (noise(x * 0.07, y * 0.07, 0x7a1) - 0.5) * 16.0;
            (aside, (noise(x * 0.06, y * 0.08, 0x7a2) - 0.5) * 16.0)
        };
        let mut row = Vec::new();
        let mut from = bow(first);
        for start in (first..last).step_by(8) {
            let to = bow(start + 8);
            for corner in start..(start + 8).min(last) {
                let share = pixels(corner - start) / 8.0;
                let bow = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
                row.push(steps(self.light(x(corner) + bow.0, y + bow.1) * FINE_STEPS));
            }
            from = to;
        }
        row
    }

    /// By how much the light at a place, in inches from the left and the top as bowed, differs from that on an even wall.
    #[inline(never)]
    fn light(&self, bow_x: f32, bow_y: f32) -> f32 {
        let turned = (bow_x * 0.84 + bow_y * 0.54, bow_y * 0.84 - bow_x * 0.54);
        // Slopes to the right and downwards, each from noise of its own: the differences of heights, one step on.
        let broad = (noise(bow_x * 0.11, bow_y * 0.13, 0x7a3) - 0.5) * self.seen.broad;
        let strokes = (noise(turned.0 * 0.14, turned.1 * 0.52, 0x7a4) - 0.5) * self.seen.strokes;
        let fine = if self.seen.fine > 0.0 {
            (noise(turned.0 * 0.7, turned.1 * 1.7, 0x7a5) - 0.5) * self.seen.fine
        } else {
            0.0
        };
        let right = LEAN * (broad * 0.8 + strokes + fine * 0.5);
        let down = LEAN * (strokes * 0.9 + fine * 0.7 - broad * 0.3);
        right * self.lean.0 + down * self.lean.1
    }
}
