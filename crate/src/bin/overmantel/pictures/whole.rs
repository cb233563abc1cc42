//! Files whose rows can't be had one after the other: decoded whole, where the memory for that is within the limit.

use super::jpeg_check::check;
use super::source::{Alpha, Samples, Source, StoredRows};
use super::{Inks, MOST_BYTES};
use crate::failure::pictures::{Fault, ReadError, broken, unreadable};
use image::metadata::Orientation;
use image::{ColorType, ImageDecoder, ImageReader};
use overmantel::print_file::Form;
use std::fs::File;
use std::io::{BufReader, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

/// Bytes of a file that is read whole, at most.
const MOST_FILE_BYTES: u64 = 256 << 20;

/// Decodes all pixels; samples of sixteen bits in the order of this machine.
type Decode = Box<dyn FnOnce(&mut [u8]) -> Result<(), ReadError>>;

/// A picture that waits to be decoded.
struct Waiting {
    samples: Samples,
    stored_px: (u32, u32),
    /// Bytes of memory that the decoder needs for each pixel, besides those that are handed over.
    further: u64,
    orientation: Orientation,
    profile: Option<Vec<u8>>,
    decode: Decode,
}

/// Opens any kind of picture file that the decoders know.
pub(super) fn open(path: &Path, inks: Inks) -> Result<Source, ReadError> {
    let waiting = if is_jpeg(path)? { jpeg(path, inks)? } else { other(path)? };
    let Waiting { samples, stored_px: (width, height), further, orientation, profile, decode } = waiting;
    let pixels = u64::from(width) * u64::from(height);
    let bytes = pixels.saturating_mul(samples.bytes() as u64 + further);
    if bytes > MOST_BYTES {
        return Err(ReadError::Large { path: path.to_owned(), width, height, bytes, most: MOST_BYTES });
    }
    let mut said: Vec<String> = samples.said().into_iter().collect();
    said.push(format!("it is read as a whole, which takes {} MB of memory", bytes.div_ceil(1_000_000)));
    Ok(Source {
        form: samples.form,
        stored_px: (width, height),
        orientation: orientation.to_exif(),
        profile,
        bytes,
        said,
        rows: Box::new(WholeRows {
            decode: Some(decode),
            samples,
            pixels: Vec::new(),
            stride: width as usize * samples.bytes(),
            height: height as usize,
            next: 0,
            path: path.to_owned(),
        }),
    })
}

fn is_jpeg(path: &Path) -> Result<bool, ReadError> {
    let mut start = [0; 2];
    let failed = |why| ReadError::File { path: path.to_owned(), why };
    File::open(path).and_then(|mut file| file.read_exact(&mut start)).map_err(failed)?;
    Ok(start == [0xff, 0xd8])
}

/// A JPEG that is progressive, or whose colours come one after the other. What of it is missing the decoder would make up, so that it is gone
/// through before.
fn jpeg(path: &Path, inks: Inks) -> Result<Waiting, ReadError> {
    let mut bytes = Vec::new();
    let failed = |why| ReadError::File { path: path.to_owned(), why };
    let file = File::open(path).map_err(failed)?;
    file.take(MOST_FILE_BYTES + 1).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > MOST_FILE_BYTES {
        return Err(unreadable(path, "JPEG")(Fault::Whole));
    }
    let options =
        DecoderOptions::default().set_strict_mode(true).set_max_width(65_535).set_max_height(65_535);
    let mut head = JpegDecoder::new_with_options(ZCursor::new(&bytes[..]), options);
    head.decode_headers().map_err(|why| unreadable(path, "JPEG")(Fault::from(why)))?;
    let (width, height) = head.dimensions().ok_or_else(|| unreadable(path, "JPEG")(Fault::Size))?;
    let side = |px: usize| u32::try_from(px).map_err(unreadable(path, "JPEG"));
    let stored_px = (side(width)?, side(height)?);
    let stored_colours = head.input_colorspace().unwrap_or(ColorSpace::Unknown);
    let (is_coloured, colours) = match stored_colours {
        ColorSpace::Luma => (false, ColorSpace::Luma),
        ColorSpace::CMYK | ColorSpace::YCCK if inks == Inks::Refused => {
            return Err(ReadError::Cmyk(path.to_owned()));
        }
        _ => (true, ColorSpace::RGB),
    };
    let form = Form { is_coloured, is_wide: false };
    let orientation = head.exif().and_then(|exif| Orientation::from_exif_chunk(exif));
    let profile = head.icc_profile();
    drop(head);
    let path = path.to_owned();
    Ok(Waiting {
        samples: Samples { count: form.samples(), form, alpha: Alpha::None },
        stored_px,
        // It holds a number of two bytes for each sample.
        further: 2 * stored_colours.num_components() as u64,
        orientation: orientation.unwrap_or(Orientation::NoTransforms),
        profile,
        decode: Box::new(move |pixels| {
            check(&bytes).map_err(broken(&path))?;
            let options = options.jpeg_set_out_colorspace(colours);
            let mut decoder = JpegDecoder::new_with_options(ZCursor::new(&bytes[..]), options);
            decoder.decode_headers().map_err(|why| broken(&path)(Fault::from(why)))?;
            if decoder.output_buffer_size() != Some(pixels.len()) {
                return Err(broken(&path)(Fault::Colours));
            }
            decoder.decode_into(pixels).map_err(|why| broken(&path)(Fault::from(why)))
        }),
    })
}

/// An interlaced PNG, or a WebP.
fn other(path: &Path) -> Result<Waiting, ReadError> {
    let mut file = File::open(path).map_err(unreadable(path, "picture"))?;
    let is_webp = check_webp(&mut file).map_err(unreadable(path, "picture"))?;
    let reader = ImageReader::open(path)
        .and_then(ImageReader::with_guessed_format)
        .map_err(unreadable(path, "picture"))?;
    let unread = |why| unreadable(path, "picture")(Fault::from(why));
    // Its own limits are of the pixels that are handed over, which are judged here with all else.
    let mut decoder = reader.into_decoder().map_err(unread)?;
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
    let stored_px = decoder.dimensions();
    let orientation = decoder.orientation().map_err(unread)?;
    let profile = decoder.icc_profile().map_err(unread)?;
    let path = path.to_owned();
    Ok(Waiting {
        samples: Samples { count: form.samples() + usize::from(alpha != Alpha::None), form, alpha },
        stored_px,
        // A WebP is unpacked as red, green, blue and cover, and laid on a ground of the same where it moves.
        further: if is_webp { 8 } else { 0 },
        orientation,
        profile,
        decode: Box::new(move |pixels| {
            decoder.read_image(pixels).map_err(|why| broken(&path)(Fault::from(why)))
        }),
    })
}

/// Whether a file is a WebP; where it is, its parts lie within it, since the decoder makes room for as much as they say.
fn check_webp(file: &mut File) -> Result<bool, Fault> {
    let length = file.metadata().map_or(0, |about| about.len());
    let mut input = BufReader::new(file);
    let mut head = [0; 12];
    if input.read_exact(&mut head).is_err() || head[..4] != *b"RIFF" {
        return Ok(false);
    }
    if length > MOST_FILE_BYTES {
        return Err(Fault::Whole);
    }
    let mut at = 12;
    while at < length {
        let mut head = [0; 8];
        input
            .seek(SeekFrom::Start(at))
            .and_then(|_| input.read_exact(&mut head))
            .map_err(|_| Fault::CutOff)?;
        let part = u64::from(u32::from_le_bytes([head[4], head[5], head[6], head[7]]));
        // Parts begin at even places.
        at += 8 + part;
        if at > length {
            return Err(Fault::CutOff);
        }
        at += part % 2;
    }
    Ok(true)
}

struct WholeRows {
    /// Until the first row is asked for.
    decode: Option<Decode>,
    samples: Samples,
    pixels: Vec<u8>,
    stride: usize,
    height: usize,
    next: usize,
    path: PathBuf,
}

impl StoredRows for WholeRows {
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        if let Some(decode) = self.decode.take() {
            self.pixels.resize(self.stride * self.height, 0);
            decode(&mut self.pixels)?;
        }
        let stored =
            self.pixels.get_mut(self.next * self.stride..).and_then(|rest| rest.get_mut(..self.stride));
        let stored = stored.ok_or_else(|| ReadError::Ends(self.path.clone()))?;
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
