//! The wall flat, to scale on a paper, to a scale that a rule is divided in: the same scene as on the screen, as lines and areas.

use super::Said;
use super::sheet::{BOLD, Hand, INK, Item, QUIET, RED, Step, THIN, WHITE, outline_of};
use crate::colour::Colour;
use crate::draw::lines::place;
use crate::draw::projection::Projection;
use crate::draw::{Sheet, Theme, shapes};
use crate::geometry::{Point, Rect, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::{Lighting, Plan, System};
use crate::print::{Exact, PixelCrop, Source};
use crate::rounding::nearest;
use crate::scene::{Layer, Scene, ScenicFixture, ScenicPiece};
use crate::text::Face;

/// Scales by what a rule is divided in: so many times smaller, and how that is said (common practice, no source).
const BY_INCHES: [(i64, &str); 11] = [
    (1, "full size"),
    (2, "half size"),
    (4, "quarter size"),
    (12, "1 in to 1 ft"),
    (24, "1 in to 2 ft"),
    (36, "1 in to 3 ft"),
    (48, "1 in to 4 ft"),
    (96, "1 in to 8 ft"),
    (240, "1 in to 20 ft"),
    (480, "1 in to 40 ft"),
    (2400, "1 in to 200 ft"),
];
const BY_MILLIMETRES: [(i64, &str); 13] = [
    (1, "full size"),
    (2, "half size"),
    (5, ""),
    (10, ""),
    (20, ""),
    (25, ""),
    (30, ""),
    (40, ""),
    (50, ""),
    (100, ""),
    (200, ""),
    (500, ""),
    (2000, ""),
];

/// The largest scale of a system at which a length fits into another.
pub(super) fn scale_for(system: System, lengths: &[(Length, Length)]) -> i64 {
    let scales: &[_] = match system {
        System::Inches => &BY_INCHES,
        System::Centimetres => &BY_MILLIMETRES,
    };
    let fits = |scale: i64| lengths.iter().all(|&(length, room)| length <= room * scale);
    scales.iter().map(|row| row.0).find(|&scale| fits(scale)).unwrap_or(5000)
}

/// A scale in words: `1 in to 2 ft (1:24)`.
pub(super) fn in_words(scale: i64, system: System) -> String {
    let ratio = ["1:", &scale.to_string()].said();
    let known: &[(i64, &str)] = match system {
        System::Inches => &BY_INCHES,
        System::Centimetres => &BY_MILLIMETRES,
    };
    match known.iter().find(|row| row.0 == scale) {
        Some(&(_, words)) if !words.is_empty() => [words, " (", &ratio, ")"].said(),
        _ => ratio,
    }
}

/// From the wall to the paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct View {
    /// How many times smaller.
    pub(super) scale: i64,
    /// Where the left corner of the floor is on the paper.
    pub(super) origin: Point,
}

impl View {
    #[inline(never)]
    pub(super) fn x(self, x: Length) -> Length {
        self.origin.x + x.times_ratio(1, self.scale)
    }

    #[inline(never)]
    pub(super) fn y(self, y: Length) -> Length {
        self.origin.y + y.times_ratio(1, self.scale)
    }

    pub(super) fn point(self, point: Point) -> Point {
        Point::new(self.x(point.x), self.y(point.y))
    }

    #[inline(never)]
    pub(super) fn rect(self, rect: Rect) -> Rect {
        let (x, y) = (self.x(rect.x), self.y(rect.y));
        Rect::new(x, y, Size::new(self.x(rect.right()) - x, self.y(rect.top()) - y))
    }

    /// A path in inches on the wall.
    fn path(self, path: &kurbo::BezPath) -> Vec<Step> {
        let at = |point: kurbo::Point| {
            #[expect(clippy::cast_precision_loss, reason = "an edge: a place in a room keeps 53 bits")]
            let inch = UNITS_PER_INCH as f64;
            let [x, y] = [point.x, point.y].map(|inches| Length::from_units(nearest(inches * inch)));
            self.point(Point::new(x, y))
        };
        let mut last = kurbo::Point::ZERO;
        let mut steps = Vec::new();
        for element in path.elements() {
            steps.push(match *element {
                kurbo::PathEl::MoveTo(to) => Step::Move(at(to)),
                kurbo::PathEl::LineTo(to) => Step::Line(at(to)),
                // A curve of the second degree as one of the third: its controls two thirds of the way.
                kurbo::PathEl::QuadTo(by, to) => {
                    Step::Curve([at(last.lerp(by, 2.0 / 3.0)), at(to.lerp(by, 2.0 / 3.0)), at(to)])
                }
                kurbo::PathEl::CurveTo(one, two, to) => Step::Curve([at(one), at(two), at(to)]),
                kurbo::PathEl::ClosePath => Step::Close,
            });
            last = element.end_point().unwrap_or(last);
        }
        steps
    }
}

