//! Thresholds: the limits from which something is said to be unwise, each with its source. A user's own list may change them.
//!
//! ```
//! use overmantel::{length::Length, stock::{Stock, thresholds::THIN_BORDER}};
//! assert_eq!(Stock::offered().limit(&THIN_BORDER), Length::inches_ratio(3, 2));
//! let own = r#"{ "overmantel_stock": 1, "thresholds": { "narrowest border of a mat": "2 in" } }"#;
//! assert_eq!(Stock::read(own).unwrap().limit(&THIN_BORDER), Length::inches(2));
//! ```

use super::Stock;
use crate::length::{
    Length, Unit,
    parse::{ParseError, parse},
    print::exact,
};
use crate::plan::limits::PIECE;
use crate::quoted::short;
use std::fmt;

/// The limit that holds where a user's own list says nothing else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Usual {
    /// What it limits, in words.
    pub name: &'static str,
    /// From where something is unwise.
    pub amount: Amount,
    /// Where it is from.
    pub source: &'static str,
}

/// How much: a length, or a number as a quotient of two whole ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    /// A length.
    Length(Length),
    /// A number: the first over the second, which is more than zero.
    Number(i64, i64),
}

impl Amount {
    /// As a list has it: `1 1/2 in`, `150` or `2/3`.
    #[must_use]
    pub fn text(self) -> String {
        match self {
            Self::Length(length) => exact(length),
            Self::Number(over, 1) => over.to_string(),
            Self::Number(over, under) => over.to_string() + "/" + &under.to_string(),
        }
    }

    /// Reads an amount of the same kind; a length without a unit is in `bare`.
    ///
    /// # Errors
    /// When the text is no such amount, or it is out of range.
    pub fn read_alike(self, text: &str, bare: Unit) -> Result<Self, AmountError> {
        if let Self::Length(_) = self {
            let length = parse(text, bare)?;
            if (Length::ZERO..=PIECE).contains(&length) {
                return Ok(Self::Length(length));
            }
            return Err(AmountError::Range(text.to_owned()));
        }
        let whole = |text: &str| text.trim().parse::<i64>().ok().filter(|number| (0..=MOST).contains(number));
        let (over, under) = match (text.split_once('/'), text.split_once('.')) {
            (Some((over, under)), _) => (whole(over), whole(under)),
            (_, Some((units, decimals))) if decimals.len() <= 6 => {
                let ten = (0..decimals.len()).fold(1, |ten, _| ten * 10);
                (whole(units).zip(whole(decimals)).map(|(units, rest)| units * ten + rest), Some(ten))
            }
            _ => (whole(text), Some(1)),
        };
        match (over, under) {
            (Some(over), Some(under)) if under > 0 => Ok(Self::Number(over, under)),
            _ => Err(AmountError::Number(text.to_owned())),
        }
    }
}

/// Why a text is not a valid amount of the kind that is wanted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AmountError {
    /// It is no length.
    Length(#[from] ParseError),
    /// It is a length out of range.
    Range(String),
    /// It is no number, or one out of range.
    Number(String),
}

impl fmt::Display for AmountError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(why) => why.fmt(f),
            Self::Range(text) => {
                write!(f, "{} is out of range; allowed: 0 in to 10 m (about 32 ft)", short(text))
            }
            Self::Number(text) => {
                write!(f, "\"{}\" is not a number here; write one such as 150, 0.75 or 2/3", short(text))
            }
        }
    }
}

/// The largest number of a threshold.
const MOST: i64 = 1_000_000;

/// Names the limits and lists them.
macro_rules! thresholds {
    ($($name:ident = $words:literal, $amount:expr, $source:expr;)*) => {
        $(
            #[doc = concat!("The ", $words, ".")]
            pub const $name: Usual = Usual { name: $words, amount: $amount, source: $source };
        )*
        /// Every limit.
        pub const ALL: &[Usual] = &[$($name),*];
    };
}

const COMMON: &str = "common practice, no source";
const OURS: &str = "our own choice, no source";
const ADA: &str = "ADA 2010 Standards, 307.2";
const GLASGOW: &str = "Glasgow Museums Display Guidelines";

const fn inches(over: i64, under: i64) -> Amount {
    Amount::Length(Length::inches_ratio(over, under))
}

const fn mm(count: i64) -> Amount {
    Amount::Length(Length::mm(count))
}

