//! The pieces of a plan in a photograph of a room: where they would hang, in its perspective, its light and its sharpness.

use super::camera::Camera;
use super::light::{WallLight, grown_by, is_within};
use super::room::{LightFrom, Room};
use crate::colour::{Encoder, decode_table};
use crate::draw::{self, LoadedPicture, Painter, Sheet, Side};
use crate::length::Length;
use crate::resample::Raster;
use crate::scene::{Flanks, Layer, Scene, ScenicPiece};
use kurbo::Point;
use nalgebra::Vector3;
use std::ops::Range;

mod lit;
use lit::{Lit, grain, with_grain};

pub(crate) const MM_PER_INCH: f64 = 25.4;

/// Where a plan's wall is in a photograph: its lower left corner, in millimetres to the right of the middle of the sheet and above it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hung {
    /// To the right.
    pub right_mm: f64,
    /// Above.
    pub up_mm: f64,
}

/// A photograph that pieces are drawn into.
pub struct InRoom {
    camera: Camera,
    /// The light on its wall.
    pub light: WallLight,
    photograph: Raster,
    /// The photograph without its sheet.
    bare: Vec<u8>,
    /// What stands before the wall: 255 where it hides what hangs there.
    before: Vec<u8>,
    side: Side,
    painter: Painter,
    drawn: Vec<u8>,
    /// What of the drawing differs from the bare photograph.
    touched: Option<Area>,
}

impl std::fmt::Debug for InRoom {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "InRoom({} x {})", self.photograph.width_px(), self.photograph.height_px())
    }
}

/// A finished drawing.
#[derive(Clone, Copy, Debug)]
pub struct Drawn<'a> {
    /// sRGB, four bytes a pixel.
    pub pixels: &'a [u8],
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// What of it differs from the drawing before: left, top, right and bottom in whole pixels; none where that may be all.
    pub changed: Option<[usize; 4]>,
}

/// Columns and rows of pixels.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Area {
    columns: Range<usize>,
    rows: Range<usize>,
}

impl Area {
    fn meets(&self, other: &Self) -> bool {
        let meet = |one: &Range<usize>, other: &Range<usize>| one.start < other.end && other.start < one.end;
        meet(&self.columns, &other.columns) && meet(&self.rows, &other.rows)
    }

    fn union(self, other: Self) -> Self {
        let with =
            |one: Range<usize>, other: Range<usize>| one.start.min(other.start)..one.end.max(other.end);
        Self { columns: with(self.columns, other.columns), rows: with(self.rows, other.rows) }
    }
}

impl InRoom {
    /// Makes a photograph ready: its light, itself without the sheet that lies between four corners, and what stands before the wall. What is
    /// painted by hand is marked in another size of it, so many times smaller.
    #[must_use]
    pub fn new(photograph: Raster, corners: [Point; 4], camera: Camera, room: &Room, scale: f64) -> Self {
        let light = WallLight::of(&photograph, corners, &camera);
        let bare = without_sheet(&photograph, corners, &light);
        let mut before = if room.finds_before {
            super::before::found(&photograph, &bare, corners, &light)
        } else {
            vec![0; bare.len() / 4]
        };
        for stroke in &room.strokes {
            super::before::paint(&mut before, &photograph, &light, stroke, scale);
        }
        let side = side_of(&light, room.light_from);
        let drawn = bare.clone();
        Self {
            camera,
            light,
            photograph,
            bare,
            before,
            side,
            painter: Painter::default(),
            drawn,
            touched: None,
        }
    }

    /// The photograph's size in pixels.
    #[must_use]
    pub fn size_px(&self) -> (u32, u32) {
        (self.photograph.width_px(), self.photograph.height_px())
    }

