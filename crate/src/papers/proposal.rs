//! The proposal: the wall to scale, what is proposed in sentences, what it costs, how fine it is and how it is cared for.

use super::Said;
use super::flow::{BODY, Flow, NOTE, Table};
use super::sheet::{INK, Item, Page, Role, Step};
use super::{Job, Kind, elevation, written_date};
use crate::findings::{About, Severity};
use crate::geometry::{Point, Size};
use crate::length::Length;
use crate::link::CodeSquare;
use crate::plan::Finish;
use crate::prices::{care_of, priced};
use crate::scene::in_words;
use crate::spec;

/// How high the drawing is at the most, with its dimension lines.
const DRAWING: Length = Length::mm(150);

pub(super) fn pages(job: &Job<'_>) -> Vec<Page> {
    let Job { plan, figures, .. } = *job;
    let mut flow = Flow::new(job, Kind::Proposal.title());
    let drawn = elevation::dimensioned(plan, &job.scene(), Size::new(flow.width(), DRAWING));
    let strip = flow.strip(drawn.size.height);
    let by = Point::new(strip.x + (strip.size.width - drawn.size.width).half(), strip.y);
    flow.push(Role::Drawing(in_words(plan, figures)), elevation::moved(drawn.items, by));
    let scale = elevation::in_words(drawn.scale, plan.units.first);
    flow.text(NOTE, &["The wall in elevation, ", &scale, "."].said());
    sentences(job, &mut flow);
    to_know(job, &mut flow);
    price(job, &mut flow);
    to_open(job, &mut flow);
    flow.heading("Care");
    for (material, care) in materials(job) {
        flow.text(BODY, &[capital(material).as_str(), ": ", care, "."].said());
    }
    let mut terms = job
        .valid_until
        .map_or(String::new(), |date| ["This proposal holds until ", &written_date(date), ". "].said());
    terms += job.note.trim();
    if !terms.is_empty() {
        flow.heading("Terms");
        flow.text(BODY, &terms);
    }
    flow.text(NOTE, "Sizes are width by height. The drawing is true to scale; colours on a screen and on this paper only come near to those of the print. Inches are to the nearest 1/16, centimetres to the nearest millimetre.");
    flow.finish()
}

/// The specification, as it is read aloud.
fn sentences(job: &Job<'_>, flow: &mut Flow) {
    let Job { plan, figures, stock, .. } = *job;
    let told = [About::Wall, About::Fixtures, About::Picture, About::Made, About::Hanging];
    for paragraph in spec::specification(plan, figures, stock, None) {
        let is_empty = paragraph.about == About::Fixtures && plan.fixtures.is_empty();
        if !told.contains(&paragraph.about) || is_empty {
            continue;
        }
        flow.heading(paragraph.heading);
        if paragraph.about == About::Made && !spec::alike(plan) {
            for index in 0..plan.pieces.len() {
                let own = spec::specification(plan, figures, stock, Some(index));
                for made in own.iter().filter(|own| own.about == About::Made) {
                    flow.text(BODY, &spec::in_plain_words(plan, stock, &made.runs));
                }
            }
        } else {
            flow.text(BODY, &spec::in_plain_words(plan, stock, &paragraph.runs));
        }
    }
}

/// What a buyer should know before it is ordered.
fn to_know(job: &Job<'_>, flow: &mut Flow) {
    let found = crate::findings::findings(job.plan, job.figures, job.stock);
    let mut serious: Vec<_> = found.iter().filter(|finding| finding.severity != Severity::Taste).collect();
    crate::order::sort_by_key(&mut serious, |finding| std::cmp::Reverse(finding.severity));
    if serious.is_empty() {
        return;
    }
    flow.heading("To know before it is ordered");
    for finding in serious {
        let words = [capital(finding.severity.words()).as_str(), ": ", &finding.sentence].said();
        flow.caution(&[&words, " (", finding.authority.words(), ")"].said());
    }
}

