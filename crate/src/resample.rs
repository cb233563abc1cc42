//! Pictures and their scaling: linear light, a Lanczos filter of three lobes, any part of a picture to any size.
//!
//! A [`Pyramid`] keeps a picture at a half, a quarter and so on, so that scaling it costs by the size of the result and not by
//! that of the picture.
//!
//! The filter is widened by the ratio of reduction, so that nothing finer than a pixel of the result is left to alias
//! (C. E. Duchon, "Lanczos Filtering in One and Two Dimensions", J. Applied Meteorology 18, 1979).
//!
//! ```
//! use overmantel::resample::{Part, Raster, resample};
//! let checked = Raster::new(2, 2, vec![0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 255, 255, 0, 0, 0, 255]).unwrap();
//! let grey = resample(&checked, Part::whole(&checked), 1, 1);
//! assert_eq!(grey.pixels()[..3], [188, 188, 188], "half of the light, not half of the code");
//! ```

use crate::colour::{Encoder, decode_table};
use std::ops::Range;
use std::sync::LazyLock;
use wide::f32x4;

mod pyramid;
mod stream;
pub use pyramid::Pyramid;
pub use stream::Stream;

/// Pixels of a picture: sRGB, four bytes each, opaque, upright, from the upper left corner.
///
/// # Guarantees
/// - Width and height are at least one.
/// - There are exactly four bytes for each pixel.
#[derive(Clone, PartialEq, Eq)]
pub struct Raster {
    width_px: u32,
    height_px: u32,
    pixels: Vec<u8>,
}

impl Raster {
    /// From its size and its bytes; `None` when they don't agree.
    #[must_use]
    pub fn new(width_px: u32, height_px: u32, pixels: Vec<u8>) -> Option<Self> {
        let bytes = usize::try_from(u64::from(width_px) * u64::from(height_px) * 4).ok()?;
        (bytes > 0 && pixels.len() == bytes).then_some(Self { width_px, height_px, pixels })
    }

    /// Pixels from left to right.
    #[must_use]
    pub fn width_px(&self) -> u32 {
        self.width_px
    }

    /// Pixels from top to bottom.
    #[must_use]
    pub fn height_px(&self) -> u32 {
        self.height_px
    }

    /// The bytes.
    #[must_use]
    pub fn pixels(&self) -> &[u8] {
        &self.pixels
    }
}

impl std::fmt::Debug for Raster {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Raster({} × {} px)", self.width_px, self.height_px)
    }
}

/// A part of a raster in its pixels, which need not be whole, from the upper left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// From the left edge.
    pub left: f64,
    /// From the upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Part {
    /// All of it.
    #[must_use]
    pub fn whole(raster: &Raster) -> Self {
        Self { left: 0.0, top: 0.0, width: f64::from(raster.width_px), height: f64::from(raster.height_px) }
    }
}

/// Scales a part of a picture to `width_px` × `height_px` pixels, both held to at least one, from the pixels themselves. A
/// picture that is scaled again and again has a [`Pyramid`].
#[must_use]
pub fn resample(raster: &Raster, part: Part, width_px: u32, height_px: u32) -> Raster {
    scaled(raster, part, width_px.max(1), height_px.max(1))
}

fn scaled(source: &impl Rows, part: Part, width_px: u32, height_px: u32) -> Raster {
    let mut pixels = vec![u8::MAX; width_px as usize * height_px as usize * 4];
    let encoder = Encoder::new();
    let mut rows = pixels.chunks_exact_mut(width_px as usize * 4);
    scale(source, part, (width_px, height_px), |row| {
        for (pixel, light) in rows.next().unwrap_or_default().as_chunks_mut::<4>().0.iter_mut().zip(row) {
            for (code, &light) in pixel[..3].iter_mut().zip(light) {
                *code = encoder.code(light);
            }
        }
    });
    Raster { width_px, height_px, pixels }
}

/// Red, green and blue in linear light, and a fourth place that makes a pixel as wide as a register.
pub type Light = [f32; 4];

/// Something with rows of pixels that can be had in linear light.
trait Rows {
    /// Pixels along a row, and rows.
    fn size(&self) -> (u32, u32);
    /// Part of a row in linear light.
    fn read(&self, row: usize, columns: Range<usize>, light: &mut [Light]);
}

impl Rows for Raster {
    fn size(&self) -> (u32, u32) {
        (self.width_px, self.height_px)
    }

