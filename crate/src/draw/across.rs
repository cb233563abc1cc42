//! A line of text across a picture that is handed out.

use super::lettering::{self, Lettering};
use super::projection::pixels;
use crate::colour::Colour;
use crate::resample::Raster;
use crate::text::typeset;
use tiny_skia::PixmapMut;

/// The size of the lettering at most, and how far it reaches across, as shares of the picture's height and width.
const EM: f32 = 0.12;
const REACH: f32 = 0.86;

/// A picture with a line of text across its middle, half of which lets the picture through: light letters with a dark edge, so that
/// they are seen on light and on dark. The picture as it is where there is no text.
///
/// ```
/// use overmantel::draw::across;
/// use overmantel::resample::Raster;
/// let grey = Raster::new(400, 300, vec![128; 400 * 300 * 4]).expect("a picture");
/// let marked = across(&grey, "Tidal flats");
/// let changed = marked.pixels().chunks(4).zip(grey.pixels().chunks(4)).filter(|(one, other)| one != other).count();
/// assert!(changed > 1_000, "letters across it: {changed} pixels");
/// assert_eq!(across(&grey, " "), grey);
/// ```
#[must_use]
pub fn across(picture: &Raster, words: &str) -> Raster {
    let words = typeset(words.trim());
    let (width_px, height_px) = (picture.width_px(), picture.height_px());
    let mut lettered = picture.pixels().to_vec();
    let Some(mut canvas) = PixmapMut::from_bytes(&mut lettered, width_px, height_px) else {
        return picture.clone();
    };
    if words.is_empty() {
        return picture.clone();
    }
    let (width, height) = (pixels(width_px), pixels(height_px));
    let reach = lettering::length(&words, 1.0).max(1e-3);
    let em = (height * EM).min(width * REACH / reach);
    let (edge, middle) = ((em * 0.04).max(1.0), (width / 2.0, height / 2.0));
    let mut letters = Lettering::default();
    for (across, down) in [(-edge, 0.0), (edge, 0.0), (0.0, -edge), (0.0, edge)] {
        let at = (middle.0 + across, middle.1 + down);
        letters.letter(&mut canvas, &words, em, at, false, Colour::hex(0x20_20_20));
    }
    letters.letter(&mut canvas, &words, em, middle, false, Colour::hex(0xff_ff_ff));
    let mixed = picture.pixels().iter().zip(&lettered).map(|(&one, &other)| one.midpoint(other)).collect();
    Raster::new(width_px, height_px, mixed).unwrap_or_else(|| picture.clone())
}
