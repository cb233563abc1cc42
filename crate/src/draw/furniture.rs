//! Fixtures in elevation: neutral shapes of our own, drawn within their rectangle.
//!
//! Each is a list of parts in shares of the fixture's own width and height (0 to 1, y up from its foot), so that any size
//! a person states is filled exactly.

use super::brush;
use super::projection::Projection;
use crate::colour::Colour;
use crate::length::Length;
use crate::plan::FixtureKind;
use crate::scene::ScenicFixture;
use tiny_skia::PixmapMut;

/// A fixture's place in device pixels, and how it is painted.
struct Easel<'a, 'b> {
    canvas: &'a mut PixmapMut<'b>,
    left: f32,
    foot: f32,
    width: f32,
    height: f32,
    inch: f32,
}

impl Easel<'_, '_> {
    /// A part: from and to in shares of the width and of the height, rounded by so many inches above and below.
    fn part(&mut self, x: [f32; 2], y: [f32; 2], radii: [f32; 2], colour: Colour) {
        let area = [
            self.left + x[0] * self.width,
            self.foot - y[1] * self.height,
            (x[1] - x[0]) * self.width,
            (y[1] - y[0]) * self.height,
        ];
        let radii = radii.map(|radius| radius * self.inch);
        brush::rounded(self.canvas, area, radii, colour);
    }

    fn plain(&mut self, x: [f32; 2], y: [f32; 2], colour: Colour) {
        self.part(x, y, [0.0, 0.0], colour);
    }

    /// Inches as a share of the width.
    fn across(&self, inches: f32) -> f32 {
        inches * self.inch / self.width
    }

    /// Inches as a share of the height.
    fn up(&self, inches: f32) -> f32 {
        inches * self.inch / self.height
    }
}

/// Draws a fixture in its place.
pub(super) fn draw(
    canvas: &mut PixmapMut<'_>,
    fixture: &ScenicFixture,
    projection: Projection,
    paint: Colour,
) {
    let rect = fixture.rect;
    let mut easel = Easel {
        canvas,
        left: projection.x(rect.x),
        foot: projection.y(rect.y),
        width: projection.length(rect.size.width),
        height: projection.length(rect.size.height),
        inch: projection.length(Length::inches(1)),
    };
    match fixture.kind {
        FixtureKind::Sofa => sofa(&mut easel),
        FixtureKind::Sideboard => sideboard(&mut easel),
        FixtureKind::Bed => bed(&mut easel),
        FixtureKind::Table => table(&mut easel),
        FixtureKind::Mantel => mantel(&mut easel),
        FixtureKind::Radiator => radiator(&mut easel),
        FixtureKind::Door => door(&mut easel),
        FixtureKind::Window => window(&mut easel),
        FixtureKind::Switch | FixtureKind::Socket | FixtureKind::Thermostat => {
            fitting(&mut easel, fixture.kind, paint);
        }
    }
}

const CLOTH: Colour = Colour::hex(0x6f_80_83);
const WOOD: Colour = Colour::hex(0x8a_6a_4c);
const DARK: Colour = Colour::hex(0x3a_2c_22);
const WHITE: Colour = Colour::hex(0xee_eb_e3);

fn sofa(easel: &mut Easel<'_, '_>) {
    let arm = easel.across(8.5).min(0.18);
    let leg = easel.up(5.0).min(0.2);
    let gap = easel.across(0.5).min(0.02);
    for x in [0.05, 0.92] {
        easel.plain([x, x + easel.across(2.0).min(0.04)], [0.0, leg + 0.02], DARK);
    }
    // Back, with two cushions leaning on it.
    easel.part([arm * 0.35, 1.0 - arm * 0.35], [leg, 1.0], [5.0, 0.0], CLOTH.lit(0.72));
    let middle = 0.5;
    for (from, to) in [(arm, middle - gap / 2.0), (middle + gap / 2.0, 1.0 - arm)] {
        easel.part([from, to], [0.42, 0.965], [3.5, 1.0], CLOTH.lit(0.92));
        easel.part([from + gap, to - gap], [0.46, 0.945], [3.0, 1.0], CLOTH.lit(1.02));
    }
    // Seat cushions, lit on top.
    for (from, to) in [(arm, middle - gap / 4.0), (middle + gap / 4.0, 1.0 - arm)] {
        easel.part([from, to], [0.29, 0.54], [2.0, 2.0], CLOTH.lit(1.05));
        easel.part([from, to], [0.29, 0.47], [1.0, 2.0], CLOTH.lit(0.9));
    }
    easel.part([arm * 0.5, 1.0 - arm * 0.5], [leg, 0.3], [0.5, 1.0], CLOTH.lit(0.68));
    // Arms stand in front of everything.
    for (from, to, light) in [(0.0, arm, 1.0), (1.0 - arm, 1.0, 0.86)] {
        easel.part([from, to], [leg, 0.7], [4.0, 1.0], CLOTH.lit(light * 0.82));
        easel.part([from + gap, to - gap], [leg + 0.02, 0.675], [3.5, 1.0], CLOTH.lit(light * 0.94));
    }
}

