//! The places that a dimension line and its figure may take, the best first.
//!
//! In this order: the figure in a gap of its line, or close by it; beyond the ends of its line, or in a gap of a line that
//! stands further off; away from its line at the end of a leader.

use super::super::lettering;
use super::super::pixel_rect::PixelRect;
use super::super::projection::{LANE_EM, Projection};
use crate::length::Length;
use crate::scene::{Dimension, Lane, Scene};

/// A dimension line in device pixels: along x, or along y when it is upright.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    pub(super) upright: bool,
    pub(super) from: f32,
    /// Greater than `from`: further right, or further down.
    pub(super) to: f32,
    /// The coordinate of the line across its direction.
    pub(super) at: f32,
    /// Where the extension lines at `from` and at `to` start.
    objects: [f32; 2],
    /// Which way leads off the objects, across the line: 1 or -1.
    off: f32,
    pub(super) on_wall: bool,
}

/// The strokes of a run.
pub(super) struct Strokes {
    /// The line, in one or two parts.
    pub(super) line: Vec<PixelRect>,
    pub(super) extensions: Vec<PixelRect>,
    /// The middles of its ticks.
    pub(super) ticks: [(f32, f32); 2],
}

/// A place for a line with its figure.
pub(super) struct LinePlace {
    /// How far from the best this is; of two in one tier the earlier is better.
    pub(super) tier: u8,
    pub(super) run: Run,
    /// The box of the figure.
    pub(super) area: PixelRect,
    /// Whether the figure reads upwards.
    pub(super) upright: bool,
    /// Which of the forms of the figure it is.
    pub(super) form: usize,
    /// Whether the line has a gap for it.
    pub(super) in_gap: bool,
    pub(super) leader: Option<PixelRect>,
}

impl Run {
    /// Where the line of a dimension is at best.
    pub(super) fn best(line: &Dimension, scene: &Scene, p: Projection) -> Self {
        Self::of(line, (line.lane, line.objects), scene, p)
    }

    /// The same at the other side of its objects.
    pub(super) fn other(line: &Dimension, scene: &Scene, p: Projection) -> Option<Self> {
        line.other.map(|other| Self::of(line, other, scene, p))
    }

    fn of(line: &Dimension, (lane_of, objects): (Lane, [Length; 2]), scene: &Scene, p: Projection) -> Self {
        let lane = |number: u8| p.em * LANE_EM * (f32::from(number) + 0.72);
        let near = p.em * 0.85;
        let below = p.floor + p.floor_strip;
        let (upright, at, off, on_wall) = match lane_of {
            Lane::Above(number) => (false, p.y(scene.wall.size.height) - lane(number), -1.0, false),
            Lane::Below(number) => (false, below + lane(number), 1.0, false),
            Lane::Left(number) => (true, p.x(Length::ZERO) - lane(number), -1.0, false),
            Lane::Right(number) => (true, p.x(scene.wall.size.width) + lane(number), 1.0, false),
            Lane::Over(y) => (false, p.y(y) - near, -1.0, true),
            Lane::Under(y) => (false, p.y(y) + near, 1.0, true),
            Lane::Beside(x) => (true, p.x(x) + near * 1.5, 1.0, true),
            Lane::BesideLeft(x) => (true, p.x(x) - near * 1.5, -1.0, true),
        };
        let [first, last] = objects.map(|object| match lane_of {
            Lane::Below(_) => below,
            Lane::Above(_) | Lane::Over(_) | Lane::Under(_) => p.y(object),
            _ => p.x(object),
        });
        let run = |from: f32, to: f32, objects| Self { upright, from, to, at, objects, off, on_wall };
        if upright {
            // The pixels of an upright line run down, from its upper end.
            run(p.y(line.to), p.y(line.from), [last, first])
        } else {
            run(p.x(line.from), p.x(line.to), [first, last])
        }
    }

    /// The same line, so much further off its objects.
    fn further(self, by: f32) -> Self {
        Self { at: self.at + self.off * by, ..self }
    }

    /// Its strokes, with a gap from one place along it to another.
    pub(super) fn strokes(&self, gap: Option<[f32; 2]>, p: Projection) -> Strokes {
        let end = self.to.round() + p.line;
        let line = match gap {
            None => vec![self.stroke(self.from, end, self.at, p.line)],
            Some([from, to]) => vec![
                self.stroke(self.from, from.max(self.from.round()), self.at, p.line),
                self.stroke(to.min(end), end, self.at, p.line),
            ],
        };
        let thin = (p.line * 0.6).round().max(1.0);
        // Extension lines start a little off the object and end a little past the line.
        let extension = |(along, object): (f32, f32)| {
            let away = if self.at > object { 1.0 } else { -1.0 };
            let (start, end) = (object + away * p.em * 0.25, self.at + away * p.em * 0.3);
            let (low, high) = if away > 0.0 { (start, end) } else { (end, start) };
            self.across(along, low, high.max(low), thin)
        };
        Strokes {
            line: line.into_iter().filter(|area| !area.is_empty()).collect(),
            extensions: [self.from, self.to]
                .into_iter()
                .zip(self.objects)
                .map(extension)
                .filter(|area| !area.is_empty())
                .collect(),
            ticks: [self.from, self.to].map(|along| {
                let (along, at) = (along.round() + p.line / 2.0, self.at.round() + p.line / 2.0);
                if self.upright { (at, along) } else { (along, at) }
            }),
        }
    }

