//! Sketches: what of a picture goes with a link, from its main colours to a small likeness.
//!
//! Main colours are the picture's lowest waves: the cosine transform of its brightness, and coarser of its two differences of colour
//! (full-range YCbCr as in JFIF, ITU-T T.871), each to the nearest step, the longest waves first. More than that is a
//! [`likeness`], of as many bytes as there is room for. Up to version 0.1 hints and likenesses were waves, too.

use super::likeness;
use super::wavelet::{Plane, halved};
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

    /// Characters of a link at most, with all that stands around it: as many as go into a QR code, and as chats carry.
    pub(super) const fn most_characters(self) -> usize {
        match self {
            Self::Colours | Self::Hint => 929,
            Self::Likeness => 2_000,
        }
    }

    /// Bytes of one sketch at least and at most, however much room there is.
    pub(super) const fn bytes(self) -> [usize; 2] {
        match self {
            Self::Colours => [0, 30],
            Self::Hint => [60, 170],
            Self::Likeness => [170, 1_200],
        }
    }
}

/// Waves along the longer side of main colours.
const WAVES: u8 = 3;
/// From so many bytes on a likeness has so many pixels along its longer side.
const SIDES: [(usize, u32); 3] = [(0, 96), (250, 128), (700, 176)];
/// Waves along one side at most.
const MOST_WAVES: u8 = 48;
/// Pixels to a wave, of what is sketched and of a sketch that is drawn.
const PX_A_WAVE: u32 = 4;
/// The steps of brightness and of the differences of colour; of the mean, and of each wave.
const STEPS: [(f32, f32); 3] = [(1.0, 1.0), (1.0, 1.2), (1.0, 1.2)];

/// A picture in a few bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sketch(Form);

#[derive(Clone, Debug, PartialEq, Eq)]
enum Form {
    Waves(Waves),
    /// Its bytes, which are read when it is drawn.
    Likeness(Vec<u8>),
}

/// A picture in a few waves.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Waves {
    /// Waves from left to right and from top to bottom.
    waves: [u8; 2],
    /// Brightness, then the two differences of colour; nothing at the end is nought.
    amounts: Vec<i8>,
}

impl Sketch {
    /// Of a picture, in so much detail; in at most so many bytes where it is more than colours.
    #[must_use]
    pub fn of(picture: &Raster, detail: Detail, room: usize) -> Self {
        if detail == Detail::Colours {
            return Self(Form::Waves(Waves::of(picture)));
        }
        let [least, most] = detail.bytes();
        let room = room.clamp(least, most);
        let given = [picture.width_px(), picture.height_px()];
        let longer = u64::from(given[0].max(given[1]));
        let most = SIDES.iter().rev().find(|(from, _)| room >= *from).map_or(96, |(_, side)| *side);
        let most = u64::from(most).min(longer);
        let sides = given.map(|side| {
            u8::try_from((u64::from(side) * most * 2 + longer) / (longer * 2))
                .unwrap_or(likeness::MOST_SIDE)
                .max(1)
        });
        let small = |halvings: usize| {
            let [width, height] =
                sides.map(|side| u32::try_from(halved(usize::from(side), halvings)).unwrap_or(1));
            let small = resample(picture, RasterPart::whole(picture), width, height);
            planes(&small).map(|values| Plane { width: width as usize, height: height as usize, values })
        };
        let ([light, ..], [_, blue, red]) = (small(0), small(1));
        Self(Form::Likeness(likeness::write(sides, &[light, blue, red], room)))
    }

    /// As pixels.
    #[must_use]
    pub fn raster(&self) -> Option<Raster> {
        match &self.0 {
            Form::Waves(waves) => waves.raster(),
            Form::Likeness(bytes) => likeness::read(bytes).and_then(|planes| full(&planes)),
        }
    }

    /// The bytes in a link, in the form that every version reads; of another form none.
    pub(super) fn waves(&self) -> Vec<u8> {
        if let Form::Waves(waves) = &self.0 { waves.bytes() } else { Vec::new() }
    }

