//! The cut list for the framer: every part, the mats as they are marked, what lies in the rabbet, and sums to check by.

use super::Said;
use super::assembly::{in_words, numbers};
use super::cut::drawn;
use super::elevation::{in_words as scale_in_words, moved};
use super::flow::{BODY, Early, Flow, NOTE, Table};
use super::sheet::{Page, Role};
use super::{Job, Kind};
use crate::cut_list::diagonal;
use crate::figures::Figures;
use crate::geometry::{Point, Size};
use crate::length::Length;
use crate::making::{Thing, things};
use crate::measure::{self, Grade, print_in};
use crate::plan::{Plan, System, Units};
use crate::scene::section::{Section, section};
use crate::spec::alike;
use crate::spec::capital;
use crate::spec::lists::{List, cuts};
use crate::words::in_units;

pub(super) fn pages(job: &Job<'_>, early: Early) -> Vec<Page> {
    let Job { figures, stock, .. } = *job;
    // Whoever cuts reads either system.
    let plan = &Plan { units: Units { both: true, ..job.plan.units }, ..job.plan.clone() };
    let mut flow = Flow::new(job, Kind::Cuts, early);
    let things = things(plan, figures, stock);
    let is_one = things.len() == 1 || alike(plan);
    let told: Vec<&Thing> = if is_one { things.iter().take(1).collect() } else { things.iter().collect() };
    let lists: Vec<Vec<List>> = told
        .iter()
        .map(|thing| cuts(plan, figures, stock, if is_one { None } else { thing.pieces.first().copied() }))
        .collect();
    let shared = common_rows(&lists);
    let mut stacks: Vec<(Vec<usize>, Stacked)> = Vec::new();
    for thing in &told {
        if let Some(cut) = thing.pieces.first().and_then(|&piece| stacked(plan, figures, piece)) {
            gather(&mut stacks, thing, cut);
        }
    }
    let whose = |of: &[usize]| if is_one { String::new() } else { in_words(of) };
    for (of, cut) in &stacks {
        stack(plan, cut, &whose(of), &mut flow);
    }
    let mut groups: Vec<(Vec<usize>, &Vec<List>)> = Vec::new();
    for (thing, lists) in told.iter().zip(&lists) {
        let is_same = |known: &&mut (Vec<usize>, &Vec<List>)| {
            known.1.iter().zip(lists).all(|(one, other)| one.rows == other.rows && one.notes == other.notes)
        };
        match groups.iter_mut().find(is_same) {
            Some((of, _)) => of.extend(numbers(&[thing])),
            None => groups.push((numbers(&[thing]), lists)),
        }
    }
    // What a note says of all pieces is said once.
    let mut noted: Vec<&String> = Vec::new();
    for (of, lists) in &groups {
        let each = if of.len() > 1 { ["each of ", &in_words(of)].said() } else { in_words(of) };
        for (index, list) in lists.iter().enumerate() {
            let rows = list.rows.iter().filter(|row| !shared.contains(&row.cells));
            let caption = match (is_one, index) {
                (true, _) => list.caption.clone(),
                (_, 0) => ["Parts of ", &each].said(),
                _ => [&list.caption, ", ", &each].said(),
            };
            let notes: Vec<&String> = list.notes.iter().filter(|note| !noted.contains(note)).collect();
            table(list, rows.map(|row| row.cells.clone()).collect(), &caption, &notes, &mut flow);
            noted.extend(notes);
        }
    }
    let mut squared: Vec<(Vec<usize>, Vec<Vec<String>>)> = Vec::new();
    for thing in &told {
        gather(&mut squared, thing, squares(plan, figures, thing));
    }
    squares_of_all(plan, squared.iter().map(|(of, rows)| (whose(of), rows)), &mut flow);
    if let Some(list) = lists.first().and_then(|lists| lists.last()).filter(|_| !shared.is_empty()) {
        table(list, shared, "To buy for all pieces together", &[], &mut flow);
    }
    flow.heading("Before cutting");
    let is_framed = figures.build_ups.iter().any(|sizes| sizes.frame.is_some());
    let moulding = in_units(", and the moulding's rabbet", plan.units.first);
    flow.text(
        BODY,
        &[
            "Measure the work itself first",
            if is_framed { &moulding } else { "" },
            ": this paper says what was ordered, not what arrived. Cut one piece, try it, then cut the rest. Be careful with blades and glass edges; deburr acrylic and aluminium.",
        ]
        .said(),
    );
    flow.text(NOTE, "Width comes before height. Inches are rounded to the nearest 1/32, thicknesses to 1/64; millimetres to a tenth. Each figure is rounded from the exact length, so sums of rounded figures may be off by one step.");
    flow.finish()
}

/// The rows of the last lists that are the same in all of them, where there are several: what is bought for everything.
fn common_rows(lists: &[Vec<List>]) -> Vec<Vec<String>> {
    let [first, rest @ ..] = lists else { return Vec::new() };
    let Some(list) = first.last().filter(|_| !rest.is_empty()) else { return Vec::new() };
    let is_in = |cells: &Vec<String>, lists: &Vec<List>| {
        lists.last().is_some_and(|list| list.rows.iter().any(|row| row.cells == *cells))
    };
    let rows = list.rows.iter().map(|row| row.cells.clone());
    rows.filter(|cells| rest.iter().all(|lists| is_in(cells, lists))).collect()
}

