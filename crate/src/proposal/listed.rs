//! The list of what was sent, looked through: which of it says some words, and in which order it stands.

use super::sent::{Sent, State};
use super::{Day, Proposal, ProposalError};
use crate::described::{Choosable, Entry};

/// In which order the list stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// As it was sent, the last first.
    #[default]
    Sent,
    /// By client.
    Client,
    /// By number.
    Number,
    /// By how soon each lapses; what is valid without an end comes last.
    Validity,
    /// By what has become of it: what is open first.
    State,
}

impl Choosable for Order {
    const NAME: &'static str = "Order";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Sent, Entry::new("sent", 0, "the last first")),
        (Self::Client, Entry::new("client", 1, "by client")),
        (Self::Number, Entry::new("number", 2, "by number")),
        (Self::Validity, Entry::new("validity", 3, "by the end of validity")),
        (Self::State, Entry::new("state", 4, "by state")),
    ];
}

/// What a proposal that was sent is looked for and ordered by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// All that the list says of it, in small letters.
    pub words: String,
    /// For whom it is, in small letters.
    pub client: String,
    /// Its number.
    pub number: String,
    /// Until when it is valid.
    pub valid_until: Option<Day>,
    /// What has become of it.
    pub state: State,
}

impl Listed {
    /// Of a proposal and what came back, on a day.
    ///
    /// # Errors
    /// When the proposal can't be read.
    pub fn of(sent: &Sent, proposal: &Proposal, today: Option<Day>) -> Result<Self, ProposalError> {
        let state = sent.state(today)?;
        let mut words =
            [&proposal.number, " ", &proposal.title, " ", &proposal.client, " ", state.name()].concat();
        for offer in &proposal.offers {
            words += &[" ", &offer.name, " ", &offer.total].concat();
        }
        for day in [proposal.date, proposal.valid_until].into_iter().flatten() {
            words += &[" ", &crate::papers::iso(day.0, day.1, day.2), " ", &crate::papers::written_date(day)]
                .concat();
        }
        let (number, valid_until) = (proposal.number.clone(), proposal.valid_until);
        Ok(Self {
            words: words.to_lowercase(),
            client: proposal.client.to_lowercase(),
            number,
            valid_until,
            state,
        })
    }
}

/// The places of those in a list, which has the last first, that say every one of some words, in an order.
///
/// ```
/// use overmantel::plan::Plan;
/// use overmantel::proposal::listed::{Listed, Order, chosen};
/// use overmantel::proposal::sent::Sent;
/// use overmantel::proposal::{Offer, Proposal};
///
/// let listed = |client: &str| {
///     let offers = vec![Offer::of("On canvas", Plan::starting())];
///     let proposal = Proposal { client: client.to_owned(), offers, ..Proposal::default() };
///     Listed::of(&Sent::of(&proposal)?, &proposal, None)
/// };
/// let list = [listed("The pilots")?, listed("The harbour office")?];
/// assert_eq!(chosen(&list, "", Order::Client), [1, 0]);
/// assert_eq!(chosen(&list, "canvas Pilots", Order::Sent), [0]);
/// # Ok::<(), overmantel::proposal::ProposalError>(())
/// ```
#[must_use]
pub fn chosen(list: &[Listed], words: &str, order: Order) -> Vec<usize> {
    let words = words.to_lowercase();
    let says = |listed: &Listed| words.split_whitespace().all(|word| listed.words.contains(word));
    let mut places: Vec<usize> = (0..list.len()).filter(|&place| says(&list[place])).collect();
    match order {
        Order::Sent => {}
        Order::Client => crate::order::sort_by_key(&mut places, |&place| list[place].client.clone()),
        Order::Number => crate::order::sort_by_key(&mut places, |&place| counted(&list[place].number)),
        Order::Validity => crate::order::sort_by_key(&mut places, |&place| {
            let until = list[place].valid_until;
            (until.is_none(), until)
        }),
        Order::State => crate::order::sort_by_key(&mut places, |&place| list[place].state as u8),
    }
    places
}

/// A number so that it stands where one looks for it: 9 before 10. What is without one comes last.
fn counted(number: &str) -> (bool, Vec<(u64, String)>) {
    let mut parts: Vec<(u64, String)> = Vec::new();
    let mut rest = number;
    while !rest.is_empty() {
        let text = rest.find(|letter: char| letter.is_ascii_digit()).unwrap_or(rest.len());
        let (word, behind) = rest.split_at(text);
        let digits = behind.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(behind.len());
        parts.push((0, word.to_lowercase()));
        parts.push((behind[..digits].parse().unwrap_or(u64::MAX), String::new()));
        rest = &behind[digits..];
    }
    (number.is_empty(), parts)
}
