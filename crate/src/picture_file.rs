//! Picture files: what one is, from its first bytes, before anything is decoded.
//!
//! ```
//! use overmantel::picture_file::look;
//! let message = look(b"not a picture", "notes.txt").unwrap_err().to_string();
//! assert!(message.starts_with("notes.txt is not a picture"));
//! ```

use imagesize::ImageType;
use std::fmt;

/// Pixels of a file at most: what a browser can decode at all.
pub const MOST_PIXELS: u64 = 268_435_456;

/// Why a file is no picture that can be shown; each has the name of the file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureFileError {
    /// It is not a picture.
    NoPicture(String),
    /// It is a HEIC picture.
    Heic(String),
    /// It is another kind of picture that browsers don't show.
    Kind(String),
    /// Its size can't be read.
    Broken(String),
    /// It has no pixels, or more than a browser can decode.
    Pixels {
        /// The file.
        file: String,
        /// Pixels from left to right.
        width_px: u64,
        /// Pixels from top to bottom.
        height_px: u64,
    },
}

impl fmt::Display for PictureFileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPicture(file) => write!(
                f,
                "{file} is not a picture that the page can show; choose a JPEG, PNG, WebP or AVIF file"
            ),
            Self::Heic(file) => write!(
                f,
                "{file} is a HEIC picture, which browsers can't show; save it as JPEG (on the phone: share it as \"most compatible\"), then choose that file"
            ),
            Self::Kind(file) => write!(
                f,
                "{file} is a kind of picture that browsers can't show; save it as JPEG or PNG, then choose that file"
            ),
            Self::Broken(file) => write!(
                f,
                "{file} seems to be broken: its size can't be read; save it again, then choose it again"
            ),
            Self::Pixels { file, width_px, height_px } => write!(
                f,
                "{file} has {width_px} × {height_px} pixels; a browser can handle up to {} million; save a smaller copy",
                MOST_PIXELS / 1_000_000
            ),
        }
    }
}

/// The size of a picture in pixels, as stored (before it is turned by its orientation tag).
///
/// The first few hundred kilobytes are enough for most files.
///
/// # Errors
/// When it is not a picture, a kind that browsers don't show, broken, or too large to be decoded.
pub fn look(bytes: &[u8], file: &str) -> Result<(u32, u32), PictureFileError> {
    let named = || file.to_owned();
    let kind = imagesize::image_type(bytes).map_err(|_| PictureFileError::NoPicture(named()))?;
    match kind {
        ImageType::Jpeg | ImageType::Png | ImageType::Webp | ImageType::Gif => {}
        ImageType::Heif(imagesize::Compression::Av1) => {}
        ImageType::Heif(_) => return Err(PictureFileError::Heic(named())),
        _ => return Err(PictureFileError::Kind(named())),
    }
    let size = imagesize::blob_size(bytes).map_err(|_| PictureFileError::Broken(named()))?;
    let (width, height) = (size.width as u64, size.height as u64);
    if width == 0 || height == 0 || width.saturating_mul(height) > MOST_PIXELS {
        return Err(PictureFileError::Pixels { file: named(), width_px: width, height_px: height });
    }
    let side = |px: u64| u32::try_from(px).unwrap_or(u32::MAX);
    Ok((side(width), side(height)))
}
