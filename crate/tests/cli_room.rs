//! `overmantel room`: a photograph measured, a plan drawn in it, and what is refused. The room and its sizes are those of
//! `tests/rooms/green-sofa/truth.json`, which Overmantel did not compute.
#![cfg(feature = "cli")]

use command::{check_refused, overmantel, path, plan, root, scratch, text};
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

mod command;

fn photograph() -> PathBuf {
    root().join("tests/rooms/green-sofa/photo.jpg")
}

/// The left corner of this wall is not in sight; its floor is marked where the skirting's foot is.
const ENDS: [&str; 8] = [
    "--left",
    "-5.9,1075.7",
    "--right",
    "1485.6,979.3",
    "--floor",
    "1485.6,979.3",
    "--ceiling",
    "1507.5,124",
];

#[test]
fn a_photograph_is_measured() {
    let photo = photograph();
    let switch = ["--thing", "light_switch", "1363.4,612.6", "1389.2,639.9"];
    let output = overmantel(&[&["room", "--photo", path(&photo)], &ENDS[..], &switch[..]].concat());
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let told: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!((told["version"].as_u64(), told["sheet"]["paper"].as_str()), (Some(1), Some("a4")));
    assert!(told["lines"].as_array().is_some_and(|lines| lines.len() >= 3));
    // 4200 and 2520 mm; the switch is 82 mm wide and 9 mm before the wall.
    for (what, true_mm) in
        [("width of the wall", 4200.0), ("height of the wall", 2520.0), ("width of the light switch", 82.0)]
    {
        let length =
            told["lengths"].as_array().and_then(|all| all.iter().find(|length| length["what"] == what));
        let length = length.unwrap_or_else(|| panic!("{what}: {told}"));
        let [mm, off] = ["mm", "plus_minus_mm"].map(|key| length[key].as_f64().expect("a number"));
        assert!((mm - true_mm).abs() < off.max(2.0), "{what}: {mm} ± {off}");
        assert!(off < 30.0, "{what}: ± {off}");
    }
}

#[test]
fn a_plan_hangs_in_a_photograph_and_takes_its_lengths() {
    let folder = scratch("room");
    let (photo, plan) = (photograph(), plan("low-water.json"));
    let [png, jpg, marks, taken] =
        ["room.png", "room.jpg", "marks.json", "taken.json"].map(|name| folder.join(name));
    let pictures = root().join("demo-data/pictures");
    let common =
        ["room", path(&plan), "--photo", path(&photo), "--pictures", path(&pictures), "--width", "800"];
    let first = [
        &common[..],
        &ENDS[..],
        &["--out", path(&png), "--save-marks", path(&marks), "--take", path(&taken)],
    ];
    let output = overmantel(&first.concat());
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let drawn = image::open(&png).expect("a PNG").to_rgb8();
    assert_eq!(drawn.dimensions(), (800, 600));
    // Another run with the marks that were saved gives the same picture.
    let again = folder.join("again.png");
    let second = [&common[..], &["--marks", path(&marks), "--out", path(&again)]].concat();
    assert_eq!(overmantel(&second).status.code(), Some(0));
    assert!(fs::read(&again).ok() == fs::read(&png).ok());
    assert_eq!(overmantel(&[&common[..], &["--out", path(&jpg)]].concat()).status.code(), Some(0));
    assert_eq!(image::open(&jpg).expect("a JPEG").to_rgb8().dimensions(), (800, 600));
    // The plan with what was measured: 4.2 by 2.52 m are 165.4 and 99.2 in; and that it is from a photograph.
    let plan: Value = serde_json::from_str(&fs::read_to_string(&taken).expect("a plan")).expect("JSON");
    assert_eq!(plan["wall"]["size"], serde_json::json!(["165 1/2 in", "99 in"]));
    let off = plan["from_photograph"]
        .as_str()
        .and_then(|off| off.strip_suffix(" mm"))
        .and_then(|off| off.parse::<f64>().ok());
    assert!(off.is_some_and(|off| (5.0..30.0).contains(&off)), "{off:?}");
}

