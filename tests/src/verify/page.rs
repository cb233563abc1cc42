//! The page: that it builds, that its types hold, and its jobs in a browser.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use overmantel_builder::node::{self, Node, installed_program};
use overmantel_builder::{Failure, Outcome, build_page, paths};

use super::tally::{Tally, count, succeeds};
use super::{Verdict, browser};

/// The page, built when a step first asks for it.
fn page() -> Outcome<PathBuf> {
    static PAGE: OnceLock<Outcome<PathBuf>> = OnceLock::new();
    PAGE.get_or_init(|| build_page().map(|page| page.path)).clone()
}

/// A step's verdict, where what it needs may be missing: that is a failure, and told.
fn verdict(outcome: Outcome<Tally>) -> Verdict {
    Verdict::Ran(outcome.unwrap_or_else(|failure| {
        eprintln!("{failure}");
        Tally::one(false)
    }))
}

pub(crate) fn build() -> Verdict {
    verdict(page().map(|page| {
        println!("{}", page.display());
        Tally::one(true)
    }))
}

pub(crate) fn types() -> Verdict {
    verdict(prepare().map(|_node| {
        let mut tally = Tally::default();
        for project in [paths::www(), jobs_folder()] {
            let mut tsc = installed_program(&paths::www(), "tsc");
            tally += Tally::one(succeeds(tsc.arg("--project").arg(project)));
        }
        tally
    }))
}

pub(crate) fn jobs() -> Verdict {
    match browser::find() {
        Ok(browser) => verdict(prepare().and_then(|node| run_jobs(&node, &browser))),
        Err(failure) => Verdict::Skipped(failure.to_string()),
    }
}

/// Builds the page, whose build writes the core's types, and installs what its tests need.
fn prepare() -> Outcome<Node> {
    page()?;
    let node = node::find()?;
    node.install(&tests_folder())?;
    Ok(node)
}

fn run_jobs(node: &Node, browser: &Path) -> Outcome<Tally> {
    let mut files: Vec<PathBuf> = fs::read_dir(jobs_folder())
        .map_err(|error| Failure::new(format!("tests/browser cannot be read: {error}.")))?
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| {
            path.file_name().and_then(OsStr::to_str).is_some_and(|name| name.ends_with(".test.mjs"))
        })
        .collect();
    files.sort();
    let mut runner = Command::new(&node.node);
    runner.current_dir(tests_folder()).args(["--test", "--test-reporter=spec"]).args(files);
    runner
        .env("OVERMANTEL_PAGE", page()?)
        .env("CHROMIUM", browser)
        .env("CHROMIUM_FLAGS", browser::FLAGS.join(" "));
    Ok(count(&mut runner))
}

fn tests_folder() -> PathBuf {
    paths::root().join("tests")
}

fn jobs_folder() -> PathBuf {
    tests_folder().join("browser")
}
