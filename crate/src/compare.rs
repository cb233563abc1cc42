//! Two plans beside each other: what became of every field that a person can read.
//!
//! ```
//! use overmantel::{compare::differences, field::Field, fields, plan::{Plan, WALL_WIDTH}, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let wider = fields::write(&plan, &stock, Field::from(&WALL_WIDTH), "13'").unwrap();
//! let found = differences(&plan, &wider, &stock).unwrap();
//! assert_eq!(found[0].in_words(), "Width of the wall: 12' 0\" became 13' 0\"");
//! assert!(differences(&plan, &plan, &stock).unwrap().is_empty());
//! ```

mod apart;
mod summary;
mod take;
pub use apart::{Apart, Beside, SideRow, apart, side_by_side};
pub use summary::{MOST_LINES, Summary, SummaryRow, summary};
pub use take::{PlanPart, parts, taken};

use crate::described::{Form, Row};
use crate::field::{self, Field, Whose};
use crate::fields::{self, Kind, Value};
use crate::figures::{Figures, NoAnswer};
use crate::plan::{self, Plan, Units, called};
use crate::spec::{capital, fields_in};
use crate::stock::Stock;
use crate::words::in_units;

/// Something that two plans state differently.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// What it is.
    pub label: String,
    /// What the one plan says; nothing where it has no such thing.
    pub one: Option<String>,
    /// What the other says.
    pub other: Option<String>,
}

impl Difference {
    /// A sentence without its full stop.
    #[must_use]
    pub fn in_words(&self) -> String {
        let label = capital(&self.label);
        match (&self.one, &self.other) {
            (Some(one), Some(other)) => [&label, ": ", one, " became ", other].concat(),
            (None, Some(other)) => [&label, " is new: ", other].concat(),
            (Some(one), None) => [&label, " is gone; it was: ", one].concat(),
            (None, None) => label,
        }
    }
}

/// A field as two plans have it: pieces without their numbers, fixtures by their names.
#[derive(Clone, PartialEq, Eq)]
struct Shared {
    row: &'static Row,
    of: Owner,
}

#[derive(Clone, PartialEq, Eq)]
enum Owner {
    Plan,
    Pieces,
    Fixture(String),
    Picture(usize),
}

/// What became of one plan in another, in the order of the specification and in the one plan's units: every field of either,
/// pieces by their places and fixtures by their names. What all pieces have in common is said once, and what is new or gone as
/// a whole (a mat, a frame, a sofa) in one line with all that is stated of it.
///
/// # Errors
/// When one of the plans has no answer.
pub fn differences(one: &Plan, other: &Plan, stock: &Stock) -> Result<Vec<Difference>, NoAnswer> {
    let other = &Plan { units: one.units, ..other.clone() };
    let (of_one, of_other) = (fields_of(one, stock)?, fields_of(other, stock)?);
    let mut shared = of_one.clone();
    shared.extend(of_other.iter().filter(|field| !of_one.contains(field)).cloned());
    shared.retain(|field| !HOW_STATED.contains(&field.row));
    let pieces = one.pieces.len().min(other.pieces.len());
    let mut found = Found { units: one.units, lines: Vec::new() };
    for field in shared {
        let Shared { row, of } = &field;
        let read = |field: Option<Field>, another: Option<Field>| Told {
            row,
            before: field.and_then(|field| fields::read(one, stock, field)),
            after: another.and_then(|field| fields::read(other, stock, field)),
        };
        let alike = |field| read(Some(field), Some(field));
        // Which part of a piece it is, where only one of the plans has that part.
        let part = part_of(row).filter(|part| has_part(&of_one, part) != has_part(&of_other, part));
        match of {
            Owner::Plan => found.line(None, &alike(Field::from(*row))),
            Owner::Picture(picture) => found.line(None, &alike(Field::picture(row, *picture))),
            Owner::Pieces => {
                let rows: Vec<_> = (0..pieces).map(|piece| alike(Field::piece(row, piece))).collect();
                let is_one = pieces > 1 && rows.iter().all(|told| told.texts() == rows[0].texts());
                for (piece, told) in rows.iter().enumerate().take(if is_one { 1 } else { pieces }) {
                    let field = Field::chosen(row, (!is_one).then_some(piece));
                    match part {
                        Some(part) => {
                            found.part(
                                &called(part_name(part), &field.whose()),
                                told,
                                has_part(&of_other, part),
                            );
                        }
                        None => found.line(Some(field.label_in(one)), told),
                    }
                }
            }
            // A fixture is the same where it is called the same.
            Owner::Fixture(name) => {
                let field = |plan: &Plan| {
                    let index = plan.fixtures.iter().position(|fixture| fixture.name == *name)?;
                    Some(Field::fixture(row, index))
                };
                let (before, after) = (field(one), field(other));
                let told = read(before, after);
                if before.is_some() == after.is_some() {
                    found.line(Some(called(row.label, &["the ", name].concat())), &told);
                } else {
                    found.part(name, &told, after.is_some());
                }
            }
        }
    }
    Ok(found.lines)
}

