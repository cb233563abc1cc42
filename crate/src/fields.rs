//! Fields: every statement of a plan that a person can read and change, by name.
//!
//! A field's name is a path such as `wall.width`, `fixture.0.height` or `piece.all.frame.face` (`piece.0.…` for one piece
//! alone). One function, `lengths`, says where in a plan the lengths of a field are; reading and writing both go
//! through it, so that a new length is one line. Choices are in [`choice`].
//!
//! A change gives a new plan or a plain sentence; the plan before it is never touched.
//!
//! ```
//! use overmantel::{fields, length::Length, plan::Plan};
//! let plan = Plan::starting();
//! let wider = fields::write(&plan, "wall.width", "4 m").unwrap();
//! assert_eq!(wider.wall.size.width, Length::mm(4000));
//! assert_eq!(fields::read(&wider, "wall.width").unwrap().text, "13' 1 1/2\"");
//! assert!(fields::write(&plan, "wall.width", "wide").is_err());
//! ```

use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::Length;
use crate::length::parse::{ParseError, parse};
use crate::measure::{self, Grade};
use crate::plan::*;
use crate::stock;
use std::ops::Range;

pub mod choice;

/// How a field is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One length, in any spelling.
    Length,
    /// A width and a height.
    Size,
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
pub fn read(plan: &Plan, field: &str) -> Option<Value> {
    let path: Vec<&str> = field.split('.').collect();
    let mut scratch = plan.clone();
    if let Some((lengths, grade)) = lengths(&mut scratch, &path) {
        let length = **lengths.first()?;
        return Some(length_value(length, grade, plan.units, field));
    }
    if let Some((length, grade)) = derived(plan, field) {
        return Some(length_value(length, grade, plan.units, field));
    }
    if let ["piece", which, "image"] = path[..] {
        let size = pieces(&mut scratch, which).first()?.image;
        let printed = measure::size(size, Grade::Piece, plan.units.first);
        let other = measure::shown_size(size, Units { both: true, ..plan.units });
        return Some(Value {
            kind: Kind::Size,
            other: Some(other),
            options: stock::PRINTS_INCHES
                .iter()
                .map(|&offered| measure::size(offered, Grade::Piece, System::Inches).text)
                .collect(),
            label: label(field),
            rounded: printed.is_rounded(),
            text: printed.text,
        });
    }
    let name = match path[..] {
        ["title"] => Some(plan.title.clone()),
        ["fixture", index, "name"] => Some(plan.fixtures.get(index.parse::<usize>().ok()?)?.name.clone()),
        _ => None,
    };
    if let Some(text) = name {
        let label = label(field);
        return Some(Value {
            kind: Kind::Name,
            text,
            other: None,
            options: Vec::new(),
            label,
            rounded: false,
        });
    }
    choice::read(plan, &path, label(field))
}

fn length_value(length: Length, grade: Grade, units: Units, field: &str) -> Value {
    let printed = measure::first(length, grade, units);
    Value {
        kind: Kind::Length,
        rounded: printed.is_rounded(),
        text: printed.text,
        other: Some(measure::second(length, grade, units).text),
        options: Vec::new(),
        label: label(field),
    }
}

/// The plan with a field changed.
///
/// # Errors
/// When the text is not what the field takes, or the changed plan would have no answer.
pub fn write(plan: &Plan, field: &str, text: &str) -> Result<Plan, FieldError> {
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
    } else if let ["piece", which, "image"] = path[..] {
        let size = read_size(text, plan.units.first)?;
        for piece in pieces(&mut changed, which) {
            piece.image = size;
        }
    } else {
        match path[..] {
            ["title"] => text.trim().clone_into(&mut changed.title),
            ["fixture", index, "name"] => {
                let fixture = index.parse::<usize>().ok().and_then(|index| changed.fixtures.get_mut(index));
                text.trim().clone_into(&mut fixture.ok_or_else(|| unknown(field))?.name);
            }
            _ => choice::write(&mut changed, &path, text)?,
        }
    }
    changed.check()?;
    Figures::of(&changed)?;
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

/// The pieces that a path names: `all`, or one by its number from 0.
fn pieces<'a>(plan: &'a mut Plan, which: &str) -> Vec<&'a mut Piece> {
    match which {
        "all" => plan.pieces.iter_mut().collect(),
        number => match number.parse::<usize>() {
            Ok(index) => plan.pieces.get_mut(index).into_iter().collect(),
            Err(_) => Vec::new(),
        },
    }
}

