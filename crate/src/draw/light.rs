//! The lamp: one light for everything that is drawn. Where a shadow falls, how soft it is and how bright a slope is all follow
//! from it.

use super::pixel_rect::PixelRect;
use crate::colour::{Colour, decode, decode_table, encode};
use crate::plan::Lighting;
use tiny_skia::PixmapMut;

/// A lamp before the wall, above and to the left, and the light of the room besides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lamp {
    /// How far a shadow falls to the right and down, for each unit of depth: the direction of the lamp.
    pub(super) fall: (f32, f32),
    /// How soft a shadow is, for each unit of depth: the standard deviation of its edge.
    pub(super) softness: f32,
    /// The share of light that the lamp gives; the rest comes from the room.
    pub(super) share: f32,
    /// What is left of red, green and blue in its light, against white.
    tint: [f32; 3],
    /// What the room's light gives to the wall where it is brightest.
    pub(super) full: f32,
    /// How much more than daylight it falls off over the wall.
    pub(super) pool: f32,
}

impl Lamp {
    /// The lamp for a light.
    pub(super) const fn of(light: Lighting) -> Self {
        match light {
            Lighting::Day => {
                Self { fall: (0.35, 0.7), softness: 0.42, share: 0.5, tint: [1.0; 3], full: 1.03, pool: 1.0 }
            }
            Lighting::Evening => Self {
                fall: (0.18, 0.95),
                softness: 0.26,
                share: 0.72,
                tint: [0.94, 0.79, 0.58],
                full: 0.97,
                pool: 3.2,
            },
        }
    }

    /// White light on a wall, from a side that is stated: how far a shadow falls for each unit of depth, how soft it is, and what share of
    /// the light comes from there.
    pub(super) const fn from_aside(fall: (f32, f32), softness: f32, share: f32) -> Self {
        Self { fall, softness, share, tint: [1.0; 3], full: 1.0, pool: 1.0 }
    }

    /// The same lamp with a white light.
    pub(super) const fn white(self) -> Self {
        Self { tint: [1.0; 3], ..self }
    }

    /// A colour in the colour of the lamp.
    pub(super) fn seen(&self, colour: Colour) -> Colour {
        let channel = |code, share| encode(decode(code) * share);
        let [red, green, blue] = self.tint;
        Colour {
            red: channel(colour.red, red),
            green: channel(colour.green, green),
            blue: channel(colour.blue, blue),
        }
    }

    /// Puts an area of whole pixels into the colour of the lamp.
    #[inline(never)]
    pub(super) fn tint_area(&self, canvas: &mut PixmapMut<'_>, area: PixelRect<i64>) {
        if self.tint.iter().all(|&share| share >= 1.0) {
            return;
        }
        let codes = self.tint.map(|share| {
            let mut codes = [0; 256];
            for (code, light) in codes.iter_mut().zip(decode_table()) {
                *code = encode(light * share);
            }
            codes
        });
        let area = area.within((canvas.width(), canvas.height()));
        let index = |at: i64| usize::try_from(at).unwrap_or(0);
        let (width, left) = (canvas.width() as usize, index(area.left));
        let columns = left..index(area.right).max(left);
        let data = canvas.data_mut();
        for row in index(area.top)..index(area.bottom) {
            let pixels = (row * width + columns.start) * 4..(row * width + columns.end) * 4;
            for pixel in data[pixels].chunks_exact_mut(4) {
                for (channel, codes) in pixel.iter_mut().zip(&codes) {
                    *channel = codes[usize::from(*channel)];
                }
            }
        }
    }

    /// Light on a slope against that on a face towards the viewer: by how much it rises to the right and downwards, for each
    /// unit of way. The cosine law, for the lamp's share.
    pub(super) fn on_slope(&self, right: f32, down: f32) -> f32 {
        let towards = (right * self.fall.0 + down * self.fall.1 + 1.0).max(0.0);
        1.0 - self.share + self.share * towards / libm::sqrtf(right * right + down * down + 1.0)
    }

    /// The gloss of a slope: how near it comes to mirroring the lamp to the viewer, 0 to 1. `sharpness` doubles the power so
    /// many times.
    pub(super) fn gloss(&self, right: f32, down: f32, sharpness: u8) -> f32 {
        let lamp = [-self.fall.0, -self.fall.1, 1.0];
        let length = libm::sqrtf(lamp.iter().map(|part| part * part).sum());
        // Half-way between the lamp and the viewer, who is straight before it.
        let half = [lamp[0] / length, lamp[1] / length, lamp[2] / length + 1.0];
        let half_length = libm::sqrtf(half.iter().map(|part| part * part).sum());
        let normal_length = libm::sqrtf(right * right + down * down + 1.0);
        let cosine = (-right * half[0] - down * half[1] + half[2]) / (half_length * normal_length);
        (0..sharpness).fold(cosine.max(0.0), |power, _| power * power)
    }
}
