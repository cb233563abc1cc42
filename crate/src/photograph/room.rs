//! What is marked in a photograph of a room: the sheet, lines, lengths, the ends of the wall, what stands before it. It is kept beside the
//! photograph as a file of its own and goes into no plan and no link.

use super::camera::{Camera, focal_px, usual_focal_px};
use super::estimate::{Estimate, FITTED_PX, MARK_PX, MarkedLength, MarkedLine, MarkedSheet, Marks, Way};
use super::grey::Grey;
use super::lines::{choose, way_of};
use super::paper::Paper;
use super::segments::{along, segments};
use super::sheet::{refine, sheets};
use crate::length::{Length, Unit, parse::parse};
use crate::plan::FixtureKind;
use crate::resample::Raster;
use kurbo::Point;
use serde::{Deserialize, Serialize};

mod error;
pub use error::RoomError;

/// Pixels of a photograph's longer side, at most: a larger one is reduced before it is kept.
pub const MOST_SIDE_PX: u32 = 2400;
/// Pixels of its lesser side, at least: less shows no sheet that could be measured.
pub const LEAST_SIDE_PX: u32 = 200;
/// Of lines, lengths, things and strokes, at most so many are kept.
const MOST_MARKS: usize = 200;
/// Points of a stroke, at most.
const MOST_POINTS: usize = 2000;
/// Something that looks so much like a sheet as the best does is told of.
const RIVAL: f64 = 0.8;
/// How much longer than high, or the other way about, a photograph may be: more is a panorama, whose lines are bent.
const MOST_ASPECT: f64 = 2.4;

/// A pixel of the photograph.
pub type Px = [f64; 2];

/// The room, as far as it is marked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Room {
    /// The version of this file: 1.
    pub overmantel_room: u8,
    /// The photograph's pixels, across and down.
    pub pixels: [u32; 2],
    /// The focal length for film of 36 × 24 mm that its file states, in millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub focal_35mm: Option<f64>,
    /// The sheet on the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<Sheet>,
    /// Edges that are level or plumb.
    #[serde(default)]
    pub lines: Vec<Line>,
    /// Lengths on the wall that somebody has measured.
    #[serde(default)]
    pub lengths: Vec<Known>,
    /// The ends of the wall.
    #[serde(default)]
    pub wall: Ends,
    /// What is on the wall and before it.
    #[serde(default)]
    pub things: Vec<Thing>,
    /// What stands before the pieces, painted by hand.
    #[serde(default)]
    pub strokes: Vec<Stroke>,
    /// Whether what stands before the wall is found by itself, too.
    #[serde(default = "yes")]
    pub finds_before: bool,
    /// From where the light comes; read off the wall when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub light_from: Option<LightFrom>,
    /// The lower left corner of the plan's wall, in millimetres to the right of the middle of the sheet and above it, where no ends of the wall
    /// are marked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hung: Option<[f64; 2]>,
}

fn yes() -> bool {
    true
}

/// A rectangle of known size, flat on the wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// Which paper it is; none for a rectangle of another size.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paper: Option<Paper>,
    /// Across and up, in millimetres, as it hangs.
    pub size_mm: [f64; 2],
    /// Top left, top right, bottom right, bottom left, as it hangs.
    pub corners: [Px; 4],
    /// How sure each corner is, in pixels: a standard deviation.
    pub off_px: f64,
    /// Whether it was marked by hand.
    #[serde(default)]
    pub by_hand: bool,
    /// Whether something else looks like a sheet, too.
    #[serde(default)]
    pub has_rival: bool,
}

/// An edge of something that is level or plumb.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// Which way it runs.
    pub way: Way,
    /// Pixels of it, from one end to the other.
    pub points: Vec<Px>,
    /// Whether it was drawn by hand.
    #[serde(default)]
    pub by_hand: bool,
    /// Whether it is left out.
    #[serde(default)]
    pub left_out: bool,
}

/// A length that somebody has measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Known {
    /// Its ends, on the wall.
    pub ends: [Px; 2],
    /// How long it is, as it was typed.
    pub length: String,
}

