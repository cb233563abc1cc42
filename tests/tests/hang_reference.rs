//! Hooks, wires, rows and clearances against worked examples.
//!
//! No expected value here was computed by Overmantel: all are geometry, worked out on paper from the formula that stands
//! above each table; the sources of the habits behind them are named there.

use overmantel::arrange::{Arranged, arrange};
use overmantel::framing::build_up;
use overmantel::geometry::{Point, Rect, Size};
use overmantel::hang::{HangError, HangerPlaces, Hanging, hang, hanger_places, is_held, rise};
use overmantel::length::{Length, Unit};
use overmantel::plan::{
    Across, Align, Arrangement, Fixing, Fixture, FixtureKind, GroupAcross, GroupUp, Hanger, HangerPlace,
    Plan, Wall,
};
use overmantel_tests::given::{changed, length_in, lengths_in};

const IN: Unit = Unit::Inch;
const MM: Unit = Unit::Millimetre;

#[track_caller]
fn hung(outside: Rect, fixing: Fixing) -> Hanging {
    hang(outside, fixing, HangerPlaces::default()).unwrap_or_else(|error| panic!("{error}"))
}

/// A piece of this size whose middle is at a point.
fn centred_at(x: Length, y: Length, width: Length, height: Length) -> Rect {
    Rect::new(x - width.half(), y - height.half(), Size::new(width, height))
}

/// Whether a length is what was worked out to so many decimals of its unit.
#[track_caller]
fn assert_near(found: Length, expected: f64, unit: Unit, half_of_the_last_place: f64) {
    let found = found.per(unit);
    assert!((found - expected).abs() <= half_of_the_last_place, "{found} is not {expected}");
}

/// y of the hook = centre + height / 2 - drop; h is the outside height. Hanging by the centre at 57 to 60 in, or 145 to 150 cm, is
/// common practice, no source.
#[test]
fn hooks_from_the_floor() {
    let check = |unit, [centre, height, drop]: [&str; 3], hook: &str, [top, bottom]: [&str; 2]| {
        let (centre, height) = (length_in(centre, unit), length_in(height, unit));
        let outside = centred_at(Length::inches(72), centre, Length::inches(20), height);
        let fixing = Fixing {
            hanger: Hanger::Rings,
            from_sides: HangerPlace::At(Length::inches(1)),
            down: HangerPlace::At(length_in(drop, unit)),
        };
        let hanging = hung(outside, fixing);
        assert_eq!(
            hanging.hooks.iter().map(|hook| hook.y).collect::<Vec<_>>(),
            vec![length_in(hook, unit); 2]
        );
        assert_eq!((outside.top(), outside.y), (length_in(top, unit), length_in(bottom, unit)));
        assert_eq!(hanging.drop, length_in(drop, unit));
    };
    check(IN, ["57", "24", "3"], "66", ["69", "45"]);
    check(IN, ["58", "30", "4.5"], "68.5", ["73", "43"]);
    check(IN, ["60", "36", "5.25"], "72.75", ["78", "42"]);
    check(MM, ["1450", "700", "60"], "1740", ["1800", "1100"]);
    check(MM, ["1524", "914.4", "76.2"], "1905", ["1981.2", "1066.8"]);
    // A nail at the very top, as one much copied example has it: 60 + 36 / 2.
    check(IN, ["60", "36", "0"], "78", ["78", "42"]);
}

/// x = middle -+ (outside width / 2 - from_sides), y = centre + h / 2 - depth of the rings.
#[test]
fn two_rings_without_a_wire() {
    let check =
        |[middle, width, from_sides]: [&str; 3], [centre, height, down]: [&str; 3], expected: [&str; 3]| {
            let by = |text| length_in(text, IN);
            let outside = centred_at(by(middle), by(centre), by(width), by(height));
            let hanging = hung(
                outside,
                Fixing {
                    hanger: Hanger::Rings,
                    from_sides: HangerPlace::At(by(from_sides)),
                    down: HangerPlace::At(by(down)),
                },
            );
            let [left, right, y] = expected.map(by);
            assert_eq!(hanging.hooks, [Point::new(left, y), Point::new(right, y)]);
            assert_eq!((hanging.span, hanging.wire), (right - left, None));
        };
    check(["72", "38.125", "1"], ["57", "26.125", "6"], ["53.9375", "90.0625", "64.0625"]);
    check(["72", "26.125", ".75"], ["58", "38.125", "9"], ["59.6875", "84.3125", "68.0625"]);
}

