//! A report on making: parts, weights, prints, mats, legs, sheets and parcels of what hangs.

use super::basic::*;
use super::ways::{WayReport, way_reports};
use crate::cut_list::{self, CutPart, Extent as PartExtent, MatCut, billed};
use crate::figures::Figures;
use crate::making::{Blank, Moulding, Print, Sheets, Thing};
use crate::plan::{Plan, System};
use crate::stock::{Parcel, Stock};
use crate::weigh::Mass;
use serde::Serialize;

/// One thing that hangs: a piece, or all pieces that share a frame.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ThingReport {
    /// Which pieces, counted from 1.
    pub pieces: Vec<usize>,
    /// Its parts from the front to the back.
    pub parts: Vec<PartReport>,
    /// What all of it weighs, within at least ±15 %: weigh it before you hang it.
    pub weight: Weight,
    /// What that weight leaves out; empty when it leaves out nothing.
    pub not_weighed: &'static str,
    /// The prints to order.
    pub prints: Vec<PrintReport>,
    /// The openings to cut, the top mat's before the bottom mat's.
    pub mat_cuts: Vec<MatCutReport>,
    /// The legs of its frame.
    pub rails: Option<RailsReport>,
    /// For each part cut from a sheet: which sheet to buy.
    pub sheets: Vec<SheetReport>,
    /// The box that it is sent in, with 2 in of packing on each side: longest side, middle, shortest.
    pub carton: [Measure; 3],
    /// The longest side of the box and the girth round the other two.
    pub length_and_girth: Measure,
    /// Which carriers in the stock list take that.
    pub carriers: Vec<CarrierReport>,
    /// All the ways to hang it, whichever the plan states.
    pub ways_to_hang: Vec<WayReport>,
}

/// A carrier that takes the box.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CarrierReport {
    /// Its name in the stock list.
    pub name: String,
    /// The lowest weight that it charges for the volume of the box, such as `41 lb`, up to the next whole pound or kilogram; null where it does not charge volume.
    pub volume_weight: Option<String>,
    /// The weight it bills for the likely weight of the contents: that weight or the one for the volume, whichever is greater, up to the next whole pound or kilogram. Box and packing are not weighed.
    pub billed_weight: String,
    /// The same for the most that the contents may weigh.
    pub most_billed_weight: String,
}

/// A part.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PartReport {
    /// What it is.
    pub name: String,
    /// How many.
    pub quantity: u32,
    /// What it is made of, where that is a material with a density.
    pub material: Option<&'static str>,
    /// What it is made of in words, with its colour and how it is finished.
    pub made_of: String,
    /// Width and height, for a board or a sheet.
    pub size: Option<Extent>,
    /// Length, for a leg: its outside length (long points).
    pub length: Option<Measure>,
    /// What else the maker needs to know.
    pub note: String,
    /// What all of these weigh.
    pub weight: Weight,
}

/// A print to order.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PrintReport {
    /// The size of the paper, canvas or metal.
    pub size: Extent,
    /// The pixels that its picture needs at the resolution wanted, up to the next whole pixel.
    pub pixels_needed: [u64; 2],
    /// The rolls in the stock list that are wide enough; empty for metal.
    pub rolls: Vec<String>,
    /// The tube that it can be sent in.
    pub tube: Option<String>,
    /// The least length of that tube.
    pub tube_length: Option<Measure>,
}

/// The cutter's measures of one opening.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MatCutReport {
    /// Which mat.
    pub mat: &'static str,
    /// The board.
    pub board: Extent,
    /// The mat opening (at the picture), the smaller hole.
    pub opening: Extent,
    /// The hole at the face.
    pub opening_at_face: Extent,
    /// From each edge of the board to the mat opening (at the picture), seen from the face.
    pub from_the_face: SidesReport,
    /// The same seen from the back, where it is marked: left and right are swapped.
    pub from_the_back: SidesReport,
    /// Border, opening and border added up: this must equal the board.
    pub sums: Extent,
    /// From corner to corner of the board, to the nearest 1/1440 micrometre.
    pub board_diagonal: Measure,
    /// From corner to corner of the opening, to the nearest 1/1440 micrometre.
    pub opening_diagonal: Measure,
}

