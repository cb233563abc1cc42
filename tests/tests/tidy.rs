//! House rules, as tests.

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ is in the repository").to_path_buf()
}

/// Every file with this ending below a folder, but for what is built.
fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of the repository").flatten() {
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().into_owned();
        if path.is_dir() {
            if !["target", "node_modules", "generated", "dist", ".git"].contains(&name.as_str()) {
                found.extend(files(&path, ending));
            }
        } else if name.ends_with(ending) {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).expect("a text")
}

#[test]
fn a_module_imports_only_modules_above_it() {
    let source = root().join("crate/src");
    let library = read(&source.join("lib.rs"));
    let order: Vec<&str> =
        library.lines().filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';')).collect();
    assert!(order.len() > 20, "the modules of the library are listed: {order:?}");
    let place = |name: &str| order.iter().position(|known| *known == name);
    let mut checked = 0;
    for (index, module) in order.iter().enumerate() {
        let folder = source.join(module);
        let mut own = if folder.is_dir() { files(&folder, ".rs") } else { Vec::new() };
        own.push(source.join(format!("{module}.rs")));
        for path in own.iter().filter(|path| path.exists()) {
            for line in read(path).lines().map(str::trim).filter(|line| !line.starts_with("//")) {
                for (at, _) in line.match_indices("crate::") {
                    let rest = &line[at + "crate::".len()..];
                    // `crate::{a, b::c}` names several.
                    let names: Vec<&str> = match rest.strip_prefix('{') {
                        Some(list) => list.split(',').collect(),
                        None => vec![rest],
                    };
                    for name in names {
                        let name: String =
                            name.trim().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                        let Some(used) = place(&name) else { continue };
                        assert!(
                            used <= index,
                            "{} uses {name}, which stands below {module} in lib.rs",
                            path.display()
                        );
                        checked += 1;
                    }
                }
            }
        }
    }
    assert!(checked > 50, "only {checked} imports were seen");
}

#[test]
fn every_rust_file_says_what_it_is_and_keeps_to_600_lines() {
    for path in files(&root(), ".rs") {
        let text = read(&path);
        let first = text.lines().find(|line| !line.starts_with("#!"));
        assert!(first.is_some_and(|line| line.starts_with("//!")), "{} begins without //!", path.display());
        let lines = text.lines().count();
        assert!(lines <= 600, "{} has {lines} lines", path.display());
    }
    for ending in [".ts", ".mjs", ".css"] {
        for path in files(&root(), ending) {
            let lines = read(&path).lines().count();
            assert!(lines <= 600, "{} has {lines} lines", path.display());
        }
    }
}

#[test]
fn javascript_stays_at_the_boundary() {
    for path in files(&root().join("crate/src"), ".rs") {
        let is_boundary = path.to_string_lossy().contains("/wasm");
        for word in ["wasm_bindgen", "web_sys", "js_sys", "tsify"] {
            assert!(is_boundary || !read(&path).contains(word), "{} names {word}", path.display());
        }
    }
}

#[test]
fn the_page_makes_no_html_from_text_and_asks_only_its_own_host() {
    let forbidden = [
        "innerHTML",
        "outerHTML",
        "insertAdjacentHTML",
        "document.write",
        "eval(",
        "new Function",
        "fetch(",
        "XMLHttpRequest",
        "WebSocket",
    ];
    for path in files(&root().join("www/src"), ".ts") {
        // The parts of the page on a web host, whose policy allows no other.
        let may_fetch = path.ends_with("start/folder.ts");
        for word in forbidden {
            let is_allowed = word == "fetch(" && may_fetch;
            assert!(is_allowed || !read(&path).contains(word), "{} has {word}", path.display());
        }
    }
}

#[test]
fn the_top_of_the_repository_holds_what_the_design_names() {
    let named = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "crate",
        "www",
        "tests",
        "demo-data",
        "target",
    ];
    for entry in fs::read_dir(root()).expect("the repository").flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || named.contains(&name.as_str()), "{name} stands at the top");
    }
}

/// Behind its own faces the page falls back on whatever the machine has of a kind, and names no face of anybody else's.
#[test]
fn styles_fall_back_on_generic_families() {
    let mut named = 0;
    for path in files(&root().join("www"), ".css") {
        for line in read(&path).lines().filter(|line| line.contains("font") || line.contains("serif")) {
            for family in line.split('"').skip(1).step_by(2) {
                assert!(family.starts_with("Overmantel "), "{} names {family}", path.display());
                named += 1;
            }
        }
    }
    assert!(named >= 2, "{named} faces of its own were seen");
}
