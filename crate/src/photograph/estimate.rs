//! The camera and the wall from what is marked in a photograph: one least-squares estimate of all of it, with how far off each figure of it
//! may be.
//!
//! Unknown are how the camera is turned and where it is, its focal length, one term of its lens, how far askew the sheet hangs, and of each
//! line where it is: of a line no more is used than that it is level or plumb and parallel to the wall, so a skirting or a casing may stand
//! before it. The estimate starts from both poses that a sheet allows and keeps the likelier (Levenberg and Marquardt; for the two poses see
//! Schweighofer and Pinz, "Robust pose estimation from a planar target", 2006). How far off: first-order propagation of the marks' noise
//! (Criminisi, Reid, Zisserman, "Single view metrology", IJCV 40(2), 2000).

use super::camera::{Camera, focal_px, usual_focal_px};
use kurbo::Point;
use nalgebra::{DMatrix, DVector, Matrix3, SMatrix, SVector, Vector2, Vector3};

/// What is known of a photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct Marks {
    /// The photograph's pixels, across and down.
    pub size_px: [f64; 2],
    /// The focal length on film of 36 × 24 mm that its file states.
    pub focal_35mm: Option<f64>,
    /// The sheet.
    pub sheet: MarkedSheet,
    /// Lines along the wall.
    pub lines: Vec<MarkedLine>,
    /// Lengths on the wall.
    pub lengths: Vec<MarkedLength>,
}

/// A rectangle of known size, hanging on the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkedSheet {
    /// Across and up, in millimetres.
    pub size_mm: [f64; 2],
    /// Top left, top right, bottom right, bottom left, as it hangs.
    pub corners: [Point; 4],
    /// How far off each may be, in pixels: a standard deviation.
    pub off_px: f64,
}

/// Which way a line runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Along the wall and level.
    Level,
    /// Upright.
    Plumb,
}

/// An edge of something that is level or plumb.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkedLine {
    /// Which way it runs.
    pub way: Way,
    /// Some pixels of it.
    pub points: Vec<Point>,
    /// How far off each may be, in pixels: a standard deviation.
    pub off_px: f64,
}

/// A length on the wall that somebody has measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkedLength {
    /// Its ends.
    pub ends: [Point; 2],
    /// How long it is, in millimetres.
    pub mm: f64,
}

/// How far off a mark may be, in pixels: a standard deviation.
pub const MARK_PX: f64 = 0.5;
/// The same for an edge that was fitted to the photograph: ten to a line, each over some dozens of pixels; what is left is mostly that edges
/// in houses are not quite level.
pub const FITTED_PX: f64 = 0.25;
/// How far off a measured length may be, in millimetres.
const MEASURED_MM: f64 = 3.0;
/// How far off a stated focal length may be, as a share, and one that is only the usual.
const FOCAL_SHARES: [f64; 2] = [0.02, 0.15];
/// How large the lens's term may be.
const RADIAL: f64 = 0.05;
/// How far askew a sheet may hang: a degree and a half.
const TILT: f64 = 0.026;
/// A figure's ± is so many standard deviations: 95 of 100 are within it, where errors have a normal distribution.
pub const PLUS_MINUS: f64 = 1.96;

/// Turned by three, moved by three, the focal length's logarithm, the lens, the sheet's tilt.
const SHARED: usize = 9;

/// Why there is no estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoEstimate {
    /// The corners are no rectangle's.
    #[error(
        "the four corners of the sheet do not make a rectangle seen from before it; mark them again: top left, top right, bottom right, bottom left"
    )]
    NotARectangle,
    /// Nothing settles.
    #[error(
        "the marks contradict each other; leave out lines that are not level or plumb, or mark the sheet's corners again"
    )]
    Contradiction,
}

