//! The section measured: every layer as thick as stated and directly behind the one before, the break, the notes, the pixels.
//!
//! No expected value here was computed by Overmantel: all were worked out on paper from the sizes that are stated beside
//! them. Numbers without a unit are inches. That bars are 1 1/4 in wide and that a floater frame stands 1/8 in in front of
//! what is in it are common practice, no source; the place of float blocks is from memory.

mod drawn;
mod pieces;
mod terms;

use overmantel::figures::Figures;
use overmantel::geometry::{Point, Size};
use overmantel::length::Length;
use overmantel::plan::{
    Aluminium, Arrangement, Canvas, Finish, Floater, Framing, Glazing, Mat, Material, OpeningRule, Original,
    Paper, Shared, SubFrame, Surround,
};
use overmantel::scene::section::{CutPart, Section, Substance, section};

use overmantel_tests::given::length;
use pieces::{
    BLUE, GREEN, board, cut, cut_of, only, parts, piece, plan, print_in, round, specimens, usual, with_mat,
};

fn is_layer(substance: Substance) -> bool {
    !matches!(substance, Substance::Wall | Substance::Moulding(_) | Substance::Sheet)
}

/// What a layer is, in short.
fn short(substance: Substance) -> &'static str {
    match substance {
        Substance::Wall => "wall",
        Substance::Moulding(_) => "moulding",
        Substance::Wood => "wood",
        Substance::Glazing => "glazing",
        Substance::Mat(_) => "mat",
        Substance::Board(_) => "board",
        Substance::Sheet => "sheet",
        Substance::Metal => "metal",
    }
}

/// The layers of a package from the front to the back, each from where to where, and the height of their foot.
#[track_caller]
fn check_package(finish: Finish, foot: &str, expected: &[(&str, &str, &str)]) -> Section {
    let cut = cut(Size::inches(16, 20), finish);
    let layers = parts(&cut, &is_layer);
    let found: Vec<_> =
        layers.iter().map(|part| (short(part.substance), round(part)[0], round(part)[1])).collect();
    let expected: Vec<_> =
        expected.iter().map(|&(name, back, front)| (name, length(back), length(front))).collect();
    assert_eq!(found, expected);
    // How many they are is what was expected above.
    for part in layers.iter().filter(|part| part.substance != Substance::Wood) {
        assert_eq!(round(part)[2], length(foot), "the bottom of {}", short(part.substance));
    }
    cut
}

/// Front of the package = depth of the rabbet, from the wall; each layer begins where the one before ends.
#[test]
fn a_print_in_its_frame() {
    let layers = [
        ("glazing", "1/2", "5/8"),
        ("mat", "7/16", "1/2"),
        ("board", "3/8", "7/16"),
        ("board", "3/16", "3/8"),
    ];
    let cut = check_package(print_in(usual()), "9/16", &layers);
    // The moulding: back on the wall, 1 1/8 deep, 3/4 high; its rabbet 5/8 deep, 3/4 - 1/4 above its foot.
    let rail = parts(&cut, &|substance| substance == Substance::Moulding(GREEN));
    let expected =
        [("0", "0"), ("1 1/8", "0"), ("1 1/8", "3/4"), ("5/8", "3/4"), ("5/8", "1/2"), ("0", "1/2")];
    assert_eq!(rail[0].corners, expected.map(|(x, y)| Point::new(length(x), length(y))));
    // The paper is a line in front of the mount; its lower edge is 1/8 below the opening's.
    let [back, front, bottom, _] = only(&cut, &|substance| substance == Substance::Sheet);
    assert_eq!(back, length("7/16"));
    assert!(front > back && front - back < length("1/50"));
    let mat = parts(&cut, &|substance| substance == Substance::Mat(BLUE));
    assert_eq!(round(mat[0])[3] - bottom, length("1/8"));
    let texts: Vec<&str> = cut.depths.iter().map(|depth| depth.text.as_str()).collect();
    assert_eq!(texts, ["rabbet 5/8\"", "package 7/16\"", "depth 1 1/8\""]);
    let ends: Vec<_> = cut.depths.iter().map(|depth| (depth.from, depth.to)).collect();
    let of = |from, to| (length(from), length(to));
    assert_eq!(ends, [of("0", "5/8"), of("3/16", "5/8"), of("0", "1 1/8")]);
}

