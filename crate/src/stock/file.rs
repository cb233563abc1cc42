//! The stock as a file: JSON, every length as text with its unit.
//!
//! Version 1. Lengths are texts as in a plan file, such as `"16 1/2 in"` or `"41.9 cm"`; a text without a unit is in the file's
//! `units`, inches where it names none. Each list may be left out and is then what is on offer. A list has `replace`, rows
//! that stand in place of those on offer, or `add`, rows beside them; where a row of `add` has a name (of a density: a
//! material) that the list has already, it takes that row's place. `thresholds` has limits of findings by their names. A field that this version does not know is refused. The JSON
//! Schema of the form is derived from the structs of this module (`schema/stock.schema.json`).
//!
//! ```
//! use overmantel::{length::Length, stock::Stock};
//! let stock = Stock::read(r#"{
//!     "overmantel_stock": 1,
//!     "sticks": { "replace": [{ "name": "ours", "length": "13 ft", "kerf": "1/8 in", "trim": "2 in" }] }
//! }"#).unwrap();
//! assert_eq!(stock.sticks[0].length, Length::inches(156), "13 × 12");
//! assert_eq!(Stock::read(&stock.write()).unwrap(), stock, "writing and reading is the identity");
//! ```

use super::{Stock, check, limits};
use crate::json;
use serde::Deserialize;

mod form;
use form::StockForm;

/// The version this module writes.
pub const VERSION: u32 = 1;

/// Reads a stock file over what is on offer.
///
/// # Errors
/// A plain sentence when the text is too long, is not JSON, has a field or value of the wrong form (with line and
/// column) or a list too long, is of a later version, or states a row that is out of range or has another's name.
pub fn read(text: &str) -> Result<Stock, String> {
    if text.len() > limits::FILE_BYTES {
        return Err(format!(
            "the stock file has {} bytes; a stock has at most {}",
            text.len(),
            limits::FILE_BYTES
        ));
    }
    #[derive(Deserialize)]
    struct Version {
        overmantel_stock: u32,
    }
    let Version { overmantel_stock } =
        json::read(text).map_err(|why| format!("this is not an Overmantel stock file: {why}"))?;
    if overmantel_stock != VERSION {
        return Err(format!(
            "the stock file is of version {overmantel_stock}; this program reads version {VERSION}, so open it with a newer one"
        ));
    }
    let form: StockForm = json::read(text).map_err(|why| format!("the stock file can't be read: {why}"))?;
    let stock = form.over(Stock::offered())?;
    check::stock(&stock)?;
    Ok(stock)
}

/// Writes a stock file, every list in place of what is on offer; the same stock gives the same text.
#[must_use]
pub fn write(stock: &Stock) -> String {
    serde_json::to_string_pretty(&StockForm::of(stock)).unwrap_or_default()
}

/// The JSON Schema (draft 2020-12) of the stock file.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    let schema = schemars::schema_for!(StockForm);
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}
