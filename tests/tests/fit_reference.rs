//! Which sizes a picture suits, and what suits a frame or a space that is there, against worked examples.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper from the formula above each table. Which sizes
//! are usual in inches or in centimetres, that an overlap is 1/8 in and a rabbet 1/4 in wide with 1/8 in of play, are common
//! practice, no source; A and B sizes are those of ISO 216. Numbers are inches unless a row says otherwise.

use overmantel::fit::in_hand::{InHandError, Order, from_frame};
use overmantel::fit::space::{Spread, in_space};
use overmantel::fit::systems::{SystemNote, near_misses, system_note};
use overmantel::fit::{Fit, FitWish, Way, from_picture};
use overmantel::framing::inverse::{FrameMeasure, NothingLeft, Rails};
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::length::{Length, Unit};
use overmantel::plan::{Arrangement, Focus, InHand, Measured, Strips, System};
use overmantel::print::{Exact, split};
use overmantel::stock::StandardSize;
use overmantel_tests::given::{length_in, sides_in, size_in, whole};

const IN: Unit = Unit::Inch;
const CM: Unit = Unit::Centimetre;
const MM: Unit = Unit::Millimetre;

/// A frame of which this was measured.
fn in_hand((measured, size): (Measured, Size), Rails { face, rabbet_width, allowance }: Rails) -> InHand {
    InHand { measured, size, face, rabbet_width, allowance }
}

/// Sizes on offer as prints and frames, named by their numbers.
fn offered(names: &str, unit: Unit) -> Vec<StandardSize> {
    let system = if unit == Unit::Inch { System::Inches } else { System::Centimetres };
    names
        .split(' ')
        .map(|name| StandardSize {
            name: name.to_owned(),
            series: "offered".to_owned(),
            system,
            size: size_in(name, unit),
            is_print: true,
            is_frame: true,
        })
        .collect()
}

fn ratio(numerator: i128, denominator: i128) -> Exact {
    Exact::new(numerator, denominator)
}

#[track_caller]
fn one<'a>(fits: &[Fit<'a>], way: Way) -> Fit<'a> {
    let found: Vec<_> = fits.iter().filter(|fit| fit.way == way).collect();
    assert_eq!(found.len(), 1, "one fit is {way:?}");
    *found[0]
}

/// ppi = the smaller of pixels / inches along the two sides; kept = inches × ppi; lost = 1 - kept / total.
#[test]
fn filling_a_size() {
    let check = |px, name: &str, way, sheet: &str, ppi: Exact, lost: Exact, strips: [i128; 4]| {
        let sizes = offered(name, IN);
        let fit = one(&from_picture(px, &sizes, &FitWish::default()), way);
        assert_eq!(
            (fit.sheet(), fit.image, fit.nominal()),
            (size_in(sheet, IN), size_in(sheet, IN), size_in(sheet, IN))
        );
        assert_eq!((fit.cut.pixels_per_inch, fit.lost.share), (ppi, lost), "{px:?} on {name}");
        let found = [fit.lost.left_px, fit.lost.top_px, fit.lost.right_px, fit.lost.bottom_px];
        assert_eq!(found, strips.map(whole), "{px:?} on {name}");
        assert_eq!(fit.keeps_fineness, ppi >= whole(200));
        assert_eq!(fit.borders, Sides::default());
        assert_eq!((fit.opening, fit.frame), (None, None));
    };
    check((4000, 6000), "16x20", Way::Cropped, "16x20", whole(250), ratio(1, 6), [0, 500, 0, 500]);
    check((4000, 6000), "24x36", Way::Whole, "24x36", ratio(500, 3), whole(0), [0; 4]);
    check((3024, 4032), "20x30", Way::Cropped, "20x30", ratio(1344, 10), ratio(1, 9), [168, 0, 168, 0]);
    // Turned to the picture's orientation.
    check((6000, 4000), "16x20", Way::Cropped, "20x16", whole(250), ratio(1, 6), [500, 0, 500, 0]);
    check((4000, 6000), "36x24", Way::Whole, "24x36", ratio(500, 3), whole(0), [0; 4]);
    check((6000, 4000), "12x12", Way::Cropped, "12x12", ratio(1000, 3), ratio(1, 3), [1000, 0, 1000, 0]);
}

