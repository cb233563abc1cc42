//! Print-ready pictures at the boundary: which there are, and one of them row by row.

use super::{Desk, Handed, handed};
use crate::colour::Colour;
use crate::figures::{Figures, NoAnswer};
use crate::length::Length;
use crate::length::parse::{ParseError, parse};
use crate::print_file::png::Png;
use crate::print_file::{Form, PrintFileError, PrintWish, Recipe, Rows, is_meant};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// A print-ready picture, or why it can't be had.
#[derive(Serialize, Tsify)]
pub struct PrintFileView {
    /// Which piece, counted from 1, and what it shows.
    pub title: String,
    /// The picture's file.
    pub file: String,
    /// Its pixels, upright.
    pub width_px: u32,
    /// The same, down.
    pub height_px: u32,
    /// What becomes of it, a line each.
    pub words: Vec<String>,
    /// Why it can't be had.
    pub error: Option<String>,
}

#[wasm_bindgen]
impl Desk {
    /// The print-ready picture of each piece, with a bleed as it is typed.
    pub fn print_files(&self, bleed: &str) -> Result<Vec<Ts<PrintFileView>>, JsError> {
        let view = |piece: usize| {
            let recipe = self.recipe(piece, bleed, None);
            let picture = recipe.as_ref().ok().map(|recipe| &self.desk.plan().pictures[recipe.picture]);
            let number = (piece + 1).to_string();
            let file = picture.map_or_else(String::new, |picture| picture.file.clone());
            handed(PrintFileView {
                title: match picture {
                    Some(picture) => ["Piece ", &number, ": ", &picture.name].concat(),
                    None => ["Piece ", &number].concat(),
                },
                width_px: picture.map_or(0, |picture| picture.width_px),
                height_px: picture.map_or(0, |picture| picture.height_px),
                words: recipe
                    .as_ref()
                    .map_or_else(|_| Vec::new(), |recipe| recipe.words(&file, self.desk.plan().units.first)),
                error: recipe.err().map(|why| why.to_string()),
                file,
            }) as Handed<_>
        };
        (0..self.desk.plan().pieces.len()).map(view).collect()
    }

    /// Begins the print-ready picture of a piece, counted from 0, from a file of so many pixels.
    pub fn print_file(
        &self,
        piece: usize,
        bleed: &str,
        width_px: u32,
        height_px: u32,
    ) -> Result<PrintMaking, JsError> {
        let recipe = self.recipe(piece, bleed, Some((width_px, height_px)))?;
        let colour = recipe.colour().unwrap_or(Colour::hex(0xff_ff_ff));
        Ok(PrintMaking {
            rows: Rows::new(&recipe, Form::RGB, &Form::RGB.pixel(colour)),
            png: Png::new(recipe.size_px(), recipe.pixels_to(Length::mm(1000))),
            row: Vec::new(),
        })
    }

    /// How a print-ready picture is made; from the file that was found, if it is the one that the plan counts on.
    fn recipe(&self, piece: usize, bleed: &str, found: Option<(u32, u32)>) -> Result<Recipe, RecipeError> {
        let plan = self.desk.plan();
        let bleed =
            if bleed.trim().is_empty() { Length::ZERO } else { parse(bleed, plan.units.first.bare_unit())? };
        let wish = PrintWish { bleed, density: plan.file_resolution, ..PrintWish::default() };
        let recipe = Recipe::of(plan, self.desk.figures(), piece, wish)?;
        match found {
            Some(found) if found != recipe.picture_px => {
                let mut plan = plan.clone();
                let picture = &mut plan.pictures[recipe.picture];
                is_meant(&picture.file, recipe.picture_px, found, false)?;
                (picture.width_px, picture.height_px) = found;
                Ok(Recipe::of(&plan, &Figures::of(&plan)?, piece, wish)?)
            }
            _ => Ok(recipe),
        }
    }
}

/// Why a print-ready picture can't be made.
#[derive(Debug, thiserror::Error)]
#[error(transparent)]
enum RecipeError {
    Bleed(#[from] ParseError),
    Print(#[from] PrintFileError),
    NoAnswer(#[from] NoAnswer),
}

/// A print-ready picture on its way, as a PNG.
#[wasm_bindgen]
pub struct PrintMaking {
    rows: Rows,
    png: Png,
    row: Vec<u8>,
}

#[wasm_bindgen]
impl PrintMaking {
    /// The first row of the picture that is needed, and the first that is not any more.
    pub fn needed(&self) -> Vec<u32> {
        let needed = self.rows.needed();
        vec![needed.start, needed.end]
    }

    /// Takes the next rows of the picture, of so many pixels each: RGBA, opaque. What of the file is finished comes back.
    pub fn take(&mut self, pixels: &[u8], width_px: usize) -> Result<Vec<u8>, JsError> {
        let Self { rows, png, row } = self;
        for pixels in pixels.chunks_exact(width_px.max(1) * 4) {
            row.clear();
            row.extend(
                pixels.as_chunks::<4>().0.iter().flat_map(|[red, green, blue, _]| [*red, *green, *blue]),
            );
            rows.take(row, &mut |row| png.row(row));
        }
        Ok(png.take())
    }

    /// The end of the file.
    pub fn finish(self) -> Vec<u8> {
        self.png.finish()
    }
}
