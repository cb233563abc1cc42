//! A rectangle of pixels: where anything is on a drawing.

use std::ops::{Add, Sub};

/// A rectangle in device pixels, from the upper left corner of what is drawn on: in parts of pixels, or in whole ones as
/// `PixelRect<i64>`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PixelRect<T = f32> {
    /// Where it begins, from the left.
    pub left: T,
    /// Where it begins, from the top.
    pub top: T,
    /// Where it ends, from the left.
    pub right: T,
    /// Where it ends, from the top.
    pub bottom: T,
}

impl<T: Copy + Add<Output = T> + Sub<Output = T>> PixelRect<T> {
    /// The one with its upper left corner there and of this size.
    pub fn from_xywh(x: T, y: T, width: T, height: T) -> Self {
        Self { left: x, top: y, right: x + width, bottom: y + height }
    }

    /// How wide it is.
    pub fn width(self) -> T {
        self.right - self.left
    }

    /// How high it is.
    pub fn height(self) -> T {
        self.bottom - self.top
    }
}

impl PixelRect {
    /// Whether there is nothing in it.
    pub(super) fn is_empty(self) -> bool {
        self.width() <= 0.0 || self.height() <= 0.0
    }

    /// How many pixels it has.
    pub(super) fn pixels(self) -> f32 {
        self.width() * self.height()
    }

    /// Its corners, from the upper left one clockwise.
    pub(super) fn corners(self) -> [(f32, f32); 4] {
        let Self { left, top, right, bottom } = self;
        [(left, top), (right, top), (right, bottom), (left, bottom)]
    }

    /// Each edge at the nearest whole pixel.
    pub(super) fn whole(self) -> Self {
        let Self { left, top, right, bottom } = self;
        Self { left: left.round(), top: top.round(), right: right.round(), bottom: bottom.round() }
    }

    /// Whole pixels, with one to spare on each side.
    pub(super) fn outwards(self) -> Self {
        Self {
            left: self.left.floor() - 1.0,
            top: self.top.floor() - 1.0,
            right: self.right.ceil() + 1.0,
            bottom: self.bottom.ceil() + 1.0,
        }
    }

    /// Larger by so much on each side; smaller, where it is less than nothing.
    pub(super) fn grown(self, by: f32) -> Self {
        let twice = by * 2.0;
        Self::from_xywh(self.left - by, self.top - by, self.width() + twice, self.height() + twice)
    }

    /// The least that holds both.
    pub(super) fn union(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// Whether the two have any part of a pixel in common.
    pub(super) fn overlaps(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// At least a pixel inside another on every side, as far as there is room.
    pub(super) fn a_pixel_within(self, outer: Self) -> Self {
        let (middle_x, middle_y) = ((outer.left + outer.right) / 2.0, (outer.top + outer.bottom) / 2.0);
        Self {
            left: self.left.max((outer.left + 1.0).min(middle_x.floor())),
            top: self.top.max((outer.top + 1.0).min(middle_y.floor())),
            right: self.right.min((outer.right - 1.0).max(middle_x.ceil())),
            bottom: self.bottom.min((outer.bottom - 1.0).max(middle_y.ceil())),
        }
    }

    /// How far apart its edges are from those of another within it: at the left, above, at the right, below; more than zero.
    pub(super) fn widths_to(self, inner: Self) -> [f32; 4] {
        [inner.left - self.left, inner.top - self.top, self.right - inner.right, self.bottom - inner.bottom]
            .map(|width| width.max(0.01))
    }
}

impl PixelRect<i64> {
    /// All pixels of something of this size.
    pub(super) fn of_size((width, height): (u32, u32)) -> Self {
        Self::from_xywh(0, 0, width.into(), height.into())
    }

    /// How many pixels it has across and down.
    pub(super) fn size_px(self) -> (u32, u32) {
        [self.width(), self.height()].map(|side| u32::try_from(side).unwrap_or(0)).into()
    }

    /// The same size from the upper left corner on.
    pub(super) fn at_corner(self) -> Self {
        Self::from_xywh(0, 0, self.width(), self.height())
    }

    /// The same upper left corner with another size.
    pub(super) fn sized(self, (width, height): (u32, u32)) -> Self {
        Self::from_xywh(self.left, self.top, width.into(), height.into())
    }

    /// What of it is on something of this size, which is nothing where it begins after it ends.
    pub(super) fn within(self, (width, height): (u32, u32)) -> Self {
        let (width, height) = (i64::from(width), i64::from(height));
        Self {
            left: self.left.clamp(0, width),
            top: self.top.clamp(0, height),
            right: self.right.clamp(0, width),
            bottom: self.bottom.clamp(0, height),
        }
    }
}
