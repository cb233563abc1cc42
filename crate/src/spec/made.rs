//! How a piece is made, in sentences.

use super::*;
use crate::framing::inverse::Bars;

/// A field of the pieces that are described.
pub(super) type Named<'a> = &'a dyn Fn(&str) -> String;

/// What a piece is printed on and what it stands or hangs in, to the end of the sentence.
pub(super) fn finish(piece: &Piece, sizes: &BuildUp, units: Units, field: Named<'_>, writer: &mut Writer) {
    match &piece.finish {
        Finish::Paper(paper) => {
            writer.text(" of ").field(field("paper.grammage")).text(" g/m², with ");
            surround(&paper.border, "paper", field, writer);
            framing(&paper.framing, sizes, units, field, writer);
        }
        Finish::Canvas(canvas) => on_canvas(canvas, sizes, units, field, writer),
        Finish::Aluminium(sheet) => on_aluminium(sheet, field, writer),
        Finish::Original(original) => {
            writer.text(", ").field(field("original.depth")).text(" deep");
            if original.floater.is_none() {
                framing(&original.framing, sizes, units, field, writer);
            }
            if original.framing == Framing::NONE {
                writer.text("; ");
                in_floater(original.floater.is_some(), field, writer);
            }
        }
    }
}

/// White paper round an image: so much on each side, or what is left of a sheet.
fn surround(border: &Surround, part: &str, field: Named<'_>, writer: &mut Writer) {
    let named = |end: &str| field(&format!("{part}.{end}"));
    writer.field(named("extent")).text(" ");
    match border.extent {
        Extent::Border(_) => writer.field(named("border")),
        Extent::Whole(_) => writer.field(named("whole")),
    };
    if *border == Surround::even(Length::ZERO) {
        return;
    }
    writer.text(", ").field(named("weighting")).text(" ");
    writer.field(named(match border.weighting {
        Weighting::Extra(_) => "foot",
        Weighting::Ratio { .. } => "ratio",
    }));
}

fn framing(framing: &Framing, sizes: &BuildUp, units: Units, field: Named<'_>, writer: &mut Writer) {
    writer.text(". It comes ").field(field("mat")).text(" a mat");
    if let (Some(mat), Some(cut)) = (&framing.mat, &sizes.mat) {
        writer.text(", ").field(field("mat.double")).text(" and ").field(field("mat.colour")).text(", ");
        surround(&mat.surround, "mat", field, writer);
        writer.text(" (").length(cut.visible_borders.top, units).text(" in view at the head, ");
        writer.length(cut.visible_borders.bottom, units).text(" at the foot), ");
        writer.field(field("mat.opening")).text(" ").field(field("mat.by")).text(" a side");
        if mat.inner_reveal.is_some() {
            writer.text(", the inner mat showing ").field(field("mat.inner")).text(" of ");
            writer.field(field("mat.inner_colour"));
        }
        writer.text(", cut from board ").field(field("mat.thickness")).text(" thick: its opening is ");
        writer.size(cut.opening.size, units);
    }
    writer.text(". Before it is ").field(field("glazing"));
    if framing.glazing != Glazing::None {
        writer.text(" of ").field(field("glazing.thickness"));
        writer.text(" over a spacer of ").field(field("spacer"));
    }
    writer.text(", behind it ").field(field("mount"));
    if framing.mount.is_some() {
        writer.text(" of ").field(field("mount.thickness"));
    }
    writer.text(" and ").field(field("backing"));
    if framing.backing.is_some() {
        writer.text(" of ").field(field("backing.thickness"));
    }
    writer.text(". It comes ").field(field("frame")).text(" a frame");
    let (Some(_), Some(cut)) = (&framing.frame, &sizes.frame) else { return };
    writer.text(", ").field(field("frame.profile")).text(": ").field(field("frame.face")).text(" of ");
    writer
        .field(field("frame.colour"))
        .text(", ")
        .field(field("frame.surface"))
        .text(" and ")
        .field(field("frame.shape"))
        .text(" moulding in ")
        .field(field("frame.material"))
        .text(", ")
        .field(field("frame.depth"));
    writer.text(" deep, its rabbet ").field(field("frame.rabbet_width")).text(" wide and ");
    writer.field(field("frame.rabbet_depth")).text(" deep with ").field(field("frame.allowance"));
    writer.text(" of play in all, of which the package takes ");
    writer.lengths(&[sizes.stack.thickness()], Grade::Fine, units);
    if cut.spare_depth < Length::ZERO {
        writer.text(" and stands out ").lengths(&[-cut.spare_depth], Grade::Fine, units).text(" at the back");
    }
}

fn on_canvas(canvas: &Canvas, sizes: &BuildUp, units: Units, field: Named<'_>, writer: &mut Writer) {
    writer.text(" of ").field(field("canvas.grammage")).text(" g/m², on bars ");
    writer.field(field("canvas.depth")).text(" deep, with ").field(field("canvas.edge"));
    if matches!(canvas.edge, Edge::Plain(_)) {
        writer.text(", ").field(field("canvas.edge_colour")).text(",");
    }
    writer.text(" on its edges and ").field(field("canvas.fold")).text(" of cloth behind; keep ");
    writer.length(crate::framing::safe_margin(canvas), units);
    writer.text(" along the edges of what is printed free of a signature");
    if canvas.edge == Edge::Carried {
        let bars = Bars { depth: canvas.depth, fold: canvas.fold };
        writer.text("; the edges take ").plain_figure(percent(bars.share_carried_round(sizes.image.size)));
        writer.text(" of what is printed");
    }
    writer.text("; ");
    in_floater(canvas.floater.is_some(), field, writer);
}

fn in_floater(there: bool, field: Named<'_>, writer: &mut Writer) {
    writer.field(field("floater")).text(" a floater frame");
    if there {
        writer
            .text(", ")
            .field(field("floater.profile"))
            .text(": ")
            .field(field("floater.face"))
            .text(" of ");
        writer.field(field("floater.colour"));
        writer.text(", ").field(field("floater.depth")).text(" deep, ").field(field("floater.gap"));
        writer.text(" of air round it");
    }
}

fn on_aluminium(sheet: &Aluminium, field: Named<'_>, writer: &mut Writer) {
    writer.text(", a sheet ").field(field("aluminium.thickness")).text(" thick with corners of ");
    writer.field(field("aluminium.corner_radius")).text(" radius, that floats ");
    writer.field(field("aluminium.stand_off")).text(" off the wall ").field(field("aluminium.back"));
    if sheet.sub_frame.is_some() {
        writer.text(" of bars ").field(field("sub_frame.width")).text(" wide, ");
        writer.field(field("sub_frame.inset")).text(" in from its edges");
    }
}
