//! Picture files read row by row, as they are stored.

use crate::failure::pictures::ReadError;
use overmantel::colour::{decode, decode_wide, encode, encode_wide};
use overmantel::print_file::Form;

/// A picture file whose rows can be had one after the other.
pub(crate) struct Source {
    /// How its pixels are handed over.
    pub(crate) form: Form,
    /// Pixels as they are stored, width first.
    pub(crate) stored_px: (u32, u32),
    /// How it is turned, as Exif says: 1 upright, to 8.
    pub(crate) orientation: u8,
    /// Its colour profile, byte for byte.
    pub(crate) profile: Option<Vec<u8>>,
    /// Bytes of memory that reading it takes, about and at most, where it is not read row by row.
    pub(crate) bytes: u64,
    /// What is done to it besides, in words.
    pub(crate) said: Vec<String>,
    /// Its rows, from the top as it is stored.
    pub(crate) rows: Box<dyn StoredRows>,
}

/// Rows of a picture, as it is stored, from the top down.
pub(crate) trait StoredRows {
    /// The next row, in the form of the source.
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError>;

    /// Looks at what stands behind the last row, after it was taken.
    ///
    /// # Errors
    /// When there are more coded pixels than the file says.
    fn end(&mut self) -> Result<(), ReadError> {
        Ok(())
    }
}

impl Source {
    /// Reads what is left of the picture and throws it away.
    ///
    /// # Errors
    /// When it is damaged or has more or fewer pixels than it says.
    pub(crate) fn check_to_the_end(mut self) -> Result<(), ReadError> {
        let mut row = Vec::new();
        for _ in 0..self.stored_px.1 {
            self.rows.next(&mut row)?;
        }
        self.rows.end()
    }

    /// Pixels as it is to be seen, width first.
    pub(crate) const fn upright_px(&self) -> (u32, u32) {
        let (width, height) = self.stored_px;
        if self.orientation >= 5 { (height, width) } else { (width, height) }
    }
}

/// What the samples after the colours mean.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Alpha {
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
pub(crate) struct Samples {
    pub(crate) count: usize,
    pub(crate) form: Form,
    pub(crate) alpha: Alpha,
}

impl Samples {
    /// Bytes of a stored pixel.
    pub(crate) const fn bytes(self) -> usize {
        if self.form.is_wide { self.count * 2 } else { self.count }
    }

    /// Turns stored pixels into those of the form: samples of sixteen bits with the higher byte first, as they come.
    pub(crate) fn plain(self, stored: &[u8], row: &mut Vec<u8>) {
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
    pub(crate) fn said(self) -> Option<String> {
        let is_through = matches!(self.alpha, Alpha::Straight | Alpha::Premultiplied);
        is_through.then(|| "transparent parts are put on white".into())
    }
}

/// Sixteen bits as eight: 65535 = 255 × 257, to the nearest.
pub(crate) fn narrowed(pair: &[u8; 2]) -> u8 {
    u8::try_from((u32::from(u16::from_be_bytes(*pair)) + 128) / 257).unwrap_or(u8::MAX)
}
