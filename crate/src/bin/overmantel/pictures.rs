//! Picture files read: row by row where the file allows it, otherwise whole, and never with more memory than the limits here.

use crate::failure::pictures::ReadError;
use crate::files;
use overmantel::plan::limits::PICTURE_SIDE_PX;
use source::Source;
use std::fs::File;
use std::io::Read;
use std::path::Path;

pub(crate) mod copy;
mod jpeg_check;
mod jpeg_rows;
mod png_rows;
pub(crate) mod source;
mod tiff_rows;
mod whole;

/// Bytes of memory for a picture, or a strip of it, that can only be read whole.
pub(crate) const MOST_BYTES: u64 = 1_100_000_000;

/// Bytes of what else a file has: colour profiles and the like.
const MOST_EXTRA_BYTES: usize = 64 << 20;

/// What is done with a picture in printing inks.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Inks {
    /// It is refused: its colours are not those that a printer is to be handed.
    Refused,
    /// It becomes red, green and blue, about: good enough to look at.
    Shown,
}

/// Opens a picture file by what its first bytes say it is. Nothing is decoded yet.
pub(crate) fn open(path: &Path, inks: Inks) -> Result<Source, ReadError> {
    files::noted(path);
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
    let source = by_rows.map_or_else(|| whole::open(path, inks), Ok)?;
    let (width, height) = source.stored_px;
    // What a plan can't count on can't be meant; and a row of it would take the memory that is saved by reading rows.
    if !(1..=PICTURE_SIDE_PX).contains(&width) || !(1..=PICTURE_SIDE_PX).contains(&height) {
        return Err(ReadError::Sides { path: path.to_owned(), width, height, most: PICTURE_SIDE_PX });
    }
    Ok(source)
}
