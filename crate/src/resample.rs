//! Pictures and their scaling: linear light, a Lanczos filter of three lobes, any part of a picture to any size.
//!
//! A [`Pyramid`] keeps a picture at a half, a quarter and so on, so that scaling it costs by the size of the result and not by
//! that of the picture.
//!
//! The filter is widened by the ratio of reduction, so that nothing finer than a pixel of the result is left to alias
//! (C. E. Duchon, "Lanczos Filtering in One and Two Dimensions", J. Applied Meteorology 18, 1979).
//!
//! ```
//! use overmantel::resample::{RasterPart, Raster, resample};
//! let checked = Raster::new(2, 2, vec![0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 255, 255, 0, 0, 0, 255]).unwrap();
//! let grey = resample(&checked, RasterPart::whole(&checked), 1, 1);
//! assert_eq!(grey.pixels()[..3], [188, 188, 188], "half of the light, not half of the code");
//! ```

use quick::Source;
use std::ops::Range;
use std::sync::LazyLock;

mod pyramid;
mod quick;
mod stream;
pub use pyramid::Pyramid;
pub use stream::{Light, Stream};

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
pub struct RasterPart {
    /// From the left edge.
    pub left: f64,
    /// From the upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl RasterPart {
    /// All of it.
    #[must_use]
    pub fn whole(raster: &Raster) -> Self {
        Self { left: 0.0, top: 0.0, width: f64::from(raster.width_px), height: f64::from(raster.height_px) }
    }
}

/// Scales a part of a picture to `width_px` × `height_px` pixels, both held to at least one, from the pixels themselves. A
/// picture that is scaled again and again has a [`Pyramid`].
#[must_use]
pub fn resample(raster: &Raster, part: RasterPart, width_px: u32, height_px: u32) -> Raster {
    scaled(Source::Codes(raster), part, width_px.max(1), height_px.max(1))
}

fn scaled(source: Source<'_>, part: RasterPart, width_px: u32, height_px: u32) -> Raster {
    let stride = width_px as usize * 4;
    let mut pixels = vec![u8::MAX; stride * height_px as usize];
    let codes = quick::codes();
    quick::scale(source, part, (width_px, height_px), |rows, [red, green, blue]| {
        for (at, row) in pixels[rows.start * stride..].chunks_exact_mut(stride).take(rows.len()).enumerate() {
            let light = red.iter().zip(green).zip(blue);
            for (pixel, ((red, green), blue)) in row.as_chunks_mut::<4>().0.iter_mut().zip(light) {
                let code = |light: [i16; quick::AT_ONCE]| codes[usize::from(light[at].cast_unsigned())];
                *pixel = [code(*red), code(*green), code(*blue), u8::MAX];
            }
        }
    });
    Raster { width_px, height_px, pixels }
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
        let places = result_px as usize;
        let mut taps =
            Self { first: Vec::with_capacity(places), count, weights: Vec::with_capacity(places * count) };
        let mut shares = vec![0.0; count];
        for index in 0..result_px {
            let centre = start + (f64::from(index) + 0.5) * ratio;
            let first = whole(libm::floor(centre - reach).max(0.0)).min(source - count);
            for (share, pixel) in shares.iter_mut().zip(first..) {
                #[expect(clippy::cast_precision_loss, reason = "at most 200,000 pixels")]
                let pixel = pixel as f64;
                *share = kernel.at((pixel + 0.5 - centre) / widened);
            }
            let sum: f64 = shares.iter().sum();
            // Outside the picture hardly any share is left; there the nearest pixel stands.
            let scale = if sum > LEAST_SHARE * widened { 1.0 / sum } else { 0.0 };
            #[expect(clippy::cast_possible_truncation, reason = "weights from -1 to 1")]
            taps.weights.extend(shares.iter().map(|share| (share * scale) as f32));
            if scale == 0.0 {
                let nearest = whole(centre.max(0.0)).saturating_sub(first).min(count - 1);
                let at = taps.weights.len() - count;
                taps.weights[at + nearest] = 1.0;
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

/// A pixel is made of those under the filter when there is so much of it over the picture; at its very edge there is a half.
const LEAST_SHARE: f64 = 0.2;

/// Lobes of the filter on each side.
const LOBES: f64 = 3.0;

/// Rows that are held at a time, at most, to make one of so many: the lobes on both sides, and those that lie partly under it.
pub(crate) const fn rows_held(to_one: u64) -> u64 {
    6 * to_one + 2
}

/// The filter, at so many places to the lobe; between them it is taken as straight, which is off by less than a millionth.
struct Kernel(Vec<f64>);

const PLACES: usize = 1024;
/// The same, for calculating.
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
