//! What a fit costs, and in what order fits stand, down to the last thing that tells two of them apart.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper from the rule above each table. Numbers are
//! inches. That ties go by name, and then by the rest of the listing, is our own choice; that an overlap is 1/8 in is common
//! practice, no source.

use overmantel::fit::in_hand::{InHandError, from_frame};
use overmantel::fit::systems::near_misses;
use overmantel::fit::{FitWish, Way, best_of_each_way, from_picture};
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{InHand, Measured, System};
use overmantel::print::Exact;
use overmantel::stock::StandardSize;
use overmantel_tests::given::{length, size};

/// On offer as a print and as a frame, with no size yet.
fn listed_as(name: &str) -> StandardSize {
    StandardSize {
        name: name.to_owned(),
        series: "offered".to_owned(),
        system: System::Inches,
        size: Size::default(),
        is_print: true,
        is_frame: true,
    }
}

/// The same, named by its size.
fn listed(name: &str) -> StandardSize {
    StandardSize { size: size(name), ..listed_as(name) }
}

/// Of a crop the share lost; of borders, by how much those at the sides differ from the head, as a share of the shorter side; of a whole
/// print nothing.
#[test]
fn costs() {
    let check = |px, names: &[&str], wish: &FitWish, way, expected: (i128, i128)| {
        let sizes: Vec<StandardSize> = names.iter().map(|name| listed(name)).collect();
        let fits = from_picture(px, &sizes, wish);
        let largest = fits.iter().filter(|fit| fit.way == way).max_by_key(|fit| fit.nominal().width);
        assert_eq!(
            largest.map(|fit| fit.cost),
            Some(Exact::new(expected.0, expected.1)),
            "{way:?} on {names:?}"
        );
    };
    let plain = FitWish::default();
    check((4000, 6000), &["24x36"], &plain, Way::Whole, (0, 1));
    check((4000, 6000), &["16x20"], &plain, Way::Cropped, (1, 6));
    // 1 2/3 at the sides and 1/2 at the head: 7/6 on 16. Turned, it is the same.
    check((4000, 6000), &["16x20"], &plain, Way::Bordered, (7, 96));
    check((6000, 4000), &["16x20"], &plain, Way::Bordered, (7, 96));
    // 1 5/8 and 2 1/8: 1/2 on 11.
    check((4000, 5000), &["8x10", "11x14"], &plain, Way::Matted, (1, 22));
    // 2 5/8 at the sides, 2 7/8 at the head; 1/2 more at the foot plays no part: 1/4 on 16.
    let foot = FitWish { foot_extra: length("1/2"), ..plain };
    check((1100, 1400), &["11x14", "16x20"], &foot, Way::Matted, (1, 64));
}

/// Alike in cost, the larger area comes first, which is neither the wider one nor the one with the longer sides. 2:3 on 20 x 30.1 (602),
/// 20.05 x 30 (601.5), 20 x 30.06 (601.2) loses less than 1/200 of the picture, so all three are whole.
#[test]
fn the_larger_area_first() {
    let order = |names: [&str; 2]| {
        let sizes = names.map(listed);
        let fits = from_picture(
            (4000, 6000),
            &sizes,
            &FitWish { fineness_ppi: Exact::from_integer(100), ..FitWish::default() },
        );
        let whole: Vec<String> = fits
            .iter()
            .filter(|fit| fit.way == Way::Whole)
            .map(|fit| fit.print.listed.name.clone())
            .collect();
        whole
    };
    for names in [["20x30.1", "20.05x30"], ["20.05x30", "20x30.06"]] {
        assert_eq!(order(names), names);
        assert_eq!(order([names[1], names[0]]), names);
    }
}

