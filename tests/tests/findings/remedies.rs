//! What mends findings: words, and what they change.

use super::*;
use overmantel::desk::Desk;

/// The remedies that are offered for a finding of a plan with these changes.
#[track_caller]
fn offered(code: &str, plan: &Plan) -> Vec<String> {
    let found = found(plan, &Stock::offered());
    let finding = found.iter().find(|finding| finding.code == code);
    let finding = finding.unwrap_or_else(|| {
        panic!("no {code} in {:?}", found.iter().map(|found| found.code).collect::<Vec<_>>())
    });
    finding.remedies.iter().map(|remedy| remedy.words.clone()).collect()
}

/// Where a remedy is known for certain, it is offered.
#[test]
fn remedies_are_offered() {
    let check = |code: &str, changes: Changes<'_>, words: &[&str]| {
        assert_eq!(offered(code, &changed(Plan::starting(), changes)), words, "{code}");
    };
    check("gap", &[("group.gap", "5")], &["Hang them 4\" apart"]);
    check("near-furniture", &[("group.clearance", "2")], &["Hang it 8\" above the sofa"]);
    check(
        "thin-mat",
        &[("piece.all.mat.border", "1")],
        &["Make the mat 1 1/2\" wide", "Make the mat 1 1/2\" wide all round"],
    );
    check(
        "foot-narrower-than-head",
        &[("piece.all.mat.foot", "-1/4")],
        &["Make head and foot alike", "Make the foot 1/2 in wider"],
    );
    check("sheet-not-held", &[("piece.all.mat.by", "1/16")], &["Let the mat cover 1/8\" of the sheet"]);
    check("mount-yellows", &[("piece.all.mount", "MDF")], &["Mount it on mat board"]);
    check(
        "flat-wire",
        &[("fixing.kind", "a wire over two hooks"), ("fixing.slack", "1/8")],
        // Of a spread of 20 3/8 - 6 = 14 3/8 in eight hundredths: 1.15.
        &["Make the wire 1 3/16\" longer than the span", "Hang it by two rings"],
    );
    check("glass-above-a-bed", &[("fixture.0.kind", "bed")], &["Take acrylic", "Leave the glazing out"]);
    check("size-in-the-wrong-system", &[("piece.all.image", "50 x 70")], &["It is 19 11/16 × 27 9/16\""]);
    check(
        "frames-do-not-match",
        &[("piece.1.frame.face", "1 1/2"), ("piece.1.frame.colour", "#a87f52")],
        &["Frame all of them as the first is"],
    );
    check("in-the-sun", &[("site.sun", "where the sun falls on it")], &[]);
    // Two thirds of 16 in are 10 2/3: 10 5/8, and in the same shape 13 9/32, 13 1/4.
    assert_eq!(
        offered("soft-print", &showing(1600, 2000, None)),
        ["Print it no larger than 10 5/8 × 13 1/4\""]
    );
}

/// A wire in earthquake country may hurt someone; a gap of 5 in is a matter of taste; a group beyond the wall can't be made.
#[test]
fn what_matters_most_stands_first() {
    let changes = [
        ("group.gap", "5"),
        ("fixing.kind", "a wire over two hooks"),
        ("site.ground", "in earthquake country"),
        ("site.sun", "where the sun falls on it"),
        ("group.left", "-1"),
    ];
    let found = found(&changed(Plan::starting(), &changes), &Stock::offered());
    assert_eq!(found.first().map(|found| found.code), Some("beyond-the-wall"));
    let severities: Vec<Severity> = found.iter().map(|found| found.severity).collect();
    assert!(severities.is_sorted_by(|one, next| one >= next), "{severities:?}");
    for severity in Severity::ALL {
        assert!(severities.contains(&severity), "{severity:?} in {severities:?}");
    }
}

/// A remedy is a step like any other: it is taken, undone and done again.
#[test]
fn a_remedy_is_a_step_that_can_be_undone() {
    let plan = changed(Plan::starting(), &[("group.gap", "5"), ("piece.all.mat.border", "1")]);
    let mut desk = Desk::new(plan.clone()).expect("a desk");
    let gone = desk.set("remedy.gap", "Hang them 3 ft apart").expect_err("it is not offered");
    assert_eq!(gone.message, "\"Hang them 3 ft apart\" is not on offer any more; choose another");
    assert!(desk.set("remedy.none", "Hang them 4\" apart").is_err());
    assert_eq!((desk.plan(), desk.history()), (&plan, (false, false)));
    desk.set("remedy.gap", "Hang them 4\" apart").expect("a remedy");
    check("gap", desk.plan(), false);
    check("thin-mat", desk.plan(), true);
    assert!(desk.undo());
    assert_eq!(desk.plan(), &plan);
    assert!(desk.redo());
    check("gap", desk.plan(), false);
}
