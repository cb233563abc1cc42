//! Colours as stated, and as light.
//!
//! A stated colour is sRGB of eight bits a channel. Whatever is physically light (shadow, scaling, coverage) is computed
//! in linear light and encoded once at the end.
//!
//! ```
//! use overmantel::colour::{Colour, decode, encode};
//! assert_eq!(encode((decode(0) + decode(255)) / 2.0), 188, "the mean of black and white, as light");
//! assert!((Colour::hex(0x76_76_76).contrast(Colour::hex(0xff_ff_ff)) - 4.5422).abs() < 1e-4);
//! ```

use std::sync::LazyLock;
use wide::f32x4;

mod dim;
pub(crate) use dim::Dimmer;

/// An sRGB colour of eight bits a channel (IEC 61966-2-1).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Colour {
    /// From `0xrrggbb`.
    #[must_use]
    pub const fn hex(rgb: u32) -> Self {
        let [_, red, green, blue] = rgb.to_be_bytes();
        Self { red, green, blue }
    }

    /// Reads `#rrggbb`; `None` for anything else.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let digits = text.strip_prefix('#').filter(|digits| digits.len() == 6)?;
        if !digits.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return None;
        }
        u32::from_str_radix(digits, 16).ok().map(Self::hex)
    }
}

impl std::fmt::Display for Colour {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

impl Colour {
    /// Relative luminance, 0 for black to 1 for white (WCAG 2.2, "relative luminance").
    #[must_use]
    pub fn luminance(self) -> f32 {
        0.2126 * decode(self.red) + 0.7152 * decode(self.green) + 0.0722 * decode(self.blue)
    }

    /// Contrast ratio of two colours, from 1 to 21, whichever is the lighter (WCAG 2.2, "contrast ratio").
    #[must_use]
    pub fn contrast(self, other: Self) -> f32 {
        let (a, b) = (self.luminance() + 0.05, other.luminance() + 0.05);
        a.max(b) / a.min(b)
    }

    /// The colour when only `share` of the light that falls on it is left (more than 1: more light).
    #[must_use]
    pub fn lit(self, share: f32) -> Self {
        let channel = |value| encode(decode(value) * share);
        Self { red: channel(self.red), green: channel(self.green), blue: channel(self.blue) }
    }

    /// A mix in linear light: `share` of the other colour, from 0 to 1.
    #[must_use]
    pub fn mixed(self, other: Self, share: f32) -> Self {
        let channel = |a, b| encode(decode(a) * (1.0 - share) + decode(b) * share);
        Self {
            red: channel(self.red, other.red),
            green: channel(self.green, other.green),
            blue: channel(self.blue, other.blue),
        }
    }
}

/// The transfer function of IEC 61966-2-1, from an encoded value to linear light, both 0 to 1.
fn to_light(value: f64) -> f64 {
    if value <= 0.040_45 { value / 12.92 } else { libm::pow((value + 0.055) / 1.055, 2.4) }
}

static DECODED: LazyLock<[f32; 256]> = LazyLock::new(|| {
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        reason = "0 to 255; light as f32"
    )]
    std::array::from_fn(|code| to_light(code as f64 / 255.0) as f32)
});

/// Steps of the table from light to code: fine enough that every code decodes and encodes back to itself.
const STEPS: usize = 1 << 14;
/// The same, for calculating.
const STEPS_WHOLE: i32 = 1 << 14;

