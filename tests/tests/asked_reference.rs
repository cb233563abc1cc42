//! What a plan asks and what answers it, taken into the plan: rows worked out on paper, and what holds of any plan.
//!
//! No expected value here is from Overmantel. A starting piece is a print of w × h behind a mat that covers 1/8 in of it and is 2 1/8
//! wide, in a frame with a face of 3/4, a lip of 1/4 and 1/8 of play: opening w - 1/4, board w + 4, outside w + 5 1/8. A size is written
//! width × height.

use overmantel::asked::{
    AskedError, Ordered, doubts, fits, in_hand, in_space, is_turned, picture_px, take_fit, take_in_hand,
    take_space, wish,
};
use overmantel::fit::systems::SystemNote;
use overmantel::fit::{Fit, Way};
use overmantel::framing::BuildUp;
use overmantel::geometry::{Sides, Size};
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::print::Exact;
use overmantel::stock::Stock;
use overmantel_tests::given::{figures, hung, length, size};

fn print(image: &str) -> Piece {
    Piece { image: size(image), ..Piece::starting() }
}

fn canvas(image: &str) -> Piece {
    Piece { finish: Finish::Canvas(Canvas::starting()), ..print(image) }
}

/// A print with this mat, or none.
fn behind(image: &str, mat: Option<Mat>) -> Piece {
    let framing = Framing { mat, ..Framing::starting() };
    Piece { finish: Finish::Paper(Paper { framing, ..Paper::starting() }), ..print(image) }
}

fn with_picture(plan: Plan, width_px: u32, height_px: u32) -> Plan {
    let (name, file) = ("Slack tide".to_owned(), String::new());
    let mut plan =
        Plan { pictures: vec![Picture { name, file, width_px, height_px, subject: None }], ..plan };
    for piece in &mut plan.pieces {
        piece.picture = Some(0);
    }
    plan
}

/// Without a picture the image stands for it, 1000 pixels to the inch. One picture over 60 in of three panels with gaps of 2: each is
/// 56/3 in wide; 9000 pixels are 150 to the inch, 2800 to a panel; without the gaps 3000 to a panel.
#[test]
fn the_pixels_that_a_piece_shows() {
    let plan = hung(vec![print("16x20"), canvas("0.5x7.25")]);
    let check = |plan: &Plan, piece: usize, pixels: (u32, u32)| {
        assert_eq!(picture_px(plan, &figures(plan), piece), pixels);
    };
    check(&plan, 0, (16_000, 20_000));
    check(&plan, 1, (500, 7_250));
    check(&plan, 2, (4_000, 5_000));
    check(&hung(vec![canvas("0.0001x0.0019")]), 0, (1, 1));
    check(&with_picture(plan.clone(), 6000, 4000), 1, (6000, 4000));
    // A picture that no piece refers to is not shown.
    let mut unseen = with_picture(plan, 6000, 4000);
    unseen.pieces[0].picture = None;
    check(&unseen, 0, (16_000, 20_000));

    let third = Size::new(Length::inches_ratio(56, 3), Length::inches(20));
    let panels = hung(vec![Piece { image: third, ..canvas("1x1") }; 3]);
    let group = Group { gap: length("2"), ..panels.group };
    let panels = with_picture(Plan { group, ..panels }, 9000, 3000);
    let focus = Focus::MIDDLE;
    let split = |strips| Some(Split { picture: 0, focus, strips });
    let hidden = Plan { split: split(Strips::Hidden), ..panels.clone() };
    check(&hidden, 0, (2800, 3000));
    check(&hidden, 2, (2800, 3000));
    let mut kept = Plan { split: split(Strips::Kept), ..panels };
    for piece in &mut kept.pieces {
        piece.image.height = piece.image.width;
    }
    check(&kept, 1, (3000, 3000));
}

