//! Dimension lines, centre lines and the scale bar, laid over the drawing.
//!
//! First everything is given its place ([`place()`]), in whole pixels and without a canvas; then each thing is given an ink that
//! can be read on what it lies on; then it is drawn.

use super::brush;
use super::light::Lamp;
use super::pixel_rect::PixelRect;
use super::projection::Projection;
use super::sheet::{Guide, Mark, Sheet, Theme};
use crate::colour::Colour;
use crate::field::Field;
use crate::length::Length;
use crate::scene::{Scene, Tone};
use tiny_skia::{PixmapMut, PixmapRef};

mod choice;
mod ink;
mod place;

pub use place::place;

use super::lettering::Lettering;

/// All lines and figures of a drawing, placed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Placed {
    /// Level and upright strokes.
    pub strokes: Vec<Stroke>,
    /// The oblique strokes at the ends of dimension lines.
    pub ticks: Vec<Tick>,
    /// Figures and words.
    pub labels: Vec<Label>,
    /// The fields whose dimensions found no place.
    pub left_out: Vec<Field>,
}

/// A level or upright stroke, on whole pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// What it covers.
    pub area: PixelRect,
    /// What it is for.
    pub tone: Tone,
    /// Its ink.
    pub ink: Colour,
}

/// An oblique stroke.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Its middle, in device pixels.
    pub middle: (f32, f32),
    /// How far it reaches to each side.
    pub reach: f32,
    /// What it is for.
    pub tone: Tone,
    /// Its ink.
    pub ink: Colour,
    /// The small field it is set on, where what is behind it is too uneven for any ink.
    pub ground: Option<Colour>,
}

impl Tick {
    /// All pixels of the square round it: the field it is set on, if any.
    fn field(&self) -> PixelRect {
        let PixelRect { left, top, right, bottom } = self.area();
        PixelRect {
            left: left.floor(),
            top: top.floor(),
            right: right.floor() + 1.0,
            bottom: bottom.floor() + 1.0,
        }
    }

    /// The square round it.
    #[must_use]
    pub fn area(&self) -> PixelRect {
        let reach = self.reach * 1.17;
        PixelRect::from_xywh(self.middle.0 - reach, self.middle.1 - reach, reach * 2.0, reach * 2.0)
    }
}

/// A figure or a word.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// What it says, as it is set.
    pub text: String,
    /// Its size in device pixels.
    pub em: f32,
    /// The box round it, on whole pixels, with some room on all sides.
    pub area: PixelRect,
    /// Whether it reads upwards.
    pub upright: bool,
    /// What it is for.
    pub tone: Tone,
    /// Whether it is of a line on the wall.
    pub on_wall: bool,
    /// Its ink.
    pub ink: Colour,
    /// The small field it is set on, where what is behind it is too uneven for any ink.
    pub ground: Option<Colour>,
    /// The field that it is.
    pub field: Option<Field>,
}

/// Draws all lines; returns them, and adds what may have changed to `touched`.
#[inline(never)]
pub(super) fn draw(
    canvas: &mut PixmapMut<'_>,
    scene: &Scene,
    sheet: &Sheet,
    projection: Projection,
    lettering: &mut Lettering,
    touched: &mut Vec<PixelRect>,
) -> Placed {
    let placed = chosen(&canvas.as_ref(), scene, sheet, projection);
    put(canvas, &placed, lettering, touched);
    placed
}

/// All lines, placed, each in an ink that can be read on what is on the canvas.
pub(super) fn chosen(canvas: &PixmapRef<'_>, scene: &Scene, sheet: &Sheet, projection: Projection) -> Placed {
    let mut placed = place(scene, sheet, projection);
    let paint = Lamp::of(scene.light).seen(scene.wall.paint);
    ink::choose(&mut placed, canvas, &sheet.theme, paint, projection.line);
    // Red over all that they cross: they are there for a moment only.
    let red = Theme::on(paint).red;
    placed.strokes.extend(sheet.guides.iter().map(|&guide| {
        let (x, y) = match guide {
            Guide::Upright(x) => (projection.x(x), projection.y(scene.wall.size.height)),
            Guide::Level(y) => (projection.x(Length::ZERO), projection.y(y)),
        };
        let [width, height] = match guide {
            Guide::Upright(_) => [projection.line, projection.length(scene.wall.size.height)],
            Guide::Level(_) => [projection.length(scene.wall.size.width), projection.line],
        };
        let area = PixelRect::from_xywh(x.round(), y.round(), width.round(), height.round());
        Stroke { area, tone: Tone::Red, ink: red }
    }));
    placed
}

/// Puts lines on a canvas; adds what may have changed to `touched`.
#[inline(never)]
pub(super) fn put(
    canvas: &mut PixmapMut<'_>,
    placed: &Placed,
    lettering: &mut Lettering,
    touched: &mut Vec<PixelRect>,
) {
    for tick in &placed.ticks {
        if let Some(ground) = tick.ground {
            brush::crisp(canvas, tick.field(), ground);
            touched.push(tick.field());
        }
    }
    for Stroke { area, ink, .. } in &placed.strokes {
        brush::crisp(canvas, *area, *ink);
        touched.push(*area);
    }
    for tick in &placed.ticks {
        touched.push(lettering.tick(canvas, tick.reach, tick.middle, tick.ink));
    }
    for label in &placed.labels {
        if let Some(ground) = label.ground {
            brush::crisp(canvas, label.area, ground);
            touched.push(label.area);
        }
        let area = label.area;
        let middle = (area.left + area.width() / 2.0, area.top + area.height() / 2.0);
        touched.push(lettering.letter(canvas, &label.text, label.em, middle, label.upright, label.ink));
    }
}

impl Placed {
    /// The figures that are fields.
    pub(super) fn marks(&self) -> Vec<Mark> {
        let mark = |label: &Label| Some(Mark { field: label.field?, area: label.area });
        self.labels.iter().filter_map(mark).collect()
    }
}
