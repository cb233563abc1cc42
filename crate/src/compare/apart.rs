//! Several plans for one wall: what sets each apart from all the others, in a line.

use super::summary::{ADVANTAGES, Weighed};
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
/// assert!(found[0].starts_with("paper in a mat, framed behind glass") && found[0].contains("protected by glazing"));
/// assert!(found[1].starts_with("canvas, 1 1/2\" deep, mirrored wrap") && found[1].contains("the lightest"));
/// ```
pub fn apart(plans: &[Beside<'_>], stock: &Stock) -> Result<Vec<String>, NoAnswer> {
    let weighed = weighed(plans, stock)?;
    let line = |place: usize| {
        let others = || weighed.iter().enumerate().filter(move |(other, _)| *other != place);
        let better: Vec<_> = others().map(|(_, other)| weighed[place].better_at(other)).collect();
        let best = ADVANTAGES.iter().enumerate().filter(|(at, _)| better.iter().all(|better| better[*at]));
        let best: Vec<&str> =
            if better.is_empty() { Vec::new() } else { best.map(|(_, [_, words])| *words).collect() };
        let make_up = weighed[place].text.iter().find(|(label, _)| *label == MAKE_UP);
        let make_up = make_up.map_or(String::new(), |(_, text)| text.clone());
        if best.is_empty() { make_up } else { [&make_up, ": ", &best.join(", ")].concat() }
    };
    Ok((0..weighed.len()).map(line).collect())
}

/// What several plans say of what a buyer weighs up, row by row; rows without a word are left out.
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
    Ok(rows.filter(|row| row.told.iter().any(|text| !text.is_empty())).collect())
}

const MAKE_UP: &str = "Make-up";

/// Each in the units of the first.
fn weighed(plans: &[Beside<'_>], stock: &Stock) -> Result<Vec<Weighed>, NoAnswer> {
    let Some(units) = plans.first().map(|first| first.plan.units) else { return Ok(Vec::new()) };
    let of = |one: &Beside<'_>| Weighed::of(&Plan { units, ..one.plan.clone() }, stock, one.book);
    plans.iter().map(of).collect()
}
