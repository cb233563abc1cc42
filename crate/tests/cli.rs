//! The command line as scripts meet it: output, files, exit codes.
//!
//! Figures expected of the demo's plan were worked out on paper: 16 × 20 in with 1/8 in covered on each side is an opening of
//! 15 3/4 × 19 3/4; borders of 2 1/8 make a board of 20 × 24; a face of 3/4, a lip of 1/4 and 1/8 of play an outside of
//! 20 + 1/8 + 2 × (3/4 - 1/4) = 21 1/8 by 25 1/8; three of them with gaps of 3 in are 69 3/8 in wide, from 37 5/16 in, 42 in up.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map_or_else(PathBuf::new, Path::to_path_buf)
}

fn plan(name: &str) -> PathBuf {
    root().join("demo-data/plans").join(name)
}

/// A folder of this test's own, empty at first.
fn scratch(test: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    if folder.exists() {
        fs::remove_dir_all(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    }
    fs::create_dir_all(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    folder
}

fn overmantel(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_overmantel"))
        .args(arguments)
        .output()
        .unwrap_or_else(|error| panic!("{error}"))
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn path(path: &Path) -> &str {
    path.to_str().unwrap_or_else(|| panic!("{}", path.display()))
}

/// It fails with this code and these words on standard error, and prints nothing.
#[track_caller]
fn check_refused(arguments: &[&str], code: i32, words: &str) {
    let output = overmantel(arguments);
    assert_eq!(output.status.code(), Some(code), "{arguments:?}: {}", text(&output.stderr));
    assert!(text(&output.stderr).contains(words), "{arguments:?}: {}", text(&output.stderr));
    assert!(output.stdout.is_empty(), "{}", text(&output.stdout));
}

#[test]
fn figures_of_the_demos_plan() {
    let output = overmantel(&["figures", path(&plan("low-water.json"))]);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let found: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}"));
    let size = |width: &str, height: &str| [json!(width), json!(height)];
    let exact = |pointer: &str| {
        let value = found.pointer(pointer).unwrap_or_else(|| panic!("no {pointer}"));
        ["width", "height"].map(|side| value[side]["exact"].clone())
    };
    for piece in 0..3 {
        let of = |part: &str| exact(&format!("/pieces/{piece}/{part}"));
        assert_eq!(of("image"), size("16 in", "20 in"));
        assert_eq!(of("mat/opening"), size("15 3/4 in", "19 3/4 in"));
        assert_eq!(of("mat/board"), size("20 in", "24 in"));
        assert_eq!(of("frame/nominal"), size("20 in", "24 in"));
        assert_eq!(of("frame/outside"), size("21 1/8 in", "25 1/8 in"));
        assert_eq!(of("place/size"), size("21 1/8 in", "25 1/8 in"));
    }
    assert_eq!(exact("/group/size"), size("69 3/8 in", "25 1/8 in"));
    assert_eq!(found["group"]["left"], json!({ "exact": "37 5/16 in", "inches": 37.3125, "mm": 947.7375 }));
    assert_eq!(found["group"]["bottom"], json!({ "exact": "42 in", "inches": 42.0, "mm": 1066.8 }));
    // One picture of 9000 × 4200 px behind images that reach from 2 9/16 in within the first outside to 2 9/16 in within the last:
    // 69 3/8 - 5 1/8 = 64 1/4 in, so 9000 / 64.25 = 140.0778 px/in; the second begins 24 1/8 in on, half of the rest is above.
    let shown = &found["pieces"][1]["picture"];
    assert_eq!(shown["pixels_per_inch"], json!(140.077_821));
    assert_eq!(shown["crop_px"], json!([3_379.377_432, 699.221_79, 2_241.245_136, 2_801.556_42]));
    assert_eq!(found["group_centre_height"]["exact"], json!("54 9/16 in"), "42 + 25 1/8 / 2 = 54 9/16");
    let hooks = &found["pieces"][0]["hanging"]["hooks"];
    assert_eq!(hooks[0]["from_left"]["exact"], json!("37 11/16 in"), "37 5/16 + 3/8");
    assert_eq!(hooks[1]["from_left"]["exact"], json!("58 1/16 in"), "37 5/16 + 21 1/8 - 3/8");
    assert_eq!(hooks[0]["from_floor"]["exact"], json!("62 1/8 in"), "42 + 25 1/8 - 5");
}

/// A chunk of a PNG file by its name: length, name, data and checksum follow each other from byte 8 on (PNG, 5.3).
fn chunk<'a>(png: &'a [u8], name: &str) -> &'a [u8] {
    assert_eq!(png[..8], *b"\x89PNG\r\n\x1a\n");
    let mut rest = &png[8..];
    while let [a, b, c, d, tail @ ..] = rest {
        let length = usize::try_from(u32::from_be_bytes([*a, *b, *c, *d])).unwrap_or_default();
        if tail[..4] == *name.as_bytes() {
            return &tail[4..4 + length];
        }
        rest = &tail[4 + length + 4..];
    }
    panic!("no {name}")
}

