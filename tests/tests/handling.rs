//! Handling: what a pull, a drag and a look from nearer do, against sums done by hand.

use overmantel::desk::{Corner, Desk, Held};
use overmantel::draw::projection::Projection;
use overmantel::draw::{Guide, Sheet, Window};
use overmantel::geometry::{Point, Size};
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::resample::Raster;
use overmantel_tests::given;

fn inches(count: i64) -> Length {
    Length::inches(count)
}

/// One print of 16 × 20 in without mat, in the middle of a wall of 12 × 8 ft at eye level; its picture has 6000 × 4000 pixels.
fn one() -> Plan {
    let mut plan = Plan::starting();
    plan.pictures = vec![Picture {
        name: "flats".into(),
        file: "flats.jpg".into(),
        width_px: 6000,
        height_px: 4000,
        subject: None,
    }];
    plan.pieces.truncate(1);
    plan.pieces[0].picture = Some(0);
    plan.pieces[0].finish = Finish::Canvas(Canvas::starting());
    plan.fixtures.clear();
    plan.group.across = GroupAcross::WallMiddle;
    plan.group.up = GroupUp::EyeLevel;
    plan
}

fn desk(plan: Plan) -> (Desk, Projection) {
    let mut desk = Desk::new(plan).expect("an answer");
    let projection = desk.draw(&Sheet::new(1200, 800)).projection;
    (desk, projection)
}

/// Drags something by so much on the wall; what is said of it.
fn drag(desk: &mut Desk, p: Projection, held: Held, from: Point, by: Point, free: bool) -> Vec<String> {
    desk.take_hold(held, p, p.x(from.x), p.y(from.y));
    desk.drag_to(p, p.x(from.x + by.x), p.y(from.y + by.y), 1.0, free)
}

const LOWER_RIGHT: Corner = Corner { piece: 0, right: true, upper: false, alone: false };

/// The canvas keeps its middle, so a corner that goes 2 in out makes it 4 in wider: 20 in; and 2 in down 4 in higher: 24 in.
#[test]
fn a_corner_goes_with_the_pointer_in_steps_of_sizes_that_are_sold() {
    let (mut desk, p) = desk(one());
    let from = desk.corner(LOWER_RIGHT).expect("a corner");
    let by = Point::new(inches(2), inches(-2));
    let said = drag(&mut desk, p, Held::Corner(LOWER_RIGHT), from, by, false);
    assert_eq!(desk.plan().pieces[0].image, Size::inches(20, 24));
    assert_eq!(said, ["20 × 24\", a size that is sold; hold Shift for any size"]);
    // A little farther it is still that size; freely it is 20 1/2 × 24.
    desk.abandon();
    let by = Point::new(Length::inches_ratio(9, 4), inches(-2));
    drag(&mut desk, p, Held::Corner(LOWER_RIGHT), from, by, false);
    assert_eq!(desk.plan().pieces[0].image, Size::inches(20, 24));
    desk.abandon();
    let said = drag(&mut desk, p, Held::Corner(LOWER_RIGHT), from, by, true);
    assert_eq!(desk.plan().pieces[0].image, Size::new(Length::inches_ratio(41, 2), inches(24)));
    assert_eq!(said, ["20 1/2 × 24\", freely"]);
    desk.release();
    assert!(desk.undo(), "the pull is one step");
    assert_eq!(desk.plan(), &one());
}

#[test]
fn pieces_of_one_size_are_pulled_together_unless_one_is_meant_alone() {
    let mut plan = one();
    plan.pieces = vec![plan.pieces[0].clone(); 3];
    let (mut desk, p) = desk(plan);
    let right = Corner { piece: 2, ..LOWER_RIGHT };
    let from = desk.corner(right).expect("a corner");
    // Three grow alike: the outer corner goes one and a half times as far.
    drag(&mut desk, p, Held::Corner(right), from, Point::new(inches(6), inches(-2)), false);
    assert_eq!(
        desk.plan().pieces.iter().map(|piece| piece.image).collect::<Vec<_>>(),
        [Size::inches(20, 24); 3]
    );
    desk.abandon();
    let alone = Corner { alone: true, ..right };
    drag(&mut desk, p, Held::Corner(alone), from, Point::new(inches(2), inches(-2)), false);
    let sizes: Vec<Size> = desk.plan().pieces.iter().map(|piece| piece.image).collect();
    assert_eq!(sizes, [Size::inches(16, 20), Size::inches(16, 20), Size::inches(20, 24)]);
}

