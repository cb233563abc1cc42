//! Why a plan is suggested, in short sentences.

use super::{Combination, Space};
use crate::figures::Figures;
use crate::findings::Value;
use crate::measure::{Grade, shown};
use crate::plan::{Arrangement, GroupAcross, GroupUp, Plan};
use crate::print::Exact;
use crate::print::fineness::merging_distance;

/// What a plan is, in short.
pub(super) fn words(plan: &Plan, space: &Space<'_>, choice: &Combination) -> String {
    let (count, make) = space.kind(choice);
    let is_stepped = matches!(choice.arrangement, Arrangement::Stepped(_));
    let how = match (plan.split, count, choice.arrangement == Arrangement::Column) {
        (_, 1, _) => "One",
        (None, 2, false) if is_stepped => "A pair in steps",
        (None, _, false) if is_stepped => "Three in steps",
        (None, 2, false) => "A pair side by side",
        (None, 2, true) => "A pair, one below the other",
        (None, _, false) => "Three side by side",
        (None, _, true) => "Three, one below the other",
        (Some(_), 2, false) => "One picture over two, side by side",
        (Some(_), 2, true) => "One picture over two, one below the other",
        (Some(_), _, false) => "One picture over three, side by side",
        (Some(_), _, true) => "One picture over three, one below the other",
    };
    let mut names: Vec<&str> = space.pieces(choice).map(|offered| offered.name.as_str()).collect();
    names.dedup();
    [how, if count > 1 { ", " } else { " " }, make.words(), ", ", &names.join(", ")].concat()
}

/// Why.
pub(super) fn reasons(
    plan: &Plan,
    figures: &Figures,
    space: &Space<'_>,
    choice: &Combination,
) -> Vec<String> {
    let mut told = Vec::new();
    let group = figures.arranged.group;
    let (width, what) = match plan.group.across {
        GroupAcross::FixtureMiddle(index) => {
            (plan.fixtures[index].size.width, plan.fixtures[index].name.as_str())
        }
        _ => (plan.wall.size.width, "wall"),
    };
    let share = Exact::new(group.size.width.units().into(), width.units().into());
    told.push(["fills ", &Value::Share(share).shown(plan.units), " of the ", what].concat());
    told.push(match plan.group.up {
        GroupUp::Above { clearance, .. } => {
            ["hangs ", &shown(clearance, Grade::Piece, plan.units), " above it"].concat()
        }
        _ => "has its middle at eye level".to_owned(),
    });
    let cuts = || figures.cuts.iter().flatten();
    if let Some(coarsest) = cuts().map(|cut| cut.pixels_per_inch).min() {
        let files =
            if plan.pieces.len() > 1 && plan.split.is_none() { "the files hold" } else { "the file holds" };
        // To the step above, so that it surely holds.
        let step = plan.units.first.bare_unit().length();
        let (from, near) = (merging_distance(coarsest), merging_distance(coarsest).to_nearest(step));
        let from = if near < from { near + step } else { near };
        told.push([files, " from ", &shown(from, Grade::Room, plan.units)].concat());
    }
    let [_, crop, shelf, ..] = space.points(choice).unwrap_or_default();
    if crop == 0 && cuts().next().is_some() {
        told.push("nothing of a picture is lost to its shape".to_owned());
    }
    if shelf == 0 && plan.in_hand.is_none() {
        let names: Vec<&str> = space.pieces(choice).map(|offered| offered.name.as_str()).collect();
        let is_framed = plan.pieces.iter().all(|piece| piece.finish.framing().is_some());
        let ready = if is_framed { " frame from any shop" } else { " is a size that is on offer" };
        if names.windows(2).all(|pair| pair[0] == pair[1]) {
            told.push([names[0], ready].concat());
        } else {
            told.push("every size is on offer ready-made".to_owned());
        }
    }
    if plan.pieces.len() > 1 && figures.build_ups.windows(2).all(|pair| pair[0].outside == pair[1].outside) {
        told.push("all are of one size".to_owned());
    }
    told
}
