//! Sheets: which one to buy for a blank, and how many blanks it gives.
//!
//! A blank may be turned. A sheet is cut into a simple grid of blanks that all lie the same way, without trim or kerf; a cutter who
//! mixes directions or sizes may need fewer sheets.

use crate::geometry::Size;
use crate::length::{Length, print::exact};
use crate::plan::Material;
use crate::stock::{SheetStock, Stock};

/// How many blanks a sheet gives: Y = max(⌊W/w⌋ ⌊H/h⌋, ⌊W/h⌋ ⌊H/w⌋). None where a measure is not more than nothing.
#[must_use]
pub fn grid_yield(blank: Size, sheet: Size) -> i128 {
    if !blank.is_positive() || !sheet.is_positive() {
        return 0;
    }
    let times = |whole: Length, part: Length| i128::from(whole.units() / part.units());
    let upright = times(sheet.width, blank.width) * times(sheet.height, blank.height);
    let turned = times(sheet.width, blank.height) * times(sheet.height, blank.width);
    upright.max(turned)
}

/// The smallest sheet of a material (and a thickness, where one is named) that takes a blank; of two as large, the one that the stock
/// names first.
///
/// # Errors
/// A plain sentence when the stock has no such material, or none large enough.
pub fn sheet_for(
    stock: &Stock,
    material: Material,
    thickness: Option<Length>,
    blank: Size,
) -> Result<&SheetStock, String> {
    let area =
        |sheet: &&SheetStock| i128::from(sheet.size.width.units()) * i128::from(sheet.size.height.units());
    let sheets = || {
        stock.sheets.iter().filter(|sheet| {
            sheet.material == material && thickness.is_none_or(|thickness| sheet.thickness == thickness)
        })
    };
    let in_thickness = thickness.map_or(String::new(), |thickness| format!(", {} thick", exact(thickness)));
    let Some(largest) = sheets().max_by_key(area) else {
        return Err(format!(
            "the stock has no sheet of {}{in_thickness}; add one, or choose another",
            material.name()
        ));
    };
    sheets().filter(|sheet| grid_yield(blank, sheet.size) > 0).min_by_key(area).ok_or_else(|| {
        format!(
            "no sheet of {}{in_thickness} takes {} × {}; the largest in the stock is {} × {}, so make the piece smaller or add a larger sheet",
            material.name(),
            exact(blank.width),
            exact(blank.height),
            exact(largest.size.width),
            exact(largest.size.height)
        )
    })
}
