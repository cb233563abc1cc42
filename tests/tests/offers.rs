//! Fields by which an answer, or a section of the stock, is taken into a plan; and what they refuse, in words.
//!
//! What is expected follows from the stock's rows and from what each field is said to do, by the formulae above each test; no number is
//! from Overmantel.

use overmantel::asked::fits;
use overmantel::field::Field;
use overmantel::fields::Kind;
use overmantel::fields::offer::code;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::print::Exact;
use overmantel::stock::{StandardSize, Stock};
use overmantel_tests::given::{self, exact, figures, length, size, whole, written};
use std::collections::BTreeSet;

#[track_caller]
fn refused(plan: &Plan, field: &str, text: &str, sentence: &str) {
    let why = given::write(plan, &Stock::offered(), field, text).expect_err(sentence);
    assert_eq!(why.to_string(), sentence);
}

/// Three prints, of which the first shows a picture of 4000 × 5000 and the others one of 6000 × 4000.
fn with_pictures() -> Plan {
    let picture = |name: &str, width_px, height_px| Picture {
        name: name.to_owned(),
        file: String::new(),
        width_px,
        height_px,
        subject: None,
    };
    let pictures = vec![picture("upright", 4000, 5000), picture("wide", 6000, 4000)];
    let mut plan = Plan { pictures, ..Plan::starting() };
    for (piece, picture) in plan.pieces.iter_mut().zip([0, 1, 1]) {
        piece.picture = Some(picture);
    }
    plan
}

/// A size turned as a picture of so many pixels is.
fn turned(size: Size, (width_px, height_px): (u32, u32)) -> Size {
    let is_turned = (width_px > height_px) != (size.width > size.height) && size.width != size.height;
    if is_turned { Size::new(size.height, size.width) } else { size }
}

/// A piece of the starting plan with this image, white border and mat opening in a board; by hand, the overlap being 1/8 in.
fn stated(piece: &Piece, image: Size, border: Surround, board: Option<Size>) -> Piece {
    let mut piece = Piece { image, ..piece.clone() };
    let Finish::Paper(paper) = &mut piece.finish else { panic!("a print on paper") };
    paper.border = border;
    paper.framing.mat = board.map(|board| Mat {
        opening: OpeningRule::Overlap(length("1/8")),
        surround: Surround { extent: Extent::Whole(board), weighting: Weighting::Extra(Length::ZERO) },
        ..Mat::starting()
    });
    piece
}

/// The largest image of a picture within a sheet with 1/2 in of white on every side: the smaller of (W - 1) / w and (H - 1) / h times
/// w and h, in inches. Exact quotients; the image is whole in units, so it may be half a unit off.
fn is_within_half_an_inch(image: Size, sheet: Size, (width_px, height_px): (u32, u32)) -> bool {
    let per_px = |side: Length, px: u32| exact(side - length("1")) / whole(px);
    let scale = per_px(sheet.width, width_px).min(per_px(sheet.height, height_px));
    let off = |side: Length, px: u32| exact(side) - scale * whole(px);
    let half = Exact::new(1, 2);
    [off(image.width, width_px), off(image.height, height_px)].iter().all(|&off| -half <= off && off <= half)
}

/// A fit says what it is in its name: the way, the print, its series, the frame. What that makes of a piece is put together here from the
/// stock's rows; only a bordered image is read from the plan, and judged by its formula.
#[test]
fn a_fit_is_taken_by_what_names_it() {
    let (plan, stock) = (with_pictures(), Stock::offered());
    let figures = figures(&plan);
    let none = Surround::even(Length::ZERO);
    let mut ways = BTreeSet::new();
    for (which, piece, px) in
        [("all", None, (4000, 5000)), ("0", Some(0), (4000, 5000)), ("1", Some(1), (6000, 4000))]
    {
        let names: BTreeSet<String> =
            fits(&plan, &figures, &stock, piece.unwrap_or(0)).iter().map(code).collect();
        assert_eq!(names.len(), fits(&plan, &figures, &stock, piece.unwrap_or(0)).len(), "one name each");
        for name in names.iter().step_by(25) {
            let parts: Vec<&str> = name.split(" | ").collect();
            let row = |name: &str, series: Option<&str>| {
                let is_it =
                    |row: &&StandardSize| row.name == name && series.is_none_or(|own| own == row.series);
                turned(stock.sizes.iter().find(is_it).expect("a row of the stock").size, px)
            };
            let sheet = row(parts[1], Some(parts[2]));
            let taken = written(&plan, &format!("offer.fit.{which}"), name);
            for (index, (found, before)) in taken.pieces.iter().zip(&plan.pieces).enumerate() {
                let expected = if piece.is_some_and(|piece| piece != index) {
                    before.clone()
                } else {
                    match parts[0] {
                        "Whole" | "Cropped" => stated(before, sheet, none, None),
                        "Matted" => stated(before, sheet, none, Some(row(parts[3], None))),
                        "Bordered" => {
                            assert!(
                                is_within_half_an_inch(found.image, sheet, px),
                                "{name}: {:?}",
                                found.image
                            );
                            stated(before, found.image, Surround::whole(sheet), None)
                        }
                        other => panic!("{other} is no way"),
                    }
                };
                assert_eq!(*found, expected, "{which}: {name}, piece {index}");
            }
            ways.insert(parts[0].to_owned());
            assert_eq!(Plan { pieces: plan.pieces.clone(), ..taken }, plan, "{name}: nothing else");
        }
    }
    assert_eq!(ways.len(), 4, "{ways:?}");
    // What stands in a row of the table: way, print, series and frame.
    let taken = written(&plan, "offer.fit.0", "Matted | 16 × 20 in | US | 20 × 24 in");
    assert_eq!(taken.pieces[0].image, Size::inches(16, 20));
    let taken = written(&plan, "offer.fit.2", "Whole | 16 × 24 in | US");
    assert_eq!(taken.pieces[2].image, Size::inches(24, 16));
    assert_eq!(taken.pieces[..2], plan.pieces[..2]);
}

