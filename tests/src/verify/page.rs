//! The page: that it builds, that its types hold, and its jobs in a browser.

use std::ffi::OsStr;
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

use overmantel_builder::node::{self, Node, installed_program};
use overmantel_builder::{Failure, Outcome, build_page, folder::build_folder, library::build_library, paths};

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
        for project in [paths::www(), paths::folder_sources(), jobs_folder()] {
            let mut tsc = installed_program(&paths::www(), "tsc");
            tally += Tally::one(succeeds(tsc.arg("--project").arg(project)));
        }
        tally
    }))
}

/// The folder for web hosts, built when a step first asks for it.
fn folder() -> Outcome<PathBuf> {
    static FOLDER: OnceLock<Outcome<PathBuf>> = OnceLock::new();
    FOLDER.get_or_init(|| build_folder().map(|folder| folder.path)).clone()
}

/// The jobs of browsers that have steps of their own.
const FIREFOX_JOBS: [&str; 2] = ["firefox.test.mjs", "folder-firefox.test.mjs"];
const WEBKIT_JOB: &str = "webkit.test.mjs";
/// The jobs of the folder for web hosts and of the module for JavaScript, which are built for them.
const FOLDER_JOB: &str = "folder.test.mjs";
const LIBRARY_JOB: &str = "library.test.mjs";

pub(crate) fn jobs() -> Verdict {
    match browser::find() {
        Ok(browser) => verdict(prepare().and_then(|node| {
            let apart = [WEBKIT_JOB, FOLDER_JOB, LIBRARY_JOB];
            let others = |name: &str| {
                name.ends_with(".test.mjs") && !apart.contains(&name) && !FIREFOX_JOBS.contains(&name)
            };
            let flags = browser::FLAGS.join(" ");
            // One job is for both; where there is none, the step for Firefox says so.
            let firefox = browser::find_firefox().unwrap_or_default();
            let found = [
                ("CHROMIUM", browser.as_os_str()),
                ("CHROMIUM_FLAGS", OsStr::new(&flags)),
                ("FIREFOX", firefox.as_os_str()),
            ];
            run_jobs(&node, others, &found)
        })),
        Err(failure) => Verdict::Skipped(failure.to_string()),
    }
}

pub(crate) fn on_a_host() -> Verdict {
    built_job(FOLDER_JOB, "OVERMANTEL_FOLDER", folder)
}

pub(crate) fn library() -> Verdict {
    built_job(LIBRARY_JOB, "OVERMANTEL_LIBRARY", || build_library().map(|library| library.path))
}

/// The job in Chromium of what is built for it, which this variable names.
fn built_job(job: &str, variable: &str, build: impl Fn() -> Outcome<PathBuf>) -> Verdict {
    match browser::find() {
        Ok(browser) => verdict(prepare().and_then(|node| {
            let (built, flags) = (build()?, browser::FLAGS.join(" "));
            let found = [
                ("CHROMIUM", browser.as_os_str()),
                ("CHROMIUM_FLAGS", OsStr::new(&flags)),
                (variable, built.as_os_str()),
            ];
            run_jobs(&node, |name| name == job, &found)
        })),
        Err(failure) => Verdict::Skipped(failure.to_string()),
    }
}

pub(crate) fn firefox() -> Verdict {
    match browser::find_firefox() {
        Ok(browser) => verdict(prepare().and_then(|node| {
            let folder = folder()?;
            let found = [("FIREFOX", browser.as_os_str()), ("OVERMANTEL_FOLDER", folder.as_os_str())];
            run_jobs(&node, |name| FIREFOX_JOBS.contains(&name), &found)
        })),
        Err(failure) => Verdict::Unavailable(failure.to_string()),
    }
}

pub(crate) fn webkit() -> Verdict {
    match browser::find_webkit() {
        Ok([driver, display]) => verdict(prepare().and_then(|node| {
            let folder = folder()?;
            let found = [
                ("WEBKIT_DRIVER", driver.as_os_str()),
                ("XVFB", display.as_os_str()),
                ("OVERMANTEL_FOLDER", folder.as_os_str()),
            ];
            run_jobs(&node, |name| name == WEBKIT_JOB, &found)
        })),
        Err(failure) => Verdict::Unavailable(failure.to_string()),
    }
}

/// Builds the page, whose build writes the core's types, and installs what its tests need.
fn prepare() -> Outcome<Node> {
    page()?;
    let node = node::find()?;
    node.install(&tests_folder())?;
    Ok(node)
}

/// Runs the jobs whose files are wanted, which are told where the browser is.
fn run_jobs(node: &Node, wanted: impl Fn(&str) -> bool, found: &[(&str, &OsStr)]) -> Outcome<Tally> {
    let mut files: Vec<PathBuf> = fs::read_dir(jobs_folder())
        .map_err(|error| Failure::new(format!("tests/browser cannot be read: {error}.")))?
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.file_name().and_then(OsStr::to_str).is_some_and(&wanted))
        .collect();
    files.sort();
    let mut runner = Command::new(&node.node);
    runner.current_dir(tests_folder()).args(["--test", "--test-reporter=spec"]).args(files);
    runner.env("OVERMANTEL_PAGE", page()?).envs(found.iter().copied());
    Ok(count(&mut runner))
}

fn tests_folder() -> PathBuf {
    paths::root().join("tests")
}

fn jobs_folder() -> PathBuf {
    tests_folder().join("browser")
}
