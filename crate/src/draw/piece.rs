//! A piece as it looks from the front, in a picture of its own.

use super::light::Lamp;
use super::moulding::{self, Look};
use super::pixel_rect::PixelRect;
use super::projection::Snapped;
use super::sheet::LoadedPicture;
use super::{between, brush, face, shadow};
use crate::colour::{Colour, decode_table, encode};
use crate::geometry::Rect;
use crate::length::Length;
use crate::print::{Exact, Source};
use crate::resample::{Pyramid, RasterPart};
use crate::scene::{Layer, ScenicPiece};
use tiny_skia::{Pixmap, PixmapMut};

/// A toned sheet where no picture is yet.
pub(super) const TONED: Colour = Colour::hex(0xc8_c4_b8);

/// The shadow of what stands less high is not seen.
const LEAST_HEIGHT_PX: f32 = 0.4;

/// Draws a piece on the pixels that it covers, at a scale in pixels per inch: its outer edges at theirs, and everything within
/// where it truly is.
pub(super) fn draw(
    piece: &ScenicPiece,
    copies: &[Option<&LoadedPicture>],
    at: Snapped,
    scale: f32,
    lamp: &Lamp,
) -> Pixmap {
    let size_px = at.rect.size_px();
    let mut pixmap = match Pixmap::new(size_px.0, size_px.1) {
        Some(pixmap) => pixmap,
        None => return one_pixel(),
    };
    // Where two layers meet within a pixel, what is outermost shines through, and no white.
    let ground = piece.layers.iter().rev().find_map(|layer| match layer {
        Layer::Moulding { colour, .. } => Some(*colour),
        _ => None,
    });
    let ground = ground.unwrap_or(Colour::hex(0xff_ff_ff));
    brush::all(&mut pixmap.as_mut(), ground);
    let places = Places { outside: piece.outside, at, scale, lamp };
    for layer in &piece.layers {
        places.layer(&mut pixmap.as_mut(), layer, copies);
    }
    lamp.tint_area(&mut pixmap.as_mut(), PixelRect::of_size(size_px));
    pixmap
}

/// Where the layers of a piece lie among its own pixels, and what lights them.
struct Places<'a> {
    outside: Rect,
    at: Snapped,
    scale: f32,
    lamp: &'a Lamp,
}

impl Places<'_> {
    /// Between the edges of the pixels, which are the edges of the piece.
    fn edges(&self, rect: Rect) -> PixelRect {
        let (whole, size_px) = (self.outside.size, self.at.rect.size_px());
        let place = |from_start: Length, length: Length, off: i8, most: u32| {
            let most = super::projection::pixels(most);
            if from_start <= Length::ZERO {
                0.0
            } else if from_start >= length {
                most
            } else {
                (self.px(from_start) + f32::from(off) / 16.0).clamp(0.0, most)
            }
        };
        let across = |x: Length| place(x, whole.width, self.at.off.0, size_px.0);
        let down = |y: Length| place(whole.height - y, whole.height, self.at.off.1, size_px.1);
        PixelRect {
            left: across(rect.x),
            top: down(rect.top()),
            right: across(rect.right()),
            bottom: down(rect.y),
        }
    }

    /// At the nearest whole pixels: edges between two things are crisp. Only what may be finer than a pixel, as a bevel
    /// is, is blended.
    fn crisp(&self, rect: Rect) -> PixelRect {
        self.edges(rect).whole()
    }

    fn px(&self, length: Length) -> f32 {
        to_px(length, self.scale)
    }

    fn layer(&self, canvas: &mut PixmapMut<'_>, layer: &Layer, copies: &[Option<&LoadedPicture>]) {
        let Self { scale, lamp, .. } = *self;
        match layer {
            Layer::Flat { rect, colour } => flat(canvas, self.crisp(*rect), *colour),
            Layer::Picture { rect, shows } => {
                picture(canvas, self.crisp(*rect), shows.and_then(|shows| part_of(shows, copies)));
            }
            Layer::Board { rect, openings, colour } => {
                if let [opening] = openings[..] {
                    between::fill(canvas, self.crisp(*rect), self.edges(opening), [*colour; 4]);
                } else {
                    let holes: Vec<_> = openings.iter().map(|hole| self.edges(*hole).corners()).collect();
                    brush::pierced(canvas, &self.crisp(*rect).corners(), &holes, *colour);
                }
            }
            Layer::Edge { rect } => edge(canvas, self.crisp(*rect), scale),
            Layer::Face { rect, sheen } => {
                face::put(canvas, self.crisp(*rect), *sheen, lamp, scale, seed(self.outside));
            }
            Layer::Lifted { rect, height } => {
                shadow::round(canvas, self.edges(*rect), self.px(*height), lamp);
            }
            Layer::Bevel { face, back, height } => {
                let core = Colour::hex(0xfd_fc_f8);
                let back = self.crisp(*back);
                let slopes = [(-1.0, 0.0), (0.0, -1.0), (1.0, 0.0), (0.0, 1.0)];
                let sides = slopes.map(|(right, down)| core.lit(lamp.on_slope(right, down)));
                between::fill(canvas, self.edges(*face).union(back), back, sides);
                let height = self.px(*height);
                if height > LEAST_HEIGHT_PX {
                    inward_shadow(canvas, back, height, lamp);
                }
            }
            Layer::Moulding { outer, inner, colour, shape, surface, relief, height } => {
                // However thin, a leg is seen on all four sides.
                let outer = self.crisp(*outer);
                let inner = self.crisp(*inner).a_pixel_within(outer);
                let face = (inner.left - outer.left).max(0.01);
                let look = Look {
                    colour: *colour,
                    shape: *shape,
                    surface: *surface,
                    relief: self.px(*relief) / face,
                    seed: seed(self.outside),
                };
                moulding::draw(canvas, outer, inner, &look, lamp, scale);
                inward_shadow(canvas, inner, self.px(*height), lamp);
            }
        }
    }
}

