//! Which reader opens a picture file: row by row where the file allows it, otherwise whole.

use super::source::Source;
use super::{jpeg_rows, png_rows, tiff_rows, whole};
use crate::failure::print_file::ReadError;
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// Opens a picture file by what its first bytes say it is.
pub(super) fn open(path: &Path) -> Result<Source, ReadError> {
    let mut start = [0; 12];
    let read = File::open(path).and_then(|mut file| file.read(&mut start));
    let count = read.map_err(|why| ReadError::File { path: path.to_owned(), why })?;
    let by_rows = match &start[..count] {
        [0x89, b'P', b'N', b'G', ..] => png_rows::open(path)?,
        [b'I', b'I', 42 | 43, 0, ..] | [b'M', b'M', 0, 42 | 43, ..] => Some(tiff_rows::open(path)?),
        [0xff, 0xd8, ..] => jpeg_rows::open(path)?,
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P'] => None,
        _ => return Err(ReadError::Unknown(path.to_owned())),
    };
    by_rows.map_or_else(|| whole::open(path), Ok)
}
