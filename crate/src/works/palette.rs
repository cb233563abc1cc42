//! Palettes: the main colours of a work in OKLab, in which distances are about as large as they look, and how far two palettes are apart.
//!
//! OKLab and its matrices are Björn Ottosson's ("A perceptual color space for image processing", 2020), as CSS Color 4 has them too; both from memory, held by
//! the values for the primaries that CSS publishes. Colours are gathered by k-means from fixed starting points, so that a picture always has the same palette.

use crate::colour::{Colour, decode, encode};
use std::fmt;

/// Colours of a palette at most.
pub const COLOURS: usize = 5;
/// Pixels that are looked at at most.
const SAMPLES: usize = 4096;
/// Rounds of gathering: more change nothing that is seen.
const ROUNDS: usize = 12;

/// A colour in OKLab: lightness from 0 to 1, then green to red, blue to yellow.
type Lab = [f64; 3];

/// The main colours of a work with their shares in percent, the largest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Palette {
    /// Each colour with its share.
    pub colours: Vec<(Colour, u8)>,
}

/// A colour as light, then as cones respond to it, then as OKLab.
fn lab(colour: Colour) -> Lab {
    let [r, g, b] = [colour.red, colour.green, colour.blue].map(|code| f64::from(decode(code)));
    let cones = [
        0.412_221_470_8 * r + 0.536_332_536_3 * g + 0.051_445_992_9 * b,
        0.211_903_498_2 * r + 0.680_699_545_1 * g + 0.107_396_956_6 * b,
        0.088_302_461_9 * r + 0.281_718_837_6 * g + 0.629_978_700_5 * b,
    ];
    let [l, m, s] = cones.map(libm::cbrt);
    [
        0.210_454_255_3 * l + 0.793_617_785_0 * m - 0.004_072_046_8 * s,
        1.977_998_495_1 * l - 2.428_592_205_0 * m + 0.450_593_709_9 * s,
        0.025_904_037_1 * l + 0.782_771_766_2 * m - 0.808_675_766_0 * s,
    ]
}

/// The other way round.
fn colour([l, a, b]: Lab) -> Colour {
    let cube = |value: f64| value * value * value;
    let [l, m, s] = [
        l + 0.396_337_777_4 * a + 0.215_803_757_3 * b,
        l - 0.105_561_345_8 * a - 0.063_854_172_8 * b,
        l - 0.089_484_177_5 * a - 1.291_485_548_0 * b,
    ]
    .map(cube);
    #[expect(clippy::cast_possible_truncation, reason = "light as f32")]
    let code = |light: f64| encode(light as f32);
    Colour {
        red: code(4.076_741_662_1 * l - 3.307_711_591_3 * m + 0.230_969_929_2 * s),
        green: code(-1.268_438_004_6 * l + 2.609_757_401_1 * m - 0.341_319_396_5 * s),
        blue: code(-0.004_196_086_3 * l - 0.703_418_614_7 * m + 1.707_614_701_0 * s),
    }
}

fn squared(one: Lab, other: Lab) -> f64 {
    one.iter().zip(other).map(|(one, other)| (one - other) * (one - other)).sum()
}

/// The distance of two colours in OKLab, in thousandths: 1000 between black and white.
#[must_use]
pub fn apart(one: Colour, other: Colour) -> i64 {
    thousandths(libm::sqrt(squared(lab(one), lab(other))))
}

#[expect(clippy::cast_possible_truncation, reason = "a few thousand at most")]
fn thousandths(value: f64) -> i64 {
    libm::round(value * 1000.0) as i64
}

