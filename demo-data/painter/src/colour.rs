//! Colours as a painter mixes them, and the few steps between numbers that everything here shares.

/// Red, green and blue as sRGB values from 0 to 1.
///
/// Mixed as they stand: paint is no light, and the mean of two sRGB values comes nearer to a mixed paint than the mean
/// of two lights.
pub(crate) type Colour = [f32; 3];

/// A colour from the usual six digits.
#[expect(clippy::cast_possible_truncation, reason = "eight bits are taken each time")]
pub(crate) const fn hex(digits: u32) -> Colour {
    [(digits >> 16) as u8 as f32 / 255.0, (digits >> 8) as u8 as f32 / 255.0, digits as u8 as f32 / 255.0]
}

/// From `a` at 0 to `b` at 1.
pub(crate) fn mix(a: Colour, b: Colour, share: f32) -> Colour {
    let share = share.clamp(0.0, 1.0);
    [0, 1, 2].map(|i| a[i] + (b[i] - a[i]) * share)
}

/// Lighter by `light`, and warmer by `warmth`: redder and less blue.
pub(crate) fn shifted(colour: Colour, light: f32, warmth: f32) -> Colour {
    let [r, g, b] = colour;
    [r + light + warmth, g + light + warmth * 0.15, b + light - warmth]
}

/// How far apart two colours look, roughly: 1 from black to white.
pub(crate) fn difference(a: Colour, b: Colour) -> f32 {
    let [r, g, b] = [0, 1, 2].map(|i| a[i] - b[i]);
    (0.3 * r * r + 0.5 * g * g + 0.2 * b * b).sqrt()
}

/// From 0 at `low` to 1 at `high`, with no corner.
pub(crate) fn step(low: f32, high: f32, value: f32) -> f32 {
    let t = ((value - low) / (high - low)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// A bell of height 1 over zero.
pub(crate) fn bell(distance: f32, breadth: f32) -> f32 {
    libm::expf(-(distance / breadth) * (distance / breadth))
}

/// An index: whole and not below zero.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast saturates, and an index is bounded where it is used"
)]
pub(crate) fn index(value: f32) -> usize {
    value as usize
}

/// A value from 0 to 1 as a byte.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the cast saturates")]
pub(crate) fn byte(value: f32) -> u8 {
    (value * 255.0 + 0.5) as u8
}
