//! A sheet of paper on the wall: quadrilaterals of edges (`quads`), each fitted along whole edges, and judged by what paper is: plain, at
//! least as bright as the wall in every colour of light, and of a shape that is sold (`shape`).

use super::grey::Grey;
use super::paper::Paper;
use super::pieces::{Plane, pieces};
use super::sums::{crossing, length, line_through_most, median, real, short, turned, unit, usual, whole};
use super::trace::{Mark, Path};
use crate::colour::decode;
use crate::order::sort_by;
use crate::resample::Raster;
use kurbo::{Point, Vec2};
use quads::{is_same, quads};
use shape::guesses;

mod quads;
mod shape;

/// What is probably a sheet of paper.
#[derive(Clone, Debug)]
pub struct FoundSheet {
    /// Its corners in pixels: top left, top right, bottom right, bottom left as it hangs.
    pub corners: [Point; 4],
    /// How sure each corner is: one standard deviation, in pixels.
    pub sigma_px: f64,
    /// Which paper its shape is nearest to.
    pub paper: Paper,
    /// Which other paper it may be, where the photograph can't tell. Of A4 that is always one, since A3 has its shape: A3, or one of another
    /// shape where that is nearly as likely.
    pub other: Option<Paper>,
    /// Whether its longer sides go up.
    pub upright: bool,
    /// How much it looks like a sheet, from 0 to 1.
    pub score: f64,
}

/// What scores less is not worth a person's look.
const LEAST_SCORE: f64 = 0.1;

/// The sheets of A4, A3, Letter or Legal in a photograph, the likeliest first; none where none is seen.
#[must_use]
pub fn sheets(raster: &Raster, grey: &Grey) -> Vec<FoundSheet> {
    let (width, height) = (grey.width(), grey.height());
    let longer = real(width.max(height));
    if (width, height) != (raster.width_px() as usize, raster.height_px() as usize) || width.min(height) < 60
    {
        return Vec::new();
    }
    let picture = Light::of(raster);
    let middle = Point::new(0.5 * real(width), 0.5 * real(height));
    let mut found: Vec<FoundSheet> = Vec::new();
    // White is seen best in the channel that a coloured wall lacks most; on a white one, which is mostly a little yellow, in blue; where
    // noise hides that, in all of them.
    let least = Plane::reduced(width, height, |place| picture.least(place));
    let mean = Plane::reduced(width, height, |place| grey.shades()[place]);
    let blue = Plane::reduced(width, height, |place| picture.bluish(place));
    let mut looked_at: Vec<[Point; 4]> = Vec::new();
    for plane in [least, blue, mean] {
        let may_be_paper = |corners| picture.may_be_paper(corners);
        let pieces = pieces(&plane, 2, 0.0105 * longer);
        for quad in quads(&pieces, (0.022 * longer, 0.42 * longer), may_be_paper) {
            if looked_at.iter().any(|known| is_same(*known, quad.corners, 2.0)) {
                continue;
            }
            looked_at.push(quad.corners);
            let fit = picture.fit(as_it_hangs(quad.corners));
            found.extend(fit.and_then(|fit| judged(&picture, &fit, middle, longer)));
        }
    }
    sort_by(&mut found, |one, other| other.score.total_cmp(&one.score));
    let mut apart: Vec<FoundSheet> = Vec::new();
    for sheet in found {
        let span = length(sheet.corners[2] - sheet.corners[0]);
        let is_new = |known: &FoundSheet| !is_same(known.corners, sheet.corners, 0.15 * span);
        if apart.len() < 8 && apart.iter().all(is_new) {
            apart.push(sheet);
        }
    }
    apart
}

/// The corners of a sheet whose corners were placed by hand, in pixels, a few off: fitted along its edges; `None` where these are not seen.
/// The corners may come in any order that goes round, and return in the order of [`FoundSheet::corners`].
#[must_use]
pub fn refine(raster: &Raster, corners: [Point; 4]) -> Option<[Point; 4]> {
    let is_inside = |corner: &Point| {
        (0.0..=f64::from(raster.width_px())).contains(&corner.x)
            && (0.0..=f64::from(raster.height_px())).contains(&corner.y)
    };
    if !corners.iter().all(is_inside) {
        return None;
    }
    let area: f64 = (0..4).map(|at| corners[at].to_vec2().cross(corners[(at + 1) % 4].to_vec2())).sum();
    let [a, b, c, d] = corners;
    let clockwise = if area < 0.0 { [a, d, c, b] } else { corners };
    Light::of(raster).fit(as_it_hangs(clockwise)).filter(Fit::is_sure).map(|fit| fit.corners)
}

