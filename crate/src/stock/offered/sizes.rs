//! Sizes that are sold by name: photographs, prints, frames and sheets, each list with its source.

use super::super::StandardSize;
use crate::geometry::Size;
use crate::length::{
    Length,
    print::{Style, print},
};
use crate::plan::System;

/// Sizes of prints in inches that shops offer ready-made frames and mats for (common practice, no source).
pub const PRINTS_INCHES: [Size; 14] = [
    Size::inches(8, 10),
    Size::inches(11, 14),
    Size::inches(12, 12),
    Size::inches(12, 16),
    Size::inches(12, 18),
    Size::inches(16, 16),
    Size::inches(16, 20),
    Size::inches(16, 24),
    Size::inches(18, 24),
    Size::inches(20, 20),
    Size::inches(20, 24),
    Size::inches(20, 30),
    Size::inches(24, 36),
    Size::inches(30, 40),
];

/// 8 1/2 × 11 in.
const LETTER: Size = Size::new(Length::inches_ratio(17, 2), Length::inches(11));

/// Photographs and frames in the United States (common practice, no source). 27 × 40 in is a film poster.
const US: [Size; 37] = [
    Size::inches(4, 6),
    Size::inches(5, 7),
    Size::inches(6, 8),
    Size::inches(8, 8),
    Size::inches(8, 10),
    LETTER,
    Size::inches(8, 12),
    Size::inches(9, 12),
    Size::inches(10, 10),
    Size::inches(10, 13),
    Size::inches(11, 14),
    Size::inches(11, 17),
    Size::inches(12, 12),
    Size::inches(12, 16),
    Size::inches(12, 18),
    Size::inches(13, 19),
    Size::inches(14, 18),
    Size::inches(14, 20),
    Size::inches(16, 16),
    Size::inches(16, 20),
    Size::inches(16, 24),
    Size::inches(18, 24),
    Size::inches(20, 20),
    Size::inches(20, 24),
    Size::inches(20, 30),
    Size::inches(22, 28),
    Size::inches(24, 24),
    Size::inches(24, 30),
    Size::inches(24, 36),
    Size::inches(27, 40),
    Size::inches(30, 30),
    Size::inches(30, 40),
    Size::inches(32, 40),
    Size::inches(36, 36),
    Size::inches(36, 48),
    Size::inches(40, 40),
    Size::inches(40, 60),
];

/// Mats and frames of museums, where they are not in the list above: 10 × 12, 16 × 22 and 28 × 36 in are mats of
/// Canadian Conservation Institute, Notes 11/5; 28 × 40 in is common practice, no source.
const MUSEUM: [Size; 4] =
    [Size::inches(10, 12), Size::inches(16, 22), Size::inches(28, 36), Size::inches(28, 40)];

/// Frames in Europe, in millimetres (common practice, no source). Frames for A4 to A0 are sold by their centimetres; 61 × 91.5 cm
/// is the poster of 24 × 36 in.
const EUROPE_MM: [(i64, i64); 44] = [
    (100, 150),
    (130, 180),
    (150, 200),
    (180, 240),
    (200, 200),
    (200, 250),
    (200, 300),
    (210, 297),
    (240, 300),
    (240, 320),
    (250, 250),
    (250, 350),
    (280, 350),
    (297, 420),
    (300, 300),
    (300, 400),
    (300, 450),
    (300, 600),
    (350, 500),
    (400, 400),
    (400, 500),
    (400, 600),
    (420, 594),
    (450, 600),
    (500, 500),
    (500, 600),
    (500, 700),
    (500, 750),
    (594, 841),
    (600, 600),
    (600, 800),
    (600, 900),
    (610, 915),
    (700, 700),
    (700, 900),
    (700, 1000),
    (750, 1000),
    (800, 1000),
    (800, 1200),
    (841, 1189),
    (900, 1200),
    (1000, 1000),
    (1000, 1400),
    (1000, 1500),
];

/// ISO 216: halved across the longer side, each is the next, rounded down to a millimetre.
const ISO_A0_MM: (i64, i64) = (841, 1189);
/// ISO 216.
const ISO_B0_MM: (i64, i64) = (1000, 1414);

