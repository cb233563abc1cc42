//! Edges and sheets found in photographs of rooms, against where they are.
//!
//! The expected values are those of `tests/rooms/*/truth.json`: projections of modelled sizes by the camera that rendered the rooms, none
//! of which Overmantel computed. How they were made is in `tests/rooms/README.md`. The same photographs come again blurred, dark, noisy, in
//! other sizes and in mirror image; what the truth says is scaled and mirrored with them.

#![expect(
    clippy::disallowed_methods,
    reason = "expected values, which need not be the same to the last bit everywhere"
)]

use image::RgbImage;
use image::imageops::{self, FilterType};
use kurbo::Point;
use overmantel::photograph::grey::Grey;
use overmantel::photograph::paper::Paper;
use overmantel::photograph::segments::{Segment, along, segments};
use overmantel::photograph::sheet::{refine, sheets};
use overmantel::resample::Raster;
use overmantel_builder::paths;
use serde_json::Value;

const ROOMS: [&str; 4] = ["green-sofa", "white-door", "blue-bed", "terracotta-plant"];

/// A photograph and what is true of it.
struct Room {
    name: String,
    photo: RgbImage,
    sheet: [Point; 4],
    paper: Paper,
    is_upright: bool,
    /// By name: how much of it is seen, and points where it is.
    lines: Vec<(String, f64, Vec<Point>)>,
}

fn point(value: &Value) -> Point {
    Point::new(value[0].as_f64().expect("a number"), value[1].as_f64().expect("a number"))
}

fn room(name: &str) -> Room {
    let folder = paths::root().join("tests/rooms").join(name);
    let photo = image::open(folder.join("photo.jpg")).expect("a photograph").to_rgb8();
    let text = std::fs::read_to_string(folder.join("truth.json")).expect("its truth");
    let truth: Value = serde_json::from_str(&text).expect("JSON");
    let kind = truth["sheet"]["paper"].as_str().expect("a paper");
    let corner = |at: usize| point(&truth["sheet"]["corners"][at]["px"]);
    let line = |line: &Value| {
        let points = line["visible_points_px"].as_array().expect("points").iter().map(point).collect();
        let name = line["name"].as_str().expect("a name").to_owned();
        (name, line["visible_fraction"].as_f64().expect("a share"), points)
    };
    Room {
        name: name.to_owned(),
        photo,
        sheet: [0, 1, 2, 3].map(corner),
        paper: if kind.starts_with("A4") { Paper::A4 } else { Paper::Letter },
        is_upright: kind.ends_with("portrait"),
        lines: truth["long_lines"].as_array().expect("lines").iter().map(line).collect(),
    }
}

fn raster(photo: &RgbImage) -> Raster {
    let pixels = photo.pixels().flat_map(|pixel| [pixel[0], pixel[1], pixel[2], 255]).collect();
    Raster::new(photo.width(), photo.height(), pixels).expect("a picture")
}

fn distance(one: Point, other: Point) -> f64 {
    (one - other).hypot()
}

/// How far the sheet that is first in the list is off at its worst corner and on average, after its paper and its order were checked.
fn sheet_off(room: &Room, note: &str) -> [f64; 2] {
    let raster = raster(&room.photo);
    let found = sheets(&raster, &Grey::of(&raster));
    let first = found.first().unwrap_or_else(|| panic!("{} {note}: no sheet", room.name));
    let off = [0, 1, 2, 3].map(|at: usize| distance(first.corners[at], room.sheet[at]));
    let worst = off.iter().copied().fold(0.0, f64::max);
    println!(
        "{} {note}: corners off by {off:.2?} px, sure to {:.2}, {:?} or {:?}, score {:.2}",
        room.name, first.sigma_px, first.paper, first.other, first.score
    );
    assert_eq!(first.upright, room.is_upright, "{} {note}", room.name);
    let may_be = first.paper == room.paper || note != "as it is" && first.other == Some(room.paper);
    assert!(may_be, "{} {note}: {:?} or {:?}", room.name, first.paper, first.other);
    assert!(
        worst < 4.0 * first.sigma_px,
        "{} {note}: {worst:.2} px off, sure to {:.2}",
        room.name,
        first.sigma_px
    );
    [worst, off.iter().sum::<f64>() / 4.0]
}

/// The bound for every corner, in pixels of the photograph: white on white is hard to see.
fn bound(room: &str) -> f64 {
    if room == "white-door" { 1.5 } else { 0.5 }
}

