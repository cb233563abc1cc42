//! Proposals at the boundary, as they are made: options and what is said of them in, a block of data for a page out.

use super::{Desk, Handed, handed};
use crate::compare::{Beside, PlanPart, apart, parts, taken};
use crate::described::Choosable;
use crate::figures::Figures;
use crate::link;
use crate::papers::{Paper, pdf, read_day};
use crate::plan::file;
use crate::prices::{Book, Price, priced};
use crate::proposal::{self, BookShare, Offer, Proposal};
use crate::wasm::link::AnswerView;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// What is said of a proposal, and its options.
#[derive(Deserialize, Tsify)]
pub struct ProposalStated {
    /// By which number its sender keeps it; may be empty.
    pub number: String,
    /// What it is called.
    pub title: String,
    /// Who sends it.
    pub from: String,
    /// How to reach them.
    pub contact: String,
    /// A picture of their mark, a JPEG in base64; empty for none.
    pub emblem: String,
    /// For whom it is.
    pub client: String,
    /// Of when it is, such as 2026-11-26; empty for no day.
    pub date: String,
    /// What there is to say.
    pub note: String,
    /// The address of a published page, or nothing.
    pub address: String,
    /// Until when it is valid, such as 2027-01-31; empty for no end.
    pub valid_until: String,
    /// The plans to choose among.
    pub options: Vec<OptionStated>,
    /// How much of the price book that is open goes along: `none`, `needed` or `all`.
    pub book: String,
    /// The proposal that was sent before, of which this is the next version; empty for none.
    pub before: String,
    /// The list of stock by which the plans are made; none for the one on offer.
    pub stock: Option<String>,
}

/// One of the plans to choose among.
#[derive(Deserialize, Tsify)]
pub struct OptionStated {
    /// What it is called.
    pub name: String,
    /// The plan, as a file with its pictures in it.
    pub plan: String,
    /// What is asked for of the price book, by its names.
    pub with: Vec<String>,
    /// Lines of its price in place of what the price book makes of it; none for those.
    pub prices: Option<Vec<String>>,
    /// What sets it apart; empty for what is worked out.
    pub apart: String,
    /// Its pieces in the photograph of a room, a JPEG in base64; empty for none.
    pub in_room: String,
}

/// A proposal that was made.
#[derive(Serialize, Tsify)]
pub struct MadeView {
    /// The block of data of a page.
    pub block: String,
    /// The proposal by itself, for the list of those that were sent.
    pub text: String,
    /// What goes along, a line each.
    pub along: Vec<String>,
}

/// What a link has, looked at and not opened.
#[derive(Serialize, Tsify)]
pub struct LookedAt {
    /// The plan, as a file.
    pub plan: String,
    /// Its title.
    pub title: String,
    /// When it is an answer to another plan.
    pub answer: Option<AnswerView>,
}

#[wasm_bindgen]
impl Desk {
    /// Makes a proposal.
    pub fn proposal(&self, stated: Ts<ProposalStated>) -> Handed<MadeView> {
        let stated = stated.to_rust()?;
        let stock = stated.stock.clone();
        let proposal = self.proposed(stated)?;
        let along = proposal.along();
        handed(MadeView { block: proposal.block(stock.as_deref())?, text: proposal.write()?, along })
    }

    /// How many options a proposal takes.
    pub fn most_options() -> usize {
        proposal::limits::OFFERS
    }

    /// A proposal as one paper: a page that compares its options, and a page each.
    pub fn proposal_paper(&self, text: &str, letter: bool) -> Result<Vec<u8>, JsError> {
        let paper = if letter { Paper::Letter } else { Paper::A4 };
        let (document, photos) = Proposal::read(text)?.paper(self.desk.stock(), paper)?;
        Ok(pdf::write(&document, &photos))
    }

    /// What sets each of several plan files apart from the others, by the price book that is open.
    pub fn apart(&self, plans: Vec<String>) -> Result<Vec<String>, JsError> {
        let plans = plans.iter().map(|plan| file::read(plan)).collect::<Result<Vec<_>, _>>()?;
        let beside: Vec<_> = plans.iter().map(|plan| Beside { plan, book: self.desk.book() }).collect();
        let found = apart(&beside, self.desk.stock())?;
        Ok(found.iter().map(|apart| crate::text::typeset(&apart.line())).collect())
    }

    /// What a plan file costs by the price book that is open, in plain lines; none where none is open, or something has no price.
    pub fn price_lines(&self, plan: &str, with: Vec<String>) -> Result<Vec<String>, JsError> {
        let plan = file::read(plan)?;
        let book = self.desk.book().map(|book| book.asking(&with));
        let figures = Figures::of(&plan)?;
        let price = |book: &Book| priced(&plan, &figures, self.desk.stock(), book);
        let price = book.as_ref().map(|book| (price(book), book)).filter(|(price, _)| price.totals.is_some());
        Ok(price.map(|(price, book)| price.text(book)).unwrap_or_default())
    }

