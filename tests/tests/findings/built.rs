//! Findings on what cannot be built: rings in nothing, sheets that lie in nothing, parts without a thickness.
//!
//! All of it is geometry, worked out on paper from the sizes that stand beside it; where a width is common practice it is said.

use super::*;
use overmantel::length::Length;
use overmantel::plan::{Finish, Framing, Group, GroupAcross, GroupUp, HangerPlace, Paper, Piece};
use overmantel::suggest::{Make, SuggestionWish, suggest};

const CANVAS: (&str, &str) = ("piece.all.material", "canvas");
const METAL: (&str, &str) = ("piece.all.material", "aluminium");

/// One piece, 8 × 4 in.
fn small(changes: Changes<'_>) -> Plan {
    let group = Group { up: GroupUp::EyeLevel, across: GroupAcross::WallMiddle, ..Plan::starting().group };
    let one = Plan { pieces: vec![Piece::starting()], fixtures: Vec::new(), group, ..Plan::starting() };
    changed(changed(one, &[("piece.0.width", "8"), ("piece.0.height", "4")]), changes)
}

/// Hooks are on the piece, however small it is, where nothing is said of them: at 57 in, 4 in high, a quarter down is 58.
#[test]
fn rings_that_nobody_states() {
    for made in [CANVAS, METAL, ("piece.all.material", "paper")] {
        let plan = small(&[made]);
        check("rings-in-nothing", &plan, false);
        let figures = Figures::of(&plan).expect("figures");
        let outside = figures.arranged.outsides[0];
        for hook in &figures.hanging[0].hooks {
            assert!(outside.contains(*hook), "{made:?}: {hook:?} in {outside:?}");
        }
    }
    let canvas = Figures::of(&small(&[CANVAS])).expect("figures");
    assert_eq!(canvas.hanging[0].hooks[0].y, Length::inches(58));
}

/// Where a ring is stated, it is on the moulding (3/4 in, of which the rabbet takes 1/4), on the bars of 1 1/4 in (common practice,
/// no source), on the blocks of 2 in that begin 1 1/2 in from the edges (from memory), or on the bars as they are stated.
#[test]
fn rings_that_are_stated() {
    pair("rings-in-nothing", &[], "fixing.inset", "1/2", "9/16");
    pair("rings-in-nothing", &[], "fixing.inset", "1/2", "3");
    pair("rings-in-nothing", &[("fixing.inset", "3/8")], "fixing.down", "25 1/8", "25 3/16");
    pair("rings-in-nothing", &[CANVAS], "fixing.inset", "1 1/4", "1 5/16");
    pair("rings-in-nothing", &[CANVAS, ("fixing.inset", "1")], "fixing.down", "20", "20 1/16");
    let on_blocks = [METAL, ("fixing.inset", "2 1/2")];
    pair("rings-in-nothing", &on_blocks, "fixing.down", "1 1/2", "1 7/16");
    pair("rings-in-nothing", &on_blocks, "fixing.down", "3 1/2", "3 9/16");
    let on_bars = [
        METAL,
        ("piece.all.aluminium.back", "on a sub-frame"),
        ("piece.all.sub_frame.inset", "60 mm"),
        ("piece.all.sub_frame.width", "20 mm"),
        ("fixing.down", "5"),
    ];
    pair("rings-in-nothing", &on_bars, "fixing.inset", "60 mm", "59 mm");
    pair("rings-in-nothing", &on_bars, "fixing.inset", "80 mm", "81 mm");
    pair("rings-in-nothing", &on_bars, "fixing.inset", "80 mm", "10 mm");
}

/// What was stated can be left to the piece again, by its key and by its words.
#[test]
fn rings_can_be_left_to_the_piece_again() {
    let stated = changed(Plan::starting(), &[("fixing.inset", "3"), ("fixing.down", "6")]);
    let places = |plan: &Plan| [plan.fixing.from_sides, plan.fixing.down];
    assert_eq!(places(&stated), [HangerPlace::At(Length::inches(3)), HangerPlace::At(Length::inches(6))]);
    let again = changed(stated, &[("fixing.inset", "usual"), ("fixing.down", "as usual")]);
    assert_eq!(places(&again), [HangerPlace::Usual; 2]);
    check("rings-in-nothing", &again, false);
}

