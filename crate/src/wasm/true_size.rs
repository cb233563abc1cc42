//! Prints and the wall at their true size on a screen, at the boundary.

use super::small::put;
use super::view::SheetOptions;
use super::{Desk, Handed, handed};
use crate::described::Choosable;
use crate::draw::{Sheet, projection::Projection};
use crate::true_size::{self, Held, Screen, SeenFrom, TruePart};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

/// What is looked at, and on which screen.
#[derive(Deserialize, Tsify)]
pub struct TrueOptions {
    /// The width of what was held to this screen, in CSS pixels.
    pub width: f64,
    /// What was held to it, by its key.
    pub held: String,
    /// The piece whose print it is.
    pub piece: u32,
    /// About which point: a share of the width from the left.
    pub across: f64,
    /// A share of the height from the top.
    pub down: f64,
    /// Whether it is seen from the plan's viewing distance.
    pub far: bool,
}

/// What is needed of a picture to show a part of it as large as it is.
#[derive(Serialize, Tsify)]
pub struct TrueView {
    /// The name of the picture in the plan.
    pub name: String,
    /// The name of its file.
    pub file: String,
    /// Width of the file in pixels.
    pub width_px: u32,
    /// Height of the file in pixels.
    pub height_px: u32,
    /// The pixels of the file that are needed: left, top, width, height.
    pub needed: [u32; 4],
    /// What there is to say of it.
    pub said: String,
}

/// Something that can be held to a screen.
#[derive(Serialize, Tsify)]
pub struct HeldView {
    /// Its key.
    pub key: &'static str,
    /// What it is.
    pub words: &'static str,
}

impl TrueOptions {
    fn seen_from(&self) -> SeenFrom {
        if self.far { SeenFrom::Distance } else { SeenFrom::Close }
    }

    fn screen(&self, sheet: &Sheet) -> Result<Screen, JsError> {
        let held = Held::of_key(&self.held).unwrap_or_default();
        Ok(Screen::of(self.width * f64::from(sheet.pixel_ratio), held)?)
    }

    fn piece(&self) -> usize {
        usize::try_from(self.piece).unwrap_or(0)
    }
}

impl Desk {
    fn true_part(&self, options: &TrueOptions, sheet: &Sheet) -> Result<Option<TruePart>, JsError> {
        let screen = options.screen(sheet)?;
        let about = (options.across, options.down);
        let screen_px = (sheet.width_px, sheet.height_px);
        Ok(true_size::part(
            self.desk.plan(),
            self.desk.figures(),
            options.piece(),
            screen,
            screen_px,
            about,
            options.seen_from(),
        ))
    }
}

#[wasm_bindgen]
impl Desk {
    /// What is needed to show a part of a print as large as it is; none where the piece shows no picture.
    pub fn true_view(
        &self,
        options: Ts<TrueOptions>,
        sheet: Ts<SheetOptions>,
    ) -> Result<Option<Ts<TrueView>>, JsError> {
        let (options, sheet) = (options.to_rust()?, sheet.to_rust()?.sheet());
        let Some(part) = self.true_part(&options, &sheet)? else { return Ok(None) };
        let Some(picture) = self.desk.plan().pictures.get(part.picture).cloned() else { return Ok(None) };
        let said = true_size::in_words(self.desk.plan(), &part, options.piece(), options.seen_from());
        let view = TrueView {
            name: picture.name,
            file: picture.file,
            width_px: picture.width_px,
            height_px: picture.height_px,
            needed: part.needed,
            said: crate::text::typeset(&said),
        };
        (handed(view) as Handed<_>).map(Some)
    }

    /// What can be held to the screen to measure it.
    pub fn held(&self) -> Result<Vec<Ts<HeldView>>, JsError> {
        let held = Held::in_system(self.desk.plan().units.first);
        held.into_iter()
            .map(|held| handed(HeldView { key: held.entry().key, words: held.entry().words }) as Handed<_>)
            .collect()
    }

    /// Draws a part of a print as large as it is into a canvas of the sheet's size, from the pixels that are needed of its file, or
    /// from the copy on the desk where there are none. Whether there was anything to draw.
    pub fn draw_true(
        &self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        options: Ts<TrueOptions>,
        pixels: &[u8],
    ) -> Result<bool, JsError> {
        let (options, sheet) = (options.to_rust()?, sheet.to_rust()?.sheet());
        let Some(part) = self.true_part(&options, &sheet)? else { return Ok(false) };
        put(context, &sheet, self.desk.true_print(&part, options.piece(), pixels, &sheet))
    }

    /// Draws the wall without lines as large as it is, about a point (shares of the sheet's own drawing); whether all of that
    /// scale could be had.
    pub fn draw_true_wall(
        &mut self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
        options: Ts<TrueOptions>,
    ) -> Result<bool, JsError> {
        let (options, sheet) = (options.to_rust()?, sheet.to_rust()?.sheet());
        let screen = options.screen(&sheet)?;
        let whole = Projection::fit(self.desk.scene(), &sheet);
        let most = Projection::most_zoom(self.desk.scene(), &sheet);
        let wanted = narrowed(screen.pixels_per_inch) / whole.scale;
        let zoom = wanted.min(most);
        let at = |about: f64| narrowed(about) * (1.0 - 1.0 / zoom);
        let window = crate::draw::Window { zoom, x: at(options.across), y: at(options.down) };
        put(context, &sheet, self.desk.wall_through(&Sheet { window, ..sheet.clone() }))?;
        Ok(wanted <= most)
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
fn narrowed(number: f64) -> f32 {
    number as f32
}
