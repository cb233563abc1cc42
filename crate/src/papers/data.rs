//! What is ordered and what is cut as rows for other programs: CSV and JSON with the same columns, each of which says what it means.

use super::Job;
use super::order::Measured;
use crate::cut_list::Extent;
use crate::hardware::hardware;
use crate::length::{Length, UNITS_PER_INCH, UNITS_PER_MICROMETRE};
use crate::making::things;
use crate::report::VERSION;
use crate::rounding::{Mode, divide};
use serde_json::{Map, Value};

/// Rows under columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Rows {
    /// The name of each column and what it means.
    pub columns: &'static [(&'static str, &'static str)],
    /// A value for each column; null where there is none.
    pub rows: Vec<Vec<Value>>,
}

/// The columns of the order.
const ORDER: &[(&str, &str)] = &[
    ("print", "the number of the print, as on the order: one row for each"),
    ("pieces", "which pieces of the plan it is for, counted from 1, separated by spaces"),
    ("number", "how many to print"),
    ("picture", "the picture's title"),
    ("file", "the picture's file"),
    ("file_width_px", "pixels of the file across, upright"),
    ("file_height_px", "pixels of the file down, upright"),
    ("crop_left_px", "pixels left of what is printed"),
    ("crop_top_px", "pixels above what is printed"),
    ("crop_width_px", "pixels printed, across"),
    ("crop_height_px", "pixels printed, down"),
    ("ppi", "resolution of the print in pixels per inch, rounded down to a whole number"),
    ("on", "what is printed on"),
    ("edges", "what is on the edges of a canvas"),
    ("width_mm", "width of the picture as it is printed, in millimetres, to the nearest micrometre"),
    ("height_mm", "its height in millimetres"),
    ("width_in", "its width in inches, to the nearest millionth"),
    ("height_in", "its height in inches"),
    (
        "face_width_mm",
        "for a canvas with the image wrapped round the edge: width of what is on its face, in millimetres",
    ),
    ("face_height_mm", "height of that in millimetres"),
    ("face_width_in", "width of that in inches"),
    ("face_height_in", "height of that in inches"),
    ("sheet_width_mm", "width of the sheet of paper, in millimetres"),
    ("sheet_height_mm", "its height in millimetres"),
    ("sheet_width_in", "its width in inches"),
    ("sheet_height_in", "its height in inches"),
    ("with_edges_width_mm", "width of a canvas with its edges, in millimetres"),
    ("with_edges_height_mm", "height of that in millimetres"),
    ("with_edges_width_in", "width of that in inches"),
    ("with_edges_height_in", "height of that in inches"),
    ("canvas_width_mm", "width of the canvas to cut, in millimetres"),
    ("canvas_height_mm", "its height in millimetres"),
    ("canvas_width_in", "its width in inches"),
    ("canvas_height_in", "its height in inches"),
    ("border_left_mm", "white border at the left, in millimetres"),
    ("border_top_mm", "white border at the top"),
    ("border_right_mm", "white border at the right"),
    ("border_bottom_mm", "white border at the bottom"),
    ("edge_mm", "depth of each edge of a canvas, in millimetres"),
    ("fold_mm", "staple margin behind a canvas, on each side, in millimetres"),
    ("radius_mm", "radius of the corners of a metal sheet, in millimetres"),
];
/// The sizes and the single measures of a print, in the order of their columns.
const SIZES: [Measured; 5] =
    [Measured::Picture, Measured::Face, Measured::Sheet, Measured::FaceAndEdges, Measured::Canvas];
/// See [`SIZES`]; the even border stands for all four.
const LENGTHS: [Measured; 7] = [
    Measured::Left,
    Measured::Top,
    Measured::Right,
    Measured::Bottom,
    Measured::Edge,
    Measured::Fold,
    Measured::Radius,
];

/// The columns of the cut list.
const CUTS: &[(&str, &str)] = &[
    ("pieces", "which pieces of the plan it is part of, counted from 1, separated by spaces"),
    ("part", "what it is"),
    ("number", "how many"),
    ("material", "what it is made of, if that has a name"),
    (
        "width_mm",
        "width, or outside length (long points) of a leg, in millimetres, to the nearest micrometre",
    ),
    ("height_mm", "height in millimetres; none for a leg"),
    ("width_in", "width, or outside length (long points) of a leg, in inches, to the nearest millionth"),
    ("height_in", "height in inches; none for a leg"),
    (
        "left_mm",
        "for an opening: from the left edge of the board to it, seen from the face, in millimetres, to the nearest micrometre",
    ),
    ("head_mm", "for an opening: from the top edge of the board to it"),
    ("right_mm", "for an opening: from the right edge of the board to it, seen from the face"),
    ("foot_mm", "for an opening: from the bottom edge of the board to it"),
    ("weight_g", "what all of them weigh, about, to the nearest gram"),
    ("note", "what else the maker needs to know"),
    ("made_of", "what it is made of in words, with its colour and how it is finished"),
];