/// The focus is kept in the middle where it can be: 4000 x 6000 on 16 x 20 loses 1000 px of its height, above a window of 5000.
#[test]
fn a_crop_round_a_focus() {
    let sizes = offered("16x20", IN);
    for (y_permille, top, bottom) in [(0, 0, 1000), (450, 200, 800), (500, 500, 500), (1000, 1000, 0)] {
        let wish = FitWish { focus: Focus { x_permille: 500, y_permille }, ..FitWish::default() };
        let fit = one(&from_picture((4000, 6000), &sizes, &wish), Way::Cropped);
        assert_eq!((fit.lost.top_px, fit.lost.bottom_px), (whole(top), whole(bottom)), "{y_permille}");
    }
}

/// Less than 1/200 lost is whole. A picture of 210:297 loses 9/88209 on A3 (297 × 420), and 0.6/2970 on B2 as a frame of
/// 50 × 70.7 cm; on 50 × 70 cm 1/99, which is a crop.
#[test]
fn nearly_the_same_shape() {
    let check = |px, name: &str, unit, way, lost: Exact| {
        let sizes = offered(name, unit);
        assert_eq!(
            one(&from_picture(px, &sizes, &FitWish::default()), way).lost.share,
            lost,
            "{px:?} on {name}"
        );
    };
    check((2100, 2970), "29.7x42", CM, Way::Whole, ratio(9, 88_209));
    check((2100, 2970), "50x70.7", CM, Way::Whole, ratio(6, 29_700));
    check((2100, 2970), "50x70", CM, Way::Cropped, ratio(1, 99));
    // At the limit: of 100 x 200 px, 10 x 19.9 keeps 199 rows, 10 x 19.91 more.
    check((100, 200), "10x19.9", IN, Way::Cropped, ratio(1, 200));
    check((100, 200), "10x19.91", IN, Way::Whole, ratio(9, 2000));
}

/// ppi = the larger of pixels / inches along the two sides of what the borders leave; image = pixels / ppi; border = half of the
/// rest.
#[test]
fn a_white_border() {
    let check = |px, name: &str, least: &str, image: &str, borders: &str, ppi: Exact| {
        let sizes = offered(name, IN);
        let wish = FitWish { least_border: length_in(least, IN), ..FitWish::default() };
        let fit = one(&from_picture(px, &sizes, &wish), Way::Bordered);
        assert_eq!((fit.image, fit.borders), (size_in(image, IN), sides_in(borders, IN)), "{px:?} in {name}");
        assert_eq!((fit.cut.pixels_per_inch, fit.lost.share), (ppi, whole(0)), "{px:?} in {name}");
        assert_eq!((fit.cut.source.width, fit.cut.source.height), (whole(px.0), whole(px.1)));
    };
    check((4000_u32, 6000_u32), "16x20", "0", "13 1/3x20", "1 1/3, 0, 1 1/3, 0", whole(300));
    check((3024, 4032), "20x30", "0", "20x26 2/3", "0, 1 2/3, 0, 1 2/3", ratio(1512, 10));
    check((4000, 6000), "16x20", "1/2", "12 2/3x19", "1 2/3, 1/2, 1 2/3, 1/2", ratio(6000, 19));
    check((4000, 5000), "16x20", "1", "14x17.5", "1, 1.25, 1, 1.25", ratio(4000, 14));
    check((6000, 4000), "16x20", "1/2", "19x12 2/3", "1/2, 1 2/3, 1/2, 1 2/3", ratio(6000, 19));
    // A picture of the sheet's shape and no border wished: there is none, and it is whole.
    let sizes = offered("16x20", IN);
    let wish = FitWish { least_border: Length::ZERO, ..FitWish::default() };
    let found: Vec<Way> = from_picture((4000, 5000), &sizes, &wish).iter().map(|fit| fit.way).collect();
    assert_eq!(found, [Way::Whole]);
    // A border that leaves nothing.
    let wish = FitWish { least_border: length_in("8", IN), ..FitWish::default() };
    let found: Vec<Way> = from_picture((4000, 5000), &sizes, &wish).iter().map(|fit| fit.way).collect();
    assert_eq!(found, [Way::Whole]);
}

