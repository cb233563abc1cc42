//! Likenesses: a small picture as the wavelets of its brightness and of its two differences of colour, in as many bytes as there are.
//!
//! A mark, the width and the height in pixels, the step, and what a range coder makes of the amounts: plane by plane, the coarsest
//! image first. How likely an amount is to be nought is learnt from those beside it and from the one above it.

use super::range::{Coder, Odds, Reader, Writer, together};
use super::wavelet::{Plane, halved};
use crate::rounding::nearest;

/// The first byte, which no sketch in waves begins with.
const MARK: u8 = 0xf1;
/// Bytes before those of the range coder.
const HEAD: usize = 4;
/// Pixels along a side at most.
pub(super) const MOST_SIDE: u8 = 240;
/// Halvings of each plane.
const LEVELS: usize = 5;
/// The finest step, how many make it twice as coarse, and the coarsest.
const FINEST: f32 = 4.0;
const TO_DOUBLE: f32 = 16.0;
const MOST_STEP: u8 = 127;
/// Steps of an image's amounts in that step, the coarsest image first: of brightness, and of the differences of colour.
const STEPS: [[f32; LEVELS + 1]; 2] =
    [[1.0, 0.85, 0.72, 0.61, 0.52, 0.44], [0.3, 0.54, 0.97, 1.75, 3.15, 5.67]];
/// Steps of one amount at most: of what is beside the coarsest image, and of that.
const MOST_BESIDE: u32 = 255;
const MOST_COARSEST: i32 = 4_095;
/// How far an amount's value lies above its count of steps, and how much further each is from the one before.
const ABOVE: f32 = 0.1;
const WIDER: f32 = 0.3;
/// What a bit is worth, in squares of a step where all is flat.
const WORTH: f32 = 0.05;
/// From which variance on (in squares of a code) differences matter less.
const BUSY: f32 = 300.0;
/// Pixels round a pixel that its variance is of.
const AROUND: usize = 2;

/// The step of an image's amounts.
fn step(code: u8, channel: usize, level: usize) -> f32 {
    FINEST * libm::exp2f(f32::from(code) / TO_DOUBLE) * STEPS[channel.min(1)][LEVELS - level]
}

/// The amounts of one plane in steps, laid out as the plane's.
struct Amounts {
    width: usize,
    height: usize,
    steps: Vec<i32>,
}

/// What is to be written of a plane.
struct Wanted<'a> {
    /// In steps.
    sizes: Vec<f32>,
    /// How much each matters.
    weights: &'a [f32],
    /// How dear a bit is.
    worth: f32,
}

/// A part of a plane: what an image has beside the coarser one in one direction, or the coarsest image.
#[derive(Clone, Copy)]
struct Band {
    left: usize,
    top: usize,
    width: usize,
    height: usize,
    level: usize,
    direction: usize,
}

impl Band {
    fn places(self) -> impl Iterator<Item = (usize, usize)> {
        (0..self.height).flat_map(move |y| (0..self.width).map(move |x| (x, y)))
    }
}

/// Every band, the coarsest first.
fn bands(width: usize, height: usize) -> Vec<Band> {
    let at = |level| (halved(width, level), halved(height, level));
    let (w, h) = at(LEVELS);
    let mut bands = vec![Band { left: 0, top: 0, width: w, height: h, level: LEVELS, direction: 0 }];
    for level in (1..=LEVELS).rev() {
        let ((w, h), (wider, higher)) = (at(level), at(level - 1));
        let band = |left, top, width, height, direction| Band { left, top, width, height, level, direction };
        bands.push(band(w, 0, wider - w, h, 1));
        bands.push(band(0, h, w, higher - h, 2));
        bands.push(band(w, h, wider - w, higher - h, 3));
    }
    bands
}

/// Kinds of what is around an amount: finely by how much there is, and roughly.
const FINE: usize = 10;
const ROUGH: usize = 3;

/// What is learnt of amounts while they are coded; of brightness and of colour apart.
struct Learnt {
    by_near: Vec<Odds>,
    by_band: Vec<Odds>,
    more: Vec<Odds>,
    coarsest: Vec<Odds>,
    has_any: Odds,
}

