//! Cut list: what is bought, cut and packed for a piece. Legs from sticks of moulding, boards from sheets, the cutter's measures of a
//! mat, and the parcel that a carrier takes.
//!
//! Functions of plain sizes: they take what [`crate::framing`] works out and what a [`crate::stock::Stock`] has, and say so in a
//! [`CutError`] where something cannot be had.
//!
//! ```
//! use overmantel::{cut_list::{pack, Rails}, geometry::Size, length::Length, stock::Stock};
//! let outside = Size::new(Length::inches_ratio(169, 8), Length::inches_ratio(201, 8));
//! let rails = Rails::of(outside, Length::inches_ratio(3, 4));
//! let eight_feet = &Stock::offered().sticks[0];
//! let sticks = pack(&rails.long_points(), eight_feet).unwrap();
//! assert_eq!(sticks.len(), 1, "2 × 21 1/8 + 2 × 25 1/8 + 3 × 1/8 = 92 7/8 of the 95 in that the trim leaves");
//! assert_eq!(sticks[0].left, Length::inches_ratio(17, 8));
//! ```

use crate::geometry::Size;
use crate::length::Length;
use crate::plan::Material;

mod error;
mod mat;
mod parcel;
mod rails;
mod sheets;

pub use error::CutError;
pub use mat::{MatCut, diagonal, mat_cut};
pub use parcel::{Carton, Charged, Rolled, billed, refusal, roll_up, takers};
pub use rails::{Cuts, MOST_RAILS, Moulding, Rail, Rails, moulding, pack};
pub use sheets::{grid_yield, is_as_thick, is_in_whole_units, own_sheet_for, sheet_for, sheets_needed};

/// A thing to be made or bought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutPart {
    /// What it is, such as "glazing" or "leg, long".
    pub name: String,
    /// How many of it.
    pub quantity: u32,
    /// What it is made of, where that is a material with a density; paper, canvas and wire are not.
    pub material: Option<Material>,
    /// What it is made of in words, with its colour and finish where it has them; empty where the name says it.
    pub made_of: String,
    /// How large it is.
    pub extent: Extent,
    /// What else the maker needs to know; empty for nothing.
    pub note: String,
}

/// How large a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// A sheet or board: width and height, of which the width lies across the wall.
    Size(Size),
    /// A leg, a wire.
    Length(Length),
    /// What is counted and not measured: a hook, a hinge.
    Each,
}
