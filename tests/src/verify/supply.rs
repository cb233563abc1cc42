//! What comes from outside: licences, versions, registries and what is known to be unsafe, by the policy in `.cargo/deny.toml`.

use std::path::PathBuf;

use overmantel_builder::{Failure, Outcome, command, paths};

use super::Verdict;
use super::tally::{Tally, succeeds};

/// The version that the policy was written for.
const CARGO_DENY: &str = "0.20.2";

/// Each part of the policy is one test. The advisories are told of where their database can't be had, and are no failure then.
pub(crate) fn check() -> Verdict {
    let deny = match cargo_deny() {
        Ok(deny) => deny,
        Err(failure) => return Verdict::Skipped(failure.to_string()),
    };
    let holds = |part: &str, options: &[&str]| {
        let mut check = std::process::Command::new(&deny);
        succeeds(check.current_dir(paths::root()).arg("check").args(options).arg(part))
    };
    let mut tally = Tally::default();
    for part in ["licenses", "bans", "sources"] {
        tally += Tally::one(holds(part, &[]));
    }
    let mut fetch = std::process::Command::new(&deny);
    if succeeds(fetch.current_dir(paths::root()).args(["fetch", "db"])) {
        tally += Tally::one(holds("advisories", &["--disable-fetch"]));
    } else {
        command::say("The database of advisories can't be had here; what it knows was not asked.");
    }
    Verdict::Ran(tally)
}

/// The program in the version wanted; it is installed beside what is built where it is not there.
fn cargo_deny() -> Outcome<PathBuf> {
    let root = paths::root().join("target").join("cargo-deny").join(CARGO_DENY);
    let program = root.join("bin").join(format!("cargo-deny{}", std::env::consts::EXE_SUFFIX));
    if program.is_file() {
        return Ok(program);
    }
    command::say("Installing cargo-deny (two or three minutes)…");
    let mut install = command::cargo();
    // Unoptimized it compiles in a third of the time, and looks through all in a second all the same.
    install.args(["install", "--locked", "--debug", "--version", CARGO_DENY, "cargo-deny"]);
    install.arg("--root").arg(&root).arg("--target-dir").arg(root.join("build"));
    command::run(&mut install, "cargo-deny could not be installed")?;
    // What it was made of takes more room than all the rest.
    let _left = std::fs::remove_dir_all(root.join("build"));
    if program.is_file() {
        Ok(program)
    } else {
        Err(Failure::new("cargo-deny is not where it was installed"))
    }
}