/// A print and a frame on offer, the overlap and the foot's extra: opening = print - 2 × overlap; side = (W - opening) / 2;
/// head = (H - opening - extra) / 2; foot = head + extra. The picture has the print's shape.
#[test]
fn a_mat_in_a_frame_on_offer() {
    let check = |unit, [print, frame, overlap, foot]: [&str; 4], opening: &str, borders: &str| {
        let mut sizes = offered(&format!("{print} {frame}"), unit);
        sizes[0].is_frame = false;
        let wish = FitWish {
            mat_overlap: length_in(overlap, unit),
            foot_extra: length_in(foot, unit),
            ..FitWish::default()
        };
        let Size { width, height } = size_in(print, Unit::Millimetre);
        let px = |side: Length| u32::try_from(side.units() / Length::mm(1).units()).unwrap_or_default() * 20;
        let fits = from_picture((px(width), px(height)), &sizes, &wish);
        let fit = one(&fits, Way::Matted);
        assert_eq!(fit.opening, Some(size_in(opening, unit)), "{print} in {frame}");
        assert_eq!(fit.borders, sides_in(borders, unit), "{print} in {frame}");
        assert_eq!((fit.sheet(), fit.image), (size_in(print, unit), size_in(print, unit)));
        assert_eq!(fit.nominal(), size_in(frame, unit));
        assert_eq!(fit.lost.share, whole(0));
    };
    check(IN, ["8x10", "11x14", "1/8", "0"], "7.75x9.75", "1.625, 2.125, 1.625, 2.125");
    check(IN, ["11x14", "16x20", "1/8", "1/2"], "10.75x13.75", "2.625, 2.875, 2.625, 3.375");
    check(IN, ["16x20", "20x24", "1/8", "0"], "15.75x19.75", "2.125, 2.125, 2.125, 2.125");
    check(IN, ["20x30", "24x36", "1/8", "1/2"], "19.75x29.75", "2.125, 2.875, 2.125, 3.375");
    check(IN, ["12x18", "18x24", "1/8", "1/4"], "11.75x17.75", "3.125, 3, 3.125, 3.25");
    check(IN, ["24x36", "30x40", "1/8", "0"], "23.75x35.75", "3.125, 2.125, 3.125, 2.125");
    check(MM, ["240x300", "400x500", "3", "10"], "234x294", "83, 98, 83, 108");
    check(MM, ["400x600", "500x700", "3", "15"], "394x594", "53, 45.5, 53, 60.5");
    // A published one: frame 18 x 24, print 12 x 18, 3 1/8 all round (common practice, no source that could be named).
    check(IN, ["12x18", "18x24", "1/8", "0"], "11.75x17.75", "3.125, 3.125, 3.125, 3.125");
}

