//! Build-up against worked values.
//!
//! The sums are geometry, worked out by hand in inches and millimetres; that they are what shops mean by opening, nominal
//! and rabbet is common practice, no source. Where a row was published, its source stands beside it.

use overmantel::colour::Colour;
use overmantel::framing::{BuildUp, FrameSizes, MatSizes, build_up};
use overmantel::geometry::Size;
use overmantel::length::parse::parse;
use overmantel::length::{Length, Unit};
use overmantel::plan::{
    Aluminium, Canvas, Edge, Finish, Floater, Focus, Frame, Glazing, Mat, MatExtent, OpeningRule, Paper,
    Piece,
};

/// A length as a row writes it: inches where no unit stands.
fn l(text: &str) -> Length {
    parse(text, Unit::Inch).expect("rows hold lengths")
}

/// A size as a row writes it: `16x20`, or `240 mm x 300 mm`.
fn size(text: &str) -> Size {
    let (width, height) = text.split_once('x').expect("rows hold sizes");
    Size::new(l(width), l(height))
}

fn made(image: Size, finish: Finish) -> BuildUp {
    build_up(&Piece { picture: None, focus: Focus::MIDDLE, image, finish }).expect("the rows can be cut")
}

fn mat(opening: OpeningRule, extent: MatExtent, foot_extra: Length, inner: Option<Length>) -> Mat {
    Mat {
        opening,
        extent,
        foot_extra,
        inner_reveal: inner,
        thickness: l("1/16"),
        colour: Colour::hex(0xff_ff_ff),
    }
}

fn matted(art: Size, mat: Mat, frame: Option<Frame>) -> BuildUp {
    made(art, Finish::Paper(Paper { border: Length::ZERO, mat: Some(mat), frame, glazing: Glazing::None }))
}

fn mat_sizes(piece: &BuildUp) -> &MatSizes {
    piece.mat.as_ref().expect("there is a mat")
}

fn frame_sizes(piece: &BuildUp) -> &FrameSizes {
    piece.frame.as_ref().expect("there is a frame")
}

fn frame(face: &str, rabbet_width: &str, allowance: &str) -> Frame {
    Frame {
        face: l(face),
        rabbet_width: l(rabbet_width),
        rabbet_depth: l("1/2"),
        depth: l("1"),
        allowance: l(allowance),
        colour: Colour::hex(0),
    }
}

#[test]
fn an_opening_in_a_board_of_a_stated_size() {
    // Board, art, overlap, extra at the foot -> opening, side, head, foot.
    let rows = [
        ("11x14", "8x10", "1/8", "0", "7.75x9.75", "1.625", "2.125", "2.125"),
        ("16x20", "11x14", "1/8", "1/2", "10.75x13.75", "2.625", "2.875", "3.375"),
        ("20x24", "16x20", "1/8", "0", "15.75x19.75", "2.125", "2.125", "2.125"),
        ("24x36", "20x30", "1/8", "1/2", "19.75x29.75", "2.125", "2.875", "3.375"),
        ("18x24", "12x18", "1/8", "1/4", "11.75x17.75", "3.125", "3", "3.25"),
        (
            "400 mm x 500 mm",
            "240 mm x 300 mm",
            "3 mm",
            "10 mm",
            "234 mm x 294 mm",
            "83 mm",
            "98 mm",
            "108 mm",
        ),
        (
            "500 mm x 700 mm",
            "400 mm x 600 mm",
            "3 mm",
            "15 mm",
            "394 mm x 594 mm",
            "53 mm",
            "45.5 mm",
            "60.5 mm",
        ),
        // A mat of 11 × 14 round a window of 7 1/2 × 9 1/2 has borders of 1 3/4 and 2 1/4 (common practice, no source).
        ("11x14", "8x10", "1/4", "0", "7.5x9.5", "1.75", "2.25", "2.25"),
    ];
    for (board, art, overlap, foot, opening, side, head, bottom) in rows {
        let rule = OpeningRule::Overlap(l(overlap));
        let piece = matted(size(art), mat(rule, MatExtent::Board(size(board)), l(foot), None), None);
        let found = mat_sizes(&piece);
        assert_eq!(found.opening.size, size(opening), "{board} round {art}");
        let borders = found.borders;
        assert_eq!(
            [borders.left, borders.right, borders.top, borders.bottom],
            [l(side), l(side), l(head), l(bottom)],
            "{board} round {art}"
        );
        assert_eq!(piece.outside, size(board), "without a frame the board is the outside");
    }
}

