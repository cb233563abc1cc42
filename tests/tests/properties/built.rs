//! What nothing says cannot be made can be made: every part lies in what holds it, every hook is on something, nothing overlaps, the
//! picture is seen. Looked at with nothing but rectangles.

use super::any_plan::any_plan;
use super::remedies::usual_plan;
use overmantel::figures::Figures;
use overmantel::findings::{Severity, findings};
use overmantel::framing::BuildUp;
use overmantel::geometry::{Point, Rect};
use overmantel::length::Length;
use overmantel::plan::{Finish, FixtureKind, Glazing, Hanger, OpeningRule, Plan};
use overmantel::stock::Stock;
use overmantel_tests::given;
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

fn lies_in(inner: Rect, outer: Rect) -> bool {
    inner.x >= outer.x && inner.y >= outer.y && inner.right() <= outer.right() && inner.top() <= outer.top()
}

fn overlap(one: Rect, other: Rect) -> bool {
    one.common(other).is_some()
}

/// Parts of one piece, each in what holds it.
fn parts(plan: &Plan, index: usize, sizes: &BuildUp, wrong: &mut Vec<String>) {
    let mut must = |is_so: bool, what: &str| {
        if !is_so {
            wrong.push(format!("piece {}: {what}", index + 1));
        }
    };
    let piece = &plan.pieces[index];
    let outside = Rect::new(Length::ZERO, Length::ZERO, sizes.outside);
    must(lies_in(sizes.image, sizes.sheet), "the image is on its sheet");
    must(
        sizes.stack.layers.iter().all(|layer| layer.thickness >= Length::ZERO),
        "every layer has a thickness",
    );
    must(sizes.depth > Length::ZERO, "it has a depth");
    if let Some(mat) = &sizes.mat {
        must(lies_in(mat.opening, mat.board), "the opening is in the board");
        must(lies_in(sizes.sheet, mat.board), "the sheet is behind the board");
        let framing = piece.finish.framing().expect("a mat is in a framing");
        let is_loose = framing.mount.is_none();
        let floats = framing.mat.as_ref().is_some_and(|mat| matches!(mat.opening, OpeningRule::Float(_)));
        must(!is_loose || floats || lies_in(mat.opening, sizes.sheet), "the mat covers the sheet's edges");
        must(!is_loose || !floats, "a sheet that floats is on something");
    }
    if let Some(frame) = &sizes.frame {
        // A frame that is shared is the first piece's, whatever the others state.
        let stated = if plan.shared.is_some() { &plan.pieces[0] } else { piece };
        let stated = stated.finish.framing().and_then(|framing| framing.frame.as_ref()).expect("a frame");
        must(stated.rabbet_width < stated.face, "the rabbet leaves some of the face");
        must(stated.rabbet_depth < stated.depth, "the rabbet leaves some of the depth");
        must(frame.nominal.width <= frame.rabbet.size.width, "the package goes into the rabbet");
        must(frame.nominal.height <= frame.rabbet.size.height, "the package goes into the rabbet");
        must(frame.sight.size.width <= frame.nominal.width, "the lip holds the package");
        must(frame.sight.size.height <= frame.nominal.height, "the lip holds the package");
        must(lies_in(frame.sight, outside), "what is seen is in the frame");
    }
    if let Some(inside) = sizes.floater_inside {
        must(lies_in(sizes.sheet, inside) && lies_in(inside, outside), "it lies in its floater frame");
    }
    let seen = sizes.image.common(sizes.window);
    let seen = match (&sizes.frame, seen) {
        (Some(frame), Some(seen)) => seen.common(frame.sight),
        (_, seen) => seen,
    };
    must(seen.is_some(), "some of the picture is seen");
    match &piece.finish {
        Finish::Canvas(canvas) => {
            let bars = Length::inches_ratio(5, 2);
            let face = sizes.image.size;
            must(face.width.min(face.height) >= bars, "two bars fit side by side");
            must(canvas.depth > Length::ZERO, "bars have a depth");
        }
        Finish::Aluminium(sheet) => {
            must(sheet.thickness > Length::ZERO, "metal has a thickness");
            must(
                sizes.holds.iter().all(|held| lies_in(*held, outside)),
                "blocks and bars are behind the sheet",
            );
            let blocks = &sizes.holds;
            let apart = |one: usize, other: usize| !overlap(blocks[one], blocks[other]);
            let are_apart = sheet.sub_frame.is_some() || (blocks.len() == 4 && apart(0, 1) && apart(0, 2));
            must(are_apart || blocks.is_empty(), "blocks have room beside each other");
        }
        Finish::Paper(paper) => {
            let is_glazed = !matches!(paper.framing.glazing, Glazing::None);
            must(!is_glazed || sizes.frame.is_some() || sizes.holds.is_empty(), "glazing has a frame");
        }
        Finish::Original(_) => {}
    }
}

