//! A user's own stock: what it replaces and adds, and how what is no stock is refused.
//!
//! The judge of a file's form beside the reader is another library (`jsonschema`), by the published schema.

use jsonschema::Validator;
use overmantel::colour::Colour;
use overmantel::described::Choosable;
use overmantel::geometry::Size;
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::plan::{Material, System};
use overmantel::stock::{
    Bar, Density, Parcel, Profile, Roll, SheetStock, StandardSize, Stick, Stock, Tube, VolumeDivisor, file,
    limits,
};
use proptest::{collection::vec, prelude::*, sample::select};
use serde_json::{Value, json};
use std::{collections::BTreeSet, sync::LazyLock};

static SCHEMA: LazyLock<Validator> = LazyLock::new(|| {
    let schema = serde_json::from_str(&file::schema()).unwrap_or_else(|error| panic!("{error}"));
    jsonschema::validator_for(&schema).unwrap_or_else(|error| panic!("{error}"))
});

/// A file with one list.
fn with(list: &str, change: Value) -> Value {
    json!({ "overmantel_stock": 1, list: change })
}

#[track_caller]
fn read(form: &Value) -> Stock {
    assert!(SCHEMA.is_valid(form), "by the schema: {form}");
    Stock::read(&form.to_string()).unwrap_or_else(|error| panic!("{error}"))
}

fn bar(name: &str, depth: &str) -> Value {
    json!({ "name": name, "depth": depth, "width": "1 1/4 in" })
}

fn names(bars: &[Bar]) -> Vec<&str> {
    bars.iter().map(|row| row.name.as_str()).collect()
}

#[test]
fn a_file_that_says_nothing_leaves_what_is_on_offer() {
    let offered = Stock::offered();
    assert_eq!(read(&json!({ "overmantel_stock": 1 })), offered);
    assert_eq!(read(&with("bars", json!({}))), offered);
    assert_eq!(read(&with("bars", json!({ "add": [] }))), offered);
    assert_eq!(Stock::read(&offered.write()), Ok(offered));
}

#[test]
fn lists_are_replaced_and_added_to() {
    let offered = Stock::offered();
    let known = ["5/8 in", "3/4 in", "1 in", "1 1/2 in", "2 in", "16 mm", "20 mm", "25 mm", "38 mm", "50 mm"];
    assert_eq!(names(&offered.bars), known);

    let added = read(&with("bars", json!({ "add": [bar("low", "1/2 in")] })));
    assert_eq!(names(&added.bars), [&known[..], &["low"]].concat());
    assert_eq!(added.sizes, offered.sizes, "other lists stay");

    // The row of that name, in its place.
    let changed = read(&with("bars", json!({ "add": [bar("1 in", "26 mm"), bar("low", "1/2 in")] })));
    assert_eq!(names(&changed.bars), [&known[..], &["low"]].concat());
    assert_eq!(changed.bars[2].depth, Length::mm(26));

    let replaced = read(&with("bars", json!({ "replace": [bar("a", "1 in"), bar("b", "2 in")] })));
    assert_eq!(names(&replaced.bars), ["a", "b"]);
    let both = json!({ "replace": [bar("a", "1 in"), bar("b", "2 in")], "add": [bar("b", "3 in"), bar("c", "4 in")] });
    let both = read(&with("bars", both));
    assert_eq!(names(&both.bars), ["a", "b", "c"]);
    assert_eq!(both.bars[1].depth, Length::inches(3));
    assert_eq!(read(&with("bars", json!({ "replace": [] }))).bars, []);

    let oak =
        json!({ "material": "oak", "kg_per_m3": 720, "least": 700, "most": 740, "source": "our own scales" });
    let weighed = read(&with("densities", json!({ "add": [oak] })));
    assert_eq!(weighed.densities.len(), offered.densities.len());
    assert_eq!(weighed.density(Material::Oak).kg_per_m3, 720);
    assert_eq!(weighed.density(Material::Pine), offered.density(Material::Pine));
}

