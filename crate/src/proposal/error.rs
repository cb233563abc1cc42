//! Why a proposal or a studio's page can't be written or read.

use super::{MOST_PRICES, VERSION};
use crate::json::JsonError;
use crate::papers::PaperError;
use crate::plan::file::FileError;
use crate::plan::{PlanError, limits};
use crate::prices::file::BookError;
use crate::stock::file::StockError;
use std::fmt;

/// Why a proposal or a studio's page can't be written or read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ProposalError {
    /// It is no proposal: where in the text, and why.
    Json(#[from] JsonError),
    /// It is JSON, and not a proposal: where, and why.
    Form(String),
    /// It is of another version.
    Version(i64),
    /// A text is too long.
    Long {
        /// What it is.
        what: &'static str,
        /// How many characters it has.
        given: usize,
        /// How many it may have.
        most: usize,
    },
    /// There are too many lines of prices: so many.
    Prices(usize),
    /// Its plan can't be read or written as a file.
    File(#[from] FileError),
    /// The day until which it holds is none.
    Date(#[from] PaperError),
    /// The text is no page of Overmantel.
    NoPage,
    /// There are too few or too many pictures for a studio's page: so many.
    Count(usize),
    /// The plan of a studio does not hold together.
    Plan(#[from] PlanError),
    /// There are more or fewer pictures than the plan names.
    Pictures {
        /// How many it names.
        named: usize,
        /// How many were given.
        given: usize,
    },
    /// The stock file can't be read.
    Stock(StockError),
    /// The price book can't be read.
    Book(BookError),
}

impl fmt::Display for ProposalError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Json(why) => write!(f, "the proposal in this file can't be read: {why}"),
            Self::Form(why) => write!(f, "the proposal in this file can't be read: {why}"),
            Self::Version(given) => write!(
                f,
                "the proposal has version {given}, and this program reads version {VERSION}; ask for it again"
            ),
            Self::Long { what, given, most } => {
                write!(f, "the {what} of the proposal has {given} characters; write at most {most}")
            }
            Self::Prices(given) => {
                write!(f, "the proposal has {given} lines of prices, and at most {} are allowed; leave some out", MOST_PRICES.0)
            }
            Self::File(why) => why.fmt(f),
            Self::Date(why) => why.fmt(f),
            Self::NoPage => f.write_str(
                "this is not a page of Overmantel; give the file that `cargo page` builds, or one that somebody sent you",
            ),
            Self::Count(given) => {
                write!(f, "there are {given} pictures, and a studio's page takes 1 to {}; leave some out", limits::PICTURES)
            }
            Self::Plan(why) => why.fmt(f),
            Self::Pictures { named, given } => {
                write!(f, "the plan names {named} pictures, and {given} were given; give one for each")
            }
            Self::Stock(why) => why.fmt(f),
            Self::Book(why) => why.fmt(f),
        }
    }
}