/// A second mat, and fillets as high as the lip hides: 3/16.
#[test]
fn two_mats_and_a_spacer() {
    let framing = Framing { spacer: length("1/8"), ..with_mat(|mat| mat.inner_reveal = Some(length("1/4"))) };
    let layers = [
        ("glazing", "1/2", "5/8"),
        ("wood", "3/8", "1/2"),
        ("mat", "5/16", "3/8"),
        ("mat", "1/4", "5/16"),
        ("board", "3/16", "1/4"),
        ("board", "0", "3/16"),
    ];
    let cut = check_package(print_in(framing), "9/16", &layers);
    let fillet = only(&cut, &|substance| substance == Substance::Wood);
    assert_eq!(fillet[2..], [length("9/16"), length("3/4")]);
    // The upper mat is 1/4 shorter than the inner one.
    let mats = parts(&cut, &|substance| matches!(substance, Substance::Mat(_)));
    assert_eq!(round(mats[1])[3] - round(mats[0])[3], length("1/4"));
}

/// 1/8 + 1/16 + 1/16 + 1/2 = 3/4 in a rabbet of 5/8: the moulding stands off by 1/8, and the package reaches the wall.
#[test]
fn a_package_that_is_too_deep() {
    let framing = Framing { backing: board(Material::FoamBoard, "1/2"), ..usual() };
    let layers =
        [("glazing", "5/8", "3/4"), ("mat", "9/16", "5/8"), ("board", "1/2", "9/16"), ("board", "0", "1/2")];
    let cut = check_package(print_in(framing), "9/16", &layers);
    let rail = only(&cut, &|substance| matches!(substance, Substance::Moulding(_)));
    assert_eq!(rail, [length("1/8"), length("1 1/4"), Length::ZERO, length("3/4")]);
    assert_eq!(cut.depths.last().map(|depth| depth.to), Some(length("1 1/4")));
    assert!(cut.notes.iter().any(|note| note.text == "proud by 1/8\""));
    assert!(!cut.notes.iter().any(|note| note.text.starts_with("left in")));
}

/// Without a frame the package hangs on the wall from its foot up: 1/16 + 1/16 + 3/16 = 5/16.
#[test]
fn a_package_without_a_frame() {
    let framing = Framing { frame: None, glazing: Glazing::None, ..usual() };
    let layers = [("mat", "1/4", "5/16"), ("board", "3/16", "1/4"), ("board", "0", "3/16")];
    check_package(print_in(framing), "0", &layers);
}

/// An original of 1/2, with or without a mat, is a layer of its own: in a rabbet of 5/8 behind 1/16 of mat it leaves 1/16.
#[test]
fn an_original_in_a_frame() {
    let original = |mat: Option<Mat>| {
        let framing = Framing { mat, glazing: Glazing::None, mount: None, backing: None, ..usual() };
        Finish::Original(Original { depth: length("1/2"), framing, floater: None })
    };
    check_package(original(usual().mat), "9/16", &[("mat", "9/16", "5/8"), ("wood", "1/16", "9/16")]);
    let cut = check_package(original(None), "9/16", &[("wood", "1/8", "5/8")]);
    // Behind the lip, as anything in the frame.
    assert_eq!(only(&cut, &|substance| substance == Substance::Wood)[2], length("9/16"));
    assert!(parts(&cut, &|substance| substance == Substance::Sheet).is_empty());
}

