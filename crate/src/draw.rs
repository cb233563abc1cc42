//! Drawing: the scene as pixels.
//!
//! A [`Painter`] keeps what it has made: the room, and each piece at its scale. A drawing is then the room copied, the
//! pieces' shadows taken from its light, the pieces copied in, and the lines on top; while one thing is moved only that
//! is done again. What is kept never changes the outcome: a painter that has drawn before gives the same bytes as a new one.
//!
//! Lengths become pixels in [`projection`] and nowhere else.
//!
//! ```
//! use overmantel::{draw::{Painter, Sheet}, figures::Figures, plan::Plan, scene::scene};
//! let plan = Plan::starting();
//! let scene = scene(&plan, &Figures::of(&plan).unwrap());
//! let mut painter = Painter::default();
//! let drawing = painter.draw(&scene, &[], &Sheet::new(600, 400));
//! assert_eq!(drawing.pixels.len(), 600 * 400 * 4);
//! ```

use crate::colour::Colour;
use crate::field::Field;
use crate::length::Length;
use crate::plan::LightOf;
use crate::resample::Pyramid;
use crate::scene::{Scene, ScenicFigure, ScenicFixture, ScenicPiece, Tone};
use light::Lamp;
use projection::{OnPixels, Projection};
use rows::{copy_rows, restore};
use tiny_skia::{Pixmap, PixmapMut, PixmapRef};

mod between;
mod brush;
mod corner;
mod cut_out;
mod face;
mod figure;
mod furniture;
mod graded;
mod lettering;
mod light;
pub mod lines;
mod moulding;
mod oblique;
mod piece;
pub mod projection;
mod room;
mod rows;
pub mod section;
mod shadow;
mod texture;
mod wall;
mod window;

pub(crate) use brush::to_skia;
pub use cut_out::cut_out;
pub use furniture::{Shape, shapes};
pub(crate) use piece::part_of;
pub use window::Window;

/// Pixels along one side of a drawing at the most.
pub const MOST_SIDE_PX: u32 = 16_384;

/// A piece that would have more pixels than so many sheets is only toned: it is far larger than its wall, and a plan from
/// elsewhere must not ask for more memory than there is.
const MOST_SHEETS_A_PIECE: u64 = 4;

/// A picture ready to be drawn: a copy, perhaps reduced, of the file that the plan names.
#[derive(Clone, Debug)]
pub struct Copy {
    /// The pixels, at several sizes.
    pub pyramid: Pyramid,
    /// Width of the file in pixels, which crops are measured in.
    pub file_width_px: u32,
    /// Height of the file in pixels.
    pub file_height_px: u32,
    /// A number that changes when the picture does.
    pub revision: u64,
}

/// What to draw on.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Width in device pixels, at most [`MOST_SIDE_PX`].
    pub width_px: u32,
    /// Height in device pixels, likewise.
    pub height_px: u32,
    /// Device pixels to one CSS pixel; lettering and line widths grow with it. Default: 1.
    pub pixel_ratio: f32,
    /// The inks. Default: [`Theme::LIGHT`].
    pub theme: Theme,
    /// Whether dimension lines, centre lines and the scale bar are drawn. Default: yes.
    pub lines: bool,
    /// Which view is drawn. Default: the elevation.
    pub view: View,
    /// Whether something is being dragged: pieces then keep the pixels they have, and may lie up to one of them off. Default: no.
    pub in_motion: bool,
    /// The field whose dimension is chosen, drawn in red. Default: none.
    pub chosen: Option<Field>,
    /// Lines across the wall, drawn in red, at which something that is dragged has stopped. Default: none.
    pub guides: Vec<Guide>,
    /// The part of the elevation that fills the sheet. Default: all of it.
    pub window: Window,
}

/// A line across the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guide {
    /// From the floor to the ceiling, so far from the left corner.
    Upright(Length),
    /// From corner to corner, so far from the floor.
    Level(Length),
}

/// From where the room is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum View {
    /// The wall as an architect draws it: every length along it and up it true to scale.
    #[default]
    Elevation,
    /// From the viewer's place, in perspective; without dimension lines.
    Oblique,
}