/// However alike two listings are, their order in the list plays no part.
#[test]
fn alike_but_for_how_they_are_listed() {
    let check = |what: &str, change: &dyn Fn(&mut StandardSize)| {
        let (first, mut second) = (listed("8x10"), listed("8x10"));
        change(&mut second);
        let (there, back) = ([first.clone(), second.clone()], [second, first.clone()]);
        for wish in [FitWish::default(), FitWish { least_mat_border: Length::ZERO, ..FitWish::default() }] {
            let (fits, again) =
                (from_picture((4000, 5000), &there, &wish), from_picture((4000, 5000), &back, &wish));
            assert!(fits.len() >= 4, "{what}");
            assert_eq!(fits, again, "{what}");
            assert_eq!(*fits[0].print.listed, first, "{what}");
        }
    };
    check("its name", &|size| size.name = "8x10 again".to_owned());
    check("its series", &|size| size.series = "offered again".to_owned());
    check("which way it is listed", &|size| size.size = Size::inches(10, 8));
    // What is listed in centimetres comes first, and what is not on offer as a print, or not as a frame.
    let check = |what: &str, change: &dyn Fn(&mut StandardSize)| {
        let (mut first, second) = (listed("8x10"), listed("8x10"));
        change(&mut first);
        for sizes in [[first.clone(), second.clone()], [second, first.clone()]] {
            let fits = from_picture((4000, 5000), &sizes, &FitWish::default());
            let whole: Vec<_> = fits.iter().filter(|fit| fit.way == Way::Whole).collect();
            assert_eq!(whole.len(), 2, "{what}");
            assert_eq!(*whole[0].print.listed, first, "{what}");
        }
    };
    check("its system", &|size| size.system = System::Centimetres);
    check("whether it is a print", &|size| size.is_print = false);
    check("whether it is a frame", &|size| size.is_frame = false);
}

/// Beside 50 × 70, both 50.5 × 70 and 50.5 × 70.5 are 5 mm off at the most; the second is so twice. A square is looked for upright:
/// 50 × 50.7 is 7 mm higher than 50 × 50, and no wider.
#[test]
fn near_misses_in_order() {
    let centimetres = |name: &str, width, height| StandardSize {
        system: System::Centimetres,
        size: Size::new(Length::mm(width), Length::mm(height)),
        ..listed_as(name)
    };
    let sizes = [centimetres("a", 505, 705), centimetres("b", 505, 700), centimetres("c", 507, 500)];
    let found = |width, height| {
        let size = Size::new(Length::mm(width), Length::mm(height));
        let found = near_misses(size, &sizes);
        found
            .iter()
            .map(|miss| (miss.listed.listed.name.clone(), miss.wider, miss.higher))
            .collect::<Vec<_>>()
    };
    let mm = |name: &str, wider, higher| (name.to_owned(), Length::mm(wider), Length::mm(higher));
    assert_eq!(found(500, 700), [mm("b", 5, 0), mm("a", 5, 5)]);
    assert_eq!(found(500, 500), [mm("c", 0, 7)]);
}

/// A sheet has to lie within the board in both directions, however far the mat covers it: with an overlap of 2, 16 x 20 leaves an opening of
/// 12 x 16, and borders of 1 3/4 and 2 1/2 in 15 1/2 x 21, which is narrower than the sheet.
#[test]
fn a_sheet_that_is_larger_than_the_board() {
    let matted = |frame: &str| {
        let sizes = [listed("16x20"), StandardSize { is_print: false, ..listed(frame) }];
        let wish = FitWish { mat_overlap: length("2"), ..FitWish::default() };
        let fits = from_picture((4000, 5000), &sizes, &wish);
        fits.iter().any(|fit| fit.way == Way::Matted && fit.nominal() == size(frame))
    };
    assert!(!matted("15.5x21"));
    assert!(!matted("17x19.5"));
    assert!(matted("16x20"), "no larger than the board");
    assert!(matted("17x21"));
}

/// The opening is what is left of the print inside the overlap. In 16 x 20 with borders of 2 the print is at most 16 1/4 high; of 1:65 it is
/// 1/4 wide, which the overlaps of 1/8 use up.
#[test]
fn a_print_that_the_mat_covers() {
    let frame = InHand { measured: Measured::Glass, size: size("16x20"), ..InHand::starting() };
    let wish = FitWish { least_mat_border: length("2"), ..FitWish::default() };
    let matted = |px| from_frame(&frame, px, &wish).unwrap_or_else(|error| panic!("{error}")).matted;
    let found = matted((1, 64)).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        (found.sheet.height, found.opening.map(|opening| opening.height)),
        (length("16 1/4"), Some(length("16")))
    );
    let refused = InHandError::NoOpening { border: length("2"), left: size("12x16") };
    assert_eq!(matted((1, 65)), Err(refused));
}

