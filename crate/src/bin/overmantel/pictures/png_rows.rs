//! PNG files row by row.

use super::MOST_EXTRA_BYTES;
use super::source::{Alpha, Samples, Source, StoredRows};
use crate::failure::pictures::{Fault, ReadError, broken, unreadable};
use image::metadata::Orientation;
use overmantel::print_file::Form;
use png::{BitDepth, ColorType, Decoder, Limits, Reader, Transformations};
use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};

/// Opens a PNG; none where it is interlaced: its rows come several times over, so it has to be read whole.
pub(super) fn open(path: &Path) -> Result<Option<Source>, ReadError> {
    let file = File::open(path).map_err(unreadable(path, "PNG"))?;
    let mut decoder = Decoder::new_with_limits(BufReader::new(file), Limits { bytes: MOST_EXTRA_BYTES });
    decoder.set_transformations(Transformations::EXPAND);
    decoder.set_ignore_text_chunk(true);
    let reader = decoder.read_info().map_err(|why| unreadable(path, "PNG")(Fault::from(why)))?;
    let info = reader.info();
    if info.interlaced {
        return Ok(None);
    }
    let (colour, depth) = reader.output_color_type();
    let (is_coloured, alpha) = match colour {
        ColorType::Grayscale => (false, Alpha::None),
        ColorType::GrayscaleAlpha => (false, Alpha::Straight),
        ColorType::Rgba => (true, Alpha::Straight),
        _ => (true, Alpha::None),
    };
    let form = Form { is_coloured, is_wide: depth == BitDepth::Sixteen };
    let count = form.samples() + usize::from(alpha != Alpha::None);
    let samples = Samples { count, form, alpha };
    let orientation = info.exif_metadata.as_deref().and_then(Orientation::from_exif_chunk);
    Ok(Some(Source {
        form,
        stored_px: (info.width, info.height),
        orientation: orientation.map_or(1, Orientation::to_exif),
        profile: info.icc_profile.as_deref().map(<[u8]>::to_vec),
        bytes: 0,
        said: samples.said().into_iter().collect(),
        rows: Box::new(PngRows { reader, samples, path: path.to_owned() }),
    }))
}

struct PngRows {
    reader: Reader<BufReader<File>>,
    samples: Samples,
    path: PathBuf,
}

impl StoredRows for PngRows {
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        let stored = self.reader.next_row().map_err(|why| broken(&self.path)(Fault::from(why)))?;
        let stored = stored.ok_or_else(|| ReadError::Ends(self.path.clone()))?;
        self.samples.plain(stored.data(), row);
        Ok(())
    }
}
