//! Where every line and figure goes.
//!
//! What matters more is placed first and keeps its place: what is chosen, then the outside measures, then distances, then the
//! rest ([`Rank`](crate::scene::dimension::Rank)). A figure never lies over a piece, over another figure, over a line, or beyond the sheet; it rather
//! stays clear of furniture too. Extension lines are broken where they meet a figure or a piece. What finds no place is left
//! out with its line.

use super::super::lettering;
use super::super::pixel_rect::PixelRect;
use super::super::projection::{Projection, pixels};
use super::super::sheet::Sheet;
use super::choice::{LinePlace, Run, about, choices};
use super::{Label, Placed, Stroke, Tick};
use crate::colour::Colour;
use crate::geometry::Rect;
use crate::length::Length;
use crate::plan::System;
use crate::scene::{Dimension, Scene, Tone};
use crate::text::typeset;

/// Places all lines of a scene on a sheet. Inks are those of the sheet; what lies behind them is not known here.
#[must_use]
pub fn place(scene: &Scene, sheet: &Sheet, projection: Projection) -> Placed {
    let p = projection;
    let area = |rect: Rect| {
        // All pixels that it touches.
        PixelRect {
            left: p.x(rect.x).floor(),
            top: p.y(rect.top()).floor(),
            right: p.x(rect.right()).ceil(),
            bottom: p.y(rect.y).ceil(),
        }
    };
    let stands =
        scene.fixtures.iter().map(|fixture| fixture.rect).chain(scene.figure.map(|figure| figure.rect));
    let mut board = Board {
        p,
        sheet,
        placed: Placed::default(),
        pieces: scene.pieces.iter().map(|piece| area(piece.outside).grown(1.0)).collect(),
        furniture: stands.map(area).collect(),
        expected: Vec::new(),
    };
    board.scale_bar(scene);
    for (index, line) in scene.dimensions.iter().enumerate() {
        let strokes = Run::best(line, scene, p).strokes(None, p);
        board.expected.extend(strokes.line.into_iter().chain(strokes.extensions).map(|area| (index, area)));
    }
    let mut order: Vec<(usize, &Dimension)> = scene.dimensions.iter().enumerate().collect();
    crate::order::sort_by_key(&mut order, |(_, line)| (!board.is_chosen(line), line.rank));
    for (index, line) in order {
        board.dimension(index, line, scene);
    }
    board.note(scene);
    board.centre_line(scene);
    board.eye_level(scene);
    board.placed
}

struct Board<'a> {
    p: Projection,
    sheet: &'a Sheet,
    placed: Placed,
    pieces: Vec<PixelRect>,
    furniture: Vec<PixelRect>,
    /// Where the lines of all dimensions would best be, by their numbers.
    expected: Vec<(usize, PixelRect)>,
}

