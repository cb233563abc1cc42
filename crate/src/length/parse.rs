//! Reading a length as a person writes it.
//!
//! Whatever the display unit, a field takes any of the spellings below. A number without a unit is in the unit that
//! the caller names, except after feet, where it is inches.
//!
//! ```
//! use overmantel::length::{Length, Unit, parse::parse};
//! let um = Length::micrometres;
//! for (text, expected) in [
//!     // Inches, bare or marked.
//!     ("16 1/2", um(419_100)), // 16.5 × 25.4 mm
//!     ("16½", um(419_100)),
//!     ("16 ½ in", um(419_100)),
//!     ("16-1/2\"", um(419_100)), // a hyphen joins
//!     ("16¹⁄₂ inches", um(419_100)),
//!     ("33/2 in.", um(419_100)),
//!     ("3/8", um(9_525)),
//!     (".75", um(19_050)),
//!     ("0,75 ”", um(19_050)),
//!     ("6''", um(152_400)), // two single quotes
//!     // Feet and inches.
//!     ("1' 4 1/2\"", um(419_100)),
//!     ("1 ft 4½ in", um(419_100)),
//!     ("7’6″", um(2_286_000)), // 90 × 25.4 mm
//!     ("7'-6\"", um(2_286_000)),
//!     ("5' 6", um(1_676_400)), // bare after feet: inches
//!     ("2 FEET", um(609_600)),
//!     // Metric, with a decimal point or a decimal comma.
//!     ("41.9 cm", um(419_000)),
//!     ("41,9 cm", um(419_000)),
//!     ("419mm", um(419_000)),
//!     ("1 metre", um(1_000_000)),
//!     ("1,234 m", um(1_234_000)), // a lone comma is decimal
//!     ("72 pt", um(25_400)),
//!     // A sign belongs to the whole.
//!     ("-1 1/2", um(-38_100)),
//!     ("−1' 6\"", um(-457_200)),
//!     ("-0.5", um(-12_700)),
//!     ("+1/2", um(12_700)),
//!     // Sums, products and quotients.
//!     ("20 + 2*3", um(660_400)), // 26 × 25.4 mm
//!     ("144/3", um(1_219_200)),  // 48 × 25.4 mm
//!     ("16 1/2 in + 5 cm", um(469_100)),
//!     ("(8' - 3 in) / 2", um(1_181_100)), // 46.5 × 25.4 mm
//! ] {
//!     assert_eq!(parse(text, Unit::Inch), Ok(expected), "{text}");
//! }
//! ```
//!
//! # Grammar
//! Spaces are any white space of Unicode, so the non-breaking and thin ones too; they may stand wherever `_` stands.
//! Letters count in either case.
//! ```text
//! text        = _ sum _
//! sum         = [ sign _ ] product { _ ( "+" | "-" | "−" ) _ product }      a hyphen with white space on both sides
//! product     = factor { _ ( "*" | "/" | "÷" ) _ factor }
//! factor      = "(" _ sum _ ")" | length
//! length      = feet-inches | quantity _ [ unit ]
//! feet-inches = whole _ foot [ "-" | _ ] quantity _ [ inch ]      inches below 12
//! quantity    = decimal | whole | fraction | whole ( "-" | _ ) fraction      that fraction below 1
//! decimal     = [ digits ] ( "." | "," ) digits
//! fraction    = digits _ ( "/" | "⁄" | "∕" ) _ digits | "½" | "¼" | … | "⅞"      digits may be raised or lowered
//! sign        = "-" | "−" | "+"
//! unit        = inch | foot | "mm" | "cm" | "m" | "pt" | the same in full, singular or plural, "-re" or "-er"
//! inch        = """ | "”" | "“" | "″" | "''" | "in" | "inch" | "inches"      any two single marks make a double one
//! foot        = "'" | "’" | "‘" | "′" | "ft" | "foot" | "feet"
//! ```
//! A full stop may follow a unit in letters. A hyphen joins only where it touches both sides. Why no more:
//! - Separators of thousands are refused, since `1,234` would be 1234 to one reader and 1.234 to another; alone, a
//!   comma is decimal.
//! - Only inches may follow feet. `1 m 20 cm` is not written in the trade, and is more often a slip.
//! - A hyphen takes away only between spaces: `20-3/4` is 20 ¾, and `20-3` could be a slip for it.
//! - `12 / 1/2` is refused: it is 24 to one reader and 6 to another; brackets tell. So is `20 + 5 cm` where bare numbers are
//!   inches: twenty of what?
//! - `16 9/8` and `5' 14"` are refused: each has a digit too many somewhere, and a frame is cut from the answer.
//!
//! # Exactness
//! The text is worked out as an exact fraction and rounded once, half away from zero, to the nearest unit of [`Length`]. No
//! spelling with a denominator that a rule carries, or down to a micrometre, is rounded at all.