/// ANSI/ASME Y14.1: A and B as common paper sizes, the others from memory.
const ANSI: [(&str, Size); 6] = [
    ("ANSI A", LETTER),
    ("ANSI B", Size::inches(11, 17)),
    ("ANSI C", Size::inches(17, 22)),
    ("ANSI D", Size::inches(22, 34)),
    ("ANSI E", Size::inches(34, 44)),
    ("ANSI F", Size::inches(28, 40)),
];

/// Sheets of architects' drawings: A, B, E and E1 common practice, no source; C and D from memory.
const ARCH: [(&str, Size); 6] = [
    ("ARCH A", Size::inches(9, 12)),
    ("ARCH B", Size::inches(12, 18)),
    ("ARCH C", Size::inches(18, 24)),
    ("ARCH D", Size::inches(24, 36)),
    ("ARCH E", Size::inches(36, 48)),
    ("ARCH E1", Size::inches(30, 42)),
];

/// What is on offer in a size.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Offer {
    PrintsAndFrames,
    Prints,
    Frames,
    /// Known by its name only.
    Sheets,
}

fn standard(name: String, series: &str, system: System, size: Size, offer: Offer) -> StandardSize {
    StandardSize {
        name,
        series: series.to_owned(),
        system,
        size,
        is_print: matches!(offer, Offer::PrintsAndFrames | Offer::Prints),
        is_frame: matches!(offer, Offer::PrintsAndFrames | Offer::Frames),
    }
}

fn mm(width: i64, height: i64) -> Size {
    Size::new(Length::mm(width), Length::mm(height))
}

/// `8 1/2 × 11 in`.
fn named_in_inches(size: Size) -> String {
    let shown = |length| print(length, Style::Inches { denominator: 2 }).text.replace('"', "");
    format!("{} × {} in", shown(size.width), shown(size.height))
}

/// `29.7 × 42 cm`.
fn named_in_centimetres(size: Size) -> String {
    let shown = |length| print(length, Style::Centimetres { decimals: 1 }).text.replace(" cm", "");
    format!("{} × {} cm", shown(size.width), shown(size.height))
}

/// The eleven sizes of an ISO 216 series from its largest.
fn iso(letter: char, largest: (i64, i64)) -> impl Iterator<Item = (String, i64, i64)> {
    let halved = |&(width, height): &(i64, i64)| Some((height / 2, width));
    (0..=10)
        .zip(std::iter::successors(Some(largest), halved))
        .map(move |(number, (width, height))| (format!("{letter}{number}"), width, height))
}

pub(super) fn sizes() -> Vec<StandardSize> {
    let in_inches =
        |series, offer| move |size| standard(named_in_inches(size), series, System::Inches, size, offer);
    let us = US.into_iter().map(in_inches("US", Offer::PrintsAndFrames));
    let museum = MUSEUM.into_iter().map(in_inches("museum", Offer::Frames));
    let europe = EUROPE_MM.into_iter().map(|(width, height)| {
        let size = mm(width, height);
        // As prints they are sold by their names of ISO 216.
        let is_iso = iso('A', ISO_A0_MM).any(|(_, w, h)| (w, h) == (width, height));
        let offer = if is_iso { Offer::Frames } else { Offer::PrintsAndFrames };
        standard(named_in_centimetres(size), "Europe", System::Centimetres, size, offer)
    });
    let metric_sheets = [("ISO 216 A", 'A', ISO_A0_MM, 6), ("ISO 216 B", 'B', ISO_B0_MM, 4)]
        .into_iter()
        .flat_map(|(series, letter, largest, last_print)| {
            iso(letter, largest).enumerate().map(move |(number, (name, width, height))| {
                let offer = if number <= last_print { Offer::Prints } else { Offer::Sheets };
                standard(name, series, System::Centimetres, mm(width, height), offer)
            })
        });
    let drawing_sheets =
        [("ANSI/ASME Y14.1", ANSI), ("ARCH", ARCH)].into_iter().flat_map(|(series, rows)| {
            rows.map(move |(name, size)| {
                standard(name.to_owned(), series, System::Inches, size, Offer::Sheets)
            })
        });
    us.chain(museum).chain(europe).chain(metric_sheets).chain(drawing_sheets).collect()
}
