//! The oblique view: the room as the viewer sees it from where they stand, in true perspective, from the same scene as the
//! elevation.
//!
//! The wall and the floor are drawn flat and seen through the [`Camera`]; fixtures are extruded from their fronts; a piece is
//! its front at its own depth, what it encloses further back, and its sides. The ends of the wall, the ceiling and the walls
//! beside it are shown plain: nothing is stated of them.

use super::furniture::{self, Solid};
use super::light::Lamp;
use super::piece::{self, part_of};
use super::pixel_rect::PixelRect;
use super::projection::{Projection, pixels};
use super::sheet::{LoadedPicture, Sheet};
use super::{brush, figure, graded, room, shadow};
use crate::colour::Colour;
use crate::length::Length;
use crate::scene::{Flanks, Layer, Scene, ScenicPiece};
use camera::{Camera, Place, Plane, corners, cross, outlines, rectangle};
use kurbo::{BezPath, Point, Shape};
use order::{Bounds, from_the_back};
use tiny_skia::{Pixmap, PixmapMut, PixmapRef};

pub(crate) mod camera;
mod order;
mod plane;

/// Pixels per inch of the pictures that are seen through the camera, at most.
const MOST_SCALE: f64 = 200.0;
/// Their pixels against those of the sheet, at most.
const MOST_SHEETS: f64 = 4.0;

/// Sides of an outline whose ways are no further apart than this cosine are one that is curved.
const SMOOTH: f64 = 0.9;

/// A scene as it is seen from where its viewer stands, on a sheet.
pub(super) struct Oblique<'a> {
    scene: &'a Scene,
    sheet: &'a Sheet,
    camera: Camera,
    lamp: Lamp,
}

/// How far before the wall a figure stands: beside what stands there, as far out as the deepest of it, but not in the viewer's
/// face.
fn figure_depth(scene: &Scene) -> f64 {
    let deepest = scene.fixtures.iter().map(|fixture| inches(fixture.depth)).fold(20.0, f64::max);
    (deepest * 0.7).min(inches(scene.viewer.distance) * 0.6)
}

/// What stands in the room or hangs on the wall.
struct Thing<'a> {
    bounds: Bounds,
    what: What<'a>,
}

enum What<'a> {
    Fixture(Vec<Solid>),
    Piece(&'a ScenicPiece, PixmapRef<'a>),
    Figure(Vec<(BezPath, f32)>),
}

impl<'a> Oblique<'a> {
    /// A scene as another camera sees it, in another light.
    pub(super) fn through(camera: Camera, lamp: Lamp, scene: &'a Scene, sheet: &'a Sheet) -> Self {
        Self { scene, sheet, camera, lamp }
    }

