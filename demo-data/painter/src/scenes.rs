//! The pictures, and how each is composed.

mod channel_markers;
mod flats_at_noon;
mod harbour_morning;
mod low_water_evening;
mod three_boats;

use crate::painting::Painting;

/// One picture of the set.
pub(crate) struct Scene {
    /// The name of its file.
    pub(crate) name: &'static str,
    /// The seed it is painted from.
    pub(crate) seed: u64,
    /// Pixels across its reduced copy.
    pub(crate) columns: usize,
    /// The most bytes that its reduced copy may have.
    pub(crate) bytes: usize,
    /// Composes it.
    pub(crate) compose: fn(u64) -> Painting,
}

/// All of them.
#[rustfmt::skip]
pub(crate) const SCENES: [Scene; 5] = [
    Scene { name: "low-water-evening", seed: 1507, columns: 1320, bytes: 52_000, compose: low_water_evening::compose },
    Scene { name: "harbour-morning",   seed: 405,  columns: 760,  bytes: 37_000, compose: harbour_morning::compose },
    Scene { name: "the-flats-at-noon",     seed: 1200, columns: 760,  bytes: 37_000, compose: flats_at_noon::compose },
    Scene { name: "three-boats",       seed: 333,  columns: 760,  bytes: 37_000, compose: three_boats::compose },
    Scene { name: "channel-markers",   seed: 302,  columns: 960,  bytes: 37_000, compose: channel_markers::compose },
];
