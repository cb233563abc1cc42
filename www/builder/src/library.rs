//! The core as a module for JavaScript: a folder that `npm pack` takes, with nothing of the page in it.

use std::path::PathBuf;

use crate::bindings::{self, Source};
use crate::core_wasm::{self, Use};
use crate::{Outcome, paths, read, wasm_toolchain, write_if_changed};

/// The folder that was built.
#[derive(Debug)]
pub struct Library {
    /// Where it is.
    pub path: PathBuf,
    /// The size of its wasm in bytes.
    pub bytes: usize,
}

/// The bindings as they are written, and as they are packed.
const BINDINGS: [&str; 3] = ["overmantel.js", "overmantel.d.ts", "overmantel_bg.wasm"];

/// What stands in the repository and is packed as it is: from which folder below its top, and which files.
const COPIED: [(&str, &[&str]); 4] = [
    ("www/builder/library", &["README.md", "example.html"]),
    ("crate/schema", &["figures.schema.json", "plan.schema.json"]),
    ("crate/fonts", &["OFL.txt"]),
    ("", &["LICENSE-MIT", "LICENSE-APACHE"]),
];

/// Builds the folder from whatever has changed since the last time.
///
/// # Errors
/// When a tool is missing and cannot be fetched, or one of the steps fails.
pub fn build_library() -> Outcome<Library> {
    let wasm = core_wasm::compile(&wasm_toolchain::find()?, Use::Module)?;
    // The bindings have a folder of their own: what is packed holds nothing else.
    let bound = paths::target().join("library");
    let stripped = bindings::write(&wasm, &bound, Source::Beside)?;
    let folder = paths::library();
    let copied = COPIED
        .iter()
        .flat_map(|(from, names)| names.iter().map(move |name| (paths::root().join(from), *name)));
    for (from, name) in BINDINGS.iter().map(|name| (bound.clone(), *name)).chain(copied) {
        write_if_changed(&folder.join(name), &read(&from.join(name))?)?;
    }
    write_if_changed(&folder.join("package.json"), package().as_bytes())?;
    Ok(Library { path: folder, bytes: stripped.len() })
}

/// What npm reads. The owner adds `repository` when its address is settled.
fn package() -> String {
    let names = BINDINGS.into_iter().chain(COPIED.iter().flat_map(|(_, names)| names.iter().copied()));
    let files: Vec<String> = names.map(|name| format!("    \"{name}\"")).collect();
    format!(
        r#"{{
  "name": "overmantel",
  "version": "{}",
  "description": "To-scale layouts of one to three pictures on a wall: every size from the pixel to the hook",
  "license": "{}",
  "keywords": ["framing", "layout", "print", "mat", "wasm"],
  "type": "module",
  "exports": {{
    ".": {{ "types": "./overmantel.d.ts", "default": "./overmantel.js" }},
    "./overmantel_bg.wasm": "./overmantel_bg.wasm",
    "./package.json": "./package.json"
  }},
  "types": "./overmantel.d.ts",
  "files": [
{}
  ],
  "sideEffects": false
}}
"#,
        env!("CARGO_PKG_VERSION"),
        env!("CARGO_PKG_LICENSE"),
        files.join(",\n")
    )
}
