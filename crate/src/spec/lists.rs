//! Lists: parts and cuts, and the sizes that a picture suits, as tables of plain text.

use crate::asked;
use crate::cut_list::{CutPart, Extent as PartExtent, MatCut, diagonal};
use crate::field::{self, Field};
use crate::fields::offer::code;
use crate::figures::Figures;
use crate::fit::{Fit, Lost, Way, best_of_each_way};
use crate::geometry::{Sides, Size};
use crate::hardware::hardware;
use crate::length::Length;
use crate::making::{Making, Thing, coloured, making};
use crate::measure::{self, Grade, shown};
use crate::plan::{Material, Plan, System, Units};
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::stock::{self, StandardSize, Stock, name_to_buy};
use crate::weigh::Mass;
use crate::words::in_units;

/// A table.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct List {
    /// What it is about.
    pub caption: String,
    /// What stands in each column.
    pub columns: Vec<&'static str>,
    /// Its rows, each with a cell for every column.
    pub rows: Vec<ListRow>,
    /// What is to be said below it.
    pub notes: Vec<String>,
    /// What is to be read or copied letter by letter, below that.
    pub as_written: Vec<String>,
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListRow {
    /// One text for each column; the first names the row.
    pub cells: Vec<String>,
    /// What takes the row into the plan: a field and what to write to it.
    pub offer: Option<(Field, String)>,
}

impl ListRow {
    pub(super) fn plain(cells: impl IntoIterator<Item = String>) -> Self {
        Self { cells: cells.into_iter().collect(), offer: None }
    }
}

/// Rows of each way at most.
const MOST_OF_A_WAY: usize = 6;

/// The sizes that the picture of a piece suits, the best of each way; pressing one takes it for the piece, or for all.
#[must_use]
pub fn fits(plan: &Plan, figures: &Figures, stock: &Stock, chosen: Option<usize>) -> List {
    let piece = chosen.unwrap_or(0);
    if plan.pieces[piece].finish.is_original() {
        let note = "An original is not printed: it has the size it has.";
        return List { notes: vec![note.to_owned()], ..List::default() };
    }
    let wish = asked::wish(plan, piece);
    let mut found = asked::fits(plan, figures, stock, piece);
    // Whoever works in one system buys in it.
    let is_own = |listed: &StandardSize| plan.units.both || listed.system == plan.units.first;
    found.retain(|fit| is_own(fit.print.listed) && fit.frame.is_none_or(|frame| is_own(frame.listed)));
    let mut best = best_of_each_way(&found, MOST_OF_A_WAY);
    crate::order::sort_by_key(&mut best, |fit| fit.way);
    let row = |fit: &&Fit<'_>| ListRow {
        cells: vec![
            fit.print.listed.name.clone(),
            way_in_a_word(fit.way).to_owned(),
            fit.frame.map_or_else(|| fit.print.listed.name.clone(), |frame| frame.listed.name.clone()),
            borders(fit, plan.units),
            lost(&fit.lost),
            ppi(fit),
        ],
        offer: Some((Field::chosen(&field::OFFER_FIT, chosen), code(fit))),
    };
    List {
        caption: String::from("Sizes on offer that suit the picture"),
        columns: vec!["Print", "How", "Frame to order", "Border or mat", "Lost", "ppi"],
        rows: best.iter().map(row).collect(),
        notes: vec![format!(
            "The best of each way, those with the resolution you want first. Whole: less than 0.5 % is lost. In a mat: borders of {} to {}. On white paper: {} or more. Sizes in the other system are listed when both are shown.",
            shown(wish.least_mat_border, Grade::Piece, plan.units),
            shown(wish.most_mat_border, Grade::Piece, plan.units),
            shown(wish.least_border, Grade::Piece, plan.units)
        )],
        ..List::default()
    }
}

const fn way_in_a_word(way: Way) -> &'static str {
    match way {
        Way::Whole => "whole, to the edge",
        Way::Matted => "whole, in a mat",
        Way::Bordered => "whole, on white paper",
        Way::Cropped => "cropped",
    }
}

