//! A recipe in words, for whoever is to check it.

use super::{Fill, Margin, Margins, Recipe, Taken, WHITE};
use crate::length::Length;
use crate::measure::{Grade, print_in};
use crate::plan::System;
use crate::print::from_corner;

impl Recipe {
    /// What the file becomes and what it is made of, a line each; `file` is the name of the picture's file.
    #[must_use]
    pub fn words(&self, file: &str, first: System) -> Vec<String> {
        let px =
            |(width, height): (u32, u32)| [&width.to_string(), " × ", &height.to_string(), " px"].concat();
        let size = |system| {
            let side = |side| print_in(side, Grade::Cut, system);
            [side(self.size.width), side(self.size.height)].join(" × ")
        };
        let [own, other] = first.with_other().map(size);
        let ppi = self.ppi();
        let mut lines = vec![[&px(self.size_px()), ", ", &own, " (", &other, ") at ", &ppi, " ppi"].concat()];
        let printed = px(self.printed_px);
        lines.push(match self.taken {
            Taken::Pixels(crop) => {
                let Margins { left, top, .. } = self.margins;
                let from = from_corner(crop.left + left.own_px, crop.top + top.own_px);
                [&printed, " of ", file, ", ", &from, "; no pixel is changed"].concat()
            }
            Taken::Scaled(_) if self.is_enlarged() => [
                file,
                " enlarged to ",
                &printed,
                ": its resolution is lower than ",
                &ppi,
                ", and enlarging does not make it sharper",
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
            lines.push(["bleed of ", &four(bleeds), ", to be trimmed off: ", &made_of(sides)].concat());
        }
        lines
    }

    /// Pixels per inch, to three places.
    #[must_use]
    pub fn ppi(&self) -> String {
        let thousandths = self.pixels_to(Length::inches(1000));
        let places = (1000 + thousandths % 1000).to_string();
        let text = [&(thousandths / 1000).to_string(), ".", &places[1..]].concat();
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    }
}

/// What a bleed is made of.
fn made_of(sides: [Margin; 4]) -> String {
    let own = sides.map(|side| side.own_px);
    let mut parts = Vec::new();
    if own.iter().any(|px| *px > 0) {
        parts.push(["the picture's own pixels beyond what is kept, ", &four(own)].concat());
    }
    let rest = if parts.is_empty() { "" } else { " for the rest" };
    let made = sides.into_iter().filter(|side| side.bleed_px > side.own_px);
    let (plain, mirrored): (Vec<_>, Vec<_>) = made.partition(|side| side.fill != Fill::Mirrored);
    if !mirrored.is_empty() {
        parts.push(["the picture in mirror image", rest].concat());
    }
    if let Some(Fill::Plain(colour)) = plain.first().map(|side| side.fill) {
        parts.push(if colour == WHITE { "white".into() } else { colour.to_string() });
    }
    parts.join("; ")
}

/// One number for each side, or one for all of them.
fn four(px: [u32; 4]) -> String {
    if px.iter().all(|one| *one == px[0]) {
        return [&px[0].to_string(), " px all round"].concat();
    }
    let [left, top, right, bottom] = px.map(|px| px.to_string());
    [
        &left,
        " px on the left, ",
        &top,
        " at the top, ",
        &right,
        " on the right and ",
        &bottom,
        " at the bottom",
    ]
    .concat()
}
