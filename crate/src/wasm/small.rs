//! Small drawings at the boundary: what there is to choose, drawn.

use super::view::{SheetOptions, StartView};
use super::{Handed, Workbench, handed};
use crate::starts;
use tsify::Ts;
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, ImageData};

#[wasm_bindgen]
impl Workbench {
    /// The plans to begin with.
    pub fn starts(&self) -> Result<Vec<Ts<StartView>>, JsError> {
        let view = |start: &starts::Start| StartView {
            code: start.code,
            words: start.words,
            next: start.next,
            error: starts::begin(self.desk.plan(), start.code).err(),
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
impl Workbench {
    /// Draws what an option of a field would make into a canvas of the sheet's size; whether there is anything to see.
    pub fn draw_option(
        &self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        field: &str,
        option: &str,
    ) -> Result<bool, JsError> {
        let sheet = sheet.to_rust()?.sheet();
        put(context, &sheet, self.desk.small_option(field, option, &sheet))
    }
}

fn put(
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
