//! The command line as scripts meet it: output, files, exit codes.
//!
//! Figures expected of the demo's plan were worked out on paper: 16 × 20 in with 1/8 in covered on each side is an opening of
//! 15 3/4 × 19 3/4; borders of 2 1/8 make a board of 20 × 24; a face of 3/4, a lip of 1/4 and 1/8 of play an outside of
//! 20 + 1/8 + 2 × (3/4 - 1/4) = 21 1/8 by 25 1/8; three of them with gaps of 3 in are 69 3/8 in wide, from 37 5/16 in, 42 in up.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use command::{check_refused, overmantel, path, plan, root, scratch, text};
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};

mod command;

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
        let arguments: Vec<&str> =
            ["draw", path(&low_water), "--out", path(&out), "--force", "--width", "300"]
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
fn the_pieces_alone_are_on_nothing() {
    let folder = scratch("alone");
    let (out, low_water) = (folder.join("pieces.png"), plan("low-water.json"));
    let arguments =
        ["draw", path(&low_water), "--out", path(&out), "--width", "300", "--alone", "--no-lines"];
    let output = overmantel(&[&arguments[..], &["--ppi", "300"]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let png = fs::read(&out).unwrap_or_else(|error| panic!("{error}"));
    let header = chunk(&png, "IHDR");
    // Colour type 6: red, green, blue and alpha, not multiplied (Portable Network Graphics, 11.2.1 and 6.2).
    assert_eq!((number(header), header[8], header[9]), (300, 8, 6));
    // 300 / 0.0254 = 11811.02 pixels to the metre.
    assert_eq!(number(chunk(&png, "pHYs")), 11_811);
    let refused = overmantel(&["draw", path(&low_water), "--out", path(&out), "--alone", "--oblique"]);
    assert_eq!(refused.status.code(), Some(2));
    let svg = folder.join("pieces.svg");
    let output = overmantel(&["svg", path(&low_water), "--of", "pieces", "--clear", "--out", path(&svg)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let written = fs::read_to_string(&svg).unwrap_or_else(|error| panic!("{error}"));
    // The paint of the wall is that of the plan; the sheet would be white.
    let paint = "#d5dcd6";
    assert!(written.contains("<text") && !written.contains("fill=\"#fff\"/>"), "{written}");
    assert!(!written.to_lowercase().contains(paint), "the wall is left out");
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
        "overmantel: low-water-evening.jpg was not found, so its area is filled with a single colour\n"
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
    check_refused(
        &arguments,
        1,
        "low-water-evening.jpg is not a picture that this program can read; save it as PNG, JPEG or TIFF",
    );
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
    check("no_length", "\"12'\"", "\"wide\"", "wall, size, number 1: “wide” is not a number");
    check("no_colour", "#d5dcd6", "sage", "wall, paint: \"sage\" is not a colour; write it as #rrggbb");
    check(
        "no_opening",
        "\"1/8 in\"",
        "\"9 in\"",
        "piece 1: the mat opening would be -2 in × 2 in; let the mat cover less",
    );
    check("no_field", "\"floor\"", "\"flor\"", "\"flor\" is not a known name here");
    check("no_json", "\"wall\":", "\"wall\"", "it stops short or is not JSON at line 5");
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
    check_refused(
        &["draw", low_water, "--out", "w.png", "--width", "63"],
        2,
        "write a whole number from 64 to 16384",
    );
    check_refused(&["draw", low_water], 2, "--out <FILE>");
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
    check(
        &["findings", "--help"],
        &["Exit codes: 0 nothing", "3 something was found", "--mend", "cannot-be-made"],
    );
    check(&["draw", "--help"], &["Examples:", "--no-lines", "--pictures"]);
    check(&["--version"], &["overmantel 0."]);
}

/// The gap of 5 in is more than 4 (common practice, no source), and 69 3/8 + 4 in are 0.873 of a sofa of 84; nobody is hurt.
#[test]
fn findings_in_words_as_data_and_as_exit_codes() {
    let folder = scratch("findings");
    let (file, mended) = (folder.join("wide.json"), folder.join("mended.json"));
    let wide = fs::read_to_string(plan("low-water.json")).unwrap_or_default();
    let wide = wide.replace("\"gap\": \"3 in\"", "\"gap\": \"5 in\"");
    fs::write(&file, wide).unwrap_or_else(|error| panic!("{error}"));
    let said = overmantel(&["findings", path(&file)]);
    assert_eq!((said.status.code(), text(&said.stderr).as_str()), (Some(3), ""));
    let words = text(&said.stdout);
    for part in [
        "Low water, three over the sofa: 3 notes\n",
        "gap (a matter of taste)\n  The gap between the pieces is 5\"; 1 1/2\" to 4\" is usual.\n  common practice, no source\n",
        "  1. Hang them 4\" apart (gap between pieces: 4 in) [gap/1]\n",
        "The group fills 87 % of the sofa's width;",
    ] {
        assert!(words.contains(part), "{part} in:\n{words}");
    }
    let data = overmantel(&["findings", path(&file), "--json"]);
    assert_eq!(data.status.code(), Some(3));
    let found: Value = serde_json::from_slice(&data.stdout).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(found["worst"], json!("a matter of taste"));
    let findings = found["findings"].as_array().cloned().unwrap_or_default();
    let gap = findings.iter().find(|finding| finding["code"] == json!("gap")).unwrap_or(&Value::Null);
    assert_eq!(gap["authority"], json!({ "kind": "common practice", "words": "common practice, no source" }));
    assert_eq!(gap["numbers"][0]["name"], json!("gap"));
    assert_eq!(gap["numbers"][0]["value"]["length"]["exact"], json!("5 in"));
    assert_eq!(
        gap["remedies"],
        json!([{ "id": "gap/1", "words": "Hang them 4\" apart", "settings": [["group.gap", "4 in"]] }])
    );
    let safe = overmantel(&["findings", path(&file), "--least", "safety"]);
    assert_eq!(
        (safe.status.code(), text(&safe.stdout).as_str()),
        (Some(0), "Low water, three over the sofa: nothing to note\n")
    );
    // The plan with the remedy is a plan without the finding.
    let taken = overmantel(&["findings", path(&file), "--mend", "gap"]);
    assert_eq!(
        (taken.status.code(), text(&taken.stderr).as_str()),
        (Some(0), "overmantel: Hang them 4\" apart\n")
    );
    fs::write(&mended, &taken.stdout).unwrap_or_else(|error| panic!("{error}"));
    assert!(!text(&overmantel(&["findings", path(&mended)]).stdout).contains("gap ("));
    check_refused(
        &["findings", path(&file), "--mend", "glare"],
        1,
        "the plan has no finding \"glare\"; leave out --mend",
    );
    let named = overmantel(&["findings", path(&file), "--mend", "gap/1"]);
    assert_eq!(named.stdout, taken.stdout, "by its name it is the same");
    check_refused(&["findings", path(&file), "--mend", "gap:2"], 1, "has 1 remedies; choose another number");
    check_refused(
        &["findings", path(&file), "--mend", "gap:two"],
        1,
        "does not end in the number of a remedy",
    );
    check_refused(&["findings", path(&file), "--least", "little"], 2, "little");
    check_refused(&["findings", "no.json"], 1, "no.json can't be opened");
}

/// By the demo's book, which is an example: 16 × 20 in at 30, a mat up to 50 in at 20, 94 in of oak at 10 the foot, glass by 44 in at
/// 0.50, mount and backing of 480 / 144 square feet at 2, and 10 for handling.
#[test]
fn prices_line_by_line_and_compared() {
    let book = root().join("demo-data/prices/example.json");
    let low_water = plan("low-water.json");
    let output = overmantel(&["prices", path(&low_water), "--book", path(&book), "--json", "--compare"]);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let found: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(found["example"], json!(true));
    let each = |part: &str| {
        let lines = found["price"]["lines"].as_array().cloned().unwrap_or_default();
        lines
            .iter()
            .find(|line| line["part"] == json!(part))
            .map(|line| (line["count"].clone(), line["each"].clone()))
    };
    for (part, price) in [
        ("paper", "30.00"),
        ("mat", "20.00"),
        ("frame", "78.33"),
        ("glass", "22.00"),
        ("mount board", "6.67"),
        ("backing", "6.67"),
        ("handling", "10.00"),
    ] {
        assert_eq!(each(part), Some((json!(3), json!(price))), "{part}");
    }
    // 3 × 173.67, and a tenth on top.
    assert_eq!((&found["price"]["subtotal"], &found["price"]["total"]), (&json!("521.01"), &json!("573.11")));
    let materials: Vec<&Value> =
        found["choices"].as_array().into_iter().flatten().map(|one| &one["material"]).collect();
    assert_eq!(materials, ["paper", "canvas", "aluminium"]);
    let words = text(&overmantel(&["prices", path(&low_water), "--book", path(&book)]).stdout);
    for part in [
        "These prices are an example; nobody sells at them.",
        "  3 × frame, 20 × 24\": USD 78.33 each, USD 234.99\n",
        "  subtotal USD 521.01\n",
        "  tax, 10 % USD 52.10\n",
        "  total USD 573.11\n",
        "  not chosen: varnish, finished by hand, signed, within the country, abroad, hung by us, returning buyer\n",
    ] {
        assert!(words.contains(part), "{part} in:\n{words}");
    }
    let folder = scratch("prices");
    let few = folder.join("few.json");
    let rows = r#"{ "overmantel_prices": 1, "name": "few", "currency": "EUR", "rows": [] }"#;
    fs::write(&few, rows).unwrap_or_else(|error| panic!("{error}"));
    let output = overmantel(&["prices", path(&low_water), "--book", path(&few)]);
    assert_eq!(output.status.code(), Some(3));
    let words = text(&output.stdout);
    assert!(
        words.contains(
            "no total: the price book has no price for paper, mat, frame, glass, mount board, backing"
        ),
        "{words}"
    );
    assert!(words.contains(r#"add a row such as { "for": "paper", "by": { "each": "AMOUNT" } }"#), "{words}");
    assert!(!words.contains("total EUR"), "{words}");
    let json = overmantel(&["prices", path(&low_water), "--book", path(&few), "--json"]);
    let found: Value = serde_json::from_slice(&json.stdout).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        (&found["price"]["total"], &found["price"]["missing"][0]["part"]),
        (&Value::Null, &json!("paper"))
    );
    // What is asked for: 3 × 36 in at 0.30, and 40 once, before the tax.
    let asked = ["prices", path(&low_water), "--book", path(&book), "--with", "varnish", "--with", "abroad"];
    let words = text(&overmantel(&asked).stdout);
    for part in
        ["3 × varnish, 16 × 20\": USD 10.80 each", "1 × shipping, once: USD 40.00", "subtotal USD 593.41"]
    {
        assert!(words.contains(part), "{part} in:\n{words}");
    }
    check_refused(
        &["prices", path(&low_water), "--book", path(&book), "--with", "vernish"],
        1,
        "has no row that is only for \"vernish\"",
    );
    // A name that the stock does not have is told, until the stock is one that has it.
    let named = folder.join("named.json");
    let row = r#"{ "for": "frame", "only": "harbour ash", "by": { "each": "9" } }"#;
    fs::write(&named, rows.replace("[]", &["[", row, "]"].concat()))
        .unwrap_or_else(|error| panic!("{error}"));
    let told = text(&overmantel(&["prices", path(&low_water), "--book", path(&named)]).stderr);
    assert!(told.contains("row 1: there is no frame \"harbour ash\", so this row never counts"), "{told}");
    let own = folder.join("stock.json");
    let stock = r#"{ "overmantel_stock": 1, "mouldings": { "add": [{ "name": "harbour ash", "face": "20 mm", "depth": "30 mm", "material": "oak", "wood": "ash" }] } }"#;
    fs::write(&own, stock).unwrap_or_else(|error| panic!("{error}"));
    let with_stock = ["prices", path(&low_water), "--book", path(&named), "--stock", path(&own)];
    assert_eq!(text(&overmantel(&with_stock).stderr), "");
    check_refused(
        &["prices", path(&low_water), "--book", path(&low_water)],
        1,
        "this is not an Overmantel price book",
    );
    check_refused(&["prices", path(&low_water)], 2, "--book");
}

/// What is suggested is a plan that the other commands take, and keeps to what is asked for.
#[test]
fn suggestions_as_text_as_data_and_as_a_plan() {
    let low_water = plan("low-water.json");
    let words = overmantel(&["suggest", path(&low_water)]);
    assert_eq!((words.status.code(), text(&words.stderr).as_str()), (Some(0), ""));
    let words = text(&words.stdout);
    for part in
        ["Low water, three over the sofa: 4 suggestions of ", "\n1. ", "\n4. ", "of the sofa's width; "]
    {
        assert!(words.contains(part), "{part} in:\n{words}");
    }
    let three = ["suggest", path(&low_water), "--count", "3", "--make", "canvas", "--lean", "sharpness=300"];
    let data = overmantel(&[&three[..], &["--json", "--most", "9"]].concat());
    let found: Value = serde_json::from_slice(&data.stdout).unwrap_or_else(|error| panic!("{error}"));
    let told = found["suggestions"].as_array().cloned().unwrap_or_default();
    assert_eq!(told.len(), 1, "one count and one make-up have one best");
    assert_eq!(told[0]["plan"]["pieces"].as_array().map(Vec::len), Some(3));
    let taken = overmantel(&[&three[..], &["--take", "1"]].concat());
    let file = scratch("suggest").join("taken.json");
    fs::write(&file, &taken.stdout).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(serde_json::from_slice::<Value>(&taken.stdout).ok(), Some(told[0]["plan"].clone()));
    assert_eq!(overmantel(&["figures", path(&file)]).status.code(), Some(0));
    let book = root().join("demo-data/prices/example.json");
    let priced = ["suggest", path(&low_water), "--book", path(&book), "--budget"];
    assert_eq!(overmantel(&[&priced[..], &["9.99"]].concat()).status.code(), Some(3));
    check_refused(
        &[&priced[..], &["1,000"]].concat(),
        1,
        "\"1,000\" is not an amount; write one such as 400 or 399.50",
    );
    check_refused(
        &["suggest", path(&low_water), "--lean", "taste=9"],
        1,
        "\"taste=9\" is not a value for --lean; write price",
    );
    check_refused(
        &[&three[..], &["--take", "2"]].concat(),
        1,
        "there is no suggestion 2; choose one from 1 to 1",
    );
    check_refused(&["suggest", path(&low_water), "--budget", "9"], 2, "--book");
}

#[test]
fn schemas_are_those_that_are_committed() {
    for form in [
        "plan",
        "figures",
        "findings",
        "prices",
        "suggestions",
        "stock",
        "price-book",
        "proposal",
        "sent",
        "room",
        "works",
        "works-survey",
    ] {
        let file = format!("{form}.schema.json");
        let output = overmantel(&["schema", form]);
        let committed = fs::read(root().join("crate/schema").join(file));
        assert!(committed.is_ok_and(|committed| committed == output.stdout), "{form}");
    }
}

/// The worked example of a framed print: 20 × 30 in on paper of 310 g/m², an opening 1/8 in within it, on a board of 24 × 36; a
/// moulding of pine with a face of 1 1/4 in, 3/4 deep, a lip of 1/4 in, 1/8 in of play and a rabbet of 1/2 in; 2 mm of glass and
/// foam board. By TRADE's densities (common practice and from memory): moulding 0.8263 kg, glass 2.787, mat 0.1605 (its opening
/// 19.75 × 29.75), print 0.1200, foam board 0.3066, all of it 4.200 kg. Mat: (24 - 19.75) / 2 = 2 1/8; (36 - 29.75) / 2 = 3 1/8.
#[test]
fn what_it_takes_to_make_a_piece() {
    let folder = scratch("what_it_takes");
    let file = folder.join("framed.json");
    let plan = json!({
        "overmantel": 1, "title": "Slack tide", "wall": { "size": ["12 ft", "8 ft"] },
        "group": { "arrangement": "row", "gap": "0", "across": "wall_middle", "up": "eye_level" },
        "pieces": [{ "image": ["20 in", "30 in"], "made": { "paper": {
            "grammage": 310, "mount": "none", "backing": { "foam_board": "3/16 in" }, "glazing": { "glass": "2 mm" },
            "mat": { "opening": { "overlap": "1/8 in" }, "extent": { "board": ["24 in", "36 in"] }, "thickness": "1/16 in" },
            "frame": { "face": "1 1/4 in", "depth": "3/4 in", "rabbet_width": "1/4 in", "allowance": "1/8 in",
                       "rabbet_depth": "1/2 in", "material": "pine" } } } }]
    });
    fs::write(&file, plan.to_string()).unwrap_or_else(|error| panic!("{error}"));
    let output = overmantel(&["figures", path(&file), "--fits", "2"]);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let found: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}"));
    let thing = &found["things"][0];
    let likely = |name: &str| -> Vec<&str> {
        let parts = thing["parts"].as_array().map_or(&[][..], Vec::as_slice);
        let named = parts.iter().filter(|part| part["name"] == json!(name));
        named.filter_map(|part| part["weight"]["likely"].as_str()).collect()
    };
    assert_eq!(likely("glazing"), ["2.787 kg"]);
    assert_eq!(likely("mat"), ["0.161 kg"]);
    assert_eq!(likely("print"), ["0.120 kg"]);
    let rows = overmantel(&["rows", path(&file), "--of", "cuts", "--json"]);
    let rows: Value = serde_json::from_slice(&rows.stdout).unwrap_or_else(|error| panic!("{error}"));
    let rows = rows["rows"].as_array().cloned().unwrap_or_default();
    let mat = rows.iter().find(|row| row["part"] == json!("mat")).unwrap_or(&Value::Null);
    assert_eq!(mat["weight_g"], json!(161), "0.9 kg/m² on 0.17834642 m² are 160.5 g");
    assert_eq!(likely("backing"), ["0.307 kg"]);
    // 0.8263 kg; across, as mitred: 2 ((26 1/8 - 1 1/4) × 1 1/4 × 3/4 - 23 7/8 × 1/4 × 1/2) = 40.672 in³ of pine, 0.333 kg.
    assert_eq!(likely("leg"), ["0.333 kg", "0.493 kg"]);
    assert_eq!(thing["weight"]["likely"], json!("4.200 kg"));
    assert_eq!(thing["weight"]["pounds"], json!("9.26 lb"));
    let cut = &thing["mat_cuts"][0];
    assert_eq!(cut["from_the_back"]["left"]["exact"], json!("2 1/8 in"));
    assert_eq!(cut["from_the_back"]["top"]["exact"], json!("3 1/8 in"));
    assert_eq!(cut["sums"]["height"]["exact"], json!("36 in"));
    // Diagonals: √(24² + 36²) = 43.266615 in.
    assert_eq!(cut["board_diagonal"]["inches"], json!(43.266_615));
    // Moulding: 2 (26 1/8 + 38 1/8) = 128 1/2; by the rule 2 (24 + 36) + 8 × 1 1/4 = 130; with three kerfs of 1/8 in 128 7/8.
    let rails = &thing["rails"];
    assert_eq!(rails["moulding_exact"]["exact"], json!("128 1/2 in"));
    assert_eq!(rails["moulding_by_rule"]["exact"], json!("130 in"));
    assert_eq!(rails["moulding_with_kerfs"]["exact"], json!("128 7/8 in"));
    // Stack: 2 mm + 1/16 + 3/16 in = 8.35 mm of 12.7.
    assert_eq!(found["pieces"][0]["stack_thickness"]["mm"], json!(8.35));
    assert_eq!(found["pieces"][0]["frame"]["spare_depth"]["mm"], json!(4.35));
    // Three to two, as many standard sizes are: two each of whole, matted, bordered and cropped.
    assert_eq!(found["fits"][0]["best"].as_array().map(Vec::len), Some(8));
}

/// A stock of one's own changes what is bought; what is wrong with it is said with the list and the row.
#[test]
fn a_stock_of_ones_own() {
    let folder = scratch("a_stock");
    let (own, wrong) = (folder.join("own.json"), folder.join("wrong.json"));
    let write = |file: &Path, text: &str| fs::write(file, text).unwrap_or_else(|error| panic!("{error}"));
    write(
        &own,
        r#"{ "overmantel_stock": 1, "sticks": { "replace": [
            { "name": "from the yard", "length": "60 in", "kerf": "1/8 in", "trim": "0" } ] } }"#,
    );
    write(
        &wrong,
        r#"{ "overmantel_stock": 1, "sticks": { "add": [{ "name": "bent", "length": "-1 in", "kerf": "0", "trim": "0" }] } }"#,
    );
    let low_water = plan("low-water.json");
    let output = overmantel(&["figures", path(&low_water), "--stock", path(&own)]);
    let found: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}"));
    // Twelve rails of 21 1/8 and 25 1/8 in, two to a stick of 60 in.
    assert_eq!(found["moulding"][0]["stick"], json!("from the yard"));
    assert_eq!(found["moulding"][0]["sticks"].as_array().map(Vec::len), Some(6));
    assert_eq!(found["moulding"].as_array().map(Vec::len), Some(1), "all three frames are of one moulding");
    check_refused(&["figures", path(&low_water), "--stock", path(&wrong)], 1, "bent");
    check_refused(&["figures", path(&low_water), "--stock", "nowhere.json"], 1, "can't be opened");
}