impl Sheet {
    /// A light sheet with all lines, one device pixel to the CSS pixel.
    #[must_use]
    pub fn new(width_px: u32, height_px: u32) -> Self {
        Self {
            width_px: width_px.clamp(1, MOST_SIDE_PX),
            height_px: height_px.clamp(1, MOST_SIDE_PX),
            pixel_ratio: 1.0,
            theme: Theme::LIGHT,
            lines: true,
            view: View::Elevation,
            in_motion: false,
            chosen: None,
            guides: Vec::new(),
            window: Window::WHOLE,
        }
    }
}

/// The inks of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// The sheet that is drawn on.
    pub sheet: Colour,
    /// Lines and lettering.
    pub ink: Colour,
    /// Lesser lines.
    pub quiet: Colour,
    /// What is chosen; the centre and eye lines.
    pub red: Colour,
}

impl Theme {
    /// Warm paper and dark ink.
    pub const LIGHT: Self = Self {
        sheet: Colour::hex(0xf7_f4_ec),
        ink: Colour::hex(0x24_32_3a),
        quiet: Colour::hex(0x6b_74_70),
        red: Colour::hex(0xb8_40_2a),
    };
    /// A dark sheet and light ink.
    pub const DARK: Self = Self {
        sheet: Colour::hex(0x1d_24_27),
        ink: Colour::hex(0xe7_e2_d4),
        quiet: Colour::hex(0x98_a1_9c),
        red: Colour::hex(0xef_8a_6d),
    };

    /// The ink of a line.
    #[must_use]
    pub const fn toned(&self, tone: Tone) -> Colour {
        match tone {
            Tone::Ink => self.ink,
            Tone::Red => self.red,
            Tone::Quiet => self.quiet,
        }
    }

    /// The inks for lines on a ground of another colour: of dark and light, the one with more contrast.
    #[must_use]
    pub fn on(ground: Colour) -> Self {
        let (dark, light) = (Self::LIGHT, Self::DARK);
        let chosen = if dark.ink.contrast(ground) >= light.ink.contrast(ground) { dark } else { light };
        // The lesser inks are mixed with the plain one until they can be read (WCAG 2.2, 1.4.3: 4.5 to 1).
        let legible = |ink: Colour| {
            [0.0, 0.2, 0.4, 0.6, 0.8]
                .map(|share| ink.mixed(chosen.ink, share))
                .into_iter()
                .find(|mixed| mixed.contrast(ground) >= 4.5)
                .unwrap_or(chosen.ink)
        };
        Self { sheet: ground, quiet: legible(chosen.quiet), red: legible(chosen.red), ..chosen }
    }
}

/// A rectangle in device pixels from the upper left corner of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// From the left.
    pub x: f32,
    /// From the top.
    pub y: f32,
    /// Width.
    pub width: f32,
    /// Height.
    pub height: f32,
}

impl Area {
    /// Whole pixels, with one to spare on each side.
    fn outwards(self) -> Self {
        let (x, y) = (self.x.floor() - 1.0, self.y.floor() - 1.0);
        let (right, bottom) = ((self.x + self.width).ceil() + 1.0, (self.y + self.height).ceil() + 1.0);
        Self { x, y, width: right - x, height: bottom - y }
    }

    /// The least that holds both.
    fn with(self, other: Self) -> Self {
        let (x, y) = (self.x.min(other.x), self.y.min(other.y));
        let right = (self.x + self.width).max(other.x + other.width);
        let bottom = (self.y + self.height).max(other.y + other.height);
        Self { x, y, width: right - x, height: bottom - y }
    }

    fn pixels(self) -> f32 {
        self.width * self.height
    }
}

/// A figure on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The field that it is.
    pub field: Field,
    /// Where it stands.
    pub area: Area,
}

/// A finished drawing.
#[derive(Debug)]
pub struct Drawing<'a> {
    /// sRGB, four bytes a pixel, opaque.
    pub pixels: &'a [u8],
    /// The figures that are fields.
    pub marks: Vec<Mark>,
    /// What may differ from the drawing before, in whole pixels; none when all of it may.
    pub changed: Option<Vec<Area>>,
    /// All lines and figures, in the inks they are drawn in.
    pub lines: lines::Placed,
    /// How lengths became pixels.
    pub projection: Projection,
}

