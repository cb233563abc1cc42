//! What an option costs on the client's side, once they have changed it.

use super::{Day, Offer, Proposal};
use crate::compare::differences;
use crate::figures::{Figures, NoAnswer};
use crate::papers::written_date;
use crate::plan::Plan;
use crate::prices::{cost_the_same, priced};
use crate::stock::Stock;

/// What an option costs as it is now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Quote {
    /// The one number; none where there is none for the plan as it is now.
    pub total: Option<String>,
    /// What it comes from, a line each.
    pub lines: Vec<String>,
    /// What there is to say of it, as a sentence; none where the plan is as it was sent.
    pub said: Option<String>,
}

/// What stands in place of a total that does not hold.
const NEEDS_NEW: &str = "Prices are for the plan as sent; this change needs a new price.";

impl Proposal {
    /// What an option costs once it has become this plan: calculated again where the price book goes along and has all of it. A change
    /// that costs nothing, such as another place on the wall, leaves the price as it is.
    ///
    /// # Errors
    /// When one of the plans has no answer.
    pub fn quote(&self, offer: &Offer, plan: &Plan, stock: &Stock) -> Result<Quote, NoAnswer> {
        let as_sent = || Quote {
            total: Some(offer.total.clone()).filter(|total| !total.is_empty()),
            lines: offer.prices.clone(),
            said: None,
        };
        // Other units are no change.
        let sent_plan = Plan { units: plan.units, ..offer.plan.clone() };
        if differences(&sent_plan, plan, stock)?.is_empty() {
            return Ok(as_sent());
        }
        let (sent, now) = (Figures::of(&offer.plan)?, Figures::of(plan)?);
        let none = crate::prices::Book::default();
        let book = self.book.as_ref().unwrap_or(&none).asking(&offer.with);
        if cost_the_same((&offer.plan, &sent), (plan, &now), stock, &book) {
            let is_priced = !offer.prices.is_empty() || !offer.total.is_empty();
            let said = is_priced.then(|| "The changes leave the price as it was.".to_owned());
            return Ok(Quote { said, ..as_sent() });
        }
        if self.book.is_none() {
            let is_priced = !offer.prices.is_empty();
            return Ok(Quote { said: is_priced.then(|| NEEDS_NEW.to_owned()), ..Quote::default() });
        }
        let price = priced(plan, &now, stock, &book);
        let Some(totals) = price.totals else {
            let missing = price.missing_names();
            let said =
                ["This change needs a new price: the prices sent with it have none for ", &missing, "."];
            return Ok(Quote { said: Some(said.concat()), ..Quote::default() });
        };
        let total = book.text(totals.total);
        let said = match offer.total.as_str() {
            before if before == total => "The changes leave the price as it was.".to_owned(),
            "" => ["As changed, it costs ", &total, "."].concat(),
            before => ["As changed, it costs ", &total, "; as it was sent, ", before, "."].concat(),
        };
        Ok(Quote { total: Some(total), lines: price.text(&book), said: Some(said) })
    }

    /// What to say of how long it is valid, as a sentence on this day; none where it has no end.
    #[must_use]
    pub fn validity(&self, today: Option<Day>) -> Option<String> {
        let until = self.valid_until?;
        let words = written_date(until);
        Some(if self.has_passed(today) {
            ["This proposal was valid until ", &words, ", which has passed; ask whether it still holds."]
                .concat()
        } else {
            ["This proposal is valid until ", &words, "."].concat()
        })
    }

    /// Whether the last day on which it is valid is before this one.
    #[must_use]
    pub fn has_passed(&self, today: Option<Day>) -> bool {
        self.valid_until.zip(today).is_some_and(|(until, today)| until < today)
    }
}