/// A frame of 20 × 24 outside with a face of 3/4, a lip of 1/4 and 1/8 of play: n = outside - A - 2 (F - R) = 18 7/8 × 22 7/8; sight = n + A -
/// 2 R = 18 1/2 × 22 1/2. With 1/2 of white, 17 1/2 × 21 1/2 are left: 4:5 goes into it as 17.2 × 21 1/2, and 3:2 into the frame turned as 21 1/2 ×
/// 14 1/3. Mat borders of 1 1/2 leave 15 7/8 × 19 7/8, and with 1/8 of overlap prints of 16 1/8 × 20 1/8: 4:5 is 16.1 × 20 1/8, 3:2 turned is 20 1/8 ×
/// 13 5/12; down to sixteenths 16 1/16 and 13 3/8.
#[test]
fn a_print_for_a_frame_in_hand_is_taken_for_one_or_for_all() {
    let plan = written(&with_pictures(), "in_hand.measured", "by its outside");
    let plan = written(&plan, "in_hand.size", "20 x 24");
    let upright = ["18 7/8x22 7/8", "17.2x21 1/2", "16 1/16x20 1/8"];
    let wide = ["22 7/8x18 7/8", "21 1/2x14 1/3", "20 1/8x13 3/8"];
    for (which, piece, [nominal, white, matted]) in
        [("all", None, upright), ("0", Some(0), upright), ("2", Some(2), wide)]
    {
        let (board, none) = (size(nominal), Surround::even(Length::ZERO));
        for (text, image, border, mat) in [
            ("to_the_edge", nominal, none, None),
            ("inside_sight", white, Surround::whole(board), None),
            ("matted", matted, none, Some(board)),
        ] {
            let mut expected = plan.clone();
            for (index, one) in expected.pieces.iter_mut().enumerate() {
                if piece.is_none_or(|piece| piece == index) {
                    *one = stated(one, size(image), border, mat);
                }
            }
            assert_eq!(written(&plan, &format!("offer.in_hand.{which}"), text), expected, "{which}: {text}");
        }
    }
    let each = |which: &str| {
        let taken = written(&plan, which, "matted");
        taken.pieces.iter().zip(&plan.pieces).map(|(piece, before)| piece == before).collect::<Vec<_>>()
    };
    assert_eq!(each("offer.in_hand.all"), [false, false, false]);
    assert_eq!(each("offer.in_hand.1"), [true, false, true]);
}

#[test]
fn what_is_not_on_offer_is_refused_in_words() {
    let plan = with_pictures();
    let gone = |text: &str| format!("\"{text}\" is not on offer any more; choose another");
    for none in ["offer.fit.first", "offer.in_hand.first", "offer.frame", "offer"] {
        assert_eq!(Field::named(none), None, "{none}");
    }
    for field in ["offer.fit.all", "offer.in_hand.all"] {
        refused(&plan, field, "gilded", &gone("gilded"));
    }
    let none = "no frame that you already have is stated; first say what you measured";
    refused(&plan, "offer.in_hand.all", "to_the_edge", none);
    let space =
        "the space on the wall leaves none for an image; allow more, or choose a narrower mat or frame";
    refused(&plan, "offer.space", "", space);
    // In one frame each piece needs a mat.
    let shared = written(&plan, "shared", "all in one frame");
    let mats = "pieces that share a frame each need a mat; give every piece a mat, or its own frame";
    refused(&shared, "offer.fit.all", "Whole | 16 × 20 in | US", mats);
}

/// What may be chosen for a section, and what it is now.
#[track_caller]
fn section(plan: &Plan, field: &str) -> (Vec<String>, String) {
    let value = given::read(plan, &Stock::offered(), field).unwrap_or_else(|| panic!("no {field}"));
    assert_eq!(value.kind, Kind::Choice);
    (value.options.into_iter().map(|choice| choice.words).collect(), value.text)
}