/// Draws scenes, keeping what can be used again.
#[derive(Default)]
pub struct Painter {
    canvas: Option<Pixmap>,
    room: Option<(RoomKey, Pixmap)>,
    pieces: Vec<(PieceKey, Pixmap)>,
    lettering: lettering::Lettering,
    /// What of the canvas differs from the room; none when that is not known.
    touched: Option<Vec<Area>>,
}

impl std::fmt::Debug for Painter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Painter({} pieces kept)", self.pieces.len())
    }
}

/// What the picture of the room depends on.
#[derive(PartialEq)]
struct RoomKey {
    wall: crate::plan::Wall,
    fixtures: Vec<ScenicFixture>,
    figure: Option<ScenicFigure>,
    projection: Projection,
    sheet: Colour,
    size: (u32, u32),
    light: LightOf,
}

/// What the picture of a piece depends on.
#[derive(PartialEq)]
struct PieceKey {
    layers: Vec<crate::scene::Layer>,
    /// Its pixels, wherever they are.
    at: OnPixels,
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
        let (one, two) = (self.at.size_px, other.at.size_px);
        let moved = OnPixels { size_px: two, off: other.at.off, ..self.at };
        near(one.0, two.0)
            && near(one.1, two.1)
            && moved == other.at
            && self.is_toned == other.is_toned
            && self.scale == other.scale
            && self.lamp == other.lamp
            && self.revisions == other.revisions
            && self.layers == other.layers
    }
}

impl Painter {
    /// Draws a scene. `copies` has a place for each picture of the plan; a picture without a copy is a toned sheet.
    pub fn draw(&mut self, scene: &Scene, copies: &[Option<&Copy>], sheet: &Sheet) -> Drawing<'_> {
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
            let placed: Vec<OnPixels> = scene
                .pieces
                .iter()
                .zip(&self.pieces)
                .map(|(piece, (key, _))| OnPixels {
                    size_px: key.at.size_px,
                    ..projection.on_pixels(piece.outside)
                })
                .collect();
            match &restored {
                Some(touched) => {
                    let covered: Vec<[i64; 4]> = scene
                        .pieces
                        .iter()
                        .zip(&placed)
                        .zip(&self.pieces)
                        .filter(|((piece, _), (key, _))| piece.corner_radius <= Length::ZERO && !key.is_toned)
                        .map(|((_, at), _)| at.edges())
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
        copies: &[Option<&Copy>],
        sheet: &Sheet,
        projection: Projection,
    ) -> Drawing<'_> {
        let lamp = Lamp::of(scene.light).white();
        // Edges that are seen from the side need no hint of themselves on the front.
        let mut scene = scene.clone();
        for piece in &mut scene.pieces {
            piece.layers.retain(|layer| !matches!(layer, crate::scene::Layer::Edge { .. }));
        }
        let scene = &scene;
        let view = oblique::Oblique::of(scene, sheet);
        let place = |piece: &ScenicPiece| {
            let scale = view.scale(piece);
            (OnPixels::alone(piece.outside.size, scale), scale)
        };
        self.keep_pieces(scene, copies, sheet, place, lamp);
        self.keep_canvas(sheet);
        self.touched = None;
        if let Some(canvas) = self.canvas.as_mut() {
            let fronts: Vec<PixmapRef<'_>> =
                self.pieces.iter().map(|(_, picture)| picture.as_ref()).collect();
            view.draw(&mut canvas.as_mut(), &fronts, copies);
        }
        let pixels = self.canvas.as_ref().map_or(&[][..], |canvas| canvas.data());
        Drawing { pixels, marks: Vec::new(), lines: lines::Placed::default(), changed: None, projection }
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
    fn keep_pieces(
        &mut self,
        scene: &Scene,
        copies: &[Option<&Copy>],
        sheet: &Sheet,
        place: impl Fn(&ScenicPiece) -> (OnPixels, f32),
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
                    let size_px = if key.is_toned { (1, 1) } else { key.at.size_px };
                    let at = OnPixels { size_px, ..key.at };
                    let pixmap = piece::draw(stated, copies, at, key.scale, &lamp);
                    (key, pixmap)
                }
            };
            self.pieces.push(made);
        }
    }
}

