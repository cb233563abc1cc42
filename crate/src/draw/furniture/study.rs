//! What stands in a study or a living room: television, bookcase, desk.

use super::super::texture::noise;
use super::{BRASS, DARK, Easel, Tone, closed, parts};
use crate::colour::Colour;

/// How much of the height of a television is its stand: what it has besides a screen of 16 : 9 (ITU-R BT.709) with its rim.
pub(super) fn stand(easel: &Easel) -> f32 {
    let screen = (easel.width * 9.0 / 16.0 + 1.2) / easel.height;
    if easel.foot > 0.0 { 0.0 } else { (1.0 - screen).max(easel.up(2.6, 0.12)).clamp(0.0, 0.8) }
}

/// A television: dark glass in a thin rim, on the wall; from the floor, on a stand.
#[inline(never)]
pub(super) fn television(easel: &mut Easel) {
    let (rim, glass) = (Colour::hex(0x26_27_29), Colour::hex(0x1c_21_26));
    let stand = stand(easel);
    if stand > 0.0 {
        easel.block([0.44, 0.56], [0.0, stand + 0.02], [0.3, 0.5], Tone::down(rim, 1.6, 0.9));
        let plate = easel.up(0.7, 0.06);
        easel.round([0.24, 0.76], [0.0, plate], [0.0, 1.0], [0.3, 0.1], Tone::down(rim, 2.2, 1.2));
    } else {
        easel.block([0.3, 0.7], [0.3, 0.7], [0.0, 0.3], Tone::from(rim));
    }
    easel.round([0.0, 1.0], [stand, 1.0], [0.3, 1.0], [0.3, 0.3], Tone::down(rim, 1.5, 1.0));
    let (aside, up) = (easel.across(0.35, 0.03), easel.up(0.35, 0.03));
    let chin = stand + up + easel.up(0.5, 0.03);
    let pane = [[aside, 1.0 - aside], [chin, 1.0 - up]];
    easel.block(pane[0], pane[1], [1.0; 2], Tone::down(glass, 1.9, 0.8).across([1.1, 1.0, 0.8]));
    // The room's window in the dark glass, faint and leaning.
    let [[left, right], [foot, head]] = pane;
    let (wide, high) = (right - left, head - foot);
    for (from, to) in [(0.1, 0.27), (0.29, 0.4)] {
        let lean = 0.14;
        let corners = [
            (left + wide * (from + lean), head),
            (left + wide * (to + lean), head),
            (left + wide * to, foot + high * 0.12),
            (left + wide * from, foot + high * 0.12),
        ];
        let outline = closed(&corners.map(|(x, y)| easel.at(x, y)));
        easel.form(outline, [1.0; 2], Tone::down(glass, 3.2, 1.15));
    }
}

/// Linen and paper of books' spines.
const SPINES: [u32; 8] =
    [0x7b_3f_36, 0x3f_53_63, 0xc8_b4_8d, 0x5c_66_4e, 0x8f_6a_3f, 0xd9_d2_c2, 0x4a_3d_4c, 0x6d_83_86];

/// A bookcase: shelves of books between two sides, here and there a gap.
#[inline(never)]
pub(super) fn bookcase(easel: &mut Easel) {
    let wood = easel.colour;
    let (side, board) = (easel.across(0.9, 0.06), easel.up(0.9, 0.06));
    let plinth = easel.up(2.6, 0.1);
    easel.block([side, 1.0 - side], [plinth, 1.0 - board], [0.0, 0.05], Tone::down(wood, 0.3, 0.38));
    easel.block([side * 0.5, 1.0 - side * 0.5], [0.0, plinth], [0.0, 0.9], Tone::down(wood, 0.55, 0.4));
    let whole = (1.0 - board - plinth) * easel.height;
    let shelves = u8::try_from(crate::rounding::nearest(f64::from(whole / 13.0))).unwrap_or(6).clamp(1, 6);
    for (row, [from, to]) in (0_u8..).zip(parts([plinth, 1.0 - board], shelves)) {
        let shelf = [from, from + board * 0.9];
        easel.block([side, 1.0 - side], shelf, [0.05, 0.96], Tone::down(wood, 1.1, 0.8));
        books(easel, [side, 1.0 - side], [shelf[1], to], row);
        // What is under the next shelf lies in its shadow.
        let dim = [to - (to - shelf[1]) * 0.09, to];
        easel.block([side, 1.0 - side], dim, [0.06; 2], wood.lit(0.22));
    }
    for (x, sides) in [([0.0, side], [1.05, 1.0, 0.95]), ([1.0 - side, 1.0], [0.95, 0.92, 0.86])] {
        easel.block(x, [0.0, 1.0], [0.0, 1.0], Tone::down(wood, 1.08, 0.9).across(sides));
    }
    easel.block([0.0, 1.0], [1.0 - board, 1.0], [0.0, 1.0], Tone::down(wood, 1.28, 1.0));
}

