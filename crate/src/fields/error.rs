//! Why a field can't take what it is given.

use crate::asked::AskedError;
use crate::field::Field;
use crate::figures::NoAnswer;
use crate::length::parse::ParseError;
use crate::plan::limits;
use crate::quoted::short;
use crate::starts::StartError;
use crate::stock::NoColour;
use std::fmt;
use std::ops::Range;

/// Why a field can't take what it is given.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FieldError {
    /// The text is no length; where in the text the fault is, when it is a part of a size.
    Length {
        /// What is wrong.
        why: ParseError,
        /// How much stands before the length.
        before: usize,
    },
    /// The text is no size.
    Size(String),
    /// The text is no whole number.
    Number(String),
    /// The text is no share.
    Share(String),
    /// The text is not a valid ratio.
    Ratio(String),
    /// The text is no colour.
    Colour(#[from] NoColour),
    /// There is no such option.
    Option {
        /// The key that was given.
        given: String,
        /// The words of those that there are.
        words: Vec<String>,
    },
    /// The plan has no such field.
    NoField(Field),
    /// The plan takes no more fixtures.
    Full,
    /// What was offered is not on offer any more.
    Gone(String),
    /// What is asked has no answer.
    Asked(#[from] AskedError),
    /// A starting point can't be taken.
    Start(#[from] StartError),
    /// The changed plan would have no answer.
    NoAnswer(#[from] NoAnswer),
}

impl FieldError {
    /// The offending bytes of the text, where there are some.
    #[must_use]
    pub fn span(&self) -> Option<Range<usize>> {
        let Self::Length { why, before } = self else { return None };
        Some(why.span.start + before..why.span.end + before)
    }
}

impl fmt::Display for FieldError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length { why, .. } => why.fmt(f),
            Self::Size(text) => {
                write!(
                    f,
                    "\"{}\" is not a size; write the width, then the height, such as 16 × 20",
                    short(text)
                )
            }
            Self::Number(text) => {
                write!(f, "\"{}\" is not a whole number; write one such as 200", short(text))
            }
            Self::Share(text) => {
                write!(f, "\"{}\" is not a percentage; write 0 to 100, such as 40 or 33.3 %", short(text))
            }
            Self::Ratio(text) => write!(
                f,
                "\"{}\" is not a ratio; write the bottom, then the top, in whole numbers, such as 4 : 3",
                short(text)
            ),
            Self::Colour(why) => why.fmt(f),
            Self::Option { given, words } => {
                write!(f, "\"{}\" can't be chosen here; choose {}", short(given), words.join(", or "))
            }
            Self::NoField(field) => write!(f, "this plan has no {}", field.label()),
            Self::Full => {
                write!(
                    f,
                    "this plan already has {} fixtures, the most it can have; delete one first",
                    limits::FIXTURES
                )
            }
            Self::Gone(text) => write!(f, "\"{}\" is not on offer any more; choose another", short(text)),
            Self::Asked(why) => why.fmt(f),
            Self::Start(why) => why.fmt(f),
            Self::NoAnswer(why) => why.fmt(f),
        }
    }
}

impl From<ParseError> for FieldError {
    fn from(why: ParseError) -> Self {
        Self::Length { why, before: 0 }
    }
}
