//! A proposal: a plan with its pictures, what it costs and a message, as it lies in a copy of the page.
//!
//! JSON in an element that is only data. `<` is written as `\u003c`, so that nothing in it can end the element; every text is
//! plain text.

use crate::checksum::crc32;
use crate::described::{FormError, FormFault};
use crate::figures::Figures;
use crate::geometry::Size;
use crate::json::{self, Node};
use crate::link;
use crate::measure::{self, Grade};
use crate::papers;
use crate::plan::{Picture, Piece, Plan, file, limits};
use crate::prices::Book;
use crate::stock::Stock;
use crate::text::typeset;

mod error;
pub use error::ProposalError;

/// The version this module writes.
const VERSION: i64 = 1;
/// What a proposal consists of.
const KEYS: [&str; 8] =
    ["overmantel_proposal", "title", "from", "note", "address", "valid_until", "prices", "plan"];
/// Characters of each text at most, by its name.
const MOST: [(&str, usize); 4] = [("title", 120), ("sender", 120), ("note", 4_000), ("address", 2_000)];
/// Lines of prices at most, and characters of each.
const MOST_PRICES: (usize, usize) = (60, 240);

/// What says that a block is a list of stock.
const OWN_STOCK: &str = "id=\"own-stock\"";

/// A proposal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Proposal {
    /// What it is called.
    pub title: String,
    /// Who sends it.
    pub from: String,
    /// What there is to say.
    pub note: String,
    /// The address of a published page, for an answer as a link; may be empty.
    pub address: String,
    /// Until when it holds, as year, month and day.
    pub valid_until: Option<(u16, u8, u8)>,
    /// What it costs, a line each.
    pub prices: Vec<String>,
    /// The plan.
    pub plan: Plan,
    /// Its pictures, reduced, in its order: JPEG in base64.
    pub copies: Vec<Option<String>>,
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
    /// Whether its texts are no longer than they may be.
    fn check(&self) -> Result<(), ProposalError> {
        let texts = [&self.title, &self.from, &self.note, &self.address];
        for ((what, most), text) in MOST.into_iter().zip(texts) {
            within(what, text, most)?;
        }
        if self.prices.len() > MOST_PRICES.0 {
            return Err(ProposalError::Prices(self.prices.len()));
        }
        self.prices.iter().try_for_each(|line| within("line of prices", line, MOST_PRICES.1))
    }

    /// As data in a page.
    ///
    /// # Errors
    /// When a text is too long, or a copy is no JPEG in base64.
    pub fn write(&self) -> Result<String, ProposalError> {
        self.check()?;
        let text = |text: &String| Node::text(text);
        let mut entries = vec![
            ("overmantel_proposal", Node::Whole(VERSION)),
            ("title", text(&self.title)),
            ("from", text(&self.from)),
            ("note", text(&self.note)),
            ("address", text(&self.address)),
        ];
        if let Some((year, month, day)) = self.valid_until {
            entries.push(("valid_until", Node::text(papers::iso(year, month, day))));
        }
        entries.push(("prices", Node::List(self.prices.iter().map(text).collect())));
        entries.push(("plan", Node::text(file::write_with_copies(&self.plan, &self.copies)?)));
        let group = entries.into_iter().map(|(key, value)| (key.to_owned(), value)).collect();
        Ok(inert(&Node::Group(group).compact()))
    }

    /// The data that stands in a page before its script.
    ///
    /// # Errors
    /// As [`write`](Self::write).
    pub fn block(&self) -> Result<String, ProposalError> {
        // By the mark, what is kept of the plan on this page is kept apart from what other pages keep.
        let text = self.write()?;
        let attributes = format!("id=\"proposal\" data-mark=\"{:08x}\"", crc32(0, text.as_bytes()));
        Ok(block(&attributes, &text))
    }

    /// Out of a page.
    ///
    /// # Errors
    /// When it is not a proposal, is of a later version, a text is too long, or its plan can't be read.
    pub fn read(text: &str) -> Result<Self, ProposalError> {
        let mut form = Form { node: json::read(text)?, text };
        form.known()?;
        match form.take("overmantel_proposal")? {
            Node::Whole(VERSION) => {}
            Node::Whole(given) => return Err(ProposalError::Version(given)),
            other => return Err(form.kind("overmantel_proposal", &other, "a whole number")),
        }
        let (title, from) = (form.text("title")?, form.text("from")?);
        let (note, address) = (form.text("note")?, form.text("address")?);
        // Empty, or not there, for no end.
        let valid_until =
            if form.node.get("valid_until").is_some() { form.text("valid_until")? } else { String::new() };
        let prices = form.texts("prices")?;
        let plan = form.text("plan")?;
        let (plan, copies) = file::read_with_copies(&plan)?;
        let valid_until = papers::read_day(&valid_until)?;
        let proposal = Self { title, from, note, address, valid_until, prices, plan, copies };
        proposal.check()?;
        Ok(proposal)
    }
}

