//! The list of proposals that were sent, at the boundary.

use super::{Desk, Handed, handed, link::AnswerView};
use crate::described::Choosable;
use crate::papers::{iso, read_day};
use crate::proposal::Proposal;
use crate::proposal::sent::{self, Sent, Settled, next_number};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// A proposal that was sent, as it is kept.
#[derive(Serialize, Deserialize, Tsify)]
pub struct SentEntry {
    /// The proposal.
    pub proposal: String,
    /// The links of the answers.
    pub answers: Vec<String>,
    /// What its sender says has become of it: `by_answers`, `accepted` or `declined`.
    pub settled: String,
}

/// What the list says of one.
#[derive(Serialize, Tsify)]
pub struct SentView {
    /// By which mark an answer says what it answers.
    pub mark: u32,
    /// The marks of its plans, for answers of before.
    pub plans: Vec<u32>,
    /// Its number, and which version it is.
    pub number: String,
    /// Its number by itself.
    pub own_number: String,
    /// What it is called.
    pub title: String,
    /// For whom it is.
    pub client: String,
    /// Of when it is, such as 2026-11-26; may be empty.
    pub date: String,
    /// Until when it is valid; may be empty.
    pub valid_until: String,
    /// What its options are called, and what each costs.
    pub options: Vec<String>,
    /// In a word.
    pub state: &'static str,
    /// The answers that came.
    pub answers: Vec<AnswerView>,
}

#[wasm_bindgen]
impl Desk {
    /// What the list says of a proposal that was sent, on this day.
    pub fn sent_view(&self, entry: Ts<SentEntry>, today: &str) -> Handed<SentView> {
        let sent = of(entry.to_rust()?);
        let proposal = Proposal::read(&sent.proposal)?;
        let day = |day: Option<(u16, u8, u8)>| {
            day.map_or(String::new(), |(year, month, day)| iso(year, month, day))
        };
        let option = |offer: &crate::proposal::Offer| match offer.total.as_str() {
            "" => offer.name.clone(),
            total => [&offer.name, ", ", total].concat(),
        };
        handed(SentView {
            mark: proposal.mark()?,
            plans: proposal.offers.iter().map(|offer| crate::link::mark(&offer.plan)).collect(),
            number: crate::proposal::heading("", &proposal.number, proposal.revision),
            own_number: proposal.number.clone(),
            title: proposal.title.clone(),
            client: proposal.client.clone(),
            date: day(proposal.date),
            valid_until: day(proposal.valid_until),
            options: proposal.offers.iter().map(option).collect(),
            state: sent.state(read_day(today)?)?.name(),
            answers: sent.answered().into_iter().map(AnswerView::of).collect(),
        })
    }

    /// A proposal that was sent with one more answer.
    pub fn with_answer(&self, entry: Ts<SentEntry>, answer: &str) -> Handed<SentEntry> {
        let mut sent = of(entry.to_rust()?);
        sent.take(answer)?;
        handed(entry_of(sent))
    }

    /// The number after the last one.
    pub fn next_number(&self, last: &str) -> String {
        next_number(last)
    }

    /// The list as a file.
    pub fn sent_file(&self, entries: Vec<Ts<SentEntry>>) -> Result<String, JsError> {
        let sent =
            entries.into_iter().map(|entry| Ok(of(entry.to_rust()?))).collect::<Result<Vec<_>, JsError>>()?;
        Ok(sent::write(&sent))
    }

    /// The list out of a file.
    pub fn read_sent_file(&self, text: &str) -> Result<Vec<Ts<SentEntry>>, JsError> {
        sent::read(text)?.into_iter().map(|sent| handed(entry_of(sent)) as Handed<_>).collect()
    }
}

fn of(entry: SentEntry) -> Sent {
    let settled = Settled::of_key(&entry.settled).unwrap_or_default();
    Sent { proposal: entry.proposal, answers: entry.answers, settled }
}

fn entry_of(sent: Sent) -> SentEntry {
    SentEntry { proposal: sent.proposal, answers: sent.answers, settled: sent.settled.entry().key.to_owned() }
}
