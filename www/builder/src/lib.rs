//! Builds Overmantel's page: one HTML file that works from a disk, a mail attachment or any static host, or a folder for web hosts.
//!
//! The way through: the core is compiled for wasm ([`core_wasm`]) by whatever compiler can do that here
//! ([`wasm_toolchain`]), its bindings are written ([`bindings`]), what a start takes of it ([`ran`]) becomes a module of its own
//! ([`split`]), the modules become one script and the sheet one
//! style ([`bundle`], by npm's tools from [`node`]), the demo is packed ([`demo`]), and all of it goes into the
//! template under a strict content security policy ([`assemble`]). The folder has the same parts as files ([`folder`]), compressed
//! beside themselves ([`compress`]).
//!
//! Each step looks at what is already there, so that a second build with nothing changed takes seconds. Whatever is
//! missing is either fetched or named in one plain sentence with its remedy ([`Failure`]).

pub mod assemble;
pub mod bindings;
pub mod bundle;
pub mod command;
pub mod compress;
pub mod core_wasm;
pub mod debian;
pub mod deflate;
pub mod demo;
mod failure;
pub mod folder;
mod icon;
pub mod library;
pub mod node;
pub mod paths;
pub mod ran;
pub mod split;
pub mod wasm_toolchain;

use std::fs;
use std::path::PathBuf;

pub use failure::{Failure, Outcome};

/// The page that was built.
#[derive(Debug)]
pub struct Page {
    /// Where it is.
    pub path: PathBuf,
    /// Its size in bytes.
    pub bytes: usize,
}

/// Builds the page from whatever has changed since the last time.
///
/// # Errors
/// When a tool is missing and cannot be fetched, or one of the steps fails.
pub fn build_page() -> Outcome<Page> {
    let Made { template, bundle, core } = make()?;
    let demo = paths::demo_data();
    let page = assemble::assemble(&assemble::Parts {
        template: &template,
        style: &bundle.style,
        script: &bundle.script,
        core: &deflate::deflated(&core.first, "core")?,
        rest: &deflate::deflated(&core.second, "rest")?,
        demo: &demo::texts(&demo)?,
        pictures: &demo::picture_blocks(&demo)?,
    })?;
    let path = paths::page();
    write_if_changed(&path, page.as_bytes())?;
    Ok(Page { path, bytes: page.len() })
}

/// What both forms of the page are packed from.
struct Made {
    /// The HTML with its marks.
    template: String,
    bundle: bundle::Bundle,
    /// The stripped wasm, in two parts.
    core: split::Halves,
}

fn make() -> Outcome<Made> {
    let toolchain = wasm_toolchain::find()?;
    let node = node::find()?;
    let wasm = core_wasm::compile(&toolchain, core_wasm::Use::Page)?;
    let core = bindings::write(&wasm, &paths::generated(), bindings::Source::Handed)?;
    let core = split::split(&core, &ran::at_start(&core, &node)?)?;
    let www = paths::www();
    node.install(&www)?;
    let bundle = bundle::bundle(&www)?;
    let template = fs::read_to_string(www.join("index.html"))
        .map_err(|error| Failure::new(format!("www/index.html cannot be read: {error}.")))?;
    Ok(Made { template, bundle, core })
}

/// Reads a file of the repository.
pub(crate) fn read(path: &std::path::Path) -> Outcome<Vec<u8>> {
    fs::read(path).map_err(|error| Failure::new(format!("{} cannot be read: {error}.", path.display())))
}

/// Writes a file, and its folder if need be; leaves it alone where it already holds these bytes, so that its date
/// still says when it last changed.
pub(crate) fn write_if_changed(path: &std::path::Path, bytes: &[u8]) -> Outcome<()> {
    if fs::read(path).is_ok_and(|present| present == bytes) {
        return Ok(());
    }
    let cannot_write =
        |error: std::io::Error| Failure::new(format!("{} cannot be written: {error}.", path.display()));
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(cannot_write)?;
    }
    fs::write(path, bytes).map_err(cannot_write)
}
