//! Dimension lines, centre lines and the scale bar, laid over the drawing.
//!
//! No two labels overlap: each tries a few places near its line, and a figure that is no field gives way where there is no
//! room for it.

use super::projection::{LANE_EM, Projection, pixels};
use super::{Area, Mark, Sheet, Theme, brush};
use crate::colour::Colour;
use crate::length::Length;
use crate::plan::System;
use crate::scene::{Dimension, Lane, Scene, Tone};
use crate::text::{Face, typeset, width};
use tiny_skia::PixmapMut;

/// Draws all lines and returns the figures that are fields.
pub(super) fn draw(
    canvas: &mut PixmapMut<'_>,
    scene: &Scene,
    sheet: &Sheet,
    projection: Projection,
) -> Vec<Mark> {
    let on_wall = Theme::on(scene.wall.paint);
    centre_lines(canvas, scene, on_wall, projection);
    let mut board = Board {
        canvas,
        projection,
        sheet,
        on_wall,
        taken: Vec::new(),
        labels: Vec::new(),
        marks: Vec::new(),
    };
    scale_bar(&mut board, scene);
    let figure = scene.figure.iter().copied();
    for rect in scene.pieces.iter().map(|piece| piece.outside).chain(figure) {
        let (x, y) = (projection.x(rect.x), projection.y(rect.top()));
        let (width, height) = (projection.length(rect.size.width), projection.length(rect.size.height));
        board.taken.push(Area { x, y, width, height });
    }
    // Fields first: they keep their places, and the other figures give way.
    for field in [true, false] {
        for line in scene.dimensions.iter().filter(|line| line.field.is_some() == field) {
            board.dimension(line, scene);
        }
    }
    board.letter();
    board.marks
}

/// The middle of the group from the ceiling down to it, and the eye level from the left corner.
fn centre_lines(canvas: &mut PixmapMut<'_>, scene: &Scene, inks: Theme, projection: Projection) {
    let dash = projection.em * 0.5;
    let dashes = [dash * 1.2, dash * 0.45, dash * 0.2, dash * 0.45];
    let x = projection.x(scene.centre_line);
    let (top, group_top) = (projection.y(scene.wall.size.height), projection.y(scene.group.top()));
    if group_top - top > projection.em * 2.5 {
        brush::line(
            canvas,
            (x, top),
            (x, group_top - projection.em * 1.9),
            projection.line,
            inks.red,
            &dashes,
        );
    }
    let eye = projection.y(scene.eye_level);
    let (left, group_left) = (projection.x(Length::ZERO), projection.x(scene.group.x));
    let reach = projection.em * 4.4;
    let end = (group_left - projection.em * 2.6).min(left + projection.em * 14.0);
    if end - left > reach && scene.eye_level < scene.wall.size.height {
        brush::line(canvas, (left, eye), (end, eye), projection.line, inks.red, &dashes);
        let baseline = eye - projection.em * 0.35;
        let size = projection.em * 0.92;
        brush::letter(canvas, "eye level", size, (left + projection.em * 0.5, baseline), false, inks.red);
    }
}

struct Board<'a, 'b> {
    canvas: &'a mut PixmapMut<'b>,
    projection: Projection,
    sheet: &'a Sheet,
    on_wall: Theme,
    taken: Vec<Area>,
    labels: Vec<Label>,
    marks: Vec<Mark>,
}

/// A label with its place, to be lettered when all lines are drawn.
struct Label {
    text: String,
    em: f32,
    at: (f32, f32),
    spot: Spot,
    ink: Colour,
    on_wall: bool,
}

/// A dimension line in device pixels: along x, or along y when it is upright.
struct Placed {
    upright: bool,
    from: f32,
    to: f32,
    /// The coordinate of the line across its direction.
    at: f32,
    /// Where the extension lines start.
    object: f32,
    on_wall: bool,
}