    /// A stroke along the line's direction, on whole pixels.
    fn stroke(&self, from: f32, to: f32, at: f32, thick: f32) -> PixelRect {
        let (from, to, at, thick) = (from.round(), to.round(), at.round(), thick.round().max(1.0));
        let long = (to - from).max(0.0);
        if self.upright {
            PixelRect::from_xywh(at, from, thick, long)
        } else {
            PixelRect::from_xywh(from, at, long, thick)
        }
    }

    /// A stroke across it.
    fn across(&self, along: f32, from: f32, to: f32, thick: f32) -> PixelRect {
        Self { upright: !self.upright, ..*self }.stroke(from, to, along, thick)
    }

    /// The part of the line that a box lies over.
    pub(super) fn span_of(&self, area: PixelRect) -> [f32; 2] {
        if self.upright { [area.top, area.bottom] } else { [area.left, area.right] }
    }
}

/// A box of this size about a middle, on whole pixels.
pub(super) fn about((x, y): (f32, f32), width: f32, height: f32) -> PixelRect {
    let (width, height) = (width.ceil(), height.ceil());
    PixelRect::from_xywh((x - width / 2.0).round(), (y - height / 2.0).round(), width, height)
}

/// Gathers the places of one dimension.
pub(super) struct Choices {
    p: Projection,
    em: f32,
    /// Room that a tick takes along its line.
    tick: f32,
    /// The length of each form of the figure, with room at its ends.
    lengths: Vec<f32>,
    tall: f32,
    pub(super) found: Vec<LinePlace>,
}

/// Where along the free part of a line its figure may stand: in the middle, or nearer to an end.
const SLIDES: [f32; 7] = [0.0, -0.35, 0.35, -0.7, 0.7, -1.0, 1.0];

/// The places of a dimension, the best of each tier first.
pub(super) fn choices(
    run: Run,
    other: Option<Run>,
    forms: &[String],
    em: f32,
    reach: f32,
    p: Projection,
) -> Vec<LinePlace> {
    let lengths = forms.iter().map(|form| (lettering::length(form, em) + em * 0.6).ceil()).collect();
    let tick = reach * 1.17 + em * 0.12;
    let mut choices = Choices { p, em, tick, lengths, tall: (em * 1.15).ceil(), found: Vec::new() };
    for (run, later) in [(Some(run), 0), (other, 1)] {
        let Some(run) = run else { continue };
        let before = choices.found.len();
        if run.upright {
            choices.upright(run);
        } else {
            choices.level(run);
        }
        choices.found[before..].iter_mut().for_each(|choice| choice.tier = (choice.tier + later).min(2));
    }
    choices.found
}

impl Choices {
    fn add(&mut self, tier: u8, run: Run, form: usize, area: PixelRect, upright: bool) {
        self.found.push(LinePlace { tier, run, area, upright, form, in_gap: false, leader: None });
    }

    /// In a gap of the line.
    fn in_gap(&mut self, tier: u8, run: Run, form: usize, upright: bool) {
        let (width, height) = self.size(form, upright);
        let long = if run.upright { height } else { width };
        let slack = run.to - run.from - long - self.tick * 2.0;
        if slack < 0.0 {
            return;
        }
        for slide in SLIDES {
            let along = f32::midpoint(run.from, run.to) + slide * slack / 2.0;
            let at = run.at.round() + self.p.line / 2.0;
            let middle = if run.upright { (at, along) } else { (along, at) };
            let area = about(middle, width, height);
            self.found.push(LinePlace { tier, run, area, upright, form, in_gap: true, leader: None });
            if slack < self.em {
                return;
            }
        }
    }

    fn size(&self, form: usize, upright: bool) -> (f32, f32) {
        let length = self.lengths[form];
        if upright { (self.tall, length) } else { (length, self.tall) }
    }

