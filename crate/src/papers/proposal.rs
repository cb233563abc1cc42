//! The proposal: the wall to scale, what is proposed in sentences, what it costs, how fine it is and how it is cared for.

use super::Said;
use super::flow::{BODY, Early, Flow, NOTE, Table};
use super::sheet::{Block, INK, Item, Page, Role, Step};
use super::{Job, Kind, Reader, elevation, written_date};
use crate::findings::Severity;
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::link::CodeSquare;
use crate::plan::Finish;
use crate::prices::{care_of, priced};
use crate::print::{Exact, Source};
use crate::scene::in_words;
use crate::spec::{self, capital};

/// How high the drawing is at most, with its dimension lines.
const DRAWING: Length = Length::mm(150);
/// How high the photograph of a room is at most.
const PHOTOGRAPH: Length = Length::mm(190);
/// Between it and what is said of it.
const BELOW: Length = Length::mm(3);

/// Something that a proposal says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProposalPart {
    /// A heading.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// A paragraph in a lesser hand.
    Note(String),
    /// What must not be missed.
    Caution(String),
    /// A table of prices: what heads its columns, and its rows; the last three columns are numbers.
    Prices([&'static str; 5], Vec<Vec<String>>),
    /// Where the plan's link stands, on a paper.
    Link,
}

pub(super) fn pages(job: &Job<'_>, early: Early) -> Vec<Page> {
    let mut flow = Flow::new(job, Kind::Proposal, early);
    let drawn = drawn(job, flow.width());
    let strip = flow.strip(drawn.size.height);
    let by = Point::new(strip.x + (strip.size.width - drawn.size.width).half(), strip.y);
    flow.push(Role::Drawing(in_words(job.plan, job.figures)), elevation::moved(drawn.items, by));
    for part in parts(job, drawn.scale) {
        match part {
            ProposalPart::Heading(text) => flow.heading(&text),
            ProposalPart::Text(text) => flow.text(BODY, &text),
            ProposalPart::Note(text) => flow.text(NOTE, &text),
            ProposalPart::Caution(text) => flow.caution(&text),
            ProposalPart::Prices(columns, rows) => {
                flow.table(&Table { rows, numbers: 3, ..Table::new(&columns) })
            }
            ProposalPart::Link => to_open(job, &mut flow),
        }
    }
    in_room(job, &mut flow, 0);
    flow.finish()
}

/// What the view in a photograph is.
const IN_ROOM: &str = "The pieces are drawn into the photograph in their size, by a sheet of paper on the wall: some centimetres off far from it, and only roughly in the colours of the room. Measure the wall before you drill.";

/// The pieces in the photograph of a room, as large as a page takes them; the plan's pictures begin at `pictures_from`.
pub(super) fn in_room(job: &Job<'_>, flow: &mut Flow, pictures_from: usize) {
    let Some(px @ (across, down)) = job.in_room.filter(|(across, down)| *across > 0 && *down > 0) else {
        return;
    };
    let full = flow.width();
    let height = full.times_ratio(down.into(), across.into()).min(PHOTOGRAPH);
    let width = height.times_ratio(across.into(), down.into()).min(full);
    flow.need(height + Length::mm(24));
    flow.heading("In the room");
    let strip = flow.strip(height + BELOW);
    let left = strip.x + (strip.size.width - width).half();
    let rect = Rect::new(left, strip.y + BELOW, Size::new(width, height));
    let exact = |px: u32| Exact::from_integer(px.into());
    let whole = Source { left: exact(0), top: exact(0), width: exact(across), height: exact(down) };
    let shows = Some((pictures_from + job.plan.pictures.len(), whole));
    let words = ["In a photograph of the room: ", &in_words(job.plan, job.figures)].said();
    flow.push(Role::Drawing(words), vec![Item::Picture { rect, shows, file_px: px }]);
    flow.text(NOTE, IN_ROOM);
}

/// The wall, no wider than this.
fn drawn(job: &Job<'_>, width: Length) -> elevation::Drawn {
    elevation::dimensioned(job.plan, &job.scene(), Size::new(width, DRAWING), elevation::Manner::Coloured)
}

/// A proposal to be printed otherwise than as a paper of its own: the drawing as a page of its size, and all that is said below it.
#[must_use]
pub fn apart(job: &Job<'_>, width: Length) -> (Page, Vec<ProposalPart>) {
    let drawn = drawn(job, width);
    let block = Block { role: Role::Drawing(in_words(job.plan, job.figures)), items: drawn.items };
    (Page { size: drawn.size, blocks: vec![block] }, parts(job, drawn.scale))
}

/// All that a proposal says below its drawing.
fn parts(job: &Job<'_>, scale: i64) -> Vec<ProposalPart> {
    let mut parts = what_it_is(job, scale);
    price(job, &mut parts);
    parts.extend([ProposalPart::Link, ProposalPart::Heading("Care".to_owned())]);
    for (material, care) in materials(job) {
        parts.push(ProposalPart::Text([capital(material).as_str(), ": ", care, "."].said()));
    }
    let mut terms = job
        .valid_until
        .map_or(String::new(), |date| ["This proposal is valid until ", &written_date(date), ". "].said());
    terms += job.note.trim();
    if !terms.is_empty() {
        parts.extend([ProposalPart::Heading("Terms".to_owned()), ProposalPart::Text(terms)]);
    }
    parts.push(ProposalPart::Note(SIZES.to_owned()));
    parts
}

/// What stands below any drawing of sizes.
pub(super) const SIZES: &str = "Sizes are width by height. The drawing is to scale; colours on a screen and on this paper only come close to those of the print. Inches are rounded to the nearest 1/16, centimetres to the nearest millimetre.";

/// What is drawn and what it is, in sentences, with what should be known before it is ordered.
pub(super) fn what_it_is(job: &Job<'_>, scale: i64) -> Vec<ProposalPart> {
    let Job { plan, figures, .. } = *job;
    let scale = elevation::in_words(scale, plan.units.first);
    let mut parts = vec![ProposalPart::Note(["The wall, flat and to scale, ", &scale, "."].said())];
    let told = match job.reader {
        Reader::Client => spec::short_text(plan, figures, job.stock),
        Reader::Maker => spec::text(plan, figures, job.stock),
    };
    for (heading, paragraphs) in told {
        parts.push(ProposalPart::Heading(heading.to_owned()));
        parts.extend(paragraphs.into_iter().map(ProposalPart::Text));
    }
    to_know(job, &mut parts);
    parts
}

/// What should be known before it is ordered: of a client, what is for her safety.
fn to_know(job: &Job<'_>, parts: &mut Vec<ProposalPart>) {
    let found = crate::findings::findings(job.plan, job.figures, job.stock);
    let is_told = |severity: Severity| match job.reader {
        Reader::Client => severity == Severity::Safety,
        Reader::Maker => severity != Severity::Taste,
    };
    let mut serious: Vec<_> = found.iter().filter(|finding| is_told(finding.severity)).collect();
    crate::order::sort_by_key(&mut serious, |finding| std::cmp::Reverse(finding.severity));
    if serious.is_empty() {
        return;
    }
    parts.push(ProposalPart::Heading("Before you order".to_owned()));
    for finding in serious {
        let authority = finding.authority.words();
        let authority = authority.split(", ").next().unwrap_or(authority);
        let severity = capital(finding.severity.words());
        parts.push(ProposalPart::Caution([&severity, " (", authority, "): ", &finding.sentence].said()));
    }
}

fn price(job: &Job<'_>, parts: &mut Vec<ProposalPart>) {
    let heading = ProposalPart::Heading("Price".to_owned());
    if let Some(lines) = &job.prices {
        if !lines.is_empty() {
            parts.push(heading);
            parts.extend(lines.iter().cloned().map(ProposalPart::Text));
        }
        return;
    }
    let Some(book) = job.book else { return };
    let price = priced(job.plan, job.figures, job.stock, book);
    let mut rows: Vec<Vec<String>> = Vec::new();
    for line in &price.lines {
        rows.push(vec![
            line.name(),
            line.words.clone(),
            line.count.to_string(),
            book.text(line.each),
            book.text(line.all()),
        ]);
    }
    for (what, amount) in price.sums(book) {
        rows.push([&capital(&what), "", "", "", &book.text(amount)].map(str::to_owned).to_vec());
    }
    parts.extend([heading, ProposalPart::Prices(["For", "Size", "Number", "Each", "Total"], rows)]);
    if !price.missing.is_empty() {
        let missing = price.missing_names();
        parts.push(ProposalPart::Caution(
            ["There is no total: the price book has no price for ", &missing, "."].said(),
        ));
    }
    if book.is_example {
        parts.push(ProposalPart::Caution("These prices are an example; nobody sells at them.".to_owned()));
    }
}

/// The least and the most that a module of a QR code measures in print: a phone's camera and a common printer tell half a millimetre
/// well apart (common practice, no source).
const MODULES: [Length; 2] = [Length::micrometres(500), Length::mm(1)];
/// How wide a code is at most, where its modules can be smaller; the words stand beside it.
const CODE: Length = Length::mm(84);
/// Characters of an address that somebody may still type.
const TYPED: usize = 120;

/// The plan as a link, to be opened with a phone.
fn to_open(job: &Job<'_>, flow: &mut Flow) {
    let Some(address) = &job.address else { return };
    let count = address.chars().count().to_string();
    let code = Code::of(address, CODE);
    let side = code.as_ref().map_or(Length::ZERO, Code::side);
    // The heading stays with the code.
    flow.need(side + Length::mm(12));
    flow.heading("See it and change it");
    let Some(code) = code else {
        let words = [
            "The link to this plan has ",
            &count,
            " characters, too many for a QR code; ask for it by message.",
        ];
        return flow.text(BODY, &words.said());
    };
    let (top, left) = (flow.set_in(Length::ZERO), flow.right() - flow.width());
    flow.push(Role::Drawing("The link as a QR code".to_owned()), vec![code.modules(left, top)]);
    flow.set_in(side + Length::mm(3));
    flow.text(BODY, "Point a phone at the code to open this plan. You can look at it and change it for your own wall. Nothing is sent to anybody.");
    if address.len() <= TYPED {
        flow.text(NOTE, address);
    } else {
        flow.text(
            NOTE,
            &["The address has ", &count, " characters, too many to type; the code has all of them."].said(),
        );
    }
    flow.set_in(Length::ZERO);
    flow.go_down(top - side);
}

/// A QR code on paper.
pub(super) struct Code {
    square: CodeSquare,
    module: Length,
}

impl Code {
    /// The code of an address, no wider than this where its modules can be so small; none where the address is too long for one.
    pub(super) fn of(address: &str, width: Length) -> Option<Self> {
        let square = CodeSquare::of(address)?;
        let module = width.times_ratio(1, i64::from(square.side())).clamp(MODULES[0], MODULES[1]);
        Some(Self { square, module })
    }

    /// How wide and high it is, with the quiet modules round it.
    pub(super) fn side(&self) -> Length {
        self.module * i64::from(self.square.side())
    }

    /// Its dark modules, where its upper left corner, with the quiet ones, is here.
    pub(super) fn modules(&self, left: Length, top: Length) -> Item {
        let mut path = Vec::new();
        for outline in self.square.outlines() {
            let corners = outline.iter().map(|&[across, down]| {
                Point::new(left + self.module * i64::from(across), top - self.module * i64::from(down))
            });
            for (index, corner) in corners.enumerate() {
                path.push(if index == 0 { Step::Move(corner) } else { Step::Line(corner) });
            }
            path.push(Step::Close);
        }
        Item::Shape { path, fill: Some(INK), line: None }
    }
}

/// The materials of the plan, each once, with what it asks for.
pub(super) fn materials(job: &Job<'_>) -> Vec<(&'static str, &'static str)> {
    let mut found: Vec<(&str, &str)> = Vec::new();
    for piece in &job.plan.pieces {
        let material = match &piece.finish {
            Finish::Paper(_) => "paper",
            Finish::Canvas(_) => "canvas",
            Finish::Aluminium(_) => "aluminium",
            Finish::Original(_) => "original",
        };
        if found.iter().all(|known| known.0 != material) {
            found.push((material, care_of(material).unwrap_or_default()));
        }
    }
    found
}
