//! Build-up: every size of one piece, from the image inside to the outside.
//!
//! All rectangles of a [`BuildUp`] are in the piece's own frame of reference: the origin is the lower left corner of its
//! outside, seen from the front.
//!
//! # The sums
//! With `n` a nominal measure (of what goes into the frame), `A` the allowance in total, `R` the width of the rabbet and
//! `F` that of the moulding's face, along one direction:
//!
//! - the rabbet must take `n` with its allowance: rabbet = n + A;
//! - the lip reaches over it by R on both sides: sight = rabbet - 2R = n + A - 2R;
//! - the face is as wide as F, from the sight edge outwards: outside = sight + 2F = n + A + 2(F - R);
//! - what the lip hides of the package on each side: (n - sight) / 2 = R - A/2.
//!
//! A mat's opening is measured at the picture, the back edge of its bevel. A bevel of 45° in a board of thickness t is t wide
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
use crate::length::{Length, print::plain};
use crate::line_up::line_up;
use crate::plan::{
    Align, Aluminium, Arrangement, Canvas, Edge, Extent, Finish, Floater, Frame, Framing, Group, Mat,
    OpeningRule, Original, Paper, Piece, Shared, SubFrame, Surround, Weighting,
};
use crate::stock::BAR_WIDTH;
use std::fmt;

pub mod face;
pub mod inverse;
pub mod stack;
use inverse::{Bars, FloaterRails, Rails, board_round, opening_of};
use stack::Stack;

/// Every size of one piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BuildUp {
    /// Width and height over all, as it hangs.
    pub outside: Size,
    /// From the wall to its front. A package that is thicker than its rabbet is deep is proud of the frame.
    pub depth: Length,
    /// The image: where it lies, with whatever of it is hidden under a mat or a lip.
    pub image: Rect,
    /// The sheet, canvas face, metal sheet or painting.
    pub sheet: Rect,
    /// From each edge of the sheet to the image.
    pub sheet_borders: Sides,
    /// The part of the outside through which the sheet is seen.
    pub window: Rect,
    /// Printed beyond the image on each side, for the edges of a canvas.
    pub wrap: Length,
    /// What the picture is printed over: the image, and the edges where it is wrapped round them.
    pub picture: Rect,
    /// The canvas canvas to cut, if any.
    pub cloth: Option<Size>,
    /// Radius of the corners of a metal sheet; zero for square ones.
    pub corner_radius: Length,
    /// What lies behind what, from the front to the back.
    pub stack: Stack,
    /// The mat, if any.
    pub mat: Option<MatSizes>,
    /// The frame, if any.
    pub frame: Option<FrameSizes>,
    /// The inside of a floater frame, if any.
    pub floater_inside: Option<Rect>,
    /// What holds a screw at the back, as seen from the front: legs, bars or blocks; that at the left, or at the upper
    /// left, comes first.
    pub holds: Vec<Rect>,
}

/// Sizes of a mat.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MatSizes {
    /// The board: what is cut from the sheet, and the nominal size of the frame.
    pub board: Rect,
    /// The mat opening (at the picture): the smaller hole, that of the bottom mat where there are two.
    pub opening: Rect,
    /// The opening of the top mat at its own back; the same as `opening` for a single mat.
    pub upper_opening: Rect,
    /// The opening of the top mat at its face, wider by the bevel.
    pub face_opening: Rect,
    /// From each edge of the board to the mat opening (at the picture), whatever lies between in a shared mat.
    pub borders: Sides,
    /// The same, less what the frame's lip hides.
    pub visible_borders: Sides,
}

/// Sizes of a frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FrameSizes {
    /// Nominal size: of what goes into it (mat, glazing, backing).
    pub nominal: Size,
    /// The rabbet, with its allowance.
    pub rabbet: Rect,
    /// The sight opening: what can be seen through the frame.
    pub sight: Rect,
    /// What the lip hides of the package on each side, with the package in the middle of its allowance.
    pub lip_hides: Length,
    /// Depth of the rabbet that is left behind the package; less than zero where the package is proud of the frame.
    pub spare_depth: Length,
    /// Length of moulding in the finished frame: the outside lengths of the four legs together.
    pub moulding_exact: Length,
    /// Length of moulding by the shops' rule, 2(w + h) + 8F (common practice, no source).
    pub moulding_by_rule: Length,
}