/// Puts pieces with their shadows on a wall of this size. What may have changed is added to `touched`.
fn hang(
    canvas: &mut PixmapMut<'_>,
    pieces: &[ScenicPiece],
    placed: &[OnPixels],
    pictures: &[(PieceKey, Pixmap)],
    (wall, projection, lamp): (crate::geometry::Size, Projection, &Lamp),
    touched: &mut Vec<Area>,
) {
    for (piece, &at) in pieces.iter().zip(placed) {
        touched.push(shadow::cast(canvas, piece, at, wall, projection, lamp));
    }
    for ((piece, at), (key, picture)) in pieces.iter().zip(placed).zip(pictures) {
        let (x, y) = (at.left, at.top);
        touched.push(if key.is_toned {
            tone(canvas, piece.outside, projection)
        } else {
            let radius = projection.length(piece.corner_radius);
            let corners = corner::blended(canvas, picture.as_ref(), (x, y), radius);
            let area = copy_in(canvas, picture.as_ref(), x, y);
            corner::put(canvas, &corners);
            area
        });
    }
}

fn piece_key(
    piece: &ScenicPiece,
    copies: &[Option<&Copy>],
    sheet: &Sheet,
    (at, scale): (OnPixels, f32),
    lamp: Lamp,
) -> PieceKey {
    let pixels = |(width, height): (u32, u32)| u64::from(width) * u64::from(height);
    let revisions = piece
        .layers
        .iter()
        .filter_map(|layer| match layer {
            crate::scene::Layer::Picture { shows: Some((index, _)), .. } => {
                Some(copies.get(*index).copied().flatten().map_or(0, |copy| copy.revision))
            }
            _ => None,
        })
        .collect();
    PieceKey {
        layers: piece.layers.clone(),
        at: OnPixels { left: 0, top: 0, ..at },
        is_toned: pixels(at.size_px) > MOST_SHEETS_A_PIECE * pixels((sheet.width_px, sheet.height_px)),
        scale,
        lamp,
        revisions,
    }
}

/// Copies an opaque picture into another, row by row, as far as it falls within. Returns where.
fn copy_in(canvas: &mut PixmapMut<'_>, picture: PixmapRef<'_>, x: i32, y: i32) -> Area {
    let (left, top) = (i64::from(x), i64::from(y));
    let area = [left, top, left + i64::from(picture.width()), top + i64::from(picture.height())];
    copy_rows(canvas, picture, area, (left, top));
    let [x, y, width, height] =
        [x, y, picture.width().cast_signed(), picture.height().cast_signed()].map(whole_px);
    Area { x, y, width, height }
}

/// Tones what of a rectangle on the wall is on the canvas. Returns where.
fn tone(canvas: &mut PixmapMut<'_>, outside: crate::geometry::Rect, projection: Projection) -> Area {
    let within = |at: f32, most: u32| at.clamp(0.0, projection::pixels(most)).round();
    let (x, right) = (projection.x(outside.x), projection.x(outside.right()));
    let (y, bottom) = (projection.y(outside.top()), projection.y(outside.y));
    let (x, right) = (within(x, canvas.width()), within(right, canvas.width()));
    let (y, bottom) = (within(y, canvas.height()), within(bottom, canvas.height()));
    let area = Area { x, y, width: right - x, height: bottom - y };
    brush::rect(canvas, area.x, area.y, area.width, area.height, piece::TONED);
    area
}

#[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
fn whole_px(px: i32) -> f32 {
    px as f32
}

/// Areas with a pixel to spare on each side, those that lie near each other as one: handing over one more costs about as much as so
/// many pixels.
fn merged(areas: impl Iterator<Item = Area>) -> Vec<Area> {
    const ONE_MORE_PX: f32 = 4096.0;
    let mut merged: Vec<Area> = Vec::new();
    for area in areas.filter(|area| area.width > 0.0 && area.height > 0.0) {
        let mut own = area.outwards();
        while let Some(index) = merged.iter().position(|other| {
            let both = own.with(*other);
            both.pixels() <= own.pixels() + other.pixels() + ONE_MORE_PX
        }) {
            own = own.with(merged.swap_remove(index));
        }
        merged.push(own);
    }
    merged
}