/// 16 x 20 leaves 1 1/8 at the sides of 18 x 24, and 4 1/8 at the sides of 24 x 30: neither is within 1 1/2 and 4 in.
#[test]
fn borders_beyond_the_wish_are_left_out() {
    let frames = |wish: &FitWish| {
        let sizes = offered("16x20 18x24 20x24 24x28 24x30", IN);
        from_picture((4000, 5000), &sizes, wish)
            .iter()
            .filter(|fit| fit.way == Way::Matted && fit.sheet() == size_in("16x20", IN))
            .filter_map(|fit| Some(fit.frame?.listed.name.clone()))
            .collect::<Vec<_>>()
    };
    let none: [&str; 0] = [];
    assert_eq!(frames(&FitWish::default()), ["20x24"]);
    let wide = FitWish { most_mat_border: length_in("4 1/8", IN), ..FitWish::default() };
    assert_eq!(frames(&wide), ["24x28", "20x24"], "even both: the larger frame first");
    let wider = FitWish { most_mat_border: length_in("5 1/8", IN), ..FitWish::default() };
    assert_eq!(frames(&wider), ["24x28", "20x24", "24x30"], "the uneven one last: 4 1/8 and 5 1/8");
    let thin = FitWish { least_mat_border: length_in("1 1/8", IN), ..FitWish::default() };
    assert_eq!(frames(&thin), ["20x24", "18x24"], "1 1/8 and 2 1/8");
    let short = FitWish { longest: Some(length_in("23", IN)), ..wider };
    assert_eq!(frames(&short), none, "no frame but its own is within 23 in");
    // The foot may have more than the most by its extra, and all others may not.
    let foot = FitWish {
        foot_extra: length_in("1/2", IN),
        most_mat_border: length_in("2 1/8", IN),
        ..FitWish::default()
    };
    assert_eq!(frames(&foot), ["20x24"], "2 1/8 at the sides, 1 7/8 at the top, 2 3/8 at the bottom");
}

/// The order, on paper, for 4800 x 7200 (2:3) and 200 pixels to the inch: 24 x 36 and 12 x 18 are whole at 200 and 400 px/in;
/// 30 x 45 is whole too, at 160 px/in, which is below. With 1/2 in of white the borders differ least, as a share of the shorter
/// side, where the shape is nearest.
#[test]
fn the_order_of_fits() {
    let check = |names: &str, expected: &[(Way, &str)]| {
        let sizes = offered(names, IN);
        let fits = from_picture((4800, 7200), &sizes, &FitWish::default());
        let found: Vec<_> = fits.iter().map(|fit| (fit.way, fit.print.listed.name.as_str())).collect();
        assert_eq!(found, expected);
    };
    check(
        "30x45 12x18 18x24 24x36",
        &[
            (Way::Whole, "24x36"),
            (Way::Whole, "12x18"),
            // 11 3/4 x 17 3/4 in 18 x 24 leaves 3 1/8 everywhere. 24 x 36 in 30 x 45 leaves 3 1/8 and 4 5/8, beyond 4.
            (Way::Matted, "12x18"),
            // 23 x 34 1/2 in 24 x 36 leaves 1/2 and 3/4: 1/4 in on 24. 11 x 16 1/2 in 12 x 18 leaves as much on 12.
            // 15 1/3 x 23 in 18 x 24 leaves 1 1/3 and 1/2: 5/6 in on 18.
            (Way::Bordered, "24x36"),
            (Way::Bordered, "12x18"),
            (Way::Bordered, "18x24"),
            // 18 x 24 is 3:4, of 4800 x 6400: one ninth lost, 266 2/3 px/in.
            (Way::Cropped, "18x24"),
            (Way::Whole, "30x45"),
            (Way::Bordered, "30x45"),
        ],
    );
    // Crops by what they lose: 4:5 one sixth, 3:4 one ninth, 1:1 a third; a larger one does not come before a milder one.
    check(
        "20x20 16x20 18x24",
        &[
            // 12 2/3 x 19 in 20 x 20 leaves 3 2/3 and 1/2: 19/6 in on 20; in 16 x 20, 7/6 in on 16; in 18 x 24, 5/6 in on 18.
            (Way::Bordered, "18x24"),
            (Way::Bordered, "16x20"),
            (Way::Bordered, "20x20"),
            (Way::Cropped, "18x24"),
            (Way::Cropped, "16x20"),
            (Way::Cropped, "20x20"),
        ],
    );
}

