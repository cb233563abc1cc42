//! Crops, pixels to the inch and split pictures against worked examples.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper from the formula above each table, or
//! follow from the standard named there.

use overmantel::geometry::{Rect, Size};
use overmantel::length::Length;
use overmantel::plan::{Arrangement, Focus, Strips};
use overmantel::print::{Cut, Exact, fill, merging_distance, split};
use overmantel_tests::given::{length, size, whole};

fn ratio(numerator: i128, denominator: i128) -> Exact {
    Exact::new(numerator, denominator)
}

/// Density = the smaller of pixels / inches along the two sides; kept = window × density; lost = 1 - kept / total.
#[test]
fn a_crop_that_fills() {
    let check = |px: (u32, u32), window: &str, density: Exact, kept: (Exact, Exact), lost: Exact| {
        let cut = fill(px, size(window), Focus::MIDDLE);
        assert_eq!(cut.pixels_per_inch, density, "{px:?} in {window}");
        assert_eq!((cut.source.width, cut.source.height), kept, "{px:?} in {window}");
        assert_eq!(cut.lost(px), lost, "{px:?} in {window}");
        // With the focus in the middle as much is lost on one side as on the other.
        assert_eq!(cut.source.left * 2 + cut.source.width, whole(px.0));
        assert_eq!(cut.source.top * 2 + cut.source.height, whole(px.1));
    };
    let whole = |width, height| (whole(width), whole(height));
    check((4000, 6000), "16x20", ratio(250, 1), whole(4000, 5000), ratio(1, 6));
    check((4000, 6000), "24x36", ratio(500, 3), whole(4000, 6000), ratio(0, 1));
    check((3024, 4032), "20x30", ratio(1344, 10), whole(2688, 4032), ratio(1, 9));
    check((6000, 4000), "16x20", ratio(200, 1), whole(3200, 4000), ratio(7, 15));
    check((4000, 6000), "30x20", ratio(400, 3), (ratio(4000, 1), ratio(8000, 3)), ratio(5, 9));
    // Pixels needed for a size at a density: size × density.
    check((2400, 3000), "8x10", ratio(300, 1), whole(2400, 3000), ratio(0, 1));
    check((3300, 4200), "11x14", ratio(300, 1), whole(3300, 4200), ratio(0, 1));
    check((3840, 4800), "16x20", ratio(240, 1), whole(3840, 4800), ratio(0, 1));
    check((3600, 4800), "18x24", ratio(200, 1), whole(3600, 4800), ratio(0, 1));
    check((3000, 4500), "20x30", ratio(150, 1), whole(3000, 4500), ratio(0, 1));
    check((7200, 10800), "24x36", ratio(300, 1), whole(7200, 10800), ratio(0, 1));
    check((4500, 6000), "30x40", ratio(150, 1), whole(4500, 6000), ratio(0, 1));
    check((6000, 9000), "40x60", ratio(150, 1), whole(6000, 9000), ratio(0, 1));
}

/// Size = pixels / density, of whole files of 24.0, 12.2, 6, 2.1 and 101.8 million pixels, turned round: a print of the size
/// that the table gives has the density that the table is for.
#[test]
fn size_and_density() {
    for (px, window, density) in [
        ((6000, 4000), "20x13 1/3", 300),
        ((6000, 4000), "25x16 2/3", 240),
        ((6000, 4000), "30x20", 200),
        ((6000, 4000), "40x26 2/3", 150),
        ((4032, 3024), "13.44x10.08", 300),
        ((4032, 3024), "16.8x12.6", 240),
        ((4032, 3024), "20.16x15.12", 200),
        ((4032, 3024), "26.88x20.16", 150),
        ((3000, 2000), "10x6 2/3", 300),
        ((3000, 2000), "20x13 1/3", 150),
        ((1920, 1080), "6.4x3.6", 300),
        ((1920, 1080), "12.8x7.2", 150),
        ((11648, 8736), "38 62/75x29.12", 300),
    ] {
        let cut = fill(px, size(window), Focus::MIDDLE);
        assert_eq!(cut.pixels_per_inch, whole(density), "{px:?} on {window}");
        assert_eq!(cut.lost(px), ratio(0, 1), "{px:?} on {window}");
    }
}

/// The focus is kept in the middle of the window as far as the picture reaches: 4000 x 6000 in 16 x 20 loses 1000 px of height.
#[test]
fn a_crop_with_a_focus() {
    for (y_permille, top) in
        [(0, 0), (416, 0), (417, 2), (450, 200), (500, 500), (583, 998), (584, 1000), (1000, 1000)]
    {
        let cut = fill((4000, 6000), size("16x20"), Focus { x_permille: 0, y_permille });
        assert_eq!(cut.source.top, whole(top), "6000 × {y_permille} / 1000 - 2500, held");
        assert_eq!(cut.source.left, whole(0));
    }
}