/// Over one hook: r = √((L/2)² - (s/2)²), angle = atan(2r / s).
#[test]
fn wire_over_one_hook() {
    let check = |unit, span: &str, wire: &str, expected: f64, degrees: f64| {
        let (span, wire) = (length_in(span, unit), length_in(wire, unit));
        let half_of_the_last_place = if unit == MM { 0.0005 } else { 0.000_05 };
        assert_near(rise(span, wire, Length::ZERO), expected, unit, half_of_the_last_place);
        let from_sides = Length::inches(1);
        let outside =
            centred_at(Length::inches(72), Length::inches(57), span + from_sides * 2, Length::inches(30));
        let fixing = Fixing {
            hanger: Hanger::Wire { slack: wire - span, hooks_apart: None },
            from_sides: HangerPlace::At(from_sides),
            down: HangerPlace::At(Length::inches(10)),
        };
        let hanging = hung(outside, fixing);
        let found = hanging.wire.unwrap_or_else(|| panic!("no wire"));
        assert_near(found.rise, expected, unit, half_of_the_last_place);
        assert!((found.angle_degrees() - degrees).abs() <= 0.000_5, "{}", found.angle_degrees());
        assert_eq!((found.length, hanging.span), (wire, span));
        assert_eq!(hanging.hooks.len(), 1);
        assert_eq!(hanging.hooks[0].x, Length::inches(72), "in the middle");
    };
    check(MM, "400", "420", 64.031, 17.753);
    check(MM, "400", "440", 91.652, 24.620);
    check(MM, "300", "320", 55.678, 20.364);
    check(MM, "600", "620", 78.102, 14.593);
    check(IN, "16", "17", 2.8723, 19.750);
    check(IN, "20", "21", 3.2016, 17.753);
    check(IN, "22", "24", 4.7958, 23.556);
    // 3, 4, 5: the one that is whole.
    assert_eq!(rise(Length::inches(6), Length::inches(10), Length::ZERO), Length::inches(4));
    assert_eq!(rise(Length::inches(6), Length::inches(6), Length::ZERO), Length::ZERO, "a taut wire");
}

/// Drop = depth of the rings - r; hook = centre + h / 2 - drop.
#[test]
fn hook_of_a_wired_piece() {
    let check = |[height, down, span, wire]: [&str; 4], drop: f64, hook: f64| {
        let by = |text| length_in(text, IN);
        let from_sides = Length::inches_ratio(3, 8);
        let outside =
            centred_at(Length::inches(72), Length::inches(57), by(span) + from_sides * 2, by(height));
        let fixing = Fixing {
            hanger: Hanger::Wire { slack: by(wire) - by(span), hooks_apart: None },
            from_sides: HangerPlace::At(from_sides),
            down: HangerPlace::At(by(down)),
        };
        let hanging = hung(outside, fixing);
        assert_near(hanging.drop, drop, IN, 0.000_05);
        assert_near(hanging.hooks[0].y, hook, IN, 0.000_05);
    };
    check(["24", "8", "16", "17"], 5.1277, 63.8723);
    check(["36", "12", "20", "22"], 7.4174, 67.5826);
    check(["30", "7.5", "22", "24"], 2.7042, 69.2958);
}

/// Over two hooks g apart: r = √(((L - g)/2)² - ((s - g)/2)²), angle = atan(2r / (s - g)).
#[test]
fn wire_over_two_hooks() {
    let check = |unit, [span, wire, apart]: [&str; 3], expected: f64, degrees: f64| {
        let (span, wire, apart) = (length_in(span, unit), length_in(wire, unit), length_in(apart, unit));
        let half_of_the_last_place = if unit == MM { 0.0005 } else { 0.000_05 };
        let from_sides = Length::inches(1);
        let middle = Length::inches(72);
        let outside = centred_at(middle, Length::inches(57), span + from_sides * 2, Length::inches(30));
        let fixing = Fixing {
            hanger: Hanger::Wire { slack: wire - span, hooks_apart: Some(apart) },
            from_sides: HangerPlace::At(from_sides),
            down: HangerPlace::At(Length::inches(10)),
        };
        let hanging = hung(outside, fixing);
        let found = hanging.wire.unwrap_or_else(|| panic!("no wire"));
        assert_near(found.rise, expected, unit, half_of_the_last_place);
        assert!((found.angle_degrees() - degrees).abs() <= 0.000_5, "{}", found.angle_degrees());
        let [left, right] = hanging.hooks[..] else { panic!("{} hooks", hanging.hooks.len()) };
        assert_eq!((right.x - left.x, right.y), (apart, left.y), "level, and so far apart");
        assert_eq!(left.x, middle - apart.half(), "in the middle");
        assert_eq!(left.y, outside.top() - Length::inches(10) + found.rise);
    };
    check(MM, ["400", "440", "133.333"], 75.719, 29.592);
    check(MM, ["400", "440", "200"], 66.332, 33.557);
    check(MM, ["600", "660", "300"], 99.499, 33.557);
    check(IN, ["20", "22", "8"], 3.6056, 31.003);
}

