//! Node and npm's packages: only what a lock file names, and only when the lock has changed.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::command::{capture, find_program, run, say};
use crate::{Failure, Outcome};

/// The oldest major version that will do.
const OLDEST: u32 = 20;

/// Node and the npm beside it.
#[derive(Clone, Debug)]
pub struct Node {
    /// The program `node`.
    pub node: PathBuf,
    npm: PathBuf,
}

/// Finds Node and npm.
///
/// # Errors
/// When one of them is missing, or Node is too old.
pub fn find() -> Outcome<Node> {
    let missing =
        || Failure::new(format!("Node {OLDEST} or newer is missing; please install it from nodejs.org."));
    let node = find_program("node").ok_or_else(missing)?;
    let version = capture(Command::new(&node).arg("--version")).ok_or_else(missing)?;
    if major_version(&version) < OLDEST {
        return Err(Failure::new(format!(
            "Node is {version}, but {OLDEST} or newer is needed; please install it from nodejs.org."
        )));
    }
    let npm = find_program("npm").ok_or_else(|| {
        Failure::new(
            "npm is missing, though Node is here; please install npm (on Debian: apt-get install npm).",
        )
    })?;
    Ok(Node { node, npm })
}

impl Node {
    /// Installs the packages that a folder's `package-lock.json` names, unless they are there already.
    ///
    /// Their install scripts are not run: none of ours needs one.
    ///
    /// # Errors
    /// When the lock cannot be read or npm fails.
    pub fn install(&self, folder: &Path) -> Outcome<()> {
        let lock_path = folder.join("package-lock.json");
        let lock = fs::read(&lock_path)
            .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", lock_path.display())))?;
        let installed_lock = folder.join("node_modules/.installed-lock.json");
        if fs::read(&installed_lock).is_ok_and(|installed| installed == lock) {
            return Ok(());
        }
        say(&format!("Installing npm's packages for {} (a few seconds)…", folder.display()));
        let mut npm = Command::new(&self.npm);
        npm.current_dir(folder).args([
            "ci",
            "--ignore-scripts",
            "--no-audit",
            "--no-fund",
            "--loglevel=error",
        ]);
        npm.env("npm_config_update_notifier", "false").stdout(Stdio::null());
        run(&mut npm, "npm could not install its packages; is its registry within reach?")?;
        crate::write_if_changed(&installed_lock, &lock)
    }
}

/// A program that npm installed in a folder.
pub fn installed_program(folder: &Path, name: &str) -> Command {
    let suffix = if cfg!(windows) { ".cmd" } else { "" };
    Command::new(folder.join("node_modules/.bin").join(format!("{name}{suffix}")))
}

/// The 20 of "v20.20.2"; 0 where there is no such number.
fn major_version(text: &str) -> u32 {
    text.trim_start_matches('v').split('.').next().and_then(|major| major.parse().ok()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::major_version;

    #[test]
    fn nodes_major_version_is_read() {
        assert_eq!(major_version("v20.20.2"), 20);
        assert_eq!(major_version("v8.0.0"), 8);
        assert_eq!(major_version("unknown"), 0);
    }
}
