//! A figure for scale: a quiet outline, standing or seated, not a portrait.
//!
//! Both are drawn in shares of their own height, from their middle and from the floor, and touch the floor and their full height
//! exactly.

use super::brush;
use super::projection::Projection;
use crate::colour::Colour;
use crate::plan::Posture;
use crate::scene::ScenicFigure;
use kurbo::{Affine, BezPath, Ellipse, Point, Shape};

/// The tone of a figure, and how much it hides of what is behind it.
const TONE: (Colour, f32) = (Colour::hex(0x45_50_56), 0.5);

/// The right half of a standing figure, from the neck round by arm and leg to the crotch, seven and a half heads high (common
/// practice of drawing manuals, no source).
const STANDING: [(f64, f64); 25] = [
    (0.022, 0.885),
    (0.024, 0.852),
    (0.050, 0.836),
    (0.092, 0.822),
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
    (0.058, 0.012),
    (0.020, 0.012),
    (0.012, 0.250),
];

/// A seated figure from its left, from the neck round by the back, seat, shin and foot: back to the left, feet to the right. A
/// head is a little over a sixth of it.
const SEATED: [(f64, f64); 26] = [
    (-0.095, 0.840),
    (-0.110, 0.805),
    (-0.152, 0.765),
    (-0.176, 0.690),
    (-0.178, 0.600),
    (-0.166, 0.500),
    (-0.178, 0.420),
    (-0.170, 0.365),
    (-0.100, 0.350),
    (0.060, 0.352),
    (0.128, 0.345),
    (0.142, 0.280),
    (0.140, 0.160),
    (0.122, 0.060),
    (0.124, 0.010),
    (0.250, 0.008),
    (0.252, 0.030),
    (0.196, 0.066),
    (0.206, 0.180),
    (0.226, 0.330),
    (0.222, 0.420),
    (0.180, 0.462),
    (0.080, 0.474),
    (-0.020, 0.480),
    (-0.024, 0.640),
    (-0.030, 0.770),
];

/// Draws a figure.
pub(super) fn draw(canvas: &mut tiny_skia::PixmapMut<'_>, figure: ScenicFigure, projection: Projection) {
    let height = f64::from(projection.length(figure.rect.size.height));
    let middle = f64::from(projection.x(figure.rect.centre().x));
    let foot = f64::from(projection.y(figure.rect.y));
    let to_px = Affine::new([height, 0.0, 0.0, -height, middle, foot]);
    let (colour, alpha) = TONE;
    match figure.posture {
        Posture::Standing => brush::fill(canvas, &(to_px * standing()), colour, alpha),
        Posture::Seated => {
            let (stool, body) = seated();
            brush::fill(canvas, &(to_px * stool), colour, alpha * 0.7);
            brush::fill(canvas, &(to_px * body), colour, alpha);
        }
    }
}

/// Seen from the front.
fn standing() -> BezPath {
    let left = STANDING.iter().rev().map(|&(x, y)| (-x, y));
    let outline: Vec<Point> = STANDING.iter().copied().chain(left).map(Point::from).collect();
    let head = head(Ellipse::new((0.0, 0.934), (0.043, 0.066), 0.0));
    joined([smooth(&outline), head, foot(-0.038), foot(0.038)])
}

/// A stool, and who sits on it, seen from the side.
fn seated() -> (BezPath, BezPath) {
    let seat = kurbo::RoundedRect::new(-0.190, 0.322, 0.075, 0.346, 0.010).to_path(1e-4);
    let leg = |head: f64, foot: f64| {
        let mut leg = BezPath::new();
        leg.move_to((head, 0.33));
        leg.line_to((foot, 0.0));
        leg.line_to((foot + 0.014, 0.0));
        leg.line_to((head + 0.022, 0.33));
        leg.close_path();
        leg
    };
    let stool = joined([seat, leg(-0.150, -0.178), leg(0.020, 0.048)]);
    let outline: Vec<Point> = SEATED.iter().copied().map(Point::from).collect();
    let body = joined([smooth(&outline), head(Ellipse::new((-0.052, 0.913), (0.066, 0.087), -0.12))]);
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
    kurbo::RoundedRect::new(middle - 0.026, 0.0, middle + 0.026, 0.036, 0.016).to_path(1e-4)
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
