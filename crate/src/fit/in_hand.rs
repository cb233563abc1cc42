//! A frame in hand: from what was measured of it to the print to order for it.
//!
//! Any one of four measures leads to the nominal size n, and from it to the others (`framing::inverse` has the sums):
//! the glass is n; the rabbet n + A; the sight opening n + A - 2R; the outside n + A + 2(F - R).
//!
//! Three prints suit it:
//!
//! - **to the edge**: the sheet is n and the image fills it; the lip hides R - A/2 of the image on each side;
//! - **inside the sight opening**: the sheet is n, and the whole image stands inside what is seen, with white paper round it;
//! - **behind a mat**: the board is n; the print has the very shape of the picture, so that nothing is cropped, and is as large as
//!   the least borders allow: opening = print - 2 × overlap, borders = what is left.
//!
//! ```
//! use overmantel::fit::{FitWish, in_hand::from_frame};
//! use overmantel::{geometry::Size, length::Length, plan::{InHand, Measured}};
//! let quarter = Length::inches_ratio(1, 4);
//! let frame = InHand { face: Length::inches(1), rabbet_width: quarter, allowance: quarter.half(), ..InHand::starting() };
//! assert_eq!((frame.measured, frame.size), (Measured::Glass, Size::inches(16, 20)));
//! let wish = FitWish { least_mat_border: Length::inches_ratio(17, 8), ..FitWish::default() };
//! let order = from_frame(&frame, (4000, 5000), &wish).unwrap();
//! let print = order.matted.unwrap();
//! assert_eq!(print.sheet, Size::inches(12, 15), "16 - 2 × 2 1/8 + 2 × 1/8 = 12 wide, and 4:5");
//! assert_eq!(print.borders.top, Length::inches_ratio(21, 8), "(20 - (15 - 2 × 1/8)) / 2 = 2 5/8");
//! ```

use super::{FitWish, Lost, inside};
use crate::framing::inverse::{NothingLeft, Rails, borders_in};
use crate::geometry::{Sides, Size};
use crate::length::{Length, print::plain};
use crate::plan::{InHand, Measured};
use crate::print::{Cut, fill};
use std::fmt;

/// What to order for a frame in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Order {
    /// What goes into it: glass, mat board and backing.
    pub nominal: Size,
    /// Its rabbet.
    pub rabbet: Size,
    /// What can be seen through it.
    pub sight: Size,
    /// Its size over all.
    pub outside: Size,
    /// What the lip hides on each side of what is in it.
    pub lip_hides: Length,
    /// A print to the edge.
    pub to_the_edge: Print,
    /// A print whose whole image is seen.
    pub inside_sight: Result<Print, InHandError>,
    /// A print behind a mat.
    pub matted: Result<Print, InHandError>,
}

/// A print for a frame in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Print {
    /// The sheet to order.
    pub sheet: Size,
    /// The image on it.
    pub image: Size,
    /// The opening of the mat, if there is one.
    pub opening: Option<Size>,
    /// With a mat, the board round its opening; without, the white paper round the image.
    pub borders: Sides,
    /// What the frame's lip leaves of the borders to be seen; negative by what it hides of the image.
    pub visible_borders: Sides,
    /// What is printed, and how finely.
    pub cut: Cut,
    /// What is not.
    pub lost: Lost,
    /// Whether the wished resolution is kept.
    pub keeps_fineness: bool,
}

/// Why a frame in hand takes no such print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum InHandError {
    /// What was measured can't be a frame's.
    Frame(#[from] NothingLeft),
    /// The lip does not reach over the allowance.
    FallsThrough {
        /// How far the lip reaches.
        rabbet_width: Length,
        /// The allowance in total.
        allowance: Length,
    },
    /// The white border leaves nothing for the image.
    NoImage {
        /// The border asked for.
        border: Length,
        /// What it would leave of the sight opening.
        left: Size,
    },
    /// The mat's borders leave nothing for the print.
    NoOpening {
        /// The border asked for.
        border: Length,
        /// What it would leave of the board.
        left: Size,
    },
}

impl fmt::Display for InHandError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = |size: Size| format!("{} × {}", plain(size.width), plain(size.height));
        match *self {
            Self::Frame(why) => why.fmt(f),
            Self::FallsThrough { rabbet_width, allowance } => write!(
                f,
                "a lip of {} is too narrow for an allowance of {} in the rabbet (rebate): it has to cover more than half of that; measure both again",
                plain(rabbet_width),
                plain(allowance)
            ),
            Self::NoImage { border, left } => write!(
                f,
                "a white border of at least {} leaves {} of the sight opening for the image; choose a narrower border or a larger frame",
                plain(border),
                shown(left)
            ),
            Self::NoOpening { border, left } => write!(
                f,
                "mat borders of at least {} leave {} of the board for the opening; choose narrower borders or a larger frame",
                plain(border),
                shown(left)
            ),
        }
    }
}

