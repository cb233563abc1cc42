//! The boundary: the core as the page calls it. Plain structs in and out; their TypeScript is generated from them.
//!
//! Everything the page shows comes from here as text, everything it sends goes in as text or as device pixels of a
//! pointer. No length crosses as a number.

use crate::desk;
use crate::draw::{Mark, Sheet, Window, projection::Projection};
use crate::field::Field;
use crate::fields::{self, FieldOption, Kind};
use crate::findings::About;
use crate::plan::{Plan, System, file};
use crate::resample::Raster;
use crate::scene;
use crate::spec::{self, Run, lists};
use crate::text::{Face, typeset};
use crate::words::in_units;
use serde::Serialize;
use tsify::{Ts, Tsify};
use view::*;
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, ImageData};

mod copies;
mod facts;
#[cfg(feature = "module")]
mod figures;
mod hand;
mod link;
mod opened;
mod proposal;
mod room;
mod section;
mod sent;
mod papers;
mod print_file;
mod small;
mod suggested;
mod true_size;
mod view;

/// The desk as the page holds it.
#[wasm_bindgen]
pub struct Desk {
    desk: desk::Desk,
    projection: Option<Projection>,
    pixel_ratio: f32,
    /// The sheet of the last drawing.
    sheet: Option<Sheet>,
    /// The part of the elevation that fills it.
    window: Window,
    /// Whether the plan before the last step is shown.
    before: bool,
    /// Which suggestion is tried on.
    tried: Option<usize>,
    /// On what the last drawing was painted.
    painted_on: Option<CanvasRenderingContext2d>,
}

/// A struct on its way to the page.
type Handed<T> = Result<Ts<T>, JsError>;

fn handed<T: Tsify + Serialize>(value: T) -> Handed<T> {
    Ok(value.into_ts()?)
}

impl Desk {
    /// What a step changed, after what was done.
    fn said_of_step(&self, done: &str, before: &Plan) -> String {
        let said = self.desk.said_since(before);
        if said.is_empty() { [done, "."].concat() } else { typeset(&[done, ": ", &said, "."].concat()) }
    }
}

#[wasm_bindgen]
impl Desk {
    /// Begins with a plan file.
    #[wasm_bindgen(constructor)]
    pub fn new(plan: &str) -> Result<Desk, JsError> {
        let desk = desk::Desk::new(file::read(plan)?)?;
        Ok(Self::of(desk))
    }

    /// Begins with a new user's plan, in the units that they are used to.
    pub fn starting(centimetres: bool) -> Result<Desk, JsError> {
        Ok(Self::of(desk::Desk::new(Plan::starting_in(system(centimetres)))?))
    }

    /// The plan as a file.
    pub fn plan_file(&self) -> String {
        file::write(self.desk.plan())
    }

    /// Opens a plan file as a step that can be undone.
    pub fn open(&mut self, plan: &str) -> Handed<Outcome> {
        handed(Outcome::of(self.desk.open(plan)))
    }

    /// Begins with a plan file, with no past.
    pub fn begin_with(&mut self, plan: &str) -> Handed<Outcome> {
        handed(Outcome::of(self.desk.begin_with(plan)))
    }

    /// Changes a field.
    pub fn set(&mut self, field: &str, text: &str) -> Handed<Outcome> {
        let Some(field) = Field::named(field) else {
            return handed(Outcome { error: Some(format!("there is no field \"{field}\"")), span: None });
        };
        handed(match self.desk.set(field, text) {
            Ok(()) => Outcome { error: None, span: None },
            Err(error) => Outcome {
                span: error.span().map(|span| [span.start, span.end].map(|byte| utf16(text, byte))),
                error: Some(error.to_string()),
            },
        })
    }

    /// Takes a remedy, by its identity.
    pub fn mend(&mut self, id: &str) -> Handed<Outcome> {
        handed(Outcome::of(self.desk.mend(id)))
    }

