//! A section on a paper: the cut at a scale that a rule is divided in, with what each part is beside it.

use super::elevation::scale_for;
use super::flow::SANS;
use super::sheet::{BOLD, INK, Item, QUIET, RED, Step, THIN, WHITE};
use crate::colour::Colour;
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::plan::{Material, System};
use crate::scene::section::{CutPart, Section, Substance};
use crate::text::typeset;

/// Half of a text's figures: from its middle down to its baseline.
const DOWN: Length = Length::micrometres(1040);
/// From one line of text to the next.
const STEP: Length = Length::micrometres(4200);

/// A section drawn from its own lower left corner, in a strip of this width; how high that is, and how many times smaller than it is.
pub(super) fn drawn(section: &Section, width: Length, system: System) -> (Vec<Item>, Length, i64) {
    let most = Size::new(width.times_ratio(40, 100), Length::mm(105));
    let bounds = section.bounds;
    let scale = scale_for(system, &[(bounds.size.width, most.width), (bounds.size.height, most.height)]);
    let to_paper = |length: Length| length.times_ratio(1, scale);
    let below = STEP * i64::try_from(section.depths.len()).unwrap_or(0) + Length::mm(3);
    let tall = to_paper(bounds.size.height);
    let at = |point: Point| Point::new(to_paper(point.x - bounds.x), below + to_paper(point.y - bounds.y));
    let mut items = Vec::new();
    section.parts.iter().for_each(|part| cut(part, &at, &mut items));
    if let Some(broken) = section.left_out {
        // The package goes on alike where it is left out.
        let y = at(broken).y;
        let (left, right) = (at(Point::new(Length::ZERO, broken.y)).x, at(broken).x + Length::mm(1));
        let strip = Rect::new(left, y - Length::micrometres(500), Size::new(right - left, Length::mm(1)));
        items.push(Item::rect(strip, Some(WHITE), None));
        for y in [strip.y, strip.top()] {
            items.push(Item::dashed(
                (left, y),
                (right, y),
                QUIET,
                &[Length::mm(1), Length::micrometres(600)],
            ));
        }
    }
    let edge = to_paper(bounds.size.width);
    let column = edge + Length::mm(9);
    let mut notes: Vec<(Point, String)> =
        section.notes.iter().map(|note| (at(note.at), typeset(&note.text))).collect();
    crate::order::sort_by_key(&mut notes, |note| -note.0.y);
    // Each beside its part, none over another: from the top down as near as can be.
    let texts: Vec<Vec<String>> = notes.iter().map(|note| SANS.wrapped(&note.1, width - column)).collect();
    let lines = |texts: &[Vec<String>]| i64::try_from(texts.iter().map(Vec::len).sum::<usize>()).unwrap_or(0);
    let mut free = (below + tall).max(below + STEP * lines(&texts)) - STEP.half();
    let top = free + STEP.half();
    for (index, ((from, _), text)) in notes.iter().zip(&texts).enumerate() {
        let rest = STEP * lines(&texts[index..]) - STEP.half();
        let y = from.y.max(rest + Length::mm(1)).min(free);
        items.push(Item::line((from.x, from.y), (edge, from.y), THIN, QUIET));
        items.push(Item::line((edge, from.y), (column - Length::mm(1), y), THIN, QUIET));
        for (radius, ink) in [(700, WHITE), (450, INK)] {
            let path = super::flow::circle(*from, Length::micrometres(radius));
            items.push(Item::Shape { path, fill: Some(ink), line: None });
        }
        for (line, text) in (0..).zip(text) {
            items.push(SANS.write(column, y - STEP * line - DOWN, text.as_str()));
        }
        free = y - STEP * i64::try_from(text.len()).unwrap_or(1);
    }
    let mut depths: Vec<_> = section.depths.iter().collect();
    crate::order::sort_by_key(&mut depths, |depth| depth.to - depth.from);
    let end = depths.iter().map(|depth| to_paper(depth.to - bounds.x)).max().unwrap_or_default();
    for (index, depth) in (0..).zip(depths) {
        let y = below - STEP * index - STEP.half();
        let [from, to] = [depth.from, depth.to].map(|x| to_paper(x - bounds.x));
        items.push(Item::line((from, y), (to, y), THIN, INK));
        for x in [from, to] {
            items.push(Item::line(
                (x, below - Length::micrometres(500)),
                (x, y - Length::mm(1)),
                THIN,
                QUIET,
            ));
            items.push(tick(Point::new(x, y), INK));
        }
        items.push(SANS.write(end + Length::mm(3), y - DOWN, typeset(&depth.text)));
    }
    (items, top, scale)
}

/// The oblique stroke at the end of a dimension line.
pub(super) fn tick(at: Point, ink: Colour) -> Item {
    let reach = Length::micrometres(800);
    Item::line((at.x - reach, at.y - reach), (at.x + reach, at.y + reach), Length::micrometres(300), ink)
}

/// A part that is cut, in what it is made of.
fn cut(part: &CutPart, at: &impl Fn(Point) -> Point, items: &mut Vec<Item>) {
    let fill = match part.substance {
        Substance::Wall => Colour::hex(0xe9_e6_dd),
        Substance::Moulding(colour) | Substance::Mat(colour) => colour,
        Substance::Wood => Colour::hex(0xd2_b3_86),
        Substance::Glazing => Colour::hex(0xb4_d3_d6),
        Substance::Sheet => RED,
        Substance::Metal => Colour::hex(0xaa_b1_b6),
        Substance::Board(Material::Hardboard | Material::Mdf) => Colour::hex(0xb5_90_68),
        Substance::Board(_) => Colour::hex(0xf0_ea_da),
    };
    // Outlines of paper would be thicker than the paper.
    let line = match part.substance {
        Substance::Sheet | Substance::Wall => None,
        _ => Some((THIN, INK)),
    };
    let corners: Vec<Point> = part.corners.iter().map(|corner| at(*corner)).collect();
    let mut path: Vec<Step> = corners.iter().map(|corner| Step::Line(*corner)).collect();
    if let Some(first) = corners.first() {
        path[0] = Step::Move(*first);
    }
    path.push(Step::Close);
    items.push(Item::Shape { path, fill: Some(fill), line });
    if part.substance == Substance::Wall {
        hatch(&corners, items);
    }
}

/// Oblique lines over the wall, the sign of what is cut and goes on, and its face.
fn hatch(corners: &[Point], items: &mut Vec<Item>) {
    let bound = |pick: fn(&Point) -> Length| {
        (
            corners.iter().map(pick).min().unwrap_or_default(),
            corners.iter().map(pick).max().unwrap_or_default(),
        )
    };
    let ((left, right), (bottom, top)) = (bound(|corner| corner.x), bound(|corner| corner.y));
    let mut y = bottom - (right - left);
    while y < top {
        let (from, to) = (y.max(bottom), (y + right - left).min(top));
        if to > from {
            items.push(Item::line((left + from - y, from), (left + to - y, to), THIN.half(), QUIET));
        }
        y += Length::mm(2);
    }
    items.push(Item::line((right, bottom), (right, top), BOLD, INK));
}
