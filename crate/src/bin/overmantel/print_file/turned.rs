//! The rows of a picture as it is to be seen. One that is stored upside down or on its side is first laid out in a file in the folder of the
//! output, since its first row is not the first that is stored. That file has no name, so that nothing is left of it however this ends.

use crate::failure::pictures::ReadError;
use crate::pictures::source::{Source, StoredRows};
use std::fs::File;
use std::io::{BufWriter, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// Rows of an upright picture, from one on.
pub(super) enum Upright {
    /// As they are stored, left and right exchanged or not; how many are to be passed over first, and how many are left.
    Straight { rows: Box<dyn StoredRows>, is_mirrored: bool, passed_over: u32, left: u32 },
    /// From a file.
    Laid(Laid),
}

impl Upright {
    /// The rows from `first` on. `folder` takes a file of all pixels, where one is needed; `seen` hears of every row that is laid out.
    pub(super) fn of(
        source: Source,
        first: u32,
        folder: &Path,
        seen: &mut dyn FnMut(u32),
    ) -> Result<Self, ReadError> {
        if source.orientation <= 2 {
            let is_mirrored = source.orientation == 2;
            let left = source.stored_px.1.saturating_sub(first);
            return Ok(Self::Straight { rows: source.rows, is_mirrored, passed_over: first, left });
        }
        Laid::of(source, first, folder, seen).map(Self::Laid)
    }

    /// The next row; pixels are of so many bytes.
    pub(super) fn next(&mut self, bytes: usize, row: &mut Vec<u8>) -> Result<(), ReadError> {
        match self {
            Self::Straight { rows, is_mirrored, passed_over, left } => {
                for _ in 0..std::mem::take(passed_over) {
                    rows.next(row)?;
                }
                rows.next(row)?;
                *left = left.saturating_sub(1);
                if *left == 0 {
                    rows.end()?;
                }
                if *is_mirrored {
                    exchange(row, bytes);
                }
                Ok(())
            }
            Self::Laid(laid) => laid.next(row),
        }
    }
}

/// Exchanges left and right.
fn exchange(row: &mut [u8], bytes: usize) {
    row.reverse();
    row.chunks_exact_mut(bytes).for_each(<[u8]>::reverse);
}

/// A picture laid out in a file without a name.
pub(super) struct Laid {
    file: File,
    folder: PathBuf,
    stored_px: (u32, u32),
    bytes: usize,
    orientation: u8,
    next: u32,
    /// Upright rows that were read together, and the first of them.
    strip: Vec<u8>,
    strip_from: u32,
}

/// Bytes of a strip of columns that are read together.
const STRIP_BYTES: usize = 64 << 20;

impl Laid {
    fn of(
        mut source: Source,
        first: u32,
        folder: &Path,
        seen: &mut dyn FnMut(u32),
    ) -> Result<Self, ReadError> {
        let failed = |why: std::io::Error| ReadError::Turned { folder: folder.to_owned(), why };
        let mut laid = Self {
            file: tempfile::tempfile_in(folder).map_err(failed)?,
            folder: folder.to_owned(),
            stored_px: source.stored_px,
            bytes: source.form.bytes(),
            orientation: source.orientation,
            next: first,
            strip: Vec::new(),
            strip_from: 0,
        };
        let mut row = Vec::new();
        let mut out = BufWriter::with_capacity(1 << 20, &mut laid.file);
        for index in 0..source.stored_px.1 {
            source.rows.next(&mut row)?;
            out.write_all(&row).map_err(failed)?;
            seen(index + 1);
        }
        source.rows.end()?;
        out.flush().map_err(failed)?;
        drop(out);
        Ok(laid)
    }

    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        let number = self.next;
        self.next += 1;
        let read = if self.orientation <= 4 { self.row(number, row) } else { self.column(number, row) };
        read.map_err(|why| ReadError::Turned { folder: self.folder.clone(), why })
    }

    /// 3 is upside down, 4 the same seen in a mirror.
    fn row(&mut self, number: u32, row: &mut Vec<u8>) -> std::io::Result<()> {
        let stride = self.stored_px.0 as usize * self.bytes;
        row.resize(stride, 0);
        self.read_at(self.stored_px.1 - 1 - number, 0, row)?;
        if self.orientation == 3 {
            exchange(row, self.bytes);
        }
        Ok(())
    }

    fn read_at(&mut self, row: u32, column: u32, pixels: &mut [u8]) -> std::io::Result<()> {
        let pixel = u64::from(row) * u64::from(self.stored_px.0) + u64::from(column);
        self.file.seek(SeekFrom::Start(pixel * self.bytes as u64))?;
        self.file.read_exact(pixels)
    }

    /// 5 to 8 lie on their side: an upright row is a stored column, from the left in 5 and 6, else from the right. It begins at the stored
    /// foot in 6 and 7, else at the top.
    fn column(&mut self, number: u32, row: &mut Vec<u8>) -> std::io::Result<()> {
        let (width, height) = self.stored_px;
        let stride = height as usize * self.bytes;
        let place = (number.wrapping_sub(self.strip_from)) as usize * stride;
        if place + stride > self.strip.len() || number < self.strip_from {
            self.fill(number, width, height)?;
        }
        let place = (number - self.strip_from) as usize * stride;
        row.clear();
        row.extend_from_slice(&self.strip[place..place + stride]);
        Ok(())
    }

    fn fill(&mut self, number: u32, width: u32, height: u32) -> std::io::Result<()> {
        let stride = height as usize * self.bytes;
        let most = u32::try_from(STRIP_BYTES / stride).unwrap_or(1).max(1);
        let count = most.min(width - number);
        let is_from_left = self.orientation <= 6;
        let is_from_foot = matches!(self.orientation, 6 | 7);
        let column = if is_from_left { number } else { width - number - count };
        self.strip.resize(count as usize * stride, 0);
        self.strip_from = number;
        let mut pixels = vec![0; count as usize * self.bytes];
        for stored in 0..height {
            self.read_at(stored, column, &mut pixels)?;
            let across = if is_from_foot { height - 1 - stored } else { stored };
            for (index, pixel) in pixels.chunks_exact(self.bytes).enumerate() {
                let down = if is_from_left { index } else { count as usize - 1 - index };
                let at = down * stride + across as usize * self.bytes;
                self.strip[at..at + self.bytes].copy_from_slice(pixel);
            }
        }
        Ok(())
    }
}