/// What can't be hung is refused with the numbers and a way out.
#[test]
fn fixings_without_an_answer() {
    let outside = Rect::new(Length::ZERO, Length::inches(40), Size::inches(10, 12));
    let by = Length::inches;
    let error = hang(
        outside,
        Fixing { hanger: Hanger::Rings, from_sides: HangerPlace::At(by(5)), down: HangerPlace::At(by(3)) },
        HangerPlaces::default(),
    )
    .expect_err("no span");
    assert_eq!(error, HangError::NoSpan { from_sides: by(5), width: by(10) });
    assert_eq!(
        error.to_string(),
        "hangers 5 in from each side of a piece 10 in wide leave no distance between them; move them nearer to the sides"
    );
    let wire = Fixing {
        hanger: Hanger::Wire { slack: by(1), hooks_apart: Some(by(8)) },
        from_sides: HangerPlace::At(by(1)),
        down: HangerPlace::At(by(3)),
    };
    let error = hang(outside, wire, HangerPlaces::default()).expect_err("no legs");
    assert_eq!(error, HangError::HooksTooFarApart { apart: by(8), span: by(8) });
    assert_eq!(
        error.to_string(),
        "two hooks 8 in apart can't carry a wire between rings 8 in apart; bring the hooks closer together"
    );
}

/// A wall of this width with pieces of these widths in a row, 20 in high.
fn row(wall: Length, widths: &[Length], gap: Length) -> Arranged {
    let starting = Plan::starting();
    let plan = Plan {
        wall: Wall { size: Size::new(wall, Length::inches(96)), ..starting.wall.clone() },
        fixtures: Vec::new(),
        group: overmantel::plan::Group {
            arrangement: Arrangement::Row,
            gap,
            align: Align::Centre,
            across: GroupAcross::WallMiddle,
            up: GroupUp::EyeLevel,
        },
        ..starting
    };
    let outsides: Vec<Size> = widths.iter().map(|&width| Size::new(width, Length::inches(20))).collect();
    arrange(&plan, &outsides)
}

/// total = Σ widths + (n - 1) × gap; first left = (wall - total) / 2. Gaps are from outside to outside.
#[test]
fn rows_in_the_middle_of_a_wall() {
    let check = |unit, [wall, widths, gap]: [&str; 3], total: &str, lefts: &str, centres: &str| {
        let arranged = row(length_in(wall, unit), &lengths_in(widths, unit), length_in(gap, unit));
        assert_eq!(arranged.group.size.width, length_in(total, unit));
        let found: Vec<Length> = arranged.outsides.iter().map(|piece| piece.x).collect();
        assert_eq!(found, lengths_in(lefts, unit), "left edges");
        let found: Vec<Length> = arranged.outsides.iter().map(|piece| piece.centre().x).collect();
        assert_eq!(found, lengths_in(centres, unit), "middles");
        arranged.group.right()
    };
    let threes = ["144", "26.125 26.125 26.125", "3"];
    let right = check(IN, threes, "84.375", "29.8125 58.9375 88.0625", "42.875 72 101.125");
    assert_eq!(right, length_in("114.1875", IN));
    check(MM, ["3600", "531 531 531", "60"], "1713", "943.5 1534.5 2125.5", "1209 1800 2391");
    check(IN, ["120", "20 30 20", "2.5"], "75", "22.5 45 77.5", "32.5 60 87.5");
}

