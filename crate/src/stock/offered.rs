//! What is on offer without a list of the user's own: rolls, sheets, mouldings, sticks, parcels, tubes, densities, bars.
//!
//! Values are common practice, no source, or from memory, as each list says; sizes are in [`sizes`].

use super::{
    Bar, Density, Fitting, Parcel, Profile, Roll, SheetStock, SoldHanger, Stick, Stock, Tube, VolumeDivisor,
};
use crate::described::Choosable;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::Material;

mod sizes;

pub use sizes::PRINTS_INCHES;

pub(super) fn stock() -> Stock {
    Stock {
        sizes: sizes::sizes(),
        rolls: rolls(),
        sheets: sheets(),
        mouldings: mouldings(),
        sticks: sticks(),
        parcels: parcels(),
        tubes: tubes(),
        densities: Material::all().map(density).collect(),
        bars: bars(),
        hangers: hangers(),
        thresholds: Vec::new(),
    }
}

const fn inches(numerator: i64, denominator: i64) -> Length {
    Length::inches_ratio(numerator, denominator)
}

/// Thousandths of an inch, in which glazing and sheet metal are sold.
const fn thousandths(count: i64) -> Length {
    Length::inches_ratio(count, 1000)
}

const fn tenths_of_mm(count: i64) -> Length {
    Length::micrometres(count * 100)
}

const fn mm(width: i64, height: i64) -> Size {
    Size::new(Length::mm(width), Length::mm(height))
}

/// Widths in which rolls are sold, each by its names in both systems: common practice, no source. The margin is from memory.
const ROLLS: [(i64, &str); 5] = [
    (24, "roll, 24 in (61 cm)"),
    (36, "roll, 36 in (91.4 cm)"),
    (44, "roll, 44 in (111.8 cm)"),
    (60, "roll, 60 in (152.4 cm)"),
    (64, "roll, 64 in (162.6 cm)"),
];

fn rolls() -> Vec<Roll> {
    let roll = |(width, name): (i64, &str)| Roll {
        name: name.to_owned(),
        width: Length::inches(width),
        margin: inches(1, 8),
        longest: None,
    };
    ROLLS.map(roll).into()
}

/// A material in one thickness, with the sheets that it comes in.
struct Board {
    name: &'static str,
    material: Material,
    thickness: Length,
    grams_per_square_metre: Option<u32>,
    sheets: &'static [(&'static str, Size)],
}

const fn board(
    name: &'static str,
    material: Material,
    thickness: Length,
    grams_per_square_metre: Option<u32>,
    sheets: &'static [(&'static str, Size)],
) -> Board {
    Board { name, material, thickness, grams_per_square_metre, sheets }
}

/// 32 × 40 and 40 × 60 in: common practice, no source; the others from memory.
const MAT_INCHES: &[(&str, Size)] = &[
    ("32 × 40 in", Size::inches(32, 40)),
    ("40 × 60 in", Size::inches(40, 60)),
    ("44 × 64 in", Size::inches(44, 64)),
    ("48 × 96 in", Size::inches(48, 96)),
    ("60 × 104 in", Size::inches(60, 104)),
];
/// From memory.
const MAT_MM: &[(&str, Size)] = &[("80 × 120 cm", mm(800, 1200)), ("112 × 162 cm", mm(1120, 1620))];
/// From memory.
const FOAM_INCHES: &[(&str, Size)] = &[
    ("32 × 40 in", Size::inches(32, 40)),
    ("40 × 60 in", Size::inches(40, 60)),
    ("48 × 96 in", Size::inches(48, 96)),
];
/// From memory.
const FOAM_MM: &[(&str, Size)] = &[("70 × 100 cm", mm(700, 1000)), ("100 × 140 cm", mm(1000, 1400))];
/// From memory; those in centimetres: common practice, no source.
const GLASS: &[(&str, Size)] = &[
    ("32 × 40 in", Size::inches(32, 40)),
    ("40 × 60 in", Size::inches(40, 60)),
    ("80 × 100 cm", mm(800, 1000)),
    ("100 × 150 cm", mm(1000, 1500)),
];
/// From memory.
const ACRYLIC_INCHES: &[(&str, Size)] =
    &[("48 × 96 in", Size::inches(48, 96)), ("60 × 96 in", Size::inches(60, 96))];
