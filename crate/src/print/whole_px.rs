//! Whole pixels: an exact crop as the rectangle of pixels that is cut from the file.
//!
//! Width and height go to the nearest whole number, at least one pixel and at most the picture. The rectangle is then laid
//! with its middle on that of the exact crop, to the nearest pixel, and never reaches beyond the picture. So each of its
//! four edges is at most one pixel from where it should be, and its shape is off by at most a pixel in each direction (by half a
//! pixel, unless the crop is thinner than half a pixel).
//!
//! ```
//! use overmantel::{geometry::Size, plan::Focus, print::{fill, whole_px::PixelCrop}};
//! let cut = fill((4000, 6000), Size::inches(30, 20), Focus::MIDDLE);
//! let crop = cut.whole_px((4000, 6000));
//! assert_eq!(crop, PixelCrop { left: 0, top: 1667, width: 4000, height: 2667 }, "2666 2/3 px high, from 1666 2/3");
//! ```

use super::{Cut, Exact};
use crate::rounding::{Mode, divide};

/// Part of a picture in whole pixels, from its upper left corner, x to the right and y down as pictures are stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PixelCrop {
    /// Pixels left of it.
    pub left: u32,
    /// Pixels above it.
    pub top: u32,
    /// Its width; at least one.
    pub width: u32,
    /// Its height; at least one.
    pub height: u32,
}

impl Cut {
    /// The crop in whole pixels of the picture, which has at least one pixel in each direction.
    ///
    /// Parts of one split picture are rounded each for itself: two that meet may then share a row of pixels, or leave one out.
    #[must_use]
    pub fn whole_px(&self, picture_px: (u32, u32)) -> PixelCrop {
        let (left, width) = span(self.source.left, self.source.width, picture_px.0);
        let (top, height) = span(self.source.top, self.source.height, picture_px.1);
        PixelCrop { left, top, width, height }
    }
}

/// Start and length of a span in whole pixels, within so many.
fn span(start: Exact, length: Exact, whole_px: u32) -> (u32, u32) {
    let length_px = nearest(length).clamp(1, i128::from(whole_px.max(1)));
    // The same middle: start + length / 2 = start_px + length_px / 2.
    let start_px =
        nearest(start + (length - length_px) / 2).clamp(0, i128::from(whole_px.max(1)) - length_px);
    (held(start_px), held(length_px))
}

fn nearest(value: Exact) -> i128 {
    divide(*value.numer(), *value.denom(), Mode::HalfAway)
}

fn held(pixels: i128) -> u32 {
    u32::try_from(pixels).unwrap_or_default()
}
