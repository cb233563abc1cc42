//! The stock as a file: JSON, every length as text with its unit.
//!
//! Version 1. Lengths are texts as in a plan file, such as `"16 1/2 in"` or `"41.9 cm"`; a text without a unit is in the file's
//! `units`, inches where it names none. Each list may be left out and is then what is on offer. A list has `replace`, rows
//! that stand in place of those on offer, or `add`, rows beside them; where a row of `add` has a name (of a density: a
//! material) that the list has already, it takes that row's place. `thresholds` has limits of
//! findings by their names. A key that this version does not know is refused. The form, and its JSON Schema
//! (`schema/stock.schema.json`), follow from the rows beside the stock's structs.
//!
//! ```
//! use overmantel::{length::Length, stock::Stock};
//! let stock = Stock::read(r#"{
//!     "overmantel_stock": 1,
//!     "sticks": { "replace": [{ "name": "ours", "length": "13 ft", "kerf": "1/8 in", "trim": "2 in" }] }
//! }"#).unwrap();
//! assert_eq!(stock.sticks[0].length, Length::inches(156), "13 × 12");
//! assert_eq!(Stock::read(&stock.write()).unwrap(), stock, "writing and reading is the identity");
//! ```

use super::rows::Listed;
#[cfg(feature = "schema")]
use super::thresholds::Usual;
use super::thresholds::{ALL, Amount};
use super::{
    Bar, Density, Parcel, Profile, Roll, SheetStock, SoldHanger, StandardSize, Stick, Stock, Tube, check,
    limits,
};
use crate::described::read as form;
use crate::described::{
    Absent, Choosable, Form, FormError, FormFault, Format, Member, Row, Thing, Words, maybe_filled,
    write as form_of,
};
use crate::json::Node;
use crate::length::Unit;
use crate::plan::System;

pub use super::check::{RowFault, StockError};

/// The version this module writes.
pub const VERSION: u32 = 1;

static FORMAT: Format = Format {
    file: "the stock file",
    content: "a stock",
    ours: "an Overmantel stock file",
    key: "overmantel_stock",
    version: VERSION,
    most: limits::FILE_BYTES,
};

/// The key of the limits of findings, which stand by names and not in rows.
const THRESHOLDS: &str = "thresholds";

type Read<T> = Result<T, StockError>;

/// What a file does to one list.
#[derive(Default)]
struct Change<T> {
    replace: Option<Vec<T>>,
    add: Option<Vec<T>>,
}

static REPLACE: Row =
    part("replace", "Rows that replace all the standard ones; when left out, the standard ones stay.");
static ADD: Row = part("add", "Rows in addition to those; a row with an existing name replaces that row.");
static ROWS: Row = Row::new("", "", 0, "", "", Form::List { least: 0, most: limits::ROWS, what: "rows" });

const fn part(key: &'static str, about: &'static str) -> Row {
    Row::new("", key, 0, "", about, Form::maybe(Words::NONE)).absent(Absent::Silent)
}

impl<T: Listed> Thing for Change<T> {
    fn title(&self) -> (&'static str, &'static str) {
        (T::FORM, "What a file changes in one list.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { replace, add } = self;
        vec![maybe_filled(&REPLACE, replace, &ROWS, Vec::new()), maybe_filled(&ADD, add, &ROWS, Vec::new())]
    }
}

impl<T: Listed> Change<T> {
    fn of(rows: &[T]) -> Self {
        Self { replace: Some(rows.to_vec()), add: None }
    }

    /// The list after the change.
    fn over(self, list: &'static str, offered: Vec<T>) -> Read<Vec<T>> {
        for (how, rows) in [("replace", &self.replace), ("add", &self.add)] {
            if rows.as_ref().is_some_and(|rows| rows.len() > limits::ROWS) {
                return Err(StockError::Long { list, how });
            }
        }
        let mut rows = self.replace.unwrap_or(offered);
        let added = self.add.unwrap_or_default();
        for (index, row) in added.iter().enumerate() {
            if added[..index].iter().any(|before| before.called() == row.called()) {
                return Err(StockError::Twice { list, name: row.called().to_owned() });
            }
        }
        for row in added {
            match rows.iter_mut().find(|known| known.called() == row.called()) {
                Some(known) => *known = row,
                None => rows.push(row),
            }
        }
        Ok(rows)
    }
}

/// Names the lists of a stock, in the order of a file.
macro_rules! lists {
    ($($list:ident: $type:ident, $about:literal;)*) => {
        /// What a file says, but for its version and its limits of findings.
        #[derive(Default)]
        struct StockFile {
            units: System,
            $($list: Change<$type>,)*
        }

        impl Thing for StockFile {
            fn title(&self) -> (&'static str, &'static str) {
                ("Stock", "A stock list of Overmantel: what is sold by name, and what a workshop has.")
            }

            fn members(&mut self) -> Vec<Member<'_>> {
                let Self { units, $($list),* } = self;
                vec![
                    Member::choice(&UNITS, units),
                    $(Member::thing(
                        const { &Row::thing(stringify!($list), 0, $about).absent(Absent::Silent) },
                        $list,
                    )),*
                ]
            }
        }

        impl StockFile {
            fn of(stock: &Stock) -> Self {
                Self { units: System::default(), $($list: Change::of(&stock.$list)),* }
            }

            /// What the file says, over what is on offer.
            fn over(self, offered: Stock) -> Read<Stock> {
                Ok(Stock {
                    $($list: self.$list.over(stringify!($list), offered.$list)?,)*
                    thresholds: offered.thresholds,
                })
            }
        }

        fn check(stock: &mut Stock) -> Read<()> {
            $(check::rows(stringify!($list), &mut stock.$list)?;)*
            check::densities(stock)
        }
    };
}

