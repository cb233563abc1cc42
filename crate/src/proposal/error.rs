//! Why a proposal or a studio's page can't be written or read.

use super::limits;
use crate::described::{self, Fault, Row};
use crate::figures::NoAnswer;
use crate::link::LinkError;
use crate::papers::PaperError;
use crate::plan::PlanError;
use crate::plan::file::FileError;
use crate::plan::limits::PICTURES;
use crate::prices::file::BookError;
use crate::quoted::short;
use crate::stock::file::StockError;
use std::fmt;

/// Why a proposal or a studio's page can't be written or read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ProposalError {
    /// It is no file of this form.
    Filed(#[from] described::FileError),
    /// A text or a number is out of its range.
    Range {
        /// Which.
        of: &'static Row,
        /// What is wrong with it.
        fault: Fault,
    },
    /// There are too few plans to choose among, or too many: so many.
    Offers(usize),
    /// Different pictures go by this title.
    Alike(String),
    /// An option has too many lines of something.
    Lines {
        /// Of what.
        what: &'static str,
        /// How many.
        given: usize,
    },
    /// An answer can't be read.
    Link(LinkError),
    /// A plan of it has no answer.
    NoAnswer(#[from] NoAnswer),
    /// A reduced picture is no JPEG in base64: of which it is.
    NoJpeg(String),
    /// Its plan can't be read or written as a file.
    File(#[from] FileError),
    /// The day until which it holds is none.
    Date(#[from] PaperError),
    /// The text is no page of Overmantel.
    NoPage,
    /// The page has no proposal inside.
    NoProposal,
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
            Self::Filed(why) => why.fmt(f),
            Self::Range { of, fault } => write!(f, "the {} of the proposal {fault}", of.label),
            Self::Offers(given) => {
                write!(f, "the proposal has {given} options; it takes 1 to {}", limits::OFFERS)
            }
            Self::Alike(title) => write!(
                f,
                "different pictures of the proposal are called \"{}\"; give one of them another title",
                short(title)
            ),
            Self::Lines { what, given } => write!(
                f,
                "an option of the proposal has {given} {what}, and at most {} are allowed; leave some out",
                limits::LINES
            ),
            Self::Link(why) => why.fmt(f),
            Self::NoAnswer(why) => why.fmt(f),
            Self::NoJpeg(of) => {
                write!(f, "the reduced picture of \"{}\" in the proposal is not a JPEG file in base64; choose the picture again", short(of))
            }
            Self::File(why) => why.fmt(f),
            Self::Date(why) => why.fmt(f),
            Self::NoPage => f.write_str(
                "this is not a page of Overmantel; give the file that `cargo page` builds, or one that somebody sent you",
            ),
            Self::NoProposal => f.write_str(
                "there is no proposal in this file; give the page that you sent, or a proposal's data",
            ),
            Self::Count(given) => {
                write!(f, "there are {given} pictures, and a studio's page takes 1 to {PICTURES}; leave some out")
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
