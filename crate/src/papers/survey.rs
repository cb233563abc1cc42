//! A survey of works as rows for other programs: one for each size on offer of each work.

use super::data::{Rows, inches, mm};
use crate::print::Exact;
use crate::report::way_word;
use crate::rounding::{Mode, divide};
use crate::works::Works;
use crate::works::survey::{Printed, Survey};
use serde_json::Value;

/// The columns of a survey.
const SURVEY: &[(&str, &str)] = &[
    ("row", "the work's row in the list; of JSON its number"),
    ("identifier", "what the work is called by in the studio's records"),
    ("title", "its title"),
    ("dateCreated", "when it was made, as ISO 8601 has it"),
    ("availability", "whether the original can be had"),
    ("file", "the name of its file"),
    ("widthPx", "pixels of the file across, upright"),
    ("heightPx", "pixels of the file down, upright"),
    ("size", "the size on offer: of the print, or of the frame round its mat"),
    ("way", "how it is printed: whole, mat, border or crop"),
    ("width_mm", "width of that size, turned as the picture is, in millimetres, to the nearest micrometre"),
    ("height_mm", "its height in millimetres"),
    ("width_in", "its width in inches, to the nearest millionth"),
    ("height_in", "its height in inches"),
    ("sheet_width_mm", "width of the sheet that is printed, in millimetres"),
    ("sheet_height_mm", "its height in millimetres"),
    ("image_width_mm", "width of the picture on it, in millimetres"),
    ("image_height_mm", "its height in millimetres"),
    ("ppi", "resolution of the print in pixels per inch, rounded down to a whole number"),
    ("lost", "the share of the picture that is lost, exactly, such as 1/6"),
    ("lost_percent", "the same in percent, to a hundredth"),
    ("sharp_from_mm", "from where its pixels merge for a good eye, in millimetres"),
    ("limited_by", "what stands against it; empty where it can be printed so"),
    ("loses", "what is cropped off that must be kept: subject, signature"),
];

/// A row for each size that can be printed, and for those that can't where these are asked for.
#[must_use]
pub fn rows(works: &Works, survey: &Survey, with_limited: bool) -> Rows {
    let mut rows = Vec::new();
    for one in &survey.suited {
        let work = &works.works[one.work];
        let named: [Value; 8] = [
            work.row.into(),
            text(&work.identifier),
            text(&work.title),
            work.created.map(|created| created.to_string()).into(),
            work.availability.map(crate::works::Availability::words).into(),
            text(&work.file),
            one.px.0.into(),
            one.px.1.into(),
        ];
        let limited = one.limited.iter().filter(|_| with_limited);
        for printed in one.prints.iter().chain(limited) {
            rows.push(named.iter().cloned().chain(of_print(printed)).collect());
        }
    }
    Rows { columns: SURVEY, rows }
}

fn text(text: &str) -> Value {
    if text.is_empty() { Value::Null } else { text.into() }
}

fn of_print(printed: &Printed) -> [Value; 16] {
    let lost = [(printed.loses_subject, "subject"), (printed.loses_signature, "signature")];
    let lost: Vec<&str> = lost.into_iter().filter(|(is_lost, _)| *is_lost).map(|(_, word)| word).collect();
    let limits: Vec<&str> = printed.limits.iter().map(|limit| limit.words()).collect();
    [
        printed.name.clone().into(),
        way_word(printed.way).into(),
        mm(printed.size.width),
        mm(printed.size.height),
        inches(printed.size.width),
        inches(printed.size.height),
        mm(printed.sheet.width),
        mm(printed.sheet.height),
        mm(printed.image.width),
        mm(printed.image.height),
        i64::try_from(printed.ppi.to_integer()).ok().into(),
        printed.lost.share.to_string().into(),
        hundredths(printed.lost.share * 100),
        mm(printed.sharp_from),
        text(&limits.join(", ")),
        text(&lost.join(", ")),
    ]
}

/// To the nearest hundredth.
fn hundredths(value: Exact) -> Value {
    super::data::number(divide(value.numer() * 100, *value.denom(), Mode::HalfAway), 100)
}
