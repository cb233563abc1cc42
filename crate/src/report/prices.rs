//! Prices in a report.

use super::{Measure, Weight, measure, weight};
use crate::prices::{Book, Price, PricedMaterial};
use serde::Serialize;

/// What a plan costs by a price book.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel prices"))]
pub struct Prices {
    /// The plan's title.
    pub title: String,
    /// The book's name.
    pub book: String,
    /// Whether the book is an example that nobody sells by.
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
    /// Its lines.
    pub lines: Vec<LineReport>,
    /// Parts of the plan that the book has no price for.
    pub unpriced: Vec<&'static str>,
    /// The sum of the lines.
    pub sum: String,
    /// The tax, on top of the sum or within it; null when the book shows none.
    pub tax: Option<TaxReport>,
    /// What is to be paid.
    pub total: String,
}

/// A tax.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TaxReport {
    /// How much, to the nearest hundredth of the currency.
    pub amount: String,
    /// Whether the sum has it in it.
    pub included: bool,
}

/// A line of a price.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LineReport {
    /// For which part.
    pub part: &'static str,
    /// Of what size, in the plan's units.
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
    /// Whether it is as the plan has it; otherwise it is made as is usual.
    pub as_planned: bool,
    /// What it costs.
    pub price: PriceReport,
    /// What all of it weighs.
    pub weight: Weight,
    /// How far the deepest piece stands off the wall.
    pub depth: Measure,
    /// What it asks of whoever has it.
    pub care: &'static str,
}

fn amount(cents: i64) -> String {
    let rest = (cents.abs() % 100 + 100).to_string();
    format!("{}.{}", cents / 100, &rest[1..])
}

pub(super) fn price_report(price: &Price, book: &Book) -> PriceReport {
    let line = |line: &crate::prices::Line| LineReport {
        part: line.part.name(),
        size: line.words.clone(),
        count: line.count,
        each: amount(line.each),
        all: amount(line.each * line.count),
    };
    PriceReport {
        lines: price.lines.iter().map(line).collect(),
        unpriced: price.unpriced.clone(),
        sum: amount(price.sum),
        tax: book.tax.map(|tax| TaxReport { amount: amount(price.tax), included: tax.is_included }),
        total: amount(price.total),
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
