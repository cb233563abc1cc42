//! Points, sizes and rectangles in exact lengths.
//!
//! The frame of reference, everywhere before the edge of drawing: x runs to the right, y up. On a wall the origin is
//! its lower left corner (where the floor meets it); within a piece, the lower left corner of its outside. Width
//! stands before height, always.
//!
//! ```
//! use overmantel::geometry::{Rect, Sides, Size};
//! use overmantel::length::Length;
//! let board = Rect::new(Length::ZERO, Length::ZERO, Size::inches(20, 24));
//! let opening = board.shrunk(Sides::all(Length::inches(2)));
//! assert_eq!(opening.size, Size::inches(16, 20), "20 - 2 × 2 = 16 and 24 - 2 × 2 = 20");
//! ```

use crate::length::Length;

/// A place: to the right of and above the origin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Point {
    /// From the origin to the right.
    pub x: Length,
    /// From the origin upwards.
    pub y: Length,
}

impl Point {
    /// A point from its two coordinates.
    #[must_use]
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }
}

/// A width and a height, in that order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Size {
    /// From left to right.
    pub width: Length,
    /// From bottom to top.
    pub height: Length,
}

impl Size {
    /// A size, width first.
    #[must_use]
    pub const fn new(width: Length, height: Length) -> Self {
        Self { width, height }
    }

    /// A size in whole inches, width first.
    #[must_use]
    pub const fn inches(width: i64, height: i64) -> Self {
        Self::new(Length::inches(width), Length::inches(height))
    }

    /// The size with so much added on each of its four sides (less, when negative).
    #[must_use]
    pub fn grown(self, each_side: Length) -> Self {
        Self::new(self.width + each_side * 2, self.height + each_side * 2)
    }

    /// Whether both measures are more than zero.
    #[must_use]
    pub fn is_positive(self) -> bool {
        self.width > Length::ZERO && self.height > Length::ZERO
    }
}

/// Four measures, one for each side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Sides {
    /// On the left, seen from the front.
    pub left: Length,
    /// At the top.
    pub top: Length,
    /// On the right, seen from the front.
    pub right: Length,
    /// At the bottom.
    pub bottom: Length,
}

impl Sides {
    /// The same measure on every side.
    #[must_use]
    pub const fn all(each: Length) -> Self {
        Self { left: each, top: each, right: each, bottom: each }
    }

    /// The measure that all four share, if they do.
    #[must_use]
    pub fn even(self) -> Option<Length> {
        (self == Self::all(self.left)).then_some(self.left)
    }
}

/// An upright rectangle: its lower left corner and its size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Rect {
    /// The left edge.
    pub x: Length,
    /// The lower edge.
    pub y: Length,
    /// Width and height.
    pub size: Size,
}

impl Rect {
    /// From the lower left corner and a size.
    #[must_use]
    pub const fn new(x: Length, y: Length, size: Size) -> Self {
        Self { x, y, size }
    }

    /// The rectangle of this size whose middle is that of `around` (to the nearest unit).
    #[must_use]
    pub fn centred(size: Size, around: Self) -> Self {
        let x = around.x + (around.size.width - size.width).half();
        let y = around.y + (around.size.height - size.height).half();
        Self { x, y, size }
    }

    /// The right edge.
    #[must_use]
    pub fn right(self) -> Length {
        self.x + self.size.width
    }

    /// The upper edge.
    #[must_use]
    pub fn top(self) -> Length {
        self.y + self.size.height
    }

    /// The middle, to the nearest unit.
    #[must_use]
    pub fn centre(self) -> Point {
        Point::new(self.x + self.size.width.half(), self.y + self.size.height.half())
    }

    /// The rectangle with so much taken off each side.
    #[must_use]
    pub fn shrunk(self, sides: Sides) -> Self {
        Self {
            x: self.x + sides.left,
            y: self.y + sides.bottom,
            size: Size::new(
                self.size.width - sides.left - sides.right,
                self.size.height - sides.top - sides.bottom,
            ),
        }
    }

    /// The rectangle with so much more on each side: [`shrunk`](Self::shrunk) by it gives this one back.
    ///
    /// ```
    /// use overmantel::{geometry::{Rect, Sides, Size}, length::Length};
    /// let opening = Rect::new(Length::inches(2), Length::inches(3), Size::inches(12, 16));
    /// let bevelled = opening.grown(Length::inches(1));
    /// assert_eq!(bevelled, Rect::new(Length::inches(1), Length::inches(2), Size::inches(14, 18)), "12 + 2 × 1, 16 + 2 × 1");
    /// assert_eq!(bevelled.shrunk(Sides::all(Length::inches(1))), opening);
    /// ```
    #[must_use]
    pub fn grown(self, by: Length) -> Self {
        self.shrunk(Sides::all(-by))
    }

    /// The rectangle moved to the right and up.
    #[must_use]
    pub fn moved(self, x: Length, y: Length) -> Self {
        Self { x: self.x + x, y: self.y + y, size: self.size }
    }

    /// The part that both cover, if any.
    #[must_use]
    pub fn common(self, other: Self) -> Option<Self> {
        let (x, y) = (self.x.max(other.x), self.y.max(other.y));
        let size = Size::new(self.right().min(other.right()) - x, self.top().min(other.top()) - y);
        size.is_positive().then_some(Self { x, y, size })
    }

    /// The smallest rectangle round both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        let (x, y) = (self.x.min(other.x), self.y.min(other.y));
        let size = Size::new(self.right().max(other.right()) - x, self.top().max(other.top()) - y);
        Self { x, y, size }
    }

    /// Whether the point is in it or on its edge.
    #[must_use]
    pub fn contains(self, point: Point) -> bool {
        (self.x..=self.right()).contains(&point.x) && (self.y..=self.top()).contains(&point.y)
    }
}
