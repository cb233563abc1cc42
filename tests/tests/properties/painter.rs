//! What a painter keeps from one drawing to the next never changes the outcome.

use super::any_plan::{any_plan, focus};
use overmantel::draw::{LoadedPicture, Painter, Sheet, Theme};
use overmantel::field::Field;
use overmantel::figures::Figures;
use overmantel::plan::{Arrangement, Group, GroupAcross, GroupUp, Plan, file};
use overmantel::plan::{GROUP_GAP, WALL_WIDTH};
use overmantel::resample::{Pyramid, Raster};
use overmantel::scene::scene;
use proptest::collection::vec;
use proptest::prelude::*;

fn any_sheet() -> impl Strategy<Value = Sheet> {
    let sizes = prop::sample::select(vec![(240_u32, 160_u32), (241, 160), (160, 240), (1, 1), (400, 64)]);
    let chosen =
        prop::sample::select(vec![None, Some(Field::from(&WALL_WIDTH)), Some(Field::from(&GROUP_GAP))]);
    (sizes, any::<[bool; 3]>(), chosen).prop_map(|((width, height), [lines, dark, fine], chosen)| Sheet {
        lines,
        theme: if dark { Theme::DARK } else { Theme::LIGHT },
        pixel_ratio: if fine { 2.0 } else { 1.0 },
        chosen,
        ..Sheet::new(width, height)
    })
}

/// A copy of a picture: a slope of this tint.
fn copy(tint: u8) -> LoadedPicture {
    let pixels: Vec<u8> = (0..=u8::MAX).flat_map(|code| [code, tint, 255 - code, 255]).collect();
    let raster = Raster::new(16, 16, pixels).unwrap_or_else(|| panic!("16 × 16"));
    LoadedPicture {
        pyramid: Pyramid::of(raster),
        file_width_px: 4000,
        file_height_px: 3000,
        revision: tint.into(),
    }
}

/// A plan that has an answer.
fn any_answered() -> impl Strategy<Value = Plan> {
    any_plan().prop_filter("it has an answer", |plan| Figures::of(plan).is_ok())
}

/// Draws with a painter that may have drawn before, and with a new one.
fn check(painter: &mut Painter, plan: &Plan, tint: u8, sheet: &Sheet) -> Result<(), TestCaseError> {
    let figures = Figures::of(plan).expect("it has an answer");
    let placed = scene(plan, &figures);
    let copy = copy(tint);
    let copies = vec![Some(&copy); plan.pictures.len()];
    let mut other = Painter::default();
    let expected = other.draw(&placed, &copies, sheet);
    let found = painter.draw(&placed, &copies, sheet);
    prop_assert!(found.pixels == expected.pixels, "a new painter draws otherwise");
    prop_assert_eq!(found.marks, expected.marks);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(30))]

    #[test]
    fn any_drawings_in_any_order(drawings in vec((any_answered(), any::<u8>(), any_sheet()), 2..5)) {
        let mut painter = Painter::default();
        for (plan, tint, sheet) in &drawings {
            check(&mut painter, plan, *tint, sheet)?;
        }
    }

    /// On one sheet, where only what has changed is drawn again: moved, rearranged, with another picture, and back.
    #[test]
    fn one_plan_moved_about(
        places in vec((0_i64..=120, 0_i64..=90, -1_i64..=2, any::<bool>(), 0..3_u8, focus()), 2..6),
        sheet in any_sheet(),
    ) {
        let demo = file::read(include_str!("../../../demo-data/plans/low-water.json"));
        let mut plan = demo.unwrap_or_else(|error| panic!("{error}"));
        let mut painter = Painter::default();
        for (x, y, step, split, tint, focus) in places {
            let arrangement = match step {
                0 => Arrangement::Row,
                1 => Arrangement::Column,
                step => Arrangement::Stepped(overmantel::length::Length::inches(step * 5)),
            };
            plan.group = Group {
                arrangement,
                across: GroupAcross::CentreAt(overmantel::length::Length::inches(x)),
                up: GroupUp::CentreAt(overmantel::length::Length::inches(y)),
                ..plan.group
            };
            for piece in &mut plan.pieces {
                piece.picture = Some(0);
                piece.focus = focus;
            }
            let kept = plan.split;
            if !split {
                plan.split = None;
            }
            check(&mut painter, &plan, tint, &sheet)?;
            plan.split = kept;
        }
    }
}
