//! What is on offer, against standards, others' lists and the trade's.
//!
//! No expected value here is from Overmantel: each names its source. The whole lists of frame sizes were written out from the
//! trade's tables apart from the program's own rows.

use overmantel::described::Choosable;
use overmantel::geometry::Size;
use overmantel::length::{
    Length, Unit,
    parse::parse,
    print::{Style, print},
};
use overmantel::plan::{Material, System};
use overmantel::stock::{PRINTS_INCHES, StandardSize, Stock, VolumeDivisor};
use std::collections::{BTreeMap, BTreeSet};

/// A size written `width x height`.
#[track_caller]
fn size(text: &str, unit: Unit) -> Size {
    let length = |text| parse(text, unit).unwrap_or_else(|error| panic!("{error}"));
    let (width, height) = text.split_once('x').unwrap_or_else(|| panic!("{text} is no size"));
    Size::new(length(width), length(height))
}

fn series(name: &str) -> Vec<StandardSize> {
    let rows: Vec<_> = Stock::offered().sizes.into_iter().filter(|row| row.series == name).collect();
    assert!(!rows.is_empty(), "no {name}");
    rows
}

#[track_caller]
fn named(name: &str) -> StandardSize {
    let found = Stock::offered().sizes.into_iter().find(|row| row.name == name);
    found.unwrap_or_else(|| panic!("no {name}"))
}

/// The measures of a series, in any order.
fn measures(name: &str) -> BTreeSet<(Length, Length)> {
    series(name).iter().map(|row| (row.size.width, row.size.height)).collect()
}

fn listed(text: &str, unit: Unit) -> BTreeSet<(Length, Length)> {
    let sizes = text.split_whitespace().map(|text| size(text, unit));
    sizes.map(|size| (size.width, size.height)).collect()
}

/// ISO 216: each size is the one before it halved across its longer side, rounded down to a whole millimetre, from A0 of
/// 841 × 1189 and B0 of 1000 × 1414 mm.
#[test]
fn iso_216_by_its_rule() {
    for (name, first) in [("ISO 216 A", (841, 1189)), ("ISO 216 B", (1000, 1414))] {
        let rows = series(name);
        assert_eq!(rows.len(), 11, "{name}: 0 to 10");
        let (mut width, mut height) = first;
        for (number, row) in rows.iter().enumerate() {
            assert_eq!(row.name, format!("{}{number}", &name[name.len() - 1..]));
            assert_eq!(row.size, Size::new(Length::mm(width), Length::mm(height)), "{}", row.name);
            assert_eq!(row.system, System::Centimetres);
            (width, height) = (height / 2, width);
        }
    }
}

/// Against the paper database of GNU libpaper, as the crate `paper-sizes` 0.4.0 has it (`tests/reference/README.md`).
#[test]
fn sheets_as_another_library_has_them() {
    let theirs: BTreeMap<String, Size> = include_str!("../reference/paper-sizes.csv")
        .lines()
        .map(|line| {
            let fields: Vec<&str> = line.split(',').collect();
            let [name, width, height, unit] = fields[..] else { panic!("{line}") };
            let unit = if unit == "mm" { Unit::Millimetre } else { Unit::Inch };
            (name.replace("Arch ", "ARCH "), size(&format!("{width}x{height}"), unit))
        })
        .collect();
    let mut compared = 0;
    for name in ["ISO 216 A", "ISO 216 B", "ANSI/ASME Y14.1", "ARCH"] {
        for row in series(name) {
            match theirs.get(&row.name) {
                Some(size) => assert_eq!(row.size, *size, "{}", row.name),
                None => assert_eq!(row.name, "ANSI F", "their list lacks nothing else"),
            }
            compared += 1;
        }
    }
    assert_eq!(compared, 11 + 11 + 6 + 6);
    assert_eq!(theirs.get("Letter"), Some(&Size::new(Length::mm(216), Length::mm(279))), "their last row");
    assert_eq!(named("13 × 19 in").size, theirs["ANSI Super B"]);
    assert_eq!(named("8 1/2 × 11 in").size, theirs["Note"]);
}

/// ANSI/ASME Y14.1 in millimetres: A and B also as others' tables of paper have them, the rest from memory.
#[test]
fn ansi_y14_1_in_millimetres() {
    for (name, millimetres) in [
        ("ANSI A", "215.9x279.4"),
        ("ANSI B", "279.4x431.8"),
        ("ANSI C", "431.8x558.8"),
        ("ANSI D", "558.8x863.6"),
        ("ANSI E", "863.6x1117.6"),
        ("ANSI F", "711.2x1016"),
    ] {
        assert_eq!(named(name).size, size(millimetres, Unit::Millimetre), "{name}");
    }
}

