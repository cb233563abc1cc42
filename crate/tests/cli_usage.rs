//! The command line as its users expect any to be: help in two lengths, colours, quiet, standard streams, many plans, manual pages.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use command::{check_refused, overmantel, path, plan, root, scratch, text};
use input::with_input;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

mod command;
#[path = "command/input.rs"]
mod input;

/// Every command, as the help lists them.
fn commands() -> Vec<String> {
    let help = text(&overmantel(&["-h"]).stdout);
    let listed = help.split("Commands:\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("a list");
    let names = listed.lines().filter_map(|line| line.split_whitespace().next());
    names.filter(|name| *name != "help").map(str::to_owned).collect()
}

#[test]
fn help_is_short_or_long() {
    let names = commands();
    assert_eq!(names.len(), 20, "{names:?}");
    for words in names.iter().map(|name| vec![name.as_str()]).chain([vec![]]) {
        let help = |which| {
            let output = overmantel(&[&words[..], &[which]].concat());
            assert_eq!((output.status.code(), text(&output.stderr).as_str()), (Some(0), ""));
            text(&output.stdout)
        };
        let (short, long) = (help("-h"), help("--help"));
        assert!(!short.contains("Example") && !short.contains("Exit codes"), "{words:?}: {short}");
        let codes = long.split_once("Exit codes: 0 ").map(|(_, rest)| rest.replace('\n', " "));
        assert!(codes.is_some_and(|rest| rest.contains("; 2 the command was not understood")), "{long}");
        assert!(long.len() > short.len() + 200, "{words:?}");
        assert!(!long.contains("[default: \"\"]"), "{long}");
        let examples = long.split("Examples:\n").nth(1).or_else(|| long.split("Example:\n").nth(1));
        let examples = examples.unwrap_or_else(|| panic!("{words:?} has no example:\n{long}"));
        let examples = examples.split("\n\n").next().unwrap_or_default();
        assert!(examples.starts_with("  overmantel "), "{examples}");
        for line in examples.lines() {
            let spaces = line.len() - line.trim_start().len();
            assert!(spaces == if line.trim_start().starts_with("overmantel ") { 2 } else { 6 }, "{line:?}");
        }
    }
}

/// The variables are those of no-color.org and bixense.com/clicolors (both from memory).
#[test]
fn colours_are_for_terminals() {
    let coloured = |variables: &[(&str, &str)]| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_overmantel"));
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE"] {
            program.env_remove(name);
        }
        let output = program.arg("--help").envs(variables.iter().copied()).output().expect("the program");
        output.stdout.contains(&0x1b)
    };
    assert!(!coloured(&[]), "into a file there are none");
    assert!(coloured(&[("CLICOLOR_FORCE", "1")]), "where they are asked for there are");
    assert!(!coloured(&[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]));
}

#[test]
fn quiet_leaves_only_what_went_wrong() {
    let folder = scratch("usage-quiet");
    let (one, out) = (plan("low-water.json"), folder.join("out"));
    let papers = ["papers", path(&one), "--sheet", "order,record", "--out", path(&out), "--force"];
    let said = |arguments: &[&str]| {
        let output = overmantel(arguments);
        assert_eq!((output.status.code(), text(&output.stdout).as_str()), (Some(0), ""));
        text(&output.stderr)
    };
    // The picture that is missing is not as asked, and is told all the same.
    let missing =
        "overmantel: low-water-evening.jpg was not found, so its area is filled with a single colour\n";
    let told = said(&papers);
    assert!(told.starts_with(missing), "{told}");
    assert_eq!(told.lines().count(), 4, "what is missing, two papers and their number: {told}");
    assert!(told.ends_with("overmantel: 2 papers written\n") && !told.contains(" of 1"), "{told}");
    assert_eq!(said(&[&papers[..], &["--quiet"]].concat()), missing);
    assert_eq!(said(&[&["-q"], &papers[..]].concat()), missing);
    let taken = overmantel(&["suggest", path(&one), "--take", "1", "-q"]);
    assert_eq!((taken.status.code(), text(&taken.stderr).as_str()), (Some(0), ""));
    assert!(!overmantel(&["suggest", path(&one), "--take", "1"]).stderr.is_empty());
    check_refused(&["figures", "nowhere.json", "--quiet"], 1, "overmantel: nowhere.json can't be opened");
    let broken = folder.join("broken.json");
    fs::write(&broken, "dear painter").expect("a file");
    let several =
        ["-q", "papers", path(&one), path(&broken), "--sheet", "order", "--force", "--out", path(&out)];
    let output = overmantel(&several);
    let told = text(&output.stderr);
    assert_eq!((output.status.code(), told.lines().count()), (Some(1), 3), "{told}");
    assert!(told.ends_with("overmantel: 1 of 2 plans failed; 1 paper written\n"), "{told}");
}

