//! Two plans in a few lines: what a buyer weighs up, and what each of them is better at.
//!
//! ```
//! use overmantel::{compare::summary, field::Field, fields, plan::{self, Plan}, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let canvas = fields::write(&plan, &stock, Field::pieces(&plan::PIECE_MATERIAL), "canvas").unwrap();
//! let found = summary(&plan, &canvas, &stock, None).unwrap();
//! let make_up = found.rows.iter().find(|row| row.label == "Make-up").unwrap();
//! assert_eq!(make_up.one, "paper in a mat, framed behind glass");
//! assert_eq!(make_up.other, "canvas, 1 1/2\" deep, mirrored wrap");
//! ```

use super::in_colour;
use crate::field::{self, Field};
use crate::fields;
use crate::figures::{Figures, NoAnswer};
use crate::findings::{Severity, findings};
use crate::length::Length;
use crate::measure::{self, Grade, shown, shown_size};
use crate::plan::{Finish, Glazing, Plan};
use crate::prices::{Book, priced};
use crate::spec::{
    few_words::{each_once, make_up},
    short, weighed,
};
use crate::stock::Stock;
use crate::words::with_article;

/// So many lines it has at most.
pub const MOST_LINES: usize = 8;

/// What two plans say of one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SummaryRow {
    /// What it is about.
    pub label: &'static str,
    /// What the one plan says.
    pub one: String,
    /// What the other says.
    pub other: String,
}

impl SummaryRow {
    /// Whether both say the same.
    #[must_use]
    pub fn is_same(&self) -> bool {
        self.one == self.other
    }
}

/// Two plans in a few lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Summary {
    /// What they say, at most [`MOST_LINES`], the last of them what each is better at.
    pub rows: Vec<SummaryRow>,
    /// What became of the one plan in the other, as sentences without their full stops; at most [`MOST_LINES`].
    pub changes: Vec<String>,
}

/// What a plan can be better at than another, and than all others.
pub(super) const ADVANTAGES: [[&str; 2]; 8] = [
    ["price", "the lowest price"],
    ["a larger image", "the largest image"],
    ["lighter", "the lightest"],
    ["closer to the wall", "the closest to the wall"],
    ["sharp from closer up", "sharp from closest up"],
    ["no reflections", "the only one without reflections"],
    ["protected by its glazing", "the only one protected by glazing"],
    ["fewer or milder notes", "the fewest or mildest notes"],
];