/// Sheets of architects' drawings as documents round them to millimetres: common practice, no source; C and D from memory.
#[test]
fn arch_rounded_to_millimetres() {
    for (name, width, height) in [
        ("ARCH A", "229 mm", "305 mm"),
        ("ARCH B", "305 mm", "457 mm"),
        ("ARCH C", "457 mm", "610 mm"),
        ("ARCH D", "610 mm", "914 mm"),
        ("ARCH E", "914 mm", "1219 mm"),
        ("ARCH E1", "762 mm", "1067 mm"),
    ] {
        let shown = |length| print(length, Style::Millimetres { decimals: 0 }).text;
        let found = named(name).size;
        assert_eq!((shown(found.width).as_str(), shown(found.height).as_str()), (width, height), "{name}");
    }
}

/// Canadian Conservation Institute, Notes 11/5: the mats that it lists, in inches and in centimetres to one decimal.
#[test]
fn cci_notes_11_5_mats() {
    for (name, width, height) in [
        ("8 × 10 in", "20.3 cm", "25.4 cm"),
        ("10 × 12 in", "25.4 cm", "30.5 cm"),
        ("14 × 18 in", "35.6 cm", "45.7 cm"),
        ("16 × 22 in", "40.6 cm", "55.9 cm"),
        ("22 × 28 in", "55.9 cm", "71.1 cm"),
        ("28 × 36 in", "71.1 cm", "91.4 cm"),
    ] {
        let shown = |length| print(length, Style::Centimetres { decimals: 1 }).text;
        let row = named(name);
        assert_eq!(
            (shown(row.size.width).as_str(), shown(row.size.height).as_str()),
            (width, height),
            "{name}"
        );
        assert!(row.is_frame, "{name}");
    }
}

/// Photographs and frames in the United States, and the frames of museums: common practice, no source.
#[test]
fn american_sizes() {
    let us = "4x6 5x7 6x8 8x8 8x10 8.5x11 8x12 9x12 10x10 10x13 11x14 11x17 12x12 12x16 12x18 13x19 14x18 14x20 16x16 \
        16x20 16x24 18x24 20x20 20x24 20x30 22x28 24x24 24x30 24x36 27x40 30x30 30x40 32x40 36x36 36x48 40x40 40x60";
    assert_eq!(measures("US"), listed(us, Unit::Inch));
    assert!(series("US").iter().all(|row| row.is_print && row.is_frame && row.system == System::Inches));
    for modular in ["14 × 18 in", "20 × 24 in", "22 × 28 in", "28 × 40 in"] {
        assert!(named(modular).is_frame, "{modular}");
    }
    for size in PRINTS_INCHES {
        assert!(measures("US").contains(&(size.width, size.height)), "{size:?}");
    }
}

/// Frames in Europe: common practice, no source. Those of A4 to A0 are of ISO 216; their prints go by its names.
#[test]
fn european_sizes() {
    let europe = "10x15 13x18 15x20 18x24 20x20 20x25 20x30 21x29.7 24x30 24x32 25x25 25x35 28x35 29.7x42 30x30 30x40 \
        30x45 30x60 35x50 40x40 40x50 40x60 42x59.4 45x60 50x50 50x60 50x70 50x75 59.4x84.1 60x60 60x80 60x90 61x91.5 70x70 \
        70x90 70x100 75x100 80x100 80x120 84.1x118.9 90x120 100x100 100x140 100x150";
    assert_eq!(measures("Europe"), listed(europe, Unit::Centimetre));
    assert!(series("Europe").iter().all(|row| row.is_frame && row.system == System::Centimetres));
    for (frame, print) in [
        ("21 × 29.7 cm", "A4"),
        ("29.7 × 42 cm", "A3"),
        ("42 × 59.4 cm", "A2"),
        ("59.4 × 84.1 cm", "A1"),
        ("84.1 × 118.9 cm", "A0"),
    ] {
        let (frame, print) = (named(frame), named(print));
        assert_eq!(frame.size, print.size);
        assert_eq!((frame.is_print, print.is_print, print.is_frame), (false, true, false), "{}", print.name);
    }
    assert!(named("50 × 70 cm").is_print);
    assert_eq!(
        named("B2").size.height - named("50 × 70 cm").size.height,
        Length::mm(7),
        "a frame of 50 × 70 is too short for B2"
    );
}