/// A photograph that is stored on its side, and says so (Exif 2.3, 4.6.4: orientation 6, to be turned a quarter to the right), is the same.
#[test]
fn a_photograph_on_its_side_is_turned_upright() {
    let folder = scratch("on_its_side");
    let photo = photograph();
    let upright = image::open(&photo).expect("a photograph").to_rgb8();
    let side = image::imageops::rotate270(&upright);
    let mut coded = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut coded, 98).encode_image(&side).expect("a JPEG");
    // Big-endian TIFF with one entry: tag 0x0112, a SHORT, one of it.
    let mut exif = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0".to_vec();
    let long = u16::try_from(exif.len() + 2).expect("short").to_be_bytes();
    let mut file = vec![0xff, 0xd8, 0xff, 0xe1, long[0], long[1]];
    file.append(&mut exif);
    file.extend_from_slice(&coded[2..]);
    let turned = folder.join("side.jpg");
    fs::write(&turned, file).expect("written");
    let read = |photo: &std::path::Path| -> Value {
        let output = overmantel(&[&["room", "--photo", path(photo), "--focal", "27"], &ENDS[..]].concat());
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        serde_json::from_slice(&output.stdout).expect("JSON")
    };
    let [one, other] = [read(&photo), read(&turned)];
    assert_eq!(one["pixels"], other["pixels"]);
    for index in 0..2 {
        let mm = |told: &Value| told["lengths"][index]["mm"].as_f64().expect("a length");
        // Coded once more: within what they say that they are off by.
        let off = one["lengths"][index]["plus_minus_mm"].as_f64().expect("how far off");
        assert!((mm(&one) - mm(&other)).abs() < off, "{} and {}, ± {off}", mm(&one), mm(&other));
    }
}

#[test]
fn what_can_not_be_measured_is_said() {
    let folder = scratch("no_room");
    let photo = photograph();
    let save = |name: &str, width: u32, height: u32| {
        let file = folder.join(name);
        image::RgbImage::from_pixel(width, height, image::Rgb([180, 190, 170])).save(&file).expect("saved");
        file
    };
    let (tiny, long, blank) =
        (save("tiny.png", 1, 1), save("long.png", 2400, 400), save("blank.png", 800, 600));
    check_refused(&["room", "--photo", path(&tiny)], 1, "at least 200 each way");
    check_refused(&["room", "--photo", path(&long)], 1, "as long as a panorama");
    check_refused(
        &["room", "--photo", path(&blank)],
        1,
        "no sheet of paper was found; mark its four corners",
    );
    check_refused(
        &["room", "--photo", path(&photo), "--corners", "1,1", "2,2", "3", "4,4"],
        2,
        "from the left, a comma",
    );
    check_refused(
        &["room", "--photo", path(&photo), "--corners", "1,1", "9,9", "17,17", "25,25"],
        1,
        "rectangle",
    );
    check_refused(
        &["room", "--photo", path(&photo), "--length", "1,1", "900,1", "long"],
        1,
        "\"long\" is no length",
    );
    check_refused(
        &["room", "--photo", path(&photo), "--thing", "piano", "1,1", "900,90"],
        1,
        "there is no \"piano\"",
    );
    check_refused(
        &["room", "--photo", path(&photo), "--sheet", "a5"],
        2,
        "choose a4, a3, letter, legal or card",
    );
    check_refused(&["room", "--photo", path(&photo), "--floor", "1,99999"], 1, "not in the photograph");
    let text_file = folder.join("notes.jpg");
    fs::write(&text_file, "no picture").expect("written");
    check_refused(&["room", "--photo", path(&text_file)], 1, "notes.jpg");
}

/// A sheet alone misleads two metres away, and the program says by how much.
#[test]
fn a_sheet_alone_is_warned_of() {
    let photo = photograph();
    let output = overmantel(&["room", "--photo", path(&photo), "--no-lines"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(
        text(&output.stderr).contains("from the sheet, places on the wall may be off by"),
        "{}",
        text(&output.stderr)
    );
}
