//! Lining up: rectangles one after another, in a row, a column or in steps, or stacked beside the first. Pieces stand so on a wall, and openings in one
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
    if let (true, [first, others @ ..]) = (arrangement.is_mixed(), sizes) {
        return beside(*first, others, arrangement == Arrangement::StackLeft, gap, align);
    }
    let widest = sizes.iter().map(|size| size.width).max().unwrap_or_default();
    let highest = sizes.iter().map(|size| size.height).max().unwrap_or_default();
    let mut along = Length::ZERO;
    let mut step = Length::ZERO;
    let placed: Vec<Rect> = sizes
        .iter()
        .map(|&size| {
            let rect = match arrangement {
                Arrangement::Column => {
                    Rect::new(offset(widest - size.width, align, false), -along - size.height, size)
                }
                _ => Rect::new(along, step + offset(highest - size.height, align, true), size),
            };
            match arrangement {
                Arrangement::Column => along += size.height + gap,
                Arrangement::Stepped(rise) => {
                    along += size.width + gap;
                    step += rise;
                }
                _ => along += size.width + gap,
            }
            rect
        })
        .collect();
    let corner = placed.iter().copied().reduce(Rect::union).unwrap_or_default();
    placed.iter().map(|rect| rect.moved(-corner.x, -corner.y)).collect()
}

/// One, and the others stacked beside it, their edges towards it on one line.
fn beside(first: Size, others: &[Size], is_left: bool, gap: Length, align: Align) -> Vec<Rect> {
    let count = i64::try_from(others.len()).unwrap_or(1);
    let heights = others.iter().map(|size| size.height).sum::<Length>();
    // With their outer edges in line, what is left over is between them.
    let spread = (first.height - heights).times_ratio(1, (count - 1).max(1));
    let is_spread = align == Align::Both && count > 1 && spread >= gap;
    let between = if is_spread { spread } else { gap };
    let height = if is_spread { first.height } else { heights + gap * (count - 1).max(0) };
    let room = first.height - height;
    let mut top = height + offset(room, align, true);
    let mut placed = vec![Rect::new(Length::ZERO, Length::ZERO, first)];
    for (index, &size) in others.iter().enumerate() {
        // The last one ends where the first does, to the unit.
        let is_last = index + 1 == others.len();
        let y = if is_spread && is_last { Length::ZERO } else { top - size.height };
        let x = if is_left { -gap - size.width } else { first.width + gap };
        placed.push(Rect::new(x, y, size));
        top = y - between;
    }
    let corner = placed.iter().copied().reduce(Rect::union).unwrap_or_default();
    placed.iter().map(|rect| rect.moved(-corner.x, -corner.y)).collect()
}

/// How far a smaller one is moved from the lower (or left) line.
fn offset(room: Length, align: Align, upright: bool) -> Length {
    match (align, upright) {
        (Align::Centre | Align::Both, _) => room.half(),
        (Align::Start, true) | (Align::End, false) => room,
        (Align::Start, false) | (Align::End, true) => Length::ZERO,
    }
}
