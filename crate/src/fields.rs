//! Fields read, written, stepped and offered.
//!
//! What a field is stands in the plan's rows; reading and writing walk to its place. Options are told by their keys, and their
//! words are for people only. A change gives a new plan or says why not; the plan before it is never touched.
//!
//! ```
//! use overmantel::{field::Field, fields, length::Length, plan::{Plan, WALL_WIDTH}, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let width = Field::from(&WALL_WIDTH);
//! let wider = fields::write(&plan, &stock, width, "4 m").unwrap();
//! assert_eq!(wider.wall.size.width, Length::mm(4000));
//! assert_eq!(fields::read(&wider, &stock, width).unwrap().text, "13' 1 1/2\"");
//! assert!(fields::write(&plan, &stock, width, "wide").is_err());
//! ```

use crate::described::{Form, Row, Slot, at};
use crate::field::{Edit, Field, To, Whose};
use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::{Grade, Length};
use crate::measure;
use crate::plan::{self, FixtureKind, Glazing, Material, Plan};
use crate::stock::{self, Stock};

mod choose;
mod derived;
mod error;
pub(crate) mod fixture;
pub mod offer;
mod options;
mod profile;
mod short;
pub mod step;
mod text;

pub use error::FieldError;
pub use options::{FieldOption, REMOVE};
pub use text::read_size;

/// How a field is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One length, in any spelling.
    Length,
    /// A width and a height.
    Size,
    /// A whole number.
    Number,
    /// Two whole numbers, the bottom's before the top's.
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
    /// The key of the option that holds, of those that are chosen; of a length, where it is left to the piece.
    pub key: Option<String>,
    /// What may be chosen.
    pub options: Vec<FieldOption>,
    /// What the field is, for those who don't see the sentence round it.
    pub label: String,
    /// Whether `text` is rounded.
    pub rounded: bool,
}

impl Value {
    /// A value with nothing to choose from and no other system.
    fn plain(kind: Kind, text: String, field: Field) -> Self {
        let label = field.label();
        Self { kind, text, other: None, key: None, options: Vec::new(), label, rounded: false }
    }
}

