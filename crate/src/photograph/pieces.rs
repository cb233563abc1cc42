//! Straight pieces of edges, found by themselves: neighbouring pixels whose gradients point alike are grown into regions, and a region
//! counts when noise would hardly ever make one so long and thin (R. Grompone von Gioi, J. Jakubowicz, J.-M. Morel, G. Randall, "LSD: a
//! Line Segment Detector", Image Processing On Line 2, 2012). Bent regions are cut where they bend, which a lens's curve is too little for.

use super::sums::{at, fit, length, real, short, turned, unit, whole};
use crate::order::sort_by;
use kurbo::{Point, Vec2};

/// A picture reduced by whole steps, as shades.
pub(super) struct Plane {
    width: usize,
    height: usize,
    shades: Vec<f32>,
    step: usize,
}

/// A straight piece of an edge, in pixels of the full picture. Seen along it, the bright side is on the right.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) from: Point,
    pub(super) to: Point,
    /// Points along it, not quite sub-pixel.
    pub(super) knots: Vec<Point>,
    /// Mean gradient, in shades a pixel of the reduced picture.
    pub(super) strength: f64,
}

impl Piece {
    pub(super) fn direction(&self) -> Vec2 {
        unit(self.to - self.from)
    }

    pub(super) fn length(&self) -> f64 {
        length(self.to - self.from)
    }
}

/// The step by which a picture is reduced before edges are looked for: noise is averaged, and the longer side is about 1000 pixels.
pub(super) fn step(width: usize, height: usize) -> usize {
    ((width.max(height) + 400) / 1000).max(1)
}

impl Plane {
    /// From a shade for each pixel, by its place among them.
    pub(super) fn reduced(full_width: usize, full_height: usize, shade: impl Fn(usize) -> f32) -> Self {
        let step = step(full_width, full_height);
        let (width, height) = (full_width / step, full_height / step);
        let share = short(1.0 / real(step * step));
        let mut shades = Vec::with_capacity(width * height);
        let mut row = vec![0.0_f32; width];
        for y in 0..height {
            row.fill(0.0);
            for line in 0..step {
                let start = (y * step + line) * full_width;
                for (x, sum) in row.iter_mut().enumerate() {
                    for column in 0..step {
                        *sum += shade(start + x * step + column);
                    }
                }
            }
            shades.extend(row.iter().map(|sum| sum * share));
        }
        Self { width, height, shades, step }
    }

    /// Each pixel with its neighbours, a half of itself along either axis, so many times.
    fn softened(&self, passes: usize) -> Vec<f32> {
        let (width, height) = (self.width, self.height);
        let mut soft = self.shades.clone();
        for _ in 0..passes {
            let mut across = soft.clone();
            for (from, to) in soft.chunks_exact(width).zip(across.chunks_exact_mut(width)) {
                for (three, middle) in from.windows(3).zip(&mut to[1..]) {
                    *middle = 0.25 * three[0] + 0.5 * three[1] + 0.25 * three[2];
                }
            }
            for y in 1..height - 1 {
                let rows = &across[(y - 1) * width..(y + 2) * width];
                for (x, middle) in soft[y * width..(y + 1) * width].iter_mut().enumerate() {
                    *middle = 0.25 * rows[x] + 0.5 * rows[width + x] + 0.25 * rows[2 * width + x];
                }
            }
        }
        soft
    }
}

/// How brightness rises at each pixel's lower right corner.
struct Slopes {
    width: usize,
    steepness: Vec<f32>,
    /// Which way, one long.
    rising: Vec<[f32; 2]>,
    /// Less than this may be noise.
    least: f32,
}

impl Slopes {
    fn of(plane: &Plane, passes: usize) -> Self {
        let soft = plane.softened(passes);
        let (width, height) = (plane.width, plane.height);
        let mut steepness = vec![0.0_f32; width * height];
        let mut rising = vec![[0.0_f32; 2]; width * height];
        for y in 0..height - 1 {
            for x in 0..width - 1 {
                let place = y * width + x;
                let [a, b, c, d] =
                    [soft[place], soft[place + 1], soft[place + width], soft[place + width + 1]];
                let (dx, dy) = (0.5 * (b + d - a - c), 0.5 * (c + d - a - b));
                let steep = (dx * dx + dy * dy).sqrt();
                steepness[place] = steep;
                if steep > 0.0 {
                    rising[place] = [dx / steep, dy / steep];
                }
            }
        }
        // Most of a room is plain: the third that is plainest tells the noise, whose gradients are Rayleigh's.
        let mut some: Vec<f32> = steepness.iter().copied().step_by(61).collect();
        sort_by(&mut some, f32::total_cmp);
        let noise = some.get(some.len() * 3 / 10).copied().unwrap_or(0.0) / 0.845;
        Self { width, steepness, rising, least: (2.2 * noise).max(0.001) }
    }

