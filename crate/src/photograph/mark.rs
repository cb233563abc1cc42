//! The marks of a photograph as things that are taken hold of: where each is, what is under a pointer, what moving one does; and drawn.

use super::room::{Ends, Px, Room, RoomError, Thing};
use crate::draw::to_skia;
use crate::resample::Raster;
use kurbo::{BezPath, Point};
use std::fmt;
use std::str::FromStr;
use tiny_skia::{FillRule, LineCap, Paint, PixmapMut, Stroke, StrokeDash, Transform};

/// A point of a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A corner of the sheet: top left, top right, bottom right, bottom left.
    Corner(usize),
    /// A line, by its middle.
    Line(usize),
    /// An end of a length.
    Length(usize, usize),
    /// An end of the wall: left, right, ceiling, floor.
    End(usize),
    /// A corner of a thing, or (2) where its front meets the floor.
    Thing(usize, usize),
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Corner(index) => write!(f, "corner.{index}"),
            Self::Line(index) => write!(f, "line.{index}"),
            Self::Length(index, end) => write!(f, "length.{index}.{end}"),
            Self::End(index) => write!(f, "end.{index}"),
            Self::Thing(index, corner) => write!(f, "thing.{index}.{corner}"),
        }
    }
}

/// A text that names no mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoMark;

impl FromStr for Mark {
    type Err = NoMark;

    fn from_str(text: &str) -> Result<Self, NoMark> {
        let mut parts = text.split('.');
        let kind = parts.next().ok_or(NoMark)?;
        let mut number = || parts.next().and_then(|part| part.parse::<usize>().ok()).ok_or(NoMark);
        Ok(match kind {
            "corner" => Self::Corner(number()?),
            "line" => Self::Line(number()?),
            "length" => Self::Length(number()?, number()?),
            "end" => Self::End(number()?),
            "thing" => Self::Thing(number()?, number()?),
            _ => return Err(NoMark),
        })
    }
}

/// What the ends of the wall are called.
pub const ENDS: [&str; 4] = ["left end of the wall", "right end of the wall", "ceiling", "floor"];
/// What the corners of the sheet are called.
pub const CORNERS: [&str; 4] =
    ["top left corner", "top right corner", "bottom right corner", "bottom left corner"];

impl Ends {
    /// The four of them, in the order of [`ENDS`].
    pub fn all(&mut self) -> [&mut Option<Px>; 4] {
        let Self { left, right, ceiling, floor } = self;
        [left, right, ceiling, floor]
    }

    /// Where each is.
    #[must_use]
    pub fn places(&self) -> [Option<Px>; 4] {
        [self.left, self.right, self.ceiling, self.floor]
    }
}

impl Room {
    /// All points that can be taken hold of, with where they are; those of the sheet first.
    #[must_use]
    pub fn points(&self) -> Vec<(Mark, Px)> {
        let mut all = Vec::new();
        if let Some(sheet) = &self.sheet {
            all.extend(sheet.corners.iter().enumerate().map(|(index, at)| (Mark::Corner(index), *at)));
        }
        for (index, thing) in self.things.iter().enumerate() {
            let corners = thing.corners.iter().chain(&thing.foot).enumerate();
            all.extend(corners.map(|(corner, at)| (Mark::Thing(index, corner), *at)));
        }
        for (index, known) in self.lengths.iter().enumerate() {
            all.extend(known.ends.iter().enumerate().map(|(end, at)| (Mark::Length(index, end), *at)));
        }
        let ends = self.wall.places().into_iter().enumerate();
        all.extend(ends.filter_map(|(index, at)| Some((Mark::End(index), at?))));
        for (index, line) in self.lines.iter().enumerate() {
            all.extend(line.points.get(line.points.len() / 2).map(|at| (Mark::Line(index), *at)));
        }
        all
    }

    /// The point nearest to a pixel, within so many pixels; a line is near wherever it runs.
    #[must_use]
    pub fn under(&self, at: Px, reach_px: f64) -> Option<Mark> {
        let far = |place: Px| {
            let [x, y] = [place[0] - at[0], place[1] - at[1]];
            (x * x + y * y).sqrt()
        };
        let points = self.points().into_iter().filter(|(mark, _)| !matches!(mark, Mark::Line(_)));
        let near = points.map(|(mark, place)| (mark, far(place))).filter(|(_, far)| *far <= reach_px);
        let nearest = near.min_by(|one, other| one.1.total_cmp(&other.1)).map(|(mark, _)| mark);
        let line = || {
            let lines = self.lines.iter().enumerate().filter_map(|(index, line)| {
                let off = line.points.windows(2).map(|pair| from_segment(at, pair[0], pair[1]));
                off.reduce(f64::min).map(|off| (Mark::Line(index), off))
            });
            let near = lines.filter(|(_, off)| *off <= reach_px * 0.6);
            near.min_by(|one, other| one.1.total_cmp(&other.1)).map(|(mark, _)| mark)
        };
        nearest.or_else(line)
    }

