//! What lies in a frame and how it is shared out: stacks, weighted borders, sheets left over, several openings in one mat.
//!
//! No expected value here was computed by Overmantel: each table names its source, or was worked out on paper from the
//! geometry that stands above it. Numbers without a unit are inches, or millimetres where a row says so.

use overmantel::figures::Figures;
use overmantel::framing::stack::{Stack, StackPart};
use overmantel::framing::{BuildUp, FramingError, borders, build_up, build_up_shared, safe_margin};
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::length::{Length, Unit};
use overmantel::plan::{
    Align, Aluminium, Arrangement, Board, Canvas, Edge, Extent, Finish, Floater, Focus, Frame, Framing,
    Glazing, Group, GroupAcross, GroupUp, Mat, Material, OpeningRule, Original, Paper, Piece, Plan, Shared,
    SubFrame, Surround, Weighting,
};
use overmantel::rounding::Mode;
use overmantel_tests::given::{built, length, length_in, size_in};

const IN: Unit = Unit::Inch;
const MM: Unit = Unit::Millimetre;

fn piece(image: &str, finish: Finish) -> Piece {
    Piece { picture: None, focus: Focus::MIDDLE, image: size_in(image, IN), finish }
}

/// Whether a length is a decimal of four places, to the last of them.
#[track_caller]
fn close(found: Length, expected: f64, unit: Unit) {
    assert!((found.per(unit) - expected).abs() <= 0.000_05, "{} is not {expected}", found.per(unit));
}

/// The stack is the sum of what lies behind what; the paper is not counted. In inches: acrylic 1/8, mat 1/16, foam board 3/16
/// make 3/8 (common practice, no source). In millimetres, on paper: 2.5 + 1.4 + 1.4 + 5 = 10.3; 2 + 2 × 1.4 + 1.4 + 5 = 11.2.
#[test]
fn stacks() {
    let check = |unit, glazing: &str, [spacer, mat, mount, foam]: [&str; 4], double: bool, sum: &str| {
        let of = |text| length_in(text, unit);
        let framing = Framing {
            glazing: Glazing::Glass(of(glazing)),
            spacer: of(spacer),
            mat: Some(Mat {
                thickness: of(mat),
                inner_reveal: double.then(|| length("1/4")),
                ..Mat::starting()
            }),
            mount: Some(Board { material: Material::MatBoard, thickness: of(mount) }),
            backing: Some(Board { material: Material::FoamBoard, thickness: of(foam) }),
            ..Framing::starting()
        };
        let stack = Stack::package(&framing, Length::ZERO);
        assert_eq!(stack.thickness(), of(sum), "{glazing} + {spacer} + {mat} + {mount} + {foam}");
        stack
    };
    check(IN, "1/8", ["0", "1/16", "0", "3/16"], false, "3/8");
    check(MM, "2.5", ["0", "1.4", "1.4", "5"], false, "10.3");
    let double = check(MM, "2", ["0", "1.4", "1.4", "5"], true, "11.2");
    let order: Vec<StackPart> = double.layers.iter().map(|layer| layer.part).collect();
    let expected = [
        StackPart::Glazing(Material::Glass),
        StackPart::Mat,
        StackPart::InnerMat,
        StackPart::Mount(Material::MatBoard),
        StackPart::Backing(Material::FoamBoard),
    ];
    assert_eq!(order, expected, "from the front to the back");
    check(MM, "2", ["6", "1.4", "1.4", "5"], false, "15.8");
}

/// Spare depth = depth of the rabbet - stack; what does not go in stands out behind the frame and comes on top of its depth.
/// On paper, for the stack of 3/8 in: rabbets of 1/2, 3/8 and 1/4 leave 1/8, 0 and -1/8.
#[test]
fn the_rabbet_takes_the_stack_or_does_not() {
    let check = |rabbet: &str, spare: i64, depth: &str| {
        let framing = Framing {
            frame: Some(Frame { rabbet_depth: length(rabbet), depth: length("3/4"), ..Frame::starting() }),
            glazing: Glazing::Acrylic(length("1/8")),
            mount: None,
            ..Framing::starting()
        };
        let sizes = built(&piece("16x20", Finish::Paper(Paper { framing, ..Paper::starting() })));
        let left = sizes.frame.map(|frame| frame.spare_depth);
        assert_eq!(left, Some(Length::inches_ratio(spare, 8)), "rabbet {rabbet}");
        assert_eq!(sizes.depth, length(depth), "rabbet {rabbet}");
    };
    check("1/2", 1, "3/4");
    check("3/8", 0, "3/4");
    check("1/4", -1, "7/8");
    // Of a rabbet that is stated deeper than the moulding, 3/4 is there.
    check("3/4", 3, "3/4");
    check("2", 3, "3/4");
}