    /// Shows lengths in inches or centimetres first, alone or with the other beside them.
    pub fn show_units(&mut self, centimetres: bool, both: bool) {
        self.desk.show_units(system(centimetres), both);
    }

    /// Goes one step back; what that changed, in a sentence, or nothing where there was no step.
    pub fn undo(&mut self) -> Option<String> {
        let before = self.desk.plan().clone();
        self.desk.undo().then(|| self.said_of_step("Undone", &before))
    }

    /// Goes one step forward; what that changed.
    pub fn redo(&mut self) -> Option<String> {
        let before = self.desk.plan().clone();
        self.desk.redo().then(|| self.said_of_step("Redone", &before))
    }

    /// The steps of this session as a text, for a page that is reloaded.
    pub fn steps(&self) -> String {
        self.desk.steps()
    }

    /// Takes the steps of a session that ended with the plan at work; whether they were taken.
    pub fn take_steps(&mut self, text: &str) -> bool {
        self.desk.take_steps(text)
    }

    /// Says which plans are the demo's, as files: their pictures stand only until one's own come.
    pub fn know_demo(&mut self, plans: Vec<String>) {
        let plans: Vec<Plan> = plans.iter().filter_map(|plan| file::read(plan).ok()).collect();
        self.desk.know_demo(&plans);
    }

    /// Everything the page shows besides the drawing; `piece` is the chosen one, or none for all.
    pub fn view(&self, piece: Option<u32>) -> Handed<View> {
        let (plan, figures, stock) = (self.desk.plan(), self.desk.figures(), self.desk.stock());
        let chosen = self.chosen(piece);
        let (can_undo, can_redo) = self.desk.history();
        handed(View {
            title: plan.title.clone(),
            units: match plan.units.first {
                System::Inches => "inches",
                System::Centimetres => "centimetres",
            },
            both: plan.units.both,
            can_undo,
            can_redo,
            pieces: u32::try_from(plan.pieces.len()).unwrap_or(0),
            short: spec::short::short(plan)
                .into_iter()
                .map(|line| ShortView { about: about(line.about), runs: self.runs(line.runs) })
                .collect(),
            result: self.runs(spec::short::result(plan, figures, stock, self.desk.book())),
            paragraphs: spec::specification(plan, figures, stock, chosen)
                .into_iter()
                .map(|paragraph| ParagraphView {
                    about: about(paragraph.about),
                    heading: paragraph.heading,
                    runs: self.runs(paragraph.runs),
                    line: typeset(&paragraph.line),
                    findings: paragraph.findings.into_iter().map(FindingView::of).collect(),
                })
                .collect(),
            table: spec::table::table(figures, chosen.unwrap_or(0))
                .into_iter()
                .map(|row| RowView {
                    term: in_units(row.term, plan.units.first).into_owned(),
                    inches: typeset(&row.inches),
                    centimetres: typeset(&row.centimetres),
                    meaning: in_units(row.meaning, plan.units.first).into_owned(),
                    inches_rounded: row.inches_rounded,
                    centimetres_rounded: row.centimetres_rounded,
                })
                .collect(),
            in_words: scene::in_words(plan, figures),
            caution: spec::CAUTION,
        })
    }

    /// The sizes on offer that suit the picture of a piece; each row can be taken.
    pub fn fits(&self, piece: Option<u32>) -> Handed<ListView> {
        let (plan, figures, stock) = (self.desk.plan(), self.desk.figures(), self.desk.stock());
        handed(ListView::of(lists::fits(plan, figures, stock, self.chosen(piece))))
    }

    /// What it takes to make a piece: parts, mats, what to buy.
    pub fn cuts(&self, piece: Option<u32>) -> Result<Vec<Ts<ListView>>, JsError> {
        let (plan, figures, stock) = (self.desk.plan(), self.desk.figures(), self.desk.stock());
        let lists = lists::cuts(plan, figures, stock, self.chosen(piece));
        lists.into_iter().map(|list| handed(ListView::of(list))).collect()
    }