#[test]
fn every_json_has_a_version() {
    let (low_water, book) = (plan("low-water.json"), root().join("demo-data/prices/example.json"));
    let file = path(&low_water);
    for (arguments, name) in [
        (&["figures", file][..], "version"),
        (&["findings", file, "--json"], "version"),
        (&["prices", file, "--book", path(&book), "--json"], "version"),
        (&["suggest", file, "--json", "--most", "1"], "version"),
        (&["rows", file, "--of", "order", "--json"], "version"),
        (&["rows", file, "--of", "cuts", "--json"], "version"),
        (&["plan"], "overmantel"),
        (&["suggest", file, "--take", "1"], "overmantel"),
        (&["stock"], "overmantel_stock"),
    ] {
        let output = overmantel(arguments);
        let told: Value =
            serde_json::from_slice(&output.stdout).unwrap_or_else(|why| panic!("{arguments:?}: {why}"));
        let first = told.as_object().and_then(|members| members.iter().next());
        let (first, version) = first.unwrap_or_else(|| panic!("{told}"));
        assert_eq!((first.as_str(), version), (name, &Value::from(1)), "{arguments:?}: the first member");
    }
}

#[test]
fn a_dash_is_any_one_file() {
    let folder = scratch("usage-dash");
    let (low_water, book) = (plan("low-water.json"), root().join("demo-data/prices/example.json"));
    let file = path(&low_water);
    let same = |arguments: &[&str], dash: &[&str], from: &Path| {
        let expected = overmantel(arguments);
        let found = with_input(dash, &fs::read(from).expect("a file"));
        assert!(!expected.stdout.is_empty() && expected.stdout == found.stdout, "{}", text(&found.stderr));
    };
    same(&["prices", file, "--book", path(&book)], &["prices", file, "--book", "-"], &book);
    let shop = folder.join("shop.json");
    fs::write(&shop, overmantel(&["stock"]).stdout).expect("a file");
    same(&["figures", file, "--stock", path(&shop)], &["figures", file, "--stock", "-"], &shop);
    let twice = with_input(&["figures", "-", "--stock", "-"], &fs::read(file).expect("a plan"));
    assert_eq!(twice.status.code(), Some(1));
    let words = "overmantel: two files can't both come from standard input; write - for one of them only\n";
    assert_eq!(text(&twice.stderr), words);
    let none = with_input(&["prices", file, "--book", "-"], b"dear painter");
    assert!(text(&none.stderr).starts_with("overmantel: standard input: "), "{}", text(&none.stderr));

    let order = ["papers", file, "--sheet", "order", "--out"];
    assert!(overmantel(&[&order[..], &[path(&folder)]].concat()).status.success());
    let printed = overmantel(&[&order[..], &["-"]].concat());
    assert_eq!(printed.stdout, fs::read(folder.join("low-water-order.pdf")).expect("a paper"));
    check_refused(&["papers", file, "--sheet", "order,record", "--out", "-"], 1, "several files can't go to");
    let pictures = root().join("demo-data/pictures");
    for (format, ending) in [("png", "png"), ("tiff", "tif")] {
        let print = [
            "print-file",
            file,
            "--piece",
            "2",
            "--smaller",
            "--format",
            format,
            "--pictures",
            path(&pictures),
        ];
        let made = overmantel(&[&print[..], &["--out", path(&folder)]].concat());
        assert!(made.status.success() && made.stdout.is_empty(), "{}", text(&made.stderr));
        let told = text(&made.stderr);
        assert!(
            told.contains("resolution in the file: ") && told.ends_with("overmantel: 1 picture written\n"),
            "{told}"
        );
        let printed = overmantel(&[&print[..], &["--out", "-"]].concat());
        let kept = fs::read(folder.join(format!("low-water-2.{ending}"))).expect("a picture");
        assert!(printed.stdout == kept, "{format}: {}", text(&printed.stderr));
    }
    check_refused(
        &["print-file", file, "--smaller", "--pictures", path(&pictures), "--out", "-"],
        1,
        "or ask for one file of one plan with --sheet or --piece",
    );
}

