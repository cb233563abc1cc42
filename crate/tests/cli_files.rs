//! Files that commands read and write: whole or not at all, over nothing that is not meant, and nothing of theirs harms a terminal.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use command::{check_refused, overmantel, path, plan, root, scratch, text};
use input::with_input;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

mod command;
#[path = "command/input.rs"]
mod input;

/// Every command that writes a file, without `--out`, and an ending that it writes.
fn writers(folder: &Path) -> Vec<(Vec<String>, &'static str)> {
    let page = folder.join("page.html");
    let html =
        "<title>Overmantel</title><script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>";
    fs::write(&page, html).expect("a page");
    let (file, page) = (path(&plan("harbour-pair.json")).to_owned(), path(&page).to_owned());
    let paintings = folder.join("paintings");
    fs::create_dir_all(&paintings).expect("a folder");
    let boats = root().join("demo-data/pictures/three-boats.jpg");
    fs::copy(boats, paintings.join("boats.jpg")).expect("a picture");
    let of = |words: &[&str], ending| (words.iter().map(|word| (*word).to_owned()).collect(), ending);
    vec![
        of(&["plan"], "json"),
        of(&["stock"], "json"),
        of(&["draw", &file, "--width", "200"], "png"),
        of(&["draw", &file, "--width", "200", "--alone"], "png"),
        of(&["section", &file], "png"),
        of(&["svg", &file], "svg"),
        of(&["proposal", &file, "--page", &page], "html"),
        of(&["studio", path(&paintings), "--page", &page], "html"),
    ]
}

fn run(arguments: &[String], further: &[&str]) -> Output {
    let all: Vec<&str> = arguments.iter().map(String::as_str).chain(further.iter().copied()).collect();
    overmantel(&all)
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder")
        .flatten()
        .map(|file| file.file_name().to_string_lossy().into())
        .collect();
    names.sort();
    names
}

#[test]
fn nothing_is_written_over_unless_it_is_asked_for() {
    let folder = scratch("files-over");
    let out = folder.join("out");
    fs::create_dir_all(&out).expect("a folder");
    for (arguments, ending) in writers(&folder) {
        let file = out.join(format!("kept.{ending}"));
        fs::write(&file, "dear painter").expect("a file");
        let refused = run(&arguments, &["--out", path(&file)]);
        let said = text(&refused.stderr);
        assert_eq!(refused.status.code(), Some(1), "{arguments:?}: {said}");
        assert!(
            said.contains("already exists and was left as it is; give another name, or use --force"),
            "{said}"
        );
        assert_eq!(fs::read_to_string(&file).ok().as_deref(), Some("dear painter"));
        let written = run(&arguments, &["--out", path(&file), "--force"]);
        assert_eq!(written.status.code(), Some(0), "{arguments:?}: {}", text(&written.stderr));
        assert_ne!(fs::read(&file).expect("a file"), b"dear painter");
        assert_eq!(names(&out), [format!("kept.{ending}")], "nothing beside it");
        fs::remove_file(&file).expect("a file");
    }
    let file = plan("low-water.json");
    let papers = ["papers", path(&file), "--sheet", "order", "--out", path(&out)];
    assert_eq!(overmantel(&papers).status.code(), Some(0));
    check_refused(&papers, 1, "low-water-order.pdf already exists and was left as it is");
    assert_eq!(overmantel(&[&papers[..], &["--force"]].concat()).status.code(), Some(0));
}