#[test]
fn an_opening_with_a_stated_border_reveal_or_gap() {
    let border = MatExtent::Border(l("2 1/2"));
    // Overlap: 16 - 2 × 1/8 = 15 3/4, and 15 3/4 + 2 × 2 1/2 = 20 3/4.
    let piece = matted(size("16x20"), mat(OpeningRule::Overlap(l("1/8")), border, Length::ZERO, None), None);
    assert_eq!(mat_sizes(&piece).board.size, size("20.75x24.75"));
    // Float: 11 × 14 with 1/2 of air -> 12 × 15 (common practice, no source).
    let piece = matted(size("11x14"), mat(OpeningRule::Float(l("1/2")), border, Length::ZERO, None), None);
    assert_eq!(mat_sizes(&piece).opening.size, size("12x15"));
    assert_eq!(piece.sheet.size, size("11x14"), "the sheet lies free in it");
    // Reveal: an image of 10 × 12 with 1/4 of its white border in view -> 10 1/2 × 12 1/2.
    let paper = Paper {
        border: l("1"),
        mat: Some(mat(OpeningRule::Reveal(l("1/4")), border, Length::ZERO, None)),
        frame: None,
        glazing: Glazing::None,
    };
    let piece = made(size("10x12"), Finish::Paper(paper));
    assert_eq!(mat_sizes(&piece).opening.size, size("10.5x12.5"));
    assert_eq!(piece.sheet.size, size("12x14"), "the image and 1 in of paper on each side");
}

#[test]
fn a_double_mat_and_a_bevel() {
    // The upper opening is larger by twice the reveal: 10 3/4 × 13 3/4 -> 11 1/4 × 14 1/4; a bevel of 45° in a board of 1/16 in
    // makes the hole at the face larger by 2 × 1/16 each way.
    let rule = OpeningRule::Overlap(l("1/8"));
    let stated = mat(rule, MatExtent::Board(size("16x20")), l("1/2"), Some(l("1/4")));
    let piece = matted(size("11x14"), stated, None);
    let found = mat_sizes(&piece);
    assert_eq!(found.opening.size, size("10.75x13.75"));
    assert_eq!(found.upper_opening.size, size("11.25x14.25"));
    assert_eq!(found.face_opening.size, size("11.375x14.375"));
    assert_eq!(found.borders.left, l("2.625"), "borders run to the opening at the art");
}

#[test]
fn a_frame_round_its_nominal_size() {
    // Nominal; face, rabbet width, allowance -> rabbet; sight; outside; moulding at the long points; by the shops' rule.
    let rows = [
        ("16x20", "1", "1/4", "1/8", "16.125x20.125", "15.625x19.625", "17.625x21.625", "78.5", "80"),
        ("24x36", "1 1/4", "1/4", "1/8", "24.125x36.125", "23.625x35.625", "26.125x38.125", "128.5", "130"),
        ("20x24", "2", "1/4", "1/8", "20.125x24.125", "19.625x23.625", "23.625x27.625", "102.5", "104"),
        ("11x14", "3/4", "3/16", "1/8", "11.125x14.125", "10.75x13.75", "12.25x15.25", "55", "56"),
        (
            "500 mm x 700 mm",
            "20 mm",
            "6 mm",
            "3 mm",
            "503 mm x 703 mm",
            "491 mm x 691 mm",
            "531 mm x 731 mm",
            "2524 mm",
            "2560 mm",
        ),
        (
            "400 mm x 500 mm",
            "30 mm",
            "7 mm",
            "2 mm",
            "402 mm x 502 mm",
            "388 mm x 488 mm",
            "448 mm x 548 mm",
            "1992 mm",
            "2040 mm",
        ),
        (
            "300 mm x 400 mm",
            "15 mm",
            "5 mm",
            "2 mm",
            "302 mm x 402 mm",
            "292 mm x 392 mm",
            "322 mm x 422 mm",
            "1488 mm",
            "1520 mm",
        ),
    ];
    for (nominal, face, width, allowance, rabbet, sight, outside, exact, rule) in rows {
        let paper = Paper {
            border: Length::ZERO,
            mat: None,
            frame: Some(frame(face, width, allowance)),
            glazing: Glazing::None,
        };
        let piece = made(size(nominal), Finish::Paper(paper));
        let found = frame_sizes(&piece);
        assert_eq!(found.nominal, size(nominal));
        assert_eq!(found.rabbet.size, size(rabbet), "{nominal}");
        assert_eq!(found.sight.size, size(sight), "{nominal}");
        assert_eq!(piece.outside, size(outside), "{nominal}");
        assert_eq!(found.moulding_exact, l(exact), "{nominal}");
        assert_eq!(found.moulding_by_rule, l(rule), "{nominal}");
    }
}