    /// Where a point is.
    #[must_use]
    pub fn place(&self, mark: Mark) -> Option<Px> {
        self.points().into_iter().find(|(own, _)| *own == mark).map(|(_, at)| at)
    }

    /// Puts a point somewhere else. Of the sheet, nothing is fitted while its corners are moved: a person sees better.
    ///
    /// # Errors
    ///
    /// Where there is no such point, or it would be nowhere near the photograph.
    pub fn put(&mut self, photograph: &Raster, mark: Mark, at: Px) -> Result<(), RoomError> {
        let gone = || RoomError::Mark(at[0], at[1]);
        self.in_sight(at)?;
        match mark {
            Mark::Corner(index) => {
                let mut corners = self.sheet.as_ref().ok_or_else(gone)?.corners;
                *corners.get_mut(index).ok_or_else(gone)? = at;
                self.mark_sheet(photograph, corners, false)?;
            }
            Mark::Length(index, end) => {
                let known = self.lengths.get_mut(index).ok_or_else(gone)?;
                *known.ends.get_mut(end).ok_or_else(gone)? = at;
            }
            Mark::End(index) => **self.wall.all().get_mut(index).ok_or_else(gone)? = Some(at),
            Mark::Thing(index, corner) => {
                let thing = self.things.get_mut(index).ok_or_else(gone)?;
                match corner {
                    0 | 1 => thing.corners[corner] = at,
                    _ => thing.foot = Some(at),
                }
            }
            Mark::Line(_) => {}
        }
        Ok(())
    }

    /// Takes a mark away as a whole; a line that was found is left out instead, and taken back the next time.
    pub fn remove(&mut self, mark: Mark) {
        match mark {
            Mark::Corner(_) => self.sheet = None,
            Mark::Line(index) => match self.lines.get_mut(index) {
                Some(line) if line.by_hand => drop(self.lines.remove(index)),
                Some(line) => line.left_out = !line.left_out,
                None => {}
            },
            Mark::Length(index, _) if index < self.lengths.len() => drop(self.lengths.remove(index)),
            Mark::End(index) => {
                if let Some(end) = self.wall.all().into_iter().nth(index) {
                    *end = None;
                }
            }
            Mark::Thing(index, _) if index < self.things.len() => drop(self.things.remove(index)),
            Mark::Length(..) | Mark::Thing(..) => {}
        }
    }

    /// What a point is called.
    #[must_use]
    pub fn called(&self, mark: Mark) -> String {
        let name = |thing: &Thing| thing.kind().map_or("thing", |kind| kind.name());
        match mark {
            Mark::Corner(index) => format!("{} of the sheet", CORNERS.get(index).unwrap_or(&"corner")),
            Mark::Line(index) => match self.lines.get(index) {
                Some(line) => {
                    let way = if line.way == super::estimate::Way::Level { "level" } else { "plumb" };
                    let out = if line.left_out { ", left out" } else { "" };
                    format!("{way} line {}{out}", index + 1)
                }
                None => "line".to_owned(),
            },
            Mark::Length(index, end) => {
                let side = if end == 0 { "first" } else { "second" };
                let length = self.lengths.get(index).map_or("", |known| known.length.as_str());
                format!("{side} end of the length {length}")
            }
            Mark::End(index) => (*ENDS.get(index).unwrap_or(&"end of the wall")).to_owned(),
            Mark::Thing(index, corner) => {
                let name = self.things.get(index).map_or("thing", name);
                match corner {
                    0 => format!("first corner of the {name}"),
                    1 => format!("second corner of the {name}"),
                    _ => format!("foot of the {name}"),
                }
            }
        }
    }
}

/// How far a pixel is from a straight piece of a line.
fn from_segment(at: Px, from: Px, to: Px) -> f64 {
    let (way, own) = ([to[0] - from[0], to[1] - from[1]], [at[0] - from[0], at[1] - from[1]]);
    let long = way[0] * way[0] + way[1] * way[1];
    let share = if long > 0.0 { ((own[0] * way[0] + own[1] * way[1]) / long).clamp(0.0, 1.0) } else { 0.0 };
    let off = [own[0] - way[0] * share, own[1] - way[1] * share];
    (off[0] * off[0] + off[1] * off[1]).sqrt()
}

