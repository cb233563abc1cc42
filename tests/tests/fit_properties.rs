//! What holds of every fit, tried where it is most likely not to: one pixel, equal and nearly equal sizes, a unit, ten metres.

use overmantel::fit::in_hand::from_frame;
use overmantel::fit::space::{Spread, in_space};
use overmantel::fit::systems::{SystemNote, near_misses, system_note};
use overmantel::fit::{Fit, FitWish, Way, from_picture};
use overmantel::framing::inverse::Rails;
use overmantel::geometry::{Sides, Size};
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::plan::{Focus, InHand, Measured, System, limits};
use overmantel::print::Exact;
use overmantel::stock::StandardSize;
use overmantel_tests::given::{exact, whole};
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

fn any_side_px() -> impl Strategy<Value = u32> {
    prop_oneof![1_u32..=3, 500_u32..=12_000, Just(4000), Just(6000), Just(limits::PICTURE_SIDE_PX)]
}

/// Pixels of a picture: any, square, 2:3, and a pixel beside these.
fn any_px() -> impl Strategy<Value = (u32, u32)> {
    prop_oneof![
        3 => (any_side_px(), any_side_px()),
        1 => any_side_px().prop_map(|side| (side, side)),
        3 => (1_u32..=2000, 0_u32..=2, any::<bool>()).prop_map(|(part, more, is_wide)| {
            let (short, long) = (part * 2 + more, part * 3);
            if is_wide { (long, short) } else { (short, long) }
        }),
    ]
}

/// Lengths more than nothing: a unit, whole inches and marks of a rule, and a unit beside them, whole centimetres, 10 m.
fn any_side() -> impl Strategy<Value = Length> {
    let most = limits::PIECE.units();
    prop_oneof![
        1 => 1_i64..=2,
        6 => (1_i64..=40).prop_map(|inches| inches * UNITS_PER_INCH),
        3 => (1_i64..=640, -1_i64..=1).prop_map(|(marks, off)| marks * (UNITS_PER_INCH / 16) + off),
        2 => (1_i64..=120).prop_map(|centimetres| Length::mm(centimetres * 10).units()),
        1 => (0_i64..=1).prop_map(move |off| most - off),
        1 => 1..=most,
    ]
    .prop_map(Length::from_units)
}

fn any_size() -> impl Strategy<Value = Size> {
    prop_oneof![
        3 => (any_side(), any_side()).prop_map(|(width, height)| Size::new(width, height)),
        // 2:3, and squares.
        2 => (1_i64..=40).prop_map(|part| Size::inches(part * 2, part * 3)),
        1 => (1_i64..=40).prop_map(|side| Size::inches(side, side)),
    ]
}

/// Lengths of borders: none, marks of a rule and beside them, as wide as a wall.
fn any_border() -> impl Strategy<Value = Length> {
    prop_oneof![
        2 => Just(0_i64),
        6 => (0_i64..=80, -1_i64..=1).prop_map(|(marks, off)| (marks * (UNITS_PER_INCH / 16) + off).max(0)),
        1 => 0..=limits::PIECE.units(),
    ]
    .prop_map(Length::from_units)
}

/// Sizes on offer, no two of one name.
fn any_offer(most: usize) -> impl Strategy<Value = Vec<StandardSize>> {
    vec((any_size(), any::<[bool; 3]>()), 0..most).prop_map(|sizes| {
        let listed =
            |(index, (size, [is_inches, is_print, is_frame])): (usize, (Size, [bool; 3]))| StandardSize {
                name: format!("size {index}"),
                series: "any".to_owned(),
                system: if is_inches { System::Inches } else { System::Centimetres },
                size,
                is_print,
                is_frame,
            };
        sizes.into_iter().enumerate().map(listed).collect()
    })
}

