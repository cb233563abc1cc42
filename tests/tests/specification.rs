//! What is said of a plan: the order text, the findings, and what a field says and takes.

use overmantel::figures::Figures;
use overmantel::findings::findings;
use overmantel::framing::build_up;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::Plan;
use overmantel::spec::order_text;
use overmantel::stock::Stock;
use overmantel_tests::given::{self, changed, length};

fn text(plan: &Plan) -> String {
    order_text(plan, &Figures::of(plan).expect("the plan has an answer"), &Stock::offered())
}

#[test]
fn the_order_text_has_every_piece_that_differs() {
    let plan = changed(
        Plan::starting(),
        &[("pieces.count", "two"), ("piece.0.image", "24 x 18"), ("piece.1.material", "canvas")],
    );
    let text = text(&plan);
    // 24 - 1/4 + 4 1/4 + 1/8 + 1 = 29 1/8; 18 gives 23 1/8. The canvas is 16 × 20, its cloth 16 + 2 × (1 1/2 + 1) = 21 wide.
    for part in [
        "Piece 1: Printed 24 × 18\" on paper",
        "29 1/8 × 23 1/8\"",
        "Piece 2: Printed 16 × 20\" on canvas",
        "21 × 25\"",
        "Sizes of piece 2",
    ] {
        assert!(text.contains(part), "{part} in:\n{text}");
    }
    assert!(!text.contains("What you change here"), "no hint for the screen in:\n{text}");
    assert!(!text.contains("Add something"), "no control in:\n{text}");
}

#[test]
fn the_order_text_says_things_once_when_all_are_alike() {
    let text = text(&Plan::starting());
    assert_eq!(text.matches("Printed 16 × 20\" on paper").count(), 1, "{text}");
    assert_eq!(text.matches("\nSizes\n").count(), 1, "{text}");
    assert!(text.contains("Local codes and licensed practice come first."), "{text}");
}

/// Whether a plan with these changes has a finding of this code.
fn check(code: &str, changes: &[(&str, &str)], expected: bool) {
    let plan = changed(Plan::starting(), changes);
    let found = findings(&plan, &Figures::of(&plan).expect("the plan has an answer"), &Stock::offered());
    let has = found.iter().any(|finding| finding.code == code);
    assert_eq!(has, expected, "{code} with {changes:?}: {found:?}");
}

/// Findings on the make-up, a step of a rule to both sides of each limit. On paper: the package of the starting plan with 1/8 in
/// of glass is 1/8 + 1/16 + 1/16 + 3/16 = 7/16; a bar loses two bevels of 1/16; 24 in of acrylic grow by
/// 24 × 70 × 20 / 1 000 000 = 0.0336 in; the board of a print w wide is w + 4 in, the outside of a bare one w + 1 1/8.
#[test]
fn findings_on_the_make_up() {
    let glass = ("piece.all.glazing.thickness", "1/8");
    check("package-too-thick", &[glass, ("piece.all.frame.rabbet_depth", "7/16")], false);
    check("package-too-thick", &[glass, ("piece.all.frame.rabbet_depth", "27/64")], true);
    check("no-room-for-points", &[glass, ("piece.all.frame.rabbet_depth", "7/16")], true);
    check("no-room-for-points", &[glass, ("piece.all.frame.rabbet_depth", "35/64")], true);
    check("no-room-for-points", &[glass, ("piece.all.frame.rabbet_depth", "9/16")], false);
    check("rabbet-deeper-than-moulding", &[("piece.all.frame.depth", "41/64")], false);
    check("rabbet-deeper-than-moulding", &[("piece.all.frame.depth", "5/8")], true);
    check("thin-mat", &[("piece.all.mat.border", "1 1/2")], false);
    check("thin-mat", &[("piece.all.mat.border", "1 7/16")], true);
    check("foot-narrower-than-head", &[("piece.all.mat.foot", "0")], false);
    check("foot-narrower-than-head", &[("piece.all.mat.foot", "-1/16")], true);
    let shared = ("shared", "all in one frame");
    check("weak-bar", &[shared, ("shared.bar", "5/8")], false);
    check("weak-bar", &[shared, ("shared.bar", "9/16")], true);
    let acrylic = ("piece.all.glazing", "acrylic");
    check("acrylic-without-play", &[acrylic, ("piece.all.frame.allowance", "0.0336")], false);
    check("acrylic-without-play", &[acrylic, ("piece.all.frame.allowance", "0.0335")], true);
    check("acrylic-without-play", &[("piece.all.frame.allowance", "0.0335")], false);
    // A mat of 1/16 in before the mount; 3 mm of overlap is metric practice.
    check("sheet-not-held", &[("piece.all.mat.by", "3 mm")], false);
    check("sheet-not-held", &[("piece.all.mat.by", "2.9 mm")], true);
    let float = ("piece.all.mat.opening", "floating it with a gap of");
    check("float-without-spacer", &[float], true);
    check("float-without-spacer", &[float, ("piece.all.spacer", "1/8")], false);
    check("float-without-spacer", &[float, ("piece.all.glazing", "no glazing")], false);
    let canvas = ("piece.all.material", "canvas");
    let floater = ("piece.all.floater", "with");
    check("floater-too-shallow", &[canvas, floater], false);
    check("floater-too-shallow", &[canvas, floater, ("piece.all.floater.depth", "1 1/2")], true);
    check("floater-too-shallow", &[canvas, floater, ("piece.all.floater.depth", "1 17/32")], false);
    check("unlike-in-one-frame", &[shared], false);
    check("unlike-in-one-frame", &[shared, ("piece.1.glazing", "acrylic")], true);
    check("unlike-in-one-frame", &[shared, ("piece.1.mat.by", "1/4")], false);
    check("mount-yellows", &[("piece.all.mount", "hardboard")], true);
    check("mount-yellows", &[("piece.all.mount", "foam board")], false);
}

