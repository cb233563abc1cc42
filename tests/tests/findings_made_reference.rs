//! What findings on the make-up say, with the numbers that they rest on.
//!
//! No number here is from Overmantel: each is worked out on paper from the changes to the starting plan that a test states. That plan has
//! three prints of 16 × 20 in behind a mat of 1/16 in that is 2 1/8 wide, on a board of 20 × 24, in a frame with a lip of 1/4.

use overmantel::figures::Figures;
use overmantel::findings::{About, findings};
use overmantel::plan::Plan;
use overmantel::stock::Stock;
use overmantel_tests::given;

/// The sentences of a code for a plan with these changes.
#[track_caller]
fn said(code: &str, changes: &[(&str, &str)]) -> Vec<(About, String)> {
    let stock = Stock::offered();
    let plan = changes.iter().fold(Plan::starting(), |plan, (field, text)| {
        given::write(&plan, &stock, field, text).unwrap_or_else(|why| panic!("{field} = {text}: {}", why))
    });
    let found = findings(&plan, &Figures::of(&plan).expect("the plan has an answer"), &stock);
    let of_code = found.into_iter().filter(|finding| finding.code == code);
    of_code.map(|finding| (finding.about, finding.sentence)).collect()
}

#[track_caller]
fn check(code: &str, changes: &[(&str, &str)], sentences: &[&str]) {
    let found: Vec<String> = said(code, changes).into_iter().map(|(_, sentence)| sentence).collect();
    assert_eq!(found, sentences, "{changes:?}");
}

/// 1/8 of glass, 1/16 of mat, 1/16 of mount and 3/16 of backing are 7/16.
#[test]
fn packages_in_their_rabbets() {
    let glass = ("piece.all.glazing.thickness", "1/8");
    check(
        "package-too-thick",
        &[glass, ("piece.all.frame.rabbet_depth", "27/64")],
        &[
            "The package is 7/16\" thick and the rabbet 27/64\" deep: the package is proud of the frame by 1/64\". Choose a deeper moulding or a thinner backing, or hold it with offset clips and build up the back.",
        ],
    );
    check(
        "no-room-for-points",
        &[glass, ("piece.all.frame.rabbet_depth", "35/64")],
        &[
            "The package is 7/16\" thick and leaves 7/64\" of the rabbet's depth; points or brads need about 1/8\".",
        ],
    );
    check(
        "rabbet-deeper-than-moulding",
        &[("piece.all.frame.depth", "39/64")],
        &["The rabbet is 5/8\" deep and the moulding 39/64\": that leaves no lip."],
    );
    // It is said of the first for which it holds, though that hangs last; what needs no frame is passed over.
    check(
        "package-too-thick",
        &[("piece.0.material", "canvas"), ("piece.2.frame.rabbet_depth", "3/8")],
        &[
            "The package is 25/64\" thick and the rabbet 3/8\" deep: the package is proud of the frame by 1/64\". Choose a deeper moulding or a thinner backing, or hold it with offset clips and build up the back.",
        ],
    );
}

/// Borders on a stated board: round an opening of 15 3/4 × 19 3/4 a board 18 11/16 wide leaves 1 15/32, one 22 11/16 high 1 15/32.
#[test]
fn borders_of_mats() {
    let thin = ["The mat is 1 7/16\" wide at its narrowest; under 1 1/2\" it looks thin."];
    check("thin-mat", &[("piece.all.mat.border", "1 7/16")], &thin);
    check("thin-mat", &[("piece.2.mat.border", "1 7/16")], &thin);
    let board = ("piece.1.mat.extent", "on a board of");
    check("thin-mat", &[board, ("piece.1.mat.whole", "18 5/8 x 30")], &thin);
    check("thin-mat", &[board, ("piece.1.mat.whole", "30 x 22 5/8")], &thin);
    check("thin-mat", &[board, ("piece.1.mat.whole", "18 3/4 x 22 3/4")], &[]);
    let low = ("piece.1.mat.foot", "-5/8");
    check("thin-mat", &[low], &[]);
    let narrow_foot = "The mat is 2 1/8\" wide at the top and 1 1/2\" at the bottom; with a narrower bottom, the picture seems to slip down.";
    check("foot-narrower-than-head", &[low], &[narrow_foot]);
    // That another has a narrower head does not excuse it.
    check("foot-narrower-than-head", &[low, ("piece.0.mat.border", "1 1/2")], &[narrow_foot]);
    check("foot-narrower-than-head", &[("piece.0.mat.border", "1 1/2"), ("piece.1.mat.border", "3")], &[]);
}

