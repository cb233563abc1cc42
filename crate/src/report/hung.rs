//! A report on how things hang: the pull on hooks and wires, and the wall between and round the pieces.

use super::basic::*;
use super::piece::{seen, seen_px};
use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::{Rect, Size};
use crate::hang::{Hanging, Wire};
use crate::length::Length;
use crate::plan::{Arrangement, Plan};
use crate::print::Exact;
use crate::weigh::{Mass, hundredths_of_newton};
use serde::Serialize;

/// The pull on hooks, wire and rings from the weight that is known (see `not_weighed` of what hangs), with the piece at rest.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LoadReport {
    /// The pull down on each hook: all of the weight on one hook, half of it on each of two, and on each end of a cleat.
    pub per_hook: Force,
    /// Along each leg of the wire: half of the weight over the sine of the leg's angle above the horizontal. Null without a wire, and where it does not rise above its rings.
    pub wire_tension: Option<Force>,
    /// The pull inwards on each ring: half of the weight over the tangent of that angle. Null where the tension is.
    pub ring_inward: Option<Force>,
}

/// A force.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Force {
    /// The most likely, in newtons, to 2 decimals.
    pub likely_newtons: f64,
    /// The most that is expected, in newtons, to 2 decimals.
    pub most_newtons: f64,
    /// The weight that pulls as hard.
    pub as_weight: Weight,
}

/// The gap between a piece and the next: in a row from left to right, in a column from the top down.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct GapReport {
    /// The two pieces, counted from 1.
    pub between: [usize; 2],
    /// From the outside of one to the outside of the next; null where they share a frame.
    pub outside: Option<Measure>,
    /// From the printed image of one to that of the other, including what a mat or a lip hides of them.
    pub image: Measure,
    /// From the visible part of one image to the visible part of the other.
    pub seen: Measure,
    /// Pixels of the picture that are on neither piece, across the gap (to 6 decimals): 0 where nothing is hidden, less than 0 where the edges of both show the same pixels. Null where the pieces don't share a picture.
    pub pixels_behind: Option<f64>,
    /// Pixels of the picture from the visible part of one piece to the visible part of the other (to 6 decimals); null as above.
    pub pixels_not_seen: Option<f64>,
}

/// How much wall is left round the outside of a piece. A negative length says how far the piece extends beyond.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ClearancesReport {
    /// From its top edge to the ceiling.
    pub ceiling: Measure,
    /// From the floor to its bottom edge.
    pub floor: Measure,
    /// From the left corner of the wall to its left edge.
    pub left_corner: Measure,
    /// From its right edge to the right corner of the wall.
    pub right_corner: Measure,
    /// To each fixture, in the order of the plan; to the casing of a door or a window.
    pub fixtures: Vec<FixtureClearance>,
}

/// From a piece to a fixture, horizontally and vertically, not diagonally. All four are null where one is in front of the other.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FixtureClearance {
    /// The fixture's name.
    pub name: String,
    /// From the piece's left edge to the fixture, where that is to its left.
    pub left: Option<Measure>,
    /// From the piece's top edge to the fixture, where that is above it.
    pub above: Option<Measure>,
    /// From the piece's right edge to the fixture, where that is to its right.
    pub right: Option<Measure>,
    /// From the piece's bottom edge to the fixture, where that is below it.
    pub below: Option<Measure>,
}

/// What the hooks carry of a weight; nothing where nothing is weighed.
pub(super) fn load(hung: &Hanging, mass: Mass) -> Option<LoadReport> {
    if mass.most_mg <= 0 {
        return None;
    }
    let count = i128::try_from(hung.hooks.len()).unwrap_or(1).max(1);
    let of = |factor| force(mass.times(factor));
    Some(LoadReport {
        per_hook: of(Exact::new(1, count)),
        wire_tension: hung.wire.and_then(Wire::pull).map(of),
        ring_inward: hung.wire.and_then(Wire::pull_inwards).map(of),
    })
}

fn force(mass: Mass) -> Force {
    let newtons = |milligrams| number(Exact::new(hundredths_of_newton(milligrams), 100));
    Force {
        likely_newtons: newtons(mass.likely_mg),
        most_newtons: newtons(mass.most_mg),
        as_weight: weight(mass),
    }
}

/// The gaps between the pieces of a plan.
pub(super) fn gap_reports(plan: &Plan, figures: &Figures) -> Vec<GapReport> {
    (1..plan.pieces.len()).map(|next| gap(plan, figures, [next - 1, next])).collect()
}

fn gap(plan: &Plan, figures: &Figures, pieces: [usize; 2]) -> GapReport {
    let is_mixed = plan.group.arrangement.is_mixed();
    let is_stacked = plan.group.arrangement == Arrangement::Column || is_mixed && pieces[0] > 0;
    // From left to right, or from the top down.
    let is_turned = plan.group.arrangement == Arrangement::StackLeft && !is_stacked;
    let pieces = if is_turned { [pieces[1], pieces[0]] } else { pieces };
    let between = |of: fn(&BuildUp) -> Rect| {
        let [one, other] = pieces.map(|piece| figures.on_wall(piece, of(&figures.build_ups[piece])));
        measure(if is_stacked { one.y - other.top() } else { other.x - one.right() })
    };
    let pixels = |is_seen: bool| {
        plan.split?;
        let [one, other] = pieces.map(|piece| {
            let (cut, sizes) = (figures.cuts[piece].as_ref(), &figures.build_ups[piece]);
            cut.and_then(|cut| if is_seen { seen_px(sizes, cut) } else { Some(cut.source) })
        });
        let (one, other) = (one?, other?);
        Some(number(if is_stacked {
            other.top - one.top - one.height
        } else {
            other.left - one.left - one.width
        }))
    };
    GapReport {
        between: pieces.map(|piece| piece + 1),
        outside: plan
            .shared
            .is_none()
            .then(|| between(|sizes| Rect::new(Length::ZERO, Length::ZERO, sizes.outside))),
        image: between(|sizes| sizes.image),
        seen: between(|sizes| seen(sizes).unwrap_or(sizes.image)),
        pixels_behind: pixels(false),
        pixels_not_seen: pixels(true),
    }
}

/// How much wall is left round a piece.
pub(super) fn clearances(plan: &Plan, figures: &Figures, piece: usize) -> ClearancesReport {
    let (outside, Size { width, height }) = (figures.arranged.outsides[piece], plan.wall.size);
    let fixtures = plan.fixtures.iter().zip(&figures.arranged.taken);
    ClearancesReport {
        ceiling: measure(height - outside.top()),
        floor: measure(outside.y),
        left_corner: measure(outside.x),
        right_corner: measure(width - outside.right()),
        fixtures: fixtures.map(|(fixture, &taken)| from_to(outside, &fixture.name, taken)).collect(),
    }
}

fn from_to(outside: Rect, name: &str, taken: Rect) -> FixtureClearance {
    let free = |length: Length| (length >= Length::ZERO).then(|| measure(length));
    FixtureClearance {
        name: name.to_owned(),
        left: free(outside.x - taken.right()),
        above: free(taken.y - outside.top()),
        right: free(taken.x - outside.right()),
        below: free(outside.y - taken.top()),
    }
}
