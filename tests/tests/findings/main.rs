//! Findings: both sides of every limit, on what each rests, and what mends it.
//!
//! No number here is from Overmantel. The limits are those that are named beside them, and the sizes are worked out on paper from
//! the starting plan: a wall of 144 × 96 in; a sofa of 84 × 34 in its middle; 8 in above it three prints of 16 × 20, each on a
//! board of 20 × 24 and 21 1/8 × 25 1/8 outside, 3 in apart: 69 3/8 in wide, from 37 5/16 to 106 11/16 in, from 42 to 67 1/8 in up,
//! their centre at 54 9/16 in.

use overmantel::figures::Figures;
use overmantel::findings::{Authority, Finding, Severity, findings, kinds};
use overmantel::mend;
use overmantel::plan::{Focus, Picture, Plan, Split, Strips};
use overmantel::stock::Stock;
use overmantel_tests::given::changed;
use std::collections::BTreeSet;

mod built;
mod hangers;
mod pictures;
mod remedies;
mod site;
mod strength;

type Changes<'a> = &'a [(&'a str, &'a str)];

/// What is found in a plan that is made from a stock, with the remedies that hold.
#[track_caller]
fn found(plan: &Plan, stock: &Stock) -> Vec<Finding> {
    mend::findings(plan, &Figures::of(plan).expect("the plan has an answer"), stock)
}

/// Whether a plan has a finding of this code.
#[track_caller]
fn check(code: &str, plan: &Plan, expected: bool) {
    let found = found(plan, &Stock::offered());
    for finding in &found {
        assert!(!finding.sentence.contains(['{', '}']), "a number is missing: {}", finding.sentence);
    }
    for finding in found.iter().filter(|finding| finding.code == code) {
        // What is offered holds.
        for remedy in &finding.remedies {
            let mended = mend::with(plan, &Stock::offered(), remedy).expect("a plan");
            let left = findings(&mended, &Figures::of(&mended).expect("an answer"), &Stock::offered());
            let is_left = |left: &Finding| left.code == code && left.subject == finding.subject;
            assert!(!left.iter().any(is_left), "{code} is left by \"{}\"", remedy.words);
        }
    }
    let has = found.iter().any(|finding| finding.code == code);
    assert_eq!(has, expected, "{code}: {:?}", found.iter().map(|found| found.code).collect::<Vec<_>>());
}

/// With the first text nothing of this code is found, with the second it is.
#[track_caller]
fn pair(code: &str, common: Changes<'_>, field: &str, without: &str, with: &str) {
    let plan = changed(Plan::starting(), common);
    check(code, &changed(plan.clone(), &[(field, without)]), false);
    check(code, &changed(plan, &[(field, with)]), true);
}

/// Three prints that show one picture each, of so many pixels.
fn showing(width_px: u32, height_px: u32, subject: Option<(u16, u16)>) -> Plan {
    let subject = subject.map(|(x_permille, y_permille)| Focus { x_permille, y_permille });
    let picture =
        Picture { name: "The flats".to_owned(), file: "flats.jpg".to_owned(), width_px, height_px, subject };
    let mut plan = Plan { pictures: vec![picture], ..Plan::starting() };
    for piece in &mut plan.pieces {
        piece.picture = Some(0);
    }
    plan
}

/// One picture over three prints, with the strips behind the gaps hidden.
fn split(width_px: u32, height_px: u32, subject: Option<(u16, u16)>) -> Plan {
    let split = Split { picture: 0, focus: Focus::MIDDLE, strips: Strips::Hidden };
    Plan { split: Some(split), ..showing(width_px, height_px, subject) }
}

/// 1 1/2 to 4 in between pieces; 15 cm to 10 in above furniture; 6 in under a ceiling: common practice, no source.
#[test]
fn where_the_group_hangs() {
    pair("gap", &[], "group.gap", "1 1/2", "1 7/16");
    pair("gap", &[], "group.gap", "4", "4 1/16");
    pair("gap", &[("pieces.count", "two"), ("shared", "separate")], "group.gap", "4", "5");
    check("gap", &changed(Plan::starting(), &[("group.gap", "9"), ("pieces.count", "one")]), false);
    pair("near-furniture", &[], "group.clearance", "150 mm", "149.9 mm");
    pair("high-above-furniture", &[], "group.clearance", "10", "10 1/16");
    // The same where the place is stated otherwise: the sofa ends 34 in up.
    pair("high-above-furniture", &[], "group.bottom", "44", "44 1/16");
    // 67 1/8 + 6 = 73 1/8; below a cornice 96 - 67 1/8 - 6 = 22 7/8.
    pair("near-the-ceiling", &[], "wall.height", "73 1/8", "73 1/16");
    pair("near-the-ceiling", &[], "site.cornice", "22 7/8", "22 15/16");
    // Our own choice, no source.
    pair("near-a-corner", &[], "group.left", "6", "5 15/16");
    pair("near-a-corner", &[], "group.right", "6", "5 15/16");
    // Two thirds to three quarters of a sofa of 104 1/16 to 92 1/2 in; wider than one of less than 69 3/8: common practice, no source.
    pair("share-of-furniture", &[], "fixture.0.width", "104", "104 1/8");
    pair("share-of-furniture", &[], "fixture.0.width", "92 1/2", "92 3/8");
    pair("wider-than-furniture", &[], "fixture.0.width", "69 3/8", "69 5/16");
    pair("share-of-furniture", &[], "fixture.0.width", "69 5/16", "69 3/8");
    pair("beyond-the-wall", &[], "group.left", "0", "-1/16");
    // The sofa reaches 34 in up.
    pair("behind-furniture", &[], "group.bottom", "34", "33 15/16");
}

