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

/// One of 20 × 30, and beside it 8 × 10 above 6 × 8, 2 apart. Their edges towards the one are 2 from it: at 22 to its right; to its left
/// the widest begins at 0, so that the other begins at 2 and the one at 10.
#[test]
fn stacked_beside_one() {
    let sizes = [(20, 30), (8, 10), (6, 8)];
    let right = |align| corners(&sizes, Arrangement::StackRight, 2, align);
    // Outer edges in line: the upper one from 30 - 10 up, the lower one from the foot; 12 are left between them.
    check(right(Align::Both), &[(0, 0), (22, 20), (22, 0)]);
    // 10 + 2 + 8 = 20 high: 5 above and below in the middle, or all 10 at one end.
    check(right(Align::Centre), &[(0, 0), (22, 15), (22, 5)]);
    check(right(Align::Start), &[(0, 0), (22, 20), (22, 10)]);
    check(right(Align::End), &[(0, 0), (22, 10), (22, 0)]);
    check(corners(&sizes, Arrangement::StackLeft, 2, Align::Both), &[(10, 0), (0, 20), (2, 0)]);
    check(corners(&sizes, Arrangement::StackLeft, 2, Align::Centre), &[(10, 0), (0, 15), (2, 5)]);
    // Beside 20 they are 2 apart with their outer edges in line; beside 18 there is no room for that: 20 high, 1 beyond at each end.
    check(
        corners(&[(20, 20), (8, 10), (6, 8)], Arrangement::StackRight, 2, Align::Both),
        &[(0, 0), (22, 10), (22, 0)],
    );
    check(
        corners(&[(20, 18), (8, 10), (6, 8)], Arrangement::StackRight, 2, Align::Both),
        &[(0, 1), (22, 10), (22, 0)],
    );
    // One alone beside it can't have both edges in line.
    check(corners(&sizes[..2], Arrangement::StackRight, 2, Align::Both), &[(0, 0), (22, 10)]);
    // In a row or a column there are no such edges: centres.
    for arrangement in [Arrangement::Row, Arrangement::Column] {
        let of = |align| corners(&THREE, arrangement, 2, align);
        assert_eq!(of(Align::Both), of(Align::Centre));
    }
}

/// One, or none; and gaps of less than nothing, where one overlaps the other: 5 - 8 = -3, so the second begins 3 before the first.
#[test]
fn beyond_what_is_usual() {
    let steps = Arrangement::Stepped(Length::inches(5));
    let mixed = [Arrangement::StackRight, Arrangement::StackLeft];
    for arrangement in [Arrangement::Row, Arrangement::Column, steps].into_iter().chain(mixed) {
        check(corners(&[(8, 10)], arrangement, 2, Align::Centre), &[(0, 0)]);
        check(corners(&[], arrangement, 2, Align::Centre), &[]);
    }
    check(corners(&[(5, 5), (5, 5)], Arrangement::Row, -8, Align::End), &[(3, 0), (0, 0)]);
    check(corners(&[(5, 5), (5, 5)], Arrangement::Column, -8, Align::End), &[(0, 0), (0, 3)]);
}
