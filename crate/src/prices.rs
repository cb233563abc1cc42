//! Prices: what a plan costs by a maker's own price book, line by line, and the same wall in other materials beside it.
//!
//! There is no price in this program. A book is data ([`mod@file`]). What it has no price for is named with the row to add, never
//! guessed, and then there is no total. Amounts are whole hundredths of the book's currency.
//!
//! # How a line is calculated
//! - by piece: the price; - once: the price, one time for everything; - by size: the price of that very size, either way round;
//! - by area: w h; - by united measure: w + h; - by steps of the united measure: the first step that is not below it;
//! - by length: of the moulding, by the shops' rule; - by percent: a discount of all lines but packing, shipping and hanging.
//!
//! # Where it is rounded
//! Each line once, to the nearest hundredth, a tie away from zero. The subtotal then as the book says ([`Rounding`]), and the tax
//! on it or within it to the nearest hundredth.
//!
//! ```
//! use overmantel::{figures::Figures, plan::Plan, prices::{Book, By, PriceRow, PricedPart, priced}, stock::Stock};
//! let mut book = Book::read(r#"{
//!     "overmantel_prices": 1, "name": "ours", "currency": "EUR", "rounding": { "to": "5", "mode": "up" },
//!     "rows": [
//!         { "for": "paper", "by": { "square_foot": "9.00" } }, { "for": "mat", "by": { "each": "10" } },
//!         { "for": "frame", "by": { "each": "60" } }, { "for": "glass", "by": { "each": "12" } },
//!         { "for": "mount", "by": { "each": "3" } }, { "for": "shipping", "only": "abroad", "by": { "once": "40" } }
//!     ]
//! }"#).unwrap();
//! let plan = Plan::starting();
//! let of = |book: &Book| priced(&plan, &Figures::of(&plan).unwrap(), &Stock::offered(), book);
//! let price = of(&book);
//! assert_eq!(price.lines[0].each, 2000, "16 × 20 in are 2 2/9 square feet");
//! assert_eq!(price.missing[0].name(), "backing", "the book has no row for it");
//! assert_eq!(price.totals, None, "so there is no total");
//! book.rows.push(PriceRow { part: PricedPart::Backing, only: None, by: By::Each(200) });
//! assert_eq!(of(&book).totals.unwrap().total, 32_500, "3 × 107 are 321, and up to the next 5");
//! book.ask_for("abroad", true).unwrap();
//! assert_eq!(of(&book).totals.unwrap().total, 36_500, "361, and up to the next 5");
//! ```

use crate::described::Choosable;
use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::{Length, Unit};
use crate::making::things;
use crate::measure;
use crate::plan::{Coating, Plan};
use crate::quoted::short;
use crate::rounding::{Mode, divide};
use crate::stock::Stock;
use parts::{Priced, parts};

mod compared;
pub mod file;
mod parts;
mod reduced;
mod rows;
mod said;
mod unmatched;

pub use compared::{PricedMaterial, care_of, compared};
pub use reduced::{Asked, cost_the_same};
pub use said::Missing;
pub use unmatched::Unmatched;

/// Limits of a price book, held when a file is read.
pub mod limits {
    /// Bytes of a file at most.
    pub const FILE_BYTES: usize = 1024 * 1024;
    /// Rows at most, and sizes or steps of one row.
    pub const ROWS: usize = 400;
    /// Characters of a name at most.
    pub const NAME: usize = 80;
    /// Hundredths of the currency at most, of one price.
    pub const AMOUNT: i64 = 100_000_000_000;
}

/// A maker's prices.
///
/// ```
/// use overmantel::prices::{Book, priced};
/// use overmantel::{figures::Figures, plan::Plan, stock::Stock};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let book = Book::read(r#"{ "overmantel_prices": 1, "name": "ours", "currency": "EUR", "rows": [
///     { "for": "paper", "by": { "each": "30" } }, { "for": "handling", "by": { "each": "15" } }] }"#)?;
/// let plan = Plan::starting();
/// let price = priced(&plan, &Figures::of(&plan)?, &Stock::offered(), &book);
/// // The frames have no price in this book: what is missing is listed, and there is no total.
/// assert!(price.totals.is_none() && !price.missing.is_empty());
/// // Three prints of 30.00 are on a line.
/// assert!(price.text(&book).iter().any(|line| line.contains("90.00")));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Book {
    /// What it is called.
    pub name: String,
    /// Whether it is an example that nobody sells by.
    pub is_example: bool,
    /// The currency, as it is written before an amount.
    pub currency: String,
    /// The tax, where it is shown.
    pub tax: Option<Tax>,
    /// To what the subtotal is rounded. Default: to nothing but the hundredth.
    pub rounding: Option<Rounding>,
    /// Prices, the first that suits a part counting; of discounts each that suits.
    pub rows: Vec<PriceRow>,
    /// Which of the rows that wait for it are asked for, by their names; not in a file. See [`Book::ask_for`].
    pub asked: Vec<String>,
}

