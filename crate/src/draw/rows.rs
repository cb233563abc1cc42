//! Rows of pixels from one picture into another.

use super::pixel_rect::PixelRect;
use tiny_skia::{PixmapMut, PixmapRef};

/// Puts the room back where something was drawn over it, with a pixel to spare on each side; but for what will be covered.
pub(super) fn restore(
    canvas: &mut PixmapMut<'_>,
    room: PixmapRef<'_>,
    area: PixelRect,
    covered: &[PixelRect<i64>],
) {
    let low = |at: f32| crate::rounding::nearest(libm::floor(f64::from(at) - 1.0));
    let high = |at: f32| crate::rounding::nearest(libm::ceil(f64::from(at) + 1.0));
    let outer = PixelRect {
        left: low(area.left),
        top: low(area.top),
        right: high(area.right),
        bottom: high(area.bottom),
    };
    let mut parts = vec![outer];
    for hole in covered {
        let left = parts.into_iter().flat_map(|part| without(part, *hole));
        parts = left.filter(|part| part.left < part.right && part.top < part.bottom).collect();
    }
    parts.into_iter().for_each(|part| copy_rows(canvas, room, part, (0, 0)));
}

/// What is left of an area without another: above it, at its sides, below it. Some of these may be empty.
fn without(area: PixelRect<i64>, hole: PixelRect<i64>) -> [PixelRect<i64>; 4] {
    let PixelRect { left, top, right, bottom } = area;
    let (from, to) = (hole.left.clamp(left, right), hole.right.clamp(left, right));
    let (above, below) = (hole.top.clamp(top, bottom), hole.bottom.clamp(top, bottom));
    [
        PixelRect { bottom: above, ..area },
        PixelRect { left, top: above, right: from, bottom: below },
        PixelRect { left: to, top: above, right, bottom: below },
        PixelRect { top: below, ..area },
    ]
}

/// Copies the pixels of an area of the canvas from a picture whose corner lies at `corner`.
#[inline(never)]
pub(super) fn copy_rows(
    canvas: &mut PixmapMut<'_>,
    picture: PixmapRef<'_>,
    area: PixelRect<i64>,
    corner: (i64, i64),
) {
    let width = i64::from(canvas.width());
    let own_width = i64::from(picture.width());
    let PixelRect { left, top, right, bottom } = area.within((canvas.width(), canvas.height()));
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
