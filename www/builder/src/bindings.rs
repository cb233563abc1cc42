//! Writes the core's JavaScript bindings and their TypeScript types, and strips the wasm of what only people read.

use std::fs;
use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};
use wasm_bindgen_cli_support::Bindgen;

use crate::command::say;
use crate::{Failure, Outcome};

/// How the bindings come by the wasm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// The page hands them its bytes: it fetches nothing.
    Handed,
    /// They look for the file beside themselves.
    Beside,
}

/// Writes `overmantel.js` and `overmantel.d.ts` into a folder and returns the stripped wasm.
///
/// The same wasm gives the same bindings, so they are written only when it has changed.
///
/// # Errors
/// When the wasm cannot be read, its bindings are of another version, or the folder cannot be written.
pub fn write(wasm: &Path, folder: &Path, source: Source) -> Outcome<Vec<u8>> {
    let cannot_read =
        |path: &Path, error| Failure::new(format!("{} cannot be read: {error}.", path.display()));
    let bytes = fs::read(wasm).map_err(|error| cannot_read(wasm, error))?;
    let stripped = folder.join("overmantel_bg.wasm");
    let stamp = folder.join("made-from.sha256");
    let digest = STANDARD.encode(Sha256::digest(&bytes));
    let outputs = [&stripped, &folder.join("overmantel.js"), &folder.join("overmantel.d.ts")];
    let is_current = fs::read_to_string(&stamp).is_ok_and(|text| text == digest);
    if !(is_current && outputs.iter().all(|path| path.exists())) {
        say("Writing the core's bindings…");
        generate(wasm, folder, source).map_err(|error| {
            Failure::new(format!(
                "The core's bindings could not be written; wasm-bindgen and the builder's wasm-bindgen-cli-support \
                 must be of one version ({error:#})."
            ))
        })?;
        if source == Source::Handed {
            append_start_afresh(folder)?;
        }
        crate::write_if_changed(&stamp, digest.as_bytes())?;
    }
    fs::read(&stripped).map_err(|error| cannot_read(&stripped, error))
}

/// Adds to the bindings what starts a fresh instance in place of one that is lost (`www/src/start/core.ts`). wasm-bindgen's own way has a
/// check in each method besides, 20 KB of script.
fn append_start_afresh(folder: &Path) -> Outcome<()> {
    let [script, types] = ["overmantel.js", "overmantel.d.ts"].map(|name| folder.join(name));
    let text = read_text(&script)?;
    let rests_on =
        ["function __wbg_get_imports()", "function __wbg_finalize_init(instance, module)", "let wasmModule,"];
    if let Some(missing) = rests_on.iter().find(|needed| !text.contains(**needed)) {
        return Err(Failure::new(format!(
            "The bindings have no {missing:?}; this version of wasm-bindgen writes others."
        )));
    }
    let function = "\nexport function startAfresh() {\n    \
        return __wbg_finalize_init(new WebAssembly.Instance(wasmModule, __wbg_get_imports()), wasmModule);\n}\n";
    let declared = "\n/**\n * Starts a fresh instance in place of the one at work. Nothing that was made with that may be used or collected after it.\n */\n\
        export function startAfresh(): InitOutput;\n";
    crate::write_if_changed(&script, [&text, function].concat().as_bytes())?;
    crate::write_if_changed(&types, [&read_text(&types)?, declared].concat().as_bytes())
}

fn read_text(path: &Path) -> Outcome<String> {
    fs::read_to_string(path)
        .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", path.display())))
}

/// The module form.
fn generate(wasm: &Path, folder: &Path, source: Source) -> Result<(), impl std::fmt::Display> {
    Bindgen::new().input_path(wasm).out_name("overmantel").web(true).and_then(|bindgen| {
        bindgen
            .typescript(true)
            .omit_default_module_path(source == Source::Handed)
            .remove_name_section(true)
            .remove_producers_section(true)
            .generate(folder)
    })
}
