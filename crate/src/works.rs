//! Works: a body of work as a list, and which of it can be printed how large.
//!
//! A list is CSV or JSON with the columns of [`column::COLUMNS`]. What is wrong with a cell is a [`Problem`], and everything else of the list
//! still stands; columns and rows that are nobody's business here are kept, and a list that is written back is the same, byte for byte, but for what
//! was set. Files' own headers say what a list leaves out ([`matched`]); [`survey`](mod@survey) says which work prints at which size.
//!
//! ```
//! use overmantel::works::Works;
//! let list = "identifier;title;dateCreated;width (cm);height (cm);file;widthPx;heightPx\n\
//!             W-01;Ebb near the mole;2023;60;79,5;ebb.jpg;6000;8000\n\
//!             W-02;Two lanterns;last year;;;lanterns.jpg;;\n";
//! let works = Works::read(list)?;
//! assert_eq!(works.works.len(), 2);
//! assert_eq!(works.works[0].size.unwrap().height, overmantel::length::Length::mm(795));
//! let [problem] = &works.problems[..] else { panic!() };
//! assert!(problem.to_string().starts_with("row 3, dateCreated: \"last year\" is not a date"));
//! assert_eq!(works.write(), list, "nothing was set, so nothing is changed");
//! # Ok::<(), overmantel::works::ListError>(())
//! ```

use crate::geometry::Size;
use crate::json::JsonError;
use crate::length::Length;
use crate::plan::Focus;
use std::fmt;

mod cell;
pub mod column;
mod created;
mod listed;
pub mod matched;
pub mod palette;
mod problem;
pub mod suited;
pub mod survey;
mod table;

pub use cell::{Availability, Edition, Signed};
pub use column::{COLUMNS, Column, Key};
pub use created::Created;
pub use palette::Palette;
pub use problem::{Fault, Problem};

/// Limits of a list of works.
pub mod limits {
    /// Bytes of a list at most.
    pub const FILE_BYTES: usize = 16 * 1024 * 1024;
    /// Works of a list at most.
    pub const WORKS: usize = 5_000;
    /// Columns of a list at most.
    pub const COLUMNS: usize = 200;
    /// Characters of a name, such as a title, at most: those of a picture in a plan.
    pub const NAME: usize = crate::plan::limits::NAME;
    /// Characters of any other text at most.
    pub const TEXT: usize = 4_000;
    /// Problems that are told at most.
    pub const PROBLEMS: usize = 1_000;
}

/// A work, as a list has it. What is not stated is empty or none.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// Its row, as spreadsheets count them: the names of the columns are row 1. In JSON its number, from 1.
    pub row: usize,
    /// What it is called by in the studio's own records.
    pub identifier: String,
    /// Its title.
    pub title: String,
    /// Who made it.
    pub creator: String,
    /// When it was made.
    pub created: Option<Created>,
    /// What it is made with, such as oil on linen.
    pub medium: String,
    /// Width and height of the original.
    pub size: Option<Size>,
    /// Depth of the original.
    pub depth: Option<Length>,
    /// Whether the original can be had.
    pub availability: Option<Availability>,
    /// Which print of an edition it is, and how many there are.
    pub edition: Option<Edition>,
    /// Price of the original, in hundredths.
    pub price: Option<i64>,
    /// The currency of the price.
    pub currency: String,
    /// The name of its file.
    pub file: String,
    /// Pixels of the file, upright.
    pub px: Option<(u32, u32)>,
    /// What must be kept in the picture.
    pub subject: Option<Focus>,
    /// Where it is signed.
    pub signature: Option<Signed>,
    /// Its main colours.
    pub palette: Option<Palette>,
    /// Anything else.
    pub notes: String,
}

impl Work {
    /// What it is called in a sentence: its title, otherwise its identifier, its file or its row.
    #[must_use]
    pub fn name(&self) -> String {
        let texts = [&self.title, &self.identifier, &self.file];
        let found = texts.into_iter().find(|text| !text.is_empty());
        found.map_or_else(|| format!("row {}", self.row), Clone::clone)
    }

    /// Whether the list says that the original can be had.
    #[must_use]
    pub fn is_available(&self) -> bool {
        self.availability == Some(Availability::Available)
    }
}

/// A list of works.
#[derive(Clone, Debug, PartialEq)]
pub struct Works {
    /// The works, in the order of the list.
    pub works: Vec<Work>,
    /// What is wrong with single cells and rows, in the order of the list.
    pub problems: Vec<Problem>,
    source: Source,
}

/// What a list was read from.
#[derive(Clone, Debug, PartialEq)]
enum Source {
    /// Rows and columns.
    Table(table::Table),
    /// JSON.
    Listed(listed::Listed),
}

/// Why a text is no list of works.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ListError {
    /// There is nothing in it.
    Empty,
    /// None of its columns is known.
    NoColumns(String),
    /// It has too many columns.
    Columns(usize),
    /// It has too many works.
    Works(usize),
    /// It has too many bytes.
    Bytes(usize),
    /// It is not JSON.
    Json(#[from] JsonError),
    /// It is JSON, and no list of works.
    NotAList,
    /// It is of another version.
    Version(String),
}

