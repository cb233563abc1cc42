//! Making: what it takes to make, to weigh and to send what hangs; for the framer, the print shop and whoever carries it.
//!
//! Everything here follows from a plan, its figures and a stock. Pieces in one frame are made as one thing.
//!
//! ```
//! use overmantel::{figures::Figures, making::making, plan::Plan, stock::Stock};
//! let plan = Plan::starting();
//! let made = making(&plan, &Figures::of(&plan).unwrap(), &Stock::offered());
//! assert_eq!(made.things.len(), 3, "each piece has a frame of its own");
//! let rails = made.moulding.unwrap().unwrap();
//! assert_eq!(rails.sticks.len(), 3, "of each stick of 8 ft, two rails across and two upright");
//! ```

use crate::cut_list::{
    self, Carton, Cuts, Extent, MatCut, Part, Rails, Rolled, mat_cut, pack, roll_up, sheet_for, takers,
};
use crate::figures::Figures;
use crate::framing::{BAR_WIDTH, BuildUp, FLOAT_BLOCK, MatSizes};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::plan::{Aluminium, Board, Canvas, Finish, Frame, Framing, Glazing, Material, Piece, Plan};
use crate::print::Exact;
use crate::print::fineness::pixels_for;
use crate::stock::{Roll, SheetStock, Stick, Stock};
use crate::weigh::{self, Area, Mass, Volume};

mod framed;

/// What it takes to make everything that hangs.
#[derive(Clone, Debug, PartialEq)]
pub struct Making {
    /// Each thing that hangs, in the order of the plan.
    pub things: Vec<Thing>,
    /// The moulding to buy for all frames together: none where nothing has a frame with rails; a sentence where no stick of the
    /// stock will do.
    pub moulding: Option<Result<Sticks, String>>,
}

/// One thing that hangs: a piece, or all pieces that share a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Thing {
    /// Which pieces of the plan, by their index.
    pub pieces: Vec<usize>,
    /// Its parts from the front to the back, with what all of each kind weigh.
    pub parts: Vec<(Part, Mass)>,
    /// What is not weighed, in words; empty for nothing.
    pub not_weighed: &'static str,
    /// What all of it weighs.
    pub mass: Mass,
    /// Its prints.
    pub prints: Vec<Print>,
    /// The openings to cut, the upper mat's before the inner one's, in the order of the pieces.
    pub mats: Vec<(&'static str, MatCut)>,
    /// Its rails and the moulding in them, if it has a mitred frame.
    pub rails: Option<(Rails, cut_list::Moulding)>,
    /// For each part cut from a sheet: the sheet to buy, or why there is none.
    pub sheets: Vec<(String, Result<SheetStock, String>)>,
    /// The box that it is sent in.
    pub carton: Carton,
    /// Which carriers of the stock take that.
    pub carriers: Vec<String>,
}

/// A print to order.
#[derive(Clone, Debug, PartialEq)]
pub struct Print {
    /// What is printed on: the sheet, the cloth, the metal.
    pub size: Size,
    /// The pixels that the printed area needs at the fineness wished for.
    pub pixels: (u64, u64),
    /// The rolls of the stock that take it; empty for metal.
    pub rolls: Vec<String>,
    /// How it goes into a tube: the first tube of the stock for paper, the second for canvas. Nothing for what cannot be rolled.
    pub tube: Option<(String, Rolled)>,
}

/// Moulding to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Sticks {
    /// In which length.
    pub stick: Stick,
    /// What is cut from each. Rails are counted through the frames: head, foot, left, right of the first, then of the next.
    pub sticks: Vec<Cuts>,
    /// The long points of all rails, in that order.
    pub rails: Vec<Length>,
}

/// Packing on each side of a box: common practice has 2 to 3 in, no source.
pub const PACKING: Length = Length::inches(2);
/// Canvas bars, blocks and fillets are reckoned as this wood (about 450 kg to the cubic metre, from memory).
const BARE_WOOD: Material = Material::Poplar;

/// Works out what it takes to make a plan.
#[must_use]
pub fn making(plan: &Plan, figures: &Figures, stock: &Stock) -> Making {
    let things = things(plan, figures, stock);
    let rails: Vec<Length> =
        things.iter().filter_map(|thing| thing.rails).flat_map(|(rails, _)| rails.long_points()).collect();
    let moulding = (!rails.is_empty()).then(|| sticks_for(rails, stock));
    Making { things, moulding }
}

