//! How pieces are made so that nothing grave is to be said of them: by the remedies of the findings themselves.

use super::Make;
use crate::described::Row;
use crate::field::{self, Edit};
use crate::fields;
use crate::figures::Figures;
use crate::findings::{Grave, findings};
use crate::plan::{self, Piece, Plan};
use crate::stock::Stock;

/// What may be made otherwise than the plan's own pieces are. Sizes, mats and materials are what a suggestion is about.
static OPEN: [&Row; 13] = [
    &plan::GLAZING,
    &plan::GLAZING_THICKNESS,
    &plan::SPACER,
    &plan::MOUNT,
    &plan::MOUNT_THICKNESS,
    &plan::BACKING_THICKNESS,
    &plan::MAT_THICKNESS,
    &plan::MAT_INNER,
    &plan::CANVAS_EDGE,
    &plan::CANVAS_DEPTH,
    &plan::FLOATER_DEPTH,
    &plan::ALUMINIUM_THICKNESS,
    &plan::ALUMINIUM_BACK,
];
/// The same of a frame, unless that is in hand already.
static OPEN_OF_FRAMES: [&Row; 5] = [
    &field::FRAME_PROFILE,
    &plan::FRAME_ALLOWANCE,
    &plan::FRAME_DEPTH,
    &plan::FRAME_RABBET_DEPTH,
    &plan::FRAME_RABBET_WIDTH,
];

/// One remedy may need another, such as a spacer a deeper rabbet.
const ROUNDS: usize = 5;

fn grave(plan: &Plan, stock: &Stock) -> Grave {
    let figures = Figures::of(plan);
    figures.map_or(Grave::ANYTHING, |figures| Grave::of_pieces(plan, &figures, stock))
}

/// The only piece of a plan, made otherwise so that less is grave; none where it can't be. The make-up stays.
pub(super) fn mended(alone: &Plan, stock: &Stock, is_frame_in_hand: bool) -> Option<Piece> {
    let is_open = |Edit { field, .. }: &Edit| {
        let is_it = |row: &&&Row| **row == field.row;
        OPEN.iter().any(|row| is_it(&row))
            || !is_frame_in_hand && OPEN_OF_FRAMES.iter().any(|row| is_it(&row))
    };
    let make = Make::of(alone);
    let own = grave(alone, stock).rank();
    let mut best = (own, alone.clone());
    let mut now = best.clone();
    for _ in 0..ROUNDS {
        if best.0 == 0 {
            break;
        }
        let Ok(figures) = Figures::of(&now.1) else { break };
        let found = findings(&now.1, &figures, stock);
        let grave_ones = found.iter().filter(|finding| Grave::code(finding.code) != Grave::NONE);
        let remedies = grave_ones.flat_map(|finding| &finding.remedies);
        let tried = remedies.filter(|remedy| remedy.edits.iter().all(is_open)).filter_map(|remedy| {
            let (plan, _) = fields::apply_all(&now.1, stock, &remedy.edits).ok()?;
            (Make::of(&plan) == make).then(|| (grave(&plan, stock).rank(), plan))
        });
        // As good at least: what one remedy brings another may take away.
        let Some(next) = tried.min_by_key(|tried| tried.0).filter(|next| next.0 <= now.0) else { break };
        if next.0 < best.0 {
            best = next.clone();
        }
        now = next;
    }
    (best.0 < own).then(|| best.1.pieces.swap_remove(0))
}
