//! What a client answers to a proposal: which option, what became of it, and their own words, as a text for people with a link at
//! its end.

use super::{Offer, Proposal, ProposalError};
use crate::compare::{differences, summary};
use crate::link::{Answer, Decided};
use crate::papers::{read_day, written_date};
use crate::plan::Plan;
use crate::stock::Stock;
use crate::text::typeset;

pub use crate::link::Verdict;

/// Lines that tell of changes at most.
const MOST_CHANGES: usize = 10;

/// An answer as it is given: to which option, and what that plan has become.
#[derive(Clone, Debug)]
pub struct Reply<'a> {
    /// The option, counted from 0.
    pub offer: usize,
    /// Its plan as it is now.
    pub plan: &'a Plan,
    /// What is decided.
    pub verdict: Verdict,
    /// What else is decided while it is open.
    pub decided: Decided,
    /// Who answers.
    pub from: String,
    /// Their own words.
    pub note: String,
    /// Of when it is, such as 2027-01-31; empty for no day.
    pub date: String,
}

impl Reply<'_> {
    /// As it goes into a link.
    ///
    /// # Errors
    /// When the proposal has no such option, or can't be written.
    pub fn answer(&self, proposal: &Proposal) -> Result<Answer, ProposalError> {
        let offer = proposal.offers.get(self.offer).ok_or(ProposalError::Offers(proposal.offers.len()))?;
        Ok(Answer {
            to: crate::link::mark(&offer.plan),
            decided: self.decided,
            from: self.from.clone(),
            note: self.note.clone(),
            proposal: proposal.mark()?,
            option: u32::try_from(self.offer + 1).unwrap_or(u32::MAX),
            name: offer.name.clone(),
            verdict: self.verdict,
            date: self.date.clone(),
            number: proposal.number.clone(),
            revision: proposal.revision,
        })
    }
}

/// What became of an option, in at most ten sentences without their full stops, in the units of the plan as it is now.
///
/// # Errors
/// When one of the plans has no answer.
pub fn changes(sent: &Plan, now: &Plan, stock: &Stock) -> Result<Vec<String>, crate::figures::NoAnswer> {
    let sent = Plan { units: now.units, ..sent.clone() };
    let mut changes = summary(&sent, now, stock, None)?.changes;
    changes.truncate(MOST_CHANGES);
    if changes.is_empty() && !differences(&sent, now, stock)?.is_empty() {
        changes.push("Only small things changed; the link has them".to_owned());
    }
    Ok(changes.iter().map(|change| typeset(change)).collect())
}

/// What is decided, as a sentence; `name` is the option's, empty where the proposal has only one.
#[must_use]
pub fn decision(verdict: Verdict, name: &str, decided: Decided) -> String {
    match (verdict, name) {
        (Verdict::Accepted, "") => "I'd like this one.".to_owned(),
        (Verdict::Accepted, name) => ["I'd like this one: ", name, "."].concat(),
        (Verdict::Declined, _) => "None of these, thank you.".to_owned(),
        (Verdict::Open, _) => {
            let parts = [
                (decided.size, "the sizes"),
                (decided.make_up, "what they are made of"),
                (decided.frame, "the frames"),
            ];
            let parts: Vec<&str> =
                parts.into_iter().filter_map(|(is_so, words)| is_so.then_some(words)).collect();
            match parts[..] {
                [] => "Nothing is decided yet.".to_owned(),
                _ => ["I have decided on ", &parts.join(", "), "."].concat(),
            }
        }
    }
}

/// An answer as a text for people; `link` is what stands behind `#` in its link, which comes last in the text.
///
/// # Errors
/// When the proposal has no such option, one of the plans has no answer, or the day is none.
pub fn reply_text(
    proposal: &Proposal,
    reply: &Reply<'_>,
    stock: &Stock,
    link: &str,
) -> Result<String, ProposalError> {
    let offer = proposal.offers.get(reply.offer).ok_or(ProposalError::Offers(proposal.offers.len()))?;
    let mut lines = vec![["Answer to: ", &proposal.heading()].concat()];
    let date = read_day(&reply.date)?.map(written_date);
    let from = [Some(reply.from.clone()).filter(|from| !from.is_empty()), date];
    let from: Vec<String> = from.into_iter().flatten().collect();
    if !from.is_empty() {
        lines.push(["From: ", &from.join(", ")].concat());
    }
    lines.push(decision(reply.verdict, &offer.name, reply.decided));
    if reply.verdict != Verdict::Declined {
        let changes = changes(&offer.plan, reply.plan, stock)?;
        if changes.is_empty() {
            lines.push("The plan has not changed.".to_owned());
        } else {
            lines.push("What changed:".to_owned());
            lines.extend(changes.iter().map(|change| ["- ", change, "."].concat()));
        }
        let quote = proposal.quote(offer, reply.plan, stock)?;
        lines.extend(quote.total.map(|total| ["Price: ", &total, "."].concat()));
        lines.extend(quote.said);
    }
    if !reply.note.is_empty() {
        lines.extend([String::new(), reply.note.clone()]);
    }
    // The last # in it is where the plan begins.
    let link = [&proposal.address, "#", link].concat();
    let open = "To see it on the wall, open this text or this link with Overmantel:";
    lines.extend([String::new(), open.to_owned(), link, String::new()]);
    Ok(lines.join("\n"))
}

impl Proposal {
    /// Its title, with its number and which version it is.
    #[must_use]
    pub fn heading(&self) -> String {
        heading(&self.title, &self.number, self.revision)
    }

    /// What papers say of an option that was ordered: by which proposal, for whom, and which it is.
    #[must_use]
    pub fn reference(&self, offer: &Offer) -> String {
        let number = heading("", &self.number, self.revision);
        let by = if number.is_empty() { String::new() } else { ["Proposal ", &number].concat() };
        let option = if offer.name.is_empty() { String::new() } else { ["option: ", &offer.name].concat() };
        let client = if self.client.is_empty() { String::new() } else { ["for ", &self.client].concat() };
        let parts: Vec<String> = [by, client, option].into_iter().filter(|part| !part.is_empty()).collect();
        parts.join(" · ")
    }
}

/// A title with the number of a proposal, and its version from the second on; any of them may be missing.
#[must_use]
pub fn heading(title: &str, number: &str, revision: u32) -> String {
    let version = if revision > 1 { ["version ", &revision.to_string()].concat() } else { String::new() };
    let told: Vec<&str> = [number, &version].into_iter().filter(|part| !part.is_empty()).collect();
    match (title, told.join(", ")) {
        ("", told) => told,
        (title, told) if told.is_empty() => title.to_owned(),
        (title, told) => [title, " (", &told, ")"].concat(),
    }
}
