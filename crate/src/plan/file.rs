//! The plan as a file: JSON, every length as text with its unit.
//!
//! Version 1. Lengths are texts such as `"16 1/2 in"` or `"41.9 cm"`; a text without a unit is in the plan's first unit.
//! Fixtures and pictures are referred to by their names. A field that this version does not know is refused, with its
//! name and place, so that nothing is lost unnoticed. What is left out takes the value of a starting plan. The JSON
//! Schema of the form is derived from the structs of this module (`schema/plan.schema.json`).
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

/// Reads a plan file.
///
/// # Errors
/// A plain sentence when the text is too long, is not JSON, has a field or value of the wrong form (with line and
/// column), is of a later version, or states a plan that does not hold together.
pub fn read(text: &str) -> Result<Plan, String> {
    if text.len() > limits::FILE_BYTES {
        return Err(format!(
            "the plan file has {} bytes; a plan has at most {}",
            text.len(),
            limits::FILE_BYTES
        ));
    }
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
    let form: PlanForm = json::read(text).map_err(|why| format!("the plan file can't be read: {why}"))?;
    let plan = form.into_plan()?;
    plan.check()?;
    Ok(plan)
}

/// Writes a plan file; the same plan gives the same text.
#[must_use]
pub fn write(plan: &Plan) -> String {
    serde_json::to_string_pretty(&PlanForm::from_plan(plan)).unwrap_or_default()
}

/// The JSON Schema (draft 2020-12) of the plan file.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    let schema = schemars::schema_for!(PlanForm);
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}