/// The order for the print shop: a row for each print.
#[must_use]
pub fn order(job: &Job<'_>) -> Rows {
    let mut rows = Vec::new();
    for (number, print) in (1_u32..).zip(super::order::prints(job)) {
        let file = print.picture.map(|picture| &job.plan.pictures[picture]);
        let crop = print.crop;
        let mut row: Vec<Value> = vec![
            number.into(),
            listed(&print.pieces),
            print.pieces.len().into(),
            file.map(|file| file.name.clone()).into(),
            file.map(|file| file.file.clone()).into(),
            file.map(|file| file.width_px).into(),
            file.map(|file| file.height_px).into(),
            crop.map(|crop| crop.left).into(),
            crop.map(|crop| crop.top).into(),
            crop.map(|crop| crop.width).into(),
            crop.map(|crop| crop.height).into(),
            print.ppi.and_then(|ppi| i64::try_from(ppi).ok()).into(),
            print.on.clone().into(),
            print.edges.into(),
        ];
        for size in SIZES {
            let found = print.sizes.iter().find(|(which, _)| *which == size);
            row.extend(
                found.map_or([const { Value::Null }; 4], |(_, size)| measures(size.width, Some(size.height))),
            );
        }
        for length in LENGTHS {
            let find = |wanted| print.lengths.iter().find(|(which, _)| *which == wanted);
            let is_border =
                matches!(length, Measured::Left | Measured::Top | Measured::Right | Measured::Bottom);
            let found = find(length).or_else(|| find(Measured::Border).filter(|_| is_border));
            row.push(found.map_or(Value::Null, |(_, length)| mm(*length)));
        }
        rows.push(row);
    }
    Rows { columns: ORDER, rows }
}

/// The cut list: a row for each part, and one for each opening of a mat.
#[must_use]
pub fn cuts(job: &Job<'_>) -> Rows {
    let mut rows = Vec::new();
    for thing in things(job.plan, job.figures, job.stock) {
        let pieces: Vec<usize> = thing.pieces.iter().map(|piece| piece + 1).collect();
        let none = || vec![Value::Null; 4];
        let fitted = hardware(job.plan, job.figures, job.stock, &thing);
        let fitted = fitted.iter().map(|part| (part, None));
        for (part, mass) in thing.parts.iter().map(|(part, mass)| (part, Some(mass))).chain(fitted) {
            let mut row = vec![
                listed(&pieces),
                part.name.clone().into(),
                part.quantity.into(),
                part.material.map(crate::plan::Material::name).into(),
            ];
            row.extend(match part.extent {
                Extent::Size(size) => measures(size.width, Some(size.height)),
                Extent::Length(length) => measures(length, None),
                Extent::Each => [const { Value::Null }; 4],
            });
            row.extend(none());
            row.push(mass.map_or(Value::Null, |mass| grams(mass.likely_mg)));
            row.extend([part.note.clone().into(), part.made_of.clone().into()]);
            rows.push(row);
        }
        for (name, cut) in &thing.mats {
            let mut row = vec![
                listed(&pieces),
                [name, " opening (at the picture)"].concat().into(),
                1.into(),
                Value::Null,
            ];
            row.extend(measures(cut.opening.width, Some(cut.opening.height)));
            row.extend([cut.face.left, cut.face.top, cut.face.right, cut.face.bottom].map(mm));
            let made_of =
                thing.parts.iter().find(|(part, _)| part.name == *name).map(|(part, _)| part.made_of.clone());
            let note = "seen from the back, left and right are swapped";
            row.extend([Value::Null, note.into(), made_of.into()]);
            rows.push(row);
        }
    }
    Rows { columns: CUTS, rows }
}

fn listed(pieces: &[usize]) -> Value {
    pieces.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ").into()
}

fn measures(width: Length, height: Option<Length>) -> [Value; 4] {
    let or_none = |tell: fn(Length) -> Value| height.map_or(Value::Null, tell);
    [mm(width), or_none(mm), inches(width), or_none(inches)]
}

/// So many steps, of which `per_one` make one, as a number with decimals.
#[expect(clippy::cast_precision_loss, reason = "an edge: lengths of a wall keep 53 bits")]
pub(super) fn number(steps: i128, per_one: i128) -> Value {
    (steps as f64 / per_one as f64).into()
}

/// In millimetres, to the nearest micrometre.
pub(super) fn mm(length: Length) -> Value {
    number(divide(length.units().into(), UNITS_PER_MICROMETRE.into(), Mode::HalfAway), 1000)
}

/// To the nearest gram.
fn grams(milligrams: i64) -> Value {
    i64::try_from(divide(milligrams.into(), 1000, Mode::HalfAway)).ok().into()
}

/// To the nearest millionth of an inch.
pub(super) fn inches(length: Length) -> Value {
    let millionths = i128::from(length.units()) * 1_000_000;
    number(divide(millionths, UNITS_PER_INCH.into(), Mode::HalfAway), 1_000_000)
}

impl Rows {
    /// As CSV (RFC 4180): a line of names, then a line for each row. What a spreadsheet would take for a formula in
    /// a text has an apostrophe before it.
    #[must_use]
    pub fn csv(&self) -> String {
        let names = self.columns.iter().map(|column| column.0.to_owned());
        let mut text = names.collect::<Vec<_>>().join(",") + "\r\n";
        for row in &self.rows {
            text += &row.iter().map(cell).collect::<Vec<_>>().join(",");
            text += "\r\n";
        }
        text
    }

    /// As JSON: the version of this form, what each column means, and the rows as objects.
    #[must_use]
    pub fn json(&self) -> Value {
        let columns = self.columns.iter().map(|(name, meaning)| ((*name).to_owned(), (*meaning).into()));
        let rows = self.rows.iter().map(|row| {
            let named =
                self.columns.iter().zip(row).map(|(column, value)| (column.0.to_owned(), value.clone()));
            Value::Object(named.collect())
        });
        let whole = [
            ("version".to_owned(), VERSION.into()),
            ("columns".to_owned(), Value::Object(columns.collect())),
            ("rows".to_owned(), Value::Array(rows.collect())),
        ];
        Value::Object(whole.into_iter().collect::<Map<_, _>>())
    }
}

fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => crate::cells::cell(text),
        Value::Number(number) => {
            let text = number.to_string();
            text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
        }
        other => other.to_string(),
    }
}
