//! A first plan for a wall: its pictures side by side, in their own shapes and all of one height, matted and framed, to be
//! changed from there.
//!
//! The group takes four sevenths of the wall's width or less, its middle at eye level; measures are common practice, no source.
//!
//! ```
//! use overmantel::{figures::Figures, geometry::Size, plan::{Picture, System}, stock::Stock, suggest::first_plan};
//! let harbour = Picture { name: "Harbour".into(), file: "harbour.jpg".into(), width_px: 4800, height_px: 6000, subject: None };
//! let plan = first_plan("First", Size::inches(144, 96), System::Inches, vec![harbour], &Stock::offered()).unwrap();
//! assert_eq!(plan.pieces[0].image, Size::inches(24, 30), "of 4 to 5 the largest on offer at 200 pixels to the inch");
//! ```

use crate::figures::{Figures, NoAnswer};
use crate::findings::{Severity, findings};
use crate::framing::build_up;
use crate::geometry::Size;
use crate::length::{Length, print::plain};
use crate::plan::{GroupAcross, GroupUp, Picture, Piece, Plan, System, Units, limits};
use crate::print::Exact;
use crate::rounding::Mode;
use crate::stock::{Stock, thresholds::UNDER_CEILING};
use std::fmt;

/// Why there is no first plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FirstError {
    /// There are more pictures than a plan has pieces.
    Pictures(usize),
    /// The wall has no room for so many.
    NoRoom {
        /// The wall.
        wall: Size,
        /// How many pieces.
        count: usize,
    },
    /// What was stated does not hold together.
    NoAnswer(#[from] NoAnswer),
}

impl fmt::Display for FirstError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pictures(given) => {
                write!(
                    f,
                    "{given} pictures were given, and a plan has 1 to {} pieces; give no more than that",
                    limits::PIECES
                )
            }
            Self::NoRoom { wall, count } => write!(
                f,
                "a wall of {} × {} has no room for {}; check the unit of the wall{}",
                plain(wall.width),
                plain(wall.height),
                if *count == 1 {
                    "a framed picture".into()
                } else {
                    format!("{count} framed pictures side by side")
                },
                if *count == 1 { "" } else { ", or give fewer pictures" }
            ),
            Self::NoAnswer(why) => why.fmt(f),
        }
    }
}

/// What is usual in one system of units, besides what the rows say.
struct Usual {
    /// Heights of images go down to a multiple of this, widths to the nearest sixteenth of an inch or millimetre.
    steps: [Length; 2],
    /// However coarse a file is, its picture is not made less high for that than this.
    least: Length,
}

impl Usual {
    const fn of(system: System) -> Self {
        match system {
            System::Inches => Self {
                steps: [Length::inches_ratio(1, 4), Length::inches_ratio(1, 16)],
                least: Length::inches(8),
            },
            System::Centimetres => Self { steps: [Length::mm(5), Length::mm(1)], least: Length::mm(200) },
        }
    }
}

/// A plan of these pictures, at most three, on a bare wall; without any, of three pieces that have none yet. Heights of images are
/// rounded down to 1/4 in or 5 mm, widths to the nearest 1/16 in or 1 mm.
///
/// Nothing of it cannot be made from the stock: where it could not, it is made smaller.
///
/// # Errors
/// When there are too many pictures, the wall has no room for them, or what is stated is out of range.
pub fn first_plan(
    title: &str,
    wall: Size,
    system: System,
    pictures: Vec<Picture>,
    stock: &Stock,
) -> Result<Plan, FirstError> {
    let given = pictures.len();
    if given > limits::PIECES {
        return Err(FirstError::Pictures(given));
    }
    let usual = Usual::of(system);
    let mut plan = bare(title, wall, system, pictures);
    plan.check().map_err(NoAnswer::from)?;
    let mut height = highest(&plan, stock)?;
    while height >= usual.steps[0] * 4 {
        let chosen = on_offer(&plan, stock, height).unwrap_or(height);
        for piece in 0..plan.pieces.len() {
            let width = times(chosen, shape(&plan, piece), Mode::HalfAway).to_nearest(usual.steps[1]);
            plan.pieces[piece].image = Size::new(width.max(usual.steps[1]), chosen);
        }
        // What is so narrow that its mat would close has no answer, and none when it is smaller.
        let Ok(figures) = Figures::of(&plan) else { break };
        let is_made = |severity: Severity| severity < Severity::CannotBeMade;
        if findings(&plan, &figures, stock).iter().all(|finding| is_made(finding.severity)) {
            return Ok(plan);
        }
        height = down(height.times_ratio(7, 8), usual.steps[0]);
    }
    Err(FirstError::NoRoom { wall, count: plan.pieces.len() })
}

