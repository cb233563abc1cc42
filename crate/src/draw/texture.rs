//! Textures that are worked out, not stored: the grain of wood, brushed metal, leaf. The same seed gives the same texture, on
//! every machine.

use crate::plan::Surface;

/// A number from 0 to 1 for a cell of a lattice.
fn cell(x: i32, y: i32, seed: u32) -> f32 {
    let mut hash = x.cast_unsigned().wrapping_mul(0x9e37_79b1)
        ^ y.cast_unsigned().wrapping_mul(0x85eb_ca6b)
        ^ seed.wrapping_mul(0xc2b2_ae35);
    hash ^= hash >> 15;
    hash = hash.wrapping_mul(0x2c1b_3c6d);
    hash ^= hash >> 12;
    hash = hash.wrapping_mul(0x297a_2d39);
    hash ^= hash >> 15;
    f32::from(u16::try_from(hash >> 16).unwrap_or(0)) / 65_535.0
}

/// Value noise: smooth between random cells, 0 to 1.
pub(super) fn noise(x: f32, y: f32, seed: u32) -> f32 {
    Noise::default().at(x, y, seed)
}

/// Value noise that remembers the cell it was last in: places that are asked for one after the other lie mostly in the same.
#[derive(Default)]
pub(super) struct Noise {
    cell: Option<(i32, i32, u32)>,
    /// At its corners: upper left, upper right, lower left, lower right.
    corners: [f32; 4],
}

impl Noise {
    /// As [`noise`].
    pub(super) fn at(&mut self, x: f32, y: f32, seed: u32) -> f32 {
        let (left, top) = (libm::floorf(x), libm::floorf(y));
        let ease = |share: f32| share * share * (3.0 - 2.0 * share);
        let (across, down) = (ease(x - left), ease(y - top));
        #[expect(clippy::cast_possible_truncation, reason = "saturates: a lattice has no end that matters")]
        let (column, row) = (left as i32, top as i32);
        if self.cell != Some((column, row, seed)) {
            let next = (column.wrapping_add(1), row.wrapping_add(1));
            self.corners =
                [(column, row), (next.0, row), (column, next.1), next].map(|(x, y)| cell(x, y, seed));
            self.cell = Some((column, row, seed));
        }
        let [upper_left, upper_right, lower_left, lower_right] = self.corners;
        let upper = upper_left * (1.0 - across) + upper_right * across;
        let lower = lower_left * (1.0 - across) + lower_right * across;
        upper * (1.0 - down) + lower * down
    }
}

/// Of what is seen less than this nothing is worked out.
const LEAST_SEEN: f32 = 0.15;

/// Plain weave: how high the uppermost thread lies at a place, counted in threads; from 0 to 1.
pub(super) fn woven(x: f32, y: f32) -> f32 {
    let (column, row) = (libm::floorf(x), libm::floorf(y));
    let arch = |share: f32| 4.0 * share * (1.0 - share);
    let (across, down) = (arch(x - column), arch(y - row));
    // Threads of the two kinds lie on top in turn, as the squares of a chequer.
    let is_warp = ((column + row) * 0.5).fract() == 0.0;
    if is_warp { across * (0.6 + 0.4 * down) } else { down * (0.6 + 0.4 * across) }
}

/// The texture of a rail: how light it is at a place along it and across it, in inches, around 1.
pub(super) struct Rail {
    surface: Surface,
    /// Pixels to the inch: what is finer than a pixel is left out.
    scale: f32,
    seed: u32,
    noise: [Noise; 4],
}

impl Rail {
    /// Of a surface. Rails with other seeds are cut from other sticks.
    pub(super) fn new(surface: Surface, scale: f32, seed: u32) -> Self {
        Self { surface, scale, seed, noise: Default::default() }
    }

    /// How light it is there.
    pub(super) fn at(&mut self, along: f32, across: f32) -> f32 {
        let (scale, seed) = (self.scale, self.seed);
        let [first, second, third, fourth] = &mut self.noise;
        match self.surface {
            Surface::Grain => {
                let seen = |to_the_inch: f32| (scale / to_the_inch / 2.0).min(1.0);
                let wave = first.at(along * 0.3, across, seed ^ 7) * 2.5;
                let bands = second.at(along * 0.45, across * 9.0 + wave, seed) - 0.5;
                let mut light = 1.0 + bands * 0.34 * seen(9.0);
                if seen(44.0) > LEAST_SEEN {
                    let fibres = third.at(along * 2.2, across * 44.0, seed ^ 0x51) - 0.5;
                    light += fibres * 0.2 * seen(44.0);
                }
                if seen(90.0) > LEAST_SEEN {
                    let pores = fourth.at(along * 5.0, across * 90.0, seed ^ 0xa3) - 0.72;
                    light -= pores.max(0.0) * 0.9 * seen(90.0);
                }
                light
            }
            // Hardly anything.
            Surface::Paint => 0.99 + first.at(along * 6.0, across * 30.0, seed) * 0.02,
            // Fine lines along the rail.
            Surface::Metal => {
                let fine = first.at(along * 1.1, across * 150.0, seed) - 0.5;
                let wide = second.at(along * 0.4, across * 20.0, seed ^ 0x33) - 0.5;
                1.0 + fine * 0.22 * (scale / 300.0).min(1.0) + wide * 0.12 * (scale / 40.0).min(1.0)
            }
            // Leaf: squares of 3 3/8 in, the size of a leaf of gold (from memory), rubbed through here and there.
            Surface::Gilt => {
                let worn = first.at(along * 2.6, across * 2.6, seed) * 0.6
                    + second.at(along * 9.0, across * 9.0, seed ^ 9) * 0.4;
                let place = along / 3.375;
                let from_seam = (place - libm::roundf(place)).abs() * 3.375;
                let seam = if from_seam < 0.03 { 0.1 } else { 0.0 };
                0.86 + worn * 0.28 - seam
            }
        }
    }
}