/// What to order for a frame that the user already has; `picture_px` is at least one in each direction.
///
/// # Errors
/// When what was measured can't be a frame's, or its lip holds nothing. That only one of the prints is impossible stands in the
/// order itself.
pub fn from_frame(frame: &InHand, picture_px: (u32, u32), wish: &FitWish) -> Result<Order, InHandError> {
    let rails = Rails::from(frame);
    if rails.rabbet_width * 2 <= rails.allowance {
        let Rails { rabbet_width, allowance, .. } = rails;
        return Err(InHandError::FallsThrough { rabbet_width, allowance });
    }
    let nominal = match frame.measured {
        // The glass is the nominal size: the way to the rabbet and back refuses one that is nothing.
        Measured::Glass => rails.nominal_of_rabbet(rails.rabbet(frame.size)?)?,
        Measured::Rabbet => rails.nominal_of_rabbet(frame.size)?,
        Measured::Sight => rails.nominal_of_sight(frame.size)?,
        Measured::Outside => rails.nominal_of_outside(frame.size)?,
    };
    let sight = rails.sight(nominal)?;
    let lip_hides = rails.lip_hides();
    let print = |sheet: Size, image: Size, opening: Option<Size>, foot_extra: Length, cut: Cut| {
        let borders = borders_in(nominal, opening.unwrap_or(image), foot_extra);
        Print {
            sheet,
            image,
            opening,
            borders,
            visible_borders: Sides {
                left: borders.left - lip_hides,
                top: borders.top - lip_hides,
                right: borders.right - lip_hides,
                bottom: borders.bottom - lip_hides,
            },
            cut,
            lost: Lost::by(&cut, picture_px),
            keeps_fineness: cut.pixels_per_inch >= wish.fineness_ppi,
        }
    };
    let to_the_edge = fill(picture_px, nominal, wish.focus);
    Ok(Order {
        nominal,
        rabbet: rails.rabbet(nominal)?,
        sight,
        outside: rails.outside(nominal)?,
        lip_hides,
        to_the_edge: print(nominal, nominal, None, Length::ZERO, to_the_edge),
        inside_sight: inside_sight(sight, picture_px, wish)
            .map(|(image, cut)| print(nominal, image, None, Length::ZERO, cut)),
        matted: behind_a_mat(nominal, picture_px, wish).map(|(sheet, cut)| {
            print(sheet, sheet, Some(sheet.grown(-wish.mat_overlap)), wish.foot_extra, cut)
        }),
    })
}

/// The whole image inside the sight opening, as large as the least border leaves.
fn inside_sight(sight: Size, picture_px: (u32, u32), wish: &FitWish) -> Result<(Size, Cut), InHandError> {
    let left = sight.grown(-wish.least_border);
    inside(picture_px, left).ok_or(InHandError::NoImage { border: wish.least_border, left })
}

/// A whole print behind a mat, as large as the least borders leave: the print reaches under the mat by the overlap, but never
/// beyond the board.
fn behind_a_mat(nominal: Size, picture_px: (u32, u32), wish: &FitWish) -> Result<(Size, Cut), InHandError> {
    let opening = nominal.grown(-wish.least_mat_border);
    let opening = Size::new(opening.width, opening.height - wish.foot_extra);
    let refused = InHandError::NoOpening { border: wish.least_mat_border, left: opening };
    if !opening.is_positive() {
        return Err(refused);
    }
    let reach = opening.grown(wish.mat_overlap);
    let most = Size::new(reach.width.min(nominal.width), reach.height.min(nominal.height));
    let (mut sheet, mut cut) = inside(picture_px, most).ok_or(refused)?;
    if let Some(step) = wish.step.filter(|step| *step > Length::ZERO) {
        // By whole steps of a rule: then a hair of the picture is cropped.
        let down =
            |length: Length| Length::from_units(length.units() - length.units().rem_euclid(step.units()));
        sheet = Size::new(down(sheet.width), down(sheet.height));
        if !sheet.is_positive() {
            return Err(refused);
        }
        cut = fill(picture_px, sheet, wish.focus);
    }
    if sheet.grown(-wish.mat_overlap).is_positive() { Ok((sheet, cut)) } else { Err(refused) }
}
