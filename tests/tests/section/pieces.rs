//! Pieces to cut, and how the parts of a cut are looked at.

use overmantel::colour::Colour;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{
    Aluminium, Board, Canvas, Coating, Edge, Finish, Floater, Focus, Frame, Framing, Glazing, Mat, Material,
    OpeningRule, Original, Paper, Piece, Plan, SubFrame, Surround, System, Units,
};
use overmantel::scene::section::{CutPart, Section, Substance, section};
use overmantel_tests::given::length;

pub(crate) const GREEN: Colour = Colour::hex(0x20_a0_38);
pub(crate) const BLUE: Colour = Colour::hex(0x28_28_c0);

pub(crate) fn piece(image: Size, finish: Finish) -> Piece {
    Piece { picture: None, focus: Focus::MIDDLE, image, finish }
}

pub(crate) fn plan(piece: Piece) -> Plan {
    Plan { pieces: vec![piece], ..Plan::starting() }
}

#[track_caller]
pub(crate) fn cut_of(plan: &Plan, index: usize) -> Section {
    let figures = Figures::of(plan).unwrap_or_else(|why| panic!("{why}"));
    section(plan, &figures, index).unwrap_or_else(|| panic!("no piece {index}"))
}

#[track_caller]
pub(crate) fn cut(image: Size, finish: Finish) -> Section {
    cut_of(&plan(piece(image, finish)), 0)
}

pub(crate) fn print_in(framing: Framing) -> Finish {
    Finish::Paper(Paper { framing, ..Paper::starting() })
}

pub(crate) fn board(material: Material, thickness: &str) -> Option<Board> {
    Some(Board { material, thickness: length(thickness) })
}

/// Face 3/4, a rabbet 1/4 wide and 5/8 deep, 1 1/8 deep over all, 1/8 of play: the lip hides 1/4 - 1/16 = 3/16, so that the foot of
/// the package is at 3/4 - 3/16 = 9/16. Glass 1/8, mat 1/16, mount 1/16, backing 3/16.
pub(crate) fn usual() -> Framing {
    Framing {
        frame: Some(Frame { colour: GREEN, ..Frame::starting() }),
        glazing: Glazing::Glass(length("1/8")),
        coating: Coating::Plain,
        spacer: Length::ZERO,
        mat: Some(Mat { colour: BLUE, ..Mat::starting() }),
        mount: board(Material::MatBoard, "1/16"),
        backing: board(Material::FoamBoard, "3/16"),
    }
}

pub(crate) fn with_mat(change: impl FnOnce(&mut Mat)) -> Framing {
    let mut mat = Mat { colour: BLUE, ..Mat::starting() };
    change(&mut mat);
    Framing { mat: Some(mat), ..usual() }
}

/// The rectangle round a part: left, right, bottom, top.
pub(crate) fn round(part: &CutPart) -> [Length; 4] {
    let (x, y) =
        (|| part.corners.iter().map(|corner| corner.x), || part.corners.iter().map(|corner| corner.y));
    let least = |of: &mut dyn Iterator<Item = Length>| of.min().unwrap_or_default();
    let most = |of: &mut dyn Iterator<Item = Length>| of.max().unwrap_or_default();
    [least(&mut x()), most(&mut x()), least(&mut y()), most(&mut y())]
}

pub(crate) fn parts<'a>(cut: &'a Section, wanted: &'a dyn Fn(Substance) -> bool) -> Vec<&'a CutPart> {
    cut.parts.iter().filter(|part| wanted(part.substance)).collect()
}

#[track_caller]
pub(crate) fn only(cut: &Section, wanted: &dyn Fn(Substance) -> bool) -> [Length; 4] {
    let found = parts(cut, wanted);
    assert_eq!(found.len(), 1, "{found:?}");
    round(found[0])
}

