//! Fits: which sizes on offer a picture file suits, and in what way; and what suits an existing frame or space.
//!
//! From a picture ([`from_picture`]) every size on offer, turned to the picture's orientation, is tried in four ways:
//!
//! - **whole**: the size has the picture's shape, or so nearly that filling it loses less than [`WHOLE_LOSS`] of the picture;
//! - **matted**: the print is whole at one size, behind a mat that fills a frame of another, borders within the wish;
//! - **bordered**: the whole picture stands inside the sheet, with white paper on each side;
//! - **cropped**: the picture fills the sheet, and what sticks out is lost.
//!
//! # The order
//! What keeps the wished resolution comes first; then whole, matted, bordered, cropped; then what costs less (of a crop the share
//! lost, of borders their unevenness); then the larger print, in the larger frame; then the longer one; then by name. So
//! the order is the same however the list is sorted, and however the picture is turned.
//!
//! The other way round: [`in_hand`] for a frame that is there, [`space`] for an outside size allowed on the wall. [`systems`] tells
//! when a size may have been meant in the other system of units, or just misses one on offer.
//!
//! ```
//! use overmantel::{fit::{Way, FitWish, from_picture}, geometry::Size, plan::System, stock::StandardSize};
//! let sixteen_by_twenty = StandardSize {
//!     name: "16 × 20 in".to_owned(),
//!     series: "US".to_owned(),
//!     system: System::Inches,
//!     size: Size::inches(16, 20),
//!     is_print: true,
//!     is_frame: true,
//! };
//! let sizes = [sixteen_by_twenty];
//! let fits = from_picture((6000, 4000), &sizes, &FitWish::default());
//! let cropped = fits.iter().find(|fit| fit.way == Way::Cropped).unwrap();
//! assert_eq!(cropped.sheet(), Size::inches(20, 16), "turned as the picture is");
//! assert_eq!(*cropped.lost.share.denom(), 6, "of 3:2, one sixth is lost");
//! ```

use crate::framing::inverse::{borders_in, opening_of};
use crate::geometry::{Sides, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::{Focus, OpeningRule};
use crate::print::{Cut, Exact, Source, fill};
use crate::rounding::Mode;
use crate::stock::StandardSize;
use std::cmp::{Ordering, Reverse};

pub mod in_hand;
pub mod space;
pub mod systems;

/// Where filling a size loses less than this share of a picture, the picture is whole on it: 1/200.
///
/// On a print 24 in long that is less than 1/16 in at each end, what trimming is good for (our own choice, no source).
pub const WHOLE_LOSS: Exact = Exact::new_raw(1, 200);

/// What is wished of a fit. No length is negative.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FitWish {
    /// Pixels per inch that a print should keep. Default: 200, "good" by common practice, no source.
    pub fineness_ppi: Exact,
    /// White paper at least left on each side of a bordered image. Default: 1/2 in (our own choice).
    pub least_border: Length,
    /// How much of the sheet the mat covers on each side. Default: 1/8 in (common practice, no source).
    pub mat_overlap: Length,
    /// Mat board at least, from the opening to the edge. Default: 1 1/2 in, below which a border looks thin (common practice,
    /// no source).
    pub least_mat_border: Length,
    /// Mat board at most. The bottom may have [`Self::foot_extra`] more. Default: 4 in (our own choice).
    pub most_mat_border: Length,
    /// By how much the mat's bottom border is wider than its top one. Default: 0.
    pub foot_extra: Length,
    /// What is kept. Default: the middle.
    pub focus: Focus,
    /// The longest that the sheet, or the board of the mat, may be. Default: no limit.
    pub longest: Option<Length>,
    /// The step of a rule to which a print made for a frame in hand is rounded down. Default: none, to the unit.
    pub step: Option<Length>,
}

