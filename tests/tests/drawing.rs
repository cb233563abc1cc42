//! Drawings measured: a ruler laid on the pixels must find the plan's lengths at the drawing's scale.
//!
//! Edges are found by colour along scan lines, and compared with places worked out on paper from the plan and from how much
//! wall the sheet shows; nothing is asked of the layout or of the projection.

use overmantel::colour::Colour;
use overmantel::draw::{LoadedPicture, Painter, Sheet, projection::Projection};
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    Across, Align, Arrangement, Finish, Fixture, FixtureKind, Focus, Frame, Framing, Group, GroupAcross,
    GroupUp, Mat, OpeningRule, Original, Paper, Picture, Piece, Plan, Split, Strips, Surround, Wall,
    WallFinish,
};
use overmantel::resample::{Pyramid, Raster};
use overmantel::scene::{Lane, scene};

/// What the colours of these tests stand for. Light and shadow change how bright a place is, and not which colour it has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Hue {
    Red,
    Green,
    Blue,
    /// More red and green than blue.
    Yellow,
    /// None of them by far.
    Other,
}

fn hue(pixel: &[u8]) -> Hue {
    let [red, green, blue] = [pixel[0], pixel[1], pixel[2]].map(f32::from);
    let above = |one: f32, others: [f32; 2]| others.iter().all(|other| one > 1.6 * other);
    if above(red, [green, blue]) {
        Hue::Red
    } else if above(green, [red, blue]) {
        Hue::Green
    } else if above(blue, [red, green]) {
        Hue::Blue
    } else if red.min(green) > 1.6 * blue {
        Hue::Yellow
    } else {
        Hue::Other
    }
}

/// A finished drawing to be measured.
struct Drawn {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Drawn {
    fn new(plan: &Plan, rasters: &[Raster], sheet: &Sheet) -> Self {
        let figures = Figures::of(plan).unwrap_or_else(|error| panic!("{error}"));
        let copies: Vec<LoadedPicture> = plan
            .pictures
            .iter()
            .zip(rasters)
            .map(|(picture, raster)| LoadedPicture {
                pyramid: Pyramid::of(raster.clone()),
                file_width_px: picture.width_px,
                file_height_px: picture.height_px,
                revision: 1,
            })
            .collect();
        let copies: Vec<Option<&LoadedPicture>> = copies.iter().map(Some).collect();
        let mut painter = Painter::default();
        let pixels = painter.draw(&scene(plan, &figures), &copies, sheet).pixels.to_vec();
        Self { width: sheet.width_px as usize, height: sheet.height_px as usize, pixels }
    }

    fn row(&self, y: usize) -> Vec<Hue> {
        self.pixels[y * self.width * 4..][..self.width * 4].chunks_exact(4).map(hue).collect()
    }

    fn column(&self, x: usize) -> Vec<Hue> {
        (0..self.height).map(|y| hue(&self.pixels[(y * self.width + x) * 4..])).collect()
    }
}

/// Every run of one hue along a scan line: from which pixel, and up to before which. Runs of a pixel or two are transitions.
fn runs(line: &[Hue], wanted: Hue) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    let mut at = 0.0;
    for run in line.chunk_by(PartialEq::eq) {
        let length = run.iter().map(|_| 1.0).sum::<f64>();
        if run[0] == wanted && length > 2.0 {
            found.push((at, at + length));
        }
        at += length;
    }
    found
}

#[track_caller]
fn assert_near(slack: f64, found: f64, expected: f64, what: &str) {
    // Drawings count in single precision: a thousandth of a pixel is nothing to speak of.
    assert!((found - expected).abs() <= slack + 0.001, "{what}: at {found}, and {expected:.2} on paper");
}

#[track_caller]
fn assert_within_half_a_pixel(found: f64, expected: f64, what: &str) {
    assert_near(0.5, found, expected, what);
}

const RED: Colour = Colour::hex(0xc8_20_20);
const GREEN: Colour = Colour::hex(0x20_a0_38);
const YELLOW: Colour = Colour::hex(0xd8_b4_30);

fn wall(width: i64, height: i64) -> Wall {
    Wall {
        size: Size::inches(width, height),
        paint: YELLOW,
        floor: Colour::hex(0x28_28_c0),
        skirting: Length::ZERO,
        finish: WallFinish::Smooth,
    }
}

fn raster(width: u32, height: u32, colour: impl Fn(u32, u32) -> Colour) -> Raster {
    let mut pixels = Vec::new();
    for y in 0..height {
        for x in 0..width {
            let Colour { red, green, blue } = colour(x, y);
            pixels.extend([red, green, blue, 255]);
        }
    }
    Raster::new(width, height, pixels).unwrap_or_else(|| panic!("{width} × {height}"))
}

