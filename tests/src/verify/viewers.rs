//! The papers as poppler and mupdf read them, which did not write them.

use overmantel_builder::command::find_program;
use overmantel_builder::{Outcome, command, paths};
use std::path::PathBuf;

use super::Verdict;
use super::browser::find_or_install_to;
use super::tally::count;

/// The programs: the variable that may name one, what it is called, and Debian's package of it.
const PROGRAMS: [(&str, &str, &str); 4] = [
    ("PDFTOPPM", "pdftoppm", "poppler-utils"),
    ("PDFTOTEXT", "pdftotext", "poppler-utils"),
    ("PDFINFO", "pdfinfo", "poppler-utils"),
    ("MUTOOL", "mutool", "mupdf-tools"),
];

/// Runs the tests that `cargo test` leaves out, since they need these programs.
pub(crate) fn papers() -> Verdict {
    match find() {
        Ok(found) => {
            let mut cargo = command::cargo();
            cargo.current_dir(paths::root()).envs(found);
            cargo.args(["test", "--package", "overmantel-tests", "--test", "papers", "--", "--ignored"]);
            Verdict::Ran(count(&mut cargo))
        }
        Err(failure) => Verdict::Unavailable(failure.to_string()),
    }
}

fn find() -> Outcome<Vec<(&'static str, PathBuf)>> {
    let one = |(variable, name, package): (&'static str, &str, &str)| {
        let purpose = "read the papers in other programs";
        let path = find_or_install_to(purpose, variable, name, &[package], || find_program(name))?;
        Ok((variable, path))
    };
    PROGRAMS.into_iter().map(one).collect()
}
