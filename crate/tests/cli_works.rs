//! The command line's survey of works: a list, a folder of pictures, both; what is asked, and what is written back.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use command::{check_refused, overmantel, path, plan, root, scratch, text};
use input::with_input;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

mod command;
#[path = "command/input.rs"]
mod input;

fn demo() -> PathBuf {
    root().join("demo-data/works/works.csv")
}

fn write(path: &Path, bytes: &[u8]) {
    fs::write(path, bytes).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
}

/// What it prints, with the code it ends with.
fn told(arguments: &[&str]) -> (Option<i32>, String) {
    let output = overmantel(&[&["works"], arguments].concat());
    (output.status.code(), text(&output.stdout))
}

/// By the demo's own rows: of those made in 2020 or later, available and of shape 2:3 or 3:2, W-050 and W-057 have 5504 × 8256 pixels and
/// print at 24 × 36 in whole: 5504 / 24 is 229 1/3. W-060 has 4:3: of 36 × 24 in it shows 8 of 9 parts.
#[test]
fn works_that_print_at_a_size() {
    let list = demo();
    let asked = ["--since", "2020", "--size", "24x36in", "--on", "canvas", "--ppi", "150", "--available"];
    let (code, found) = told(&[&[path(&list)], &asked[..], &["--way", "whole"]].concat());
    assert_eq!(code, Some(0));
    assert!(found.starts_with(
        "2 of 62 works can be printed at 24 × 36\" on canvas at 150 ppi or better whole; made in 2020 or later; the original is available\n"
    ), "{found}");
    assert!(found.contains("W-050 Ebb, again, 2022, available; 5504 × 8256 px\n"), "{found}");
    assert!(found.contains("  24 × 36 in whole: 229 ppi, sharp from 15\"\n"), "{found}");
    let (_, any) = told(&[&[path(&list)], &asked[..]].concat());
    assert!(any.contains("24 × 36 in cropped, losing 11.1 % (1/9): 323 ppi"), "{any}");
    // The same from standard input, and as data.
    let bytes = fs::read(&list).unwrap_or_else(|error| panic!("{error}"));
    let arguments = [&["works", "-"], &asked[..], &["--way", "whole", "--json"]].concat();
    let output = with_input(&arguments, &bytes);
    let json: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!((json["version"].as_u64(), json["works"].as_u64()), (Some(1), Some(62)));
    let names: Vec<&str> = json["suited"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|one| one["identifier"].as_str())
        .collect();
    assert_eq!(names, ["W-050", "W-057"]);
    assert_eq!(json["suited"][0]["prints"][0]["lost_exact"], "0");
    assert_eq!(json["problems"].as_array().map(Vec::len), Some(7));
    // As rows: a line of names, and one for each.
    let (_, csv) = told(&[&[path(&list)], &asked[..], &["--way", "whole", "--csv"]].concat());
    let lines: Vec<&str> = csv.lines().collect();
    assert_eq!(lines.len(), 3, "{csv}");
    assert!(
        lines[0].starts_with("row,identifier,title,dateCreated,")
            && lines[1].starts_with("51,W-050,\"Ebb, again\",2022,"),
        "{csv}"
    );
}

#[test]
fn what_is_wrong_in_the_list_is_told_and_the_rest_stands() {
    let output = overmantel(&["works", path(&demo()), "--shape", "panorama", "--quiet"]);
    let said = text(&output.stderr);
    assert_eq!((output.status.code(), said.lines().count()), (Some(0), 7), "{said}");
    assert!(
        said.contains("overmantel: row 18, dateCreated: \"c. 2013\" is not a date; write a year"),
        "{said}"
    );
    assert!(text(&output.stdout).starts_with("3 of 62 works"), "{}", text(&output.stdout));
    let (code, found) = told(&[path(&demo()), "--since", "2200"]);
    assert_eq!(code, Some(3));
    assert!(
        found.starts_with("None of 62 works")
            && found.contains("Left out: 60 made in other years, 2 without a date"),
        "{found}"
    );
}

