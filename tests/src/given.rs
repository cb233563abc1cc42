//! What tests state: lengths and sizes as texts, plans by their fields, pictures, and the figures of a plan.
//!
//! Texts make the rows of a test read as they stand in its source: `16x20` is 16 in wide and 20 in high. What a text can't say
//! fails the test that has it, at its line.

use std::fs;

use overmantel::desk::Desk;
use overmantel::field::Field;
use overmantel::fields::{self, FieldError, Value};
use overmantel::figures::Figures;
use overmantel::framing::{BuildUp, build_up};
use overmantel::geometry::{Sides, Size};
use overmantel::length::{Length, Unit, parse::parse};
use overmantel::plan::{
    Fixing, Group, GroupAcross, GroupUp, Hanger, HangerPlace, Picture, Piece, Plan, file,
};
use overmantel::print::Exact;
use overmantel::stock::Stock;
use overmantel_builder::paths;

/// A length; a number without a unit is in this one.
///
/// # Panics
/// When the text is no length.
#[track_caller]
#[must_use]
pub fn length_in(text: &str, unit: Unit) -> Length {
    parse(text, unit).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// A length; a number without a unit is in inches.
///
/// # Panics
/// When the text is no length.
#[track_caller]
#[must_use]
pub fn length(text: &str) -> Length {
    length_in(text, Unit::Inch)
}

/// Lengths with spaces between them; numbers without a unit are in this one.
///
/// # Panics
/// When one of them is no length.
#[track_caller]
#[must_use]
pub fn lengths_in(texts: &str, unit: Unit) -> Vec<Length> {
    texts.split(' ').map(|text| length_in(text, unit)).collect()
}

/// Lengths with spaces between them; numbers without a unit are in inches.
///
/// # Panics
/// When one of them is no length.
#[track_caller]
#[must_use]
pub fn lengths(texts: &str) -> Vec<Length> {
    lengths_in(texts, Unit::Inch)
}

/// A size written `width x height`; numbers without a unit are in this one.
///
/// # Panics
/// When the text is no size.
#[track_caller]
#[must_use]
pub fn size_in(text: &str, unit: Unit) -> Size {
    let (width, height) = text.split_once('x').unwrap_or_else(|| panic!("{text} is no size"));
    Size::new(length_in(width, unit), length_in(height, unit))
}

/// A size written `width x height`; numbers without a unit are in inches.
///
/// # Panics
/// When the text is no size.
#[track_caller]
#[must_use]
pub fn size(text: &str) -> Size {
    size_in(text, Unit::Inch)
}

/// Four sides written `left, top, right, bottom`; numbers without a unit are in this one.
///
/// # Panics
/// When the text has not four lengths.
#[track_caller]
#[must_use]
pub fn sides_in(text: &str, unit: Unit) -> Sides {
    let given: Vec<Length> = text.split(", ").map(|side| length_in(side, unit)).collect();
    let [left, top, right, bottom] = given[..] else { panic!("{text} are not four sides") };
    Sides { left, top, right, bottom }
}

/// A whole number as an exact quotient.
#[must_use]
pub fn whole(number: impl Into<i128>) -> Exact {
    Exact::from_integer(number.into())
}

/// A length's units as an exact quotient.
#[must_use]
pub fn exact(length: Length) -> Exact {
    whole(length.units())
}

/// A picture without a file or a subject.
#[must_use]
pub fn picture(name: &str, width_px: u32, height_px: u32) -> Picture {
    Picture { name: name.to_owned(), file: String::new(), width_px, height_px, subject: None }
}

/// A piece of this size, as the starting plan's otherwise.
///
/// # Panics
/// When the text is no size.
#[track_caller]
#[must_use]
pub fn piece(image: &str, finish: overmantel::plan::Finish) -> Piece {
    Piece { image: size(image), finish, ..Piece::starting() }
}

/// Pieces in the middle of the starting wall at eye level, with nothing below them and hooks in their upper corners.
#[must_use]
pub fn hung(pieces: Vec<Piece>) -> Plan {
    let group = Group { up: GroupUp::EyeLevel, across: GroupAcross::WallMiddle, ..Plan::starting().group };
    let nowhere = HangerPlace::At(Length::ZERO);
    let fixing = Fixing { hanger: Hanger::Rings, from_sides: nowhere, down: nowhere };
    Plan { pieces, group, fixing, fixtures: Vec::new(), ..Plan::starting() }
}

/// A plan with one field written, by the stock on offer.
///
/// # Panics
/// When the field refuses the text.
#[track_caller]
#[must_use]
pub fn written(plan: &Plan, field: &str, text: &str) -> Plan {
    write(plan, &Stock::offered(), field, text).unwrap_or_else(|why| panic!("{field} = {text}: {why}"))
}

/// A field by its name.
///
/// # Panics
/// When no plan has one of this name.
#[track_caller]
#[must_use]
pub fn field(name: &str) -> Field {
    Field::named(name).unwrap_or_else(|| panic!("no field {name}"))
}

/// What a person gives a field: an option is pointed at by its words, anything else is typed.
fn meant(plan: &Plan, stock: &Stock, field: Field, text: &str) -> String {
    let options = fields::read(plan, stock, field).map(|value| value.options).unwrap_or_default();
    options
        .into_iter()
        .find(|choice| choice.words == text)
        .map_or_else(|| text.to_owned(), |choice| choice.key)
}

/// What a field says, by its name.
#[track_caller]
#[must_use]
pub fn read(plan: &Plan, stock: &Stock, name: &str) -> Option<Value> {
    fields::read(plan, stock, field(name))
}

/// A plan with a field written, by the field's name; an option is told by its words or its key.
///
/// # Errors
/// When the field does not take the text.
#[track_caller]
pub fn write(plan: &Plan, stock: &Stock, name: &str, text: &str) -> Result<Plan, FieldError> {
    let field = field(name);
    fields::write(plan, stock, field, &meant(plan, stock, field, text))
}

/// Changes a field of a desk, by its name; an option is told by its words or its key.
///
/// # Errors
/// When the field does not take the text.
#[track_caller]
pub fn set(desk: &mut Desk, name: &str, text: &str) -> Result<(), FieldError> {
    let field = field(name);
    let text = meant(desk.plan(), desk.stock(), field, text);
    desk.set(field, &text)
}

/// A plan with these fields written, one after another.
///
/// # Panics
/// When a field refuses its text.
#[track_caller]
#[must_use]
pub fn changed(mut plan: Plan, changes: &[(&str, &str)]) -> Plan {
    for (field, text) in changes {
        plan = written(&plan, field, text);
    }
    plan
}

/// The figures of a plan that has an answer.
///
/// # Panics
/// When it has none.
#[track_caller]
#[must_use]
pub fn figures(plan: &Plan) -> Figures {
    Figures::of(plan).unwrap_or_else(|why| panic!("{why}"))
}

/// The build-up of a piece that has one.
///
/// # Panics
/// When it has none.
#[track_caller]
#[must_use]
pub fn built(piece: &Piece) -> BuildUp {
    build_up(piece).unwrap_or_else(|error| panic!("{error}"))
}

/// A plan of the demo, by its name without the ending.
///
/// # Panics
/// When there is none of this name.
#[track_caller]
#[must_use]
pub fn demo(name: &str) -> Plan {
    let path = paths::root().join(format!("demo-data/plans/{name}.json"));
    let text = fs::read_to_string(path).unwrap_or_else(|error| panic!("{name}: {error}"));
    file::read(&text).unwrap_or_else(|error| panic!("{name}: {error}"))
}
