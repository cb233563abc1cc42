//! Running other programs: say what is being done, show what they print, and fail in one sentence.

use std::env;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::{Failure, Outcome};

/// Says on the terminal what is being done.
pub fn say(message: &str) {
    eprintln!("{message}");
}

/// Runs a command with its output shown.
///
/// # Errors
/// With `failure`, a whole sentence, when the program cannot be started or ends with an error.
pub fn run(command: &mut Command, failure: &str) -> Outcome<()> {
    match command.stdin(Stdio::null()).status() {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => Err(Failure::new(failure)),
        Err(error) => Err(Failure::new(format!("{failure} ({} cannot be started: {error})", name(command)))),
    }
}

/// What a command prints, without the white space at its end; `None` when it cannot be started or ends with an error.
pub fn capture(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim_end().to_owned())
}

/// What a command prints, as [`capture`], but with its complaints shown on the terminal.
pub fn capture_or_show(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::inherit()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The program of this name in the folders of `PATH`, if there is one.
pub fn find_program(program: &str) -> Option<PathBuf> {
    let suffixes: &[&str] = if cfg!(windows) { &[".exe", ".cmd"] } else { &[""] };
    env::split_paths(&env::var_os("PATH")?)
        .flat_map(|folder| suffixes.iter().map(move |suffix| folder.join(format!("{program}{suffix}"))))
        .find(|path| path.is_file())
}

/// The cargo that runs this program, or the one in `PATH`.
pub fn cargo() -> Command {
    Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

fn name(command: &Command) -> String {
    let program: &OsStr = command.get_program();
    Path::new(program).file_name().unwrap_or(program).to_string_lossy().into_owned()
}
