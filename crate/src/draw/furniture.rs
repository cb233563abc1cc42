//! Fixtures: neutral shapes of our own, as solids from which every view is drawn.
//!
//! Each is a list of parts in shares of the fixture's own width, height and depth (0 to 1; y up from its foot, z from the wall to
//! its front), so that any size a person states is filled exactly.

use crate::colour::Colour;
use crate::length::Length;
use crate::plan::FixtureKind;
use crate::scene::ScenicFixture;
use kurbo::BezPath;

/// A part of a fixture: an upright outline, as deep as it is. Inches from the left corner, the floor and the wall.
#[derive(Clone, Debug)]
pub(super) struct Solid {
    /// The outline seen from the front, y up.
    pub(super) outline: BezPath,
    /// From its back to its front.
    pub(super) z: [f32; 2],
    /// Its colour.
    pub(super) colour: Colour,
    /// How much light its head and its foot get, against its colour.
    pub(super) light: [f32; 2],
}

/// A fixture being put together.
struct Easel {
    left: f32,
    foot: f32,
    width: f32,
    height: f32,
    depth: f32,
    solids: Vec<Solid>,
}

impl Easel {
    /// A part: from and to in shares of the width, the height and the depth, rounded by so many inches above and below.
    fn solid(
        &mut self,
        x: [f32; 2],
        y: [f32; 2],
        z: [f32; 2],
        radii: [f32; 2],
        colour: Colour,
        light: [f32; 2],
    ) {
        let [left, right] = x.map(|share| f64::from(self.left + share * self.width));
        let [foot, head] = y.map(|share| f64::from(self.foot + share * self.height));
        let [upper, lower] =
            radii.map(|radius| f64::from(radius).min((right - left) / 2.0).min((head - foot) / 2.0).max(0.0));
        // y grows upwards here, so that the upper corners are those that kurbo calls the lower ones.
        let shape = kurbo::RoundedRect::new(left, foot, right, head, (lower, lower, upper, upper));
        let outline = if upper > 0.0 || lower > 0.0 {
            kurbo::Shape::to_path(&shape, 0.01)
        } else {
            kurbo::Shape::to_path(&kurbo::Rect::new(left, foot, right, head), 0.01)
        };
        self.solids.push(Solid { outline, z: z.map(|share| share * self.depth), colour, light });
    }

    /// A part with its whole front in one light.
    fn part(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], radii: [f32; 2], colour: Colour) {
        self.solid(x, y, z, radii, colour, [1.0; 2]);
    }

    /// A part with square corners.
    fn plain(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], colour: Colour) {
        self.part(x, y, z, [0.0; 2], colour);
    }

    /// Inches as a share of the width.
    fn across(&self, inches: f32) -> f32 {
        inches / self.width
    }

    /// Inches as a share of the height.
    fn up(&self, inches: f32) -> f32 {
        inches / self.height
    }
}

/// A fixture as solids, those at the back first.
pub(super) fn solids(fixture: &ScenicFixture, paint: Colour) -> Vec<Solid> {
    let rect = fixture.rect;
    let mut easel = Easel {
        left: inches(rect.x),
        foot: inches(rect.y),
        width: inches(rect.size.width),
        height: inches(rect.size.height),
        depth: inches(fixture.depth),
        solids: Vec::new(),
    };
    match fixture.kind {
        FixtureKind::Sofa => sofa(&mut easel),
        FixtureKind::Sideboard => sideboard(&mut easel),
        FixtureKind::Bed => bed(&mut easel),
        FixtureKind::Table => table(&mut easel),
        FixtureKind::Lamp => lamp(&mut easel),
        FixtureKind::Plant => plant(&mut easel),
        FixtureKind::Mantel => mantel(&mut easel),
        FixtureKind::Radiator => radiator(&mut easel),
        FixtureKind::Door => door(&mut easel),
        FixtureKind::Window => window(&mut easel),
        FixtureKind::Switch | FixtureKind::Socket | FixtureKind::Thermostat => {
            fitting(&mut easel, fixture.kind, paint);
        }
    }
    easel.solids
}

