//! Lengths against what others published, and against general-purpose arithmetic.
//!
//! No expected value here was computed by Overmantel: each names its source, or the arithmetic that gives it.

use num_rational::Ratio;
use overmantel::length::parse::{ParseErrorKind, parse, parse_typed};
use overmantel::length::print::{Style, print};
use overmantel::length::{Length, UNITS_PER_INCH, Unit};
use overmantel_tests::given::length;
use proptest::prelude::*;
use uom::si::f64::Length as OtherLength;
use uom::si::length::{centimeter, foot, inch, meter, millimeter, point_computer};

/// NIST Special Publication 811, appendix B.8: factors in bold are exact. To metre: inch 2.54 E-02, foot 3.048 E-01,
/// mil 2.54 E-05 (the list read from memory; inch and foot also in the addendum to NBS Circular 572, 1960).
#[test]
fn nist_sp_811_appendix_b() {
    assert_eq!(length("1 in"), length("0.0254 m"));
    assert_eq!(length("1 ft"), length("0.3048 m"));
    assert_eq!(length("0.001 in"), length("0.0000254 m"));
    assert_eq!(Unit::Inch.length(), Length::micrometres(25_400));
    assert_eq!(Unit::Foot.length(), Length::micrometres(304_800));
}

/// CSS Values and Units, absolute lengths: 1in = 2.54cm = 96px = 72pt, 1Q = 1/40 of 1cm; so a pixel is 0.2645833 mm and
/// a point 0.3527778 mm (25.4 / 96 and 25.4 / 72).
#[test]
fn css_absolute_lengths() {
    assert_eq!(length("2.54 cm"), Length::inches(1));
    assert_eq!(length("72 pt"), Length::inches(1));
    assert_eq!(UNITS_PER_INCH % 96, 0, "a pixel is whole");
    let pixel = Length::from_units(UNITS_PER_INCH / 96);
    assert_eq!(print(pixel, Style::Millimetres { decimals: 7 }).text, "0.2645833 mm");
    assert_eq!(print(length("1 pt"), Style::Millimetres { decimals: 7 }).text, "0.3527778 mm");
    assert_eq!(length("1 cm"), Length::micrometres(250) * 40, "40 Q");
}

/// Canadian Conservation Institute, Notes 11/5: sizes of mats in inches, printed there in centimetres to one decimal.
#[test]
fn cci_notes_11_5_inches_to_centimetres() {
    for (inches, centimetres) in [
        (8, "20.3 cm"),
        (10, "25.4 cm"),
        (12, "30.5 cm"),
        (14, "35.6 cm"),
        (16, "40.6 cm"),
        (18, "45.7 cm"),
        (22, "55.9 cm"),
        (28, "71.1 cm"),
        (36, "91.4 cm"),
    ] {
        assert_eq!(print(Length::inches(inches), Style::Centimetres { decimals: 1 }).text, centimetres);
    }
}

/// Millimetres of the fractions on a rule: 25.4 × numerator / denominator, which all end.
#[test]
fn fractions_of_an_inch_in_millimetres() {
    for (fraction, millimetres) in [
        ("1/32", "0.79375"),
        ("1/16", "1.5875"),
        ("1/8", "3.175"),
        ("3/16", "4.7625"),
        ("1/4", "6.35"),
        ("5/16", "7.9375"),
        ("3/8", "9.525"),
        ("1/2", "12.7"),
        ("5/8", "15.875"),
        ("3/4", "19.05"),
        ("7/8", "22.225"),
    ] {
        let found = length(fraction);
        assert_eq!(found, length(&format!("{millimetres} mm")));
        let printed = print(found, Style::Millimetres { decimals: 5 });
        assert_eq!((printed.text, printed.error), (format!("{millimetres} mm"), Length::ZERO));
    }
}

