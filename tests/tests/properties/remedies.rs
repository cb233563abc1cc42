//! Remedies of any plan: each, taken, removes its finding and brings none that matters more.

use super::any_plan::any_plan;
use overmantel::desk::Desk;
use overmantel::figures::Figures;
use overmantel::findings::{Finding, findings};
use overmantel::mend;
use overmantel::plan::Plan;
use overmantel::stock::Stock;
use proptest::prelude::*;

fn found(plan: &Plan, stock: &Stock) -> Result<Vec<Finding>, TestCaseError> {
    let figures = Figures::of(plan).map_err(TestCaseError::fail)?;
    Ok(findings(plan, &figures, stock))
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    (one.code, &one.subject) == (other.code, &other.subject)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_remedy_removes_its_finding_and_brings_no_worse_one(plan in any_plan()) {
        let stock = Stock::offered();
        let Ok(figures) = Figures::of(&plan) else { return Ok(()) };
        let before = findings(&plan, &figures, &stock);
        let offered = mend::findings(&plan, &figures, &stock);
        prop_assert_eq!(offered.len(), before.len());
        for finding in &offered {
            prop_assert!(finding.sentence.ends_with('.'), "{}", finding.sentence);
            for remedy in &finding.remedies {
                let mut desk = Desk::new(plan.clone()).map_err(TestCaseError::fail)?;
                let field = format!("remedy.{}", finding.code);
                // Of two findings of one code the words may be alike: then the first is taken.
                let alike = offered.iter().filter(|other| other.code == finding.code).count();
                if alike == 1 {
                    prop_assert!(desk.set(&field, &remedy.words).is_ok(), "{} {}", field, remedy.words);
                    prop_assert!(desk.undo());
                    prop_assert_eq!(desk.plan(), &plan);
                }
                let mended = mend::with(&plan, &stock, remedy).map_err(TestCaseError::fail)?;
                for left in found(&mended, &stock)? {
                    prop_assert!(!is_same(&left, finding), "{}: \"{}\" leaves {:?}", finding.code, remedy.words, left);
                    let is_new = !before.iter().any(|known| is_same(known, &left));
                    prop_assert!(
                        !is_new || left.severity <= finding.severity,
                        "{}: \"{}\" brings {:?}", finding.code, remedy.words, left
                    );
                }
            }
        }
    }
}