/// Pieces of every kind, and some beyond what is usual.
pub(crate) fn specimens() -> Vec<(&'static str, Section)> {
    let usual_size = Size::inches(16, 20);
    let floater = Some(Floater::starting());
    let float = |gap: &str| with_mat(|mat| mat.opening = OpeningRule::Float(length(gap)));
    let double = with_mat(|mat| mat.inner_reveal = Some(length("1/4")));
    let thin = with_mat(|mat| {
        mat.surround = Surround::even(length("1/2"));
        mat.inner_reveal = Some(length("1/4"));
    });
    let frame = |change: &dyn Fn(&mut Frame)| {
        let mut stated = Frame::starting();
        change(&mut stated);
        Framing { frame: Some(stated), ..usual() }
    };
    let canvas = |depth: &str, floater| {
        Finish::Canvas(Canvas { depth: length(depth), edge: Edge::Carried, floater, ..Canvas::starting() })
    };
    let metal = |sub_frame, stand_off: &str| {
        Finish::Aluminium(Aluminium { sub_frame, stand_off: length(stand_off), ..Aluminium::starting() })
    };
    let original = |framing, floater| Finish::Original(Original { framing, floater, ..Original::starting() });
    let (glass, spacer) = (Glazing::Acrylic(length("1/8")), length("1/4"));
    let deep = Framing { backing: board(Material::Mdf, "3/4"), ..usual() };
    let sunk = Framing {
        backing: board(Material::Mdf, "1 1/2"),
        ..frame(&|frame| frame.rabbet_depth = length("3"))
    };
    let all = Framing { spacer, glazing: glass, ..double.clone() };
    let (tiny, small) = (Size::inches(1, 1), Size::inches(3, 3));
    let wide = Floater { face: length("4"), gap: length("2"), ..Floater::starting() };
    let made = [
        ("print", usual_size, print_in(usual())),
        ("small print", small, print_in(usual())),
        ("tiny print", tiny, print_in(usual())),
        ("double mat", usual_size, print_in(double)),
        ("thin border", usual_size, print_in(thin)),
        ("all", usual_size, print_in(all)),
        ("too deep", usual_size, print_in(deep)),
        ("floating by 1/2", usual_size, print_in(float("1/2"))),
        ("floating by 2", usual_size, print_in(float("2"))),
        ("lip as wide as the face", usual_size, print_in(frame(&|frame| frame.rabbet_width = frame.face))),
        ("no lip", usual_size, print_in(frame(&|frame| frame.rabbet_width = Length::ZERO))),
        ("a lip that is thin", usual_size, print_in(frame(&|frame| frame.rabbet_depth = length("1.1")))),
        (
            "a rabbet as deep as the moulding",
            usual_size,
            print_in(frame(&|frame| frame.rabbet_depth = length("2"))),
        ),
        ("no lip before what is deep", usual_size, print_in(sunk)),
        ("bare paper", usual_size, print_in(Framing::NONE)),
        ("no mat", usual_size, print_in(Framing { mat: None, ..usual() })),
        ("no frame", usual_size, print_in(Framing { frame: None, spacer, ..usual() })),
        ("canvas", usual_size, canvas("1 1/2", None)),
        ("tiny canvas", tiny, canvas("3/4", None)),
        ("cloth", usual_size, canvas("0", None)),
        ("canvas in a floater", usual_size, canvas("1 1/2", floater.clone())),
        ("canvas in a shallow floater", usual_size, canvas("3", floater.clone())),
        ("canvas in a wide floater", usual_size, canvas("3/4", Some(wide))),
        ("metal", usual_size, metal(None, "3/4")),
        ("small metal", Size::inches(5, 5), metal(None, "3/4")),
        ("tiny metal", tiny, metal(None, "1/2")),
        ("metal on bars", usual_size, metal(Some(SubFrame::starting()), "3/4")),
        ("metal on the wall", usual_size, metal(None, "0")),
        ("original", usual_size, original(Framing::NONE, None)),
        ("tiny original", tiny, original(Framing::NONE, None)),
        ("original framed", usual_size, original(usual(), None)),
        ("original in a floater", usual_size, original(Framing::NONE, floater)),
    ];
    let both = Units { first: System::Inches, both: true };
    made.into_iter()
        .map(|(name, size, finish)| (name, cut_of(&Plan { units: both, ..plan(piece(size, finish)) }, 0)))
        .collect()
}
