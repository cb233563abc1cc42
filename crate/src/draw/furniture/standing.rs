//! What stands before the wall: sofa, sideboard, bed, table, lamp.

use super::super::texture::noise;
use super::{BRASS, CLOTH, DARK, Easel, FLAX, LINEN, Tone, WOOD, cushion, parts};
use crate::colour::Colour;
use crate::plan::Lighting;

/// A sofa: a frame on turned legs, with a row of seat cushions and as many that lean on its back.
#[inline(never)]
pub(super) fn sofa(easel: &mut Easel) {
    let cloth = easel.colour;
    let arm = easel.across(7.0, 0.14);
    let leg = easel.up(5.0, 0.16);
    let (half, foot) = (easel.across(1.1, 0.02), easel.across(0.65, 0.012));
    for z in [[0.06, 0.12], [0.88, 0.94]] {
        for middle in [arm * 0.55, 1.0 - arm * 0.55] {
            let (head, foot) = ([middle - half, middle + half], [middle - foot, middle + foot]);
            easel.taper(head, foot, [0.0, leg + 0.01], z, Tone::down(DARK, 0.7, 1.15));
        }
    }
    // The back, with cushions leaning on it.
    let back = [arm * 0.35, 1.0 - arm * 0.35];
    easel.round(back, [leg, 1.0], [0.02, 0.22], [3.4, 0.0], Tone::down(cloth, 0.96, 0.5));
    let inside = [arm, 1.0 - arm];
    let count = easel.count(inside[1] - inside[0], 34.0, 12);
    let seam = [easel.across(0.3, 0.01), easel.up(0.3, 0.01)];
    let seat = [leg + easel.up(4.0, 0.12), leg + easel.up(11.0, 0.34)];
    for [from, to] in parts(inside, count) {
        let area = [[from + seam[0] * 0.4, to - seam[0] * 0.4], [seat[1] - 0.06, 0.965]];
        upholstered(easel, area, [0.22, 0.42], seam, [1.14, 0.72]);
    }
    thrown_cushion(easel, arm, seat[1]);
    // Seat cushions, lit on the edge where they turn upwards.
    for [from, to] in parts(inside, count) {
        let x = [from + seam[0] * 0.3, to - seam[0] * 0.3];
        easel.round(x, seat, [0.24, 0.97], [1.6, 0.8], Tone::down(cloth, 0.86, 0.6));
        let front = [x[0] + seam[0], x[1] - seam[0]];
        easel.round(
            front,
            [seat[0] + seam[1], seat[1] - seam[1]],
            [0.97; 2],
            [1.5, 0.7],
            Tone::down(cloth, 1.2, 0.82),
        );
        let lip = [seat[1] - easel.up(1.9, 0.05), seat[1] - easel.up(1.6, 0.04)];
        easel.block([front[0] + seam[0] * 3.0, front[1] - seam[0] * 3.0], lip, [0.97; 2], cloth.lit(0.93));
    }
    let rail = inside;
    easel.round(rail, [leg, seat[0]], [0.06, 0.95], [0.0, 0.6], Tone::down(cloth, 0.62, 0.84));
    // Arms stand in front of everything.
    for (x, sides) in [([0.0, arm], [1.0, 1.0, 0.9]), ([1.0 - arm, 1.0], [0.95, 0.95, 0.82])] {
        let y = [leg, leg + easel.up(17.5, 0.53)];
        easel.round(x, y, [0.22, 1.0], [2.4, 0.5], Tone::down(cloth, 0.9, 0.58).across(sides));
        let panel = [[x[0] + seam[0], x[1] - seam[0]], [y[0] + seam[1], y[1] - seam[1]]];
        easel.round(panel[0], panel[1], [1.0; 2], [2.1, 0.4], Tone::down(cloth, 1.14, 0.76).across(sides));
    }
}

/// A cushion with a seam round it.
fn upholstered(
    easel: &mut Easel,
    [x, y]: [[f32; 2]; 2],
    z: [f32; 2],
    seam: [f32; 2],
    [head, foot]: [f32; 2],
) {
    let cloth = easel.colour;
    let sides = [0.94, 1.0, 0.9];
    easel.crowned(x, y, z, 3.0, Tone::down(cloth, head * 0.78, foot * 0.78).across(sides));
    let (x, y) = ([x[0] + seam[0], x[1] - seam[0]], [y[0] + seam[1], y[1] - seam[1]]);
    easel.crowned(x, y, [z[1]; 2], 2.8, Tone::down(cloth, head, foot).across(sides));
}