    fn chosen(&self, piece: Option<u32>) -> Option<usize> {
        let piece = piece.and_then(|piece| usize::try_from(piece).ok());
        piece.filter(|&piece| piece < self.desk.plan().pieces.len())
    }

    /// The specification as plain text, for an order or a letter.
    pub fn order_text(&self) -> String {
        spec::order_text(self.desk.plan(), self.desk.figures(), self.desk.stock())
    }

    /// Takes a list of the user's own over the stock on offer.
    pub fn open_stock(&mut self, text: &str) -> Handed<Outcome> {
        handed(Outcome::of(self.desk.open_stock(text)))
    }

    /// The stock as a file, to change and to open again.
    pub fn stock_file(&self) -> String {
        self.desk.stock().write()
    }

    /// What one field says; none when the plan has no such field.
    pub fn field(&self, field: &str) -> Result<Option<Ts<FieldView>>, JsError> {
        Field::named(field).and_then(|field| self.field_view(field)).map(handed).transpose()
    }

    /// The text of a field's next value, up or down; none where it has none.
    pub fn stepped(&self, field: &str, up: bool, large: bool) -> Option<String> {
        fields::step::stepped(self.desk.plan(), self.desk.stock(), Field::named(field)?, up, large)
    }

    /// What a text comes to in a field, in both systems; none where it is no length and no size.
    pub fn comes_to(&self, field: &str, text: &str) -> Option<String> {
        let told = fields::step::comes_to(self.desk.plan(), self.desk.stock(), Field::named(field)?, text);
        told.map(|told| typeset(&told))
    }

    fn field_view(&self, field: Field) -> Option<FieldView> {
        let value = fields::read(self.desk.plan(), self.desk.stock(), field)?;
        Some(FieldView {
            field: field.to_string(),
            drawn: fields::is_drawn(field),
            kind: match value.kind {
                Kind::Length => "length",
                Kind::Size => "size",
                Kind::Number => "number",
                Kind::Ratio => "ratio",
                Kind::Choice => "choice",
                Kind::Colour => "colour",
                Kind::Name => "name",
            },
            shown: typeset(&self.both(&value)),
            text: value.text,
            other: value.other,
            key: value.key,
            options: value
                .options
                .into_iter()
                .map(|FieldOption { key, words }| OptionView { key, words })
                .collect(),
            label: value.label,
            rounded: value.rounded,
        })
    }

    /// The text of a value, with the other system behind it when the plan shows both.
    fn both(&self, value: &fields::Value) -> String {
        match (&value.other, value.kind) {
            (Some(other), Kind::Length | Kind::Size) if self.desk.plan().units.both => {
                format!("{} ({other})", value.text)
            }
            _ => value.text.clone(),
        }
    }

    fn runs(&self, runs: Vec<Run>) -> Vec<RunView> {
        runs.into_iter().filter_map(|run| self.run(run)).collect()
    }

    fn run(&self, run: Run) -> Option<RunView> {
        Some(match run {
            Run::Text(text) => RunView::Text { text: typeset(&text) },
            Run::Figure { text, rounded } => RunView::Figure { shown: typeset(&text), text, rounded },
            Run::Field(field) => RunView::Field(self.field_view(field)?),
            Run::Term(term) => RunView::Term {
                words: term.words(self.desk.plan().units).into_owned(),
                term: term.key(),
                meaning: term.meaning(),
            },
            Run::Offer { words, field, text } => {
                RunView::Offer { shown: typeset(&words), field: field.to_string(), text }
            }
        })
    }

    /// The height in device pixels that a sheet of this width needs.
    pub fn height_for_width(&self, sheet: Ts<SheetOptions>) -> Result<u32, JsError> {
        Ok(self.desk.height_for_width(&sheet.to_rust()?.sheet()))
    }

