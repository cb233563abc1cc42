//! Build-up: every size of one piece, from the image inside to the outside.
//!
//! All rectangles of a [`BuildUp`] are in the piece's own frame of reference: the origin is the lower left corner of its
//! outside, seen from the front.
//!
//! # The sums
//! With `n` a nominal measure (of what goes into the frame), `A` the allowance in total, `R` the width of the rabbet and
//! `F` that of the moulding's face, along one direction:
//!
//! - the rabbet must take `n` with its play: rabbet = n + A;
//! - the lip reaches over it by R on both sides: sight = rabbet - 2R = n + A - 2R;
//! - the face is as wide as F, from the sight edge outwards: outside = sight + 2F = n + A + 2(F - R);
//! - what the lip hides of the package on each side: (n - sight) / 2 = R - A/2.
//!
//! A mat's opening is measured at the art, the back edge of its bevel. A bevel of 45° in a board of thickness t is t wide
//! seen from the front, so at the face the opening is larger by 2t.
//!
//! The formulae are geometry; that a nominal size means what goes into the frame, and where a mat opening is measured, are
//! common practice, no source.
//!
//! ```
//! use overmantel::{framing::build_up, geometry::Size, plan::Piece};
//! let piece = build_up(&Piece::starting()).unwrap();
//! let frame = piece.frame.unwrap();
//! assert_eq!(frame.nominal, Size::inches(20, 24), "16 - 2 × 1/8 + 2 × 2 1/8 = 20");
//! assert_eq!(piece.outside, frame.nominal.grown(overmantel::length::Length::inches_ratio(9, 16)));
//! ```

use crate::geometry::{Rect, Sides, Size};
use crate::length::{Length, print::exact};
use crate::plan::{Canvas, Edge, Finish, Frame, Mat, MatExtent, OpeningRule, Paper, Piece};
use std::fmt;

pub mod inverse;

/// Every size of one piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BuildUp {
    /// Width and height over all, as it hangs.
    pub outside: Size,
    /// From the wall to its front.
    pub depth: Length,
    /// The image: where it lies, with whatever of it is hidden under a mat or a lip.
    pub image: Rect,
    /// The sheet, canvas face, metal sheet or painting.
    pub sheet: Rect,
    /// The part of the outside through which the sheet is seen.
    pub window: Rect,
    /// Printed beyond the image on each side, for the edges of a canvas.
    pub wrap: Length,
    /// What the picture is printed over: the image, and the edges where it is carried round them.
    pub picture: Rect,
    /// The canvas cloth to cut, if any.
    pub cloth: Option<Size>,
    /// The mat, if any.
    pub mat: Option<MatSizes>,
    /// The frame, if any.
    pub frame: Option<FrameSizes>,
    /// The inside of a floater frame, if any.
    pub floater_inside: Option<Rect>,
}

/// Sizes of a mat.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MatSizes {
    /// The board: what is cut from the sheet, and the nominal size of the frame.
    pub board: Rect,
    /// The opening at the art: the smaller hole, that of the inner mat where there are two.
    pub opening: Rect,
    /// The opening of the upper mat at its own back; the same as `opening` for a single mat.
    pub upper_opening: Rect,
    /// The opening of the upper mat at its face, wider by the bevel.
    pub face_opening: Rect,
    /// From each edge of the board to the opening at the art.
    pub borders: Sides,
    /// The same, less what the frame's lip hides.
    pub visible_borders: Sides,
}

/// Sizes of a frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FrameSizes {
    /// Nominal size: of what goes into it (mat, glazing, backing).
    pub nominal: Size,
    /// The rabbet, with its play.
    pub rabbet: Rect,
    /// The sight opening: what can be seen through the frame.
    pub sight: Rect,
    /// What the lip hides of the package on each side, with the package in the middle of its play.
    pub lip_hides: Length,
    /// Length of moulding in the finished frame: the sum of the four rails at their long points.
    pub moulding_exact: Length,
    /// Length of moulding by the shops' rule, 2(w + h) + 8F (common practice, no source).
    pub moulding_by_rule: Length,
}