/// A small cushion of flax, leaning in the left corner: where there is room for it.
fn thrown_cushion(easel: &mut Easel, arm: f32, seat: f32) {
    if easel.width < 54.0 || !(24.0..60.0).contains(&easel.height) {
        return;
    }
    let foot = easel.at(arm, seat - easel.up(0.8, 0.03));
    let side = 0.42 * f64::from(easel.height);
    let turn = kurbo::Affine::rotate_about(0.13, kurbo::Point::new(side, 0.0));
    for (inset, z, light) in [(0.0, [0.42, 0.52], 0.8), (0.3, [0.52; 2], 1.0)] {
        let own = cushion(
            kurbo::Point::new(inset, inset),
            kurbo::Point::new(side - inset, side * 0.92 - inset),
            0.7,
        );
        let placed = kurbo::Affine::translate((foot.x + 3.4, foot.y)) * turn * own;
        easel.form(placed, z, Tone::down(FLAX, light * 1.05, light * 0.76).across([0.97, 1.0, 0.9]));
    }
}

/// A sideboard: doors under a top that stands over them, on tapered legs.
#[inline(never)]
pub(super) fn sideboard(easel: &mut Easel) {
    let wood = easel.colour;
    let leg = easel.up(6.5, 0.28);
    let over = easel.across(0.4, 0.01);
    legs(easel, [over * 2.0, 1.0 - over * 2.0], leg + 0.01, [1.3, 0.7], DARK);
    let top = easel.up(1.1, 0.1);
    let case = [over, 1.0 - over];
    easel.round(case, [leg, 1.0 - top * 0.5], [0.0, 0.96], [0.0, 0.3], Tone::down(wood, 0.42, 0.6));
    let count = easel.count(1.0, 20.0, 16);
    let gap = [easel.across(0.22, 0.006), easel.up(0.22, 0.008)];
    let frame = [easel.across(0.9, 0.02), easel.up(0.9, 0.04)];
    let doors = [leg + frame[1], 1.0 - top - easel.up(0.5, 0.03)];
    for (index, [from, to]) in (0_u8..).zip(parts([case[0] + frame[0], case[1] - frame[0]], count)) {
        let tone = 0.94 + 0.12 * noise(f32::from(index), 0.0, 0x51de);
        let x = [from + gap[0], to - gap[0]];
        easel.block(x, doors, [0.96, 0.985], Tone::down(wood.lit(tone), 0.92, 1.0).across([1.0, 0.98, 0.94]));
        // Grain runs along, and is never quite even.
        for line in 0..7_u8 {
            let at = f32::from(line) + 0.6 * noise(f32::from(line), f32::from(index), 0x62a1);
            let up = doors[0] + (doors[1] - doors[0]) * (at + 0.3) / 7.4;
            let thick = easel.up(0.16 + 0.7 * noise(f32::from(index), f32::from(line), 0x7c3), 0.02);
            let light = 0.955 + 0.07 * noise(f32::from(line), f32::from(index), 0x91b7);
            easel.block(x, [up, (up + thick).min(doors[1])], [0.985; 2], wood.lit(tone * light));
        }
        // A pair of doors opens from its middle.
        let (half, pull) = (easel.across(0.3, 0.01), easel.across(1.6, 0.04));
        let middle = if index % 2 == 0 && index + 1 < count { x[1] - pull } else { x[0] + pull };
        let up = doors[1] - (doors[1] - doors[0]) * 0.36;
        let tall = easel.up(2.4, 0.1);
        let knob = [[middle - half, middle + half], [up, up + tall]];
        easel.round(knob[0], knob[1], [0.985, 1.0], [0.3, 0.3], Tone::down(BRASS, 1.1, 0.7));
    }
    easel.round([0.0, 1.0], [1.0 - top, 1.0], [0.0, 1.0], [0.15, 0.1], Tone::down(wood, 1.3, 0.98));
}

/// Four legs that taper to the floor, from so many inches to so many.
fn legs(easel: &mut Easel, [from, to]: [f32; 2], height: f32, [head, foot]: [f32; 2], colour: Colour) {
    let (inset, head) = (easel.across(3.0, 0.06), easel.across(head, 0.05));
    let foot = head * foot;
    for z in [[0.06, 0.16], [0.82, 0.92]] {
        let tone = Tone::down(colour, 0.62, 1.05);
        let (left, right) = (from + inset, to - inset);
        easel.taper([left, left + head], [left, left + foot], [0.0, height], z, tone);
        easel.taper(
            [right - head, right],
            [right - foot, right],
            [0.0, height],
            z,
            tone.across([1.0, 0.95, 0.85]),
        );
    }
}

