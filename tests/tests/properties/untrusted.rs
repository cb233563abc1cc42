//! Plans from elsewhere: whatever a file says is read and worked out, or refused with a sentence.

use super::any_plan::any_plan;
use jsonschema::Validator;
use overmantel::draw::{Painter, Sheet, View};
use overmantel::figures::Figures;
use overmantel::plan::file;
use overmantel::stock::Stock;
use overmantel::{findings, report, scene, spec};
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use std::sync::LazyLock;

/// The published schema of a plan, as another library reads it.
static SCHEMA: LazyLock<Validator> = LazyLock::new(|| {
    let schema = serde_json::from_str(&file::schema()).unwrap_or_default();
    jsonschema::validator_for(&schema).unwrap_or_else(|error| panic!("{error}"))
});

/// Reads a text as a plan and, if it is one, makes everything there is of it.
fn use_up(text: &str, draws: bool, judged: &Share) -> Result<(), TestCaseError> {
    let plan = match file::read(text) {
        Ok(plan) => plan,
        Err(why) => {
            let why = why.to_string();
            prop_assert!(why.contains(' ') && !why.ends_with('.'), "no sentence: {why:?}");
            judged.left_out();
            return Ok(());
        }
    };
    // What is read is valid by the schema.
    let value: serde_json::Value = serde_json::from_str(text).unwrap_or_default();
    prop_assert!(SCHEMA.is_valid(&value), "{text}");
    let figures = match Figures::of(&plan) {
        Ok(figures) => figures,
        Err(why) => {
            prop_assert!(why.to_string().contains("; "), "no remedy in {why:?}");
            judged.left_out();
            return Ok(());
        }
    };
    judged.judged();
    let stock = Stock::offered();
    for finding in findings::findings(&plan, &figures, &stock) {
        prop_assert!(finding.sentence.ends_with('.'), "{}", finding.sentence);
    }
    prop_assert!(serde_json::to_string(&report::report(&plan, &figures, &stock, 2)).is_ok());
    prop_assert!(!spec::order_text(&plan, &figures, &stock).is_empty());
    prop_assert!(!spec::specification(&plan, &figures, &stock, None).is_empty());
    prop_assert!(scene::in_words(&plan, &figures).starts_with("A wall "));
    let placed = scene::scene(&plan, &figures);
    if draws {
        let mut painter = Painter::default();
        for view in [View::Elevation, View::Oblique] {
            let drawing = painter.draw(&placed, &[], &Sheet { view, ..Sheet::new(96, 64) });
            prop_assert_eq!(drawing.pixels.len(), 96 * 64 * 4);
            prop_assert!(drawing.pixels.chunks_exact(4).all(|pixel| pixel[3] == 255), "opaque");
        }
    }
    Ok(())
}

/// Texts that a plan file may hold where it should not.
const ODD: [&str; 16] = [
    "null",
    "-1",
    "1e999",
    "\"\"",
    "[]",
    "{}",
    "\"100 m\"",
    "\"-100 m\"",
    "\"1/36576000 in\"",
    "\"999999999999999999 m\"",
    "true",
    "\"\u{feff}\"",
    "200000",
    "\"middle\"",
    "[[[[[[[[[[]]]]]]]]]]",
    "\"#GGGGGG\"",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn any_plan_is_worked_out_or_refused(plan in any_plan()) {
        static JUDGED: Share = Share::percent(25);
        use_up(&file::write(&plan), true, &JUDGED)?;
    }

    #[test]
    fn any_text_is_refused(text in prop_oneof![
        vec(any::<char>(), 0..200).prop_map(String::from_iter),
        "[\\[{\"}\\],:0-9a-z ]{0,200}",
        Just("[".repeat(200_000)),
        Just("{\"overmantel\":1,\"title\":".to_owned() + &"[".repeat(100_000)),
    ]) {
        prop_assert!(file::read(&text).is_err());
        // Not one of them is a plan.
        use_up(&text, false, &Share::percent(0))?;
    }

    /// A good file with values exchanged, bytes changed, and cut short.
    #[test]
    fn any_damaged_plan_is_worked_out_or_refused(
        plan in any_plan(),
        exchanges in vec((any::<Index>(), 0..ODD.len()), 0..4),
        bytes in vec((any::<Index>(), any::<u8>()), 0..3),
        end in prop_oneof![4 => Just(None), 1 => any::<Index>().prop_map(Some)],
    ) {
        let text = file::write(&plan);
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        for (index, odd) in exchanges {
            let line = index.get_mut(&mut lines);
            if let Some((key, _)) = line.clone().rsplit_once(": ") {
                let comma = if line.ends_with(',') { "," } else { "" };
                *line = format!("{key}: {}{comma}", ODD[odd]);
            }
        }
        let mut damaged = lines.join("\n").into_bytes();
        for (index, byte) in bytes {
            *index.get_mut(&mut damaged) = byte;
        }
        if let Some(end) = end {
            damaged.truncate(end.index(damaged.len()));
        }
        static JUDGED: Share = Share::percent(2);
        use_up(&String::from_utf8_lossy(&damaged), false, &JUDGED)?;
    }
}
