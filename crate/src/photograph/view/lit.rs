//! Pieces laid on a photograph: in its light, as soft and as coarse as it is.

use super::super::light::WallLight;
use super::{Area, LATTICE};
use crate::colour::{Encoder, decode_table};
use kurbo::Point;
use wide::f32x4;

/// What lights the pieces.
pub(super) struct Lit<'a> {
    pub(super) light: &'a WallLight,
    pub(super) width: usize,
}

impl Lit<'_> {
    /// Lays what is drawn of the pieces in an area on the photograph, in its light, as soft and as coarse as it is.
    pub(super) fn lay(&self, drawn: &mut [u8], pieces: &[u8], area: &Area) {
        let (table, encoder) = (decode_table(), Encoder::new());
        let (columns, rows) = (area.columns.len(), area.rows.len());
        // Linear light times cover, and cover.
        let mut layer = Vec::with_capacity(columns * rows);
        for y in area.rows.clone() {
            let start = (y * self.width + area.columns.start) * 4;
            for pixel in pieces[start..start + columns * 4].chunks_exact(4) {
                let cover = f32::from(pixel[3]) / 255.0;
                let own = |code: u8| match pixel[3] {
                    0 => 0.0,
                    u8::MAX => table[usize::from(code)],
                    alpha => {
                        table[usize::from(
                            u8::try_from((u16::from(code) * 255 / u16::from(alpha)).min(255)).unwrap_or(255),
                        )] * cover
                    }
                };
                layer.push(f32x4::from([own(pixel[0]), own(pixel[1]), own(pixel[2]), cover]));
            }
        }
        // What is drawn is about half a pixel soft by itself.
        let more = (self.light.softness_px * self.light.softness_px - 0.25).max(0.0).sqrt();
        if more > 0.25 {
            soften(&mut layer, columns, more);
        }
        let coarse: [f32; 256] =
            std::array::from_fn(|code| self.light.grain.at(u8::try_from(code).unwrap_or(255)));
        // The light is even enough to be looked up at every eighth pixel.
        let across = columns.div_ceil(LATTICE) + 1;
        let mut lights: Vec<f32x4> = Vec::new();
        #[expect(clippy::cast_precision_loss, reason = "pixels")]
        let middle = |index: usize| index as f64 + 0.5;
        for row in 0..=rows.div_ceil(LATTICE) {
            for column in 0..across {
                let (x, y) = (area.columns.start + column * LATTICE, area.rows.start + row * LATTICE);
                let [red, green, blue] = self.light.white_at(Point::new(middle(x), middle(y)));
                lights.push(f32x4::from([red, green, blue, 0.0]));
            }
        }
        for (row, y) in area.rows.clone().enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "less than a step")]
            let below = (row % LATTICE) as f32 / LATTICE as f32;
            let first = row / LATTICE * across;
            let upper = &lights[first..first + across];
            let lower = &lights[first + across..first + 2 * across];
            let between = |index: usize| upper[index] + (lower[index] - upper[index]) * below;
            let start = (y * self.width + area.columns.start) * 4;
            let under = &mut drawn[start..start + columns * 4].as_chunks_mut::<4>().0;
            let own = layer[row * columns..(row + 1) * columns].chunks(LATTICE);
            for (cell, (own, under)) in own.zip(under.chunks_mut(LATTICE)).enumerate() {
                let (mut light, right) = (between(cell), between(cell + 1));
                let step = (right - light) * (1.0 / LATTICE as f32);
                for (beside, (own, under)) in own.iter().zip(under).enumerate() {
                    let cover = own.to_array()[3];
                    let now = light;
                    light += step;
                    if cover <= 0.0 {
                        continue;
                    }
                    let mut lit = *own * now;
                    if cover < 1.0 {
                        let [red, green, blue, _] = under.map(|code| table[usize::from(code)]);
                        lit += f32x4::from([red, green, blue, 0.0]) * (1.0 - cover);
                    }
                    let noise = grain(area.columns.start + cell * LATTICE + beside, y) * cover;
                    let codes = encoder.codes(lit);
                    for (channel, code) in under.iter_mut().zip(codes).take(3) {
                        *channel = with_grain(code, noise * coarse[usize::from(code)]);
                    }
                }
            }
        }
    }
}

/// A code with some grain.
pub(super) fn with_grain(code: u8, grain: f32) -> u8 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within a code")]
    let code = (f32::from(code) + grain + 0.5).clamp(0.0, 255.0) as u8;
    code
}

/// Noise of a pixel, the same in every drawing: about as a bell, with a standard deviation of one.
pub(super) fn grain(x: usize, y: usize) -> f32 {
    let seed =
        (x as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ (y as u64).wrapping_mul(0xc2b2_ae3d_27d4_eb4f);
    // Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014.
    let seed = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut mixed = (seed ^ (seed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^= mixed >> 31;
    // Four even numbers of sixteen bits: their sum has a variance of four twelfths of the square of their range.
    let [a, b, c, d, e, f, g, h] = mixed.to_le_bytes();
    let parts = [[a, b], [c, d], [e, f], [g, h]].map(|pair| f32::from(u16::from_le_bytes(pair)));
    let even = parts.iter().sum::<f32>() / 65_535.0 - 2.0;
    even * 1.732_050_8
}

/// Softens a layer by a bell of so many pixels, across and down.
fn soften(layer: &mut [f32x4], columns: usize, spread: f32) {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few pixels")]
    let reach = (libm::ceilf(spread * 2.5) as usize).clamp(1, 8);
    let mut weights: Vec<f32> = Vec::new();
    for step in 0..=reach {
        #[expect(clippy::cast_precision_loss, reason = "a few pixels")]
        let far = step as f32 / spread;
        weights.push(libm::expf(-far * far / 2.0));
    }
    let whole = weights[0] + 2.0 * weights[1..].iter().sum::<f32>();
    let weights: Vec<f32x4> = weights.iter().map(|weight| f32x4::splat(weight / whole)).collect();
    let mut before = layer.to_vec();
    for (own, line) in layer.chunks_exact_mut(columns).zip(before.chunks_exact(columns)) {
        for (index, own) in own.iter_mut().enumerate() {
            let mut sum = line[index] * weights[0];
            for (far, weight) in weights.iter().enumerate().skip(1) {
                sum += (line[index.saturating_sub(far)] + line[(index + far).min(columns - 1)]) * *weight;
            }
            *own = sum;
        }
    }
    before.copy_from_slice(layer);
    let rows = before.len() / columns;
    let line = |row: usize| &before[row * columns..(row + 1) * columns];
    for (row, own) in layer.chunks_exact_mut(columns).enumerate() {
        for (own, here) in own.iter_mut().zip(line(row)) {
            *own = *here * weights[0];
        }
        for (far, weight) in weights.iter().enumerate().skip(1) {
            let (above, below) = (line(row.saturating_sub(far)), line((row + far).min(rows - 1)));
            for (own, (above, below)) in own.iter_mut().zip(above.iter().zip(below)) {
                *own += (*above + *below) * *weight;
            }
        }
    }
}