#[test]
fn what_the_lip_hides_of_a_mat() {
    // 1/4 - 1/8 / 2 = 3/16 on each side, so a border of 2 1/8 shows 1 15/16.
    let rule = OpeningRule::Overlap(l("1/8"));
    let stated = mat(rule, MatExtent::Border(l("2 1/8")), Length::ZERO, None);
    let piece = matted(size("16x20"), stated, Some(frame("3/4", "1/4", "1/8")));
    assert_eq!(frame_sizes(&piece).lip_hides, l("3/16"));
    assert_eq!(mat_sizes(&piece).visible_borders.even(), Some(l("1 15/16")));
    assert_eq!(piece.outside, size("21.125x25.125"));
    // From the outside edge: face 3/4, then what shows of the border.
    assert_eq!(mat_sizes(&piece).opening.x, l("2 11/16"));
}

#[test]
fn canvas_on_bars() {
    // Face; depth, fold -> printed with its edges; cloth.
    let rows = [
        ("16x20", "3/4", "1", "17.5x21.5", "19.5x23.5"),
        ("24x36", "1 1/2", "1", "27x39", "29x41"),
        ("24x36", "1 1/2", "1 1/2", "27x39", "30x42"),
        ("30x40", "1 1/2", "1", "33x43", "35x45"),
        ("12x12", "5/8", "1", "13.25x13.25", "15.25x15.25"),
        ("40x60", "2", "1", "44x64", "46x66"),
    ];
    for (face, depth, fold, printed, cloth) in rows {
        let canvas = Canvas { depth: l(depth), edge: Edge::Carried, fold: l(fold), floater: None };
        let piece = made(size(face), Finish::Canvas(canvas));
        assert_eq!(piece.picture.size, size(printed), "the picture goes round the edges of {face}");
        assert_eq!(piece.cloth, Some(size(cloth)), "{face}");
        assert_eq!((piece.outside, piece.depth), (size(face), l(depth)));
    }
    let mirrored = Canvas { depth: l("1 1/2"), edge: Edge::Mirrored, fold: l("1"), floater: None };
    let piece = made(size("24x36"), Finish::Canvas(mirrored));
    assert_eq!(piece.picture.size, size("24x36"), "mirrored edges take nothing from the face");
}

#[test]
fn a_floater_frame_round_a_canvas() {
    // 24 × 36 with 1/4 of air and a face of 3/8: inside 24 1/2 × 36 1/2, outside 25 1/4 × 37 1/4.
    let floater = Floater { gap: l("1/4"), face: l("3/8"), depth: l("2"), colour: Colour::hex(0) };
    let canvas = Canvas { depth: l("1 1/2"), edge: Edge::Mirrored, fold: l("1"), floater: Some(floater) };
    let piece = made(size("24x36"), Finish::Canvas(canvas));
    assert_eq!(piece.floater_inside.map(|inside| inside.size), Some(size("24.5x36.5")));
    assert_eq!(piece.outside, size("25.25x37.25"));
    assert_eq!(piece.depth, l("2"));
}

#[test]
fn aluminium_off_the_wall() {
    // A sheet of 0.045 in on blocks of 3/4 in stands 0.795 in off the wall.
    let sheet = Aluminium { thickness: l("0.045"), stand_off: l("3/4") };
    let piece = made(size("24x36"), Finish::Aluminium(sheet));
    assert_eq!((piece.outside, piece.depth), (size("24x36"), l("0.795")));
}

#[test]
fn what_can_not_be_cut_is_refused_with_a_sentence() {
    let check = |image: &str, mat: Mat, frame: Option<Frame>, expected: &str| {
        let paper = Paper { border: Length::ZERO, mat: Some(mat), frame, glazing: Glazing::None };
        let piece =
            Piece { picture: None, focus: Focus::MIDDLE, image: size(image), finish: Finish::Paper(paper) };
        let message = build_up(&piece).expect_err(expected).to_string();
        assert_eq!(message, expected);
    };
    let overlap = |by: &str| OpeningRule::Overlap(l(by));
    check(
        "4x6",
        mat(overlap("2"), MatExtent::Border(l("2")), Length::ZERO, None),
        None,
        "the mat's opening would be 0 in × 2 in; let the mat cover less of the sheet, or make the print larger",
    );
    check(
        "16x20",
        mat(overlap("1/8"), MatExtent::Board(size("15x19")), Length::ZERO, None),
        None,
        "the mat board would be -3/8 in wide beside its opening; choose a larger board or a smaller opening",
    );
}
