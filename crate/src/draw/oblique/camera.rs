//! From places in the room to the pixels of the view of the room: true perspective, uprights kept upright.
//!
//! Places are in inches: along the wall, up from the floor, out from the wall. The viewer's eye looks level towards the middle of the
//! group; the sheet is upright before it, and slid up or down so that the room fills it, as a view camera's back is. On it a
//! place at the depth *d* before the eye lies `focal / d` times as far from the eye's own point as it lies from the line of
//! sight (the pinhole model; see Hartley and Zisserman, *Multiple View Geometry*, chapter 6). The camera of a photograph is turned in any
//! way, and its lens may bend what is straight.

use super::super::Sheet;
use super::super::projection::pixels;
use crate::length::Length;
use crate::scene::Scene;
use kurbo::{BezPath, PathEl, Point};

/// A place in the room, in inches.
pub(super) type Place = [f64; 3];

/// How places in the room become pixels as seen from a viewer's eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Camera {
    /// Where it is.
    pub(crate) eye: Place,
    /// Its own directions in the room, each of length 1: to the right, up, and where it looks.
    pub(crate) axes: [Place; 3],
    /// Pixels per inch at a depth of one inch.
    pub(crate) focal: f64,
    /// Where the line of sight meets the sheet, in pixels.
    pub(crate) sight: Point,
    /// The radial term of its lens; none for the eye.
    pub(crate) radial: f64,
}

/// Along a bent line a point follows the last after so many pixels.
const BENT_STEP_PX: f64 = 24.0;

/// What is nearer to the eye than this is not seen, in inches.
const NEAR: f64 = 4.0;
/// What lies further aside than this is cut off, to each side and up and down: the tangent of 76 degrees.
const FAR_ASIDE: f64 = 4.0;
/// How far to each side of the line of sight is seen: the tangent of 44 degrees.
const WIDEST: f64 = 0.966;
/// What is left free round the wall, as a share of its width.
const SPARE: f64 = 0.03;

impl Camera {
    /// The camera that shows as much of the wall as can be seen of the room.
    pub(super) fn fit(scene: &Scene, sheet: &Sheet) -> Self {
        let eye = [inches(scene.viewer.x), inches(scene.viewer.y), inches(scene.viewer.distance).max(NEAR)];
        let aside = inches(scene.group.centre().x) - eye[0];
        let straight = libm::hypot(aside, eye[2]);
        let forward = [aside / straight, -eye[2] / straight];
        let [ahead, back] = forward;
        let axes = [[-back, 0.0, ahead], [0.0, 1.0, 0.0], [ahead, 0.0, back]];
        let unit = Self { eye, axes, focal: 1.0, sight: Point::ZERO, radial: 0.0 };
        let (width, height) = (inches(scene.wall.size.width), inches(scene.wall.size.height));
        let across = |x: f64, edge: f64| {
            let [right, _, depth] = unit.seen([x, eye[1], 0.0]);
            if depth > NEAR { (right / depth).clamp(-WIDEST, WIDEST) } else { edge }
        };
        let (left, right) = (across(0.0, -WIDEST), across(width, WIDEST));
        let spare = (right - left).max(0.01) * SPARE;
        let (left, right) = (left - spare, right + spare);
        // Of the floor as much as the deepest thing stands on, but never what lies at the viewer's own feet.
        let deepest = scene.fixtures.iter().map(|fixture| inches(fixture.depth)).fold(12.0, f64::max) + 12.0;
        let nearest = (straight - deepest.min(eye[2] * 0.6)).max(NEAR);
        let foot = (-eye[1] / nearest).max(-1.1);
        let head = ((height - eye[1]).max(1.0) / straight + spare).min(1.1);
        let (sheet_width, sheet_height) =
            (f64::from(pixels(sheet.width_px)), f64::from(pixels(sheet.height_px)));
        let focal = (sheet_width / (right - left)).min(sheet_height / (head - foot).max(0.01));
        let middle = Point::new((left + right) / 2.0, (head + foot) / 2.0);
        let sight = Point::new(sheet_width / 2.0 - focal * middle.x, sheet_height / 2.0 + focal * middle.y);
        Self { focal, sight, ..unit }
    }

    /// A place as the eye has it: to the right of the line of sight, above it, and how far before the eye.
    fn seen(&self, [x, y, z]: Place) -> Place {
        self.turned([x - self.eye[0], y - self.eye[1], z - self.eye[2]])
    }

    /// A way in the room as the camera has it.
    fn turned(&self, [along, up, out]: Place) -> Place {
        self.axes.map(|[x, y, z]| along * x + up * y + out * z)
    }

