//! A proposal with several options on paper: a page that compares them, then a page each.

use super::flow::{BODY, Flow, HEADING, NOTE, SANS, Table};
use super::proposal::{Code, ProposalPart, SIZES, in_room, materials, what_it_is};
use super::sheet::{Document, Item, Page, Role};
use super::{Job, Kind, Said, elevation, written_date};
use crate::geometry::{Point, Size};
use crate::length::Length;
use crate::scene::in_words;
use crate::spec::capital;
use crate::text::typeset;

/// One of the plans that a proposal offers.
#[derive(Clone, Debug)]
pub struct OptionOnPaper<'a> {
    /// What it is called.
    pub name: String,
    /// Its plan with all that is said of it. Its lines of prices are those that were sent.
    pub job: Job<'a>,
    /// What sets it apart.
    pub apart: String,
    /// The one number that it costs; empty for none.
    pub total: String,
    /// Where its plan's pictures begin among those of all options.
    pub pictures_from: usize,
}

/// What all options say of one thing, in their order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OptionRow {
    /// What it is about.
    pub label: String,
    /// What each says.
    pub told: Vec<String>,
}

/// Options that stand beside each other on the page that compares them.
const ACROSS: usize = 3;
/// Where there are so many, they go side by side.
const FOUR: usize = 4;
/// Between them.
const BETWEEN: Length = Length::mm(6);
/// How high a small drawing is at most, and that of an option's own page.
const SMALL: Length = Length::mm(42);
const LARGE: [Length; 5] = [Length::mm(112), Length::mm(100), Length::mm(88), Length::mm(76), Length::mm(64)];
/// How wide the code of an option is at most, where its modules can be smaller.
const CODE: Length = Length::mm(50);

/// The paper of several options: whose it is and by which number is that of the first.
///
/// ```
/// use overmantel::figures::Figures;
/// use overmantel::papers::options::{OptionOnPaper, document};
/// use overmantel::papers::{Job, Paper};
/// use overmantel::{plan::Plan, stock::Stock};
/// let (plan, stock) = (Plan::starting(), Stock::offered());
/// let figures = Figures::of(&plan).unwrap();
/// let option = |name: &str| OptionOnPaper {
///     name: name.to_owned(),
///     job: Job::new(&plan, &figures, &stock, Paper::A4),
///     apart: String::new(),
///     total: "EUR 590.40".to_owned(),
///     pictures_from: 0,
/// };
/// let paper = document(&[option("On paper"), option("The same again")], &[]);
/// assert_eq!(paper.pages.len(), 3, "one that compares, and one each");
/// ```
#[must_use]
pub fn document(options: &[OptionOnPaper<'_>], rows: &[OptionRow]) -> Document {
    let Some(first) = options.first().map(|option| &option.job) else {
        return Document { title: String::new(), author: String::new(), date: None, pages: Vec::new() };
    };
    if let [only] = options {
        let pages = super::flow::without_lone_lines(&|early| super::proposal::pages(&only.job, early));
        return finished(pages, first);
    }
    let mut pages = compared(options, rows, first);
    for option in options {
        pages.extend(alone(option));
        pages.extend(in_the_room(option));
    }
    let count = pages.len();
    super::flow::number(&mut pages, first.paper.size(), count);
    finished(pages, first)
}

fn finished(mut pages: Vec<Page>, first: &Job<'_>) -> Document {
    for page in &mut pages {
        page.blocks.extend(super::flow::lacking(page));
    }
    let title = [first.titled(Kind::Proposal), ": ", Kind::Proposal.title()].said();
    Document { title, author: first.author.clone(), date: first.date, pages }
}

/// All of them beside each other, drawn at one scale, with what each costs and what they say of what a buyer weighs up.
fn compared(options: &[OptionOnPaper<'_>], rows: &[OptionRow], first: &Job<'_>) -> Vec<Page> {
    let mut flow = Flow::new(first, Kind::Proposal, super::flow::Early::default());
    for paragraph in first.note.split("\n\n").filter(|text| !text.trim().is_empty()) {
        flow.text(BODY, paragraph);
    }
    let across = if options.len() == FOUR { FOUR } else { ACROSS };
    let column = (flow.width() - BETWEEN * count(across - 1)).times_ratio(1, count(across));
    let scenes: Vec<_> = options.iter().map(|option| option.job.scene()).collect();
    let room: Vec<(Length, Length)> = scenes
        .iter()
        .map(elevation::extent)
        .flat_map(|extent| [(extent.size.width, column), (extent.size.height, SMALL)])
        .collect();
    let scale = elevation::scale_for(first.plan.units.first, &room);
    for (options, scenes) in options.chunks(across).zip(scenes.chunks(across)) {
        let drawn = scenes.iter().map(|scene| elevation::extent(scene).size.height.times_ratio(1, scale));
        let texts: Vec<Vec<String>> = options
            .iter()
            .map(|option| {
                let told = [&option.name, &option.total, &option.apart].map(|text| typeset(text));
                told.iter()
                    .filter(|text| !text.is_empty())
                    .flat_map(|text| SANS.wrapped(text, column))
                    .collect()
            })
            .collect();
        let step = SANS.em.times_ratio(130, 100);
        let lines = count(texts.iter().map(Vec::len).max().unwrap_or(0));
        let high = drawn.max().unwrap_or_default();
        let strip = flow.strip(high + Length::mm(3) + step * (lines + 1));
        for (place, ((option, scene), lines)) in options.iter().zip(scenes).zip(&texts).enumerate() {
            let left = strip.x + (column + BETWEEN) * count(place);
            let extent = elevation::extent(scene);
            let below = extent.y.times_ratio(1, scale);
            let origin = Point::new(left - extent.x.times_ratio(1, scale), strip.top() - high - below);
            let view = elevation::View { scale, origin };
            let items = elevation::wall(option.job.plan, scene, view, elevation::Manner::Coloured);
            let words = in_words(option.job.plan, option.job.figures);
            flow.push(Role::Drawing(words), own_pictures(items, option.pictures_from));
            let written = lines.iter().enumerate().map(|(line, text)| {
                SANS.write(left, strip.top() - high - Length::mm(2) - step * count(line + 1), text.as_str())
            });
            flow.push(Role::Text, written.collect());
        }
    }
    let scale = elevation::in_words(scale, first.plan.units.first);
    flow.text(NOTE, &["All walls at one scale, ", &scale, "."].said());
    for from in (0..options.len()).step_by(across) {
        let to = (from + across).min(options.len());
        let names = options[from..to].iter().map(|option| option.name.clone());
        let row = |row: &OptionRow| {
            let told = row.told.get(from..to).unwrap_or_default().iter().cloned();
            std::iter::once(row.label.clone()).chain(told).collect()
        };
        let columns = std::iter::once(String::new()).chain(names).collect();
        flow.table(&Table { columns, rows: rows.iter().map(row).collect(), numbers: 0 });
    }
    if let Some(date) = first.valid_until {
        flow.text(BODY, &["This proposal is valid until ", &written_date(date), "."].said());
    }
    flow.text(NOTE, SIZES);
    flow.unnumbered()
}

/// One of them on a page: the drawing as large as there is room for, the sentences, what is for safety, the price.
fn alone(option: &OptionOnPaper<'_>) -> Vec<Page> {
    let mut tried = LARGE.iter().map(|&large| drawn_so_large(option, large));
    let fits = tried.find(|pages| pages.len() == 1);
    fits.unwrap_or_else(|| drawn_so_large(option, LARGE[0]))
}

/// What an option's own pages are made of: what all options have in common stands on the page that compares them.
fn own_job<'a>(option: &OptionOnPaper<'a>) -> Job<'a> {
    let title = [option.job.titled(Kind::Proposal), ": ", &option.name].said();
    Job { title, note: String::new(), valid_until: None, ..option.job.clone() }
}

