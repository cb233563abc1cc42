//! A proposal: up to six plans with their pictures, what each costs, and a message, as it lies in a copy of the page.
//!
//! Version 2: JSON in an element that is only data. `<` is written as `\u003c`, so that nothing in it can end the element; every
//! text is plain text. Plans, and the price book where it goes along, are texts of their own formats. A proposal of version 1, which
//! had one plan, opens for ever.
//!
//! ```
//! use overmantel::plan::Plan;
//! use overmantel::proposal::{Offer, Proposal};
//!
//! let offers = vec![Offer::of("Framed on paper", Plan::starting())];
//! let sent = Proposal { title: "For the landing".to_owned(), offers, ..Proposal::default() };
//! let text = sent.write()?;
//! assert!(!text.contains('<'), "nothing in it can end its element");
//! assert_eq!(Proposal::read(&text)?, sent);
//! # Ok::<(), overmantel::proposal::ProposalError>(())
//! ```

use crate::checksum::crc32;
use crate::compare::Apart;
use crate::described::{Format, usual};
use crate::figures::Figures;
use crate::geometry::Size;
use crate::json::Node;
use crate::length::Unit;
use crate::measure::{self, Grade};
use crate::papers;
use crate::plan::{Plan, file};
use crate::prices::Book;
use crate::text::typeset;
use rows::{Copied, Filed, FiledOffer, OfferLine};

mod error;
pub mod listed;
mod made;
mod page;
mod paper;
mod quote;
mod reply;
mod rows;
pub mod sent;

pub use error::ProposalError;
pub use made::BookShare;
pub use page::{Offered, in_page, in_text, studio, studio_blocks, studio_plan};
pub use quote::Quote;
pub use reply::{Reply, Verdict, changes, decision, heading, reply_text};

/// The version this module writes.
pub const VERSION: u32 = 2;

/// A day of the calendar: year, month and day.
pub type Day = (u16, u8, u8);

/// Limits of a proposal, held when it is written and when it is read.
pub mod limits {
    use crate::plan::limits::{COPY_BYTES, FILE_BYTES, PICTURES};

    /// Plans at most.
    pub const OFFERS: usize = 6;
    /// Pictures in all of them at most.
    pub const COPIES: usize = OFFERS * PICTURES;
    /// Characters of a name or a title.
    pub const NAME: usize = 120;
    /// Characters of a message or an address.
    pub const NOTE: usize = 4_000;
    /// Lines of prices of one plan, and lines of what is new in it.
    pub const LINES: usize = 60;
    /// Characters of one of them.
    pub const LINE: usize = 240;
    /// Characters of the sender's mark, a JPEG in base64.
    pub const EMBLEM_BYTES: usize = 200_000;
    /// Bytes of all of it at most.
    pub const BYTES: usize = (COPIES + OFFERS) * COPY_BYTES + OFFERS * FILE_BYTES;
}

static FORMAT: Format = Format {
    file: "the proposal",
    content: "a proposal",
    ours: "an Overmantel proposal",
    key: "overmantel_proposal",
    version: VERSION,
    most: limits::BYTES,
};

/// A proposal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Proposal {
    /// By which number its sender keeps it; may be empty.
    pub number: String,
    /// How often it was sent: 1, and one more each time that it is sent again changed.
    pub revision: u32,
    /// What it is called.
    pub title: String,
    /// Who sends it.
    pub from: String,
    /// How to reach them, on as many lines as it takes; may be empty.
    pub contact: String,
    /// A picture of the sender's mark, a JPEG in base64; empty for none.
    pub emblem: String,
    /// For whom it is; may be empty.
    pub client: String,
    /// Of when it is.
    pub date: Option<Day>,
    /// What there is to say.
    pub note: String,
    /// The address of a published page, for an answer as a link; may be empty.
    pub address: String,
    /// Until when it is valid.
    pub valid_until: Option<Day>,
    /// The plans to choose among, 1 to [`limits::OFFERS`].
    pub offers: Vec<Offer>,
    /// Pictures of the plans, reduced, each once: its title, and a JPEG in base64.
    pub copies: Vec<(String, String)>,
    /// The price book by which the client's changes are priced, where its maker lets it go along.
    pub book: Option<Book>,
}

/// One of the plans to choose among.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// What it is called, such as "Framed on paper".
    pub name: String,
    /// The plan.
    pub plan: Plan,
    /// What is asked for of the price book, by its names.
    pub with: Vec<String>,
    /// What it costs as it was sent, a line each.
    pub prices: Vec<String>,
    /// The one number that they come to, with its currency; empty for none.
    pub total: String,
    /// What sets it apart, in a line of the sender's own; empty for what is calculated.
    pub apart: String,
    /// What is new in it since the proposal was sent before, a sentence each without its full stop.
    pub news: Vec<String>,
    /// Its pieces in the sender's photograph of a room, a JPEG in base64, as it was sent; empty for none.
    pub in_room: String,
}