fn borders(fit: &Fit<'_>, units: Units) -> String {
    let text = |length: Length| shown(length, Grade::Piece, units);
    let Sides { left, top, right, bottom } = fit.borders;
    if fit.borders == Sides::default() {
        String::from("none")
    } else if text(left) == text(top) && text(top) == text(bottom) {
        format!("{} all round", text(left))
    } else if text(top) == text(bottom) && text(left) == text(right) {
        format!("{} at the sides, {} at the top and bottom", text(left), text(top))
    } else {
        format!("{} at the sides, {} at the top, {} at the bottom", text(left), text(top), text(bottom))
    }
}

fn whole(value: Exact, mode: Mode) -> i128 {
    divide(*value.numer(), *value.denom(), mode)
}

fn lost(lost: &Lost) -> String {
    let percent = whole(lost.share * 1000, Mode::HalfAway);
    if percent == 0 {
        return String::from("nothing");
    }
    let px = |value: Exact| whole(value, Mode::HalfAway);
    let sides = [
        (px(lost.left_px), "left"),
        (px(lost.right_px), "right"),
        (px(lost.top_px), "top"),
        (px(lost.bottom_px), "bottom"),
    ];
    let named: Vec<String> =
        sides.iter().filter(|(px, _)| *px > 0).map(|(px, side)| format!("{side} {px} px")).collect();
    format!("{}.{} %: {}", percent / 10, percent % 10, named.join(", "))
}

fn ppi(fit: &Fit<'_>) -> String {
    let whole = whole(fit.cut.pixels_per_inch, Mode::Down);
    if fit.keeps_fineness { whole.to_string() } else { format!("{whole}, less than you want") }
}

/// What it takes to make a piece: its parts, its mats, its moulding, its parcel. Without a piece, that of the first, where all are
/// alike; the moulding is for all frames together.
#[must_use]
pub fn cuts(plan: &Plan, figures: &Figures, stock: &Stock, chosen: Option<usize>) -> Vec<List> {
    let made = making(plan, figures, stock);
    let piece = chosen.unwrap_or(0);
    let Some(thing) = made.things.iter().find(|thing| thing.pieces.contains(&piece)) else {
        return Vec::new();
    };
    let mut lists = vec![parts(plan, figures, &made, thing, chosen)];
    if !thing.mats.is_empty() {
        lists.push(mats(thing, plan.units));
    }
    lists.push(fitted(plan, figures, stock, thing));
    lists.push(bought(plan, &made, thing));
    lists
}

/// A cut size in the plan's own system and in the other.
fn both(size: Size, first: System) -> [String; 2] {
    first.with_other().map(|system| measure::size(size, Grade::Cut, system).text)
}

fn measures(extent: PartExtent, first: System) -> [String; 2] {
    match extent {
        PartExtent::Size(size) => both(size, first),
        PartExtent::Length(length) => {
            first.with_other().map(|system| measure::print_in(length, Grade::Cut, system))
        }
        PartExtent::Each => Default::default(),
    }
}

/// What is screwed, taped and glued to it.
fn fitted(plan: &Plan, figures: &Figures, stock: &Stock, thing: &Thing) -> List {
    let row = |part: CutPart| {
        let [own, other] = measures(part.extent, plan.units.first);
        ListRow::plain([part.name, part.quantity.to_string(), own, other, part.note])
    };
    let [own, other] = plan.units.first.with_other().map(System::of_column);
    List {
        caption: String::from("Hardware"),
        columns: vec!["Item", "Number", own, other, "Note"],
        rows: hardware(plan, figures, stock, thing).into_iter().map(row).collect(),
        notes: vec![String::from(
            "Numbers and distances are common practice, no source; what hangers carry is from memory. What it says on the packet comes first.",
        )],
        ..List::default()
    }
}

