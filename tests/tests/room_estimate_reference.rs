//! The camera and the wall from marks, against rooms whose camera is known: `tests/rooms`, rendered by Mitsuba 3 (their README has the
//! conventions), and against what TRADE's measurements on them gave with the same unknowns.

use kurbo::Point;
use nalgebra::{Matrix3, Vector3};
use overmantel::photograph::camera::Camera;
use overmantel::photograph::estimate::{Estimate, MarkedLine, MarkedSheet, Marks, PLUS_MINUS, Way};
use serde_json::Value;

const ROOMS: [&str; 4] = ["green-sofa", "white-door", "blue-bed", "terracotta-plant"];

/// What is true of a room.
struct Room {
    truth: Value,
}

impl Room {
    fn named(name: &str) -> Self {
        let path = format!("{}/rooms/{name}/truth.json", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("the room's truth");
        Self { truth: serde_json::from_str(&text).expect("JSON") }
    }

    fn number(&self, pointer: &str) -> f64 {
        self.truth.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("{pointer}"))
    }

    /// Marks at their true places.
    fn marks(&self) -> Marks {
        let corners = points(&self.truth["sheet"]["corners"], "px");
        let lines = self.truth["long_lines"].as_array().expect("lines").iter().map(|line| MarkedLine {
            way: if line["direction"] == "horizontal" { Way::Level } else { Way::Plumb },
            points: line["visible_points_px"].as_array().expect("points").iter().map(pair).collect(),
            off_px: 0.5,
        });
        Marks {
            size_px: [self.number("/image/width"), self.number("/image/height")],
            focal_35mm: self.truth.pointer("/image/exif/focal_length_in_35mm_film").and_then(Value::as_f64),
            sheet: MarkedSheet {
                size_mm: [self.number("/sheet/width_mm"), self.number("/sheet/height_mm")],
                corners: [corners[0], corners[1], corners[2], corners[3]],
                off_px: 0.5,
            },
            lines: lines.collect(),
            lengths: Vec::new(),
        }
    }

    /// The middle of the sheet on the wall.
    fn origin(&self) -> Vector3<f64> {
        let corners = points(&self.truth["sheet"]["corners"], "wall_mm");
        let sum = corners.iter().fold(Vector3::zeros(), |sum, at| sum + Vector3::new(at.x, at.y, 0.0));
        sum / 4.0
    }

    fn camera(&self) -> Camera {
        let matrix: Vec<f64> =
            (0..9).map(|at| self.number(&format!("/camera/R/{}/{}", at / 3, at % 3))).collect();
        let rotation = Matrix3::from_row_slice(&matrix);
        let moved = Vector3::from_fn(|row, _| self.number(&format!("/camera/t_mm/{row}")));
        Camera {
            rotation,
            translation: rotation * self.origin() + moved,
            focal_px: self.number("/camera/K/0/0"),
            radial: self.number("/distortion/k1"),
            middle: Point::new(self.number("/camera/K/0/2"), self.number("/camera/K/1/2")),
        }
    }

    /// Pixels of the wall two metres from the sheet that are in sight, with where they are from its middle.
    fn two_metres_off(&self) -> Vec<(Point, Vector3<f64>)> {
        let (camera, origin) = (self.camera(), self.origin());
        let [width, height] = [self.number("/wall/width_mm"), self.number("/wall/height_mm")];
        let turns = (0..72).map(|turn| f64::from(turn) * std::f64::consts::TAU / 72.0);
        turns
            .filter_map(|turn| {
                let place = Vector3::new(2000.0 * turn.cos(), 2000.0 * turn.sin(), 0.0);
                let on_wall = place + origin;
                let is_wall = (0.0..=width).contains(&on_wall.x) && (0.0..=height).contains(&on_wall.y);
                let pixel = camera.pixel(place)?;
                let in_sight = (0.0..=1600.0).contains(&pixel.x) && (0.0..=1200.0).contains(&pixel.y);
                (is_wall && in_sight).then_some((pixel, place))
            })
            .collect()
    }
}

fn pair(value: &Value) -> Point {
    Point::new(value[0].as_f64().expect("x"), value[1].as_f64().expect("y"))
}

fn points(list: &Value, key: &str) -> Vec<Point> {
    list.as_array().expect("corners").iter().map(|corner| pair(&corner[key])).collect()
}

/// Noise that is the same in every run: a multiplicative congruential generator (Park and Miller, 1988), summed twelve times.
struct Noise(u64);

impl Noise {
    fn normal(&mut self) -> f64 {
        let mut sum = -6.0;
        for _ in 0..12 {
            self.0 = self.0 * 48_271 % 2_147_483_647;
            #[expect(clippy::cast_precision_loss, reason = "31 bits")]
            let share = self.0 as f64 / 2_147_483_647.0;
            sum += share;
        }
        sum
    }

    fn near(&mut self, at: Point) -> Point {
        Point::new(at.x + 0.5 * self.normal(), at.y + 0.5 * self.normal())
    }
}

