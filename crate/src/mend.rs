//! Mending: remedies of findings, tried on the plan before they are offered.
//!
//! A remedy is offered when the plan with it has an answer, its finding is gone, and none has come that matters more; of
//! those, the ones that bring the fewest that matter as much. It is taken as any edit is.
//!
//! ```
//! use overmantel::{figures::Figures, length::Length, mend, plan::Plan, stock::Stock};
//! let (mut plan, stock) = (Plan::starting(), Stock::offered());
//! plan.group.gap = Length::inches(5);
//! let found = mend::findings(&plan, &Figures::of(&plan).unwrap(), &stock);
//! let gap = found.iter().find(|finding| finding.code == "gap").unwrap();
//! let mended = mend::taken(&plan, &stock, &gap.remedies[0].id).unwrap();
//! assert_eq!(mended.group.gap, Length::inches(4));
//! ```

use crate::field::Edit;
use crate::fields::{self, FieldError};
use crate::figures::Figures;
use crate::findings::{Finding, Remedy, Severity};
use crate::plan::{PIECE_IMAGE, Plan};
use crate::quoted::short;
use crate::stock::Stock;
use std::fmt;

/// How many remedies of a finding are offered at most.
pub const MOST: usize = 3;

/// Looks a plan over that is made from a stock, with the remedies that hold; what matters most stands first.
#[must_use]
pub fn findings(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<Finding> {
    let untried = crate::findings::findings(plan, figures, stock);
    let mut found = untried.clone();
    for (finding, of) in found.iter_mut().zip(&untried) {
        let tried = of
            .remedies
            .iter()
            .filter_map(|remedy| Some((brings(plan, stock, remedy, of, &untried)?, remedy)));
        let holding: Vec<(usize, &Remedy)> = tried.collect();
        let fewest = holding.iter().map(|tried| tried.0).min();
        let best = holding.into_iter().filter(|tried| Some(tried.0) == fewest).take(MOST);
        finding.remedies = best.map(|(_, remedy)| remedy.clone()).collect();
    }
    let worst_first = Severity::ALL.into_iter().rev();
    worst_first.flat_map(|of| found.iter().filter(move |finding| finding.severity == of).cloned()).collect()
}

/// How many findings a remedy brings that matter as much as the one that it takes away; none when it leaves that, or brings one
/// that matters more.
fn brings(plan: &Plan, stock: &Stock, remedy: &Remedy, of: &Finding, before: &[Finding]) -> Option<usize> {
    // A painting has the size it has.
    let is_original = |piece: &usize| plan.pieces[*piece].finish.is_original();
    let resizes =
        |edit: &Edit| *edit.field.row == PIECE_IMAGE && edit.field.pieces_of(plan).iter().any(is_original);
    if remedy.edits.iter().any(resizes) {
        return None;
    }
    let (mended, figures) = fields::apply_all(plan, stock, &remedy.edits).ok()?;
    let is_same = |one: &Finding, other: &Finding| (one.code, &one.subject) == (other.code, &other.subject);
    let mut count = 0;
    for left in crate::findings::findings(&mended, &figures, stock) {
        if is_same(&left, of) {
            return None;
        }
        if left.severity < of.severity || before.iter().any(|known| is_same(known, &left)) {
            continue;
        }
        if left.severity > of.severity {
            return None;
        }
        count += 1;
    }
    Some(count)
}

/// Why a remedy can't be taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MendError {
    /// The plan has no such remedy any more.
    Gone(String),
    /// A field does not take its edit, or the plan would have no answer.
    Field(FieldError),
}

impl fmt::Display for MendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gone(id) => write!(f, "\"{}\" is not on offer any more; choose another", short(id)),
            Self::Field(why) => why.fmt(f),
        }
    }
}

/// The plan with a remedy.
///
/// # Errors
/// When a field does not take its edit, or the plan would have no answer.
pub fn with(plan: &Plan, stock: &Stock, remedy: &Remedy) -> Result<Plan, MendError> {
    let mended = fields::apply_all(plan, stock, &remedy.edits);
    mended.map(|(plan, _)| plan).map_err(MendError::Field)
}

/// The plan with the remedy of this identity.
///
/// # Errors
/// When the plan has no such remedy, or does not take it.
pub fn taken(plan: &Plan, stock: &Stock, id: &str) -> Result<Plan, MendError> {
    let figures = Figures::of(plan).map_err(|why| MendError::Field(why.into()))?;
    let found = crate::findings::findings(plan, &figures, stock);
    let remedy = found.iter().flat_map(|finding| &finding.remedies).find(|remedy| remedy.id == id);
    with(plan, stock, remedy.ok_or_else(|| MendError::Gone(id.to_owned()))?)
}