thresholds! {
    COARSE_PPI = "pixels to the inch below which a print is coarse", Amount::Number(100, 1), COMMON;
    SOFT_PPI = "pixels to the inch below which a print is soft", Amount::Number(150, 1), COMMON;
    CROP_LOSS = "largest share of a picture that may be cropped", Amount::Number(1, 10), OURS;
    NEAR_SUBJECT = "share of a panel within which an edge is near to what matters", Amount::Number(1, 10), OURS;
    LEAST_SHARE = "least share of what a group hangs above", Amount::Number(2, 3), COMMON;
    MOST_SHARE = "largest share of what a group hangs above", Amount::Number(3, 4), COMMON;
    LEAST_OVERLAP = "least that a mat covers of its sheet", mm(3), COMMON;
    ROOM_FOR_POINTS = "depth that points need behind a package", inches(1, 8), COMMON;
    THIN_BORDER = "narrowest border of a mat", inches(3, 2), COMMON;
    SAG_OF_RAIL = "largest share of its length by which a frame's lower rail may sag", Amount::Number(1, 300), OURS;
    CORNER_STRESS = "newtons to the square millimetre that a glued and pinned mitre may be pulled by", Amount::Number(2, 1), OURS;
    WEAK_BAR = "narrowest bar between two openings", inches(1, 2), COMMON;
    WRAP_SHARE = "largest share of a picture on the edges of a canvas", Amount::Number(3, 20), OURS;
    FOLD_MARGIN = "margin of a fold", inches(1, 4), COMMON;
    LEAST_GAP = "narrowest gap between pieces", inches(3, 2), COMMON;
    MOST_GAP = "widest gap between pieces", inches(4, 1), COMMON;
    NEARLY_ALIKE = "difference in size that looks like a mistake", inches(1, 1), OURS;
    LEAST_CLEARANCE = "least clearance above furniture", mm(150), COMMON;
    MOST_CLEARANCE = "largest clearance above furniture", inches(10, 1), COMMON;
    UNDER_CEILING = "least distance from ceiling or cornice", inches(6, 1), COMMON;
    FROM_CORNER = "least distance from a corner", inches(6, 1), OURS;
    ROUND_FITTINGS = "room round what must stay clear", inches(2, 1), OURS;
    FROM_PHOTOGRAPH_WITHIN = "how far off what was measured in a photograph may be", mm(20), OURS;
    BESIDE_WINDOW = "distance from a window that dazzles", inches(12, 1), OURS;
    LOWEST_CENTRE = "lowest centre for people who stand", mm(1100), GLASGOW;
    HIGHEST_CENTRE = "highest centre for people who stand", mm(1675), GLASGOW;
    LOWEST_SEATED = "lowest centre for people who sit", inches(43, 1), COMMON;
    HIGHEST_SEATED = "highest centre for people who sit", inches(51, 1), COMMON;
    CORRIDOR_DEPTH = "deepest piece on a public way", inches(4, 1), ADA;
    CORRIDOR_LOW = "lower edge on a public way from which depth is limited", inches(27, 1), ADA;
    CORRIDOR_HIGH = "lower edge on a public way to which depth is limited", inches(80, 1), ADA;
    WIRE_PULL = "pull of a wire in weights of the piece", Amount::Number(2, 1), COMMON;
    HIDDEN_WIRE = "least depth of a hook below the upper edge", inches(2, 1), COMMON;
    WIDE_PIECE = "widest piece on one hook", inches(24, 1), COMMON;
    HEAVY_PIECE = "heaviest piece on one hook, in grams", Amount::Number(5_000, 1), COMMON;
    RATED_TIMES = "weights of a piece that its fixings are rated for", Amount::Number(2, 1), COMMON;
    MOST_ON_BOARD = "heaviest piece on plasterboard alone, in grams", Amount::Number(20_000, 1), COMMON;
}

impl Stock {
    /// What a list says of a limit, otherwise what is usual.
    #[must_use]
    pub fn amount(&self, usual: &Usual) -> Amount {
        let stated = self.thresholds.iter().find(|row| row.0 == usual.name);
        stated.map_or(usual.amount, |row| row.1)
    }

    /// A limit that is a length.
    #[must_use]
    pub fn limit(&self, usual: &Usual) -> Length {
        match (self.amount(usual), usual.amount) {
            (Amount::Length(length), _) | (_, Amount::Length(length)) => length,
            _ => Length::ZERO,
        }
    }

    /// A limit that is a number, as a quotient.
    #[must_use]
    pub fn limit_number(&self, usual: &Usual) -> (i64, i64) {
        match (self.amount(usual), usual.amount) {
            (Amount::Number(over, under), _) | (_, Amount::Number(over, under)) => (over, under),
            _ => (0, 1),
        }
    }

    /// Whether a list of the user's own changes a limit.
    #[must_use]
    pub fn is_own(&self, usual: &Usual) -> bool {
        self.amount(usual) != usual.amount
    }
}
