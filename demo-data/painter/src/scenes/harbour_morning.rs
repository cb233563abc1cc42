//! Harbour, morning: still water under a pale sky, a quay that runs away on the left, one boat in vermilion.

use crate::boat::{Boat, hills, touch};
use crate::chance::{Chance, cloudy, noise};
use crate::colour::{Colour, hex, mix, shifted, step};
use crate::painting::Painting;
use crate::shore::{Channel, Shore};
use crate::sky::Sky;
use crate::study::{Place, Study};

const HORIZON: f32 = 0.42;

/// Composes it.
pub(crate) fn compose(seed: u64) -> Painting {
    let ratio = 0.8;
    let sky = Sky {
        ratio,
        horizon: HORIZON,
        fall: [hex(0x93a5b0), hex(0xc3c6c1), hex(0xecdcb9)],
        cloud: [hex(0xf1e6d0), hex(0x8f9ba6)],
        cover: 0.44,
        softness: 0.09,
        stretch: 2.2,
        sun: ([0.80, 0.72], hex(0xf8e6b8)),
        glow: 0.42,
        seed: seed ^ 0x41,
    };
    let shore = Shore {
        sky,
        sand: [hex(0x8e8474), hex(0x5a5650)],
        haze: hex(0xbfc0b8),
        depth: hex(0x4b5d66),
        path: 0.18,
        gloom: 0.50,
        channels: vec![Channel { course: &[(0.0, 0.5, 2.0), (1.0, 0.5, 2.0)] }],
        wetness: 0.8,
        seed: seed ^ 0x42,
    };
    let mut study = Study::new(ratio, |u, v| shore.seen(u, v));
    let (w, h) = (study.width, study.height);
    let at = |u: f32, v: f32| [u * w, v * h];
    hills(&mut study, HORIZON, [0.1, 1.25], 0.080, hex(0xa0adb3), seed ^ 1);
    hills(&mut study, HORIZON, [0.62, 1.4], 0.055, hex(0x8a979c), seed ^ 2);
    let mut chance = Chance::new(seed ^ 0x43);
    town(&mut study, &mut chance);
    quay(&mut study, seed);
    let mut touches = Vec::new();
    let far = Boat {
        keel: at(0.80, 0.478),
        length: 0.15,
        heading: 1.0,
        tilt: 0.0,
        paint: [hex(0x6d7d86), hex(0xcfc6b2), hex(0x7c6a5d), hex(0xcdc5b4)],
        has_house: true,
        mast: 0.95,
        shadow: hex(0x5f6a70),
        mirrored: 0.9,
        seed: seed ^ 3,
    };
    let moored = Boat {
        keel: at(0.565, 0.635),
        length: 0.50,
        heading: 1.0,
        tilt: -0.012,
        paint: [hex(0xa8452f), hex(0xd6c8ad), hex(0x3c4a52), hex(0xd8cfbd)],
        has_house: true,
        mast: 0.86,
        shadow: hex(0x35434a),
        mirrored: 1.0,
        seed: seed ^ 4,
    };
    let dinghy = Boat {
        keel: at(0.70, 0.845),
        length: 0.21,
        heading: -1.0,
        tilt: 0.01,
        paint: [hex(0x5d7078), hex(0xcbbd9f), hex(0x6b4a3c), hex(0xcbbd9f)],
        has_house: false,
        mast: 0.0,
        shadow: hex(0x344047),
        mirrored: 0.95,
        seed: seed ^ 5,
    };
    for boat in [far, moored, dinghy] {
        touches.extend(boat.paint(&mut study));
    }
    // Mooring lines to the quay, a ladder, a bollard.
    let rope = hex(0x6a635a);
    touches.push(touch(at(0.315, 0.568), at(0.20, 0.52), 0.0012, rope, 0.7, &mut chance));
    touches.push(touch(at(0.315, 0.568), at(0.07, 0.50), 0.0012, rope, 0.6, &mut chance));
    for side in [0.148, 0.172] {
        touches.push(touch(at(side, 0.375), at(side, 0.585), 0.0018, hex(0x3f3e3b), 0.7, &mut chance));
    }
    for rung in 0..11_u8 {
        let v = 0.385 + 0.0185 * f32::from(rung);
        touches.push(touch(at(0.148, v), at(0.172, v + 0.003), 0.0012, hex(0x454440), 0.6, &mut chance));
    }
    // Bollards, a lamp, fish boxes.
    for (u, v) in [(0.315, 0.322), (0.40, 0.344)] {
        touches.push(touch(at(u, v), at(u, v + 0.014), 0.0058, hex(0x3f403f), 1.1, &mut chance));
    }
    touches.push(touch(at(0.355, 0.205), at(0.355, 0.342), 0.0020, hex(0x56585a), 0.9, &mut chance));
    touches.push(touch(at(0.352, 0.203), at(0.375, 0.206), 0.0026, hex(0x56585a), 0.9, &mut chance));
    for (u, v, colour) in [(0.285, 0.322, 0xa7563c), (0.283, 0.310, 0x7d8a8e), (0.30, 0.327, 0x9c8d70)] {
        touches.push(touch(at(u, v), at(u + 0.02, v + 0.003), 0.0055, hex(colour), 0.95, &mut chance));
    }
    // Long light on the water.
    for _ in 0..34 {
        let near = chance.unit();
        let (u, v) = (chance.between(0.30, 1.0), 0.72 + 0.28 * near);
        let long = (0.010 + 0.03 * near) * chance.between(0.5, 1.4);
        let [x, y] = at(u, v);
        let colour = mix(hex(0xe9dfc6), hex(0xa9b8bd), chance.unit());
        touches.push(touch(
            [x - long, y],
            [x + long, y + 0.001],
            0.0011 + 0.0016 * near,
            colour,
            0.42,
            &mut chance,
        ));
    }
    Painting { study, ground: hex(0xac9678), touches, seed }
}

