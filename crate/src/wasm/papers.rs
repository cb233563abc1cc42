//! Papers at the boundary: which there are, what a page looks like, and the files.

use super::{Handed, Workbench, handed, plain};
use crate::link;
use crate::papers::jpeg::Photo;
use crate::papers::sheet::Document;
use crate::papers::{Job, Kind, Paper, pdf, raster, read_date};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

/// A paper: what it is called, how many pages it has, or why it can't be had.
#[derive(Serialize, Tsify)]
pub struct PaperView {
    /// Its name in a call and in the name of a file.
    pub kind: &'static str,
    /// Its title.
    pub title: &'static str,
    /// How many pages it has.
    pub pages: u32,
    /// Why it can't be had.
    pub error: Option<String>,
}

/// What papers say besides the plan, and on what they are printed.
#[derive(Deserialize, Tsify)]
pub struct PaperOptions {
    /// On letter, and not on A4.
    pub letter: bool,
    /// Of when they are, such as 2026-11-26; empty for no date.
    pub date: String,
    /// Whose they are; empty for nobody's.
    pub author: String,
    /// The address of a published page; empty for none.
    pub address: String,
}

#[wasm_bindgen]
impl Workbench {
    /// The papers of the plan.
    pub fn papers(&self, options: Ts<PaperOptions>) -> Result<Vec<Ts<PaperView>>, JsError> {
        let options = options.to_rust()?;
        let view = |kind: Kind| {
            let document = self.document(kind, &options);
            let pages = document.as_ref().map_or(0, |document| document.pages.len());
            handed(PaperView {
                kind: kind.name(),
                title: kind.title(),
                pages: u32::try_from(pages).unwrap_or(u32::MAX),
                error: document.err(),
            }) as Handed<_>
        };
        Kind::ALL.into_iter().map(view).collect()
    }

    /// Draws a page, counted from 0, into a canvas, which is given the height that it needs at its width.
    pub fn draw_paper(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        kind: &str,
        page: u32,
        options: Ts<PaperOptions>,
    ) -> Result<(), JsError> {
        let document = self.document(kind_of(kind)?, &options.to_rust()?).map_err(plain)?;
        let pages = document.pages;
        let Some(page) = pages.get(page as usize) else { return Ok(()) };
        let width = canvas.width();
        let height = raster::height(page, width);
        canvas.set_height(height);
        let failed = |_| JsError::new("the browser could not take a page");
        if let Some(pixels) = raster::draw(page, width, &self.desk.all_copies()) {
            let image = ImageData::new_with_u8_clamped_array_and_sh(Clamped(&pixels), width, height);
            context.put_image_data(&image.map_err(failed)?, 0.0, 0.0).map_err(failed)?;
        }
        Ok(())
    }

    /// A paper as PDF; the plan's pictures in their order as JPEG files, or empty where there is none.
    pub fn paper_file(
        &self,
        kind: &str,
        options: Ts<PaperOptions>,
        pictures: Vec<js_sys::Uint8Array>,
    ) -> Result<Vec<u8>, JsError> {
        let document = self.document(kind_of(kind)?, &options.to_rust()?).map_err(plain)?;
        let photos: Vec<Option<Photo>> =
            pictures.into_iter().map(|file| Photo::read(&file.to_vec()).ok()).collect();
        Ok(pdf::write(&document, &photos))
    }

    fn document(&self, kind: Kind, options: &PaperOptions) -> Result<Document, String> {
        let PaperOptions { letter, date, author, address } = options;
        let paper = if *letter { Paper::Letter } else { Paper::A4 };
        let job = Job {
            author: author.trim().chars().take(120).collect(),
            book: self.desk.book(),
            // An address that is none is said where it is stated; the papers go without it.
            address: link::address(address, &self.desk.link(None, None)).ok(),
            date: if date.is_empty() { None } else { Some(read_date(date)?) },
            ..Job::new(self.desk.plan(), self.desk.figures(), self.desk.stock(), paper)
        };
        job.document(kind)
    }
}

fn kind_of(name: &str) -> Result<Kind, JsError> {
    let known = Kind::ALL.into_iter().find(|kind| kind.name() == name);
    known.ok_or_else(|| JsError::new("there is no such paper"))
}
