//! A moulding: its face lit along the four mitred rails, each with the grain of its own stick.

use super::light::Lamp;
use super::piece::Edges;
use super::projection::pixels;
use super::texture;
use crate::colour::{Colour, decode, encode};
use crate::framing::face::line;
use crate::plan::{FaceShape, Surface};
use tiny_skia::PixmapMut;

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

/// Light and gloss at so many places across the face of each rail, for pixels of the width that they have.
struct Lit([Vec<(f32, f32)>; 4]);

const PLACES: usize = 64;
/// The same, for reckoning.
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

/// Draws a moulding between its outer edge and its sight edge; `scale` is in pixels to the inch.
pub(super) fn draw(
    canvas: &mut PixmapMut<'_>,
    outer: Edges,
    inner: Edges,
    look: &Look,
    lamp: &Lamp,
    scale: f32,
) {
    let face = Face::of(look);
    let base = [look.colour.red, look.colour.green, look.colour.blue].map(decode);
    let widths = [
        inner.left - outer.left,
        inner.top - outer.top,
        outer.right - inner.right,
        outer.bottom - inner.bottom,
    ]
    .map(|width| width.max(0.01));
    let lit = Lit::of(&face, widths, look, lamp);
    let (columns, rows) = (canvas.width(), canvas.height());
    let overlap = |from: f32, low: f32, high: f32| ((from + 1.0).min(high) - from.max(low)).clamp(0.0, 1.0);
    let data = canvas.data_mut();
    for row in 0..rows {
        let y = pixels(row) + 0.5;
        let open_down = overlap(pixels(row), inner.top, inner.bottom);
        for column in 0..columns {
            let open = open_down * overlap(pixels(column), inner.left, inner.right);
            if open >= 1.0 {
                continue;
            }
            let x = pixels(column) + 0.5;
            // How far across each of the rails: the nearest outer edge, by the mitre, is the rail's own.
            let shares = [
                (x - outer.left) / widths[0],
                (y - outer.top) / widths[1],
                (outer.right - x) / widths[2],
                (outer.bottom - y) / widths[3],
            ];
            let mut side = 0;
            for other in 1..4 {
                if shares[other] < shares[side] {
                    side = other;
                }
            }
            let (share, width) = (shares[side], widths[side]);
            let along = (if side % 2 == 0 { y } else { x }) / scale;
            let across = share * width / scale;
            let seed = look.seed.wrapping_mul(4).wrapping_add(u32::try_from(side).unwrap_or(0));
            let texture = match look.surface {
                Surface::Grain => texture::grain(along, across, scale, seed),
                Surface::Paint => texture::paint(along, across, seed),
                Surface::Metal => texture::brushed(along, across, scale, seed),
                Surface::Gilt => texture::leaf(along, across, seed),
            };
            let (light, gloss) = lit.at(side, share);
            let light = light * texture;
            let at = (row as usize * columns as usize + column as usize) * 4;
            for (channel, &own) in data[at..at + 3].iter_mut().zip(&base) {
                // Metal and leaf mirror in their own colour, paint and wax in white.
                let mirrored =
                    if matches!(look.surface, Surface::Metal | Surface::Gilt) { own * 2.5 } else { 1.0 };
                let lit = (own * light + gloss * mirrored).clamp(0.0, 1.0);
                *channel = if open > 0.0 {
                    encode(lit * (1.0 - open) + decode(*channel) * open)
                } else {
                    encode(lit)
                };
            }
        }
    }
}