fn number(bytes: &[u8]) -> u32 {
    bytes[..4].iter().fold(0, |number, &byte| number << 8 | u32::from(byte))
}

#[test]
fn a_drawing_has_its_width_and_its_density() {
    let folder = scratch("a_drawing");
    let pictures = root().join("demo-data/pictures");
    for (name, ppi, per_metre) in [("screen.png", None, 5669), ("paper.png", Some("300"), 11_811)] {
        let out = folder.join(name);
        let low_water = plan("low-water.json");
        let mut arguments = vec!["draw", path(&low_water), "--out", path(&out), "--width", "320"];
        arguments.extend(["--pictures", path(&pictures)]);
        arguments.extend(ppi.iter().flat_map(|ppi| ["--ppi", *ppi]));
        let output = overmantel(&arguments);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        assert_eq!(text(&output.stderr), "", "every picture was found");
        let png = fs::read(&out).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(number(chunk(&png, "IHDR")), 320);
        let density = chunk(&png, "pHYs");
        // 144 / 0.0254 = 5669.3 and 300 / 0.0254 = 11811.02 pixels to the metre, the unit of code 1.
        assert_eq!((number(density), number(&density[4..]), density[8]), (per_metre, per_metre, 1));
    }
}

#[test]
fn options_of_a_drawing() {
    let folder = scratch("options");
    let size = |extra: &[&str]| {
        let out = folder.join("wall.png");
        let low_water = plan("low-water.json");
        let arguments: Vec<&str> = ["draw", path(&low_water), "--out", path(&out), "--width", "300"]
            .into_iter()
            .chain(extra.iter().copied())
            .collect();
        let output = overmantel(&arguments);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        let png = fs::read(&out).unwrap_or_else(|error| panic!("{error}"));
        let header = chunk(&png, "IHDR");
        (number(header), number(&header[4..]), png)
    };
    let (width, height, light) = size(&[]);
    assert_eq!(width, 300);
    let (_, same, dark) = size(&["--dark"]);
    assert!(same == height && dark != light, "the dark sheet is as large, and another drawing");
    assert_eq!((size(&["--height", "123"]).0, size(&["--height", "123"]).1), (300, 123));
    // Without lines the wall alone is there: 144 × 96 in is 300 × 200 px, and a strip of floor.
    let (_, height, _) = size(&["--no-lines"]);
    assert!((201..=220).contains(&height), "{height} px");
}

#[test]
fn a_picture_that_is_missing_is_said_so_and_toned() {
    let folder = scratch("missing");
    let out = folder.join("wall.png");
    let low_water = plan("low-water.json");
    let output = overmantel(&["draw", path(&low_water), "--out", path(&out), "--width", "200"]);
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(
        text(&output.stderr),
        "overmantel: low-water-evening.jpg was not found, so its place is left toned\n"
    );
    assert!(out.exists());
}

