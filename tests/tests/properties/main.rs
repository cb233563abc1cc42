//! What holds of every plan, tried where it is most likely not to.

use overmantel::desk::Desk;
use overmantel::field::{Field, Whose};
use overmantel::fields::{self, Kind};
use overmantel::figures::Figures;
use overmantel::geometry::Rect;
use overmantel::length::Length;
use overmantel::plan::{Align, Arrangement, Framing, GroupAcross, Mat, Piece, Plan, System, file};
use proptest::collection::vec;
use proptest::prelude::*;

mod any_plan;
mod built;
mod defaults;
mod links;
mod painter;
mod papers;
mod parts;
mod remedies;
mod short;
mod suggested;
mod untrusted;

use any_plan::any_plan;
use overmantel_tests::share::Share;

/// The plan as it looks in a mirror: every length from the left is from the right, the last piece is the first.
fn mirrored(plan: &Plan) -> Plan {
    use overmantel::plan::{Across, Rise};
    let mut plan = plan.clone();
    for fixture in &mut plan.fixtures {
        fixture.across = match fixture.across {
            Across::Middle => Across::Middle,
            Across::FromLeft(x) => Across::FromRight(x),
            Across::FromRight(x) => Across::FromLeft(x),
        };
        fixture.rise = match fixture.rise {
            Rise::Right => Rise::Left,
            Rise::Left => Rise::Right,
        };
    }
    if let GroupAcross::CentreAt(x) = plan.group.across {
        plan.group.across = GroupAcross::CentreAt(plan.wall.size.width - x);
    }
    match plan.group.arrangement {
        Arrangement::Row => {
            plan.pieces.reverse();
            if plan.shared.is_some() {
                frame_stays_first(&mut plan.pieces);
            }
        }
        Arrangement::Stepped(rise) => {
            plan.pieces.reverse();
            plan.group.arrangement = Arrangement::Stepped(-rise);
        }
        Arrangement::StackRight => plan.group.arrangement = Arrangement::StackLeft,
        Arrangement::StackLeft => plan.group.arrangement = Arrangement::StackRight,
        Arrangement::Column => {
            plan.group.align = match plan.group.align {
                Align::Centre | Align::Both => plan.group.align,
                Align::Start => Align::End,
                Align::End => Align::Start,
            };
        }
    }
    plan
}

/// A shared frame is that of the first piece, and each opening follows from its own piece: the frame of what was first before
/// goes to what is first now.
fn frame_stays_first(reversed: &mut [Piece]) {
    let Some(shared) = reversed.last().and_then(|piece| piece.finish.framing()).cloned() else { return };
    let Some(own) = reversed.first_mut().and_then(|piece| piece.finish.framing_mut()) else { return };
    let opening = own.mat.as_ref().map(|mat| mat.opening);
    let mat = shared.mat.zip(opening).map(|(mat, opening)| Mat { opening, ..mat });
    *own = Framing { mat, ..shared };
}

/// Every length of the plan on a multiple of four units, so that all halves and quarters are whole.
fn in_fours(plan: &Plan) -> Option<Plan> {
    let text = file::write(plan);
    let mut value: serde_json::Value = serde_json::from_str(&text).ok()?;
    to_fours(&mut value);
    file::read(&value.to_string()).ok()
}

fn to_fours(value: &mut serde_json::Value) {
    use overmantel::length::{Unit, parse::parse, print};
    match value {
        serde_json::Value::Array(items) => items.iter_mut().for_each(to_fours),
        serde_json::Value::Object(fields) => {
            for (key, value) in fields {
                if !["title", "name", "picture", "fixture", "fixture_middle", "file"].contains(&key.as_str())
                {
                    to_fours(value);
                }
            }
        }
        serde_json::Value::String(text) => {
            if let Ok(length) = parse(text, Unit::Metre)
                && text.ends_with(|letter: char| letter.is_ascii_alphabetic())
            {
                let fours = length.units() / 4 * 4;
                // What is more than nothing stays so.
                *text = print::exact(Length::from_units(if length > Length::ZERO {
                    fours.max(4)
                } else {
                    fours
                }));
            }
        }
        _ => {}
    }
}

