//! Sizes that may have been meant otherwise: typed in the wrong system of units, or a few millimetres beside a size on offer.
//!
//! 50 × 70 is a usual frame in centimetres and none in inches; 20 × 30 is usual in both, so it must be asked. And a frame of
//! 50 × 70 cm is 7 mm too short for a B2 poster of 50 × 70.7 cm (ISO 216).
//!
//! ```
//! use overmantel::{fit::systems::{SystemNote, system_note}, geometry::Size, length::Length, plan::System, stock::StandardSize};
//! let size = Size::new(Length::mm(500), Length::mm(700));
//! let sizes = [StandardSize {
//!     name: "50 × 70 cm".to_owned(),
//!     series: "European".to_owned(),
//!     system: System::Centimetres,
//!     size,
//!     is_print: true,
//!     is_frame: true,
//! }];
//! let note = system_note(Size::inches(50, 70), System::Inches, &sizes);
//! assert_eq!(note, Some(SystemNote::LooksLikeOther { stated: Size::inches(50, 70), other: size }));
//! assert_eq!(system_note(size, System::Centimetres, &sizes), None, "in centimetres it is what it says");
//! ```

use super::Chosen;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::System;
use crate::stock::StandardSize;

/// That a size may have been meant in the other system of units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SystemNote {
    /// Its numbers are on offer in both systems: it must be asked which is meant.
    BothSystems {
        /// The numbers in inches.
        inches: Size,
        /// The numbers in centimetres.
        centimetres: Size,
    },
    /// Its numbers are on offer in the other system only.
    LooksLikeOther {
        /// As it was stated.
        stated: Size,
        /// The same numbers in the other system.
        other: Size,
    },
}

/// Whether a size, stated in this system, may have been meant in the other: its very numbers, either way round, are on offer
/// there.
#[must_use]
pub fn system_note(size: Size, stated: System, sizes: &[StandardSize]) -> Option<SystemNote> {
    let meant = match stated {
        System::Inches => System::Centimetres,
        System::Centimetres => System::Inches,
    };
    let (from, to) = (stated.bare_unit().length(), meant.bare_unit().length());
    // The same number in the other unit: a length by the quotient of the units, compared crosswise so as to be exact.
    let is_same = |listed: Length, given: Length| {
        i128::from(listed.units()) * i128::from(from.units())
            == i128::from(given.units()) * i128::from(to.units())
    };
    let either_way = |listed: Size, same: &dyn Fn(Length, Length) -> bool| {
        same(listed.width, size.width) && same(listed.height, size.height)
            || same(listed.width, size.height) && same(listed.height, size.width)
    };
    if !sizes.iter().any(|listed| listed.system == meant && either_way(listed.size, &is_same)) {
        return None;
    }
    let convert = |length: Length| length.times_ratio(to.units(), from.units());
    let other = Size::new(convert(size.width), convert(size.height));
    let is_listed_here = sizes.iter().any(|listed| either_way(listed.size, &|one, other| one == other));
    Some(match (is_listed_here, stated) {
        (false, _) => SystemNote::LooksLikeOther { stated: size, other },
        (true, System::Inches) => SystemNote::BothSystems { inches: size, centimetres: other },
        (true, System::Centimetres) => SystemNote::BothSystems { inches: other, centimetres: size },
    })
}

/// How far beside a size on offer another is still taken for it at a glance: 10 mm (our own choice, no source).
pub const NEAR: Length = Length::mm(10);

/// A size on offer that a size nearly is, but is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NearMiss<'a> {
    /// The size on offer, turned as the other is.
    pub listed: Chosen<'a>,
    /// By how much the size on offer is wider; negative when it is narrower.
    pub wider: Length,
    /// By how much it is higher; negative when it is lower.
    pub higher: Length,
}

impl NearMiss<'_> {
    /// Whether what is of the size on offer goes into what is of the other size.
    #[must_use]
    pub fn goes_in(&self) -> bool {
        self.wider <= Length::ZERO && self.higher <= Length::ZERO
    }
}

/// The sizes on offer that a size misses by no more than [`NEAR`] in each direction, the nearest first and then by name.
#[must_use]
pub fn near_misses<'a>(size: Size, sizes: &'a [StandardSize]) -> Vec<NearMiss<'a>> {
    let mut found: Vec<_> = sizes
        .iter()
        .map(|listed| {
            let listed = Chosen::turned(listed, size.width > size.height);
            let (wider, higher) = (listed.size.width - size.width, listed.size.height - size.height);
            NearMiss { listed, wider, higher }
        })
        .filter(|miss| miss.listed.size != size && farthest(miss) <= NEAR)
        .collect();
    crate::order::sort_by(&mut found, |one, other| {
        let distance = |miss: &NearMiss<'_>| (farthest(miss), miss.wider.abs() + miss.higher.abs());
        distance(one)
            .cmp(&distance(other))
            .then_with(|| super::key(one.listed.listed).cmp(&super::key(other.listed.listed)))
    });
    found
}

fn farthest(miss: &NearMiss<'_>) -> Length {
    miss.wider.abs().max(miss.higher.abs())
}
