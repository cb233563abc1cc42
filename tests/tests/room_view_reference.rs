//! Pieces drawn into a photograph of a room, against the same room with the pieces really hanging there: `tests/rooms`, rendered by
//! Mitsuba 3, once without the pieces and once with them.

#![expect(clippy::disallowed_methods, reason = "the platform's own functions, not the core's")]

use image::{RgbaImage, imageops};
use kurbo::Point;
use nalgebra::{Matrix3, Vector3};
use num_rational::Ratio;
use overmantel::colour::Colour;
use overmantel::draw::LoadedPicture;
use overmantel::figures::Figures;
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::length::Length;
use overmantel::photograph::camera::Camera;
use overmantel::photograph::room::Room;
use overmantel::photograph::taken::Taken;
use overmantel::photograph::view::{Drawn, Hung, InRoom};
use overmantel::plan::{FaceShape, Plan, Surface};
use overmantel::print::Source;
use overmantel::resample::{Pyramid, Raster};
use overmantel::scene::{Flanks, Layer, Scene, ScenicPiece, scene};
use serde_json::Value;

const ROOMS: [&str; 4] = ["green-sofa", "white-door", "blue-bed", "terracotta-plant"];

fn folder() -> String {
    format!("{}/rooms", env!("CARGO_MANIFEST_DIR"))
}

fn picture(path: &str) -> RgbaImage {
    image::open(format!("{}/{path}", folder())).expect("a picture").to_rgba8()
}

fn raster(picture: RgbaImage) -> Raster {
    Raster::new(picture.width(), picture.height(), picture.into_raw()).expect("a raster")
}

fn number(truth: &Value, pointer: &str) -> f64 {
    truth.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("{pointer}"))
}

fn pair(value: &Value) -> Point {
    Point::new(value[0].as_f64().expect("x"), value[1].as_f64().expect("y"))
}

fn corners(list: &Value, key: &str) -> [Point; 4] {
    std::array::from_fn(|index| pair(&list[index][key]))
}

/// The true camera, from the middle of the sheet.
fn camera(truth: &Value) -> (Camera, Vector3<f64>) {
    let matrix: Vec<f64> =
        (0..9).map(|at| number(truth, &format!("/camera/R/{}/{}", at / 3, at % 3))).collect();
    let rotation = Matrix3::from_row_slice(&matrix);
    let moved = Vector3::from_fn(|row, _| number(truth, &format!("/camera/t_mm/{row}")));
    let sheet = corners(&truth["sheet"]["corners"], "wall_mm");
    let origin = sheet.iter().fold(Vector3::zeros(), |sum, at| sum + Vector3::new(at.x, at.y, 0.0)) / 4.0;
    let camera = Camera {
        rotation,
        translation: rotation * origin + moved,
        focal_px: number(truth, "/camera/K/0/0"),
        radial: number(truth, "/distortion/k1"),
        middle: Point::new(number(truth, "/camera/K/0/2"), number(truth, "/camera/K/1/2")),
    };
    (camera, origin)
}

#[expect(clippy::cast_possible_truncation, reason = "whole micrometres")]
fn mm(value: f64) -> Length {
    Length::micrometres((value * 1000.0).round() as i64)
}

fn colour(value: &Value) -> Colour {
    Colour::parse(value.as_str().expect("a colour")).expect("a colour")
}

