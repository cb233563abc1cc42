//! What a proposal consists of as it is filed: its rows, for reading it, for its limits and for its schema.

use super::{ProposalError, limits};
use crate::described::{Absent, Form, Item, Member, Row, Thing, fault};
use crate::plan::file::is_copy;

/// A proposal as it is filed: days, plans and the price book as texts.
#[derive(Default)]
pub(super) struct Filed {
    pub(super) number: String,
    pub(super) revision: u32,
    pub(super) title: String,
    pub(super) from: String,
    pub(super) contact: String,
    pub(super) emblem: String,
    pub(super) client: String,
    pub(super) date: String,
    pub(super) note: String,
    pub(super) address: String,
    pub(super) valid_until: String,
    pub(super) options: Vec<FiledOffer>,
    pub(super) copies: Vec<Copied>,
    pub(super) book: String,
}

/// One of its plans.
#[derive(Clone, Default)]
pub(super) struct FiledOffer {
    pub(super) name: String,
    pub(super) plan: String,
    pub(super) with: Vec<OfferLine>,
    pub(super) prices: Vec<OfferLine>,
    pub(super) total: String,
    pub(super) apart: String,
    pub(super) news: Vec<OfferLine>,
    pub(super) in_room: String,
}

/// A line of one.
#[derive(Clone, Default)]
pub(super) struct OfferLine(pub(super) String);

/// A picture, reduced.
#[derive(Clone, Default)]
pub(super) struct Copied {
    pub(super) picture: String,
    pub(super) jpeg: String,
}

#[rustfmt::skip]
mod members {
    use super::{Absent, Form, Row, limits};

    const fn text(key: &'static str, label: &'static str, about: &'static str, most: usize) -> Row {
        Row::new("", key, 0, label, about, Form::Text { most, may_be_empty: true }).absent(Absent::Default)
    }

    const fn list(key: &'static str, about: &'static str, most: usize, what: &'static str) -> Row {
        Row::new("", key, 0, what, about, Form::List { least: 0, most, what }).absent(Absent::Default)
    }

    pub(super) static NUMBER: Row = text("number", "number", "The sender's own number for it.", limits::NAME);
    pub(super) static REVISION: Row = Row::new("", "revision", 0, "version", "How often it was sent: 1, and one more each time it is sent again with changes.", Form::Number { least: 1, most: 999, usual: 1, unit: "" }).absent(Absent::Default);
    pub(super) static TITLE: Row = text("title", "title", "What it is called.", limits::NAME).needed();
    pub(super) static FROM: Row = text("from", "sender", "Who sends it.", limits::NAME).needed();
    pub(super) static CONTACT: Row = text("contact", "contact", "How to reach the sender, on one or more lines.", limits::NAME * 4);
    pub(super) static EMBLEM: Row = text("emblem", "picture of your mark", "A picture of the sender's mark: a JPEG in base64.", limits::EMBLEM_BYTES);
    pub(super) static CLIENT: Row = text("client", "client", "Who it is for.", limits::NAME);
    pub(super) static DATE: Row = text("date", "date", "Its date, as year-month-day.", 10);
    pub(super) static NOTE: Row = text("note", "note", "A message.", limits::NOTE).needed();
    pub(super) static ADDRESS: Row = text("address", "address", "The address of a published page, for an answer as a link.", limits::NOTE / 2).needed();
    pub(super) static VALID_UNTIL: Row = text("valid_until", "date", "The last day on which it is valid, as year-month-day.", 10);
    pub(super) static OPTIONS: Row = Row::new("", "options", 0, "options", "The plans to choose from.", Form::List { least: 1, most: limits::OFFERS, what: "options" }).needed();
    pub(super) static COPIES: Row = list("copies", "The pictures of the plans, reduced, each once.", limits::COPIES, "pictures");
    pub(super) static BOOK: Row = text("book", "price book", "The price book used to price the client's changes, as the text of its file.", usize::MAX);

