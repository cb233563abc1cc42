//! What the command line gives to start from: the stock on offer, and a first plan.
//!
//! Sizes expected of a first plan were worked out on paper from its rule: four sevenths of the wall's width, less frames and gaps.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use command::{check_refused, overmantel, path, plan, root, scratch, text};
use overmantel::plan::{Plan, file};
use overmantel::stock::Stock;
use serde_json::{Value, json};
use std::fs;
use std::path::PathBuf;

mod command;

fn picture(name: &str) -> PathBuf {
    root().join("demo-data/pictures").join(name)
}

/// What a command prints, where it is done.
#[track_caller]
fn printed(arguments: &[&str]) -> String {
    let output = overmantel(arguments);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""), "{arguments:?}");
    text(&output.stdout)
}

#[track_caller]
fn first_plan(arguments: &[&str]) -> Value {
    let written = printed(&[&["plan"], arguments].concat());
    let read = file::read(&written).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(file::write(&read) + "\n", written, "it is a plan file");
    serde_json::from_str(&written).unwrap_or_else(|why| panic!("{why}"))
}

fn images(plan: &Value) -> Vec<Value> {
    plan["pieces"].as_array().into_iter().flatten().map(|piece| piece["image"].clone()).collect()
}

#[test]
fn the_stock_on_offer_is_a_stock_file() {
    let folder = scratch("stock");
    let (whole, own) = (folder.join("whole.json"), folder.join("own.json"));
    let written = printed(&["stock"]);
    assert_eq!(Stock::read(&written), Ok(Stock::offered()));
    assert_eq!(printed(&["stock", "--out", path(&whole)]), "");
    assert_eq!(fs::read_to_string(&whole).ok(), Some(written.clone()));
    assert_eq!(printed(&["stock", "--stock", path(&whole)]), written, "it comes back as it went");
    let few = r#"{ "overmantel_stock": 1, "thresholds": { "widest gap between pieces": "5 in" },
        "sticks": { "replace": [{ "name": "ours", "length": "13 ft" }] } }"#;
    fs::write(&own, few).unwrap_or_else(|why| panic!("{why}"));
    let laid_over = printed(&["stock", "--stock", path(&own)]);
    assert_eq!(Stock::read(&laid_over), Stock::read(few), "printed whole, it is the same stock");
    let data: Value = serde_json::from_str(&laid_over).unwrap_or_default();
    assert_eq!(data["sticks"]["replace"].as_array().map(Vec::len), Some(1));
    assert_eq!(data["thresholds"]["widest gap between pieces"], json!("5 in"));
}

#[test]
fn what_is_there_is_not_written_over() {
    let kept = scratch("kept").join("kept.json");
    fs::write(&kept, "mine").unwrap_or_else(|why| panic!("{why}"));
    for command in ["stock", "plan"] {
        check_refused(&[command, "--out", path(&kept)], 1, "kept.json already exists and was left as it is");
        assert_eq!(fs::read_to_string(&kept).ok().as_deref(), Some("mine"));
        check_refused(&[command, "--force"], 2, "--out");
    }
    printed(&["plan", "--out", path(&kept), "--force"]);
    assert_eq!(fs::read_to_string(&kept).ok(), Some(printed(&["plan"])));
}

#[test]
fn without_options_it_is_the_plan_that_a_new_user_starts_from() {
    assert_eq!(file::read(&printed(&["plan"])), Ok(Plan::starting()));
    assert_eq!(first_plan(&["--title", "Ebb"])["title"], json!("Ebb"));
}

/// 144 × 4/7 = 82 2/7 in, less three times 5 1/8 of mat and frame and two gaps of 3 in, is 60.91: 25.38 in high for three of 4 to 5.
/// The largest of that shape on offer below it is 16 × 20 in.
#[test]
fn a_wall_alone_has_three_places() {
    let plan = first_plan(&["--wall", "144x96in"]);
    assert_eq!(images(&plan), vec![json!(["16 in", "20 in"]); 3]);
    assert_eq!((&plan["units"], &plan["fixtures"]), (&json!("inches"), &json!([])));
    assert_eq!(plan["wall"]["size"], json!(["144 in", "96 in"]));
    for wall in ["12' x 8'", "12ft×96in", "144 by 96 in"] {
        assert_eq!(first_plan(&["--wall", wall]), plan, "{wall}");
    }
}

/// On standard error; the plan itself goes to standard output as ever.
#[test]
fn a_wall_without_a_unit_says_in_what_it_was_read() {
    let said = |arguments: &[&str]| text(&overmantel(&[&["plan"], arguments].concat()).stderr);
    let told = "overmantel: \"144x96\" was read in inches; write \"144x96 cm\" if you mean centimetres\n";
    assert_eq!(said(&["--wall", "144x96"]), told);
    assert_eq!(said(&["--wall", "144 by 96"]), told.replace("144x96", "144 by 96"));
    assert_eq!(said(&["--wall", "144x96", "--quiet"]), "");
    // 420 in are 35 ft: that is told even so. 30 ft are 360 in.
    assert!(said(&["--wall", "420x260", "--quiet"]).contains("\"420x260\" was read in inches"));
    assert_eq!(said(&["--wall", "360x260", "--quiet"]), "");
    for stated in [&["--wall", "144x96in"][..], &["--wall", "12' x 8'"], &["--wall", "4.2 m x 260 cm"]] {
        assert_eq!(said(stated), "", "{stated:?}");
    }
    assert_eq!(said(&["--wall", "420x260", "--in", "centimetres"]), "", "it was said");
    // As it is advised to be written, it is read.
    assert_eq!(first_plan(&["--wall", "144x96 cm"])["wall"]["size"], json!(["1440 mm", "960 mm"]));
}

