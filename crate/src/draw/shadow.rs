//! The shadows on the wall of pieces and of what stands before it, and on the floor of what stands there.
//!
//! One lamp, above and to the left, of a certain size. A rectangle's blurred shadow is the product of two profiles, one
//! along each axis, so no two-dimensional blur is needed. It takes light from the wall: the wall's linear light is
//! multiplied, and encoded once.

use super::furniture::{Mass, Solid};
use super::light::Lamp;
use super::pixel_rect::PixelRect;
use super::projection::{Projection, pixels};
use crate::colour::Dimmer;
use crate::geometry::Size;
use crate::length::Length;
use crate::scene::ScenicPiece;
use std::ops::Range;
use tiny_skia::PixmapMut;

/// Casts a piece's shadow on a wall of this size. Where the piece itself will be drawn nothing is done. Returns what may
/// have changed.
pub(super) fn cast(
    canvas: &mut PixmapMut<'_>,
    piece: &ScenicPiece,
    at: PixelRect<i64>,
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) -> PixelRect {
    // Past rounded corners the wall is seen, in its shadow.
    let own = if piece.corner_radius > Length::ZERO {
        (0..0, 0..0)
    } else {
        (clip(at.left, at.right, canvas.width()), clip(at.top, at.bottom, canvas.height()))
    };
    let depth = projection.length(piece.depth);
    let lift = projection.length(piece.stand_off);
    shade(canvas, at, (depth, lift), own, wall, projection, lamp)
}

/// Casts a piece's shadow on a wall that may be seen behind it.
pub(super) fn behind(
    canvas: &mut PixmapMut<'_>,
    piece: &ScenicPiece,
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) {
    let (depth, lift) = (projection.length(piece.depth), projection.length(piece.stand_off));
    let at = projection.on_pixels(piece.outside).rect;
    shade(canvas, at, (depth, lift), (0..0, 0..0), wall, projection, lamp);
}

/// The shadow that a sheet throws round itself on what is so many pixels behind it.
pub(super) fn round(
    canvas: &mut PixmapMut<'_>,
    PixelRect { left, top, right, bottom }: PixelRect,
    height: f32,
    lamp: &Lamp,
) {
    let limits = ((0.0, pixels(canvas.width())), (0.0, pixels(canvas.height())));
    let sigma = (height * lamp.softness).max(0.6);
    let (right_by, down_by) = (height * lamp.fall.0, height * lamp.fall.1);
    let across = Span::new(left + right_by, right + right_by, sigma, limits.0);
    let down = Span::new(top + down_by, bottom + down_by, sigma, limits.1);
    take(canvas, &across, &down, lamp.share, &(0..0, 0..0));
}

/// The soft shadow under what stands on a floor that is seen from above, and a little away from the
/// lamp.
pub(super) fn under(
    canvas: &mut PixmapMut<'_>,
    PixelRect { left, top, right, bottom }: PixelRect,
    scale: f32,
    lamp: &Lamp,
) {
    const SOFT_INCHES: f32 = 3.0;
    let limits = ((0.0, pixels(canvas.width())), (0.0, pixels(canvas.height())));
    let sigma = SOFT_INCHES * scale;
    let slip = lamp.fall.0 * sigma;
    let across = Span::new(left + slip, right + slip, sigma, limits.0);
    let down = Span::new(top, bottom, sigma, limits.1);
    take(canvas, &across, &down, lamp.share, &(0..0, 0..0));
}

/// A shadow that takes less light than this is not seen.
const LEAST: f32 = 1.0 / 512.0;

