//! Lengths read off a photograph: each with how far off it may be, in the plan's units; what is not sure enough, and what would help; and
//! what of it goes into a plan.

use super::camera::Camera;
use super::estimate::{Estimate, PLUS_MINUS};
use super::room::{Room, RoomError, Thing, length_mm};
use crate::fields;
use crate::length::Length;
use crate::measure::{self, Grade};
use crate::plan::{Across, Plan, System, Units};
use kurbo::Point;
use nalgebra::Vector3;
use serde::Serialize;

/// A length of a group this wide that may be off by more than this is said, in millimetres.
pub const DOUBTFUL_MM: f64 = 20.0;
/// The same, as a share of it.
const DOUBTFUL_SHARE: f64 = 0.02;
/// Two metres from the sheet: as far as many groups reach.
const AFAR_MM: f64 = 2000.0;

/// A length with how far off it may be.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Measured {
    /// What it is the length of, in the words of the plan's units.
    pub what: String,
    /// The length in millimetres.
    pub mm: f64,
    /// How far off it may be, in millimetres: 95 of 100 are within it.
    pub plus_minus_mm: f64,
    /// Both as a person reads them.
    pub text: String,
    /// Whether it is too uncertain to plan by.
    pub is_doubtful: bool,
}

/// Something that a person should know of a photograph.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Note {
    /// A stable name.
    pub code: &'static str,
    /// Whether something is wrong; otherwise it is good to know.
    pub is_warning: bool,
    /// What it is, and what helps.
    pub text: String,
}

impl Note {
    pub(super) fn warning(code: &'static str, text: String) -> Self {
        Self { code, is_warning: true, text }
    }

    fn said(code: &'static str, text: &str) -> Self {
        Self { code, is_warning: false, text: text.to_owned() }
    }
}

/// The width of the pieces where they hang, with how far off the photograph may be there; and what is to be said of it where that is more
/// than it should be.
#[must_use]
pub fn of_group(figure: (f64, f64), units: Units) -> (Measured, Option<Note>) {
    let told = measured("width of the pieces, where they hang".to_owned(), figure, units);
    let note = told.is_doubtful.then(|| {
        let off = plus_minus(told.plus_minus_mm, units);
        Note::warning(
            "group",
            format!("Where the pieces hang, the photograph may be wrong by {off} over their width. Mark more lines or a measured length, or hang them nearer to the sheet."),
        )
    });
    (told, note)
}

/// A length in millimetres as the core has it: to a tenth of a millimetre.
#[expect(clippy::cast_possible_truncation, reason = "rooms are not that large")]
fn length(mm: f64) -> Length {
    Length::micrometres((libm::round(mm * 10.0) as i64).clamp(-1_000_000, 1_000_000) * 100)
}

/// A length to the step that its uncertainty allows: half inches or centimetres.
fn stepped(mm: f64, system: System) -> Length {
    let step = match system {
        System::Inches => Length::inches(1).half(),
        System::Centimetres => Length::mm(10),
    };
    length(mm).to_nearest(step)
}

/// A length in millimetres as a person reads it, to the millimetre or the eighth of an inch.
#[must_use]
pub fn shown_mm(mm: f64, units: Units) -> String {
    measure::print_in(length(mm), Grade::Piece, units.first)
}

/// How far off something may be, as a person reads it: never less than there is, never nothing.
fn plus_minus(mm: f64, units: Units) -> String {
    let one = |system: System| {
        let step = match system {
            System::Inches => Length::inches_ratio(1, 8),
            System::Centimetres => Length::mm(1),
        };
        let up = length(mm + step.to_mm() / 2.0).to_nearest(step).max(step);
        measure::print_in(up, Grade::Piece, system)
    };
    if units.both { format!("{} ({})", one(units.first), one(units.first.other())) } else { one(units.first) }
}

fn measured(what: String, (mm, sigma): (f64, f64), units: Units) -> Measured {
    let off = PLUS_MINUS * sigma;
    let step = match units.first {
        System::Inches => Length::inches_ratio(1, 8),
        System::Centimetres => Length::mm(1),
    };
    let shown = measure::shown(length(mm).to_nearest(step), Grade::Piece, units);
    Measured {
        what,
        mm,
        plus_minus_mm: off,
        text: format!("{shown} ± {}", plus_minus(off, units)),
        is_doubtful: off > DOUBTFUL_MM || off > DOUBTFUL_SHARE * mm.abs(),
    }
}