/// The camera and what is not yet seen of how sure it is.
#[derive(Clone, Debug)]
pub struct Estimate {
    /// The camera before the wall.
    pub camera: Camera,
    /// How far askew the sheet hangs, in radians, anticlockwise as seen.
    pub tilt: f64,
    /// How much of each line's distance from its marks is left, in pixels: a root mean square.
    pub left_px: Vec<f64>,
    /// The other pose that the marks allow, where they hardly tell the two apart, with how likely it is.
    rival: Option<(Camera, f64)>,
    /// How far the shared unknowns may be off, together.
    covariance: SMatrix<f64, SHARED, SHARED>,
    /// What the marks are off by, against what they may be.
    pub strain: f64,
}

/// The unknowns: the camera, the tilt, and each line's place, an angle about the way that it runs.
#[derive(Clone)]
struct State {
    camera: Camera,
    tilt: f64,
    places: Vec<f64>,
}

/// A line with the plane through the camera that its own points make, which is only a start to count its angle from.
struct Fitted<'a> {
    line: &'a MarkedLine,
    normal: Vector3<f64>,
}

impl Estimate {
    /// The likeliest camera for some marks.
    ///
    /// # Errors
    ///
    /// Where the corners are no rectangle's, or the marks contradict each other.
    pub fn of(marks: &Marks) -> Result<Self, NoEstimate> {
        let poses = poses(marks).ok_or(NoEstimate::NotARectangle)?;
        let settled = poses.into_iter().filter_map(|camera| Solver::new(marks, camera).settle());
        let mut settled: Vec<Solver<'_>> = settled.collect();
        crate::order::sort_by(&mut settled, |one, other| one.cost.total_cmp(&other.cost));
        let rival = settled.get(1).map(|rival| (rival.state.camera, rival.cost));
        let best = settled.into_iter().next().ok_or(NoEstimate::Contradiction)?;
        let cost = best.cost;
        let mut estimate = best.estimate().ok_or(NoEstimate::Contradiction)?;
        estimate.rival = rival.and_then(|(camera, other)| {
            let against = libm::exp(cost - other);
            (against > 1e-3).then_some((camera, against / (1.0 + against)))
        });
        Ok(estimate)
    }

    /// What a figure comes to and how far off it may be, a standard deviation, from the marks of this estimate and from so many
    /// pixels of its own, each off by [`MARK_PX`].
    #[must_use]
    pub fn figure(
        &self,
        pixels: &[Point],
        figure: impl Fn(&Camera, &[Point]) -> Option<f64>,
    ) -> Option<(f64, f64)> {
        let value = figure(&self.camera, pixels)?;
        let mut slope = SVector::<f64, SHARED>::zeros();
        for index in 0..SHARED {
            let step = STEPS[index];
            let at = |sign: f64| {
                let mut by = SVector::<f64, SHARED>::zeros();
                by[index] = step * sign;
                figure(&moved(&self.camera, &by), pixels)
            };
            slope[index] = (at(1.0)? - at(-1.0)?) / (2.0 * step);
        }
        let mut variance = (slope.transpose() * self.covariance * slope)[0];
        if let Some((camera, share)) = &self.rival
            && let Some(other) = figure(camera, pixels)
        {
            // What two likely values spread by.
            variance += share * (other - value) * (other - value);
        }
        let mut own = pixels.to_vec();
        for index in 0..pixels.len() {
            for (across, down) in [(1.0, 0.0), (0.0, 1.0)] {
                let mut at = |sign: f64| {
                    own[index] = pixels[index] + kurbo::Vec2::new(across * 0.1 * sign, down * 0.1 * sign);
                    let value = figure(&self.camera, &own);
                    own[index] = pixels[index];
                    value
                };
                let by = (at(1.0)? - at(-1.0)?) / 0.2 * MARK_PX;
                variance += by * by;
            }
        }
        Some((value, variance.max(0.0).sqrt()))
    }

    /// The distance between two pixels on a plane so far before the wall, in millimetres, and how far off it may be.
    #[must_use]
    pub fn distance(&self, ends: [Point; 2], out_mm: f64) -> Option<(f64, f64)> {
        self.figure(&ends, |camera, ends| {
            Some((camera.place(ends[1], out_mm)? - camera.place(ends[0], out_mm)?).norm())
        })
    }

