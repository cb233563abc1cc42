//! Showing a length: rounded once, here, and never read back.
//!
//! ```
//! use overmantel::length::{Length, print::{Style, print}};
//! let a4_height = print(Length::mm(297), Style::Inches { denominator: 16 });
//! assert_eq!(a4_height.text, "11 11/16\"");
//! assert_eq!(a4_height.error, Length::micrometres(-137) - Length::micrometres(1).half(), "296.8625 - 297 mm");
//! ```
//!
//! A tie goes away from zero, so that a length and its opposite look alike. What rounds to nothing is shown without a
//! sign. Fractions have an ASCII slash, and lengths an ASCII minus: a drawing sets both in better type, a plan file
//! does not.
//!
//! [`exact`] is the other way of writing, for what is to be read again.

use super::{Length, UNITS_PER_INCH, Unit};
use crate::rounding::{Mode, divide};
use num_rational::Ratio;

/// How a length is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Inches and a fraction: `16 1/2"`. The denominator is a power of two up to 64.
    Inches {
        /// The largest denominator; zero counts as one.
        denominator: u8,
    },
    /// Feet and inches: `12' 4 1/2"`, and `6"` below a foot.
    FeetAndInches {
        /// The largest denominator; zero counts as one.
        denominator: u8,
    },
    /// Centimetres with a greatest number of decimals, none of them a trailing zero: `41.9 cm`.
    Centimetres {
        /// Decimals at most; more than nine counts as nine, which tell any two lengths apart.
        decimals: u8,
    },
    /// Millimetres likewise: `419 mm`.
    Millimetres {
        /// Decimals at most; more than nine counts as nine.
        decimals: u8,
    },
}

/// A length as shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The text.
    pub text: String,
    /// Shown minus true: zero when the text is exact.
    pub error: Length,
}

impl Printed {
    /// Whether the text is not the exact length.
    #[must_use]
    pub fn is_rounded(&self) -> bool {
        self.error != Length::ZERO
    }
}

/// Shows a length.
///
/// ```
/// use overmantel::length::{Length, print::{Style, print}};
/// let show = |length, style| print(length, style).text;
/// let wall = Length::inches(143) + Length::inches_ratio(31, 32);
/// assert_eq!(show(wall, Style::FeetAndInches { denominator: 16 }), "12' 0\"", "carried into feet");
/// assert_eq!(show(wall, Style::FeetAndInches { denominator: 32 }), "11' 11 31/32\"");
/// assert_eq!(show(-Length::inches(1).half(), Style::Inches { denominator: 16 }), "-1/2\"");
/// assert_eq!(show(Length::mm(419), Style::Centimetres { decimals: 2 }), "41.9 cm");
/// ```
#[must_use]
pub fn print(length: Length, style: Style) -> Printed {
    let (unit, steps) = match style {
        Style::Inches { denominator } | Style::FeetAndInches { denominator } => {
            (Unit::Inch, i128::from(denominator.max(1)))
        }
        Style::Centimetres { decimals } => (Unit::Centimetre, power_of_ten(decimals.min(9))),
        Style::Millimetres { decimals } => (Unit::Millimetre, power_of_ten(decimals.min(9))),
    };
    let unit_units = i128::from(unit.length().units());
    let true_units = i128::from(length.units());
    let shown_steps = divide(true_units * steps, unit_units, Mode::HalfAway);
    let sign = if shown_steps < 0 { "-" } else { "" };
    let magnitude = shown_steps.abs();
    let text = match style {
        Style::Inches { .. } => format!("{sign}{}\"", mixed_number(Ratio::new(magnitude, steps))),
        Style::FeetAndInches { .. } => {
            let (feet, inches) = (magnitude / (12 * steps), Ratio::new(magnitude % (12 * steps), steps));
            match feet {
                0 => format!("{sign}{}\"", mixed_number(inches)),
                // Behind feet the inches are never left out: a fraction alone is easily read as part of the feet.
                _ if inches < Ratio::ONE && inches > Ratio::ZERO => format!("{sign}{feet}' 0 {inches}\""),
                _ => format!("{sign}{feet}' {}\"", mixed_number(inches)),
            }
        }
        Style::Centimetres { .. } => format!("{sign}{} cm", decimal_number(magnitude, steps)),
        Style::Millimetres { .. } => format!("{sign}{} mm", decimal_number(magnitude, steps)),
    };
    Printed {
        text,
        error: Length::from_ratio(shown_steps * unit_units - true_units * steps, steps, Mode::HalfAway),
    }
}

/// Shows a length in two styles, the way both parties to an order read it: `16 1/2"` and `41.9 cm`.
///
/// Each is rounded from the length itself, so neither carries the other's error.
#[must_use]
pub fn both(length: Length, first: Style, second: Style) -> [Printed; 2] {
    [print(length, first), print(length, second)]
}

