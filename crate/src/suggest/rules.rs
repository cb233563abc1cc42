//! What would be grave about a suggestion, told from a few numbers: the rules of the findings, without the whole plan.
//!
//! [`crate::findings::Grave`] has the last word on what is suggested; these rules only spare it the thousands that are not.

use super::offer::binding;
use crate::figures::Figures;
use crate::findings::{Grave, Zone, hung::is_above, made, way, zones};
use crate::geometry::{Rect, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::{FixtureKind, GroupUp, Piece, Plan};
use crate::print::Exact;
use crate::print::sharpness::{ACUITY, needed_ppi};
use crate::stock::{Stock, thresholds::*};

/// Findings about fixtures and a frame in hand as they were measured. What is suggested never reaches beyond the wall itself.
const OF_OTHERS: [&str; 4] =
    ["beyond-the-wall", "past-the-wall", "nearly-a-size-on-offer", "nominal-for-outside"];

/// The rules for the wall of a plan.
#[derive(Clone, Debug)]
pub(super) struct Rules {
    /// Pixels per inch below which a print is coarse, and below which it is so from where it is seen.
    least_ppi: [Exact; 2],
    few: [Grave; 2],
    crop: Grave,
    most_lost: Exact,
    /// What stands whatever hangs there.
    pub(super) given: Grave,
    /// What is about the room or a frame in hand, and not about what is suggested.
    pub(super) of_others: Grave,
    zones: Vec<Zone>,
    beds: Vec<Rect>,
    /// What is grave above a bed only.
    pub(super) above_bed: Grave,
    wider: Grave,
    nearly: (Grave, Length),
    twice: Grave,
    /// The limits of a public corridor, where it is one.
    corridor: Option<[Length; 3]>,
    in_the_way: Grave,
}

impl Rules {
    pub(super) fn of(plan: &Plan, figures: &Figures, stock: &Stock) -> Self {
        let of = |fixture: FixtureKind| {
            let rects = plan.fixtures.iter().zip(&figures.arranged.fixtures);
            rects.filter(move |(one, _)| one.kind == fixture).map(|(_, &rect)| rect).collect()
        };
        let number = |usual| {
            let (over, under) = stock.limit_number(usual);
            Exact::new(over.into(), under.into())
        };
        Self {
            least_ppi: [number(&COARSE_PPI), needed_ppi(plan.viewing.distance, ACUITY)],
            few: [Grave::code("few-pixels"), Grave::code("coarse-from-there")],
            crop: Grave::code("crop-loses-much"),
            most_lost: number(&CROP_LOSS),
            given: Grave::code("in-the-sun").when(plan.site.has_sun),
            of_others: OF_OTHERS.iter().fold(Grave::NONE, |codes, code| codes.and(Grave::code(code))),
            zones: zones(plan, figures),
            beds: of(FixtureKind::Bed),
            above_bed: Grave::code("glass-above-a-bed").and(Grave::code("heavy-above-a-bed")),
            wider: Grave::code("wider-than-furniture"),
            nearly: (Grave::code("nearly-alike"), stock.limit(&NEARLY_ALIKE)),
            twice: Grave::code("edges-shown-twice"),
            corridor: plan.site.is_public_way.then(|| way::CORRIDOR.map(|usual| stock.limit(usual))),
            in_the_way: Grave::code("in-the-way"),
        }
    }

    /// Of a piece: what its picture makes grave, filling its window, and what stands whatever hangs there. There may be more.
    pub(super) fn of_piece(&self, px: Option<(u32, u32)>, window: Size) -> Grave {
        let Some(px) = px else { return self.given };
        let [least, most] = binding(px, window).shapes;
        let is_much = (most - least) * self.most_lost.denom() > most * self.most_lost.numer();
        self.given.and(self.few_pixels(px, window)).and(self.crop.when(is_much))
    }

    /// Too few pixels per inch of a picture that fills a window.
    pub(super) fn few_pixels(&self, px: (u32, u32), window: Size) -> Grave {
        let bound = binding(px, window);
        let pixels = bound.pixels * i128::from(UNITS_PER_INCH);
        let is_below = |ppi: &Exact| pixels * ppi.denom() < bound.side * ppi.numer();
        let [few, from_there] = [0, 1].map(|at| self.few[at].when(is_below(&self.least_ppi[at])));
        few.and(from_there)
    }

    /// Of a group: that it is wider than what it hangs above, and that its pieces are of nearly one size.
    pub(super) fn of_sizes(&self, above: Option<Length>, group: Size, outsides: &[Size]) -> Grave {
        let (nearly, least) = self.nearly;
        let is_nearly = |outside: &Size| made::is_nearly(*outside, outsides[0], least);
        let wider = self.wider.when(above.is_some_and(|below| group.width > below));
        wider.and(nearly.when(outsides.iter().any(is_nearly)))
    }

    /// Of panels of one picture: that their edges show a part of it twice.
    pub(super) fn of_panels(&self, panel: &Piece, gap: Length) -> Grave {
        self.twice.when(made::shows_twice(panel, gap).is_some())
    }

    /// Whether it matters where the pieces of a group are.
    pub(super) fn ask_for_places(&self, group: Rect) -> bool {
        self.corridor.is_some()
            || !self.beds.is_empty()
            || self.zones.iter().any(|zone| zone.rect.common(group).is_some())
    }

    /// Of a piece where it hangs: of what is grave about the piece, what is so there, and what the place adds.
    pub(super) fn of_place(&self, piece: Grave, depth: Length, outside: Rect) -> Grave {
        let is_above_bed = self.beds.iter().any(|&bed| is_above(outside, bed));
        let stands = self.corridor.is_some_and(|limits| way::stands_in_the_way(depth, outside.y, limits));
        let own = piece.common(self.above_bed).when(is_above_bed).and(self.in_the_way.when(stands));
        let zones = self.zones.iter().filter(|zone| zone.rect.common(outside).is_some());
        zones.fold(own, |grave, zone| grave.and(zone.grave))
    }

    /// Parts of the wall that a group had better leave free.
    pub(super) fn zones(&self) -> impl Iterator<Item = Rect> {
        self.zones.iter().map(|zone| zone.rect)
    }
}

/// The width of what a group hangs above by the plan, where it is furniture.
pub(super) fn hung_above(plan: &Plan, up: GroupUp) -> Option<Length> {
    let GroupUp::Above { fixture, .. } = up else { return None };
    let below = plan.fixtures.get(fixture)?;
    (below.is_hung_above() && below.kind != FixtureKind::Stairs).then_some(below.size.width)
}

/// The plan that stands for a single piece when that is judged: hung from the strongest fixings, and above a bed if there is one.
pub(super) fn judged(plan: &Plan) -> Plan {
    let bed = plan.fixtures.iter().position(|fixture| fixture.kind == FixtureKind::Bed);
    let mut judged = super::offer::alone(plan, Piece::starting());
    judged.pictures.clear();
    judged.fixing = super::hung::RINGS;
    judged.site.rated_pounds = plan.site.rated_pounds.map(|_| super::hung::STRONGEST);
    if let Some(fixture) = bed {
        judged.group.across = crate::plan::GroupAcross::FixtureMiddle(fixture);
        judged.group.up = GroupUp::Above { fixture, clearance: Length::ZERO };
    }
    judged
}
