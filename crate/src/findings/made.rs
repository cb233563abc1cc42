//! What is unwise about sizes as they are stated, and about pieces beside each other.

use super::context::{Context, image, length, on_pieces, set, set_length, words};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::asked::{Doubt, Ordered, doubts, in_hand};
use crate::colour::Colour;
use crate::described::Choosable;
use crate::field::{self, Edit, Field, To, Whose};
use crate::figures::Figures;
use crate::fit::systems::{SystemNote, near_misses};
use crate::framing::inverse::Rails;
use crate::geometry::Size;
use crate::length::Length;
use crate::measure::{Grade, shown, shown_size};
use crate::plan::{self, Edge, Finish, Frame, Framing, GroupUp, Measured, OpeningRule, System, Units};
use crate::rounding::Mode;
use crate::stock::StandardSize;
use crate::stock::thresholds::*;

/// Acrylic grows by so many millionths of its length for each kelvin (a maker's technical sheet: 0.07 to 0.08 mm to the metre).
pub const ACRYLIC_PER_KELVIN: i64 = 70;
/// A room warms by so much at most: 20 K (from memory).
pub const WARMING_KELVIN: i64 = 20;

/// By how much acrylic of this length grows when it warms by so many kelvin, to the nearest unit; moisture adds to that.
///
/// ```
/// use overmantel::{findings::acrylic_growth, length::Length};
/// assert_eq!(acrylic_growth(Length::mm(1000), 10), Length::micrometres(700), "1000 × 70 × 10 / 1 000 000");
/// ```
#[must_use]
pub fn acrylic_growth(length: Length, kelvin: i64) -> Length {
    let units = i128::from(length.units()) * i128::from(ACRYLIC_PER_KELVIN) * i128::from(kelvin);
    Length::from_ratio(units, 1_000_000, Mode::HalfAway)
}

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "size-in-both-systems",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "A {what} of {inches} is sold, and so is one of {centimetres}: state the unit when you order.",
        find: |on| systems(on, true),
    },
    Row {
        code: "size-in-the-wrong-system",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The {what} is {stated}; {other} is a standard size, and maybe you meant that.",
        find: |on| systems(on, false),
    },
    Row {
        code: "nearly-a-size-on-offer",
        about: About::Fit,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "A size of {size} does not fit the frame you already have: it is {by}.",
        find: nearly_a_size,
    },
    Row {
        code: "nominal-for-outside",
        about: About::Fit,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The frame you already have is {stated} {measured}, but that is {what} a frame sold as {listed}: measure it again.",
        find: nominal_for_outside,
    },
    Row {
        code: "edges-shown-twice",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "Wrapped edges {depth} deep on both sides of a gap of {gap} show part of the picture twice; choose a mirrored wrap, or widen the gap to {wide}.",
        find: split_edges,
    },
    Row {
        code: "unlike-in-one-frame",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Sizes,
        words: "The pieces state different frames; when they share one, the first piece's frame is used.",
        find: unlike_in_one_frame,
    },
    Row {
        code: "frames-do-not-match",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The frame of {piece} differs from the first; a set looks best in matching frames.",
        find: frames_do_not_match,
    },
    Row {
        code: "nearly-alike",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "{piece} is {size} outside and the first is {first}: such a small difference looks like a mistake.",
        find: nearly_alike,
    },
];

fn both_ways(size: Size) -> String {
    let plain = |system: System| crate::measure::size(size, Grade::Piece, system).text;
    [&plain(System::Inches), " (", &plain(System::Centimetres), ")"].concat()
}

/// Sizes that may have been meant in the other system of units.
fn systems(on: &Context<'_>, is_sold_in_both: bool) -> Vec<Case> {
    let plain = |size: Size, system: System| words(crate::measure::size(size, Grade::Piece, system).text);
    let mut found = Vec::new();
    for doubt in doubts(on.plan, on.stock).into_iter().filter(|doubt| !is_absurd(on, doubt)) {
        let about = if *doubt.field.row == plan::IN_HAND_SIZE { About::Fit } else { About::Made };
        let case = match doubt.note {
            SystemNote::BothSystems { inches, centimetres } if is_sold_in_both => Case::of([
                words(doubt.what),
                plain(inches, System::Inches),
                plain(centimetres, System::Centimetres),
            ]),
            SystemNote::LooksLikeOther { stated, other } if !is_sold_in_both => {
                let how = ["It is ", &on.size_text(other)].concat();
                // All that are stated so are meant so.
                let settings: Vec<Edit> = match doubt.what {
                    "print" => on
                        .pieces()
                        .filter(|(_, piece, _)| piece.image == stated)
                        .map(|(piece, _, _)| image(piece, other))
                        .collect(),
                    _ => vec![set(doubt.field, To::Size(other))],
                };
                Case::of([words(doubt.what), words(both_ways(stated)), words(both_ways(other))])
                    .mend(how, settings)
            }
            _ => continue,
        };
        found.push(case.about(about).on(&doubt.field.to_string()));
    }
    found
}

