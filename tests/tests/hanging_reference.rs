//! Places on the wall and hooks against worked values.
//!
//! Rows are geometry, worked out by hand; a wire over one hook is Pythagoras. The heights and gaps themselves are common
//! practice, no source.

use overmantel::arrange::arrange;
use overmantel::geometry::{Rect, Size};
use overmantel::hang::{hang, rise};
use overmantel::length::parse::parse;
use overmantel::length::{Length, Unit};
use overmantel::plan::{Align, Arrangement, Fixing, GroupAcross, GroupUp, Plan};

fn l(text: &str) -> Length {
    parse(text, Unit::Inch).expect("rows hold lengths")
}

/// A piece of this height whose centre is at a height, far enough from the corner.
fn piece(width: &str, height: &str, centre: &str) -> Rect {
    Rect::new(l("10"), l(centre) - l(height).half(), Size::new(l(width), l(height)))
}

#[test]
fn hooks_from_centre_height_and_drop() {
    // Centre, height, drop -> hook, upper edge, lower edge.
    let rows = [
        ("57", "24", "3", "66", "69", "45"),
        ("58", "30", "4.5", "68.5", "73", "43"),
        ("60", "36", "5.25", "72.75", "78", "42"),
        ("1450 mm", "700 mm", "60 mm", "1740 mm", "1800 mm", "1100 mm"),
        ("1524 mm", "914.4 mm", "76.2 mm", "1905 mm", "1981.2 mm", "1066.8 mm"),
    ];
    for (centre, height, drop, hook, top, bottom) in rows {
        let outside = piece("20", height, centre);
        assert_eq!([outside.top(), outside.y], [l(top), l(bottom)]);
        let hung = hang(outside, Fixing::Rings { inset: l("1"), down: l(drop) }).expect("it can hang");
        assert!(hung.hooks.iter().all(|point| point.y == l(hook)), "{centre}, {height}, {drop}");
    }
}

#[test]
fn two_rings_without_a_wire() {
    // Middle 72, width 38 1/8, inset 1, centre 57, height 26 1/8, 6 down -> x 53 15/16 and 90 1/16, y 64 1/16.
    let outside = Rect::new(
        l("72") - l("38.125").half(),
        l("57") - l("26.125").half(),
        Size::new(l("38.125"), l("26.125")),
    );
    let hung = hang(outside, Fixing::Rings { inset: l("1"), down: l("6") }).expect("it can hang");
    assert_eq!([hung.hooks[0].x, hung.hooks[1].x], [l("53.9375"), l("90.0625")]);
    assert_eq!(hung.hooks[0].y, l("64.0625"));
}

#[test]
fn the_rise_of_a_wire() {
    // Span, wire, hooks apart (mm) -> rise to 0.001 mm, angle to 0.001°.
    let rows = [
        (400, 420, 0, 64.031, 17.753),
        (400, 440, 0, 91.652, 24.620),
        (300, 320, 0, 55.678, 20.364),
        (600, 620, 0, 78.103, 14.593),
        (400, 440, 200, 66.332, 33.557),
        (600, 660, 300, 99.499, 33.557),
    ];
    for (span, wire, apart, expected, angle) in rows {
        let [span, wire, apart] = [span, wire, apart].map(Length::mm);
        let found = rise(span, wire, apart);
        assert!((found.to_mm() - expected).abs() <= 0.0006, "{} mm", found.to_mm());
        let outside =
            Rect::new(Length::mm(500), Length::mm(1000), Size::new(span + Length::mm(20), Length::mm(600)));
        let fixing = Fixing::Wire {
            inset: Length::mm(10),
            down: Length::mm(200),
            slack: wire - span,
            hooks_apart: (apart > Length::ZERO).then_some(apart),
        };
        let hung = hang(outside, fixing).expect("it can hang");
        let made = hung.wire.expect("there is a wire");
        assert_eq!((hung.span, made.length, made.rise), (span, wire, found));
        assert!((made.angle_degrees() - angle).abs() <= 0.0006, "{}°", made.angle_degrees());
        assert_eq!(
            hung.hooks[0].y,
            outside.top() - Length::mm(200) + found,
            "the hook is above the rings by the rise"
        );
        assert_eq!(hung.hooks.len(), if apart > Length::ZERO { 2 } else { 1 });
    }
}

#[test]
fn a_wire_that_is_not_longer_than_its_span_does_not_rise() {
    assert_eq!(rise(Length::mm(400), Length::mm(400), Length::ZERO), Length::ZERO);
}

