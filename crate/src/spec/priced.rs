//! Prices as tables: what the plan costs by a price book, and the same wall in other materials beside it.

use super::capital;
use super::lists::{List, ListRow};
use crate::field::Field;
use crate::figures::Figures;
use crate::measure::{Grade, shown, weight_alone};
use crate::plan::{self, Plan};
use crate::prices::{Book, Line, Price, compared, priced};
use crate::stock::Stock;

/// What is said where no book is open.
const NO_BOOK: &str = "No price book is open, and this program has no prices of its own: open your price book, or try the example.";
/// What is said of an example.
const EXAMPLE: &str = "This price book is an example: nobody sells at its prices.";

/// What the plan costs, and each material's price beside its weight, depth and care; pressing a material takes it.
#[must_use]
pub fn prices(plan: &Plan, figures: &Figures, stock: &Stock, book: Option<&Book>) -> Vec<List> {
    let Some(book) = book else {
        return vec![List {
            caption: "Prices".to_owned(),
            notes: vec![NO_BOOK.to_owned()],
            ..List::default()
        }];
    };
    let price = priced(plan, figures, stock, book);
    let mut notes: Vec<String> = Vec::new();
    notes.extend(book.is_example.then(|| EXAMPLE.to_owned()));
    if !price.missing.is_empty() {
        notes.push(["There is no total: ", &no_price(&price), "."].concat());
    }
    let missing = price.missing.iter().map(|missing| capital(&missing.text()));
    let as_written = missing.chain(price.unmatched.iter().map(|row| capital(&row.to_string()))).collect();
    let row = |line: &Line| {
        ListRow::plain([
            line.name(),
            line.words.clone(),
            line.count.to_string(),
            book.text(line.each),
            book.text(line.all()),
        ])
    };
    let sum = |(what, amount): (String, i64)| {
        let [none, no, nothing] = [const { String::new() }; 3];
        ListRow::plain([what, none, no, nothing, book.text(amount)])
    };
    let rows = price.lines.iter().map(row).chain(price.sums(book).into_iter().map(sum)).collect();
    let lines = List {
        caption: ["What it costs, by “", &book.name, "”"].concat(),
        columns: vec!["For", "Size", "Number", "Each", "Total"],
        rows,
        notes,
        as_written,
    };
    vec![lines, choices(plan, stock, book)]
}

fn choices(plan: &Plan, stock: &Stock, book: &Book) -> List {
    let choices = compared(plan, stock, book);
    let mut notes: Vec<String> = Vec::new();
    let rows = choices.iter().map(|choice| {
        let own = if choice.is_plans_own { ", as planned" } else { "" };
        let total = choice.price.totals.map_or(String::from("no total"), |totals| book.text(totals.total));
        if choice.price.totals.is_none() {
            notes.push(["On ", choice.material, ": ", &no_price(&choice.price), "."].concat());
        }
        ListRow {
            cells: vec![
                [choice.material, own].concat(),
                total,
                weight_alone(choice.mass.likely_mg, plan.units.first),
                shown(choice.depth, Grade::Piece, plan.units),
                choice.care.to_owned(),
            ],
            offer: (!choice.is_plans_own)
                .then(|| (Field::pieces(&plan::PIECE_MATERIAL), choice.material.to_owned())),
        }
    });
    let rows = rows.collect();
    notes.insert(
        0,
        "Whatever the plan does not state is made the usual way. Weights are calculated from densities."
            .to_owned(),
    );
    List {
        caption: "The same wall in each material".to_owned(),
        columns: vec!["Material", "Total", "Weight", "Depth", "Care"],
        rows,
        notes,
        ..List::default()
    }
}

fn no_price(price: &Price) -> String {
    ["the price book has no price for ", &price.missing_names()].concat()
}
