//! DEVELOPERS.md against the repository: what it names is there, and what is there it names.

use overmantel_builder::paths;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The first column of "Where things are". A path after a comma may stand in the folder of the row's first, or in one above it.
fn named(table: &str) -> Vec<String> {
    let mut found = Vec::new();
    for row in table.lines().filter(|line| line.starts_with("| `")) {
        let cell = row.split(" | ").next().unwrap_or_default();
        let paths: Vec<&str> = cell.split('`').skip(1).step_by(2).collect();
        let above: Vec<&Path> = Path::new(paths[0]).ancestors().skip(1).collect();
        found.push(paths[0].to_owned());
        for path in &paths[1..] {
            let is_there = |folder: &&&Path| paths::root().join(folder).join(path).exists();
            let folder = above.iter().find(is_there).unwrap_or(&above[0]);
            found.push(folder.join(path).to_string_lossy().into_owned());
        }
    }
    found
}

fn text() -> String {
    fs::read_to_string(paths::root().join("DEVELOPERS.md")).expect("DEVELOPERS.md")
}

fn table(text: &str) -> &str {
    let (_, rest) = text.split_once("## Where things are").expect("the table");
    rest.split_once("\n## ").expect("what follows it").0
}

/// Every name of a file below a folder of the sources.
fn names(folder: &Path, found: &mut BTreeSet<String>) {
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if !entry.path().is_dir() {
            found.insert(name);
        } else if !["target", "node_modules", "output", "dist"].contains(&name.as_str()) {
            names(&entry.path(), found);
        }
    }
}

/// Where a path without its folder may stand: beside the core's modules, the page's or the tests'.
const FOLDERS: [&str; 7] = ["", "crate", "crate/src", "www", "www/src", "tests", "tests/tests"];

/// Whether a word in backquotes is a path: it has a slash or a known ending, and nothing that a command or a name has.
fn is_path(word: &str) -> bool {
    let has_ending =
        [".rs", ".md", ".toml", ".ts", ".mjs", ".json"].iter().any(|ending| word.ends_with(ending));
    let is_plain = word.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"/._-".contains(&byte));
    let is_folder = word.contains('/') && !word.starts_with('/') && !word.contains("../");
    is_plain && (has_ending || is_folder) && !word.starts_with("http")
}

#[test]
fn every_path_that_is_named_exists() {
    let text = text();
    let in_table: Vec<String> = named(table(&text));
    assert!(in_table.len() > 60, "{} paths in the table", in_table.len());
    for path in &in_table {
        assert!(paths::root().join(path).exists(), "{path} of the table is not there");
    }
    let rest = text.replace(table(&text), "");
    let words: BTreeSet<&str> = rest
        .split('`')
        .skip(1)
        .step_by(2)
        .flat_map(str::split_whitespace)
        .filter(|word| is_path(word))
        .collect();
    assert!(words.len() > 30, "{words:?}");
    let mut files = BTreeSet::new();
    for folder in ["crate", "www", "tests", "demo-data"] {
        names(&paths::root().join(folder), &mut files);
    }
    let mut missing = Vec::new();
    for path in words {
        // A file named after its folder has been.
        let is_there = files.contains(path)
            || FOLDERS.iter().any(|folder| paths::root().join(folder).join(path).exists());
        // What a command makes, and a row of files by a star.
        let is_made = ["tests/output", "tests/fuzz/corpus/link", "@fontsource/alegreya"]
            .iter()
            .any(|made| path.starts_with(made));
        if !is_there && !is_made {
            missing.push(path);
        }
    }
    assert_eq!(missing, Vec::<&str>::new(), "named in DEVELOPERS.md, and not there");
}

/// A module stands in the table by its own file, its folder, or the folder that it is in.
#[test]
fn every_module_of_the_core_stands_in_the_table() {
    let text = text();
    let named: BTreeSet<String> =
        named(table(&text)).iter().map(|path| path.trim_end_matches('/').to_owned()).collect();
    let mut seen = 0;
    let mut missing = Vec::new();
    let source = paths::root().join("crate/src");
    let modules = |folder: &Path| -> Vec<String> {
        let entries = fs::read_dir(folder).expect("a folder").flatten();
        let names =
            entries.map(|entry| entry.path()).filter(|path| path.extension().is_some_and(|end| end == "rs"));
        names.filter_map(|path| path.strip_prefix(paths::root()).ok()?.to_str().map(str::to_owned)).collect()
    };
    for path in modules(&source) {
        if path.ends_with("/lib.rs") {
            continue;
        }
        seen += 1;
        if !named.contains(&path) {
            missing.push(path.clone());
        }
        let folder = path.trim_end_matches(".rs");
        if paths::root().join(folder).is_dir() && !named.contains(folder) {
            for inner in modules(&paths::root().join(folder)) {
                seen += 1;
                if !named.contains(&inner) {
                    missing.push(inner);
                }
            }
        }
    }
    assert!(seen > 40, "{seen} modules");
    assert_eq!(missing, Vec::<String>::new(), "not in the table of DEVELOPERS.md");
}
