//! What runs along the wall or hangs before it: stairs, curtain, picture leg, beam.

use super::super::texture::noise;
use super::{BRASS, Easel, Tone, WHITE, WOOD, closed, parts};
use crate::colour::Colour;
use crate::plan::Rise;

/// Old timber.
const TIMBER: Colour = Colour::hex(0x70_54_3c);

/// Stairs along the wall: so many steps of wood with nosings, on a string that is painted white.
#[inline(never)]
pub(super) fn stairs(easel: &mut Easel, steps: u8, rise: Rise) {
    let count = f32::from(steps);
    let turned = |[from, to]: [f32; 2]| match rise {
        Rise::Right => [from, to],
        Rise::Left => [1.0 - to, 1.0 - from],
    };
    let (step, tall) = (1.0 / count, 1.0 / count);
    let nosing = easel.across(1.0, step * 0.14);
    let thick = easel.up(1.3, tall * 0.24);
    // Behind the string: what of each step is seen from its side.
    for index in 0..steps {
        let at = f32::from(index);
        let x = [at * step + nosing, ((at + 1.0) * step + nosing).min(1.0)];
        easel.block(turned(x), [0.0, (at + 1.0) * tall - thick], [0.0, 0.95], Tone::from(WHITE.lit(0.86)));
    }
    let mut corners = vec![(1.0, 0.0), (nosing, 0.0)];
    for index in 0..steps {
        let at = f32::from(index);
        let head = (at + 1.0) * tall - thick;
        corners.push((at * step + nosing, head));
        corners.push((((at + 1.0) * step + nosing).min(1.0), head));
    }
    let placed = |corners: &[(f32, f32)], easel: &Easel| {
        let points: Vec<_> = corners.iter().map(|&(x, y)| easel.at(turned([x, x])[0], y)).collect();
        closed(&points)
    };
    let string = placed(&corners, easel);
    easel.form(string, [0.97; 2], Tone::down(WHITE, 0.98, 0.84));
    // A panel below the flight, where there is room for one.
    if steps > 3 {
        let lean = |easel: &Easel, inset: f32| {
            let (aside, up) = (easel.across(inset, 0.05), easel.up(inset, 0.05));
            let foot = easel.up(5.0, 0.08) + up;
            let right = 1.0 - easel.across(5.0, 0.07) - aside;
            // Along the slope, two steps below the treads.
            let left = foot + 2.6 * step + aside;
            [(left, foot), (right, foot), (right, right - 2.6 * tall - up * 1.4)]
        };
        for (inset, light) in [(0.0, 0.66), (0.5, 1.06), (1.0, 0.9)] {
            let outline = placed(&lean(easel, inset), easel);
            easel.form(outline, [0.97; 2], Tone::down(WHITE, light, light * 0.95));
        }
    }
    for index in 0..steps {
        let at = f32::from(index);
        let head = (at + 1.0) * tall;
        let x = [at * step, ((at + 1.0) * step + nosing).min(1.0)];
        // Under the nosing lies its shadow, on the riser and the string.
        let shade = [at * step + nosing, ((at + 1.0) * step + nosing).min(1.0)];
        easel.block(turned(shade), [head - thick * 1.7, head - thick], [0.97; 2], WHITE.lit(0.62));
        let tone = 0.96 + 0.1 * noise(at, 0.0, 0x57e9);
        // Behind the string, and before it.
        for z in [[0.0, 0.95], [0.97, 1.0]] {
            let wood = Tone::down(WOOD.lit(tone), 1.28, 0.86);
            easel.round(turned(x), [head - thick, head], z, [0.3, 0.5], wood);
        }
    }
}

