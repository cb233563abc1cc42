//! Straight edges in a photograph: found by themselves (`pieces`), joined where something stands in front of them, and followed to
//! fractions of a pixel, so that a lens's curve shows in their points.

use super::grey::Grey;
use super::pieces::{Piece, Plane, pieces};
use super::sums::{at, fit_robustly, length, median, real, short, unit, whole};
use super::trace::{Mark, Path};
use crate::order::sort_by;
use kurbo::Point;

/// A straight edge.
#[derive(Clone, Debug)]
pub struct Segment {
    /// Where it begins and ends, in pixels; seen from the first, the bright side is on the right.
    pub ends: [Point; 2],
    /// About nine points along it, in pixels, where it really is seen; a lens may bend them slightly.
    pub points: Vec<Point>,
    /// How much brighter the bright side is, as a share of white in light.
    pub contrast: f32,
}

/// Points of each edge.
const POINTS: usize = 9;
/// No more edges than these.
const MOST: usize = 200;

/// The longest straight edges, by how much of them is seen, the longest first: at most 200, each at least 6 % of the longer side.
#[must_use]
pub fn segments(grey: &Grey) -> Vec<Segment> {
    let longer = real(grey.width().max(grey.height()));
    let plane = Plane::reduced(grey.width(), grey.height(), |place| grey.shades()[place]);
    let joined = join(pieces(&plane, 1, 0.022 * longer), longer);
    let mut long: Vec<(f64, Vec<Piece>)> = joined
        .into_iter()
        .map(|pieces| (pieces.iter().map(Piece::length).sum(), pieces))
        .filter(|(seen, _)| *seen >= 0.06 * longer)
        .collect();
    sort_by(&mut long, |one, other| other.0.total_cmp(&one.0));
    long.truncate(MOST);
    let mut found: Vec<Segment> = long.iter().filter_map(|(_, pieces)| followed(grey, pieces)).collect();
    // What could not be followed over most of its length was no edge.
    found.retain(|segment| {
        let [from, to] = segment.ends;
        let bent = Path::through(from, to, &segment.points).sagitta();
        length(to - from) >= 0.055 * longer && bent <= most_bent(length(to - from), longer)
    });
    found
}

/// How far from its chord a line of some length may bend in the middle, in pixels: about twice what a phone's lens does (a radial
/// coefficient of 0.05 bends one that is as long as the picture, and at its edge, by half a percent).
pub(super) fn most_bent(length: f64, longer: f64) -> f64 {
    0.8 + 0.012 * length * length / longer
}

/// The edge nearest to a line drawn by hand, within about six pixels of it; `None` where there is none.
#[must_use]
pub fn along(grey: &Grey, from: Point, to: Point) -> Option<Segment> {
    const REACH: i32 = 6;
    let span = length(to - from);
    if !(8.0..20_000.0).contains(&span) {
        return None;
    }
    let inside = |point: Point| {
        (0.0..=real(grey.width())).contains(&point.x) && (0.0..=real(grey.height())).contains(&point.y)
    };
    if !inside(from) || !inside(to) {
        return None;
    }
    let light = |point: Point| light(grey, point);
    let mut best: Option<(f64, Path)> = None;
    for (from, to) in [(from, to), (to, from)] {
        let drawn = Path::straight(from, to);
        let places: Vec<f64> = (0..64).map(|at| (real(at) + 0.5) / 64.0).collect();
        // How much it rises at each place and each distance from the line.
        let rise = |share: f64, off: f64| {
            let along = share * span;
            f64::from(light(drawn.place(along, off + 1.0)) - light(drawn.place(along, off - 1.0)))
        };
        let rises: Vec<Vec<f64>> = places
            .iter()
            .map(|share| (-2 * REACH..=2 * REACH).map(|off| rise(*share, 0.5 * f64::from(off))).collect())
            .collect();
        for start in -REACH..=REACH {
            for end in -REACH..=REACH {
                let (start, end) = (f64::from(start), f64::from(end));
                let sum: f64 = places
                    .iter()
                    .zip(&rises)
                    .map(|(share, rises)| {
                        let off = start + share * (end - start) + f64::from(REACH);
                        // A place that is much steeper than the rest, as a corner in front, must not decide.
                        rises.get(whole(2.0 * off + 0.5)).map_or(0.0, |rise| rise.clamp(-0.2, 0.2))
                    })
                    .sum();
                let far = (start * start + end * end) / f64::from(2 * REACH * REACH);
                let score = sum * (1.0 - 0.6 * far);
                if best.as_ref().is_none_or(|(most, _)| score > *most) {
                    best = Some((score, Path::straight(drawn.place(0.0, start), drawn.place(span, end))));
                }
            }
        }
    }
    let (_, mut path) = best?;
    for reach in [3.0, 2.0] {
        let marks = strong(path.marks(&light, (0.0, path.span()), (4.0, 8.0), reach));
        if marks.len() < 3 {
            return None;
        }
        let knots = path.smooth(&marks, POINTS);
        path = Path::through(path.place(0.0, 0.0), path.place(path.span(), 0.0), &knots);
    }
    let marks = strong(path.marks(&light, (0.0, path.span()), (4.0, 8.0), 2.0));
    segment(&path, &together(marks)?)
}

