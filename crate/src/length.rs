//! Lengths: exact, signed, and in no unit until they are read or shown.
//!
//! A [`Length`] counts whole [`UNITS_PER_INCH`]ths of an inch. The number is chosen so that everything the trade
//! writes is whole: 1/64 in and its halves and thirds, a thousandth of an inch (glazing and sheet metal are sold by it),
//! a micrometre, a typographic point and its halves and thirds, a CSS pixel.
//!
//! ```
//! use overmantel::length::Length;
//! let mat_opening = Length::inches(16) - Length::inches_ratio(1, 8) * 2;
//! assert_eq!(mat_opening, Length::inches_ratio(63, 4), "16 - 2 × 1/8 = 15 3/4");
//! assert_eq!(Length::inches(1), Length::micrometres(25_400), "1 in = 25.4 mm exactly (NBS, 1959)");
//! ```
//!
//! Reading is in [`parse`], showing in [`mod@print`].

use crate::rounding::{self, Mode};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

pub mod parse;
pub mod print;

/// Units in one inch: 36,576,000, which is 1,440 to the micrometre, since 1 in = 25.4 mm exactly (United States and
/// Commonwealth agreement of 1 July 1959; NIST SP 811, appendix B).
///
/// Whole in this unit: 571,500 to 1/64 in, 36,576 to 1/1000 in, 508,000 to a point (1/72 in), 381,000 to a CSS pixel
/// (1/96 in). In an `i64` it spans 252 thousand million inches; in a JavaScript number, 246 million, both far beyond any wall.
pub const UNITS_PER_INCH: i64 = 36_576_000;
/// Units in one micrometre.
pub const UNITS_PER_MICROMETRE: i64 = 1_440;

/// How finely a length is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Walls, furniture, distances: feet and inches to 1/16 in; centimetres to 1 mm.
    Room,
    /// Pieces and their parts: inches to 1/16 in; centimetres to 1 mm.
    Piece,
    /// Thicknesses: inches to 1/64 in; millimetres to 0.1 mm.
    Fine,
    /// What is cut: inches to 1/32 in; millimetres to 0.1 mm.
    Cut,
}

/// A unit in which a length may be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Inch, 25.4 mm.
    Inch,
    /// Foot, 12 in.
    Foot,
    /// Millimetre.
    Millimetre,
    /// Centimetre, 10 mm.
    Centimetre,
    /// Metre, 1000 mm.
    Metre,
    /// Point, 1/72 in, the unit of PDF user space (ISO 32000-1, 8.3.2.3).
    Point,
}

impl Unit {
    /// The length of one of this unit.
    #[must_use]
    pub const fn length(self) -> Length {
        Length(match self {
            Self::Inch => UNITS_PER_INCH,
            Self::Foot => UNITS_PER_INCH * 12,
            Self::Millimetre => UNITS_PER_MICROMETRE * 1_000,
            Self::Centimetre => UNITS_PER_MICROMETRE * 10_000,
            Self::Metre => UNITS_PER_MICROMETRE * 1_000_000,
            Self::Point => UNITS_PER_INCH / 72,
        })
    }
}

