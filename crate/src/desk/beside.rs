//! What a plan can be set beside with one press: what it was before, and the same in other materials.

use super::Desk;
use crate::described::OneOf;
use crate::field::Field;
use crate::fields;
use crate::plan::{self, Plan};

/// What may stand beside the plan at work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beside {
    /// What it is told by.
    pub key: &'static str,
    /// What it is called.
    pub words: &'static str,
    /// Whether it is what the plan at work was, and not what it could become.
    pub is_before: bool,
    /// The plan.
    pub plan: Plan,
}

/// The same plan made otherwise, by the key of its material.
const MATERIALS: [(&str, &str); 3] = [
    ("paper", "the same on paper, framed"),
    ("canvas", "the same on canvas"),
    ("aluminium", "the same on aluminium"),
];

/// A plan of the session that was made of something else, in the order of the materials.
const BEFORE: [&str; 4] =
    ["as it was on paper", "as it was on canvas", "as it was on aluminium", "as it was with the original"];

impl Desk {
    /// What may stand beside the plan at work, the likeliest first: as it was when it was last made of something else, before
    /// the last step and at the beginning of the session; and the same in other materials. None differs from the plan at work
    /// in its title and units alone.
    ///
    /// ```
    /// use overmantel::{desk::Desk, plan::Plan};
    /// let mut desk = Desk::new(Plan::starting()).unwrap();
    /// assert_eq!(desk.beside()[0].key, "canvas", "nothing was changed yet");
    /// desk.set(overmantel::field::Field::pieces(&overmantel::plan::PIECE_MATERIAL), "canvas").unwrap();
    /// assert_eq!(desk.beside()[0].words, "as it was on paper");
    /// ```
    #[must_use]
    pub fn beside(&self) -> Vec<Beside> {
        let mut found: Vec<Beside> = Vec::new();
        let mut add = |key, words, plan: Plan| {
            let is_before = MATERIALS.iter().all(|(material, _)| *material != key);
            let plan = Plan { title: self.plan.title.clone(), units: self.plan.units, ..plan };
            if plan != self.plan && found.iter().all(|known| known.plan != plan) {
                found.push(Beside { key, words, is_before, plan });
            }
        };
        let material = |plan: &Plan| plan.pieces.first().map_or(0, |piece| piece.finish.place());
        let otherwise = self.past.iter().rev().find(|step| material(&step.plan) != material(&self.plan));
        if let Some(step) = otherwise {
            add("made", BEFORE[material(&step.plan).min(3)], step.plan.clone());
        }
        if let Some(step) = self.past.last() {
            add("before", "before the last step", step.plan.clone());
        }
        if let Some(step) = self.past.first() {
            add("opened", "as it was at first", step.plan.clone());
        }
        for (key, words) in MATERIALS {
            if let Ok(plan) =
                fields::write(&self.plan, &self.stock, Field::pieces(&plan::PIECE_MATERIAL), key)
            {
                add(key, words, plan);
            }
        }
        found
    }
}
