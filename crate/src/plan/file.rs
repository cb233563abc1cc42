//! The plan as a file: JSON, every length as text with its unit.
//!
//! Version 1. Lengths are texts such as `"16 1/2 in"` or `"41.9 cm"`; a text without a unit is in the plan's first unit.
//! Fixtures and pictures are referred to by their names. A field that this version does not know is refused, with its
//! name and place, so that nothing is lost unnoticed. What is left out takes the value of a starting plan. The JSON
//! Schema of the form is derived from the structs of this module (`schema/plan.schema.json`).
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

use super::*;
use crate::json;
use crate::length::{parse::parse, print::exact};
use serde::{Deserialize, Serialize};

mod form;
use form::*;

/// The version this module writes.
pub const VERSION: u32 = 1;

/// Reads a plan file, and leaves the copies of its pictures aside.
///
/// # Errors
/// A plain sentence when the text is too long, is not JSON, has a field or value of the wrong form (with line and
/// column), is of a later version, or states a plan that does not hold together.
pub fn read(text: &str) -> Result<Plan, String> {
    read_with_copies(text).map(|(plan, _)| plan)
}

/// Reads a plan file with the copies of its pictures, in the order of the plan's pictures: JPEG files in base64, none of
/// them decoded yet and none longer than it may be.
///
/// # Errors
/// As [`read`], or when a copy is too long or is no JPEG in base64.
pub fn read_with_copies(text: &str) -> Result<(Plan, Vec<Option<String>>), String> {
    let most = if text.contains("\"copy\"") { limits::FULL_FILE_BYTES } else { limits::FILE_BYTES };
    within(text.len(), most)?;
    #[derive(Deserialize)]
    struct Version {
        overmantel: u32,
    }
    let Version { overmantel } =
        json::read(text).map_err(|why| format!("this is not an Overmantel plan file: {why}"))?;
    if overmantel != VERSION {
        return Err(format!(
            "the plan file is of version {overmantel}; this page reads version {VERSION}, so open it with a newer page"
        ));
    }
    let mut form: PlanForm = json::read(text).map_err(|why| format!("the plan file can't be read: {why}"))?;
    let mut copies = Vec::new();
    let mut plan_bytes = text.len();
    for (name, copy) in form.copies() {
        let copy = copy.take();
        if let Some(copy) = &copy {
            check_copy(name, copy)?;
            plan_bytes = plan_bytes.saturating_sub(copy.len());
        }
        copies.push(copy);
    }
    within(plan_bytes, limits::FILE_BYTES)?;
    let plan = form.into_plan()?;
    plan.check()?;
    Ok((plan, copies))
}

fn within(bytes: usize, most: usize) -> Result<(), String> {
    if bytes <= most {
        return Ok(());
    }
    Err(format!("the plan file has {bytes} bytes; a plan has at most {most}"))
}

/// Whether a text can be the copy of a picture, by its length, its letters and the first bytes of every JPEG (FF D8 FF).
fn check_copy(name: &str, copy: &str) -> Result<(), String> {
    if copy.len() > limits::COPY_BYTES {
        return Err(format!(
            "the copy of the picture {name} has {} characters; at most {} are read, so save the plan without its pictures and choose them anew",
            copy.len(),
            limits::COPY_BYTES
        ));
    }
    let body = copy.trim_end_matches('=');
    let is_base64 = copy.len().is_multiple_of(4)
        && copy.len() - body.len() <= 2
        && body.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'+' || byte == b'/');
    if is_base64 && body.starts_with("/9j/") {
        return Ok(());
    }
    Err(format!(
        "the copy of the picture {name} is not a JPEG file in base64; take \"copy\" out of the file and choose the picture anew"
    ))
}

/// Writes a plan file; the same plan gives the same text.
#[must_use]
pub fn write(plan: &Plan) -> String {
    text_of(&PlanForm::from_plan(plan))
}

/// Writes a plan file with the copies of its pictures, in the order of the plan's pictures.
///
/// # Errors
/// When a copy is too long or is no JPEG in base64.
pub fn write_with_copies(plan: &Plan, copies: &[Option<String>]) -> Result<String, String> {
    let mut form = PlanForm::from_plan(plan);
    for ((name, place), copy) in form.copies().zip(copies) {
        if let Some(copy) = copy {
            check_copy(name, copy)?;
        }
        place.clone_from(copy);
    }
    Ok(text_of(&form))
}

fn text_of(form: &PlanForm) -> String {
    serde_json::to_string_pretty(form).unwrap_or_default()
}

/// The JSON Schema (draft 2020-12) of the plan file.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    let schema = schemars::schema_for!(PlanForm);
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}
