//! What holds of any suggestion when it is taken, and of two pieces that are suggested beside a large one.

use super::any_plan::any_plan;
use overmantel::desk::Desk;
use overmantel::figures::Figures;
use overmantel::geometry::{Rect, Size};
use overmantel::length::Length;
use overmantel::plan::{Align, Arrangement, Finish, GroupAcross, GroupUp, Picture, Piece, Plan};
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::prelude::*;

/// Any plan of three pictures, on a wall such as rooms have, at which something may be suggested.
fn of_three() -> impl Strategy<Value = Plan> {
    let pictures = vec((900..9000_u32, 900..9000_u32), 3);
    (any_plan(), pictures, 90..200_i64, 84..120_i64, 40..100_i64, any::<bool>()).prop_map(
        |(plan, pictures, width, height, eye, is_usual)| {
            let pictures = pictures.into_iter().enumerate().map(|(index, (width_px, height_px))| Picture {
                name: format!("Tide gauge {index}"),
                file: format!("{index}.jpg"),
                width_px,
                height_px,
                subject: None,
            });
            let mut plan = Plan {
                pictures: pictures.collect(),
                split: None,
                shared: None,
                in_hand: None,
                space: None,
                ..plan
            };
            plan.wall.size = Size::inches(width, height);
            plan.wall.skirting = plan.wall.skirting.min(Length::inches(height / 8));
            plan.site.cornice = plan.site.cornice.min(Length::inches(height / 16));
            plan.viewing.eye_level = Length::inches(eye.min(height * 3 / 4));
            plan.group.up = GroupUp::EyeLevel;
            plan.group.across = GroupAcross::WallMiddle;
            plan.fixtures.truncate(2);
            for piece in &mut plan.pieces {
                piece.picture = piece.picture.filter(|&picture| picture < 3);
                if is_usual || matches!(piece.finish, Finish::Original(_)) {
                    piece.finish = Piece::starting().finish;
                }
            }
            plan
        },
    )
}

/// The gaps between what is mixed: from the large one to each of the others, and from one of these to the other.
fn gaps(outsides: &[Rect], arrangement: Arrangement) -> [Length; 3] {
    let [large, upper, lower] = outsides else { panic!("three pieces") };
    let beside = |other: &Rect| match arrangement {
        Arrangement::StackLeft => large.x - other.right(),
        _ => other.x - large.right(),
    };
    [beside(upper), beside(lower), upper.y - lower.top()]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// What is suggested is what is taken, to the last figure, and one step takes it back. It fits the wall. Two that are stacked beside
    /// one keep the gap, with their outer edges in line with its own, and none is wider; their words give the sizes that they have.
    #[test]
    fn any_suggestion_is_taken_as_it_was_told(plan in of_three(), make in 1..9_usize) {
        static MIXED: Share = Share::percent(20);
        let Ok(mut desk) = Desk::new(plan) else { MIXED.left_out(); return Ok(()) };
        let before = desk.plan().clone();
        prop_assert_eq!(desk.wish("count", "3"), Ok(()));
        prop_assert_eq!(desk.wish("make", &make.to_string()), Ok(()));
        let Ok((found, _)) = desk.suggested() else { MIXED.left_out(); return Ok(()) };
        let told = found.suggestions.clone();
        let mut is_mixed = false;
        for (index, one) in told.iter().enumerate() {
            let figures = Figures::of(&one.plan);
            prop_assert!(desk.take_suggestion(index).is_ok());
            prop_assert_eq!(desk.plan(), &one.plan);
            prop_assert_eq!(Ok(desk.figures()), figures.as_ref());
            let (now, place) = desk.suggested().map(|(found, place)| (found.suggestions.clone(), place)).unwrap_or_default();
            prop_assert_eq!((&now, place), (&told, Some(index)), "the others stay as they are");
            let arranged = desk.figures().arranged.clone();
            let wall = Rect::new(Length::ZERO, Length::ZERO, one.plan.wall.size);
            prop_assert_eq!(arranged.group.common(wall), Some(arranged.group), "{}", one.words);
            let arrangement = one.plan.group.arrangement;
            if arrangement.is_mixed() {
                is_mixed = true;
                let [upper, lower, between] = gaps(&arranged.outsides, arrangement);
                let [large, above, below] = &arranged.outsides[..] else { panic!("three pieces") };
                let gap = one.plan.group.gap;
                prop_assert_eq!([upper, lower], [gap; 2]);
                prop_assert!(between >= gap, "{between:?} apart");
                prop_assert_eq!([above.top(), below.y], [large.top(), large.y]);
                prop_assert_eq!(one.plan.group.align, Align::Both);
                prop_assert!(above.size.width.max(below.size.width) <= large.size.width);
                let side = if arrangement == Arrangement::StackLeft { "left" } else { "right" };
                let start = ["One large and two stacked to its ", side, ", "].concat();
                prop_assert!(one.words.starts_with(&start), "{}", one.words);
                let is_told_once = one.words.contains("the two each");
                prop_assert!(!is_told_once || above.size == below.size, "{}", one.words);
            }
            prop_assert!(index == 0 && one.plan == before || desk.undo());
            prop_assert_eq!(desk.plan(), &before);
        }
        if is_mixed { MIXED.judged() } else { MIXED.left_out() }
    }
}