/// What is offered neither as a print nor as a frame is left out; what is only a frame is filled by a print made for it, but is
/// no print behind a mat.
#[test]
fn only_what_is_on_offer() {
    let mut sizes = offered("8x10 11x14", IN);
    sizes[0].is_print = false;
    let fits = from_picture((4000, 5000), &sizes, &FitWish::default());
    assert!(fits.iter().all(|fit| fit.way != Way::Matted));
    assert_eq!(one(&fits, Way::Whole).print.listed.name, "8x10");
    sizes[0].is_print = true;
    sizes[1].is_frame = false;
    let fits = from_picture((4000, 5000), &sizes, &FitWish::default());
    assert!(fits.iter().all(|fit| fit.way != Way::Matted));
    sizes[0].is_print = false;
    sizes[0].is_frame = false;
    assert!(
        from_picture((4000, 5000), &sizes, &FitWish::default())
            .iter()
            .all(|fit| fit.print.listed.name == "11x14")
    );
}

fn usual_rails() -> Rails {
    Rails { face: length_in("1", IN), rabbet_width: length_in("1/4", IN), allowance: length_in("1/8", IN) }
}

#[track_caller]
fn ordered(measured: (Measured, Size), px: (u32, u32), wish: &FitWish) -> Order {
    from_frame(&in_hand(measured, usual_rails()), px, wish).unwrap_or_else(|error| panic!("{error}"))
}

/// A frame of 16 x 20 by any of its measures: rabbet + 1/8, sight - 3/8, outside + 1 5/8; the lip hides 3/16 on each side.
#[test]
fn a_frame_in_hand() {
    let wish = FitWish { least_mat_border: length_in("2 1/8", IN), ..FitWish::default() };
    let by_glass = ordered((Measured::Glass, size_in("16x20", IN)), (4000, 5000), &wish);
    for measured in [
        (Measured::Rabbet, size_in("16.125x20.125", IN)),
        (Measured::Sight, size_in("15.625x19.625", IN)),
        (Measured::Outside, size_in("17.625x21.625", IN)),
    ] {
        assert_eq!(ordered(measured, (4000, 5000), &wish), by_glass, "{measured:?}");
    }
    let Order { nominal, rabbet, sight, outside, lip_hides, .. } = by_glass;
    assert_eq!((nominal, lip_hides), (size_in("16x20", IN), length_in("3/16", IN)));
    assert_eq!((rabbet, sight), (size_in("16.125x20.125", IN), size_in("15.625x19.625", IN)));
    assert_eq!(outside, size_in("17.625x21.625", IN));

    let edge = by_glass.to_the_edge;
    assert_eq!((edge.sheet, edge.image, edge.opening), (nominal, nominal, None));
    assert_eq!(
        (edge.cut.pixels_per_inch, edge.lost.share, edge.keeps_fineness),
        (whole(250), whole(0), true)
    );
    assert_eq!(edge.visible_borders, Sides::all(length_in("-3/16", IN)), "so much of the image is hidden");

    // 15 5/8 - 1 = 14 5/8 wide, × 5/4 = 18.28125 high, within 18 5/8.
    let inside = by_glass.inside_sight.unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((inside.sheet, inside.image), (nominal, size_in("14.625x18.28125", IN)));
    assert_eq!(inside.borders, sides_in("0.6875, 0.859375, 0.6875, 0.859375", IN));
    assert_eq!(inside.visible_borders, sides_in("0.5, 0.671875, 0.5, 0.671875", IN));
    assert_eq!((inside.cut.pixels_per_inch, inside.lost.share), (ratio(4000 * 8, 117), whole(0)));

    // 16 - 4 1/4 = 11 3/4 of opening, + 1/4 = 12 wide, and so 15 high; (20 - 14 3/4) / 2 = 2 5/8.
    let matted = by_glass.matted.unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((matted.sheet, matted.image), (size_in("12x15", IN), size_in("12x15", IN)));
    assert_eq!(matted.opening, Some(size_in("11.75x14.75", IN)));
    assert_eq!(matted.borders, sides_in("2.125, 2.625, 2.125, 2.625", IN));
    assert_eq!(matted.visible_borders, sides_in("1.9375, 2.4375, 1.9375, 2.4375", IN));
    assert_eq!((matted.cut.pixels_per_inch, matted.lost.share), (ratio(1000, 3), whole(0)));
}

