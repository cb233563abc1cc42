//! Mats, frames, canvases and metal sheets against worked examples.
//!
//! No expected value here was computed by Overmantel: each table names its source, or was worked out on paper from the
//! geometry that stands above it. Numbers without a unit are inches, or millimetres where a row says so.

use overmantel::figures::Figures;
use overmantel::framing::stack::Stack;
use overmantel::framing::{FramingError, build_up};
use overmantel::geometry::{Sides, Size};
use overmantel::length::{Length, Unit};
use overmantel::plan::{
    Aluminium, Canvas, Edge, Extent, Finish, Floater, Focus, Frame, Framing, Glazing, Mat, OpeningRule,
    Paper, Picture, Piece, Plan, Surround, Weighting,
};
use overmantel::print::Source;
use overmantel::scene::{Layer, scene};
use overmantel_tests::given::{built, length_in, sides_in, size_in};

const IN: Unit = Unit::Inch;
const MM: Unit = Unit::Millimetre;

fn print_on_paper(image: Size, border: Length, mat: Option<Mat>, frame: Option<Frame>) -> Piece {
    let framing = Framing { mat, frame, ..Framing::NONE };
    let finish = Finish::Paper(Paper { border: Surround::even(border), framing, ..Paper::starting() });
    Piece { picture: None, focus: Focus::MIDDLE, image, finish }
}

fn mat(opening: OpeningRule, extent: Extent) -> Mat {
    Mat { opening, surround: Surround { extent, weighting: Weighting::EVEN }, ..Mat::starting() }
}

/// A board, the art in it, the overlap and the foot's extra give the opening and the borders.
#[track_caller]
fn check_board(unit: Unit, [board, art, overlap, foot]: [&str; 4], opening: &str, borders: &str) {
    let stated = Mat {
        surround: Surround {
            extent: Extent::Whole(size_in(board, unit)),
            weighting: Weighting::Extra(length_in(foot, unit)),
        },
        ..mat(OpeningRule::Overlap(length_in(overlap, unit)), Extent::Border(Length::ZERO))
    };
    let sizes = built(&print_on_paper(size_in(art, unit), Length::ZERO, Some(stated), None));
    let cut = sizes.mat.unwrap_or_else(|| panic!("no mat"));
    assert_eq!(cut.opening.size, size_in(opening, unit), "opening of {art} in {board}");
    assert_eq!(cut.borders, sides_in(borders, unit), "borders of {art} in {board}");
    assert_eq!(cut.board.size, size_in(board, unit));
    assert_eq!((cut.opening.x, cut.opening.y), (cut.borders.left, cut.borders.bottom), "y is up");
    assert_eq!(sizes.outside, size_in(board, unit), "without a frame the board is the outside");
}

/// Opening = art - 2 × overlap; side = (W - opening) / 2; head = (H - opening - extra) / 2; foot = head + extra. On paper.
#[test]
fn borders_from_a_board() {
    check_board(IN, ["11x14", "8x10", ".125", "0"], "7.75x9.75", "1.625, 2.125, 1.625, 2.125");
    check_board(IN, ["16x20", "11x14", ".125", ".5"], "10.75x13.75", "2.625, 2.875, 2.625, 3.375");
    check_board(IN, ["20x24", "16x20", ".125", "0"], "15.75x19.75", "2.125, 2.125, 2.125, 2.125");
    check_board(IN, ["24x36", "20x30", ".125", ".5"], "19.75x29.75", "2.125, 2.875, 2.125, 3.375");
    check_board(IN, ["18x24", "12x18", ".125", ".25"], "11.75x17.75", "3.125, 3, 3.125, 3.25");
    check_board(MM, ["400x500", "240x300", "3", "10"], "234x294", "83, 98, 83, 108");
    check_board(MM, ["500x700", "400x600", "3", "15"], "394x594", "53, 45.5, 53, 60.5");
    // A print on 30 x 40 of the ratio of 24 x 36: uneven, and right.
    check_board(IN, ["30x40", "24x36", ".125", "0"], "23.75x35.75", "3.125, 2.125, 3.125, 2.125");
}

