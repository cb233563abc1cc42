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

/// From which shape on a picture is long, one side to the other, and the shape of what it is then taken to be made of: three pieces of about
/// 3 to 4 beside each other make 9 to 4.
const LONG: f32 = 1.6;
const PART: f32 = 0.75;
/// Parts at most.
const MOST_PARTS: u32 = 6;

/// How many times the words stand along a side of a picture, of which this is the proportion to the other.
fn parts(shape: f32) -> u32 {
    if shape < LONG {
        return 1;
    }
    u32::try_from(crate::rounding::nearest(f64::from(shape / PART))).unwrap_or(1).clamp(1, MOST_PARTS)
}

/// A picture with a line of text across its middle, half of which lets the picture through: light letters with a dark edge, so that
/// they are seen on light and on dark. A long picture has the text several times, since it may run over several pieces. The picture as it is
/// where there is no text.
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
    // A long picture may run over several pieces: each of them has the words.
    let [columns, rows] = [width / height, height / width].map(parts);
    let (wide, high) = (width / pixels(columns), height / pixels(rows));
    let em = (high * EM).min(wide * REACH / reach);
    let edge = (em * 0.04).max(1.0);
    let mut letters = Lettering::default();
    for (row, column) in (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column))) {
        let middle = ((pixels(column) + 0.5) * wide, (pixels(row) + 0.5) * high);
        for (across, down) in [(-edge, 0.0), (edge, 0.0), (0.0, -edge), (0.0, edge)] {
            let at = (middle.0 + across, middle.1 + down);
            letters.letter(&mut canvas, &words, em, at, false, Colour::hex(0x20_20_20));
        }
        letters.letter(&mut canvas, &words, em, middle, false, Colour::hex(0xff_ff_ff));
    }
    let mixed = picture.pixels().iter().zip(&lettered).map(|(&one, &other)| one.midpoint(other)).collect();
    Raster::new(width_px, height_px, mixed).unwrap_or_else(|| picture.clone())
}
