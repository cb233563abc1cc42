//! Papers at the boundary: which there are, what a page looks like, and the files.

use super::{Desk, Handed, handed};
use crate::draw::LoadedPicture;
use crate::length::Length;
use crate::link;
use crate::papers::jpeg::Photo;
use crate::papers::proposal::{self, ProposalPart};
use crate::papers::sheet::{Document, Page, Role};
use crate::papers::{Job, Kind, Paper, PaperError, Reader, pdf, raster, read_day};
use crate::resample::{Pyramid, Raster};
use crate::text::typeset;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
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
    /// What the proposal is called; empty for the title of the plan.
    pub title: String,
    /// Whose they are; empty for nobody's.
    pub author: String,
    /// By which proposal the plan was ordered; empty for none.
    pub reference: String,
    /// What the proposal says besides; empty for nothing.
    pub note: String,
    /// Until when the proposal holds, such as 2027-01-31; empty for no end.
    pub valid_until: String,
    /// The lines of the proposal's price, in place of what the price book makes of it.
    pub prices: Option<Vec<String>>,
    /// The address of a published page; empty for none.
    pub address: String,
    /// Whether the proposal has all that a maker needs, and not only what a client decides by.
    pub for_maker: bool,
    /// Whether the template is of the hooks alone.
    pub hooks_only: bool,
    /// The pieces in the photograph of a room, which the proposal shows; none for none.
    pub in_room: Option<SeenInRoom>,
}

/// A drawing of the pieces in the photograph of a room.
#[derive(Deserialize, Tsify)]
pub struct SeenInRoom {
    /// Pixels from left to right.
    pub width: u32,
    /// Pixels from top to bottom.
    pub height: u32,
    /// As a JPEG in base64.
    pub jpeg: String,
}

/// What the browser prints of a proposal.
#[derive(Serialize, Tsify)]
pub struct PrintedView {
    /// What it is called.
    pub title: String,
    /// Whose it is, and of when.
    pub made: String,
    /// How wide the drawing is, in millimetres.
    pub width_mm: f64,
    /// What it shows, in words.
    pub words: String,
    /// What is said below it.
    pub parts: Vec<PartView>,
}

/// Something that a proposal says.
#[derive(Serialize, Tsify)]
pub struct PartView {
    /// `heading`, `text`, `lesser`, `grave` or `prices`.
    pub kind: &'static str,
    /// What it says; empty for prices.
    pub text: String,
    /// The rows of a table of prices, the first with what heads its columns.
    pub rows: Vec<Vec<String>>,
}

