//! What holds of every answer that is taken into a plan: images for a space, sizes that suit a picture, prints for a frame in hand.

use overmantel::asked::{AskedError, Ordered, fits, in_hand, in_space, take_fit, take_in_hand, take_space};
use overmantel::figures::Figures;
use overmantel::fit::Way;
use overmantel::geometry::{Sides, Size};
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::making::things;
use overmantel::plan::*;
use overmantel::stock::Stock;
use overmantel_tests::given::hung;
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// From nothing to so many inches: marks of a rule, and a unit beside them.
fn upto(inches: i64) -> impl Strategy<Value = Length> + Clone {
    (0..=inches * 16, 0_i64..=1)
        .prop_map(|(marks, off)| Length::from_units(marks * (UNITS_PER_INCH / 16) + off))
}

fn image() -> impl Strategy<Value = Size> {
    let side = || upto(36).prop_map(|side| side + Length::inches(4));
    prop_oneof![
        (side(), side()).prop_map(|(width, height)| Size::new(width, height)),
        Just(Size::inches(16, 20))
    ]
}

fn mat() -> impl Strategy<Value = Mat> {
    let opening = prop_oneof![
        3 => upto(1).prop_map(OpeningRule::Overlap),
        1 => upto(2).prop_map(OpeningRule::Float),
        1 => upto(1).prop_map(OpeningRule::Reveal),
    ];
    let weighting = prop_oneof![
        3 => upto(1).prop_map(Weighting::Extra),
        1 => (1_u16..=5, 1_u16..=5).prop_map(|(head, foot)| Weighting::Ratio { head, foot }),
    ];
    (opening, weighting, upto(4), option::of(upto(1))).prop_map(
        |(opening, weighting, border, inner_reveal)| {
            let extent = Extent::Border(border + Length::inches(2));
            Mat { opening, surround: Surround { extent, weighting }, inner_reveal, ..Mat::starting() }
        },
    )
}

fn paper(mat: Option<Mat>, frame: Option<Frame>, border: Length) -> Finish {
    let framing = Framing { mat, frame, ..Framing::starting() };
    Finish::Paper(Paper { border: Surround::even(border), framing, ..Paper::starting() })
}

fn frame() -> impl Strategy<Value = Frame> {
    (upto(2), upto(1), upto(1)).prop_map(|(beside, lip, allowance)| {
        let rabbet_width = lip + Length::inches_ratio(1, 4);
        Frame { face: rabbet_width + beside, rabbet_width, allowance, ..Frame::starting() }
    })
}

/// Pieces in one frame, which all have a mat.
fn matted() -> impl Strategy<Value = Piece> {
    (image(), mat(), frame(), upto(2)).prop_map(|(image, mat, frame, border)| Piece {
        image,
        finish: paper(Some(mat), Some(frame), border),
        ..Piece::starting()
    })
}

fn any_piece() -> impl Strategy<Value = Piece> {
    let loose = (image(), frame(), upto(2), option::of(upto(1)), 0..4).prop_map(
        |(image, frame, border, gap, make)| {
            let floater = gap.map(|gap| Floater { gap, ..Floater::starting() });
            let finish = match make {
                0 => paper(None, Some(frame), border),
                1 => Finish::Canvas(Canvas { floater, ..Canvas::starting() }),
                2 => Finish::Aluminium(Aluminium::starting()),
                _ => Finish::Original(Original { floater, ..Original::starting() }),
            };
            Piece { image, finish, ..Piece::starting() }
        },
    );
    prop_oneof![matted(), loose]
}

