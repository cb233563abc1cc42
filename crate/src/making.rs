//! Making: what it takes to make, to weigh and to send what hangs; for the framer, the print shop and whoever carries it.
//!
//! Everything here follows from a plan, its figures and a stock. Pieces in one frame are made as one thing.
//!
//! ```
//! use overmantel::{figures::Figures, making::making, plan::Plan, stock::Stock};
//! let plan = Plan::starting();
//! let made = making(&plan, &Figures::of(&plan).unwrap(), &Stock::offered());
//! assert_eq!(made.things.len(), 3, "each piece has a frame of its own");
//! let rails = made.mouldings[0].bought.as_ref().unwrap();
//! assert_eq!(rails.sticks.len(), 3, "of each stick of 8 ft, two rails across and two upright");
//! ```

use crate::colour::Colour;
use crate::cut_list::{
    self, Carton, Charged, CutError, CutPart, Cuts, Extent, MatCut, Rails, Rolled, is_as_thick,
    is_in_whole_units, mat_cut, own_sheet_for, pack, roll_up, sheets_needed, takers,
};
use crate::figures::Figures;
use crate::framing::{BuildUp, MatSizes};
use crate::geometry::{Rect, Size};
use crate::length::{Length, print::plain};
use crate::measure::{Grade, shown};
use crate::plan::{Board, Finish, Material, Piece, Plan, System, Units};
use crate::print::Exact;
use crate::print::sharpness::pixels_for;
use crate::stock::{self, Roll, SheetStock, Stick, Stock, Tube};
use crate::weigh::{self, Area, Mass, Volume};

mod error;
mod framed;
mod section;
pub use error::MakingError;
pub use section::Section;

/// What it takes to make everything that hangs.
#[derive(Clone, Debug, PartialEq)]
pub struct Making {
    /// Each thing that hangs, in the order of the plan.
    pub things: Vec<Thing>,
    /// The moulding to buy, for each moulding there is; nothing where nothing has a frame with legs.
    pub mouldings: Vec<Moulding>,
    /// The sheets to buy for all things together, for each material, thickness and colour in the order of the parts.
    pub sheets: Vec<Sheets>,
}

/// Sheets of one material, thickness and colour to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheets {
    /// Of what.
    pub material: Material,
    /// How thick.
    pub thickness: Length,
    /// In which colour; nothing where it does not matter.
    pub colour: Option<Colour>,
    /// What is cut from them.
    pub blanks: Vec<Size>,
    /// Which sheet and how many, each size from sheets of its own; or why there are none.
    pub bought: Result<(SheetStock, i128), MakingError>,
}

/// One thing that hangs: a piece, or all pieces that share a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Thing {
    /// Which pieces of the plan, by their index.
    pub pieces: Vec<usize>,
    /// Its parts from the front to the back, with what all of each kind weigh.
    pub parts: Vec<(CutPart, Mass)>,
    /// What is not weighed, in words; empty for nothing.
    pub not_weighed: &'static str,
    /// What all of it weighs.
    pub mass: Mass,
    /// Its prints.
    pub prints: Vec<Print>,
    /// The openings to cut, the top mat's before the inner one's, in the order of the pieces.
    pub mats: Vec<(&'static str, MatCut)>,
    /// Its legs and the moulding in them, if it has a mitred frame.
    pub rails: Option<(Rails, cut_list::Moulding)>,
    /// Of which moulding those are.
    pub section: Option<Section>,
    /// What is cut from sheets.
    pub blanks: Vec<Blank>,
    /// The box that it is sent in.
    pub carton: Carton,
    /// Which carriers of the stock take that, and what each charges its volume as at least.
    pub carriers: Vec<(String, Option<Charged>)>,
}

impl Thing {
    /// The most that it may weigh in milligrams, by which fixings and wires are chosen: 0 where a part of it is not weighed, as an
    /// original, so that nobody chooses them by its frame alone.
    #[must_use]
    pub fn rated_mg(&self) -> i64 {
        if self.not_weighed.is_empty() { self.mass.most_mg } else { 0 }
    }
}

/// A part that is cut from a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// Which part.
    pub part: &'static str,
    /// Of what.
    pub material: Material,
    /// How thick.
    pub thickness: Length,
    /// In which colour; nothing where it does not matter.
    pub colour: Option<Colour>,
    /// How large.
    pub size: Size,
    /// The smallest sheet of the stock that takes it, or why there is none.
    pub sheet: Result<SheetStock, CutError>,
}

