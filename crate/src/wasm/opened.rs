//! A proposal at the boundary as its client has it: read, looked through, changed, priced and answered.

use super::{Desk, Handed, handed};
use crate::compare::{Apart, Beside, apart, side_by_side};
use crate::described::Choosable;
use crate::link::{self, CodeSquare, Decided, Detail};
use crate::papers::read_day;
use crate::plan::file;
use crate::prices::{Book, file as book_file};
use crate::proposal::{self, Offer, Proposal, Reply, Verdict, changes, reply_text};
use crate::text::typeset;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// A proposal that lies in a page, or that was sent.
#[wasm_bindgen]
pub struct OpenedProposal {
    proposal: Proposal,
}

/// What stands at its top.
#[derive(Serialize, Tsify)]
pub struct HeadView {
    /// What it is called.
    pub title: String,
    /// By which number its sender keeps it, and which version it is; may be empty.
    pub number: String,
    /// Who sends it.
    pub from: String,
    /// How to reach them, a line each.
    pub contact: Vec<String>,
    /// A picture of their mark, as an address of data; empty for none.
    pub emblem: String,
    /// For whom it is.
    pub client: String,
    /// Of when it is, in words; may be empty.
    pub date: String,
    /// What there is to say, a paragraph each.
    pub note: Vec<String>,
    /// Until when it is valid, as a sentence; empty for no end.
    pub valid: String,
    /// Whether that has passed.
    pub has_passed: bool,
    /// By which mark a page keeps what it has of it.
    pub mark: u32,
    /// The price book that goes along, as a file.
    pub book: Option<String>,
}

/// One of its options.
#[derive(Serialize, Tsify)]
pub struct OfferView {
    /// What it is called; empty where there is only one without a name.
    pub name: String,
    /// The plan as it was sent, as a file without its pictures.
    pub plan: String,
    /// What is asked for of the price book, by its names.
    pub with: Vec<String>,
    /// What sets it apart; empty where it is the only one.
    pub apart: String,
    /// What is new in it since the version before.
    pub news: Vec<String>,
    /// Its total as it was sent; may be empty.
    pub total: String,
    /// Its pieces in the sender's photograph of a room, as an address of data; empty for none.
    pub in_room: String,
}

/// What an option has become, and what it costs.
#[derive(Serialize, Tsify)]
pub struct QuoteView {
    /// The one number; empty where there is none for the plan as it is now.
    pub total: String,
    /// What it comes from, a line each.
    pub lines: Vec<String>,
    /// What there is to say of it; empty where the plan is as it was sent.
    pub said: String,
    /// What the client changed, a sentence each without its full stop.
    pub changes: Vec<String>,
}

/// A row of what several plans say.
#[derive(Serialize, Tsify)]
pub struct SideRowView {
    /// What it is about.
    pub label: &'static str,
    /// What each says.
    pub told: Vec<String>,
}

/// An answer as it is given.
#[derive(Deserialize, Tsify)]
pub struct ReplyStated {
    /// The option, counted from 0.
    pub option: u32,
    /// `open`, `accepted` or `declined`.
    pub verdict: String,
    /// The sizes are decided.
    pub size: bool,
    /// The make-up is decided.
    pub make_up: bool,
    /// The frames are decided.
    pub frame: bool,
    /// Who answers.
    pub from: String,
    /// Their own words.
    pub note: String,
    /// Of when it is, such as 2027-01-31.
    pub date: String,
}

/// An answer, to be handed on.
#[derive(Serialize, Tsify)]
pub struct ReplyView {
    /// What to call its file, and the subject of a mail.
    pub title: String,
    /// All of it, for people, with its link at the end.
    pub text: String,
    /// Its link, where there is the address of a published page.
    pub address: Option<String>,
    /// A shorter one, without anything of the pictures, where it fits into a QR code.
    pub square: Option<String>,
}