/// 1220 × 2440 mm: a maker's technical sheet; 2050 × 3050 mm: from memory.
const ACRYLIC_MM: &[(&str, Size)] = &[("122 × 244 cm", mm(1220, 2440)), ("205 × 305 cm", mm(2050, 3050))];
/// From memory.
const BACKING: &[(&str, Size)] = &[("48 × 96 in", Size::inches(48, 96)), ("122 × 244 cm", mm(1220, 2440))];
/// 4 × 8 and 4 × 10 ft, 100 × 200 and 100 × 300 cm: common practice, no source. 40 × 60 in is what many presses for prints on metal take at most, from
/// memory.
const METAL: &[(&str, Size)] = &[
    ("40 × 60 in, the most of many presses", Size::inches(40, 60)),
    ("4 × 8 ft", Size::inches(48, 96)),
    ("4 × 10 ft", Size::inches(48, 120)),
    ("100 × 200 cm", mm(1000, 2000)),
    ("100 × 300 cm", mm(1000, 3000)),
];

/// Thicknesses and grams per square metre: common practice or from memory; weigh your own. Of mat board, one ply is 0.015 in
/// by name; 4-ply is cut and calculated as 1/16 in, or 1.4 mm in Europe.
const BOARDS: [Board; 26] = [
    board("mat board, 4-ply", Material::MatBoard, inches(1, 16), Some(900), MAT_INCHES),
    board("mat board, 8-ply", Material::MatBoard, inches(1, 8), Some(1900), MAT_INCHES),
    board("mount board, 1.4 mm", Material::MatBoard, tenths_of_mm(14), Some(900), MAT_MM),
    board("mount board, 1.5 mm", Material::MatBoard, tenths_of_mm(15), Some(900), MAT_MM),
    board("foam board, 1/8 in", Material::FoamBoard, inches(1, 8), Some(450), FOAM_INCHES),
    board("foam board, 3/16 in", Material::FoamBoard, inches(3, 16), Some(550), FOAM_INCHES),
    board("foam board, 1/2 in", Material::FoamBoard, inches(1, 2), None, FOAM_INCHES),
    board("foam board, 3 mm", Material::FoamBoard, Length::mm(3), Some(450), FOAM_MM),
    board("foam board, 5 mm", Material::FoamBoard, Length::mm(5), Some(550), FOAM_MM),
    board("foam board, 10 mm", Material::FoamBoard, Length::mm(10), None, FOAM_MM),
    board("fluted board, 4 mm", Material::FlutedBoard, Length::mm(4), Some(700), BACKING),
    board("hardboard, 3 mm", Material::Hardboard, Length::mm(3), None, BACKING),
    board("hardboard, 1/8 in", Material::Hardboard, inches(1, 8), None, BACKING),
    board("MDF, 2.5 mm", Material::Mdf, tenths_of_mm(25), None, BACKING),
    board("MDF, 3 mm", Material::Mdf, Length::mm(3), None, BACKING),
    board("glass, 2 mm", Material::Glass, Length::mm(2), None, GLASS),
    board("glass, 3/32 in", Material::Glass, inches(3, 32), None, GLASS),
    board("glass, 2.5 mm", Material::Glass, tenths_of_mm(25), None, GLASS),
    board("glass, 3 mm", Material::Glass, Length::mm(3), None, GLASS),
    board("acrylic, 0.098 in", Material::Acrylic, thousandths(98), None, ACRYLIC_INCHES),
    board("acrylic, 0.118 in", Material::Acrylic, thousandths(118), None, ACRYLIC_INCHES),
    board("acrylic, 1/8 in", Material::Acrylic, inches(1, 8), None, ACRYLIC_INCHES),
    board("acrylic, 2 mm", Material::Acrylic, Length::mm(2), None, ACRYLIC_MM),
    board("acrylic, 2.5 mm", Material::Acrylic, tenths_of_mm(25), None, ACRYLIC_MM),
    board("acrylic, 3 mm", Material::Acrylic, Length::mm(3), None, ACRYLIC_MM),
    board("aluminium, 0.045 in", Material::Aluminium, thousandths(45), None, METAL),
];

/// Those of metric thickness that come in the sheets of [`METAL`]; grams of the composite: from memory.
const METRIC_METAL: [Board; 2] = [
    board("aluminium, 1.2 mm", Material::Aluminium, tenths_of_mm(12), None, METAL),
    board("aluminium composite, 3 mm", Material::AluminiumComposite, Length::mm(3), Some(3800), METAL),
];

