//! What is unwise about how pieces are made up, and what the stock does not take.

use super::*;
use crate::asked::{doubts, in_hand};
use crate::fit::systems::{SystemNote, near_misses};
use crate::making::things;
use crate::plan::{Edge, Framing, Material};
use crate::rounding::Mode;

/// Depth that points or brads need behind a package (common practice, no source).
pub const ROOM_FOR_POINTS: Length = Length::inches_ratio(1, 8);
/// Below this a mat's border looks thin (common practice, no source).
pub const THIN_BORDER: Length = Length::inches_ratio(3, 2);
/// Below this the bar between two openings is weak (common practice, no source).
pub const WEAK_BAR: Length = Length::inches_ratio(1, 2);
/// Acrylic grows by so many millionths of its length for each kelvin (a maker's technical sheet: 0.07 to 0.08 mm to the metre).
pub const ACRYLIC_PER_KELVIN: i64 = 70;
/// A room warms by so much at the most: 20 K (from memory).
pub const WARMING_KELVIN: i64 = 20;

/// By how much acrylic of this length grows when it warms by so many kelvin; moisture adds to that.
///
/// ```
/// use overmantel::{findings::acrylic_growth, length::Length};
/// assert_eq!(acrylic_growth(Length::mm(1000), 10), Length::micrometres(700), "1000 × 70 × 10 / 1 000 000");
/// ```
#[must_use]
pub fn acrylic_growth(length: Length, kelvin: i64) -> Length {
    let units = i128::from(length.units()) * i128::from(ACRYLIC_PER_KELVIN) * i128::from(kelvin);
    Length::from_ratio(units, 1_000_000, Mode::HalfAway)
}

fn add(
    found: &mut Vec<Finding>,
    code: &'static str,
    about: About,
    sentence: String,
    authority: &'static str,
) {
    found.push(Finding { code, about, sentence, authority });
}

pub(super) fn rabbet(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let fine = |length: Length| shown(length, Grade::Fine, plan.units);
    for (piece, sizes) in plan.pieces.iter().zip(&figures.build_ups) {
        let stated = piece.finish.framing().and_then(|framing| framing.frame.as_ref());
        let (Some(stated), Some(cut)) = (stated, &sizes.frame) else { continue };
        let package = fine(sizes.stack.thickness());
        if stated.rabbet_depth > stated.depth {
            let sentence = format!(
                "The rabbet is {} deep and the moulding {}: no rabbet is deeper than its moulding.",
                fine(stated.rabbet_depth),
                fine(stated.depth)
            );
            add(found, "rabbet-deeper-than-moulding", About::Made, sentence, GEOMETRY);
        } else if cut.spare_depth < Length::ZERO {
            let sentence = format!(
                "The package is {package} thick and the rabbet {} deep: it stands out {} at the back. Take a deeper moulding or a thinner backing, or hold it with offset clips and a built-up back.",
                fine(stated.rabbet_depth),
                fine(-cut.spare_depth)
            );
            add(found, "package-too-thick", About::Made, sentence, GEOMETRY);
        } else if cut.spare_depth < ROOM_FOR_POINTS {
            let sentence = format!(
                "The package of {package} leaves {} of the rabbet; points or brads need about {}.",
                fine(cut.spare_depth),
                fine(ROOM_FOR_POINTS)
            );
            add(found, "no-room-for-points", About::Made, sentence, COMMON);
        } else {
            continue;
        }
        return;
    }
}

pub(super) fn mat_borders(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let told = |length: Length| shown(length, Grade::Piece, plan.units);
    let borders = figures.build_ups.iter().filter_map(|sizes| Some(sizes.mat.as_ref()?.borders));
    let narrower = |one: Sides, other: Sides| Sides {
        left: one.left.min(other.left),
        top: one.top.min(other.top),
        right: one.right.min(other.right),
        bottom: one.bottom.min(other.bottom),
    };
    // Round all openings of one mat, or round each.
    let around: Vec<Sides> = if plan.shared.is_some() {
        borders.reduce(narrower).into_iter().collect()
    } else {
        borders.collect()
    };
    let narrowest =
        around.iter().map(|sides| sides.left.min(sides.top).min(sides.right).min(sides.bottom)).min();
    if let Some(narrowest) = narrowest.filter(|border| *border < THIN_BORDER) {
        let sentence = format!(
            "The mat is {} wide at its narrowest; under {} it looks thin.",
            told(narrowest),
            told(THIN_BORDER)
        );
        add(found, "thin-mat", About::Made, sentence, COMMON);
    }
    if let Some(Sides { top, bottom, .. }) = around.iter().find(|sides| sides.bottom < sides.top) {
        let sentence = format!(
            "The mat is {} wide at the head and {} at the foot; a foot narrower than the head seems to let the picture slip.",
            told(*top),
            told(*bottom)
        );
        add(found, "foot-narrower-than-head", About::Made, sentence, COMMON);
    }
    let Some(shared) = plan.shared else { return };
    let first = plan.pieces.first().and_then(|piece| piece.finish.framing()?.mat.as_ref());
    let taken = first.map_or(Length::ZERO, |mat| mat.inner_reveal.unwrap_or_default() + mat.thickness);
    let bar = shared.bar - taken * 2;
    if bar < WEAK_BAR {
        let sentence = format!(
            "The bar between the openings has {} of face; under {} it is weak.",
            told(bar),
            told(WEAK_BAR)
        );
        add(found, "weak-bar", About::Made, sentence, COMMON);
    }
}