/// Every field of every list, and what is left out.
#[test]
fn rows_are_read_as_they_are_written() {
    let text = json!({
        "overmantel_stock": 1,
        "units": "centimetres",
        "sizes": { "replace": [
            { "name": "tall", "series": "ours", "system": "centimetres", "size": ["20", "50"], "frame": true },
            { "name": "wide", "series": "ours", "system": "inches", "size": ["12 in", "6 1/2 in"], "print": true },
        ] },
        "rolls": { "replace": [
            { "name": "proofs", "width": "61" },
            { "name": "canvas", "width": "44 in", "margin": "5 mm", "longest": "15 m" },
        ] },
        "sheets": { "replace": [
            { "name": "board", "material": "mat_board", "thickness": "1.6 mm", "size": ["80", "120"], "grams_per_square_metre": 950 },
        ] },
        "mouldings": { "replace": [
            { "name": "ash", "face": "2", "rabbet_width": "0.6", "rabbet_depth": "1.5", "depth": "3", "material": "pine" },
            { "name": "tray", "floater": true, "face": "1", "depth": "5", "material": "aluminium_composite" },
        ] },
        "sticks": { "replace": [{ "name": "ours", "length": "13 ft", "kerf": "3 mm", "trim": "2 in" }] },
        "parcels": { "replace": [
            { "name": "van" },
            { "name": "box", "longest": "175", "length_and_girth": "300", "most_grams": 30000,
              "volume_divisor": { "cubic_centimetres_per_kilogram": 6000 } },
        ] },
        "tubes": { "replace": [{ "name": "thin", "diameter": "7.5", "spare": "5" }] },
    });
    let stock = read(&text);
    let (mm, inches) = (Length::mm, Length::inches);
    let size = |name: &str, system, size, is_print, is_frame| StandardSize {
        name: name.to_owned(),
        series: "ours".to_owned(),
        system,
        size,
        is_print,
        is_frame,
    };
    let half = Length::inches_ratio(13, 2);
    assert_eq!(
        stock.sizes,
        [
            size("tall", System::Centimetres, Size::new(mm(200), mm(500)), false, true),
            size("wide", System::Inches, Size::new(inches(12), half), true, false),
        ]
    );
    let roll = |name: &str, width, margin, longest| Roll { name: name.to_owned(), width, margin, longest };
    assert_eq!(
        stock.rolls,
        [roll("proofs", mm(610), mm(0), None), roll("canvas", inches(44), mm(5), Some(mm(15_000))),]
    );
    assert_eq!(
        stock.sheets,
        [SheetStock {
            name: "board".to_owned(),
            material: Material::MatBoard,
            thickness: Length::micrometres(1600),
            size: Size::new(mm(800), mm(1200)),
            grams_per_square_metre: Some(950),
        }]
    );
    let moulding =
        |name: &str, is_floater, [face, rabbet_width, rabbet_depth, depth]: [i64; 4], material| Profile {
            name: name.to_owned(),
            is_floater,
            face: mm(face),
            rabbet_width: mm(rabbet_width),
            rabbet_depth: mm(rabbet_depth),
            depth: mm(depth),
            material,
            ..Profile::default()
        };
    assert_eq!(
        stock.mouldings,
        [
            moulding("ash", false, [20, 6, 15, 30], Material::Pine),
            moulding("tray", true, [10, 0, 0, 50], Material::AluminiumComposite),
        ]
    );
    let stick = Stick { name: "ours".to_owned(), length: inches(156), kerf: mm(3), trim: inches(2) };
    assert_eq!(stock.sticks, [stick]);
    assert_eq!(
        stock.parcels,
        [
            Parcel {
                name: "van".to_owned(),
                longest: None,
                length_and_girth: None,
                most_grams: None,
                volume_divisor: None
            },
            Parcel {
                name: "box".to_owned(),
                longest: Some(mm(1750)),
                length_and_girth: Some(mm(3000)),
                most_grams: Some(30_000),
                volume_divisor: Some(VolumeDivisor::CubicCentimetresPerKilogram(6000)),
            },
        ]
    );
    let tube = Tube { name: "thin".to_owned(), diameter: Length::micrometres(75_000), spare: mm(50) };
    assert_eq!(stock.tubes, [tube]);
    assert_eq!(Stock::read(&stock.write()), Ok(stock));
}

/// Whether the schema can see a fault, or only the reader.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Seen {
    ByBoth,
    ByTheReader,
}