/// Takes the lamp's light from the wall behind a rectangle, but for the columns and rows that will be covered.
fn shade(
    canvas: &mut PixmapMut<'_>,
    at: PixelRect<i64>,
    (depth, lift): (f32, f32),
    (own_columns, own_rows): (Range<usize>, Range<usize>),
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) -> PixelRect {
    let sigma = (depth * lamp.softness).max(projection.line * 0.8);
    #[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
    let [x, y, w, h] = [at.left, at.top, at.width(), at.height()].map(|px| px as f32);
    // What floats off the wall throws its shadow further by as much again as it is lifted, so that it is seen to float.
    let fall =
        (depth * lamp.fall.0 + lift * lamp.fall.0 * 1.1, depth * lamp.fall.1 + lift * lamp.fall.1 * 1.1);
    let limits = on_wall(canvas, wall, projection);
    let across = Span::new(x + fall.0, x + fall.0 + w, sigma, limits.0);
    let down = Span::new(y + fall.1, y + fall.1 + h, sigma, limits.1);
    take(canvas, &across, &down, lamp.share, &(own_columns, own_rows));
    let [columns, rows] = [across, down].map(|span| span.over(LEAST / lamp.share));
    PixelRect { left: px(columns.start), top: px(rows.start), right: px(columns.end), bottom: px(rows.end) }
}

/// From where to where the wall reaches across and down: a shadow on it falls nowhere else.
fn on_wall(canvas: &PixmapMut<'_>, wall: Size, projection: Projection) -> ((f32, f32), (f32, f32)) {
    let across = (projection.x(Length::ZERO), projection.x(wall.width).min(pixels(canvas.width())));
    let down = (projection.y(wall.height), projection.floor.min(pixels(canvas.height())));
    (across, down)
}

/// Takes up to a share of the light from where two spans cross, but for the columns and rows that will be covered.
fn take(
    canvas: &mut PixmapMut<'_>,
    across: &Span,
    down: &Span,
    share: f32,
    (own_columns, own_rows): &(Range<usize>, Range<usize>),
) {
    let stride = canvas.width() as usize;
    let data = canvas.data_mut();
    let mut dimmer = Dimmer::new(&across.profile);
    for (row, &down) in (down.start..).zip(&down.profile) {
        let seen = across.over(LEAST / (share * down));
        if seen.is_empty() {
            continue;
        }
        dimmer.by(share * down);
        let hidden = if own_rows.contains(&row) { own_columns.clone() } else { seen.end..seen.end };
        // Several pixels are worked out at once; some that are hidden may be among them.
        let full = |columns: usize| columns.next_multiple_of(Dimmer::AT_ONCE);
        let from = hidden.start.clamp(seen.start, seen.end);
        let to = hidden.end.clamp(from, seen.end);
        let before = seen.start..to.min(seen.start + full(from - seen.start));
        let after = before.end.max(seen.end.saturating_sub(full(seen.end - to)))..seen.end;
        for columns in [before, after] {
            let pixels = &mut data[(row * stride + columns.start) * 4..][..columns.len() * 4];
            dimmer.row(pixels, columns.start - across.start);
        }
    }
}

fn px(count: usize) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
    let px = count as f32;
    px
}

fn clip(start: i64, end: i64, whole: u32) -> Range<usize> {
    let whole = i64::from(whole);
    let (start, end) = (start.clamp(0, whole), end.clamp(0, whole));
    usize::try_from(start).unwrap_or(0)..usize::try_from(end).unwrap_or(0)
}

/// A blurred box along one axis, for the pixels where it is more than zero.
struct Span {
    start: usize,
    /// It rises up to its highest place and falls from there on.
    profile: Vec<f32>,
    highest: usize,
}

impl Span {
    /// The part of it within `limits`, in pixels.
    fn new(from: f32, to: f32, sigma: f32, limits: (f32, f32)) -> Self {
        let reach = sigma * 3.0;
        // On a sheet smaller than its margins nothing of the wall is left.
        let (low, high) = (limits.0.max(0.0), limits.1.max(limits.0).max(0.0));
        let index = |value: f32| {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "held within the drawing"
            )]
            let index = value.clamp(low, high) as usize;
            index
        };
        let (start, end) = (index(libm::floorf(from - reach)), index(libm::ceilf(to + reach)));
        let step = |at: f32| 0.5 * (1.0 + libm::erff(at / (sigma * std::f32::consts::SQRT_2)));
        let profile: Vec<f32> = (start..end)
            .map(|pixel| {
                let middle = px(pixel) + 0.5;
                step(middle - from) - step(middle - to)
            })
            .collect();
        let middle = (from + to) / 2.0;
        let highest = index(middle).clamp(start, end) - start;
        Self { start, profile, highest }
    }

    /// The pixels where it is at least so much.
    fn over(&self, least: f32) -> Range<usize> {
        let (rising, falling) = self.profile.split_at(self.highest);
        let from = rising.partition_point(|&share| share < least);
        let to = rising.len() + falling.partition_point(|&share| share >= least);
        self.start + from..self.start + to
    }
}