#[test]
fn the_sheet_is_found_first_in_every_room() {
    for name in ROOMS {
        let room = room(name);
        let [worst, mean] = sheet_off(&room, "as it is");
        assert!(worst < bound(name), "{name}: {worst:.2} px at worst, {mean:.2} px on average");
    }
}

#[test]
fn corners_placed_by_hand_are_drawn_to_the_sheet() {
    for name in ROOMS {
        let room = room(name);
        let raster = raster(&room.photo);
        for (right, down) in [(2.5, -2.0), (-3.0, 1.0), (0.0, 3.0)] {
            // Each corner is off in another direction, and they are given from another corner on.
            let ways = [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
            let by_hand = [2, 3, 0, 1].map(|at: usize| {
                Point::new(room.sheet[at].x + ways[at].0 * right, room.sheet[at].y + ways[at].1 * down)
            });
            let found = refine(&raster, by_hand).unwrap_or_else(|| panic!("{name}: no edges"));
            for (found, truth) in found.iter().zip(room.sheet) {
                assert!(distance(*found, truth) < bound(name), "{name}: {found:?} is not {truth:?}");
            }
        }
    }
}

/// How far a segment's points are from a line on average, but for those beyond its ends; nothing when they are another line's.
fn line_off(segment: &Segment, line: &[Point]) -> Option<f64> {
    let ahead = |from: Point, to: Point| (to - from) / distance(from, to);
    let (first, last) = (line[0], line[line.len() - 1]);
    let way = ahead(first, last);
    if way.dot(ahead(segment.ends[0], segment.ends[1])).abs() < 0.99 {
        return None;
    }
    let beside = |place: &Point| {
        let along = way.dot(*place - first);
        (0.0..=distance(first, last)).contains(&along).then(|| {
            // Which of the truth's eight stretches it is beside.
            let at =
                line.windows(2).position(|two| along <= way.dot(two[1] - first)).unwrap_or(line.len() - 2);
            ahead(line[at], line[at + 1]).cross(*place - line[at]).abs()
        })
    };
    let off: Vec<f64> = segment.points.iter().filter_map(beside).collect();
    let count = f64::from(u32::try_from(off.len()).expect("few"));
    (off.len() >= 3).then(|| off.iter().sum::<f64>() / count)
}

/// The least of that over what was found.
fn nearest(found: &[Segment], line: &[Point]) -> f64 {
    found.iter().filter_map(|segment| line_off(segment, line)).fold(f64::INFINITY, f64::min)
}

/// Lines of the truth that have no edge of their own in the photograph: the front edge of a skirting's top is 2 to 4 px below its edge at
/// the wall, and of the two only the stronger is seen: in the green room the front one, in the others the one at the wall.
fn has_no_edge(room: &str, line: &str) -> bool {
    match line {
        "skirting, top front edge" => room != "green-sofa",
        "skirting, top edge at the wall" => room == "green-sofa",
        _ => false,
    }
}

/// Every long line of a room has a segment within a bound, in pixels on average.
fn lines_are_found(room: &Room, scale: f64, bound: f64, note: &str) {
    let raster = raster(&room.photo);
    let found = segments(&Grey::of(&raster));
    assert!(found.len() <= 200, "{} segments", found.len());
    let longer = f64::from(raster.width_px().max(raster.height_px()));
    for segment in &found {
        assert!(segment.points.len() <= 9 && segment.points.len() >= 3, "{segment:?}");
        assert!(distance(segment.ends[0], segment.ends[1]) > 0.05 * longer, "{segment:?}");
    }
    let mut looked_for = 0;
    for (name, seen, points) in &room.lines {
        let is_long = distance(points[0], points[8]) > 200.0 * scale && *seen > 0.25;
        if is_long && !has_no_edge(&room.name, name) {
            looked_for += 1;
            let off = nearest(&found, points);
            println!("{} {note}: {name}: {off:.2} px", room.name);
            assert!(off < bound, "{} {note}: {name} is {off:.2} px off", room.name);
        }
    }
    assert!(looked_for >= 2, "{} long lines in {}", looked_for, room.name);
}

#[test]
fn the_long_lines_of_every_room_are_found() {
    for name in ROOMS {
        lines_are_found(&room(name), 1.0, 1.0, "as it is");
    }
}

/// Lines between plain surfaces, with nothing beside them: these must be exact, along their lens's curve.
#[test]
fn clean_lines_are_followed_to_fractions_of_a_pixel() {
    for (name, line) in [
        ("green-sofa", "wall and right side wall"),
        ("white-door", "wall and ceiling"),
        ("white-door", "door opening, top edge"),
        ("blue-bed", "wall and left side wall"),
        ("blue-bed", "wall and ceiling"),
        ("terracotta-plant", "wall and ceiling"),
        ("terracotta-plant", "skirting, top edge at the wall"),
    ] {
        let room = room(name);
        let grey = Grey::of(&raster(&room.photo));
        let points = &room.lines.iter().find(|(known, ..)| known == line).expect("the line").2;
        let off = nearest(&segments(&grey), points);
        assert!(off < 0.3, "{name}, {line}: {off:.2} px off");
        // The same line, as a hand draws it: straight, and a few pixels off.
        let (from, to) = (points[0], points[8]);
        let shift = (to - from) / distance(from, to) * 8.0;
        let drawn = along(
            &grey,
            from + shift + kurbo::Vec2::new(2.0, -2.5),
            to - shift + kurbo::Vec2::new(-1.0, 2.0),
        );
        let off = drawn.and_then(|segment| line_off(&segment, points)).unwrap_or(f64::INFINITY);
        assert!(off < 0.3, "{name}, {line}: drawn by hand {off:.2} px off");
    }
}

/// The same room through a change that moves its points.
fn changed(room: &Room, photo: RgbImage, moved: impl Fn(Point) -> Point) -> Room {
    Room {
        name: room.name.clone(),
        photo,
        sheet: room.sheet.map(&moved),
        paper: room.paper,
        is_upright: room.is_upright,
        lines: room
            .lines
            .iter()
            .map(|(name, seen, points)| {
                (name.clone(), *seen, points.iter().map(|point| moved(*point)).collect())
            })
            .collect(),
    }
}

/// Every code of a picture through a function that is told which of the picture's codes it is.
fn each_code(photo: &RgbImage, mut code: impl FnMut(f64) -> f64) -> RgbImage {
    let mut changed = photo.clone();
    for value in changed.as_flat_samples_mut().samples {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held to a byte")]
        let byte = code(f64::from(*value)).clamp(0.0, 255.0).round() as u8;
        *value = byte;
    }
    changed
}

#[test]
fn blurred_dark_and_noisy_photographs_are_read_as_well() {
    for name in ROOMS {
        let room = room(name);
        let blurred = changed(&room, imageops::blur(&room.photo, 0.8), |point| point);
        let dark = changed(&room, each_code(&room.photo, |code| 0.6 * code), |point| point);
        // Noise of two and a half codes: twelve even numbers make a normal one (a textbook's sum), seeded.
        let mut state = 12_345_u32;
        let mut even = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(state >> 8) / f64::from(1 << 24)
        };
        let mut normal = || (0..12).map(|_| even()).sum::<f64>() - 6.0;
        let noisy = changed(&room, each_code(&room.photo, |code| code + 2.5 * normal()), |point| point);
        for (room, note) in [(blurred, "blurred"), (dark, "dark"), (noisy, "noisy")] {
            let [worst, mean] = sheet_off(&room, note);
            let bound = if name == "white-door" { 2.0 } else { 0.6 };
            assert!(worst < bound, "{name} {note}: {worst:.2} px at worst, {mean:.2} px on average");
            lines_are_found(&room, 1.0, 1.3, note);
        }
    }
}

