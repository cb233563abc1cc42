//! What is unwise about how pieces hang: wires, hooks, weights.

use super::context::{Context, length, on_pieces, set, set_length, words};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::field::To;
use crate::geometry::{Rect, Size};
use crate::hang::Wire;
use crate::hangers::{self, NeededRating};
use crate::length::Length;
use crate::making::Thing;
use crate::plan::{self, Built, FixtureKind, Glazing, Hanger};
use crate::print::Exact;
use crate::rounding::Mode;
use crate::stock::thresholds::*;
use crate::weigh::Mass;

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "wire-in-sight",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "Pulled tight, the wire is {drop} {side} the top edge; {least} or more below it keeps the hook out of sight.",
        find: wire_in_sight,
    },
    Row {
        code: "flat-wire",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "The wire rises by only {degrees}°, so it is pulled by {pull} times the weight; at more than {most} times it wears the rings and bends the frame.",
        find: flat_wire,
    },
    Row {
        code: "one-hook",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "{piece} is {width} wide and weighs about {weight}; above {wide} or {heavy} kg it needs two points to hang from.",
        find: one_hook,
    },
    Row {
        code: "weak-fixing",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "{piece} may weigh {weight} on {hooks} rated for {rating}; they should be rated for {times} times the weight.",
        find: weak_fixing,
    },
    Row {
        code: "heavy-on-plasterboard",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "{piece} may weigh {weight}; hang anything above {most} kg from studs or masonry, not from plasterboard.",
        find: heavy_on_plasterboard,
    },
    Row {
        code: "glass-above-a-bed",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "{piece} hangs above the {bed} and has glass in it; acrylic and closed hooks are safer above people who sit or sleep there.",
        find: |on| above_a_bed(on, true),
    },
    Row {
        code: "heavy-above-a-bed",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "{piece} hangs above the {bed} and may weigh {weight}; hang anything above {most} kg somewhere else.",
        find: |on| above_a_bed(on, false),
    },
    Row {
        code: "wire-where-it-shakes",
        about: About::Site,
        severity: Severity::Safety,
        authority: Authority::Guidance("FEMA 528, Earthquake Home Hazard Hunt"),
        words: "In an earthquake {hanger} can come off; two rings on closed hooks hold.",
        find: comes_off_where_it_shakes,
    },
    Row {
        code: "glass-where-it-shakes",
        about: About::Site,
        severity: Severity::Safety,
        authority: Authority::Guidance("FEMA, Mount Framed Pictures and Mirrors Securely, 2008"),
        words: "In an earthquake glass can break above the people below; acrylic does not.",
        find: glass_where_it_shakes,
    },
    Row {
        code: "from-a-photograph",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The wall was measured in a photograph, and places on it may be off by {off}. Measure it by hand, or mark more in the photograph, before anything is bought or drilled.",
        find: from_a_photograph,
    },
];

fn wire_in_sight(on: &Context<'_>) -> Vec<Case> {
    let least = on.limit(&HIDDEN_WIRE);
    let wires = on.figures.hanging.iter().filter(|hung| hung.wire.is_some());
    let highest = wires.map(|hung| (hung.drop, hung.places.down)).min();
    let Some((drop, down)) = highest.filter(|(drop, _)| *drop < least) else { return Vec::new() };
    let lower = on.to_mark(down + least - drop, Mode::Up);
    let side = if drop < Length::ZERO { "above" } else { "below" };
    vec![
        Case::of([length(drop.abs()), words(side), length(least)])
            .mend(
                ["Set the rings ", &on.text(lower), " down"].concat(),
                [set_length(&plan::FIXING_DOWN, lower)],
            )
            .mend("Hang it by two rings", [set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS))]),
    ]
}

/// The wire that is pulled most, with its pull in weights of the piece; one that does not rise is pulled without end.
fn tautest<'l>(on: &'l Context<'_>) -> Option<(&'l Wire, Exact)> {
    let endless = Exact::from_integer(i64::MAX.into());
    let wires = on.figures.hanging.iter().filter_map(|hung| hung.wire.as_ref());
    let pulled = wires.map(|wire| (wire, wire.pull().unwrap_or(endless)));
    pulled.max_by(|one, other| one.1.cmp(&other.1))
}

