//! Light taken from pixels: the one loop in which every shadow is drawn.

use super::{Encoder, decode_table};
use wide::{f32x4, f32x8, i16x8, i32x8, u8x16};

const AT_ONCE: usize = Dimmer::AT_ONCE;

/// Of more light than this the approximation is not made.
const MOST: f32 = 0.8;

/// Of the curve of IEC 61966-2-1, counted in codes: 0.055 · 255.
const OFFSET: f32 = 14.025;

/// Up to this code the curve of IEC 61966-2-1 is straight (0.04045 · 255 = 10.3), and what follows from its power does not hold.
const STRAIGHT: i16 = 10;

/// (1 − t)^(1/2.4) as a polynomial of t, for t from 0 to [`MOST`]: within 1/40,000, by interpolation at the nodes of Chebyshev's
/// polynomial of the eighth degree.
const ROOT: [f32; 8] =
    [1.0, -0.417_466_07, -0.101_149_164, -0.256_693_45, 0.820_339_14, -2.012_462_6, 2.265_263_3, -1.091_198];

/// Takes light from rows of pixels: at each place along the row a share of its own, the whole of them more in one row and less in
/// another.
///
/// Above its straight beginning a code is a power of the light, so that a share of the light is a share of the code and its offset:
/// c′ = (c + 0.055) · (1 − t)^(1/2.4) − 0.055. That needs no table, and several pixels are worked out at once.
pub(crate) struct Dimmer<'a> {
    shares: &'a [f32],
    by: f32,
    /// What is left of code and offset; made again only when `by` changes.
    roots: Vec<f32>,
}

impl<'a> Dimmer<'a> {
    /// Pixels that are worked out at once.
    pub(crate) const AT_ONCE: usize = 4;

    /// For rows of as many pixels as there are shares, each from 0 to 1.
    pub(crate) fn new(shares: &'a [f32]) -> Self {
        Self { shares, by: 0.0, roots: vec![1.0; shares.len()] }
    }

    /// Takes from the following rows `by` times the shares: from 0 to 1.
    #[expect(clippy::float_cmp, reason = "the very same")]
    pub(crate) fn by(&mut self, by: f32) {
        if self.by == by {
            return;
        }
        self.by = by;
        let (roots, last_roots) = self.roots.as_chunks_mut::<4>();
        let (shares, last_shares) = self.shares.as_chunks::<4>();
        for (roots, &shares) in roots.iter_mut().zip(shares) {
            let taken = f32x4::new(shares) * by;
            *roots = ROOT.iter().rev().fold(f32x4::ZERO, |sum, &factor| sum * taken + factor).to_array();
        }
        for (root, share) in last_roots.iter_mut().zip(last_shares) {
            *root = ROOT.iter().rev().fold(0.0, |sum, factor| sum * (share * by) + factor);
        }
    }

    /// Takes the light from part of a row, which begins with the share at `first`: four bytes a pixel, of which the fourth stays.
    pub(crate) fn row(&self, pixels: &mut [u8], first: usize) {
        let shares = self.shares.get(first..).unwrap_or_default();
        let roots = self.roots.get(first..).unwrap_or_default();
        let (fours, rest) = pixels.as_chunks_mut::<{ AT_ONCE * 4 }>();
        let ((shares, last_shares), (roots, last_roots)) =
            (shares.as_chunks::<AT_ONCE>(), roots.as_chunks::<AT_ONCE>());
        for ((pixels, shares), roots) in fours.iter_mut().zip(shares).zip(roots) {
            self.four(pixels, shares, roots);
        }
        if !rest.is_empty() {
            // What is left is filled up to four.
            let filled = |parts: &[[f32; AT_ONCE]], last: &[f32]| {
                let left = parts.get(fours.len()).map_or(last, |part| part.as_slice());
                std::array::from_fn(|at| left.get(at).copied().unwrap_or(0.0))
            };
            let mut four = [u8::MAX; AT_ONCE * 4];
            four[..rest.len()].copy_from_slice(rest);
            self.four(&mut four, &filled(shares, last_shares), &filled(roots, last_roots));
            rest.copy_from_slice(&four[..rest.len()]);
        }
    }

