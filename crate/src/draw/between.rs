//! What lies between two upright rectangles, one within the other: a board round its opening, the four mitred sides of a bevel.

use super::graded::{covered, touched};
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use crate::colour::{Colour, Encoder, decode};
use std::ops::Range;
use tiny_skia::PixmapMut;

/// Fills what lies between an outer and an inner rectangle, with a colour for the left, the upper, the right and the lower side. Pixels
/// that are covered in part are mixed in linear light; those on a mitre belong to the side that most of them lies on.
#[inline(never)]
pub(super) fn fill(canvas: &mut PixmapMut<'_>, outer: PixelRect, inner: PixelRect, colours: [Colour; 4]) {
    let widths = outer.widths_to(inner);
    let light = colours.map(|colour| [colour.red, colour.green, colour.blue].map(decode));
    let opaque = colours.map(|Colour { red, green, blue }| [red, green, blue, u8::MAX]);
    let is_plain = opaque.iter().all(|&colour| colour == opaque[0]);
    let side_at = |column: u32, row: u32| {
        if is_plain {
            return 0;
        }
        let (x, y) = (pixels(column) + 0.5, pixels(row) + 0.5);
        let inwards = [x - outer.left, y - outer.top, outer.right - x, outer.bottom - y];
        let share = |side: usize| inwards[side] / widths[side];
        (1..4).fold(0, |nearest, side| if share(side) < share(nearest) { side } else { nearest })
    };
    let columns = touched(outer.left, outer.right, canvas.width());
    let rows = touched(outer.top, outer.bottom, canvas.height());
    let across: Vec<[f32; 2]> = columns
        .clone()
        .map(|column| [covered(column, outer.left, outer.right), covered(column, inner.left, inner.right)])
        .collect();
    // Columns without an edge in them: at the left of the inner rectangle, in it, at its right.
    let inside = touched(inner.left, inner.right, columns.end);
    let wholes = [
        whole([outer.left, pixels(inside.start)], &columns),
        whole([inner.left, inner.right], &columns),
        whole([pixels(inside.end), outer.right], &columns),
    ];
    let encoder = Encoder::new();
    let stride = canvas.width() as usize * 4;
    let data = canvas.data_mut();
    for row in rows {
        let down = [covered(row, outer.top, outer.bottom), covered(row, inner.top, inner.bottom)];
        let line = data[row as usize * stride..][..stride].as_chunks_mut::<4>().0;
        let mix = |line: &mut [[u8; 4]], some: Range<u32>| {
            for column in some {
                let across = across[(column - columns.start) as usize];
                let share = across[0] * down[0] - across[1] * down[1];
                if share <= 0.0 {
                    continue;
                }
                let side = side_at(column, row);
                let pixel = &mut line[column as usize];
                if share >= 1.0 {
                    *pixel = opaque[side];
                } else {
                    for (code, light) in pixel[..3].iter_mut().zip(light[side]) {
                        *code = encoder.code(light * share + decode(*code) * (1.0 - share));
                    }
                }
            }
        };
        let mut from = columns.start;
        for (index, whole) in wholes.iter().enumerate() {
            let is_hidden = index == 1 && down[1] >= 1.0;
            let is_full = is_plain && down[0] >= 1.0 && (index != 1 || down[1] <= 0.0);
            if is_hidden || is_full {
                let whole = whole.start.max(from)..whole.end.max(from);
                mix(line, from..whole.start);
                if is_full {
                    line[whole.start as usize..whole.end as usize].fill(opaque[0]);
                }
                from = whole.end;
            }
        }
        mix(line, from..columns.end);
    }
}

/// Of some pixels those that are covered whole.
fn whole([from, to]: [f32; 2], pixels: &Range<u32>) -> Range<u32> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held at 0 and at the most")]
    let held = |value: f32| (value.max(0.0) as u32).min(pixels.end);
    let start = held(libm::ceilf(from)).max(pixels.start);
    start..held(libm::floorf(to)).max(start)
}