/// Puts what is told of a thing with what is the same of others, if there is any.
fn gather<T: PartialEq>(all: &mut Vec<(Vec<usize>, T)>, thing: &Thing, one: T) {
    match all.iter_mut().find(|(_, known)| *known == one) {
        Some((of, _)) => of.extend(numbers(&[thing])),
        None => all.push((numbers(&[thing]), one)),
    }
}

fn table(list: &List, rows: Vec<Vec<String>>, caption: &str, notes: &[&String], flow: &mut Flow) {
    flow.titled(caption, &Table { rows, ..Table::new(&list.columns) });
    for note in notes {
        flow.text(NOTE, note);
    }
}

/// A section, and what lies in the rabbet against how deep that is.
#[derive(PartialEq)]
struct Stacked {
    cut: Section,
    rows: Vec<Vec<String>>,
}

fn stacked(plan: &Plan, figures: &Figures, piece: usize) -> Option<Stacked> {
    let cut = section(plan, figures, piece)?;
    let sizes = &figures.build_ups[piece];
    let systems = plan.units.first.with_other();
    let mut rows = Vec::new();
    let mut row = |what: &str, length: Length| {
        let cells = systems.map(|system| print_in(length, Grade::Fine, system));
        rows.push([what.to_owned()].into_iter().chain(cells).collect());
    };
    for layer in &sizes.stack.layers {
        row(layer.part.name(), layer.thickness);
    }
    row("Total", sizes.stack.thickness());
    let frame = plan.pieces[piece].finish.framing().and_then(|framing| framing.frame.as_ref());
    if let (Some(frame), Some(cut)) = (frame, &sizes.frame) {
        row(&in_units("Depth of the rabbet", plan.units.first), frame.rabbet_depth);
        row(
            &in_units(
                "Left in the rabbet; negative: the package is proud of the frame by this",
                plan.units.first,
            ),
            cut.spare_depth,
        );
    }
    let mat = plan.pieces[piece].finish.framing().and_then(|framing| framing.mat.as_ref());
    if let Some(reveal) = mat.and_then(|mat| mat.inner_reveal) {
        row("Bottom mat visible, on each side", reveal);
    }
    Some(Stacked { cut, rows })
}

/// The section of some pieces, drawn, with its table.
fn stack(plan: &Plan, stacked: &Stacked, of: &str, flow: &mut Flow) {
    let (items, height, scale) = drawn(&stacked.cut, flow.width(), plan.units.first);
    let of = if of.is_empty() { String::new() } else { [" of ", of].said() };
    flow.need(height + Length::mm(24));
    flow.heading(&["Section through the bottom", &of, ", ", &scale_in_words(scale, plan.units.first)].said());
    let strip = flow.strip(height + Length::mm(2));
    flow.push(Role::Drawing(stacked.cut.in_words()), moved(items, Point::new(strip.x, strip.y)));
    let [own, other] = plan.units.first.with_other().map(System::of_column);
    let table = Table::new(&["From the front to the back", own, other]);
    flow.table(&Table { rows: stacked.rows.clone(), ..table });
}

/// Diagonals: what has two that are alike is square.
fn squares(plan: &Plan, figures: &Figures, thing: &Thing) -> Vec<Vec<String>> {
    let sizes = &figures.build_ups[thing.pieces.first().copied().unwrap_or(0)];
    let systems = plan.units.first.with_other();
    let mut rows = Vec::new();
    let mut row = |what: &str, size: Size| {
        let cells = [what.to_owned()].into_iter();
        let cells = cells.chain(systems.map(|system| measure::size(size, Grade::Cut, system).text));
        let across = systems.map(|system| print_in(diagonal(size), Grade::Cut, system));
        rows.push(cells.chain(across).collect());
    };
    row("Outside", sizes.outside);
    if let Some(frame) = &sizes.frame {
        row(&in_units("Rabbet", plan.units.first), frame.rabbet.size);
        row("Sight", frame.sight.size);
    }
    if let Some(inside) = sizes.floater_inside {
        row("Inside of the floater", inside.size);
    }
    let several = thing.pieces.len() > 1;
    for (index, (name, cut)) in thing.mats.iter().enumerate() {
        if index == 0 {
            row("Mat board", cut.board);
        }
        let number = if several { [" ", &(index + 1).to_string()].said() } else { String::new() };
        let of = capital(name);
        row(&[&of, number.as_str(), ", mat opening (at the picture)"].said(), cut.opening);
        row(&[&of, number.as_str(), ", opening at the face"].said(), cut.face_opening);
    }
    rows
}

/// The diagonals of all, each row with the pieces that it is of; with none where it is of all of them.
fn squares_of_all<'a>(
    plan: &Plan,
    all: impl Iterator<Item = (String, &'a Vec<Vec<String>>)>,
    flow: &mut Flow,
) {
    let [own, other] = plan.units.first.with_other().map(System::of_column);
    let mut table = Table::new(&["Part", own, other, &["Both diagonals, ", own].said(), other]);
    for (of, rows) in all {
        table.rows.extend(rows.iter().cloned().map(|mut cells| {
            if !of.is_empty() {
                cells[0] = [&cells[0], ", ", &of].said();
            }
            cells
        }));
    }
    flow.titled("Is it square? Both diagonals must be equal", &table);
}
