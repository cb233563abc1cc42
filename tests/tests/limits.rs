//! Where a plan's check begins to refuse, for everything that is stated of a piece, a frame in hand and a space: the last value taken and
//! the first one refused, on both sides.
//!
//! The limits are our own choice, as DEVELOPERS.md and the plan's schema have them: a piece and its parts up to 10 m, a wall up to
//! 100 m, paper up to 2000 g/m², ratios of 1 to 100 parts, 1 to 2400 pixels to the inch. Lengths are tried to the unit.

use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    Aluminium, Arrangement, Board, Canvas, Extent, Finish, Floater, Frame, Framing, Glazing, InHand, Mat,
    Material, OpeningRule, Original, Paper, Piece, Plan, Shared, SubFrame, Surround, Weighting,
};

const UNIT: Length = Length::from_units(1);
const TEN_METRES: Length = Length::mm(10_000);
const HUNDRED_METRES: Length = Length::mm(100_000);

/// Whether a plan with this change is taken, and if not, that the sentence names what it is about.
#[track_caller]
fn check(what: &str, is_taken: bool, change: impl Fn(&mut Plan)) {
    let mut plan = Plan::starting();
    change(&mut plan);
    match (plan.check(), is_taken) {
        (Ok(()), true) => {}
        (Err(why), false) => assert!(why.to_string().contains(what), "{what} is not named in: {why}"),
        (found, _) => panic!("{what}: {found:?}"),
    }
}

/// From the least to the most a length is taken, and a unit beyond either it is not.
#[track_caller]
fn from_to(what: &str, least: Length, most: Length, change: impl Fn(&mut Plan, Length)) {
    for (length, is_taken) in [(least - UNIT, false), (least, true), (most, true), (most + UNIT, false)] {
        check(what, is_taken, |plan| change(plan, length));
    }
}

/// Nothing to 10 m.
#[track_caller]
fn some(what: &str, change: impl Fn(&mut Plan, Length)) {
    from_to(what, Length::ZERO, TEN_METRES, change);
}

/// More than nothing, to 10 m.
#[track_caller]
fn positive(what: &str, change: impl Fn(&mut Plan, Length)) {
    from_to(what, UNIT, TEN_METRES, change);
}

fn finish(plan: &mut Plan, finish: Finish) {
    plan.pieces[0].finish = finish;
}

fn paper(plan: &mut Plan, change: impl FnOnce(&mut Paper)) {
    let mut stated = Paper::starting();
    change(&mut stated);
    finish(plan, Finish::Paper(stated));
}

fn framing(plan: &mut Plan, change: impl FnOnce(&mut Framing)) {
    paper(plan, |paper| change(&mut paper.framing));
}

fn mat(plan: &mut Plan, change: impl FnOnce(&mut Mat)) {
    let mut stated = Mat::starting();
    change(&mut stated);
    framing(plan, |framing| framing.mat = Some(stated));
}

fn frame(plan: &mut Plan, change: impl FnOnce(&mut Frame)) {
    let mut stated = Frame::starting();
    change(&mut stated);
    framing(plan, |framing| framing.frame = Some(stated));
}

fn canvas(plan: &mut Plan, change: impl FnOnce(&mut Canvas)) {
    let mut stated = Canvas::starting();
    change(&mut stated);
    finish(plan, Finish::Canvas(stated));
}

fn floater(plan: &mut Plan, change: impl FnOnce(&mut Floater)) {
    let mut stated = Floater::starting();
    change(&mut stated);
    canvas(plan, |canvas| canvas.floater = Some(stated));
}

/// On a piece of 16 × 20 in.
fn metal(plan: &mut Plan, change: impl FnOnce(&mut Aluminium)) {
    let mut stated = Aluminium::starting();
    change(&mut stated);
    finish(plan, Finish::Aluminium(stated));
}

fn board(thickness: Length) -> Option<Board> {
    Some(Board { material: Material::MatBoard, thickness })
}