/// What of a proposal's JSON is still to be read, and its text, for the place of what is wrong.
struct Form<'a> {
    node: Node,
    text: &'a str,
}

impl Form<'_> {
    fn wrong(&self, way: &[&str], fault: FormFault) -> ProposalError {
        let way = way.iter().map(|&step| step.to_owned()).collect();
        ProposalError::Form(FormError { way, fault }.text(self.text))
    }

    fn kind(&self, key: &str, given: &Node, wanted: &'static str) -> ProposalError {
        self.wrong(&[key], FormFault::Kind { given: given.kind(), wanted })
    }

    fn take(&mut self, key: &'static str) -> Result<Node, ProposalError> {
        self.node.take(key).ok_or_else(|| self.wrong(&[], FormFault::Missing(key)))
    }

    fn text(&mut self, key: &'static str) -> Result<String, ProposalError> {
        match self.take(key)? {
            Node::Text(text) => Ok(text),
            other => Err(self.kind(key, &other, "text")),
        }
    }

    fn texts(&mut self, key: &'static str) -> Result<Vec<String>, ProposalError> {
        let items = match self.take(key)? {
            Node::List(items) => items,
            other => return Err(self.kind(key, &other, "a list")),
        };
        let text = |item| match item {
            Node::Text(text) => Ok(text),
            other => Err(self.kind(key, &other, "text")),
        };
        items.into_iter().map(text).collect()
    }

    /// Nothing else may stand there.
    fn known(&self) -> Result<(), ProposalError> {
        let Node::Group(entries) = &self.node else {
            let fault = FormFault::Kind { given: self.node.kind(), wanted: "an object in braces" };
            return Err(self.wrong(&[], fault));
        };
        match entries.iter().find(|(key, _)| !KEYS.contains(&key.as_str())) {
            Some((key, _)) => {
                let fault = FormFault::Unknown { key: key.clone(), known: KEYS.to_vec() };
                Err(self.wrong(&[key], fault))
            }
            None => Ok(()),
        }
    }
}

/// A page of Overmantel with a proposal inside and without its demo.
///
/// # Errors
/// When the text is no page of Overmantel, or the proposal can't be written.
pub fn in_page(page: &str, proposal: &Proposal) -> Result<String, ProposalError> {
    page_with(page, &proposal.title, &proposal.block()?)
}

/// What a studio offers with its pictures, as files.
#[derive(Clone, Copy, Debug, Default)]
pub struct Offered<'a> {
    /// Its sizes and mouldings: a stock file. Default: none.
    pub stock: Option<&'a str>,
    /// Its prices: a price book. Default: none.
    pub book: Option<&'a str>,
}

/// The plan from which a studio's buyers start: the first of its pictures on a wall.
///
/// # Errors
/// When there are no pictures or too many, or one of them can't be in a plan.
pub fn studio_plan(title: &str, mut pictures: Vec<Picture>) -> Result<Plan, ProposalError> {
    let count = pictures.len();
    if count == 0 || count > limits::PICTURES {
        return Err(ProposalError::Count(count));
    }
    // A page finds a picture by the name of its file.
    for index in 1..count {
        let file = pictures[index].file.clone();
        if pictures[..index].iter().any(|other| other.file == file) {
            pictures[index].file = [&index.to_string(), "-", &file].concat();
        }
    }
    let shown = count.min(limits::PIECES);
    let pieces = (0..shown).map(|index| Piece { picture: Some(index), ..Piece::starting() }).collect();
    let plan = Plan { title: title.to_owned(), pictures, pieces, ..Plan::starting() };
    plan.check()?;
    Ok(plan)
}

/// A studio's page: one of Overmantel with a painter's own pictures in place of the demo's, a plan that shows the first of them, and
/// the sizes, mouldings and prices that are offered with them, where there are files of them.
///
/// Each picture comes as a JPEG in base64, in the order of the plan's pictures.
///
/// # Errors
/// When the text is no page of Overmantel, or what goes into it can't.
pub fn studio(
    page: &str,
    plan: &Plan,
    pictures: &[String],
    offered: Offered<'_>,
) -> Result<String, ProposalError> {
    page_with(page, &plan.title, &studio_blocks(plan, pictures, offered)?)
}

