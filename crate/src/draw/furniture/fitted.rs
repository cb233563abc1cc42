//! What is built into the wall or fixed to it: mantel, radiator, door, window, plates.

use super::{BRASS, DARK, Easel, Tone, WHITE, parts};
use crate::colour::Colour;
use crate::plan::{FixtureKind, Lighting};

/// A mantel: a shelf on two pilasters round an opening of dark stone.
#[inline(never)]
pub(super) fn mantel(easel: &mut Easel) {
    let stone = Colour::hex(0xdf_da_d0);
    let shelf = easel.up(1.8, 0.08);
    let steps = easel.up(1.3, 0.06);
    let side = easel.across(7.5, 0.18);
    let from = easel.across(1.8, 0.03);
    let opening = 1.0 - (shelf + steps * 2.0 + easel.up(10.5, 0.22));
    // The breast behind, and the opening with its slips.
    easel.block([from, 1.0 - from], [0.0, 1.0 - shelf], [0.0, 0.42], Tone::down(stone, 0.94, 0.9));
    let inner = [from + side * 0.9, 1.0 - from - side * 0.9];
    let slate = Colour::hex(0x4b_4a_48);
    easel.block(inner, [0.0, opening + easel.up(0.6, 0.02)], [0.42, 0.43], stone.lit(0.7));
    let slip = [easel.across(0.5, 0.01), easel.up(0.5, 0.01)];
    easel.block(
        [inner[0] + slip[0], inner[1] - slip[0]],
        [0.0, opening],
        [0.43, 0.44],
        Tone::down(slate, 0.8, 1.1),
    );
    let hearth = easel.across(5.5, 0.1);
    let fire = [inner[0] + hearth, inner[1] - hearth];
    let head = opening - easel.up(5.5, 0.12);
    easel.round(fire, [0.0, head], [0.44; 2], [1.5, 0.0], Tone::down(Colour::hex(0x2b_29_28), 0.35, 1.1));
    // Pilasters, each on a plinth and under a block, with a sunk panel.
    for (x, sides) in
        [([from, from + side], [1.0, 1.0, 0.93]), ([1.0 - from - side, 1.0 - from], [0.98, 0.98, 0.9])]
    {
        let foot = easel.up(5.0, 0.12);
        let cap = [opening + easel.up(0.8, 0.02), 1.0 - shelf - steps * 2.0];
        easel.block(
            [x[0] + side * 0.06, x[1] - side * 0.06],
            [0.0, cap[1]],
            [0.42, 0.55],
            Tone::from(stone).across(sides),
        );
        let panel = [
            [x[0] + side * 0.24, x[1] - side * 0.24],
            [foot + (cap[0] - foot) * 0.06, cap[0] - (cap[0] - foot) * 0.06],
        ];
        sunk(easel, panel, 0.55, stone, 0.35);
        easel.block(x, [0.0, foot], [0.42, 0.62], Tone::down(stone, 1.05, 0.9).across(sides));
        easel.block(x, cap, [0.42, 0.6], Tone::down(stone, 1.0, 1.05).across(sides));
        let disc = [
            [x[0] + side * 0.28, x[1] - side * 0.28],
            [cap[0] + (cap[1] - cap[0]) * 0.24, cap[1] - (cap[1] - cap[0]) * 0.24],
        ];
        easel.disc(disc[0], disc[1], [0.6; 2], Tone::down(stone, 0.78, 1.06));
        let inset = side * 0.06;
        easel.disc(
            [disc[0][0] + inset, disc[0][1] - inset],
            [disc[1][0] + easel.up(0.4, 0.01), disc[1][1] - easel.up(0.4, 0.01)],
            [0.6; 2],
            Tone::down(stone, 1.08, 0.94),
        );
    }
    let frieze = [
        [from + side * 1.3, 1.0 - from - side * 1.3],
        [opening + easel.up(2.4, 0.05), 1.0 - shelf - steps * 2.0 - easel.up(1.8, 0.04)],
    ];
    sunk(easel, frieze, 0.42, stone, 0.4);
    // The shelf on its mouldings, each further out than the one below it.
    let out = |share: f32| [from * (1.0 - share), 1.0 - from * (1.0 - share)];
    easel.block(
        out(0.3),
        [1.0 - shelf - steps * 2.0, 1.0 - shelf - steps],
        [0.0, 0.7],
        Tone::down(stone, 0.66, 0.98),
    );
    easel.block(out(0.65), [1.0 - shelf - steps, 1.0 - shelf], [0.0, 0.85], Tone::down(stone, 0.72, 1.0));
    easel.round([0.0, 1.0], [1.0 - shelf, 1.0], [0.0, 1.0], [0.2, 0.3], Tone::down(stone, 1.16, 0.95));
}

