//! Compiles the core for wasm.

use std::path::PathBuf;

use crate::Outcome;
use crate::command::{run, say};
use crate::wasm_toolchain::{TARGET, WasmToolchain};

/// Compiles the core, without its command line and with these features; returns the wasm file as the compiler wrote it.
///
/// # Errors
/// When it does not compile; the compiler has said why.
pub fn compile(toolchain: &WasmToolchain, features: &str) -> Outcome<PathBuf> {
    say("Compiling the core for wasm (about a minute the first time)…");
    let mut cargo = toolchain.cargo("build");
    cargo.args([
        "--quiet",
        "--package",
        "overmantel",
        "--lib",
        "--release",
        "--no-default-features",
        "--features",
        features,
    ]);
    run(&mut cargo, "The core did not compile for wasm; the compiler's message stands above.")?;
    Ok(toolchain.target_folder().join(TARGET).join("release/overmantel.wasm"))
}