/// What is weighed up of one plan.
pub(super) struct Weighed {
    pub(super) text: Vec<(&'static str, String)>,
    weight_mg: Option<i64>,
    depth: Length,
    sharp_from: Option<Length>,
    price: Option<i64>,
    image: i128,
    is_glazed: bool,
    is_bare_paper: bool,
    notes: [usize; 4],
}

/// Two plans in a few lines, in the units of the one.
///
/// # Errors
/// When one of the plans has no answer.
pub fn summary(one: &Plan, other: &Plan, stock: &Stock, book: Option<&Book>) -> Result<Summary, NoAnswer> {
    let other = &Plan { units: one.units, ..other.clone() };
    let (first, second) = (Weighed::of(one, stock, book)?, Weighed::of(other, stock, book)?);
    let mut rows: Vec<SummaryRow> = first
        .text
        .iter()
        .zip(&second.text)
        .map(|((label, one), (_, other))| SummaryRow { label, one: one.clone(), other: other.clone() })
        .filter(|row| !(row.one.is_empty() && row.other.is_empty()))
        .collect();
    let changes = rows.iter().filter(|row| !row.is_same()).take(MOST_LINES).map(change).collect();
    // Where there are too many lines, those go that say the same, from the end; then the last.
    while rows.len() >= MOST_LINES {
        let can_go = |row: &SummaryRow| row.is_same() && !ALWAYS.contains(&row.label);
        let dropped = rows.iter().rposition(can_go).unwrap_or(rows.len() - 1);
        rows.remove(dropped);
    }
    for row in &mut rows {
        let missing = if row.label == "Weight" { "not known: weigh it" } else { "none" };
        for text in [&mut row.one, &mut row.other] {
            if text.is_empty() {
                missing.clone_into(text);
            }
        }
    }
    // What is the same of room and pictures is not news.
    rows.retain(|row| !(row.is_same() && OF_ROOM.contains(&row.label)));
    let (better_one, better_other) = (first.better_than(&second), second.better_than(&first));
    rows.push(SummaryRow { label: "Advantages", one: better_one, other: better_other });
    Ok(Summary { rows, changes })
}

/// Rows that are always told.
const ALWAYS: [&str; 2] = ["Size", "Make-up"];
/// Rows that are only told where they differ.
pub(super) const OF_ROOM: [&str; 4] = ["Pictures", "Place", "Wall", "There stands"];

fn change(row: &SummaryRow) -> String {
    match (row.one.as_str(), row.other.as_str()) {
        ("", other) => [row.label, ": ", other, " is new"].concat(),
        (one, "") => [row.label, ": ", one, " is gone"].concat(),
        (one, other) => [row.label, ": ", one, " became ", other].concat(),
    }
}

impl Weighed {
    pub(super) fn of(plan: &Plan, stock: &Stock, book: Option<&Book>) -> Result<Self, NoAnswer> {
        let figures = &Figures::of(plan)?;
        let read = |field: Field| {
            fields::read(plan, stock, field).map_or(String::new(), |value| in_colour(value.text))
        };
        let depth = figures.build_ups.iter().map(|sizes| sizes.depth).max().unwrap_or_default();
        let mass = weighed(plan, figures, stock, 0).map(|thing| thing.mass);
        let sharp_from = short::sharp_from(plan, figures);
        let price = book.map(|book| (priced(plan, figures, stock, book), book));
        let places = figures.arranged.outsides.iter().take(figures.hanging.len().max(1));
        let outside = each_once(places.map(|place| shown_size(place.size, plan.units))).join("; ");
        let image = each_once(plan.pieces.iter().map(|piece| shown_size(piece.image, plan.units))).join("; ");
        let count = ["", "two of ", "three of "][plan.pieces.len().clamp(1, 3) - 1];
        let shown_at = |length: Length| shown(length, Grade::Piece, plan.units);
        let text = vec![
            ("Pictures", pictured(plan, &read)),
            ("Size", [count, &image, ", outside ", &outside].concat()),
            (
                "Make-up",
                each_once((0..plan.pieces.len()).map(|piece| make_up(plan, figures, piece))).join("; "),
            ),
            ("Frame", each_once((0..plan.pieces.len()).map(|piece| frame(&read, plan, piece))).join("; ")),
            (
                "Weight",
                match short::weights(plan, figures, stock) {
                    known if known.is_empty() => String::new(),
                    known => {
                        let is_each = known.len() == 1 && plan.pieces.len() > 1 && plan.shared.is_none();
                        ["about ", &known.join(" and "), if is_each { " each" } else { "" }].concat()
                    }
                },
            ),
            ("Depth", shown_at(depth)),
            ("Sharp from", sharp_from.map_or(String::new(), |near| measure::from_afar(near, plan.units))),
            (
                "Price",
                price.as_ref().map_or(String::new(), |(price, book)| match price.totals {
                    Some(totals) => book.text(totals.total),
                    None => ["no price for ", &price.missing_names()].concat(),
                }),
            ),
            ("Place", place(plan, figures, stock)),
            ("Wall", {
                let size = measure::size(plan.wall.size, Grade::Room, plan.units.first).text;
                [&size, ", ", &read(Field::from(&crate::plan::WALL_PAINT))].concat()
            }),
            (
                "There stands",
                plan.fixtures
                    .iter()
                    .map(|fixture| {
                        let width = shown(fixture.size.width, Grade::Room, plan.units);
                        [&with_article(&fixture.name), " ", &width, " wide"].concat()
                    })
                    .collect::<Vec<_>>()
                    .join(", "),
            ),
        ];
        let mut notes = [0; 4];
        for finding in findings(plan, figures, stock) {
            if let Some(at) = Severity::ALL.iter().position(|severity| *severity == finding.severity) {
                notes[3 - at] += 1;
            }
        }
        let area = |plan: &Plan| {
            plan.pieces
                .iter()
                .map(|piece| i128::from(piece.image.width.units()) * i128::from(piece.image.height.units()))
                .sum()
        };
        let glazed =
            |finish: &Finish| finish.framing().is_some_and(|framing| framing.glazing != Glazing::None);
        Ok(Self {
            weight_mg: mass.map(|mass| mass.likely_mg),
            depth,
            sharp_from,
            price: price.and_then(|(price, _)| price.totals.map(|totals| totals.total)),
            image: area(plan),
            is_glazed: plan.pieces.iter().all(|piece| glazed(&piece.finish)),
            is_bare_paper: plan
                .pieces
                .iter()
                .any(|piece| matches!(piece.finish, Finish::Paper(_)) && !glazed(&piece.finish)),
            notes,
            text,
        })
    }