/// Copies of the demo's plans: two in a folder, one in a folder of that.
fn plans(folder: &Path) -> PathBuf {
    let plans = folder.join("plans");
    fs::create_dir_all(plans.join("older")).expect("a folder");
    for (name, place) in
        [("low-water", "b.json"), ("harbour-pair", "a.json"), ("harbour-pair", "older/c.json")]
    {
        fs::copy(plan(&format!("{name}.json")), plans.join(place)).expect("a plan");
    }
    plans
}

/// The program is started without a shell, so that it gets the patterns as they stand.
#[test]
fn patterns_are_the_programs_own() {
    let folder = scratch("usage-patterns");
    let plans = plans(&folder);
    let made = |patterns: &[&str]| {
        let out = folder.join("out");
        let _ = fs::remove_dir_all(&out);
        let patterns: Vec<String> =
            patterns.iter().map(|pattern| path(&plans.join(pattern)).to_owned()).collect();
        let mut arguments = vec!["papers", "--sheet", "order", "--out", path(&out)];
        arguments.extend(patterns.iter().map(String::as_str));
        let output = overmantel(&arguments);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        let told = text(&output.stderr);
        let written =
            told.lines().filter_map(|line| line.split_once(" of ")?.1.split_once(": ").map(|(_, file)| file));
        let written: Vec<String> = written
            .filter_map(|file| Path::new(file.split(',').next()?).file_name()?.to_str().map(str::to_owned))
            .collect();
        (written, told.lines().last().unwrap_or_default().to_owned())
    };
    let of = |names: &[&str]| names.iter().map(|name| format!("{name}-order.pdf")).collect::<Vec<_>>();
    assert_eq!(made(&["*.json"]), (of(&["a", "b"]), "overmantel: 2 papers of 2 plans written".into()));
    assert_eq!(made(&["**/*.json"]).0.len(), 3);
    assert_eq!(
        made(&["b.json", "?.json"]).0,
        of(&["b", "a"]),
        "each once, in the order in which it is named"
    );
    for (pattern, words) in [
        ("*.plan", "no file matches \""),
        ("*.plan", "check the folder and the ending, such as plans/*.json"),
        ("[", "is not a pattern of file names"),
    ] {
        let pattern = plans.join(pattern);
        check_refused(&["papers", path(&pattern), "--out", path(&folder)], 1, words);
    }
}

