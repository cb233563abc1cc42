//! What may hang on the wall to measure by: sheets of paper, a card, or anything of a stated size.

use serde::{Deserialize, Serialize};

/// A rectangle of known size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Paper {
    /// ISO 216: 210 × 297 mm.
    A4,
    /// ISO 216: 297 × 420 mm.
    A3,
    /// ANSI/ASME Y14.1: 8 1/2 × 11 in.
    Letter,
    /// 8 1/2 × 14 in; common practice, no source.
    Legal,
    /// A card of ISO/IEC 7810, ID-1: 85.60 × 53.98 mm.
    Card,
}

impl Paper {
    /// All of them; the first four are looked for in photographs.
    pub const ALL: [Self; 5] = [Self::A4, Self::A3, Self::Letter, Self::Legal, Self::Card];

    /// Its shorter and its longer side in millimetres.
    #[must_use]
    pub const fn sides_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::A3 => [297.0, 420.0],
            Self::Letter => [215.9, 279.4],
            Self::Legal => [215.9, 355.6],
            Self::Card => [53.98, 85.6],
        }
    }

    /// Across and up in millimetres, upright or lying.
    #[must_use]
    pub const fn hung(self, upright: bool) -> [f64; 2] {
        let [short, long] = self.sides_mm();
        if upright { [short, long] } else { [long, short] }
    }

    /// The paper with a name.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.key() == key)
    }

    /// What a person calls it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::A4 => "A4, 210 × 297 mm",
            Self::A3 => "A3, 297 × 420 mm",
            Self::Letter => "Letter, 8 1/2 × 11 in",
            Self::Legal => "Legal, 8 1/2 × 14 in",
            Self::Card => "a bank or library card, 85.6 × 54 mm",
        }
    }

    /// Its name in files and on the command line.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::A3 => "a3",
            Self::Letter => "letter",
            Self::Legal => "legal",
            Self::Card => "card",
        }
    }
}
