//! What is wrong with a cell or a row of a list: what was given, what is allowed, what to do.

use super::{Key, limits};
use crate::length::parse::ParseError;
use crate::quoted::short;
use std::fmt;

/// Something in a list that can't be taken as it is; everything else of it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The row, as spreadsheets count them: the names of the columns are row 1. In JSON the number of the work.
    pub row: usize,
    /// The column, where it is one cell.
    pub column: Option<Key>,
    /// What is wrong.
    pub fault: Fault,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// It is not a date.
    Date(String),
    /// It is no length.
    Length(ParseError),
    /// A length is out of range.
    Range(String),
    /// It is not said in a word that is known.
    Availability(String),
    /// It is no edition.
    Edition(String),
    /// It is not an amount.
    Price(String),
    /// It is no number of pixels.
    Pixels(String),
    /// It is no point.
    Subject(String),
    /// It is no place for a signature.
    Signature(String),
    /// It is no palette.
    Palette(String),
    /// It is too long.
    Long {
        /// Characters.
        given: usize,
        /// Characters at most.
        most: usize,
    },
    /// It is a list or an object, where JSON should have text.
    NoText,
    /// An identifier stands in two rows.
    Twice {
        /// It.
        text: String,
        /// The first row that has it.
        first: usize,
    },
    /// A file stands in two rows.
    FileTwice {
        /// It.
        text: String,
        /// The first row that has it.
        first: usize,
    },
    /// One of two measures is missing: the other's name.
    Half(Key),
    /// A row has more cells than there are columns.
    Cells {
        /// Cells.
        given: usize,
        /// Columns.
        columns: usize,
    },
    /// A column stands twice; the first counts.
    Column(String),
    /// The work can't be named.
    Nameless,
    /// There are more problems than are told.
    More(usize),
}

impl Fault {
    /// It, in a row.
    pub(super) const fn at(self, row: usize, column: Option<Key>) -> Problem {
        Problem { row, column, fault: self }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Fault::More(count) = self.fault {
            return write!(f, "{count} further problems are not listed; correct these first");
        }
        write!(f, "row {}", self.row)?;
        if let Some(column) = self.column {
            write!(f, ", {}", column.name())?;
        }
        f.write_str(": ")?;
        match &self.fault {
            Fault::Date(text) => write!(
                f,
                "\"{}\" is not a date; write a year, a month or a day as ISO 8601 has it, such as 2023, 2023-05 or 2023-05-14",
                short(text)
            ),
            Fault::Length(why) => write!(f, "{why}"),
            Fault::Range(text) => write!(
                f,
                "{} is out of range; allowed: more than 0 and up to 100 m (about 328 ft); check its unit",
                short(text)
            ),
            Fault::Availability(text) => write!(
                f,
                "\"{}\" does not say whether it can be had; write available, reserved, sold or not for sale",
                short(text)
            ),
            Fault::Edition(text) => write!(
                f,
                "\"{}\" is not an edition; write the number and the size, such as 7/50, AP 1/5 for an artist's proof, or the size alone",
                short(text)
            ),
            Fault::Price(text) => write!(
                f,
                "\"{}\" is not an amount; write digits, such as 1250 or 1250.50, without marks between thousands, and the currency under priceCurrency",
                short(text)
            ),
            Fault::Pixels(text) => write!(
                f,
                "\"{}\" is not a number of pixels; write a whole number from 1 to {}",
                short(text),
                crate::plan::limits::PICTURE_SIDE_PX
            ),
            Fault::Subject(text) => write!(
                f,
                "\"{}\" is not a point of the picture; write two whole numbers from 0 to 1000, from the left and from the top, such as 500 380",
                short(text)
            ),
            Fault::Signature(text) => write!(
                f,
                "\"{}\" is not a place for a signature; write bottom right, bottom left, bottom, top right, top left, top, back or none, or two numbers from 0 to 1000",
                short(text)
            ),
            Fault::Palette(text) => write!(
                f,
                "\"{}\" is not a palette; write colours with their shares in percent, such as #8a9aa0 60, #2b2f33 40, or leave it empty",
                short(text)
            ),
            Fault::Long { given, most } => {
                write!(f, "the text has {given} characters, and at most {most} are allowed; shorten it")
            }
            Fault::NoText => f.write_str("it is neither text nor a number; write it as text"),
            Fault::Twice { text, first } => write!(
                f,
                "\"{}\" is the identifier of row {first} too; give each work one of its own",
                short(text)
            ),
            Fault::FileTwice { text, first } => {
                write!(f, "\"{}\" is the file of row {first} too; check which work it shows", short(text))
            }
            Fault::Half(other) => {
                write!(f, "it stands without the {}; write both, or neither", other.name())
            }
            Fault::Cells { given, columns } => write!(
                f,
                "it has {given} cells, and there are {columns} columns; put a text that has a comma or a semicolon in quotation marks"
            ),
            Fault::Column(text) => write!(
                f,
                "the column \"{}\" is there twice, and the first one counts; delete or rename the other",
                short(text)
            ),
            Fault::Nameless => {
                f.write_str("it has neither an identifier nor a title nor a file; write at least one of them")
            }
            Fault::More(_) => Ok(()),
        }
    }
}

/// Tells of a problem, as long as there are not too many.
pub(super) fn tell(problems: &mut Vec<Problem>, problem: Problem) {
    let count = problems.len();
    match problems.last_mut() {
        Some(Problem { fault: Fault::More(count), .. }) => *count += 1,
        _ if count >= limits::PROBLEMS => problems.push(Fault::More(1).at(usize::MAX, None)),
        _ => problems.push(problem),
    }
}
