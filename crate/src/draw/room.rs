//! The room: the sheet, the wall in its light, skirting, floor, what stands there, and a figure for scale.

use super::furniture::{self, Solid};
use super::light::Lamp;
use super::pixel_rect::PixelRect;
use super::projection::{Projection, pixels};
use super::sheet::Theme;
use super::texture::noise;
use super::wall::{self, Glow};
use super::{brush, figure, graded, shadow};
use crate::colour::Colour;
use crate::length::Length;
use crate::plan::{FixtureKind, Lighting, WallFinish};
use crate::scene::{Scene, ScenicFixture};
use tiny_skia::PixmapMut;

/// Draws everything that stays while pieces are moved.
#[inline(never)]
pub(super) fn draw(canvas: &mut PixmapMut<'_>, scene: &Scene, sheet: Colour, projection: Projection) {
    brush::all(canvas, sheet);
    let wall = scene.wall.size;
    let lamp = Lamp::of(scene.light);
    let (left, right) = (projection.x(Length::ZERO), projection.x(wall.width));
    let (top, floor) = (projection.y(wall.height), projection.floor);
    surface(canvas, scene, projection, &lamp);
    let strip = PixelRect { left, top: floor, right, bottom: floor + projection.floor_strip };
    boards(canvas, scene.wall.floor, strip, projection);
    // Where the floor meets the wall hardly any light comes.
    graded::dim(
        canvas,
        PixelRect::from_xywh(left, floor, right - left, projection.floor_strip * 0.75),
        0.8,
        1.0,
    );
    graded::dim(
        canvas,
        PixelRect::from_xywh(left, floor, right - left, projection.floor_strip * 0.22),
        0.62,
        1.0,
    );
    // What is let into the wall is behind what hangs before it, and that behind what stands there.
    let rank = |fixture: &&ScenicFixture| {
        let kind = fixture.kind;
        if kind.stands_before_wall() {
            2
        } else {
            u8::from(matches!(kind, FixtureKind::Curtain | FixtureKind::Beam))
        }
    };
    for before in 0..3 {
        for fixture in scene.fixtures.iter().filter(|fixture| rank(fixture) == before) {
            let solids = furniture::solids(fixture, scene.wall.paint, scene.light);
            stand(canvas, fixture, scene, projection, &lamp);
            if fixture.rect.y == Length::ZERO {
                shadow::on_floor(canvas, &solids, wall, projection);
            }
            for solid in solids {
                front(canvas, &solid, projection);
            }
        }
    }
    if let Some(stated) = scene.figure {
        figure::draw(canvas, stated, &scene.wall, projection);
    }
    let whole = |value: f32| crate::rounding::nearest(f64::from(value));
    let lit =
        PixelRect { left: whole(left), top: whole(top), right: whole(right), bottom: whole(strip.bottom) };
    lamp.tint_area(canvas, lit);
    // The wall's own edge, for paints that are as pale as the sheet.
    let edge = Theme::on(sheet).ink.mixed(sheet, 0.75);
    let line = projection.line;
    brush::rect(canvas, PixelRect::from_xywh(left - line, top - line, right - left + line * 2.0, line), edge);
    brush::rect(canvas, PixelRect::from_xywh(left - line, top, line, floor - top), edge);
    brush::rect(canvas, PixelRect::from_xywh(right, top, line, floor - top), edge);
}

/// The wall in its light, with its skirting and nothing before it.
fn surface(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection, lamp: &Lamp) {
    let size = scene.wall.size;
    let (left, right) = (projection.x(Length::ZERO), projection.x(size.width));
    let surface = wall::Wall {
        area: PixelRect { left, top: projection.y(size.height), right, bottom: projection.floor },
        paint: scene.wall.paint,
        plaster: scene.wall.finish == WallFinish::Plaster,
        scale: projection.scale,
        glows: &glows(scene, projection),
    };
    wall::draw(canvas, &surface, lamp);
    skirting(canvas, scene, projection, left, right);
}

/// The shadow on the wall of what stands before it. A lamp that is lit has none.
fn stand(
    canvas: &mut PixmapMut<'_>,
    fixture: &ScenicFixture,
    scene: &Scene,
    projection: Projection,
    lamp: &Lamp,
) {
    let is_lit = fixture.kind == FixtureKind::Lamp && scene.light == Lighting::Evening;
    if !is_lit {
        shadow::stand(canvas, &furniture::masses(fixture), scene.wall.size, projection, lamp);
    }
}

