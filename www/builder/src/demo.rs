//! The demo's pictures, plans and prices, as data blocks: inert elements that the page reads its demo from.

use std::ffi::OsStr;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use crate::{Failure, Outcome, read};

/// The blocks for all of `pictures/*.jpg` in the folder of the demo's data, in the order of their names. Where a picture stands there as
/// AVIF too, that is what the page carries, under the name of the picture's file:
///
/// ```html
/// <script type="image/avif;base64" class="demo-picture" data-name="low-water-evening.jpg">…</script>
/// ```
///
/// # Errors
/// When a file cannot be read or has a name that does not belong in a page.
pub fn picture_blocks(demo_data: &Path) -> Outcome<PictureBlocks> {
    let first_plan = fs::read_to_string(demo_data.join("plans").join(FIRST_PLAN)).unwrap_or_default();
    let mut blocks = PictureBlocks::default();
    for Picture { name, media_type, bytes, .. } in pictures(demo_data)? {
        let media_type = format!("{media_type};base64");
        let is_first = first_plan.contains(&format!("\"{name}\""));
        let of = if is_first { &mut blocks.first } else { &mut blocks.others };
        push(of, &media_type, "demo-picture", &name, &STANDARD.encode(bytes));
    }
    Ok(blocks)
}

/// The plan that the page opens on (`www/src/start/demo.ts`).
const FIRST_PLAN: &str = "low-water.json";

/// The blocks of the demo's pictures.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct PictureBlocks {
    /// Those that the page opens on.
    pub first: String,
    /// The others.
    pub others: String,
}

/// A picture as the page has it.
#[derive(Debug)]
pub(crate) struct Picture {
    /// The name of the picture's file, by which plans know it.
    pub(crate) name: String,
    pub(crate) media_type: &'static str,
    pub(crate) bytes: Vec<u8>,
    /// The name of the file that was read.
    pub(crate) file: String,
}

/// The pictures alone.
pub(crate) fn pictures(demo_data: &Path) -> Outcome<Vec<Picture>> {
    let picture = |path: PathBuf| {
        let smaller = path.with_extension("avif");
        let (media_type, carried) = match smaller.exists() {
            true => ("image/avif", &smaller),
            false => ("image/jpeg", &path),
        };
        Ok(Picture { name: name(&path)?, media_type, bytes: read(carried)?, file: name(carried)? })
    };
    files(&demo_data.join("pictures"), "jpg")?.into_iter().map(picture).collect()
}

/// The blocks of plans and prices alone.
pub(crate) fn texts(demo_data: &Path) -> Outcome<String> {
    let mut blocks = String::new();
    for (folder, class) in [("plans", "demo-plan"), ("prices", "demo-prices")] {
        for path in files(&demo_data.join(folder), "json")? {
            let text = String::from_utf8(read(&path)?)
                .map_err(|_| Failure::new(format!("{} is not UTF-8 text.", path.display())))?;
            push(&mut blocks, "application/json", class, &name(&path)?, &inert_json(&text));
        }
    }
    Ok(blocks)
}

fn push(blocks: &mut String, media_type: &str, class: &str, name: &str, content: &str) {
    let _written = writeln!(
        blocks,
        r#"<script type="{media_type}" class="{class}" data-name="{name}">{content}</script>"#
    );
}

/// JSON that cannot end the element it stands in, in ASCII: `<` and all other letters occur only inside strings, where they
/// have another spelling.
fn inert_json(json: &str) -> String {
    let mut inert = String::new();
    for c in json.trim().chars() {
        if c.is_ascii() && c != '<' {
            inert.push(c);
        } else {
            inert.extend(c.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")));
        }
    }
    inert
}

/// The files with this extension in a folder, by name; none where there is no such folder.
fn files(folder: &Path, extension: &str) -> Outcome<Vec<PathBuf>> {
    if !folder.exists() {
        return Ok(Vec::new());
    }
    let entries = fs::read_dir(folder)
        .map_err(|error| Failure::new(format!("{} cannot be read: {error}.", folder.display())))?;
    let mut files: Vec<PathBuf> = entries
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension() == Some(OsStr::new(extension)))
        .collect();
    files.sort();
    Ok(files)
}

/// A file's name, which goes into an attribute as it is.
fn name(path: &Path) -> Outcome<String> {
    path.file_name()
        .and_then(OsStr::to_str)
        .filter(|name| name.chars().all(|c| c.is_ascii_alphanumeric() || "-_.".contains(c)))
        .map(str::to_owned)
        .ok_or_else(|| {
            Failure::new(format!(
                "{}: please name it with Latin letters, digits and hyphens.",
                path.display()
            ))
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plan_cannot_end_its_element() {
        assert_eq!(inert_json("{\"title\": \"</script><b>\"}\n"), r#"{"title": "\u003c/script>\u003cb>"}"#);
    }

    #[test]
    fn other_letters_are_spelled_in_ascii() {
        assert_eq!(inert_json(r#"{"title": "Düne 𝄞"}"#), r#"{"title": "D\u00fcne \ud834\udd1e"}"#);
    }

    #[test]
    fn names_that_would_need_escaping_are_refused() {
        assert_eq!(name(Path::new("a/low-water_2.jpg")), Ok("low-water_2.jpg".to_owned()));
        assert!(name(Path::new("a/\"onload.jpg")).is_err());
    }

    #[test]
    fn no_folder_is_an_empty_demo() {
        assert_eq!(picture_blocks(Path::new("no/such/folder")), Ok(PictureBlocks::default()));
    }
}