fn any_wish() -> impl Strategy<Value = FitWish> {
    let permille = || prop_oneof![Just(0_u16), Just(1000), Just(500), 0..=1000_u16];
    (
        (1_i128..=400, any_border(), any_border(), any_border(), any_border()),
        (prop_oneof![3 => Just(Length::ZERO), 1 => any_border()], permille(), permille()),
        option::of(any_side()),
    )
        .prop_map(
            |((ppi, white, overlap, one, other), (foot_extra, x_permille, y_permille), longest)| FitWish {
                fineness_ppi: whole(ppi),
                least_border: white,
                mat_overlap: overlap,
                least_mat_border: one.min(other),
                most_mat_border: one.max(other),
                foot_extra,
                focus: Focus { x_permille, y_permille },
                longest,
                step: None,
            },
        )
}

/// Borders and what they are round sum to the whole, without a unit lost.
fn sums(borders: Sides, within: Size, whole: Size) -> bool {
    borders.left + within.width + borders.right == whole.width
        && borders.top + within.height + borders.bottom == whole.height
}

fn least(borders: Sides) -> Length {
    borders.left.min(borders.top).min(borders.right).min(borders.bottom)
}

/// What holds of any fit.
fn check(fit: &Fit<'_>, px: (u32, u32), wish: &FitWish) -> Result<(), TestCaseError> {
    let (source, lost) = (fit.cut.source, fit.lost);
    let (width_px, height_px) = (whole(px.0), whole(px.1));
    // The cut is within the picture, and what is lost beside it is the rest.
    for strip in [lost.left_px, lost.top_px, lost.right_px, lost.bottom_px] {
        prop_assert!(strip >= whole(0));
    }
    prop_assert_eq!(lost.left_px + source.width + lost.right_px, width_px);
    prop_assert_eq!(lost.top_px + source.height + lost.bottom_px, height_px);
    prop_assert_eq!(source.width * source.height, (whole(1) - lost.share) * width_px * height_px);
    prop_assert_eq!(fit.keeps_fineness, fit.cut.pixels_per_inch >= wish.fineness_ppi);
    // Turned as the picture is, and within what is the longest.
    let sheet = fit.sheet();
    let (wide, narrow) = if px.0 > px.1 { (sheet.width, sheet.height) } else { (sheet.height, sheet.width) };
    prop_assert!(wide >= narrow);
    let nominal = fit.nominal();
    prop_assert!(wish.longest.is_none_or(|longest| nominal.width.max(nominal.height) <= longest));
    prop_assert!(fit.print.listed.is_print || fit.print.listed.is_frame);
    let per_unit = fit.cut.pixels_per_inch / i128::from(UNITS_PER_INCH);
    match fit.way {
        Way::Whole | Way::Cropped | Way::Matted => {
            // The image is the sheet, and the cut has its very shape.
            prop_assert_eq!(fit.image, sheet);
            prop_assert_eq!(source.width, per_unit * exact(sheet.width));
            prop_assert_eq!(source.height, per_unit * exact(sheet.height));
            prop_assert_eq!(fit.way == Way::Cropped, lost.share >= Exact::new(1, 200));
        }
        Way::Bordered => {
            prop_assert_eq!(lost.share, whole(0));
            prop_assert!(sums(fit.borders, fit.image, sheet));
            prop_assert!(least(fit.borders) >= wish.least_border);
            prop_assert!(fit.borders != Sides::default());
            // As large as can be: one direction is filled up to the least border.
            let narrowest = least(fit.borders) - wish.least_border;
            prop_assert!(narrowest <= Length::from_units(1), "{:?}", narrowest);
            // The image has the picture's shape, to the nearest unit.
            for (side, side_px) in [(fit.image.width, width_px), (fit.image.height, height_px)] {
                let off = exact(side) - side_px / per_unit;
                prop_assert!(off * 2 <= whole(1) && off * 2 >= whole(-1), "{off} units");
            }
        }
    }
    match (fit.way, fit.frame, fit.opening) {
        (Way::Matted, Some(frame), Some(opening)) => {
            prop_assert!(frame.listed.is_frame && fit.print.listed.is_print);
            prop_assert!(sums(fit.borders, opening, frame.size));
            prop_assert_eq!(opening.grown(wish.mat_overlap), sheet);
            prop_assert!(least(fit.borders) >= wish.least_mat_border);
            let Sides { left, top, right, bottom } = fit.borders;
            prop_assert!(left.max(top).max(right) <= wish.most_mat_border);
            prop_assert!(bottom <= wish.most_mat_border + wish.foot_extra);
            prop_assert!((bottom - top - wish.foot_extra).abs() <= Length::from_units(1));
            prop_assert!(sheet.width <= frame.size.width && sheet.height <= frame.size.height);
        }
        (_, frame, opening) => prop_assert!(fit.way != Way::Matted && frame.is_none() && opening.is_none()),
    }
    Ok(())
}

