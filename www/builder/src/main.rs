//! `cargo page`: builds the page and opens it.

use std::env;
use std::path::Path;
use std::process::{Command, ExitCode, Stdio};

use overmantel_builder::command::say;
use overmantel_builder::{Failure, Outcome, build_page, folder, library};

const HELP: &str = "\
Builds Overmantel's page, one HTML file, and opens it.

Usage: cargo page [--no-open | --folder | --library]

  --no-open   build only, and print where the page is
  --folder    build the page as a folder for web hosts instead, and print where it is
  --library   build the module for JavaScript instead, as a folder that npm pack takes, and print where it is
  --help      print this text

Needed are Rust and Node 20 or newer; whatever else is missing is fetched, or named with its remedy.
The environment variable OVERMANTEL_WASM chooses how the core is compiled: \"rustup\" for the compiler in use,
\"debian\" for Debian's rustc-web; without it, whichever of the two works.";

fn main() -> ExitCode {
    match page(env::args().skip(1)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            say(&failure.to_string());
            ExitCode::FAILURE
        }
    }
}

fn page(arguments: impl Iterator<Item = String>) -> Outcome<()> {
    let (mut open_afterwards, mut builds_folder, mut builds_library) = (true, false, false);
    for argument in arguments {
        match argument.as_str() {
            "--no-open" => open_afterwards = false,
            "--folder" => builds_folder = true,
            "--library" => builds_library = true,
            "--help" | "-h" => {
                println!("{HELP}");
                return Ok(());
            }
            _ => return Err(Failure::new(format!("There is no option {argument}; see cargo page --help."))),
        }
    }
    if builds_folder {
        let folder = folder::build_folder()?;
        println!("{} ({} KB uncompressed)", folder.path.display(), folder.bytes.div_ceil(1000));
        return Ok(());
    }
    if builds_library {
        let library = library::build_library()?;
        println!("{} ({} KB of wasm)", library.path.display(), library.bytes.div_ceil(1000));
        return Ok(());
    }
    let page = build_page()?;
    println!("{} ({} KB)", page.path.display(), page.bytes.div_ceil(1000));
    if open_afterwards && has_display() {
        open(&page.path);
    }
    Ok(())
}

fn has_display() -> bool {
    cfg!(any(windows, target_os = "macos"))
        || ["DISPLAY", "WAYLAND_DISPLAY"]
            .iter()
            .any(|name| env::var_os(name).is_some_and(|value| !value.is_empty()))
}

/// Hands the page to the desktop. The path is printed already, so that it can be opened by hand should this fail.
fn open(page: &Path) {
    let mut command = if cfg!(windows) {
        let mut command = Command::new("cmd");
        command.args(["/C", "start", ""]);
        command
    } else {
        Command::new(if cfg!(target_os = "macos") { "open" } else { "xdg-open" })
    };
    let opened = command.arg(page).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
    if opened.is_err() {
        say("No program was found to open it; please open the file in a browser.");
    }
}
