//! A plant in a pot: leaves on stems, from seeds, so that it is the same plant each time.

use super::super::texture::noise;
use super::{DARK, Easel, Tone, fitted_into};
use crate::colour::Colour;
use crate::rounding::nearest;
use kurbo::{Affine, BezPath, Point, Vec2};

/// Stems: where each ends, to the side and up, and how many leaves it bears.
const STEMS: [(f64, f64, u8); 5] =
    [(-0.3, 0.62, 5), (0.34, 0.56, 5), (-0.13, 0.86, 6), (0.15, 0.8, 6), (0.02, 1.0, 6)];

/// Greens, from those in the shade to those in the light.
const GREENS: [Colour; 4] =
    [Colour::hex(0x46_5f_4c), Colour::hex(0x55_71_56), Colour::hex(0x66_82_62), Colour::hex(0x7b_95_72)];

/// A leaf: its two halves, seen a little aslant, and how far before the stem it is.
struct Leaf {
    halves: [BezPath; 2],
    forward: f64,
}

/// A plant with its pot.
#[inline(never)]
pub(super) fn plant(easel: &mut Easel) {
    let rim = easel.up(12.5, 0.28);
    let half = easel.across(6.2, 0.27);
    let clay = Colour::hex(0xb5_a4_92);
    let round = [0.86, 1.04, 0.66];
    let up = (1.0 - rim * 0.86) * easel.height;
    let (stems, mut leaves) = grown(f64::from(easel.width / up.max(1e-3)));
    let own = leaves
        .iter()
        .flat_map(|leaf| &leaf.halves)
        .map(kurbo::Shape::bounding_box)
        .reduce(|all, one| all.union(one))
        .unwrap_or(kurbo::Rect::new(0.0, 0.0, 1.0, 1.0));
    // The lowest leaves hang before the pot's rim.
    let placed = fitted_into(own, easel.at(0.0, rim * 0.86), easel.at(1.0, 1.0));
    for stem in stems {
        easel.form(placed * stem, [0.5; 2], Colour::hex(0x5c_5b_44));
    }
    crate::order::sort_by(&mut leaves, |one, other| one.forward.total_cmp(&other.forward));
    let behind = leaves.iter().filter(|leaf| leaf.forward < 0.5).count();
    for (index, leaf) in leaves.iter().enumerate() {
        if index == behind {
            pot(easel, [half, rim], clay, round);
        }
        put(easel, leaf, placed);
    }
}

fn pot(easel: &mut Easel, [half, rim]: [f32; 2], clay: Colour, round: [f32; 3]) {
    let lip = easel.up(1.6, 0.05);
    let foot = half * 0.74;
    easel.taper(
        [0.5 - half * 0.95, 0.5 + half * 0.95],
        [0.5 - foot, 0.5 + foot],
        [0.0, rim - lip * 0.6],
        [0.26, 0.74],
        Tone::down(clay, 0.96, 0.8).across(round),
    );
    easel.turn();
    easel.round(
        [0.5 - half * 0.95, 0.5 + half * 0.95],
        [rim - lip * 1.25, rim - lip],
        [0.26, 0.74],
        [0.0; 2],
        Tone::from(DARK.mixed(clay, 0.7)).across(round),
    );
    easel.turn();
    easel.round(
        [0.5 - half, 0.5 + half],
        [rim - lip, rim],
        [0.24, 0.76],
        [0.3, 0.3],
        Tone::down(clay, 1.14, 0.98).across(round),
    );
    easel.turn();
}

fn put(easel: &mut Easel, leaf: &Leaf, placed: Affine) {
    #[expect(clippy::cast_possible_truncation, reason = "a share of a depth")]
    let forward = leaf.forward as f32;
    // Before the pot's front, or behind its back.
    let z = if forward < 0.5 { forward * 0.5 } else { 0.78 + (forward - 0.5) * 0.44 };
    let tone = GREENS[usize::from(forward > 0.25) + usize::from(forward > 0.5) + usize::from(forward > 0.75)];
    for (half, light) in leaf.halves.iter().zip([1.0, 0.82]) {
        easel.form(placed * half, [z; 2], Tone::down(tone, light * 1.12, light * 0.86));
    }
}

/// How much wider than high the leaves of a plant of a usual size stand.
const USUAL: f64 = 0.72;

/// Stems and leaves in a unit of their own, y up from the earth. What is wider or higher than usual has its stems spread further and
/// more leaves on them, not larger ones.
fn grown(width_over_height: f64) -> (Vec<BezPath>, Vec<Leaf>) {
    let wide = (width_over_height / USUAL).clamp(1.0, 6.0);
    let high = (USUAL / width_over_height).clamp(1.0, 6.0);
    let (mut stems, mut leaves) = (Vec::new(), Vec::new());
    for (row, (aside, up, count)) in (0_u8..).zip(STEMS) {
        let chance = |index: u8, what: u8| {
            f64::from(noise(f32::from(index), f32::from(row) * 8.0 + f32::from(what), 0x1eaf))
        };
        let (aside, up) = (aside * wide, up * high);
        let count = u8::try_from(nearest(f64::from(count) * (wide * high).min(3.0))).unwrap_or(count);
        let end = Point::new(aside, up);
        let bend = Point::new(aside * 0.2, up * 0.55);
        let start = Point::new(aside * 0.1 / wide, 0.0);
        let on = |share: f64| start.lerp(bend, share).lerp(bend.lerp(end, share), share);
        let mut stem = BezPath::new();
        let thick = Vec2::new(0.008, 0.0);
        stem.move_to(start - thick);
        stem.quad_to(bend - thick, end);
        stem.quad_to(bend + thick, start + thick);
        stem.close_path();
        stems.push(stem);
        for index in 0..count {
            let share = 0.34 + 0.66 * f64::from(index) / f64::from(count - 1);
            let is_tip = index + 1 == count;
            let side = if (index + row) % 2 == 0 { 1.0 } else { -1.0 };
            // From straight up, to the right: a tip goes on as its stem does, lower leaves hang outwards.
            let droop = 0.55 + 0.75 * (1.0 - share) + 0.4 * chance(index, 0);
            let lean = aside.clamp(-0.6, 0.6);
            let angle = if is_tip { lean * 0.9 } else { lean * 0.6 + side * droop };
            let length = 0.25 + 0.07 * chance(index, 1) - if is_tip { 0.03 } else { 0.0 };
            leaves.push(Leaf {
                halves: halves(on(share), angle, length, 0.17 + 0.09 * chance(index, 2)),
                forward: chance(index, 3),
            });
        }
    }
    (stems, leaves)
}

/// The two halves of a leaf, from its stalk to its tip, bent a little by its weight.
fn halves(from: Point, angle: f64, length: f64, slimness: f64) -> [BezPath; 2] {
    let along = Vec2::new(libm::sin(angle), libm::cos(angle)) * length;
    let across = Vec2::new(along.y, -along.x);
    let tip = from + along - Vec2::new(0.0, 0.12 * length * libm::sin(angle).abs());
    let rib = from + along * 0.55 + Vec2::new(0.0, 0.03 * length);
    [1.0, -1.0].map(|side| {
        let mut half = BezPath::new();
        half.move_to(from);
        half.curve_to(
            from + along * 0.18 + across * (side * slimness * 1.25),
            from + along * 0.66 + across * (side * slimness * 1.25),
            tip,
        );
        half.quad_to(rib, from);
        half.close_path();
        half
    })
}
