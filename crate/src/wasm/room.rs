//! A photograph of a room at the boundary. Places are CSS pixels of an element as wide as it is shown; what they are in the photograph is
//! worked out here.

use super::view::Outcome;
use super::{Desk, Handed, handed};
use crate::described::Choosable;
use crate::photograph::mark::{ENDS, Mark};
use crate::photograph::measured;
use crate::photograph::paper::Paper;
use crate::photograph::room::{LightFrom, Px, Room, RoomError, Stroke, Thing};
use crate::photograph::taken::Taken;
use crate::photograph::view::Drawn;
use crate::plan::FixtureKind;
use crate::resample::Raster;
use crate::text::typeset;
use kurbo::Point;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, ImageData};

/// A photograph of a room as the page holds it.
#[wasm_bindgen]
pub struct RoomPhotograph {
    taken: Taken,
    /// Whether a mark is held: its way is one step.
    dragged: bool,
    /// On what the last drawing of the pieces was put.
    painted_on: Option<CanvasRenderingContext2d>,
}

/// A place on an element that shows the photograph, and how wide that is, in CSS pixels.
#[derive(Clone, Copy, Deserialize, Tsify)]
pub struct AtView {
    /// From its left edge.
    pub x: f64,
    /// From its upper edge.
    pub y: f64,
    /// How wide it is shown.
    pub width: f64,
}

/// What a photograph is drawn on.
#[derive(Clone, Copy, Deserialize, Tsify)]
pub struct RoomSheet {
    /// Device pixels of its longer side at most.
    pub most_px: u32,
    /// Device pixels to one CSS pixel.
    pub pixel_ratio: f32,
}

/// Something that should be known of a photograph.
#[derive(Serialize, Tsify)]
pub struct RoomNote {
    /// A stable name.
    pub code: &'static str,
    /// Whether something is wrong.
    pub warning: bool,
    /// The sentence.
    pub text: String,
}

/// A length read off a photograph.
#[derive(Serialize, Tsify)]
pub struct RoomLength {
    /// What it is the length of.
    pub what: String,
    /// The length with how far off it may be.
    pub text: String,
    /// Whether it is too uncertain to plan by.
    pub doubtful: bool,
}

/// A mark in a photograph.
#[derive(Serialize, Tsify)]
pub struct RoomMark {
    /// Its identity.
    pub mark: String,
    /// What it is called.
    pub words: String,
    /// Whether it is left out.
    pub left_out: bool,
}

/// Something on the wall or before it.
#[derive(Serialize, Tsify)]
pub struct RoomThing {
    /// What it is called.
    pub name: &'static str,
    /// Whether it stands before the wall, so that its depth is needed, or where it meets the floor.
    pub stands: bool,
    /// How deep it is, as it was typed.
    pub depth: String,
}

/// A choice.
#[derive(Serialize, Tsify)]
pub struct RoomChoice {
    /// Its key.
    pub key: &'static str,
    /// Its words.
    pub words: &'static str,
}

/// What the page shows of a photograph besides its picture.
#[derive(Serialize, Tsify)]
pub struct RoomView {
    /// The key of the paper; `other` for a rectangle of another size, none without a sheet.
    pub paper: Option<&'static str>,
    /// The sheet's size as it hangs, across and up.
    pub size: Option<[String; 2]>,
    /// Whether the camera and the wall are known.
    pub known: bool,
    /// What should be known of it, most important first.
    pub notes: Vec<RoomNote>,
    /// What is measured.
    pub lengths: Vec<RoomLength>,
    /// All marks, for lists and keys.
    pub marks: Vec<RoomMark>,
    /// What is on the wall and before it, in the order of its marks.
    pub things: Vec<RoomThing>,
    /// From where the light comes: a key, or none where that is read off the wall.
    pub light: Option<&'static str>,
    /// Whether what stands before the wall is found by itself.
    pub finds_before: bool,
    /// Whether something is painted by hand.
    pub painted: bool,
    /// Whether there is a step to take back.
    pub can_undo: bool,
    /// Whether there is something to take into the plan.
    pub can_take: bool,
}

/// The keys of the sides that light comes from, with their words.
const LIGHTS: [(LightFrom, &str, &str); 5] = [
    (LightFrom::Left, "left", "from the left"),
    (LightFrom::Right, "right", "from the right"),
    (LightFrom::Above, "above", "from above"),
    (LightFrom::Below, "below", "from below"),
    (LightFrom::Around, "around", "from everywhere"),
];