fn at([x, y]: [f64; 2]) -> Point {
    Point::new(x, y)
}

impl Room {
    /// Everything that is marked, measured.
    #[must_use]
    pub fn measured(&self, estimate: &Estimate, units: Units) -> Vec<Measured> {
        let mut all = Vec::new();
        let mut add = |what: &str, figure: Option<(f64, f64)>| {
            let what = crate::words::in_units(what, units.first).into_owned();
            all.extend(figure.map(|figure| measured(what, figure, units)));
        };
        add("width of the wall", self.wall_width(estimate));
        add("height of the wall", self.wall_height(estimate));
        for thing in &self.things {
            let (Ok(kind), Some(seen)) = (thing.kind(), self.seen(thing)) else { continue };
            let (name, figures) = (kind.name(), self.figures(&seen, estimate));
            add(&format!("width of the {name}"), figures.width);
            add(&format!("height of the {name}"), figures.height);
            add(&format!("top of the {name}, from the floor"), figures.top);
            if !kind.stands_before_wall() {
                add(&format!("foot of the {name}, from the floor"), figures.foot);
            }
            add(&format!("left edge of the {name}, from the left corner"), figures.left);
            add(&format!("front of the {name}, from the wall"), figures.out);
        }
        all
    }

    /// The wall's width, where both of its ends are marked.
    fn wall_width(&self, estimate: &Estimate) -> Option<(f64, f64)> {
        let ends = [at(self.wall.left?), at(self.wall.right?)];
        estimate.figure(&ends, |camera, at| Some(camera.place(at[1], 0.0)?.x - camera.place(at[0], 0.0)?.x))
    }

    /// The wall's height, where ceiling and floor are marked.
    fn wall_height(&self, estimate: &Estimate) -> Option<(f64, f64)> {
        let ends = [at(self.wall.floor?), at(self.wall.ceiling?)];
        estimate.figure(&ends, |camera, at| Some(camera.place(at[1], 0.0)?.y - camera.place(at[0], 0.0)?.y))
    }

    /// A thing with what says how far before the wall it is; none where nothing does.
    fn seen(&self, thing: &Thing) -> Option<SeenThing> {
        let kind = thing.kind().ok()?;
        let depth = thing.depth.as_ref().and_then(|depth| length_mm(depth).ok());
        let foot = thing.foot.zip(self.wall.floor).map(|(foot, floor)| [at(foot), at(floor)]);
        if kind.stands_before_wall() && depth.is_none() && foot.is_none() {
            return None;
        }
        Some(SeenThing {
            corners: thing.corners.map(at),
            foot: if depth.is_some() { None } else { foot },
            depth,
        })
    }

    /// Every figure of a thing that its marks and the wall's ends allow.
    fn figures(&self, seen: &SeenThing, estimate: &Estimate) -> ThingFigures {
        let side = |axis: usize| {
            estimate.figure(&seen.pixels(None), |camera, at| {
                let [one, other] = seen.corners(camera, at)?;
                Some((one[axis] - other[axis]).abs())
            })
        };
        // The lower or the upper end along an axis, from a mark on an end of the wall.
        let from_end = |end: Option<[f64; 2]>, axis: usize, is_upper: bool| {
            estimate.figure(&seen.pixels(Some(at(end?))), |camera, at| {
                let [one, other] = seen.corners(camera, at)?.map(|corner| corner[axis]);
                let own = if is_upper { one.max(other) } else { one.min(other) };
                Some(own - camera.place(*at.last()?, 0.0)?[axis])
            })
        };
        ThingFigures {
            width: side(0),
            height: side(1),
            top: from_end(self.wall.floor, 1, true),
            foot: from_end(self.wall.floor, 1, false),
            left: from_end(self.wall.left, 0, false),
            out: seen
                .foot
                .and_then(|_| estimate.figure(&seen.pixels(None), |camera, at| seen.out(camera, at))),
        }
    }