fn flat_wire(on: &Context<'_>) -> Vec<Case> {
    let most = on.number(&WIRE_PULL);
    let Some((wire, pull)) = tautest(on).filter(|(_, pull)| *pull > most) else { return Vec::new() };
    let tenths = crate::rounding::nearest(wire.angle_degrees() * 10.0);
    let degrees = [&(tenths / 10).to_string(), ".", &(tenths % 10).to_string()].concat();
    let pull =
        if wire.rise > Length::ZERO { Value::Share(pull).shown(on.plan.units) } else { "countless".into() };
    let mut case = Case::of([words(degrees), words(pull), Value::Share(most)]);
    let down = on.figures.hanging.iter().map(|hung| hung.places.down).min().unwrap_or_default();
    if let Hanger::Wire { slack, .. } = on.plan.fixing.hanger {
        // Legs that rise by a quarter of their length, and a little more: r = run / √15, so that the slack is 2 run (4 / √15 - 1),
        // or 0.0656 of the spread; 0.08 of it gives a pull of 1.83.
        let run = on.figures.hanging.iter().filter_map(|hung| hung.wire).map(|wire| wire.leg_run).max();
        let run = run.unwrap_or_default();
        let longer = on.to_mark((run * 2).times_ratio(8, 100), Mode::Up).max(slack);
        // The wire then comes so much higher.
        let rise = crate::hang::rise(run * 2, run * 2 + longer, Length::ZERO);
        let lower = on.to_mark(rise + on.limit(&HIDDEN_WIRE), Mode::Up).max(down);
        let settings = [set_length(&plan::FIXING_SLACK, longer), set_length(&plan::FIXING_DOWN, lower)];
        case = case.mend(["Make the wire ", &on.text(longer), " longer than its span"].concat(), settings);
    }
    vec![case.mend("Hang it by two rings", [set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS))])]
}

/// What hangs, with the number of its first piece and its outside.
fn hung<'l>(on: &'l Context<'_>) -> impl Iterator<Item = (usize, &'l Thing, Size)> {
    on.things().iter().map(|thing| {
        let piece = thing.pieces[0];
        (piece, thing, on.figures.build_ups[piece].outside)
    })
}

fn grams(on: &Context<'_>, usual: &Usual) -> (Exact, Value) {
    let grams = on.number(usual);
    let kilograms = grams / 1000;
    let told =
        if kilograms.is_integer() { Value::Count(kilograms.to_integer()) } else { Value::Share(kilograms) };
    (grams, told)
}

fn mg(milligrams: i64) -> Exact {
    Exact::new(milligrams.into(), 1000)
}

fn most_of(mass: Mass, on: &Context<'_>) -> Value {
    words(crate::measure::weight_alone(mass.most_mg, on.plan.units.first))
}

fn one_hook(on: &Context<'_>) -> Vec<Case> {
    if on.figures.hanging.iter().any(|hung| hung.hooks.len() > 1) {
        return Vec::new();
    }
    let wide = on.limit(&WIDE_PIECE);
    let (heavy, told) = grams(on, &HEAVY_PIECE);
    let found = hung(on).find(|(_, thing, outside)| outside.width > wide || mg(thing.mass.likely_mg) > heavy);
    let Some((piece, thing, outside)) = found else { return Vec::new() };
    let weight = words(crate::measure::weight_alone(thing.mass.likely_mg, on.plan.units.first));
    // A third of the span of the narrowest (common practice, no source).
    let span = on.figures.hanging.iter().map(|hung| hung.span).min().unwrap_or_default();
    let apart = on.to_mark(span.times_ratio(1, 3), Mode::Down);
    let settings =
        [set(&plan::FIXING_KIND, To::key(plan::TWO_HOOKS)), set_length(&plan::FIXING_APART, apart)];
    let case = Case::of([words(on.one(piece)), length(outside.width), weight, length(wide), told])
        .mend("Hang it by two rings", [set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS))]);
    if on.plan.fixing.hanger == Hanger::Sawtooth {
        return vec![case];
    }
    vec![case.mend(["Put the wire over two hooks, ", &on.text(apart), " apart"].concat(), settings)]
}

fn weak_fixing(on: &Context<'_>) -> Vec<Case> {
    let Some(pounds) = on.plan.site.rated_pounds else { return Vec::new() };
    let heaviest = hung(on).max_by_key(|(_, thing, _)| thing.mass.most_mg);
    let Some((piece, thing, _)) = heaviest else { return Vec::new() };
    let hanger = on.plan.fixing.hanger;
    let count = hangers::fixings(hanger, &on.figures.hanging[piece], on.plan.units.first);
    let Some(needed) = NeededRating::of(on.stock, thing.mass.most_mg, count)
        .filter(|needed| needed.sold.is_none_or(|enough| enough > pounds))
    else {
        return Vec::new();
    };
    let rating = |pounds: u16| crate::measure::rating(pounds, on.plan.units.first);
    let rated = rating(pounds);
    let hooks = words([&count.to_string(), " ", hanger.at_wall(count > 1)].concat());
    let times = Value::Share(on.number(&RATED_TIMES));
    let case = Case::of([words(on.one(piece)), most_of(thing.mass, on), hooks, words(rated), times]);
    let case = match needed.sold {
        Some(enough) => {
            let how = ["Use fixings rated for ", &rating(enough)].concat();
            case.mend(how, [set(&plan::SITE_RATED, To::key(&enough.to_string()))])
        }
        None => case,
    };
    vec![case.mend("Hang it by two rings", [set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS))])]
}

