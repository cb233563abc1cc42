//! Chance, the same on every machine: a stream of numbers from a seed, and smooth noise over the plane.

/// A stream of numbers: SplitMix64 (Steele, Lea and Flood, 2014), whose constants are in the public domain.
pub(crate) struct Chance(u64);

impl Chance {
    /// The stream that begins at `seed`.
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        mixed(self.0)
    }

    /// From 0 up to 1.
    pub(crate) fn unit(&mut self) -> f32 {
        fraction(self.next())
    }

    /// Between two numbers.
    pub(crate) fn between(&mut self, low: f32, high: f32) -> f32 {
        low + (high - low) * self.unit()
    }

    /// Around zero, mostly within one, never beyond one and a half.
    pub(crate) fn about(&mut self) -> f32 {
        self.unit() + self.unit() + self.unit() - 1.5
    }

    /// A seed for something smaller.
    pub(crate) fn seed(&mut self) -> u64 {
        self.next()
    }

    /// Puts a list into another order.
    pub(crate) fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            let other = self.next() % (last as u64 + 1);
            items.swap(last, usize::try_from(other).unwrap_or_default());
        }
    }
}

const fn mixed(value: u64) -> u64 {
    let value = (value ^ (value >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let value = (value ^ (value >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    value ^ (value >> 31)
}

/// The upper 24 bits as a fraction: as many as an `f32` holds.
fn fraction(value: u64) -> f32 {
    (value >> 40) as f32 / 16_777_216.0
}

/// Smooth noise from 0 to 1, one hill or hollow to each unit square.
pub(crate) fn noise(x: f32, y: f32, seed: u64) -> f32 {
    let (left, top) = (x.floor(), y.floor());
    let (dx, dy) = (eased(x - left), eased(y - top));
    let corner = |across: i64, down: i64| {
        let (column, row) = (cell(left) + across, cell(top) + down);
        let key = column.cast_unsigned().wrapping_mul(0x9e37_79b9_7f4a_7c15)
            ^ row.cast_unsigned().wrapping_mul(0xc2b2_ae3d_27d4_eb4f);
        fraction(mixed(key ^ seed))
    };
    let upper = corner(0, 0) + (corner(1, 0) - corner(0, 0)) * dx;
    let lower = corner(0, 1) + (corner(1, 1) - corner(0, 1)) * dx;
    upper + (lower - upper) * dy
}

/// Noise with finer noise upon it: from 0 to 1, mostly near the middle.
pub(crate) fn cloudy(x: f32, y: f32, octaves: u32, seed: u64) -> f32 {
    let (mut sum, mut weight, mut scale) = (0.0, 0.0, 1.0);
    let mut share = 1.0;
    for octave in 0..u64::from(octaves) {
        sum += share * noise(x * scale + 17.3 * scale, y * scale - 9.1 * scale, seed.wrapping_add(octave));
        weight += share;
        share *= 0.52;
        scale *= 2.03;
    }
    sum / weight
}

#[expect(clippy::cast_possible_truncation, reason = "a whole number already; the cast saturates")]
fn cell(whole: f32) -> i64 {
    whole as i64
}

fn eased(t: f32) -> f32 {
    t * t * (3.0 - 2.0 * t)
}
