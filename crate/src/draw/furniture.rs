//! Fixtures: neutral shapes of our own, as solids from which every view is drawn.
//!
//! Each is a list of parts in shares of the fixture's own width, height and depth (0 to 1; y up from its bottom, z from the wall to
//! its front), so that any size a person states is filled exactly. What has a usual size of its own (a leg, a seam, a knob) is in
//! inches, and held to a share where the fixture is too small for it.

use crate::colour::{Colour, decode};
use crate::length::Length;
use crate::plan::{FixtureKind, Lighting, Rise};
use crate::scene::ScenicFixture;
use kurbo::{Affine, BezPath, Point};

mod fitted;
mod plant;
mod running;
mod standing;
mod study;

/// A part of a fixture: an upright outline, as deep as it is. Inches from the left corner, the floor and the wall.
#[derive(Clone, Debug)]
pub(super) struct Solid {
    /// The outline seen from the front, y up.
    pub(super) outline: BezPath,
    /// From its back to its front; both the same for what is only on a face, such as a seam or a leaf.
    pub(super) z: [f32; 2],
    /// Its colour.
    pub(super) colour: Colour,
    /// How much light its top and its bottom get, against its colour.
    pub(super) light: [f32; 2],
    /// What of that light its left, its middle and its right keep: a round thing turns away from it.
    pub(super) sides: [f32; 3],
    /// Whether it is round seen from above: turned about its upright axis, and not as square as it is deep.
    pub(super) is_turned: bool,
}

/// What keeps the light from the wall: an upright rectangle at a distance from it. Inches.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mass {
    /// From its left to its right.
    pub(super) x: [f32; 2],
    /// From its bottom to its top.
    pub(super) y: [f32; 2],
    /// From the wall to its front.
    pub(super) depth: f32,
    /// How much of the light behind it it keeps away: all of it only where it also hides the wall, but for its corners.
    pub(super) share: f32,
    /// How softly at least: what has no straight edge has a soft one.
    pub(super) blur: f32,
}

/// A colour and the light that falls on it.
#[derive(Clone, Copy, Debug)]
struct Tone {
    colour: Colour,
    light: [f32; 2],
    sides: [f32; 3],
}

impl From<Colour> for Tone {
    fn from(colour: Colour) -> Self {
        Self { colour, light: [1.0; 2], sides: [1.0; 3] }
    }
}

impl Tone {
    /// With so much light at the top and bottom.
    fn down(colour: Colour, head: f32, foot: f32) -> Self {
        Self { light: [head, foot], ..colour.into() }
    }

    /// With what is left of the light at the left, in the middle and at the right.
    fn across(self, sides: [f32; 3]) -> Self {
        Self { sides, ..self }
    }
}

/// A fixture being put together.
struct Easel {
    left: f32,
    foot: f32,
    width: f32,
    height: f32,
    depth: f32,
    casing: f32,
    colour: Colour,
    solids: Vec<Solid>,
}

impl Easel {
    fn of(fixture: &ScenicFixture) -> Self {
        let rect = fixture.rect;
        Self {
            left: inches(rect.x),
            foot: inches(rect.y),
            width: inches(rect.size.width),
            height: inches(rect.size.height),
            depth: inches(fixture.depth),
            casing: inches(fixture.casing),
            colour: fixture.colour.map_or_else(|| fixture.kind.usual_colour().unwrap_or(WOOD), as_cloth),
            solids: Vec::new(),
        }
    }

    /// A part with any outline, in inches.
    fn form(&mut self, outline: BezPath, z: [f32; 2], tone: impl Into<Tone>) {
        let Tone { colour, light, sides } = tone.into();
        let z = z.map(|share| share * self.depth);
        self.solids.push(Solid { outline, z, colour, light, sides, is_turned: false });
    }

    /// The last part is a turned one.
    fn turn(&mut self) {
        if let Some(last) = self.solids.last_mut() {
            last.is_turned = true;
        }
    }