/// Foot and head: (H - o) divided as head : foot. With 3 : 4, 7 in give 3 and 4; 6.25 in 2.6786 and 3.5714; 206 mm 88.2857 and
/// 117.7143 (on paper). That 3 : 4 is a good ratio: US Navy training manual 14066.
#[test]
fn borders_weighted_by_a_ratio() {
    let ratio = Weighting::Ratio { head: 3, foot: 4 };
    let check = |unit, spare: &str, head: f64, foot: f64| {
        let inner = size_in("10x10", unit);
        let whole = Size::new(inner.width * 2, inner.height + length_in(spare, unit));
        let found = borders(inner, Surround { extent: Extent::Whole(whole), weighting: ratio });
        close(found.top, head, unit);
        close(found.bottom, foot, unit);
        assert_eq!(found.top + found.bottom, length_in(spare, unit), "nothing is lost");
        assert_eq!(found.left, found.right);
    };
    check(IN, "7", 3.0000, 4.0000);
    check(IN, "6.25", 2.6786, 3.5714);
    check(MM, "206", 88.2857, 117.7143);
    // By a border, the foot follows: 3 in at the head, 4 at the foot; 2 1/4 in and 3.
    let by = |border: &str| {
        borders(size_in("8x10", IN), Surround { extent: Extent::Border(length(border)), weighting: ratio })
    };
    assert_eq!(by("3"), Sides { bottom: length("4"), ..Sides::all(length("3")) });
    assert_eq!(by("2.25"), Sides { bottom: length("3"), ..Sides::all(length("2.25")) });
    // Another class text has 3 : 3 1/2 (common practice, no source).
    let other =
        Surround { extent: Extent::Border(length("3")), weighting: Weighting::Ratio { head: 6, foot: 7 } };
    assert_eq!(borders(size_in("8x10", IN), other).bottom, length("3.5"));
}

/// White paper: even, wider at the foot, or what is left of a sheet; the sheet is the sum. On paper.
#[test]
fn white_paper_round_an_image() {
    let sheet = |image: &str, extent: Extent, weighting: Weighting| {
        let framing = Framing::NONE;
        let paper = Paper { border: Surround { extent, weighting }, framing, ..Paper::starting() };
        build_up(&piece(image, Finish::Paper(paper)))
    };
    let found = sheet("16x20", Extent::Border(length("1")), Weighting::Extra(length("1/2")));
    let found = found.unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(found.sheet.size, size_in("18x22.5", IN));
    assert_eq!(found.image, Rect::new(length("1"), length("1.5"), size_in("16x20", IN)), "y is up");
    // 12 × 18 on 18 × 24 leaves 3 in all round; on A2 (420 × 594 mm), 57.6 mm and 68.4 mm.
    let found = sheet("12x18", Extent::Whole(size_in("18x24", IN)), Weighting::EVEN);
    assert_eq!(found.map(|found| found.sheet_borders), Ok(Sides::all(length("3"))));
    let found = sheet("12x18", Extent::Whole(size_in("420x594", MM)), Weighting::EVEN);
    let borders = found.map(|found| found.sheet_borders).unwrap_or_default();
    assert_eq!((borders.left, borders.right), (length_in("57.6", MM), length_in("57.6", MM)));
    assert_eq!((borders.top, borders.bottom), (length_in("68.4", MM), length_in("68.4", MM)));
    // A sheet that is smaller than its image, by one thousandth; and one of its very size.
    assert!(sheet("16x20", Extent::Whole(size_in("16x20", IN)), Weighting::EVEN).is_ok());
    let smaller = sheet("16x20", Extent::Whole(size_in("15.998x20", IN)), Weighting::EVEN);
    assert!(matches!(smaller, Err(FramingError::NoSheet { .. })), "{smaller:?}");
    let message = smaller.err().map(|why| why.to_string()).unwrap_or_default();
    assert!(message.contains("16 in × 20 in") && message.contains("choose a larger sheet"), "{message}");
}