#[test]
fn keys_change_the_size_too() {
    let (mut desk, _) = desk(one());
    desk.nudge(Held::Corner(LOWER_RIGHT), 1, 0, false);
    assert_eq!(desk.plan().pieces[0].image, Size::inches(16, 24), "the next print that is sold");
    desk.nudge(Held::Corner(LOWER_RIGHT), 0, -1, false);
    assert_eq!(desk.plan().pieces[0].image, Size::inches(16, 20));
    desk.nudge(Held::Corner(LOWER_RIGHT), 0, 1, true);
    assert_eq!(
        desk.plan().pieces[0].image,
        Size::new(inches(16), Length::inches_ratio(81, 4)),
        "1/4 in higher"
    );
}

/// Three prints of 8 × 10 in one frame, in the middle of the wall: an inch more of each makes the row 3 in wider, half of them on
/// either side. So the right corner of the last goes 1 1/2 in when each is an inch wider, and 4 1/2 in are 3 in more: 11 × 14 is sold.
#[test]
fn a_corner_in_a_shared_frame_makes_all_images_larger() {
    let mut plan = one();
    let mut piece = Piece::starting();
    piece.picture = Some(0);
    piece.grow(Size::new(inches(8) - piece.image.width, inches(10) - piece.image.height));
    plan.pieces = vec![piece; 3];
    plan.group.arrangement = Arrangement::Row;
    plan.shared = Some(Shared { bar: inches(2) });
    let (mut desk, p) = desk(plan);
    let upper = Corner { piece: 2, right: true, upper: true, alone: false };
    let from = desk.corner(upper).expect("a corner");
    let places = [0, 1, 2].map(|index| desk.place_of(index).expect("an image"));
    assert_eq!(places.map(|place| place.size), [Size::inches(8, 10); 3]);
    let gaps = [places[1].x - places[0].right(), places[2].x - places[1].right()];
    assert_eq!(gaps[0], gaps[1]);
    drag(&mut desk, p, Held::Corner(upper), from, Point::new(Length::inches_ratio(9, 2), inches(2)), false);
    let sizes: Vec<Size> = desk.plan().pieces.iter().map(|piece| piece.image).collect();
    assert_eq!(sizes, [Size::inches(11, 14); 3]);
    assert_eq!(
        desk.corner(upper).map(|at| at.x - from.x),
        Some(Length::inches_ratio(9, 2)),
        "the corner is where the pointer is"
    );
}

#[test]
fn moves_by_keys_that_follow_each_other_are_one_step_back() {
    let (mut desk, _) = desk(one());
    let before = desk.plan().clone();
    for _ in 0..5 {
        desk.nudge(Held::Group(0), 1, 0, false);
    }
    let moved = desk.plan().clone();
    desk.nudge(Held::Corner(LOWER_RIGHT), 1, 0, false);
    assert!(desk.undo());
    assert_eq!(desk.plan(), &moved, "another thing is another step");
    assert!(desk.undo());
    assert_eq!(desk.plan(), &before, "five moves are one");
    assert!(!desk.undo());
    assert!(desk.redo());
    assert_eq!(desk.plan(), &moved);
    // After a step back or forward a move is a step of its own, and so it is after a field.
    desk.nudge(Held::Group(0), 1, 0, false);
    given::set(&mut desk, "wall.width", "13 ft").expect("a width");
    desk.nudge(Held::Group(0), 1, 0, false);
    assert!(desk.undo() && desk.undo() && desk.undo());
    assert_eq!(desk.plan(), &moved);
}

/// 16 × 20 of 6000 × 4000: all 4000 pixels of the height are 20 in, so 200 to the inch; 3200 of the width show, from 1400 on. 5 in to
/// the right show 1000 more on the left: from 400 on, so that the middle is 400 + 1600 = 2000 of 6000.
#[test]
fn the_picture_slides_in_its_opening() {
    let (mut desk, p) = desk(one());
    let middle = desk.figures().arranged.group.centre();
    let said = drag(&mut desk, p, Held::Picture(0), middle, Point::new(inches(5), inches(3)), false);
    assert_eq!(desk.plan().pieces[0].focus, Focus { x_permille: 333, y_permille: 500 });
    assert_eq!(said, ["shows 53 % of its width, its middle 33.3 % from the left, and its whole height"]);
    desk.abandon();
    // It stops at the edge of the picture: from 0 on the middle is 1600 of 6000.
    drag(&mut desk, p, Held::Picture(0), middle, Point::new(inches(50), Length::ZERO), false);
    assert_eq!(desk.plan().pieces[0].focus.x_permille, 267);
    desk.abandon();
    // By keys a hundredth of the picture; a left arrow takes the picture to the left.
    desk.nudge(Held::Picture(0), -1, 0, false);
    assert_eq!(desk.plan().pieces[0].focus.x_permille, 510);
    // By fields.
    given::set(&mut desk, "piece.0.focus_across", "40,5 %").expect("a part of a hundred");
    assert_eq!(desk.plan().pieces[0].focus.x_permille, 405);
    let refused = given::set(&mut desk, "piece.0.focus_across", "140").unwrap_err();
    assert_eq!(refused.to_string(), "\"140\" is not a percentage; write 0 to 100, such as 40 or 33.3 %");
}

