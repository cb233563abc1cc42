//! A photograph at work: its pixels, what is marked in it with a way back, its estimate, and itself made ready for pieces at the size of a
//! screen.

use super::estimate::Estimate;
use super::light::{grown_by, is_within};
use super::mark::{self, Mark};
use super::measured::Note;
use super::paper::Paper;
use super::report::RoomReport;
use super::room::{MOST_SIDE_PX, Px, Room, RoomError};
use super::view::{Drawn, Hung, InRoom};
use crate::draw::LoadedPicture;
use crate::plan::Units;
use crate::resample::{Raster, RasterPart, resample};
use crate::scene::Scene;
use kurbo::Point;
use tiny_skia::PixmapMut;

/// Steps that can be taken back.
const MOST_STEPS: usize = 100;

/// Of a sheet, the share that may be clipped: more is no highlight any more.
const MOST_CLIPPED: f64 = 0.2;
const OVEREXPOSED: &str = "The sheet is overexposed, so the light in the room can't be read off it: colours in the picture are wrong. Take the photograph again, darker (on a phone, press the sheet before you release), or without the lamp that shines on it.";

/// A photograph at work.
pub struct Taken {
    photograph: Raster,
    room: Room,
    past: Vec<Room>,
    estimate: Result<Estimate, RoomError>,
    /// Ready for pieces, and at how many pixels across.
    ready: Option<InRoom>,
    /// Reduced as its marks were drawn on it last.
    small: Option<Raster>,
}

impl std::fmt::Debug for Taken {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Taken({:?})", self.room.pixels)
    }
}

/// Pixels of a picture's longer side.
fn longer(picture: &Raster) -> u32 {
    picture.width_px().max(picture.height_px())
}

/// A picture reduced so that its longer side has at most so many pixels; one that is not larger stays as it is.
#[must_use]
pub fn reduced(picture: Raster, most_px: u32) -> Raster {
    let (width, height) = (picture.width_px(), picture.height_px());
    let longer = longer(&picture);
    if longer <= most_px {
        return picture;
    }
    let side = |px: u32| {
        let scaled = f64::from(px) * f64::from(most_px) / f64::from(longer);
        u32::try_from(crate::rounding::nearest(scaled)).unwrap_or(1).max(1)
    };
    resample(&picture, RasterPart::whole(&picture), side(width), side(height))
}

impl Taken {
    /// A photograph whose sheet and lines are found by themselves; it is reduced to what is kept of it.
    ///
    /// # Errors
    ///
    /// Where it is too small, or a panorama.
    pub fn found(
        photograph: Raster,
        focal_35mm: Option<f64>,
        paper: Option<Paper>,
    ) -> Result<Self, RoomError> {
        let photograph = reduced(photograph, MOST_SIDE_PX);
        let room = Room::found(&photograph, focal_35mm, paper)?;
        Ok(Self::of(photograph, room))
    }

    /// A photograph with what was marked in it before.
    ///
    /// # Errors
    ///
    /// Where the marks are none, or of a photograph of another size.
    pub fn with(photograph: Raster, marks: &str) -> Result<Self, RoomError> {
        let room = Room::read(marks)?;
        let [width, height] = room.pixels;
        if (photograph.width_px(), photograph.height_px()) != (width, height) {
            let own = (photograph.width_px(), photograph.height_px());
            return Err(RoomError::OtherPhotograph(width, height, own.0, own.1));
        }
        Ok(Self::of(photograph, room))
    }

    fn of(photograph: Raster, room: Room) -> Self {
        let estimate = room.estimate();
        Self { photograph, room, past: Vec::new(), estimate, ready: None, small: None }
    }

    /// The photograph as it is kept.
    #[must_use]
    pub fn photograph(&self) -> &Raster {
        &self.photograph
    }

    /// What is marked.
    #[must_use]
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// The camera and the wall, or why there is none.
    ///
    /// # Errors
    ///
    /// Where there is no sheet, or the marks contradict each other.
    pub fn estimate(&self) -> Result<&Estimate, &RoomError> {
        self.estimate.as_ref()
    }

