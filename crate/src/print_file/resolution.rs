//! A file's resolution as a ratio of two whole numbers of 32 bits, as TIFF and Exif state it: exact wherever it fits.
//!
//! Width and height have each their own. A side of whole pixels is rarely just as long as the side in print at one resolution, so one for
//! both would leave a print some hundredths off; pixels by this ratio are the size itself.

use super::Recipe;
use crate::length::{Length, UNITS_PER_INCH};
use crate::print::Exact;

/// Pixels per inch as numerator and denominator, neither zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Resolution {
    /// Along the width.
    pub across: (u32, u32),
    /// Along the height.
    pub down: (u32, u32),
}

impl Recipe {
    /// The file's resolution: pixels by it are the size in print, with band and bleed.
    ///
    /// ```
    /// # use overmantel::{figures::Figures, plan::{Picture, Plan}, print_file::{Recipe, PrintWish}};
    /// # let mut plan = Plan::starting();
    /// # (plan.pieces[0].picture, plan.split) = (Some(0), None);
    /// # plan.pictures = vec![Picture { name: "Flats".into(), file: "flats.png".into(), width_px: 4001, height_px: 6000, subject: None }];
    /// # let figures = Figures::of(&plan).unwrap();
    /// let recipe = Recipe::of(&plan, &figures, 0, PrintWish::default()).unwrap();
    /// assert_eq!(recipe.size_px(), (4001, 5001), "of 16 × 20 in");
    /// assert_eq!((recipe.resolution().across, recipe.resolution().down), ((4001, 16), (5001, 20)));
    /// ```
    #[must_use]
    pub fn resolution(&self) -> Resolution {
        let (width_px, height_px) = self.size_px();
        let side = |px: u32, length: Length| {
            let units = i128::from(length.units()).max(1);
            nearest(Exact::new(i128::from(px) * i128::from(UNITS_PER_INCH), units), u32::MAX)
        };
        Resolution { across: side(width_px, self.size.width), down: side(height_px, self.size.height) }
    }
}

/// The ratio that is nearest to a positive value, of a numerator and a denominator from 1 to `most`: the value itself, where that fits.
///
/// Its continued fraction is followed as far as both fit. The nearest is then the last convergent, or the last step towards the next one
/// (A. Ya. Khinchin, "Continued Fractions", §6).
///
/// ```
/// use overmantel::{print::Exact, print_file::resolution::nearest};
/// assert_eq!(nearest(Exact::new(600, 2), u32::MAX), (300, 1));
/// assert_eq!(nearest(Exact::new(314_159_265, 100_000_000), 1000), (355, 113));
/// ```
#[must_use]
pub fn nearest(value: Exact, most: u32) -> (u32, u32) {
    let bound = i128::from(most.max(1));
    let (mut numerator, mut denominator) = (*value.numer(), *value.denom());
    // The convergent before the last, and the last.
    let mut before = (0, 1);
    let mut last = (1, 0);
    while denominator != 0 {
        let whole = numerator / denominator;
        let fits = |(step, start): (i128, i128)| if step == 0 { whole } else { (bound - start) / step };
        let steps = whole.min(fits((last.0, before.0))).min(fits((last.1, before.1)));
        let next = (before.0 + steps * last.0, before.1 + steps * last.1);
        if steps < whole {
            let off = |(n, d): (i128, i128)| {
                let off = Exact::new(n, d) - value;
                if off < Exact::from_integer(0) { -off } else { off }
            };
            let is_better = last.0 == 0 || last.1 == 0 || (next.1 > 0 && off(next) < off(last));
            last = if is_better { next } else { last };
            break;
        }
        (before, last) = (last, next);
        (numerator, denominator) = (denominator, numerator % denominator);
    }
    let held = |number: i128| u32::try_from(number.clamp(1, bound)).unwrap_or(most);
    (held(last.0), held(last.1))
}
