//! Reading JSON: what is wrong with a text in plain words, and where.
//!
//! ```text
//! sticks, add, row 2: "length" is missing; write it (line 9, column 5)
//! ```

use serde::de::DeserializeOwned;
use serde_path_to_error::Segment;

/// Reads a text as a form.
///
/// # Errors
/// A plain sentence: where in the text, what is wrong there, and what may stand there.
pub(crate) fn read<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let form = serde_path_to_error::deserialize(&mut reader).map_err(|why| {
        let place: Vec<String> = why.path().iter().map(segment).filter(|part| !part.is_empty()).collect();
        let place = if place.is_empty() { String::new() } else { format!("{}: ", place.join(", ")) };
        format!("{place}{}", in_words(why.inner()))
    })?;
    reader.end().map_err(|why| in_words(&why))?;
    Ok(form)
}

fn segment(segment: &Segment) -> String {
    match segment {
        Segment::Seq { index } => format!("number {}", index + 1),
        Segment::Map { key } => key.clone(),
        Segment::Enum { .. } | Segment::Unknown => String::new(),
    }
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
