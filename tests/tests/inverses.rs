//! Frames, mats and canvases forwards and back, against worked examples; and that each sum and its inverse undo each other.
//!
//! No expected value here was computed by Overmantel: the rows were worked out on paper from the sum above each. Numbers
//! are inches, or millimetres where a row says so. That the allowance is 1/8 in in total, an overlap 1/8 in, and a rabbet 1/4 in
//! wide, are common practice, no source.

use overmantel::framing::inverse::{
    Bars, FloaterRails, FrameMeasure, NothingLeft, Rails, art_of, board_round, borders_in, opening_in,
    opening_of,
};
use overmantel::geometry::{Sides, Size};
use overmantel::length::{Length, Unit, parse::LONGEST};
use overmantel::plan::OpeningRule;
use overmantel::print::Exact;
use overmantel_tests::given::{length_in, size_in};
use proptest::prelude::*;

const IN: Unit = Unit::Inch;
const MM: Unit = Unit::Millimetre;

fn rails([face, rabbet_width, allowance]: [&str; 3], unit: Unit) -> Rails {
    Rails {
        face: length_in(face, unit),
        rabbet_width: length_in(rabbet_width, unit),
        allowance: length_in(allowance, unit),
    }
}

/// rabbet = n + A; sight = n + A - 2R; outside = n + A + 2(F - R); what the lip hides = R - A/2.
#[test]
fn frames_both_ways() {
    let check = |unit, nominal: &str, given: [&str; 3], [rabbet, sight, outside, hidden]: [&str; 4]| {
        let rails = rails(given, unit);
        let (nominal, rabbet) = (size_in(nominal, unit), size_in(rabbet, unit));
        let (sight, outside) = (size_in(sight, unit), size_in(outside, unit));
        assert_eq!(rails.rabbet(nominal), Ok(rabbet));
        assert_eq!(rails.sight(nominal), Ok(sight));
        assert_eq!(rails.outside(nominal), Ok(outside));
        assert_eq!(rails.nominal_of_rabbet(rabbet), Ok(nominal));
        assert_eq!(rails.nominal_of_sight(sight), Ok(nominal));
        assert_eq!(rails.nominal_of_outside(outside), Ok(nominal));
        assert_eq!(rails.lip_hides(), length_in(hidden, unit));
    };
    let usual = ["1", "1/4", "1/8"];
    check(IN, "16x20", usual, ["16.125x20.125", "15.625x19.625", "17.625x21.625", "3/16"]);
    let wider = ["1.25", "1/4", "1/8"];
    check(IN, "24x36", wider, ["24.125x36.125", "23.625x35.625", "26.125x38.125", "3/16"]);
    let wide = ["2", "1/4", "1/8"];
    check(IN, "20x24", wide, ["20.125x24.125", "19.625x23.625", "23.625x27.625", "3/16"]);
    let narrow = ["3/4", "3/16", "1/8"];
    check(IN, "11x14", narrow, ["11.125x14.125", "10.75x13.75", "12.25x15.25", "1/8"]);
    check(MM, "500x700", ["20", "6", "3"], ["503x703", "491x691", "531x731", "4.5"]);
    check(MM, "400x500", ["30", "7", "2"], ["402x502", "388x488", "448x548", "6"]);
    check(MM, "300x400", ["15", "5", "2"], ["302x402", "292x392", "322x422", "4"]);
}

/// opening = sheet - 2 × overlap = image + 2 × reveal = sheet + 2 × gap.
#[test]
fn openings_both_ways() {
    let check = |unit, rule: fn(Length) -> OpeningRule, by: &str, art: &str, opening: &str| {
        let rule = rule(length_in(by, unit));
        assert_eq!(opening_of(size_in(art, unit), rule), Ok(size_in(opening, unit)), "{art} {rule:?}");
        assert_eq!(art_of(size_in(opening, unit), rule), Ok(size_in(art, unit)), "{opening} {rule:?}");
    };
    check(IN, OpeningRule::Overlap, "1/8", "8x10", "7.75x9.75");
    check(IN, OpeningRule::Overlap, "1/4", "8x10", "7.5x9.5");
    check(IN, OpeningRule::Overlap, "1/8", "20x30", "19.75x29.75");
    check(MM, OpeningRule::Overlap, "3", "240x300", "234x294");
    check(IN, OpeningRule::Reveal, "1/4", "8x10", "8.5x10.5");
    // 11 x 14 with 1/2 in of air: 12 x 15.
    check(IN, OpeningRule::Float, "1/2", "11x14", "12x15");
}