#[test]
fn photographs_of_other_sizes_are_read_as_well() {
    for name in ROOMS {
        let room = room(name);
        for width in [1200_u32, 2000] {
            let scale = f64::from(width) / f64::from(room.photo.width());
            let photo = imageops::resize(&room.photo, width, width * 3 / 4, FilterType::CatmullRom);
            let scaled = changed(&room, photo, |point| Point::new(point.x * scale, point.y * scale));
            let note = format!("{width} px wide");
            let [worst, mean] = sheet_off(&scaled, &note);
            let bound = if name == "white-door" { 1.5 * scale.max(1.0) } else { 0.5 * scale.max(1.0) };
            assert!(worst < bound, "{name} {note}: {worst:.2} px at worst, {mean:.2} px on average");
            lines_are_found(&scaled, scale, 1.3 * scale.max(1.0), &note);
        }
    }
}

#[test]
fn in_mirror_image_corners_keep_to_how_the_sheet_hangs() {
    for name in ROOMS {
        let room = room(name);
        let width = f64::from(room.photo.width());
        let mut mirrored = changed(&room, imageops::flip_horizontal(&room.photo), |point| {
            Point::new(width - point.x, point.y)
        });
        let [a, b, c, d] = mirrored.sheet;
        mirrored.sheet = [b, a, d, c];
        let [worst, mean] = sheet_off(&mirrored, "in mirror image");
        assert!(worst < bound(name), "{name}: {worst:.2} px at worst, {mean:.2} px on average");
        lines_are_found(&mirrored, 1.0, 1.0, "in mirror image");
    }
}

