//! A recipe in words, for whoever is to check it.

use super::{Recipe, Taken};
use crate::length::Length;
use crate::measure::{Grade, print_in};
use crate::plan::System;

impl Recipe {
    /// What the file becomes and what it is made of, a line each; `file` is the name of the picture's file.
    #[must_use]
    pub fn words(&self, file: &str) -> Vec<String> {
        let px =
            |(width, height): (u32, u32)| [&width.to_string(), " × ", &height.to_string(), " px"].concat();
        let size = |system| {
            let side = |side| print_in(side, Grade::Cut, system);
            [side(self.size.width), side(self.size.height)].join(" × ")
        };
        let [inches, metric] = [System::Inches, System::Centimetres].map(size);
        let ppi = self.ppi();
        let mut lines =
            vec![[&px(self.size_px()), ", ", &inches, " (", &metric, ") at ", &ppi, " px/in"].concat()];
        let printed = px(self.printed_px);
        lines.push(match self.taken {
            Taken::Pixels(crop) => {
                let [left, top] = [crop.left, crop.top].map(|px| px.to_string());
                [
                    &printed,
                    " of ",
                    file,
                    ", from ",
                    &left,
                    " px from the left and ",
                    &top,
                    " px from the top; no pixel is changed",
                ]
                .concat()
            }
            Taken::Scaled(_) if self.is_enlarged() => [
                file,
                " enlarged to ",
                &printed,
                ": it has fewer pixels to the inch than ",
                &ppi,
                ", and nothing is sharper for it",
            ]
            .concat(),
            Taken::Scaled(_) => {
                [file, " reduced to ", &printed, " in linear light, by the curve of sRGB"].concat()
            }
        });
        let sides = [self.margins.left, self.margins.top, self.margins.right, self.margins.bottom];
        let bands = sides.map(|side| side.band_px);
        if bands.iter().any(|px| *px > 0) {
            lines.push([self.band, " of ", &four(bands)].concat());
        }
        let bleeds = sides.map(|side| side.bleed_px);
        if bleeds.iter().any(|px| *px > 0) {
            lines.push(["bleed of ", &four(bleeds), ", to be cut off"].concat());
        }
        lines
    }

    /// Pixels to the inch, to three places.
    #[must_use]
    pub fn ppi(&self) -> String {
        let thousandths = self.pixels_to(Length::inches(1000));
        let places = (1000 + thousandths % 1000).to_string();
        let text = [&(thousandths / 1000).to_string(), ".", &places[1..]].concat();
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    }
}

/// One number for each side, or one for all of them.
fn four(px: [u32; 4]) -> String {
    if px.iter().all(|one| *one == px[0]) {
        return [&px[0].to_string(), " px all round"].concat();
    }
    let [left, head, right, foot] = px.map(|px| px.to_string());
    [&left, " px on the left, ", &head, " at the head, ", &right, " on the right and ", &foot, " at the foot"]
        .concat()
}