/// In a frame of 16 x 20, 2:3 to the edge loses one sixth; behind a mat with 2 1/8 at the least it is 10 2/3 x 16, with a foot of
/// 1/2 more 10 1/3 x 15 1/2.
#[test]
fn a_frame_in_hand_and_another_shape() {
    let wish = FitWish { least_mat_border: length_in("2 1/8", IN), ..FitWish::default() };
    let order = ordered((Measured::Glass, size_in("16x20", IN)), (1000, 1500), &wish);
    assert_eq!((order.to_the_edge.lost.share, order.to_the_edge.lost.top_px), (ratio(1, 6), whole(125)));
    assert!(!order.to_the_edge.keeps_fineness, "1000 px on 16 in are 62.5 to the inch");
    let matted = order.matted.unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(matted.sheet, size_in("10 2/3x16", IN));
    // (16 - (10 2/3 - 1/4)) / 2 = 2 19/24.
    assert_eq!(matted.borders, sides_in("2 19/24, 2.125, 2 19/24, 2.125", IN));
    let foot = FitWish { foot_extra: length_in("1/2", IN), ..wish };
    let matted = ordered((Measured::Glass, size_in("16x20", IN)), (1000, 1500), &foot).matted;
    let matted = matted.unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(matted.sheet, size_in("10 1/3x15.5", IN));
    assert_eq!(matted.borders, sides_in("2 23/24, 2.125, 2 23/24, 2.625", IN));
    // With less border than overlap the print still goes into the frame.
    let none = FitWish { least_mat_border: Length::ZERO, ..wish };
    let matted = ordered((Measured::Glass, size_in("16x20", IN)), (4000, 5000), &none).matted;
    assert_eq!(
        matted.map(|print| (print.sheet, print.borders.left)),
        Ok((size_in("16x20", IN), length_in("1/8", IN)))
    );
}

/// What no frame can be, and what leaves nothing, in sentences.
#[test]
fn refusals_of_a_frame_in_hand() {
    let refused = |measured, rails| {
        from_frame(&in_hand(measured, rails), (4000, 5000), &FitWish::default())
            .err()
            .map(|why| (why, why.to_string()))
    };
    let loose = Rails { rabbet_width: length_in("1/16", IN), ..usual_rails() };
    assert_eq!(
        refused((Measured::Glass, size_in("16x20", IN)), loose),
        Some((
            InHandError::FallsThrough { rabbet_width: length_in("1/16", IN), allowance: length_in("1/8", IN) },
            "a lip of 1/16 in is too narrow for an allowance of 1/8 in in the rabbet (rebate): it has to cover more than half of that; measure both again".to_owned()
        ))
    );
    let nothing = NothingLeft { part: FrameMeasure::Nominal, size: size_in("0x18.375", IN) };
    assert_eq!(
        refused((Measured::Outside, size_in("1 5/8x20", IN)), usual_rails()).map(|(why, _)| why),
        Some(InHandError::Frame(nothing))
    );
    let nothing = NothingLeft { part: FrameMeasure::Nominal, size: size_in("0x20", IN) };
    assert_eq!(
        refused((Measured::Glass, size_in("0x20", IN)), usual_rails()),
        Some((InHandError::Frame(nothing), nothing.to_string()))
    );
    let wish = FitWish {
        least_border: length_in("2", IN),
        least_mat_border: length_in("2", IN),
        ..FitWish::default()
    };
    let order = ordered((Measured::Glass, size_in("4x6", IN)), (4000, 5000), &wish);
    let words = |print: Result<_, InHandError>| print.map(|_| ()).map_err(|why| why.to_string());
    assert_eq!(
        words(order.inside_sight),
        Err("a white border of at least 2 in leaves -3/8 in × 1 5/8 in of the sight opening for the image; choose a narrower border or a larger frame".to_owned())
    );
    assert_eq!(
        words(order.matted),
        Err("mat borders of at least 2 in leave 0 in × 2 in of the board for the opening; choose narrower borders or a larger frame".to_owned())
    );
}