    /// Draws the pieces of a scene; sRGB, four bytes a pixel.
    pub fn draw(
        &mut self,
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        hung: Hung,
        in_motion: bool,
    ) -> Drawn<'_> {
        let changed = self.paint(scene, copies, hung, in_motion);
        let (width, height) = self.size_px();
        let sides = |Area { columns, rows }: Area| [columns.start, rows.start, columns.end, rows.end];
        Drawn { pixels: &self.drawn, width, height, changed: changed.map(sides) }
    }

    /// The same; what differs from the drawing before, or none where there was none.
    fn paint(
        &mut self,
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        hung: Hung,
        in_motion: bool,
    ) -> Option<Area> {
        let (width, height) = self.size_px();
        let before = self.touched.take();
        if let Some(area) = before.clone() {
            copy(&mut self.drawn, &self.bare, &area, width as usize);
        }
        let sheet = Sheet { in_motion, ..Sheet::new(width, height) };
        let scene = &matt(scene);
        let camera = through(&self.camera, hung);
        let Some(pieces) = self.painter.draw_through((camera, &self.side), scene, copies, &sheet) else {
            return before;
        };
        let mut touched: Option<Area> = None;
        let all = Area { columns: 0..width as usize, rows: 0..height as usize };
        // Where two pieces are near each other in the photograph, they are laid on it together: each pixel once.
        let mut areas: Vec<Area> = Vec::new();
        for piece in &scene.pieces {
            let seen = Seen::of(piece, &self.camera, hung, &self.side);
            let Some(area) = seen.area(&all) else { continue };
            shade(&mut self.drawn, width as usize, &area, &seen, &self.camera, self.side);
            touched = Some(touched.map_or(area.clone(), |before| before.union(area)));
            let Some(mut body) = seen.body(&all) else { continue };
            while let Some(index) = areas.iter().position(|other| other.meets(&body)) {
                body = body.union(areas.swap_remove(index));
            }
            areas.push(body);
        }
        for area in areas {
            let lit = Lit { light: &self.light, width: width as usize };
            lit.lay(&mut self.drawn, pieces.data(), &area);
        }
        if let Some(area) = &touched {
            put_before(&mut self.drawn, &self.photograph, &self.before, area);
        }
        let changed = match (before, touched.clone()) {
            (Some(before), Some(now)) => Some(before.union(now)),
            (one, _) => one,
        };
        self.touched = touched;
        changed
    }
}

/// How much light paper reflects: office paper 0.8 to 0.9 (from memory). A picture's white is taken to be as white as the sheet, and other
/// colours to be what they reflect.
const PAPER: f32 = 0.88;

/// A scene in reflected light against that of paper, without lights that a drawing puts on glass and varnish: none of them is known here.
fn matt(scene: &Scene) -> Scene {
    let mut scene = scene.clone();
    for piece in &mut scene.pieces {
        piece.layers.retain(|layer| !matches!(layer, Layer::Face { .. }));
        for layer in &mut piece.layers {
            if let Layer::Flat { colour, .. } | Layer::Board { colour, .. } | Layer::Moulding { colour, .. } =
                layer
            {
                *colour = colour.lit(1.0 / PAPER);
            }
        }
        if let Flanks::Plain(colour) | Flanks::Metal(colour) = &mut piece.flanks {
            *colour = colour.lit(1.0 / PAPER);
        }
    }
    scene
}

/// The camera as drawing has it: in inches from the lower left corner of the plan's wall.
fn through(camera: &Camera, hung: Hung) -> draw::Camera {
    let eye = (camera.eye() - Vector3::new(hung.right_mm, hung.up_mm, 0.0)) / MM_PER_INCH;
    let axis = |row: usize, sign: f64| [0, 1, 2].map(|column| camera.rotation[(row, column)] * sign);
    draw::Camera {
        eye: [eye.x, eye.y, eye.z],
        axes: [axis(0, 1.0), axis(1, -1.0), axis(2, 1.0)],
        focal: camera.focal_px,
        sight: camera.middle,
        radial: camera.radial,
    }
}