/// Where in a plan the lengths of a field are, and how finely it is shown. `None` when the field is not a length that
/// is stated in this plan.
fn lengths<'a>(plan: &'a mut Plan, path: &[&str]) -> Option<(Vec<&'a mut Length>, Grade)> {
    use Grade::{Fine, Piece, Room};
    Some(match path {
        ["wall", "width"] => (vec![&mut plan.wall.size.width], Room),
        ["wall", "height"] => (vec![&mut plan.wall.size.height], Room),
        ["wall", "skirting"] => (vec![&mut plan.wall.skirting], Piece),
        ["viewing", "distance"] => (vec![&mut plan.viewing.distance], Room),
        ["viewing", "eye_level"] => (vec![&mut plan.viewing.eye_level], Piece),
        ["fixture", index, part] => {
            let fixture = plan.fixtures.get_mut(index.parse::<usize>().ok()?)?;
            match (*part, &mut fixture.across) {
                ("width", _) => (vec![&mut fixture.size.width], Room),
                ("height", _) => (vec![&mut fixture.size.height], Piece),
                ("from_floor", _) => (vec![&mut fixture.from_floor], Piece),
                ("distance", Across::FromLeft(x) | Across::FromRight(x)) => (vec![x], Room),
                _ => return None,
            }
        }
        ["piece", which, rest @ ..] => {
            let grade = if rest.last() == Some(&"thickness") { Fine } else { Piece };
            let found: Vec<&mut Length> =
                pieces(plan, which).into_iter().filter_map(|piece| piece_length(piece, rest)).collect();
            if found.is_empty() {
                return None;
            }
            (found, grade)
        }
        ["group", "gap"] => (vec![&mut plan.group.gap], Piece),
        ["group", "step"] => match &mut plan.group.arrangement {
            Arrangement::Stepped(rise) => (vec![rise], Piece),
            _ => return None,
        },
        ["group", "clearance"] => match &mut plan.group.up {
            GroupUp::Above { clearance, .. } => (vec![clearance], Piece),
            _ => return None,
        },
        ["fixing", part] => {
            let length = match (*part, &mut plan.fixing) {
                ("inset", Fixing::Rings { inset, .. } | Fixing::Wire { inset, .. }) => inset,
                ("down", Fixing::Rings { down, .. } | Fixing::Wire { down, .. }) => down,
                ("slack", Fixing::Wire { slack, .. }) => slack,
                ("apart", Fixing::Wire { hooks_apart: Some(apart), .. }) => apart,
                _ => return None,
            };
            (vec![length], Piece)
        }
        _ => return None,
    })
}

fn piece_length<'a>(piece: &'a mut Piece, rest: &[&str]) -> Option<&'a mut Length> {
    Some(match (rest, &mut piece.finish) {
        (["width"], _) => &mut piece.image.width,
        (["height"], _) => &mut piece.image.height,
        (["paper", "border"], Finish::Paper(paper)) => &mut paper.border,
        (["mat", part], Finish::Paper(Paper { mat: Some(mat), .. })) => match (*part, &mut mat.extent) {
            ("by", _) => match &mut mat.opening {
                OpeningRule::Overlap(by) | OpeningRule::Reveal(by) | OpeningRule::Float(by) => by,
            },
            ("border", MatExtent::Border(border)) => border,
            ("board_width", MatExtent::Board(board)) => &mut board.width,
            ("board_height", MatExtent::Board(board)) => &mut board.height,
            ("foot", _) => &mut mat.foot_extra,
            ("inner", _) => mat.inner_reveal.as_mut()?,
            ("thickness", _) => &mut mat.thickness,
            _ => return None,
        },
        (["frame", part], Finish::Paper(Paper { frame: Some(frame), .. })) => match *part {
            "face" => &mut frame.face,
            "rabbet_width" => &mut frame.rabbet_width,
            "rabbet_depth" => &mut frame.rabbet_depth,
            "depth" => &mut frame.depth,
            "allowance" => &mut frame.allowance,
            _ => return None,
        },
        (["glazing", "thickness"], Finish::Paper(paper)) => match &mut paper.glazing {
            Glazing::Glass(thickness) | Glazing::Acrylic(thickness) => thickness,
            Glazing::None => return None,
        },
        (["canvas", "depth"], Finish::Canvas(canvas)) => &mut canvas.depth,
        (["canvas", "fold"], Finish::Canvas(canvas)) => &mut canvas.fold,
        (["floater", part], Finish::Canvas(Canvas { floater: Some(floater), .. })) => match *part {
            "gap" => &mut floater.gap,
            "face" => &mut floater.face,
            "depth" => &mut floater.depth,
            _ => return None,
        },
        (["aluminium", "thickness"], Finish::Aluminium(sheet)) => &mut sheet.thickness,
        (["aluminium", "stand_off"], Finish::Aluminium(sheet)) => &mut sheet.stand_off,
        (["original", "depth"], Finish::Original(original)) => &mut original.depth,
        _ => return None,
    })
}