#[test]
fn pictures_of_several_plans() {
    let folder = scratch("usage-pictures");
    let (plans, out) = (plans(&folder), folder.join("out"));
    fs::write(plans.join("broken.json"), "dear painter").expect("a file");
    let (pattern, pictures) = (plans.join("*.json"), root().join("demo-data/pictures"));
    let output = overmantel(&[
        "print-file",
        path(&pattern),
        "--smaller",
        "--format",
        "jpeg",
        "--pictures",
        path(&pictures),
        "--out",
        path(&out),
    ]);
    let told = text(&output.stderr);
    assert_eq!((output.status.code(), text(&output.stdout).as_str()), (Some(1), ""), "{told}");
    // A pair and three prints of one picture.
    let mut names: Vec<String> = fs::read_dir(&out)
        .expect("a folder")
        .flatten()
        .map(|file| file.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    assert_eq!(names, ["a-1.jpg", "a-2.jpg", "b-1.jpg", "b-2.jpg", "b-3.jpg"]);
    assert!(told.contains("1 of 3: piece 1: ") && told.contains("2 of 3: piece 3: "), "{told}");
    assert!(
        told.contains("overmantel: failed: ") && told.contains("broken.json: this is not an Overmantel"),
        "{told}"
    );
    assert!(told.ends_with("overmantel: 1 of 3 plans failed; 5 pictures written\n"), "{told}");
}

/// A proposal is for a buyer; the word that stood there before still does.
#[test]
fn a_proposal_is_for_a_buyer() {
    let file = plan("low-water.json");
    let made = |words: &[&str]| {
        let output =
            overmantel(&[&["papers", path(&file), "--sheet", "proposal", "--out", "-"], words].concat());
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        output.stdout
    };
    let (usual, maker) = (made(&[]), made(&["--for", "maker"]));
    assert!(usual == made(&["--for", "buyer"]) && usual == made(&["--for", "client"]) && usual != maker);
    let help = text(&overmantel(&["papers", "--help"]).stdout);
    assert!(help.contains("- buyer: ") && !help.contains("client"), "{help}");
}

/// As its help says: of those that are left the fewest points, when 10 are added for a number of pieces and 10 for a material that an
/// earlier one has. All that are kept are printed, so that what is left is known.
#[test]
fn suggestions_stand_as_the_help_says() {
    let help = text(&overmantel(&["suggest", "--help"]).stdout);
    assert!(help.contains("once 10 points are added") && !help.contains("the best first"), "{help}");
    let file = plan("low-water.json");
    let output = overmantel(&["suggest", path(&file), "--most", "18", "--json"]);
    let told: Value = serde_json::from_slice(&output.stdout).expect("suggestions");
    let rows: Vec<(f64, usize, String)> = told["suggestions"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|one| {
            let pieces = one["plan"]["pieces"].as_array().expect("pieces");
            let made = pieces[0]["made"].as_object().and_then(|made| made.keys().next()).expect("a make");
            (one["points"].as_f64().expect("points"), pieces.len(), made.clone())
        })
        .collect();
    assert!(rows.len() > 8, "{rows:?}");
    for (at, next) in rows.iter().enumerate() {
        let cost = |(points, count, made): &(f64, usize, String)| {
            let alike = [
                rows[..at].iter().any(|earlier| earlier.1 == *count),
                rows[..at].iter().any(|earlier| earlier.2 == *made),
            ];
            points + alike.into_iter().filter(|is_alike| *is_alike).count() as f64 * 10.0
        };
        let fewest = rows[at..].iter().map(cost).fold(f64::INFINITY, f64::min);
        // Points are printed to 6 decimals.
        assert!(cost(next) <= fewest + 0.000_002, "{at}: {} in place of {fewest}: {rows:?}", cost(next));
    }
    assert!(rows.windows(2).any(|pair| pair[0].0 > pair[1].0), "they do not stand by points alone: {rows:?}");
}

#[test]
fn a_manual_and_completions() {
    let folder = scratch("usage-manual").join("here");
    let output = overmantel(&["manual", path(&folder)]);
    // A page for the program and each command, and five shells.
    let count = commands().len() + 1 + 5;
    let told = format!("overmantel: {count} files in {}\n", folder.display());
    assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), told));
    let read =
        |name: &str| fs::read_to_string(folder.join(name)).unwrap_or_else(|why| panic!("{name}: {why}"));
    for name in commands() {
        let page = read(&format!("man1/overmantel-{name}.1"));
        // man(7): the title and the section; then what whatis(1) is made of.
        assert!(page.contains(&format!(".TH overmantel-{name} 1 ")) && page.contains(".SH NAME\n"), "{page}");
        assert!(page.contains("Exit codes: 0 ") && page.contains("\\-\\-quiet"), "{name}: {page}");
    }
    assert!(read("man1/overmantel.1").contains("overmantel\\-papers(1)"));
    for name in ["_overmantel", "overmantel.fish", "_overmantel.ps1", "overmantel.elv", "overmantel.bash"] {
        assert!(read(&format!("completions/{name}")).contains("print-file"), "{name}");
    }
    check_refused(&["manual", path(&folder)], 1, "already exists and was left as it is");
    assert_eq!(overmantel(&["manual", path(&folder), "--force"]).status.code(), Some(0));
    check_refused(&["manual", "-"], 1, "several files can't go to standard output");
    if Command::new("bash").arg("--version").output().is_err() {
        return;
    }
    // What bash would offer behind "overmantel pa", and behind "overmantel papers --fo".
    let script = "source \"$1\"; shift; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); \
        _overmantel overmantel \"${!#}\" \"${@:$#-1:1}\"; echo \"${COMPREPLY[@]}\"";
    let bash = folder.join("completions/overmantel.bash");
    for (words, offered) in
        [(&["overmantel", "pa"][..], "papers\n"), (&["overmantel", "papers", "--fo"], "--for --force\n")]
    {
        let output =
            Command::new("bash").args(["-c", script, "-", path(&bash)]).args(words).output().expect("bash");
        assert_eq!(text(&output.stdout), offered, "{}", text(&output.stderr));
    }
}
