//! Rows of a book for something that there is not: they never count, and whoever wrote them is told.

use super::{Book, PricedPart};
use crate::colour::Colour;
use crate::plan::{BOARD_MATERIALS, MOULDING_MATERIALS, Material};
use crate::stock::{self, Named, Profile, Stock};
use std::fmt;

/// A row that is only for something that there is not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmatched {
    /// Which row of the book, counted from one.
    pub row: usize,
    /// For which part.
    pub part: PricedPart,
    /// What it is only for.
    pub name: String,
    /// What there is; empty where a row for such a part can't be only for something.
    pub known: Vec<String>,
}

impl fmt::Display for Unmatched {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { row, part, name, known } = self;
        let part = part.name();
        write!(f, "the price book, row {row}: ")?;
        if known.is_empty() {
            return write!(
                f,
                "a row for {part} can't be only for \"{name}\", so it never counts; leave out \"only\""
            );
        }
        let known = known.join("\", \"");
        write!(f, "there is no {part} \"{name}\", so this row never counts; there are \"{known}\"")
    }
}

impl Book {
    /// The rows that are only for something that a stock does not have. Originals are by their titles, of which a plan has some.
    #[must_use]
    pub fn unmatched(&self, stock: &Stock) -> Vec<Unmatched> {
        let mut found = Vec::new();
        for (index, row) in self.rows.iter().enumerate() {
            let Some(name) = row.only.as_ref().filter(|_| row.part != PricedPart::Original) else { continue };
            if row.part.may_wait() {
                continue;
            }
            let known = known(row.part, stock);
            let is_code =
                matches!(row.part, PricedPart::Mat | PricedPart::EdgePlain) && Colour::parse(name).is_some();
            if !is_code && !known.contains(name) {
                found.push(Unmatched { row: index + 1, part: row.part, name: name.clone(), known });
            }
        }
        found
    }
}

/// What a row for a part may be only for.
fn known(part: PricedPart, stock: &Stock) -> Vec<String> {
    let mouldings = |is_floater: bool| {
        let rows = stock.mouldings.iter().filter(move |row| row.is_floater == is_floater);
        let mut names: Vec<String> = Vec::new();
        for name in rows.flat_map(Profile::names) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    };
    let with = |mut names: Vec<String>, materials: &[Material]| {
        for name in materials.iter().map(|material| material.name()) {
            if names.iter().all(|known| known != name) {
                names.push(name.to_owned());
            }
        }
        names
    };
    let colours = |list: &[Named]| list.iter().map(|named| named.name.to_owned()).collect();
    match part {
        PricedPart::Frame => with(mouldings(false), &MOULDING_MATERIALS),
        PricedPart::Floater => mouldings(true),
        PricedPart::Mount | PricedPart::Backing => with(Vec::new(), &BOARD_MATERIALS),
        PricedPart::Mat => colours(&stock::MATS),
        PricedPart::EdgePlain => colours(&stock::EDGES),
        _ => Vec::new(),
    }
}
