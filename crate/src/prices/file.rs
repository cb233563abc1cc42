//! The price book as a file: JSON, amounts as text such as `"12.50"`, lengths as text with their unit.
//!
//! Version 1. A key that this version does not know is refused. The form, and its JSON Schema
//! (`schema/price-book.schema.json`), follow from the rows beside the book's structs.

use super::{Book, By, PriceRow, PricedPart, limits};
use crate::described::{Fault, FileError, Format, Row, Thing, fault};
use crate::length::Unit;
use std::fmt;

/// The version this module reads.
pub const VERSION: u32 = 1;

static FORMAT: Format = Format {
    file: "the price book",
    content: "a price book",
    ours: "an Overmantel price book",
    key: "overmantel_prices",
    version: VERSION,
    most: limits::FILE_BYTES,
};

/// Why a text is not read as a price book.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BookError {
    /// It is no file of this form.
    File(#[from] FileError),
    /// It has more than [`limits::ROWS`] rows.
    Rows,
    /// A name is empty, is too long or has a control character in it.
    Name {
        /// Which name.
        what: &'static str,
        /// How many characters it has.
        given: usize,
    },
    /// The tax is more than everything.
    Tax,
    /// It is rounded to nothing.
    Rounding,
    /// A row, by its number from one, is for an extra without a name.
    NoName(usize),
    /// A row, by its number from one, is calculated in a way that its part has not.
    By {
        /// Which row.
        row: usize,
        /// For which part.
        part: PricedPart,
    },
    /// A percentage, in a row by its number from one, is more than everything.
    Percent(usize),
    /// A row, by its number from one, has more prices than it takes.
    Prices {
        /// Which row.
        row: usize,
        /// How many prices.
        given: usize,
    },
    /// A measure in a row, by its number from one, is out of range.
    Range {
        /// Which row.
        row: usize,
        /// The measure.
        of: &'static Row,
        /// What is wrong with it.
        fault: Fault,
    },
}

impl fmt::Display for BookError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File(why) => why.fmt(f),
            Self::Rows => {
                write!(f, "the price book has more than {0} rows; it takes at most {0}", limits::ROWS)
            }
            Self::Name { what, given } => write!(
                f,
                "{what} of the price book has {given} characters; write 1 to {} on one line",
                limits::NAME
            ),
            Self::Tax => f.write_str("the tax is more than 100 percent; write the percentage, such as 20"),
            Self::Rounding => f.write_str(
                "the price book rounds to zero; write the smallest step, such as \"1\" or \"0.05\", or leave out \"rounding\"",
            ),
            Self::NoName(row) => write!(
                f,
                "the price book, row {row}: an extra has no name; give it one with \"only\", such as \"varnish\""
            ),
            Self::By { row, part: PricedPart::Discount } => {
                write!(f, "the price book, row {row}: a discount is by \"percent\", or an amount \"once\"")
            }
            Self::By { row, part: PricedPart::Deposit } => {
                write!(f, "the price book, row {row}: a deposit is by \"percent\", or an amount \"once\"")
            }
            Self::By { row, part: PricedPart::Tax } => {
                write!(f, "the price book, row {row}: a tax is by \"percent\"")
            }
            Self::By { row, part } => write!(
                f,
                "the price book, row {row}: the price of {} is for each piece or by its size; \"percent\" is for a discount, a tax or a deposit, and \"once\" for an extra, handling, packing, shipping, hanging, a discount or a deposit",
                part.name()
            ),
            Self::Percent(row) => {
                write!(f, "the price book, row {row}: the percentage is more than 100; write 0 to 100")
            }
            Self::Prices { row, given } => write!(
                f,
                "the price book, row {row}: there are {given} prices, and at most {} are allowed",
                limits::ROWS
            ),
            Self::Range { row, of, fault } => {
                write!(f, "the price book, row {row}: the {} {fault}", of.label)
            }
        }
    }
}

/// Reads a price book.
///
/// # Errors
/// When the text is too long, is not JSON, has a key or value of the wrong form (with line and column), is of a later
/// version, or states a name, an amount or a measure that is out of range.
pub fn read(text: &str) -> Result<Book, BookError> {
    let node = FORMAT.open(text)?;
    let mut book = Book::default();
    FORMAT.read(&mut book, &node, Unit::Inch, text)?;
    if book.rows.len() > limits::ROWS {
        return Err(BookError::Rows);
    }
    name("the name", &book.name)?;
    name("the currency", &book.currency)?;
    if book.tax.is_some_and(|tax| tax.basis_points > 10_000) {
        return Err(BookError::Tax);
    }
    if book.rounding.is_some_and(|rounding| rounding.to < 1) {
        return Err(BookError::Rounding);
    }
    for (index, row) in book.rows.iter_mut().enumerate() {
        check(index + 1, row)?;
        if let By::Steps(steps) = &mut row.by {
            crate::order::sort_by_key(steps, |step| step.0);
        }
    }
    Ok(book)
}

/// Writes a price book; what is asked for is no part of it.
///
/// ```
/// use overmantel::prices::{Book, file};
/// let text = r#"{ "overmantel_prices": 1, "name": "ours", "currency": "EUR",
///     "rows": [{ "for": "deposit", "by": { "percent": "30" } }] }"#;
/// let book = Book::read(text).unwrap();
/// assert_eq!(Book::read(&file::write(&book)), Ok(book));
/// ```
#[must_use]
pub fn write(book: &Book) -> String {
    FORMAT.write(&mut book.clone())
}

fn name(what: &'static str, text: &str) -> Result<(), BookError> {
    let given = text.chars().count();
    let is_good = !text.trim().is_empty() && given <= limits::NAME && !text.chars().any(char::is_control);
    if is_good { Ok(()) } else { Err(BookError::Name { what, given }) }
}

/// Whether a row, by its number from one, is within limits.
fn check(row: usize, PriceRow { part, only, by }: &mut PriceRow) -> Result<(), BookError> {
    only.as_ref().map_or(Ok(()), |only| name("a name", only))?;
    let part = *part;
    let is_good = match by {
        By::Percent(_) => part.is_of_sum(),
        By::Once(_) => part.may_wait() && part != PricedPart::Tax,
        _ => !part.is_of_sum(),
    };
    if !is_good {
        return Err(BookError::By { row, part });
    }
    if part == PricedPart::Extra && only.is_none() {
        return Err(BookError::NoName(row));
    }
    match by {
        By::Percent(points) if *points > 10_000 => Err(BookError::Percent(row)),
        By::Size(sizes) => each(row, sizes),
        By::Steps(steps) => each(row, steps),
        By::Each(_) | By::Once(_) | By::Percent(_) | By::Area(..) | By::United(..) | By::Moulding(..) => {
            Ok(())
        }
    }
}

fn each(row: usize, prices: &mut [impl Thing]) -> Result<(), BookError> {
    if prices.len() > limits::ROWS {
        return Err(BookError::Prices { row, given: prices.len() });
    }
    let wrong = prices.iter_mut().find_map(|price| fault(price));
    wrong.map_or(Ok(()), |(of, fault)| Err(BookError::Range { row, of, fault }))
}

/// The JSON Schema (draft 2020-12) of the price book.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    use crate::described::schema::{Lengths, schema_of_list};
    schema_of_list(&mut Book::default(), "Overmantel price book", &FORMAT, None, Lengths::Texts)
}
