//! What a bleed is made of: the picture's own pixels where its file has any beyond what is kept, and its mirror image from where the file ends.

use super::scaled::{by_another, decibels, harbour};
use super::{WHITE, canvas, crop, file, made, mirrored, paper, picture, plan, recipe};
use image::RgbImage;
use image::imageops::crop_imm;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{Aluminium, Edge, Finish, Focus, Plan, Split, Strips, Surround};
use overmantel::print_file::{Form, PrintWish, Rows, Taken};
use overmantel::resample::{RasterPart, Stream};
use proptest::prelude::*;

fn aluminium() -> Finish {
    Finish::Aluminium(Aluminium::starting())
}

fn bled(bleed: Length) -> PrintWish {
    PrintWish { bleed, ..PrintWish::default() }
}

/// Three panels over one picture: 12 × 10 in, 6 × 6 in, 12 × 10 in, with gaps of 2 in that the picture goes behind. That of the middle has some of
/// the picture beyond its crop on every side.
fn triptych(picture_px: (u32, u32)) -> Plan {
    let mut triptych = plan(picture_px, Size::inches(12, 10), aluminium());
    triptych.pieces = vec![triptych.pieces[0].clone(); 3];
    triptych.pieces[1].image = Size::inches(6, 6);
    triptych.group.gap = Length::inches(2);
    triptych.split = Some(Split { picture: 0, focus: Focus::MIDDLE, strips: Strips::Hidden });
    triptych
}

/// The place in a picture that is seen at another, which may be beyond its edge by less than the picture is wide.
fn seen(place: i64, length: u32) -> u32 {
    let length = i64::from(length);
    let within = if place < 0 { -1 - place } else { place.min(2 * length - 1 - place) };
    u32::try_from(within).expect("within the picture")
}

proptest! {
    /// By the file's own pixels: each pixel of the file is that of the picture which lies there, and beyond its edges the mirror image.
    #[test]
    fn a_bleed_is_of_the_picture_that_lies_there(
        picture_px in (20_u32..120, 20_u32..120),
        sides in (100_i64..400, 100_i64..400),
        focus in (0_u16..=1000, 0_u16..=1000),
        finish in prop_oneof![
            Just(aluminium()),
            Just(paper(Surround::even(Length::ZERO))),
            Just(canvas(Length::mm(20), Edge::Carried)),
        ],
        bleed in 0_i64..50,
    ) {
        let mut plan = plan(picture_px, Size::new(Length::mm(sides.0), Length::mm(sides.1)), finish);
        plan.pieces[0].focus = Focus { x_permille: focus.0, y_permille: focus.1 };
        check(&plan, 0, Length::mm(bleed))?;
    }

    #[test]
    fn a_panel_bleeds_into_the_picture_beside_it(picture_px in (60_u32..200, 40_u32..150), piece in 0_usize..3, bleed in 0_i64..50) {
        check(&triptych(picture_px), piece, Length::mm(bleed))?;
    }
}

fn check(plan: &Plan, piece: usize, bleed: Length) -> Result<(), TestCaseError> {
    let picture_px = (plan.pictures[0].width_px, plan.pictures[0].height_px);
    let within = recipe(plan, piece, PrintWish::default()).expect("a recipe");
    let Taken::Pixels(crop) = within.taken else { panic!("scaled") };
    let recipe = recipe(plan, piece, bled(bleed)).expect("a recipe");
    let whole = picture(picture_px);
    let (left, top) = (recipe.margins.left.bleed_px, recipe.margins.top.bleed_px);
    prop_assume!(left < crop.width && top < crop.height);
    for (x, y, found) in file(&recipe, &whole, WHITE).enumerate_pixels() {
        let x = seen(i64::from(crop.left + x) - i64::from(left), picture_px.0);
        let y = seen(i64::from(crop.top + y) - i64::from(top), picture_px.1);
        prop_assert_eq!(found, whole.get_pixel(x, y));
    }
    Ok(())
}

/// 34 × 10 in of 3400 × 1000 px is 100 px/in: the middle panel of 6 × 6 in is 600 × 600 px, from 1400 and 200 px on. A bleed of 1/5 in is 20 px.
#[test]
fn with_enough_of_the_picture_all_of_the_bleed_is_its_own() {
    let plan = triptych((3400, 1000));
    let recipe = recipe(&plan, 1, bled(Length::inches_ratio(1, 5))).expect("a recipe");
    let whole = picture((3400, 1000));
    assert!(file(&recipe, &whole, WHITE) == crop(&whole, [1380, 180, 640, 640]));
    let words = "bleed of 20 px all round, to be trimmed off: the picture's own pixels beyond what is kept, 20 px all round";
    let said = recipe.words("low-water.png", overmantel::plan::System::Inches);
    assert_eq!(said[2], words);
    let of_the_crop = "600 × 600 px of low-water.png, from 1400 px to the right of its top left corner and 200 px down; no pixel is changed";
    assert_eq!(said[1], of_the_crop, "the crop is said as it is without a bleed");
    assert_eq!(recipe.held_bytes(Form::RGB), 0, "nothing is in mirror image");
}