/// A panel let into a face: its upper and left edges lie in shadow, its lower and right ones catch the light.
fn sunk(easel: &mut Easel, [x, y]: [[f32; 2]; 2], z: f32, colour: Colour, edge: f32) {
    let (aside, up) = (easel.across(edge, 0.02), easel.up(edge, 0.02));
    if x[1] - x[0] <= aside * 2.5 || y[1] - y[0] <= up * 2.5 {
        return;
    }
    easel.block(x, y, [z; 2], Tone::from(colour.lit(0.72)));
    easel.block([x[0] + aside, x[1]], [y[0], y[1] - up], [z; 2], Tone::from(colour.lit(1.12)));
    easel.block([x[0] + aside, x[1] - aside], [y[0] + up, y[1] - up], [z; 2], Tone::down(colour, 0.92, 0.97));
}

/// A panel that stands up within a groove: the groove is dark above, the panel bevelled towards the light.
fn raised(easel: &mut Easel, [x, y]: [[f32; 2]; 2], z: f32, colour: Colour) {
    sunk(easel, [x, y], z, colour, 0.45);
    let (aside, up) = (easel.across(2.0, 0.05), easel.up(2.0, 0.04));
    let (x, y) = ([x[0] + aside, x[1] - aside], [y[0] + up, y[1] - up]);
    let (aside, up) = (easel.across(0.3, 0.01), easel.up(0.3, 0.01));
    if x[1] - x[0] <= aside * 2.5 || y[1] - y[0] <= up * 2.5 {
        return;
    }
    easel.block(x, y, [z; 2], Tone::from(colour.lit(0.86)));
    easel.block([x[0], x[1] - aside], [y[0] + up, y[1]], [z; 2], Tone::from(colour.lit(1.06)));
    easel.block([x[0] + aside, x[1] - aside], [y[0] + up, y[1] - up], [z; 2], Tone::down(colour, 1.0, 0.98));
}

/// A radiator of upright columns between two headers.
#[inline(never)]
pub(super) fn radiator(easel: &mut Easel) {
    let count = easel.count(1.0, 2.4, 48);
    let header = easel.up(1.6, 0.14);
    for up in [easel.up(1.4, 0.08), 1.0 - easel.up(1.4, 0.08) - header] {
        easel.block([0.0, 1.0], [up, up + header], [0.3, 0.6], Tone::down(WHITE, 0.8, 0.5));
    }
    for [from, to] in parts([0.0, 1.0], count) {
        let step = to - from;
        // The first and the last reach to the very ends.
        let (left, right) = (
            if from > 0.0 { from + step * 0.07 } else { 0.0 },
            if to < 1.0 { to - step * 0.07 } else { 1.0 },
        );
        easel.round([left, right], [0.0, 1.0], [0.2, 0.92], [1.0, 1.0], Tone::down(WHITE, 0.9, 0.62));
        let bright = [left + step * 0.12, right - step * 0.16];
        let tone = Tone::down(WHITE, 1.06, 0.9).across([0.94, 1.0, 0.78]);
        easel.round(bright, [easel.up(0.3, 0.03), 1.0 - easel.up(0.3, 0.03)], [0.92, 1.0], [0.9, 0.9], tone);
    }
}

/// A casing round a leaf or a window, outside the size that is stated: two steps, lit from above.
fn casing(easel: &mut Easel, foot: [f32; 2]) {
    let (aside, head) = (easel.casing / easel.width, easel.casing / easel.height);
    for (share, from, z, tone) in [
        (1.0, foot[0], [0.0, 0.9], Tone::down(WHITE, 0.95, 0.84).across([1.0, 1.0, 0.9])),
        (0.86, foot[1], [0.9, 1.0], Tone::down(WHITE, 1.0, 0.92)),
        (0.34, foot[1], [1.0; 2], Tone::down(WHITE, 0.72, 0.8)),
        (0.26, foot[1], [1.0; 2], Tone::down(WHITE, 0.98, 0.94)),
        (0.06, foot[1], [1.0; 2], Tone::down(WHITE, 0.5, 0.55)),
    ] {
        let side = aside * share;
        let foot = if from < 0.0 { from * share } else { from };
        easel.block([-side, 1.0 + side], [foot, 1.0 + head * share], z, tone);
    }
}

