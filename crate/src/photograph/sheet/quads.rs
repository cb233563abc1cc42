//! Quadrilaterals of edges that are bright inside: pieces that follow each other clockwise, each turning right into the next.

use super::super::pieces::Piece;
use super::super::sums::{crossing, length, turned, unit};
use crate::order::sort_by;
use kurbo::{Point, Vec2};

/// One side, or what is seen of it.
struct Side {
    from: Point,
    to: Point,
    length: f64,
    strength: f64,
}

impl Side {
    fn seen(&self) -> f64 {
        self.length * (0.02 + self.strength).sqrt()
    }
}

/// A quadrilateral whose corners run clockwise, and how well its sides are seen.
pub(super) struct Quad {
    pub(super) corners: [Point; 4],
    seen: f64,
}

/// No more than so many are looked at closely.
const MOST: usize = 80;
/// Rooms have some hundreds of sides; of a wall of tiles no more than so many are put together, each with so many next ones, and no more
/// than so many quadrilaterals are sifted.
const MOST_SIDES: usize = 1200;
const MOST_NEXT: usize = 12;
const MOST_SIFTED: usize = 40_000;

/// The quadrilaterals of sides between `least` and `most` pixels that may be paper, the best seen first.
pub(super) fn quads(
    pieces: &[Piece],
    (least, most): (f64, f64),
    may_be_paper: impl Fn([Point; 4]) -> bool,
) -> Vec<Quad> {
    let sides = sides(pieces, most);
    let next: Vec<Vec<(usize, Point)>> = sides.iter().map(|side| turns(side, &sides)).collect();
    let mut found = Vec::new();
    let mut add = |corners: [Point; 4], around: &[&Side]| {
        if let Some(seen) = judged(corners, around, least, most) {
            found.push(Quad { corners, seen });
        }
    };
    for (a, after_a) in next.iter().enumerate() {
        for (b, ab) in after_a {
            for (c, bc) in &next[*b] {
                let three = [&sides[a], &sides[*b], &sides[*c]];
                // The fourth may not be seen: it then runs from where the third ends to where the first begins.
                add([three[0].from, *ab, *bc, three[2].to], &three);
                for (d, cd) in &next[*c] {
                    let first = next[*d].iter().find(|(e, _)| *e == a);
                    // Each quadrilateral once: from its first side in the list.
                    if let Some((_, da)) = first.filter(|_| a < *b && a < *c && a < *d) {
                        add([*da, *ab, *bc, *cd], &[three[0], three[1], three[2], &sides[*d]]);
                    }
                }
            }
        }
    }
    for (at, left) in sides.iter().enumerate() {
        for right in &sides[..at] {
            if let Some(corners) = facing(left, right) {
                add(corners, &[left, right]);
            }
        }
    }
    sort_by(&mut found, |one, other| other.seen.total_cmp(&one.seen));
    let mut apart: Vec<Quad> = Vec::new();
    for quad in found.into_iter().take(MOST_SIFTED) {
        let near = |known: &Quad| is_same(known.corners, quad.corners, 3.0);
        if !apart.iter().any(near) && may_be_paper(quad.corners) {
            apart.push(quad);
        }
        if apart.len() == MOST {
            break;
        }
    }
    apart
}

/// Whether two quadrilaterals have the same corners, in any turn, within a distance in pixels.
pub(super) fn is_same(one: [Point; 4], other: [Point; 4], within: f64) -> bool {
    (0..4).any(|turn| (0..4).all(|at| length(one[at] - other[(at + turn) % 4]) < within))
}

/// The pieces, and those that a strip of tape interrupts, together.
fn sides(pieces: &[Piece], most: f64) -> Vec<Side> {
    let mut sides: Vec<Side> = pieces
        .iter()
        .filter(|piece| piece.length() < 1.3 * most)
        .map(|piece| Side {
            from: piece.from,
            to: piece.to,
            length: piece.length(),
            strength: piece.strength,
        })
        .collect();
    sort_by(&mut sides, |one, other| other.seen().total_cmp(&one.seen()));
    sides.truncate(MOST_SIDES);
    let whole = sides.len();
    for one in 0..whole {
        for other in 0..whole {
            let (one, other) = (&sides[one], &sides[other]);
            let span = other.to - one.from;
            let (along, gap) = (unit(span), other.from - one.to);
            let gap_along = along.dot(gap);
            let seen = one.length + other.length;
            let off = |point: Point| along.cross(point - one.from).abs();
            if unit(one.to - one.from).dot(unit(other.to - other.from)) > 0.99
                && gap_along > -0.1 * seen
                && gap_along < 0.5 * seen
                && length(span) < 1.3 * most
                && off(one.to) < 2.5
                && off(other.from) < 2.5
            {
                let strength = one.strength.min(other.strength);
                let both = Side { from: one.from, to: other.to, length: seen, strength };
                sides.push(both);
            }
            if sides.len() == 2 * MOST_SIDES {
                return sides;
            }
        }
    }
    sides
}

