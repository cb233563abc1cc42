//! `overmantel figures`: every computed measure of a plan.

use overmantel::{figures::Figures, report};
use std::path::Path;

pub(crate) const HELP: &str = "\
The output has the wall, each fixture, the group and each piece with its image, sheet, mat, frame, crop and hooks.
Each length is given exactly as text, in inches and in millimetres:
  \"opening\": { \"width\": { \"exact\": \"15 3/4 in\", \"inches\": 15.75, \"mm\": 400.05 }, \"height\": … }
Places are from the left corner of the wall and from the floor. Widths stand before heights.

Example:
  overmantel figures plan.json | jq '.pieces[].frame.nominal.width.exact'";

pub(crate) fn run(path: &Path) -> Result<(), String> {
    let plan = super::read_plan(path)?;
    let figures = Figures::of(&plan)?;
    let text = serde_json::to_string_pretty(&report::report(&plan, &figures))
        .map_err(|why| format!("the figures could not be written: {why}"))?;
    super::say(&(text + "\n"))
}
