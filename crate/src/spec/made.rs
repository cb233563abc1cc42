//! How a piece is made, in sentences.

use super::{Writer, percent};
use crate::described::Row;
use crate::field::{self, Field};
use crate::framing::BuildUp;
use crate::framing::inverse::Bars;
use crate::length::Length;
use crate::measure::Grade;
use crate::plan::{
    self, Aluminium, Canvas, Edge, Extent, Finish, Framing, Glazing, Piece, Surround, Units, Weighting,
};
use crate::terms::Term;

/// A field of the pieces that are described.
pub(super) type Named<'a> = &'a dyn Fn(&'static Row) -> Field;

/// What a piece is printed on and what it stands or hangs in, to the end of the sentence.
pub(super) fn finish(piece: &Piece, sizes: &BuildUp, units: Units, field: Named<'_>, writer: &mut Writer) {
    match &piece.finish {
        Finish::Paper(paper) => {
            writer.text(" of ").field(field(&plan::PAPER_GRAMMAGE)).text(" g/m², with ");
            surround(&paper.border, OF_PAPER, field, writer);
            framing(&paper.framing, sizes, units, field, writer);
        }
        Finish::Canvas(canvas) => on_canvas(canvas, sizes, units, field, writer),
        Finish::Aluminium(sheet) => on_aluminium(sheet, field, writer),
        Finish::Original(original) => {
            writer.text(", ").field(field(&plan::ORIGINAL_DEPTH)).text(" deep");
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

/// The rows of a surround: its way of being stated, border, whole, weighting, foot and ratio.
pub(super) type Around = [&'static Row; 6];
pub(super) const OF_PAPER: Around = [
    &plan::PAPER_EXTENT,
    &plan::PAPER_BORDER,
    &plan::PAPER_WHOLE,
    &plan::PAPER_WEIGHTING,
    &plan::PAPER_FOOT,
    &plan::PAPER_RATIO,
];
pub(super) const OF_MAT: Around = [
    &plan::MAT_EXTENT,
    &plan::MAT_BORDER,
    &plan::MAT_WHOLE,
    &plan::MAT_WEIGHTING,
    &plan::MAT_FOOT,
    &plan::MAT_RATIO,
];

/// White paper round an image: so much on each side, or what is left of a sheet.
fn surround(border: &Surround, rows: Around, field: Named<'_>, writer: &mut Writer) {
    let [extent, width, whole, weighting, foot, ratio] = rows;
    writer.field(field(extent)).text(" ");
    match border.extent {
        Extent::Border(_) => writer.field(field(width)),
        Extent::Whole(_) => writer.field(field(whole)),
    };
    if *border == Surround::even(Length::ZERO) {
        return;
    }
    writer.text(", ").field(field(weighting)).text(" ");
    writer.field(field(match border.weighting {
        Weighting::Extra(_) => foot,
        Weighting::Ratio { .. } => ratio,
    }));
}

fn framing(framing: &Framing, sizes: &BuildUp, units: Units, field: Named<'_>, writer: &mut Writer) {
    writer.text(". It comes ").field(field(&plan::MAT)).text(" a ").term(Term::Mat);
    if let (Some(mat), Some(cut)) = (&framing.mat, &sizes.mat) {
        writer
            .text(" (")
            .field(field(&plan::MAT_DOUBLE))
            .text(", ")
            .field(field(&plan::MAT_COLOUR))
            .text(") ");
        surround(&mat.surround, OF_MAT, field, writer);
        writer.text(" (").length(cut.visible_borders.top, units).text(" visible at the top, ");
        writer.length(cut.visible_borders.bottom, units).text(" at the bottom), ");
        writer.field(field(&plan::MAT_OPENING)).text(" ").field(field(&plan::MAT_BY)).text(" on each side");
        if mat.inner_reveal.is_some() {
            writer
                .text(", with a ")
                .term(Term::BottomMat)
                .text(" of which ")
                .field(field(&plan::MAT_INNER))
                .text(" shows, in ");
            writer.field(field(&plan::MAT_INNER_COLOUR));
        }
        writer
            .text(", cut from board ")
            .field(field(&plan::MAT_THICKNESS))
            .text(" thick: the ")
            .term(Term::MatOpening)
            .text(" is ");
        writer.size(cut.opening.size, units);
    }
    // What is not there is told by its field alone, without its name.
    let layers = [
        (Term::Glazing, " in front: ", &plan::GLAZING, framing.glazing != Glazing::None),
        (Term::MountBoard, " behind: ", &plan::MOUNT, framing.mount.is_some()),
        (Term::Backing, ": ", &plan::BACKING, framing.backing.is_some()),
    ];
    for (term, lead, row, is_there) in layers {
        writer.text("; ");
        if is_there {
            writer.term(term).text(lead);
        }
        writer.field(field(row));
        match term {
            Term::Glazing if is_there => {
                writer.text(" of ").field(field(&plan::GLAZING_THICKNESS));
                writer.text(", ").field(field(&plan::GLAZING_COATING)).text(", over a ");
                writer.term(Term::Spacer).text(" of ").field(field(&plan::SPACER));
            }
            Term::MountBoard if is_there => {
                writer.text(" of ").field(field(&plan::MOUNT_THICKNESS));
            }
            Term::Backing if is_there => {
                writer.text(" of ").field(field(&plan::BACKING_THICKNESS));
            }
            _ => {}
        }
    }
    writer.text(". It comes ").field(field(&plan::FRAME)).text(" a frame");
    let (Some(_), Some(cut)) = (&framing.frame, &sizes.frame) else { return };
    writer.text(", ").field(field(&field::FRAME_PROFILE)).text(": ").field(field(&plan::FRAME_SHAPE));
    writer.text(" ").term(Term::Moulding).text(" of ").field(field(&plan::FRAME_MATERIAL)).text(", ");
    writer.field(field(&plan::FRAME_SURFACE)).text(", in ").field(field(&plan::FRAME_COLOUR));
    writer.text(", ").field(field(&plan::FRAME_FACE)).text(" wide and ").field(field(&plan::FRAME_DEPTH));
    writer
        .text(" deep, with a ")
        .term(Term::Rabbet)
        .text(" ")
        .field(field(&plan::FRAME_RABBET_WIDTH))
        .text(" wide and ");
    writer.field(field(&plan::FRAME_RABBET_DEPTH)).text(" deep and an ").term(Term::Allowance).text(" of ");
    writer.field(field(&plan::FRAME_ALLOWANCE)).text("; the package is ");
    writer.lengths(&[sizes.stack.thickness()], Grade::Fine, units).text(" thick");
    if cut.spare_depth < Length::ZERO {
        writer.text(" and proud of the frame by ").lengths(&[-cut.spare_depth], Grade::Fine, units);
    }
}

fn on_canvas(canvas: &Canvas, sizes: &BuildUp, units: Units, field: Named<'_>, writer: &mut Writer) {
    writer.text(" of ").field(field(&plan::CANVAS_GRAMMAGE)).text(" g/m², on ").term(Term::Bars).text(" ");
    writer.field(field(&plan::CANVAS_DEPTH)).text(" deep, with ").field(field(&plan::CANVAS_EDGE));
    if matches!(canvas.edge, Edge::Plain(_)) {
        writer.text(" in ").field(field(&plan::CANVAS_EDGE_COLOUR));
    }
    writer
        .text(" and a ")
        .term(Term::StapleMargin)
        .text(" of ")
        .field(field(&plan::CANVAS_FOLD))
        .text("; keep a signature ");
    writer.length(crate::framing::safe_margin(canvas), units);
    writer.text(" in from the edges of the print");
    if canvas.edge == Edge::Carried {
        let bars = Bars { depth: canvas.depth, fold: canvas.fold };
        writer.text("; the edges take ").plain_figure(percent(bars.share_carried_round(sizes.image.size)));
        writer.text(" of the print");
    }
    writer.text("; ");
    in_floater(canvas.floater.is_some(), field, writer);
}

fn in_floater(there: bool, field: Named<'_>, writer: &mut Writer) {
    writer.field(field(&plan::CANVAS_FLOATER)).text(" a ").term(Term::Floater);
    if there {
        writer.text(", ").field(field(&field::FLOATER_PROFILE)).text(": ").field(field(&plan::FLOATER_FACE));
        writer.text(" wide, in ").field(field(&plan::FLOATER_COLOUR)).text(", ");
        writer.field(field(&plan::FLOATER_DEPTH)).text(" deep, with a gap of ");
        writer.field(field(&plan::FLOATER_GAP)).text(" round it");
    }
}

fn on_aluminium(sheet: &Aluminium, field: Named<'_>, writer: &mut Writer) {
    writer.text(", a sheet ").field(field(&plan::ALUMINIUM_THICKNESS)).text(" thick with corners of ");
    writer.field(field(&plan::ALUMINIUM_CORNER_RADIUS)).text(" radius, floating ");
    writer
        .field(field(&plan::ALUMINIUM_STAND_OFF))
        .text(" ")
        .term(Term::StandOff)
        .text(" ")
        .field(field(&plan::ALUMINIUM_BACK));
    if sheet.sub_frame.is_some() {
        writer.text(" of bars ").field(field(&plan::SUB_FRAME_WIDTH)).text(" wide, ");
        writer.field(field(&plan::SUB_FRAME_FROM_EDGES)).text(" in from its edges");
    }
}
