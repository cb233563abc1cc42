//! The list of proposals that were sent, at the boundary.

use super::{Desk, Handed, handed, link::AnswerView};
use crate::described::{Choosable, Entry};
use crate::papers::{iso, read_day};
use crate::proposal::Proposal;
use crate::proposal::listed::{Listed, Order, chosen};
use crate::proposal::sent::{self, Sent, Settled, State, next_number};
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
    /// What it is looked for by.
    pub listed: ListedView,
}

/// What one of the list is looked for and ordered by, to be handed back as it is.
#[derive(Serialize, Deserialize, Tsify)]
pub struct ListedView {
    /// All that the list says of it.
    pub words: String,
    /// For whom it is.
    pub client: String,
    /// Its number.
    pub number: String,
    /// Until when it is valid; empty for no end.
    pub valid_until: String,
    /// What has become of it, counted.
    pub state: u8,
}

/// An order in which the list can stand.
#[derive(Serialize, Tsify)]
pub struct OrderView {
    /// Its key.
    pub key: &'static str,
    /// Its words.
    pub words: &'static str,
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
        let listed = Listed::of(&sent, &proposal, read_day(today)?)?;
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
            state: listed.state.name(),
            answers: sent.answered().into_iter().map(AnswerView::of).collect(),
            listed: ListedView {
                words: listed.words,
                client: listed.client,
                number: listed.number,
                valid_until: day(listed.valid_until),
                state: listed.state as u8,
            },
        })
    }

    /// The orders in which the list can stand.
    pub fn sent_orders() -> Result<Vec<Ts<OrderView>>, JsError> {
        let view = |(_, entry): &(Order, Entry)| handed(OrderView { key: entry.key, words: entry.words });
        Order::ALL.iter().map(view).collect()
    }

    /// The places of those that say every one of some words, in an order.
    pub fn sent_chosen(list: Vec<Ts<ListedView>>, words: &str, order: &str) -> Result<Vec<u32>, JsError> {
        let list = list.into_iter().map(|view| {
            let ListedView { words, client, number, valid_until, state } = view.to_rust()?;
            let state = State::ALL.into_iter().find(|known| *known as u8 == state).unwrap_or(State::Open);
            Ok(Listed { words, client, number, valid_until: read_day(&valid_until)?, state })
        });
        let list = list.collect::<Result<Vec<_>, JsError>>()?;
        let places = chosen(&list, words, Order::of_key(order).unwrap_or_default());
        Ok(places.into_iter().filter_map(|place| u32::try_from(place).ok()).collect())
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
