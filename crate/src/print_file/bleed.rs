//! What of a bleed the picture itself is: its file may have pixels beyond what is kept.

use super::{Fill, Margin, Recipe, Taken};
use crate::print::{Exact, PixelCrop, Source};

impl Recipe {
    /// Takes more of the picture where it is outermost and its file has more, as far as the bleed goes: whole pixels of the print-ready
    /// file, so that those within the crop stay as they are.
    pub(super) fn reach_into_bleed(&mut self) {
        let whole_px = self.picture_px;
        let margins = &mut self.margins;
        let (across, down) =
            ([&mut margins.left, &mut margins.right], [&mut margins.top, &mut margins.bottom]);
        match &mut self.taken {
            Taken::Pixels(PixelCrop { left, top, width, height }) => {
                for (start, length, whole, sides) in
                    [(left, width, whole_px.0, across), (top, height, whole_px.1, down)]
                {
                    let spare = [*start, whole.saturating_sub(*start + *length)];
                    let [before, after] = own(sides, spare.map(u64::from));
                    *start -= before;
                    *length += before + after;
                }
            }
            Taken::Scaled(Source { left, top, width, height }) => {
                for (start, length, whole, printed, sides) in [
                    (left, width, whole_px.0, self.printed_px.0, across),
                    (top, height, whole_px.1, self.printed_px.1, down),
                ] {
                    // Pixels of the picture to one of the print-ready file.
                    let step = *length / i128::from(printed);
                    let spare = [*start, Exact::from_integer(whole.into()) - *start - *length];
                    let spare = spare.map(|spare| u64::try_from((spare / step).to_integer()).unwrap_or(0));
                    let [before, after] = own(sides, spare);
                    *start -= step * i128::from(before);
                    *length += step * i128::from(before + after);
                }
            }
        }
    }
}

/// Notes on two opposite sides how many pixels of the bleed are the picture's own, of so many that are to spare.
fn own(sides: [&mut Margin; 2], spare: [u64; 2]) -> [u32; 2] {
    let [before, after] = sides;
    let side = |margin: &mut Margin, spare: u64| {
        if margin.fill == Fill::Mirrored && margin.band_px == 0 {
            margin.own_px = u32::try_from(spare).unwrap_or(u32::MAX).min(margin.bleed_px);
        }
        margin.own_px
    };
    [side(before, spare[0]), side(after, spare[1])]
}
