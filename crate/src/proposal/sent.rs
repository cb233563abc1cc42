//! The proposals that somebody has sent, with the answers that came: a list that is kept, and saved as one file.
//!
//! Version 1: JSON; each proposal and each answer's link as the text that it is. The state of one is worked out and not kept.
//!
//! ```
//! use overmantel::plan::Plan;
//! use overmantel::proposal::sent::{self, Sent, State};
//! use overmantel::proposal::{Offer, Proposal};
//!
//! let offers = vec![Offer::of("On canvas", Plan::starting())];
//! let proposal = Proposal { valid_until: Some((2027, 1, 31)), offers, ..Proposal::default() };
//! let sent = Sent::of(&proposal)?;
//! assert_eq!(sent.state(Some((2027, 1, 31)))?, State::Open);
//! assert_eq!(sent.state(Some((2027, 2, 1)))?, State::Lapsed);
//! assert_eq!(sent::read(&sent::write(&[sent.clone()]))?, [sent]);
//! # Ok::<(), overmantel::proposal::ProposalError>(())
//! ```

use super::{Day, Proposal, ProposalError, Verdict, limits};
use crate::compare::summary;
use crate::described::{Absent, Choosable, Entry, Form, Format, Item, Member, Row, Thing};
use crate::length::Unit;
use crate::link::{self, Answer, LinkError};
use crate::stock::Stock;
use crate::text::typeset;

/// Proposals of a list at most.
pub const MOST: usize = 2_000;
/// Answers to one at most.
pub const MOST_ANSWERS: usize = 40;

static FORMAT: Format = Format {
    file: "the list of proposals",
    content: "a list of proposals",
    ours: "an Overmantel list of proposals",
    key: "overmantel_sent",
    version: 1,
    most: 20 * limits::BYTES,
};

/// A proposal that was sent, and what came back.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sent {
    /// The proposal, as [`Proposal::write`] has it.
    pub proposal: String,
    /// The links of the answers, in the order in which they came.
    pub answers: Vec<String>,
    /// What its sender says has become of it, whatever the answers say.
    pub settled: Settled,
}

/// What a sender says has become of a proposal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Settled {
    /// Nothing: the answers say it.
    #[default]
    ByAnswers,
    /// It was accepted.
    Accepted,
    /// It was declined.
    Declined,
}

impl Choosable for Settled {
    const NAME: &'static str = "Settled";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::ByAnswers, Entry::new("by_answers", 0, "as answered")),
        (Self::Accepted, Entry::new("accepted", 1, "accepted")),
        (Self::Declined, Entry::new("declined", 2, "declined")),
    ];
}

/// What has become of a proposal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Nothing came back yet, and it is still valid.
    Open,
    /// Somebody answered, and nothing is decided.
    Answered,
    /// An option was accepted.
    Accepted,
    /// It was declined.
    Declined,
    /// Nothing came back while it was valid.
    Lapsed,
}

impl State {
    /// Every one, in the order in which they ask for something to be done.
    pub const ALL: [Self; 5] = [Self::Open, Self::Answered, Self::Accepted, Self::Declined, Self::Lapsed];

    /// In a word.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Answered => "answered",
            Self::Accepted => "accepted",
            Self::Declined => "declined",
            Self::Lapsed => "lapsed",
        }
    }
}

impl Sent {
    /// A proposal that was just sent.
    ///
    /// # Errors
    /// When it can't be written.
    pub fn of(proposal: &Proposal) -> Result<Self, ProposalError> {
        Ok(Self { proposal: proposal.write()?, ..Self::default() })
    }

    /// The answers, read, in the order in which they came; those that can't be read are left out.
    #[must_use]
    pub fn answered(&self) -> Vec<Answer> {
        let read = |text: &String| link::read(text).ok().and_then(|(link, _)| link.answer);
        self.answers.iter().filter_map(read).collect()
    }

    /// Takes an answer, once.
    ///
    /// # Errors
    /// When the text has no link, or there are too many answers.
    pub fn take(&mut self, text: &str) -> Result<(), ProposalError> {
        let (link, _) = link::read(text).map_err(ProposalError::Link)?;
        if link.answer.is_none() {
            return Err(ProposalError::Link(LinkError::None));
        }
        let plain = link::write(&link);
        if self.answers.contains(&plain) {
            return Ok(());
        }
        if self.answers.len() >= MOST_ANSWERS {
            return Err(ProposalError::Lines { what: "answers", given: self.answers.len() + 1 });
        }
        self.answers.push(plain);
        Ok(())
    }

    /// What has become of it on this day. Of several answers the last that decides something counts.
    ///
    /// # Errors
    /// When the proposal can't be read.
    pub fn state(&self, today: Option<Day>) -> Result<State, ProposalError> {
        match self.settled {
            Settled::Accepted => return Ok(State::Accepted),
            Settled::Declined => return Ok(State::Declined),
            Settled::ByAnswers => {}
        }
        let answers = self.answered();
        let decided = answers.iter().rev().find(|answer| answer.verdict != Verdict::Open);
        Ok(match decided.map(|answer| answer.verdict) {
            Some(Verdict::Accepted) => State::Accepted,
            Some(_) => State::Declined,
            None if !answers.is_empty() => State::Answered,
            None if Proposal::read(&self.proposal)?.has_passed(today) => State::Lapsed,
            None => State::Open,
        })
    }
}