impl Palette {
    /// The palette of a picture of 8 bits a channel, red, green, blue and alpha; `None` where it has no pixels.
    #[must_use]
    pub fn of(rgba: &[u8]) -> Option<Self> {
        let pixels = rgba.as_chunks::<4>().0;
        let step = (pixels.len() / SAMPLES).max(1);
        let points: Vec<Lab> = pixels
            .iter()
            .step_by(step)
            .map(|&[red, green, blue, _]| lab(Colour { red, green, blue }))
            .collect();
        let mut middles: Vec<Lab> = Vec::new();
        let mut far = vec![f64::INFINITY; points.len()];
        // From the mean on, each further one is where the others are furthest.
        let mut next = mean(points.iter())?;
        for _ in 0..COLOURS {
            middles.push(next);
            far.iter_mut().zip(&points).for_each(|(far, point)| *far = far.min(squared(*point, next)));
            let furthest = far.iter().zip(&points).max_by(|one, other| one.0.total_cmp(other.0));
            let Some((_, point)) = furthest.filter(|(far, _)| **far > 1e-4) else { break };
            next = *point;
        }
        let mut nearest = vec![0; points.len()];
        for _ in 0..ROUNDS {
            for (place, point) in nearest.iter_mut().zip(&points) {
                *place = least(&middles, |middle| squared(*point, *middle));
            }
            for (index, middle) in middles.iter_mut().enumerate() {
                let own = points.iter().zip(&nearest).filter(|(_, place)| **place == index);
                *middle = mean(own.map(|(point, _)| point)).unwrap_or(*middle);
            }
        }
        let mut colours: Vec<(Colour, usize)> = middles
            .iter()
            .enumerate()
            .map(|(index, middle)| (colour(*middle), nearest.iter().filter(|place| **place == index).count()))
            .collect();
        crate::order::sort_by(&mut colours, |one, other| other.1.cmp(&one.1));
        let percent = |count: usize| u8::try_from((count * 200 / points.len()).div_ceil(2)).unwrap_or(100);
        let colours = colours.into_iter().map(|(colour, count)| (colour, percent(count)));
        Some(Self { colours: colours.filter(|(_, share)| *share > 0).collect() })
    }

    /// Reads what [`Palette`] writes: colours as `#rrggbb`, each with its share in percent, such as `#8a9aa0 60, #2b2f33 40`.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let parts = text.split([',', ';']).map(str::trim).filter(|part| !part.is_empty());
        let read = |part: &str| {
            let (colour, share) = part.split_once(char::is_whitespace)?;
            let share = share.trim().trim_end_matches('%').trim().parse().ok()?;
            Some((Colour::parse(colour)?, share)).filter(|(_, share)| (1..=100).contains(share))
        };
        let colours: Vec<(Colour, u8)> = parts.map(read).collect::<Option<_>>()?;
        (1..=2 * COLOURS).contains(&colours.len()).then_some(Self { colours })
    }

    /// How far two palettes are apart, in thousandths of OKLab: for each colour of one the nearest of the other, by shares, both ways.
    #[must_use]
    pub fn apart(&self, other: &Self) -> i64 {
        Measured::of(self).apart(&Measured::of(other))
    }
}

/// A palette in OKLab, for comparing it with many.
#[derive(Clone, Debug)]
pub(super) struct Measured(Vec<(Lab, f64)>);

impl Measured {
    pub(super) fn of(palette: &Palette) -> Self {
        Self(
            palette
                .colours
                .iter()
                .take(2 * COLOURS)
                .map(|(colour, share)| (lab(*colour), f64::from(*share)))
                .collect(),
        )
    }

    /// See [`Palette::apart`].
    pub(super) fn apart(&self, other: &Self) -> i64 {
        if self.0.is_empty() || other.0.is_empty() {
            return 0;
        }
        // Every distance once: the least of each row is one way, the least of each column the other.
        let mut nearest = [f64::INFINITY; 2 * COLOURS];
        let (mut sum, mut shares) = (0.0, 0.0);
        for (colour, share) in &self.0 {
            let mut least = f64::INFINITY;
            for (place, (far, _)) in nearest.iter_mut().zip(&other.0) {
                let distance = squared(*colour, *far);
                *place = place.min(distance);
                least = least.min(distance);
            }
            sum += share * libm::sqrt(least);
            shares += share;
        }
        let there: f64 =
            other.0.iter().zip(nearest).map(|((_, share), least)| share * libm::sqrt(least)).sum();
        let all: f64 = other.0.iter().map(|(_, share)| share).sum();
        thousandths(f64::midpoint(sum / shares, there / all))
    }
}