/// From where the light comes: as stated, or from the brighter side and somewhat from above, as most light in rooms does.
fn side_of(light: &WallLight, stated: Option<LightFrom>) -> Side {
    let [right, up] = light.falls_off;
    let strength = (right * right + up * up).sqrt();
    let lean = |part: f64| narrow((part * 1.2).clamp(-0.8, 0.8));
    let seen = (lean(-right), 0.35 + lean(up).max(-0.2) * 0.5);
    let share = narrow((0.3 + 0.3 * strength).min(0.6));
    let (fall, share) = match stated {
        None => (seen, share),
        Some(LightFrom::Left) => ((0.7, 0.2), 0.45),
        Some(LightFrom::Right) => ((-0.7, 0.2), 0.45),
        Some(LightFrom::Above) => ((0.0, 0.8), 0.45),
        Some(LightFrom::Below) => ((0.0, -0.5), 0.4),
        Some(LightFrom::Around) => ((0.0, 0.15), 0.25),
    };
    Side { fall, softness: 0.55, share }
}

/// A piece on the wall of a photograph.
struct Seen {
    /// Left, bottom, right, top, in millimetres from the middle of the sheet.
    outside: [f64; 4],
    depth: f64,
    radius: f64,
    /// Where the outlines of its front and of its shadow are seen.
    body: Option<[f64; 4]>,
    shadow: Option<[f64; 4]>,
    rises: [f64; 2],
    spread: f64,
    /// How soft the shadow is that the light of the room casts.
    near: f64,
}

impl Seen {
    fn of(piece: &ScenicPiece, camera: &Camera, hung: Hung, side: &Side) -> Self {
        let mm = |length: Length| length.to_mm();
        let left = mm(piece.outside.x) + hung.right_mm;
        let foot = mm(piece.outside.y) + hung.up_mm;
        let outside = [left, foot, left + mm(piece.outside.size.width), foot + mm(piece.outside.size.height)];
        let depth = mm(piece.depth);
        let lifted = depth + mm(piece.stand_off);
        let rises = [lifted * f64::from(side.fall.0), -lifted * f64::from(side.fall.1)];
        let spread = (lifted * f64::from(side.softness)).max(2.0);
        let spots = |[left, foot, right, top]: [f64; 4], outs: &[f64]| {
            let mut bounds = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
            for &out in outs {
                // Along the edges, too: a lens bends them outwards.
                for step in 0..=8_u8 {
                    let share = f64::from(step) / 8.0;
                    let (x, y) = (left + (right - left) * share, foot + (top - foot) * share);
                    for place in [[x, foot], [x, top], [left, y], [right, y]] {
                        let seen = camera.pixel(Vector3::new(place[0], place[1], out))?;
                        bounds = [
                            bounds[0].min(seen.x),
                            bounds[1].min(seen.y),
                            bounds[2].max(seen.x),
                            bounds[3].max(seen.y),
                        ];
                    }
                }
            }
            Some(bounds)
        };
        let far = 3.0 * spread + 0.6 * depth;
        let shadow = [
            outside[0] - far + rises[0].min(0.0),
            outside[1] - far + rises[1].min(0.0),
            outside[2] + far + rises[0].max(0.0),
            outside[3] + far + rises[1].max(0.0),
        ];
        Self {
            outside,
            depth,
            radius: mm(piece.corner_radius),
            body: spots(outside, &[mm(piece.stand_off), depth]),
            shadow: spots(shadow, &[0.0]),
            rises,
            spread,
            near: (depth * 0.3).max(2.0),
        }
    }

    /// The pixels of the piece itself.
    fn body(&self, all: &Area) -> Option<Area> {
        self.body.and_then(|bounds| pixels(bounds, 4.0, all))
    }