use super::{Length, Unit};
use std::ops::Range;

mod error;
mod sum;

pub use error::{ParseError, ParseErrorKind};

/// The longest length that is read, on either side of zero: 1000 km.
///
/// Far beyond any wall, and six thousand times below the range of [`Length`], so that sums of what was read are safe.
pub const LONGEST: Length = Length::mm(1_000_000_000);
/// The longest text that is read, in characters.
pub const MOST_CHARACTERS: usize = 64;
/// The most digits that one number may have: any more and it was not measured.
pub const MOST_DIGITS: usize = 18;

/// Reads a length; a number without a unit is in `bare`. The module has the table of spellings.
///
/// ```
/// use overmantel::length::{Length, Unit, parse::{ParseErrorKind, parse}};
/// assert_eq!(parse("41,9", Unit::Centimetre), Ok(Length::mm(419)));
/// let error = parse("16 1/0 in", Unit::Inch).unwrap_err();
/// assert_eq!((error.kind, &error.text[error.span]), (ParseErrorKind::DenominatorZero, "1/0"));
/// ```
///
/// # Errors
/// When the text is not a length by the grammar of this module, or is one beyond [`LONGEST`]. A negative length is
/// none: whether one makes sense is for the caller to say.
pub fn parse(text: &str, bare: Unit) -> Result<Length, ParseError> {
    if let Some((cut, _)) = text.char_indices().nth(MOST_CHARACTERS) {
        return Err(ParseError { text: text[..cut].to_owned(), span: 0..cut, kind: ParseErrorKind::TooLong });
    }
    let mut reader = Reader { text, at: 0, last_unit: None };
    reader.length(bare).map_err(|(kind, span)| ParseError { text: text.to_owned(), span, kind })
}

/// Reads a length as [`parse`] does, from a person's hand: where millimetres have three digits after their point or comma, they may be
/// thousands, and that is asked about. A file has no such doubt.
///
/// ```
/// use overmantel::length::{Length, Unit, parse::{parse, parse_typed}};
/// let why = parse_typed("1,000 mm", Unit::Inch).unwrap_err();
/// assert_eq!(why.to_string(), "“1,000 mm” may be thousands; write 1000 mm or 1.0 mm");
/// assert_eq!(parse_typed("1,00 mm", Unit::Inch), Ok(Length::mm(1)));
/// assert_eq!(parse("1.000 mm", Unit::Inch), Ok(Length::mm(1)), "in a file");
/// ```
///
/// # Errors
/// As [`parse`], and when millimetres may be thousands.
pub fn parse_typed(text: &str, bare: Unit) -> Result<Length, ParseError> {
    let length = parse(text, bare)?;
    match perhaps_thousands(text) {
        None => Ok(length),
        Some(span) => Err(ParseError { text: text.to_owned(), span, kind: ParseErrorKind::PerhapsThousands }),
    }
}

/// Millimetres of one to three digits, a point or comma, and three more.
fn perhaps_thousands(text: &str) -> Option<Range<usize>> {
    let mut at = 0;
    while let Some(found) = text[at..].find(|c: char| c.is_ascii_digit()) {
        let start = at + found;
        let run = &text[start..];
        let run = &run[..run.find(|c: char| !c.is_ascii_digit() && !is_point(c)).unwrap_or(run.len())];
        let end = start + run.len();
        let spaces = text[end..].len() - text[end..].trim_start().len();
        let word = &text[end + spaces..];
        let word = &word[..word.find(|c: char| !c.is_alphabetic()).unwrap_or(word.len())];
        let is_doubtful = run.split_once(is_point).is_some_and(|(whole, rest)| {
            (1..=3).contains(&whole.len()) && !whole.starts_with('0') && rest.len() == 3
        });
        if is_doubtful && unit_named(word) == Some(Unit::Millimetre) {
            return Some(start..end + spaces + word.len());
        }
        at = end;
    }
    None
}

