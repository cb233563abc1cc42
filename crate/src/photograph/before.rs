//! What stands before the wall, found by itself: whatever is not as bright and of the same colour as the wall would be there.

use super::light::{WallLight, grown_by, is_within};
use crate::colour::decode_table;
use crate::resample::Raster;
use kurbo::Point;

/// How far a pixel's colour is from the wall's before it is anything else, as a logarithm, beyond the noise; and from where on it is
/// wholly so.
const RAMP: [f32; 2] = [0.10, 0.24];
/// A shadow leaves the colour as it is: a pixel that is only darker counts from here on.
const SHADOW: f32 = 0.75;

/// How far each pixel hides what hangs behind it: 0 for the wall, 255 for what stands before it.
#[must_use]
pub(super) fn found(photograph: &Raster, bare: &[u8], corners: [Point; 4], light: &WallLight) -> Vec<u8> {
    let (width, height) = (photograph.width_px() as usize, photograph.height_px() as usize);
    let table = decode_table();
    let long = (corners[2] - corners[0]).hypot2().sqrt();
    let sheet = grown_by(corners, long * 0.16 + 6.0);
    let mut before = vec![0_u8; width * height];
    for y in 0..height {
        for x in 0..width {
            let index = y * width + x;
            #[expect(clippy::cast_precision_loss, reason = "pixels")]
            let at = Point::new(x as f64 + 0.5, y as f64 + 0.5);
            if is_within(at, &sheet) {
                continue;
            }
            let wall = light.wall(at);
            let own: [f32; 3] = std::array::from_fn(|channel| {
                libm::logf((table[usize::from(bare[index * 4 + channel])] + 0.002) / (wall[channel] + 0.002))
            });
            let bright = (own[0] + own[1] + own[2]) / 3.0;
            let hue = own.iter().map(|own| (own - bright).abs()).fold(0.0, f32::max);
            // In the dark a code is a larger share of the light.
            let code = f32::from(crate::colour::encode(wall[1]).max(8));
            let noise = light.grain * 2.2 / code * 2.5;
            let only_dark = if bright < 0.0 { -bright * (1.0 - SHADOW) } else { bright };
            let far = hue.max(only_dark) - noise;
            let share = ((far - RAMP[0]) / (RAMP[1] - RAMP[0])).clamp(0.0, 1.0);
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within a byte")]
            let cover = (share * 255.0 + 0.5) as u8;
            before[index] = cover;
        }
    }
    without_specks(&mut before, (width, height));
    before
}

/// Takes away what is only a few pixels large: noise, a mark on the wall.
fn without_specks(before: &mut [u8], (width, height): (usize, usize)) {
    /// Pixels of a thing at least, for each pixel of the photograph's width.
    const LEAST: usize = 8;
    let least = width.max(height) / LEAST;
    let mut seen = vec![false; before.len()];
    let mut open = Vec::new();
    for start in 0..before.len() {
        if seen[start] || before[start] < 64 {
            continue;
        }
        open.clear();
        open.push(start);
        seen[start] = true;
        let mut next = 0;
        while let Some(&index) = open.get(next) {
            next += 1;
            let (x, y) = (index % width, index / width);
            let beside = [
                (x > 0).then(|| index - 1),
                (x + 1 < width).then(|| index + 1),
                (y > 0).then(|| index - width),
                (y + 1 < height).then(|| index + width),
            ];
            for other in beside.into_iter().flatten() {
                if !seen[other] && before[other] >= 64 {
                    seen[other] = true;
                    open.push(other);
                }
            }
        }
        if open.len() < least {
            open.iter().for_each(|&index| before[index] = 0);
        }
    }
    // What is left of their rims belongs to nothing.
    let kept: Vec<u8> = before.to_vec();
    for y in 0..height {
        for x in 0..width {
            let index = y * width + x;
            if (1..64).contains(&kept[index]) {
                let columns = x.saturating_sub(2)..(x + 3).min(width);
                let rows = y.saturating_sub(2)..(y + 3).min(height);
                let near = rows
                    .into_iter()
                    .any(|row| columns.clone().any(|column| kept[row * width + column] >= 64));
                if !near {
                    before[index] = 0;
                }
            }
        }
    }
}
