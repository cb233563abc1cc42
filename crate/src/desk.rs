//! The desk: one plan at work, with its past, its pictures and its drawing. What the page shows, it asks here.
//!
//! ```
//! use overmantel::{desk::Desk, plan::Plan};
//! let mut desk = Desk::new(Plan::starting()).unwrap();
//! desk.set(&overmantel::plan::WALL_WIDTH, "4 m").unwrap();
//! assert!(desk.undo());
//! assert_eq!(desk.plan(), &Plan::starting());
//! ```

use crate::draw::{Drawing, LoadedPicture, Painter, Sheet, projection::Projection};
use crate::field::Field;
use crate::fields::{self, FieldError, Kind};
use crate::figures::{Figures, NoAnswer};
use crate::mend::{self, MendError};
use crate::plan::{Focus, Picture, Piece, Plan, System, file, limits};
use crate::prices::Book;
use crate::resample::{Pyramid, Raster};
use crate::scene::section::{Section, section};
use crate::scene::{Scene, scene};
use crate::stock::Stock;
use std::collections::BTreeMap;

mod beside;
mod error;
mod handling;
mod history;
mod in_room;
mod linked;
mod memory;
mod named;
mod pull;
mod said;
mod small;
mod snap;
mod suggested;
pub use beside::Beside;
pub use error::DeskError;
pub use handling::{Held, Snap};
use history::Step;
pub use linked::Opened;
use memory::Memory;
pub use pull::Corner;
pub use said::MOST as MOST_SAID;

/// A plan at work.
///
/// ```
/// use overmantel::{desk::Desk, field::Field, length::Length, plan::Plan};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let mut desk = Desk::new(Plan::starting())?;
/// let width = Field::named("wall.width").ok_or("no such field")?;
/// desk.set(width, "4.2 m")?;
/// assert_eq!(desk.plan().wall.size.width, Length::mm(4_200));
/// // What is wrong is said, and changes nothing.
/// assert!(desk.set(width, "wide").is_err());
/// assert!(desk.undo());
/// assert_eq!(desk.plan(), &Plan::starting());
/// # Ok(())
/// # }
/// ```
#[derive(Debug)]
pub struct Desk {
    past: Vec<Step>,
    plan: Plan,
    future: Vec<Step>,
    figures: Figures,
    scene: Scene,
    stock: Stock,
    memory: Memory,
    demo: named::Demo,
    /// Copies of pictures by the names they have in the plan.
    copies: BTreeMap<String, LoadedPicture>,
    /// What a link had of pictures that are not here, by their names.
    sketches: BTreeMap<String, linked::Sketched>,
    revision: u64,
    painter: Painter,
    drag: Option<handling::Drag>,
    /// What the last change moved by keys, if it did.
    nudged: Option<Held>,
    /// How many steps there were when keys picked up a thing.
    picked_up: Option<usize>,
    book: Option<Book>,
    suggested: suggested::Suggested,
}

impl Desk {
    /// Begins with a plan.
    ///
    /// # Errors
    /// When the plan has no answer.
    pub fn new(plan: Plan) -> Result<Self, NoAnswer> {
        let figures = Figures::of(&plan)?;
        let scene = scene(&plan, &figures);
        Ok(Self {
            past: Vec::new(),
            plan,
            future: Vec::new(),
            figures,
            scene,
            stock: Stock::offered(),
            memory: Memory::default(),
            demo: named::Demo::default(),
            copies: BTreeMap::new(),
            sketches: BTreeMap::new(),
            revision: 0,
            painter: Painter::default(),
            drag: None,
            nudged: None,
            picked_up: None,
            book: None,
            suggested: suggested::Suggested::default(),
        })
    }

    /// The plan as it is now.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// What follows from it.
    #[must_use]
    pub fn figures(&self) -> &Figures {
        &self.figures
    }

    /// What is on offer.
    #[must_use]
    pub fn stock(&self) -> &Stock {
        &self.stock
    }

    /// Takes a list of the user's own over what is on offer, in place of the one before.
    ///
    /// # Errors
    /// When the text is not a stock file; the stock is as it was.
    pub fn open_stock(&mut self, text: &str) -> Result<(), DeskError> {
        self.stock = Stock::read(text).map_err(DeskError::Stock)?;
        self.forget_suggestions();
        Ok(())
    }

    /// What there is to draw.
    #[must_use]
    pub fn scene(&self) -> &Scene {
        &self.scene
    }

    /// A cut through a piece, if there is such a piece.
    #[must_use]
    pub fn section(&self, piece: usize) -> Option<Section> {
        section(&self.plan, &self.figures, piece)
    }