/// What is read is never written over, whatever is asked for: also by another way to the same file.
#[test]
fn what_was_read_is_never_written_over() {
    let folder = scratch("files-own");
    let (file, stock) = (folder.join("plan.json"), folder.join("stock.json"));
    fs::copy(plan("harbour-pair.json"), &file).expect("a plan");
    let before = fs::read(&file).expect("a plan");
    assert_eq!(overmantel(&["stock", "--out", path(&stock)]).status.code(), Some(0));
    let other_way = folder.join("../files-own/stock.json");
    for out in [&stock, &other_way] {
        let arguments = ["stock", "--stock", path(&stock), "--out", path(out), "--force"];
        check_refused(&arguments, 1, "is the input and is never overwritten; give another name");
    }
    let page = folder.join("page.html");
    let html = "<title>O</title><script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>";
    fs::write(&page, html).expect("a page");
    let arguments = ["proposal", path(&file), "--page", path(&page), "--out", path(&page), "--force"];
    check_refused(&arguments, 1, "is the input");
    assert_eq!(fs::read_to_string(&page).ok().as_deref(), Some(html));
    // A picture, by a print-ready one of its name.
    let boats = root().join("demo-data/pictures/three-boats.jpg");
    fs::copy(boats, folder.join("plan-1.jpg")).expect("a picture");
    let text_of = String::from_utf8(before).expect("a text").replace("harbour-morning.jpg", "plan-1.jpg");
    fs::write(&file, text_of).expect("a plan");
    let arguments = ["print-file", path(&file), "--piece", "1", "--smaller", "--format", "jpeg", "--force"];
    let picture = fs::read(folder.join("plan-1.jpg")).expect("a picture");
    let output = overmantel(&[&arguments[..], &["--out", path(&folder)]].concat());
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("plan-1.jpg is the input"), "{}", text(&output.stderr));
    assert_eq!(fs::read(folder.join("plan-1.jpg")).expect("a picture"), picture);
}

#[cfg(unix)]
#[test]
fn nothing_is_written_through_a_link_or_into_a_device() {
    let folder = scratch("files-link");
    let out = folder.join("out");
    fs::create_dir_all(&out).expect("a folder");
    for (arguments, ending) in writers(&folder) {
        let (elsewhere, link) = (folder.join("elsewhere"), out.join(format!("link.{ending}")));
        fs::write(&elsewhere, "dear painter").expect("a file");
        std::os::unix::fs::symlink(&elsewhere, &link).expect("a link");
        let nowhere = out.join(format!("nowhere.{ending}"));
        std::os::unix::fs::symlink(folder.join("nothing"), &nowhere).expect("a link");
        for link in [&link, &nowhere] {
            let refused = run(&arguments, &["--out", path(link), "--force"]);
            let said = text(&refused.stderr);
            assert_eq!(refused.status.code(), Some(1), "{arguments:?}: {said}");
            assert!(
                said.contains("is a symbolic link, and the program does not write through links"),
                "{said}"
            );
            fs::remove_file(link).expect("still a link");
        }
        assert_eq!(fs::read_to_string(&elsewhere).ok().as_deref(), Some("dear painter"));
        assert!(!folder.join("nothing").exists());
        let inside = out.join(format!("folder.{ending}"));
        fs::create_dir_all(&inside).expect("a folder");
        let refused = run(&arguments, &["--out", path(&inside), "--force"]);
        assert!(
            text(&refused.stderr).contains("is a folder or a device, not a file"),
            "{}",
            text(&refused.stderr)
        );
        fs::remove_dir(&inside).expect("still a folder");
        assert_eq!(names(&out), Vec::<String>::new());
    }
    let file = plan("low-water.json");
    let papers = ["papers", path(&file), "--sheet", "order", "--force", "--out", path(&out)];
    std::os::unix::fs::symlink(folder.join("elsewhere"), out.join("low-water-order.pdf")).expect("a link");
    check_refused(&papers, 1, "low-water-order.pdf is a symbolic link");
}

