//! Handling at the boundary: what lies on the drawing, taking hold of it, going nearer. Handles are `group`, `fixture.N`,
//! `corner.N.` with `ul`, `ur`, `ll` or `lr`, and `picture.N`.

use super::view::{HandleView, PlaceView};
use super::{Desk, handed};
use crate::desk::{Corner, Held};
use crate::draw::projection::Projection;
use crate::draw::{PixelRect, Sheet, Window};
use crate::geometry::{Point, Rect};
use crate::text::typeset;
use tsify::Ts;
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// Corners by their names: upper or lower, left or right.
const CORNERS: [(&str, bool, bool); 4] =
    [("ul", false, true), ("ur", true, true), ("ll", false, false), ("lr", true, false)];
/// What a finger can find, in CSS pixels (WCAG 2.2, 2.5.8 Target Size: 24).
const TARGET_PX: f32 = 24.0;
/// The target of a corner lies so far within it, where no figure stands.
const INWARD_PX: f32 = 8.0;

fn held(handle: &str, alone: bool) -> Option<Held> {
    let parts: Vec<&str> = handle.split('.').collect();
    let number = |text: &str| text.parse::<usize>().ok();
    Some(match parts[..] {
        ["group"] => Held::Group(0),
        ["fixture", index] => Held::Fixture(number(index)?),
        ["picture", piece] => Held::Picture(number(piece)?),
        ["corner", piece, name] => {
            let (_, right, upper) = CORNERS.into_iter().find(|(known, ..)| *known == name)?;
            Held::Corner(Corner { piece: number(piece)?, right, upper, alone })
        }
        _ => return None,
    })
}

#[wasm_bindgen]
impl Desk {
    /// Takes hold of a handle at a point in CSS pixels; whether there was something to hold. A corner with `alone` is of one
    /// piece and not of those that are like it.
    pub fn take(&mut self, handle: &str, alone: bool, x: f32, y: f32) -> bool {
        let (Some(projection), Some(held)) = (self.projection, held(handle, alone)) else { return false };
        let ratio = self.pixel_ratio;
        if let Held::Group(_) = held {
            // The handle of the group lies over the gaps too.
            return self.desk.take(projection, x * ratio, y * ratio).is_some();
        }
        self.desk.take_hold(held, projection, x * ratio, y * ratio);
        true
    }

    /// Moves what is held to a point in CSS pixels, `free` without catching; what there is to say of it.
    pub fn drag_to(&mut self, x: f32, y: f32, free: bool) -> String {
        let Some(projection) = self.projection else { return String::new() };
        let ratio = self.pixel_ratio;
        self.desk.drag_to(projection, x * ratio, y * ratio, ratio, free).join(", ")
    }

    /// Lets go of what is held.
    pub fn release(&mut self) {
        self.desk.release();
    }

    /// Puts what is held back where it was.
    pub fn abandon(&mut self) {
        self.desk.abandon();
    }

    /// Moves a thing by steps to the right and up; what there is to say of where it is then.
    pub fn nudge(&mut self, handle: &str, alone: bool, right: i8, up: i8, large: bool) -> String {
        let held = held(handle, alone);
        held.map_or(String::new(), |held| typeset(&self.desk.nudge(held, right, up, large)))
    }

    /// Begins a move by keys, which is a step of its own.
    pub fn pick_up(&mut self) {
        self.desk.pick_up();
    }

    /// Cancels that move; whether anything had moved.
    pub fn put_back(&mut self) -> bool {
        self.desk.put_back()
    }

    /// What a thing of the drawing is called.
    pub fn thing(&self, handle: &str) -> String {
        held(handle, true).map_or(String::new(), |held| typeset(&self.desk.called(held)))
    }

    /// Removes a thing of the drawing; says why it stays, where it does.
    pub fn remove(&mut self, handle: &str) -> Option<String> {
        let held = held(handle, true)?;
        self.desk.remove(held).err().map(|why| why.to_string())
    }

    /// Where a piece is on the drawing, in CSS pixels.
    pub fn place_of_piece(&self, piece: usize) -> Result<Option<Ts<PlaceView>>, JsError> {
        let css = self.pixel_ratio.recip();
        let place = self.projection.zip(self.desk.place_of(piece));
        place.map(|(projection, rect)| handed(PlaceView::on_wall(rect, projection, css))).transpose()
    }

    /// Goes nearer to the drawing, or farther, by a factor; what is at a point in CSS pixels stays there.
    pub fn zoom(&mut self, factor: f32, x: f32, y: f32) {
        let Some(sheet) = &self.sheet else { return };
        let most = Projection::most_zoom(self.desk.scene(), sheet);
        self.window = self.window.zoomed(factor, shares(sheet, x, y), most);
    }