    /// The bytes in a link, in the form that newer versions read; of another form none.
    pub(super) fn likeness(&self) -> Vec<u8> {
        if let Form::Likeness(bytes) = &self.0 { bytes.clone() } else { Vec::new() }
    }

    /// From the bytes in a link, in the form that every version reads; `None` for what is no sketch.
    pub(super) fn of_waves(bytes: &[u8]) -> Option<Self> {
        Waves::read(bytes).map(|waves| Self(Form::Waves(waves)))
    }

    /// From the bytes in a link, in the form that newer versions read; `None` for what is no likeness.
    pub(super) fn of_likeness(bytes: &[u8]) -> Option<Self> {
        likeness::is_one(bytes).then(|| Self(Form::Likeness(bytes.to_vec())))
    }
}

impl Waves {
    fn of(picture: &Raster) -> Self {
        let sides = [picture.width_px(), picture.height_px()];
        let longer = u64::from(sides[0].max(sides[1]));
        let waves = sides.map(|side| {
            let share = (u64::from(WAVES) * u64::from(side) * 2 + longer) / (longer * 2);
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

    fn raster(&self) -> Option<Raster> {
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
        let pixels = light.iter().zip(blue).zip(red).flat_map(|((&y, &cb), &cr)| pixel(y, cb, cr));
        Raster::new(width, height, pixels.collect())
    }

    fn bytes(&self) -> Vec<u8> {
        self.waves.iter().copied().chain(self.amounts.iter().map(|&amount| amount.cast_unsigned())).collect()
    }

    fn read(bytes: &[u8]) -> Option<Self> {
        let (&waves, amounts) = bytes.split_first_chunk::<2>()?;
        let is_within = waves.iter().all(|side| (1..=MOST_WAVES).contains(side));
        if !is_within || amounts.len() > (0..3).map(|channel| places(waves, channel).len()).sum() {
            return None;
        }
        Some(Self { waves, amounts: amounts.iter().map(|&amount| amount.cast_signed()).collect() })
    }
}

/// A pixel of a brightness less a half, and of two differences of colour.
fn pixel(y: f32, cb: f32, cr: f32) -> [u8; 4] {
    let (y, code) =
        (y + 128.0, |value: f32| u8::try_from(nearest(f64::from(value.clamp(0.0, 255.0)))).unwrap_or(255));
    [code(y + 1.402 * cr), code(y - 0.344_136 * cb - 0.714_136 * cr), code(y + 1.772 * cb), 255]
}

/// Pixels of planes whose differences of colour are at half the size: between those of the plane they are taken as straight.
fn full([light, blue, red]: &[Plane; 3]) -> Option<Raster> {
    // Four times a place in the smaller plane is whole: the two pixels that it is between, and the share of the second.
    let along = |at: usize, side: usize| {
        let quarters = (at * 2).saturating_sub(1).min(side * 4 - 4);
        let first = quarters / 4;
        (first, (first + 1).min(side - 1), [0.0, 0.25, 0.5, 0.75][quarters % 4])
    };
    let mut pixels = Vec::with_capacity(light.values.len() * 4);
    for (y, row) in light.values.chunks_exact(light.width).enumerate() {
        let (above, below, lower) = along(y, blue.height);
        for (x, light) in row.iter().enumerate() {
            let (left, right, share) = along(x, blue.width);
            let of = |plane: &Plane| {
                let between = |row: usize| {
                    let (one, other) =
                        (plane.values[row * plane.width + left], plane.values[row * plane.width + right]);
                    one + (other - one) * share
                };
                let (upper, under) = (between(above), between(below));
                upper + (under - upper) * lower
            };
            pixels.extend(pixel(*light, of(blue), of(red)));
        }
    }
    Raster::new(u32::try_from(light.width).ok()?, u32::try_from(light.height).ok()?, pixels)
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