/// The pieces that hang in the truth's picture, as a scene; with their pictures.
fn hung(truth: &Value) -> (Scene, Vec<LoadedPicture>) {
    let plan = Plan::starting();
    let mut scene = scene(&plan, &Figures::of(&plan).expect("figures"));
    scene.pieces.clear();
    scene.fixtures.clear();
    let mut copies = Vec::new();
    for (index, piece) in truth["pieces"].as_array().expect("pieces").iter().enumerate() {
        let shown = &piece["picture"];
        let crop: [u32; 4] = std::array::from_fn(|side| {
            let px = shown["crop_px_left_top_right_bottom"][side].as_u64().expect("pixels");
            u32::try_from(px).expect("pixels")
        });
        let [left, top, right, bottom] = crop;
        let file = picture(shown["file"].as_str().expect("a file"));
        let cut = imageops::crop_imm(&file, left, top, right - left, bottom - top).to_image();
        let (width, height) = cut.dimensions();
        let of = |key: &str| mm(piece[key].as_f64().expect("a length"));
        let size = Size::new(of("width_mm"), of("height_mm"));
        let whole = Rect::new(Length::ZERO, Length::ZERO, size);
        let at = |key: &str| mm(shown[key].as_f64().expect("a length"));
        let pictured = Rect::new(
            at("left_of_piece_mm"),
            size.height - at("below_top_of_piece_mm") - at("height_mm"),
            Size::new(at("width_mm"), at("height_mm")),
        );
        let whole_px = |px: u32| Ratio::from_integer(i128::from(px));
        let source =
            Source { left: whole_px(0), top: whole_px(0), width: whole_px(width), height: whole_px(height) };
        let mut layers = vec![Layer::Picture { rect: pictured, shows: Some((index, source)) }];
        let mut flanks = Flanks::Plain(Colour::hex(0x00_00_00));
        if piece["kind"] == "framed" {
            let face = of("face_mm");
            let sight = whole.shrunk(Sides::all(face));
            layers.push(Layer::Board {
                rect: sight,
                openings: vec![pictured],
                colour: colour(&piece["mat_srgb"]),
            });
            layers.push(Layer::Moulding {
                outer: whole,
                inner: sight,
                colour: colour(&piece["frame_srgb"]),
                shape: FaceShape::Flat,
                surface: Surface::default(),
                relief: Length::ZERO,
                height: of("depth_mm") - at("out_of_wall_mm"),
            });
            flanks = Flanks::Plain(colour(&piece["frame_srgb"]));
        } else if let Flanks::Plain(side) = &mut flanks {
            *side = colour(&piece["side_srgb"]);
        }
        let foot = &piece["front_corners"][3]["wall_mm"];
        let corner = (mm(foot[0].as_f64().expect("x")), mm(foot[1].as_f64().expect("y")));
        scene.pieces.push(ScenicPiece {
            outside: Rect::new(corner.0, corner.1, size),
            depth: of("depth_mm"),
            stand_off: Length::ZERO,
            corner_radius: Length::ZERO,
            flanks,
            layers,
        });
        copies.push(LoadedPicture {
            pyramid: Pyramid::of(raster(cut)),
            file_width_px: width,
            file_height_px: height,
            revision: index as u64,
        });
    }
    (scene, copies)
}

