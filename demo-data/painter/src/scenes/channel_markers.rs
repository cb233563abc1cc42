//! Channel markers: silver light late in the day, a vermilion can and a dark cone, and a fairway between them.

use crate::boat::{hills, marker, touch};
use crate::chance::Chance;
use crate::colour::{bell, hex, mix};
use crate::painting::Painting;
use crate::shore::{Channel, Shore};
use crate::sky::Sky;
use crate::study::Study;

const HORIZON: f32 = 0.47;
const SUN: f32 = 0.36;

/// Composes it.
pub(crate) fn compose(seed: u64) -> Painting {
    let ratio = 1.5;
    let sky = Sky {
        ratio,
        horizon: HORIZON,
        fall: [hex(0x7d8c97), hex(0xa8afb0), hex(0xd9d2c0)],
        cloud: [hex(0xf0e6d2), hex(0x66717c)],
        cover: 0.55,
        softness: 0.055,
        stretch: 1.9,
        sun: ([SUN, 0.55], hex(0xfaefd4)),
        glow: 0.17,
        seed: seed ^ 0x61,
    };
    let shore = Shore {
        sky,
        sand: [hex(0x97876f), hex(0x565149)],
        haze: hex(0xadaca4),
        depth: hex(0x4a5c67),
        path: 0.4,
        gloom: 0.36,
        channels: vec![Channel {
            course: &[
                (0.0, 0.40, 0.42),
                (0.08, 0.42, 0.24),
                (0.22, 0.54, 0.20),
                (0.45, 0.50, 0.25),
                (0.70, 0.58, 0.36),
                (1.0, 0.62, 0.50),
            ],
        }],
        wetness: 0.42,
        seed: seed ^ 0x62,
    };
    let mut study = Study::new(ratio, |u, v| shore.seen(u, v));
    let (w, h) = (study.width, study.height);
    let at = |u: f32, v: f32| [u * w, v * h];
    hills(&mut study, HORIZON, [0.42, 1.15], 0.050, hex(0x7c8891), seed ^ 1);
    hills(&mut study, HORIZON, [-0.1, 0.30], 0.024, hex(0x959c9f), seed ^ 2);
    let mut chance = Chance::new(seed ^ 0x63);
    let mut touches = Vec::new();
    let (vermilion, green, dark) = (hex(0x9a4630), hex(0x3f5450), hex(0x45423d));
    for (u, v, height, is_can) in [
        (0.455, 0.500, 0.050, false),
        (0.585, 0.512, 0.070, true),
        (0.375, 0.552, 0.110, false),
        (0.245, 0.665, 0.19, false),
        (0.705, 0.77, 0.36, true),
    ] {
        let away = (0.33 - height) / 0.33 * 0.45;
        let paint = mix(if is_can { vermilion } else { green }, hex(0xa9aba6), away);
        let pile = mix(dark, hex(0xa9aba6), away);
        let kind = seed ^ u64::from(height.to_bits());
        touches.extend(marker(&mut study, at(u, v), height, paint, is_can, pile, kind));
    }
    // Silver on the fairway.
    for glint in 0..120_u16 {
        let near = (f32::from(glint) + chance.unit()) / 120.0;
        let u = SUN + 0.10 * near + chance.about() * (0.03 + 0.13 * near);
        if shore.water(u, near) < 0.6 || (near < 0.2 && (u - 0.375).abs() < 0.03) {
            continue;
        }
        let long = (0.004 + 0.020 * near) * chance.between(0.5, 1.4);
        let [x, y] = at(u, HORIZON + (1.0 - HORIZON) * near);
        let strength = bell(u - SUN - 0.10 * near, 0.05 + 0.10 * near);
        let colour = mix(hex(0xc9cbc5), hex(0xfbf1d9), strength);
        let load = 0.18 + 0.32 * strength * chance.between(0.4, 1.2);
        touches.push(touch([x - long, y], [x + long, y], 0.0012 + 0.0020 * near, colour, load, &mut chance));
    }
    // A sail far off, and gulls about the can.
    let [x, y] = at(0.645, 0.476);
    touches.push(touch([x, y - 0.034], [x + 0.004, y - 0.003], 0.0042, hex(0xd8cdb8), 0.95, &mut chance));
    touches.push(touch(
        [x - 0.009, y - 0.001],
        [x + 0.012, y - 0.001],
        0.0020,
        hex(0x5b5f63),
        1.0,
        &mut chance,
    ));
    for [u, v] in [[0.76, 0.36], [0.79, 0.385], [0.62, 0.30]] {
        let [x, y] = at(u, v);
        let span = chance.between(0.008, 0.013);
        touches.push(touch([x - span, y - span * 0.4], [x, y], 0.0013, hex(0xe9e4d8), 0.9, &mut chance));
        touches.push(touch([x, y], [x + span, y - span * 0.55], 0.0013, hex(0x6c747a), 0.9, &mut chance));
    }
    Painting { study, ground: hex(0xa58d70), touches, seed }
}
