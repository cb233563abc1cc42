//! How what is suggested hangs: as the plan has it, where that is safe; otherwise by what is.

use crate::figures::Figures;
use crate::findings::Grave;
use crate::plan::{Fixing, Hanger, HangerPlace, Plan, RATINGS};
use crate::stock::Stock;

/// Two rings where each piece holds them.
pub(super) const RINGS: Fixing = usual(Hanger::Rings);

const fn usual(hanger: Hanger) -> Fixing {
    Fixing { hanger, from_sides: HangerPlace::Usual, down: HangerPlace::Usual }
}
/// The most that a fixing is rated for, in pounds.
pub(super) const STRONGEST: u16 = RATINGS[RATINGS.len() - 1];

/// What other fixings take away.
const OF_FIXINGS: [&str; 11] = [
    "flat-wire",
    "wire-bends-the-sides",
    "one-hook",
    "weak-fixing",
    "wire-where-it-shakes",
    "hooks-in-one-place",
    "rings-in-nothing",
    "hanger-overloaded",
    "too-shallow-for-the-hanger",
    "hanger-not-in-stock",
    "hook-off-the-wall",
];

/// The plan with fixings of which nothing grave is to be said: its own, or two rings, or a cleat, each with a higher rating where that
/// is needed; where none of them will do, two rings of the highest.
pub(super) fn well(plan: Plan, stock: &Stock) -> Plan {
    let of_fixings = OF_FIXINGS.iter().fold(Grave::NONE, |codes, code| codes.and(Grave::code(code)));
    let is_safe = |plan: &Plan| {
        let figures = Figures::of(plan);
        figures.is_ok_and(|figures| Grave::of(plan, &figures, stock).common(of_fixings) == Grave::NONE)
    };
    if is_safe(&plan) {
        return plan;
    }
    let mut hung = Plan { fixing: RINGS, ..plan };
    let stated = hung.site.rated_pounds;
    let higher = RATINGS.iter().copied().filter(|rating| stated.is_some_and(|stated| *rating > stated));
    let ratings: Vec<Option<u16>> = std::iter::once(stated).chain(higher.map(Some)).collect();
    for fixing in [RINGS, usual(Hanger::Cleat)] {
        hung.fixing = fixing;
        for &rating in &ratings {
            hung.site.rated_pounds = rating;
            if is_safe(&hung) {
                return hung;
            }
        }
    }
    hung.fixing = RINGS;
    hung
}