    /// What a person should know of it.
    #[must_use]
    pub fn notes(&self, units: Units) -> Vec<Note> {
        let mut notes = Vec::new();
        let estimate = match self.estimate() {
            Ok(estimate) => estimate,
            Err(why) => {
                let text = capital(&why.to_string());
                return vec![Note::warning("no_wall", format!("{text}."))];
            }
        };
        let camera = &estimate.camera;
        // The wall's up should be up in the picture; a sheet on a table lies back.
        let up = camera.rotation.column(1);
        let out = camera.rotation.column(2);
        if up.y > -0.7 || out.z > -0.35 {
            notes.push(Note::warning(
                "not_on_wall",
                "The sheet seems to lie on a table or the floor, or hangs turned. Tape it flat and upright to the wall, and take the photograph from before it.".to_owned(),
            ));
        } else if estimate.strain > 3.0 {
            notes.push(Note::warning(
                "contradiction",
                "The marks contradict each other: a line that is not level or plumb, a length that is another, or a sheet that is not in the wall's plane. Leave out the line that fits least, or mark the sheet again.".to_owned(),
            ));
        }
        if self.sheet.as_ref().is_some_and(|sheet| sheet.has_rival) {
            notes.push(Note::warning(
                "two_sheets",
                "Several things look like a sheet of paper. If the one that is marked is not the sheet, mark that instead."
                    .to_owned(),
            ));
        }
        let lines = self.lines.iter().filter(|line| !line.left_out).count();
        if let Some(off) = off_afar(&estimate) {
            let text = plus_minus(PLUS_MINUS * off, units);
            if PLUS_MINUS * off > DOUBTFUL_MM {
                let afar = measure::shown(length(AFAR_MM), Grade::Piece, units);
                let help = match lines {
                    0..3 => {
                        "Mark edges that are level or plumb (skirting, ceiling, a door's casing), or a length on the wall that you have measured; a larger sheet helps, too."
                    }
                    _ => "A length on the wall that you have measured helps, and a larger sheet.",
                };
                let help = crate::words::in_units(help, units.first);
                notes.push(Note::warning(
                    "afar",
                    format!("{afar} from the sheet, places on the wall may be off by {text}. {help}"),
                ));
            }
        }
        if self.focal_35mm.is_none() {
            notes.push(Note::said("no_focal", "The photograph's file does not say with which focal length it was taken, so that is estimated, too: an original file from the camera is surer than one sent by a messenger."));
        }
        for thing in &self.things {
            let Ok(kind) = thing.kind() else { continue };
            if kind.stands_before_wall() && self.seen(thing).is_none() {
                notes.push(Note::warning(
                    "no_depth",
                    format!("How far before the wall is the {}? Mark where its front meets the floor (and where the wall does), or type how deep it is.", kind.name()),
                ));
            }
        }
        notes.push(Note::said(
            "limits",
            "Good to about a centimetre near the sheet. A phone's own tone curve is not known, screens differ, two colours of light are met roughly, and wide-angle corners are not. Measure the wall before you drill.",
        ));
        notes
    }

    /// Where the lower left corner of a plan's wall is, in millimetres from the middle of the sheet: by the marked ends of the wall, or where
    /// it was put, or so that this place on the plan's wall is in the middle of the sheet.
    #[must_use]
    pub fn hung(&self, camera: &Camera, middle: crate::geometry::Point) -> super::view::Hung {
        let place = |end: Option<[f64; 2]>| camera.place(at(end?), 0.0);
        let put = self.hung;
        let right_mm =
            place(self.wall.left).map(|left| left.x).or(put.map(|put| put[0])).unwrap_or(-middle.x.to_mm());
        let up_mm = place(self.wall.floor)
            .map(|floor| floor.y)
            .or(put.map(|put| put[1]))
            .unwrap_or(-middle.y.to_mm());
        super::view::Hung { right_mm, up_mm }
    }