    fn on_sheet(&self, [right, up, depth]: Place) -> Point {
        if self.radial == 0.0 {
            return self.sight + kurbo::Vec2::new(right, -up) * (self.focal / depth);
        }
        let [a, b] = [right / depth, -up / depth];
        self.sight + kurbo::Vec2::new(a, b) * (self.focal * (1.0 + self.radial * (a * a + b * b)))
    }

    /// Where a pixel would be if its lens bent nothing.
    fn straight(&self, x: f64, y: f64) -> (f64, f64) {
        let seen = [(x - self.sight.x) / self.focal, (y - self.sight.y) / self.focal];
        let [mut a, mut b] = seen;
        for _ in 0..6 {
            let stretch = (1.0 + self.radial * (a * a + b * b)).max(0.5);
            [a, b] = seen.map(|part| part / stretch);
        }
        (self.sight.x + a * self.focal, self.sight.y + b * self.focal)
    }

    /// The eye.
    pub(super) fn eye(&self) -> Place {
        self.eye
    }

    /// The depth before the eye of the nearest of some places.
    pub(super) fn nearest(&self, places: &[Place]) -> f64 {
        places.iter().map(|&place| self.seen(place)[2]).fold(f64::INFINITY, f64::min).max(NEAR)
    }

    /// Pixels per inch at a depth.
    pub(super) fn scale(&self, depth: f64) -> f64 {
        self.focal / depth
    }

    /// A polygon as it is seen: cut off where it comes too near to the eye, and far outside of the sheet.
    pub(super) fn polygon(&self, corners: &[Place]) -> BezPath {
        let mut path = BezPath::new();
        self.trace(&mut path, corners);
        path
    }

    /// Adds a polygon to a path.
    pub(super) fn trace(&self, path: &mut BezPath, corners: &[Place]) {
        let mut seen: Vec<Place> = corners.iter().map(|&corner| self.seen(corner)).collect();
        seen = cut(&seen, |[_, _, depth]| depth - NEAR);
        for side in [-1.0, 1.0] {
            seen = cut(&seen, |[right, _, depth]| depth * FAR_ASIDE - right * side);
            seen = cut(&seen, |[_, up, depth]| depth * FAR_ASIDE - up * side);
        }
        let Some((&first, rest)) = seen.split_first() else { return };
        path.move_to(self.on_sheet(first));
        if self.radial == 0.0 {
            rest.iter().for_each(|&place| path.line_to(self.on_sheet(place)));
        } else {
            let ends = rest.iter().chain([&first]);
            seen.iter().zip(ends).for_each(|(&from, &to)| self.bend(path, from, to));
        }
        path.close_path();
    }

    /// Adds a line that the lens bends.
    fn bend(&self, path: &mut BezPath, from: Place, to: Place) {
        let far = self.on_sheet(to) - self.on_sheet(from);
        let long = (far.x * far.x + far.y * far.y).sqrt();
        let steps = u32::try_from(crate::rounding::nearest(long / BENT_STEP_PX)).unwrap_or(1).clamp(1, 256);
        for step in 1..=steps {
            let share = f64::from(step) / f64::from(steps);
            path.line_to(self.on_sheet([0, 1, 2].map(|axis| from[axis] + (to[axis] - from[axis]) * share)));
        }
    }

    /// For each pixel of the sheet, where on a plane it is seen.
    pub(super) fn on_plane(&self, plane: &Plane) -> OnPlane {
        // A place of the plane is corner + s * across + t * down; its pixel is homogeneous in (s, t, 1).
        let column = |vector: Place| {
            let [right, up, depth] = self.turned(vector);
            [self.focal * right + self.sight.x * depth, -self.focal * up + self.sight.y * depth, depth]
        };
        let from_eye = [0, 1, 2].map(|axis| plane.corner[axis] - self.eye[axis]);
        let inverse = inverse([column(plane.across), column(plane.down), column(from_eye)]);
        OnPlane { inverse, bent_by: (self.radial != 0.0).then_some(*self) }
    }
}

/// A vector at right angles to two others.
pub(super) fn cross(p: Place, q: Place) -> Place {
    [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]]
}

/// The part of a polygon where something linear is not less than nothing (Sutherland and Hodgman, 1974).
fn cut(corners: &[Place], inside: impl Fn(Place) -> f64) -> Vec<Place> {
    let mut kept = Vec::with_capacity(corners.len() + 1);
    for (index, &to) in corners.iter().enumerate() {
        let from = corners[(index + corners.len() - 1) % corners.len()];
        let (before, after) = (inside(from), inside(to));
        if (before >= 0.0) != (after >= 0.0) {
            let share = before / (before - after);
            kept.push([0, 1, 2].map(|axis| from[axis] + (to[axis] - from[axis]) * share));
        }
        if after >= 0.0 {
            kept.push(to);
        }
    }
    kept
}

