//! Sums, products and quotients of what is written, in exact fractions.

use super::{Fault, LONGEST, ParseErrorKind, Reader, is_hyphen, is_slash};
use crate::length::Unit;
use crate::rounding::{Mode, divide};
use std::ops::Range;

/// An exact fraction, in its lowest terms; the denominator is more than zero.
#[derive(Clone, Copy)]
struct Exact {
    numerator: i128,
    denominator: i128,
}

/// What a part of the text comes to.
struct Term {
    amount: Exact,
    measure: Measure,
    span: Range<usize>,
}

/// What an amount counts.
#[derive(Clone, Copy, PartialEq)]
enum Measure {
    /// Nothing: it is a plain number.
    Number,
    /// Units of [`Length`](crate::length::Length); and whether a unit was written that is not the bare one.
    Length { is_foreign: bool },
}

impl Exact {
    /// In its lowest terms; `None` where the numbers grow beyond what is worked with.
    #[inline(never)]
    fn of(numerator: i128, denominator: i128) -> Option<Self> {
        let (mut a, mut b) = (numerator.unsigned_abs(), denominator.unsigned_abs());
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let common = i128::try_from(a.max(1)).ok()?;
        let sign = denominator.signum();
        Some(Self { numerator: numerator / common * sign, denominator: denominator / common * sign })
    }

    #[inline(never)]
    fn times(self, numerator: i128, denominator: i128) -> Option<Self> {
        // Crossed out first, so that what comes out small was never large.
        let (one, two) = (Self::of(self.numerator, denominator)?, Self::of(numerator, self.denominator)?);
        Self::of(one.numerator.checked_mul(two.numerator)?, one.denominator.checked_mul(two.denominator)?)
    }

    fn plus(self, other: Self) -> Option<Self> {
        let common = Self::of(self.denominator, other.denominator)?;
        let left = self.numerator.checked_mul(common.denominator)?;
        let right = other.numerator.checked_mul(common.numerator)?;
        Self::of(left.checked_add(right)?, self.denominator.checked_mul(common.denominator)?)
    }
}

