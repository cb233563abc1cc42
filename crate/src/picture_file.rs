//! Picture files: what one is, from its first bytes, before anything is decoded.
//!
//! ```
//! use overmantel::picture_file::look;
//! let message = look(b"not a picture", "notes.txt").unwrap_err();
//! assert!(message.starts_with("notes.txt is not a picture"));
//! ```

use imagesize::ImageType;

/// Pixels of a file at the most: what a browser can decode at all.
pub const MOST_PIXELS: u64 = 268_435_456;

/// The size of a picture in pixels, as stored (before it is turned by its orientation tag).
///
/// The first few hundred kilobytes are enough for most files.
///
/// # Errors
/// A plain sentence: not a picture, a kind that browsers don't show, broken, or too large to be decoded.
pub fn look(bytes: &[u8], file: &str) -> Result<(u32, u32), String> {
    let kind = imagesize::image_type(bytes).map_err(|_| {
        format!("{file} is not a picture that can be shown here; choose a JPEG, PNG, WebP or AVIF file")
    })?;
    match kind {
        ImageType::Jpeg | ImageType::Png | ImageType::Webp | ImageType::Gif => {}
        ImageType::Heif(imagesize::Compression::Av1) => {}
        ImageType::Heif(_) => {
            return Err(format!(
                "{file} is a HEIC picture, which browsers don't show; save it as JPEG (on the phone: share it as \"most compatible\"), then choose that file"
            ));
        }
        _ => {
            return Err(format!(
                "{file} is a kind of picture that browsers don't show; save it as JPEG or PNG, then choose that file"
            ));
        }
    }
    let size = imagesize::blob_size(bytes).map_err(|_| {
        format!("{file} seems to be broken: its size can't be read; save it anew, then choose it again")
    })?;
    let (width, height) = (size.width as u64, size.height as u64);
    if width == 0 || height == 0 || width.saturating_mul(height) > MOST_PIXELS {
        return Err(format!(
            "{file} has {width} × {height} pixels; a browser takes up to {} million, so save a smaller copy",
            MOST_PIXELS / 1_000_000
        ));
    }
    let side = |px: u64| u32::try_from(px).unwrap_or(u32::MAX);
    Ok((side(width), side(height)))
}