/// A plane in the room: a corner, and the ways from it that are one step across and one step down.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plane {
    pub(super) corner: Place,
    pub(super) across: Place,
    pub(super) down: Place,
}

/// The inverse of a homography, by rows.
#[derive(Clone, Copy, Debug)]
pub(super) struct OnPlane {
    inverse: [Place; 3],
    /// The camera, where its lens bends what is straight.
    bent_by: Option<Camera>,
}

/// Pixels of a line between places at which a lens that bends is worked out; between them it is taken as straight, which is off by some
/// thousandths of a pixel.
const BENT_EVERY: usize = 8;

impl OnPlane {
    /// A place on the plane and its depth, times an unknown, of a pixel.
    fn seen(&self, x: f64, y: f64) -> Place {
        let (x, y) = self.bent_by.map_or((x, y), |camera| camera.straight(x, y));
        self.inverse.map(|row| row[0] * x + row[1] * y + row[2])
    }

    /// What is seen along a line of pixels, from a column on.
    pub(super) fn line(&self, left: usize, y: usize) -> OnLine<'_> {
        OnLine { plane: self, y: middle(y), column: left, left: 0, from: [0.0; 3], step: [0.0; 3] }
    }
}

/// Along a line of pixels, where on a plane each is seen.
pub(super) struct OnLine<'a> {
    plane: &'a OnPlane,
    y: f64,
    column: usize,
    /// Pixels left of those between which it is straight.
    left: usize,
    from: Place,
    step: Place,
}

impl Iterator for OnLine<'_> {
    type Item = Option<(f32, f32)>;

    /// Steps across and down to what is seen at the next pixel; none where the plane is not before the eye.
    #[inline]
    fn next(&mut self) -> Option<Self::Item> {
        let x = middle(self.column);
        self.column += 1;
        let [s, t, w] = if self.plane.bent_by.is_none() {
            self.plane.seen(x, self.y)
        } else {
            if self.left == 0 {
                let [from, to] = [x, x + pixels_between()].map(|x| self.plane.seen(x, self.y));
                self.step = [0, 1, 2].map(|axis| (to[axis] - from[axis]) / pixels_between());
                (self.from, self.left) = (from, BENT_EVERY);
            }
            self.left -= 1;
            let now = self.from;
            self.from = [0, 1, 2].map(|axis| now[axis] + self.step[axis]);
            now
        };
        #[expect(clippy::cast_possible_truncation, reason = "a place in a picture keeps 24 bits")]
        Some((w > 0.0).then(|| ((s / w) as f32, (t / w) as f32)))
    }
}

#[expect(clippy::cast_precision_loss, reason = "a few pixels")]
const fn pixels_between() -> f64 {
    BENT_EVERY as f64
}

#[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
fn middle(pixel: usize) -> f64 {
    pixel as f64 + 0.5
}

/// The inverse of a matrix given by columns, by rows: by cross products (Cramer's rule). One that has none gives no numbers, and
/// then nothing is seen of the plane.
fn inverse([a, b, c]: [Place; 3]) -> [Place; 3] {
    let bc = cross(b, c);
    let determinant: f64 = (0..3).map(|axis| a[axis] * bc[axis]).sum();
    [bc, cross(c, a), cross(a, b)].map(|row| row.map(|value| value / determinant))
}

/// The corners of what a curve encloses, in order, to a hundredth of an inch.
pub(super) fn corners(outline: &BezPath) -> Vec<Point> {
    outlines(outline).into_iter().next().unwrap_or_default()
}

/// The same, of each of several outlines in one path.
pub(super) fn outlines(path: &BezPath) -> Vec<Vec<Point>> {
    let mut all: Vec<Vec<Point>> = Vec::new();
    kurbo::flatten(path.elements().iter().copied(), 0.01, |element| match element {
        PathEl::MoveTo(point) => all.push(vec![point]),
        PathEl::LineTo(point) => all.iter_mut().last().into_iter().for_each(|points| points.push(point)),
        _ => {}
    });
    for points in &mut all {
        points.dedup();
        if points.len() > 1 && points.first() == points.last() {
            points.pop();
        }
    }
    all
}

/// An upright rectangle (left, bottom, right, top) so far out from the wall.
pub(super) fn rectangle([left, foot, right, head]: [f64; 4], z: f64) -> [Place; 4] {
    [[left, head, z], [right, head, z], [right, foot, z], [left, foot, z]]
}

fn inches(length: Length) -> f64 {
    length.to_inches()
}
