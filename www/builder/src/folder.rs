//! The page as a folder for web hosts: the same template, script, style and core as in the one file, as files that are named after
//! their content, so that a host and a browser may keep them for ever.
//!
//! What is there only in this form is marked `data-folder`: a page that this one writes of itself is the one file again, and leaves it out
//! (`www/src/page/source.ts`).

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;

use sha2::{Digest, Sha256};

use crate::assemble::{element_content, filled, policy, single_policy};
use crate::{Failure, Made, Outcome, bundle, compress, demo, icon, make, paths, read, write_if_changed};

/// The folder that was built.
#[derive(Debug)]
pub struct Folder {
    /// Where it is.
    pub path: PathBuf,
    /// How many bytes a browser with an empty cache asks for until the page is at work, uncompressed.
    pub bytes: usize,
}

/// What the page may do in this form: run its host's script and style, show its pictures, ask it for its parts, and nobody for anything.
/// The one name is that under which the page hands its worker's address to the browser.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; \
     connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; \
     require-trusted-types-for 'script'; trusted-types overmantel";

/// Files whose bytes are packed already.
const PACKED: [&str; 3] = [".avif", ".jpg", ".png"];

/// What goes over the wire in one packet either way.
const LITTLE: usize = 1000;

/// What stands in the folder's sources and is copied as it is.
const COPIED: [&str; 2] = ["README.md", "robots.txt"];

/// The files by their names, and which of them are named after their content.
#[derive(Default)]
struct Files {
    bytes: BTreeMap<String, Vec<u8>>,
    hashed: Vec<String>,
}

impl Files {
    /// Adds a file and returns its name, which has the first 16 digits of its SHA-256.
    fn add(&mut self, stem: &str, ending: &str, bytes: Vec<u8>) -> String {
        let name = format!("{stem}.{}.{ending}", hash(&bytes));
        self.hashed.push(name.clone());
        self.bytes.insert(name.clone(), bytes);
        name
    }
}

/// Builds the folder from whatever has changed since the last time.
///
/// # Errors
/// When a tool is missing and cannot be fetched, or one of the steps fails.
pub fn build_folder() -> Outcome<Folder> {
    let Made { template, bundle, core } = make()?;
    let (script, style) =
        (element_content(&bundle.script, "script")?, element_content(&bundle.style, "style")?);
    let mut files = Files::default();
    let first = files.add("core", "wasm", core.first);
    let rest = files.add("rest", "wasm", core.second);
    let script_file = files.add("page", "js", script.into());
    let style_file = files.add("page", "css", style.into());
    let early = files.add("early", "js", bundle::early(&paths::www())?.into());
    let touch_icon = files.add("icon", "png", icon::png(192, 12)?);
    let fillings = [
        ("policy", policy(POLICY, &format!(" data-single=\"{}\"", single_policy(script, style)))),
        ("style", head([&first, &rest], &early, &style_file, &touch_icon)),
        ("demo", demo::texts(&paths::demo_data())?.trim_end().to_owned()),
        ("script", format!("<script defer src=\"{script_file}\"></script>")),
        // Behind the script as in the one file, so that both write the same page of themselves.
        ("core", pictures(&mut files)?),
    ];
    let page = filled(&template, &fillings)?;
    let kept: Vec<&str> = files.hashed.iter().map(String::as_str).collect();
    let worker = bundle::worker(&paths::www(), &kept, &hash(page.as_bytes()))?;
    let large = files.add("icon-large", "png", icon::png(512, 32)?);
    let cut = files.add("icon-any-shape", "png", icon::png(512, 20)?);
    files.bytes.insert("manifest.json".into(), manifest(&touch_icon, &large, &cut).into());
    let bytes =
        [&first, &rest, &script_file, &style_file].map(|name| files.bytes[name].len()).iter().sum::<usize>();
    let bytes = bytes + page.len();
    files.bytes.insert("index.html".into(), page.into());
    files.bytes.insert("service-worker.js".into(), worker.into());
    for name in COPIED {
        files.bytes.insert(name.into(), read(&paths::folder_sources().join(name))?);
    }
    write(&files)?;
    Ok(Folder { path: paths::folder(), bytes })
}

/// The style, and what is in the head of this form alone, in one line: the core is asked for before the page's script is there.
fn head([core, rest]: [&str; 2], early: &str, style: &str, icon: &str) -> String {
    format!(
        "<link rel=\"stylesheet\" href=\"{style}\">\
         <script async src=\"{early}\" data-core=\"{core}\" data-rest=\"{rest}\" data-folder></script>\
         <link rel=\"manifest\" href=\"manifest.json\" data-folder>\
         <link rel=\"apple-touch-icon\" href=\"{icon}\" data-folder>"
    )
}

/// The blocks of the demo's pictures, which are files.
fn pictures(files: &mut Files) -> Outcome<String> {
    let mut blocks = String::new();
    for demo::Picture { name, media_type, bytes, file } in demo::pictures(&paths::demo_data())? {
        let (stem, ending) = file.rsplit_once('.').unwrap_or((&file, "bin"));
        let address = files.add(stem, ending, bytes);
        let _written = writeln!(
            blocks,
            r#"<script type="{media_type}" class="demo-picture" data-name="{name}" data-file="{address}"></script>"#
        );
    }
    Ok(blocks.trim_end().to_owned())
}

/// What a device needs to install the page. Its colours are those of `www/page.css` by day.
fn manifest(icon: &str, large: &str, any_shape: &str) -> String {
    format!(
        r##"{{
  "name": "Overmantel",
  "short_name": "Overmantel",
  "description": "Plan pictures on a wall to scale: prints, mats, frames, gaps and hooks",
  "lang": "en",
  "start_url": "./",
  "scope": "./",
  "display": "standalone",
  "background_color": "#e9e5da",
  "theme_color": "#e9e5da",
  "icons": [
    {{ "src": "{icon}", "sizes": "192x192", "type": "image/png" }},
    {{ "src": "{large}", "sizes": "512x512", "type": "image/png" }},
    {{ "src": "{any_shape}", "sizes": "512x512", "type": "image/png", "purpose": "maskable" }}
  ]
}}
"##
    )
}

/// Writes the files with their compressed forms, and removes what an earlier build left.
fn write(files: &Files) -> Outcome<()> {
    let folder = paths::folder();
    let mut stays = Vec::new();
    for (name, bytes) in &files.bytes {
        let path = folder.join(name);
        write_if_changed(&path, bytes)?;
        stays.push(name.clone());
        if bytes.len() > LITTLE && !PACKED.iter().any(|ending| name.ends_with(ending)) {
            compress::write_beside(&path, bytes, files.hashed.contains(name))?;
            stays.extend(["br", "gz"].map(|ending| format!("{name}.{ending}")));
        }
    }
    let entries = fs::read_dir(&folder)
        .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", folder.display())))?;
    for entry in entries.flatten() {
        if !stays.iter().any(|name| entry.file_name() == name.as_str()) {
            fs::remove_file(entry.path()).map_err(|error| {
                Failure::new(format!("{} cannot be removed: {error}.", entry.path().display()))
            })?;
        }
    }
    Ok(())
}

fn hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes)[..8].iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_after_its_content() {
        let mut files = Files::default();
        // From: printf 'p{margin:0}' | sha256sum
        assert_eq!(files.add("page", "css", b"p{margin:0}".to_vec()), "page.41140f44b1b2c6dd.css");
    }
}
