//! The shadow that a piece casts on the wall.
//!
//! One lamp, above and to the left, of a certain size. A rectangle's blurred shadow is the product of two profiles, one
//! along each axis, so no two-dimensional blur is needed. It takes light from the wall: the wall's linear light is
//! multiplied, and encoded once.

use super::Area;
use super::light::Lamp;
use super::projection::{OnPixels, Projection, pixels};
use crate::colour::{decode_table, encode};
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::FixtureKind;
use crate::scene::{ScenicFixture, ScenicPiece};
use std::ops::Range;
use tiny_skia::PixmapMut;

/// Casts a piece's shadow on a wall of this size. Where the piece itself will be drawn nothing is done. Returns what may
/// have changed.
pub(super) fn cast(
    canvas: &mut PixmapMut<'_>,
    piece: &ScenicPiece,
    at: OnPixels,
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) -> Area {
    let OnPixels { left, top, size_px: (width, height), .. } = at;
    // Past rounded corners the wall is seen, in its shadow.
    let own = if piece.corner_radius > Length::ZERO {
        (0..0, 0..0)
    } else {
        (clip(left, width, canvas.width()), clip(top, height, canvas.height()))
    };
    let depth = projection.length(piece.depth);
    let lift = projection.length(piece.stand_off);
    shade(canvas, at, (depth, lift), own, wall, projection, lamp)
}

/// Casts a piece's shadow on a wall that may be seen behind it.
pub(super) fn on_wall(
    canvas: &mut PixmapMut<'_>,
    piece: &ScenicPiece,
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) {
    let (depth, lift) = (projection.length(piece.depth), projection.length(piece.stand_off));
    shade(canvas, projection.on_pixels(piece.outside), (depth, lift), (0..0, 0..0), wall, projection, lamp);
}

/// The soft shadow on the floor round what stands on it (left, top, right, bottom, in pixels of a floor seen from above): under
/// it, and away from the wall's lamp.
pub(super) fn on_floor(
    canvas: &mut PixmapMut<'_>,
    [left, top, right, bottom]: [f32; 4],
    scale: f32,
    lamp: &Lamp,
) {
    let sigma = 3.0 * scale;
    let (across, down) = ((0.0, pixels(canvas.width())), (0.0, pixels(canvas.height())));
    let slip = lamp.fall.0 * sigma;
    darken(
        canvas,
        &Span::new(left + slip, right + slip, sigma, across),
        &Span::new(top, bottom, sigma, down),
        lamp.share,
        (0..0, 0..0),
    );
}

/// The shadow that a sheet (left, top, right, bottom) throws round itself on what is so many pixels behind it.
pub(super) fn round(
    canvas: &mut PixmapMut<'_>,
    [left, top, right, bottom]: [f32; 4],
    height: f32,
    lamp: &Lamp,
) {
    let (across, down) = ((0.0, pixels(canvas.width())), (0.0, pixels(canvas.height())));
    let sigma = (height * lamp.softness).max(0.6);
    let (right_by, down_by) = (height * lamp.fall.0, height * lamp.fall.1);
    darken(
        canvas,
        &Span::new(left + right_by, right + right_by, sigma, across),
        &Span::new(top + down_by, bottom + down_by, sigma, down),
        lamp.share,
        (0..0, 0..0),
    );
}

/// A shadow that takes less light than this is not seen.
const LEAST: f32 = 1.0 / 512.0;

/// Takes the lamp's light from the wall behind a rectangle, but for the columns and rows that will be covered.
fn shade(
    canvas: &mut PixmapMut<'_>,
    at: OnPixels,
    (depth, lift): (f32, f32),
    (own_columns, own_rows): (Range<usize>, Range<usize>),
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) -> Area {
    let sigma = (depth * lamp.softness).max(projection.line * 0.8);
    let OnPixels { left, top, size_px: (width, height), .. } = at;
    #[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
    let (x, y, w, h) = (left as f32, top as f32, width as f32, height as f32);
    // What floats off the wall throws its shadow further by as much again as it is lifted.
    let fall =
        (depth * lamp.fall.0 + lift * lamp.fall.0 * 0.57, depth * lamp.fall.1 + lift * lamp.fall.1 * 0.57);
    // The shadow falls on the wall alone.
    let across = (projection.x(Length::ZERO), projection.x(wall.width).min(pixels(canvas.width())));
    let down = (projection.y(wall.height), projection.floor.min(pixels(canvas.height())));
    let span_x = Span::new(x + fall.0, x + fall.0 + w, sigma, across);
    let span_y = Span::new(y + fall.1, y + fall.1 + h, sigma, down);
    darken(canvas, &span_x, &span_y, lamp.share, (own_columns, own_rows));
    Area { x: span_x.first(), y: span_y.first(), width: span_x.length(), height: span_y.length() }
}