#[test]
fn the_image() {
    positive("the width of piece 1", |plan, side| plan.pieces[0].image.width = side);
    positive("the height of piece 3", |plan, side| plan.pieces[2].image.height = side);
    for (permille, is_taken) in [(0, true), (1000, true), (1001, false)] {
        check("what is kept of the picture in piece 1", is_taken, |plan| {
            plan.pieces[0].focus.x_permille = permille
        });
        check("what is kept of the picture in piece 1", is_taken, |plan| {
            plan.pieces[0].focus.y_permille = permille
        });
    }
    check("a picture that is not in the plan", false, |plan| plan.pieces[0].picture = Some(0));
}

#[test]
fn paper_and_cloth() {
    for (grammage, is_taken) in [(0, true), (2000, true), (2001, false)] {
        check("the weight of the paper of piece 1", is_taken, |plan| {
            paper(plan, |paper| paper.grammage = grammage)
        });
        check("the weight of the canvas of piece 1", is_taken, |plan| {
            canvas(plan, |canvas| canvas.grammage = grammage)
        });
    }
    some("the depth of the stretcher bars of piece 1", |plan, depth| {
        canvas(plan, |canvas| canvas.depth = depth)
    });
    some("the staple margin behind the canvas of piece 1", |plan, fold| {
        canvas(plan, |canvas| canvas.fold = fold)
    });
}

/// Of white paper, and of a mat.
#[test]
fn surrounds() {
    type Set = fn(&mut Plan, Surround);
    let both: [(&str, Set); 2] = [
        ("paper", |plan, surround| paper(plan, |paper| paper.border = surround)),
        ("mat", |plan, surround| mat(plan, |mat| mat.surround = surround)),
    ];
    for (what, set) in both {
        some(what, |plan, border| set(plan, Surround::even(border)));
        let whole = |width, height| Surround::whole(Size::new(width, height));
        positive(what, |plan, side| set(plan, whole(side, TEN_METRES)));
        positive(what, |plan, side| set(plan, whole(TEN_METRES, side)));
        let weighted = |weighting| Surround { extent: Extent::Border(Length::inches(3)), weighting };
        from_to(what, -TEN_METRES, TEN_METRES, |plan, extra| set(plan, weighted(Weighting::Extra(extra))));
        for (parts, is_taken) in [(0, false), (1, true), (100, true), (101, false)] {
            check(what, is_taken, |plan| set(plan, weighted(Weighting::Ratio { head: parts, foot: 3 })));
            check(what, is_taken, |plan| set(plan, weighted(Weighting::Ratio { head: 3, foot: parts })));
        }
    }
}

#[test]
fn mats() {
    for rule in [OpeningRule::Overlap, OpeningRule::Reveal, OpeningRule::Float] {
        some("the overlap, reveal or gap at the mat opening of piece 1", |plan, by| {
            mat(plan, |mat| mat.opening = rule(by))
        });
    }
    some("the reveal of the bottom mat of piece 1", |plan, by| mat(plan, |mat| mat.inner_reveal = Some(by)));
    some("the thickness of the mat board of piece 1", |plan, by| mat(plan, |mat| mat.thickness = by));
}

/// A lip is no wider than the face, and may be as wide.
#[test]
fn frames() {
    positive("the width of the frame's face of piece 1", |plan, face| {
        frame(plan, |frame| (frame.face, frame.rabbet_width) = (face, Length::ZERO));
    });
    some("the width of the frame's rabbet (rebate) of piece 1", |plan, width| {
        frame(plan, |frame| (frame.face, frame.rabbet_width) = (TEN_METRES, width));
    });
    for (wider, is_taken) in [(-UNIT, true), (Length::ZERO, true), (UNIT, false)] {
        check("the lip is part of the face", is_taken, |plan| {
            frame(plan, |frame| frame.rabbet_width = frame.face + wider);
        });
    }
    some("the allowance in the frame's rabbet (rebate) of piece 1", |plan, play| {
        frame(plan, |frame| frame.allowance = play)
    });
    some("the depth of the frame's rabbet (rebate) of piece 1", |plan, depth| {
        frame(plan, |frame| frame.rabbet_depth = depth)
    });
    positive("the depth of the frame of piece 1", |plan, depth| frame(plan, |frame| frame.depth = depth));
}

