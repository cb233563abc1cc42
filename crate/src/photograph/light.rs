//! The light of a photographed room: how white its sheet is, how the light changes over its wall, from which side it comes, how coarse and
//! how soft the photograph is.
//!
//! A picture that hangs somewhere reflects its own colours times the light that falls there. That light is read from two things: the sheet,
//! which is white, and the wall, which has one colour: *out = own × S × W(p) / W(s)* in linear light and for each channel, *S* the sheet's
//! mean, *W* the wall's even light at the piece and at the sheet. So neither the colour of the wall nor that of the lamp needs to be known.
//!
//! The wall is what is like the strip round the sheet: cells of some pixels grow from it to neighbours that are nearly as bright and of nearly
//! the same colour, and stop at what stands before it. Between and behind things its light is made up from what is seen of it, from coarse
//! to fine (Gortler et al., "The Lumigraph", 1996: push and pull).

use super::camera::Camera;
use crate::colour::decode_table;
use crate::resample::Raster;
use kurbo::Point;
use nalgebra::Vector3;

mod grain;
pub use grain::Grain;
use grain::softness;

/// Red, green and blue in linear light.
pub(super) type Light = [f32; 3];

/// Cells across a photograph, about.
const CELLS_ACROSS: usize = 400;
/// How much brighter or darker a neighbour may be, as a logarithm.
const STEP: f32 = 0.055;
/// How much redder or bluer it may be.
const HUE_STEP: f32 = 0.035;
/// How uneven a cell of wall may be within, against the noise.
const UNEVEN: f32 = 2.6;
/// Light below this is taken for this: a code of one.
const LEAST: f32 = 3.0e-4;

/// What is known of the light on a photographed wall.
#[derive(Clone, Debug)]
pub struct WallLight {
    cell: usize,
    columns: usize,
    rows: usize,
    /// The logarithm of the wall's light in each cell, of its own and made up.
    light: Vec<Light>,
    /// Which cells are wall.
    is_wall: Vec<bool>,
    /// The wall's light where the sheet hangs.
    at_sheet: Light,
    /// The sheet's own light.
    pub white: Light,
    /// How coarse the photograph is, in sRGB codes: a standard deviation.
    pub grain: Grain,
    /// How soft its edges are, in pixels: a standard deviation.
    pub softness_px: f32,
    /// How fast the light falls off along the wall to the right and up, as the change of its logarithm in a metre.
    pub falls_off: [f64; 2],
}

impl WallLight {
    /// Reads the light off a photograph whose sheet lies between four corners.
    #[must_use]
    pub fn of(photograph: &Raster, corners: [Point; 4], camera: &Camera) -> Self {
        let cells = Cells::of(photograph);
        let white = white(photograph, corners);
        let grown = grown(&cells, corners);
        let mut light = smoothed(&cells, &grown.is_wall);
        fill(&mut light, (cells.columns, cells.rows));
        let light: Vec<Light> = light.into_iter().map(|(light, _)| light).collect();
        let mut known = Self {
            cell: cells.cell,
            columns: cells.columns,
            rows: cells.rows,
            light,
            is_wall: grown.is_wall,
            at_sheet: [1.0; 3],
            white,
            grain: Grain::of(grown.noise, grown.code, photograph, corners),
            softness_px: softness(photograph, corners),
            falls_off: [0.0; 2],
        };
        let middle = corners.iter().fold(kurbo::Vec2::ZERO, |sum, corner| sum + corner.to_vec2()) / 4.0;
        known.at_sheet = known.wall(middle.to_point());
        known.falls_off = known.falls_off_along(camera);
        known
    }

