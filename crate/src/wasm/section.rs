//! Sections at the boundary: a cut through a piece, whole or with one term pointed out.

use super::Desk;
use super::view::SheetOptions;
use crate::scene::section::Section;
use crate::terms::Term;
use tsify::Ts;
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

#[wasm_bindgen]
impl Desk {
    /// Draws the section of a piece (the first, when none is chosen) into a canvas, which takes the size that it needs at the
    /// sheet's width. Says what is to be seen.
    pub fn draw_section(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        piece: Option<u32>,
    ) -> Result<String, JsError> {
        let section = self.cut(piece);
        let drawn = section.map(|section| self.put_section(canvas, context, sheet, &section));
        drawn.unwrap_or_else(|| Ok(String::new()))
    }

    /// The same with nothing named but what shows a term; none where nothing in it does.
    pub fn draw_term(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        piece: Option<u32>,
        term: &str,
    ) -> Result<Option<String>, JsError> {
        let section =
            self.cut(piece).zip(Term::of_key(term)).and_then(|(section, term)| section.of_term(term));
        section.map(|section| self.put_section(canvas, context, sheet, &section)).transpose()
    }
}

impl Desk {
    fn cut(&self, piece: Option<u32>) -> Option<Section> {
        let chosen = piece.and_then(|piece| usize::try_from(piece).ok()).unwrap_or(0);
        self.desk.section(chosen).or_else(|| self.desk.section(0))
    }

    fn put_section(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        section: &Section,
    ) -> Result<String, JsError> {
        let failed = |_| JsError::new("the browser could not take the section");
        let system = self.desk.plan().units.first;
        let drawing = crate::draw::section::draw(section, &sheet.to_rust()?.sheet(), system);
        let (width, height) = (drawing.width_px, drawing.height_px);
        let image = ImageData::new_with_u8_clamped_array_and_sh(Clamped(&drawing.pixels), width, height)
            .map_err(failed)?;
        canvas.set_width(width);
        canvas.set_height(height);
        context.put_image_data(&image, 0.0, 0.0).map_err(failed)?;
        Ok(section.in_words())
    }
}