/// W = opening + left + right; side = (W - opening) / 2; head = (H - opening - b) / 2; foot = head + b.
#[test]
fn boards_both_ways() {
    let check = |unit, [board, opening, foot]: [&str; 3], [side, head, bottom]: [&str; 3]| {
        let (board, opening) = (size_in(board, unit), size_in(opening, unit));
        let side = length_in(side, unit);
        let borders =
            Sides { left: side, top: length_in(head, unit), right: side, bottom: length_in(bottom, unit) };
        assert_eq!(borders_in(board, opening, length_in(foot, unit)), borders, "{board:?}");
        assert_eq!(opening_in(board, borders), Ok(opening));
        assert_eq!(board_round(opening, borders), Ok(board));
    };
    check(IN, ["11x14", "7.75x9.75", "0"], ["1.625", "2.125", "2.125"]);
    check(IN, ["16x20", "10.75x13.75", ".5"], ["2.625", "2.875", "3.375"]);
    check(IN, ["20x24", "15.75x19.75", "0"], ["2.125", "2.125", "2.125"]);
    check(IN, ["24x36", "19.75x29.75", ".5"], ["2.125", "2.875", "3.375"]);
    check(IN, ["18x24", "11.75x17.75", ".25"], ["3.125", "3", "3.25"]);
    check(IN, ["30x40", "23.75x35.75", "0"], ["3.125", "2.125", "2.125"]);
    check(MM, ["400x500", "234x294", "10"], ["83", "98", "108"]);
    check(MM, ["500x700", "394x594", "15"], ["53", "45.5", "60.5"]);
    // As a published example prints it: mat 11 x 14, window 7.5 x 9.5 (common practice, no source that could be named).
    check(IN, ["11x14", "7.5x9.5", "0"], ["1.75", "2.25", "2.25"]);
}

/// printed = face + 2d; cloth = face + 2(d + f); lost = 1 - wh / ((w + 2d)(h + 2d)), in hundredths of a per cent.
#[test]
fn canvases_both_ways() {
    let check = |[face, depth, fold]: [&str; 3], [printed, cloth]: [&str; 2], lost: i128| {
        let bars = Bars { depth: length_in(depth, IN), fold: length_in(fold, IN) };
        let (face, printed, cloth) = (size_in(face, IN), size_in(printed, IN), size_in(cloth, IN));
        assert_eq!((bars.printed(face), bars.cloth(face)), (printed, cloth));
        assert_eq!((bars.face_of_printed(printed), bars.face_of_cloth(cloth)), (Ok(face), Ok(face)));
        let share = bars.share_carried_round(face) * 10_000;
        assert_eq!(share.round(), Exact::from_integer(lost), "{face:?}");
    };
    check(["16x20", ".75", "1"], ["17.5x21.5", "19.5x23.5"], 1495);
    check(["24x36", "1.5", "1"], ["27x39", "29x41"], 1795);
    check(["24x36", "1.5", "1.5"], ["27x39", "30x42"], 1795);
    check(["30x40", "1.5", "1"], ["33x43", "35x45"], 1543);
    check(["12x12", ".625", "1"], ["13.25x13.25", "15.25x15.25"], 1798);
    check(["40x60", "2", "1"], ["44x64", "46x66"], 1477);
}

/// inside = canvas + 2 × gap, outside = inside + 2 × face: 24 + 1/2 + 3/4.
#[test]
fn floaters_both_ways() {
    let floater = FloaterRails { gap: length_in("1/4", IN), face: length_in("3/8", IN) };
    assert_eq!(floater.outside(size_in("24x36", IN)), size_in("25.25x37.25", IN));
    assert_eq!(floater.canvas_in(size_in("25.25x37.25", IN)), Ok(size_in("24x36", IN)));
}

