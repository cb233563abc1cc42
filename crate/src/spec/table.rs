//! The sizes of a piece, one under the other, in both systems.

use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::Length;
use crate::length::print::Printed;
use crate::measure::{self, Grade};
use crate::plan::{System, Units};

/// One size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it is called.
    pub term: &'static str,
    /// In inches.
    pub inches: String,
    /// In centimetres.
    pub centimetres: String,
    /// What the term means.
    pub meaning: &'static str,
    /// Whether the figure in inches is rounded.
    pub inches_rounded: bool,
    /// Whether the figure in centimetres is rounded.
    pub centimetres_rounded: bool,
}

/// The sizes of a piece, from the inside to the outside.
#[must_use]
pub fn table(figures: &Figures, piece: usize) -> Vec<Row> {
    let mut rows = Vec::new();
    let Some(sizes) = figures.build_ups.get(piece) else { return rows };
    let size = |rows: &mut Vec<Row>, term, meaning, size: Size| {
        let [inches, centimetres] =
            [System::Inches, System::Centimetres].map(|system| measure::size(size, Grade::Piece, system));
        rows.push(row(term, meaning, inches, centimetres));
    };
    size(&mut rows, "Image", "what is printed of the picture", sizes.image.size);
    if sizes.sheet.size != sizes.image.size {
        size(&mut rows, "Sheet", "the paper with its white border", sizes.sheet.size);
    }
    if let Some(cloth) = sizes.cloth {
        size(
            &mut rows,
            "Printed with edges",
            "the face and its four edges",
            sizes.image.size.grown(sizes.wrap),
        );
        size(&mut rows, "Canvas", "to cut, with the staple margin", cloth);
    }
    if let Some(mat) = &sizes.mat {
        size(&mut rows, "Mat opening", "at the picture, where the bevel ends", mat.opening.size);
        if mat.upper_opening != mat.opening {
            size(&mut rows, "Top mat opening", "at its back", mat.upper_opening.size);
        }
        size(&mut rows, "Opening at the face", "of the top mat, wider by its bevel", mat.face_opening.size);
        size(&mut rows, "Mat board", "also glazing and backing", mat.board.size);
    }
    if let Some(frame) = &sizes.frame {
        size(&mut rows, "Frame to order", "the nominal size: what goes into it", frame.nominal);
        size(&mut rows, "Rabbet", "the nominal size with its allowance", frame.rabbet.size);
        size(&mut rows, "Sight", "what the lip leaves visible", frame.sight.size);
    }
    if let Some(inside) = sizes.floater_inside {
        size(&mut rows, "Floater inside", "the canvas and the gap round it", inside.size);
    }
    size(&mut rows, "Outside", "overall, as it hangs", sizes.outside);
    let mut length = |term, meaning, length: Length| {
        let units = |first| Units { first, both: false };
        // Thicknesses are shown finer.
        let grade = if length.abs() < Length::inches(1) { Grade::Fine } else { Grade::Piece };
        let inches = measure::first(length, grade, units(System::Inches));
        let centimetres = measure::first(length, grade, units(System::Centimetres));
        rows.push(row(term, meaning, inches, centimetres));
    };
    length("Depth", "from the wall to its front", sizes.depth);
    if let Some(frame) = &sizes.frame {
        length("Package", "everything in the rabbet, front to back", sizes.stack.thickness());
        length(
            "Left in the rabbet",
            "behind the package; negative where that is proud of the frame",
            frame.spare_depth,
        );
        length("Lip hides", "of the mat or sheet, on each side", frame.lip_hides);
        length("Moulding", "the four legs at their outside length (long points)", frame.moulding_exact);
    }
    if let Some(hung) = figures.hanging.get(piece) {
        length("Drop", "from the top edge to the hook", hung.drop);
        if let Some(wire) = hung.wire {
            length("Wire", "from ring to ring along it", wire.length);
        }
    }
    rows
}

fn row(term: &'static str, meaning: &'static str, inches: Printed, centimetres: Printed) -> Row {
    Row {
        inches_rounded: inches.is_rounded(),
        centimetres_rounded: centimetres.is_rounded(),
        term,
        meaning,
        inches: inches.text,
        centimetres: centimetres.text,
    }
}