fn picture(width_px: u32, height_px: u32) -> Picture {
    Picture { name: "bands".to_owned(), file: "bands.png".to_owned(), width_px, height_px, subject: None }
}

/// Three blue pictures of 12 x 16 in green mats with borders of 3 in and red frames of 1 in, on a yellow wall of 120 x 90 over a sofa.
///
/// On paper: opening 12 x 16 (overlap 0), board 18 x 22, no allowance and no lip, so sight 18 x 22 and outside 20 x 24. With gaps
/// of 4 in the row is 68 in wide, from 26 to 94; from the floor 30 + 10 = 40 to 64 in.
fn framed_row() -> Plan {
    let mat = Mat {
        opening: OpeningRule::Overlap(Length::ZERO),
        surround: Surround::even(Length::inches(3)),
        colour: GREEN,
        ..Mat::starting()
    };
    let frame = Frame {
        face: Length::inches(1),
        rabbet_width: Length::ZERO,
        allowance: Length::ZERO,
        colour: RED,
        ..Frame::starting()
    };
    let framing = Framing { mat: Some(mat), frame: Some(frame), ..Framing::NONE };
    let paper = Paper { framing, ..Paper::starting() };
    let piece = Piece {
        picture: Some(0),
        focus: Focus::MIDDLE,
        image: Size::inches(12, 16),
        finish: Finish::Paper(paper),
    };
    let sofa = Fixture {
        size: Size::inches(80, 30),
        across: Across::Middle,
        ..Fixture::starting(FixtureKind::Sofa)
    };
    Plan {
        wall: wall(120, 90),
        fixtures: vec![sofa],
        pictures: vec![picture(1200, 1600)],
        pieces: vec![piece; 3],
        split: None,
        group: Group {
            arrangement: Arrangement::Row,
            gap: Length::inches(4),
            align: Align::Centre,
            across: GroupAcross::WallMiddle,
            up: GroupUp::Above { fixture: 0, clearance: Length::inches(10) },
        },
        ..Plan::starting()
    }
}

fn bare_sheet(width: u32, height: u32, pixel_ratio: f32) -> Sheet {
    Sheet { lines: false, pixel_ratio, ..Sheet::new(width, height) }
}

