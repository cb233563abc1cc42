//! The finished rows of one print-ready picture, as a writer asks for them.

use super::progress::Progress;
use super::turned::Upright;
use crate::failure::pictures::ReadError;
use overmantel::print_file::{Form, Recipe, Rows};
use std::collections::VecDeque;
use std::ops::Range;

/// Finished rows, made as they are asked for.
pub(super) struct Made {
    /// The form of the finished rows.
    pub(super) form: Form,
    source_form: Form,
    upright: Upright,
    rows: Rows,
    left: Range<u32>,
    waiting: VecDeque<Vec<u8>>,
    spare: Vec<Vec<u8>>,
    stored: Vec<u8>,
    progress: Progress,
    height: u32,
    handed: u32,
}

impl Made {
    /// `form` and `colour` are those of the finished rows; `upright` begins at the first row that is needed.
    pub(super) fn new(
        recipe: &Recipe,
        (source_form, form): (Form, Form),
        colour: &[u8],
        upright: Upright,
        progress: Progress,
    ) -> Self {
        let rows = Rows::new(recipe, form, colour);
        Self {
            form,
            source_form,
            upright,
            left: rows.needed(),
            rows,
            waiting: VecDeque::new(),
            spare: Vec::new(),
            stored: Vec::new(),
            progress,
            height: recipe.size_px().1,
            handed: 0,
        }
    }

    /// The next row; what was in `row` is gone.
    pub(super) fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        while self.waiting.is_empty() {
            if self.left.next().is_none() {
                return Err(ReadError::NoRows);
            }
            self.upright.next(self.source_form.bytes(), &mut self.stored)?;
            if self.form.is_coloured && !self.source_form.is_coloured {
                let sample = self.source_form.bytes();
                self.stored = self.stored.chunks_exact(sample).flat_map(|grey| grey.repeat(3)).collect();
            }
            let (waiting, spare) = (&mut self.waiting, &mut self.spare);
            self.rows.take(&self.stored, &mut |finished| {
                let mut row = spare.pop().unwrap_or_default();
                row.clear();
                row.extend_from_slice(finished);
                waiting.push_back(row);
            });
        }
        let next = self.waiting.pop_front().unwrap_or_default();
        self.spare.push(std::mem::replace(row, next));
        self.handed += 1;
        self.progress.at(self.handed, self.height);
        Ok(())
    }
}