/// Common metric sizes to the nearest mark of the rule, and what that adds: by hand, in tenths of a micrometre, from
/// 1/16 in = 1.5875 mm and 1/32 in = 0.79375 mm (a half of the last place towards zero).
#[test]
fn millimetres_to_the_nearest_fraction() {
    for (millimetres, denominator, inches, error) in [
        (100, 16, "3 15/16\"", 125),
        (180, 16, "7 1/16\"", -6_125),
        (180, 32, "7 3/32\"", 1_812),
        (210, 16, "8 1/4\"", -4_500),
        (210, 32, "8 9/32\"", 3_437),
        (240, 16, "9 7/16\"", -2_875),
        (297, 16, "11 11/16\"", -1_375),
        (300, 16, "11 13/16\"", 375),
        (400, 16, "15 3/4\"", 500),
        (420, 16, "16 9/16\"", 6_875),
        (420, 32, "16 17/32\"", -1_062),
        (500, 16, "19 11/16\"", 625),
        (594, 16, "23 3/8\"", -2_750),
        (600, 16, "23 5/8\"", 750),
        (700, 16, "27 9/16\"", 875),
        (800, 16, "31 1/2\"", 1_000),
        (841, 16, "33 1/8\"", 3_750),
        (1000, 16, "39 3/8\"", 1_250),
        (1189, 16, "46 13/16\"", 375),
    ] {
        let printed = print(Length::mm(millimetres), Style::Inches { denominator });
        assert_eq!(printed.text, inches, "{millimetres} mm");
        // 144 units to the tenth of a micrometre; what is left of 1/32 in is half a tenth.
        assert_eq!(printed.error.units() / 144, error, "{millimetres} mm");
    }
}

/// How lengths are written in the trade (common practice, no source); the millimetres are 25.4 times the inches.
#[test]
fn spellings_of_the_trade() {
    for (text, millimetres) in [
        ("24 3/16", "614.3625"),
        ("7' 6 1/2\"", "2298.7"),
        ("7’ 6 ½”", "2298.7"),
        ("7′ 6½″", "2298.7"),
        ("11⅜", "288.925"),
        ("5-1/2", "139.7"),
        (".75", "19.05"),
        ("2'", "609.6"),
        ("50 cm", "500"),
        ("1 m", "1000"),
        ("29,7 cm", "297"),
        ("-1 1/2", "-38.1"),
        ("-1/2", "-12.7"),
        ("−0.5", "-12.7"),
        ("-1' 6\"", "-457.2"),
        // Heights to hang at, and lengths of wall.
        ("57 in", "1447.8"),
        ("4' 9\"", "1447.8"),
        ("58", "1473.2"),
        ("4 ft 10 in", "1473.2"),
        ("60", "1524"),
        ("5' 0\"", "1524"),
        ("8'", "2438.4"),
        ("9 ft", "2743.2"),
    ] {
        assert_eq!(length(text), length(&format!("{millimetres} mm")), "{text}");
    }
    for (text, kind) in [
        ("1/0", ParseErrorKind::DenominatorZero),
        ("3/", ParseErrorKind::DenominatorExpected),
        ("", ParseErrorKind::Empty),
        ("NaN", ParseErrorKind::NumberExpected),
        ("inf", ParseErrorKind::NumberExpected),
        ("1,234.5", ParseErrorKind::Thousands),
    ] {
        assert_eq!(parse(text, Unit::Inch).map_err(|error| error.kind), Err(kind), "{text}");
    }
}

/// The fractions that Unicode has in one character (Number Forms, U+2150 to U+215E, and three of Latin-1), each with its number.
#[test]
fn fractions_of_unicode() {
    let fractions =
        "¼1/4 ½1/2 ¾3/4 ⅐1/7 ⅑1/9 ⅒1/10 ⅓1/3 ⅔2/3 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8";
    for pair in fractions.split(' ') {
        let (sign, typed) = pair.split_at(pair.chars().next().map_or(0, char::len_utf8));
        assert_eq!(length(sign), length(typed), "{sign}");
        assert_eq!(length(&format!("2{sign}")), length(&format!("2 {typed}")), "2{sign}");
    }
    assert_eq!(fractions.split(' ').count(), 18);
    assert!(parse("↉", Unit::Inch).is_err(), "0/3 is no length that anyone types");
}

