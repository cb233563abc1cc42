//! What a person types into a field, as what the field is given.

use super::{FieldError, is_share, options, size};
use crate::described::Form;
use crate::field::{Field, To};
use crate::geometry::Size;
use crate::length::parse::{ParseError, parse_typed};
use crate::plan::{self, Plan, System};
use crate::stock::{self, Stock};

/// What a text means in a field.
pub(super) fn read(plan: &Plan, stock: &Stock, field: Field, text: &str) -> Result<To, FieldError> {
    if let Some(list) = options::colours(field.row) {
        return Ok(To::Colour(stock::find(list, text)?));
    }
    Ok(match field.row.form {
        Form::Length { .. } if is_usual_place(field, text) => To::key(plan::USUAL_PLACE),
        Form::Length { .. } => To::Length(parse_typed(text, plan.units.first.bare_unit())?),
        Form::Size { .. } => {
            let now = size(plan, field).ok_or(FieldError::NoField(field))?;
            To::Size(
                read_size(text, plan.units.first)
                    .or_else(|why| named_size(stock, text, now.width > now.height).ok_or(why))?,
            )
        }
        Form::Number { .. } if is_share(field.row) => To::Permille(read_share(text)?),
        Form::Number { .. } => To::Number(read_number(text)?),
        Form::Pair { .. } if !is_focus(field) => {
            let (head, foot) = read_ratio(text)?;
            To::Ratio(head, foot)
        }
        Form::Text { .. } => To::Text(text.to_owned()),
        _ => To::Option(text.to_owned()),
    })
}

/// Whether rings are asked to be at their usual place.
fn is_usual_place(field: Field, text: &str) -> bool {
    options::usual_place(field).is_some()
        && [plan::USUAL_PLACE, options::USUAL_PLACE_WORDS].contains(&text.trim())
}

fn is_focus(field: Field) -> bool {
    [&plan::PIECE_FOCUS, &plan::SPLIT_FOCUS].contains(&field.row)
}

/// A width and a height as they are written: `16 x 20 in`, `40 × 50 cm`, `16" by 20"`. A unit that stands only at the
/// end counts for both; without one they are in that of `first`.
///
/// ```
/// use overmantel::{fields::read_size, geometry::Size, length::Length, plan::System};
/// assert_eq!(read_size("12' x 96", System::Inches), Ok(Size::inches(144, 96)));
/// assert_eq!(read_size("420 x 260 cm", System::Inches), Ok(Size::new(Length::mm(4200), Length::mm(2600))));
/// ```
///
/// # Errors
/// When it is no width and height, or one of them is no length.
pub fn read_size(text: &str, first: System) -> Result<Size, FieldError> {
    let lower = text.to_ascii_lowercase();
    let cut = ["×", " x ", " by ", "x", "*"]
        .iter()
        .find_map(|mark| lower.find(mark).map(|at| (at, mark.len())))
        .filter(|(at, len)| text.is_char_boundary(*at) && text.is_char_boundary(at + len));
    let Some((at, len)) = cut else { return Err(FieldError::Size(text.to_owned())) };
    let (left, right) = (&text[..at], &text[at + len..]);
    let shift = |why: ParseError, before: usize| FieldError::Length { why, before };
    let height = parse_typed(right, first.bare_unit()).map_err(|why| shift(why, at + len))?;
    // A unit that stands only at the end counts for both; of a compound such as 1' 8" it does not.
    let is_mark = |letter: char| letter.is_alphabetic() || "\"'”″’′".contains(letter);
    let (amount, unit) = right.split_at(right.find(is_mark).unwrap_or(right.len()));
    let is_simple = !amount.trim().is_empty()
        && unit.chars().all(|letter| is_mark(letter) || ".".contains(letter) || letter.is_whitespace());
    let unit = if is_simple { unit.trim() } else { "" };
    let bare_left = !left.chars().any(is_mark);
    let width = if bare_left && !unit.is_empty() {
        parse_typed(&format!("{}{unit}", left.trim_end()), first.bare_unit())
    } else {
        parse_typed(left, first.bare_unit())
    };
    Ok(Size::new(width.map_err(|why| shift(why, 0))?, height))
}

/// A size by the name that the stock has for it, such as `A3`, turned as it is wanted.
pub(super) fn named_size(stock: &Stock, text: &str, is_wide: bool) -> Option<Size> {
    let row = stock.sizes.iter().find(|row| row.name.eq_ignore_ascii_case(text.trim()))?;
    let Size { width, height } = row.size;
    let (short, long) = (width.min(height), width.max(height));
    Some(if is_wide { Size::new(long, short) } else { Size::new(short, long) })
}

/// A whole number, with what may stand behind it, such as `ppi`, left aside.
fn read_number(text: &str) -> Result<u32, FieldError> {
    let digits = text.trim().trim_end_matches(|letter: char| !letter.is_ascii_digit()).trim_end();
    digits.parse().map_err(|_| FieldError::Number(text.to_owned()))
}

/// Hundredths, to a tenth of one, as they are written: `40`, `40 %`, `33.3 %`.
fn read_share(text: &str) -> Result<u16, FieldError> {
    let bare = text.trim().trim_end_matches('%').trim_end();
    let (whole, tenth) = bare.split_once(['.', ',']).unwrap_or((bare, "0"));
    let permille = match (whole.parse::<u16>(), tenth.len(), tenth.parse::<u16>()) {
        (Ok(whole), 1, Ok(tenth)) => whole.checked_mul(10).and_then(|tens| tens.checked_add(tenth)),
        _ => None,
    };
    permille.filter(|&permille| permille <= 1000).ok_or_else(|| FieldError::Share(text.to_owned()))
}

/// Top and bottom, written the other way round: `4 : 3`, `4/3` or `4 to 3`.
fn read_ratio(text: &str) -> Result<(u16, u16), FieldError> {
    let part = |text: &str| text.trim().parse::<u16>().ok();
    [":", "/", "to"]
        .iter()
        .find_map(|mark| text.split_once(mark))
        .and_then(|(foot, head)| Some((part(head)?, part(foot)?)))
        .ok_or_else(|| FieldError::Ratio(text.to_owned()))
}