pub(super) fn acrylic(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    for (piece, sizes) in plan.pieces.iter().zip(&figures.build_ups) {
        let Some(framing) = piece.finish.framing() else { continue };
        let (Glazing::Acrylic(_), Some(frame), Some(cut)) = (framing.glazing, &framing.frame, &sizes.frame)
        else {
            continue;
        };
        let longest = cut.nominal.width.max(cut.nominal.height);
        let growth = acrylic_growth(longest, WARMING_KELVIN);
        if growth > frame.allowance {
            let sentence = format!(
                "Acrylic of {} grows {} when it warms by {WARMING_KELVIN} °C, more than the {} of play: it would bow.",
                shown(longest, Grade::Piece, plan.units),
                shown(growth, Grade::Fine, plan.units),
                shown(frame.allowance, Grade::Fine, plan.units)
            );
            add(
                found,
                "acrylic-without-play",
                About::Made,
                sentence,
                "makers' technical sheets of cast acrylic",
            );
            return;
        }
    }
}

/// Sheets, rolls and sticks that the stock has none of.
pub(super) fn limits_of_the_maker(plan: &Plan, figures: &Figures, stock: &Stock, found: &mut Vec<Finding>) {
    let told = |size: Size| shown_size(size, plan.units);
    let made = things(plan, figures, stock);
    for thing in &made {
        let mut own = Vec::new();
        for blank in &thing.blanks {
            let Err(why) = &blank.sheet else { continue };
            let sentence = format!("The {} can't be cut: {why}.", blank.part);
            add(&mut own, "no-sheet", About::Made, sentence, STOCK);
        }
        let is_metal = matches!(plan.pieces[thing.pieces[0]].finish, Finish::Aluminium(_));
        let unprinted = thing.prints.iter().find(|print| print.rolls.is_empty() && !is_metal);
        if let Some(print) = unprinted {
            let sentence =
                format!("No roll on offer takes a print of {}; make it smaller.", told(print.size));
            add(&mut own, "no-roll", About::Made, sentence, STOCK);
        }
        let rail = thing.rails.map(|(rails, _)| rails.across.long_point.max(rails.upright.long_point));
        let stick = stock.sticks.iter().map(|stick| stick.length - stick.trim).max();
        if let (Some(rail), Some(stick)) = (rail, stick)
            && rail > stick
        {
            let sentence = format!(
                "A rail of {} is longer than the longest stick on offer gives, {}.",
                shown(rail, Grade::Piece, plan.units),
                shown(stick, Grade::Piece, plan.units)
            );
            add(&mut own, "no-stick", About::Made, sentence, STOCK);
        }
        if !own.is_empty() {
            // The others are made alike, as a rule.
            found.append(&mut own);
            return;
        }
    }
}

/// Sizes that may have been meant in the other system of units.
pub(super) fn systems(plan: &Plan, _: &Figures, stock: &Stock, found: &mut Vec<Finding>) {
    let plain = |size: Size, system: System| crate::measure::size(size, Grade::Piece, system).text;
    for doubt in doubts(plan, stock) {
        let (code, sentence) = match doubt.note {
            SystemNote::BothSystems { inches, centimetres } => (
                "size-in-both-systems",
                format!(
                    "A {} of {} is sold, and one of {} as well: say the unit when you order.",
                    doubt.what,
                    plain(inches, System::Inches),
                    plain(centimetres, System::Centimetres)
                ),
            ),
            SystemNote::LooksLikeOther { stated, other } => (
                "size-in-the-wrong-system",
                format!(
                    "The {} is {}; {} is a usual size and may be meant.",
                    doubt.what,
                    both_ways(stated),
                    both_ways(other)
                ),
            ),
        };
        add(
            found,
            code,
            if doubt.field.starts_with("in_hand") { About::Fit } else { About::Made },
            sentence,
            COMMON,
        );
    }
}

/// A frame in hand that is nearly, but not quite, of a size on offer: what is of that size does not go in.
pub(super) fn nearly_a_size(plan: &Plan, figures: &Figures, stock: &Stock, found: &mut Vec<Finding>) {
    let Some(Ok(order)) = in_hand(plan, figures, 0) else { return };
    let misses = near_misses(order.nominal, &stock.sizes);
    let Some(miss) = misses.iter().find(|miss| !miss.goes_in()) else { return };
    let over = |by: Length, how: &str| {
        (by > Length::ZERO).then(|| format!("{} {how}", shown(by, Grade::Fine, plan.units)))
    };
    let by: Vec<String> = over(miss.wider, "wider").into_iter().chain(over(miss.higher, "higher")).collect();
    let sentence = format!(
        "What is of {} does not go into the frame in hand: it is {}.",
        miss.listed.listed.name,
        by.join(" and ")
    );
    add(found, "nearly-a-size-on-offer", About::Fit, sentence, GEOMETRY);
}

