//! Inverses: from any measure of a frame, a mat or a canvas to any other, forwards and back.
//!
//! Each pair below is one sum and the same sum solved for the other side; the two undo each other exactly, since nothing
//! in them is rounded. Where a measure would be nothing or less there is no answer, and [`NothingLeft`] says which.
//!
//! The sums are geometry. That a frame is called by what goes into it (its *nominal* size), and that glass, mat and backing
//! are cut to that size, are common practice, no source.
//!
//! ```
//! use overmantel::{framing::inverse::Rails, geometry::Size, length::Length};
//! let quarter = Length::inches_ratio(1, 4);
//! let rails = Rails { face: Length::inches(1), rabbet_width: quarter, allowance: quarter.half() };
//! let outside = rails.outside(Size::inches(16, 20)).unwrap();
//! assert_eq!(outside.width, Length::inches_ratio(141, 8), "16 + 1/8 + 2 × (1 - 1/4) = 17 5/8");
//! assert_eq!(rails.nominal_of_outside(outside), Ok(Size::inches(16, 20)), "and back");
//! ```

use crate::geometry::{Sides, Size};
use crate::length::{Length, print::plain};
use crate::plan::{Extent, Frame, InHand, OpeningRule, Surround, Weighting};
use num_rational::Ratio;
use std::fmt;

/// A measure that may come out as nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FrameMeasure {
    /// What goes into the frame: glass, mat board and backing.
    Nominal,
    /// The rabbet of the frame.
    Rabbet,
    /// What can be seen through the frame.
    Sight,
    /// The frame over all.
    Outside,
    /// The opening of the mat, at the picture.
    Opening,
    /// The sheet, or the image where the opening follows from it.
    Art,
    /// The mat board.
    Board,
    /// The face of a canvas.
    Face,
}

impl FrameMeasure {
    const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Nominal => (
                "what goes into the frame",
                "check what was measured, and the frame's face, rabbet (rebate) and allowance",
            ),
            Self::Rabbet => ("the rabbet (rebate)", "choose a larger frame or less allowance"),
            Self::Sight => ("the sight opening", "choose a narrower rabbet (rebate) or a larger size"),
            Self::Outside => {
                ("the outside of the frame", "choose a narrower rabbet (rebate) or a larger size")
            }
            Self::Opening => (
                "the mat opening",
                "let the mat cover less, make its borders narrower, or choose a larger size",
            ),
            Self::Art => ("the print behind the mat", "choose a larger opening or narrower borders"),
            Self::Board => ("the mat board", "choose a larger opening or wider borders"),
            Self::Face => {
                ("the face of the canvas", "choose shallower bars, a narrower gap or a larger size")
            }
        }
    }
}

/// Why there is no answer: a part would be nothing, or less, in width or in height.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub struct NothingLeft {
    /// Which part.
    pub part: FrameMeasure,
    /// The size that would result.
    pub size: Size,
}

impl fmt::Display for NothingLeft {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (part, remedy) = self.part.words();
        let [width, height] = [self.size.width, self.size.height].map(plain);
        write!(f, "{part} would be {width} × {height}, and both must be more than zero; {remedy}")
    }
}

fn some(part: FrameMeasure, size: Size) -> Result<Size, NothingLeft> {
    if size.is_positive() { Ok(size) } else { Err(NothingLeft { part, size }) }
}

/// What of a frame its sizes follow from. The same on all four sides; each is zero or more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rails {
    /// F: width of the moulding's face, from its outer edge to its sight edge.
    pub face: Length,
    /// R: width of the rabbet, how far the lip reaches over what is in the frame.
    pub rabbet_width: Length,
    /// A: allowance in the rabbet, in total over both sides.
    pub allowance: Length,
}

impl From<&Frame> for Rails {
    fn from(frame: &Frame) -> Self {
        let Frame { face, rabbet_width, allowance, .. } = *frame;
        Self { face, rabbet_width, allowance }
    }
}

impl From<&InHand> for Rails {
    fn from(frame: &InHand) -> Self {
        let InHand { face, rabbet_width, allowance, .. } = *frame;
        Self { face, rabbet_width, allowance }
    }
}

impl Rails {
    /// rabbet = n + A. Inverse: [`Self::nominal_of_rabbet`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn rabbet(self, nominal: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Rabbet, more(nominal, self.allowance))
    }

    /// n = rabbet - A. Inverse: [`Self::rabbet`]. The glass is cut to this size.
    ///
    /// # Errors
    /// When nothing is left.
    pub fn nominal_of_rabbet(self, rabbet: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Nominal, more(rabbet, -self.allowance))
    }

    /// sight = rabbet - 2R = n + A - 2R, the lip reaching over the rabbet by R on both sides.
    /// Inverse: [`Self::nominal_of_sight`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn sight(self, nominal: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Sight, more(nominal, self.allowance).grown(-self.rabbet_width))
    }

    /// n = sight + 2R - A. Inverse: [`Self::sight`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn nominal_of_sight(self, sight: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Nominal, more(sight.grown(self.rabbet_width), -self.allowance))
    }

    /// outside = sight + 2F = n + A + 2(F - R). Inverse: [`Self::nominal_of_outside`].
    ///
    /// # Errors
    /// When nothing is left of it.
    pub fn outside(self, nominal: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Outside, more(nominal, self.allowance).grown(self.face - self.rabbet_width))
    }

    /// n = outside - A - 2(F - R). Inverse: [`Self::outside`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn nominal_of_outside(self, outside: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Nominal, more(outside.grown(self.rabbet_width - self.face), -self.allowance))
    }

    /// What the lip hides on each side of what is in the frame, with that in the middle of its allowance:
    /// (n - sight) / 2 = R - A/2. Negative where it would fall through.
    ///
    /// To the nearest unit, where A is an odd number of them.
    #[must_use]
    pub fn lip_hides(self) -> Length {
        self.rabbet_width - self.allowance.half()
    }
}