static UNITS: Row = Row::choice("", "units", 0, "", "The system in which a length without a unit is read.")
    .absent(Absent::Default);

lists! {
    sizes: StandardSize, "Sizes that are sold by name.";
    rolls: Roll, "Rolls that can be printed on.";
    sheets: SheetStock, "Boards, glazing and metal, as sheets to cut from.";
    mouldings: Profile, "Mouldings and floater frames by their section.";
    sticks: Stick, "Lengths in which mouldings are sold.";
    parcels: Parcel, "What carriers accept.";
    tubes: Tube, "Tubes for what is sent rolled.";
    densities: Density, "How heavy each material is.";
    bars: Bar, "Bars that canvas is stretched on.";
    hangers: SoldHanger, "Hangers that are screwed to the back.";
}

/// Reads a stock file over what is on offer.
///
/// # Errors
/// When the text is too long, is not JSON, has a key or value of the wrong form (with line and column) or a list too
/// long, is of a later version, or states a row that is out of range or has another's name.
pub fn read(text: &str) -> Read<Stock> {
    let mut node = FORMAT.open(text)?;
    let units = node.get("units");
    let units = units.and_then(|units| if let Node::Text(key) = units { System::of_key(key) } else { None });
    let bare = units.unwrap_or_default().bare_unit();
    let stated = node.take(THRESHOLDS);
    let mut file = StockFile::default();
    form::read(&mut file, &node, bare).map_err(|mut why| {
        if let (FormFault::Unknown { known, .. }, 1) = (&mut why.fault, why.way.len()) {
            known.push(THRESHOLDS);
        }
        FORMAT.wrong(&why, text)
    })?;
    let mut stock = file.over(Stock::offered())?;
    stock.thresholds = thresholds(stated, bare, text)?;
    check(&mut stock)?;
    Ok(stock)
}

/// The limits that a file moves, by their names in order.
fn thresholds(stated: Option<Node>, bare: Unit, text: &str) -> Read<Vec<(&'static str, Amount)>> {
    let kind = |name: Option<String>, node: &Node, wanted| {
        let way = [THRESHOLDS.to_owned()].into_iter().chain(name).collect();
        let fault = FormFault::Kind { given: node.kind(), wanted };
        Err(FORMAT.wrong(&FormError { way, fault }, text).into())
    };
    let mut entries = match stated {
        None => return Ok(Vec::new()),
        Some(Node::Group(entries)) => entries,
        Some(node) => return kind(None, &node, "an object in braces"),
    };
    crate::order::sort_by_key(&mut entries, |(name, _)| name.clone());
    let mut moved = Vec::new();
    for (name, node) in entries {
        let Node::Text(stated) = node else { return kind(Some(name), &node, "text such as \"16 in\"") };
        let Some(usual) = ALL.iter().find(|usual| usual.name == name) else {
            return Err(StockError::NoThreshold(name));
        };
        match usual.amount.read_alike(&stated, bare) {
            Ok(amount) if amount == usual.amount => {}
            Ok(amount) => moved.push((usual.name, amount)),
            Err(why) => return Err(StockError::Threshold { name, why }),
        }
    }
    Ok(moved)
}

/// Writes a stock file, every list in place of what is on offer; the same stock gives the same text.
#[must_use]
pub fn write(stock: &Stock) -> String {
    let mut node = form_of::write(&mut StockFile::of(stock));
    let Node::Group(entries) = &mut node else { return String::new() };
    entries.insert(0, (FORMAT.key.to_owned(), Node::Whole(VERSION.into())));
    let mut limits: Vec<_> =
        ALL.iter().map(|usual| (usual.name.to_owned(), Node::Text(stock.amount(usual).text()))).collect();
    crate::order::sort_by_key(&mut limits, |(name, _)| name.clone());
    entries.push((THRESHOLDS.to_owned(), Node::Group(limits)));
    node.pretty()
}

/// The JSON Schema (draft 2020-12) of the stock file.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    use crate::described::schema::{Lengths, entries, schema_of_list};
    let about = "The limits of findings by their names, such as `\"widest gap between pieces\": \"5 in\"`; those left out keep their usual value.";
    let limit = |usual: &Usual| {
        let kind = match usual.amount {
            Amount::Length(_) => ("$ref", Node::text("#/$defs/Text")),
            // A number as text, such as `150`, `0.75` or `2/3`.
            Amount::Number(..) => ("type", Node::text("string")),
        };
        let limit = entries(&[
            ("description", Node::Text(["By ", usual.source, "."].concat())),
            kind,
            ("default", Node::Text(usual.amount.text())),
        ]);
        (usual.name.to_owned(), Node::Group(limit))
    };
    let limits = entries(&[
        ("description", Node::text(about)),
        ("type", Node::text("object")),
        ("properties", Node::Group(ALL.iter().map(limit).collect())),
        ("additionalProperties", Node::Flag(false)),
        ("default", Node::Group(Vec::new())),
    ]);
    let schema = schema_of_list(
        &mut StockFile::default(),
        "Overmantel stock",
        &FORMAT,
        Some((THRESHOLDS, Node::Group(limits))),
        Lengths::Defined,
    );
    // The published schema keeps the names that its definitions have had.
    (2..=10).fold(schema.replace("UnitsForm", "SystemForm"), |schema, number| {
        schema.replace(&format!("List{number}Form"), &format!("ListForm{number}"))
    })
}
