//! Measures of a report: a length three ways, sizes, places, weights.

use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::Length;
use crate::length::print::exact;
use crate::print::Exact;
use crate::weigh::{Mass, in_kilograms, in_pounds};
use serde::Serialize;

/// The version of the forms in which is reported.
pub(crate) const VERSION: u8 = 1;

/// A length, three ways. Lengths are whole numbers of 1/1440 micrometre; what is not one itself (a diagonal, the rise of a wire, half or a third of an odd number) is rounded to the nearest one, unless another rounding is stated.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Measure {
    /// Exactly, in those whole numbers, as text that a plan file takes.
    pub exact: String,
    /// In inches, to 6 decimals.
    pub inches: f64,
    /// In millimetres, to 6 decimals.
    pub mm: f64,
}

/// A width and a height.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Extent {
    /// From left to right.
    pub width: Measure,
    /// From bottom to top.
    pub height: Measure,
}

/// A rectangle on the wall.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Place {
    /// From the left corner of the wall to its left edge.
    pub left: Measure,
    /// From the floor to its bottom edge.
    pub bottom: Measure,
    /// Its size.
    pub size: Extent,
}

/// A point on the wall.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PointReport {
    /// From the left corner.
    pub from_left: Measure,
    /// From the right corner.
    pub from_right: Measure,
    /// From the floor.
    pub from_floor: Measure,
}

/// Four measures, seen from the front.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SidesReport {
    /// On the left.
    pub left: Measure,
    /// At the top.
    pub top: Measure,
    /// On the right.
    pub right: Measure,
    /// At the bottom.
    pub bottom: Measure,
}

/// A weight, in kilograms, to the nearest gram, and in pounds, to the nearest hundredth.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Weight {
    /// The most likely, such as `2.787 kg`, to the nearest gram.
    pub likely: String,
    /// The least that is expected, to the nearest gram.
    pub least: String,
    /// The most that is expected, to the nearest gram.
    pub most: String,
    /// The most likely in pounds, such as `6.14 lb`, to the nearest hundredth.
    pub pounds: String,
}

pub(super) fn weight(mass: Mass) -> Weight {
    Weight {
        likely: in_kilograms(mass.likely_mg, 3),
        least: in_kilograms(mass.least_mg, 3),
        most: in_kilograms(mass.most_mg, 3),
        pounds: in_pounds(mass.likely_mg, 2),
    }
}

pub(super) fn measure(length: Length) -> Measure {
    Measure { exact: exact(length), inches: six(length.to_inches()), mm: six(length.to_mm()) }
}

/// To the nearest millionth.
pub(super) fn six(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}

/// As a real number, to the nearest millionth.
#[expect(clippy::cast_precision_loss, reason = "a report: 53 bits")]
pub(super) fn number(value: Exact) -> f64 {
    let whole = value.trunc();
    let rest = value - whole;
    six(whole.to_integer() as f64 + *rest.numer() as f64 / *rest.denom() as f64)
}

pub(super) fn extent(size: Size) -> Extent {
    Extent { width: measure(size.width), height: measure(size.height) }
}

pub(super) fn place(rect: Rect) -> Place {
    Place { left: measure(rect.x), bottom: measure(rect.y), size: extent(rect.size) }
}

pub(super) fn sides(sides: Sides) -> SidesReport {
    SidesReport {
        left: measure(sides.left),
        top: measure(sides.top),
        right: measure(sides.right),
        bottom: measure(sides.bottom),
    }
}

pub(super) fn point(point: Point, wall: Size) -> PointReport {
    PointReport {
        from_left: measure(point.x),
        from_right: measure(wall.width - point.x),
        from_floor: measure(point.y),
    }
}
