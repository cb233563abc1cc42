//! Findings in a report.

use super::{Extent, Measure, Weight, extent, measure, number, weight};
use crate::figures::Figures;
use crate::findings::{Finding, Severity, Value};
use crate::mend;
use crate::plan::Plan;
use crate::stock::Stock;
use serde::Serialize;

/// What is unwise about a plan.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel findings"))]
pub struct Findings {
    /// The version of this form, a whole number: 1. It rises when a name goes or changes its meaning; new names come without that.
    pub version: u8,
    /// The plan's title.
    pub title: String,
    /// The severity of the most serious finding; null when there is none.
    pub worst: Option<&'static str>,
    /// Each finding, in the order in which they are listed.
    pub findings: Vec<FindingReport>,
}

/// Something unwise about a plan that works.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FindingReport {
    /// A stable name.
    pub code: &'static str,
    /// How much it matters: `a matter of taste`, `will disappoint`, `for your safety` or `cannot be made`.
    pub severity: &'static str,
    /// The reason in one sentence, with its numbers in the plan's units.
    pub sentence: String,
    /// What it is based on.
    pub authority: AuthorityReport,
    /// Which of several things it is about; empty where there is only one.
    pub subject: String,
    /// The numbers that it is based on, in the order of the sentence.
    pub numbers: Vec<NumberReport>,
    /// Remedies, each of which was tried on the plan by itself.
    pub remedies: Vec<RemedyReport>,
}

/// What a finding is based on.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AuthorityReport {
    /// `law or standard`, `published guidance`, `common practice`, `sizes`, `stock` or `own list`.
    pub kind: &'static str,
    /// In words, with the name of the law, the standard or the publication.
    pub words: &'static str,
}

/// A number that a finding is based on.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct NumberReport {
    /// What it is, as the finding's row calls it.
    pub name: &'static str,
    /// The number.
    pub value: ValueReport,
}

/// Something that a finding is based on.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ValueReport {
    /// A length.
    Length(Measure),
    /// A width and a height.
    Size(Extent),
    /// A number, to 6 decimals.
    Number(f64),
    /// A weight.
    Weight(Weight),
    /// A name or something similar.
    Words(String),
}

/// A change to the plan that removes a finding.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RemedyReport {
    /// Its name, which no other remedy of the plan has.
    pub id: String,
    /// What it does.
    pub words: String,
    /// Fields with what is written to each, one after the other; only the final plan has to be possible.
    pub settings: Vec<[String; 2]>,
}

pub(super) fn finding_report(found: &Finding) -> FindingReport {
    let value = |value: &Value| match value {
        Value::Length(length, _) => ValueReport::Length(measure(*length)),
        Value::Size(size) => ValueReport::Size(extent(*size)),
        Value::Share(share) | Value::Percent(share) => ValueReport::Number(number(*share)),
        Value::Count(count) => ValueReport::Number(number(crate::print::Exact::from_integer(*count))),
        Value::Mass(mass) => ValueReport::Weight(weight(*mass)),
        Value::Words(words) => ValueReport::Words(words.clone()),
    };
    FindingReport {
        code: found.code,
        severity: found.severity.words(),
        sentence: found.sentence.clone(),
        authority: AuthorityReport { kind: found.authority.kind(), words: found.authority.words() },
        subject: found.subject.clone(),
        numbers: found
            .numbers
            .iter()
            .map(|(name, number)| NumberReport { name, value: value(number) })
            .collect(),
        remedies: found
            .remedies
            .iter()
            .map(|remedy| RemedyReport {
                id: remedy.id.clone(),
                words: remedy.words.clone(),
                settings: remedy
                    .edits
                    .iter()
                    .map(|edit| [edit.field.to_string(), edit.to.to_string()])
                    .collect(),
            })
            .collect(),
    }
}

/// Reports what is unwise about a plan made from a stock, of this severity or more.
#[must_use]
pub fn findings(plan: &Plan, figures: &Figures, stock: &Stock, least: Severity) -> Findings {
    let mut found = mend::findings(plan, figures, stock);
    found.retain(|finding| finding.severity >= least);
    Findings {
        version: super::basic::VERSION,
        title: plan.title.clone(),
        worst: found.iter().map(|finding| finding.severity).max().map(Severity::words),
        findings: found.iter().map(finding_report).collect(),
    }
}

/// The JSON Schema (draft 2020-12) of the findings.
#[cfg(feature = "schema")]
#[must_use]
pub fn findings_schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(Findings)).unwrap_or_default() + "\n"
}