impl Board<'_> {
    fn is_chosen(&self, line: &Dimension) -> bool {
        line.field.is_some() && line.field == self.sheet.chosen
    }

    fn ink(&self, tone: Tone) -> Colour {
        self.sheet.theme.toned(tone)
    }

    fn stroke(&mut self, area: PixelRect, tone: Tone) {
        let ink = self.ink(tone);
        if !area.is_empty() {
            self.placed.strokes.push(Stroke { area, tone, ink });
        }
    }

    fn tick_reach(&self) -> f32 {
        self.p.em * if self.p.narrow { 0.24 } else { 0.28 }
    }

    fn dimension(&mut self, index: usize, line: &Dimension, scene: &Scene) {
        let run = Run::best(line, scene, self.p);
        let tone = if self.is_chosen(line) { Tone::Red } else { line.tone };
        let em = self.p.em * if run.on_wall { 0.92 } else { 1.0 };
        let worded = |figure: &String| {
            typeset(&if line.prefix.is_empty() {
                figure.clone()
            } else {
                format!("{} {figure}", line.prefix)
            })
        };
        let mut forms = if self.p.narrow { Vec::new() } else { vec![worded(&line.text)] };
        forms.push(worded(&line.short));
        if !line.prefix.is_empty() {
            forms.push(typeset(&line.short));
        }
        forms.dedup();
        let reach = self.tick_reach();
        let choices = choices(run, Run::other(line, scene, self.p), &forms, em, reach, self.p);
        // Rather a little further off than over furniture; rather over furniture than at a leader.
        let order = [(0, true), (1, true), (0, false), (1, false), (2, true), (2, false)];
        let best = order.into_iter().find_map(|(tier, clear)| {
            let mut of_tier = choices.iter().filter(|choice| choice.tier == tier);
            of_tier.find(|choice| self.fits(choice, index, clear))
        });
        let Some(choice) = best else {
            self.placed.left_out.extend(line.field);
            return;
        };
        self.take(choice, tone);
        let ink = self.ink(tone);
        self.placed.labels.push(Label {
            text: forms.swap_remove(choice.form),
            em,
            area: choice.area,
            upright: choice.upright,
            tone,
            on_wall: run.on_wall,
            ink,
            ground: None,
            field: line.field,
        });
    }

    /// Whether a box is on the sheet and over nothing that is placed.
    fn is_free(&self, area: PixelRect) -> bool {
        let (width, height) = (pixels(self.sheet.width_px), pixels(self.sheet.height_px));
        let inside = area.left >= 0.0 && area.top >= 0.0 && area.right <= width && area.bottom <= height;
        inside
            && !self.pieces.iter().any(|&piece| area.overlaps(piece))
            && !self.is_over_label(area, 2.0)
            && !self.placed.strokes.iter().any(|stroke| area.overlaps(stroke.area))
            && !self.placed.ticks.iter().any(|tick| area.overlaps(tick.area()))
    }

    fn is_over_label(&self, area: PixelRect, room: f32) -> bool {
        self.placed.labels.iter().any(|label| area.overlaps(label.area.grown(room)))
    }

    /// Whether a dimension can be placed so; `clear` also of furniture and of lines that are still to come.
    fn fits(&self, choice: &LinePlace, index: usize, clear: bool) -> bool {
        if !self.is_free(choice.area) {
            return false;
        }
        let run = &choice.run;
        if clear {
            let others = self.expected.iter().filter(|(known, _)| *known != index).map(|&(_, area)| area);
            if self.furniture.iter().copied().chain(others).any(|area| choice.area.overlaps(area)) {
                return false;
            }
            // What belongs beside the wall does not wander onto it.
            let wall_floor = self.p.floor + self.p.floor_strip;
            if !run.on_wall && !run.upright && overlap_level(choice.area, run.at, wall_floor) {
                return false;
            }
        }
        let strokes = run.strokes(choice.in_gap.then(|| run.span_of(choice.area)), self.p);
        if clear && run.on_wall {
            // A line may end on the edge of what it measures from.
            let inner = self.furniture.iter().map(|&stands| stands.grown(-self.p.line * 2.0));
            if inner.into_iter().any(|stands| strokes.line.iter().any(|&area| area.overlaps(stands))) {
                return false;
            }
        }
        let in_the_way = |&area: &PixelRect| {
            self.is_over_label(area, 1.0)
                || run.on_wall && self.pieces.iter().any(|&piece| area.overlaps(piece))
        };
        let line_is_free = !strokes.line.iter().chain(&choice.leader).any(in_the_way);
        let ticks = strokes.ticks.map(|middle| self.tick(middle, Tone::Ink).area());
        let mut own = strokes.line.iter().chain(&strokes.extensions).chain(&ticks);
        line_is_free
            && !own.any(|&area| area.overlaps(choice.area))
            && !ticks.iter().any(|&tick| self.is_over_label(tick, 0.0))
    }

    fn tick(&self, middle: (f32, f32), tone: Tone) -> Tick {
        Tick { middle, reach: self.tick_reach(), tone, ink: self.ink(tone), ground: None }
    }

    /// Lays the strokes of a dimension.
    fn take(&mut self, choice: &LinePlace, tone: Tone) {
        let run = &choice.run;
        let strokes = run.strokes(choice.in_gap.then(|| run.span_of(choice.area)), self.p);
        for area in strokes.line.into_iter().chain(strokes.extensions).chain(choice.leader) {
            for part in self.broken(area) {
                self.stroke(part, tone);
            }
        }
        for middle in strokes.ticks {
            if self.pieces.iter().any(|&piece| piece.overlaps(self.tick(middle, tone).area())) && !run.on_wall
            {
                continue;
            }
            let tick = self.tick(middle, tone);
            self.placed.ticks.push(tick);
        }
    }

    /// What is left of a stroke where it meets no figure and no piece.
    fn broken(&self, area: PixelRect) -> Vec<PixelRect> {
        let labels = self.placed.labels.iter().map(|label| label.area.grown(self.p.line));
        let mut parts = vec![area];
        for by in labels.chain(self.pieces.iter().copied()) {
            parts = parts.into_iter().flat_map(|part| without(part, by)).collect();
        }
        parts
    }

    /// A bar of one round length, divided in the middle, at the lower left.
    fn scale_bar(&mut self, scene: &Scene) {
        let p = self.p;
        if p.low {
            return;
        }
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
        let (left, long) = (p.x(Length::ZERO).round(), p.length(length).round());
        let (thick, line) = ((p.em * 0.36).round().max(3.0), p.line.round());
        let top = self.bar_line() - (thick / 2.0).floor();
        let (label, em) = (typeset(name), p.em * 0.9);
        let width = lettering::length(&label, em) + em * 0.6;
        let area = about((left + long + p.em * 0.2 + width / 2.0, top + thick / 2.0), width, em * 1.15);
        if !self.is_free(area) || left < 0.0 {
            return;
        }
        let half = (long / 2.0).round();
        for [x, y, width, height] in [
            [left, top, half, thick],
            [left + half, top, long - half, line],
            [left + half, top + thick - line, long - half, line],
            [left + long - line, top + line, line, thick - line * 2.0],
        ] {
            self.stroke(PixelRect::from_xywh(x, y, width, height), Tone::Ink);
        }
        self.word(label, em, area, Tone::Ink, false);
    }

    /// How high the middle of the scale bar is.
    fn bar_line(&self) -> f32 {
        (pixels(self.sheet.height_px) - self.p.em * 0.85).round()
    }

    fn word(&mut self, text: String, em: f32, area: PixelRect, tone: Tone, on_wall: bool) {
        let ink = self.ink(tone);
        self.placed.labels.push(Label {
            text,
            em,
            area,
            upright: false,
            tone,
            on_wall,
            ink,
            ground: None,
            field: None,
        });
    }

    /// That figures are rounded, at the lower right; where there is no room for the sentence, in two words.
    fn note(&mut self, scene: &Scene) {
        if !scene.dimensions.iter().any(|line| line.rounded) {
            return;
        }
        let notes = match scene.system {
            System::Inches => ["some figures are rounded to 1/16\"", "some to 1/16\""],
            System::Centimetres => ["some figures are rounded to 1 mm", "some to 1 mm"],
        };
        let em = self.p.em * 0.9;
        for note in notes.map(typeset) {
            let width = lettering::length(&note, em) + em * 0.6;
            let right = self.p.x(scene.wall.size.width).min(pixels(self.sheet.width_px));
            let area = about((right - width / 2.0, self.bar_line()), width, em * 1.15);
            if self.is_free(area) {
                return self.word(note, em, area, Tone::Quiet, false);
            }
        }
    }

    /// The middle of the group, from the ceiling down to it or to the first thing in its way.
    fn centre_line(&mut self, scene: &Scene) {
        let p = self.p;
        let (x, top) = (p.x(scene.centre_line).round(), p.y(scene.wall.size.height));
        let end = p.y(scene.group.top()) - p.em * 0.7;
        let way = PixelRect::from_xywh(x - p.em * 0.3, top + p.line * 2.0, p.em * 0.6, end - top);
        let end = self.in_the_way(way).map(|area| area.top - p.em * 0.45).fold(end, f32::min);
        if end - top > p.em * 2.0 {
            self.chain(true, x, [top, end]);
        }
    }

    /// The eye level, from the left corner to the first thing in its way, named over the line or under it.
    fn eye_level(&mut self, scene: &Scene) {
        let p = self.p;
        let (y, left) = (p.y(scene.eye_level).round(), p.x(Length::ZERO));
        let end = (p.x(scene.group.x) - p.em).min(left + p.em * 14.0);
        let way = PixelRect::from_xywh(left + p.line * 2.0, y - p.em * 0.3, end - left, p.em * 0.6);
        let end = self.in_the_way(way).map(|area| area.left - p.em * 0.6).fold(end, f32::min);
        let em = p.em * 0.92;
        let (width, tall) = (lettering::length("eye level", em) + em * 0.6, (em * 1.15).ceil());
        if end - left < width || scene.eye_level >= scene.wall.size.height {
            return;
        }
        for middle in [y - tall / 2.0 - p.line, y + tall / 2.0 + p.line * 3.0] {
            let area = about((left + p.em * 0.2 + width / 2.0, middle), width, tall);
            if self.is_free(area) && !self.furniture.iter().any(|&stands| area.overlaps(stands)) {
                self.chain(false, y, [left, end]);
                return self.word("eye level".to_owned(), em, area, Tone::Red, true);
            }
        }
    }

    /// All that is placed, the pieces and the furniture, as far as it lies in an area.
    fn in_the_way(&self, way: PixelRect) -> impl Iterator<Item = PixelRect> {
        let labels = self.placed.labels.iter().map(|label| label.area);
        let strokes = self.placed.strokes.iter().map(|stroke| stroke.area);
        let all = labels.chain(strokes).chain(self.pieces.iter().chain(&self.furniture).copied());
        all.filter(move |&area| area.overlaps(way))
    }

    /// A chain line: long and short strokes in turn, upright or level.
    fn chain(&mut self, upright: bool, at: f32, [from, to]: [f32; 2]) {
        let (dash, line) = (self.p.em * 0.5, self.p.line.round());
        // Only what is on the sheet: a wall can be far larger than it.
        let most = pixels(if upright { self.sheet.height_px } else { self.sheet.width_px });
        let (mut along, to) = (from.max(0.0), to.min(most));
        for length in [dash * 1.2, dash * 0.2].into_iter().cycle() {
            if along >= to {
                return;
            }
            let (start, long) = (along.round(), length.min(to - along).round().max(1.0));
            let area = if upright {
                PixelRect::from_xywh(at, start, line, long)
            } else {
                PixelRect::from_xywh(start, at, long, line)
            };
            self.stroke(area, Tone::Red);
            along += length + dash * 0.45;
        }
    }
}

/// Whether a box beside a level lane reaches back over the room: above the line of a lane over the wall it does not.
fn overlap_level(area: PixelRect, at: f32, floor: f32) -> bool {
    at >= floor && area.top < floor
}

/// The parts of a level or upright stroke that are not in an area.
fn without(stroke: PixelRect, by: PixelRect) -> Vec<PixelRect> {
    if !stroke.overlaps(by) {
        return vec![stroke];
    }
    let parts = if stroke.height() > stroke.width() {
        [PixelRect { bottom: by.top.floor(), ..stroke }, PixelRect { top: by.bottom.ceil(), ..stroke }]
    } else {
        [PixelRect { right: by.left.floor(), ..stroke }, PixelRect { left: by.right.ceil(), ..stroke }]
    };
    parts.into_iter().filter(|part| !part.is_empty()).collect()
}