/// The least share of what it hangs above, or without that of the wall, that a group may have meant to fill: our own choice, no source.
const LEAST_MEANT: (i128, i128) = (1, 6);

/// Whether nobody can have meant a print in the other system here: hung so, with all that are stated so, the group would not go on the
/// wall, or would be lost on it.
fn is_absurd(on: &Context<'_>, doubt: &Doubt) -> bool {
    let Field { row, of: Whose::Piece(piece) } = doubt.field else { return false };
    let Some(stated) =
        on.plan.pieces.get(piece).map(|piece| piece.image).filter(|_| *row == plan::PIECE_IMAGE)
    else {
        return false;
    };
    let other = match doubt.note {
        SystemNote::LooksLikeOther { other, .. } => other,
        SystemNote::BothSystems { inches, centimetres } if inches == stated => centimetres,
        SystemNote::BothSystems { inches, .. } => inches,
    };
    let alike = || on.pieces().filter(|(_, piece, _)| piece.image == stated).map(|(piece, ..)| piece);
    let meant = alike().fold(on.plan.clone(), |mut plan, piece| {
        plan.pieces[piece].image = other;
        plan
    });
    let Ok(figures) = Figures::of(&meant) else { return true };
    let (group, wall) = (figures.arranged.group, on.plan.wall.size);
    let below = match on.plan.group.up {
        GroupUp::Above { fixture, .. } => on.plan.fixtures.get(fixture).map(|below| below.size.width),
        _ => None,
    };
    let (least, most) = LEAST_MEANT;
    let room = i128::from(below.unwrap_or(wall.width).units());
    group.size.width > wall.width
        || group.size.height > wall.height
        || i128::from(group.size.width.units()) * most < room * least
}

/// A frame in hand that is nearly, but not quite, of a size on offer: what is of that size does not go in.
fn nearly_a_size(on: &Context<'_>) -> Vec<Case> {
    let Some(Ok(order)) = in_hand(on.plan, on.figures, 0) else { return Vec::new() };
    let misses = near_misses(order.nominal, &on.stock.sizes);
    let missed = || misses.iter().filter(|miss| !miss.goes_in());
    // Of two sizes as near as that, the one of the plan's own system is the one that was meant.
    let own = missed().find(|miss| miss.listed.listed.system == on.plan.units.first);
    let Some(miss) = own.or(missed().next()) else { return Vec::new() };
    let over = |by: Length, how: &str| {
        (by > Length::ZERO).then(|| [&shown(by, Grade::Fine, on.plan.units), how].concat())
    };
    let by: Vec<String> =
        over(miss.wider, " wider").into_iter().chain(over(miss.higher, " higher")).collect();
    vec![Case::of([words(sold_as(on, miss.listed.listed)), words(by.join(" and "))]).mend(
        "Order a print for it, to the edge",
        [set(Field::pieces(&field::OFFER_IN_HAND), To::Text(Ordered::ToTheEdge.key().to_owned()))],
    )]
}

/// A size on offer as the plan's units have it; one of the other system with its name behind that.
fn sold_as(on: &Context<'_>, row: &StandardSize) -> String {
    if row.system == on.plan.units.first {
        return row.name.clone();
    }
    let own = Units { both: false, ..on.plan.units };
    [&shown_size(row.size, own), " (", &row.name, ")"].concat()
}

/// A frame in hand whose measure is a size that frames are sold as, but by its outside; or the other way round.
fn nominal_for_outside(on: &Context<'_>) -> Vec<Case> {
    let Some(stated) = on.plan.in_hand else { return Vec::new() };
    let listed = |size: Size| {
        let turned = Size::new(size.height, size.width);
        let rows = || on.stock.sizes.iter();
        let is_it = |row: &&StandardSize| row.is_frame && (row.size == size || row.size == turned);
        rows().filter(|row| row.system == on.plan.units.first).find(is_it).or(rows().find(is_it))
    };
    let rails = Rails::from(&stated);
    let (row, how, what, measured) = match stated.measured {
        Measured::Outside => (listed(stated.size), "by its outside", "what goes into", Measured::Glass),
        Measured::Glass if listed(stated.size).is_none() => {
            let inside = rails.nominal_of_outside(stated.size).ok();
            (inside.and_then(listed), "by its glass", "the outside of", Measured::Outside)
        }
        _ => return Vec::new(),
    };
    let Some(row) = row else { return Vec::new() };
    vec![Case::of([Value::Size(stated.size), words(how), words(what), words(sold_as(on, row))]).mend(
        ["It was measured ", measured.entry().words].concat(),
        [set(&plan::IN_HAND_MEASURED, To::choice(measured))],
    )]
}

/// How deep the edges of a canvas are round which the picture goes.
fn wrapped(piece: &plan::Piece) -> Option<Length> {
    match &piece.finish {
        Finish::Canvas(canvas) if canvas.edge == Edge::Carried => Some(canvas.depth),
        _ => None,
    }
}

