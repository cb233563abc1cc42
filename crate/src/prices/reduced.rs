//! A book with no more rows than some plans need, to be handed on with them; and whether two plans ask the same of any book.

use super::parts::{Priced, parts};
use super::{Book, row_for};
use crate::figures::Figures;
use crate::making::things;
use crate::plan::Plan;
use crate::stock::Stock;

/// A plan to be priced, and what is asked for with it.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its figures.
    pub figures: &'a Figures,
    /// What is asked for by its name.
    pub with: &'a [String],
}

impl Book {
    /// The book with what is asked for in place of what was; names that no row waits for are left out.
    #[must_use]
    pub fn asking(&self, with: &[String]) -> Self {
        let known = self.waiting();
        let asked = with.iter().filter(|name| known.iter().any(|known| known.1 == **name));
        Self { asked: asked.cloned().collect(), ..self.clone() }
    }

    /// The book without the rows that none of these plans needs.
    ///
    /// Whatever becomes of a plan later, what the reduced book makes a total of costs the same by the whole book: of a part that the
    /// plans have, all rows up to the last that counts stay, since an earlier one could count then; of what comes at no price where
    /// the book has none, all; of what waits for its name, what is asked for.
    #[must_use]
    pub fn reduced(&self, plans: &[Asked<'_>], stock: &Stock) -> Self {
        let mut used: Vec<usize> = Vec::new();
        for Asked { plan, figures, with } in plans {
            let book = self.asking(with);
            for thing in things(plan, figures, stock) {
                let rows = parts(plan, figures, stock, &book, &thing).into_iter();
                used.extend(rows.filter_map(|priced| row_for(&book, &priced).map(|(row, ..)| row)));
            }
        }
        let stays = |index: usize| {
            let row = &self.rows[index];
            if row.part.may_wait() {
                let is_asked = |only: &String| plans.iter().any(|asked| asked.with.contains(only));
                return row.only.as_ref().is_none_or(is_asked);
            }
            let counts = |&last: &usize| index <= last && self.rows[last].part == row.part;
            row.part.is_optional() || used.iter().any(counts)
        };
        let rows = (0..self.rows.len()).filter(|&index| stays(index)).map(|index| self.rows[index].clone());
        Self { rows: rows.collect(), asked: Vec::new(), ..self.clone() }
    }
}

/// Whether two plans have the same parts of the same sizes, so that any book makes the same of both.
#[must_use]
pub fn cost_the_same(one: (&Plan, &Figures), other: (&Plan, &Figures), stock: &Stock, book: &Book) -> bool {
    let of = |(plan, figures): (&Plan, &Figures)| -> Vec<_> {
        let things = things(plan, figures, stock).into_iter();
        things.flat_map(|thing| parts(plan, figures, stock, book, &thing)).collect()
    };
    let (found, mut left) = (of(one), of(other));
    // In any order: what changes places on the wall costs what it did.
    let is_there = |priced: &Priced| {
        let place = left.iter().position(|other| other == priced);
        place.map(|place| left.swap_remove(place)).is_some()
    };
    found.iter().all(is_there) && left.is_empty()
}
