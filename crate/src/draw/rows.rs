//! Rows of pixels from one picture into another.

use super::Area;
use tiny_skia::{PixmapMut, PixmapRef};

/// Puts the room back where something was drawn over it, with a pixel to spare on each side; but for what will be covered (left,
/// top, right, bottom).
pub(super) fn restore(canvas: &mut PixmapMut<'_>, room: PixmapRef<'_>, area: Area, covered: &[[i64; 4]]) {
    let outer = |low: f32, length: f32| {
        let (from, to) = (f64::from(low) - 1.0, f64::from(low + length) + 1.0);
        (crate::rounding::nearest(libm::floor(from)), crate::rounding::nearest(libm::ceil(to)))
    };
    let ((left, right), (top, bottom)) = (outer(area.x, area.width), outer(area.y, area.height));
    let mut parts = vec![[left, top, right, bottom]];
    for hole in covered {
        let left = parts.into_iter().flat_map(|part| without(part, *hole));
        parts = left.filter(|[left, top, right, bottom]| left < right && top < bottom).collect();
    }
    parts.into_iter().for_each(|part| copy_rows(canvas, room, part, (0, 0)));
}

/// What is left of an area without another: above it, at its sides, below it. Some of these may be empty.
fn without(area: [i64; 4], hole: [i64; 4]) -> [[i64; 4]; 4] {
    let [left, top, right, bottom] = area;
    let (from, to) = (hole[0].clamp(left, right), hole[2].clamp(left, right));
    let (above, below) = (hole[1].clamp(top, bottom), hole[3].clamp(top, bottom));
    [
        [left, top, right, above],
        [left, above, from, below],
        [to, above, right, below],
        [left, below, right, bottom],
    ]
}

/// Copies the pixels of an area (left, top, right, bottom of the canvas) from a picture whose corner lies at `corner`.
#[inline(never)]
pub(super) fn copy_rows(
    canvas: &mut PixmapMut<'_>,
    picture: PixmapRef<'_>,
    area: [i64; 4],
    corner: (i64, i64),
) {
    let (width, height) = (i64::from(canvas.width()), i64::from(canvas.height()));
    let own_width = i64::from(picture.width());
    let (left, right) = (area[0].clamp(0, width), area[2].clamp(0, width));
    let (top, bottom) = (area[1].clamp(0, height), area[3].clamp(0, height));
    // Nothing of it is on the canvas: then its rows have no place there either.
    if left >= right {
        return;
    }
    let index = |at: i64| usize::try_from(at * 4).unwrap_or(0);
    let bytes = index(right - left);
    if bytes == 0 {
        // Nothing of it is within; there may be no such place in the picture either.
        return;
    }
    let data = canvas.data_mut();
    for row in top..bottom {
        let from = index((row - corner.1) * own_width + left - corner.0);
        let to = index(row * width + left);
        data[to..to + bytes].copy_from_slice(&picture.data()[from..from + bytes]);
    }
}