/// Longer side over shorter side, to five figures, on paper: 4 × 6 is 1.5, 8 × 10 is 1.25, 50 × 70 is 1.4.
#[test]
fn aspect_ratios() {
    let check = |names: &[&str], hundred_thousandths: i64| {
        for name in names {
            let Size { width, height } = named(name).size;
            let ratio = Length::from_ratio(
                i128::from(height.units()) * 100_000,
                i128::from(width.units()),
                overmantel::rounding::Mode::HalfAway,
            );
            assert_eq!(ratio.units(), hundred_thousandths, "{name}");
        }
    };
    let three_to_two =
        ["4 × 6 in", "8 × 12 in", "12 × 18 in", "16 × 24 in", "20 × 30 in", "24 × 36 in", "40 × 60 in"];
    check(&three_to_two, 150_000);
    check(&["8 × 10 in", "16 × 20 in", "24 × 30 in"], 125_000);
    check(&["12 × 16 in", "18 × 24 in", "30 × 40 in", "36 × 48 in", "60 × 80 cm"], 133_333);
    check(&["11 × 14 in"], 127_273);
    check(&["5 × 7 in", "50 × 70 cm"], 140_000);
    check(&["20 × 24 in"], 120_000);
    check(&["A0"], 141_379);
    check(&["A4"], 141_429);
    check(&["13 × 18 cm"], 138_462);
    check(&["70 × 100 cm"], 142_857);
}

/// Widths of rolls: common practice, no source; the margin of 1/8 in from memory. The smaller measure and two margins must not
/// be wider than the roll: 44 - 2 × 1/8 = 43 3/4.
#[test]
fn what_a_roll_takes() {
    let stock = Stock::offered();
    let widths: Vec<Length> = stock.rolls.iter().map(|roll| roll.width).collect();
    assert_eq!(widths, [24, 36, 44, 60, 64].map(Length::inches));
    // 1 in = 2.54 cm, to the nearest millimetre: 61.0, 91.4, 111.8, 152.4, 162.6; no shop's own limit stands among them.
    for (roll, name) in stock.rolls.iter().zip(["61", "91.4", "111.8", "152.4", "162.6"]) {
        assert!(roll.name.ends_with(&format!("({name} cm)")) && roll.longest.is_none(), "{}", roll.name);
    }
    let mut roll = stock.rolls[2].clone();
    let check = |roll: &overmantel::stock::Roll, text: &str, taken: bool| {
        assert_eq!(roll.takes(size(text, Unit::Inch)), taken, "{text} on {}", roll.name);
    };
    check(&roll, "43.75x60", true);
    check(&roll, "60x43.75", true);
    check(&roll, "43.751x60", false);
    check(&roll, "60x43.751", false);
    check(&roll, "46x50", false);
    check(&roll, "40x4000", true);
    roll.longest = Some(Length::inches(100));
    check(&roll, "40x100", true);
    check(&roll, "100.001x40", false);
}

/// Carriers are examples, and each has a divisor of its own: 166 and 139 in³ to the pound, 3000 cm³ to the kilogram.
#[test]
fn carriers_are_examples() {
    let parcels = Stock::offered().parcels;
    assert!(parcels.iter().all(|parcel| parcel.name.starts_with("example of ")), "{parcels:?}");
    let divisors: Vec<VolumeDivisor> = parcels.iter().filter_map(|parcel| parcel.volume_divisor).collect();
    assert_eq!(
        divisors,
        [
            VolumeDivisor::CubicInchesPerPound(166),
            VolumeDivisor::CubicInchesPerPound(139),
            VolumeDivisor::CubicCentimetresPerKilogram(3000)
        ]
    );
}

/// Kilograms to the cubic metre: soda-lime 2500 and acrylic 1190 (1172 to 1190) common practice, aluminium, woods and boards
/// from memory.
#[test]
fn densities() {
    let stock = Stock::offered();
    assert_eq!(stock.densities.len(), Material::all().count());
    for (material, likely) in [
        (Material::Glass, 2500),
        (Material::Acrylic, 1190),
        (Material::Aluminium, 2700),
        (Material::Pine, 500),
        (Material::Poplar, 450),
        (Material::Obeche, 380),
        (Material::Oak, 700),
        (Material::Mdf, 750),
    ] {
        assert_eq!(stock.density(material).kg_per_m3, likely, "{material:?}");
    }
    assert_eq!(stock.density(Material::Acrylic).least, 1172);
    let hardboard = stock.density(Material::Hardboard);
    assert_eq!((hardboard.least, hardboard.most), (900, 1000));
}

