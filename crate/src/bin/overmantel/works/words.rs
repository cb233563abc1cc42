//! A survey of works in words.

use overmantel::findings::Value;
use overmantel::fit::Way;
use overmantel::measure::{from_afar, shown_size};
use overmantel::plan::{Plan, System, Units};
use overmantel::print::Exact;
use overmantel::report::way_word;
use overmantel::works::suited::{Suited, reasons};
use overmantel::works::survey::{Largest, Printed, Question, Survey, Surveyed};
use overmantel::works::{Work, Works};

/// The ways in the order in which they are told.
const WAYS: [Way; 4] = [Way::Whole, Way::Matted, Way::Bordered, Way::Cropped];

pub(super) fn in_words(works: &Works, asked: &Question, found: &Survey, with_limited: bool) -> String {
    let units = Units { first: asked.system.unwrap_or(System::Inches), both: false };
    let count = found.suited.len();
    let mut text = format!(
        "{} of {} works {}\n",
        if count == 0 { "None".to_owned() } else { count.to_string() },
        works.works.len(),
        criteria(asked, found, units)
    );
    let left_out: Vec<String> =
        found.left_out.iter().map(|(why, count)| format!("{count} {}", why.words())).collect();
    if !left_out.is_empty() {
        text += &format!("Left out: {}\n", left_out.join(", "));
    }
    for one in &found.suited {
        text += "\n";
        text += &of_work(&works.works[one.work], one, asked, units, with_limited);
    }
    text
}

/// What is asked, to stand behind "works".
fn criteria(asked: &Question, found: &Survey, units: Units) -> String {
    let mut parts = vec![match asked.size {
        Some(size) => format!("can be printed at {}", shown_size(size, units)),
        None => "can be printed".to_owned(),
    }];
    parts.push(format!("on {} at {} ppi or better", asked.on.words(), found.least_ppi));
    let ways: Vec<&str> =
        WAYS.iter().filter(|way| asked.ways.contains(way)).map(|way| way_words(*way)).collect();
    if !ways.is_empty() {
        parts.push(ways.join(" or "));
    }
    let mut text = parts.join(" ");
    match (asked.since, asked.until) {
        (Some(since), Some(until)) => text += &format!("; made from {since} to {until}"),
        (Some(since), None) => text += &format!("; made in {since} or later"),
        (None, Some(until)) => text += &format!("; made in {until} or earlier"),
        (None, None) => {}
    }
    if asked.is_available {
        text += "; the original is available";
    }
    if let Some(shape) = asked.shape {
        text += &format!("; of the shape {}", shape.words());
    }
    if !asked.words.is_empty() {
        text += &format!("; with \"{}\" in the title", asked.words.join(" "));
    }
    text
}

const fn way_words(way: Way) -> &'static str {
    match way {
        Way::Whole => "whole",
        Way::Matted => "in a mat",
        Way::Bordered => "with a white border",
        Way::Cropped => "cropped",
    }
}

fn of_work(work: &Work, one: &Surveyed, asked: &Question, units: Units, with_limited: bool) -> String {
    let identifier = if work.identifier.is_empty() || work.title.is_empty() {
        String::new()
    } else {
        format!("{} ", work.identifier)
    };
    let created = work.created.map_or_else(String::new, |created| format!(", {created}"));
    let state = work.availability.map_or_else(String::new, |state| format!(", {}", state.words()));
    let mut text = format!("{identifier}{}{created}{state}; {} × {} px\n", work.name(), one.px.0, one.px.1);
    let largest: Vec<String> = one.largest.iter().map(|largest| largest_words(largest, units)).collect();
    text += &format!("  largest: {}\n", largest.join(", "));
    for way in WAYS {
        let mut prints: Vec<&Printed> = one.prints.iter().filter(|printed| printed.way == way).collect();
        if asked.size.is_none() {
            // The largest of each way says most; of crops that of those that lose least.
            let least = prints.iter().map(|printed| printed.lost.share).min();
            if way == Way::Cropped {
                prints.retain(|printed| Some(printed.lost.share) == least);
            }
            prints = prints
                .into_iter()
                .max_by_key(|printed| (printed.size.width, printed.size.height))
                .into_iter()
                .collect();
        }
        for printed in prints {
            text += &format!("  {}\n", print_words(printed, units));
        }
    }
    for printed in one.limited.iter().filter(|_| with_limited) {
        let limits: Vec<&str> = printed.limits.iter().map(|limit| limit.words()).collect();
        text += &format!(
            "  not {} {}: limited by {} ({} ppi)\n",
            printed.name,
            way_word(printed.way),
            limits.join(" and "),
            printed.ppi.to_integer()
        );
    }
    text
}

fn largest_words(largest: &Largest, units: Units) -> String {
    format!("{} at {} ppi ({})", shown_size(largest.size, units), largest.ppi, largest.limit.words())
}

fn print_words(printed: &Printed, units: Units) -> String {
    let mut text = format!("{} {}", printed.name, way_words(printed.way));
    if printed.way == Way::Matted {
        text += &format!(", the print {}", shown_size(printed.sheet, units));
    }
    if printed.way == Way::Bordered {
        text += &format!(", the picture {}", shown_size(printed.image, units));
    }
    if printed.way == Way::Cropped {
        text += &format!(", losing {}", lost_words(printed.lost.share));
    }
    text +=
        &format!(": {} ppi, sharp from {}", printed.ppi.to_integer(), from_afar(printed.sharp_from, units));
    if printed.loses_subject {
        text += "; what must be kept is cropped off";
    }
    if printed.loses_signature {
        text += "; the signature is cropped off";
    }
    text
}

/// A share in percent to a tenth, and exactly where that is short.
fn lost_words(share: Exact) -> String {
    let tenths = overmantel::rounding::divide(
        share.numer() * 1000,
        *share.denom(),
        overmantel::rounding::Mode::HalfAway,
    );
    let exact = if *share.denom() < 1000 { format!(" ({share})") } else { String::new() };
    format!("{}.{} %{exact}", tenths / 10, tenths % 10)
}

/// Which works suit the pieces of a plan.
pub(super) fn for_plan(plan: &Plan, works: &Works, found: &[Suited], tried: usize) -> String {
    let mut text = format!(
        "{}: {} for its {}, of {tried} works\n",
        plan.title,
        match found.len() {
            0 => "no works".to_owned(),
            1 => "1 set of works".to_owned(),
            count => format!("{count} sets of works"),
        },
        match plan.pieces.len() {
            1 => "piece".to_owned(),
            count => format!("{count} pieces"),
        }
    );
    for (number, one) in (1..).zip(found) {
        let names: Vec<String> = one.works.iter().map(|&place| works.works[place].name()).collect();
        let points = Value::Share(one.number()).shown(plan.units);
        text += &format!("\n{number}. {} ({points} points)\n", names.join(" | "));
        for reason in reasons(plan, &works.works, one) {
            text += &format!("  {reason}\n");
        }
    }
    text
}