    /// A part: from and to in shares of the width, the height and the depth, rounded by so many inches above and below.
    fn round(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], radii: [f32; 2], tone: impl Into<Tone>) {
        let (from, to) = (self.at(x[0], y[0]), self.at(x[1], y[1]));
        if from.x >= to.x || from.y >= to.y {
            return;
        }
        let most = (to.x - from.x).min(to.y - from.y) / 2.0;
        let [upper, lower] = radii.map(|radius| f64::from(radius).clamp(0.0, most));
        // y grows upwards here, so that the upper corners are those that kurbo calls the lower ones.
        let outline = if upper > 0.0 || lower > 0.0 {
            let shape = kurbo::RoundedRect::new(from.x, from.y, to.x, to.y, (lower, lower, upper, upper));
            kurbo::Shape::to_path(&shape, 0.01)
        } else {
            kurbo::Shape::to_path(&kurbo::Rect::new(from.x, from.y, to.x, to.y), 0.01)
        };
        self.form(outline, z, tone);
    }

    /// A part with square corners.
    fn block(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], tone: impl Into<Tone>) {
        self.round(x, y, z, [0.0; 2], tone);
    }

    /// An upright part that is as wide as `head` at its top and as `foot` at its bottom.
    fn taper(&mut self, head: [f32; 2], foot: [f32; 2], y: [f32; 2], z: [f32; 2], tone: impl Into<Tone>) {
        let corners = [(foot[0], y[0]), (foot[1], y[0]), (head[1], y[1]), (head[0], y[1])];
        let outline = closed(&corners.map(|(x, y)| self.at(x, y)));
        self.form(outline, z, tone);
    }

    /// A cushion: its edges swell by so many inches between its corners.
    fn cushion(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], swell: f32, tone: impl Into<Tone>) {
        let (from, to) = (self.at(x[0], y[0]), self.at(x[1], y[1]));
        if from.x >= to.x || from.y >= to.y {
            return;
        }
        self.form(cushion(from, to, swell.into()), z, tone);
    }

    /// A cushion that stands: its corners rounded by so many inches, its upper edge a little higher in the middle.
    fn crowned(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], round: f64, tone: impl Into<Tone>) {
        let (from, to) = (self.at(x[0], y[0]), self.at(x[1], y[1]));
        if from.x < to.x && from.y < to.y {
            self.form(crowned(from, to, round * 0.3, round), z, tone);
        }
    }

    /// A round part in the middle of an area, as large as fits into it.
    fn disc(&mut self, x: [f32; 2], y: [f32; 2], z: [f32; 2], tone: impl Into<Tone>) {
        let (from, to) = (self.at(x[0], y[0]), self.at(x[1], y[1]));
        let radius = (to.x - from.x).min(to.y - from.y).max(0.0) / 2.0;
        let shape = kurbo::Circle::new(from.midpoint(to), radius);
        self.form(kurbo::Shape::to_path(&shape, 0.01), z, tone);
    }

    /// A place in shares, in inches.
    fn at(&self, x: f32, y: f32) -> Point {
        Point::new(f64::from(self.left + x * self.width), f64::from(self.foot + y * self.height))
    }

    /// Inches as a share of the width, and of it no more than `most`.
    fn across(&self, inches: f32, most: f32) -> f32 {
        (inches / self.width).min(most)
    }

    /// Inches as a share of the height, and of it no more than `most`.
    fn up(&self, inches: f32, most: f32) -> f32 {
        (inches / self.height).min(most)
    }

    /// How many parts of about so many inches stand side by side in a share of the width.
    fn count(&self, share: f32, inches: f32, most: u8) -> u8 {
        let whole = crate::rounding::nearest(f64::from(share * self.width / inches));
        u8::try_from(whole).unwrap_or(most).clamp(1, most)
    }
}

/// Cuts from `from` to `to` into so many even parts.
fn parts([from, to]: [f32; 2], count: u8) -> impl Iterator<Item = [f32; 2]> {
    let step = (to - from) / f32::from(count);
    (0..count).map(move |index| {
        let start = from + step * f32::from(index);
        [start, if index + 1 == count { to } else { start + step }]
    })
}

/// A closed polygon.
fn closed(corners: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (index, &corner) in corners.iter().enumerate() {
        if index == 0 { path.move_to(corner) } else { path.line_to(corner) }
    }
    path.close_path();
    path
}

/// A rectangle whose corners are drawn in and whose edges swell out to it.
fn cushion(from: Point, to: Point, swell: f64) -> BezPath {
    let swell = swell.min((to.x - from.x) / 4.0).min((to.y - from.y) / 4.0);
    let corner = |x: f64, y: f64| Point::new(x, y);
    // A quadratic curve comes half as far out as its control point.
    let (left, right) = (from.x + swell, to.x - swell);
    let (foot, head) = (from.y + swell, to.y - swell);
    let (middle_x, middle_y) = (from.midpoint(to).x, from.midpoint(to).y);
    let mut path = BezPath::new();
    path.move_to(corner(left, foot));
    path.quad_to(corner(middle_x, from.y - swell), corner(right, foot));
    path.quad_to(corner(to.x + swell, middle_y), corner(right, head));
    path.quad_to(corner(middle_x, to.y + swell), corner(left, head));
    path.quad_to(corner(from.x - swell, middle_y), corner(left, foot));
    path.close_path();
    path
}