#[test]
fn a_drawing_is_true_to_scale() {
    let plan = framed_row();
    let blue = raster(120, 160, |_, _| Colour::hex(0x18_18_d0));
    for (width, height, ratio) in [
        (600, 600, 1.0),
        (1187, 1000, 1.0),
        (409, 600, 1.0),
        (1200, 900, 2.0),
        (777, 611, 1.0),
        (1600, 640, 1.0),
        (333, 700, 1.5),
        (2401, 1999, 3.0),
    ] {
        let drawn = Drawn::new(&plan, std::slice::from_ref(&blue), &bare_sheet(width, height, ratio));
        // The wall by its paint along the top of the room, the floor by its own colour beside the furniture.
        let column = drawn.column(drawn.width / 2);
        let top = runs(&column, Hue::Yellow)[0].0;
        let high_up = drawn.row(column.iter().position(|&hue| hue == Hue::Yellow).unwrap_or_default() + 4);
        let [(left, right)] = runs(&high_up, Hue::Yellow)[..] else {
            panic!("a wall at {width} × {height}")
        };
        let corner = high_up.iter().position(|&hue| hue == Hue::Yellow).unwrap_or_default() + 2;
        let floor = runs(&drawn.column(corner), Hue::Blue)[0].0;
        let scale = (right - left) / 120.0;
        assert_near(1.0, floor - top, 90.0 * scale, "height of the wall");
        // Whole pixels of the wall's ends are known to half of one; so is the scale.
        let fills_width = (left, right) == (0.0, f64::from(width));
        assert!(fills_width || top <= 1.0, "the wall fills the sheet one way, {width} × {height}");
        // Half a pixel, and what the scale is not known by: nothing where the sheet's own width gives it.
        let slack = if fills_width { 0.5 } else { 1.0 };
        let x = |inches: f64| left + inches * scale;
        let y = |inches: f64| floor - inches * scale;

        // Across the middles of the pieces, 52 in up.
        let line = drawn.row(whole(y(52.0)));
        let (frames, mats, images) = (runs(&line, Hue::Red), runs(&line, Hue::Green), runs(&line, Hue::Blue));
        assert_eq!((frames.len(), mats.len(), images.len()), (6, 6, 3), "{width} × {height}");
        for (index, from) in [26.0, 50.0, 74.0].into_iter().enumerate() {
            let [one, other] = [frames[index * 2], frames[index * 2 + 1]];
            assert_near(slack, one.0, x(from), "outer edge on the left");
            assert_near(slack, one.1, x(from + 1.0), "sight edge on the left");
            assert_near(slack, other.0, x(from + 19.0), "sight edge on the right");
            assert_near(slack, other.1, x(from + 20.0), "outer edge on the right");
            assert_near(slack, images[index].0, x(from + 4.0), "opening on the left");
            assert_near(slack, images[index].1, x(from + 16.0), "opening on the right");
        }
        let gaps = [frames[2].0 - frames[1].1, frames[4].0 - frames[3].1];
        assert!((gaps[0] - gaps[1]).abs() <= 1.0, "equal gaps: {gaps:?}");
        let widths = [0, 2, 4].map(|index| frames[index + 1].1 - frames[index].0);
        assert!(widths.iter().all(|width| (width - widths[0]).abs() <= 1.0), "equal pieces: {widths:?}");

        // Up the middle of the piece in the middle, 60 in along, and down to the sofa.
        let line = drawn.column(whole(x(60.0)));
        let (frames, images) = (runs(&line, Hue::Red), runs(&line, Hue::Blue));
        assert_near(slack, frames[0].0, y(64.0), "upper edge");
        assert_near(slack, frames[0].1, y(63.0), "sight edge at the head");
        assert_near(slack, images[0].0, y(60.0), "opening at the head");
        assert_near(slack, images[0].1, y(44.0), "opening at the bottom");
        assert_near(slack, frames[1].1, y(40.0), "lower edge");
        // The sofa is cloth, of none of the colours here; between two pieces only the wall is above it.
        let cloth = runs(&drawn.column(whole(x(48.0))), Hue::Other);
        let back = cloth.iter().find(|run| run.0 > top + 2.0).map_or(0.0, |run| run.0);
        assert_near(slack, back, y(30.0), "top of the sofa");
        let line = drawn.row(whole(y(14.0)));
        let mut cloth = runs(&line, Hue::Other);
        // The sheet beside the wall is of no colour either.
        cloth.retain(|run| run.0 > left && run.1 < right);
        assert_near(slack, cloth.first().map_or(0.0, |run| run.0), x(20.0), "left end of the sofa");
        assert_near(slack, cloth.last().map_or(0.0, |run| run.1), x(100.0), "right end of the sofa");
    }
}

/// How often a line comes upon a hue.
fn times(line: &[Hue], wanted: Hue) -> usize {
    line.chunk_by(PartialEq::eq).filter(|run| run[0] == wanted).count()
}

/// Rails of 1 in, drawn at half a pixel and more to the inch.
#[test]
fn a_frame_is_seen_on_all_four_sides_however_small_it_is_drawn() {
    let plan = framed_row();
    let picture = raster(120, 160, |_, _| Colour::hex(0x18_18_d0));
    for width in 70..=190 {
        let drawn = Drawn::new(&plan, std::slice::from_ref(&picture), &bare_sheet(width, width, 1.0));
        let rows: Vec<usize> = (0..drawn.height).filter(|&y| times(&drawn.row(y), Hue::Red) > 0).collect();
        let (first, last) = (rows[0], rows[rows.len() - 1]);
        let middle = drawn.row(usize::midpoint(first, last));
        assert_eq!(times(&middle, Hue::Red), 6, "two uprights for each of the three, {width} px");
        let blue: Vec<usize> = (0..drawn.width).filter(|&x| middle[x] == Hue::Blue).collect();
        assert!(blue.len() >= 6, "the pictures are seen, {width} px");
        for x in blue {
            assert_eq!(times(&drawn.column(x), Hue::Red), 2, "head and foot at {x}, {width} px");
        }
    }
}

fn whole(value: f64) -> usize {
    usize::try_from(overmantel::rounding::nearest(value)).unwrap_or_default()
}

/// Three originals of this size in a row in the middle of a wall of 120 x 90, over one picture: bare, so that nothing lies over its colours.
fn panels(px: (u32, u32), panel: Size, gap: i64, strips: Strips) -> Plan {
    let bare = Finish::Original(Original::starting());
    let piece = Piece { picture: None, focus: Focus::MIDDLE, image: panel, finish: bare };
    Plan {
        wall: wall(120, 90),
        fixtures: Vec::new(),
        pictures: vec![picture(px.0, px.1)],
        pieces: vec![piece; 3],
        split: Some(Split { picture: 0, focus: Focus::MIDDLE, strips }),
        group: Group {
            arrangement: Arrangement::Row,
            gap: Length::inches(gap),
            align: Align::Centre,
            across: GroupAcross::WallMiddle,
            up: GroupUp::CentreAt(Length::inches(45)),
        },
        ..Plan::starting()
    }
}

