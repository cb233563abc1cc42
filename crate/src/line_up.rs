//! Lining up: rectangles one after another, in a row, a column or in steps. Pieces stand so on a wall, and openings in one
//! mat.
//!
//! ```
//! use overmantel::{geometry::Size, length::Length, line_up::line_up, plan::{Align, Arrangement}};
//! let row = line_up(&[Size::inches(8, 10), Size::inches(5, 7)], Arrangement::Row, Length::inches(2), Align::End);
//! assert_eq!((row[1].x, row[1].y), (Length::inches(10), Length::ZERO), "8 + 2 = 10, lower edges on one line");
//! ```

use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::plan::{Align, Arrangement};

/// Rectangles of these sizes with a gap between one and the next. The rectangle round all of them begins at the origin; a
/// column goes from the top down.
#[must_use]
pub fn line_up(sizes: &[Size], arrangement: Arrangement, gap: Length, align: Align) -> Vec<Rect> {
    let widest = sizes.iter().map(|size| size.width).max().unwrap_or_default();
    let highest = sizes.iter().map(|size| size.height).max().unwrap_or_default();
    let mut along = Length::ZERO;
    let mut step = Length::ZERO;
    let placed: Vec<Rect> = sizes
        .iter()
        .map(|&size| {
            let rect = match arrangement {
                Arrangement::Row | Arrangement::Stepped(_) => {
                    Rect::new(along, step + offset(highest - size.height, align, true), size)
                }
                Arrangement::Column => {
                    Rect::new(offset(widest - size.width, align, false), -along - size.height, size)
                }
            };
            match arrangement {
                Arrangement::Row => along += size.width + gap,
                Arrangement::Column => along += size.height + gap,
                Arrangement::Stepped(rise) => {
                    along += size.width + gap;
                    step += rise;
                }
            }
            rect
        })
        .collect();
    let corner = placed.iter().copied().reduce(Rect::union).unwrap_or_default();
    placed.iter().map(|rect| rect.moved(-corner.x, -corner.y)).collect()
}

/// How far a smaller one is moved from the lower (or left) line.
fn offset(room: Length, align: Align, upright: bool) -> Length {
    match (align, upright) {
        (Align::Centre, _) => room.half(),
        (Align::Start, true) | (Align::End, false) => room,
        (Align::Start, false) | (Align::End, true) => Length::ZERO,
    }
}
