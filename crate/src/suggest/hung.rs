//! How what is suggested hangs: as the plan has it, where that is safe; otherwise by what is.

use crate::figures::Figures;
use crate::findings::Grave;
use crate::plan::{Fixing, Plan, RATINGS, RingPlace};
use crate::stock::Stock;

/// Two rings where each piece holds them.
pub(super) const RINGS: Fixing = Fixing::Rings { from_sides: RingPlace::Usual, down: RingPlace::Usual };
/// The most that a fixing is rated for, in pounds.
pub(super) const STRONGEST: u16 = RATINGS[RATINGS.len() - 1];

/// What other fixings take away.
const OF_FIXINGS: [&str; 6] = [
    "flat-wire",
    "one-hook",
    "weak-fixing",
    "wire-where-it-shakes",
    "hooks-in-one-place",
    "rings-in-nothing",
];

/// The plan with fixings of which nothing grave is to be said: its own, or two rings, or two rings of a higher rating; where none of
/// them will do, the last.
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
    for rating in stated.into_iter().chain(higher).map(Some) {
        hung.site.rated_pounds = rating;
        if is_safe(&hung) {
            break;
        }
    }
    hung
}