/// The shadows on the wall of what stands before it or is fixed to it.
pub(super) fn stand(
    canvas: &mut PixmapMut<'_>,
    masses: &[Mass],
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) {
    let limits = on_wall(canvas, wall, projection);
    for mass in masses {
        let [left, right] = mass.x.map(|x| projection.left + x * projection.scale);
        let [foot, head] = mass.y.map(|y| projection.floor - y * projection.scale);
        // The wall that is hidden anyway is left as it is: what a mass covers, but for its rounded corners.
        let corner = 3.5 * projection.scale;
        let within = |from: f32, to: f32, most: u32| {
            let (from, to) = (from.round(), to.round());
            #[expect(clippy::cast_possible_truncation, reason = "saturates; held within the drawing")]
            if mass.share < 1.0 || from >= to { 0..0 } else { clip(from as i64, to as i64, most) }
        };
        let hidden = (
            within(left + corner, right - corner, canvas.width()),
            within(head + corner, foot - corner, canvas.height()),
        );
        // What reaches back to the wall shades it from there to its front: nearer parts sharply, further ones softly.
        for (near, share) in [(0.28, 0.5), (1.0, 0.5)] {
            let depth = mass.depth * projection.scale * near;
            let sigma = (depth * lamp.softness).max(mass.blur * projection.scale).max(projection.line * 0.8);
            let fall = (depth * lamp.fall.0, depth * lamp.fall.1);
            let across = Span::new(left + fall.0, right + fall.0, sigma, limits.0);
            let down = Span::new(head + fall.1, foot + fall.1, sigma, limits.1);
            take(canvas, &across, &down, lamp.share * mass.share * share, &hidden);
        }
    }
}

/// The shadows on the floor, where the parts of a fixture touch it and where they are near to it.
pub(super) fn on_floor(canvas: &mut PixmapMut<'_>, solids: &[Solid], wall: Size, projection: Projection) {
    let (across, _) = on_wall(canvas, wall, projection);
    let (floor, strip) = (projection.floor, projection.floor_strip);
    let down = (floor, (floor + strip).min(pixels(canvas.height())));
    // Inches above the floor within which a part is near to it.
    const NEAR: f64 = 14.0;
    let mut near: Option<(f64, f64)> = None;
    for solid in solids {
        let bounds = kurbo::Shape::bounding_box(&solid.outline);
        if bounds.y0 > NEAR {
            continue;
        }
        near =
            Some(near.map_or((bounds.x0, bounds.x1), |(from, to)| (from.min(bounds.x0), to.max(bounds.x1))));
        if bounds.y0 < 0.01 && solid.z[1] > solid.z[0] {
            touch(canvas, (bounds.x0, bounds.x1), [0.3, 0.4], projection, (across, down));
        }
    }
    if let Some(ends) = near {
        touch(canvas, ends, [0.75, 0.45], projection, (across, down));
    }
}

/// Takes light from the floor below something: to how much of the strip, and how much light.
fn touch(
    canvas: &mut PixmapMut<'_>,
    (from, to): (f64, f64),
    [deep, share]: [f32; 2],
    projection: Projection,
    (across, down): ((f32, f32), (f32, f32)),
) {
    #[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
    let [from, to] = [from, to].map(|x| projection.left + x as f32 * projection.scale);
    let soft = projection.floor_strip * deep * 0.4;
    let end = projection.floor + projection.floor_strip * deep * 0.4;
    let across = Span::new(from, to, soft, across);
    let down = Span::new(projection.floor - projection.floor_strip, end, soft, down);
    take(canvas, &across, &down, share, &(0..0, 0..0));
}