    /// Whether there is something to undo, and something to redo.
    #[must_use]
    pub fn history(&self) -> (bool, bool) {
        (!self.past.is_empty(), !self.future.is_empty())
    }

    /// Takes a new plan in place of the one there is, without a step of history.
    fn replace(&mut self, plan: Plan) -> Result<(), NoAnswer> {
        self.figures = Figures::of(&plan)?;
        self.scene = scene(&plan, &self.figures);
        self.memory.note(&self.plan);
        self.plan = plan;
        self.nudged = None;
        Ok(())
    }

    /// Takes a new plan as a step that can be undone; a plan equal to the present one is no step.
    fn step(&mut self, plan: Plan) -> Result<(), NoAnswer> {
        if plan == self.plan {
            return Ok(());
        }
        let before = self.plan.clone();
        self.replace(plan)?;
        self.past.push(Step::of(before));
        self.future.clear();
        Ok(())
    }

    /// Takes a new plan in which something was moved by keys: one step with the moves of the same thing just before. A plan without
    /// an answer is not taken.
    fn nudge_step(&mut self, held: Held, plan: Plan) {
        let goes_on = self.nudged == Some(held);
        let steps = self.past.len();
        if self.step(plan).is_err() {
            return;
        }
        if goes_on && self.past.len() > steps {
            self.past.pop();
        }
        self.nudged = Some(held);
    }

    /// Begins a move by keys: what follows is a step of its own, whatever was moved before.
    pub fn pick_up(&mut self) {
        self.abandon();
        self.nudged = None;
        self.picked_up = Some(self.past.len());
    }

    /// Cancels the move that [`Self::pick_up`] began, without a trace; whether anything had moved.
    ///
    /// ```
    /// use overmantel::{desk::{Desk, Held}, plan::Plan};
    /// let mut desk = Desk::new(Plan::starting()).unwrap();
    /// desk.nudge(Held::Group(0), 1, 0, false);
    /// let left_there = desk.plan().clone();
    /// desk.pick_up();
    /// assert!(!desk.put_back(), "nothing was moved, and the step before stays");
    /// desk.pick_up();
    /// desk.nudge(Held::Group(0), 1, 0, true);
    /// assert!(desk.put_back());
    /// assert_eq!(desk.plan(), &left_there);
    /// assert!(!desk.redo() && desk.undo());
    /// ```
    pub fn put_back(&mut self) -> bool {
        let has_moved = self.picked_up.take().is_some_and(|steps| self.past.len() > steps);
        if has_moved {
            self.undo();
            self.future.pop();
        }
        self.nudged = None;
        has_moved
    }

    /// Takes the remedy of this identity.
    ///
    /// # Errors
    /// When the plan has no such remedy, or does not take it; the plan is as it was.
    pub fn mend(&mut self, id: &str) -> Result<(), MendError> {
        self.abandon();
        let mended = mend::taken(&self.plan, &self.stock, id)?;
        self.step(mended).map_err(|why| MendError::Field(why.into()))
    }

    /// Changes a field.
    ///
    /// # Errors
    /// When the field does not take the text; the plan is as it was.
    pub fn set(&mut self, field: impl Into<Field>, text: &str) -> Result<(), FieldError> {
        self.abandon();
        let field = field.into();
        let plan = fields::write(&self.plan, &self.stock, field, text)?;
        // A part that was taken away comes back as it was, where that still has an answer.
        let is_choice =
            fields::read(&self.plan, &self.stock, field).is_some_and(|value| value.kind == Kind::Choice);
        let is_start = *field.row == crate::field::OFFER_START;
        let recalled =
            if is_choice && !is_start { self.memory.recalled(&self.plan, &plan) } else { plan.clone() };
        let plan = if Figures::of(&recalled).is_ok() { recalled } else { plan };
        let named = self.named(plan, is_start);
        Ok(self.step(named)?)
    }

    /// Opens another plan; the present one can be had back by undoing.
    ///
    /// # Errors
    /// When the text is not a plan file or its plan has no answer.
    pub fn open(&mut self, text: &str) -> Result<(), DeskError> {
        self.abandon();
        Ok(self.step(file::read(text)?)?)
    }

    /// Begins with another plan, with no past: the present one is kept elsewhere. Copies of pictures that both plans have stay.
    ///
    /// # Errors
    /// When the text is not a plan file or its plan has no answer; then all is as it was.
    pub fn begin_with(&mut self, text: &str) -> Result<(), DeskError> {
        self.abandon();
        let plan = file::read(text)?;
        let before = std::mem::replace(&mut self.plan, plan.clone());
        if let Err(why) = Figures::of(&plan) {
            self.plan = before;
            return Err(why.into());
        }
        let stays = |name: &str| {
            let of = |plan: &Plan| plan.pictures.iter().find(|picture| picture.name == name).cloned();
            of(&plan).is_some_and(|picture| of(&before) == Some(picture))
        };
        self.copies.retain(|name, _| stays(name));
        self.memory = Memory::default();
        (self.past, self.future) = (Vec::new(), Vec::new());
        Ok(self.replace(plan)?)
    }

