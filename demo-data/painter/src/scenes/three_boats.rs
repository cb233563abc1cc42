//! Three boats: aground at low water under a high horizon, in an even grey light; one of them has been kept in vermilion.

use crate::boat::{Boat, hills, post, touch};
use crate::chance::Chance;
use crate::colour::hex;
use crate::painting::Painting;
use crate::shore::{Channel, Shore};
use crate::sky::Sky;
use crate::study::Study;

const HORIZON: f32 = 0.285;

/// Composes it.
pub(crate) fn compose(seed: u64) -> Painting {
    let ratio = 0.8;
    let sky = Sky {
        ratio,
        horizon: HORIZON,
        fall: [hex(0x98a2a6), hex(0xb9b9b2), hex(0xd8cfbb)],
        cloud: [hex(0xe3dccd), hex(0x828b92)],
        cover: 0.56,
        softness: 0.07,
        stretch: 2.4,
        sun: ([0.4, 0.3], hex(0xf0e4cc)),
        glow: 0.0,
        seed: seed ^ 0x31,
    };
    let shore = Shore {
        sky,
        sand: [hex(0xa88f6e), hex(0x675b4d)],
        haze: hex(0xb5b1a4),
        depth: hex(0x58666d),
        path: 0.0,
        gloom: 0.08,
        channels: vec![Channel {
            course: &[
                (0.0, 0.55, 0.35),
                (0.05, 0.58, 0.16),
                (0.13, 0.78, 0.075),
                (0.26, 0.42, 0.055),
                (0.38, 0.16, 0.075),
                (0.58, 0.60, 0.075),
                (0.74, 0.90, 0.16),
                (1.0, 0.74, 0.30),
            ],
        }],
        wetness: 0.38,
        seed: seed ^ 0x32,
    };
    let mut study = Study::new(ratio, |u, v| shore.seen(u, v));
    let (w, h) = (study.width, study.height);
    let at = |u: f32, v: f32| [u * w, v * h];
    hills(&mut study, HORIZON, [-0.3, 0.66], 0.055, hex(0x87919a), seed ^ 1);
    hills(&mut study, HORIZON, [0.45, 1.3], 0.032, hex(0x979d9f), seed ^ 2);
    let mut chance = Chance::new(seed ^ 0x33);
    let mut touches = Vec::new();
    let far = Boat {
        keel: at(0.47, 0.425),
        length: 0.18,
        heading: 1.0,
        tilt: 0.05,
        paint: [hex(0x6f7468), hex(0xc6bba3), hex(0x6d5648), hex(0xc7bfae)],
        has_house: false,
        mast: 0.85,
        shadow: hex(0x59595a),
        mirrored: 0.6,
        seed: seed ^ 3,
    };
    let middle = Boat {
        keel: at(0.70, 0.61),
        length: 0.315,
        heading: -1.0,
        tilt: 0.055,
        paint: [hex(0x51677a), hex(0xc4b79d), hex(0x5c4a42), hex(0xd4cbb9)],
        has_house: true,
        mast: 0.78,
        shadow: hex(0x434649),
        mirrored: 0.75,
        seed: seed ^ 4,
    };
    let near = Boat {
        keel: at(0.345, 0.815),
        length: 0.47,
        heading: 1.0,
        tilt: -0.06,
        paint: [hex(0xa64a34), hex(0xb9a886), hex(0x3d4347), hex(0xd0c6b2)],
        has_house: false,
        mast: 0.80,
        shadow: hex(0x3a3a3c),
        mirrored: 0.8,
        seed: seed ^ 5,
    };
    for boat in [far, middle, near] {
        touches.extend(boat.paint(&mut study));
    }
    // Anchor ropes, and a stake.
    let rope = hex(0x5d564d);
    touches.push(touch(at(0.60, 0.705), at(0.86, 0.86), 0.0013, rope, 0.75, &mut chance));
    touches.push(touch(at(0.505, 0.545), at(0.30, 0.60), 0.0011, rope, 0.65, &mut chance));
    touches.extend(post(at(0.865, 0.862), 0.05, 0.0028, hex(0x4a443e), 0.6, &mut chance));
    touches.extend(post(at(0.295, 0.602), 0.03, 0.0019, hex(0x5a544c), 0.5, &mut chance));
    Painting { study, ground: hex(0xa87d55), touches, seed }
}
