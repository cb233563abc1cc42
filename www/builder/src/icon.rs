//! The page's icon as PNG, for devices that install it: a picture above a mantel, drawn from the same numbers as in `www/index.html`.
//!
//! Its edges are whole pixels at the sizes that are written, so that nothing has to be blended.

use crate::{Failure, Outcome};

/// A rectangle of the icon in quarters of a unit, of which it is 16 wide and high, and its colour.
struct Filled {
    left: usize,
    top: usize,
    right: usize,
    bottom: usize,
    colour: [u8; 3],
}

const PAPER: [u8; 3] = [0xfb, 0xf8, 0xf0];
const RED: [u8; 3] = [0xb5, 0x36, 0x2a];
const INK: [u8; 3] = [0x2b, 0x2a, 0x27];

/// The frame is a line of 1.5 units: its outside, and its inside over it.
const SHAPES: [Filled; 3] = [
    Filled { left: 10, top: 8, right: 54, bottom: 44, colour: RED },
    Filled { left: 16, top: 14, right: 48, bottom: 38, colour: PAPER },
    Filled { left: 4, top: 50, right: 60, bottom: 56, colour: INK },
];

/// The icon, `side` pixels wide and high, with a unit of `unit` pixels: fewer than a sixteenth leave paper round it, which a device
/// may cut into any shape (the middle four fifths always stay: W3C, Web Application Manifest, "maskable").
pub(crate) fn png(side: u16, unit: u16) -> Outcome<Vec<u8>> {
    let (size, quarter) = (usize::from(side), usize::from(unit) / 4);
    let margin = (size - 64 * quarter) / 2;
    let mut pixels = PAPER.repeat(size * size);
    for Filled { left, top, right, bottom, colour } in SHAPES {
        let [left, top, right, bottom] = [left, top, right, bottom].map(|at| margin + at * quarter);
        for row in pixels.chunks_exact_mut(3 * size).take(bottom).skip(top) {
            row[3 * left..3 * right].copy_from_slice(&colour.repeat(right - left));
        }
    }
    let mut written = Vec::new();
    let mut encoder = png::Encoder::new(&mut written, side.into(), side.into());
    encoder.set_color(png::ColorType::Rgb);
    encoder
        .write_header()
        .and_then(|mut writer| writer.write_image_data(&pixels))
        .map_err(|error| Failure::new(format!("The icon cannot be written: {error}.")))?;
    Ok(written)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{paths, read};

    #[test]
    fn it_is_the_icon_of_the_page() {
        let page =
            String::from_utf8(read(&paths::www().join("index.html")).expect("the page")).expect("text");
        // A line of 1.5 units along 3.25 to 12.75 and 2.75 to 10.25 covers 2.5 to 13.5 and 2 to 11, and leaves 4 to 12 and 3.5 to 9.5.
        for part in [
            "fill='%23fbf8f0' d='M0 0h16v16H0z'",
            "stroke='%23b5362a' stroke-width='1.5' d='M3.25 2.75h9.5v7.5h-9.5z'",
            "fill='%232b2a27' d='M1 12.5h14V14H1z'",
        ] {
            assert!(page.contains(part), "{part}");
        }
    }

    #[test]
    fn its_parts_are_where_they_should_be() {
        let file = png(192, 12).expect("memory can be written");
        let mut reader = png::Decoder::new(std::io::Cursor::new(file)).read_info().expect("a PNG");
        let mut pixels = vec![0; reader.output_buffer_size().expect("its size")];
        reader.next_frame(&mut pixels).expect("its pixels");
        let at = |x: usize, y: usize| &pixels[3 * (192 * y + x)..][..3];
        // 12 pixels to the unit: the frame from 30 and 24, its inside from 48 and 42, the mantel from 12 and 150 to 180 and 168.
        for (x, y, colour) in [
            (29, 24, PAPER),
            (30, 24, RED),
            (47, 42, RED),
            (48, 42, PAPER),
            (161, 131, RED),
            (162, 131, PAPER),
            (12, 150, INK),
            (179, 167, INK),
            (180, 167, PAPER),
        ] {
            assert_eq!(at(x, y), colour, "{x}, {y}");
        }
    }
}