#[track_caller]
fn check_refused(form: &Value, seen: Seen, sentence: &str) {
    assert_eq!(SCHEMA.is_valid(form), seen == Seen::ByTheReader, "by the schema: {form}");
    let error = Stock::read(&form.to_string()).expect_err(sentence).to_string();
    // Line and column are those of this test's own text.
    assert_eq!(error.split(" (line ").next(), Some(sentence));
}

/// One row of a list on both sides of a limit: the first value is taken, the second refused with the sentence.
#[track_caller]
fn check_limit(list: &str, row: &Value, field: &str, taken: &Value, refused: &Value, seen: Seen, why: &str) {
    let row_with = |value: &Value| {
        let mut row = row.clone();
        row[field] = value.clone();
        with(list, json!({ "add": [row] }))
    };
    read(&row_with(taken));
    check_refused(&row_with(refused), seen, why);
}

const TEN_METRES: &str = "allowed: 0 in to 10 m (about 32 ft)";

#[test]
fn measures_have_limits() {
    let check = |list: &str, row: &Value, field: &str, taken: &str, refused: &str, why: &str| {
        let sentence = format!("{list}, \"x\": {why}");
        check_limit(list, row, field, &json!(taken), &json!(refused), Seen::ByTheReader, &sentence);
    };
    let row = bar("x", "1 in");
    check("bars", &row, "depth", "1/64 in", "0", "the depth is 0 in; it must be more than zero");
    check("bars", &row, "depth", "10 m", "10.001 m", &format!("the depth is 10001 mm; {TEN_METRES}"));
    check("bars", &row, "width", "0.001 mm", "-1 mm", "the width is -1 mm; it must be more than zero");

    let row = json!({ "name": "x", "width": "44 in", "margin": "1 in", "longest": "9 ft" });
    check("rolls", &row, "width", "2.001 in", "0", "the width is 0 in; it must be more than zero");
    check(
        "rolls",
        &row,
        "margin",
        "21.999 in",
        "22 in",
        "two margins of 22 in leave nothing of a width of 44 in; write a narrower margin",
    );
    check("rolls", &row, "margin", "0", "-1/8 in", &format!("the margin is -1/8 in; {TEN_METRES}"));
    check(
        "rolls",
        &row,
        "longest",
        "100 m",
        "100.001 m",
        "the longest print is 100001 mm; allowed: 0 in to 100 m (about 328 ft)",
    );
    check("rolls", &row, "longest", "1 in", "0", "the longest print is 0 in; it must be more than zero");

    let row = json!({ "name": "x", "material": "glass", "thickness": "2 mm", "size": ["1 m", "2 m"] });
    check("sheets", &row, "thickness", "1 mm", "0", "the thickness is 0 in; it must be more than zero");
    check("sheets", &row, "thickness", "10 m", "11 m", &format!("the thickness is 11000 mm; {TEN_METRES}"));

    let row = json!({ "name": "x", "face": "1 in", "rabbet_width": "1/4 in", "rabbet_depth": "1/2 in", "depth": "3/4 in",
        "material": "oak" });
    check(
        "mouldings",
        &row,
        "rabbet_width",
        "1 in",
        "1.001 in",
        "the rabbet (rebate) is 1.001 in wide and the face 1 in; make the rabbet narrower or the face wider, as the lip is part of the face",
    );
    check(
        "mouldings",
        &row,
        "rabbet_depth",
        "3/4 in",
        "0.751 in",
        "the rabbet (rebate) is 0.751 in deep and the moulding 3/4 in; the rabbet cannot be deeper than the moulding",
    );
    check("mouldings", &row, "face", "1/4 in", "0", "the face is 0 in; it must be more than zero");
    let sentence = "mouldings, \"x\": a floater frame has no rabbet (rebate); leave it out";
    check_limit("mouldings", &row, "floater", &json!(false), &json!(true), Seen::ByTheReader, sentence);

    let row = json!({ "name": "x", "length": "8 ft", "kerf": "1/8 in", "trim": "1 in" });
    check("sticks", &row, "length", "10 m", "10.001 m", &format!("the length is 10001 mm; {TEN_METRES}"));
    check("sticks", &row, "kerf", "0", "-1 mm", &format!("the kerf is -1 mm; {TEN_METRES}"));
    check(
        "sticks",
        &row,
        "trim",
        "95.999 in",
        "96 in",
        "a trim of 96 in leaves nothing of a length of 96 in; write a shorter trim",
    );

    let row = json!({ "name": "x" });
    check("parcels", &row, "longest", "1 mm", "0", "the longest side is 0 in; it must be more than zero");
    check(
        "parcels",
        &row,
        "length_and_girth",
        "100 m",
        "101 m",
        "the length and girth is 101000 mm; allowed: 0 in to 100 m (about 328 ft)",
    );
    let row = json!({ "name": "x", "diameter": "3 in" });
    check("tubes", &row, "diameter", "1 mm", "0", "the diameter is 0 in; it must be more than zero");
    check("tubes", &row, "spare", "0", "-1 mm", &format!("the spare length is -1 mm; {TEN_METRES}"));

    let row = json!({ "name": "x", "series": "s", "system": "inches", "size": ["8 in", "10 in"] });
    let size = |taken: Value, refused: Value, why: &str| {
        let sentence = format!("sizes, \"x\": {why}");
        check_limit("sizes", &row, "size", &taken, &refused, Seen::ByTheReader, &sentence);
    };
    size(json!(["1 mm", "10 m"]), json!(["0", "10 m"]), "the width is 0 in; it must be more than zero");
    size(json!(["10 m", "1 mm"]), json!(["10 m", "11 m"]), &format!("the height is 11000 mm; {TEN_METRES}"));
    let why = "the stock file can't be read: sizes, add, number 1, size, number 2: “tall” is not a number; write digits first, as in 16 1/2 in";
    check_limit("sizes", &row, "size", &json!(["1", "2"]), &json!(["1", "tall"]), Seen::ByTheReader, why);
}