/// Works out what hangs, without the moulding for all of it together.
#[must_use]
pub fn things(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<Thing> {
    let hung = if plan.shared.is_some() { plan.pieces.len() } else { 1 };
    let indices: Vec<usize> = (0..plan.pieces.len()).collect();
    indices.chunks(hung.max(1)).map(|pieces| thing(plan, figures, stock, pieces)).collect()
}

/// The sticks that waste least: of all lengths on offer, the one of which least is bought; of equals, the first.
fn sticks_for(rails: Vec<Length>, stock: &Stock) -> Result<Sticks, String> {
    let mut refusal = String::from("the stock has no sticks of moulding; add one");
    let mut best: Option<(Length, Sticks)> = None;
    for stick in &stock.sticks {
        match pack(&rails, stick) {
            Ok(sticks) => {
                let bought = stick.length * i64::try_from(sticks.len()).unwrap_or(i64::MAX);
                if best.as_ref().is_none_or(|(least, _)| bought < *least) {
                    best = Some((bought, Sticks { stick: stick.clone(), sticks, rails: rails.clone() }));
                }
            }
            Err(why) => refusal = why,
        }
    }
    best.map(|(_, sticks)| sticks).ok_or(refusal)
}

/// The parts of a thing as they are gathered.
#[derive(Default)]
struct Bench {
    parts: Vec<(Part, Mass)>,
    not_weighed: &'static str,
    /// What is cut from sheets: name, material, thickness and size.
    blanks: Vec<(&'static str, Material, Length, Size)>,
}

impl Bench {
    fn add(&mut self, name: &str, material: Option<Material>, extent: Extent, note: String, mass: Mass) {
        self.parts.push((Part { name: name.to_owned(), quantity: 1, material, extent, note }, mass));
    }

    /// A part cut from a sheet, less its openings.
    fn board(&mut self, stock: &Stock, name: &'static str, board: Board, size: Size, openings: &[Size]) {
        let Board { material, thickness } = board;
        if thickness <= Length::ZERO {
            return;
        }
        let area = openings.iter().fold(Area::of(size), |area, opening| area - Area::of(*opening));
        let mass = weigh::sheet(stock, material, thickness, area);
        let note = crate::length::print::exact(thickness) + " thick";
        self.add(name, Some(material), Extent::Size(size), note, mass);
        self.blanks.push((name, material, thickness, size));
    }

    fn wood(&mut self, stock: &Stock, name: &str, extent: Extent, volume: Volume, note: String) {
        let mass = weigh::by_density(volume, &stock.density(BARE_WOOD));
        self.add(name, Some(BARE_WOOD), extent, note, mass);
    }
}

fn thing(plan: &Plan, figures: &Figures, stock: &Stock, pieces: &[usize]) -> Thing {
    let parts: Vec<(&Piece, &BuildUp)> =
        pieces.iter().map(|&index| (&plan.pieces[index], &figures.build_ups[index])).collect();
    let mut bench = Bench::default();
    let (first, sizes) = parts[0];
    match &first.finish {
        Finish::Canvas(canvas) => framed::canvas(&mut bench, stock, canvas, sizes),
        Finish::Aluminium(sheet) => framed::metal(&mut bench, stock, sheet, sizes),
        // What stands in a floater frame has nothing else round it.
        Finish::Original(original) if original.floater.is_some() => {
            framed::original(&mut bench, sizes.sheet.size);
        }
        Finish::Paper(_) | Finish::Original(_) => framed::package(&mut bench, stock, &parts),
    }
    if let Some(floater) = first.finish.floater() {
        framed::floater(&mut bench, stock, floater, sizes);
    }
    let frame = first.finish.framing().and_then(|framing| framing.frame.as_ref());
    let rails = match (frame, &sizes.frame, first.finish.floater()) {
        (Some(frame), Some(cut), _) => Some((frame.face, cut.nominal)),
        (_, _, Some(floater)) => sizes.floater_inside.map(|inside| (floater.face, inside.size)),
        _ => None,
    };
    let kerf = stock.sticks.first().map_or(Length::ZERO, |stick| stick.kerf);
    let rails = rails.map(|(face, nominal)| {
        (Rails::of(sizes.outside, face), cut_list::moulding(sizes.outside, nominal, face, kerf))
    });
    let mass = weigh::estimate(bench.parts.iter().map(|(_, mass)| *mass));
    let carton = Carton::round(sizes.outside, sizes.depth, PACKING);
    Thing {
        pieces: pieces.to_vec(),
        mats: parts.iter().flat_map(|(_, sizes)| mat_cuts(first, sizes)).collect(),
        prints: parts.iter().filter_map(|(piece, sizes)| print(plan, stock, piece, sizes)).collect(),
        sheets: bench
            .blanks
            .iter()
            .map(|&(name, material, thickness, size)| {
                (name.to_owned(), sheet_for(stock, material, Some(thickness), size).cloned())
            })
            .collect(),
        parts: bench.parts,
        not_weighed: bench.not_weighed,
        carriers: takers(stock, carton, mass).map(|parcel| parcel.name.clone()).collect(),
        mass,
        rails,
        carton,
    }
}

/// The openings of a piece's mats, the upper one first. Mats in one frame are those of its first piece.
fn mat_cuts(first: &Piece, sizes: &BuildUp) -> Vec<(&'static str, MatCut)> {
    let mat = first.finish.framing().and_then(|framing| framing.mat.as_ref());
    let (Some(mat), Some(MatSizes { board, opening, upper_opening, .. })) = (mat, &sizes.mat) else {
        return Vec::new();
    };
    let cut = |name, opening: Rect| Some((name, mat_cut(*board, opening, mat.thickness).ok()?));
    if mat.inner_reveal.is_some() {
        cut("upper mat", *upper_opening).into_iter().chain(cut("inner mat", *opening)).collect()
    } else {
        cut("mat", *opening).into_iter().collect()
    }
}

/// The print to order for a piece; none for an original.
fn print(plan: &Plan, stock: &Stock, piece: &Piece, sizes: &BuildUp) -> Option<Print> {
    let fineness = Exact::from_integer(plan.fineness.into());
    let takes = |size: Size| {
        let rolls = stock.rolls.iter().filter(|roll: &&Roll| roll.takes(size));
        rolls.map(|roll| roll.name.clone()).collect::<Vec<_>>()
    };
    let tube = |index: usize, size: Size| {
        let tube = stock.tubes.get(index).or(stock.tubes.last())?;
        Some((tube.name.clone(), roll_up(size, tube)))
    };
    let pixels = pixels_for(sizes.picture.size, fineness);
    Some(match &piece.finish {
        Finish::Paper(_) => {
            let size = sizes.sheet.size;
            Print { size, pixels, rolls: takes(size), tube: tube(0, size) }
        }
        Finish::Canvas(_) => {
            let size = sizes.cloth?;
            Print { size, pixels, rolls: takes(size), tube: tube(1, size) }
        }
        Finish::Aluminium(_) => Print { size: sizes.sheet.size, pixels, rolls: Vec::new(), tube: None },
        Finish::Original(_) => return None,
    })
}