/// Gables and chimneys across the water, pale in the mist.
fn town(study: &mut Study, chance: &mut Chance) {
    let (w, base) = (study.width, HORIZON * study.height);
    let mut u = 0.40;
    while u < 0.90 {
        let (wide, tall) = (chance.between(0.028, 0.055), chance.between(0.022, 0.052));
        let (left, right) = (u * w, (u + wide) * w);
        let gable = tall + wide * w * chance.between(0.25, 0.5);
        let wall = mix(hex(0xc9c0ae), hex(0x99a0a0), chance.unit());
        let roof = mix(hex(0x8f7f76), hex(0x7d8a92), chance.unit());
        let house = [[left, base + 0.004], [left, base - tall], [right, base - tall], [right, base + 0.004]];
        study.lay(&house, false, Some(1.57), move |_, _| wall);
        let over =
            [[left - 0.002, base - tall], [(left + right) / 2.0, base - gable], [right + 0.002, base - tall]];
        study.lay(&over, false, Some(0.3), move |_, _| roof);
        let image = [[left, base], [left, base + tall], [right, base + tall], [right, base]];
        study.lay(&image, false, Some(0.0), move |[x, y], under| {
            let ripple = noise(x * 20.0, y * 120.0, 6);
            mix(under, mix(wall, roof, 0.4), 0.5 * step(0.3, 0.6, ripple))
        });
        u += wide * chance.between(0.75, 1.15);
    }
}