/// image = (allowed - (n - 1) × gap) / n - around along the row, allowed - around across it; then the shape.
#[test]
fn an_outside_allowed_on_the_wall() {
    let check = |allowed: &str, around: &str, count, gap: &str, is_stacked, shape, image: Option<&str>| {
        let spread = Spread { around: size_in(around, IN), count, gap: length_in(gap, IN), is_stacked };
        let found = in_space(size_in(allowed, IN), &spread, shape);
        assert_eq!(found, image.map(|image| size_in(image, IN)), "{spread:?} in {allowed}");
    };
    // The outside of 16 x 20 in a frame of 1 in: 17 5/8 x 21 5/8.
    check("17.625x21.625", "1.625x1.625", 1, "0", false, ratio(4, 5), Some("16x20"));
    check("17.625x30", "1.625x1.625", 1, "9", false, ratio(4, 5), Some("16x20"));
    check("30x21.625", "1.625x1.625", 1, "0", false, ratio(4, 5), Some("16x20"));
    // Three panels over 60 in with gaps of 2 in: 18 2/3 in each.
    check("60x40", "0x0", 3, "2", false, ratio(14, 15), Some("18 2/3x20"));
    check("40x60", "0x0", 3, "2", true, ratio(15, 14), Some("20x18 2/3"));
    check("37.25x30", "1.625x1.625", 2, "2", false, ratio(4, 5), Some("16x20"));
    // Nothing left: (10 - 2 × 4) / 3 = 2/3, less than the frame.
    check("10x40", "1x1", 3, "4", false, ratio(1, 1), None);
    check("10x1", "0x1", 1, "0", false, ratio(1, 1), None);
    let spread =
        Spread { around: size_in("1.625x1.625", IN), count: 2, gap: length_in("2", IN), is_stacked: false };
    assert_eq!(spread.outside(size_in("16x20", IN)), size_in("37.25x21.625", IN), "2 × 17 5/8 + 2");
}

/// 8 x 10, 16 x 20 and 20 x 30 are usual in inches; 20 x 30, 50 x 70 and 30 x 40 in centimetres.
#[test]
fn a_size_in_the_wrong_system() {
    let mut sizes = offered("8x10 16x20 20x30 30x40", IN);
    sizes.extend(offered("20x30 50x70 30x40 29.7x42", CM));
    let check = |text: &str, unit, expected: Option<SystemNote>| {
        let stated = if unit == IN { System::Inches } else { System::Centimetres };
        assert_eq!(system_note(size_in(text, unit), stated, &sizes), expected, "{text}");
    };
    let both =
        |text| Some(SystemNote::BothSystems { inches: size_in(text, IN), centimetres: size_in(text, CM) });
    check("20x30", IN, both("20x30"));
    check("20x30", CM, both("20x30"));
    check("40x30", IN, both("40x30"));
    let other = |text, stated, meant| {
        Some(SystemNote::LooksLikeOther { stated: size_in(text, stated), other: size_in(text, meant) })
    };
    check("50x70", IN, other("50x70", IN, CM));
    check("70x50", IN, other("70x50", IN, CM));
    check("29.7x42", IN, other("29.7x42", IN, CM));
    check("16x20", CM, other("16x20", CM, IN));
    for (text, unit) in [("16x20", IN), ("50x70", CM), ("17x23", IN), ("50x71", IN), ("20x20", IN)] {
        check(text, unit, None);
    }
    // 20 × 30 in inches is 508 × 762 mm, in centimetres 200 × 300 mm.
    let Some(SystemNote::BothSystems { inches, centimetres }) =
        system_note(size_in("20x30", IN), System::Inches, &sizes)
    else {
        panic!("it must be asked")
    };
    assert_eq!((inches, centimetres), (size_in("508x762", MM), size_in("200x300", MM)));
}