/// How marks are drawn: a light line on a dark one, to be seen on any wall.
struct Pen<'a, 'b> {
    canvas: &'a mut PixmapMut<'b>,
    scale: f64,
    width: f32,
}

/// The lines' colours: the sheet, level, plumb, what is measured.
const SHEET: [u8; 3] = [0xff, 0x7a, 0x52];
const LEVEL: [u8; 3] = [0x7f, 0xd4, 0xff];
const PLUMB: [u8; 3] = [0xff, 0xdd, 0x66];
const MEASURED: [u8; 3] = [0xff, 0xff, 0xff];

impl Pen<'_, '_> {
    fn at(&self, [x, y]: Px) -> Point {
        Point::new(x * self.scale, y * self.scale)
    }

    fn line(&mut self, points: &[Px], closed: bool, colour: [u8; 3], is_faint: bool) {
        let mut path = BezPath::new();
        for (index, at) in points.iter().enumerate() {
            let at = self.at(*at);
            if index == 0 { path.move_to(at) } else { path.line_to(at) }
        }
        if closed {
            path.close_path();
        }
        let Some(path) = to_skia(&path) else { return };
        let wide = self.width;
        for (width, [red, green, blue], alpha) in [(2.6, [0; 3], 150), (1.3, colour, 255)] {
            let mut paint = Paint::default();
            paint.set_color_rgba8(red, green, blue, if is_faint { alpha / 2 } else { alpha });
            paint.anti_alias = true;
            let dash = if is_faint { StrokeDash::new(vec![4.0 * wide, 4.0 * wide], 0.0) } else { None };
            let stroke = Stroke { width: width * wide, line_cap: LineCap::Round, dash, ..Stroke::default() };
            self.canvas.stroke_path(&path, &paint, &stroke, Transform::identity(), None);
        }
    }

    fn ring(&mut self, at: Px, colour: [u8; 3], is_chosen: bool) {
        let at = self.at(at);
        let radius = f64::from(self.width) * if is_chosen { 7.0 } else { 4.5 };
        let circle = kurbo::Circle::new(at, radius);
        let Some(path) = to_skia(&kurbo::Shape::to_path(&circle, 0.1)) else { return };
        let mut fill = Paint::default();
        fill.set_color_rgba8(colour[0], colour[1], colour[2], if is_chosen { 90 } else { 40 });
        fill.anti_alias = true;
        self.canvas.fill_path(&path, &fill, FillRule::Winding, Transform::identity(), None);
        for (width, [red, green, blue], alpha) in [(2.8, [0; 3], 170), (1.4, colour, 255)] {
            let mut paint = Paint::default();
            paint.set_color_rgba8(red, green, blue, alpha);
            paint.anti_alias = true;
            let stroke = Stroke { width: width * self.width, ..Stroke::default() };
            self.canvas.stroke_path(&path, &paint, &stroke, Transform::identity(), None);
        }
    }
}

/// Draws all marks over a photograph that is drawn at so many of its pixels to one of the photograph's; `width` is that of a thin line.
pub fn draw(canvas: &mut PixmapMut<'_>, room: &Room, scale: f64, width: f32, chosen: Option<Mark>) {
    let mut pen = Pen { canvas, scale, width };
    for (index, line) in room.lines.iter().enumerate() {
        let colour = if line.way == super::estimate::Way::Level { LEVEL } else { PLUMB };
        pen.line(&line.points, false, colour, line.left_out);
        if chosen == Some(Mark::Line(index))
            && let Some(at) = line.points.get(line.points.len() / 2)
        {
            pen.ring(*at, colour, true);
        }
    }
    for thing in &room.things {
        let [[left, top], [right, bottom]] = thing.corners;
        pen.line(&[[left, top], [right, top], [right, bottom], [left, bottom]], true, MEASURED, false);
    }
    for known in &room.lengths {
        pen.line(&known.ends, false, MEASURED, false);
    }
    if let Some(sheet) = &room.sheet {
        pen.line(&sheet.corners, true, SHEET, false);
    }
    for (mark, at) in room.points() {
        let colour = if matches!(mark, Mark::Corner(_)) { SHEET } else { MEASURED };
        if !matches!(mark, Mark::Line(_)) {
            pen.ring(at, colour, chosen == Some(mark));
        }
    }
}