/// Every field that a plan might have, of each of its pieces, fixtures and pictures; the description knows them all.
fn every_field(plan: &Plan) -> Vec<Field> {
    let mut found = Vec::new();
    for Field { row, of } in Field::all() {
        match of {
            Whose::Piece(_) => {
                found.push(Field::pieces(row));
                found.extend((0..plan.pieces.len()).map(|piece| Field::piece(row, piece)));
            }
            Whose::Fixture(_) => found.extend((0..plan.fixtures.len()).map(|at| Field::fixture(row, at))),
            Whose::Picture(_) => found.extend((0..plan.pictures.len()).map(|at| Field::picture(row, at))),
            Whose::Plan | Whose::Pieces => found.push(Field { row, of }),
        }
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn what_is_written_is_read(plan in any_plan()) {
        let text = file::write(&plan);
        let read = file::read(&text);
        prop_assert_eq!(read.as_ref(), Ok(&plan));
        prop_assert_eq!(file::write(&plan), text);
    }

    /// Mirrored, everything is where the mirror shows it: outsides, fixtures, hooks.
    #[test]
    fn a_mirrored_plan_is_the_mirror_image(mut plan in any_plan()) {
        // In one frame the first piece's mat and frame count for all, and the first is another in the mirror.
        plan.shared = None;
        // No half of a unit has to go to one side.
        static JUDGED: Share = Share::percent(20);
        let Some(plan) = in_fours(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        let other = mirrored(&plan);
        // A place near the limits of a plan may lie beyond them in the mirror.
        if other.check().is_err() {
            JUDGED.left_out();
            return Ok(());
        }
        let (figures, mirror) = (Figures::of(&plan), Figures::of(&other));
        prop_assert_eq!(figures.is_ok(), mirror.is_ok());
        let (Ok(figures), Ok(mirror)) = (figures, mirror) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let wall = plan.wall.size.width;
        let turned = |rect: &Rect| Rect::new(wall - rect.right(), rect.y, rect.size);
        let mut outsides: Vec<Rect> = figures.arranged.outsides.iter().map(turned).collect();
        let mut hooks: Vec<Vec<_>> = figures
            .hanging
            .iter()
            .map(|hanging| hanging.hooks.iter().rev().map(|hook| (wall - hook.x, hook.y)).collect())
            .collect();
        if matches!(plan.group.arrangement, Arrangement::Row | Arrangement::Stepped(_)) {
            outsides.reverse();
            hooks.reverse();
        }
        prop_assert_eq!(&mirror.arranged.outsides, &outsides);
        let fixtures: Vec<Rect> = figures.arranged.fixtures.iter().map(turned).collect();
        prop_assert_eq!(&mirror.arranged.fixtures, &fixtures);
        let found: Vec<Vec<_>> = mirror
            .hanging
            .iter()
            .map(|hanging| hanging.hooks.iter().map(|hook| (hook.x, hook.y)).collect())
            .collect();
        prop_assert_eq!(found, hooks);
    }

    /// A plan in inches, shown in centimetres and back, is the same plan; so is one whose fields are written as they are shown.
    #[test]
    fn units_change_nothing(plan in any_plan()) {
        static JUDGED: Share = Share::percent(25);
        static NAMED: Share = Share::percent(15);
        let Ok(mut desk) = Desk::new(plan.clone()) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let figures = desk.figures().clone();
        let other = match plan.units.first {
            System::Inches => System::Centimetres,
            System::Centimetres => System::Inches,
        };
        desk.show_units(other, !plan.units.both);
        prop_assert_eq!(desk.figures(), &figures);
        desk.show_units(plan.units.first, plan.units.both);
        prop_assert_eq!(desk.plan(), &plan);
        for field in every_field(&plan).into_iter().filter(|field| field.is_stated() && field.of != Whose::Pieces) {
            let Some(value) = fields::read(&plan, desk.stock(), field) else {
                NAMED.left_out();
                continue;
            };
            let named = match value.kind {
                // What is left to the piece is told by its key.
                Kind::Length | Kind::Size => !value.rounded || value.key.is_some(),
                // A choice may also say that there is nothing yet.
                Kind::Choice => value.key.is_some(),
                Kind::Colour | Kind::Number | Kind::Ratio => true,
                // A name with blanks at its ends is taken without them.
                Kind::Name => value.text.trim() == value.text,
            };
            if named {
                NAMED.judged();
                let text = value.key.as_ref().filter(|_| matches!(value.kind, Kind::Choice | Kind::Length)).unwrap_or(&value.text);
                let written = fields::write(&plan, desk.stock(), field, text);
                prop_assert_eq!(written.as_ref(), Ok(&plan), "{}: {:?}", field, value.text);
            } else {
                NAMED.left_out();
            }
        }
    }

    /// Any changes, undone one by one, give the plans there were before; done again, those after.
    #[test]
    fn undone_and_done_again(
        start in any_plan(),
        changes in vec((any::<prop::sample::Index>(), 0..8_usize, any::<prop::sample::Index>()), 0..12),
    ) {
        static JUDGED: Share = Share::percent(30);
        let Ok(mut desk) = Desk::new(start) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let mut plans = vec![desk.plan().clone()];
        for (which, text, option) in changes {
            let fields_of_it = every_field(desk.plan());
            let field = *which.get(&fields_of_it);
            let options = fields::read(desk.plan(), desk.stock(), field).map(|value| value.options).unwrap_or_default();
            let texts = ["20", "1 1/2 in", "40 cm", "0", "-3", "16 × 20 in", "#102030", "no length"];
            let text = if options.is_empty() { texts[text].to_owned() } else { option.get(&options).key.clone() };
            let before = desk.plan().clone();
            match desk.set(field, &text) {
                Ok(()) if *desk.plan() != before => plans.push(desk.plan().clone()),
                Ok(()) => {}
                Err(_) => prop_assert_eq!(desk.plan(), &before, "a refused change changes nothing"),
            }
        }
        for plan in plans.iter().rev().skip(1) {
            prop_assert!(desk.undo());
            prop_assert_eq!(desk.plan(), plan);
            let figures = Figures::of(plan);
            prop_assert_eq!(Ok(desk.figures()), figures.as_ref());
        }
        prop_assert!(!desk.undo());
        for plan in plans.iter().skip(1) {
            prop_assert!(desk.redo());
            prop_assert_eq!(desk.plan(), plan);
        }
        prop_assert!(!desk.redo());
        prop_assert_eq!(Some(desk.plan()), plans.last());
    }
}
