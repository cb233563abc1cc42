//! The section as pixels: laid where scale and origin say, nothing outside the drawing.

use crate::pieces::{GREEN, board, cut, print_in, specimens, usual, with_mat};
use overmantel::colour::Colour;
use overmantel::draw::{Sheet, section::SectionDrawing, section::draw};
use overmantel::geometry::Size;
use overmantel::plan::{Frame, Framing, Material, System};
use overmantel::scene::section::Section;
use overmantel_tests::given::length;

/// Whether a pixel is clearly of one of three primaries: 0 red, 1 green, 2 blue.
fn is_hue(pixel: &[u8], primary: usize) -> bool {
    let channel = |index: usize| f32::from(pixel[index]);
    (0..3).filter(|&index| index != primary).all(|other| channel(primary) > 1.6 * channel(other))
}

/// From where to before where a hue is seen along a line of pixels.
#[track_caller]
fn extent<'a>(line: impl Iterator<Item = &'a [u8]>, primary: usize) -> (f32, f32) {
    let seen: Vec<u16> =
        (0_u16..).zip(line).filter(|(_, pixel)| is_hue(pixel, primary)).map(|(at, _)| at).collect();
    match (seen.first(), seen.last()) {
        (Some(&first), Some(&last)) => (f32::from(first), f32::from(last) + 1.0),
        _ => panic!("nothing of hue {primary}"),
    }
}

fn row(drawn: &SectionDrawing, y: f32) -> impl Iterator<Item = &[u8]> {
    drawn
        .pixels
        .chunks_exact(drawn.width_px as usize * 4)
        .nth(nearest(y))
        .into_iter()
        .flat_map(|row| row.chunks_exact(4))
}

