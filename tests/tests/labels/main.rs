//! Figures on the drawing: never over each other, over a piece or over a line, never beyond the sheet, and always to be read.
//!
//! Where they are is asked of the drawing; what lies under them is measured in its pixels. Contrast is that of WCAG 2.2: 4.5 to 1 for
//! lettering (1.4.3), 3 to 1 for lines (1.4.11).

use any_wall::{Seen, any_seen, any_wall, placed};
use overmantel::colour::Colour;
use overmantel::draw::lines::{Label, Placed};
use overmantel::draw::{Painter, PixelRect, Sheet, projection::Projection};
use overmantel::scene::Scene;
use overmantel_tests::given::demo;
use overmantel_tests::share::Share;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

mod any_wall;

fn overlap(a: PixelRect, b: PixelRect) -> bool {
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

fn corner_and_size(area: PixelRect) -> [f32; 4] {
    [area.left, area.top, area.width(), area.height()]
}

/// What is wrong with where things are.
fn faults_of_place(lines: &Placed, scene: &Scene, sheet: &Sheet, p: Projection) -> Vec<String> {
    let mut faults = Vec::new();
    let size = (f64::from(sheet.width_px), f64::from(sheet.height_px));
    for (index, label) in lines.labels.iter().enumerate() {
        let (area, text) = (label.area, &label.text);
        let (right, bottom) = (f64::from(area.right), f64::from(area.bottom));
        if area.left < 0.0 || area.top < 0.0 || right > size.0 || bottom > size.1 {
            faults.push(format!("{text} leaves the sheet"));
        }
        for other in lines.labels[index + 1..].iter().filter(|other| overlap(area, other.area)) {
            faults.push(format!("{text} is over {}", other.text));
        }
        for piece in &scene.pieces {
            let rect = piece.outside;
            let outside = PixelRect::from_xywh(
                p.x(rect.x),
                p.y(rect.top()),
                p.length(rect.size.width),
                p.length(rect.size.height),
            );
            if overlap(area, outside) {
                faults.push(format!("{text} is over a piece"));
            }
        }
        faults.extend(
            lines
                .strokes
                .iter()
                .filter(|stroke| overlap(area, stroke.area))
                .map(|_| format!("{text} is over a line")),
        );
        faults.extend(
            lines
                .ticks
                .iter()
                .filter(|tick| overlap(area, tick.area()))
                .map(|_| format!("{text} is over a tick")),
        );
    }
    faults
}

/// A drawing's pixels.
struct Drawn {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Drawn {
    fn at(&self, x: f32, y: f32) -> Option<Colour> {
        let whole = |at: f32| usize::try_from(overmantel::rounding::nearest(f64::from(at.floor()))).ok();
        let (x, y) = (whole(x)?, whole(y)?);
        if x >= self.width || y >= self.height {
            return None;
        }
        let [red, green, blue] = self.pixels[(y * self.width + x) * 4..][..3] else { return None };
        Some(Colour { red, green, blue })
    }
}

/// Places about a pixel apart along a length.
fn along(from: f32, length: f32) -> impl Iterator<Item = f32> {
    let mut at = from + 0.5;
    std::iter::from_fn(move || {
        at += 1.0;
        Some(at - 1.0).filter(|&here| here < from + length)
    })
}

/// What cannot be read. In a label's box the outermost columns (of one that reads upwards: rows) are free of letters: there is what it stands on.
fn faults_of_ink(lines: &Placed, drawn: &Drawn) -> Vec<String> {
    let mut faults = Vec::new();
    for Label { area, upright, ink, text, .. } in &lines.labels {
        let ends: Vec<(f32, f32)> = if *upright {
            along(area.left, area.width())
                .flat_map(|x| [(x, area.top + 0.5), (x, area.bottom - 0.5)])
                .collect()
        } else {
            along(area.top, area.height())
                .flat_map(|y| [(area.left + 0.5, y), (area.right - 0.5, y)])
                .collect()
        };
        let ratio = |&(x, y): &(f32, f32)| drawn.at(x, y).map_or(21.0, |ground| ground.contrast(*ink));
        let faint: Vec<f32> = ends.iter().map(ratio).filter(|&ratio| ratio < 4.5).collect();
        if !faint.is_empty() {
            faults.push(format!("{text} at {area:?}: contrasts of {faint:.2?} to 1"));
        }
    }
    // Beside a line is what it lies on, and here and there another line or the edge of something: of one line's ground, nine tenths must
    // have the contrast on one side or the other.
    for stroke in &lines.strokes {
        let [x, y, width, height] = corner_and_size(stroke.area);
        let upright = height > width;
        let (start, long) = if upright { (y, height) } else { (x, width) };
        let (mut seen, mut faint) = (0, 0);
        for at in along(start, long) {
            let sides = if upright {
                [(x - 0.5, at), (x + width + 0.5, at)]
            } else {
                [(at, y - 0.5), (at, y + height + 0.5)]
            };
            let lined = |(x, y): (f32, f32)| {
                let spot = PixelRect::from_xywh(x - 0.5, y - 0.5, 1.0, 1.0);
                lines.strokes.iter().any(|stroke| overlap(stroke.area, spot))
            };
            let grounds = sides.into_iter().filter(|&side| !lined(side)).filter_map(|(x, y)| drawn.at(x, y));
            let ratios: Vec<f32> = grounds.map(|ground| ground.contrast(stroke.ink)).collect();
            let by_a_tick = lines.ticks.iter().any(|tick| {
                let [left, top, wide, high] = corner_and_size(tick.area());
                let spot = if upright {
                    PixelRect::from_xywh(x, at, width, 1.0)
                } else {
                    PixelRect::from_xywh(at, y, 1.0, height)
                };
                overlap(spot, PixelRect::from_xywh(left - 1.0, top - 1.0, wide + 2.0, high + 2.0))
            });
            if !ratios.is_empty() && !by_a_tick {
                seen += 1;
                faint += usize::from(ratios.iter().all(|&ratio| ratio < 3.0));
            }
        }
        if faint * 10 > seen + 10 {
            faults.push(format!("a line at {:?} is faint in {faint} of {seen}", stroke.area));
        }
    }
    // Round a tick, but for lines: more than a half must have the contrast.
    for tick in &lines.ticks {
        let [x, y, width, height] = corner_and_size(tick.area());
        let level = along(x, width).flat_map(|at| [(at, y), (at, y + height)]);
        let round = level.chain(along(y, height).flat_map(|at| [(x, at), (x + width, at)]));
        let spot = |(x, y): (f32, f32)| PixelRect::from_xywh(x - 0.5, y - 0.5, 1.0, 1.0);
        let is_free = |&place: &(f32, f32)| {
            !lines.strokes.iter().any(|stroke| overlap(stroke.area, spot(place)))
                && !lines.ticks.iter().any(|other| other != tick && overlap(other.area(), spot(place)))
        };
        let grounds = round.filter(is_free).filter_map(|(x, y)| drawn.at(x, y));
        let ratios: Vec<f32> = grounds.map(|ground| ground.contrast(tick.ink)).collect();
        let faint = ratios.iter().filter(|&&ratio| ratio < 3.0).count();
        if !ratios.is_empty() && faint * 2 >= ratios.len() {
            faults.push(format!("a tick at {:?} is faint in {faint} of {}", tick.middle, ratios.len()));
        }
    }
    faults
}

fn faults(scene: &Scene, sheet: &Sheet) -> (Placed, Vec<String>) {
    let mut painter = Painter::default();
    let drawing = painter.draw(scene, &[], sheet);
    let drawn = Drawn {
        width: sheet.width_px as usize,
        height: sheet.height_px as usize,
        pixels: drawing.pixels.to_vec(),
    };
    let mut faults = faults_of_place(&drawing.lines, scene, sheet, drawing.projection);
    faults.extend(faults_of_ink(&drawing.lines, &drawn));
    (drawing.lines, faults)
}

/// So many cases, always the same: contrasts are measured in pixels, where one case in thousands may be off by a fringe.
fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, rng_seed: RngSeed::Fixed(0x71de), ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(cases(600))]

    /// On any wall and any sheet, from the smallest phone to the widest screen: every figure has its own place, and nothing is
    /// lost: each field is either shown or said to be left out.
    #[test]
    fn no_figure_is_over_anything(plan in any_wall(), seen in any_seen(3840)) {
        static JUDGED: Share = Share::percent(90);
        let Some(scene) = placed(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let sheet = seen.sheet(&scene);
        let projection = Projection::fit(&scene, &sheet);
        let lines = overmantel::draw::lines::place(&scene, &sheet, projection);
        prop_assert_eq!(faults_of_place(&lines, &scene, &sheet, projection), Vec::<String>::new());
        let placed = lines.labels.iter().filter_map(|label| label.field);
        let mut shown: Vec<String> = placed.chain(lines.left_out).map(|field| field.to_string()).collect();
        shown.sort();
        let lines = scene.dimensions.iter().filter_map(|line| line.field);
        let mut fields: Vec<String> = lines.map(|field| field.to_string()).collect();
        fields.sort();
        prop_assert_eq!(shown, fields);
    }
}

proptest! {
    #![proptest_config(cases(150))]

    /// Whatever the paint, the floor, the furniture and the light: figures and lines can be read where they stand.
    #[test]
    fn every_figure_can_be_read(plan in any_wall(), seen in any_seen(1200)) {
        static JUDGED: Share = Share::percent(90);
        let Some(scene) = placed(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let sheet = seen.sheet(&scene);
        prop_assert_eq!(faults(&scene, &sheet).1, Vec::<String>::new());
    }
}

/// The demo's plans from a small phone to a wide screen: nothing wrong, and nothing left out.
#[test]
fn the_demo_can_be_read_on_every_screen() {
    for name in ["low-water", "harbour-pair", "three-along-the-stairs", "evening-by-the-lamp"] {
        let scene = placed(&demo(name)).unwrap_or_else(|| panic!("{name} has no answer"));
        for width_css_px in [320, 390, 820, 1440, 3840] {
            for (ratio, dark, height_share) in [(1.0, false, 1.0), (2.0, true, 1.0), (1.0, true, 0.8)] {
                let seen = Seen { width_css_px, ratio, height_share, dark, chosen: None };
                let (lines, faults) = faults(&scene, &seen.sheet(&scene));
                assert_eq!(faults, Vec::<String>::new(), "{name}, {width_css_px} × {ratio}");
                assert_eq!(lines.left_out, Vec::new(), "{name}, {width_css_px} × {ratio}");
            }
        }
    }
}

/// What is chosen is shown wherever anything can be.
#[test]
fn what_is_chosen_comes_first() {
    let mut plan = demo("three-along-the-stairs");
    plan.group.gap = overmantel::length::Length::mm(3);
    let scene = placed(&plan).unwrap_or_else(|| panic!("it has an answer"));
    let fields: Vec<_> = scene.dimensions.iter().filter(|line| line.field.is_some()).collect();
    assert!(fields.len() > 5, "{} lines have a field", fields.len());
    for line in fields {
        let sheet = Sheet { chosen: line.field, ..Sheet::new(320, 320) };
        let projection = Projection::fit(&scene, &sheet);
        let lines = overmantel::draw::lines::place(&scene, &sheet, projection);
        let label = lines.labels.iter().find(|label| label.field == line.field);
        assert_eq!(label.map(|label| label.ink), Some(sheet.theme.red), "{:?}", line.field);
    }
}