fn frame(plan: &Plan, piece: usize) -> Frame {
    let frame = plan.pieces[piece].finish.framing().and_then(|framing| framing.frame.clone());
    frame.unwrap_or_else(|| panic!("piece {piece} has no frame"))
}

/// Sections of the stock (common practice, no source): "box, 3/4 in" has the sizes of the starting frame, in obeche; "flat, 1 in" a face
/// of 1, a rabbet of 1/4 × 1/2 and a depth of 3/4 in pine.
#[test]
fn mouldings_by_their_section() {
    let plan = Plan::starting();
    let field = "piece.all.frame.profile";
    let (options, now) = section(&plan, field);
    let listed: Vec<String> =
        Stock::offered().mouldings.iter().filter(|row| !row.is_floater).map(|row| row.name.clone()).collect();
    assert_eq!((options, now.as_str()), (listed, "dark oak, 3/4 in"), "the starting frame is of oak");
    let obeche = written(&plan, "piece.all.frame.material", "obeche");
    assert_eq!(section(&obeche, field).1, "box, 3/4 in");
    for (part, other) in [("face", "7/8"), ("rabbet_width", "3/16"), ("rabbet_depth", "1/2"), ("depth", "1")]
    {
        let changed = written(&obeche, &format!("piece.all.frame.{part}"), other);
        let name = if part == "face" { "dark oak, 7/8 in" } else { "dark oak, 3/4 in" };
        assert_eq!(section(&changed, field).1, name, "{part}");
    }
    // Play and colour are no part of a section.
    let looser = written(&obeche, "piece.all.frame.allowance", "3/16");
    let black = written(&looser, "piece.all.frame.colour", "black");
    assert_eq!(section(&black, field).1, "box, 3/4 in");
    let flat = written(&black, "piece.1.frame.profile", "flat, 1 in");
    let expected = Frame {
        face: length("1"),
        rabbet_width: length("1/4"),
        rabbet_depth: length("1/2"),
        depth: length("3/4"),
        material: Material::Pine,
        ..frame(&black, 1)
    };
    assert_eq!(frame(&flat, 1), expected);
    assert_eq!((frame(&flat, 0), frame(&flat, 2)), (frame(&black, 0), frame(&black, 2)));
    assert_eq!(section(&flat, "piece.1.frame.profile").1, "flat, 1 in");
    assert_eq!(section(&flat, "piece.0.frame.profile").1, "box, 3/4 in");
    let all = written(&flat, field, "oak, 20 mm");
    // 20 mm of face, a rabbet of 6 × 15 mm, 30 mm deep.
    for piece in 0..3 {
        let Frame { face, rabbet_width, rabbet_depth, depth, .. } = frame(&all, piece);
        assert_eq!(
            [face, rabbet_width, rabbet_depth, depth],
            ["20 mm", "6 mm", "15 mm", "30 mm"].map(length)
        );
        assert_eq!(frame(&all, piece).allowance, length("3/16"));
    }
}

/// "floater, 3/8 in, for bars up to 1 in" is 1 1/2 deep, the one for bars up to 1 1/2 in 2 deep, that of oak 10 × 50 mm.
#[test]
fn floaters_by_their_section() {
    let plan = written(&Plan::starting(), "piece.all.material", "canvas");
    let plan = written(&plan, "piece.1.material", "paper");
    let plan = written(&plan, "piece.0.floater", "with");
    let field = "piece.0.floater.profile";
    let (low, deep) = ("floater, 3/8 in, for bars up to 1 in", "floater, 3/8 in, for bars up to 1 1/2 in");
    let oak = "oak floater, 10 mm, for bars up to 38 mm";
    assert_eq!(section(&plan, field), ([low, deep, oak].map(str::to_owned).into(), deep.to_owned()));
    let floater = |plan: &Plan, piece: usize| plan.pieces[piece].finish.floater().cloned();
    let before = floater(&plan, 0).unwrap_or_else(|| panic!("a floater"));
    let taken = written(&plan, "piece.all.floater.profile", low);
    assert_eq!(floater(&taken, 0), Some(Floater { depth: length("1 1/2"), ..before.clone() }));
    assert_eq!(section(&taken, field).1, low);
    assert_eq!(taken.pieces[1..], plan.pieces[1..], "they have none");
    let taken = written(&taken, field, oak);
    let expected = Floater { face: length("10 mm"), depth: length("50 mm"), ..before };
    assert_eq!(floater(&taken, 0), Some(expected));
    let wider = written(&plan, "piece.0.floater.face", "1/2");
    assert_eq!(section(&wider, field).1, "dark oak, 1/2 in");
    // A canvas has no frame with a lip, a print no floater; and there are three pieces.
    let stock = Stock::offered();
    assert_eq!(Field::named("piece.first.frame.profile"), None);
    for none in [
        "piece.0.frame.profile",
        "piece.1.floater.profile",
        "piece.2.floater.profile",
        "piece.3.frame.profile",
    ] {
        assert_eq!(given::read(&plan, &stock, none), None, "{none}");
        refused(&plan, none, low, &format!("this plan has no {}", given::field(none).label()));
    }
}
