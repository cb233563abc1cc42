//! Weigh: what each part weighs, and what a whole piece does, with how surely that is known.
//!
//! Areas, volumes and weights are exact up to one rounding to the milligram; what is not known is how dense a board or a
//! moulding is. A [`Mass`] therefore has three values: likely, and the least and the most by the range of its density.
//!
//! # Uncertainty
//! - A part by density: least and most by those of the [`Density`].
//! - A sheet by the grams per square metre of its own row of the stock: likely by these, least and most in proportion to the
//!   material's density.
//! - Paper and canvas by grammage: exact.
//! - Several parts: the least of all together and the most of all together. Parts from one shelf err to one side together, so
//!   nothing is gained by squares.
//! - A whole is never claimed better than ±15 % ([`estimate`]; common practice, no source): glue, points, screws and wire are not in it. Weigh it
//!   before it hangs on anything that matters.
//!
//! Measures may be up to 100 m ([`crate::plan::limits::ROOM`]); beyond that a product no longer fits its integer.
//!
//! ```
//! use overmantel::{geometry::Size, length::Length, plan::Material, stock::Stock, weigh};
//! let area = weigh::Area::of(Size::inches(24, 36));
//! let glass = weigh::sheet(&Stock::offered(), Material::Glass, Length::mm(2), area);
//! assert_eq!(weigh::in_kilograms(glass.likely_mg, 3), "2.787 kg", "0.55741824 m² × 2 mm × 2500 kg/m³");
//! assert_eq!(weigh::in_pounds(glass.likely_mg, 3), "6.144 lb");
//! ```

use crate::geometry::Size;
use crate::length::{Length, Unit};
use crate::plan::Material;
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::stock::{Density, SheetStock, Stock};
use std::iter::Sum;
use std::ops::{Add, Sub};

/// Units of length in a metre.
const METRE: i128 = Unit::Metre.length().units() as i128;
/// Square units of length in which one gram to the square metre is a milligram: a thousandth of a square metre.
const SQUARE_UNITS_PER_MG: i128 = METRE * METRE / 1_000;
/// Cubic units of length in which one kilogram to the cubic metre is a milligram: a cubic centimetre.
const CUBIC_UNITS_PER_MG: i128 = METRE * METRE * METRE / 1_000_000;

/// 1 lb = 0.45359237 kg exactly (United States and Commonwealth agreement of 1 July 1959), in units of 10 µg.
const POUND_IN_TENS_OF_MICROGRAMS: i128 = 45_359_237;

/// An exact area.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Area {
    square_units: i128,
}

impl Area {
    /// Width times height.
    #[must_use]
    pub fn of(size: Size) -> Self {
        Self { square_units: i128::from(size.width.units()) * i128::from(size.height.units()) }
    }

    /// The volume of this area in a thickness.
    #[must_use]
    pub fn times(self, thickness: Length) -> Volume {
        Volume { cubic_units: self.square_units * i128::from(thickness.units()) }
    }

    /// In square metres, as a real number: for the edges only.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "an edge: an area on a wall keeps 53 bits")]
    pub fn to_square_metres(self) -> f64 {
        self.square_units as f64 / (METRE * METRE) as f64
    }
}

/// The area that is left, as of a board without its opening.
impl Sub for Area {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { square_units: self.square_units - other.square_units }
    }
}

/// An exact volume.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Volume {
    cubic_units: i128,
}

impl Volume {
    /// In cubic metres, as a real number: for the edges only.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "an edge: a volume on a wall keeps 53 bits")]
    pub fn to_cubic_metres(self) -> f64 {
        self.cubic_units as f64 / (METRE * METRE * METRE) as f64
    }
}

impl Add for Volume {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { cubic_units: self.cubic_units + other.cubic_units }
    }
}

impl Sub for Volume {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { cubic_units: self.cubic_units - other.cubic_units }
    }
}

/// A weight, and between what it lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Mass {
    /// The least that is expected, in milligrams.
    pub least_mg: i64,
    /// The most likely, in milligrams.
    pub likely_mg: i64,
    /// The most that is expected, in milligrams.
    pub most_mg: i64,
}

impl Mass {
    /// A weight that is known.
    #[must_use]
    pub const fn exactly(milligrams: i64) -> Self {
        Self { least_mg: milligrams, likely_mg: milligrams, most_mg: milligrams }
    }

    /// So many times this weight: the least is rounded down to the milligram and the most up.
    ///
    /// ```
    /// use overmantel::{print::Exact, weigh::Mass};
    /// let half = Mass { least_mg: 9, likely_mg: 11, most_mg: 15 }.times(Exact::new(1, 2));
    /// assert_eq!(half, Mass { least_mg: 4, likely_mg: 6, most_mg: 8 }, "4.5, 5.5 and 7.5");
    /// ```
    #[must_use]
    pub fn times(self, factor: Exact) -> Self {
        let of = |milligrams, mode| whole_mg(i128::from(milligrams) * factor.numer(), *factor.denom(), mode);
        Self {
            least_mg: of(self.least_mg, Mode::Down),
            likely_mg: of(self.likely_mg, Mode::HalfAway),
            most_mg: of(self.most_mg, Mode::Up),
        }
    }
}