/// Why a piece has no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FramingError {
    /// The sheet is smaller than its image.
    NoSheet {
        /// The sheet.
        sheet: Size,
        /// The image.
        image: Size,
    },
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
    /// The bar between two openings of a shared mat is used up by reveal and bevel.
    NoBar {
        /// What would be left of its face.
        bar: Length,
    },
    /// The lip covers everything.
    NoSight {
        /// The sight opening that would result.
        sight: Size,
    },
}

impl fmt::Display for FramingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = |size: &Size| format!("{} × {}", plain(size.width), plain(size.height));
        match self {
            Self::NoSheet { sheet, image } => write!(
                f,
                "an image of {} and its borders do not fit on a sheet of {}; choose a larger sheet or a smaller image",
                size(image),
                size(sheet)
            ),
            Self::NoOpening { opening } => write!(
                f,
                "the mat opening would be {}; let the mat cover less of the sheet, or make the print larger",
                size(opening)
            ),
            Self::NoBorder { border } => write!(
                f,
                "the mat board would be {} wide beside its opening; choose a larger board or a smaller opening",
                plain(*border)
            ),
            Self::NoBar { bar } => write!(
                f,
                "the bar between the openings would be {} wide; make it wider, or reduce the reveal of the bottom mat",
                plain(*bar)
            ),
            Self::NoSight { sight } => write!(
                f,
                "the frame's lip would leave {} visible; choose a narrower rabbet (rebate) or a larger print",
                size(sight)
            ),
        }
    }
}

/// Works out every size of a piece that has a frame of its own, or none.
///
/// # Errors
/// When nothing could be cut: a sheet, an opening, a border or a sight size that would be less than nothing.
pub fn build_up(piece: &Piece) -> Result<BuildUp, FramingError> {
    match &piece.finish {
        Finish::Canvas(canvas) => Ok(canvas_build_up(piece.image, canvas)),
        Finish::Aluminium(sheet) => Ok(aluminium_build_up(piece.image, sheet)),
        Finish::Original(Original { floater: Some(floater), depth, .. }) => {
            Ok(in_floater(painting(piece.image, *depth), floater))
        }
        Finish::Paper(Paper { framing, .. }) | Finish::Original(Original { framing, .. }) => {
            let work = work(piece)?;
            let mut built = match &framing.mat {
                Some(mat) => matted(&[work], framing, mat, Shared { bar: Length::ZERO }, SINGLE)?,
                None => vec![unmatted(&work, framing)],
            };
            match (built.pop(), &framing.frame) {
                (Some(package), Some(frame)) => framed(package, frame),
                (Some(package), None) => {
                    let holds = match &piece.finish {
                        Finish::Original(original) if framing.mat.is_none() => {
                            painting(piece.image, original.depth).holds
                        }
                        _ => Vec::new(),
                    };
                    Ok(BuildUp { holds, ..package })
                }
                (None, _) => Ok(bare(piece.image, Stack::default())),
            }
        }
    }
}

/// How a single opening is lined up with itself.
const SINGLE: (Arrangement, Align) = (Arrangement::Row, Align::Centre);

/// Works out every size of pieces that share one frame, whose mat has an opening for each. Frame, mat and what goes with
/// them are those of the first piece; each opening follows from its own piece. All have the same outside.
///
/// With n openings of widths o in a row, bars g and a board W: side = (W - Σo - (n - 1) g) / 2.
///
/// # Errors
/// As for [`build_up`], and when a bar would be too narrow. Pieces without a mat are worked out by themselves.
pub fn build_up_shared(
    pieces: &[Piece],
    shared: Shared,
    group: &Group,
) -> Result<Vec<BuildUp>, FramingError> {
    let Some(framing) = pieces.first().and_then(|piece| piece.finish.framing()) else {
        return pieces.iter().map(build_up).collect();
    };
    let Some(mat) = &framing.mat else { return pieces.iter().map(build_up).collect() };
    let works = pieces.iter().map(work).collect::<Result<Vec<_>, _>>()?;
    let packages = matted(&works, framing, mat, shared, (group.arrangement, group.align))?;
    packages
        .into_iter()
        .map(|package| match &framing.frame {
            Some(frame) => framed(package, frame),
            None => Ok(package),
        })
        .collect()
}