/// All that is drawn of a wall: what a plan has beyond its edges too.
pub(super) fn extent(scene: &Scene) -> Rect {
    let wall = Rect::new(Length::ZERO, Length::ZERO, scene.wall.size);
    let fixtures = scene.fixtures.iter().map(|fixture| fixture.rect);
    let pieces = scene.pieces.iter().map(|piece| piece.outside);
    let hooks = scene.hooks.iter().map(|hook| Rect::new(hook.x, hook.y, Size::default()));
    fixtures.chain(pieces).chain(hooks).fold(wall, Rect::union)
}

/// How a wall is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Manner {
    /// In its colours.
    Coloured,
    /// The pieces in their colours, and nothing else.
    Alone,
    /// In outline, to be measured and written on.
    Outlined,
}

/// The wall, what stands before it, and the pieces.
pub(super) fn wall(plan: &Plan, scene: &Scene, view: View, manner: Manner) -> Vec<Item> {
    let mut items = Vec::new();
    let zero = Length::ZERO;
    let whole = Rect::new(zero, zero, scene.wall.size);
    let is_coloured = manner != Manner::Outlined;
    if manner == Manner::Alone {
        scene.pieces.iter().for_each(|piece| self::piece(plan, piece, view, &mut items));
        return items;
    }
    let paint = if is_coloured { scene.wall.paint } else { WHITE };
    items.push(Item::rect(view.rect(whole), Some(paint), Some((THIN, INK))));
    let skirting =
        Rect::new(zero, zero, Size::new(scene.wall.size.width, scene.wall.skirting.min(whole.size.height)));
    if skirting.size.is_positive() {
        let fill = if is_coloured { paint.mixed(WHITE, 0.6) } else { WHITE };
        items.push(Item::rect(view.rect(skirting), Some(fill), Some((FINE, QUIET))));
    }
    if is_coloured {
        let floor = view.rect(whole);
        let strip = Rect::new(floor.x, floor.y - FLOOR, Size::new(floor.size.width, FLOOR));
        items.push(Item::rect(strip, Some(scene.wall.floor), None));
    }
    for fixture in &scene.fixtures {
        items.extend(fixture_shapes(fixture, scene, view, is_coloured));
    }
    for piece in &scene.pieces {
        if is_coloured {
            self::piece(plan, piece, view, &mut items);
        } else {
            items.push(Item::rect(view.rect(piece.outside), None, Some((BOLD, INK))));
        }
    }
    items
}

/// The thinnest line.
const FINE: Length = Length::micrometres(110);
/// How high the strip of floor is on the paper.
const FLOOR: Length = Length::mm(3);

fn fixture_shapes(fixture: &ScenicFixture, scene: &Scene, view: View, is_coloured: bool) -> Vec<Item> {
    let paint = scene.wall.paint;
    let shown = shapes(fixture, paint, Lighting::Day).into_iter();
    shown
        .map(|shape| Item::Shape {
            path: view.path(&shape.outline),
            fill: Some(if is_coloured { shape.colour } else { WHITE }),
            line: Some((FINE, if is_coloured { shape.colour.lit(0.6) } else { QUIET })),
        })
        .collect()
}