/// Examples as framers print them: common practice, no source that could be named.
#[test]
fn borders_as_the_trade_prints_them() {
    check_board(IN, ["11x14", "8x10", ".25", "0"], "7.5x9.5", "1.75, 2.25, 1.75, 2.25");
    check_board(IN, ["24x30", "19x22", "0", "0"], "19x22", "2.5, 4, 2.5, 4");
    check_board(IN, ["18x24", "12x18", ".125", "0"], "11.75x17.75", "3.125, 3.125, 3.125, 3.125");
}

/// Canadian Conservation Institute, Notes 11/5, prints mats and their sizes in centimetres to one decimal; a board stated so
/// is taken as stated, and the borders are what is left of it (on paper): (71.1 - 50.8) / 2 = 10.15.
#[test]
fn a_board_stated_in_centimetres() {
    let unit = Unit::Centimetre;
    check_board(unit, ["71.1x55.9", "50.8x40.6", "0", "0"], "50.8x40.6", "10.15, 7.65, 10.15, 7.65");
    check_board(unit, ["91.4x71.1", "50.8x40.6", "0.3", "0"], "50.2x40", "20.6, 15.55, 20.6, 15.55");
}

/// A border stated gives the board: W = opening + 2 × border, H = opening + 2 × border + extra. On paper.
#[test]
fn a_board_from_its_borders() {
    let check = |unit, [art, overlap, border, foot]: [&str; 4], board: &str| {
        let stated = Mat {
            surround: Surround {
                extent: Extent::Border(length_in(border, unit)),
                weighting: Weighting::Extra(length_in(foot, unit)),
            },
            ..mat(OpeningRule::Overlap(length_in(overlap, unit)), Extent::Border(Length::ZERO))
        };
        let sizes = built(&print_on_paper(size_in(art, unit), Length::ZERO, Some(stated), None));
        assert_eq!(sizes.mat.map(|cut| cut.board.size), Some(size_in(board, unit)), "{art}, {border}");
    };
    check(IN, ["16x20", ".125", "2.125", "0"], "20x24");
    check(IN, ["8x10", ".25", "1.75", "1"], "11x14");
    check(IN, ["11x14", ".125", "2.625", ".5"], "16x19.5");
    check(MM, ["400x600", "3", "53", "15"], "500x715");
}

/// Which rectangle the opening follows: the sheet less the overlap, the image and its rim, the sheet and the air round it.
/// On paper; that a floated sheet has 1/4 to 1 in of air is common practice, no source.
#[test]
fn opening_rules() {
    let check = |image: &str, border: &str, rule: OpeningRule, opening: &str, seen: &str| {
        let stated = mat(rule, Extent::Border(Length::inches(3)));
        let sizes = built(&print_on_paper(size_in(image, IN), length_in(border, IN), Some(stated), None));
        assert_eq!(sizes.mat.map(|cut| cut.opening.size), Some(size_in(opening, IN)), "{image} {rule:?}");
        let common = sizes.sheet.common(sizes.window).map(|rect| rect.size);
        assert_eq!(common, Some(size_in(seen, IN)), "what of the sheet is seen: {image} {rule:?}");
        assert_eq!(sizes.image.centre(), sizes.sheet.centre());
    };
    let by = |text| length_in(text, IN);
    check("8x10", "0", OpeningRule::Overlap(by(".125")), "7.75x9.75", "7.75x9.75");
    check("8x10", "0", OpeningRule::Overlap(by(".25")), "7.5x9.5", "7.5x9.5");
    check("8x10", "1", OpeningRule::Overlap(by(".25")), "9.5x11.5", "9.5x11.5");
    check("16x20", "1", OpeningRule::Reveal(by(".25")), "16.5x20.5", "16.5x20.5");
    check("16x20", "1", OpeningRule::Reveal(by("0")), "16x20", "16x20");
    check("11x14", "0", OpeningRule::Float(by(".5")), "12x15", "11x14");
    check("9x12", "1", OpeningRule::Float(by(".5")), "12x15", "11x14");
}