#[test]
fn what_lies_in_a_frame() {
    some("the depth of the spacer of piece 1", |plan, spacer| {
        framing(plan, |framing| framing.spacer = spacer)
    });
    some("the thickness of the mount board of piece 1", |plan, by| {
        framing(plan, |framing| framing.mount = board(by))
    });
    some("the thickness of the backing of piece 1", |plan, by| {
        framing(plan, |framing| framing.backing = board(by))
    });
    for glazing in [Glazing::Glass, Glazing::Acrylic] {
        some("the thickness of the glazing of piece 1", |plan, by| {
            framing(plan, |framing| framing.glazing = glazing(by))
        });
    }
}

#[test]
fn floater_frames() {
    some("the gap inside the floater frame of piece 1", |plan, gap| {
        floater(plan, |floater| floater.gap = gap)
    });
    positive("the width of the floater frame's face of piece 1", |plan, face| {
        floater(plan, |floater| floater.face = face)
    });
    positive("the depth of the floater frame of piece 1", |plan, depth| {
        floater(plan, |floater| floater.depth = depth)
    });
}

/// Of a sheet of 16 × 20 in the shorter half is 8 in: no corner is rounder, and bars end there.
#[test]
fn metal_sheets() {
    some("the thickness of the sheet of piece 1", |plan, by| metal(plan, |sheet| sheet.thickness = by));
    some("the distance of the sheet from the wall of piece 1", |plan, by| {
        metal(plan, |sheet| sheet.stand_off = by)
    });
    let half = Length::inches(8);
    from_to("the corner radius of the sheet of piece 1", Length::ZERO, half, |plan, radius| {
        metal(plan, |sheet| sheet.corner_radius = radius);
    });
    from_to("the sub-frame", Length::ZERO, half - UNIT, |plan, from_edges| {
        metal(plan, |sheet| sheet.sub_frame = Some(SubFrame { from_edges, width: UNIT }));
    });
    from_to("the sub-frame", UNIT, half, |plan, width| {
        metal(plan, |sheet| sheet.sub_frame = Some(SubFrame { from_edges: Length::ZERO, width }));
    });
    let from_edges = Length::inches(5);
    from_to("the sub-frame", UNIT, Length::inches(3), |plan, width| {
        metal(plan, |sheet| sheet.sub_frame = Some(SubFrame { from_edges, width }));
    });
}

/// A floater frame takes the place of a mat and of a frame with a lip, and of nothing else.
#[test]
fn originals() {
    some("the depth of the original of piece 1", |plan, depth| {
        finish(plan, Finish::Original(Original { depth, ..Original::starting() }));
    });
    let floated = |framing: Framing| {
        move |plan: &mut Plan| {
            let floater = Some(Floater::starting());
            let original = Original { framing: framing.clone(), floater, ..Original::starting() };
            finish(plan, Finish::Original(original));
        }
    };
    let what = "remove one of them";
    check(what, true, floated(Framing::NONE));
    check(what, true, floated(Framing { spacer: UNIT, mount: board(UNIT), ..Framing::NONE }));
    check(what, false, floated(Framing { mat: Some(Mat::starting()), ..Framing::NONE }));
    check(what, false, floated(Framing { frame: Some(Frame::starting()), ..Framing::NONE }));
    // Both are checked of an original as they are of a print on paper, and of a canvas.
    some("the depth of the spacer of piece 1", |plan, spacer| {
        let framing = Framing { spacer, ..Framing::NONE };
        finish(plan, Finish::Original(Original { framing, ..Original::starting() }));
    });
    some("the gap inside the floater frame of piece 1", |plan, gap| {
        let floater = Some(Floater { gap, ..Floater::starting() });
        finish(plan, Finish::Original(Original { floater, ..Original::starting() }));
    });
}