/// A door: a leaf with two upright panels above and two below, a lever on a plate.
#[inline(never)]
pub(super) fn door(easel: &mut Easel) {
    casing(easel, [0.0, 0.0]);
    easel.block([0.0, 1.0], [0.0, 1.0], [1.0; 2], Tone::down(WHITE, 1.0, 0.93));
    let gap = easel.up(0.4, 0.01);
    easel.block([0.0, 1.0], [0.0, gap], [1.0; 2], WHITE.lit(0.3));
    let stile = easel.across(4.3, 0.16);
    let (foot, lock, head) = (easel.up(9.0, 0.13), easel.up(37.0, 0.48), 1.0 - easel.up(5.0, 0.08));
    let rail = easel.up(5.0, 0.08);
    // A wide leaf is two, and a very wide one more.
    let leaves = easel.count(1.0, 36.0, 12);
    for [from, to] in parts([0.0, 1.0], leaves) {
        if from > 0.0 {
            let half = easel.across(0.1, 0.004);
            easel.block([from - half, from + half], [0.0, 1.0], [1.0; 2], WHITE.lit(0.5));
        }
        let stile = stile.min((to - from) * 0.17);
        let middle = (from + to) / 2.0;
        for x in [[from + stile, middle - stile * 0.45], [middle + stile * 0.45, to - stile]] {
            for y in [[foot, lock - rail / 2.0], [lock + rail / 2.0, head]] {
                raised(easel, [x, y], 1.0, WHITE);
            }
        }
    }
    // The lever, within the stile that opens, its plate behind it.
    let (half, tall) = (easel.across(0.75, 0.04), easel.up(3.2, 0.06));
    let (x, y) = (easel.across(2.1, 0.08), easel.up(38.0, 0.48));
    easel.round(
        [x - half, x + half],
        [y - tall, y + tall],
        [1.0; 2],
        [0.4, 0.4],
        Tone::down(BRASS, 1.0, 0.72),
    );
    let thick = easel.up(0.45, 0.01);
    let lever = [x - half * 0.6, x + easel.across(4.2, 0.16)];
    easel.round(
        lever,
        [y + tall * 0.35 - thick * 2.4, y + tall * 0.35 + thick * 0.2],
        [1.0; 2],
        [0.4, 0.4],
        WHITE.lit(0.72),
    );
    easel.round(
        lever,
        [y + tall * 0.35 - thick, y + tall * 0.35 + thick],
        [1.0; 2],
        [0.45, 0.45],
        Tone::down(BRASS, 1.35, 0.7),
    );
}

/// In how many strips the sky is drawn.
const SKY_STRIPS: u8 = 48;

/// A window of two sashes, one above the other: the sky by day, and dusk by evening. All of it is drawn on the face of its casing.
#[inline(never)]
pub(super) fn window(easel: &mut Easel, light: Lighting) {
    let head = easel.casing / easel.height;
    casing(easel, [-head * 0.5, 0.0]);
    easel.block([0.0, 1.0], [0.0, 1.0], [1.0; 2], WHITE.lit(0.6));
    // The sky is one, however many panes it is seen through: strips laid one over the other, too narrow to be told apart.
    let [zenith, middle, haze] = match light {
        Lighting::Day => [0xa9_c1_cf, 0xc6_d8_de, 0xe9_ec_e6],
        Lighting::Evening => [0x17_23_3b, 0x2b_3e_5e, 0x72_70_80],
    }
    .map(Colour::hex);
    let jamb = [easel.across(1.1, 0.08), easel.up(1.1, 0.06)];
    for strip in 0..SKY_STRIPS {
        let down = f32::from(strip) / f32::from(SKY_STRIPS);
        let colour = if down < 0.6 {
            zenith.mixed(middle, down / 0.6)
        } else {
            let way = (down - 0.6) / 0.4;
            middle.mixed(haze, way * way)
        };
        let below = (down + 2.0 / f32::from(SKY_STRIPS)).min(1.0);
        let y = [below, down].map(|down| jamb[1] + (1.0 - down) * (1.0 - 2.0 * jamb[1]));
        easel.block([jamb[0], 1.0 - jamb[0]], y, [1.0; 2], colour);
    }
    let shade = match light {
        Lighting::Day => 1.0,
        // Against the dark the bars are lit from the room alone.
        Lighting::Evening => 0.86,
    };
    let frame = |head: f32, foot: f32| Tone::down(WHITE.lit(shade), head, foot);
    for x in [[0.0, jamb[0]], [1.0 - jamb[0], 1.0]] {
        easel.block(x, [0.0, 1.0], [1.0; 2], frame(0.86, 0.9).across([0.92, 1.0, 0.92]));
    }
    for (y, light) in [([0.0, jamb[1]], 1.0), ([1.0 - jamb[1], 1.0], 0.8)] {
        easel.block([0.0, 1.0], y, [1.0; 2], frame(light, light * 0.95));
    }
    // Sashes: stiles and legs, then the bars between panes.
    let wood = [easel.across(1.5, 0.07), easel.up(1.5, 0.05)];
    let inner = [jamb[0], 1.0 - jamb[0]];
    let middle = 0.5;
    let lights = easel.count(1.0, 16.0, 16);
    let z = [1.0; 2];
    for y in [[middle, 1.0 - jamb[1]], [jamb[1], middle + wood[1] * 0.6]] {
        for x in [[inner[0], inner[0] + wood[0]], [inner[1] - wood[0], inner[1]]] {
            easel.block(x, y, z, frame(1.0, 0.95).across([1.0, 1.0, 0.9]));
        }
        easel.block(inner, [y[1] - wood[1], y[1]], z, frame(1.04, 0.84));
        easel.block(inner, [y[0], y[0] + wood[1]], z, frame(1.04, 0.84));
        let bar = easel.across(0.35, 0.02);
        for [from, _] in parts([inner[0] + wood[0], inner[1] - wood[0]], lights).skip(1) {
            easel.block(
                [from - bar, from + bar],
                [y[0] + wood[1], y[1] - wood[1]],
                z,
                frame(0.98, 0.92).across([1.0, 1.0, 0.84]),
            );
        }
    }
    // The board below, and what it keeps the light from.
    let aside = easel.casing / easel.width;
    let board = [-aside * 1.4, 1.0 + aside * 1.4];
    easel.block(
        [-aside * 0.94, 1.0 + aside * 0.94],
        [-head * 0.94, -head * 0.3],
        [0.0, 0.9],
        Tone::down(WHITE, 0.68, 0.94),
    );
    easel.round(board, [-head * 0.38, 0.0], [0.0, 2.5], [0.15, 0.25], Tone::down(WHITE, 1.1, 0.86));
}

