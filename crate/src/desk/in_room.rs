//! The plan in a photograph of a room: drawn there, moved there, and what was measured there taken over.

use super::{Desk, DeskError, linked};
use crate::draw::projection::Projection;
use crate::photograph::taken::Taken;
use crate::photograph::view::{Drawn, MM_PER_INCH};
use kurbo::Point;

/// Pixels to an inch of the drawing by which places of the photograph are handed to what moves pieces: fine enough for a sixteenth of an
/// inch, and so that what catches reaches as far as on a screen.
const SCALE: f32 = 16.0;

impl Desk {
    /// Draws the plan's pieces in a photograph, its longer side at so many pixels at most. None where nothing is known of
    /// its wall yet.
    pub fn draw_in_room<'a>(&self, taken: &'a mut Taken, most_px: u32) -> Option<Drawn<'a>> {
        let copies = linked::shown(&self.plan, &self.copies, &self.sketches);
        taken.draw(&self.scene, &copies, most_px, self.is_dragging())
    }

    /// Takes what was measured in a photograph into the plan, as a step.
    ///
    /// # Errors
    ///
    /// Where nothing is known of the wall, or the plan with it has no answer.
    pub fn take_room(&mut self, taken: &Taken) -> Result<(), DeskError> {
        let plan = taken.room().taken_into(&self.plan)?;
        Ok(self.step(plan)?)
    }

    /// Whether the middle of the pieces is in a photograph, where its wall is known.
    pub fn is_in_sight(&self, taken: &Taken) -> bool {
        let middle = self.scene.group.centre();
        let place = taken.hung(&self.scene).zip(taken.estimate().ok()).and_then(|(hung, estimate)| {
            let [right, up] = [hung.right_mm + middle.x.to_mm(), hung.up_mm + middle.y.to_mm()];
            estimate.camera.pixel(nalgebra::Vector3::new(right, up, 0.0))
        });
        let [width, height] = taken.room().pixels.map(f64::from);
        place.is_none_or(|at| (0.0..width).contains(&at.x) && (0.0..height).contains(&at.y))
    }

    /// Takes hold of the pieces under a pixel of a photograph; whether there are any.
    pub fn take_in_room(&mut self, taken: &Taken, pixel: Point) -> bool {
        let Some((x, y)) = self.on_wall(taken, pixel) else { return false };
        let projection = Projection::flat(SCALE, 0.0);
        match self.under(projection, x, y) {
            Some(held @ super::Held::Group(_)) => {
                self.take_hold(held, projection, x, y);
                true
            }
            _ => false,
        }
    }

    /// Moves what is held to a pixel of a photograph, `free` without catching; what there is to say of it. `css_px` is how many of its
    /// pixels a CSS pixel has.
    pub fn drag_in_room(&mut self, taken: &Taken, pixel: Point, css_px: f32, free: bool) -> String {
        let Some((x, y)) = self.on_wall(taken, pixel) else { return String::new() };
        let inches =
            taken.estimate().map_or(MM_PER_INCH, |estimate| MM_PER_INCH * estimate.camera.scale_at(pixel));
        #[expect(clippy::cast_possible_truncation, reason = "a distance on a screen keeps 24 bits")]
        let ratio = css_px * SCALE / (inches.max(0.1) as f32);
        self.drag_to(Projection::flat(SCALE, 0.0), x, y, ratio, free).join(", ")
    }

    /// Where on the plan's wall a pixel of a photograph is, as the flat drawing has it.
    fn on_wall(&self, taken: &Taken, pixel: Point) -> Option<(f32, f32)> {
        let hung = taken.hung(&self.scene)?;
        let place = taken.estimate().ok()?.camera.place(pixel, 0.0)?;
        let [x, y] = [(place.x - hung.right_mm) / MM_PER_INCH, (place.y - hung.up_mm) / MM_PER_INCH];
        #[expect(clippy::cast_possible_truncation, reason = "a place on a wall keeps 24 bits")]
        let [x, y] = [x, y].map(|inches| inches as f32 * SCALE);
        Some((x, -y))
    }
}