    /// Draws the pieces and nothing else, on a canvas where nothing lies yet.
    pub(super) fn draw_pieces(
        &self,
        canvas: &mut PixmapMut<'_>,
        fronts: &[PixmapRef<'_>],
        copies: &[Option<&LoadedPicture>],
    ) {
        let boxes: Vec<Bounds> = self.scene.pieces.iter().map(Bounds::of_piece).collect();
        for index in from_the_back(&boxes, self.camera.eye()) {
            let (Some(piece), Some(&front)) = (self.scene.pieces.get(index), fronts.get(index)) else {
                continue;
            };
            self.piece(canvas, piece, front, copies);
        }
    }

    pub(super) fn of(scene: &'a Scene, sheet: &'a Sheet) -> Self {
        Self { scene, sheet, camera: Camera::fit(scene, sheet), lamp: Lamp::of(scene.light) }
    }

    /// The scale, in pixels per inch, at which the picture of a piece's front is needed.
    pub(super) fn scale(&self, piece: &ScenicPiece) -> f32 {
        let scale = self.camera.scale(self.camera.nearest(&Bounds::of_piece(piece).front())).min(MOST_SCALE);
        let area = inches(piece.outside.size.width) * inches(piece.outside.size.height) * scale * scale;
        narrow(scale * (MOST_SHEETS * self.sheet_area() / area.max(1.0)).sqrt().min(1.0))
    }

    /// Draws the view. `fronts` are the pieces' own pictures, each at its [`Self::scale`], in white light.
    pub(super) fn draw(
        &self,
        canvas: &mut PixmapMut<'_>,
        fronts: &[PixmapRef<'_>],
        copies: &[Option<&LoadedPicture>],
    ) {
        self.shell(canvas);
        self.wall(canvas);
        self.floor(canvas);
        let things = self.things(fronts);
        let boxes: Vec<Bounds> = things.iter().map(|thing| thing.bounds).collect();
        for index in from_the_back(&boxes, self.camera.eye()) {
            let Thing { bounds, what } = &things[index];
            match what {
                What::Fixture(solids) => solids.iter().for_each(|solid| self.solid(canvas, solid)),
                What::Piece(piece, front) => self.piece(canvas, piece, *front, copies),
                What::Figure(parts) => self.figure(canvas, parts, bounds.0[2][0]),
            }
        }
        self.lamp.tint_area(canvas, PixelRect::of_size((canvas.width(), canvas.height())));
    }

    /// What stands in the room and hangs on the wall; the parts of each fixture in the order of painting.
    fn things<'b>(&'b self, fronts: &[PixmapRef<'b>]) -> Vec<Thing<'b>> {
        let scene = self.scene;
        let fixtures = scene.fixtures.iter().filter_map(|fixture| {
            let solids = furniture::solids(fixture, scene.wall.paint, scene.light);
            let boxes: Vec<Bounds> = solids.iter().map(Bounds::of_solid).collect();
            let order = from_the_back(&boxes, self.camera.eye());
            let bounds = boxes.into_iter().reduce(Bounds::with)?;
            let ordered = order.into_iter().map(|index| solids[index].clone()).collect();
            Some(Thing { bounds, what: What::Fixture(ordered) })
        });
        let pieces = scene.pieces.iter().zip(fronts).map(|(piece, &front)| Thing {
            bounds: Bounds::of_piece(piece),
            what: What::Piece(piece, front),
        });
        let figure = scene.figure.map(|figure| {
            let depth = figure_depth(scene);
            let bounds = Bounds::of(figure.rect, [depth, depth]);
            Thing { bounds, what: What::Figure(figure::parts(figure, &scene.wall)) }
        });
        fixtures.chain(pieces).chain(figure).collect()
    }

    fn figure(&self, canvas: &mut PixmapMut<'_>, parts: &[(BezPath, f32)], z: f64) {
        for (part, alpha) in parts {
            let mut shape = BezPath::new();
            for outline in outlines(part) {
                self.camera.trace(&mut shape, &upright(&outline, z));
            }
            brush::fill(canvas, &shape, figure::tone(self.scene.wall.paint), *alpha);
        }
    }

    /// Where the room ends to the left and to the right: with the wall, or beyond the viewer who stands past its end.
    fn ends(&self) -> [f64; 2] {
        const ELBOW_ROOM: f64 = 40.0;
        let eye = self.camera.eye()[0];
        [(eye - ELBOW_ROOM).min(0.0), (eye + ELBOW_ROOM).max(inches(self.scene.wall.size.width))]
    }

    /// What is round the wall: walls to both sides, and the ceiling.
    fn shell(&self, canvas: &mut PixmapMut<'_>) {
        let scene = self.scene;
        let height = inches(scene.wall.size.height);
        let [left, right] = self.ends();
        let far = self.camera.eye()[2] * 2.0;
        let paint = scene.wall.paint;
        brush::all(canvas, paint);
        let ceiling = [[left, height, 0.0], [right, height, 0.0], [right, height, far], [left, height, far]];
        self.fill(canvas, &ceiling, Colour::hex(0xf2_ef_e8).lit(0.9));
        let skirting = inches(scene.wall.skirting);
        for (x, light) in [(left, 0.8), (right, 0.88)] {
            let strip = |foot, head| [[x, foot, 0.0], [x, head, 0.0], [x, head, far], [x, foot, far]];
            self.fill(canvas, &strip(0.0, height), paint.lit(light));
            self.fill(canvas, &strip(0.0, skirting), room::SKIRTING.lit(light));
        }
    }

    fn wall(&self, canvas: &mut PixmapMut<'_>) {
        let scene = self.scene;
        let [width, height] = [inches(scene.wall.size.width), inches(scene.wall.size.height)];
        let whole = rectangle([0.0, 0.0, width, height], 0.0);
        let Some((mut flat, scale)) = self.flat([width, height], &whole) else { return };
        let projection = Projection::flat(narrow(scale), pixels(flat.height()));
        room::wall(&mut flat.as_mut(), scene, projection);
        for piece in &scene.pieces {
            shadow::behind(&mut flat.as_mut(), piece, scene.wall.size, projection, &self.lamp);
        }
        let plane = Plane {
            corner: [0.0, height, 0.0],
            across: [1.0 / scale, 0.0, 0.0],
            down: [0.0, -1.0 / scale, 0.0],
        };
        // Past the ends of what is stated the wall goes on in the light of its ends.
        let [left, right] = self.ends();
        let seen = self.camera.polygon(&rectangle([left, 0.0, right, height], 0.0));
        plane::fill(canvas, &seen, &self.camera.on_plane(&plane), flat.as_ref(), 1.0);
    }

    fn floor(&self, canvas: &mut PixmapMut<'_>) {
        let scene = self.scene;
        let [from, to] = self.ends();
        let deep = self.camera.eye()[2];
        let whole = [[from, 0.0, 0.0], [to, 0.0, 0.0], [to, 0.0, deep], [from, 0.0, deep]];
        let Some((mut flat, scale)) = self.flat([to - from, deep], &whole[..2]) else { return };
        let projection = Projection::flat(narrow(scale), 0.0);
        room::floor(&mut flat.as_mut(), scene, projection);
        for fixture in scene.fixtures.iter().filter(|fixture| fixture.rect.y <= Length::ZERO) {
            let [left, right] =
                [fixture.rect.x, fixture.rect.right()].map(|x| narrow((inches(x) - from) * scale));
            shadow::under(
                &mut flat.as_mut(),
                PixelRect { left, top: 0.0, right, bottom: narrow(inches(fixture.depth) * scale) },
                narrow(scale),
                &self.lamp,
            );
        }
        let plane = Plane {
            corner: [from, 0.0, 0.0],
            across: [1.0 / scale, 0.0, 0.0],
            down: [0.0, 0.0, 1.0 / scale],
        };
        plane::fill(canvas, &self.camera.polygon(&whole), &self.camera.on_plane(&plane), flat.as_ref(), 1.0);
    }

    /// An empty picture of a plane of this size, with as many pixels per inch as its nearest corner needs.
    fn flat(&self, [width, height]: [f64; 2], corners: &[Place]) -> Option<(Pixmap, f64)> {
        let most = (MOST_SHEETS * self.sheet_area() / (width * height).max(1.0)).sqrt();
        let scale = self.camera.scale(self.camera.nearest(corners)).min(MOST_SCALE).min(most);
        let side = |length: f64| u32::try_from(crate::rounding::nearest(length * scale)).unwrap_or(1).max(1);
        Some((Pixmap::new(side(width), side(height))?, scale))
    }

    /// A part of a fixture: its front, and those of its sides that are turned to the eye.
    fn solid(&self, canvas: &mut PixmapMut<'_>, solid: &Solid) {
        let [back, front] = solid.z.map(f64::from);
        let points = corners(&solid.outline);
        let light = (solid.light[0] + solid.light[1]) / 2.0;
        if solid.is_turned {
            return self.turned(canvas, &points, [back, front], solid.colour.lit(light));
        }
        self.extruded(canvas, &points, [back, front], solid.colour.lit(light));
        let face = self.camera.polygon(&upright(&points, front));
        graded::fill(canvas, &face, solid.colour, solid.light, solid.sides);
    }

    /// A turned part: between a ring at its bottom and one at its top, each as wide as its outline is there, and of its own depth
    /// in proportion.
    fn turned(&self, canvas: &mut PixmapMut<'_>, points: &[Point], [back, front]: [f64; 2], colour: Colour) {
        const STEPS: u8 = 48;
        let [[left, right], [foot, head]] = ends(points);
        let middle = [(left + right) / 2.0, (back + front) / 2.0];
        let half = (right - left) / 2.0;
        // How wide it is in its lower half and in its upper one.
        let radius = |is_upper: bool| {
            let own = points.iter().filter(|point| (point.y > (foot + head) / 2.0) == is_upper);
            own.map(|point| (point.x - middle[0]).abs()).fold(0.0, f64::max)
        };
        let deep = if half > 0.0 { (front - back) / 2.0 / half } else { 0.0 };
        let (lower, upper) = (radius(false), radius(true));
        let ring = |radius: f64, y: f64| -> Vec<Place> {
            let turn = |step: u8| f64::from(step) / f64::from(STEPS) * std::f64::consts::TAU;
            let place = |angle: f64| {
                [middle[0] + radius * libm::cos(angle), y, middle[1] + radius * deep * libm::sin(angle)]
            };
            (0..STEPS).map(turn).map(place).collect()
        };
        let (at_foot, at_head) = (ring(lower, foot), ring(upper, head));
        let eye = self.camera.eye();
        for step in 0..usize::from(STEPS) {
            let next = (step + 1) % usize::from(STEPS);
            let corners = [at_foot[step], at_foot[next], at_head[next], at_head[step]];
            let outwards = cross(way(corners[0], corners[3]), way(corners[0], corners[1]));
            // A ring that has shrunk to its middle has no way along it; then the other one has.
            let outwards = if dot(outwards, outwards) > 0.0 {
                outwards
            } else {
                cross(way(corners[0], corners[3]), way(corners[3], corners[2]))
            };
            if dot(outwards, way(corners[0], eye)) <= 0.0 {
                continue;
            }
            let [across, up, out] = outwards.map(|part| part / dot(outwards, outwards).sqrt());
            let share = narrow(out.max(0.0) * out.max(0.0));
            let light = share + (1.0 - share) * self.side(across, up);
            brush::seamless(canvas, &self.camera.polygon(&corners), colour.lit(light));
        }
        for (ring, up, is_seen) in [(&at_head, 1.0, eye[1] > head), (&at_foot, -1.0, eye[1] < foot)] {
            if is_seen {
                brush::fill(canvas, &self.camera.polygon(ring), colour.lit(self.side(0.0, up)), 1.0);
            }
        }
    }

    /// The sides of an upright outline that are turned to the eye, between two depths.
    fn extruded(&self, canvas: &mut PixmapMut<'_>, points: &[Point], depths: [f64; 2], colour: Colour) {
        if depths[1] <= depths[0] {
            return;
        }
        let edges = self.edges(points, depths);
        for index in (0..points.len()).filter(|&index| edges.is_seen[index]) {
            let (right, up) = edges.normal(index);
            let side = self.camera.polygon(&edges.tucked(index, depths));
            brush::fill(canvas, &side, colour.lit(self.side(right, up)), 1.0);
        }
    }

    /// The edges of an upright outline, with which of the sides behind them are turned to the eye.
    fn edges<'b>(&self, points: &'b [Point], [back, front]: [f64; 2]) -> Edges<'b> {
        let [across, upright] = ends(points);
        let under = self.pixel(front, &Bounds([across, upright, [back, front]]));
        let pairs = || points.iter().zip(points.iter().cycle().skip(1));
        let ways = pairs().map(|(from, to)| {
            let along = *to - *from;
            // By a root of our own: kurbo's is the platform's.
            let long = (along.x * along.x + along.y * along.y).sqrt();
            (along / long, long)
        });
        let turn = pairs().map(|(from, to)| from.x * to.y - to.x * from.y).sum::<f64>().signum();
        let mut edges = Edges { points, ways: ways.collect(), turn, under, is_seen: Vec::new() };
        edges.is_seen = (0..points.len())
            .map(|index| {
                let (right, up) = edges.normal(index);
                self.is_towards_eye([points[index].x, points[index].y, back], right, up)
            })
            .collect();
        edges
    }

    /// A piece: its sides, what its frame encloses, the inner sides of the frame, and its front.
    fn piece(
        &self,
        canvas: &mut PixmapMut<'_>,
        piece: &ScenicPiece,
        front: PixmapRef<'_>,
        copies: &[Option<&LoadedPicture>],
    ) {
        let bounds = Bounds::of_piece(piece);
        let [[left, right], [foot, head], [_, z]] = bounds.0;
        self.flanks(canvas, piece, bounds, copies);
        let frame = piece.layers.iter().rev().find_map(|layer| match layer {
            Layer::Moulding { inner, height, colour, .. } => Some((*inner, inches(*height), *colour)),
            _ => None,
        });
        let plane = |z| Plane {
            corner: [left, head, z],
            across: [(right - left) / f64::from(front.width()), 0.0, 0.0],
            down: [0.0, (foot - head) / f64::from(front.height()), 0.0],
        };
        let Some((inner, height, colour)) = frame else {
            let outline = upright(&outline(bounds, inches(piece.corner_radius)), z);
            plane::fill(canvas, &self.camera.polygon(&outline), &self.camera.on_plane(&plane(z)), front, 1.0);
            if let Flanks::Metal(colour) = piece.flanks {
                self.bright_edge(canvas, piece, bounds, colour);
            }
            return;
        };
        let sight = [
            left + inches(inner.x),
            foot + inches(inner.y),
            left + inches(inner.right()),
            foot + inches(inner.top()),
        ];
        let within = (z - height).max(bounds.0[2][0]);
        plane::fill(
            canvas,
            &self.camera.polygon(&rectangle(sight, within)),
            &self.camera.on_plane(&plane(within)),
            front,
            1.0,
        );
        // The frame ends a pixel of its picture early, so that nothing of what it encloses is seen at its own depth.
        let pixel = (right - left) / f64::from(front.width());
        let wider = [sight[0] - pixel, sight[1] - pixel, sight[2] + pixel, sight[3] + pixel];
        let mut frame = self.camera.polygon(&bounds.front());
        let mut hole = rectangle(wider, z);
        hole.reverse();
        self.camera.trace(&mut frame, &hole);
        plane::fill(canvas, &frame, &self.camera.on_plane(&plane(z)), front, 1.0);
        let opening = Bounds([[sight[0], sight[2]], [sight[1], sight[3]], [within, z]]);
        let at_front = Bounds([[wider[0], wider[2]], [wider[1], wider[3]], [within, z]]);
        for ((normal, back), (_, front)) in sides(opening).into_iter().zip(sides(at_front)) {
            // Seen from within, a side faces the other way.
            let (right, up) = (-normal.0, -normal.1);
            let corners = [back[0], back[1], front[2], front[3]];
            if self.is_towards_eye(corners[0], right, up) {
                brush::seamless(canvas, &self.camera.polygon(&corners), colour.lit(self.side(right, up)));
            }
        }
    }

    /// The upper edge of a metal sheet, which is never quite sharp and catches the light from above: a third of the sheet's thickness, and
    /// no narrower than a pixel can show.
    fn bright_edge(&self, canvas: &mut PixmapMut<'_>, piece: &ScenicPiece, bounds: Bounds, metal: Colour) {
        let [[left, right], [foot, head], [back, front]] = bounds.0;
        let thickness = (front - back).min(head - foot);
        if thickness <= 0.0 {
            return;
        }
        let wide = (thickness / 3.0).max(self.pixel(front, &bounds));
        let round = inches(piece.corner_radius).min((right - left) / 2.0);
        let line = [left + round, head - wide, right - round, head];
        let seen = self.camera.polygon(&rectangle(line, front));
        brush::fill(canvas, &seen, metal.mixed(Colour::hex(0xff_ff_ff), 0.7), 0.45);
    }

    /// A pixel of the sheet in inches, where the front of a box is, at most a quarter of its lesser side.
    fn pixel(&self, z: f64, bounds: &Bounds) -> f64 {
        let [[left, right], [foot, head], _] = bounds.0;
        let depth = self.camera.nearest(&rectangle([left, foot, right, head], z));
        (1.0 / self.camera.scale(depth)).min((right - left).min(head - foot) / 4.0)
    }

    fn flanks(
        &self,
        canvas: &mut PixmapMut<'_>,
        piece: &ScenicPiece,
        bounds: Bounds,
        copies: &[Option<&LoadedPicture>],
    ) {
        let (index_of, parts, mirrored) = match &piece.flanks {
            Flanks::Plain(colour) | Flanks::Metal(colour) => {
                let outline = outline(bounds, inches(piece.corner_radius));
                return self.extruded(canvas, &outline, bounds.0[2], *colour);
            }
            Flanks::Picture { shows: (index, parts), mirrored } => (*index, parts.as_ref(), *mirrored),
        };
        let points = outline(bounds, 0.0);
        let edges = self.edges(&points, bounds.0[2]);
        let sides = sides(bounds);
        for (index, side) in [3, 2, 1, 0].into_iter().enumerate().filter(|(index, _)| edges.is_seen[*index]) {
            let ((right, up), corners) = sides[side];
            let outline = self.camera.polygon(&edges.tucked(index, bounds.0[2]));
            let light = self.side(right, up);
            let Some((pyramid, part)) = part_of((index_of, parts[side]), copies) else {
                brush::fill(canvas, &outline, piece::TONED.lit(light), 1.0);
                continue;
            };
            let scale = self.camera.scale(self.camera.nearest(&corners)).min(MOST_SCALE);
            let [back, front] = bounds.0[2];
            let is_upright = side % 2 == 0;
            let (long, deep) = (distance(corners[0], corners[1]), front - back);
            let px = |length: f64| {
                u32::try_from(crate::rounding::nearest(length * scale)).unwrap_or(1).clamp(1, 8192)
            };
            let (width, height) = if is_upright { (px(deep), px(long)) } else { (px(long), px(deep)) };
            let strip = pyramid.scaled(part, width, height);
            let Some(picture) = PixmapRef::from_bytes(strip.pixels(), width, height) else { continue };
            // The row of the strip that meets the face is its first on the right and at the bottom, and the other way about where
            // it is mirrored.
            let starts_at_face = (side >= 2) != mirrored;
            let (from, step) = if starts_at_face { (front, back - front) } else { (back, front - back) };
            let [[x, _], [_, top], _] = bounds.0;
            let (edge_x, edge_y) = (corners[0][0], corners[0][1]);
            let plane = if is_upright {
                Plane {
                    corner: [edge_x, top, from],
                    across: [0.0, 0.0, step / f64::from(width)],
                    down: [0.0, -long / f64::from(height), 0.0],
                }
            } else {
                Plane {
                    corner: [x, edge_y, from],
                    across: [long / f64::from(width), 0.0, 0.0],
                    down: [0.0, 0.0, step / f64::from(height)],
                }
            };
            plane::fill(canvas, &outline, &self.camera.on_plane(&plane), picture, light);
        }
    }

    fn is_towards_eye(&self, [x, y, _]: Place, right: f64, up: f64) -> bool {
        let eye = self.camera.eye();
        (eye[0] - x) * right + (eye[1] - y) * up > 0.0
    }

    /// Light on what is turned aside, against that on what faces the room: some of the lamp's by the cosine law, and the room's,
    /// of which more comes from above and least from below.
    fn side(&self, right: f64, up: f64) -> f32 {
        let (right, up) = (narrow(right), narrow(up));
        let towards = (-right * self.lamp.fall.0 + up * self.lamp.fall.1).max(0.0);
        0.64 + if up > 0.0 { 0.28 } else { 0.14 } * up + 0.5 * self.lamp.share * towards
    }

    fn sheet_area(&self) -> f64 {
        f64::from(self.sheet.width_px) * f64::from(self.sheet.height_px)
    }

    fn fill(&self, canvas: &mut PixmapMut<'_>, corners: &[Place], colour: Colour) {
        brush::seamless(canvas, &self.camera.polygon(corners), colour);
    }
}

/// The edges of an upright outline, behind which there are sides.
struct Edges<'a> {
    points: &'a [Point],
    /// Which way each goes from its point, and how far.
    ways: Vec<(kurbo::Vec2, f64)>,
    /// Which way round all go.
    turn: f64,
    /// A pixel of the sheet, by which sides lie under what is painted after them.
    under: f64,
    /// Whether the side behind each is turned to the eye.
    is_seen: Vec<bool>,
}