/// What goes behind a mat: an image on its sheet, and how the opening follows from them.
struct Work {
    image: Size,
    sheet: Size,
    borders: Sides,
    depth: Length,
    opening: OpeningRule,
}

fn work(piece: &Piece) -> Result<Work, FramingError> {
    let (border, depth) = match &piece.finish {
        Finish::Paper(paper) => (paper.border, Length::ZERO),
        Finish::Original(original) => (Surround::even(Length::ZERO), original.depth),
        Finish::Canvas(_) | Finish::Aluminium(_) => (Surround::even(Length::ZERO), Length::ZERO),
    };
    let image = piece.image;
    let borders = borders(image, border);
    let sheet = board_round(image, borders).unwrap_or_else(|why| why.size);
    if [borders.left, borders.top, borders.right, borders.bottom].iter().any(|side| *side < Length::ZERO) {
        return Err(FramingError::NoSheet { sheet, image });
    }
    let mat = piece.finish.framing().and_then(|framing| framing.mat.as_ref());
    let opening = mat.map_or(OpeningRule::Overlap(Length::ZERO), |mat| mat.opening);
    Ok(Work { image, sheet, borders, depth, opening })
}

/// What is left on each side of something, by the way its surround is stated. What two sides share is divided so that all
/// sums to the whole.
///
/// - By a border b: left = top = right = b; bottom = b + extra, or b × n/m where m parts at the top stand to n at the bottom.
/// - By the whole W × H round w × h: left = (W - w)/2; top = (H - h - extra)/2, or (H - h) × m/(m + n); right and bottom are
///   the rest.
#[must_use]
pub fn borders(inner: Size, surround: Surround) -> Sides {
    match surround.extent {
        Extent::Border(border) => Sides {
            bottom: match surround.weighting {
                Weighting::Extra(extra) => border + extra,
                Weighting::Ratio { head, foot } => border.times_ratio(foot.into(), i64::from(head).max(1)),
            },
            ..Sides::all(border)
        },
        Extent::Whole(whole) => {
            let across = whole.width - inner.width;
            let upright = whole.height - inner.height;
            let left = across.half();
            let top = match surround.weighting {
                Weighting::Extra(extra) => (upright - extra).half(),
                Weighting::Ratio { head, foot } => {
                    upright.times_ratio(head.into(), (i64::from(head) + i64::from(foot)).max(1))
                }
            };
            Sides { left, right: across - left, top, bottom: upright - top }
        }
    }
}

/// A piece that is nothing but its image: its outside is its face.
fn bare(image: Size, stack: Stack) -> BuildUp {
    let face = Rect::new(Length::ZERO, Length::ZERO, image);
    BuildUp {
        outside: image,
        depth: stack.thickness(),
        image: face,
        sheet: face,
        sheet_borders: Sides::default(),
        window: face,
        wrap: Length::ZERO,
        picture: face,
        cloth: None,
        corner_radius: Length::ZERO,
        stack,
        mat: None,
        frame: None,
        floater_inside: None,
        holds: Vec::new(),
    }
}

/// The four sides of a ring so wide that lies so far within a size: left, right, upper and lower.
fn ring_of(size: Size, within: Length, width: Length) -> Vec<Rect> {
    let Size { width: across, height } = Size::new(size.width - within * 2, size.height - within * 2);
    if across <= Length::ZERO || height <= Length::ZERO || width <= Length::ZERO {
        return Vec::new();
    }
    let upright = Size::new(width.min(across), height);
    let level = Size::new(across, width.min(height));
    vec![
        Rect::new(within, within, upright),
        Rect::new(within + across - upright.width, within, upright),
        Rect::new(within, within + height - level.height, level),
        Rect::new(within, within, level),
    ]
}

/// A painting without a frame: where it has a depth, it is taken to be on bars or on a panel as wide at its edges.
fn painting(image: Size, depth: Length) -> BuildUp {
    let holds = if depth > Length::ZERO { ring_of(image, Length::ZERO, BAR_WIDTH) } else { Vec::new() };
    BuildUp { holds, ..bare(image, Stack::work(depth)) }
}

