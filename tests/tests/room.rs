//! The room measured: what stands in it fills the size that is stated, and its light does what it should.
//!
//! Each is found in pixels, by what differs from the same room without it. Sheets without lines are filled by the wall across, so
//! that the scale is their width over the wall's.

use overmantel::colour::{Colour, decode};
use overmantel::described::Choosable;
use overmantel::draw::{Painter, Sheet};
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    Across, Finish, Fixture, FixtureKind, Frame, Framing, GroupAcross, GroupUp, Lighting, Paper, Piece, Plan,
    Posture, Wall, WallFinish,
};
use overmantel::scene::scene;

/// A wall of 144 × 96 with one small print at its head, where nothing stands.
fn room(paint: u32, fixtures: &[Fixture]) -> Plan {
    let starting = Plan::starting();
    let framing = Framing { frame: Some(Frame::starting()), ..Framing::NONE };
    let paper = Paper { framing, ..Paper::starting() };
    let print = Piece { image: Size::inches(1, 1), finish: Finish::Paper(paper), ..Piece::starting() };
    Plan {
        wall: Wall {
            paint: Colour::hex(paint),
            floor: Colour::hex(0x80_80_e0),
            skirting: Length::ZERO,
            ..starting.wall
        },
        fixtures: fixtures.to_vec(),
        pieces: vec![print],
        group: overmantel::plan::Group {
            across: GroupAcross::WallMiddle,
            up: GroupUp::CentreAt(Length::inches(94)),
            ..starting.group
        },
        ..starting
    }
}

/// A fixture of a size in inches, its left and its foot in inches from the corner of the wall.
fn fixture(kind: FixtureKind, [width, height]: [i64; 2], [left, foot]: [i64; 2]) -> Fixture {
    Fixture {
        size: Size::inches(width, height),
        across: Across::FromLeft(Length::inches(left)),
        from_floor: Length::inches(foot),
        ..Fixture::starting(kind)
    }
}

struct Drawn {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
    /// Pixels to the inch.
    scale: f64,
    /// The first row of the floor.
    floor: usize,
}

impl Drawn {
    fn of(plan: &Plan, width: u32) -> Self {
        let figures = Figures::of(plan).unwrap_or_else(|why| panic!("{why}"));
        let sheet = Sheet { lines: false, ..Sheet::new(width, width) };
        let mut painter = Painter::default();
        let pixels = painter.draw(&scene(plan, &figures), &[], &sheet).pixels.to_vec();
        let mut drawn = Self {
            width: width as usize,
            height: width as usize,
            pixels,
            scale: f64::from(width) / plan.wall.size.width.to_inches(),
            floor: 0,
        };
        // The floor is blue at the very left, where nothing stands in these tests.
        let is_blue = |row: &usize| {
            drawn.light(1, *row)[2] > 2.0 * drawn.light(1, *row)[0].max(drawn.light(1, *row)[1])
        };
        drawn.floor = (0..drawn.height).find(is_blue).unwrap_or_else(|| panic!("a floor"));
        drawn
    }

    fn code(&self, x: usize, y: usize) -> [f64; 3] {
        let at = (y * self.width + x) * 4;
        [0, 1, 2].map(|channel| f64::from(self.pixels[at + channel]))
    }

    fn light(&self, x: usize, y: usize) -> [f64; 3] {
        let at = (y * self.width + x) * 4;
        [0, 1, 2].map(|channel| f64::from(decode(self.pixels[at + channel])))
    }

    /// Mean light of all channels in a rectangle of the wall, in inches.
    fn mean(&self, [left, right]: [f64; 2], [foot, head]: [f64; 2]) -> f64 {
        let (mut sum, mut count) = (0.0, 0.0);
        for y in whole(self.y(head))..whole(self.y(foot)) {
            for x in whole(left * self.scale)..whole(right * self.scale) {
                sum += self.light(x, y).iter().sum::<f64>() / 3.0;
                count += 1.0;
            }
        }
        sum / count
    }

    /// A height in inches as pixels from the top.
    fn y(&self, inches: f64) -> f64 {
        count(self.floor) - inches * self.scale
    }
}

