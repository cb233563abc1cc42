//! Tolerances: by how much what comes back from the print shop or the framer may be off, and still all fits and nothing shows.
//!
//! Everything follows from what covers what: a mat its sheet, a lip its package, a rabbet's allowance the boards. Where nothing
//! covers an edge, nothing takes up a deviation.
//!
//! ```
//! use overmantel::{framing::build_up, length::Length, plan::Piece, tolerances::tolerances};
//! let piece = Piece::starting();
//! let rows = tolerances(&piece, &build_up(&piece).unwrap());
//! // A mat that covers 1/8 in of the sheet on each side, itself cut to 1/32: 2 × (1/8 - 1/32).
//! assert_eq!(rows[0].smaller_by, Some(Length::inches_ratio(3, 16)));
//! ```

use crate::cut_list::diagonal;
use crate::framing::BuildUp;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{Finish, OpeningRule, Piece};
use crate::rounding::Mode;

/// How exactly a mat's opening is cut, on each side (common practice, no source).
pub const CUT_TO: Length = Length::inches_ratio(1, 32);

/// How a measure may be off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tolerance {
    /// What is measured.
    pub part: &'static str,
    /// What it should be.
    pub stated: Measured,
    /// By how much it may be less; `None` where that does no harm.
    pub smaller_by: Option<Length>,
    /// By how much it may be more; `None` where that does no harm.
    pub larger_by: Option<Length>,
    /// What takes that up.
    pub because: &'static str,
}

/// A measure of one number or of two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Width and height.
    Size(Size),
    /// One length.
    Length(Length),
    /// How thick something is.
    Thickness(Length),
}

/// What to measure of a piece before it is assembled, and how far each may be off; empty where nothing covers an edge.
#[must_use]
pub fn tolerances(piece: &Piece, sizes: &BuildUp) -> Vec<Tolerance> {
    let mut rows = Vec::new();
    under_the_mat(piece, sizes, &mut rows);
    in_the_frame(piece, sizes, &mut rows);
    in_the_floater(piece, sizes, &mut rows);
    rows
}

fn some(length: Length) -> Option<Length> {
    Some(length.max(Length::ZERO))
}

fn under_the_mat(piece: &Piece, sizes: &BuildUp, rows: &mut Vec<Tolerance>) {
    let mat = piece.finish.framing().and_then(|framing| framing.mat.as_ref());
    let (Some(mat), Some(cut)) = (mat, &sizes.mat) else { return };
    let (sheet, image, board) = (sizes.sheet.size, sizes.image.size, cut.board.size);
    let to_the_edge = (board.width - sheet.width).min(board.height - sheet.height);
    let sheet_row = |smaller_by, larger_by, because| Tolerance {
        part: "sheet",
        stated: Measured::Size(sheet),
        smaller_by,
        larger_by,
        because,
    };
    match mat.opening {
        OpeningRule::Overlap(overlap) => {
            let row = sheet_row(some((overlap - CUT_TO) * 2), some(to_the_edge), "the mat covers its edges");
            rows.push(row);
        }
        OpeningRule::Reveal(reveal) => {
            let borders = sizes.sheet_borders;
            let narrowest = borders.left.min(borders.right).min(borders.top).min(borders.bottom);
            rows.push(Tolerance {
                part: "image",
                stated: Measured::Size(image),
                smaller_by: None,
                larger_by: some((reveal - CUT_TO) * 2),
                because: "the white border round it",
            });
            let less = some((narrowest - reveal - CUT_TO) * 2);
            rows.push(sheet_row(less, some(to_the_edge), "the mat covers its edges"));
        }
        OpeningRule::Float(gap) => {
            rows.push(sheet_row(None, some((gap - CUT_TO) * 2), "the gap round it in the opening"));
        }
    }
}

fn in_the_frame(piece: &Piece, sizes: &BuildUp, rows: &mut Vec<Tolerance>) {
    let frame = piece.finish.framing().and_then(|framing| framing.frame.as_ref());
    let (Some(frame), Some(cut)) = (frame, &sizes.frame) else { return };
    let allowance = frame.allowance;
    // Pushed to one side, the package still lies behind the lip of the other.
    let behind_the_lip = some(frame.rabbet_width - allowance);
    rows.push(Tolerance {
        part: if sizes.mat.is_some() { "mat, glazing and boards" } else { "work, glazing and boards" },
        stated: Measured::Size(cut.nominal),
        smaller_by: behind_the_lip,
        larger_by: some(allowance),
        because: "the rabbet's allowance and the lip",
    });
    rows.push(Tolerance {
        part: "rabbet of the frame",
        stated: Measured::Size(cut.rabbet.size),
        smaller_by: some(allowance),
        larger_by: behind_the_lip,
        because: "the same lip and allowance",
    });
    let Size { width, height } = cut.rabbet.size;
    // A skew by e in the longer side: the diagonals differ by 2 × the shorter side × e / diagonal, and e may be the allowance.
    let across = diagonal(cut.rabbet.size);
    let twice = i128::from(width.min(height).units()) * i128::from(allowance.units()) * 2;
    let skewed = Length::from_ratio(twice, i128::from(across.units()).max(1), Mode::Down);
    rows.push(Tolerance {
        part: "diagonals of the rabbet",
        stated: Measured::Length(across),
        smaller_by: some(skewed),
        larger_by: some(skewed),
        because: "the difference between them, until the boards bind",
    });
    rows.push(Tolerance {
        part: "package, front to back",
        stated: Measured::Thickness(sizes.stack.thickness()),
        smaller_by: None,
        larger_by: some(cut.spare_depth),
        because: "what is left of the rabbet's depth",
    });
}

fn in_the_floater(piece: &Piece, sizes: &BuildUp, rows: &mut Vec<Tolerance>) {
    let (Some(floater), Some(inside)) = (piece.finish.floater(), sizes.floater_inside) else { return };
    let part = if matches!(piece.finish, Finish::Canvas(_)) { "canvas" } else { "work" };
    let because = "the gap: at least half of it stays on each side, or it grows by half";
    let gap = some(floater.gap);
    let size = Measured::Size(sizes.sheet.size);
    rows.push(Tolerance { part, stated: size, smaller_by: gap, larger_by: gap, because });
    rows.push(Tolerance {
        part: "inside of the floater frame",
        stated: Measured::Size(inside.size),
        smaller_by: gap,
        larger_by: gap,
        because,
    });
}
