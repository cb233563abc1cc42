//! Two pieces stacked beside a large one: which sizes go together so, and what a set of them counts.

use super::search::{is_alike, rounded};
use crate::geometry::Size;
use crate::length::Length;

/// So many pieces are a mixed group.
pub(super) const COUNT: usize = 3;

/// Whether the others go beside the first, as far as they are known: none is wider, and together with the gap they are no higher, so that
/// their outer edges can be in line with its own.
pub(super) fn is_beside(outsides: &[Size], gap: Length) -> bool {
    let [first, others @ ..] = outsides else { return true };
    let heights = others.iter().map(|other| other.height).sum::<Length>();
    others.iter().all(|other| other.width <= first.width) && heights + gap <= first.height
}

/// The size of a group, as [`crate::line_up`] has it with the outer edges in line.
pub(super) fn extent(outsides: &[Size], gap: Length) -> Size {
    let [first, others @ ..] = outsides else { return Size::default() };
    let widest = others.iter().map(|other| other.width).max().unwrap_or_default();
    Size::new(first.width + gap + widest, first.height)
}

/// Sixths of points for a set: the two that are stacked should be alike, and no further apart than they are from the large one.
pub(super) fn set(outsides: &[Size], gap: Length) -> i64 {
    let &[first, upper, lower] = outsides else { return 0 };
    let beyond = first.height - upper.height - lower.height - gap;
    6 * (rounded(beyond, 100, first.height) + if is_alike(upper, lower) { 4 } else { 16 })
}
