//! What tells canvas, aluminium and framed paper apart at first sight: measured on a flat grey picture, on a wall of 12 ft drawn 1440 px wide.
//! The bounds are common practice, no source: what an eye sees without looking for it.

use overmantel::desk::Desk;
use overmantel::draw::{Sheet, View};
use overmantel::plan::*;
use overmantel::resample::Raster;
use overmantel_tests::given::picture;

/// A grey picture of 30 × 30 in on one piece of this make, as grey values row by row, and where the piece is on the drawing.
fn face(finish: Finish, view: View) -> Vec<Vec<f64>> {
    let mut plan =
        Plan { pictures: vec![picture("grey", 900, 900)], fixtures: Vec::new(), ..Plan::starting() };
    plan.pieces.truncate(1);
    plan.pieces[0].picture = Some(0);
    plan.pieces[0].image = overmantel::geometry::Size::inches(30, 30);
    plan.pieces[0].finish = finish;
    // Blue paint, so that the piece is told from the wall.
    plan.wall.paint = overmantel::colour::Colour::hex(0x30_40_c0);
    (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::EyeLevel);
    let mut desk = Desk::new(plan).expect("an answer");
    let raster = Raster::new(300, 300, [118, 118, 118, 255].repeat(300 * 300)).expect("a picture");
    desk.put_copy("grey", (900, 900), raster);
    let mut sheet = Sheet { view, lines: false, ..Sheet::new(1440, 1) };
    sheet.height_px = desk.height_for_width(&sheet);
    let drawn = desk.draw(&sheet);
    let rows = drawn.pixels.chunks_exact(1440 * 4).map(|row| {
        let pixels = row.chunks_exact(4).filter(|pixel| i16::from(pixel[2]) - i16::from(pixel[0]) < 12);
        let grey: Vec<f64> = pixels.map(|pixel| f64::from(pixel[1])).filter(|grey| *grey < 215.0).collect();
        grey
    });
    let all: Vec<Vec<f64>> = rows.collect();
    // The rows that cross the piece: nothing else of the room is a grey of that width.
    let widest = all.iter().take(500).map(Vec::len).max().unwrap_or(0);
    assert!(widest > 150, "{view:?}: a piece {widest} px wide");
    all.into_iter().take(500).filter(|row| row.len() * 100 > widest * 97).collect()
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let values: Vec<f64> = values.collect();
    values.iter().sum::<f64>() / f64::from(u32::try_from(values.len()).expect("a count"))
}

/// How much a pixel differs from the next, in the middle of a face.
fn grain(face: &[Vec<f64>]) -> f64 {
    let middle = &face[face.len() / 4..face.len() * 3 / 4];
    mean(middle.iter().flat_map(|row| {
        row[row.len() / 4..row.len() * 3 / 4]
            .windows(2)
            .map(|pair| (pair[0] - pair[1]).abs())
            .collect::<Vec<_>>()
    }))
}

/// The means of 8 × 8 parts of a face, without what is near its edges: the brightest and the darkest.
fn parts(face: &[Vec<f64>]) -> (f64, f64) {
    let (from, to) = (face.len() / 10, face.len() * 9 / 10);
    let step = (to - from) / 8;
    let mut means = Vec::new();
    for down in 0..8 {
        let rows = &face[from + down * step..from + (down + 1) * step];
        for across in 0..8 {
            let of = |row: &Vec<f64>| {
                let (from, wide) = (row.len() / 10, row.len() / 10);
                mean(row[from + across * wide..from + (across + 1) * wide].iter().copied())
            };
            means.push(mean(rows.iter().map(of)));
        }
    }
    (means.iter().copied().fold(f64::MAX, f64::min), means.iter().copied().fold(0.0, f64::max))
}

#[test]
fn canvas_shows_its_weave_and_aluminium_the_rooms_light() {
    for view in [View::Elevation, View::Oblique] {
        let canvas = face(Finish::Canvas(Canvas::starting()), view);
        let metal = face(Finish::Aluminium(Aluminium::starting()), view);
        let (woven, smooth) = (grain(&canvas), grain(&metal));
        assert!(woven > 2.0 && woven > smooth * 3.0, "{view:?}: {woven} against {smooth}");
        // A soft light of its own lies on metal, and none on cloth.
        let ((dull, bright), (least, most)) = (parts(&metal), parts(&canvas));
        assert!(bright - dull > 18.0, "{view:?}: {dull} to {bright}");
        assert!(most - least < 8.0, "{view:?}: {least} to {most}");
    }
}

#[test]
fn a_canvas_turns_round_its_bars() {
    let canvas = face(Finish::Canvas(Canvas::starting()), View::Elevation);
    let middle = mean(canvas.iter().skip(40).take(150).flat_map(|row| row[60..200].to_vec()));
    // The lamp is at the upper left: two pixels from the right edge it has turned away, at the left towards it.
    let at =
        |from_right: usize| mean(canvas.iter().skip(40).take(150).map(|row| row[row.len() - 1 - from_right]));
    assert!(at(1) < middle - 4.0, "{} beside {middle}", at(1));
    assert!(at(8) > middle - 2.5, "{} beside {middle}", at(8));
    let left = mean(canvas.iter().skip(40).take(150).map(|row| row[1]));
    assert!(left > middle + 1.0, "{left} beside {middle}");
}