/// What makes a page a studio's: the data that stands in it before its script.
///
/// # Errors
/// When there are not as many pictures as the plan names, or a file of what is offered can't be read.
pub fn studio_blocks(
    plan: &Plan,
    pictures: &[String],
    offered: Offered<'_>,
) -> Result<String, ProposalError> {
    if pictures.len() != plan.pictures.len() {
        return Err(ProposalError::Pictures { named: plan.pictures.len(), given: pictures.len() });
    }
    let mut blocks: Vec<String> = Vec::new();
    for (picture, jpeg) in plan.pictures.iter().zip(pictures) {
        let name = escaped(&picture.file).replace('"', "&quot;");
        let head = "<script type=\"image/jpeg;base64\" class=\"demo-picture\" data-name=\"";
        blocks.push([head, &name, "\">", jpeg, "</script>"].concat());
    }
    // By the mark, what is kept of plans made on this page is kept apart from what other pages keep.
    let attributes =
        format!("class=\"demo-plan\" data-name=\"studio.json\" data-mark=\"{:08x}\"", link::mark(plan));
    blocks.push(block(&attributes, &file::write(plan)));
    if let Some(stock) = offered.stock {
        Stock::read(stock).map_err(ProposalError::Stock)?;
        blocks.push(block(OWN_STOCK, stock));
    }
    if let Some(book) = offered.book {
        Book::read(book).map_err(ProposalError::Book)?;
        blocks.push(block("id=\"own-prices\"", book));
    }
    Ok(blocks.join("\n"))
}

/// A block of JSON in a page.
fn block(attributes: &str, json: &str) -> String {
    ["<script type=\"application/json\" ", attributes, ">", &inert(json), "</script>"].concat()
}

/// JSON that can't end the element it stands in, as ASCII: the letters that are spelled otherwise occur only inside strings.
fn inert(json: &str) -> String {
    let mut text = String::new();
    for c in json.trim().chars() {
        if c.is_ascii() && c != '<' {
            text.push(c);
        } else {
            text.extend(c.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")));
        }
    }
    text
}

/// What marks the core in pages that were handed out before it came in parts.
const OLDER_CORE: &str = "id=\"core\"";

/// A page with other data blocks than its own. Its script and its style are the same, so that its policy holds.
fn page_with(page: &str, title: &str, blocks: &str) -> Result<String, ProposalError> {
    // The script that runs is the only one without a type; data blocks have no `<` in them.
    let (before, script) = page.split_once("<script>").ok_or(ProposalError::NoPage)?;
    let (start, rest) = before.split_once("<title>").ok_or(ProposalError::NoPage)?;
    let (_, mut rest) = rest.split_once("</title>").ok_or(ProposalError::NoPage)?;
    // The core comes behind it; in older pages it stands before it, as one block.
    if !script.contains("class=\"core\"") && !rest.contains(OLDER_CORE) {
        return Err(ProposalError::NoPage);
    }
    let mut text = [start, "<title>", &escaped(title), "</title>"].concat();
    // Blocks of the demo, and of a proposal that was inside before, are left out.
    while let Some((kept, block)) = rest.split_once("<script type=\"") {
        text += kept;
        let (head, behind) = block.split_once('>').ok_or(ProposalError::NoPage)?;
        let (body, behind) = behind.split_once("</script>").ok_or(ProposalError::NoPage)?;
        let is_stock = head.contains(OWN_STOCK) && !blocks.contains(OWN_STOCK);
        if head.contains(OLDER_CORE) || is_stock {
            text += &["<script type=\"", head, ">", body, "</script>"].concat();
        }
        rest = behind;
    }
    text += rest;
    text.truncate(text.trim_end().len());
    text += &["\n", blocks, "\n<script>", script].concat();
    Ok(text)
}

/// Text in a page, as ASCII.
fn escaped(text: &str) -> String {
    let one = |c: char| {
        if c.is_ascii() && !"&<".contains(c) { c.to_string() } else { format!("&#{};", u32::from(c)) }
    };
    text.chars().map(one).collect()
}

fn within(what: &'static str, text: &str, most: usize) -> Result<(), ProposalError> {
    let given = text.chars().count();
    if given <= most {
        return Ok(());
    }
    Err(ProposalError::Long { what, given, most })
}