/// Why a piece has no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FramingError {
    /// The overlap leaves no opening.
    NoOpening {
        /// The opening that would result.
        opening: Size,
    },
    /// The board is smaller than its opening.
    NoBorder {
        /// The narrowest border that would result.
        border: Length,
    },
    /// The lip covers everything.
    NoSight {
        /// The sight opening that would result.
        sight: Size,
    },
}

impl fmt::Display for FramingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoOpening { opening } => write!(
                f,
                "the mat's opening would be {} × {}; let the mat cover less of the sheet, or make the print larger",
                exact(opening.width),
                exact(opening.height)
            ),
            Self::NoBorder { border } => write!(
                f,
                "the mat board would be {} wide beside its opening; choose a larger board or a smaller opening",
                exact(*border)
            ),
            Self::NoSight { sight } => write!(
                f,
                "the frame's lip would leave {} × {} to be seen; take a narrower rabbet or a larger print",
                exact(sight.width),
                exact(sight.height)
            ),
        }
    }
}

impl std::error::Error for FramingError {}

/// Works out every size of a piece.
///
/// # Errors
/// When nothing could be cut: an opening, a border or a sight size that would be less than nothing.
pub fn build_up(piece: &Piece) -> Result<BuildUp, FramingError> {
    match &piece.finish {
        Finish::Paper(paper) => paper_build_up(piece.image, paper),
        Finish::Canvas(canvas) => Ok(canvas_build_up(piece.image, canvas)),
        Finish::Aluminium(sheet) => Ok(bare(piece.image, sheet.thickness + sheet.stand_off)),
        Finish::Original(original) => Ok(bare(piece.image, original.depth)),
    }
}

/// A piece that is nothing but its image: its outside is its face.
fn bare(image: Size, depth: Length) -> BuildUp {
    let face = Rect::new(Length::ZERO, Length::ZERO, image);
    BuildUp {
        outside: image,
        depth,
        image: face,
        sheet: face,
        window: face,
        wrap: Length::ZERO,
        picture: face,
        cloth: None,
        mat: None,
        frame: None,
        floater_inside: None,
    }
}

/// Canvas: printed area = (w + 2d, h + 2d), cloth = (w + 2(d + f), h + 2(d + f)); in a floater frame the outside is the
/// canvas with the gap and the face on every side.
fn canvas_build_up(image: Size, canvas: &Canvas) -> BuildUp {
    let round = canvas.floater.as_ref().map_or(Length::ZERO, |floater| floater.gap + floater.face);
    let outside = image.grown(round);
    let face = Rect::new(round, round, image);
    let picture = match canvas.edge {
        Edge::Carried => face.shrunk(Sides::all(-canvas.depth)),
        Edge::Mirrored | Edge::Plain(_) => face,
    };
    BuildUp {
        outside,
        depth: canvas.floater.as_ref().map_or(canvas.depth, |floater| floater.depth.max(canvas.depth)),
        sheet: face,
        window: face,
        wrap: canvas.depth,
        picture,
        cloth: Some(image.grown(canvas.depth + canvas.fold)),
        floater_inside: canvas.floater.as_ref().map(|floater| face.shrunk(Sides::all(-floater.gap))),
        image: face,
        ..bare(image, canvas.depth)
    }
}

impl BuildUp {
    fn moved(self, by: Length) -> Self {
        let shift = |rect: Rect| rect.moved(by, by);
        Self {
            image: shift(self.image),
            sheet: shift(self.sheet),
            window: shift(self.window),
            picture: shift(self.picture),
            mat: self.mat.map(|mat| MatSizes {
                board: shift(mat.board),
                opening: shift(mat.opening),
                upper_opening: shift(mat.upper_opening),
                face_opening: shift(mat.face_opening),
                ..mat
            }),
            ..self
        }
    }
}