/// An inner mat shows its reveal on every side: upper opening = opening + 2 × reveal. A bevel of 45° in a board of
/// thickness t is t wide from the front, so the face is 2t larger. On paper.
#[test]
fn double_mats_and_bevels() {
    let check = |unit, art: &str, reveal: Option<&str>, thickness: &str, upper: &str, face: &str| {
        let rule = OpeningRule::Overlap(Length::ZERO);
        let stated = Mat {
            inner_reveal: reveal.map(|text| length_in(text, unit)),
            thickness: length_in(thickness, unit),
            ..mat(rule, Extent::Border(Length::inches(3)))
        };
        let cut = built(&print_on_paper(size_in(art, unit), Length::ZERO, Some(stated), None)).mat;
        let cut = cut.unwrap_or_else(|| panic!("no mat"));
        assert_eq!(cut.opening.size, size_in(art, unit), "the opening at the art is the inner mat's");
        assert_eq!(cut.upper_opening.size, size_in(upper, unit), "{art}, upper opening");
        assert_eq!(cut.face_opening.size, size_in(face, unit), "{art}, at the face");
        assert_eq!(cut.borders, Sides::all(Length::inches(3)), "borders are to the art");
    };
    check(IN, "10.75x13.75", Some(".25"), "0", "11.25x14.25", "11.25x14.25");
    check(IN, "10.75x13.75", Some(".25"), ".0625", "11.25x14.25", "11.375x14.375");
    check(IN, "7.75x9.75", None, ".0625", "7.75x9.75", "7.875x9.875");
    check(MM, "234x294", None, "1.4", "234x294", "236.8x296.8");
    check(MM, "234x294", None, "3", "234x294", "240x300");
    check(MM, "234x294", Some("6"), "1.5", "246x306", "249x309");
}

/// n, then face, rabbet and allowance; rabbet size, sight, outside, moulding exactly and by the shops' rule.
#[track_caller]
fn check_frame(unit: Unit, nominal: &str, [face, lip, play]: [&str; 3], expected: [&str; 5]) {
    let stated = Frame {
        face: length_in(face, unit),
        rabbet_width: length_in(lip, unit),
        allowance: length_in(play, unit),
        ..Frame::starting()
    };
    let sizes = built(&print_on_paper(size_in(nominal, unit), Length::ZERO, None, Some(stated)));
    let frame = sizes.frame.unwrap_or_else(|| panic!("no frame"));
    assert_eq!(frame.nominal, size_in(nominal, unit));
    assert_eq!(frame.rabbet.size, size_in(expected[0], unit), "rabbet of {nominal}");
    assert_eq!(frame.sight.size, size_in(expected[1], unit), "sight of {nominal}");
    assert_eq!(sizes.outside, size_in(expected[2], unit), "outside of {nominal}");
    assert_eq!(frame.moulding_exact, length_in(expected[3], unit), "moulding of {nominal}");
    assert_eq!(frame.moulding_by_rule, length_in(expected[4], unit), "moulding of {nominal} by rule");
}

/// rabbet = n + A; sight = n + A - 2R; outside = n + A + 2(F - R); moulding 2(W + H) of the outside, by rule 2(w + h) + 8F. On
/// paper; 1/8 in of allowance and a lip of 1/4 in are common practice, no source.
#[test]
fn frames() {
    let row = |unit, nominal, stated, expected| check_frame(unit, nominal, stated, expected);
    row(IN, "16x20", ["1", ".25", ".125"], ["16.125x20.125", "15.625x19.625", "17.625x21.625", "78.5", "80"]);
    row(
        IN,
        "24x36",
        ["1.25", ".25", ".125"],
        ["24.125x36.125", "23.625x35.625", "26.125x38.125", "128.5", "130"],
    );
    row(
        IN,
        "20x24",
        ["2", ".25", ".125"],
        ["20.125x24.125", "19.625x23.625", "23.625x27.625", "102.5", "104"],
    );
    row(IN, "11x14", [".75", ".1875", ".125"], ["11.125x14.125", "10.75x13.75", "12.25x15.25", "55", "56"]);
    row(MM, "500x700", ["20", "6", "3"], ["503x703", "491x691", "531x731", "2524", "2560"]);
    row(MM, "400x500", ["30", "7", "2"], ["402x502", "388x488", "448x548", "1992", "2040"]);
    row(MM, "300x400", ["15", "5", "2"], ["302x402", "292x392", "322x422", "1488", "1520"]);
    // A lip as wide as the face, and no play.
    row(IN, "16x20", [".25", ".25", "0"], ["16x20", "15.5x19.5", "16x20", "72", "74"]);
    // Rule and example as framers print them: a face of 2 in adds 8 x 2 (common practice, no source).
    row(IN, "16x20", ["2", ".25", ".125"], ["16.125x20.125", "15.625x19.625", "19.625x23.625", "86.5", "88"]);
}

