//! Headers of picture files: how many pixels one has, and what it says of its title, who made what it shows and when. Pixels are never
//! decoded; of a file only the parts that say this are read.
//!
//! What is read is in [`tiff`] (Exif), [`iim`] (IPTC's Information Interchange Model) and [`xmp`]. Where several say the same thing, what is said of
//! the work of art that a photograph shows comes first, then XMP, then IPTC, then Exif.
//!
//! ```
//! use overmantel::picture_header::read;
//! // A PNG of 2 × 3 pixels that says nothing else: signature and IHDR (PNG, 5.2 and 11.2.2).
//! let png = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\0\x02\0\0\0\x03\x08\x02\0\0\0\0\0\0\0";
//! let header = read(&mut &png[..], "dot.png")?;
//! assert_eq!((header.px, header.title), ((2, 3), None));
//! # Ok::<(), overmantel::picture_file::PictureFileError>(())
//! ```

use crate::picture_file::{PictureFileError, look};
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;

pub mod iim;
pub mod tiff;
pub mod xmp;

/// Bytes of a file, wherever they are kept.
pub trait Bytes {
    /// At most so many bytes from a place on; fewer at the end, none beyond it.
    fn at(&mut self, place: u64, most: usize) -> Vec<u8>;
}

impl Bytes for &[u8] {
    fn at(&mut self, place: u64, most: usize) -> Vec<u8> {
        let start = usize::try_from(place).unwrap_or(usize::MAX).min(self.len());
        self[start..start.saturating_add(most).min(self.len())].to_vec()
    }
}

/// Bytes from the beginning of a file that are looked at together.
const HEAD: usize = 256 * 1024;
/// Bytes of one part of a header at most.
const PART: usize = 1024 * 1024;
/// Parts of a file that are looked through at most; a large PNG has thousands.
const PARTS: usize = 20_000;

/// What a header says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Header {
    /// Pixels, upright.
    pub px: (u32, u32),
    /// The title.
    pub title: Option<String>,
    /// Who made it.
    pub creator: Option<String>,
    /// When it was made, as ISO 8601 has it.
    pub created: Option<String>,
    /// What it is called by in the records of whoever has it.
    pub identifier: Option<String>,
    /// When it was photographed, as ISO 8601 has it.
    pub photographed: Option<String>,
}

/// What one part of a header says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Told {
    /// The title.
    pub title: Option<String>,
    /// Who made it; several with a semicolon and a space between.
    pub creator: Option<String>,
    /// When it was made, as ISO 8601 has it.
    pub created: Option<String>,
    /// What it is called by in the records of whoever has it.
    pub identifier: Option<String>,
}

/// What a file says in its parts.
#[derive(Default)]
struct Parts {
    /// Which corner comes first, as Exif counts, and what else it says.
    exif: Option<tiff::Exif>,
    iim: Option<Told>,
    xmp: Option<xmp::Xmp>,
}

/// Reads the header of a picture: JPEG, PNG, WebP or TIFF; of AVIF and GIF only the pixels.
///
/// # Errors
/// When it is not a picture that can be printed from, or broken.
pub fn read(bytes: &mut dyn Bytes, file: &str) -> Result<Header, PictureFileError> {
    let head = bytes.at(0, HEAD);
    let mut parts = Parts::default();
    let px = if let Some(tiff) = tiff::Header::of(&head) {
        let found = tiff.read(bytes);
        parts.exif = Some(found.exif);
        parts.iim = found.iim.map(|part| iim::read(&part));
        parts.xmp = found.xmp.and_then(|part| xmp::read(&part));
        let (width, height) = found.px.ok_or_else(|| PictureFileError::Broken(file.to_owned()))?;
        if width == 0 || height == 0 {
            return Err(PictureFileError::Broken(file.to_owned()));
        }
        (width, height)
    } else {
        let px = look(&head, file)?;
        match head.get(..4) {
            Some(b"\xff\xd8\xff\xe0" | b"\xff\xd8\xff\xe1") => jpeg(bytes, &mut parts),
            Some(b"\x89PNG") => png(bytes, &mut parts),
            Some(b"RIFF") => webp(bytes, &mut parts),
            Some([0xff, 0xd8, ..]) => jpeg(bytes, &mut parts),
            _ => {}
        }
        px
    };
    let Parts { exif, iim, xmp } = parts;
    let exif = exif.unwrap_or_default();
    let xmp = xmp.unwrap_or_default();
    let is_turned = (5..=8).contains(&exif.orientation.or(xmp.orientation).unwrap_or(1));
    let (work, xmp) = (xmp.work, xmp.picture);
    let iim = iim.unwrap_or_default();
    Ok(Header {
        px: if is_turned { (px.1, px.0) } else { px },
        title: work.title.or(xmp.title).or(iim.title).or(exif.told.title),
        creator: work.creator.or(xmp.creator).or(iim.creator).or(exif.told.creator),
        created: work.created.or(xmp.created).or(iim.created),
        identifier: work.identifier,
        photographed: exif.told.created,
    })
}

