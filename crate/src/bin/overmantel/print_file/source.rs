//! Picture files read row by row, as they are stored.

use crate::failure::print_file::ReadError;
use overmantel::colour::{decode, decode_wide, encode, encode_wide};
use overmantel::print_file::Form;

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
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError>;
}

impl Source {
    /// Pixels as it is to be seen, width first.
    pub(super) const fn upright_px(&self) -> (u32, u32) {
        let (width, height) = self.stored_px;
        if self.orientation >= 5 { (height, width) } else { (width, height) }
    }
}

/// What the samples after the colours mean.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Alpha {
    /// There are none.
    None,
    /// Straight alpha: the colours are as they would be without it.
    Straight,
    /// Premultiplied alpha: the colours are multiplied by it already.
    Premultiplied,
    /// Something else, which is ignored.
    Ignored,
}

/// The samples of a stored pixel: how many, of which form the first are, and what the rest is.
#[derive(Clone, Copy)]
pub(super) struct Samples {
    pub(super) count: usize,
    pub(super) form: Form,
    pub(super) alpha: Alpha,
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
                let alpha = pixel.as_chunks::<2>().0.get(self.form.samples()).map_or(u16::MAX, wide);
                for sample in samples.as_chunks::<2>().0 {
                    row.extend(self.over_white_wide(wide(sample), alpha).to_be_bytes());
                }
            } else {
                let alpha = pixel[self.form.samples()];
                row.extend(samples.iter().map(|&sample| self.over_white(sample, alpha)));
            }
        }
    }

    fn over_white(self, sample: u8, alpha: u8) -> u8 {
        let share = f32::from(alpha) / 255.0;
        match self.alpha {
            Alpha::Straight if alpha < u8::MAX => encode(decode(sample) * share + 1.0 - share),
            Alpha::Premultiplied => sample.saturating_add(u8::MAX - alpha),
            _ => sample,
        }
    }

    fn over_white_wide(self, sample: u16, alpha: u16) -> u16 {
        let share = f32::from(alpha) / 65_535.0;
        match self.alpha {
            Alpha::Straight if alpha < u16::MAX => encode_wide(decode_wide(sample) * share + 1.0 - share),
            Alpha::Premultiplied => sample.saturating_add(u16::MAX - alpha),
            _ => sample,
        }
    }

    /// What is said of it.
    pub(super) fn said(self) -> Option<String> {
        let is_through = matches!(self.alpha, Alpha::Straight | Alpha::Premultiplied);
        is_through.then(|| "what can be seen through is laid over white".into())
    }
}