/// Pieces that continue each other, together, in their order along the line.
fn join(mut pieces: Vec<Piece>, longer: f64) -> Vec<Vec<Piece>> {
    sort_by(&mut pieces, |one, other| other.length().total_cmp(&one.length()));
    let mut left: Vec<Option<Piece>> = pieces.into_iter().map(Some).collect();
    let mut joined = Vec::new();
    for first in 0..left.len() {
        let Some(seed) = left[first].take() else { continue };
        let mut line = vec![seed];
        while let Some((at, is_after)) = next(&line, &left, longer) {
            let Some(piece) = left[at].take() else { break };
            line.insert(if is_after { line.len() } else { 0 }, piece);
        }
        joined.push(line);
    }
    joined
}

/// Of the pieces that are left, the nearest that continues a line, and whether it does so at its end.
fn next(line: &[Piece], left: &[Option<Piece>], longer: f64) -> Option<(usize, bool)> {
    let (Some(first), Some(last)) = (line.first(), line.last()) else { return None };
    let ahead = unit(last.to - first.from);
    let seen: f64 = line.iter().map(Piece::length).sum();
    let mut best: Option<(f64, usize, bool)> = None;
    for (at, piece) in left.iter().enumerate() {
        let Some(piece) = piece else { continue };
        if piece.direction().dot(ahead) < 0.998 {
            continue;
        }
        let (after, before) = (ahead.dot(piece.from - last.to), ahead.dot(first.from - piece.to));
        let gap = after.max(before);
        let shorter = piece.length().min(seen);
        // What lies far off is only believed of lines that are long, and in pieces that are not too short.
        let is_far = gap > 0.6 * (seen + piece.length()) || gap > 3.0 * shorter;
        let may_be_far = seen.max(piece.length()) > 0.15 * longer && shorter > 0.045 * longer;
        if gap < -0.2 * shorter || gap > 3.0 * (seen + piece.length()) || is_far && !may_be_far {
            continue;
        }
        let strength = line.iter().map(|piece| piece.strength).sum::<f64>() / real(line.len());
        if !(0.2..=5.0).contains(&(piece.strength / strength)) || best.is_some_and(|(least, ..)| gap >= least)
        {
            continue;
        }
        let is_after = after > before;
        let (from, to) = if is_after { (first.from, piece.to) } else { (piece.from, last.to) };
        if continues(line, piece, [from, to], gap, longer) {
            best = Some((gap, at, is_after));
        }
    }
    best.map(|(_, at, is_after)| (at, is_after))
}

/// Whether a piece lies on one slightly bent line with others.
fn continues(line: &[Piece], piece: &Piece, [from, to]: [Point; 2], gap: f64, longer: f64) -> bool {
    let (Some(first), Some(last)) = (line.first(), line.last()) else { return false };
    // The shorter lies where the longer leads, but for the longer's own uncertainty and a lens's bend.
    let (one, other) = ([first.from, last.to], [piece.from, piece.to]);
    let is_longer = length(one[1] - one[0]) > length(other[1] - other[0]);
    let (base, further) = if is_longer { (one, other) } else { (other, one) };
    let span = length(base[1] - base[0]).max(1.0);
    let beyond = gap.max(0.0) + 0.5 * length(further[1] - further[0]);
    let off = unit(base[1] - base[0]).cross(further[0].midpoint(further[1]) - base[0]).abs();
    if off > 1.0 + 0.7 * beyond / span + 0.024 * beyond * (span + beyond) / longer {
        return false;
    }
    let knots: Vec<Point> =
        line.iter().chain([piece]).flat_map(|piece| piece.knots.iter().copied()).collect();
    let path = Path::through(from, to, &knots);
    if path.sagitta() > most_bent(path.span(), longer) {
        return false;
    }
    let mean = |piece: &Piece| {
        let sum: f64 = piece.knots.iter().map(|knot| path.off(*knot).abs()).sum();
        sum / real(piece.knots.len().max(1))
    };
    // Across a wide gap chance brings many lines near: they must fit better.
    let bound = if gap > piece.length() { 0.6 } else { 1.0 };
    line.iter().chain([piece]).all(|piece| mean(piece) < bound)
}

/// Brightness in light between the pixels' middles, which is where an edge's place is true: blur happens in light, codes shift it. A
/// square stands for the curve of sRGB.
fn light(grey: &Grey, point: Point) -> f32 {
    let (width, height) = (grey.width(), grey.height());
    let (x, y) = ((point.x - 0.5).clamp(0.0, real(width - 1)), (point.y - 0.5).clamp(0.0, real(height - 1)));
    let (column, row) = (whole(x), whole(y));
    let (right, below) = ((column + 1).min(width - 1), (row + 1).min(height - 1));
    let (across, down) = (short(x - real(column)), short(y - real(row)));
    let shades = grey.shades();
    let light = |column: usize, row: usize| {
        let shade = shades[row * width + column];
        shade * shade
    };
    let upper = light(column, row) * (1.0 - across) + light(right, row) * across;
    let lower = light(column, below) * (1.0 - across) + light(right, below) * across;
    upper * (1.0 - down) + lower * down
}