type Fault = (ParseErrorKind, Range<usize>);

/// `whole + numerator / denominator`, none of them negative, each below `10^MOST_DIGITS`.
struct Quantity {
    whole: i128,
    numerator: i128,
    denominator: i128,
    span: Range<usize>,
}

/// A place in the text. Methods named for a part of the grammar read that part and step past it.
struct Reader<'t> {
    text: &'t str,
    at: usize,
    /// The unit of the length read last, where it has one.
    last_unit: Option<Unit>,
}

impl Reader<'_> {
    fn length(&mut self, bare: Unit) -> Result<Length, Fault> {
        self.spaces();
        if self.peek().is_none() {
            return Err((ParseErrorKind::Empty, 0..self.text.len()));
        }
        let start = self.at;
        let units = self.worked_out(bare)?;
        i64::try_from(units)
            .map(Length::from_units)
            .map_err(|_| (ParseErrorKind::TooLarge, self.trimmed(start)))
    }

    /// The inches after feet; none when the unit is not feet or nothing follows.
    fn inches_after(&mut self, unit: Option<Unit>, feet: &Quantity) -> Result<Option<Quantity>, Fault> {
        // “1 ft.5 in” is neither 1 ft 5 in nor 1 ft 0.5 in.
        if unit != Some(Unit::Foot) || self.peek().is_some_and(is_point) {
            return Ok(None);
        }
        let feet_end = self.at;
        if self.eat(is_hyphen).is_none() {
            self.spaces();
        }
        if !self.peek().is_some_and(starts_quantity) {
            self.at = feet_end;
            return Ok(None);
        }
        let inches = self.quantity()?;
        if !matches!(self.unit()?, None | Some(Unit::Inch)) {
            return Err((ParseErrorKind::UnitOrder, inches.span.start..self.at));
        }
        if feet.numerator != 0 || feet.denominator != 1 {
            return Err((ParseErrorKind::FeetNotWhole, feet.span.clone()));
        }
        if inches.whole * inches.denominator + inches.numerator >= 12 * inches.denominator {
            return Err((ParseErrorKind::InchesTooMany, inches.span.start..self.at));
        }
        Ok(Some(inches))
    }

    fn quantity(&mut self) -> Result<Quantity, Fault> {
        let start = self.at;
        if let Some((numerator, denominator)) = self.fraction()? {
            return Ok(Quantity { whole: 0, numerator, denominator, span: start..self.at });
        }
        if let Some((numerator, denominator)) = self.decimal()? {
            return Ok(Quantity { whole: 0, numerator, denominator, span: start..self.at });
        }
        let Some(whole) = self.digits(plain_digit)? else {
            return Err((ParseErrorKind::NumberExpected, self.offender()));
        };
        let mut quantity = Quantity { whole, numerator: 0, denominator: 1, span: start..self.at };
        if self.eat(is_hyphen).is_none() {
            self.spaces();
        }
        let fraction_start = self.at;
        match self.fraction()? {
            Some((numerator, denominator)) if numerator >= denominator => {
                return Err((ParseErrorKind::FractionTooLarge, fraction_start..self.at));
            }
            Some((numerator, denominator)) => {
                quantity = Quantity { whole, numerator, denominator, span: start..self.at };
            }
            None => self.at = quantity.span.end,
        }
        Ok(quantity)
    }

    /// A common fraction, in one character or with a line; the place is kept when there is none.
    fn fraction(&mut self) -> Result<Option<(i128, i128)>, Fault> {
        if let Some(fraction) = self.peek().and_then(vulgar_fraction) {
            self.eat(|_| true);
            return Ok(Some(fraction));
        }
        let start = self.at;
        let raised = self.digits(raised_digit)?;
        let Some(numerator) = (if raised.is_some() { raised } else { self.digits(plain_digit)? }) else {
            return Ok(None);
        };
        self.spaces();
        if self.eat(is_slash).is_none() {
            self.at = start;
            return Ok(None);
        }
        let line_end = self.at;
        self.spaces();
        let lowered = self.digits(lowered_digit)?;
        let Some(denominator) = (if lowered.is_some() { lowered } else { self.digits(plain_digit)? }) else {
            return Err((ParseErrorKind::DenominatorExpected, start..line_end));
        };
        if denominator == 0 {
            return Err((ParseErrorKind::DenominatorZero, start..self.at));
        }
        Ok(Some((numerator, denominator)))
    }

    /// A number with a decimal point or comma, as digits over a power of ten; the place is kept when there is none.
    fn decimal(&mut self) -> Result<Option<(i128, i128)>, Fault> {
        let start = self.at;
        let run = &self.text[start..];
        let run = &run[..run.find(|c: char| !c.is_ascii_digit() && !is_point(c)).unwrap_or(run.len())];
        let span = start..start + run.len();
        let mut points = run.match_indices(is_point);
        let Some((point, mark)) = points.next() else { return Ok(None) };
        let digits = run.len() - run.matches(is_point).count();
        if digits == 0 {
            return Err((ParseErrorKind::NumberExpected, span));
        }
        if points.next().is_some() {
            let mixed = run.matches(is_point).any(|other| other != mark);
            let grouped = point > 0 && run[point + 1..].split(is_point).all(|group| group.len() == 3);
            let kind = if mixed || grouped { ParseErrorKind::Thousands } else { ParseErrorKind::SecondPoint };
            return Err((kind, span));
        }
        if point + 1 == run.len() {
            return Err((ParseErrorKind::DigitExpected, span));
        }
        if digits > MOST_DIGITS {
            return Err((ParseErrorKind::TooManyDigits, span));
        }
        self.at = span.end;
        let value =
            |digits: &str| digits.bytes().fold(0, |value, digit| value * 10 + i128::from(digit - b'0'));
        let scale = run[point + 1..].bytes().fold(1, |scale, _| scale * 10);
        Ok(Some((value(&run[..point]) * scale + value(&run[point + 1..]), scale)))
    }

    /// A run of digits of one kind.
    fn digits(&mut self, value_of: fn(char) -> Option<u8>) -> Result<Option<i128>, Fault> {
        let start = self.at;
        let (mut value, mut count) = (0_i128, 0);
        while let Some(digit) = self.peek().and_then(value_of) {
            self.eat(|_| true);
            count += 1;
            if count <= MOST_DIGITS {
                value = value * 10 + i128::from(digit);
            }
        }
        match count {
            0 => Ok(None),
            1..=MOST_DIGITS => Ok(Some(value)),
            _ => Err((ParseErrorKind::TooManyDigits, start..self.at)),
        }
    }

    /// A unit; the place is kept when what follows is neither mark nor letter.
    fn unit(&mut self) -> Result<Option<Unit>, Fault> {
        let before = self.at;
        self.spaces();
        if self.eat(|c| matches!(c, '"' | '”' | '“' | '″')).is_some() {
            return Ok(Some(Unit::Inch));
        }
        if self.eat(is_single_mark).is_some() {
            return Ok(Some(if self.eat(is_single_mark).is_some() { Unit::Inch } else { Unit::Foot }));
        }
        let start = self.at;
        while self.eat(char::is_alphabetic).is_some() {}
        if self.at == start {
            self.at = before;
            return Ok(None);
        }
        let unit =
            unit_named(&self.text[start..self.at]).ok_or((ParseErrorKind::UnknownUnit, start..self.at))?;
        let after = &self.text[self.at..];
        if after.starts_with('.') && !after[1..].starts_with(|c: char| c.is_ascii_digit()) {
            self.at += 1;
        }
        Ok(Some(unit))
    }

    /// Nothing but spaces to the end.
    fn end(&mut self) -> Result<(), Fault> {
        self.spaces();
        match self.peek() {
            None => Ok(()),
            Some(c) if self.last_unit == Some(Unit::Metre) && starts_quantity(c) && !is_point(c) => {
                Err((ParseErrorKind::AfterMetres, self.trimmed(self.at)))
            }
            Some(c) if self.last_unit.is_some() && starts_quantity(c) && !is_point(c) => {
                Err((ParseErrorKind::UnitOrder, self.trimmed(self.at)))
            }
            Some(')') => Err((ParseErrorKind::ClosedBracket, self.at..self.at + 1)),
            Some(_) => Err((ParseErrorKind::Leftover, self.trimmed(self.at))),
        }
    }

    /// What stands where a number was expected: a word, one other character, or all that was written.
    fn offender(&self) -> Range<usize> {
        let rest = &self.text[self.at..];
        let word = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
        match rest.chars().next() {
            None => 0..self.text.len(),
            Some(c) => self.at..self.at + word.max(c.len_utf8()),
        }
    }

    /// From `start` to the last character that is not a space.
    fn trimmed(&self, start: usize) -> Range<usize> {
        start..self.text.trim_end().len()
    }

    fn peek(&self) -> Option<char> {
        self.text[self.at..].chars().next()
    }

    fn eat(&mut self, wanted: impl Fn(char) -> bool) -> Option<char> {
        let c = self.peek().filter(|&c| wanted(c))?;
        self.at += c.len_utf8();
        Some(c)
    }

    fn spaces(&mut self) {
        while self.eat(char::is_whitespace).is_some() {}
    }
}