/// A piece from the back to the front, without light.
pub(super) fn piece(plan: &Plan, piece: &ScenicPiece, view: View, items: &mut Vec<Item>) {
    let on_wall = |rect: Rect| view.rect(rect.moved(piece.outside.x, piece.outside.y));
    for layer in &piece.layers {
        match layer {
            Layer::Flat { rect, colour } => items.push(Item::rect(on_wall(*rect), Some(*colour), None)),
            Layer::Board { rect, openings, colour } => {
                let mut path = outline_of(on_wall(*rect));
                openings.iter().for_each(|opening| path.extend(hole(on_wall(*opening))));
                items.push(Item::Shape { path, fill: Some(*colour), line: None });
            }
            Layer::Picture { rect, shows } => {
                let file_px = shows.map_or((1, 1), |(index, _)| {
                    let file = &plan.pictures[index];
                    (file.width_px, file.height_px)
                });
                items.push(Item::Picture { rect: on_wall(*rect), shows: *shows, file_px });
            }
            Layer::Bevel { face, back, .. } => {
                let mut path = outline_of(on_wall(*face));
                path.extend(hole(on_wall(*back)));
                items.push(Item::Shape { path, fill: Some(BEVEL), line: None });
            }
            Layer::Moulding { outer, inner, colour, .. } => {
                let (outer, inner) = (on_wall(*outer), on_wall(*inner));
                let mut path = outline_of(outer);
                path.extend(hole(inner));
                let edge = colour.lit(0.45);
                items.push(Item::Shape { path, fill: Some(*colour), line: Some((FINE, edge)) });
                for (from, to) in corners(outer).into_iter().zip(corners(inner)) {
                    items.push(Item::line(from, to, FINE, edge));
                }
            }
            Layer::Edge { rect } => items.push(Item::rect(on_wall(*rect), None, Some((FINE, QUIET)))),
            Layer::Face { .. } | Layer::Lifted { .. } => {}
        }
    }
    items.push(Item::rect(view.rect(piece.outside), None, Some((FINE, INK))));
}

/// The cut edge of a mat.
const BEVEL: Colour = Colour::hex(0xfa_f8_f2);

fn corners(rect: Rect) -> [(Length, Length); 4] {
    let (right, top) = (rect.right(), rect.top());
    [(rect.x, rect.y), (right, rect.y), (right, top), (rect.x, top)]
}

/// A rectangle the other way round, so that it is left out of what it lies in.
fn hole(rect: Rect) -> Vec<Step> {
    let mut steps: Vec<Step> =
        corners(rect).into_iter().rev().map(|(x, y)| Step::Line(Point::new(x, y))).collect();
    if let Some(Step::Line(first)) = steps.first().copied() {
        steps[0] = Step::Move(first);
    }
    steps.push(Step::Close);
    steps
}

/// What a pixel of [`place`] is on the paper: it places dimension lines in whole pixels.
const PIXEL: Length = Length::micrometres(20);
/// Lettering of dimension lines.
const EM: Length = Length::micrometres(2900);

/// A drawing: its items, from its own lower left corner, how large it is, and how many times smaller than what it shows.
pub(super) struct Drawn {
    /// What is drawn.
    pub(super) items: Vec<Item>,
    /// How large it is.
    pub(super) size: Size,
    /// How many times smaller.
    pub(super) scale: i64,
}