/// So much more over both sides together.
fn more(size: Size, in_total: Length) -> Size {
    Size::new(size.width + in_total, size.height + in_total)
}

/// The opening of a mat, from the art it follows from: the sheet, or with [`OpeningRule::Reveal`] the image.
/// Inverse: [`art_of`].
///
/// - overlap: opening = sheet - 2 × overlap;
/// - reveal: opening = image + 2 × reveal;
/// - float: opening = sheet + 2 × gap.
///
/// # Errors
/// When nothing is left.
pub fn opening_of(art: Size, rule: OpeningRule) -> Result<Size, NothingLeft> {
    some(FrameMeasure::Opening, art.grown(each_side(rule)))
}

/// The art that an opening is for: sheet = opening + 2 × overlap, image = opening - 2 × reveal, sheet = opening - 2 × gap.
/// Inverse: [`opening_of`].
///
/// # Errors
/// When nothing is left.
pub fn art_of(opening: Size, rule: OpeningRule) -> Result<Size, NothingLeft> {
    some(FrameMeasure::Art, opening.grown(-each_side(rule)))
}

fn each_side(rule: OpeningRule) -> Length {
    match rule {
        OpeningRule::Overlap(overlap) => -overlap,
        OpeningRule::Reveal(more) | OpeningRule::Float(more) => more,
    }
}

/// A mat board: W = opening + left + right, H = opening + top + bottom. Inverses: [`opening_in`] and [`borders_in`].
///
/// # Errors
/// When nothing is left, which takes a negative border.
pub fn board_round(opening: Size, borders: Sides) -> Result<Size, NothingLeft> {
    let width = borders.left + opening.width + borders.right;
    let height = borders.top + opening.height + borders.bottom;
    some(FrameMeasure::Board, Size::new(width, height))
}

/// The opening that borders leave in a board: W - left - right, H - top - bottom. Inverse: [`board_round`].
///
/// # Errors
/// When nothing is left.
pub fn opening_in(board: Size, borders: Sides) -> Result<Size, NothingLeft> {
    let width = board.width - borders.left - borders.right;
    let height = board.height - borders.top - borders.bottom;
    some(FrameMeasure::Opening, Size::new(width, height))
}

/// The borders that an opening leaves in a board, with the bottom wider than the top by b: those of a surround stated by its
/// whole ([`super::borders`]). Inverse: [`board_round`].
#[must_use]
pub fn borders_in(board: Size, opening: Size, foot_extra: Length) -> Sides {
    let weighting = Weighting::Extra(foot_extra);
    super::borders(opening, Surround { extent: Extent::Whole(board), weighting })
}

/// Stretcher bars and the canvas behind them; each is zero or more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bars {
    /// d: how far the edges stand off the wall.
    pub depth: Length,
    /// f: canvas behind the bars on each side, for folding and stapling.
    pub fold: Length,
}

impl Bars {
    /// What is printed when the edges are: face + 2d. Inverse: [`Self::face_of_printed`].
    #[must_use]
    pub fn printed(self, face: Size) -> Size {
        face.grown(self.depth)
    }

    /// face = printed - 2d. Inverse: [`Self::printed`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn face_of_printed(self, printed: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Face, printed.grown(-self.depth))
    }

    /// The canvas to cut: face + 2(d + f). Inverse: [`Self::face_of_cloth`].
    #[must_use]
    pub fn cloth(self, face: Size) -> Size {
        face.grown(self.depth + self.fold)
    }

    /// face = canvas - 2(d + f). Inverse: [`Self::cloth`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn face_of_cloth(self, cloth: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Face, cloth.grown(-self.depth - self.fold))
    }

    /// The share of the picture that goes to the edges when it is wrapped round them:
    /// 1 - wh / ((w + 2d)(h + 2d)), from nothing to less than one. The face is positive.
    ///
    /// ```
    /// use overmantel::{framing::inverse::Bars, geometry::Size, length::Length};
    /// let bars = Bars { depth: Length::inches(2), fold: Length::inches(1) };
    /// let lost = bars.share_carried_round(Size::inches(16, 16));
    /// assert_eq!((*lost.numer(), *lost.denom()), (9, 25), "1 - (16 / 20)²");
    /// ```
    #[must_use]
    pub fn share_carried_round(self, face: Size) -> Ratio<i128> {
        let printed = self.printed(face);
        let part =
            |face: Length, printed: Length| Ratio::new(i128::from(face.units()), i128::from(printed.units()));
        let kept = part(face.width, printed.width) * part(face.height, printed.height);
        Ratio::from_integer(1) - kept
    }
}

/// A floater frame; both measures are zero or more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloaterRails {
    /// Gap between canvas and frame, on each side.
    pub gap: Length,
    /// Width of the frame's face.
    pub face: Length,
}

impl FloaterRails {
    /// inside = canvas + 2 × gap; outside = inside + 2 × face. Inverse: [`Self::canvas_in`].
    #[must_use]
    pub fn outside(self, canvas: Size) -> Size {
        canvas.grown(self.gap + self.face)
    }

    /// canvas = outside - 2 × (gap + face). Inverse: [`Self::outside`].
    ///
    /// # Errors
    /// When nothing is left.
    pub fn canvas_in(self, outside: Size) -> Result<Size, NothingLeft> {
        some(FrameMeasure::Face, outside.grown(-self.gap - self.face))
    }
}