    /// Shows lengths in a system, or in both.
    pub fn show_units(&mut self, first: System, both: bool) {
        let mut plan = self.plan.clone();
        plan.units = crate::plan::Units { first, both };
        // Units change no length, so that a plan with an answer keeps it.
        let _kept = self.step(plan);
    }

    /// Goes one step back; whether there was one.
    pub fn undo(&mut self) -> bool {
        self.abandon();
        let Some(before) = self.past.pop() else { return false };
        let now = self.plan.clone();
        self.future.push(Step::of(now));
        self.replace(before.plan).is_ok()
    }

    /// Goes one step forward again; whether there was one.
    pub fn redo(&mut self) -> bool {
        self.abandon();
        let Some(after) = self.future.pop() else { return false };
        let now = self.plan.clone();
        self.past.push(Step::of(now));
        self.replace(after.plan).is_ok()
    }

    /// Whether a copy of a picture is on the desk.
    #[must_use]
    pub fn has_copy(&self, name: &str) -> bool {
        self.copies.contains_key(name)
    }

    /// The copy of a picture that is on the desk.
    #[must_use]
    pub fn copy(&self, name: &str) -> Option<&Raster> {
        self.copies.get(name).map(|copy| copy.pyramid.raster())
    }

    /// Puts a copy of a picture on the desk, under the name it has in a plan.
    pub fn put_copy(&mut self, name: &str, file_px: (u32, u32), raster: Raster) {
        self.revision += 1;
        self.copies.insert(
            name.to_owned(),
            LoadedPicture {
                pyramid: Pyramid::of(raster),
                file_width_px: file_px.0.max(1),
                file_height_px: file_px.1.max(1),
                revision: self.revision,
            },
        );
        // Copies that no plan of this session names any more are given up.
        let named = |plan: &Plan, name: &str| plan.pictures.iter().any(|picture| picture.name == name);
        let steps = self.past.iter().chain(&self.future).map(|step| &step.plan);
        let plans: Vec<&Plan> = steps.chain([&self.plan]).collect();
        self.copies.retain(|kept, _| kept == name || plans.iter().any(|plan| named(plan, kept)));
    }

    /// Adds picture files to the plan and shows them: several as one piece each, a single one in the piece it is meant for.
    ///
    /// `files` has the name of each file and its size in pixels; `piece` is the piece that a single picture is for, if one
    /// was chosen. A file that the plan names already, and of which there is no copy on the desk, is that picture come
    /// back: nothing of the plan changes. Returns the name of each picture in the plan.
    ///
    /// # Errors
    /// When the plan can take no more pictures, or a size is out of range.
    pub fn add_pictures(
        &mut self,
        files: &[(String, u32, u32)],
        piece: Option<usize>,
    ) -> Result<Vec<String>, NoAnswer> {
        let mut plan = self.plan.clone();
        let returned = |file: &(String, u32, u32)| {
            self.plan.pictures.iter().find(|known| {
                (&known.file, known.width_px, known.height_px) == (&file.0, file.1, file.2)
                    && !self.has_copy(&known.name)
            })
        };
        let new = files.iter().filter(|file| returned(file).is_none()).count();
        if plan.pictures.len() + new > limits::PICTURES {
            forget_unused(&mut plan);
        }
        let mut names = Vec::new();
        let mut shown = Vec::new();
        for file in files {
            if let Some(known) = returned(file) {
                names.push(known.name.clone());
                continue;
            }
            let (file, width_px, height_px) = file;
            let name = own_name(&plan, file);
            names.push(name.clone());
            shown.push(plan.pictures.len());
            let file = file.chars().take(limits::NAME * 2).collect();
            plan.pictures.push(Picture {
                name,
                file,
                width_px: *width_px,
                height_px: *height_px,
                subject: None,
            });
        }
        hang_pictures(&mut plan, &shown, piece);
        self.replace_demo(&mut plan, &shown);
        let named = self.named(plan, false);
        self.step(named)?;
        Ok(names)
    }