/// No file may grow beyond 8 KB, as on a disk that is full: what can't be written whole is not there at all, and what was there before stays.
#[cfg(unix)]
#[test]
fn a_full_disk_leaves_nothing() {
    let folder = scratch("files-full");
    let out = folder.join("out");
    fs::create_dir_all(&out).expect("a folder");
    let pictures = root().join("demo-data/pictures");
    let mut all: Vec<(Vec<String>, PathBuf)> = writers(&folder)
        .into_iter()
        .map(|(mut arguments, ending)| {
            let file = out.join(format!("wall.{ending}"));
            if arguments[0] == "plan" {
                // A first plan is shorter than that.
                arguments = ["stock"].map(str::to_owned).to_vec();
            }
            if ["draw", "svg", "proposal"].contains(&arguments[0].as_str()) {
                arguments.extend(["--pictures", path(&pictures)].map(str::to_owned));
            }
            if arguments[0] == "proposal" {
                arguments.push("--smaller".to_owned());
            }
            arguments.extend(["--out".to_owned(), path(&file).to_owned()]);
            (arguments, file)
        })
        .collect();
    let file = plan("harbour-pair.json");
    for words in [
        &["papers", "--sheet", "proposal"][..],
        &["print-file", "--piece", "1"],
        &["print-file", "--piece", "1", "--format", "tiff"],
        &["print-file", "--piece", "1", "--format", "jpeg"],
    ] {
        let fixed = [path(&file), "--smaller", "--pictures", path(&pictures), "--out", path(&out)];
        let to = match words {
            ["papers", ..] => "harbour-pair-proposal.pdf",
            [.., "tiff"] => "harbour-pair-1.tif",
            [.., "jpeg"] => "harbour-pair-1.jpg",
            _ => "harbour-pair-1.png",
        };
        all.push((words.iter().chain(&fixed).map(|word| (*word).to_owned()).collect(), out.join(to)));
    }
    for (arguments, file) in all {
        // The signal that a file is too long would end the program; a full disk sends none.
        let script = "trap '' XFSZ; ulimit -f 16 && exec \"$0\" \"$@\"";
        let run = |further: &[&str]| {
            let program = ["-c", script, env!("CARGO_BIN_EXE_overmantel")];
            Command::new("sh").args(program).args(&arguments).args(further).output().expect("a shell")
        };
        let output = run(&[]);
        let said = text(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{arguments:?}: {said}");
        assert!(said.contains(" can't be written: "), "{arguments:?}: {said}");
        assert_eq!(names(&out), Vec::<String>::new(), "{arguments:?}");
        fs::write(&file, "dear painter").expect("a file");
        assert_eq!(run(&["--force"]).status.code(), Some(1), "{arguments:?}");
        assert_eq!(fs::read_to_string(&file).ok().as_deref(), Some("dear painter"), "{arguments:?}");
        fs::remove_file(&file).expect("a file");
        assert_eq!(names(&out), Vec::<String>::new(), "{arguments:?}");
    }
}

/// A file that is written over keeps who may read it; a new one is as any new file is.
#[cfg(unix)]
#[test]
fn who_may_read_a_file_stays_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    let folder = scratch("files-mode");
    let file = folder.join("stock.json");
    let mode = || fs::metadata(&file).expect("a file").permissions().mode() & 0o777;
    let any = folder.join("any");
    fs::write(&any, "").expect("a file");
    assert_eq!(overmantel(&["stock", "--out", path(&file)]).status.code(), Some(0));
    assert_eq!(mode(), fs::metadata(&any).expect("a file").permissions().mode() & 0o777);
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).expect("a mode");
    assert_eq!(overmantel(&["stock", "--out", path(&file), "--force"]).status.code(), Some(0));
    assert_eq!(mode(), 0o640);
}

#[test]
fn names_end_in_what_is_written() {
    let folder = scratch("files-ending");
    for (arguments, ending) in writers(&folder) {
        for wrong in ["wall.jpg", "wall", "wall.png.txt"] {
            let out = folder.join(wrong);
            let refused = run(&arguments, &["--out", path(&out)]);
            let said = text(&refused.stderr);
            assert_eq!(refused.status.code(), Some(1), "{arguments:?}: {said}");
            assert!(said.contains(&format!("so use a name that ends in .{ending}")), "{arguments:?}: {said}");
            assert!(!out.exists());
        }
        let out = folder.join(format!("wall.{}", ending.to_uppercase()));
        assert_eq!(
            run(&arguments, &["--out", path(&out), "--force"]).status.code(),
            Some(0),
            "{arguments:?}"
        );
    }
}

