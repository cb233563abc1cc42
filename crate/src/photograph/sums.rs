//! Small sums that the finding of edges needs: square roots, fits of lines and bends, medians.

use crate::order::sort_by;
use kurbo::{Point, Vec2};

/// A count as a real number.
#[expect(clippy::cast_precision_loss, reason = "counts of pixels, far below 2^52")]
pub(super) const fn real(count: usize) -> f64 {
    count as f64
}

/// A real number cut off to a count; what is below zero or no number is zero.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
pub(super) const fn whole(value: f64) -> usize {
    value as usize
}

/// As single precision.
#[expect(clippy::cast_possible_truncation, reason = "shades and weights, which need no more")]
pub(super) const fn short(value: f64) -> f32 {
    value as f32
}

/// How long a vector is. (The library's own asks the platform.)
pub(super) fn length(v: Vec2) -> f64 {
    (v.x * v.x + v.y * v.y).sqrt()
}

/// The direction of a vector, one long; of none, to the right.
pub(super) fn unit(v: Vec2) -> Vec2 {
    let length = length(v);
    if length > 1e-12 { v / length } else { Vec2::new(1.0, 0.0) }
}

/// A quarter turn clockwise as seen: from right to down.
pub(super) fn turned(v: Vec2) -> Vec2 {
    Vec2::new(-v.y, v.x)
}

/// The middle one of some numbers; zero of none.
pub(super) fn median(mut of: Vec<f64>) -> f64 {
    sort_by(&mut of, f64::total_cmp);
    of.get(of.len() / 2).copied().unwrap_or(0.0)
}

/// The mean of the middle half of some numbers; zero of none.
pub(super) fn usual(mut of: Vec<f64>) -> f64 {
    sort_by(&mut of, f64::total_cmp);
    let half = &of[of.len() / 4..of.len() - of.len() / 4];
    half.iter().sum::<f64>() / real(half.len().max(1))
}

/// Linear equations, by elimination with the largest pivot; `None` when they have no single answer.
pub(super) fn solve<const N: usize>(mut a: [[f64; N]; N], mut b: [f64; N]) -> Option<[f64; N]> {
    for at in 0..N {
        let pivot = (at..N).max_by(|i, j| a[*i][at].abs().total_cmp(&a[*j][at].abs()))?;
        a.swap(at, pivot);
        b.swap(at, pivot);
        if a[at][at].abs() < 1e-300 {
            return None;
        }
        for row in 0..N {
            if row != at {
                let share = a[row][at] / a[at][at];
                let subtracted = a[at];
                for (value, subtracted) in a[row].iter_mut().zip(subtracted) {
                    *value -= share * subtracted;
                }
                b[row] -= share * b[at];
            }
        }
    }
    let answer: [f64; N] = std::array::from_fn(|at| b[at] / a[at][at]);
    answer.iter().all(|value| value.is_finite()).then_some(answer)
}

/// Fits a polynomial of `N` terms to rows of place, value and weight, by least squares. Places are best around -1 to 1.
pub(super) fn fit<const N: usize>(rows: &[[f64; 3]]) -> Option<[f64; N]> {
    let (mut a, mut b) = ([[0.0; N]; N], [0.0; N]);
    for [t, value, weight] in rows {
        let mut powers = [1.0; N];
        for at in 1..N {
            powers[at] = powers[at - 1] * t;
        }
        for i in 0..N {
            b[i] += weight * powers[i] * value;
            for j in 0..N {
                a[i][j] += weight * powers[i] * powers[j];
            }
        }
    }
    solve(a, b)
}

/// A polynomial at a place.
pub(super) fn at<const N: usize>(terms: &[f64; N], t: f64) -> f64 {
    terms.iter().rev().fold(0.0, |sum, term| sum * t + term)
}

/// The same fit, in which rows far from the others count for nothing (Tukey's biweight); `apart` is the least distance that counts as far.
/// With the terms comes how far the rows scatter about them.
pub(super) fn fit_robustly<const N: usize>(rows: &[[f64; 3]], apart: f64) -> Option<([f64; N], f64)> {
    let mut kept = rows.to_vec();
    let mut answer = None;
    for _ in 0..5 {
        let terms = fit::<N>(&kept)?;
        let off = |row: &[f64; 3]| (row[1] - at(&terms, row[0])).abs();
        let scatter = 1.4826 * median(rows.iter().map(off).collect());
        let reach = (4.0 * scatter).max(apart);
        for (row, kept) in rows.iter().zip(&mut kept) {
            let share = off(row) / reach;
            let inside = (1.0 - share * share).max(0.0);
            kept[2] = row[2] * inside * inside;
        }
        answer = Some((terms, scatter));
    }
    answer
}

/// A line through most of some rows of place, value and weight, even where two fifths of them lie elsewhere: of the lines through two rows,
/// some dozens of them, the one that most rows are near to (M. Fischler, R. Bolles, "Random sample consensus", Comm. ACM 24, 1981, but
/// without chance), and then a robust fit to those near it.
pub(super) fn line_through_most(rows: &[[f64; 3]], apart: f64) -> Option<([f64; 2], f64)> {
    const TRIED: usize = 11;
    let some: Vec<&[f64; 3]> = (0..TRIED).filter_map(|index| rows.get(index * rows.len() / TRIED)).collect();
    let mut best: Option<(f64, [f64; 2])> = None;
    for (index, one) in some.iter().enumerate() {
        for other in &some[..index] {
            if (one[0] - other[0]).abs() < 0.15 {
                continue;
            }
            let slope = (one[1] - other[1]) / (one[0] - other[0]);
            let line = [one[1] - slope * one[0], slope];
            let near = |row: &[f64; 3]| {
                let share = (row[1] - at(&line, row[0])) / (1.5 * apart);
                row[2] * (1.0 - share * share).max(0.0)
            };
            let sum: f64 = rows.iter().map(near).sum();
            if best.is_none_or(|(most, _)| sum > most) {
                best = Some((sum, line));
            }
        }
    }
    let (_, line) = best?;
    let near: Vec<[f64; 3]> =
        rows.iter().filter(|row| (row[1] - at(&line, row[0])).abs() < 3.0 * apart).copied().collect();
    fit_robustly::<2>(&near, apart)
}

/// Where two lines cross, each by a point and a direction; `None` when they hardly do.
pub(super) fn crossing(one: (Point, Vec2), other: (Point, Vec2)) -> Option<Point> {
    let across = one.1.cross(other.1);
    (across.abs() > 1e-6).then(|| one.0 + one.1 * ((other.0 - one.0).cross(other.1) / across))
}
