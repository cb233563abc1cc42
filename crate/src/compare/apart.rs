//! Several plans for one wall: what sets each apart from all the others, in a line.

use super::summary::{ADVANTAGES, OF_ROOM, Weighed};
use crate::figures::NoAnswer;
use crate::plan::Plan;
use crate::prices::Book;
use crate::stock::Stock;

/// A plan beside others, with what is asked for of the price book.
#[derive(Clone, Copy, Debug)]
pub struct Beside<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The price book, with what is asked for; none where there is none.
    pub book: Option<&'a Book>,
}

/// What sets a plan apart from others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Apart {
    /// What it is made of.
    pub made: String,
    /// At what it beats all the others; empty for nothing, or where it is alone.
    pub best: String,
}

impl Apart {
    /// As one line.
    #[must_use]
    pub fn line(&self) -> String {
        if self.best.is_empty() { self.made.clone() } else { [&self.made, ": ", &self.best].concat() }
    }
}

/// What several plans say of one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SideRow {
    /// What it is about.
    pub label: &'static str,
    /// What each says, in the order of the plans; empty for nothing.
    pub told: Vec<String>,
}

/// What sets each of several plans apart, in the order of the plans: what it is made of, and at what it beats all the others.
///
/// # Errors
/// When one of the plans has no answer.
///
/// ```
/// use overmantel::compare::{Beside, apart};
/// use overmantel::{field::Field, fields, plan::{self, Plan}, stock::Stock};
/// let (paper, stock) = (Plan::starting(), Stock::offered());
/// let canvas = fields::write(&paper, &stock, Field::pieces(&plan::PIECE_MATERIAL), "canvas").unwrap();
/// let both = [&paper, &canvas].map(|plan| Beside { plan, book: None });
/// let found = apart(&both, &stock).unwrap();
/// assert_eq!(found[0].made, "paper in a mat, framed behind glass");
/// assert!(found[0].best.contains("protected by glazing") && found[1].best.contains("the lightest"));
/// ```
pub fn apart(plans: &[Beside<'_>], stock: &Stock) -> Result<Vec<Apart>, NoAnswer> {
    let weighed = weighed(plans, stock)?;
    let line = |place: usize| {
        let others = || weighed.iter().enumerate().filter(move |(other, _)| *other != place);
        let better: Vec<_> = others().map(|(_, other)| weighed[place].better_at(other)).collect();
        let best = ADVANTAGES.iter().enumerate().filter(|(at, _)| better.iter().all(|better| better[*at]));
        let best: Vec<&str> =
            if better.is_empty() { Vec::new() } else { best.map(|(_, [_, words])| *words).collect() };
        let make_up = weighed[place].text.iter().find(|(label, _)| *label == MAKE_UP);
        Apart { made: make_up.map_or(String::new(), |(_, text)| text.clone()), best: best.join(", ") }
    };
    Ok((0..weighed.len()).map(line).collect())
}

/// What several plans say of what a buyer weighs up, row by row. Rows without a word are left out, and of the room and the pictures
/// what is the same for all.
///
/// # Errors
/// When one of the plans has no answer.
pub fn side_by_side(plans: &[Beside<'_>], stock: &Stock) -> Result<Vec<SideRow>, NoAnswer> {
    let weighed = weighed(plans, stock)?;
    let Some(first) = weighed.first() else { return Ok(Vec::new()) };
    let rows = first.text.iter().enumerate().map(|(row, &(label, _))| SideRow {
        label,
        told: weighed.iter().map(|one| one.text[row].1.clone()).collect(),
    });
    let is_told = |row: &SideRow| {
        let is_same = row.told.iter().all(|text| *text == row.told[0]);
        !(is_same && (row.told[0].is_empty() || OF_ROOM.contains(&row.label)))
    };
    Ok(rows.filter(is_told).collect())
}

const MAKE_UP: &str = "Make-up";

/// Each in the units of the first.
fn weighed(plans: &[Beside<'_>], stock: &Stock) -> Result<Vec<Weighed>, NoAnswer> {
    let Some(units) = plans.first().map(|first| first.plan.units) else { return Ok(Vec::new()) };
    let of = |one: &Beside<'_>| Weighed::of(&Plan { units, ..one.plan.clone() }, stock, one.book);
    plans.iter().map(of).collect()
}
