//! The oblique view measured: the corners of what hangs on the wall, found in the pixels, are where an outside library has them.
//!
//! Three blue sheets of metal on a yellow wall. Their edges are found to a fraction of a pixel by how much of each pixel is blue,
//! lines are laid through them, and their crossings are the corners. Two things are then held against `nalgebra`: that the
//! corners of sheets in one plane are those of one homography (Hartley and Zisserman, *Multiple View Geometry*, 4.1: four
//! corners give it, the other eight must follow), and that sheets at different depths are seen by a level camera that stands at
//! the viewer's place and looks at the middle of the group (`Isometry3::look_at_rh`).

use nalgebra::{Isometry3, Matrix3, Point3, SMatrix, SVector, Vector2, Vector3};
use overmantel::colour::{Colour, decode};
use overmantel::draw::{LoadedPicture, Painter, Sheet, View};
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    Align, Aluminium, Arrangement, Canvas, Edge, Finish, Focus, Group, GroupAcross, GroupUp, Picture, Piece,
    Plan, ViewerOffset, Viewing, Wall, WallFinish,
};
use overmantel::resample::{Pyramid, Raster};
use overmantel::scene::scene;

const YELLOW: Colour = Colour::hex(0xd8_b4_30);
const BLUE: Colour = Colour::hex(0x18_18_d0);

/// Three sheets of 24 x 30 in with gaps of 6 in, in the middle of a wall of 160 x 100 in, 56 in up: from 38 in, from 68 in and from
/// 98 in, each from 41 to 71 in up. On paper.
const LEFTS: [f64; 3] = [38.0, 68.0, 98.0];
const WIDTH: f64 = 24.0;
const SPAN_UP: [f64; 2] = [41.0, 71.0];

struct Stand {
    distance: i64,
    aside: ViewerOffset,
    eye_level: i64,
    offs: [i64; 3],
}

impl Stand {
    fn eye_x(&self) -> f64 {
        80.0 + self.aside.to_the_right().to_inches()
    }

    fn plan(&self) -> Plan {
        let piece = |off: i64| {
            let sheet = Aluminium {
                thickness: Length::ZERO,
                stand_off: Length::inches(off),
                corner_radius: Length::ZERO,
                ..Aluminium::starting()
            };
            Piece {
                picture: Some(0),
                focus: Focus::MIDDLE,
                image: Size::inches(24, 30),
                finish: Finish::Aluminium(sheet),
            }
        };
        Plan {
            wall: Wall {
                size: Size::inches(160, 100),
                paint: YELLOW,
                floor: YELLOW,
                skirting: Length::ZERO,
                finish: WallFinish::Smooth,
            },
            viewing: Viewing {
                distance: Length::inches(self.distance),
                aside: self.aside,
                eye_level: Length::inches(self.eye_level),
                figure: None,
                ..Plan::starting().viewing
            },
            fixtures: Vec::new(),
            pictures: vec![Picture {
                name: "sky".to_owned(),
                file: "sky.png".to_owned(),
                width_px: 80,
                height_px: 100,
                subject: None,
            }],
            pieces: self.offs.map(piece).to_vec(),
            split: None,
            group: Group {
                arrangement: Arrangement::Row,
                gap: Length::inches(6),
                align: Align::Centre,
                across: GroupAcross::WallMiddle,
                up: GroupUp::CentreAt(Length::inches(56)),
            },
            ..Plan::starting()
        }
    }
}

struct Drawn {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Drawn {
    fn new(plan: &Plan, picture: Raster, (width_px, height_px): (u32, u32)) -> Self {
        let figures = Figures::of(plan).unwrap_or_else(|error| panic!("{error}"));
        let copy = LoadedPicture {
            file_width_px: picture.width_px(),
            file_height_px: picture.height_px(),
            pyramid: Pyramid::of(picture),
            revision: 1,
        };
        let sheet = Sheet { view: View::Oblique, ..Sheet::new(width_px, height_px) };
        let mut painter = Painter::default();
        let pixels = painter.draw(&scene(plan, &figures), &[Some(&copy)], &sheet).pixels.to_vec();
        Self { width: width_px as usize, height: height_px as usize, pixels }
    }