/// The lip hides R - A/2 of each border: 1/4 - 1/16 = 3/16 in. On paper.
#[test]
fn borders_that_remain_to_be_seen() {
    let check = |unit, [board, art, overlap, foot]: [&str; 4], [face, lip, play]: [&str; 3], hidden, seen| {
        let stated = Mat {
            surround: Surround {
                extent: Extent::Whole(size_in(board, unit)),
                weighting: Weighting::Extra(length_in(foot, unit)),
            },
            ..mat(OpeningRule::Overlap(length_in(overlap, unit)), Extent::Border(Length::ZERO))
        };
        let frame = Frame {
            face: length_in(face, unit),
            rabbet_width: length_in(lip, unit),
            allowance: length_in(play, unit),
            ..Frame::starting()
        };
        let sizes = built(&print_on_paper(size_in(art, unit), Length::ZERO, Some(stated), Some(frame)));
        let (mat, frame) = (sizes.mat.unwrap_or_else(|| panic!()), sizes.frame.unwrap_or_else(|| panic!()));
        assert_eq!(frame.lip_hides, length_in(hidden, unit));
        assert_eq!(mat.visible_borders, sides_in(seen, unit), "{art} in {board}");
        assert_eq!(mat.opening.x, length_in(face, unit) + mat.visible_borders.left);
        // The same, measured on the frame: from the sight edge to the opening.
        assert_eq!(mat.opening.x - frame.sight.x, mat.visible_borders.left);
        assert_eq!(frame.sight.right() - mat.opening.right(), mat.visible_borders.right);
        assert_eq!(frame.sight.top() - mat.opening.top(), mat.visible_borders.top);
        assert_eq!(mat.opening.y - frame.sight.y, mat.visible_borders.bottom);
    };
    let usual = [".75", ".25", ".125"];
    // 16 x 20 in a border of 2 1/8 and a face of 3/4: outside 21 1/8 x 25 1/8, and the opening 3/4 + 1 15/16 from its edge.
    check(IN, ["20x24", "16x20", ".125", "0"], usual, ".1875", "1.9375, 1.9375, 1.9375, 1.9375");
    check(IN, ["16x20", "11x14", ".125", ".5"], usual, ".1875", "2.4375, 2.6875, 2.4375, 3.1875");
    check(MM, ["500x700", "400x600", "3", "15"], ["20", "6", "3"], "4.5", "48.5, 41, 48.5, 56");
}

/// Printed area (w + 2d, h + 2d); cloth (w + 2(d + f), h + 2(d + f)). On paper.
#[test]
fn canvas_sizes() {
    let check = |face: &str, depth: &str, fold: &str, printed: &str, cloth: &str| {
        let canvas = Canvas {
            depth: length_in(depth, IN),
            edge: Edge::Carried,
            fold: length_in(fold, IN),
            ..Canvas::starting()
        };
        let made = |edge| Piece {
            picture: None,
            focus: Focus::MIDDLE,
            image: size_in(face, IN),
            finish: Finish::Canvas(Canvas { edge, ..canvas.clone() }),
        };
        let sizes = built(&made(Edge::Carried));
        assert_eq!(sizes.picture.size, size_in(printed, IN), "printed area of {face}");
        assert_eq!(sizes.cloth, Some(size_in(cloth, IN)), "cloth of {face}");
        assert_eq!((sizes.outside, sizes.depth), (size_in(face, IN), length_in(depth, IN)));
        // Mirrored, the picture is on the face alone; the cloth is the same.
        let mirrored = built(&made(Edge::Mirrored));
        assert_eq!((mirrored.picture.size, mirrored.cloth), (size_in(face, IN), Some(size_in(cloth, IN))));
    };
    check("16x20", ".75", "1", "17.5x21.5", "19.5x23.5");
    check("24x36", "1.5", "1", "27x39", "29x41");
    check("24x36", "1.5", "1.5", "27x39", "30x42");
    check("30x40", "1.5", "1", "33x43", "35x45");
    check("12x12", ".625", "1", "13.25x13.25", "15.25x15.25");
    check("40x60", "2", "1", "44x64", "46x66");
}

