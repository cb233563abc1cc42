//! A figure for scale: a quiet outline, standing or seated, not a portrait.
//!
//! Both are drawn in shares of their own height, from their middle and from the floor, and touch the floor and their full height
//! exactly.

use super::brush;
use super::projection::Projection;
use crate::colour::Colour;
use crate::plan::{Posture, Wall};
use crate::scene::ScenicFigure;
use kurbo::{Affine, BezPath, Ellipse, Point, Shape};
use tiny_skia::PixmapMut;

/// How much a figure hides of what is behind it.
const ALPHA: f32 = 0.5;

/// The tone of a figure: the one of two that is seen better before the wall.
pub(super) fn tone(paint: Colour) -> Colour {
    let (dark, pale) = (Colour::hex(0x45_50_56), Colour::hex(0xb4_bb_b8));
    if dark.contrast(paint) >= pale.contrast(paint) { dark } else { pale }
}

/// The right half of a standing figure, from the neck round by arm and leg to the crotch, seven and a half heads high (common
/// practice of drawing manuals, no source).
const STANDING: [(f64, f64); 28] = [
    (0.021, 0.900),
    (0.023, 0.876),
    (0.028, 0.852),
    (0.054, 0.839),
    (0.093, 0.824),
    (0.112, 0.790),
    (0.120, 0.725),
    (0.127, 0.640),
    (0.130, 0.560),
    (0.132, 0.490),
    (0.126, 0.452),
    (0.114, 0.452),
    (0.110, 0.500),
    (0.103, 0.570),
    (0.094, 0.650),
    (0.084, 0.725),
    (0.074, 0.650),
    (0.080, 0.570),
    (0.090, 0.500),
    (0.088, 0.420),
    (0.074, 0.290),
    (0.070, 0.210),
    (0.050, 0.062),
    (0.054, 0.026),
    (0.026, 0.026),
    (0.018, 0.120),
    (0.011, 0.250),
    (0.006, 0.400),
];

/// A seated figure from its left, from the neck round by the back, seat, shin and foot: back to the left, feet to the right. A
/// head is a little over a sixth of it.
const SEATED: [(f64, f64); 27] = [
    (-0.116, 0.846),
    (-0.134, 0.806),
    (-0.172, 0.766),
    (-0.204, 0.690),
    (-0.208, 0.600),
    (-0.192, 0.510),
    (-0.206, 0.430),
    (-0.198, 0.366),
    (-0.130, 0.350),
    (0.030, 0.354),
    (0.094, 0.345),
    (0.108, 0.280),
    (0.108, 0.160),
    (0.092, 0.060),
    (0.096, 0.014),
    (0.212, 0.010),
    (0.216, 0.030),
    (0.164, 0.066),
    (0.172, 0.180),
    (0.194, 0.330),
    (0.192, 0.410),
    (0.150, 0.458),
    (0.060, 0.474),
    (-0.034, 0.492),
    (-0.042, 0.620),
    (-0.040, 0.730),
    (-0.058, 0.800),
];

/// Draws a figure before a wall.
pub(super) fn draw(canvas: &mut PixmapMut<'_>, figure: ScenicFigure, wall: &Wall, projection: Projection) {
    let scale = f64::from(projection.scale);
    let to_px = Affine::new([scale, 0.0, 0.0, -scale, projection.left.into(), projection.floor.into()]);
    for (part, alpha) in parts(figure, wall) {
        brush::fill(canvas, &(to_px * part), tone(wall.paint), alpha);
    }
}

/// The outlines of a figure in inches on the wall, and how much each hides of what is behind it.
pub(super) fn parts(figure: ScenicFigure, wall: &Wall) -> Vec<(BezPath, f32)> {
    let height = figure.rect.size.height.to_inches();
    let (parts, reach) = match figure.posture {
        Posture::Standing => (vec![(standing(), ALPHA)], 0.133),
        Posture::Seated => {
            let (stool, body) = seated();
            (vec![(stool, ALPHA * 0.7), (body, ALPHA)], 0.222)
        }
    };
    // It stays before its wall.
    let (from, to) = (reach * height, wall.size.width.to_inches() - reach * height);
    let middle = figure.rect.centre().x.to_inches().min(to).max(from);
    let to_inches = Affine::new([height, 0.0, 0.0, height, middle, figure.rect.y.to_inches()]);
    parts.into_iter().map(|(part, alpha)| (to_inches * part, alpha)).collect()
}

/// Seen from the front.
fn standing() -> BezPath {
    let left = STANDING.iter().rev().map(|&(x, y)| (-x, y));
    let outline: Vec<Point> = STANDING.iter().copied().chain(left).map(Point::from).collect();
    let head = head(Ellipse::new((0.0, 0.934), (0.042, 0.061), 0.0));
    joined([smooth(&outline), head, foot(-0.041), foot(0.041)])
}

/// A stool, and who sits on it, seen from the side.
fn seated() -> (BezPath, BezPath) {
    let seat = kurbo::RoundedRect::new(-0.218, 0.322, 0.045, 0.346, 0.010).to_path(1e-4);
    let leg = |head: f64, foot: f64| {
        let mut leg = BezPath::new();
        leg.move_to((head, 0.33));
        leg.line_to((foot, 0.0));
        leg.line_to((foot + 0.014, 0.0));
        leg.line_to((head + 0.022, 0.33));
        leg.close_path();
        leg
    };
    let stool = joined([seat, leg(-0.180, -0.208), leg(-0.010, 0.018)]);
    let outline: Vec<Point> = SEATED.iter().copied().map(Point::from).collect();
    let neck = smooth(&[(-0.124, 0.78), (-0.118, 0.88), (-0.062, 0.88), (-0.058, 0.78)].map(Point::from));
    let head = head(Ellipse::new((-0.080, 0.915), (0.062, 0.081), -0.12));
    // The bottom's own outline comes down to the floor.
    let sole = kurbo::RoundedRect::new(0.094, 0.0, 0.218, 0.024, 0.012).to_path(1e-4);
    let body = joined([smooth(&outline), neck, head, sole]);
    (stool, body)
}

/// A head whose top is at the full height.
fn head(ellipse: Ellipse) -> BezPath {
    let path = ellipse.to_path(1e-4);
    let over = 1.0 - path.bounding_box().y1;
    Affine::translate((0.0, over)) * path
}

/// A shoe from the front, on the floor.
fn foot(middle: f64) -> BezPath {
    let radii = (0.005, 0.005, 0.020, 0.020);
    kurbo::RoundedRect::new(middle - 0.025, 0.0, middle + 0.025, 0.040, radii).to_path(1e-4)
}

/// Several outlines as one, all the same way round, so that nothing is cut out where they overlap.
fn joined<const N: usize>(outlines: [BezPath; N]) -> BezPath {
    let mut all = BezPath::new();
    for outline in outlines {
        all.extend(if outline.area() < 0.0 { outline.reverse_subpaths() } else { outline });
    }
    all
}

/// A closed curve through points (Catmull and Rom, 1974: the tangent at each point is half the way between its neighbours).
fn smooth(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    let count = points.len();
    let point = |index: usize| points[index % count];
    path.move_to(point(0));
    for index in 0..count {
        let (before, from) = (point(index + count - 1), point(index));
        let (to, after) = (point(index + 1), point(index + 2));
        path.curve_to(from + (to - before) / 6.0, to - (after - from) / 6.0, to);
    }
    path.close_path();
    path
}
