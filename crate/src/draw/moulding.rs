//! A moulding: its face lit along the four mitred legs, each with the grain of its own stick.

use super::light::Lamp;
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use super::texture::Rail;
use crate::colour::{Colour, Encoder, decode};
use crate::framing::face::line;
use crate::plan::{FaceShape, Surface};
use std::cmp::Ordering;
use tiny_skia::PixmapMut;
use wide::f32x4;

/// What a moulding looks like.
pub(super) struct Look {
    pub(super) colour: Colour,
    pub(super) shape: FaceShape,
    pub(super) surface: Surface,
    /// How much lower its lowest part is than its highest, as a share of the width of its face.
    pub(super) relief: f32,
    /// Tells the sticks of one frame from those of another.
    pub(super) seed: u32,
}

/// The face from the outer edge (0) to the sight edge (1): height and slope at so many places.
struct Face {
    slopes: Vec<f32>,
}

/// Light and gloss at so many places across the face of each leg, for pixels of the width that they have.
struct Lit([Vec<(f32, f32)>; 4]);

const PLACES: usize = 64;
/// The same, for calculating.
const PLACES_REAL: f32 = 64.0;

impl Face {
    fn of(look: &Look) -> Self {
        let points: Vec<(f32, f32)> = line(look.shape)
            .into_iter()
            .map(|(across, up)| (thousandths(across), thousandths(up) * look.relief))
            .collect();
        let slope_at = |place: usize| {
            let at = (place_share(place)).clamp(0.0, 0.999);
            let segment = points.windows(2).find(|pair| at < pair[1].0);
            segment.map_or(0.0, |pair| {
                let way = pair[1].0 - pair[0].0;
                if way > 0.0 { (pair[1].1 - pair[0].1) / way } else { 0.0 }
            })
        };
        let mut slopes: Vec<f32> = (0..PLACES).map(slope_at).collect();
        // The two arrises are eased, whatever the shape: they catch the light.
        for (edge, rise) in [(0, 0.55), (1, 0.25), (PLACES - 2, -0.2), (PLACES - 1, -0.5)] {
            slopes[edge] += rise;
        }
        Self { slopes }
    }

    /// The mean slope between two places across the face: what a pixel of that width shows.
    fn slope(&self, from: f32, to: f32) -> f32 {
        let (first, last) = (place_of(from), place_of(to));
        let places = &self.slopes[first..=last];
        places.iter().sum::<f32>() / pixels(u32::try_from(places.len()).unwrap_or(1))
    }
}

impl Lit {
    fn of(face: &Face, widths: [f32; 4], look: &Look, lamp: &Lamp) -> Self {
        let (sharpness, strength) = match look.surface {
            Surface::Grain => (4, 0.03),
            Surface::Paint => (4, 0.05),
            Surface::Metal => (3, 0.2),
            Surface::Gilt => (3, 0.22),
        };
        Self(std::array::from_fn(|side| {
            let half = 0.5 / widths[side];
            let at = |place| {
                let share = place_share(place);
                let slope = face.slope(share - half, share + half);
                let (right, down) = [(slope, 0.0), (0.0, slope), (-slope, 0.0), (0.0, -slope)][side];
                (lamp.on_slope(right, down), lamp.gloss(right, down, sharpness) * strength)
            };
            (0..PLACES).map(at).collect()
        }))
    }

    fn at(&self, side: usize, share: f32) -> (f32, f32) {
        self.0[side][place_of(share)]
    }
}

/// The place that a share of the width falls in.
fn place_of(share: f32) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the places")]
    let place = (share.clamp(0.0, 1.0) * PLACES_REAL) as usize;
    place.min(PLACES - 1)
}

fn place_share(place: usize) -> f32 {
    (pixels(u32::try_from(place).unwrap_or(0)) + 0.5) / PLACES_REAL
}

#[expect(clippy::cast_precision_loss, reason = "at most a thousand")]
fn thousandths(value: i64) -> f32 {
    value as f32 / 1000.0
}

