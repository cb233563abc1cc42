//! Fields by which an answer, or a section of the stock, is taken into a plan; and what they refuse, in words.
//!
//! What is expected follows from the stock's rows and from what each field is said to do; no number is from Overmantel.

use overmantel::asked::{Ordered, fits, take_fit, take_in_hand};
use overmantel::fields::offer::code;
use overmantel::fields::{self, Kind};
use overmantel::figures::Figures;
use overmantel::fit::Fit;
use overmantel::geometry::Size;
use overmantel::plan::*;
use overmantel::stock::Stock;
use overmantel_tests::given::{length, written};
use std::collections::BTreeMap;

#[track_caller]
fn refused(plan: &Plan, field: &str, text: &str, sentence: &str) {
    let why = fields::write(plan, &Stock::offered(), field, text).expect_err(sentence);
    assert_eq!(why.message, sentence);
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

#[test]
fn a_fit_is_taken_by_what_names_it() {
    let (plan, stock) = (with_pictures(), Stock::offered());
    let figures = Figures::of(&plan).expect("an answer");
    for (which, piece) in [("all", None), ("0", Some(0)), ("1", Some(1))] {
        let found = fits(&plan, &figures, &stock, piece.unwrap_or(0));
        let mut named: BTreeMap<String, &Fit<'_>> = BTreeMap::new();
        for fit in &found {
            assert!(named.insert(code(fit), fit).is_none(), "two fits are called {}", code(fit));
        }
        for (name, fit) in named.iter().step_by(50) {
            let expected = take_fit(&plan, piece, fit);
            assert_eq!(written(&plan, &format!("offer.fit.{which}"), name), expected, "{which}: {name}");
        }
    }
    // What stands in a row of the table: way, print, series and frame.
    let taken = written(&plan, "offer.fit.0", "Matted | 16 × 20 in | US | 20 × 24 in");
    assert_eq!(taken.pieces[0].image, Size::inches(16, 20));
    let taken = written(&plan, "offer.fit.2", "Whole | 16 × 24 in | US");
    assert_eq!(taken.pieces[2].image, Size::inches(24, 16));
    assert_eq!(taken.pieces[..2], plan.pieces[..2]);
}

#[test]
fn a_print_for_a_frame_in_hand_is_taken_for_one_or_for_all() {
    let plan = written(&with_pictures(), "in_hand.measured", "by its outside");
    let plan = written(&plan, "in_hand.size", "20 x 24");
    for (which, piece) in [("all", None), ("0", Some(0)), ("2", Some(2))] {
        for (ordered, text) in Ordered::ALL {
            let expected = take_in_hand(&plan, piece, ordered).expect("a print");
            assert_eq!(written(&plan, &format!("offer.in_hand.{which}"), text), expected);
        }
    }
    let each = |which: &str| {
        let taken = written(&plan, which, "behind a mat");
        taken.pieces.iter().zip(&plan.pieces).map(|(piece, before)| piece == before).collect::<Vec<_>>()
    };
    assert_eq!(each("offer.in_hand.all"), [false, false, false]);
    assert_eq!(each("offer.in_hand.1"), [true, false, true]);
}

#[test]
fn what_is_not_on_offer_is_refused_in_words() {
    let plan = with_pictures();
    let gone = |text: &str| format!("\"{text}\" is not on offer any more; choose another");
    for field in ["offer.fit.all", "offer.in_hand.all", "offer.fit.first", "offer.frame", "offer"] {
        refused(&plan, field, "gilded", &gone("gilded"));
    }
    refused(&plan, "offer.in_hand.first", "to the edge", &gone("to the edge"));
    let none = "no frame in hand is stated; say first what was measured of it";
    refused(&plan, "offer.in_hand.all", "to the edge", none);
    let space = "the space on the wall leaves nothing for an image; allow more, or take less round it";
    refused(&plan, "offer.space", "", space);
    // In one frame each piece needs a mat.
    let shared = written(&plan, "shared", "all in one frame");
    let mats = "pieces that share a frame each need a mat; give all of them one, or a frame of their own";
    refused(&shared, "offer.fit.all", "Whole | 16 × 20 in | US", mats);
}

/// What may be chosen for a section, and what it is now.
#[track_caller]
fn section(plan: &Plan, field: &str) -> (Vec<String>, String) {
    let value = fields::read(plan, &Stock::offered(), field).unwrap_or_else(|| panic!("no {field}"));
    assert_eq!(value.kind, Kind::Choice);
    (value.options, value.text)
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
    assert_eq!((options, now.as_str()), (listed, "a section of its own"), "the starting frame is of oak");
    let obeche = written(&plan, "piece.all.frame.material", "obeche");
    assert_eq!(section(&obeche, field).1, "box, 3/4 in");
    for (part, other) in [("face", "7/8"), ("rabbet_width", "3/16"), ("rabbet_depth", "1/2"), ("depth", "1")]
    {
        let changed = written(&obeche, &format!("piece.all.frame.{part}"), other);
        assert_eq!(section(&changed, field).1, "a section of its own", "{part}");
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
    assert_eq!(section(&wider, field).1, "a section of its own");
    // A canvas has no frame with a lip, a print no floater; and there are three pieces.
    let stock = Stock::offered();
    for none in [
        "piece.0.frame.profile",
        "piece.1.floater.profile",
        "piece.2.floater.profile",
        "piece.3.frame.profile",
        "piece.first.frame.profile",
    ] {
        assert_eq!(fields::read(&plan, &stock, none), None, "{none}");
        refused(&plan, none, low, &format!("this plan has no {}", fields::label(none)));
    }
}