impl Learnt {
    fn new() -> Self {
        const NEAR: [u16; FINE] = [900, 5_000, 9_000, 14_000, 19_000, 24_000, 30_000, 36_000, 42_000, 48_000];
        const IN_BAND: [u16; ROUGH] = [1_500, 10_000, 28_000];
        const MORE: [u16; 3] = [14_000, 24_000, 32_000];
        Self {
            by_near: NEAR.map(Odds::new).to_vec(),
            by_band: IN_BAND.map(Odds::new).repeat(LEVELS * 3),
            more: MORE.map(Odds::new).repeat(ROUGH),
            coarsest: vec![Odds::new(32_768); 12],
            has_any: Odds::new(32_768),
        }
    }
}

impl Amounts {
    fn at(&self, x: usize, y: usize) -> i32 {
        self.steps[y * self.width + x]
    }

    /// Codes all of them: those that are wanted, or those that are read.
    fn code(&mut self, coder: &mut dyn Coder, learnt: &mut Learnt, wanted: Option<&Wanted<'_>>) {
        for band in bands(self.width, self.height) {
            if band.direction == 0 {
                self.code_coarsest(coder, &mut learnt.coarsest, band, wanted);
            } else {
                self.code_band(coder, learnt, band, wanted);
            }
        }
    }

    /// The coarsest image: each amount as its distance from the mean of its neighbours.
    fn code_coarsest(
        &mut self,
        coder: &mut dyn Coder,
        odds: &mut [Odds],
        band: Band,
        wanted: Option<&Wanted<'_>>,
    ) {
        for (x, y) in band.places() {
            let left = x.checked_sub(1).map(|x| self.at(x, y));
            let above = y.checked_sub(1).map(|y| self.at(x, y));
            let expected = match (left, above) {
                (Some(left), Some(above)) => (left + above) / 2,
                (left, above) => left.or(above).unwrap_or(0),
            };
            let place = y * self.width + x;
            let distance = wanted.map_or(0, |wanted| {
                let whole = whole(wanted.sizes[place].clamp(-4_095.0, 4_095.0));
                whole - expected
            });
            let size = counted(coder, distance.unsigned_abs(), odds);
            let is_less = size > 0 && coder.even(distance < 0);
            let amount = if is_less { expected - size.cast_signed() } else { expected + size.cast_signed() };
            self.steps[place] = amount.clamp(-MOST_COARSEST, MOST_COARSEST);
        }
    }

    fn code_band(
        &mut self,
        coder: &mut dyn Coder,
        learnt: &mut Learnt,
        band: Band,
        wanted: Option<&Wanted<'_>>,
    ) {
        let width = self.width;
        let place = |(x, y): (usize, usize)| (band.top + y) * width + band.left + x;
        let is_some = |wanted: &Wanted<'_>| band.places().any(|at| wanted.sizes[place(at)].abs() >= 0.6);
        if !coder.alone(wanted.is_some_and(is_some), &mut learnt.has_any) {
            return;
        }
        for (x, y) in band.places() {
            let at = place((x, y));
            let (fine, rough) = self.around(band, x, y);
            let in_band = ((band.level - 1) * 3 + band.direction - 1) * ROUGH + rough;
            let likely = together(&learnt.by_near[fine], &learnt.by_band[in_band]);
            let count = wanted.map_or(0, |wanted| {
                chosen(wanted.sizes[at].abs(), likely, wanted.worth / wanted.weights[at])
            });
            if coder.learnt(count > 0, &mut learnt.by_near[fine], &mut learnt.by_band[in_band]) {
                let count = more(coder, count, &mut learnt.more[rough * 3..][..3]).cast_signed();
                let is_less = coder.even(wanted.is_some_and(|wanted| wanted.sizes[at] < 0.0));
                self.steps[at] = if is_less { -count } else { count };
            }
        }
    }

