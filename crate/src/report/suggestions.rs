//! Suggestions in a report.

use super::{Extent, Measure, PriceReport, extent, measure, number, price_report};
use crate::figures::{Figures, NoAnswer};
use crate::plan::Plan;
use crate::plan::file;
use crate::print::Exact;
use crate::stock::Stock;
use crate::suggest::{SuggestionWish, Suggestions, TERMS};
use serde::Serialize;
use std::fmt;

/// Plans suggested for a wall.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel suggestions"))]
pub struct SuggestionsReport {
    /// The version of this form, a whole number: 1. It rises when a name goes or changes its meaning; new names come without that.
    pub version: u8,
    /// The title of the plan that they are for.
    pub title: String,
    /// The price book's name; null without one.
    pub book: Option<String>,
    /// Whether the book is only an example: nobody sells at its prices; null without a book.
    pub example: Option<bool>,
    /// Combinations considered.
    pub considered: u64,
    /// How many of those had to be calculated; the others could not be better.
    pub looked_at: u64,
    /// The best comes first. After it comes each time what has the fewest points when 10 are added for each thing that an earlier one has too: the number of pieces, the material.
    pub suggestions: Vec<SuggestionReport>,
}

/// A whole plan, and why.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SuggestionReport {
    /// What it is, in short.
    pub words: String,
    /// Why, in short sentences.
    pub reasons: Vec<String>,
    /// Its cautions, where everything on offer has some; empty when there are none.
    pub cautions: Vec<String>,
    /// Penalty points, with your leanings, to 6 decimals: fewer are better.
    pub points: f64,
    /// The points term by term, without any leaning.
    pub terms: Vec<TermReport>,
    /// The size of the group.
    pub group: Extent,
    /// From the floor to the middle of the group.
    pub group_centre_height: Measure,
    /// What it costs; null without a price book.
    pub price: Option<PriceReport>,
    /// The codes of what is unwise about it.
    pub findings: Vec<&'static str>,
    /// The whole plan, as a plan file has it.
    pub plan: serde_json::Value,
}

/// Points for one thing.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TermReport {
    /// What they are for.
    pub term: &'static str,
    /// How many, to 6 decimals.
    pub points: f64,
}

/// Why suggestions can't be reported, which is a fault of this program.
#[derive(Debug, thiserror::Error)]
pub enum SuggestionsError {
    /// A plan that is suggested has no answer.
    NoAnswer(#[from] NoAnswer),
    /// A plan file that was written is not JSON.
    Json(#[from] serde_json::Error),
}

impl fmt::Display for SuggestionsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoAnswer(why) => why.fmt(f),
            Self::Json(why) => why.fmt(f),
        }
    }
}

/// Reports what is suggested for a plan made from a stock.
///
/// # Errors
/// When a plan that is suggested has no answer, which is a fault of this program.
pub fn suggestions(
    plan: &Plan,
    stock: &Stock,
    wish: &SuggestionWish<'_>,
    found: &Suggestions,
) -> Result<SuggestionsReport, SuggestionsError> {
    let mut told = Vec::new();
    for one in &found.suggestions {
        let figures = Figures::of(&one.plan)?;
        let group = figures.arranged.group;
        let terms = TERMS.iter().zip(one.points);
        let unwise = crate::findings::findings(&one.plan, &figures, stock);
        told.push(SuggestionReport {
            words: one.words.clone(),
            reasons: one.reasons.clone(),
            cautions: one.cautions.clone(),
            points: number(one.total),
            terms: terms
                .map(|(term, points)| TermReport {
                    term: term.0,
                    points: number(Exact::new(points.into(), 6)),
                })
                .collect(),
            group: extent(group.size),
            group_centre_height: measure(group.centre().y),
            price: one.price.as_ref().zip(wish.book).map(|(price, book)| price_report(price, book)),
            findings: unwise.iter().map(|finding| finding.code).collect(),
            plan: serde_json::from_str(&file::write(&one.plan))?,
        });
    }
    Ok(SuggestionsReport {
        version: super::basic::VERSION,
        title: plan.title.clone(),
        book: wish.book.map(|book| book.name.clone()),
        example: wish.book.map(|book| book.is_example),
        considered: found.considered,
        looked_at: found.looked_at,
        suggestions: told,
    })
}

/// The JSON Schema (draft 2020-12) of the suggestions.
#[cfg(feature = "schema")]
#[must_use]
pub fn suggestions_schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(SuggestionsReport)).unwrap_or_default() + "\n"
}
