//! The steps, in their order, and what came of them.

mod browser;
mod native;
mod page;
mod supply;
mod tally;
mod viewers;
mod wasm;

use std::env;
use std::process::ExitCode;
use std::time::Instant;

use tally::Tally;
pub(crate) use wasm::{RUN_WASM_TEST, keep_runner, run_wasm_test};

/// One step of the verification.
pub(crate) struct Step {
    /// What it is called on the command line.
    pub(crate) name: &'static str,
    /// The question it answers.
    pub(crate) answers: &'static str,
    run: fn() -> Verdict,
}

/// Every step, the quick ones first.
pub(crate) const STEPS: &[Step] = &[
    Step { name: "format", answers: "Is the Rust formatted?", run: native::format },
    Step { name: "lints", answers: "Does clippy find nothing?", run: native::lints },
    Step { name: "docs", answers: "Does the documentation build, with every link in it?", run: native::docs },
    Step {
        name: "supply",
        answers: "Is what comes from outside allowed, by licence, version and source?",
        run: supply::check,
    },
    Step {
        name: "native",
        answers: "Do the core, the command line and the references agree?",
        run: native::tests,
    },
    Step {
        name: "viewers",
        answers: "Do two other programs find the papers true to size and to the letter?",
        run: viewers::papers,
    },
    Step { name: "wasm-lints", answers: "Does clippy find nothing in the wasm boundary?", run: wasm::lints },
    Step { name: "wasm", answers: "Does the core do the same in a browser?", run: wasm::tests },
    Step { name: "page", answers: "Does the page build?", run: page::build },
    Step { name: "types", answers: "Do the page's types hold, against those of the core?", run: page::types },
    Step { name: "browser", answers: "Does the page do its work in a browser?", run: page::jobs },
    Step {
        name: "folder",
        answers: "Does the page work as a folder on a web host, and without it after the first visit?",
        run: page::on_a_host,
    },
    Step {
        name: "library",
        answers: "Does the module for JavaScript work by itself, as npm packs it?",
        run: page::library,
    },
    Step {
        name: "firefox",
        answers: "Does the page do the main job in Firefox, from a disk and from a host?",
        run: page::firefox,
    },
    Step {
        name: "webkit",
        answers: "Does the page open, draw, edit and reload in WebKit, from a disk and from a host?",
        run: page::webkit,
    },
];

/// What came of a step.
pub(crate) enum Verdict {
    /// It ran; these are its tests.
    Ran(Tally),
    /// It could not run, for the reason that this sentence gives.
    Skipped(String),
    /// A second browser can't be had on such a machine, as this sentence says: that is told, and is no failure.
    Unavailable(String),
}

impl From<bool> for Verdict {
    /// A step that is one test.
    fn from(passed: bool) -> Self {
        Self::Ran(Tally::one(passed))
    }
}

/// Runs the steps, every one whatever became of those before it, and prints the count as the last line.
pub(crate) fn run(steps: &[&Step]) -> ExitCode {
    let in_ci = env::var_os("CI").is_some_and(|value| !value.is_empty() && value != "false");
    let mut total = Tally::default();
    let mut summary = Vec::new();
    for step in steps {
        println!("\n== {}: {}", step.name, step.answers);
        let start = Instant::now();
        let (tally, remark) = match (step.run)() {
            Verdict::Ran(tally) => (tally, String::new()),
            Verdict::Skipped(reason) if in_ci => (Tally::one(false), format!("  not run: {reason}")),
            Verdict::Unavailable(reason) => {
                (Tally::default(), format!("  skipped, not to be had here: {reason}"))
            }
            Verdict::Skipped(reason) => (Tally::default(), format!("  skipped: {reason}")),
        };
        let seconds = start.elapsed().as_secs();
        summary.push(format!("{:<12} {tally}  ({seconds} s){remark}", step.name));
        total += tally;
    }
    println!("\n{}\n\n{total}", summary.join("\n"));
    if total.failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