/// What is left when a part is taken away.
impl Sub for Mass {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self {
            least_mg: self.least_mg - other.least_mg,
            likely_mg: self.likely_mg - other.likely_mg,
            most_mg: self.most_mg - other.most_mg,
        }
    }
}

impl Add for Mass {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            least_mg: self.least_mg + other.least_mg,
            likely_mg: self.likely_mg + other.likely_mg,
            most_mg: self.most_mg + other.most_mg,
        }
    }
}

impl Sum for Mass {
    fn sum<I: Iterator<Item = Self>>(masses: I) -> Self {
        masses.fold(Self::default(), Add::add)
    }
}

/// The whole from its parts: their sum, and at least 15 % to both sides, the least rounded down to the milligram and the most up.
///
/// ```
/// use overmantel::weigh::{Mass, estimate};
/// let known = Mass::exactly(2_000_000);
/// let whole = Mass { least_mg: 1_700_000, likely_mg: 2_000_000, most_mg: 2_300_000 };
/// assert_eq!(estimate([known]), whole, "2 kg ± 15 %");
/// ```
#[must_use]
pub fn estimate(parts: impl IntoIterator<Item = Mass>) -> Mass {
    let sum: Mass = parts.into_iter().sum();
    let percent = |count, mode| whole_mg(i128::from(sum.likely_mg) * count, 100, mode);
    Mass {
        least_mg: sum.least_mg.min(percent(85, Mode::Down)),
        likely_mg: sum.likely_mg,
        most_mg: sum.most_mg.max(percent(115, Mode::Up)),
    }
}

/// What a volume weighs by a density: likely to the nearest milligram, the least rounded down and the most up.
#[must_use]
pub fn by_density(volume: Volume, density: &Density) -> Mass {
    let of =
        |kg_per_m3: u32, mode| whole_mg(volume.cubic_units * i128::from(kg_per_m3), CUBIC_UNITS_PER_MG, mode);
    Mass {
        least_mg: of(density.least, Mode::Down),
        likely_mg: of(density.kg_per_m3, Mode::HalfAway),
        most_mg: of(density.most, Mode::Up),
    }
}

/// What paper or canvas weighs by its grammage, to the nearest milligram.
#[must_use]
pub fn by_grammage(area: Area, grams_per_square_metre: u32) -> Mass {
    let milligrams = area.square_units * i128::from(grams_per_square_metre);
    Mass::exactly(whole_mg(milligrams, SQUARE_UNITS_PER_MG, Mode::HalfAway))
}

/// What a part cut from a sheet of the stock weighs: by the sheet's own grams per square metre, where it states them and is exactly
/// as thick, otherwise by the material's density; rounded as by [`by_density`]. Without a sheet, of the first that is so thick.
#[must_use]
pub fn sheet(stock: &Stock, material: Material, thickness: Length, area: Area) -> Mass {
    by_square_metre(stock, material, thickness, area, stock.grams_per_square_metre(material, thickness))
}

/// The same, cut from this sheet.
#[must_use]
pub fn cut_from(stock: &Stock, sheet: &SheetStock, thickness: Length, area: Area) -> Mass {
    let grams = sheet.grams_per_square_metre.filter(|_| sheet.thickness == thickness);
    by_square_metre(stock, sheet.material, thickness, area, grams)
}

fn by_square_metre(
    stock: &Stock,
    material: Material,
    thickness: Length,
    area: Area,
    grams_per_square_metre: Option<u32>,
) -> Mass {
    let density = stock.density(material);
    let Some(grams_per_square_metre) = grams_per_square_metre else {
        return by_density(area.times(thickness), &density);
    };
    let milligrams = area.square_units * i128::from(grams_per_square_metre);
    let in_proportion = |kg_per_m3: u32, mode| {
        let divisor = SQUARE_UNITS_PER_MG * i128::from(density.kg_per_m3);
        whole_mg(milligrams * i128::from(kg_per_m3), divisor, mode)
    };
    Mass {
        least_mg: in_proportion(density.least, Mode::Down),
        likely_mg: whole_mg(milligrams, SQUARE_UNITS_PER_MG, Mode::HalfAway),
        most_mg: in_proportion(density.most, Mode::Up),
    }
}

