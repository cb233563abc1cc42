//! The one thing that is read of a photograph's Exif: the focal length for film of 36 × 24 mm. The layout is that of Exif 2.3: 4.5.4 for
//! the segment; the directories are those of [`crate::picture_header::tiff`].

use crate::picture_header::tiff::Header;

/// The focal length for film of 36 × 24 mm, in millimetres, that the beginning of a JPEG states; none where it states none, or 0, which
/// stands for unknown.
#[must_use]
pub fn focal_35mm(jpeg: &[u8]) -> Option<f64> {
    let mut exif = segment(jpeg)?;
    let focal = Header::of(exif)?.read(&mut exif).exif.focal_35mm?;
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
