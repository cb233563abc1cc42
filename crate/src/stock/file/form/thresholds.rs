//! Thresholds in the stock file.

use super::*;
use crate::stock::thresholds::{ALL, Threshold};

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct ThresholdForm {
    /// What it limits: one of the names that a written stock lists.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// A length, or a number such as 150, 0.75 or 2/3.
    value: Text,
    /// Where it is from; a list of one's own when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    source: Option<String>,
}

impl RowForm for ThresholdForm {
    type Row = Threshold;

    fn of(row: &Threshold) -> Self {
        Self { name: row.name.clone(), value: Text(row.amount.text()), source: Some(row.source.clone()) }
    }

    fn read(self, reader: Reader) -> Read<Threshold> {
        let usual = ALL.iter().find(|usual| usual.name == self.name).ok_or_else(|| {
            String::from("there is no limit of this name; save the stock list to see all of them")
        })?;
        Ok(Threshold {
            amount: usual.amount.read_alike(&self.value.0, reader.bare)?,
            name: self.name,
            source: self.source.unwrap_or_else(|| String::from("a list of one's own")),
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Threshold) -> &str {
        &row.name
    }
}
