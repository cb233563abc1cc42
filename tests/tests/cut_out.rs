//! The pieces on nothing: what covers, what is seen through, and that it looks over a wall as it should, laid there by another library.

use image::{Rgba, RgbaImage, imageops};
use overmantel::draw::{Painter, Sheet, Theme, cut_out, projection::Projection};
use overmantel::figures::Figures;
use overmantel::plan::{LightOf, Plan};
use overmantel::scene::{Scene, scene};

fn drawn(dark: bool, lines: bool) -> (Scene, Sheet, RgbaImage) {
    let mut plan = Plan::starting();
    plan.viewing.light = LightOf::Day;
    let scene = scene(&plan, &Figures::of(&plan).expect("figures"));
    let mut sheet = Sheet::new(600, 400);
    sheet.lines = lines;
    sheet.theme = if dark { Theme::DARK } else { Theme::LIGHT };
    sheet.height_px = Projection::height_for_width(&scene, &sheet);
    let pixels = cut_out(&scene, &[], &sheet).expect("room");
    let image = RgbaImage::from_raw(sheet.width_px, sheet.height_px, pixels).expect("four bytes a pixel");
    (scene, sheet, image)
}

/// Laid over one colour by the image crate (`imageops::overlay`).
fn over(image: &RgbaImage, grey: u8) -> RgbaImage {
    let mut ground = RgbaImage::from_pixel(image.width(), image.height(), Rgba([grey, grey, grey, 255]));
    imageops::overlay(&mut ground, image, 0, 0);
    ground
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

#[test]
fn laid_over_a_wall_by_another_library_it_darkens_only_where_the_shadow_falls() {
    let (_, _, image) = drawn(false, false);
    for grey in [255, 128, 0] {
        let laid = over(&image, grey);
        for (own, laid) in image.pixels().zip(laid.pixels()) {
            match own.0[3] {
                0 => assert_eq!(laid.0, [grey, grey, grey, 255]),
                255 => assert_eq!(laid.0, own.0),
                // Cover over grey: (1 - a) grey, since a shadow is black; within one code.
                cover if own.0[..3] == [0; 3] => {
                    let expected = u32::from(grey) * u32::from(255 - cover) / 255;
                    assert!(u32::from(laid.0[0]).abs_diff(expected) <= 1, "{own:?} over {grey}: {laid:?}");
                }
                _ => {}
            }
        }
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