fn any_group() -> impl Strategy<Value = Plan> {
    let align = select(vec![Align::Centre, Align::Start, Align::End]);
    let bar = upto(1).prop_map(|bar| Shared { bar: bar + Length::inches(3) });
    let together = (vec(matted(), 2..=3), bar, any::<bool>()).prop_map(|(pieces, shared, is_column)| {
        let arrangement = if is_column { Arrangement::Column } else { Arrangement::Row };
        (pieces, arrangement, Some(shared))
    });
    let step = (upto(6), any::<bool>()).prop_map(|(step, down)| if down { -step } else { step });
    let arrangement =
        prop_oneof![Just(Arrangement::Row), Just(Arrangement::Column), step.prop_map(Arrangement::Stepped)];
    let apart =
        (vec(any_piece(), 1..=3), arrangement).prop_map(|(pieces, arrangement)| (pieces, arrangement, None));
    (prop_oneof![together, apart], align, upto(5)).prop_map(|((pieces, arrangement, shared), align, gap)| {
        let plan = hung(pieces);
        Plan { group: Group { arrangement, align, gap, ..plan.group }, shared, ..plan }
    })
}

/// The same plan with sheets and boards stated as what they are.
fn stated(mut plan: Plan, figures: &Figures) -> Plan {
    for (piece, sizes) in plan.pieces.iter_mut().zip(&figures.build_ups) {
        if let Finish::Paper(paper) = &mut piece.finish {
            paper.border.extent = Extent::Whole(sizes.sheet.size);
        }
        let mat = piece.finish.framing_mut().and_then(|framing| framing.mat.as_mut());
        if let (Some(mat), Some(cut)) = (mat, &sizes.mat) {
            mat.surround.extent = Extent::Whole(cut.board.size);
        }
    }
    plan
}

fn any_px() -> impl Strategy<Value = (u32, u32)> {
    let side = || prop_oneof![500_u32..=12_000, Just(4000), Just(5000), Just(6000)];
    (side(), side())
}

fn showing(plan: Plan, (width_px, height_px): (u32, u32)) -> Plan {
    let (name, file) = ("Low water".to_owned(), String::new());
    let mut plan =
        Plan { pictures: vec![Picture { name, file, width_px, height_px, subject: None }], ..plan };
    for piece in &mut plan.pieces {
        piece.picture = Some(0);
    }
    plan
}