/// Corners that run clockwise, from the top left: the top runs most to the right.
fn as_it_hangs(corners: [Point; 4]) -> [Point; 4] {
    let mut turned = corners;
    let right = |turn: usize| unit(corners[(turn + 1) % 4] - corners[turn]).x;
    let top = (0..4).max_by(|one, other| right(*one).total_cmp(&right(*other))).unwrap_or(0);
    turned.rotate_left(top);
    turned
}

/// Sides fitted to the edges of a sheet.
struct Fit {
    corners: [Point; 4],
    sigma: f64,
    /// The share of each side's marks that lie on it.
    share: [f64; 4],
    /// How much light there is beside each side, within and without.
    beside: [[[f64; 3]; 2]; 4],
}

impl Fit {
    /// Whether its sides are seen, rather than noise.
    fn is_sure(&self) -> bool {
        self.sigma < 3.0 && self.share.iter().all(|share| *share >= 0.4)
    }
}

/// A photograph as light.
struct Light<'a> {
    width: usize,
    height: usize,
    pixels: &'a [[u8; 4]],
    decoded: [f32; 256],
}

impl<'a> Light<'a> {
    fn of(raster: &'a Raster) -> Self {
        Self {
            width: raster.width_px() as usize,
            height: raster.height_px() as usize,
            pixels: raster.pixels().as_chunks::<4>().0,
            decoded: std::array::from_fn(|code| decode(u8::try_from(code).unwrap_or(u8::MAX))),
        }
    }

    /// The least of a pixel's channels, as a code.
    fn least(&self, place: usize) -> f32 {
        let [red, green, blue, _] = self.pixels[place];
        f32::from(red.min(green).min(blue)) / 255.0
    }

    /// Mostly blue, as a code.
    fn bluish(&self, place: usize) -> f32 {
        let [_, green, blue, _] = self.pixels[place];
        (f32::from(green) + 2.0 * f32::from(blue)) / (3.0 * 255.0)
    }

    /// A mix of the channels' light between the pixels' middles.
    fn mixed(&self, mix: [f32; 3], point: Point) -> f32 {
        let x = (point.x - 0.5).clamp(0.0, real(self.width - 1));
        let y = (point.y - 0.5).clamp(0.0, real(self.height - 1));
        let (column, row) = (whole(x), whole(y));
        let (right, below) = ((column + 1).min(self.width - 1), (row + 1).min(self.height - 1));
        let (across, down) = (short(x - real(column)), short(y - real(row)));
        let at = |column: usize, row: usize| {
            let [red, green, blue, _] = self.pixels[row * self.width + column];
            let light = |code: u8| self.decoded[usize::from(code)];
            mix[0] * light(red) + mix[1] * light(green) + mix[2] * light(blue)
        };
        let upper = at(column, row) * (1.0 - across) + at(right, row) * across;
        let lower = at(column, below) * (1.0 - across) + at(right, below) * across;
        upper * (1.0 - down) + lower * down
    }

    /// The light of the pixel at a point.
    fn at(&self, point: Point) -> [f64; 3] {
        let (column, row) = (whole(point.x).min(self.width - 1), whole(point.y).min(self.height - 1));
        let [red, green, blue, _] = self.pixels[row * self.width + column];
        [red, green, blue].map(|code| f64::from(self.decoded[usize::from(code)]))
    }

