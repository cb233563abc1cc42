//! Findings on hooks and wires, on the place, and on the way there.

use super::*;
use overmantel::geometry::Size;
use overmantel::plan::{Finish, Framing, Paper, Piece};

/// A wire of 20 3/8 in between its rings, over one hook, is pulled by leg / (2 rise): by twice the weight where the rise is a
/// quarter of a leg, so that a leg is 10 3/16 × 4 / √15 = 10.5216 in, and the wire 0.668 in longer than the span. Physics; that
/// twice is too much: common practice, no source.
#[test]
fn wires() {
    let wire = ("fixing.kind", "a wire over one hook");
    pair("flat-wire", &[wire], "fixing.slack", "0.67", "0.66");
    pair("flat-wire", &[wire], "fixing.slack", "1", "0");
    check("flat-wire", &Plan::starting(), false);
    // Rings 5 in down: a slack of 0.864 in makes a rise of 3.
    pair("wire-in-sight", &[wire, ("fixing.down", "5")], "fixing.slack", "0.85", "0.88");
}

/// From a photograph: more than 2 cm off, or more than a fiftieth of the group's width (both are ours). Three framed prints of the starting
/// plan are 69 3/8 in wide, a fiftieth of which is 35 mm; one of 20 in of paper alone allows 10.16 mm.
#[test]
fn measured_in_a_photograph() {
    let photograph = ("from_photograph", "yes");
    pair("from-a-photograph", &[photograph], "from_photograph.off", "20 mm", "20.1 mm");
    let narrow = |off: &str| changed(sheet(200, "20", "30", &[photograph]), &[("from_photograph.off", off)]);
    check("from-a-photograph", &narrow("10.1 mm"), false);
    check("from-a-photograph", &narrow("10.2 mm"), true);
}

/// One sheet of this paper and size in inches, with nothing round it: what it weighs is its area times its grammage.
fn sheet(grammage: u32, width: &str, height: &str, changes: Changes<'_>) -> Plan {
    let paper = Paper { grammage, framing: Framing::NONE, ..Paper::starting() };
    let piece = Piece { finish: Finish::Paper(paper), image: Size::inches(1, 1), ..Piece::starting() };
    let plan = Plan { pieces: vec![piece], ..Plan::starting() };
    let size = [("piece.0.width", width), ("piece.0.height", height)];
    changed(changed(plan, &size), changes)
}

/// 24 in, 5 kg, twice the weight, 20 kg: common practice, no source. A weight is known to 15 % at the best (common practice, no
/// source). 1 lb = 453.59237 g (agreement of 1 July 1959).
#[test]
fn weights_and_hooks() {
    let wire = ("fixing.kind", "a wire over one hook");
    let canvas = ("piece.all.material", "canvas");
    pair("one-hook", &[wire, canvas], "piece.all.image", "24 x 20", "24 1/16 x 20");
    let rings = [("fixing.kind", "two rings"), canvas, ("piece.all.image", "30 x 20")];
    check("one-hook", &changed(Plan::starting(), &rings), false);
    // 2000 g/m² × 0.6096 m: 5 kg are 4.1010 m, or 161.46 in.
    check("one-hook", &sheet(2000, "24", "161.4", &[wire]), false);
    check("one-hook", &sheet(2000, "24", "161.5", &[wire]), true);
    // Two hooks for 10 lb carry 4535.9 g at 1.15 times the likely weight, which is 3944.3 g, or 1.9721 m²: 60 in × 50.947.
    let rated = ("site.rated", "rated for 10 lb");
    check("weak-fixing", &sheet(2000, "60", "50.94", &[rated]), false);
    check("weak-fixing", &sheet(2000, "60", "50.96", &[rated]), true);
    check("weak-fixing", &sheet(2000, "60", "50.96", &[]), false);
    // One hook carries half of that: 25.47 in.
    check("weak-fixing", &sheet(2000, "60", "25.46", &[rated, wire]), false);
    check("weak-fixing", &sheet(2000, "60", "25.49", &[rated, wire]), true);
    // 20 kg / 1.15 are 8.6957 m²: 100 in × 134.78.
    let plasterboard = ("site.wall", "of plasterboard");
    check("heavy-on-plasterboard", &sheet(2000, "100", "134.7", &[plasterboard]), false);
    check("heavy-on-plasterboard", &sheet(2000, "100", "134.9", &[plasterboard]), true);
    check("heavy-on-plasterboard", &sheet(2000, "100", "134.9", &[("site.wall", "of masonry")]), false);
}

