//! A page as pixels: what is printed, to look at before it is printed.

use super::sheet::{Item, Lettering, Page, Step, TONED, WHITE, outline_of};
use crate::colour::Colour;
use crate::draw::{LoadedPicture, part_of, to_skia};
use crate::geometry::{Point, Rect};
use crate::length::Length;
use crate::rounding::nearest;
use crate::text;
use kurbo::{Affine, BezPath};
use tiny_skia::{FillRule, Paint, Pixmap, Stroke, StrokeDash, Transform};

/// The height in pixels of a page so many pixels wide.
#[must_use]
pub fn height(page: &Page, width_px: u32) -> u32 {
    let height = page.size.height.times_ratio(width_px.into(), 1).units();
    u32::try_from(height / page.size.width.units().max(1)).unwrap_or(1).max(1)
}

/// Draws a page so many pixels wide: sRGB, four bytes a pixel, opaque. `copies` has a place for each picture of the plan.
#[must_use]
pub fn draw(page: &Page, width_px: u32, copies: &[Option<&LoadedPicture>]) -> Option<Vec<u8>> {
    let mut table = Table {
        canvas: Pixmap::new(width_px, height(page, width_px))?,
        scale: f64::from(width_px) / page.size.width.to_mm(),
        top: page.size.height,
        copies,
    };
    table.canvas.fill(tiny_skia::Color::WHITE);
    page.blocks.iter().flat_map(|block| &block.items).for_each(|item| table.item(item));
    Some(table.canvas.take())
}

struct Table<'a> {
    canvas: Pixmap,
    /// Pixels to the millimetre.
    scale: f64,
    top: Length,
    copies: &'a [Option<&'a LoadedPicture>],
}

fn paint(colour: Colour) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color_rgba8(colour.red, colour.green, colour.blue, 255);
    paint.anti_alias = true;
    paint
}

impl Table<'_> {
    fn px(&self, length: Length) -> f64 {
        length.to_mm() * self.scale
    }

    #[expect(clippy::cast_possible_truncation, reason = "a thickness on a screen")]
    fn thick(&self, length: Length) -> f32 {
        self.px(length) as f32
    }

    fn at(&self, point: Point) -> (f64, f64) {
        (self.px(point.x), self.px(self.top - point.y))
    }

    fn path(&self, steps: &[Step]) -> BezPath {
        let mut path = BezPath::new();
        for step in steps {
            match step {
                Step::Move(to) => path.move_to(self.at(*to)),
                Step::Line(to) => path.line_to(self.at(*to)),
                Step::Curve([one, two, to]) => path.curve_to(self.at(*one), self.at(*two), self.at(*to)),
                Step::Close => path.close_path(),
            }
        }
        path
    }

    fn fill(&mut self, path: &BezPath, colour: Colour) {
        if let Some(path) = to_skia(path) {
            self.canvas.fill_path(&path, &paint(colour), FillRule::Winding, Transform::identity(), None);
        }
    }

    fn stroke(&mut self, path: &BezPath, width: Length, colour: Colour, dashes: &[Length]) {
        let dashes: Vec<f32> = dashes.iter().map(|dash| self.thick(*dash)).collect();
        let dash = if dashes.is_empty() { None } else { StrokeDash::new(dashes, 0.0) };
        // Lines too thin for a screen are seen all the same.
        let stroke = Stroke { width: self.thick(width).max(0.5), dash, ..Stroke::default() };
        if let Some(path) = to_skia(path) {
            self.canvas.stroke_path(&path, &paint(colour), &stroke, Transform::identity(), None);
        }
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Text(Lettering { at, face, em, text, ink, is_upright }) => {
                let (x, y) = self.at(*at);
                let outline = text::outline(*face, text, self.px(*em));
                let turned =
                    if *is_upright { [0.0, -1.0, 1.0, 0.0, x, y] } else { [1.0, 0.0, 0.0, 1.0, x, y] };
                self.fill(&(Affine::new(turned) * outline), *ink);
            }
            Item::Line(line) => {
                let mut path = BezPath::new();
                path.move_to(self.at(line.from));
                path.line_to(self.at(line.to));
                self.stroke(&path, line.width, line.ink, &line.dashes);
            }
            Item::Shape { path, fill, line } => {
                let path = self.path(path);
                if let Some(colour) = fill {
                    self.fill(&path, *colour);
                }
                if let Some((width, ink)) = line {
                    self.stroke(&path, *width, *ink, &[]);
                }
            }
            Item::Picture { rect, shows, .. } => self.picture(*rect, *shows),
        }
    }

    /// A picture on the whole pixels that it covers.
    fn picture(&mut self, rect: Rect, shows: Option<(usize, crate::print::Source)>) {
        let Some((pyramid, part)) = shows.and_then(|shown| part_of(shown, self.copies)) else {
            return self.fill(&self.path(&outline_of(rect)), if shows.is_some() { TONED } else { WHITE });
        };
        let (left, top) = self.at(Point::new(rect.x, rect.top()));
        let (right, bottom) = self.at(Point::new(rect.right(), rect.y));
        let [left, top, right, bottom] =
            [left, top, right, bottom].map(|edge| usize::try_from(nearest(edge)).unwrap_or(0));
        let (width, height) = (right.saturating_sub(left).max(1), bottom.saturating_sub(top).max(1));
        let px = |side: usize| u32::try_from(side).unwrap_or(1);
        let scaled = pyramid.scaled(part, px(width), px(height));
        let stride = self.canvas.width() as usize;
        let columns = width.min(stride.saturating_sub(left));
        let rows = height.min((self.canvas.height() as usize).saturating_sub(top));
        let data = self.canvas.data_mut();
        for row in 0..rows {
            let (to, from) = (((top + row) * stride + left) * 4, row * width * 4);
            data[to..to + columns * 4].copy_from_slice(&scaled.pixels()[from..from + columns * 4]);
        }
    }
}