/// The view in the photograph, on a page of its own; none where there is none.
fn in_the_room(option: &OptionOnPaper<'_>) -> Vec<Page> {
    if option.job.in_room.is_none() {
        return Vec::new();
    }
    let job = own_job(option);
    let mut flow = Flow::new(&job, Kind::Proposal, super::flow::Early::default());
    in_room(&job, &mut flow, option.pictures_from);
    flow.unnumbered()
}

fn drawn_so_large(option: &OptionOnPaper<'_>, large: Length) -> Vec<Page> {
    let job = own_job(option);
    let mut flow = Flow::new(&job, Kind::Proposal, super::flow::Early::default());
    let drawn = elevation::dimensioned(
        job.plan,
        &job.scene(),
        Size::new(flow.width(), large),
        elevation::Manner::Coloured,
    );
    let strip = flow.strip(drawn.size.height);
    let by = Point::new(strip.x + (strip.size.width - drawn.size.width).half(), strip.y);
    let items = own_pictures(elevation::moved(drawn.items, by), option.pictures_from);
    flow.push(Role::Drawing(in_words(job.plan, job.figures)), items);
    for part in what_it_is(&job, drawn.scale) {
        match part {
            ProposalPart::Heading(text) => flow.heading(&text),
            ProposalPart::Text(text) => flow.text(BODY, &text),
            ProposalPart::Note(text) => flow.text(NOTE, &text),
            ProposalPart::Caution(text) => flow.caution(&text),
            ProposalPart::Prices(..) | ProposalPart::Link => {}
        }
    }
    for (material, care) in materials(&job) {
        flow.text(NOTE, &[&capital(material), ": ", care, "."].said());
    }
    price_and_code(&job, &mut flow);
    flow.unnumbered()
}

/// What an option costs, a line each, and beside it the code that opens it.
fn price_and_code(job: &Job<'_>, flow: &mut Flow) {
    let code = job.address.as_deref().and_then(|address| Code::of(address, CODE));
    let side = code.as_ref().map_or(Length::ZERO, Code::side);
    let room = flow.width() - if side > Length::ZERO { side + BETWEEN } else { Length::ZERO };
    let mut lines: Vec<String> = Vec::new();
    for line in job.prices.iter().flatten() {
        lines.extend(SANS.wrapped(&typeset(line), room));
    }
    let step = SANS.em.times_ratio(130, 100);
    let high = (step * count(lines.len()) + Length::mm(8)).max(side);
    if lines.is_empty() && code.is_none() {
        return;
    }
    let strip = flow.strip(high + Length::mm(3));
    let top = strip.top() - Length::mm(3);
    let mut items = Vec::new();
    let mut y = top;
    if !lines.is_empty() {
        y -= HEADING.em.times_ratio(115, 100);
        flow.push(Role::Heading, vec![HEADING.write(strip.x, y, "Price")]);
        y -= Length::mm(1);
    }
    for line in lines {
        y -= step;
        items.push(SANS.write(strip.x, y, line));
    }
    flow.push(Role::Text, items);
    if let Some(code) = code {
        let words = "The link as a QR code: point a phone at it to open this option and change it".to_owned();
        flow.push(Role::Drawing(words), vec![code.modules(flow.right() - side, top)]);
    }
}

/// Pictures by their place among those of all options.
fn own_pictures(mut items: Vec<Item>, from: usize) -> Vec<Item> {
    for item in &mut items {
        if let Item::Picture { shows: Some((picture, _)), .. } = item {
            *picture += from;
        }
    }
    items
}

fn count(number: usize) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}
