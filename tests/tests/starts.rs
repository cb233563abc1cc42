//! Starting points: what each promises, in a room of inches and in one of centimetres. No number is from Overmantel.

use overmantel::desk::Desk;
use overmantel::draw::Sheet;
use overmantel::fields;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::starts::{STARTS, begin};
use overmantel::stock::Stock;
use overmantel_tests::given::{self, figures, picture};

fn room(first: System, pictures: Vec<Picture>) -> Plan {
    let mut plan = Plan { units: Units { first, both: false }, pictures, ..Plan::starting() };
    plan.wall.size = Size::new(Length::mm(4100), Length::mm(2600));
    plan.title = "My own".to_owned();
    plan
}

#[track_caller]
fn begun(plan: &Plan, code: &str) -> (Plan, Figures) {
    let plan = begin(plan, code).unwrap_or_else(|why| panic!("{code}: {why}"));
    let figures = figures(&plan);
    (plan, figures)
}

#[test]
fn every_start_keeps_the_room_and_the_pictures_and_lies_within_the_wall() {
    let upright = picture("upright", 4000, 5000);
    for first in [System::Inches, System::Centimetres] {
        let from = room(first, vec![upright.clone(), picture("wide", 6000, 4000)]);
        for start in STARTS {
            let (plan, figures) = begun(&from, start.code);
            assert_eq!((&plan.wall, plan.units, &plan.pictures), (&from.wall, from.units, &from.pictures));
            assert_eq!(plan.title, start.words);
            assert_eq!(
                plan.pieces[0].picture,
                Some(0),
                "{}: the first picture in the first piece",
                start.code
            );
            let group = figures.arranged.group;
            assert!(group.x >= Length::ZERO && group.y >= Length::ZERO, "{}: {group:?}", start.code);
            assert!(group.right() <= plan.wall.size.width && group.top() <= plan.wall.size.height);
            let stock = Stock::offered();
            assert!(fields::read(&plan, &stock, start.next).is_some(), "{} has {}", start.code, start.next);
            // It is a plan like any other: as a file it comes back.
            assert_eq!(file::read(&file::write(&plan)).as_ref(), Ok(&plan));
        }
    }
}

#[test]
fn what_each_is() {
    let from = room(System::Inches, vec![picture("upright", 4000, 5000), picture("wide", 6000, 4000)]);
    let sizes = |code| begun(&from, code).0.pieces.iter().map(|piece| piece.image).collect::<Vec<_>>();
    // 4 : 5 is whole at 16 × 20, 3 : 2 at 24 × 16; the third shows the first picture again.
    assert_eq!(sizes("three"), [Size::inches(16, 20), Size::inches(24, 16), Size::inches(16, 20)]);
    assert_eq!(sizes("pair"), [Size::inches(16, 20), Size::inches(24, 16)]);
    // Of 24 × 36, 30 × 40 and 30 × 30 the second loses least of 4 : 5: 1 - (3/4) / (4/5).
    assert_eq!(sizes("one"), [Size::inches(30, 40)]);
    // 4000 × 5000 pixels at 200 to the inch.
    assert_eq!(sizes("file"), [Size::inches(20, 25)]);
    let (three, figures) = begun(&from, "three");
    assert_eq!(three.group.up, GroupUp::Above { fixture: 0, clearance: Length::inches(8) });
    assert_eq!(figures.arranged.group.centre().x, from.wall.size.width.half());
    // 3/4 in mouldings whose lip of 1/4 in has 1/8 in of play, round 2 1/8 in of mat 1/8 in over a sheet of 12 in: 17 1/8 in outside.
    // With 3 in between, 31/40 of 20 1/8 in is 15.6 in; to the inch, 16.
    let (stairs, figures) = begun(&from, "stairs");
    assert_eq!(stairs.group.arrangement, Arrangement::Stepped(Length::inches(16)));
    let kinds: Vec<_> = stairs.fixtures.iter().map(|fixture| fixture.kind).collect();
    assert_eq!(kinds, [FixtureKind::Stairs], "no sofa stands where the stairs are");
    // Ten steps of 10 in by 7 3/4 in.
    assert_eq!(stairs.fixtures[0].size, Size::new(Length::inches(100), Length::inches_ratio(155, 2)));
    assert!(matches!(stairs.group.up, GroupUp::Above { fixture: 0, .. }));
    let foot = figures.arranged.fixtures[0].x;
    assert!((figures.arranged.group.x - foot).abs() <= Length::inches(1), "the first is at their foot");
    // The large one as above; of 8 × 10, 8 × 12 and 8 × 8 the second loses nothing of 3 : 2, the first nothing of 4 : 5.
    assert_eq!(sizes("mixed"), [Size::inches(30, 40), Size::inches(12, 8), Size::inches(8, 10)]);
    let (_, figures) = begun(&from, "mixed");
    let [large, upper, lower] = figures.arranged.outsides[..] else { panic!("three") };
    assert_eq!((upper.top(), lower.y), (large.top(), large.y), "their outer edges are in line");
    assert_eq!((upper.x, lower.x), (large.right() + Length::inches(3), upper.x));
    let (framed, _) = begun(&from, "frame");
    assert_eq!(framed.in_hand.map(|frame| frame.size), Some(Size::inches(16, 20)));
    assert!(framed.pieces[0].finish.framing().is_some_and(|framing| framing.mat.is_some()));
}

#[test]
fn in_centimetres_the_sizes_are_those_sold_there() {
    let from = room(System::Centimetres, vec![picture("upright", 4000, 5000)]);
    assert_eq!(begun(&from, "pair").0.pieces[1].image, Size::new(Length::mm(400), Length::mm(500)));
    // 20 × 25 in are 508 × 635 mm.
    assert_eq!(begun(&from, "file").0.pieces[0].image, Size::new(Length::mm(508), Length::mm(635)));
}

