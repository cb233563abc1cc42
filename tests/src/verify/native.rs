//! The steps that need nothing but Rust.

use std::process::Command;

use overmantel_builder::{command, paths};

use super::Verdict;
use super::tally::{count, succeeds};

fn cargo(arguments: &[&str]) -> Command {
    let mut cargo = command::cargo();
    cargo.current_dir(paths::root()).args(arguments);
    cargo
}

pub(crate) fn format() -> Verdict {
    succeeds(&mut cargo(&["fmt", "--all", "--check"])).into()
}

pub(crate) fn lints() -> Verdict {
    succeeds(&mut cargo(&["clippy", "--workspace", "--all-targets", "--", "-D", "warnings"])).into()
}

pub(crate) fn docs() -> Verdict {
    let mut doc = cargo(&["doc", "--workspace", "--no-deps", "--document-private-items"]);
    succeeds(doc.env("RUSTDOCFLAGS", "-Dwarnings")).into()
}

pub(crate) fn tests() -> Verdict {
    Verdict::Ran(count(&mut cargo(&["test", "--workspace", "--no-fail-fast"])))
}