#[test]
fn a_dash_is_standard_input_and_output() {
    let folder = scratch("files-dash");
    for (arguments, ending) in writers(&folder) {
        let file = folder.join(format!("wall.{ending}"));
        assert_eq!(run(&arguments, &["--out", path(&file), "--force"]).status.code(), Some(0));
        let printed = run(&arguments, &["--out", "-"]);
        assert_eq!(printed.status.code(), Some(0), "{arguments:?}: {}", text(&printed.stderr));
        assert_eq!(printed.stdout, fs::read(&file).expect("a file"), "{arguments:?}");
    }
    let file = plan("low-water.json");
    let input = fs::read(&file).expect("a plan");
    for words in [
        &["figures"][..],
        &["findings"],
        &["suggest", "--most", "1"],
        &["link", "--sketches", "none"],
        &["rows", "--of", "cuts"],
        &["draw", "--out", "-"],
        &["svg", "--out", "-"],
    ] {
        let of = |given: &str| {
            [&words[..1], &[given], &words[1..]]
                .concat()
                .iter()
                .map(|word| (*word).to_owned())
                .collect::<Vec<_>>()
        };
        let (dash, named) = (of("-"), of(path(&file)));
        let dash: Vec<&str> = dash.iter().map(String::as_str).collect();
        assert_eq!(with_input(&dash, &input).stdout, run(&named, &[]).stdout, "{words:?}");
    }
    let output = with_input(&["papers", "-", "--sheet", "order", "--out", path(&folder)], &input);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(folder.join("plan-order.pdf").exists());
    let output = with_input(&["figures", "-"], b"dear painter");
    assert!(
        text(&output.stderr).starts_with("overmantel: standard input: this is not an Overmantel plan file")
    );
    for words in [["papers", "order"], ["print-file", "png"]] {
        let output = overmantel(&[words[0], path(&file), "--out", "-"]);
        assert_eq!(output.status.code(), Some(1));
    }
    check_refused(&["papers", path(&file), "--out", "-"], 1, "several files can't go to standard output");
    assert!(!root().join("crate/-").exists(), "and no folder is called so");
}

#[test]
fn plans_of_one_name_are_refused_before_anything_is_written() {
    let folder = scratch("files-names");
    let out = folder.join("out");
    let copies = ["a/plan.json", "b/Plan.json"].map(|name| {
        let file = folder.join(name);
        fs::create_dir_all(file.parent().expect("a folder")).expect("a folder");
        fs::copy(plan("low-water.json"), &file).expect("a plan");
        file
    });
    let arguments = ["papers", path(&copies[0]), path(&copies[1]), "--out", path(&out), "--force"];
    check_refused(
        &arguments,
        1,
        "are both called Plan, so what is made of them would have the same names; rename one",
    );
    assert!(!out.exists(), "nothing was written");
}

#[test]
fn papers_of_several_plans_with_progress() {
    let folder = scratch("papers");
    let out = folder.join("made");
    let (one, two) = (plan("low-water.json"), plan("harbour-pair.json"));
    let pictures = root().join("demo-data/pictures");
    let fixed = ["--date", "2026-11-26", "--smaller", "--pictures", path(&pictures)];
    let sheets = ["--sheet", "hanging,order"];
    let output = overmantel(
        &[&["papers", path(&one), path(&two), "--out", path(&out)], &sheets[..], &fixed[..]].concat(),
    );
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{told}");
    let (smaller, mut written): (Vec<&str>, Vec<&str>) =
        told.lines().partition(|line| line.contains(" a smaller copy; "));
    assert_eq!(written.pop(), Some("overmantel: 4 papers of 2 plans written"));
    assert_eq!((smaller.len(), written.len()), (3, 4), "{told}");
    assert!(
        written.iter().all(|line| line.starts_with("1 of 2: ") || line.starts_with("2 of 2: ")),
        "{told}"
    );
    for name in ["low-water-hanging", "low-water-order", "harbour-pair-hanging", "harbour-pair-order"] {
        let file =
            fs::read(out.join(format!("{name}.pdf"))).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert!(file.starts_with(b"%PDF-1.7"), "{name}");
    }
    // In inches on letter, in centimetres on A4, where nothing else is said: 612 × 792 and 595.2756 × 841.8898 points.
    let boxes =
        |name: &str| String::from_utf8_lossy(&fs::read(out.join(name)).unwrap_or_default()).into_owned();
    assert!(boxes("low-water-hanging.pdf").contains("/MediaBox[0 0 612 792]"));
    assert!(boxes("harbour-pair-hanging.pdf").contains("/MediaBox[0 0 595.27"));
    check_refused(
        &["papers", path(&one), "--out", path(&out), "--date", "2026-02-30"],
        2,
        "is not a date; write year, month and day",
    );
}

#[test]
fn a_batch_goes_on_after_a_plan_that_fails() {
    let folder = scratch("files-batch");
    let out = folder.join("out");
    let broken = folder.join("broken.json");
    fs::write(&broken, "dear painter").expect("a file");
    let (one, two) = (plan("low-water.json"), plan("harbour-pair.json"));
    let arguments = [
        "papers",
        path(&one),
        path(&broken),
        "nowhere.json",
        path(&two),
        "--sheet",
        "order",
        "--out",
        path(&out),
    ];
    let output = overmantel(&arguments);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert_eq!(names(&out), ["harbour-pair-order.pdf", "low-water-order.pdf"], "{said}");
    let last: Vec<&str> = said.lines().rev().take(3).collect();
    assert!(
        last[2].starts_with("overmantel: failed: ")
            && last[2].contains("broken.json: this is not an Overmantel plan file"),
        "{said}"
    );
    assert!(
        last[1].starts_with("overmantel: failed: nowhere.json") && last[1].contains("can't be opened"),
        "{said}"
    );
    assert_eq!(last[0], "overmantel: 2 of 4 plans failed; 2 papers written", "{said}");
}