/// A curtain on a rod, falling in folds to its hem.
#[inline(never)]
pub(super) fn curtain(easel: &mut Easel) {
    let drape = easel.colour;
    let rod = easel.up(1.5, 0.05);
    let head = 1.0 - rod * 0.55;
    let count = easel.count(1.0, 4.4, 60);
    let hem = easel.up(2.4, 0.05);
    easel.block([0.01, 0.99], [0.0, head], [0.0, 0.25], Tone::down(drape, 0.66, 0.56));
    for (index, [from, to]) in (0_u8..).zip(parts([0.006, 0.994], count)) {
        let chance = |of: f32| noise(f32::from(index), of, 0xc1_07);
        let step = to - from;
        // Folds are narrow where they are gathered, and spread as they fall.
        let lean = (chance(0.0) - 0.5) * step * 0.5;
        let (narrow, wide) = (step * (0.36 + 0.1 * chance(1.0)), step * (0.5 + 0.1 * chance(2.0)));
        let middle = (from + to) / 2.0;
        let ends =
            |half: f32, aside: f32| [(middle + aside - half).max(0.0), (middle + aside + half).min(1.0)];
        let z = if index % 2 == 0 { [0.25, 0.8] } else { [0.25, 0.62] };
        let light = if index % 2 == 0 { 1.06 } else { 0.92 };
        let sides = [0.8, 1.06, 0.6];
        let tone = Tone::down(drape, light, light * 0.9).across(sides);
        easel.taper(ends(narrow, 0.0), ends(wide, lean), [0.0, head], z, tone);
        let seam = Tone::down(drape, light * 0.8, light * 0.86).across(sides);
        let at = ends(wide, lean);
        easel.block(at, [hem * 0.92, hem], [z[1]; 2], seam);
        // The pleat at its top is stitched together.
        let pleat = ends(narrow * 0.5, 0.0);
        let low = head - easel.up(3.0, 0.06);
        easel.taper(pleat, ends(narrow * 0.9, 0.0), [low, head], [z[1]; 2], Tone::down(drape, 0.7, light));
    }
    easel.round([0.0, 1.0], [1.0 - rod, 1.0], [0.3, 0.55], [0.5, 0.5], Tone::down(BRASS, 1.2, 0.55));
    let knob = easel.across(rod * easel.height * 0.9, 0.04);
    for x in [[0.0, knob], [1.0 - knob, 1.0]] {
        easel.round(x, [1.0 - rod, 1.0], [0.2, 0.65], [0.75, 0.75], Tone::down(BRASS, 1.35, 0.6));
    }
}

/// A picture leg: a moulding with a hollow above a round, for hooks that grip it.
#[inline(never)]
pub(super) fn picture_rail(easel: &mut Easel) {
    for (y, z, tone) in [
        ([0.0, 1.0], [0.0, 0.3], Tone::down(WHITE, 0.9, 0.8)),
        ([0.06, 0.42], [0.3, 0.7], Tone::down(WHITE, 1.06, 0.74)),
        ([0.42, 0.52], [0.3, 0.45], Tone::down(WHITE, 0.55, 0.66)),
        ([0.52, 0.86], [0.3, 0.8], Tone::down(WHITE, 0.78, 1.0)),
        ([0.86, 1.0], [0.0, 1.0], Tone::down(WHITE, 1.12, 1.0)),
    ] {
        easel.block([0.0, 1.0], y, z, tone);
    }
}

/// A beam of old timber, its lower edges chamfered.
#[inline(never)]
pub(super) fn beam(easel: &mut Easel) {
    easel.block([0.0, 1.0], [0.0, 1.0], [0.0, 1.0], Tone::down(TIMBER, 0.86, 0.98));
    let chamfer = easel.up(0.8, 0.12);
    // Grain runs along it, never quite straight, and cracks where it dried.
    for line in 0..14_u8 {
        let chance = |of: f32| noise(f32::from(line), of, 0xbea3);
        let up = chamfer + (1.0 - chamfer) * (f32::from(line) + 0.7 * chance(0.0)) / 14.7;
        let thick = easel.up(0.14 + 0.4 * chance(1.0), 0.05);
        let from = (chance(2.0) - 0.4).max(0.0) * 0.9;
        let to = (from + 0.3 + 0.7 * chance(3.0)).min(1.0);
        let light = if line % 5 == 3 { 0.5 } else { 0.84 + 0.3 * chance(4.0) };
        let (bend, head) = ((chance(5.0) - 0.5) * 0.05, (up + thick).min(1.0));
        let corners = [
            (from, (up + bend).clamp(0.0, 1.0)),
            (to, up),
            (to, head),
            (from, (head + bend - thick * 0.4).clamp(0.0, 1.0)),
        ];
        let outline = closed(&corners.map(|(x, y)| easel.at(x, y)));
        easel.form(outline, [1.0; 2], Tone::from(TIMBER.lit(light)));
    }
    easel.block([0.0, 1.0], [0.0, chamfer], [1.0; 2], Tone::down(TIMBER, 1.25, 0.7));
}