/// A frame of 50 x 70 cm is 7 mm too short for B2, 500 x 707 mm (ISO 216); 61 x 91.5 cm takes a poster of 24 x 36 in, 609.6 x 914.4
/// mm; 20 x 25 cm is 3.2 and 4 mm too small for 8 x 10 in, 203.2 x 254 mm.
#[test]
fn sizes_that_just_miss() {
    let mut sizes = offered("50x70 50x70.7 61x91.5 20x25 29.7x42", CM);
    sizes.extend(offered("24x36 8x10", IN));
    let check = |text: &str, unit, expected: &[(&str, &str, &str, bool)]| {
        let found: Vec<_> = near_misses(size_in(text, unit), &sizes)
            .iter()
            .map(|miss| (miss.listed.listed.name.as_str(), miss.wider, miss.higher, miss.goes_in()))
            .collect();
        let expected: Vec<_> = expected
            .iter()
            .map(|&(name, wider, higher, goes_in)| {
                (name, length_in(wider, MM), length_in(higher, MM), goes_in)
            })
            .collect();
        assert_eq!(found, expected, "{text}");
    };
    check("50x70", CM, &[("50x70.7", "0", "7", false)]);
    check("70x50", CM, &[("50x70.7", "7", "0", false)]);
    check("50x70.7", CM, &[("50x70", "0", "-7", true)]);
    check("61x91.5", CM, &[("24x36", "-.4", "-.6", true)]);
    check("24x36", IN, &[("61x91.5", ".4", ".6", false)]);
    check("20x25", CM, &[("8x10", "3.2", "4", false)]);
    check("30x42", CM, &[("29.7x42", "-3", "0", true)]);
    // 10 mm is near, more is not.
    check("30.7x42", CM, &[("29.7x42", "-10", "0", true)]);
    check("30.71x42", CM, &[]);
    // The nearest first.
    check("50x70.2", CM, &[("50x70", "0", "-2", true), ("50x70.7", "0", "5", false)]);
}

/// A picture of 6000 × 4000 px over 20 × 10 and 20 × 20 in, the strips behind the gap kept: 40 × 20 in at 150 px/in, so that 3000 rows
/// are shown, from 500 to 3500. With the lower edges in line both end at 3500; with the upper ones both begin at 500; in steps of 5 in
/// up, of 20 × 20 each, the whole is 40 × 25 in at 150 px/in, from 125 to 3875, and the second begins 750 px above the first.
#[test]
fn kept_strips_follow_how_the_pieces_hang() {
    let rows = |windows: [Rect; 2]| {
        let cuts = split((6000, 4000), &windows, Strips::Kept, Arrangement::Row, Focus::MIDDLE);
        let whole = |value: Exact| i64::try_from(value.to_integer()).expect("pixels");
        cuts.iter()
            .map(|cut| (whole(cut.source.top), whole(cut.source.top + cut.source.height)))
            .collect::<Vec<_>>()
    };
    let at = |x: i64, y: i64, height: i64| {
        Rect::new(Length::inches(x), Length::inches(y), Size::inches(20, height))
    };
    assert_eq!(rows([at(0, 40, 10), at(23, 40, 20)]), [(2000, 3500), (500, 3500)]);
    assert_eq!(rows([at(0, 50, 10), at(23, 40, 20)]), [(500, 2000), (500, 3500)]);
    assert_eq!(rows([at(0, 40, 20), at(23, 45, 20)]), [(875, 3875), (125, 3125)]);
}
