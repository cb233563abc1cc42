//! TIFF files row by row: those that are not packed from the very bytes, others by their strips or rows of tiles.

use super::source::{Alpha, Samples, Source, StoredRows};
use super::{MOST_BYTES, MOST_EXTRA_BYTES};
use crate::failure::pictures::{Fault, ReadError, broken, unreadable};
use overmantel::print_file::Form;
use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use tiff::ColorType;
use tiff::decoder::{ChunkType, Decoder, DecodingResult, Limits};
use tiff::tags::{ByteOrder, Tag};

type Read_ = BufReader<File>;

/// Opens a TIFF.
pub(super) fn open(path: &Path) -> Result<Source, ReadError> {
    let file = File::open(path).map_err(unreadable(path, "TIFF"))?;
    let unread = |why| unreadable(path, "TIFF")(Fault::from(why));
    let decoder = Decoder::new(BufReader::new(file)).map_err(unread)?;
    let mut limits = Limits::default();
    let most = usize::try_from(MOST_BYTES).unwrap_or(usize::MAX);
    limits.decoding_buffer_size = most;
    limits.intermediate_buffer_size = most;
    limits.ifd_value_size = MOST_EXTRA_BYTES;
    let mut decoder = decoder.with_limits(limits);
    let stored_px = decoder.dimensions().map_err(unread)?;
    let mut number = |tag| decoder.find_tag_unsigned::<u32>(tag).map_err(unread);
    let planes = number(Tag::PlanarConfiguration)?.unwrap_or(1);
    let orientation = number(Tag::Orientation)?.unwrap_or(1);
    let compression = number(Tag::Compression)?.unwrap_or(1);
    let photometric = number(Tag::PhotometricInterpretation)?.unwrap_or(1);
    let fill_order = number(Tag::FillOrder)?.unwrap_or(1);
    let extra = decoder.find_tag_unsigned_vec::<u16>(Tag::ExtraSamples).map_err(unread)?;
    let samples = match decoder.colortype().map_err(unread)? {
        ColorType::CMYK(_) | ColorType::CMYKA(_) => return Err(ReadError::Cmyk(path.to_owned())),
        ColorType::Gray(bits) => samples(bits, false, false, extra.as_deref()),
        ColorType::GrayA(bits) => samples(bits, false, true, extra.as_deref()),
        ColorType::RGB(bits) => samples(bits, true, false, extra.as_deref()),
        ColorType::RGBA(bits) => samples(bits, true, true, extra.as_deref()),
        _ => None,
    };
    let Some(samples) = samples.filter(|_| planes == 1) else {
        return Err(ReadError::Tiff(path.to_owned()));
    };
    let profile = match decoder.find_tag(Tag::IccProfile).map_err(unread)? {
        Some(value) => Some(value.into_u8_vec().map_err(unread)?),
        None => None,
    };
    let mut said: Vec<String> = samples.said().into_iter().collect();
    if decoder.more_images() {
        said.push("it has several pictures; the first is used".into());
    }
    let is_stripped = decoder.get_chunk_type() == ChunkType::Strip;
    // 2 is RGB, 1 grey from black to white (TIFF 6.0, section 8).
    let is_bare = is_stripped && compression == 1 && fill_order == 1 && matches!(photometric, 1 | 2);
    let high = u64::from(decoder.chunk_dimensions().1.min(stored_px.1));
    let band = high.saturating_mul(u64::from(stored_px.0)).saturating_mul(samples.bytes() as u64);
    let bytes = if is_bare { 0 } else { band };
    let rows: Box<dyn StoredRows> = if is_bare {
        let offsets = decoder.get_tag_u64_vec(Tag::StripOffsets).map_err(unread)?;
        let is_little = decoder.byte_order() == ByteOrder::LittleEndian;
        let file = File::open(path).map_err(unreadable(path, "TIFF"))?;
        Box::new(Bare {
            file: BufReader::with_capacity(1 << 20, file),
            offsets,
            rows_per_strip: decoder.chunk_dimensions().1.max(1),
            stored: Vec::new(),
            stride: stored_px.0 as usize * samples.bytes(),
            is_swapped: samples.form.is_wide && is_little,
            samples,
            next: 0,
            path: path.to_owned(),
        })
    } else {
        let size = decoder.chunk_dimensions();
        Box::new(Packed {
            decoder,
            samples,
            width: stored_px.0,
            size,
            band: Vec::new(),
            stored: Vec::new(),
            next: 0,
            path: path.to_owned(),
        })
    };
    let orientation = u8::try_from(orientation).ok().filter(|turned| (1..=8).contains(turned)).unwrap_or(1);
    Ok(Source { form: samples.form, stored_px, orientation, profile, bytes, said, rows })
}

