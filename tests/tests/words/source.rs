//! The sentences of a source file: its string literals, its documenting comments, its lines.

use overmantel_builder::paths;
use regex::Regex;
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

/// A text that a person reads, and where it stands.
#[derive(Clone)]
pub(crate) struct Read {
    pub(crate) place: String,
    pub(crate) text: String,
}

/// The files of a folder with these endings, from the top of the repository; nothing that was installed or built.
pub(crate) fn files(folder: &str, endings: &[&str]) -> Vec<String> {
    fn walk(root: &Path, folder: &Path, endings: &[&str], found: &mut Vec<String>) {
        let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
        for path in entries.map(|entry| entry.expect("an entry").path()) {
            let is_ours = !["node_modules", "dist"].iter().any(|name| path.ends_with(name));
            if path.is_dir() && is_ours {
                walk(root, &path, endings, found);
            } else if endings.iter().any(|ending| path.extension().is_some_and(|has| has == *ending)) {
                found.push(path.strip_prefix(root).expect("below the top").to_string_lossy().into_owned());
            }
        }
    }
    let root = paths::root();
    let mut found = Vec::new();
    walk(&root, &root.join(folder), endings, &mut found);
    found.sort();
    found
}

fn text(file: &str) -> String {
    fs::read_to_string(paths::root().join(file)).unwrap_or_else(|error| panic!("{file}: {error}"))
}

/// The part of a Rust file before its own tests.
fn program(file: &str) -> String {
    let text = text(file);
    text.split("#[cfg(test)]").next().unwrap_or_default().to_owned()
}

/// Line comments, literals of text, bytes and letters, as far as Rust has them; what was matched first wins.
static TOKENS: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r####"(?s)//[^\n]*|r#+".*?"#+|b?"(?:[^"\\]|\\.)*"|'(?:[^'\\\n]|\\.)'"####).expect("a pattern")
});

/// The literals with more than one word. Names in braces are no words; reasons for a lint or a panic are for developers.
pub(crate) fn literals(file: &str) -> Vec<Read> {
    let continued = Regex::new(r"\\\n\s*").expect("a pattern");
    let braces = Regex::new(r"\{[a-z_0-9.:?]*\}").expect("a pattern");
    let text = program(file);
    let tokens = TOKENS.find_iter(&text).filter(|token| token.as_str().starts_with(['"', 'r']));
    let read = tokens.filter_map(|token| {
        let before = text[..token.start()].trim_end();
        let is_reason =
            ["reason =", "expect(", "panic!(", "assert!(", "name ="].iter().any(|end| before.ends_with(end));
        let said = continued.replace_all(token.as_str(), "");
        let said = braces.replace_all(&said, "_").replace("\\\"", "\"");
        let line = text[..token.start()].matches('\n').count() + 1;
        let is_said = said.trim_matches('"').trim().contains(' ') && !is_reason;
        is_said.then(|| Read { place: format!("{file}:{line}"), text: said })
    });
    read.collect()
}

/// The documenting comments, each line by itself; without examples and names of code.
pub(crate) fn comments(file: &str) -> Vec<Read> {
    let text = program(file);
    let mut is_example = false;
    let tokens = TOKENS
        .find_iter(&text)
        .filter(|token| ["///", "//!"].iter().any(|is| token.as_str().starts_with(is)));
    let read = tokens.filter_map(|token| {
        let comment = &token.as_str()[3..];
        let is_fence = comment.trim().starts_with("```");
        is_example ^= is_fence;
        let line = text[..token.start()].matches('\n').count() + 1;
        let is_said = !is_example && !is_fence;
        is_said.then(|| Read { place: format!("{file}:{line}"), text: without_code(comment) })
    });
    read.collect()
}

/// The lines of a document, without names of code.
pub(crate) fn lines(file: &str) -> Vec<Read> {
    let lines = text(file);
    let read = lines.lines().enumerate().map(|(line, text)| Read {
        place: format!("{file}:{}", line + 1),
        text: if file.ends_with(".md") { without_code(text) } else { text.to_owned() },
    });
    read.collect()
}

/// A line without what stands in backticks, or is set as code.
fn without_code(line: &str) -> String {
    static CODE: LazyLock<Regex> = LazyLock::new(|| Regex::new("`[^`]*`").expect("a pattern"));
    if line.starts_with("    ") { String::new() } else { CODE.replace_all(line, "_").into_owned() }
}

/// What a JSON file says in sentences: titles, names and descriptions; keys and what is chosen from a list are no sentences.
pub(crate) fn described(file: &str) -> Vec<Read> {
    fn walk(value: &Value, file: &str, found: &mut Vec<Read>) {
        match value {
            Value::Object(members) => {
                for (key, value) in members {
                    match value {
                        Value::String(text) if ["title", "name", "description"].contains(&key.as_str()) => {
                            found.push(Read { place: file.to_owned(), text: text.clone() });
                        }
                        other => walk(other, file, found),
                    }
                }
            }
            Value::Array(values) => values.iter().for_each(|value| walk(value, file, found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    let value = serde_json::from_str(&text(file)).unwrap_or_else(|error| panic!("{file}: {error}"));
    walk(&value, file, &mut found);
    found
}
