//! The camera and the wall from marks, against rooms whose camera is known: `tests/rooms`, rendered by Mitsuba 3 (their README has the
//! conventions), and against errors measured on them by another program with the same unknowns.

#![expect(clippy::disallowed_methods, reason = "the platform's own functions, not the core's")]

use kurbo::Point;
use nalgebra::{Matrix3, Vector2, Vector3};
use overmantel::photograph::camera::Camera;
use overmantel::photograph::estimate::{
    Estimate, MarkedLength, MarkedLine, MarkedSheet, Marks, PLUS_MINUS, Way, homography,
};
use overmantel::photograph::exif::focal_35mm;
use overmantel::photograph::measured::off_afar;
use overmantel::photograph::room::Room as Marked;
use overmantel::photograph::taken::Taken;
use overmantel::plan::Units;
use overmantel::resample::Raster;
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

/// `cv2.getPerspectiveTransform` and scikit-image's `ProjectiveTransform` for these four points, which agree to 1.4e-12
/// (opencv-python-headless 5.0.0.93, scikit-image 0.26.0), and what follows from them by hand.
#[test]
fn homographies_are_those_of_opencv_and_scikit_image() {
    let at = |pairs: [[f64; 2]; 4]| pairs.map(|[x, y]| Vector2::new(x, y));
    let pixels = at([[100.0, 120.0], [520.0, 90.0], [560.0, 430.0], [80.0, 400.0]]);
    let wall = at([[0.0, 0.0], [3000.0, 0.0], [3000.0, 2400.0], [0.0, 2400.0]]);
    let found = homography(pixels, wall).expect("four corners");
    let expected = [
        9.6695285146,
        0.69068060818,
        -1049.8345244,
        0.77701568421,
        10.878219579,
        -1383.0879179,
        5.731_689_769_3e-4,
        5.419_924_217_0e-4,
        1.0,
    ];
    for (own, other) in found.transpose().iter().zip(expected) {
        assert!((own - other).abs() < 1e-9 * other.abs().max(1.0), "{own} for {other}");
    }
    let back = homography(wall, pixels).expect("four corners");
    // Exact: 1/9, -13/1080, 100; -3/200, 53/540, 120; -1/18000, -1/21600, 1.
    let exact = [
        1.0 / 9.0,
        -13.0 / 1080.0,
        100.0,
        -3.0 / 200.0,
        53.0 / 540.0,
        120.0,
        -1.0 / 18_000.0,
        -1.0 / 21_600.0,
        1.0,
    ];
    for (own, other) in back.transpose().iter().zip(exact) {
        assert!((own - other).abs() < 1e-11 * other.abs().max(1.0), "{own} for {other}");
    }
    let through = |plane: &Matrix3<f64>, x: f64, y: f64| {
        let at = plane * Vector3::new(x, y, 1.0);
        (at.x / at.z, at.y / at.z)
    };
    let near = |(x, y): (f64, f64), to: (f64, f64)| (x - to.0).abs() < 1e-6 && (y - to.1).abs() < 1e-6;
    assert!(near(through(&found, 320.0, 260.0), (1_679.330_702, 1_279.055_449)));
    assert!(near(through(&found, 200.0, 200.0), (835.797_482, 775.089_219)));
    assert!(near(through(&back, 1500.0, 1200.0), (292.903_226, 250.0)));
    // Unit square to (0, 0), (2, 0), (3, 2), (0, 1): textbook, H = [1.2 0 0; 0 .8 0; -.4 -.2 1].
    let unit = at([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]);
    let textbook =
        homography(unit, at([[0.0, 0.0], [2.0, 0.0], [3.0, 2.0], [0.0, 1.0]])).expect("four corners");
    assert!(near(through(&textbook, 0.5, 0.5), (6.0 / 7.0, 4.0 / 7.0)));
    // Three corners on a line are no rectangle's.
    assert!(
        homography(unit, at([[0.0, 0.0], [1.0, 0.0], [2.0, 0.0], [0.0, 1.0]]))
            .is_none_or(|plane| plane.determinant().abs() < 1e-9)
    );
}

/// Marks at their true places, with noise of half a pixel: the errors two metres off are those that were measured with the same unknowns in
/// the same rooms (median 5, 5, 4 and 24 mm, 95th percentile 13, 16, 12 and 91), and the ± holds the truth in 95 of 100 without being idle.
/// The last room has two lines, both level: what the sheet's own tilt is then not known of, is stated too small.
#[test]
fn errors_two_metres_off_are_as_measured_and_as_stated() {
    for (name, [median, most, least_within]) in
        ROOMS.into_iter().zip([[6.0, 20.0, 0.95], [7.0, 20.0, 0.95], [6.0, 20.0, 0.95], [30.0, 120.0, 0.85]])
    {
        let room = Room::named(name);
        let [half, nearly_all, within, ratio] = errors(&room, &room.marks());
        println!("{name}: {half:.1} mm, {nearly_all:.1} mm, {within:.3} within, median {ratio:.2} of the ±");
        assert!(half < median && nearly_all < most, "{name}: {half} mm, {nearly_all} mm");
        assert!(within >= least_within, "{name}: {within} within");
        assert!(ratio > 0.3, "{name}: {ratio} of the ±");
    }
}