#[test]
fn what_is_wished_of_a_fit() {
    let check = |mat: Option<Mat>, overlap: &str, foot: &str| {
        let focus = Focus { x_permille: 10, y_permille: 990 };
        let plan = Plan { fineness: 150, ..hung(vec![Piece { focus, ..behind("16x20", mat) }]) };
        let found = wish(&plan, 0);
        assert_eq!((found.mat_overlap, found.foot_extra), (length(overlap), length(foot)));
        assert_eq!((found.focus, found.fineness_ppi), (focus, Exact::from_integer(150)));
        // For a piece that there is not, what is usual.
        let usual = wish(&plan, 1);
        assert_eq!((usual.mat_overlap, usual.focus), (length("1/8"), Focus::MIDDLE));
        assert_eq!(usual.fineness_ppi, Exact::from_integer(150));
    };
    let mat = |opening, weighting| {
        let surround = Surround { weighting, ..Mat::starting().surround };
        Some(Mat { opening, surround, ..Mat::starting() })
    };
    check(None, "1/8", "0");
    check(mat(OpeningRule::Overlap(length("1/4")), Weighting::Extra(length("1/2"))), "1/4", "1/2");
    check(mat(OpeningRule::Reveal(length("1/4")), Weighting::Ratio { head: 3, foot: 4 }), "1/8", "0");
    check(mat(OpeningRule::Float(length("1/4")), Weighting::Extra(length("-1/16"))), "1/8", "0");
}

fn hand(measured: Measured, of: &str) -> InHand {
    InHand { measured, size: size(of), ..InHand::starting() }
}

#[test]
fn a_frame_hangs_as_the_picture_stands() {
    let check = |image: &str, frame: &str, turned: bool, nominal: &str| {
        let plan =
            Plan { in_hand: Some(hand(Measured::Glass, frame)), ..hung(vec![print("3x3"), print(image)]) };
        assert_eq!(is_turned(&plan, &figures(&plan), 1), turned, "{image} in {frame}");
        let order = in_hand(&plan, &figures(&plan), 1).expect("a frame").expect("an order");
        assert_eq!(order.nominal, size(nominal));
        assert!(!is_turned(&plan, &figures(&plan), 2), "there is no such piece");
        let without = Plan { in_hand: None, ..plan };
        assert!(!is_turned(&without, &figures(&without), 1), "there is no frame");
    };
    check("20x16", "16x20", true, "20x16");
    check("16x20", "20x16", true, "16x20");
    check("16x20", "18x24", false, "18x24");
    check("20x16", "24x18", false, "24x18");
    check("16x16", "18x24", false, "18x24");
    check("16x16", "24x18", false, "24x18");
    check("16x20", "24x24", false, "24x24");
    check("20x16", "24x24", false, "24x24");
    let plan = hung(vec![print("16x20")]);
    assert_eq!(in_hand(&plan, &figures(&plan), 0), None);
}

/// The image that the space takes, and that all pieces have it then.
#[track_caller]
fn check_space(plan: Plan, space: &str, image: (&str, &str), group: (&str, &str)) -> Plan {
    let plan = Plan { space: Some(size(space)), ..plan };
    let image = Size::new(length(image.0), length(image.1));
    assert_eq!(in_space(&plan, &figures(&plan)), Some(image));
    let taken = take_space(&plan).unwrap_or_else(|why| panic!("{why}"));
    assert!(taken.pieces.iter().all(|piece| piece.image == image));
    let found = figures(&taken).arranged.group.size;
    assert_eq!(found, Size::new(length(group.0), length(group.1)));
    taken
}

