//! Which of a photograph's straight edges are level or plumb along the wall.
//!
//! The sheet alone says roughly how the camera is turned. Near that, two edges that would be level and one that would be plumb give a
//! direction exactly (their planes through the camera cross in it: Barnard, "Interpreting perspective images", 1983); the one that most of the
//! length of all edges agrees with is kept (Fischler and Bolles, "Random sample consensus", 1981, with every sample tried), and the whole
//! estimate then decides edge by edge.

use super::camera::Camera;
use super::estimate::{Estimate, FITTED_PX, MarkedLine, Marks, NoEstimate, Way};
use super::segments::Segment;
use kurbo::Point;
use nalgebra::Vector3;

/// Edges of each way that are combined, at most.
const TRIED: usize = 28;
/// Lines that an estimate takes, at most: more make it no surer.
const MOST: usize = 24;
/// How far, in the picture, an edge may be turned from where the sheet alone has it: the sine of 6 degrees.
const ROUGHLY: f64 = 0.105;
/// How far the camera may be turned from how the sheet alone has it: the cosine of 14 degrees.
const NEAR: f64 = 0.970;
/// How far an edge may be turned to agree with a direction before the lens is known: the sine of 1.2 degrees.
const AGREES: f64 = 0.021;
/// How far its points may be from the line, in pixels, to be one, at most: a root mean square.
const STRAIGHT_PX: f64 = 1.0;

/// An edge as a camera without a lens's faults has it.
struct Edge<'a> {
    segment: &'a Segment,
    /// The plane through it and the camera.
    normal: Vector3<f64>,
    middle: Vector3<f64>,
    along: kurbo::Vec2,
    long: f64,
}

impl Edge<'_> {
    /// The sine of the angle between the edge and the line from its middle in a direction of the room.
    fn turned(&self, way: &Vector3<f64>) -> f64 {
        let towards = kurbo::Vec2::new(way.x - self.middle.x * way.z, way.y - self.middle.y * way.z);
        let long = (towards.x * towards.x + towards.y * towards.y).sqrt();
        if long > 1e-9 { (self.along.cross(towards) / long).abs() } else { 1.0 }
    }
}

/// The lines among a photograph's edges, longest first, and the estimate with them. Marks have no lines yet.
///
/// # Errors
///
/// Where the sheet's corners give no estimate.
pub fn choose(segments: &[Segment], marks: &Marks) -> Result<(Vec<MarkedLine>, Estimate), NoEstimate> {
    let alone = Estimate::of(&Marks { lines: Vec::new(), ..marks.clone() })?;
    let edges: Vec<Edge<'_>> = segments.iter().filter_map(|segment| edge(segment, &alone.camera)).collect();
    let sheet = &marks.sheet.corners;
    let ways = [Way::Level, Way::Plumb].map(|way| {
        let axis = axis(&alone.camera, way);
        let depth = alone.camera.rotation.column(2).into_owned();
        let own = edges.iter().filter(|edge| {
            let turned = edge.turned(&axis);
            turned < ROUGHLY && turned < edge.turned(&depth) && !is_of_sheet(edge, sheet)
        });
        own.collect::<Vec<_>>()
    });
    let Some([level, plumb]) = agreed(&ways, &alone.camera) else { return Ok((Vec::new(), alone)) };
    let candidates = || {
        let of = |way: usize, kind: Way| ways[way].iter().map(move |edge| (*edge, kind));
        of(0, Way::Level).chain(of(1, Way::Plumb))
    };
    let mut lines: Vec<MarkedLine> = candidates()
        .filter(|(edge, way)| edge.turned(if *way == Way::Level { &level } else { &plumb }) < AGREES)
        .map(|(edge, way)| MarkedLine { way, points: edge.segment.points.clone(), off_px: FITTED_PX })
        .collect();
    lines.truncate(MOST);
    let mut best = alone;
    for round in 0..4 {
        let with = Marks { lines: lines.clone(), ..marks.clone() };
        let estimate = Estimate::of(&with)?;
        // What is straight is so to a third of a pixel; what is bent or turned stands out from the rest of its photograph.
        let allowed = if round == 0 { 3.0 * STRAIGHT_PX } else { straight(&estimate.left_px) };
        let before = lines.len();
        let mut left = estimate.left_px.iter();
        lines.retain(|_| left.next().is_none_or(|left| *left < allowed));
        let is_settled = lines.len() == before && round > 0;
        best = estimate;
        if is_settled {
            break;
        }
        if round == 1 {
            // With the lens known, others may turn out to agree.
            lines = candidates()
                .filter(|(edge, way)| best.from_line(*way, &edge.segment.points) < straight(&best.left_px))
                .map(|(edge, way)| MarkedLine { way, points: edge.segment.points.clone(), off_px: FITTED_PX })
                .collect();
            crate::order::sort_by(&mut lines, |one, other| length(other).total_cmp(&length(one)));
            lines.truncate(MOST);
        }
    }
    if best.left_px.len() != lines.len() {
        best = Estimate::of(&Marks { lines: lines.clone(), ..marks.clone() })?;
    }
    Ok((lines, best))
}