    /// The wall's light at a pixel.
    #[must_use]
    pub fn wall(&self, pixel: Point) -> Light {
        #[expect(clippy::cast_precision_loss, reason = "some pixels")]
        let cell = self.cell as f64;
        let place = |at: f64, count: usize| {
            #[expect(clippy::cast_precision_loss, reason = "some hundreds")]
            let at = (at / cell - 0.5).clamp(0.0, (count - 1) as f64);
            let whole = libm::floor(at);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "held within the cells"
            )]
            (whole as usize, (at - whole) as f32)
        };
        let ((column, across), (row, down)) = (place(pixel.x, self.columns), place(pixel.y, self.rows));
        let (right, below) = ((column + 1).min(self.columns - 1), (row + 1).min(self.rows - 1));
        let at = |column: usize, row: usize| self.light[row * self.columns + column];
        let (a, b, c, d) = (at(column, row), at(right, row), at(column, below), at(right, below));
        std::array::from_fn(|channel| {
            let upper = a[channel] + (b[channel] - a[channel]) * across;
            let lower = c[channel] + (d[channel] - c[channel]) * across;
            libm::expf(upper + (lower - upper) * down)
        })
    }

    /// The light of something white that hangs at a pixel.
    #[must_use]
    pub fn white_at(&self, pixel: Point) -> Light {
        let wall = self.wall(pixel);
        std::array::from_fn(|channel| self.white[channel] * wall[channel] / self.at_sheet[channel])
    }

    /// Whether a pixel lies on a cell that is wall.
    #[must_use]
    pub fn is_wall(&self, column: usize, row: usize) -> bool {
        let (column, row) = (column / self.cell, row / self.cell);
        column < self.columns && row < self.rows && self.is_wall[row * self.columns + column]
    }

    /// The plane that goes best through the logarithm of the wall's light, over places on the wall.
    fn falls_off_along(&self, camera: &Camera) -> [f64; 2] {
        let mut sums = nalgebra::Matrix3::<f64>::zeros();
        let mut right = Vector3::zeros();
        #[expect(clippy::cast_precision_loss, reason = "pixels")]
        let middle = |index: usize| (index as f64 + 0.5) * self.cell as f64;
        for row in (0..self.rows).step_by(4) {
            for column in (0..self.columns).step_by(4) {
                let cell = row * self.columns + column;
                let Some(place) = camera.place(Point::new(middle(column), middle(row)), 0.0) else {
                    continue;
                };
                if !self.is_wall[cell] {
                    continue;
                }
                let own = Vector3::new(place.x / 1000.0, place.y / 1000.0, 1.0);
                sums += own * own.transpose();
                right += own * f64::from(self.light[cell][1]);
            }
        }
        let solved = sums.try_inverse().map_or(Vector3::zeros(), |inverse| inverse * right);
        [solved.x, solved.y]
    }
}

/// A photograph in cells.
struct Cells {
    cell: usize,
    columns: usize,
    rows: usize,
    /// The mean linear light.
    light: Vec<Light>,
    /// How uneven each is within, in codes.
    uneven: Vec<f32>,
}

impl Cells {
    fn of(photograph: &Raster) -> Self {
        let (width, height) = (photograph.width_px() as usize, photograph.height_px() as usize);
        let cell = (width.max(height) / CELLS_ACROSS).max(1);
        let (columns, rows) = ((width / cell).max(1), (height / cell).max(1));
        let table = decode_table();
        let (mut light, mut uneven) =
            (Vec::with_capacity(columns * rows), Vec::with_capacity(columns * rows));
        #[expect(clippy::cast_precision_loss, reason = "some dozens")]
        let count = (cell * cell) as f32;
        for row in 0..rows {
            for column in 0..columns {
                let (mut sum, mut codes, mut squares) = ([0.0_f32; 3], 0.0_f32, 0.0_f32);
                for y in row * cell..(row + 1) * cell {
                    let start = (y * width + column * cell) * 4;
                    for pixel in photograph.pixels()[start..start + cell * 4].chunks_exact(4) {
                        for (sum, code) in sum.iter_mut().zip(pixel) {
                            *sum += table[usize::from(*code)];
                        }
                        let grey = f32::from(pixel[0]) * 0.25
                            + f32::from(pixel[1]) * 0.5
                            + f32::from(pixel[2]) * 0.25;
                        codes += grey;
                        squares += grey * grey;
                    }
                }
                light.push(sum.map(|sum| (sum / count).max(LEAST)));
                uneven.push((squares / count - codes * codes / (count * count)).max(0.0).sqrt());
            }
        }
        Self { cell, columns, rows, light, uneven }
    }
}

/// What of the photograph is wall.
struct Grown {
    is_wall: Vec<bool>,
    noise: f32,
    /// The code of the wall beside the sheet.
    code: f32,
}

