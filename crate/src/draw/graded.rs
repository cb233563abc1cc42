//! Shapes whose light changes from their top to their bottom and from side to side, and areas that light is taken from. All of it in
//! linear light, worked out once for a row or a column.

use super::brush::{near_sheet, to_skia};
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use crate::colour::{Colour, Dimmer, Encoder, decode_table};
use kurbo::BezPath;
use std::ops::Range;
use tiny_skia::{FillRule, Mask, PixmapMut, Transform};
use wide::{f32x4, i32x4};

/// Where what is round is nearest to the viewer and to the lamp, in shares of its width.
const MIDDLE: f32 = 0.42;

/// Steps from no light to the most that a shape has.
const STEPS: f32 = 512.0;

/// Pixels that are worked out at once.
const AT_ONCE: usize = 4;

/// Fills a path with one light at the top and another at the bottom of its bounds; of that light its left, middle and right keep so
/// much.
pub(super) fn fill(
    canvas: &mut PixmapMut<'_>,
    path: &BezPath,
    colour: Colour,
    light: [f32; 2],
    sides: [f32; 3],
) {
    let Some(path) = to_skia(path) else { return };
    let bounds = path.bounds();
    let (columns, rows) = (
        touched(bounds.left(), bounds.right(), canvas.width()),
        touched(bounds.top(), bounds.bottom(), canvas.height()),
    );
    let sized = |range: &Range<u32>| range.end - range.start;
    let Some(mut mask) = Mask::new(sized(&columns), sized(&rows)) else { return };
    let to_mask = Transform::from_translate(-pixels(columns.start), -pixels(rows.start));
    mask.fill_path(&path, FillRule::Winding, true, to_mask);

    let most = light[0].max(light[1]) * sides.iter().fold(0.0_f32, |most, &side| most.max(side));
    let least = light[0].min(light[1]) * sides.iter().fold(f32::MAX, |least, &side| least.min(side));
    let (lowest, codes) = lit(colour, least, most);
    let whole_number = |count: usize| i32x4::splat(i32::try_from(count).unwrap_or(i32::MAX));
    let (lowest, last) = (whole_number(lowest), whole_number(codes.len() - 1));
    let (left, top) = (bounds.left(), bounds.top());
    let (width, height) = (bounds.width().max(0.01), bounds.height().max(0.01));
    let to_steps = STEPS / most.max(0.001);
    let across: Vec<f32> = columns
        .clone()
        .map(|column| {
            let at = ((pixels(column) + 0.5 - left) / width).clamp(0.0, 1.0);
            // Nearly even round the middle and soon less at the ends, as on what is round; without a kink between.
            let (from, to, way) = if at < MIDDLE {
                (sides[0], sides[1], at / MIDDLE)
            } else {
                (sides[1], sides[2], (at - MIDDLE) / (1.0 - MIDDLE))
            };
            (from + (to - from) * way * way * (3.0 - 2.0 * way)) * to_steps
        })
        .collect();
    let (table, encoder) = (decode_table(), Encoder::new());
    let stride = canvas.width() as usize * 4;
    let data = canvas.data_mut();
    let whole = [u8::MAX; AT_ONCE];
    for (row, covered) in rows.zip(mask.data().chunks_exact(across.len().max(1))) {
        let at = ((pixels(row) + 0.5 - top) / height).clamp(0.0, 1.0);
        let down = light[0] + (light[1] - light[0]) * at;
        let line = &mut data[row as usize * stride + columns.start as usize * 4..];
        let line = line.as_chunks_mut::<4>().0.chunks_mut(AT_ONCE);
        for ((pixels, across), covered) in line.zip(across.chunks(AT_ONCE)).zip(covered.chunks(AT_ONCE)) {
            if covered.iter().all(|&covered| covered == 0) {
                continue;
            }
            let mut shares = [0.0; AT_ONCE];
            shares[..across.len()].copy_from_slice(across);
            let steps = (f32x4::new(shares) * down + 0.5).fast_trunc_int() - lowest;
            let own =
                steps.max(i32x4::ZERO).min(last).to_array().map(|step| codes[step.cast_unsigned() as usize]);
            if *covered == whole {
                pixels.copy_from_slice(&own);
                continue;
            }
            for ((pixel, own), &covered) in pixels.iter_mut().zip(own).zip(covered) {
                let share = f32::from(covered) / 255.0;
                for (channel, code) in pixel[..3].iter_mut().zip(own) {
                    let (light, behind) = (table[usize::from(code)], table[usize::from(*channel)]);
                    *channel = encoder.code(light * share + behind * (1.0 - share));
                }
            }
        }
    }
}

/// How much of a pixel lies between two places.
pub(super) fn covered(pixel: u32, from: f32, to: f32) -> f32 {
    ((pixels(pixel) + 1.0).min(to) - pixels(pixel).max(from)).clamp(0.0, 1.0)
}

/// The pixels that something from here to there touches, as far as they are on the canvas.
pub(super) fn touched(from: f32, to: f32, most: u32) -> Range<u32> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held at 0 and at the most")]
    let whole = |value: f32| (value.max(0.0) as u32).min(most);
    let start = whole(libm::floorf(from));
    start..whole(libm::ceilf(to)).max(start)
}

/// A colour in each step of light from the least to the most of it, and the number of the first of them.
fn lit(colour: Colour, least: f32, most: f32) -> (usize, Vec<[u8; 4]>) {
    let mut step = libm::floorf(least / most.max(0.001) * STEPS).clamp(0.0, STEPS);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to the steps")]
    let lowest = step as usize;
    let mut codes = Vec::new();
    while step <= STEPS {
        let Colour { red, green, blue } = colour.lit(step / STEPS * most);
        codes.push([red, green, blue, u8::MAX]);
        step += 1.0;
    }
    (lowest, codes)
}

/// Leaves of an area's light so much at its top and so much at its bottom.
pub(super) fn dim(canvas: &mut PixmapMut<'_>, area: PixelRect, head: f32, foot: f32) {
    let area = near_sheet(area);
    let (PixelRect { left, top, right, bottom }, height) = (area, area.height());
    let (columns, rows) = (touched(left, right, canvas.width()), touched(top, bottom, canvas.height()));
    let shares: Vec<f32> = columns.clone().map(|column| covered(column, left, right)).collect();
    let mut dimmer = Dimmer::new(&shares);
    let stride = canvas.width() as usize * 4;
    let data = canvas.data_mut();
    for row in rows {
        let at = ((pixels(row) + 0.5 - top) / height.max(0.01)).clamp(0.0, 1.0);
        dimmer.by((1.0 - (head + (foot - head) * at)).clamp(0.0, 1.0) * covered(row, top, bottom));
        let start = row as usize * stride + columns.start as usize * 4;
        dimmer.row(&mut data[start..start + shares.len() * 4], 0);
    }
}
