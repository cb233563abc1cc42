//! A report on fits: which sizes the pictures suit, what to order for a frame in hand, how large a space takes.

use super::basic::*;
use crate::asked::{self, Ordered};
use crate::figures::Figures;
use crate::fit::in_hand::{InHandError, Order, Print};
use crate::fit::{Fit, Lost, best_of_each_way};
use crate::plan::Plan;
use crate::stock::Stock;
use serde::Serialize;

/// The sizes that suit the picture of a piece.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FitsReport {
    /// Which piece, counted from 1.
    pub piece: usize,
    /// How many ways there are in all.
    pub in_all: usize,
    /// The best of each way, in the order of all: those with the resolution wanted first, then whole, matted, bordered, cropped, then the cheapest.
    pub best: Vec<FitReport>,
}

/// One way in which a size suits a picture.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FitReport {
    /// Which way, in words.
    pub way: &'static str,
    /// The size of the print, by its name.
    pub print: String,
    /// The frame round its mat, by its name; null without a mat, where the frame is that of the print's size.
    pub frame: Option<String>,
    /// The sheet to order.
    pub sheet: Extent,
    /// The nominal size of the frame.
    pub nominal: Extent,
    /// The image on the sheet.
    pub image: Extent,
    /// White paper round the image or, with a mat, board round its opening.
    pub borders: SidesReport,
    /// The share of the picture that is lost, 0 to 1 (to 6 decimals).
    pub lost: f64,
    /// Pixels lost on the left, at the top, on the right, at the bottom (to 6 decimals); null without a picture.
    pub lost_px: Option<[f64; 4]>,
    /// Resolution in pixels per inch, to 6 decimals; null without a picture.
    pub pixels_per_inch: Option<f64>,
    /// Whether that is the resolution the plan wants or more; null without a picture.
    pub keeps_fineness: Option<bool>,
}

/// What to order for the frame in hand.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct InHandReport {
    /// Which piece it is for, counted from 1.
    pub piece: usize,
    /// Why there is no answer.
    pub why_not: Option<String>,
    /// What goes into the frame: glass, mat board and backing.
    pub nominal: Option<Extent>,
    /// Its rabbet (rebate).
    pub rabbet: Option<Extent>,
    /// What can be seen through it.
    pub sight: Option<Extent>,
    /// Its outside.
    pub outside: Option<Extent>,
    /// What the lip hides on each side.
    pub lip_hides: Option<Measure>,
    /// The prints that fit it.
    pub prints: Vec<OrderedReport>,
}

/// A print for the frame in hand.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct OrderedReport {
    /// How: to the edge, with a white border, behind a mat.
    pub how: &'static str,
    /// Why it is not possible.
    pub why_not: Option<String>,
    /// The sheet to order.
    pub sheet: Option<Extent>,
    /// The image on it.
    pub image: Option<Extent>,
    /// The opening of the mat.
    pub opening: Option<Extent>,
    /// White paper round the image or, with a mat, board round its opening.
    pub borders: Option<SidesReport>,
    /// What the lip leaves of them; negative where it hides part of the image.
    pub visible_borders: Option<SidesReport>,
    /// Resolution in pixels per inch, to 6 decimals.
    pub pixels_per_inch: Option<f64>,
    /// The share of the picture that is lost, 0 to 1 (to 6 decimals).
    pub lost: Option<f64>,
}

/// The largest print in a space.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SpaceReport {
    /// The space that the group may take up.
    pub space: Extent,
    /// The largest image that fits, in the shape of the first piece's image, rounded down to 1/1440 micrometre; null when none fits.
    pub image: Option<Extent>,
}

pub(super) fn fits_report(
    plan: &Plan,
    figures: &Figures,
    stock: &Stock,
    piece: usize,
    most: usize,
) -> FitsReport {
    let found = asked::fits(plan, figures, stock, piece);
    let best = best_of_each_way(&found, most);
    let is_shown = figures.cuts.get(piece).is_some_and(Option::is_some);
    let best = best.into_iter().map(|one| fit(one, is_shown)).collect();
    FitsReport { piece: piece + 1, in_all: found.len(), best }
}

/// Of a picture that is not there nothing is known but the shape.
fn fit(fit: &Fit<'_>, is_shown: bool) -> FitReport {
    FitReport {
        way: fit.way.words(),
        print: fit.print.listed.name.clone(),
        frame: fit.frame.map(|frame| frame.listed.name.clone()),
        sheet: extent(fit.sheet()),
        nominal: extent(fit.nominal()),
        image: extent(fit.image),
        borders: sides(fit.borders),
        lost: number(fit.lost.share),
        lost_px: is_shown.then(|| lost_px(&fit.lost)),
        pixels_per_inch: is_shown.then(|| number(fit.cut.pixels_per_inch)),
        keeps_fineness: is_shown.then_some(fit.keeps_fineness),
    }
}

fn lost_px(lost: &Lost) -> [f64; 4] {
    [lost.left_px, lost.top_px, lost.right_px, lost.bottom_px].map(number)
}

pub(super) fn in_hand_report(piece: usize, found: &Result<Order, InHandError>) -> InHandReport {
    let order = found.as_ref().ok();
    InHandReport {
        piece: piece + 1,
        why_not: found.as_ref().err().map(ToString::to_string),
        nominal: order.map(|order| extent(order.nominal)),
        rabbet: order.map(|order| extent(order.rabbet)),
        sight: order.map(|order| extent(order.sight)),
        outside: order.map(|order| extent(order.outside)),
        lip_hides: order.map(|order| measure(order.lip_hides)),
        prints: order.map_or_else(Vec::new, |order| {
            Ordered::ALL.iter().map(|(print, _, how)| ordered(how, print.of(order))).collect()
        }),
    }
}

fn ordered(how: &'static str, found: Result<Print, InHandError>) -> OrderedReport {
    let print = found.as_ref().ok();
    OrderedReport {
        how,
        why_not: found.as_ref().err().map(ToString::to_string),
        sheet: print.map(|print| extent(print.sheet)),
        image: print.map(|print| extent(print.image)),
        opening: print.and_then(|print| print.opening).map(extent),
        borders: print.map(|print| sides(print.borders)),
        visible_borders: print.map(|print| sides(print.visible_borders)),
        pixels_per_inch: print.map(|print| number(print.cut.pixels_per_inch)),
        lost: print.map(|print| number(print.lost.share)),
    }
}

pub(super) fn space_report(plan: &Plan, figures: &Figures) -> Option<SpaceReport> {
    Some(SpaceReport { space: extent(plan.space?), image: asked::in_space(plan, figures).map(extent) })
}
