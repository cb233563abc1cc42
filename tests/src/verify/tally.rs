//! Counts tests, by reading what the test runners print.

use std::fmt;
use std::io::{BufRead, BufReader};
use std::ops::AddAssign;
use std::process::{Command, Stdio};

/// How many tests passed and failed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Those that passed.
    pub(crate) passed: usize,
    /// Those that failed, were cancelled, or could not be run.
    pub(crate) failed: usize,
}

impl Tally {
    /// A single test.
    pub(crate) fn one(passed: bool) -> Self {
        Self { passed: passed.into(), failed: (!passed).into() }
    }

    /// Adds what a line of output counts: the last line of Rust's test harness, natively or in wasm, or one of the
    /// lines at the end of Node's.
    fn read(&mut self, line: &str) {
        if let Some(counts) = line.trim_start().strip_prefix("test result: ") {
            for count in counts.split([';', '.']) {
                match count.split_whitespace().collect::<Vec<_>>()[..] {
                    [number, "passed"] => self.passed += number.parse().unwrap_or(0),
                    [number, "failed"] => self.failed += number.parse().unwrap_or(0),
                    _ => {}
                }
            }
        } else if let ["ℹ" | "#", kind, number] = line.split_whitespace().collect::<Vec<_>>()[..] {
            let number: usize = number.parse().unwrap_or(0);
            match kind {
                "pass" => self.passed += number,
                "fail" | "cancelled" | "skipped" | "todo" => self.failed += number,
                _ => {}
            }
        }
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{} passed, {} failed", self.passed, self.failed)
    }
}

/// Runs a command, shown as it goes; whether it succeeded.
pub(crate) fn succeeds(command: &mut Command) -> bool {
    match command.stdin(Stdio::null()).status() {
        Ok(status) => status.success(),
        Err(error) => {
            eprintln!("{} cannot be started: {error}.", command.get_program().to_string_lossy());
            false
        }
    }
}

/// Runs a command, shown as it goes, and counts the tests that it reports.
///
/// A command that ends with an error without having counted a failure is one failure: something did not compile, or
/// broke off. So is one that reports no test at all.
pub(crate) fn count(command: &mut Command) -> Tally {
    stream(command).unwrap_or_else(|error| {
        eprintln!("{} broke off: {error}.", command.get_program().to_string_lossy());
        Tally::one(false)
    })
}

fn stream(command: &mut Command) -> std::io::Result<Tally> {
    let mut tally = Tally::default();
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::piped()).spawn()?;
    if let Some(output) = child.stdout.take() {
        let mut output = BufReader::new(output);
        let mut line = Vec::new();
        while output.read_until(b'\n', &mut line)? > 0 {
            let text = String::from_utf8_lossy(&line);
            print!("{text}");
            tally.read(&text);
            line.clear();
        }
    }
    let succeeded = child.wait()?.success();
    if tally.failed == 0 && (!succeeded || tally.passed == 0) {
        tally.failed = 1;
    }
    Ok(tally)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(output: &str, passed: usize, failed: usize) {
        let mut tally = Tally::default();
        output.lines().for_each(|line| tally.read(line));
        assert_eq!(tally, Tally { passed, failed }, "{output}");
    }

    #[test]
    fn rusts_harness_is_counted() {
        check(
            "test result: ok. 12 passed; 0 failed; 3 ignored; 0 measured; 0 filtered out; finished in 0.01s",
            12,
            0,
        );
        check(
            "test result: FAILED. 1 passed; 2 failed; 0 ignored; 0 measured\n\ntest result: ok. 4 passed; 0 failed",
            5,
            2,
        );
    }

    #[test]
    fn nodes_runner_is_counted() {
        check(
            "ℹ tests 9\nℹ suites 0\nℹ pass 5\nℹ fail 1\nℹ cancelled 1\nℹ skipped 1\nℹ todo 1\nℹ duration_ms 69.1",
            5,
            4,
        );
        check("# tests 2\n# pass 2\n# fail 0", 2, 0);
    }

    #[test]
    fn other_lines_count_nothing() {
        check("pass 5\n12 passed; 1 failed\ntest a_test ... ok\n# a heading here", 0, 0);
    }

    #[test]
    fn a_command_that_reports_no_test_is_a_failure() {
        assert_eq!(count(Command::new("rustc").arg("--version")), Tally::one(false));
        assert_eq!(count(&mut Command::new("no-such-program")), Tally::one(false));
    }
}