/// What would be nothing is refused with what it would be and what to do.
#[test]
fn nothing_left_is_refused_in_words() {
    let check = |found: Result<Size, NothingLeft>, part: FrameMeasure, left: &str, sentence: &str| {
        let error = NothingLeft { part, size: size_in(left, IN) };
        assert_eq!(found, Err(error));
        assert_eq!(error.to_string(), sentence);
    };
    let rails = rails(["1", "1/4", "1/8"], IN);
    check(
        rails.nominal_of_outside(size_in("1 5/8x20", IN)),
        FrameMeasure::Nominal,
        "0x18.375",
        "what goes into the frame would be 0 in × 18 3/8 in, and both must be more than zero; check what was measured, and the frame's face, rabbet (rebate) and allowance",
    );
    check(
        rails.nominal_of_rabbet(size_in("8x1/8", IN)),
        FrameMeasure::Nominal,
        "7.875x0",
        "what goes into the frame would be 7 7/8 in × 0 in, and both must be more than zero; check what was measured, and the frame's face, rabbet (rebate) and allowance",
    );
    check(
        rails.sight(size_in("3/8x1", IN)),
        FrameMeasure::Sight,
        "0x.625",
        "the sight opening would be 0 in × 5/8 in, and both must be more than zero; choose a narrower rabbet (rebate) or a larger size",
    );
    check(
        opening_of(size_in("1x5", IN), OpeningRule::Overlap(length_in("1", IN))),
        FrameMeasure::Opening,
        "-1x3",
        "the mat opening would be -1 in × 3 in, and both must be more than zero; let the mat cover less, make its borders narrower, or choose a larger size",
    );
    check(
        art_of(size_in("1x5", IN), OpeningRule::Float(length_in("1/2", IN))),
        FrameMeasure::Art,
        "0x4",
        "the print behind the mat would be 0 in × 4 in, and both must be more than zero; choose a larger opening or narrower borders",
    );
    check(
        opening_in(size_in("8x10", IN), Sides::all(length_in("4", IN))),
        FrameMeasure::Opening,
        "0x2",
        "the mat opening would be 0 in × 2 in, and both must be more than zero; let the mat cover less, make its borders narrower, or choose a larger size",
    );
    check(
        board_round(size_in("8x10", IN), Sides::all(length_in("-4", IN))),
        FrameMeasure::Board,
        "0x2",
        "the mat board would be 0 in × 2 in, and both must be more than zero; choose a larger opening or wider borders",
    );
    let bars = Bars { depth: length_in("2", IN), fold: length_in("1", IN) };
    check(
        bars.face_of_printed(size_in("4x9", IN)),
        FrameMeasure::Face,
        "0x5",
        "the face of the canvas would be 0 in × 5 in, and both must be more than zero; choose shallower bars, a narrower gap or a larger size",
    );
    check(
        bars.face_of_cloth(size_in("9x4", IN)),
        FrameMeasure::Face,
        "3x-2",
        "the face of the canvas would be 3 in × -2 in, and both must be more than zero; choose shallower bars, a narrower gap or a larger size",
    );
    let no_face = Rails { face: Length::ZERO, ..rails };
    check(
        no_face.outside(size_in("3/8x1", IN)),
        FrameMeasure::Outside,
        "0x.625",
        "the outside of the frame would be 0 in × 5/8 in, and both must be more than zero; choose a narrower rabbet (rebate) or a larger size",
    );
}

/// Lengths of nothing and more: none, a unit, marks of a rule and beside them, nearly equal ones, the longest that is read.
fn any_measure() -> impl Strategy<Value = Length> {
    let (inch, longest) = (overmantel::length::UNITS_PER_INCH, LONGEST.units());
    prop_oneof![
        2 => 0_i64..=2,
        4 => (0_i64..=640, -1_i64..=1).prop_map(move |(marks, off)| (marks * (inch / 16) + off).max(0)),
        2 => (0_i64..=900).prop_map(|mm| Length::mm(mm).units()),
        2 => (-1_i64..=1).prop_map(move |off| inch + off),
        1 => (0_i64..=2).prop_map(move |off| longest - off),
        1 => 0..=longest,
    ]
    .prop_map(Length::from_units)
}

fn any_size() -> impl Strategy<Value = Size> {
    let least = Length::from_units(1);
    (any_measure(), any_measure())
        .prop_map(move |(width, height)| Size::new(width.max(least), height.max(least)))
}

