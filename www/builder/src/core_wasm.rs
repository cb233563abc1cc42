//! Compiles the core for wasm.

use std::path::PathBuf;

use crate::Outcome;
use crate::command::{run, say};
use crate::wasm_toolchain::{TARGET, WasmToolchain};

/// What the core is compiled for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// The page.
    Page,
    /// The module for JavaScript.
    Module,
}

impl Use {
    /// Its features, and its profile: what cargo writes has one name whatever the features, so that each needs a folder of its own
    /// in order not to be compiled anew after the other.
    const fn settings(self) -> [&'static str; 2] {
        match self {
            Self::Page => ["", "release"],
            Self::Module => ["module", "module"],
        }
    }
}

/// Compiles the core, without its command line; returns the wasm file as the compiler wrote it.
///
/// # Errors
/// When it does not compile; the compiler has said why.
pub fn compile(toolchain: &WasmToolchain, whose: Use) -> Outcome<PathBuf> {
    say("Compiling the core for wasm (about a minute the first time)…");
    let [features, profile] = whose.settings();
    let mut cargo = toolchain.cargo("build");
    cargo.args(["--quiet", "--package", "overmantel", "--lib", "--no-default-features"]);
    cargo.args(["--features", features, "--profile", profile]);
    run(&mut cargo, "The core did not compile for wasm; the compiler's message stands above.")?;
    Ok(toolchain.target_folder().join(TARGET).join(profile).join("overmantel.wasm"))
}
