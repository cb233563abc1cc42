//! The painter: it draws a scene, and keeps what it can use again.

use super::lettering::Lettering;
use super::light::Lamp;
use super::oblique::camera::Camera;
use super::pixel_rect::PixelRect;
use super::projection::{self, Projection, Snapped};
use super::rows::{copy_rows, restore};
use super::sheet::{LoadedPicture, MOST_SIDE_PX, Mark, Sheet, View};
use super::{brush, corner, lines, oblique, piece, room, shadow};
use crate::colour::Colour;
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::plan::{Lighting, Wall};
use crate::scene::{Layer, Scene, ScenicFigure, ScenicFixture, ScenicPiece};
use tiny_skia::{Pixmap, PixmapMut, PixmapRef};

/// A finished drawing.
#[derive(Debug)]
pub struct Drawing<'a> {
    /// sRGB, four bytes a pixel, opaque.
    pub pixels: &'a [u8],
    /// The figures that are fields.
    pub marks: Vec<Mark>,
    /// What may differ from the drawing before, in whole pixels; none when all of it may.
    pub changed: Option<Vec<PixelRect>>,
    /// All lines and figures, in the inks they are drawn in.
    pub lines: lines::Placed,
    /// How lengths became pixels.
    pub projection: Projection,
}

/// A piece that would have more pixels than so many sheets is only toned: it is far larger than its wall, and a plan from
/// elsewhere must not ask for more memory than there is.
const MOST_SHEETS_A_PIECE: u64 = 4;

/// Draws scenes, keeping what can be used again.
///
/// ```
/// use overmantel::draw::{Painter, Sheet};
/// use overmantel::{figures::Figures, plan::Plan, scene::scene};
///
/// let plan = Plan::starting();
/// let scene = scene(&plan, &Figures::of(&plan)?);
/// let (mut painter, sheet) = (Painter::default(), Sheet::new(320, 240));
/// let first = painter.draw(&scene, &[], &sheet).pixels.to_vec();
/// assert_eq!(first.len(), 320 * 240 * 4);
/// // What it keeps makes the next drawing faster, and never another.
/// assert!(painter.draw(&scene, &[], &sheet).pixels == first);
/// # Ok::<(), overmantel::figures::NoAnswer>(())
/// ```
#[derive(Default)]
pub struct Painter {
    canvas: Option<Pixmap>,
    room: Option<(RoomKey, Pixmap)>,
    pub(super) pieces: Vec<(PieceKey, Pixmap)>,
    pub(super) lettering: Lettering,
    /// What of the canvas differs from the room; none when that is not known.
    touched: Option<Vec<PixelRect>>,
}

impl std::fmt::Debug for Painter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Painter({} pieces kept)", self.pieces.len())
    }
}

/// What the picture of the room depends on.
#[derive(PartialEq)]
struct RoomKey {
    wall: Wall,
    fixtures: Vec<ScenicFixture>,
    figure: Option<ScenicFigure>,
    projection: Projection,
    sheet: Colour,
    size: (u32, u32),
    light: Lighting,
}

/// What the picture of a piece depends on.
#[derive(PartialEq)]
pub(super) struct PieceKey {
    layers: Vec<Layer>,
    /// Its pixels, wherever they are.
    at: Snapped,
    /// Whether it is far larger than the sheet, and has no picture of its own.
    is_toned: bool,
    scale: f32,
    lamp: Lamp,
    revisions: Vec<u64>,
}

impl PieceKey {
    /// Whether it is the same but for a part of a pixel.
    #[expect(clippy::float_cmp, reason = "the very same scale, not one near to it")]
    fn is_like(&self, other: &Self) -> bool {
        let near = |one: u32, two: u32| one.abs_diff(two) <= 1;
        let (one, two) = (self.at.rect.size_px(), other.at.rect.size_px());
        near(one.0, two.0)
            && near(one.1, two.1)
            && self.is_toned == other.is_toned
            && self.scale == other.scale
            && self.lamp == other.lamp
            && self.revisions == other.revisions
            && self.layers == other.layers
    }
}

