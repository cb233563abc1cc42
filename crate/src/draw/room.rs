//! The room: the sheet, the wall in its light, skirting, floor, what stands there, and a figure for scale.

use super::furniture::{self, Solid};
use super::light::Lamp;
use super::projection::{Projection, pixels};
use super::{Theme, brush, shadow};
use crate::colour::Colour;
use crate::length::Length;
use crate::scene::{Scene, ScenicFigure};
use kurbo::BezPath;
use tiny_skia::PixmapMut;

/// Draws everything that stays while pieces are moved.
pub(super) fn draw(canvas: &mut PixmapMut<'_>, scene: &Scene, sheet: Colour, projection: Projection) {
    let (width, height) = (pixels(canvas.width()), pixels(canvas.height()));
    brush::rect(canvas, 0.0, 0.0, width, height, sheet);
    let wall = scene.wall.size;
    let lamp = Lamp::of(scene.light);
    let (left, right) = (projection.x(Length::ZERO), projection.x(wall.width));
    let (top, floor) = (projection.y(wall.height), projection.floor);
    wall_alone(canvas, scene, projection, &lamp);
    boards(canvas, scene.wall.floor, [left, floor, right, floor + projection.floor_strip], projection);
    // What is let into the wall stands behind what stands before it.
    for before in [false, true] {
        for fixture in scene.fixtures.iter().filter(|fixture| fixture.kind.stands_before_wall() == before) {
            shadow::stand(canvas, fixture, wall, projection, &lamp);
            for solid in furniture::solids(fixture, scene.wall.paint) {
                front(canvas, &solid, projection);
            }
        }
    }
    if let Some(stated) = scene.figure {
        figure(canvas, stated, projection);
    }
    let whole = |value: f32| u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0);
    lamp.tint_area(canvas, [left, top, right, floor + projection.floor_strip].map(whole));
    // The wall's own edge, for paints that are as pale as the sheet.
    let edge = Theme::on(sheet).ink.mixed(sheet, 0.75);
    let line = projection.line;
    brush::rect(canvas, left - line, top - line, right - left + line * 2.0, line, edge);
    brush::rect(canvas, left - line, top, line, floor - top, edge);
    brush::rect(canvas, right, top, line, floor - top, edge);
}

/// The wall in its light, with its skirting and nothing before it.
fn wall_alone(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection, lamp: &Lamp) {
    let wall = scene.wall.size;
    let (left, right) = (projection.x(Length::ZERO), projection.x(wall.width));
    lit_wall(canvas, [left, projection.y(wall.height), right, projection.floor], scene.wall.paint, lamp.pool);
    skirting(canvas, scene, projection, left, right);
}

/// The wall with the shadows of what stands before it, in white light.
pub(super) fn wall(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection) {
    let lamp = Lamp::of(scene.light);
    wall_alone(canvas, scene, projection, &lamp);
    for fixture in &scene.fixtures {
        shadow::stand(canvas, fixture, scene.wall.size, projection, &lamp);
    }
}

/// The floor seen from above, the wall along its upper edge.
pub(super) fn floor(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection) {
    let (width, height) = (pixels(canvas.width()), pixels(canvas.height()));
    planks(canvas, scene.wall.floor, [0.0, 0.0, width, height], projection);
}

/// The front of a part of a fixture.
fn front(canvas: &mut PixmapMut<'_>, solid: &Solid, projection: Projection) {
    let bounds = kurbo::Shape::bounding_box(&solid.outline);
    let scale = f64::from(projection.scale);
    let to_px =
        kurbo::Affine::new([scale, 0.0, 0.0, -scale, projection.left.into(), projection.floor.into()]);
    #[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
    let span = [bounds.y1, bounds.y0].map(|y| (f64::from(projection.floor) - y * scale) as f32);
    brush::graded(canvas, &(to_px * &solid.outline), solid.colour, solid.light, span);
}

/// Light falls off from a lamp above and to the left, so little that one only feels it.
///
/// The share of light is a sum of one part along the wall and one down it, both counted in whole steps; for each step the
/// codes of the paint are worked out once.
fn lit_wall(canvas: &mut PixmapMut<'_>, [left, top, right, bottom]: [f32; 4], paint: Colour, pool: f32) {
    brush::rect(canvas, left, top, right - left, bottom - top, paint);
    let (width, height) = (canvas.width(), canvas.height());
    let whole = |value: f32, most: u32| {
        u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0).min(most)
    };
    let (columns, rows) =
        (whole(left, width)..whole(right, width), whole(top, height)..whole(bottom, height));
    let lost_across: Vec<usize> = columns
        .clone()
        .map(|column| {
            let across = (pixels(column) + 0.5 - left) / (right - left) - 0.35;
            steps(0.06 * pool * across * across)
        })
        .collect();
    let codes: Vec<[u8; 3]> = (0..steps(0.2 * pool))
        .map(|step| {
            let lit = paint.lit(1.03 - pixels(u32::try_from(step).unwrap_or(0)) / STEPS);
            [lit.red, lit.green, lit.blue]
        })
        .collect();
    let data = canvas.data_mut();
    for row in rows {
        let down = (pixels(row) + 0.5 - top) / (bottom - top);
        let lost_down = steps(0.085 * pool * down * down);
        let start = (row as usize * width as usize + columns.start as usize) * 4;
        let line = data[start..].chunks_exact_mut(4);
        for ((pixel, &lost), column) in line.zip(&lost_across).zip(columns.clone()) {
            // A small fixed pattern keeps the slow gradient from showing as bands.
            let pattern = ((column * 5 + row * 3) % 8) as usize;
            pixel[..3].copy_from_slice(&codes[(lost + lost_down + pattern).min(codes.len() - 1)]);
        }
    }
}