    /// Places worth starting from, the steepest first.
    fn seeds(&self) -> Vec<usize> {
        const STEPS: usize = 512;
        let most = self.steepness.iter().copied().fold(self.least, f32::max);
        let step = |steep: f32| whole(f64::from((most - steep) / most) * real(STEPS)).min(STEPS);
        let mut starts = vec![0_usize; STEPS + 2];
        let usable = |steep: &f32| *steep > self.least;
        for steep in self.steepness.iter().filter(|steep| usable(steep)) {
            starts[step(*steep) + 1] += 1;
        }
        for at in 1..starts.len() {
            starts[at] += starts[at - 1];
        }
        let mut seeds = vec![0; starts[STEPS + 1]];
        for (place, steep) in self.steepness.iter().enumerate().filter(|(_, steep)| usable(steep)) {
            let next = &mut starts[step(*steep)];
            seeds[*next] = place;
            *next += 1;
        }
        seeds
    }

    /// All that hangs together with a seed and rises the same way, within an eighth of a half turn to either side.
    fn grow(&self, seed: usize, taken: &mut [bool], region: &mut Vec<usize>) -> [f32; 2] {
        const ALIKE: f32 = 0.923_88;
        region.clear();
        region.push(seed);
        taken[seed] = true;
        let mut sum = self.rising[seed];
        let mut mean = sum;
        let mut next = 0;
        while let Some(place) = region.get(next).copied() {
            next += 1;
            let (x, y) = (place % self.width, place / self.width);
            // The last row and column have no slopes, so only the first need care.
            for row in y.saturating_sub(1)..=y + 1 {
                for column in x.saturating_sub(1)..=x + 1 {
                    let near = row * self.width + column;
                    if near >= taken.len() || taken[near] || self.steepness[near] <= self.least {
                        continue;
                    }
                    let way = self.rising[near];
                    if way[0] * mean[0] + way[1] * mean[1] > ALIKE {
                        taken[near] = true;
                        region.push(near);
                        sum = [sum[0] + way[0], sum[1] + way[1]];
                        let size = (sum[0] * sum[0] + sum[1] * sum[1]).sqrt();
                        mean = [sum[0] / size, sum[1] / size];
                    }
                }
            }
        }
        mean
    }
}

/// Sums over the part of a region that lies in one stretch of its length.
#[derive(Clone, Copy, Default)]
struct Bin {
    count: f64,
    weight: f64,
    along: f64,
    across: f64,
    square: f64,
}

/// How long a stretch is, in pixels of the reduced picture.
const STRETCH: f64 = 4.0;

/// The pieces that are at least so many pixels of the full picture long, in no particular order. The picture is softened in so many passes:
/// one keeps lines apart that are near each other, two show weaker edges.
pub(super) fn pieces(plane: &Plane, passes: usize, least_px: f64) -> Vec<Piece> {
    if plane.width < 8 || plane.height < 8 {
        return Vec::new();
    }
    let slopes = Slopes::of(plane, passes);
    let least = (least_px / real(plane.step)).max(2.0 * STRETCH);
    let mut taken = vec![false; slopes.steepness.len()];
    let mut region = Vec::new();
    let mut found = Vec::new();
    // A line of LSD has a start, an end and a width: so many could be there by chance.
    let tries = 2.5 * libm::log(real(slopes.steepness.len()));
    for seed in slopes.seeds() {
        if taken[seed] {
            continue;
        }
        let mean = slopes.grow(seed, &mut taken, &mut region);
        if real(region.len()) > least {
            cut(
                &slopes,
                &region,
                Vec2::new(f64::from(mean[0]), f64::from(mean[1])),
                least,
                tries,
                &mut found,
            );
        }
    }
    let step = real(plane.step);
    let full = |point: Point| ((point.to_vec2() + Vec2::new(1.0, 1.0)) * step).to_point();
    for piece in &mut found {
        piece.from = full(piece.from);
        piece.to = full(piece.to);
        for knot in &mut piece.knots {
            *knot = full(*knot);
        }
    }
    found
}