/// The wall in such a manner with its dimension lines, at the largest scale that fits.
pub(super) fn dimensioned(plan: &Plan, scene: &Scene, room: Size, manner: Manner) -> Drawn {
    let pixels = |length: Length| {
        #[expect(clippy::cast_precision_loss, reason = "an edge: a place on a paper keeps 24 bits")]
        let px = (length.units() / PIXEL.units()) as f32;
        px
    };
    let whole = |length: Length| u32::try_from(length.units() / PIXEL.units()).unwrap_or(1);
    let mut sheet = Sheet::new(whole(room.width), crate::draw::MOST_SIDE_PX);
    sheet.pixel_ratio = pixels(EM) / 14.5;
    // As wide as there is room the scale is the largest; what is beside the wall then stays as it is.
    let free = Projection::fit(scene, &Sheet { height_px: crate::draw::MOST_SIDE_PX * 4, ..sheet.clone() });
    let beside = room.width - PIXEL * nearest(f64::from(free.length(scene.wall.size.width)));
    let lanes = Length::mm(34);
    let (wall, shown) = (scene.wall.size, extent(scene));
    let rooms = [(shown.size.width, room.width - beside), (shown.size.height, room.height - lanes)];
    let scale = scale_for(plan.units.first, &rooms);
    let beyond = |length: Length| length.times_ratio(1, scale);
    sheet.width_px = whole(beyond(wall.width) + beside);
    sheet.height_px = Projection::height_for_width(scene, &sheet).min(crate::draw::MOST_SIDE_PX);
    #[expect(clippy::cast_precision_loss, reason = "a scale has few digits")]
    let exact = UNITS_PER_INCH as f32 / PIXEL.units() as f32 / scale as f32;
    let p = Projection { scale: exact, ..Projection::fit(scene, &sheet) };
    // Beyond the wall on its left and above it; the sheet is larger by that and by what is beyond on the other two sides.
    let more = |shown: Length, wall: Length| whole(beyond(shown - wall).max(Length::ZERO));
    let p = Projection {
        left: p.left + pixels(beyond(-shown.x)),
        floor: p.floor + pixels(beyond(shown.top() - wall.height)),
        ..p
    };
    sheet.width_px += more(shown.size.width, wall.width);
    sheet.height_px += more(shown.size.height, wall.height);
    let size = Size::new(PIXEL * i64::from(sheet.width_px), PIXEL * i64::from(sheet.height_px));
    let down = |px: f32| size.height - PIXEL.times_ratio(nearest(f64::from(px) * 16.0), 16);
    let along = |px: f32| PIXEL.times_ratio(nearest(f64::from(px) * 16.0), 16);
    let view = View { scale, origin: Point::new(along(p.left), down(p.floor)) };
    let mut items = self::wall(plan, scene, view, manner);
    let placed = place(scene, &sheet, p);
    let on_paper = view.rect(Rect::new(Length::ZERO, Length::ZERO, wall));
    let (on_sheet, on_wall) = (Theme::LIGHT, Theme::on(scene.wall.paint));
    let is_wall = |point: Point| manner != Manner::Alone && on_paper.contains(point);
    let theme = |point: Point| if is_wall(point) { on_wall } else { on_sheet };
    for stroke in &placed.strokes {
        let area = stroke.area;
        let (x, top) = (along(area.left), down(area.top));
        let size = Size::new(along(area.width()), along(area.height()));
        let rect = Rect::new(x, top - size.height, size);
        items.push(Item::rect(rect, Some(theme(rect.centre()).toned(stroke.tone)), None));
    }
    for tick in &placed.ticks {
        let (x, y, reach) = (along(tick.middle.0), down(tick.middle.1), along(tick.reach));
        let ink = theme(Point::new(x, y)).toned(tick.tone);
        items.push(Item::line((x - reach, y - reach), (x + reach, y + reach), Length::micrometres(300), ink));
    }
    for label in &placed.labels {
        let area = label.area;
        let middle = Point::new(along(area.left + area.width() / 2.0), down(area.top + area.height() / 2.0));
        let hand = Hand { face: Face::Sans, em: along(label.em), ink: theme(middle).toned(label.tone) };
        items.push(hand.centred(middle, label.upright, label.text.as_str()));
    }
    Drawn { items, size, scale }
}

/// Moves what is drawn to a place on the paper.
pub(super) fn moved(items: Vec<Item>, by: Point) -> Vec<Item> {
    let to = |point: Point| Point::new(point.x + by.x, point.y + by.y);
    let step = |step: Step| match step {
        Step::Move(point) => Step::Move(to(point)),
        Step::Line(point) => Step::Line(to(point)),
        Step::Curve(points) => Step::Curve(points.map(to)),
        Step::Close => Step::Close,
    };
    items
        .into_iter()
        .map(|item| match item {
            Item::Text(mut text) => {
                text.at = to(text.at);
                Item::Text(text)
            }
            Item::Line(mut line) => {
                (line.from, line.to) = (to(line.from), to(line.to));
                Item::Line(line)
            }
            Item::Shape { path, fill, line } => {
                Item::Shape { path: path.into_iter().map(step).collect(), fill, line }
            }
            Item::Picture { rect, shows, file_px } => {
                Item::Picture { rect: rect.moved(by.x, by.y), shows, file_px }
            }
        })
        .collect()
}

/// The whole of a picture in a box, and round what is kept of it a red line.
pub(super) fn thumbnail(plan: &Plan, picture: usize, kept: PixelCrop, at: Rect) -> Vec<Item> {
    let file = &plan.pictures[picture];
    let exact = |px: u32| Exact::from_integer(px.into());
    let (width, height) = (exact(file.width_px), exact(file.height_px));
    let source = Source { left: exact(0), top: exact(0), width, height };
    let across = |px: u32| at.size.width.times_ratio(px.into(), file.width_px.into());
    let down = |px: u32| at.size.height.times_ratio(px.into(), file.height_px.into());
    let size = Size::new(across(kept.width), down(kept.height));
    let crop = Rect::new(at.x + across(kept.left), at.top() - down(kept.top) - size.height, size);
    vec![
        Item::Picture { rect: at, shows: Some((picture, source)), file_px: (file.width_px, file.height_px) },
        Item::rect(at, None, Some((FINE, QUIET))),
        Item::rect(crop, None, Some((BOLD, RED))),
    ]
}