/// Switch, socket and thermostat: a plate with what is on it.
#[inline(never)]
pub(super) fn fitting(easel: &mut Easel, kind: FixtureKind, paint: Colour) {
    let plate = Colour::hex(0xf1_ee_e7);
    let edge = if plate.contrast(paint) < 1.6 { plate.lit(0.5) } else { plate.lit(0.74) };
    easel.round([0.0, 1.0], [0.0, 1.0], [0.0, 1.0], [0.3, 0.3], Tone::down(edge, 1.1, 0.8));
    let (x, y) = (easel.across(0.12, 0.06), easel.up(0.12, 0.06));
    easel.round([x, 1.0 - x], [y, 1.0 - y], [1.0; 2], [0.24, 0.24], Tone::down(plate, 1.04, 0.94));
    let dark = Colour::hex(0x4a_47_43);
    match kind {
        FixtureKind::Switch => {
            easel.round([0.3, 0.7], [0.22, 0.78], [1.0; 2], [0.12, 0.12], Tone::down(plate, 0.6, 0.76));
            easel.round([0.33, 0.67], [0.235, 0.5], [1.0; 2], [0.08, 0.08], Tone::down(plate, 0.94, 0.84));
            easel.round([0.33, 0.67], [0.5, 0.765], [1.0; 2], [0.08, 0.08], Tone::down(plate, 1.02, 1.08));
        }
        FixtureKind::Socket => {
            for y in [[0.14, 0.47], [0.53, 0.86]] {
                easel.disc([0.2, 0.8], y, [1.0; 2], Tone::down(plate, 0.62, 0.86));
                let inset = (y[1] - y[0]) * 0.06;
                easel.disc(
                    [0.22, 0.78],
                    [y[0] + inset, y[1] - inset],
                    [1.0; 2],
                    Tone::down(plate, 0.82, 0.94),
                );
                let middle = (y[0] + y[1]) / 2.0;
                for from in [0.36, 0.565] {
                    easel.round(
                        [from, from + 0.075],
                        [middle - 0.05, middle + 0.05],
                        [1.0; 2],
                        [0.1, 0.1],
                        dark,
                    );
                }
            }
        }
        _ => {
            easel.disc([0.16, 0.84], [0.16, 0.84], [1.0; 2], Tone::down(plate, 0.56, 0.78));
            easel.disc([0.19, 0.81], [0.19, 0.81], [1.0; 2], Tone::down(plate, 1.06, 0.8));
            easel.disc([0.27, 0.73], [0.27, 0.73], [1.0; 2], Tone::down(plate, 0.9, 1.0));
            // Its hand.
            easel.block([0.49, 0.51], [0.6, 0.71], [1.0; 2], DARK);
        }
    }
}
