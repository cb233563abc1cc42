//! Two plans beside each other: what became of every field that a person can read.
//!
//! ```
//! use overmantel::{compare::differences, fields, plan::Plan, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let wider = fields::write(&plan, &stock, "wall.width", "13'").unwrap();
//! let found = differences(&plan, &wider, &stock).unwrap();
//! assert_eq!(found[0].in_words(), "Wall width: 12' 0\" became 13' 0\"");
//! assert!(differences(&plan, &plan, &stock).unwrap().is_empty());
//! ```

mod take;
pub use take::{Part, parts, taken};

use crate::fields::{self, Value};
use crate::figures::Figures;
use crate::plan::Plan;
use crate::spec::field_names;
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
        let mut letters = self.label.chars();
        let label: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
        match (&self.one, &self.other) {
            (Some(one), Some(other)) => [&label, ": ", one, " became ", other].concat(),
            (None, Some(other)) => [&label, " is new: ", other].concat(),
            (Some(one), None) => [&label, " is gone: it was ", one].concat(),
            (None, None) => label,
        }
    }
}

/// What became of one plan in another, in the order of the specification and in the one plan's units: every field of either,
/// pieces by their places and fixtures by their names. What all pieces have in common is said once.
///
/// # Errors
/// When one of the plans has no answer.
pub fn differences(one: &Plan, other: &Plan, stock: &Stock) -> Result<Vec<Difference>, String> {
    let other = &Plan { units: one.units, ..other.clone() };
    let mut names = names(one, stock)?;
    for name in self::names(other, stock)? {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let pieces = one.pieces.len().min(other.pieces.len());
    let mut found = Vec::new();
    for name in names {
        let (before, whose, part) = match name.splitn(3, '.').collect::<Vec<_>>()[..] {
            ["piece", _, part] => {
                let field = |piece: usize| ["piece.", &piece.to_string(), ".", part].concat();
                let rows: Vec<_> = (0..pieces)
                    .map(|piece| pair(one, other, stock, Some(&field(piece)), Some(&field(piece))))
                    .collect();
                let said = |row: &Option<Difference>| row.clone().map(|row| (row.one, row.other));
                match rows.first() {
                    Some(Some(first)) if pieces > 1 && rows.iter().all(|row| said(row) == said(&rows[0])) => {
                        let label = fields::label(&["piece.all.", part].concat());
                        found.push(Difference { label, ..first.clone() });
                    }
                    _ => found.extend(rows.into_iter().flatten()),
                }
                continue;
            }
            ["fixture", fixture, part] => ("fixture.", fixture, part),
            _ => {
                found.extend(pair(one, other, stock, Some(&name), Some(&name)));
                continue;
            }
        };
        // A fixture is the same where it is called the same.
        let field = |plan: &Plan| {
            let index = plan.fixtures.iter().position(|fixture| fixture.name.replace('.', " ") == whose)?;
            Some([before, &index.to_string(), ".", part].concat())
        };
        if let Some(mut row) = pair(one, other, stock, field(one).as_deref(), field(other).as_deref()) {
            let part = row.label.split(" of fixture ").next().unwrap_or_default();
            row.label = [part, " of ", whose].concat();
            found.push(row);
        }
    }
    Ok(found)
}

/// The fields of a plan: pieces without their numbers, fixtures by their names.
fn names(plan: &Plan, stock: &Stock) -> Result<Vec<String>, String> {
    let figures = Figures::of(plan)?;
    let mut names: Vec<String> = Vec::new();
    for piece in std::iter::once(None).chain((0..plan.pieces.len()).map(Some)) {
        for field in field_names(plan, &figures, stock, piece) {
            let name = match field.splitn(3, '.').collect::<Vec<_>>()[..] {
                ["piece", _, part] => ["piece.all.", part].concat(),
                ["fixture", index, part] => {
                    let fixture = index.parse().ok().and_then(|index: usize| plan.fixtures.get(index));
                    let Some(fixture) = fixture else { continue };
                    // A full stop in a name would end it.
                    ["fixture.", &fixture.name.replace('.', " "), ".", part].concat()
                }
                _ => field,
            };
            if !names.contains(&name) {
                names.push(name);
            }
        }
    }
    Ok(names)
}

/// What two plans say of a field, where that is not the same.
fn pair(
    one: &Plan,
    other: &Plan,
    stock: &Stock,
    before: Option<&str>,
    after: Option<&str>,
) -> Option<Difference> {
    let read = |plan: &Plan, field: Option<&str>| fields::read(plan, stock, field?);
    let (before, after) = (read(one, before), read(other, after));
    let label = after.as_ref().or(before.as_ref())?.label.clone();
    let of = |said: fn(&Value) -> String| (before.as_ref().map(said), after.as_ref().map(said));
    let plainly = of(|value| value.text.clone());
    let exactly = of(|value| [&value.text, " (", value.other.as_deref().unwrap_or_default(), ")"].concat());
    // Rounded to the same text, they may still differ in the other system.
    let (one, other) = if plainly.0 == plainly.1 { exactly } else { plainly };
    (one != other).then_some(Difference { label, one, other })
}