    /// Puts new pictures in the place of the demo's wherever those are shown, and takes the demo's out of the plan.
    fn replace_demo(&self, plan: &mut Plan, new: &[usize]) {
        let is_demo: Vec<bool> = plan.pictures.iter().map(|picture| self.demo.has(picture)).collect();
        if new.is_empty() || !is_demo.contains(&true) {
            return;
        }
        let mut next = new.iter().cycle();
        for piece in &mut plan.pieces {
            if let (Some(true), Some(&own)) = (piece.picture.map(|picture| is_demo[picture]), next.next()) {
                show(piece, own);
            }
        }
        if let (Some(split), Some(&own)) =
            (plan.split.as_mut().filter(|split| is_demo[split.picture]), new.first())
        {
            (split.picture, split.focus) = (own, Focus::MIDDLE);
        }
        let keep: Vec<bool> = is_demo.iter().map(|is_demo| !is_demo).collect();
        keep_pictures(plan, &keep);
    }

    /// The height in device pixels that a sheet of this width needs.
    #[must_use]
    pub fn height_for_width(&self, sheet: &Sheet) -> u32 {
        Projection::height_for_width(&self.scene, sheet)
    }

    /// Whether something is held.
    #[must_use]
    pub fn is_dragging(&self) -> bool {
        self.drag.is_some()
    }

    /// Draws the wall.
    pub fn draw(&mut self, sheet: &Sheet) -> Drawing<'_> {
        let copies = linked::shown(&self.plan, &self.copies, &self.sketches);
        self.painter.draw(&self.scene, &copies, sheet)
    }

    /// Draws the wall as it was before the last step, or as it is where there was none.
    pub fn draw_before(&mut self, sheet: &Sheet) -> Drawing<'_> {
        self.draw_other(self.past.last().map(|step| step.plan.clone()), sheet)
    }

    /// Draws the wall with another plan than the one at work, or with that where there is none or it has no answer.
    fn draw_other(&mut self, other: Option<Plan>, sheet: &Sheet) -> Drawing<'_> {
        let other = other.unwrap_or_else(|| self.plan.clone());
        let copies = linked::shown(&other, &self.copies, &self.sketches);
        let then = Figures::of(&other).map(|figures| scene(&other, &figures));
        self.painter.draw(then.as_ref().unwrap_or(&self.scene), &copies, sheet)
    }
}

/// Shows pictures in the pieces that they are meant for.
fn hang_pictures(plan: &mut Plan, pictures: &[usize], piece: Option<usize>) {
    match *pictures {
        [] => {}
        [picture] => match (&mut plan.split, piece) {
            (Some(split), _) => {
                split.picture = picture;
                split.focus = Focus::MIDDLE;
            }
            (None, chosen) => {
                // The chosen piece, or the first without a picture, or the first.
                let empty = || plan.pieces.iter().position(|piece| piece.picture.is_none());
                let index = chosen.or_else(empty).unwrap_or(0).min(plan.pieces.len() - 1);
                show(&mut plan.pieces[index], picture);
            }
        },
        _ => {
            plan.split = None;
            let last = plan.pieces.last().cloned().unwrap_or_else(Piece::starting);
            plan.pieces.resize(pictures.len().min(limits::PIECES), last);
            for (piece, &picture) in plan.pieces.iter_mut().zip(pictures) {
                show(piece, picture);
            }
        }
    }
}

fn show(piece: &mut Piece, picture: usize) {
    piece.picture = Some(picture);
    piece.focus = Focus::MIDDLE;
}

/// Takes pictures that no piece shows out of a plan.
fn forget_unused(plan: &mut Plan) {
    let used = (0..plan.pictures.len()).map(|index| {
        plan.split.is_some_and(|split| split.picture == index)
            || plan.pieces.iter().any(|piece| piece.picture == Some(index))
    });
    let used: Vec<bool> = used.collect();
    keep_pictures(plan, &used);
}

/// Takes the pictures that are not to be kept out of a plan; none of them is shown.
fn keep_pictures(plan: &mut Plan, used: &[bool]) {
    let moved = |index: usize| used[..index].iter().filter(|&&kept| kept).count();
    for piece in &mut plan.pieces {
        piece.picture = piece.picture.map(moved);
    }
    if let Some(split) = &mut plan.split {
        split.picture = moved(split.picture);
    }
    let mut keep = used.iter();
    plan.pictures.retain(|_| keep.next().copied().unwrap_or(false));
}

/// A name for a picture from that of its file, unlike every other in the plan.
fn own_name(plan: &Plan, file: &str) -> String {
    let stem = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
    let plain: String = stem
        .chars()
        .map(|letter| if letter.is_control() || "_-".contains(letter) { ' ' } else { letter })
        .collect();
    let words = plain.split_whitespace().collect::<Vec<_>>().join(" ");
    let base: String = words.chars().take(limits::NAME - 8).collect();
    let base = if base.is_empty() { "picture".to_owned() } else { base };
    let mut name = base.clone();
    let mut number = 2;
    while plan.pictures.iter().any(|picture| picture.name == name) {
        name = format!("{base} {number}");
        number += 1;
    }
    name
}
