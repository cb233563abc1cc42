//! Steps: the next value of a field, up or down, by amounts that make sense for what it is; and what a text would come to.

use super::*;
use crate::length::print::exact;

/// The step of a length: of the room, of a piece, of what is small, of what is thin (common practice, no source).
fn amount(length: Length, grade: Grade, system: System, is_large: bool) -> Length {
    let is_small = length.abs() < Length::inches(6);
    let (inches, millimetres) = match (grade, is_small) {
        (Grade::Room, _) => ([(1, 1), (12, 1)], [10_000, 100_000]),
        (Grade::Piece, false) => ([(1, 4), (2, 1)], [5_000, 50_000]),
        (Grade::Piece, true) => ([(1, 8), (1, 1)], [1_000, 10_000]),
        (Grade::Fine | Grade::Cut, _) => ([(1, 64), (1, 16)], [100, 1_000]),
    };
    let which = usize::from(is_large);
    match system {
        System::Inches => Length::inches_ratio(inches[which].0, inches[which].1),
        System::Centimetres => Length::micrometres(millimetres[which]),
    }
}

/// The next whole step beyond a length.
fn beyond(length: Length, step: Length, is_up: bool) -> Length {
    let below = Length::from_units(length.units().div_euclid(step.units()) * step.units());
    match is_up {
        true => below + step,
        false if below == length => below - step,
        false => below,
    }
}

/// The sizes of the stock that a field may be given in the plan's system, turned as the size there is, from the smallest.
#[must_use]
pub fn offered(plan: &Plan, stock: &Stock, field: &str, now: Size) -> Vec<Size> {
    let path: Vec<&str> = field.split('.').collect();
    let names = offered_sizes(stock, &path);
    let rows = stock.sizes.iter().filter(|row| row.system == plan.units.first && names.contains(&row.name));
    let turned = |Size { width, height }: Size| {
        let (short, long) = (width.min(height), width.max(height));
        if now.width > now.height { Size::new(long, short) } else { Size::new(short, long) }
    };
    let mut sizes: Vec<Size> = rows.map(|row| turned(row.size)).collect();
    crate::order::sort_by_key(&mut sizes, |&size| order(size));
    sizes.dedup();
    sizes
}

/// Sizes go by what they cover, then by their width.
fn order(size: Size) -> (i128, Length) {
    (i128::from(size.width.units()) * i128::from(size.height.units()), size.width)
}

/// The next size that is sold, or one larger (smaller) by an amount where that is wanted or there is none.
#[must_use]
pub fn next_size(plan: &Plan, stock: &Stock, field: &str, now: Size, is_up: bool, is_large: bool) -> Size {
    let all = offered(plan, stock, field, now);
    let mut others = all.into_iter().filter(|&size| (order(size) > order(now)) == is_up && size != now);
    let next = if is_up { others.next() } else { others.next_back() };
    let by_amount = |length| beyond(length, amount(length, Grade::Piece, plan.units.first, is_large), is_up);
    next.filter(|_| !is_large).unwrap_or_else(|| Size::new(by_amount(now.width), by_amount(now.height)))
}

/// The text of a field's next value; `None` for a field that has none. Where the stock offers something for it, the next of
/// that; a large step, or one beyond what is offered, goes by an amount.
#[must_use]
pub fn stepped(plan: &Plan, stock: &Stock, field: &str, is_up: bool, is_large: bool) -> Option<String> {
    let path: Vec<&str> = field.split('.').collect();
    let system = plan.units.first;
    let mut scratch = plan.clone();
    let by_amount = |length, grade| beyond(length, amount(length, grade, system, is_large), is_up);
    let stated = lengths(&mut scratch, &path).and_then(|(found, grade)| Some((**found.first()?, grade)));
    if let Some((length, grade)) = stated.or_else(|| derived(plan, field)) {
        let offered = offered_lengths(plan, stock, &path);
        let offered = offered.iter().filter_map(|text| parse(text, system.bare_unit()).ok());
        let next = match is_up {
            true => offered.filter(|&other| other > length).min(),
            false => offered.filter(|&other| other < length).max(),
        };
        return Some(exact(next.filter(|_| !is_large).unwrap_or_else(|| by_amount(length, grade))));
    }
    if let Some(now) = sizes(&mut scratch, &path).and_then(|found| found.first().map(|size| **size)) {
        let next = next_size(plan, stock, field, now, is_up, is_large);
        return Some(format!("{} x {}", exact(next.width), exact(next.height)));
    }
    if let Some(number) = numbers(&mut scratch, &path).and_then(|found| found.first().map(|number| **number))
    {
        let step = if is_large { 50 } else { 10 };
        let below = number / step * step;
        return Some(match is_up {
            true => below + step,
            false if below == number => below.saturating_sub(step),
            false => below,
        })
        .map(|next| next.to_string());
    }
    if let Some(focus) = focuses(&mut scratch, &path).and_then(|found| found.first().map(|focus| **focus)) {
        let step = if is_large { 50 } else { 10 };
        let next = if is_up { focus.saturating_add(step).min(1000) } else { focus.saturating_sub(step) };
        return Some(measure::percent(next));
    }
    let weighting = weightings(&mut scratch, &path).and_then(|found| found.first().map(|found| **found));
    if let Some(Weighting::Ratio { head, foot }) = weighting {
        let foot = if is_up { foot.saturating_add(1) } else { foot.saturating_sub(1) };
        return Some(format!("{foot} : {head}"));
    }
    None
}

/// What a text comes to in a field that takes a length or a size, in the plan's first system and in the other; `None` where
/// the text is not one.
#[must_use]
pub fn comes_to(plan: &Plan, stock: &Stock, field: &str, text: &str) -> Option<String> {
    let path: Vec<&str> = field.split('.').collect();
    let mut scratch = plan.clone();
    let grade = lengths(&mut scratch, &path).map(|(_, grade)| grade);
    if let Some(grade) = grade.or_else(|| derived(plan, field).map(|(_, grade)| grade)) {
        let length = parse(text, plan.units.first.bare_unit()).ok()?;
        return Some(measure::shown(length, grade, Units { both: true, ..plan.units }));
    }
    let now = sizes(&mut scratch, &path).and_then(|found| found.first().map(|size| **size))?;
    let size = read_size(text, plan.units.first).ok();
    let size = size.or_else(|| named_size(stock, text, now.width > now.height))?;
    Some(measure::shown_size(size, Units { both: true, ..plan.units }))
}