/// Some programs write the mark of the order of bytes at the beginning of UTF-8 text.
#[test]
fn a_mark_of_the_order_of_bytes_is_passed_over() {
    let folder = scratch("files-mark");
    let marked = |name: &str, text: &str| {
        let file = folder.join(name);
        fs::write(&file, ["\u{feff}", text].concat()).expect("a file");
        file
    };
    let read = |file: PathBuf| fs::read_to_string(file).expect("a file");
    let file = marked("plan.json", &read(plan("low-water.json")));
    let book = marked("book.json", &read(root().join("demo-data/prices/example.json")));
    let stock = marked("stock.json", &text(&overmantel(&["stock"]).stdout));
    let (file, book, stock) = (path(&file), path(&book), path(&stock));
    let output = overmantel(&["prices", file, "--book", book, "--stock", stock]);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let output = with_input(&["figures", "-"], &fs::read(file).expect("a plan"));
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));

    let pictures = folder.join("paintings");
    fs::create_dir_all(&pictures).expect("a folder");
    for name in ["three-boats.jpg", "harbour-morning.jpg"] {
        fs::copy(root().join("demo-data/pictures").join(name), pictures.join(name)).expect("a picture");
    }
    let page = marked(
        "page.html",
        "<title>O</title><script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>",
    );
    marked(
        "paintings/pictures.csv",
        "\"three-boats.jpg\",\"Three boats, \"\"drying\"\"\"\r\n\r\nharbour-morning.jpg, \"Harbour, morning\"\r\n",
    );
    let out = folder.join("studio.html");
    let output = overmantel(&["studio", path(&pictures), "--page", path(&page), "--out", path(&out)]);
    assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
    let written = fs::read_to_string(&out).expect("a page");
    assert!(
        written.contains("Three boats, \\\\\\\"drying\\\\\\\"")
            || written.contains("Three boats, \\\"drying\\\""),
        "the title is in it"
    );
    assert!(written.contains("\"Harbour, morning\""), "without quotation marks of its own");
}

/// A name with an escape sequence, a control character of one byte, and marks that turn text round.
const HARMFUL: &str = "Ebb\u{1b}[31m\u{9b}2J\u{202e}tide\u{2066}\u{200f}\u{7f}\u{7}";