/// At 45° a bevel is as high as the board is thick, and slopes down towards the face.
#[test]
fn bevels() {
    for thickness in ["1/32", "1/16", "1/8", "1/4"] {
        let framing = with_mat(|mat| {
            mat.thickness = length(thickness);
            mat.inner_reveal = Some(length("1/4"));
        });
        let cut = cut(Size::inches(16, 20), print_in(framing));
        let mats = parts(&cut, &|substance| matches!(substance, Substance::Mat(_)));
        assert_eq!(mats.len(), 2);
        for mat in mats {
            let [back, front, _, top] = round(mat);
            assert_eq!(front - back, length(thickness));
            assert_eq!(mat.corners.len(), 4);
            assert!(mat.corners.contains(&Point::new(back, top)), "the edge of the opening is at the back");
            assert!(mat.corners.contains(&Point::new(front, top - length(thickness))), "{thickness}");
        }
    }
}

/// Bars 1 1/4 wide and as deep as stated, cloth round them and 1 in behind them.
#[test]
fn a_canvas_alone() {
    let canvas = Canvas { depth: length("1 1/2"), fold: length("1"), ..Canvas::starting() };
    let cut = cut(Size::inches(16, 20), Finish::Canvas(canvas));
    let bar = only(&cut, &|substance| substance == Substance::Wood);
    assert_eq!(bar, [Length::ZERO, length("1 1/2"), Length::ZERO, length("1 1/4")]);
    let cloth: Vec<_> =
        parts(&cut, &|substance| substance == Substance::Sheet).into_iter().map(round).collect();
    assert_eq!(cloth.len(), 3, "face, edge and fold");
    assert_eq!((cloth[0][1], cloth[0][2]), (length("1 1/2"), Length::ZERO), "the face is in front");
    assert_eq!(cloth[1][..2], [Length::ZERO, length("1 1/2")], "the edge from the wall to the face");
    assert_eq!((cloth[2][0], cloth[2][3]), (Length::ZERO, length("1")), "the fold on the wall, 1 in high");
    assert!(cloth.iter().all(|part| part[1] <= length("1 1/2")));
}

/// In a floater frame of 2: front 1/8 behind its front, so 1 7/8; foot at 3/8 + 1/4 = 5/8. Bars of 1 1/2 begin 3/8 off the wall; a
/// painting of 3/4 begins at 1 1/8.
#[test]
fn floater_frames() {
    let floater = Floater { colour: GREEN, ..Floater::starting() };
    let canvas = Canvas { floater: Some(floater.clone()), ..Canvas::starting() };
    let original = Original { floater: Some(floater), ..Original::starting() };
    let check = |finish: Finish, back: &str, top: Option<&str>| {
        let cut = cut(Size::inches(16, 20), finish);
        let work = only(&cut, &|substance| substance == Substance::Wood);
        assert_eq!(work[..3], [length(back), length("1 7/8"), length("5/8")]);
        assert!(top.is_none_or(|top| work[3] == length(top)));
        // The side is 2 deep and 3/8 high; the ledge reaches from the wall to the back of the work, and stands up behind it.
        let frame = parts(&cut, &|substance| substance == Substance::Moulding(GREEN))[0];
        assert_eq!(
            frame.corners[..3],
            [("0", "0"), ("2", "0"), ("2", "3/8")].map(|(x, y)| Point::new(length(x), length(y)))
        );
        assert_eq!(frame.corners[3], Point::new(length(back), length("3/8")));
        assert!(round(frame)[3] > work[2]);
        assert_eq!(frame.corners[4].x, length(back), "nothing between ledge and work");
        assert_eq!(cut.left_out, None);
    };
    check(Finish::Canvas(canvas), "3/8", Some("1 7/8"));
    check(Finish::Original(original), "1 1/8", None);
}

/// A sheet of 0.045 on blocks of 3/4, 1 1/2 from the edge and 2 high; or on bars of 1, 2 from the edge.
#[test]
fn metal_sheets() {
    let check = |sub_frame, [low, high]: [&str; 2], name: &str| {
        let cut =
            cut(Size::inches(16, 20), Finish::Aluminium(Aluminium { sub_frame, ..Aluminium::starting() }));
        let sheet = only(&cut, &|substance| substance == Substance::Metal);
        assert_eq!(sheet[..3], [length(".75"), length(".795"), Length::ZERO]);
        let bar = only(&cut, &|substance| substance == Substance::Wood);
        assert_eq!(bar, [Length::ZERO, length(".75"), length(low), length(high)]);
        assert!(cut.notes.iter().any(|note| note.text == name), "{:?}", cut.notes);
        let depths: Vec<_> = cut.depths.iter().map(|depth| depth.to).collect();
        assert_eq!(depths, [length(".75"), length(".795")]);
    };
    check(None, ["1 1/2", "3 1/2"], "float block, 3/4\" deep");
    check(Some(SubFrame::starting()), ["2", "3"], "bar of the sub-frame, 3/4\" deep");
}

