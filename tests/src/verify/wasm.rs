//! The core in wasm: its boundary under clippy, its tests in a browser.
//!
//! `cargo test` hands each compiled test to a runner, and that is this very program: it is linked with the
//! wasm-bindgen of the version that wrote the tests, which no installed tool can promise.

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::{env, fs};

use overmantel_builder::wasm_toolchain::{self, WasmToolchain};
use overmantel_builder::{Failure, Outcome, paths};
use serde_json::json;

use super::tally::{Tally, count, succeeds};
use super::{Verdict, browser};

/// The argument with which cargo calls this program as the runner of a test; the test's own arguments follow it.
pub(crate) const RUN_WASM_TEST: &str = "run-wasm-test";

/// The core with the features that the page has.
const CORE: [&str; 3] = ["--package", "overmantel", "--no-default-features"];

pub(crate) fn lints() -> Verdict {
    match toolchain().and_then(|toolchain| toolchain.ensure_clippy().map(|()| toolchain)) {
        Ok(toolchain) => {
            let mut clippy = toolchain.cargo("clippy");
            // With all that the module for JavaScript has besides.
            clippy.args(CORE).args(["--features", "module", "--lib", "--tests", "--", "-D", "warnings"]);
            succeeds(&mut clippy).into()
        }
        Err(failure) => Verdict::Skipped(failure.to_string()),
    }
}

pub(crate) fn tests() -> Verdict {
    if !paths::root().join("crate/tests/wasm.rs").exists() {
        return Verdict::Skipped("there is no crate/tests/wasm.rs yet.".to_owned());
    }
    let found = toolchain().and_then(|toolchain| Ok((toolchain, browser::find()?, browser::find_driver()?)));
    match found {
        Ok((toolchain, browser, driver)) => Verdict::Ran(run_tests(&toolchain, &browser, &driver)),
        Err(failure) => Verdict::Skipped(failure.to_string()),
    }
}

fn toolchain() -> Outcome<WasmToolchain> {
    wasm_toolchain::find()
}

fn run_tests(toolchain: &WasmToolchain, browser: &Path, driver: &Path) -> Tally {
    let prepared =
        runner_setting().and_then(|setting| Ok((setting, write_capabilities(toolchain, browser)?)));
    let (runner, capabilities) = match prepared {
        Ok(prepared) => prepared,
        Err(failure) => {
            eprintln!("{failure}");
            return Tally::one(false);
        }
    };
    println!("Compiling the core's tests for wasm (about a minute the first time)…");
    let mut test = toolchain.cargo("test");
    test.args(CORE).args(["--test", "wasm", "--config", &runner]);
    // Nobody debugs these in a debugger, and what it needs is most of the file.
    test.env("CARGO_PROFILE_DEV_DEBUG", "false");
    test.env("CHROMEDRIVER", driver);
    test.env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", capabilities);
    // Seconds: a machine with other work to do starts a browser slowly.
    test.env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "60");
    test.env("WASM_BINDGEN_TEST_TIMEOUT", "300");
    count(&mut test)
}

/// Where a copy of this program is kept to be called as the runner: cargo replaces the program itself while it tests the
/// workspace that it is part of.
fn runner() -> PathBuf {
    paths::target().join("wasm-test-runner").join(format!("verify{}", env::consts::EXE_SUFFIX))
}

/// Keeps a copy of this program, before any step runs.
///
/// # Errors
/// When it cannot be copied.
pub(crate) fn keep_runner() -> Outcome<()> {
    let runner = runner();
    let folder = paths::target().join("wasm-test-runner");
    fs::create_dir_all(folder)
        .and_then(|()| env::current_exe())
        .and_then(|program| fs::copy(program, &runner))
        .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", runner.display())))?;
    Ok(())
}

/// The setting that makes cargo call this program, as a list of words so that its path may contain spaces.
fn runner_setting() -> Outcome<String> {
    let program = runner()
        .to_str()
        .map(str::to_owned)
        .ok_or_else(|| Failure::new("The path of the repository is not text."))?;
    Ok(format!("target.{}.runner = ['''{program}''', '{RUN_WASM_TEST}']", wasm_toolchain::TARGET))
}

/// Writes which browser the driver is to start, and how.
fn write_capabilities(toolchain: &WasmToolchain, browser: &Path) -> Outcome<PathBuf> {
    let capabilities = json!({ "goog:chromeOptions": { "binary": browser, "args": browser::FLAGS } });
    let path = toolchain.target_folder().join("webdriver.json");
    fs::create_dir_all(toolchain.target_folder())
        .and_then(|()| fs::write(&path, capabilities.to_string()))
        .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", path.display())))?;
    Ok(path)
}

/// Runs one compiled test in the browser, as cargo's runner.
pub(crate) fn run_wasm_test(arguments: &[&str]) -> ExitCode {
    let arguments = [RUN_WASM_TEST].iter().chain(arguments);
    match wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}