#[test]
fn numbers_have_limits() {
    let check = |list: &str, row: &Value, field: &str, [taken, refused]: [u64; 2], why: &str| {
        let name = if list == "densities" { "oak" } else { "x" };
        let sentence = format!("{list}, \"{name}\": {why}");
        check_limit(list, row, field, &json!(taken), &json!(refused), Seen::ByBoth, &sentence);
    };
    let row = json!({ "material": "oak", "kg_per_m3": 700, "least": 700, "most": 700, "source": "s" });
    check("densities", &row, "least", [1, 0], "the least is 0; allowed: 1 to 20000");
    check("densities", &row, "most", [20_000, 20_001], "the most is 20001; allowed: 1 to 20000");
    let row = json!({ "material": "oak", "kg_per_m3": 700, "least": 1, "most": 20_000, "source": "s" });
    check("densities", &row, "kg_per_m3", [1, 0], "the density is 0; allowed: 1 to 20000");
    check("densities", &row, "kg_per_m3", [20_000, 20_001], "the density is 20001; allowed: 1 to 20000");
    let row = json!({ "material": "oak", "kg_per_m3": 700, "least": 600, "most": 800, "source": "s" });
    for (field, taken, refused, why) in [
        ("least", 700, 701, "the density is 700, the least 701 and the most 800; put them in order"),
        ("most", 700, 699, "the density is 700, the least 600 and the most 699; put them in order"),
    ] {
        let sentence = format!("densities, \"oak\": {why}");
        check_limit("densities", &row, field, &json!(taken), &json!(refused), Seen::ByTheReader, &sentence);
    }
    let row = json!({ "name": "x", "material": "glass", "thickness": "2 mm", "size": ["1 m", "2 m"] });
    let why = "the grams per square metre is 0; allowed: 1 to 200000";
    check("sheets", &row, "grams_per_square_metre", [1, 0], why);
    let why = "the grams per square metre is 200001; allowed: 1 to 200000";
    check("sheets", &row, "grams_per_square_metre", [200_000, 200_001], why);
    let row = json!({ "name": "x" });
    check("parcels", &row, "most_grams", [1, 0], "the weight in grams is 0; allowed: 1 to 10000000");
    let why = "the weight in grams is 10000001; allowed: 1 to 10000000";
    check("parcels", &row, "most_grams", [10_000_000, 10_000_001], why);
    for unit in ["cubic_inches_per_pound", "cubic_centimetres_per_kilogram"] {
        for (taken, refused) in [(1, 0), (100_000, 100_001)] {
            let why = format!("parcels, \"x\": the divisor of the volume is {refused}; allowed: 1 to 100000");
            let value = |divisor: u32| json!({ unit: divisor });
            check_limit(
                "parcels",
                &row,
                "volume_divisor",
                &value(taken),
                &value(refused),
                Seen::ByBoth,
                &why,
            );
        }
    }
}

