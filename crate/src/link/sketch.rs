//! Sketches: what of a picture goes with a link, from its main colours to a small likeness.
//!
//! A sketch is the picture's lowest waves: the cosine transform of its brightness, and coarser of its two differences of colour
//! (full-range YCbCr as in JFIF, ITU-T T.871), each to the nearest step, the longest waves first.

use crate::resample::{Raster, RasterPart, resample};
use crate::rounding::nearest;
use std::f32::consts::PI;

/// How much of a picture is in its sketch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// Its main colours, and roughly where they are.
    Colours,
    /// What one would see of it across a street.
    Hint,
    /// A small likeness.
    Likeness,
}

impl Detail {
    /// Every step, the shortest first.
    pub const ALL: [Self; 3] = [Self::Colours, Self::Hint, Self::Likeness];

    /// Waves along the longer side.
    const fn waves(self) -> u8 {
        match self {
            Self::Colours => 3,
            Self::Hint => 10,
            Self::Likeness => 44,
        }
    }
}

/// Waves along one side at most.
const MOST_WAVES: u8 = 48;
/// Pixels to a wave, of what is sketched and of a sketch that is drawn.
const PX_A_WAVE: u32 = 4;
/// The steps of brightness and of the differences of colour; of the mean, and of each wave.
const STEPS: [(f32, f32); 3] = [(1.0, 1.0), (1.0, 1.2), (1.0, 1.2)];

/// A picture in a few waves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sketch {
    /// Waves from left to right and from top to bottom.
    waves: [u8; 2],
    /// Brightness, then the two differences of colour; nothing at the end is nought.
    amounts: Vec<i8>,
}

impl Sketch {
    /// Of a picture, in so much detail.
    #[must_use]
    pub fn of(picture: &Raster, detail: Detail) -> Self {
        let sides = [picture.width_px(), picture.height_px()];
        let longer = u64::from(sides[0].max(sides[1]));
        let waves = sides.map(|side| {
            let share = (u64::from(detail.waves()) * u64::from(side) * 2 + longer) / (longer * 2);
            u8::try_from(share).unwrap_or(MOST_WAVES).max(2)
        });
        let [width, height] = waves.map(|waves| u32::from(waves) * PX_A_WAVE);
        let small = resample(picture, RasterPart::whole(picture), width, height);
        let planes = planes(&small);
        let mut amounts = Vec::new();
        for (channel, plane) in planes.iter().enumerate() {
            for place in places(waves, channel) {
                let wave = waves_at(place, [width, height]);
                let sum: f32 = plane.iter().zip(wave).map(|(value, wave)| value * wave).sum();
                let twice = place.iter().filter(|&&wave| wave > 0).fold(1.0, |factor: f32, _| factor * 2.0);
                let amount = sum * twice / real(width * height);
                amounts.push(whole(amount / step(channel, place)));
            }
        }
        while amounts.last() == Some(&0) {
            amounts.pop();
        }
        Self { waves, amounts }
    }

    /// As pixels.
    #[must_use]
    pub fn raster(&self) -> Option<Raster> {
        let [width, height] = self.waves.map(|waves| u32::from(waves) * PX_A_WAVE);
        let count = (width * height) as usize;
        let mut planes = [vec![0.0_f32; count], vec![0.0; count], vec![0.0; count]];
        let mut amounts = self.amounts.iter();
        for (channel, plane) in planes.iter_mut().enumerate() {
            for place in places(self.waves, channel) {
                let amount = f32::from(amounts.next().copied().unwrap_or(0)) * step(channel, place);
                for (value, wave) in plane.iter_mut().zip(waves_at(place, [width, height])) {
                    *value += amount * wave;
                }
            }
        }
        let [light, blue, red] = &planes;
        let pixels = light.iter().zip(blue).zip(red).flat_map(|((&y, &cb), &cr)| {
            let (y, code) = (y + 128.0, |value: f32| {
                u8::try_from(nearest(f64::from(value.clamp(0.0, 255.0)))).unwrap_or(255)
            });
            [code(y + 1.402 * cr), code(y - 0.344_136 * cb - 0.714_136 * cr), code(y + 1.772 * cb), 255]
        });
        Raster::new(width, height, pixels.collect())
    }

    /// The bytes in a link.
    pub(super) fn bytes(&self) -> Vec<u8> {
        self.waves.iter().copied().chain(self.amounts.iter().map(|&amount| amount.cast_unsigned())).collect()
    }

    /// From the bytes in a link; `None` for what is no sketch.
    pub(super) fn read(bytes: &[u8]) -> Option<Self> {
        let (&waves, amounts) = bytes.split_first_chunk::<2>()?;
        let is_within = waves.iter().all(|side| (1..=MOST_WAVES).contains(side));
        if !is_within || amounts.len() > (0..3).map(|channel| places(waves, channel).len()).sum() {
            return None;
        }
        Some(Self { waves, amounts: amounts.iter().map(|&amount| amount.cast_signed()).collect() })
    }
}

/// The waves of a channel, the longest first: those below the diagonal, and of colour a quarter as many.
fn places(waves: [u8; 2], channel: usize) -> Vec<[u32; 2]> {
    let [across, down] =
        waves.map(|waves| if channel == 0 { u32::from(waves) } else { u32::from(waves).div_ceil(2) });
    let mut places: Vec<[u32; 2]> = (0..down)
        .flat_map(|v| (0..across).map(move |u| [u, v]))
        .filter(|[u, v]| u * down + v * across < across * down)
        .collect();
    crate::order::sort_by_key(&mut places, |[u, v]| (u + v, *v));
    places
}

/// A wave at every pixel.
fn waves_at([u, v]: [u32; 2], [width, height]: [u32; 2]) -> impl Iterator<Item = f32> {
    let along = |wave: u32, side: u32| -> Vec<f32> {
        (0..side).map(|at| libm::cosf(PI * real(wave) * (real(at) + 0.5) / real(side))).collect()
    };
    let (across, down) = (along(u, width), along(v, height));
    down.into_iter().flat_map(move |y| across.clone().into_iter().map(move |x| x * y))
}

/// Counts of waves and of pixels are small.
fn real(count: u32) -> f32 {
    f32::from(u16::try_from(count).unwrap_or(u16::MAX))
}

fn step(channel: usize, place: [u32; 2]) -> f32 {
    let (mean, wave) = STEPS[channel.min(2)];
    if place == [0, 0] { mean } else { wave }
}

fn whole(value: f32) -> i8 {
    i8::try_from(nearest(f64::from(value.clamp(-127.0, 127.0)))).unwrap_or(0)
}

/// Brightness less a half, and the two differences of colour.
fn planes(picture: &Raster) -> [Vec<f32>; 3] {
    let of = |[r, g, b]: [f32; 3]| {
        let of =
            |pixel: &[u8; 4]| r * f32::from(pixel[0]) + g * f32::from(pixel[1]) + b * f32::from(pixel[2]);
        picture.pixels().as_chunks::<4>().0.iter().map(of).collect::<Vec<f32>>()
    };
    let mut light = of([0.299, 0.587, 0.114]);
    light.iter_mut().for_each(|value| *value -= 128.0);
    [light, of([-0.168_736, -0.331_264, 0.5]), of([0.5, -0.418_688, -0.081_312])]
}