/// The quay: coursed stone in perspective, weed below the line of high water, and its image.
fn quay(study: &mut Study, seed: u64) {
    let (w, h) = (study.width, study.height);
    let vanish = [0.70_f32, 0.424_f32];
    // Heights of the coping and of the water line along the wall, from the near end (0) to the far (1).
    let end = 0.82_f32;
    let point = |share: f32, near_v: f32| -> Place {
        [(-0.02 + (vanish[0] + 0.02) * share * end) * w, (near_v + (vanish[1] - near_v) * share * end) * h]
    };
    let (coping, water) = (0.265, 0.665);
    let image = [point(0.0, water), point(1.0, water), point(1.0, water + 0.44), point(0.0, water + 0.44)];
    study.lay(&image, false, Some(0.0), move |[x, y], under| {
        let ripple = noise(x * 10.0, y * 55.0, seed ^ 8);
        // As far below the line of the water as the coping is above it.
        let share = ((x / w + 0.02) / (vanish[0] + 0.02)).min(0.97);
        let line = water + (vanish[1] - water) * share;
        let reach = (water - coping) * (1.0 - share);
        let fade = 1.0 - step(0.55, 1.1, (y / h - line) / reach + (ripple - 0.5) * 0.5);
        mix(under, hex(0x4a4a47), fade * (0.55 + 0.35 * ripple))
    });
    shed(study, seed);
    let wall = [point(0.0, coping), point(1.0, coping), point(1.0, water), point(0.0, water)];
    study.lay(&wall, false, Some(1.5), move |[x, y], _| stone(x / w, y / h, vanish, [coping, water], seed));
    let top =
        [point(0.0, coping - 0.034), point(1.0, coping - 0.034), point(1.0, coping), point(0.0, coping)];
    study.lay(&top, false, Some(0.27), move |[x, y], _| {
        shifted(hex(0xd3c5aa), (cloudy(x * 40.0, y * 40.0, 2, seed) - 0.5) * 0.12, 0.0)
    });
}

/// A net store on the quay, its gable to the water.
fn shed(study: &mut Study, seed: u64) {
    let (w, h) = (study.width, study.height);
    let placed = |outline: &[Place]| outline.iter().map(|[u, v]| [u * w, v * h]).collect::<Vec<_>>();
    let boards = move |colour: Colour| {
        move |[x, y]: Place, _: Colour| {
            shifted(colour, (cloudy(x * 80.0, y * 14.0, 2, seed ^ 9) - 0.5) * 0.16, 0.0)
        }
    };
    let wall = placed(&[[-0.02, 0.150], [0.20, 0.205], [0.20, 0.312], [-0.02, 0.262]]);
    study.lay(&wall, false, Some(1.57), boards(hex(0x8b7f70)));
    let end = placed(&[[0.20, 0.205], [0.235, 0.170], [0.275, 0.222], [0.275, 0.317], [0.20, 0.312]]);
    study.lay(&end, false, Some(1.57), boards(hex(0xb5a88f)));
    let roof = placed(&[[-0.02, 0.075], [0.235, 0.163], [0.205, 0.212], [-0.02, 0.156]]);
    study.lay(&roof, false, Some(0.95), boards(hex(0x6d6460)));
    let door = placed(&[[0.045, 0.195], [0.095, 0.206], [0.095, 0.285], [0.045, 0.274]]);
    study.lay(&door, false, Some(1.57), boards(hex(0x4c5659)));
}

fn stone(u: f32, v: f32, vanish: [f32; 2], [coping, water]: [f32; 2], seed: u64) -> Colour {
    let depth = ((u + 0.02) / (vanish[0] + 0.02)).clamp(0.0, 0.95);
    // How far down the wall, 0 at the coping and 1 at the water, whatever the distance.
    let down = ((v - vanish[1]) / (1.0 - depth) + vanish[1] - coping) / (water - coping);
    let along = 1.0 / (1.0 - depth);
    let courses = noise(along * 6.0, down * 11.0, seed ^ 6) * 0.6
        + cloudy(along * 14.0, down * 22.0, 2, seed ^ 7) * 0.4;
    let dry = mix(hex(0x625d58), hex(0x8c8172), step(0.3, 0.7, courses));
    let weed = mix(hex(0x363931), hex(0x57543f), courses);
    let tide = step(0.50, 0.64, down + (courses - 0.5) * 0.16);
    mix(mix(dry, weed, tide), hex(0xb9bab3), 0.50 * depth * depth)
}