fn thing(thing: &Thing) -> Option<RoomThing> {
    let kind = thing.kind().ok()?;
    let depth = thing.depth.clone().unwrap_or_default();
    Some(RoomThing { name: kind.name(), stands: kind.stands_before_wall(), depth })
}

fn failed(_: wasm_bindgen::JsValue) -> JsError {
    JsError::new("the browser could not take the drawing")
}

fn put(context: &CanvasRenderingContext2d, pixels: &[u8], width: u32, height: u32) -> Result<(), JsError> {
    let image =
        ImageData::new_with_u8_clamped_array_and_sh(Clamped(pixels), width, height).map_err(failed)?;
    context.put_image_data(&image, 0.0, 0.0).map_err(failed)
}

/// Hands over a part of a drawing.
fn put_part(
    context: &CanvasRenderingContext2d,
    drawn: &Drawn<'_>,
    [left, top, right, bottom]: [usize; 4],
) -> Result<(), JsError> {
    let stride = drawn.width as usize * 4;
    let row = |row: usize| drawn.pixels.get(row * stride + left * 4..row * stride + right * 4);
    let part: Vec<u8> = (top..bottom).filter_map(row).flatten().copied().collect();
    let px = |value: usize| u32::try_from(value).unwrap_or(0);
    let image =
        ImageData::new_with_u8_clamped_array_and_sh(Clamped(&part), px(right - left), px(bottom - top));
    context.put_image_data(&image.map_err(failed)?, f64::from(px(left)), f64::from(px(top))).map_err(failed)
}

/// An error as a sentence of its own.
fn said(result: Result<(), RoomError>) -> Handed<Outcome> {
    handed(Outcome::of(result))
}

impl RoomPhotograph {
    fn px(&self, at: AtView) -> Px {
        let scale = f64::from(self.taken.photograph().width_px()) / at.width.max(1.0);
        [at.x * scale, at.y * scale]
    }

    fn per_css(&self, width: f64) -> f64 {
        f64::from(self.taken.photograph().width_px()) / width.max(1.0)
    }

    fn change(
        &mut self,
        change: impl FnOnce(&mut Room, &Raster) -> Result<(), RoomError>,
    ) -> Handed<Outcome> {
        said(self.taken.change(change))
    }
}

#[wasm_bindgen]
impl RoomPhotograph {
    /// The focal length for 35 mm film that the beginning of a photograph's file states.
    pub fn focal_in(beginning: &[u8]) -> Option<f64> {
        crate::photograph::exif::focal_35mm(beginning)
    }

    /// Takes a photograph and finds the sheet and lines in it; `focal` is the focal length for 35 mm film that its file states.
    pub fn found(
        width: u32,
        height: u32,
        pixels: Vec<u8>,
        focal: Option<f64>,
    ) -> Result<RoomPhotograph, JsError> {
        let raster =
            Raster::new(width, height, pixels).ok_or_else(|| JsError::new("the photograph has no pixels"))?;
        let taken = Taken::found(raster, focal, None).map_err(|why| JsError::new(&why.to_string()))?;
        Ok(Self { taken, dragged: false, painted_on: None })
    }

    /// Takes a photograph with what was marked in it before.
    pub fn with_marks(
        width: u32,
        height: u32,
        pixels: Vec<u8>,
        marks: &str,
    ) -> Result<RoomPhotograph, JsError> {
        let raster =
            Raster::new(width, height, pixels).ok_or_else(|| JsError::new("the photograph has no pixels"))?;
        let taken = Taken::with(raster, marks).map_err(|why| JsError::new(&why.to_string()))?;
        Ok(Self { taken, dragged: false, painted_on: None })
    }

    /// What is marked, as a file.
    pub fn marks(&self) -> String {
        self.taken.room().write()
    }