fn group(arrangement: Arrangement, align: Align) -> Group {
    let (across, up) = (GroupAcross::WallMiddle, GroupUp::EyeLevel);
    Group { arrangement, gap: length("3"), align, across, up }
}

/// Pieces behind one mat on a board, whose openings are the sheets.
fn shared(
    images: &[&str],
    board: &str,
    bar: &str,
    arrangement: Arrangement,
    align: Align,
) -> Result<Vec<BuildUp>, FramingError> {
    let mat = Mat {
        opening: OpeningRule::Overlap(Length::ZERO),
        surround: Surround::whole(size_in(board, IN)),
        ..Mat::starting()
    };
    let framing = Framing { mat: Some(mat), ..Framing::NONE };
    let pieces: Vec<Piece> = images
        .iter()
        .map(|image| piece(image, Finish::Paper(Paper { framing: framing.clone(), ..Paper::starting() })))
        .collect();
    build_up_shared(&pieces, Shared { bar: length(bar) }, &group(arrangement, align))
}

/// One mat with several openings: side = (W - Σo - (n - 1) g) / 2, the i-th opening begins at side + i (o + g). On paper: 40 in
/// with three of 7.75 in and bars of 2 in leave 6.375; 32 in with two of 9.75 in and 2 in leave 5.25.
#[test]
fn openings_in_one_mat() {
    let lefts = |images: &[&str], board: &str| -> Vec<Length> {
        let found =
            shared(images, board, "2", Arrangement::Row, Align::Centre).unwrap_or_else(|why| panic!("{why}"));
        assert!(found.iter().all(|sizes| sizes.outside == size_in(board, IN)), "one board for all");
        found.iter().filter_map(|sizes| Some(sizes.mat.as_ref()?.opening.x)).collect()
    };
    assert_eq!(lefts(&["7.75x9.75"; 3], "40x16"), [length("6.375"), length("16.125"), length("25.875")]);
    assert_eq!(lefts(&["9.75x7.75"; 2], "32x16"), [length("5.25"), length("17")]);
    // A column goes from the top down: 3 in to the first opening, 3 + 9.75 + 2 to the second.
    let column = shared(&["7.75x9.75"; 2], "16x27.5", "2", Arrangement::Column, Align::Centre);
    let tops: Vec<Length> =
        column.iter().flatten().filter_map(|sizes| Some(sizes.mat.as_ref()?.borders.top)).collect();
    assert_eq!(tops, [length("3"), length("14.75")]);
    // Unequal openings on one lower line.
    let row = shared(&["8x10", "5x7"], "24x16", "2", Arrangement::Row, Align::End);
    let feet: Vec<Length> = row.iter().flatten().map(|sizes| sizes.window.y).collect();
    assert_eq!(feet, [length("3"), length("3")]);
}

/// A bar is at least wider than reveal and bevel take of it, twice: with a single mat of 1/16 in, more than 1/8 in.
#[test]
fn a_bar_that_is_used_up() {
    let bar = |bar: &str| shared(&["8x10"; 2], "24x16", bar, Arrangement::Row, Align::Centre);
    assert!(bar(".126").is_ok());
    assert!(matches!(bar(".125"), Err(FramingError::NoBar { .. })));
    let message = bar("0").err().map(|why| why.to_string()).unwrap_or_default();
    assert!(message.contains("make it wider"), "{message}");
}

/// In one frame all pieces hang as one: one outside, one pair of hooks, and the frame's nominal size is the board.
#[test]
fn a_shared_frame_hangs_as_one() {
    let plan = Plan { shared: Some(Shared { bar: length("2") }), ..Plan::starting() };
    let figures = Figures::of(&plan).unwrap_or_else(|why| panic!("{why}"));
    // Three openings of 15.75 with two bars of 2 and 2.125 at both sides: 55.5; and 19.75 + 2 × 2.125 = 24.
    let nominal = figures.build_ups[0].frame.as_ref().map(|frame| frame.nominal);
    assert_eq!(nominal, Some(size_in("55.5x24", IN)));
    // Outside = nominal + 1/8 + 2 × (3/4 - 1/4).
    assert_eq!(figures.arranged.group.size, size_in("56.625x25.125", IN));
    assert_eq!(figures.arranged.outsides, vec![figures.arranged.group; 3]);
    assert_eq!(figures.hanging[0], figures.hanging[2]);
    let scene = overmantel::scene::scene(&plan, &figures);
    assert_eq!((scene.pieces.len(), scene.hooks.len()), (1, 2));
    // What cannot share: a single piece, steps, a piece without a mat.
    let refused = |change: &dyn Fn(&mut Plan), word: &str| {
        let mut plan = plan.clone();
        change(&mut plan);
        let why = plan.check().map_or_else(|why| why.to_string(), |()| String::new());
        assert!(why.contains(word), "{why}");
    };
    refused(&|plan| plan.pieces.truncate(1), "two or three pieces");
    refused(&|plan| plan.group.arrangement = Arrangement::Stepped(length("4")), "not in steps");
    refused(&|plan| plan.pieces[1].finish = Finish::Canvas(Canvas::starting()), "need a mat");
}

