//! The record of a finished wall: sizes, papers, edition, date and hooks, so that a later piece can match.

use super::flow::{BODY, Early, Flow, NOTE, Table};
use super::hanging::{hooks, text};
use super::sheet::Page;
use super::{Job, Kind, Said};
use crate::measure::{self, Grade};
use crate::plan::{Finish, Piece, Units};
use crate::spec;
use crate::stock::{self, Profile, Stock, name_in};

/// To be filled in by hand.
const BLANK: &str = "____________";

pub(super) fn pages(job: &Job<'_>, early: Early) -> Vec<Page> {
    let mut flow = Flow::new(job, Kind::Record, early);
    flow.text(BODY, "Keep this with the receipt, so that a piece you add later will match. Fill in the lines for what this program can't know.");
    pieces(job, &mut flow);
    wall(job, &mut flow);
    for (heading, paragraphs) in spec::text(job.plan, job.figures, job.stock) {
        flow.heading(heading);
        paragraphs.iter().for_each(|text| flow.text(BODY, text));
    }
    flow.text(NOTE, "Inches are rounded to the nearest 1/16, millimetres to the nearest whole one. Keep the plan's file with this paper: it has every exact length.");
    flow.finish()
}

/// What each piece is, side by side, with room for what only its maker knows.
fn pieces(job: &Job<'_>, flow: &mut Flow) {
    let columns: Vec<Vec<(&str, String)>> = (0..job.plan.pieces.len()).map(|piece| one(job, piece)).collect();
    let mut names: Vec<&str> = Vec::new();
    for (name, _) in columns.iter().flatten() {
        if !names.contains(name) {
            names.push(name);
        }
    }
    names.extend(BY_HAND);
    let heads: Vec<String> =
        (1..=columns.len()).map(|number| ["Piece ", &number.to_string()].said()).collect();
    let heads: Vec<&str> = std::iter::once("").chain(heads.iter().map(String::as_str)).collect();
    let mut table = Table::new(&heads);
    for name in names {
        let cell = |column: &Vec<(&str, String)>| {
            let found = column.iter().find(|(of, _)| *of == name).map(|(_, text)| text.clone());
            let nothing = if BY_HAND.contains(&name) { BLANK } else { "" };
            found.unwrap_or_else(|| nothing.into())
        };
        table.rows.push(std::iter::once(name.to_owned()).chain(columns.iter().map(cell)).collect());
    }
    flow.titled("What it is", &table);
}

/// What nobody but who made it knows.
const BY_HAND: [&str; 4] =
    ["Paper, canvas or sheet", "Number, size of edition", "Signed where", "Made by, on"];

fn one(job: &Job<'_>, index: usize) -> Vec<(&'static str, String)> {
    let (plan, sizes) = (job.plan, &job.figures.build_ups[index]);
    let piece = &plan.pieces[index];
    let units = Units { both: true, ..plan.units };
    let picture =
        plan.split.map(|split| split.picture).or(piece.picture).map(|picture| &plan.pictures[picture]);
    let mut rows = vec![("Picture", picture.map_or_else(|| BLANK.into(), |picture| picture.name.clone()))];
    rows.extend(picture.filter(|file| !file.file.is_empty()).map(|file| ("File", file.file.clone())));
    rows.push(("Image", measure::shown_size(sizes.image.size, units)));
    if sizes.sheet.size != sizes.image.size {
        rows.push(("Sheet", measure::shown_size(sizes.sheet.size, units)));
    }
    rows.push(("Outside", measure::shown_size(sizes.outside, units)));
    rows.push(("Made as", printed_on(job, piece)));
    rows.extend(surroundings(piece, job.stock, plan.units));
    rows
}

fn printed_on(job: &Job<'_>, piece: &Piece) -> String {
    match &piece.finish {
        Finish::Paper(paper) => ["print on paper of ", &paper.grammage.to_string(), " g/m²"].said(),
        Finish::Canvas(canvas) => {
            let depth = job.both(canvas.depth, Grade::Fine);
            ["print on canvas of ", &canvas.grammage.to_string(), " g/m² on bars ", &depth, " deep"].said()
        }
        Finish::Aluminium(sheet) => {
            ["print on aluminium, ", &job.both(sheet.thickness, Grade::Fine), " thick"].said()
        }
        Finish::Original(_) => "the original".into(),
    }
}

/// Mat and frame by their colours and names.
fn surroundings(piece: &Piece, stock: &Stock, units: Units) -> Vec<(&'static str, String)> {
    let mut rows = Vec::new();
    let framing = piece.finish.framing();
    if let Some(mat) = framing.and_then(|framing| framing.mat.as_ref()) {
        rows.push(("Mat", stock::name_of(&stock::MATS, mat.colour).to_owned()));
    }
    if let Some(frame) = framing.and_then(|framing| framing.frame.as_ref()) {
        let known = stock.mouldings.iter().find(|row| row.is_of_frame(frame));
        let made_of = known.map_or(frame.material.name(), Profile::made_of);
        let finish = stock::finish(frame.material, made_of, frame.surface, frame.colour);
        let name = known.map_or(String::new(), |row| ["\"", &name_in(&row.name, units.first), "\": "].said());
        rows.push(("Moulding", [&name, made_of, ", ", &finish].said()));
    }
    rows
}

/// Where everything is on the wall.
fn wall(job: &Job<'_>, flow: &mut Flow) {
    let mut table = Table::new(&["On the wall", "From the left corner", "From the floor"]);
    for (index, outside) in job.figures.arranged.outsides.iter().enumerate() {
        let name = ["Middle of piece ", &(index + 1).to_string()].said();
        table.rows.push(vec![name, text(job, outside.centre().x), text(job, outside.centre().y)]);
    }
    for (number, hook) in (1..).zip(hooks(job)) {
        let number: u32 = number;
        let name = [job.plan.fixing.hanger.at_wall(false), " ", &number.to_string(), ", ", &hook.of].said();
        table.rows.push(vec![spec::capital(&name), text(job, hook.at.x), text(job, hook.at.y)]);
    }
    flow.titled("Where it hangs", &table);
    let gap = if job.plan.pieces.len() > 1 && job.plan.shared.is_none() {
        ["From one outside to the next: ", &text(job, job.plan.group.gap), ". "].said()
    } else {
        String::new()
    };
    let made = job.made();
    let made = if made.is_empty() { String::new() } else { ["Recorded: ", &made, ". "].said() };
    flow.text(BODY, &[&made, &gap, "Hung on: ", BLANK, ". Changed while hanging: ", BLANK, "."].said());
}