/// How deep the edges of a panel are that show, across a gap, what the next panel shows on its face.
pub(crate) fn shows_twice(panel: &plan::Piece, gap: Length) -> Option<Length> {
    wrapped(panel).filter(|depth| gap < *depth * 2)
}

/// One picture over canvases whose edges show what the next one shows on its face.
fn split_edges(on: &Context<'_>) -> Vec<Case> {
    if on.plan.split.is_none() || on.plan.pieces.len() < 2 {
        return Vec::new();
    }
    let gap = on.plan.group.gap;
    let shown_twice = on.plan.pieces.iter().filter_map(|piece| shows_twice(piece, gap));
    let Some(depth) = shown_twice.max() else { return Vec::new() };
    let wide = depth * 2;
    let pieces: Vec<usize> =
        (0..on.plan.pieces.len()).filter(|&piece| wrapped(&on.plan.pieces[piece]).is_some()).collect();
    vec![
        Case::of([depth, gap, wide].map(length))
            .mend(
                "Choose a mirrored wrap",
                on_pieces(&pieces, &plan::CANVAS_EDGE, To::one_of(&Edge::Mirrored)),
            )
            .mend(["Hang them ", &on.text(wide), " apart"].concat(), [set_length(&plan::GROUP_GAP, wide)])
            .mend(
                "Give them a solid edge",
                on_pieces(&pieces, &plan::CANVAS_EDGE, To::one_of(&Edge::Plain(Colour::default()))),
            ),
    ]
}

/// Pieces in one frame that state different frames: the first one's counts.
fn unlike_in_one_frame(on: &Context<'_>) -> Vec<Case> {
    if on.plan.shared.is_none() {
        return Vec::new();
    }
    let with_own_opening = |framing: &Framing| {
        let mut framing = framing.clone();
        if let Some(mat) = &mut framing.mat {
            mat.opening = OpeningRule::Overlap(Length::ZERO);
        }
        framing
    };
    let mut framings = on.framed().map(|(_, framing, _)| with_own_opening(framing));
    let first = framings.next();
    if framings.all(|other| Some(&other) == first.as_ref()) {
        return Vec::new();
    }
    vec![Case::of([])]
}

/// What a frame looks like, as fields take it.
fn look_of(frame: &Frame) -> [(&'static crate::described::Row, To); 4] {
    [
        (&plan::FRAME_FACE, To::Length(frame.face)),
        (&plan::FRAME_COLOUR, To::Colour(frame.colour)),
        (&plan::FRAME_SURFACE, To::choice(frame.surface)),
        (&plan::FRAME_SHAPE, To::choice(frame.shape)),
    ]
}

fn frames_do_not_match(on: &Context<'_>) -> Vec<Case> {
    if on.plan.shared.is_some() {
        return Vec::new();
    }
    let frames: Vec<(usize, &Frame)> =
        on.framed().filter_map(|(piece, framing, _)| Some((piece, framing.frame.as_ref()?))).collect();
    let Some(&(_, first)) = frames.first() else { return Vec::new() };
    let unlike = frames.iter().filter(|(_, frame)| look_of(frame) != look_of(first));
    let Some(&(piece, _)) = unlike.clone().next() else { return Vec::new() };
    let settings: Vec<Edit> = unlike
        .flat_map(|(piece, _)| {
            let lip = (&plan::FRAME_RABBET_WIDTH, To::Length(first.rabbet_width));
            look_of(first).into_iter().chain([lip]).map(|(row, to)| Edit::new(Field::piece(row, *piece), to))
        })
        .collect();
    let name = ["piece ", &(piece + 1).to_string()].concat();
    vec![Case::of([words(name)]).mend("Frame them all like the first", settings)]
}

/// Whether an outside differs from another, but by so little that it can't be meant.
pub(crate) fn is_nearly(outside: Size, first: Size, least: Length) -> bool {
    let is_near = |one: Length, other: Length| (one - other).abs() < least;
    outside != first && is_near(outside.width, first.width) && is_near(outside.height, first.height)
}

/// Pieces whose outsides differ by so little that it can't be meant.
fn nearly_alike(on: &Context<'_>) -> Vec<Case> {
    let least = on.limit(&NEARLY_ALIKE);
    let Some(first) = on.figures.build_ups.first().map(|sizes| sizes.outside) else { return Vec::new() };
    let near: Vec<(usize, Size)> = on
        .pieces()
        .map(|(piece, _, sizes)| (piece, sizes.outside))
        .filter(|(_, outside)| is_nearly(*outside, first, least))
        .collect();
    let Some(&(piece, outside)) = near.first() else { return Vec::new() };
    let settings: Vec<Edit> = near
        .iter()
        .flat_map(|(piece, _)| {
            [(&field::OUTSIDE_WIDTH, first.width), (&field::OUTSIDE_HEIGHT, first.height)]
                .map(|(side, length)| Edit::length(Field::piece(side, *piece), length))
        })
        .collect();
    vec![
        Case::of([words(on.one(piece)), Value::Size(outside), Value::Size(first)])
            .mend("Make them the same size", settings),
    ]
}
