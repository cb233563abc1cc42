//! Mat: the measures by which an opening is marked and cut, with sums to check them by.

use super::CutError;
use crate::geometry::{Rect, Sides, Size};
use crate::length::Length;
use crate::rounding::square_root;

/// The cutter's measures of one mat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MatCut {
    /// The board.
    pub board: Size,
    /// The mat opening (at the picture), the smaller hole.
    pub opening: Size,
    /// The hole at the face: a bevel of 45° in a board of thickness t makes it larger by 2t.
    pub face_opening: Size,
    /// From each edge of the board to the mat opening (at the picture), seen from the face.
    pub face: Sides,
    /// The same, seen from the back, where mats are marked: left and right change places.
    pub back: Sides,
    /// From corner to corner of the board; both are alike when it is square.
    pub board_diagonal: Length,
    /// From corner to corner of the opening.
    pub opening_diagonal: Length,
}

impl MatCut {
    /// Border, opening and border together, across and upright: what must be the board again.
    #[must_use]
    pub fn sums(&self) -> Size {
        Size::new(
            self.back.left + self.opening.width + self.back.right,
            self.back.top + self.opening.height + self.back.bottom,
        )
    }
}

/// The measures of a mat from where its opening lies in the board, both seen from the face.
///
/// # Errors
/// When the opening is nothing, or reaches to an edge of the board.
pub fn mat_cut(board: Rect, opening: Rect, thickness: Length) -> Result<MatCut, CutError> {
    let face = Sides {
        left: opening.x - board.x,
        top: board.top() - opening.top(),
        right: board.right() - opening.right(),
        bottom: opening.y - board.y,
    };
    if !opening.size.is_positive() {
        return Err(CutError::NoOpening(opening.size));
    }
    let narrowest = face.left.min(face.top).min(face.right).min(face.bottom);
    if narrowest <= thickness {
        return Err(CutError::ThinBorder { border: narrowest, bevel: thickness });
    }
    Ok(MatCut {
        board: board.size,
        opening: opening.size,
        face_opening: opening.size.grown(thickness),
        face,
        back: Sides { left: face.right, right: face.left, ..face },
        board_diagonal: diagonal(board.size),
        opening_diagonal: diagonal(opening.size),
    })
}

/// From corner to corner, to the nearest unit.
///
/// ```
/// use overmantel::{cut_list::diagonal, geometry::Size, length::Length};
/// assert_eq!(diagonal(Size::inches(3, 4)), Length::inches(5));
/// ```
#[must_use]
pub fn diagonal(size: Size) -> Length {
    let (width, height) = (i128::from(size.width.units()), i128::from(size.height.units()));
    Length::from_ratio(square_root(width * width + height * height), 1, crate::rounding::Mode::HalfAway)
}
