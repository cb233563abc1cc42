//! Reading JSON: what is wrong with a text in plain words, and where.
//!
//! ```text
//! sticks, add, row 2: "length" is missing; write it (line 9, column 5)
//! ```

use serde::de::DeserializeOwned;

/// Reads a text as a form.
///
/// # Errors
/// A plain sentence: where in the text, what is wrong there, and what may stand there.
pub(crate) fn read<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    serde_json::from_str(text).map_err(|why| {
        let place = place(before(text, why.line(), why.column()));
        let place = if place.is_empty() { String::new() } else { format!("{}: ", place.join(", ")) };
        format!("{place}{}", in_words(&why))
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
    let mut open: Vec<Open> = Vec::new();
    let mut at = 0;
    while let Some(&byte) = text.get(at) {
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
                let end = end_of_text(text, at);
                if let Some(Open::Group(key @ None)) = open.last_mut() {
                    *key = serde_json::from_slice(&text[at..end]).ok();
                }
                at = end;
                continue;
            }
            _ => {}
        }
        at += 1;
    }
    let named = open.into_iter().filter_map(|open| match open {
        Open::Group(key) => key,
        Open::List(number) => Some(format!("number {number}")),
    });
    named.collect()
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
fn in_words(why: &serde_json::Error) -> String {
    let (line, column) = (why.line(), why.column());
    match why.classify() {
        serde_json::error::Category::Data => {}
        _ if (line, column) == (1, 0) => return String::from("it is empty"),
        _ if why.to_string().starts_with("trailing characters") => {
            return format!(
                "a list has a value too many, or something follows after the end, at line {line} column {column}"
            );
        }
        _ => return format!("it breaks off or is not JSON at line {line} column {column}"),
    }
    let text = why.to_string();
    let text = text.split(" at line ").next().unwrap_or_default();
    let said = plainly(text).unwrap_or_else(|| text.to_owned());
    format!("{said} (line {line}, column {column})")
}

fn plainly(text: &str) -> Option<String> {
    let quoted = |text: &str| text.trim_start_matches("one of ").trim().replace('`', "\"");
    if let Some(field) = text.strip_prefix("missing field ") {
        return Some(format!("{} is missing; write it", quoted(field)));
    }
    if let Some(field) = text.strip_prefix("duplicate field ") {
        return Some(format!("{} stands here twice; keep one", quoted(field)));
    }
    let (given, wanted) = text.split_once(", expected ")?;
    if let Some(field) = given.strip_prefix("unknown field ") {
        return Some(format!("{} is not known here; known are {}", quoted(field), quoted(wanted)));
    }
    if let Some(choice) = given.strip_prefix("unknown variant ") {
        return Some(format!("{} can't be chosen here; choose {}", quoted(choice), quoted(wanted)));
    }
    if let Some(count) = given.strip_prefix("invalid length ") {
        let wanted = wanted.rsplit_once(" of length ").map_or("another number", |(_, wanted)| wanted);
        return Some(format!("the list has {count} in it, and {wanted} are wanted"));
    }
    if let Some(value) = given.strip_prefix("invalid value: ") {
        let value = value.split('`').nth(1).unwrap_or(value);
        return Some(format!("{value} can't stand here; a whole number from 0 upwards is wanted"));
    }
    if given == "invalid type: unit variant" {
        return Some(String::from("a name stands alone; what belongs to it has to follow in braces"));
    }
    let given = given.strip_prefix("invalid type: ")?;
    let given = match given.split(' ').next().unwrap_or_default() {
        "null" | "unit" => "nothing (null)",
        "integer" => "a number",
        "floating" => "a number with a point",
        "string" => "a text",
        "boolean" => "true or false",
        "sequence" => "a list",
        "map" => "a group in braces",
        _ => given,
    };
    let wanted = match wanted {
        "a string" => "a text, such as \"16 in\"",
        "u32" | "u16" => "a whole number",
        "a boolean" => "true or false",
        text if text.starts_with("struct ") => "a group in braces",
        text if text.starts_with("a sequence") || text.starts_with("an array") => "a list",
        text => text,
    };
    Some(format!("{given} stands where {wanted} is wanted"))
}