/// The same at 50 px/in: 300 × 300 px, and a bleed of 10 px. It is what scaling the crop gives that is 1/5 in larger on each side, by the core to
/// the last bit and by another library closely.
#[test]
fn scaled_a_bleed_is_of_the_grown_crop() {
    let plan = triptych((3400, 1000));
    let wish = PrintWish { density: Some(50), ..bled(Length::inches_ratio(1, 5)) };
    let recipe = recipe(&plan, 1, wish).expect("a recipe");
    assert_eq!((recipe.printed_px, recipe.size_px()), ((300, 300), (320, 320)));
    let whole = harbour(3400, 1000);
    let found = made(&recipe, Form::RGB, whole.as_raw(), WHITE);
    let part = RasterPart { left: 1380.0, top: 180.0, width: 640.0, height: 640.0 };
    let mut stream = Stream::new((3400, 1000), part, (320, 320));
    let (mut expected, mut row) = (Vec::new(), vec![0; 320 * 3]);
    for index in stream.rows() {
        stream.take(
            |columns, light| Form::RGB.read(&whole.as_raw()[(index * 3400 + columns.start) * 3..], light),
            &mut |light| {
                Form::RGB.write(light, &mut row);
                expected.extend_from_slice(&row);
            },
        );
    }
    assert!(found == expected);
    // With 30 px more on each side, where the other library knows nothing of what lies beyond.
    let larger = by_another(&whole, [1320, 120, 760, 760], (380, 380));
    let middle: Vec<f64> =
        larger.chunks_exact(380 * 3).skip(30).take(320).flat_map(|row| row[90..1050].to_vec()).collect();
    let found: Vec<f64> = found.iter().map(|&code| f64::from(code) / 255.0).collect();
    let noise = decibels(&found, &middle);
    assert!(noise > 50.0, "{noise:.1} dB");
}

/// What is printed stays as it is whether there is a bleed or not, at any density: whole pixels of the file are added to it.
#[test]
fn a_bleed_leaves_what_is_printed_as_it_is() {
    let plan = triptych((3400, 1000));
    let whole = harbour(3400, 1000);
    for density in [37, 73, 151] {
        for piece in 0..3 {
            let wish = PrintWish { density: Some(density), ..PrintWish::default() };
            let [without, with] = [wish, PrintWish { bleed: Length::mm(7), ..wish }].map(|wish| {
                let recipe = recipe(&plan, piece, wish).expect("a recipe");
                (recipe, file(&recipe, &whole, WHITE))
            });
            let (left, top) = (with.0.margins.left.bleed_px, with.0.margins.top.bleed_px);
            let (width, height) = without.0.size_px();
            let printed: RgbImage = crop_imm(&with.1, left, top, width, height).to_image();
            let near = |one: &[u8], other: &[u8]| {
                one.iter().zip(other).all(|(one, other)| one.abs_diff(*other) <= 1)
            };
            assert!(near(printed.as_raw(), without.1.as_raw()), "{density} px/in, panel {piece}");
        }
    }
}

/// A face of 20 × 25 cm from 220 × 250 px is 10 px/cm: 10 px are left over at each side. A bleed of 15 mm takes those, and 5 more in mirror image
/// from where the file ends; at top and bottom all of it is in mirror image. A mirrored edge and a white border have none of it.
#[test]
fn what_the_file_lacks_is_in_mirror_image() {
    let size = Size::new(Length::mm(200), Length::mm(250));
    let whole = picture((220, 250));
    let of = |finish| recipe(&plan((220, 250), size, finish), 0, bled(Length::mm(15))).expect("a recipe");
    let partly = of(aluminium());
    assert!(file(&partly, &whole, WHITE) == mirrored(&whole, (5, 15), (230, 280)));
    let bleed = |words: &str| ["bleed of 15 px all round, to be trimmed off: ", words].concat();
    let words = "the picture's own pixels beyond what is kept, 10 px on the left, 0 at the top, 10 on the right and 0 at the bottom; the picture in mirror image for the rest";
    assert_eq!(partly.words("low-water.png", overmantel::plan::System::Inches)[2], bleed(words));
    let edge = of(canvas(Length::mm(20), Edge::Mirrored));
    assert!(file(&edge, &whole, WHITE) == mirrored(&crop(&whole, [10, 0, 200, 250]), (35, 35), (270, 320)));
    assert_eq!(
        edge.words("low-water.png", overmantel::plan::System::Inches)[3],
        bleed("the picture in mirror image")
    );
    let border = of(paper(Surround::even(Length::mm(10))));
    assert_eq!(border.taken_px(), (200, 250));
    assert_eq!(border.words("low-water.png", overmantel::plan::System::Inches)[3], bleed("white"));
    let solid = of(canvas(Length::mm(20), Edge::Plain(overmantel::colour::Colour::hex(0x3f_5a_57))));
    assert_eq!(solid.words("low-water.png", overmantel::plan::System::Inches)[3], bleed("#3f5a57"));
}

/// Rows that are asked for reach as far as the bleed does, and no further.
#[test]
fn no_more_rows_are_asked_for_than_are_used() {
    let plan = triptych((3400, 1000));
    for (bleed, rows) in [(0, 200..800), (1, 100..900), (3, 0..1000)] {
        let recipe = recipe(&plan, 1, bled(Length::inches(bleed))).expect("a recipe");
        assert_eq!(Rows::new(&recipe, Form::RGB, &[255; 3]).needed(), rows, "{bleed} in");
        assert_eq!(
            Figures::of(&plan).expect("figures").cuts[1].expect("a crop").source.top.to_integer(),
            200
        );
    }
}