/// The wall with the shadows of what stands before it, in white light, for a view that is not straight before it.
pub(super) fn wall(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection) {
    let lamp = Lamp::of(scene.light);
    surface(canvas, scene, projection, &lamp);
    for fixture in &scene.fixtures {
        stand(canvas, fixture, scene, projection, &lamp);
    }
}

/// The floor seen from above, the wall along its upper edge.
pub(super) fn floor(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection) {
    let (width, height) = (pixels(canvas.width()), pixels(canvas.height()));
    let whole = PixelRect { left: 0.0, top: 0.0, right: width, bottom: height };
    boards(canvas, scene.wall.floor, whole, projection);
    // Where it meets the wall hardly any light comes.
    graded::dim(
        canvas,
        PixelRect::from_xywh(0.0, 0.0, width, projection.length(Length::inches(8))),
        0.7,
        1.0,
    );
}

/// The light on the wall of the lamps that are lit by evening.
fn glows(scene: &Scene, projection: Projection) -> Vec<Glow> {
    let lit = scene
        .fixtures
        .iter()
        .filter(|fixture| scene.light == Lighting::Evening && fixture.kind == FixtureKind::Lamp);
    lit.map(|fixture| {
        let rect = fixture.rect;
        Glow {
            x: projection.x(rect.centre().x),
            y: projection.y(rect.top()) + projection.length(Length::inches(6)),
            reach: projection.length(Length::inches(17)).max(1.0),
        }
    })
    .collect()
}

/// The front of a part of a fixture.
fn front(canvas: &mut PixmapMut<'_>, solid: &Solid, projection: Projection) {
    let scale = f64::from(projection.scale);
    let to_px =
        kurbo::Affine::new([scale, 0.0, 0.0, -scale, projection.left.into(), projection.floor.into()]);
    graded::fill(canvas, &(to_px * &solid.outline), solid.colour, solid.light, solid.sides);
}

/// The paint of a skirting board.
pub(super) const SKIRTING: Colour = Colour::hex(0xee_ea_e0);

fn skirting(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection, left: f32, right: f32) {
    let height = projection.length(scene.wall.skirting);
    if height <= 0.0 {
        return;
    }
    let white = SKIRTING;
    let (top, width, line) = (projection.floor - height, right - left, projection.line);
    brush::rect(canvas, PixelRect::from_xywh(left, top, width, height), white.lit(0.96));
    // A rounded edge at its top, a groove below it, and less light towards the floor.
    let edge = (height * 0.1).max(line);
    brush::rect(canvas, PixelRect::from_xywh(left, top, width, edge), white.lit(1.12));
    graded::dim(canvas, PixelRect::from_xywh(left, top + edge, width, (height * 0.12).max(line)), 0.78, 0.98);
    graded::dim(canvas, PixelRect::from_xywh(left, top + height * 0.35, width, height * 0.65), 1.0, 0.86);
    brush::rect_through(
        canvas,
        PixelRect::from_xywh(left, top - line * 0.5, width, line * 0.5),
        Colour::hex(0x00_00_00),
        0.16,
    );
}

/// The floor, cut at the wall: boards running away from the viewer, no two of quite the same tone.
#[inline(never)]
fn boards(
    canvas: &mut PixmapMut<'_>,
    colour: Colour,
    PixelRect { left, top, right, bottom }: PixelRect,
    projection: Projection,
) {
    let (height, line) = (bottom - top, projection.line);
    brush::rect(canvas, PixelRect::from_xywh(left, top, right - left, height), colour);
    let board = projection.length(Length::inches(5)).max(5.0);
    let (gap, gap_alpha) = ((line * 0.7).min(board * 0.12), 0.34);
    let mut x = left;
    let mut index = 0.0;
    while x < right {
        let width = board.min(right - x);
        let light = |part: f32| 0.9 + 0.2 * noise(index, part, 0xb0a2);
        brush::rect(canvas, PixelRect::from_xywh(x, top, width, height), colour.lit(light(0.0)));
        // On some boards the next length begins within the strip.
        let joint = noise(index, 9.0, 0xb0a3);
        if joint < 0.3 {
            let y = top + height * (0.25 + joint * 1.9);
            brush::rect(canvas, PixelRect::from_xywh(x, y, width, bottom - y), colour.lit(light(1.0)));
            brush::rect_through(
                canvas,
                PixelRect::from_xywh(x, y, width, line * 0.6),
                colour.lit(0.4),
                gap_alpha,
            );
        }
        brush::rect_through(canvas, PixelRect::from_xywh(x, top, gap, height), colour.lit(0.4), gap_alpha);
        x += board;
        index += 1.0;
    }
}