    /// How far off a place on the wall may be that is so many millimetres from the middle of the sheet: the greater of across and up.
    #[must_use]
    pub fn off_at(&self, right_mm: f64, up_mm: f64) -> Option<f64> {
        let pixel = self.camera.pixel(Vector3::new(right_mm, up_mm, 0.0))?;
        let off =
            |axis: usize| self.figure(&[pixel], move |camera, at| Some(camera.place(at[0], 0.0)?[axis]));
        Some(off(0)?.1.max(off(1)?.1))
    }

    /// How far a segment's points are from the level or plumb line that goes best through them, in pixels: a root mean square.
    #[must_use]
    pub fn from_line(&self, way: Way, points: &[Point]) -> f64 {
        let line = MarkedLine { way, points: points.to_vec(), off_px: MARK_PX };
        let mut state = State { camera: self.camera, tilt: self.tilt, places: vec![0.0] };
        let fitted = [Fitted { normal: own_plane(&self.camera, &line.points), line: &line }];
        // One angle: three turns of Newton are enough.
        for _ in 0..4 {
            let at = |place: f64| {
                let mut state = state.clone();
                state.places[0] = place;
                off_line(&state, 0, &fitted)
            };
            let (now, beside) = (at(state.places[0]), at(state.places[0] + 1e-6));
            let (mut over, mut under) = (0.0, 0.0);
            for (one, other) in now.iter().zip(&beside) {
                let slope = (other - one) / 1e-6;
                over += slope * one;
                under += slope * slope;
            }
            if under > 0.0 {
                state.places[0] -= over / under;
            }
        }
        root_mean_square(&off_line(&state, 0, &fitted))
    }
}

fn root_mean_square(values: &[f64]) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "some dozens")]
    let count = values.len().max(1) as f64;
    (values.iter().map(|value| value * value).sum::<f64>() / count).sqrt()
}

/// By how much each shared unknown is moved to see what follows from it.
const STEPS: [f64; SHARED] = [1e-6, 1e-6, 1e-6, 1e-2, 1e-2, 1e-2, 1e-6, 1e-5, 1e-6];

/// A camera with its shared unknowns moved.
fn moved(camera: &Camera, by: &SVector<f64, SHARED>) -> Camera {
    let turn = turned(Vector3::new(by[0], by[1], by[2]));
    Camera {
        rotation: turn * camera.rotation,
        translation: camera.translation + Vector3::new(by[3], by[4], by[5]),
        focal_px: camera.focal_px * libm::exp(by[6]),
        radial: camera.radial + by[7],
        middle: camera.middle,
    }
}

/// A rotation by so much about each axis together (Rodrigues).
fn turned(by: Vector3<f64>) -> Matrix3<f64> {
    let angle = by.norm();
    if angle < 1e-12 {
        return Matrix3::identity() + by.cross_matrix();
    }
    let axis = (by / angle).cross_matrix();
    Matrix3::identity() + axis * libm::sin(angle) + axis * axis * (1.0 - libm::cos(angle))
}

/// The nearest rotation to a matrix that is nearly one.
fn orthonormal(matrix: Matrix3<f64>) -> Matrix3<f64> {
    let first = matrix.column(0).normalize();
    let second = matrix.column(1) - first * first.dot(&matrix.column(1));
    let second = second.normalize();
    Matrix3::from_columns(&[first, second, first.cross(&second)])
}

/// The plane through the camera and some pixels, by the two that are furthest apart.
fn own_plane(camera: &Camera, points: &[Point]) -> Vector3<f64> {
    let ends = match points {
        [first, .., last] => [camera.direction(*first), camera.direction(*last)],
        _ => [Vector3::x(), Vector3::y()],
    };
    let normal = ends[0].cross(&ends[1]);
    let length = normal.norm();
    if length > 0.0 { normal / length } else { Vector3::y() }
}

