//! A proposal as one paper, with a page for each option.

use super::{Proposal, ProposalError};
use crate::compare::{Beside, apart, side_by_side};
use crate::figures::Figures;
use crate::link::{self, Link};
use crate::papers::jpeg::Photo;
use crate::papers::options::{OptionOnPaper, OptionRow, document};
use crate::papers::sheet::Document;
use crate::papers::{Job, Paper};
use crate::prices::Book;
use crate::stock::Stock;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

impl Proposal {
    /// All of it as one paper: a page that compares the options, and a page each, with a QR code where its link is short enough. With
    /// it come the pictures, in the order in which the paper counts them.
    ///
    /// # Errors
    /// When one of the plans has no answer.
    pub fn paper(
        &self,
        stock: &Stock,
        paper: Paper,
    ) -> Result<(Document, Vec<Option<Photo>>), ProposalError> {
        let figures =
            self.offers.iter().map(|offer| Figures::of(&offer.plan)).collect::<Result<Vec<_>, _>>()?;
        let books: Vec<Option<Book>> =
            self.offers.iter().map(|offer| Some(self.book.as_ref()?.asking(&offer.with))).collect();
        let beside = self.offers.iter().zip(&books);
        let beside: Vec<_> =
            beside.map(|(offer, book)| Beside { plan: &offer.plan, book: book.as_ref() }).collect();
        let apart = apart(&beside, stock)?;
        let mut photos: Vec<Option<Photo>> = Vec::new();
        let mut options = Vec::new();
        for ((offer, figures), apart) in self.offers.iter().zip(&figures).zip(apart) {
            let pictures_from = photos.len();
            let copies = self.copies_of(&offer.plan).into_iter();
            let read = |jpeg: &str| Photo::read(&STANDARD.decode(jpeg).ok()?).ok();
            photos.extend(copies.map(|copy| read(&copy?)));
            let view = read(&offer.in_room);
            let in_room = view.as_ref().map(|view| (view.width_px.into(), view.height_px.into()));
            photos.extend(view.map(Some));
            let job = Job {
                title: self.title.clone(),
                author: self.from.clone(),
                reference: self.reference(&super::Offer { name: String::new(), ..offer.clone() }),
                date: self.date,
                valid_until: self.valid_until,
                note: self.note.clone(),
                prices: Some(offer.prices.clone()),
                in_room,
                address: link::address(&self.address, &link::write(&Link::of(offer.plan.clone()))).ok(),
                ..Job::new(&offer.plan, figures, stock, paper)
            };
            let own = offer.set_apart(&apart);
            let (name, total) = (offer.name.clone(), offer.total.clone());
            options.push(OptionOnPaper { name, job, apart: own, total, pictures_from });
        }
        let mut rows: Vec<OptionRow> = side_by_side(&beside, stock)?
            .into_iter()
            .filter(|row| row.label != PRICE)
            .map(|row| OptionRow { label: row.label.to_owned(), told: row.told })
            .collect();
        let totals: Vec<String> = self.offers.iter().map(|offer| offer.total.clone()).collect();
        if totals.iter().any(|total| !total.is_empty()) {
            rows.push(OptionRow { label: PRICE.to_owned(), told: totals });
        }
        Ok((document(&options, &rows), photos))
    }
}

const PRICE: &str = "Price";
