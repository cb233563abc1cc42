//! A list as CSV (RFC 4180): commas, semicolons or tabs between cells, whichever its first row has, and every cell with its place in the
//! text, so that what is not set is written as it was, byte for byte.

use super::cell::Record;
use super::problem::tell;
use super::{COLUMNS, Fault, Key, ListError, Problem, limits};
use crate::length::Unit;
use csv_core::{ReadFieldResult, ReaderBuilder};
use std::collections::BTreeMap;
use std::ops::Range;

/// A list as it stands in a file, with what is changed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Table {
    text: String,
    divider: char,
    /// How its lines end.
    end: &'static str,
    /// The column of each cell of the first row.
    columns: Vec<Option<Key>>,
    /// Where the names of the columns end.
    names_end: usize,
    /// The cells of each work, as places in the text.
    rows: Vec<Vec<Range<usize>>>,
    /// New texts of cells, by their work and column.
    set: BTreeMap<(usize, Key), String>,
    /// Rows that were added, so many.
    added: usize,
    last_row: usize,
}

/// A row as it stands in the text.
struct Line {
    /// As spreadsheets count.
    row: usize,
    cells: Vec<(Range<usize>, String)>,
}

impl Table {
    /// A table without rows.
    pub(super) fn of(keys: &[Key]) -> Self {
        let text = keys.iter().map(|key| key.name()).collect::<Vec<_>>().join(",") + "\r\n";
        Self {
            names_end: text.len() - 2,
            text,
            divider: ',',
            end: "\r\n",
            columns: keys.iter().copied().map(Some).collect(),
            rows: Vec::new(),
            set: BTreeMap::new(),
            added: 0,
            last_row: 1,
        }
    }

    /// Reads a table: it, the cells of each work, and what is wrong with its rows.
    pub(super) fn read(text: &str, bare: Unit) -> Result<(Self, Vec<Record>, Vec<Problem>), ListError> {
        let divider = divider(text);
        let lines = lines(text, divider);
        let Some((names, works)) = lines.split_first() else { return Err(ListError::Empty) };
        let mut problems = Vec::new();
        if names.cells.len() > limits::COLUMNS {
            return Err(ListError::Columns(names.cells.len()));
        }
        let mut columns: Vec<Option<(Key, Option<Unit>)>> = Vec::new();
        for (_, name) in &names.cells {
            let found = Key::named(name);
            let is_known = |key| columns.iter().flatten().any(|(known, _)| *known == key);
            if let Some((key, _)) = found.filter(|(key, _)| is_known(*key)) {
                tell(&mut problems, Fault::Column(name.clone()).at(names.row, Some(key)));
                columns.push(None);
            } else {
                columns.push(found);
            }
        }
        if columns.iter().flatten().next().is_none() {
            return Err(ListError::NoColumns(line_of(text).to_owned()));
        }
        if works.len() > limits::WORKS {
            return Err(ListError::Works(works.len()));
        }
        let mut records = Vec::new();
        for line in works {
            let is_more = line.cells.iter().skip(columns.len()).any(|(_, text)| !text.trim().is_empty());
            if is_more {
                let fault = Fault::Cells { given: line.cells.len(), columns: columns.len() };
                tell(&mut problems, fault.at(line.row, None));
            }
            let cells = columns.iter().zip(&line.cells).filter_map(|(column, (_, text))| {
                let (key, unit) = (*column)?;
                Some((key, Some(text.clone()), unit.unwrap_or(bare)))
            });
            records.push(Record { row: line.row, cells: cells.collect() });
        }
        let table = Self {
            divider,
            end: if text.contains("\r\n") { "\r\n" } else { "\n" },
            columns: columns.iter().map(|column| column.map(|(key, _)| key)).collect(),
            names_end: names.cells.last().map_or(0, |(place, _)| place.end),
            rows: works
                .iter()
                .map(|line| line.cells.iter().map(|(place, _)| place.clone()).collect())
                .collect(),
            last_row: lines.last().map_or(1, |line| line.row),
            text: text.to_owned(),
            set: BTreeMap::new(),
            added: 0,
        };
        Ok((table, records, problems))
    }

    pub(super) fn set(&mut self, work: usize, key: Key, text: &str) {
        self.set.insert((work, key), text.to_owned());
    }

    pub(super) fn add(&mut self) -> usize {
        self.added += 1;
        self.last_row + self.added
    }

    /// The text with what was set.
    pub(super) fn write(&self) -> String {
        if self.set.is_empty() && self.added == 0 {
            return self.text.clone();
        }
        let mut columns = self.columns.clone();
        for column in &COLUMNS {
            let is_set = self.set.keys().any(|(_, key)| *key == column.key);
            if is_set && !columns.contains(&Some(column.key)) {
                columns.push(Some(column.key));
            }
        }
        let divider = self.divider.to_string();
        let new = &columns[self.columns.len()..];
        let mut edits: Vec<(Range<usize>, String)> = Vec::new();
        if !new.is_empty() {
            let names = new.iter().flatten().map(|key| [&divider, key.name()].concat());
            edits.push((self.names_end..self.names_end, names.collect()));
        }
        for (work, row) in self.rows.iter().enumerate() {
            let mut beyond = String::new();
            let mut count = row.len();
            for (place, column) in columns.iter().enumerate() {
                let Some(text) = self.text_of(work, *column) else { continue };
                match row.get(place) {
                    Some(cell) => edits.push((cell.clone(), crate::cells::cell(text))),
                    None => {
                        beyond += &divider.repeat((place + 1).saturating_sub(count));
                        beyond += &crate::cells::cell(text);
                        count = place + 1;
                    }
                }
            }
            let end = row.last().map_or(0, |cell| cell.end);
            edits.push((end..end, beyond));
        }
        crate::order::sort_by_key(&mut edits, |(place, _)| (place.start, place.end));
        let mut written = String::with_capacity(self.text.len() + 64 * edits.len());
        let mut at = 0;
        for (place, text) in &edits {
            written += &self.text[at..place.start];
            written += text;
            at = place.end;
        }
        written += &self.text[at..];
        for work in self.rows.len()..self.rows.len() + self.added {
            if !written.ends_with(['\n', '\r']) {
                written += self.end;
            }
            let cells = columns
                .iter()
                .map(|key| self.text_of(work, *key).map_or_else(String::new, crate::cells::cell));
            written += &cells.collect::<Vec<_>>().join(&divider);
            written += self.end;
        }
        written
    }

