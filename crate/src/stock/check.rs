//! Whether a stock holds together: ranges and names, row by row.

use super::{
    Bar, Density, Parcel, Profile, Roll, SheetStock, StandardSize, Stick, Stock, Tube, VolumeDivisor, limits,
};
use crate::described::Choosable;
use crate::geometry::Size;
use crate::length::{Length, print::exact};
use crate::plan::Material;
use crate::plan::limits::{PIECE, ROOM};
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

type Checked = Result<(), String>;

pub(super) fn stock(stock: &Stock) -> Checked {
    rows("sizes", &stock.sizes, |row| &row.name, standard_size)?;
    rows("rolls", &stock.rolls, |row| &row.name, roll)?;
    rows("sheets", &stock.sheets, |row| &row.name, sheet)?;
    rows("mouldings", &stock.mouldings, |row| &row.name, profile)?;
    rows("sticks", &stock.sticks, |row| &row.name, stick)?;
    rows("parcels", &stock.parcels, |row| &row.name, parcel)?;
    rows("tubes", &stock.tubes, |row| &row.name, tube)?;
    rows("densities", &stock.densities, |row| row.material.name(), density)?;
    rows("bars", &stock.bars, |row| &row.name, bar)?;
    let lacking =
        Material::all().find(|material| !stock.densities.iter().any(|row| row.material == *material));
    match lacking {
        None => Ok(()),
        Some(material) => Err(format!(
            "the densities have no row for {}; give one for every material, or use \"add\" to change single rows",
            material.name()
        )),
    }
}

/// A list: how many rows, a name of its own for each, and each by its own rules.
fn rows<T>(list: &str, rows: &[T], name: impl Fn(&T) -> &str, check: impl Fn(&T) -> Checked) -> Checked {
    if rows.len() > limits::ROWS {
        return Err(format!(
            "{list}: there would be {} rows; a list takes at most {}",
            rows.len(),
            limits::ROWS
        ));
    }
    let mut seen = BTreeSet::new();
    for (index, row) in rows.iter().enumerate() {
        let name = name(row);
        text("the name", name).map_err(|why| format!("{list}, row {}: {why}", index + 1))?;
        if !seen.insert(name) {
            return Err(format!("{list}: two rows are called \"{name}\"; give each a name of its own"));
        }
        check(row).map_err(|why| format!("{list}, \"{name}\": {why}"))?;
    }
    Ok(())
}

fn standard_size(row: &StandardSize) -> Checked {
    text("the series", &row.series)?;
    size(row.size)
}

fn roll(row: &Roll) -> Checked {
    positive("the width", row.width, PIECE)?;
    within("the margin", row.margin, PIECE)?;
    if row.margin * 2 >= row.width {
        return Err(format!(
            "two margins of {} leave nothing of a width of {}; state a narrower margin",
            exact(row.margin),
            exact(row.width)
        ));
    }
    row.longest.map_or(Ok(()), |longest| positive("the longest print", longest, ROOM))
}

fn sheet(row: &SheetStock) -> Checked {
    positive("the thickness", row.thickness, PIECE)?;
    size(row.size)?;
    let grams = row.grams_per_square_metre.unwrap_or(1);
    number("the grams of a square metre", grams, 1..=limits::GRAMS_PER_SQUARE_METRE)
}

fn profile(row: &Profile) -> Checked {
    positive("the face", row.face, PIECE)?;
    positive("the depth", row.depth, PIECE)?;
    within("the rabbet's width", row.rabbet_width, PIECE)?;
    within("the rabbet's depth", row.rabbet_depth, PIECE)?;
    if row.rabbet_width > row.face {
        return Err(format!(
            "the rabbet is {} wide and the face {}; the lip cannot reach further than the face",
            exact(row.rabbet_width),
            exact(row.face)
        ));
    }
    if row.rabbet_depth > row.depth {
        return Err(format!(
            "the rabbet is {} deep and the moulding {}; the rabbet cannot be the deeper one",
            exact(row.rabbet_depth),
            exact(row.depth)
        ));
    }
    if row.is_floater && (row.rabbet_width, row.rabbet_depth) != (Length::ZERO, Length::ZERO) {
        return Err("a floater frame has no rabbet; leave its rabbet out".to_owned());
    }
    Ok(())
}

fn stick(row: &Stick) -> Checked {
    positive("the length", row.length, PIECE)?;
    within("the kerf", row.kerf, PIECE)?;
    within("the trim", row.trim, PIECE)?;
    if row.trim >= row.length {
        return Err(format!(
            "a trim of {} leaves nothing of a length of {}; state a shorter trim",
            exact(row.trim),
            exact(row.length)
        ));
    }
    Ok(())
}

fn parcel(row: &Parcel) -> Checked {
    row.longest.map_or(Ok(()), |longest| positive("the longest side", longest, ROOM))?;
    row.length_and_girth.map_or(Ok(()), |sum| positive("length and girth", sum, ROOM))?;
    number("the weight in grams", row.most_grams.unwrap_or(1), 1..=limits::PARCEL_GRAMS)?;
    match row.volume_divisor {
        None => Ok(()),
        Some(
            VolumeDivisor::CubicInchesPerPound(divisor) | VolumeDivisor::CubicCentimetresPerKilogram(divisor),
        ) => number("the divisor of the volume", divisor, 1..=limits::VOLUME_DIVISOR),
    }
}

fn tube(row: &Tube) -> Checked {
    positive("the diameter", row.diameter, PIECE)?;
    within("the spare length", row.spare, PIECE)
}

fn density(row: &Density) -> Checked {
    text("the source", &row.source)?;
    let range = 1..=limits::KG_PER_M3;
    number("the least", row.least, range.clone())?;
    number("the density", row.kg_per_m3, range.clone())?;
    number("the most", row.most, range)?;
    if row.least > row.kg_per_m3 || row.kg_per_m3 > row.most {
        return Err(format!(
            "the density is {}, the least {} and the most {}; they must stand in order",
            row.kg_per_m3, row.least, row.most
        ));
    }
    Ok(())
}

fn bar(row: &Bar) -> Checked {
    positive("the depth", row.depth, PIECE)?;
    positive("the width", row.width, PIECE)
}

fn size(size: Size) -> Checked {
    positive("the width", size.width, PIECE)?;
    positive("the height", size.height, PIECE)
}

fn text(what: &str, text: &str) -> Checked {
    if text.trim().is_empty() {
        return Err(format!("{what} is empty; write at least one character"));
    }
    let characters = text.chars().count();
    if characters > limits::NAME {
        return Err(format!("{what} has {characters} characters; write at most {}", limits::NAME));
    }
    if text.chars().any(char::is_control) {
        return Err(format!("{what} has a control character in it; write plain text on one line"));
    }
    Ok(())
}

fn positive(what: &str, length: Length, most: Length) -> Checked {
    if length <= Length::ZERO {
        return Err(format!("{what} is {}; it must be more than nothing", exact(length)));
    }
    within(what, length, most)
}

fn within(what: &str, length: Length, most: Length) -> Checked {
    if (Length::ZERO..=most).contains(&length) {
        return Ok(());
    }
    let limit = if most == ROOM { "100 m (about 328 ft)" } else { "10 m (about 32 ft)" };
    Err(format!("{what} is {}; allowed is 0 in to {limit}", exact(length)))
}

fn number(what: &str, given: u32, allowed: RangeInclusive<u32>) -> Checked {
    if allowed.contains(&given) {
        return Ok(());
    }
    Err(format!("{what} is {given}; allowed is {} to {}", allowed.start(), allowed.end()))
}