impl Board<'_, '_> {
    fn place(&self, line: &Dimension, scene: &Scene) -> Placed {
        let p = self.projection;
        let lane = |number: u8| p.em * LANE_EM * (f32::from(number) + 0.72);
        let near = p.em * 0.85;
        let below = p.floor + p.floor_strip;
        let (upright, at, on_wall) = match line.lane {
            Lane::Above(number) => (false, p.y(scene.wall.size.height) - lane(number), false),
            Lane::Below(number) => (false, below + lane(number), false),
            Lane::Left(number) => (true, p.x(Length::ZERO) - lane(number), false),
            Lane::Right(number) => (true, p.x(scene.wall.size.width) + lane(number), false),
            Lane::Over(y) => (false, p.y(y) - near, true),
            Lane::Beside(x) => (true, p.x(x) + near * 1.5, true),
            Lane::BesideLeft(x) => (true, p.x(x) - near * 1.5, true),
        };
        let object = match line.lane {
            Lane::Below(_) => below,
            Lane::Above(_) | Lane::Over(_) => p.y(line.object),
            _ => p.x(line.object),
        };
        let (from, to) =
            if upright { (p.y(line.to), p.y(line.from)) } else { (p.x(line.from), p.x(line.to)) };
        Placed { upright, from, to, at, object, on_wall }
    }

    fn dimension(&mut self, line: &Dimension, scene: &Scene) {
        let placed = self.place(line, scene);
        let theme = if placed.on_wall { self.on_wall } else { self.sheet.theme };
        let chosen = line.field.is_some() && line.field == self.sheet.chosen;
        let ink = match line.tone {
            _ if chosen => theme.red,
            Tone::Ink => theme.ink,
            Tone::Red => theme.red,
            Tone::Quiet => theme.quiet,
        };
        let em = self.projection.em * if placed.on_wall { 0.92 } else { 1.0 };
        let plain =
            if line.prefix.is_empty() { line.text.clone() } else { format!("{} {}", line.prefix, line.text) };
        let label = typeset(&plain);
        #[expect(clippy::cast_possible_truncation, reason = "a width on a screen")]
        let length = width(Face::Sans, &label, f64::from(em)) as f32;
        let Some(spot) = self.spot(&placed, length, em, line.field.is_some()) else { return };
        self.strokes(&placed, &spot, ink);
        let baseline = em * 0.34;
        let middle = (spot.area.x + spot.area.width / 2.0, spot.area.y + spot.area.height / 2.0);
        let at = if spot.upright {
            (middle.0 + baseline, middle.1 + length / 2.0)
        } else {
            (middle.0 - length / 2.0, middle.1 + baseline)
        };
        self.taken.push(spot.area);
        self.labels.push(Label { text: label, em, at, spot, ink, on_wall: placed.on_wall });
        if let Some(field) = &line.field {
            self.marks.push(Mark { field: field.clone(), area: spot.area, upright: spot.upright });
        }
    }

    /// Letters all labels, over the lines: off the wall each clears its ground, so that no line runs through a figure.
    fn letter(&mut self) {
        for label in std::mem::take(&mut self.labels) {
            let Area { x, y, width, height } = label.spot.area;
            if !label.on_wall {
                brush::rect(self.canvas, x, y, width, height, self.sheet.theme.sheet);
            }
            brush::letter(self.canvas, &label.text, label.em, label.at, label.spot.upright, label.ink);
        }
    }

    /// Where the label of a line goes: in a gap of the line where it fits, otherwise beside it.
    fn spot(&self, placed: &Placed, length: f32, em: f32, must: bool) -> Option<Spot> {
        let span = placed.to - placed.from;
        let (pad, tall) = (em * 0.3, em * 1.15);
        let middle = f32::midpoint(placed.from, placed.to);
        let across =
            |upright: bool| if upright { (tall, length + pad * 2.0) } else { (length + pad * 2.0, tall) };
        let centred = |x: f32, y: f32, upright: bool| {
            let (width, height) = across(upright);
            Area { x: x - width / 2.0, y: y - height / 2.0, width, height }
        };
        let spot = |area: Area, upright: bool, in_line: bool| Spot { area, upright, in_line };
        let mut places = Vec::new();
        if placed.upright {
            // Off the wall figures read upwards; on it they stand level where the gap is high enough.
            if placed.on_wall && span > tall + em {
                places.push(spot(centred(placed.at, middle, false), false, true));
            }
            if span > length + em * 1.4 {
                places.push(spot(centred(placed.at, middle, true), true, true));
            }
            for side in [1.0, -1.0] {
                let x = placed.at + side * (length / 2.0 + em * 0.8);
                places.push(spot(centred(x, middle, false), false, false));
            }
            if !placed.on_wall {
                places.push(spot(centred(placed.at, placed.from - length / 2.0 - em, true), true, false));
            }
        } else {
            if span > length + em * 1.4 {
                places.push(spot(centred(middle, placed.at, false), false, true));
            }
            for lift in [0.95, 1.9] {
                places.push(spot(centred(middle, placed.at - em * lift, false), false, false));
            }
            places.push(spot(centred(placed.to + length / 2.0 + em, placed.at, false), false, false));
            places.push(spot(centred(placed.from - length / 2.0 - em, placed.at, false), false, false));
        }
        let free = places.iter().find(|spot| self.is_free(spot.area, placed)).copied();
        if free.is_none() && must { places.first().copied() } else { free }
    }