/// 1100 to 1675 mm for people who stand: Glasgow Museums Display Guidelines. 43 to 51 in for people who sit: common practice, no
/// source.
#[test]
fn how_high_the_centre_is() {
    pair("centre-height", &[], "group.centre", "1100 mm", "1099.9 mm");
    pair("centre-height", &[], "group.centre", "1675 mm", "1675.1 mm");
    let sitting = ("viewing.eye_level", "51");
    pair("centre-height-seated", &[sitting], "group.centre", "43", "42 15/16");
    pair("centre-height-seated", &[sitting], "group.centre", "51", "51 1/16");
    check("centre-height", &changed(Plan::starting(), &[sitting, ("group.centre", "80")]), false);
    let standing = ("viewing.eye_level", "51 1/16");
    check("centre-height-seated", &changed(Plan::starting(), &[standing, ("group.centre", "42")]), false);
    let authority = |changes| {
        let found = found(&changed(Plan::starting(), changes), &Stock::offered());
        found.iter().find(|found| found.code.starts_with("centre")).map(|found| found.authority)
    };
    let guidance = Authority::Guidance("Glasgow Museums Display Guidelines");
    assert_eq!(authority(&[("group.centre", "80")]), Some(guidance));
    assert_eq!(authority(&[sitting, ("group.centre", "80")]), Some(Authority::Practice));
}

/// What stands there: a switch from 134 1/4 to 137 in and from 46 to 50 1/2 in up; a window, a radiator and a door put where the
/// rows say. 2 in round a switch and 12 in beside a window: our own choice, no source.
#[test]
fn beside_what_stands_there() {
    let switch = ("fixtures.add", "light switch");
    pair("covers-a-fixture", &[switch], "group.right", "9 3/4", "9 11/16");
    pair("near-a-fitting", &[switch], "group.right", "11 3/4", "11 11/16");
    check("near-a-fitting", &changed(Plan::starting(), &[switch, ("group.right", "9")]), false);
    // 20 in wide, so that it ends at 25 5/16 with 12 in to spare.
    let window =
        [("fixtures.add", "window"), ("fixture.1.width", "20"), ("fixture.1.across", "from the left corner")];
    pair("beside-a-window", &window, "fixture.1.distance", "5 5/16", "5 3/8");
    // 40 in wide, from 106 11/16 in: 144 - 40 - 106 11/16 is 2 11/16 less than nothing.
    let radiator = [("fixtures.add", "radiator"), ("fixture.1.across", "from the right corner")];
    pair("above-a-radiator", &radiator, "fixture.1.distance", "-2 11/16", "-2 5/8");
    // 10 in wide, it sweeps 10 in beside it: from 106 11/16 to 116 11/16, 144 - 126 11/16 from the right corner.
    let door = [
        ("fixtures.add", "door"),
        ("fixture.1.width", "10"),
        ("fixture.1.across", "from the right corner"),
        ("fixture.1.swing", "opens against the wall on its left"),
    ];
    pair("door-swing", &door, "fixture.1.distance", "17 5/16", "17 3/8");
    let away = ("fixture.1.swing", "opens against the wall on its right");
    check(
        "door-swing",
        &changed(changed(Plan::starting(), &door), &[("fixture.1.distance", "18"), away]),
        false,
    );
}

