//! Mending: remedies of findings, tried on the plan before they are offered.
//!
//! A remedy is offered when the plan with it has an answer, its finding is gone, and none has come that matters more; of
//! those, the ones that bring the fewest that matter as much. It is taken as any edit is: its texts are written to its fields.
//!
//! ```
//! use overmantel::{figures::Figures, length::Length, mend, plan::Plan, stock::Stock};
//! let (mut plan, stock) = (Plan::starting(), Stock::offered());
//! plan.group.gap = Length::inches(5);
//! let found = mend::findings(&plan, &Figures::of(&plan).unwrap(), &stock);
//! let gap = found.iter().find(|finding| finding.code == "gap").unwrap();
//! let mended = mend::taken(&plan, &stock, gap.code, &gap.remedies[0].words).unwrap();
//! assert_eq!(mended.group.gap, Length::inches(4));
//! ```

use crate::fields;
use crate::figures::Figures;
use crate::findings::{Finding, Remedy, Severity};
use crate::plan::Plan;
use crate::stock::Stock;

/// How many remedies of a finding are offered at the most.
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
    let (mended, figures) = fields::write_all(plan, stock, &remedy.settings).ok()?;
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

/// The plan with a remedy.
///
/// # Errors
/// When a field does not take what the remedy writes to it, or the plan would have no answer.
pub fn with(plan: &Plan, stock: &Stock, remedy: &Remedy) -> Result<Plan, String> {
    let mended = fields::write_all(plan, stock, &remedy.settings);
    mended.map(|(plan, _)| plan).map_err(|why| why.message)
}

/// The plan with a remedy of a finding, by the finding's code and the remedy's words.
///
/// # Errors
/// A plain sentence when the plan has no such finding, or that has no such remedy.
pub fn taken(plan: &Plan, stock: &Stock, code: &str, words: &str) -> Result<Plan, String> {
    let found = crate::findings::findings(plan, &Figures::of(plan)?, stock);
    let of_code = found.iter().filter(|finding| finding.code == code);
    let mut remedies = of_code.flat_map(|finding| &finding.remedies);
    let remedy = remedies
        .find(|remedy| remedy.words == words)
        .ok_or_else(|| ["\"", words, "\" is not on offer any more; choose another"].concat())?;
    with(plan, stock, remedy)
}
