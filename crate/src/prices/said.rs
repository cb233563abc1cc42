//! A price in plain lines, and what is missing in it with the row to add.

use super::{Book, Line, Price, PricedPart, Rounding, Totals};
use crate::described::Choosable;
use crate::rounding::Mode;

/// Something that a plan has and a book has no price for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// Which part.
    pub part: PricedPart,
    /// By which name of its own; empty for none.
    pub of: String,
    /// Of what size, in the plan's units.
    pub words: String,
    /// Whether the book has rows for such a part of which none suits this one.
    pub has_rows: bool,
}

impl Missing {
    /// What it is.
    #[must_use]
    pub fn name(&self) -> String {
        named(self.part, &self.of)
    }

    /// The row to add to the book, without its amount.
    ///
    /// ```
    /// use overmantel::{plan::Coating, prices::{Missing, PricedPart}};
    /// let missing = |part, of: &str| Missing { part, of: of.to_owned(), words: "50 × 70 cm".to_owned(), has_rows: false };
    /// assert_eq!(missing(PricedPart::Glass(Coating::Uv), "").row(), r#"{ "for": "glass_uv", "by": { "each": "AMOUNT" } }"#);
    /// assert_eq!(missing(PricedPart::Original, "Low water").row(), r#"{ "for": "original", "only": "Low water", "by": { "each": "AMOUNT" } }"#);
    /// ```
    #[must_use]
    pub fn row(&self) -> String {
        let only = match self.of.replace('\\', "\\\\").replace('"', "\\\"") {
            of if of.is_empty() => String::new(),
            of => ["\"only\": \"", &of, "\", "].concat(),
        };
        ["{ \"for\": \"", self.part.entry().key, "\", ", &only, "\"by\": { \"each\": \"AMOUNT\" } }"].concat()
    }

    /// What is missing and what to add.
    #[must_use]
    pub fn text(&self) -> String {
        let why = if self.has_rows { " (no row fits it)" } else { "" };
        let row = self.row();
        ["missing: ", &self.name(), ", ", &self.words, why, "; add a row such as ", &row].concat()
    }
}

impl Line {
    /// What it is for.
    #[must_use]
    pub fn name(&self) -> String {
        named(self.part, &self.of)
    }
}

/// A part with the name of its own, where it has one.
fn named(part: PricedPart, of: &str) -> String {
    match (part, of) {
        (_, "") => part.name().to_owned(),
        (PricedPart::Extra, _) => of.to_owned(),
        _ => [part.name(), " \"", of, "\""].concat(),
    }
}

impl Price {
    /// In plain lines, with the currency of its book. Where something is missing, there is no total, and each missing thing is
    /// named with the row to add.
    #[must_use]
    pub fn text(&self, book: &Book) -> Vec<String> {
        let mut lines = Vec::new();
        if book.is_example {
            lines.push("These prices are an example; nobody sells at them.".to_owned());
        }
        for line in &self.lines {
            let amounts = [": ", &book.text(line.each), " each, ", &book.text(line.all())].concat();
            lines.push([&line.count.to_string(), " × ", &line.name(), ", ", &line.words, &amounts].concat());
        }
        let sums = self.sums(book).into_iter();
        lines.extend(sums.map(|(what, amount)| [&what, " ", &book.text(amount)].concat()));
        if !self.missing.is_empty() {
            lines.push(["no total: the price book has no price for ", &self.missing_names()].concat());
            lines.extend(self.missing.iter().map(Missing::text));
        }
        lines
    }

    /// The names of what is missing, each once, in one text.
    #[must_use]
    pub fn missing_names(&self) -> String {
        let mut names: Vec<String> = Vec::new();
        for name in self.missing.iter().map(Missing::name) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names.join(", ")
    }

    /// What stands below the lines, from the subtotal to the total, each with its amount; nothing where something is missing.
    #[must_use]
    pub fn sums(&self, book: &Book) -> Vec<(String, i64)> {
        let Some(Totals { subtotal, rounding, tax, total, deposit, .. }) = self.totals else {
            return Vec::new();
        };
        let mut sums = Vec::new();
        let rate = book.taxes();
        let is_taxed_on_top = rate.is_some_and(|tax| !tax.is_included);
        if book.rounding.is_some() || is_taxed_on_top {
            sums.push(("subtotal".to_owned(), subtotal));
        }
        if let Some(Rounding { to, mode }) = book.rounding {
            let way = match mode {
                Mode::Up => "up to the next ",
                Mode::Down => "down to the last ",
                Mode::HalfAway => "to the nearest ",
            };
            sums.push((["rounded ", way, &plain(to)].concat(), rounding));
        }
        let points = rate.map_or(0, |tax| i64::from(tax.basis_points));
        if is_taxed_on_top {
            sums.push((["tax, ", &percent(points)].concat(), tax));
        }
        sums.push(("total".to_owned(), total));
        if rate.is_some() && !is_taxed_on_top {
            sums.push((["including tax, ", &percent(points)].concat(), tax));
        }
        if let Some(deposit) = deposit {
            sums.push(("deposit, when you order".to_owned(), deposit));
            sums.push(("rest, before it is sent".to_owned(), total - deposit));
        }
        sums
    }
}

/// An amount with two decimals.
pub(super) fn plain(amount: i64) -> String {
    let cents = (amount.abs() % 100 + 100).to_string();
    [&(amount / 100).to_string(), ".", &cents[1..]].concat()
}

/// Hundredths of a percent, with no more decimals than it takes.
pub(super) fn percent(points: i64) -> String {
    let text = plain(points);
    let text = text.strip_suffix(".00").unwrap_or(&text);
    let text = if text.contains('.') { text.strip_suffix('0').unwrap_or(text) } else { text };
    [text, " %"].concat()
}

/// What may be asked for, as the end of a message.
pub(super) fn waiting(known: &[String]) -> String {
    if known.is_empty() {
        "it has no rows to choose by name".to_owned()
    } else {
        ["it has \"", &known.join("\", \""), "\""].concat()
    }
}