fn column(drawn: &SectionDrawing, x: f32) -> impl Iterator<Item = &[u8]> {
    drawn.pixels.chunks_exact(drawn.width_px as usize * 4).map(move |row| &row[nearest(x) * 4..][..4])
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a pixel of a drawing")]
fn nearest(at: f32) -> usize {
    at.round().max(0.0) as usize
}

/// A frame with a face of 2, a lip of 1/2, 1/8 of play, a rabbet of 1 in a depth of 1 1/2: its lip from 1 to 1 1/2, its back 1 1/2 high.
/// Glass 1/8, mat 1/4, mount 1/8, backing 1/4: the mat from 5/8 to 7/8, its foot at 2 - (1/2 - 1/16) = 1 9/16.
#[test]
fn pixels_lie_where_scale_and_origin_say() {
    let frame = Frame {
        face: length("2"),
        rabbet_width: length("1/2"),
        rabbet_depth: length("1"),
        depth: length("1 1/2"),
        colour: GREEN,
        ..Frame::starting()
    };
    let framing = Framing {
        frame: Some(frame),
        mount: board(Material::MatBoard, "1/8"),
        backing: board(Material::FoamBoard, "1/4"),
        ..with_mat(|mat| mat.thickness = length("1/4"))
    };
    let cut = cut(Size::inches(16, 20), print_in(framing));
    for width in [320, 700, 1400] {
        let drawn = draw(&cut, &Sheet::new(width, 4000), System::Inches);
        assert_eq!(drawn.pixels.len(), drawn.width_px as usize * drawn.height_px as usize * 4);
        let (x, y) =
            (|at: f32| drawn.origin.0 + at * drawn.scale, |at: f32| drawn.origin.1 - at * drawn.scale);
        let check = |found: (f32, f32), from: f32, to: f32, what: &str| {
            let off = (found.0 - from).abs().max((found.1 - to).abs());
            assert!(off <= 1.0, "{what} at {width}: {found:?}, and {from:.2} to {to:.2} on paper");
        };
        // No note's line is at these heights.
        check(extent(row(&drawn, y(0.25)), 1), x(0.0), x(1.5), "moulding");
        check(extent(row(&drawn, y(1.75)), 1), x(1.0), x(1.5), "lip");
        check(extent(row(&drawn, y(1.75)), 2), x(0.625), x(0.875), "mat");
        check(extent(column(&drawn, x(1.375)), 1), y(2.0), y(0.0), "lip, upright");
        check(extent(column(&drawn, x(0.125)), 1), y(1.5), y(0.0), "back of the moulding, upright");
        let (_, foot) = extent(column(&drawn, x(0.75)), 2);
        assert!((foot - y(1.5625)).abs() <= 1.0, "foot of the mat at {width}: {foot}");
    }
}

/// The bar at the foot is 1 in long, or 2 cm.
#[test]
fn the_scale_bar_is_to_scale() {
    let cut = cut(Size::inches(16, 20), print_in(usual()));
    for width in [320, 700, 1400] {
        let sheet = Sheet::new(width, 4000);
        for (system, inches) in [(System::Inches, 1.0), (System::Centimetres, 2.0 / 2.54)] {
            let drawn = draw(&cut, &sheet, system);
            let Colour { red, green, blue } = sheet.theme.ink;
            // Below the depths nothing but the bar is as long: it stands on the last rows with a long run of ink.
            let longest = |y: u32| {
                let row: Vec<bool> =
                    row(&drawn, pixels(y)).map(|pixel| pixel[..3] == [red, green, blue]).collect();
                row.chunk_by(PartialEq::eq).filter(|run| run[0]).map(<[bool]>::len).max().unwrap_or(0)
            };
            let bar = (drawn.height_px - 16..drawn.height_px).map(longest).max().unwrap_or(0);
            let expected = drawn.scale * inches;
            let found = pixels(u32::try_from(bar).unwrap_or_default());
            assert!((found - expected).abs() <= 1.0, "{found} for {expected} at {width}");
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "a pixel of a drawing")]
fn pixels(count: u32) -> f32 {
    count as f32
}

/// Depths are written over no note, however many lines the notes take: what is inked without them is not changed by them. The last
/// 2.6 em are the scale bar's, which moves.
#[test]
fn depths_leave_the_notes_alone() {
    for (name, cut) in specimens() {
        let without = Section { depths: Vec::new(), ..cut.clone() };
        for (width, bar_px) in [(320, 33), (700, 37)] {
            let sheet = Sheet::new(width, 4000);
            let Colour { red, green, blue } = sheet.theme.sheet;
            let (with, without) =
                (draw(&cut, &sheet, System::Inches), draw(&without, &sheet, System::Inches));
            // The lines of the depths begin at the foot of the wall's.
            let wall = nearest(without.origin.0) + 2;
            let written_over = (0..without.height_px - bar_px)
                .flat_map(|y| row(&without, pixels(y)).zip(row(&with, pixels(y))).skip(wall))
                .filter(|(note, found)| note[..3] != [red, green, blue] && note != found)
                .count();
            assert_eq!(written_over, 0, "{name} at {width}");
        }
    }
}

/// No text runs out: the outermost two pixels on every side are bare ground.
#[test]
fn nothing_runs_out_of_the_drawing() {
    for (name, cut) in specimens() {
        for (width, pixel_ratio) in [(320, 1.0), (640, 2.0), (700, 1.0), (1400, 1.0)] {
            let sheet = Sheet { pixel_ratio, ..Sheet::new(width, 4000) };
            let drawn = draw(&cut, &sheet, System::Centimetres);
            let Colour { red, green, blue } = sheet.theme.sheet;
            let (width_px, height_px) = (drawn.width_px, drawn.height_px);
            assert!(height_px > 100, "{name} at {width} is {height_px} high");
            let bare = |line: &mut dyn Iterator<Item = &[u8]>, where_to: &str| {
                let inked = line.enumerate().find(|(_, pixel)| pixel[..3] != [red, green, blue]);
                assert_eq!(inked, None, "{name} at {width} × {pixel_ratio}: inked {where_to}");
            };
            for off in [0, 1] {
                bare(&mut row(&drawn, pixels(off)), "above");
                bare(&mut row(&drawn, pixels(height_px - 1 - off)), "below");
                bare(&mut column(&drawn, pixels(off)), "on the left");
                bare(&mut column(&drawn, pixels(width_px - 1 - off)), "on the right");
            }
        }
    }
}