/// Bottom edge = top of the furniture + clearance; centre = that + h / 2. Six to ten inches (15 to 25 cm) of clearance are common
/// practice, no source.
#[test]
fn above_furniture() {
    let check = |[back, clearance, height]: [&str; 3], centre: &str, top: &str| {
        let by = |text| length_in(text, IN);
        let sofa = Fixture {
            size: Size::new(Length::inches(84), by(back)),
            across: Across::FromLeft(Length::inches(10)),
            ..Fixture::starting(FixtureKind::Sofa)
        };
        let starting = Plan::starting();
        let plan = Plan {
            fixtures: vec![sofa],
            group: overmantel::plan::Group {
                across: GroupAcross::FixtureMiddle(0),
                up: GroupUp::Above { fixture: 0, clearance: by(clearance) },
                ..starting.group
            },
            ..starting
        };
        let arranged = arrange(&plan, &[Size::new(Length::inches(20), by(height))]);
        assert_eq!(arranged.group.centre().y, by(centre));
        assert_eq!(arranged.group.top(), by(top));
        assert_eq!(arranged.group.y - arranged.fixtures[0].top(), by(clearance));
        assert_eq!(arranged.group.centre().x, Length::inches(52), "10 + 84 / 2");
    };
    check(["34", "8", "26.125"], "55.0625", "68.125");
    check(["36", "6", "38.125"], "61.0625", "80.125");
    check(["33", "10", "24"], "55", "67");
    check(["37", "8", "40"], "65", "85");
}

/// Stairs of 7 in rise: the middle of each piece 7 in above the one before, the group's middle at its centre height.
/// Worked out on paper: pieces 20 x 20 with a gap of 4 in make 68 in across and 20 + 2 × 7 = 34 in up.
#[test]
fn stepped_along_stairs() {
    let starting = Plan::starting();
    let plan = |rise| Plan {
        fixtures: Vec::new(),
        group: overmantel::plan::Group {
            arrangement: Arrangement::Stepped(Length::inches(rise)),
            gap: Length::inches(4),
            across: GroupAcross::WallMiddle,
            up: GroupUp::CentreAt(Length::inches(60)),
            ..starting.group
        },
        ..starting.clone()
    };
    let corners = |rise| {
        let arranged = arrange(&plan(rise), &[Size::inches(20, 20); 3]);
        arranged.outsides.iter().map(|piece| (piece.x, piece.y)).collect::<Vec<_>>()
    };
    let at = |x, y| (Length::inches(x), Length::inches(y));
    assert_eq!(corners(7), [at(38, 43), at(62, 50), at(86, 57)]);
    assert_eq!(corners(-7), [at(38, 57), at(62, 50), at(86, 43)]);
}

/// Unequal pieces on one line: heights 20 and 30 in a row, widths 20 and 30 in a column, 3 in apart, centred at 60 in.
#[test]
fn aligned_edges() {
    let check = |arrangement, align, expected: [(&str, &str); 2]| {
        let starting = Plan::starting();
        let plan = Plan {
            fixtures: Vec::new(),
            group: overmantel::plan::Group {
                arrangement,
                gap: Length::inches(3),
                align,
                across: GroupAcross::CentreAt(Length::inches(70)),
                up: GroupUp::CentreAt(Length::inches(60)),
            },
            ..starting
        };
        let arranged = arrange(&plan, &[Size::inches(20, 20), Size::inches(30, 30)]);
        let found: Vec<_> = arranged.outsides.iter().map(|piece| (piece.x, piece.y)).collect();
        let expected = expected.map(|(x, y)| (length_in(x, IN), length_in(y, IN)));
        assert_eq!(found, expected, "{arrangement:?} {align:?}");
    };
    // Across: 20 + 3 + 30 = 53, so from 43.5 to 96.5.
    check(Arrangement::Row, Align::Centre, [("43.5", "50"), ("66.5", "45")]);
    check(Arrangement::Row, Align::Start, [("43.5", "55"), ("66.5", "45")]);
    check(Arrangement::Row, Align::End, [("43.5", "45"), ("66.5", "45")]);
    // Up: from 33.5 to 86.5, the first at the top.
    check(Arrangement::Column, Align::Centre, [("60", "66.5"), ("55", "33.5")]);
    check(Arrangement::Column, Align::Start, [("55", "66.5"), ("55", "33.5")]);
    check(Arrangement::Column, Align::End, [("65", "66.5"), ("55", "33.5")]);
}

