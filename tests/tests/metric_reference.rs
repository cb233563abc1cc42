//! What a plan in centimetres has to begin with: round metric sizes throughout, as furniture, mouldings and boards are sold there (common
//! practice, no source). What a file leaves out stays what it was. No number is from Overmantel.

use overmantel::cut_list::CutPart;
use overmantel::described::Choosable as _;
use overmantel::desk::Desk;
use overmantel::figures::Figures;
use overmantel::hardware::hardware;
use overmantel::length::Length;
use overmantel::making::making;
use overmantel::plan::*;
use overmantel::starts::{STARTS, begin};
use overmantel::stock::Stock;
use overmantel_tests::given::{self, changed, picture};
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
    for (at, text) in found {
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

/// Zero has the plan's unit as everything else has; "0 in" of older files is read as ever.
#[test]
fn nothing_is_written_in_millimetres() {
    let mut plan = metric();
    plan.wall.skirting = Length::ZERO;
    let text = file::write(&plan);
    assert!(text.contains("\"skirting\": \"0 mm\"") && !text.contains("\"0 in\""), "{text}");
    assert_eq!(file::read(&text), Ok(plan.clone()));
    assert_eq!(
        file::read(&text.replace("\"0 mm\"", "\"0 in\"")),
        Ok(plan.clone()),
        "as it was written before"
    );
    // A name is a name.
    plan.title = "0 in".to_owned();
    assert!(file::write(&plan).contains("\"title\": \"0 in\""));
    plan.units.first = System::Inches;
    assert!(file::write(&plan).contains("\"skirting\": \"0 in\""));
}

/// Points at most 10 cm apart, not 101.6 mm: a print of 40 × 50 cm in a mat of 6 cm that covers 3 mm is on a board of 514 × 614 mm, in a
/// rebate 3 mm larger: 6 and 7 on a side. Bars of 38 mm are 40 wide, and glass comes in sheets of 80 × 100 cm (common practice, no
/// source).
#[test]
fn what_is_bought_there_is_sold_there() {
    let stock = Stock::offered();
    let of = |plan: &Plan| {
        let figures = Figures::of(plan).expect("figures");
        let made = making(plan, &figures, &stock);
        let parts = hardware(plan, &figures, &stock, &made.things[0]);
        (made, parts)
    };
    let note = |parts: &[CutPart], name: &str| {
        parts.iter().find(|part| part.name == name).map(|part| (part.quantity, part.note.clone()))
    };
    let (made, parts) = of(&metric());
    assert_eq!(note(&parts, "point"), Some((26, "at most 100 mm apart".to_owned())));
    for sheets in &made.sheets {
        let (row, _) = sheets.bought.as_ref().expect("a sheet");
        assert!(row.name.ends_with(" cm"), "{}", row.name);
    }
    let canvas = changed(metric(), &[("piece.all.material", "canvas")]);
    let (made, _) = of(&canvas);
    let bar = made.things[0].parts.iter().find(|(part, _)| part.name == "stretcher bar").expect("a bar");
    assert_eq!(bar.0.note, "40 mm wide and 38 mm deep, mitred");
    // The same in inches, as ever.
    let (made, parts) = of(&Plan::starting());
    assert_eq!(note(&parts, "point").map(|found| found.1).as_deref(), Some("at most 4\" apart"));
    for sheets in &made.sheets {
        let (row, _) = sheets.bought.as_ref().expect("a sheet");
        assert!(row.name.ends_with(" in"), "{}", row.name);
    }
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
