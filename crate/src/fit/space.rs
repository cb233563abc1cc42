//! A space on the wall: the largest image whose outside, in a row or a column of so many, fits into a size.
//!
//! Along the row n pieces take n × (image + around) + (n - 1) × gap, across it image + around, where *around* is what a piece
//! is larger than its image in all: twice mat border and frame, less what overlaps. Solved for the image:
//! image = (allowed - (n - 1) × gap) / n - around.
//!
//! ```
//! use overmantel::{fit::space::{Spread, in_space}, geometry::Size, length::Length, print::Exact};
//! let triptych = Spread { around: Size::inches(4, 4), count: 3, gap: Length::inches(2), is_stacked: false };
//! let image = in_space(Size::inches(64, 40), &triptych, Exact::new(4, 5)).unwrap();
//! assert_eq!(image, Size::inches(16, 20), "(64 - 2 × 2) / 3 - 4 = 16");
//! assert_eq!(triptych.outside(image), Size::inches(64, 24), "3 × (16 + 4) + 2 × 2");
//! ```

use super::largest_of_shape;
use crate::geometry::Size;
use crate::length::Length;
use crate::print::Exact;
use crate::rounding::Mode;

/// So many equal pieces side by side or one below the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spread {
    /// What the outside of a piece is larger than its image, in width and in height.
    pub around: Size,
    /// How many; at least one.
    pub count: u32,
    /// From the outside of one to the outside of the next.
    pub gap: Length,
    /// Whether they stand one below the other.
    pub is_stacked: bool,
}

impl Spread {
    /// The outside of the group, from the image of one. Inverse: [`in_space`].
    #[must_use]
    pub fn outside(&self, image: Size) -> Size {
        let piece = Size::new(image.width + self.around.width, image.height + self.around.height);
        let count = i64::from(self.count.max(1));
        let along = |side: Length| side * count + self.gap * (count - 1);
        if self.is_stacked {
            Size::new(piece.width, along(piece.height))
        } else {
            Size::new(along(piece.width), piece.height)
        }
    }
}

/// The largest image of a shape (width over height) whose group keeps within the size allowed, each piece's share of that rounded down
/// to the unit; `None` where nothing is left for it. Inverse: [`Spread::outside`].
#[must_use]
pub fn in_space(allowed: Size, spread: &Spread, width_over_height: Exact) -> Option<Size> {
    let count = i64::from(spread.count.max(1));
    let share = |along: Length| {
        let pieces = along - spread.gap * (count - 1);
        Length::from_ratio(pieces.units().into(), count.into(), Mode::Down)
    };
    let piece = if spread.is_stacked {
        Size::new(allowed.width, share(allowed.height))
    } else {
        Size::new(share(allowed.width), allowed.height)
    };
    let window = Size::new(piece.width - spread.around.width, piece.height - spread.around.height);
    largest_of_shape(width_over_height, window)
}