#[expect(clippy::cast_possible_truncation, reason = "a place in a room keeps 24 bits")]
fn inches(length: Length) -> f32 {
    length.to_inches() as f32
}

const CLOTH: Colour = Colour::hex(0x6f_80_83);
const WOOD: Colour = Colour::hex(0x8a_6a_4c);
const DARK: Colour = Colour::hex(0x3a_2c_22);
const WHITE: Colour = Colour::hex(0xee_eb_e3);

fn sofa(easel: &mut Easel) {
    let arm = easel.across(8.5).min(0.18);
    let leg = easel.up(5.0).min(0.2);
    let gap = easel.across(0.5).min(0.02);
    for x in [0.05, 0.92] {
        easel.plain([x, x + easel.across(2.0).min(0.04)], [0.0, leg + 0.02], [0.85, 0.92], DARK);
    }
    // Back, with two cushions leaning on it.
    easel.solid(
        [arm * 0.35, 1.0 - arm * 0.35],
        [leg, 1.0],
        [0.02, 0.26],
        [5.0, 0.0],
        CLOTH.lit(0.72),
        [1.1, 0.8],
    );
    let middle = 0.5;
    for (from, to) in [(arm, middle - gap / 2.0), (middle + gap / 2.0, 1.0 - arm)] {
        easel.solid([from, to], [0.42, 0.965], [0.26, 0.44], [3.5, 1.0], CLOTH.lit(0.95), [1.1, 0.84]);
    }
    // Seat cushions, lit on top.
    for (from, to) in [(arm, middle - gap / 4.0), (middle + gap / 4.0, 1.0 - arm)] {
        easel.solid([from, to], [0.29, 0.5], [0.3, 0.97], [1.6, 1.6], CLOTH, [1.08, 0.8]);
    }
    easel.solid(
        [arm * 0.5, 1.0 - arm * 0.5],
        [leg, 0.3],
        [0.1, 0.95],
        [0.5, 1.0],
        CLOTH.lit(0.72),
        [0.9, 1.05],
    );
    // Arms stand in front of everything.
    for (from, to, light) in [(0.0, arm, 1.0), (1.0 - arm, 1.0, 0.9)] {
        easel.solid([from, to], [leg, 0.7], [0.04, 1.0], [4.0, 1.0], CLOTH.lit(light * 0.9), [1.1, 0.82]);
    }
}

fn sideboard(easel: &mut Easel) {
    let leg = easel.up(6.0).min(0.3);
    for x in [0.06, 0.9] {
        easel.plain([x, x + easel.across(1.6).min(0.05)], [0.0, leg], [0.8, 0.9], DARK);
    }
    easel.part([0.0, 1.0], [leg, 1.0], [0.0, 0.98], [0.5, 0.5], WOOD.lit(0.78));
    easel.plain([0.0, 1.0], [1.0 - easel.up(1.2), 1.0], [0.0, 1.0], WOOD.lit(1.12));
    let inset = easel.across(0.8);
    let (foot, head) = (leg + easel.up(0.8), 1.0 - easel.up(2.0));
    for door in 0..3_u8 {
        let (from, to) = (f32::from(door) / 3.0, f32::from(door + 1) / 3.0);
        let wood = WOOD.lit([1.0, 0.95, 0.92][usize::from(door)]);
        easel.plain([from + inset, to - inset * 0.4], [foot, head], [0.98, 0.99], wood);
        let handle = to - inset * 2.4;
        easel.plain([handle, handle + inset * 0.5], [0.6, 0.74], [0.99, 1.0], DARK);
    }
}

fn bed(easel: &mut Easel) {
    let linen = Colour::hex(0xe9_e4_da);
    easel.part([0.0, 1.0], [0.0, 1.0], [0.0, 0.04], [4.0, 0.0], CLOTH.lit(0.8));
    easel.part([0.015, 0.985], [0.0, 0.98], [0.04, 0.05], [3.6, 0.0], CLOTH.lit(0.95));
    easel.part([0.03, 0.97], [0.1, 0.5], [0.05, 0.97], [2.0, 1.0], linen.lit(0.86));
    for from in [0.07, 0.52] {
        easel.solid([from, from + 0.41], [0.44, 0.7], [0.06, 0.2], [4.0, 3.0], linen, [1.0, 0.88]);
    }
    easel.solid([0.02, 0.98], [0.05, 0.47], [0.25, 1.0], [1.5, 1.0], Colour::hex(0xb9_ad_9c), [1.06, 0.86]);
    easel.plain([0.03, 0.97], [0.0, 0.06], [0.1, 0.98], DARK);
}

