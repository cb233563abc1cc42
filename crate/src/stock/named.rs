//! What is on offer, as it is called in a plan's units.
//!
//! A row's name is its key, and names it in inches where it is made in inches. Whoever works in centimetres reads the same size in
//! millimetres; names of a shop's own stay as the shop wrote them.
//!
//! ```
//! use overmantel::{plan::System, stock::{name_in, name_to_buy}};
//! let metric = System::Centimetres;
//! assert_eq!(name_in("box, 3/4 in", metric), "box, 19 mm");
//! assert_eq!(name_in("foam board, 3/16 in, 32 × 40 in", metric), "foam board, 4.8 mm, 813 × 1016 mm");
//! assert_eq!(name_in("roll, 24 in (61 cm)", metric), "roll, 61 cm");
//! let bought = ["foam board, 3/16 in, 32 × 40 in", "roll, 24 in (61 cm)", "foam board, 5 mm, 70 × 100 cm"];
//! let both = ["foam board, 4.8 mm, 813 × 1016 mm (32 × 40 in)", "roll, 61 cm (24 in)", "foam board, 5 mm, 70 × 100 cm"];
//! assert_eq!(bought.map(|name| name_to_buy(name, metric)), both);
//! assert_eq!(name_in("roll, 24 in (61 cm)", System::Inches), "roll, 24 in");
//! assert_eq!(name_in("ours, 3/4 in", metric), "ours, 3/4 in");
//! ```

use super::Stock;
use crate::length::parse::parse;
use crate::length::print::{Style, print};
use crate::length::{Length, Unit};
use crate::plan::System;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The offered names with inches or feet in them, and what they are called in metric plans.
static METRIC: LazyLock<BTreeMap<String, String>> = LazyLock::new(|| {
    let stock = Stock::offered();
    let sheets = stock.sheets.into_iter().map(|row| row.name);
    let rolls = stock.rolls.into_iter().map(|row| row.name);
    let mouldings = stock.mouldings.into_iter().map(|row| row.name);
    let sticks = stock.sticks.into_iter().map(|row| row.name);
    let tubes = stock.tubes.into_iter().map(|row| row.name);
    let bars = stock.bars.into_iter().map(|row| row.name);
    let hangers = stock.hangers.into_iter().map(|row| row.name);
    let all = sheets.chain(rolls).chain(mouldings).chain(sticks).chain(tubes).chain(bars).chain(hangers);
    all.map(|name| (metric(&name), name))
        .filter(|(metric, name)| metric != name)
        .map(|(a, b)| (b, a))
        .collect()
});

/// A row of the stock as whoever buys it calls it: what is made in inches has them behind its millimetres.
#[must_use]
pub fn name_to_buy(name: &str, system: System) -> Cow<'_, str> {
    let own = name_in(name, system);
    if system == System::Inches || own == name {
        return own;
    }
    // "roll, 24 in (61 cm)" says both already.
    match name.split_once(" (") {
        Some((inches, metric)) => match inches.rsplit_once(", ") {
            Some((what, inches)) => {
                Cow::Owned([what, ", ", &metric.replacen(')', &[" (", inches, ")"].concat(), 1)].concat())
            }
            None => own,
        },
        None => Cow::Owned(with_both(name)),
    }
}

/// A row of the stock as whoever works in a system calls it.
#[must_use]
pub fn name_in(name: &str, system: System) -> Cow<'_, str> {
    match (system, METRIC.get(name)) {
        (System::Centimetres, Some(metric)) => Cow::Owned(metric.clone()),
        // "roll, 24 in (61 cm)" says both, and one is enough.
        (System::Inches, Some(_)) => {
            match name.split_once(" in (").and_then(|(before, rest)| Some((before, rest.split_once(')')?.1)))
            {
                Some((before, after)) => Cow::Owned([before, " in", after].concat()),
                None => Cow::Borrowed(name),
            }
        }
        _ => Cow::Borrowed(name),
    }
}

/// A name with its inches and feet as millimetres; what stands behind them in brackets is what they are called already.
fn metric(name: &str) -> String {
    let mut said = String::new();
    let mut rest = name;
    while let Some((start, end, sizes)) = measured(rest) {
        said += &rest[..start];
        rest = &rest[end..];
        match rest.strip_prefix(" (").and_then(|rest| rest.split_once(')')) {
            Some((same, after)) => {
                said += same;
                rest = after;
            }
            None => said += &in_millimetres(&sizes),
        }
    }
    said + rest
}

/// The first measure in inches or feet in a text: from where to where, and its lengths.
fn measured(text: &str) -> Option<(usize, usize, Vec<Length>)> {
    let ends = [(" in", Unit::Inch), (" ft", Unit::Foot)];
    let (at, unit) =
        ends.into_iter().filter_map(|(end, unit)| Some((text.find(end)?, unit))).min_by_key(|it| it.0)?;
    let is_of_it = |letter: &char| letter.is_ascii_digit() || "./× ".contains(*letter);
    let length: usize = text[..at].chars().rev().take_while(is_of_it).map(char::len_utf8).sum();
    let sizes = text[at - length..at].trim_start();
    let parsed: Option<Vec<Length>> = sizes.split(" × ").map(|size| parse(size, unit).ok()).collect();
    Some((at - sizes.len(), at + 3, parsed?))
}

/// A name with its last inches or feet as millimetres, and in brackets as they are; those before as millimetres alone.
fn with_both(name: &str) -> String {
    let mut said = String::new();
    let mut rest = name;
    while let Some((start, end, sizes)) = measured(rest) {
        let (before, own) = (&rest[..start], &rest[start..end]);
        rest = &rest[end..];
        said += before;
        said += &in_millimetres(&sizes);
        if measured(rest).is_none() {
            said += &[" (", own, ")"].concat();
        }
    }
    said + rest
}

/// Whole millimetres, but tenths of what is thinner than a centimetre.
fn in_millimetres(sizes: &[Length]) -> String {
    let decimals = |size: Length| u8::from(size < Length::mm(10));
    let text = |size: &Length| print(*size, Style::Millimetres { decimals: decimals(*size) }).text;
    let texts: Vec<String> = sizes.iter().map(text).collect();
    let Some((last, before)) = texts.split_last() else { return String::new() };
    let bare = before.iter().map(|text| text.trim_end_matches(" mm"));
    bare.chain([last.as_str()]).collect::<Vec<_>>().join(" × ")
}