/// CIE 1976 L*a*b* of an sRGB colour, by D65 (IEC 61966-2-1; CIE 15).
fn lab(pixel: [u8; 3]) -> [f64; 3] {
    let [r, g, b] = pixel.map(|code| {
        let code = f64::from(code) / 255.0;
        if code <= 0.04045 { code / 12.92 } else { ((code + 0.055) / 1.055).powf(2.4) }
    });
    let [x, y, z] = [
        (0.412_456_4 * r + 0.357_576_1 * g + 0.180_437_5 * b) / 0.950_47,
        0.212_672_9 * r + 0.715_152_2 * g + 0.072_175 * b,
        (0.019_333_9 * r + 0.119_192 * g + 0.950_304_1 * b) / 1.088_83,
    ]
    .map(|part| if part > 216.0 / 24_389.0 { part.cbrt() } else { (24_389.0 / 27.0 * part + 16.0) / 116.0 });
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

/// The colour difference CIEDE2000 (Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula", 2005).
fn ciede2000(one: [f64; 3], two: [f64; 3]) -> f64 {
    let chroma = |lab: [f64; 3]| lab[1].hypot(lab[2]);
    let mean = (chroma(one) + chroma(two)) / 2.0;
    let seventh = mean.powi(7);
    let g = 0.5 * (1.0 - (seventh / (seventh + 25f64.powi(7))).sqrt());
    let primed = |lab: [f64; 3]| {
        let a = lab[1] * (1.0 + g);
        let hue =
            if a == 0.0 && lab[2] == 0.0 { 0.0 } else { lab[2].atan2(a).to_degrees().rem_euclid(360.0) };
        (lab[0], a.hypot(lab[2]), hue)
    };
    let ((l1, c1, h1), (l2, c2, h2)) = (primed(one), primed(two));
    let turn = if c1 * c2 == 0.0 {
        0.0
    } else if (h2 - h1).abs() <= 180.0 {
        h2 - h1
    } else if h2 > h1 {
        h2 - h1 - 360.0
    } else {
        h2 - h1 + 360.0
    };
    let dh = 2.0 * (c1 * c2).sqrt() * (turn / 2.0).to_radians().sin();
    let (l, c) = ((l1 + l2) / 2.0, (c1 + c2) / 2.0);
    let h = if c1 * c2 == 0.0 {
        h1 + h2
    } else if (h1 - h2).abs() <= 180.0 {
        (h1 + h2) / 2.0
    } else if h1 + h2 < 360.0 {
        (h1 + h2 + 360.0) / 2.0
    } else {
        (h1 + h2 - 360.0) / 2.0
    };
    let cosine = |degrees: f64| degrees.to_radians().cos();
    let t = 1.0 - 0.17 * cosine(h - 30.0) + 0.24 * cosine(2.0 * h) + 0.32 * cosine(3.0 * h + 6.0)
        - 0.20 * cosine(4.0 * h - 63.0);
    let away = (l - 50.0) * (l - 50.0);
    let (sl, sc, sh) = (1.0 + 0.015 * away / (20.0 + away).sqrt(), 1.0 + 0.045 * c, 1.0 + 0.015 * c * t);
    let rc = 2.0 * (c.powi(7) / (c.powi(7) + 25f64.powi(7))).sqrt();
    let rt = -(60.0 * (-((h - 275.0) / 25.0).powi(2)).exp()).to_radians().sin() * rc;
    let (dl, dc, dh) = ((l2 - l1) / sl, (c2 - c1) / sc, dh / sh);
    (dl * dl + dc * dc + dh * dh + rt * dc * dh).sqrt()
}

#[test]
fn colour_differences_are_those_of_the_paper() {
    // Pairs 1, 8, 14 and 25 of table 1 in Sharma, Wu, Dalal (from memory).
    let rows = [
        ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
        ([50.0, -1.0, 2.0], [50.0, 0.0, 0.0], 2.3669),
        ([50.0, -0.001, 2.49], [50.0, 0.0011, -2.49], 4.7461),
        ([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644),
    ];
    for (one, two, expected) in rows {
        assert!((ciede2000(one, two) - expected).abs() < 1e-4, "{one:?} {two:?}: {}", ciede2000(one, two));
    }
}

/// Whether a pixel is well within the outline of a picture.
fn is_inside(at: Point, outline: &[Point; 4], spare: f64) -> bool {
    (0..4).all(|side| {
        let (from, to) = (outline[side], outline[(side + 1) % 4]);
        let way = to - from;
        way.cross(at - from) / way.hypot() >= spare
    })
}

/// The mean colour difference inside each picture where it is wholly in sight in the truth, and the share of pixels that it is taken over.
fn colour_differences(truth: &Value, drawn: &RgbaImage, really: &RgbaImage) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for piece in truth["pieces"].as_array().expect("pieces") {
        let outline = corners(&piece["picture"]["corners"], "px");
        for (x, y, pixel) in really.enumerate_pixels() {
            let at = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5);
            if is_inside(at, &outline, 2.0) {
                let own = drawn.get_pixel(x, y);
                sum += ciede2000(lab([pixel[0], pixel[1], pixel[2]]), lab([own[0], own[1], own[2]]));
                count += 1.0;
            }
        }
    }
    assert!(count > 10_000.0);
    sum / count
}

/// From the finished photograph alone: the sheet and the lines are found, the camera is estimated, the pieces are drawn.
#[test]
fn pieces_look_as_they_do_where_they_really_hang() {
    for name in ROOMS {
        let text = std::fs::read_to_string(format!("{}/{name}/truth.json", folder())).expect("truth");
        let truth: Value = serde_json::from_str(&text).expect("JSON");
        let (real_camera, origin) = camera(&truth);
        let focal = truth.pointer("/image/exif/focal_length_in_35mm_film").and_then(Value::as_f64);
        let photograph = raster(picture(&format!("{name}/photo.jpg")));
        let mut taken = Taken::found(photograph.clone(), focal, None).expect("a photograph");
        let hung_at = [-origin.x, -origin.y];
        taken
            .change(|room, _| {
                room.hung = Some(hung_at);
                Ok(())
            })
            .expect("hung");
        let (scene, copies) = hung(&truth);
        let copies: Vec<Option<&LoadedPicture>> = copies.iter().map(Some).collect();
        // Where the front corners of the pieces are seen.
        let estimated = taken.estimate().expect("an estimate").camera;
        let mut off: f64 = 0.0;
        for piece in truth["pieces"].as_array().expect("pieces") {
            for corner in piece["front_corners"].as_array().expect("corners") {
                let on_wall = pair(&corner["wall_mm"]);
                let out = corner["out_of_wall_mm"].as_f64().expect("depth");
                let place = Vector3::new(on_wall.x, on_wall.y, out) - origin;
                let seen = estimated.pixel(place).expect("in sight");
                off = off.max((seen - pair(&corner["px"])).hypot());
            }
        }
        let Drawn { pixels, width, height, .. } = taken.draw(&scene, &copies, 1600, false).expect("drawn");
        let drawn = RgbaImage::from_raw(width, height, pixels.to_vec()).expect("pixels");
        let really = picture(&format!("{name}/hung.jpg"));
        let difference = colour_differences(&truth, &drawn, &really);
        println!("{name}: corners within {off:.2} px, colours within {difference:.2}");
        assert!(off < 3.0, "{name}: a corner is {off:.2} px from where it really is");
        assert!(difference < 2.5, "{name}: mean CIEDE2000 {difference:.2}");
        // With the true camera the light alone is judged.
        let sheet = corners(&truth["sheet"]["corners"], "px");
        let marked = Room::new([1600, 1200], None).expect("a room");
        let mut with_truth = InRoom::new(photograph.clone(), sheet, real_camera, &marked, 1.0);
        let at = Hung { right_mm: -origin.x, up_mm: -origin.y };
        let pixels = with_truth.draw(&scene, &copies, at, false).pixels.to_vec();
        let difference =
            colour_differences(&truth, &RgbaImage::from_raw(width, height, pixels).expect("pixels"), &really);
        println!("{name}: by the true camera {difference:.2}");
        assert!(difference < 2.5, "{name}: mean CIEDE2000 {difference:.2}");
    }
}

