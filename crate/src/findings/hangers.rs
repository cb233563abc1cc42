//! What a hanger does not carry, or does not hold in.

use super::context::{Context, fine, set, words};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::field::{Edit, To};
use crate::hangers::{Against, against, ways};
use crate::making::Thing;
use crate::plan;
use crate::stock::thresholds::RATED_TIMES;

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "hanger-overloaded",
        about: About::Hanging,
        severity: Severity::Safety,
        authority: Authority::Practice,
        words: "{piece} may weigh {weight}. Hung like this, the largest {hanger} on sale can carry {carries}, with a safety margin of {times} times the load.",
        find: hanger_overloaded,
    },
    Row {
        code: "too-shallow-for-the-hanger",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Practice,
        words: "The wood at the back of {piece} is {depth} deep, and a {hanger} needs {least}: its screws would come through.",
        find: too_shallow,
    },
    Row {
        code: "hanger-not-in-stock",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "There is no {hanger} in the stock list, so what it carries is unknown. Add one to the list.",
        find: not_in_stock,
    },
];

/// The first thing that something speaks against, of what is asked for.
fn first<'l, T>(on: &'l Context<'_>, wanted: impl Fn(Against) -> Option<T>) -> Option<(&'l Thing, T)> {
    on.things().iter().find_map(|thing| {
        let hanging = &on.figures.hanging[thing.pieces[0]];
        let found = against(on.plan, on.figures, on.stock, thing, (on.plan.fixing.hanger, hanging));
        Some((thing, found.into_iter().find_map(&wanted)?))
    })
}

/// The case with the ways to hang the thing that nothing speaks against, the advised one first.
fn other_ways(on: &Context<'_>, thing: &Thing, case: Case) -> Case {
    let mut ways = ways(on.plan, on.figures, on.stock, thing);
    ways.retain(|way| way.against.is_empty());
    crate::order::sort_by_key(&mut ways, |way| !way.is_advised);
    ways.iter().take(2).fold(case, |case, way| {
        let mut edits: Vec<Edit> = vec![set(&plan::FIXING_KIND, To::key(way.key))];
        edits.extend(super::built::as_usual());
        case.mend(["Hang it by ", way.words].concat(), edits)
    })
}

fn hanger_overloaded(on: &Context<'_>) -> Vec<Case> {
    let times = on.number(&RATED_TIMES);
    let found = first(on, |against| match against {
        Against::TooHeavy { carries_mg } => Some(carries_mg),
        _ => None,
    });
    let Some((thing, carries_mg)) = found else { return Vec::new() };
    let weight = |mg| words(crate::measure::weight_alone(mg, on.plan.units.first));
    let case = Case::of([
        words(on.one(thing.pieces[0])),
        weight(thing.mass.most_mg),
        words(on.plan.fixing.hanger.noun()),
        weight(carries_mg),
        Value::Share(times),
    ]);
    vec![other_ways(on, thing, case)]
}

fn too_shallow(on: &Context<'_>) -> Vec<Case> {
    let found = first(on, |against| match against {
        Against::TooShallow { depth, least } => Some((depth, least)),
        _ => None,
    });
    let Some((thing, (depth, least))) = found else { return Vec::new() };
    // What has nothing at its back is told by another finding.
    if on.figures.build_ups[thing.pieces[0]].holds.is_empty() {
        return Vec::new();
    }
    let hanger = on.plan.fixing.hanger;
    let case = Case::of([words(on.one(thing.pieces[0])), fine(depth), words(hanger.noun()), fine(least)]);
    vec![other_ways(on, thing, case)]
}

fn not_in_stock(on: &Context<'_>) -> Vec<Case> {
    let Some((thing, ())) = first(on, |against| (against == Against::NotInStock).then_some(())) else {
        return Vec::new();
    };
    vec![other_ways(on, thing, Case::of([words(on.plan.fixing.hanger.noun())]))]
}
