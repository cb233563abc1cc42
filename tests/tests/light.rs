//! One lamp for everything: above, to the left and before the wall.
//!
//! The cosine law (Lambert): light on a surface goes with the cosine of the angle to the lamp. So of a face that falls inwards the
//! foot and the right rail are turned to the lamp, the head and the left rail away from it; of a level one all are alike.

use overmantel::colour::{Colour, decode};
use overmantel::described::Choosable;
use overmantel::draw::{Painter, Sheet, projection::Projection};
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    FaceShape, Finish, Frame, Framing, Lighting, Paper, Piece, Plan, Surface, Surround, Wall,
};
use overmantel::rounding::nearest;
use overmantel::scene::scene;

/// One print of 16 × 16 in a moulding 2 in wide, in the middle of a wall.
fn framed(shape: FaceShape, surface: Surface, light: Lighting) -> Plan {
    let frame = Frame {
        face: Length::inches(2),
        depth: Length::inches(2),
        shape,
        surface,
        colour: Colour::hex(0x80_80_80),
        ..Frame::starting()
    };
    let framing = Framing { frame: Some(frame), ..Framing::NONE };
    let paper = Paper { border: Surround::even(Length::ZERO), framing, ..Paper::starting() };
    let starting = Plan::starting();
    let image = Size::inches(16, 16);
    Plan {
        wall: Wall {
            size: Size::inches(40, 30),
            skirting: Length::ZERO,
            finish: overmantel::plan::WallFinish::Smooth,
            paint: Colour::hex(0xc0_c0_c0),
            floor: starting.wall.floor,
        },
        viewing: overmantel::plan::Viewing { light, eye_level: Length::inches(15), ..starting.viewing },
        fixtures: Vec::new(),
        pieces: vec![Piece { image, finish: Finish::Paper(paper), ..Piece::starting() }],
        group: overmantel::plan::Group {
            across: overmantel::plan::GroupAcross::WallMiddle,
            up: overmantel::plan::GroupUp::EyeLevel,
            ..starting.group
        },
        ..starting
    }
}

struct Drawn {
    width: usize,
    pixels: Vec<u8>,
    projection: Projection,
}

impl Drawn {
    fn of(plan: &Plan) -> Self {
        let figures = Figures::of(plan).unwrap_or_else(|why| panic!("{why}"));
        let sheet = Sheet { lines: false, ..Sheet::new(800, 640) };
        let mut painter = Painter::default();
        let drawing = painter.draw(&scene(plan, &figures), &[], &sheet);
        Self {
            width: sheet.width_px as usize,
            projection: drawing.projection,
            pixels: drawing.pixels.to_vec(),
        }
    }

    /// Mean light of red, green and blue in a square of ten pixels, half an inch, round a place in eighths of an inch to the right
    /// of the middle of the wall and up from it.
    fn light(&self, right: i64, up: i64) -> [f64; 3] {
        let place = |middle: i64, eighths: i64| Length::inches(middle) + Length::inches_ratio(eighths, 8);
        let whole = |pixels: f32| usize::try_from(nearest(f64::from(pixels))).unwrap_or_default();
        let x = whole(self.projection.x(place(20, right)));
        let y = whole(self.projection.y(place(15, up)));
        let mut sum = [0.0; 3];
        for row in y - 5..y + 5 {
            for column in x - 5..x + 5 {
                let at = (row * self.width + column) * 4;
                for (sum, code) in sum.iter_mut().zip(&self.pixels[at..at + 3]) {
                    *sum += f64::from(decode(*code));
                }
            }
        }
        sum.map(|sum| sum / 100.0)
    }

    /// Light in the middle of each rail: left, head, right, foot. Outside 16 + 1/8 + 2 × (2 - 1/4) = 19 5/8 in, so the middles of
    /// the faces are 8 13/16 in off: 70 eighths and a half.
    fn rails(&self) -> [f64; 4] {
        [(-70, 0), (0, 70), (70, 0), (0, -70)].map(|(right, up)| self.light(right, up)[1])
    }
}

#[test]
fn a_level_face_is_lit_alike_on_all_four_rails() {
    let [left, head, right, foot] =
        Drawn::of(&framed(FaceShape::Flat, Surface::Paint, Lighting::Day)).rails();
    for rail in [head, right, foot] {
        assert!((rail - left).abs() < left * 0.04, "{left} {head} {right} {foot}");
    }
}

#[test]
fn a_face_that_falls_inwards_is_lighter_at_the_foot_and_on_the_right() {
    for surface in Surface::all() {
        let drawn = Drawn::of(&framed(FaceShape::Bevelled, surface, Lighting::Day));
        let [left, head, right, foot] = drawn.rails();
        assert!(foot > head * 1.15 && right > left * 1.05, "{surface:?}: {left} {head} {right} {foot}");
        // The lamp stands steeper than it stands aside: the fall of a shadow is 0.7 down to 0.35 across.
        assert!(foot / head > right / left, "{surface:?}");
    }
}

#[test]
fn each_shape_and_each_surface_looks_its_own_and_always_the_same() {
    let mut seen: Vec<Vec<u8>> = Vec::new();
    for shape in FaceShape::all() {
        for surface in Surface::all() {
            let plan = framed(shape, surface, Lighting::Day);
            let pixels = Drawn::of(&plan).pixels;
            assert!(pixels == Drawn::of(&plan).pixels, "{shape:?} {surface:?}");
            assert!(!seen.contains(&pixels), "{shape:?} {surface:?}");
            seen.push(pixels);
        }
    }
}

#[test]
fn the_evening_is_warmer_and_its_shadows_are_deeper() {
    let [day, evening] = [Lighting::Day, Lighting::Evening]
        .map(|light| Drawn::of(&framed(FaceShape::Flat, Surface::Paint, light)));
    // The wall above the frame, 13 in up.
    let ([red, green, blue], plain) = (evening.light(0, 104), day.light(0, 104));
    assert!(red > green && green > blue, "{red} {green} {blue}");
    assert!((plain[0] - plain[2]).abs() < 0.01, "{plain:?}");
    // Below the frame, half an inch from its lower edge, against the wall at the same height beside it.
    let depth = |drawn: &Drawn| drawn.light(0, -83)[1] / drawn.light(-140, -83)[1];
    assert!(depth(&evening) < depth(&day) - 0.05, "{} {}", depth(&evening), depth(&day));
}