/// In one mat it is the borders round all openings that count: 2 1/8 on each side, whichever opening is next to it.
#[test]
fn borders_of_one_mat_with_several_openings() {
    let shared = ("shared", "all in one frame");
    for arrangement in ["a row", "a column"] {
        let stands = ("group.arrangement", arrangement);
        check("thin-mat", &[shared, stands], &[]);
        check("foot-narrower-than-head", &[shared, stands], &[]);
        let thin = ["The mat is 1 7/16\" wide at its narrowest; under 1 1/2\" it looks thin."];
        check("thin-mat", &[shared, stands, ("piece.all.mat.border", "1 7/16")], &thin);
        let foot = [
            "The mat is 2 1/8\" wide at the top and 2\" at the bottom; with a narrower bottom, the picture seems to slip down.",
        ];
        check("foot-narrower-than-head", &[shared, stands, ("piece.0.mat.foot", "-1/8")], &foot);
    }
    // 9/16 - 2 × 1/16; and with an inner mat 1 1/16 - 2 × (1/4 + 1/16).
    let weak = ["The bar between the openings is 7/16\" wide; under 1/2\" it is weak."];
    check("weak-bar", &[shared, ("shared.bar", "9/16")], &weak);
    let double = ("piece.0.mat.double", "double");
    check("weak-bar", &[shared, double, ("shared.bar", "1 1/16")], &weak);
    check("weak-bar", &[shared, double, ("shared.bar", "1 1/8")], &[]);
    check("weak-bar", &[], &[]);
}

/// 36 × 56 in is on a board of 40 × 60: 60 × 70 × 20 / 1 000 000 = 0.084 in, 5/64 (a maker's 70 millionths for each kelvin; 20 K from
/// memory).
#[test]
fn acrylic_that_would_bow() {
    let bowed = "Acrylic of 60\" grows by 5/64\" when it warms by 20 °C, more than the allowance of 1/16\": it would bow.";
    let acrylic = ("piece.all.glazing", "acrylic");
    let tight = ("piece.all.frame.allowance", "1/16");
    check("acrylic-without-play", &[acrylic, tight, ("piece.all.image", "36 x 56")], &[bowed]);
    check("acrylic-without-play", &[acrylic, tight, ("piece.all.image", "56 x 36")], &[bowed]);
    check("acrylic-without-play", &[acrylic, tight, ("piece.1.image", "56 x 36")], &[bowed]);
    check("acrylic-without-play", &[acrylic, ("piece.all.image", "36 x 56")], &[]);
    check("acrylic-without-play", &[tight, ("piece.all.image", "36 x 56")], &[]);
}