impl fmt::Display for ListError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use crate::quoted::short;
        match self {
            Self::Empty => f.write_str(
                "the list of works is empty; write a first row with the names of the columns, such as identifier,title,dateCreated,file",
            ),
            Self::NoColumns(first) => write!(
                f,
                "the first row of the list of works is \"{}\", and none of its names is that of a column; begin with names such as identifier,title,dateCreated,file",
                short(first)
            ),
            Self::Columns(given) => write!(
                f,
                "the list of works has {given} columns, and at most {} are allowed; delete some",
                limits::COLUMNS
            ),
            Self::Works(given) => write!(
                f,
                "the list has {given} works, and at most {} are allowed; divide it into several lists",
                limits::WORKS
            ),
            Self::Bytes(given) => write!(
                f,
                "the list of works has {given} bytes, and at most {} are allowed; divide it into several lists",
                limits::FILE_BYTES
            ),
            Self::Json(why) => write!(f, "the list of works can't be read: {why}"),
            Self::NotAList => f.write_str(
                "the list of works is JSON in another form; write { \"overmantel_works\": 1, \"works\": [ … ] } with an object for each work",
            ),
            Self::Version(given) => write!(
                f,
                "the list of works is of version {}, and this program reads version {VERSION}; get a later one",
                short(given)
            ),
        }
    }
}

/// The version of a list in JSON.
pub const VERSION: u32 = 1;

impl Works {
    /// Reads a list, CSV or JSON; lengths without a unit are in the list's own, otherwise in inches.
    ///
    /// # Errors
    /// When it is no list at all; what is wrong with single cells is in [`Works::problems`].
    pub fn read(text: &str) -> Result<Self, ListError> {
        Self::read_in(text, crate::length::Unit::Inch)
    }

    /// Reads a list, where lengths without a unit are in this one, unless the list names another.
    ///
    /// # Errors
    /// As [`Works::read`].
    pub fn read_in(text: &str, bare: crate::length::Unit) -> Result<Self, ListError> {
        if text.len() > limits::FILE_BYTES {
            return Err(ListError::Bytes(text.len()));
        }
        let begin = text.trim_start_matches('\u{feff}').trim_start();
        let (source, records, mut problems) = if begin.starts_with(['{', '[']) {
            let (listed, records) = listed::Listed::read(text, bare)?;
            (Source::Listed(listed), records, Vec::new())
        } else {
            let (table, records, problems) = table::Table::read(text, bare)?;
            (Source::Table(table), records, problems)
        };
        if records.len() > limits::WORKS {
            return Err(ListError::Works(records.len()));
        }
        let works: Vec<Work> = records.iter().map(|record| cell::work(record, &mut problems)).collect();
        cell::twice(&works, &mut problems);
        crate::order::sort_by_key(&mut problems, |problem| problem.row);
        Ok(Self { works, problems, source })
    }

    /// A list without works, as CSV with the columns that a folder of pictures can fill.
    #[must_use]
    pub fn empty() -> Self {
        let keys = [Key::Title, Key::Creator, Key::DateCreated, Key::File, Key::WidthPx, Key::HeightPx];
        let source = Source::Table(table::Table::of(&keys));
        Self { works: Vec::new(), problems: Vec::new(), source }
    }

    /// Whether the list is JSON, otherwise it is CSV.
    #[must_use]
    pub const fn is_json(&self) -> bool {
        matches!(self.source, Source::Listed(_))
    }

    /// Sets the pixels of a work's file.
    pub fn set_px(&mut self, work: usize, px: (u32, u32)) {
        self.set(work, Key::WidthPx, &px.0.to_string());
        self.set(work, Key::HeightPx, &px.1.to_string());
        if let Some(work) = self.works.get_mut(work) {
            work.px = Some(px);
        }
    }

    /// Sets a cell of a work to a text, which is what [`Works::write`] then writes there. Of a width without a height nothing follows.
    pub fn set(&mut self, work: usize, key: Key, text: &str) {
        if work >= self.works.len() {
            return;
        }
        match &mut self.source {
            Source::Table(table) => table.set(work, key, text),
            Source::Listed(listed) => listed.set(work, key, text),
        }
        let record = cell::Record::of_one(key, text);
        cell::take(&mut self.works[work], &record, &mut Vec::new());
    }

    /// Adds a work without anything at the end of the list; its place.
    pub fn add(&mut self) -> usize {
        let row = match &mut self.source {
            Source::Table(table) => table.add(),
            Source::Listed(listed) => listed.add(),
        };
        self.works.push(Work { row, ..Work::default() });
        self.works.len() - 1
    }

    /// The list as a text in its own form: what it was read from, but for what was set and added.
    #[must_use]
    pub fn write(&self) -> String {
        match &self.source {
            Source::Table(table) => table.write(),
            Source::Listed(listed) => listed.write(),
        }
    }
}

/// The JSON Schema (draft 2020-12) of a list of works as JSON; of CSV, its properties are the columns.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    column::schema()
}