/// The legs of a frame, two of each.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RailsReport {
    /// Horizontal legs, outside length (long points).
    pub across_long_points: Measure,
    /// Horizontal legs, short points.
    pub across_short_points: Measure,
    /// Vertical legs, outside length (long points).
    pub upright_long_points: Measure,
    /// Vertical legs, short points.
    pub upright_short_points: Measure,
    /// Moulding in the finished frame.
    pub moulding_exact: Measure,
    /// Moulding by the shops' rule, 2(w + h) + 8 × face.
    pub moulding_by_rule: Measure,
    /// Moulding from one stick, with a saw cut between two legs.
    pub moulding_with_kerfs: Measure,
}

/// A sheet to buy.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SheetReport {
    /// The part it is for.
    pub part: String,
    /// The smallest sheet in the stock list that is large enough.
    pub sheet: Option<String>,
    /// How many whole parts of this size come out of one sheet, cut in a simple grid.
    pub gives: Option<u32>,
    /// Why there is none.
    pub why_not: Option<String>,
}

/// Sheets of one material and thickness to buy for everything.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SheetsReport {
    /// The material.
    pub material: &'static str,
    /// How thick.
    pub thickness: Measure,
    /// In which colour, as #rrggbb; null where it does not matter.
    pub colour: Option<String>,
    /// What is cut from them.
    pub blanks: Vec<Extent>,
    /// Which sheet.
    pub sheet: Option<String>,
    /// How many whole sheets are enough in any case: each size is cut from its own sheets in a simple grid.
    pub number: Option<u32>,
    /// Why there is none.
    pub why_not: Option<String>,
}

pub(super) fn sheets_report(found: &Sheets) -> SheetsReport {
    let bought = found.bought.as_ref().ok();
    SheetsReport {
        material: found.material.name(),
        thickness: measure(found.thickness),
        colour: found.colour.map(|colour| colour.to_string()),
        blanks: found.blanks.iter().copied().map(extent).collect(),
        sheet: bought.map(|(sheet, _)| sheet.name.clone()),
        number: bought.and_then(|(_, number)| u32::try_from(*number).ok()),
        why_not: found.bought.as_ref().err().map(ToString::to_string),
    }
}

/// One moulding to buy, for all frames that are made of it.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MouldingReport {
    /// What it is in words: its material, its finish and its face, and whatever else distinguishes it from the others.
    pub words: String,
    /// What it is made of.
    pub material: &'static str,
    /// Width of its face.
    pub face: Measure,
    /// From its back to its front.
    pub depth: Measure,
    /// Width of its rabbet (rebate); 0 for a floater frame.
    pub rabbet_width: Measure,
    /// Depth of its rabbet (rebate); 0 for a floater frame.
    pub rabbet_depth: Measure,
    /// How its face is shaped.
    pub shape: &'static str,
    /// How its face is finished.
    pub surface: &'static str,
    /// Its colour, as #rrggbb.
    pub colour: String,
    /// Whether it is for a floater frame.
    pub floater: bool,
    /// The length it is sold in.
    pub stick: Option<String>,
    /// What is cut from each stick: the outside lengths (long points) of its legs, the longest first.
    pub sticks: Vec<Vec<Measure>>,
    /// What is left of each stick.
    pub left: Vec<Measure>,
    /// Why it cannot be bought.
    pub why_not: Option<String>,
}

pub(super) fn thing_report(plan: &Plan, figures: &Figures, stock: &Stock, made: &Thing) -> ThingReport {
    let carton = made.carton;
    ThingReport {
        pieces: made.pieces.iter().map(|index| index + 1).collect(),
        parts: made.parts.iter().map(part).collect(),
        weight: weight(made.mass),
        not_weighed: made.not_weighed,
        prints: made.prints.iter().map(print).collect(),
        mat_cuts: made.mats.iter().map(mat_cut).collect(),
        rails: made.rails.map(|(rails, moulding)| RailsReport {
            across_long_points: measure(rails.across.long_point),
            across_short_points: measure(rails.across.short_point),
            upright_long_points: measure(rails.upright.long_point),
            upright_short_points: measure(rails.upright.short_point),
            moulding_exact: measure(moulding.exact),
            moulding_by_rule: measure(moulding.by_rule),
            moulding_with_kerfs: measure(moulding.with_kerfs),
        }),
        sheets: made.blanks.iter().map(sheet).collect(),
        carton: [carton.length, carton.width, carton.height].map(measure),
        length_and_girth: measure(carton.length_and_girth()),
        carriers: cut_list::takers(stock, carton, made.mass)
            .map(|parcel| carrier(parcel, made, plan.units.first))
            .collect(),
        ways_to_hang: way_reports(plan, figures, stock, made),
    }
}