#[test]
fn stairs_that_are_stated_stay_and_the_group_follows_them() {
    let mut from = room(System::Inches, vec![picture("upright", 4000, 5000)]);
    // Half as high as wide, up to the left.
    from.fixtures = vec![Fixture {
        size: Size::inches(120, 60),
        rise: Rise::Left,
        ..Fixture::starting(FixtureKind::Stairs)
    }];
    let (plan, figures) = begun(&from, "stairs");
    assert_eq!(plan.fixtures, from.fixtures);
    // Half of 20 1/8 in, to the inch.
    assert_eq!(plan.group.arrangement, Arrangement::Stepped(Length::inches(-10)));
    let (group, stairs) = (figures.arranged.group, figures.arranged.fixtures[0]);
    assert!(
        (group.right() - stairs.right()).abs() <= Length::inches(1),
        "they begin at the foot, at the right"
    );
}

#[test]
fn a_single_wide_picture_goes_over_the_row() {
    let from = room(System::Inches, vec![picture("wide", 6000, 3000)]);
    let (plan, figures) = begun(&from, "three");
    assert_eq!(plan.split.map(|split| split.picture), Some(0));
    assert!(figures.cuts.iter().all(Option::is_some));
    assert_eq!(begun(&from, "one").0.split, None);
    assert_eq!(begun(&from, "stairs").0.split, None);
}

#[test]
fn a_file_larger_than_the_wall_goes_as_far_as_the_wall_does() {
    let from = room(System::Inches, vec![picture("vast", 60_000, 40_000)]);
    let (plan, figures) = begun(&from, "file");
    let space = plan.space.expect("the wall is the limit");
    // A foot on every side.
    assert_eq!(space.height, from.wall.size.height - Length::inches(24));
    let group = figures.arranged.group.size;
    assert!(group.width <= space.width && group.height <= space.height);
    assert!(group.height > space.height - Length::inches(1) || group.width > space.width - Length::inches(1));
}

#[test]
fn without_a_picture_or_a_known_name_it_is_said_in_words() {
    let from = room(System::Inches, Vec::new());
    assert_eq!(
        begin(&from, "file").unwrap_err().to_string(),
        "choose a picture first; how large it can be printed depends on its pixels"
    );
    assert_eq!(
        begin(&from, "four").unwrap_err().to_string(),
        "\"four\" is not a starting point; choose one of those offered"
    );
    for start in STARTS.iter().filter(|start| start.code != "file") {
        assert!(begin(&from, start.code).is_ok(), "{}", start.code);
    }
}

#[test]
fn it_is_one_step_that_is_undone_and_has_a_small_drawing() {
    let mut desk = Desk::new(room(System::Inches, vec![picture("upright", 4000, 5000)])).expect("an answer");
    let before = desk.plan().clone();
    let sheet = Sheet::new(120, 80);
    let mut seen = Vec::new();
    for start in STARTS {
        let drawn = desk.small_start(start.code, &sheet).expect("a drawing");
        assert_eq!(drawn.len(), 120 * 80 * 4);
        assert!(!seen.contains(&drawn), "{} looks like another", start.code);
        seen.push(drawn);
        given::set(&mut desk, "offer.start", start.code).expect("taken");
        assert_eq!(desk.plan().title, "My own", "a title that was given stays");
        assert!(desk.undo());
        assert_eq!(desk.plan(), &before);
    }
}

#[test]
fn what_is_drawn_to_choose_by_differs_from_option_to_option() {
    let mut plan = room(System::Inches, vec![picture("upright", 4000, 5000)]);
    plan.pieces[0].finish = Finish::Canvas(Canvas::starting());
    plan.pieces[2].finish =
        Finish::Canvas(Canvas { floater: Some(Floater::starting()), ..Canvas::starting() });
    let mut desk = Desk::new(plan).expect("an answer");
    let across = |px: u32| u8::try_from(px % 251).unwrap_or(0);
    let pixels = (0..400_u32 * 500).flat_map(|at| [across(at), across(at / 400), 90, 255]).collect();
    let raster = overmantel::resample::Raster::new(400, 500, pixels).expect("a picture");
    desk.put_copy("upright", (4000, 5000), raster);
    given::set(&mut desk, "piece.0.picture", "upright").expect("taken");
    let sheet = Sheet::new(120, 80);
    for field in [
        "group.arrangement",
        "piece.0.canvas.edge",
        "piece.1.frame.shape",
        "piece.1.frame.profile",
        "piece.2.floater.profile",
    ] {
        assert!(fields::is_drawn(given::field(field)), "{field}");
        let value = given::read(desk.plan(), desk.stock(), field).expect("a field");
        let mut seen: Vec<Vec<u8>> = Vec::new();
        for option in &value.options {
            let drawn = desk
                .small_option(given::field(field), &option.key, &sheet)
                .unwrap_or_else(|| panic!("{field}: {option:?}"));
            assert_eq!(drawn.len(), 120 * 80 * 4);
            let same = seen.iter().position(|other| *other == drawn).map(|at| &value.options[at]);
            assert_eq!(same, None, "{field}: {option:?} looks like it");
            seen.push(drawn);
        }
        assert!(seen.len() > 1, "{field} has something to choose");
    }
    assert!(!fields::is_drawn(given::field("wall.paint")));
    assert_eq!(desk.small_option(given::field("group.arrangement"), "a ring", &sheet), None);
}