/// A print to order.
#[derive(Clone, Debug, PartialEq)]
pub struct Print {
    /// What is printed on: the sheet, the canvas, the metal.
    pub size: Size,
    /// The picture on it: what is printed of a canvas, or within the border of a sheet.
    pub picture: Size,
    /// The pixels that the picture needs at the resolution wished for.
    pub pixels: (u64, u64),
    /// The rolls of the stock that take it; empty for metal.
    pub rolls: Vec<String>,
    /// How it goes into a tube: the narrowest of the stock that is wide enough for paper, or for canvas. Nothing for what cannot be
    /// rolled.
    pub tube: Option<(String, Rolled)>,
}

/// One moulding, for all frames that are made of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Moulding {
    /// What it is.
    pub section: Section,
    /// What it is in words: its material, its finish and its face, and whatever else tells it from the others to buy.
    pub words: String,
    /// What to buy of it, or why no stick of the stock will do.
    pub bought: Result<Sticks, MakingError>,
}

/// Moulding to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Sticks {
    /// In which length.
    pub stick: Stick,
    /// What is cut from each. Legs are counted through the frames: top, bottom, left, right of the first, then of the next.
    pub sticks: Vec<Cuts>,
    /// The outside lengths of all legs, in that order.
    pub rails: Vec<Length>,
}

/// Packing on each side of a box: common practice has 2 to 3 in, no source.
pub const PACKING: Length = Length::inches(2);
/// Canvas bars, blocks and spacers are calculated as this wood (about 450 kg to the cubic metre, from memory).
const BARE_WOOD: Material = Material::Poplar;

/// Works out what it takes to make a plan.
#[must_use]
pub fn making(plan: &Plan, figures: &Figures, stock: &Stock) -> Making {
    let mut things = things(plan, figures, stock);
    let mouldings = mouldings_for(&things, stock, plan.units);
    // Together frames may be cut from another stick than each by itself.
    for Moulding { section, bought, .. } in &mouldings {
        let Ok(Sticks { stick, .. }) = bought else { continue };
        for thing in things.iter_mut().filter(|thing| thing.section == Some(*section)) {
            thing.rails = thing.rails.map(|(rails, moulding)| (rails, moulding.with_kerf(stick.kerf)));
        }
    }
    let sheets = sheets_for(&things, stock, plan.units.first);
    Making { things, mouldings, sheets }
}

/// For each material, thickness and colour the sheets that waste least: of those that take every blank, the ones of which the least
/// area is bought; of equals, the first. Sheets of whole units of the plan's system go before all others, as sticks do.
fn sheets_for(things: &[Thing], stock: &Stock, system: System) -> Vec<Sheets> {
    type Kind = (Material, Length, Option<Colour>);
    let mut groups: Vec<(Kind, Vec<&Blank>)> = Vec::new();
    for blank in things.iter().flat_map(|thing| &thing.blanks) {
        let kind = (blank.material, blank.thickness, blank.colour);
        match groups.iter_mut().find(|group| group.0 == kind) {
            Some(group) => group.1.push(blank),
            None => groups.push((kind, vec![blank])),
        }
    }
    let area = |size: Size| i128::from(size.width.units()) * i128::from(size.height.units());
    groups
        .into_iter()
        .map(|((material, thickness, colour), parts)| {
            let blanks: Vec<Size> = parts.iter().map(|blank| blank.size).collect();
            let rows = stock
                .sheets
                .iter()
                .filter(|row| row.material == material && is_as_thick(row.thickness, thickness))
                .filter_map(|row| Some((row, sheets_needed(&blanks, row.size)?)));
            let bought = |(row, count): &(&SheetStock, i128)| area(row.size) * count;
            let own = rows.clone().filter(|(row, _)| is_in_whole_units(row.size, system)).min_by_key(bought);
            let least = own.or_else(|| rows.min_by_key(bought));
            // Where no sheet takes all of them, one of them has said why.
            let refusal = parts.iter().find_map(|blank| blank.sheet.as_ref().err().cloned());
            let refusal = refusal.map_or(MakingError::NoOneSheet, MakingError::Cut);
            Sheets {
                material,
                thickness,
                colour,
                bought: least.map(|(row, count)| (row.clone(), count)).ok_or(refusal),
                blanks,
            }
        })
        .collect()
}

