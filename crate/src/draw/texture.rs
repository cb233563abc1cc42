//! Textures that are worked out, not stored: the grain of wood, brushed metal, leaf. The same seed gives the same texture, on
//! every machine.

use crate::plan::Surface;
use wide::{f32x4, i32x4, u32x4};

/// Numbers from 0 to 65,535 for cells of a lattice.
#[inline]
fn cells(x: u32x4, y: u32x4, seed: u32) -> f32x4 {
    let seed = u32x4::splat(seed.wrapping_mul(0xc2b2_ae35));
    let mut hash = (x * u32x4::splat(0x9e37_79b1)) ^ (y * u32x4::splat(0x85eb_ca6b)) ^ seed;
    hash = (hash ^ (hash >> 15)) * u32x4::splat(0x2c1b_3c6d);
    hash = (hash ^ (hash >> 12)) * u32x4::splat(0x297a_2d39);
    hash = (hash ^ (hash >> 15)) >> 16;
    f32x4::from_i32x4(i32x4::new(hash.to_array().map(u32::cast_signed)))
}

/// Value noise: smooth between random cells, 0 to 1; at four places.
pub(super) fn noises(x: f32x4, y: f32x4, seed: u32) -> f32x4 {
    let (left, top) = (x.floor(), y.floor());
    let ease = |share: f32x4| share * share * (3.0 - 2.0 * share);
    let (across, down) = (ease(x - left), ease(y - top));
    let whole = |at: f32x4| u32x4::new(at.fast_trunc_int().to_array().map(i32::cast_unsigned));
    let (column, row) = (whole(left), whole(top));
    let one = u32x4::splat(1);
    let line = |row| {
        let (left, right) = (cells(column, row, seed), cells(column + one, row, seed));
        left + (right - left) * across
    };
    let (upper, lower) = (line(row), line(row + one));
    (upper + (lower - upper) * down) * (1.0 / 65_535.0)
}

/// Value noise at one place.
pub(super) fn noise(x: f32, y: f32, seed: u32) -> f32 {
    noises(f32x4::splat(x), f32x4::splat(y), seed).to_array()[0]
}

/// Of what is seen less than this nothing is worked out.
const LEAST_SEEN: f32 = 0.15;

/// Plain weave: how high the uppermost thread lies at four places, counted in threads; from 0 to 1.
pub(super) fn woven(x: f32x4, y: f32x4) -> f32x4 {
    let (column, row) = (x.floor(), y.floor());
    let arch = |share: f32x4| 4.0 * share * (1.0 - share);
    let (across, down) = (arch(x - column), arch(y - row));
    // Threads of the two kinds lie on top in turn, as the squares of a chequer.
    let half = (column + row) * 0.5;
    let is_warp = half.simd_eq(half.floor());
    is_warp.select(across * (0.6 + 0.4 * down), down * (0.6 + 0.4 * across))
}

/// The texture of a leg: how light it is at a place along it and across it, in inches, around 1.
pub(super) struct Rail {
    pub(super) surface: Surface,
    /// Pixels per inch: what is finer than a pixel is left out.
    pub(super) scale: f32,
    /// Legs with other seeds are cut from other sticks.
    pub(super) seed: u32,
}

impl Rail {
    /// How light it is at four places.
    pub(super) fn at(&self, along: f32x4, across: f32) -> f32x4 {
        let &Self { surface, scale, seed } = self;
        let noise = |to_the_inch: f32, across: f32x4, seed: u32| noises(along * to_the_inch, across, seed);
        let at = |to_the_inch: f32| f32x4::splat(across * to_the_inch);
        match surface {
            Surface::Grain => {
                let seen = |to_the_inch: f32| (scale / to_the_inch / 2.0).min(1.0);
                let wave = noise(0.3, at(1.0), seed ^ 7) * 2.5;
                let bands = noise(0.45, at(9.0) + wave, seed) - 0.5;
                let mut light = 1.0 + bands * (0.34 * seen(9.0));
                if seen(44.0) > LEAST_SEEN {
                    let fibres = noise(2.2, at(44.0), seed ^ 0x51) - 0.5;
                    light += fibres * (0.2 * seen(44.0));
                }
                if seen(90.0) > LEAST_SEEN {
                    let pores = noise(5.0, at(90.0), seed ^ 0xa3) - 0.72;
                    light -= pores.max(f32x4::ZERO) * (0.9 * seen(90.0));
                }
                light
            }
            // Hardly anything.
            Surface::Paint => 0.99 + noise(6.0, at(30.0), seed) * 0.02,
            // Fine lines along the leg.
            Surface::Metal => {
                let fine = noise(1.1, at(150.0), seed) - 0.5;
                let wide = noise(0.4, at(20.0), seed ^ 0x33) - 0.5;
                1.0 + fine * (0.22 * (scale / 300.0).min(1.0)) + wide * (0.12 * (scale / 40.0).min(1.0))
            }
            // Leaf: squares of 3 3/8 in, the size of a leaf of gold (from memory), rubbed through here and there.
            Surface::Gilt => {
                let worn = noise(2.6, at(2.6), seed) * 0.6 + noise(9.0, at(9.0), seed ^ 9) * 0.4;
                let seam = along.to_array().map(|along| {
                    let place = along / 3.375;
                    let from_seam = (place - libm::roundf(place)).abs() * 3.375;
                    if from_seam < 0.03 { 0.1 } else { 0.0 }
                });
                0.86 + worn * 0.28 - f32x4::new(seam)
            }
        }
    }
}