/// Visits the place of a field; of all pieces, of each that has it. Whether there is one.
fn visit(plan: &mut Plan, field: Field, act: &mut dyn FnMut(&mut Slot<'_>)) -> bool {
    let Field { row, of } = field;
    let split = plan.split.is_some();
    let of_piece = |piece: &mut plan::Piece| {
        let is_crop = *row == plan::PIECE_FOCUS_ACROSS || *row == plan::PIECE_FOCUS_DOWN;
        if is_crop && (split || piece.picture.is_none()) { false } else { at(piece, row, act) }
    };
    match of {
        Whose::Plan => at(plan, row, act),
        Whose::Pieces => plan.pieces.iter_mut().map(of_piece).fold(false, |one, other| one | other),
        Whose::Piece(piece) => plan.pieces.get_mut(piece).is_some_and(of_piece),
        Whose::Picture(picture) => {
            plan.pictures.get_mut(picture).is_some_and(|picture| at(picture, row, act))
        }
        Whose::Fixture(fixture) => plan.fixtures.get_mut(fixture).is_some_and(|fixture| {
            let is_told = match row {
                row if *row == plan::FIXTURE_DEPTH => fixture.kind.has_depth(),
                row if *row == plan::FIXTURE_CASING => fixture.kind.has_casing(),
                row if *row == plan::FIXTURE_SWING => fixture.kind == FixtureKind::Door,
                row if *row == plan::FIXTURE_RISE => fixture.kind == FixtureKind::Stairs,
                row if *row == plan::FIXTURE_COLOUR => fixture.kind.usual_colour().is_some(),
                row if *row == plan::FIXTURE_RELATION => fixture.kind.has_room_above(),
                _ => true,
            };
            is_told && at(fixture, row, act)
        }),
    }
}

/// What stands at the place of a field, of all pieces at that of the first that has it.
fn found<T>(plan: &Plan, field: Field, read: impl Fn(&Slot<'_>) -> Option<T>) -> Option<T> {
    let mut found = None;
    visit(&mut plan.clone(), field, &mut |slot| {
        if found.is_none() {
            found = read(slot);
        }
    });
    found
}

fn length(plan: &Plan, field: Field) -> Option<(Length, Grade)> {
    let Form::Length { grade, .. } = field.row.form else { return None };
    let stated =
        found(plan, field, |slot| if let Slot::Length(length) = slot { Some(**length) } else { None });
    stated.or_else(|| derived::derived(plan, field)).map(|length| (length, grade))
}

fn size(plan: &Plan, field: Field) -> Option<Size> {
    found(plan, field, |slot| if let Slot::Size(size) = slot { Some(**size) } else { None })
}

fn number(plan: &Plan, field: Field) -> Option<i64> {
    found(plan, field, |slot| if let Slot::Number(number) = slot { Some(number.get()) } else { None })
}

/// Parts at the top and bottom.
fn ratio(plan: &Plan, field: Field) -> Option<(i64, i64)> {
    let pair = |slot: &Slot<'_>| match slot {
        Slot::Pair(head, foot) => Some((head.get(), foot.get())),
        _ => None,
    };
    found(plan, field, pair)
}

/// Whether a number is a share of a side, in thousandths.
fn is_share(row: &Row) -> bool {
    matches!(row.form, Form::Number { unit: "‰", .. })
}

/// What a field says; `None` for a field that this plan does not have.
#[must_use]
pub fn read(plan: &Plan, stock: &Stock, field: Field) -> Option<Value> {
    let value = in_plain_words(plan, stock, field)?;
    Some(Value { label: field.label_in(plan), ..value })
}

fn in_plain_words(plan: &Plan, stock: &Stock, field: Field) -> Option<Value> {
    let plain = |kind, text| Value::plain(kind, text, field);
    if let Some((length, grade)) = length(plan, field) {
        let printed = measure::first(length, grade, plan.units);
        return Some(Value {
            rounded: printed.is_rounded(),
            // A length that is left to the piece is told by its key.
            key: options::usual_place(field)
                .and_then(|_| options::of(plan, stock, field)?.key().map(str::to_owned)),
            other: Some(measure::second(length, grade, plan.units).text),
            options: offered_lengths(plan, stock, field)
                .into_iter()
                .map(FieldOption::plain)
                .chain(options::usual_place(field))
                .collect(),
            ..plain(Kind::Length, printed.text)
        });
    }
    if let Some(choices) = options::of(plan, stock, field) {
        return Some(choices.value(field));
    }
    if let Some(size) = size(plan, field) {
        let grade = grade_of(field.row);
        let printed = measure::size(size, grade, plan.units.first);
        let other = measure::size(size, grade, plan.units.first.other());
        return Some(Value {
            other: Some(other.text),
            options: offered_sizes(stock, field.row)
                .map(|row| FieldOption::plain(row.name.clone()))
                .collect(),
            rounded: printed.is_rounded(),
            ..plain(Kind::Size, printed.text)
        });
    }
    if let Some(number) = number(plan, field) {
        let share = u16::try_from(number).unwrap_or(1000);
        let text = if is_share(field.row) { measure::percent(share) } else { number.to_string() };
        return Some(plain(Kind::Number, text));
    }
    if let Some((head, foot)) = ratio(plan, field).filter(|_| !field.row.name.contains("focus")) {
        return Some(plain(Kind::Ratio, format!("{foot} : {head}")));
    }
    let text =
        found(plan, field, |slot| if let Slot::Text(text) = slot { Some((**text).clone()) } else { None });
    text.map(|text| plain(Kind::Name, text))
}

/// Whether the options of a field are better seen than read: arrangements, edges, the sections and shapes of mouldings.
#[must_use]
pub fn is_drawn(field: Field) -> bool {
    let drawn = [
        &plan::GROUP_ARRANGEMENT,
        &plan::CANVAS_EDGE,
        &plan::FRAME_SHAPE,
        &crate::field::FRAME_PROFILE,
        &crate::field::FLOATER_PROFILE,
        &crate::field::FRAME_LOOK,
        &crate::field::FLOATER_LOOK,
    ];
    drawn.contains(&field.row)
}

/// How finely the sides of a size are read: as those that have fields of their own are, otherwise as a piece is.
fn grade_of(row: &'static Row) -> Grade {
    match row.form {
        Form::Size { sides: Some([Row { form: Form::Length { grade, .. }, .. }, _]), .. } => *grade,
        _ => Grade::Piece,
    }
}

/// Sizes of the stock that a field may be given: of prints for an image, of frames for what goes into one.
fn offered_sizes<'s>(stock: &'s Stock, row: &'static Row) -> impl Iterator<Item = &'s stock::StandardSize> {
    let is_print = *row == plan::PIECE_IMAGE;
    let is_frame = [&plan::IN_HAND_SIZE, &plan::PAPER_WHOLE, &plan::MAT_WHOLE].contains(&row);
    stock.sizes.iter().filter(move |size| is_print && size.is_print || is_frame && size.is_frame)
}

/// Thicknesses and depths of the stock that a field may be given, in the plan's first unit where that is exact.
fn offered_lengths(plan: &Plan, stock: &Stock, field: Field) -> Vec<String> {
    let piece = match field.of {
        Whose::Piece(piece) => piece,
        Whose::Pieces => 0,
        _ => return Vec::new(),
    };
    let framing = plan.pieces.get(piece).and_then(|piece| piece.finish.framing());
    let board = |board: Option<plan::Board>| board.map(|board| board.material);
    let is = |row: &'static Row| *field.row == *row;
    let material = if is(&plan::GLAZING_THICKNESS) {
        framing.map(|framing| match framing.glazing {
            Glazing::Acrylic(_) => Material::Acrylic,
            Glazing::None | Glazing::Glass(_) => Material::Glass,
        })
    } else if is(&plan::MAT_THICKNESS) {
        Some(Material::MatBoard)
    } else if is(&plan::MOUNT_THICKNESS) {
        framing.and_then(|framing| board(framing.mount))
    } else if is(&plan::BACKING_THICKNESS) {
        framing.and_then(|framing| board(framing.backing))
    } else if is(&plan::ALUMINIUM_THICKNESS) {
        Some(Material::Aluminium)
    } else {
        None
    };
    let mut lengths: Vec<Length> = match material {
        _ if is(&plan::CANVAS_DEPTH) => stock.bars.iter().map(|bar| bar.depth).collect(),
        Some(material) => {
            stock.sheets.iter().filter(|row| row.material == material).map(|row| row.thickness).collect()
        }
        None => Vec::new(),
    };
    crate::order::sort(&mut lengths);
    lengths.dedup();
    lengths.into_iter().map(crate::length::print::exact).collect()
}

/// The plan with a field changed, by a text as a person types it, or by the key of an option.
///
/// # Errors
/// When the text is not what the field takes, or the changed plan would have no answer.
pub fn write(plan: &Plan, stock: &Stock, field: Field, text: &str) -> Result<Plan, FieldError> {
    let to = text::read(plan, stock, field, text)?;
    apply(plan, stock, &Edit { field, to })
}

/// The plan with an edit.
///
/// # Errors
/// When the field does not take it, or the changed plan would have no answer.
pub fn apply(plan: &Plan, stock: &Stock, edit: &Edit) -> Result<Plan, FieldError> {
    let changed = changed(plan, stock, edit)?;
    Figures::of(&changed)?;
    Ok(changed)
}

/// The plan with several edits, one after the other; only the whole has to have an answer, which is given with it.
///
/// # Errors
/// When a field does not take its edit, or the changed plan would have no answer.
pub fn apply_all(plan: &Plan, stock: &Stock, edits: &[Edit]) -> Result<(Plan, Figures), FieldError> {
    let mut changing = plan.clone();
    for edit in edits {
        changing = changed(&changing, stock, edit)?;
    }
    let figures = Figures::of(&changing)?;
    Ok((changing, figures))
}

fn changed(plan: &Plan, stock: &Stock, Edit { field, to }: &Edit) -> Result<Plan, FieldError> {
    let mut changed = plan.clone();
    let is_done = match to {
        To::Option(key) => {
            choose::choose(&mut changed, stock, *field, key)?;
            true
        }
        To::Text(text) if field.row.name.starts_with("offer.") => {
            changed = offer::take(plan, stock, *field, text)?;
            true
        }
        To::Length(length) => {
            let put = |slot: &mut Slot<'_>| {
                if let Slot::Length(place) = slot {
                    **place = *length;
                }
            };
            visit(&mut changed, *field, &mut { put }) || derived::write(&mut changed, plan, *field, *length)?
        }
        To::Colour(colour) if *field.row == plan::FIXTURE_COLOUR => {
            fixture::colour(&mut changed, *field, *colour)
        }
        To::Colour(colour) if *field.row == plan::MAT_INNER_COLOUR => {
            choose::colour_inner_mats(&mut changed, *field, *colour);
            true
        }
        _ => visit(&mut changed, *field, &mut |slot| put(slot, to)),
    };
    if is_done { Ok(changed) } else { Err(FieldError::NoField(*field)) }
}

/// Puts a value where it belongs.
fn put(slot: &mut Slot<'_>, to: &To) {
    match (slot, to) {
        (Slot::Size(place), To::Size(size)) => **place = *size,
        (Slot::Colour(place), To::Colour(colour)) => **place = *colour,
        (Slot::Number(place), To::Number(number)) => place.put(i64::from(*number)),
        (Slot::Number(place), To::Permille(share)) => place.put(i64::from(*share)),
        (Slot::Pair(one, other), To::Ratio(head, foot)) => {
            one.put(i64::from(*head));
            other.put(i64::from(*foot));
        }
        (Slot::Text(place), To::Text(text)) => text.trim().clone_into(place),
        _ => {}
    }
}
