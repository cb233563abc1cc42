//! How a piece is made, in a few words: for a line, for plans beside each other, for what an answer changed.

use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::measure::{Grade, shown};
use crate::plan::{Edge, Finish, Framing, Glazing, Piece, Plan, Units};

/// How a piece is made: `paper in a mat, framed behind glass`, `canvas, 38 mm deep, mirrored wrap`.
#[must_use]
pub fn make_up(plan: &Plan, figures: &Figures, piece: usize) -> String {
    in_few_words(&plan.pieces[piece], &figures.build_ups[piece], plan.units)
}

fn in_few_words(piece: &Piece, sizes: &BuildUp, units: Units) -> String {
    let floater = |text: String, is_there: bool| if is_there { text + ", in a floater frame" } else { text };
    match &piece.finish {
        Finish::Paper(paper) => framed("paper", &paper.framing),
        Finish::Canvas(canvas) => {
            let edge = match canvas.edge {
                Edge::Carried => "image wrapped round the edge",
                Edge::Mirrored => "mirrored wrap",
                Edge::Plain(_) => "solid edge",
            };
            let text = ["canvas, ", &shown(canvas.depth, Grade::Piece, units), " deep, ", edge].concat();
            floater(text, canvas.floater.is_some())
        }
        Finish::Aluminium(_) => {
            ["aluminium without a frame, ", &shown(sizes.depth, Grade::Piece, units), " deep"].concat()
        }
        Finish::Original(original) if original.framing == Framing::NONE => {
            let is_there = original.floater.is_some();
            floater(if is_there { "the original" } else { "the original, unframed" }.to_owned(), is_there)
        }
        Finish::Original(original) => framed("the original", &original.framing),
    }
}

fn framed(what: &str, framing: &Framing) -> String {
    let mat = if framing.mat.is_some() { " in a mat" } else { "" };
    let frame = if framing.frame.is_some() { ", framed" } else { ", unframed" };
    let before = match framing.glazing {
        Glazing::None => "",
        Glazing::Glass(_) => " behind glass",
        Glazing::Acrylic(_) => " behind acrylic",
    };
    [what, mat, frame, before].concat()
}

/// Texts of pieces in a row, each once.
pub(crate) fn each_once(texts: impl Iterator<Item = String>) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for text in texts {
        if !found.contains(&text) {
            found.push(text);
        }
    }
    found
}
