//! Offers: answers to what a plan asks, taken into the plan by writing to a field. They are written only; nothing of them is
//! stored.
//!
//! - `offer.space`: the largest images that the space on the wall takes;
//! - `offer.in_hand.all` (or a piece by its number from 0), with one of [`Ordered::ALL`]: the print for the frame in hand;
//! - `offer.start`, with the code of one of [`starts::STARTS`]: a plan to begin with;
//! - `offer.fit.all`, with a [`code`]: a way in which the picture suits a size of the stock.

use super::*;
use crate::asked::{self, Ordered};
use crate::fit::Fit;
use crate::starts;

/// What names a fit: its way and its sizes.
#[must_use]
pub fn code(fit: &Fit<'_>) -> String {
    let series = &fit.print.listed.series;
    let frame = fit.frame.map_or(String::new(), |frame| format!(" | {}", frame.listed.name));
    format!("{:?} | {} | {series}{frame}", fit.way, fit.print.listed.name)
}

/// The plan with an offer taken.
///
/// # Errors
/// A plain sentence when there is no such offer, or it has no answer.
pub(super) fn take(plan: &Plan, stock: &Stock, path: &[&str], text: &str) -> Result<Plan, FieldError> {
    let gone = || FieldError::from(format!("\"{text}\" is not on offer any more; choose another"));
    let piece = |which: &str| -> Result<Option<usize>, FieldError> {
        match which {
            "all" => Ok(None),
            number => number.parse().map(Some).map_err(|_| gone()),
        }
    };
    Ok(match path {
        ["space"] => asked::take_space(plan)?,
        ["start"] => starts::begin(plan, text)?,
        ["in_hand", which] => {
            let (ordered, _) = Ordered::ALL.iter().find(|(_, how)| *how == text).ok_or_else(gone)?;
            asked::take_in_hand(plan, piece(which)?, *ordered)?
        }
        ["fit", which] => {
            let which = piece(which)?;
            let figures = Figures::of(plan)?;
            let fits = asked::fits(plan, &figures, stock, which.unwrap_or(0));
            let fit = fits.iter().find(|fit| code(fit) == text).ok_or_else(gone)?;
            asked::take_fit(plan, which, fit)
        }
        _ => return Err(gone()),
    })
}
