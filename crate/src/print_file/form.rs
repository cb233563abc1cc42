//! Forms of pixels: one grey or three colours, of eight bits or of sixteen.

use crate::colour::{Colour, Encoder, decode_table, decode_wide, encode_wide};
use crate::resample::Light;

/// How pixels are stored in a row: sample by sample, those of sixteen bits with the higher byte first, as PNG has them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// Whether a pixel is red, green and blue, and not one grey.
    pub is_coloured: bool,
    /// Whether a sample has sixteen bits, and not eight.
    pub is_wide: bool,
}

impl Form {
    /// Three colours of eight bits.
    pub const RGB: Self = Self { is_coloured: true, is_wide: false };

    /// Samples of a pixel.
    #[must_use]
    pub const fn samples(self) -> usize {
        if self.is_coloured { 3 } else { 1 }
    }

    /// Bytes of a pixel.
    #[must_use]
    pub const fn bytes(self) -> usize {
        if self.is_wide { self.samples() * 2 } else { self.samples() }
    }

    /// The pixel of a colour; of a grey form, that of its green.
    #[must_use]
    pub fn pixel(self, colour: Colour) -> Vec<u8> {
        let Colour { red, green, blue } = colour;
        let samples: &[u8] = if self.is_coloured { &[red, green, blue] } else { &[green] };
        // 255 × 257 = 65535: the same byte twice is the same share of the whole.
        if self.is_wide {
            samples.iter().flat_map(|&sample| [sample, sample]).collect()
        } else {
            samples.to_vec()
        }
    }

    /// Pixels of a row as linear light, by the curve of sRGB.
    /// As many as `light` has.
    pub fn read(self, row: &[u8], light: &mut [Light]) {
        let count = self.samples();
        for (light, pixel) in light.iter_mut().zip(row.chunks_exact(self.bytes())) {
            if self.is_wide {
                for (light, &[high, low]) in light[..count].iter_mut().zip(pixel.as_chunks::<2>().0) {
                    *light = decode_wide(u16::from_be_bytes([high, low]));
                }
            } else {
                let table = decode_table();
                for (light, &code) in light[..count].iter_mut().zip(pixel) {
                    *light = table[usize::from(code)];
                }
            }
        }
    }

    /// Linear light as pixels of a row.
    pub fn write(self, light: &[Light], row: &mut [u8]) {
        let (count, encoder) = (self.samples(), Encoder::new());
        for (light, pixel) in light.iter().zip(row.chunks_exact_mut(self.bytes())) {
            if self.is_wide {
                for (&light, pair) in light[..count].iter().zip(pixel.as_chunks_mut::<2>().0) {
                    *pair = encode_wide(light).to_be_bytes();
                }
            } else {
                for (&light, code) in light[..count].iter().zip(pixel) {
                    *code = encoder.code(light);
                }
            }
        }
    }
}