/// Across: 3000 x 1000 in a square loses 2000 px of width, and the focus up and down has nothing to choose.
#[test]
fn a_crop_with_a_focus_across() {
    for (x_permille, left) in [(500, 1000), (0, 0), (1000, 2000), (400, 700), (100, 0)] {
        let cut = fill((3000, 1000), size("10x10"), Focus { x_permille, y_permille: 300 });
        let found = (cut.source.left, cut.source.top);
        assert_eq!(found, (whole(left), whole(0)), "{x_permille}");
    }
}

/// One pixel spans one arc minute at d = 3437.7467 / ppi inches; grade 1.0 is a gap of 1 arc minute (ISO 8596, as quoted).
#[test]
fn iso_8596_distances() {
    for (density, inches) in
        [(300, 11.459), (240, 14.324), (200, 17.189), (150, 22.918), (100, 34.377), (72, 47.746)]
    {
        let found = merging_distance(whole(density)).to_inches();
        assert!((found - inches).abs() <= 0.000_5, "{density} px/in: {found}");
    }
    // The other way round: what acuity 1.0 needs at 10 in, 24 in, 1 m and so on, in hundredths of a pixel to the inch.
    for (distance, hundredths) in
        [("10", 34_377), ("24", 14_324), ("48", 7_162), ("120", 2_865), ("1 m", 8_732), ("2 m", 4_366)]
    {
        let expected = length(distance).to_inches();
        let found = merging_distance(Exact::new(hundredths.into(), 100)).to_inches();
        // Half of the last place of the density, as a share of it, is how far the distance may be off.
        let tolerance = expected * 0.505 / f64::from(hundredths);
        assert!((found - expected).abs() <= tolerance, "{distance}: {found}");
    }
}

/// Three windows of this size in a row or column, so far apart.
fn three(window: &str, gap: i64, stacked: bool) -> Vec<Rect> {
    let size = size(window);
    let gap = Length::inches(gap);
    (0..3)
        .map(|index| {
            let (x, y) = ((size.width + gap) * index, (size.height + gap) * (2 - index));
            if stacked { Rect::new(Length::ZERO, y, size) } else { Rect::new(x, Length::ZERO, size) }
        })
        .collect()
}

fn starts(cuts: &[Cut], of: fn(&Cut) -> Exact) -> Vec<Exact> {
    cuts.iter().map(of).collect()
}

/// 60 in over all in three panels with gaps of 2 in: panels of 18 2/3 in. Hidden, 9000 px / 60 in = 150 px/in, a panel is
/// 2800 px, a gap 300 px. Kept, 9000 px / 56 in = 160.714 px/in, and each panel goes on where the one before ended.
#[test]
fn a_picture_in_three_panels() {
    let windows = three("18 2/3x20", 2, false);
    let hidden = split((9000, 3000), &windows, Strips::Hidden, Arrangement::Row, Focus::MIDDLE);
    assert_eq!(starts(&hidden, |cut| cut.source.left), [0, 3100, 6200].map(whole));
    assert_eq!(starts(&hidden, |cut| cut.source.width), [2800; 3].map(whole));
    assert_eq!(starts(&hidden, |cut| cut.source.left + cut.source.width)[2], whole(9000));
    assert_eq!(starts(&hidden, |cut| cut.pixels_per_inch), [150; 3].map(whole));
    assert_eq!(starts(&hidden, |cut| cut.source.top), [0; 3].map(whole));

    let kept = split((9000, 3300), &windows, Strips::Kept, Arrangement::Row, Focus::MIDDLE);
    assert_eq!(starts(&kept, |cut| cut.source.left), [0, 3000, 6000].map(whole));
    assert_eq!(starts(&kept, |cut| cut.source.width), [3000; 3].map(whole));
    assert_eq!(starts(&kept, |cut| cut.pixels_per_inch), [ratio(9000, 56); 3]);
    // 20 in × 9000/56 px/in = 3214 2/7 px high; half of the rest above.
    assert_eq!(starts(&kept, |cut| cut.source.height), [ratio(22_500, 7); 3]);
    assert_eq!(starts(&kept, |cut| cut.source.top), [ratio(300, 7); 3]);
}

/// The same turned by a quarter: the first panel is the uppermost, and its part of the picture begins at the top.
#[test]
fn a_picture_in_three_panels_one_below_the_other() {
    let windows = three("20x18 2/3", 2, true);
    let hidden = split((3000, 9000), &windows, Strips::Hidden, Arrangement::Column, Focus::MIDDLE);
    assert_eq!(starts(&hidden, |cut| cut.source.top), [0, 3100, 6200].map(whole));
    assert_eq!(starts(&hidden, |cut| cut.source.height), [2800; 3].map(whole));
    let kept = split((3300, 9000), &windows, Strips::Kept, Arrangement::Column, Focus::MIDDLE);
    assert_eq!(starts(&kept, |cut| cut.source.top), [0, 3000, 6000].map(whole));
    assert_eq!(starts(&kept, |cut| cut.source.left), [ratio(300, 7); 3]);
}