#[test]
fn what_is_asked_wrongly_is_refused() {
    let list = demo();
    let list = path(&list);
    let folder = scratch("works-refused");
    for (arguments, code, words) in [
        (vec!["works", list, "--size", "large"], 1, "\"large\""),
        (vec!["works", list, "--smaller-side", "wide"], 1, "--smaller-side"),
        (vec!["works", list, "--since", "now"], 2, "write a whole number"),
        (vec!["works", list, "--on", "silk"], 2, "silk"),
        (vec!["works", list, "--json", "--csv"], 2, "cannot be used with"),
        (vec!["works", list, "--write", list], 1, "is the input and is never overwritten"),
        (vec!["works", list, "--write", "new.json"], 1, "so use a name that ends in .csv"),
        (vec!["works", path(&folder.join("nothing.csv"))], 1, "can't be opened"),
        (vec!["works", list, "--pictures", path(&folder.join("nowhere"))], 1, "can't be read"),
    ] {
        if words.contains("never overwritten") {
            // It is looked at before there is anything to print.
            check_refused(&[&arguments[..], &["--force"]].concat(), code, words);
        } else {
            check_refused(&arguments, code, words);
        }
    }
    let bad = folder.join("bad.csv");
    write(&bad, b"shelf,colour\n1,blue\n");
    check_refused(&["works", path(&bad)], 1, "none of its names is that of a column");
    check_refused(&["works", path(&plan("low-water.json"))], 1, "JSON in another form");
    write(&bad, b"title\n\xff\xfe\n");
    check_refused(&["works", path(&bad)], 1, "not UTF-8");
}

/// The pictures are those that another program wrote headers into (`tests/headers/README.md`), all of 8 × 6 pixels.
#[test]
fn a_folder_becomes_a_list() {
    let folder = scratch("works-folder");
    for file in ["all.jpg", "exif.jpg", "turned.jpg", "work.tif", "work.webp"] {
        let copied = fs::copy(root().join("tests/headers").join(file), folder.join(file));
        copied.unwrap_or_else(|error| panic!("{file}: {error}"));
    }
    write(&folder.join("broken.jpg"), b"not a picture");
    write(&folder.join("notes.txt"), b"not for us");
    let out = folder.join("list.csv");
    let output = overmantel(&["works", path(&folder), "--write", path(&out), "--ppi", "1"]);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{said}");
    assert!(said.contains("\"broken.jpg\" is no picture that can be read"), "{said}");
    assert!(said.contains("5 pictures of the folder were not in the list and were added"), "{said}");
    let written = fs::read_to_string(&out).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        written,
        "title,creator,dateCreated,file,widthPx,heightPx,identifier\r\n\
         The work,Its painter,1998,all.jpg,8,6,W-017\r\n\
         Low water,Inge Priel,,exif.jpg,8,6,\r\n\
         turned,,,turned.jpg,6,8,\r\n\
         Groyne,Inge Priel,,work.tif,8,6,\r\n\
         Beacon,Inge Priel,,work.webp,8,6,\r\n"
    );
    // The list is the input from now on, and never written over.
    let again = folder.join("works.csv");
    fs::rename(&out, &again).unwrap_or_else(|error| panic!("{error}"));
    check_refused(&["works", path(&folder), "--write", path(&again), "--force"], 1, "is the input");
    let (code, _) = told(&[path(&folder), "--ppi", "1"]);
    assert_eq!(code, Some(0));
}

