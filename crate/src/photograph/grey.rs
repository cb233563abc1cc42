//! A photograph as how bright it is, for finding edges.

use crate::resample::Raster;

/// How bright each pixel is, as a share of white by its sRGB code: even steps of it look even, and its noise is much the same in the dark
/// and in the light.
#[derive(Clone, Debug)]
pub struct Grey {
    width: usize,
    height: usize,
    shades: Vec<f32>,
}

impl Grey {
    /// From a picture: a quarter red, a half green, a quarter blue, which is the least noisy of simple sums.
    #[must_use]
    pub fn of(raster: &Raster) -> Self {
        let shade = |pixel: &[u8]| {
            let [red, green, blue] = [pixel[0], pixel[1], pixel[2]].map(f32::from);
            (red + 2.0 * green + blue) / (4.0 * 255.0)
        };
        Self {
            width: raster.width_px() as usize,
            height: raster.height_px() as usize,
            shades: raster.pixels().chunks_exact(4).map(shade).collect(),
        }
    }

    /// Pixels from left to right.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Pixels from top to bottom.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// The shades, row by row.
    #[must_use]
    pub fn shades(&self) -> &[f32] {
        &self.shades
    }
}
