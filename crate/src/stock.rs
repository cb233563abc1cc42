//! Stock: what is offered by name, and what a workshop has on its shelves.
//!
//! Colours are tables of this program. Everything with a measure is a [`Stock`]: data that [`Stock::offered`] starts with
//! and that a file of the user's own replaces or adds to ([`mod@file`]). Names are generic and our own; each list says
//! beside its rows where they are from.
//!
//! ```
//! use overmantel::{length::Length, plan::Material, stock::Stock};
//! let own = r#"{ "overmantel_stock": 1, "bars": { "add": [{ "name": "low", "depth": "1/2 in", "width": "1 in" }] } }"#;
//! let stock = Stock::read(own).unwrap();
//! assert_eq!(stock.bars.len(), Stock::offered().bars.len() + 1);
//! assert_eq!(stock.density(Material::Glass).kg_per_m3, 2500, "what the file does not name stays");
//! ```

use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{Floater, Frame, Material, System};

mod check;
mod colours;
pub mod file;
mod finish;
mod named;
mod offered;
mod rows;
pub mod thresholds;

pub use colours::{EDGES, FLOORS, FURNITURE, MATS, MOULDINGS, Named, NoColour, PAINTS, find, name_of};
pub use finish::{a_colour, finish};
pub use named::{name_in, name_to_buy};
pub use offered::PRINTS_INCHES;

/// Limits of a stock, held when a file is read.
pub mod limits {
    /// Bytes of a stock file at most.
    pub const FILE_BYTES: usize = 4 * 1024 * 1024;
    /// Rows of one list at most, those on offer and those added together.
    pub const ROWS: usize = 400;
    /// Characters of a name, a series or a source at most.
    pub const NAME: usize = 80;
    /// Kilograms of a cubic metre at most; the densest metal that can be had is below 23,000, and no part is of it.
    pub const KG_PER_M3: u32 = 20_000;
    /// Grams of a square metre of a sheet at most.
    pub const GRAMS_PER_SQUARE_METRE: u32 = 200_000;
    /// Grams that a parcel weighs at most: ten tonnes.
    pub const PARCEL_GRAMS: u32 = 10_000_000;
    /// Grams that a hanger carries at most: a tonne.
    pub const HANGER_GRAMS: u32 = 1_000_000;
    /// The divisor of a volume weight at most.
    pub const VOLUME_DIVISOR: u32 = 100_000;
}

/// Everything that is on offer, list by list. Within a list every name is its own.
///
/// ```
/// use overmantel::{length::Length, stock::Stock};
///
/// let standard = Stock::offered();
/// // A file of your own says what is different: here, the only sticks of moulding.
/// let ours = Stock::read(r#"{ "overmantel_stock": 1, "sticks": { "replace": [
///     { "name": "ours", "length": "13 ft", "kerf": "1/8 in", "trim": "2 in" }] } }"#)?;
/// assert_eq!((ours.sticks.len(), ours.sticks[0].length), (1, Length::inches(156)));
/// assert_eq!(ours.sizes, standard.sizes);
/// assert_eq!(Stock::read(&ours.write())?, ours);
/// # Ok::<(), overmantel::stock::file::StockError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stock {
    /// Sizes that are sold by name.
    pub sizes: Vec<StandardSize>,
    /// Rolls of paper or canvas that can be printed on.
    pub rolls: Vec<Roll>,
    /// Boards, glazing and metal, as sheets to cut from.
    pub sheets: Vec<SheetStock>,
    /// Mouldings and floater frames by their section.
    pub mouldings: Vec<Profile>,
    /// Lengths in which mouldings are bought.
    pub sticks: Vec<Stick>,
    /// What carriers take.
    pub parcels: Vec<Parcel>,
    /// Tubes for what is sent rolled.
    pub tubes: Vec<Tube>,
    /// How heavy each material is; one row for every [`Material`].
    pub densities: Vec<Density>,
    /// Bars that canvas is stretched on.
    pub bars: Vec<Bar>,
    /// What is screwed to a back to hang it by.
    pub hangers: Vec<SoldHanger>,
    /// The limits of findings that a list of the user's own moves, by their names, with where they then are.
    pub thresholds: Vec<(&'static str, thresholds::Amount)>,
}

impl Stock {
    /// What is on offer without a list of the user's own.
    #[must_use]
    pub fn offered() -> Self {
        offered::stock()
    }