/// Where a break is, what lies below it is at its true height, and what lies above is lower by one amount; nothing begins or
/// ends in what is left out. Heights on paper: sight edge 3/4, foot 9/16; opening = 9/16 + border; upper mat at its back less the
/// reveal, at its face less the board as well; sheet = opening less the overlap.
#[test]
fn a_break_leaves_out_what_is_alike() {
    let check = |framing: Framing, border: &str, heights: &[&str]| {
        let image = Size::inches(30, 40);
        let paper = Paper { framing, border: Surround::even(length(border)), ..Paper::starting() };
        let cut = cut(image, Finish::Paper(paper));
        let Some(at) = cut.left_out else { panic!("no break") };
        let found: std::collections::BTreeSet<Length> = cut
            .parts
            .iter()
            .filter(|part| !matches!(part.substance, Substance::Wall))
            .flat_map(|part| part.corners.iter().map(|corner| corner.y))
            .filter(|&y| y < cut.bounds.top())
            .collect();
        let truth: std::collections::BTreeSet<Length> = heights.iter().map(|text| length(text)).collect();
        // As many are the same, and the others are lower by what is left out.
        let (below, above): (Vec<Length>, Vec<Length>) = found.iter().partition(|&&y| y <= at.y);
        let (true_below, true_above): (Vec<Length>, Vec<Length>) =
            truth.iter().copied().partition(|y| below.contains(y));
        assert_eq!(below, true_below);
        assert_eq!(above.len(), true_above.len(), "{found:?} for {truth:?}");
        let out: std::collections::BTreeSet<Length> =
            true_above.iter().zip(&above).map(|(truth, drawn)| *truth - *drawn).collect();
        assert_eq!(out.len(), 1, "{out:?}");
        let out = out.first().copied().unwrap_or_default();
        assert!(out > Length::ZERO);
        assert!(truth.iter().all(|&height| height <= at.y || height >= at.y + out), "{at:?}, {out:?}");
        // The front of what is broken is the front of the package.
        assert_eq!(at.x, length("5/8"));
    };
    let wide = |opening, reveal: Option<&str>, border: &str| {
        let reveal = reveal.map(length);
        with_mat(|mat| {
            mat.opening = opening;
            mat.inner_reveal = reveal;
            mat.surround = Surround::even(length(border));
        })
    };
    let eighth = OpeningRule::Overlap(length("1/8"));
    let sill = ["0", "1/2", "9/16", "3/4"];
    let row = |framing, white: &str, above: &[&str]| check(framing, white, &[&sill[..], above].concat());
    row(wide(eighth, None, "5"), "0", &["5 7/16", "5 1/2", "5 9/16"]);
    // A double mat with a reveal of 1/4, and one of 2 in: the upper mat ends at 3 9/16, less 1/16 at its face.
    row(wide(eighth, Some("1/4"), "5"), "0", &["5 1/4", "5 5/16", "5 7/16", "5 1/2", "5 9/16"]);
    row(wide(eighth, Some("2"), "5"), "0", &["3 1/2", "3 9/16", "5 7/16", "5 1/2", "5 9/16"]);
    // A sheet that reaches 2 1/2 in under the mat; white of 3 in round an image, of which 1/4 is seen.
    row(wide(OpeningRule::Overlap(length("2 1/2")), None, "5"), "0", &["3 1/16", "5 1/2", "5 9/16"]);
    row(wide(OpeningRule::Reveal(length("1/4")), None, "6"), "3", &["3 13/16", "6 1/2", "6 9/16"]);
    // A sheet that floats with 1 in of air is seen from 1 in above the opening.
    row(wide(OpeningRule::Float(length("1")), None, "5"), "0", &["5 1/2", "5 9/16", "6 9/16"]);
}