/// A region as straight pieces.
fn cut(slopes: &Slopes, region: &[usize], rising: Vec2, least: f64, tries: f64, found: &mut Vec<Piece>) {
    let ahead = turned(turned(turned(rising)));
    let place = |at: &usize| Vec2::new(real(at % slopes.width), real(at / slopes.width));
    let (mut first, mut last) = (f64::INFINITY, f64::NEG_INFINITY);
    for along in region.iter().map(|at| place(at).dot(ahead)) {
        first = first.min(along);
        last = last.max(along);
    }
    if last - first + 1.0 < least {
        return;
    }
    let stretch = (last - first + 0.01) / libm::round((last - first) / STRETCH).max(2.0);
    let mut bins = vec![Bin::default(); whole((last - first) / stretch) + 1];
    for at in region {
        let (along, across) = (place(at).dot(ahead), place(at).dot(rising));
        let weight = f64::from(slopes.steepness[*at]);
        let bin = &mut bins[whole((along - first) / stretch)];
        bin.count += 1.0;
        bin.weight += weight;
        bin.along += weight * along;
        bin.across += weight * across;
        bin.square += weight * across * across;
    }
    let mut runs: Vec<&[Bin]> = bins.split(|bin| bin.count < 2.0).collect();
    while let Some(run) = runs.pop() {
        if real(run.len()) * stretch < least {
            continue;
        }
        let knots: Vec<Point> =
            run.iter().map(|bin| Point::new(bin.along / bin.weight, bin.across / bin.weight)).collect();
        let (Some(start), Some(end)) = (knots.first(), knots.last()) else { continue };
        let chord = unit(*end - *start);
        let span = length(*end - *start);
        let (bent, off) = knots
            .iter()
            .map(|knot| chord.cross(*knot - *start).abs())
            .enumerate()
            .fold((0, 0.0), |worst, (at, off)| if off > worst.1 { (at, off) } else { worst });
        if off > (0.008 * span).max(0.8) {
            runs.push(&run[..bent]);
            runs.push(&run[bent..]);
            continue;
        }
        let count: f64 = run.iter().map(|bin| bin.count).sum();
        let spread: f64 = run
            .iter()
            .map(|bin| {
                (bin.square / bin.weight - (bin.across / bin.weight) * (bin.across / bin.weight)).max(0.0)
            })
            .sum::<f64>()
            / real(run.len());
        let area = (real(run.len()) * stretch * (12.0 * spread + 1.0).sqrt()).max(count);
        // Neighbouring gradients share pixels, so that only about half of them count as told apart.
        let by_chance = tries - 0.5 * area * surprise(count / area);
        if by_chance > 0.0 || spread > 6.0 {
            continue;
        }
        let rows: Vec<[f64; 3]> = knots.iter().map(|knot| [(knot.x - start.x) / span, knot.y, 1.0]).collect();
        let Some(line) = fit::<2>(&rows) else { continue };
        let turn_back = |point: Point| (ahead * point.x + rising * point.y).to_point();
        let end_at = |along: f64| turn_back(Point::new(along, at(&line, (along - start.x) / span)));
        let weight: f64 = run.iter().map(|bin| bin.weight).sum();
        found.push(Piece {
            from: end_at(start.x - 0.5 * stretch),
            to: end_at(end.x + 0.5 * stretch),
            knots: knots.into_iter().map(turn_back).collect(),
            strength: weight / count,
        });
    }
}

/// How much it surprises, a pixel, that such a share of gradients points alike, of which chance would bring an eighth: the exponent of
/// Hoeffding's bound for the tail of the binomial distribution.
fn surprise(share: f64) -> f64 {
    const CHANCE: f64 = 0.125;
    let part = |share: f64, chance: f64| if share > 0.0 { share * libm::log(share / chance) } else { 0.0 };
    if share <= CHANCE { 0.0 } else { part(share, CHANCE) + part(1.0 - share, 1.0 - CHANCE) }
}