    /// Moves the window over the drawing by CSS pixels; whether there was anywhere to go.
    pub fn pan(&mut self, right: f32, down: f32) -> bool {
        let Some(sheet) = &self.sheet else { return false };
        let (right, down) = shares(sheet, right, down);
        let moved = self.window.moved(right, down);
        std::mem::replace(&mut self.window, moved) != moved
    }

    /// Shows all of the drawing again.
    pub fn whole(&mut self) {
        self.window = Window::WHOLE;
    }

    /// Whether only a part of the drawing is in the window.
    pub fn is_zoomed(&self) -> bool {
        self.window.zoom > 1.0
    }

    /// Shows the plan before the last step, or the plan as it is.
    pub fn show_before(&mut self, before: bool) {
        self.before = before;
    }
}

/// CSS pixels as shares of the sheet.
fn shares(sheet: &Sheet, x: f32, y: f32) -> (f32, f32) {
    #[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
    let share = |at: f32, of: u32| at * sheet.pixel_ratio / of.max(1) as f32;
    (share(x, sheet.width_px), share(y, sheet.height_px))
}

impl Desk {
    /// Everything that can be taken hold of, with its place.
    pub(super) fn handles(&self, projection: Projection, css: f32) -> Vec<HandleView> {
        let (plan, arranged) = (self.desk.plan(), &self.desk.figures().arranged);
        let handle = |kind: &'static str, handle: String, label: String, rect: Rect| HandleView {
            handle,
            kind,
            corner: None,
            piece: None,
            by_keys: true,
            label,
            place: PlaceView::on_wall(rect, projection, css),
        };
        let said = |held: Held| self.desk.said_of(held);
        let mut handles = vec![handle("group", "group".to_owned(), said(Held::Group(0)), arranged.group)];
        for (index, &rect) in arranged.fixtures.iter().enumerate() {
            let mut view = handle("fixture", format!("fixture.{index}"), said(Held::Fixture(index)), rect);
            view.place = view.place.at_least(TARGET_PX);
            handles.push(view);
        }
        for (index, piece) in plan.pieces.iter().enumerate() {
            handles.extend(self.corners(index, projection, css));
            let has_picture = plan.split.is_some() || piece.picture.is_some();
            if let Some(place) = self.desk.place_of(index).filter(|_| has_picture) {
                let label = said(Held::Picture(index));
                let view = handle("picture", format!("picture.{index}"), label, place);
                handles.push(HandleView { piece: u32::try_from(index).ok(), ..view });
            }
        }
        handles
    }

    /// The corners of a piece, by which its size is pulled; one of them is for the keys.
    fn corners(&self, index: usize, projection: Projection, css: f32) -> impl Iterator<Item = HandleView> {
        let of = move |right, upper| Corner { piece: index, right, upper, alone: false };
        let label = self.desk.said_of(Held::Corner(of(true, false)));
        CORNERS.into_iter().filter_map(move |(name, right, upper)| {
            let at = self.desk.corner(of(right, upper))?;
            Some(HandleView {
                handle: format!("corner.{index}.{name}"),
                kind: "corner",
                corner: Some(name),
                piece: u32::try_from(index).ok(),
                by_keys: right && !upper,
                label: label.clone(),
                place: around(projection, at, css).moved(
                    if right { -INWARD_PX } else { INWARD_PX },
                    if upper { INWARD_PX } else { -INWARD_PX },
                ),
            })
        })
    }
}

impl PlaceView {
    /// Where a rectangle of the wall is on the drawing, with so many CSS pixels to each device pixel.
    fn on_wall(rect: Rect, projection: Projection, css: f32) -> Self {
        Self {
            x: projection.x(rect.x) * css,
            y: projection.y(rect.top()) * css,
            width: projection.length(rect.size.width) * css,
            height: projection.length(rect.size.height) * css,
        }
    }

    /// A rectangle of device pixels, with so many CSS pixels to each.
    pub(super) fn of(rect: PixelRect, css: f32) -> Self {
        Self { x: rect.left * css, y: rect.top * css, width: rect.width() * css, height: rect.height() * css }
    }

    /// Larger where it is smaller than this, round the same middle.
    fn at_least(self, side: f32) -> Self {
        let (wider, higher) = ((side - self.width).max(0.0), (side - self.height).max(0.0));
        Self {
            x: self.x - wider / 2.0,
            y: self.y - higher / 2.0,
            width: self.width + wider,
            height: self.height + higher,
        }
    }

    fn moved(self, right: f32, down: f32) -> Self {
        Self { x: self.x + right, y: self.y + down, ..self }
    }
}

fn around(projection: Projection, at: Point, css: f32) -> PlaceView {
    let half = TARGET_PX / 2.0;
    PlaceView {
        x: projection.x(at.x) * css - half,
        y: projection.y(at.y) * css - half,
        width: TARGET_PX,
        height: TARGET_PX,
    }
}