impl Offer {
    /// A plan under a name, with nothing said of prices.
    #[must_use]
    pub fn of(name: &str, plan: Plan) -> Self {
        let (with, prices, news) = (Vec::new(), Vec::new(), Vec::new());
        let [total, apart, in_room] = [const { String::new() }; 3];
        Self { name: name.to_owned(), plan, with, prices, total, apart, news, in_room }
    }
}

impl Offer {
    /// What sets it apart, as a line below its name: the sender's own, or what is worked out, of which the name may have the one part.
    #[must_use]
    pub fn set_apart(&self, apart: &Apart) -> String {
        let is_named = typeset(&apart.made).eq_ignore_ascii_case(&typeset(&self.name));
        match self.apart.as_str() {
            "" if is_named => apart.best.clone(),
            "" => apart.line(),
            own => own.to_owned(),
        }
    }
}

impl Default for Proposal {
    /// One with nothing in it, to begin with.
    fn default() -> Self {
        Self {
            number: String::new(),
            revision: 1,
            title: String::new(),
            from: String::new(),
            contact: String::new(),
            emblem: String::new(),
            client: String::new(),
            date: None,
            note: String::new(),
            address: String::new(),
            valid_until: None,
            offers: Vec::new(),
            copies: Vec::new(),
            book: None,
        }
    }
}

/// The sizes that a recipient looks for first, of the first piece, each as a line: in the plan's first system, then in the other.
#[must_use]
pub fn brief_sizes(plan: &Plan, figures: &Figures) -> Vec<String> {
    let Some(sizes) = figures.build_ups.first() else { return Vec::new() };
    let named = [
        ("Image", Some(sizes.image.size)),
        ("Mat opening", sizes.mat.as_ref().map(|mat| mat.opening.size)),
        ("Frame to order", sizes.frame.as_ref().map(|frame| frame.nominal)),
        ("Outside", Some(sizes.outside)),
    ];
    let line = |(name, size): (&str, Option<Size>)| {
        let size = size?;
        let systems = [plan.units.first, plan.units.first.other()];
        let [first, second] = systems.map(|system| typeset(&measure::size(size, Grade::Piece, system).text));
        Some(format!("{name}: {first} · {second}"))
    };
    named.into_iter().filter_map(line).collect()
}

impl Proposal {
    /// Puts a reduced picture in, under its title; the first of a title stays.
    pub fn put_copy(&mut self, title: &str, jpeg: &str) {
        if self.copies.iter().all(|(known, _)| known != title) {
            self.copies.push((title.to_owned(), jpeg.to_owned()));
        }
    }

    /// The reduced pictures of a plan, in its order.
    #[must_use]
    pub fn copies_of(&self, plan: &Plan) -> Vec<Option<String>> {
        let of = |name: &String| self.copies.iter().find(|(known, _)| known == name);
        plan.pictures.iter().map(|picture| of(&picture.name).map(|(_, jpeg)| jpeg.clone())).collect()
    }

    /// A mark by which an answer says what it answers, and a page what it keeps of it.
    ///
    /// # Errors
    /// As [`write`](Self::write).
    pub fn mark(&self) -> Result<u32, ProposalError> {
        Ok(crc32(0, self.write()?.as_bytes()))
    }

    /// Whether there are plans to choose among, and two pictures that go by one title are the same.
    fn check(&self) -> Result<(), ProposalError> {
        if self.offers.is_empty() || self.offers.len() > limits::OFFERS {
            return Err(ProposalError::Offers(self.offers.len()));
        }
        let mut known: Vec<&crate::plan::Picture> = Vec::new();
        for picture in self.offers.iter().flat_map(|offer| &offer.plan.pictures) {
            let same = known.iter().find(|other| other.name == picture.name);
            let sides = |picture: &crate::plan::Picture| (picture.width_px, picture.height_px);
            if same.is_some_and(|other| other.file != picture.file || sides(other) != sides(picture)) {
                return Err(ProposalError::Alike(picture.name.clone()));
            }
            known.push(picture);
        }
        Ok(())
    }