/// Works out what hangs, without the moulding for all of it together.
#[must_use]
pub fn things(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<Thing> {
    let hung = if plan.shared.is_some() { plan.pieces.len() } else { 1 };
    let indices: Vec<usize> = (0..plan.pieces.len()).collect();
    indices.chunks(hung.max(1)).map(|pieces| thing(plan, figures, stock, pieces)).collect()
}

/// The moulding to buy: legs of one moulding from sticks of their own.
fn mouldings_for(things: &[Thing], stock: &Stock, units: Units) -> Vec<Moulding> {
    let mut groups: Vec<(Section, Vec<Length>)> = Vec::new();
    for (section, rails) in
        things.iter().filter_map(|thing| thing.section.zip(thing.rails.map(|(rails, _)| rails)))
    {
        let rails = rails.long_points();
        match groups.iter_mut().find(|group| group.0 == section) {
            Some(group) => group.1.extend(rails),
            None => groups.push((section, rails.into())),
        }
    }
    let sections: Vec<Section> = groups.iter().map(|group| group.0).collect();
    groups
        .into_iter()
        .map(|(section, rails)| Moulding {
            section,
            words: section.words(&sections, stock, units),
            bought: sticks_for(rails, stock, units.first),
        })
        .collect()
}

/// The sticks that waste least: of all lengths on offer, the one of which least is bought; of equals, the first. Whoever works
/// in inches buys by the inch: sticks of whole units of the plan's system go before all others.
fn sticks_for(rails: Vec<Length>, stock: &Stock, system: System) -> Result<Sticks, MakingError> {
    let mut refusal = MakingError::NoSticks;
    let mut best: Option<(Length, Sticks)> = None;
    let unit = system.bare_unit().length();
    let own: Vec<&Stick> =
        stock.sticks.iter().filter(|stick| stick.length.to_nearest(unit) == stick.length).collect();
    let sticks =
        if own.iter().any(|stick| pack(&rails, stick).is_ok()) { own } else { stock.sticks.iter().collect() };
    for stick in sticks {
        match pack(&rails, stick) {
            Ok(sticks) => {
                let bought = stick.length * i64::try_from(sticks.len()).unwrap_or(i64::MAX);
                if best.as_ref().is_none_or(|(least, _)| bought < *least) {
                    best = Some((bought, Sticks { stick: stick.clone(), sticks, rails: rails.clone() }));
                }
            }
            Err(why) => refusal = MakingError::Cut(why),
        }
    }
    best.map(|(_, sticks)| sticks).ok_or(refusal)
}

/// The parts of a thing as they are gathered.
struct Bench {
    parts: Vec<(CutPart, Mass)>,
    not_weighed: &'static str,
    blanks: Vec<Blank>,
    /// In which notes tell lengths.
    units: Units,
}

impl Bench {
    /// A length as the plan's units have it, as finely as it is cut.
    fn text(&self, length: Length) -> String {
        shown(length, Grade::Cut, self.units)
    }

    fn add(&mut self, name: &str, material: Option<Material>, extent: Extent, note: String, mass: Mass) {
        let made_of = material.map_or(String::new(), |material| material.name().to_owned());
        let name = name.to_owned();
        self.parts.push((CutPart { name, quantity: 1, material, made_of, extent, note }, mass));
    }

    /// A mat: a board of a colour, less its openings.
    fn mat(
        &mut self,
        stock: &Stock,
        name: &'static str,
        (board, colour): (Board, Colour),
        size: Size,
        openings: &[Size],
    ) {
        let before = self.blanks.len();
        self.board(stock, name, board, size, openings);
        let Some(blank) = self.blanks.get_mut(before) else { return };
        blank.colour = Some(colour);
        if let Some((part, _)) = self.parts.last_mut() {
            part.made_of = coloured(board.material, Some(colour));
        }
    }

    /// A part cut from a sheet, less its openings.
    fn board(&mut self, stock: &Stock, name: &'static str, board: Board, size: Size, openings: &[Size]) {
        let Board { material, thickness } = board;
        if thickness <= Length::ZERO {
            return;
        }
        let area = openings.iter().fold(Area::of(size), |area, opening| area - Area::of(*opening));
        let sheet = own_sheet_for(stock, material, thickness, size, self.units.first).cloned();
        let mass = match &sheet {
            Ok(sheet) => weigh::cut_from(stock, sheet, thickness, area),
            Err(_) => weigh::sheet(stock, material, thickness, area),
        };
        let note = plain(thickness) + " thick";
        self.add(name, Some(material), Extent::Size(size), note, mass);
        self.blanks.push(Blank { part: name, material, thickness, colour: None, size, sheet });
    }

    /// Two level bars of wood and two upright ones, each pair with what it weighs of the whole.
    fn pairs(
        &mut self,
        stock: &Stock,
        name: &str,
        lengths: Size,
        (whole, across): (Volume, Volume),
        note: &str,
    ) {
        let density = stock.density(BARE_WOOD);
        let mass = weigh::by_density(across, &density);
        let rest = weigh::by_density(whole, &density) - mass;
        for (length, mass) in [(lengths.width, mass), (lengths.height, rest)] {
            if length > Length::ZERO {
                let extent = Extent::Length(length);
                self.add(name, Some(BARE_WOOD), extent, note.to_owned(), mass);
                if let Some((part, _)) = self.parts.last_mut() {
                    part.quantity = 2;
                }
            }
        }
    }

    fn wood(&mut self, stock: &Stock, name: &str, extent: Extent, volume: Volume, note: String) {
        let mass = weigh::by_density(volume, &stock.density(BARE_WOOD));
        self.add(name, Some(BARE_WOOD), extent, note, mass);
    }
}

/// A material in words, with its colour where it has one.
#[must_use]
pub fn coloured(material: Material, colour: Option<Colour>) -> String {
    let colour = colour.map(|colour| [", ", &stock::name_of(&stock::MATS, colour)].concat());
    material.name().to_owned() + &colour.unwrap_or_default()
}

fn thing(plan: &Plan, figures: &Figures, stock: &Stock, pieces: &[usize]) -> Thing {
    let parts: Vec<(&Piece, &BuildUp)> =
        pieces.iter().map(|&index| (&plan.pieces[index], &figures.build_ups[index])).collect();
    let units = Units { both: false, ..plan.units };
    let mut bench = Bench { parts: Vec::new(), not_weighed: "", blanks: Vec::new(), units };
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
    let (rails, section) = match (frame, &sizes.frame, first.finish.floater()) {
        (Some(frame), Some(cut), _) => (Some((frame.face, cut.nominal)), Some(Section::of_frame(frame))),
        (_, _, Some(floater)) => (
            sizes.floater_inside.map(|inside| (floater.face, inside.size)),
            Some(Section::of_floater(floater, stock)),
        ),
        _ => (None, None),
    };
    let rails = rails.map(|(face, nominal)| {
        let rails = Rails::of(sizes.outside, face);
        let bought = sticks_for(rails.long_points().into(), stock, plan.units.first);
        let kerf = bought.map_or(Length::ZERO, |sticks| sticks.stick.kerf);
        (rails, cut_list::moulding(sizes.outside, nominal, face, kerf))
    });
    let mass = weigh::estimate(bench.parts.iter().map(|(_, mass)| *mass));
    let carton = Carton::round(sizes.outside, sizes.depth, PACKING);
    Thing {
        pieces: pieces.to_vec(),
        mats: parts.iter().flat_map(|(_, sizes)| mat_cuts(first, sizes)).collect(),
        prints: parts.iter().filter_map(|(piece, sizes)| print(plan, stock, piece, sizes)).collect(),
        blanks: bench.blanks,
        parts: bench.parts,
        not_weighed: bench.not_weighed,
        carriers: takers(stock, carton, mass)
            .map(|parcel| {
                (parcel.name.clone(), parcel.volume_divisor.map(|divisor| carton.volume_weight(divisor)))
            })
            .collect(),
        mass,
        rails,
        section,
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
        cut("top mat", *upper_opening).into_iter().chain(cut("bottom mat", *opening)).collect()
    } else {
        cut("mat", *opening).into_iter().collect()
    }
}

/// Paper is rolled no tighter than into 3 in, canvas into 4 in (common practice, no source).
const TUBE_FOR_PAPER: Length = Length::inches(3);
const TUBE_FOR_CANVAS: Length = Length::inches(4);

/// The narrowest tube of the stock that is as wide as this within, otherwise the widest.
fn tube_for(stock: &Stock, least: Length) -> Option<&Tube> {
    let wide = stock.tubes.iter().filter(|tube| tube.diameter >= least).min_by_key(|tube| tube.diameter);
    wide.or_else(|| stock.tubes.iter().max_by_key(|tube| tube.diameter))
}

/// The print to order for a piece; none for an original.
fn print(plan: &Plan, stock: &Stock, piece: &Piece, sizes: &BuildUp) -> Option<Print> {
    let fineness = Exact::from_integer(plan.fineness.into());
    let takes = |size: Size| {
        let rolls = stock.rolls.iter().filter(|roll: &&Roll| roll.takes(size));
        rolls.map(|roll| roll.name.clone()).collect::<Vec<_>>()
    };
    let tube = |least: Length, size: Size| {
        let tube = tube_for(stock, least)?;
        Some((tube.name.clone(), roll_up(size, tube)))
    };
    let picture = sizes.picture.size;
    let pixels = pixels_for(picture, fineness);
    Some(match &piece.finish {
        Finish::Paper(_) => {
            let size = sizes.sheet.size;
            Print { size, picture, pixels, rolls: takes(size), tube: tube(TUBE_FOR_PAPER, size) }
        }
        Finish::Canvas(_) => {
            let size = sizes.cloth?;
            Print { size, picture, pixels, rolls: takes(size), tube: tube(TUBE_FOR_CANVAS, size) }
        }
        Finish::Aluminium(_) => {
            Print { size: sizes.sheet.size, picture, pixels, rolls: Vec::new(), tube: None }
        }
        Finish::Original(_) => return None,
    })
}