/// A wall 3 m away as a camera sees it that stands to one side and looks a little down, by the textbook's pinhole: rotations about the upright,
/// the level and the line of sight, by hand. Focal length in pixels; places in millimetres from the middle of the view, upwards.
struct Wall {
    focal: f64,
    light: Vec<f64>,
}

const WIDE: usize = 1600;
const HIGH: usize = 1200;

impl Wall {
    fn new(focal: f64) -> Self {
        // Light falls off to the right.
        let light = |at: usize| 0.42 - 0.2 * f64::from(u32::try_from(at % WIDE).expect("few")) / 1600.0;
        Self { focal, light: (0..WIDE * HIGH).map(light).collect() }
    }

    fn pixel(&self, [x, y]: [f64; 2]) -> Point {
        let (yaw, pitch, roll) = (17_f64.to_radians(), 4_f64.to_radians(), 1_f64.to_radians());
        let (x, z) = (x * yaw.cos(), 3000.0 + x * yaw.sin());
        let near = z - 3000.0;
        let (y, z) = (-y * pitch.cos() - near * pitch.sin(), 3000.0 + near * pitch.cos() - y * pitch.sin());
        let (across, down) = (self.focal * x / z, self.focal * y / z);
        Point::new(
            800.0 + across * roll.cos() - down * roll.sin(),
            600.0 + across * roll.sin() + down * roll.cos(),
        )
    }

    /// A rectangle by its middle and its sides, turned by some degrees: so much of the light that falls on the wall, by its wall's own.
    fn hang(&mut self, [x, y]: [f64; 2], [wide, high]: [f64; 2], turned: f64, share: f64) -> [Point; 4] {
        let (sin, cos) = turned.to_radians().sin_cos();
        let corner = |u: f64, v: f64| {
            let (across, up) = (0.5 * u * wide, 0.5 * v * high);
            self.pixel([x + across * cos - up * sin, y + across * sin + up * cos])
        };
        let corners = [corner(-1.0, 1.0), corner(1.0, 1.0), corner(1.0, -1.0), corner(-1.0, -1.0)];
        let inside = |place: Point| {
            (0..4).all(|at| (corners[(at + 1) % 4] - corners[at]).cross(place - corners[at]) >= 0.0)
        };
        for (at, light) in self.light.iter_mut().enumerate() {
            let place = |part: usize, of: usize| {
                f64::from(u32::try_from(of).expect("few"))
                    + (f64::from(u32::try_from(part).expect("few")) + 0.5) / 5.0
            };
            let (column, row) = (at % WIDE, at / WIDE);
            let far = corners.iter().all(|corner| corner.x < place(0, column) - 1.0)
                || corners.iter().all(|corner| corner.x > place(0, column) + 1.0)
                || corners.iter().all(|corner| corner.y < place(0, row) - 1.0)
                || corners.iter().all(|corner| corner.y > place(0, row) + 1.0);
            if far {
                continue;
            }
            let within = (0..25)
                .filter(|part| inside(Point::new(place(part % 5, column), place(part / 5, row))))
                .count();
            let covered = f64::from(u32::try_from(within).expect("few")) / 25.0;
            *light *= 1.0 - covered + covered * share;
        }
        corners
    }

    /// As codes of sRGB (IEC 61966-2-1, from memory), with noise of two codes.
    fn photo(&self, seed: u32) -> RgbImage {
        let mut state = seed;
        let mut noise = || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(state >> 8) / f64::from(1 << 24)
        };
        // The wall is a little yellow.
        let tint = [1.0, 0.97, 0.85];
        let mut photo = RgbImage::new(1600, 1200);
        for (at, pixel) in photo.pixels_mut().enumerate() {
            for (value, tint) in pixel.0.iter_mut().zip(tint) {
                let light = (self.light[at] * tint).min(1.0);
                let code = 255.0
                    * if light > 0.003_130_8 { 1.055 * light.powf(1.0 / 2.4) - 0.055 } else { 12.92 * light };
                #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held to a byte")]
                let byte = (code + 7.0 * (noise() - 0.5)).clamp(0.0, 255.0).round() as u8;
                *value = byte;
            }
        }
        photo
    }
}

