//! What is suggested on the desk: plans to try on, and to take as a step that can be undone.

use super::{Desk, DeskError};
use crate::draw::{Drawing, Sheet};
use crate::plan::Plan;
use crate::prices::{Book, NotWaiting};
use crate::suggest::wishes::{WishError, Wishes};
use crate::suggest::{Suggestions, suggest};

/// The last suggestions.
#[derive(Debug, Default)]
pub(super) struct Suggested {
    wishes: Wishes,
    /// The plan that they were asked for, and they.
    found: Option<(Plan, Suggestions)>,
}

impl Desk {
    /// The price book that is open.
    #[must_use]
    pub fn book(&self) -> Option<&Book> {
        self.book.as_ref()
    }

    /// Opens a price book in place of the one before; an empty text closes it.
    ///
    /// # Errors
    /// When the text is no price book; the one before stays open.
    pub fn open_book(&mut self, text: &str) -> Result<(), DeskError> {
        let read = || Book::read(text).map_err(DeskError::Book);
        self.book = if text.is_empty() { None } else { Some(read()?) };
        self.forget_suggestions();
        Ok(())
    }

    /// Asks for what waits in the price book under a name, or leaves it; nothing where no book is open.
    ///
    /// # Errors
    /// When no row of the book waits under this name.
    pub fn ask_for(&mut self, name: &str, is_wanted: bool) -> Result<(), NotWaiting> {
        self.book.as_mut().map_or(Ok(()), |book| book.ask_for(name, is_wanted))?;
        self.forget_suggestions();
        Ok(())
    }

    /// What is wished of suggestions.
    #[must_use]
    pub fn wishes(&self) -> &Wishes {
        &self.suggested.wishes
    }

    /// Wishes something, by its name.
    ///
    /// # Errors
    /// When there is no such thing to wish.
    pub fn wish(&mut self, name: &str, text: &str) -> Result<(), WishError> {
        self.suggested.wishes.choose(name, text)?;
        self.forget_suggestions();
        Ok(())
    }

    /// What is suggested for the plan, and which of it is the plan. While one of them is the plan, they stay as they are.
    ///
    /// # Errors
    /// When nothing can be suggested for the plan.
    pub fn suggested(&mut self) -> Result<(&Suggestions, Option<usize>), DeskError> {
        let is_for = |(plan, found): &(Plan, Suggestions)| {
            let plans = || found.suggestions.iter().map(|one| &one.plan).chain([plan]);
            plans().any(|plan| *plan == self.plan)
        };
        if !self.suggested.found.as_ref().is_some_and(is_for) {
            let wish = self.suggested.wishes.wish(self.book.as_ref());
            self.suggested.found = Some((self.plan.clone(), suggest(&self.plan, &self.stock, &wish)?));
        }
        let (_, found) = self.suggested.found.as_ref().ok_or(DeskError::NotAsked)?;
        Ok((found, found.suggestions.iter().position(|one| one.plan == self.plan)))
    }

    /// They are worked out again when they are asked for.
    pub(super) fn forget_suggestions(&mut self) {
        self.suggested.found = None;
    }

    fn suggestion(&self, index: usize) -> Option<&Plan> {
        Some(&self.suggested.found.as_ref()?.1.suggestions.get(index)?.plan)
    }

    /// A suggestion, small and without lines: sRGB, four bytes a pixel. `None` where there is no such one.
    #[must_use]
    pub fn small_suggestion(&self, index: usize, sheet: &Sheet) -> Option<Vec<u8>> {
        self.small_room(self.suggestion(index)?, sheet)
    }

    /// Draws the wall with a suggestion tried on.
    pub fn draw_tried(&mut self, index: usize, sheet: &Sheet) -> Drawing<'_> {
        self.draw_other(self.suggestion(index).cloned(), sheet)
    }

    /// Takes a suggestion as a step that can be undone.
    ///
    /// # Errors
    /// When there is no such one.
    pub fn take_suggestion(&mut self, index: usize) -> Result<(), DeskError> {
        self.abandon();
        let plan = self.suggestion(index).cloned();
        Ok(self.step(plan.ok_or(DeskError::Gone)?)?)
    }
}
