//! A picture at its own size, a half, a quarter and so on.

use super::{Light, Part, Raster, Rows, resample, scale, scaled};
use std::ops::Range;

/// A picture with its reductions, each made once from the one before by the same filter, in linear light of 16 bits.
///
/// A part is then scaled from the smallest reduction that still has this spare times the pixels of the result.
///
/// ```
/// use overmantel::resample::{Part, Pyramid, Raster, resample};
/// let grey = Raster::new(64, 64, vec![128; 64 * 64 * 4]).unwrap();
/// let part = Part::whole(&grey);
/// assert_eq!(Pyramid::of(grey.clone()).scaled(part, 5, 5).pixels()[0], resample(&grey, part, 5, 5).pixels()[0]);
/// ```
#[derive(Clone, Debug)]
pub struct Pyramid {
    raster: Raster,
    reductions: Vec<Reduction>,
}

/// How many pixels a reduction has at least for one of the result, along each axis. More would cost more, and fewer would let the
/// filter of the reduction be seen in that of the result.
pub(super) const SPARE: f64 = 1.25;

/// Below so many pixels on the shorter side there is nothing to be gained.
const LEAST_SIDE_PX: u32 = 32;

/// A reduction: linear light, 0 to 65 535, four to the pixel of which three are used.
#[derive(Clone)]
struct Reduction {
    width_px: u32,
    height_px: u32,
    light: Vec<[u16; 4]>,
}

impl std::fmt::Debug for Reduction {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Reduction({} × {} px)", self.width_px, self.height_px)
    }
}

impl Rows for Reduction {
    fn size(&self) -> (u32, u32) {
        (self.width_px, self.height_px)
    }

    fn read(&self, row: usize, columns: Range<usize>, light: &mut [Light]) {
        let pixels = &self.light[row * self.width_px as usize..];
        let pixels = &pixels[columns];
        for (light, &value) in light.as_flattened_mut().iter_mut().zip(pixels.as_flattened()) {
            *light = f32::from(value) * (1.0 / WHOLE);
        }
    }
}

/// All the light there is, as a whole number.
const WHOLE: f32 = 65_535.0;

impl Reduction {
    /// Half of a source along each axis, rounded up.
    fn half_of(source: &impl Rows) -> Self {
        let (width, height) = source.size();
        let (width_px, height_px) = (width.div_ceil(2), height.div_ceil(2));
        let part = Part { left: 0.0, top: 0.0, width: f64::from(width), height: f64::from(height) };
        let mut light = Vec::with_capacity(width_px as usize * height_px as usize);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within 16 bits")]
        let whole = |value: f32| (value.clamp(0.0, 1.0) * WHOLE + 0.5) as u16;
        scale(source, part, (width_px, height_px), |row| {
            light.extend(row.iter().map(|pixel| pixel.map(whole)))
        });
        Self { width_px, height_px, light }
    }
}

impl Pyramid {
    /// Makes the reductions of a picture.
    #[must_use]
    pub fn of(raster: Raster) -> Self {
        let mut reductions: Vec<Reduction> = Vec::new();
        let mut size = raster.size();
        while size.0.min(size.1) >= LEAST_SIDE_PX * 2 {
            let next = reductions.last().map_or_else(|| Reduction::half_of(&raster), Reduction::half_of);
            size = next.size();
            reductions.push(next);
        }
        Self { raster, reductions }
    }

    /// The picture itself.
    #[must_use]
    pub fn raster(&self) -> &Raster {
        &self.raster
    }

    /// Scales a part of the picture, measured in its own pixels, to `width_px` × `height_px`, both held to at least one.
    #[must_use]
    pub fn scaled(&self, part: Part, width_px: u32, height_px: u32) -> Raster {
        let (width_px, height_px) = (width_px.max(1), height_px.max(1));
        let ratio = (part.width / f64::from(width_px)).min(part.height / f64::from(height_px));
        let enough = |reduction: &&Reduction| {
            let reduced = f64::from(self.raster.width_px) / f64::from(reduction.width_px);
            ratio / reduced >= SPARE
        };
        let Some(reduction) = self.reductions.iter().take_while(enough).last() else {
            return resample(&self.raster, part, width_px, height_px);
        };
        let across = f64::from(reduction.width_px) / f64::from(self.raster.width_px);
        let down = f64::from(reduction.height_px) / f64::from(self.raster.height_px);
        let part = Part {
            left: part.left * across,
            top: part.top * down,
            width: part.width * across,
            height: part.height * down,
        };
        scaled(reduction, part, width_px, height_px)
    }
}
