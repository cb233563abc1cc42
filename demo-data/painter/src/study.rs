//! The study: what the painter sees, before the first stroke.
//!
//! A colour and a direction for each point, at one size whatever the size of the painting, so that the strokes made
//! after it are the same at every size. Nothing of the study itself is seen: only strokes are.
//!
//! Places are in units in which the picture's area is 1, x to the right and y down from the upper left corner.

use crate::colour::{Colour, index, mix};
use tiny_skia::{FillRule, Mask, PathBuilder, Transform};

/// A place in the picture.
pub(crate) type Place = [f32; 2];

/// What the painter sees.
#[derive(Clone)]
pub(crate) struct Study {
    /// Width of the picture.
    pub(crate) width: f32,
    /// Height of the picture.
    pub(crate) height: f32,
    columns: usize,
    rows: usize,
    scale: f32,
    colours: Vec<Colour>,
    directions: Vec<f32>,
}

impl Study {
    /// A picture `ratio` times as wide as high, with the colour and the direction (an angle from the x axis) that
    /// `seen` gives for shares of the width and of the height.
    pub(crate) fn new(ratio: f32, seen: impl Fn(f32, f32) -> (Colour, f32)) -> Self {
        let (width, height, scale) = (ratio.sqrt(), 1.0 / ratio.sqrt(), 1000.0);
        let (columns, rows) = (index((width * scale).ceil()), index((height * scale).ceil()));
        let (mut colours, mut directions) = (Vec::new(), Vec::new());
        for row in 0..rows {
            for column in 0..columns {
                let (colour, direction) =
                    seen((column as f32 + 0.5) / columns as f32, (row as f32 + 0.5) / rows as f32);
                colours.push(colour);
                directions.push(direction);
            }
        }
        Self { width, height, columns, rows, scale, colours, directions }
    }

    fn cell(&self, [x, y]: Place) -> usize {
        let column = index(x * self.scale).min(self.columns - 1);
        let row = index(y * self.scale).min(self.rows - 1);
        row * self.columns + column
    }

    /// The colour at a place; beyond the edges, that of the edge.
    pub(crate) fn colour(&self, place: Place) -> Colour {
        self.colours[self.cell(place)]
    }

    /// The direction at a place.
    pub(crate) fn direction(&self, place: Place) -> f32 {
        self.directions[self.cell(place)]
    }

    /// The direction in which the colour changes least, and how fast it changes across, in colour per unit.
    pub(crate) fn grain(&self, place: Place, reach: f32) -> (f32, f32) {
        let luma = |x: f32, y: f32| {
            let [r, g, b] = self.colour([x, y]);
            0.3 * r + 0.55 * g + 0.15 * b
        };
        let [x, y] = place;
        let across = (luma(x + reach, y) - luma(x - reach, y)) / (2.0 * reach);
        let down = (luma(x, y + reach) - luma(x, y - reach)) / (2.0 * reach);
        (libm::atan2f(across, -down), (across * across + down * down).sqrt())
    }

    /// Lays a closed shape over the study. `colour` is given the place and the colour that was there; strokes on the
    /// shape run in `direction`, if one is given.
    pub(crate) fn lay(
        &mut self,
        outline: &[Place],
        is_round: bool,
        direction: Option<f32>,
        colour: impl Fn(Place, Colour) -> Colour,
    ) {
        let Some(mask) = self.mask(outline, is_round) else { return };
        for (cell, cover) in mask.data().iter().enumerate().filter(|(_, cover)| **cover > 0) {
            let place = [
                ((cell % self.columns) as f32 + 0.5) / self.scale,
                ((cell / self.columns) as f32 + 0.5) / self.scale,
            ];
            let under = self.colours[cell];
            self.colours[cell] = mix(under, colour(place, under), f32::from(*cover) / 255.0);
            if let (Some(direction), 128..) = (direction, *cover) {
                self.directions[cell] = direction;
            }
        }
    }

    fn mask(&self, outline: &[Place], is_round: bool) -> Option<Mask> {
        let points: Vec<Place> = outline.iter().map(|place| place.map(|along| along * self.scale)).collect();
        let half_way = |a: Place, b: Place| [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0];
        let mut path = PathBuilder::new();
        for (at, &point) in points.iter().enumerate() {
            let next = points[(at + 1) % points.len()];
            let target = if is_round { half_way(point, next) } else { point };
            match (at, is_round) {
                (0, true) => {
                    let start = half_way(points[points.len() - 1], point);
                    path.move_to(start[0], start[1]);
                    path.quad_to(point[0], point[1], target[0], target[1]);
                }
                (0, false) => path.move_to(target[0], target[1]),
                (_, true) => path.quad_to(point[0], point[1], target[0], target[1]),
                (_, false) => path.line_to(target[0], target[1]),
            }
        }
        path.close();
        let mut mask = Mask::new(u32::try_from(self.columns).ok()?, u32::try_from(self.rows).ok()?)?;
        mask.fill_path(&path.finish()?, FillRule::Winding, true, Transform::identity());
        Some(mask)
    }

    /// The same study through half-closed eyes: each colour averaged over about `radius`.
    pub(crate) fn blurred(&self, radius: f32) -> Self {
        let mut study = self.clone();
        let reach = index((radius * self.scale).max(1.0));
        // Two running means come near to a bell.
        for _ in 0..2 {
            for row in 0..self.rows {
                running_mean(&mut study.colours, row * self.columns, 1, self.columns, reach);
            }
            for column in 0..self.columns {
                running_mean(&mut study.colours, column, self.columns, self.rows, reach);
            }
        }
        study
    }
}

/// The mean over `reach` on both sides, along `count` colours from `start` that lie `stride` apart.
fn running_mean(colours: &mut [Colour], start: usize, stride: usize, count: usize, reach: usize) {
    let line: Vec<Colour> = (0..count).map(|at| colours[start + at * stride]).collect();
    let mut sums = vec![[0.0_f64; 3]];
    for colour in &line {
        let last = sums[sums.len() - 1];
        sums.push([0, 1, 2].map(|i| last[i] + f64::from(colour[i])));
    }
    for at in 0..count {
        let (from, to) = (at.saturating_sub(reach), (at + reach + 1).min(count));
        colours[start + at * stride] =
            [0, 1, 2].map(|i| narrow((sums[to][i] - sums[from][i]) / (to - from) as f64));
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a mean of values from 0 to 1")]
fn narrow(value: f64) -> f32 {
    value as f32
}