/// A bed seen from its bottom: an upholstered head, two pillows (one on a narrow bed), a quilt with its edge turned back.
#[inline(never)]
pub(super) fn bed(easel: &mut Easel) {
    let frame = easel.up(5.0, 0.14);
    let quilt_top = easel.up(25.0, 0.57);
    // The top, in upright channels.
    for x in [[0.0, easel.across(2.4, 0.06)], [1.0 - easel.across(2.4, 0.06), 1.0]] {
        easel.block(x, [0.0, frame], [0.0, 0.03], Tone::down(DARK, 0.7, 1.0));
    }
    easel.round([0.0, 1.0], [frame * 0.7, 1.0], [0.0, 0.03], [3.0, 0.4], Tone::down(CLOTH, 0.95, 0.6));
    let rim = [easel.across(0.8, 0.02), easel.up(0.8, 0.03)];
    let count = easel.count(1.0, 9.0, 24);
    for [from, to] in parts([rim[0], 1.0 - rim[0]], count) {
        let gap = easel.across(0.14, 0.003);
        let tone = Tone::down(CLOTH, 1.16, 0.8).across([0.88, 1.0, 0.84]);
        easel.round([from + gap, to - gap], [0.3, 1.0 - rim[1]], [0.03, 0.045], [1.4, 0.0], tone);
    }
    let pillows = easel.count(1.0, 31.0, 4);
    for (index, [from, to]) in (0_u8..).zip(parts([0.045, 0.955], pillows)) {
        let gap = easel.across(0.7, 0.01);
        let lean = 0.012 * noise(f32::from(index), 3.0, 0x9e1);
        for (inset, z, light) in [(0.0, [0.06, 0.16], 0.8), (0.35, [0.16; 2], 1.0)] {
            let (aside, down) = (easel.across(inset, 0.01), easel.up(inset, 0.01));
            let x = [from + gap + aside, to - gap - aside];
            let head = 0.8_f32.min(quilt_top + easel.up(13.0, 0.3));
            let y = [quilt_top - 0.1 + down, head + lean - down];
            easel.cushion(
                x,
                y,
                z,
                1.3,
                Tone::down(LINEN, light * 1.04, light * 0.74).across([0.95, 1.0, 0.88]),
            );
        }
    }
    for (middle, sides) in [(0.06, [1.0, 0.9, 0.8]), (0.94, [1.0, 0.9, 0.8])] {
        let half = easel.across(1.0, 0.02);
        easel.block(
            [middle - half, middle + half],
            [0.0, frame],
            [0.92, 0.97],
            Tone::from(DARK).across(sides),
        );
    }
    easel.round(
        [0.012, 0.988],
        [frame * 0.45, frame * 1.8],
        [0.05, 0.98],
        [0.3, 0.3],
        Tone::down(WOOD, 0.6, 0.9),
    );
    // The quilt hangs over the end of the bed; at the pillows it is turned back, thicker there and with its lining out.
    let quilt = easel.colour;
    let (side, hem) = (0.008, frame * 1.05);
    let turned = [quilt_top - easel.up(2.4, 0.08), quilt_top + easel.up(1.0, 0.03)];
    easel.round([side + 0.012, 0.988 - side], turned, [0.17, 0.34], [2.0, 0.0], Tone::down(LINEN, 1.02, 0.7));
    easel.round(
        [side, 1.0 - side],
        [hem, quilt_top],
        [0.2, 1.0],
        [3.2, 0.9],
        Tone::down(quilt, 1.12, 0.8).across([0.93, 1.0, 0.87]),
    );
    // Folds, where the canvas falls from the edge.
    let folds = easel.count(1.0, 7.5, 24);
    for (index, [from, to]) in (0_u8..).zip(parts([0.03, 0.97], folds)) {
        let chance = |row: f32| noise(f32::from(index), row, 0x4b);
        let middle = from + (to - from) * (0.2 + 0.6 * chance(0.0));
        let half = easel.across(0.25 + 0.5 * chance(1.0), 0.01);
        let head = hem + (quilt_top - hem) * (0.5 + 0.3 * chance(2.0));
        let lean = (chance(3.0) - 0.5) * 0.02;
        let light = if index % 2 == 0 { 0.86 } else { 0.93 };
        easel.taper(
            [middle + lean, middle + lean + half * 0.2],
            [middle - half, middle + half],
            [hem + easel.up(0.3, 0.02), head],
            [1.0; 2],
            Tone::down(quilt, 1.0, 0.8).across([light + 0.05, light, light + 0.05]),
        );
    }
}

