//! Where things are in the repository.

use std::path::{Path, PathBuf};

/// The repository's top folder, in which this package was compiled.
pub fn root() -> PathBuf {
    let package = Path::new(env!("CARGO_MANIFEST_DIR"));
    package.ancestors().nth(2).unwrap_or(package).to_path_buf()
}

/// The page's sources.
pub fn www() -> PathBuf {
    root().join("www")
}

/// The bindings that are written from the core: JavaScript, its TypeScript types and the stripped wasm.
pub fn generated() -> PathBuf {
    www().join("src/generated")
}

/// The finished page.
pub fn page() -> PathBuf {
    www().join("dist/overmantel.html")
}

/// The module for JavaScript, as npm takes it.
pub fn library() -> PathBuf {
    www().join("dist/library")
}

/// The page as a folder for web hosts.
pub fn folder() -> PathBuf {
    www().join("dist/folder")
}

/// What of that is written by hand.
pub fn folder_sources() -> PathBuf {
    www().join("builder/folder")
}

/// The demo's pictures and plans.
pub fn demo_data() -> PathBuf {
    root().join("demo-data")
}

/// Cargo's own folder for what it builds; each compiler for wasm has a folder of its own in it.
pub fn target() -> PathBuf {
    root().join("target")
}
