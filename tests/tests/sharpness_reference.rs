//! Pixels to the inch, what an eye makes of them, how large a file may be printed, and crops in whole pixels, against worked
//! examples.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper from the formula above each table.
//! Standards of fineness are common practice, no source.

use overmantel::geometry::Size;
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::picture_file::look;
use overmantel::plan::{Canvas, Edge, Finish, Focus, limits};
use overmantel::print::sharpness::{
    ACUITY, Coarse, STANDARDS, Verdict, largest, largest_image, merging_distance_for, needed_ppi, pixels_for,
    sharpness, standard_kept,
};
use overmantel::print::{Cut, Exact, PixelCrop, Source, fill, merging_distance};
use overmantel_tests::given::{built, length, piece, size, whole};
use proptest::prelude::*;

/// Hundredths, to the nearest.
fn hundredths(value: Exact) -> i128 {
    (value * 100).round().to_integer()
}

/// ppi = V × 3437.7467 / d, with d in inches: grade 1.0 is a gap of one arc minute (ISO 8596, as quoted). In hundredths.
#[test]
fn iso_8596_what_an_eye_resolves() {
    for (distance, expected) in [
        ("10", 34_377),
        ("12", 28_648),
        ("18", 19_099),
        ("24", 14_324),
        ("30", 11_459),
        ("36", 9_549),
        ("1 m", 8_732),
        ("48", 7_162),
        ("60", 5_730),
        ("72", 4_775),
        ("2 m", 4_366),
        ("96", 3_581),
        ("120", 2_865),
    ] {
        assert_eq!(hundredths(needed_ppi(length(distance), ACUITY)), expected, "{distance}");
    }
    assert_eq!(hundredths(needed_ppi(length("24"), Exact::new(5, 4))), 17_905, "V = 1.25");
    assert_eq!(hundredths(needed_ppi(length("24"), Exact::new(1, 2))), 7_162, "V = 0.5");
    // From one and one and a half diagonals of 16 x 20 (25.612 in), 24 x 36 (43.267 in) and 40 x 60 (72.111 in).
    for (distance, expected) in [
        ("25.612", 13_422),
        ("38.418", 8_948),
        ("43.267", 7_945),
        ("64.9", 5_297),
        ("72.111", 4_767),
        ("108.167", 3_178),
    ] {
        assert_eq!(hundredths(needed_ppi(length(distance), ACUITY)), expected, "{distance}");
    }
}

/// d = 3437.7467 / ppi, in thousandths of an inch.
#[test]
fn iso_8596_where_pixels_merge() {
    for (ppi, expected) in
        [(300, 11_459), (240, 14_324), (200, 17_189), (150, 22_918), (100, 34_377), (72, 47_746)]
    {
        let found = merging_distance(whole(ppi));
        assert_eq!(
            found.to_nearest(Length::inches_ratio(1, 1000)),
            Length::inches_ratio(expected, 1000),
            "{ppi}"
        );
        // A sharper eye tells them apart from further away, by as much as it is sharper.
        let sharper = merging_distance_for(whole(ppi), whole(2));
        assert!((sharper - found * 2).abs() <= Length::from_units(1), "{ppi}");
    }
}

/// cot x = 1/x - x/3 - x³/45 - … for an arc minute, x = π / 10800: what an eye needs from 1 in.
#[test]
fn the_cotangent_of_an_arc_minute() {
    let x = std::f64::consts::PI / 10_800.0;
    let expected = 1.0 / x - x / 3.0 - x * x * x / 45.0;
    let found = needed_ppi(Length::inches(1), ACUITY) * 1_000_000_000;
    let billionths = found.to_integer();
    #[expect(clippy::cast_precision_loss, reason = "thirteen figures are within 53 bits")]
    let found = billionths as f64 / 1e9;
    assert!((found - expected).abs() < 2e-9, "{found} for {expected}");
}

/// Common practice, no source: 300 fine from near, 240 inkjet fine, 200 good, 150 for canvas and large prints, 100 from afar.
#[test]
fn usual_standards() {
    assert_eq!(STANDARDS.map(|standard| standard.ppi), [300, 240, 200, 150, 100]);
    assert_eq!(STANDARDS[0].words, "fine from close up");
    let kept = |ppi| standard_kept(ppi).map(|standard| standard.ppi);
    assert_eq!(kept(whole(10_000)), Some(300));
    assert_eq!(kept(whole(300)), Some(300));
    assert_eq!(kept(Exact::new(29_999, 100)), Some(240));
    assert_eq!(kept(Exact::new(500, 3)), Some(150), "4000 px on 24 in");
    assert_eq!(kept(whole(100)), Some(100));
    assert_eq!(kept(Exact::new(99_999, 1000)), None);
}