/// Pieces of one line, followed where each is seen.
fn followed(grey: &Grey, pieces: &[Piece]) -> Option<Segment> {
    let (first, last) = (pieces.first()?, pieces.last()?);
    let knots: Vec<Point> = pieces.iter().flat_map(|piece| piece.knots.iter().copied()).collect();
    let path = Path::through(first.from, last.to, &knots);
    let seen = |path: &Path, reach: f64| -> Vec<Mark> {
        let range = |piece: &Piece| (path.along(piece.from), path.along(piece.to));
        let marks = |piece| path.marks(&|point| light(grey, point), range(piece), (4.0, 8.0), reach);
        pieces.iter().flat_map(marks).collect()
    };
    let path = Path::through(first.from, last.to, &path.smooth(&seen(&path, 3.0), POINTS));
    let marks = seen(&path, 2.5);
    let (before, after) = (further(grey, &path, &marks, false), further(grey, &path, &marks, true));
    let marks: Vec<Mark> = before.into_iter().rev().chain(marks).chain(after).collect();
    segment(&path, &marks)
}

/// How an edge goes on beyond its last marks, or before its first: as long as nearly all of a stretch lies where it leads.
fn further(grey: &Grey, path: &Path, marks: &[Mark], is_after: bool) -> Vec<Mark> {
    const STRETCH: f64 = 40.0;
    let (Some(first), Some(last)) = (marks.first(), marks.last()) else { return Vec::new() };
    let near =
        if is_after { &marks[marks.len().saturating_sub(10)..] } else { &marks[..marks.len().min(10)] };
    let usual = median(near.iter().map(|mark| mark.contrast).collect());
    let mut added: Vec<Mark> = Vec::new();
    let inside = |along: f64| {
        let place = path.place(along, 0.0);
        (3.0..real(grey.width()) - 3.0).contains(&place.x)
            && (3.0..real(grey.height()) - 3.0).contains(&place.y)
    };
    loop {
        let from = added.last().map_or(if is_after { last.along } else { first.along }, |mark| mark.along);
        let range =
            if is_after { (from + 2.0, from + 2.0 + STRETCH) } else { (from - 2.0 - STRETCH, from - 2.0) };
        if !inside(range.0) || !inside(range.1) {
            return added;
        }
        let mut next = path.marks(&|point| light(grey, point), range, (4.0, 8.0), 3.0);
        let wanted = next.len();
        let middle = median(next.iter().map(|mark| mark.off).collect());
        next.retain(|mark| (mark.off - middle).abs() < 0.6 && mark.contrast > 0.4 * usual);
        if middle.abs() > 1.2 || wanted < 8 || next.len() + 1 < wanted {
            return added;
        }
        if !is_after {
            next.reverse();
        }
        added.extend(next);
    }
}

/// Marks that lie on one slightly bent line, several in a row: what noise and things in front have lies anywhere. `None` of too few.
fn together(marks: Vec<Mark>) -> Option<Vec<Mark>> {
    const IN_A_ROW: usize = 6;
    let (first, last) = (marks.first()?.along, marks.last()?.along);
    let place = |mark: &Mark| 2.0 * (mark.along - first) / (last - first).max(1.0) - 1.0;
    let rows: Vec<[f64; 3]> = marks.iter().map(|mark| [place(mark), mark.off, mark.contrast]).collect();
    let (terms, _) = fit_robustly::<3>(&rows, 0.4)?;
    let is_near = |mark: &Mark| (mark.off - at(&terms, place(mark))).abs() < 0.7;
    let runs = marks.chunk_by(|one, other| is_near(one) && is_near(other));
    let kept: Vec<Mark> = runs.filter(|run| run.len() >= IN_A_ROW).flatten().copied().collect();
    (kept.len() >= 2 * IN_A_ROW || 2 * kept.len() > marks.len()).then_some(kept)
}

/// Marks without the weakest, which are where something else interrupts the edge.
fn strong(marks: Vec<Mark>) -> Vec<Mark> {
    let usual = median(marks.iter().map(|mark| mark.contrast).collect());
    marks.into_iter().filter(|mark| mark.contrast > 0.25 * usual).collect()
}

fn segment(path: &Path, marks: &[Mark]) -> Option<Segment> {
    let points = path.smooth(marks, POINTS);
    let ends = [*points.first()?, *points.last()?];
    let contrast = median(marks.iter().map(|mark| mark.contrast).collect());
    (points.len() >= 3).then_some(Segment { ends, points, contrast: short(contrast) })
}
