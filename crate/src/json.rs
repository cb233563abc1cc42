//! Reading JSON: what is wrong with a text in plain words, and where.
//!
//! ```text
//! sticks, add, row 2: "length" is missing; write it (line 9, column 5)
//! ```

use crate::quoted::short;
use serde::de::{Error as _, MapAccess, SeqAccess, Visitor};
use serde::ser::{SerializeMap as _, Serializer};
use serde::{Deserialize, Deserializer, Serialize};
use std::fmt;

/// A text as JSON, with keys in their order. A number that is not whole keeps what it is only by its name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Node {
    /// null.
    Null,
    /// true or false.
    Flag(bool),
    /// A whole number.
    Whole(i64),
    /// Another number, which stands nowhere in our files.
    Number,
    /// Text.
    Text(String),
    /// Values one after the other.
    List(Vec<Self>),
    /// Values by their keys.
    Group(Vec<(String, Self)>),
}

impl Node {
    /// A text.
    pub(crate) fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// The value of a key in a group.
    pub(crate) fn get(&self, key: &str) -> Option<&Self> {
        let Self::Group(entries) = self else { return None };
        entries.iter().find(|(known, _)| known == key).map(|(_, value)| value)
    }

    /// Takes the value of a key out of a group.
    pub(crate) fn take(&mut self, key: &str) -> Option<Self> {
        let Self::Group(entries) = self else { return None };
        let place = entries.iter().position(|(known, _)| known == key)?;
        Some(entries.remove(place).1)
    }

    /// As text on one line.
    pub(crate) fn compact(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// As pretty text.
    pub(crate) fn pretty(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// What it is, in words.
    pub(crate) const fn kind(&self) -> &'static str {
        match self {
            Self::Null => "nothing (null)",
            Self::Flag(_) => "true or false",
            Self::Whole(_) => "a number",
            Self::Number => "a number with a decimal point",
            Self::Text(_) => "text",
            Self::List(_) => "a list",
            Self::Group(_) => "an object in braces",
        }
    }
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Null | Self::Number => serializer.serialize_unit(),
            Self::Flag(flag) => serializer.serialize_bool(*flag),
            Self::Whole(number) => serializer.serialize_i64(*number),
            Self::Text(text) => serializer.serialize_str(text),
            Self::List(items) => serializer.collect_seq(items),
            Self::Group(entries) => {
                let mut map = serializer.serialize_map(Some(entries.len()))?;
                for (key, value) in entries {
                    map.serialize_entry(key, value)?;
                }
                map.end()
            }
        }
    }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AnyNode)
    }
}

struct AnyNode;

impl<'de> Visitor<'de> for AnyNode {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E>(self, flag: bool) -> Result<Node, E> {
        Ok(Node::Flag(flag))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Node, E> {
        Ok(Node::Whole(number))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Node, E> {
        Ok(i64::try_from(number).map_or(Node::Whole(i64::MAX), Node::Whole))
    }

    fn visit_f64<E>(self, _number: f64) -> Result<Node, E> {
        Ok(Node::Number)
    }

    fn visit_str<E>(self, text: &str) -> Result<Node, E> {
        Ok(Node::text(text))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Node, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Node::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Node, A::Error> {
        let mut group: Vec<(String, Node)> = Vec::new();
        while let Some(key) = entries.next_key::<String>()? {
            if group.iter().any(|(known, _)| *known == key) {
                return Err(A::Error::custom(["duplicate field `", &key, "`"].concat()));
            }
            group.push((key, entries.next_value()?));
        }
        Ok(Node::Group(group))
    }
}

/// Why a text can't be read as JSON: where in it, and what is wrong there.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct JsonError {
    /// Keys and numbers of the place, from the outside inwards.
    pub way: Vec<String>,
    /// The line, from one.
    pub line: usize,
    /// The column, from one, in bytes.
    pub column: usize,
    /// What is wrong there.
    pub fault: JsonFault,
}

/// What is wrong in a text that should be JSON.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum JsonFault {
    /// There is nothing in it.
    Empty,
    /// Something follows after the end.
    TooMuch,
    /// It is cut off, or not JSON.
    NotJson,
    /// This key stands twice in one group.
    Twice(String),
}

impl fmt::Display for JsonError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { way, line, column, fault } = self;
        // A way deeper than any of our files says nothing.
        if !way.is_empty() && way.len() <= 16 {
            let way: Vec<String> = way.iter().map(|step| short(step).to_string()).collect();
            write!(f, "{}: ", way.join(", "))?;
        }
        match fault {
            JsonFault::Empty => f.write_str("it is empty"),
            JsonFault::TooMuch => write!(
                f,
                "a list has one value too many, or something follows the end, at line {line} column {column}"
            ),
            JsonFault::NotJson => write!(f, "it stops short or is not JSON at line {line} column {column}"),
            JsonFault::Twice(key) => {
                write!(f, "\"{}\" is here twice; keep one (line {line}, column {column})", short(key))
            }
        }
    }
}