    fn is_free(&self, area: Area, placed: &Placed) -> bool {
        let (width, height) = (pixels(self.sheet.width_px), pixels(self.sheet.height_px));
        let inside =
            area.x >= 0.0 && area.y >= 0.0 && area.x + area.width <= width && area.y + area.height <= height;
        let own_lane = if placed.on_wall {
            true
        } else {
            // Off the wall a label must not wander onto it.
            let p = self.projection;
            placed.upright || area.y + area.height <= p.y(Length::ZERO) || area.y >= p.floor
        };
        inside && own_lane && !self.taken.iter().any(|&taken| overlap(area, taken))
    }

    fn strokes(&mut self, placed: &Placed, spot: &Spot, ink: Colour) {
        let (line, em) = (self.projection.line, self.projection.em);
        let point = |along: f32, across: f32| if placed.upright { (across, along) } else { (along, across) };
        let mut stroke = |from: (f32, f32), to: (f32, f32), width: f32| {
            brush::line(self.canvas, from, to, width, ink, &[]);
        };
        // Extension lines start a little off the object and end a little past the line.
        let away = if placed.at > placed.object { 1.0 } else { -1.0 };
        let start = placed.object + away * em * 0.25;
        let end = placed.at + away * em * 0.3;
        if (end - start) * away > 0.0 {
            for along in [placed.from, placed.to] {
                stroke(point(along, start), point(along, end), line * 0.6);
            }
        }
        // The line itself, with a gap for its figure.
        let (gap_from, gap_to) = match (spot.in_line, placed.upright) {
            (false, _) => (placed.to, placed.to),
            (true, true) => (spot.area.y, spot.area.y + spot.area.height),
            (true, false) => (spot.area.x, spot.area.x + spot.area.width),
        };
        stroke(point(placed.from, placed.at), point(gap_from, placed.at), line);
        if gap_to < placed.to {
            stroke(point(gap_to, placed.at), point(placed.to, placed.at), line);
        }
        let tick = em * 0.3;
        for along in [placed.from, placed.to] {
            let (x, y) = point(along, placed.at);
            stroke((x - tick, y + tick), (x + tick, y - tick), line * 1.5);
        }
    }
}

#[derive(Clone, Copy)]
struct Spot {
    area: Area,
    upright: bool,
    in_line: bool,
}

fn overlap(a: Area, b: Area) -> bool {
    a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height
}

/// A bar of one round length, divided in the middle, at the lower left.
fn scale_bar(board: &mut Board<'_, '_>, scene: &Scene) {
    let p = board.projection;
    let steps: &[(Length, &str)] = match scene.system {
        System::Inches => &[
            (Length::inches(6), "6\""),
            (Length::inches(12), "1 ft"),
            (Length::inches(24), "2 ft"),
            (Length::inches(48), "4 ft"),
            (Length::inches(120), "10 ft"),
        ],
        System::Centimetres => &[
            (Length::mm(100), "10 cm"),
            (Length::mm(200), "20 cm"),
            (Length::mm(500), "50 cm"),
            (Length::mm(1000), "1 m"),
            (Length::mm(2000), "2 m"),
        ],
    };
    let Some(&(length, name)) =
        steps.iter().find(|(length, _)| p.length(*length) >= p.em * 4.5).or(steps.last())
    else {
        return;
    };
    let ink = board.sheet.theme.ink;
    let bar = p.length(length);
    let (x, thick) = (p.x(Length::ZERO), p.em * 0.36);
    let y = pixels(board.sheet.height_px) - p.em * 1.0;
    brush::rect(board.canvas, x, y, bar, thick, ink);
    let edge = p.line;
    let inner = [x + bar / 2.0, y + edge, bar / 2.0 - edge, thick - edge * 2.0];
    brush::rect(board.canvas, inner[0], inner[1], inner[2], inner[3], board.sheet.theme.sheet);
    let label = typeset(name);
    brush::letter(board.canvas, &label, p.em * 0.9, (x + bar + p.em * 0.5, y + thick), false, ink);
    board.taken.push(Area { x, y: y - p.em * 0.4, width: bar + p.em * 4.0, height: p.em });
}