#[wasm_bindgen]
impl OpenedProposal {
    /// Reads a proposal.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str) -> Result<OpenedProposal, JsError> {
        Ok(Self { proposal: Proposal::read(text)? })
    }

    /// What stands at its top on this day, such as 2027-01-31.
    pub fn head(&self, today: &str) -> Handed<HeadView> {
        let Proposal { title, number, from, contact, emblem, client, note, .. } = &self.proposal;
        let today = read_day(today)?;
        let lines = |text: &str| {
            text.lines().map(str::trim).filter(|line| !line.is_empty()).map(str::to_owned).collect()
        };
        let paragraphs = note.split("\n\n").map(str::trim).filter(|text| !text.is_empty());
        handed(HeadView {
            title: title.clone(),
            number: proposal::heading("", number, self.proposal.revision),
            from: from.clone(),
            contact: lines(contact),
            emblem: shown(emblem),
            client: client.clone(),
            date: self.proposal.date.map_or(String::new(), crate::papers::written_date),
            note: paragraphs.map(str::to_owned).collect(),
            valid: self.proposal.validity(today).unwrap_or_default(),
            has_passed: self.proposal.has_passed(today),
            mark: self.proposal.mark()?,
            book: self.proposal.book.as_ref().map(book_file::write),
        })
    }

    /// Its options.
    pub fn options(&self, desk: &Desk) -> Result<Vec<Ts<OfferView>>, JsError> {
        let offers = &self.proposal.offers;
        let books: Vec<Option<Book>> = offers.iter().map(|offer| self.asking(offer)).collect();
        let beside: Vec<_> = offers
            .iter()
            .zip(&books)
            .map(|(offer, book)| Beside { plan: &offer.plan, book: book.as_ref() })
            .collect();
        let apart = apart(&beside, desk.desk.stock())?;
        let view = |(offer, apart): (&Offer, &Apart)| {
            let own = typeset(&offer.set_apart(apart));
            handed(OfferView {
                name: offer.name.clone(),
                plan: file::write(&offer.plan),
                with: offer.with.clone(),
                apart: if offers.len() < 2 && offer.apart.is_empty() { String::new() } else { own },
                news: offer.news.clone(),
                total: offer.total.clone(),
                in_room: shown(&offer.in_room),
            }) as Handed<_>
        };
        offers.iter().zip(&apart).map(view).collect()
    }

    /// The reduced pictures of a plan file, in its order, as JPEG in base64; empty where there is none.
    pub fn copies(&self, plan: &str) -> Result<Vec<String>, JsError> {
        let copies = self.proposal.copies_of(&file::read(plan)?);
        Ok(copies.into_iter().map(Option::unwrap_or_default).collect())
    }

    /// What an option costs once it has become this plan file, and what the client changed.
    pub fn quote(&self, desk: &Desk, option: u32, plan: &str) -> Handed<QuoteView> {
        let (offer, now) = (self.offer(option)?, file::read(plan)?);
        let stock = desk.desk.stock();
        let quote = self.proposal.quote(offer, &now, stock)?;
        handed(QuoteView {
            total: quote.total.unwrap_or_default(),
            lines: quote.lines,
            said: quote.said.unwrap_or_default(),
            changes: changes(&offer.plan, &now, stock)?,
        })
    }

    /// What the options say of what a buyer weighs up, once they have become these plan files.
    pub fn side_by_side(&self, desk: &Desk, plans: Vec<String>) -> Result<Vec<Ts<SideRowView>>, JsError> {
        let plans = plans.iter().map(|plan| file::read(plan)).collect::<Result<Vec<_>, _>>()?;
        let beside: Vec<_> = plans.iter().map(|plan| Beside { plan, book: None }).collect();
        let rows = side_by_side(&beside, desk.desk.stock())?.into_iter();
        let told = |told: Vec<String>| told.iter().map(|text| typeset(text)).collect();
        rows.map(|row| handed(SideRowView { label: row.label, told: told(row.told) }) as Handed<_>).collect()
    }

    /// The answer to an option whose plan, as it is now, is at work on the desk.
    pub fn reply(&self, desk: &Desk, stated: Ts<ReplyStated>) -> Handed<ReplyView> {
        let ReplyStated { option, verdict, size, make_up, frame, from, note, date } = stated.to_rust()?;
        let reply = Reply {
            offer: option as usize,
            plan: desk.desk.plan(),
            verdict: Verdict::of_key(&verdict).unwrap_or_default(),
            decided: Decided { size, make_up, frame },
            from,
            note,
            date,
        };
        let answer = reply.answer(&self.proposal)?;
        let around = self.proposal.address.len() + 1;
        let link = desk.desk.link(Some(Detail::Hint), Some(answer.clone()), around);
        let text = reply_text(&self.proposal, &reply, desk.desk.stock(), &link)?;
        let at = |link: &str| link::address(&self.proposal.address, link).ok();
        let bare = at(&desk.desk.link(None, Some(answer), around));
        let title = ["Answer to ", &self.proposal.heading()].concat();
        handed(ReplyView {
            title,
            text,
            address: at(&link),
            square: bare.filter(|address| CodeSquare::of(address).is_some()),
        })
    }

    /// What papers say of an option that was ordered.
    pub fn reference(&self, option: u32) -> Result<String, JsError> {
        Ok(self.proposal.reference(self.offer(option)?))
    }

    fn offer(&self, option: u32) -> Result<&Offer, JsError> {
        self.proposal.offers.get(option as usize).ok_or_else(|| JsError::new("there is no such option"))
    }

    fn asking(&self, offer: &Offer) -> Option<Book> {
        self.proposal.book.as_ref().map(|book| book.asking(&offer.with))
    }
}

/// A JPEG in base64 as an address of data; nothing for none.
fn shown(jpeg: &str) -> String {
    if jpeg.is_empty() { String::new() } else { ["data:image/jpeg;base64,", jpeg].concat() }
}
