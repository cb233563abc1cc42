//! What is said when a text is not a length: what was given, and what is allowed.

use super::{MOST_CHARACTERS, MOST_DIGITS};
use crate::quoted::short;
use std::fmt;
use std::ops::Range;

/// Why a text is not a length: where, and what would be.
///
/// Shown, it is a plain sentence that says what was given, and what is allowed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct ParseError {
    /// The text that was given, or its first [`MOST_CHARACTERS`] characters when it was too long.
    pub text: String,
    /// The offending characters, as a range of bytes of `text`, on the boundaries of characters. Never empty, unless
    /// `text` is.
    pub span: Range<usize>,
    /// What is wrong.
    pub kind: ParseErrorKind,
}

/// The kinds of mistake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ParseErrorKind {
    /// Nothing was written.
    Empty,
    /// More than [`MOST_CHARACTERS`] characters.
    TooLong,
    /// Something else where a number must stand: `NaN`, `in`, `/2`.
    NumberExpected,
    /// More than [`MOST_DIGITS`] digits in one number.
    TooManyDigits,
    /// A decimal point or comma with no digit after it: `16.`.
    DigitExpected,
    /// Two decimal points: `41.9.2`.
    SecondPoint,
    /// Separators of thousands: `1,234.5`.
    Thousands,
    /// A slash with no number after it: `3/`.
    DenominatorExpected,
    /// Millimetres that may be thousands: `1,000 mm`.
    PerhapsThousands,
    /// Something after metres: `3 m 40`.
    AfterMetres,
    /// A fraction over nothing: `1/0`.
    DenominatorZero,
    /// A fraction of one or more after a whole number: `16 9/8`.
    FractionTooLarge,
    /// Letters that name no unit.
    UnknownUnit,
    /// A second length after one that is complete: `1 m 20 cm`, `6" 5'`.
    UnitOrder,
    /// Inches after feet that are not a whole number: `1.5' 3"`.
    FeetNotWhole,
    /// Twelve inches or more after feet: `5' 14"`.
    InchesTooMany,
    /// A hyphen that touches what is beside it, where none can join: `20-3`.
    TightMinus,
    /// A quotient divided again, without brackets: `12 / 1/2`.
    DividedTwice,
    /// A length times a length.
    LengthTimesLength,
    /// Something divided by a length.
    DividedByLength,
    /// A bare number beside a length in another unit than bare numbers have: `20 + 5 cm` in inches.
    UnitMissing,
    /// A bracket that is not closed.
    OpenBracket,
    /// A bracket that was not opened.
    ClosedBracket,
    /// Fractions whose sum or product has more digits than are worked with.
    TooFine,
    /// Something after the length.
    Leftover,
    /// Beyond [`LONGEST`](super::LONGEST).
    TooLarge,
}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use ParseErrorKind as Kind;
        let all = self.text.get(self.span.clone()).unwrap_or_default();
        let given = short(all);
        let remark = match self.kind {
            Kind::Empty => {
                return f.write_str("the field is empty; write a length, such as 16 1/2 in or 419 mm");
            }
            Kind::TooLong => {
                return write!(
                    f,
                    "the text is too long for a length; write at most {MOST_CHARACTERS} characters"
                );
            }
            Kind::TooManyDigits => {
                return write!(f, "“{given}” has too many digits; write at most {MOST_DIGITS}");
            }
            Kind::PerhapsThousands => {
                let number = all.trim_end_matches(|c: char| !c.is_ascii_digit());
                let (whole, rest) = number.split_once(['.', ',']).unwrap_or((number, ""));
                // Another number of decimals is beyond doubt.
                let decimals = match rest.trim_end_matches('0') {
                    "" => "0".to_owned(),
                    all if all == rest => [all, "0"].concat(),
                    fewer => fewer.to_owned(),
                };
                return write!(
                    f,
                    "“{given}” may be thousands; write {whole}{rest} mm or {whole}.{decimals} mm"
                );
            }
            Kind::AfterMetres => "follows metres; write them as one number, as in 3.40 m or 340 cm",
            Kind::NumberExpected => "is not a number; write digits first, as in 16 1/2 in",
            Kind::DigitExpected => "ends in a decimal point; write a digit after it, or leave it out",
            Kind::SecondPoint => "has more than one decimal point; write one, as in 41.9",
            Kind::Thousands => "separates thousands; write one decimal point and nothing else, as in 1234.5",
            Kind::DenominatorExpected => "has nothing below the line; write a number there, as in 3/8",
            Kind::DenominatorZero => "divides by zero; write another number below the line, as in 3/8",
            Kind::FractionTooLarge => {
                "is one or more; after a whole number write a fraction below one, as in 16 1/2"
            }
            Kind::UnknownUnit => "is not a unit; use in, ft, mm, cm, m or pt",
            Kind::UnitOrder => "follows a whole length; only inches may follow feet, as in 1' 4 1/2\"",
            Kind::FeetNotWhole => "feet are not whole, yet inches follow; write whole feet, as in 1' 4 1/2\"",
            Kind::InchesTooMany => "is a foot or more; after feet write less than 12 inches",
            Kind::TightMinus => {
                "could join or subtract; to subtract, write a space on both sides, as in 20 - 3"
            }
            Kind::DividedTwice => "divides twice; write brackets round what comes first, as in (12 / 3) / 2",
            Kind::LengthTimesLength => {
                "is a length times a length; multiply by a plain number, as in 3 * 16 in"
            }
            Kind::DividedByLength => {
                "is a length and can't be a divisor; divide by a plain number, as in 144 in / 3"
            }
            Kind::UnitMissing => {
                "has no unit next to a length that has one; write its unit too, as in 20 in + 5 cm"
            }
            Kind::OpenBracket => "is not closed; write a bracket after the sum, as in 2 * (3 + 4)",
            Kind::ClosedBracket => {
                "closes no bracket; leave it out, or write one before the sum, as in 2 * (3 + 4)"
            }
            Kind::TooFine => "has too many digits to be calculated exactly; write fewer",
            Kind::Leftover => "is left over after the length; write one length, as in 16 1/2 in",
            Kind::TooLarge => "is too large; write at most 1000 km either side of zero",
        };
        write!(f, "“{given}” {remark}")
    }
}

