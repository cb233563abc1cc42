//! Fields: every statement of a plan that a person can read and change, by name.
//!
//! A field's name is a path such as `wall.width`, `fixture.0.height` or `piece.all.frame.face` (`piece.0.…` for one piece
//! alone). One function, `lengths`, says where in a plan the lengths of a field are; reading and writing both go
//! through it, so that a new length is one line. Choices are in [`choice`].
//!
//! A change gives a new plan or a plain sentence; the plan before it is never touched.
//!
//! ```
//! use overmantel::{fields, length::Length, plan::Plan, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let wider = fields::write(&plan, &stock, "wall.width", "4 m").unwrap();
//! assert_eq!(wider.wall.size.width, Length::mm(4000));
//! assert_eq!(fields::read(&wider, &stock, "wall.width").unwrap().text, "13' 1 1/2\"");
//! assert!(fields::write(&plan, &stock, "wall.width", "wide").is_err());
//! ```

use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::Size;
use crate::length::Length;
use crate::length::parse::{ParseError, parse};
use crate::measure::{self, Grade};
use crate::plan::*;
use crate::stock::{self, Stock};
use std::ops::Range;

pub mod choice;
mod derived;
mod names;
pub mod offer;
mod place;
pub mod step;

use derived::{derived, write_derived};
pub use names::label;
use place::{focuses, lengths, numbers, sizes, weightings};

/// How a field is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One length, in any spelling.
    Length,
    /// A width and a height.
    Size,
    /// A whole number.
    Number,
    /// Two whole numbers, the foot's before the head's.
    Ratio,
    /// One of [`Value::options`].
    Choice,
    /// One of [`Value::options`], or a colour as #rrggbb.
    Colour,
    /// Plain text.
    Name,
}

/// What a field says now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Value {
    /// How it is entered.
    pub kind: Kind,
    /// What it says, in the plan's first system of units.
    pub text: String,
    /// The same in the other system, for lengths and sizes.
    pub other: Option<String>,
    /// What may be chosen.
    pub options: Vec<String>,
    /// What the field is, for those who don't see the sentence round it.
    pub label: String,
    /// Whether `text` is rounded.
    pub rounded: bool,
}

/// Why a field can't take a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldError {
    /// A plain sentence.
    pub message: String,
    /// The offending bytes of the text, where there are some.
    pub span: Option<Range<usize>>,
}

impl From<String> for FieldError {
    fn from(message: String) -> Self {
        Self { message, span: None }
    }
}

impl From<ParseError> for FieldError {
    fn from(error: ParseError) -> Self {
        Self { message: error.to_string(), span: Some(error.span) }
    }
}

/// What a field says; `None` for a field that this plan does not have.
#[must_use]
pub fn read(plan: &Plan, stock: &Stock, field: &str) -> Option<Value> {
    let path: Vec<&str> = field.split('.').collect();
    let mut scratch = plan.clone();
    if let Some((lengths, grade)) = lengths(&mut scratch, &path) {
        let length = **lengths.first()?;
        let options = offered_lengths(plan, stock, &path);
        return Some(Value { options, ..length_value(length, grade, plan.units, field) });
    }
    if let Some((length, grade)) = derived(plan, field) {
        return Some(length_value(length, grade, plan.units, field));
    }
    if let Some(size) = sizes(&mut scratch, &path).and_then(|sizes| sizes.first().map(|size| **size)) {
        let printed = measure::size(size, Grade::Piece, plan.units.first);
        let other = measure::shown_size(size, Units { both: true, ..plan.units });
        return Some(Value {
            other: Some(other),
            options: offered_sizes(stock, &path),
            rounded: printed.is_rounded(),
            ..Value::plain(Kind::Size, printed.text, field)
        });
    }
    if let Some(number) = numbers(&mut scratch, &path).and_then(|numbers| numbers.first().map(|of| **of)) {
        return Some(Value::plain(Kind::Number, number.to_string(), field));
    }
    if let Some(focus) = focuses(&mut scratch, &path).and_then(|found| found.first().map(|of| **of)) {
        return Some(Value::plain(Kind::Number, measure::percent(focus), field));
    }
    if let Some(weighting) = weightings(&mut scratch, &path).and_then(|found| found.first().map(|of| **of)) {
        let Weighting::Ratio { head, foot } = weighting else { return None };
        return Some(Value::plain(Kind::Ratio, format!("{foot} : {head}"), field));
    }
    let name = match path[..] {
        ["title"] => Some(plan.title.clone()),
        ["fixture", index, "name"] => Some(plan.fixtures.get(index.parse::<usize>().ok()?)?.name.clone()),
        _ => None,
    };
    if let Some(text) = name {
        return Some(Value::plain(Kind::Name, text, field));
    }
    choice::read(plan, stock, &path, label(field))
}

