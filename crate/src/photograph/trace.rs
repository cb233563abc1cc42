//! Where exactly an edge runs, to fractions of a pixel: profiles across a path, averaged a few pixels along it, and the middle of their
//! slope.

use super::sums::{at, fit, fit_robustly, length, real, turned, unit, whole};
use kurbo::{Point, Vec2};

/// A line that may be slightly bent: the bright side of the edge along it is on the right.
#[derive(Clone, Debug)]
pub(super) struct Path {
    start: Point,
    ahead: Vec2,
    span: f64,
    /// How far to the right it is, in pixels, as a polynomial of the share of its length.
    bend: [f64; 3],
}

/// Where an edge crosses a profile.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mark {
    /// Pixels along the path.
    pub(super) along: f64,
    /// Pixels to the right of the path.
    pub(super) off: f64,
    /// How much brighter it is on the right.
    pub(super) contrast: f64,
}

impl Path {
    pub(super) fn straight(from: Point, to: Point) -> Self {
        Self { start: from, ahead: unit(to - from), span: length(to - from).max(1e-6), bend: [0.0; 3] }
    }

    /// Through points near a line from one place to another; with fewer than five it stays straight.
    pub(super) fn through(from: Point, to: Point, knots: &[Point]) -> Self {
        let mut path = Self::straight(from, to);
        let rows: Vec<[f64; 3]> = knots
            .iter()
            .map(|knot| [path.along(*knot) / path.span, path.ahead.cross(*knot - path.start), 1.0])
            .collect();
        path.bend = if knots.len() >= 5 { fit::<3>(&rows) } else { None }
            .or_else(|| fit::<2>(&rows).map(|[level, slope]| [level, slope, 0.0]))
            .unwrap_or(path.bend);
        path
    }

    pub(super) fn span(&self) -> f64 {
        self.span
    }

    /// How far along the path a point is.
    pub(super) fn along(&self, point: Point) -> f64 {
        self.ahead.dot(point - self.start)
    }

    /// How far to the right of the path a point is.
    pub(super) fn off(&self, point: Point) -> f64 {
        self.ahead.cross(point - self.start) - at(&self.bend, self.along(point) / self.span)
    }

    /// How far the path bends away from its chord in the middle, in pixels.
    pub(super) fn sagitta(&self) -> f64 {
        0.25 * self.bend[2].abs()
    }

    /// The place so far along the path and to the right of it.
    pub(super) fn place(&self, along: f64, off: f64) -> Point {
        self.start + self.ahead * along + turned(self.ahead) * (at(&self.bend, along / self.span) + off)
    }

    /// The edge within `reach` pixels of the path, at places `apart` pixels from each other; each is the mean of a stretch `block` long.
    pub(super) fn marks(
        &self,
        shade: &impl Fn(Point) -> f32,
        (first, last): (f64, f64),
        (apart, block): (f64, f64),
        reach: f64,
    ) -> Vec<Mark> {
        let count = whole((last - first - block) / apart) + 1;
        if last - first < block || count > 10_000 {
            return Vec::new();
        }
        let start = 0.5 * (first + last - real(count - 1) * apart);
        let lines = whole(block).max(1);
        let mut profile = vec![0.0; 2 * whole(2.0 * (reach + 1.0)) + 1];
        let middle = real(profile.len() / 2);
        let mut marks = Vec::with_capacity(count);
        for index in 0..count {
            let along = start + real(index) * apart;
            profile.fill(0.0);
            for line in 0..lines {
                let along = along + ((real(line) + 0.5) / real(lines) - 0.5) * block;
                let foot = self.place(along, 0.0);
                for (step, sum) in profile.iter_mut().enumerate() {
                    let off = 0.5 * (real(step) - middle);
                    *sum += f64::from(shade(foot + turned(self.ahead) * off)) / real(lines);
                }
            }
            if let Some((step, contrast)) = steepest(&profile) {
                marks.push(Mark { along, off: 0.5 * (step - middle), contrast });
            }
        }
        marks
    }

    /// The points of an edge from its marks: about `wanted` of them, each by a line fitted to the marks near it.
    pub(super) fn smooth(&self, marks: &[Mark], wanted: usize) -> Vec<Point> {
        let (Some(first), Some(last)) = (marks.first(), marks.last()) else { return Vec::new() };
        let apart = if marks.len() > 1 { (last.along - first.along) / real(marks.len() - 1) } else { 1.0 };
        let half = (0.5 * apart.min(8.0) * real(marks.len()) / real(wanted)).max(10.0);
        let mut points = Vec::with_capacity(wanted);
        for index in 0..wanted {
            let Some(target) = marks.get(index * (marks.len() - 1) / (wanted - 1)) else { continue };
            let near: Vec<[f64; 3]> = marks
                .iter()
                .filter(|mark| (mark.along - target.along).abs() <= half)
                .map(|mark| [(mark.along - target.along) / half, mark.off, mark.contrast])
                .collect();
            if near.len() < 3 {
                continue;
            }
            if let Some((line, _)) = fit_robustly::<2>(&near, 0.3) {
                points.push(self.place(target.along, line[0]));
            }
        }
        points.dedup_by(|a, b| length(*a - *b) < 1.0);
        points
    }
}

/// The least that light rises in a pixel at an edge; less comes of rounding.
const FAINTEST: f64 = 1e-4;

/// The middle of the steepest rise within a profile, in its steps, and how much it rises there. `None` where nothing rises, or where it is at
/// an end, so that the edge may be outside.
fn steepest(profile: &[f64]) -> Option<(f64, f64)> {
    let slope = |at: usize| profile[at + 1] - profile[at - 1];
    let steps = 1..profile.len() - 1;
    let (peak, most) = steps.clone().map(|at| (at, slope(at))).max_by(|a, b| a.1.total_cmp(&b.1))?;
    if most < FAINTEST || peak <= steps.start || peak + 1 >= steps.end {
        return None;
    }
    let floor = 0.5 * most;
    let inside = |at: &usize| slope(*at) > floor && at.abs_diff(peak) <= 5;
    let low = (steps.start..=peak).rev().take_while(inside).last()?;
    let high = (peak..steps.end).take_while(inside).last()?;
    let (sum, moment) = (low..=high).fold((0.0, 0.0), |(sum, moment), at| {
        let weight = slope(at) - floor;
        (sum + weight, moment + weight * real(at))
    });
    (sum > 0.0).then(|| (moment / sum, profile[high + 1] - profile[low - 1]))
}