    /// Four pixels at once. What becomes of one never depends on the others.
    #[inline]
    fn four(&self, pixels: &mut [u8; AT_ONCE * 4], shares: &[f32; AT_ONCE], roots: &[f32; AT_ONCE]) {
        if self.by > MOST {
            for (pixel, share) in pixels.as_chunks_mut::<4>().0.iter_mut().zip(shares) {
                self.exactly(pixel, *share);
            }
            return;
        }
        let bytes = u8x16::new(*pixels);
        let halves = [i16x8::from_u8x16_low(bytes), i16x8::from_u8x16_high(bytes)];
        let [a, b, c, d] = *roots;
        // The fourth byte of a pixel keeps all that it has.
        let left = [f32x8::new([a, a, a, 1.0, b, b, b, 1.0]), f32x8::new([c, c, c, 1.0, d, d, d, 1.0])];
        let codes = [0, 1].map(|half| {
            let codes = f32x8::from_i32x8(i32x8::from_i16x8(halves[half]));
            // Half a code more, so that cutting off the fraction gives the nearest.
            i16x8::from_i32x8_truncate(((codes + OFFSET) * left[half] - (OFFSET - 0.5)).fast_trunc_int())
        });
        let dimmed = u8x16::narrow_i16x8(codes[0], codes[1]).to_array();
        if codes[0].min(codes[1]).simd_lt(i16x8::splat(STRAIGHT + 1)).any() {
            let dimmed = dimmed.as_chunks::<4>().0;
            for ((pixel, dimmed), share) in pixels.as_chunks_mut::<4>().0.iter_mut().zip(dimmed).zip(shares) {
                if dimmed.iter().any(|&code| i16::from(code) <= STRAIGHT) {
                    self.exactly(pixel, *share);
                } else {
                    *pixel = *dimmed;
                }
            }
        } else {
            *pixels = dimmed;
        }
    }

    /// One pixel by way of the light.
    fn exactly(&self, pixel: &mut [u8; 4], share: f32) {
        let (table, encoder) = (decode_table(), Encoder::new());
        for channel in &mut pixel[..3] {
            *channel = encoder.code(table[usize::from(*channel)] * (1.0 - self.by * share));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What IEC 61966-2-1 itself says, in numbers of twice the length.
    #[expect(clippy::disallowed_methods, reason = "the platform's own powers, not the core's")]
    fn by_the_standard(code: u8, taken: f64) -> f64 {
        let value = f64::from(code) / 255.0;
        let light = if value <= 0.040_45 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) };
        let left = light * (1.0 - taken);
        255.0 * if left <= 0.003_130_8 { left * 12.92 } else { 1.055 * left.powf(1.0 / 2.4) - 0.055 }
    }

    #[test]
    fn every_code_in_every_shadow_is_the_nearest_by_a_hundredth() {
        for step in 0..=100_u8 {
            let taken = f64::from(step) / 100.0;
            let mut row: Vec<u8> = (0..=255).flat_map(|code| [code, code, code, 255]).collect();
            let mut dimmer = Dimmer::new(&[1.0; 256]);
            #[expect(clippy::cast_possible_truncation, reason = "from 0 to 1")]
            dimmer.by(taken as f32);
            dimmer.row(&mut row, 0);
            for (code, pixel) in (0..=255_u8).zip(row.as_chunks::<4>().0) {
                let expected = by_the_standard(code, taken);
                // The table that dark codes and deep shadows go by has steps of up to a twentieth of a code.
                let most = if expected < 13.0 || taken > f64::from(MOST) { 0.57 } else { 0.51 };
                assert!(
                    (f64::from(pixel[0]) - expected).abs() < most,
                    "{code} less {taken}: {pixel:?}, not {expected}"
                );
                assert_eq!(*pixel, [pixel[0], pixel[0], pixel[0], 255]);
            }
        }
    }

    #[test]
    fn each_pixel_has_a_share_of_its_own() {
        for count in [1_u8, 7, 8, 9, 16, 23] {
            let shares: Vec<f32> = (0..count).map(|at| f32::from(at) / 40.0).collect();
            let mut row = vec![200_u8; usize::from(count) * 4];
            let mut dimmer = Dimmer::new(&shares);
            dimmer.by(0.5);
            dimmer.row(&mut row[4..], 1);
            assert_eq!(row[..4], [200; 4], "before the part that is asked for");
            for (pixel, share) in row.as_chunks::<4>().0.iter().zip(&shares).skip(1) {
                let expected = by_the_standard(200, f64::from(0.5 * share));
                assert!((f64::from(pixel[1]) - expected).abs() < 0.51, "{pixel:?} {expected}");
            }
        }
    }
}
