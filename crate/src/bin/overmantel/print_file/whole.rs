//! Files whose rows can't be had one after the other: decoded whole, which takes memory for all of their pixels.

use super::source::{Alpha, Samples, Source, StoredRows};
use crate::failure::print_file::{Fault, ReadError, unreadable};
use image::{ColorType, ExtendedColorType, ImageDecoder, ImageReader, Limits};
use overmantel::print_file::Form;
use std::path::{Path, PathBuf};

/// Bytes of pixels at the most.
const MOST_BYTES: u64 = 4 << 30;

/// Opens any kind of picture file that the decoders know.
pub(super) fn open(path: &Path) -> Result<Source, ReadError> {
    let mut reader = ImageReader::open(path)
        .and_then(ImageReader::with_guessed_format)
        .map_err(unreadable(path, "picture"))?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_BYTES);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(unreadable(path, "picture"))?;
    if matches!(decoder.original_color_type(), ExtendedColorType::Cmyk8 | ExtendedColorType::Cmyk16) {
        return Err(ReadError::Cmyk(path.to_owned()));
    }
    let (is_coloured, is_wide, alpha) = match decoder.color_type() {
        ColorType::L8 => (false, false, Alpha::None),
        ColorType::La8 => (false, false, Alpha::Straight),
        ColorType::Rgb8 => (true, false, Alpha::None),
        ColorType::Rgba8 => (true, false, Alpha::Straight),
        ColorType::L16 => (false, true, Alpha::None),
        ColorType::La16 => (false, true, Alpha::Straight),
        ColorType::Rgb16 => (true, true, Alpha::None),
        ColorType::Rgba16 => (true, true, Alpha::Straight),
        _ => return Err(unreadable(path, "picture")(Fault::Bits)),
    };
    let form = Form { is_coloured, is_wide };
    let samples = Samples { count: form.samples() + usize::from(alpha != Alpha::None), form, alpha };
    let bytes = decoder.total_bytes();
    if bytes > MOST_BYTES {
        return Err(ReadError::Large { path: path.to_owned(), bytes, most: MOST_BYTES });
    }
    let stored_px = decoder.dimensions();
    let orientation = decoder.orientation().map_err(unreadable(path, "picture"))?.to_exif();
    let profile = decoder.icc_profile().map_err(unreadable(path, "picture"))?;
    let mut said: Vec<String> = samples.said().into_iter().collect();
    said.push(format!("it is read whole, which takes {} MB of memory", bytes.div_ceil(1_000_000)));
    Ok(Source {
        form,
        stored_px,
        orientation,
        profile,
        said,
        rows: Box::new(WholeRows {
            decoder: Some(Box::new(decoder)),
            samples,
            pixels: Vec::new(),
            stride: stored_px.0 as usize * samples.bytes(),
            next: 0,
            path: path.to_owned(),
        }),
    })
}

struct WholeRows {
    /// Until the first row is asked for.
    decoder: Option<Box<dyn ImageDecoder>>,
    samples: Samples,
    pixels: Vec<u8>,
    stride: usize,
    next: usize,
    path: PathBuf,
}

impl StoredRows for WholeRows {
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        if let Some(decoder) = self.decoder.take() {
            let bytes = usize::try_from(decoder.total_bytes()).map_err(unreadable(&self.path, "picture"))?;
            self.pixels.resize(bytes, 0);
            decoder.read_image_boxed(&mut self.pixels).map_err(unreadable(&self.path, "picture"))?;
        }
        let stored = &mut self.pixels[self.next * self.stride..][..self.stride];
        if self.samples.form.is_wide {
            for pair in stored.as_chunks_mut::<2>().0 {
                *pair = u16::from_ne_bytes(*pair).to_be_bytes();
            }
        }
        self.samples.plain(stored, row);
        self.next += 1;
        Ok(())
    }
}