#[test]
fn names_have_limits() {
    let check = |taken: &str, refused: &str, seen: Seen, sentence: &str| {
        check_limit("bars", &bar("x", "1 in"), "name", &json!(taken), &json!(refused), seen, sentence);
    };
    let long = "é".repeat(80);
    check(
        &long,
        &format!("{long}é"),
        Seen::ByBoth,
        "bars, row 11: the name has 81 characters; write at most 80",
    );
    check("a", "", Seen::ByBoth, "bars, row 11: the name is empty; write at least one character");
    check("a b", " ", Seen::ByTheReader, "bars, row 11: the name is empty; write at least one character");
    check(
        "a b",
        "a\nb",
        Seen::ByTheReader,
        "bars, row 11: the name has a control character in it; write plain text on one line",
    );
    let twice = json!({ "add": [bar("a", "1 in"), bar("b", "1 in"), bar("a", "2 in")] });
    let sentence = "bars: two rows are called \"a\"; give each a name of its own";
    check_refused(&with("bars", twice), Seen::ByTheReader, sentence);
    let twice = json!({ "replace": [bar("a", "1 in"), bar("a", "1 in")] });
    check_refused(&with("bars", twice), Seen::ByTheReader, sentence);
    let row = json!({ "name": "x", "series": "", "system": "inches", "size": ["8 in", "10 in"] });
    let sentence = "sizes, \"x\": the series is empty; write at least one character";
    check_refused(&with("sizes", json!({ "add": [row] })), Seen::ByBoth, sentence);
    let glass = json!({ "material": "glass", "kg_per_m3": 2500, "least": 2450, "most": 2550, "source": "s" });
    for (rows, lacking) in [(json!([]), "glass"), (json!([glass]), "acrylic")] {
        let sentence = format!(
            "the densities have no row for {lacking}; give one for every material, or use \"add\" to change single rows"
        );
        check_refused(&with("densities", json!({ "replace": rows })), Seen::ByTheReader, &sentence);
    }
}

#[test]
fn lists_have_limits() {
    let bars =
        |count: usize| (0..count).map(|index| bar(&format!("bar {index}"), "1 in")).collect::<Vec<_>>();
    assert_eq!(read(&with("bars", json!({ "replace": bars(400) }))).bars.len(), limits::ROWS);
    let unread =
        |how: &str| format!("the stock file can't be read: bars, {how}: a list takes at most 400 rows");
    check_refused(&with("bars", json!({ "replace": bars(401) })), Seen::ByBoth, &unread("replace"));
    check_refused(&with("bars", json!({ "add": bars(401) })), Seen::ByBoth, &unread("add"));
    // Ten are on offer.
    assert_eq!(read(&with("bars", json!({ "add": bars(390) }))).bars.len(), 400);
    let sentence = "bars: there would be 401 rows, and a list takes at most 400; leave some out";
    check_refused(&with("bars", json!({ "add": bars(391) })), Seen::ByTheReader, sentence);
}

