//! Pictures and their scaling: linear light, a Lanczos filter of three lobes, any part of a picture to any size.
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

use crate::colour::{decode_table, encode};

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

/// Scales a part of a picture to `width_px` × `height_px` pixels, both held to at least one.
#[must_use]
pub fn resample(raster: &Raster, part: Part, width_px: u32, height_px: u32) -> Raster {
    let (width_px, height_px) = (width_px.max(1), height_px.max(1));
    let across = Taps::new(part.left, part.width, raster.width_px, width_px);
    let down = Taps::new(part.top, part.height, raster.height_px, height_px);
    let first_row = down.first.iter().copied().min().unwrap_or(0);
    let last_row = down.first.iter().map(|first| first + down.count).max().unwrap_or(0);

    // Along the rows first, in linear light, for the rows that are needed.
    let table = decode_table();
    let row_bytes = raster.width_px as usize * 4;
    let mut light = vec![[0.0_f32; 4]; raster.width_px as usize];
    let mut narrowed = vec![[0.0_f32; 4]; (last_row - first_row) * width_px as usize];
    for (row, out) in (first_row..last_row).zip(narrowed.chunks_exact_mut(width_px as usize)) {
        let bytes = &raster.pixels[row * row_bytes..][..row_bytes];
        for (value, pixel) in light.iter_mut().zip(bytes.chunks_exact(4)) {
            *value = [
                table[usize::from(pixel[0])],
                table[usize::from(pixel[1])],
                table[usize::from(pixel[2])],
                0.0,
            ];
        }
        for (index, value) in out.iter_mut().enumerate() {
            *value = weighted(across.weights(index), &light[across.first[index]..], 1);
        }
    }

    // Then down the columns, and encode.
    let stride = width_px as usize;
    let mut pixels = Vec::with_capacity(stride * height_px as usize * 4);
    let mut line = vec![[0.0_f32; 4]; stride];
    for index in 0..height_px as usize {
        line.fill([0.0; 4]);
        let first = down.first[index] - first_row;
        for (offset, &weight) in down.weights(index).iter().enumerate() {
            let row = &narrowed[(first + offset) * stride..][..stride];
            for (sum, value) in line.iter_mut().zip(row) {
                for channel in 0..4 {
                    sum[channel] += weight * value[channel];
                }
            }
        }
        for value in &line {
            pixels.extend([encode(value[0]), encode(value[1]), encode(value[2]), 255]);
        }
    }
    Raster { width_px, height_px, pixels }
}

fn weighted(weights: &[f32], values: &[[f32; 4]], step: usize) -> [f32; 4] {
    let mut sum = [0.0_f32; 4];
    for (weight, value) in weights.iter().zip(values.iter().step_by(step)) {
        for channel in 0..4 {
            sum[channel] += weight * value[channel];
        }
    }
    sum
}

/// For each pixel of the result along one axis: which pixels of the picture it is made of, and in which shares.
struct Taps {
    first: Vec<usize>,
    count: usize,
    weights: Vec<f32>,
}

impl Taps {
    fn new(start: f64, span: f64, source_px: u32, result_px: u32) -> Self {
        const LOBES: f64 = 3.0;
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
                    lanczos((pixel + 0.5 - centre) / widened, LOBES)
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

    fn weights(&self, index: usize) -> &[f32] {
        &self.weights[index * self.count..][..self.count]
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates; callers clamp")]
fn whole(value: f64) -> usize {
    value as usize
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
