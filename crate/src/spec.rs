//! The specification: the plan in sentences that can be read aloud, with its fields in the line.
//!
//! The same sentences without their fields are the order text.
//!
//! ```
//! use overmantel::{figures::Figures, plan::Plan, spec, stock::Stock};
//! let plan = Plan::starting();
//! let text = spec::order_text(&plan, &Figures::of(&plan).unwrap(), &Stock::offered());
//! assert!(text.contains("The wall is 12' 0\" wide and 8' 0\" high"));
//! ```

use crate::field::{self, Field};
use crate::fields;
use crate::figures::Figures;
use crate::findings::{About, Finding};
use crate::geometry::Size;
use crate::hang::Hanging;
use crate::length::Length;
use crate::making;
use crate::measure::{self, Grade, shown, shown_size};
use crate::mend;
use crate::plan::{self, Arrangement, GroupAcross, GroupUp, Hanger, Plan, Signature, Units};
use crate::stock::Stock;
use crate::terms::Term;
use crate::words::in_units;
use pictured::{named, percent, pictures, sharpness, subjects};
use room::{fixtures, wall};

mod fit;
pub mod few_words;
pub mod lists;
mod made;
mod pictured;
pub mod priced;
mod room;
pub mod short;
pub mod table;
mod text;

pub use text::{short_text, text};

/// A part of a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Run {
    /// Words.
    Text(String),
    /// A figure that follows from the plan.
    Figure {
        /// The figure.
        text: String,
        /// Whether it is rounded.
        rounded: bool,
    },
    /// A field.
    Field(Field),
    /// A term of the trade, where it first stands.
    Term(Term),
    /// Words that take something into the plan when they are pressed.
    Offer {
        /// The words.
        words: String,
        /// The field to write to.
        field: Field,
        /// What to write.
        text: String,
    },
}

/// Some sentences under a heading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paragraph {
    /// What it is about.
    pub about: About,
    /// Its heading.
    pub heading: &'static str,
    /// Its sentences.
    pub runs: Vec<Run>,
    /// What is unwise in it.
    pub findings: Vec<Finding>,
    /// What it says, in a line: for when it is closed.
    pub line: String,
}

/// Collects the parts of a paragraph.
#[derive(Default)]
struct Writer(Vec<Run>);

impl Writer {
    fn text(&mut self, text: &str) -> &mut Self {
        if let Some(Run::Text(last)) = self.0.last_mut() {
            last.push_str(text);
        } else {
            self.0.push(Run::Text(text.to_owned()));
        }
        self
    }

    /// A term of the trade: it is explained where it first stands.
    fn term(&mut self, term: Term) -> &mut Self {
        self.0.push(Run::Term(term));
        self
    }

    fn field(&mut self, field: impl Into<Field>) -> &mut Self {
        self.0.push(Run::Field(field.into()));
        self
    }

    /// A figure that is no length.
    fn plain_figure(&mut self, text: impl Into<String>) -> &mut Self {
        self.0.push(Run::Figure { text: text.into(), rounded: false });
        self
    }

    /// Lengths in a row, in the units of the plan: `A, B and C`.
    fn lengths(&mut self, lengths: &[Length], grade: Grade, units: Units) -> &mut Self {
        let mut text = String::new();
        for (left, &length) in (0..lengths.len()).rev().zip(lengths) {
            text += match left {
                _ if text.is_empty() => "",
                0 => " and ",
                _ => ", ",
            };
            text += &shown(length, grade, units);
        }
        let rounded = lengths.iter().any(|&length| measure::is_rounded(length, grade, units));
        self.0.push(Run::Figure { text, rounded });
        self
    }

    /// Words to press.
    fn offer(&mut self, words: impl Into<String>, field: impl Into<Field>, text: &str) -> &mut Self {
        self.0.push(Run::Offer { words: words.into(), field: field.into(), text: text.to_owned() });
        self
    }

    fn length(&mut self, length: Length, units: Units) -> &mut Self {
        self.lengths(&[length], Grade::Piece, units)
    }

    fn size(&mut self, size: Size, units: Units) -> &mut Self {
        let rounded =
            [size.width, size.height].iter().any(|&length| measure::is_rounded(length, Grade::Piece, units));
        self.0.push(Run::Figure { text: shown_size(size, units), rounded });
        self
    }
}

