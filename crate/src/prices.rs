//! Prices: what a plan costs by a maker's own price book, line by line, and the same wall in other materials beside it.
//!
//! There is no price in this program. A book is data ([`mod@file`]); a part of which it says nothing is named as having no price,
//! never guessed. Amounts are whole hundredths of the book's currency; each line is rounded once, to the nearest of them.
//!
//! # How a line is reckoned
//! - by piece: the price; - by size: the price of that very size, either way round; - by area: w h; - by united measure: w + h;
//! - by steps of the united measure: the first step that is not below it; - by length: of the moulding, by the shops' rule.
//!
//! ```
//! use overmantel::{figures::Figures, plan::Plan, prices::{Book, priced}, stock::Stock};
//! let book = Book::read(r#"{
//!     "overmantel_prices": 1, "name": "ours", "currency": "EUR",
//!     "rows": [{ "for": "paper", "by": { "square_foot": "9.00" } }, { "for": "handling", "by": { "each": "5" } }]
//! }"#).unwrap();
//! let plan = Plan::starting();
//! let price = priced(&plan, &Figures::of(&plan).unwrap(), &Stock::offered(), &book);
//! assert_eq!(price.lines[0].each, 2000, "16 × 20 in are 2 2/9 square feet");
//! assert_eq!(price.sum, 3 * (2000 + 500));
//! assert_eq!(price.unpriced, ["mat", "frame", "glass", "mount", "backing"]);
//! ```

use crate::described::Choosable;
use crate::field::Field;
use crate::fields;
use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::{Length, Unit};
use crate::making::{Thing, things};
use crate::measure;
use crate::plan::{self, Edge, Finish, Glazing, Material, Plan};
use crate::rounding::{Mode, divide};
use crate::stock::{Profile, Stock};
use crate::weigh::Mass;

pub mod file;
mod rows;

/// Limits of a price book, held when a file is read.
pub mod limits {
    /// Bytes of a file at the most.
    pub const FILE_BYTES: usize = 1024 * 1024;
    /// Rows at the most, and sizes or steps of one row.
    pub const ROWS: usize = 400;
    /// Characters of a name at the most.
    pub const NAME: usize = 80;
    /// Hundredths of the currency at the most, of one price.
    pub const AMOUNT: i64 = 100_000_000_000;
}

/// A maker's prices.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Book {
    /// What it is called.
    pub name: String,
    /// Whether it is an example that nobody sells by.
    pub is_example: bool,
    /// The currency, as it is written before an amount.
    pub currency: String,
    /// The tax, where it is shown.
    pub tax: Option<Tax>,
    /// Prices, the first that suits a part counting.
    pub rows: Vec<PriceRow>,
}

/// A tax on everything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tax {
    /// In hundredths of a percent.
    pub basis_points: u32,
    /// Whether the prices have it in them.
    pub is_included: bool,
}

/// What a price is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the parts of a piece by their plain names")]
pub enum PricedPart {
    Paper,
    Canvas,
    Aluminium,
    EdgeCarried,
    EdgeMirrored,
    EdgePlain,
    Mat,
    Frame,
    Floater,
    Glass,
    Acrylic,
    Mount,
    Backing,
    Handling,
}

impl PricedPart {
    /// Its name in a line and, with `_` for a blank, in a file.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.entry().words
    }

    /// Whether it may come at no price of its own: what is not in the book is then in another price.
    const fn is_optional(self) -> bool {
        matches!(self, Self::EdgeCarried | Self::EdgeMirrored | Self::EdgePlain | Self::Handling)
    }
}

/// A row of a book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceRow {
    /// For what.
    pub part: PricedPart,
    /// Only for the moulding of this name in the stock, or the board of this material; for any, when there is none.
    pub only: Option<String>,
    /// How it is reckoned.
    pub by: By,
}

/// How a price is reckoned; amounts in hundredths of the currency.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum By {
    /// For each piece.
    Each(i64),
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
}

impl Book {
    /// Reads a price book.
    ///
    /// # Errors
    /// What was given and what is allowed.
    pub fn read(text: &str) -> Result<Self, file::BookError> {
        file::read(text)
    }

    /// The tax on a sum, or within it, and what is to be paid.
    #[must_use]
    pub fn taxed(&self, sum: i64) -> (i64, i64) {
        let Some(Tax { basis_points, is_included }) = self.tax else { return (0, sum) };
        let points = i128::from(basis_points);
        // Of a sum that has it in it, the tax is r / (1 + r).
        let whole = if is_included { 10_000 + points } else { 10_000 };
        let tax = cents(i128::from(sum) * points, whole);
        (tax, if is_included { sum } else { sum + tax })
    }