fn sheets() -> Vec<SheetStock> {
    let rows = |board: &Board| {
        let Board { name, material, thickness, grams_per_square_metre, sheets } = *board;
        sheets.iter().map(move |(of, size)| SheetStock {
            name: format!("{name}, {of}"),
            material,
            thickness,
            size: *size,
            grams_per_square_metre,
        })
    };
    BOARDS.iter().chain(&METRIC_METAL).flat_map(rows).collect()
}

/// Sections: common practice, no source; a face of 3/4 to 1 1/4 in for small frames, more for large ones; a lip of 1/4 in, from
/// 3/16 to 3/8. Names are our own.
fn mouldings() -> Vec<Profile> {
    let moulding = |name: &str, [face, rabbet_width, rabbet_depth, depth]: [Length; 4], material| Profile {
        name: name.to_owned(),
        is_floater: false,
        face,
        rabbet_width,
        rabbet_depth,
        depth,
        material,
        wood: None,
        colour: None,
    };
    let floater = |name: &str, face, depth, material| Profile {
        name: name.to_owned(),
        is_floater: true,
        face,
        rabbet_width: Length::ZERO,
        rabbet_depth: Length::ZERO,
        depth,
        material,
        wood: None,
        colour: None,
    };
    let quarters = |count| inches(count, 4);
    let eighths = |count| inches(count, 8);
    let section = |face, rabbet_depth, depth| [face, quarters(1), rabbet_depth, depth];
    vec![
        moulding("thin box, 1/2 in", section(quarters(2), eighths(7), eighths(10)), Material::Obeche),
        moulding("box, 3/4 in", section(quarters(3), eighths(5), eighths(9)), Material::Obeche),
        moulding("deep box, 3/4 in", section(quarters(3), eighths(12), eighths(16)), Material::Obeche),
        moulding("flat, 1 in", section(quarters(4), eighths(4), eighths(6)), Material::Pine),
        moulding("flat, 1 1/4 in", section(quarters(5), eighths(4), eighths(6)), Material::Pine),
        moulding("rounded, 1 1/4 in", section(quarters(5), eighths(4), eighths(8)), Material::Poplar),
        moulding("scooped, 2 in", section(quarters(8), eighths(4), eighths(9)), Material::Poplar),
        moulding("wide flat, 2 1/2 in", section(quarters(10), eighths(5), eighths(8)), Material::Poplar),
        moulding("wrapped, 1 1/2 in", section(quarters(6), eighths(4), eighths(7)), Material::Mdf),
        moulding("oak, 20 mm", [20, 6, 15, 30].map(Length::mm), Material::Oak),
        moulding("oak, 30 mm", [30, 7, 12, 20].map(Length::mm), Material::Oak),
        moulding("pine, 15 mm", [15, 5, 15, 25].map(Length::mm), Material::Pine),
        moulding("narrow metal, 3/8 in", section(eighths(3), eighths(6), eighths(9)), Material::Aluminium),
        floater("floater, 3/8 in, for bars up to 1 in", eighths(3), eighths(12), Material::Obeche),
        floater("floater, 3/8 in, for bars up to 1 1/2 in", eighths(3), eighths(16), Material::Obeche),
        floater("oak floater, 10 mm, for bars up to 38 mm", Length::mm(10), Length::mm(50), Material::Oak),
    ]
}

/// Lengths of 8 to 10 ft and of 2.4 to 3 m: common practice, no source. The kerf of 1/8 in is that of the published
/// calculations; the trim is from memory.
fn sticks() -> Vec<Stick> {
    let stick = |name: &str, length| Stick {
        name: name.to_owned(),
        length,
        kerf: inches(1, 8),
        trim: Length::inches(1),
    };
    vec![
        stick("8 ft", Length::inches(96)),
        stick("9 ft", Length::inches(108)),
        stick("10 ft", Length::inches(120)),
        stick("2.4 m", Length::mm(2400)),
        stick("3 m", Length::mm(3000)),
    ]
}

/// Examples: every carrier has limits of its own, and changes them. Longest side, length and girth, and weight (150 lb and 70 lb,
/// less than a gram rounded off) are common practice, no source; of the divisors 139 in³ to the pound is common practice, no
/// source, and 166 in³ to the pound and 3000 cm³ to the kilogram are from memory.
fn parcels() -> Vec<Parcel> {
    let parcel = |name: &str, girth, most_grams, divisor| Parcel {
        name: name.to_owned(),
        longest: Some(Length::inches(108)),
        length_and_girth: Some(Length::inches(girth)),
        most_grams: Some(most_grams),
        volume_divisor: Some(VolumeDivisor::CubicInchesPerPound(divisor)),
    };
    vec![
        parcel("example of a parcel, smaller limit", 130, 31_751, 166),
        parcel("example of a parcel, larger limit", 165, 68_038, 139),
        Parcel {
            name: "example of freight on a pallet".to_owned(),
            longest: None,
            length_and_girth: None,
            most_grams: None,
            volume_divisor: Some(VolumeDivisor::CubicCentimetresPerKilogram(3000)),
        },
    ]
}