    /// How much is around a place of a band that was coded before it: finely and roughly.
    fn around(&self, band: Band, x: usize, y: usize) -> (usize, usize) {
        let held = |x: usize, y: usize| self.at(x, y).unsigned_abs().min(3);
        let at = |dx: isize, dy: isize| match (x.checked_add_signed(dx), y.checked_add_signed(dy)) {
            (Some(x), Some(y)) if x < band.width && y < band.height => held(band.left + x, band.top + y),
            _ => 0,
        };
        let (mut left, mut above) = (at(-1, 0), at(0, -1));
        // What lies upright goes on upwards, what lies level to the side.
        match band.direction {
            1 => above *= 2,
            2 => left *= 2,
            _ => {}
        }
        let coarser = (band.left.div_ceil(2) + x / 2, band.top.div_ceil(2) + y / 2);
        let over = if band.level < LEVELS { held(coarser.0, coarser.1) } else { 0 };
        let sum = 2 * (left + above) + at(-1, -1) + at(1, -1) + at(-2, 0) + at(0, -2) + 2 * over;
        let fine = match sum {
            0 => 0,
            1 => 1,
            2 => 2,
            3 => 3,
            4 => 4,
            5..=6 => 5,
            7..=8 => 6,
            9..=11 => 7,
            12..=15 => 8,
            _ => 9,
        };
        let rough = match sum {
            0 => 0,
            1..=5 => 1,
            _ => 2,
        };
        (fine, rough)
    }
}

/// A count of at least one, as so many times "more"; the first few decisions have odds of their own.
fn more(coder: &mut dyn Coder, count: u32, odds: &mut [Odds]) -> u32 {
    let (mut found, mut place) = (1, 0);
    while found < MOST_BESIDE && coder.alone(count > found, &mut odds[place]) {
        found += 1;
        place = (place + 1).min(odds.len() - 1);
    }
    found
}

/// A count as the length of the number after it, and its digits.
fn counted(coder: &mut dyn Coder, count: u32, odds: &mut [Odds]) -> u32 {
    let length = (count + 1).ilog2();
    let mut digits = 0;
    while let Some(odds) = odds.get_mut(digits as usize) {
        if !coder.alone(length > digits, odds) {
            break;
        }
        digits += 1;
    }
    let with = |found: u32, digit: u32| found << 1 | u32::from(coder.even((count + 1) >> digit & 1 == 1));
    (0..digits).rev().fold(1, with) - 1
}

/// How many steps are written of a size in steps: fewer where what they mend is not worth their bits.
fn chosen(size: f32, likely: u32, worth: f32) -> u32 {
    let most = whole(squeezed(size)).unsigned_abs().min(MOST_BESIDE);
    if most == 0 {
        return 0;
    }
    let share = real(likely) / 65_536.0;
    let (none, some) = (-libm::log2f(1.0 - share), 1.0 - libm::log2f(share));
    let cost = |count: u32| {
        let left = size - value_of(count);
        let bits = if count == 0 { none } else { some + 1.2 * real(count) };
        left * left + worth * bits
    };
    let count = if cost(most - 1) < cost(most) { most - 1 } else { most };
    if cost(0) < cost(count) { 0 } else { count }
}

/// What so many steps stand for: the more there are, the further apart.
fn value_of(count: u32) -> f32 {
    let size = real(count) + ABOVE;
    if count == 0 { 0.0 } else { size + WIDER * size * size }
}

/// How many steps, not yet whole, stand for a size.
fn squeezed(size: f32) -> f32 {
    (libm::sqrtf(1.0 + 4.0 * WIDER * size) - 1.0) / (2.0 * WIDER) - ABOVE
}

fn whole(value: f32) -> i32 {
    i32::try_from(nearest(f64::from(value))).unwrap_or(0)
}

/// Counts are small.
fn real(count: u32) -> f32 {
    f32::from(u16::try_from(count).unwrap_or(u16::MAX))
}

/// Writes the planes of a picture in at most so many bytes: of brightness, and of the differences of colour at half the size.
pub(super) fn write([width, height]: [u8; 2], planes: &[Plane; 3], room: usize) -> Vec<u8> {
    let waves = planes.clone().map(|plane| plane.split(LEVELS));
    let weights = [weights(&planes[0]), vec![1.0; planes[1].values.len()]];
    let with = |code: u8, sparing: f32| {
        let mut writer = Writer::new();
        let mut learnt = [Learnt::new(), Learnt::new()];
        for (channel, plane) in waves.iter().enumerate() {
            let mut sizes = plane.values.clone();
            for band in bands(plane.width, plane.height) {
                let step = step(code, channel, band.level);
                for row in sizes[band.top * plane.width..].chunks_exact_mut(plane.width).take(band.height) {
                    row[band.left..][..band.width].iter_mut().for_each(|size| *size /= step);
                }
            }
            let wanted = Wanted { sizes, weights: &weights[channel.min(1)], worth: WORTH * sparing };
            let steps = vec![0; plane.values.len()];
            let mut amounts = Amounts { width: plane.width, height: plane.height, steps };
            amounts.code(&mut writer, &mut learnt[channel.min(1)], Some(&wanted));
        }
        [vec![MARK, width, height, code], writer.end()].concat()
    };
    // The finest step that fits; then what comes closest to the room.
    let (mut finest, mut coarse) = (0, MOST_STEP);
    while finest < coarse {
        let middle = finest.midpoint(coarse);
        if with(middle, 1.0).len() <= room { coarse = middle } else { finest = middle + 1 }
    }
    let codes = coarse.saturating_sub(3)..=coarse;
    let tried = codes.flat_map(|code| [0.6, 0.8, 1.0, 1.2].map(|sparing| with(code, sparing)));
    let fitting = tried.filter(|bytes| bytes.len() <= room);
    fitting.max_by_key(Vec::len).unwrap_or_else(|| with(MOST_STEP, 1.0))
}

