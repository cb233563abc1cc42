//! The specification in short: what a buyer decides, in the order in which she decides it, and what comes of it.
//!
//! At most [`MOST_FIELDS`] fields. All of them are fields of the same plan, so that what is changed here shows in full.

use super::few_words::{each_once, make_up};
use super::{Run, Writer, alike};
use crate::field::{self, Field};
use crate::figures::Figures;
use crate::findings::About;
use crate::geometry::Size;
use crate::length::Length;
use crate::making::things;
use crate::measure::{self, Grade, shown, shown_size};
use crate::plan::{self, Built, Finish, Fixture, Framing, GroupAcross, GroupUp, Plan};
use crate::prices::{Book, priced};
use crate::print::merging_distance;
use crate::stock::Stock;
use crate::terms::Term;
use crate::words::with_article;

/// So many fields are in it at most.
pub const MOST_FIELDS: usize = 14;

/// A sentence or two of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it is about.
    pub about: About,
    /// Its parts.
    pub runs: Vec<Run>,
}

/// The specification in short, without what comes of it.
#[must_use]
pub fn short(plan: &Plan) -> Vec<Line> {
    let lines = [
        (About::Picture, pictures(plan)),
        (About::Made, how_made(plan)),
        (About::Hanging, hung(plan)),
        (About::Wall, wall()),
        (About::Fixtures, fixtures(plan)),
    ];
    lines.into_iter().map(|(about, writer)| Line { about, runs: writer.0 }).collect()
}

/// What comes of a plan, in a line: outside size, depth, weight, how near it is sharp, and the price where there is a book.
#[must_use]
pub fn result(plan: &Plan, figures: &Figures, stock: &Stock, book: Option<&Book>) -> Vec<Run> {
    let mut writer = Writer::default();
    let mut outsides: Vec<Size> = Vec::new();
    for sizes in hung_sizes(plan, figures) {
        if !outsides.contains(&sizes) {
            outsides.push(sizes);
        }
    }
    let several = plan.pieces.len() > 1 && plan.shared.is_none();
    writer.text(if several && outsides.len() == 1 { "Each is " } else { "Outside " });
    for (index, &size) in outsides.iter().enumerate() {
        writer.text(if index == 0 { "" } else { ", " }).size(size, plan.units);
    }
    writer.text(if several && outsides.len() == 1 { " outside, " } else { ", " });
    let depth = figures.build_ups.iter().map(|sizes| sizes.depth).max().unwrap_or_default();
    writer.length(depth, plan.units).text(" deep");
    let weights = weights(plan, figures, stock);
    if !weights.is_empty() {
        let is_each = several && weights.len() == 1 && outsides.len() > 1;
        writer.text(", about ").plain_figure(weights.join(" and ")).text(if is_each { " each" } else { "" });
    }
    if several {
        let wide = figures.arranged.group.size.width;
        writer.text("; together ").lengths(&[wide], Grade::Room, plan.units).text(" wide");
    }
    writer.text(".");
    if let Some(near) = sharp_from(plan, figures) {
        writer.text(" Sharp from ").plain_figure(measure::from_afar(near, plan.units)).text(" away.");
    }
    if let Some(book) = book {
        let price = priced(plan, figures, stock, book);
        match price.totals {
            Some(totals) => writer.text(" Price ").plain_figure(book.text(totals.total)).text("."),
            None => writer.text(" The price book has no price for ").text(&price.missing_names()).text("."),
        };
    }
    writer.0
}