/// size = pixels / ppi, and pixels = size × ppi.
#[test]
fn sizes_and_pixels_both_ways() {
    let check = |px: (u32, u32), ppi, expected: &str| {
        let expected = size(expected);
        assert_eq!(largest(px, None, whole(ppi)), Some(expected), "{px:?} at {ppi}");
        assert_eq!(pixels_for(expected, whole(ppi)), (px.0.into(), px.1.into()), "{expected:?} at {ppi}");
    };
    check((6000, 4000), 300, "20x13 1/3");
    check((6000, 4000), 240, "25x16 2/3");
    check((6000, 4000), 200, "30x20");
    check((6000, 4000), 150, "40x26 2/3");
    check((4032, 3024), 300, "13.44x10.08");
    check((4032, 3024), 240, "16.8x12.6");
    check((4032, 3024), 200, "20.16x15.12");
    check((4032, 3024), 150, "26.88x20.16");
    check((3000, 2000), 300, "10x6 2/3");
    check((3000, 2000), 150, "20x13 1/3");
    check((1920, 1080), 300, "6.4x3.6");
    check((1920, 1080), 150, "12.8x7.2");
    check((11648, 8736), 300, "38 62/75x29.12");
    check((2400, 3000), 300, "8x10");
    check((3300, 4200), 300, "11x14");
    check((3840, 4800), 240, "16x20");
    check((3600, 4800), 200, "18x24");
    check((3000, 4500), 150, "20x30");
    check((7200, 10800), 300, "24x36");
    check((4500, 6000), 150, "30x40");
    check((6000, 9000), 150, "40x60");
    // What is not whole is rounded up: 13.25 × 150 = 1987.5 px.
    assert_eq!(pixels_for(size("13.25x13.25"), whole(150)), (1988, 1988));
    assert_eq!(pixels_for(size("0x1"), whole(150)), (0, 150));
    assert_eq!(largest((6000, 4000), None, whole(0)), None, "no ppi to keep");
    assert_eq!(largest((6000, 4000), Some(size("3x2")), whole(0)), None, "nor of a crop");
}

/// The crop keeps the smaller of the two quotients: 4000 x 6000 to 4:5 keeps 4000 x 5000, to 2:3 all; 3024 x 4032 to 2:3 keeps
/// 2688 x 4032; 6000 x 4000 to 5:4 keeps 5000 x 4000.
#[test]
fn the_largest_print_after_a_crop() {
    let check = |px, shape: &str, ppi: Exact, expected: &str| {
        assert_eq!(largest(px, Some(size(shape)), ppi), Some(size(expected)), "{px:?} to {shape}");
    };
    check((4000, 6000), "16x20", whole(250), "16x20");
    check((4000, 6000), "4x5", whole(200), "20x25");
    check((4000, 6000), "24x36", whole(160), "25x37.5");
    check((3024, 4032), "2x3", Exact::new(1344, 10), "20x30");
    check((6000, 4000), "5x4", whole(240), "20 5/6x16 2/3");
}

/// From 12 in an eye resolves 286.48, from 24 in 143.24, from 96 in 35.81, from 10 m 8.73, from 10 in 343.77.
#[test]
fn verdicts() {
    use Coarse::{ForThoseWhoWalkUp, FromAnywhere};
    use Verdict::{Crisp, HoldsFromThere, Soft};
    let check = |ppi: i128, distance: &str, verdict, coarse| {
        let found = sharpness(whole(ppi), length(distance), ACUITY);
        assert_eq!((found.verdict, found.coarse), (verdict, coarse), "{ppi} from {distance}");
        assert_eq!(found.ppi, whole(ppi));
        assert_eq!(found.merges_from, merging_distance(whole(ppi)));
    };
    check(300, "96", Crisp, None);
    check(287, "96", Crisp, None);
    check(286, "96", HoldsFromThere, None);
    check(300, "10", Soft, None);
    check(344, "10", Crisp, None);
    check(144, "24", HoldsFromThere, Some(ForThoseWhoWalkUp));
    check(143, "24", Soft, Some(ForThoseWhoWalkUp));
    check(150, "24", HoldsFromThere, None);
    check(149, "24", HoldsFromThere, Some(ForThoseWhoWalkUp));
    // However far it is meant to be seen, people walk up.
    check(149, "10 m", HoldsFromThere, Some(ForThoseWhoWalkUp));
    check(100, "10 m", HoldsFromThere, Some(ForThoseWhoWalkUp));
    check(99, "10 m", HoldsFromThere, Some(FromAnywhere));
    check(35, "96", Soft, Some(FromAnywhere));
    check(36, "96", HoldsFromThere, Some(FromAnywhere));
    let sharp_eye = sharpness(whole(175), length("24"), Exact::new(5, 4));
    assert_eq!(sharp_eye.verdict, Soft, "an eye of 1.25 resolves 179.05 from 24 in");
    assert_eq!(
        (hundredths(sharp_eye.needed_there), hundredths(sharp_eye.needed_in_the_hand)),
        (17_905, 35_810)
    );
}