/// The wood of a mitred frame.
///
/// Seen from the front it is the outside less the sight opening, as deep as the moulding; the rabbet is cut out of that from
/// behind, as wide as it is larger than the sight: V = (outside - sight) depth - (rabbet - sight) rabbet depth. Mitred legs
/// fill just this, whatever their lengths. A section that is rounded or scooped has less.
///
/// A frame without a rabbet, such as a floater, has its inside for sight and rabbet alike.
#[must_use]
pub fn mitred_moulding(
    outside: Size,
    sight: Size,
    rabbet: Size,
    depth: Length,
    rabbet_depth: Length,
) -> Volume {
    let sight = Area::of(sight);
    (Area::of(outside) - sight).times(depth) - (Area::of(rabbet) - sight).times(rabbet_depth)
}

/// What the legs across, at the top and bottom, have of the area between two rectangles one within the other, as mitred: two trapezoids
/// as long as both and half as high as what lies between, (H - h)(W + w) / 2, down to the square unit. The upright ones have the rest.
///
/// ```
/// use overmantel::{geometry::Size, weigh::{Area, across}};
/// let (outside, sight) = (Size::inches(14, 46), Size::inches(8, 40));
/// assert_eq!(across(outside, sight), Area::of(Size::inches(6, 11)), "2 × 3 in × (14 + 8) / 2");
/// ```
#[must_use]
pub fn across(outer: Size, inner: Size) -> Area {
    let units = |length: Length| i128::from(length.units());
    let twice = units(outer.height - inner.height) * units(outer.width + inner.width);
    Area { square_units: divide(twice, 2, Mode::Down) }
}

/// Four bars round an opening, without one across: the bars that canvas is stretched on, or the frame behind a metal sheet.
///
/// Bars that meet in the middle leave no opening.
#[must_use]
pub fn bars(outside: Size, width: Length, depth: Length) -> Volume {
    let opening = outside.grown(-width);
    let opening = if opening.is_positive() { opening } else { Size::default() };
    (Area::of(outside) - Area::of(opening)).times(depth)
}

/// So many blocks, as behind a metal sheet.
#[must_use]
pub fn blocks(count: u32, size: Size, depth: Length) -> Volume {
    Volume { cubic_units: Area::of(size).times(depth).cubic_units * i128::from(count) }
}

/// In kilograms, to the nearest of this many decimals; more than six count as six, which tell any two weights apart.
#[must_use]
pub fn in_kilograms(milligrams: i64, decimals: u8) -> String {
    let scale = power_of_ten(decimals.min(6));
    format!("{} kg", decimal(divide(i128::from(milligrams) * scale, 1_000_000, Mode::HalfAway), scale))
}

/// In pounds, to the nearest of this many decimals; more than six count as six.
#[must_use]
pub fn in_pounds(milligrams: i64, decimals: u8) -> String {
    let scale = power_of_ten(decimals.min(6));
    let tens_of_micrograms = i128::from(milligrams) * 100;
    format!(
        "{} lb",
        decimal(divide(tens_of_micrograms * scale, POUND_IN_TENS_OF_MICROGRAMS, Mode::HalfAway), scale)
    )
}

/// In whole pounds, up to the next.
#[must_use]
pub fn whole_pounds(milligrams: i64) -> i128 {
    divide(i128::from(milligrams) * 100, POUND_IN_TENS_OF_MICROGRAMS, Mode::Up)
}

/// In whole kilograms, up to the next.
#[must_use]
pub fn whole_kilograms(milligrams: i64) -> i128 {
    divide(milligrams.into(), 1_000_000, Mode::Up)
}

/// The force by which a weight pulls downwards, in hundredths of a newton, to the nearest: m × 9.80665 m/s² (standard gravity of
/// the General Conference on Weights and Measures of 1901, from memory).
///
/// ```
/// assert_eq!(overmantel::weigh::hundredths_of_newton(5_000_000), 4903, "5 kg: 49.03325 N");
/// ```
#[must_use]
pub fn hundredths_of_newton(milligrams: i64) -> i128 {
    divide(i128::from(milligrams) * 980_665, 1_000_000_000, Mode::HalfAway)
}

/// `steps` of which `steps_per_one`, a power of ten, make one.
fn decimal(steps: i128, steps_per_one: i128) -> String {
    let sign = if steps < 0 { "-" } else { "" };
    let (whole, rest) = (steps.abs() / steps_per_one, steps.abs() % steps_per_one);
    match steps_per_one {
        1 => format!("{sign}{whole}"),
        // The leading one of the scale stands for the zeros that the rest lacks: 1000 + 45 is 1045, and 045 is meant.
        _ => format!("{sign}{whole}.{}", &format!("{}", steps_per_one + rest)[1..]),
    }
}

fn power_of_ten(exponent: u8) -> i128 {
    (0..exponent).fold(1, |power, _| power * 10)
}

/// Whole milligrams, held within the range of their type.
fn whole_mg(dividend: i128, divisor: i128, mode: Mode) -> i64 {
    let quotient = divide(dividend, divisor, mode);
    i64::try_from(quotient).unwrap_or(if quotient.is_negative() { i64::MIN } else { i64::MAX })
}