/// How far each point of a line is from the line that it should be, in pixels.
fn off_line(state: &State, index: usize, fitted: &[Fitted<'_>]) -> Vec<f64> {
    let Fitted { line, normal } = &fitted[index];
    let camera = &state.camera;
    let way = match line.way {
        Way::Level => camera.rotation.column(0).into_owned(),
        Way::Plumb => camera.rotation.column(1).into_owned(),
    };
    let start = normal - way * way.dot(normal);
    let start = start / start.norm().max(1e-9);
    let aside = way.cross(&start);
    let angle = state.places[index];
    let plane = start * libm::cos(angle) + aside * libm::sin(angle);
    let steep = (plane.x * plane.x + plane.y * plane.y).sqrt().max(1e-9);
    line.points.iter().map(|&point| camera.direction(point).dot(&plane) / steep * camera.focal_px).collect()
}

/// The sheet's corners on the wall.
fn corners_mm([width, height]: [f64; 2], tilt: f64) -> [Vector3<f64>; 4] {
    let (sine, cosine) = (libm::sin(tilt), libm::cos(tilt));
    [(-0.5, 0.5), (0.5, 0.5), (0.5, -0.5), (-0.5, -0.5)].map(|(right, up)| {
        let (x, y) = (right * width, up * height);
        Vector3::new(x * cosine - y * sine, x * sine + y * cosine, 0.0)
    })
}

/// The two poses that four corners allow, for the focal length that is likeliest beforehand.
fn poses(marks: &Marks) -> Option<[Camera; 2]> {
    let (focal, _) = likely_focal(marks);
    let [width, height] = marks.size_px;
    let middle = Point::new(width / 2.0, height / 2.0);
    let seen =
        marks.sheet.corners.map(|corner| Vector2::new(corner.x - middle.x, corner.y - middle.y) / focal);
    let plane = homography(corners_mm(marks.sheet.size_mm, 0.0).map(|corner| corner.xy()), seen)?;
    let [b1, b2, b3] = [0, 1, 2].map(|column| plane.column(column).into_owned());
    let scale = 2.0 / (b1.norm() + b2.norm());
    let scale = if b3.z < 0.0 { -scale } else { scale };
    let (first, second, translation) = (b1 * scale, b2 * scale, b3 * scale);
    if !(translation.z > 0.0 && first.iter().chain(&second).all(|part| part.is_finite())) {
        return None;
    }
    let rotation = orthonormal(Matrix3::from_columns(&[first, second, first.cross(&second)]));
    // Seen from before the wall, its right is to the right and its front faces the camera.
    if rotation.column(2).dot(&translation) >= 0.0 {
        return None;
    }
    let towards = translation.normalize();
    let mirror = Matrix3::identity() - towards * towards.transpose() * 2.0;
    let other = mirror * rotation * Matrix3::from_diagonal(&Vector3::new(1.0, 1.0, -1.0));
    let camera = |rotation| Camera { rotation, translation, focal_px: focal, radial: 0.0, middle };
    Some([camera(rotation), camera(other)])
}

/// The homography that takes four points of a plane to where they are seen, its last number 1; none where three of them are on a line.
#[must_use]
pub fn homography(from: [Vector2<f64>; 4], to: [Vector2<f64>; 4]) -> Option<Matrix3<f64>> {
    let mut rows = SMatrix::<f64, 8, 8>::zeros();
    let mut right = SVector::<f64, 8>::zeros();
    for (index, (at, seen)) in from.iter().zip(&to).enumerate() {
        for (axis, value) in [seen.x, seen.y].into_iter().enumerate() {
            let row = index * 2 + axis;
            for (column, part) in [at.x, at.y, 1.0].into_iter().enumerate() {
                rows[(row, axis * 3 + column)] = part;
                if column < 2 {
                    rows[(row, 6 + column)] = -value * part;
                }
            }
            right[row] = value;
        }
    }
    let solved = rows.lu().solve(&right)?;
    let [a, b, c, d, e, f, g, h] = solved.into();
    solved.iter().all(|part| part.is_finite()).then(|| Matrix3::new(a, b, c, d, e, f, g, h, 1.0))
}

fn likely_focal(marks: &Marks) -> (f64, f64) {
    match marks.focal_35mm {
        Some(focal) => (focal_px(focal, marks.size_px), FOCAL_SHARES[0]),
        None => (usual_focal_px(marks.size_px), FOCAL_SHARES[1]),
    }
}

struct Solver<'a> {
    marks: &'a Marks,
    lines: Vec<Fitted<'a>>,
    state: State,
    cost: f64,
}

