//! What is alike is told once, and no page holds a line or two alone.

use super::{DEMOS, read_back};
use overmantel::papers::{Kind, Paper};
use overmantel::plan::Plan;
use overmantel_tests::given::{changed, demo};

fn text(plan: &Plan, kind: Kind) -> String {
    let (_, seen) = read_back(plan, kind, Paper::A4);
    let pages: Vec<String> = seen.iter().map(|page| page.text.replace('\n', " ")).collect();
    pages.join(" ")
}

/// The demo's three with the first at 24 × 30 in: its rabbet is 28 1/8 × 34 1/8 in, which takes 8 and 9 points at most 4 in apart on a
/// side; those of 20 1/8 × 24 1/8 take 6 and 7 (common practice, no source).
#[test]
fn steps_that_are_alike_are_told_once() {
    let plan = changed(demo("low-water"), &[("piece.0.image", "24 x 30")]);
    let assembly = text(&plan, Kind::Assembly);
    for once in ["1. Clear the bench", "Hinge the work", "Put bumpers", "Package, front to back"] {
        assert_eq!(assembly.matches(once).count(), 1, "{once} in {assembly}");
    }
    for part in [
        "7. Piece 1: Close it: 34 points, at most 4″ apart. Pieces 2 and 3: Close it: 26 points, at most 4″ apart.",
        "Sheet, piece 1",
        "Sheet, pieces 2 and 3",
    ] {
        assert!(assembly.contains(part), "{part} in {assembly}");
    }
    let cuts = text(&plan, Kind::Cuts);
    for once in [
        "Section through the bottom of pieces 1, 2 and 3",
        "Parts of piece 1",
        "Parts of each of pieces 2 and 3",
    ] {
        assert_eq!(cuts.matches(once).count(), 1, "{once} in {cuts}");
    }
    for once in
        ["Section through", "Is it square?", "Mats are marked on the back", "Numbers and distances are"]
    {
        assert_eq!(cuts.matches(once).count(), 1, "{once} in {cuts}");
    }
    // Pieces that are put together in other ways have steps of their own.
    let mixed = text(&changed(plan, &[("piece.2.material", "canvas")]), Kind::Assembly);
    for part in ["Assembly of pieces 1 and 2, step by step", "Assembly of piece 3, step by step"] {
        assert!(mixed.contains(part), "{part} in {mixed}");
    }
    // Only some of a way have a step: it says which.
    let one_bare = changed(demo("low-water"), &[("piece.1.mat", "no")]);
    let told = text(&one_bare, Kind::Assembly);
    assert!(told.contains("3. Pieces 1 and 3: Lay the mat over it"), "{told}");
}

/// Each page has the paper's name, two bars with their lengths, what to do with them, and its number.
const FURNITURE: usize = 5;

#[test]
fn no_last_page_holds_a_line_or_two_alone() {
    let mut checked = 0;
    for name in DEMOS {
        let plain = demo(name);
        // Titles of one to three lines move all that is below them.
        for title in [1, 4, 7, 9].map(|count| "A long wall ".repeat(count)) {
            let title = title.trim().to_owned();
            let plan = Plan { title, ..plain.clone() };
            for kind in [Kind::Order, Kind::Assembly, Kind::Cuts, Kind::Hanging, Kind::Record] {
                for paper in [Paper::A4, Paper::Letter] {
                    let (_, seen) = read_back(&plan, kind, paper);
                    let lines = seen.last().map_or(0, |page| page.text.trim().lines().count());
                    assert!(
                        seen.len() == 1 || lines >= FURNITURE + 3,
                        "{name} {kind:?} {paper:?}: {lines} in {:?}",
                        seen.last()
                    );
                    checked += usize::from(seen.len() > 1);
                }
            }
        }
    }
    assert!(checked > 20, "{checked} papers of several pages");
}