/// The specification, with what a stock offers. With `piece` the sentences on how it is made are about that piece alone, otherwise about all.
#[must_use]
pub fn specification(plan: &Plan, figures: &Figures, stock: &Stock, piece: Option<usize>) -> Vec<Paragraph> {
    let mut found = mend::findings(plan, figures, stock);
    let paragraph = |(about, heading, writer): (About, &'static str, Writer)| {
        let (own, rest) = found.drain(..).partition(|finding| finding.about == about);
        found = rest;
        let line = short::line(plan, figures, about, &|field| {
            fields::read(plan, stock, field).map_or(String::new(), |value| value.text)
        });
        Paragraph { about, heading, runs: writer.0, findings: own, line }
    };
    let mut paragraphs: Vec<Paragraph> =
        written(plan, figures, stock, piece).into_iter().map(paragraph).collect();
    let mut known = Vec::new();
    paragraphs.iter_mut().for_each(|paragraph| explain_once(&mut paragraph.runs, &mut known, plan.units));
    paragraphs
}

/// Leaves a term as one where it stands first; after that it is a word like any other.
fn explain_once(runs: &mut Vec<Run>, known: &mut Vec<Term>, units: Units) {
    let mut written = Writer::default();
    for run in std::mem::take(runs) {
        match run {
            Run::Term(term) if known.contains(&term) => {
                written.text(&term.words(units));
            }
            Run::Text(words) => {
                written.text(&words);
            }
            run => {
                known.extend(if let Run::Term(term) = run { Some(term) } else { None });
                written.0.push(run);
            }
        }
    }
    *runs = written.0;
}

/// The fields in the specification, in its order.
pub(crate) fn fields_in(
    plan: &Plan,
    figures: &Figures,
    stock: &Stock,
    piece: Option<usize>,
) -> impl Iterator<Item = Field> {
    let runs = written(plan, figures, stock, piece).into_iter().flat_map(|(_, _, writer)| writer.0);
    runs.filter_map(|run| if let Run::Field(field) = run { Some(field) } else { None })
}

/// With a capital at its beginning.
pub(crate) fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    words.get_mut(..1).into_iter().for_each(str::make_ascii_uppercase);
    words
}

/// What stands over each paragraph.
fn headings(plan: &Plan) -> [&'static str; 7] {
    let is_one = plan.pieces.len() == 1;
    let pictured = if is_one || plan.split.is_some() { "The picture" } else { "The pictures" };
    let hung = if is_one || plan.shared.is_some() { "How it hangs" } else { "How they hang" };
    let made = if is_one { "How it is made" } else { "How each is made" };
    [
        "The wall",
        "What is on the wall and in front of it",
        pictured,
        "What fits",
        made,
        hung,
        "The place and the way there",
    ]
}

