//! Resolution: how many pixels per inch a print has, how large a file may be printed, and what an eye makes of it.
//!
//! Only a file's pixels count. The density that a file declares of itself is a wish of whoever saved it and is not read.
//!
//! What an eye resolves: with decimal acuity V it tells lines apart that are 1/V of an arc minute apart (grade 1.0 is a gap
//! of one arc minute: ISO 8596, as quoted). A pixel of 1/ppi inches at a distance of d inches spans an angle whose tangent is
//! 1 / (ppi × d). So
//!
//! - what an eye needs at d: ppi = V × cot 1′ / d, by [`needed_ppi`];
//! - from where pixels merge at a ppi: d = V × cot 1′ / ppi, by [`merging_distance`] for V = 1.
//!
//! But people walk up to a picture that interests them. So a print below [`ACCEPTABLE_PPI`] or [`FROM_AFAR_PPI`] is said to
//! be so from however far it is meant to be seen.
//!
//! ```
//! use overmantel::{geometry::Size, print::{Exact, sharpness::{largest, pixels_for}}};
//! let fine = Exact::from_integer(240);
//! assert_eq!(largest((4800, 7200), None, fine), Some(Size::inches(20, 30)), "4800 / 240 and 7200 / 240");
//! assert_eq!(largest((4800, 7200), Some(Size::inches(4, 5)), fine), Some(Size::inches(20, 25)), "of 4800 × 6000 px");
//! assert_eq!(pixels_for(Size::inches(16, 20), fine), (3840, 4800), "16 × 240 and 20 × 240");
//! ```

use super::{Cut, Exact, fill, units};
use crate::geometry::Size;
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::Focus;
use crate::rounding::{Mode, divide};

/// A usual resolution of prints.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Standard {
    /// Pixels per inch.
    pub ppi: u32,
    /// What it is good for, to stand behind "is".
    pub words: &'static str,
}

/// The usual standards, finest first: common practice, no source.
pub const STANDARDS: [Standard; 5] = [
    Standard { ppi: 300, words: "fine from close up" },
    Standard { ppi: 240, words: "fine for inkjet prints" },
    Standard { ppi: 200, words: "good" },
    Standard { ppi: ACCEPTABLE_PPI, words: "acceptable on canvas and for large prints" },
    Standard { ppi: FROM_AFAR_PPI, words: "enough only from a distance" },
];

/// Below this a print is coarse for whoever walks up to it: common practice, no source.
pub const ACCEPTABLE_PPI: u32 = 150;
/// Below this a print is coarse from anywhere in a room: common practice, no source.
pub const FROM_AFAR_PPI: u32 = 100;

/// The finest of the [`STANDARDS`] that a print keeps; `None` below all of them.
#[must_use]
pub fn standard_kept(ppi: Exact) -> Option<Standard> {
    STANDARDS.into_iter().find(|standard| ppi >= Exact::from_integer(standard.ppi.into()))
}

/// The largest print of a file that keeps a ppi: of the whole picture, or of what a crop to a shape leaves of it, the shape
/// being that of any size. `None` when there is no ppi to keep (zero or less).
///
/// size = pixels / ppi, to the unit below, so that the ppi is surely kept. Inverse: [`pixels_for`].
///
/// `picture_px` is at least one in each direction, and the shape is positive.
#[must_use]
pub fn largest(picture_px: (u32, u32), shape: Option<Size>, ppi: Exact) -> Option<Size> {
    match shape {
        None => {
            let side = |pixels: u32| length(Exact::from_integer(pixels.into()) / ppi, Mode::Down);
            (ppi > Exact::from_integer(0)).then(|| Size::new(side(picture_px.0), side(picture_px.1)))
        }
        Some(shape) => largest_of(&fill(picture_px, shape, Focus::MIDDLE), ppi),
    }
}

/// The largest print of a cut that keeps a ppi, to the unit below; `None` when there is no ppi to keep.
#[must_use]
pub fn largest_of(cut: &Cut, ppi: Exact) -> Option<Size> {
    let side = |pixels: Exact| length(pixels / ppi, Mode::Down);
    (ppi > Exact::from_integer(0)).then(|| Size::new(side(cut.source.width), side(cut.source.height)))
}

/// The largest image of a cut that keeps a ppi, when so much of what is cut is printed beyond the image in all, as on the edges
/// of a canvas, to the unit below; `None` when nothing is left.
#[must_use]
pub fn largest_image(cut: &Cut, ppi: Exact, beyond: Size) -> Option<Size> {
    let printed = largest_of(cut, ppi)?;
    let image = Size::new(printed.width - beyond.width, printed.height - beyond.height);
    image.is_positive().then_some(image)
}

/// The pixels that a size needs at a ppi: size × ppi, rounded up to whole pixels. Inverse: [`largest`].
#[must_use]
pub fn pixels_for(size: Size, ppi: Exact) -> (u64, u64) {
    let side = |length: Length| {
        let pixels = ppi * Exact::new(units(length), i128::from(UNITS_PER_INCH));
        u64::try_from(divide(*pixels.numer(), *pixels.denom(), Mode::Up).max(0)).unwrap_or(u64::MAX)
    };
    (side(size.width), side(size.height))
}