    /// Reads a list of the user's own over what is on offer; see [`mod@file`].
    ///
    /// # Errors
    /// Which list and which row it is, and what is allowed there.
    pub fn read(text: &str) -> Result<Self, file::StockError> {
        file::read(text)
    }

    /// Writes the whole stock as a file that [`Self::read`] takes; the same stock gives the same text.
    #[must_use]
    pub fn write(&self) -> String {
        file::write(self)
    }

    /// How heavy a material is: the row of this stock, or where it has none, that of [`Self::offered`].
    #[must_use]
    pub fn density(&self, material: Material) -> Density {
        self.densities
            .iter()
            .find(|row| row.material == material)
            .cloned()
            .unwrap_or_else(|| offered::density(material))
    }

    /// The width of the bars of this depth, or of the nearest to it within 1/32 in: 38 mm are sold by themselves and as 1 1/2 in. Where none is in
    /// the stock, [`BAR_WIDTH`].
    ///
    /// ```
    /// use overmantel::{length::Length, stock::Stock};
    /// let own = r#"{ "overmantel_stock": 1, "bars": { "replace": [{ "name": "slim", "depth": "3/4 in", "width": "1 in" }] } }"#;
    /// assert_eq!(Stock::read(own).unwrap().bar_width(Length::mm(19)), Length::inches(1));
    /// assert_eq!(Stock::offered().bar_width(Length::inches(7)), Length::inches_ratio(5, 4));
    /// ```
    #[must_use]
    pub fn bar_width(&self, depth: Length) -> Length {
        let away = |bar: &&Bar| (bar.depth - depth).abs();
        let near = self.bars.iter().filter(|bar| away(bar) <= Length::inches_ratio(1, 32));
        near.min_by_key(away).map_or(BAR_WIDTH, |bar| bar.width)
    }

    /// The grams of a square metre of a material in exactly this thickness, where a sheet of it says so.
    #[must_use]
    pub fn grams_per_square_metre(&self, material: Material, thickness: Length) -> Option<u32> {
        self.sheets
            .iter()
            .filter(|sheet| (sheet.material, sheet.thickness) == (material, thickness))
            .find_map(|sheet| sheet.grams_per_square_metre)
    }
}

/// A size that is sold by name: of a print, of a frame (its nominal size), or of a sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StandardSize {
    /// What it is called, such as "16 × 20 in", "50 × 70 cm" or "A3".
    pub name: String,
    /// The series it belongs to, such as "ISO 216 A" or "US".
    pub series: String,
    /// The system of units in which it is defined.
    pub system: System,
    /// Width and height as listed; it can be turned.
    pub size: Size,
    /// Whether prints of it are on offer.
    pub is_print: bool,
    /// Whether frames of this nominal size are on offer.
    pub is_frame: bool,
}

/// A roll of paper or canvas, or the practice of a shop that prints from one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Roll {
    /// What it is called.
    pub name: String,
    /// Width of the roll.
    pub width: Length,
    /// Left unprinted along each edge of the roll.
    pub margin: Length,
    /// The longest print, where there is such a limit.
    pub longest: Option<Length>,
}

impl Roll {
    /// Whether a sheet of this size can be printed, either way up: its smaller measure with a margin on both sides across the
    /// roll, its larger one along it.
    #[must_use]
    pub fn takes(&self, sheet: Size) -> bool {
        let (across, along) = (sheet.width.min(sheet.height), sheet.width.max(sheet.height));
        across + self.margin * 2 <= self.width && self.longest.is_none_or(|longest| along <= longest)
    }
}

/// A sheet of board, glazing or metal to cut from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SheetStock {
    /// What it is called.
    pub name: String,
    /// What it is made of.
    pub material: Material,
    /// Its thickness.
    pub thickness: Length,
    /// Width and height of the sheet; it can be turned.
    pub size: Size,
    /// Its own weight, where it is known better than by its density.
    pub grams_per_square_metre: Option<u32>,
}