    /// Draws the wall into a canvas of the sheet's size, while something is moved: nothing is said of what lies on it.
    pub fn redraw(
        &mut self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
    ) -> Result<(), JsError> {
        let guides = self.desk.guides().to_vec();
        let sheet = Sheet {
            in_motion: self.desk.is_dragging(),
            guides,
            window: self.window,
            ..sheet.to_rust()?.sheet()
        };
        self.paint(context, &sheet).map(|_| ())
    }

    /// Draws the wall into a canvas of the sheet's size, and says what lies on it.
    pub fn draw(
        &mut self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<SheetOptions>,
    ) -> Handed<DrawingView> {
        let sheet = Sheet { window: self.window, ..sheet.to_rust()?.sheet() };
        let (projection, marks) = self.paint(context, &sheet)?;
        if self.before || self.tried.is_some() || sheet.view == crate::draw::View::Oblique {
            // There nothing lies where the elevation of the plan has it.
            return handed(DrawingView { marks: Vec::new(), handles: Vec::new() });
        }
        let css = 1.0 / sheet.pixel_ratio;
        let marks = marks.into_iter().filter_map(|mark| {
            let place = PlaceView::of(mark.area, css);
            Some(MarkView { value: self.field_view(mark.field)?, place })
        });
        handed(DrawingView { marks: marks.collect(), handles: self.handles(projection, css) })
    }

    /// Forgets what is on the canvas, which the browser has lost: the next drawing is handed over whole.
    pub fn forget_canvas(&mut self) {
        self.painted_on = None;
    }

    fn of(desk: desk::Desk) -> Self {
        Self {
            desk,
            projection: None,
            pixel_ratio: 1.0,
            sheet: None,
            window: Window::WHOLE,
            before: false,
            tried: None,
            painted_on: None,
        }
    }

    fn paint(
        &mut self,
        context: &CanvasRenderingContext2d,
        sheet: &Sheet,
    ) -> Result<(Projection, Vec<Mark>), JsError> {
        let failed = |_| JsError::new("the browser could not take the drawing");
        let drawing = match self.tried {
            Some(index) => self.desk.draw_tried(index, sheet),
            None if self.before => self.desk.draw_before(sheet),
            None => self.desk.draw(sheet),
        };
        let image = ImageData::new_with_u8_clamped_array_and_sh(
            Clamped(drawing.pixels),
            sheet.width_px,
            sheet.height_px,
        )
        .map_err(failed)?;
        // Where the drawing before is on this very canvas, only what differs is handed over.
        let is_known = self.painted_on.as_ref() == Some(context);
        match drawing.changed.filter(|_| is_known) {
            Some(changed) => {
                for area in changed {
                    let [x, y, width, height] =
                        [area.left, area.top, area.width(), area.height()].map(f64::from);
                    context
                        .put_image_data_with_dirty_x_and_dirty_y_and_dirty_width_and_dirty_height(
                            &image, 0.0, 0.0, x, y, width, height,
                        )
                        .map_err(failed)?;
                }
            }
            None => context.put_image_data(&image, 0.0, 0.0).map_err(failed)?,
        }
        let (projection, marks) = (drawing.projection, drawing.marks);
        self.painted_on = Some(context.clone());
        self.projection = Some(projection);
        self.pixel_ratio = sheet.pixel_ratio;
        self.sheet = Some(sheet.clone());
        Ok((projection, marks))
    }

    /// Adds picture files to the plan.
    pub fn add_pictures(&mut self, added: Ts<PictureFiles>) -> Handed<Added> {
        let added = added.to_rust()?;
        let files: Vec<_> =
            added.files.into_iter().map(|file| (file.file, file.width_px, file.height_px)).collect();
        let piece = added.piece.and_then(|piece| usize::try_from(piece).ok());
        handed(match self.desk.add_pictures(&files, piece) {
            Ok(names) => Added { error: None, names },
            Err(why) => Added { error: Some(why.to_string()), names: Vec::new() },
        })
    }