/// Steps in which the fall of light on the wall is counted, to the whole of the light.
const STEPS: f32 = 2048.0;

fn steps(share: f32) -> usize {
    usize::try_from(crate::rounding::nearest(f64::from(share * STEPS))).unwrap_or(0)
}

/// The paint of a skirting board.
pub(super) const SKIRTING: Colour = Colour::hex(0xee_ea_e0);

fn skirting(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection, left: f32, right: f32) {
    let height = projection.length(scene.wall.skirting);
    if height <= 0.0 {
        return;
    }
    let white = SKIRTING;
    let top = projection.floor - height;
    brush::rect(canvas, left, top, right - left, height, white);
    let step = (height * 0.14).max(projection.line);
    brush::rect(canvas, left, top, right - left, step, white.lit(1.1));
    brush::rect(canvas, left, top + step, right - left, projection.line, white.lit(0.8));
    brush::rect(
        canvas,
        left,
        projection.floor - projection.line,
        right - left,
        projection.line,
        white.lit(0.5),
    );
}

/// The floor, cut at the wall: boards running away from the viewer.
fn boards(canvas: &mut PixmapMut<'_>, colour: Colour, area: [f32; 4], projection: Projection) {
    planks(canvas, colour, area, projection);
    let [left, top, right, bottom] = area;
    let shadow = [left, top, right - left, (bottom - top) * 0.35];
    brush::rect_through(canvas, shadow, Colour::hex(0x00_00_00), 0.12);
}

fn planks(
    canvas: &mut PixmapMut<'_>,
    colour: Colour,
    [left, top, right, bottom]: [f32; 4],
    projection: Projection,
) {
    brush::rect(canvas, left, top, right - left, bottom - top, colour);
    let board = projection.length(Length::inches(5)).max(4.0);
    let mut x = left;
    let mut shade = 0_u8;
    while x < right {
        let light = [1.0, 0.94, 1.05, 0.97, 1.02][usize::from(shade % 5)];
        let width = board.min(right - x);
        brush::rect(canvas, x, top, width, bottom - top, colour.lit(light));
        brush::rect_through(canvas, [x, top, projection.line * 0.6, bottom - top], colour.lit(0.45), 0.6);
        x += board;
        shade = shade.wrapping_add(1);
    }
}

/// The right half of a standing figure's outline, from the neck round by arm and leg to the crotch, in shares of its height
/// from its middle line and from the floor. Seven and a half heads high (common practice of drawing manuals, no source).
const FIGURE: [(f32, f32); 22] = [
    (0.024, 0.875),
    (0.026, 0.848),
    (0.062, 0.832),
    (0.104, 0.808),
    (0.120, 0.750),
    (0.124, 0.630),
    (0.114, 0.520),
    (0.108, 0.455),
    (0.094, 0.440),
    (0.092, 0.520),
    (0.097, 0.620),
    (0.086, 0.720),
    (0.070, 0.630),
    (0.082, 0.530),
    (0.083, 0.430),
    (0.066, 0.280),
    (0.064, 0.200),
    (0.044, 0.050),
    (0.058, 0.004),
    (0.016, 0.004),
    (0.018, 0.250),
    (0.004, 0.455),
];

/// The tone of a figure, and how much of what is behind it is covered.
pub(super) const FIGURE_TONE: Colour = Colour::hex(0x4a_54_59);
pub(super) const FIGURE_COVER: f32 = 0.55;

/// The outline of a figure, in inches on the wall: for scale, not a portrait.
pub(super) fn figure_outline(figure: ScenicFigure) -> BezPath {
    let height = figure.rect.size.height.to_inches();
    let middle = figure.rect.centre().x.to_inches();
    let at = |(across, up): (f64, f64)| kurbo::Point::new(middle + across * height, up * height);
    let right = FIGURE.iter().map(|&(x, y)| (f64::from(x), f64::from(y)));
    let left = right.clone().rev().map(|(x, y)| (-x, y));
    let outline: Vec<kurbo::Point> = right.chain(left).map(at).collect();
    let mut path = smooth(&outline);
    let head = kurbo::Ellipse::new(at((0.0, 0.928)), (height * 0.041, height * 0.062), 0.0);
    path.extend(kurbo::Shape::path_elements(&head, 0.05));
    path
}

/// A figure before the wall.
fn figure(canvas: &mut PixmapMut<'_>, figure: ScenicFigure, projection: Projection) {
    let foot = f64::from(projection.floor + projection.floor_strip * 0.4);
    let scale = f64::from(projection.scale);
    let to_px = kurbo::Affine::new([scale, 0.0, 0.0, -scale, projection.left.into(), foot]);
    brush::fill(canvas, &(to_px * figure_outline(figure)), FIGURE_TONE, FIGURE_COVER);
}

/// A closed curve through points (Catmull and Rom, 1974: the tangent at each point is half the way between its neighbours).
fn smooth(points: &[kurbo::Point]) -> BezPath {
    let mut path = BezPath::new();
    let count = points.len();
    let point = |index: usize| points[index % count];
    path.move_to(point(0));
    for index in 0..count {
        let (before, from) = (point(index + count - 1), point(index));
        let (to, after) = (point(index + 1), point(index + 2));
        path.curve_to(from + (to - before) / 6.0, to - (after - from) / 6.0, to);
    }
    path.close_path();
    path
}