/// Sizes in millimetres: ISO 216, ANSI/ASME Y14.1; legal paper by common practice.
#[test]
fn every_paper_is_told_by_its_shape_beside_other_bright_things() {
    for (paper, sides) in [
        (Paper::A4, [210.0, 297.0]),
        (Paper::A3, [297.0, 420.0]),
        (Paper::Letter, [215.9, 279.4]),
        (Paper::Legal, [215.9, 355.6]),
    ] {
        for (is_upright, focal, turned) in [(true, 1000.0, -2.5), (false, 1216.0, 1.0), (true, 2000.0, 2.0)] {
            let mut wall = Wall::new(focal);
            let [wide, high] = if is_upright { sides } else { [sides[1], sides[0]] };
            let truth = wall.hang([-150.0, 120.0], [wide, high], turned, 1.5);
            // A window pane, a switch, and a picture with its mat in a dark frame.
            wall.hang([-700.0, 200.0], [260.0, 360.0], 0.0, 2.6);
            wall.hang([250.0, -250.0], [80.0, 80.0], 0.0, 1.4);
            wall.hang([480.0, 150.0], [330.0, 430.0], 0.0, 0.2);
            wall.hang([480.0, 150.0], [290.0, 390.0], 0.0, 6.5);
            wall.hang([480.0, 150.0], [170.0, 250.0], 0.0, 0.4);
            let raster = raster(&wall.photo(7));
            let found = sheets(&raster, &Grey::of(&raster));
            let first = found.first().expect("a sheet");
            let off = [0, 1, 2, 3].map(|at: usize| distance(first.corners[at], truth[at]));
            let note = format!("{paper:?}, upright {is_upright}, focal {focal}: {found:#?}");
            assert!(off.iter().all(|off| *off < 0.4), "{off:?}: {note}");
            // A3 has the shape of A4, and is said as what else it may be.
            let as_told = if paper == Paper::A3 { Paper::A4 } else { paper };
            assert!(first.paper == as_told || first.other == Some(as_told), "{note}");
            assert!(first.upright == is_upright, "{note}");
        }
    }
}

#[test]
fn what_has_no_sheet_gives_none() {
    let plain = |width: u32, height: u32, code: u8| {
        Raster::new(width, height, vec![code; (width * height * 4) as usize]).expect("a picture")
    };
    for (width, height) in
        [(1, 1), (2, 1), (1, 300), (7, 9), (59, 400), (61, 61), (400, 300), (2400, 61), (2400, 2400)]
    {
        for code in [0, 128, 255] {
            let raster = plain(width, height, code);
            let grey = Grey::of(&raster);
            assert!(sheets(&raster, &grey).is_empty(), "{width} x {height}");
            assert!(segments(&grey).is_empty(), "{width} x {height}");
            let whole = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
                .map(|(x, y)| Point::new(x * f64::from(width), y * f64::from(height)));
            assert!(refine(&raster, whole).is_none(), "{width} x {height}");
            assert!(along(&grey, whole[0], whole[2]).is_none(), "{width} x {height}");
        }
    }
    let raster = plain(300, 200, 90);
    let grey = Grey::of(&raster);
    for odd in [f64::NAN, f64::INFINITY, -1e300, 1e300] {
        let odd = Point::new(odd, 10.0);
        let fine = Point::new(100.0, 100.0);
        assert!(refine(&raster, [odd, fine, fine, fine]).is_none());
        assert!(refine(&raster, [fine; 4]).is_none());
        assert!(along(&grey, odd, fine).is_none() && along(&grey, fine, odd).is_none());
    }
    // Another picture's brightness.
    assert!(sheets(&plain(300, 301, 90), &grey).is_empty());
}

#[test]
fn noise_alone_has_hardly_an_edge() {
    let mut state = 99_u32;
    let mut pixels = Vec::with_capacity(1000 * 700 * 4);
    for _ in 0..1000 * 700 {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let code = u8::try_from(100 + (state >> 26)).expect("a byte");
        pixels.extend([code, code, code, 255]);
    }
    let raster = Raster::new(1000, 700, pixels).expect("a picture");
    let grey = Grey::of(&raster);
    let found = segments(&grey);
    assert!(found.len() <= 1, "{found:?}");
    assert!(sheets(&raster, &grey).is_empty());
    let mut told = 0;
    for at in 0..20 {
        let start = Point::new(40.0 + 20.0 * f64::from(at), 300.0);
        told += usize::from(
            along(&grey, start, start + kurbo::Vec2::new(300.0, 25.0 * f64::from(at - 10))).is_some(),
        );
        let [a, b, c, d] = [(0.0, 0.0), (90.0, 0.0), (90.0, 120.0), (0.0, 120.0)]
            .map(|(x, y)| start + kurbo::Vec2::new(x, y));
        told += usize::from(refine(&raster, [a, b, c, d]).is_some());
    }
    assert!(told <= 2, "{told} of 40 edges in noise");
}