    /// Whether the inside of a quadrilateral is plain, and nowhere darker than what is round it: at a glance.
    fn may_be_paper(&self, corners: [Point; 4]) -> bool {
        let place = |u: f64, v: f64| {
            let (upper, lower) = (corners[0].lerp(corners[1], u), corners[3].lerp(corners[2], u));
            upper.lerp(lower, v)
        };
        let light = |u: f64, v: f64| {
            let near = [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)];
            near.map(|(x, y)| self.at(place(u, v) + Vec2::new(x, y)))
                .iter()
                .fold([0.0; 3], |sum: [f64; 3], light| std::array::from_fn(|at| sum[at] + 0.25 * light[at]))
        };
        const PLACES: [f64; 6] = [0.15, 0.29, 0.43, 0.57, 0.71, 0.85];
        let (mut inside, mut outside) = ([0.0; 3], [0.0; 3]);
        let (mut level, mut apart) = (0.0, 0.0);
        for v in PLACES {
            let mut last = None;
            for u in PLACES {
                let here = light(u, v);
                let sum: f64 = here.iter().sum();
                apart += last.map_or(0.0, |last: f64| (sum - last).abs()) / 30.0;
                level += sum / 36.0;
                last = Some(sum);
                inside = std::array::from_fn(|at| inside[at] + here[at] / 36.0);
            }
            for beyond in [light(v, -0.12), light(v, 1.12), light(-0.12, v), light(1.12, v)] {
                outside = std::array::from_fn(|at| outside[at] + beyond[at] / 24.0);
            }
        }
        apart < 0.1 * level && inside.iter().zip(outside).all(|(inside, outside)| *inside > 0.96 * outside)
    }

    /// The light on either side of a side, within and without.
    fn beside(&self, from: Point, to: Point, near: f64, far: f64) -> [[f64; 3]; 2] {
        let inward = turned(unit(to - from));
        [1.0, -1.0].map(|way| {
            let mut light = [const { Vec::new() }; 3];
            for along in 0..15 {
                for step in 0..5 {
                    let off = way * (near + (far - near) * (real(step) + 0.5) / 5.0);
                    let place = from.lerp(to, 0.12 + 0.76 * (real(along) + 0.5) / 15.0) + inward * off;
                    for (channel, light) in light.iter_mut().zip(self.at(place)) {
                        channel.push(light);
                    }
                }
            }
            light.map(usual)
        })
    }

    /// Fits the sides of a sheet near corners that run clockwise from the top left.
    fn fit(&self, corners: [Point; 4]) -> Option<Fit> {
        let mut now = corners;
        let spans: [f64; 4] = std::array::from_fn(|at| length(corners[(at + 1) % 4] - corners[at]));
        let size = spans.iter().copied().fold(f64::INFINITY, f64::min);
        if !(8.0..1e5).contains(&size) {
            return None;
        }
        let reach = (0.05 * size).clamp(3.0, 7.0);
        let mut fit = None;
        for reach in [reach, 3.0, 2.5] {
            let mut lines = [(Point::ZERO, Vec2::ZERO); 4];
            let (mut share, mut scatter) = ([0.0; 4], 0.0);
            let mut beside = [[[0.0; 3]; 2]; 4];
            for at in 0..4 {
                let (from, to) = (now[at], now[(at + 1) % 4]);
                let span = length(to - from);
                let means = self.beside(from, to, 3.0, (0.12 * size).clamp(6.0, 16.0));
                // The mix of channels that shows the edge best, were their noise the same: on a white wall mostly blue.
                // Light that the camera could not hold moves an edge outwards.
                let held = |light: f64| if light > 0.97 { 0.05 } else { 1.0 };
                let between: [f64; 3] =
                    std::array::from_fn(|at| (means[0][at] - means[1][at]) * held(means[0][at]));
                let sum = between.iter().map(|share| share.abs()).sum::<f64>().max(1e-9);
                let mix = between.map(|share| short(share / sum));
                let path = Path::straight(from, to);
                let block = (span / 14.0).clamp(3.0, 10.0);
                let range = (0.04 * span, 0.96 * span);
                let marks: Vec<Mark> = path.marks(
                    &|point| self.mixed(mix, point),
                    range,
                    ((span / 48.0).max(2.0), block),
                    reach,
                );
                let rows: Vec<[f64; 3]> =
                    marks.iter().map(|mark| [mark.along / span, mark.off, mark.contrast]).collect();
                if rows.len() < 5 {
                    return None;
                }
                let (line, apart) =
                    line_through_most(&rows, (0.03 / step(&means[0], &means[1])).clamp(0.4, 1.0))?;
                let near = |row: &&[f64; 3]| (row[1] - line[0] - line[1] * row[0]).abs() < 1.0;
                share[at] = real(rows.iter().filter(near).count()) / real(rows.len());
                if share[at] < 0.3 {
                    return None;
                }
                scatter += apart * apart / (0.92 * span / block);
                let ends = [path.place(0.0, line[0]), path.place(span, line[0] + line[1])];
                lines[at] = (ends[0], unit(ends[1] - ends[0]));
                beside[at] = means;
            }
            let before = now;
            for at in 0..4 {
                now[at] = crossing(lines[(at + 3) % 4], lines[at])?;
                if length(now[at] - before[at]) > 2.0 * reach + 2.0
                    || length(now[at] - corners[at]) > 0.3 * size
                {
                    return None;
                }
            }
            // A line's ends are twice as unsure as its middle; two lines make a corner. Less than a sixth of a pixel is never known, and what
            // JPEG leaves of a weak edge may be off as a whole.
            let weakest =
                beside.iter().map(|[inside, outside]| step(inside, outside)).fold(f64::INFINITY, f64::min);
            let whole_edge = 0.02 / weakest.max(1e-3);
            let sigma = (scatter / 4.0 * 8.0 + 0.025 + whole_edge * whole_edge).sqrt();
            fit = Some(Fit { corners: now, sigma, share, beside });
        }
        fit
    }
}

/// Whether a paper is of the A series, which are all of one shape.
fn is_a(paper: Paper) -> bool {
    matches!(paper, Paper::A4 | Paper::A3)
}

/// How much two lights differ as codes, in the channel where that is most; a square root stands for the curve of sRGB.
fn step(one: &[f64; 3], other: &[f64; 3]) -> f64 {
    one.iter().zip(other).map(|(one, other)| (one.sqrt() - other.sqrt()).abs()).fold(0.0, f64::max)
}

