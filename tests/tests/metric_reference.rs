//! What a plan in centimetres has to begin with: round metric sizes throughout, as furniture, mouldings and boards are sold there (common
//! practice, no source). What a file leaves out stays what it was. No number is from Overmantel.

use overmantel::described::Choosable as _;
use overmantel::desk::Desk;
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::starts::{STARTS, begin};
use overmantel_tests::given::{self, picture};
use serde_json::Value;

fn metric() -> Plan {
    Plan { pictures: vec![picture("upright", 4000, 5000)], ..Plan::starting_in(System::Centimetres) }
}

/// Every length of a plan as its file says it.
fn lengths(value: &Value, at: &str, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(members) => {
            members.iter().for_each(|(key, value)| lengths(value, &format!("{at}.{key}"), found));
        }
        Value::Array(items) => items.iter().for_each(|item| lengths(item, at, found)),
        Value::String(text) if text.starts_with(|first: char| first.is_ascii_digit() || first == '-') => {
            found.push((at.to_owned(), text.clone()));
        }
        _ => {}
    }
}

/// Nothing of a plan is in inches or in part of a tenth of a millimetre.
#[track_caller]
fn check_round(plan: &Plan, what: &str) {
    let file: Value = serde_json::from_str(&file::write(plan)).expect("JSON");
    let mut found = Vec::new();
    lengths(&file, "", &mut found);
    assert!(found.len() > 8, "{what}: {found:?}");
    for (at, text) in found.into_iter().filter(|(_, text)| text != "0 in") {
        assert!(!text.ends_with("in"), "{what}: {at} is {text}");
        let length = given::length(&text);
        let tenth = Length::micrometres(100).units();
        assert_eq!(length.units() % tenth, 0, "{what}: {at} is {text}");
    }
}

#[test]
fn what_is_started_is_round() {
    check_round(&metric(), "the first plan");
    // How large a file can go follows from its pixels, to the millimetre.
    for start in STARTS.iter().filter(|start| start.code != "file") {
        check_round(&begin(&metric(), start.code).expect("a plan"), start.code);
    }
}

#[test]
fn what_is_added_is_round() {
    for kind in FixtureKind::all() {
        let mut desk = Desk::new(metric()).expect("an answer");
        given::set(&mut desk, "fixtures.add", kind.name()).expect("added");
        check_round(desk.plan(), kind.name());
    }
    let changes: [&[(&str, &str)]; 12] = [
        &[("piece.all.material", "canvas")],
        &[("piece.all.material", "canvas"), ("piece.all.floater", "yes")],
        &[("piece.all.material", "aluminium"), ("piece.all.aluminium.back", "yes")],
        &[("piece.all.material", "original")],
        &[("piece.all.mat", "no"), ("piece.all.mat", "yes")],
        &[("piece.all.mat.double", "yes"), ("piece.all.mat.opening", "reveal")],
        &[("piece.all.mat.opening", "float")],
        &[("piece.all.frame", "no"), ("piece.all.frame", "yes")],
        &[("group.arrangement", "stepped"), ("viewing.side", "left")],
        &[("group.up", "eye_level"), ("group.up", "above 0")],
        &[("shared", "yes")],
        &[("fixing.kind", "two_hooks"), ("site.door", "yes"), ("site.signature", "below")],
    ];
    for change in changes {
        let mut desk = Desk::new(metric()).expect("an answer");
        for (field, text) in change {
            let value = given::read(desk.plan(), desk.stock(), field).unwrap_or_else(|| panic!("{field}"));
            let option = value.options.iter().find(|option| option.key == *text);
            let key = option.map_or_else(|| panic!("{field}: {:?}", value.options), |option| &option.key);
            given::set(&mut desk, field, key).unwrap_or_else(|why| panic!("{field}: {why:?}"));
        }
        check_round(desk.plan(), &format!("{change:?}"));
    }
}

#[test]
fn the_usual_sizes_are_those_sold_there() {
    let plan = metric();
    let cm = |tenths: i64| Length::mm(tenths);
    assert_eq!(
        (plan.wall.size.width, plan.wall.size.height, plan.wall.skirting),
        (cm(3600), cm(2400), cm(100))
    );
    assert_eq!((plan.viewing.eye_level, plan.viewing.distance, plan.group.gap), (cm(1450), cm(2750), cm(80)));
    assert!(matches!(plan.group.up, GroupUp::Above { clearance, .. } if clearance == cm(200)));
    let door = Fixture::starting_in(FixtureKind::Door, System::Centimetres);
    assert_eq!((door.size.width, door.size.height), (cm(900), cm(2100)));
    assert_eq!(Canvas::starting_in(System::Centimetres).depth, cm(38));
    assert_eq!(Aluminium::starting_in(System::Centimetres).stand_off, cm(20));
    let mat = Mat::starting_in(System::Centimetres);
    assert_eq!(mat.surround, Surround::even(cm(60)));
}

/// Units are how a plan is shown: all of it stays, to the unit.
#[test]
fn other_units_change_nothing_that_is_stated() {
    for (from, to) in [(System::Inches, "centimetres"), (System::Centimetres, "inches")] {
        let before = Plan::starting_in(from);
        let mut desk = Desk::new(before.clone()).expect("an answer");
        given::set(&mut desk, "units", to).expect("taken");
        assert_eq!(Plan { units: before.units, ..desk.plan().clone() }, before);
    }
}

/// What holds already in a plan in centimetres keeps its inches when something beside it is chosen.
#[test]
fn what_was_stated_in_inches_stays() {
    let mut plan = Plan::starting();
    plan.units.first = System::Centimetres;
    let mut desk = Desk::new(plan.clone()).expect("an answer");
    given::set(&mut desk, "piece.all.mat.double", "yes").expect("taken");
    let mut expected = plan;
    for piece in &mut expected.pieces {
        if let Some(mat) = piece.finish.framing_mut().and_then(|framing| framing.mat.as_mut()) {
            mat.inner_reveal = Some(Length::mm(6));
        }
    }
    assert_eq!(desk.plan(), &expected);
}

/// A moulding is as the stock has it.
#[test]
fn a_moulding_of_the_stock_keeps_its_section() {
    let mut desk = Desk::new(metric()).expect("an answer");
    given::set(&mut desk, "piece.all.frame.profile", "box, 3/4 in").expect("taken");
    let frame =
        desk.plan().pieces[0].finish.framing().and_then(|framing| framing.frame.clone()).expect("a frame");
    assert_eq!((frame.face, frame.rabbet_width), (Length::inches_ratio(3, 4), Length::inches_ratio(1, 4)));
}

/// A file that leaves something out means what it always did, whatever its units.
#[test]
fn a_file_in_centimetres_that_leaves_something_out_means_what_it_did() {
    let text = r#"{ "overmantel": 1, "title": "x", "units": "centimetres", "wall": { "size": ["3 m", "2 m"] },
        "viewing": { "distance": "3 m", "eye_level": "1.5 m" }, "fixtures": [{ "kind": "door" }],
        "pieces": [{ "image": ["40 cm", "50 cm"], "made": { "canvas": { "depth": "4 cm", "edge": "mirrored" } } }],
        "group": { "arrangement": "row", "gap": "8 cm", "across": "wall_middle", "up": "eye_level" } }"#;
    let plan = file::read(text).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(plan.fixtures[0].size.width, Length::inches(30));
    assert_eq!(plan.wall.skirting, Length::inches(4));
}
