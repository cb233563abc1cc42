//! Papers: what the buyer decides by, the print shop prints by, the framer cuts by and the wall is drilled by.
//!
//! Each is made from the same plan, figures and scene as the drawing, and works nothing out again. A paper is laid out as a
//! [`Document`] in exact lengths ([`sheet`]), which [`pdf`] writes; the drawings by themselves are written as [`svg`]. There is no clock
//! here: a date is stated or there is none, and the same job gives the same bytes.
//!
//! ```
//! use overmantel::{figures::Figures, papers::{Job, Kind, Paper, pdf}, plan::Plan, stock::Stock};
//! let plan = Plan::starting();
//! let (figures, stock) = (Figures::of(&plan).unwrap(), Stock::offered());
//! let job = Job::new(&plan, &figures, &stock, Paper::A4);
//! let hanging = job.document(Kind::Hanging).unwrap();
//! assert!(pdf::write(&hanging, &[]).starts_with(b"%PDF-1.7"));
//! ```

use crate::figures::Figures;
use crate::length::Length;
use crate::measure::{Grade, print_in};
use crate::plan::{Plan, System};
use crate::prices::Book;
use crate::scene::{Scene, scene};
use crate::stock::Stock;
use sheet::Document;

mod assembly;
mod cut;
mod cuts;
pub mod data;
mod elevation;
mod error;
mod flow;
mod hanging;
mod hooks;
pub mod jpeg;
mod lit;
pub mod options;
pub mod order;
pub mod pdf;
pub mod proposal;
pub mod raster;
mod record;
pub mod sheet;
pub mod survey;
pub mod svg;
pub mod template;

pub use error::PaperError;

/// What paper a printer has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8 1/2 × 11 in (ANSI/ASME Y14.1, from memory).
    Letter,
}

/// A paper by what it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// For the buyer: what it will look like, what it is, what it costs.
    Proposal,
    /// For the print shop.
    Order,
    /// For the framer.
    Cuts,
    /// For whoever puts it together.
    Assembly,
    /// For whoever hangs it.
    Hanging,
    /// The same at full size, to be put on the wall.
    Template,
    /// For whoever keeps it, and may add to it.
    Record,
}

impl Kind {
    /// Every paper, in the order of the job.
    pub const ALL: [Self; 7] = [
        Self::Proposal,
        Self::Order,
        Self::Cuts,
        Self::Assembly,
        Self::Hanging,
        Self::Template,
        Self::Record,
    ];

    /// Its name: in a command and in the name of its file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Proposal => "proposal",
            Self::Order => "order",
            Self::Cuts => "cut-list",
            Self::Assembly => "assembly",
            Self::Hanging => "hanging",
            Self::Template => "template",
            Self::Record => "record",
        }
    }

    /// Its title.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Proposal => "Proposal",
            Self::Order => "Order for the print shop",
            Self::Cuts => "Cut list for the framer",
            Self::Assembly => "Receiving and assembly",
            Self::Hanging => "Hanging plan",
            Self::Template => "Template at full size",
            Self::Record => "Record of the wall",
        }
    }
}

/// Who reads a proposal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Reader {
    /// Whoever decides: what it is, where it hangs, what it costs, and what is for their safety.
    #[default]
    Client,
    /// Whoever makes it, too: the whole specification, and everything that is unwise.
    Maker,
}

/// What papers are made of.
///
/// ```
/// use overmantel::papers::{Job, Kind, Paper, pdf};
/// use overmantel::{figures::Figures, plan::Plan, stock::Stock};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let (plan, stock) = (Plan::starting(), Stock::offered());
/// let figures = Figures::of(&plan)?;
/// let job = Job { date: Some((2026, 11, 26)), ..Job::new(&plan, &figures, &stock, Paper::A4) };
/// let file = pdf::write(&job.document(Kind::Hanging)?, &[]);
/// assert!(file.starts_with(b"%PDF-1.7"));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Debug)]
pub struct Job<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its figures.
    pub figures: &'a Figures,
    /// From what it is made.
    pub stock: &'a Stock,
    /// On what it is printed.
    pub paper: Paper,
    /// What a proposal is called; empty for the title of the plan. Default: empty.
    pub title: String,
    /// Whose it is; empty for nobody's. Default: empty.
    pub author: String,
    /// By which proposal it was ordered, for whom and which option; empty for none. Default: empty.
    pub reference: String,
    /// Of when it is, as year, month and day. Default: none.
    pub date: Option<(u16, u8, u8)>,
    /// Until when a proposal holds. Default: none.
    pub valid_until: Option<(u16, u8, u8)>,
    /// What else is to be said on a proposal; empty for nothing. Default: empty.
    pub note: String,
    /// By which price book a proposal is priced. Default: none, and then it names no prices.
    pub book: Option<&'a Book>,
    /// What a proposal says of its price, a line each, in place of what the book makes of it. Default: none.
    pub prices: Option<Vec<String>>,
    /// For whom a proposal is. Default: the client.
    pub reader: Reader,
    /// Whether the template is of the hooks alone. Default: no.
    pub hooks_only: bool,
    /// The plan as a link, with the address of a published page: a proposal shows it as a QR code. Default: none.
    pub address: Option<String>,
    /// Pixels of the pieces in a photograph of a room, which a proposal shows: the picture that comes after those of the plan.
    /// Default: none.
    pub in_room: Option<(u32, u32)>,
}

