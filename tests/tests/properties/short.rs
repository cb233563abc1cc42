//! What holds of any plan that is told in short, or summed up beside another.

use super::any_plan::any_plan;
use overmantel::compare::{MOST_LINES, summary};
use overmantel::figures::Figures;
use overmantel::spec::{Run, in_plain_words, short};
use overmantel::stock::Stock;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// A buyer is asked for a dozen things at most, each of them a field of the plan, and reads it in half a minute. (Names of a
    /// plan's own may be any number of words, and are counted as one; figures are no words.)
    #[test]
    fn any_plan_in_short_has_at_most_14_fields_and_120_words(mut plan in any_plan()) {
        for (index, fixture) in plan.fixtures.iter_mut().enumerate() {
            fixture.name = format!("thing{index}");
        }
        for (index, picture) in plan.pictures.iter_mut().enumerate() {
            picture.name = format!("picture{index}");
        }
        let stock = Stock::offered();
        let Ok(figures) = Figures::of(&plan) else { return Ok(()) };
        let lines = short::short(&plan);
        let runs: Vec<&Run> = lines.iter().flat_map(|line| &line.runs).collect();
        let fields = runs.iter().filter(|run| matches!(run, Run::Field(_))).count();
        prop_assert!(fields <= short::MOST_FIELDS, "{fields} fields");
        for run in &runs {
            if let Run::Field(field) = run {
                prop_assert!(overmantel::fields::read(&plan, &stock, *field).is_some(), "the plan has no {field}");
            }
        }
        let is_word = |word: &&str| word.contains(char::is_alphabetic);
        let words = |runs: &[Run]| in_plain_words(&plan, &stock, runs).split_whitespace().filter(is_word).count();
        let result = short::result(&plan, &figures, &stock, None);
        let all = lines.iter().map(|line| words(&line.runs)).sum::<usize>() + words(&result);
        prop_assert!(all <= 120, "{all} words");
    }

    /// Two plans are summed up in eight lines at most, the last of which says what each is better at; and from a plan to itself
    /// nothing has changed.
    #[test]
    fn any_two_plans_are_summed_up_in_eight_lines(one in any_plan(), other in any_plan()) {
        let stock = Stock::offered();
        let (Ok(found), Ok(none)) = (summary(&one, &other, &stock, None), summary(&one, &one, &stock, None)) else {
            return Ok(());
        };
        prop_assert!(found.rows.len() <= MOST_LINES && found.changes.len() <= MOST_LINES, "{found:?}");
        prop_assert_eq!(found.rows.last().map(|row| row.label), Some("Advantages"));
        prop_assert!(found.rows.iter().any(|row| row.label == "Size") && found.rows.iter().any(|row| row.label == "Make-up"));
        prop_assert!(none.changes.is_empty(), "{none:?}");
    }
}