impl<'a> Solver<'a> {
    fn new(marks: &'a Marks, camera: Camera) -> Self {
        let lines: Vec<Fitted<'a>> = marks
            .lines
            .iter()
            .filter(|line| line.points.len() > 1)
            .map(|line| Fitted { normal: own_plane(&camera, &line.points), line })
            .collect();
        let state = State { camera, tilt: 0.0, places: vec![0.0; lines.len()] };
        let mut solver = Self { marks, lines, state, cost: f64::INFINITY };
        solver.cost = solver.cost_of(&solver.state);
        solver
    }

    /// The distances from all that is shared, each against how large it may be: corners, lengths, and what is known beforehand.
    fn shared(&self, state: &State) -> Option<Vec<f64>> {
        let (camera, sheet) = (&state.camera, &self.marks.sheet);
        let mut off = Vec::with_capacity(11 + self.marks.lengths.len());
        for (corner, place) in sheet.corners.iter().zip(corners_mm(sheet.size_mm, state.tilt)) {
            let away = camera.pixel(place)? - *corner;
            off.extend([away.x / sheet.off_px, away.y / sheet.off_px]);
        }
        for length in &self.marks.lengths {
            let [from, to] = [camera.place(length.ends[0], 0.0)?, camera.place(length.ends[1], 0.0)?];
            let marks = MARK_PX / camera.scale((from + to) / 2.0);
            off.push(
                ((to - from).norm() - length.mm) / (MEASURED_MM * MEASURED_MM + 2.0 * marks * marks).sqrt(),
            );
        }
        let (focal, share) = likely_focal(self.marks);
        off.extend([libm::log(camera.focal_px / focal) / share, camera.radial / RADIAL, state.tilt / TILT]);
        Some(off)
    }

    /// Half the sum of all squares.
    fn cost_of(&self, state: &State) -> f64 {
        let Some(shared) = self.shared(state) else { return f64::INFINITY };
        let square = |index: usize| {
            let off_px = self.lines[index].line.off_px;
            off_line(state, index, &self.lines).into_iter().map(|off| off * off).sum::<f64>()
                / (off_px * off_px)
        };
        let lines: f64 = (0..self.lines.len()).map(square).sum();
        (shared.iter().map(|off| off * off).sum::<f64>() + lines) / 2.0
    }

    /// The normal equations: what the sum of squares bends by, and which way it falls.
    fn equations(&self) -> Option<(DMatrix<f64>, DVector<f64>)> {
        let count = SHARED + self.lines.len();
        let (mut bend, mut fall) = (DMatrix::zeros(count, count), DVector::zeros(count));
        let mut add = |slopes: &[(usize, f64)], off: f64| {
            for &(row, slope) in slopes {
                fall[row] -= slope * off;
                for &(column, other) in slopes {
                    bend[(row, column)] += slope * other;
                }
            }
        };
        let beside: Vec<[State; 2]> =
            (0..SHARED).map(|index| [1.0, -1.0].map(|sign| self.moved(index, STEPS[index] * sign))).collect();
        let slope = |index: usize, [ahead, back]: [f64; 2]| (index, (ahead - back) / (2.0 * STEPS[index]));
        let now = self.shared(&self.state)?;
        let mut sides = Vec::with_capacity(SHARED);
        for states in &beside {
            sides.push([self.shared(&states[0])?, self.shared(&states[1])?]);
        }
        for (row, &off) in now.iter().enumerate() {
            let slopes: Vec<_> =
                sides.iter().enumerate().map(|(index, [a, b])| slope(index, [a[row], b[row]])).collect();
            add(&slopes, off);
        }
        for line in 0..self.lines.len() {
            let now = off_line(&self.state, line, &self.lines);
            let sides: Vec<[Vec<f64>; 2]> = beside
                .iter()
                .map(|states| [0, 1].map(|side| off_line(&states[side], line, &self.lines)))
                .collect();
            let own = [1e-6, -1e-6].map(|step| {
                let mut state = self.state.clone();
                state.places[line] += step;
                off_line(&state, line, &self.lines)
            });
            for (row, off) in now.iter().enumerate() {
                let mut slopes: Vec<_> =
                    sides.iter().enumerate().map(|(index, [a, b])| slope(index, [a[row], b[row]])).collect();
                slopes.push((SHARED + line, (own[0][row] - own[1][row]) / 2e-6));
                let off_px = self.lines[line].line.off_px;
                slopes.iter_mut().for_each(|(_, slope)| *slope /= off_px);
                add(&slopes, off / off_px);
            }
        }
        Some((bend, fall))
    }