/// Lengths that follow from the plan and can be asked for all the same: the group's place and width, and the outside of
/// pieces.
fn derived(plan: &Plan, field: &str) -> Option<(Length, Grade)> {
    let path: Vec<&str> = field.split('.').collect();
    let figures = Figures::of(plan).ok()?;
    let group = figures.arranged.group;
    Some(match path[..] {
        ["group", "left"] => (group.x, Grade::Room),
        ["group", "right"] => (plan.wall.size.width - group.right(), Grade::Room),
        ["group", "middle"] => (group.centre().x, Grade::Room),
        ["group", "centre"] => (group.centre().y, Grade::Piece),
        ["group", "bottom"] => (group.y, Grade::Piece),
        ["group", "width"] => (group.size.width, Grade::Room),
        ["piece", which, part @ ("outside_width" | "outside_height")] => {
            let index = if which == "all" { 0 } else { which.parse::<usize>().ok()? };
            let outside = figures.build_ups.get(index)?.outside;
            (if part == "outside_width" { outside.width } else { outside.height }, Grade::Piece)
        }
        _ => return None,
    })
}

/// Changes what is stated so that a derived length comes out as asked for.
fn write_derived(changed: &mut Plan, plan: &Plan, field: &str, length: Length) -> Result<(), FieldError> {
    let figures = Figures::of(plan)?;
    let group = figures.arranged.group;
    let size = group.size;
    let across = GroupAcross::CentreAt;
    let path: Vec<&str> = field.split('.').collect();
    match path[..] {
        ["group", "left"] => changed.group.across = across(length + size.width.half()),
        ["group", "right"] => {
            changed.group.across = across(plan.wall.size.width - length - (size.width - size.width.half()));
        }
        ["group", "middle"] => changed.group.across = across(length),
        ["group", "centre"] => changed.group.up = GroupUp::CentreAt(length),
        ["group", "bottom"] => changed.group.up = GroupUp::CentreAt(length + size.height.half()),
        ["group", "width"] => widen_group(changed, length - size.width),
        ["piece", which, part] => {
            for (index, sizes) in figures.build_ups.iter().enumerate() {
                if which != "all" && which.parse() != Ok(index) {
                    continue;
                }
                let grown = if part == "outside_width" {
                    Size::new(length - sizes.outside.width, Length::ZERO)
                } else {
                    Size::new(Length::ZERO, length - sizes.outside.height)
                };
                grow(&mut changed.pieces[index], grown);
            }
        }
        _ => return Err(unknown(field)),
    }
    Ok(())
}

/// Makes the group wider by so much: side by side every piece takes its part of it, to the last unit; in a column every
/// piece takes all of it. Gaps stay as they are.
fn widen_group(plan: &mut Plan, by: Length) {
    let count = u32::try_from(plan.pieces.len()).unwrap_or(1).max(1);
    let column = plan.group.arrangement == Arrangement::Column;
    let parts: Vec<Length> = if column { vec![by; plan.pieces.len()] } else { by.parts(count).collect() };
    for (piece, part) in plan.pieces.iter_mut().zip(parts) {
        grow(piece, Size::new(part, Length::ZERO));
    }
}

/// Makes a piece larger outside: by its image, and by its mat board where that is what is stated.
fn grow(piece: &mut Piece, by: Size) {
    piece.image = Size::new(piece.image.width + by.width, piece.image.height + by.height);
    if let Finish::Paper(Paper { mat: Some(Mat { extent: MatExtent::Board(board), .. }), .. }) =
        &mut piece.finish
    {
        *board = Size::new(board.width + by.width, board.height + by.height);
    }
}

/// What a field is, in words.
#[must_use]
pub fn label(field: &str) -> String {
    let words = |text: &str| text.replace('_', " ");
    let path: Vec<&str> = field.split('.').collect();
    let number = |text: &str| text.parse::<usize>().map_or(0, |index| index + 1);
    match path[..] {
        ["fixture", index, part] => format!("{} of fixture {}", words(part), number(index)),
        ["piece", "all", ref rest @ ..] => format!("{} of each piece", words(&rest.join(" "))),
        ["piece", index, ref rest @ ..] => format!("{} of piece {}", words(&rest.join(" ")), number(index)),
        ["group", "left"] => "distance from the left corner to the group".to_owned(),
        ["group", "right"] => "distance from the group to the right corner".to_owned(),
        ["group", "centre"] => "height of the group's centre from the floor".to_owned(),
        ["group", "bottom"] => "height of the group's lower edge from the floor".to_owned(),
        ["group", "width"] => "width of the group".to_owned(),
        ["group", "middle"] => "distance from the left corner to the middle of the group".to_owned(),
        ["group", "gap"] => "gap between pieces".to_owned(),
        ["group", "clearance"] => "clearance below the group".to_owned(),
        ["viewing", "eye_level"] => "eye level".to_owned(),
        ["viewing", "distance"] => "viewing distance".to_owned(),
        _ => words(&path.join(" ")),
    }
}
