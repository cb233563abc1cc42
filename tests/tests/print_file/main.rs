//! Print-ready pictures, pixel by pixel, against another library's crops and flips; sizes worked out on paper.

use image::imageops::{crop_imm, flip_horizontal, flip_vertical, replace};
use image::{ImageBuffer, Luma, Rgb, RgbImage};
use overmantel::colour::Colour;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    Aluminium, Canvas, Edge, Finish, Focus, Paper, Picture, Piece, Plan, Strips, Surround, Weighting,
};
use overmantel::print::PixelCrop;
use overmantel::print_file::{Form, PrintWish, Recipe, Rows, Taken};

mod bleed;
mod files;
mod resolution;
mod scaled;
mod sums;

const WHITE: Colour = Colour::hex(0xff_ff_ff);

/// A plan of one piece that shows a picture of so many pixels, its focus in the middle.
pub(crate) fn plan(picture_px: (u32, u32), image: Size, finish: Finish) -> Plan {
    let mut plan = Plan::starting();
    plan.pictures = vec![Picture {
        name: "Low water".into(),
        file: "low-water.png".into(),
        width_px: picture_px.0,
        height_px: picture_px.1,
        subject: None,
    }];
    plan.split = None;
    plan.pieces = vec![Piece { picture: Some(0), focus: Focus::MIDDLE, image, finish }];
    plan
}

pub(crate) fn paper(border: Surround) -> Finish {
    let mut piece = Piece::starting();
    let framing = piece.finish.framing_mut().expect("a print on paper");
    framing.mat = None;
    match piece.finish {
        Finish::Paper(paper) => Finish::Paper(Paper { border, ..paper }),
        other => other,
    }
}

pub(crate) fn canvas(depth: Length, edge: Edge) -> Finish {
    Finish::Canvas(Canvas { depth, edge, floater: None, ..Canvas::starting() })
}

pub(crate) fn recipe(plan: &Plan, piece: usize, wish: PrintWish) -> Result<Recipe, String> {
    Recipe::of(plan, &Figures::of(plan).expect("figures"), piece, wish).map_err(|why| why.to_string())
}

/// The whole file, its rows in one.
pub(crate) fn made(recipe: &Recipe, form: Form, pixels: &[u8], colour: Colour) -> Vec<u8> {
    let (mut rows, mut file) = (Rows::new(recipe, form, &form.pixel(colour)), Vec::new());
    let stride = recipe.picture_px.0 as usize * form.bytes();
    for row in rows.needed() {
        let row = &pixels[row as usize * stride..][..stride];
        rows.take(row, &mut |row| {
            assert_eq!(row.len(), recipe.size_px().0 as usize * form.bytes());
            file.extend_from_slice(row);
        });
    }
    assert_eq!(file.len(), recipe.size_px().0 as usize * recipe.size_px().1 as usize * form.bytes());
    file
}

/// A picture in which no pixel is like another.
pub(crate) fn picture((width, height): (u32, u32)) -> RgbImage {
    let byte = |value: u32| u8::try_from(value % 256).expect("a byte");
    RgbImage::from_fn(width, height, |x, y| Rgb([byte(x), byte(y), byte(x / 256 + y / 256 * 16)]))
}

fn file(recipe: &Recipe, picture: &RgbImage, colour: Colour) -> RgbImage {
    let pixels = made(recipe, Form::RGB, picture.as_raw(), colour);
    RgbImage::from_raw(recipe.size_px().0, recipe.size_px().1, pixels).expect("all of its pixels")
}

/// A picture with its mirror images on all sides, as far as the canvas of this size shows them.
fn mirrored(face: &RgbImage, (left, top): (i64, i64), size: (u32, u32)) -> RgbImage {
    let mut canvas = RgbImage::new(size.0, size.1);
    let (width, height) = (i64::from(face.width()), i64::from(face.height()));
    for across in -1..=1 {
        for down in -1..=1 {
            let part = if across == 0 { face.clone() } else { flip_horizontal(face) };
            let part = if down == 0 { part } else { flip_vertical(&part) };
            replace(&mut canvas, &part, left + across * width, top + down * height);
        }
    }
    canvas
}