fn whole(value: f64) -> usize {
    usize::try_from(overmantel::rounding::nearest(value)).unwrap_or_default()
}

fn count(pixels: usize) -> f64 {
    u32::try_from(pixels).map_or(0.0, f64::from)
}

/// Left, top, right and bottom of all pixels for which something holds; the latter two one further on.
fn bounds(drawn: &Drawn, holds: impl Fn(usize, usize) -> bool) -> Option<[f64; 4]> {
    let mut found: Option<[usize; 4]> = None;
    for y in 0..drawn.height {
        for x in 0..drawn.width {
            if holds(x, y) {
                let [left, top, right, bottom] = found.unwrap_or([x, y, x + 1, y + 1]);
                found = Some([left.min(x), top.min(y), right.max(x + 1), bottom.max(y + 1)]);
            }
        }
    }
    found.map(|found| found.map(count))
}

/// Where an edge lies between two pixels of which one is wholly outside and the other wholly inside: what is between them is
/// blended by how much of it is covered.
fn edge(codes: &[[f64; 3]]) -> f64 {
    let (outside, inside) = (codes[0], codes[codes.len() - 1]);
    // The channel that tells the two apart best.
    let channel = (0..3).max_by(|&a, &b| {
        let apart = |channel: usize| (outside[channel] - inside[channel]).abs();
        apart(a).total_cmp(&apart(b))
    });
    let channel = channel.unwrap_or_default();
    codes
        .iter()
        .map(|code| {
            ((code[channel] - inside[channel]) / (outside[channel] - inside[channel])).clamp(0.0, 1.0)
        })
        .sum()
}

#[test]
fn the_sofas_edges_are_where_they_are_stated_to_half_a_pixel() {
    // 84 × 34 from 31 in to 115 in.
    let plan = room(0xd8_30_30, &[fixture(FixtureKind::Sofa, [84, 34], [31, 0])]);
    for width in [1440, 1777, 2400] {
        let drawn = Drawn::of(&plan, width);
        let row = whole(drawn.y(13.0));
        // Six pixels across each edge.
        let left = whole(31.0 * drawn.scale) - 3;
        let found = count(left) + edge(&[0, 1, 2, 3, 4, 5].map(|step| drawn.code(left + step, row)));
        assert!((found - 31.0 * drawn.scale).abs() <= 0.5, "left at {found}, {width}");
        let right = whole(115.0 * drawn.scale) + 2;
        let found = count(right + 1) - edge(&[0, 1, 2, 3, 4, 5].map(|step| drawn.code(right - step, row)));
        assert!((found - 115.0 * drawn.scale).abs() <= 0.5, "right at {found}, {width}");
        let (column, top) = (whole(73.0 * drawn.scale), whole(drawn.y(34.0)) - 3);
        let found = count(top) + edge(&[0, 1, 2, 3, 4, 5].map(|step| drawn.code(column, top + step)));
        assert!((found - drawn.y(34.0)).abs() <= 0.5, "top at {found}, {width}");
    }
}

/// By how much two pixels differ otherwise than by a shadow, which takes the same share of light from every channel and adds none.
fn beyond_shadow(bare: [f64; 3], with: [f64; 3]) -> bool {
    let left: Vec<f64> = bare.iter().zip(with).map(|(bare, with)| (with + 0.004) / (bare + 0.004)).collect();
    let (least, most) =
        left.iter().fold((f64::MAX, 0.0_f64), |(least, most), &share| (least.min(share), most.max(share)));
    most > 1.02 || most - least > 0.09
}

/// A green wall, since nothing that stands there is green like it.
const GREEN: u32 = 0x60_c8_80;

