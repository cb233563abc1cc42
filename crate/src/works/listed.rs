//! A list as JSON.

use super::cell::Record;
use super::{Key, ListError, VERSION};
use crate::length::Unit;
use serde_json::{Map, Value};

/// A list as it stands in a file, with what is changed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Listed {
    text: String,
    whole: Value,
    is_changed: bool,
}

impl Listed {
    /// Reads a list: it, and the members of each work.
    pub(super) fn read(text: &str, bare: Unit) -> Result<(Self, Vec<Record>), ListError> {
        // That says what is wrong in plain words, and finds keys that stand twice.
        crate::json::read(text)?;
        let plain = text.strip_prefix('\u{feff}').unwrap_or(text);
        let whole: Value = serde_json::from_str(plain).map_err(|_| ListError::NotAList)?;
        let version = whole.get("overmantel_works").ok_or(ListError::NotAList)?;
        if version.as_u64() != Some(VERSION.into()) {
            return Err(ListError::Version(version.to_string()));
        }
        let bare = match whole.get("units").and_then(Value::as_str) {
            None => bare,
            Some(name) => super::column::unit_named(name).ok_or(ListError::NotAList)?,
        };
        let works = whole.get("works").and_then(Value::as_array).ok_or(ListError::NotAList)?;
        let mut records = Vec::new();
        for (number, work) in (1..).zip(works) {
            let members = work.as_object().ok_or(ListError::NotAList)?;
            let cells = members.iter().filter_map(|(name, value)| Some((Key::named(name)?, value)));
            let cells = cells.map(|((key, unit), value)| (key, cell(value), unit.unwrap_or(bare)));
            records.push(Record { row: number, cells: cells.collect() });
        }
        Ok((Self { text: text.to_owned(), whole, is_changed: false }, records))
    }

    fn works(&mut self) -> Option<&mut Vec<Value>> {
        self.whole.get_mut("works").and_then(Value::as_array_mut)
    }

    pub(super) fn set(&mut self, work: usize, key: Key, text: &str) {
        self.is_changed = true;
        let Some(Value::Object(members)) = self.works().and_then(|works| works.get_mut(work)) else { return };
        let is_it = |name: &&String| Key::named(name).is_some_and(|(known, _)| known == key);
        let name = members.keys().find(is_it).cloned().unwrap_or_else(|| key.name().to_owned());
        let number = text.parse::<u64>().ok().filter(|_| matches!(key, Key::WidthPx | Key::HeightPx));
        members.insert(name, number.map_or_else(|| text.into(), Value::from));
    }

    pub(super) fn add(&mut self) -> usize {
        self.is_changed = true;
        let Some(works) = self.works() else { return 0 };
        works.push(Value::Object(Map::new()));
        works.len()
    }

    /// The text as it was; where anything was set, set again with the same members in the same order.
    pub(super) fn write(&self) -> String {
        if !self.is_changed {
            return self.text.clone();
        }
        serde_json::to_string_pretty(&self.whole).unwrap_or_default() + "\n"
    }
}

/// A value as the text of a cell; none where it is neither text nor a number nor a list of numbers.
fn cell(value: &Value) -> Option<String> {
    match value {
        Value::Null => Some(String::new()),
        Value::String(text) => Some(text.clone()),
        Value::Number(number) => Some(number.to_string()),
        Value::Array(items) => {
            let numbers: Option<Vec<String>> =
                items.iter().map(|item| item.as_u64().map(|number| number.to_string())).collect();
            numbers.map(|numbers| numbers.join(" "))
        }
        Value::Bool(_) | Value::Object(_) => None,
    }
}