/// Width and height to the nearest pixel, the middle of the exact crop kept to the nearest pixel, within the picture.
#[test]
fn crops_in_whole_pixels() {
    let check = |px: (u32, u32), window: &str, focus, [left, top, width, height]: [u32; 4]| {
        let found = fill(px, size(window), focus).whole_px(px);
        assert_eq!(found, PixelCrop { left, top, width, height }, "{px:?} in {window}");
    };
    let at = |x_permille, y_permille| Focus { x_permille, y_permille };
    check((4000, 6000), "16x20", Focus::MIDDLE, [0, 500, 4000, 5000]);
    check((6000, 4000), "16x20", Focus::MIDDLE, [1400, 0, 3200, 4000]);
    check((3024, 4032), "20x30", Focus::MIDDLE, [168, 0, 2688, 4032]);
    // 2666 2/3 px high; middle 3000; 3000 - 1333 1/2 = 1666 1/2, and a tie goes up.
    check((4000, 6000), "30x20", Focus::MIDDLE, [0, 1667, 4000, 2667]);
    // At the foot: 3333 1/3 to 6000; middle 4666 2/3; less 1333 1/2 = 3333 1/6.
    check((4000, 6000), "30x20", at(500, 1000), [0, 3333, 4000, 2667]);
    check((4000, 6000), "30x20", at(500, 0), [0, 0, 4000, 2667]);
    // 3 x 1 1/2 px: 2 px high; middle 1 1/2; from 1/2, and a tie goes up.
    check((3, 3), "2x1", Focus::MIDDLE, [0, 1, 3, 2]);
    // A thousandth of a pixel wide is one pixel.
    check((1000, 10), "1x10000", Focus::MIDDLE, [500, 0, 1, 10]);
    check((1000, 10), "1x10000", at(1000, 0), [999, 0, 1, 10]);
    check((1000, 10), "1x10000", at(0, 0), [0, 0, 1, 10]);
    check((1, 1), "3x7", Focus::MIDDLE, [0, 0, 1, 1]);
}

/// A crop that reaches beyond its picture is held within it: 3 px from 9 1/2 of 10 are the last three, 3 px from -2 the first three.
#[test]
fn a_crop_beyond_its_picture() {
    let all = fill((10, 10), size("1x1"), Focus::MIDDLE);
    for (start, expected) in
        [(Exact::new(19, 2), 7), (whole(7), 7), (whole(6), 6), (whole(0), 0), (whole(-2), 0)]
    {
        let source = Source { left: start, top: start, width: whole(3), height: whole(3) };
        let found = Cut { source, ..all }.whole_px((10, 10));
        assert_eq!(found, PixelCrop { left: expected, top: expected, width: 3, height: 3 }, "{start}");
    }
}

/// Verdicts are told apart in words, which stand behind "it is".
#[test]
fn verdicts_in_words() {
    let words = [Verdict::Crisp, Verdict::HoldsFromThere, Verdict::Soft].map(Verdict::words);
    for (text, part) in words.iter().zip(["crisp", "softer up close", "soft from where people stand"]) {
        assert!(text.contains(part) && !text.ends_with('.'), "{part} in {text}");
    }
}