impl Value {
    /// A value with nothing to choose from and no other system.
    fn plain(kind: Kind, text: String, field: &str) -> Self {
        Self { kind, text, other: None, options: Vec::new(), label: label(field), rounded: false }
    }
}

/// Sizes of the stock that a field may be given, by their names: of prints for an image, of frames for what goes into one.
fn offered_sizes(stock: &Stock, path: &[&str]) -> Vec<String> {
    let wanted: fn(&stock::StandardSize) -> bool = match path {
        [.., "image"] => |row| row.is_print,
        ["in_hand", "size"] | [.., "whole"] => |row| row.is_frame,
        _ => return Vec::new(),
    };
    stock.sizes.iter().filter(|row| wanted(row)).map(|row| row.name.clone()).collect()
}

/// Thicknesses and depths of the stock that a field may be given, in the plan's first unit where that is exact.
fn offered_lengths(plan: &Plan, stock: &Stock, path: &[&str]) -> Vec<String> {
    let ["piece", which, part @ ..] = path else { return Vec::new() };
    let index = if *which == "all" { 0 } else { which.parse().unwrap_or(usize::MAX) };
    let framing = plan.pieces.get(index).and_then(|piece| piece.finish.framing());
    let glazing = framing.map(|framing| match framing.glazing {
        Glazing::Acrylic(_) => Material::Acrylic,
        Glazing::None | Glazing::Glass(_) => Material::Glass,
    });
    let board = |board: Option<Board>| board.map(|board| board.material);
    let material = match part {
        ["glazing", "thickness"] => glazing,
        ["mat", "thickness"] => Some(Material::MatBoard),
        ["mount", "thickness"] => framing.and_then(|framing| board(framing.mount)),
        ["backing", "thickness"] => framing.and_then(|framing| board(framing.backing)),
        ["aluminium", "thickness"] => Some(Material::Aluminium),
        _ => None,
    };
    let mut lengths: Vec<Length> = match (part, material) {
        (["canvas", "depth"], _) => stock.bars.iter().map(|bar| bar.depth).collect(),
        (_, Some(material)) => {
            stock.sheets.iter().filter(|row| row.material == material).map(|row| row.thickness).collect()
        }
        _ => Vec::new(),
    };
    crate::order::sort(&mut lengths);
    lengths.dedup();
    lengths.into_iter().map(crate::length::print::exact).collect()
}

fn length_value(length: Length, grade: Grade, units: Units, field: &str) -> Value {
    let printed = measure::first(length, grade, units);
    Value {
        rounded: printed.is_rounded(),
        other: Some(measure::second(length, grade, units).text),
        ..Value::plain(Kind::Length, printed.text, field)
    }
}

/// The plan with a field changed.
///
/// # Errors
/// When the text is not what the field takes, or the changed plan would have no answer.
pub fn write(plan: &Plan, stock: &Stock, field: &str, text: &str) -> Result<Plan, FieldError> {
    let changed = changed(plan, stock, field, text)?;
    changed.check()?;
    Figures::of(&changed)?;
    Ok(changed)
}

/// The plan with several fields changed, one after the other; only the whole has to have an answer, which is given with it.
///
/// # Errors
/// When a text is not what its field takes, or the changed plan would have no answer.
pub fn write_all(
    plan: &Plan,
    stock: &Stock,
    settings: &[(String, String)],
) -> Result<(Plan, Figures), FieldError> {
    let mut changing = plan.clone();
    for (field, text) in settings {
        changing = changed(&changing, stock, field, text)?;
    }
    let figures = Figures::of(&changing)?;
    Ok((changing, figures))
}

fn changed(plan: &Plan, stock: &Stock, field: &str, text: &str) -> Result<Plan, FieldError> {
    let path: Vec<&str> = field.split('.').collect();
    let bare = plan.units.first.bare_unit();
    let mut changed = plan.clone();
    if let Some((places, _)) = lengths(&mut changed, &path) {
        let length = parse(text, bare)?;
        for place in places {
            *place = length;
        }
    } else if derived(plan, field).is_some() {
        write_derived(&mut changed, plan, field, parse(text, bare)?)?;
    } else if let Some(places) = sizes(&mut changed, &path) {
        let size = read_size(text, plan.units.first).or_else(|why| {
            let is_wide = places.first().is_some_and(|now| now.width > now.height);
            named_size(stock, text, is_wide).ok_or(why)
        })?;
        for place in places {
            *place = size;
        }
    } else if let Some(places) = numbers(&mut changed, &path) {
        let number = read_number(text)?;
        for place in places {
            *place = number;
        }
    } else if let Some(places) = focuses(&mut changed, &path) {
        let permille = read_percent(text)?;
        for place in places {
            *place = permille;
        }
    } else if let Some(places) = weightings(&mut changed, &path) {
        let weighting = read_ratio(text)?;
        for place in places {
            *place = weighting;
        }
    } else {
        match path[..] {
            ["title"] => text.trim().clone_into(&mut changed.title),
            ["fixture", index, "name"] => {
                let fixture = index.parse::<usize>().ok().and_then(|index| changed.fixtures.get_mut(index));
                text.trim().clone_into(&mut fixture.ok_or_else(|| unknown(field))?.name);
            }
            ["offer", ref rest @ ..] => changed = offer::take(plan, stock, rest, text)?,
            _ => choice::write(&mut changed, stock, &path, text)?,
        }
    }
    Ok(changed)
}