#[test]
fn a_picture_that_is_none_is_an_error() {
    let folder = scratch("no_picture");
    fs::write(folder.join("low-water-evening.jpg"), "dear painter").unwrap_or_else(|error| panic!("{error}"));
    let out = folder.join("wall.png");
    let low_water = plan("low-water.json");
    let arguments = ["draw", path(&low_water), "--out", path(&out), "--pictures", path(&folder)];
    check_refused(&arguments, 1, "low-water-evening.jpg can't be read as a picture");
    assert!(!out.exists(), "nothing was written");
}

/// A plan of the demo with one text changed, in a folder of its own.
fn changed(test: &str, from: &str, to: &str) -> PathBuf {
    let good = fs::read_to_string(plan("low-water.json")).unwrap_or_else(|error| panic!("{error}"));
    assert!(good.contains(from), "{from}");
    let file = scratch(test).join("plan.json");
    fs::write(&file, good.replacen(from, to, 1)).unwrap_or_else(|error| panic!("{error}"));
    file
}

#[test]
fn a_plan_without_an_answer_ends_with_1_and_a_sentence() {
    let check = |test: &str, from: &str, to: &str, sentence: &str| {
        let file = changed(test, from, to);
        check_refused(&["figures", path(&file)], 1, sentence);
        let out = file.with_file_name("wall.png");
        check_refused(&["draw", path(&file), "--out", path(&out)], 1, sentence);
        assert!(!out.exists(), "nothing was written");
    };
    check("no_length", "\"12'\"", "\"wide\"", "the wall, width: “wide” is not a number");
    check("no_colour", "#d5dcd6", "sage", "the wall's paint: \"sage\" is not a colour; write it as #rrggbb");
    check(
        "no_opening",
        "\"1/8 in\"",
        "\"9 in\"",
        "piece 1: the mat's opening would be -2 in × 2 in; let the mat cover less",
    );
    check("no_field", "\"floor\"", "\"flor\"", "unknown field `flor`");
    check("no_json", "\"wall\":", "\"wall\"", "it breaks off or is not JSON at line 5");
    check_refused(&["figures", "no-such-plan.json"], 1, "no-such-plan.json can't be opened");
    let folder = scratch("no_folder");
    let low_water = plan("low-water.json");
    let out = folder.join("nowhere/wall.png");
    check_refused(&["draw", path(&low_water), "--out", path(&out)], 1, "can't be written");
}

#[test]
fn a_command_that_is_not_understood_ends_with_2() {
    let low_water = plan("low-water.json");
    let low_water = path(&low_water);
    check_refused(&["figures", low_water, "--loud"], 2, "unexpected argument '--loud'");
    check_refused(&["figures"], 2, "<PLAN>");
    check_refused(&["hang", low_water], 2, "unrecognized subcommand 'hang'");
    check_refused(&["draw", low_water, "--out", "w.png", "--width", "63"], 2, "63 is not in 64..=16384");
    check_refused(&["draw", low_water], 2, "--out <OUT>");
    check_refused(&["schema", "wall"], 2, "invalid value 'wall'");
}

#[test]
fn help_teaches_by_examples() {
    let check = |arguments: &[&str], words: &[&str]| {
        let output = overmantel(arguments);
        assert_eq!(output.status.code(), Some(0));
        for word in words {
            assert!(text(&output.stdout).contains(word), "{arguments:?} without {word}");
        }
    };
    check(
        &["--help"],
        &[
            "Examples:",
            "overmantel figures demo-data/plans/low-water.json",
            "overmantel draw demo-data/plans/low-water.json --out wall.png --width 2400",
            "Exit codes: 0 done; 1 ",
        ],
    );
    check(&["figures", "--help"], &["Example", "\"15 3/4 in\"", "jq"]);
    check(&["draw", "--help"], &["Examples:", "--no-lines", "--pictures"]);
    check(&["--version"], &["overmantel 0."]);
}

#[test]
fn schemas_are_those_that_are_committed() {
    for (form, file) in
        [("plan", "plan.schema.json"), ("figures", "figures.schema.json"), ("stock", "stock.schema.json")]
    {
        let output = overmantel(&["schema", form]);
        let committed = fs::read(root().join("crate/schema").join(file));
        assert!(committed.is_ok_and(|committed| committed == output.stdout), "{form}");
    }
}