fn paper_build_up(image: Size, paper: &Paper) -> Result<BuildUp, FramingError> {
    let sheet = image.grown(paper.border);
    let package = match &paper.mat {
        Some(mat) => matted(image, sheet, mat)?,
        None => {
            let sheet = Rect::new(Length::ZERO, Length::ZERO, sheet);
            let image = sheet.shrunk(Sides::all(paper.border));
            BuildUp { image, picture: image, ..bare(sheet.size, Length::ZERO) }
        }
    };
    match &paper.frame {
        Some(frame) => framed(package, frame),
        None => Ok(package),
    }
}

/// The mat round a sheet; the outside is the board.
fn matted(image: Size, sheet: Size, mat: &Mat) -> Result<BuildUp, FramingError> {
    let opening = match mat.opening {
        OpeningRule::Overlap(overlap) => sheet.grown(-overlap),
        OpeningRule::Reveal(reveal) => image.grown(reveal),
        OpeningRule::Float(gap) => sheet.grown(gap),
    };
    if !opening.is_positive() {
        return Err(FramingError::NoOpening { opening });
    }
    let borders = borders(opening, mat);
    let narrowest = borders.left.min(borders.top).min(borders.right).min(borders.bottom);
    let reveal = mat.inner_reveal.unwrap_or_default();
    if narrowest - reveal - mat.thickness <= Length::ZERO {
        return Err(FramingError::NoBorder { border: narrowest - reveal });
    }
    let board = Size::new(
        borders.left + opening.width + borders.right,
        borders.top + opening.height + borders.bottom,
    );
    let board = Rect::new(Length::ZERO, Length::ZERO, board);
    let opening = board.shrunk(borders);
    let sheet = Rect::centred(sheet, opening);
    let image = Rect::centred(image, opening);
    let upper_opening = opening.shrunk(Sides::all(-reveal));
    Ok(BuildUp {
        image,
        sheet,
        window: opening,
        picture: image,
        mat: Some(MatSizes {
            board,
            opening,
            upper_opening,
            face_opening: upper_opening.shrunk(Sides::all(-mat.thickness)),
            borders,
            visible_borders: borders,
        }),
        ..bare(board.size, mat.thickness)
    })
}

/// The board left on each side of an opening. What two sides share is divided so that all sums to the board.
fn borders(opening: Size, mat: &Mat) -> Sides {
    match mat.extent {
        MatExtent::Border(border) => Sides { bottom: border + mat.foot_extra, ..Sides::all(border) },
        MatExtent::Board(board) => {
            let across = board.width - opening.width;
            let upright = board.height - opening.height;
            let left = across.half();
            let top = (upright - mat.foot_extra).half();
            Sides { left, right: across - left, top, bottom: upright - top }
        }
    }
}

/// The frame round a package.
fn framed(package: BuildUp, frame: &Frame) -> Result<BuildUp, FramingError> {
    let nominal = package.outside;
    let rabbet = Size::new(nominal.width + frame.allowance, nominal.height + frame.allowance);
    let sight = rabbet.grown(-frame.rabbet_width);
    if !sight.is_positive() {
        return Err(FramingError::NoSight { sight });
    }
    let outside = sight.grown(frame.face);
    let whole = Rect::new(Length::ZERO, Length::ZERO, outside);
    let sight = whole.shrunk(Sides::all(frame.face));
    let rabbet = sight.shrunk(Sides::all(-frame.rabbet_width));
    let lip_hides = frame.rabbet_width - frame.allowance.half();
    let package = package.moved(frame.face - lip_hides);
    let hidden = |border: Length| border - lip_hides;
    Ok(BuildUp {
        outside,
        depth: frame.depth,
        window: package.window.common(sight).unwrap_or(sight),
        mat: package.mat.clone().map(|mat| MatSizes {
            visible_borders: Sides {
                left: hidden(mat.borders.left),
                top: hidden(mat.borders.top),
                right: hidden(mat.borders.right),
                bottom: hidden(mat.borders.bottom),
            },
            ..mat
        }),
        frame: Some(FrameSizes {
            nominal,
            rabbet,
            sight,
            lip_hides,
            moulding_exact: (outside.width + outside.height) * 2,
            moulding_by_rule: (nominal.width + nominal.height) * 2 + frame.face * 8,
        }),
        ..package
    })
}