/// Sizes on offer: common practice, no source; B2 is 50 × 70.7 cm by ISO 216. 1 in = 2.54 cm.
#[test]
fn sizes_that_are_doubted() {
    let twice = "A print of 20 × 30\" is sold, and so is one of 20 × 30 cm: state the unit when you order.";
    check("size-in-both-systems", &[("piece.all.image", "20 x 30")], &[twice]);
    let meant = "is 50 × 70\" (127 × 177.8 cm); 19 11/16 × 27 9/16\" (50 × 70 cm) is a standard size, and maybe you meant that.";
    let of_the_print = format!("The print {meant}");
    check("size-in-the-wrong-system", &[("piece.all.image", "50 x 70")], &[&of_the_print]);
    let frame = ("in_hand.measured", "by its glass");
    let of_the_frame = format!("The frame you already have {meant}");
    let found = said("size-in-the-wrong-system", &[frame, ("in_hand.size", "50 x 70")]);
    assert_eq!(found, [(About::Fit, of_the_frame)]);
    let found = said("size-in-the-wrong-system", &[("piece.all.image", "50 x 70")]);
    assert_eq!(found, [(About::Made, of_the_print)]);
    // Nobody doubts a size whose namesake would be absurd here. With board and frame a print of 20 cm is 13 in wide: three, 3 in apart, are
    // 45 in, less than a sixth of 12 m, but more than that of a sofa. With 20 in they are 81 in (2.06 m).
    let wide = [("wall.width", "12 m"), ("piece.all.image", "20 x 30")];
    check("size-in-both-systems", &wide, &[twice]);
    check("size-in-both-systems", &[wide[0], ("fixture.0.kind", "remove"), wide[1]], &[]);
    let metric = ("piece.all.image", "20 x 30 cm");
    check("size-in-both-systems", &[("wall.width", "2 m"), metric], &[]);
    check("size-in-both-systems", &[("wall.width", "2.1 m"), metric], &[twice]);
}

/// A frame by its glass: 7 mm are 0.2756 in, 18/64; 4.6 and 4.4 mm short of 60.96 × 91.44 cm 12/64 and 11/64; 3 mm 8/64; 2 mm 5/64.
#[test]
fn frames_that_just_miss_a_size() {
    let misses = |size: &str, sentences: &[&str]| {
        let frame = ("in_hand.measured", "by its glass");
        check("nearly-a-size-on-offer", &[frame, ("in_hand.size", size)], sentences);
    };
    let missed =
        |of: &str, by: &str| format!("A size of {of} does not fit the frame you already have: it is {by}.");
    // B2 are 500 × 707 mm (ISO 216): 19.685 and 27.835 in. 700 mm are 27.559 in.
    let b2 = "19 11/16 × 27 13/16\" (B2)";
    misses("50 x 70 cm", &[&missed(b2, "9/32\" higher")]);
    misses("60.5 x 91 cm", &[&missed("24 × 36 in", "3/16\" wider and 11/64\" higher")]);
    misses("49.7 x 70 cm", &[&missed("19 11/16 × 27 9/16\" (50 × 70 cm)", "1/8\" wider")]);
    // 50 × 70 cm goes in, and is not named; B2 still does not.
    misses("50.5 x 70.5 cm", &[&missed(b2, "5/64\" higher")]);
    // In a plan in centimetres the same sizes have their names, and that of inches stands behind its centimetres.
    let metric = |size: &str, sentence: &str| {
        let frame = [("units", "centimetres"), ("in_hand.measured", "by its glass"), ("in_hand.size", size)];
        check("nearly-a-size-on-offer", &frame, &[sentence]);
    };
    metric("50 x 70 cm", &missed("B2", "7 mm higher"));
    metric("49.7 x 70 cm", &missed("50 × 70 cm", "3 mm wider"));
    // 406.4 × 508 mm against 404 × 506.
    metric("40.4 x 50.6 cm", &missed("40.6 × 50.8 cm (16 × 20 in)", "2.4 mm wider and 2 mm higher"));
    misses("50.5 x 71 cm", &[]);
    let of_the_fit = said(
        "nearly-a-size-on-offer",
        &[("in_hand.measured", "by its glass"), ("in_hand.size", "50 x 70 cm")],
    );
    assert_eq!(of_the_fit.first().map(|(about, _)| *about), Some(About::Fit));
    assert_eq!(
        said("nearly-a-size-on-offer", &[("piece.all.image", "50 x 70 cm")]),
        [],
        "there is no frame in hand"
    );
}

#[test]
fn mounts_that_yellow() {
    let yellows = |of: &str| format!("A mount board of {of} yellows paper; hinge the sheet to museum board.");
    check("mount-yellows", &[("piece.all.mount", "hardboard")], &[&yellows("hardboard")]);
    check("mount-yellows", &[("piece.2.mount", "MDF")], &[&yellows("MDF")]);
    check("mount-yellows", &[("piece.all.backing", "MDF")], &[]);
}