    /// A plan with what was measured: the wall's size where its ends are marked, and what stands before it; how far off all of that may be
    /// goes along.
    ///
    /// # Errors
    ///
    /// Where there is no estimate, or the plan takes no more fixtures.
    pub fn taken_into(&self, plan: &Plan) -> Result<Plan, RoomError> {
        let estimate = self.estimate()?;
        let mut plan = plan.clone();
        let system = plan.units.first;
        let mut worst: f64 = 0.0;
        let mut note = |figure: Option<(f64, f64)>| {
            let (mm, sigma) = figure?;
            worst = worst.max(PLUS_MINUS * sigma);
            Some(stepped(mm, system))
        };
        if let Some(width) = note(self.wall_width(&estimate)) {
            plan.wall.size.width = width;
        }
        if let Some(height) = note(self.wall_height(&estimate)) {
            plan.wall.size.height = height;
        }
        let mut used = vec![false; plan.fixtures.len()];
        for thing in &self.things {
            let (kind, Some(seen)) = (thing.kind()?, self.seen(thing)) else { continue };
            let figures = self.figures(&seen, &estimate);
            let known = plan.fixtures.iter().enumerate().position(|(index, fixture)| {
                fixture.kind == kind && !used.get(index).copied().unwrap_or(true)
            });
            let index = match known {
                Some(index) => index,
                None => {
                    fields::fixture::add(&mut plan, kind).map_err(|why| RoomError::Plan(why.to_string()))?;
                    used.push(false);
                    plan.fixtures.len() - 1
                }
            };
            used[index] = true;
            let (width, height) = (note(figures.width), note(figures.height));
            let (top, foot, left) = (note(figures.top), note(figures.foot), note(figures.left));
            let out = note(figures.out).or(seen.depth.map(|depth| stepped(depth, system)));
            let Some(fixture) = plan.fixtures.get_mut(index) else { continue };
            fixture.size.width = width.unwrap_or(fixture.size.width);
            // What stands on the floor is as high as its top; its feet are hidden or cut off.
            let stands = kind.stands_before_wall();
            fixture.size.height = if stands { top.or(height) } else { height }.unwrap_or(fixture.size.height);
            if !stands {
                fixture.from_floor = foot.unwrap_or(fixture.from_floor).max(Length::ZERO);
            }
            if let Some(left) = left {
                fixture.across = Across::FromLeft(left.max(Length::ZERO));
            }
            if let Some(out) = out.filter(|out| kind.has_depth() && *out > Length::ZERO) {
                fixture.depth = out;
            }
        }
        plan.from_photograph = (worst > 0.0).then(|| length(libm::ceil(worst)));
        Ok(plan)
    }
}

/// How far off places two metres from the sheet may be, the worst of both sides: a standard deviation.
#[must_use]
pub fn off_afar(estimate: &Estimate) -> Option<f64> {
    let both = [estimate.off_at(AFAR_MM, 0.0), estimate.off_at(-AFAR_MM, 0.0)];
    both.into_iter().flatten().reduce(f64::max)
}

/// What is measured of a thing, each with a standard deviation; none where no mark says.
struct ThingFigures {
    width: Option<(f64, f64)>,
    height: Option<(f64, f64)>,
    /// From the floor to its upper and its lower edge.
    top: Option<(f64, f64)>,
    foot: Option<(f64, f64)>,
    /// From the left end of the wall to its left edge.
    left: Option<(f64, f64)>,
    /// From the wall to its front, by where that meets the floor.
    out: Option<(f64, f64)>,
}

/// A thing as it is seen, with what says how far before the wall its front is.
struct SeenThing {
    corners: [Point; 2],
    /// Where its front meets the floor, and where the wall does.
    foot: Option<[Point; 2]>,
    depth: Option<f64>,
}

impl SeenThing {
    /// All pixels that it is measured by, and one on an end of the wall.
    fn pixels(&self, end: Option<Point>) -> Vec<Point> {
        self.corners.into_iter().chain(self.foot.into_iter().flatten()).chain(end).collect()
    }

    /// How far before the wall its front is.
    fn out(&self, camera: &Camera, at: &[Point]) -> Option<f64> {
        if self.foot.is_none() {
            return Some(self.depth.unwrap_or(0.0));
        }
        let floor = camera.place(*at.get(3)?, 0.0)?.y;
        camera.on_floor(*at.get(2)?, floor).map(|place| place.z.max(0.0))
    }

    /// Its corners in the room.
    fn corners(&self, camera: &Camera, at: &[Point]) -> Option<[Vector3<f64>; 2]> {
        let out = self.out(camera, at)?;
        Some([camera.place(*at.first()?, out)?, camera.place(*at.get(1)?, out)?])
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