/// A JPEG's segments up to its picture (ITU-T T.81, B.1.1): APP1 of Exif (Exif 2.3, 4.5.4) and of XMP (ISO 16684-1, in JPEG's APP1), APP13 with the IIM.
fn jpeg(bytes: &mut dyn Bytes, parts: &mut Parts) {
    let mut place = 2;
    for _ in 0..PARTS {
        let start = bytes.at(place, 4);
        let &[0xff, marker, high, low] = &start[..] else { return };
        match marker {
            0xff => place += 1,
            0x01 | 0xd0..=0xd7 => place += 2,
            // Behind these are the picture's own bytes, or nothing.
            0xd9 | 0xda => return,
            _ => {
                let length = u64::from(u16::from_be_bytes([high, low]));
                if matches!(marker, 0xe1 | 0xed) {
                    let held = bytes.at(place + 4, usize::try_from(length.saturating_sub(2)).unwrap_or(0));
                    segment(marker, &held, parts);
                }
                place += 2 + length.max(2);
            }
        }
    }
}

fn segment(marker: u8, held: &[u8], parts: &mut Parts) {
    if marker == 0xed {
        if let Some(resources) = held.strip_prefix(b"Photoshop 3.0\0")
            && let Some(part) = iim::resource(resources)
        {
            parts.iim.get_or_insert_with(|| iim::read(part));
        }
    } else if let Some(exif) = held.strip_prefix(b"Exif\0\0") {
        take_exif(exif, parts);
    } else if let Some(packet) = held.strip_prefix(b"http://ns.adobe.com/xap/1.0/\0") {
        parts.xmp = parts.xmp.take().or_else(|| xmp::read(packet));
    }
}

fn take_exif(exif: &[u8], parts: &mut Parts) {
    if parts.exif.is_none()
        && let Some(header) = tiff::Header::of(exif)
    {
        parts.exif = Some(header.read(&mut &*exif).exif);
    }
}

/// A PNG's chunks (PNG, 5.3): `eXIf`, and `iTXt` with XMP (11.3.3.4).
fn png(bytes: &mut dyn Bytes, parts: &mut Parts) {
    let mut place = 8;
    for _ in 0..PARTS {
        let start = bytes.at(place, 8);
        let Some((length, kind)) = start.split_first_chunk::<4>() else { return };
        let length = u32::from_be_bytes(*length);
        let most = usize::try_from(length).unwrap_or(PART).min(PART);
        match kind {
            b"IEND" => return,
            b"eXIf" => take_exif(&bytes.at(place + 8, most), parts),
            b"iTXt" => {
                let held = bytes.at(place + 8, most);
                if let Some(rest) = held.strip_prefix(b"XML:com.adobe.xmp\0")
                    && let Some((flags, rest)) = rest.split_first_chunk::<2>()
                {
                    // The language and the translated keyword, each to a zero.
                    let text = rest.splitn(3, |&byte| byte == 0).nth(2).unwrap_or_default();
                    let packet = match flags {
                        [1, 0] => decompress_to_vec_zlib_with_limit(text, PART).unwrap_or_default(),
                        _ => text.to_vec(),
                    };
                    parts.xmp = parts.xmp.take().or_else(|| xmp::read(&packet));
                }
            }
            _ => {}
        }
        place += 12 + u64::from(length);
    }
}

/// A WebP's chunks (RFC 9649, 2.3 and 2.7.1.4): `EXIF`, `XMP `.
fn webp(bytes: &mut dyn Bytes, parts: &mut Parts) {
    let mut place = 12;
    for _ in 0..PARTS {
        let start = bytes.at(place, 8);
        let Some((kind, length)) = start.split_first_chunk::<4>() else { return };
        let Some(length) = length.first_chunk::<4>() else { return };
        let length = u32::from_le_bytes(*length);
        let most = usize::try_from(length).unwrap_or(PART).min(PART);
        match kind {
            b"EXIF" => {
                let held = bytes.at(place + 8, most);
                // Some programs leave the name of JPEG's segment before it.
                take_exif(held.strip_prefix(b"Exif\0\0").unwrap_or(&held), parts);
            }
            b"XMP " => parts.xmp = parts.xmp.take().or_else(|| xmp::read(&bytes.at(place + 8, most))),
            _ => {}
        }
        place += 8 + u64::from(length) + u64::from(length % 2);
    }
}

/// Bytes as text: UTF-8, otherwise Latin-1, without what stands behind a zero and without spaces around; none when that is nothing.
fn text(bytes: &[u8]) -> Option<String> {
    let bytes = bytes.split(|&byte| byte == 0).next().unwrap_or_default();
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => bytes.iter().map(|&byte| char::from(byte)).collect(),
    };
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_owned())
}