/// Grows the wall from a strip round the sheet.
fn grown(cells: &Cells, corners: [Point; 4]) -> Grown {
    let (columns, rows) = (cells.columns, cells.rows);
    let mut is_wall = vec![false; columns * rows];
    #[expect(clippy::cast_precision_loss, reason = "pixels")]
    let at = |column: usize, row: usize| {
        Point::new((column as f64 + 0.5) * cells.cell as f64, (row as f64 + 0.5) * cells.cell as f64)
    };
    #[expect(clippy::cast_precision_loss, reason = "pixels")]
    let spare = 2.0 * cells.cell as f64;
    let (kept_off, strip) = (grown_by(corners, spare), grown_by(corners, spare * 4.0));
    let within = |column: usize, row: usize, shape: &[Point; 4]| is_within(at(column, row), shape);
    let seeds: Vec<usize> = (0..columns * rows)
        .filter(|&cell| {
            let (column, row) = (cell % columns, cell / columns);
            within(column, row, &strip) && !within(column, row, &kept_off)
        })
        .collect();
    let median = |mut values: Vec<f32>| {
        crate::order::sort_by(&mut values, f32::total_cmp);
        values.get(values.len() / 2).copied()
    };
    let noise = median(seeds.iter().map(|&cell| cells.uneven[cell]).collect()).unwrap_or(1.0).max(0.4);
    let usual: Light = std::array::from_fn(|channel| {
        median(seeds.iter().map(|&cell| cells.light[cell][channel]).collect()).unwrap_or(0.5)
    });
    let logs: Vec<Light> = cells.light.iter().map(|light| light.map(libm::logf)).collect();
    let code = f32::from(crate::colour::encode(usual[1]));
    let usual = usual.map(libm::logf);
    // What a step may be at least, by the noise of a cell's mean; in the dark a code is a larger share.
    #[expect(clippy::cast_precision_loss, reason = "some pixels")]
    let side = cells.cell as f32;
    let slack = |cell: usize| {
        let code = crate::colour::encode(cells.light[cell][1]);
        3.0 * noise / side * 2.2 / f32::from(code.max(4))
    };
    let is_near = |one: Light, other: Light, times: f32, slack: f32| {
        let step: Light = std::array::from_fn(|channel| one[channel] - other[channel]);
        let bright = (step[0] + step[1] + step[2]) / 3.0;
        let most = STEP * times + slack;
        bright.abs() < most && step.iter().all(|own| (own - bright).abs() < HUE_STEP * times + slack)
    };
    let is_even = |cell: usize| cells.uneven[cell] < noise * UNEVEN + 0.6;
    let mut open: Vec<(usize, Light)> = Vec::new();
    for cell in seeds {
        if is_even(cell) && is_near(logs[cell], usual, 3.0, slack(cell)) {
            is_wall[cell] = true;
            open.push((cell, logs[cell]));
        }
    }
    let mut next = 0;
    while let Some(&(cell, around)) = open.get(next) {
        next += 1;
        for other in beside(cell, (columns, rows)) {
            let (x, y) = (other % columns, other / columns);
            if is_wall[other] || within(x, y, &kept_off) || !is_even(other) {
                continue;
            }
            if is_near(logs[other], around, 1.0, slack(other)) {
                is_wall[other] = true;
                // A slowly moving mean: noise does not stop it, an edge does.
                let mean = std::array::from_fn(|channel| around[channel] * 0.6 + logs[other][channel] * 0.4);
                open.push((other, mean));
            }
        }
    }
    Grown { is_wall, noise, code }
}

/// The places to the left and right of one, above and below, in a grid so many wide and high.
pub(super) fn beside(at: usize, (columns, rows): (usize, usize)) -> impl Iterator<Item = usize> {
    let (column, row) = (at % columns, at / columns);
    let all = [
        (column > 0).then(|| at - 1),
        (column + 1 < columns).then(|| at + 1),
        (row > 0).then(|| at - columns),
        (row + 1 < rows).then(|| at + columns),
    ];
    all.into_iter().flatten()
}

/// Four corners moved outwards by so many pixels.
pub(super) fn grown_by(corners: [Point; 4], by: f64) -> [Point; 4] {
    let middle = corners.iter().fold(kurbo::Vec2::ZERO, |sum, corner| sum + corner.to_vec2()) / 4.0;
    corners.map(|corner| {
        let way = corner.to_vec2() - middle;
        let far = |part: f64| if part > 0.0 { by } else { -by };
        corner + kurbo::Vec2::new(far(way.x), far(way.y))
    })
}

/// Whether a point lies within a convex outline.
pub(super) fn is_within(point: Point, corners: &[Point; 4]) -> bool {
    let sides = (0..4).map(|index| {
        let (from, to) = (corners[index], corners[(index + 1) % 4]);
        (to - from).cross(point - from)
    });
    let (mut any_left, mut any_right) = (false, false);
    for side in sides {
        any_left |= side < 0.0;
        any_right |= side > 0.0;
    }
    !(any_left && any_right)
}