/// A tax on everything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tax {
    /// In hundredths of a percent.
    pub basis_points: u32,
    /// Whether the prices have it in them.
    pub is_included: bool,
}

/// To what the subtotal is rounded, before a tax on top of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rounding {
    /// To a whole number of this amount, in hundredths of the currency; at least one.
    pub to: i64,
    /// Up, down, or to the nearest, a tie away from zero.
    pub mode: Mode,
}

/// What a price is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the parts of a piece by their plain names")]
pub enum PricedPart {
    /// The work itself, where it is no print.
    Original,
    Paper,
    Canvas,
    Aluminium,
    EdgeCarried,
    EdgeMirrored,
    EdgePlain,
    Mat,
    Frame,
    Floater,
    Glass(Coating),
    Acrylic(Coating),
    Mount,
    Backing,
    Handling,
    /// Something of the maker's own, by its name: a varnish, a signature, finishing by hand.
    Extra,
    Packing,
    Shipping,
    Hanging,
    Discount,
    /// A tax by a rate of its own, in place of the book's.
    Tax,
    /// What of the total is paid when it is ordered.
    Deposit,
}

impl PricedPart {
    /// Its name in a line.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.entry().words
    }

    /// Whether it may come at no price of its own: what is not in the book is then in another price.
    const fn is_optional(self) -> bool {
        matches!(self, Self::EdgeCarried | Self::EdgeMirrored | Self::EdgePlain) || self.may_wait()
    }

    /// Whether a row with a name waits until that is asked for.
    const fn may_wait(self) -> bool {
        matches!(self, Self::Handling | Self::Extra) || self.is_way() || self.is_of_sum()
    }

    /// Whether it is of what the lines come to, and none of them.
    const fn is_of_sum(self) -> bool {
        matches!(self, Self::Discount | Self::Tax | Self::Deposit)
    }

    /// Whether it is on the way to the wall, of which a discount takes nothing.
    const fn is_way(self) -> bool {
        matches!(self, Self::Packing | Self::Shipping | Self::Hanging)
    }
}

/// A row of a book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceRow {
    /// For what.
    pub part: PricedPart,
    /// Only for this, by its name; for any, when there is none. A moulding of the stock or a wood; a board's material; the title or
    /// the file of an original; the colour of a mat or of an edge. For what may be had or left (handling, an extra, packing,
    /// shipping, hanging, a discount) only where it is asked for.
    pub only: Option<String>,
    /// How it is calculated.
    pub by: By,
}

/// How a price is calculated; amounts in hundredths of the currency.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum By {
    /// For each piece.
    Each(i64),
    /// One time for everything.
    Once(i64),
    /// By the very size, either way round.
    Size(Vec<(Size, i64)>),
    /// By the area, in squares of a unit.
    Area(Unit, i64),
    /// By width and height together.
    United(Unit, i64),
    /// By steps of width and height together, the smallest first: up to so much.
    Steps(Vec<(Length, i64)>),
    /// By the length of moulding.
    Moulding(Unit, i64),
    /// In hundredths of a percent: of a discount, a tax or a deposit.
    Percent(i64),
}

/// A name that no row of a book waits for.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the price book has no row that is only for \"{}\"; {}", short(.given), said::waiting(.known))]
pub struct NotWaiting {
    /// The name.
    pub given: String,
    /// The names that rows wait for.
    pub known: Vec<String>,
}

impl Book {
    /// Reads a price book.
    ///
    /// # Errors
    /// What was given and what is allowed.
    pub fn read(text: &str) -> Result<Self, file::BookError> {
        file::read(text)
    }

    /// What may be asked for, in the order of the book: for which part, and by which name.
    #[must_use]
    pub fn waiting(&self) -> Vec<(PricedPart, &str)> {
        let mut found: Vec<(PricedPart, &str)> = Vec::new();
        for row in self.rows.iter().filter(|row| row.part.may_wait()) {
            if let Some(name) = row.only.as_deref().filter(|name| found.iter().all(|known| known.1 != *name))
            {
                found.push((row.part, name));
            }
        }
        found
    }

