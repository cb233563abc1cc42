//! Why a plan is suggested, what it is and what stands against it, in short sentences.

use super::{Combination, Form, Space};
use crate::described::OneOf;
use crate::figures::Figures;
use crate::findings::{Severity, Value, findings};
use crate::framing::BuildUp;
use crate::geometry::Size;
use crate::measure::{Grade, rating, shown, size};
use crate::plan::{Arrangement, Finish, Framing, Glazing, GroupAcross, GroupUp, Hanger, Piece, Plan, System};
use crate::print::Exact;
use crate::print::sharpness::merging_distance;

/// A piece by its sizes: of what is framed the print and the frame.
fn sized(piece: &Piece, sizes: &BuildUp, system: System) -> String {
    let text = |given: Size| size(given, Grade::Piece, system).text;
    match (&piece.finish, &sizes.frame) {
        (Finish::Paper(_), Some(frame)) => {
            ["print ", &text(sizes.sheet.size), " in a frame ", &text(frame.nominal)].concat()
        }
        (Finish::Canvas(canvas), _) if canvas.floater.is_some() => {
            ["canvas ", &text(piece.image), " in a frame ", &text(sizes.outside), " outside"].concat()
        }
        _ => text(piece.image),
    }
}

/// What a plan is, in short, with sizes in a system of units.
pub(super) fn words(
    plan: &Plan,
    figures: &Figures,
    system: System,
    space: &Space<'_>,
    choice: &Combination,
) -> String {
    let Form { count, make, is_mixed } = space.form(choice);
    let is_stepped = matches!(choice.arrangement, Arrangement::Stepped(_));
    let how = match (plan.split, count, choice.arrangement == Arrangement::Column) {
        (_, 1, _) => "One",
        _ if is_mixed && choice.arrangement == Arrangement::StackLeft => {
            "One large and two stacked to its left"
        }
        _ if is_mixed => "One large and two stacked to its right",
        (None, 2, false) if is_stepped => "A pair in steps",
        (None, _, false) if is_stepped => "Three in steps",
        (None, 2, false) => "A pair side by side",
        (None, 2, true) => "A pair, one below the other",
        (None, _, false) => "Three side by side",
        (None, _, true) => "Three, one below the other",
        (Some(_), 2, false) => "One picture across two, side by side",
        (Some(_), 2, true) => "One picture across two, one below the other",
        (Some(_), _, false) => "One picture across three, side by side",
        (Some(_), _, true) => "One picture across three, one below the other",
    };
    let pieces = plan.pieces.iter().zip(&figures.build_ups);
    let mut each: Vec<String> = pieces.map(|(piece, sizes)| sized(piece, sizes, system)).collect();
    each.dedup();
    let alike = if count > 1 && each.len() == 1 { "each " } else { "" };
    if let (true, [_, others]) = (is_mixed, &mut each[..]) {
        others.insert_str(0, "the two each ");
    }
    [how, if count > 1 { ", " } else { " " }, make.words(), ": ", alike, &each.join(", ")].concat()
}

/// Whether something is made otherwise than the plan's own pieces are.
type IsChanged = fn(&Framing, &Framing) -> bool;
/// What may be made otherwise, with what is said of it.
const OTHERWISE: [(IsChanged, &str); 4] = [
    (
        |own, made| matches!((own.glazing, made.glazing), (Glazing::Glass(_), Glazing::Acrylic(_))),
        "with acrylic in place of glass",
    ),
    (|own, made| made.spacer > own.spacer, "with spacers between the glazing and the print"),
    (
        |own, made| {
            let section = |framing: &Framing| framing.frame.as_ref().map(|frame| (frame.face, frame.depth));
            section(own) != section(made)
        },
        "in a stronger moulding",
    ),
    (
        |own, made| {
            let play = |framing: &Framing| framing.frame.as_ref().map(|frame| frame.allowance);
            play(own) != play(made)
        },
        "with more allowance in the frame",
    ),
];

