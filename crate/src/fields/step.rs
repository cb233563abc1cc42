//! Steps: the next value of a field, up or down, by amounts that make sense for what it is; and what a text would come to.

use super::text::{named_size, read_size};
use super::{is_share, length, number, offered_lengths, offered_sizes, ratio, size};
use crate::field::{Field, To};
use crate::geometry::Size;
use crate::length::parse::parse;
use crate::length::{Grade, Length};
use crate::measure;
use crate::plan::{Plan, System, Units};
use crate::stock::Stock;

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
pub fn offered(plan: &Plan, stock: &Stock, field: Field, now: Size) -> Vec<Size> {
    let rows = offered_sizes(stock, field.row).filter(|row| row.system == plan.units.first);
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
pub fn next_size(plan: &Plan, stock: &Stock, field: Field, now: Size, is_up: bool, is_large: bool) -> Size {
    let all = offered(plan, stock, field, now);
    let mut others = all.into_iter().filter(|&size| (order(size) > order(now)) == is_up && size != now);
    let next = if is_up { others.next() } else { others.next_back() };
    let by_amount = |length| beyond(length, amount(length, Grade::Piece, plan.units.first, is_large), is_up);
    next.filter(|_| !is_large).unwrap_or_else(|| Size::new(by_amount(now.width), by_amount(now.height)))
}

/// The next value of a field; `None` for a field that has none. Where the stock offers something for it, the next of that; a
/// large step, or one beyond what is offered, goes by an amount.
#[must_use]
pub fn next(plan: &Plan, stock: &Stock, field: Field, is_up: bool, is_large: bool) -> Option<To> {
    let system = plan.units.first;
    let by_amount = |length, grade| beyond(length, amount(length, grade, system, is_large), is_up);
    if let Some((length, grade)) = length(plan, field) {
        let offered = offered_lengths(plan, stock, field);
        let offered = offered.iter().filter_map(|text| parse(text, system.bare_unit()).ok());
        let next = match is_up {
            true => offered.filter(|&other| other > length).min(),
            false => offered.filter(|&other| other < length).max(),
        };
        return Some(To::Length(next.filter(|_| !is_large).unwrap_or_else(|| by_amount(length, grade))));
    }
    if let Some(now) = size(plan, field) {
        return Some(To::Size(next_size(plan, stock, field, now, is_up, is_large)));
    }
    let step = if is_large { 50 } else { 10 };
    match number(plan, field) {
        Some(share) if is_share(field.row) => {
            let next = if is_up { share + step } else { share - step };
            return u16::try_from(next.clamp(0, 1000)).ok().map(To::Permille);
        }
        Some(number) => {
            let below = number / step * step;
            let next = match is_up {
                true => below + step,
                false if below == number => below - step,
                false => below,
            };
            return u32::try_from(next.max(0)).ok().map(To::Number);
        }
        None => {}
    }
    let (head, foot) = ratio(plan, field).filter(|_| !field.row.name.contains("focus"))?;
    let part = |part: i64| u16::try_from(part.max(0)).unwrap_or(u16::MAX);
    Some(To::Ratio(part(head), part(if is_up { foot + 1 } else { foot - 1 })))
}

/// The text of a field's next value.
#[must_use]
pub fn stepped(plan: &Plan, stock: &Stock, field: Field, is_up: bool, is_large: bool) -> Option<String> {
    next(plan, stock, field, is_up, is_large).map(|to| to.to_string())
}

/// What a text comes to in a field that takes a length or a size, in the plan's first system and in the other; `None` where
/// the text is not one.
#[must_use]
pub fn comes_to(plan: &Plan, stock: &Stock, field: Field, text: &str) -> Option<String> {
    let both = Units { both: true, ..plan.units };
    if let Some((_, grade)) = length(plan, field) {
        return Some(measure::shown(parse(text, plan.units.first.bare_unit()).ok()?, grade, both));
    }
    let now = size(plan, field)?;
    let read = read_size(text, plan.units.first).ok();
    let read = read.or_else(|| named_size(stock, text, now.width > now.height))?;
    Some(measure::shown_size(read, both))
}