/// Reads a text as JSON.
///
/// # Errors
/// What is wrong, and where in the text.
pub(crate) fn read(text: &str) -> Result<Node, JsonError> {
    // Some programs write the mark of the order of bytes at the beginning of UTF-8 text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    serde_json::from_str(text).map_err(|why| JsonError {
        way: place(before(text, why.line(), why.column())),
        line: why.line(),
        column: why.column(),
        fault: fault(&why),
    })
}

/// What of a text stands before a column of a line; both count from one, columns in bytes.
fn before(text: &str, line: usize, column: usize) -> &[u8] {
    let start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    let end = (start + column).min(text.len());
    &text.as_bytes()[..end]
}

/// A group or a list that is open: the key or the number that is at hand in it.
enum Open {
    Group(Option<String>),
    List(usize),
}

/// The way to the place where a text, JSON as far as it goes, ends: keys and numbers, from the outside inwards.
fn place(text: &[u8]) -> Vec<String> {
    let mut way = Vec::new();
    walk(text, &mut |_, open| {
        way = names(open);
        false
    });
    way
}

/// Line and column, both from one, where the way to a value, as [`place`] gives it, is first gone to its end.
pub(crate) fn position(text: &str, way: &[String]) -> (usize, usize) {
    let mut found = 0;
    if way.is_empty() {
        return (1, 1);
    }
    walk(text.as_bytes(), &mut |at, open| {
        found = at;
        names(open) == way
    });
    let before = &text.as_bytes()[..found.min(text.len())];
    let line = before.iter().filter(|&&byte| byte == b'\n').count() + 1;
    let start = before.iter().rposition(|&byte| byte == b'\n').map_or(0, |end| end + 1);
    (line, found - start + 1)
}

fn names(open: &[Open]) -> Vec<String> {
    let named = open.iter().filter_map(|open| match open {
        Open::Group(key) => key.clone(),
        Open::List(number) => Some(format!("number {number}")),
    });
    named.collect()
}

/// Goes along a text, and says after each step where it is, until it is told that this is far enough.
fn walk(text: &[u8], is_enough: &mut dyn FnMut(usize, &[Open]) -> bool) {
    let mut open: Vec<Open> = Vec::new();
    let mut at = 0;
    while let Some(&byte) = text.get(at) {
        let mut end = at + 1;
        match byte {
            b'{' => open.push(Open::Group(None)),
            b'[' => open.push(Open::List(1)),
            b'}' | b']' => {
                open.pop();
            }
            b',' => match open.last_mut() {
                Some(Open::Group(key)) => *key = None,
                Some(Open::List(number)) => *number += 1,
                None => {}
            },
            b'"' => {
                end = end_of_text(text, at);
                if let Some(Open::Group(key @ None)) = open.last_mut() {
                    *key = match serde_json::from_slice(&text[at..end]) {
                        Ok(Node::Text(text)) => Some(text),
                        _ => None,
                    };
                }
            }
            _ => {
                at = end;
                continue;
            }
        }
        if is_enough(at, &open) {
            return;
        }
        at = end;
    }
}

/// Behind the closing quotation mark of a text that begins at a place.
fn end_of_text(text: &[u8], start: usize) -> usize {
    let mut at = start + 1;
    while let Some(&byte) = text.get(at) {
        match byte {
            b'"' => return at + 1,
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
    text.len()
}

/// What the parser says, for those who do not write programs.
fn fault(why: &serde_json::Error) -> JsonFault {
    let text = why.to_string();
    match why.classify() {
        // The one fault of a form that a group can have by itself.
        serde_json::error::Category::Data => {
            JsonFault::Twice(text.split('`').nth(1).unwrap_or_default().to_owned())
        }
        _ if (why.line(), why.column()) == (1, 0) => JsonFault::Empty,
        _ if text.starts_with("trailing characters") => JsonFault::TooMuch,
        _ => JsonFault::NotJson,
    }
}