#[test]
fn a_bare_sheet_hangs_by_nothing() {
    let paper = Paper { framing: Framing::NONE, ..Paper::starting() };
    let bare = Piece { finish: Finish::Paper(paper), ..Piece::starting() };
    check("hung-by-nothing", &Plan { pieces: vec![bare], ..Plan::starting() }, true);
    check("hung-by-nothing", &Plan::starting(), false);
    pair("hung-by-nothing", &[], "piece.all.frame", "with", "without");
    // A painting 3/4 in deep has something at its back; one on paper has not.
    let original = ("piece.all.material", "the original");
    pair("hung-by-nothing", &[original], "piece.all.original.depth", "3/4", "0");
    check("hung-by-nothing", &changed(Plan::starting(), &[METAL]), false);
}

#[test]
fn two_hooks_are_in_two_places() {
    let wire = ("fixing.kind", "a wire over two hooks");
    pair("hooks-in-one-place", &[wire], "fixing.apart", "1/16", "0");
}

/// A board of 20 × 24 in lies 2 1/8 in round an opening of 15 3/4 × 19 3/4. A sheet of 16 × 20 with white paper round it is larger
/// than the board where more than 2 in are left white and the mat shows the image: 16 - 2 × 1/8 + 2 × 2 1/8 = 20.
#[test]
fn sheets_go_into_their_frames() {
    let shown = [("piece.all.mat.opening", "showing its white border by"), ("piece.all.mat.by", "1/8")];
    // The opening is 16 1/4 × 20 1/4, the board 20 1/2 × 24 1/2: 2 1/4 in of paper reach to its edge.
    pair("sheet-larger-than-board", &shown, "piece.all.paper.border", "2 1/4", "2 5/16");
    check("sheet-larger-than-board", &Plan::starting(), false);
}

/// In one frame, with openings of 15 3/4 in (the mat covers 1/8 in of each side of 16) and a bar of 2 in: two sheets are
/// 2 - 2 × 1/8 apart. Where the mat shows the image by 1/8 in, sheets with 1 1/8 in of white paper meet: 2 - 2 × (1 1/8 - 1/8) = 0.
#[test]
fn sheets_behind_one_bar() {
    let one_frame = [
        ("shared", "all in one frame"),
        ("piece.all.mat.opening", "showing its white border by"),
        ("piece.all.mat.by", "1/8"),
    ];
    pair("sheets-behind-the-bar", &one_frame, "piece.all.paper.border", "1 1/8", "1 3/16");
}

/// A lip of 1/4 in with 1/8 in of play hides 3/16 in.
#[test]
fn the_lip_and_the_mat() {
    pair("lip-past-the-mat", &[], "piece.all.mat.border", "3/16", "5/32");
}

#[test]
fn canvases_on_their_bars() {
    // Edges 1 1/2 in deep.
    let low = [CANVAS, ("piece.all.canvas.edge", "a mirrored wrap"), ("piece.all.height", "10")];
    pair("mirrored-past-the-face", &low, "piece.all.width", "1 1/2", "1 7/16");
    let carried = [CANVAS, ("piece.all.canvas.edge", "the image wrapped round the edge")];
    check("mirrored-past-the-face", &changed(Plan::starting(), &carried), false);
    // Two bars of 1 1/4 in: common practice, no source.
    pair("narrower-than-its-bars", &[CANVAS], "piece.all.width", "2 1/2", "2 7/16");
}

#[test]
fn parts_have_a_thickness() {
    for (field, thin) in [
        ("piece.all.glazing.thickness", "0.1 mm"),
        ("piece.all.mat.thickness", "0.1 mm"),
        ("piece.all.mount.thickness", "0.1 mm"),
        ("piece.all.backing.thickness", "0.1 mm"),
    ] {
        pair("no-thickness", &[], field, thin, "0");
    }
    pair("no-thickness", &[METAL], "piece.all.aluminium.thickness", "0.1 mm", "0");
    pair("no-thickness", &[CANVAS], "piece.all.canvas.depth", "1/16", "0");
}

#[test]
fn an_inner_mat_is_seen() {
    let double = ("piece.all.mat.double", "double");
    pair("inner-mat-unseen", &[double], "piece.all.mat.inner", "1/16", "0");
}