/// An exact length.
///
/// # Guarantees
/// - It is a whole number of [`UNITS_PER_INCH`]ths of an inch; adding, subtracting and multiplying by an integer are exact.
/// - There is no conversion from a bare number: a constructor names the unit.
///
/// ```
/// use overmantel::length::{Length, Unit, parse::parse};
///
/// let side = parse("16 1/2", Unit::Inch)?;
/// assert_eq!(side, Length::inches_ratio(33, 2));
/// // 16.5 × 25.4 = 419.1
/// assert_eq!(parse("419.1 mm", Unit::Inch)?, side);
/// assert_eq!(parse("(8' - 6 in) / 2", Unit::Inch)?, Length::inches(45));
/// # Ok::<(), overmantel::length::parse::ParseError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);

    /// A whole number of inches.
    #[must_use]
    pub const fn inches(inches: i64) -> Self {
        Self(inches * UNITS_PER_INCH)
    }

    /// A fraction of an inch, to the nearest unit (exact for every denominator that a rule carries).
    ///
    /// # Panics
    /// When `denominator` is zero.
    #[must_use]
    pub const fn inches_ratio(numerator: i64, denominator: i64) -> Self {
        Self::from_ratio(numerator as i128 * UNITS_PER_INCH as i128, denominator as i128, Mode::HalfAway)
    }

    /// A whole number of millimetres.
    #[must_use]
    pub const fn mm(millimetres: i64) -> Self {
        Self::micrometres(millimetres * 1_000)
    }

    /// A whole number of micrometres.
    #[must_use]
    pub const fn micrometres(micrometres: i64) -> Self {
        Self(micrometres * UNITS_PER_MICROMETRE)
    }

    /// A whole number of the units of this type ([`UNITS_PER_INCH`] to the inch).
    #[must_use]
    pub const fn from_units(units: i64) -> Self {
        Self(units)
    }

    /// The quotient of two integers in units, rounded once in the mode given and held within the range of the type.
    ///
    /// # Panics
    /// When `divisor` is zero.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "held within range first")]
    // One copy of it in the page.
    #[inline(never)]
    pub const fn from_ratio(dividend: i128, divisor: i128, mode: Mode) -> Self {
        let quotient = rounding::divide(dividend, divisor, mode);
        let (low, high) = (i64::MIN as i128, i64::MAX as i128);
        Self(if quotient < low {
            i64::MIN
        } else if quotient > high {
            i64::MAX
        } else {
            quotient as i64
        })
    }

    /// The count of units ([`UNITS_PER_INCH`] to the inch).
    #[must_use]
    pub const fn units(self) -> i64 {
        self.0
    }

    /// In inches, as a real number: for the edges of drawing only.
    #[must_use]
    pub fn to_inches(self) -> f64 {
        self.per(Unit::Inch)
    }

    /// In millimetres, as a real number: for the edges of drawing only.
    #[must_use]
    pub fn to_mm(self) -> f64 {
        self.per(Unit::Millimetre)
    }

    /// In any unit, as a real number: for the edges of drawing only.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "an edge: lengths of a wall keep 53 bits")]
    pub fn per(self, unit: Unit) -> f64 {
        self.0 as f64 / unit.length().0 as f64
    }

    /// Half of it, to the nearest unit (a tie away from zero).
    ///
    /// Where two halves must sum to the whole, use [`Self::parts`].
    #[must_use]
    pub const fn half(self) -> Self {
        Self::from_ratio(self.0 as i128, 2, Mode::HalfAway)
    }

    /// This length times `numerator / denominator`, rounded once to the nearest unit.
    ///
    /// # Panics
    /// When `denominator` is zero.
    #[must_use]
    pub const fn times_ratio(self, numerator: i64, denominator: i64) -> Self {
        Self::from_ratio(self.0 as i128 * numerator as i128, denominator as i128, Mode::HalfAway)
    }

    /// `count` whole parts that differ by one unit at most and sum exactly to `self`; the larger ones come first.
    ///
    /// ```
    /// use overmantel::length::Length;
    /// let parts: Vec<_> = Length::from_units(8).parts(3).collect();
    /// assert_eq!(parts, [3, 3, 2].map(Length::from_units), "3 + 3 + 2 = 8");
    /// ```
    ///
    /// # Panics
    /// When `count` is zero.
    pub fn parts(self, count: u32) -> impl Iterator<Item = Self> {
        let count = i64::from(count);
        let (each, rest) = (self.0.div_euclid(count), self.0.rem_euclid(count));
        (0..count).map(move |index| Self(each + i64::from(index < rest)))
    }

    /// The nearest whole multiple of a step (a tie away from zero).
    ///
    /// # Panics
    /// When the step is zero.
    #[must_use]
    pub const fn to_nearest(self, step: Self) -> Self {
        let steps = Self::from_ratio(self.0 as i128, step.0 as i128, Mode::HalfAway);
        Self(steps.0.saturating_mul(step.0))
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, factor: i64) -> Self {
        Self(self.0 * factor)
    }
}

/// The ratio of two lengths, as a real number: for the edges of drawing only.
impl Div for Length {
    type Output = f64;
    #[expect(clippy::cast_precision_loss, reason = "an edge: lengths of a wall keep 53 bits")]
    fn div(self, other: Self) -> f64 {
        self.0 as f64 / other.0 as f64
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}