/// A number of inches as a length.
fn length(inches: Exact, mode: Mode) -> Length {
    let units = inches * i128::from(UNITS_PER_INCH);
    Length::from_ratio(*units.numer(), *units.denom(), mode)
}

/// cot 1′, to twelve decimals: an arc minute is x = π / 10800, and cot x = 1/x - x/3 - x³/45 - …
/// = 3437.746770784939… - 0.000096962736… - 0.0000000000005… = 3437.746673822202….
const COTANGENT_OF_A_MINUTE: Exact = Exact::new_raw(3_437_746_673_822_202, 1_000_000_000_000);

/// Decimal acuity 1.0, that of a good eye (ISO 8596, as quoted).
pub const ACUITY: Exact = Exact::new_raw(1, 1);

/// The pixels per inch that an eye of this acuity can still tell apart from this distance, which is more than zero.
/// Inverse: [`merging_distance`].
///
/// # Panics
/// When the distance is zero.
#[must_use]
pub fn needed_ppi(distance: Length, acuity: Exact) -> Exact {
    acuity * COTANGENT_OF_A_MINUTE / Exact::new(units(distance), i128::from(UNITS_PER_INCH))
}

/// The distance from which an eye of decimal acuity 1.0 can't tell pixels apart: one pixel then spans one arc minute, the
/// gap of the Landolt ring of grade 1.0 (ISO 8596, as quoted). Inverse: [`needed_ppi`].
///
/// distance = cot 1′ / ppi, to the nearest unit, with cot 1′ = 3437.7467.
///
/// ```
/// use overmantel::print::{Exact, merging_distance};
/// assert!((merging_distance(Exact::from_integer(300)).to_inches() - 11.459).abs() < 0.001);
/// ```
///
/// # Panics
/// When the ppi is zero.
#[must_use]
pub fn merging_distance(pixels_per_inch: Exact) -> Length {
    merging_distance_for(pixels_per_inch, ACUITY)
}

/// The same for an eye of any decimal acuity, to the nearest unit.
///
/// # Panics
/// When the ppi is zero.
#[must_use]
pub fn merging_distance_for(pixels_per_inch: Exact, acuity: Exact) -> Length {
    length(acuity * COTANGENT_OF_A_MINUTE / pixels_per_inch, Mode::HalfAway)
}

/// The distance at which a print in the hand is looked at: 12 in. Common practice, no source.
pub const READING_DISTANCE: Length = Length::inches(12);

/// What an eye makes of a print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// No eye of this acuity tells its pixels apart, not even at reading distance.
    Crisp,
    /// None does from where it is seen; whoever walks up does.
    HoldsFromThere,
    /// Pixels are coarser than the eye resolves from where it is seen.
    Soft,
}

impl Verdict {
    /// In words, to stand behind "the print is" or "it".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Crisp => "crisp even at reading distance",
            Self::HoldsFromThere => "sharp from where people stand, softer up close",
            Self::Soft => "soft from where people stand",
        }
    }
}

/// What is said of a coarse print from however far it is seen, since people walk up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Coarse {
    /// Below [`ACCEPTABLE_PPI`].
    ForThoseWhoWalkUp,
    /// Below [`FROM_AFAR_PPI`].
    FromAnywhere,
}

/// What an eye makes of a print, with its numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sharpness {
    /// Pixels per inch of the print.
    pub ppi: Exact,
    /// What the eye resolves from where it is seen.
    pub needed_there: Exact,
    /// What the eye resolves at reading distance, or from where it is seen if that is nearer.
    pub needed_in_the_hand: Exact,
    /// From where its pixels merge.
    pub merges_from: Length,
    /// What follows.
    pub verdict: Verdict,
    /// Whether it is coarse whatever the distance.
    pub coarse: Option<Coarse>,
}

/// Judges a print by its ppi, from where it is seen, and for an eye of this decimal acuity ([`ACUITY`] by default); all three
/// are more than zero.
///
/// ```
/// use overmantel::{length::Length, print::{Exact, sharpness::{ACUITY, Coarse, Verdict, sharpness}}};
/// let found = sharpness(Exact::from_integer(120), Length::inches(96), ACUITY);
/// assert_eq!(found.verdict, Verdict::HoldsFromThere, "at 96 in an eye resolves 35.8 to the inch");
/// assert_eq!(found.coarse, Some(Coarse::ForThoseWhoWalkUp), "but people walk up");
/// ```
///
/// # Panics
/// When the ppi or the distance is zero.
#[must_use]
pub fn sharpness(ppi: Exact, distance: Length, acuity: Exact) -> Sharpness {
    let needed_there = needed_ppi(distance, acuity);
    let needed_in_the_hand = needed_ppi(distance.min(READING_DISTANCE), acuity);
    let below = |limit: u32| ppi < Exact::from_integer(limit.into());
    Sharpness {
        ppi,
        needed_there,
        needed_in_the_hand,
        merges_from: merging_distance_for(ppi, acuity),
        verdict: if ppi >= needed_in_the_hand {
            Verdict::Crisp
        } else if ppi >= needed_there {
            Verdict::HoldsFromThere
        } else {
            Verdict::Soft
        },
        coarse: if below(FROM_AFAR_PPI) {
            Some(Coarse::FromAnywhere)
        } else if below(ACCEPTABLE_PPI) {
            Some(Coarse::ForThoseWhoWalkUp)
        } else {
            None
        },
    }
}