impl<'a> Job<'a> {
    /// The papers of a plan, with nothing else said.
    #[must_use]
    pub const fn new(plan: &'a Plan, figures: &'a Figures, stock: &'a Stock, paper: Paper) -> Self {
        Self {
            plan,
            figures,
            stock,
            paper,
            title: String::new(),
            author: String::new(),
            reference: String::new(),
            date: None,
            valid_until: None,
            note: String::new(),
            book: None,
            prices: None,
            reader: Reader::Client,
            hooks_only: false,
            address: None,
            in_room: None,
        }
    }

    /// A paper, laid out.
    ///
    /// # Errors
    /// When it would have no end: a template of more sheets than anybody joins.
    pub fn document(&self, kind: Kind) -> Result<Document, PaperError> {
        let flowing = |pages: fn(&Self, flow::Early) -> Vec<sheet::Page>| {
            flow::without_lone_lines(&|early| pages(self, early))
        };
        let mut pages = match kind {
            Kind::Proposal => flowing(proposal::pages),
            Kind::Order => flowing(order::pages),
            Kind::Cuts => flowing(cuts::pages),
            Kind::Assembly => flowing(assembly::pages),
            Kind::Hanging => flowing(hanging::pages),
            Kind::Template if self.hooks_only => hooks::pages(self),
            Kind::Template => template::pages(self)?,
            Kind::Record => flowing(record::pages),
        };
        for page in &mut pages {
            page.blocks.extend(flow::lacking(page));
        }
        let title = [self.titled(kind), ": ", kind.title()].said();
        Ok(Document { title, author: self.author.clone(), date: self.date, pages })
    }

    /// What a paper is called.
    pub(crate) fn titled(&self, kind: Kind) -> &str {
        if kind == Kind::Proposal && !self.title.is_empty() { &self.title } else { &self.plan.title }
    }

    /// Whose they are, and of when.
    pub(crate) fn made(&self) -> String {
        let made = [self.author.clone(), self.date.map_or(String::new(), written_date)];
        made.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
    }

    /// What is drawn, without the figure for scale.
    fn scene(&self) -> Scene {
        Scene { figure: None, ..scene(self.plan, self.figures) }
    }

    /// A length in both systems, the plan's own first.
    fn both(&self, length: Length, grade: Grade) -> String {
        let [first, second] = self.systems().map(|system| print_in(length, grade, system));
        [&first, " = ", &second].said()
    }

    /// Both systems, the plan's own first.
    const fn systems(&self) -> [System; 2] {
        self.plan.units.first.with_other()
    }

    /// A rule of thumb as it is said in the plan's own system.
    const fn rule<'b>(&self, inches: &'b str, metric: &'b str) -> &'b str {
        match self.plan.units.first {
            System::Inches => inches,
            System::Centimetres => metric,
        }
    }
}

/// Parts of a text put together.
trait Said {
    fn said(&self) -> String;
}

impl<const N: usize> Said for [&str; N] {
    fn said(&self) -> String {
        together(self)
    }
}

// One copy of it in the page, however many texts there are.
#[inline(never)]
fn together(parts: &[&str]) -> String {
    let mut text = String::new();
    parts.iter().for_each(|part| text.push_str(part));
    text
}

/// A date as ISO 8601 has it.
pub(crate) fn iso(year: u16, month: u8, day: u8) -> String {
    let padded = |number: u32, scale: u32| (scale + number).to_string()[1..].to_owned();
    [padded(year.into(), 10_000), padded(month.into(), 100), padded(day.into(), 100)].join("-")
}

/// A date in words, the same in every country: `26 November 2026`.
pub(crate) fn written_date((year, month, day): (u16, u8, u8)) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let month = MONTHS.get(usize::from(month) - 1).copied().unwrap_or_default();
    [&day.to_string(), month, &year.to_string()].join(" ")
}

/// Reads a date; none where nothing is written.
///
/// # Errors
/// As [`read_date`].
pub(crate) fn read_day(text: &str) -> Result<Option<(u16, u8, u8)>, PaperError> {
    if text.is_empty() { Ok(None) } else { read_date(text).map(Some) }
}

/// Reads a date: `2026-11-26`.
///
/// # Errors
/// When it is no day of the calendar.
pub fn read_date(text: &str) -> Result<(u16, u8, u8), PaperError> {
    let parts: Vec<&str> = text.trim().split('-').collect();
    let read = || {
        let [year, month, day] = parts.as_slice() else { return None };
        let is_plain = [year, month, day].iter().all(|part| part.bytes().all(|byte| byte.is_ascii_digit()));
        let (year, month, day) = (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
        let is_leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            2 => 28 + u8::from(is_leap),
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => 0,
        };
        (is_plain && (1000..=9999).contains(&year) && (1..=days).contains(&day)).then_some((year, month, day))
    };
    read().ok_or_else(|| PaperError::Date(text.to_owned()))
}