/// Glass, and more than 5 kg, above a bed: common practice, no source. The group ends at 106 11/16 in.
#[test]
fn above_a_bed() {
    let bed = [
        ("fixture.0.kind", "bed"),
        ("group.across", "in the middle of the wall"),
        ("fixture.0.across", "from the left corner"),
    ];
    pair("glass-above-a-bed", &bed, "fixture.0.distance", "106 11/16", "106 5/8");
    let acrylic = changed(changed(Plan::starting(), &bed), &[("piece.all.glazing", "acrylic")]);
    check("glass-above-a-bed", &acrylic, false);
    check("glass-above-a-bed", &Plan::starting(), false);
    // 5 kg / 1.15 are 2.1739 m²: 60 in × 56.16.
    check("heavy-above-a-bed", &sheet(2000, "60", "56.1", &bed[..1]), false);
    check("heavy-above-a-bed", &sheet(2000, "60", "56.2", &bed[..1]), true);
    check("heavy-above-a-bed", &sheet(2000, "60", "56.2", &[]), false);
}

/// ADA 2010 Standards, 307.2: leading edges more than 27 in and not more than 80 in above the floor protrude 4 in at the most.
#[test]
fn on_a_public_way() {
    let plan = |up: &str, depth: &str, way: &str| {
        let canvas = [
            ("wall.height", "120"),
            ("piece.all.material", "canvas"),
            ("piece.all.canvas.depth", depth),
            ("group.bottom", up),
            ("site.way", way),
        ];
        changed(Plan::starting(), &canvas)
    };
    for (up, depth, expected) in [
        ("27", "4.5", false),
        ("27.01", "4.5", true),
        ("45", "4.0", false),
        ("45", "4.01", true),
        ("80", "5", true),
        ("80.01", "5", false),
        ("81", "5", false),
    ] {
        check("in-the-way", &plan(up, depth, "in a public corridor"), expected);
        check("in-the-way", &plan(up, depth, "in a home"), false);
    }
    let found = found(&plan("45", "5", "in a public corridor"), &Stock::offered());
    let told = found.iter().find(|found| found.code == "in-the-way").expect("a finding");
    assert_eq!(told.severity, Severity::Safety);
    assert_eq!(told.authority.kind(), "law or standard");
}

/// Sun on a wall: Library of Congress, preservation guidance. Closed hooks: FEMA 528; broken glass: FEMA, Mount Framed Pictures and
/// Mirrors Securely, 2008, as quoted. A window opposite: common practice, no source.
#[test]
fn sun_windows_and_shaking_ground() {
    pair("in-the-sun", &[], "site.sun", "out of the sun", "in direct sun");
    let opposite = "site.opposite";
    pair("window-in-the-glazing", &[], opposite, "no window opposite", "a window opposite");
    pair(
        "window-in-the-glazing",
        &[(opposite, "a window opposite")],
        "piece.all.material",
        "canvas",
        "paper",
    );
    let shakes = ("site.ground", "in an earthquake area");
    pair("wire-where-it-shakes", &[shakes], "fixing.kind", "two rings", "a wire over two hooks");
    pair("glass-where-it-shakes", &[shakes], "piece.all.glazing", "acrylic", "glass");
    check(
        "wire-where-it-shakes",
        &changed(Plan::starting(), &[("fixing.kind", "a wire over two hooks")]),
        false,
    );
}

/// Each piece is 21 1/8 in at its shorter side and 1 1/8 in deep.
#[test]
fn the_way_there() {
    for (way, any, stated, code) in [
        ("site.door", "no narrow door", "a door of", "door-too-narrow"),
        ("site.stairs", "no narrow stairs", "stairs with a turn of", "stairs-too-narrow"),
        ("site.car", "no car", "a car with an opening of", "car-too-small"),
    ] {
        let size = format!("{way}.size");
        pair(code, &[(way, stated)], &size, "21 1/8 x 10", "21 1/16 x 10");
        pair(code, &[(way, stated)], &size, "1 1/8 x 30", "1 1/16 x 30");
        check(code, &changed(Plan::starting(), &[(way, stated), (&size, "2 x 2"), (way, any)]), false);
    }
    // Tilted it may pass where the diagonal is longer: 15² + 15² = 21.2².
    let sentence = |size: &str| {
        let plan =
            changed(Plan::starting(), &[("site.car", "a car with an opening of"), ("site.car.size", size)]);
        let found = found(&plan, &Stock::offered());
        found.into_iter().find(|found| found.code == "car-too-small").map(|found| found.sentence)
    };
    assert!(sentence("15 x 15").expect("a finding").ends_with("Tilted, it may: measure first."));
    assert!(sentence("14 x 14").expect("a finding").ends_with("Tilted, it does not either."));
}

/// A box is 4 in longer, wider and higher than what is in it: 29 1/8 in.
#[test]
fn parcels() {
    let plan = Plan::starting();
    for (longest, expected) in [("29 1/8 in", false), ("29 1/16 in", true)] {
        let text = format!(
            r#"{{ "overmantel_stock": 1, "parcels": {{ "replace": [{{ "name": "ours", "longest": "{longest}" }}] }} }}"#
        );
        let found = found(&plan, &Stock::read(&text).expect("a stock"));
        assert_eq!(found.iter().any(|found| found.code == "no-parcel"), expected, "{longest}");
    }
}