impl Default for FitWish {
    fn default() -> Self {
        Self {
            fineness_ppi: Exact::from_integer(200),
            least_border: Length::inches_ratio(1, 2),
            mat_overlap: Length::inches_ratio(1, 8),
            least_mat_border: Length::inches_ratio(3, 2),
            most_mat_border: Length::inches(4),
            foot_extra: Length::ZERO,
            focus: Focus::MIDDLE,
            longest: None,
            step: None,
        }
    }
}

/// In what way a picture suits a size; the better ways first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// All of it, to the edge of the sheet.
    Whole,
    /// All of it, behind a mat in a larger frame.
    Matted,
    /// All of it, inside the sheet, with white paper round it.
    Bordered,
    /// A part of it, to the edge of the sheet.
    Cropped,
}

impl Way {
    /// In words, to stand behind "the picture is".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Whole => "printed whole, to the edge",
            Self::Matted => "printed whole, behind a mat",
            Self::Bordered => "printed whole, with a white border",
            Self::Cropped => "cropped to the shape of the sheet",
        }
    }
}

/// A size on offer, as it is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chosen<'a> {
    /// The size on offer.
    pub listed: &'a StandardSize,
    /// Its width and height, turned.
    pub size: Size,
}

impl<'a> Chosen<'a> {
    /// Turned so that it is as wide or as high as what it is for; upright for a square.
    fn turned(listed: &'a StandardSize, is_wide: bool) -> Self {
        let Size { width, height } = listed.size;
        let (short, long) = (width.min(height), width.max(height));
        let size = if is_wide { Size::new(long, short) } else { Size::new(short, long) };
        Self { listed, size }
    }
}

/// What of a picture is not printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lost {
    /// The share of its area, 0 to 1.
    pub share: Exact,
    /// Pixels on the left.
    pub left_px: Exact,
    /// Pixels at the top.
    pub top_px: Exact,
    /// Pixels on the right.
    pub right_px: Exact,
    /// Pixels at the bottom.
    pub bottom_px: Exact,
}

impl Lost {
    /// What a cut leaves out.
    #[must_use]
    pub fn by(cut: &Cut, picture_px: (u32, u32)) -> Self {
        let Source { left, top, width, height } = cut.source;
        Self {
            share: cut.lost(picture_px),
            left_px: left,
            top_px: top,
            right_px: Exact::from_integer(picture_px.0.into()) - left - width,
            bottom_px: Exact::from_integer(picture_px.1.into()) - top - height,
        }
    }
}

/// One way in which a picture suits a size on offer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit<'a> {
    /// In what way.
    pub way: Way,
    /// The size of the print: the sheet.
    pub print: Chosen<'a>,
    /// The frame round the mat; `None` without a mat, where the frame is that of the print's size.
    pub frame: Option<Chosen<'a>>,
    /// The image on the sheet: all of the sheet, but for [`Way::Bordered`].
    pub image: Size,
    /// The opening of the mat, if there is one.
    pub opening: Option<Size>,
    /// White paper round the image; of [`Way::Matted`] the board round its opening.
    pub borders: Sides,
    /// What is printed, and how finely.
    pub cut: Cut,
    /// What is not.
    pub lost: Lost,
    /// Whether the wished resolution is kept.
    pub keeps_fineness: bool,
    /// What this way costs, by which fits of one way are ordered: of a crop the share of the picture lost; of borders, by how
    /// much those at the sides differ from those at the top and bottom (the bottom's extra left out), as a share of the shorter side;
    /// nothing of a whole print.
    pub cost: Exact,
}

impl Fit<'_> {
    /// The sheet to order.
    #[must_use]
    pub fn sheet(&self) -> Size {
        self.print.size
    }

    /// The nominal size of the frame that takes it: that of the mat board, or of the sheet.
    #[must_use]
    pub fn nominal(&self) -> Size {
        self.frame.map_or(self.print.size, |frame| frame.size)
    }

    /// By the rule that stands at the top of this module.
    fn compare(&self, other: &Self) -> Ordering {
        let place = |fit: &Self| (!fit.keeps_fineness, fit.way, fit.cost);
        let larger = |fit: &Self| Reverse((area(fit.image), area(fit.nominal())));
        let long = |size: Size| size.width.max(size.height);
        let shape = |fit: &Self| Reverse((long(fit.image), long(fit.nominal())));
        place(self)
            .cmp(&place(other))
            .then_with(|| larger(self).cmp(&larger(other)))
            .then_with(|| shape(self).cmp(&shape(other)))
            .then_with(|| key(self.print.listed).cmp(&key(other.print.listed)))
            .then_with(|| {
                self.frame.map(|frame| key(frame.listed)).cmp(&other.frame.map(|frame| key(frame.listed)))
            })
    }
}

