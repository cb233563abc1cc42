//! What fits: the frame in hand and the space on the wall, with the prints that suit them.

use super::{Writer, percent, shown_size};
use crate::asked::{self, Ordered};
use crate::field::{self, Field};
use crate::figures::Figures;
use crate::fit::in_hand::Order;
use crate::plan::{self, Plan};
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::words::in_units;

pub(super) fn fitting(plan: &Plan, figures: &Figures, chosen: Option<usize>) -> Writer {
    let mut writer = Writer::default();
    in_hand(plan, figures, chosen, &mut writer);
    space(plan, figures, &mut writer);
    writer
}

fn in_hand(plan: &Plan, figures: &Figures, chosen: Option<usize>, writer: &mut Writer) {
    let piece = chosen.unwrap_or(0);
    let Some(found) = asked::in_hand(plan, figures, piece) else {
        writer.text("There is ").field(&plan::IN_HAND_MEASURED).text(". ");
        return;
    };
    writer
        .text("There is a frame already, of ")
        .field(&plan::IN_HAND_SIZE)
        .text(" ")
        .field(&plan::IN_HAND_MEASURED);
    writer
        .text(", with a face ")
        .field(&plan::IN_HAND_FACE)
        .text(&in_units(" wide and a rabbet ", plan.units.first));
    writer
        .field(&plan::IN_HAND_RABBET_WIDTH)
        .text(" wide with an allowance of ")
        .field(&plan::IN_HAND_ALLOWANCE)
        .text(": ");
    let order = match found {
        Ok(order) => order,
        Err(why) => {
            writer.text(&why.to_string()).text(". ");
            return;
        }
    };
    if asked::is_turned(plan, figures, piece) {
        writer.text("hung on its side, ");
    }
    writer.text("it takes ").size(order.nominal, plan.units);
    writer.text(", shows ").size(order.sight, plan.units).text(" and is ").size(order.outside, plan.units);
    writer
        .text(" outside; the lip hides ")
        .length(order.lip_hides, plan.units)
        .text(" on each side. Order a print ");
    for (index, (ordered, _, how)) in Ordered::ALL.iter().enumerate() {
        writer.text(["", "; or ", "; or "][index]);
        one_print(plan, &order, (*ordered, how), chosen, writer);
    }
    writer.text(". ");
}

fn one_print(
    plan: &Plan,
    order: &Order,
    (ordered, how): (Ordered, &'static str),
    chosen: Option<usize>,
    writer: &mut Writer,
) {
    let print = match ordered.of(order) {
        Ok(print) => print,
        Err(why) => {
            writer.text(how).text(" (not possible: ").text(&why.to_string()).text(")");
            return;
        }
    };
    writer.offer(how, Field::chosen(&field::OFFER_IN_HAND, chosen), ordered.key()).text(" (");
    match ordered {
        Ordered::ToTheEdge => writer.size(print.sheet, plan.units),
        Ordered::InsideSight => writer
            .text("image ")
            .size(print.image, plan.units)
            .text(" on a sheet of ")
            .size(print.sheet, plan.units),
        Ordered::Matted => {
            writer.size(print.sheet, plan.units).text(", with an opening of ");
            let opening = print.opening.unwrap_or_default();
            writer.size(opening, plan.units).text(", and borders of ").length(print.borders.left, plan.units);
            writer.text(" at the sides, ").length(print.borders.top, plan.units).text(" at the top and ");
            writer.length(print.borders.bottom, plan.units).text(" at the bottom")
        }
    };
    let ppi = print.cut.pixels_per_inch;
    writer.text(", ").plain_figure(format!("{} ppi", divide(*ppi.numer(), *ppi.denom(), Mode::Down)));
    if !print.keeps_fineness {
        writer.text(", less than you want");
    }
    if print.lost.share >= Exact::new(1, 200) {
        writer.text(", losing ").plain_figure(percent(print.lost.share));
    }
    writer.text(")");
}

fn space(plan: &Plan, figures: &Figures, writer: &mut Writer) {
    writer.text(if plan.pieces.len() == 1 {
        "The piece may take up "
    } else {
        "Together the pieces may take up "
    });
    writer.field(&plan::SPACE);
    if plan.space.is_none() {
        writer.text(" on the wall.");
        return;
    }
    writer.text(" ").field(&plan::SPACE_SIZE).text(" on the wall");
    match asked::in_space(plan, figures) {
        Some(image) => {
            let words = shown_size(image, plan.units);
            writer.text(": the largest image that fits is ").offer(words, &field::OFFER_SPACE, "").text(".");
        }
        None => {
            writer
                .text(", which leaves no space for an image: allow more space, or a narrower mat or frame.");
        }
    }
}
