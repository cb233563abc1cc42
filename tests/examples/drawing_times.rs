//! How long drawings take natively, and how that compares with copying the frame and with pictures of other sizes.
//!
//! `cargo run --release --package overmantel-tests --example drawing_times`. Times depend on the machine and on what else it does:
//! quote the ratios, which are medians of pairs taken in turn.

#![allow(missing_docs, reason = "a program")]

use overmantel::desk::Desk;
use overmantel::draw::{Sheet, View};
use overmantel::geometry::Point;
use overmantel::length::Length;
use overmantel::plan::file;
use overmantel::resample::Raster;
use overmantel_tests::given;
use std::error::Error;
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 41;

/// A desk with the demo's three over the sofa, and a picture of so many pixels.
fn desk(picture_px: (u32, u32)) -> Result<Desk, Box<dyn Error>> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    let plan = file::read(&std::fs::read_to_string(format!("{root}/demo-data/plans/low-water.json"))?)?;
    let name = plan.pictures.first().ok_or("no picture")?.clone();
    let mut desk = Desk::new(plan)?;
    let picture = image::open(format!("{root}/demo-data/pictures/low-water-evening.jpg"))?;
    let sized = picture.resize_exact(picture_px.0, picture_px.1, image::imageops::FilterType::Triangle);
    let raster = Raster::new(picture_px.0, picture_px.1, sized.into_rgba8().into_raw()).ok_or("empty")?;
    desk.put_copy(&name.name, (name.width_px, name.height_px), raster);
    Ok(desk)
}

fn timed(mut act: impl FnMut()) -> f64 {
    let start = Instant::now();
    act();
    start.elapsed().as_secs_f64() * 1000.0
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// Two jobs in turn: their medians, and the median of their ratios.
fn pair(name: &str, mut one: impl FnMut(usize), mut other: impl FnMut(usize)) {
    let (mut first, mut second, mut ratios) = (Vec::new(), Vec::new(), Vec::new());
    for round in 0..ROUNDS {
        let (a, b) = (timed(|| one(round)), timed(|| other(round)));
        first.push(a);
        second.push(b);
        ratios.push(a / b);
    }
    let (a, b, ratio) = (median(&mut first), median(&mut second), median(&mut ratios));
    println!("{name}: {a:.2} ms against {b:.2} ms, ratio {ratio:.2}");
}

fn main() -> Result<(), Box<dyn Error>> {
    for (width, height) in [(1600_u32, 1000_u32), (3840, 2160)] {
        println!("{width} × {height}");
        let sheet = Sheet::new(width, height);
        let bytes = width as usize * height as usize * 4;
        let (from, mut to) = (vec![1_u8; bytes], vec![0_u8; bytes]);
        let mut copy = move |round: usize| {
            to.copy_from_slice(&from);
            black_box(to[round]);
        };
        let mut desk = desk((2400, 1120))?;
        let projection = desk.draw(&sheet).projection;
        let centre = desk.figures().arranged.outsides[0].centre();
        // As the page draws while something is held.
        let in_motion = Sheet { in_motion: true, ..sheet.clone() };
        let at = |to: Point| (projection.x(to.x), projection.y(to.y));
        pair(
            "drag / plain copy of the frame",
            |round| {
                let (x, y) = at(centre);
                let away = Length::inches(i64::try_from(round % 7).unwrap_or(0));
                let (to_x, _) = at(Point::new(centre.x + away, centre.y));
                desk.take(projection, x, y);
                desk.drag_to(projection, to_x, y - 20.0, 1.0, false);
                black_box(desk.draw(&in_motion).pixels.len());
                desk.abandon();
            },
            &mut copy,
        );
        let sizes = ["15 x 19", "16 x 20"];
        pair(
            "change of size with fresh scaling / plain copy of the frame",
            |round| {
                let _set = given::set(&mut desk, "piece.all.image", sizes[round % 2]);
                black_box(desk.draw(&sheet).pixels.len());
            },
            &mut copy,
        );
        pair(
            "repaint of room and pieces / plain copy of the frame",
            |round| {
                let _set = given::set(&mut desk, "wall.paint", ["grey-green", "stone"][round % 2]);
                let _set = given::set(&mut desk, "piece.all.mat.colour", ["warm white", "cream"][round % 2]);
                black_box(desk.draw(&sheet).pixels.len());
            },
            &mut copy,
        );
        let oblique = Sheet { view: View::Oblique, ..sheet.clone() };
        pair(
            "the room from the viewer's place / plain copy of the frame",
            |_| {
                black_box(desk.draw(&oblique).pixels.len());
            },
            &mut copy,
        );
    }
    println!("pictures of 100 megapixels against 1, 1600 × 1000");
    let sheet = Sheet::new(1600, 1000);
    let (mut large, mut small) = (desk((14_640, 6_832))?, desk((1464, 683))?);
    let resize = |desk: &mut Desk, round: usize| {
        let _set = given::set(desk, "piece.all.image", ["15 x 19", "16 x 20"][round % 2]);
        black_box(desk.draw(&sheet).pixels.len());
    };
    pair(
        "change of size with fresh scaling",
        |round| resize(&mut large, round),
        |round| resize(&mut small, round),
    );
    Ok(())
}