fn is_harmless(bytes: &[u8]) -> bool {
    text(bytes).chars().all(|letter| {
        let is_turning = matches!(letter, '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        !is_turning && (!letter.is_control() || matches!(letter, '\n' | '\r' | '\t'))
    })
}

#[test]
fn nothing_of_data_harms_a_terminal() {
    let folder = scratch("files-harm");
    // What a plan's names may not have is refused, without being repeated.
    let bare: String = HARMFUL.chars().filter(|letter| !letter.is_control()).collect();
    let good = fs::read_to_string(plan("low-water.json")).expect("a plan");
    let spelled = |text: &str| serde_json::to_string(text).expect("JSON");
    let with = |name: &str, from: &str, to: &str| {
        assert!(good.contains(from), "{from}");
        let file = folder.join(name);
        fs::write(&file, good.replace(from, to)).expect("a plan");
        file
    };
    let title = with("title.json", "\"Low water, three over the sofa\"", &spelled(&bare));
    let picture = with("picture.json", "\"low-water-evening.jpg\"", &spelled(HARMFUL));
    let name = with("name.json", "\"Low water, evening\"", &spelled(&bare));
    let field = with("field.json", "\"floor\"", &spelled(HARMFUL));
    let control = with("control.json", "\"Low water, three over the sofa\"", &spelled(HARMFUL));
    let book = root().join("demo-data/prices/example.json");
    for file in [&title, &picture, &name, &field, &control] {
        let out = folder.join("wall.png");
        for arguments in [
            &["figures", path(file)][..],
            &["findings", path(file)],
            &["findings", path(file), "--json"],
            &["prices", path(file), "--book", path(&book)],
            &["prices", path(file), "--book", path(&book), "--json"],
            &["suggest", path(file), "--most", "1"],
            &["suggest", path(file), "--most", "1", "--json"],
            &["suggest", path(file), "--take", "1"],
            &["rows", path(file), "--of", "order"],
            &["rows", path(file), "--of", "order", "--json"],
            &["rows", path(file), "--of", "cuts"],
            &["link", path(file)],
            &["draw", path(file), "--width", "64", "--out", path(&out), "--force"],
            &["print-file", path(file), "--out", path(&folder)],
            &["papers", path(file), "--sheet", "order", "--out", path(&folder), "--force"],
        ] {
            let output = overmantel(arguments);
            assert!(matches!(output.status.code(), Some(0 | 1 | 3)), "{arguments:?}");
            assert!(is_harmless(&output.stdout), "{arguments:?}: {:?}", text(&output.stdout));
            assert!(is_harmless(&output.stderr), "{arguments:?}: {:?}", text(&output.stderr));
        }
    }
    // What is spelled otherwise is the same text.
    let printed = overmantel(&["figures", path(&title)]).stdout;
    let figures: serde_json::Value = serde_json::from_slice(&printed).expect("JSON");
    assert_eq!(figures["title"], serde_json::json!(bare));
    // Names of files, and words of the command line.
    for arguments in [
        &["figures", HARMFUL][..],
        &["draw", HARMFUL, "--out", "wall.png"],
        &["figures", path(&plan("low-water.json")), "--stock", HARMFUL],
        &["draw", path(&plan("low-water.json")), "--out", HARMFUL],
        &["papers", HARMFUL, "other.json", "--out", path(&folder)],
        &["suggest", path(&plan("low-water.json")), "--lean", HARMFUL],
        &["findings", path(&plan("low-water.json")), "--mend", HARMFUL],
        &["open", HARMFUL],
        &["draw", "--width", HARMFUL],
        &[HARMFUL],
    ] {
        let output = overmantel(arguments);
        assert!(matches!(output.status.code(), Some(1 | 2)), "{arguments:?}");
        assert!(!output.stderr.is_empty() && is_harmless(&output.stderr), "{:?}", text(&output.stderr));
        assert!(is_harmless(&output.stdout), "{arguments:?}");
    }
    check_refused(&["hang", "\u{1b}"], 2, "unrecognized subcommand 'hang'");
}

/// A message quotes at most 80 characters of what it was given.
#[test]
fn long_texts_are_cut_in_messages() {
    let folder = scratch("files-long");
    let long = "sea".repeat(2_000);
    let good = fs::read_to_string(plan("low-water.json")).expect("a plan");
    let (cut, most) = (["\"", &long[..80], "…\""].concat(), 500);
    for (from, to) in [
        ("\"floor\"", format!("\"{long}\"")),
        ("\"#d5dcd6\"", format!("\"{long}\"")),
        ("\"row\"", format!("\"{long}\"")),
    ] {
        assert!(good.contains(from), "{from}");
        let file = folder.join("plan.json");
        fs::write(&file, good.replacen(from, &to, 1)).expect("a plan");
        let output = overmantel(&["figures", path(&file)]);
        let said = text(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert!(said.contains(&cut) && said.chars().count() < 2 * most, "{from}: {said}");
    }
    let file = plan("low-water.json");
    for arguments in [
        &["suggest", path(&file), "--lean", &long][..],
        &["findings", path(&file), "--mend", &long],
        &["link", path(&file), "--sketches", "none", "--address", &long],
    ] {
        let said = text(&overmantel(arguments).stderr);
        assert!(said.contains(&cut) && said.chars().count() < most, "{said}");
    }
}

/// `open` gives no plan that the other commands would refuse: here a mat that covers more than the image.
#[test]
fn open_refuses_what_figures_would_refuse() {
    use overmantel::{link, plan::file};
    let good = fs::read_to_string(plan("low-water.json")).expect("a plan");
    let plan = file::read(&good.replace("\"1/8 in\"", "\"9 in\"")).expect("it holds together");
    let link = link::write(&link::Link::of(plan));
    check_refused(
        &["open", &link],
        1,
        "piece 1: the mat opening would be -2 in × 2 in; let the mat cover less",
    );
}