fn crop(picture: &RgbImage, [left, top, width, height]: [u32; 4]) -> RgbImage {
    crop_imm(picture, left, top, width, height).to_image()
}

/// 400 × 600 px in 16 × 20 in is 25 px/in; 20 in are 500 px, so 50 px are lost at head and foot each.
#[test]
fn on_paper_no_pixel_is_changed() {
    let plan = plan((400, 600), Size::inches(16, 20), paper(Surround::even(Length::ZERO)));
    let recipe = recipe(&plan, 0, PrintWish::default()).expect("a recipe");
    let whole = picture((400, 600));
    assert_eq!(recipe.taken, Taken::Pixels(PixelCrop { left: 0, top: 50, width: 400, height: 500 }));
    assert!(file(&recipe, &whole, WHITE) == crop(&whole, [0, 50, 400, 500]));
    assert_eq!((recipe.pixels_to(Length::inches(1)), recipe.pixels_to(Length::mm(1000))), (25, 984));
    assert_eq!(recipe.size, Size::inches(16, 20));
}

/// A border of 1 in and 1 1/2 in at the foot is 25 and 37 1/2 px; a bleed of 1/8 in goes from 28 1/8 and 40 5/8 px: 28 - 25 = 3
/// and 41 - 38 = 3.
#[test]
fn a_white_border_goes_on_into_the_bleed() {
    let border = Surround {
        weighting: Weighting::Extra(Length::inches_ratio(1, 2)),
        ..Surround::even(Length::inches(1))
    };
    let plan = plan((400, 600), Size::inches(16, 20), paper(border));
    let bleed = Length::inches_ratio(1, 8);
    let recipe = recipe(&plan, 0, PrintWish { bleed, ..PrintWish::default() }).expect("a recipe");
    let whole = picture((400, 600));
    let mut expected = RgbImage::from_pixel(400 + 2 * 28, 500 + 28 + 41, Rgb([255; 3]));
    replace(&mut expected, &crop(&whole, [0, 50, 400, 500]), 28, 28);
    assert!(file(&recipe, &whole, WHITE) == expected);
    let sides = [recipe.margins.left, recipe.margins.top, recipe.margins.right, recipe.margins.bottom];
    assert_eq!(sides.map(|side| (side.band_px, side.bleed_px)), [(25, 3), (25, 3), (25, 3), (38, 3)]);
    assert_eq!(recipe.trimmed, Size::new(Length::inches(18), Length::inches_ratio(45, 2)));
    let without = PrintWish { has_border: false, ..PrintWish::default() };
    assert_eq!(super_size(&plan, without), (400, 500), "the border is left to the shop");
}

fn super_size(plan: &Plan, wish: PrintWish) -> (u32, u32) {
    recipe(plan, 0, wish).expect("a recipe").size_px()
}

/// A face of 40 × 50 cm from 400 × 500 px is 10 px/cm: an edge of 38 mm is 38 px, with 3 mm more 41.
#[test]
fn mirrored_edges_are_the_face_turned_over() {
    let plan =
        plan((400, 500), Size::new(Length::mm(400), Length::mm(500)), canvas(Length::mm(38), Edge::Mirrored));
    let whole = picture((400, 500));
    for (bleed, margin) in [(0, 38), (3, 41)] {
        let wish = PrintWish { bleed: Length::mm(bleed), ..PrintWish::default() };
        let recipe = recipe(&plan, 0, wish).expect("a recipe");
        let size = (400 + 2 * margin, 500 + 2 * margin);
        let expected = mirrored(&whole, (margin.into(), margin.into()), size);
        assert!(file(&recipe, &whole, WHITE) == expected, "a bleed of {bleed} mm");
        assert_eq!(recipe.band, "edge");
    }
}

/// With a face of 20 × 24 cm and edges of 50 mm carried round, 300 × 340 mm are printed: 300 × 340 px. The picture has 400 × 340 px, so
/// 50 px are lost on each side. The bleed of 10 mm is of those at the sides, and in mirror image at top and bottom, where the file ends.
#[test]
fn carried_edges_are_the_picture_itself() {
    let plan =
        plan((400, 340), Size::new(Length::mm(200), Length::mm(240)), canvas(Length::mm(50), Edge::Carried));
    let whole = picture((400, 340));
    let printed = crop(&whole, [50, 0, 300, 340]);
    let plain = recipe(&plan, 0, PrintWish::default()).expect("a recipe");
    assert!(file(&plain, &whole, WHITE) == printed);
    let bled =
        recipe(&plan, 0, PrintWish { bleed: Length::mm(10), ..PrintWish::default() }).expect("a recipe");
    assert!(file(&bled, &whole, WHITE) == mirrored(&crop(&whole, [40, 0, 320, 340]), (0, 10), (320, 360)));
}