    /// An amount with the currency before it.
    #[must_use]
    pub fn text(&self, amount: i64) -> String {
        let cents = (amount.abs() % 100 + 100).to_string();
        let sign = if amount < 0 { "-" } else { "" };
        [sign, &self.currency, " ", &(amount.abs() / 100).to_string(), ".", &cents[1..]].concat()
    }
}

/// A line of a price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// For what.
    pub part: PricedPart,
    /// What of it, in words.
    pub words: String,
    /// How many.
    pub count: i64,
    /// The price of one.
    pub each: i64,
}

/// The price of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Price {
    /// The lines; what is alike is one line.
    pub lines: Vec<Line>,
    /// Parts of the plan that the book has no price for.
    pub unpriced: Vec<&'static str>,
    /// The sum of the lines.
    pub sum: i64,
    /// The tax: on top of the sum, or within it.
    pub tax: i64,
    /// What is to be paid.
    pub total: i64,
}

impl Price {
    /// In plain lines, with the currency of its book.
    #[must_use]
    pub fn text(&self, book: &Book) -> Vec<String> {
        let mut lines = Vec::new();
        if book.is_example {
            lines.push("These prices are an example; nobody sells at them.".to_owned());
        }
        for Line { part, words, count, each } in &self.lines {
            let amounts = [": ", &book.text(*each), " each, ", &book.text(each * count)].concat();
            lines.push([&count.to_string(), " × ", part.name(), ", ", words, &amounts].concat());
        }
        lines.push(["sum ", &book.text(self.sum)].concat());
        if let Some(tax) = book.tax {
            let how = if tax.is_included { " in it" } else { " on top" };
            lines.push(["tax ", &book.text(self.tax), how].concat());
            lines.push(["to pay ", &book.text(self.total)].concat());
        }
        if !self.unpriced.is_empty() {
            lines.push(["no price in the book: ", &self.unpriced.join(", ")].concat());
        }
        lines
    }
}

/// One thing of which a part may have a price.
struct Priced {
    part: PricedPart,
    only: Vec<String>,
    size: Size,
    moulding: Length,
}

/// The price of a plan made from a stock, by a book.
#[must_use]
pub fn priced(plan: &Plan, figures: &Figures, stock: &Stock, book: &Book) -> Price {
    let mut lines: Vec<Line> = Vec::new();
    let mut unpriced: Vec<&'static str> = Vec::new();
    for thing in things(plan, figures, stock) {
        for priced in parts(plan, figures, stock, &thing) {
            let found = book.rows.iter().find_map(|row| amount(row, &priced));
            let Some(each) = found else {
                let name = priced.part.name();
                if !priced.part.is_optional() && !unpriced.contains(&name) {
                    unpriced.push(name);
                }
                continue;
            };
            let words = measure::shown_size(priced.size, plan.units);
            let alike = |line: &&mut Line| (line.part, &line.words, line.each) == (priced.part, &words, each);
            match lines.iter_mut().find(alike) {
                Some(line) => line.count += 1,
                None => lines.push(Line { part: priced.part, words, count: 1, each }),
            }
        }
    }
    let sum = lines.iter().map(|line| line.each * line.count).sum();
    let (tax, total) = book.taxed(sum);
    Price { lines, unpriced, sum, tax, total }
}

fn cents(dividend: i128, divisor: i128) -> i64 {
    i64::try_from(divide(dividend, divisor, Mode::HalfAway)).unwrap_or(i64::MAX)
}

/// What a row asks for a part, where it is for it.
fn amount(row: &PriceRow, priced: &Priced) -> Option<i64> {
    let is_for = row.part == priced.part && row.only.as_ref().is_none_or(|only| priced.only.contains(only));
    if !is_for {
        return None;
    }
    let units = |length: Length| i128::from(length.units());
    let Size { width, height } = priced.size;
    match &row.by {
        By::Each(price) => Some(*price),
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
    }
}