    /// Changes what is marked, as a step that can be taken back. A change that is refused changes nothing.
    ///
    /// # Errors
    ///
    /// What the change itself says.
    pub fn change(
        &mut self,
        change: impl FnOnce(&mut Room, &Raster) -> Result<(), RoomError>,
    ) -> Result<(), RoomError> {
        let mut room = self.room.clone();
        change(&mut room, &self.photograph)?;
        if room != self.room {
            self.note_step();
            self.room = room;
            self.settle();
        }
        Ok(())
    }

    /// Moves a mark while it is held: nothing is estimated, and it is one step however far it goes.
    ///
    /// # Errors
    ///
    /// Where it would be nowhere near the photograph.
    pub fn drag(&mut self, mark: Mark, at: Px, is_first: bool) -> Result<(), RoomError> {
        if is_first {
            self.note_step();
        }
        self.room.put(&self.photograph, mark, at)
    }

    /// Keeps what is marked now, to come back to; of many steps the first is forgotten.
    fn note_step(&mut self) {
        self.past.push(self.room.clone());
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
    }

    /// Takes up what was dragged.
    pub fn settle(&mut self) {
        self.estimate = self.room.estimate();
        self.ready = None;
    }

    /// Takes the last step back; whether there was one.
    pub fn undo(&mut self) -> bool {
        let Some(room) = self.past.pop() else { return false };
        self.room = room;
        self.settle();
        true
    }

    /// Whether there is a step to take back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Makes the photograph ready for pieces, its longer side at so many pixels at most. None where there is no estimate.
    pub fn ready(&mut self, most_px: u32) -> Option<&mut InRoom> {
        let wanted = self.wanted(most_px);
        let is_ready = self.ready.as_ref().is_some_and(|ready| {
            let (width, height) = ready.size_px();
            width.max(height) == wanted
        });
        if !is_ready {
            let camera = self.estimate.as_ref().ok()?.camera;
            let corners = self.room.corners()?;
            let small = self.small(wanted).clone();
            let scale = f64::from(small.width_px()) / f64::from(self.photograph.width_px());
            let camera = camera.scaled(scale);
            let at = |corner: Point| Point::new(corner.x * scale, corner.y * scale);
            self.ready = Some(InRoom::new(small, corners.map(at), camera, &self.room, scale));
        }
        self.ready.as_mut()
    }

    /// Pixels of the longer side, where so many are wanted at most.
    fn wanted(&self, most_px: u32) -> u32 {
        longer(&self.photograph).min(most_px.clamp(64, MOST_SIDE_PX))
    }

    /// The photograph with so many pixels on its longer side, kept until it is wanted in another size.
    fn small(&mut self, wanted: u32) -> &Raster {
        let kept = self.small.take().filter(|small| longer(small) == wanted);
        self.small.insert(kept.unwrap_or_else(|| reduced(self.photograph.clone(), wanted)))
    }

    /// Where a plan's wall is, for a scene.
    #[must_use]
    pub fn hung(&self, scene: &Scene) -> Option<Hung> {
        let camera = &self.estimate.as_ref().ok()?.camera;
        Some(self.room.hung(camera, scene.group.centre()))
    }

    /// How wide a scene's pieces are where they hang, read off the photograph, in millimetres, with a standard deviation: by how much the
    /// photograph may be wrong there.
    #[must_use]
    pub fn group_width(&self, scene: &Scene) -> Option<(f64, f64)> {
        let (estimate, hung) = (self.estimate.as_ref().ok()?, self.hung(scene)?);
        let (group, up) = (scene.group, hung.up_mm + scene.group.centre().y.to_mm());
        let pixel = |x: crate::length::Length| {
            estimate.camera.pixel(nalgebra::Vector3::new(hung.right_mm + x.to_mm(), up, 0.0))
        };
        estimate.distance([pixel(group.x)?, pixel(group.right())?], 0.0)
    }

    /// What a person should know of it: of its marks, and of its light.
    #[must_use]
    pub fn notes(&self, units: Units) -> Vec<Note> {
        let mut notes = self.room.notes(units);
        if self.clipped().is_some_and(|share| share > MOST_CLIPPED) {
            notes.push(Note::warning("overexposed", OVEREXPOSED.to_owned()));
        }
        notes
    }

