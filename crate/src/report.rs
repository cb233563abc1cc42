//! The report: every computed measure as documented data, for programs that go on from here.
//!
//! Each length is given three ways: exactly as text, and as numbers in inches and millimetres (to 6 decimals). Points are
//! measured from the lower left corner of the wall; widths stand before heights. The format is described by the JSON Schema in
//! `schema/figures.schema.json`, which is derived from the structs of this module.

use crate::asked;
use crate::figures::Figures;
use crate::making::making;
use crate::mend;
use crate::plan::Plan;
use crate::stock::Stock;
use crate::weigh::Mass;
use serde::Serialize;

mod basic;
mod findings;
mod fits;
mod hung;
mod made;
mod piece;
mod prices;
mod suggestions;
mod ways;
mod works;

pub use basic::*;
pub use findings::*;
pub use fits::*;
pub use hung::*;
pub use made::*;
pub use piece::*;
pub use prices::*;
pub use suggestions::*;
pub use ways::*;
pub use works::*;

/// Everything computed for a plan.
///
/// ```
/// use overmantel::{figures::Figures, plan::Plan, report::report, stock::Stock};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let plan = Plan::starting();
/// let told = report(&plan, &Figures::of(&plan)?, &Stock::offered(), 1);
/// let json = serde_json::to_value(&told)?;
/// // 20 + 1/8 + 2 × 1/2 = 21 1/8 (see `Figures`).
/// assert_eq!(json["pieces"][0]["frame"]["outside"]["width"]["exact"], "21 1/8 in");
/// # Ok(())
/// # }
/// ```
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel figures"))]
pub struct Report {
    /// The version of this form, a whole number: 1. It rises when a name goes or changes its meaning; new names come without that.
    pub version: u8,
    /// The plan's title.
    pub title: String,
    /// The wall.
    pub wall: Extent,
    /// Each fixture, in the order of the plan.
    pub fixtures: Vec<FixtureReport>,
    /// The rectangle round all pieces.
    pub group: Place,
    /// From the floor to the middle of the group.
    pub group_centre_height: Measure,
    /// From the left corner of the wall to the group.
    pub margin_left: Measure,
    /// From the group to the right corner of the wall.
    pub margin_right: Measure,
    /// Each piece, in the order of the plan. Pieces that share a frame have the same place, frame and hooks.
    pub pieces: Vec<PieceReport>,
    /// The gaps between one piece and the next; empty for a single piece.
    pub gaps: Vec<GapReport>,
    /// What hangs, and what it takes to make it: each piece by itself, or all in one frame.
    pub things: Vec<ThingReport>,
    /// The moulding to buy, for each kind of moulding.
    pub moulding: Vec<MouldingReport>,
    /// The sheets to buy for everything, by material and thickness.
    pub sheets: Vec<SheetsReport>,
    /// The sizes that suit each piece's picture.
    pub fits: Vec<FitsReport>,
    /// What to order for the frame in hand, for each piece; null when none is stated.
    pub in_hand: Option<Vec<InHandReport>>,
    /// How large the images may be in the space stated; null when none is.
    pub space: Option<SpaceReport>,
    /// What is unwise.
    pub findings: Vec<FindingReport>,
}

/// A fixture.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FixtureReport {
    /// Its name.
    pub name: String,
    /// Where it is.
    pub place: Place,
}

/// Reports on a plan made from a stock, with at most this many fits of each way for each piece.
#[must_use]
pub fn report(plan: &Plan, figures: &Figures, stock: &Stock, most_fits: usize) -> Report {
    let made = making(plan, figures, stock);
    let pieces = 0..plan.pieces.len();
    let group = figures.arranged.group;
    let weight_of = |piece: usize| {
        let thing = made.things.iter().find(|thing| thing.pieces.contains(&piece));
        thing.map_or(Mass::default(), |thing| thing.mass)
    };
    Report {
        version: VERSION,
        title: plan.title.clone(),
        wall: extent(plan.wall.size),
        fixtures: plan
            .fixtures
            .iter()
            .zip(&figures.arranged.fixtures)
            .map(|(fixture, &rect)| FixtureReport { name: fixture.name.clone(), place: place(rect) })
            .collect(),
        group: place(group),
        group_centre_height: measure(group.centre().y),
        margin_left: measure(group.x),
        margin_right: measure(plan.wall.size.width - group.right()),
        pieces: pieces.clone().map(|index| piece_report(plan, figures, index, weight_of(index))).collect(),
        gaps: gap_reports(plan, figures),
        things: made.things.iter().map(|thing| thing_report(plan, figures, stock, thing)).collect(),
        moulding: made.mouldings.iter().map(moulding_report).collect(),
        sheets: made.sheets.iter().map(sheets_report).collect(),
        fits: pieces.clone().map(|index| fits_report(plan, figures, stock, index, most_fits)).collect(),
        in_hand: pieces
            .map(|index| Some(in_hand_report(index, &asked::in_hand(plan, figures, index)?)))
            .collect(),
        space: space_report(plan, figures),
        findings: mend::findings(plan, figures, stock).iter().map(finding_report).collect(),
    }
}

/// The JSON Schema (draft 2020-12) of the report.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(Report)).unwrap_or_default() + "\n"
}