    /// What is asked for of the price book that is open, by its names.
    pub fn asked(&self) -> Vec<String> {
        self.desk.book().map(|book| book.asked.clone()).unwrap_or_default()
    }

    /// Why the price book that is open makes no total; nothing where it makes one, or none is open.
    pub fn no_total(&self) -> Option<String> {
        let price = self.desk.book().map(|book| self.priced(book))?;
        let missing = price.missing_names();
        (!missing.is_empty()).then(|| {
            [
                "The price book has no price for ",
                &missing,
                ", so there is no total. The list of prices says what row to add.",
            ]
            .concat()
        })
    }

    /// A studio's page as blocks of data: the plan's pictures, in their order, as JPEG in base64 or empty where one is not here;
    /// and the files of its stock and its prices.
    pub fn studio(
        &self,
        title: &str,
        copies: Vec<String>,
        stock: Option<String>,
        book: Option<String>,
    ) -> Result<String, JsError> {
        let known = self.desk.plan().pictures.iter().cloned().zip(copies);
        let (pictures, copies): (Vec<_>, Vec<_>) = known.filter(|(_, copy)| !copy.is_empty()).unzip();
        let plan = proposal::studio_plan(title, pictures)?;
        let offered = proposal::Offered { stock: stock.as_deref(), book: book.as_deref() };
        Ok(proposal::studio_blocks(&plan, &copies, offered)?)
    }

    /// What a link has, without opening it.
    pub fn look_at(&self, text: &str) -> Handed<LookedAt> {
        let (link, _) = link::read(text)?;
        let title = link.plan.title.clone();
        handed(LookedAt { plan: file::write(&link.plan), title, answer: link.answer.map(AnswerView::of) })
    }

    /// The mark of a plan file.
    pub fn mark_of(&self, plan: &str) -> Result<u32, JsError> {
        Ok(link::mark(&file::read(plan)?))
    }

    /// The parts in which two plan files differ and that can be taken by themselves.
    pub fn parts(&self, one: &str, other: &str) -> Result<Vec<String>, JsError> {
        let [one, other] = [file::read(one)?, file::read(other)?];
        Ok(parts(&one, &other).into_iter().map(|part| part.name().to_owned()).collect())
    }

    /// One plan file with parts of another, by their names; with all where none is named.
    pub fn with_parts(&self, one: &str, other: &str, names: Vec<String>) -> Result<String, JsError> {
        let [one, other] = [file::read(one)?, file::read(other)?];
        let is_wanted = |part: &PlanPart| names.is_empty() || names.iter().any(|name| name == part.name());
        let wanted: Vec<PlanPart> = PlanPart::ALL.into_iter().filter(is_wanted).collect();
        Ok(file::write(&taken(&one, &other, &wanted)?))
    }
}

impl Desk {
    fn priced(&self, book: &Book) -> Price {
        priced(self.desk.plan(), self.desk.figures(), self.desk.stock(), book)
    }

    fn proposed(&self, stated: ProposalStated) -> Result<Proposal, JsError> {
        let (stock, book) = (self.desk.stock(), self.desk.book());
        let mut made = Proposal {
            number: stated.number,
            title: stated.title,
            from: stated.from,
            contact: stated.contact,
            emblem: stated.emblem,
            client: stated.client,
            date: read_day(&stated.date)?,
            note: stated.note,
            address: stated.address,
            valid_until: read_day(&stated.valid_until)?,
            ..Proposal::default()
        };
        for option in stated.options {
            let (plan, copies) = file::read_with_copies(&option.plan)?;
            for (picture, jpeg) in plan.pictures.iter().zip(copies) {
                jpeg.into_iter().for_each(|jpeg| made.put_copy(&picture.name, &jpeg));
            }
            let mut offer = Offer {
                with: option.with,
                apart: option.apart,
                in_room: option.in_room,
                ..Offer::of(&option.name, plan)
            };
            offer.price(stock, book.filter(|_| option.prices.is_none()))?;
            if let Some(prices) = option.prices {
                offer.prices = prices.into_iter().filter(|line| !line.trim().is_empty()).collect();
            }
            made.offers.push(offer);
        }
        if let Some((book, share)) = book.zip(BookShare::of_key(&stated.book)) {
            made.send_book(book, share, stock)?;
        }
        if !stated.before.is_empty() {
            made.follow(&Proposal::read(&stated.before)?, stock)?;
        }
        Ok(made)
    }
}
