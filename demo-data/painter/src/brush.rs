//! The brush and the canvas: a stroke of bristles, laid wet over what is there, and the light on the finished paint.

use crate::chance::noise;
use crate::colour::{Colour, byte, index, mix, step};
use crate::study::Place;

/// One stroke.
#[derive(Clone, Debug)]
pub(crate) struct Stroke {
    /// Where the brush is set down.
    pub(crate) from: Place,
    /// Where it is lifted.
    pub(crate) to: Place,
    /// How far the middle of the stroke lies aside from the straight line, to the right of the way.
    pub(crate) bend: f32,
    /// Half the breadth of the brush.
    pub(crate) half_width: f32,
    /// The paint on one side of the brush.
    pub(crate) colour: Colour,
    /// The paint on its other side.
    pub(crate) second: Colour,
    /// How much paint is on it: 0 dry, 1 full.
    pub(crate) load: f32,
    /// How thickly it lies.
    pub(crate) body: f32,
    /// What makes its bristles differ from those of other strokes.
    pub(crate) seed: u64,
}

/// The finest bristle, in units in which the picture's area is 1.
const BRISTLE: f32 = 0.0021;
/// The pitch of the canvas's threads, likewise.
const THREAD: f32 = 0.0032;

/// The canvas.
pub(crate) struct Canvas {
    /// Columns of pixels.
    pub(crate) columns: usize,
    /// Rows of pixels.
    pub(crate) rows: usize,
    scale: f32,
    colours: Vec<Colour>,
    heights: Vec<f32>,
}

impl Canvas {
    /// A primed canvas, `columns` pixels to `width`, washed over in the colour of `ground`.
    pub(crate) fn new(width: f32, height: f32, columns: usize, ground: Colour, seed: u64) -> Self {
        let scale = columns as f32 / width;
        let rows = index((height * scale).round());
        let (mut colours, mut heights) = (Vec::new(), Vec::new());
        for row in 0..rows {
            for column in 0..columns {
                let (x, y) = (column as f32 / scale, row as f32 / scale);
                let wash = noise(x * 9.0, y * 6.0, seed) * 0.6 + noise(x * 60.0, y * 22.0, seed) * 0.4;
                colours.push(ground.map(|part| part + (wash - 0.5) * 0.10));
                heights.push(0.0);
            }
        }
        Self { columns, rows, scale, colours, heights }
    }

    /// Lays one stroke.
    pub(crate) fn lay(&mut self, stroke: &Stroke) {
        let [dx, dy] = [stroke.to[0] - stroke.from[0], stroke.to[1] - stroke.from[1]];
        let length = (dx * dx + dy * dy).sqrt().max(1e-6);
        let (ax, ay) = (dx / length, dy / length);
        let margin = stroke.half_width * 1.3 + stroke.bend.abs();
        let range = |a: f32, b: f32, count: usize| {
            let low = index(((a.min(b) - margin) * self.scale).max(0.0));
            low..index(((a.max(b) + margin) * self.scale + 1.0).max(0.0)).min(count)
        };
        let columns = range(stroke.from[0], stroke.to[0], self.columns);
        let bristles = stroke.half_width / BRISTLE;
        for row in range(stroke.from[1], stroke.to[1], self.rows) {
            for column in columns.clone() {
                let (x, y) = ((column as f32 + 0.5) / self.scale, (row as f32 + 0.5) / self.scale);
                let (px, py) = (x - stroke.from[0], y - stroke.from[1]);
                let along = (px * ax + py * ay) / length;
                if !(-0.05..=1.05).contains(&along) {
                    continue;
                }
                let aside = py * ax - px * ay - stroke.bend * 4.0 * along * (1.0 - along);
                let across = aside / (stroke.half_width * (1.0 - 0.3 * step(0.5, 1.0, along)));
                if across.abs() > 1.25 {
                    continue;
                }
                let mark = Mark { along, across, slenderness: length / stroke.half_width, bristles };
                let tooth = tooth(x, y);
                let (cover, streak) = mark.cover(stroke, tooth);
                if cover > 0.003 {
                    self.touch(row * self.columns + column, stroke, &mark, cover, streak);
                }
            }
        }
    }