/// How much each amount matters: the less, the more there is to see around it, as in the structural similarity of Z. Wang and
/// others (IEEE Transactions on Image Processing 13(4), 2004) where differences are small.
fn weights(light: &Plane) -> Vec<f32> {
    let (width, height) = (light.width, light.height);
    let mean = |values: &[f32], left: usize, top: usize, right: usize, bottom: usize, of: fn(f32) -> f32| {
        let rows = (top..bottom.min(height)).flat_map(|y| &values[y * width..][left..right.min(width)]);
        let (sum, count) = rows.fold((0.0_f32, 0_u32), |(sum, count), &value| (sum + of(value), count + 1));
        sum / real(count.max(1))
    };
    let mut matters = Vec::with_capacity(width * height);
    for y in 0..height {
        for x in 0..width {
            let [left, top] = [x, y].map(|at| at.saturating_sub(AROUND));
            let of = |what| mean(&light.values, left, top, x + AROUND + 1, y + AROUND + 1, what);
            let (middle, squares) = (of(|value| value), of(|value| value * value));
            matters.push(BUSY / (2.0 * (squares - middle * middle).max(0.0) + BUSY));
        }
    }
    let mut weights = vec![1.0; width * height];
    for band in bands(width, height).into_iter().filter(|band| band.direction > 0) {
        let side = 1 << band.level;
        for (x, y) in band.places() {
            let (left, top) = ((x * side).min(width - 1), (y * side).min(height - 1));
            weights[(band.top + y) * width + band.left + x] =
                mean(&matters, left, top, left + side, top + side, |value| value);
        }
    }
    weights
}

/// The sides, the step and what is coded; `None` for what is no likeness.
fn parts(bytes: &[u8]) -> Option<([u8; 2], u8, &[u8])> {
    let (&[mark, width, height, code], coded) = bytes.split_first_chunk::<HEAD>()?;
    let is_within = |side: u8| (1..=MOST_SIDE).contains(&side);
    let is_one = mark == MARK && is_within(width) && is_within(height) && code <= MOST_STEP;
    is_one.then_some(([width, height], code, coded))
}

/// Whether bytes are a likeness: with a mark, sides and a step that are allowed, whatever comes next is one.
pub(super) fn is_one(bytes: &[u8]) -> bool {
    parts(bytes).is_some()
}

/// The planes of a likeness; `None` for what is none.
pub(super) fn read(bytes: &[u8]) -> Option<[Plane; 3]> {
    let ([width, height], code, coded) = parts(bytes)?;
    let mut reader = Reader::of(coded);
    let mut learnt = [Learnt::new(), Learnt::new()];
    Some([0, 1, 2].map(|channel: usize| {
        let [width, height] = [width, height].map(|side| halved(usize::from(side), channel.min(1)));
        let mut amounts = Amounts { width, height, steps: vec![0; width * height] };
        amounts.code(&mut reader, &mut learnt[channel.min(1)], None);
        let mut plane = Plane { width, height, values: vec![0.0; width * height] };
        for band in bands(width, height) {
            let step = step(code, channel, band.level);
            for (x, y) in band.places() {
                let at = (band.top + y) * width + band.left + x;
                let count = amounts.steps[at];
                let size = real(count.unsigned_abs());
                let value = step * if band.direction == 0 { size } else { value_of(count.unsigned_abs()) };
                plane.values[at] = if count < 0 { -value } else { value };
            }
        }
        plane.join(LEVELS)
    }))
}
