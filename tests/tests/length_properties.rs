//! What holds of every length, tried where it is most likely not to: at zero, beside a tie, at the ends of the range.

use overmantel::length::parse::{LONGEST, MOST_CHARACTERS, parse};
use overmantel::length::print::{Style, both, exact, print};
use overmantel::length::{Length, UNITS_PER_INCH, Unit};
use overmantel_tests::length_round_trip;
use proptest::prelude::*;

/// Lengths that can be read, the nasty ones first.
fn any_length() -> impl Strategy<Value = Length> {
    let longest = LONGEST.units();
    let inch = UNITS_PER_INCH;
    prop_oneof![
        2 => -2_i64..=2,
        // Beside a mark of the rule, or half-way between two of them.
        4 => (-4_000_i64..=4_000, -1_i64..=1).prop_map(move |(marks, off)| marks * (inch / 128) + off),
        2 => (-400_i64..=400, -1_i64..=1).prop_map(move |(feet, off)| feet * 12 * inch + off),
        // Beside a tenth of a millimetre, or half-way between two of them.
        2 => (-40_000_i64..=40_000, -1_i64..=1).prop_map(|(twentieths, off)| twentieths * 72_000 + off),
        // One part of three, of seven.
        1 => (-4_000_i64..=4_000).prop_map(move |inches| inches * inch / 3),
        1 => (-4_000_i64..=4_000).prop_map(move |inches| inches * inch / 7),
        2 => -400 * inch..=400 * inch,
        1 => -longest..=longest,
        1 => (0_i64..=3).prop_map(move |off| longest - off),
        1 => (0_i64..=3).prop_map(move |off| off - longest),
    ]
    .prop_map(Length::from_units)
}

/// Two lengths, often equal or one unit apart.
fn any_two() -> impl Strategy<Value = (Length, Length)> {
    prop_oneof![
        (any_length(), -1_i64..=1).prop_map(|(length, off)| (length, length + Length::from_units(off))),
        (any_length(), any_length()),
    ]
}

/// A style, its unit, and how many steps of it make that unit.
fn any_style() -> impl Strategy<Value = (Style, Unit, i128)> {
    let binary = (0_u32..=6).prop_map(|power| (1_u8 << power, 1_i128 << power));
    let decimal = prop::sample::select(vec![(0_u8, 1_i128), (1, 10), (2, 100), (3, 1_000), (4, 10_000)]);
    prop_oneof![
        binary.clone().prop_map(|(denominator, steps)| (Style::Inches { denominator }, Unit::Inch, steps)),
        binary.prop_map(|(denominator, steps)| (Style::FeetAndInches { denominator }, Unit::Inch, steps)),
        decimal.clone().prop_map(|(decimals, steps)| (
            Style::Millimetres { decimals },
            Unit::Millimetre,
            steps
        )),
        decimal.prop_map(|(decimals, steps)| (Style::Centimetres { decimals }, Unit::Centimetre, steps)),
    ]
}

/// Texts near to lengths: pieces of the grammar in any order, and now and then anything at all.
fn any_text() -> impl Strategy<Value = String> {
    let pieces = "0 1 16 9 / ⁄ ½ ⅞ ¹ ₂ . , - − + ' ’ \" ″ in ft mm cm m pt inches İN NaN * ( ) ÷ e 999999999999999999 \u{301} 🖼";
    let pieces: Vec<_> = pieces.split(' ').chain([" ", " - ", " + ", "\u{a0}", "\u{2009}"]).collect();
    prop_oneof![
        6 => prop::collection::vec(prop::sample::select(pieces), 0..12).prop_map(|pieces| pieces.concat()),
        1 => prop::collection::vec(any::<char>(), 0..2 * MOST_CHARACTERS).prop_map(String::from_iter),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Shown is true plus error, and the error is at most half a step.
    #[test]
    fn what_is_shown_differs_by_the_stated_error(length in any_length(), (style, unit, steps) in any_style()) {
        let printed = print(length, style);
        // Within a foot of the longest, what is shown may lie beyond it.
        if length.abs() <= LONGEST - Length::inches(12) {
            prop_assert_eq!(parse(&printed.text, Unit::Metre), Ok(length + printed.error));
        }
        let error_in_half_steps = 2 * i128::from(printed.error.units()).abs() * steps;
        prop_assert!(error_in_half_steps <= i128::from(unit.length().units()), "{:?}", printed);
        prop_assert_eq!(&both(length, Style::Inches { denominator: 1 }, style)[1], &printed);
    }

    #[test]
    fn a_length_and_its_opposite_look_alike(length in any_length(), (style, ..) in any_style()) {
        let (positive, negative) = (print(length.abs(), style), print(-length.abs(), style));
        let shows_nothing = positive.text.chars().all(|c| !c.is_ascii_digit() || c == '0');
        let sign = if shows_nothing { "" } else { "-" };
        prop_assert_eq!(&negative.text, &format!("{sign}{}", positive.text));
        prop_assert_eq!(negative.error, -positive.error);
    }

    #[test]
    fn what_is_written_exactly_is_read_exactly(length in any_length()) {
        let text = exact(length);
        prop_assert!(text.chars().count() <= MOST_CHARACTERS);
        for bare in [Unit::Metre, Unit::Point] {
            prop_assert_eq!(parse(&text, bare), Ok(length), "{}", text);
        }
    }

    #[test]
    fn a_sign_belongs_to_the_whole(length in any_length()) {
        let text = exact(length.abs());
        for sign in ["-", "−", "- "] {
            prop_assert_eq!(parse(&format!("{sign}{text}"), Unit::Metre), Ok(-length.abs()));
        }
    }

    #[test]
    fn sums_are_exact((a, b) in any_two()) {
        prop_assert_eq!(i128::from((a + b).units()), i128::from(a.units()) + i128::from(b.units()));
        prop_assert_eq!(a + b - b, a);
        prop_assert_eq!([a, b, -a].into_iter().sum::<Length>(), b);
        prop_assert_eq!(a < b, (b - a) > Length::ZERO);
    }

    #[test]
    fn parts_sum_to_the_whole(length in any_length(), count in 1_u32..=1_000) {
        let parts: Vec<_> = length.parts(count).collect();
        prop_assert_eq!(u32::try_from(parts.len()), Ok(count));
        prop_assert_eq!(parts.iter().copied().sum::<Length>(), length);
        prop_assert!(parts.is_sorted_by(|a, b| a >= b));
        prop_assert!(parts[0] - parts[parts.len() - 1] <= Length::from_units(1));
    }

    #[test]
    fn any_text_is_read_or_refused_with_its_place(text in any_text()) {
        length_round_trip(&text);
    }
}

/// Where the fuzz target starts from.
#[test]
fn seeds_of_the_fuzz_target() {
    for text in [
        "",
        "16 1/2",
        "16½ in",
        "16¹⁄₁₆″",
        "1' 4 1/2\"",
        "-1' 6''",
        "41,9 cm",
        "−0.5",
        "1,234.5",
        "1/3 mm",
        "7/36576000 in",
        "999999999999999999/1 mm",
        "1 999999999999999998/999999999999999999 m",
        "1000 km",
        "1' 11 999999999999999998/999999999999999999",
        "0.000000000000000001 pt",
        "20 + 2*3",
        "-(16 1/2 in - 5 cm) / 3",
        "1/99999999999999999 + 1/99999999999999997+1/99999999999999989",
        "999999999999999999*999999999999999999*999999999999999999",
        "((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((",
        "\u{feff}1",
        "½İ",
    ] {
        length_round_trip(text);
    }
}