/// What of a plan is another than its own pieces and fixings are, since those would be unwise here.
fn changes(plan: &Plan, space: &Space<'_>, choice: &Combination) -> Vec<String> {
    let make = space.form(choice).make;
    let own = make.pattern(space.stated()).finish;
    let made = &plan.pieces[0].finish;
    let mut told: Vec<String> = Vec::new();
    if let (Some(own), Some(made)) = (own.framing(), made.framing()) {
        let changed = OTHERWISE.iter().filter(|(is_changed, _)| is_changed(own, made));
        told.extend(changed.map(|(_, words)| (*words).to_owned()));
    }
    if let (Finish::Canvas(own), Finish::Canvas(made)) = (&own, made)
        && own.edge != made.edge
    {
        told.push(["with ", made.edge.variants().entries[made.edge.place()].words].concat());
    }
    let [own, by] = [space.stated(), plan].map(|plan| plan.fixing.hanger.offered());
    if let (true, Some(by)) = (own != by, by) {
        told.push(["hung by ", Hanger::OFFERED[by].1].concat());
    }
    if let (Some(pounds), true) =
        (plan.site.rated_pounds, plan.site.rated_pounds != space.stated().site.rated_pounds)
    {
        told.push(["on fixings rated for ", &rating(pounds, plan.units.first)].concat());
    }
    told
}

/// What stands against a plan and could not be had otherwise, what matters most first.
pub(super) fn cautions(plan: &Plan, figures: &Figures, space: &Space<'_>) -> Vec<String> {
    let mut grave = findings(plan, figures, space.stock());
    grave.retain(|finding| finding.severity > Severity::Taste);
    crate::order::sort_by_key(&mut grave, |finding| std::cmp::Reverse(finding.severity));
    grave.into_iter().map(|finding| [finding.severity.words(), ": ", &finding.sentence].concat()).collect()
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
    told.push(["fills ", &Value::Percent(share).shown(plan.units), " of the ", what, "'s width"].concat());
    told.push(match plan.group.up {
        GroupUp::Above { clearance, .. } => {
            ["hangs ", &shown(clearance, Grade::Piece, plan.units), " above it"].concat()
        }
        _ => "its middle is at eye level".to_owned(),
    });
    let cuts = || figures.cuts.iter().flatten();
    if let Some(coarsest) = cuts().map(|cut| cut.pixels_per_inch).min() {
        let files = if plan.pieces.len() > 1 && plan.split.is_none() {
            "the files are sharp"
        } else {
            "the file is sharp"
        };
        // To the step above, so that it surely holds.
        let step = plan.units.first.bare_unit().length();
        let (from, near) = (merging_distance(coarsest), merging_distance(coarsest).to_nearest(step));
        let from = if near < from { near + step } else { near };
        // From farther than anyone stands it is no reason, but a caution.
        if from <= plan.viewing.distance {
            told.push([files, " from ", &shown(from, Grade::Room, plan.units), " away"].concat());
        }
    }
    let [_, crop, shelf, ..] = space.points(choice).unwrap_or_default();
    if crop == 0 && cuts().next().is_some() {
        told.push("nothing of a picture is cropped".to_owned());
    }
    if shelf == 0 && plan.in_hand.is_none() {
        let is_framed = plan.pieces.iter().all(|piece| piece.finish.framing().is_some());
        let names: Vec<&str> = space.pieces(choice).map(|offered| offered.name.as_str()).collect();
        let is_one = names.windows(2).all(|pair| pair[0] == pair[1]);
        let ready = match (is_framed, is_one) {
            (true, true) => "a frame of that size is sold ready-made",
            (false, true) => "that size is on offer",
            (_, false) => "every size is on offer ready-made",
        };
        told.push(ready.to_owned());
    }
    if plan.pieces.len() > 1 && figures.build_ups.windows(2).all(|pair| pair[0].outside == pair[1].outside) {
        told.push("all are the same size".to_owned());
    }
    if space.form(choice).is_mixed {
        told.push("the outer edges of the two are in line with those of the large one".to_owned());
    }
    told.extend(changes(plan, space, choice));
    told
}