/// 18 7/8 × 22 7/8 less 1 1/2 of mat on every side is 15 7/8 × 19 7/8, with 1/8 of overlap 16 1/8 × 20 1/8: 4:5 goes into it as 16.1 × 20 1/8. By steps
/// of 1/16 it is 16 1/16 wide; without a step, or with one of nothing, as it is. A step wider than the print leaves none, and one of 1/4 in leaves a
/// print of the overlap alone no opening.
#[test]
fn prints_by_steps_of_a_rule() {
    let matted = |nominal, px, step: Option<&str>| {
        let frame = InHand { measured: Measured::Glass, size: size(nominal), ..InHand::starting() };
        let wish = FitWish { step: step.map(length), ..FitWish::default() };
        from_frame(&frame, px, &wish)
            .unwrap_or_else(|error| panic!("{error}"))
            .matted
            .map(|print| print.sheet)
    };
    let sheet = |step| matted("18 7/8x22 7/8", (4000, 5000), step);
    assert_eq!(sheet(None), Ok(size("16.1x20 1/8")));
    assert_eq!(sheet(Some("0")), Ok(size("16.1x20 1/8")));
    assert_eq!(sheet(Some("1/16")), Ok(size("16 1/16x20 1/8")));
    assert_eq!(sheet(Some("1/4")), Ok(size("16x20")));
    assert!(matches!(sheet(Some("17")), Err(InHandError::NoOpening { .. })));
}

/// 8000 × 10000 pixels keep 200 to the inch on all of these, and the larger comes first; 16 × 20 stands there twice and counts once.
#[test]
fn the_best_of_each_way() {
    let sizes: Vec<StandardSize> =
        [("a", "8x10"), ("b", "16x20"), ("c", "16x20"), ("d", "24x30"), ("e", "10x30")]
            .map(|(name, given)| StandardSize { size: size(given), ..listed_as(name) })
            .into();
    let found = from_picture((8000, 10_000), &sizes, &FitWish::default());
    let best = |most| {
        let whole = best_of_each_way(&found, most).into_iter().filter(|fit| fit.way == Way::Whole);
        whole.map(|fit| fit.sheet()).collect::<Vec<_>>()
    };
    assert_eq!(best(0), []);
    assert_eq!(best(1), [size("24x30")]);
    assert_eq!(best(2), [size("24x30"), size("16x20")]);
    assert_eq!(best(9), [size("24x30"), size("16x20"), size("8x10")]);
    let ways = best_of_each_way(&found, 1).iter().map(|fit| fit.way).collect::<Vec<_>>();
    // The next larger frame leaves borders of (16 - 7 3/4) / 2 = 4 1/8 in, and 4 are the most that is wished.
    assert_eq!(ways, [Way::Whole, Way::Bordered, Way::Cropped]);
}

/// Ways are told apart in words, which stand behind "the picture is".
#[test]
fn ways_in_words() {
    let words = [Way::Whole, Way::Matted, Way::Bordered, Way::Cropped].map(Way::words);
    for (text, part) in words.iter().zip(["to the edge", "behind a mat", "white border", "cropped"]) {
        assert!(text.contains(part) && !text.ends_with('.'), "{part} in {text}");
    }
}

/// Of two crops that lose the same share and are equally large, the longer one stands first, whichever way the picture is turned:
/// of 2:3, a third is lost on 8 x 18 and on 12 x 12, and both are 144 square inches.
#[test]
fn as_large_but_longer() {
    for names in [["8x18", "12x12"], ["12x12", "8x18"]] {
        let sizes = names.map(listed);
        for px in [(4000, 6000), (6000, 4000)] {
            let fits = from_picture(px, &sizes, &FitWish::default());
            let cropped: Vec<_> = fits.iter().filter(|fit| fit.way == Way::Cropped).collect();
            assert_eq!(cropped.iter().map(|fit| fit.cost).collect::<Vec<_>>(), [Exact::new(1, 3); 2]);
            let order: Vec<_> = cropped.iter().map(|fit| fit.print.listed.name.as_str()).collect();
            assert_eq!(order, ["8x18", "12x12"], "{px:?}");
        }
    }
}