    fn read(&self, row: usize, columns: Range<usize>, light: &mut [Light]) {
        let table = decode_table();
        let bytes = &self.pixels[row * self.width_px as usize * 4..];
        let bytes = &bytes[columns.start * 4..columns.end * 4];
        for (light, pixel) in light.iter_mut().zip(bytes.as_chunks::<4>().0) {
            for (light, &code) in light[..3].iter_mut().zip(pixel) {
                *light = table[usize::from(code)];
            }
        }
    }
}

/// Scales a part of a source and hands over the rows of the result, one after the other.
fn scale(
    source: &impl Rows,
    part: Part,
    (width_px, height_px): (u32, u32),
    mut finished: impl FnMut(&[Light]),
) {
    let mut stream = Stream::new(source.size(), part, (width_px, height_px));
    for row in stream.rows() {
        let read = |columns, light: &mut [Light]| source.read(row, columns, light);
        let _never = stream.take(read, &mut |light| {
            finished(light);
            Ok(())
        });
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

/// For each pixel of the result along one axis: which pixels of the picture it is made of, and in which shares.
struct Taps {
    first: Vec<usize>,
    count: usize,
    weights: Vec<f32>,
}

impl Taps {
    fn new(start: f64, span: f64, source_px: u32, result_px: u32) -> Self {
        let kernel = &*KERNEL;
        let source = source_px as usize;
        let ratio = span / f64::from(result_px);
        let widened = ratio.max(1.0);
        let reach = LOBES * widened;
        let count = whole(libm::ceil(reach * 2.0) + 1.0).clamp(1, source);
        let mut taps = Self { first: Vec::new(), count, weights: Vec::new() };
        for index in 0..result_px {
            let centre = start + (f64::from(index) + 0.5) * ratio;
            let first = whole(libm::floor(centre - reach).max(0.0)).min(source - count);
            let shares: Vec<f64> = (first..first + count)
                .map(|pixel| {
                    #[expect(clippy::cast_precision_loss, reason = "at most 200,000 pixels")]
                    let pixel = pixel as f64;
                    kernel.at((pixel + 0.5 - centre) / widened)
                })
                .collect();
            let sum: f64 = shares.iter().sum();
            // Far outside the picture no share is left; there the nearest pixel stands.
            let scale = if sum.abs() > 1e-9 { 1.0 / sum } else { 0.0 };
            #[expect(clippy::cast_possible_truncation, reason = "weights from -1 to 1")]
            taps.weights.extend(shares.iter().map(|share| (share * scale) as f32));
            if scale == 0.0 {
                let at = taps.weights.len() - count;
                taps.weights[at] = 1.0;
            }
            taps.first.push(first);
        }
        taps
    }

    /// All pixels that any of them is made of.
    fn reach(&self) -> Range<usize> {
        let first = self.first.iter().copied().min().unwrap_or(0);
        first..self.first.iter().map(|first| first + self.count).max().unwrap_or(0)
    }

    fn weights(&self, index: usize) -> &[f32] {
        &self.weights[index * self.count..][..self.count]
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates; callers clamp")]
fn whole(value: f64) -> usize {
    value as usize
}

/// Lobes of the filter on each side.
const LOBES: f64 = 3.0;

/// The filter, at so many places to the lobe; between them it is taken as straight, which is off by less than a millionth.
struct Kernel(Vec<f64>);

const PLACES: usize = 1024;
/// The same, for reckoning.
const PLACES_REAL: f64 = 1024.0;

static KERNEL: LazyLock<Kernel> = LazyLock::new(|| {
    #[expect(clippy::cast_precision_loss, reason = "some thousands")]
    Kernel((0..=PLACES * 3 + 1).map(|place| lanczos(place as f64 / PLACES_REAL, LOBES)).collect())
});

impl Kernel {
    fn at(&self, x: f64) -> f64 {
        let place = x.abs().min(LOBES) * PLACES_REAL;
        let index = whole(place).min(PLACES * 3);
        #[expect(clippy::cast_precision_loss, reason = "some thousands")]
        let share = place - index as f64;
        self.0[index] * (1.0 - share) + self.0[index + 1] * share
    }
}

fn lanczos(x: f64, lobes: f64) -> f64 {
    if x.abs() < 1e-9 {
        return 1.0;
    }
    if x.abs() >= lobes {
        return 0.0;
    }
    let angle = std::f64::consts::PI * x;
    lobes * libm::sin(angle) * libm::sin(angle / lobes) / (angle * angle)
}