/// A PNG of this size whose physical size says so many pixels to the inch (chunk pHYs, in pixels to the metre).
fn png(px: (u32, u32), dpi: Option<u32>) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, px.0, px.1);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_pixel_dims(dpi.map(|dpi| {
        let to_the_metre = dpi * 5000 / 127;
        png::PixelDimensions { xppu: to_the_metre, yppu: to_the_metre, unit: png::Unit::Meter }
    }));
    let mut writer = encoder.write_header().unwrap_or_else(|error| panic!("{error}"));
    let pixels = vec![128; (px.0 * px.1) as usize];
    writer.write_image_data(&pixels).unwrap_or_else(|error| panic!("{error}"));
    writer.finish().unwrap_or_else(|error| panic!("{error}"));
    bytes
}

/// A JPEG of this size whose JFIF header says so many pixels to the inch.
fn jpeg(px: (u32, u32), dpi: Option<u16>) -> Vec<u8> {
    use image::codecs::jpeg::{JpegEncoder, PixelDensity};
    let mut bytes = Vec::new();
    let mut encoder = JpegEncoder::new(&mut bytes);
    if let Some(dpi) = dpi {
        encoder.set_pixel_density(PixelDensity::dpi(dpi));
    }
    let picture = image::GrayImage::from_pixel(px.0, px.1, image::Luma([128]));
    encoder.encode_image(&picture).unwrap_or_else(|error| panic!("{error}"));
    bytes
}

/// The same picture tagged 72 and 300 dpi, and not at all, is the same number of pixels, and so of pixels to the inch.
#[test]
fn a_density_tag_changes_nothing() {
    let px = (120, 80);
    let files = [
        [png(px, None), png(px, Some(72)), png(px, Some(300))],
        [jpeg(px, None), jpeg(px, Some(72)), jpeg(px, Some(300))],
    ];
    for [bare, web, fine] in files {
        assert!(bare != web && web != fine, "the tags are in the files");
        for bytes in [bare, web, fine] {
            let found = look(&bytes, "low water").unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(found, px);
            assert_eq!(
                fill(found, size("1.2x.8"), Focus::MIDDLE).pixels_per_inch,
                whole(100),
                "120 px / 1.2 in"
            );
        }
    }
    // The tags are where a reader of tags looks: JFIF has its density in the bytes 14 to 17, 300 = 0x012C.
    assert_eq!(jpeg(px, Some(300))[13..18], [1, 0x01, 0x2c, 0x01, 0x2c]);
    assert!(png(px, Some(300)).windows(4).any(|bytes| bytes == b"pHYs"));
}

fn any_side_px() -> impl Strategy<Value = u32> {
    prop_oneof![1_u32..=3, 500_u32..=12_000, Just(limits::PICTURE_SIDE_PX), 1..=limits::PICTURE_SIDE_PX]
}

/// Lengths more than nothing: a unit, marks of a rule and beside them, nearly equal ones, 10 m.
fn any_side() -> impl Strategy<Value = Length> {
    let most = limits::PIECE.units();
    prop_oneof![
        1_i64..=2,
        (1_i64..=1024, -1_i64..=1).prop_map(|(marks, off)| marks * (UNITS_PER_INCH / 16) + off),
        (-1_i64..=1).prop_map(|off| 20 * UNITS_PER_INCH + off),
        (1_i64..=2000).prop_map(|millimetres| Length::mm(millimetres).units()),
        (0_i64..=1).prop_map(move |off| most - off),
        1..=most,
    ]
    .prop_map(Length::from_units)
}

fn any_focus() -> impl Strategy<Value = Focus> {
    let permille = || prop_oneof![Just(0_u16), Just(1000), Just(500), 0..=1000_u16];
    (permille(), permille()).prop_map(|(x_permille, y_permille)| Focus { x_permille, y_permille })
}

fn any_ppi() -> impl Strategy<Value = Exact> {
    prop_oneof![
        prop::sample::select(vec![72, 100, 150, 200, 240, 300, 360]).prop_map(whole),
        (1_i128..=100_000, 1_i128..=100_000)
            .prop_map(|(numerator, denominator)| Exact::new(numerator, denominator)),
    ]
}

/// Both edges of a span of whole pixels are at most a pixel from where they should be.
fn near(exact: (Exact, Exact), px: (u32, u32), whole_px: u32) -> Result<(), TestCaseError> {
    let ((start, length), (start_px, length_px)) = (exact, px);
    prop_assert!(length_px >= 1 && u64::from(start_px) + u64::from(length_px) <= whole_px.into());
    let (from, to) = (whole(start_px), whole(i128::from(start_px) + i128::from(length_px)));
    let off = |one: Exact, other: Exact| if one > other { one - other } else { other - one };
    prop_assert!(off(from, start) <= whole(1), "{from} for {start}");
    prop_assert!(off(to, start + length) <= whole(1), "{to} for {}", start + length);
    let most = if length < whole(1) { whole(1) } else { Exact::new(1, 2) };
    prop_assert!(off(whole(length_px), length) <= most);
    Ok(())
}

