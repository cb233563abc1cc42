//! Rectangles one after another, against worked examples.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper. Numbers are inches; x runs to the right and y up,
//! and the rectangle round all begins at the origin.

use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::line_up::line_up;
use overmantel::plan::{Align, Arrangement};

/// Corners found for sizes with a gap.
fn corners(sizes: &[(i64, i64)], arrangement: Arrangement, gap: i64, align: Align) -> Vec<(Length, Length)> {
    let sizes: Vec<Size> = sizes.iter().map(|&(width, height)| Size::inches(width, height)).collect();
    let placed = line_up(&sizes, arrangement, Length::inches(gap), align);
    assert_eq!(placed.iter().map(|rect| rect.size).collect::<Vec<_>>(), sizes, "sizes stay as they are");
    placed.iter().map(|rect| (rect.x, rect.y)).collect()
}

#[track_caller]
fn check(found: Vec<(Length, Length)>, expected: &[(i64, i64)]) {
    let expected: Vec<_> = expected.iter().map(|&(x, y)| (Length::inches(x), Length::inches(y))).collect();
    assert_eq!(found, expected);
}

const THREE: [(i64, i64); 3] = [(8, 10), (6, 4), (10, 8)];

/// 8, a gap of 2, 6, a gap of 2, 10: from 0, 10 and 18. On upper lines 0, 6 and 2 above the lowest; in the middle half of that.
#[test]
fn rows() {
    let row = |align| corners(&THREE, Arrangement::Row, 2, align);
    check(row(Align::Start), &[(0, 0), (10, 6), (18, 2)]);
    check(row(Align::Centre), &[(0, 0), (10, 3), (18, 1)]);
    check(row(Align::End), &[(0, 0), (10, 0), (18, 0)]);
}

/// From the top down: 8 at the foot, 4 from 8 + 2, 10 from 14 + 2. The widest is 10: 2 and 4 are left beside the others.
#[test]
fn columns() {
    let column = |align| corners(&THREE, Arrangement::Column, 2, align);
    check(column(Align::Start), &[(0, 16), (0, 10), (0, 0)]);
    check(column(Align::Centre), &[(1, 16), (2, 10), (0, 0)]);
    check(column(Align::End), &[(2, 16), (4, 10), (0, 0)]);
}

/// Each line is so much above the one before; downwards, the last one is at the foot.
#[test]
fn steps() {
    let steps = |rise, align| corners(&THREE, Arrangement::Stepped(Length::inches(rise)), 2, align);
    check(steps(3, Align::End), &[(0, 0), (10, 3), (18, 6)]);
    check(steps(-3, Align::End), &[(0, 6), (10, 3), (18, 0)]);
    // Upper lines at 10, 13 and 16 above the first foot.
    check(steps(3, Align::Start), &[(0, 0), (10, 9), (18, 8)]);
    check(steps(3, Align::Centre), &[(0, 0), (10, 6), (18, 7)]);
}

/// One, or none; and gaps of less than nothing, where one overlaps the other: 5 - 8 = -3, so the second begins 3 before the first.
#[test]
fn beyond_what_is_usual() {
    for arrangement in [Arrangement::Row, Arrangement::Column, Arrangement::Stepped(Length::inches(5))] {
        check(corners(&[(8, 10)], arrangement, 2, Align::Centre), &[(0, 0)]);
        check(corners(&[], arrangement, 2, Align::Centre), &[]);
    }
    check(corners(&[(5, 5), (5, 5)], Arrangement::Row, -8, Align::End), &[(3, 0), (0, 0)]);
    check(corners(&[(5, 5), (5, 5)], Arrangement::Column, -8, Align::End), &[(0, 0), (0, 3)]);
}