/// Grams to the square metre: from memory or common practice. By its density, a material is as heavy as it is by the sheet:
/// 110 kg/m³ × 5 mm = 550 g/m², 600 × 1.5 mm = 900, 175 × 4 = 700, 1267 × 3 = 3801.
#[test]
fn weights_of_sheets() {
    let stock = Stock::offered();
    for (material, thickness, grams) in [
        (Material::MatBoard, "1/16 in", Some(900)),
        (Material::MatBoard, "1.4 mm", Some(900)),
        (Material::MatBoard, "1/8 in", Some(1900)),
        (Material::FoamBoard, "5 mm", Some(550)),
        (Material::FoamBoard, "3/16 in", Some(550)),
        (Material::FoamBoard, "3 mm", Some(450)),
        (Material::FlutedBoard, "4 mm", Some(700)),
        (Material::AluminiumComposite, "3 mm", Some(3800)),
        (Material::FoamBoard, "5.001 mm", None),
        (Material::Glass, "2 mm", None),
    ] {
        let length = parse(thickness, Unit::Inch).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(stock.grams_per_square_metre(material, length), grams, "{material:?}, {thickness}");
    }
    for (material, thickness_um, grams) in [
        (Material::FoamBoard, 5000, 550),
        (Material::MatBoard, 1500, 900),
        (Material::FlutedBoard, 4000, 700),
        (Material::AluminiumComposite, 3000, 3801),
    ] {
        assert_eq!(stock.density(material).kg_per_m3 * thickness_um / 1000, grams, "{material:?}");
    }
}

/// Every material that is cut from a sheet has one; sizes of boards as the trade has them (32 × 40 and 40 × 60 in: common practice;
/// others from memory; 4 × 8 and 4 × 10 ft of metal: common practice).
#[test]
fn sheets_to_cut_from() {
    let stock = Stock::offered();
    let has = |material: Material, text: &str, unit| {
        let size = size(text, unit);
        assert!(
            stock.sheets.iter().any(|row| row.material == material && row.size == size),
            "{material:?} {text}"
        );
    };
    for inches in ["32x40", "40x60", "48x96", "44x64", "60x104"] {
        has(Material::MatBoard, inches, Unit::Inch);
    }
    has(Material::MatBoard, "80x120", Unit::Centimetre);
    has(Material::MatBoard, "112x162", Unit::Centimetre);
    for inches in ["32x40", "40x60", "48x96"] {
        has(Material::FoamBoard, inches, Unit::Inch);
    }
    has(Material::Glass, "40x60", Unit::Inch);
    has(Material::Acrylic, "48x96", Unit::Inch);
    has(Material::Acrylic, "1220x2440", Unit::Millimetre);
    has(Material::Acrylic, "2050x3050", Unit::Millimetre);
    has(Material::Aluminium, "4x8", Unit::Foot);
    has(Material::Aluminium, "4x10", Unit::Foot);
    has(Material::FlutedBoard, "48x96", Unit::Inch);
    has(Material::Hardboard, "48x96", Unit::Inch);
    has(Material::Mdf, "48x96", Unit::Inch);
    has(Material::AluminiumComposite, "4x8", Unit::Foot);
}

/// Mouldings, sticks, bars, tubes: common practice, no source. 150 lb = 68.0388555 kg and 70 lb = 31.7514659 kg, since 1 lb =
/// 0.45359237 kg.
#[test]
fn the_rest_of_the_shelves() {
    let stock = Stock::offered();
    assert!(stock.mouldings.iter().filter(|row| !row.is_floater).count() >= 12);
    assert!(stock.mouldings.iter().any(|row| row.is_floater));
    // A lip of 3/16 to 3/8 in is what is met with; 5 mm is a little more than 3/16.
    for row in stock.mouldings.iter().filter(|row| !row.is_floater) {
        let usual = Length::inches_ratio(3, 16)..=Length::inches_ratio(3, 8);
        assert!(usual.contains(&row.rabbet_width), "{}", row.name);
    }
    let sticks: Vec<Length> = stock.sticks.iter().map(|row| row.length).collect();
    let metric = [2400, 3000].map(Length::mm);
    assert_eq!(sticks, [&[96, 108, 120].map(Length::inches)[..], &metric].concat());
    assert!(stock.sticks.iter().all(|row| row.kerf == Length::inches_ratio(1, 8)));
    let bars: Vec<(Length, Length)> = stock.bars.iter().map(|row| (row.depth, row.width)).collect();
    let eighths = [5, 6, 8, 12, 16].map(|count| (Length::inches_ratio(count, 8), Length::inches_ratio(5, 4)));
    let metric = [16, 20, 25, 38, 50].map(|depth| (Length::mm(depth), Length::mm(40)));
    assert_eq!(bars, [eighths, metric].concat());
    let tubes: Vec<(Length, Length)> = stock.tubes.iter().map(|row| (row.diameter, row.spare)).collect();
    assert_eq!(tubes, [3, 4, 6].map(|diameter| (Length::inches(diameter), Length::inches(2))));
    let parcels: Vec<_> =
        stock.parcels.iter().map(|row| (row.longest, row.length_and_girth, row.most_grams)).collect();
    let inches = |count| Some(Length::inches(count));
    assert_eq!(parcels[0], (inches(108), inches(130), Some(31_751)));
    assert_eq!(parcels[1], (inches(108), inches(165), Some(68_038)));
}