/// The sides into which one turns, each with the corner.
fn turns(side: &Side, sides: &[Side]) -> Vec<(usize, Point)> {
    let ahead = unit(side.to - side.from);
    let is_near = |off: f64, length: f64| off > -0.3 * length - 4.0 && off < 0.7 * length + 4.0;
    let corner = |other: &Side| {
        let down = unit(other.to - other.from);
        // Between about 50 and 130 degrees.
        if ahead.cross(down) < 0.77 || length(other.from - side.to) > 0.8 * (side.length + other.length) {
            return None;
        }
        let corner = crossing((side.from, ahead), (other.from, down))?;
        let is_here = is_near(ahead.dot(corner - side.to), side.length)
            && is_near(down.dot(other.from - corner), other.length);
        is_here.then_some(corner)
    };
    let mut found: Vec<(usize, Point)> =
        sides.iter().enumerate().filter_map(|(at, other)| Some((at, corner(other)?))).collect();
    if found.len() > MOST_NEXT {
        let far = |next: &(usize, Point)| length(sides[next.0].from - side.to);
        sort_by(&mut found, |one, other| far(one).total_cmp(&far(other)));
        found.truncate(MOST_NEXT);
    }
    found
}

/// The corners between two sides that face each other, of which the longer tells where both end.
fn facing(one: &Side, other: &Side) -> Option<[Point; 4]> {
    let up = unit(one.to - one.from);
    let down = unit(other.to - other.from);
    let between = turned(up).dot(other.from.midpoint(other.to) - one.from.midpoint(one.to));
    let alike = one.length / other.length;
    if up.dot(down) > -0.98 || !(0.4..2.5).contains(&alike) || between < 0.3 * one.length.max(other.length) {
        return None;
    }
    let along = |point: Point| up.dot(point - one.from);
    let start = along(one.from).min(along(other.to));
    let end = along(one.to).max(along(other.from));
    let beyond = one.length.max(other.length);
    if end - start > 1.3 * beyond {
        return None;
    }
    let at = |side: &Side, ahead: Vec2, place: f64| {
        side.from + ahead * ((place - along(side.from)) / up.dot(ahead))
    };
    Some([at(one, up, start), at(one, up, end), at(other, down, end), at(other, down, start)])
}

/// How well a quadrilateral's sides are seen; `None` when it can't be a sheet.
fn judged(corners: [Point; 4], around: &[&Side], least: f64, most: f64) -> Option<f64> {
    let spans: [_; 4] = std::array::from_fn(|at| corners[(at + 1) % 4] - corners[at]);
    let lengths = spans.map(length);
    let is_convex =
        (0..4).all(|at| spans[at].cross(spans[(at + 1) % 4]) > 0.5 * lengths[at] * lengths[(at + 1) % 4]);
    let is_sized = lengths.iter().all(|length| *length > least && *length < most);
    let alike = |one: f64, other: f64| (0.55..1.8).contains(&(one / other));
    let shape = (lengths[0] + lengths[2]) / (lengths[1] + lengths[3]);
    let is_shaped = (1.05..2.4).contains(&shape.max(1.0 / shape));
    if !is_convex
        || !is_sized
        || !alike(lengths[0], lengths[2])
        || !alike(lengths[1], lengths[3])
        || !is_shaped
    {
        return None;
    }
    let mut seen = 0.0;
    // Two sides that face each other are the first and the third.
    let step = if around.len() == 2 { 2 } else { 1 };
    for (side, length) in around.iter().zip(lengths.iter().step_by(step)) {
        let share = side.length / length;
        if !(0.3..1.35).contains(&share) {
            return None;
        }
        seen += share.min(1.0);
    }
    let weakest = around.iter().map(|side| side.strength).fold(f64::INFINITY, f64::min);
    Some(seen * (0.02 + weakest).sqrt())
}