    /// The pixels of the piece and its shadow.
    fn area(&self, all: &Area) -> Option<Area> {
        let shadow = self.shadow.and_then(|bounds| pixels(bounds, 1.0, all));
        match (shadow, self.body(all)) {
            (Some(shadow), Some(body)) => Some(shadow.union(body)),
            (one, other) => one.or(other),
        }
    }

    /// Whether a place on the wall is certainly hidden by the piece: seen as far aside as its front may be, less than half a right angle.
    fn is_behind(&self, x: f64, y: f64) -> bool {
        let [left, foot, right, top] = self.outside;
        let spare = self.depth + self.radius + 2.0;
        x > left + spare && x < right - spare && y > foot + spare && y < top - spare
    }

    /// How much light of the side a place on the wall loses, and of the light of the room.
    fn dark(&self, x: f64, y: f64) -> (f64, f64) {
        let [left, foot, right, top] = self.outside;
        let cover = |[dx, dy]: [f64; 2], spread: f64| {
            // The integral of a bell, as near as a cubic has it.
            let steep = 0.25 / spread;
            let ramp = |from_edge: f64| {
                let share = (from_edge * steep + 0.5).clamp(0.0, 1.0);
                share * share * (3.0 - 2.0 * share)
            };
            let across = ramp(x - left - dx) * ramp(right + dx - x);
            if across > 0.0 { across * ramp(y - foot - dy) * ramp(top + dy - y) } else { 0.0 }
        };
        (cover(self.rises, self.spread), cover([0.0; 2], self.near))
    }
}

/// Whole pixels round some bounds, with some to spare, as far as they are within a sheet.
fn pixels([left, top, right, bottom]: [f64; 4], spare: f64, all: &Area) -> Option<Area> {
    let hold = |at: f64, range: &Range<usize>| {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the sheet")]
        let at = at.clamp(0.0, 100_000.0) as usize;
        at.clamp(range.start, range.end)
    };
    let columns = hold(left - spare, &all.columns)..hold(right + spare + 1.0, &all.columns);
    let rows = hold(top - spare, &all.rows)..hold(bottom + spare + 1.0, &all.rows);
    (!columns.is_empty() && !rows.is_empty()).then_some(Area { columns, rows })
}

/// Pixels between places that are worked out; between them they are taken as even.
const LATTICE: usize = 8;

/// Takes a piece's shadow from the light of the wall.
fn shade(drawn: &mut [u8], width: usize, area: &Area, seen: &Seen, camera: &Camera, side: Side) {
    let (table, encoder) = (decode_table(), Encoder::new());
    let across = area.columns.len().div_ceil(LATTICE) + 1;
    let down = area.rows.len().div_ceil(LATTICE) + 1;
    #[expect(clippy::cast_precision_loss, reason = "pixels")]
    let corner = |index: usize, start: usize| (start + index * LATTICE) as f64 + 0.5;
    let mut places = Vec::with_capacity(across * down);
    for row in 0..down {
        for column in 0..across {
            let pixel = Point::new(corner(column, area.columns.start), corner(row, area.rows.start));
            places.push(camera.place(pixel, 0.0).map_or([f64::NAN; 2], |place| [place.x, place.y]));
        }
    }
    const ROOM: f64 = 0.22;
    let share = f64::from(side.share);
    let weights: [f64; LATTICE] = std::array::from_fn(|index| {
        #[expect(clippy::cast_precision_loss, reason = "less than a step")]
        let weight = index as f64 / LATTICE as f64;
        weight
    });
    for (row, y) in area.rows.clone().enumerate() {
        let below = weights[row % LATTICE];
        let first = row / LATTICE * across;
        let between = |index: usize| {
            let (upper, lower) = (places[first + index], places[first + across + index]);
            [0, 1].map(|axis| upper[axis] + (lower[axis] - upper[axis]) * below)
        };
        let start = (y * width + area.columns.start) * 4;
        let line = drawn[start..start + area.columns.len() * 4].as_chunks_mut::<4>().0;
        for (cell, line) in line.chunks_mut(LATTICE).enumerate() {
            let (from, to) = (between(cell), between(cell + 1));
            // What is straight between two places behind the piece is behind it.
            if [from, to].iter().all(|[x, y]| seen.is_behind(*x, *y)) {
                continue;
            }
            for (beside, pixel) in weights.iter().zip(line) {
                let [x, y] = [0, 1].map(|axis| from[axis] + (to[axis] - from[axis]) * beside);
                if seen.is_behind(x, y) {
                    continue;
                }
                let (aside, room) = seen.dark(x, y);
                let left = narrow((1.0 - share * aside) * (1.0 - ROOM * room));
                if left < 0.998 {
                    for channel in &mut pixel[..3] {
                        *channel = encoder.code(table[usize::from(*channel)] * left);
                    }
                }
            }
        }
    }
}

