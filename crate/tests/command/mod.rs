//! The program as a test runs it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map_or_else(PathBuf::new, Path::to_path_buf)
}

pub(crate) fn plan(name: &str) -> PathBuf {
    root().join("demo-data/plans").join(name)
}

/// A folder of this test's own, empty at first.
pub(crate) fn scratch(test: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    if folder.exists() {
        fs::remove_dir_all(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    }
    fs::create_dir_all(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    folder
}

pub(crate) fn overmantel(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_overmantel"))
        .args(arguments)
        .output()
        .unwrap_or_else(|error| panic!("{error}"))
}

pub(crate) fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

pub(crate) fn path(path: &Path) -> &str {
    path.to_str().unwrap_or_else(|| panic!("{}", path.display()))
}

/// It fails with this code and these words on standard error, and prints nothing.
#[track_caller]
pub(crate) fn check_refused(arguments: &[&str], code: i32, words: &str) {
    let output = overmantel(arguments);
    assert_eq!(output.status.code(), Some(code), "{arguments:?}: {}", text(&output.stderr));
    assert!(text(&output.stderr).contains(words), "{arguments:?}: {}", text(&output.stderr));
    assert!(output.stdout.is_empty(), "{}", text(&output.stdout));
}