/// A short text, with its unit, that [`super::parse::parse`] reads back as exactly this length.
///
/// The form of a length in a plan file. The first that applies:
/// 1. whole inches and 64ths, as a mixed number: `16 1/2 in`;
/// 2. decimals that end, of millimetres or of inches, whichever is shorter, inches in a tie: `419 mm`, `0.093 in`;
/// 3. a fraction of an inch or of a millimetre, likewise: `16/3 in`, `100/3 mm`.
///
/// So what was typed in millimetres comes back in millimetres, unless it is also whole 64ths of an inch: of whole
/// millimetres only the multiples of 127, which are 5 in. (Were these two also judged by the length of the text, a mat
/// of `2 1/2 in` would come back as `63.5 mm`.)
///
/// Lengths beyond [`super::parse::LONGEST`] are written likewise, but not read.
#[must_use]
pub fn exact(length: Length) -> String {
    let sign = if length < Length::ZERO { "-" } else { "" };
    let units = i128::from(length.units()).abs();
    let (inch_units, mm_units) = (i128::from(UNITS_PER_INCH), i128::from(Unit::Millimetre.length().units()));
    let (inches, mm) = (Ratio::new(units, inch_units), Ratio::new(units, mm_units));
    if 64 % inches.denom() == 0 {
        return format!("{sign}{} in", mixed_number(inches));
    }
    let decimals = |value: Ratio<i128>| {
        (0..=9)
            .map(power_of_ten)
            .find(|steps| steps % value.denom() == 0)
            .map(|steps| decimal_number(value.numer() * (steps / value.denom()), steps))
    };
    let as_mm = decimals(mm).map(|text| format!("{sign}{text} mm"));
    let as_inches = decimals(inches).map(|text| format!("{sign}{text} in"));
    let as_fractions = [format!("{sign}{inches} in"), format!("{sign}{mm} mm")];
    // The first of the shortest: inches stand first.
    let shortest = |texts: Vec<String>| texts.into_iter().min_by_key(String::len);
    shortest(as_inches.into_iter().chain(as_mm).collect())
        .or_else(|| shortest(as_fractions.into()))
        .unwrap_or_default()
}

/// A length for a sentence: exactly where that is short, otherwise to a hundredth of a millimetre.
///
/// ```
/// use overmantel::length::{Length, print::plain};
/// assert_eq!(plain(Length::inches_ratio(5, 8)), "5/8 in");
/// assert_eq!(plain(Length::inches_ratio(1793, 24)), "1897.59 mm", "74.708333… × 25.4");
/// ```
#[must_use]
pub fn plain(length: Length) -> String {
    let on_a_rule = length.units() % (UNITS_PER_INCH / 64) == 0;
    let text = exact(length);
    if on_a_rule || !text.contains('/') && text.len() <= 12 {
        return text;
    }
    print(length, Style::Millimetres { decimals: 2 }).text
}

/// `16`, `1/2` or `16 1/2`.
fn mixed_number(value: Ratio<i128>) -> String {
    match (value.to_integer(), value.fract()) {
        (whole, fraction) if *fraction.numer() == 0 => format!("{whole}"),
        (0, fraction) => format!("{fraction}"),
        (whole, fraction) => format!("{whole} {fraction}"),
    }
}

/// `steps` of which `steps_per_one` (a power of ten) make one, without trailing zeros.
fn decimal_number(steps: i128, steps_per_one: i128) -> String {
    let (whole, mut rest, mut scale) = (steps / steps_per_one, steps % steps_per_one, steps_per_one);
    if rest == 0 {
        return format!("{whole}");
    }
    while rest % 10 == 0 {
        (rest, scale) = (rest / 10, scale / 10);
    }
    // The leading one of the scale stands for the zeros that the rest lacks: 1000 + 45 is 1045, and 045 is meant.
    format!("{whole}.{}", &format!("{}", scale + rest)[1..])
}