/// A rectangle with rounded corners whose upper edge rises in the middle.
fn crowned(from: Point, to: Point, rise: f64, round: f64) -> BezPath {
    let round = round.min((to.x - from.x) / 3.0).min((to.y - from.y) / 3.0);
    let rise = rise.min((to.y - from.y) / 4.0);
    let shoulder = to.y - rise;
    let mut path = BezPath::new();
    path.move_to((from.x, from.y));
    path.line_to((to.x, from.y));
    path.line_to((to.x, shoulder - round));
    path.quad_to((to.x, shoulder + rise * 0.15), (to.x - round, shoulder + rise * 0.3));
    // A quadratic curve comes half as far out as its control point.
    path.quad_to((from.midpoint(to).x, to.y + rise * 0.7), (from.x + round, shoulder + rise * 0.3));
    path.quad_to((from.x, shoulder + rise * 0.15), (from.x, shoulder - round));
    path.close_path();
    path
}

/// Lays a path drawn in a unit of its own onto the rectangle from `from` to `to`, where `own` is the rectangle it fills now.
fn fitted_into(own: kurbo::Rect, from: Point, to: Point) -> Affine {
    let (across, up) = ((to.x - from.x) / own.width(), (to.y - from.y) / own.height());
    Affine::new([across, 0.0, 0.0, up, from.x - own.x0 * across, from.y - own.y0 * up])
}

/// A fixture as solids, those at the back first, as a light shows it: outside a window it is day or night, and by night a lamp
/// is lit.
///
/// Each kind is a function of its own: in one, a browser compiles them all before it draws the first.
pub(super) fn solids(fixture: &ScenicFixture, paint: Colour, light: Lighting) -> Vec<Solid> {
    let mut easel = Easel::of(fixture);
    match fixture.kind {
        FixtureKind::Sofa => standing::sofa(&mut easel),
        FixtureKind::Sideboard => standing::sideboard(&mut easel),
        FixtureKind::Bed => standing::bed(&mut easel),
        FixtureKind::Table => standing::table(&mut easel),
        FixtureKind::Lamp => standing::lamp(&mut easel, light),
        FixtureKind::Plant => plant::plant(&mut easel),
        FixtureKind::Mantel => fitted::mantel(&mut easel),
        FixtureKind::Radiator => fitted::radiator(&mut easel),
        FixtureKind::Door => fitted::door(&mut easel),
        FixtureKind::Window => fitted::window(&mut easel, light),
        FixtureKind::Television => study::television(&mut easel),
        FixtureKind::Bookcase => study::bookcase(&mut easel),
        FixtureKind::Desk => study::desk(&mut easel),
        FixtureKind::Stairs => running::stairs(&mut easel, steps(fixture), fixture.rise),
        FixtureKind::Curtain => running::curtain(&mut easel),
        FixtureKind::PictureRail => running::picture_rail(&mut easel),
        FixtureKind::Beam => running::beam(&mut easel),
        FixtureKind::Switch | FixtureKind::Socket | FixtureKind::Thermostat => {
            fitted::fitting(&mut easel, fixture.kind, paint);
        }
    }
    easel.solids
}

/// A shape of a fixture, seen from the front.
#[derive(Clone, Debug)]
pub struct Shape {
    /// Its outline, in inches from the left corner of the wall and from the floor, y up.
    pub outline: BezPath,
    /// Its colour, in the middle of its light.
    pub colour: Colour,
}

/// A fixture as shapes, those at the back first: for drawings without light.
#[must_use]
pub fn shapes(fixture: &ScenicFixture, paint: Colour, light: Lighting) -> Vec<Shape> {
    let shape = |solid: Solid| Shape {
        colour: solid.colour.lit((solid.light[0] + solid.light[1]) / 2.0 * solid.sides[1]),
        outline: solid.outline,
    };
    solids(fixture, paint, light).into_iter().map(shape).collect()
}

/// How many steps of stairs are drawn.
fn steps(fixture: &ScenicFixture) -> u8 {
    u8::try_from(crate::plan::steps(fixture.rect.size.height)).unwrap_or(u8::MAX)
}

/// Upright parts of stairs, each as high as its middle.
const FLIGHT: u8 = 6;