    pub(super) static NAME: Row = text("name", "name of an option", "What it is called, such as \"Framed on paper\".", limits::NAME);
    pub(super) static PLAN: Row = text("plan", "plan", "The plan, as the text of its file.", usize::MAX).needed();
    pub(super) static WITH: Row = list("with", "What is added from the price book by name.", limits::LINES, "names");
    pub(super) static PRICES: Row = list("prices", "What it costs as sent, one entry per line.", limits::LINES, "lines of prices");
    pub(super) static TOTAL: Row = text("total", "total", "The total as sent, with its currency.", limits::NAME);
    pub(super) static APART: Row = text("apart", "line that sets an option apart", "What sets it apart, in the sender's own words. When left out, this is worked out.", limits::LINE);
    pub(super) static NEWS: Row = list("news", "What is new in it since the version before.", limits::LINES, "lines of news");
    pub(super) static IN_ROOM: Row = text("in_room", "view in the photograph", "Its pieces in the sender's photograph of a room, as sent: a JPEG in base64.", crate::plan::limits::COPY_BYTES);
    pub(super) static LINE: Row = text("", "line of prices", "", limits::LINE);

    pub(super) static PICTURE: Row = text("picture", "title of a picture", "The title of the picture.", limits::LINE).needed();
    pub(super) static JPEG: Row = text("jpeg", "reduced picture", "The reduced picture: a JPEG in base64.", crate::plan::limits::COPY_BYTES).needed();
}
use members::*;

impl Thing for Filed {
    fn title(&self) -> (&'static str, &'static str) {
        ("Proposal", "A proposal of Overmantel: up to six plans with their pictures, prices and a message.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { number, revision, title, from, contact, emblem, client, date, note, address, .. } = self;
        vec![
            Member::of(&NUMBER, number),
            Member::of(&REVISION, revision),
            Member::of(&TITLE, title),
            Member::of(&FROM, from),
            Member::of(&CONTACT, contact),
            Member::of(&EMBLEM, emblem),
            Member::of(&CLIENT, client),
            Member::of(&DATE, date),
            Member::of(&NOTE, note),
            Member::of(&ADDRESS, address),
            Member::of(&VALID_UNTIL, &mut self.valid_until),
            Member::list(&OPTIONS, &mut self.options),
            Member::list(&COPIES, &mut self.copies),
            Member::of(&BOOK, &mut self.book),
        ]
    }
}

impl Thing for FiledOffer {
    fn title(&self) -> (&'static str, &'static str) {
        ("Option", "One of the plans to choose from.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, plan, with, prices, total, apart, news, in_room } = self;
        vec![
            Member::of(&NAME, name),
            Member::of(&PLAN, plan),
            Member::list(&WITH, with),
            Member::list(&PRICES, prices),
            Member::of(&TOTAL, total),
            Member::of(&APART, apart),
            Member::list(&NEWS, news),
            Member::of(&IN_ROOM, in_room),
        ]
    }
}

impl Item for FiledOffer {}

impl Thing for OfferLine {
    fn title(&self) -> (&'static str, &'static str) {
        ("Line", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::of(&LINE, &mut self.0)]
    }
}

impl Item for OfferLine {}

impl Thing for Copied {
    fn title(&self) -> (&'static str, &'static str) {
        ("Copy", "A reduced picture.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::of(&PICTURE, &mut self.picture), Member::of(&JPEG, &mut self.jpeg)]
    }
}

impl Item for Copied {}

impl Filed {
    /// Whether every text and every list is within its limits.
    pub(super) fn check(&mut self) -> Result<(), ProposalError> {
        within(self)?;
        for offer in &mut self.options {
            within(offer)?;
            for (row, lines) in
                [(&WITH, &mut offer.with), (&PRICES, &mut offer.prices), (&NEWS, &mut offer.news)]
            {
                if lines.len() > limits::LINES {
                    return Err(ProposalError::Lines { what: row.label, given: lines.len() });
                }
                lines.iter_mut().try_for_each(|line| within(line))?;
            }
        }
        let views = self.options.iter().map(|offer| ("the view in the photograph", offer.in_room.as_str()));
        let further = std::iter::once(("your mark", self.emblem.as_str())).chain(views);
        let further: Vec<(&str, &str)> = further.filter(|(_, jpeg)| !jpeg.is_empty()).collect();
        self.copies.iter_mut().try_for_each(|copied| within(copied))?;
        let copies = self.copies.iter().map(|copied| (copied.picture.as_str(), copied.jpeg.as_str()));
        match copies.chain(further).find(|(_, jpeg)| !is_copy(jpeg)) {
            Some((of, _)) => Err(ProposalError::NoJpeg(of.to_owned())),
            None => Ok(()),
        }
    }
}

fn within(thing: &mut dyn Thing) -> Result<(), ProposalError> {
    fault(thing).map_or(Ok(()), |(of, fault)| Err(ProposalError::Range { of, fault }))
}
