//! Measures: a length as the plan's units show it, with the other system beside it.
//!
//! Three grades, as a rule is read in the trade: the room in feet and inches, a piece in inches, what is cut thin in finer
//! steps. Common practice, no source.

use crate::geometry::Size;
pub use crate::length::Grade;
use crate::length::Length;
use crate::length::print::{Printed, Style, print};
use crate::plan::{System, Units};
use crate::rounding::{Mode, divide};
use crate::weigh::{Mass, in_kilograms, in_pounds};

/// The style of a grade in a system.
#[must_use]
pub const fn style(grade: Grade, system: System) -> Style {
    match (system, grade) {
        (System::Inches, Grade::Room) => Style::FeetAndInches { denominator: 16 },
        (System::Inches, Grade::Piece) => Style::Inches { denominator: 16 },
        (System::Inches, Grade::Cut) => Style::Inches { denominator: 32 },
        (System::Inches, Grade::Fine) => Style::Inches { denominator: 64 },
        (System::Centimetres, Grade::Room | Grade::Piece) => Style::Centimetres { decimals: 1 },
        (System::Centimetres, Grade::Fine | Grade::Cut) => Style::Millimetres { decimals: 1 },
    }
}

/// A length in the first system of the plan.
#[must_use]
pub fn first(length: Length, grade: Grade, units: Units) -> Printed {
    print(length, style(grade, units.first))
}

/// A length in the other system.
#[must_use]
pub fn second(length: Length, grade: Grade, units: Units) -> Printed {
    print(length, style(grade, units.first.other()))
}

/// A length in one system.
#[must_use]
pub fn print_in(length: Length, grade: Grade, system: System) -> String {
    print(length, style(grade, system)).text
}

/// A length as a sentence or a drawing shows it: in both systems when the plan wants both.
#[must_use]
pub fn shown(length: Length, grade: Grade, units: Units) -> String {
    let mut text = first(length, grade, units).text;
    if units.both {
        text += &format!(" ({})", second(length, grade, units).text);
    }
    text
}

/// A distance from which something holds, as a buyer is told: up to the next whole inch, or the next 5 cm.
///
/// ```
/// use overmantel::{length::Length, measure::from_afar, plan::{System, Units}};
/// assert_eq!(from_afar(Length::inches_ratio(389, 16), Units { first: System::Inches, both: false }), "25\"");
/// assert_eq!(from_afar(Length::mm(621), Units { first: System::Centimetres, both: false }), "65 cm");
/// ```
#[must_use]
pub fn from_afar(length: Length, units: Units) -> String {
    let one = |system: System| {
        let step = if system == System::Inches { Length::inches(1) } else { Length::mm(50) };
        let steps = divide(length.units().into(), step.units().into(), Mode::Up);
        print_in(step * i64::try_from(steps).unwrap_or(0), Grade::Piece, system)
    };
    if units.both {
        [&one(units.first), " (", &one(units.first.other()), ")"].concat()
    } else {
        one(units.first)
    }
}

/// A weight with its uncertainty, in the plan's first system and, where it wants both, in the other: `6.3 lb (5.4 to 7.3)`.
///
/// To a tenth of a pound or of a kilogram; below one kilogram to a hundredth.
#[must_use]
pub fn weight(mass: Mass, units: Units) -> String {
    let decimals = if mass.most_mg < 1_000_000 { 2 } else { 1 };
    let one = |system: System| {
        let text = |milligrams: i64| match system {
            System::Inches => in_pounds(milligrams, decimals),
            System::Centimetres => in_kilograms(milligrams, decimals),
        };
        let bare = |text: String| text.trim_end_matches(|letter: char| !letter.is_ascii_digit()).to_owned();
        format!("{} ({} to {})", text(mass.likely_mg), bare(text(mass.least_mg)), bare(text(mass.most_mg)))
    };
    if units.both { format!("{}, {}", one(units.first), one(units.first.other())) } else { one(units.first) }
}

/// A weight without its uncertainty, in the plan's first system and, where it wants both, in the other: `6.3 lb`.
#[must_use]
pub fn weight_likely(mass: Mass, units: Units) -> String {
    let decimals = if mass.most_mg < 1_000_000 { 2 } else { 1 };
    let one = |system: System| match system {
        System::Inches => in_pounds(mass.likely_mg, decimals),
        System::Centimetres => in_kilograms(mass.likely_mg, decimals),
    };
    if units.both {
        [&one(units.first), " (", &one(units.first.other()), ")"].concat()
    } else {
        one(units.first)
    }
}

/// Thousandths as hundredths: `50 %`, `51.3 %`.
#[must_use]
pub fn percent(permille: u16) -> String {
    match (permille / 10, permille % 10) {
        (whole, 0) => format!("{whole} %"),
        (whole, tenth) => format!("{whole}.{tenth} %"),
    }
}

/// A weight by itself in a system: to a hundredth of a pound, from ten pounds to a tenth; in grams below a kilogram, then to a hundredth of one.
///
/// ```
/// use overmantel::{measure::weight_alone, plan::System};
/// assert_eq!(weight_alone(146_400, System::Centimetres), "146 g");
/// assert_eq!(weight_alone(1_234_000, System::Centimetres), "1.23 kg");
/// assert_eq!(weight_alone(453_592, System::Inches), "1.00 lb");
/// assert_eq!(weight_alone(6_377_000, System::Inches), "14.1 lb");
/// ```
#[must_use]
pub fn weight_alone(milligrams: i64, system: System) -> String {
    match system {
        System::Inches => in_pounds(milligrams, if milligrams < 4_535_924 { 2 } else { 1 }),
        System::Centimetres if milligrams < 1_000_000 => {
            [&divide(milligrams.into(), 1000, Mode::HalfAway).to_string(), " g"].concat()
        }
        System::Centimetres => in_kilograms(milligrams, 2),
    }
}

/// What a fixing is rated for: they are sold by the pound, and by the kilogram elsewhere.
///
/// ```
/// use overmantel::{measure::rating, plan::System};
/// assert_eq!(rating(30, System::Inches), "30 lb");
/// assert_eq!(rating(30, System::Centimetres), "13.6 kg");
/// ```
#[must_use]
pub fn rating(pounds: u16, system: System) -> String {
    match system {
        System::Inches => [&pounds.to_string(), " lb"].concat(),
        System::Centimetres => in_kilograms(i64::from(pounds) * 453_592, 1),
    }
}

/// Whether what [`shown`] says of a length is rounded.
#[must_use]
pub fn is_rounded(length: Length, grade: Grade, units: Units) -> bool {
    first(length, grade, units).is_rounded() || units.both && second(length, grade, units).is_rounded()
}

/// A width and a height in one system, the unit named once: `16 × 20"`.
#[must_use]
pub fn size(size: Size, grade: Grade, system: System) -> Printed {
    let [width, height] = [size.width, size.height].map(|length| print(length, style(grade, system)));
    let bare = width.text.trim_end_matches(['"', '\'', 'c', 'm']).trim_end();
    let keep = if width.text.contains('\'') { width.text.as_str() } else { bare };
    let error = if width.is_rounded() { width.error } else { height.error };
    Printed { text: format!("{keep} × {}", height.text), error }
}

/// A size as a sentence shows it: in both systems when the plan wants both.
#[must_use]
pub fn shown_size(given: Size, units: Units) -> String {
    let mut text = size(given, Grade::Piece, units.first).text;
    if units.both {
        text += &format!(" ({})", size(given, Grade::Piece, units.first.other()).text);
    }
    text
}