fn price(job: &Job<'_>, flow: &mut Flow) {
    let Some(book) = job.book else { return };
    let price = priced(job.plan, job.figures, job.stock, book);
    flow.heading("Price");
    let mut table = Table::new(&["For", "Size", "Number", "Each", "Together"]);
    table.numbers = 3;
    for line in &price.lines {
        table.rows.push(vec![
            line.part.name().to_owned(),
            line.words.clone(),
            line.count.to_string(),
            book.told(line.each),
            book.told(line.each * line.count),
        ]);
    }
    let mut sum = |what: &str, amount: i64| {
        table.rows.push([what, "", "", "", &book.told(amount)].map(str::to_owned).to_vec());
    };
    if let Some(tax) = book.tax {
        sum("Sum", price.sum);
        sum(if tax.is_included { "Tax within it" } else { "Tax" }, price.tax);
    }
    sum("To pay", price.total);
    flow.table(&table);
    if !price.unpriced.is_empty() {
        let missing = price.unpriced.join(", ");
        flow.caution(&["Not in this price, since the price book names none: ", &missing, "."].said());
    }
    if book.is_example {
        flow.caution("The prices are an example; nobody sells at them.");
    }
}

/// The least and the most that a module of a QR code measures in print: a phone's camera and a common printer tell half a millimetre
/// well apart (common practice, no source).
const MODULES: [Length; 2] = [Length::micrometres(500), Length::mm(1)];
/// How wide a code is at the most, where its modules can be smaller; the words stand beside it.
const CODE: Length = Length::mm(84);
/// Characters of an address that somebody may still type.
const TYPED: usize = 120;

/// The plan as a link, to be opened with a phone.
fn to_open(job: &Job<'_>, flow: &mut Flow) {
    let Some(address) = &job.address else { return };
    let count = address.chars().count().to_string();
    let square = CodeSquare::of(address);
    let module = square.as_ref().map_or(MODULES[0], |square| {
        CODE.times_ratio(1, i64::from(square.side())).clamp(MODULES[0], MODULES[1])
    });
    let side = square.as_ref().map_or(Length::ZERO, |square| module * i64::from(square.side()));
    // The heading stays with the code.
    flow.need(side + Length::mm(12));
    flow.heading("To see it and to change it");
    let Some(square) = square else {
        let words = [
            "The link of this plan has ",
            &count,
            " characters, too many for a QR code; ask for it as a message.",
        ];
        return flow.text(BODY, &words.said());
    };
    let (top, left) = (flow.set_in(Length::ZERO), flow.right() - flow.width());
    flow.push(Role::Drawing("The link as a QR code".to_owned()), vec![modules(&square, module, left, top)]);
    flow.set_in(side + Length::mm(3));
    flow.text(BODY, "Point a phone at the code: it opens this very plan, to be looked at and changed on a wall of your own. Nothing of it is sent to anybody.");
    if address.len() <= TYPED {
        flow.text(NOTE, address);
    } else {
        flow.text(
            NOTE,
            &["The address has ", &count, " characters, too many to be typed; all of them are in the code."]
                .said(),
        );
    }
    flow.set_in(Length::ZERO);
    flow.go_down(top - side);
}

/// The dark modules of a code whose upper left corner, with the quiet ones, is here.
fn modules(square: &CodeSquare, module: Length, left: Length, top: Length) -> Item {
    let mut path = Vec::new();
    for outline in square.outlines() {
        let corners = outline.iter().map(|&[across, down]| {
            Point::new(left + module * i64::from(across), top - module * i64::from(down))
        });
        for (index, corner) in corners.enumerate() {
            path.push(if index == 0 { Step::Move(corner) } else { Step::Line(corner) });
        }
        path.push(Step::Close);
    }
    Item::Shape { path, fill: Some(INK), line: None }
}

/// The materials of the plan, each once, with what it asks for.
fn materials(job: &Job<'_>) -> Vec<(&'static str, &'static str)> {
    let mut found: Vec<(&str, &str)> = Vec::new();
    for piece in &job.plan.pieces {
        let material = match &piece.finish {
            Finish::Paper(_) => "paper",
            Finish::Canvas(_) => "canvas",
            Finish::Aluminium(_) => "aluminium",
            Finish::Original(_) => "original",
        };
        if found.iter().all(|known| known.0 != material) {
            found.push((material, care_of(material).unwrap_or("as its painter says")));
        }
    }
    found
}

/// With a capital at its beginning.
pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