fn carrier(parcel: &Parcel, made: &Thing, system: System) -> CarrierReport {
    let billed = |milligrams| billed(parcel, made.carton, milligrams, system).to_string();
    CarrierReport {
        name: parcel.name.clone(),
        volume_weight: parcel.volume_divisor.map(|divisor| made.carton.volume_weight(divisor).to_string()),
        billed_weight: billed(made.mass.likely_mg),
        most_billed_weight: billed(made.mass.most_mg),
    }
}

fn part((part, mass): &(CutPart, Mass)) -> PartReport {
    let (size, length) = match part.extent {
        PartExtent::Size(size) => (Some(extent(size)), None),
        PartExtent::Length(length) => (None, Some(measure(length))),
        PartExtent::Each => (None, None),
    };
    PartReport {
        name: part.name.clone(),
        quantity: part.quantity,
        material: part.material.map(crate::plan::Material::name),
        made_of: part.made_of.clone(),
        size,
        length,
        note: part.note.clone(),
        weight: weight(*mass),
    }
}

fn print(print: &Print) -> PrintReport {
    PrintReport {
        size: extent(print.size),
        pixels_needed: [print.pixels.0, print.pixels.1],
        rolls: print.rolls.clone(),
        tube: print.tube.as_ref().map(|(name, _)| name.clone()),
        tube_length: print.tube.as_ref().map(|(_, rolled)| measure(rolled.tube_length)),
    }
}

fn mat_cut((mat, cut): &(&'static str, MatCut)) -> MatCutReport {
    MatCutReport {
        mat,
        board: extent(cut.board),
        opening: extent(cut.opening),
        opening_at_face: extent(cut.face_opening),
        from_the_face: sides(cut.face),
        from_the_back: sides(cut.back),
        sums: extent(cut.sums()),
        board_diagonal: measure(cut.board_diagonal),
        opening_diagonal: measure(cut.opening_diagonal),
    }
}

fn sheet(blank: &Blank) -> SheetReport {
    let sheet = blank.sheet.as_ref().ok();
    SheetReport {
        part: blank.part.to_owned(),
        sheet: sheet.map(|sheet| sheet.name.clone()),
        gives: sheet.and_then(|sheet| u32::try_from(cut_list::grid_yield(blank.size, sheet.size)).ok()),
        why_not: blank.sheet.as_ref().err().map(ToString::to_string),
    }
}

pub(super) fn moulding_report(found: &Moulding) -> MouldingReport {
    let section = found.section;
    let named = MouldingReport {
        words: found.words.clone(),
        material: section.material.name(),
        face: measure(section.face),
        depth: measure(section.depth),
        rabbet_width: measure(section.rabbet.0),
        rabbet_depth: measure(section.rabbet.1),
        shape: section.look.0.name(),
        surface: section.look.1.name(),
        colour: section.colour.to_string(),
        floater: section.is_floater,
        stick: None,
        sticks: Vec::new(),
        left: Vec::new(),
        why_not: None,
    };
    match &found.bought {
        Ok(bought) => MouldingReport {
            stick: Some(bought.stick.name.clone()),
            sticks: bought
                .sticks
                .iter()
                .map(|cuts| cuts.rails.iter().map(|&rail| measure(bought.rails[rail])).collect())
                .collect(),
            left: bought.sticks.iter().map(|cuts| measure(cuts.left)).collect(),
            ..named
        },
        Err(why) => MouldingReport { why_not: Some(why.to_string()), ..named },
    }
}