/// Canvas: printed area = (w + 2d, h + 2d), canvas = (w + 2(d + f), h + 2(d + f)).
fn canvas_build_up(image: Size, canvas: &Canvas) -> BuildUp {
    let plain = bare(image, Stack::work(canvas.depth));
    let built = BuildUp {
        wrap: canvas.depth,
        picture: match canvas.edge {
            Edge::Carried => plain.picture.grown(canvas.depth),
            Edge::Mirrored | Edge::Plain(_) => plain.picture,
        },
        cloth: Some(Bars { depth: canvas.depth, fold: canvas.fold }.cloth(image)),
        holds: ring_of(image, Length::ZERO, BAR_WIDTH),
        ..plain
    };
    match &canvas.floater {
        Some(floater) => in_floater(built, floater),
        None => built,
    }
}

/// The float block nearest to the lower left corner of a metal sheet, from that corner; there is one at each (from memory).
pub const FLOAT_BLOCK: Rect =
    Rect::new(Length::inches_ratio(3, 2), Length::inches_ratio(3, 2), Size::inches(2, 2));

/// How far from each edge of what is printed something that matters, such as a signature, has to be to stay on the face of a canvas:
/// the depth of the bars where the picture is wrapped round them, and 1/4 in for the fold (common practice, no source).
#[must_use]
pub const fn safe_margin(canvas: &Canvas) -> Length {
    let fold = Length::inches_ratio(1, 4);
    match canvas.edge {
        Edge::Carried => Length::from_units(canvas.depth.units() + fold.units()),
        Edge::Mirrored | Edge::Plain(_) => fold,
    }
}

/// In a floater frame the outside is the piece with the gap and the frame's face on every side.
fn in_floater(piece: BuildUp, floater: &Floater) -> BuildUp {
    let Floater { gap, face, .. } = *floater;
    let bars = piece.holds.first().map_or(Length::ZERO, |bar| bar.size.width);
    let moved = piece.moved(gap + face);
    let outside = FloaterRails { gap, face }.outside(moved.outside);
    BuildUp {
        outside,
        // From the frame's own back over its ledge to the bars.
        holds: ring_of(outside, Length::ZERO, face + gap + bars),
        depth: moved.depth.max(floater.depth),
        floater_inside: Some(moved.sheet.grown(floater.gap)),
        ..moved
    }
}

/// How far the front of what stands in a floater frame lies behind the front of the frame: 1/8 in, or what there is (common
/// practice, no source). What is left of the frame's depth is the ledge behind.
#[must_use]
pub fn floater_recess(floater: &Floater, thickness: Length) -> Length {
    (floater.depth - thickness).clamp(Length::ZERO, Length::inches_ratio(1, 8))
}

/// The ledge behind what stands in a floater frame: 3/8 in, or what its depth leaves (common practice, no source).
#[must_use]
pub fn floater_ledge(floater: &Floater, thickness: Length) -> Length {
    let left = floater.depth - thickness - floater_recess(floater, thickness);
    left.clamp(Length::ZERO, Length::inches_ratio(3, 8))
}

/// Aluminium: the sheet and what holds it off the wall.
fn aluminium_build_up(image: Size, sheet: &Aluminium) -> BuildUp {
    let holds = match sheet.sub_frame {
        Some(SubFrame { from_edges, width }) => ring_of(image, from_edges, width),
        None => float_blocks(image),
    };
    BuildUp { corner_radius: sheet.corner_radius, holds, ..bare(image, Stack::metal(sheet)) }
}

/// The float blocks of a sheet, the upper left one first.
fn float_blocks(sheet: Size) -> Vec<Rect> {
    let Rect { x, y, size } = FLOAT_BLOCK;
    let (right, top) = (sheet.width - x - size.width, sheet.height - y - size.height);
    [(x, top), (right, top), (x, y), (right, y)].map(|(x, y)| Rect::new(x, y, size)).to_vec()
}