/// Carried round the edges, the face of a canvas shows the file less d on every side: 1 - wh / ((w + 2d)(h + 2d)) of it goes to
/// the edges. Files of 150 pixels to the inch of the printed area; all on paper.
#[test]
fn what_the_face_of_a_carried_canvas_shows() {
    let check = |face: &str, depth: &str, [width_px, height_px]: [u32; 2], margin_px: u32, lost: f64| {
        let canvas = Canvas {
            depth: length_in(depth, IN),
            edge: Edge::Carried,
            fold: Length::inches(1),
            ..Canvas::starting()
        };
        let finish = Finish::Canvas(canvas);
        let plan = Plan {
            pictures: vec![Picture {
                name: "p".to_owned(),
                file: "p.jpg".to_owned(),
                width_px,
                height_px,
                subject: None,
            }],
            pieces: vec![Piece { picture: Some(0), focus: Focus::MIDDLE, image: size_in(face, IN), finish }],
            ..Plan::starting()
        };
        let figures = Figures::of(&plan).unwrap_or_else(|error| panic!("{error}"));
        let cut = figures.cuts[0].unwrap_or_else(|| panic!("no cut"));
        assert_eq!(cut.pixels_per_inch, 150.into(), "{face}");
        let shown: Vec<Source> = scene(&plan, &figures).pieces[0]
            .layers
            .iter()
            .filter_map(|layer| match layer {
                Layer::Picture { shows: Some((_, source)), .. } => Some(*source),
                _ => None,
            })
            .collect();
        let [source] = shown[..] else { panic!("{} pictures", shown.len()) };
        let margin = i128::from(margin_px);
        assert_eq!((source.left, source.top), (margin.into(), margin.into()), "{face}");
        assert_eq!(source.width, (i128::from(width_px) - 2 * margin).into(), "{face}");
        assert_eq!(source.height, (i128::from(height_px) - 2 * margin).into(), "{face}");
        let kept = f64::from(width_px - 2 * margin_px) * f64::from(height_px - 2 * margin_px);
        let share = 1.0 - kept / (f64::from(width_px) * f64::from(height_px));
        assert!((share * 100.0 - lost).abs() <= 0.005, "{face}: {share}");
    };
    check("24x36", "1.5", [4050, 5850], 225, 17.95);
    check("30x40", "1.5", [4950, 6450], 225, 15.43);
    check("40x60", "2", [6600, 9600], 300, 14.77);
}

/// Inside = canvas + 2 × gap; outside = inside + 2 × face. On paper.
#[test]
fn floater_frames() {
    let check =
        |face: &str, [gap, width, depth, bars]: [&str; 4], inside: &str, outside: &str, over_all: &str| {
            let floater = Floater {
                gap: length_in(gap, IN),
                face: length_in(width, IN),
                depth: length_in(depth, IN),
                ..Floater::starting()
            };
            let canvas = Canvas { depth: length_in(bars, IN), floater: Some(floater), ..Canvas::starting() };
            let finish = Finish::Canvas(canvas);
            let sizes =
                built(&Piece { picture: None, focus: Focus::MIDDLE, image: size_in(face, IN), finish });
            assert_eq!(sizes.floater_inside.map(|inside| inside.size), Some(size_in(inside, IN)));
            assert_eq!(sizes.outside, size_in(outside, IN));
            assert_eq!(sizes.depth, length_in(over_all, IN), "the deeper of canvas and frame");
            assert_eq!(sizes.image.size, size_in(face, IN), "nothing of the face is hidden");
        };
    check("24x36", [".25", ".375", "2", "1.5"], "24.5x36.5", "25.25x37.25", "2");
    check("16x20", [".125", ".5", "1.5", "1.75"], "16.25x20.25", "17.25x21.25", "1.75");
    check("12x12", ["0", ".375", "1.5", "1.5"], "12x12", "12.75x12.75", "1.5");
}

