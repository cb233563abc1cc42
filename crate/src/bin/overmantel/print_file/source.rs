//! Picture files read row by row, as they are stored.

use overmantel::colour::{decode, decode_wide, encode, encode_wide};
use overmantel::print_file::Form;
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// A picture file whose rows can be had one after the other.
pub(super) struct Source {
    /// How its pixels are handed over.
    pub(super) form: Form,
    /// Pixels as they are stored, width first.
    pub(super) stored_px: (u32, u32),
    /// How it is turned, as Exif says: 1 upright, to 8.
    pub(super) orientation: u8,
    /// Its colour profile, byte for byte.
    pub(super) profile: Option<Vec<u8>>,
    /// What is done to it besides, in words.
    pub(super) said: Vec<String>,
    /// Its rows, from the top as it is stored.
    pub(super) rows: Box<dyn StoredRows>,
}

/// Rows of a picture, as it is stored, from the top down.
pub(super) trait StoredRows {
    /// The next row, in the form of the source.
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), String>;
}

impl Source {
    /// Opens a picture file by what its first bytes say it is.
    pub(super) fn open(path: &Path) -> Result<Self, String> {
        let mut start = [0; 12];
        let read = File::open(path).and_then(|mut file| file.read(&mut start));
        let count = read.map_err(|why| format!("{} can't be read: {why}", path.display()))?;
        match &start[..count] {
            [0x89, b'P', b'N', b'G', ..] => super::png_rows::open(path),
            [b'I', b'I', 42 | 43, 0, ..] | [b'M', b'M', 0, 42 | 43, ..] => super::tiff_rows::open(path),
            [0xff, 0xd8, ..] => super::jpeg_rows::open(path),
            [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P'] => super::whole::open(path),
            _ => Err(format!(
                "{} is no picture that can be read here; save it as PNG, JPEG or TIFF, and use that",
                path.display()
            )),
        }
    }

    /// Pixels as it is to be seen, width first.
    pub(super) const fn upright_px(&self) -> (u32, u32) {
        let (width, height) = self.stored_px;
        if self.orientation >= 5 { (height, width) } else { (width, height) }
    }
}

/// What becomes of pixels that can be seen through.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Cover {
    /// There are none.
    None,
    /// The last sample is how much of white paper they cover.
    Straight,
    /// The same, and the others are less by it already.
    Reckoned,
    /// The last samples mean something else and are left out.
    LeftOut,
}

/// The samples of a stored pixel: how many, of which form the first are, and what the rest is.
#[derive(Clone, Copy)]
pub(super) struct Samples {
    pub(super) count: usize,
    pub(super) form: Form,
    pub(super) cover: Cover,
}

impl Samples {
    /// Bytes of a stored pixel.
    pub(super) const fn bytes(self) -> usize {
        if self.form.is_wide { self.count * 2 } else { self.count }
    }

    /// Turns stored pixels into those of the form: samples of sixteen bits with the higher byte first, as they come.
    pub(super) fn plain(self, stored: &[u8], row: &mut Vec<u8>) {
        row.clear();
        if self.count == self.form.samples() {
            row.extend_from_slice(stored);
            return;
        }
        for pixel in stored.chunks_exact(self.bytes()) {
            let samples = &pixel[..self.form.bytes()];
            if self.form.is_wide {
                let wide = |pair: &[u8; 2]| u16::from_be_bytes(*pair);
                let cover = pixel.as_chunks::<2>().0.get(self.form.samples()).map_or(u16::MAX, wide);
                for sample in samples.as_chunks::<2>().0 {
                    row.extend(self.over_white_wide(wide(sample), cover).to_be_bytes());
                }
            } else {
                let cover = pixel[self.form.samples()];
                row.extend(samples.iter().map(|&sample| self.over_white(sample, cover)));
            }
        }
    }

    fn over_white(self, sample: u8, cover: u8) -> u8 {
        let share = f32::from(cover) / 255.0;
        match self.cover {
            Cover::Straight if cover < u8::MAX => encode(decode(sample) * share + 1.0 - share),
            Cover::Reckoned => sample.saturating_add(u8::MAX - cover),
            _ => sample,
        }
    }

    fn over_white_wide(self, sample: u16, cover: u16) -> u16 {
        let share = f32::from(cover) / 65_535.0;
        match self.cover {
            Cover::Straight if cover < u16::MAX => encode_wide(decode_wide(sample) * share + 1.0 - share),
            Cover::Reckoned => sample.saturating_add(u16::MAX - cover),
            _ => sample,
        }
    }

    /// What is said of it.
    pub(super) fn said(self) -> Option<String> {
        let is_through = matches!(self.cover, Cover::Straight | Cover::Reckoned);
        is_through.then(|| "what can be seen through is laid over white".into())
    }
}