/// A door of 30 in 6 in from the right corner leaves 144 - 36 = 108 in: its middle is at 54 in, that of the wall at 72.
#[test]
fn things_catch_with_a_reason_and_a_guide() {
    let mut plan = one();
    plan.fixtures.push(Fixture::starting(FixtureKind::Door));
    let (mut desk, p) = desk(plan);
    let middle = desk.figures().arranged.group.centre();
    let away = inches(9);
    for (x, y, said, guides, across) in [
        (
            54,
            40,
            "as far from the left corner as from the door",
            Guide::Upright(inches(54)),
            GroupAcross::CentreAt(inches(54)),
        ),
        (72, 40, "in the middle of the wall", Guide::Upright(inches(72)), GroupAcross::WallMiddle),
        // Half of 16 in from the door's left edge at 108 in.
        (
            100,
            40,
            "the right edge in line with that of the door",
            Guide::Upright(inches(138)),
            GroupAcross::CentreAt(inches(130)),
        ),
    ] {
        let x = if said.starts_with("the right") { 130 } else { x };
        let by = Point::new(inches(x) - middle.x, inches(y) - middle.y);
        let told = drag(&mut desk, p, Held::Group(0), middle, by, false);
        assert_eq!(told, [said]);
        assert_eq!((desk.guides(), desk.plan().group.across), (&[guides][..], across));
        desk.abandon();
        let now = desk.figures().arranged.group.centre();
        let told = drag(&mut desk, p, Held::Group(0), now, Point::new(away, Length::ZERO), true);
        assert!(told.is_empty() && desk.guides().is_empty(), "freely nothing catches: {told:?}");
        desk.abandon();
    }
    // The head of the door is at 80 in; half of 20 in below it.
    let told =
        drag(&mut desk, p, Held::Group(0), middle, Point::new(inches(-30), inches(70) - middle.y), false);
    assert_eq!(told, ["the top edge in line with the top of the door"]);
    assert_eq!(desk.guides(), [Guide::Level(inches(80))]);
}

#[test]
fn a_guide_is_a_thin_red_line_on_the_wall_while_it_holds() {
    let (mut desk, p) = desk(one());
    let sheet = Sheet { guides: vec![Guide::Upright(inches(30))], ..Sheet::new(1200, 800) };
    let plain = desk.draw(&Sheet::new(1200, 800)).pixels.to_vec();
    let with = desk.draw(&sheet).pixels.to_vec();
    let differ: Vec<usize> =
        (0..1200 * 800).filter(|at| plain[at * 4..at * 4 + 4] != with[at * 4..at * 4 + 4]).collect();
    let columns: std::collections::BTreeSet<usize> = differ.iter().map(|at| at % 1200).collect();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a pixel of the sheet")]
    let column = p.x(inches(30)).round() as usize;
    assert_eq!(columns.into_iter().collect::<Vec<_>>(), [column]);
    assert!(differ.len() > 300, "over the height of the wall: {}", differ.len());
    let pixel = &with[differ[10] * 4..differ[10] * 4 + 3];
    assert!(pixel[0] > pixel[1] + 60 && pixel[0] > pixel[2] + 60, "red: {pixel:?}");
    assert_eq!(desk.draw(&Sheet::new(1200, 800)).pixels, plain, "and it goes");
}

