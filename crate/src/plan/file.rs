//! The plan as a file: JSON, every length as text with its unit.
//!
//! Version 1. Lengths are texts such as `"16 1/2 in"` or `"41.9 cm"`; a text without a unit is in the plan's first unit.
//! Fixtures and pictures are referred to by their names. A field that this version does not know is refused, with its
//! name and place, so that nothing is lost unnoticed. What is left out takes the value of a starting plan. The form, and its
//! JSON Schema (`schema/plan.schema.json`), follow from the rows beside the plan's structs.
//!
//! A picture of a file may have a reduced copy with it, a JPEG in base64. The plan knows nothing of copies: they are read
//! and written beside it.
//!
//! ```
//! use overmantel::plan::{Plan, file};
//! let plan = Plan::starting();
//! let text = file::write(&plan);
//! assert_eq!(file::read(&text).unwrap(), plan, "writing and reading is the identity");
//! ```

use super::{Plan, PlanError, System, limits};
use crate::described::{Choosable, FormError, FormFault, read as form, write as form_of};
use crate::json::{self, JsonError, Node};
use crate::length::Unit;
use std::fmt;

/// The version this module writes.
pub const VERSION: u32 = 1;

/// Why a text is not read as a plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FileError {
    /// It is longer than any plan.
    Long {
        /// Bytes given.
        given: usize,
        /// Bytes that are read.
        most: usize,
    },
    /// It is no JSON.
    Json(#[from] JsonError),
    /// It is JSON, and not one of ours: where, and why.
    NotOurs(String),
    /// It is of a later version.
    Version(i64),
    /// Something in it is out of place; the sentence says where.
    Form(String),
    /// The copy of a picture is too long.
    LongCopy {
        /// The picture.
        name: String,
        /// Its characters.
        given: usize,
    },
    /// The copy of a picture is no JPEG in base64.
    BadCopy(String),
    /// The plan does not hold together.
    Plan(#[from] PlanError),
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Long { given, most } => {
                write!(f, "the plan file has {given} bytes, and a plan may have at most {most}")
            }
            Self::Json(why) => write!(f, "this is not an Overmantel plan file: {why}"),
            Self::NotOurs(why) => write!(f, "this is not an Overmantel plan file: {why}"),
            Self::Version(given) => write!(
                f,
                "the plan file has version {given}, and this program reads version {VERSION}; open it with a newer one"
            ),
            Self::Form(why) => write!(f, "the plan file can't be read: {why}"),
            Self::LongCopy { name, given } => write!(
                f,
                "the copy of the picture {name} has {given} characters, and at most {} are allowed; save the plan without its pictures and choose them again",
                limits::COPY_BYTES
            ),
            Self::BadCopy(name) => write!(
                f,
                "the copy of the picture {name} is not a JPEG file in base64; delete \"copy\" from the file and choose the picture again"
            ),
            Self::Plan(why) => why.fmt(f),
        }
    }
}

/// Reads a plan file, and leaves the copies of its pictures aside.
///
/// # Errors
/// When the text is too long, is not JSON, has a field or value of the wrong form (with line and column), is of a later
/// version, or states a plan that does not hold together.
pub fn read(text: &str) -> Result<Plan, FileError> {
    read_with_copies(text).map(|(plan, _)| plan)
}

/// Reads a plan file with the copies of its pictures, in the order of the plan's pictures: JPEG files in base64, none of
/// them decoded yet and none longer than it may be.
///
/// # Errors
/// As [`read`], or when a copy is too long or is no JPEG in base64.
pub fn read_with_copies(text: &str) -> Result<(Plan, Vec<Option<String>>), FileError> {
    let most = if text.contains("\"copy\"") { limits::FULL_FILE_BYTES } else { limits::FILE_BYTES };
    within(text.len(), most)?;
    let mut node: Node = json::read(text)?;
    version(&mut node, text)?;
    let copies = copies(&mut node, text)?;
    let carried: usize = copies.iter().flatten().map(String::len).sum();
    within(text.len() - carried, limits::FILE_BYTES)?;
    let units = node.get("units");
    let first = units.and_then(|units| if let Node::Text(key) = units { System::of_key(key) } else { None });
    let mut plan = Plan::starting();
    form::read(&mut plan, &node, first.unwrap_or_default().bare_unit())
        .map_err(|why| FileError::Form(why.text(text)))?;
    plan.check()?;
    Ok((plan, copies))
}

fn within(given: usize, most: usize) -> Result<(), FileError> {
    if given <= most { Ok(()) } else { Err(FileError::Long { given, most }) }
}

