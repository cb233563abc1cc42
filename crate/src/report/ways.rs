//! A report on the ways to hang a thing: what each carries, where its points are, and what is wrong with it.

use super::basic::*;
use crate::figures::Figures;
use crate::hangers::{Way, fixings, ways};
use crate::making::Thing;
use crate::plan::Plan;
use crate::stock::Stock;
use crate::weigh::in_kilograms;
use serde::Serialize;

/// A way to hang a thing, with its hangers at their usual places.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WayReport {
    /// Its key, as the field `fixing.kind` takes it.
    pub key: &'static str,
    /// What it is.
    pub name: &'static str,
    /// Where each ring, slot or row of teeth rests, or the wire; for a cleat, the ends of the batten on the wall. Empty where there is no space for it.
    pub hooks: Vec<PointReport>,
    /// How many fixings in the wall it needs.
    pub fixings: u32,
    /// From the top edge of the outside to the point of support; null where there is no space for it.
    pub drop: Option<Measure>,
    /// How far it holds the back off the wall; null as above.
    pub off_wall: Option<Measure>,
    /// The heaviest thing that the strongest hanger of this kind in the stock list carries here, with the safety margin of that list, such as `45.000 kg`, down to the gram; null where that is unknown.
    pub carries: Option<String>,
    /// What is wrong with it; empty when nothing is.
    pub against: Vec<String>,
    /// Whether it is the recommended one of those with nothing wrong.
    pub is_advised: bool,
}

pub(super) fn way_reports(plan: &Plan, figures: &Figures, stock: &Stock, thing: &Thing) -> Vec<WayReport> {
    ways(plan, figures, stock, thing).into_iter().map(|way| way_report(plan, way)).collect()
}

fn way_report(plan: &Plan, way: Way) -> WayReport {
    let Way { key, words, hanger, hanging, carries_mg, against, is_advised } = way;
    let hanging = hanging.as_ref();
    let hooks = hanging.map_or(&[][..], |hanging| &hanging.hooks);
    WayReport {
        key,
        name: words,
        hooks: hooks.iter().map(|&hook| point(hook, plan.wall.size)).collect(),
        fixings: hanging.map_or(0, |hanging| fixings(hanger, hanging, plan.units.first)),
        drop: hanging.map(|hanging| measure(hanging.drop)),
        off_wall: hanging.map(|hanging| measure(hanging.off_wall)),
        carries: carries_mg.map(|milligrams| in_kilograms(milligrams / 1000 * 1000, 3)),
        against: against.into_iter().map(|against| against.text(plan.units)).collect(),
        is_advised,
    }
}