    /// As data in a page.
    ///
    /// # Errors
    /// When there is no plan or too many, a text is too long, or a copy is no JPEG in base64.
    pub fn write(&self) -> Result<String, ProposalError> {
        self.check()?;
        let day =
            |day: Option<Day>| day.map_or(String::new(), |(year, month, day)| papers::iso(year, month, day));
        let lines = |lines: &[String]| lines.iter().cloned().map(OfferLine).collect();
        let offer = |offer: &Offer| FiledOffer {
            name: offer.name.clone(),
            plan: file::write(&offer.plan),
            with: lines(&offer.with),
            prices: lines(&offer.prices),
            total: offer.total.clone(),
            apart: offer.apart.clone(),
            news: lines(&offer.news),
            in_room: offer.in_room.clone(),
        };
        let copied =
            |(picture, jpeg): &(String, String)| Copied { picture: picture.clone(), jpeg: jpeg.clone() };
        let mut filed = Filed {
            number: self.number.clone(),
            revision: self.revision,
            title: self.title.clone(),
            from: self.from.clone(),
            contact: self.contact.clone(),
            emblem: self.emblem.clone(),
            client: self.client.clone(),
            date: day(self.date),
            note: self.note.clone(),
            address: self.address.clone(),
            valid_until: day(self.valid_until),
            options: self.offers.iter().map(offer).collect(),
            copies: self.copies.iter().map(copied).collect(),
            book: self.book.as_ref().map_or(String::new(), crate::prices::file::write),
        };
        filed.check()?;
        Ok(page::inert(&FORMAT.compact(&mut filed)))
    }

    /// The data that stands in a page before its script, with the list of stock by which its plans are made, where that is not the
    /// one on offer.
    ///
    /// # Errors
    /// As [`write`](Self::write), or when the list of stock can't be read.
    pub fn block(&self, stock: Option<&str>) -> Result<String, ProposalError> {
        // By the mark, what is kept of the plans on this page is kept apart from what other pages keep.
        let text = self.write()?;
        let attributes = format!("id=\"proposal\" data-mark=\"{:08x}\"", crc32(0, text.as_bytes()));
        let stock = stock.map(page::stock_block).transpose()?;
        let blocks = [Some(page::block(&attributes, &text)), stock];
        Ok(blocks.into_iter().flatten().collect::<Vec<_>>().join("\n"))
    }

    /// Out of a page.
    ///
    /// # Errors
    /// When it is not a proposal, is of a later version, a text is too long, or a plan of it can't be read.
    pub fn read(text: &str) -> Result<Self, ProposalError> {
        let (mut node, version) = FORMAT.open_since(1, text)?;
        if version == 1 {
            with_options(&mut node);
        }
        let mut filed: Filed = usual();
        FORMAT.read(&mut filed, &node, Unit::Inch, text)?;
        filed.check()?;
        let mut read = Self {
            number: filed.number,
            revision: filed.revision,
            title: filed.title,
            from: filed.from,
            contact: filed.contact,
            emblem: filed.emblem,
            client: filed.client,
            date: papers::read_day(&filed.date)?,
            note: filed.note,
            address: filed.address,
            valid_until: papers::read_day(&filed.valid_until)?,
            offers: Vec::new(),
            copies: Vec::new(),
            book: None,
        };
        filed.copies.iter().for_each(|copied| read.put_copy(&copied.picture, &copied.jpeg));
        for offer in filed.options {
            let (plan, copies) = file::read_with_copies(&offer.plan)?;
            for (picture, jpeg) in plan.pictures.iter().zip(copies) {
                jpeg.into_iter().for_each(|jpeg| read.put_copy(&picture.name, &jpeg));
            }
            let lines = |lines: Vec<OfferLine>| lines.into_iter().map(|line| line.0).collect();
            let (with, prices, news) = (lines(offer.with), lines(offer.prices), lines(offer.news));
            let (name, total, apart, in_room) = (offer.name, offer.total, offer.apart, offer.in_room);
            read.offers.push(Offer { name, plan, with, prices, total, apart, news, in_room });
        }
        if !filed.book.is_empty() {
            read.book = Some(Book::read(&filed.book).map_err(ProposalError::Book)?);
        }
        read.check()?;
        Ok(read)
    }
}

/// A proposal of version 1 had one plan, which stood by itself with its prices.
fn with_options(node: &mut Node) {
    let mut option = vec![("name".to_owned(), Node::text(""))];
    option.extend(["plan", "prices"].into_iter().filter_map(|key| Some((key.to_owned(), node.take(key)?))));
    if let Node::Group(entries) = node {
        entries.push(("options".to_owned(), Node::List(vec![Node::Group(option)])));
    }
}

/// The JSON Schema (draft 2020-12) of a proposal.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    use crate::described::schema::{Lengths, schema_of_list};
    schema_of_list(&mut usual::<Filed>(), "Overmantel proposal", &FORMAT, None, Lengths::Texts)
}