/// At eye level the middle of the group is at 57 in: 57 + 12 = 69, 57 - 12 = 45.
#[test]
fn at_eye_level() {
    let mut plan = Plan::starting();
    plan.viewing.eye_level = Length::inches(57);
    plan.group.up = GroupUp::EyeLevel;
    let arranged = arrange(&plan, &[Size::inches(20, 24)]);
    assert_eq!([arranged.group.top(), arranged.group.y], [69, 45].map(Length::inches));
}

/// Rings left to the piece: a quarter of the height down, a third with a wire (common practice, no source), in the middle of what
/// holds them. Worked out on paper.
#[test]
fn rings_that_follow_the_piece() {
    let place = |plan: &Plan, has_wire| {
        let rings = hanger_places(&build_up(&plan.pieces[0]).expect("a piece"), has_wire);
        (rings.from_sides, rings.down)
    };
    let by = Length::inches_ratio;
    // A face of 3/4 in; 16 × 20 in a mat and a frame is 25 1/8 in high.
    let plan = Plan::starting();
    assert_eq!(place(&plan, Hanger::Rings), (by(3, 8), by(201, 32)), "25 1/8 / 4 = 6 9/32");
    assert_eq!(place(&plan, Hanger::wire(None)), (by(3, 8), by(201, 24)), "25 1/8 / 3");
    // A rabbet of 1/2 in leaves 1/4 in of a face of 3/4 in: its middle.
    let plan = changed(Plan::starting(), &[("piece.all.frame.rabbet_width", "1/2")]);
    assert_eq!(place(&plan, Hanger::Rings).0, by(1, 8));
    // A canvas of 16 × 20 in on bars of 1 1/4 in.
    let plan = changed(Plan::starting(), &[("piece.all.material", "canvas")]);
    assert_eq!(place(&plan, Hanger::Rings), (by(5, 8), by(5, 1)));
    // Aluminium on blocks of 2 in that begin 1 1/2 in from the edges: there, whatever the height.
    let plan = changed(Plan::starting(), &[("piece.all.material", "aluminium")]);
    assert_eq!(place(&plan, Hanger::Rings), (by(5, 2), by(5, 2)));
    // On bars 60 to 80 mm from the edges.
    let bars = [
        ("piece.all.aluminium.back", "on a sub-frame"),
        ("piece.all.sub_frame.inset", "60 mm"),
        ("piece.all.sub_frame.width", "20 mm"),
    ];
    let plan = changed(plan, &bars);
    assert_eq!(place(&plan, Hanger::Rings), (Length::mm(70), by(5, 1)));
}

/// Hangers left to the piece (common practice, no source), worked out on paper: a cleat and a row of teeth are in the middle of the
/// upper leg, keyhole plates where rings would be.
#[test]
fn hangers_that_follow_the_piece() {
    let by = Length::inches_ratio;
    let place = |plan: &Plan, hanger| {
        let sizes = build_up(&plan.pieces[0]).expect("a piece");
        let places = hanger_places(&sizes, hanger);
        assert!(is_held(&sizes, places), "{hanger:?}");
        (places.from_sides, places.down)
    };
    // A face of 3/4 in, of which the rabbet takes 1/4: the leg behind is 1/2 in, its middle at 1/4 in; 21 1/8 in wide.
    let framed = Plan::starting();
    assert_eq!(place(&framed, Hanger::Cleat), (by(2, 1), by(1, 4)));
    assert_eq!(place(&framed, Hanger::Sawtooth), (by(169, 16), by(1, 4)));
    assert_eq!(place(&framed, Hanger::Keyholes), place(&framed, Hanger::Rings));
    // A canvas of 16 × 20 in on bars of 1 1/4 in.
    let canvas = changed(Plan::starting(), &[("piece.all.material", "canvas")]);
    assert_eq!(place(&canvas, Hanger::Cleat), (by(2, 1), by(5, 8)));
    assert_eq!(place(&canvas, Hanger::Sawtooth), (by(8, 1), by(5, 8)));
    // However narrow: a quarter of 6 in.
    let narrow = changed(canvas, &[("piece.all.width", "6")]);
    assert_eq!(place(&narrow, Hanger::Cleat), (by(3, 2), by(5, 8)));
    // On blocks of 2 in that begin 1 1/2 in from the edges a cleat goes from the middle of one to that of the other; teeth hang on nothing.
    let metal = changed(Plan::starting(), &[("piece.all.material", "aluminium")]);
    assert_eq!(place(&metal, Hanger::Cleat), (by(5, 2), by(5, 2)));
    let sizes = build_up(&metal.pieces[0]).expect("a piece");
    assert!(!is_held(&sizes, hanger_places(&sizes, Hanger::Sawtooth)));
}

