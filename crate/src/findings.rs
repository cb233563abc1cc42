//! Findings: what is unwise about a plan that works, why, how much it matters, and what would mend it.
//!
//! A finding never stops a plan. Each is a row of a table: a stable code, what it is about, how much it matters, its
//! authority, the sentence with its numbers named in braces, and a function that finds the cases. A remedy is a list of edits with
//! an identity of its own; [`crate::mend`] tries each before it is offered.
//!
//! ```
//! use overmantel::{field::Edit, figures::Figures, findings::{Severity, findings}, length::Length, plan::Plan, stock::Stock};
//! let plan = Plan { group: overmantel::plan::Group { gap: overmantel::length::Length::inches(5), ..Plan::starting().group }, ..Plan::starting() };
//! let found = findings(&plan, &Figures::of(&plan).unwrap(), &Stock::offered());
//! let gap = found.iter().find(|finding| finding.code == "gap").unwrap();
//! assert_eq!(gap.severity, Severity::Taste);
//! let edit = Edit::length(&overmantel::plan::GROUP_GAP, Length::inches(4));
//! assert_eq!(gap.remedies[0].edits, [edit]);
//! ```

use crate::field::Edit;
use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::Length;
use crate::measure::{Grade, shown, shown_size, weight};
use crate::plan::{Plan, Units};
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::stock::Stock;
use crate::weigh::Mass;
use crate::words::in_units;

mod built;
mod framed;
mod grave;
mod hangers;
pub(crate) mod hung;
mod context;
pub(crate) mod made;
mod maker;
mod picture;
mod place;
mod strength;
pub(crate) mod way;

use context::Context;
pub use grave::Grave;
pub(crate) use grave::{Zone, zones};
pub use made::{ACRYLIC_PER_KELVIN, WARMING_KELVIN, acrylic_growth};

/// What a finding is about: the paragraph beside which it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the paragraphs of the specification")]
pub enum About {
    Wall,
    Fixtures,
    Picture,
    Fit,
    Made,
    Hanging,
    Site,
}

/// How much a finding matters, the least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Others would do it otherwise.
    Taste,
    /// It can be made, and will not be liked.
    Disappoints,
    /// Someone may be hurt.
    Safety,
    /// Nobody can make it so.
    CannotBeMade,
}

impl Severity {
    /// Every severity, the least first.
    pub const ALL: [Self; 4] = [Self::Taste, Self::Disappoints, Self::Safety, Self::CannotBeMade];

    /// In words, to stand before a finding.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Taste => "a matter of taste",
            Self::Disappoints => "will disappoint",
            Self::Safety => "for your safety",
            Self::CannotBeMade => "cannot be made",
        }
    }
}

/// On what a finding rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Authority {
    /// It follows from the sizes.
    Sizes,
    /// What the stock has on offer.
    Stock,
    /// A law or a standard, by its name.
    Standard(&'static str),
    /// Published guidance, by its name.
    Guidance(&'static str),
    /// Common practice, no source.
    Practice,
    /// A limit from a list of the user's own.
    OwnList,
}

impl Authority {
    /// Of which kind it is.
    #[must_use]
    pub const fn kind(self) -> &'static str {
        match self {
            Self::Sizes => "sizes",
            Self::Stock => "stock",
            Self::Standard(_) => "law or standard",
            Self::Guidance(_) => "published guidance",
            Self::Practice => "common practice",
            Self::OwnList => "own list",
        }
    }

    /// In words, to stand behind a finding.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Sizes => "follows from the sizes",
            Self::Stock => "what the stock has on offer",
            Self::Standard(name) | Self::Guidance(name) => name,
            Self::Practice => "common practice, no source",
            Self::OwnList => "a limit of your own list",
        }
    }
}

/// Something that a finding rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// A length, and how finely it is shown.
    Length(Length, Grade),
    /// A width and a height.
    Size(Size),
    /// A number, shown to a hundredth.
    Share(Exact),
    /// A share of a picture, told in hundredths.
    Percent(Exact),
    /// A whole number.
    Count(i128),
    /// A weight with its uncertainty.
    Mass(Mass),
    /// A name or the like.
    Words(String),
}

