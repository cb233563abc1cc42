//! The page's modules into one script, its style sheet into one style.

use std::path::Path;

use crate::command::capture_or_show;
use crate::node::installed_program;
use crate::{Failure, Outcome};

/// What esbuild makes of the page's sources.
#[derive(Debug)]
pub struct Bundle {
    /// One classic script: it runs from `file:` in every browser.
    pub script: String,
    /// The style sheet, without comments and white space.
    pub style: String,
}

/// Bundles `src/main.ts` and minifies `style.css`.
///
/// # Errors
/// When esbuild finds a mistake; it has said which.
pub fn bundle(www: &Path) -> Outcome<Bundle> {
    let esbuild = |arguments: &[&str], failure: &str| {
        let mut command = installed_program(www, "esbuild");
        command.current_dir(www).args(["--minify", "--charset=utf8", "--log-level=warning"]).args(arguments);
        let output = capture_or_show(&mut command).ok_or_else(|| Failure::new(failure))?;
        Ok(output.trim_end().to_owned())
    };
    Ok(Bundle {
        script: esbuild(
            &["src/main.ts", "--bundle", "--format=iife", "--target=es2022"],
            "The page's modules could not be bundled; esbuild's message stands above.",
        )?,
        style: esbuild(&["style.css"], "The style sheet could not be read; esbuild's message stands above.")?,
    })
}
