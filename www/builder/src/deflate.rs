//! Deflates as small as deflate can. For the core that takes seconds; so the result is kept until it changes.

use sha2::{Digest, Sha256};
use std::fs;
use std::io::Cursor;

use crate::command::say;
use crate::{Failure, Outcome, paths, write_if_changed};

/// Length of the hash that a kept file begins with.
const HASH: usize = 32;

/// A part of the core as raw deflate (RFC 1951), from the last time where it is the same; it is kept under the part's name.
///
/// # Errors
/// When the result cannot be kept.
pub fn deflated(bytes: &[u8], part: &str) -> Outcome<Vec<u8>> {
    let kept_file = paths::target().join(format!("page/{part}.deflate"));
    let hash = Sha256::digest(bytes);
    if let Ok(kept) = fs::read(&kept_file)
        && kept.len() > HASH
        && kept[..HASH] == hash[..]
    {
        return Ok(kept[HASH..].to_vec());
    }
    say(&format!("Deflating the core, part \"{part}\" (some seconds)…"));
    let deflated = deflate(bytes)?;
    write_if_changed(&kept_file, &[&hash[..], &deflated].concat())?;
    Ok(deflated)
}

/// These bytes as raw deflate.
pub(crate) fn deflate(bytes: &[u8]) -> Outcome<Vec<u8>> {
    let mut deflated = Vec::new();
    zopfli::compress(zopfli::Options::default(), zopfli::Format::Deflate, Cursor::new(bytes), &mut deflated)
        .map_err(|error| Failure::new(format!("A file cannot be deflated: {error}.")))?;
    Ok(deflated)
}

#[cfg(test)]
mod tests {
    #[test]
    fn what_is_deflated_inflates_to_itself() {
        let bytes: Vec<u8> = (0..20_000_u32).flat_map(|number| (number / 7).to_le_bytes()).collect();
        let deflated = super::deflate(&bytes).expect("memory can be written");
        assert!(deflated.len() < bytes.len() / 2, "{} bytes", deflated.len());
        assert_eq!(miniz_oxide::inflate::decompress_to_vec(&deflated).expect("raw deflate"), bytes);
    }
}