    /// Asks for what waits under a name, or leaves it.
    ///
    /// # Errors
    /// When no row waits under this name; the error has those that there are.
    pub fn ask_for(&mut self, name: &str, is_wanted: bool) -> Result<(), NotWaiting> {
        let known = self.waiting();
        if known.iter().all(|known| known.1 != name) {
            let known = known.into_iter().map(|known| known.1.to_owned()).collect();
            return Err(NotWaiting { given: name.to_owned(), known });
        }
        self.asked.retain(|asked| asked != name);
        self.asked.extend(is_wanted.then(|| name.to_owned()));
        Ok(())
    }

    /// The tax on a sum, or within it, and both together; the sum is rounded as the book says before that.
    #[must_use]
    pub fn taxed(&self, sum: i64) -> (i64, i64) {
        let sum = self.rounded(sum);
        let Some(Tax { basis_points, is_included }) = self.taxes() else { return (0, sum) };
        let points = i128::from(basis_points);
        // Of a sum that has it in it, the tax is r / (1 + r).
        let whole = if is_included { 10_000 + points } else { 10_000 };
        let tax = cents(i128::from(sum) * points, whole);
        (tax, if is_included { sum } else { sum + tax })
    }

    /// The tax: by the first of its rows that is had, otherwise the book's. Whether prices have it in them, the book says.
    #[must_use]
    pub fn taxes(&self) -> Option<Tax> {
        let stated = self.had(PricedPart::Tax).find_map(|row| match row.by {
            By::Percent(points) => u32::try_from(points).ok(),
            _ => None,
        });
        let is_included = self.tax.is_some_and(|tax| tax.is_included);
        stated.map(|basis_points| Tax { basis_points, is_included }).or(self.tax)
    }

    /// What of a total is paid when it is ordered, by the first of the rows that is had; nothing where there is none.
    #[must_use]
    pub fn deposit(&self, total: i64) -> Option<i64> {
        let row = self.had(PricedPart::Deposit).next()?;
        Some(self.share(&row.by, total)?.min(total))
    }

    /// The rows for a part of the sum that wait for nothing, or are asked for.
    fn had(&self, part: PricedPart) -> impl Iterator<Item = &PriceRow> {
        let is_had = move |row: &&PriceRow| {
            row.part == part && row.only.as_ref().is_none_or(|only| self.asked.contains(only))
        };
        self.rows.iter().filter(is_had)
    }

    /// What a row takes of a sum.
    fn share(&self, by: &By, of: i64) -> Option<i64> {
        match by {
            By::Percent(points) => Some(cents(i128::from(of) * i128::from(*points), 10_000)),
            By::Once(amount) => Some(*amount),
            _ => None,
        }
    }

    fn rounded(&self, sum: i64) -> i64 {
        let Some(Rounding { to, mode }) = self.rounding else { return sum };
        cents(divide(sum.into(), to.max(1).into(), mode) * i128::from(to), 1)
    }

    /// An amount with the currency before it.
    #[must_use]
    pub fn text(&self, amount: i64) -> String {
        let sign = if amount < 0 { "-" } else { "" };
        [sign, &self.currency, " ", &said::plain(amount.abs())].concat()
    }
}

/// A line of a price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// For what.
    pub part: PricedPart,
    /// By which name of its own: the title of an original, what an extra is called; empty for none.
    pub of: String,
    /// What of it, in words.
    pub words: String,
    /// How many.
    pub count: i64,
    /// The price of one; below nothing for a discount.
    pub each: i64,
}

impl Line {
    /// What all of it costs.
    #[must_use]
    pub const fn all(&self) -> i64 {
        self.each * self.count
    }
}

/// The price of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Price {
    /// The lines; what is alike is one line. Discounts come last, and only where nothing is missing.
    pub lines: Vec<Line>,
    /// What the plan has and the book has no price for.
    pub missing: Vec<Missing>,
    /// What all lines come to; nothing where something is missing.
    pub totals: Option<Totals>,
    /// Rows of the book for something that the stock does not have: they never count.
    pub unmatched: Vec<Unmatched>,
}

/// What the lines of a price come to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Totals {
    /// The lines before any discount.
    pub full: i64,
    /// All lines.
    pub subtotal: i64,
    /// What rounding adds; below nothing where it takes off.
    pub rounding: i64,
    /// The tax: on top of that, or within it.
    pub tax: i64,
    /// What is to be paid.
    pub total: i64,
    /// What of it is paid when it is ordered, where the book asks for a deposit.
    pub deposit: Option<i64>,
}