/// A moulding or a floater frame by its section.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Profile {
    /// What it is called.
    pub name: String,
    /// Whether it stands round a canvas with a gap, and has no lip and no rabbet.
    pub is_floater: bool,
    /// Width seen from the front, from the outer edge to the sight edge.
    pub face: Length,
    /// How far the lip reaches over what is framed.
    pub rabbet_width: Length,
    /// From the back of the lip to the back of the moulding.
    pub rabbet_depth: Length,
    /// From its back to its front.
    pub depth: Length,
    /// What it is made of, as far as its weight goes.
    pub material: Material,
    /// The wood by its own name, such as ash, where `material` only stands for its weight. Default: that of the material.
    pub wood: Option<String>,
    /// The colour it is sold in. Default: any.
    pub colour: Option<Colour>,
}

impl Profile {
    /// Whether a frame is of this moulding: of its section, its material and, where it has one, its colour.
    #[must_use]
    pub fn is_of_frame(&self, frame: &Frame) -> bool {
        let Frame { face, rabbet_width, rabbet_depth, depth, material, colour, .. } = *frame;
        let own = (self.face, self.rabbet_width, self.rabbet_depth, self.depth, self.material);
        !self.is_floater
            && own == (face, rabbet_width, rabbet_depth, depth, material)
            && self.colour.is_none_or(|own| own == colour)
    }

    /// Whether a floater frame is of this one: of its section and, where it has one, its colour.
    #[must_use]
    pub fn is_of_floater(&self, floater: &Floater) -> bool {
        self.is_floater
            && (self.face, self.depth) == (floater.face, floater.depth)
            && self.colour.is_none_or(|own| own == floater.colour)
    }

    /// What it is made of, by the name of its wood where it has one.
    #[must_use]
    pub fn made_of(&self) -> &str {
        self.wood.as_deref().unwrap_or(self.material.name())
    }

    /// The names by which a price may be only for it: its own, and what it is made of.
    pub(crate) fn names(&self) -> [String; 2] {
        [self.name.clone(), self.made_of().to_owned()]
    }
}

/// A length of moulding as it is bought.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stick {
    /// What it is called.
    pub name: String,
    /// Its length.
    pub length: Length,
    /// What the saw takes with each cut between two legs.
    pub kerf: Length,
    /// Cut off its two ends together, before a leg is cut.
    pub trim: Length,
}

/// What a carrier takes, and how it charges for volume. Carriers change these every year.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Parcel {
    /// What it is called.
    pub name: String,
    /// The longest side.
    pub longest: Option<Length>,
    /// The longest side and the girth round the other two, L + 2(W + H).
    pub length_and_girth: Option<Length>,
    /// The heaviest, in grams.
    pub most_grams: Option<u32>,
    /// How volume is charged as weight.
    pub volume_divisor: Option<VolumeDivisor>,
}

/// How a carrier turns volume into the weight that it charges at least.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VolumeDivisor {
    /// So many cubic inches to the pound.
    CubicInchesPerPound(u32),
    /// So many cubic centimetres to the kilogram.
    CubicCentimetresPerKilogram(u32),
}

/// A tube for a print that is sent rolled along its longer side.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tube {
    /// What it is called.
    pub name: String,
    /// Its diameter within.
    pub diameter: Length,
    /// By how much it is longer than the print within it.
    pub spare: Length,
}

/// How heavy a material is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Density {
    /// Of what.
    pub material: Material,
    /// Kilograms per cubic metre, most likely.
    pub kg_per_m3: u32,
    /// The least that is met with.
    pub least: u32,
    /// The most that is met with.
    pub most: u32,
    /// Where the numbers are from.
    pub source: String,
}

/// A bar that canvas is stretched on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bar {
    /// What it is called.
    pub name: String,
    /// From its back to the face of the canvas.
    pub depth: Length,
    /// Its width, seen from the back.
    pub width: Length,
}

/// A hanger as it is sold.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SoldHanger {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub fitting: Fitting,
    /// The most that one of them carries, in grams; of a cleat, each [`CLEAT_PART`] of it.
    pub carries_grams: u32,
    /// How deep the wood must be for its screws, or for the recess of a plate.
    pub least_wood: Length,
}

/// Width of the bars that a canvas is stretched on, where no row says so (common practice, no source).
pub const BAR_WIDTH: Length = Length::inches_ratio(5, 4);

/// What is counted of a cleat: 12 in.
pub const CLEAT_PART: Length = Length::inches(12);

/// What is screwed to a back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Fitting {
    /// A D-ring; a wire is tied to two of them.
    #[default]
    Ring,
    /// A French cleat.
    Cleat,
    /// A toothed strip.
    Sawtooth,
    /// A keyhole plate.
    Keyhole,
}