/// What tells two sizes on offer apart; those that share it are the same in every respect but for how they were listed.
fn key(listed: &StandardSize) -> (&str, &str, bool, bool, bool, Length) {
    let is_inches = listed.system == crate::plan::System::Inches;
    (&listed.name, &listed.series, is_inches, listed.is_print, listed.is_frame, listed.size.width)
}

fn area(size: Size) -> i128 {
    i128::from(size.width.units()) * i128::from(size.height.units())
}

/// Every way in which a picture suits the sizes on offer, the best first (see [the order](self#the-order)).
///
/// What does not keep the wished resolution is returned too, behind what does, and says so. Sizes of which neither prints nor
/// frames are on offer are left out; a frame without a print of its size may still be filled by a print made for it. Prints
/// in a mat are sizes that are on offer as prints.
///
/// `picture_px` is at least one in each direction.
#[must_use]
pub fn from_picture<'a>(picture_px: (u32, u32), sizes: &'a [StandardSize], wish: &FitWish) -> Vec<Fit<'a>> {
    let is_wide = picture_px.0 > picture_px.1;
    let within = |size: Size| wish.longest.is_none_or(|longest| size.width.max(size.height) <= longest);
    let offered: Vec<_> = sizes
        .iter()
        .filter(|listed| (listed.is_print || listed.is_frame) && listed.size.is_positive())
        .map(|listed| Chosen::turned(listed, is_wide))
        .filter(|chosen| within(chosen.size))
        .collect();
    let mut fits = Vec::new();
    for &print in &offered {
        let filled = to_the_edge(picture_px, print, wish);
        fits.push(filled);
        fits.extend(bordered(picture_px, print, wish));
        if filled.way == Way::Whole && print.listed.is_print {
            let frames = offered.iter().filter(|chosen| chosen.listed.is_frame);
            fits.extend(frames.filter_map(|&frame| matted(&filled, frame, wish)));
        }
    }
    crate::order::sort_by(&mut fits, Fit::compare);
    fits
}

/// The best of each way, at most so many, in the order they stand in. A size that is listed under two names counts once.
#[must_use]
pub fn best_of_each_way<'f, 'a>(fits: &'f [Fit<'a>], most: usize) -> Vec<&'f Fit<'a>> {
    let mut taken: Vec<&Fit<'_>> = Vec::new();
    for fit in fits {
        let of_its_way = || taken.iter().filter(|other| other.way == fit.way);
        let is_new =
            of_its_way().all(|other| (other.sheet(), other.nominal()) != (fit.sheet(), fit.nominal()));
        if is_new && of_its_way().count() < most {
            taken.push(fit);
        }
    }
    taken
}

/// The picture fills the sheet: whole where hardly anything is lost, otherwise cropped.
fn to_the_edge<'a>(picture_px: (u32, u32), print: Chosen<'a>, wish: &FitWish) -> Fit<'a> {
    let cut = fill(picture_px, print.size, wish.focus);
    let lost = Lost::by(&cut, picture_px);
    let is_whole = lost.share < WHOLE_LOSS;
    Fit {
        way: if is_whole { Way::Whole } else { Way::Cropped },
        print,
        frame: None,
        image: print.size,
        opening: None,
        borders: Sides::default(),
        cut,
        lost,
        keeps_fineness: cut.pixels_per_inch >= wish.fineness_ppi,
        cost: if is_whole { Exact::from_integer(0) } else { lost.share },
    }
}