/// Takes the version out of a file, which has to be this one.
fn version(node: &mut Node, text: &str) -> Result<(), FileError> {
    let not_ours = |fault| {
        let why = FormError { way: Vec::new(), fault };
        FileError::NotOurs(why.text(text))
    };
    if !matches!(node, Node::Group(_)) {
        return Err(not_ours(FormFault::Kind { given: node.kind(), wanted: "an object in braces" }));
    }
    match node.take("overmantel") {
        Some(Node::Whole(given)) if given == i64::from(VERSION) => Ok(()),
        Some(Node::Whole(given)) => Err(FileError::Version(given)),
        Some(other) => Err(not_ours(FormFault::Kind { given: other.kind(), wanted: "a whole number" })),
        None => Err(not_ours(FormFault::Missing("overmantel"))),
    }
}

/// Takes the copies of pictures out of a file.
fn copies(node: &mut Node, text: &str) -> Result<Vec<Option<String>>, FileError> {
    let Node::Group(entries) = node else { return Ok(Vec::new()) };
    let pictures = entries.iter_mut().find(|(key, _)| key == "pictures").map(|(_, pictures)| pictures);
    let Some(Node::List(pictures)) = pictures else { return Ok(Vec::new()) };
    let mut copies = Vec::new();
    for (index, picture) in pictures.iter_mut().enumerate() {
        let name = match picture.get("name") {
            Some(Node::Text(name)) => name.clone(),
            _ => String::new(),
        };
        copies.push(match picture.take("copy") {
            None | Some(Node::Null) => None,
            Some(Node::Text(copy)) => {
                check_copy(&name, &copy)?;
                Some(copy)
            }
            Some(other) => {
                let way = vec!["pictures".to_owned(), format!("number {}", index + 1), "copy".to_owned()];
                let fault = FormFault::Kind { given: other.kind(), wanted: "a text" };
                return Err(FileError::Form(FormError { way, fault }.text(text)));
            }
        });
    }
    Ok(copies)
}

/// Whether a text can be the copy of a picture, by its length and its letters.
fn check_copy(name: &str, copy: &str) -> Result<(), FileError> {
    if copy.len() > limits::COPY_BYTES {
        return Err(FileError::LongCopy { name: name.to_owned(), given: copy.len() });
    }
    if is_copy(copy) { Ok(()) } else { Err(FileError::BadCopy(name.to_owned())) }
}

/// Whether a text is a JPEG in base64, by its letters and the first bytes of every JPEG (FF D8 FF).
pub(crate) fn is_copy(copy: &str) -> bool {
    let body = copy.trim_end_matches('=');
    let is_base64 = copy.len().is_multiple_of(4)
        && copy.len() - body.len() <= 2
        && body.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'+' || byte == b'/');
    is_base64 && body.starts_with("/9j/")
}

/// Writes a plan file; the same plan gives the same text.
#[must_use]
pub fn write(plan: &Plan) -> String {
    text_of(plan, &[])
}

/// Writes a plan file with the copies of its pictures, in the order of the plan's pictures.
///
/// # Errors
/// When a copy is too long or is no JPEG in base64.
pub fn write_with_copies(plan: &Plan, copies: &[Option<String>]) -> Result<String, FileError> {
    for (picture, copy) in plan.pictures.iter().zip(copies) {
        copy.as_ref().map_or(Ok(()), |copy| check_copy(&picture.name, copy))?;
    }
    Ok(text_of(plan, copies))
}

fn text_of(plan: &Plan, copies: &[Option<String>]) -> String {
    let of_nothing = if plan.units.first == System::Inches { Unit::Inch } else { Unit::Millimetre };
    let mut node = form_of::write_in(&mut plan.clone(), of_nothing);
    let Node::Group(entries) = &mut node else { return String::new() };
    entries.insert(0, ("overmantel".to_owned(), Node::Whole(VERSION.into())));
    if let Some((_, Node::List(pictures))) = entries.iter_mut().find(|(key, _)| key == "pictures") {
        for (picture, copy) in pictures.iter_mut().zip(copies) {
            if let (Node::Group(picture), Some(copy)) = (picture, copy) {
                picture.push(("copy".to_owned(), Node::Text(copy.clone())));
            }
        }
    }
    node.pretty()
}

/// The JSON Schema (draft 2020-12) of the plan file.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    use crate::described::schema;
    let version = schema::entries(&[
        ("description", Node::text("Version of the file format: 1.")),
        ("type", Node::text("integer")),
        ("format", Node::text("uint32")),
        ("minimum", Node::Whole(1)),
        ("maximum", Node::Whole(1)),
    ]);
    let copy = schema::entries(&[
        (
            "description",
            Node::text(
                "The picture itself, reduced: a JPEG in base64. It is only for drawing; nothing is measured on it. None when left out.",
            ),
        ),
        ("type", Node::List(vec![Node::text("string"), Node::text("null")])),
        ("maxLength", Node::Whole(1_000_000)),
        ("pattern", Node::text("^/9j/[A-Za-z0-9+/]*={0,2}$")),
        ("default", Node::Null),
    ]);
    schema::schema(
        &mut Plan::starting(),
        "Overmantel plan",
        ("overmantel", Node::Group(version)),
        ("PictureForm", "copy", Node::Group(copy)),
    )
}