#[cfg(test)]
mod tests {
    use crate::length::{Unit, parse::parse};

    /// The text, the part of it that is found at fault, and the message after that part in quotation marks.
    #[track_caller]
    fn check(text: &str, fault: &str, message: &str) {
        let error = parse(text, Unit::Inch).expect_err(text);
        assert_eq!(&error.text[error.span.clone()], fault, "fault in {text:?}");
        assert_eq!(format!("{error}"), format!("“{fault}” {message}"), "message for {text:?}");
    }

    #[test]
    fn each_message_says_what_was_given_and_what_is_allowed() {
        check("NaN", "NaN", "is not a number; write digits first, as in 16 1/2 in");
        check("1234567890123456789 mm", "1234567890123456789", "has too many digits; write at most 18");
        check("16. in", "16.", "ends in a decimal point; write a digit after it, or leave it out");
        check("41.9.2 cm", "41.9.2", "has more than one decimal point; write one, as in 41.9");
        check(
            "1,234.5",
            "1,234.5",
            "separates thousands; write one decimal point and nothing else, as in 1234.5",
        );
        check("16 3/ in", "3/", "has nothing below the line; write a number there, as in 3/8");
        check("16 1/0 in", "1/0", "divides by zero; write another number below the line, as in 3/8");
        check(
            "16 9/8",
            "9/8",
            "is one or more; after a whole number write a fraction below one, as in 16 1/2",
        );
        check("3 spans", "spans", "is not a unit; use in, ft, mm, cm, m or pt");
        check("1 m 20 cm", "20 cm", "follows metres; write them as one number, as in 3.40 m or 340 cm");
        check("2 in 20 cm", "20 cm", "follows a whole length; only inches may follow feet, as in 1' 4 1/2\"");
        check("1.5' 3\"", "1.5", "feet are not whole, yet inches follow; write whole feet, as in 1' 4 1/2\"");
        check("5' 14\"", "14\"", "is a foot or more; after feet write less than 12 inches");
        check("16 1/2 in wide ", "wide", "is left over after the length; write one length, as in 16 1/2 in");
        check("20-3", "-3", "could join or subtract; to subtract, write a space on both sides, as in 20 - 3");
        check(
            "12 / 1/2",
            "12 / 1/2",
            "divides twice; write brackets round what comes first, as in (12 / 3) / 2",
        );
        check(
            "2 in * 3 in",
            "2 in * 3 in",
            "is a length times a length; multiply by a plain number, as in 3 * 16 in",
        );
        check(
            "12 in / 2 in",
            "2 in",
            "is a length and can't be a divisor; divide by a plain number, as in 144 in / 3",
        );
        check(
            "20 + 5 cm",
            "20",
            "has no unit next to a length that has one; write its unit too, as in 20 in + 5 cm",
        );
        check("2 * (3 + 4", "(", "is not closed; write a bracket after the sum, as in 2 * (3 + 4)");
        check(
            "3 + 4)",
            ")",
            "closes no bracket; leave it out, or write one before the sum, as in 2 * (3 + 4)",
        );
        let fine = "1/99999999999999999 + 1/99999999999999997+1/99999999999999989";
        check(fine, fine, "has too many digits to be calculated exactly; write fewer");
        check("1000001 m", "1000001", "is too large; write at most 1000 km either side of zero");
    }
}