/// What a fitted quadrilateral is taken for; `None` when it is no sheet.
fn judged(picture: &Light<'_>, fit: &Fit, middle: Point, longer: f64) -> Option<FoundSheet> {
    let corners = fit.corners;
    let guesses = guesses(corners, middle, longer, (1.4 * fit.sigma).clamp(0.35, 1.4));
    let best = guesses.first()?;
    if best.misfit > 30.0 || !fit.is_sure() {
        return None;
    }
    let inside: Vec<[f64; 3]> = fit.beside.iter().map(|[inside, _]| *inside).collect();
    let outside: Vec<[f64; 3]> = fit.beside.iter().map(|[_, outside]| *outside).collect();
    let mean = |of: &[[f64; 3]]| -> [f64; 3] {
        std::array::from_fn(|at| of.iter().map(|light| light[at]).sum::<f64>() / real(of.len().max(1)))
    };
    let (sheet, wall) = (mean(&inside), mean(&outside));
    // Paper sends back nearly all light, so nothing of its wall is brighter in any channel, by more than the balance of shadows.
    let ratios: [f64; 3] = std::array::from_fn(|at| (sheet[at] + 0.002) / (wall[at] + 0.002));
    let (least, most) =
        (ratios.iter().copied().fold(f64::INFINITY, f64::min), ratios.iter().copied().fold(0.0, f64::max));
    if least < 0.97 || most < 1.015 {
        return None;
    }
    let contrast = (0..3).map(|at| (sheet[at] - wall[at]).abs()).fold(0.0, f64::max);
    // How much the sheet varies within, after a slope of light across it is taken away.
    let mut rows = Vec::with_capacity(144);
    for down in 0..12 {
        for across in 0..12 {
            let (u, v) = (0.12 + 0.76 * (real(across) + 0.5) / 12.0, 0.12 + 0.76 * (real(down) + 0.5) / 12.0);
            let place = corners[0].lerp(corners[1], u).lerp(corners[3].lerp(corners[2], u), v);
            let light = picture.at(place);
            rows.push((u, v, light.iter().sum::<f64>() / 3.0));
        }
    }
    let level = rows.iter().map(|row| row.2).sum::<f64>() / 144.0;
    let slope = |of: &dyn Fn(&(f64, f64, f64)) -> f64| {
        let (up, down) = rows
            .iter()
            .fold((0.0, 0.0), |(up, down), row| (up + of(row) * (row.2 - level), down + of(row) * of(row)));
        up / down
    };
    let (right, down) = (slope(&|row| row.0 - 0.5), slope(&|row| row.1 - 0.5));
    let rough = median(
        rows.iter()
            .map(|(u, v, light)| (light - level - right * (u - 0.5) - down * (v - 0.5)).abs())
            .collect(),
    );
    let plain = 1.0 / (1.0 + (2.0 * rough / contrast) * (2.0 * rough / contrast));
    // The wall is the same on all four sides, but for the light that falls along it.
    let uneven = outside
        .iter()
        .map(|light| {
            (0..3).map(|at| ((light[at] + 0.01) / (wall[at] + 0.01) - 1.0).abs()).fold(0.0, f64::max)
        })
        .fold(0.0, f64::max);
    let even = 1.0 / (1.0 + (uneven / 0.5) * (uneven / 0.5));
    // Mostly between a twentieth and a sixth of the picture; smaller things are often something else.
    let size = libm::log(length(corners[2] - corners[0]) / (0.09 * longer));
    let size = size / if size < 0.0 { 0.8 } else { 1.6 };
    let sized = libm::exp(-0.5 * size * size);
    let seen = fit.share.iter().copied().fold(1.0, f64::min);
    let shaped = libm::exp(-best.misfit / 16.0);
    let rival =
        guesses.iter().find(|guess| !(is_a(guess.paper) && is_a(best.paper)) && guess.paper != best.paper);
    let other = rival.filter(|guess| guess.misfit - best.misfit < 4.0).map(|guess| guess.paper);
    let (paper, other) =
        if is_a(best.paper) { (Paper::A4, other.or(Some(Paper::A3))) } else { (best.paper, other) };
    let other = if other == Some(Paper::A3) && paper != Paper::A4 { Some(Paper::A4) } else { other };
    // What the camera could not hold is a window or a lamp rather than paper that they light.
    let held = if sheet.iter().all(|light| *light > 0.97) { 0.4 } else { 1.0 };
    let score = plain * even * sized * seen * shaped * held / (1.0 + 0.25 * fit.sigma * fit.sigma);
    (score > LEAST_SCORE).then_some(FoundSheet {
        corners,
        sigma_px: fit.sigma,
        paper,
        other,
        upright: best.is_upright,
        score,
    })
}