/// For each of so many equal steps of light, and for white, the nearest code: the next code begins half a code further on.
pub(crate) fn codes(steps: usize) -> Vec<u8> {
    let mut codes = Vec::with_capacity(steps + 1);
    for code in 0..u8::MAX {
        #[expect(clippy::cast_precision_loss, reason = "some ten thousands")]
        let end = to_light((f64::from(code) + 0.5) / 255.0) * steps as f64;
        codes.resize(whole_places(libm::ceil(end)), code);
    }
    codes.resize(steps + 1, u8::MAX);
    codes
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to the steps of a table")]
fn whole_places(value: f64) -> usize {
    value as usize
}

static ENCODED: LazyLock<Box<[u8; STEPS + 1]>> =
    LazyLock::new(|| codes(STEPS).try_into().unwrap_or_else(|_| Box::new([0; STEPS + 1])));

/// The linear light, from 0 to 1, of an sRGB code (IEC 61966-2-1).
#[must_use]
#[inline]
pub fn decode(code: u8) -> f32 {
    DECODED[usize::from(code)]
}

/// The sRGB code nearest to a linear light; light beyond 0 to 1 is held there (IEC 61966-2-1).
#[must_use]
pub fn encode(light: f32) -> u8 {
    Encoder::new().code(light)
}

/// The table behind [`encode`], for loops over many pixels.
#[derive(Clone, Copy, Debug)]
pub struct Encoder(&'static [u8; STEPS + 1]);

impl Encoder {
    /// The table.
    #[must_use]
    pub fn new() -> Self {
        Self(&ENCODED)
    }

    /// The code nearest to a linear light, as [`encode`] gives it.
    #[must_use]
    pub fn code(self, light: f32) -> u8 {
        #[expect(clippy::cast_precision_loss, reason = "16384")]
        let step = light * STEPS as f32 + 0.5;
        // The cast holds what is out of range at its ends, and what is no number at nothing.
        #[expect(clippy::cast_possible_truncation, reason = "saturates")]
        let step = (step as i32).clamp(0, STEPS_WHOLE).cast_unsigned() as usize;
        self.0[step.min(STEPS)]
    }

    /// The codes nearest to four linear lights, as [`encode`] gives them.
    #[must_use]
    pub(crate) fn codes(self, light: f32x4) -> [u8; 4] {
        #[expect(clippy::cast_precision_loss, reason = "16384")]
        let steps = light.max(f32x4::ZERO).min(f32x4::ONE) * STEPS as f32 + 0.5;
        steps.fast_trunc_int().to_array().map(|step| self.0[(step.cast_unsigned() as usize).min(STEPS)])
    }
}

impl Default for Encoder {
    fn default() -> Self {
        Self::new()
    }
}

/// For each step of light the code of sixteen bits, which need not be whole: between two steps it is taken as straight, which is off by less
/// than a hundredth of a code.
static ENCODED_WIDE: LazyLock<Vec<f32>> = LazyLock::new(|| {
    let encoded = |light: f64| {
        if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * libm::pow(light, 1.0 / 2.4) - 0.055 }
    };
    #[expect(clippy::cast_possible_truncation, reason = "at most 65535")]
    (0..=u32::from(u16::MAX) + 1)
        .map(|step| (encoded(f64::from(step) / 65_535.0) * 65_535.0) as f32)
        .collect()
});

static DECODED_WIDE: LazyLock<Vec<f32>> = LazyLock::new(|| {
    #[expect(clippy::cast_possible_truncation, reason = "light as f32")]
    (0..=u16::MAX).map(|code| to_light(f64::from(code) / 65_535.0) as f32).collect()
});

/// The linear light, from 0 to 1, of an sRGB code of sixteen bits (IEC 61966-2-1).
#[must_use]
pub fn decode_wide(code: u16) -> f32 {
    DECODED_WIDE[usize::from(code)]
}

/// The sRGB code of sixteen bits nearest to a linear light; light beyond 0 to 1 is held there (IEC 61966-2-1).
#[must_use]
pub fn encode_wide(light: f32) -> u16 {
    let place = light.clamp(0.0, 1.0) * 65_535.0;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within 16 bits; no number is nothing"
    )]
    let (step, code) = (place as usize, |value: f32| (value + 0.5) as u16);
    #[expect(clippy::cast_precision_loss, reason = "at most 65535")]
    let share = place - step as f32;
    let table = &*ENCODED_WIDE;
    code(table[step] + (table[step + 1] - table[step]) * share)
}

/// The table behind [`decode`], for loops over many pixels.
#[must_use]
pub fn decode_table() -> &'static [f32; 256] {
    &DECODED
}