    fn moved(&self, index: usize, step: f64) -> State {
        let mut by = SVector::<f64, SHARED>::zeros();
        by[index] = step;
        self.moved_by(&by, &[])
    }

    fn moved_by(&self, by: &SVector<f64, SHARED>, places: &[f64]) -> State {
        let mut state = self.state.clone();
        state.camera = moved(&state.camera, by);
        state.tilt += by[8];
        state.places.iter_mut().zip(places).for_each(|(place, by)| *place += by);
        state
    }

    /// Goes downhill until it is flat (Levenberg, 1944; Marquardt, 1963).
    fn settle(mut self) -> Option<Self> {
        let mut damping = 1e-3;
        for _ in 0..60 {
            let (bend, fall) = self.equations()?;
            let mut better = None;
            while damping < 1e12 {
                let mut damped = bend.clone();
                for index in 0..damped.nrows() {
                    damped[(index, index)] += damping * bend[(index, index)].max(1e-12);
                }
                let step = damped.cholesky().map(|solver| solver.solve(&fall));
                let tried = step.map(|step| {
                    let shared = SVector::<f64, SHARED>::from_fn(|row, _| step[row]);
                    self.moved_by(&shared, &step.as_slice()[SHARED..])
                });
                let cost = tried.as_ref().map_or(f64::INFINITY, |state| self.cost_of(state));
                if let Some(state) = tried.filter(|_| cost < self.cost) {
                    better = Some((state, cost));
                    damping = (damping * 0.2).max(1e-12);
                    break;
                }
                damping *= 5.0;
            }
            let Some((state, cost)) = better else { break };
            let gain = self.cost - cost;
            (self.state, self.cost) = (state, cost);
            self.state.camera.rotation = orthonormal(self.state.camera.rotation);
            if gain < 1e-10 * (1.0 + cost) {
                break;
            }
        }
        self.cost.is_finite().then_some(self)
    }

    fn estimate(self) -> Option<Estimate> {
        let (bend, _) = self.equations()?;
        let inverse = bend.cholesky()?.inverse();
        let left_px: Vec<f64> = (0..self.lines.len())
            .map(|line| root_mean_square(&off_line(&self.state, line, &self.lines)))
            .collect();
        let given = 8
            + self.marks.lengths.len()
            + 3
            + self.lines.iter().map(|line| line.line.points.len()).sum::<usize>();
        #[expect(clippy::cast_precision_loss, reason = "some hundreds")]
        let free = given.saturating_sub(SHARED + self.lines.len()).max(1) as f64;
        let strain = (2.0 * self.cost / free).sqrt();
        // Marks that are off by more than they may be make everything as much less sure.
        let doubt = strain.max(1.0);
        let covariance = inverse.fixed_view::<SHARED, SHARED>(0, 0) * (doubt * doubt);
        Some(Estimate {
            camera: self.state.camera,
            tilt: self.state.tilt,
            left_px,
            rival: None,
            covariance,
            strain,
        })
    }
}