fn table(easel: &mut Easel) {
    let top = easel.up(1.4).min(0.2);
    let leg = easel.across(2.2).min(0.08);
    for (from, z) in
        [(0.04, [0.06, 0.16]), (0.96 - leg, [0.06, 0.16]), (0.04, [0.84, 0.94]), (0.96 - leg, [0.84, 0.94])]
    {
        easel.plain([from, from + leg], [0.0, 1.0 - top], z, WOOD.lit(0.7));
    }
    easel.plain([0.04, 0.96], [1.0 - top - easel.up(4.0).min(0.2), 1.0 - top], [0.1, 0.92], WOOD.lit(0.82));
    easel.part([0.0, 1.0], [1.0 - top, 1.0], [0.0, 1.0], [0.3, 0.3], WOOD.lit(1.1));
}

fn lamp(easel: &mut Easel) {
    let pole = easel.across(0.6);
    easel.part([0.2, 0.8], [0.0, easel.up(1.0)], [0.2, 0.8], [0.5, 0.0], DARK);
    easel.plain([0.5 - pole, 0.5 + pole], [0.0, 0.8], [0.48, 0.52], DARK);
    easel.solid([0.0, 1.0], [0.76, 1.0], [0.0, 1.0], [1.0, 1.0], Colour::hex(0xef_e6_d2), [1.0, 0.94]);
}

fn plant(easel: &mut Easel) {
    easel.solid([0.25, 0.75], [0.0, 0.28], [0.25, 0.75], [0.5, 2.0], Colour::hex(0xb9_8a_6c), [1.05, 0.85]);
    let leaf = Colour::hex(0x5d_7a_5a);
    for (x, y) in [([0.0, 0.5], [0.3, 0.75]), ([0.5, 1.0], [0.3, 0.7]), ([0.25, 0.75], [0.3, 1.0])] {
        easel.solid(x, y, [0.5, 0.5], [8.0, 8.0], leaf, [1.1, 0.8]);
    }
}

fn mantel(easel: &mut Easel) {
    let stone = Colour::hex(0xdc_d8_ce);
    let shelf = easel.up(2.2).min(0.1);
    let side = easel.across(8.0).min(0.2);
    easel.plain([0.03, 0.97], [0.0, 1.0 - shelf], [0.0, 0.5], stone.lit(0.92));
    easel.plain([side, 1.0 - side], [0.0, 0.74], [0.5, 0.51], Colour::hex(0x2b_29_27));
    easel.plain([side + 0.05, 0.95 - side], [0.0, 0.66], [0.51, 0.52], Colour::hex(0x1b_1a_19));
    for from in [0.03, 0.97 - side * 0.8] {
        easel.plain([from + 0.015, from + side * 0.8 - 0.015], [0.06, 0.78], [0.5, 0.6], stone.lit(0.98));
        easel.plain([from, from + side * 0.8], [0.0, 0.06], [0.5, 0.64], stone.lit(1.04));
    }
    easel.plain([0.015, 0.985], [1.0 - shelf * 2.0, 1.0 - shelf], [0.0, 0.75], stone.lit(0.8));
    easel.part([0.0, 1.0], [1.0 - shelf, 1.0], [0.0, 1.0], [0.2, 0.4], stone.lit(1.1));
}

fn radiator(easel: &mut Easel) {
    let step = easel.across(2.4).max(0.02);
    for up in [0.1, 0.86] {
        easel.plain([0.0, 1.0], [up, up + easel.up(1.0)], [0.3, 0.6], WHITE.lit(0.84));
    }
    let mut from = 0.0;
    while from + step * 0.5 < 1.0 {
        let to = (from + step * 0.86).min(1.0);
        easel.part([from, to], [0.0, 1.0], [0.25, 0.9], [1.2, 1.2], WHITE.lit(0.74));
        easel.part(
            [from + step * 0.14, to - step * 0.22],
            [0.02, 0.98],
            [0.9, 1.0],
            [1.0, 1.0],
            WHITE.lit(0.98),
        );
        from += step;
    }
}