#[test]
fn the_form_is_held_by_schema_and_reader() {
    let unread = |rest: &str| format!("the stock file can't be read: {rest}");
    let check = |form: Value, sentence: &str| check_refused(&form, Seen::ByBoth, sentence);
    check(
        json!({ "overmantel_stock": 2 }),
        "the stock file has version 2, and this program reads version 1; open it with a newer one",
    );
    check(json!({}), "this is not an Overmantel stock file: \"overmantel_stock\" is missing; write it");
    check(
        json!({ "overmantel": 1 }),
        "this is not an Overmantel stock file: \"overmantel_stock\" is missing; write it",
    );
    check(
        with("bars", json!(null)),
        &unread("bars: there is nothing (null) where an object in braces is expected"),
    );
    check(
        with("bars", json!({ "replace": null })),
        &unread("bars, replace: there is nothing (null) where a list is expected"),
    );
    check(
        with("bars", json!({ "remove": ["1 in"] })),
        &unread("bars, remove: \"remove\" is not a known name here; known names are \"replace\", \"add\""),
    );
    check(
        with("bars", json!({ "add": [{ "name": "x", "depth": "1 in" }] })),
        &unread("bars, add, number 1: \"width\" is missing; write it"),
    );
    check(
        with("bars", json!({ "add": [{ "name": "x", "depth": "1 in", "width": "1 in", "price": 3 }] })),
        &unread(
            "bars, add, number 1, price: \"price\" is not a known name here; known names are \"name\", \"depth\", \"width\"",
        ),
    );
    check(
        with("bars", json!({ "add": [{ "name": "x", "depth": 1, "width": "1 in" }] })),
        &unread("bars, add, number 1, depth: there is a number where text such as \"16 in\" is expected"),
    );
    let tin = json!({ "name": "x", "material": "tin", "thickness": "2 mm", "size": ["1 m", "2 m"] });
    let error =
        Stock::read(&with("sheets", json!({ "add": [tin] })).to_string()).expect_err("tin").to_string();
    assert!(
        error.starts_with(&unread(
            "sheets, add, number 1, material: \"tin\" can't be chosen here; choose one of \"glass\", "
        )),
        "{error}"
    );
    let error = Stock::read(&with("frames", json!({})).to_string()).expect_err("frames").to_string();
    assert!(error.starts_with(&unread("frames: \"frames\" is not a known name here")), "{error}");
    assert!(error.contains("\"bars\", \"hangers\", \"thresholds\""), "{error}");
    assert!(!SCHEMA.is_valid(&with("frames", json!({}))));
}

#[test]
fn what_is_no_stock_at_all() {
    let read = |text: &str| Stock::read(text).map_err(|why| why.to_string());
    let check = |text: &str, sentence: &str| assert_eq!(read(text), Err(sentence.to_owned()));
    let not_a_stock = |rest: &str| format!("this is not an Overmantel stock file: {rest}");
    check("", &not_a_stock("it is empty"));
    check("{\"overmantel_stock\": 1,", &not_a_stock("it stops short or is not JSON at line 1 column 23"));
    check("glass", &not_a_stock("it stops short or is not JSON at line 1 column 1"));
    let deep = "[".repeat(100_000);
    check(&deep, &not_a_stock("it stops short or is not JSON at line 1 column 128"));
    let deep = format!("{{\"overmantel_stock\": 1, \"bars\": {deep}");
    assert!(Stock::read(&deep).is_err_and(|why| why.to_string().contains("it stops short or is not JSON")));
    let most = limits::FILE_BYTES;
    let sentence = format!("the stock file has {} bytes, and a stock may have at most {most}", most + 1);
    check(&" ".repeat(most + 1), &sentence);
    let padded = format!("{{\"overmantel_stock\": 1{}}}", " ".repeat(most - 23));
    assert_eq!((padded.len(), Stock::read(&padded)), (most, Ok(Stock::offered())));
}

/// Lengths from nothing to ten metres, the odd ones among them.
fn length(least: i64) -> impl Strategy<Value = Length> {
    let most = Length::mm(10_000).units();
    prop_oneof![
        Just(least),
        Just(most),
        (0_i64..=1024, -1_i64..=1).prop_map(|(marks, off)| marks * (UNITS_PER_INCH / 16) + off),
        least..=most,
    ]
    .prop_map(move |units| Length::from_units(units.clamp(least, most)))
}

fn name() -> impl Strategy<Value = String> {
    vec(any::<char>(), 1..=limits::NAME)
        .prop_map(|letters| letters.into_iter().filter(|letter| !letter.is_control()).collect::<String>())
        .prop_filter("not blank", |text: &String| !text.trim().is_empty())
}

fn material() -> impl Strategy<Value = Material> {
    select(Material::all().collect::<Vec<_>>())
}

prop_compose! {
    fn standard_size()(name in name(), series in name(), is_inches: bool, width in length(1), height in length(1),
        is_print: bool, is_frame: bool) -> StandardSize {
        let system = if is_inches { System::Inches } else { System::Centimetres };
        StandardSize { name, series, system, size: Size::new(width, height), is_print, is_frame }
    }
}

