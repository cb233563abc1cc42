//! The camera of a photograph: from places before the wall to pixels and back.
//!
//! A pinhole with the middle of the picture as its principal point and one term of radial distortion (Brown, "Close-range camera
//! calibration", 1971): a direction *(a, b)*, in units of the focal length, is seen at *(a, b) (1 + k (a² + b²))*.

use kurbo::Point;
use nalgebra::{Matrix3, Vector3};

/// A camera before a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// The axes of the wall (right, up, out of it) as the camera has them (right, down, ahead).
    pub rotation: Matrix3<f64>,
    /// The middle of the sheet as the camera has it, in millimetres.
    pub translation: Vector3<f64>,
    /// The focal length in pixels.
    pub focal_px: f64,
    /// The radial term *k*: negative where straight lines bulge outwards.
    pub radial: f64,
    /// The principal point.
    pub middle: Point,
}

impl Camera {
    /// The pixel at which a place before the wall is seen; none for what is behind the camera.
    #[must_use]
    pub fn pixel(&self, place: Vector3<f64>) -> Option<Point> {
        let seen = self.rotation * place + self.translation;
        (seen.z > 1.0).then(|| self.pixel_of(seen.x / seen.z, seen.y / seen.z))
    }

    /// The pixel of a direction.
    #[must_use]
    pub fn pixel_of(&self, a: f64, b: f64) -> Point {
        let stretch = self.focal_px * (1.0 + self.radial * (a * a + b * b));
        Point::new(self.middle.x + a * stretch, self.middle.y + b * stretch)
    }

    /// The direction in which a pixel looks, ahead by one.
    #[must_use]
    pub fn direction(&self, pixel: Point) -> Vector3<f64> {
        let seen = [(pixel.x - self.middle.x) / self.focal_px, (pixel.y - self.middle.y) / self.focal_px];
        let [mut a, mut b] = seen;
        if self.radial != 0.0 {
            // Each turn comes nearer by the size of the term; past what a lens does, the picture's edge is kept.
            for _ in 0..12 {
                let stretch = (1.0 + self.radial * (a * a + b * b)).max(0.5);
                [a, b] = seen.map(|part| part / stretch);
            }
        }
        Vector3::new(a, b, 1.0)
    }

    /// The place that a pixel shows on a plane parallel to the wall, so many millimetres before it; none where the line of sight does not
    /// meet it.
    #[must_use]
    pub fn place(&self, pixel: Point, out_mm: f64) -> Option<Vector3<f64>> {
        self.meets(pixel, 2, out_mm)
    }

    /// The place that a pixel shows on a floor, so many millimetres above the middle of the sheet (below it, less than nothing).
    #[must_use]
    pub fn on_floor(&self, pixel: Point, up_mm: f64) -> Option<Vector3<f64>> {
        self.meets(pixel, 1, up_mm)
    }

    /// Where a line of sight meets the plane on which one coordinate has a value.
    fn meets(&self, pixel: Point, axis: usize, value: f64) -> Option<Vector3<f64>> {
        let (eye, way) = (self.eye(), self.rotation.transpose() * self.direction(pixel));
        let far = (value - eye[axis]) / way[axis];
        (far.is_finite() && far > 0.0).then(|| {
            let mut place = eye + way * far;
            place[axis] = value;
            place
        })
    }

    /// Where the camera is.
    #[must_use]
    pub fn eye(&self) -> Vector3<f64> {
        -(self.rotation.transpose() * self.translation)
    }

    /// The same camera for a photograph that is so many times as large.
    #[must_use]
    pub fn scaled(&self, times: f64) -> Self {
        let middle = Point::new(self.middle.x * times, self.middle.y * times);
        Self { focal_px: self.focal_px * times, middle, ..*self }
    }

    /// Pixels a millimetre where a pixel shows the wall.
    #[must_use]
    pub fn scale_at(&self, pixel: Point) -> f64 {
        self.place(pixel, 0.0).map_or(1.0, |place| self.scale(place))
    }

    /// Pixels a millimetre at a place, as seen.
    #[must_use]
    pub fn scale(&self, place: Vector3<f64>) -> f64 {
        self.focal_px / (self.rotation * place + self.translation).z.max(1.0)
    }
}

/// The focal length in pixels of a picture whose file states the one that shows as much on a film of 36 × 24 mm, by the diagonal as CIPA DC-008
/// (Exif 2.32, FocalLengthIn35mmFilm) has it.
#[must_use]
pub fn focal_px(focal_35mm: f64, [width, height]: [f64; 2]) -> f64 {
    const FILM_DIAGONAL: f64 = 43.266_615_305_567_87;
    focal_35mm * (width * width + height * height).sqrt() / FILM_DIAGONAL
}

/// The focal length that is taken where a file states none: the longer side seen under 67 degrees, as by the main lens of a phone (common
/// practice, no source).
#[must_use]
pub fn usual_focal_px([width, height]: [f64; 2]) -> f64 {
    width.max(height) / 2.0 / libm::tan(67.0_f64.to_radians() / 2.0)
}