/// The price of a plan made from a stock, by a book.
#[must_use]
pub fn priced(plan: &Plan, figures: &Figures, stock: &Stock, book: &Book) -> Price {
    let mut price =
        Price { lines: Vec::new(), missing: Vec::new(), totals: None, unmatched: book.unmatched(stock) };
    let mut had_once = Vec::new();
    for thing in things(plan, figures, stock) {
        for priced in parts(plan, figures, stock, book, &thing) {
            let is_needed = !priced.part.is_optional() || book.rows.iter().any(|row| is_for(row, &priced));
            let words = measure::shown_size(priced.size, plan.units);
            let (part, of) = (priced.part, priced.of.clone());
            match row_for(book, &priced) {
                Some((index, By::Once(_), _)) if had_once.contains(&index) => {}
                Some((index, By::Once(_), each)) => {
                    had_once.push(index);
                    price.lines.push(Line { part, of, words: "once".to_owned(), count: 1, each });
                }
                Some((.., each)) => price.add(Line { part, of, words, count: 1, each }),
                None if is_needed => price.miss(Missing { part, of, words, has_rows: false }, book),
                None => {}
            }
        }
    }
    if price.missing.is_empty() {
        let total = |price: &Price| price.lines.iter().map(Line::all).sum();
        let full = total(&price);
        price.discount(book);
        let subtotal = total(&price);
        let (tax, total) = book.taxed(subtotal);
        let (rounding, deposit) = (book.rounded(subtotal) - subtotal, book.deposit(total));
        price.totals = Some(Totals { full, subtotal, rounding, tax, total, deposit });
    }
    price
}

impl Price {
    fn add(&mut self, line: Line) {
        let alike = |known: &&mut Line| Line { count: line.count, ..(**known).clone() } == line;
        match self.lines.iter_mut().find(alike) {
            Some(known) => known.count += 1,
            None => self.lines.push(line),
        }
    }

    fn miss(&mut self, missing: Missing, book: &Book) {
        let has_rows = book.rows.iter().any(|row| row.part == missing.part);
        let missing = Missing { has_rows, ..missing };
        if !self.missing.contains(&missing) {
            self.missing.push(missing);
        }
    }

    /// Takes off every discount that is had, each of the same lines; all together no more than they come to.
    fn discount(&mut self, book: &Book) {
        let of: i64 = self.lines.iter().filter(|line| !line.part.is_way()).map(Line::all).sum();
        let mut left = of;
        for row in book.had(PricedPart::Discount) {
            let Some(off) = book.share(&row.by, of) else { continue };
            let words = match row.by {
                By::Percent(points) => [&said::percent(points), " of ", &book.text(of)].concat(),
                _ => "once".to_owned(),
            };
            let off = off.min(left);
            left -= off;
            let of = row.only.clone().unwrap_or_default();
            self.lines.push(Line { part: PricedPart::Discount, of, words, count: 1, each: -off });
        }
    }
}

/// The most hundredths that one line comes to, so that sums of them stay whole numbers of 64 bits.
const MOST: i128 = 1_000_000_000_000_000;

fn cents(dividend: i128, divisor: i128) -> i64 {
    i64::try_from(divide(dividend, divisor, Mode::HalfAway).clamp(-MOST, MOST)).unwrap_or_default()
}

/// The row of a book by which a part is priced, by its place, with the amount.
fn row_for<'a>(book: &'a Book, priced: &Priced) -> Option<(usize, &'a By, i64)> {
    let rows = book.rows.iter().enumerate().filter(|(_, row)| is_for(row, priced));
    rows.filter_map(|(index, row)| Some((index, &row.by, amount(&row.by, priced)?))).next()
}

/// Whether a row is for a part.
fn is_for(row: &PriceRow, priced: &Priced) -> bool {
    row.part == priced.part && row.only.as_ref().is_none_or(|only| priced.only.contains(only))
}

/// What a way to price asks for a part, where it has a price for it.
fn amount(by: &By, priced: &Priced) -> Option<i64> {
    let units = |length: Length| i128::from(length.units());
    let Size { width, height } = priced.size;
    match by {
        By::Each(price) | By::Once(price) => Some(*price),
        By::Size(sizes) => {
            let turned = Size::new(height, width);
            let listed = sizes.iter().find(|(size, _)| *size == priced.size || *size == turned);
            listed.map(|entry| entry.1)
        }
        By::Area(unit, price) => {
            let square = units(unit.length()) * units(unit.length());
            Some(cents(units(width) * units(height) * i128::from(*price), square))
        }
        By::United(unit, price) => {
            Some(cents(units(width + height) * i128::from(*price), units(unit.length())))
        }
        By::Steps(steps) => steps.iter().find(|(most, _)| width + height <= *most).map(|entry| entry.1),
        By::Moulding(unit, price) => {
            Some(cents(units(priced.moulding) * i128::from(*price), units(unit.length())))
        }
        By::Percent(_) => None,
    }
}