impl Painter {
    /// Draws a scene. `copies` has a place for each picture of the plan; a picture without a copy is a toned sheet.
    pub fn draw(&mut self, scene: &Scene, copies: &[Option<&LoadedPicture>], sheet: &Sheet) -> Drawing<'_> {
        let projection = Projection::fit(scene, sheet);
        if sheet.view == View::Oblique {
            return self.draw_oblique(scene, copies, sheet, projection);
        }
        self.keep_room(scene, sheet, projection);
        let place = |piece: &ScenicPiece| (projection.on_pixels(piece.outside), projection.scale);
        self.keep_pieces(scene, copies, sheet, place, Lamp::of(scene.light));
        self.keep_canvas(sheet);
        let mut changed = None;
        let mut lines = lines::Placed::default();
        if let (Some(canvas), Some((_, room))) = (self.canvas.as_mut(), self.room.as_ref()) {
            let restored = self.touched.take();
            let lamp = Lamp::of(scene.light);
            let canvas = &mut canvas.as_mut();
            let placed: Vec<PixelRect<i64>> = scene
                .pieces
                .iter()
                .zip(&self.pieces)
                .map(|(piece, (key, _))| {
                    projection.on_pixels(piece.outside).rect.sized(key.at.rect.size_px())
                })
                .collect();
            match &restored {
                Some(touched) => {
                    let covered: Vec<PixelRect<i64>> = scene
                        .pieces
                        .iter()
                        .zip(&placed)
                        .zip(&self.pieces)
                        .filter(|((piece, _), (key, _))| piece.corner_radius <= Length::ZERO && !key.is_toned)
                        .map(|((_, at), _)| *at)
                        .collect();
                    touched.iter().for_each(|&area| restore(canvas, room.as_ref(), area, &covered));
                }
                None => canvas.data_mut().copy_from_slice(room.data()),
            }
            let mut touched = Vec::new();
            let by = (scene.wall.size, projection, &lamp);
            hang(canvas, &scene.pieces, &placed, &self.pieces, by, &mut touched);
            if sheet.lines {
                lines = lines::draw(canvas, scene, sheet, projection, &mut self.lettering, &mut touched);
            }
            let touched = merged(touched.into_iter());
            changed = restored.map(|before| merged(before.into_iter().chain(touched.iter().copied())));
            self.touched = Some(touched);
        }
        let pixels = self.canvas.as_ref().map_or(&[][..], |canvas| canvas.data());
        Drawing { pixels, marks: lines.marks(), lines, changed, projection }
    }

    #[inline(never)]
    fn draw_oblique(
        &mut self,
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        sheet: &Sheet,
        projection: Projection,
    ) -> Drawing<'_> {
        let lamp = Lamp::of(scene.light).white();
        let scene = &without_hints(scene);
        let view = oblique::Oblique::of(scene, sheet);
        self.keep_fronts(&view, scene, copies, sheet, lamp, |scale| scale);
        self.keep_canvas(sheet);
        self.touched = None;
        if let Some(canvas) = self.canvas.as_mut() {
            let fronts = fronts(&self.pieces);
            view.draw(&mut canvas.as_mut(), &fronts, copies);
        }
        let pixels = self.canvas.as_ref().map_or(&[][..], |canvas| canvas.data());
        Drawing { pixels, marks: Vec::new(), lines: lines::Placed::default(), changed: None, projection }
    }

    /// Makes the pictures of the pieces' fronts as a view needs them.
    fn keep_fronts(
        &mut self,
        view: &oblique::Oblique<'_>,
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        sheet: &Sheet,
        lamp: Lamp,
        scale: impl Fn(f32) -> f32,
    ) {
        let place = |piece: &ScenicPiece| {
            let scale = scale(view.scale(piece));
            (Snapped::alone(piece.outside.size, scale), scale)
        };
        self.keep_pieces(scene, copies, sheet, place, lamp);
    }

    /// Draws the pieces of a scene alone, as a camera sees them, in white light from a side: codes multiplied by their cover, on a sheet
    /// of this size. None where there is no room for so many pixels.
    pub(crate) fn draw_through(
        &mut self,
        (camera, side): (Camera, &Side),
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        sheet: &Sheet,
    ) -> Option<&Pixmap> {
        let lamp = Lamp::from_aside(side.fall, side.softness, side.share);
        let scene = &without_hints(scene);
        let view = oblique::Oblique::through(camera, lamp, scene, sheet);
        self.keep_fronts(&view, scene, copies, sheet, lamp, in_steps);
        self.keep_canvas(sheet);
        self.touched = None;
        let canvas = self.canvas.as_mut()?;
        canvas.fill(tiny_skia::Color::TRANSPARENT);
        view.draw_pieces(&mut canvas.as_mut(), &fronts(&self.pieces), copies);
        self.canvas.as_ref()
    }

    fn keep_canvas(&mut self, sheet: &Sheet) {
        let size = (sheet.width_px.clamp(1, MOST_SIDE_PX), sheet.height_px.clamp(1, MOST_SIDE_PX));
        if self.canvas.as_ref().is_none_or(|kept| (kept.width(), kept.height()) != size) {
            self.canvas = Pixmap::new(size.0, size.1);
            self.touched = None;
        }
    }

    #[inline(never)]
    fn keep_room(&mut self, scene: &Scene, sheet: &Sheet, projection: Projection) {
        let key = RoomKey {
            wall: scene.wall.clone(),
            fixtures: scene.fixtures.clone(),
            figure: scene.figure,
            projection,
            sheet: sheet.theme.sheet,
            size: (sheet.width_px.clamp(1, MOST_SIDE_PX), sheet.height_px.clamp(1, MOST_SIDE_PX)),
            light: scene.light,
        };
        if self.room.as_ref().is_some_and(|(kept, _)| *kept == key) {
            return;
        }
        self.touched = None;
        let pixmap = self.room.take().map(|(_, pixmap)| pixmap);
        let reusable = pixmap.filter(|kept| (kept.width(), kept.height()) == key.size);
        self.room = reusable.or_else(|| Pixmap::new(key.size.0, key.size.1)).map(|mut pixmap| {
            room::draw(&mut pixmap.as_mut(), scene, sheet.theme.sheet, projection);
            (key, pixmap)
        });
    }

    #[inline(never)]
    pub(super) fn keep_pieces(
        &mut self,
        scene: &Scene,
        copies: &[Option<&LoadedPicture>],
        sheet: &Sheet,
        place: impl Fn(&ScenicPiece) -> (Snapped, f32),
        lamp: Lamp,
    ) {
        let mut kept = std::mem::take(&mut self.pieces);
        for stated in &scene.pieces {
            let key = piece_key(stated, copies, sheet, place(stated), lamp);
            let same = kept.iter().position(|(known, _)| *known == key);
            // What is dragged keeps its pixels, and lies up to one of them off until it is let go.
            let alike = || kept.iter().position(|(known, _)| known.is_like(&key));
            let same = same.or_else(|| if sheet.in_motion { alike() } else { None });
            let made = match same {
                Some(index) => kept.swap_remove(index),
                None => {
                    let size_px = if key.is_toned { (1, 1) } else { key.at.rect.size_px() };
                    let at = Snapped { rect: PixelRect::of_size(size_px), ..key.at };
                    let pixmap = piece::draw(stated, copies, at, key.scale, &lamp);
                    (key, pixmap)
                }
            };
            self.pieces.push(made);
        }
    }
}

