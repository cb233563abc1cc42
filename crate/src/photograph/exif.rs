//! The one thing that is read of a photograph's Exif: the focal length for film of 36 × 24 mm. The layout is that of Exif 2.3: 4.5.4 for
//! the segment, 4.6.2 for the directories, 4.6.5 for the tag.

/// `ExifIFD`: where the directory of Exif is.
const EXIF_DIRECTORY: u16 = 0x8769;
/// `FocalLengthIn35mmFilm`.
const FOCAL_35MM: u16 = 0xa405;
/// Types of values: unsigned numbers of 16 and of 32 bits.
const SHORT: u16 = 3;
const LONG: u16 = 4;

/// The focal length for film of 36 × 24 mm, in millimetres, that the beginning of a JPEG states; none where it states none, or 0, which
/// stands for unknown.
#[must_use]
pub fn focal_35mm(jpeg: &[u8]) -> Option<f64> {
    let tiff = Tiff::of(segment(jpeg)?)?;
    let first = tiff.long(4)?;
    let exif = tiff.entry(first, EXIF_DIRECTORY)?;
    let focal = tiff.entry(exif, FOCAL_35MM)?;
    (focal > 0).then(|| f64::from(focal))
}

/// What the segment of Exif holds, behind its name.
fn segment(jpeg: &[u8]) -> Option<&[u8]> {
    let mut rest = jpeg.strip_prefix(&[0xff, 0xd8])?;
    loop {
        let (&before, after) = rest.split_first()?;
        if before != 0xff {
            return None;
        }
        let (&marker, after) = after.split_first()?;
        match marker {
            // Bytes that fill up.
            0xff => rest = rest.get(1..)?,
            // Those without a length.
            0x01 | 0xd0..=0xd7 => rest = after,
            // Behind these are the picture's own bytes, or nothing.
            0xd9 | 0xda => return None,
            _ => {
                let length = usize::from(u16::from_be_bytes([*after.first()?, *after.get(1)?]));
                let held = after.get(2..length.min(after.len()))?;
                if marker == 0xe1
                    && let Some(exif) = held.strip_prefix(b"Exif\0\0")
                {
                    return Some(exif);
                }
                rest = after.get(length..)?;
            }
        }
    }
}

/// Directories of entries, in one of two orders of bytes.
struct Tiff<'a> {
    bytes: &'a [u8],
    big: bool,
}

impl<'a> Tiff<'a> {
    fn of(bytes: &'a [u8]) -> Option<Self> {
        match bytes.get(..4)? {
            b"II*\0" => Some(Self { bytes, big: false }),
            b"MM\0*" => Some(Self { bytes, big: true }),
            _ => None,
        }
    }

    fn short(&self, at: u32) -> Option<u16> {
        let at = usize::try_from(at).ok()?;
        let bytes = self.bytes.get(at..at.checked_add(2)?)?.try_into().ok()?;
        Some(if self.big { u16::from_be_bytes(bytes) } else { u16::from_le_bytes(bytes) })
    }

    fn long(&self, at: u32) -> Option<u32> {
        let at = usize::try_from(at).ok()?;
        let bytes = self.bytes.get(at..at.checked_add(4)?)?.try_into().ok()?;
        Some(if self.big { u32::from_be_bytes(bytes) } else { u32::from_le_bytes(bytes) })
    }

    /// The single number that a directory has under a tag.
    fn entry(&self, directory: u32, tag: u16) -> Option<u32> {
        let count = u32::from(self.short(directory)?);
        let mut entries = (0..count).map_while(|index| {
            let at = directory.checked_add(2)?.checked_add(index * 12)?;
            Some((at, self.short(at)?))
        });
        let (at, _) = entries.find(|(_, own)| *own == tag)?;
        let (kind, many) = (self.short(at.checked_add(2)?)?, self.long(at.checked_add(4)?)?);
        let value = at.checked_add(8)?;
        match kind {
            _ if many != 1 => None,
            SHORT => self.short(value).map(u32::from),
            LONG => self.long(value),
            _ => None,
        }
    }
}