fn door(easel: &mut Easel) {
    // The casing stands round the leaf, outside the size that is stated.
    let (casing, head) = (easel.across(2.5), easel.up(2.5));
    easel.plain([-casing, 1.0 + casing], [0.0, 1.0 + head], [0.0, 1.0], WHITE.lit(0.9));
    easel.plain([-casing * 0.25, 1.0 + casing * 0.25], [0.0, 1.0 + head * 0.25], [1.0; 2], WHITE.lit(0.6));
    easel.plain([0.0, 1.0], [0.0, 1.0], [1.0; 2], WHITE.lit(1.0));
    for (foot, top) in [(0.1, 0.44), (0.52, 0.93)] {
        for (from, to) in [(0.12, 0.47), (0.53, 0.88)] {
            easel.plain([from, to], [foot, top], [1.0; 2], WHITE.lit(0.8));
            easel.plain([from + 0.012, to], [foot, top - 0.006], [1.0; 2], WHITE.lit(0.93));
        }
    }
    let knob = [[0.06, 0.06 + easel.across(1.6)], [0.45, 0.45 + easel.up(1.6)]];
    easel.part(knob[0], knob[1], [1.0; 2], [0.8, 0.8], Colour::hex(0x8e_80_62));
}

fn window(easel: &mut Easel) {
    let (casing, head) = (easel.across(2.5), easel.up(2.5));
    easel.plain([-casing, 1.0 + casing], [-head * 0.4, 1.0 + head], [0.0, 1.0], WHITE.lit(0.9));
    easel.plain([0.0, 1.0], [0.0, 1.0], [1.0; 2], WHITE.lit(0.72));
    let (bar, rail) = (easel.across(1.2), easel.up(1.2));
    for (from, to) in [(bar, 0.5 - bar / 2.0), (0.5 + bar / 2.0, 1.0 - bar)] {
        for (foot, top, light) in [(rail, 0.5 - rail / 2.0, 0.96), (0.5 + rail / 2.0, 1.0 - rail, 1.04)] {
            easel.plain([from, to], [foot, top], [1.0; 2], Colour::hex(0xc5_d6_dc).lit(light));
        }
    }
    let sill = [-casing * 1.4, 1.0 + casing * 1.4];
    easel.part(sill, [-head * 0.9, -head * 0.2], [0.0, 2.5], [0.3, 0.3], WHITE.lit(1.04));
}

/// Switch, socket and thermostat: a plate with what is on it.
fn fitting(easel: &mut Easel, kind: FixtureKind, paint: Colour) {
    let plate = Colour::hex(0xf4_f2_ec);
    let edge = if plate.contrast(paint) < 1.6 { plate.lit(0.45) } else { plate.lit(0.7) };
    easel.part([0.0, 1.0], [0.0, 1.0], [0.0, 1.0], [0.3, 0.3], edge);
    let (x, y) = (easel.across(0.18).max(0.03), easel.up(0.18).max(0.03));
    easel.part([x, 1.0 - x], [y, 1.0 - y], [1.0; 2], [0.25, 0.25], plate);
    match kind {
        FixtureKind::Switch => {
            easel.plain([0.34, 0.66], [0.28, 0.72], [1.0; 2], plate.lit(0.72));
            easel.plain([0.36, 0.64], [0.5, 0.7], [1.0; 2], plate.lit(1.05));
        }
        FixtureKind::Socket => {
            for up in [0.27, 0.62] {
                for from in [0.36, 0.57] {
                    easel.plain([from, from + 0.07], [up, up + 0.12], [1.0; 2], Colour::hex(0x33_31_2e));
                }
            }
        }
        _ => {
            easel.part([0.22, 0.78], [0.22, 0.78], [1.0; 2], [1.4, 1.4], plate.lit(0.66));
            easel.part([0.27, 0.73], [0.27, 0.73], [1.0; 2], [1.2, 1.2], plate.lit(1.02));
        }
    }
}