/// Where light comes from, before a wall that was photographed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Side {
    /// How far a shadow falls to the right and down, for each unit of depth.
    pub(crate) fall: (f32, f32),
    /// How soft its edge is, for each unit of depth.
    pub(crate) softness: f32,
    /// The share of light that comes from there.
    pub(crate) share: f32,
}

/// A scale, or somewhat more: a piece that is moved in a photograph, and comes a little nearer, keeps the picture that it has.
fn in_steps(scale: f32) -> f32 {
    const STEP: f32 = 1.125;
    let mut stepped = 0.25;
    while stepped < scale {
        stepped *= STEP;
    }
    stepped
}

/// Edges that are seen from the side need no hint of themselves on the front.
fn without_hints(scene: &Scene) -> Scene {
    let mut scene = scene.clone();
    for piece in &mut scene.pieces {
        piece.layers.retain(|layer| !matches!(layer, Layer::Edge { .. }));
    }
    scene
}

fn fronts(pieces: &[(PieceKey, Pixmap)]) -> Vec<PixmapRef<'_>> {
    pieces.iter().map(|(_, picture)| picture.as_ref()).collect()
}

/// Puts pieces with their shadows on a wall of this size. What may have changed is added to `touched`.
pub(super) fn hang(
    canvas: &mut PixmapMut<'_>,
    pieces: &[ScenicPiece],
    placed: &[PixelRect<i64>],
    pictures: &[(PieceKey, Pixmap)],
    (wall, projection, lamp): (Size, Projection, &Lamp),
    touched: &mut Vec<PixelRect>,
) {
    for (piece, &at) in pieces.iter().zip(placed) {
        touched.push(shadow::cast(canvas, piece, at, wall, projection, lamp));
    }
    for ((piece, at), (key, picture)) in pieces.iter().zip(placed).zip(pictures) {
        let corner = (at.left, at.top);
        touched.push(if key.is_toned {
            tone(canvas, piece.outside, projection)
        } else {
            let radius = projection.length(piece.corner_radius);
            let corners = corner::blended(canvas, picture.as_ref(), corner, radius);
            let area = copy_in(canvas, picture.as_ref(), corner);
            corner::put(canvas, &corners);
            area
        });
    }
}