impl Value {
    /// As a sentence shows it.
    #[must_use]
    pub fn shown(&self, units: Units) -> String {
        match self {
            Self::Length(length, grade) => shown(*length, *grade, units),
            Self::Size(size) => shown_size(*size, units),
            Self::Percent(share) => {
                let hundredths = divide(*share.numer() * 100, *share.denom(), Mode::HalfAway);
                [&hundredths.to_string(), " %"].concat()
            }
            Self::Share(share) => {
                let hundredths = divide(*share.numer() * 100, *share.denom(), Mode::HalfAway);
                // 100 + 5 is 105, and 05 is meant.
                let rest = (hundredths % 100 + 100).to_string();
                [&(hundredths / 100).to_string(), ".", &rest[1..]].concat()
            }
            Self::Count(count) => count.to_string(),
            Self::Mass(mass) => weight(*mass, units),
            Self::Words(words) => words.clone(),
        }
    }
}

/// A change to the plan that takes a finding away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remedy {
    /// By what it is told from every other remedy of the plan: the finding's code, what of several it is about, and its place
    /// among that finding's remedies. It holds for the plan in which it was found.
    pub id: String,
    /// What it does, to stand as a link.
    pub words: String,
    /// The edits, one after the other.
    pub edits: Vec<Edit>,
}

/// Something unwise.
///
/// ```
/// use overmantel::{figures::Figures, length::Length, mend, plan::Plan, stock::Stock};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let (mut plan, stock) = (Plan::starting(), Stock::offered());
/// plan.group.gap = Length::inches(9);
/// let found = mend::findings(&plan, &Figures::of(&plan)?, &stock);
/// let wide = found.iter().find(|finding| finding.code == "gap").ok_or("9 in is wide")?;
/// // A remedy was tried before it is offered: the plan with it has no such finding.
/// let mended = mend::with(&plan, &stock, &wide.remedies[0])?;
/// let left = mend::findings(&mended, &Figures::of(&mended)?, &stock);
/// assert!(left.iter().all(|finding| finding.code != "gap"));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// A stable name.
    pub code: &'static str,
    /// What it is about.
    pub about: About,
    /// How much it matters.
    pub severity: Severity,
    /// On what it rests.
    pub authority: Authority,
    /// Which of several things it is about, such as a fixture by its name; empty where there is one only.
    pub subject: String,
    /// The reason in one sentence, with its numbers.
    pub sentence: String,
    /// The numbers that it rests on, by the names that they have in its row.
    pub numbers: Vec<(&'static str, Value)>,
    /// What would mend it, each by itself.
    pub remedies: Vec<Remedy>,
}

/// One kind of finding. Adding one is adding a row, and both sides of its limit to `tests/tests/findings`.
pub(crate) struct Row {
    /// A stable name.
    pub(crate) code: &'static str,
    /// What it is about, where its case says nothing else.
    pub(crate) about: About,
    /// How much it matters.
    pub(crate) severity: Severity,
    /// On what it rests, unless a list of the user's own changes its limit.
    pub(crate) authority: Authority,
    /// The sentence, with its numbers by name in braces.
    pub(crate) words: &'static str,
    /// Its cases in a plan.
    pub(crate) find: fn(&Context<'_>) -> Vec<Case>,
}

/// A case of a finding in a plan.
pub(crate) struct Case {
    about: Option<About>,
    subject: String,
    values: Vec<Value>,
    remedies: Vec<Remedy>,
}

impl Case {
    /// With the numbers of its sentence, in their order.
    fn of(values: impl Into<Vec<Value>>) -> Self {
        Self::with(values.into())
    }

    // One copy of it in the page, whatever it is made of.
    #[inline(never)]
    fn with(values: Vec<Value>) -> Self {
        Self { about: None, subject: String::new(), values, remedies: Vec::new() }
    }