fn parts(plan: &Plan, figures: &Figures, made: &Making, thing: &Thing, chosen: Option<usize>) -> List {
    let row = |(part, mass): &(CutPart, Mass)| {
        let [own, other] = measures(part.extent, plan.units.first);
        let weight = if mass.likely_mg == 0 {
            String::from("weigh it")
        } else {
            measure::weight_alone(mass.likely_mg, plan.units.first)
        };
        ListRow::plain([
            part.name.clone(),
            part.quantity.to_string(),
            own,
            other,
            part.made_of.clone(),
            part.note.clone(),
            weight,
        ])
    };
    let caption = match (made.things.len(), plan.pieces.len(), chosen) {
        (1, 1, _) => String::from("Parts of the piece"),
        (1, ..) => String::from("Parts of the frame that all pieces share"),
        (count, _, None) => format!("Parts of one piece of {count} (the first, where they differ)"),
        (_, _, Some(index)) => format!("Parts of piece {}", index + 1),
    };
    let mut notes = Vec::new();
    if thing.mass.likely_mg > 0 {
        let both = plan.units.both && plan.units.first == System::Inches;
        notes.push(format!(
            "Total weight about {}.",
            measure::weight(thing.mass, Units { both, ..plan.units })
        ));
    }
    if !thing.not_weighed.is_empty() {
        notes.push(format!("Not weighed: {}.", thing.not_weighed));
    }
    if let Some(frame) = &figures.build_ups[thing.pieces[0]].frame {
        let [outside, rabbet] = [figures.build_ups[thing.pieces[0]].outside, frame.rabbet.size]
            .map(|size| shown(diagonal(size), Grade::Cut, plan.units));
        let step = in_units("rabbet", plan.units.first);
        notes.push(format!(
            "The frame is square when both diagonals are equal: {outside} outside, {rabbet} in the {step}."
        ));
    }
    let [own, other] = plan.units.first.with_other().map(System::of_column);
    List {
        caption,
        columns: vec!["Part", "Number", own, other, "Of", "Note", "Weight"],
        rows: thing.parts.iter().map(row).collect(),
        notes,
        ..List::default()
    }
}

/// The cutter's measures, from each edge of the board to the opening.
fn mats(thing: &Thing, units: Units) -> List {
    let size_text = |size: Size| {
        let [own, other] = both(size, units.first);
        if units.both { format!("{own} ({other})") } else { own }
    };
    let text = |length: Length| shown(length, Grade::Cut, units);
    let row = |name: String, borders: Sides, cut: &MatCut| {
        ListRow::plain([
            name,
            text(borders.left),
            text(borders.top),
            text(borders.right),
            text(borders.bottom),
            size_text(cut.opening),
        ])
    };
    let several = thing.mats.iter().filter(|(name, _)| *name == thing.mats[0].0).count() > 1;
    let mut rows = Vec::new();
    let mut number = 0;
    for (name, cut) in &thing.mats {
        if *name == thing.mats[0].0 {
            number += 1;
        }
        let colour = thing.blanks.iter().find(|blank| blank.part == *name).and_then(|blank| blank.colour);
        let colour =
            colour.map_or(String::new(), |colour| format!(", {}", stock::name_of(&stock::MATS, colour)));
        let name =
            if several { format!("{name}{colour}, opening {number}") } else { format!("{name}{colour}") };
        rows.push(row(format!("{name}, from the face"), cut.face, cut));
        rows.push(row(format!("{name}, from the back"), cut.back, cut));
    }
    let checks = thing.mats.iter().map(|(name, cut)| {
        format!(
            "Check of the {name}: border, opening and border make {}, the board. Diagonals: board {}, opening {}.",
            size_text(cut.sums()),
            text(cut.board_diagonal),
            text(cut.opening_diagonal)
        )
    });
    let mut notes: Vec<String> = checks.collect();
    notes.dedup();
    notes.push(String::from("Mats are marked on the back, where left and right are swapped. At the face, the opening is wider by the bevel."));
    List {
        caption: String::from("Mat: from each edge of the board to the mat opening (at the picture)"),
        columns: vec!["Mat", "left", "top", "right", "bottom", "Opening"],
        rows,
        notes,
        ..List::default()
    }
}