/// A table along the wall: a top on tapered legs, with drawers under it.
#[inline(never)]
pub(super) fn table(easel: &mut Easel) {
    let wood = easel.colour;
    let top = easel.up(1.2, 0.14);
    let apron = easel.up(4.6, 0.24);
    let leg = easel.across(1.9, 0.07);
    let inset = easel.across(1.0, 0.02);
    for z in [[0.06, 0.16], [0.84, 0.94]] {
        for (head, foot, sides) in [
            ([inset, inset + leg], [inset, inset + leg * 0.55], [1.0, 1.0, 0.84]),
            ([1.0 - inset - leg, 1.0 - inset], [1.0 - inset - leg * 0.55, 1.0 - inset], [0.98, 0.94, 0.78]),
        ] {
            easel.taper(head, foot, [0.0, 1.0 - top], z, Tone::down(wood, 0.78, 0.92).across(sides));
        }
    }
    let (from, to) = (inset + leg, 1.0 - inset - leg);
    easel.block([from, to], [1.0 - top - apron, 1.0 - top], [0.1, 0.9], Tone::down(wood, 0.5, 0.82));
    let count = easel.count(to - from, 21.0, 16);
    let gap = [easel.across(0.2, 0.005), easel.up(0.5, 0.03)];
    for (index, [from, to]) in (0_u8..).zip(parts([from + gap[0], to - gap[0]], count)) {
        let tone = 0.92 + 0.1 * noise(f32::from(index), 0.0, 0x7ab1e);
        let y = [1.0 - top - apron + gap[1], 1.0 - top - gap[1]];
        easel.block([from + gap[0], to - gap[0]], y, [0.9, 0.92], Tone::down(wood.lit(tone), 0.9, 1.04));
        let (half, tall) = (easel.across(0.55, 0.02), easel.up(0.55, 0.03));
        let (x, up) = ((from + to) / 2.0, (y[0] + y[1]) / 2.0);
        easel.disc([x - half, x + half], [up - tall, up + tall], [0.92, 0.96], Tone::down(BRASS, 1.15, 0.65));
    }
    easel.round([0.0, 1.0], [1.0 - top, 1.0], [0.0, 1.0], [0.15, 0.3], Tone::down(wood, 1.32, 0.9));
}

/// A standing lamp: a slender pole on a flat foot, and a shade of linen that tapers upwards. By evening it is lit.
#[inline(never)]
pub(super) fn lamp(easel: &mut Easel, light: Lighting) {
    let iron = Colour::hex(0x4a_44_3d);
    let round = [0.8, 1.15, 0.6];
    let (half, plate) = (easel.across(0.35, 0.06), easel.up(0.8, 0.05));
    let shade = easel.up(11.0, 0.3);
    let foot = easel.across(5.2, 0.36);
    easel.round(
        [0.5 - foot, 0.5 + foot],
        [0.0, plate],
        [0.18, 0.82],
        [0.6, 0.1],
        Tone::down(iron, 1.2, 0.8).across([0.9, 1.0, 0.7]),
    );
    easel.turn();
    easel.block(
        [0.5 - half, 0.5 + half],
        [plate * 0.8, 1.0 - shade * 0.96],
        [0.47, 0.53],
        Tone::from(iron).across(round),
    );
    easel.turn();
    let collar = easel.up(1.0, 0.06);
    easel.taper(
        [0.5 - half, 0.5 + half],
        [0.5 - half * 2.4, 0.5 + half * 2.4],
        [plate, plate + collar],
        [0.45, 0.55],
        Tone::from(iron).across(round),
    );
    easel.turn();
    let (linen, sides) = match light {
        Lighting::Day => (Tone::down(LINEN, 0.98, 0.9), [0.86, 1.0, 0.74]),
        // The evening's colour is laid over it later; nothing on the wall is as bright.
        Lighting::Evening => (Tone::down(Colour::hex(0xff_fc_f4), 0.93, 1.0), [0.9, 1.0, 0.88]),
    };
    let tight = 0.2;
    easel.taper([tight, 1.0 - tight], [0.0, 1.0], [1.0 - shade, 1.0], [0.0, 1.0], linen.across(sides));
    easel.turn();
    // Bands where the linen is turned over the wire.
    let band = easel.up(0.4, 0.02);
    let lean = tight * band / shade;
    let edge = |light: f32| Tone::from(linen.colour.lit(light)).across(sides);
    easel.taper(
        [tight, 1.0 - tight],
        [tight - lean, 1.0 - tight + lean],
        [1.0 - band, 1.0],
        [0.0, 1.0],
        edge(0.82),
    );
    easel.turn();
    easel.taper([lean, 1.0 - lean], [0.0, 1.0], [1.0 - shade, 1.0 - shade + band], [0.0, 1.0], edge(0.82));
    easel.turn();
}