/// The samples of a pixel; none where they are of other bits than 8 or 16.
fn samples(bits: u8, is_coloured: bool, has_more: bool, extra: Option<&[u16]>) -> Option<Samples> {
    let form = Form { is_coloured, is_wide: bits == 16 };
    // 1 is alpha that the colours are less by already, 2 alpha by itself, anything else has no meaning here (TIFF 6.0, section 18).
    let alpha = match extra.and_then(<[u16]>::first) {
        _ if !has_more => Alpha::None,
        Some(1) => Alpha::Premultiplied,
        Some(2) => Alpha::Straight,
        _ => Alpha::Ignored,
    };
    let count = form.samples() + usize::from(has_more);
    matches!(bits, 8 | 16).then_some(Samples { count, form, alpha })
}

/// Rows that stand in the file as they are.
struct Bare {
    file: Read_,
    offsets: Vec<u64>,
    rows_per_strip: u32,
    stored: Vec<u8>,
    stride: usize,
    is_swapped: bool,
    samples: Samples,
    next: u32,
    path: PathBuf,
}

impl StoredRows for Bare {
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        if self.next.is_multiple_of(self.rows_per_strip) {
            let offset = self.offsets.get((self.next / self.rows_per_strip) as usize);
            let offset = offset.ok_or_else(|| broken(&self.path)(Fault::NoStrip))?;
            self.file.seek(SeekFrom::Start(*offset)).map_err(broken(&self.path))?;
        }
        self.stored.resize(self.stride, 0);
        self.file.read_exact(&mut self.stored).map_err(broken(&self.path))?;
        if self.is_swapped {
            self.stored.as_chunks_mut::<2>().0.iter_mut().for_each(|pair| pair.swap(0, 1));
        }
        self.samples.plain(&self.stored, row);
        self.next += 1;
        Ok(())
    }
}

/// Rows out of strips or tiles that are packed.
struct Packed {
    decoder: Decoder<Read_>,
    samples: Samples,
    width: u32,
    /// Of a strip or a tile.
    size: (u32, u32),
    /// The strip, or the tiles of one row of them side by side, each with its pixels across.
    band: Vec<(usize, DecodingResult)>,
    stored: Vec<u8>,
    next: u32,
    path: PathBuf,
}

impl Packed {
    fn fill(&mut self) -> Result<(), ReadError> {
        let across = self.width.div_ceil(self.size.0.max(1));
        let first = self.next / self.size.1.max(1) * across;
        self.band.clear();
        let (_, height) = self.decoder.chunk_data_dimensions(first);
        let bytes = self.width as u64 * u64::from(height) * self.samples.bytes() as u64;
        if bytes > MOST_BYTES {
            return Err(broken(&self.path)(Fault::Tiles));
        }
        for tile in first..first + across {
            let (width, _) = self.decoder.chunk_data_dimensions(tile);
            let pixels = self.decoder.read_chunk(tile).map_err(|why| broken(&self.path)(Fault::from(why)))?;
            self.band.push((width as usize, pixels));
        }
        Ok(())
    }
}

impl StoredRows for Packed {
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        let place = (self.next % self.size.1.max(1)) as usize;
        if place == 0 {
            self.fill()?;
        }
        self.stored.clear();
        for (width, pixels) in &self.band {
            let count = width * self.samples.count;
            let ends = || ReadError::Ends(self.path.clone());
            match pixels {
                DecodingResult::U8(samples) if !self.samples.form.is_wide => {
                    let part = samples.get(place * count..).and_then(|rest| rest.get(..count));
                    self.stored.extend_from_slice(part.ok_or_else(ends)?);
                }
                DecodingResult::U16(samples) if self.samples.form.is_wide => {
                    let part = samples.get(place * count..).and_then(|rest| rest.get(..count));
                    self.stored.extend(part.ok_or_else(ends)?.iter().flat_map(|sample| sample.to_be_bytes()));
                }
                _ => return Err(broken(&self.path)(Fault::Samples)),
            }
        }
        self.samples.plain(&self.stored, row);
        self.next += 1;
        Ok(())
    }
}
