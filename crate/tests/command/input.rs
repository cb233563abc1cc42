//! The program with something on its standard input.

use std::io::Write;
use std::process::{Command, Output, Stdio};

/// What the program says when it is given this on standard input.
pub(crate) fn with_input(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_overmantel"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program");
    // It may end before it has read all.
    let _ = child.stdin.take().expect("its input").write_all(input);
    child.wait_with_output().expect("its output")
}
