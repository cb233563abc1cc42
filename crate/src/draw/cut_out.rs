//! The pieces by themselves, with their shadows and lines, on nothing: to be laid over another picture.
//!
//! They are drawn on a white ground and on a black one. How much of white is lost where something lies is how much it covers, and what is
//! seen on black is its own colour by as much: `white = (1 - a) + a c` and `black = a c` (Porter and Duff, "Compositing Digital Images",
//! 1984: the operator over, here in encoded values, as programs lay pictures over others).

use super::light::Lamp;
use super::lines;
use super::painter::{Painter, hang};
use super::projection::Projection;
use super::sheet::{LoadedPicture, Sheet, Theme};
use crate::colour::Colour;
use crate::field::Whose;
use crate::plan::WallFinish;
use crate::scene::{Scene, ScenicPiece};
use tiny_skia::{Color, Pixmap};

/// Draws the pieces of a scene by themselves flat, to scale: sRGB and cover, four bytes a pixel, the colour not multiplied by its cover.
/// The inks of a dark sheet are for a dark ground. Nothing where there is no room for so many pixels.
#[must_use]
pub fn cut_out(scene: &Scene, copies: &[Option<&LoadedPicture>], sheet: &Sheet) -> Option<Vec<u8>> {
    let (white, black) = (Colour::hex(0xff_ff_ff), Colour::hex(0x00_00_00));
    let is_dark = sheet.theme == Theme::DARK;
    let ground = if is_dark { black } else { white };
    let mut alone = Scene { fixtures: Vec::new(), figure: None, ..scene.clone() };
    (alone.wall.paint, alone.wall.finish) = (ground, WallFinish::Smooth);
    // What does not stand there is not measured.
    alone
        .dimensions
        .retain(|dimension| dimension.field.is_none_or(|field| !matches!(field.of, Whose::Fixture(_))));
    let sheet = Sheet { theme: Theme { sheet: ground, ..sheet.theme }, guides: Vec::new(), ..sheet.clone() };
    let projection = Projection::fit(&alone, &sheet);
    let lamp = Lamp::of(alone.light);
    let mut painter = Painter::default();
    let place = |piece: &ScenicPiece| (projection.on_pixels(piece.outside), projection.scale);
    painter.keep_pieces(&alone, copies, &sheet, place, lamp);
    let placed: Vec<_> = alone.pieces.iter().map(|piece| projection.on_pixels(piece.outside).rect).collect();
    let mut touched = Vec::new();
    let mut drawn = Vec::new();
    for grey in [1.0, 0.0] {
        let mut canvas = Pixmap::new(sheet.width_px, sheet.height_px)?;
        canvas.fill(Color::from_rgba(grey, grey, grey, 1.0)?);
        let wall = alone.wall.size;
        hang(
            &mut canvas.as_mut(),
            &alone.pieces,
            &placed,
            &painter.pieces,
            (wall, projection, &lamp),
            &mut touched,
        );
        drawn.push(canvas);
    }
    let [on_white, on_black] = drawn.as_mut_slice() else { return None };
    if sheet.lines {
        // The same inks on both.
        let chosen = if is_dark { &*on_black } else { &*on_white };
        let lines = lines::chosen(&chosen.as_ref(), &alone, &sheet, projection);
        for canvas in [&mut *on_white, &mut *on_black] {
            lines::put(&mut canvas.as_mut(), &lines, &mut painter.lettering, &mut touched);
        }
    }
    let pixels = on_white.data().chunks_exact(4).zip(on_black.data().chunks_exact(4));
    Some(
        pixels
            .flat_map(|(white, black)| {
                covering([white[0], white[1], white[2]], [black[0], black[1], black[2]])
            })
            .collect(),
    )
}

/// A colour and its cover, from what is seen on white and on black.
fn covering(white: [u8; 3], black: [u8; 3]) -> [u8; 4] {
    let lost = white.iter().zip(&black).map(|(white, black)| 255 - white.saturating_sub(*black));
    let cover = lost.max().unwrap_or(0);
    if cover == 0 {
        return [0; 4];
    }
    let own = |channel: u8| {
        let (channel, cover) = (u16::from(channel), u16::from(cover));
        u8::try_from(((channel * 255).saturating_add(cover / 2) / cover).min(255)).unwrap_or(255)
    };
    let [red, green, blue] = black.map(own);
    [red, green, blue, cover]
}