#[test]
fn images_for_a_space() {
    let arranged = |arrangement, pieces: Vec<Piece>| {
        let plan = hung(pieces);
        Plan { group: Group { arrangement, ..plan.group }, ..plan }
    };
    let three = || vec![print("16x20"); 3];
    // Two in a column, 3 in apart: (60 - 3) / 2 - 5 1/8 = 23 3/8 high, 18.7 wide at 4 : 5; 30 - 5 1/8 would leave 24 7/8.
    let column = arranged(Arrangement::Column, vec![print("16x20"); 2]);
    check_space(column, "30x60", ("18.7", "23 3/8"), ("23.825", "60"));
    // Three in steps of 4, up or down, stand 8 in higher than one: 38 - 8 - 5 1/8 = 24 7/8.
    for step in ["4", "-4"] {
        let steps = arranged(Arrangement::Stepped(length(step)), three());
        check_space(steps, "84x38", ("19.9", "24 7/8"), ("81.075", "38"));
    }
    // A canvas has nothing round it: (60 - 3 - 5 1/8) / 2 = 25 15/16 wide, but 30 - 5 1/8 = 24 7/8 high, 19.9 wide.
    let mixed = arranged(Arrangement::Row, vec![canvas("16x20"), print("16x20")]);
    check_space(mixed, "60x30", ("19.9", "24 7/8"), ("47.925", "30"));
    // What the images are now is all one: what is round each of them stays.
    let unlike = arranged(Arrangement::Row, vec![print("12x15"), print("20x10"), print("7x9")]);
    check_space(unlike, "84x30", ("19.9", "24 7/8"), ("81.075", "30"));
    // 3 × 5 1/8 + 2 × 3 = 21 3/8 is all for what is no image; 0.3 in more are 0.1 for each.
    let plain = Plan { space: Some(size("21.375x100")), ..arranged(Arrangement::Row, three()) };
    assert_eq!(take_space(&plain), Err(AskedError::NoRoom));
    assert_eq!(take_space(&Plan { space: None, ..plain.clone() }), Err(AskedError::NoRoom));
    let nothing =
        "the space on the wall leaves none for an image; allow more, or choose a narrower mat or frame";
    assert_eq!(AskedError::NoRoom.to_string(), nothing);
    let least = Plan { space: Some(size("21.675x100")), ..plain };
    assert_eq!(take_space(&least).map(|taken| taken.pieces[0].image), Ok(size("0.1x0.125")));
}

/// In one frame with bars of 2: w - 1/4 three times, two bars, 4 1/4 of mat and 1 1/8 of frame: 3 w + 8 5/8 across, and h + 5 1/8.
#[test]
fn images_for_a_space_in_one_frame() {
    let shared = |arrangement, pieces: Vec<Piece>| {
        let plan = hung(pieces);
        let group = Group { arrangement, ..plan.group };
        Plan { group, shared: Some(Shared { bar: length("2") }), ..plan }
    };
    let row = shared(Arrangement::Row, vec![print("16x20"); 3]);
    // (60 - 8 5/8) / 3 = 17 1/8, at 4 : 5 21.40625 high.
    check_space(row, "60x30", ("17.125", "21.40625"), ("60", "26.53125"));
    let column = shared(Arrangement::Column, vec![print("20x16"); 3]);
    check_space(column, "30x60", ("21.40625", "17.125"), ("26.53125", "60"));
    // A board stated as 56 × 24: outside 57 1/8, so 9 1/8 are no image. (60 - 9 1/8) / 3 = 407/24. It grows with all three.
    let mut pieces = vec![print("16x20"); 3];
    pieces[0] = behind("16x20", Some(Mat { surround: Surround::whole(size("56x24")), ..Mat::starting() }));
    let stated = shared(Arrangement::Row, pieces);
    let image = ("407/24", "2035/96");
    let taken = check_space(stated, "60x30", image, ("60", "2527/96"));
    let board = taken.pieces[0].finish.framing().and_then(|framing| framing.mat.as_ref());
    let grown = Size::new(length("58.875"), length("2419/96"));
    assert_eq!(board.map(|mat| mat.surround), Some(Surround::whole(grown)), "56 + 3 × 23/24, 24 + 115/96");
    // Openings that differ: of 14 × 16, floating in 1 in of air, 16 × 18 against 15 3/4 × 19 3/4. For equal images the air decides the
    // height: h + 2 + 4 1/4 + 1 1/8 = 30 leaves 22 5/8; across w - 1/4 + w + 2 + 2 + 5 3/8 leaves more.
    let float = Mat { opening: OpeningRule::Float(length("1")), ..Mat::starting() };
    let unlike = shared(Arrangement::Row, vec![print("16x20"), behind("14x16", Some(float))]);
    check_space(unlike, "60x30", ("18.1", "22 5/8"), ("45.325", "30"));
}