/// Two or three pieces, in a row or a column, all with a mat.
#[test]
fn a_shared_frame() {
    let shared = |plan: &mut Plan, bar| plan.shared = Some(Shared { bar });
    some("the width of the board between openings", shared);
    let inch = Length::inches(1);
    for (count, is_taken) in [(1, false), (2, true), (3, true)] {
        check("two or three pieces", is_taken, |plan| {
            shared(plan, inch);
            plan.pieces.truncate(count);
        });
    }
    for (arrangement, is_taken) in [
        (Arrangement::Row, true),
        (Arrangement::Column, true),
        (Arrangement::Stepped(Length::ZERO), false),
        (Arrangement::StackRight, false),
        (Arrangement::StackLeft, false),
    ] {
        check("not in steps", is_taken, |plan| {
            shared(plan, inch);
            plan.group.arrangement = arrangement;
        });
    }
    for index in 0..3 {
        check("each need a mat", false, |plan| {
            shared(plan, inch);
            plan.pieces[index].finish.framing_mut().into_iter().for_each(|framing| framing.mat = None);
        });
    }
}

#[test]
fn fineness() {
    for (fineness, is_taken) in [(0, false), (1, true), (2400, true), (2401, false)] {
        check("the lowest resolution wanted", is_taken, |plan| plan.fineness = fineness);
    }
}

#[test]
fn a_frame_in_hand() {
    let in_hand = |plan: &mut Plan, change: &dyn Fn(&mut InHand)| {
        let mut stated = InHand::starting();
        change(&mut stated);
        plan.in_hand = Some(stated);
    };
    positive("the size of the frame you already have has a width", |plan, side| {
        in_hand(plan, &|stated| stated.size.width = side)
    });
    positive("the size of the frame you already have has a height", |plan, side| {
        in_hand(plan, &|stated| stated.size.height = side)
    });
    positive("the face of the frame you already have", |plan, face| {
        in_hand(plan, &|stated| (stated.face, stated.rabbet_width) = (face, Length::ZERO));
    });
    some("the width of the rabbet (rebate) of the frame you already have", |plan, width| {
        in_hand(plan, &|stated| (stated.face, stated.rabbet_width) = (TEN_METRES, width));
    });
    some("the allowance in the rabbet (rebate) of the frame you already have", |plan, play| {
        in_hand(plan, &|stated| stated.allowance = play)
    });
    for (wider, is_taken) in [(Length::ZERO, true), (UNIT, false)] {
        check("the lip is part of the face", is_taken, |plan| {
            in_hand(plan, &|stated| stated.rabbet_width = stated.face + wider);
        });
    }
}

#[test]
fn a_space_on_the_wall() {
    let space = |width, height| Some(Size::new(width, height));
    let (least, most) = (UNIT, HUNDRED_METRES);
    from_to("the size of the space for the pictures has a width", least, most, |plan, side| {
        plan.space = space(side, most)
    });
    from_to("the size of the space for the pictures has a height", least, most, |plan, side| {
        plan.space = space(most, side)
    });
}

/// One to three pieces.
#[test]
fn the_number_of_pieces() {
    for (count, is_taken) in [(0, false), (1, true), (3, true), (4, false)] {
        check("pieces were given", is_taken, |plan| plan.pieces = vec![Piece::starting(); count]);
    }
}

/// What a file has in place of a limit's name or amount is quoted up to 80 characters, and what to do stays in sight.
#[test]
fn long_texts_of_a_stock_file_are_cut_in_messages() {
    let long = "tide".repeat(200);
    let read = |limits: serde_json::Value| {
        let text = serde_json::json!({ "overmantel_stock": 1, "thresholds": limits }).to_string();
        overmantel::stock::Stock::read(&text).expect_err("it is refused").to_string()
    };
    let name = read(serde_json::json!({ long.as_str(): "2 in" }));
    assert!(
        name.len() < 250 && name.contains("there is no limit of this name; save the stock list"),
        "{name}"
    );
    let number = read(serde_json::json!({ "pixels to the inch below which a print is coarse": long }));
    assert!(number.len() < 250 && number.contains("is not a number here; write one such as 150"), "{number}");
}