fn any_hand() -> impl Strategy<Value = InHand> {
    let measured = select(vec![Measured::Glass, Measured::Rabbet, Measured::Sight, Measured::Outside]);
    (measured, image(), frame()).prop_map(|(measured, size, frame)| {
        let Frame { face, rabbet_width, allowance, .. } = frame;
        InHand { measured, size, face, rabbet_width, allowance }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// The group keeps within the space, and fills it in one direction: across to the unit, along to what can't be shared out. So with
    /// 1/8 in more for each image it would not.
    #[test]
    fn a_group_fills_its_space(plan in any_group(), space in (upto(120), upto(120)), is_stated in any::<bool>()) {
        static JUDGED: Share = Share::percent(50);
        let Ok(before) = Figures::of(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        let plan = if is_stated { stated(plan, &before) } else { plan };
        let least = Length::from_units(1);
        let space = Size::new(space.0.max(least), space.1.max(least));
        let plan = Plan { space: Some(space), ..plan };
        let figures = Figures::of(&plan).expect("stated as it was");
        prop_assert_eq!(figures.arranged.group.size, before.arranged.group.size);
        let Some(image) = in_space(&plan, &figures) else {
            prop_assert!(take_space(&plan).is_err());
            JUDGED.left_out();
            return Ok(());
        };
        let taken = take_space(&plan).expect("there is an answer");
        prop_assert!(taken.pieces.iter().all(|piece| piece.image == image));
        let group = match Figures::of(&taken) {
            Ok(figures) => figures.arranged.group.size,
            // So small that nothing is left within an overlap or a lip, or in a corner.
            Err(_) => {
                prop_assert!(image.width.min(image.height) < Length::inches(6));
                JUDGED.left_out();
                return Ok(());
            }
        };
        JUDGED.judged();
        let (across, upright) = (space.width - group.width, space.height - group.height);
        prop_assert!(across >= Length::ZERO && upright >= Length::ZERO, "{:?} in {:?}", group, space);
        let count = i64::try_from(plan.pieces.len()).expect("a few");
        let (along, beside) =
            if plan.group.arrangement == Arrangement::Column { (upright, across) } else { (across, upright) };
        prop_assert!(along < Length::from_units(count) || beside == Length::ZERO, "{:?} in {:?}", group, space);
    }

    /// A fit that is taken has the sizes that were offered.
    #[test]
    fn a_fit_is_what_was_offered(px in any_px(), mat in option::of(mat()), frame in frame(), from in 0_usize..97) {
        let plan = hung(vec![Piece { finish: paper(mat, Some(frame), Length::ZERO), ..Piece::starting() }]);
        let plan = showing(plan, px);
        static JUDGED: Share = Share::percent(90);
        static TAKEN: Share = Share::percent(90);
        let Ok(figures) = Figures::of(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let stock = Stock::offered();
        let found = fits(&plan, &figures, &stock, 0);
        for fit in found.iter().skip(from).step_by(97) {
            let taken = take_fit(&plan, Some(0), fit);
            // A reveal of an inner mat may leave no border; the others are wide enough.
            let Ok(figures) = Figures::of(&taken) else {
                prop_assert!(fit.way == Way::Matted || fit.image.width.min(fit.image.height) < Length::inches(4));
                TAKEN.left_out();
                continue;
            };
            TAKEN.judged();
            let sizes = &figures.build_ups[0];
            prop_assert_eq!((sizes.image.size, sizes.sheet.size), (fit.image, fit.sheet()));
            prop_assert_eq!(sizes.frame.as_ref().map(|cut| cut.nominal), Some(fit.nominal()));
            prop_assert_eq!(sizes.mat.as_ref().map(|cut| cut.opening.size), fit.opening);
            let borders = sizes.mat.as_ref().map_or(sizes.sheet_borders, |cut| cut.borders);
            prop_assert_eq!(borders, fit.borders);
            let made = things(&taken, &figures, &stock);
            prop_assert_eq!(made[0].prints[0].size, fit.sheet());
        }
    }

    /// A print that is taken for a frame in hand goes into a frame with the sizes of the order, and lies there as it says.
    #[test]
    fn a_print_for_a_frame_in_hand_goes_into_it(px in any_px(), piece in any_piece(), frame in any_hand()) {
        let plan = showing(Plan { in_hand: Some(frame), ..hung(vec![piece]) }, px);
        static JUDGED: Share = Share::percent(90);
        static PRINTS: Share = Share::percent(70);
        let Ok(figures) = Figures::of(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let order = in_hand(&plan, &figures, 0).expect("a frame in hand");
        for (ordered, ..) in Ordered::ALL {
            let taken = take_in_hand(&plan, None, ordered);
            let print = match order.and_then(|order| ordered.of(&order)) {
                Ok(print) => print,
                Err(why) => {
                    prop_assert_eq!(taken, Err(AskedError::InHand(why)));
                    PRINTS.left_out();
                    continue;
                }
            };
            let order = order.expect("it has a print");
            let taken = taken.expect("a print");
            let Ok(figures) = Figures::of(&taken) else {
                prop_assert!(ordered == Ordered::Matted, "an inner mat may leave no border");
                PRINTS.left_out();
                continue;
            };
            let sizes = &figures.build_ups[0];
            PRINTS.judged();
            let cut = sizes.frame.as_ref().expect("a frame");
            prop_assert_eq!((cut.nominal, cut.rabbet.size, cut.sight.size), (order.nominal, order.rabbet, order.sight));
            prop_assert_eq!((sizes.outside, cut.lip_hides), (order.outside, order.lip_hides));
            prop_assert_eq!((sizes.image.size, sizes.sheet.size), (print.image, print.sheet));
            prop_assert_eq!(sizes.mat.as_ref().map(|mat| mat.opening.size), print.opening);
            let borders = sizes.mat.as_ref().map_or(sizes.sheet_borders, |mat| mat.borders);
            prop_assert_eq!(borders, print.borders);
            let visible = sizes.mat.as_ref().map(|mat| mat.visible_borders);
            let seen = Sides {
                left: print.borders.left - order.lip_hides,
                top: print.borders.top - order.lip_hides,
                right: print.borders.right - order.lip_hides,
                bottom: print.borders.bottom - order.lip_hides,
            };
            prop_assert_eq!(print.visible_borders, seen);
            prop_assert!(visible.is_none_or(|visible| visible == seen));
        }
    }
}