    /// What the page shows of it.
    pub fn view(&self, desk: &Desk) -> Handed<RoomView> {
        let units = desk.desk.plan().units;
        let room = self.taken.room();
        let group = self.taken.group_width(desk.desk.scene()).map(|figure| measured::of_group(figure, units));
        let (group, doubt) = group.map_or((None, None), |(told, doubt)| (Some(told), doubt));
        let mut notes: Vec<RoomNote> = Vec::new();
        for note in self.taken.notes(units).into_iter().chain(doubt) {
            let view = RoomNote { code: note.code, warning: note.is_warning, text: typeset(&note.text) };
            let place =
                if note.is_warning { notes.iter().filter(|note| note.warning).count() } else { notes.len() };
            notes.insert(place, view);
        }
        let lengths = self.taken.estimate().map_or(Vec::new(), |estimate| room.measured(estimate, units));
        let marks = room.points().into_iter().map(|(mark, _)| RoomMark {
            mark: mark.to_string(),
            words: room.called(mark),
            left_out: matches!(mark, Mark::Line(index) if room.lines.get(index).is_some_and(|line| line.left_out)),
        });
        let shown = |mm: f64| measured::shown_mm(mm, units);
        handed(RoomView {
            paper: room.sheet.as_ref().map(|sheet| sheet.paper.map_or("other", Paper::key)),
            size: room.sheet.as_ref().map(|sheet| sheet.size_mm.map(shown)),
            known: self.taken.estimate().is_ok(),
            notes,
            lengths: group
                .into_iter()
                .chain(lengths)
                .map(|length| RoomLength {
                    what: length.what,
                    text: typeset(&length.text),
                    doubtful: length.is_doubtful,
                })
                .collect(),
            marks: marks.collect(),
            things: room.things.iter().filter_map(thing).collect(),
            light: LIGHTS.iter().find(|(from, ..)| Some(*from) == room.light_from).map(|(_, key, _)| *key),
            finds_before: room.finds_before,
            painted: !room.strokes.is_empty(),
            can_undo: self.taken.can_undo(),
            can_take: self.taken.estimate().is_ok()
                && (room.wall.left.is_some() && room.wall.right.is_some()
                    || room.wall.floor.is_some() && room.wall.ceiling.is_some()
                    || !room.things.is_empty()),
        })
    }

    /// The papers that may hang there.
    pub fn papers() -> Result<Vec<Ts<RoomChoice>>, JsError> {
        Paper::ALL
            .into_iter()
            .map(|paper| handed(RoomChoice { key: paper.key(), words: paper.words() }))
            .collect()
    }

    /// The sides that light may come from.
    pub fn lights() -> Result<Vec<Ts<RoomChoice>>, JsError> {
        LIGHTS.into_iter().map(|(_, key, words)| handed(RoomChoice { key, words })).collect()
    }

    /// What can be marked on the wall and before it.
    pub fn things() -> Result<Vec<Ts<RoomChoice>>, JsError> {
        let all = FixtureKind::ALL.iter().filter(|(kind, _)| !kind.spans_wall());
        all.map(|(_, entry)| handed(RoomChoice { key: entry.key, words: entry.words })).collect()
    }

    /// The ends of the wall that can be marked.
    pub fn ends() -> Vec<String> {
        ENDS.map(str::to_owned).to_vec()
    }

    /// How high the photograph is for each CSS pixel of its width.
    pub fn aspect(&self) -> f64 {
        let photograph = self.taken.photograph();
        f64::from(photograph.height_px()) / f64::from(photograph.width_px())
    }

    /// Draws the plan's pieces in the photograph, into a canvas that it gives the size; whether the wall is known.
    pub fn draw(
        &mut self,
        desk: &Desk,
        context: &CanvasRenderingContext2d,
        sheet: Ts<RoomSheet>,
    ) -> Result<bool, JsError> {
        let sheet = sheet.to_rust()?;
        let Some(drawn) = desk.desk.draw_in_room(&mut self.taken, sheet.most_px) else {
            return Ok(false);
        };
        let is_known = !size(context, drawn.width, drawn.height) && self.painted_on.as_ref() == Some(context);
        match drawn.changed.filter(|_| is_known) {
            Some(area) => put_part(context, &drawn, area)?,
            None => put(context, drawn.pixels, drawn.width, drawn.height)?,
        }
        self.painted_on = Some(context.clone());
        Ok(true)
    }

    /// Forgets what is on the canvas, which the browser has lost: the next drawing is handed over whole.
    pub fn forget_canvas(&mut self) {
        self.painted_on = None;
    }

    /// Draws the photograph with its marks, into a canvas that it gives the size.
    pub fn draw_marks(
        &mut self,
        context: &CanvasRenderingContext2d,
        sheet: Ts<RoomSheet>,
        chosen: Option<String>,
    ) -> Result<(), JsError> {
        let sheet = sheet.to_rust()?;
        let chosen = chosen.and_then(|mark| mark.parse().ok());
        self.painted_on = None;
        let drawn = self.taken.draw_marks(sheet.most_px, sheet.pixel_ratio.clamp(0.5, 8.0), chosen);
        size(context, drawn.width_px(), drawn.height_px());
        put(context, drawn.pixels(), drawn.width_px(), drawn.height_px())
    }

    /// Draws what is round a mark or a place, six times as large, into a square canvas.
    pub fn draw_loupe(&self, context: &CanvasRenderingContext2d, at: Ts<AtView>) -> Result<(), JsError> {
        const SIDE_PX: u32 = 240;
        let at = self.px(at.to_rust()?);
        size(context, SIDE_PX, SIDE_PX);
        put(context, &self.taken.loupe(at, SIDE_PX, 6.0), SIDE_PX, SIDE_PX)
    }