/// The quotient of two lengths is a number: 50 / 20 = 2.5, and 1 m is 10 000 / 254 inches.
#[test]
fn quotients() {
    let close = |one: f64, other: f64| (one - other).abs() < 1e-12;
    assert!(close(Length::inches(50) / Length::inches(20), 2.5));
    assert!(close(Length::inches(20) / Length::inches(-50), -0.4));
    assert!(close(length("1 m") / Length::inches(1), 10_000.0 / 254.0));
}

/// What lacks a unit is marked from its first number to its last.
#[test]
fn where_a_unit_is_missing() {
    for (text, marked) in [
        ("6 / 2 + 3 cm", "6 / 2"),
        ("1.5 / 2 + 3 cm", "1.5 / 2"),
        ("2 * 3 + 3 cm", "2 * 3"),
        ("6 + 3 cm", "6"),
    ] {
        let why = parse(text, Unit::Inch).expect_err(text);
        assert_eq!((why.kind, &text[why.span]), (ParseErrorKind::UnitMissing, marked), "{text}");
    }
}

/// The carry from a fraction into inches and into feet, worked by hand.
#[test]
fn carries() {
    let feet = |text, denominator| print(length(text), Style::FeetAndInches { denominator }).text;
    let inches = |text, denominator| print(length(text), Style::Inches { denominator }).text;
    assert_eq!(inches("143 31/32", 16), "144\"");
    assert_eq!(feet("143 31/32", 16), "12' 0\"");
    assert_eq!(inches("11 31/32", 16), "12\"");
    assert_eq!(feet("11 31/32", 16), "1' 0\"");
    assert_eq!(feet("11 31/32", 32), "11 31/32\"");
    assert_eq!(inches("1/32", 16), "1/16\"", "a tie goes away from zero");
    assert_eq!(inches("-1/32", 16), "-1/16\"");
    for (inches, text) in [(57, "4' 9\""), (58, "4' 10\""), (60, "5' 0\""), (96, "8' 0\""), (108, "9' 0\"")] {
        assert_eq!(print(Length::inches(inches), Style::FeetAndInches { denominator: 16 }).text, text);
    }
}

/// The same length by `uom`, a general-purpose library of units.
fn other_length(value: f64, unit: Unit) -> OtherLength {
    match unit {
        Unit::Inch => OtherLength::new::<inch>(value),
        Unit::Foot => OtherLength::new::<foot>(value),
        Unit::Millimetre => OtherLength::new::<millimeter>(value),
        Unit::Centimetre => OtherLength::new::<centimeter>(value),
        Unit::Metre => OtherLength::new::<meter>(value),
        Unit::Point => OtherLength::new::<point_computer>(value),
    }
}

/// A unit, its name, and how many millimetres it is: inch and foot by NIST SP 811, the point by CSS Values and Units.
fn any_unit() -> impl Strategy<Value = (Unit, &'static str, Ratio<i128>)> {
    prop::sample::select(vec![
        (Unit::Inch, "in", Ratio::new(254, 10)),
        (Unit::Foot, "ft", Ratio::new(3048, 10)),
        (Unit::Millimetre, "mm", Ratio::new(1, 1)),
        (Unit::Centimetre, "cm", Ratio::new(10, 1)),
        (Unit::Metre, "m", Ratio::new(1000, 1)),
        (Unit::Point, "pt", Ratio::new(254, 720)),
    ])
}