/// One print of a plan by its way, the size on offer and, for a mat, the frame.
#[track_caller]
fn fit<'a>(plan: &Plan, stock: &'a Stock, way: Way, of: &str, frame: Option<&str>) -> Fit<'a> {
    let found = fits(plan, &figures(plan), stock, 0);
    let is_meant = |fit: &&Fit<'_>| {
        fit.way == way
            && fit.print.listed.name == of
            && fit.frame.map(|frame| frame.listed.name.as_str()) == frame
    };
    *found.iter().find(is_meant).unwrap_or_else(|| panic!("no {way:?} print of {of}"))
}

/// A picture of 4000 × 5000 fills 16 × 20 in whole; behind a mat on 20 × 24 the borders are (20 - 15 3/4) / 2 = 2 1/8; inside 18 × 24
/// with 1/2 in of white it is 17 × 21 1/4; 11 × 14 crops it.
#[test]
fn fits_are_taken_as_they_are_offered() {
    let stock = Stock::offered();
    let ratio = Surround { weighting: Weighting::Ratio { head: 3, foot: 4 }, ..Mat::starting().surround };
    let mat = Mat { surround: ratio, inner_reveal: Some(length("1/4")), ..Mat::starting() };
    let plan = with_picture(hung(vec![behind("8x8", Some(mat)), print("9x9")]), 4000, 5000);
    let take = |way, of: &str, frame: Option<&str>| {
        let taken = take_fit(&plan, Some(0), &fit(&plan, &stock, way, of, frame));
        assert_eq!(taken.pieces[1], plan.pieces[1], "the other stays");
        let mut sizes = figures(&taken).build_ups;
        (taken, sizes.remove(0))
    };
    let nominal = |sizes: &BuildUp| sizes.frame.as_ref().map(|frame| frame.nominal);

    let (_, sizes) = take(Way::Whole, "16 × 20 in", None);
    assert_eq!((sizes.image.size, sizes.sheet.size), (size("16x20"), size("16x20")));
    assert_eq!((sizes.mat.is_none(), nominal(&sizes)), (true, Some(size("16x20"))));

    let (taken, sizes) = take(Way::Matted, "16 × 20 in", Some("20 × 24 in"));
    let cut = sizes.mat.as_ref().expect("a mat");
    assert_eq!((cut.opening.size, cut.borders), (size("15.75x19.75"), Sides::all(length("2 1/8"))));
    assert_eq!(nominal(&sizes), Some(size("20x24")));
    let mat = taken.pieces[0].finish.framing().and_then(|framing| framing.mat.as_ref());
    assert_eq!(mat.and_then(|mat| mat.inner_reveal), Some(length("1/4")), "what is not of the fit stays");

    let (_, sizes) = take(Way::Bordered, "18 × 24 in", None);
    assert_eq!((sizes.image.size, sizes.sheet.size), (size("17x21.25"), size("18x24")));
    let (across, upright) = (length("1/2"), length("1 3/8"));
    let borders = Sides { left: across, top: upright, right: across, bottom: upright };
    assert_eq!((sizes.sheet_borders, sizes.mat.is_none()), (borders, true));

    let (_, sizes) = take(Way::Cropped, "11 × 14 in", None);
    assert_eq!((sizes.image.size, sizes.sheet.size), (size("11x14"), size("11x14")));

    // Canvas, metal and originals are of the print's size, in whatever way.
    let finishes = [
        Finish::Canvas(Canvas::starting()),
        Finish::Aluminium(Aluminium::starting()),
        Finish::Original(Original::starting()),
    ];
    let pieces = finishes.map(|finish| Piece { finish, ..print("8x8") });
    let others = with_picture(hung(pieces.into()), 4000, 5000);
    for way in [Way::Whole, Way::Bordered] {
        let taken = take_fit(&others, None, &fit(&others, &stock, way, "16 × 20 in", None));
        for (piece, before) in taken.pieces.iter().zip(&others.pieces) {
            assert_eq!((piece.image, &piece.finish), (size("16x20"), &before.finish), "{way:?}");
        }
    }
}