impl fmt::Display for Palette {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, (colour, share)) in self.colours.iter().enumerate() {
            let between = if index > 0 { ", " } else { "" };
            write!(f, "{between}{colour} {share}")?;
        }
        Ok(())
    }
}

fn mean<'a>(points: impl Iterator<Item = &'a Lab>) -> Option<Lab> {
    let (mut sum, mut count) = ([0.0; 3], 0_u32);
    for point in points {
        sum.iter_mut().zip(point).for_each(|(sum, value)| *sum += value);
        count += 1;
    }
    (count > 0).then(|| sum.map(|sum| sum / f64::from(count)))
}

/// The place of the least.
fn least(middles: &[Lab], of: impl Fn(&Lab) -> f64) -> usize {
    let mut best = (f64::INFINITY, 0);
    for (index, middle) in middles.iter().enumerate() {
        let value = of(middle);
        if value < best.0 {
            best = (value, index);
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CSS Color Module Level 4 on OKLab (from memory): white, red, lime and blue.
    #[test]
    fn primaries_are_where_they_are_published() {
        for (rgb, expected) in [
            (0xff_ff_ff, [1.0, 0.0, 0.0]),
            (0x00_00_00, [0.0, 0.0, 0.0]),
            (0xff_00_00, [0.627_96, 0.224_86, 0.125_85]),
            (0x00_ff_00, [0.866_44, -0.233_89, 0.179_50]),
            (0x00_00_ff, [0.452_01, -0.032_46, -0.311_53]),
        ] {
            let found = lab(Colour::hex(rgb));
            assert!(squared(found, expected) < 1e-8, "{rgb:06x}: {found:?}");
            assert_eq!(colour(found), Colour::hex(rgb), "and back");
        }
        assert_eq!(apart(Colour::hex(0), Colour::hex(0xff_ff_ff)), 1000);
    }

    #[test]
    fn a_picture_of_three_colours_has_these() {
        let pixel = |rgb: u32| {
            let Colour { red, green, blue } = Colour::hex(rgb);
            [red, green, blue, 255]
        };
        let mut rgba = pixel(0x80_90_a0).repeat(600);
        rgba.extend(pixel(0x20_20_28).repeat(300));
        rgba.extend(pixel(0xd0_60_30).repeat(100));
        let found = Palette::of(&rgba).expect("it has pixels");
        let expected =
            [(Colour::hex(0x80_90_a0), 60), (Colour::hex(0x20_20_28), 30), (Colour::hex(0xd0_60_30), 10)];
        assert_eq!(found.colours, expected);
        assert_eq!(found.to_string(), "#8090a0 60, #202028 30, #d06030 10");
        assert_eq!(Palette::read(&found.to_string()).as_ref(), Some(&found));
        assert_eq!(found.apart(&found), 0);
        assert_eq!(Palette::of(&[]), None);
        for text in ["", "grey 60", "#8090a0", "#8090a0 0", "#8090a0 101"] {
            assert_eq!(Palette::read(text), None, "{text}");
        }
    }

    /// Of one colour each, palettes are as far apart as the colours; with half of one in common, by half of both halves.
    #[test]
    fn palettes_are_apart_by_their_nearest_colours() {
        let read = |text| Palette::read(text).expect(text);
        assert_eq!(read("#000000 100").apart(&read("#ffffff 100")), 1000);
        // One way half of it is 1000 away, the other way nothing: (500 + 0) / 2.
        assert_eq!(read("#000000 50, #ffffff 50").apart(&read("#ffffff 100")), 250);
        assert_eq!(read("#ffffff 100").apart(&read("#000000 50, #ffffff 50")), 250);
    }
}