/// A sheet alone misleads by decimetres, and says so (measured: median 43 to 98 mm by pose).
#[test]
fn a_sheet_alone_says_by_how_much_it_misleads() {
    for name in ROOMS {
        let room = Room::named(name);
        let mut alone = room.marks();
        alone.lines.clear();
        let [half, _, within, _] = errors(&room, &alone);
        println!("{name}: {half:.0} mm, {within:.3} within");
        assert!((25.0..130.0).contains(&half), "{name}: {half} mm");
        assert!(within > 0.88, "{name}: {within} within");
        let estimate = Estimate::of(&alone).expect("an estimate");
        let stated = off_afar(&estimate).expect("two metres off") * PLUS_MINUS;
        assert!(stated > half, "{name}: ± {stated} mm for {half} mm");
    }
}

/// What is stated: a true length on the wall brings the scale that a sheet marked too large has lost.
#[test]
fn a_measured_length_brings_the_scale() {
    let room = Room::named("green-sofa");
    let mut marks = room.marks();
    // One per cent too large, as a sheet of 100 pixels is that is marked half a pixel off on each side.
    marks.sheet.size_mm = marks.sheet.size_mm.map(|side| side * 1.01);
    let error = |marks: &Marks| {
        let estimate = Estimate::of(marks).expect("an estimate");
        let off = room
            .two_metres_off()
            .into_iter()
            .map(|(pixel, place)| (estimate.camera.place(pixel, 0.0).expect("on the wall") - place).norm());
        off.fold(0.0, f64::max)
    };
    let without = error(&marks);
    let camera = room.camera();
    let ends = [(-1400.0, 300.0), (1900.0, 300.0)]
        .map(|(x, y)| camera.pixel(Vector3::new(x, y, 0.0)).expect("in sight"));
    marks.lengths.push(MarkedLength { ends, mm: 3300.0 });
    let with = error(&marks);
    assert!(without > 15.0 && with < without / 2.0, "{without} mm without, {with} mm with it");
}

/// From the finished photographs, nothing marked by hand: sheet, lines and camera are found; two metres off within 6 mm in the median and
/// 20 mm at the 95th percentile, the room with two long lines included.
#[test]
fn the_finished_photographs_alone_give_the_camera() {
    for name in ROOMS {
        let room = Room::named(name);
        let path = format!("{}/rooms/{name}/photo.jpg", env!("CARGO_MANIFEST_DIR"));
        let bytes = std::fs::read(&path).expect("a photograph");
        let picture = image::open(path).expect("a photograph").to_rgba8();
        let raster = Raster::new(picture.width(), picture.height(), picture.into_raw()).expect("a raster");
        let taken = Taken::found(raster, focal_35mm(&bytes), None).expect("a photograph");
        let estimate = taken.estimate().expect("an estimate");
        let mut off: Vec<f64> = room
            .two_metres_off()
            .iter()
            .map(|(pixel, place)| (estimate.camera.place(*pixel, 0.0).expect("on the wall") - place).norm())
            .collect();
        off.sort_by(f64::total_cmp);
        let (half, nearly_all) = (off[off.len() / 2], off[off.len() * 95 / 100]);
        println!("{name}: {half:.1} mm, {nearly_all:.1} mm; {} lines", taken.room().lines.len());
        assert!(half < 6.0 && nearly_all < 20.0, "{name}: {half} mm, {nearly_all} mm");
    }
}

/// What a photograph without another can't show, marked as it would be seen: a sheet that lies on a table 70 cm below the middle of the wall's
/// sheet and 60 cm before the wall, in its long way from the wall. It gives a camera, which does not stand before a wall.
#[test]
fn a_sheet_on_a_table_is_told() {
    let room = Room::named("green-sofa");
    let camera = room.camera();
    let seen = |x: f64, z: f64| camera.pixel(Vector3::new(x, -700.0, z)).expect("in sight");
    let corners = [seen(-105.0, 600.0), seen(105.0, 600.0), seen(105.0, 897.0), seen(-105.0, 897.0)];
    let mut marked = Marked::new([1600, 1200], Some(27.0)).expect("a photograph");
    let blank = Raster::new(1600, 1200, vec![128; 1600 * 1200 * 4]).expect("a raster");
    marked.mark_sheet(&blank, corners.map(|at| [at.x, at.y]), false).expect("marked");
    let codes =
        |room: &Marked| room.notes(Units::default()).into_iter().map(|note| note.code).collect::<Vec<_>>();
    assert!(codes(&marked).contains(&"not_on_wall"), "{:?}", codes(&marked));
    // The sheet on the wall is none such.
    let corners = room.marks().sheet.corners.map(|at| [at.x, at.y]);
    marked.mark_sheet(&blank, corners, false).expect("marked");
    assert!(!codes(&marked).contains(&"not_on_wall"), "{:?}", codes(&marked));
    assert!(codes(&marked).contains(&"afar"), "a sheet alone");
}

/// Two sheets on one wall: the photograph with its own sheet copied two hands to the right of it.
#[test]
fn two_sheets_are_told() {
    let path = format!("{}/rooms/green-sofa/photo.jpg", env!("CARGO_MANIFEST_DIR"));
    let mut picture = image::open(path).expect("a photograph").to_rgba8();
    let found = |picture: &image::RgbaImage| {
        let raster =
            Raster::new(picture.width(), picture.height(), picture.as_raw().clone()).expect("a raster");
        Marked::found(&raster, Some(27.0), None).expect("a photograph")
    };
    let told = |room: &Marked| room.notes(Units::default()).iter().any(|note| note.code == "two_sheets");
    assert!(!told(&found(&picture)));
    let part = image::imageops::crop_imm(&picture, 560, 415, 130, 160).to_image();
    image::imageops::replace(&mut picture, &part, 740, 415);
    assert!(told(&found(&picture)));
}