impl Proposal {
    /// Makes this the next version of a proposal that was sent: under its number, and with what is new in each option. An option is
    /// the same as the one of its name.
    ///
    /// # Errors
    /// When one of the plans has no answer.
    pub fn follow(&mut self, before: &Self, stock: &Stock) -> Result<(), ProposalError> {
        self.number.clone_from(&before.number);
        self.revision = before.revision + 1;
        for offer in &mut self.offers {
            let Some(earlier) = before.offers.iter().find(|earlier| earlier.name == offer.name) else {
                offer.news = vec!["New in this version".to_owned()];
                continue;
            };
            let changes = summary(&earlier.plan, &offer.plan, stock, None)?.changes;
            offer.news = changes.iter().map(|change| typeset(change)).collect();
            if earlier.total != offer.total {
                let was = if earlier.total.is_empty() { "none" } else { &earlier.total };
                let now = if offer.total.is_empty() { "none" } else { &offer.total };
                offer.news.push(["Price: ", was, " became ", now].concat());
            }
        }
        Ok(())
    }
}

/// The number after the last one: its last digits count on, and keep their zeros in front. `1` where there is none.
///
/// ```
/// use overmantel::proposal::sent::next_number;
/// assert_eq!(next_number("2026-009"), "2026-010");
/// assert_eq!(next_number("P99"), "P100");
/// assert_eq!(next_number(""), "1");
/// ```
#[must_use]
pub fn next_number(last: &str) -> String {
    let head = last.trim_end_matches(|letter: char| letter.is_ascii_digit());
    let digits = &last[head.len()..];
    let next = digits.parse::<u64>().map_or(1, |number| number.saturating_add(1)).to_string();
    let zeros = digits.len().saturating_sub(next.len());
    [head, &"0".repeat(zeros), &next].concat()
}

#[rustfmt::skip]
mod members {
    use super::{Absent, Form, MOST, MOST_ANSWERS, Row};

    const ANY_TEXT: Form = Form::Text { most: usize::MAX, may_be_empty: true };

    pub(super) static PROPOSALS: Row = Row::new("", "proposals", 0, "", "The proposals, in the order in which they were sent.", Form::List { least: 0, most: MOST, what: "proposals" }).needed();
    pub(super) static PROPOSAL: Row = Row::new("", "proposal", 0, "", "The proposal, as the text of its own format.", ANY_TEXT).needed();
    pub(super) static ANSWERS: Row = Row::new("", "answers", 0, "", "The answers, each as its link.", Form::List { least: 0, most: MOST_ANSWERS, what: "answers" }).absent(Absent::Default);
    pub(super) static ANSWER: Row = Row::new("", "", 0, "", "", ANY_TEXT);
    pub(super) static SETTLED: Row = Row::choice("", "settled", 0, "", "What its sender says has become of it.").absent(Absent::Default);
}
use members::*;

#[derive(Default)]
struct List {
    proposals: Vec<Filed>,
}

#[derive(Clone, Default)]
struct Filed {
    proposal: String,
    answers: Vec<FiledAnswer>,
    settled: Settled,
}

#[derive(Clone, Default)]
struct FiledAnswer(String);

impl Thing for List {
    fn title(&self) -> (&'static str, &'static str) {
        ("Sent", "Proposals that were sent, with the answers to them.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::list(&PROPOSALS, &mut self.proposals)]
    }
}

impl Thing for Filed {
    fn title(&self) -> (&'static str, &'static str) {
        ("SentProposal", "A proposal, and what came back.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![
            Member::of(&PROPOSAL, &mut self.proposal),
            Member::list(&ANSWERS, &mut self.answers),
            Member::choice(&SETTLED, &mut self.settled),
        ]
    }
}

impl Item for Filed {}

impl Thing for FiledAnswer {
    fn title(&self) -> (&'static str, &'static str) {
        ("Answer", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::of(&ANSWER, &mut self.0)]
    }
}

impl Item for FiledAnswer {}

/// Writes a list of proposals as a file.
#[must_use]
pub fn write(sent: &[Sent]) -> String {
    let filed = |one: &Sent| Filed {
        proposal: one.proposal.clone(),
        answers: one.answers.iter().cloned().map(FiledAnswer).collect(),
        settled: one.settled,
    };
    FORMAT.write(&mut List { proposals: sent.iter().map(filed).collect() })
}

/// Reads a list of proposals.
///
/// # Errors
/// When it is no such file, or a proposal or an answer in it can't be read.
pub fn read(text: &str) -> Result<Vec<Sent>, ProposalError> {
    let node = FORMAT.open(text)?;
    let mut list = List::default();
    FORMAT.read(&mut list, &node, Unit::Inch, text)?;
    let mut found = Vec::new();
    for Filed { proposal, answers, settled } in list.proposals {
        Proposal::read(&proposal)?;
        let mut sent = Sent { proposal, answers: Vec::new(), settled };
        answers.iter().try_for_each(|answer| sent.take(&answer.0))?;
        found.push(sent);
    }
    Ok(found)
}

/// The JSON Schema (draft 2020-12) of a list of proposals.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    use crate::described::schema::{Lengths, schema_of_list};
    schema_of_list(&mut List::default(), "Overmantel list of proposals", &FORMAT, None, Lengths::Texts)
}