    fn touch(&mut self, cell: usize, stroke: &Stroke, mark: &Mark, cover: f32, streak: f32) {
        let side = step(0.25, 0.75, 0.5 + 0.4 * mark.across + 0.7 * (streak - 0.5));
        let paint = mix(stroke.colour, stroke.second, side).map(|part| part + (streak - 0.5) * 0.05);
        self.colours[cell] = mix(self.colours[cell], paint, cover);
        // Paint is pushed to the sides of the brush.
        let ridge = 0.5 * step(0.5, 0.85, mark.across.abs());
        let height = stroke.body * (0.3 + 0.7 * streak + ridge);
        self.heights[cell] += (self.heights[cell] * 0.35 + height - self.heights[cell]) * cover;
    }

    /// The finished painting under a light from the upper left, as rows of red, green and blue bytes, each of them the
    /// mean of `shrink` by `shrink` pixels.
    pub(crate) fn lit(&self, shrink: usize) -> Vec<u8> {
        let (columns, rows) = (self.columns / shrink, self.rows / shrink);
        let mut bytes = Vec::with_capacity(columns * rows * 3);
        for row in 0..rows {
            for column in 0..columns {
                let mut sum = [0.0; 3];
                for inner in 0..shrink * shrink {
                    let colour =
                        self.lit_pixel(column * shrink + inner % shrink, row * shrink + inner / shrink);
                    sum = [0, 1, 2].map(|i| sum[i] + colour[i]);
                }
                bytes.extend(sum.map(|part| byte(part / (shrink * shrink) as f32)));
            }
        }
        bytes
    }

    fn lit_pixel(&self, column: usize, row: usize) -> Colour {
        let reach = index(self.scale * 0.0011).max(1);
        let height = |column: usize, row: usize| {
            let (column, row) = (column.min(self.columns - 1), row.min(self.rows - 1));
            let (x, y) = (column as f32 / self.scale, row as f32 / self.scale);
            let paint = self.heights[row * self.columns + column];
            paint + 0.22 * tooth(x, y) * (1.0 - 0.6 * paint.min(1.0))
        };
        let before = height(column.saturating_sub(reach), row.saturating_sub(reach));
        let slope = height(column + reach, row + reach) - before;
        let light = (slope * 0.13).clamp(-0.09, 0.09);
        self.colours[row * self.columns + column].map(|part| part * (1.0 + light) + light * 0.12)
    }
}

/// The height of the weave at a place, from 0 to 1.
fn tooth(x: f32, y: f32) -> f32 {
    let (warp, weft) = (noise(x / THREAD, y / (THREAD * 4.0), 71), noise(x / (THREAD * 4.0), y / THREAD, 72));
    0.5 * (warp + weft)
}

/// A place within a stroke.
struct Mark {
    /// 0 where the brush is set down, 1 where it is lifted.
    along: f32,
    /// -1 to 1 from side to side.
    across: f32,
    /// Length in half widths.
    slenderness: f32,
    /// Bristles in half the width.
    bristles: f32,
}

impl Mark {
    /// How much of what was there is covered, and how heavy the bristle here is.
    fn cover(&self, stroke: &Stroke, tooth: f32) -> (f32, f32) {
        let way = self.along * self.slenderness;
        let coarse = noise(self.across * self.bristles, way * 0.22, stroke.seed);
        let fine = noise(self.across * self.bristles * 2.4, way * 0.5, stroke.seed ^ 1);
        let streak = 0.6 * coarse + 0.4 * fine;
        let side = 1.0 - step(0.66, 1.0, self.across.abs() + (streak - 0.5) * 0.5);
        let round = self.across * self.across;
        let set_down = step(0.0, 0.7, way + (streak - 0.6) * 1.2 - 0.5 * round);
        let lifted =
            step(0.0, 1.2, (1.0 - self.along) * self.slenderness - (1.0 - streak) * 1.6 - 0.4 * round);
        let wet = stroke.load * (1.0 - 0.6 * self.along * self.along);
        let held = step(0.0, 0.3, wet * 1.25 - 0.62 + 0.75 * streak + 0.35 * (tooth - 0.5));
        (side * set_down * lifted * held, streak)
    }
}
