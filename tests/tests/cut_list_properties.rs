//! What holds of every cut, tried where it is most likely not to: near-equal rails, rails that just fit, sheets that just take a blank.

use overmantel::cut_list::{
    Carton, Charged, Rails, diagonal, grid_yield, mat_cut, moulding, pack, roll_up, sheets_needed,
};
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::stock::{Stick, Tube, VolumeDivisor};
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::prelude::*;

const METRES_10: i64 = Length::mm(10_000).units();

/// From a unit to ten metres: marks of a rule and a unit beside them, nearly the same, the ends.
fn positive() -> impl Strategy<Value = Length> + Clone {
    prop_oneof![
        6 => (1_i64..=1024, -1_i64..=1).prop_map(|(marks, off)| marks * (UNITS_PER_INCH / 16) + off),
        4 => (1_i64..=2000).prop_map(|count| Length::mm(count).units()),
        3 => (-2_i64..=2).prop_map(|off| UNITS_PER_INCH * 20 + off),
        1 => 1_i64..=3,
        1 => Just(METRES_10),
        1 => 1..=METRES_10,
    ]
    .prop_map(Length::from_units)
}

fn size() -> impl Strategy<Value = Size> {
    (positive(), positive()).prop_map(|(width, height)| Size::new(width, height))
}

