//! The cut list for the framer: every part, the mats as they are marked, what lies in the rabbet, and sums to check by.

use super::Said;
use super::cut::drawn;
use super::elevation::{in_words, moved};
use super::flow::{BODY, Flow, NOTE, Table};
use super::sheet::{Page, Role};
use super::{Job, Kind};
use crate::cut_list::diagonal;
use crate::figures::Figures;
use crate::geometry::{Point, Size};
use crate::length::Length;
use crate::making::{Thing, things};
use crate::measure::{self, Grade, print_in};
use crate::plan::{Plan, System, Units};
use crate::scene::section::section;
use crate::spec::alike;
use crate::spec::capital;
use crate::spec::lists::{List, cuts};
use crate::words::in_units;

pub(super) fn pages(job: &Job<'_>) -> Vec<Page> {
    let Job { figures, stock, .. } = *job;
    // Whoever cuts reads either system.
    let plan = &Plan { units: Units { both: true, ..job.plan.units }, ..job.plan.clone() };
    let mut flow = Flow::new(job, Kind::Cuts);
    let things = things(plan, figures, stock);
    let is_one = things.len() == 1 || alike(plan);
    let told: Vec<&Thing> = if is_one { things.iter().take(1).collect() } else { things.iter().collect() };
    let lists: Vec<Vec<List>> = told
        .iter()
        .map(|thing| cuts(plan, figures, stock, if is_one { None } else { thing.pieces.first().copied() }))
        .collect();
    let shared = common_rows(&lists);
    for (thing, lists) in told.iter().zip(&lists) {
        let piece = thing.pieces.first().copied().unwrap_or(0);
        stack(plan, figures, piece, &mut flow);
        for list in lists {
            let rows = list.rows.iter().filter(|row| !shared.contains(&row.cells));
            table(list, rows.map(|row| row.cells.clone()).collect(), &list.caption, &mut flow);
        }
        squares(plan, figures, thing, &mut flow);
    }
    if let Some(list) = lists.first().and_then(|lists| lists.last()).filter(|_| !shared.is_empty()) {
        table(list, shared, "To buy for all pieces together", &mut flow);
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

fn table(list: &List, rows: Vec<Vec<String>>, caption: &str, flow: &mut Flow) {
    flow.titled(caption, &Table { rows, ..Table::new(&list.columns) });
    for note in &list.notes {
        flow.text(NOTE, note);
    }
}

/// The section, and what lies in the rabbet against how deep that is.
fn stack(plan: &Plan, figures: &Figures, piece: usize, flow: &mut Flow) {
    let Some(cut) = section(plan, figures, piece) else { return };
    let sizes = &figures.build_ups[piece];
    let (items, height, scale) = drawn(&cut, flow.width(), plan.units.first);
    let name = if plan.pieces.len() == 1 || alike(plan) {
        String::from("Section through the bottom")
    } else {
        ["Section through the bottom of piece ", &(piece + 1).to_string()].said()
    };
    flow.need(height + Length::mm(24));
    flow.heading(&[&name, ", ", &in_words(scale, plan.units.first)].said());
    let strip = flow.strip(height + Length::mm(2));
    flow.push(Role::Drawing(cut.in_words()), moved(items, Point::new(strip.x, strip.y)));
    let systems = plan.units.first.with_other();
    let [own, other] = systems.map(System::of_column);
    let mut table = Table::new(&["From the front to the back", own, other]);
    let mut row = |what: &str, length: Length| {
        let cells = systems.map(|system| print_in(length, Grade::Fine, system));
        table.rows.push([what.to_owned()].into_iter().chain(cells).collect());
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
    flow.table(&table);
}

/// Diagonals: what has two that are alike is square.
fn squares(plan: &Plan, figures: &Figures, thing: &Thing, flow: &mut Flow) {
    let sizes = &figures.build_ups[thing.pieces.first().copied().unwrap_or(0)];
    let systems = plan.units.first.with_other();
    let [own, other] = systems.map(System::of_column);
    let mut table = Table::new(&["Part", own, other, &["Both diagonals, ", own].said(), other]);
    let mut row = |what: &str, size: Size| {
        let cells = [what.to_owned()].into_iter();
        let cells = cells.chain(systems.map(|system| measure::size(size, Grade::Cut, system).text));
        let across = systems.map(|system| print_in(diagonal(size), Grade::Cut, system));
        table.rows.push(cells.chain(across).collect());
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
    flow.titled("Is it square? Both diagonals must be equal", &table);
}