fn unknown(field: &str) -> FieldError {
    FieldError::from(format!("this plan has no {}", label(field)))
}

/// A width and a height as they are written: `16 x 20 in`, `40 × 50 cm`, `16" by 20"`. A unit that stands only at the
/// end counts for both.
fn read_size(text: &str, first: System) -> Result<Size, FieldError> {
    let lower = text.to_lowercase();
    let cut = ["×", " x ", " by ", "x", "*"]
        .iter()
        .find_map(|mark| lower.find(mark).map(|at| (at, mark.len())))
        .filter(|(at, len)| text.is_char_boundary(*at) && text.is_char_boundary(at + len));
    let Some((at, len)) = cut else {
        return Err(FieldError::from(format!(
            "\"{text}\" is not a size; write the width, then the height, such as 16 × 20"
        )));
    };
    let (left, right) = (&text[..at], &text[at + len..]);
    let shift = |error: ParseError, by: usize| FieldError {
        message: error.to_string(),
        span: Some(error.span.start + by..error.span.end + by),
    };
    let height = parse(right, first.bare_unit()).map_err(|error| shift(error, at + len))?;
    // A unit that stands only at the end counts for both; of a compound such as 1' 8" it does not.
    let is_mark = |letter: char| letter.is_alphabetic() || "\"'”″’′".contains(letter);
    let (amount, unit) = right.split_at(right.find(is_mark).unwrap_or(right.len()));
    let is_simple = !amount.trim().is_empty()
        && unit.chars().all(|letter| is_mark(letter) || ".".contains(letter) || letter.is_whitespace());
    let unit = if is_simple { unit.trim() } else { "" };
    let bare_left = !left.chars().any(is_mark);
    let width = if bare_left && !unit.is_empty() {
        parse(&format!("{}{unit}", left.trim_end()), first.bare_unit())
    } else {
        parse(left, first.bare_unit())
    };
    Ok(Size::new(width.map_err(|error| shift(error, 0))?, height))
}

/// A size by the name that the stock has for it, such as `A3`, turned as it is wanted.
fn named_size(stock: &Stock, text: &str, is_wide: bool) -> Option<Size> {
    let row = stock.sizes.iter().find(|row| row.name.eq_ignore_ascii_case(text.trim()))?;
    let Size { width, height } = row.size;
    let (short, long) = (width.min(height), width.max(height));
    Some(if is_wide { Size::new(long, short) } else { Size::new(short, long) })
}

/// A whole number, with what may stand behind it, such as `ppi`, left aside.
fn read_number(text: &str) -> Result<u32, FieldError> {
    let digits = text.trim().trim_end_matches(|letter: char| !letter.is_ascii_digit()).trim_end();
    digits
        .parse()
        .map_err(|_| FieldError::from(format!("\"{text}\" is not a whole number; write one such as 200")))
}

/// Hundredths, to a tenth of one, as they are written: `40`, `40 %`, `33.3 %`.
fn read_percent(text: &str) -> Result<u16, FieldError> {
    let bare = text.trim().trim_end_matches('%').trim_end();
    let (whole, tenth) = bare.split_once(['.', ',']).unwrap_or((bare, "0"));
    let permille = match (whole.parse::<u16>(), tenth.len(), tenth.parse::<u16>()) {
        (Ok(whole), 1, Ok(tenth)) => whole.checked_mul(10).and_then(|tens| tens.checked_add(tenth)),
        _ => None,
    };
    permille.filter(|&permille| permille <= 1000).ok_or_else(|| {
        FieldError::from(format!("\"{text}\" is no part of a hundred; write 0 to 100, such as 40 or 33.3 %"))
    })
}

/// Foot and head as they are written: `4 : 3`, `4/3` or `4 to 3`.
fn read_ratio(text: &str) -> Result<Weighting, FieldError> {
    let part = |text: &str| text.trim().parse::<u16>().ok();
    [":", "/", "to"]
        .iter()
        .find_map(|mark| text.split_once(mark))
        .and_then(|(foot, head)| Some(Weighting::Ratio { head: part(head)?, foot: part(foot)? }))
        .ok_or_else(|| {
            FieldError::from(format!(
                "\"{text}\" is not a ratio; write the foot, then the head, in whole numbers, such as 4 : 3"
            ))
        })
}
