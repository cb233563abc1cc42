//! The same wall on paper, on canvas and on aluminium, each with its price, its weight and its care.

use super::{Book, Price, priced};
use crate::field::Field;
use crate::fields;
use crate::figures::Figures;
use crate::length::Length;
use crate::making::things;
use crate::plan::{self, Finish, Plan};
use crate::stock::Stock;
use crate::weigh::Mass;

/// A way to make what hangs on a wall, beside others.
#[derive(Clone, Debug, PartialEq)]
pub struct PricedMaterial {
    /// What it is made of, as the plan's field says it.
    pub material: &'static str,
    /// Whether it is as the plan has it.
    pub is_plans_own: bool,
    /// What it costs.
    pub price: Price,
    /// What all of it weighs.
    pub mass: Mass,
    /// How far the deepest piece stands off the wall.
    pub depth: Length,
    /// What it asks of whoever has it.
    pub care: &'static str,
}

/// What each material asks for (common practice, no source).
const CARE: [(&str, &str); 3] = [
    ("paper", "keep it out of the sun and out of damp rooms; dust the glazing with a dry cloth"),
    (
        "canvas",
        "keep it away from heat and damp; dust it with a soft dry brush, and let nothing press on its face",
    ),
    ("aluminium", "wipe it with a soft damp cloth; its edges can cut, so pad them when you carry it"),
];

/// What a material asks of whoever has it.
#[must_use]
pub fn care_of(material: &str) -> Option<&'static str> {
    let of_original = ("original", "keep it out of the sun, heat and damp; ask the painter how to clean it");
    CARE.iter().chain([&of_original]).find(|row| row.0 == material).map(|row| row.1)
}

/// The same wall on paper, on canvas and on aluminium: as the plan has it, and the others as they usually are made. What has no answer
/// is left out.
#[must_use]
pub fn compared(plan: &Plan, stock: &Stock, book: &Book) -> Vec<PricedMaterial> {
    let own = |material: &str| {
        plan.pieces.iter().all(|piece| match &piece.finish {
            Finish::Paper(_) => material == "paper",
            Finish::Canvas(_) => material == "canvas",
            Finish::Aluminium(_) => material == "aluminium",
            Finish::Original(_) => false,
        })
    };
    let choice = |(material, care): (&'static str, &'static str)| {
        let made = fields::write(plan, stock, Field::pieces(&plan::PIECE_MATERIAL), material).ok()?;
        let figures = Figures::of(&made).ok()?;
        let masses = things(&made, &figures, stock).into_iter().map(|thing| thing.mass);
        Some(PricedMaterial {
            material,
            is_plans_own: own(material),
            price: priced(&made, &figures, stock, book),
            mass: masses.sum(),
            depth: figures.build_ups.iter().map(|sizes| sizes.depth).max().unwrap_or_default(),
            care,
        })
    };
    CARE.into_iter().filter_map(choice).collect()
}