/// The same with width and height exchanged.
fn transposed(size: Size) -> Size {
    Size::new(size.height, size.width)
}

/// A frame of which this was measured.
fn in_hand((measured, size): (Measured, Size), Rails { face, rabbet_width, allowance }: Rails) -> InHand {
    InHand { measured, size, face, rabbet_width, allowance }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    #[test]
    fn any_fit_is_what_it_says(px in any_px(), sizes in any_offer(12), wish in any_wish()) {
        let fits = from_picture(px, &sizes, &wish);
        for fit in &fits {
            check(fit, px, &wish)?;
        }
        // Better ways and what keeps the fineness stand first, and within a way what costs less.
        for pair in fits.windows(2) {
            let place = |fit: &Fit<'_>| (!fit.keeps_fineness, fit.way, fit.cost);
            prop_assert!(place(&pair[0]) <= place(&pair[1]));
        }
        // Every size on offer is filled once.
        let filled = fits.iter().filter(|fit| matches!(fit.way, Way::Whole | Way::Cropped)).count();
        let offered = sizes.iter().filter(|size| size.is_print || size.is_frame);
        let within = |size: &StandardSize| wish.longest.is_none_or(|most| size.size.width.max(size.size.height) <= most);
        prop_assert_eq!(filled, offered.filter(|size| within(size)).count());
    }

    /// However the list is sorted, the fits are the same, in the same order.
    #[test]
    fn the_order_of_the_list_plays_no_part(
        px in any_px(),
        (sizes, shuffled) in any_offer(10).prop_flat_map(|sizes| (Just(sizes.clone()), Just(sizes).prop_shuffle())),
        wish in any_wish(),
    ) {
        prop_assert_eq!(from_picture(px, &sizes, &wish), from_picture(px, &shuffled, &wish));
    }

    /// A picture with width and height exchanged suits the same sizes, turned. The foot has no counterpart.
    #[test]
    fn turned_with_the_picture(px in any_px().prop_filter("a square lies as it stands", |px| px.0 != px.1), sizes in any_offer(10), wish in any_wish()) {
        let wish = FitWish { foot_extra: Length::ZERO, ..wish };
        let Focus { x_permille, y_permille } = wish.focus;
        let other = FitWish { focus: Focus { x_permille: y_permille, y_permille: x_permille }, ..wish };
        let fits = from_picture(px, &sizes, &wish);
        let turned = from_picture((px.1, px.0), &sizes, &other);
        prop_assert_eq!(fits.len(), turned.len());
        for (fit, turned) in fits.iter().zip(&turned) {
            prop_assert_eq!(fit.way, turned.way);
            prop_assert_eq!(fit.print.listed, turned.print.listed);
            prop_assert_eq!(transposed(fit.image), turned.image);
            prop_assert_eq!(transposed(fit.nominal()), turned.nominal());
            prop_assert_eq!(fit.opening.map(transposed), turned.opening);
            let Sides { left, top, right, bottom } = turned.borders;
            prop_assert_eq!(fit.borders, Sides { left: top, top: left, right: bottom, bottom: right });
            prop_assert_eq!((fit.lost.left_px, fit.lost.top_px), (turned.lost.top_px, turned.lost.left_px));
            prop_assert_eq!((fit.lost.share, fit.cost), (turned.lost.share, turned.cost));
            prop_assert_eq!(fit.cut.pixels_per_inch, turned.cut.pixels_per_inch);
        }
    }

    /// A frame by any of its four measures is the same frame, and what is ordered for it goes into it.
    #[test]
    fn a_frame_in_hand_takes_what_is_ordered(
        nominal in any_size(),
        (face, rabbet_width, allowance) in (any_border(), any_border(), any_border()),
        px in any_px(),
        wish in any_wish(),
    ) {
        let rails = Rails { face, rabbet_width, allowance };
        let order = from_frame(&in_hand((Measured::Glass, nominal), rails), px, &wish);
        // With n what goes in, A the play, R the lip and F the face: sight = n + A - 2 R, outside = n + A + 2 (F - R), rabbet = n + A; of what
        // lies in it the lip hides R - A / 2. There is a frame where the lip holds something and leaves something to be seen.
        let beyond = |more: Length| Size::new(nominal.width + more, nominal.height + more);
        let sight = beyond(allowance - rabbet_width * 2);
        let is_frame = rabbet_width * 2 > allowance && sight.width > Length::ZERO && sight.height > Length::ZERO;
        prop_assert_eq!(order.is_ok(), is_frame);
        static JUDGED: Share = Share::percent(20);
        let Ok(order) = order else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        prop_assert_eq!((order.nominal, order.sight), (nominal, sight));
        prop_assert_eq!((order.rabbet, order.outside), (beyond(allowance), beyond(allowance + (face - rabbet_width) * 2)));
        let off = order.lip_hides * 2 - (rabbet_width * 2 - allowance);
        prop_assert!(off.abs() <= Length::from_units(1), "{:?} hidden", order.lip_hides);
        for measured in [
            (Measured::Rabbet, order.rabbet),
            (Measured::Sight, order.sight),
            (Measured::Outside, order.outside),
        ] {
            prop_assert_eq!(from_frame(&in_hand(measured, rails), px, &wish), Ok(order));
        }
        let edge = order.to_the_edge;
        prop_assert_eq!((edge.sheet, edge.image, order.nominal), (nominal, nominal, nominal));
        for print in [Some(edge), order.inside_sight.ok(), order.matted.ok()].into_iter().flatten() {
            prop_assert!(sums(print.borders, print.opening.unwrap_or(print.image), nominal));
            prop_assert!(print.sheet.width <= nominal.width && print.sheet.height <= nominal.height);
            let hidden = [print.borders.left - print.visible_borders.left, print.borders.bottom - print.visible_borders.bottom];
            prop_assert_eq!(hidden, [order.lip_hides; 2]);
        }
        let unit = Length::from_units(1);
        match order.inside_sight {
            Ok(print) => {
                prop_assert_eq!(print.sheet, nominal);
                prop_assert_eq!(print.lost.share, whole(0));
                // What is seen of the white is what was asked for, to the unit that can't be halved.
                prop_assert!(least(print.visible_borders) >= wish.least_border - unit);
            }
            Err(why) => prop_assert!(why.to_string().contains("; "), "no remedy in {why}"),
        }
        match order.matted {
            Ok(print) => {
                prop_assert_eq!((print.image, print.lost.share), (print.sheet, whole(0)));
                prop_assert_eq!(print.opening, Some(print.sheet.grown(-wish.mat_overlap)));
                prop_assert!(least(print.borders) >= wish.least_mat_border);
            }
            Err(why) => prop_assert!(why.to_string().contains("; "), "no remedy in {why}"),
        }
    }

    /// The group of the largest image keeps within the space allowed and fills one direction of it.
    #[test]
    fn the_largest_image_in_a_space(
        allowed in any_size(),
        around in (any_border(), any_border()),
        (count, is_stacked) in (1_u32..=3, any::<bool>()),
        gap in any_border(),
        shape in (1_i128..=12_000, 1_i128..=12_000),
    ) {
        let spread = Spread { around: Size::new(around.0, around.1), count, gap, is_stacked };
        let shape = Exact::new(shape.0, shape.1);
        // A group of c: c (image + around) + (c - 1) gap along, image + around across.
        let pieces = i64::from(count);
        let outside = |image: Size| {
            let (width, height) = (image.width + around.0, image.height + around.1);
            let gaps = gap * (pieces - 1);
            if is_stacked { Size::new(width, height * pieces + gaps) } else { Size::new(width * pieces + gaps, height) }
        };
        let least = outside(Size::default());
        static JUDGED: Share = Share::percent(40);
        let Some(image) = in_space(allowed, &spread, shape) else {
            // Not even an image of a few units has room, or it would be thinner than a unit.
            let (wide, high) = (allowed.width - least.width, allowed.height - least.height);
            let few = Length::from_units(i64::from(count) * 12_000);
            prop_assert!(wide < few || high < few, "{:?} x {:?} left", wide, high);
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        prop_assert!(image.is_positive());
        let group = outside(image);
        prop_assert_eq!(spread.outside(image), group);
        let (spare_width, spare_height) = (allowed.width - group.width, allowed.height - group.height);
        prop_assert!(spare_width >= Length::ZERO && spare_height >= Length::ZERO);
        // What can't be divided among the pieces may be left over.
        prop_assert!(spare_width.min(spare_height) < Length::from_units(count.into()));
        let off = exact(image.width) - exact(image.height) * shape;
        let unit = whole(1).max(shape);
        prop_assert!(off * 2 <= unit && off * 2 >= -unit, "{off} of {image:?}");
    }

    /// What is noted of a size in one system is noted of the same numbers in the other.
    #[test]
    fn notes_on_systems_agree((width, height) in (1_i64..=60, 1_i64..=60), sizes in any_offer(12)) {
        let inches = Size::inches(width, height);
        let centimetres = Size::new(Length::mm(width * 10), Length::mm(height * 10));
        let listed = |system: System, size: Size| {
            sizes.iter().any(|listed| {
                listed.system == system && (listed.size == size || transposed(listed.size) == size)
            })
        };
        let note = system_note(inches, System::Inches, &sizes);
        prop_assert_eq!(note.is_some(), listed(System::Centimetres, centimetres));
        let other = system_note(centimetres, System::Centimetres, &sizes);
        prop_assert_eq!(other.is_some(), listed(System::Inches, inches));
        if listed(System::Inches, inches) && listed(System::Centimetres, centimetres) {
            let both = SystemNote::BothSystems { inches, centimetres };
            prop_assert_eq!((note, other), (Some(both), Some(both)));
        }
    }

    /// Whatever just misses is on offer, is not the size itself, and lies within a centimetre of it.
    #[test]
    fn near_misses_are_near(
        sizes in any_offer(12).prop_filter("something is on offer", |sizes| !sizes.is_empty()),
        which in any::<prop::sample::Index>(),
        (wider, higher) in (-12_i64..=12, -12_i64..=12),
    ) {
        static JUDGED: Share = Share::percent(60);
        let listed = which.get(&sizes);
        let size = Size::new(listed.size.width + Length::mm(wider), listed.size.height + Length::mm(higher));
        // Beside a square, or thinner than what is taken off it, it would lie otherwise than what it was made from.
        if !size.is_positive() || (size.width > size.height) != (listed.size.width > listed.size.height) {
            JUDGED.left_out();
            return Ok(());
        }
        JUDGED.judged();
        let found = near_misses(size, &sizes);
        let expected = (wider, higher) != (0, 0) && wider.abs() <= 10 && higher.abs() <= 10;
        prop_assert_eq!(found.iter().any(|miss| miss.listed.listed == listed), expected);
        for miss in &found {
            prop_assert_eq!(miss.wider, miss.listed.size.width - size.width);
            prop_assert!(miss.wider.abs() <= Length::mm(10) && miss.higher.abs() <= Length::mm(10));
            prop_assert!(miss.listed.size != size);
        }
        for pair in found.windows(2) {
            let farthest = |index: usize| pair[index].wider.abs().max(pair[index].higher.abs());
            prop_assert!(farthest(0) <= farthest(1));
        }
    }
}