/// What of a thing may have a price.
fn parts(plan: &Plan, figures: &Figures, stock: &Stock, thing: &Thing) -> Vec<Priced> {
    let mut found = Vec::new();
    let moulding = thing.rails.map_or(Length::ZERO, |(_, moulding)| moulding.by_rule);
    let mut add = |part, only: Vec<String>, size| found.push(Priced { part, only, size, moulding });
    for &piece in &thing.pieces {
        let (stated, sizes) = (&plan.pieces[piece], &figures.build_ups[piece]);
        match &stated.finish {
            Finish::Paper(_) => add(PricedPart::Paper, Vec::new(), sizes.sheet.size),
            Finish::Canvas(canvas) => {
                add(PricedPart::Canvas, Vec::new(), sizes.image.size);
                let edge = match canvas.edge {
                    Edge::Carried => PricedPart::EdgeCarried,
                    Edge::Mirrored => PricedPart::EdgeMirrored,
                    Edge::Plain(_) => PricedPart::EdgePlain,
                };
                add(edge, Vec::new(), sizes.image.size);
            }
            Finish::Aluminium(_) => add(PricedPart::Aluminium, Vec::new(), sizes.image.size),
            Finish::Original(_) => {}
        }
    }
    let (first, sizes) = (&plan.pieces[thing.pieces[0]], &figures.build_ups[thing.pieces[0]]);
    // Boards and glazing are as large as what goes into the frame.
    let inside = sizes.frame.as_ref().map(|frame| frame.nominal);
    let inside = inside.or(sizes.mat.as_ref().map(|mat| mat.board.size)).unwrap_or(sizes.sheet.size);
    if let Some(framing) = first.finish.framing() {
        let of = |material: Material| vec![material.name().to_owned()];
        if framing.mat.is_some() {
            add(PricedPart::Mat, Vec::new(), inside);
        }
        if let Some(frame) = &framing.frame {
            let is_it =
                |row: &&Profile| !row.is_floater && (row.face, row.depth) == (frame.face, frame.depth);
            let names = stock.mouldings.iter().filter(is_it).map(|row| row.name.clone());
            add(PricedPart::Frame, names.chain(of(frame.material)).collect(), inside);
        }
        match framing.glazing {
            Glazing::None => {}
            Glazing::Glass(_) => add(PricedPart::Glass, Vec::new(), inside),
            Glazing::Acrylic(_) => add(PricedPart::Acrylic, Vec::new(), inside),
        }
        for (part, board) in [(PricedPart::Mount, framing.mount), (PricedPart::Backing, framing.backing)] {
            if let Some(board) = board {
                add(part, of(board.material), inside);
            }
        }
    }
    if let Some(floater) = first.finish.floater() {
        let is_it = |row: &&Profile| row.is_floater && (row.face, row.depth) == (floater.face, floater.depth);
        let names = stock.mouldings.iter().filter(is_it).map(|row| row.name.clone());
        add(PricedPart::Floater, names.collect(), sizes.outside);
    }
    add(PricedPart::Handling, Vec::new(), sizes.outside);
    found
}

/// A way to make what hangs on a wall, beside others.
#[derive(Clone, Debug, PartialEq)]
pub struct PricedMaterial {
    /// What it is made of, as the plan's field says it.
    pub material: &'static str,
    /// Whether it is as the plan has it.
    pub is_plans_own: bool,
    /// What it costs.
    pub price: Price,
    /// What all of it weighs.
    pub mass: Mass,
    /// How far the deepest piece stands off the wall.
    pub depth: Length,
    /// What it asks of whoever has it.
    pub care: &'static str,
}

/// What each material asks for (common practice, no source).
const CARE: [(&str, &str); 3] = [
    ("paper", "behind glazing, out of the sun and of damp rooms; dust the glazing with a dry cloth"),
    ("canvas", "away from heat and damp; dust it with a soft dry brush, nothing presses on its face"),
    ("aluminium", "wipe it with a soft damp cloth; its edges can cut, so pad them when it is carried"),
];

/// What a material asks of whoever has it.
#[must_use]
pub fn care_of(material: &str) -> Option<&'static str> {
    CARE.iter().find(|row| row.0 == material).map(|row| row.1)
}

/// The same wall on paper, on canvas and on aluminium: as the plan has it, and the others as they usually are made. What has no answer
/// is left out.
#[must_use]
pub fn compared(plan: &Plan, stock: &Stock, book: &Book) -> Vec<PricedMaterial> {
    let own = |material: &str| {
        plan.pieces.iter().all(|piece| match &piece.finish {
            Finish::Paper(_) => material == "paper",
            Finish::Canvas(_) => material == "canvas",
            Finish::Aluminium(_) => material == "aluminium",
            Finish::Original(_) => false,
        })
    };
    let choice = |(material, care): (&'static str, &'static str)| {
        let made = fields::write(plan, stock, Field::pieces(&plan::PIECE_MATERIAL), material).ok()?;
        let figures = Figures::of(&made).ok()?;
        let masses = things(&made, &figures, stock).into_iter().map(|thing| thing.mass);
        Some(PricedMaterial {
            material,
            is_plans_own: own(material),
            price: priced(&made, &figures, stock, book),
            mass: masses.sum(),
            depth: figures.build_ups.iter().map(|sizes| sizes.depth).max().unwrap_or_default(),
            care,
        })
    };
    CARE.into_iter().filter_map(choice).collect()
}