/// The ends of the wall: a pixel on each that is in sight.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ends {
    /// Where it ends to the left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<Px>,
    /// Where it ends to the right.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right: Option<Px>,
    /// Where it meets the ceiling.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ceiling: Option<Px>,
    /// Where it meets the floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor: Option<Px>,
}

/// Something on the wall or before it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thing {
    /// What it is, by its key in the plan file.
    pub kind: String,
    /// Two opposite corners of what is seen of it from the front.
    pub corners: [Px; 2],
    /// Where its front meets the floor, for what stands before the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub foot: Option<Px>,
    /// How far its front is from the wall, as it was typed, where it is not seen to meet the floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<String>,
}

/// A stroke of the brush, or an outline, by which what stands before the pieces is painted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stroke {
    /// Whether the pieces are hidden there; otherwise they are shown.
    pub hides: bool,
    /// Where it goes.
    pub points: Vec<Px>,
    /// How wide the brush is, in pixels from its middle; none for an outline that is filled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub radius: Option<f64>,
}

/// From where most light comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LightFrom {
    /// From the left.
    Left,
    /// From the right.
    Right,
    /// From above.
    Above,
    /// From below.
    Below,
    /// From everywhere.
    Around,
}

/// A hand-drawn line's pixels, at least.
const LEAST_LINE_PX: u32 = 40;

impl Room {
    /// A photograph of which nothing is known yet.
    ///
    /// # Errors
    ///
    /// Where it is too small, too large or a panorama.
    pub fn new(pixels: [u32; 2], focal_35mm: Option<f64>) -> Result<Self, RoomError> {
        let [width, height] = pixels;
        if width.min(height) < LEAST_SIDE_PX {
            return Err(RoomError::Small(width, height));
        }
        if width.max(height) > MOST_SIDE_PX {
            return Err(RoomError::Large(width, height));
        }
        if f64::from(width.max(height)) > f64::from(width.min(height)) * MOST_ASPECT {
            return Err(RoomError::Panorama(width, height));
        }
        // A focal length that no camera has is none: 5 to 400 mm.
        let focal_35mm = focal_35mm.filter(|focal| (5.0..=400.0).contains(focal));
        Ok(Self {
            overmantel_room: 1,
            pixels,
            focal_35mm,
            sheet: None,
            lines: Vec::new(),
            lengths: Vec::new(),
            wall: Ends::default(),
            things: Vec::new(),
            strokes: Vec::new(),
            finds_before: true,
            light_from: None,
            hung: None,
        })
    }

    /// Finds what can be found in a photograph by itself: the sheet, and lines along the wall. Says whether several things look like the
    /// sheet.
    ///
    /// # Errors
    ///
    /// As [`Self::new`].
    pub fn found(
        photograph: &Raster,
        focal_35mm: Option<f64>,
        paper: Option<Paper>,
    ) -> Result<Self, RoomError> {
        let mut room = Self::new([photograph.width_px(), photograph.height_px()], focal_35mm)?;
        let grey = Grey::of(photograph);
        let mut found = sheets(photograph, &grey);
        if let Some(paper) = paper {
            // Who says which paper it is knows; what has its shape comes first.
            crate::order::sort_by_key(&mut found, |sheet| sheet.paper != paper && sheet.other != Some(paper));
        }
        if let Some(sheet) = found.first() {
            let paper = paper.unwrap_or(sheet.paper);
            room.sheet = Some(Sheet {
                paper: Some(paper),
                size_mm: paper.hung(sheet.upright),
                corners: sheet.corners.map(|corner| [corner.x, corner.y]),
                off_px: sheet.sigma_px.clamp(0.3, 3.0),
                by_hand: false,
                has_rival: found.get(1).is_some_and(|other| other.score > RIVAL * sheet.score.min(1.0)),
            });
            room.find_lines(&grey);
        }
        Ok(room)
    }

    /// Finds lines along the wall again; those drawn by hand stay.
    pub fn find_lines(&mut self, grey: &Grey) {
        let Some(marks) = self.marks() else { return };
        self.lines.retain(|line| line.by_hand);
        if let Ok((lines, _)) =
            choose(&segments(grey), &Marks { lines: Vec::new(), lengths: Vec::new(), ..marks })
        {
            let points = |line: MarkedLine| line.points.iter().map(|at| [at.x, at.y]).collect();
            self.lines.extend(lines.into_iter().map(|line| Line {
                way: line.way,
                points: points(line),
                by_hand: false,
                left_out: false,
            }));
        }
    }