fn heavy_on_plasterboard(on: &Context<'_>) -> Vec<Case> {
    if on.plan.site.built != Built::Plasterboard {
        return Vec::new();
    }
    let (most, told) = grams(on, &MOST_ON_BOARD);
    let Some((piece, thing, _)) = hung(on).find(|(_, thing, _)| mg(thing.mass.most_mg) > most) else {
        return Vec::new();
    };
    let all: Vec<usize> = (0..on.plan.pieces.len()).collect();
    vec![
        Case::of([words(on.one(piece)), most_of(thing.mass, on), told])
            .mend("Screw it to the studs", [set(&plan::SITE_WALL, To::choice(Built::Timber))])
            .mend(
                "Use acrylic",
                on_pieces(&all, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO))),
            ),
    ]
}

/// The pieces with glass in a frame.
fn with_glass(on: &Context<'_>) -> Vec<usize> {
    let glass = on.framed().filter(|(_, framing, _)| matches!(framing.glazing, Glazing::Glass(_)));
    glass.map(|(piece, _, _)| piece).collect()
}

/// Whether a piece hangs above a bed, so that it would fall on it.
pub(crate) fn is_above(outside: Rect, bed: Rect) -> bool {
    outside.x < bed.right() && bed.x < outside.right() && outside.top() > bed.top()
}

fn above_a_bed(on: &Context<'_>, is_glass: bool) -> Vec<Case> {
    let (most, told) = grams(on, &HEAVY_PIECE);
    let glass = with_glass(on);
    let beds = on.fixtures().filter(|(_, fixture, _)| fixture.kind == FixtureKind::Bed);
    let found = beds.filter_map(|(_, fixture, bed)| {
        let above = hung(on).find(|(piece, thing, _)| {
            let outside = on.figures.arranged.outsides[*piece];
            let is_wrong = if is_glass {
                glass.iter().any(|piece| thing.pieces.contains(piece))
            } else {
                mg(thing.mass.most_mg) > most
            };
            is_above(outside, bed) && is_wrong
        });
        let (piece, thing, _) = above?;
        let names = [words(on.one(piece)), words(fixture.name.as_str())];
        if is_glass {
            let case = Case::of(names).on(&fixture.name);
            return Some(
                case.mend(
                    "Use acrylic",
                    on_pieces(&glass, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO))),
                )
                .mend("Leave out the glazing", on_pieces(&glass, &plan::GLAZING, To::one_of(&Glazing::None))),
            );
        }
        let [piece_name, bed_name] = names;
        let case = Case::of([piece_name, bed_name, most_of(thing.mass, on), told.clone()]);
        Some(case.on(&fixture.name).mend(
            "Use acrylic",
            on_pieces(&glass, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO))),
        ))
    });
    found.collect()
}

fn comes_off_where_it_shakes(on: &Context<'_>) -> Vec<Case> {
    let hanger = on.plan.fixing.hanger;
    if !on.plan.site.has_earthquakes || !hangers::comes_off(hanger) {
        return Vec::new();
    }
    let name = if hanger == Hanger::Sawtooth { "a sawtooth hanger" } else { "a wire" };
    vec![
        Case::of([words(name)])
            .mend("Hang it by two rings", [set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS))]),
    ]
}

fn glass_where_it_shakes(on: &Context<'_>) -> Vec<Case> {
    let glass = with_glass(on);
    if !on.plan.site.has_earthquakes || glass.is_empty() {
        return Vec::new();
    }
    vec![
        Case::of([]).mend(
            "Use acrylic",
            on_pieces(&glass, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO))),
        ),
    ]
}

/// What was measured in a photograph and may be off by more than a limit, or by more than a fiftieth of the group's width.
fn from_a_photograph(on: &Context<'_>) -> Vec<Case> {
    let Some(off) = on.plan.from_photograph else { return Vec::new() };
    let most = on.limit(&FROM_PHOTOGRAPH_WITHIN).min(on.figures.arranged.group.size.width.times_ratio(1, 50));
    if off <= most {
        return Vec::new();
    }
    vec![Case::of([length(off)])]
}