fn written(
    plan: &Plan,
    figures: &Figures,
    stock: &Stock,
    piece: Option<usize>,
) -> [(About, &'static str, Writer); 7] {
    let heading = headings(plan);
    [
        (About::Wall, heading[0], wall(plan)),
        (About::Fixtures, heading[1], fixtures(plan)),
        (About::Picture, heading[2], pictures(plan, figures)),
        (About::Fit, heading[3], fit::fitting(plan, figures, piece)),
        (About::Made, heading[4], made(plan, figures, stock, piece)),
        (About::Hanging, heading[5], hanging(plan, figures)),
        (About::Site, heading[6], site(plan)),
    ]
}

fn made(plan: &Plan, figures: &Figures, stock: &Stock, chosen: Option<usize>) -> Writer {
    let index = chosen.unwrap_or(0).min(plan.pieces.len() - 1);
    let (piece, sizes) = (&plan.pieces[index], &figures.build_ups[index]);
    let field = |row| Field::chosen(row, chosen);
    let mut writer = Writer::default();
    if plan.pieces.len() > 1 && chosen.is_none() {
        writer.text("The pieces are ").field(&plan::SHARED);
        if plan.shared.is_some() {
            writer
                .text(", with the openings in ")
                .field(&plan::GROUP_ARRANGEMENT)
                .text(", ")
                .field(&plan::GROUP_ALIGN);
            writer.text(" in line, with ").field(&plan::SHARED_BAR).text(" of board between them");
        }
        writer.text(". ");
    }
    match chosen {
        Some(index) if plan.pieces.len() > 1 => writer.text(&format!("Piece {}: ", index + 1)),
        _ => &mut writer,
    };
    writer.text(if piece.finish.is_original() { "It is " } else { "Printed " });
    writer.field(field(&plan::PIECE_IMAGE)).text(if piece.finish.is_original() { ", " } else { " on " });
    writer.field(field(&plan::PIECE_MATERIAL));
    made::finish(piece, sizes, plan.units, &field, &mut writer);
    writer.text(". Outside ").size(sizes.outside, plan.units);
    writer.text(", ").length(sizes.depth, plan.units).text(" deep");
    if let Some(frame) = &sizes.frame {
        writer.text("; order the frame as ").size(frame.nominal, plan.units);
    }
    if let Some(cloth) = sizes.cloth {
        writer.text("; cut the canvas to ").size(cloth, plan.units);
    }
    weight(plan, figures, stock, index, &mut writer);
    writer.text(".");
    if chosen.is_none() && !alike(plan) {
        writer.text(" The pieces differ; this is the first. What you change here changes in all of them.");
    }
    writer
}

/// The thing that hangs of which a piece is, where any of it can be weighed.
pub(crate) fn weighed(plan: &Plan, figures: &Figures, stock: &Stock, piece: usize) -> Option<making::Thing> {
    let things = making::things(plan, figures, stock);
    things.into_iter().find(|thing| thing.pieces.contains(&piece) && thing.mass.likely_mg > 0)
}

/// What the thing that hangs weighs, with its uncertainty.
fn weight(plan: &Plan, figures: &Figures, stock: &Stock, piece: usize, writer: &mut Writer) {
    let Some(thing) = weighed(plan, figures, stock, piece) else { return };
    let told = measure::weight(thing.mass, plan.units);
    writer.text("; it weighs about ").plain_figure(told);
    if thing.not_weighed.is_empty() {
        writer.text("; weigh it before you hang it");
    } else {
        writer.text(", without ").text(thing.not_weighed);
    }
}

/// Whether all pieces are of one size and one make.
#[must_use]
pub fn alike(plan: &Plan) -> bool {
    plan.pieces
        .iter()
        .all(|piece| (&piece.finish, piece.image) == (&plan.pieces[0].finish, plan.pieces[0].image))
}

fn hanging(plan: &Plan, figures: &Figures) -> Writer {
    let mut writer = hung(plan, figures);
    writer.text(" ");
    hooks(plan, figures, &mut writer);
    writer
}

/// Where they hang and by what, without the places of the hooks.
fn hung(plan: &Plan, figures: &Figures) -> Writer {
    let mut writer = placed(plan, figures);
    fixed(plan, &mut writer);
    writer
}

/// Where the pieces hang.
fn placed(plan: &Plan, figures: &Figures) -> Writer {
    let mut writer = Writer::default();
    let one = plan.pieces.len() == 1 || plan.shared.is_some();
    if one {
        writer.text("It hangs ");
    } else {
        writer.text("They hang in ").field(&plan::GROUP_ARRANGEMENT);
        if let Arrangement::Stepped(_) = plan.group.arrangement {
            writer.text(", each ").field(&plan::GROUP_STEP).text(" higher than the one before");
        }
        writer.text(", with ").field(&plan::GROUP_GAP).text(" between their outside edges, ");
        if !matches!(plan.group.arrangement, Arrangement::Stepped(_)) {
            writer.field(&plan::GROUP_ALIGN).text(" in line, ");
        }
    }
    writer.field(&plan::GROUP_ACROSS);
    if let GroupAcross::CentreAt(_) = plan.group.across {
        writer.text(", its middle at ").field(&field::GROUP_MIDDLE);
    }
    writer.text(", ");
    if let GroupUp::Above { .. } = plan.group.up {
        writer.field(&plan::GROUP_CLEARANCE).text(" ");
    }
    writer.field(&plan::GROUP_UP);
    if let GroupUp::CentreAt(_) = plan.group.up {
        writer.text(" of ").field(&field::GROUP_CENTRE);
    }
    let group = figures.arranged.group;
    writer.text(". The centre is ").length(group.centre().y, plan.units).text(" from the floor.");
    writer
}

/// By what they hang.
fn fixed(plan: &Plan, writer: &mut Writer) {
    let one = plan.pieces.len() == 1 || plan.shared.is_some();
    writer.text(if one { " It hangs by " } else { " Each hangs by " }).field(&plan::FIXING_KIND);
    places(plan.fixing.hanger, writer);
    if let Hanger::Wire { hooks_apart, .. } = plan.fixing.hanger {
        writer.text(", the wire ").field(&plan::FIXING_SLACK).text(" longer than its span");
        if hooks_apart.is_some() {
            writer.text(", the hooks ").field(&plan::FIXING_APART).text(" apart");
        }
    }
    writer.text(".");
}

/// Where the hangers are on the back.
fn places(hanger: Hanger, writer: &mut Writer) {
    let (lead, between) = match hanger {
        Hanger::Rings | Hanger::Wire { .. } => (", the rings ", " down and "),
        Hanger::Keyholes => (", the slots ", " down and "),
        Hanger::Cleat => (", which rests ", " down, its ends "),
        Hanger::Sawtooth => (", its teeth ", " down"),
    };
    writer.text(lead).field(&plan::FIXING_DOWN).text(between);
    if hanger != Hanger::Sawtooth {
        writer.field(&plan::FIXING_FROM_SIDES).text(" in from the sides");
    }
}

fn site(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    let several = plan.pieces.len() > 1 && plan.shared.is_none();
    writer.text("The wall is ").field(&plan::SITE_WAY).text(" ").field(&plan::SITE_GROUND).text(", ");
    writer.field(&plan::SITE_WALL).text(", ").field(&plan::SITE_SUN);
    writer.text(", with ").field(&plan::SITE_OPPOSITE);
    writer
        .text(" and a cornice of ")
        .field(&plan::SITE_CORNICE)
        .text(". Each fixing is ")
        .field(&plan::SITE_RATED);
    writer.text(if several { ". The pieces are " } else { ". The piece is " }).field(&plan::SITE_SIGNATURE);
    if plan.site.signature != Signature::None {
        writer.text(" ").field(&plan::SITE_SIGNATURE_BY);
    }
    writer.text(". On the way there: ");
    let ways = [
        (&plan::SITE_DOOR, &plan::SITE_DOOR_SIZE),
        (&plan::SITE_STAIRS, &plan::SITE_STAIRS_SIZE),
        (&plan::SITE_CAR, &plan::SITE_CAR_SIZE),
    ];
    for (index, (way, size)) in ways.into_iter().enumerate() {
        writer.text(["", ", ", " and "][index]).field(way);
        if plan.site.ways[index].is_some() {
            writer.text(" ").field(size);
        }
    }
    writer.text(".");
    writer
}

/// Where the hooks go, from one corner and the floor: on that point ring, wire, slot or teeth rest.
fn hooks(plan: &Plan, figures: &Figures, writer: &mut Writer) {
    let height = |hung: &Hanging| hung.hooks.first().map_or(Length::ZERO, |hook| hook.y);
    let hanging = if plan.shared.is_some() { &figures.hanging[..1] } else { &figures.hanging };
    let first = hanging.first().map_or(Length::ZERO, height);
    let level = hanging.iter().all(|hung| height(hung) == first);
    let count: usize = hanging.iter().map(|hung| hung.hooks.len()).sum();
    let is_one = count == 1;
    writer.text(match (plan.fixing.hanger, is_one) {
        (Hanger::Rings, _) => "The hooks (where the rings rest) are ",
        (Hanger::Wire { .. }, false) => "The hooks (where the wire rests) are ",
        (Hanger::Wire { .. }, true) => "The hook (where the wire rests) is ",
        (Hanger::Cleat, _) => "On the wall the top edge of the cleat ends ",
        (Hanger::Sawtooth, true) => "The screw (where the teeth rest) is ",
        (Hanger::Sawtooth, false) => "The screws (where the teeth rest) are ",
        (Hanger::Keyholes, _) => "The screws (where the slots rest) are ",
    });
    for (index, hung) in hanging.iter().enumerate() {
        // Where all are level, they are one row.
        let of = if level { hanging } else { std::slice::from_ref(hung) };
        let across: Vec<Length> = of.iter().flat_map(|hung| &hung.hooks).map(|hook| hook.x).collect();
        writer.text(if index == 0 { "" } else { "; " }).lengths(&across, Grade::Piece, plan.units);
        writer.text(if index == 0 { " from the left corner" } else { "" });
        if level {
            break;
        }
        writer.text(", ").length(height(hung), plan.units);
        writer.text(if index == 0 { " from the floor" } else { " up" });
    }
    if level {
        let lead = match count {
            1 => ", ",
            2 => ", both ",
            _ => ", all ",
        };
        writer.text(lead).length(first, plan.units).text(" from the floor");
    }
    writer.text(".");
}

/// The cautions that go with every plan.
pub const CAUTION: &str = "Before drilling: cables and pipes often run straight up, down and across from switches, \
sockets and radiators. Use fixings rated for your wall and for at least twice the weight, and two of them above about \
5 kg (11 lb) or 61 cm (24 in) wide. Above a bed or a seat, acrylic is safer than glass, and closed hooks are safer than open ones. In public \
corridors local rules limit how far a piece may project. Local codes and licensed practice come first.";

/// The specification as plain text, for an order or a letter: every piece by itself where they differ, and all its sizes.
#[must_use]
pub fn order_text(plan: &Plan, figures: &Figures, stock: &Stock) -> String {
    let mut text = format!("{}\n", plan.title);
    for paragraph in specification(plan, figures, stock, None) {
        text += &format!("\n{}\n", paragraph.heading);
        if paragraph.about == About::Made && !alike(plan) {
            for index in 0..plan.pieces.len() {
                text += &in_plain_words(plan, stock, &made(plan, figures, stock, Some(index)).0);
            }
        } else {
            text += &in_plain_words(plan, stock, &paragraph.runs);
        }
        for finding in &paragraph.findings {
            let (severity, authority) = (finding.severity.words(), finding.authority.words());
            text += &format!("  Note ({severity}): {} ({authority})\n", finding.sentence);
        }
    }
    for index in 0..if alike(plan) { 1 } else { plan.pieces.len() } {
        text += "\nSizes";
        if !alike(plan) {
            text += &format!(" of piece {}", index + 1);
        }
        text += "\n";
        for row in table::table(figures, index) {
            let [term, meaning] = [row.term, row.meaning].map(|words| in_units(words, plan.units.first));
            text += &format!("  {}: {} / {} ({})\n", term, row.inches, row.centimetres, meaning);
        }
    }
    for chosen in if alike(plan) { vec![None] } else { (0..plan.pieces.len()).map(Some).collect() } {
        for list in lists::cuts(plan, figures, stock, chosen) {
            text += &format!("\n{}\n", list.caption);
            for row in &list.rows {
                let named = list.columns.iter().zip(&row.cells).skip(1).filter(|(_, cell)| !cell.is_empty());
                let cells: Vec<String> = if list.columns.len() > 2 {
                    named.map(|(column, cell)| format!("{column} {cell}")).collect()
                } else {
                    named.map(|(_, cell)| cell.clone()).collect()
                };
                text += &format!("  {}: {}\n", row.cells[0], cells.join("; "));
            }
            for note in &list.notes {
                text += &format!("  {note}\n");
            }
        }
    }
    text + "\nInches are rounded to the nearest 1/16, centimetres to the nearest millimetre; thicknesses to 1/64 in or 0.1 mm.\n\n"
        + CAUTION
        + "\n"
}

/// A paragraph without its fields, on a line of its own.
#[must_use]
pub fn in_plain_words(plan: &Plan, stock: &Stock, runs: &[Run]) -> String {
    let words = runs.iter().map(|run| match run {
        Run::Text(words) | Run::Figure { text: words, .. } => words.clone(),
        Run::Field(field) if *field.row == field::FIXTURES_ADD => String::new(),
        Run::Offer { words, .. } => words.clone(),
        Run::Term(term) => term.words(plan.units).into_owned(),
        Run::Field(field) => fields::read(plan, stock, *field).map_or(String::new(), |value| value.text),
    });
    words.collect::<String>().trim_end().to_owned() + "\n"
}