/// Draws a moulding between its outer edge and its sight edge, both on whole pixels; `scale` is in pixels per inch.
#[inline(never)]
pub(super) fn draw(
    canvas: &mut PixmapMut<'_>,
    outer: PixelRect,
    inner: PixelRect,
    look: &Look,
    lamp: &Lamp,
    scale: f32,
) {
    let face = Face::of(look);
    // Metal and leaf mirror in their own colour, paint and wax in white.
    let mirrors_in_its_colour = matches!(look.surface, Surface::Metal | Surface::Gilt);
    let base = [look.colour.red, look.colour.green, look.colour.blue].map(decode);
    let widths = outer.widths_to(inner);
    let lit = Lit::of(&face, widths, look, lamp);
    let base = base.map(|own| (own, if mirrors_in_its_colour { own * 2.5 } else { 1.0 }));
    let encoder = Encoder::new();
    let stride = canvas.width();
    let whole = |value: f32, most: u32| {
        u32::try_from(crate::rounding::nearest(f64::from(value))).unwrap_or(0).min(most)
    };
    let (columns, rows) = (canvas.width(), canvas.height());
    let [left, inner_left, inner_right, right] =
        [outer.left, inner.left, inner.right, outer.right].map(|x| whole(x, columns));
    let [top, inner_top, inner_bottom, bottom] =
        [outer.top, inner.top, inner.bottom, outer.bottom].map(|y| whole(y, rows));
    // Where each leg lies, with the whole of its mitres.
    let rails = [
        (left..inner_left, top..bottom),
        (left..right, top..inner_top),
        (inner_right..right, top..bottom),
        (left..right, inner_bottom..bottom),
    ];
    let data = canvas.data_mut();
    for (side, (columns, rows)) in rails.into_iter().enumerate() {
        let seed = look.seed.wrapping_mul(4).wrapping_add(u32::try_from(side).unwrap_or(0));
        let texture = Rail { surface: look.surface, scale, seed };
        let is_upright = side % 2 == 0;
        let (lines, along) = if is_upright { (columns, rows) } else { (rows, columns) };
        let place = |line: u32, along: u32| if is_upright { (line, along) } else { (along, line) };
        // How far across each of the legs: the nearest outer edge, by the mitre, is the leg's own.
        let shares = |line: u32, along: u32| {
            let (x, y) = place(line, along);
            let (x, y) = (pixels(x) + 0.5, pixels(y) + 0.5);
            let inwards = [x - outer.left, y - outer.top, outer.right - x, outer.bottom - y];
            std::array::from_fn::<f32, 4, _>(|side| inwards[side] / widths[side])
        };
        for line in lines {
            let is_own = |along: &u32| {
                let shares = shares(line, *along);
                (0..4).all(|other| match other.cmp(&side) {
                    Ordering::Less => shares[other] > shares[side],
                    _ => shares[other] >= shares[side],
                })
            };
            // Of a line across the face what lies between the mitres.
            let Some(first) = along.clone().find(is_own) else { continue };
            let end = along.clone().rev().find(is_own).map_or(first, |last| last + 1);
            let share = shares(line, first)[side];
            let (light, gloss) = lit.at(side, share);
            let across = share * widths[side] / scale;
            let mut from = pixels(first) + f32x4::new([0.5, 1.5, 2.5, 3.5]);
            for start in (first..end).step_by(4) {
                let light = texture.at(from / scale, across) * light;
                from += 4.0;
                let codes = base.map(|(own, mirrored)| encoder.codes(light * own + gloss * mirrored));
                for (at, along) in (start..end).take(4).enumerate() {
                    let (column, row) = place(line, along);
                    let pixel = (row as usize * stride as usize + column as usize) * 4;
                    data[pixel..pixel + 3].copy_from_slice(&codes.map(|codes| codes[at]));
                }
            }
        }
    }
}
