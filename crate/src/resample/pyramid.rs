//! A picture at its own size and at smaller ones.

use super::quick::{Linear, Source};
use super::{Raster, RasterPart, resample, scaled};
use std::sync::OnceLock;

/// A picture with its reductions, each of half the pixels of the one before, in linear light of 16 bits. Each is made once, when it is
/// first needed: from the one of twice its sides, by the same filter.
///
/// A part is then scaled from the smallest reduction that still has this spare times the pixels of the result.
///
/// ```
/// use overmantel::resample::{RasterPart, Pyramid, Raster, resample};
/// let grey = Raster::new(64, 64, vec![128; 64 * 64 * 4]).unwrap();
/// let part = RasterPart::whole(&grey);
/// assert_eq!(Pyramid::of(grey.clone()).scaled(part, 5, 5).pixels()[0], resample(&grey, part, 5, 5).pixels()[0]);
/// ```
#[derive(Clone)]
pub struct Pyramid {
    raster: Raster,
    reductions: Vec<Reduction>,
}

/// How many pixels a reduction has at least for one of the result, along each axis. More would cost more, and fewer would let the
/// filter of the reduction be seen in that of the result.
const SPARE: f64 = 1.25;

/// With fewer pixels on the shorter side there is nothing to be gained.
const LEAST_SIDE_PX: u32 = 32;

#[derive(Clone)]
struct Reduction {
    size_px: (u32, u32),
    light: OnceLock<Linear>,
}

impl Pyramid {
    /// Of a picture.
    #[must_use]
    pub fn of(raster: Raster) -> Self {
        let size = (raster.width_px, raster.height_px);
        let shorter =
            |side: u32| u32::try_from((u64::from(side) * u64::from(side) / 2).isqrt()).unwrap_or(side);
        let half = |(width, height): (u32, u32)| (width.div_ceil(2), height.div_ceil(2));
        let next = |&(one, other): &((u32, u32), (u32, u32))| Some((other, half(one)));
        let sizes = std::iter::successors(Some(((shorter(size.0), shorter(size.1)), half(size))), next);
        let reductions = sizes
            .map(|(size_px, _)| Reduction { size_px, light: OnceLock::new() })
            .take_while(|reduction| reduction.size_px.0.min(reduction.size_px.1) >= LEAST_SIDE_PX)
            .collect();
        Self { raster, reductions }
    }

    /// The picture itself.
    #[must_use]
    pub fn raster(&self) -> &Raster {
        &self.raster
    }

    fn reduction(&self, index: usize) -> &Linear {
        let Reduction { size_px, light } = &self.reductions[index];
        light.get_or_init(|| {
            let larger = index.checked_sub(2).map(|larger| Source::Linear(self.reduction(larger)));
            Linear::of(larger.unwrap_or(Source::Codes(&self.raster)), *size_px)
        })
    }

    /// Scales a part of the picture, measured in its own pixels, to `width_px` × `height_px`, both held to at least one.
    #[must_use]
    pub fn scaled(&self, part: RasterPart, width_px: u32, height_px: u32) -> Raster {
        let (width_px, height_px) = (width_px.max(1), height_px.max(1));
        let ratio = (part.width / f64::from(width_px)).min(part.height / f64::from(height_px));
        let (width, height) = (f64::from(self.raster.width_px), f64::from(self.raster.height_px));
        let is_enough = |reduction: &Reduction| ratio * f64::from(reduction.size_px.0) / width >= SPARE;
        let Some(index) = self.reductions.iter().rposition(is_enough) else {
            return resample(&self.raster, part, width_px, height_px);
        };
        let reduction = self.reduction(index);
        let (across, down) = (f64::from(reduction.size().0) / width, f64::from(reduction.size().1) / height);
        let part = RasterPart {
            left: part.left * across,
            top: part.top * down,
            width: part.width * across,
            height: part.height * down,
        };
        scaled(Source::Linear(reduction), part, width_px, height_px)
    }
}

impl std::fmt::Debug for Pyramid {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Pyramid({:?}, {} reductions)", self.raster, self.reductions.len())
    }
}