/// Puts what stands before the wall over what hangs on it.
fn put_before(drawn: &mut [u8], photograph: &Raster, before: &[u8], area: &Area) {
    let (table, encoder) = (decode_table(), Encoder::new());
    let width = photograph.width_px() as usize;
    for y in area.rows.clone() {
        for x in area.columns.clone() {
            let index = y * width + x;
            let cover = before[index];
            if cover == 0 {
                continue;
            }
            let share = f32::from(cover) / 255.0;
            let own = &photograph.pixels()[index * 4..index * 4 + 3];
            for (channel, own) in drawn[index * 4..index * 4 + 3].iter_mut().zip(own) {
                let [own_light, below] = [*own, *channel].map(|code| table[usize::from(code)]);
                *channel = if cover == u8::MAX {
                    *own
                } else {
                    encoder.code(own_light * share + below * (1.0 - share))
                };
            }
        }
    }
}

/// The photograph with wall in place of the sheet and of its tape.
fn without_sheet(photograph: &Raster, corners: [Point; 4], light: &WallLight) -> Vec<u8> {
    let mut bare = photograph.pixels().to_vec();
    let encoder = Encoder::new();
    let (width, height) = (photograph.width_px() as usize, photograph.height_px() as usize);
    let long = (corners[2] - corners[0]).hypot2().sqrt();
    // Strips of tape reach out by about a tenth of a sheet, its shadow by less.
    let (inner, outer) = (grown_by(corners, long * 0.03 + 2.0), grown_by(corners, long * 0.16 + 4.0));
    let all = Area { columns: 0..width, rows: 0..height };
    let bounds =
        outer.iter().fold([f64::INFINITY, f64::INFINITY, 0.0, 0.0], |[left, top, right, bottom], at| {
            [at.x.min(left), at.y.min(top), at.x.max(right), at.y.max(bottom)]
        });
    let Some(area) = pixels(bounds, 0.0, &all) else { return bare };
    for y in area.rows {
        for x in area.columns.clone() {
            #[expect(clippy::cast_precision_loss, reason = "pixels")]
            let at = Point::new(x as f64 + 0.5, y as f64 + 0.5);
            let is_sheet = is_within(at, &inner);
            // Round it, what is not like the wall is tape.
            if !is_sheet && (!is_within(at, &outer) || light.is_wall(x, y)) {
                continue;
            }
            let noise = grain(x, y);
            let index = (y * width + x) * 4;
            for (channel, own) in bare[index..index + 3].iter_mut().zip(light.wall(at)) {
                let code = encoder.code(own);
                *channel = with_grain(code, noise * light.grain.at(code));
            }
        }
    }
    bare
}

/// Copies an area of one picture into another.
fn copy(to: &mut [u8], from: &[u8], area: &Area, width: usize) {
    for row in area.rows.clone() {
        let pixels = (row * width + area.columns.start) * 4..(row * width + area.columns.end) * 4;
        to[pixels.clone()].copy_from_slice(&from[pixels]);
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a share keeps 24 bits")]
fn narrow(value: f64) -> f32 {
    value as f32
}