prop_compose! {
    fn sheet()(name in name(), material in material(), thickness in length(1), width in length(1), height in length(1),
        grams in proptest::option::of(1..=limits::GRAMS_PER_SQUARE_METRE)) -> SheetStock {
        SheetStock { name, material, thickness, size: Size::new(width, height), grams_per_square_metre: grams }
    }
}

prop_compose! {
    fn moulding()(name in name(), is_floater: bool, face in length(1), width in length(0), rabbet in length(0),
        depth in length(1), material in material(), wood in proptest::option::of(name()),
        colour in proptest::option::of((0..0x100_0000_u32).prop_map(Colour::hex))) -> Profile {
        let or_none = |length: Length| if is_floater { Length::ZERO } else { length };
        let (rabbet_width, rabbet_depth) = (or_none(width.min(face)), or_none(rabbet.min(depth)));
        Profile { name, is_floater, face, rabbet_width, rabbet_depth, depth, material, wood, colour }
    }
}

prop_compose! {
    fn parcel()(name in name(), longest in proptest::option::of(length(1)), girth in proptest::option::of(length(1)),
        most_grams in proptest::option::of(1..=limits::PARCEL_GRAMS), divisor in 1..=limits::VOLUME_DIVISOR,
        kind in 0..3) -> Parcel {
        let volume_divisor = match kind {
            0 => None,
            1 => Some(VolumeDivisor::CubicInchesPerPound(divisor)),
            _ => Some(VolumeDivisor::CubicCentimetresPerKilogram(divisor)),
        };
        Parcel { name, longest, length_and_girth: girth, most_grams, volume_divisor }
    }
}

fn density() -> impl Strategy<Value = Density> {
    (material(), [1..=limits::KG_PER_M3, 1..=limits::KG_PER_M3, 1..=limits::KG_PER_M3], name()).prop_map(
        |(material, mut numbers, source)| {
            numbers.sort_unstable();
            let [least, kg_per_m3, most] = numbers;
            Density { material, kg_per_m3, least, most, source }
        },
    )
}

/// Rows of different names.
fn apart<T>(mut rows: Vec<T>, name: impl Fn(&T) -> String) -> Vec<T> {
    let mut seen = BTreeSet::new();
    rows.retain(|row| seen.insert(name(row)));
    rows
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Written and read again, a stock is the same, and the published schema takes it.
    #[test]
    fn writing_and_reading_is_the_identity(
        sizes in vec(standard_size(), 0..6),
        sheets in vec(sheet(), 0..6),
        mouldings in vec(moulding(), 0..6),
        parcels in vec(parcel(), 0..6),
        density in density(),
    ) {
        let mut stock = Stock::offered();
        stock.sizes = apart(sizes, |row| row.name.clone());
        stock.sheets = apart(sheets, |row| row.name.clone());
        stock.mouldings = apart(mouldings, |row| row.name.clone());
        stock.parcels = apart(parcels, |row| row.name.clone());
        let row = stock.densities.iter().position(|row| row.material == density.material);
        stock.densities[row.unwrap_or_default()] = density;
        let text = stock.write();
        let value: Value = serde_json::from_str(&text).unwrap_or_default();
        prop_assert!(SCHEMA.is_valid(&value), "{}", text);
        prop_assert_eq!(Stock::read(&text), Ok(stock));
    }

    /// Whatever the bytes of a good file are changed to, it is read or refused with a sentence, and what is read can be written.
    #[test]
    fn spoilt_files_are_refused_in_words(at in any::<proptest::sample::Index>(), letter in any::<char>()) {
        let text = r#"{"overmantel_stock":1,"rolls":{"add":[{"name":"r","width":"44 in","longest":"9 ft"}]}}"#;
        let mut letters: Vec<char> = text.chars().collect();
        let at = at.index(letters.len());
        letters[at] = letter;
        match Stock::read(&letters.into_iter().collect::<String>()).map_err(|why| why.to_string()) {
            Ok(stock) => prop_assert_eq!(Stock::read(&stock.write()), Ok(stock)),
            Err(why) => prop_assert!(why.contains(' ') && !why.ends_with('.'), "no sentence: {:?}", why),
        }
    }
}
