//! The library as others take it up: what it brings with it, and what its package says of itself.

use overmantel_builder::{command, paths};
use serde_json::{Value, json};
use std::fs;

/// What cargo prints when it is asked this of the workspace, without a network.
fn asked(arguments: &[&str]) -> String {
    let mut cargo = command::cargo();
    cargo.current_dir(paths::root()).args(arguments).arg("--offline");
    command::capture_or_show(&mut cargo).unwrap_or_else(|| panic!("cargo {arguments:?}"))
}

/// The packages that the library needs to be built with these features, by name.
fn needed(features: &[&str]) -> Vec<String> {
    let tree =
        ["tree", "--package", "overmantel", "--edges", "normal", "--prefix", "none", "--format", "{p}"];
    let printed = asked(&[&tree[..], features].concat());
    printed.lines().filter_map(|line| line.split_whitespace().next().map(str::to_owned)).collect()
}

#[test]
fn the_library_alone_brings_no_command_line() {
    let alone = needed(&[]);
    assert!(alone.contains(&"tiny-skia".to_owned()), "it draws: {alone:?}");
    // What parses arguments, decodes pictures, writes files or makes schemas.
    let of_others = [
        "clap",
        "clap_complete",
        "clap_mangen",
        "csv",
        "glob",
        "image",
        "jpeg-encoder",
        "moxcms",
        "png",
        "schemars",
    ];
    let brought = |names: &[String]| names.iter().any(|name| of_others.contains(&name.as_str()));
    let of_files = ["tempfile", "tiff", "zune-jpeg"];
    assert!(!brought(&alone) && !alone.iter().any(|name| of_files.contains(&name.as_str())), "{alone:?}");
    // The same look finds them where they are.
    let with = needed(&["--features", "cli"]);
    for name in of_others.iter().chain(&of_files) {
        assert!(with.iter().any(|found| found == name), "{name} is of the command line: {with:?}");
    }
}

fn manifest() -> Value {
    let told: Value = serde_json::from_str(&asked(&["metadata", "--no-deps", "--format-version", "1"]))
        .unwrap_or_else(|why| panic!("{why}"));
    let packages = told["packages"].as_array().cloned().unwrap_or_default();
    packages.into_iter().find(|package| package["name"] == "overmantel").unwrap_or_else(|| panic!("{told}"))
}

/// The lock file pins what is built here; a library that pins as well can't be used beside another.
#[test]
fn the_library_takes_ranges_of_versions() {
    let manifest = manifest();
    let dependencies = manifest["dependencies"].as_array().cloned().unwrap_or_default();
    assert!(dependencies.len() > 20, "{dependencies:?}");
    for dependency in dependencies.iter().filter(|dependency| dependency["path"].is_null()) {
        let range = dependency["req"].as_str().unwrap_or_default();
        assert!(range.starts_with('^'), "{}: {range}", dependency["name"]);
    }
}

#[test]
fn the_package_says_what_it_is() {
    let manifest = manifest();
    assert_eq!(manifest["features"]["default"], json!([]));
    let version = manifest["version"].as_str().unwrap_or_default();
    assert_eq!(version, env!("CARGO_PKG_VERSION"), "one version everywhere");
    let package = paths::root().join("crate");
    let read =
        |name: &str| fs::read_to_string(package.join(name)).unwrap_or_else(|why| panic!("{name}: {why}"));
    let newest = read("CHANGELOG.md").lines().find_map(|line| line.strip_prefix("## ").map(str::to_owned));
    assert_eq!(newest.as_deref(), Some(version), "what changed in this version is said first");
    for licence in ["LICENSE-MIT", "LICENSE-APACHE"] {
        let top = fs::read_to_string(paths::root().join(licence)).unwrap_or_else(|why| panic!("{why}"));
        assert_eq!(read(licence), top, "{licence} is the same here and there");
    }
    // At most five keywords and five categories (The Cargo Book, "The Manifest Format").
    for list in ["keywords", "categories"] {
        let count = manifest[list].as_array().map_or(0, Vec::len);
        assert!((1..=5).contains(&count), "{count} {list}");
    }
    // Every file that is packed is there; those that a reader looks for are packed.
    let packed = asked(&["package", "--package", "overmantel", "--list", "--allow-dirty"]);
    let packed: Vec<&str> = packed.lines().collect();
    for name in ["README.md", "CHANGELOG.md", "LICENSE-MIT", "LICENSE-APACHE", "fonts/OFL.txt", "src/lib.rs"]
    {
        assert!(packed.contains(&name), "{name} is not packed: {packed:?}");
    }
    assert!(packed.iter().all(|name| !name.starts_with("tests/")), "tests read what is not packed");
}
