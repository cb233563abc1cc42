//! Where everything of a piece lies, measured from the lower left corner of its outside, against worked examples.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper from the sizes that stand beside them. Numbers are
//! inches.

use overmantel::framing::stack::StackPart;
use overmantel::framing::{BuildUp, FramingError, build_up, floater_recess};
use overmantel::geometry::{Rect, Sides};
use overmantel::length::Length;
use overmantel::plan::{
    Canvas, Edge, Extent, Finish, Floater, Focus, Frame, Framing, Mat, Material, OpeningRule, Original,
    Paper, Piece, Surround, Weighting,
};
use overmantel_tests::given::{length, size};

#[track_caller]
fn rect(x: &str, y: &str, text: &str) -> Rect {
    Rect::new(length(x), length(y), size(text))
}

#[track_caller]
fn built(image: &str, finish: Finish) -> BuildUp {
    let piece = Piece { picture: None, focus: Focus::MIDDLE, image: size(image), finish };
    build_up(&piece).unwrap_or_else(|error| panic!("{error}"))
}

/// Face 1, lip 1/4, play 1/8: the lip hides 3/16, so that what is in the frame begins at 1 - 3/16 = 13/16.
fn frame() -> Frame {
    Frame { face: length("1"), rabbet_width: length("1/4"), allowance: length("1/8"), ..Frame::starting() }
}

/// 8 x 10 on 10 x 12, of which 1/4 round the image is seen: opening 8 1/2 x 10 1/2. Board 3 on three sides and 4 at the foot:
/// 14 1/2 x 17 1/2. Outside = 14 1/2 + 1/8 + 2 × (1 - 1/4) = 16 1/8, and 19 1/8 high.
#[test]
fn a_print_in_two_mats_and_a_frame() {
    let mat = Mat {
        opening: OpeningRule::Reveal(length("1/4")),
        surround: Surround { extent: Extent::Border(length("3")), weighting: Weighting::Extra(length("1")) },
        inner_reveal: Some(length("1/4")),
        ..Mat::starting()
    };
    let framing = Framing { frame: Some(frame()), mat: Some(mat), ..Framing::starting() };
    let border = Surround::even(length("1"));
    let sizes = built("8x10", Finish::Paper(Paper { border, framing, ..Paper::starting() }));
    assert_eq!(sizes.outside, size("16 1/8x19 1/8"));
    assert_eq!(sizes.image, rect("4 1/16", "5 1/16", "8x10"));
    assert_eq!(sizes.picture, sizes.image);
    assert_eq!(sizes.sheet, rect("3 1/16", "4 1/16", "10x12"));
    assert_eq!(sizes.sheet_borders, Sides::all(length("1")));
    let opening = rect("3 13/16", "4 13/16", "8.5x10.5");
    assert_eq!(sizes.window, opening, "nothing of the opening is behind the lip");
    let mat = sizes.mat.unwrap_or_else(|| panic!("no mat"));
    assert_eq!((mat.opening, mat.board), (opening, rect("13/16", "13/16", "14.5x17.5")));
    assert_eq!(mat.upper_opening, rect("3 9/16", "4 9/16", "9x11"));
    assert_eq!(mat.face_opening, rect("3 1/2", "4 1/2", "9 1/8x11 1/8"));
    assert_eq!(mat.borders, Sides { bottom: length("4"), ..Sides::all(length("3")) });
    assert_eq!(mat.visible_borders, Sides { bottom: length("3 13/16"), ..Sides::all(length("2 13/16")) });
    let frame = sizes.frame.unwrap_or_else(|| panic!("no frame"));
    assert_eq!(
        (frame.sight, frame.rabbet),
        (rect("1", "1", "14 1/8x17 1/8"), rect("3/4", "3/4", "14 5/8x17 5/8"))
    );
    assert_eq!((sizes.wrap, sizes.cloth, sizes.floater_inside), (Length::ZERO, None, None));
}

/// 8 x 10 on 10 x 12 without a mat: sight 10 + 1/8 - 1/2 = 9 5/8 wide from 1; the lip hides the edge of the sheet.
#[test]
fn a_print_without_a_mat() {
    let framing = Framing { frame: Some(frame()), mat: None, ..Framing::starting() };
    let paper = Paper { border: Surround::even(length("1")), framing, ..Paper::starting() };
    let sizes = built("8x10", Finish::Paper(paper.clone()));
    assert_eq!(sizes.outside, size("11 5/8x13 5/8"));
    assert_eq!(sizes.sheet, rect("13/16", "13/16", "10x12"));
    assert_eq!(
        (sizes.image, sizes.picture),
        (rect("1 13/16", "1 13/16", "8x10"), rect("1 13/16", "1 13/16", "8x10"))
    );
    assert_eq!(sizes.window, rect("1", "1", "9 5/8x11 5/8"));
    // Without the frame all of the sheet is seen.
    let bare = built("8x10", Finish::Paper(Paper { framing: Framing::NONE, ..paper }));
    assert_eq!((bare.window, bare.sheet), (rect("0", "0", "10x12"), rect("0", "0", "10x12")));
    assert_eq!((bare.image, bare.picture), (rect("1", "1", "8x10"), rect("1", "1", "8x10")));
}

