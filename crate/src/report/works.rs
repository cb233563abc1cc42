//! A survey of works in a report.

use super::{Extent, Measure, SidesReport, VERSION, extent, measure, number, sides};
use crate::fit::Way;
use crate::works::matched::Note;
use crate::works::survey::{Largest, Limit, Printed, Question, Survey, Surveyed};
use crate::works::{Problem, Work, Works};
use serde::Serialize;

/// Which works print at which size.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel survey of works"))]
pub struct WorksReport {
    /// The version of this form, a whole number: 1. It rises when a name goes or changes its meaning; new names come without that.
    pub version: u8,
    /// How many works the list has.
    pub works: usize,
    /// What they are printed on.
    pub on: &'static str,
    /// Pixels per inch that prints keep at least.
    pub least_ppi: u32,
    /// The works that suit what was asked, in the order of the list.
    pub suited: Vec<WorkReport>,
    /// How many works were left out, by the first thing asked that they do not meet.
    pub left_out: Vec<LeftOutReport>,
    /// What is wrong in the list.
    pub problems: Vec<ProblemReport>,
    /// Where the list and the files differ, and what was taken from the files.
    pub notes: Vec<String>,
}

/// A work that suits.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct WorkReport {
    /// Its row in the list, where the names of the columns are row 1; of JSON its number.
    pub row: usize,
    /// What it is called by in the studio's records; empty when not stated.
    pub identifier: String,
    /// Its title; empty when not stated.
    pub title: String,
    /// Who made it; empty when not stated.
    pub creator: String,
    /// When it was made, as ISO 8601 has it; null when not stated.
    pub date_created: Option<String>,
    /// Whether the original can be had; null when not stated.
    pub availability: Option<&'static str>,
    /// The name of its file; empty when not stated.
    pub file: String,
    /// Pixels of the file, width and height, upright.
    pub px: [u32; 2],
    /// The largest prints of the whole picture at 150, 200, 240 and 300 pixels per inch.
    pub largest: Vec<LargestReport>,
    /// The largest at the resolution that prints keep at least; null where nothing can be printed.
    pub at_least_ppi: Option<LargestReport>,
    /// Sizes that can be printed, the best of each way first.
    pub prints: Vec<PrintedReport>,
    /// Sizes that can't be printed, with what stands against them.
    pub limited: Vec<PrintedReport>,
}

/// The largest print at a resolution.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LargestReport {
    /// Pixels per inch.
    pub ppi: u32,
    /// Its size.
    pub size: Extent,
    /// What keeps it from being larger: the file, the roll, the sheet, or the maker's smaller side.
    pub limited_by: &'static str,
}

/// A work in a size on offer.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PrintedReport {
    /// The size by its name: of the print, or of the frame round its mat.
    pub name: String,
    /// In what way: whole, mat, border or crop.
    pub way: &'static str,
    /// That size, turned as the picture is.
    pub size: Extent,
    /// The sheet that is printed.
    pub sheet: Extent,
    /// The picture on it.
    pub image: Extent,
    /// White paper round the picture, or the board round the opening of a mat.
    pub borders: SidesReport,
    /// Pixels per inch, to 6 decimals.
    pub ppi: f64,
    /// The share of the picture that is lost, exactly, such as 1/6.
    pub lost_exact: String,
    /// The same, 0 to 1 (to 6 decimals).
    pub lost: f64,
    /// From where its pixels merge for a good eye.
    pub sharp_from: Measure,
    /// What stands against it: the file, the roll, the sheet, the maker's smaller side.
    pub limited_by: Vec<&'static str>,
    /// Whether what must be kept is cropped off.
    pub loses_subject: bool,
    /// Whether the signature is cropped off.
    pub loses_signature: bool,
}

/// Works that were left out.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LeftOutReport {
    /// Why.
    pub why: &'static str,
    /// How many.
    pub works: usize,
}

/// Something wrong in the list.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ProblemReport {
    /// The row; of JSON the number of the work; null where it is the whole list.
    pub row: Option<usize>,
    /// The column; null where it is the whole row.
    pub column: Option<&'static str>,
    /// In a sentence.
    pub words: String,
}

/// A way in one word, as options have it.
#[must_use]
pub const fn way_word(way: Way) -> &'static str {
    match way {
        Way::Whole => "whole",
        Way::Matted => "mat",
        Way::Bordered => "border",
        Way::Cropped => "crop",
    }
}

/// Reports on a survey.
#[must_use]
pub fn works(works: &Works, asked: &Question, survey: &Survey, notes: &[Note]) -> WorksReport {
    let left_out =
        survey.left_out.iter().map(|(why, works)| LeftOutReport { why: why.words(), works: *works });
    WorksReport {
        version: VERSION,
        works: works.works.len(),
        on: asked.on.words(),
        least_ppi: survey.least_ppi,
        suited: survey.suited.iter().map(|one| work_report(&works.works[one.work], one)).collect(),
        left_out: left_out.collect(),
        problems: works.problems.iter().map(problem_report).collect(),
        notes: notes.iter().map(ToString::to_string).collect(),
    }
}

fn problem_report(problem: &Problem) -> ProblemReport {
    ProblemReport {
        row: Some(problem.row).filter(|row| *row < usize::MAX),
        column: problem.column.map(crate::works::Key::name),
        words: problem.to_string(),
    }
}

fn work_report(work: &Work, one: &Surveyed) -> WorkReport {
    WorkReport {
        row: work.row,
        identifier: work.identifier.clone(),
        title: work.title.clone(),
        creator: work.creator.clone(),
        date_created: work.created.map(|created| created.to_string()),
        availability: work.availability.map(crate::works::Availability::words),
        file: work.file.clone(),
        px: [one.px.0, one.px.1],
        largest: one.largest.iter().map(largest_report).collect(),
        at_least_ppi: one.at_standard.as_ref().map(largest_report),
        prints: one.prints.iter().map(printed_report).collect(),
        limited: one.limited.iter().map(printed_report).collect(),
    }
}

fn largest_report(largest: &Largest) -> LargestReport {
    LargestReport { ppi: largest.ppi, size: extent(largest.size), limited_by: largest.limit.words() }
}

fn printed_report(printed: &Printed) -> PrintedReport {
    PrintedReport {
        name: printed.name.clone(),
        way: way_word(printed.way),
        size: extent(printed.size),
        sheet: extent(printed.sheet),
        image: extent(printed.image),
        borders: sides(printed.borders),
        ppi: number(printed.ppi),
        lost_exact: printed.lost.share.to_string(),
        lost: number(printed.lost.share),
        sharp_from: measure(printed.sharp_from),
        limited_by: printed.limits.iter().map(|limit: &Limit| limit.words()).collect(),
        loses_subject: printed.loses_subject,
        loses_signature: printed.loses_signature,
    }
}

/// The JSON Schema (draft 2020-12) of a survey.
#[cfg(feature = "schema")]
#[must_use]
pub fn works_schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(WorksReport)).unwrap_or_default() + "\n"
}