/// No break where there is nothing long: a border of 1 1/2 in, a wide floater frame, a piece without a mat.
#[test]
fn no_break_in_what_is_short() {
    let narrow = with_mat(|mat| mat.surround = Surround::even(length("1 1/2")));
    let floater = Floater { face: length("4"), gap: length("2"), ..Floater::starting() };
    let image = Size::inches(16, 20);
    for finish in [
        print_in(narrow),
        print_in(Framing { mat: None, ..usual() }),
        Finish::Canvas(Canvas { floater: Some(floater), ..Canvas::starting() }),
        Finish::Aluminium(Aluminium::starting()),
    ] {
        assert_eq!(cut(image, finish).left_out, None);
    }
    // On paper: alike from the sight edge at 3/4 to the sheet at 9/16 + border - 1/8; 5/8 and 13/16 are kept beside the break, and it
    // has to leave out more than 5/16: border > 3/4 + 1 3/4 - 7/16 = 2 1/16.
    for (border, is_broken) in [("2.062", false), ("2 1/16", false), ("2.063", true)] {
        let framing = with_mat(|mat| mat.surround = Surround::even(length(border)));
        assert_eq!(cut(image, print_in(framing)).left_out.is_some(), is_broken, "{border}");
    }
}

/// In one frame, frame and mat are those of the first piece, and a column's foot is below its last one.
#[test]
fn pieces_that_share_a_frame() {
    let thick = with_mat(|mat| mat.thickness = length("1/8"));
    let other = Framing { frame: None, ..usual() };
    let mut shared = plan(piece(Size::inches(8, 10), print_in(thick)));
    shared.pieces.push(piece(Size::inches(8, 10), print_in(other)));
    shared.shared = Some(Shared { bar: length("2") });
    for arrangement in [Arrangement::Row, Arrangement::Column] {
        shared.group.arrangement = arrangement;
        for index in [0, 1] {
            let cut = cut_of(&shared, index);
            let rail = only(&cut, &|substance| matches!(substance, Substance::Moulding(_)));
            assert_eq!(rail, [Length::ZERO, length("1 1/8"), Length::ZERO, length("3/4")], "piece {index}");
            let mat = only(&cut, &|substance| matches!(substance, Substance::Mat(_)));
            assert_eq!(mat[1] - mat[0], length("1/8"), "piece {index}");
            // Border 2 1/8 at the foot, above 9/16; a break may take some of it away, and nothing is added.
            assert!(mat[3] <= length("2 11/16"), "piece {index}: {:?}", mat[3]);
        }
    }
    assert_eq!(section(&shared, &Figures::of(&shared).unwrap_or_else(|why| panic!("{why}")), 2), None);
}

/// Nothing but the wall lies behind its face, and everything is within what is shown.
#[test]
fn nothing_lies_behind_the_wall() {
    for (name, cut) in specimens() {
        let wall = only(&cut, &|substance| substance == Substance::Wall);
        assert_eq!((wall[0], wall[1]), (cut.bounds.x, Length::ZERO), "{name}");
        assert!(cut.parts.len() > 1, "{name}");
        for part in &cut.parts {
            let [left, right, bottom, top] = round(part);
            assert!(part.substance == Substance::Wall || left >= Length::ZERO, "{name}: {part:?}");
            assert!(left >= cut.bounds.x && right <= cut.bounds.right(), "{name}: {part:?}");
            assert!(bottom >= cut.bounds.y && top <= cut.bounds.top(), "{name}: {part:?}");
            assert!(right > left && top > bottom, "{name}: {part:?}");
        }
    }
}