#[test]
fn plain_edges_have_their_colour() {
    let edge = Colour::hex(0x3f_5a_57);
    let plan = plan(
        (200, 250),
        Size::new(Length::mm(400), Length::mm(500)),
        canvas(Length::mm(20), Edge::Plain(edge)),
    );
    let whole = picture((200, 250));
    let recipe =
        recipe(&plan, 0, PrintWish { bleed: Length::mm(4), ..PrintWish::default() }).expect("a recipe");
    assert_eq!(recipe.colour(), Some(edge));
    // 5 px/cm: 24 mm are 12 px.
    let mut expected = RgbImage::from_pixel(224, 274, Rgb([0x3f, 0x5a, 0x57]));
    replace(&mut expected, &whole, 12, 12);
    assert!(file(&recipe, &whole, edge) == expected);
}

#[test]
fn aluminium_bleeds_in_mirror_image() {
    let sheet = Finish::Aluminium(Aluminium::starting());
    let plan = plan((300, 300), Size::new(Length::mm(300), Length::mm(300)), sheet);
    let whole = picture((300, 300));
    let recipe =
        recipe(&plan, 0, PrintWish { bleed: Length::mm(5), ..PrintWish::default() }).expect("a recipe");
    assert!(file(&recipe, &whole, WHITE) == mirrored(&whole, (5, 5), (310, 310)));
    assert_eq!(recipe.band, "");
}

/// An edge that is deeper than the face shows it there and back: 3 px and an edge of 7 px are c b a | a b c | c b a a b c c from the left edge
/// inwards, and so on.
#[test]
fn an_edge_deeper_than_the_face_goes_there_and_back() {
    let plan =
        plan((3, 3), Size::new(Length::mm(30), Length::mm(30)), canvas(Length::mm(70), Edge::Mirrored));
    let recipe = recipe(&plan, 0, PrintWish::default()).expect("a recipe");
    let grey = Form { is_coloured: false, is_wide: false };
    let found = made(&recipe, grey, &[1, 2, 3, 4, 5, 6, 7, 8, 9], WHITE);
    let across = [1, 1, 2, 3, 3, 2, 1, 1, 2, 3, 3, 2, 1, 1, 2, 3, 3];
    let down = [0, 0, 3, 6, 6, 3, 0, 0, 3, 6, 6, 3, 0, 0, 3, 6, 6];
    let expected: Vec<u8> = down.iter().flat_map(|&down| across.map(|across| across + down)).collect();
    assert_eq!(found, expected);
}

/// Grey and sixteen bits go the same way as colours of eight: here by the library's own buffers of sixteen bits.
#[test]
fn sixteen_bits_of_grey_are_kept() {
    let plan =
        plan((40, 50), Size::new(Length::mm(400), Length::mm(500)), canvas(Length::mm(60), Edge::Mirrored));
    let recipe = recipe(&plan, 0, PrintWish::default()).expect("a recipe");
    let sample = |x: u32, y: u32| u16::try_from(x * 1000 + y * 7).expect("16 bits");
    let whole = ImageBuffer::<Luma<u16>, Vec<u16>>::from_fn(40, 50, |x, y| Luma([sample(x, y)]));
    let pixels: Vec<u8> = whole.as_raw().iter().flat_map(|value| value.to_be_bytes()).collect();
    let found = made(&recipe, Form { is_coloured: false, is_wide: true }, &pixels, WHITE);
    let mut expected = ImageBuffer::<Luma<u16>, Vec<u16>>::new(52, 62);
    for (across, down) in (-1..=1).flat_map(|across| (-1..=1).map(move |down| (across, down))) {
        let part = if across == 0 { whole.clone() } else { flip_horizontal(&whole) };
        let part = if down == 0 { part } else { flip_vertical(&part) };
        replace(&mut expected, &part, 6 + across * 40, 6 + down * 50);
    }
    let expected: Vec<u8> = expected.as_raw().iter().flat_map(|value| value.to_be_bytes()).collect();
    assert!(found == expected);
}