/// How far from its line an edge's points may be, in pixels, among edges that are so far from theirs.
fn straight(left_px: &[f64]) -> f64 {
    let mut left = left_px.to_vec();
    crate::order::sort_by(&mut left, f64::total_cmp);
    left.get(left.len() / 2).map_or(STRAIGHT_PX, |median| (3.0 * median).clamp(0.35, STRAIGHT_PX))
}

/// How long a line is, in pixels.
fn length(line: &MarkedLine) -> f64 {
    match line.points.as_slice() {
        [first, .., last] => (*last - *first).hypot2(),
        _ => 0.0,
    }
}

/// Which way a hand-drawn line runs: level where it is nearer to that than to plumb.
#[must_use]
pub fn way_of(points: &[Point], camera: &Camera) -> Way {
    let ([first, .., last], middle) = (points, points.len() / 2) else { return Way::Level };
    let middle = camera.direction(points[middle]);
    let along = camera.direction(*last) - camera.direction(*first);
    let along = kurbo::Vec2::new(along.x, along.y);
    let turned = |way: Way| {
        let way = axis(camera, way);
        let towards = kurbo::Vec2::new(way.x - middle.x * way.z, way.y - middle.y * way.z);
        along.cross(towards).abs() / towards.hypot2().sqrt().max(1e-9)
    };
    if turned(Way::Level) <= turned(Way::Plumb) { Way::Level } else { Way::Plumb }
}

fn axis(camera: &Camera, way: Way) -> Vector3<f64> {
    camera.rotation.column(usize::from(way == Way::Plumb)).into_owned()
}

fn edge<'a>(segment: &'a Segment, camera: &Camera) -> Option<Edge<'a>> {
    let [from, to] = segment.ends.map(|end| camera.direction(end));
    let along = kurbo::Vec2::new(to.x - from.x, to.y - from.y);
    let long = along.hypot2().sqrt();
    (long > 0.0 && segment.points.len() > 2).then(|| Edge {
        segment,
        normal: from.cross(&to).normalize(),
        middle: (from + to) / 2.0,
        along: along / long,
        long,
    })
}

/// Whether an edge is one of the sheet's own: that one is used already, and hangs as it likes.
fn is_of_sheet(edge: &Edge<'_>, corners: &[Point; 4]) -> bool {
    let near = super::light::grown_by(*corners, 6.0);
    edge.segment.points.iter().filter(|point| super::light::is_within(**point, &near)).count() * 2
        > edge.segment.points.len()
}

/// The level and the plumb direction that most of the edges agree with.
fn agreed(ways: &[Vec<&Edge<'_>>; 2], camera: &Camera) -> Option<[Vector3<f64>; 2]> {
    let [level, plumb] = ways.each_ref().map(|edges| &edges[..edges.len().min(TRIED)]);
    let (rough_level, rough_plumb) = (axis(camera, Way::Level), axis(camera, Way::Plumb));
    let score = |edges: &[&Edge<'_>], way: &Vector3<f64>| {
        let agree = |edge: &&Edge<'_>| {
            let off = edge.turned(way) / AGREES;
            edge.long * (1.0 - off * off).max(0.0)
        };
        edges.iter().map(agree).sum::<f64>()
    };
    let near = |found: Vector3<f64>, rough: &Vector3<f64>| {
        let length = found.norm();
        let found = if found.dot(rough) < 0.0 { -found } else { found } / length.max(1e-12);
        (length > 1e-4 && found.dot(rough) > NEAR).then_some(found)
    };
    // Where there is but one level line, or none, the sheet's own direction stands for the rest.
    let mut firsts: Vec<(Vector3<f64>, f64)> = Vec::new();
    for (index, one) in level.iter().enumerate() {
        for other in &level[index + 1..] {
            if let Some(way) = near(one.normal.cross(&other.normal), &rough_level) {
                firsts.push((way, score(level, &way)));
            }
        }
        let nearest = rough_level - one.normal * one.normal.dot(&rough_level);
        if let Some(way) = near(nearest, &rough_level) {
            firsts.push((way, score(level, &way)));
        }
    }
    firsts.push((rough_level, score(level, &rough_level)));
    crate::order::sort_by(&mut firsts, |one, other| other.1.total_cmp(&one.1));
    let mut best: Option<(f64, [Vector3<f64>; 2])> = None;
    for (way, of_level) in firsts.iter().take(60) {
        let upright = rough_plumb - way * way.dot(&rough_plumb);
        let own = plumb.iter().map(|edge| edge.normal.cross(way)).chain([upright]);
        for up in own.filter_map(|found| near(found, &rough_plumb)) {
            let total = of_level + score(plumb, &up);
            if total > 0.0 && best.is_none_or(|(most, _)| total > most) {
                best = Some((total, [*way, up]));
            }
        }
    }
    best.map(|(_, ways)| ways)
}