#[wasm_bindgen]
impl Desk {
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
                error: document.err().map(|why| why.to_string()),
            }) as Handed<_>
        };
        Kind::ALL.into_iter().map(view).collect()
    }

    /// Draws a page, counted from 0, into a canvas, which is given the height that it needs at its width; with the pixels of what is
    /// seen in the room, where the options have that.
    pub fn draw_paper(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        kind: &str,
        page: u32,
        options: Ts<PaperOptions>,
        seen: Option<Vec<u8>>,
    ) -> Result<(), JsError> {
        let options = options.to_rust()?;
        let document = self.document(kind_of(kind)?, &options)?;
        let pages = document.pages;
        let Some(page) = pages.get(page as usize) else { return Ok(()) };
        let view = options.in_room.zip(seen).and_then(|(SeenInRoom { width, height, .. }, pixels)| {
            let raster = Raster::new(width, height, pixels)?;
            let (pyramid, revision) = (Pyramid::of(raster), 0);
            Some(LoadedPicture { pyramid, file_width_px: width, file_height_px: height, revision })
        });
        self.put_page(canvas, context, page, view.as_ref())
    }

    /// Draws the wall of the proposal into a canvas, so many pixels wide, and says all that the proposal says below it.
    pub fn print_proposal(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        options: Ts<PaperOptions>,
    ) -> Handed<PrintedView> {
        let options = options.to_rust()?;
        let drawn = |job: &Job<'_>| {
            (proposal::apart(job, PRINTED), job.titled(Kind::Proposal).to_owned(), job.made())
        };
        let ((page, parts), title, made) = self.job(&options, drawn)?;
        self.put_page(canvas, context, &page, None)?;
        let words = page.blocks.into_iter().find_map(|block| match block.role {
            Role::Drawing(words) => Some(words),
            _ => None,
        });
        handed(PrintedView {
            title: typeset(&title),
            made,
            width_mm: page.size.width.to_mm(),
            words: words.unwrap_or_default(),
            parts: parts.into_iter().filter_map(said).collect(),
        })
    }

    /// A paper as PDF; the plan's pictures in their order as JPEG files, or empty where there is none.
    pub fn paper_file(
        &self,
        kind: &str,
        options: Ts<PaperOptions>,
        pictures: Vec<js_sys::Uint8Array>,
    ) -> Result<Vec<u8>, JsError> {
        let options = options.to_rust()?;
        let document = self.document(kind_of(kind)?, &options)?;
        let mut photos: Vec<Option<Photo>> =
            pictures.into_iter().map(|file| Photo::read(&file.to_vec()).ok()).collect();
        photos.resize(self.desk.plan().pictures.len(), None);
        photos.extend(options.in_room.map(|seen| Photo::read(&STANDARD.decode(seen.jpeg).ok()?).ok()));
        Ok(pdf::write(&document, &photos))
    }

    /// Whether a picture's file goes into papers as it is.
    pub fn takes_photo(&self, file: &[u8]) -> bool {
        Photo::read(file).is_ok()
    }

    fn document(&self, kind: Kind, options: &PaperOptions) -> Result<Document, PaperError> {
        self.job(options, |job| job.document(kind))?
    }

    /// A page on a canvas, which is given the height that it needs at its width.
    fn put_page(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        page: &Page,
        view: Option<&LoadedPicture>,
    ) -> Result<(), JsError> {
        let width = canvas.width();
        let height = raster::height(page, width);
        canvas.set_height(height);
        let failed = |_| JsError::new("the browser could not take a page");
        let mut copies = self.desk.all_copies();
        copies.push(view);
        if let Some(pixels) = raster::draw(page, width, &copies) {
            let image = ImageData::new_with_u8_clamped_array_and_sh(Clamped(&pixels), width, height);
            context.put_image_data(&image.map_err(failed)?, 0.0, 0.0).map_err(failed)?;
        }
        Ok(())
    }

    /// Does something with what papers are made of.
    fn job<T>(&self, options: &PaperOptions, act: impl FnOnce(&Job<'_>) -> T) -> Result<T, PaperError> {
        let PaperOptions {
            letter,
            date,
            title,
            author,
            reference,
            note,
            valid_until,
            prices,
            address,
            for_maker,
            hooks_only,
            in_room,
        } = options;
        let paper = if *letter { Paper::Letter } else { Paper::A4 };
        let job = Job {
            author: author.trim().chars().take(120).collect(),
            book: self.desk.book(),
            // An address that is none is said where it is stated; the papers go without it.
            address: link::address(address, &self.desk.link(None, None, 0)).ok(),
            date: read_day(date)?,
            title: title.trim().to_owned(),
            reference: reference.clone(),
            note: note.trim().to_owned(),
            valid_until: read_day(valid_until)?,
            prices: prices.clone(),
            reader: if *for_maker { Reader::Maker } else { Reader::Client },
            hooks_only: *hooks_only,
            in_room: in_room.as_ref().map(|seen| (seen.width, seen.height)),
            ..Job::new(self.desk.plan(), self.desk.figures(), self.desk.stock(), paper)
        };
        Ok(act(&job))
    }
}

/// How wide the drawing is on what the browser prints, at most: A4 with 16 mm at both sides.
const PRINTED: Length = Length::mm(178);

fn said(part: ProposalPart) -> Option<PartView> {
    let (kind, text, rows) = match part {
        ProposalPart::Heading(text) => ("heading", text, Vec::new()),
        ProposalPart::Text(text) => ("text", text, Vec::new()),
        ProposalPart::Note(text) => ("lesser", text, Vec::new()),
        ProposalPart::Caution(text) => ("grave", text, Vec::new()),
        ProposalPart::Prices(columns, rows) => {
            let head = columns.map(str::to_owned).to_vec();
            ("prices", String::new(), std::iter::once(head).chain(rows).collect())
        }
        ProposalPart::Link => return None,
    };
    let rows = rows.into_iter().map(|row| row.iter().map(|cell| typeset(cell)).collect()).collect();
    Some(PartView { kind, text: typeset(&text), rows })
}

fn kind_of(name: &str) -> Result<Kind, JsError> {
    let known = Kind::ALL.into_iter().find(|kind| kind.name() == name);
    known.ok_or_else(|| JsError::new("there is no such paper"))
}
