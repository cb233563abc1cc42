//! Compresses files for web hosts that hand them out as they are: `.br` (RFC 7932) and `.gz` (RFC 1952) beside each.
//!
//! Both are made by crates that the lock file pins, so that the same file is the same compressed, on any machine.

use std::fs;
use std::path::{Path, PathBuf};

use brotli::enc::BrotliEncoderParams;

use crate::{Failure, Outcome, deflate};

/// A gzip header (RFC 1952, 2.3): deflate, no name, no time, made as small as can be, by no system in particular.
const GZIP_HEADER: [u8; 10] = [0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 2, 255];

/// How the core's parts begin, whose deflated forms both forms of the page have.
const WASM: &[u8] = b"\0asm";

/// Writes both forms of a file beside it.
///
/// Where its name has its content's hash, those that are there are taken as they are: that of the core takes seconds.
///
/// # Errors
/// When one of them cannot be written.
pub fn write_beside(path: &Path, bytes: &[u8], name_has_hash: bool) -> Outcome<()> {
    type Compress = fn(&[u8], &str) -> Outcome<Vec<u8>>;
    let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
    let stem = name.split('.').next().unwrap_or_default();
    for (ending, compress) in [("br", brotli as Compress), ("gz", gzip)] {
        let mut beside = path.as_os_str().to_owned();
        beside.push(format!(".{ending}"));
        let beside = PathBuf::from(beside);
        if !(name_has_hash && beside.exists()) {
            write_whole(&beside, &compress(bytes, stem)?)?;
        }
    }
    Ok(())
}

/// Writes a file so that it is there whole or not at all.
fn write_whole(path: &Path, bytes: &[u8]) -> Outcome<()> {
    let unfinished = path.with_extension("unfinished");
    fs::write(&unfinished, bytes)
        .and_then(|()| fs::rename(&unfinished, path))
        .map_err(|error| Failure::new(format!("{} cannot be written: {error}.", path.display())))
}

fn brotli(bytes: &[u8], _stem: &str) -> Outcome<Vec<u8>> {
    let mut compressed = Vec::new();
    let settings =
        BrotliEncoderParams { quality: 11, lgwin: 22, size_hint: bytes.len(), ..Default::default() };
    brotli::BrotliCompress(&mut &*bytes, &mut compressed, &settings)
        .map_err(|error| Failure::new(format!("A file cannot be compressed: {error}.")))?;
    Ok(compressed)
}

fn gzip(bytes: &[u8], stem: &str) -> Outcome<Vec<u8>> {
    let check = crc32fast::hash(bytes).to_le_bytes();
    let deflated =
        if bytes.starts_with(WASM) { deflate::deflated(bytes, stem)? } else { deflate::deflate(bytes)? };
    // The last four bytes of a length, as the format has it.
    let length = bytes.len().to_le_bytes();
    Ok([&GZIP_HEADER[..], &deflated, &check, &length[..4]].concat())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_compressed_is_the_same_again() {
        let bytes: Vec<u8> = (0..20_000_u32).flat_map(|number| (number / 7).to_le_bytes()).collect();
        let mut again = Vec::new();
        let compressed = brotli(&bytes, "").expect("memory can be written");
        assert!(compressed.len() < bytes.len() / 2, "{} bytes", compressed.len());
        brotli::BrotliDecompress(&mut &*compressed, &mut again).expect("brotli");
        assert_eq!(again, bytes);
    }

    #[test]
    fn gzip_is_as_the_format_says() {
        // From: printf 'ebb and flood' | gzip -9n | od -An -tx1: the eight bytes at the end.
        let compressed = gzip(b"ebb and flood", "").expect("memory can be written");
        let end = &compressed[compressed.len() - 8..];
        assert_eq!(end, EBB_AND_FLOOD);
        let deflated = &compressed[GZIP_HEADER.len()..compressed.len() - 8];
        assert_eq!(miniz_oxide::inflate::decompress_to_vec(deflated).expect("deflate"), b"ebb and flood");
    }

    const EBB_AND_FLOOD: [u8; 8] = [0xbd, 0x2f, 0xbb, 0xe5, 0x0d, 0x00, 0x00, 0x00];
}