/// The whole picture inside the sheet, as large as the least border leaves.
fn bordered<'a>(picture_px: (u32, u32), print: Chosen<'a>, wish: &FitWish) -> Option<Fit<'a>> {
    let (image, cut) = inside(picture_px, print.size.grown(-wish.least_border))?;
    // With no border wished, a picture of the sheet's very shape leaves none.
    (image != print.size).then(|| Fit {
        way: Way::Bordered,
        print,
        frame: None,
        image,
        opening: None,
        borders: borders_in(print.size, image, Length::ZERO),
        cut,
        lost: Lost::by(&cut, picture_px),
        keeps_fineness: cut.pixels_per_inch >= wish.fineness_ppi,
        cost: unevenness(print.size, image, Length::ZERO),
    })
}

/// A whole print behind a mat, if the borders are within the wish.
fn matted<'a>(whole: &Fit<'a>, frame: Chosen<'a>, wish: &FitWish) -> Option<Fit<'a>> {
    let opening = opening_of(whole.sheet(), OpeningRule::Overlap(wish.mat_overlap)).ok()?;
    let borders = borders_in(frame.size, opening, wish.foot_extra);
    let held = |border: Length, most: Length| border >= wish.least_mat_border && border <= most;
    let most = wish.most_mat_border;
    let is_held = [borders.left, borders.top, borders.right].into_iter().all(|border| held(border, most))
        && held(borders.bottom, most + wish.foot_extra);
    // The sheet lies within the board, however far the mat covers it.
    let Size { width, height } = whole.sheet();
    let is_within = width <= frame.size.width && height <= frame.size.height;
    (is_held && is_within).then(|| Fit {
        way: Way::Matted,
        frame: Some(frame),
        opening: Some(opening),
        borders,
        cost: unevenness(frame.size, opening, wish.foot_extra),
        ..*whole
    })
}

/// By how much a border at the side differs from one at the top, as a share of the shorter side of what they are on.
fn unevenness(whole: Size, within: Size, foot_extra: Length) -> Exact {
    let across = whole.width - within.width;
    let upright = whole.height - within.height - foot_extra;
    let shorter = whole.width.min(whole.height);
    Exact::new((across - upright).abs().units().into(), 2 * i128::from(shorter.units()))
}

/// The largest image of the whole picture inside a window, and the cut that is all of the picture at the image's resolution;
/// `None` where the window, or a side of the image, is nothing.
fn inside(picture_px: (u32, u32), window: Size) -> Option<(Size, Cut)> {
    if !window.is_positive() {
        return None;
    }
    let (width, height) = (i128::from(picture_px.0), i128::from(picture_px.1));
    let image = largest_of_shape(Exact::new(width, height), window)?;
    // By the side that binds, which is that of the window: there nothing is rounded.
    let pixels_per_unit =
        Exact::new(width, window.width.units().into()).max(Exact::new(height, window.height.units().into()));
    let whole = Source {
        left: Exact::from_integer(0),
        top: Exact::from_integer(0),
        width: Exact::from_integer(width),
        height: Exact::from_integer(height),
    };
    Some((image, Cut { source: whole, pixels_per_inch: pixels_per_unit * i128::from(UNITS_PER_INCH) }))
}

/// The largest size of a shape inside a window: one side is the window's, the other to the nearest unit.
///
/// `None` where the window, or the other side, is nothing.
#[must_use]
pub fn largest_of_shape(width_over_height: Exact, window: Size) -> Option<Size> {
    if !window.is_positive() || width_over_height <= Exact::from_integer(0) {
        return None;
    }
    let nearest = |units: Exact| Length::from_ratio(*units.numer(), *units.denom(), Mode::HalfAway);
    let (width, height) = (i128::from(window.width.units()), i128::from(window.height.units()));
    let size = if Exact::new(width, height) <= width_over_height {
        Size::new(window.width, nearest(width_over_height.recip() * width))
    } else {
        Size::new(nearest(width_over_height * height), window.height)
    };
    size.is_positive().then_some(size)
}