    /// What a cell was set to.
    fn text_of(&self, work: usize, key: Option<Key>) -> Option<&str> {
        self.set.get(&(work, key?)).map(String::as_str)
    }
}

/// The first line of a text.
fn line_of(text: &str) -> &str {
    text.trim_start_matches('\u{feff}').lines().find(|line| !line.trim().is_empty()).unwrap_or_default()
}

/// What stands between cells: of comma, semicolon and tab the one by which the first row has the most known names.
fn divider(text: &str) -> char {
    let known = |divider: char| {
        let names = line_of(text).split(divider).filter(|name| Key::named(name.trim_matches('"')).is_some());
        names.count()
    };
    let mut best = ',';
    for other in [';', '\t'] {
        if known(other) > known(best) {
            best = other;
        }
    }
    best
}

/// Every row that has anything in it, with each cell's place and text.
fn lines(text: &str, divider: char) -> Vec<Line> {
    let begin = text.len() - text.trim_start_matches('\u{feff}').len();
    let bytes = text.as_bytes();
    let mut reader = ReaderBuilder::new().delimiter(u8::try_from(divider).unwrap_or(b',')).build();
    let mut held = vec![0; 1024];
    let mut lines: Vec<Line> = Vec::new();
    let mut cells: Vec<(Range<usize>, String)> = Vec::new();
    let (mut at, mut start, mut kept, mut last_end, mut row) = (begin, begin, 0, begin, 0);
    loop {
        let (result, read, wrote) = reader.read_field(&bytes[at..], &mut held[kept..]);
        at += read;
        kept += wrote;
        match result {
            ReadFieldResult::InputEmpty => {}
            ReadFieldResult::OutputFull => held.resize(held.len() * 2, 0),
            ReadFieldResult::Field { record_end } => {
                let raw = &text[start..at];
                let skipped =
                    if cells.is_empty() { raw.len() - raw.trim_start_matches(['\r', '\n']).len() } else { 0 };
                if cells.is_empty() {
                    row += line_ends(&text[last_end..start + skipped]) + usize::from(row == 0);
                }
                let inner = &raw[skipped..];
                let inner = match record_end {
                    true => inner.strip_suffix(['\n', '\r']).unwrap_or(inner),
                    false => inner.strip_suffix(divider).unwrap_or(inner),
                };
                let place = start + skipped..start + skipped + inner.len();
                cells.push((place, String::from_utf8_lossy(&held[..kept]).into_owned()));
                (start, kept) = (at, 0);
                if record_end {
                    last_end = cells.last().map_or(at, |(place, _)| place.end);
                    let is_filled = cells.iter().any(|(_, text)| !text.trim().is_empty());
                    let cells = std::mem::take(&mut cells);
                    if is_filled {
                        lines.push(Line { row, cells });
                    }
                }
            }
            ReadFieldResult::End => return lines,
        }
    }
}

/// How many lines end in what stands between two rows.
fn line_ends(text: &str) -> usize {
    let pairs = text.matches("\r\n").count();
    text.chars().filter(|letter| matches!(letter, '\r' | '\n')).count() - pairs
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(text: &str) -> Vec<(usize, Vec<(String, String)>)> {
        let found = lines(text, divider(text));
        let cells = |line: &Line| {
            line.cells.iter().map(|(place, value)| (text[place.clone()].to_owned(), value.clone())).collect()
        };
        found.iter().map(|line| (line.row, cells(line))).collect()
    }

    #[test]
    fn every_cell_has_its_place() {
        let pair = |raw: &str, value: &str| (raw.to_owned(), value.to_owned());
        assert_eq!(
            seen("title,file\r\n\"Ebb, \"\"low\"\"\",a.jpg\r\n\r\n\nTwo,\n"),
            [
                (1, vec![pair("title", "title"), pair("file", "file")]),
                (2, vec![pair("\"Ebb, \"\"low\"\"\"", "Ebb, \"low\""), pair("a.jpg", "a.jpg")]),
                (5, vec![pair("Two", "Two"), pair("", "")]),
            ]
        );
        assert_eq!(
            seen("\u{feff}title;file\n\"two\nlines\";b.jpg\nlast;c.jpg"),
            [
                (1, vec![pair("title", "title"), pair("file", "file")]),
                (2, vec![pair("\"two\nlines\"", "two\nlines"), pair("b.jpg", "b.jpg")]),
                (3, vec![pair("last", "last"), pair("c.jpg", "c.jpg")]),
            ]
        );
        assert_eq!(seen("title\n\"open, and never closed\nx\n").len(), 2);
        assert_eq!(seen(""), []);
        assert_eq!(seen("\n\r\n"), []);
    }
}
