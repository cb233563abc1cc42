//! Sheets: which one to buy for a blank, and how many blanks it gives.
//!
//! A blank may be turned. A sheet is cut into a simple grid of blanks that all lie the same way, without trim or kerf; a cutter who
//! mixes directions or sizes may need fewer sheets.

use super::CutError;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{Material, System};
use crate::stock::{SheetStock, Stock};

/// How many blanks a sheet gives: Y = max(⌊W/w⌋ ⌊H/h⌋, ⌊W/h⌋ ⌊H/w⌋). None where a measure is not more than zero.
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

/// Whether a sheet is as thick as is wanted, to 0.05 mm: 0.045 in and 1.14 mm are one sheet.
#[must_use]
pub fn is_as_thick(sheet: Length, wanted: Length) -> bool {
    (sheet - wanted).abs() <= Length::micrometres(50)
}

/// The smallest sheet of a material (and a thickness, where one is named) that takes a blank; of two as large, the one that the stock
/// names first.
///
/// # Errors
/// When the stock has no such material, or none large enough.
pub fn sheet_for(
    stock: &Stock,
    material: Material,
    thickness: Option<Length>,
    blank: Size,
) -> Result<&SheetStock, CutError> {
    let area =
        |sheet: &&SheetStock| i128::from(sheet.size.width.units()) * i128::from(sheet.size.height.units());
    let sheets = || {
        stock.sheets.iter().filter(|sheet| {
            sheet.material == material && thickness.is_none_or(|wanted| is_as_thick(sheet.thickness, wanted))
        })
    };
    let largest = sheets().max_by_key(area).ok_or(CutError::NoSheet { material, thickness })?.size;
    sheets().filter(|sheet| grid_yield(blank, sheet.size) > 0).min_by_key(area).ok_or(CutError::SmallSheets {
        material,
        thickness,
        blank,
        largest,
    })
}

/// The same for whoever works in a system: sheets of whole units of it go before all others.
///
/// # Errors
/// As [`sheet_for`].
pub fn own_sheet_for(
    stock: &Stock,
    material: Material,
    thickness: Length,
    blank: Size,
    system: System,
) -> Result<&SheetStock, CutError> {
    let area =
        |sheet: &&SheetStock| i128::from(sheet.size.width.units()) * i128::from(sheet.size.height.units());
    let takes = |sheet: &&SheetStock| {
        sheet.material == material
            && is_as_thick(sheet.thickness, thickness)
            && is_in_whole_units(sheet.size, system)
            && grid_yield(blank, sheet.size) > 0
    };
    let own = stock.sheets.iter().filter(takes).min_by_key(area);
    own.map_or_else(|| sheet_for(stock, material, Some(thickness), blank), Ok)
}

/// Whether both sides are whole inches, or whole centimetres.
#[must_use]
pub fn is_in_whole_units(size: Size, system: System) -> bool {
    let unit = system.bare_unit().length();
    [size.width, size.height].iter().all(|side| side.to_nearest(unit) == *side)
}

/// How many sheets surely suffice for blanks of which some may be alike: each size from sheets of its own. None where a blank does not
/// fit.
#[must_use]
pub fn sheets_needed(blanks: &[Size], sheet: Size) -> Option<i128> {
    let upright = |size: &Size| Size::new(size.width.min(size.height), size.width.max(size.height));
    let mut rest: Vec<Size> = blanks.iter().map(upright).collect();
    let mut needed = 0;
    while let Some(first) = rest.first().copied() {
        let before = rest.len();
        rest.retain(|blank| *blank != first);
        let alike = i128::try_from(before - rest.len()).ok()?;
        let each = grid_yield(first, sheet);
        if each == 0 {
            return None;
        }
        needed += (alike + each - 1) / each;
    }
    Some(needed)
}