/// A stick and rails that it can hold, many of them parts of it that just fit or just don't.
fn stick_and_rails() -> impl Strategy<Value = (Stick, Vec<Length>)> {
    let stick = (24_i64..=144, 0_i64..=4, 0_i64..=16).prop_map(|(inches, kerf, trim)| Stick {
        name: "ours".to_owned(),
        length: Length::inches(inches),
        kerf: Length::inches_ratio(kerf, 16),
        trim: Length::inches_ratio(trim, 16),
    });
    stick.prop_flat_map(|stick| {
        let (usable, kerf) = ((stick.length - stick.trim).units(), stick.kerf.units());
        let rail = prop_oneof![
            // A whole part of the stick, less the kerfs, and a unit beside it.
            4 => (1_i64..=6, -1_i64..=1).prop_map(move |(parts, off)| (usable - kerf * (parts - 1)) / parts + off),
            3 => (usable / 20..=usable / 2, Just(0)).prop_map(|(units, _)| units),
            2 => (1_i64..=192).prop_map(|eighths| eighths * (UNITS_PER_INCH / 8)),
            1 => Just(usable),
            1 => 1_i64..=3,
        ];
        let rail = rail.prop_map(move |units| Length::from_units(units.clamp(1, usable)));
        (Just(stick), vec(rail, 0..=12))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    /// Every rail once, no stick overfull, no more sticks than rails, no fewer than their sum needs, no two that one would hold.
    #[test]
    fn sticks_hold_their_rails((stick, rails) in stick_and_rails()) {
        let cuts = pack(&rails, &stick).map_err(|why| TestCaseError::fail(why.to_string()))?;
        let mut seen: Vec<usize> = cuts.iter().flat_map(|cuts| cuts.rails.clone()).collect();
        seen.sort_unstable();
        prop_assert_eq!(seen, (0..rails.len()).collect::<Vec<_>>());
        for cut in &cuts {
            prop_assert!(!cut.rails.is_empty());
            let kerfs = stick.kerf * i64::try_from(cut.rails.len() - 1).unwrap_or_default();
            let used = cut.rails.iter().map(|rail| rails[*rail]).sum::<Length>() + kerfs + stick.trim;
            prop_assert_eq!(used + cut.left, stick.length);
            prop_assert!(cut.left >= Length::ZERO);
        }
        // Each rail with a kerf, of a stick with one more kerf.
        let room = (stick.length - stick.trim + stick.kerf).units();
        let sum: i64 = rails.iter().map(|rail| (*rail + stick.kerf).units()).sum();
        prop_assert!(i64::try_from(cuts.len()).unwrap_or_default() * room >= sum);
        prop_assert!(cuts.len() <= rails.len());
        for (index, one) in cuts.iter().enumerate() {
            for other in &cuts[index + 1..] {
                let filled = stick.length - stick.trim - other.left;
                prop_assert!(one.left < filled + stick.kerf, "two sticks would go into one");
            }
        }
        prop_assert_eq!(pack(&rails, &stick), Ok(cuts), "the same again");
    }

    /// As few sticks as a search through every way of putting up to six rails into sticks finds.
    #[test]
    fn sticks_are_the_fewest((stick, mut rails) in stick_and_rails()) {
        rails.truncate(6);
        fn fewest(rest: &[Length], filled: &mut Vec<Length>, usable: Length, kerf: Length) -> usize {
            let Some((rail, rest)) = rest.split_first() else { return filled.len() };
            filled.push(*rail);
            let mut best = fewest(rest, filled, usable, kerf);
            filled.pop();
            for index in 0..filled.len() {
                if filled[index] + kerf + *rail <= usable {
                    filled[index] += kerf + *rail;
                    best = best.min(fewest(rest, filled, usable, kerf));
                    filled[index] -= kerf + *rail;
                }
            }
            best
        }
        let expected = fewest(&rails, &mut Vec::new(), stick.length - stick.trim, stick.kerf);
        prop_assert_eq!(pack(&rails, &stick).map(|cuts| cuts.len()), Ok(expected));
    }

    /// Long points are 2F longer than short ones, and sum to the moulding.
    #[test]
    fn rails_sum_to_the_moulding(sight in size(), face in positive(), kerf in positive()) {
        let outside = sight.grown(face);
        let rails = Rails::of(outside, face);
        prop_assert_eq!(Size::new(rails.across.short_point, rails.upright.short_point), sight);
        let found = moulding(outside, sight, face, kerf);
        prop_assert_eq!(rails.long_points().into_iter().sum::<Length>(), found.exact);
        prop_assert_eq!(found.with_kerfs - found.exact, kerf * 3);
        // Where the nominal size is the sight, the rule is exact.
        prop_assert_eq!(found.by_rule, found.exact);
    }

    /// No more blanks than the area allows; turning the blank or the sheet changes nothing; a blank fits if it does one way or the other.
    #[test]
    fn yields_keep_to_the_area(blank in size(), sheet in size()) {
        let area = |size: Size| i128::from(size.width.units()) * i128::from(size.height.units());
        let turned = |size: Size| Size::new(size.height, size.width);
        let found = grid_yield(blank, sheet);
        prop_assert!(found * area(blank) <= area(sheet));
        prop_assert_eq!(found, grid_yield(turned(blank), sheet));
        prop_assert_eq!(found, grid_yield(blank, turned(sheet)));
        let lies = |blank: Size| blank.width <= sheet.width && blank.height <= sheet.height;
        prop_assert_eq!(found > 0, lies(blank) || lies(turned(blank)));
        // So many times the sheet gives so many times the blanks, at the least.
        let double = Size::new(sheet.width * 2, sheet.height);
        prop_assert!(grid_yield(blank, double) >= found * 2);
    }

    /// Sheets enough for every blank, and no more than one for each.
    #[test]
    fn sheets_suffice(kinds in vec((size(), 1_usize..=5), 0..4), sheet in size()) {
        let blanks: Vec<Size> = kinds.iter().flat_map(|(size, count)| vec![*size; *count]).collect();
        let fits = blanks.iter().all(|blank| grid_yield(*blank, sheet) > 0);
        let needed = sheets_needed(&blanks, sheet);
        prop_assert_eq!(needed.is_some(), fits);
        if let Some(needed) = needed {
            let area = |size: Size| i128::from(size.width.units()) * i128::from(size.height.units());
            let all: i128 = blanks.iter().map(|blank| area(*blank)).sum();
            prop_assert!(all <= area(sheet) * needed);
            prop_assert!(needed <= i128::try_from(blanks.len()).unwrap_or_default());
            prop_assert_eq!(needed == 0, blanks.is_empty());
        }
    }

    /// Borders and opening sum to the board; the back is the face in a mirror; the hole at the face lies within the board.
    #[test]
    fn mats_can_be_checked(
        opening in size(), left in positive(), top in positive(), right in positive(), bottom in positive(),
        // Boards are thin beside their borders; now and then they are not.
        thickness in prop_oneof![4 => (1..=UNITS_PER_INCH / 8).prop_map(Length::from_units), 1 => positive()],
        at in (-METRES_10..METRES_10, -METRES_10..METRES_10),
    ) {
        static JUDGED: Share = Share::percent(50);
        let borders = Sides { left, top, right, bottom };
        let board = Size::new(left + opening.width + right, top + opening.height + bottom);
        let board = Rect::new(Length::from_units(at.0), Length::from_units(at.1), board);
        let narrowest = left.min(top).min(right).min(bottom);
        let cut = mat_cut(board, board.shrunk(borders), thickness);
        prop_assert_eq!(cut.is_ok(), narrowest > thickness);
        let Ok(cut) = cut else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        prop_assert_eq!(cut.face, borders);
        prop_assert_eq!(cut.sums(), board.size);
        prop_assert_eq!((cut.back.left, cut.back.right), (right, left));
        prop_assert_eq!((cut.back.top, cut.back.bottom), (top, bottom));
        prop_assert_eq!(cut.face_opening.grown(-thickness), opening);
        prop_assert!(cut.face_opening.width < board.size.width && cut.face_opening.height < board.size.height);
        prop_assert!(cut.opening_diagonal <= cut.board_diagonal);
    }

    /// A diagonal is the square root of the sum of squares, to half a unit: (2d - 1)² < 4(w² + h²) < (2d + 1)².
    #[test]
    fn diagonals_are_nearest(size in size()) {
        let [width, height, found] = [size.width, size.height, diagonal(size)].map(|side| i128::from(side.units()));
        let four = 4 * (width * width + height * height);
        prop_assert!((2 * found - 1).pow(2) < four && four < (2 * found + 1).pow(2));
    }

    /// A carton's sides are those of the piece with the packing, longest first; turning the piece changes nothing; the volume weight is the
    /// next whole number.
    #[test]
    fn cartons_are_sorted(outside in size(), depth in positive(), packing in positive(), divisor in 1_u32..=10_000) {
        let carton = Carton::round(outside, depth, packing);
        prop_assert!(carton.length >= carton.width && carton.width >= carton.height);
        prop_assert_eq!(carton, Carton::round(Size::new(outside.height, outside.width), depth, packing));
        let sum = carton.length + carton.width + carton.height;
        prop_assert_eq!(sum, outside.width + outside.height + depth + packing * 6);
        prop_assert!(carton.length_and_girth() >= sum);
        let volume: i128 = [carton.length, carton.width, carton.height].iter().map(|side| i128::from(side.units())).product();
        let Charged::Pounds(pounds) = carton.volume_weight(VolumeDivisor::CubicInchesPerPound(divisor)) else {
            return Err(TestCaseError::fail("cubic inches give pounds"));
        };
        let pound = i128::from(UNITS_PER_INCH).pow(3) * i128::from(divisor);
        prop_assert!((pounds - 1) * pound < volume && volume <= pounds * pound);
    }

    /// A tube is as long as the shorter side and its spare; its circumference lies between three times and 22/7 of its diameter.
    #[test]
    fn tubes_hold_the_shorter_side(print in size(), diameter in positive(), spare in positive()) {
        let rolled = roll_up(print, &Tube { name: "any".to_owned(), diameter, spare });
        prop_assert!(rolled.along <= rolled.round);
        prop_assert_eq!(rolled.along + rolled.round, print.width + print.height);
        prop_assert_eq!(rolled.tube_length - rolled.along, spare);
        prop_assert!(rolled.circumference >= diameter * 3);
        // 22/7 is larger than π by one part in 2500; a unit is left for the rounding.
        prop_assert!((rolled.circumference - Length::from_units(1)) * 7 <= diameter * 22);
    }
}