fn noisy(marks: &Marks, noise: &mut Noise) -> Marks {
    let mut marks = marks.clone();
    marks.sheet.corners = marks.sheet.corners.map(|corner| noise.near(corner));
    for line in &mut marks.lines {
        line.points.iter_mut().for_each(|point| *point = noise.near(*point));
    }
    marks
}

/// Errors two metres from the sheet over many draws of noise: the median, the 95th percentile, the share within the stated ±, and the
/// median against the median of the ±.
fn errors(room: &Room, marks: &Marks) -> [f64; 4] {
    let places = room.two_metres_off();
    assert!(!places.is_empty());
    let (mut off, mut ratios) = (Vec::new(), Vec::new());
    let mut noise = Noise(20_261_130);
    for _ in 0..200 {
        let estimate = Estimate::of(&noisy(marks, &mut noise)).expect("an estimate");
        for &(pixel, place) in &places {
            let seen = estimate.camera.place(pixel, 0.0).expect("on the wall");
            off.push((seen - place).norm());
            for axis in 0..2 {
                let told =
                    estimate.figure(&[noise.near(pixel)], |camera, at| Some(camera.place(at[0], 0.0)?[axis]));
                let (value, sigma) = told.expect("a figure");
                ratios.push((value - place[axis]).abs() / (PLUS_MINUS * sigma));
            }
        }
    }
    off.sort_by(f64::total_cmp);
    ratios.sort_by(f64::total_cmp);
    let at = |list: &[f64], share: usize| list[list.len() * share / 100];
    #[expect(clippy::cast_precision_loss, reason = "some thousands")]
    let within = ratios.iter().filter(|&&ratio| ratio <= 1.0).count() as f64 / ratios.len() as f64;
    [at(&off, 50), at(&off, 95), within, at(&ratios, 50)]
}

#[test]
fn true_marks_give_the_true_camera() {
    for name in ROOMS {
        let room = Room::named(name);
        let (estimate, truth) = (Estimate::of(&room.marks()).expect("an estimate"), room.camera());
        println!(
            "{name}: f {} for {}, k {} for {}, strain {}, tilt {} for {}",
            estimate.camera.focal_px,
            truth.focal_px,
            estimate.camera.radial,
            truth.radial,
            estimate.strain,
            estimate.tilt.to_degrees(),
            room.number("/sheet/turned_deg")
        );
        println!("{name}: {:?}", errors(&room, &room.marks()));
        let mut alone = room.marks();
        alone.lines.clear();
        println!("{name}, alone: {:?}", errors(&room, &alone));
    }
}

#[test]
fn the_finished_photographs_alone_give_the_camera() {
    use overmantel::photograph::{grey::Grey, lines::choose, segments::segments, sheet::sheets};
    use overmantel::resample::Raster;
    for name in ROOMS {
        let room = Room::named(name);
        let path = format!("{}/rooms/{name}/photo.jpg", env!("CARGO_MANIFEST_DIR"));
        let picture = image::open(path).expect("a photograph").to_rgba8();
        let raster = Raster::new(picture.width(), picture.height(), picture.into_raw()).expect("a raster");
        let started = std::time::Instant::now();
        let grey = Grey::of(&raster);
        let found = sheets(&raster, &grey);
        let sheet = found.first().expect("a sheet");
        let lap = started.elapsed();
        let segments = segments(&grey);
        let lap2 = started.elapsed();
        let mut marks = room.marks();
        marks.lines.clear();
        marks.sheet.corners = sheet.corners;
        marks.sheet.off_px = sheet.sigma_px.max(0.3);
        let (lines, estimate) = choose(&segments, &marks).expect("an estimate");
        println!(
            "{name}: {} segments, {} lines, sheet {lap:?} segments {lap2:?} all {:?}",
            segments.len(),
            lines.len(),
            started.elapsed()
        );
        for (line, left) in lines.iter().zip(&estimate.left_px) {
            let mut truly = estimate.clone();
            truly.camera = room.camera();
            let turned = truly.from_line(line.way, &line.points);
            if turned > 0.7 {
                print!("!!");
            }
            println!(
                "   {turned:.2} {:?} {:?}-{:?} {left:.2}",
                line.way,
                line.points[0].round(),
                line.points[line.points.len() - 1].round()
            );
        }
        let mut off: Vec<f64> = room
            .two_metres_off()
            .iter()
            .map(|(pixel, place)| (estimate.camera.place(*pixel, 0.0).expect("on the wall") - place).norm())
            .collect();
        off.sort_by(f64::total_cmp);
        let truth = room.marks().sheet.corners;
        for (a, b) in sheet.corners.iter().zip(truth) {
            print!("({:.2},{:.2}) ", a.x - b.x, a.y - b.y);
        }
        println!(" sigma {}", sheet.sigma_px);
        println!(
            "{name}: strain {:.2} k {:.3} f {:.0} median {:.1} p95 {:.1}; stated {:?}",
            estimate.strain,
            estimate.camera.radial,
            estimate.camera.focal_px,
            off[off.len() / 2],
            off[off.len() * 95 / 100],
            estimate.off_at(1400.0, 1400.0)
        );
    }
}
