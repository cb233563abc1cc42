//! The room: the sheet, the wall in its light, skirting, floor, what stands there, and a figure for scale.

use super::furniture;
use super::projection::{Projection, pixels};
use super::{Theme, brush, shadow};
use crate::colour::{Colour, decode, encode};
use crate::scene::Scene;
use kurbo::BezPath;
use tiny_skia::PixmapMut;

/// Draws everything that stays while pieces are moved.
pub(super) fn draw(canvas: &mut PixmapMut<'_>, scene: &Scene, sheet: Colour, projection: Projection) {
    let (width, height) = (pixels(canvas.width()), pixels(canvas.height()));
    brush::rect(canvas, 0.0, 0.0, width, height, sheet);
    let wall = scene.wall.size;
    let (left, right) = (projection.x(crate::length::Length::ZERO), projection.x(wall.width));
    let (top, floor) = (projection.y(wall.height), projection.floor);
    lit_wall(canvas, [left, top, right, floor], scene.wall.paint);
    skirting(canvas, scene, projection, left, right);
    boards(canvas, scene.wall.floor, [left, floor, right, floor + projection.floor_strip], projection);
    for fixture in &scene.fixtures {
        shadow::stand(canvas, fixture, projection);
        furniture::draw(canvas, fixture, projection, scene.wall.paint);
    }
    if let Some(rect) = scene.figure {
        figure(canvas, rect, projection);
    }
    // The wall's own edge, for paints that are as pale as the sheet.
    let edge = Theme::on(sheet).ink.mixed(sheet, 0.75);
    let line = projection.line;
    brush::rect(canvas, left - line, top - line, right - left + line * 2.0, line, edge);
    brush::rect(canvas, left - line, top, line, floor - top, edge);
    brush::rect(canvas, right, top, line, floor - top, edge);
}

/// Light falls off from a lamp above and to the left, so little that one only feels it.
fn lit_wall(canvas: &mut PixmapMut<'_>, [left, top, right, bottom]: [f32; 4], paint: Colour) {
    brush::rect(canvas, left, top, right - left, bottom - top, paint);
    let light = [decode(paint.red), decode(paint.green), decode(paint.blue)];
    let (width, height) = (canvas.width(), canvas.height());
    let whole = |value: f32, most: u32| {
        u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0).min(most)
    };
    let (columns, rows) =
        (whole(left, width)..whole(right, width), whole(top, height)..whole(bottom, height));
    let data = canvas.data_mut();
    for row in rows {
        let down = (pixels(row) + 0.5 - top) / (bottom - top);
        for column in columns.clone() {
            let across = (pixels(column) + 0.5 - left) / (right - left) - 0.35;
            let share = 1.03 - 0.06 * across * across - 0.085 * down * down;
            // Half a code of a fixed pattern keeps the slow gradient from showing as bands.
            let pattern = pixels((column * 5 + row * 3) % 8) / 8.0 - 0.5;
            let at = (row as usize * width as usize + column as usize) * 4;
            for (channel, light) in data[at..at + 3].iter_mut().zip(light) {
                *channel = encode(light * share + pattern * 0.003 * light);
            }
        }
    }
}

fn skirting(canvas: &mut PixmapMut<'_>, scene: &Scene, projection: Projection, left: f32, right: f32) {
    let height = projection.length(scene.wall.skirting);
    if height <= 0.0 {
        return;
    }
    let white = Colour::hex(0xee_ea_e0);
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
fn boards(
    canvas: &mut PixmapMut<'_>,
    colour: Colour,
    [left, top, right, bottom]: [f32; 4],
    projection: Projection,
) {
    brush::rect(canvas, left, top, right - left, bottom - top, colour);
    let board = projection.length(crate::length::Length::inches(5)).max(4.0);
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
    brush::rect_through(
        canvas,
        [left, top, right - left, (bottom - top) * 0.35],
        Colour::hex(0x00_00_00),
        0.12,
    );
}

/// A standing figure of 5 ft 7 in (170 cm), in flat tone: for scale, not a portrait. Proportions are those of a figure
/// seven and a half heads high (common practice of drawing manuals, no source).
fn figure(canvas: &mut PixmapMut<'_>, rect: crate::geometry::Rect, projection: Projection) {
    let height = projection.length(rect.size.height);
    let x = projection.x(rect.centre().x);
    let at = |across: f32, up: f32| {
        (
            f64::from(x + across * height),
            f64::from(projection.floor + projection.floor_strip * 0.4 - up * height),
        )
    };
    let mut body = BezPath::new();
    body.move_to(at(-0.025, 0.86));
    body.curve_to(at(-0.03, 0.835), at(-0.1, 0.835), at(-0.118, 0.79));
    body.curve_to(at(-0.135, 0.7), at(-0.125, 0.58), at(-0.118, 0.46));
    body.line_to(at(-0.085, 0.46));
    body.curve_to(at(-0.095, 0.56), at(-0.09, 0.66), at(-0.082, 0.72));
    body.curve_to(at(-0.075, 0.62), at(-0.095, 0.52), at(-0.088, 0.44));
    body.curve_to(at(-0.085, 0.3), at(-0.07, 0.15), at(-0.066, 0.02));
    body.line_to(at(-0.085, 0.0));
    body.line_to(at(-0.022, 0.0));
    body.curve_to(at(-0.02, 0.16), at(-0.012, 0.3), at(0.0, 0.42));
    body.curve_to(at(0.012, 0.3), at(0.02, 0.16), at(0.022, 0.0));
    body.line_to(at(0.085, 0.0));
    body.line_to(at(0.066, 0.02));
    body.curve_to(at(0.07, 0.15), at(0.085, 0.3), at(0.088, 0.44));
    body.curve_to(at(0.095, 0.52), at(0.075, 0.62), at(0.082, 0.72));
    body.curve_to(at(0.09, 0.66), at(0.095, 0.56), at(0.085, 0.46));
    body.line_to(at(0.118, 0.46));
    body.curve_to(at(0.125, 0.58), at(0.135, 0.7), at(0.118, 0.79));
    body.curve_to(at(0.1, 0.835), at(0.03, 0.835), at(0.025, 0.86));
    body.close_path();
    let (head_x, head_y) = at(0.0, 0.93);
    let head =
        kurbo::Ellipse::new((head_x, head_y), (f64::from(height) * 0.042, f64::from(height) * 0.066), 0.0);
    let tone = Colour::hex(0x4a_54_59);
    brush::fill(canvas, &body, tone, 0.5);
    brush::fill(canvas, &kurbo::Shape::to_path(&head, 0.05), tone, 0.5);
}