/// A mat of 2 1/8 in, on paper without a border, in a frame with 1/8 in of play.
#[test]
fn mats_and_frames() {
    // The package may sink by the play.
    pair("weighting-in-the-play", &[], "piece.all.mat.foot", "9/64", "1/8");
    pair("weighting-in-the-play", &[], "piece.all.mat.foot", "0", "1/64");
    let rim = ("piece.all.mat.opening", "showing its white border by");
    // A rim of 1/4 in on paper of 1/4 in: the opening is as large as the sheet.
    let paper = [rim, ("piece.all.mat.by", "1/4")];
    pair("sheet-falls-through", &paper, "piece.all.paper.border", "9/32", "1/4");
    pair("sheet-not-held", &paper, "piece.all.paper.border", "10 mm", "9/32");
    // An original that floats lies in the mat's opening, 1/16 in before the mount.
    let original = [
        ("piece.all.material", "the original"),
        ("piece.all.mat", "with"),
        ("piece.all.frame", "with"),
        ("piece.all.glazing", "glass"),
        ("piece.all.mat.opening", "floating it with a gap of"),
    ];
    pair("glazing-on-the-work", &original, "piece.all.original.depth", "3/64", "1/16");
    pair("frames-do-not-match", &[], "piece.1.frame.face", "3/4", "13/16");
    pair("frames-do-not-match", &[], "piece.2.frame.shape", "flat", "scooped");
    // Less than 1 in of difference looks like a mistake: our own choice, no source.
    pair("nearly-alike", &[], "piece.1.image", "17 x 20", "16 15/16 x 20");
    pair("nearly-alike", &[], "piece.2.image", "16 x 20", "16 x 19 15/16");
}

/// Sizes on offer: common practice, no source. By its outside a frame is 1/8 + 2 × (3/4 - 1/4) in larger than by its glass.
#[test]
fn sizes_that_are_not_what_they_seem() {
    let outside = ("in_hand.measured", "by its outside");
    pair("nominal-for-outside", &[outside], "in_hand.size", "16 1/16 x 20", "16 x 20");
    let glass = ("in_hand.measured", "by its glass");
    pair("nominal-for-outside", &[glass], "in_hand.size", "16 x 20", "17 1/8 x 21 1/8");
    pair("nominal-for-outside", &[glass], "in_hand.size", "17 3/16 x 21 1/8", "21 1/8 x 17 1/8");
    let metal = ("piece.all.material", "aluminium");
    pair("metal-not-offered", &[metal], "piece.all.image", "20 x 16", "16 1/16 x 20");
    check("metal-not-offered", &changed(Plan::starting(), &[("piece.all.image", "15 x 19")]), false);
}

#[test]
fn every_finding_has_a_row_and_a_name_of_its_own() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let tests = [
        "findings/main.rs",
        "findings/pictures.rs",
        "findings/built.rs",
        "findings/hangers.rs",
        "findings/site.rs",
        "findings/strength.rs",
        "specification.rs",
        "regressions.rs",
    ]
    .map(|file| std::fs::read_to_string(folder.join(file)).expect("a test"))
    .concat();
    let mut codes = BTreeSet::new();
    for (code, severity, authority) in kinds() {
        assert!(codes.insert(code), "two findings are called {code}");
        assert!(tests.contains(&format!("\"{code}\"")), "{code} has no row in a test");
        assert!(!severity.words().is_empty() && !authority.words().is_empty());
    }
    assert!(codes.len() > 55, "{codes:?}");
    assert!(Severity::ALL.is_sorted(), "the least first");
}

/// A list of one's own moves a limit, and the finding says so; what rests on the sizes alone it does not move.
#[test]
fn a_list_of_ones_own_moves_limits() {
    let own = |name: &str, value: &str| {
        let text = format!(r#"{{ "overmantel_stock": 1, "thresholds": {{ "{name}": "{value}" }} }}"#);
        Stock::read(&text)
    };
    let of = |stock: &Stock, gap: &str| {
        let found = found(&changed(Plan::starting(), &[("group.gap", gap)]), stock);
        found.into_iter().find(|found| found.code == "gap")
    };
    let stock = own("widest gap between pieces", "5 in").expect("a stock");
    assert_eq!(of(&stock, "5"), None);
    let wide = of(&stock, "5 1/16").expect("a finding");
    assert_eq!(wide.authority, Authority::OwnList);
    assert_eq!(wide.sentence, "The gap between the pieces is 5 1/16\"; 1 1/2\" to 5\" is usual.");
    assert_eq!(of(&Stock::offered(), "5 1/16").expect("a finding").authority, Authority::Practice);
    // Numbers are whole, decimal or a quotient.
    for (value, is_found) in [("0.82", true), ("5/6", false), ("1", false)] {
        let stock = own("largest share of what a group hangs above", value).expect("a stock");
        // 69 3/8 of 84 in are 0.826.
        let found = found(&Plan::starting(), &stock);
        assert_eq!(found.iter().any(|found| found.code == "share-of-furniture"), is_found, "{value}");
    }
    let refused = |name: &str, value: &str| own(name, value).expect_err("a refusal").to_string();
    assert_eq!(
        refused("widest gap", "5 in"),
        "thresholds, \"widest gap\": there is no limit of this name; save the stock list to see all of them"
    );
    assert_eq!(
        refused("largest share of what a group hangs above", "much"),
        "thresholds, \"largest share of what a group hangs above\": \"much\" is not a number here; write one such as 150, 0.75 or 2/3"
    );
    assert!(
        refused("widest gap between pieces", "wide")
            .starts_with("thresholds, \"widest gap between pieces\": ")
    );
    assert_eq!(Stock::read(&stock.write()), Ok(stock), "writing and reading is the identity");
}