/// What hangs: on something, on the wall, and clear of what is let into the wall.
fn hung(plan: &Plan, figures: &Figures, wrong: &mut Vec<String>) {
    let wall = Rect::new(Length::ZERO, Length::ZERO, plan.wall.size);
    let outsides = &figures.arranged.outsides;
    for (index, hanging) in figures.hanging.iter().enumerate() {
        let (sizes, outside) = (&figures.build_ups[index], outsides[index]);
        let mut must = |is_so: bool, what: &str| {
            if !is_so {
                wrong.push(format!("piece {}: {what}", index + 1));
            }
        };
        must(lies_in(outside, wall), "it is on the wall");
        must(hanging.hooks.iter().all(|hook| wall.contains(*hook)), "its hooks are in the wall");
        let at_back = |x: Length| Point::new(x, sizes.outside.height - hanging.places.down);
        let from_sides = hanging.places.from_sides;
        for x in [from_sides, sizes.outside.width - from_sides] {
            must(sizes.holds.iter().any(|held| held.contains(at_back(x))), "its hangers are on something");
        }
        if plan.fixing.hanger == Hanger::Rings {
            must(hanging.hooks.iter().all(|hook| outside.contains(*hook)), "its hooks are behind it");
        }
        if let [one, other] = hanging.hooks[..] {
            must(one.x < other.x, "its hooks are apart");
        }
    }
    if plan.shared.is_none() {
        for (index, one) in outsides.iter().enumerate() {
            for other in &outsides[index + 1..] {
                if overlap(*one, *other) {
                    wrong.push(String::from("two pieces overlap"));
                }
            }
        }
    } else if figures.build_ups.iter().enumerate().any(|(index, one)| {
        figures.build_ups[index + 1..].iter().any(|other| overlap(one.sheet, other.sheet))
    }) {
        wrong.push(String::from("two sheets overlap"));
    }
    for (fixture, opening) in plan.fixtures.iter().zip(&figures.arranged.fixtures) {
        let is_in_the_wall = matches!(fixture.kind, FixtureKind::Door | FixtureKind::Window);
        if is_in_the_wall && outsides.iter().any(|outside| overlap(*outside, *opening)) {
            wrong.push(String::from("a piece hangs over a door or a window"));
        }
    }
}

/// The starting plan with one or two of its measures at an edge.
fn edged_plan() -> impl Strategy<Value = Plan> {
    let lengths = vec!["0", "1/64", "1/4", "1/2", "1", "2 1/2", "5", "12", "30", "60"];
    let fields = vec![
        "piece.all.width",
        "piece.0.height",
        "piece.all.mat.border",
        "piece.all.mat.by",
        "piece.all.mat.foot",
        "piece.all.mat.thickness",
        "piece.all.paper.border",
        "piece.all.glazing.thickness",
        "piece.all.spacer",
        "piece.all.mount.thickness",
        "piece.all.backing.thickness",
        "piece.all.frame.face",
        "piece.all.frame.depth",
        "piece.all.frame.rabbet_width",
        "piece.all.frame.rabbet_depth",
        "piece.all.frame.allowance",
        "piece.all.canvas.depth",
        "piece.all.floater.gap",
        "piece.all.floater.face",
        "piece.all.floater.depth",
        "piece.all.aluminium.thickness",
        "piece.all.aluminium.stand_off",
        "piece.all.sub_frame.inset",
        "piece.all.sub_frame.width",
        "shared.bar",
        "group.gap",
        "group.clearance",
        "fixing.inset",
        "fixing.down",
        "fixing.slack",
        "fixing.apart",
    ];
    let choices = vec![
        ("piece.all.material", "canvas"),
        ("piece.all.material", "aluminium"),
        ("piece.all.material", "the original"),
        ("piece.all.floater", "with"),
        ("piece.all.mat", "without"),
        ("piece.all.frame", "without"),
        ("piece.all.aluminium.back", "on a sub-frame"),
        ("piece.all.canvas.edge", "a mirrored wrap"),
        ("piece.all.mat.opening", "showing its white border by"),
        ("piece.all.mat.opening", "floating it with a gap of"),
        ("piece.all.mount", "no mount board"),
        ("shared", "all in one frame"),
        ("fixing.kind", "one_hook"),
        ("fixing.kind", "two_hooks"),
        ("fixing.kind", "cleat"),
        ("fixing.kind", "sawtooth"),
        ("fixing.kind", "keyholes"),
        ("fixtures.add", "door"),
        ("fixtures.add", "window"),
        ("group.arrangement", "a column"),
    ];
    (vec(select(choices), 0..3), vec((select(fields), select(lengths)), 0..3)).prop_map(
        |(choices, lengths)| {
            choices.into_iter().chain(lengths).fold(Plan::starting(), |plan, (field, text)| {
                given::write(&plan, &Stock::offered(), field, text).unwrap_or(plan)
            })
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn what_is_not_said_to_be_impossible_can_be_made(
        plan in prop_oneof![2 => any_plan().boxed(), 2 => usual_plan().boxed(), 6 => edged_plan().boxed()]
    ) {
        static JUDGED: Share = Share::after(20, 200);
        let Ok(figures) = Figures::of(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        let found = findings(&plan, &figures, &Stock::offered());
        if found.iter().any(|finding| finding.severity == Severity::CannotBeMade) {
            JUDGED.left_out();
            return Ok(());
        }
        JUDGED.judged();
        let mut wrong = Vec::new();
        for (index, sizes) in figures.build_ups.iter().enumerate() {
            parts(&plan, index, sizes, &mut wrong);
        }
        hung(&plan, &figures, &mut wrong);
        prop_assert!(
            wrong.is_empty(),
            "{:?} though only {:?} is found",
            wrong,
            found.iter().map(|finding| finding.code).collect::<Vec<_>>()
        );
    }
}
