//! Low water, evening: very wide, so that it can be hung in three parts. A boat aground on the left, the sun and its
//! path in the middle, a breakwater and a second boat on the right; one horizon through all three.

use crate::boat::{Boat, hills, post, touch};
use crate::chance::Chance;
use crate::colour::{bell, hex, mix, shifted};
use crate::painting::Painting;
use crate::shore::{Channel, Shore};
use crate::sky::Sky;
use crate::study::Study;

const HORIZON: f32 = 0.43;
const SUN: f32 = 0.545;

/// Composes it.
pub(crate) fn compose(seed: u64) -> Painting {
    let ratio = 15.0 / 7.0;
    let sky = Sky {
        ratio,
        horizon: HORIZON,
        fall: [hex(0x7b8c99), hex(0xb7ada4), hex(0xecc08d)],
        cloud: [hex(0xf0b98c), hex(0x596070)],
        cover: 0.50,
        softness: 0.065,
        stretch: 2.6,
        sun: ([SUN, 0.86], hex(0xffdf9f)),
        glow: 0.16,
        seed: seed ^ 0x51,
    };
    let shore = Shore {
        sky,
        sand: [hex(0x836c57), hex(0x463f3d)],
        haze: hex(0xb99d86),
        depth: hex(0x4d5a68),
        path: 0.55,
        gloom: 0.26,
        channels: vec![
            Channel {
                course: &[
                    (0.0, 0.56, 0.20),
                    (0.06, 0.55, 0.11),
                    (0.16, 0.60, 0.060),
                    (0.32, 0.46, 0.060),
                    (0.56, 0.60, 0.095),
                    (1.0, 0.42, 0.20),
                ],
            },
            Channel {
                course: &[
                    (0.0, 0.1, 0.16),
                    (0.05, 0.2, 0.09),
                    (0.12, 0.30, 0.03),
                    (0.22, 0.44, 0.012),
                    (0.3, 0.47, 0.0),
                ],
            },
            Channel {
                course: &[
                    (0.44, 1.04, 0.0),
                    (0.58, 0.93, 0.022),
                    (0.72, 0.86, 0.045),
                    (0.86, 0.94, 0.07),
                    (1.0, 0.91, 0.13),
                ],
            },
        ],
        wetness: 0.46,
        seed: seed ^ 0x52,
    };
    let mut study = Study::new(ratio, |u, v| shore.seen(u, v));
    let (w, h) = (study.width, study.height);
    hills(&mut study, HORIZON, [-0.05, 0.42], 0.040, hex(0x7d7c84), seed ^ 1);
    hills(&mut study, HORIZON, [0.30, 0.80], 0.016, hex(0xa48c83), seed ^ 2);
    hills(&mut study, HORIZON, [0.66, 1.06], 0.046, hex(0x75717a), seed ^ 3);
    let mut chance = Chance::new(seed ^ 0x53);
    let mut touches = Vec::new();
    // The breakwater: stones and piles running out from the right.
    let wall: Vec<_> = [
        [1.02, 0.452],
        [0.90, 0.468],
        [0.80, 0.478],
        [0.735, 0.488],
        [0.728, 0.502],
        [0.80, 0.515],
        [0.90, 0.535],
        [1.02, 0.58],
    ]
    .map(|[u, v]| [u * w, v * h])
    .into();
    study.lay(&wall, true, Some(0.06), |[x, y], under| {
        let stones = crate::chance::cloudy(x * 70.0, y * 110.0, 3, 8);
        mix(mix(hex(0x3f3d42), hex(0x8a7465), stones * 1.3 - 0.25), under, 0.08)
    });
    for pile in 0..13_u8 {
        let along = f32::from(pile) / 12.0;
        let (u, v) = (0.735 + 0.27 * along, 0.500 + 0.075 * along * along);
        let height = (0.026 + 0.030 * along) * chance.between(0.75, 1.2);
        touches.extend(post(
            [u * w, v * h],
            height,
            (0.0019 + 0.0018 * along) * chance.between(0.8, 1.3),
            hex(0x3d3a3c),
            0.6,
            &mut chance,
        ));
    }
    let left = Boat {
        keel: [0.185 * w, 0.665 * h],
        length: 0.245,
        heading: 1.0,
        tilt: -0.055,
        paint: [hex(0x3d4f60), hex(0xb9a68c), hex(0x84412f), hex(0xc0ad95)],
        has_house: true,
        mast: 0.80,
        shadow: hex(0x37363b),
        mirrored: 0.75,
        seed: seed ^ 4,
    };
    let right = Boat {
        keel: [0.80 * w, 0.662 * h],
        length: 0.155,
        heading: -1.0,
        tilt: 0.07,
        paint: [hex(0x54606a), hex(0xd0ba96), hex(0x3b3c42), hex(0xb0a08a)],
        has_house: false,
        mast: 0.72,
        shadow: hex(0x39373b),
        mirrored: 0.6,
        seed: seed ^ 5,
    };
    touches.extend(right.paint(&mut study));
    touches.extend(left.paint(&mut study));
    // The sun, and its path where there is water.
    let sun = [SUN * w, 0.86 * HORIZON * h];
    study.lay(&disc(sun, 0.0125), true, None, |_, _| hex(0xfff0c4));
    for glint in 0..230_u16 {
        let near = (f32::from(glint) + chance.unit()) / 230.0;
        let u = SUN + chance.about() * (0.012 + 0.055 * near);
        if shore.water(u, near) < 0.5 {
            continue;
        }
        let long = (0.004 + 0.020 * near) * chance.between(0.5, 1.3);
        let [x, y] = [u * w, (HORIZON + (1.0 - HORIZON) * near) * h];
        let strength = bell(u - SUN, 0.05 + 0.04 * near);
        let colour = mix(hex(0xe9b27c), hex(0xffe9b4), strength * chance.between(0.5, 1.0));
        touches.push(touch(
            [x - long, y],
            [x + long, y],
            0.0012 + 0.0022 * near,
            colour,
            0.22 + 0.42 * strength * chance.between(0.4, 1.2),
            &mut chance,
        ));
    }
    // An anchor lies out ahead of the left boat; gulls over the flats.
    touches.push(touch(
        [0.262 * w, 0.585 * h],
        [0.33 * w, 0.70 * h],
        0.0011,
        hex(0x4a4644),
        0.7,
        &mut chance,
    ));
    for [u, v] in [[0.33, 0.30], [0.352, 0.325], [0.70, 0.27], [0.405, 0.355]] {
        let (x, y) = (u * w, v * h);
        let span = chance.between(0.006, 0.010);
        touches.push(touch(
            [x - span, y - span * 0.4],
            [x, y],
            0.0010,
            shifted(hex(0x5a5a60), 0.0, 0.0),
            0.9,
            &mut chance,
        ));
        touches.push(touch([x, y], [x + span, y - span * 0.5], 0.0010, hex(0x5a5a60), 0.9, &mut chance));
    }
    Painting { study, ground: hex(0xa9774f), touches, seed }
}

fn disc([x, y]: [f32; 2], radius: f32) -> Vec<[f32; 2]> {
    (0..10_u8)
        .map(|at| f32::from(at) / 10.0 * std::f32::consts::TAU)
        .map(|angle| [x + radius * libm::cosf(angle), y + radius * libm::sinf(angle)])
        .collect()
}