/// The files of the demo have 760 × 950 and 960 × 640 px, fine enough for less than 8 in; so high they are made.
#[test]
fn pictures_keep_their_shapes_and_are_of_one_height() {
    let (upright, wide) = (picture("harbour-morning.jpg"), picture("channel-markers.jpg"));
    let plan = first_plan(&["--wall", "144x96in", "--picture", path(&upright), "--picture", path(&wide)]);
    // 8 × 4/5 = 6.4, to the nearest sixteenth 6 3/8; 8 × 3/2 = 12.
    assert_eq!(images(&plan), [json!(["6 3/8 in", "8 in"]), json!(["12 in", "8 in"])]);
    assert_eq!(
        plan["pictures"],
        json!([
            { "name": "harbour morning", "file": "harbour-morning.jpg", "pixels": [760, 950] },
            { "name": "channel markers", "file": "channel-markers.jpg", "pixels": [960, 640] },
        ])
    );
    assert_eq!(plan["pieces"][1]["picture"], json!("channel markers"));
}

/// The units are those of the wall, and with them gap, eye level and mat; `--in` states them for a wall without any.
#[test]
fn units_are_those_of_the_wall() {
    let plan = first_plan(&["--wall", "4.2 m x 260 cm"]);
    assert_eq!((&plan["units"], &plan["group"]["gap"]), (&json!("centimetres"), &json!("80 mm")));
    assert_eq!(plan["wall"]["size"], json!(["4200 mm", "2600 mm"]));
    assert_eq!(first_plan(&["--wall", "420x260", "--in", "centimetres"]), plan);
    // 4200 × 4/7 = 2400 mm, less three times 145 of mat and frame and two gaps of 80, is 1805: 752 high for three of 4 to 5. The largest
    // print of that shape on offer is two thirds as high.
    assert_eq!(images(&plan), vec![json!(["400 mm", "500 mm"]); 3]);
    assert_eq!(first_plan(&["--in", "centimetres"])["wall"]["size"], json!(["3600 mm", "2400 mm"]));
}

/// Exif orientation 6 (Exif 2.3, 4.6.4 A): the picture is stored on its side.
#[test]
fn a_picture_is_measured_upright() {
    let turned = scratch("turned").join("turned.jpg");
    let mut bytes = fs::read(picture("harbour-morning.jpg")).unwrap_or_else(|why| panic!("{why}"));
    let exif = b"\xff\xe1\x00\x22Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0";
    bytes.splice(2..2, exif.iter().copied());
    fs::write(&turned, bytes).unwrap_or_else(|why| panic!("{why}"));
    let plan = first_plan(&["--picture", path(&turned)]);
    assert_eq!(plan["pictures"][0]["pixels"], json!([950, 760]));
    let seen_as_stored = first_plan(&["--picture", path(&picture("harbour-morning.avif"))]);
    assert_eq!(seen_as_stored["pieces"].as_array().map(Vec::len), Some(1), "AVIF is read too");
}

#[test]
fn a_first_plan_can_be_made_and_worked_on() {
    let file = scratch("first").join("first.json");
    let pictures = ["harbour-morning.jpg", "three-boats.jpg", "channel-markers.jpg"].map(picture);
    let given: Vec<&str> = pictures.iter().flat_map(|picture| ["--picture", path(picture)]).collect();
    for wall in ["144x96in", "70 x 80 in", "30 m x 9 m", "2.4m x 2.2m"] {
        printed(&[&["plan", "--wall", wall, "--out", path(&file), "--force"], &given[..]].concat());
        let found = overmantel(&["findings", path(&file), "--least", "cannot-be-made"]);
        assert_eq!(found.status.code(), Some(0), "{wall}: {}", text(&found.stdout));
        assert_eq!(overmantel(&["figures", path(&file)]).status.code(), Some(0));
    }
}

#[test]
fn what_no_plan_can_be_made_of_is_said_in_words() {
    let picture = picture("three-boats.jpg");
    let picture = path(&picture);
    let low_water = plan("low-water.json");
    check_refused(&["plan", "--wall", "144"], 2, "\"144\" is not a size; write the width, then the height");
    check_refused(&["plan", "--wall", "144 x tall"], 2, "“tall” is not a number; write digits first");
    check_refused(&["plan", "--wall", "0x96"], 1, "the width of the wall is 0 in; it must be more than zero");
    check_refused(
        &["plan", "--wall", "12x8"],
        1,
        "a wall of 12 in × 8 in has no room for 3 framed pictures side by side; check the unit of the wall",
    );
    check_refused(&["plan", "--picture", path(&low_water)], 1, "low-water.json is not a picture");
    check_refused(&["plan", "--picture", "nowhere.jpg"], 1, "nowhere.jpg can't be opened");
    check_refused(
        &["plan", "--picture", picture, "--picture", picture],
        1,
        "two pictures have the file name three-boats.jpg",
    );
    let avif = root().join("demo-data/pictures/three-boats.avif");
    let others = ["harbour-morning.jpg", "channel-markers.jpg"].map(self::picture);
    let mut four = vec!["plan", "--picture", picture, "--picture", path(&avif)];
    four.extend(others.iter().flat_map(|other| ["--picture", path(other)]));
    check_refused(&four, 1, "4 pictures were given, and a plan has 1 to 3 pieces; give no more than that");
    check_refused(&["plan", "--title", ""], 1, "the title is empty; write at least one character");
}

#[test]
fn help_teaches() {
    for (command, words) in [
        ("stock", ["Examples:", "overmantel stock --out ours.json"]),
        ("plan", ["Examples:", "--wall 144x96in"]),
    ] {
        let help = printed(&[command, "--help"]);
        assert!(words.iter().all(|word| help.contains(word)), "{help}");
        assert!(printed(&["--help"]).contains(&format!("overmantel {command} ")));
    }
}
