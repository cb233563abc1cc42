//! Pictures on planes, as they are seen.

use super::super::brush;
use super::super::projection::pixels;
use super::camera::OnPlane;
use crate::colour::{Encoder, decode_table};
use kurbo::{BezPath, Shape};
use tiny_skia::{FillRule, Mask, PixmapMut, PixmapRef, Transform};
use wide::f32x4;

/// Fills a path with what a picture on a plane, of which so much light is left, shows there.
pub(super) fn fill(
    canvas: &mut PixmapMut<'_>,
    path: &BezPath,
    on_plane: &OnPlane,
    picture: PixmapRef<'_>,
    light: f32,
) {
    let Some(covered) = Covered::new(path, (canvas.width(), canvas.height())) else { return };
    let (decoded, encoder) = (decode_table(), Encoder::new());
    let lit: [u8; 256] = std::array::from_fn(|code| encoder.code(decoded[code] * light));
    let stride = canvas.width() as usize;
    let data = canvas.data_mut();
    let covers = covered.mask.data().chunks_exact(covered.mask.width() as usize);
    for (y, covers) in (covered.top..).zip(covers) {
        let line = &mut data[(y * stride + covered.left) * 4..];
        let places = on_plane.line(covered.left, y);
        for ((place, &cover), below) in places.zip(covers).zip(line.as_chunks_mut::<4>().0) {
            let Some((s, t)) = place.filter(|_| cover > 0) else { continue };
            if cover == u8::MAX {
                let [red, green, blue] = sampled(picture, s, t).map(|code| lit[usize::from(code)]);
                *below = [red, green, blue, u8::MAX];
                continue;
            }
            let share = f32::from(cover) / 255.0;
            if below[3] != u8::MAX {
                over_nothing(below, sampled(picture, s, t).map(|code| lit[usize::from(code)]), cover);
                continue;
            }
            for (channel, code) in below.iter_mut().zip(sampled(picture, s, t)) {
                let [own, below] = [lit[usize::from(code)], *channel].map(|code| decoded[usize::from(code)]);
                *channel = encoder.code(own * share + below * (1.0 - share));
            }
        }
    }
}

/// Lays a colour on a pixel that is not wholly covered yet: codes multiplied by their cover, as tiny-skia lays them.
fn over_nothing(below: &mut [u8], own: [u8; 3], cover: u8) {
    let cover = u16::from(cover);
    for (channel, own) in below.iter_mut().zip(own.into_iter().chain([u8::MAX])) {
        let sum = u16::from(own) * cover + u16::from(*channel) * (255 - cover);
        *channel = u8::try_from((sum + 127) / 255).unwrap_or(u8::MAX);
    }
}

/// How far each pixel of a part of a sheet is covered by a path.
struct Covered {
    mask: Mask,
    left: usize,
    top: usize,
}

impl Covered {
    fn new(path: &BezPath, (width, height): (u32, u32)) -> Option<Self> {
        let bounds = path.bounding_box();
        let whole =
            |value: f64, most: u32| u32::try_from(crate::rounding::nearest(value)).unwrap_or(0).min(most);
        let (left, top) =
            (whole(libm::floor(bounds.x0).max(0.0), width), whole(libm::floor(bounds.y0).max(0.0), height));
        let (right, bottom) =
            (whole(libm::ceil(bounds.x1).max(0.0), width), whole(libm::ceil(bounds.y1).max(0.0), height));
        let mut mask = Mask::new(right.checked_sub(left)?, bottom.checked_sub(top)?)?;
        let path = brush::to_skia(path)?;
        let shift = Transform::from_translate(-pixels(left), -pixels(top));
        mask.fill_path(&path, FillRule::Winding, true, shift);
        Some(Self { mask, left: left as usize, top: top as usize })
    }
}

/// A picture's colour between its pixels, straight from each to the next; past its sides that of the side.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "held within the picture and its codes"
)]
fn sampled(picture: PixmapRef<'_>, s: f32, t: f32) -> [u8; 3] {
    let (width, height) = (picture.width(), picture.height());
    let hold = |at: f32, most: u32| (at - 0.5).clamp(0.0, pixels(most - 1));
    let (s, t) = (hold(s, width), hold(t, height));
    let (column, row) = (s as usize, t as usize);
    let (across, down) = (s - column as f32, t - row as f32);
    let right = (column + 1).min(width as usize - 1);
    let below = (row + 1).min(height as usize - 1);
    let data = picture.data().as_chunks::<4>().0;
    let pixel = |column: usize, row: usize| f32x4::from(data[row * width as usize + column].map(f32::from));
    let [a, b, c, d] = [pixel(column, row), pixel(right, row), pixel(column, below), pixel(right, below)];
    let upper = a + (b - a) * across;
    let lower = c + (d - c) * across;
    let [red, green, blue, _] = (upper + (lower - upper) * down + 0.5).to_array();
    [red, green, blue].map(|code| code as u8)
}
