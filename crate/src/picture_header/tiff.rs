//! Directories of TIFF 6.0, in TIFF files and in Exif (Exif 2.3, 4.6): tags, each with numbers or a text.

use super::{Bytes, PART, Told, text};

/// `ImageWidth` and `ImageLength` (TIFF 6.0, section 3).
const PIXELS: [u16; 2] = [0x0100, 0x0101];
/// `ImageDescription`, which Exif calls a title (4.6.4).
const DESCRIPTION: u16 = 0x010e;
/// `Orientation`.
const ORIENTATION: u16 = 0x0112;
/// `Artist`.
const ARTIST: u16 = 0x013b;
/// The packet of XMP (ISO 16684-1 in TIFF).
const XMP: u16 = 0x02bc;
/// The IIM.
const IIM: u16 = 0x83bb;
/// `ExifIFD`: where the directory of Exif is.
const EXIF_DIRECTORY: u16 = 0x8769;
/// `DateTimeOriginal`: when it was photographed (4.6.5).
const TAKEN: u16 = 0x9003;
/// `FocalLengthIn35mmFilm` (4.6.5).
const FOCAL_35MM: u16 = 0xa405;
/// Types of values: a byte, text, unsigned numbers of 16 and of 32 bits, any bytes.
const BYTE: u16 = 1;
const ASCII: u16 = 2;
const SHORT: u16 = 3;
const LONG: u16 = 4;
const UNDEFINED: u16 = 7;
/// Entries of a directory at most.
const ENTRIES: u16 = 4096;

/// What the directories of a picture say of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exif {
    /// Which corner comes first, 1 to 8.
    pub orientation: Option<u32>,
    /// Title, artist, and when it was photographed.
    pub told: Told,
    /// The focal length for film of 36 × 24 mm, in millimetres; 0 stands for unknown.
    pub focal_35mm: Option<u32>,
}

/// What is read of a TIFF.
#[derive(Clone, Debug, Default)]
pub struct Found {
    /// Width and height in pixels, as stored.
    pub px: Option<(u32, u32)>,
    /// What it says of itself.
    pub exif: Exif,
    /// The bytes of its IIM.
    pub iim: Option<Vec<u8>>,
    /// The bytes of its XMP.
    pub xmp: Option<Vec<u8>>,
}

/// The order of bytes, and where the first directory is.
#[derive(Clone, Copy, Debug)]
pub struct Header {
    is_big: bool,
    first: u32,
}

/// An entry of a directory.
#[derive(Clone, Copy)]
struct Entry {
    tag: u16,
    kind: u16,
    count: u32,
    /// The value, or where it is.
    value: [u8; 4],
}

impl Header {
    /// The header at the beginning of a TIFF; none where there is none.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Option<Self> {
        let is_big = match bytes.get(..4)? {
            b"II*\0" => false,
            b"MM\0*" => true,
            _ => return None,
        };
        let header = Self { is_big, first: 0 };
        Some(Self { first: header.long(*bytes.get(4..)?.first_chunk()?), ..header })
    }

    const fn short(self, bytes: [u8; 2]) -> u16 {
        if self.is_big { u16::from_be_bytes(bytes) } else { u16::from_le_bytes(bytes) }
    }

    const fn long(self, bytes: [u8; 4]) -> u32 {
        if self.is_big { u32::from_be_bytes(bytes) } else { u32::from_le_bytes(bytes) }
    }

    /// Reads what this program wants to know of the first directory, and of that of Exif.
    #[must_use]
    pub fn read(self, bytes: &mut dyn Bytes) -> Found {
        let first = self.directory(bytes, self.first);
        let number =
            |entries: &[Entry], tag: u16| self.number(entries.iter().find(|entry| entry.tag == tag)?);
        let exif =
            number(&first, EXIF_DIRECTORY).map(|place| self.directory(bytes, place)).unwrap_or_default();
        let mut held = |entries: &[Entry], tag: u16| {
            let entry = *entries.iter().find(|entry| entry.tag == tag)?;
            self.held(bytes, entry)
        };
        let told = Told {
            title: held(&first, DESCRIPTION).and_then(|bytes| text(&bytes)),
            creator: held(&first, ARTIST).and_then(|bytes| text(&bytes)),
            created: held(&exif, TAKEN).and_then(|bytes| date(&bytes)),
            identifier: None,
        };
        let (iim, xmp) = (held(&first, IIM), held(&first, XMP));
        let [width, height] = PIXELS.map(|tag| number(&first, tag));
        Found {
            px: width.zip(height),
            exif: Exif {
                orientation: number(&first, ORIENTATION),
                told,
                focal_35mm: number(&exif, FOCAL_35MM),
            },
            iim,
            xmp,
        }
    }

    /// The entries of a directory.
    fn directory(self, bytes: &mut dyn Bytes, place: u32) -> Vec<Entry> {
        let place = u64::from(place);
        let Some(count) = bytes.at(place, 2).first_chunk().map(|count| self.short(*count)) else {
            return Vec::new();
        };
        let held = bytes.at(place + 2, usize::from(count.min(ENTRIES)) * 12);
        let entry = |row: &[u8]| {
            let (tag, row) = row.split_first_chunk()?;
            let (kind, row) = row.split_first_chunk()?;
            let (count, row) = row.split_first_chunk()?;
            let value = *row.first_chunk()?;
            Some(Entry { tag: self.short(*tag), kind: self.short(*kind), count: self.long(*count), value })
        };
        held.chunks_exact(12).map_while(entry).collect()
    }

    /// A single number.
    fn number(self, entry: &Entry) -> Option<u32> {
        let [one, other, ..] = entry.value;
        match entry.kind {
            _ if entry.count != 1 => None,
            SHORT => Some(self.short([one, other]).into()),
            LONG => Some(self.long(entry.value)),
            _ => None,
        }
    }

    /// Bytes or a text; IIM is often stated in numbers of 32 bits.
    fn held(self, bytes: &mut dyn Bytes, Entry { kind, count, value, .. }: Entry) -> Option<Vec<u8>> {
        let each = match kind {
            BYTE | ASCII | UNDEFINED => 1,
            LONG => 4,
            _ => return None,
        };
        let length = usize::try_from(count).ok()?.checked_mul(each).filter(|length| *length <= PART)?;
        if length <= value.len() {
            return Some(value[..length].to_vec());
        }
        Some(bytes.at(self.long(value).into(), length))
    }
}

/// `YYYY:MM:DD HH:MM:SS` as a day by ISO 8601.
fn date(held: &[u8]) -> Option<String> {
    let day = text(held)?.get(..10)?.replace(':', "-");
    (day.len() == 10 && !day.starts_with("0000") && !day.contains(' ')).then_some(day)
}