    /// The mark under a place, within so many CSS pixels.
    pub fn mark_under(&self, at: Ts<AtView>, reach: f64) -> Result<Option<String>, JsError> {
        let at = at.to_rust()?;
        let mark = self.taken.room().under(self.px(at), reach * self.per_css(at.width));
        Ok(mark.map(|mark| mark.to_string()))
    }

    /// Where a mark is, on an element so many CSS pixels wide.
    pub fn place_of(&self, mark: &str, width: f64) -> Result<Option<Vec<f64>>, JsError> {
        let place = mark.parse::<Mark>().ok().and_then(|mark| self.taken.room().place(mark));
        Ok(place.map(|[x, y]| vec![x / self.per_css(width), y / self.per_css(width)]))
    }

    /// Moves a mark to a place while it is held.
    pub fn drag_mark(&mut self, mark: &str, at: Ts<AtView>) -> Handed<Outcome> {
        let at = at.to_rust()?;
        let Ok(mark) = mark.parse::<Mark>() else { return said(Ok(())) };
        let is_first = !std::mem::replace(&mut self.dragged, true);
        let at = self.px(at);
        said(self.taken.drag(mark, at, is_first))
    }

    /// Lets go of a mark: the wall is estimated again.
    pub fn release_mark(&mut self) {
        self.dragged = false;
        self.taken.settle();
    }

    /// Moves a mark by steps of a pixel of the photograph, or of ten.
    pub fn nudge_mark(&mut self, mark: &str, right: i8, down: i8, large: bool) -> Handed<Outcome> {
        let Ok(mark) = mark.parse::<Mark>() else { return said(Ok(())) };
        let step = if large { 10.0 } else { 1.0 };
        self.change(|room, photograph| {
            let Some([x, y]) = room.place(mark) else { return Ok(()) };
            room.put(photograph, mark, [x + f64::from(right) * step, y + f64::from(down) * step])
        })
    }

    /// Takes a mark away; a line that was found is left out, or taken in again.
    pub fn remove_mark(&mut self, mark: &str) -> Handed<Outcome> {
        let Ok(mark) = mark.parse::<Mark>() else { return said(Ok(())) };
        self.change(|room, _| {
            room.remove(mark);
            Ok(())
        })
    }

    /// Takes the last step back; whether there was one.
    pub fn undo(&mut self) -> bool {
        self.taken.undo()
    }

    /// Says which paper hangs there.
    pub fn set_paper(&mut self, key: &str) -> Handed<Outcome> {
        let Some(paper) = Paper::of_key(key) else { return said(Ok(())) };
        self.change(|room, _| {
            room.set_paper(paper);
            Ok(())
        })
    }

    /// Says how large a rectangle that is no paper is, across and up.
    pub fn set_size(&mut self, across: &str, up: &str) -> Handed<Outcome> {
        self.change(|room, _| room.set_size(across, up))
    }

    /// Marks a sheet between two opposite corners, and fits it to the edges that are seen there.
    pub fn mark_sheet(&mut self, from: Ts<AtView>, to: Ts<AtView>) -> Handed<Outcome> {
        let ([x, y], [right, below]) = (self.px(from.to_rust()?), self.px(to.to_rust()?));
        let (left, right, top, below) = (x.min(right), x.max(right), y.min(below), y.max(below));
        let corners = [[left, top], [right, top], [right, below], [left, below]];
        self.change(|room, photograph| room.mark_sheet(photograph, corners, true))
    }

    /// Fits the sheet's corners to the edges that the photograph shows near them.
    pub fn fit_sheet(&mut self) -> Handed<Outcome> {
        self.change(|room, photograph| match room.sheet.as_ref().map(|sheet| sheet.corners) {
            Some(corners) => room.mark_sheet(photograph, corners, true),
            None => Err(RoomError::NoSheet),
        })
    }

    /// Looks for lines again.
    pub fn find_lines(&mut self) -> Handed<Outcome> {
        self.change(|room, photograph| {
            room.find_lines(&crate::photograph::grey::Grey::of(photograph));
            Ok(())
        })
    }

    /// Adds a line along an edge that is level or plumb.
    pub fn add_line(&mut self, from: Ts<AtView>, to: Ts<AtView>) -> Handed<Outcome> {
        let ends = [self.px(from.to_rust()?), self.px(to.to_rust()?)];
        self.change(|room, photograph| room.add_line(photograph, ends))
    }

