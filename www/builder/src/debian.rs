//! Debian's packages: installed when we may, asked for in one sentence when we may not.

use std::fs;
use std::process::{Command, Stdio};

use crate::command::{capture, find_program, run, say};
use crate::{Failure, Outcome};

/// Whether this machine's packages are Debian's.
pub fn is_here() -> bool {
    find_program("apt-get").is_some()
        && fs::read_to_string("/etc/os-release").is_ok_and(|text| names_debian(&text))
}

/// Whether an `os-release` file is of Debian itself: its relatives lack some of the packages or call them otherwise.
fn names_debian(os_release: &str) -> bool {
    os_release.lines().any(|line| line.trim() == "ID=debian")
}

/// Installs packages, for a purpose that reads well after "needed to": "compile the core for wasm".
///
/// # Errors
/// When this is not Debian, when we are not its administrator, or when the installation fails. The sentence says which
/// command to give.
pub fn install(packages: &[&str], purpose: &str) -> Outcome<()> {
    let list = packages.join(" ");
    if !is_here() {
        return Err(Failure::new(format!("{list} (by Debian's names) would be needed to {purpose}.")));
    }
    if capture(Command::new("id").arg("-u")).as_deref() != Some("0") {
        return Err(Failure::new(format!(
            "Debian's packages {list} are needed to {purpose}; please run: sudo apt-get install -y {list}"
        )));
    }
    say(&format!("Installing {list} from Debian, to {purpose} (a minute or two)…"));
    let failure = format!("apt-get could not install {list}; is Debian's archive within reach?");
    let apt_get = || {
        let mut command = Command::new("apt-get");
        // Its account of every package is long; what goes wrong is told on the other stream.
        command.env("DEBIAN_FRONTEND", "noninteractive").arg("-qq").stdout(Stdio::null());
        command
    };
    run(apt_get().arg("update"), &failure)?;
    run(apt_get().args(["install", "-y", "--no-install-recommends"]).args(packages), &failure)
}

#[cfg(test)]
mod tests {
    use super::names_debian;

    #[test]
    fn debian_is_told_from_its_relatives() {
        assert!(names_debian(
            "PRETTY_NAME=\"Debian GNU/Linux 12 (bookworm)\"\nVERSION_ID=\"12\"\nID=debian\n"
        ));
        assert!(!names_debian("ID=ubuntu\nID_LIKE=debian\n"));
    }
}