fn power_of_ten(exponent: u8) -> i128 {
    (0..exponent).fold(1, |power, _| power * 10)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::parse::parse;

    #[track_caller]
    fn check(length: Length, style: Style, text: &str, error: Length) {
        assert_eq!(print(length, style), Printed { text: text.to_owned(), error });
    }

    #[test]
    fn inches_are_reduced_and_carried() {
        let sixteenths = Style::Inches { denominator: 16 };
        for (thirty_seconds, text, error_in_thirty_seconds) in [
            (0, "0\"", 0),
            (1, "1/16\"", 1),
            (-1, "-1/16\"", -1),
            (2, "1/16\"", 0),
            (16, "1/2\"", 0),
            (-16, "-1/2\"", 0),
            (24, "3/4\"", 0),
            (32, "1\"", 0),
            (-48, "-1 1/2\"", 0),
            (12 * 32 - 1, "12\"", 1),
            (144 * 32 - 1, "144\"", 1),
        ] {
            let length = Length::inches_ratio(thirty_seconds, 32);
            check(length, sixteenths, text, Length::inches_ratio(error_in_thirty_seconds, 32));
        }
        check(Length::inches_ratio(1, 3), sixteenths, "5/16\"", Length::inches_ratio(-1, 48));
        check(Length::inches_ratio(1, 40), sixteenths, "0\"", -Length::inches_ratio(1, 40));
        check(-Length::inches_ratio(1, 40), sixteenths, "0\"", Length::inches_ratio(1, 40));
    }

    #[test]
    fn feet_take_the_carry_and_keep_the_sign() {
        let style = Style::FeetAndInches { denominator: 16 };
        for (thirty_seconds, text, error_in_thirty_seconds) in [
            (0, "0\"", 0),
            (6 * 32, "6\"", 0),
            (12 * 32, "1' 0\"", 0),
            (12 * 32 - 1, "1' 0\"", 1),
            (144 * 32 - 1, "12' 0\"", 1),
            (148 * 32 + 16, "12' 4 1/2\"", 0),
            (-18 * 32, "-1' 6\"", 0),
            (-12 * 32 + 1, "-1' 0\"", -1),
            (12 * 32 + 16, "1' 0 1/2\"", 0),
        ] {
            let length = Length::inches_ratio(thirty_seconds, 32);
            check(length, style, text, Length::inches_ratio(error_in_thirty_seconds, 32));
        }
    }

    #[test]
    fn decimals_drop_their_trailing_zeros() {
        let um = Length::micrometres;
        check(um(419_000), Style::Millimetres { decimals: 1 }, "419 mm", um(0));
        check(um(419_000), Style::Centimetres { decimals: 1 }, "41.9 cm", um(0));
        check(um(400_000), Style::Centimetres { decimals: 3 }, "40 cm", um(0));
        check(um(419_050), Style::Millimetres { decimals: 1 }, "419.1 mm", um(50));
        check(um(-419_050), Style::Millimetres { decimals: 1 }, "-419.1 mm", um(-50));
        check(um(10_045), Style::Millimetres { decimals: 3 }, "10.045 mm", um(0));
        check(um(999_960), Style::Millimetres { decimals: 1 }, "1000 mm", um(40));
        check(um(-40), Style::Millimetres { decimals: 1 }, "0 mm", um(40));
        // 1/14,400,000 cm is 0.0000000694… cm.
        check(Length::from_units(1), Style::Centimetres { decimals: 255 }, "0.000000069 cm", um(0));
    }

    #[test]
    fn both_round_from_the_length_itself() {
        let [metric, inches] =
            both(Length::mm(420), Style::Centimetres { decimals: 1 }, Style::Inches { denominator: 16 });
        assert_eq!((metric.text.as_str(), metric.is_rounded()), ("42 cm", false));
        assert_eq!((inches.text.as_str(), inches.is_rounded()), ("16 9/16\"", true));
    }

    #[test]
    fn exact_keeps_what_was_typed() {
        for text in [
            "0 in",
            "16 1/2 in",
            "2 1/2 in",
            "-1/2 in",
            "144 in",
            "1/64 in",
            "150 1/2 in",
            "419 mm",
            "400 mm",
            "0.5 mm",
            "-41.9 mm",
            "0.093 in",
            "0.001 in",
            "0.05 in",
            "1/3 in",
            "16/3 in",
            "-100/3 mm",
            "1/1440000 mm",
            "999999999 mm",
            "999999999.99999375 mm",
        ] {
            let length = parse(text, Unit::Foot).expect(text);
            assert_eq!(exact(length), text);
        }
        for (typed, text) in
            [("127 mm", "5 in"), ("1 pt", "1/72 in"), ("41,9 cm", "419 mm"), ("1.27 mm", "0.05 in")]
        {
            assert_eq!(exact(parse(typed, Unit::Foot).expect(typed)), text, "for {typed}");
        }
    }

    #[test]
    fn the_ends_of_the_range_are_shown_too() {
        let lowest = Length::from_units(i64::MIN);
        // 2^63 / 36,576,000 = 252,170,057,875.5…; and 2^55 / 5,625, since 1,440,000 = 2^8 × 5,625.
        assert_eq!(print(lowest, Style::Inches { denominator: 0 }).text, "-252170057876\"");
        assert_eq!(exact(lowest), "-36028797018963968/5625 mm");
    }
}