fn sideboard(easel: &mut Easel<'_, '_>) {
    let leg = easel.up(6.0).min(0.3);
    for x in [0.06, 0.9] {
        easel.plain([x, x + easel.across(1.6).min(0.05)], [0.0, leg], DARK);
    }
    easel.part([0.0, 1.0], [leg, 1.0], [0.5, 0.5], WOOD.lit(0.78));
    easel.plain([0.0, 1.0], [1.0 - easel.up(1.2), 1.0], WOOD.lit(1.12));
    let inset = easel.across(0.8);
    let (foot, head) = (leg + easel.up(0.8), 1.0 - easel.up(2.0));
    for door in 0..3_u8 {
        let (from, to) = (f32::from(door) / 3.0, f32::from(door + 1) / 3.0);
        easel.plain(
            [from + inset, to - inset * 0.4],
            [foot, head],
            WOOD.lit([1.0, 0.95, 0.92][usize::from(door)]),
        );
        let handle = to - inset * 2.4;
        easel.plain([handle, handle + inset * 0.5], [0.6, 0.74], DARK);
    }
}

fn bed(easel: &mut Easel<'_, '_>) {
    let linen = Colour::hex(0xe9_e4_da);
    easel.part([0.0, 1.0], [0.0, 1.0], [4.0, 0.0], CLOTH.lit(0.8));
    easel.part([0.015, 0.985], [0.0, 0.98], [3.6, 0.0], CLOTH.lit(0.95));
    easel.part([0.03, 0.97], [0.1, 0.5], [2.0, 1.0], linen.lit(0.86));
    for from in [0.07, 0.52] {
        easel.part([from, from + 0.41], [0.44, 0.7], [4.0, 3.0], linen.lit(0.93));
        easel.part([from + 0.01, from + 0.4], [0.47, 0.69], [4.0, 3.0], linen);
    }
    easel.part([0.02, 0.98], [0.05, 0.47], [1.5, 1.0], Colour::hex(0xb9_ad_9c));
    easel.plain([0.02, 0.98], [0.38, 0.47], linen.lit(0.9));
    easel.plain([0.03, 0.97], [0.0, 0.06], DARK);
}

fn table(easel: &mut Easel<'_, '_>) {
    let top = easel.up(1.4).min(0.2);
    let leg = easel.across(2.2).min(0.08);
    for from in [0.04, 0.96 - leg] {
        easel.plain([from, from + leg], [0.0, 1.0 - top], WOOD.lit(0.7));
    }
    easel.plain([0.04, 0.96], [1.0 - top - easel.up(4.0).min(0.2), 1.0 - top], WOOD.lit(0.82));
    easel.part([0.0, 1.0], [1.0 - top, 1.0], [0.3, 0.3], WOOD.lit(1.1));
}

fn mantel(easel: &mut Easel<'_, '_>) {
    let stone = Colour::hex(0xdc_d8_ce);
    let shelf = easel.up(2.2).min(0.1);
    let side = easel.across(8.0).min(0.2);
    easel.plain([0.03, 0.97], [0.0, 1.0 - shelf], stone.lit(0.92));
    easel.plain([side, 1.0 - side], [0.0, 0.74], Colour::hex(0x2b_29_27));
    easel.plain([side + 0.05, 0.95 - side], [0.0, 0.66], Colour::hex(0x1b_1a_19));
    for from in [0.03, 0.97 - side * 0.8] {
        easel.plain([from + 0.015, from + side * 0.8 - 0.015], [0.06, 0.78], stone.lit(0.98));
        easel.plain([from, from + side * 0.8], [0.0, 0.06], stone.lit(1.04));
    }
    easel.plain([0.015, 0.985], [1.0 - shelf * 2.0, 1.0 - shelf], stone.lit(0.8));
    easel.part([0.0, 1.0], [1.0 - shelf, 1.0], [0.2, 0.4], stone.lit(1.1));
}

