//! A file of ours before it is read: its length, its JSON and its version.

use super::read::{self, FormError, FormFault};
use super::{Thing, write};
use crate::json::{self, JsonError, Node};
use crate::length::Unit;
use std::fmt;

/// A kind of file.
#[derive(Debug, PartialEq, Eq)]
pub struct Format {
    /// What a file of it is called, such as "the price book".
    pub file: &'static str,
    /// What is in it, such as "a price book".
    pub content: &'static str,
    /// What it is among files, such as "an Overmantel price book".
    pub ours: &'static str,
    /// The key of its version.
    pub key: &'static str,
    /// The version that is read.
    pub version: u32,
    /// Bytes at most.
    pub most: usize,
}

/// Why a text is not read as a file of this kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFault {
    /// It has so many bytes, which is too many.
    Long(usize),
    /// It is no JSON.
    Json(JsonError),
    /// It is JSON, and not one of ours: where, and why.
    NotOurs(String),
    /// It is of a later version.
    Version(i64),
    /// Something in it is out of place; the sentence says where.
    Form(String),
}

/// Why a file is not read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct FileError {
    /// What it should have been.
    pub format: &'static Format,
    /// What is wrong with it.
    pub fault: FileFault,
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Format { file, content, ours, version, most, .. } = self.format;
        match &self.fault {
            FileFault::Long(given) => {
                write!(f, "{file} has {given} bytes, and {content} may have at most {most}")
            }
            FileFault::Json(why) => write!(f, "this is not {ours}: {why}"),
            FileFault::NotOurs(why) => write!(f, "this is not {ours}: {why}"),
            FileFault::Version(given) => write!(
                f,
                "{file} has version {given}, and this program reads version {version}; open it with a newer one"
            ),
            FileFault::Form(why) => write!(f, "{file} can't be read: {why}"),
        }
    }
}

impl Format {
    fn error(&'static self, fault: FileFault) -> FileError {
        FileError { format: self, fault }
    }

    /// A text as JSON of this version, without the version.
    ///
    /// # Errors
    /// When it is too long, is not JSON or not one of ours, or is of a later version.
    pub(crate) fn open(&'static self, text: &str) -> Result<Node, FileError> {
        self.open_since(self.version, text).map(|(node, _)| node)
    }

    /// A text as JSON of this version or an earlier one from `least` on, without the version, which stands beside it.
    ///
    /// # Errors
    /// As [`open`](Self::open).
    pub(crate) fn open_since(&'static self, least: u32, text: &str) -> Result<(Node, i64), FileError> {
        if text.len() > self.most {
            return Err(self.error(FileFault::Long(text.len())));
        }
        let mut node: Node = json::read(text).map_err(|why| self.error(FileFault::Json(why)))?;
        let not_ours = |way, fault| Err(self.error(FileFault::NotOurs(FormError { way, fault }.text(text))));
        if !matches!(node, Node::Group(_)) {
            return not_ours(
                Vec::new(),
                FormFault::Kind { given: node.kind(), wanted: "an object in braces" },
            );
        }
        match node.take(self.key) {
            Some(Node::Whole(given)) if (i64::from(least)..=i64::from(self.version)).contains(&given) => {
                Ok((node, given))
            }
            Some(Node::Whole(given)) => Err(self.error(FileFault::Version(given))),
            Some(other) => {
                let fault = FormFault::Kind { given: other.kind(), wanted: "a whole number" };
                not_ours(vec![self.key.to_owned()], fault)
            }
            None => not_ours(Vec::new(), FormFault::Missing(self.key)),
        }
    }

    /// Writes a thing as a file of this version.
    #[must_use]
    pub(crate) fn write(&self, thing: &mut dyn Thing) -> String {
        self.node(thing).pretty()
    }

    /// Writes a thing on one line.
    #[must_use]
    pub(crate) fn compact(&self, thing: &mut dyn Thing) -> String {
        self.node(thing).compact()
    }

    fn node(&self, thing: &mut dyn Thing) -> Node {
        let mut node = write::write(thing);
        if let Node::Group(entries) = &mut node {
            entries.insert(0, (self.key.to_owned(), Node::Whole(self.version.into())));
        }
        node
    }

    /// Reads what was opened; `text` is for the place of what is wrong.
    ///
    /// # Errors
    /// What is wrong, and where.
    pub(crate) fn read(
        &'static self,
        thing: &mut dyn Thing,
        node: &Node,
        bare: Unit,
        text: &str,
    ) -> Result<(), FileError> {
        read::read(thing, node, bare).map_err(|why| self.wrong(&why, text))
    }

    /// Something in it is out of place.
    pub(crate) fn wrong(&'static self, why: &FormError, text: &str) -> FileError {
        self.error(FileFault::Form(why.text(text)))
    }
}
