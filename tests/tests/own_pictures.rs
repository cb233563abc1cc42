//! One's own pictures: they never hang among the demo's, a plan is named after them until it has a title, and pieces come back as they were.

use overmantel::desk::Desk;
use overmantel::plan::Plan;
use overmantel_tests::given::{demo, set};

type Files = Vec<(String, u32, u32)>;

fn files(names: &[&str]) -> Files {
    names.iter().map(|name| (format!("{name}.jpg"), 3000, 4000)).collect()
}

/// The desk as the page opens it: the demo's first plan, and which plans are the demo's.
fn opened() -> Desk {
    let plans = ["low-water", "three-along-the-stairs"].map(demo);
    let mut desk = Desk::new(plans[0].clone()).expect("the demo");
    desk.know_demo(&plans);
    desk
}

fn pictures(plan: &Plan) -> Vec<&str> {
    plan.pictures.iter().map(|picture| picture.name.as_str()).collect()
}

/// What each piece shows, by name.
fn shown(plan: &Plan) -> Vec<Option<&str>> {
    let name = |picture: usize| plan.pictures[picture].name.as_str();
    plan.pieces.iter().map(|piece| piece.picture.map(name)).collect()
}

#[test]
fn the_demo_gives_way_to_the_first_picture_of_ones_own() {
    let mut desk = opened();
    assert!(desk.plan().split.is_some(), "one painting over three");
    let own = ["Ebb", "Slack water", "Three boats"];
    desk.add_pictures(&files(&own), None).expect("pictures");
    assert_eq!((pictures(desk.plan()), shown(desk.plan())), (own.to_vec(), own.map(Some).to_vec()));
    assert_eq!(desk.plan().title, "Ebb, Slack water and Three boats");
    // Whatever is begun with, the demo is not among them.
    for start in ["one", "three", "pair", "stairs"] {
        set(&mut desk, "offer.start", start).expect("a start");
        assert!(
            shown(desk.plan()).iter().all(|name| name.is_some_and(|name| own.contains(&name))),
            "{start}"
        );
        assert_eq!(pictures(desk.plan()), own);
    }
    assert!(desk.undo() && desk.undo() && desk.undo() && desk.undo() && desk.undo());
    assert_eq!(desk.plan(), &demo("low-water"), "undo brings all of it back");
}

#[test]
fn a_single_picture_takes_every_place_of_the_demos() {
    let mut desk = Desk::new(demo("three-along-the-stairs")).expect("the demo");
    desk.know_demo(&[demo("three-along-the-stairs")]);
    desk.add_pictures(&files(&["Ebb"]), Some(1)).expect("a picture");
    assert_eq!(pictures(desk.plan()), ["Ebb"]);
    assert!(shown(desk.plan()).iter().all(|name| *name == Some("Ebb")));
    // A page that was not told of a demo, such as a painter's own, keeps what hangs there.
    let mut desk = Desk::new(demo("three-along-the-stairs")).expect("the demo");
    let before = pictures(desk.plan()).len();
    desk.add_pictures(&files(&["Ebb"]), Some(1)).expect("a picture");
    assert_eq!(pictures(desk.plan()).len(), before + 1);
}

#[test]
fn a_plan_is_named_after_its_pictures_until_it_has_a_title() {
    let mut desk = opened();
    desk.add_pictures(&files(&["Ebb", "Slack water"]), None).expect("pictures");
    assert_eq!(desk.plan().title, "Ebb and Slack water");
    set(&mut desk, "pieces.count", "1").expect("one");
    assert_eq!(desk.plan().title, "Ebb");
    set(&mut desk, "pieces.count", "2").expect("two");
    set(&mut desk, "offer.start", "one").expect("one large");
    assert_eq!(desk.plan().title, "Ebb");
    set(&mut desk, "title", "For the landing").expect("a title");
    set(&mut desk, "offer.start", "pair").expect("a pair");
    desk.add_pictures(&files(&["Three boats"]), Some(0)).expect("a picture");
    assert_eq!(desk.plan().title, "For the landing", "what was given stays");
    // A title that was given to the demo's plan stays, too.
    let mut desk = opened();
    set(&mut desk, "title", "For the landing").expect("a title");
    desk.add_pictures(&files(&["Ebb"]), None).expect("a picture");
    assert_eq!(desk.plan().title, "For the landing");
    // Names that are too long together are cut, to 80 characters.
    let mut desk = opened();
    let long = ["a", "b", "c"].map(|letter| letter.repeat(60));
    desk.add_pictures(&files(&long.each_ref().map(String::as_str)), None).expect("pictures");
    assert_eq!(desk.plan().title, format!("{} and 2 more", "a".repeat(60)));
}

#[test]
fn three_become_one_and_are_three_again() {
    let mut desk = opened();
    let own = ["Ebb", "Slack water", "Three boats"];
    desk.add_pictures(&files(&own), None).expect("pictures");
    set(&mut desk, "piece.2.width", "12").expect("a width");
    let three = desk.plan().clone();
    set(&mut desk, "pieces.count", "1").expect("one");
    set(&mut desk, "pieces.count", "3").expect("three");
    assert_eq!(desk.plan(), &three);
    set(&mut desk, "pieces.count", "2").expect("two");
    set(&mut desk, "pieces.count", "1").expect("one");
    set(&mut desk, "pieces.count", "2").expect("two");
    set(&mut desk, "pieces.count", "3").expect("three");
    assert_eq!(desk.plan(), &three);
    // Made otherwise meanwhile, the others are made so as well, and show what they showed.
    set(&mut desk, "pieces.count", "1").expect("one");
    set(&mut desk, "piece.0.material", "canvas").expect("canvas");
    set(&mut desk, "pieces.count", "3").expect("three");
    assert_eq!(shown(desk.plan()), own.map(Some));
    assert!(desk.plan().pieces.iter().all(|piece| piece.finish == desk.plan().pieces[0].finish));
    // One picture over three is over three again.
    let mut desk = opened();
    let split = desk.plan().clone();
    set(&mut desk, "pieces.count", "1").expect("one");
    set(&mut desk, "pieces.count", "3").expect("three");
    assert_eq!(desk.plan(), &split);
}
