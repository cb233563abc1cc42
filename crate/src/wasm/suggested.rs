//! Suggestions and prices at the boundary.

use super::view::{
    FieldView, ListView, OptionView, Outcome, RunView, SheetOptions, SuggestedView, SuggestionView,
};
use super::{Desk, Handed, handed, small};
use crate::prices::PricedPart;
use crate::spec::priced;
use crate::suggest::{Suggestion, Suggestions};
use crate::text::typeset;
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

/// Something that a price book has a price for where it is asked for.
#[derive(Serialize, Tsify)]
pub struct ExtraView {
    /// Its name in a call.
    pub name: String,
    /// What it is called.
    pub words: String,
    /// Whether it is asked for.
    pub is_asked: bool,
}

#[wasm_bindgen]
impl Desk {
    /// What may be asked for by the price book that is open.
    pub fn extras(&self) -> Result<Vec<Ts<ExtraView>>, JsError> {
        let Some(book) = self.desk.book() else { return Ok(Vec::new()) };
        let view = |(part, name): (PricedPart, &str)| ExtraView {
            words: match part {
                PricedPart::Extra => typeset(name),
                _ => typeset(&[name, " (", part.name(), ")"].concat()),
            },
            name: name.to_owned(),
            is_asked: book.asked.iter().any(|asked| asked == name),
        };
        book.waiting().into_iter().map(|extra| handed(view(extra)) as Handed<_>).collect()
    }

    /// Asks for what waits in the price book under a name, or leaves it.
    pub fn ask_for(&mut self, name: &str, is_wanted: bool) -> Result<(), JsError> {
        Ok(self.desk.ask_for(name, is_wanted)?)
    }

    /// Opens a price book; an empty text closes it.
    pub fn open_book(&mut self, text: &str) -> Handed<Outcome> {
        handed(Outcome::of(self.desk.open_book(text)))
    }

    /// What the plan costs, and the same wall in each material.
    pub fn prices(&self) -> Result<Vec<Ts<ListView>>, JsError> {
        let desk = &self.desk;
        let lists = priced::prices(desk.plan(), desk.figures(), desk.stock(), desk.book());
        lists.into_iter().map(|list| handed(ListView::of(list))).collect()
    }

    /// What is wished of suggestions, as a sentence with fields.
    pub fn wishes(&self) -> Result<Vec<Ts<RunView>>, JsError> {
        let mut runs = Vec::new();
        for one in self.desk.wishes().offered(self.desk.book()) {
            runs.push(handed(RunView::Text { text: typeset(one.before) })?);
            let is_amount = one.options.is_empty();
            runs.push(handed(RunView::Field(FieldView {
                field: one.name.to_owned(),
                kind: if is_amount { "number" } else { "choice" },
                shown: typeset(&one.text),
                text: one.text,
                other: None,
                key: one.place.map(|place| place.to_string()),
                options: one
                    .options
                    .into_iter()
                    .enumerate()
                    .map(|(place, words)| OptionView { key: place.to_string(), words: words.to_owned() })
                    .collect(),
                drawn: false,
                label: one.label.to_owned(),
                rounded: false,
            }))?);
        }
        runs.push(handed(RunView::Text { text: ".".to_owned() })?);
        Ok(runs)
    }

    /// Wishes something, by its name.
    pub fn wish(&mut self, name: &str, text: &str) -> Handed<Outcome> {
        handed(Outcome::of(self.desk.wish(name, text)))
    }

    /// What is suggested for the plan. While one of them is the plan, they stay as they are.
    pub fn suggested(&mut self) -> Handed<SuggestedView> {
        let book = self.desk.book().cloned();
        let view = |one: &Suggestion, holds| {
            let price = one.price.as_ref().zip(book.as_ref());
            let price =
                price.and_then(|(price, book)| Some([&book.text(price.totals?.total), "; "].concat()));
            SuggestionView {
                words: typeset(&one.words),
                why: typeset(&[&price.unwrap_or_default(), &*one.reasons.join("; ")].concat()),
                cautions: one.cautions.iter().map(|caution| typeset(caution)).collect(),
                holds,
            }
        };
        handed(match self.desk.suggested() {
            Ok((found, taken)) => SuggestedView {
                error: None,
                suggestions: found
                    .suggestions
                    .iter()
                    .enumerate()
                    .map(|(index, one)| view(one, taken == Some(index)))
                    .collect(),
                said: said(found),
            },
            Err(why) => {
                SuggestedView { error: Some(why.to_string()), suggestions: Vec::new(), said: String::new() }
            }
        })
    }

    /// Draws a suggestion into a canvas of the sheet's size; whether there is anything to see.
    pub fn draw_suggestion(
        &self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        index: usize,
    ) -> Result<bool, JsError> {
        let sheet = sheet.to_rust()?.sheet();
        small::put(context, &sheet, self.desk.small_suggestion(index, &sheet))
    }

    /// Shows the wall with a suggestion tried on, or the plan as it is.
    pub fn try_on(&mut self, index: Option<usize>) {
        self.tried = index;
    }

    /// Takes a suggestion as a step that can be undone.
    pub fn take_suggestion(&mut self, index: usize) -> Handed<Outcome> {
        self.tried = None;
        handed(Outcome::of(self.desk.take_suggestion(index)))
    }
}

fn said(found: &Suggestions) -> String {
    let mut considered = String::new();
    for (at, digit) in found.considered.to_string().bytes().rev().enumerate() {
        considered.insert_str(0, if at > 0 && at % 3 == 0 { "\u{202f}" } else { "" });
        considered.insert(0, digit.into());
    }
    if found.suggestions.is_empty() {
        return ["None of ", &considered, " combinations works: allow another make-up, fewer or more pieces, or more money, or make space on the wall."].concat();
    }
    let best = ["The best of ", &considered, " combinations: one for each number of pieces and material."];
    [&best.concat(), " ", found.said().unwrap_or_default()].concat().trim_end().to_owned()
}