/// About what each thing that hangs weighs, those that are alike once; empty where none is known.
pub(crate) fn weights(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<String> {
    let known = things(plan, figures, stock).into_iter().filter(|thing| thing.mass.likely_mg > 0);
    each_once(known.map(|thing| measure::weight_likely(thing.mass, plan.units)))
}

/// The outside of what hangs: of all pieces, or of the one frame that they have in common.
fn hung_sizes(plan: &Plan, figures: &Figures) -> Vec<Size> {
    let count = if plan.shared.is_some() { 1 } else { figures.arranged.outsides.len() };
    figures.arranged.outsides.iter().take(count).map(|place| place.size).collect()
}

/// From where the coarsest of the prints is sharp.
pub(crate) fn sharp_from(plan: &Plan, figures: &Figures) -> Option<Length> {
    let prints = plan.pieces.iter().zip(&figures.cuts).filter(|(piece, _)| !piece.finish.is_original());
    let worst = prints.filter_map(|(_, cut)| cut.as_ref().map(|cut| cut.pixels_per_inch)).min()?;
    Some(merging_distance(worst))
}

fn pictures(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    writer.text("Hang ").field(&field::PIECES_SHOWN);
    if plan.pictures.is_empty() {
        writer.text(". Choose your pictures, or drop them on the drawing.");
        return writer;
    }
    writer.text(": ");
    if plan.split.is_some() {
        writer.picture(plan, &plan::SPLIT_PICTURE).text(".");
        return writer;
    }
    for index in 0..plan.pieces.len() {
        writer.text(match (index, index + 1 == plan.pieces.len()) {
            (0, _) => "",
            (_, false) => ", ",
            (_, true) => " and ",
        });
        writer.picture(plan, Field::piece(&plan::PIECE_PICTURE, index));
    }
    writer.text(".");
    writer
}

/// The pieces that differ in size, each first of its kind.
fn sizes_apart(plan: &Plan) -> Vec<usize> {
    let mut found: Vec<usize> = Vec::new();
    for (index, piece) in plan.pieces.iter().enumerate() {
        if !found.iter().any(|&known| plan.pieces[known].image == piece.image) {
            found.push(index);
        }
    }
    found
}

fn how_made(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    let apart = sizes_apart(plan);
    if let [_] = apart[..] {
        writer
            .text(if plan.pieces.len() > 1 { "Each " } else { "" })
            .field(Field::pieces(&plan::PIECE_IMAGE));
    } else {
        // The first two can be changed here, the third in full.
        for (count, &index) in apart.iter().enumerate() {
            writer.text(if count == 0 { "" } else { ", " });
            if count < 2 {
                writer.field(Field::piece(&plan::PIECE_IMAGE, index));
            } else {
                writer.size(plan.pieces[index].image, plan.units);
            }
        }
    }
    let is_original = plan.pieces[0].finish.is_original();
    writer.text(if is_original { ", " } else { " on " });
    writer.field(Field::pieces(&plan::PIECE_MATERIAL)).text(". ");
    let all = Field::pieces;
    match &plan.pieces[0].finish {
        Finish::Canvas(_) => {
            writer.text("Its ").term(Term::Edge).text(": ").field(all(&plan::CANVAS_EDGE));
            writer.text("; frame: ").field(all(&field::FLOATER_LOOK));
        }
        Finish::Aluminium(sheet) => {
            writer.text("No frame: it floats ");
            writer.length(sheet.stand_off, plan.units).text(" ").term(Term::StandOff);
        }
        Finish::Original(original) if original.framing == Framing::NONE => {
            writer.text("Frame: ").field(all(&field::FLOATER_LOOK));
        }
        Finish::Paper(_) | Finish::Original(_) => {
            writer
                .text("Frame: ")
                .field(all(&field::FRAME_LOOK))
                .text("; ")
                .term(Term::Mat)
                .text(": ")
                .field(all(&field::MAT_LOOK));
        }
    }
    writer.text(".");
    if !alike(plan) && apart.len() == 1 {
        writer.text(" The pieces differ; this is the first.");
    }
    writer
}

fn hung(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    let one = plan.pieces.len() == 1 || plan.shared.is_some();
    writer.text(if one { "It hangs " } else { "They hang " }).field(&field::GROUP_PLACE).text(".");
    writer
}

fn wall() -> Writer {
    let mut writer = Writer::default();
    writer.text("The wall is ").field(&plan::WALL_SIZE).text(", ").field(&plan::WALL_PAINT).text(".");
    writer
}

/// The fixture that a buyer knows her room by: the one that the pieces hang above, or the first that stands there.
fn main_fixture(plan: &Plan) -> Option<usize> {
    match (plan.group.up, plan.group.across) {
        (GroupUp::Above { fixture, .. }, _) | (_, GroupAcross::FixtureMiddle(fixture)) => Some(fixture),
        _ => plan.fixtures.iter().position(|fixture| fixture.kind.stands_before_wall()),
    }
}

fn fixtures(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    let main = main_fixture(plan).filter(|&main| main < plan.fixtures.len());
    // Sizes that differ have a field more.
    let is_full = sizes_apart(plan).len() > 1;
    if let Some(index) = main {
        writer.text("There is ");
        if is_full {
            writer.text(&with_article(&plan.fixtures[index].name));
        } else {
            writer.text("a ").field(Field::fixture(&plan::FIXTURE_KIND, index));
        }
        writer.text(", ").field(Field::fixture(&plan::FIXTURE_WIDTH, index)).text(" wide");
    }
    let rest: Vec<&Fixture> = plan
        .fixtures
        .iter()
        .enumerate()
        .filter(|(index, _)| Some(*index) != main)
        .map(|(_, one)| one)
        .collect();
    match (&rest[..], main.is_some()) {
        ([], true) => {}
        ([], false) => {
            writer.text("Nothing stands there yet");
        }
        (rest, has_main) => {
            let is_one = rest.len() == 1;
            let begins = ["There are ", "There is "][usize::from(is_one || names_in_words(rest)[0].1 == 1)];
            writer.text(if has_main { "; also " } else { begins }).text(&some_of(rest));
        }
    }
    writer.text(". ").field(&field::FIXTURES_ADD);
    writer
}

/// What stands there as a sentence names it, and how many that are: `a light switch`, `two sockets`. Those of one kind that have no
/// name of their own are told together.
fn names_in_words(fixtures: &[&Fixture]) -> Vec<(String, usize)> {
    let is_plain = |one: &Fixture| {
        one.name.strip_prefix(one.kind.name()).is_some_and(|rest| {
            rest.is_empty() || rest.strip_prefix(' ').is_some_and(|number| number.parse::<u8>().is_ok())
        })
    };
    let mut names = Vec::new();
    for (index, one) in fixtures.iter().enumerate() {
        let alike = |other: &&&Fixture| is_plain(other) && other.kind == one.kind;
        let count = if is_plain(one) { fixtures.iter().filter(alike).count() } else { 1 };
        if is_plain(one) && fixtures[..index].iter().any(|other| alike(&other)) {
            continue;
        }
        names.push(match count {
            1 if is_plain(one) => (with_article(one.kind.name()), 1),
            1 => (with_article(&one.name), 1),
            2 => (["two ", &one.kind.names()].concat(), 2),
            _ => ([&count.to_string(), " ", &one.kind.names()].concat(), count),
        });
    }
    names
}

/// The first few of what stands there, and how many more there are.
fn some_of(fixtures: &[&Fixture]) -> String {
    let names = names_in_words(fixtures);
    match &names[..] {
        [] => String::new(),
        [(only, _)] => only.clone(),
        [(first, _), (second, _)] => [first, " and ", second].concat(),
        [(first, told), ..] => [first, " and ", &(fixtures.len() - told).to_string(), " more"].concat(),
    }
}

/// A paragraph of the full specification in a line, for when it is closed.
pub(super) fn line(plan: &Plan, figures: &Figures, about: About, read: &dyn Fn(Field) -> String) -> String {
    match about {
        About::Wall => {
            let size = measure::size(plan.wall.size, Grade::Room, plan.units.first).text;
            [&size, ", ", &read(Field::from(&plan::WALL_PAINT))].concat()
        }
        About::Fixtures if plan.fixtures.is_empty() => "nothing yet".to_owned(),
        About::Fixtures => some_of(&plan.fixtures.iter().collect::<Vec<_>>()),
        About::Picture => {
            let shown = read(Field::from(&field::PIECES_SHOWN));
            match sharp_from(plan, figures) {
                Some(near) => {
                    [&shown, ", sharp from ", &measure::from_afar(near, plan.units), " away"].concat()
                }
                None => shown,
            }
        }
        About::Fit => match (plan.in_hand, plan.space) {
            (None, None) => "a frame you already have, or a space to fill".to_owned(),
            (Some(frame), _) => ["a frame of ", &shown_size(frame.size, plan.units)].concat(),
            (_, Some(space)) => ["a space of ", &shown_size(space, plan.units)].concat(),
        },
        About::Made => {
            let image = shown_size(plan.pieces[0].image, plan.units);
            [&image, ", ", &make_up(plan, figures, 0)].concat()
        }
        About::Hanging => {
            let centre = figures.arranged.group.centre().y;
            [&read(Field::from(&field::GROUP_PLACE)), ", centre ", &shown_at(centre, plan), " from the floor"]
                .concat()
        }
        About::Site => {
            let built = match plan.site.built {
                Built::Unstated => "what the wall is made of is not known yet".to_owned(),
                _ => ["a wall ", &read(Field::from(&plan::SITE_WALL))].concat(),
            };
            [&built, ", ", &read(Field::from(&plan::SITE_SUN))].concat()
        }
    }
}

fn shown_at(length: Length, plan: &Plan) -> String {
    shown(length, Grade::Piece, plan.units)
}