/// 3000 × 4000 pixels are 15 × 20 in at 200 to the inch. Of a canvas 1 1/2 in deep that the picture is carried round, 3 in of both are on its edges:
/// 12 × 17 in are left for its face. Printed = (w + 2d, h + 2d). On edges of 15 in nothing is left.
#[test]
fn the_largest_face_of_a_canvas() {
    let cut = fill((3000, 4000), Size::inches(15, 20), Focus::MIDDLE);
    assert_eq!(largest_image(&cut, whole(200), Size::inches(3, 3)), Some(Size::inches(12, 17)));
    assert_eq!(largest_image(&cut, whole(200), size("3x1/2")), Some(size("12x19 1/2")));
    assert_eq!(largest_image(&cut, whole(200), Size::inches(15, 3)), None);
    let canvas = |edge| {
        let canvas = Canvas { depth: length("1 1/2"), edge, ..Canvas::starting() };
        built(&piece("24x36", Finish::Canvas(canvas))).printed_beyond()
    };
    assert_eq!(canvas(Edge::Carried), Size::inches(3, 3));
    assert_eq!(canvas(Edge::Mirrored), Size::default());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Never outside the picture, and each edge at most a pixel from the exact crop.
    #[test]
    fn a_crop_in_whole_pixels_is_the_crop(
        px in (any_side_px(), any_side_px()),
        window in (any_side(), any_side()),
        focus in any_focus(),
    ) {
        let cut = fill(px, Size::new(window.0, window.1), focus);
        let (exact, found) = (cut.source, cut.whole_px(px));
        near((exact.left, exact.width), (found.left, found.width), px.0)?;
        near((exact.top, exact.height), (found.top, found.height), px.1)?;
    }

    /// The largest print keeps the ppi, one a unit larger does not, and it needs the very pixels it was made from.
    #[test]
    fn the_largest_print_is_the_largest(
        px in (any_side_px(), any_side_px()),
        shape in (any_side(), any_side()),
        ppi in any_ppi(),
    ) {
        let shape = Size::new(shape.0, shape.1);
        for shape in [None, Some(shape)] {
            let Some(found) = largest(px, shape, ppi) else { return Err(TestCaseError::fail("no print")) };
            let unit = Length::from_units(1);
            let larger = fill(px, Size::new(found.width + unit, found.height + unit), Focus::MIDDLE);
            prop_assert!(larger.pixels_per_inch < ppi);
            if found.is_positive() {
                let kept = fill(px, found, Focus::MIDDLE).pixels_per_inch;
                prop_assert!(kept >= ppi, "{kept} for {ppi}");
            }
            let needed = pixels_for(found, ppi);
            prop_assert!(needed.0 <= px.0.into() && needed.1 <= px.1.into());
            if shape.is_none() {
                prop_assert_eq!(needed, (px.0.into(), px.1.into()));
            }
        }
    }

    /// An eye needs at the merging distance just the ppi that merges there, and a warning does not depend on the distance.
    #[test]
    fn an_eye_both_ways(ppi in any_ppi(), distances in (any_side(), any_side()), acuity in 1_i128..=40) {
        let acuity = Exact::new(acuity, 20);
        let merging = merging_distance_for(ppi, acuity);
        let unit = Length::from_units(1);
        prop_assert!(needed_ppi(merging + unit, acuity) < ppi);
        prop_assert!(merging <= unit || needed_ppi(merging - unit, acuity) > ppi);
        let (near, far) = (distances.0.min(distances.1), distances.0.max(distances.1));
        let (near, far) = (sharpness(ppi, near, acuity), sharpness(ppi, far, acuity));
        prop_assert_eq!(near.coarse, far.coarse);
        prop_assert_eq!(near.coarse.is_some(), ppi < whole(150));
        // From farther away nothing looks softer.
        prop_assert!(near.verdict != Verdict::HoldsFromThere || far.verdict != Verdict::Soft);
        prop_assert_eq!(far.verdict == Verdict::Soft, ppi < far.needed_there);
    }
}
