//! Prints at their true size, against the card's size (ISO/IEC 7810, ID-1: 85.60 × 53.98 mm, as quoted) and sums done on paper.

use overmantel::figures::Figures;
use overmantel::length::Length;
use overmantel::plan::{Picture, Plan};
use overmantel::resample::Raster;
use overmantel::true_size::{CARD_HEIGHT_MM, CARD_MM, Held, Screen, SeenFrom, part};
use overmantel_tests::given::changed;

/// One bare print of 16 × 20 in of a picture with 100 pixels to the inch.
fn print() -> Plan {
    let picture = Picture {
        name: "Ebb".into(),
        file: "ebb.jpg".into(),
        width_px: 1600,
        height_px: 2000,
        ..Picture::default()
    };
    let mut plan = Plan { pictures: vec![picture], ..Plan::starting() };
    plan.pieces[0].picture = Some(0);
    changed(plan, &[("pieces.shown", "1"), ("piece.all.look.mat", "none"), ("piece.all.look.frame", "none")])
}

/// A card 856 pixels wide: 10 to the millimetre, 254 to the inch.
fn screen() -> Screen {
    Screen::of_card(856.0).expect("a screen")
}

#[test]
fn a_card_gives_the_pixels_to_the_inch() {
    assert!((CARD_MM / CARD_HEIGHT_MM - 1.585_772).abs() < 1e-6);
    assert!((screen().pixels_per_inch - 254.0).abs() < 1e-9);
    for wrong in [0.0, -5.0, 14.9, 6001.0, f64::NAN, f64::INFINITY] {
        let error = Screen::of_card(wrong).expect_err("no card").to_string();
        assert!(error.contains("15 to 6000") && error.contains("hold it to the outline"), "{error}");
    }
}

/// A projector of 1280 pixels whose picture is 5 m wide: 256 to the metre, 6.5024 to the inch; 78.0288 to 12 in, 234.0864 to a yard.
#[test]
fn what_else_is_held_to_a_screen_gives_the_same() {
    for (width_px, held) in [
        (21.913_6, Held::Card),
        (76.8, Held::Ruler),
        (78.028_8, Held::Foot),
        (256.0, Held::Metre),
        (234.086_4, Held::Yard),
    ] {
        let screen = Screen::of(width_px, held).expect("a screen");
        assert!((screen.pixels_per_inch - 6.502_4).abs() < 1e-9, "{held:?}: {screen:?}");
    }
    let error = Screen::of(90.0, Held::Metre).expect_err("11 pixels to a decimetre").to_string();
    assert!(error.contains("a metre of tape") && error.contains("175 to 70093"), "{error}");
}

/// 508 pixels at 254 to the inch are 2 in: 200 pixels of the file. About the middle: from 800 - 100 = 700.
#[test]
fn close_to_the_file_fills_the_screen_inch_for_inch() {
    let plan = print();
    let figures = Figures::of(&plan).expect("an answer");
    let found =
        part(&plan, &figures, 0, screen(), (508, 254), (0.5, 0.5), SeenFrom::Close).expect("a picture");
    assert_eq!(found.place, [0, 0, 508, 254]);
    assert!((f64::from(found.needed[0]) + found.part.left - 700.0).abs() < 1e-6, "{found:?}");
    assert!((found.part.width - 200.0).abs() < 1e-6 && (found.part.height - 100.0).abs() < 1e-6, "{found:?}");
    // At the edge it stops there.
    let corner =
        part(&plan, &figures, 0, screen(), (508, 254), (0.0, 1.0), SeenFrom::Close).expect("a picture");
    assert_eq!((corner.needed[0], corner.part.left), (0, 0.0));
    assert!((f64::from(corner.needed[1]) + corner.part.top + corner.part.height - 2000.0).abs() < 1e-6);
}

/// From 3 m, with the screen at 60 cm, things look a fifth as large: 254 / 5 = 50.8 pixels to the inch; 16 in are 812.8.
#[test]
fn from_afar_it_is_as_large_as_it_looks() {
    let plan = changed(print(), &[("viewing.distance", "3 m")]);
    let figures = Figures::of(&plan).expect("an answer");
    let found =
        part(&plan, &figures, 0, screen(), (1000, 1100), (0.5, 0.5), SeenFrom::Distance).expect("a picture");
    assert!((found.scale - 50.8).abs() < 1e-9, "{found:?}");
    assert_eq!(found.place, [94, 42, 813, 1016], "(1000 - 812.8) / 2 = 93.6; (1100 - 1016) / 2 = 42");
    assert!((found.part.width - 1600.0).abs() < 1e-6);
    assert_eq!(Length::mm(600), overmantel::true_size::ARM);
}

/// Columns of 50 pixels, black and white, are 1/2 in each: 127 pixels of the screen. From the pixels of the part and from a copy
/// of the whole the same comes.
#[test]
fn its_pixels_are_those_of_the_file() {
    let plan = print();
    let figures = Figures::of(&plan).expect("an answer");
    let found =
        part(&plan, &figures, 0, screen(), (508, 20), (0.5, 0.5), SeenFrom::Close).expect("a picture");
    let columns = |left: u32, width: u32, height: u32| {
        let pixel =
            |x: u32| if ((left + x) / 50).is_multiple_of(2) { [0, 0, 0, 255] } else { [255, 255, 255, 255] };
        let pixels = (0..height).flat_map(|_| (0..width).flat_map(pixel)).collect();
        Raster::new(width, height, pixels).expect("its size agrees")
    };
    let shown = found.scaled(&columns(found.needed[0], found.needed[2], found.needed[3]));
    let copied = found.scaled_copy(&columns(0, 1600, 2000), (1600, 2000));
    // 700 / 50 = 14: black from 0 to 127, white to 254, and so on.
    for (x, code) in [(60, 0), (190, 255), (320, 0), (440, 255)] {
        for raster in [&shown, &copied] {
            let seen = raster.pixels()[x * 4];
            assert!(seen.abs_diff(code) < 3, "{seen} at {x}");
        }
    }
}