#[test]
fn a_section_is_a_picture_of_one_piece() {
    let folder = scratch("a_section");
    let out = folder.join("section.png");
    let low_water = plan("low-water.json");
    let arguments = ["section", path(&low_water), "--piece", "3", "--out", path(&out), "--width", "800"];
    let output = overmantel(&arguments);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let png = fs::read(&out).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(number(chunk(&png, "IHDR")), 800);
    let pair = plan("harbour-pair.json");
    check_refused(
        &["section", path(&pair), "--piece", "3", "--out", path(&out), "--force"],
        1,
        "there is no piece 3",
    );
    check_refused(
        &["section", path(&pair), "--piece", "0", "--out", path(&out)],
        2,
        "write a whole number from 1 to 3",
    );
}

#[test]
fn svg_and_rows() {
    let folder = scratch("svg");
    let (plan, out) = (plan("low-water.json"), folder.join("hanging.svg"));
    let output = overmantel(&["svg", path(&plan), "--of", "hanging", "--out", path(&out)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(
        fs::read_to_string(&out).is_ok_and(|file| file.starts_with("<svg ") && file.ends_with("</svg>\n"))
    );
    let missing =
        ["svg", path(&plan), "--of", "section", "--piece", "3", "--clear", "--force", "--out", path(&out)];
    assert_eq!(overmantel(&missing).status.code(), Some(0));
    assert!(fs::read_to_string(&out).is_ok_and(|file| !file.contains("fill=\"#fff\"/>")), "on nothing");
    let rows = overmantel(&["rows", path(&plan), "--of", "cuts"]);
    assert!(text(&rows.stdout).starts_with("pieces,part,number,material,width_mm,"));
    let columns = overmantel(&["rows", path(&plan), "--of", "order", "--columns"]);
    assert!(text(&columns.stdout).contains("crop_left_px: pixels left of what is printed\n"));
}