    /// The pictures of the plan whose pixels are not on the desk yet.
    pub fn wanted_copies(&self) -> Result<Vec<Ts<WantedCopy>>, JsError> {
        let wanted = self.desk.plan().pictures.iter().filter(|picture| !self.desk.has_copy(&picture.name));
        wanted
            .map(|picture| {
                handed(WantedCopy {
                    name: picture.name.clone(),
                    file: picture.file.clone(),
                    width_px: picture.width_px,
                    height_px: picture.height_px,
                })
            })
            .collect()
    }

    /// Puts the pixels of a picture on the desk: RGBA, upright, perhaps reduced. `name` is its name in the plan.
    pub fn put_copy(
        &mut self,
        name: &str,
        width_px: u32,
        height_px: u32,
        pixels: Vec<u8>,
    ) -> Handed<Outcome> {
        let plan = self.desk.plan();
        let file_px = plan
            .pictures
            .iter()
            .find(|picture| picture.name == name)
            .map_or((width_px, height_px), |picture| (picture.width_px, picture.height_px));
        handed(Outcome::of(match Raster::new(width_px, height_px, pixels) {
            Some(raster) => {
                self.desk.put_copy(name, file_px, raster);
                Ok(())
            }
            None => Err(format!("the pixels of {name} don't fit {width_px} × {height_px}")),
        }))
    }
}

const fn system(is_metric: bool) -> System {
    if is_metric { System::Centimetres } else { System::Inches }
}

fn about(about: About) -> &'static str {
    match about {
        About::Wall => "wall",
        About::Fixtures => "fixtures",
        About::Picture => "picture",
        About::Fit => "fit",
        About::Made => "made",
        About::Hanging => "hanging",
        About::Site => "site",
    }
}

/// A place in a text, from bytes to UTF-16 code units.
fn utf16(text: &str, byte: usize) -> u32 {
    let before = text.get(..byte).unwrap_or(text);
    u32::try_from(before.encode_utf16().count()).unwrap_or(0)
}

/// What a picture file is, from its first bytes: its size, or why a browser can't show it.
#[wasm_bindgen]
pub fn picture_header(bytes: &[u8], file: &str) -> Handed<Header> {
    handed(match crate::picture_file::look(bytes, file) {
        Ok((width_px, height_px)) => Header { error: None, width_px, height_px },
        Err(why) => Header { error: Some(why.to_string()), width_px: 0, height_px: 0 },
    })
}

/// A plan file as another plan, which is called a copy of it.
#[wasm_bindgen]
pub fn plan_copy(text: &str) -> Result<String, JsError> {
    let mut plan = file::read(text)?;
    let kept = crate::plan::limits::NAME - ", a copy".len();
    plan.title = plan.title.chars().take(kept).collect::<String>() + ", a copy";
    Ok(file::write(&plan))
}

/// The copies of pictures that a plan file has with it, in the order of its pictures: JPEG in base64, or empty.
#[wasm_bindgen]
pub fn copies_in(text: &str) -> Result<Vec<String>, JsError> {
    let (_, copies) = file::read_with_copies(text)?;
    Ok(copies.into_iter().map(Option::unwrap_or_default).collect())
}

/// The faces, in the order of [`font_data`].
#[wasm_bindgen]
pub fn font(index: u32) -> Result<Option<Ts<FontView>>, JsError> {
    let face = usize::try_from(index).ok().and_then(|index| Face::ALL.get(index));
    face.map(|face| {
        let (family, weight, style) = face.css();
        handed(FontView { family, weight, style })
    })
    .transpose()
}

/// A font file.
#[wasm_bindgen]
pub fn font_data(index: u32) -> Vec<u8> {
    usize::try_from(index)
        .ok()
        .and_then(|index| Face::ALL.get(index))
        .map_or(Vec::new(), |face| face.data().to_vec())
}