impl Quantity {
    /// The whole part in units of [`Length`].
    fn units_of_whole(&self, unit: Unit) -> Result<i128, Fault> {
        let units = self.whole * i128::from(unit.length().units());
        if units > i128::from(LONGEST.units()) {
            return Err((ParseErrorKind::TooLarge, self.span.clone()));
        }
        Ok(units)
    }
}

fn starts_quantity(c: char) -> bool {
    plain_digit(c).is_some() || raised_digit(c).is_some() || vulgar_fraction(c).is_some() || is_point(c)
}

fn is_point(c: char) -> bool {
    matches!(c, '.' | ',')
}

/// The hyphen of the keyboard, and the two of Unicode.
fn is_hyphen(c: char) -> bool {
    matches!(c, '-' | '\u{2010}' | '\u{2011}')
}

fn is_slash(c: char) -> bool {
    matches!(c, '/' | '⁄' | '∕')
}

fn is_single_mark(c: char) -> bool {
    matches!(c, '\'' | '’' | '‘' | '′')
}

fn digit_among(digits: &str, c: char) -> Option<u8> {
    (0..).zip(digits.chars()).find_map(|(value, digit)| (digit == c).then_some(value))
}

fn plain_digit(c: char) -> Option<u8> {
    digit_among("0123456789", c)
}