#[test]
fn hooks_that_leave_no_room_are_refused_with_a_sentence() {
    let outside = piece("10", "12", "57");
    let check = |fixing: Fixing, expected: &str| {
        assert_eq!(hang(outside, fixing).expect_err(expected).to_string(), expected);
    };
    check(
        Fixing::Rings { inset: l("5"), down: l("2") },
        "rings 5 in from each side of a piece 10 in wide leave no distance between them; set them nearer to the sides",
    );
    check(
        Fixing::Wire { inset: l("1"), down: l("4"), slack: l("1"), hooks_apart: Some(l("8")) },
        "two hooks 8 in apart can't carry a wire between rings 8 in apart; bring the hooks closer together",
    );
}

/// The starting plan with another wall and group.
fn row(wall: &str, gap: &str) -> Plan {
    let mut plan = Plan::starting();
    plan.wall.size.width = l(wall);
    plan.group.gap = l(gap);
    plan.group.across = GroupAcross::WallMiddle;
    plan
}

#[test]
fn a_row_in_the_middle_of_a_wall() {
    // Wall; widths; gap -> total; left edges; middles; right edge.
    let arranged = arrange(&row("144", "3"), &[Size::new(l("26.125"), l("38.125")); 3]);
    assert_eq!(arranged.group.size.width, l("84.375"));
    let lefts: Vec<Length> = arranged.outsides.iter().map(|outside| outside.x).collect();
    assert_eq!(lefts, [l("29.8125"), l("58.9375"), l("88.0625")]);
    let middles: Vec<Length> = arranged.outsides.iter().map(|outside| outside.centre().x).collect();
    assert_eq!(middles, [l("42.875"), l("72"), l("101.125")]);
    assert_eq!(arranged.group.right(), l("114.1875"));

    let arranged = arrange(&row("3600 mm", "60 mm"), &[Size::new(l("531 mm"), l("731 mm")); 3]);
    assert_eq!(arranged.group.size.width, l("1713 mm"));
    let lefts: Vec<Length> = arranged.outsides.iter().map(|outside| outside.x).collect();
    assert_eq!(lefts, [l("943.5 mm"), l("1534.5 mm"), l("2125.5 mm")]);

    let sizes = ["20", "30", "20"].map(|width| Size::new(l(width), l("24")));
    let arranged = arrange(&row("120", "2.5"), &sizes);
    let lefts: Vec<Length> = arranged.outsides.iter().map(|outside| outside.x).collect();
    assert_eq!(lefts, [l("22.5"), l("45"), l("77.5")]);
}

#[test]
fn unequal_pieces_on_one_line() {
    let sizes = [Size::inches(20, 30), Size::inches(20, 24)];
    let check = |align: Align, arrangement: Arrangement, expected: [&str; 2]| {
        let mut plan = row("120", "4");
        plan.group.align = align;
        plan.group.arrangement = arrangement;
        let arranged = arrange(&plan, &sizes);
        let feet: Vec<Length> =
            arranged.outsides.iter().map(|outside| outside.y - arranged.group.y).collect();
        assert_eq!(feet, expected.map(l), "{align:?}");
    };
    check(Align::Centre, Arrangement::Row, ["0", "3"]);
    check(Align::Start, Arrangement::Row, ["0", "6"]);
    check(Align::End, Arrangement::Row, ["0", "0"]);
    // Each centre 7 in above the one before: 15 + 7 - 12 = 10.
    check(Align::Centre, Arrangement::Stepped(l("7")), ["0", "10"]);
    check(Align::Centre, Arrangement::Column, ["28", "0"]);
}

#[test]
fn above_furniture() {
    // Back of the sofa, clearance, height -> centre of the group.
    let rows = [
        ("34", "8", "26.125", "55.0625"),
        ("36", "6", "38.125", "61.0625"),
        ("33", "10", "24", "55"),
        ("37", "8", "40", "65"),
    ];
    for (back, clearance, height, centre) in rows {
        let mut plan = Plan::starting();
        plan.fixtures[0].size.height = l(back);
        plan.group.up = GroupUp::Above { fixture: 0, clearance: l(clearance) };
        let arranged = arrange(&plan, &[Size::new(l("20"), l(height)); 2]);
        assert_eq!(arranged.group.centre().y, l(centre));
    }
}

#[test]
fn at_eye_level() {
    let mut plan = Plan::starting();
    plan.viewing.eye_level = l("57");
    plan.group.up = GroupUp::EyeLevel;
    let arranged = arrange(&plan, &[Size::inches(20, 24)]);
    assert_eq!([arranged.group.top(), arranged.group.y], [l("69"), l("45")]);
}
