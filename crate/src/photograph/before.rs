//! What stands before the wall, found by itself: whatever is not as bright and of the same colour as the wall would be there.

use super::light::{WallLight, beside, grown_by, is_within};
use super::room::Stroke;
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
            let noise = light.grain.wall.1 * 2.2 / code * 2.5;
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

/// How far a colour must be from the wall's to be told from it, as a logarithm.
const TOLD_APART: f32 = 0.06;

/// Paints a stroke, marked in a photograph so many times larger. A brush that hides follows edges: it takes what is more like the colours it
/// went over than like the wall; where it went over wall, all of it. An outline is filled.
pub(super) fn paint(before: &mut [u8], photograph: &Raster, light: &WallLight, stroke: &Stroke, scale: f64) {
    let (width, height) = (photograph.width_px() as usize, photograph.height_px() as usize);
    let points: Vec<Point> = stroke.points.iter().map(|[x, y]| Point::new(x * scale, y * scale)).collect();
    let Some((bounds, radius)) = bounds(&points, stroke.radius.map_or(0.0, |radius| radius * scale)) else {
        return;
    };
    let table = decode_table();
    let log = |at: Point| {
        let codes = super::light::pixel(photograph, at)?;
        Some(codes.map(|code| libm::logf(table[usize::from(code)] + 0.002)))
    };
    let apart = |one: [f32; 3], other: [f32; 3]| {
        (0..3).map(|channel| (one[channel] - other[channel]).abs()).fold(0.0, f32::max)
    };
    let wall = |at: Point| light.wall(at).map(|own| libm::logf(own + 0.002));
    // A few dozen of the colours under the middle of the brush.
    let step = points.len().div_ceil(32).max(1);
    let under: Vec<[f32; 3]> = points.iter().step_by(step).filter_map(|at| log(*at)).collect();
    let on_wall = points.iter().step_by(step).filter_map(|at| Some(apart(log(*at)?, wall(*at)) < TOLD_APART));
    let is_plain = stroke.radius.is_none()
        || !stroke.hides
        || on_wall.filter(|is_wall| *is_wall).count() * 2 > under.len();
    let [left, top, right, bottom] = bounds;
    let hold = |at: f64, most: usize| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held within the photograph"
        )]
        let at = at.clamp(0.0, 100_000.0) as usize;
        at.min(most)
    };
    for y in hold(top, height)..hold(bottom + 1.0, height) {
        for x in hold(left, width)..hold(right + 1.0, width) {
            #[expect(clippy::cast_precision_loss, reason = "pixels")]
            let at = Point::new(x as f64 + 0.5, y as f64 + 0.5);
            let is_in = match stroke.radius {
                Some(_) => near_path(at, &points, radius),
                None => is_in_outline(at, &points),
            };
            let takes = || {
                let Some(own) = log(at) else { return false };
                let nearest = under.iter().map(|colour| apart(own, *colour)).fold(f32::INFINITY, f32::min);
                nearest < apart(own, wall(at))
            };
            if is_in && (is_plain || takes()) {
                before[y * width + x] = if stroke.hides { u8::MAX } else { 0 };
            }
        }
    }
}

/// The rectangle round some points, and how far round them.
fn bounds(points: &[Point], radius: f64) -> Option<([f64; 4], f64)> {
    let first = points.first()?;
    let start = [first.x, first.y, first.x, first.y];
    let [left, top, right, bottom] = points.iter().fold(start, |[left, top, right, bottom], at| {
        [left.min(at.x), top.min(at.y), right.max(at.x), bottom.max(at.y)]
    });
    Some(([left - radius, top - radius, right + radius, bottom + radius], radius))
}

fn near_path(at: Point, points: &[Point], radius: f64) -> bool {
    let near = |from: Point, to: Point| {
        let (way, own) = (to - from, at - from);
        let long = way.hypot2();
        let share = if long > 0.0 { (own.dot(way) / long).clamp(0.0, 1.0) } else { 0.0 };
        (own - way * share).hypot2() <= radius * radius
    };
    match points {
        [only] => near(*only, *only),
        _ => points.windows(2).any(|pair| near(pair[0], pair[1])),
    }
}

/// Whether a point lies within an outline: an odd number of its sides lies to the right.
fn is_in_outline(at: Point, points: &[Point]) -> bool {
    let sides = points.iter().zip(points.iter().cycle().skip(1));
    let crossed = sides.filter(|(from, to)| {
        (from.y > at.y) != (to.y > at.y)
            && at.x < from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x)
    });
    crossed.count() % 2 == 1
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
            for other in beside(index, (width, height)) {
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