fn piece_key(
    piece: &ScenicPiece,
    copies: &[Option<&LoadedPicture>],
    sheet: &Sheet,
    (at, scale): (Snapped, f32),
    lamp: Lamp,
) -> PieceKey {
    let pixels = |(width, height): (u32, u32)| u64::from(width) * u64::from(height);
    let revisions = piece
        .layers
        .iter()
        .filter_map(|layer| match layer {
            Layer::Picture { shows: Some((index, _)), .. } => {
                Some(copies.get(*index).copied().flatten().map_or(0, |copy| copy.revision))
            }
            _ => None,
        })
        .collect();
    PieceKey {
        layers: piece.layers.clone(),
        at: Snapped { rect: at.rect.at_corner(), ..at },
        is_toned: pixels(at.rect.size_px()) > MOST_SHEETS_A_PIECE * pixels((sheet.width_px, sheet.height_px)),
        scale,
        lamp,
        revisions,
    }
}

/// Copies an opaque picture into another with its corner there, row by row, as far as it falls within. Returns where.
fn copy_in(canvas: &mut PixmapMut<'_>, picture: PixmapRef<'_>, corner: (i64, i64)) -> PixelRect {
    let (width, height) = (picture.width(), picture.height());
    let area = PixelRect::from_xywh(corner.0, corner.1, width.into(), height.into());
    copy_rows(canvas, picture, area, corner);
    PixelRect::from_xywh(real(corner.0), real(corner.1), real(width.into()), real(height.into()))
}

/// Tones what of a rectangle on the wall is on the canvas. Returns where.
fn tone(canvas: &mut PixmapMut<'_>, outside: Rect, projection: Projection) -> PixelRect {
    let within = |at: f32, most: u32| at.clamp(0.0, projection::pixels(most)).round();
    let (x, right) = (projection.x(outside.x), projection.x(outside.right()));
    let (y, bottom) = (projection.y(outside.top()), projection.y(outside.y));
    let (left, right) = (within(x, canvas.width()), within(right, canvas.width()));
    let (top, bottom) = (within(y, canvas.height()), within(bottom, canvas.height()));
    let area = PixelRect { left, top, right, bottom };
    brush::rect(canvas, area, piece::TONED);
    area
}

#[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
fn real(px: i64) -> f32 {
    px as f32
}

/// Areas with a pixel to spare on each side, those that lie near each other as one: handing over one more costs about as much as so
/// many pixels.
fn merged(areas: impl Iterator<Item = PixelRect>) -> Vec<PixelRect> {
    const ONE_MORE_PX: f32 = 4096.0;
    let mut merged: Vec<PixelRect> = Vec::new();
    for area in areas.filter(|area| !area.is_empty()) {
        let mut own = area.outwards();
        while let Some(index) = merged.iter().position(|other| {
            let both = own.union(*other);
            both.pixels() <= own.pixels() + other.pixels() + ONE_MORE_PX
        }) {
            own = own.union(merged.swap_remove(index));
        }
        merged.push(own);
    }
    merged
}
