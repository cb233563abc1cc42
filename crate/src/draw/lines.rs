//! Dimension lines, centre lines and the scale bar, laid over the drawing.
//!
//! No two labels overlap: each tries a few places near its line, and a figure that is no field gives way where there is no
//! room for it.

use super::lettering::{self, Lettering};
use super::projection::{LANE_EM, Projection, pixels};
use super::{Area, Mark, Sheet, Theme, brush};
use crate::colour::Colour;
use crate::length::Length;
use crate::plan::System;
use crate::scene::{Dimension, Lane, Scene, Tone};
use crate::text::typeset;
use tiny_skia::PixmapMut;

/// Draws all lines; returns the figures that are fields, and adds what may have changed to `touched`.
pub(super) fn draw(
    canvas: &mut PixmapMut<'_>,
    scene: &Scene,
    sheet: &Sheet,
    projection: Projection,
    lettering: &mut Lettering,
    touched: &mut Vec<Area>,
) -> Vec<Mark> {
    let on_wall = Theme::on(scene.wall.paint);
    let mut board = Board {
        canvas,
        lettering,
        touched,
        projection,
        sheet,
        on_wall,
        taken: Vec::new(),
        labels: Vec::new(),
        marks: Vec::new(),
    };
    board.centre_lines(scene);
    board.scale_bar(scene);
    let pieces = scene.pieces.iter().map(|piece| piece.outside);
    let fixtures = scene.fixtures.iter().map(|fixture| fixture.rect);
    for rect in pieces.chain(fixtures).chain(scene.figure.map(|figure| figure.rect)) {
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

struct Board<'a, 'b> {
    canvas: &'a mut PixmapMut<'b>,
    lettering: &'a mut Lettering,
    touched: &'a mut Vec<Area>,
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
    /// Where the extension lines at its two ends start: at `from` and at `to` in pixels.
    objects: [f32; 2],
    on_wall: bool,
}

impl Board<'_, '_> {
    fn fill(&mut self, area: [f32; 4], ink: Colour) {
        brush::crisp(self.canvas, area, ink);
        let [x, y, width, height] = area;
        self.touched.push(Area { x, y, width, height });
    }

    fn write(&mut self, text: &str, em: f32, middle: (f32, f32), upright: bool, ink: Colour) {
        self.touched.push(self.lettering.letter(self.canvas, text, em, middle, upright, ink));
    }

    /// The middle of the group from the ceiling down to it, and the eye level from the left corner.
    fn centre_lines(&mut self, scene: &Scene) {
        let (p, ink) = (self.projection, self.on_wall.red);
        let x = p.x(scene.centre_line);
        let (top, group_top) = (p.y(scene.wall.size.height), p.y(scene.group.top()));
        if group_top - top > p.em * 2.5 {
            self.chain(true, x, [top, group_top - p.em * 1.9], ink);
        }
        let eye = p.y(scene.eye_level);
        let (left, group_left) = (p.x(Length::ZERO), p.x(scene.group.x));
        // Not through the figure of the first piece's height, which stands beside it.
        let end = (group_left - p.em * 4.4).min(left + p.em * 14.0);
        if end - left > p.em * 4.4 && scene.eye_level < scene.wall.size.height {
            self.chain(false, eye, [left, end], ink);
            let em = p.em * 0.92;
            let middle = (left + p.em * 0.5 + lettering::length("eye level", em) / 2.0, eye - p.em * 0.7);
            self.write("eye level", em, middle, false, ink);
        }
    }

    /// A chain line: long and short strokes in turn, upright or level.
    fn chain(&mut self, upright: bool, at: f32, [from, to]: [f32; 2], ink: Colour) {
        let (dash, line) = (self.projection.em * 0.5, self.projection.line);
        // Only what is on the sheet: a wall can be far larger than it.
        let most = pixels(if upright { self.sheet.height_px } else { self.sheet.width_px });
        let (mut along, to) = (from.max(0.0), to.min(most));
        for stroke in [dash * 1.2, dash * 0.2].into_iter().cycle() {
            if along >= to {
                return;
            }
            let length = stroke.min(to - along);
            let area = if upright { [at, along, line, length] } else { [along, at, length, line] };
            self.fill(area, ink);
            along += stroke + dash * 0.45;
        }
    }

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
        let [first, last] = line.objects.map(|object| match line.lane {
            Lane::Below(_) => below,
            Lane::Above(_) | Lane::Over(_) => p.y(object),
            _ => p.x(object),
        });
        if upright {
            // The pixels of an upright line run down, from its upper end.
            Placed { upright, from: p.y(line.to), to: p.y(line.from), at, objects: [last, first], on_wall }
        } else {
            Placed { upright, from: p.x(line.from), to: p.x(line.to), at, objects: [first, last], on_wall }
        }
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
        let figure = if self.projection.narrow { &line.short } else { &line.text };
        let plain = if line.prefix.is_empty() { figure.clone() } else { format!("{} {figure}", line.prefix) };
        let label = typeset(&plain);
        let length = lettering::length(&label, em);
        let Some(spot) = self.spot(&placed, length, em, line.field.is_some() && !placed.on_wall) else {
            return;
        };
        let wall_edge = matches!(line.lane, Lane::Right(_)).then(|| self.projection.x(scene.wall.size.width));
        self.strokes(&placed, &spot, ink, wall_edge);
        self.taken.push(spot.area);
        self.labels.push(Label { text: label, em, spot, ink, on_wall: placed.on_wall });
        if let Some(field) = &line.field {
            self.marks.push(Mark { field: field.clone(), area: spot.area });
        }
    }

    /// A bar of one round length, divided in the middle, at the lower left.
    fn scale_bar(&mut self, scene: &Scene) {
        let p = self.projection;
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
        let ink = self.sheet.theme.ink;
        let bar = p.length(length);
        let (x, thick) = (p.x(Length::ZERO), p.em * 0.36);
        let y = pixels(self.sheet.height_px) - p.em * 1.0;
        self.fill([x, y, bar, thick], ink);
        let edge = p.line;
        self.fill([x + bar / 2.0, y + edge, bar / 2.0 - edge, thick - edge * 2.0], self.sheet.theme.sheet);
        let (label, em) = (typeset(name), p.em * 0.9);
        let middle = (x + bar + p.em * 0.5 + lettering::length(&label, em) / 2.0, y + thick / 2.0);
        self.write(&label, em, middle, false, ink);
        self.taken.push(Area { x, y: y - p.em * 0.4, width: bar + p.em * 4.0, height: p.em });
        if scene.dimensions.iter().any(|line| line.rounded) {
            let note = typeset(match scene.system {
                System::Inches => "some figures are rounded to 1/16\"",
                System::Centimetres => "some figures are rounded to 1 mm",
            });
            let right = p.x(scene.wall.size.width) - lettering::length(&note, em) / 2.0;
            self.write(&note, em, (right, y + thick / 2.0), false, self.sheet.theme.quiet);
        }
    }

    /// Letters all labels, over the lines: off the wall each clears its ground, so that no line runs through a figure.
    fn letter(&mut self) {
        for label in std::mem::take(&mut self.labels) {
            let Area { x, y, width, height } = label.spot.area;
            if !label.on_wall {
                self.fill([x, y, width, height], self.sheet.theme.sheet);
            }
            let middle = (x + width / 2.0, y + height / 2.0);
            self.write(&label.text, label.em, middle, label.spot.upright, label.ink);
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

    /// Draws the line of a dimension. `wall_edge` is where the wall ends to the right, for a line beyond it.
    fn strokes(&mut self, placed: &Placed, spot: &Spot, ink: Colour, wall_edge: Option<f32>) {
        let (line, em) = (self.projection.line, self.projection.em);
        let point = |along: f32, across: f32| if placed.upright { (across, along) } else { (along, across) };
        let wall_ink = self.on_wall.quiet;
        // Level and upright strokes lie on whole pixels.
        let mut stroke = |from: (f32, f32), to: (f32, f32), width: f32, ink: Colour| {
            let (x, y) = (from.0.min(to.0), from.1.min(to.1));
            let (across, down) = ((to.0 - from.0).abs(), (to.1 - from.1).abs());
            let area = if across > down { [x, y, across, width] } else { [x, y, width, down] };
            self.fill(area, ink);
        };
        // Extension lines start a little off the object and end a little past the line.
        for (along, object) in [placed.from, placed.to].into_iter().zip(placed.objects) {
            let away = if placed.at > object { 1.0 } else { -1.0 };
            let (start, end) = (object + away * em * 0.25, placed.at + away * em * 0.3);
            // As far as one runs over the wall it is in an ink for the wall.
            let edge =
                if placed.on_wall { start } else { wall_edge.map_or(start, |edge| edge.max(start).min(end)) };
            if edge > start {
                stroke(point(along, start), point(along, edge), line * 0.6, wall_ink);
            }
            if (end - edge) * away > 0.0 {
                stroke(point(along, edge), point(along, end), line * 0.6, ink);
            }
        }
        // The line itself, with a gap for its figure.
        let (gap_from, gap_to) = match (spot.in_line, placed.upright) {
            (false, _) => (placed.to, placed.to),
            (true, true) => (spot.area.y, spot.area.y + spot.area.height),
            (true, false) => (spot.area.x, spot.area.x + spot.area.width),
        };
        stroke(point(placed.from, placed.at), point(gap_from, placed.at), line, ink);
        if gap_to < placed.to {
            stroke(point(gap_to, placed.at), point(placed.to, placed.at), line, ink);
        }
        let tick = em * 0.3;
        for along in [placed.from, placed.to] {
            let (x, y) = point(along, placed.at);
            let middle = (x + line / 2.0, y + line / 2.0);
            self.touched.push(self.lettering.tick(self.canvas, tick, middle, ink));
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