/// The floor lamp and the leaves that stand before a piece are seen before it: there the drawing is the photograph.
#[test]
fn what_stands_before_stays_before() {
    for name in ["green-sofa", "terracotta-plant"] {
        let text = std::fs::read_to_string(format!("{}/{name}/truth.json", folder())).expect("truth");
        let truth: Value = serde_json::from_str(&text).expect("JSON");
        let (_, origin) = camera(&truth);
        let photograph = picture(&format!("{name}/photo.jpg"));
        let focal = truth.pointer("/image/exif/focal_length_in_35mm_film").and_then(Value::as_f64);
        let mut taken = Taken::found(raster(photograph.clone()), focal, None).expect("a photograph");
        taken
            .change(|room, _| {
                room.hung = Some([-origin.x, -origin.y]);
                Ok(())
            })
            .expect("hung");
        let (scene, copies) = hung(&truth);
        let copies: Vec<Option<&LoadedPicture>> = copies.iter().map(Some).collect();
        let Drawn { pixels, width, height, .. } = taken.draw(&scene, &copies, 1600, false).expect("drawn");
        let drawn = RgbaImage::from_raw(width, height, pixels.to_vec()).expect("pixels");
        // Wherever the truth is the photograph within its noise and the pieces' outlines say that a piece would be there, something
        // stands before it.
        let really = picture(&format!("{name}/hung.jpg"));
        let outline = corners(
            &truth["pieces"].as_array().expect("pieces").last().expect("a piece")["front_corners"],
            "px",
        );
        let (mut hidden, mut kept) = (0, 0);
        for (x, y, real) in really.enumerate_pixels() {
            let at = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5);
            let of = |picture: &RgbaImage| {
                let pixel = picture.get_pixel(x, y);
                lab([pixel[0], pixel[1], pixel[2]])
            };
            let truth_is_photograph = ciede2000(lab([real[0], real[1], real[2]]), of(&photograph)) < 3.0;
            if is_inside(at, &outline, 3.0) && truth_is_photograph {
                hidden += 1;
                kept += usize::from(ciede2000(of(&drawn), of(&photograph)) < 6.0);
            }
        }
        println!("{name}: {kept} of {hidden} before");
        assert!(hidden > 500, "{name}: {hidden}");
        assert!(kept * 100 > hidden * 85, "{name}: {kept} of {hidden}");
    }
}

/// A sheet as bright as a photograph can say tells nothing of the light; the rooms as they are photographed are not so bright.
#[test]
fn an_overexposed_sheet_is_told() {
    for name in ROOMS {
        let photograph = picture(&format!("{name}/photo.jpg"));
        let taken = Taken::found(raster(photograph.clone()), None, None).expect("a photograph");
        let told = |taken: &Taken| {
            taken
                .notes(Plan::starting().units)
                .iter()
                .any(|note| note.code == "overexposed" && note.is_warning)
        };
        assert!(!told(&taken), "{name}");
        let mut bright = photograph;
        for channel in bright.iter_mut() {
            *channel = u8::try_from((u16::from(*channel) * 5 / 2).min(255)).expect("a code");
        }
        let bright = Taken::with(raster(bright), &taken.room().write()).expect("the same marks");
        assert!(told(&bright), "{name}");
    }
}
