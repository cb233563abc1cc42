//! Faults there have been, each with its cause.

use overmantel::desk::Desk;
use overmantel::draw::{Painter, Sheet};
use overmantel::figures::Figures;
use overmantel::findings::findings;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::making::making;
use overmantel::plan::{Finish, Focus, GroupAcross, Picture, Plan, file};
use overmantel::scene::scene;
use overmantel::stock::Stock;
use overmantel_tests::given;
use overmantel_tests::given::written;

fn draw(plan: &Plan, sheet: &Sheet) -> Vec<u8> {
    let figures = Figures::of(plan).unwrap_or_else(|error| panic!("{error}"));
    Painter::default().draw(&scene(plan, &figures), &[], sheet).pixels.to_vec()
}

/// A choice was applied even where it held already, and put starting values in place of what was stated under it.
#[test]
fn a_choice_that_holds_changes_nothing() {
    let framed = written(&Plan::starting(), "piece.1.frame.face", "2 in");
    let stated = written(&framed, "fixture.0.width", "90 in");
    for (field, text) in [
        ("piece.1.material", "paper"),
        ("piece.all.material", "paper"),
        ("piece.1.frame", "with"),
        ("piece.1.mat.opening", "covering the sheet by"),
        ("fixture.0.kind", "sofa"),
        ("fixing.kind", "two rings"),
        ("group.up", "above the sofa"),
    ] {
        assert_eq!(written(&stated, field, text), stated, "{field}");
    }
    // Of pieces that differ, only those change that the choice does not hold for.
    let mixed = written(&stated, "piece.0.material", "canvas");
    let all = written(&mixed, "piece.all.material", "paper");
    assert_eq!(all.pieces[1..], stated.pieces[1..]);
    assert!(matches!(all.pieces[0].finish, Finish::Paper(_)));
}

/// Options were compared without regard to capitals and blanks at the ends, so that the first of two alike was taken.
#[test]
fn pictures_whose_names_differ_by_a_capital_are_told_apart() {
    let picture = |name: &str| Picture {
        name: name.to_owned(),
        file: format!("{name}.jpg"),
        width_px: 1000,
        height_px: 1000,
        subject: None,
    };
    let plan = Plan { pictures: ["boat", "Boat", " Boat"].map(picture).to_vec(), ..Plan::starting() };
    for (name, index) in [("boat", 0), ("Boat", 1), (" Boat", 2)] {
        assert_eq!(written(&plan, "piece.0.picture", name).pieces[0].picture, Some(index), "{name:?}");
    }
}

/// The rows of a piece were copied from behind the end of its picture when none of it is on the sheet.
#[test]
fn a_piece_beside_the_sheet_is_not_drawn() {
    let mut plan = Plan::starting();
    plan.pieces.truncate(1);
    plan.pieces[0].focus = Focus::MIDDLE;
    let sheet = Sheet { lines: false, ..Sheet::new(240, 180) };
    let mut away = |x| {
        plan.group.across = GroupAcross::CentreAt(Length::inches(x));
        draw(&plan, &sheet)
    };
    assert!(away(-2000) == away(2000), "the wall alone, either way");
    assert!(away(72) != away(2000));
}

/// The shadow's limits were the wrong way round where the margins leave nothing of the wall.
#[test]
fn a_sheet_of_one_pixel_is_drawn() {
    for (width, height) in [(1, 1), (1, 400), (400, 1)] {
        let pixels = draw(&Plan::starting(), &Sheet::new(width, height));
        assert_eq!(pixels.len(), width as usize * height as usize * 4);
        assert!(pixels.chunks_exact(4).all(|pixel| pixel[3] == 255), "opaque");
    }
}

/// On a wall of a tenth of a millimetre lines of millions of pixels were drawn stroke by stroke, and furniture was handed
/// to the rasterizer as it was.
#[test]
fn the_smallest_walls_are_drawn() {
    let mut plan = Plan::starting();
    for width in [Length::from_units(1), Length::micrometres(100), Length::mm(1)] {
        plan.wall.size = Size::new(width, width);
        plan.wall.skirting = Length::ZERO;
        for up in [plan.group.up, overmantel::plan::GroupUp::CentreAt(Length::mm(-100_000))] {
            plan.group.up = up;
            for (width_px, height_px) in [(900, 700), (16_384, 200)] {
                assert!(!draw(&plan, &Sheet::new(width_px, height_px)).is_empty());
            }
        }
    }
}

