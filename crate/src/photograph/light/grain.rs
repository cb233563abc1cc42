//! How coarse and how soft a photograph is, read off its wall and its sheet.

use super::pixel;
use crate::colour::decode_table;
use crate::resample::Raster;
use kurbo::Point;

/// How coarse a photograph is where it is as bright as its wall, and as its sheet: between them in proportion.
#[derive(Clone, Copy, Debug)]
pub struct Grain {
    /// The code of the wall beside the sheet, and how coarse it is there.
    pub wall: (f32, f32),
    /// The same of the sheet.
    pub sheet: (f32, f32),
}

impl Grain {
    pub(super) fn of(noise: f32, code: f32, photograph: &Raster, corners: [Point; 4]) -> Self {
        let (sheet_code, sheet) = sheet_grain(photograph, corners).unwrap_or((code, noise));
        Self { wall: (code, noise), sheet: (sheet_code, sheet) }
    }

    /// How coarse it is at a code.
    #[must_use]
    pub fn at(&self, code: u8) -> f32 {
        let ((from, wall), (to, sheet)) = (self.wall, self.sheet);
        let share = if (to - from).abs() > 8.0 {
            ((f32::from(code) - from) / (to - from)).clamp(0.0, 1.0)
        } else {
            0.5
        };
        wall + (sheet - wall) * share
    }
}

/// The usual code within a sheet, and how uneven squares of four pixels are there: the median.
fn sheet_grain(photograph: &Raster, corners: [Point; 4]) -> Option<(f32, f32)> {
    const STEPS: u8 = 12;
    let (mut codes, mut spreads) = (Vec::new(), Vec::new());
    for (row, column) in (0..STEPS).flat_map(|row| (0..STEPS).map(move |column| (row, column))) {
        let share = |step: u8| 0.2 + 0.6 * f64::from(step) / f64::from(STEPS);
        let (across, down) = (share(column), share(row));
        let left = corners[0] + (corners[3] - corners[0]) * down;
        let right = corners[1] + (corners[2] - corners[1]) * down;
        let middle = left + (right - left) * across;
        let (mut sum, mut squares) = (0.0_f32, 0.0_f32);
        for (x, y) in (0..4_u8).flat_map(|y| (0..4_u8).map(move |x| (x, y))) {
            let [red, green, blue] =
                pixel(photograph, middle + kurbo::Vec2::new(f64::from(x), f64::from(y)))?.map(f32::from);
            let grey = red * 0.25 + green * 0.5 + blue * 0.25;
            sum += grey;
            squares += grey * grey;
        }
        codes.push(sum / 16.0);
        spreads.push((squares / 16.0 - sum * sum / 256.0).max(0.0).sqrt());
    }
    crate::order::sort_by(&mut codes, f32::total_cmp);
    crate::order::sort_by(&mut spreads, f32::total_cmp);
    Some((codes[codes.len() / 2], spreads[spreads.len() / 2]))
}

/// How soft the photograph is: the spread of the sheet's edges, on the sides where it differs most from the wall.
pub(super) fn softness(photograph: &Raster, corners: [Point; 4]) -> f32 {
    /// Where no edge differs enough: as soft as the cameras of phones are (from memory).
    const USUAL: f32 = 0.8;
    const HALF: i32 = 5;
    let table = decode_table();
    let mut spreads = Vec::new();
    for side in 0..4 {
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        let way = to - from;
        let long = (way.x * way.x + way.y * way.y).sqrt();
        if long < 12.0 {
            continue;
        }
        let across = kurbo::Vec2::new(way.y, -way.x) / long;
        for third in 0..8_u8 {
            let start = 0.15 + 0.7 * f64::from(third) / 8.0;
            let mut profile = [0.0_f32; 2 * HALF as usize * 4 + 1];
            for step in 0..12_u8 {
                let at = from + way * (start + 0.06 * f64::from(step) / 12.0);
                for (bin, offset) in (-HALF * 4..=HALF * 4).enumerate() {
                    let Some(codes) = pixel(photograph, at + across * (f64::from(offset) / 4.0)) else {
                        return USUAL;
                    };
                    profile[bin] += table[usize::from(codes[1])];
                }
            }
            let (low, high) = (profile[0], profile[profile.len() - 1]);
            let rise = high - low;
            if rise.abs() < 0.15 * high.max(low) {
                continue;
            }
            let (mut mean, mut square, mut whole) = (0.0_f32, 0.0_f32, 0.0_f32);
            for (bin, pair) in profile.windows(2).enumerate() {
                let step = ((pair[1] - pair[0]) / rise).max(0.0);
                #[expect(clippy::cast_precision_loss, reason = "some dozens")]
                let at = bin as f32 / 4.0;
                whole += step;
                mean += step * at;
                square += step * at * at;
            }
            if whole > 0.5 {
                spreads.push((square / whole - (mean / whole) * (mean / whole)).max(0.0).sqrt());
            }
        }
    }
    crate::order::sort_by(&mut spreads, f32::total_cmp);
    // A quarter of the way up: places with tape or a shadow are wider. The pixel that is looked up is itself a pixel wide.
    let spread = spreads
        .get(spreads.len() / 4)
        .map_or(USUAL, |spread| (spread * spread - 1.0 / 12.0).max(0.09).sqrt());
    spread.clamp(0.3, 2.5)
}