/// Whether a point is in a polygon or on its edge, by less than a thousandth of an inch beside it.
fn touches(part: &CutPart, point: Point) -> bool {
    let hair = length(".001").to_inches();
    let corners: Vec<(f64, f64)> =
        part.corners.iter().map(|corner| (corner.x.to_inches(), corner.y.to_inches())).collect();
    let (x, y) = (point.x.to_inches(), point.y.to_inches());
    let sides = || corners.iter().zip(corners.iter().cycle().skip(1));
    let crossed =
        sides().filter(|(a, b)| (a.1 > y) != (b.1 > y) && x < (b.0 - a.0) * (y - a.1) / (b.1 - a.1) + a.0);
    let beside = sides().any(|(a, b)| {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let along = (((x - a.0) * dx + (y - a.1) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        let (off_x, off_y) = (a.0 + along * dx - x, a.1 + along * dy - y);
        off_x * off_x + off_y * off_y < hair * hair
    });
    crossed.count() % 2 == 1 || beside
}

/// What the words of a note are about: parts of this kind, or `None` for what is air.
fn meant(text: &str) -> Option<&'static str> {
    let about = [
        ("moulding", "moulding"),
        ("floater frame", "moulding"),
        ("lip", "moulding"),
        ("glass", "glazing"),
        ("acrylic", "glazing"),
        ("spacer", "wood"),
        ("mat ", "mat"),
        ("bottom mat", "mat"),
        ("bevel", "mat"),
        ("print", "sheet"),
        ("mount", "board"),
        ("backing", "board"),
        ("the original", "wood"),
        ("bar", "wood"),
        ("float block", "wood"),
        ("edge", "sheet"),
        ("face of the canvas", "sheet"),
        ("aluminium sheet", "metal"),
        ("proud by", "board"),
    ];
    about.iter().find(|(word, _)| text.starts_with(word)).map(|&(_, kind)| kind)
}

/// Every note's point lies on a part of its name; those of air lie on none.
#[test]
fn notes_point_at_what_they_name() {
    for (name, cut) in specimens() {
        assert!(!cut.notes.is_empty(), "{name}");
        for note in &cut.notes {
            let hit = |kind: &str| {
                cut.parts.iter().any(|part| short(part.substance) == kind && touches(part, note.at))
            };
            match meant(&note.text) {
                Some(kind) => assert!(hit(kind), "{name}: {note:?} is on no {kind}"),
                None => {
                    assert!(note.text.starts_with("left in the rabbet") || note.text.starts_with("gap "));
                    let on: Vec<_> = cut.parts.iter().filter(|part| touches(part, note.at)).collect();
                    assert!(on.is_empty(), "{name}: {note:?} is on {on:?}");
                }
            }
            assert!(note.at.y < cut.bounds.top(), "{name}: {note:?}");
        }
    }
}

/// Every layer of a stack is named with its thickness, in both systems where the plan wants both; 1/16 in = 1.5875 mm.
#[test]
fn notes_name_every_layer() {
    let (_, cut) = specimens().into_iter().find(|(name, _)| *name == "all").unwrap_or_else(|| panic!("gone"));
    let texts: Vec<&str> = cut.notes.iter().map(|note| note.text.as_str()).collect();
    for expected in [
        "moulding in oak, 3/4 × 1 1/8\" (1.9 × 2.9 cm)",
        "lip hides 3/16\" (4.8 mm)",
        "acrylic 1/8\" (3.2 mm)",
        "spacer 1/4\" (6.4 mm)",
        "mat 1/16\" (1.6 mm)",
        "bevel, 45°",
        "bottom mat 1/16\" (1.6 mm)",
        "print",
        "mount board: mat board 1/16\" (1.6 mm)",
        "backing: foam board 3/16\" (4.8 mm)",
        "proud by 1/8\" (3.2 mm)",
    ] {
        assert!(texts.contains(&expected), "{expected} is not among {texts:#?}");
    }
    assert_eq!(texts.len(), 11);
    let words = cut.in_words();
    assert!(texts.iter().chain(&["depth 1 1/4\" (31.8 mm)"]).all(|text| words.contains(text)), "{words}");
    // From the top down.
    let place = |text: &str| words.find(text);
    assert!(place("acrylic") < place("mount") && place("mount") < place("moulding"), "{words}");
}