/// Fields that say how the next one is stated: that one tells the difference.
static HOW_STATED: [&Row; 4] =
    [&plan::MAT_EXTENT, &plan::PAPER_EXTENT, &plan::MAT_WEIGHTING, &plan::PAPER_WEIGHTING];

/// Fields whose moulding may be none on offer: then its sizes say all.
static PROFILES: [&Row; 2] = [&field::FRAME_PROFILE, &field::FLOATER_PROFILE];

/// The part of a piece that a field is of, such as its mat: what stands before the dot of its name.
fn part_of(row: &'static Row) -> Option<&'static str> {
    let is_part = |part: &&str| PARTS.iter().any(|(known, _)| known == part);
    if *row == plan::SPACER { Some("glazing") } else { row.name.split('.').next().filter(is_part) }
}

/// The parts of pieces, by the names of their fields.
const PARTS: [(&str, &str); 11] = [
    ("paper", "paper"),
    ("canvas", "canvas"),
    ("aluminium", "sheet"),
    ("sub_frame", "sub-frame"),
    ("original", "original"),
    ("mat", "mat"),
    ("glazing", "glazing"),
    ("mount", "mount board"),
    ("backing", "backing"),
    ("frame", "frame"),
    ("floater", "floater frame"),
];

fn part_name(part: &str) -> &'static str {
    PARTS.iter().find(|(known, _)| *known == part).map_or("", |(_, name)| name)
}

/// Whether a plan says anything of a part, and not only whether it is there.
fn has_part(fields: &[Shared], part: &str) -> bool {
    fields.iter().any(|field| field.row.name.split_once('.').is_some_and(|(known, _)| known == part))
}

/// What two plans say of a field.
struct Told {
    row: &'static Row,
    before: Option<Value>,
    after: Option<Value>,
}

impl Told {
    /// In the one system of the plans; where they are rounded to the same text, in both.
    fn texts(&self) -> (Option<String>, Option<String>) {
        let of =
            |said: &dyn Fn(&Value) -> String| (self.before.as_ref().map(said), self.after.as_ref().map(said));
        let plainly = of(&|value| self.with_unit(value));
        if plainly.0 == plainly.1 {
            of(&|value| [&value.text, " (", value.other.as_deref().unwrap_or_default(), ")"].concat())
        } else {
            plainly
        }
    }

    /// Numbers have their units, but for shares, which have theirs already.
    fn with_unit(&self, value: &Value) -> String {
        match self.row.form {
            Form::Number { unit, .. } if unit != "‰" => [&value.text, unit].concat(),
            _ => in_colour(value.text.clone()),
        }
    }
}