fn raised_digit(c: char) -> Option<u8> {
    digit_among("⁰¹²³⁴⁵⁶⁷⁸⁹", c)
}

fn lowered_digit(c: char) -> Option<u8> {
    digit_among("₀₁₂₃₄₅₆₇₈₉", c)
}

/// The fractions that Unicode has in one character (Number Forms, and three in Latin-1).
fn vulgar_fraction(c: char) -> Option<(i128, i128)> {
    Some(match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}

fn unit_named(word: &str) -> Option<Unit> {
    Some(match word.to_ascii_lowercase().as_str() {
        "in" | "inch" | "inches" => Unit::Inch,
        "ft" | "foot" | "feet" => Unit::Foot,
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Unit::Millimetre,
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Unit::Centimetre,
        "m" | "metre" | "metres" | "meter" | "meters" => Unit::Metre,
        "pt" | "point" | "points" => Unit::Point,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_with_nothing_or_too_much_in_it() {
        let nothing = "the field is empty; write a length, such as 16 1/2 in or 419 mm";
        for text in ["", " ", "\u{a0}\u{2009}\t"] {
            let error = parse(text, Unit::Inch).expect_err(text);
            assert_eq!((error.kind, error.span.clone()), (ParseErrorKind::Empty, 0..text.len()));
            assert_eq!(format!("{error}"), nothing);
        }
        let too_long = format!("1{}½", " ".repeat(MOST_CHARACTERS));
        let error = parse(&too_long, Unit::Inch).expect_err("66 characters");
        assert_eq!((error.kind, error.span.clone()), (ParseErrorKind::TooLong, 0..64));
        assert_eq!(error.text, too_long[..64]);
        assert_eq!(format!("{error}"), "the text is too long for a length; write at most 64 characters");
        let longest = format!("1{}½", " ".repeat(MOST_CHARACTERS - 2));
        assert_eq!(parse(&longest, Unit::Inch), Ok(Length::inches_ratio(3, 2)), "64 characters, 65 bytes");
    }

    #[test]
    fn the_fault_is_found_where_it_is() {
        use ParseErrorKind as Kind;
        for (text, fault, kind) in [
            ("-", "-", Kind::NumberExpected),
            ("--5", "-", Kind::NumberExpected),
            ("+-5", "-", Kind::NumberExpected),
            ("in", "in", Kind::NumberExpected),
            ("/2", "/", Kind::NumberExpected),
            (".", ".", Kind::NumberExpected),
            ("€5", "€", Kind::NumberExpected),
            ("½½", "½", Kind::Leftover),
            ("1 234 mm", "234 mm", Kind::Leftover),
            ("5-6", "-6", Kind::TightMinus),
            ("5 -6", "-6", Kind::TightMinus),
            ("5- 6", "- 6", Kind::TightMinus),
            ("1.5 1/2", "1/2", Kind::Leftover),
            ("1/2.5", ".5", Kind::Leftover),
            ("1/2/3", "1/2/3", Kind::DividedTwice),
            ("12 in / 1/2", "12 in / 1/2", Kind::DividedTwice),
            ("12 in / 2 / 3", "12 in / 2 / 3", Kind::DividedTwice),
            ("2 in * 3 in", "2 in * 3 in", Kind::LengthTimesLength),
            ("12 in / 2 in", "2 in", Kind::DividedByLength),
            ("12 in / (3 - 3)", "12 in / (3 - 3)", Kind::DenominatorZero),
            ("20 + 5 cm", "20", Kind::UnitMissing),
            ("5' + (3 + 4)", "(3 + 4)", Kind::UnitMissing),
            ("2 * (3 + 4", "(", Kind::OpenBracket),
            ("3 + 4)", ")", Kind::ClosedBracket),
            ("3 (4)", "(4)", Kind::Leftover),
            ("3 + ", "3 + ", Kind::NumberExpected),
            ("3 + -4", "-", Kind::NumberExpected),
            ("()", ")", Kind::NumberExpected),
            ("1 ft.5 in", ".5 in", Kind::Leftover),
            ("5' -6\"", "-6\"", Kind::TightMinus),
            ("16 %", "%", Kind::Leftover),
            ("6'''", "'", Kind::Leftover),
            ("6\" 5'", "5'", Kind::UnitOrder),
            ("5' 6'", "6'", Kind::UnitOrder),
            ("5' 6 cm", "6 cm", Kind::UnitOrder),
            ("5' 6\" 1/2", "1/2", Kind::UnitOrder),
            ("1/2' 3", "1/2", Kind::FeetNotWhole),
            ("5' 12", "12", Kind::InchesTooMany),
            ("1,234,567", "1,234,567", Kind::Thousands),
            ("1.234,5", "1.234,5", Kind::Thousands),
            ("1e3", "e", Kind::UnknownUnit),
            ("16x20", "x", Kind::UnknownUnit),
            (" -1000000.000001 m ", "-1000000.000001 m", Kind::TooLarge),
        ] {
            let error = parse(text, Unit::Inch).expect_err(text);
            assert_eq!((error.kind, &error.text[error.span.clone()]), (kind, fault), "{text:?}");
        }
    }

    #[test]
    fn every_spelling_of_a_unit() {
        for (micrometres, spellings) in [
            (25_400, "in IN in. inch inches \" ” “ ″ '' ’’ ‘‘ ′′"),
            (304_800, "ft Ft ft. foot feet ' ’ ‘ ′"),
            (1_000, "mm MM millimetre millimetres millimeter millimeters"),
            (10_000, "cm Cm centimetre centimetres centimeter centimeters"),
            (1_000_000, "m M metre metres meter meters"),
        ] {
            for spelling in spellings.split(' ') {
                let three = Ok(Length::micrometres(3 * micrometres));
                assert_eq!(parse(&format!("3{spelling}"), Unit::Point), three, "{spelling}");
                assert_eq!(parse(&format!("3\u{202f}{spelling}\u{a0}"), Unit::Point), three, "{spelling}");
            }
        }
        for text in ["72", "72 pt", "72 points", "72 Pt."] {
            assert_eq!(parse(text, Unit::Point), Ok(Length::inches(1)), "72 pt to the inch: {text}");
        }
    }

    #[test]
    fn what_is_finer_than_a_unit_is_rounded_once() {
        let units = |text| parse(text, Unit::Millimetre).map(Length::units);
        // 1,440,000 units to the millimetre: half of one is 1/2,880,000 mm.
        assert_eq!(units("1/2880000"), Ok(1), "a tie goes away from zero");
        assert_eq!(units("-1/2880000"), Ok(-1));
        assert_eq!(units("1/2880001"), Ok(0));
        assert_eq!(units("1000000000"), Ok(1_440_000_000_000_000), "the longest");
        assert_eq!(units("-1000000000"), Ok(-1_440_000_000_000_000));
    }
}