/// Three panels of 20 in with gaps of 2 in over one picture: 64 in. 640 × 200 px is 10 px/in: panels of 200 px from 0, 220 and 440;
/// kept together they are 60 in, 10 2/3 px/in, and 213 1/3 px from 0, 213 1/3 and 426 2/3, of a height of 213 1/3 px.
#[test]
fn panels_of_one_picture_go_on_in_each_other() {
    let mut triptych = Plan::starting();
    let starting = plan((640, 200), Size::inches(20, 20), Finish::Aluminium(Aluminium::starting()));
    triptych.pictures = starting.pictures.clone();
    triptych.pieces = vec![starting.pieces[0].clone(); 3];
    triptych.group.gap = Length::inches(2);
    let split = |strips| Some(overmantel::plan::Split { picture: 0, focus: Focus::MIDDLE, strips });
    triptych.split = split(Strips::Hidden);
    let whole = picture((640, 200));
    for (piece, left) in [0, 220, 440].into_iter().enumerate() {
        let recipe = recipe(&triptych, piece, PrintWish::default()).expect("a recipe");
        assert!(file(&recipe, &whole, WHITE) == crop(&whole, [left, 0, 200, 200]), "panel {piece}");
    }
    triptych.split = split(Strips::Kept);
    (triptych.pictures[0].width_px, triptych.pictures[0].height_px) = (640, 300);
    let whole = picture((640, 300));
    // 213 px, with their middles where they were: the second from 213 1/2 (a half goes up), the third from 426 5/6. Of the height, 43 1/3 px
    // are above and the middle is at 150: from 43 1/2.
    for (piece, left) in [0, 214, 427].into_iter().enumerate() {
        let recipe = recipe(&triptych, piece, PrintWish::default()).expect("a recipe");
        assert!(file(&recipe, &whole, WHITE) == crop(&whole, [left, 44, 213, 213]), "panel {piece}");
    }
}

#[test]
fn what_cannot_be_made_is_said() {
    let size = Size::inches(16, 20);
    let check = |plan: &Plan, piece: usize, wish: PrintWish, words: &str| {
        assert_eq!(recipe(plan, piece, wish).expect_err("nothing to print"), words);
    };
    let mut plan = plan((400, 600), size, paper(Surround::even(Length::ZERO)));
    let asked = |density| PrintWish { density: Some(density), ..PrintWish::default() };
    check(&plan, 1, PrintWish::default(), "the plan has 1 piece, so there is no piece 2");
    check(&plan, 0, asked(9), "a resolution of 9 ppi is not possible; choose 10 to 2400");
    check(&plan, 0, asked(2401), "a resolution of 2401 ppi is not possible; choose 10 to 2400");
    let bleed = |mm| PrintWish { bleed: Length::mm(mm), ..PrintWish::default() };
    check(&plan, 0, bleed(101), "a bleed of 101 mm can't be added; allowed: 0 to 100 mm");
    check(&plan, 0, bleed(-1), "a bleed of -1 mm can't be added; allowed: 0 to 100 mm");
    assert_eq!(super_size(&plan, asked(10)), (160, 200));
    assert_eq!(super_size(&plan, bleed(100)), (400 + 2 * 98, 500 + 2 * 98), "98.4 px");
    plan.pieces[0].image = Size::inches(300, 375);
    check(
        &plan,
        0,
        asked(2400),
        "piece 1 would be a file of 720000 × 900000 pixels, and at most 400000 along a side are allowed; choose a lower resolution",
    );
    plan.pieces[0].picture = None;
    check(
        &plan,
        0,
        PrintWish::default(),
        "piece 1 has no picture yet, so there is nothing to print; give it one in the plan",
    );
    plan.pieces[0].picture = Some(0);
    plan.pieces[0].finish = Finish::Original(overmantel::plan::Original::starting());
    check(&plan, 0, PrintWish::default(), "piece 1 is the original, so there is nothing to print");
}
