//! Resolutions as ratios: pixels by them are sizes, exactly.

use super::{canvas, paper, plan, recipe};
use num_rational::Ratio;
use overmantel::geometry::Size;
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::plan::{Edge, Surround};
use overmantel::print::Exact;
use overmantel::print_file::PrintWish;
use overmantel::print_file::resolution::nearest;
use proptest::prelude::*;

fn inches(length: Length) -> Exact {
    Ratio::new(length.units().into(), UNITS_PER_INCH.into())
}

fn exact((numerator, denominator): (u32, u32)) -> Exact {
    Ratio::new(numerator.into(), denominator.into())
}

proptest! {
    /// Sizes in sixteenths of an inch and in millimetres fit whatever the picture.
    #[test]
    fn pixels_by_the_resolution_are_the_size(
        picture_px in (1_u32..200_000, 1_u32..200_000),
        sides in (32_i64..1600, 32_i64..1600),
        is_metric: bool,
        density in prop::option::of(10_u32..600),
        bleed in 0_i64..16,
        is_canvas: bool,
    ) {
        let length = |count: i64| if is_metric { Length::mm(count) } else { Length::inches_ratio(count, 16) };
        let finish = if is_canvas { canvas(Length::mm(20), Edge::Mirrored) } else { paper(Surround::even(length(4))) };
        let plan = plan(picture_px, Size::new(length(sides.0), length(sides.1)), finish);
        let wish = PrintWish { density, bleed: length(bleed), ..PrintWish::default() };
        let Ok(recipe) = recipe(&plan, 0, wish) else { return Err(TestCaseError::reject("too large")) };
        let (resolution, (width, height)) = (recipe.resolution(), recipe.size_px());
        for (px, ratio, side) in [(width, resolution.across, recipe.size.width), (height, resolution.down, recipe.size.height)] {
            prop_assert_eq!(Exact::from_integer(px.into()) / exact(ratio), inches(side));
        }
    }

    /// No ratio of such small numbers is nearer: every one of them is tried.
    #[test]
    fn what_does_not_fit_is_the_nearest(numerator in 1_i128..100_000, denominator in 1_i128..100_000, most in 1_u32..60) {
        let value = Ratio::new(numerator, denominator);
        let off = |ratio| { let off = exact(ratio) - value; off.max(-off) };
        let all = (1..=most).flat_map(|numerator| (1..=most).map(move |denominator| (numerator, denominator)));
        let least = all.map(off).min().expect("some");
        prop_assert_eq!(off(nearest(value, most)), least);
    }

    #[test]
    fn what_fits_is_exact(numerator: u32, denominator: u32) {
        let ratio = (numerator.max(1), denominator.max(1));
        prop_assert_eq!(exact(nearest(exact(ratio), u32::MAX)), exact(ratio));
    }
}