    /// How much of a pixel is blue and not yellow: its blue light against that of the sheet.
    fn blue(&self, x: usize, y: usize) -> f64 {
        let at = (y * self.width + x) * 4;
        let light = |codes: [u8; 3]| codes.map(|code| f64::from(decode(code)));
        // Neither the wall's yellow, in shadow or not, nor the white light that a gloss adds has anything of this.
        let [red, green, blue] = light([YELLOW.red, YELLOW.green, YELLOW.blue]);
        let across = [green - blue, blue - red, red - green];
        let of = |light: [f64; 3]| (0..3).map(|channel| across[channel] * light[channel]).sum::<f64>();
        let own = of(light([self.pixels[at], self.pixels[at + 1], self.pixels[at + 2]]));
        (own / of(light([BLUE.red, BLUE.green, BLUE.blue]))).clamp(0.0, 1.0)
    }

    /// Runs of blue along a row of pixels, by whole pixels.
    fn runs(&self, y: usize) -> Vec<(usize, usize)> {
        let mut found = Vec::new();
        let mut start = None;
        for x in 0..=self.width {
            let is_blue = x < self.width && self.blue(x, y) > 0.5;
            match (is_blue, start) {
                (true, None) => start = Some(x),
                (false, Some(from)) => {
                    found.push((from, x));
                    start = None;
                }
                _ => {}
            }
        }
        found
    }
}

/// Where blue ends, going from a pixel that is all blue by one step at a time: to a fraction of a pixel. The sheet's gloss pales
/// it slowly, so that each pixel is held against the one before.
fn end(blue: impl Fn(usize) -> f64, from: usize, forward: bool, most: usize) -> f64 {
    let mut at = from;
    let mut before = blue(from);
    loop {
        let next = if forward { at + 1 } else { at.wrapping_sub(1) };
        let cover = if next < most { blue(next) / before } else { 0.0 };
        if cover < 0.94 {
            // This one is covered in part, and so perhaps is the next, where the edge crosses both.
            let further = if forward { next + 1 } else { next.wrapping_sub(1) };
            let rest = if further < most { blue(further) / before } else { 0.0 };
            let covered = cover + rest.min(cover);
            return if forward { real(next) + covered } else { real(at) - covered };
        }
        before = blue(next);
        at = next;
    }
}

#[expect(clippy::cast_precision_loss, reason = "pixels")]
fn real(px: usize) -> f64 {
    px as f64
}

/// The line nearest to some points: offset and slope of the second coordinate by the first.
fn line(points: &[(f64, f64)]) -> (f64, f64) {
    let count = points.iter().map(|_| 1.0).sum::<f64>();
    let (mean_a, mean_b) =
        points.iter().fold((0.0, 0.0), |(a, b), point| (a + point.0 / count, b + point.1 / count));
    let (mut over, mut under) = (0.0, 0.0);
    for (a, b) in points {
        over += (a - mean_a) * (b - mean_b);
        under += (a - mean_a) * (a - mean_a);
    }
    let slope = over / under;
    (mean_b - slope * mean_a, slope)
}

/// The corners of the sheet that a run of blue is part of: upper left, upper right, lower right, lower left.
fn corners(drawn: &Drawn, (from, to): (usize, usize), row: usize) -> [(f64, f64); 4] {
    let inner = (to - from) / 6;
    let level = |forward: bool| {
        let points: Vec<(f64, f64)> = (from + inner..to - inner)
            .map(|x| (real(x) + 0.5, end(|y| drawn.blue(x, y), row, forward, drawn.height)))
            .collect();
        line(&points)
    };
    let (head, foot) = (level(false), level(true));
    let middle = (from + to) / 2;
    let at = |line: (f64, f64)| line.0 + line.1 * (real(middle) + 0.5);
    let high = at(foot) - at(head);
    let [first, last] = [at(head) + high / 6.0, at(foot) - high / 6.0]
        .map(|y| usize::try_from(overmantel::rounding::nearest(y)).unwrap_or_default());
    let upright = |forward: bool| {
        let points: Vec<(f64, f64)> = (first..last)
            .map(|y| (real(y) + 0.5, end(|x| drawn.blue(x, y), middle, forward, drawn.width)))
            .collect();
        line(&points)
    };
    let (left, right) = (upright(false), upright(true));
    // x = a + b y and y = c + d x.
    let cross = |upright: (f64, f64), level: (f64, f64)| {
        let x = (upright.0 + upright.1 * level.0) / (1.0 - upright.1 * level.1);
        (x, level.0 + level.1 * x)
    };
    [cross(left, head), cross(right, head), cross(right, foot), cross(left, foot)]
}

/// All twelve corners, as they are on the wall and as they are found on the drawing.
fn found(stand: &Stand, size: (u32, u32)) -> Vec<(Point3<f64>, (f64, f64))> {
    let sky = Raster::new(80, 100, [BLUE.red, BLUE.green, BLUE.blue, 255].repeat(8000));
    let drawn = Drawn::new(&stand.plan(), sky.unwrap_or_else(|| panic!("80 x 100")), size);
    // The row that crosses all three sheets for longest.
    let row = (0..drawn.height).max_by_key(|&y| {
        let runs = drawn.runs(y);
        if runs.len() == 3 { runs.iter().map(|(from, to)| to - from).min() } else { None }
    });
    let row = row.unwrap_or_default();
    let runs = drawn.runs(row);
    assert_eq!(runs.len(), 3, "{runs:?} in row {row}");
    let mut all = Vec::new();
    for ((&run, left), off) in runs.iter().zip(LEFTS).zip(stand.offs) {
        let z = f64::from(i32::try_from(off).unwrap_or_default());
        let [foot, head] = SPAN_UP;
        let places = [(left, head), (left + WIDTH, head), (left + WIDTH, foot), (left, foot)];
        for (place, corner) in places.into_iter().zip(corners(&drawn, run, row)) {
            all.push((Point3::new(place.0, place.1, z), corner));
        }
    }
    all
}

fn stands() -> Vec<Stand> {
    let stand = |distance, aside, eye_level, offs| Stand { distance, aside, eye_level, offs };
    vec![
        stand(110, ViewerOffset::Straight, 57, [1, 1, 1]),
        stand(110, ViewerOffset::Right(Length::inches(60)), 57, [2, 2, 2]),
        stand(160, ViewerOffset::Left(Length::inches(75)), 62, [1, 1, 1]),
        stand(90, ViewerOffset::Left(Length::inches(40)), 44, [3, 3, 3]),
    ]
}

#[test]
fn sheets_in_one_plane_are_seen_by_one_homography() {
    for stand in stands() {
        for size in [(1440, 900), (1000, 700)] {
            let all = found(&stand, size);
            // The outermost corners of the three give it.
            let given = [all[0], all[9], all[10], all[3]];
            let mut rows = SMatrix::<f64, 8, 8>::zeros();
            let mut right = SVector::<f64, 8>::zeros();
            for (index, (place, (x, y))) in given.iter().enumerate() {
                let [a, b] = [place.x, place.y];
                let row = index * 2;
                rows.fixed_view_mut::<1, 8>(row, 0).copy_from_slice(&[
                    a,
                    b,
                    1.0,
                    0.0,
                    0.0,
                    0.0,
                    -x * a,
                    -x * b,
                ]);
                rows.fixed_view_mut::<1, 8>(row + 1, 0).copy_from_slice(&[
                    0.0,
                    0.0,
                    0.0,
                    a,
                    b,
                    1.0,
                    -y * a,
                    -y * b,
                ]);
                right[row] = *x;
                right[row + 1] = *y;
            }
            let Some(h) = rows.lu().solve(&right) else { panic!("the four corners lie on a line") };
            let homography = Matrix3::new(h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1.0);
            for (place, (x, y)) in &all {
                let seen = homography * Vector3::new(place.x, place.y, 1.0);
                let off = Vector2::new(seen.x / seen.z - x, seen.y / seen.z - y).norm();
                assert!(off < 0.5, "{place} is at {x:.2}, {y:.2}: {off:.2} pixels from the homography");
            }
        }
    }
}

#[test]
fn sheets_at_any_depth_are_seen_from_where_the_viewer_stands() {
    let deep = [[0, 6, 14], [12, 3, 0], [2, 2, 2]];
    for (stand, offs) in
        stands().into_iter().flat_map(|stand| deep.map(|offs| (Stand { aside: stand.aside, ..stand }, offs)))
    {
        let stand = Stand { offs, ..stand };
        let eye = Point3::new(
            stand.eye_x(),
            f64::from(i32::try_from(stand.eye_level).unwrap_or_default()),
            f64::from(i32::try_from(stand.distance).unwrap_or_default()),
        );
        // Level: it looks at the middle of the group, at the height of the eye.
        let view = Isometry3::look_at_rh(&eye, &Point3::new(80.0, eye.y, 0.0), &Vector3::y());
        let seen: Vec<((f64, f64), (f64, f64))> = found(&stand, (1440, 900))
            .into_iter()
            .map(|(place, corner)| {
                let place = view * place;
                ((place.x / -place.z, place.y / -place.z), corner)
            })
            .collect();
        // The sheet's own scale, the same for both axes, and its slide are all that may be chosen.
        let across: Vec<(f64, f64)> = seen.iter().map(|(unit, corner)| (unit.0, corner.0)).collect();
        let (middle, scale) = line(&across);
        let down: Vec<(f64, f64)> = seen.iter().map(|(unit, corner)| (-unit.1, corner.1)).collect();
        let (horizon, scale_down) = line(&down);
        assert!((scale / scale_down - 1.0).abs() < 0.002, "{scale} across and {scale_down} down");
        for (unit, corner) in seen {
            let off =
                Vector2::new(middle + scale * unit.0 - corner.0, horizon - scale * unit.1 - corner.1).norm();
            assert!(off < 0.5, "{corner:?} is {off:.2} pixels from where the camera has it");
        }
    }
}

/// Blue canvases with blue sides on a yellow wall, seen from the right and from the left: where a side meets the front no pixel has more of
/// the wall in it than both of its neighbours, wherever between two pixels that is. Their sides are painted, or show the blue picture.
#[test]
fn nothing_shines_through_between_a_side_and_the_front() {
    let mut judged = 0;
    let sides = [ViewerOffset::Right(Length::inches(70)), ViewerOffset::Left(Length::inches(70))];
    let edges = [Edge::Plain(BLUE), Edge::Mirrored, Edge::Carried];
    for (aside, edge) in sides.into_iter().flat_map(|aside| edges.map(|edge| (aside, edge))) {
        let mut plan = Stand { distance: 90, aside, eye_level: 56, offs: [0; 3] }.plan();
        for piece in &mut plan.pieces {
            piece.finish = Finish::Canvas(Canvas { edge, ..Canvas::starting() });
        }
        for width in 500..520 {
            let blue = [BLUE.red, BLUE.green, BLUE.blue, u8::MAX].repeat(80 * 100);
            let drawn = Drawn::new(&plan, Raster::new(80, 100, blue).expect("a picture"), (width, 360));
            // Of the wall's red the blue has next to nothing.
            let red = |x: usize| f64::from(decode(drawn.pixels[(180 * drawn.width + x) * 4]));
            for (from, to) in drawn.runs(180) {
                for x in from + 3..to.saturating_sub(3) {
                    judged += 1;
                    let [before, here, after] = [x - 2, x, x + 2].map(red);
                    let most = before.max(after) + 0.01;
                    assert!(here < most, "{width} px, at {x}: {before} {here} {after}");
                }
            }
        }
    }
    assert!(judged > 2000, "{judged} pixels");
}

/// Where the same view four times as large, reduced, has nothing of the canvases, this one has nothing: no pixel stands out along their
/// outlines or at their corners, seen from the side, from above and from below. A twentieth is left to the grain of wall and floor.
#[test]
fn nothing_stands_out_beside_an_outline() {
    let mut judged = 0;
    for (aside, eye_level) in [(70, 56), (70, 84), (-70, 30), (40, 70)] {
        let by = Length::inches(aside);
        let aside = if by > Length::ZERO { ViewerOffset::Right(by) } else { ViewerOffset::Left(-by) };
        let mut plan = Stand { distance: 90, aside, eye_level, offs: [0; 3] }.plan();
        for (piece, edge) in plan.pieces.iter_mut().zip([Edge::Plain(BLUE), Edge::Mirrored, Edge::Carried]) {
            piece.finish = Finish::Canvas(Canvas { edge, ..Canvas::starting() });
        }
        let drawn = |times: u32| {
            let blue = [BLUE.red, BLUE.green, BLUE.blue, u8::MAX].repeat(80 * 100);
            let picture = Raster::new(80, 100, blue).expect("a picture");
            Drawn::new(&plan, picture, (520 * times, 360 * times))
        };
        let (once, large) = (drawn(1), drawn(4));
        for (x, y) in (0..360).flat_map(|y| (0..520).map(move |x| (x, y))) {
            let of_16 = (0..16).map(|part| large.blue(x * 4 + part % 4, y * 4 + part / 4));
            let there = of_16.sum::<f64>() / 16.0;
            if there < 0.02 {
                judged += 1;
                let off = once.blue(x, y) - there;
                assert!(
                    off < 0.06,
                    "{aside:?}, {eye_level} in up: at {x}, {y} {off:.3} more than {there:.3}"
                );
            }
        }
    }
    assert!(judged > 400_000, "{judged} pixels");
}