/// A door's casing is 2 1/2 in wide (2 1/4 to 3 1/2 in: common practice, no source) and counts as the door does. Of 36 in from 20 in on, the
/// door takes the wall up to 58 1/2; in a corner its casing would reach past the wall.
#[test]
fn casings_take_their_wall() {
    let door = [
        ("fixtures.add", "door"),
        ("fixture.1.across", "from the left corner"),
        ("fixture.1.distance", "20"),
        ("fixture.1.width", "36"),
    ];
    pair("covers-a-fixture", &door, "group.left", "58 1/2", "58 7/16");
    let door = [("fixtures.add", "door"), ("fixture.1.across", "from the left corner")];
    pair("past-the-wall", &door, "fixture.1.distance", "2 1/2", "2 7/16");
    let right = [("fixtures.add", "door"), ("fixture.1.across", "from the right corner")];
    pair("past-the-wall", &right, "fixture.1.distance", "2 1/2", "0");
    // A door that is itself past the wall is told of once.
    let plan =
        changed(Plan::starting(), &[("fixtures.add", "door"), ("fixture.1.across", "from the left corner")]);
    let past = changed(plan, &[("fixture.1.distance", "-1")]);
    check("beyond-the-wall", &past, true);
    check("past-the-wall", &past, false);
}

/// Two things in the wall are not in one place, and neither are two that stand before it; a sofa may stand before a window.
#[test]
fn two_things_are_in_two_places() {
    let window = [
        ("fixtures.add", "window"),
        ("fixture.1.across", "from the left corner"),
        ("fixture.1.distance", "80"),
    ];
    check("two-in-one-place", &changed(Plan::starting(), &window), false);
    // Two switches 2 3/4 in wide.
    let switches = [
        ("fixtures.add", "light switch"),
        ("fixtures.add", "light switch"),
        ("fixture.1.across", "from the left corner"),
        ("fixture.1.distance", "10"),
        ("fixture.2.across", "from the left corner"),
    ];
    pair("two-in-one-place", &switches, "fixture.2.distance", "12 3/4", "12 11/16");
}

/// A curtain is covered as a door is; a beam is the ceiling of what hangs below it; both cross what is there. The group is from 37 5/16 to
/// 106 11/16 in, and 67 1/8 in up; 6 in under a ceiling look better (common practice, no source).
#[test]
fn what_runs_along_the_wall() {
    let curtain = [
        ("fixtures.add", "curtain"),
        ("fixture.1.across", "from the left corner"),
        ("fixture.1.width", "30"),
    ];
    pair("covers-a-fixture", &curtain, "fixture.1.distance", "7 5/16", "7 3/8");
    let beam = [("fixtures.add", "beam")];
    pair("near-the-ceiling", &beam, "fixture.1.from_floor", "73 1/8", "73 1/16");
    let window = [("fixtures.add", "window"), ("fixtures.add", "curtain"), ("fixtures.add", "beam")];
    let rail = [("fixtures.add", "picture rail"), ("fixture.2.across", "in the middle")];
    let plan = changed(changed(Plan::starting(), &window), &rail);
    check("two-in-one-place", &plan, false);
}

/// Stairs of 100 by 77 1/2 in from 22 in on have ten steps: below the group's right end, 84 11/16 in from their foot, the nosings are
/// 7 3/4 + 31/40 × 84 11/16 = 73 49/128 in up.
#[test]
fn stairs_take_the_wall_below_their_nosings() {
    let stairs = [
        ("wall.height", "120"),
        ("fixtures.add", "flight of stairs"),
        ("fixture.1.across", "from the left corner"),
        ("fixture.1.distance", "22"),
    ];
    pair("covers-a-fixture", &stairs, "group.bottom", "73 7/16", "73 3/8");
    // Rising to the left, the left end is the nearest: 22 + 100 - 37 5/16 is as far from the foot.
    let left = changed(changed(Plan::starting(), &stairs), &[("fixture.1.rise", "rises to the left")]);
    check("covers-a-fixture", &changed(left.clone(), &[("group.bottom", "73 7/16")]), false);
    check("covers-a-fixture", &changed(left, &[("group.bottom", "73 3/8")]), true);
}

/// How wide a casing is can be stated: one of 4 in takes 4 in beside its door, and none takes nothing.
#[test]
fn casings_as_they_are_stated() {
    let door = ("fixtures.add", "door");
    let plan = changed(Plan::starting(), &[door, ("group.up", "centred at eye level")]);
    let index = plan.fixtures.len() - 1;
    let taken = |casing: &str| {
        let plan = changed(plan.clone(), &[(&format!("fixture.{index}.casing"), casing)]);
        let figures = Figures::of(&plan).expect("figures");
        let (door, taken) = (figures.arranged.fixtures[index], figures.arranged.taken[index]);
        (door.x - taken.x, taken.right() - door.right(), taken.top() - door.top(), door.y - taken.y)
    };
    let four = overmantel::length::Length::inches(4);
    let none = overmantel::length::Length::ZERO;
    assert_eq!(taken("4"), (four, four, four, none), "none below a door");
    assert_eq!(taken("0"), (none, none, none, none));
}
