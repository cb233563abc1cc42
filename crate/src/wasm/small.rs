//! Small drawings at the boundary: what there is to choose, drawn.

use super::view::{BesideView, SheetOptions, StartView, SummaryRowView, SummaryView};
use super::{Desk, Handed, handed};
use crate::addressed::{Addressed, addressed};
use crate::compare::{self, differences};
use crate::field::Field;
use crate::plan::file;
use crate::starts;
use crate::text::typeset;
use tsify::Ts;
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

#[wasm_bindgen]
impl Desk {
    /// The plan file that an address asks for: a work of one of these plan files alone, at a size, on its wall.
    pub fn addressed(
        &self,
        from: Vec<String>,
        work: &str,
        size: &str,
        wall: &str,
    ) -> Result<String, JsError> {
        let from = from.iter().map(|plan| file::read(plan)).collect::<Result<Vec<_>, _>>()?;
        Ok(file::write(&addressed(&from, self.desk.stock(), &Addressed { work, size, wall })?))
    }

    /// The plans to begin with.
    pub fn starts(&self) -> Result<Vec<Ts<StartView>>, JsError> {
        let view = |start: &starts::Start| StartView {
            code: start.code,
            words: start.words,
            next: start.next.to_string(),
            error: starts::begin(self.desk.plan(), start.code).err().map(|why| why.to_string()),
        };
        starts::STARTS.iter().map(|start| handed(view(start)) as Handed<_>).collect()
    }

    /// Draws what a starting point would make of the room into a canvas of the sheet's size; whether there is anything to see.
    pub fn draw_start(
        &self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        code: &str,
    ) -> Result<bool, JsError> {
        let sheet = sheet.to_rust()?.sheet();
        put(context, &sheet, self.desk.small_start(code, &sheet))
    }
}

#[wasm_bindgen]
impl Desk {
    /// Draws what an option of a field would make into a canvas of the sheet's size; whether there is anything to see.
    pub fn draw_option(
        &self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        field: &str,
        option: &str,
    ) -> Result<bool, JsError> {
        let sheet = sheet.to_rust()?.sheet();
        let field = Field::named(field);
        put(context, &sheet, field.and_then(|field| self.desk.small_option(field, option, &sheet)))
    }
}

#[wasm_bindgen]
impl Desk {
    /// Draws the plan into a canvas of the sheet's size, at the scale of all the plan files beside which it stands; whether there is
    /// anything to see.
    pub fn draw_beside(
        &self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        others: Vec<String>,
    ) -> Result<bool, JsError> {
        let sheet = sheet.to_rust()?.sheet();
        let others: Vec<_> = others.iter().filter_map(|text| file::read(text).ok()).collect();
        put(context, &sheet, self.desk.small_beside(&others, &sheet))
    }

    /// What there is to see, in words.
    pub fn in_words(&self) -> String {
        crate::scene::in_words(self.desk.plan(), self.desk.figures())
    }

    /// Draws the view as a picture to hand on into a canvas, which takes the height that it needs: title and sizes stand in a
    /// strip below it. Says what it is of, for the name of its file.
    pub fn draw_captioned(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
    ) -> Result<String, JsError> {
        let sheet = sheet.to_rust()?.sheet();
        let (pixels, height_px) = self.desk.captioned(&sheet);
        canvas.set_width(sheet.width_px);
        canvas.set_height(height_px);
        put(context, &crate::draw::Sheet { height_px, ..sheet }, Some(pixels))?;
        Ok(self.desk.caption())
    }

    /// What may stand beside the plan at work, the likeliest first.
    pub fn beside(&self) -> Result<Vec<Ts<BesideView>>, JsError> {
        let found = self.desk.beside().into_iter();
        let view = |one: crate::desk::Beside| BesideView {
            is_before: one.is_before,
            key: one.key,
            words: one.words,
            plan: file::write(&one.plan),
        };
        found.map(|one| handed(view(one)) as Handed<_>).collect()
    }

    /// Two plan files in a few lines: what they say, what each is better at, and what became of the one in the other.
    pub fn summary(&self, one: &str, other: &str) -> Handed<SummaryView> {
        let [one, other] = [one, other].map(file::read);
        let found = compare::summary(&one?, &other?, self.desk.stock(), self.desk.book())?;
        let row = |row: compare::SummaryRow| SummaryRowView {
            label: row.label,
            is_same: row.is_same(),
            one: typeset(&row.one),
            other: typeset(&row.other),
        };
        handed(SummaryView {
            rows: found.rows.into_iter().map(row).collect(),
            changes: found.changes.iter().map(|change| typeset(change)).collect(),
        })
    }

    /// What became of one plan file in another, each a sentence.
    pub fn differences(&self, one: &str, other: &str) -> Result<Vec<String>, JsError> {
        let [one, other] = [one, other].map(file::read);
        let found = differences(&one?, &other?, self.desk.stock());
        Ok(found?.iter().map(|row| typeset(&row.in_words())).collect())
    }
}

pub(super) fn put(
    context: &CanvasRenderingContext2d,
    sheet: &crate::draw::Sheet,
    pixels: Option<Vec<u8>>,
) -> Result<bool, JsError> {
    let failed = |_| JsError::new("the browser could not take a small drawing");
    let Some(pixels) = pixels else { return Ok(false) };
    let image =
        ImageData::new_with_u8_clamped_array_and_sh(Clamped(&pixels), sheet.width_px, sheet.height_px);
    context.put_image_data(&image.map_err(failed)?, 0.0, 0.0).map_err(failed)?;
    Ok(true)
}
