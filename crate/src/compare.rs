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

mod summary;
mod take;
pub use summary::{MOST_LINES, Summary, SummaryRow, summary};
pub use take::{PlanPart, parts, taken};

use crate::described::Row;
use crate::field::{Field, Whose};
use crate::fields::{self, Value};
use crate::figures::{Figures, NoAnswer};
use crate::plan::{Plan, called};
use crate::spec::{capital, fields_in};
use crate::stock::Stock;

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
            (Some(one), None) => [&label, " was removed: it was ", one].concat(),
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
/// pieces by their places and fixtures by their names. What all pieces have in common is said once.
///
/// # Errors
/// When one of the plans has no answer.
pub fn differences(one: &Plan, other: &Plan, stock: &Stock) -> Result<Vec<Difference>, NoAnswer> {
    let other = &Plan { units: one.units, ..other.clone() };
    let mut shared = fields_of(one, stock)?;
    for field in fields_of(other, stock)? {
        if !shared.contains(&field) {
            shared.push(field);
        }
    }
    let pieces = one.pieces.len().min(other.pieces.len());
    let mut found = Vec::new();
    for Shared { row, of } in shared {
        let alike = |field| pair(one, other, stock, Some(field), Some(field));
        match of {
            Owner::Plan => found.extend(alike(Field::from(row))),
            Owner::Picture(picture) => found.extend(alike(Field::picture(row, picture))),
            Owner::Pieces => {
                let rows: Vec<_> = (0..pieces).map(|piece| alike(Field::piece(row, piece))).collect();
                let said = |row: &Option<Difference>| row.clone().map(|row| (row.one, row.other));
                match rows.first() {
                    Some(Some(first)) if pieces > 1 && rows.iter().all(|row| said(row) == said(&rows[0])) => {
                        found.push(Difference { label: Field::pieces(row).label(), ..first.clone() });
                    }
                    _ => found.extend(rows.into_iter().flatten()),
                }
            }
            // A fixture is the same where it is called the same.
            Owner::Fixture(name) => {
                let field = |plan: &Plan| {
                    let index = plan.fixtures.iter().position(|fixture| fixture.name == name)?;
                    Some(Field::fixture(row, index))
                };
                let difference = pair(one, other, stock, field(one), field(other));
                let label = called(row.label, &name);
                found.extend(difference.map(|difference| Difference { label, ..difference }));
            }
        }
    }
    Ok(found)
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

/// What two plans say of a field, where that is not the same.
fn pair(
    one: &Plan,
    other: &Plan,
    stock: &Stock,
    before: Option<Field>,
    after: Option<Field>,
) -> Option<Difference> {
    let read = |plan: &Plan, field: Option<Field>| fields::read(plan, stock, field?);
    let (before, after) = (read(one, before), read(other, after));
    let label = after.as_ref().or(before.as_ref())?.label.clone();
    let of = |said: fn(&Value) -> String| (before.as_ref().map(said), after.as_ref().map(said));
    let plainly = of(|value| value.text.clone());
    let exactly = of(|value| [&value.text, " (", value.other.as_deref().unwrap_or_default(), ")"].concat());
    // Rounded to the same text, they may still differ in the other system.
    let (one, other) = if plainly.0 == plainly.1 { exactly } else { plainly };
    (one != other).then_some(Difference { label, one, other })
}