/// What the stock does not take: the largest sheet of glass is 40 × 60 in, the widest roll 64 in with 1/8 in of margin on each
/// side, the longest stick 10 ft less 1 in of trim (common practice and from memory, as the stock says).
#[test]
fn findings_on_the_stock() {
    check("no-sheet", &[("piece.all.image", "36 x 56")], false);
    check("no-sheet", &[("piece.all.image", "36 1/16 x 56")], true);
    check("no-roll", &[("piece.all.image", "63 3/4 x 70")], false);
    check("no-roll", &[("piece.all.image", "63 13/16 x 70")], true);
    let bare = ("piece.all.mat", "without");
    check("no-stick", &[bare, ("piece.all.image", "20 x 117 7/8")], false);
    check("no-stick", &[bare, ("piece.all.image", "20 x 117 15/16")], true);
    check("size-in-both-systems", &[("piece.all.image", "20 x 30")], true);
    check("size-in-both-systems", &[("piece.all.image", "16 x 20")], false);
    check("size-in-the-wrong-system", &[("piece.all.image", "50 x 70")], true);
    check("size-in-the-wrong-system", &[("piece.all.image", "50 x 70 cm")], false);
    let frame = ("in_hand.measured", "by its glass");
    check("size-in-the-wrong-system", &[frame, ("in_hand.size", "50 x 70")], true);
    // B2 is 50 × 70.7 cm (ISO 216): 7 mm too high. A frame of 55 × 75 cm is near to nothing.
    check("nearly-a-size-on-offer", &[frame, ("in_hand.size", "50 x 70 cm")], true);
    check("nearly-a-size-on-offer", &[frame, ("in_hand.size", "55 x 75 cm")], false);
}

/// Offers take what they say. On paper: a frame whose glass is 16 × 20 takes a print to the edge of that size; three framed pieces of
/// image + 5 1/8 across a space of 84 in with two gaps of 3 leave (84 - 6) / 3 - 5 1/8 = 20 7/8 in for an image of 4 : 5, but
/// 30 in of height leave 24 7/8, so that it is 19.9 wide; A3 stands upright as the image did.
#[test]
fn offers_are_taken() {
    let offered = |changes: &[(&str, &str)]| changed(Plan::starting(), changes).pieces[0].clone();
    let framed = [("in_hand.measured", "by its glass"), ("offer.in_hand.all", "to_the_edge")];
    let taken = offered(&framed);
    assert_eq!(taken.image, Size::inches(16, 20));
    let sizes = build_up(&taken).expect("a piece");
    assert_eq!(sizes.frame.map(|frame| frame.nominal), Some(Size::inches(16, 20)));
    assert!(sizes.mat.is_none());
    let space = [("space", "no more than"), ("space.size", "84 x 30"), ("offer.space", "")];
    let taken = offered(&space).image;
    assert_eq!(taken.height, Length::inches_ratio(199, 8));
    assert_eq!(taken.width, Length::inches_ratio(199, 10));
    assert_eq!(offered(&[("piece.all.image", "A3")]).image, Size::new(Length::mm(297), Length::mm(420)));
}