    /// Reads a room from a file.
    ///
    /// # Errors
    ///
    /// Where it is none, or its marks are not in its photograph.
    pub fn read(text: &str) -> Result<Self, RoomError> {
        let room: Self = serde_json::from_str(text).map_err(|why| RoomError::File(why.to_string()))?;
        if room.overmantel_room != 1 {
            return Err(RoomError::File(format!(
                "its version is {}, and this program reads 1",
                room.overmantel_room
            )));
        }
        Self::new(room.pixels, None)?;
        room.check()?;
        Ok(room)
    }

    /// Writes it as a file.
    #[must_use]
    pub fn write(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Sees that all of it can be.
    ///
    /// # Errors
    ///
    /// Where a mark is not in the photograph, a text no length, or there is too much of something.
    pub fn check(&self) -> Result<(), RoomError> {
        let counts = [self.lines.len(), self.lengths.len(), self.things.len(), self.strokes.len()];
        let is_long = |points: &Vec<Px>| points.len() > MOST_POINTS;
        if counts.into_iter().any(|count| count > MOST_MARKS)
            || self.lines.iter().any(|line| is_long(&line.points))
            || self.strokes.iter().any(|stroke| is_long(&stroke.points))
        {
            return Err(RoomError::Many);
        }
        if let Some(sheet) = &self.sheet {
            let sizes = sheet.size_mm.iter().all(|side| (10.0..=5000.0).contains(side));
            if !sizes || !(0.01..=50.0).contains(&sheet.off_px) {
                return Err(RoomError::File("its sheet has no size that could be".to_owned()));
            }
            sheet.corners.iter().try_for_each(|at| self.in_sight(*at))?;
        }
        let lines = self.lines.iter().flat_map(|line| &line.points);
        let lengths = self.lengths.iter().flat_map(|known| &known.ends);
        let things = self.things.iter().flat_map(|thing| thing.corners.iter().chain(&thing.foot));
        let Ends { left, right, ceiling, floor } = &self.wall;
        let ends = left.iter().chain(right).chain(ceiling).chain(floor);
        let strokes = self.strokes.iter().flat_map(|stroke| &stroke.points);
        lines
            .chain(lengths)
            .chain(things)
            .chain(ends)
            .chain(strokes)
            .try_for_each(|at| self.in_sight(*at))?;
        let mut radii = self.strokes.iter().filter_map(|stroke| stroke.radius);
        if let Some(radius) = radii.find(|radius| !(0.5..=1000.0).contains(radius)) {
            return Err(RoomError::File(format!("a brush of {radius} pixels is none")));
        }
        self.lengths.iter().try_for_each(|known| length_mm(&known.length).map(drop))?;
        self.things
            .iter()
            .filter_map(|thing| thing.depth.as_ref())
            .try_for_each(|depth| length_mm(depth).map(drop))?;
        self.things.iter().try_for_each(|thing| thing.kind().map(drop))?;
        if self.hung.is_some_and(|hung| hung.iter().any(|part| !part.is_finite() || part.abs() > 1e5)) {
            return Err(RoomError::File("its wall hangs nowhere".to_owned()));
        }
        Ok(())
    }

    /// Whether a mark is in the photograph, or not far beside it.
    pub(super) fn in_sight(&self, [x, y]: Px) -> Result<(), RoomError> {
        let [width, height] = self.pixels.map(f64::from);
        let is_near = |at: f64, most: f64| at.is_finite() && (-most..=2.0 * most).contains(&at);
        if is_near(x, width) && is_near(y, height) { Ok(()) } else { Err(RoomError::Mark(x, y)) }
    }

    /// What an estimate is made of; none without a sheet.
    #[must_use]
    pub fn marks(&self) -> Option<Marks> {
        let sheet = self.sheet.as_ref()?;
        let lines = self.lines.iter().filter(|line| !line.left_out && line.points.len() > 1);
        let lengths = self.lengths.iter().filter_map(|known| {
            Some(MarkedLength { ends: known.ends.map(point), mm: length_mm(&known.length).ok()? })
        });
        Some(Marks {
            size_px: self.pixels.map(f64::from),
            focal_35mm: self.focal_35mm,
            sheet: MarkedSheet {
                size_mm: sheet.size_mm,
                corners: sheet.corners.map(point),
                off_px: sheet.off_px.max(if sheet.by_hand { MARK_PX } else { 0.0 }),
            },
            lines: lines
                .map(|line| MarkedLine {
                    way: line.way,
                    points: line.points.iter().copied().map(point).collect(),
                    // Three points are as a hand drew them.
                    off_px: if line.by_hand && line.points.len() <= 3 { 2.0 * MARK_PX } else { FITTED_PX },
                })
                .collect(),
            lengths: lengths.collect(),
        })
    }

    /// The camera and the wall.
    ///
    /// # Errors
    ///
    /// Where there is no sheet, or the marks contradict each other.
    pub fn estimate(&self) -> Result<Estimate, RoomError> {
        let marks = self.marks().ok_or(RoomError::NoSheet)?;
        Ok(Estimate::of(&marks)?)
    }

    /// The sheet's corners.
    #[must_use]
    pub fn corners(&self) -> Option<[Point; 4]> {
        self.sheet.as_ref().map(|sheet| sheet.corners.map(point))
    }

    /// Marks the sheet's corners by hand; where the photograph shows edges there, they are fitted to them.
    ///
    /// # Errors
    ///
    /// Where a corner is nowhere near the photograph.
    pub fn mark_sheet(
        &mut self,
        photograph: &Raster,
        corners: [Px; 4],
        fitted: bool,
    ) -> Result<(), RoomError> {
        corners.iter().try_for_each(|at| self.in_sight(*at))?;
        let fit = if fitted { refine(photograph, corners.map(point)) } else { None };
        let (paper, size_mm) = match &self.sheet {
            Some(sheet) => (sheet.paper, sheet.size_mm),
            None => {
                let [a, b, _, d] = corners.map(point);
                (Some(Paper::A4), Paper::A4.hung((d - a).hypot2() >= (b - a).hypot2()))
            }
        };
        let corners = fit.map_or(corners, |fit| fit.map(|at| [at.x, at.y]));
        let off_px = MARK_PX;
        self.sheet = Some(Sheet { paper, size_mm, corners, off_px, by_hand: true, has_rival: false });
        Ok(())
    }

    /// Says which paper the sheet is; which way up it hangs follows from its corners.
    pub fn set_paper(&mut self, paper: Paper) {
        if let Some(sheet) = &mut self.sheet {
            let [a, b, _, d] = sheet.corners.map(point);
            sheet.size_mm = paper.hung((d - a).hypot2() >= (b - a).hypot2());
            sheet.paper = Some(paper);
        }
    }

    /// Says how large the rectangle is, across and up.
    ///
    /// # Errors
    ///
    /// Where a text is no length.
    pub fn set_size(&mut self, across: &str, up: &str) -> Result<(), RoomError> {
        let size_mm = [length_mm(across)?, length_mm(up)?];
        if let Some(sheet) = &mut self.sheet {
            (sheet.paper, sheet.size_mm) = (None, size_mm);
        }
        Ok(())
    }

    /// Adds a line along an edge that is level or plumb; it is fitted to the edge where there is one.
    ///
    /// # Errors
    ///
    /// Where it is short, or not in the photograph, or there are too many.
    pub fn add_line(&mut self, photograph: &Raster, [from, to]: [Px; 2]) -> Result<(), RoomError> {
        self.in_sight(from).and(self.in_sight(to))?;
        let (from, to) = (point(from), point(to));
        if (to - from).hypot2() < f64::from(LEAST_LINE_PX) * f64::from(LEAST_LINE_PX) {
            return Err(RoomError::ShortLine(LEAST_LINE_PX));
        }
        if self.lines.len() >= MOST_MARKS {
            return Err(RoomError::Many);
        }
        let found = along(&Grey::of(photograph), from, to);
        let points = found.map_or_else(|| vec![from, from.midpoint(to), to], |segment| segment.points);
        let camera = self.estimate().map(|estimate| estimate.camera).unwrap_or_else(|_| self.level_camera());
        let way = way_of(&points, &camera);
        let points = points.into_iter().map(|at| [at.x, at.y]).collect();
        self.lines.push(Line { way, points, by_hand: true, left_out: false });
        Ok(())
    }

    /// Adds a length that was measured on the wall.
    ///
    /// # Errors
    ///
    /// Where the text is no length, or an end is not in the photograph.
    pub fn add_length(&mut self, ends: [Px; 2], length: &str) -> Result<(), RoomError> {
        ends.iter().try_for_each(|at| self.in_sight(*at))?;
        length_mm(length)?;
        if self.lengths.len() >= MOST_MARKS {
            return Err(RoomError::Many);
        }
        self.lengths.push(Known { ends, length: length.to_owned() });
        Ok(())
    }

    /// Adds something on the wall or before it.
    ///
    /// # Errors
    ///
    /// Where it is of no kind there is, not in the photograph, or one too many.
    pub fn add_thing(&mut self, thing: Thing) -> Result<(), RoomError> {
        thing.kind()?;
        thing.corners.iter().try_for_each(|at| self.in_sight(*at))?;
        if self.things.len() >= MOST_MARKS {
            return Err(RoomError::Many);
        }
        self.things.push(thing);
        Ok(())
    }

    /// Says how far the front of a thing is from the wall; an empty text takes that back.
    ///
    /// # Errors
    ///
    /// Where the text is no length.
    pub fn set_depth(&mut self, index: usize, depth: &str) -> Result<(), RoomError> {
        let depth = Some(depth.trim()).filter(|depth| !depth.is_empty());
        depth.map(length_mm).transpose()?;
        if let Some(thing) = self.things.get_mut(index) {
            thing.depth = depth.map(str::to_owned);
        }
        Ok(())
    }

    /// Paints what stands before the pieces.
    ///
    /// # Errors
    ///
    /// Where it is too long, or one stroke too many.
    pub fn add_stroke(&mut self, mut stroke: Stroke) -> Result<(), RoomError> {
        if self.strokes.len() >= MOST_MARKS || stroke.points.is_empty() {
            return if stroke.points.is_empty() { Ok(()) } else { Err(RoomError::Many) };
        }
        // A long stroke keeps every so many of its points.
        let step = stroke.points.len().div_ceil(MOST_POINTS).max(1);
        stroke.points = stroke.points.into_iter().step_by(step).collect();
        stroke.points.iter().try_for_each(|at| self.in_sight(*at))?;
        stroke.radius = stroke.radius.map(|radius| radius.clamp(0.5, 1000.0));
        self.strokes.push(stroke);
        Ok(())
    }

    /// A camera that looks straight at a wall, before anything is known.
    fn level_camera(&self) -> Camera {
        let [width, height] = self.pixels.map(f64::from);
        let focal = self
            .focal_35mm
            .map_or_else(|| usual_focal_px([width, height]), |focal| focal_px(focal, [width, height]));
        Camera {
            rotation: nalgebra::Matrix3::from_diagonal(&nalgebra::Vector3::new(1.0, -1.0, -1.0)),
            translation: nalgebra::Vector3::new(0.0, 0.0, 3000.0),
            focal_px: focal,
            radial: 0.0,
            middle: Point::new(width / 2.0, height / 2.0),
        }
    }
}

impl Thing {
    /// What it is.
    ///
    /// # Errors
    ///
    /// Where there is no such kind.
    pub fn kind(&self) -> Result<FixtureKind, RoomError> {
        use crate::described::Choosable;
        FixtureKind::of_key(&self.kind).ok_or_else(|| RoomError::Kind(self.kind.clone()))
    }
}

fn point([x, y]: Px) -> Point {
    Point::new(x, y)
}

/// A length that a person typed, in millimetres; without a unit, centimetres.
///
/// # Errors
///
/// Where it is none, or none that a room has.
pub fn length_mm(text: &str) -> Result<f64, RoomError> {
    let length = parse(text, Unit::Centimetre).map_err(|_| RoomError::Length(text.to_owned()))?;
    if length < Length::mm(10) || length > Length::mm(20_000) {
        return Err(RoomError::LengthRange(text.to_owned()));
    }
    Ok(length.to_mm())
}