/// 12 x 16 on bars of 1 1/2, 1 folded; in a floater frame with 1/4 of air and a face of 3/8 it begins at 5/8.
#[test]
fn a_canvas_in_a_floater_frame() {
    let canvas =
        Canvas { depth: length("1 1/2"), edge: Edge::Carried, fold: length("1"), ..Canvas::starting() };
    let bare = built("12x16", Finish::Canvas(canvas.clone()));
    assert_eq!((bare.image, bare.window), (rect("0", "0", "12x16"), rect("0", "0", "12x16")));
    assert_eq!((bare.picture, bare.wrap), (rect("-1 1/2", "-1 1/2", "15x19"), length("1 1/2")));
    let floater = Floater { gap: length("1/4"), face: length("3/8"), ..Floater::starting() };
    let sizes = built("12x16", Finish::Canvas(Canvas { floater: Some(floater), ..canvas }));
    assert_eq!(sizes.outside, size("13 1/4x17 1/4"));
    for part in [sizes.image, sizes.sheet, sizes.window] {
        assert_eq!(part, rect("5/8", "5/8", "12x16"));
    }
    assert_eq!((sizes.picture, sizes.wrap), (rect("-7/8", "-7/8", "15x19"), length("1 1/2")));
    assert_eq!(sizes.floater_inside, Some(rect("3/8", "3/8", "12 1/2x16 1/2")));
    assert_eq!(sizes.cloth, Some(size("17x21")));
}

/// What stands in a floater frame stands 1/8 behind its front, or as far as there is (common practice, no source).
#[test]
fn behind_the_front_of_a_floater_frame() {
    let floater = Floater { depth: length("2"), ..Floater::starting() };
    for (thickness, recess) in
        [("0", "1/8"), ("1 1/2", "1/8"), ("1 7/8", "1/8"), ("1 15/16", "1/16"), ("2", "0"), ("2 1/2", "0")]
    {
        assert_eq!(floater_recess(&floater, length(thickness)), length(recess), "{thickness}");
    }
}

/// The board has to be wider beside its opening than bevel and reveal together: more than 1/16, or 1/16 + 1/4. What is refused is what
/// would be left of the upper mat at its back.
#[test]
fn a_border_that_is_used_up() {
    let check = |inner_reveal: Option<&str>, board: &str, refused: Option<&str>| {
        let mat = Mat {
            opening: OpeningRule::Overlap(Length::ZERO),
            surround: Surround::whole(size(board)),
            inner_reveal: inner_reveal.map(length),
            thickness: length("1/16"),
            ..Mat::starting()
        };
        let framing = Framing { mat: Some(mat), ..Framing::NONE };
        let finish = Finish::Paper(Paper { framing, ..Paper::starting() });
        let piece = Piece { picture: None, focus: Focus::MIDDLE, image: size("16x20"), finish };
        let expected = refused.map(|border| FramingError::NoBorder { border: length(border) });
        assert_eq!(build_up(&piece).err(), expected, "{board}");
    };
    check(None, "16.127x24", None);
    check(None, "16 1/8x24", Some("1/16"));
    check(None, "20x20 1/8", Some("1/16"));
    check(Some("1/4"), "16.627x24", None);
    check(Some("1/4"), "16 5/8x24", Some("1/16"));
    check(Some("1/4"), "20x20 1/2", Some("0"));
}

/// Layers are told apart by their names, and each that is a board or a glazing says of what it is.
#[test]
fn names_of_layers() {
    let framing = Framing {
        spacer: length("1/8"),
        mat: Some(Mat { inner_reveal: Some(length("1/4")), ..Mat::starting() }),
        ..Framing::starting()
    };
    let original = Original { framing, ..Original::starting() };
    let layers = built("8x10", Finish::Original(original)).stack.layers;
    let found: Vec<_> = layers.iter().map(|layer| (layer.part.name(), layer.part.material())).collect();
    let board = Some(Material::MatBoard);
    let expected = [
        ("glass", Some(Material::Glass)),
        ("spacer", None),
        ("mat", board),
        ("bottom mat", board),
        ("work", None),
        ("mount board", board),
        ("backing", Some(Material::FoamBoard)),
    ];
    assert_eq!(found, expected);
    assert_eq!(StackPart::Glazing(Material::Acrylic).name(), "acrylic");
    assert_eq!((StackPart::StandOff.name(), StackPart::StandOff.material()), ("stand-off", None));
}
