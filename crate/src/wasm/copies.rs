//! Copies of pictures at the boundary: those on the desk, and those that a plan file has with it.

use super::view::CopyView;
use super::{Desk, Handed, handed};
use crate::draw::across;
use crate::plan::file;
use crate::resample::Raster;
use tsify::Ts;
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

#[wasm_bindgen]
impl Desk {
    /// The pictures of the plan, in their order, with the size of the copy that is on the desk: nothing by nothing where
    /// there is none.
    pub fn copies(&self) -> Result<Vec<Ts<CopyView>>, JsError> {
        let pictures = self.desk.plan().pictures.iter();
        let view = |picture: &crate::plan::Picture| {
            let copy = self.desk.copy(&picture.name);
            handed(CopyView {
                name: picture.name.clone(),
                file: picture.file.clone(),
                width_px: picture.width_px,
                height_px: picture.height_px,
                copy_width_px: copy.map_or(0, Raster::width_px),
                copy_height_px: copy.map_or(0, Raster::height_px),
            }) as Handed<_>
        };
        pictures.map(view).collect()
    }

    /// The pixels of a copy: RGBA.
    pub fn copy_pixels(&self, name: &str) -> Vec<u8> {
        self.desk.copy(name).map_or_else(Vec::new, |copy| copy.pixels().to_vec())
    }

    /// The pixels of a picture with a line of text across it, RGBA.
    pub fn across(pixels: Vec<u8>, width_px: u32, height_px: u32, words: &str) -> Vec<u8> {
        let marked = Raster::new(width_px, height_px, pixels).map(|picture| across(&picture, words));
        marked.map_or_else(Vec::new, |marked| marked.pixels().to_vec())
    }

    /// The plan as a file with copies of its pictures, in their order: JPEG in base64, or empty where there is none.
    pub fn full_plan_file(&self, copies: Vec<String>) -> Result<String, JsError> {
        let copies: Vec<_> =
            copies.into_iter().map(|copy| Some(copy).filter(|copy| !copy.is_empty())).collect();
        Ok(file::write_with_copies(self.desk.plan(), &copies)?)
    }
}
