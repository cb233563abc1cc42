//! The page's modules into one script, its style sheet into one style.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::command::capture_or_show;
use crate::{Failure, Outcome};

/// What esbuild makes of the page's sources.
#[derive(Debug)]
pub struct Bundle {
    /// One classic script: it runs from `file:` in every browser.
    pub script: String,
    /// The style sheet, without comments and white space.
    pub style: String,
}

/// Bundles `src/main.ts`, and `style.css` with what it imports.
///
/// # Errors
/// When esbuild finds a mistake; it has said which.
pub fn bundle(www: &Path) -> Outcome<Bundle> {
    Ok(Bundle {
        script: esbuild(
            www,
            &["src/main.ts", "--bundle", "--format=iife", "--target=es2022"],
            "The page's modules could not be bundled; esbuild's message stands above.",
        )?,
        style: esbuild(
            www,
            &["style.css", "--bundle"],
            "The style sheet could not be read; esbuild's message stands above.",
        )?,
    })
}

/// Bundles the service worker of the folder for web hosts, with the names of the files that it keeps and the version that they are.
///
/// # Errors
/// When esbuild finds a mistake; it has said which.
pub(crate) fn worker(www: &Path, files: &[&str], version: &str) -> Outcome<String> {
    let names: Vec<String> = files.iter().map(|name| format!("\"{name}\"")).collect();
    let (files, version) =
        (format!("--define:FILES=[{}]", names.join(",")), format!("--define:VERSION=\"{version}\""));
    esbuild(
        www,
        &[
            "builder/folder/service-worker.ts",
            "--bundle",
            "--format=iife",
            "--target=es2022",
            &files,
            &version,
        ],
        "The service worker could not be bundled; esbuild's message stands above.",
    )
}

/// The few lines of the folder that ask for the core at once.
///
/// # Errors
/// When esbuild finds a mistake; it has said which.
pub(crate) fn early(www: &Path) -> Outcome<String> {
    let failure = "What asks for the core at once could not be read; esbuild's message stands above.";
    esbuild(www, &["builder/folder/early.js", "--target=es2022"], failure)
}

fn esbuild(www: &Path, arguments: &[&str], failure: &str) -> Outcome<String> {
    let mut command = Command::new(esbuild_program(www)?);
    command.current_dir(www).args(["--minify", "--charset=ascii", "--log-level=warning"]).args(arguments);
    let output = capture_or_show(&mut command).ok_or_else(|| Failure::new(failure))?;
    Ok(output.trim_end().to_owned())
}

/// The program itself, which npm puts into a folder that is named after the machine. The script that stands for it
/// answers a mistake in the page's modules with a long account of its own.
fn esbuild_program(www: &Path) -> Outcome<PathBuf> {
    let folders = fs::read_dir(www.join("node_modules/@esbuild")).into_iter().flatten().flatten();
    folders
        .flat_map(|folder| ["bin/esbuild", "esbuild.exe"].map(|name| folder.path().join(name)))
        .find(|path| path.is_file())
        .ok_or_else(|| {
            Failure::new("npm did not install esbuild; please delete www/node_modules and try again.")
        })
}