#[test]
fn list_and_files_are_compared_and_the_gaps_filled() {
    let folder = scratch("works-matched");
    for file in ["all.jpg", "xmp.jpg", "exif.jpg"] {
        let copied = fs::copy(root().join("tests/headers").join(file), folder.join(file));
        copied.unwrap_or_else(|error| panic!("{file}: {error}"));
    }
    let list = folder.join("ours.csv");
    let before = "\u{feff}file;title;rack;dateCreated;widthPx;heightPx\r\n\
                  All.JPG;Another title;\"3; left\";1999;80;60\r\n\
                  old/xmp.jpg;;4;;;\r\n\
                  exif.jpg;Low  WATER;;2023;8;6\r\n\
                  gone.jpg;Gone;5;2020;8;6\r\n";
    write(&list, before.as_bytes());
    let out = folder.join("new.csv");
    let arguments = ["works", path(&list), "--pictures", path(&folder), "--write", path(&out), "--ppi", "1"];
    let output = overmantel(&arguments);
    let said = text(&output.stderr);
    for words in [
        "row 2, widthPx and heightPx: the list has 80 × 60 pixels and \"all.jpg\" has 8 × 6; the file counts",
        "row 2, title: the list has \"Another title\" and the header of \"all.jpg\" has \"The work\"; the list counts",
        "row 2, dateCreated: the list has \"1999\" and the header of \"all.jpg\" has \"1998\"",
        "row 4, dateCreated: the list has 2023, and the file says it was photographed on 2022-03-04 already",
        "row 5: the file \"gone.jpg\" is not in the folder",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    assert_eq!(said.lines().count(), 5, "{said}");
    let written = fs::read_to_string(&out).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        written,
        "\u{feff}file;title;rack;dateCreated;widthPx;heightPx;identifier;creator\r\n\
         All.JPG;Another title;\"3; left\";1999;8;6;W-017;Its painter\r\n\
         old/xmp.jpg;Ebbe in der Dämmerung;4;2021-05-14;8;6;;Inge Priel\r\n\
         exif.jpg;Low  WATER;;2023;8;6;;Inge Priel\r\n\
         gone.jpg;Gone;5;2020;8;6\r\n"
    );
    check_refused(&arguments, 1, "already exists");
}

/// Whatever a list says reaches a terminal as letters only (Unicode Standard Annex 9, for those that turn text round).
#[test]
fn what_a_list_says_is_no_order() {
    let folder = scratch("works-harmful");
    let list = folder.join("works.csv");
    write(
        &list,
        "title,dateCreated,widthPx,heightPx\nEbb\u{1b}[31m\u{202e}tide,\u{1b}[2J\u{9b},6000,4000\n"
            .as_bytes(),
    );
    for arguments in [vec![], vec!["--csv"], vec!["--json"]] {
        let output = overmantel(&[&["works", path(&list)], &arguments[..]].concat());
        assert_eq!(output.status.code(), Some(0));
        for said in [text(&output.stdout), text(&output.stderr)] {
            assert!(said.contains("tide") || said.contains("dateCreated"), "{said}");
            assert!(
                !said.chars().any(|letter| matches!(letter, '\u{1b}' | '\u{9b}' | '\u{202e}')),
                "{said:?}"
            );
        }
    }
}

/// The demo's five pictures, by their own headers and colours, for a plan of two prints: 4:5 suits its pieces of 16 × 20 in, a panorama does not.
#[test]
fn the_same_wall_with_other_works() {
    let folder = scratch("works-for-a-plan");
    let list = folder.join("list.csv");
    let pictures = root().join("demo-data/pictures");
    let output = overmantel(&["works", path(&pictures), "--palettes", "--write", path(&list), "--ppi", "20"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(text(&output.stderr).contains("the palettes of 5 works were found"), "{}", text(&output.stderr));
    let written = fs::read_to_string(&list).unwrap_or_else(|error| panic!("{error}"));
    let jpegs: Vec<&str> = written.lines().filter(|line| line.contains(".jpg")).collect();
    assert!(jpegs.len() == 5 && jpegs.iter().all(|line| line.matches('#').count() >= 3), "{written}");
    let pair = plan("harbour-pair.json");
    let (code, found) = told(&[path(&list), "--for", path(&pair)]);
    assert_eq!(code, Some(0));
    let first = found.lines().find(|line| line.starts_with("1. ")).unwrap_or_default();
    assert!(found.contains("for its 2 pieces") && !first.contains("low water evening"), "{found}");
    // The plan with them is a plan of the same sizes.
    let output = overmantel(&["works", path(&list), "--for", path(&pair), "--take", "1"]);
    let made = folder.join("made.json");
    write(&made, &output.stdout);
    let images = |plan: &Path| {
        let output = overmantel(&["figures", path(plan)]);
        let json: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|why| panic!("{why}"));
        let pieces = json["pieces"].as_array().cloned().unwrap_or_default();
        pieces.iter().map(|piece| piece["image"].to_string()).collect::<Vec<_>>()
    };
    assert_eq!(images(&made), images(&pair));
    check_refused(&["works", path(&list), "--for", path(&pair), "--take", "99"], 1, "choose one from 1 to");
    check_refused(&["works", path(&list), "--take", "1"], 2, "--for");
    check_refused(
        &["works", path(&list), "--for", path(&plan("low-water.json"))],
        1,
        "show one picture together",
    );
}
