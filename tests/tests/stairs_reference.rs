//! Pieces above the slope of stairs, and fixtures that run across the wall: by arithmetic on paper. No number is from Overmantel.

use overmantel::arrange::{Arranged, arrange};
use overmantel::desk::Desk;
use overmantel::fields;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::stock::Stock;
use overmantel_tests::given::{self, length};

/// Ten steps of 10 in by 7 3/4 in, from 22 in to 122 in on a wall of 144 in.
fn stairs(rise: Rise) -> Fixture {
    let size = Size::new(Length::inches(100), Length::inches_ratio(155, 2));
    Fixture { rise, size, ..Fixture::starting(FixtureKind::Stairs) }
}

/// Squares of 10 in, 5 in apart, each so much higher than the one before.
fn above(fixture: Fixture, middle: &str, rise: &str, clearance: &str) -> Arranged {
    let mut plan = Plan { fixtures: vec![fixture], ..Plan::starting() };
    plan.wall.size = Size::inches(144, 200);
    plan.group = Group {
        arrangement: Arrangement::Stepped(length(rise)),
        gap: Length::inches(5),
        align: Align::Centre,
        across: GroupAcross::CentreAt(length(middle)),
        up: GroupUp::Above { fixture: 0, clearance: length(clearance) },
    };
    arrange(&plan, &[Size::inches(10, 10); 3])
}

#[track_caller]
fn check_feet(arranged: &Arranged, expected: [&str; 3]) {
    let feet: Vec<_> = arranged.outsides.iter().map(|outside| outside.y).collect();
    assert_eq!(feet, expected.map(length));
}

#[test]
fn the_nearest_piece_is_the_clearance_above_the_nosings() {
    // From 22 in to 62 in. Below the first piece the nosings reach 7 3/4 + 31/40 × 10 = 15 1/2 in, at its right edge. Centres are 15 in
    // apart, and 31/40 of that is 11 5/8: as steep as the stairs, so that all three are 8 in above them.
    check_feet(&above(stairs(Rise::Right), "42", "11.625", "8"), ["23.5", "35.125", "46.75"]);
    // Less steep, the last is the nearest: 7 3/4 + 31/40 × 40 = 38 3/4 in below it.
    check_feet(&above(stairs(Rise::Right), "42", "10", "8"), ["26.75", "36.75", "46.75"]);
    // Steeper, the first is.
    check_feet(&above(stairs(Rise::Right), "42", "14", "8"), ["23.5", "37.5", "51.5"]);
    // Up to the left it is the same from the other end: from 82 in to 122 in.
    check_feet(&above(stairs(Rise::Left), "102", "-11.625", "8"), ["46.75", "35.125", "23.5"]);
}

#[test]
fn beyond_their_ends_stairs_are_as_high_as_their_first_step_and_their_top() {
    // Wholly before the foot: from -30 in to 10 in, where the first step counts.
    check_feet(&above(stairs(Rise::Right), "-10", "0", "8"), ["15.75", "15.75", "15.75"]);
    // Over the top, which is no higher than stated though the next nosing would be.
    check_feet(&above(stairs(Rise::Right), "122", "0", "1"), ["78.5", "78.5", "78.5"]);
}

#[test]
fn a_slope_that_is_not_whole_is_rounded_up_once() {
    // Two steps on 10 in of height, 7 in of width: 1 in from the foot 5 + 10/7 = 45/7 in, or 235,131,428 4/7 of 36,576,000ths.
    let fixture =
        Fixture { size: Size::inches(7, 10), across: Across::FromLeft(Length::ZERO), ..stairs(Rise::Right) };
    let mut plan = Plan { fixtures: vec![fixture], ..Plan::starting() };
    plan.group.across = GroupAcross::CentreAt(Length::ZERO);
    plan.group.up = GroupUp::Above { fixture: 0, clearance: Length::ZERO };
    let arranged = arrange(&plan, &[Size::inches(2, 3)]);
    assert_eq!(arranged.group.y, Length::from_units(235_131_429));
}

#[test]
fn no_step_is_higher_than_seven_and_three_quarters() {
    for (height, steps) in [("77.5", 10), ("77.6", 11), ("7.75", 1), ("1", 1), ("190 cm", 10)] {
        let size = Size::new(Length::inches(100), length(height));
        assert_eq!(Fixture { size, ..stairs(Rise::Right) }.steps(), steps, "{height}");
    }
}

/// A fixture added by its field.
fn added(kind: &str) -> Desk {
    let mut plan = Plan { fixtures: Vec::new(), ..Plan::starting() };
    (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::EyeLevel);
    plan.wall.size = Size::new(Length::mm(4100), Length::mm(2600));
    let mut desk = Desk::new(plan).expect("an answer");
    given::set(&mut desk, "fixtures.add", kind).expect("added");
    desk
}

#[test]
fn what_runs_across_the_wall_is_as_long_as_the_wall_and_under_its_ceiling() {
    let beam = added("beam");
    let stated = &beam.plan().fixtures[0];
    assert_eq!(stated.size.width, Length::mm(4100));
    assert_eq!(stated.from_floor + stated.size.height, Length::mm(2600));
    let rail = added("picture_rail");
    // 7 ft (common practice, no source).
    assert_eq!(
        (rail.plan().fixtures[0].from_floor, rail.plan().fixtures[0].size.width),
        (Length::inches(84), Length::mm(4100))
    );
}

#[test]
fn nothing_hangs_above_what_runs_under_the_ceiling() {
    for (kind, is_offered) in
        [("beam", false), ("picture_rail", false), ("curtain", false), ("desk", true), ("stairs", true)]
    {
        let desk = added(kind);
        let offered = |field| {
            let value = given::read(desk.plan(), desk.stock(), field).expect("a field");
            value.options.iter().any(|option| option.key.ends_with(" 0"))
        };
        assert_eq!((offered("group.up"), offered("group.across")), (is_offered, is_offered), "{kind}");
        let relation = given::field("fixture.0.pictures");
        assert_eq!(fields::read(desk.plan(), &Stock::offered(), relation).is_some(), is_offered, "{kind}");
    }
}

#[test]
fn only_stairs_are_asked_which_way_they_rise() {
    for (kind, is_asked) in [("stairs", true), ("desk", false)] {
        let mut desk = added(kind);
        assert_eq!(given::set(&mut desk, "fixture.0.rise", "left").is_ok(), is_asked, "{kind}");
        assert_eq!(desk.plan().fixtures[0].rise == Rise::Left, is_asked);
    }
}
