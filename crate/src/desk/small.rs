//! Small drawings: what a choice would make of the plan, to choose by.

use super::Desk;
use crate::draw::{Copy, Painter, Sheet};
use crate::figures::Figures;
use crate::plan::Plan;
use crate::scene::scene;
use crate::starts;

/// Lettering and the strip of floor are so much smaller than on the sheet itself.
const SMALLER: f32 = 0.4;

impl Desk {
    /// The room as a starting point would have it, without lines: sRGB, four bytes a pixel. `None` where that has no answer.
    #[must_use]
    pub fn small_start(&self, code: &str, sheet: &Sheet) -> Option<Vec<u8>> {
        self.small_room(&starts::begin(&self.plan, code).ok()?, sheet)
    }

    fn small_room(&self, plan: &Plan, sheet: &Sheet) -> Option<Vec<u8>> {
        let scene = scene(plan, &Figures::of(plan).ok()?);
        let copies: Vec<Option<&Copy>> =
            plan.pictures.iter().map(|picture| self.copies.get(&picture.name)).collect();
        let sheet = Sheet { pixel_ratio: sheet.pixel_ratio * SMALLER, lines: false, ..sheet.clone() };
        Some(Painter::default().draw(&scene, &copies, &sheet).pixels.to_vec())
    }
}