#[test]
fn findings_begin_and_end_where_they_say() {
    // A group of 69 3/8 in: two thirds and three quarters of a sofa of 104 1/16 and of 92 1/2 in (common practice, no source).
    check("share-of-furniture", &[("fixture.0.width", "104 1/8")], true);
    check("share-of-furniture", &[("fixture.0.width", "104")], false);
    check("share-of-furniture", &[("fixture.0.width", "92 1/2")], false);
    check("share-of-furniture", &[("fixture.0.width", "92 3/8")], true);
    check("sheet-not-held", &[("piece.all.mat.by", "1/8")], false);
    check("sheet-not-held", &[("piece.all.mat.by", "1/16")], true);
    check("lip-on-the-image", &[("piece.all.mat", "without")], true);
    check("lip-on-the-image", &[("piece.all.mat", "without"), ("piece.all.paper.border", "3/16")], false);
    check("glazing-on-the-print", &[("piece.all.mat", "without")], true);
    check("glazing-on-the-print", &[], false);
    check("beyond-the-wall", &[("group.left", "0")], false);
    check("beyond-the-wall", &[("group.left", "-1/16")], true);
    check("beyond-the-wall", &[("wall.height", "67 1/8")], false);
    check("beyond-the-wall", &[("wall.height", "67")], true);
    // A switch 46 in up, 4 1/2 high and 7 in from the right corner: from 134 1/4 in on.
    let switch = ("fixtures.add", "light switch");
    check("covers-a-fixture", &[switch, ("group.right", "9 3/4")], false);
    check("covers-a-fixture", &[switch, ("group.right", "9 1/2")], true);
    // Rings 5 in down; half the span is 10 3/16: a rise of 3 in needs a slack of 0.864 in.
    let wire = ("fixing.kind", "a wire over one hook");
    check("wire-in-sight", &[wire, ("fixing.down", "5"), ("fixing.slack", "0.85")], false);
    check("wire-in-sight", &[wire, ("fixing.down", "5"), ("fixing.slack", "0.88")], true);
}

#[test]
fn a_choice_that_is_not_offered_is_refused_in_words() {
    let check = |field: &str, text: &str, expected: &str| {
        let message =
            given::write(&Plan::starting(), &Stock::offered(), field, text).expect_err(expected).to_string();
        assert_eq!(message, expected);
    };
    check("pieces.count", "four", "\"four\" can't be chosen here; choose one, or two, or three");
    check(
        "wall.paint",
        "mauve",
        "\"mauve\" is not one of the colours here; choose grey-green, chalk white, warm grey, stone, clay pink, ochre, \
         slate blue, deep green, ink blue, charcoal, or write a colour as #rrggbb",
    );
    check("wall.width", "101 m", "the width of the wall is 101000 mm; allowed: 0 in to 100 m (about 328 ft)");
    check("wall.width", "0", "the width of the wall is 0 in; it must be more than zero");
    check("piece.all.image", "16", "\"16\" is not a size; write the width, then the height, such as 16 × 20");
    check("title", "  ", "the title is empty; write at least one character");
}

#[test]
fn what_is_placed_by_a_fixture_stays_when_it_is_taken_away() {
    let before = Figures::of(&Plan::starting()).expect("an answer").arranged.group;
    let plan = changed(Plan::starting(), &[("fixture.0.kind", "remove")]);
    assert_eq!(Figures::of(&plan).expect("an answer").arranged.group, before);
}

#[test]
fn a_group_is_made_as_wide_as_is_asked_to_the_last_unit() {
    // What can't be shared evenly among three is shared all the same.
    for width in ["72", "70.001", "1 m", "1777.777 mm"] {
        let plan = changed(Plan::starting(), &[("group.width", width)]);
        let group = Figures::of(&plan).expect("an answer").arranged.group;
        let asked = length(width);
        assert_eq!(group.size.width, asked);
    }
}

#[test]
fn a_size_in_feet_and_inches_keeps_its_width() {
    // A unit at the end counts for both; of a compound it does not: 16 in inches beside 1' 8" = 20 in.
    let check = |text: &str, width: &str, height: &str| {
        let plan = changed(Plan::starting(), &[("piece.all.image", text)]);
        let image = plan.pieces[0].image;
        assert_eq!((image.width, image.height), (length(width), length(height)), "{text}");
    };
    check("16 × 1' 8\"", "16 in", "20 in");
    check("20 x 2 ft 6 in", "20 in", "30 in");
    check("40 x 50 cm", "40 cm", "50 cm");
    check("16 1/2 by 20 3/4 in.", "16.5 in", "20.75 in");
    check("1' 4\" x 20\"", "16 in", "20 in");
    check("400 mm x 20 in", "400 mm", "20 in");
}

#[test]
fn a_frame_with_more_play_than_lip_holds_nothing() {
    check("not-held-by-the-lip", &[("piece.all.frame.allowance", "7/16")], false);
    check("not-held-by-the-lip", &[("piece.all.frame.allowance", "1/2")], true);
}
