//! For any plan: the regions of a file fill it without a gap, each line is where it should be, and the rows come out whole.

use super::{canvas, made, paper, picture, plan, recipe};
use overmantel::colour::Colour;
use overmantel::geometry::Size;
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::plan::{Edge, Finish, Surround, Weighting};
use overmantel::print_file::{Fill, Form, Margin, PrintWish, Taken};
use proptest::prelude::*;

fn finishes() -> impl Strategy<Value = Finish> {
    let length = |most: i64| (0..=most).prop_map(Length::micrometres);
    prop_oneof![
        (length(60_000), length(20_000)).prop_map(|(border, extra)| {
            let weighting = Weighting::Extra(extra);
            paper(Surround { weighting, ..Surround::even(border) })
        }),
        (5_000_i64..60_000).prop_map(|depth| canvas(Length::micrometres(depth), Edge::Mirrored)),
        (5_000_i64..60_000).prop_map(|depth| canvas(Length::micrometres(depth), Edge::Carried)),
        (5_000_i64..60_000)
            .prop_map(|depth| canvas(Length::micrometres(depth), Edge::Plain(Colour::hex(0x20_30_40)))),
    ]
}

/// How far a number of pixels is from where the length asks for it, in pixels.
fn off(px: u32, length: Length, pixels_per_inch: f64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "lengths of a piece")]
    let inches = length.units() as f64 / UNITS_PER_INCH as f64;
    (f64::from(px) - inches * pixels_per_inch).abs()
}

proptest! {
    #[test]
    fn regions_fill_the_file(
        finish in finishes(),
        width in 20_000_i64..400_000,
        height in 20_000_i64..400_000,
        picture_px in (1_u32..90, 1_u32..90),
        density in prop::option::of(10_u32..30),
        bleed in 0_i64..20_000,
    ) {
        let size = Size::new(Length::micrometres(width), Length::micrometres(height));
        let plan = plan(picture_px, size, finish);
        let wish = PrintWish { density, bleed: Length::micrometres(bleed), ..PrintWish::default() };
        let recipe = recipe(&plan, 0, wish).expect("a recipe");
        let (wide, high) = recipe.size_px();
        let margins = recipe.margins;
        let px = |margin: Margin| margin.band_px + margin.bleed_px;
        prop_assert_eq!(wide, px(margins.left) + recipe.printed_px.0 + px(margins.right));
        prop_assert_eq!(high, px(margins.top) + recipe.printed_px.1 + px(margins.bottom));
        #[expect(clippy::cast_precision_loss, reason = "small numbers")]
        let ppi = *recipe.pixels_per_inch.numer() as f64 / *recipe.pixels_per_inch.denom() as f64;
        let sides = [margins.left, margins.top, margins.right, margins.bottom];
        let bands = [
            (recipe.trimmed.width, recipe.printed_px.0 + margins.left.band_px + margins.right.band_px),
            (recipe.trimmed.height, recipe.printed_px.1 + margins.top.band_px + margins.bottom.band_px),
            (recipe.size.width, wide),
            (recipe.size.height, high),
        ];
        // Half a pixel for each of the three spans along a line; a file of a few pixels has at least one.
        let thinnest = f64::from(recipe.printed_px.0.min(recipe.printed_px.1));
        for (length, px) in bands {
            prop_assert!(off(px, length, ppi) <= if thinnest > 1.0 { 1.501 } else { 2.001 }, "{:?}: {}", length, px);
        }
        for side in sides {
            prop_assert!(side.own_px <= side.bleed_px && (side.own_px == 0 || side.band_px == 0));
        }
        if let Taken::Pixels(crop) = recipe.taken {
            prop_assert_eq!((crop.width, crop.height), recipe.taken_px());
            prop_assert!(crop.left + crop.width <= picture_px.0 && crop.top + crop.height <= picture_px.1);
        }
        let whole = picture(picture_px);
        let colour = recipe.colour().unwrap_or(Colour::hex(0));
        let file = made(&recipe, Form::RGB, whole.as_raw(), colour);
        // What is plain is plain to the corners.
        let pixel = |x: u32, y: u32| {
            let at = (y as usize * wide as usize + x as usize) * 3;
            Colour { red: file[at], green: file[at + 1], blue: file[at + 2] }
        };
        for (side, (x, y)) in sides.into_iter().zip([(0, high / 2), (wide / 2, 0), (wide - 1, high / 2), (wide / 2, high - 1)]) {
            if let Fill::Plain(colour) = side.fill && px(side) > 0 {
                prop_assert_eq!(pixel(x, y), colour);
            }
        }
    }
}