/// Where the sum has an answer its inverse leads back; where not, what would be left is not positive in one direction.
fn undoes(
    given: Size,
    there: impl Fn(Size) -> Result<Size, NothingLeft>,
    back: impl Fn(Size) -> Result<Size, NothingLeft>,
) -> Result<(), TestCaseError> {
    match there(given) {
        Ok(found) => {
            prop_assert!(found.width > Length::ZERO && found.height > Length::ZERO);
            prop_assert_eq!(back(found), Ok(given));
        }
        Err(why) => {
            prop_assert!(why.size.width <= Length::ZERO || why.size.height <= Length::ZERO, "{why}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn a_frame_and_its_inverses_undo_each_other(
        given in any_size(),
        (face, rabbet_width, allowance) in (any_measure(), any_measure(), any_measure()),
    ) {
        let rails = Rails { face, rabbet_width, allowance };
        undoes(given, |n| rails.rabbet(n), |n| rails.nominal_of_rabbet(n))?;
        undoes(given, |n| rails.nominal_of_rabbet(n), |n| rails.rabbet(n))?;
        undoes(given, |n| rails.sight(n), |n| rails.nominal_of_sight(n))?;
        undoes(given, |n| rails.nominal_of_sight(n), |n| rails.sight(n))?;
        undoes(given, |n| rails.outside(n), |n| rails.nominal_of_outside(n))?;
        undoes(given, |n| rails.nominal_of_outside(n), |n| rails.outside(n))?;
        // What the lip hides on both sides is what the nominal size has more than the sight opening.
        if let Ok(sight) = rails.sight(given) {
            let odd = rails.lip_hides() * 2 - (given.width - sight.width);
            prop_assert!(odd.abs() <= Length::from_units(1), "{:?}", odd);
        }
    }

    #[test]
    fn a_mat_and_its_inverses_undo_each_other(
        (given, board) in (any_size(), any_size()),
        by in any_measure(),
        (left, top, right, bottom) in (any_measure(), any_measure(), any_measure(), any_measure()),
    ) {
        for rule in [OpeningRule::Overlap(by), OpeningRule::Reveal(by), OpeningRule::Float(by)] {
            undoes(given, |art| opening_of(art, rule), |opening| art_of(opening, rule))?;
            undoes(given, |opening| art_of(opening, rule), |art| opening_of(art, rule))?;
        }
        let borders = Sides { left, top, right, bottom };
        undoes(given, |opening| board_round(opening, borders), |board| opening_in(board, borders))?;
        undoes(given, |board| opening_in(board, borders), |opening| board_round(opening, borders))?;
        // Borders left over sum to the board, with the foot wider by the extra, to a unit that can't be halved.
        let left_over = borders_in(board, given, by);
        prop_assert_eq!(board_round(given, left_over), Ok(board));
        prop_assert!((left_over.right - left_over.left).abs() <= Length::from_units(1));
        prop_assert!((left_over.bottom - left_over.top - by).abs() <= Length::from_units(1));
    }

    #[test]
    fn a_canvas_and_its_inverses_undo_each_other(
        given in any_size(),
        (depth, fold, gap, face) in (any_measure(), any_measure(), any_measure(), any_measure()),
    ) {
        let bars = Bars { depth, fold };
        undoes(given, |face| Ok(bars.printed(face)), |printed| bars.face_of_printed(printed))?;
        undoes(given, |printed| bars.face_of_printed(printed), |face| Ok(bars.printed(face)))?;
        undoes(given, |face| Ok(bars.cloth(face)), |cloth| bars.face_of_cloth(cloth))?;
        undoes(given, |cloth| bars.face_of_cloth(cloth), |face| Ok(bars.cloth(face)))?;
        let floater = FloaterRails { gap, face };
        undoes(given, |canvas| Ok(floater.outside(canvas)), |outside| floater.canvas_in(outside))?;
        undoes(given, |outside| floater.canvas_in(outside), |canvas| Ok(floater.outside(canvas)))?;
        let share = bars.share_carried_round(given);
        prop_assert!(share >= Exact::from_integer(0) && share < Exact::from_integer(1));
        prop_assert_eq!(share == Exact::from_integer(0), depth == Length::ZERO);
    }
}