/// A number of a frame's own, from where it hangs: no two frames of a wall are cut from the same stick.
fn seed(outside: Rect) -> u32 {
    let thumb = Length::inches(1).units();
    let part = |length: Length| u32::try_from((length.units() / thumb).rem_euclid(4096)).unwrap_or(0);
    part(outside.size.width).wrapping_mul(31) ^ part(outside.size.height).wrapping_mul(17)
}

fn one_pixel() -> Pixmap {
    // A size within the limits always has a pixmap; the smallest stands in for one that has not.
    #[expect(clippy::expect_used, reason = "one pixel can always be had")]
    Pixmap::new(1, 1).expect("one pixel")
}

#[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
fn to_px(length: Length, scale: f32) -> f32 {
    length.to_inches() as f32 * scale
}

fn flat(canvas: &mut PixmapMut<'_>, at: PixelRect, colour: Colour) {
    brush::rect(canvas, at, colour);
}

pub(crate) fn part_of<'a>(
    (index, source): (usize, Source),
    copies: &[Option<&'a LoadedPicture>],
) -> Option<(&'a Pyramid, RasterPart)> {
    let copy = copies.get(index).copied().flatten()?;
    // The copy may be smaller than the file in which the crop is measured.
    let across = f64::from(copy.pyramid.raster().width_px()) / f64::from(copy.file_width_px.max(1));
    let down = f64::from(copy.pyramid.raster().height_px()) / f64::from(copy.file_height_px.max(1));
    let part = RasterPart {
        left: real(source.left) * across,
        top: real(source.top) * down,
        width: real(source.width) * across,
        height: real(source.height) * down,
    };
    Some((&copy.pyramid, part))
}

#[expect(clippy::cast_precision_loss, reason = "an edge: pixels of a picture keep 53 bits")]
fn real(value: Exact) -> f64 {
    let whole = value.trunc();
    let rest = value - whole;
    whole.to_integer() as f64 + *rest.numer() as f64 / *rest.denom() as f64
}

#[inline(never)]
fn picture(canvas: &mut PixmapMut<'_>, at: PixelRect, shown: Option<(&Pyramid, RasterPart)>) {
    let Some((pyramid, part)) = shown else {
        flat(canvas, at, TONED);
        return;
    };
    let whole = |value: f32| u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0);
    let (left, top) = (whole(at.left), whole(at.top));
    let (width, height) = (whole(at.right).max(left + 1) - left, whole(at.bottom).max(top + 1) - top);
    let scaled = pyramid.scaled(part, width, height);
    let stride = canvas.width() as usize;
    let columns = (width as usize).min(stride.saturating_sub(left as usize));
    let rows = canvas.height().saturating_sub(top).min(height) as usize;
    let data = canvas.data_mut();
    for row in 0..rows {
        let to = ((top as usize + row) * stride + left as usize) * 4;
        let from = row * width as usize * 4;
        data[to..to + columns * 4].copy_from_slice(&scaled.pixels()[from..from + columns * 4]);
    }
}

/// The shadow that a moulding casts on what it encloses: along its top and its left side.
#[inline(never)]
fn inward_shadow(canvas: &mut PixmapMut<'_>, inner: PixelRect, height: f32, lamp: &Lamp) {
    let reach = |fall: f32| (height * (fall + lamp.softness * 0.5)).max(1.0);
    let (reach_down, reach_across) = (reach(lamp.fall.1), reach(lamp.fall.0));
    let (width, rows) = (canvas.width(), canvas.height());
    let whole = |value: f32, most: u32| {
        u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0).min(most)
    };
    let (left, right) = (whole(inner.left, width), whole(inner.right, width));
    let (top, bottom) = (whole(inner.top, rows), whole(inner.bottom, rows));
    let shade = |distance: f32, reach: f32| {
        let near = (1.0 - distance / reach).max(0.0);
        near * near
    };
    let table = decode_table();
    let stride = width as usize;
    let data = canvas.data_mut();
    for row in top..bottom {
        let head = shade(super::projection::pixels(row - top) + 0.5, reach_down);
        for column in left..right {
            let side = shade(super::projection::pixels(column - left) + 0.5, reach_across);
            let dark = 1.0 - (1.0 - 0.9 * lamp.share * head) * (1.0 - 0.6 * lamp.share * side);
            if dark <= 0.0 {
                break;
            }
            let at = (row as usize * stride + column as usize) * 4;
            for channel in &mut data[at..at + 3] {
                *channel = encode(table[usize::from(*channel)] * (1.0 - dark));
            }
        }
    }
}

/// The edges of a face without a frame: light along the top and the left, dark along the bottom and the right.
#[inline(never)]
fn edge(canvas: &mut PixmapMut<'_>, at: PixelRect, scale: f32) {
    let line = (scale * 0.06).clamp(0.7, 3.0);
    let (width, height) = (at.width(), at.height());
    let (white, black) = (Colour::hex(0xff_ff_ff), Colour::hex(0x00_00_00));
    brush::rect_through(canvas, PixelRect::from_xywh(at.left, at.top, width, line), white, 0.35);
    brush::rect_through(canvas, PixelRect::from_xywh(at.left, at.top, line, height), white, 0.2);
    brush::rect_through(canvas, PixelRect::from_xywh(at.left, at.bottom - line, width, line), black, 0.35);
    brush::rect_through(canvas, PixelRect::from_xywh(at.right - line, at.top, line, height), black, 0.25);
}
