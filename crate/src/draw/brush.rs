//! Filling and stroking, in device pixels with y down.

use super::pixel_rect::PixelRect;
use crate::colour::Colour;
use kurbo::{BezPath, PathEl};
use tiny_skia::{FillRule, LineJoin, Paint, Path, PathBuilder, PixmapMut, Rect, Stroke, Transform};

fn paint(colour: Colour, alpha: f32) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color_rgba8(colour.red, colour.green, colour.blue, code(alpha));
    paint.anti_alias = true;
    paint
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates at 0 and 255")]
fn code(alpha: f32) -> u8 {
    (alpha * 255.0 + 0.5) as u8
}

/// Further out than this, in pixels, nothing is drawn where it is: a rasterizer does not take it.
const FAR: f32 = 32_768.0;

/// The part of an area that is anywhere near a sheet: what is drawn on a tiny wall can be millions of pixels wide, which a
/// rasterizer does not take.
pub(super) fn near_sheet(area: PixelRect) -> PixelRect {
    let hold = |from: f32, to: f32| {
        let (start, end) = (from.clamp(-FAR, FAR), to.clamp(-FAR, FAR));
        (start, end - start)
    };
    let ((x, width), (y, height)) = (hold(area.left, area.right), hold(area.top, area.bottom));
    PixelRect::from_xywh(x, y, width, height)
}

/// Fills all of it.
#[inline(never)]
pub(super) fn all(canvas: &mut PixmapMut<'_>, Colour { red, green, blue }: Colour) {
    canvas.fill(tiny_skia::Color::from_rgba8(red, green, blue, u8::MAX));
}

/// Fills an upright rectangle.
pub(super) fn rect(canvas: &mut PixmapMut<'_>, area: PixelRect, colour: Colour) {
    rect_through(canvas, area, colour, 1.0);
}

/// Fills an upright rectangle, letting what is beneath show through.
pub(super) fn rect_through(canvas: &mut PixmapMut<'_>, area: PixelRect, colour: Colour, alpha: f32) {
    let PixelRect { left, top, right, bottom } = near_sheet(area);
    if let Some(rect) = Rect::from_ltrb(left, top, right, bottom) {
        canvas.fill_rect(rect, &paint(colour, alpha), Transform::identity(), None);
    }
}

/// Fills a rectangle on whole pixels, at least one of them wide and high: crisp, and fast.
pub(super) fn crisp(canvas: &mut PixmapMut<'_>, area: PixelRect, colour: Colour) {
    let area = near_sheet(area);
    let mut paint = paint(colour, 1.0);
    paint.anti_alias = false;
    let (width, height) = (area.width().round().max(1.0), area.height().round().max(1.0));
    let area = Rect::from_xywh(area.left.round(), area.top.round(), width, height);
    if let Some(rect) = area {
        canvas.fill_rect(rect, &paint, Transform::identity(), None);
    }
}

/// Fills a rectangle with rounded corners: upper ones and lower ones apart.
pub(super) fn rounded(canvas: &mut PixmapMut<'_>, area: PixelRect, radii: [f32; 2], colour: Colour) {
    let area = near_sheet(area);
    let [x, y, width, height] = [area.left, area.top, area.width(), area.height()].map(f64::from);
    let [upper, lower] = radii.map(|radius| f64::from(radius).min(width / 2.0).min(height / 2.0).max(0.0));
    let shape = kurbo::RoundedRect::new(x, y, x + width, y + height, (upper, upper, lower, lower));
    fill(canvas, &kurbo::Shape::to_path(&shape, 0.05), colour, 1.0);
}

/// Fills a path and half a pixel round it, so that nothing shines through between it and its neighbour.
pub(super) fn seamless(canvas: &mut PixmapMut<'_>, path: &BezPath, colour: Colour) {
    let Some(path) = to_skia(path) else { return };
    let paint = paint(colour, 1.0);
    canvas.fill_path(&path, &paint, FillRule::Winding, Transform::identity(), None);
    let stroke = Stroke { width: 0.7, line_join: LineJoin::Round, ..Stroke::default() };
    canvas.stroke_path(&path, &paint, &stroke, Transform::identity(), None);
}

/// Fills a polygon.
pub(super) fn polygon(canvas: &mut PixmapMut<'_>, corners: &[(f32, f32)], colour: Colour) {
    let mut path = BezPath::new();
    trace(&mut path, corners.iter().copied());
    fill(canvas, &path, colour, 1.0);
}

/// Fills what is within a polygon but for the holes in it, which run the same way round.
pub(super) fn pierced<const N: usize>(
    canvas: &mut PixmapMut<'_>,
    outer: &[(f32, f32); N],
    holes: &[[(f32, f32); N]],
    colour: Colour,
) {
    let mut path = BezPath::new();
    trace(&mut path, outer.iter().copied());
    for hole in holes {
        trace(&mut path, hole.iter().rev().copied());
    }
    fill(canvas, &path, colour, 1.0);
}

fn trace(path: &mut BezPath, corners: impl Iterator<Item = (f32, f32)>) {
    for (index, (x, y)) in corners.enumerate() {
        let point = (f64::from(x), f64::from(y));
        if index == 0 { path.move_to(point) } else { path.line_to(point) }
    }
    path.close_path();
}

/// Fills a path.
pub(super) fn fill(canvas: &mut PixmapMut<'_>, path: &BezPath, colour: Colour, alpha: f32) {
    if let Some(path) = to_skia(path) {
        canvas.fill_path(&path, &paint(colour, alpha), FillRule::Winding, Transform::identity(), None);
    }
}

#[expect(clippy::cast_possible_truncation, reason = "coordinates on a screen keep 24 bits")]
pub(crate) fn to_skia(path: &BezPath) -> Option<Path> {
    let mut built = PathBuilder::new();
    let near = |p: kurbo::Point| ((p.x as f32).clamp(-FAR, FAR), (p.y as f32).clamp(-FAR, FAR));
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => {
                let (x, y) = near(p);
                built.move_to(x, y);
            }
            PathEl::LineTo(p) => {
                let (x, y) = near(p);
                built.line_to(x, y);
            }
            PathEl::QuadTo(a, p) => {
                let (a, p) = (near(a), near(p));
                built.quad_to(a.0, a.1, p.0, p.1);
            }
            PathEl::CurveTo(a, b, p) => {
                let (a, b, p) = (near(a), near(b), near(p));
                built.cubic_to(a.0, a.1, b.0, b.1, p.0, p.1);
            }
            PathEl::ClosePath => built.close(),
        }
    }
    built.finish()
}