#[test]
fn nearer_what_is_under_the_pointer_stays_and_the_drawing_is_sharp() {
    let (mut desk, p) = desk(one());
    let sheet = Sheet::new(1200, 800);
    let most = Projection::most_zoom(desk.scene(), &sheet);
    assert!((4.0..=8.0).contains(&most), "{most}");
    let (x, y) = (700.0, 300.0);
    let window = Window::WHOLE.zoomed(3.0, (x / 1200.0, y / 800.0), most);
    let near = Sheet { window, ..sheet.clone() };
    let drawing = desk.draw(&near);
    let (before, after) = (p.place(x, y), drawing.projection.place(x, y));
    let off = |a: Length, b: Length| (a - b).abs();
    // To a pixel of the nearer drawing.
    let pixel = drawing.projection.reach(1.5);
    assert!(off(before.x, after.x) <= pixel && off(before.y, after.y) <= pixel, "{before:?} {after:?}");
    assert!((drawing.projection.scale / p.scale - 3.0).abs() < 1e-4);
    desk.abandon();
    // It stops at the edges of the drawing, and all of it is the same as before.
    let far = window.moved(50.0, 50.0);
    assert!((far.x - 2.0 / 3.0).abs() < 1e-6 && (far.y - 2.0 / 3.0).abs() < 1e-6, "{far:?}");
    assert_eq!(far.zoomed(0.001, (0.5, 0.5), most), Window::WHOLE);
    assert_eq!(window.zoomed(f32::NAN, (0.5, 0.5), most).zoom.to_bits(), window.zoom.to_bits());
    let whole = desk.draw(&sheet).pixels.to_vec();
    assert_eq!(whole, Desk::new(one()).expect("an answer").draw(&sheet).pixels);
    // At the most, at every corner, with the whole demo of lines.
    for corner in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
        let window = Window::WHOLE.zoomed(most, corner, most);
        assert_eq!(desk.draw(&Sheet { window, ..sheet.clone() }).pixels.len(), 1200 * 800 * 4);
    }
}

#[test]
fn the_plan_before_the_last_step_is_drawn_and_nothing_changes() {
    let (mut desk, _) = desk(one());
    let sheet = Sheet::new(600, 400);
    let before = desk.draw(&sheet).pixels.to_vec();
    given::set(&mut desk, "wall.paint", "stone").expect("a paint");
    let after = desk.draw(&sheet).pixels.to_vec();
    assert_ne!(before, after);
    assert_eq!(desk.draw_before(&sheet).pixels, before);
    assert_eq!(desk.draw(&sheet).pixels, after);
    assert_eq!(desk.history(), (true, false));
}

#[test]
fn another_plan_begins_with_no_past_and_with_the_copies_it_shares() {
    let raster = || Raster::new(1, 1, vec![9, 9, 9, 255]).expect("a picture");
    let (mut desk, _) = desk(one());
    desk.put_copy("flats", (6000, 4000), raster());
    given::set(&mut desk, "group.gap", "5").expect("a gap");
    let mut other = one();
    other.title = "Another".to_owned();
    desk.begin_with(&file::write(&other)).expect("a plan");
    assert_eq!((desk.plan(), desk.history()), (&other, (false, false)));
    assert!(desk.has_copy("flats"), "it is the same picture");
    // Another picture of the same name is not taken for it.
    other.pictures[0].width_px = 3000;
    desk.begin_with(&file::write(&other)).expect("a plan");
    assert!(!desk.has_copy("flats"));
    given::set(&mut desk, "group.gap", "6").expect("a gap");
    let before = desk.plan().clone();
    assert!(desk.begin_with("dear painter").is_err());
    assert_eq!((desk.plan(), desk.history()), (&before, (true, false)), "all is as it was");
}

/// How many pixels of a picture that is red all over lie in the row in which most do, and the row in which the lowest lies.
fn red(pixels: &[u8], width_px: usize) -> (usize, usize) {
    let is_red = |pixel: &&[u8]| pixel[0] > 150 && pixel[1] < 60 && pixel[2] < 60;
    let rows: Vec<usize> =
        pixels.chunks(width_px * 4).map(|row| row.chunks(4).filter(is_red).count()).collect();
    let lowest = rows.iter().rposition(|count| *count > 0).expect("the picture is in the drawing");
    (rows.into_iter().max().unwrap_or(0), lowest)
}

/// A canvas of 16 in on a wall of 27 ft is drawn as wide as one on a wall of 9 ft beside it, and hangs as high above the floor.
#[test]
fn plans_side_by_side_have_one_scale_and_level_floors() {
    let mut wide = one();
    wide.wall.size.width = Length::inches(27 * 12);
    let mut narrow = one();
    narrow.wall.size.width = Length::inches(9 * 12);
    let sheet = Sheet::new(600, 400);
    let seen = |plan: &Plan, others: &[Plan]| {
        let mut desk = Desk::new(plan.clone()).expect("an answer");
        let pixels = [220, 20, 20, 255].repeat(60 * 40);
        desk.put_copy("flats", (6000, 4000), Raster::new(60, 40, pixels).expect("a raster"));
        red(&desk.small_beside(others, &sheet).expect("a drawing"), 600)
    };
    let (alone, beside) = (seen(&narrow, &[]), seen(&narrow, &[wide.clone()]));
    let other = seen(&wide, &[narrow]);
    assert!(alone.0 > 2 * other.0, "on a sheet of its own it is larger: {alone:?}, {other:?}");
    assert!(beside.0.abs_diff(other.0) <= 1 && beside.1.abs_diff(other.1) <= 1, "{beside:?}, {other:?}");
}