/// The mean light within the sheet, away from its edges and from tape across them.
fn white(photograph: &Raster, corners: [Point; 4]) -> Light {
    let table = decode_table();
    let (mut sum, mut count) = ([0.0_f32; 3], 0.0_f32);
    let between = |from: Point, to: Point, share: f64| from + (to - from) * share;
    const STEPS: u32 = 64;
    let share = |step: u32| 0.2 + 0.6 * f64::from(step) / f64::from(STEPS - 1);
    for down in (0..STEPS).map(share) {
        let (left, right) = (between(corners[0], corners[3], down), between(corners[1], corners[2], down));
        for across in (0..STEPS).map(share) {
            let Some(pixel) = pixel(photograph, between(left, right, across)) else { continue };
            for (sum, code) in sum.iter_mut().zip(pixel) {
                *sum += table[usize::from(code)];
            }
            count += 1.0;
        }
    }
    if count == 0.0 {
        return [1.0; 3];
    }
    sum.map(|sum| (sum / count).max(LEAST))
}

/// The codes of a pixel; none past the edges.
pub(super) fn pixel(photograph: &Raster, at: Point) -> Option<[u8; 3]> {
    let (width, height) = (photograph.width_px(), photograph.height_px());
    if !(at.x >= 0.0 && at.y >= 0.0 && at.x < f64::from(width) && at.y < f64::from(height)) {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within the photograph")]
    let index = (at.y as usize * width as usize + at.x as usize) * 4;
    let data = photograph.pixels();
    Some([data[index], data[index + 1], data[index + 2]])
}

/// The logarithm of the light of wall, smoothed over its own cells only, with how much of it there is.
fn smoothed(cells: &Cells, is_wall: &[bool]) -> Vec<(Light, f32)> {
    // A bell by three boxes of three cells, across and down.
    const PASSES: usize = 3;
    let mut known: Vec<(Light, f32)> = cells
        .light
        .iter()
        .zip(is_wall)
        .map(|(light, is_wall)| if *is_wall { (light.map(libm::logf), 1.0) } else { ([0.0; 3], 0.0) })
        .collect();
    let (columns, rows) = (cells.columns, cells.rows);
    for _ in 0..PASSES {
        for (along, lines, step, stride) in [(columns, rows, 1, columns), (rows, columns, columns, 1)] {
            let mut line = Vec::with_capacity(along);
            for start in (0..lines).map(|line| line * stride) {
                line.clear();
                line.extend((0..along).map(|index| known[start + index * step]));
                for index in 0..along {
                    let near = &line[index.saturating_sub(1)..(index + 2).min(along)];
                    let mut sum = ([0.0_f32; 3], 0.0_f32);
                    for (light, weight) in near {
                        sum.0.iter_mut().zip(light).for_each(|(sum, own)| *sum += own);
                        sum.1 += weight;
                    }
                    known[start + index * step] = sum;
                }
            }
        }
    }
    // What no wall was near to has no weight. Sums of three stand for means: only their ratio counts.
    known
        .into_iter()
        .map(|(light, weight)| if weight > 0.0 { (light.map(|own| own / weight), 1.0) } else { (light, 0.0) })
        .collect()
}

/// Makes up the light where nothing is known: from halves of halves, as far as it takes.
fn fill(known: &mut [(Light, f32)], (columns, rows): (usize, usize)) {
    if known.iter().all(|(_, weight)| *weight > 0.0) || columns * rows <= 1 {
        return;
    }
    let (half_columns, half_rows) = (columns.div_ceil(2), rows.div_ceil(2));
    let mut halves = vec![([0.0_f32; 3], 0.0_f32); half_columns * half_rows];
    for row in 0..rows {
        for column in 0..columns {
            let (light, weight) = known[row * columns + column];
            let half = &mut halves[row / 2 * half_columns + column / 2];
            half.0.iter_mut().zip(light).for_each(|(sum, own)| *sum += own * weight);
            half.1 += weight;
        }
    }
    for (light, weight) in &mut halves {
        if *weight > 0.0 {
            *light = light.map(|sum| sum / *weight);
            *weight = weight.min(1.0);
        }
    }
    fill(&mut halves, (half_columns, half_rows));
    for row in 0..rows {
        for column in 0..columns {
            let own = &mut known[row * columns + column];
            if own.1 > 0.0 {
                continue;
            }
            // Three parts of the nearest half and one of the next, across and down.
            let beside = |at: usize, count: usize| {
                let next = if at.is_multiple_of(2) {
                    (at / 2).saturating_sub(1)
                } else {
                    (at / 2 + 1).min(count - 1)
                };
                [(at / 2, 0.75_f32), (next, 0.25)]
            };
            for (y, down) in beside(row, half_rows) {
                for (x, across) in beside(column, half_columns) {
                    let light = halves[y * half_columns + x].0;
                    own.0.iter_mut().zip(light).for_each(|(sum, light)| *sum += light * across * down);
                }
            }
            own.1 = 1.0;
        }
    }
}
