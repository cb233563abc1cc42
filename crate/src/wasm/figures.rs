//! The figures for programs in JavaScript: the same JSON that the command line prints.

use super::Desk;
use crate::report::report;
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// How many sizes of each way are listed, as by the command line.
const FITS: usize = 4;

#[wasm_bindgen]
impl Desk {
    /// Everything calculated for the plan, as JSON: each length exactly, in inches and in millimetres. `figures.schema.json` says what
    /// each name means.
    pub fn figures(&self) -> Result<String, JsError> {
        let told = report(self.desk.plan(), self.desk.figures(), self.desk.stock(), FITS);
        Ok(serde_json::to_string(&told)?)
    }
}