    /// It is about something else than its row says.
    fn about(self, about: About) -> Self {
        Self { about: Some(about), ..self }
    }

    /// Of several things it is about this one.
    fn on(self, subject: &str) -> Self {
        Self { subject: subject.to_owned(), ..self }
    }

    /// With one more remedy.
    fn mend(mut self, words: impl Into<String>, edits: impl Into<Vec<Edit>>) -> Self {
        self.add(words.into(), edits.into());
        self
    }

    #[inline(never)]
    fn add(&mut self, words: String, edits: Vec<Edit>) {
        self.remedies.push(Remedy { id: String::new(), words, edits });
    }

    fn finding(self, row: &Row, plan: &Plan, is_own: bool) -> Finding {
        let units = plan.units;
        // One piece, or one frame, is no group.
        let is_one = plan.pieces.len() == 1 || plan.shared.is_some();
        let said = |words: &str| {
            let words = in_units(words, units.first);
            if is_one {
                words.replace("The group ", "The piece ").replace("the group ", "the piece ")
            } else {
                words.into_owned()
            }
        };
        let mut sentence = String::new();
        let mut numbers = Vec::new();
        let mut values = self.values.into_iter();
        let mut rest = row.words;
        while let Some((before, after)) = rest.split_once('{') {
            let (name, after) = after.split_once('}').unwrap_or((after, ""));
            sentence += &said(before);
            if let Some(value) = values.next() {
                sentence += &value.shown(units);
                numbers.push((name, value));
            }
            rest = after;
        }
        sentence += &said(rest);
        sentence.get_mut(..1).into_iter().for_each(str::make_ascii_uppercase);
        let rests_on_practice = matches!(row.authority, Authority::Practice | Authority::Guidance(_));
        Finding {
            code: row.code,
            about: self.about.unwrap_or(row.about),
            severity: row.severity,
            authority: if is_own && rests_on_practice { Authority::OwnList } else { row.authority },
            subject: self.subject,
            sentence,
            numbers,
            remedies: self.remedies,
        }
    }
}

/// Every row, in the order in which findings are told.
fn rows() -> impl Iterator<Item = &'static Row> {
    [
        place::ROWS,
        picture::ROWS,
        built::ROWS,
        made::ROWS,
        framed::ROWS,
        strength::ROWS,
        maker::ROWS,
        hung::ROWS,
        hangers::ROWS,
        way::ROWS,
    ]
    .into_iter()
    .flatten()
}

/// The codes of all findings that there are, with how much each matters and on what it rests.
pub fn kinds() -> impl Iterator<Item = (&'static str, Severity, Authority)> {
    rows().map(|row| (row.code, row.severity, row.authority))
}

/// Looks a plan over that is made from a stock. The remedies are untried; see [`crate::mend`].
#[must_use]
pub fn findings(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<Finding> {
    let context = Context::at(plan, figures, stock);
    let mut found = Vec::new();
    for row in rows() {
        context.forget();
        let cases = (row.find)(&context);
        let is_own = context.is_own();
        found.extend(cases.into_iter().map(|case| case.finding(row, plan, is_own)));
    }
    identify(&mut found);
    found
}

/// Gives each remedy its identity: `door-swing/left door/1`. Findings that are about the same are counted.
fn identify(found: &mut [Finding]) {
    for index in 0..found.len() {
        let (before, rest) = found.split_at_mut(index);
        let finding = &mut rest[0];
        let is_same = |known: &&Finding| (known.code, &known.subject) == (finding.code, &finding.subject);
        let mut of = String::from(finding.code);
        if !finding.subject.is_empty() {
            of += &["/", &finding.subject].concat();
        }
        match before.iter().filter(is_same).count() {
            0 => {}
            more => of += &["/", &(more + 1).to_string(), " of these"].concat(),
        }
        for (place, remedy) in finding.remedies.iter_mut().enumerate() {
            remedy.id = [&of, "/", &(place + 1).to_string()].concat();
        }
    }
}