/// The plan with all that does not follow from the pieces.
fn bare(title: &str, wall: Size, system: System, pictures: Vec<Picture>) -> Plan {
    let piece = |picture| Piece { picture, ..Piece::starting_in(system) };
    let pieces = match pictures.len() {
        0 => vec![piece(None); limits::PIECES],
        count => (0..count).map(|picture| piece(Some(picture))).collect(),
    };
    let mut plan = Plan {
        title: title.to_owned(),
        units: Units { first: system, both: false },
        fixtures: Vec::new(),
        pictures,
        pieces,
        ..Plan::starting_in(system)
    };
    plan.wall.size = wall;
    plan.wall.skirting = plan.wall.skirting.min(wall.height.times_ratio(1, 10));
    plan.group.across = GroupAcross::WallMiddle;
    // Below a low ceiling the middle of the wall is better.
    let is_low = plan.viewing.eye_level > wall.height.times_ratio(3, 4);
    plan.group.up = if is_low { GroupUp::CentreAt(wall.height.half()) } else { GroupUp::EyeLevel };
    plan
}

/// Width over height of a picture; without one, 4 to 5.
fn shape(plan: &Plan, piece: usize) -> Exact {
    let picture = plan.pieces[piece].picture.map(|picture| &plan.pictures[picture]);
    picture.map_or(Exact::new(4, 5), |px| Exact::new(px.width_px.into(), px.height_px.into()))
}

fn times(length: Length, factor: Exact, mode: Mode) -> Length {
    let units = Exact::from_integer(length.units().into()) * factor;
    Length::from_ratio(*units.numer(), *units.denom(), mode)
}

/// Down to a multiple of a step.
fn down(length: Length, step: Length) -> Length {
    step * length.units().div_euclid(step.units())
}

/// The height of images with which the group keeps to its part of the wall, and no file is coarser than wished.
fn highest(plan: &Plan, stock: &Stock) -> Result<Length, FirstError> {
    let usual = Usual::of(plan.units.first);
    let (wall, count) = (plan.wall.size, i64::try_from(plan.pieces.len()).unwrap_or(1));
    let stated = &plan.pieces[0];
    let outside = build_up(stated).map_err(|why| NoAnswer::Framing { piece: None, why })?.outside;
    let around = Size::new(outside.width - stated.image.width, outside.height - stated.image.height);
    let shapes: Exact = (0..plan.pieces.len()).map(|piece| shape(plan, piece)).sum();
    let across = wall.width.times_ratio(4, 7) - around.width * count - plan.group.gap * (count - 1);
    let centre = match plan.group.up {
        GroupUp::CentreAt(centre) => centre,
        _ => plan.viewing.eye_level,
    };
    let room = stock.limit(&UNDER_CEILING).min(wall.height.times_ratio(1, 16));
    let up = (centre.min(wall.height - centre) - room) * 2;
    let up = up.min(wall.height.times_ratio(4, 7)) - around.height;
    let sharp = plan.pictures.iter().map(|picture| {
        let inches = Exact::new(picture.height_px.into(), plan.fineness.max(1).into());
        times(Length::inches(1), inches, Mode::Down).max(usual.least)
    });
    let most = times(across, shapes.recip(), Mode::Down).min(up);
    Ok(down(sharp.fold(most, Length::min), usual.steps[0]))
}

/// The height of the largest print on offer in the shape that all pictures have, where it is not much less than this.
fn on_offer(plan: &Plan, stock: &Stock, most: Length) -> Option<Length> {
    let wanted = shape(plan, 0);
    if (1..plan.pieces.len()).any(|piece| shape(plan, piece) != wanted) {
        return None;
    }
    let of_system = stock.sizes.iter().filter(|row| row.is_print && row.system == plan.units.first);
    let heights = of_system.filter_map(|row| {
        let Size { width, height } = row.size;
        let alike = |across: Length, up: Length| {
            (Exact::new(across.units().into(), up.units().into()) == wanted).then_some(up)
        };
        alike(width, height).or_else(|| alike(height, width))
    });
    heights.filter(|height| (most.times_ratio(2, 3)..=most).contains(height)).max()
}
