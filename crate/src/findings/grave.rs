//! What is grave about a plan, by its codes alone: for whoever compares many plans and shows few.

use super::{Context, Row, Severity, place, rows};
use crate::figures::Figures;
use crate::geometry::Rect;
use crate::plan::Plan;
use crate::stock::Stock;

/// A set of codes of findings that matter more than taste.
///
/// ```
/// use overmantel::{figures::Figures, findings::Grave, plan::Plan, stock::Stock};
/// let mut plan = Plan::starting();
/// let grave = |plan: &Plan| Grave::of(plan, &Figures::of(plan).unwrap(), &Stock::offered());
/// assert_eq!(grave(&plan), Grave::NONE);
/// plan.site.has_earthquakes = true;
/// assert_eq!(grave(&plan), Grave::code("glass-where-it-shakes"));
/// assert_eq!(grave(&plan).rank(), Grave::SAFETY);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Grave(u128);

impl Grave {
    /// None of them.
    pub const NONE: Self = Self(0);
    /// All of them.
    pub(crate) const ANYTHING: Self = Self(u128::MAX);
    /// What one that is for your safety counts in a [rank](Self::rank): more than all that will disappoint together.
    pub const SAFETY: u32 = 1 << 8;
    /// What one that cannot be made counts in a rank: more than all others together.
    pub const CANNOT: u32 = 1 << 16;

    /// What is grave about a plan that is made from a stock: the codes of [`super::findings`] that are no matter of taste.
    #[must_use]
    pub fn of(plan: &Plan, figures: &Figures, stock: &Stock) -> Self {
        Self::found(plan, figures, stock, |_| true)
    }

    /// What is grave about the pieces of a plan themselves, wherever they hang; what is only so above a bed is among it when
    /// they hang above one.
    pub(crate) fn of_pieces(plan: &Plan, figures: &Figures, stock: &Stock) -> Self {
        let is_of_place =
            |row: &Row| OF_PLACE.contains(&row.code) || place::ROWS.iter().any(|one| one.code == row.code);
        Self::found(plan, figures, stock, |row| !is_of_place(row))
    }

    fn found(plan: &Plan, figures: &Figures, stock: &Stock, asked: impl Fn(&Row) -> bool) -> Self {
        let context = Context::at(plan, figures, stock);
        let found = places().filter(|(row, _)| asked(row) && !(row.find)(&context).is_empty());
        Self(found.fold(0, |codes, (_, place)| codes | place))
    }

    /// The set of one code; none where there is no such finding, or it is a matter of taste.
    #[must_use]
    pub fn code(code: &str) -> Self {
        Self(places().find(|(row, _)| row.code == code).map_or(0, |(_, place)| place))
    }

    /// How bad it is, the fewer the better: first how many of the codes cannot be made, then how many are for your safety, then
    /// how many will disappoint.
    #[must_use]
    pub const fn rank(self) -> u32 {
        if self.0 == 0 {
            return 0;
        }
        let [disappoints, safety, cannot] = FIRST;
        self.count(cannot, 127) * Self::CANNOT
            + self.count(safety, cannot) * Self::SAFETY
            + self.count(disappoints, safety)
    }

    const fn count(self, from: u32, to: u32) -> u32 {
        (self.0 >> from & ((1 << (to - from)) - 1)).count_ones()
    }

    /// Both together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// What is not in another.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// What is in another as well.
    #[must_use]
    pub const fn common(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// This, where something is so.
    pub(crate) const fn when(self, is_so: bool) -> Self {
        if is_so { self } else { Self::NONE }
    }
}

/// What depends on where a piece hangs, though it is told among what it is.
const OF_PLACE: [&str; 3] = ["in-the-way", "over-an-opening", "hook-off-the-wall"];

/// Where the places begin of what will disappoint, of what is for your safety and of what cannot be made.
const FIRST: [u32; 3] = [0, 64, 96];

/// The rows that are no matter of taste, each with its place in a set.
fn places() -> impl Iterator<Item = (&'static Row, u128)> {
    let mut next = FIRST;
    let of = move |row: &'static Row| {
        let kind = match row.severity {
            Severity::Taste => return None,
            Severity::Disappoints => 0,
            Severity::Safety => 1,
            Severity::CannotBeMade => 2,
        };
        next[kind] += 1;
        Some((row, 1 << (next[kind] - 1)))
    };
    rows().filter_map(of)
}

/// A part of the wall in which a piece has a finding that is grave.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Zone {
    pub(crate) rect: Rect,
    pub(crate) grave: Grave,
}

/// Where a door opens over the wall, and where the air of a radiator rises.
pub(crate) fn zones(plan: &Plan, figures: &Figures) -> Vec<Zone> {
    let (swing, warm) = (Grave::code("door-swing"), Grave::code("above-a-radiator"));
    let fixtures = plan.fixtures.iter().zip(&figures.arranged.fixtures);
    let found = fixtures.flat_map(|(fixture, &rect)| {
        let swept = place::swept(fixture, rect).map(|rect| Zone { rect, grave: swing });
        let risen =
            place::warm_air(fixture, rect, plan.wall.size.height).map(|rect| Zone { rect, grave: warm });
        swept.into_iter().chain(risen)
    });
    found.collect()
}
