//! A proposal as it is made: what its options cost, how much of the price book goes along, and what does, in words.

use super::{Offer, Proposal};
use crate::described::{Choosable, Entry};
use crate::figures::{Figures, NoAnswer};
use crate::papers::jpeg::Photo;
use crate::prices::{Asked, Book, priced};
use crate::stock::Stock;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

/// How much of a price book goes along with a proposal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BookShare {
    /// Nothing of it: prices are for the plans as sent.
    #[default]
    Nothing,
    /// The rows that the options need; see [`Book::reduced`].
    Needed,
    /// All of it.
    All,
}

impl Choosable for BookShare {
    const NAME: &'static str = "BookShare";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Nothing, Entry::new("none", 0, "no price book")),
        (Self::Needed, Entry::new("needed", 1, "the rows that these options need")),
        (Self::All, Entry::new("all", 2, "the whole price book")),
    ];
}

impl Offer {
    /// Fills in what it costs by a book, with what is asked for; nothing where there is no book or something has no price.
    ///
    /// # Errors
    /// When the plan has no answer.
    pub fn price(&mut self, stock: &Stock, book: Option<&Book>) -> Result<(), NoAnswer> {
        let figures = Figures::of(&self.plan)?;
        let Some(book) = book.map(|book| book.asking(&self.with)) else { return Ok(()) };
        let price = priced(&self.plan, &figures, stock, &book);
        if let Some(totals) = price.totals {
            (self.prices, self.total) = (price.text(&book), book.text(totals.total));
        }
        Ok(())
    }
}

impl Proposal {
    /// Lets a price book go along, or so much of it.
    ///
    /// # Errors
    /// When one of the plans has no answer.
    pub fn send_book(&mut self, book: &Book, share: BookShare, stock: &Stock) -> Result<(), NoAnswer> {
        self.book = match share {
            BookShare::Nothing => None,
            BookShare::All => Some(Book { asked: Vec::new(), ..book.clone() }),
            BookShare::Needed => {
                let plans = self.offers.iter().map(|offer| Figures::of(&offer.plan));
                let figures = plans.collect::<Result<Vec<_>, _>>()?;
                let offers = self.offers.iter().zip(&figures);
                let asked: Vec<Asked<'_>> = offers
                    .map(|(offer, figures)| Asked { plan: &offer.plan, figures, with: &offer.with })
                    .collect();
                Some(book.reduced(&asked, stock))
            }
        };
        Ok(())
    }

    /// What goes along in it, a line each without its full stop.
    #[must_use]
    pub fn along(&self) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for (title, jpeg) in &self.copies {
            lines.push(["“", title, "”", &size_of(jpeg)].concat());
        }
        for offer in self.offers.iter().filter(|offer| !offer.in_room.is_empty()) {
            let of = if offer.name.is_empty() { "its pieces" } else { &offer.name };
            let view = size_of(&offer.in_room);
            lines.push(["the room as you photographed it, with ", of, &view].concat());
        }
        let missing = self.offers.iter().flat_map(|offer| &offer.plan.pictures);
        let mut titles: Vec<&String> = missing.map(|picture| &picture.name).collect();
        crate::order::sort(&mut titles);
        titles.dedup();
        for title in titles.into_iter().filter(|title| self.copies.iter().all(|(known, _)| known != *title)) {
            lines.push(["“", title, "” is not here, so it does not go along"].concat());
        }
        lines.push(match &self.book {
            None => "no price book: prices are for the plans as sent".to_owned(),
            Some(book) => {
                let mut names: Vec<&str> = Vec::new();
                for row in &book.rows {
                    if !names.contains(&row.part.name()) {
                        names.push(row.part.name());
                    }
                }
                let rows = book.rows.len().to_string();
                ["your prices in ", &rows, " rows: ", &names.join(", ")].concat()
            }
        });
        lines
    }
}

/// How large a JPEG in base64 is, as it follows a name.
fn size_of(jpeg: &str) -> String {
    let bytes = STANDARD.decode(jpeg).unwrap_or_default();
    let size = Photo::read(&bytes).map_or(String::new(), |photo| {
        [", ", &photo.width_px.to_string(), " × ", &photo.height_px.to_string(), " px"].concat()
    });
    let kilobytes = bytes.len().div_ceil(1_000).to_string();
    [&size, ", ", &kilobytes, " KB"].concat()
}