    /// Adds a length that was measured on the wall.
    pub fn add_length(&mut self, from: Ts<AtView>, to: Ts<AtView>, length: &str) -> Handed<Outcome> {
        let ends = [self.px(from.to_rust()?), self.px(to.to_rust()?)];
        self.change(|room, _| room.add_length(ends, length))
    }

    /// Marks an end of the wall, by its place among [`Self::ends`].
    pub fn set_end(&mut self, index: usize, at: Ts<AtView>) -> Handed<Outcome> {
        let at = self.px(at.to_rust()?);
        self.change(|room, photograph| room.put(photograph, Mark::End(index), at))
    }

    /// Marks something on the wall or before it, between two opposite corners.
    pub fn add_thing(&mut self, kind: &str, from: Ts<AtView>, to: Ts<AtView>) -> Handed<Outcome> {
        let corners = [self.px(from.to_rust()?), self.px(to.to_rust()?)];
        let thing = Thing { kind: kind.to_owned(), corners, foot: None, depth: None };
        self.change(|room, _| room.add_thing(thing))
    }

    /// Says where the front of a thing meets the floor.
    pub fn set_foot(&mut self, index: usize, at: Ts<AtView>) -> Handed<Outcome> {
        let at = self.px(at.to_rust()?);
        self.change(|room, photograph| room.put(photograph, Mark::Thing(index, 2), at))
    }

    /// Says how deep a thing is.
    pub fn set_depth(&mut self, index: usize, depth: &str) -> Handed<Outcome> {
        self.change(|room, _| room.set_depth(index, depth))
    }

    /// Paints what stands before the pieces: a path of x and y in CSS pixels, with a brush so wide from its middle, or an outline
    /// without one; or shows the pieces there again.
    pub fn paint(&mut self, path: Vec<f64>, width: f64, radius: Option<f64>, hides: bool) -> Handed<Outcome> {
        let scale = self.per_css(width);
        let points = path.chunks_exact(2).map(|at| [at[0] * scale, at[1] * scale]).collect();
        let stroke = Stroke { hides, points, radius: radius.map(|radius| radius * scale) };
        self.change(|room, _| room.add_stroke(stroke))
    }

    /// Says whether what stands before the wall is found by itself.
    pub fn find_before(&mut self, finds: bool) -> Handed<Outcome> {
        self.change(|room, _| {
            room.finds_before = finds;
            Ok(())
        })
    }

    /// Says from where the light comes; no key reads that off the wall again.
    pub fn set_light(&mut self, key: &str) -> Handed<Outcome> {
        let light = LIGHTS.iter().find(|(_, own, _)| *own == key).map(|(from, ..)| *from);
        self.change(|room, _| {
            room.light_from = light;
            Ok(())
        })
    }

    /// Whether the pieces are in the photograph; where another plan's wall was hung, they may not be.
    pub fn is_in_sight(&self, desk: &Desk) -> bool {
        desk.desk.is_in_sight(&self.taken)
    }

    /// Hangs the pieces where the sheet is.
    pub fn hang_at_sheet(&mut self) {
        self.taken.hang_at_sheet();
    }

    /// Takes what was measured into the plan.
    pub fn take_into(&self, desk: &mut Desk) -> Handed<Outcome> {
        handed(Outcome::of(desk.desk.take_room(&self.taken)))
    }

    /// Takes hold of the pieces under a place; whether there are any.
    pub fn take(&self, desk: &mut Desk, at: Ts<AtView>) -> Result<bool, JsError> {
        let [x, y] = self.px(at.to_rust()?);
        Ok(desk.desk.take_in_room(&self.taken, Point::new(x, y)))
    }

    /// Moves what is held to a place, `free` without catching; what there is to say of it.
    pub fn drag_to(&self, desk: &mut Desk, at: Ts<AtView>, free: bool) -> Result<String, JsError> {
        let at = at.to_rust()?;
        let [x, y] = self.px(at);
        #[expect(clippy::cast_possible_truncation, reason = "a ratio")]
        let css_px = self.per_css(at.width) as f32;
        Ok(typeset(&desk.desk.drag_in_room(&self.taken, Point::new(x, y), css_px, free)))
    }
}

/// Gives the canvas a size; whether it had another.
fn size(context: &CanvasRenderingContext2d, width: u32, height: u32) -> bool {
    let canvas = context.canvas().filter(|canvas| (canvas.width(), canvas.height()) != (width, height));
    if let Some(canvas) = &canvas {
        canvas.set_width(width);
        canvas.set_height(height);
    }
    canvas.is_some()
}