proptest! {
    #[test]
    fn decimals_agree_with_another_library(
        thousandths in -100_000_000_i32..=100_000_000,
        (unit, name, _) in any_unit(),
    ) {
        let sign = if thousandths < 0 { "-" } else { "" };
        let (whole, rest) = (thousandths.unsigned_abs() / 1000, thousandths.unsigned_abs() % 1000);
        let ours = length(&format!("{sign}{whole}.{rest:03} {name}"));
        let theirs = other_length(f64::from(thousandths) / 1000.0, unit);
        if unit == Unit::Point {
            // DIFFERENCE: `uom` has the factor of NIST SP 811 as printed, to seven figures; ours is 1/72 in exactly.
            let ratio_error = (ours.to_mm() / theirs.get::<millimeter>() - 1.0).abs();
            prop_assert!(thousandths == 0 || ratio_error < 2e-7, "{ratio_error}");
        } else {
            // Theirs is right to a few parts in 2^53, ours to half a unit, which is 2^-21 mm.
            let tolerance_mm = 2e-15 * theirs.get::<millimeter>().abs() + 5e-7;
            prop_assert!((ours.to_mm() - theirs.get::<millimeter>()).abs() <= tolerance_mm);
            prop_assert!((ours.to_inches() - theirs.get::<inch>()).abs() <= tolerance_mm / 25.4);
        }
    }

    #[test]
    fn fractions_agree_with_exact_rationals(
        negative: bool,
        whole in 0_i128..100_000,
        (numerator, denominator) in prop_oneof![
            (1_u32..=6).prop_flat_map(|power| (0..1_i128 << power, Just(1_i128 << power))),
            (2_i128..1_000_000).prop_flat_map(|denominator| (0..denominator, Just(denominator))),
        ],
        (_, name, millimetres) in any_unit(),
    ) {
        let sign = if negative { "-" } else { "" };
        let ours = length(&format!("{sign}{whole} {numerator}/{denominator} {name}"));
        let magnitude = (Ratio::from_integer(whole) + Ratio::new(numerator, denominator)) * millimetres;
        let exact = if negative { -magnitude } else { magnitude };
        // 1,440,000 units to the millimetre, as the type promises; `round` too has ties away from zero.
        let units = (exact * Ratio::from_integer(1_440_000)).round().to_integer();
        prop_assert_eq!(i128::from(ours.units()), units);
    }

    #[test]
    fn the_shown_fraction_is_the_nearest(micrometres in -5_000_000_i64..=5_000_000, power in 0_u32..=6) {
        let denominator = 1_u8 << power;
        let exact = Ratio::new(i128::from(micrometres), 25_400);
        let scale = Ratio::from_integer(i128::from(denominator));
        let nearest = (exact * scale).round() / scale;
        let is_negative = nearest < Ratio::from_integer(0);
        let magnitude = if is_negative { -nearest } else { nearest };
        let (whole, fraction) = (magnitude.to_integer(), magnitude.fract());
        let sign = if is_negative { "-" } else { "" };
        let expected = match (whole, *fraction.numer()) {
            (_, 0) => format!("{sign}{whole}\""),
            (0, _) => format!("{sign}{fraction}\""),
            _ => format!("{sign}{whole} {fraction}\""),
        };
        prop_assert_eq!(print(Length::micrometres(micrometres), Style::Inches { denominator }).text, expected);
    }
}

/// Three digits behind a point or a comma may be thousands to whoever writes millimetres; what a person types is asked about, and a
/// length that is meant so can be written with another number of decimals. Nothing else is.
#[test]
fn millimetres_that_may_be_thousands() {
    let why = |text: &str| parse_typed(text, Unit::Inch).expect_err(text).to_string();
    assert_eq!(why("1,000 mm"), "“1,000 mm” may be thousands; write 1000 mm or 1.0 mm");
    assert_eq!(why("2 in + 12.500mm"), "“12.500mm” may be thousands; write 12500 mm or 12.5 mm");
    assert_eq!(why("1.125 millimetres"), "“1.125 millimetres” may be thousands; write 1125 mm or 1.1250 mm");
    for (text, micrometres) in [
        ("1.0 mm", 1_000),
        ("1000 mm", 1_000_000),
        ("1.1250 mm", 1_125),
        ("0.125 mm", 125),
        ("1.50 mm", 1_500),
        ("1000.125 mm", 1_000_125),
        ("1.000 m", 1_000_000),
        ("2.540 cm", 25_400),
    ] {
        assert_eq!(parse_typed(text, Unit::Inch), Ok(Length::micrometres(micrometres)), "{text}");
    }
}

#[test]
fn metres_and_more_are_one_number() {
    for (text, rest) in [("3m40", "40"), ("3 m 40 cm", "40 cm")] {
        let why = parse(text, Unit::Centimetre).expect_err(text);
        assert_eq!((why.kind, &text[why.span.clone()]), (ParseErrorKind::AfterMetres, rest));
        assert_eq!(
            why.to_string(),
            format!("“{rest}” follows metres; write them as one number, as in 3.40 m or 340 cm")
        );
    }
}