/// A frame of 16 × 20 by its glass, with the starting section: sight 15 5/8 × 19 5/8, outside 17 1/8 × 21 1/8. Of a picture of 4 : 5: to
/// the edge 16 × 20; with 1/2 in of white 14 5/8 × 18 9/32; behind a mat of 1 1/2 the print is 13 + 1/4 wide and 16 9/16 high.
#[test]
fn a_frame_in_hand_by_each_measure_and_for_each_print() {
    let measures = [
        (Measured::Glass, "16x20"),
        (Measured::Rabbet, "16.125x20.125"),
        (Measured::Sight, "15.625x19.625"),
        (Measured::Outside, "17.125x21.125"),
    ];
    for (measured, of_it) in measures {
        let own = InHand { face: length("3/4"), ..hand(measured, of_it) };
        let frame = Frame { face: length("2"), rabbet_width: length("3/8"), ..Frame::starting() };
        let framing = Framing { frame: Some(frame.clone()), ..Framing::starting() };
        let paper = Finish::Paper(Paper { framing, ..Paper::starting() });
        let pieces = vec![Piece { finish: paper, ..print("8x9") }, canvas("8x9")];
        let plan = with_picture(Plan { in_hand: Some(own), ..hung(pieces) }, 4000, 5000);
        for (ordered, image) in [
            (Ordered::ToTheEdge, "16x20"),
            (Ordered::InsideSight, "14.625x18.28125"),
            (Ordered::Matted, "13.25x16.5625"),
        ] {
            let taken = take_in_hand(&plan, None, ordered).unwrap_or_else(|why| panic!("{why}"));
            for (piece, sizes) in taken.pieces.iter().zip(figures(&taken).build_ups) {
                assert_eq!(piece.image, size(image), "{ordered:?}");
                assert_eq!(sizes.outside, size("17.125x21.125"));
                let cut = sizes.frame.as_ref().expect("a frame");
                assert_eq!((cut.nominal, cut.sight.size), (size("16x20"), size("15.625x19.625")));
                let sheet = if ordered == Ordered::Matted { image } else { "16x20" };
                assert_eq!(sizes.sheet.size, size(sheet));
                // (16 - 13) / 2 at the sides, (20 - 16 5/16) / 2 at head and foot.
                let borders = sizes.mat.map(|mat| (mat.borders.left, mat.borders.top, mat.borders.bottom));
                let upright = length("1.84375");
                let expected = (ordered == Ordered::Matted).then(|| (length("1.5"), upright, upright));
                assert_eq!(borders, expected);
            }
            // What was not measured of the frame stays.
            let held = taken.pieces[0].finish.framing().and_then(|framing| framing.frame.clone());
            let Some(held) = held else { panic!("a frame") };
            assert_eq!(held, Frame { face: own.face, rabbet_width: own.rabbet_width, ..frame.clone() });
            let one = take_in_hand(&plan, Some(1), ordered).unwrap_or_else(|why| panic!("{why}"));
            assert_eq!((&one.pieces[0], &one.pieces[1]), (&plan.pieces[0], &taken.pieces[1]));
        }
    }
}

#[test]
fn a_frame_in_hand_that_takes_no_such_print_says_why() {
    let plan = hung(vec![print("16x20")]);
    let none = take_in_hand(&plan, None, Ordered::ToTheEdge);
    assert_eq!(none, Err(AskedError::NoFrame));
    let said = "no frame that you already have is stated; first say what you measured";
    assert_eq!(AskedError::NoFrame.to_string(), said);
    // A sight of 5/8 in, and 1/2 in of white on each side.
    let plan = Plan { in_hand: Some(hand(Measured::Glass, "1x10")), ..plan };
    assert!(take_in_hand(&plan, None, Ordered::ToTheEdge).is_ok());
    let why = take_in_hand(&plan, None, Ordered::InsideSight).expect_err("no white border").to_string();
    assert!(why.starts_with("a white border of at least 1/2 in leaves -3/8 in × 8 5/8 in"), "{why}");
    let why = take_in_hand(&plan, None, Ordered::Matted).expect_err("no mat").to_string();
    assert!(why.starts_with("mat borders of at least 1 1/2 in leave -2 in × 7 in"), "{why}");
    // A lip that does not reach over half of the play.
    let loose = InHand { allowance: length("1/2"), ..hand(Measured::Glass, "16x20") };
    let why = take_in_hand(&Plan { in_hand: Some(loose), ..plan }, None, Ordered::Matted)
        .expect_err("loose")
        .to_string();
    assert!(why.starts_with("a lip of 1/4 in is too narrow for an allowance of 1/2 in"), "{why}");
}