/// Takes a share of the light where two profiles cross, but for the columns and rows that will be covered.
fn darken(
    canvas: &mut PixmapMut<'_>,
    span_x: &Span,
    span_y: &Span,
    share: f32,
    (own_columns, own_rows): (Range<usize>, Range<usize>),
) {
    let stride = canvas.width() as usize;
    let table = decode_table();
    let data = canvas.data_mut();
    for (offset, &down) in span_y.profile.iter().enumerate() {
        let row = span_y.start + offset;
        let end = span_x.start + span_x.profile.len();
        let hidden = if own_rows.contains(&row) { own_columns.clone() } else { end..end };
        let line = &mut data[row * stride * 4..][..stride * 4];
        let before = span_x.start..hidden.start.clamp(span_x.start, end);
        let after = hidden.end.clamp(span_x.start, end)..end;
        for column in before.chain(after) {
            let taken = share * down * span_x.profile[column - span_x.start];
            if taken < LEAST {
                continue;
            }
            for channel in &mut line[column * 4..column * 4 + 3] {
                *channel = encode(table[usize::from(*channel)] * (1.0 - taken));
            }
        }
    }
}

fn row_px(row: usize) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
    let row = row as f32;
    row
}

fn clip(start: i32, length: u32, whole: u32) -> Range<usize> {
    let whole = i64::from(whole);
    let end = (i64::from(start) + i64::from(length)).clamp(0, whole);
    let start = i64::from(start).clamp(0, whole);
    usize::try_from(start).unwrap_or(0)..usize::try_from(end).unwrap_or(0)
}

/// A blurred box along one axis, for the pixels where it is more than nothing.
struct Span {
    start: usize,
    profile: Vec<f32>,
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
        let profile = (start..end)
            .map(|pixel| {
                let middle = row_px(pixel) + 0.5;
                step(middle - from) - step(middle - to)
            })
            .collect();
        Self { start, profile }
    }

    fn first(&self) -> f32 {
        row_px(self.start)
    }

    fn length(&self) -> f32 {
        row_px(self.profile.len())
    }
}

/// The soft shadow of something that stands on the floor: on the wall behind it and under its foot.
pub(super) fn stand(
    canvas: &mut PixmapMut<'_>,
    fixture: &ScenicFixture,
    wall: Size,
    projection: Projection,
    lamp: &Lamp,
) {
    let from_wall = match fixture.kind {
        FixtureKind::Sofa | FixtureKind::Bed | FixtureKind::Sideboard | FixtureKind::Table => 7,
        FixtureKind::Mantel | FixtureKind::Radiator => 3,
        _ => return,
    };
    let depth = projection.length(Length::inches(from_wall));
    // A shape does not fill its rectangle, so nothing of the shadow is left out.
    shade(canvas, projection.on_pixels(fixture.rect), (depth, 0.0), (0..0, 0..0), wall, projection, lamp);
    if fixture.rect.y == Length::ZERO {
        let (left, width) = (projection.x(fixture.rect.x), projection.length(fixture.rect.size.width));
        let black = crate::colour::Colour::hex(0x00_00_00);
        let strip = projection.floor_strip;
        for (share, alpha) in [(0.8, 0.10), (0.55, 0.14), (0.3, 0.2)] {
            let spread = width * 0.01 * share;
            let area = [left - spread, projection.floor, width + spread * 2.0, strip * share];
            super::brush::rect_through(canvas, area, black, alpha);
        }
    }
}