    /// What is measured, and how, as a report.
    ///
    /// # Errors
    ///
    /// Where there is no estimate.
    pub fn report(&self, units: Units) -> Result<RoomReport, RoomError> {
        Ok(RoomReport { notes: self.notes(units), ..self.room.report(units)? })
    }

    /// Of the sheet, the share that is as bright as a photograph can say, in any of its colours.
    fn clipped(&self) -> Option<f64> {
        let sheet = self.room.sheet.as_ref()?;
        let inner = grown_by(sheet.corners.map(|[x, y]| Point::new(x, y)), -2.0);
        let bounds = |axis: fn(&Point) -> f64, most: u32| {
            let [least, largest] = inner
                .iter()
                .map(axis)
                .fold([f64::INFINITY, 0.0], |[least, largest], at| [at.min(least), at.max(largest)]);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "held within the photograph"
            )]
            let bounds = [least, largest].map(|at| at.clamp(0.0, f64::from(most)) as u32);
            bounds[0]..bounds[1]
        };
        let (width, height) = (self.photograph.width_px(), self.photograph.height_px());
        let columns = bounds(|at| at.x, width);
        let (mut all, mut clipped) = (0_u32, 0_u32);
        for y in bounds(|at| at.y, height) {
            for x in columns.clone() {
                if is_within(Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5), &inner) {
                    let at = (y as usize * width as usize + x as usize) * 4;
                    all += 1;
                    clipped +=
                        u32::from(self.photograph.pixels()[at..at + 3].iter().any(|code| *code >= 254));
                }
            }
        }
        (all > 0).then(|| f64::from(clipped) / f64::from(all))
    }

    /// Hangs the pieces where the sheet is, again.
    pub fn hang_at_sheet(&mut self) {
        self.room.hung = None;
    }

    /// Draws a scene's pieces in the photograph; None where there is no estimate.
    pub fn draw(
        &mut self,
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        most_px: u32,
        in_motion: bool,
    ) -> Option<Drawn<'_>> {
        let hung = self.hung(scene)?;
        // From now on the wall stays where it is, and the pieces move on it.
        self.room.hung.get_or_insert([hung.right_mm, hung.up_mm]);
        Some(self.ready(most_px)?.draw(scene, copies, hung, in_motion))
    }

    /// Draws the photograph with its marks; `line` is the width of a thin line in pixels.
    #[must_use]
    pub fn draw_marks(&mut self, most_px: u32, line: f32, chosen: Option<Mark>) -> Raster {
        let full = f64::from(self.photograph.width_px());
        let small = self.small(self.wanted(most_px));
        let (width, height) = (small.width_px(), small.height_px());
        let scale = f64::from(width) / full;
        let mut pixels = small.pixels().to_vec();
        if let Some(mut canvas) = PixmapMut::from_bytes(&mut pixels, width, height) {
            mark::draw(&mut canvas, &self.room, scale, line, chosen);
        }
        Raster::new(width, height, pixels).unwrap_or_else(|| self.photograph.clone())
    }

    /// The photograph round a place, so many times as large, with a cross on the place itself: square, sRGB, four bytes a pixel.
    #[must_use]
    pub fn loupe(&self, [x, y]: Px, side_px: u32, times: f64) -> Vec<u8> {
        let side = side_px.clamp(16, 1024);
        let half = f64::from(side) / 2.0;
        let mut pixels = Vec::with_capacity(side as usize * side as usize * 4);
        for row in 0..side {
            for column in 0..side {
                let [right, down] = [column, row].map(|at| f64::from(at) + 0.5 - half);
                let is_cross = (right.abs() < 0.8 || down.abs() < 0.8) && right.abs().max(down.abs()) > 5.0;
                let at = Point::new(x + right / times, y + down / times);
                let codes = match super::light::pixel(&self.photograph, at) {
                    _ if is_cross => [0xff, 0x5a, 0x36],
                    Some(codes) => codes,
                    None => [0x40; 3],
                };
                pixels.extend(codes);
                pixels.push(u8::MAX);
            }
        }
        pixels
    }
}
