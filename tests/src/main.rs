//! `cargo verify`: runs every test there is, installs what they need, and counts.
//!
//! The last line is `N passed, N failed`; the exit code is 1 when anything failed.

mod verify;

use std::env;
use std::process::ExitCode;

use overmantel_builder::{Failure, Outcome};

const HELP: &str = "\
Runs every test: format, lints, documentation, native and wasm tests, the page in a browser.

Usage: cargo verify [--only STEP]...

  --only STEP   only this step; may be given more than once
  --list        print the steps
  --help        print this text

Needed are Rust and Node 20 or newer. On Debian, and as root, missing packages are installed; elsewhere a step whose
browser or viewer is missing is skipped and says why. Where the variable CI is set, a skipped step counts as failed.
CHROMIUM and CHROMEDRIVER may name the browser and its driver.";

fn main() -> ExitCode {
    let arguments: Vec<String> = env::args().skip(1).collect();
    if let [verify::RUN_WASM_TEST, rest @ ..] =
        arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice()
    {
        return verify::run_wasm_test(rest);
    }
    match steps(arguments.into_iter()).and_then(|steps| verify::keep_runner().map(|()| steps)) {
        Ok(Some(steps)) => verify::run(&steps),
        Ok(None) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("{failure}");
            ExitCode::FAILURE
        }
    }
}

/// The steps that were asked for; `None` where the request was only for information, which is printed.
fn steps(mut arguments: impl Iterator<Item = String>) -> Outcome<Option<Vec<&'static verify::Step>>> {
    let mut wanted = Vec::new();
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--help" | "-h" => {
                println!("{HELP}");
                return Ok(None);
            }
            "--list" => {
                for step in verify::STEPS {
                    println!("{:<12} {}", step.name, step.answers);
                }
                return Ok(None);
            }
            "--only" => {
                let name = arguments.next().unwrap_or_default();
                let step = verify::STEPS.iter().find(|step| step.name == name);
                wanted.push(step.ok_or_else(|| {
                    Failure::new(format!("There is no step {name:?}; cargo verify --list prints them."))
                })?);
            }
            _ => {
                return Err(Failure::new(format!("There is no option {argument}; see cargo verify --help.")));
            }
        }
    }
    Ok(Some(if wanted.is_empty() { verify::STEPS.iter().collect() } else { wanted }))
}