#[test]
fn every_fixture_fills_its_size_and_draws_nothing_beyond_it() {
    let bare = Drawn::of(&room(GREEN, &[]), 1000);
    for kind in FixtureKind::all() {
        let usual = Fixture::starting(kind).size;
        let inches = |length: Length| i64::try_from(whole(length.to_inches().ceil())).unwrap_or(1);
        let foot = if kind == FixtureKind::Window || !(kind.stands_before_wall() || kind == FixtureKind::Door)
        {
            9
        } else {
            0
        };
        for (name, size) in [
            ("usual", [inches(usual.width).min(124), inches(usual.height)]),
            ("tiny", [2, 1]),
            ("huge", [124, 70]),
        ] {
            let plan = room(GREEN, &[fixture(kind, size, [10, foot])]);
            let drawn = Drawn::of(&plan, 1000);
            let [from, head] =
                [10.0 * drawn.scale, drawn.y(f64::from(i32::try_from(size[1] + foot).unwrap_or(0)))];
            let to = from + f64::from(i32::try_from(size[0]).unwrap_or(0)) * drawn.scale;
            let bottom = drawn.y(f64::from(i32::try_from(foot).unwrap_or(0)));
            // Casings of 2 1/2 in stand round doors and windows, with a board below these that is a little wider.
            let casing = match kind {
                FixtureKind::Door => [2.5, 2.5, 0.0],
                FixtureKind::Window => [3.5, 2.5, 2.4],
                _ => [0.0; 3],
            }
            .map(|inches| inches * drawn.scale);
            let expected = [from - casing[0], head - casing[1], to + casing[0], bottom + casing[2]];
            let found = bounds(&drawn, |x, y| beyond_shadow(bare.light(x, y), drawn.light(x, y)));
            let Some(found) = found else { panic!("a {name} {} is not drawn", kind.name()) };
            let what = format!("a {name} {}: {found:.1?} in {expected:.1?}", kind.name());
            let outward = [
                expected[0] - found[0],
                expected[1] - found[1],
                found[2] - expected[2],
                found[3] - expected[3],
            ];
            assert!(outward.iter().all(|&out| out < 1.0), "out of its size: {what}");
            // Points of leaves and rounded corners fade out before they end.
            let spare = if name == "tiny" { 4.0 } else { 2.5 };
            assert!(outward.iter().all(|&out| out > -spare), "short of its size: {what}");
        }
    }
}

#[test]
fn a_figure_is_as_high_as_it_is_stated_and_stands_on_the_floor() {
    for (posture, millimetres) in [(Posture::Standing, 1700.0), (Posture::Seated, 1300.0)] {
        for paint in [0xe8_e4_da, 0x24_2c_34] {
            let mut plan = room(paint, &[]);
            let bare = Drawn::of(&plan, 1200);
            plan.viewing.figure = Some(posture);
            let drawn = Drawn::of(&plan, 1200);
            let differs = |x, y| {
                drawn.code(x, y).iter().zip(bare.code(x, y)).any(|(one, other)| (one - other).abs() > 4.0)
            };
            let Some([left, top, right, bottom]) = bounds(&drawn, differs) else { panic!("a figure") };
            let height = millimetres / 25.4 * drawn.scale;
            assert!(
                (bottom - top - height).abs() <= 1.0,
                "{posture:?}: {} and {height} on paper",
                bottom - top
            );
            assert!((bottom - count(drawn.floor)).abs() <= 1.0, "{posture:?}: feet at {bottom}");
            // A person is between a quarter and half as wide as high, standing or on a stool.
            let share = (right - left) / height;
            assert!((0.2..0.5).contains(&share), "{posture:?}: {share}");
        }
    }
}

/// The shares of light of a plastered wall against a smooth one, pixel by pixel: their mean and their standard deviation.
fn unevenness(width: u32, paint: u32, light: Lighting) -> (f64, f64) {
    let mut plan = room(paint, &[]);
    plan.viewing.light = light;
    let smooth = Drawn::of(&plan, width);
    plan.wall.finish = WallFinish::Plaster;
    let plaster = Drawn::of(&plan, width);
    let mut shares = Vec::new();
    for y in whole(plaster.y(88.0))..whole(plaster.y(8.0)) {
        for x in 2..plaster.width - 2 {
            let sum = |drawn: &Drawn| drawn.light(x, y).iter().sum::<f64>();
            shares.push(sum(&plaster) / sum(&smooth));
        }
    }
    let mean = shares.iter().sum::<f64>() / count(shares.len());
    let square =
        shares.iter().map(|share| (share - mean) * (share - mean)).sum::<f64>() / count(shares.len());
    (mean, square.sqrt())
}

