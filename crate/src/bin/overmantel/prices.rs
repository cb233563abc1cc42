//! `overmantel prices`: what a plan costs by a price book, and the same wall in other materials.

use super::failure::{Failure, in_file};
use clap::Args;
use overmantel::measure::{Grade, shown, weight};
use overmantel::prices::{Book, Price, PricedMaterial, compared, priced};
use overmantel::{figures::Figures, plan::Plan, report};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

pub(crate) const HELP: &str = "\
A price book is your own JSON file: each row says which part it is for and how its price is calculated. `overmantel schema price-book` prints its format.
  { \"overmantel_prices\": 1, \"name\": \"ours\", \"currency\": \"EUR\", \"tax\": { \"percent\": \"20\", \"included\": true },
    \"rows\": [ { \"for\": \"canvas\", \"by\": { \"square_metre\": \"120\" } },
              { \"for\": \"frame\", \"only\": \"oak\", \"by\": { \"metre\": \"30\" } },
              { \"for\": \"frame\", \"by\": { \"united_inch\": \"1.20\" } },
              { \"for\": \"handling\", \"by\": { \"each\": \"15\" } } ] }
The first row that fits a part counts. A part without a row has no price: it is listed with the row to add, and there is no total.

  { \"for\": \"original\", \"only\": \"Low water\", \"by\": { \"each\": \"900\" } }       the work itself, by its title or the name of its file
  { \"for\": \"glass_uv\", \"by\": { \"united_inch\": \"0.90\" } }                    coated glazing has its own rows
  { \"for\": \"extra\", \"only\": \"varnish\", \"by\": { \"united_inch\": \"0.50\" } }    only with --with varnish
  { \"for\": \"shipping\", \"only\": \"abroad\", \"by\": { \"once\": \"60\" } }           packing, shipping and hanging: once, each or by size
  { \"for\": \"discount\", \"only\": \"regular\", \"by\": { \"percent\": \"10\" } }       of all lines except packing, shipping and hanging
  \"rounding\": { \"to\": \"5\", \"mode\": \"up\" }, beside \"rows\"              the subtotal: up, down or nearest, before tax on top

Exit codes: 0 everything has a price; 1 the plan is not possible or a file can't be read; 2 the command was not understood;
3 something of the plan has no price in the book, so there is no total.

Examples:
  overmantel prices plan.json --book ours.json --with varnish --with abroad
  overmantel prices plan.json --book ours.json --compare
      the same wall on paper, canvas and aluminium: price, weight, depth and care
  overmantel prices plan.json --book ours.json --json | jq '.price.total'";

/// The plan and the price book.
#[derive(Args)]
pub(crate) struct PricesOf {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// Your price book
    #[arg(long, value_name = "FILE")]
    book: PathBuf,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// Something from the book to add by its name: an extra, a way of shipping, a discount; can be repeated
    #[arg(long, value_name = "NAME")]
    with: Vec<String>,
    /// Compare with the same wall on paper, on canvas and on aluminium
    #[arg(long)]
    compare: bool,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// What a script is told when something has no price.
pub(super) const UNPRICED: u8 = 3;

pub(crate) fn run(stated: &PricesOf) -> Result<ExitCode, Failure> {
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    let book = asked(&stated.book, &stated.with)?;
    let price = priced(&plan, &figures, &stock, &book);
    let choices = if stated.compare { compared(&plan, &stock, &book) } else { Vec::new() };
    if stated.json {
        let text = serde_json::to_string_pretty(&report::prices(&plan.title, &book, &price, &choices))?;
        super::say_json(
            &(text
                + "
"),
        )?;
    } else {
        super::say(&in_words(&plan, &book, &price, &choices))?;
    }
    warn(&price);
    Ok(if price.missing.is_empty() { ExitCode::SUCCESS } else { ExitCode::from(UNPRICED) })
}

/// A price book with what is asked for.
pub(super) fn asked(path: &Path, with: &[String]) -> Result<Book, Failure> {
    let mut book = super::files::read_book(path)?;
    for name in with {
        book.ask_for(name, true).map_err(in_file(super::files::named(path)))?;
    }
    Ok(book)
}

/// Says which rows of the book never count.
pub(super) fn warn(price: &Price) {
    for row in &price.unmatched {
        super::tell(row);
    }
}

fn in_words(plan: &Plan, book: &Book, price: &Price, choices: &[PricedMaterial]) -> String {
    let mut text = format!("{}, by \"{}\"\n", plan.title, book.name);
    for line in price.text(book) {
        text += &format!("  {line}\n");
    }
    let is_left = |(_, name): &(_, &str)| book.asked.iter().all(|asked| asked != name);
    let left: Vec<&str> = book.waiting().into_iter().filter(is_left).map(|(_, name)| name).collect();
    if !left.is_empty() {
        text += &format!("  not chosen: {}\n", left.join(", "));
    }
    for choice in choices {
        text += &format!(
            "\non {}{}\n  {}; about {}; {} deep\n  {}\n",
            choice.material,
            if choice.is_plans_own { ", as planned" } else { ", made the usual way" },
            match choice.price.totals {
                Some(totals) => book.text(totals.total),
                None => format!("no total: no price for {}", choice.price.missing_names()),
            },
            weight(choice.mass, plan.units),
            shown(choice.depth, Grade::Piece, plan.units),
            choice.care
        );
    }
    text
}