/// A value as it is told: a colour without a name says that it is one.
fn in_colour(text: String) -> String {
    if text.starts_with('#') { ["the colour ", &text].concat() } else { text }
}

/// Whether a plan goes without what a field is of: no glazing, no floater frame.
fn is_without(value: &Value) -> bool {
    value.kind == Kind::Choice && matches!(value.key.as_deref(), Some("no" | "none"))
}

/// Differences as they are found.
struct Found {
    units: Units,
    lines: Vec<Difference>,
}

impl Found {
    /// A field that the plans state differently, or that only one of them has.
    fn line(&mut self, label: Option<String>, told: &Told) {
        let (one, other) = told.texts();
        let label = label.or_else(|| Some(told.after.as_ref().or(told.before.as_ref())?.label.clone()));
        // What one plan can't have and the other goes without is no difference.
        let is_no_difference =
            one.is_none() != other.is_none() && told.before.iter().chain(&told.after).all(is_without);
        if let (true, Some(label)) = (one != other && !is_no_difference, label) {
            let label = in_units(&label, self.units.first).into_owned();
            self.lines.push(Difference { label, one, other });
        }
    }

    /// A field of a thing that only one of the plans has: it goes into the line of that thing.
    fn part(&mut self, thing: &str, told: &Told, is_new: bool) {
        let Some(value) = (if is_new { &told.after } else { &told.before }) else { return };
        let text = told.with_unit(value);
        // Whether it is there is what the line says, and a length of nothing is nothing to tell.
        let is_nought = value.kind == Kind::Length && !text.contains(|letter| matches!(letter, '1'..='9'));
        let is_own_section = PROFILES.contains(&told.row) && value.key.is_none();
        if is_nought
            || is_without(value)
            || is_own_section
            || text == thing
            || matches!(told.row.form, Form::Maybe { .. }) && value.kind == Kind::Choice
        {
            return;
        }
        let text = match value.kind {
            Kind::Length | Kind::Size | Kind::Number => {
                // "distance of * from the corner" is of the thing that is spoken of.
                let label = told.row.label.replace(" of *", "").replace('*', "it");
                [&in_units(&label, self.units.first), " ", &text].concat()
            }
            _ => text,
        };
        let is_its = |line: &&mut Difference| line.label == thing && line.one.is_none() == is_new;
        match self.lines.iter_mut().find(is_its) {
            Some(line) => {
                if let Some(said) = if is_new { &mut line.other } else { &mut line.one } {
                    // "covering the sheet by" goes on with how much.
                    let goes_on = [" by", " of"].into_iter().any(|end| said.ends_with(end));
                    *said = if goes_on {
                        [said, " ", &told.with_unit(value)].concat()
                    } else {
                        [said, ", ", &text].concat()
                    };
                }
            }
            None => {
                let label = thing.to_owned();
                let (one, other) = if is_new { (None, Some(text)) } else { (Some(text), None) };
                self.lines.push(Difference { label, one, other });
            }
        }
    }
}

/// The fields in a plan's specification, each once.
fn fields_of(plan: &Plan, stock: &Stock) -> Result<Vec<Shared>, NoAnswer> {
    let figures = Figures::of(plan)?;
    let mut found: Vec<Shared> = Vec::new();
    for piece in std::iter::once(None).chain((0..plan.pieces.len()).map(Some)) {
        for Field { row, of } in fields_in(plan, &figures, stock, piece) {
            let of = match of {
                Whose::Plan => Owner::Plan,
                Whose::Pieces | Whose::Piece(_) => Owner::Pieces,
                Whose::Picture(picture) => Owner::Picture(picture),
                Whose::Fixture(fixture) => match plan.fixtures.get(fixture) {
                    Some(fixture) => Owner::Fixture(fixture.name.clone()),
                    None => continue,
                },
            };
            let field = Shared { row, of };
            if !found.contains(&field) {
                found.push(field);
            }
        }
    }
    Ok(found)
}
