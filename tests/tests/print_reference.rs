//! Crops, pixels to the inch and sharpness against worked values, and colour against its standards.

use overmantel::colour::{Colour, decode, encode};
use overmantel::geometry::{Rect, Size};
use overmantel::length::Length;
use overmantel::plan::{Focus, Strips};
use overmantel::print::{Exact, fill, merging_distance, split};

fn ratio(numerator: i128, denominator: i128) -> Exact {
    Exact::new(numerator, denominator)
}

#[test]
fn a_crop_fills_its_window() {
    // Picture; print in inches -> ppi; kept pixels; lost share. Worked out by hand: ppi = min(px / in), kept = ppi × in.
    let rows = [
        ((4000, 6000), (16, 20), ratio(250, 1), (4000, 5000), ratio(1, 6)),
        ((4000, 6000), (24, 36), ratio(500, 3), (4000, 6000), ratio(0, 1)),
        ((3024, 4032), (20, 30), ratio(672, 5), (2688, 4032), ratio(1, 9)),
        ((6000, 4000), (16, 20), ratio(200, 1), (3200, 4000), ratio(7, 15)),
    ];
    for (picture, (width, height), ppi, kept, lost) in rows {
        let cut = fill(picture, Size::inches(width, height), Focus::MIDDLE);
        assert_eq!(cut.pixels_per_inch, ppi, "{picture:?}");
        assert_eq!((cut.source.width, cut.source.height), (ratio(kept.0, 1), ratio(kept.1, 1)));
        assert_eq!(cut.lost(picture), lost);
        // Centred: as much is lost on one side as on the other.
        assert_eq!(cut.source.left * 2 + cut.source.width, ratio(i128::from(picture.0), 1));
        assert_eq!(cut.source.top * 2 + cut.source.height, ratio(i128::from(picture.1), 1));
    }
}

#[test]
fn a_crop_keeps_its_focus_and_stays_in_the_picture() {
    let focus = |x, y| Focus { x_permille: x, y_permille: y };
    let window = Size::inches(10, 10);
    // A picture of 3000 × 1000 in a square window keeps 1000 × 1000.
    let rows = [(500, 1000), (0, 0), (1000, 2000), (400, 700), (100, 0)];
    for (x, left) in rows {
        let cut = fill((3000, 1000), window, focus(x, 300));
        assert_eq!((cut.source.left, cut.source.top), (ratio(left, 1), ratio(0, 1)), "focus at {x}");
    }
}

#[test]
fn where_pixels_merge() {
    // ISO 8596: grade 1.0 resolves one arc minute; distance = 1 / (ppi × tan 1′), so 3437.7467 / ppi inches.
    let rows = [(300, 11.459), (240, 14.324), (200, 17.189), (150, 22.918), (100, 34.377), (72, 47.746)];
    for (ppi, inches) in rows {
        let found = merging_distance(ratio(ppi, 1)).to_inches();
        assert!((found - inches).abs() <= 0.0006, "{ppi} ppi: {found} in");
    }
}

#[test]
fn one_picture_over_three_panels() {
    // 9000 px over a total of 60 in with gaps of 2 in: panels of 18 2/3 in.
    let panel = Length::inches_ratio(56, 3);
    let height = Length::inches(10);
    let windows: Vec<Rect> = (0..3)
        .map(|index| Rect::new((panel + Length::inches(2)) * index, Length::ZERO, Size::new(panel, height)))
        .collect();
    // Hidden: 150 px to the inch; the panels start at 0, 3100 and 6200 and each shows 2800.
    let hidden = split((9000, 1500), &windows, Strips::Hidden, false, Focus::MIDDLE);
    let starts: Vec<Exact> = hidden.iter().map(|cut| cut.source.left).collect();
    assert_eq!(starts, [0, 3100, 6200].map(|px| ratio(px, 1)));
    assert!(
        hidden.iter().all(|cut| cut.source.width == ratio(2800, 1) && cut.pixels_per_inch == ratio(150, 1))
    );
    // Kept: 9000 px over 56 in; the panels start at 0, 3000 and 6000 (the picture is high enough to be cut to its width).
    let kept = split((9000, 3000), &windows, Strips::Kept, false, Focus::MIDDLE);
    let starts: Vec<Exact> = kept.iter().map(|cut| cut.source.left).collect();
    assert_eq!(starts, [0, 3000, 6000].map(|px| ratio(px, 1)));
    assert_eq!(kept[0].pixels_per_inch, ratio(9000, 56));
}

#[test]
fn srgb_as_the_standard_has_it() {
    // IEC 61966-2-1 (from memory): the power branch begins above 0.04045, so code 11 is the first on it.
    let rows = [
        (0, 0.0),
        (1, 0.000_303_53),
        (10, 0.003_035_27),
        (11, 0.003_346_54),
        (50, 0.031_896_03),
        (64, 0.051_269_46),
        (127, 0.212_230_76),
        (128, 0.215_860_50),
        (188, 0.502_886_46),
        (200, 0.577_580_44),
        (254, 0.991_102_10),
        (255, 1.0),
    ];
    for (code, light) in rows {
        assert!((decode(code) - light).abs() <= 6e-8, "code {code}: {}", decode(code));
    }
    for code in 0..=u8::MAX {
        assert_eq!(encode(decode(code)), code, "decoding and encoding is the identity");
    }
    // Linear light to the nearest code: 117.646, 123.555, 127.489, 187.516, 224.610.
    for (light, code) in [(0.18, 118), (0.2, 124), (0.214, 127), (0.5, 188), (0.75, 225)] {
        assert_eq!(encode(light), code, "light {light}");
    }
    assert_eq!(
        encode(f32::midpoint(decode(64), decode(192))),
        146,
        "the mean of 64 and 192 is 146.406 as light"
    );
}

#[test]
fn contrast_as_the_guidelines_have_it() {
    // WCAG 2.2, relative luminance and contrast ratio; ratios worked out from the formula.
    let white = Colour::hex(0xff_ff_ff);
    let rows = [
        (0x00_00_00, 21.0),
        (0x77_77_77, 4.4781),
        (0x76_76_76, 4.5422),
        (0xff_00_00, 3.9985),
        (0x00_00_ff, 8.5925),
        (0x00_80_00, 5.1374),
        (0x33_33_33, 12.6347),
        (0x59_59_59, 7.0047),
        (0x94_94_94, 3.0335),
        (0x95_95_95, 2.9953),
    ];
    for (colour, expected) in rows {
        let found = Colour::hex(colour).contrast(white);
        assert!((found - expected).abs() <= 6e-4, "{colour:06x}: {found}");
    }
}
