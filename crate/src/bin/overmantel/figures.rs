//! `overmantel figures`: every computed measure of a plan.

use super::failure::Failure;
use clap::Args;
use overmantel::{figures::Figures, report};
use std::path::PathBuf;

pub(crate) const HELP: &str =
    "\
The output has the wall, each fixture and the group; each piece with its image, sheet, stack, mat, frame, crop, visible part,
hooks with their load, and the wall left round it; the gaps, with the pixels behind them; what hangs, with its parts, weights, prints,
mat cuts, legs, sheets to buy, parcel and what carriers bill; the moulding to buy; the sizes that suit each picture; and what suits
the frame in hand and the space on the wall, where the plan states them.
Each length is given exactly as text, in inches and in millimetres:
  \"opening\": { \"width\": { \"exact\": \"15 3/4 in\", \"inches\": 15.75, \"mm\": 400.05 }, \"height\": … }
Positions are from the left corner of the wall and from the floor. Width comes before height.
`overmantel schema figures` prints what every name means, its unit and how it is rounded.

Examples:
  overmantel figures plan.json | jq '.pieces[].frame.nominal.width.exact'
  overmantel figures plan.json --stock shop.json | jq '.things[].weight.likely, .moulding'
  overmantel figures plan.json | jq '.pieces[].hanging.load.per_hook.most_newtons, .gaps[].pixels_behind'
  overmantel figures plan.json --fits 3 | jq '.fits[].best[] | {way, print, frame, lost}'";

/// The plan and the stock list.
#[derive(Args)]
pub(crate) struct FiguresOf {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// Your own stock list, which replaces or adds to the standard one: sizes, rolls, sheets, mouldings, sticks, parcels, densities
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// How many sizes to list for each way (whole, matted, bordered, cropped), the best first
    #[arg(long, default_value_t = 4, value_name = "NUMBER")]
    fits: usize,
}

pub(crate) fn run(stated: &FiguresOf) -> Result<(), Failure> {
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    let text = serde_json::to_string_pretty(&report::report(&plan, &figures, &stock, stated.fits))?;
    super::say_json(
        &(text
            + "
"),
    )
}