#[test]
fn plaster_is_uneven_by_little_and_not_where_it_is_too_small_to_see() {
    for (paint, light) in
        [(0xb8_b4_a8, Lighting::Day), (0x70_84_78, Lighting::Day), (0xb8_b4_a8, Lighting::Evening)]
    {
        for width in [800, 1600] {
            let (mean, spread) = unevenness(width, paint, light);
            assert!((mean - 1.0).abs() < 0.01, "mean {mean} at {width}");
            assert!((0.006..0.015).contains(&spread), "spread {spread} at {width}");
        }
    }
    let (_, small) = unevenness(120, 0xb8_b4_a8, Lighting::Day);
    let (_, large) = unevenness(1600, 0xb8_b4_a8, Lighting::Day);
    assert!(small < large * 0.6, "{small} on a small sheet, {large} on a large one");
}

#[test]
fn plaster_is_the_same_each_time() {
    let mut plan = room(0xb8_b4_a8, &[]);
    let smooth = Drawn::of(&plan, 500).pixels;
    plan.wall.finish = WallFinish::Plaster;
    let [one, other] = [(), ()].map(|()| Drawn::of(&plan, 500).pixels);
    assert!(one == other, "two painters draw one wall");
    assert!(one != smooth, "plaster is drawn");
}

#[test]
fn outside_a_window_it_is_darker_by_evening_than_its_light_alone_would_make_it() {
    // A window of 36 × 48 from 40 to 76 in, 34 in up: a pane at its upper left, and the door's leaf beside it for comparison.
    let plan = |light| {
        let window = fixture(FixtureKind::Window, [36, 48], [40, 34]);
        let door = fixture(FixtureKind::Door, [30, 80], [100, 0]);
        let mut plan = room(0xb8_b4_a8, &[window, door]);
        plan.viewing.light = light;
        Drawn::of(&plan, 1000)
    };
    let (day, evening) = (plan(Lighting::Day), plan(Lighting::Evening));
    let pane = |drawn: &Drawn| drawn.mean([46.0, 54.0], [64.0, 74.0]);
    let leaf = |drawn: &Drawn| drawn.mean([101.0, 103.0], [50.0, 70.0]);
    assert!(pane(&day) > 0.4, "{}", pane(&day));
    assert!(pane(&evening) < 0.1 * pane(&day), "{} by day, {} by evening", pane(&day), pane(&evening));
    assert!(leaf(&evening) > 0.6 * leaf(&day), "{} by day, {} by evening", leaf(&day), leaf(&evening));
}

#[test]
fn by_evening_a_lamp_is_lit_and_lights_the_wall() {
    // A lamp of 16 × 60 from 40 to 56 in: its shade is the uppermost 11 in of it.
    let plan = |light, fixtures: &[Fixture]| {
        let mut plan = room(0x98_94_88, fixtures);
        plan.viewing.light = light;
        Drawn::of(&plan, 1000)
    };
    let lamp = [fixture(FixtureKind::Lamp, [16, 60], [40, 0])];
    let shade = |drawn: &Drawn| drawn.mean([45.0, 51.0], [51.0, 58.0]);
    let beside = |drawn: &Drawn| drawn.mean([60.0, 66.0], [50.0, 58.0]);
    let far = |drawn: &Drawn| drawn.mean([130.0, 140.0], [50.0, 58.0]);
    let (day, evening, unlit) =
        (plan(Lighting::Day, &lamp), plan(Lighting::Evening, &lamp), plan(Lighting::Evening, &[]));
    assert!(shade(&evening) / far(&evening) > 1.3 * shade(&day) / far(&day), "the shade glows");
    assert!(beside(&evening) > 1.1 * beside(&unlit), "{} {}", beside(&evening), beside(&unlit));
    assert!((far(&evening) / far(&unlit) - 1.0).abs() < 0.01, "not across the whole room");
    // By day it gives no light, but keeps some away.
    assert!(beside(&day) <= beside(&plan(Lighting::Day, &[])) + 1e-6);
}