/// y = centre + height / 2 - drop, as for rings; x at the ends of a cleat, at the plates, in the middle for teeth.
#[test]
fn cleats_teeth_and_keyholes() {
    let by = Length::inches_ratio;
    let outside = centred_at(Length::inches(72), Length::inches(57), Length::inches(30), Length::inches(24));
    let hung = |hanger, from_sides| {
        let down = HangerPlace::At(Length::inches(3));
        hung(outside, Fixing { hanger, from_sides: HangerPlace::At(from_sides), down })
    };
    // 57 + 12 - 3 = 66 in; 72 -+ 15 +- 2.
    let cleat = hung(Hanger::Cleat, Length::inches(2));
    assert_eq!(cleat.hooks, [Point::new(by(59, 1), by(66, 1)), Point::new(by(85, 1), by(66, 1))]);
    assert_eq!((cleat.span, cleat.drop, cleat.off_wall), (by(26, 1), by(3, 1), by(1, 2)));
    let plates = hung(Hanger::Keyholes, by(3, 4));
    assert_eq!(plates.hooks, [Point::new(by(231, 4), by(66, 1)), Point::new(by(345, 4), by(66, 1))]);
    assert_eq!((plates.drop, plates.off_wall), (by(3, 1), Length::ZERO));
    let teeth = hung(Hanger::Sawtooth, Length::ZERO);
    assert_eq!(teeth.hooks, [Point::new(by(72, 1), by(66, 1))]);
    assert_eq!((teeth.drop, teeth.span, teeth.wire), (by(3, 1), Length::ZERO, None));
}

/// Pull along each leg in weights of the piece, T / W = 1 / (2 sin a), and inwards on each ring 1 / (2 tan a): geometry, worked out to
/// five decimals with another program. Legs of 300 mm at an angle a run by 300 cos a, to the micrometre; at 5 degrees half of one is 2/10,000 of
/// the rise.
#[test]
fn the_pull_of_a_wire() {
    let check = |run_um: i64, along: f64, inwards: f64| {
        let (span, legs) = (Length::micrometres(run_um * 2), Length::mm(600));
        let outside = centred_at(Length::mm(2000), Length::mm(1500), Length::mm(800), Length::mm(700));
        let fixing = |apart: i64| {
            let apart = Length::mm(apart);
            let hooks_apart = (apart > Length::ZERO).then_some(apart);
            Fixing {
                hanger: Hanger::Wire { slack: legs - span, hooks_apart },
                from_sides: HangerPlace::At((Length::mm(800) - span - apart).half()),
                down: HangerPlace::At(Length::mm(350)),
            }
        };
        // The same legs over one hook, and over two that are 100 mm apart.
        for hanging in [0, 100].map(|apart| hung(outside, fixing(apart))) {
            let near = |found: Option<overmantel::print::Exact>, expected: f64| {
                let found = found.unwrap_or_default();
                #[expect(clippy::cast_precision_loss, reason = "to 3/10,000")]
                let found = *found.numer() as f64 / *found.denom() as f64;
                assert!((found - expected).abs() < 3e-4 * expected, "{found} is not {expected}");
            };
            let wire = hanging.wire.expect("a wire");
            near(wire.pull(), along);
            near(wire.pull_inwards(), inwards);
        }
    };
    check(298_858, 5.736_86, 5.715_03); // 5 degrees
    check(289_778, 1.931_85, 1.866_03); // 15
    check(259_808, 1.0, 0.866_03); // 30
    check(212_132, std::f64::consts::FRAC_1_SQRT_2, 0.5); // 45
    check(150_000, 0.577_35, 0.288_68); // 60
    // Taut from ring to ring: without a rise it would be pulled without end.
    let place = HangerPlace::At(Length::mm(100));
    let hanger = Hanger::Wire { slack: Length::ZERO, hooks_apart: None };
    let taut = Fixing { hanger, from_sides: place, down: place };
    let hanging = hung(centred_at(Length::mm(900), Length::mm(900), Length::mm(600), Length::mm(600)), taut);
    let wire = hanging.wire.expect("a wire");
    assert_eq!((wire.pull(), wire.pull_inwards()), (None, None));
}