/// A picture of four upright bands, red, blue, green, blue, over three panels of 20 in. With gaps of 2 in and hidden strips it is
/// 64 in wide, so that its bands end at 16, 32 and 48 in: in the panels at 16, at 10 and at 4 in. With nothing hidden it is 60 in wide:
/// at 15, at 10 and at 5 in. Worked out on paper.
#[test]
fn a_split_picture_is_cut_where_it_should_be() {
    let check = |px, strips, ends: [f64; 3]| {
        let plan = panels(px, Size::inches(20, 24), 2, strips);
        let bands = [RED, Colour::hex(0x18_18_d0), GREEN, Colour::hex(0x18_18_d0)];
        let painted = raster(640, 240, |x, _| bands[x as usize / 160]);
        // 10 pixels to the inch, so the wall fills the sheet across.
        let drawn = Drawn::new(&plan, &[painted], &bare_sheet(1200, 1000, 1.0));
        let floor = runs(&drawn.column(5), Hue::Blue)[0].0;
        let line = drawn.row(whole(floor - 450.0));
        // The row is 64 in wide, in the middle of 120: panels at 28, 50 and 72 in.
        let from = [280.0, 500.0, 720.0];
        let (reds, greens) = (runs(&line, Hue::Red), runs(&line, Hue::Green));
        let ([red], [green_in_the_second, green_in_the_third]) = (&reds[..], &greens[..]) else {
            panic!("red {reds:?}, green {greens:?}")
        };
        assert_within_half_a_pixel(red.0, from[0], "the first panel begins red");
        assert_within_half_a_pixel(red.1, from[0] + ends[0] * 10.0, "end of the red band");
        assert_within_half_a_pixel(green_in_the_second.0, from[1] + ends[1] * 10.0, "end of the blue band");
        assert_within_half_a_pixel(green_in_the_second.1, from[1] + 200.0, "the second panel ends green");
        assert_within_half_a_pixel(green_in_the_third.0, from[2], "the third panel begins green");
        assert_within_half_a_pixel(green_in_the_third.1, from[2] + ends[2] * 10.0, "end of the green band");
    };
    check((6400, 2400), Strips::Hidden, [16.0, 10.0, 4.0]);
    check((6000, 2400), Strips::Kept, [15.0, 10.0, 5.0]);
}

/// A picture whose upper third is red and whose rest is blue, on a square of 30 in from 30 to 60 in up: red down to 50 in. And a
/// picture twice as wide as high, its left half red: with the focus at an end the square shows one half alone.
#[test]
fn a_crop_is_the_right_way_up_and_keeps_its_focus() {
    let blue = Colour::hex(0x18_18_d0);
    let plan = |px, x_permille| {
        let mut plan = panels(px, Size::inches(30, 30), 0, Strips::Kept);
        plan.split = None;
        plan.pieces.truncate(1);
        plan.pieces[0].picture = Some(0);
        plan.pieces[0].focus = Focus { x_permille, y_permille: 500 };
        plan
    };
    let sheet = bare_sheet(1200, 1000, 1.0);
    let drawn = Drawn::new(
        &plan((900, 900), 500),
        &[raster(300, 300, |_, y| if y < 100 { RED } else { blue })],
        &sheet,
    );
    let floor = runs(&drawn.column(5), Hue::Blue)[0].0;
    let line = drawn.column(600);
    let red = runs(&line, Hue::Red);
    assert_within_half_a_pixel(red[0].0, floor - 600.0, "red at the head");
    assert_within_half_a_pixel(red[0].1, floor - 500.0, "a third of 30 in below");
    assert_within_half_a_pixel(runs(&line, Hue::Blue)[0].1, floor - 300.0, "blue to the foot");

    let halves = |x: u32, _| if x < 300 { RED } else { blue };
    for (x_permille, end_of_red) in [(0, 750.0), (500, 600.0), (400, 660.0), (1000, 450.0)] {
        let drawn = Drawn::new(&plan((1800, 900), x_permille), &[raster(600, 300, halves)], &sheet);
        let line = drawn.row(whole(floor - 450.0));
        let (reds, blues) = (runs(&line, Hue::Red), runs(&line, Hue::Blue));
        let red = reds.first().map_or(450.0, |run| run.1);
        assert_within_half_a_pixel(red, end_of_red, "end of the red half");
        let shown = reds.len() + blues.len();
        assert_eq!(shown, if x_permille == 0 || x_permille == 1000 { 1 } else { 2 }, "{x_permille}");
    }
}

