//! The pieces on nothing: what covers, what is seen through, and that laid over a wall by hand it looks as it does hung there.

use image::RgbaImage;
use overmantel::colour::Colour;
use overmantel::draw::{Painter, Sheet, Theme, cut_out, projection::Projection};
use overmantel::figures::Figures;
use overmantel::plan::{Lighting, Plan, WallFinish};
use overmantel::scene::{Scene, scene};

fn drawn(dark: bool, lines: bool) -> (Scene, Sheet, RgbaImage) {
    let mut plan = Plan::starting();
    plan.viewing.light = Lighting::Day;
    let scene = scene(&plan, &Figures::of(&plan).expect("figures"));
    let mut sheet = Sheet::new(600, 400);
    sheet.lines = lines;
    sheet.theme = if dark { Theme::DARK } else { Theme::LIGHT };
    sheet.height_px = Projection::height_for_width(&scene, &sheet);
    let pixels = cut_out(&scene, &[], &sheet).expect("room");
    let image = RgbaImage::from_raw(sheet.width_px, sheet.height_px, pixels).expect("four bytes a pixel");
    (scene, sheet, image)
}

#[test]
fn pieces_cover_and_the_rest_is_nothing_or_their_shadow() {
    let (scene, sheet, image) = drawn(false, false);
    let p = Projection::fit(&scene, &sheet);
    let mut painter = Painter::default();
    let whole = painter.draw(&scene, &[], &sheet).pixels.to_vec();
    let (mut shadow, mut nothing) = (0, 0);
    for (x, y, pixel) in image.enumerate_pixels() {
        #[expect(clippy::cast_precision_loss, reason = "a few hundred pixels")]
        let (at_x, at_y) = (x as f32 + 0.5, y as f32 + 0.5);
        let inside = |by: f32| {
            scene.pieces.iter().any(|piece| {
                let (left, right) = (p.x(piece.outside.x), p.x(piece.outside.right()));
                let (top, foot) = (p.y(piece.outside.top()), p.y(piece.outside.y));
                at_x > left + by && at_x < right - by && at_y > top + by && at_y < foot - by
            })
        };
        if inside(1.5) {
            let at = usize::try_from((y * image.width() + x) * 4).expect("a place");
            // As in the whole drawing, where nothing is seen through a piece.
            assert_eq!(pixel.0, [whole[at], whole[at + 1], whole[at + 2], 255], "at {x}, {y}");
        } else if !inside(-1.5) {
            if pixel.0[3] == 0 {
                nothing += 1;
            } else {
                // A shadow takes light and adds none.
                assert!(pixel.0[..3].iter().all(|&channel| channel == 0), "{pixel:?} at {x}, {y}");
                assert!(pixel.0[3] < 200, "{pixel:?} at {x}, {y}");
                shadow += 1;
            }
        }
    }
    let all = image.width() * image.height();
    assert!(nothing > all / 2, "{nothing} of {all} pixels are nothing");
    assert!(shadow > 200, "{shadow} pixels of shadow");
}

/// One channel by Porter and Duff's operator over, worked out here: (1 - a) ground + a colour, in encoded values.
fn over(own: u8, cover: u8, ground: u8) -> f64 {
    let share = f64::from(cover) / 255.0;
    (1.0 - share) * f64::from(ground) + share * f64::from(own)
}

/// By hand: half of black over white is 127.5, over black 0; a fifth of 200 over 100 is 120; what covers all, and what covers nothing.
#[test]
fn the_operator_over_by_hand() {
    let row = |own, cover, ground, expected: f64| {
        assert!((over(own, cover, ground) - expected).abs() < 1e-9, "{own} by {cover} over {ground}");
    };
    row(0, 51, 255, 204.0);
    row(0, 51, 0, 0.0);
    row(200, 51, 100, 120.0);
    row(17, 255, 250, 17.0);
    row(17, 0, 250, 250.0);
}

/// Laid over the drawing of the empty wall, the pieces look as they do on the drawing of the wall with them. The one is laid in encoded
/// values, the other's shadow falls in linear light: on a light wall they agree within a few codes, on a black one there is no light to take.
#[test]
fn laid_over_an_empty_wall_they_look_as_hung_on_it() {
    let (scene, sheet, image) = drawn(false, false);
    let mut painter = Painter::default();
    for (paint, most, mean) in [(0xff_ff_ff, 1.5, 0.05), (0x80_80_80, 2.5, 0.2), (0, 0.5, 0.05)] {
        let mut hung = Scene { fixtures: Vec::new(), figure: None, ..scene.clone() };
        (hung.wall.paint, hung.wall.finish) = (Colour::hex(paint), WallFinish::Smooth);
        let empty = Scene { pieces: Vec::new(), ..hung.clone() };
        let expected = painter.draw(&hung, &[], &sheet).pixels.to_vec();
        let ground = painter.draw(&empty, &[], &sheet).pixels.to_vec();
        let (mut worst, mut sum, mut count, mut differ) = (0.0_f64, 0.0, 0.0, 0);
        let pixels = image.pixels().zip(ground.chunks_exact(4).zip(expected.chunks_exact(4)));
        for (own, (ground, expected)) in pixels {
            for channel in 0..3 {
                let off =
                    (over(own.0[channel], own.0[3], ground[channel]) - f64::from(expected[channel])).abs();
                worst = worst.max(off);
                if own.0[3] > 0 {
                    (sum, count) = (sum + off, count + 1.0);
                }
            }
            differ += usize::from(ground[..3] != expected[..3]);
        }
        assert!(differ > 3_000, "{differ} pixels of the pieces are other than the wall");
        assert!(worst <= most, "{worst} codes on {paint:06x}");
        assert!(sum / count <= mean, "{} codes on {paint:06x}", sum / count);
    }
}

#[test]
fn lines_are_there_in_the_inks_of_their_ground() {
    for (dark, ink) in [(false, Theme::LIGHT.ink), (true, Theme::DARK.ink)] {
        let (_, _, image) = drawn(dark, true);
        let found = image.pixels().filter(|pixel| pixel.0 == [ink.red, ink.green, ink.blue, 255]).count();
        assert!(found > 300, "{found} pixels of ink, dark: {dark}");
    }
}