/// Rings that were stated for a frame do not stay where a sheet of metal or a canvas has nothing that holds them.
#[test]
fn another_make_up_has_rings_of_its_own() {
    let framed = changed(Plan::starting(), &[("fixing.inset", "3/8"), ("fixing.down", "5")]);
    check("rings-in-nothing", &changed(framed.clone(), &[METAL]), false);
    // The same material again is no other make-up, whatever is stated.
    let loose = changed(framed.clone(), &[("fixing.inset", "3")]);
    assert_eq!(changed(loose.clone(), &[("piece.all.material", "paper")]), loose);
    // On the bars of a canvas they stay.
    let canvas = changed(framed.clone(), &[CANVAS]);
    assert_eq!(canvas.fixing, framed.fixing);
    let suggested = suggest(
        &framed,
        &Stock::offered(),
        &SuggestionWish { makes: &[Make::Aluminium], ..SuggestionWish::default() },
    );
    let suggested = suggested.expect("suggestions").suggestions;
    assert!(!suggested.is_empty());
    for one in suggested {
        check("rings-in-nothing", &one.plan, false);
    }
}

/// A door of 30 × 80 in from 2 in on; pieces that reach over its casing of 2 1/2 in (common practice, no source) are in the way, over the
/// door itself they hang on nothing.
#[test]
fn nothing_hangs_over_a_door() {
    let door = [("fixtures.add", "door"), ("group.up", "centred at eye level")];
    let plan = changed(Plan::starting(), &door);
    let index = plan.fixtures.len() - 1;
    let (width, from_left) = (plan.fixtures[index].size.width, Length::inches(2));
    let at = |left: Length| {
        let mut plan = changed(plan.clone(), &[("group.left", &plain_inches(left))]);
        plan.fixtures[index].across = overmantel::plan::Across::FromLeft(from_left);
        plan
    };
    let right = from_left + width;
    check("over-an-opening", &at(right - Length::inches_ratio(1, 16)), true);
    check("covers-a-fixture", &at(right - Length::inches_ratio(1, 16)), false);
    check("over-an-opening", &at(right), false);
    check("covers-a-fixture", &at(right), true);
    check("covers-a-fixture", &at(right + Length::inches_ratio(5, 2)), false);
}

fn plain_inches(length: Length) -> String {
    overmantel::length::print::plain(length)
}

/// What floats in its mat is hinged to a board.
#[test]
fn what_floats_is_hinged_to_something() {
    let floating = [("piece.all.paper.border", "1"), ("piece.all.mat.opening", "floating it with a gap of")];
    pair("floats-on-nothing", &floating, "piece.all.mount", "hardboard", "no mount board");
    check("floats-on-nothing", &changed(Plan::starting(), &[("piece.all.mount", "no mount board")]), false);
}

/// Two blocks of 2 in, 1 1/2 in from the edges (from memory), side by side: 7 in.
#[test]
fn small_sheets_have_no_room_for_blocks() {
    pair("no-room-for-blocks", &[METAL], "piece.all.width", "7", "6 15/16");
    pair("no-room-for-blocks", &[METAL], "piece.all.height", "7", "6 15/16");
    let on_bars = [
        METAL,
        ("piece.all.aluminium.back", "on a sub-frame"),
        ("piece.all.sub_frame.inset", "1"),
        ("piece.all.sub_frame.width", "1/2"),
    ];
    check(
        "no-room-for-blocks",
        &changed(changed(Plan::starting(), &on_bars), &[("piece.all.width", "6")]),
        false,
    );
    let flat =
        changed(Plan::starting(), &[METAL, ("piece.all.aluminium.stand_off", "0"), ("piece.all.width", "6")]);
    check("no-room-for-blocks", &flat, false);
}

/// 8 in below a ceiling of 75 1/8 in hang pieces with their upper edges at 67 1/8; rings at 5 in are 62 1/8 up, and the wire of a span of
/// 20 3/8 in rises by 13 in to it when it is 12.66 in longer: √((33.03 / 2)² - (20.375 / 2)²) = 13.0.
#[test]
fn a_wire_longer_than_the_wall_is_high() {
    let low = [("wall.height", "75 1/8"), ("fixing.kind", "one_hook"), ("fixing.down", "5")];
    pair("hook-off-the-wall", &low, "fixing.slack", "12.6", "12.7");
}

/// A first frame that is too shallow for its package does not hide a second that cannot be made.
#[test]
fn what_cannot_be_made_is_not_hidden_by_what_is_less() {
    let changes = [("piece.0.frame.rabbet_depth", "1/4"), ("piece.1.frame.depth", "5/8")];
    let plan = changed(Plan::starting(), &changes);
    check("package-too-thick", &plan, true);
    check("rabbet-deeper-than-moulding", &plan, true);
}
