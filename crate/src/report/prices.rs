//! Prices in a report.

use super::{Measure, Weight, measure, weight};
use crate::described::Choosable;
use crate::prices::{Book, Line, Missing, Price, PricedMaterial, PricedPart};
use serde::Serialize;

/// What a plan costs by a price book.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel prices"))]
pub struct Prices {
    /// The version of this form, a whole number: 1. It rises when a name goes or changes its meaning; new names come without that.
    pub version: u8,
    /// The plan's title.
    pub title: String,
    /// The book's name.
    pub book: String,
    /// Whether the book is only an example: nobody sells at its prices.
    pub example: bool,
    /// Its currency.
    pub currency: String,
    /// What the plan costs.
    pub price: PriceReport,
    /// The same wall in each material; empty unless asked for.
    pub choices: Vec<ChoiceReport>,
}

/// A price, line by line; amounts as text with two decimals.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PriceReport {
    /// Its lines; discounts come last, as negative amounts.
    pub lines: Vec<LineReport>,
    /// What the plan has and the book has no price for; then there is no total.
    pub missing: Vec<MissingReport>,
    /// What can be added by name, and whether it was added.
    pub extras: Vec<ExtraReport>,
    /// Rows of the book for things that do not exist, in words; they never count.
    pub unmatched: Vec<String>,
    /// The subtotal: all lines together; null where a price is missing.
    pub subtotal: Option<String>,
    /// What the book's rounding adds to that or subtracts from it; null where a price is missing.
    pub rounding: Option<String>,
    /// The tax, on top of that or included in it; null when the book shows none or a price is missing.
    pub tax: Option<TaxReport>,
    /// The total; null where a price is missing.
    pub total: Option<String>,
    /// What of it is paid when it is ordered; null when the book asks for no deposit or a price is missing.
    pub deposit: Option<String>,
}

/// Something that has no price.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MissingReport {
    /// Which part, by its name in a price book.
    pub part: &'static str,
    /// Its own name, such as the title of an original; empty for none.
    pub name: String,
    /// Its size, in the plan's units.
    pub size: String,
    /// The row to add to the book, without its amount.
    pub row: String,
}

/// Something that can be added by name.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ExtraReport {
    /// The part it is for.
    pub part: &'static str,
    /// Its name.
    pub name: String,
    /// Whether it was added.
    pub asked: bool,
}

/// A tax.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TaxReport {
    /// How much, to the nearest hundredth of the currency.
    pub amount: String,
    /// Whether the total includes it.
    pub included: bool,
}

/// A line of a price.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LineReport {
    /// The part it is for.
    pub part: &'static str,
    /// Its own name, such as the title of an original; empty for none.
    pub name: String,
    /// Its size, in the plan's units; or that it counts once.
    pub size: String,
    /// How many.
    pub count: i64,
    /// The price of one, to the nearest hundredth of the currency.
    pub each: String,
    /// The price of all.
    pub all: String,
}

/// The same wall in a material.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ChoiceReport {
    /// Which.
    pub material: &'static str,
    /// Whether it is the plan's own material; otherwise it is made the usual way.
    pub as_planned: bool,
    /// What it costs.
    pub price: PriceReport,
    /// What all of it weighs.
    pub weight: Weight,
    /// How far the deepest piece projects from the wall.
    pub depth: Measure,
    /// How to look after it.
    pub care: &'static str,
}

fn amount(cents: i64) -> String {
    let rest = (cents.abs() % 100 + 100).to_string();
    let sign = if cents < 0 { "-" } else { "" };
    format!("{sign}{}.{}", cents.abs() / 100, &rest[1..])
}

pub(super) fn price_report(price: &Price, book: &Book) -> PriceReport {
    let line = |line: &Line| LineReport {
        part: line.part.name(),
        name: line.of.clone(),
        size: line.words.clone(),
        count: line.count,
        each: amount(line.each),
        all: amount(line.all()),
    };
    let missing = |missing: &Missing| MissingReport {
        part: missing.part.entry().key,
        name: missing.of.clone(),
        size: missing.words.clone(),
        row: missing.row(),
    };
    let extra = |(part, name): (PricedPart, &str)| ExtraReport {
        part: part.entry().key,
        name: name.to_owned(),
        asked: book.asked.iter().any(|asked| asked == name),
    };
    let totals = price.totals;
    let tax = book.taxes().zip(totals);
    PriceReport {
        lines: price.lines.iter().map(line).collect(),
        missing: price.missing.iter().map(missing).collect(),
        extras: book.waiting().into_iter().map(extra).collect(),
        unmatched: price.unmatched.iter().map(ToString::to_string).collect(),
        subtotal: totals.map(|totals| amount(totals.subtotal)),
        rounding: totals.map(|totals| amount(totals.rounding)),
        tax: tax.map(|(tax, totals)| TaxReport { amount: amount(totals.tax), included: tax.is_included }),
        total: totals.map(|totals| amount(totals.total)),
        deposit: totals.and_then(|totals| totals.deposit).map(amount),
    }
}

/// Reports what a plan costs, and the same wall in other materials.
#[must_use]
pub fn prices(title: &str, book: &Book, price: &Price, choices: &[PricedMaterial]) -> Prices {
    let choice = |choice: &PricedMaterial| ChoiceReport {
        material: choice.material,
        as_planned: choice.is_plans_own,
        price: price_report(&choice.price, book),
        weight: weight(choice.mass),
        depth: measure(choice.depth),
        care: choice.care,
    };
    Prices {
        version: super::basic::VERSION,
        title: title.to_owned(),
        book: book.name.clone(),
        example: book.is_example,
        currency: book.currency.clone(),
        price: price_report(price, book),
        choices: choices.iter().map(choice).collect(),
    }
}

/// The JSON Schema (draft 2020-12) of the prices.
#[cfg(feature = "schema")]
#[must_use]
pub fn prices_schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(Prices)).unwrap_or_default() + "\n"
}
