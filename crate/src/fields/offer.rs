//! Offers: answers to what a plan asks, taken into the plan by writing to a field. They are written only; nothing of them is
//! stored.
//!
//! - `offer.space`: the largest images that the space on the wall takes;
//! - `offer.in_hand.all` (or a piece by its number from 0), with the key of one of [`Ordered::ALL`]: the print for the frame in hand;
//! - `offer.start`, with the code of one of [`starts::STARTS`]: a plan to begin with;
//! - `offer.fit.all`, with a [`code`]: a way in which the picture suits a size of the stock.

use super::FieldError;
use crate::asked::{self, Ordered};
use crate::described::Row;
use crate::field::{self, Field, Whose};
use crate::figures::Figures;
use crate::fit::Fit;
use crate::plan::Plan;
use crate::starts;
use crate::stock::Stock;

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
/// When there is no such offer, or it has no answer.
pub(super) fn take(plan: &Plan, stock: &Stock, field: Field, text: &str) -> Result<Plan, FieldError> {
    let gone = || FieldError::Gone(text.to_owned());
    let is = |one: &'static Row| *field.row == *one;
    let piece = match field.of {
        Whose::Piece(piece) => Some(piece),
        _ => None,
    };
    if is(&field::OFFER_SPACE) {
        return Ok(asked::take_space(plan)?);
    }
    if is(&field::OFFER_START) {
        return Ok(starts::begin(plan, text)?);
    }
    if is(&field::OFFER_IN_HAND) {
        let (ordered, ..) = Ordered::ALL.iter().find(|(_, key, _)| *key == text).ok_or_else(gone)?;
        return Ok(asked::take_in_hand(plan, piece, *ordered)?);
    }
    let figures = Figures::of(plan)?;
    let fits = asked::fits(plan, &figures, stock, piece.unwrap_or(0));
    let fit = fits.iter().find(|fit| code(fit) == text).ok_or_else(gone)?;
    Ok(asked::take_fit(plan, piece, fit))
}