    /// At which of [`ADVANTAGES`] this one is better than another.
    pub(super) fn better_at(&self, other: &Self) -> [bool; ADVANTAGES.len()] {
        // Less by a tenth at least: what nobody would notice is no reason.
        let less = |one: i128, other: i128| one * 10 <= other * 9;
        let fewer = |one: Option<i64>, other: Option<i64>| matches!((one, other), (Some(one), Some(other)) if less(one.into(), other.into()));
        let units = |length: Option<Length>| length.map(Length::units);
        let is_open = !self.is_glazed && !self.is_bare_paper && other.is_glazed;
        [
            self.price.zip(other.price).is_some_and(|(one, other)| one < other),
            less(other.image, self.image),
            fewer(self.weight_mg, other.weight_mg),
            less(self.depth.units().into(), other.depth.units().into()),
            fewer(units(self.sharp_from), units(other.sharp_from)),
            is_open,
            self.is_glazed && !other.is_glazed,
            // The gravest first.
            self.notes < other.notes,
        ]
    }

    /// What this one is better at than another, in a few words.
    fn better_than(&self, other: &Self) -> String {
        let better = self.better_at(other).into_iter().zip(ADVANTAGES);
        let found: Vec<&str> = better.filter_map(|(is_so, [words, _])| is_so.then_some(words)).collect();
        if found.is_empty() { "no clear advantage".to_owned() } else { found.join(", ") }
    }
}

/// Which pictures a plan shows.
fn pictured(plan: &Plan, read: &dyn Fn(Field) -> String) -> String {
    match plan.split {
        Some(split) => plan.pictures.get(split.picture).map_or(String::new(), |picture| {
            ["“", &picture.name, "”, ", &read(Field::from(&field::PIECES_SHOWN))].concat()
        }),
        None => {
            let names = plan.pieces.iter().filter_map(|piece| Some(&plan.pictures.get(piece.picture?)?.name));
            names.map(|name| ["“", name, "”"].concat()).collect::<Vec<_>>().join(", ")
        }
    }
}

/// The frame and the mat of a piece, by what they are called.
fn frame(read: &dyn Fn(Field) -> String, plan: &Plan, piece: usize) -> String {
    let of = |row| read(Field::piece(row, piece));
    match &plan.pieces[piece].finish {
        Finish::Aluminium(_) => String::new(),
        Finish::Canvas(canvas) if canvas.floater.is_none() => String::new(),
        Finish::Canvas(_) => of(&field::FLOATER_LOOK),
        Finish::Original(original) if original.floater.is_some() => of(&field::FLOATER_LOOK),
        finish => {
            let Some(framing) = finish.framing() else { return String::new() };
            let frame = framing.frame.is_some().then(|| of(&field::FRAME_LOOK));
            let mat = framing.mat.is_some().then(|| {
                let colour = of(&field::MAT_LOOK);
                [if colour.contains('#') { "mat in " } else { "mat " }, &colour].concat()
            });
            [frame, mat].into_iter().flatten().collect::<Vec<_>>().join(", ")
        }
    }
}

/// Where the group hangs.
fn place(plan: &Plan, figures: &Figures, stock: &Stock) -> String {
    let centre = figures.arranged.group.centre();
    let value = fields::read(plan, stock, Field::from(&field::GROUP_PLACE));
    // Where a rule says it, figures would only repeat the sizes.
    let Some(value) = value else { return String::new() };
    if value.key.is_some() {
        return value.text;
    }
    let at = |length| shown(length, Grade::Room, plan.units);
    [&value.text, ", centre ", &at(centre.x), " from the left and ", &at(centre.y), " up"].concat()
}