/// Panels of unequal height on one middle line: the lower one shows the middle of what the higher one shows.
#[test]
fn unequal_panels_look_through_to_one_picture() {
    let tall = Rect::new(Length::ZERO, Length::ZERO, Size::inches(10, 30));
    let short = Rect::new(Length::inches(12), Length::inches(5), Size::inches(10, 20));
    // 22 x 30 in over all; 2200 x 3000 px is 100 px/in.
    let cuts = split((2200, 3000), &[tall, short], Strips::Hidden, Arrangement::Row, Focus::MIDDLE);
    assert_eq!(starts(&cuts, |cut| cut.source.left), [0, 1200].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.top), [0, 500].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.height), [3000, 2000].map(whole));
}

/// Two of 10 x 14 stacked beside 20 x 30, 2 apart and 2 from it, outer edges in line. Hidden, they are 32 x 30 over all: 3200 x 3000 px is
/// 100 px/in, with 200 px behind each gap. Kept, the stack is moved 2 to the large one and each of the two 1 to the other: 30 x 30, at
/// 100 px/in of 3000 x 3000 px, so that the upper one begins 100 px below the top and the lower one where it ends. To the left of the large
/// one likewise.
#[test]
fn a_stack_beside_a_panel() {
    let panel =
        |x, y, width, height| Rect::new(Length::inches(x), Length::inches(y), Size::inches(width, height));
    let right = [panel(0, 0, 20, 30), panel(22, 16, 10, 14), panel(22, 0, 10, 14)];
    let left = [panel(12, 0, 20, 30), panel(0, 16, 10, 14), panel(0, 0, 10, 14)];
    let check = |px, windows: &[Rect], strips, arrangement, from_left: [i128; 3], from_top: [i128; 3]| {
        let cuts = split(px, windows, strips, arrangement, Focus::MIDDLE);
        assert_eq!(starts(&cuts, |cut| cut.source.left), from_left.map(whole));
        assert_eq!(starts(&cuts, |cut| cut.source.top), from_top.map(whole));
        assert_eq!(starts(&cuts, |cut| cut.source.width), [2000, 1000, 1000].map(whole));
        assert_eq!(starts(&cuts, |cut| cut.source.height), [3000, 1400, 1400].map(whole));
        assert_eq!(starts(&cuts, |cut| cut.pixels_per_inch), [100; 3].map(whole));
    };
    let (whole_px, pushed_px) = ((3200, 3000), (3000, 3000));
    check(whole_px, &right, Strips::Hidden, Arrangement::StackRight, [0, 2200, 2200], [0, 0, 1600]);
    check(whole_px, &left, Strips::Hidden, Arrangement::StackLeft, [1200, 0, 0], [0, 0, 1600]);
    check(pushed_px, &right, Strips::Kept, Arrangement::StackRight, [0, 2000, 2000], [0, 100, 1500]);
    check(pushed_px, &left, Strips::Kept, Arrangement::StackLeft, [1000, 0, 0], [0, 100, 1500]);
    // One alone beside it stays as high as it hangs, 5 below the top.
    let pair = [panel(0, 0, 20, 30), panel(22, 5, 10, 20)];
    let cuts = split(pushed_px, &pair, Strips::Kept, Arrangement::StackRight, Focus::MIDDLE);
    assert_eq!(starts(&cuts, |cut| cut.source.left), [0, 2000].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.top), [0, 500].map(whole));
}

/// Where the windows hang plays no part, only how they lie to each other: 10 x 20 and 10 x 20 with 2 between, from 7 to the right and 5
/// up, are 22 x 20 over all.
#[test]
fn panels_anywhere_on_the_wall() {
    let window = |x| Rect::new(Length::inches(x), Length::inches(5), Size::inches(10, 20));
    let cuts = split((2200, 2000), &[window(7), window(19)], Strips::Hidden, Arrangement::Row, Focus::MIDDLE);
    assert_eq!(starts(&cuts, |cut| cut.source.left), [0, 1200].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.top), [0, 0].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.pixels_per_inch), [100, 100].map(whole));
}

/// Pushed together, unequal panels stand on one middle line: 10 x 30 beside 20 x 20 is 30 x 30, the lower one from 5 below the top; and
/// so turned by a quarter. 3000 x 3000 px is 100 px/in.
#[test]
fn unequal_panels_pushed_together() {
    let panel =
        |x, y, width, height| Rect::new(Length::inches(x), Length::inches(y), Size::inches(width, height));
    let row = [panel(0, 0, 10, 30), panel(17, 5, 20, 20)];
    let cuts = split((3000, 3000), &row, Strips::Kept, Arrangement::Row, Focus::MIDDLE);
    assert_eq!(starts(&cuts, |cut| cut.source.left), [0, 1000].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.top), [0, 500].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.width), [1000, 2000].map(whole));
    let column = [panel(0, 30, 30, 10), panel(5, 3, 20, 20)];
    let cuts = split((3000, 3000), &column, Strips::Kept, Arrangement::Column, Focus::MIDDLE);
    assert_eq!(starts(&cuts, |cut| cut.source.top), [0, 1000].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.left), [0, 500].map(whole));
    assert_eq!(starts(&cuts, |cut| cut.source.height), [1000, 2000].map(whole));
}