fn radiator(easel: &mut Easel<'_, '_>) {
    let step = easel.across(2.4).max(0.02);
    let mut from = 0.0;
    while from + step * 0.5 < 1.0 {
        let to = (from + step * 0.86).min(1.0);
        easel.part([from, to], [0.0, 1.0], [1.2, 1.2], WHITE.lit(0.74));
        easel.part([from + step * 0.14, to - step * 0.22], [0.02, 0.98], [1.0, 1.0], WHITE.lit(0.98));
        from += step;
    }
    for up in [0.1, 0.86] {
        easel.plain([0.0, 1.0], [up, up + easel.up(1.0)], WHITE.lit(0.84));
    }
}

fn door(easel: &mut Easel<'_, '_>) {
    // The casing stands round the leaf, outside the size that is stated.
    let (casing, head) = (easel.across(2.5), easel.up(2.5));
    easel.plain([-casing, 1.0 + casing], [0.0, 1.0 + head], WHITE.lit(0.9));
    easel.plain([-casing * 0.25, 1.0 + casing * 0.25], [0.0, 1.0 + head * 0.25], WHITE.lit(0.6));
    easel.plain([0.0, 1.0], [0.0, 1.0], WHITE.lit(1.0));
    for (foot, top) in [(0.1, 0.44), (0.52, 0.93)] {
        for (from, to) in [(0.12, 0.47), (0.53, 0.88)] {
            easel.plain([from, to], [foot, top], WHITE.lit(0.8));
            easel.plain([from + 0.012, to], [foot, top - 0.006], WHITE.lit(0.93));
        }
    }
    easel.part(
        [0.06, 0.06 + easel.across(1.6)],
        [0.45, 0.45 + easel.up(1.6)],
        [0.8, 0.8],
        Colour::hex(0x8e_80_62),
    );
}

fn window(easel: &mut Easel<'_, '_>) {
    let (casing, head) = (easel.across(2.5), easel.up(2.5));
    easel.plain([-casing, 1.0 + casing], [-head * 0.4, 1.0 + head], WHITE.lit(0.9));
    easel.plain([0.0, 1.0], [0.0, 1.0], WHITE.lit(0.72));
    let (bar, rail) = (easel.across(1.2), easel.up(1.2));
    for (from, to) in [(bar, 0.5 - bar / 2.0), (0.5 + bar / 2.0, 1.0 - bar)] {
        for (foot, top, light) in [(rail, 0.5 - rail / 2.0, 0.96), (0.5 + rail / 2.0, 1.0 - rail, 1.04)] {
            easel.plain([from, to], [foot, top], Colour::hex(0xc5_d6_dc).lit(light));
        }
    }
    easel.part([-casing * 1.4, 1.0 + casing * 1.4], [-head * 0.9, -head * 0.2], [0.3, 0.3], WHITE.lit(1.04));
}

/// Switch, socket and thermostat: a plate with what is on it.
fn fitting(easel: &mut Easel<'_, '_>, kind: FixtureKind, paint: Colour) {
    let plate = Colour::hex(0xf4_f2_ec);
    let edge = if plate.contrast(paint) < 1.6 { plate.lit(0.45) } else { plate.lit(0.7) };
    easel.part([0.0, 1.0], [0.0, 1.0], [0.3, 0.3], edge);
    let (x, y) = (easel.across(0.18).max(0.03), easel.up(0.18).max(0.03));
    easel.part([x, 1.0 - x], [y, 1.0 - y], [0.25, 0.25], plate);
    match kind {
        FixtureKind::Switch => {
            easel.plain([0.34, 0.66], [0.28, 0.72], plate.lit(0.72));
            easel.plain([0.36, 0.64], [0.5, 0.7], plate.lit(1.05));
        }
        FixtureKind::Socket => {
            for up in [0.27, 0.62] {
                for from in [0.36, 0.57] {
                    easel.plain([from, from + 0.07], [up, up + 0.12], Colour::hex(0x33_31_2e));
                }
            }
        }
        _ => {
            easel.part([0.22, 0.78], [0.22, 0.78], [1.4, 1.4], plate.lit(0.66));
            easel.part([0.27, 0.73], [0.27, 0.73], [1.2, 1.2], plate.lit(1.02));
        }
    }
}
