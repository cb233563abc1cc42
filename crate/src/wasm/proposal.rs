//! Proposals and answers at the boundary.

use super::link::AnswerView;
use super::{Desk, Handed, handed};
use crate::compare::{PlanPart, parts, taken};
use crate::link;
use crate::papers::{iso, read_day};
use crate::plan::file;
use crate::prices::{Book, Price, priced};
use crate::proposal::{self, Proposal};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// What goes with a plan in a proposal.
#[derive(Serialize, Deserialize, Tsify)]
pub struct ProposalView {
    /// What it is called.
    pub title: String,
    /// Who sends it.
    pub from: String,
    /// What there is to say.
    pub note: String,
    /// The address of a published page, or nothing.
    pub address: String,
    /// Until when it holds, such as 2027-01-31; empty for no end.
    pub valid_until: String,
    /// What it costs, a line each.
    pub prices: Vec<String>,
    /// The plan, as a file with its pictures in it.
    pub plan: String,
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
    /// A proposal as a block of data in a page.
    pub fn proposal(&self, view: Ts<ProposalView>) -> Result<String, JsError> {
        let ProposalView { title, from, note, address, valid_until, prices, plan } = view.to_rust()?;
        let valid_until = read_day(&valid_until)?;
        let (plan, copies) = file::read_with_copies(&plan)?;
        let prices = prices.into_iter().filter(|line| !line.trim().is_empty()).collect();
        let proposal = Proposal { title, from, note, address, valid_until, prices, plan, copies };
        Ok(proposal.block()?)
    }

    /// What the plan costs by the price book that is open, in plain lines; none where none is open, or something has no price.
    pub fn price_lines(&self) -> Vec<String> {
        let price = |book| (self.priced(book), book);
        let complete = self.desk.book().map(price).filter(|(price, _)| price.totals.is_some());
        complete.map(|(price, book)| price.text(book)).unwrap_or_default()
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

    fn priced(&self, book: &Book) -> Price {
        priced(self.desk.plan(), self.desk.figures(), self.desk.stock(), book)
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

    /// The proposal out of a page.
    pub fn read_proposal(&self, text: &str) -> Handed<ProposalView> {
        let Proposal { title, from, note, address, valid_until, prices, plan, copies } =
            Proposal::read(text)?;
        let plan = file::write_with_copies(&plan, &copies)?;
        let valid_until = valid_until.map_or(String::new(), |(year, month, day)| iso(year, month, day));
        handed(ProposalView { title, from, note, address, valid_until, prices, plan })
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