impl Edges<'_> {
    /// How the side behind an edge is turned.
    fn normal(&self, index: usize) -> (f64, f64) {
        let along = self.ways[index].0;
        (along.y * self.turn, -along.x * self.turn)
    }

    /// The side behind an edge, going on by a pixel under the front and under sides that are painted after it: so nothing of what is
    /// behind shines through where they meet, and nothing comes out where it ends against what is behind it.
    fn tucked(&self, index: usize, [back, front]: [f64; 2]) -> [Place; 6] {
        let count = self.points.len();
        let (before, next) = ((index + count - 1) % count, (index + 1) % count);
        let (from, to) = (self.points[index], self.points[next]);
        let (along, long) = self.ways[index];
        let is_smooth = |other: usize| self.ways[other].0.dot(along) >= SMOOTH;
        // At a corner it ends earlier under the front, so that it does not come out at the next side.
        let earlier = |other: usize| if is_smooth(other) { 0.0 } else { self.under.min(long / 2.0) };
        let round = |other: usize| match self.is_seen[other] && other > index {
            true if is_smooth(other) => self.under,
            true => self.under.min(self.ways[other].1 / 2.0),
            false => 0.0,
        };
        let (right, up) = self.normal(index);
        let inwards = kurbo::Vec2::new(-right, -up) * self.under;
        let below = [from + along * earlier(before) + inwards, to - along * earlier(next) + inwards];
        let [from, to] = [from - self.ways[before].0 * round(before), to + self.ways[next].0 * round(next)];
        [
            [from.x, from.y, back],
            [to.x, to.y, back],
            [to.x, to.y, front],
            [below[1].x, below[1].y, front],
            [below[0].x, below[0].y, front],
            [from.x, from.y, front],
        ]
    }
}

