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
        crate::write_if_changed(&stamp, digest.as_bytes())?;
    }
    fs::read(&stripped).map_err(|error| cannot_read(&stripped, error))
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