/// Another material, and then the first again, put starting values in place of what had been stated; so did taking a part away
/// and putting it back.
#[test]
fn what_was_taken_away_comes_back_as_it_was() {
    let mut desk = Desk::new(Plan::starting()).unwrap_or_else(|why| panic!("{why}"));
    let mut set = |changes: &[(&str, &str)]| {
        for (field, text) in changes {
            given::set(&mut desk, field, text).unwrap_or_else(|why| panic!("{field}: {}", why));
        }
        desk.plan().clone()
    };
    let stated = set(&[
        ("piece.all.mat.border", "3"),
        ("piece.all.frame.face", "1 1/2"),
        ("piece.all.frame.colour", "black"),
        ("piece.all.glazing", "acrylic"),
        ("in_hand.measured", "by its rabbet"),
        ("in_hand.size", "22 x 28"),
    ]);
    for (away, back) in [
        (("piece.all.material", "canvas"), ("piece.all.material", "paper")),
        (("piece.all.mat", "without"), ("piece.all.mat", "with")),
        (("piece.all.frame", "without"), ("piece.all.frame", "with")),
        (("in_hand.measured", "no frame that must be used"), ("in_hand.measured", "by its rabbet")),
    ] {
        assert_ne!(set(&[away]), stated, "{away:?}");
        assert_eq!(set(&[back]), stated, "{back:?}");
    }
}

/// Rails of unlike mouldings were cut from one stick.
#[test]
fn each_moulding_has_sticks_of_its_own() {
    let plan = written(&Plan::starting(), "piece.1.frame.material", "pine");
    let plan = written(&plan, "piece.2.frame.face", "2");
    let figures = Figures::of(&plan).unwrap_or_else(|error| panic!("{error}"));
    let made = making(&plan, &figures, &Stock::offered());
    let rails: Vec<usize> = made
        .mouldings
        .iter()
        .map(|moulding| moulding.bought.as_ref().map_or(0, |bought| bought.rails.len()))
        .collect();
    assert_eq!(rails, [4, 4, 4]);
    let alike = making(
        &Plan::starting(),
        &Figures::of(&Plan::starting()).unwrap_or_else(|error| panic!("{error}")),
        &Stock::offered(),
    );
    assert_eq!(alike.mouldings.len(), 1);
}

/// The height of steps was left out of the space that they take.
#[test]
fn steps_take_their_part_of_a_space() {
    let stepped = written(&Plan::starting(), "group.arrangement", "steps");
    let stepped = written(&stepped, "group.step", "10");
    let stated = written(&stepped, "space", "no more than");
    let stated = written(&stated, "space.size", "200 x 60");
    let taken = written(&stated, "offer.space", "");
    // 60 - 2 × 10 - 5 1/8 = 34 7/8 in, and 4 : 5 of that.
    assert_eq!(taken.pieces[0].image, Size::new(Length::inches_ratio(279, 10), Length::inches_ratio(279, 8)));
}

/// Canvases whose edges carry one picture round showed a part of it twice, and nothing was said.
#[test]
fn edges_that_show_a_picture_twice_are_noted() {
    let plan = file::read(include_str!("../../demo-data/plans/low-water.json"))
        .unwrap_or_else(|why| panic!("{why}"));
    let canvas = written(&plan, "piece.all.material", "canvas");
    let carried = written(&canvas, "piece.all.canvas.edge", "the image wrapped round the edge");
    let noted = |plan: &Plan| {
        let figures = Figures::of(plan).unwrap_or_else(|error| panic!("{error}"));
        findings(plan, &figures, &Stock::offered()).iter().any(|found| found.code == "edges-shown-twice")
    };
    // Bars of 1 1/2 in: a gap of 3 in takes both edges.
    assert!(noted(&written(&carried, "group.gap", "2 15/16")));
    assert!(!noted(&written(&carried, "group.gap", "3")));
    assert!(!noted(&written(&canvas, "group.gap", "1")), "mirrored edges take nothing of the picture");
}