impl Reader<'_> {
    /// The whole text up to its end, in units of [`Length`](crate::length::Length).
    pub(super) fn worked_out(&mut self, bare: Unit) -> Result<i128, Fault> {
        let start = self.at;
        let sum = self.sum(bare)?;
        self.end()?;
        let too_large = (ParseErrorKind::TooLarge, self.trimmed(start));
        let Some(units) = sum.in_units(bare).filter(|units| units.numerator != i128::MIN) else {
            return Err(too_large);
        };
        let units = divide(units.numerator, units.denominator, Mode::HalfAway);
        if units.abs() > i128::from(LONGEST.units()) {
            return Err(too_large);
        }
        Ok(units)
    }

    fn sum(&mut self, bare: Unit) -> Result<Term, Fault> {
        let start = self.at;
        let is_less = self.eat(|c| is_hyphen(c) || c == '−').is_some();
        if !is_less {
            self.eat(|c| c == '+');
        }
        self.spaces();
        let mut total = self.product(bare)?;
        if is_less {
            total.amount.numerator = -total.amount.numerator;
            total.span.start = start;
        }
        while let Some(is_less) = self.plus_or_minus()? {
            self.spaces();
            let mut next = self.product(bare)?;
            if is_less {
                next.amount.numerator = -next.amount.numerator;
            }
            total = total.plus(&next, bare)?;
        }
        Ok(total)
    }

    /// The sign of what is added, where something is; the place is kept where nothing is.
    fn plus_or_minus(&mut self) -> Result<Option<bool>, Fault> {
        let before = self.at;
        self.spaces();
        let at = self.at;
        if self.eat(|c| c == '+').is_some() {
            return Ok(Some(false));
        }
        if self.eat(|c| c == '−').is_some() {
            return Ok(Some(true));
        }
        if self.eat(is_hyphen).is_none() {
            self.at = before;
            return Ok(None);
        }
        // A hyphen that touches what is beside it may be meant to join.
        if at == before || !self.peek().is_some_and(char::is_whitespace) {
            return Err((ParseErrorKind::TightMinus, self.trimmed(at)));
        }
        Ok(Some(true))
    }

    fn product(&mut self, bare: Unit) -> Result<Term, Fault> {
        let (mut total, mut is_slashed) = self.factor(bare)?;
        loop {
            let before = self.at;
            self.spaces();
            let start = total.span.start;
            if self.eat(|c| c == '*').is_some() {
                self.spaces();
                let (next, slashed) = self.factor(bare)?;
                is_slashed = slashed;
                let span = start..self.at;
                let measure = match (total.measure, next.measure) {
                    (Measure::Number, other) | (other, Measure::Number) => other,
                    _ => return Err((ParseErrorKind::LengthTimesLength, span)),
                };
                let amount = total.amount.times(next.amount.numerator, next.amount.denominator);
                total =
                    Term { amount: amount.ok_or((ParseErrorKind::TooFine, span.clone()))?, measure, span };
            } else if self.eat(|c| is_slash(c) || c == '÷').is_some() {
                self.spaces();
                let (next, slashed) = self.factor(bare)?;
                let span = start..self.at;
                // “12 / 1/2” is 24 to one reader and 6 to another.
                if is_slashed || slashed {
                    return Err((ParseErrorKind::DividedTwice, span));
                }
                is_slashed = true;
                if next.measure != Measure::Number {
                    return Err((ParseErrorKind::DividedByLength, next.span));
                }
                if next.amount.numerator == 0 {
                    return Err((ParseErrorKind::DenominatorZero, span));
                }
                let amount = total.amount.times(next.amount.denominator, next.amount.numerator);
                let amount = amount.ok_or((ParseErrorKind::TooFine, span.clone()))?;
                total = Term { amount, span, ..total };
            } else {
                self.at = before;
                return Ok(total);
            }
        }
    }

    /// A length, a number, or a sum in brackets; and whether it is a fraction written with a slash and nothing before it.
    #[inline(never)]
    fn factor(&mut self, bare: Unit) -> Result<(Term, bool), Fault> {
        let start = self.at;
        if self.eat(|c| c == '(').is_some() {
            self.spaces();
            let sum = self.sum(bare)?;
            self.spaces();
            if self.eat(|c| c == ')').is_none() {
                return Err((ParseErrorKind::OpenBracket, start..start + 1));
            }
            self.last_unit = None;
            return Ok((Term { span: start..self.at, ..sum }, false));
        }
        let first = self.quantity()?;
        // “1/2”, and not “16 1/2”.
        let above = self.text[first.span.clone()].split_once(is_slash).map(|(above, _)| above.trim_end());
        let is_slashed =
            above.is_some_and(|above| !above.contains(|c: char| is_hyphen(c) || c.is_whitespace()));
        let unit = self.unit()?;
        self.last_unit = unit;
        let (feet, last, unit) = match self.inches_after(unit, &first)? {
            Some(inches) => (first.units_of_whole(Unit::Foot)?, inches, Some(Unit::Inch)),
            None => (0, first, unit),
        };
        // Below 2 × 10^15 × 10^18 + 10^18 × 2 × 10^9, of the 10^38 that there are.
        let (whole, each) = match unit {
            Some(unit) => (feet + last.units_of_whole(unit)?, i128::from(unit.length().units())),
            None => (last.whole, 1),
        };
        let amount = Exact::of(whole * last.denominator + last.numerator * each, last.denominator);
        let span = start..self.at;
        let amount = amount.ok_or((ParseErrorKind::TooFine, span.clone()))?;
        let measure = match unit {
            Some(unit) => Measure::Length { is_foreign: unit != bare },
            None => Measure::Number,
        };
        Ok((Term { amount, measure, span }, is_slashed))
    }
}

impl Term {
    /// In units of [`Length`](crate::length::Length); a plain number is one of the bare unit.
    fn in_units(&self, bare: Unit) -> Option<Exact> {
        match self.measure {
            Measure::Number => self.amount.times(bare.length().units().into(), 1),
            Measure::Length { .. } => Some(self.amount),
        }
    }

    fn plus(self, other: &Self, bare: Unit) -> Result<Self, Fault> {
        let span = self.span.start..other.span.end;
        let too_fine = || (ParseErrorKind::TooFine, span.clone());
        let (one, two, measure) = match (self.measure, other.measure) {
            (Measure::Number, Measure::Number) => (self.amount, other.amount, Measure::Number),
            // “20 + 5 cm” where bare numbers are inches: 20 of what?
            (Measure::Number, Measure::Length { is_foreign: true }) => {
                return Err((ParseErrorKind::UnitMissing, self.span));
            }
            (Measure::Length { is_foreign: true }, Measure::Number) => {
                return Err((ParseErrorKind::UnitMissing, other.span.clone()));
            }
            (one, two) => {
                let is_foreign = [one, two].contains(&Measure::Length { is_foreign: true });
                let in_units = |part: &Self| part.in_units(bare).ok_or_else(too_fine);
                (in_units(&self)?, in_units(other)?, Measure::Length { is_foreign })
            }
        };
        Ok(Self { amount: one.plus(two).ok_or_else(too_fine)?, measure, span })
    }
}