/// The books on a shelf.
fn books(easel: &mut Easel, [from, to]: [f32; 2], [foot, head]: [f32; 2], row: u8) {
    let count = easel.count(to - from, 1.7, 22);
    let step = (to - from) / f32::from(count);
    let chance = |book: u8, of: f32| noise(f32::from(book) + 0.5, f32::from(row) * 3.0 + of, 0xb0_0c);
    // Each shelf ends with some room, in turn at one side or the other.
    let spare = 1 + count / 6;
    let gap = if row.is_multiple_of(2) { count - spare..count } else { count / 2..count / 2 + spare };
    for book in (0..count).filter(|book| !gap.contains(book)) {
        let x = [from + step * f32::from(book), from + step * (f32::from(book) + 0.93)];
        let tall = foot + (head - foot) * (0.62 + 0.26 * chance(book, 0.0));
        let pick = usize::from(book) * 5 + usize::from(row) * 3 + usize::from(chance(book, 1.0) > 0.5);
        let cloth = Colour::hex(SPINES[pick % SPINES.len()]);
        let deep = 0.72 + 0.16 * chance(book, 2.0);
        easel.block(x, [foot, tall], [0.1, deep], Tone::down(cloth, 0.78, 0.95).across([0.86, 1.06, 0.8]));
        // A label on the spine, on some.
        if chance(book, 3.0) > 0.55 {
            let up = foot + (tall - foot) * 0.72;
            let label = [[x[0] + step * 0.16, x[1] - step * 0.16], [up, up + (tall - foot) * 0.1]];
            easel.block(label[0], label[1], [deep; 2], Colour::hex(0xcf_bd_8c).lit(0.85));
        }
    }
}

/// A desk: a top on a pedestal of drawers at the right and two legs at the left, open for the knees.
#[inline(never)]
pub(super) fn desk(easel: &mut Easel) {
    let wood = easel.colour;
    let top = easel.up(1.3, 0.12);
    let leg = easel.across(1.6, 0.06);
    let inset = easel.across(1.2, 0.03);
    for z in [[0.05, 0.12], [0.86, 0.93]] {
        let x = [inset, inset + leg];
        easel.block(x, [0.0, 1.0 - top], z, Tone::down(DARK, 0.8, 1.2).across([1.1, 1.0, 0.8]));
    }
    // It ends within the front leg, whose face hides where.
    easel.block([inset, inset + leg], [0.0, easel.up(1.2, 0.06)], [0.05, 0.88], Tone::from(DARK.lit(1.1)));
    // The board that closes it behind, and the rail under the top.
    easel.block([inset + leg, 0.62], [0.42, 1.0 - top], [0.03, 0.06], Tone::down(wood, 0.34, 0.52));
    let rail = 1.0 - top - easel.up(2.6, 0.12);
    easel.block([inset + leg, 0.64], [rail, 1.0 - top], [0.82, 0.9], Tone::down(wood, 0.6, 0.9));
    let box_x = [0.64, 1.0 - inset];
    let plinth = easel.up(1.8, 0.08);
    easel.block([box_x[0] + 0.01, box_x[1] - 0.01], [0.0, plinth], [0.06, 0.86], Tone::from(DARK.lit(0.8)));
    easel.block(box_x, [plinth, 1.0 - top], [0.03, 0.9], Tone::down(wood, 0.5, 0.66));
    let (aside, gap) = (easel.across(0.5, 0.02), easel.up(0.35, 0.02));
    let drawers = easel.count(easel.height / easel.width.max(0.01), 8.0, 5).max(2);
    for (index, [from, to]) in (0_u8..).zip(parts([plinth, 1.0 - top - gap], drawers)) {
        let (x, y) = ([box_x[0] + aside, box_x[1] - aside], [from + gap, to]);
        let tone = 0.95 + 0.1 * noise(f32::from(index), 2.0, 0xde5c);
        easel.block(x, y, [0.9, 0.92], Tone::down(wood.lit(tone), 0.92, 1.04).across([1.0, 0.99, 0.94]));
        let (middle, half) = ((x[0] + x[1]) / 2.0, easel.across(2.2, 0.08));
        let up = y[0] + (y[1] - y[0]) * 0.62;
        let thick = easel.up(0.45, 0.03);
        let pull = [middle - half, middle + half];
        easel.round(pull, [up, up + thick], [0.92, 0.95], [0.2, 0.2], Tone::down(BRASS, 1.2, 0.7));
    }
    easel.round([0.0, 1.0], [1.0 - top, 1.0], [0.0, 1.0], [0.15, 0.2], Tone::down(wood, 1.32, 0.92));
}