/// A tube is longer than the print by 2 in; at least 3 in wide for paper, 4 to 6 in for canvas and heavy paper: common practice,
/// no source.
fn tubes() -> Vec<Tube> {
    [("tube for paper, 3 in", 3), ("tube for canvas, 4 in", 4), ("wide tube for canvas, 6 in", 6)]
        .map(|(name, diameter)| Tube {
            name: name.to_owned(),
            diameter: Length::inches(diameter),
            spare: Length::inches(2),
        })
        .into()
}

/// Kilograms per cubic metre: likely, least and most. Woods differ from board to board far more than glass does.
pub(super) fn density(material: Material) -> Density {
    let (kg_per_m3, least, most, source) = match material {
        Material::Glass => {
            (2500, 2450, 2550, "soda-lime float: common practice, no source; range from memory")
        }
        Material::Acrylic => (1190, 1172, 1190, "common practice, no source"),
        Material::MatBoard => (600, 530, 700, "from 0.8 to 1.05 kg to the m² in 1.5 mm: from memory"),
        Material::FoamBoard => (110, 90, 130, "from 0.45 to 0.65 kg to the m² in 5 mm: from memory"),
        Material::FlutedBoard => (175, 150, 200, "0.7 kg to the m² in 4 mm: from memory"),
        Material::Hardboard => (950, 900, 1000, "from memory"),
        Material::Mdf => (750, 680, 820, "from memory"),
        Material::Pine => (500, 370, 560, "from memory"),
        Material::Obeche => (380, 330, 440, "from memory"),
        Material::Poplar => (450, 400, 510, "from memory"),
        Material::Oak => (700, 620, 780, "from memory"),
        Material::Aluminium => (2700, 2650, 2750, "from memory"),
        Material::AluminiumComposite => (1267, 1200, 1300, "3.8 kg to the m² in 3 mm: from memory"),
    };
    Density { material, kg_per_m3, least, most, source: source.to_owned() }
}

/// Depths and widths, 1 1/4 in or 40 mm: common practice, no source.
fn bars() -> Vec<Bar> {
    let bar = |(name, depth, width): (&str, Length, Length)| Bar { name: name.to_owned(), depth, width };
    let of_inches = [
        ("5/8 in", inches(5, 8)),
        ("3/4 in", inches(3, 4)),
        ("1 in", Length::inches(1)),
        ("1 1/2 in", inches(3, 2)),
        ("2 in", Length::inches(2)),
    ];
    let of_mm = [("16 mm", 16), ("20 mm", 20), ("25 mm", 25), ("38 mm", 38), ("50 mm", 50)];
    let of_inches = of_inches.map(|(name, depth)| (name, depth, inches(5, 4)));
    let of_mm = of_mm.map(|(name, depth)| (name, Length::mm(depth), Length::mm(40)));
    of_inches.into_iter().chain(of_mm).map(bar).collect()
}

/// What each carries is from memory; the figure on its packet counts first. The wood that it needs, for its shortest screws and
/// 1/8 in or for the recess of a plate: from memory.
fn hangers() -> Vec<SoldHanger> {
    [
        ("D-ring on one screw", Fitting::Ring, 9, inches(1, 2)),
        ("D-ring on two screws", Fitting::Ring, 22, inches(1, 2)),
        ("D-ring on three screws", Fitting::Ring, 45, inches(1, 2)),
        ("cleat of 1/2 in (12 mm) plywood", Fitting::Cleat, 20, inches(5, 8)),
        ("small sawtooth hanger", Fitting::Sawtooth, 4, inches(3, 8)),
        ("large sawtooth hanger", Fitting::Sawtooth, 11, inches(3, 8)),
        ("keyhole plate", Fitting::Keyhole, 11, inches(1, 2)),
    ]
    .map(|(name, fitting, kilograms, least_wood)| SoldHanger {
        name: name.to_owned(),
        fitting,
        carries_grams: kilograms * 1000,
        least_wood,
    })
    .into()
}