/// What is printed, and the tubes it is sent in.
fn printed(plan: &Plan, thing: &Thing, row: &mut dyn FnMut(&str, String)) {
    let units = plan.units;
    let several = thing.prints.len() > 1;
    for (print, piece) in thing.prints.iter().zip(&thing.pieces) {
        let of = if several { format!(" {}", piece + 1) } else { String::new() };
        let (width, height) = print.pixels;
        let rolls = match print.rolls.first() {
            Some(roll) => format!("; it takes \"{}\" or a wider one", name_to_buy(roll, units.first)),
            None => String::new(),
        };
        let size = measure::shown_size(print.size, units);
        // The pixels are of the picture, and not of what is left white or turned to the back.
        let picture = if print.picture == print.size {
            String::new()
        } else {
            format!("the picture on it, {}, ", measure::shown_size(print.picture, units))
        };
        row(
            &format!("print{of}"),
            format!("{size}; {picture}needs {width} × {height} px for {} ppi{rolls}", plan.fineness),
        );
        if let Some((tube, rolled)) = &print.tube {
            row(
                &format!("print{of}, sent rolled"),
                format!(
                    "{}, at least {} long",
                    name_to_buy(tube, units.first),
                    shown(rolled.tube_length, Grade::Piece, units)
                ),
            );
        }
    }
}

/// The sticks of moulding, and what is sawn of each.
fn sawn(made: &Making, units: Units, row: &mut dyn FnMut(&str, String)) {
    let cut = |length: Length| shown(length, Grade::Cut, units);
    for moulding in &made.mouldings {
        let named = &moulding.words;
        match &moulding.bought {
            Ok(bought) => {
                for (index, cuts) in bought.sticks.iter().enumerate() {
                    let rails: Vec<String> = cuts.rails.iter().map(|&rail| cut(bought.rails[rail])).collect();
                    let name = format!("{named}: stick {} of {}", index + 1, bought.sticks.len());
                    let text = format!(
                        "{}: {}; {} left",
                        name_to_buy(&bought.stick.name, units.first),
                        rails.join(" + "),
                        cut(cuts.left)
                    );
                    row(&name, text);
                }
            }
            Err(why) => row(named, why.to_string()),
        }
    }
}

/// What to buy, and how it travels.
fn bought(plan: &Plan, made: &Making, thing: &Thing) -> List {
    let units = plan.units;
    let text = |length: Length| shown(length, Grade::Piece, units);
    let mut rows = Vec::new();
    let mut row = |what: &str, text: String| rows.push(ListRow::plain([what.to_owned(), text]));
    printed(plan, thing, &mut row);
    for sheets in &made.sheets {
        let any = match (sheets.material, sheets.colour) {
            (Material::MatBoard, None) => ", any colour",
            _ => "",
        };
        let board = coloured(sheets.material, sheets.colour);
        let what = format!("{board}{any}, {} thick", shown(sheets.thickness, Grade::Fine, units));
        row(
            &what,
            match &sheets.bought {
                Ok((sheet, 1)) => format!("1 sheet: {}", name_to_buy(&sheet.name, units.first)),
                Ok((sheet, number)) => format!("{number} sheets: {}", name_to_buy(&sheet.name, units.first)),
                Err(why) => why.to_string(),
            },
        );
    }
    if let Some((_, moulding)) = thing.rails {
        let text = format!(
            "{} round the frame, {} with saw cuts; shops charge for {}",
            text(moulding.exact),
            text(moulding.with_kerfs),
            text(moulding.by_rule)
        );
        row("moulding", text);
    }
    sawn(made, units, &mut row);
    let carton = thing.carton;
    row(
        "box",
        format!(
            "{} × {} × {}, length and girth {}",
            text(carton.length),
            text(carton.width),
            text(carton.height),
            text(carton.length_and_girth())
        ),
    );
    for (carrier, charged) in &thing.carriers {
        let text = charged.map_or(String::from("any weight"), |charged| {
            format!("charged as at least {}", charged.text(plan.units.first))
        });
        row(&format!("carrier: {carrier}"), text);
    }
    if thing.carriers.is_empty() {
        row("carrier", String::from("none on the list takes it"));
    }
    List {
        caption: String::from("To buy and to send"),
        columns: vec!["Item", "Details"],
        rows,
        notes: vec![String::from(
            "Sheets and sticks are for all pieces together. Sheets, sticks and carriers are those in the stock list; load your own list to use your shop's.",
        )],
        ..List::default()
    }
}