impl BuildUp {
    /// What of the picture is printed beyond the image, in all: on the edges of a canvas that it is wrapped round.
    #[must_use]
    pub fn printed_beyond(&self) -> Size {
        let (picture, image) = (self.picture.size, self.image.size);
        Size::new(picture.width - image.width, picture.height - image.height)
    }

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

/// A sheet without a mat: the outside of the package is the sheet.
fn unmatted(work: &Work, framing: &Framing) -> BuildUp {
    let sheet = Rect::new(Length::ZERO, Length::ZERO, work.sheet);
    let image = sheet.shrunk(work.borders);
    BuildUp {
        image,
        picture: image,
        sheet_borders: work.borders,
        ..bare(work.sheet, Stack::package(framing, work.depth))
    }
}

/// A mat round one or several works; the outside of the package is the board.
fn matted(
    works: &[Work],
    framing: &Framing,
    mat: &Mat,
    shared: Shared,
    (arrangement, align): (Arrangement, Align),
) -> Result<Vec<BuildUp>, FramingError> {
    let openings = works
        .iter()
        .map(|work| match work.opening {
            OpeningRule::Overlap(_) | OpeningRule::Float(_) => opening_of(work.sheet, work.opening),
            OpeningRule::Reveal(_) => opening_of(work.image, work.opening),
        })
        .collect::<Result<Vec<_>, _>>()
        .map_err(|why| FramingError::NoOpening { opening: why.size })?;
    let placed = line_up(&openings, arrangement, shared.bar, align);
    let block = placed.iter().copied().reduce(Rect::union).unwrap_or_default();
    let around = borders(block.size, mat.surround);
    let narrowest = around.left.min(around.top).min(around.right).min(around.bottom);
    let reveal = mat.inner_reveal.unwrap_or_default();
    if narrowest - reveal - mat.thickness <= Length::ZERO {
        return Err(FramingError::NoBorder { border: narrowest - reveal });
    }
    let bar = shared.bar - (reveal + mat.thickness) * 2;
    if works.len() > 1 && bar <= Length::ZERO {
        return Err(FramingError::NoBar { bar });
    }
    let board = block.shrunk(Sides {
        left: -around.left,
        top: -around.top,
        right: -around.right,
        bottom: -around.bottom,
    });
    let to_corner = |rect: Rect| rect.moved(-board.x, -board.y);
    let whole = to_corner(board);
    Ok(works
        .iter()
        .zip(&placed)
        .map(|(work, &opening)| {
            let opening = to_corner(opening);
            let borders = Sides {
                left: opening.x,
                top: whole.top() - opening.top(),
                right: whole.right() - opening.right(),
                bottom: opening.y,
            };
            let upper_opening = opening.grown(reveal);
            let (image, sheet) = behind(work, opening);
            BuildUp {
                image,
                sheet,
                sheet_borders: work.borders,
                window: opening,
                picture: image,
                mat: Some(MatSizes {
                    board: whole,
                    opening,
                    upper_opening,
                    face_opening: upper_opening.grown(mat.thickness),
                    borders,
                    visible_borders: borders,
                }),
                ..bare(whole.size, Stack::package(framing, work.depth))
            }
        })
        .collect())
}

/// Where image and sheet lie behind an opening: what the opening follows from is in its middle.
fn behind(work: &Work, opening: Rect) -> (Rect, Rect) {
    let Sides { left, top, right, bottom } = work.borders;
    match work.opening {
        OpeningRule::Reveal(_) => {
            let image = Rect::centred(work.image, opening);
            (image, image.shrunk(Sides { left: -left, top: -top, right: -right, bottom: -bottom }))
        }
        OpeningRule::Overlap(_) | OpeningRule::Float(_) => {
            let sheet = Rect::centred(work.sheet, opening);
            (sheet.shrunk(work.borders), sheet)
        }
    }
}

/// The frame round a package.
fn framed(package: BuildUp, frame: &Frame) -> Result<BuildUp, FramingError> {
    let nominal = package.outside;
    let rails = Rails::from(frame);
    let sight = rails.sight(nominal).map_err(|why| FramingError::NoSight { sight: why.size })?;
    let outside = sight.grown(frame.face);
    let whole = Rect::new(Length::ZERO, Length::ZERO, outside);
    let sight = whole.shrunk(Sides::all(frame.face));
    let rabbet = sight.grown(frame.rabbet_width);
    let lip_hides = rails.lip_hides();
    // No rabbet is deeper than its moulding.
    let spare_depth = frame.rabbet_depth.min(frame.depth) - package.stack.thickness();
    let package = package.moved(frame.face - lip_hides);
    let hidden = |border: Length| border - lip_hides;
    Ok(BuildUp {
        outside,
        holds: ring_of(outside, Length::ZERO, frame.face - frame.rabbet_width),
        depth: frame.depth + (-spare_depth).max(Length::ZERO),
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
            spare_depth,
            moulding_exact: (outside.width + outside.height) * 2,
            moulding_by_rule: (nominal.width + nominal.height) * 2 + frame.face * 8,
        }),
        ..package
    })
}
