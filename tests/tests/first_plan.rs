//! First plans on any wall: what they promise. No number is from Overmantel.

use overmantel::findings::{Severity, findings};
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::System;
use overmantel::stock::Stock;
use overmantel::suggest::{FirstError, first_plan};
use overmantel_tests::given::{figures, picture};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_first_plan_can_be_made_keeps_to_its_part_of_the_wall_and_crops_nothing_to_speak_of(
        wall in (500_i64..20_000, 500_i64..6_000),
        system in select(&[System::Inches, System::Centimetres][..]),
        shapes in vec((300_u32..12_000, 300_u32..12_000), 0..=3),
    ) {
        let wall = Size::new(Length::mm(wall.0), Length::mm(wall.1));
        let pictures: Vec<_> =
            shapes.iter().enumerate().map(|(at, px)| picture(&format!("tide {at}"), px.0, px.1)).collect();
        let stock = Stock::offered();
        let plan = match first_plan("First", wall, system, pictures, &stock) {
            // On a wall of 3 × 1.5 m there is always room for three whose long side is not three times the other.
            Err(why) => {
                prop_assert!(matches!(why, FirstError::NoRoom { .. }), "{why}");
                let is_long = shapes.iter().any(|px| px.0 > px.1 * 3 || px.1 > px.0 * 3);
                prop_assert!(is_long || wall.width < Length::mm(3_000) || wall.height < Length::mm(1_500), "{why}");
                return Ok(());
            }
            Ok(plan) => plan,
        };
        let figures = figures(&plan);
        let found = findings(&plan, &figures, &stock);
        prop_assert!(found.iter().all(|finding| finding.severity < Severity::CannotBeMade), "{found:?}");
        let group = figures.arranged.group;
        // Widths are rounded to the nearest millimetre or sixteenth, each.
        prop_assert!(group.size.width <= wall.width.times_ratio(4, 7) + Length::mm(3));
        prop_assert!(group.y > Length::ZERO && group.top() < wall.height);
        prop_assert!(plan.pieces.iter().all(|piece| piece.image.height == plan.pieces[0].image.height));
        for (piece, px) in plan.pieces.iter().zip(&shapes) {
            let (across, up) = (piece.image.width.to_mm(), piece.image.height.to_mm());
            let wanted = up * f64::from(px.0) / f64::from(px.1);
            prop_assert!((across - wanted).abs() <= 0.8 || across < 2.0, "{across} for {wanted}");
        }
    }
}

#[test]
fn without_pictures_there_are_three_places_and_more_than_three_are_too_many() {
    let wall = Size::inches(144, 96);
    let stock = Stock::offered();
    let bare = first_plan("First", wall, System::Inches, Vec::new(), &stock).expect("a plan");
    assert_eq!(bare.pieces.len(), 3);
    assert!(bare.pieces.iter().all(|piece| piece.picture.is_none()));
    let one =
        first_plan("First", Size::inches(12, 8), System::Inches, vec![picture("tide", 4000, 5000)], &stock);
    assert_eq!(
        one.expect_err("too small").to_string(),
        "a wall of 12 in × 8 in has no room for a framed picture; check the unit of the wall"
    );
    // 8 in high it would be 1/5 in wide, of which the mat would cover 1/8 in on each side.
    let thin = vec![picture("mast", 300, 12_000)];
    let thin = first_plan("First", Size::inches(60, 20), System::Inches, thin, &stock);
    assert!(matches!(thin, Err(FirstError::NoRoom { .. })), "{thin:?}");
    let four = (0..4).map(|at| picture(&format!("tide {at}"), 4000, 5000)).collect();
    let refused = first_plan("First", wall, System::Inches, four, &stock).expect_err("too many");
    assert_eq!(
        refused.to_string(),
        "4 pictures were given, and a plan has 1 to 3 pieces; give no more than that"
    );
}