/// Depth over all = sheet + float block: 0.045 + 0.75 = 0.795 in. On paper; the sheet's 0.045 in (1.143 mm) from memory.
#[test]
fn aluminium() {
    let sheet = Aluminium {
        thickness: length_in(".045", IN),
        stand_off: length_in(".75", IN),
        ..Aluminium::starting()
    };
    let finish = Finish::Aluminium(sheet);
    let sizes = built(&Piece { picture: None, focus: Focus::MIDDLE, image: size_in("24x36", IN), finish });
    assert_eq!(sizes.depth, length_in(".795", IN));
    assert_eq!(sizes.depth, length_in("20.193", MM), "1.143 + 19.05");
    assert_eq!(sizes.outside, size_in("24x36", IN));
    assert_eq!((sizes.mat, sizes.frame, sizes.cloth), (None, None, None));
}

/// What can't be cut is refused with the numbers and a way out. On paper.
#[test]
fn pieces_without_an_answer() {
    let check = |piece: Piece, expected: FramingError, sentence: &str| {
        let error = build_up(&piece).expect_err(sentence);
        assert_eq!(error, expected);
        assert_eq!(error.to_string(), sentence);
    };
    let overlap = |by| OpeningRule::Overlap(length_in(by, IN));
    let wide = Extent::Border(Length::inches(3));
    check(
        print_on_paper(size_in("4x6", IN), Length::ZERO, Some(mat(overlap("2"), wide)), None),
        FramingError::NoOpening { opening: size_in("0x2", IN) },
        "the mat opening would be 0 in × 2 in; let the mat cover less of the sheet, or make the print larger",
    );
    let small = Extent::Whole(size_in("8x10", IN));
    check(
        print_on_paper(size_in("8x10", IN), Length::ZERO, Some(mat(overlap("0"), small)), None),
        FramingError::NoBorder { border: Length::ZERO },
        "the mat board would be 0 in wide beside its opening; choose a larger board or a smaller opening",
    );
    let smaller = Extent::Whole(size_in("15x19", IN));
    check(
        print_on_paper(size_in("16x20", IN), Length::ZERO, Some(mat(overlap(".125"), smaller)), None),
        FramingError::NoBorder { border: length_in("-.375", IN) },
        "the mat board would be -3/8 in wide beside its opening; choose a larger board or a smaller opening",
    );
    let lip = Frame { rabbet_width: length_in("2", IN), face: length_in("3", IN), ..Frame::starting() };
    check(
        print_on_paper(size_in("3.875x6", IN), Length::ZERO, None, Some(lip)),
        FramingError::NoSight { sight: size_in("0x2.125", IN) },
        "the frame's lip would leave 0 in × 2 1/8 in visible; choose a narrower rabbet (rebate) or a larger print",
    );
}

/// A work that floats takes depth for what it is thicker than the mat and the air before it: 1 in behind 1/16 in of mat and 1/4 in of
/// spacer is 11/16 in more. Without glazing there is nothing to hold off, and no spacer.
#[test]
fn what_floats_takes_its_depth() {
    let by = |text: &str| length_in(text, IN);
    let mat = Mat { opening: OpeningRule::Float(by("1/2")), ..Mat::starting() };
    let framing = Framing { mat: Some(mat), spacer: by("1/4"), ..Framing::starting() };
    // 2 mm of glass, 1/16 in of mount, 3/16 in of backing.
    let before = Length::mm(2) + by("1/4") + by("1/16");
    let behind = by("1/16") + by("3/16");
    let thickness = |framing: &Framing, depth| Stack::package(framing, by(depth)).thickness();
    assert_eq!(thickness(&framing, "5/16"), before + behind);
    assert_eq!(thickness(&framing, "1"), before + by("11/16") + behind);
    let bare = Framing { glazing: Glazing::None, ..framing };
    assert_eq!(thickness(&bare, "1"), by("1") + behind, "1/16 in of mat, and 15/16 more");
}