/// An original: bare, in a frame with a lip, in a floater frame. Frame: outside = n + A + 2 (F - R); floater: n + 2 (gap + face).
#[test]
fn originals_framed_or_not() {
    let of = |original: Original| built(&piece("18x24", Finish::Original(original)));
    let bare = of(Original::starting());
    assert_eq!((bare.outside, bare.depth), (size_in("18x24", IN), length("3/4")));
    let framing = Framing { frame: Some(Frame::starting()), ..Framing::NONE };
    let framed = of(Original { depth: length("1/4"), framing, ..Original::starting() });
    assert_eq!(framed.outside, size_in("19.125x25.125", IN));
    assert_eq!(framed.frame.map(|frame| frame.spare_depth), Some(length("3/8")), "5/8 - 1/4");
    let floater = Floater { gap: length("1/4"), face: length("3/8"), ..Floater::starting() };
    let floated = of(Original { floater: Some(floater), ..Original::starting() });
    assert_eq!(floated.outside, size_in("19.25x25.25", IN));
    let both = Original {
        framing: Framing { frame: Some(Frame::starting()), ..Framing::NONE },
        floater: Some(Floater::starting()),
        ..Original::starting()
    };
    let mut plan = Plan::starting();
    plan.pieces[0].finish = Finish::Original(both);
    assert!(
        plan.check().map_or_else(|why| why.to_string(), |()| String::new()).contains("remove one of them")
    );
}

/// Depth of a metal sheet = sheet + stand-off: 0.045 + 0.75 = 0.795 in. Its bars have to leave room for each other.
#[test]
fn metal_sheets() {
    let sheet = Aluminium {
        corner_radius: length("1/4"),
        sub_frame: Some(SubFrame::starting()),
        ..Aluminium::starting()
    };
    let sizes = built(&piece("24x36", Finish::Aluminium(sheet.clone())));
    assert_eq!((sizes.depth, sizes.corner_radius), (length(".795"), length("1/4")));
    let check = |change: &dyn Fn(&mut Aluminium), is_good: bool| {
        let mut plan = Plan::starting();
        let mut changed = sheet.clone();
        change(&mut changed);
        plan.pieces[0].finish = Finish::Aluminium(changed);
        assert_eq!(plan.check().is_ok(), is_good, "{:?}", plan.check());
    };
    // A piece of 16 × 20: no corner is larger than 8 in, no bar reaches past the middle.
    check(&|sheet| sheet.corner_radius = length("8"), true);
    check(&|sheet| sheet.corner_radius = length("8.001"), false);
    check(&|sheet| sheet.sub_frame = Some(SubFrame { from_edges: length("6"), width: length("2") }), true);
    check(
        &|sheet| sheet.sub_frame = Some(SubFrame { from_edges: length("6"), width: length("2.001") }),
        false,
    );
}

/// A signature keeps clear of the fold: by the depth of the bars and 1/4 in where the picture is carried round (common
/// practice, no source), by the 1/4 in alone where it is not.
#[test]
fn a_safe_margin_for_a_signature() {
    let canvas = |edge| Canvas { depth: length("1.5"), edge, ..Canvas::starting() };
    assert_eq!(safe_margin(&canvas(Edge::Carried)), length("1.75"));
    assert_eq!(safe_margin(&canvas(Edge::Mirrored)), length(".25"));
}

/// What the lip hides is taken from every border: 2 1/8 - (1/4 - 1/16) = 1 15/16 in.
#[test]
fn borders_in_view() {
    let sizes = built(&Piece::starting());
    let seen = sizes.mat.map(|mat| mat.visible_borders);
    assert_eq!(seen, Some(Sides::all(Length::from_ratio(i128::from(length("31").units()), 16, Mode::Down))));
}