/// The sides of a box: how each is turned, and its corners, the first two at the back. Left, upper, right, lower.
fn sides(bounds: Bounds) -> [((f64, f64), [Place; 4]); 4] {
    let [[left, right], [foot, head], [back, front]] = bounds.0;
    let side = |from: [f64; 2], to: [f64; 2]| {
        [[from[0], from[1], back], [to[0], to[1], back], [to[0], to[1], front], [from[0], from[1], front]]
    };
    [
        ((-1.0, 0.0), side([left, head], [left, foot])),
        ((0.0, 1.0), side([left, head], [right, head])),
        ((1.0, 0.0), side([right, head], [right, foot])),
        ((0.0, -1.0), side([left, foot], [right, foot])),
    ]
}

/// From where to where some points reach, across and up.
fn ends(points: &[Point]) -> [[f64; 2]; 2] {
    [|point: &Point| point.x, |point: &Point| point.y].map(|of| {
        let least = points.iter().map(of).fold(f64::INFINITY, f64::min);
        [least, points.iter().map(of).fold(f64::NEG_INFINITY, f64::max)]
    })
}

fn upright(points: &[Point], z: f64) -> Vec<Place> {
    points.iter().map(|point| [point.x, point.y, z]).collect()
}

/// The outline of a box seen from the front, with its corners rounded.
fn outline(bounds: Bounds, radius: f64) -> Vec<Point> {
    let [[left, right], [foot, head], _] = bounds.0;
    let shape = kurbo::RoundedRect::new(left, foot, right, head, radius);
    if radius > 0.0 { corners(&shape.to_path(0.01)) } else { corners(&shape.rect().to_path(0.01)) }
}

fn way(from: Place, to: Place) -> Place {
    [0, 1, 2].map(|axis| to[axis] - from[axis])
}

fn dot(one: Place, other: Place) -> f64 {
    (0..3).map(|axis| one[axis] * other[axis]).sum()
}

fn distance(from: Place, to: Place) -> f64 {
    dot(way(from, to), way(from, to)).sqrt()
}

fn inches(length: Length) -> f64 {
    length.to_inches()
}

#[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
fn narrow(value: f64) -> f32 {
    value as f32
}