/// What of a fixture keeps the light from the wall behind it.
pub(super) fn masses(fixture: &ScenicFixture) -> Vec<Mass> {
    let easel = Easel::of(fixture);
    let casing = [-easel.casing / easel.width, 1.0 + easel.casing / easel.width];
    let over = 1.0 + easel.casing / easel.height;
    // From and to in shares of its width, of its height; its front in shares of its depth; what it keeps away.
    let flight: Vec<_> = parts([0.0, 1.0], FLIGHT)
        .map(|[from, to]| {
            let x = if fixture.rise == Rise::Right { [from, to] } else { [1.0 - to, 1.0 - from] };
            (x, [0.0, (from + to) / 2.0], 1.0, 0.9)
        })
        .collect();
    let rows: &[([f32; 2], [f32; 2], f32, f32)] = match fixture.kind {
        FixtureKind::Sofa => &[([0.03, 0.97], [0.2, 1.0], 0.3, 1.0), ([0.0, 1.0], [0.16, 0.66], 1.0, 1.0)],
        FixtureKind::Sideboard => &[([0.0, 1.0], [0.19, 1.0], 1.0, 1.0)],
        FixtureKind::Bed => &[([0.0, 1.0], [0.12, 1.0], 0.04, 1.0), ([0.0, 1.0], [0.0, 0.5], 0.6, 0.98)],
        FixtureKind::Table => &[([0.0, 1.0], [0.82, 1.0], 1.0, 0.98)],
        FixtureKind::Lamp => &[([0.1, 0.9], [0.8, 1.0], 0.8, 0.8)],
        FixtureKind::Plant => &[([0.1, 0.9], [0.4, 0.98], 0.5, 0.5), ([0.3, 0.7], [0.0, 0.28], 0.7, 0.8)],
        FixtureKind::Mantel => &[([0.02, 0.98], [0.0, 0.95], 0.5, 1.0), ([0.0, 1.0], [0.93, 1.0], 1.0, 1.0)],
        FixtureKind::Radiator | FixtureKind::Thermostat => &[([0.0, 1.0], [0.0, 1.0], 1.0, 0.98)],
        FixtureKind::Switch | FixtureKind::Socket => &[([0.0, 1.0], [0.0, 1.0], 1.0, 0.8)],
        FixtureKind::Television => &[([0.0, 1.0], [study::stand(&easel), 1.0], 1.0, 0.98)],
        FixtureKind::Bookcase => &[([0.0, 1.0], [0.0, 1.0], 1.0, 1.0)],
        FixtureKind::Desk => &[([0.0, 1.0], [0.9, 1.0], 1.0, 0.98), ([0.64, 0.98], [0.0, 0.94], 0.9, 0.98)],
        FixtureKind::Stairs => &flight,
        FixtureKind::Curtain => {
            &[([0.01, 0.99], [0.0, 0.97], 0.8, 0.98), ([0.0, 1.0], [0.97, 1.0], 1.0, 0.9)]
        }
        FixtureKind::PictureRail | FixtureKind::Beam => &[([0.0, 1.0], [0.0, 1.0], 1.0, 1.0)],
        FixtureKind::Door | FixtureKind::Window => &[(casing, [0.0, over], 0.9, 0.9)],
    };
    // A plate on the wall is a quarter of an inch thick, though nobody states it.
    let depth = easel.depth.max(0.25);
    let inches = |from: f32, whole: f32, shares: [f32; 2]| shares.map(|share| from + share * whole);
    rows.iter()
        .map(|&(x, y, front, share)| Mass {
            x: inches(easel.left, easel.width, x),
            y: inches(easel.foot, easel.height, y),
            depth: front * depth,
            share,
            blur: if share < 0.7 { easel.width * 0.15 } else { 0.0 },
        })
        .collect()
}

/// A stated colour as fabric or wood can have it, so that light and shadow are seen on it: in the sun no white throws back all light, and
/// no black none of it.
fn as_cloth(colour: Colour) -> Colour {
    /// The most light that a part gets, against its colour.
    const MOST: f32 = 1.35;
    /// What the blackest fabric throws back (from memory).
    const LEAST: f32 = 0.025;
    let lightest = [colour.red, colour.green, colour.blue].map(decode).into_iter().fold(0.0, f32::max);
    let held = colour.lit((1.0 / (MOST * lightest.max(0.01))).min(1.0));
    held.mixed(Colour::hex(0xff_ff_ff), (LEAST - held.luminance()).max(0.0))
}

#[expect(clippy::cast_possible_truncation, reason = "a place in a room keeps 24 bits")]
fn inches(length: Length) -> f32 {
    length.to_inches() as f32
}

const CLOTH: Colour = Colour::hex(0x74_84_86);
const FLAX: Colour = Colour::hex(0xc2_b4_9c);
const LINEN: Colour = Colour::hex(0xea_e5_da);
const WOOD: Colour = Colour::hex(0x94_73_54);
const DARK: Colour = Colour::hex(0x3d_30_27);
const BRASS: Colour = Colour::hex(0xa0_8c_62);
const WHITE: Colour = Colour::hex(0xee_eb_e3);
