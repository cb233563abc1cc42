//! The face of a moulding: how it falls from its highest part towards its edges.
//!
//! A shape is a line through points, in thousandths: across the face from its outer edge to its sight edge, and up from its
//! lowest part to its highest. The section cuts along it, the drawing lights it. The shapes are our own.

use crate::length::Length;
use crate::plan::{FaceShape, Frame};
use crate::rounding::square_root;

/// Points of a curve's line.
const STEPS: i64 = 24;

/// The line of a shape: (across, up), from the outer edge to the sight edge, each 0 to 1000.
///
/// ```
/// use overmantel::{framing::face::line, plan::FaceShape};
/// assert_eq!(line(FaceShape::Bevelled), [(0, 1000), (80, 1000), (1000, 0)]);
/// ```
#[must_use]
pub fn line(shape: FaceShape) -> Vec<(i64, i64)> {
    match shape {
        FaceShape::Flat => vec![(0, 1000), (1000, 1000)],
        FaceShape::Bevelled => vec![(0, 1000), (80, 1000), (1000, 0)],
        FaceShape::Stepped => {
            vec![(0, 1000), (400, 1000), (430, 600), (700, 600), (730, 250), (1000, 250)]
        }
        // A quarter of a circle, hollow: up = 1 - √(1 - (1 - t)²).
        FaceShape::Scooped => {
            let hollow = (0..=STEPS).map(|step| {
                let along = step * 1000 / STEPS;
                (150 + along * 850 / 1000, 1000 - height_of_circle(1000 - along))
            });
            std::iter::once((0, 1000)).chain(hollow).collect()
        }
        // Half of an ellipse: up = √(1 - (2t - 1)²).
        FaceShape::Rounded => (0..=STEPS)
            .map(|step| {
                let across = step * 1000 / STEPS;
                (across, height_of_circle(2 * across - 1000))
            })
            .collect(),
    }
}

/// Height of a circle of radius 1000 at a distance from its middle.
fn height_of_circle(distance: i64) -> i64 {
    let square = 1_000_000 - i128::from(distance) * i128::from(distance);
    i64::try_from(square_root(square)).unwrap_or(0)
}

/// How much lower the lowest part of a face is than its highest: a third of its width, but no more than four fifths of what
/// stands before the rabbet. Nothing for a flat one.
#[must_use]
pub fn relief(frame: &Frame) -> Length {
    if frame.shape == FaceShape::Flat {
        return Length::ZERO;
    }
    let before = (frame.depth - frame.rabbet_depth).max(Length::ZERO);
    frame.face.times_ratio(1, 3).min(before.times_ratio(4, 5))
}
