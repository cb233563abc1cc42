//! Which sheet a quadrilateral is: how little its corners must move to be a perspective view of each paper.
//!
//! A homography's first two columns, seen through the camera, are at right angles and as long as the sheet's sides (Z. Zhang, "A flexible
//! new technique for camera calibration", IEEE PAMI 22, 2000). Both conditions are made true by the least move of the corners.

use super::super::paper::Paper;
use kurbo::Point;

/// A paper that a quadrilateral may be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Guess {
    pub(super) paper: Paper,
    pub(super) is_upright: bool,
    /// The sum of the squares of what the corners move, in units of how sure they are, and of what is unusual about the lens.
    pub(super) misfit: f64,
}

/// Every paper either way, the likeliest first. `corners` run from the top left clockwise, `middle` is that of the photograph, `longer` its
/// longer side, `sigma` how sure the corners are, all in pixels.
pub(super) fn guesses(corners: [Point; 4], middle: Point, longer: f64, sigma: f64) -> Vec<Guess> {
    /// Focal lengths in longer sides of the photograph; a phone's main camera has about three quarters of one.
    const LENSES: [f64; 7] = [0.5, 0.6, 0.7, 0.82, 0.98, 1.2, 1.5];
    const USUAL: f64 = 0.76;
    const SPREAD: f64 = 0.3;
    // A wall is seen from the front or from one side, by a camera that is held about level: sines of what is usual.
    const ASIDE: f64 = 0.5;
    const TIPPED: f64 = 0.2;
    let start: [f64; 8] = std::array::from_fn(|at| {
        if at.is_multiple_of(2) { corners[at / 2].x - middle.x } else { corners[at / 2].y - middle.y }
    });
    let mut found = Vec::new();
    for paper in [Paper::A4, Paper::A3, Paper::Letter, Paper::Legal] {
        let [short, long] = paper.sides_mm();
        for is_upright in [true, false] {
            let shape = libm::log(if is_upright { short / long } else { long / short });
            let misfit = LENSES
                .iter()
                .filter_map(|lens| {
                    let unusual = libm::log(lens / USUAL) / SPREAD;
                    let moved = least_move(start, lens * longer, shape)?;
                    let sum: f64 = start.iter().zip(moved).map(|(a, b)| (a - b) * (a - b)).sum();
                    let [x, y] = leaning(moved, lens * longer)?;
                    let (x, y) = (x / ASIDE, y / TIPPED);
                    Some(sum / (sigma * sigma) + unusual * unusual + x * x + y * y)
                })
                .fold(f64::INFINITY, f64::min);
            if misfit.is_finite() {
                found.push(Guess { paper, is_upright, misfit });
            }
        }
    }
    crate::order::sort_by(&mut found, |one, other| one.misfit.total_cmp(&other.misfit));
    found
}

/// Corners that are a sheet of a shape (the logarithm of width by height), by the least move.
fn least_move(start: [f64; 8], focal: f64, shape: f64) -> Option<[f64; 8]> {
    const STEP: f64 = 1e-3;
    let mut moved = start;
    for _ in 0..4 {
        let off = wrong(moved, focal, shape)?;
        let mut slopes = [[0.0; 8]; 2];
        for at in 0..8 {
            let (mut more, mut less) = (moved, moved);
            more[at] += STEP;
            less[at] -= STEP;
            let (more, less) = (wrong(more, focal, shape)?, wrong(less, focal, shape)?);
            for row in 0..2 {
                slopes[row][at] = (more[row] - less[row]) / (2.0 * STEP);
            }
        }
        let dot = |one: &[f64; 8], other: &[f64; 8]| one.iter().zip(other).map(|(a, b)| a * b).sum::<f64>();
        let back: [f64; 8] = std::array::from_fn(|at| start[at] - moved[at]);
        let wanted = [0, 1].map(|row: usize| off[row] + dot(&slopes[row], &back));
        let [a, b, d] =
            [dot(&slopes[0], &slopes[0]), dot(&slopes[0], &slopes[1]), dot(&slopes[1], &slopes[1])];
        let [one, other] = super::super::sums::solve([[a, b], [b, d]], wanted)?;
        moved = std::array::from_fn(|at| start[at] - slopes[0][at] * one - slopes[1][at] * other);
    }
    let off = wrong(moved, focal, shape)?;
    (off[0].abs() < 0.02 && off[1].abs() < 0.02).then_some(moved)
}

/// What is wrong with corners for a sheet of a shape: the cosine of its angle, and the logarithm by which it is too wide.
fn wrong(corners: [f64; 8], focal: f64, shape: f64) -> Option<[f64; 2]> {
    let [across, down] = sides(corners, focal)?;
    let (wide, high) = (dot(across, across).sqrt(), dot(down, down).sqrt());
    (wide > 1e-9 && high > 1e-9).then(|| [dot(across, down) / (wide * high), libm::log(wide / high) - shape])
}

/// How far a sheet is turned away from the camera, to the side and upwards: the parts of its normal that are seen.
fn leaning(corners: [f64; 8], focal: f64) -> Option<[f64; 2]> {
    let [[a, b, c], [d, e, f]] = sides(corners, focal)?;
    let normal = [b * f - c * e, c * d - a * f, a * e - b * d];
    let size = dot(normal, normal).sqrt();
    (size > 1e-12).then(|| [normal[0] / size, normal[1] / size])
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// A quadrilateral's sides from its first corner, in space, as the camera sees them if it is a rectangle.
fn sides(corners: [f64; 8], focal: f64) -> Option<[[f64; 3]; 2]> {
    let [x0, y0, x1, y1, x2, y2, x3, y3] = corners;
    // The homography of the unit square (P. Heckbert, "Fundamentals of Texture Mapping and Image Warping", 1989).
    let (dx1, dx2, dx3) = (x1 - x2, x3 - x2, x0 - x1 + x2 - x3);
    let (dy1, dy2, dy3) = (y1 - y2, y3 - y2, y0 - y1 + y2 - y3);
    let scale = dx1 * dy2 - dx2 * dy1;
    if scale.abs() < 1e-9 {
        return None;
    }
    let (g, h) = ((dx3 * dy2 - dx2 * dy3) / scale, (dx1 * dy3 - dx3 * dy1) / scale);
    let across = [(x1 - x0 + g * x1) / focal, (y1 - y0 + g * y1) / focal, g];
    let down = [(x3 - x0 + h * x3) / focal, (y3 - y0 + h * y3) / focal, h];
    Some([across, down])
}
