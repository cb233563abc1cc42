//! The flats at noon: most of it sky. A channel winds out to a low coast; two diggers and their buckets; withies.

use crate::boat::{hills, post, touch};
use crate::chance::Chance;
use crate::colour::{hex, mix};
use crate::painting::Painting;
use crate::shore::{Channel, Shore};
use crate::sky::Sky;
use crate::study::Study;

const HORIZON: f32 = 0.60;

/// Composes it.
pub(crate) fn compose(seed: u64) -> Painting {
    let ratio = 0.8;
    let sky = Sky {
        ratio,
        horizon: HORIZON,
        fall: [hex(0x6485a0), hex(0x93adb9), hex(0xd9dacd)],
        cloud: [hex(0xfbf6ea), hex(0x86929e)],
        cover: 0.52,
        softness: 0.035,
        stretch: 1.1,
        sun: ([0.3, 0.0], hex(0xfff8e8)),
        glow: 0.0,
        seed: seed ^ 0x21,
    };
    let shore = Shore {
        sky,
        sand: [hex(0xc6b18b), hex(0x8b7c66)],
        haze: hex(0xc4c2b2),
        depth: hex(0x5d7480),
        path: 0.0,
        gloom: 0.22,
        channels: vec![
            Channel {
                course: &[
                    (0.0, 0.70, 0.30),
                    (0.07, 0.66, 0.10),
                    (0.17, 0.40, 0.050),
                    (0.30, 0.34, 0.048),
                    (0.48, 0.60, 0.075),
                    (0.70, 0.62, 0.12),
                    (1.0, 0.30, 0.27),
                ],
            },
            Channel {
                course: &[(0.10, 1.05, 0.05), (0.2, 0.86, 0.03), (0.33, 0.70, 0.02), (0.42, 0.60, 0.0)],
            },
        ],
        wetness: 0.40,
        seed: seed ^ 0x22,
    };
    let mut study = Study::new(ratio, |u, v| shore.seen(u, v));
    let (w, h) = (study.width, study.height);
    let at = |u: f32, v: f32| [u * w, v * h];
    hills(&mut study, HORIZON, [-0.2, 0.72], 0.030, hex(0x8496a0), seed ^ 1);
    hills(&mut study, HORIZON, [0.55, 1.3], 0.022, hex(0x9aa7a8), seed ^ 2);
    let mut chance = Chance::new(seed ^ 0x23);
    let mut touches = Vec::new();
    // Withies along the channel.
    for (u, v, tall) in [
        (0.505, 0.640, 0.020),
        (0.465, 0.655, 0.026),
        (0.455, 0.680, 0.034),
        (0.475, 0.712, 0.044),
        (0.560, 0.755, 0.060),
        (0.765, 0.812, 0.082),
        (0.835, 0.885, 0.112),
    ] {
        touches.extend(post(at(u, v), tall * 1.1, tall * 0.022 + 0.0006, hex(0x4c463f), 0.5, &mut chance));
    }
    // Two diggers, one bent, with their buckets.
    let coat = hex(0x39444d);
    for (u, v, tall, bent) in [(0.215, 0.700, 0.042, 0.45), (0.275, 0.694, 0.040, 0.05)] {
        let [x, y] = at(u, v);
        let hip = y - tall * 0.5;
        let image = mix(coat, hex(0xa39a86), 0.55);
        touches.push(touch(
            [x, y + tall * 0.06],
            [x + 0.002, y + tall * 0.6],
            tall * 0.10,
            image,
            0.5,
            &mut chance,
        ));
        touches.push(touch(
            [x - tall * 0.07, hip],
            [x - tall * 0.10, y],
            tall * 0.065,
            hex(0x4a4640),
            1.0,
            &mut chance,
        ));
        touches.push(touch(
            [x + tall * 0.06, hip],
            [x + tall * 0.10, y],
            tall * 0.065,
            hex(0x4a4640),
            1.0,
            &mut chance,
        ));
        let shoulder = [x + tall * bent, hip - tall * (0.36 - 0.22 * bent)];
        touches.push(touch(
            [x, hip + tall * 0.04],
            shoulder,
            tall * 0.125,
            mix(coat, hex(0x9c4f3a), bent),
            1.1,
            &mut chance,
        ));
        let head = [shoulder[0] + tall * 0.10 * bent, shoulder[1] - tall * 0.09];
        touches.push(touch(
            [head[0] - tall * 0.05, head[1]],
            [head[0] + tall * 0.07, head[1]],
            tall * 0.068,
            hex(0x7a5f4c),
            1.2,
            &mut chance,
        ));
        touches.push(touch(
            shoulder,
            [x + tall * (bent + 0.28), y - tall * 0.12],
            tall * 0.035,
            coat,
            0.9,
            &mut chance,
        ));
        let bucket = x - tall * 0.55;
        touches.push(touch(
            [bucket, y - tall * 0.16],
            [bucket, y],
            tall * 0.085,
            hex(0xb4543a),
            1.0,
            &mut chance,
        ));
    }
    for [u, v] in [[0.63, 0.50], [0.66, 0.515], [0.20, 0.46], [0.72, 0.485]] {
        let [x, y] = at(u, v);
        let span = chance.between(0.006, 0.010);
        touches.push(touch([x - span, y - span * 0.35], [x, y], 0.0010, hex(0x66717a), 0.85, &mut chance));
        touches.push(touch([x, y], [x + span, y - span * 0.5], 0.0010, hex(0x66717a), 0.85, &mut chance));
    }
    Painting { study, ground: hex(0xb3a084), touches, seed }
}
