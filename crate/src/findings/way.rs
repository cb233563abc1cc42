//! What is unwise about the place and the way there: public ways, sun, windows, doors, stairs, cars.

use super::context::{Context, length, on_pieces, set_length, words};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::field::{self, To};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::plan::{self, Canvas, Finish, Glazing, WAYS};
use crate::stock::thresholds::*;

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "in-the-way",
        about: About::Site,
        severity: Severity::Safety,
        authority: Authority::Standard("ADA 2010 Standards, 307.2; local rules come first"),
        words: "{piece} projects {depth} from the wall with its bottom edge {up} above the floor. In a public corridor, no more than {most} is allowed from {low} to {high}, where a cane does not detect it.",
        find: in_the_way,
    },
    Row {
        code: "in-the-sun",
        about: About::Site,
        severity: Severity::Disappoints,
        authority: Authority::Guidance("Library of Congress, preservation guidance"),
        words: "In direct sun every {what} fades, behind any glazing: hang it out of the sun.",
        find: in_the_sun,
    },
    Row {
        code: "window-in-the-glazing",
        about: About::Site,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The {glazing} reflects the window opposite; canvas and matt metal do not.",
        find: window_in_the_glazing,
    },
    Row {
        code: "door-too-narrow",
        about: About::Site,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "{piece} is {piece_size} and {depth} deep; upright it does not fit through a {way} of {way_size}. {tilted}.",
        find: |on| does_not_pass(on, 0),
    },
    Row {
        code: "stairs-too-narrow",
        about: About::Site,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "{piece} is {piece_size} and {depth} deep; upright it does not fit through a {way} of {way_size}. {tilted}.",
        find: |on| does_not_pass(on, 1),
    },
    Row {
        code: "car-too-small",
        about: About::Site,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "{piece} is {piece_size} and {depth} deep; upright it does not fit into a {way} with an opening of {way_size}. {tilted}.",
        find: |on| does_not_pass(on, 2),
    },
];

/// What limits a piece on a public corridor: its depth, and the heights of its lower edge from which and to which that counts.
pub(crate) const CORRIDOR: [&Usual; 3] = [&CORRIDOR_DEPTH, &CORRIDOR_LOW, &CORRIDOR_HIGH];

/// Whether a piece of a depth, with its lower edge so high, stands too far into a public corridor; the limits as in [`CORRIDOR`].
pub(crate) fn stands_in_the_way(depth: Length, foot: Length, [most, low, high]: [Length; 3]) -> bool {
    depth > most && foot > low && foot <= high
}

/// How far a piece may stand into a public corridor: not more than 4 in while its lower edge is above 27 in and not above 80 in.
fn in_the_way(on: &Context<'_>) -> Vec<Case> {
    if !on.plan.site.is_public_way {
        return Vec::new();
    }
    let limits = CORRIDOR.map(|usual| on.limit(usual));
    let [most, low, high] = limits;
    let found = on.pieces().find_map(|(piece, _, sizes)| {
        let foot = on.figures.arranged.outsides[piece].y;
        let depth = sizes.depth + on.figures.hanging[piece].off_wall;
        stands_in_the_way(depth, foot, limits).then_some((piece, depth, foot))
    });
    let Some((piece, depth, foot)) = found else { return Vec::new() };
    vec![
        Case::of([
            words(on.one(piece)),
            length(depth),
            length(foot),
            length(most),
            length(low),
            length(high),
        ])
        .mend(
            ["Hang it with its bottom edge at ", &on.text(low)].concat(),
            [set_length(&field::GROUP_BOTTOM, low)],
        ),
    ]
}

fn in_the_sun(on: &Context<'_>) -> Vec<Case> {
    if !on.plan.site.has_sun {
        return Vec::new();
    }
    let what =
        if on.plan.pieces.iter().all(|piece| piece.finish.is_original()) { "painting" } else { "print" };
    vec![Case::of([words(what)])]
}

fn window_in_the_glazing(on: &Context<'_>) -> Vec<Case> {
    if !on.plan.site.has_window_opposite {
        return Vec::new();
    }
    let glazed: Vec<(usize, Glazing)> = on
        .framed()
        .filter(|(_, framing, _)| !framing.coating.is_anti_reflective())
        .map(|(piece, framing, _)| (piece, framing.glazing))
        .filter(|(_, glazing)| *glazing != Glazing::None)
        .collect();
    let Some(&(_, first)) = glazed.first() else { return Vec::new() };
    let name = if matches!(first, Glazing::Acrylic(_)) { "acrylic" } else { "glass" };
    let pieces: Vec<usize> = glazed.iter().map(|entry| entry.0).collect();
    let printed: Vec<usize> = pieces
        .iter()
        .copied()
        .filter(|&piece| matches!(on.plan.pieces[piece].finish, Finish::Paper(_)))
        .collect();
    let coated = glazed.iter().flat_map(|&(piece, _)| {
        let coating = on.plan.pieces[piece].finish.framing().map(|framing| framing.coating);
        let coating = coating.unwrap_or_default().without_reflections();
        on_pieces(&[piece], &plan::GLAZING_COATING, To::choice(coating))
    });
    let how = ["Choose anti-reflective ", name].concat();
    let case = Case::of([words(name)]).mend(how, coated.collect::<Vec<_>>());
    if printed.len() == pieces.len() {
        return vec![case.mend(
            "Print it on canvas",
            on_pieces(&pieces, &plan::PIECE_MATERIAL, To::one_of(&Finish::Canvas(Canvas::default()))),
        )];
    }
    vec![case.mend("Leave out the glazing", on_pieces(&pieces, &plan::GLAZING, To::one_of(&Glazing::None)))]
}

/// A flat thing passes an opening upright when its shorter side goes up into it and its depth across; tilted, that side may be as
/// long as the diagonal, less what the depth takes.
fn does_not_pass(on: &Context<'_>, way: usize) -> Vec<Case> {
    let Some(opening) = on.plan.site.ways[way] else { return Vec::new() };
    let (high, narrow) = (opening.width.max(opening.height), opening.width.min(opening.height));
    let found = on.pieces().find(|(_, _, sizes)| {
        let Size { width, height } = sizes.outside;
        width.min(height) > high || sizes.depth > narrow
    });
    let Some((piece, _, sizes)) = found else { return Vec::new() };
    let short = sizes.outside.width.min(sizes.outside.height);
    let square = |length: Length| i128::from(length.units()).pow(2);
    let is_within_diagonal = square(short) <= square(high) + square(narrow) && sizes.depth <= narrow;
    let tilted =
        if is_within_diagonal { "Tilted, it may: measure first" } else { "Tilted, it does not either" };
    let case = Case::of([
        words(on.one(piece)),
        Value::Size(sizes.outside),
        length(sizes.depth),
        words(WAYS[way]),
        Value::Size(opening),
        words(tilted),
    ]);
    let outside = Rect::new(Length::ZERO, Length::ZERO, sizes.outside).size;
    let less = outside.width.min(outside.height) - high;
    let image = on.plan.pieces[piece].image;
    let then = image.width.min(image.height) - less;
    if less <= Length::ZERO || then <= Length::ZERO {
        return vec![case];
    }
    let by = super::context::over(then, image.width.min(image.height));
    let size = on.size_of(image, by);
    let alike: Vec<usize> =
        on.pieces().filter(|(_, piece, _)| piece.image == image).map(|(piece, _, _)| piece).collect();
    vec![super::place::resized(on, case, &alike, size)]
}