    fn level(&mut self, run: Run) {
        let em = self.em;
        let (forms, last) = (0..self.lengths.len(), self.lengths.len() - 1);
        for form in forms.clone() {
            self.in_gap(0, run, form, false);
        }
        for form in forms.clone() {
            self.lifted(0, run, form);
        }
        self.beyond(1, run, last, false);
        if run.on_wall {
            for further in [1.5, 3.0].map(|by| run.further(by * em)) {
                for form in forms.clone() {
                    self.in_gap(1, further, form, false);
                }
                self.lifted(1, further, last);
                self.beyond(1, further, last, false);
            }
        }
        for step in 1..=4_u8 {
            self.at_a_leader(run, last, f32::from(step) * 1.3 * em, run.off);
        }
        if run.on_wall {
            return;
        }
        for step in 0..=2_u8 {
            self.at_a_leader(run, last, f32::from(step) * 1.3 * em, -run.off);
        }
    }

    /// Just off a level line, over its middle.
    fn lifted(&mut self, tier: u8, run: Run, form: usize) {
        let (width, tall) = self.size(form, false);
        let away = tall / 2.0 + (self.em * 0.4).max(self.tick);
        let middle = f32::midpoint(run.from, run.to);
        for shift in [0.0, width / 2.0 - self.em * 0.6, self.em * 0.6 - width / 2.0] {
            let area = about((middle + shift, run.at + run.off * away), width, tall);
            self.add(tier, run, form, area, false);
        }
    }

    /// Beyond the ends of its line.
    fn beyond(&mut self, tier: u8, run: Run, form: usize, upright: bool) {
        let (width, height) = self.size(form, upright);
        let at = run.at.round() + self.p.line / 2.0;
        let away = self.tick + self.em * 0.2;
        if run.upright {
            for along in [run.from - away - height / 2.0, run.to + self.p.line + away + height / 2.0] {
                self.add(tier, run, form, about((at, along), width, height), upright);
            }
        } else {
            for along in [run.to + self.p.line + away + width / 2.0, run.from - away - width / 2.0] {
                self.add(tier, run, form, about((along, at), width, height), upright);
            }
        }
    }

    /// Away from the line, to one side of it, with a leader from the middle of the line.
    fn at_a_leader(&mut self, run: Run, form: usize, away: f32, side: f32) {
        let (width, tall) = self.size(form, false);
        let middle = f32::midpoint(run.from, run.to);
        let (half, long) = if run.upright { (width / 2.0, tall) } else { (tall / 2.0, width) };
        let distance = (self.em * 0.4).max(self.tick) + away + half;
        let most = (long / 2.0 - self.em * 0.3).max(0.0);
        for shift in [0.0, most, -most] {
            let (along, at) = (middle + shift, run.at + side * distance);
            let area = about(if run.upright { (at, along) } else { (along, at) }, width, tall);
            let (low, high) = if run.upright { (area.left, area.right) } else { (area.top, area.bottom) };
            let (from, to) =
                if side > 0.0 { (run.at.round() + self.p.line, low) } else { (high, run.at.round()) };
            let leader = run.across(middle, from, to, (self.p.line * 0.6).round());
            self.found.push(LinePlace {
                tier: 2,
                run,
                area,
                upright: false,
                form,
                in_gap: false,
                leader: Some(leader),
            });
        }
    }

    fn upright(&mut self, run: Run) {
        let em = self.em;
        let (forms, last) = (0..self.lengths.len(), self.lengths.len() - 1);
        for form in forms.clone() {
            // On the wall figures stand level where the line can be far enough from its object; off it they read upwards.
            let more = self.lengths[form] / 2.0 + em * 0.3 - self.p.em * 1.27;
            if run.on_wall && more < em * 1.3 {
                self.in_gap(0, run.further(more.max(0.0)), form, false);
            }
            self.in_gap(0, run, form, true);
        }
        if run.on_wall {
            for form in forms.clone() {
                for side in [run.off, -run.off] {
                    self.beside(0, run, form, side);
                }
            }
        }
        self.beyond(1, run, last, true);
        if run.on_wall {
            self.beyond(1, run, last, false);
            for further in [1.6, 3.2].map(|by| run.further(by * em)) {
                self.in_gap(1, further, last, false);
                self.in_gap(1, further, last, true);
                self.beside(1, further, last, run.off);
                self.beyond(1, further, last, false);
            }
        }
        for step in 1..=4_u8 {
            for side in [run.off, -run.off] {
                self.at_a_leader(run, last, f32::from(step) * 1.3 * em, side);
            }
        }
    }

    /// Level, beside the middle of an upright line.
    fn beside(&mut self, tier: u8, run: Run, form: usize, side: f32) {
        let (width, tall) = self.size(form, false);
        let away = (self.em * 0.4).max(self.tick) + width / 2.0;
        let area =
            about((run.at + self.p.line / 2.0 + side * away, f32::midpoint(run.from, run.to)), width, tall);
        self.add(tier, run, form, area, false);
    }
}
