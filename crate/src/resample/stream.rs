//! Scaling while rows come in, for files: what is held at any time are the rows under the filter.

use super::{RasterPart, Taps};
use std::ops::Range;
use wide::f32x4;

/// Red, green and blue in linear light, and a fourth place that makes a pixel as wide as a register.
pub type Light = [f32; 4];

/// A part of a picture on its way to another size: rows of the picture go in from the top down, rows of the result come out.
///
/// First the rows that a row of the result is made of are summed, which runs along memory; then that one row is narrowed.
pub struct Stream {
    across: Taps,
    down: Taps,
    columns: Range<usize>,
    /// Place `row % len` holds a row.
    held: Vec<Vec<Light>>,
    sum: Vec<Light>,
    result: Vec<Light>,
    /// The row of the picture that comes next, and the row of the result.
    next: usize,
    due: usize,
}

impl Stream {
    /// Scales a part of a picture of `source_px`, width first, to `result_px`; none of the four is zero.
    #[must_use]
    pub fn new(source_px: (u32, u32), part: RasterPart, result_px: (u32, u32)) -> Self {
        let across = Taps::new(part.left, part.width, source_px.0, result_px.0);
        let down = Taps::new(part.top, part.height, source_px.1, result_px.1);
        let columns = across.reach();
        let next = down.reach().start;
        Self {
            held: vec![vec![[0.0; 4]; columns.len()]; down.count],
            sum: vec![[0.0; 4]; columns.len()],
            result: vec![[0.0; 4]; result_px.0 as usize],
            across,
            down,
            columns,
            next,
            due: 0,
        }
    }

    /// The rows of the picture that are needed. All of them go in, and no others.
    #[must_use]
    pub fn rows(&self) -> Range<usize> {
        self.down.reach()
    }

    /// Takes the next row of those that are needed: `read` writes the columns that it is handed, in linear light. The rows of the
    /// result that this completes go to `finished`.
    pub fn take(
        &mut self,
        read: impl FnOnce(Range<usize>, &mut [Light]),
        finished: &mut dyn FnMut(&[Light]),
    ) {
        let place = self.next % self.held.len();
        read(self.columns.clone(), &mut self.held[place]);
        self.next += 1;
        self.finish_rows(finished);
    }

    fn finish_rows(&mut self, finished: &mut dyn FnMut(&[Light])) {
        while let Some(&first) = self.down.first.get(self.due)
            && first + self.down.count <= self.next
        {
            self.sum.fill([0.0; 4]);
            add_rows(&mut self.sum, first, self.down.weights(self.due), &self.held);
            for (column, light) in self.result.iter_mut().enumerate() {
                let from = self.across.first[column] - self.columns.start;
                *light = weighted(self.across.weights(column), &self.sum[from..]);
            }
            self.due += 1;
            finished(&self.result);
        }
    }
}

/// Adds weighted rows, four at a time so that the sum is loaded and stored less often.
fn add_rows(sum: &mut [Light], first: usize, weights: &[f32], held: &[Vec<Light>]) {
    let row = |index: usize| held[(first + index) % held.len()].iter();
    let (fours, rest) = weights.as_chunks::<4>();
    for (index, &[a, b, c, d]) in fours.iter().enumerate() {
        let row = |offset: usize| row(index * 4 + offset);
        let lights = row(0).zip(row(1)).zip(row(2).zip(row(3)));
        for (sum, ((&one, &two), (&three, &four))) in sum.iter_mut().zip(lights) {
            let [one, two, three, four] = [one, two, three, four].map(f32x4::new);
            *sum = (f32x4::new(*sum) + (one * a + two * b + (three * c + four * d))).to_array();
        }
    }
    for (offset, &weight) in rest.iter().enumerate() {
        for (sum, &light) in sum.iter_mut().zip(row(fours.len() * 4 + offset)) {
            *sum = (f32x4::new(*sum) + f32x4::new(light) * weight).to_array();
        }
    }
}

/// A weighted sum of pixels, as two sums in turn so that one need not wait for the other.
fn weighted(weights: &[f32], pixels: &[Light]) -> Light {
    let (mut one, mut other) = (f32x4::ZERO, f32x4::ZERO);
    let (pairs, rest) = weights.as_chunks::<2>();
    let (pixel_pairs, pixel_rest) = pixels[..weights.len()].as_chunks::<2>();
    for (&[a, b], &[left, right]) in pairs.iter().zip(pixel_pairs) {
        one += f32x4::new(left) * a;
        other += f32x4::new(right) * b;
    }
    for (&weight, &pixel) in rest.iter().zip(pixel_rest) {
        one += f32x4::new(pixel) * weight;
    }
    (one + other).to_array()
}