fn both_ways(size: Size) -> String {
    let plain = |system: System| crate::measure::size(size, Grade::Piece, system).text;
    format!("{} ({})", plain(System::Inches), plain(System::Centimetres))
}

/// Boards that are not meant to stand behind a work for long.
pub(super) fn acid(plan: &Plan, _: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let brown = |material: Material| matches!(material, Material::Hardboard | Material::Mdf);
    let mount = plan
        .pieces
        .iter()
        .filter_map(|piece| piece.finish.framing()?.mount)
        .find(|board| brown(board.material));
    if let Some(board) = mount {
        let sentence =
            format!("A mount of {} yellows paper; hinge the sheet to museum board.", board.material.name());
        add(found, "mount-yellows", About::Made, sentence, LIBRARY);
    }
}

/// Works that float behind glazing: nothing but a spacer keeps it off them.
pub(super) fn floated(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    for (piece, _) in plan.pieces.iter().zip(&figures.build_ups) {
        let Some(framing) = piece.finish.framing() else { continue };
        let Some(mat) = &framing.mat else { continue };
        let depth =
            if let Finish::Original(original) = &piece.finish { original.depth } else { Length::ZERO };
        let mats = mat.thickness * if mat.inner_reveal.is_some() { 2 } else { 1 };
        let before = framing.spacer + mats;
        let floats = matches!(mat.opening, OpeningRule::Float(_));
        if !floats || framing.glazing == Glazing::None {
            continue;
        }
        let fine = |length: Length| shown(length, Grade::Fine, plan.units);
        if before <= depth {
            let sentence = format!(
                "The floated work is {} thick and has {} before the mount: the glazing would press on it. Take a deeper spacer.",
                fine(depth),
                fine(before)
            );
            add(found, "glazing-on-the-work", About::Made, sentence, GEOMETRY);
        } else if framing.spacer == Length::ZERO {
            let sentence =
                String::from("A floated sheet can curl against the glazing; a spacer keeps them apart.");
            add(found, "float-without-spacer", About::Made, sentence, LIBRARY);
        } else {
            continue;
        }
        return;
    }
}

/// Floater frames that do not hold what stands in them.
pub(super) fn floaters(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    for (piece, sizes) in plan.pieces.iter().zip(&figures.build_ups) {
        let Some(floater) = piece.finish.floater() else { continue };
        let thickness = sizes.stack.thickness();
        if floater.depth <= thickness {
            let fine = |length: Length| shown(length, Grade::Fine, plan.units);
            let sentence = format!(
                "What stands in the floater frame is {} deep and the frame {}: there is no ledge to hold it.",
                fine(thickness),
                fine(floater.depth)
            );
            add(found, "floater-too-shallow", About::Made, sentence, GEOMETRY);
            return;
        }
    }
}

/// One picture over canvases whose edges show what the next one shows on its face.
pub(super) fn split_edges(plan: &Plan, _: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    if plan.split.is_none() || plan.pieces.len() < 2 {
        return;
    }
    let depth = plan.pieces.iter().filter_map(|piece| match &piece.finish {
        Finish::Canvas(canvas) if canvas.edge == Edge::Carried => Some(canvas.depth),
        _ => None,
    });
    let Some(depth) = depth.max().filter(|depth| plan.group.gap < *depth * 2) else { return };
    let sentence = format!(
        "Edges {} deep on both sides of a gap of {} show a part of the picture twice; mirror the edges, or widen the gap to {}.",
        shown(depth, Grade::Piece, plan.units),
        shown(plan.group.gap, Grade::Piece, plan.units),
        shown(depth * 2, Grade::Piece, plan.units)
    );
    add(found, "edges-shown-twice", About::Made, sentence, GEOMETRY);
}

/// Pieces in one frame that state different frames: the first one's counts.
pub(super) fn unlike_in_one_frame(plan: &Plan, _: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    if plan.shared.is_none() {
        return;
    }
    let with_own_opening = |framing: &Framing| {
        let mut framing = framing.clone();
        if let Some(mat) = &mut framing.mat {
            mat.opening = OpeningRule::Overlap(Length::ZERO);
        }
        framing
    };
    let mut framings = plan.pieces.iter().filter_map(|piece| piece.finish.framing().map(with_own_opening));
    let first = framings.next();
    if framings.any(|other| Some(other) != first) {
        let sentence =
            String::from("The pieces state different frames; in one frame that of the first counts.");
        add(found, "unlike-in-one-frame", About::Made, sentence, GEOMETRY);
    }
}
