//! Parcel: the carton round a piece or the tube round a print, and which carriers' limits it keeps.

use crate::geometry::Size;
use crate::length::{Length, Unit, print::plain};
use crate::plan::System;
use crate::rounding::{Mode, divide};
use crate::stock::{Parcel, Stock, Tube, VolumeDivisor};
use crate::weigh::{Mass, in_kilograms, in_pounds, whole_kilograms, whole_pounds};
use std::fmt;

/// A box, its longest side first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Carton {
    /// The longest side.
    pub length: Length,
    /// The one between.
    pub width: Length,
    /// The shortest side.
    pub height: Length,
}

impl Carton {
    /// The box round a piece of this outside and depth, with so much packing on each of its six sides (2 to 3 in is common practice,
    /// no source).
    #[must_use]
    pub fn round(outside: Size, depth: Length, packing: Length) -> Self {
        let mut sides = [outside.width, outside.height, depth].map(|side| side + packing * 2);
        crate::order::sort(&mut sides);
        let [height, width, length] = sides;
        Self { length, width, height }
    }

    /// The longest side and the girth round the other two, L + 2(W + H).
    #[must_use]
    pub fn length_and_girth(self) -> Length {
        self.length + (self.width + self.height) * 2
    }

    /// What its volume is charged as: L W H over the divisor, up to the next whole pound or kilogram.
    #[must_use]
    pub fn volume_weight(self, divisor: VolumeDivisor) -> Charged {
        let cube = |unit: Unit| i128::from(unit.length().units()).pow(3);
        let volume =
            [self.length, self.width, self.height].map(|side| i128::from(side.units())).iter().product();
        match divisor {
            VolumeDivisor::CubicInchesPerPound(count) => {
                Charged::Pounds(divide(volume, cube(Unit::Inch) * i128::from(count), Mode::Up))
            }
            VolumeDivisor::CubicCentimetresPerKilogram(count) => {
                Charged::Kilograms(divide(volume, cube(Unit::Centimetre) * i128::from(count), Mode::Up))
            }
        }
    }
}

/// A weight by which a carrier charges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Charged {
    /// Whole pounds.
    Pounds(i128),
    /// Whole kilograms.
    Kilograms(i128),
}

impl Charged {
    /// As whoever works in a system reads it: what the carrier charges in the other one stands behind, in brackets.
    ///
    /// ```
    /// use overmantel::{cut_list::Charged, plan::System};
    /// assert_eq!(Charged::Pounds(23).text(System::Inches), "23 lb");
    /// assert_eq!(Charged::Pounds(23).text(System::Centimetres), "10.4 kg (23 lb)");
    /// assert_eq!(Charged::Kilograms(5).text(System::Inches), "11.0 lb (5 kg)");
    /// ```
    #[must_use]
    pub fn text(self, system: System) -> String {
        let milligrams = |count: i128, each: i128| i64::try_from(count * each).unwrap_or(i64::MAX);
        let other = match (self, system) {
            (Self::Pounds(count), System::Centimetres) => in_kilograms(milligrams(count, 453_592), 1),
            (Self::Kilograms(count), System::Inches) => in_pounds(milligrams(count, 1_000_000), 1),
            _ => return self.to_string(),
        };
        [&other, " (", &self.to_string(), ")"].concat()
    }
}

impl fmt::Display for Charged {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pounds(count) => write!(f, "{count} lb"),
            Self::Kilograms(count) => write!(f, "{count} kg"),
        }
    }
}

/// The weight that a carrier charges: its own or that of the carton's volume, whichever is greater, each up to the next whole pound
/// or kilogram. Pounds or kilograms as the carrier charges volume; where it charges none, those of `otherwise`.
///
/// ```
/// use overmantel::{cut_list::{Carton, Charged, billed}, geometry::Size, length::Length, plan::System, stock::{Parcel, VolumeDivisor}};
/// let carton = Carton::round(Size::inches(44, 32), Length::inches(4), Length::ZERO);
/// let carrier = Parcel { volume_divisor: Some(VolumeDivisor::CubicInchesPerPound(139)), ..Parcel::default() };
/// let charged = |milligrams| billed(&carrier, carton, milligrams, System::Inches);
/// assert_eq!(charged(10_000_000), Charged::Pounds(41), "44 × 32 × 4 / 139 = 40.5, and 10 kg are 22.05 lb");
/// assert_eq!(charged(30_000_000), Charged::Pounds(67), "30 kg are 66.14 lb");
/// ```
#[must_use]
pub fn billed(parcel: &Parcel, carton: Carton, milligrams: i64, otherwise: System) -> Charged {
    let volume = parcel.volume_divisor.map(|divisor| carton.volume_weight(divisor));
    match (volume, otherwise) {
        (Some(Charged::Pounds(volume)), _) => Charged::Pounds(volume.max(whole_pounds(milligrams))),
        (Some(Charged::Kilograms(volume)), _) => Charged::Kilograms(volume.max(whole_kilograms(milligrams))),
        (None, System::Inches) => Charged::Pounds(whole_pounds(milligrams)),
        (None, System::Centimetres) => Charged::Kilograms(whole_kilograms(milligrams)),
    }
}

/// Why a carrier does not take a carton of this weight (by the most that it may weigh), or nothing where it does.
#[must_use]
pub fn refusal(parcel: &Parcel, carton: Carton, mass: Mass) -> Option<String> {
    let too_long = |what: &str, given: Length, allowed: Option<Length>| {
        let allowed = allowed.filter(|allowed| given > *allowed)?;
        Some(format!("{what} is {}; \"{}\" takes up to {}", plain(given), parcel.name, plain(allowed)))
    };
    too_long("the longest side", carton.length, parcel.longest)
        .or_else(|| too_long("length and girth", carton.length_and_girth(), parcel.length_and_girth))
        .or_else(|| {
            let grams = parcel.most_grams.filter(|grams| mass.most_mg > i64::from(*grams) * 1000)?;
            Some(format!(
                "it may weigh {}; \"{}\" takes up to {}",
                in_kilograms(mass.most_mg, 3),
                parcel.name,
                in_kilograms(i64::from(grams) * 1000, 3)
            ))
        })
}

/// Those carriers of the stock that take a carton of this weight, in the order of the stock.
pub fn takers(stock: &Stock, carton: Carton, mass: Mass) -> impl Iterator<Item = &Parcel> {
    stock.parcels.iter().filter(move |parcel| refusal(parcel, carton, mass).is_none())
}

/// A print rolled into a tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rolled {
    /// The side that lies along the tube: the shorter one.
    pub along: Length,
    /// The side that is rolled up.
    pub round: Length,
    /// The least length of the tube.
    pub tube_length: Length,
    /// Once round the inside of the tube, to the nearest unit.
    pub circumference: Length,
}

/// Rolls a print along its longer side, so that the tube is as short as can be.
#[must_use]
pub fn roll_up(print: Size, tube: &Tube) -> Rolled {
    // π to eighteen decimals, which is more than a length in units has.
    const PI: i128 = 3_141_592_653_589_793_238;
    let along = print.width.min(print.height);
    Rolled {
        along,
        round: print.width.max(print.height),
        tube_length: along + tube.spare,
        circumference: Length::from_ratio(
            i128::from(tube.diameter.units()) * PI,
            1_000_000_000_000_000_000,
            Mode::HalfAway,
        ),
    }
}