/// A plan from elsewhere may say that 10 m of picture hang on 1 cm of wall: at the drawing's scale each piece would have 4 GB of
/// pixels. It is toned where the sheet shows it, and the drawing is done.
#[test]
fn a_piece_far_larger_than_its_wall_is_toned() {
    let mut plan = panels((900, 900), Size::new(Length::mm(10_000), Length::mm(10_000)), 0, Strips::Kept);
    plan.wall.size = Size::new(Length::mm(10), Length::mm(10));
    plan.group.up = GroupUp::CentreAt(Length::mm(5));
    let red = raster(30, 30, |_, _| RED);
    let drawn = Drawn::new(&plan, std::slice::from_ref(&red), &bare_sheet(400, 300, 1.0));
    let middle = &drawn.pixels[(150 * 400 + 200) * 4..][..4];
    assert_eq!(middle, [0xc8, 0xc4, 0xb8, 0xff]);
    // Three times as wide as the wall, a piece is drawn as ever.
    let mut plan = panels((900, 900), Size::inches(300, 60), 0, Strips::Kept);
    plan.pieces.truncate(1);
    let drawn = Drawn::new(&plan, &[red], &bare_sheet(400, 300, 1.0));
    assert_eq!(runs(&drawn.row(150), Hue::Red), [(0.0, 400.0)]);
}

/// However the group hangs, the scale is the same: while it is dragged its lines come and go.
#[test]
fn the_scale_stays_wherever_the_group_is_dragged() {
    let mut plan = framed_row();
    let sheet = Sheet::new(900, 700);
    let mut projections = Vec::new();
    let above = GroupUp::Above { fixture: 0, clearance: Length::inches(8) };
    for up in [above, GroupUp::EyeLevel, GroupUp::CentreAt(Length::inches(70))] {
        plan.group.up = up;
        let figures = Figures::of(&plan).unwrap_or_else(|error| panic!("{error}"));
        let scene = scene(&plan, &figures);
        let below = scene.dimensions.iter().filter(|line| matches!(line.lane, Lane::Below(1))).count();
        assert_eq!(below, usize::from(up == above), "the line of the sofa belongs to the clearance");
        projections.push(Projection::fit(&scene, &sheet));
    }
    assert!(projections.iter().all(|one| *one == projections[0]), "{projections:?}");
}

/// A page hands over only what a drawing says that it changed: everywhere else the drawing before must stand already.
#[test]
fn a_drawing_says_all_that_it_changed() {
    let blue = raster(120, 160, |_, _| Colour::hex(0x18_18_d0));
    let mut plan = framed_row();
    let copy =
        LoadedPicture { pyramid: Pyramid::of(blue), file_width_px: 1200, file_height_px: 1600, revision: 1 };
    let mut painter = Painter::default();
    let mut draw = |plan: &Plan, in_motion: bool| {
        let figures = Figures::of(plan).unwrap_or_else(|error| panic!("{error}"));
        let sheet = Sheet { in_motion, ..Sheet::new(900, 700) };
        let drawing = painter.draw(&scene(plan, &figures), &[Some(&copy)], &sheet);
        (drawing.pixels.to_vec(), drawing.changed)
    };
    plan.group.up = GroupUp::CentreAt(Length::inches(50));
    plan.group.across = GroupAcross::CentreAt(Length::inches(55));
    let (mut before, changed) = draw(&plan, false);
    assert_eq!(changed, None, "a first drawing is new everywhere");
    for step in 1_i64..9 {
        plan.group.up = GroupUp::CentreAt(Length::inches(50 + step % 3));
        plan.group.across = GroupAcross::CentreAt(Length::inches_ratio(440 + 13 * step, 8));
        let (after, changed) = draw(&plan, step % 2 == 0);
        let changed = changed.unwrap_or_else(|| panic!("only pieces and lines moved"));
        let mut same = 0_u32;
        for (index, (one, other)) in before.chunks_exact(4).zip(after.chunks_exact(4)).enumerate() {
            let at = |index: usize| f32::from(u16::try_from(index).unwrap_or(u16::MAX));
            let (x, y) = (at(index % 900), at(index / 900));
            let within = changed
                .iter()
                .any(|area| (area.left..area.right).contains(&x) && (area.top..area.bottom).contains(&y));
            assert!(within || one == other, "the pixel at {x}, {y} changed unsaid in step {step}");
            same += u32::from(!within);
        }
        assert!(same > 900 * 700 / 5, "much of the wall stays as it is: {same} pixels in step {step}");
        before = after;
    }
}
