//! What mends findings: words, and what they change.

use super::*;
use overmantel::desk::Desk;
use overmantel::length::Length;
use overmantel::plan::{Across, Fixture, FixtureKind, Group, GroupAcross, GroupUp, Swing};

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
        &["Make top and bottom the same", "Make the bottom 1/2\" wider"],
    );
    check("sheet-not-held", &[("piece.all.mat.by", "1/16")], &["Let the mat cover 1/8\" of the sheet"]);
    check("mount-yellows", &[("piece.all.mount", "MDF")], &["Hinge it to mat board"]);
    check(
        "flat-wire",
        &[("fixing.kind", "a wire over two hooks"), ("fixing.slack", "1/8")],
        // Of a spread of 20 3/8 - 6 = 14 3/8 in eight hundredths: 1.15.
        &["Make the wire 1 3/16\" longer than its span", "Hang it by two rings"],
    );
    check("glass-above-a-bed", &[("fixture.0.kind", "bed")], &["Use acrylic", "Leave out the glazing"]);
    check("size-in-the-wrong-system", &[("piece.all.image", "50 x 70")], &["It is 19 11/16 × 27 9/16\""]);
    check(
        "frames-do-not-match",
        &[("piece.1.frame.face", "1 1/2"), ("piece.1.frame.colour", "#a87f52")],
        &["Frame them all like the first"],
    );
    check("in-the-sun", &[("site.sun", "in direct sun")], &[]);
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
        ("site.ground", "in an earthquake area"),
        ("site.sun", "in direct sun"),
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
    let gone = desk.mend("gap/2").expect_err("it is not offered");
    assert_eq!(gone.to_string(), "\"gap/2\" is not on offer any more; choose another");
    assert!(desk.mend("none/1").is_err());
    assert_eq!((desk.plan(), desk.history()), (&plan, (false, false)));
    desk.mend("gap/1").expect("a remedy");
    check("gap", desk.plan(), false);
    check("thin-mat", desk.plan(), true);
    assert!(desk.undo());
    assert_eq!(desk.plan(), &plan);
    assert!(desk.redo());
    check("gap", desk.plan(), false);
}

/// Two doors that open against the pieces have one remedy in the same words: each changes its own door.
#[test]
fn a_remedy_of_two_alike_mends_its_own_finding() {
    let door = |name: &str, across| Fixture {
        name: name.to_owned(),
        across,
        swing: Swing::Right,
        ..Fixture::starting(FixtureKind::Door)
    };
    let fixtures = vec![
        door("left door", Across::FromLeft(Length::inches(10))),
        door("right door", Across::FromLeft(Length::inches(60))),
    ];
    let group = Group { across: GroupAcross::WallMiddle, up: GroupUp::EyeLevel, ..Plan::starting().group };
    let plan = Plan { fixtures, group, ..Plan::starting() };
    let swings = |plan: &Plan| plan.fixtures.iter().map(|door| door.swing).collect::<Vec<_>>();
    let found = findings(&plan, &Figures::of(&plan).expect("an answer"), &Stock::offered());
    let doors: Vec<&Finding> = found.iter().filter(|finding| finding.code == "door-swing").collect();
    assert_eq!(
        doors.len(),
        2,
        "the left leaf sweeps 40 to 70 in, the right one 90 to 120; the group 37 to 107"
    );
    assert_eq!(doors[0].remedies[0].words, doors[1].remedies[0].words);
    for (door, expected) in doors.iter().zip([[Swing::Clear, Swing::Right], [Swing::Right, Swing::Clear]]) {
        let mut desk = Desk::new(plan.clone()).expect("a desk");
        desk.mend(&door.remedies[0].id).expect("a remedy");
        assert_eq!(swings(desk.plan()), expected, "{}", door.remedies[0].id);
    }
    let mut ids: Vec<&String> =
        found.iter().flat_map(|finding| &finding.remedies).map(|remedy| &remedy.id).collect();
    let count = ids.len();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), count, "no two remedies have one identity");
}
