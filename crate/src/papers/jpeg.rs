//! JPEG files as a paper takes them: the same coded picture, without what else the file says of whoever took it.
//!
//! Nothing is decoded or coded again. Kept are the tables and the scans, the JFIF and Adobe segments that say how colours are
//! coded, and the colour profile by itself; left out are Exif, XMP and IPTC with their places and names, comments, and whatever
//! follows the end of the picture (ITU-T T.81, Annex B; Exif 2.3, 4.6.4; ICC.1, Annex B.4).

use super::PaperError;
use crate::geometry::Rect;
use crate::length::Unit;
use crate::print::{Exact, Source};

/// A picture as a paper takes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Photo {
    /// The JPEG file, without what is not needed.
    pub jpeg: Vec<u8>,
    /// Pixels from left to right as they are stored, before the picture is turned.
    pub width_px: u16,
    /// Pixels from top to bottom as they are stored.
    pub height_px: u16,
    /// Components of a pixel: 1 grey, 3 colours, 4 printing inks.
    pub components: u8,
    /// Whether printing inks are stored the other way round, as Adobe does.
    pub is_inverted: bool,
    /// How it is turned, as Exif says: 1 upright, to 8.
    pub orientation: u8,
    /// Its colour profile, if it has one.
    pub profile: Option<Vec<u8>>,
}

impl Photo {
    /// Reads a JPEG file.
    ///
    /// # Errors
    /// When it is none, or is cut off.
    pub fn read(file: &[u8]) -> Result<Self, PaperError> {
        read(file).ok_or(PaperError::NotJpeg)
    }
}

impl Photo {
    /// The matrix that lays the unit square of the stored picture on the paper, y up, so that what is shown of it falls on `rect`:
    /// in a unit of length.
    pub(super) fn laid(&self, rect: Rect, source: Source, file_px: (u32, u32), unit: Unit) -> [f64; 6] {
        let real = |value: Exact| {
            #[expect(clippy::cast_precision_loss, reason = "an edge: a place in a picture keeps 53 bits")]
            let quotient = *value.numer() as f64 / *value.denom() as f64;
            quotient
        };
        let size = rect.size;
        let [x, y, width, height] = [rect.x, rect.y, size.width, size.height].map(|length| length.per(unit));
        let (across, down) = (width / real(source.width), height / real(source.height));
        let (whole_width, whole_height) = (f64::from(file_px.0) * across, f64::from(file_px.1) * down);
        let left = x - real(source.left) * across;
        let bottom = y + height + real(source.top) * down - whole_height;
        let [a, b, c, d, e, f] = turned(self.orientation);
        [
            a * whole_width,
            b * whole_height,
            c * whole_width,
            d * whole_height,
            left + e * whole_width,
            bottom + f * whole_height,
        ]
    }
}

/// How the unit square of a stored picture lies in that of the upright one, as Exif's orientation says, y up: across from the
/// stored x and y, up from them, and where the corner comes to lie.
const fn turned(orientation: u8) -> [f64; 6] {
    match orientation {
        2 => [-1.0, 0.0, 0.0, 1.0, 1.0, 0.0],
        3 => [-1.0, 0.0, 0.0, -1.0, 1.0, 1.0],
        4 => [1.0, 0.0, 0.0, -1.0, 0.0, 1.0],
        5 => [0.0, -1.0, -1.0, 0.0, 1.0, 1.0],
        6 => [0.0, -1.0, 1.0, 0.0, 0.0, 1.0],
        7 => [0.0, 1.0, 1.0, 0.0, 0.0, 0.0],
        8 => [0.0, 1.0, -1.0, 0.0, 1.0, 0.0],
        _ => [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
    }
}

fn read(file: &[u8]) -> Option<Photo> {
    let mut photo = Photo {
        jpeg: file.get(..2).filter(|start| *start == [0xff, 0xd8])?.to_vec(),
        width_px: 0,
        height_px: 0,
        components: 0,
        is_inverted: false,
        orientation: 1,
        profile: None,
    };
    let mut profile: Vec<(u8, &[u8])> = Vec::new();
    let mut at = 2;
    loop {
        // Any number of fill bytes may stand before a marker.
        while file.get(at..at + 2)? == [0xff, 0xff] {
            at += 1;
        }
        let marker = *file.get(at + 1).filter(|_| file[at] == 0xff)?;
        if marker == 0xd9 {
            photo.jpeg.extend([0xff, 0xd9]);
            break;
        }
        let length = usize::from(u16::from_be_bytes([*file.get(at + 2)?, *file.get(at + 3)?]));
        let segment = file.get(at..at + 2 + length).filter(|_| length >= 2)?;
        let body = &segment[4..];
        let is_kept = match marker {
            0xe1 => {
                photo.orientation = orientation(body).unwrap_or(photo.orientation);
                false
            }
            0xe2 => {
                if let Some(rest) = body.strip_prefix(b"ICC_PROFILE\0").filter(|rest| rest.len() > 2) {
                    profile.push((rest[0], &rest[2..]));
                }
                false
            }
            0xee => {
                photo.is_inverted = body.starts_with(b"Adobe");
                photo.is_inverted
            }
            0xe3..=0xef | 0xfe => false,
            _ => true,
        };
        if is_frame(marker) {
            photo.height_px = u16::from_be_bytes([*body.get(1)?, *body.get(2)?]);
            photo.width_px = u16::from_be_bytes([*body.get(3)?, *body.get(4)?]);
            photo.components = *body.get(5)?;
        }
        if is_kept {
            photo.jpeg.extend(segment);
        }
        at += 2 + length;
        if marker == 0xda {
            let end = at + scan_length(file.get(at..)?)?;
            photo.jpeg.extend(&file[at..end]);
            at = end;
        }
    }
    crate::order::sort_by_key(&mut profile, |part| part.0);
    if !profile.is_empty() {
        photo.profile = Some(profile.into_iter().flat_map(|part| part.1.iter().copied()).collect());
    }
    let is_drawn = photo.width_px > 0 && photo.height_px > 0 && matches!(photo.components, 1 | 3 | 4);
    is_drawn.then_some(photo)
}

/// Whether a marker begins a frame: C0 to CF, but for tables and an extension (T.81, table B.1).
const fn is_frame(marker: u8) -> bool {
    matches!(marker, 0xc0..=0xcf) && !matches!(marker, 0xc4 | 0xc8 | 0xcc)
}

/// How long the coded data of a scan are: up to the next marker that is no restart.
fn scan_length(data: &[u8]) -> Option<usize> {
    data.windows(2).position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xd0..=0xd7 | 0xff))
}

/// The orientation that an Exif segment states.
fn orientation(body: &[u8]) -> Option<u8> {
    let tiff = body.strip_prefix(b"Exif\0\0")?;
    let is_little = tiff.starts_with(b"II");
    let short = |at: usize| {
        let pair = [*tiff.get(at)?, *tiff.get(at + 1)?];
        Some(if is_little { u16::from_le_bytes(pair) } else { u16::from_be_bytes(pair) })
    };
    let offset = [short(4)?, short(6)?];
    let [high, low] = if is_little { [offset[1], offset[0]] } else { offset };
    let start = usize::from(high) * 65_536 + usize::from(low);
    let entries = (0..usize::from(short(start)?)).map(|index| start + 2 + index * 12);
    let entry =
        entries.take_while(|entry| *entry < tiff.len()).find(|&entry| short(entry) == Some(0x0112))?;
    u8::try_from(short(entry + 8)?).ok().filter(|turned| (1..=8).contains(turned))
}