/// Sizes on offer (common practice, no source): 20 × 30 and 24 × 30 in both systems; 50 × 70 in centimetres, 16 × 20 in inches only.
#[test]
fn sizes_that_may_have_been_meant_otherwise() {
    let stock = Stock::offered();
    let check = |plan: &Plan, expected: &[(&str, &str, SystemNote)]| {
        let found = doubts(plan, &stock);
        let found: Vec<_> =
            found.iter().map(|doubt| (doubt.field.to_string(), doubt.what, doubt.note)).collect();
        let expected: Vec<_> =
            expected.iter().map(|(field, what, note)| ((*field).to_owned(), *what, *note)).collect();
        assert_eq!(found, expected);
    };
    let looks =
        |stated: &str, other: &str| SystemNote::LooksLikeOther { stated: size(stated), other: size(other) };
    let both = |inches: &str, centimetres: &str| SystemNote::BothSystems {
        inches: size(inches),
        centimetres: size(centimetres),
    };
    let twenty_by_thirty = both("20x30", "20 cm x 30 cm");
    let fifty_by_seventy = looks("50x70", "50 cm x 70 cm");
    check(&hung(vec![print("50x70")]), &[("piece.0.image", "print", fifty_by_seventy)]);
    check(&hung(vec![print("50 cm x 70 cm")]), &[]);
    check(
        &hung(vec![print("16x20"), print("20x30"), print("20x30")]),
        &[("piece.1.image", "print", twenty_by_thirty)],
    );
    check(&hung(vec![print("20 cm x 30 cm")]), &[("piece.0.image", "print", twenty_by_thirty)]);
    // 16 × 20 in inches is a size; in centimetres its numbers look like it.
    check(
        &hung(vec![print("16 cm x 20 cm")]),
        &[("piece.0.image", "print", looks("16 cm x 20 cm", "16x20"))],
    );
    // Numbers that are round in neither system, in one side only, or in both: 25 × 50 in are 63 1/2 × 127 cm.
    check(&hung(vec![print("50.3x70"), print("20x30.01")]), &[]);
    check(&hung(vec![print("25x50")]), &[]);
    // 8 1/2 × 11 in is a size in inches, and its numbers are halves.
    check(
        &hung(vec![print("8.5 cm x 11 cm")]),
        &[("piece.0.image", "print", looks("8.5 cm x 11 cm", "8.5x11"))],
    );

    // The frame you already have comes first, and the print of the same size is not named again.
    let plan = Plan { in_hand: Some(hand(Measured::Glass, "50x70")), ..hung(vec![print("50x70")]) };
    check(&plan, &[("in_hand.size", "frame you already have", fifty_by_seventy)]);

    // Sheets and boards where they are stated.
    let mat = Mat { surround: Surround::whole(size("24x30")), ..Mat::starting() };
    let mut piece = behind("16x20", Some(mat));
    if let Finish::Paper(paper) = &mut piece.finish {
        paper.border = Surround::whole(size("20x30"));
    }
    let board = both("24x30", "24 cm x 30 cm");
    check(
        &hung(vec![piece.clone()]),
        &[("piece.0.paper.whole", "sheet", twenty_by_thirty), ("piece.0.mat.whole", "mat board", board)],
    );
    // An original has no sheet, but a mat.
    let Some(framing) = piece.finish.framing().cloned() else { panic!("framed") };
    piece.finish = Finish::Original(Original { framing, ..Original::starting() });
    check(&hung(vec![piece]), &[("piece.0.mat.whole", "mat board", board)]);
}
