//! What it takes to make a plan, part by part, worked out on paper.
//!
//! No expected value here is from Overmantel. Densities in kg/m³, likely (least to most): glass 2500 (2450 to 2550) and acrylic 1190
//! (1172 to 1190) are common practice, no source, the least of acrylic a maker's; aluminium 2700 (2650 to 2750), oak 700 (620 to 780),
//! pine 500 (370 to 560), poplar 450 (400 to 510) and obeche 380 (330 to 440) are from memory, and so are mat board of 900 g/m² in 4-ply
//! (600, 530 to 700) and foam board of 550 g/m² in 3/16 in (110, 90 to 130). Weights are rounded once, the least down and the most up.
//! 1 in² = 6.4516 cm² and 1 in³ = 16.387064 cm³ exactly. A mitred frame holds (outside - sight) × depth - (rabbet - sight) × rabbet depth.

use overmantel::cut_list::{CutPart, Extent as PartExtent};
use overmantel::length::Length;
use overmantel::making::{Making, Thing, making};
use overmantel::plan::*;
use overmantel::stock::{SheetStock, Stick, Stock};
use overmantel::weigh::Mass;
use overmantel_tests::given::{figures, hung, length, piece, size};

/// What a leg's row says of it: its chop size, where it has a rabbet, and its short points.
macro_rules! leg {
    ($chop:literal, $short:literal) => {
        concat!("outside length (long points); chop size (rabbet) ", $chop, "\"; short points ", $short, "\"")
    };
    ($short:literal) => {
        concat!("outside length (long points); short points ", $short, "\"")
    };
}

fn mass((least_mg, likely_mg, most_mg): (i64, i64, i64)) -> Mass {
    Mass { least_mg, likely_mg, most_mg }
}

fn exactly(milligrams: i64) -> (i64, i64, i64) {
    (milligrams, milligrams, milligrams)
}

#[track_caller]
fn made(plan: &Plan, stock: &Stock) -> Making {
    making(plan, &figures(plan), stock)
}

/// The one thing that hangs.
#[track_caller]
fn thing(plan: &Plan) -> Thing {
    let mut things = made(plan, &Stock::offered()).things;
    assert_eq!(things.len(), 1);
    things.remove(0)
}

type Row<'a> = (&'a str, u32, &'a str, Option<Material>, &'a str, (i64, i64, i64));

/// Name, number, size or length, material, note, and weight: least, likely, most.
#[track_caller]
fn check_parts(thing: &Thing, whole: (i64, i64, i64), rows: &[Row<'_>]) {
    for ((found, weight), &(name, quantity, extent, material, note, mg)) in thing.parts.iter().zip(rows) {
        let extent = match extent.contains('x') {
            true => PartExtent::Size(size(extent)),
            false => PartExtent::Length(length(extent)),
        };
        let told = (found.name.as_str(), found.quantity, found.extent, found.material, found.note.as_str());
        assert_eq!((told, *weight), ((name, quantity, extent, material, note), mass(mg)));
    }
    assert_eq!(thing.parts.len(), rows.len());
    assert_eq!(thing.mass, mass(whole), "all together, ± 15 % at the least");
}

/// For each part cut from a sheet, the smallest sheet of the stock that takes it.
#[track_caller]
fn check_sheets(thing: &Thing, rows: &[(&str, &str)]) {
    let found: Vec<(&str, String)> = thing
        .blanks
        .iter()
        .map(|blank| match &blank.sheet {
            Ok(sheet) => (blank.part, sheet.name.clone()),
            Err(why) => (blank.part, why.to_string()),
        })
        .collect();
    let rows: Vec<(&str, String)> = rows.iter().map(|&(part, sheet)| (part, sheet.to_owned())).collect();
    assert_eq!(found, rows);
}

const GLASS: Option<Material> = Some(Material::Glass);
const MAT: Option<Material> = Some(Material::MatBoard);
const FOAM: Option<Material> = Some(Material::FoamBoard);
const OAK: Option<Material> = Some(Material::Oak);
const POPLAR: Option<Material> = Some(Material::Poplar);
const OBECHE: Option<Material> = Some(Material::Obeche);

/// 16 × 20 in behind a mat of 2 1/8: the opening 15 3/4 × 19 3/4, the board 16 - 1/4 + 4 1/4 = 20 wide and 24 high. A rabbet of
/// 20 1/8 × 24 1/8 (also the chop sizes), a sight of 19 5/8 × 23 5/8, an outside of 21 1/8 × 25 1/8; 61 27/32 in³ of oak, of which the two rails
/// across have 2 ((21 1/8 - 3/4) × 3/4 × 1 1/8 - 19 7/8 × 1/4 × 5/8) = 28 11/64: trapezoids, as they are mitred.
#[test]
fn a_print_in_a_mat_and_a_frame() {
    let found = thing(&hung(vec![Piece::starting()]));
    assert_eq!((found.pieces.as_slice(), found.not_weighed), (&[0][..], ""));
    check_parts(
        &found,
        (2_438_576, 2_868_914, 3_299_252),
        &[
            ("glazing", 1, "20x24", GLASS, "2 mm thick, plain", (1_517_416, 1_548_384, 1_579_352)),
            ("mat", 1, "20x24", MAT, "1/16 in thick", (86_648, 98_093, 114_442)),
            ("print", 1, "16x20", None, "310 g/m²", exactly(64_000)),
            ("mount board", 1, "20x24", MAT, "1/16 in thick", (246_193, 278_709, 325_161)),
            ("backing", 1, "20x24", FOAM, "3/16 in thick", (139_354, 170_322, 201_290)),
            ("leg", 2, "21 1/8", OAK, leg!("20 1/8", "19 5/8"), (286_225, 323_158, 360_091)),
            ("leg", 2, "25 1/8", OAK, leg!("24 1/8", "23 5/8"), (342_106, 386_248, 430_391)),
        ],
    );
    check_sheets(
        &found,
        &[
            ("glazing", "glass, 2 mm, 32 × 40 in"),
            ("mat", "mat board, 4-ply, 32 × 40 in"),
            ("mount board", "mat board, 4-ply, 32 × 40 in"),
            ("backing", "foam board, 3/16 in, 32 × 40 in"),
        ],
    );
    // 16 + 2 × 1/8 = 16 1/4 of 17 in; at 200 to the inch 3200 × 4000; a tube 16 + 2 in long.
    let print = &found.prints[0];
    assert_eq!((print.size, print.pixels), (size("16x20"), (3200, 4000)));
    assert_eq!(print.rolls.first().map(String::as_str), Some("roll, 24 in (61 cm)"));
    let (tube, rolled) = print.tube.as_ref().expect("paper is rolled");
    assert_eq!((tube.as_str(), rolled.tube_length), ("tube for paper, 3 in", length("18")));
    let (name, cut) = &found.mats[0];
    assert_eq!((*name, cut.board, cut.opening), ("mat", size("20x24"), size("15.75x19.75")));
    assert_eq!(cut.face_opening, size("15.875x19.875"), "wider by the bevel of 1/16 on each side");
    let (rails, moulding) = found.rails.expect("a frame");
    assert_eq!((rails.across.long_point, rails.upright.long_point), (length("21 1/8"), length("25 1/8")));
    // 2 (21 1/8 + 25 1/8); 2 (20 + 24) + 8 × 3/4; and three kerfs of 1/8.
    assert_eq!(moulding.exact, length("92.5"));
    assert_eq!((moulding.by_rule, moulding.with_kerfs), (length("94"), length("92.875")));
    // 25 1/8 + 4, 21 1/8 + 4, 1 1/8 + 4.
    let carton = found.carton;
    assert_eq!([carton.length, carton.width, carton.height], ["29.125", "25.125", "5.125"].map(length));
    let carriers: Vec<&str> = found.carriers.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(
        carriers,
        [
            "example of a parcel, smaller limit",
            "example of a parcel, larger limit",
            "example of freight on a pallet"
        ]
    );
}

/// 20 × 30 in with 1 in of white, 1/4 of it seen: an opening of 20 1/2 × 30 1/2, the upper mat's 1/4 wider on each side; a board stated
/// as 28 × 40. Fillets 3/16 wide, what a lip of 1/4 hides with 1/16 of play: (28 × 40 - 27 5/8 × 39 5/8) × 1/4 = 6.3398 in³.
fn doubly_matted(rabbet_depth: &str) -> Plan {
    let mat = Mat {
        opening: OpeningRule::Reveal(length("1/4")),
        surround: Surround {
            extent: Extent::Whole(size("28x40")),
            weighting: Weighting::Extra(length("1/2")),
        },
        inner_reveal: Some(length("1/4")),
        ..Mat::starting()
    };
    let frame = Frame {
        face: length("1 1/4"),
        rabbet_depth: length(rabbet_depth),
        depth: length("1 1/2"),
        material: Material::Pine,
        ..Frame::starting()
    };
    let framing = Framing {
        frame: Some(frame),
        glazing: Glazing::Acrylic(length("1/8")),
        spacer: length("1/4"),
        mat: Some(mat),
        ..Framing::starting()
    };
    let paper = Paper { border: Surround::even(length("1")), grammage: 188, framing };
    hung(vec![piece("20x30", Finish::Paper(paper))])
}

const SPACER: &str = "3/16\" wide and 1/4\" deep";

/// Those across are 28 in, the upright ones between them 40 - 2 × 3/16; across 2 × 28 × 3/16 × 1/4 = 2.625 in³ of the 6.3398.
#[test]
fn a_print_in_two_mats_behind_fillets() {
    let acrylic = Some(Material::Acrylic);
    let pine = Some(Material::Pine);
    let found = thing(&doubly_matted("1"));
    check_parts(
        &found,
        (5_384_856, 6_335_125, 7_285_394),
        &[
            ("glazing", 1, "28x40", acrylic, "1/8 in thick, plain", (2_688_789, 2_730_085, 2_730_085)),
            ("spacer", 2, "28", POPLAR, SPACER, (17_206, 19_357, 21_939)),
            ("spacer", 2, "39 5/8", POPLAR, SPACER, (24_350, 27_394, 31_046)),
            ("top mat", 1, "28x40", MAT, "1/16 in thick", (240_551, 272_322, 317_710)),
            ("bottom mat", 1, "28x40", MAT, "1/16 in thick", (253_758, 287_274, 335_153)),
            ("print", 1, "22x32", None, "188 g/m²", exactly(85_388)),
            ("mount board", 1, "28x40", MAT, "1/16 in thick", (574_450, 650_321, 758_709)),
            ("backing", 1, "28x40", FOAM, "3/16 in thick", (325_160, 397_419, 469_677)),
            ("leg", 2, "30 1/8", pine, leg!("28 1/8", "27 5/8"), (572_026, 773_009, 865_770)),
            ("leg", 2, "42 1/8", pine, leg!("40 1/8", "39 5/8"), (808_491, 1_092_556, 1_223_663)),
        ],
    );
    let cuts: Vec<_> = found.mats.iter().map(|(name, cut)| (*name, cut.opening)).collect();
    assert_eq!(cuts, [("top mat", size("21x31")), ("bottom mat", size("20.5x30.5"))]);
    // (40 - 31 - 1/2) / 2 = 4 1/4 at the head, 4 3/4 at the foot; (28 - 21) / 2 = 3 1/2 at the sides.
    let face = found.mats[0].1.face;
    assert_eq!((face.left, face.top, face.bottom), (length("3.5"), length("4.25"), length("4.75")));
    check_sheets(
        &found,
        &[
            ("glazing", "acrylic, 1/8 in, 48 × 96 in"),
            ("top mat", "mat board, 4-ply, 32 × 40 in"),
            ("bottom mat", "mat board, 4-ply, 32 × 40 in"),
            ("mount board", "mat board, 4-ply, 32 × 40 in"),
            ("backing", "foam board, 3/16 in, 32 × 40 in"),
        ],
    );
    // The print is the sheet, its pixels the image's: 20 × 200 and 30 × 200.
    assert_eq!((found.prints[0].size, found.prints[0].pixels), (size("22x32"), (4000, 6000)));
}

/// No rabbet is deeper than its moulding: with 2 in stated of 1 1/2, all of the depth: 210 3/4 in³ instead of 227 11/16.
#[test]
fn a_rabbet_is_weighed_no_deeper_than_its_moulding() {
    let found = thing(&doubly_matted("2"));
    let weights: Vec<Mass> = found.parts[8..].iter().map(|(_, mass)| *mass).collect();
    assert_eq!(weights, [(529_773, 715_910, 801_820), (748_049, 1_010_877, 1_132_182)].map(mass));
    assert_eq!(thing(&doubly_matted("1 1/2")).parts[8..], found.parts[8..]);
}

/// Openings of 11 3/4, 10 3/4 and 11 3/4 in a row with bars of 2 and borders of 3: 34 1/4 + 4 + 6 = 44 1/4 by 15 3/4 + 6 = 21 3/4; the
/// outside 45 3/8 × 22 7/8, 92 3/32 in³ of oak. Of the mats only the first's counts, whatever the others say.
#[test]
fn three_prints_in_one_frame() {
    let matted = |image: &str, mat: Mat| {
        let framing = Framing { mat: Some(mat), ..Framing::starting() };
        piece(image, Finish::Paper(Paper { framing, ..Paper::starting() }))
    };
    let first = Mat { surround: Surround::even(length("3")), ..Mat::starting() };
    let other = Mat { inner_reveal: Some(length("1/2")), thickness: length("4"), ..Mat::starting() };
    let row = hung(vec![
        matted("12x16", first.clone()),
        matted("11x14", other.clone()),
        matted("12x16", Mat::starting()),
    ]);
    let plan = Plan { shared: Some(Shared { bar: length("2") }), ..row };
    let found = thing(&plan);
    assert_eq!(found.pieces, [0, 1, 2]);
    let board = "44.25x21.75";
    check_parts(
        &found,
        (4_613_011, 5_427_072, 6_241_133),
        &[
            ("glazing", 1, board, GLASS, "2 mm thick, plain", (3_042_538, 3_104_631, 3_166_724)),
            ("mat", 1, board, MAT, "1/16 in thick", (227_985, 258_096, 301_113)),
            ("print", 1, "12x16", None, "310 g/m²", exactly(38_400)),
            ("print", 1, "11x14", None, "310 g/m²", exactly(30_800)),
            ("print", 1, "12x16", None, "310 g/m²", exactly(38_400)),
            ("mount board", 1, board, MAT, "1/16 in thick", (493_636, 558_834, 651_973)),
            ("backing", 1, board, FOAM, "3/16 in thick", (279_416, 341_509, 403_603)),
            ("leg", 2, "45 3/8", OAK, leg!("44 3/8", "43 7/8"), (624_997, 705_642, 786_288)),
            ("leg", 2, "22 7/8", OAK, leg!("21 7/8", "21 3/8"), (310_673, 350_760, 390_847)),
        ],
    );
    check_sheets(
        &found,
        &[
            ("glazing", "glass, 2 mm, 40 × 60 in"),
            ("mat", "mat board, 4-ply, 40 × 60 in"),
            ("mount board", "mat board, 4-ply, 40 × 60 in"),
            ("backing", "foam board, 3/16 in, 40 × 60 in"),
        ],
    );
    // From the left edge: 3; 3 + 11 3/4 + 2 = 16 3/4; 16 3/4 + 10 3/4 + 2 = 29 1/2. The lower one lies 1 in lower at its head.
    let cuts: Vec<_> =
        found.mats.iter().map(|(name, cut)| (*name, cut.opening, cut.face.left, cut.face.top)).collect();
    let cut = |opening: &str, left: &str, top: &str| ("mat", size(opening), length(left), length(top));
    let expected =
        [cut("11.75x15.75", "3", "3"), cut("10.75x13.75", "16.75", "4"), cut("11.75x15.75", "29.5", "3")];
    assert_eq!(cuts, expected);
    assert_eq!(found.prints.len(), 3);
    // With the double mat first there are two mats, and two openings for each print.
    let mut pieces = plan.pieces.clone();
    let double = Mat { thickness: length("1/16"), ..other };
    pieces[0] = matted("12x16", double);
    let found = thing(&Plan { pieces, ..plan.clone() });
    let names: Vec<&str> = found.mats.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, ["top mat", "bottom mat", "top mat", "bottom mat", "top mat", "bottom mat"]);
    // Two in a column: 11 3/4 + 6 = 17 3/4 by 15 3/4 + 13 3/4 + 2 + 6 = 37 1/2.
    let pieces = vec![matted("12x16", first), matted("11x14", Mat::starting())];
    let group = Group { arrangement: Arrangement::Column, ..plan.group };
    let found = thing(&Plan { pieces, group, ..plan });
    assert_eq!(found.parts[0].0.extent, PartExtent::Size(size("17.75x37.5")));
    assert_eq!(found.prints.len(), 2);
}

fn canvas(image: &str, canvas: Canvas) -> Plan {
    hung(vec![piece(image, Finish::Canvas(canvas))])
}

const BAR: &str = "1 1/4\" wide and 1 1/2 in deep, mitred";

/// 24 × 36 in on bars 1 1/4 wide and 1 1/2 deep, (864 - 21 1/2 × 33 1/2) × 1 1/2 = 215 5/8 in³, of which the two across are
/// 1 1/4 × (24 + 21 1/2) × 1 1/2 = 85 5/16; cloth 24 + 2 × 2 1/2 = 29 by 41. Printed
/// over 24 × 36, or 27 × 39 where the picture is carried round.
#[test]
fn a_canvas_with_each_edge() {
    let white = overmantel::colour::Colour::hex(0xff_ff_ff);
    for (edge, pixels) in
        [(Edge::Mirrored, (3600, 5400)), (Edge::Plain(white), (3600, 5400)), (Edge::Carried, (4050, 5850))]
    {
        let plan = canvas("24x36", Canvas { edge, ..Canvas::starting() });
        let plan = Plan { fineness: 150, ..plan };
        let found = thing(&plan);
        check_parts(
            &found,
            (1_612_360, 1_896_895, 2_181_430),
            &[
                ("canvas", 1, "29x41", None, "400 g/m²", exactly(306_838)),
                ("stretcher bar", 2, "24", POPLAR, BAR, (559_208, 629_110, 712_991)),
                ("stretcher bar", 2, "36", POPLAR, BAR, (854_176, 960_947, 1_089_074)),
            ],
        );
        check_sheets(&found, &[]);
        let print = &found.prints[0];
        assert_eq!((print.size, print.pixels), (size("29x41"), pixels));
        // 29 + 2 × 1/8 is more than 24 and less than 36.
        assert_eq!(print.rolls.first().map(String::as_str), Some("roll, 36 in (91.4 cm)"));
        let (tube, rolled) = print.tube.as_ref().expect("cloth is rolled");
        assert_eq!((tube.as_str(), rolled.tube_length), ("tube for canvas, 4 in", length("31")));
        assert_eq!((found.rails, found.not_weighed), (None, ""));
        assert_eq!(made(&plan, &Stock::offered()).mouldings, [], "no moulding is needed");
        // 36 + 4, 24 + 4, 1 1/2 + 4.
        let carton = found.carton;
        assert_eq!([carton.length, carton.width, carton.height], ["40", "28", "5.5"].map(length));
    }
}

/// Bars as wide as the stock has them in this depth: 2 in wide, (864 - 20 × 32) × 1 1/2 = 336 in³. In a depth that it does not have,
/// 1 1/4 wide: 143 3/4 × 1 1/8 in³.
#[test]
fn bars_of_the_stock() {
    let mut stock = Stock::offered();
    for bar in &mut stock.bars {
        bar.width = length("2");
    }
    let weight = |depth: &str| {
        let plan = canvas("24x36", Canvas { depth: length(depth), ..Canvas::starting() });
        let parts = &made(&plan, &stock).things[0].parts;
        parts[1].1 + parts[2].1
    };
    assert_eq!(weight("1 1/2"), mass((2_202_421, 2_477_724, 2_808_088)));
    assert_eq!(weight("1 1/8"), mass((1_060_038, 1_192_543, 1_351_549)));
}

fn rails_of(thing: &Thing) -> Vec<(Length, Option<Material>, Mass)> {
    let rails = thing.parts.iter().filter(|(part, _)| part.name == "leg");
    rails
        .map(|(part, mass)| match part.extent {
            PartExtent::Length(length) => (length, part.material, *mass),
            other => panic!("a rail of {other:?}"),
        })
        .collect()
}

/// A floater 2 in deep, with a face of 3/8 and air of 1/4, round 24 × 36 on bars of 1 1/2: inside 24 1/2 × 36 1/2, outside 25 1/4 ×
/// 37 1/4, 92 5/8 in³ of sides; behind, 2 - 1 1/2 - 1/8 = 3/8 is left for a ledge that reaches 1/4 + 5/8 in (from memory):
/// (894 1/4 - 22 3/4 × 34 3/4) × 3/8 = 38.8828 in³.
#[test]
fn a_canvas_in_a_floater_frame() {
    let floated = |depth: &str, floater: Floater| {
        let depth = length(depth);
        canvas("24x36", Canvas { depth, floater: Some(floater), ..Canvas::starting() })
    };
    let plan = floated("1 1/2", Floater::starting());
    let found = thing(&plan);
    assert_eq!(found.mass, mass((2_308_434, 2_715_805, 3_123_176)));
    let rails = [
        (length("25.25"), OBECHE, mass((285_616, 328_892, 380_823))),
        (length("37.25"), OBECHE, mass((425_542, 490_018, 567_389))),
    ];
    assert_eq!(rails_of(&found), rails);
    assert_eq!(found.parts[3].0.note, leg!("24 1/2"));
    let (_, moulding) = found.rails.expect("four sides");
    // 2 (25 1/4 + 37 1/4), and the same by the rule from the inside: 2 (24 1/2 + 36 1/2) + 8 × 3/8.
    assert_eq!((moulding.exact, moulding.by_rule), (length("125"), length("125")));
    assert!(!made(&plan, &Stock::offered()).mouldings.is_empty());
    // As deep as the floater, 2 + 4.
    assert_eq!(found.carton.height, length("6"));
    // Bars that are deeper than the floater leave no ledge: 46 5/16 × 1 1/2 in³.
    let shallow = Floater { depth: length("1 1/2"), ..Floater::starting() };
    let rails = [
        (length("25.25"), OBECHE, mass((151_331, 174_261, 201_776))),
        (length("37.25"), OBECHE, mass((224_337, 258_327, 299_116))),
    ];
    assert_eq!(rails_of(&thing(&floated("2", shallow))), rails);
    // The stock has a section of 10 × 50 mm in oak: inside 622.3 × 927.1 mm, a ledge of 50 - 38.1 - 3.175 mm.
    let oak = Floater { face: length("10 mm"), depth: length("50 mm"), ..Floater::starting() };
    let rails = [
        (length("642.3 mm"), OAK, mass((536_315, 605_517, 674_720))),
        (length("947.1 mm"), OAK, mass((798_581, 901_624, 1_004_667))),
    ];
    assert_eq!(rails_of(&thing(&floated("1 1/2", oak.clone()))), rails);
    // A moulding with a lip is no floater, though it be of that section.
    let mut stock = Stock::offered();
    stock.mouldings.retain(|row| !row.is_floater);
    stock.mouldings[0].face = oak.face;
    stock.mouldings[0].depth = oak.depth;
    stock.mouldings[0].material = Material::Pine;
    let found = &made(&floated("1 1/2", oak), &stock).things[0];
    assert_eq!(rails_of(found)[0].1, OBECHE);
}

/// 24 × 36 in of 0.045 in: 38.88 in³ of aluminium. Four blocks of 2 × 2 × 3/4: 12 in³. Bars 1 in wide and 2 in from the edges:
/// (20 × 32 - 18 × 30) × 3/4 = 75 in³.
#[test]
fn a_sheet_of_aluminium() {
    let metal = |sheet: Aluminium| hung(vec![piece("24x36", Finish::Aluminium(sheet))]);
    let aluminium = Some(Material::Aluminium);
    let sheet = ("sheet", 1, "24x36", aluminium, "0.045 in thick", (1_688_391, 1_720_248, 1_752_105));
    let on_blocks = thing(&metal(Aluminium::starting()));
    let blocks = ("float block", 4, "2x2", POPLAR, "3/4 in deep", (78_657, 88_490, 100_289));
    check_parts(&on_blocks, (1_537_427, 1_808_738, 2_080_049), &[sheet, blocks]);
    check_sheets(&on_blocks, &[("sheet", "aluminium, 0.045 in, 40 × 60 in, the most of many presses")]);
    let print = &on_blocks.prints[0];
    assert_eq!((print.size, print.pixels), (size("24x36"), (4800, 7200)));
    assert!(print.rolls.is_empty() && print.tube.is_none(), "metal is not rolled");
    let on_bars = Aluminium { sub_frame: Some(SubFrame::starting()), ..Aluminium::starting() };
    // The two across: 1 × (20 + 18) × 3/4 = 28 1/2 in³.
    let note = "1\" wide and 3/4 in deep, mitred";
    let bars = [
        ("sub-frame bar", 2, "20", POPLAR, note, (186_812, 210_164, 238_186)),
        ("sub-frame bar", 2, "32", POPLAR, note, (304_799, 342_899, 388_620)),
    ];
    check_parts(&thing(&metal(on_bars)), (1_932_314, 2_273_311, 2_614_308), &[sheet, bars[0], bars[1]]);
    // Flat on the wall nothing holds it off: 1.720248 kg ± 15 %.
    let flat = Aluminium { stand_off: Length::ZERO, ..Aluminium::starting() };
    check_parts(&thing(&metal(flat)), (1_462_210, 1_720_248, 1_978_286), &[sheet]);
    // Of no thickness it weighs nothing, and nothing is cut.
    let thin = Aluminium { thickness: Length::ZERO, ..Aluminium::starting() };
    let found = thing(&metal(thin));
    assert_eq!((found.parts.len(), found.blanks.len()), (1, 0));
}

/// An original is handed in: it is not printed and not weighed. In a frame without a mat 24 × 30 is the nominal size: outside 25 1/8 ×
/// 31 1/8, 75 19/32 in³ of oak. In a floater 2 in deep a ledge of 3/8 in stands behind a work of
/// 3/4: 24 1/2 × 30 1/2 inside, 83 5/8 + 93 3/16 × 3/8 = 118.5703 in³.
#[test]
fn originals() {
    let original = |image: &str, framing: Framing, floater: Option<Floater>| {
        hung(vec![piece(image, Finish::Original(Original { framing, floater, ..Original::starting() }))])
    };
    let work = ("original", 1, "24x30", None, "weigh it", exactly(0));
    let bare = thing(&original("24x30", Framing::NONE, None));
    check_parts(&bare, exactly(0), &[work]);
    assert_eq!((bare.not_weighed, bare.prints.len(), bare.rails), ("the original itself", 0, None));

    let framed = Framing { frame: Some(Frame::starting()), ..Framing::NONE };
    let rails = [
        ("leg", 2, "25 1/8", OAK, leg!("24 1/8", "23 5/8"), (342_105, 386_248, 430_391)),
        ("leg", 2, "31 1/8", OAK, leg!("30 1/8", "29 5/8"), (425_925, 480_884, 535_842)),
    ];
    let found = thing(&original("24x30", framed, None));
    check_parts(&found, (737_062, 867_132, 997_202), &[work, rails[0], rails[1]]);
    assert_eq!(found.not_weighed, "the original itself");

    let rails = [
        ("leg", 2, "25 1/4", OBECHE, leg!("24 1/2"), (285_616, 328_892, 380_823)),
        ("leg", 2, "31 1/4", OBECHE, leg!("30 1/2"), (355_580, 409_455, 474_106)),
    ];
    let whole = (627_594, 738_347, 854_929);
    let found = thing(&original("24x30", Framing::NONE, Some(Floater::starting())));
    check_parts(&found, whole, &[work, rails[0], rails[1]]);
    assert_eq!(found.not_weighed, "the original itself");
    // Glazing and boards that are stated still have no place in a floater frame: its stack does not count them either.
    let boarded = Framing { frame: None, mat: None, spacer: length("1/4"), ..Framing::starting() };
    let found = thing(&original("24x30", boarded, Some(Floater::starting())));
    check_parts(&found, whole, &[work, rails[0], rails[1]]);
    check_sheets(&found, &[]);

    // Behind a mat: 12 × 16 on a board of 16 × 20, opening 11 3/4 × 15 3/4, outside 17 1/8 × 21 1/8.
    let work = ("original", 1, "12x16", None, "weigh it", exactly(0));
    check_parts(
        &thing(&original("12x16", Framing::starting(), None)),
        (1_694_208, 1_993_187, 2_292_166),
        &[
            ("glazing", 1, "16x20", GLASS, "2 mm thick, plain", (1_011_610, 1_032_256, 1_052_902)),
            ("mat", 1, "16x20", MAT, "1/16 in thick", (69_209, 78_351, 91_410)),
            work,
            ("mount board", 1, "16x20", MAT, "1/16 in thick", (164_128, 185_806, 216_774)),
            ("backing", 1, "16x20", FOAM, "3/16 in thick", (92_903, 113_548, 134_194)),
            ("leg", 2, "17 1/8", OAK, leg!("16 1/8", "15 5/8"), (230_345, 260_068, 289_790)),
            ("leg", 2, "21 1/8", OAK, leg!("20 1/8", "19 5/8"), (286_226, 323_158, 360_091)),
        ],
    );
}

/// What has no frame is cut to the board, or to the sheet; fillets that no lip hides are 1/4 in wide.
#[test]
fn what_has_no_frame_is_as_large_as_its_board() {
    let paper =
        |framing: Framing| hung(vec![piece("16x20", Finish::Paper(Paper { framing, ..Paper::starting() }))]);
    let loose = Framing { frame: None, spacer: length("1/4"), ..Framing::starting() };
    let extents = |plan: &Plan| -> Vec<PartExtent> {
        let named = |part: &&(CutPart, Mass)| part.0.name != "print";
        thing(plan).parts.iter().filter(named).map(|(part, _)| part.extent).collect()
    };
    let (whole, long) = (|text| PartExtent::Size(size(text)), |text| PartExtent::Length(length(text)));
    // Glass, spacers, mat, mount, backing.
    let board = whole("20x24");
    assert_eq!(extents(&paper(loose.clone())), [board, long("20"), long("23.5"), board, board, board]);
    // 1/4 in wide (from memory) and deep: (20 × 24 - 19 1/2 × 23 1/2) / 4 = 5.4375 in³ of poplar.
    let parts = thing(&paper(loose.clone())).parts;
    assert_eq!(parts[1].1 + parts[2].1, mass((35_641, 40_097, 45_444)));
    let sheet = whole("16x20");
    let bare = extents(&paper(Framing { mat: None, ..loose }));
    assert_eq!(bare, [sheet, long("16"), long("19.5"), sheet, sheet]);
    // Fillets that the lip does not reach over are nothing either: a lip of 1/4 and play of 5/8.
    let frame = Frame { allowance: length("5/8"), ..Frame::starting() };
    let wide = Framing { frame: Some(frame), spacer: length("1/4"), ..Framing::starting() };
    let found = thing(&paper(wide));
    assert_eq!((found.parts[1].0.name.as_str(), found.parts[1].1), ("spacer", mass(exactly(0))));
    assert_eq!(found.parts[1].0.material, POPLAR);
}

/// A long narrow frame: 8 × 40 in of paper, a face of 3 in and a depth of 2 in, a lip of 1/4 in and a rabbet 5/8 in deep; outside 13 5/8 ×
/// 45 5/8. Across: 2 ((13 5/8 - 3) × 3 × 2 - 7 7/8 × 1/4 × 5/8) = 125.04 in³ of oak, or 1.434 kg; by the length of the rails it
/// would be 1.646.
#[test]
fn rails_weigh_what_their_wood_does() {
    let frame = Frame { face: length("3"), depth: length("2"), ..Frame::starting() };
    let framing = Framing { frame: Some(frame), ..Framing::NONE };
    let paper = Paper { framing, ..Paper::starting() };
    let found = thing(&hung(vec![piece("8x40", Finish::Paper(paper))]));
    let grams: Vec<i64> =
        rails_of(&found).iter().map(|(_, _, mass)| (mass.likely_mg + 500) / 1_000).collect();
    assert_eq!(grams, [1_434, 5_724]);
}

/// Tubes are chosen by how wide they are, in whatever order the stock has them: 3 in for paper, 4 in for canvas (common practice, no
/// source).
#[test]
fn tubes_by_their_width() {
    let mut stock = Stock::offered();
    stock.tubes.reverse();
    let paper = made(&hung(vec![Piece::starting()]), &stock);
    let cloth = made(&canvas("16x20", Canvas::starting()), &stock);
    let tube = |made: &Making| made.things[0].prints[0].tube.clone().map(|(name, _)| name);
    assert_eq!(tube(&paper).as_deref(), Some("tube for paper, 3 in"));
    assert_eq!(tube(&cloth).as_deref(), Some("tube for canvas, 4 in"));
}

/// A part weighs by the sheet that it is cut from: two of mount board, of which only the larger states its grams.
#[test]
fn parts_weigh_by_their_own_sheet() {
    let mut stock = Stock::offered();
    let board = |name: &str, side: &str, grams_per_square_metre| SheetStock {
        name: name.to_owned(),
        material: Material::MatBoard,
        thickness: length("1/16"),
        size: size(side),
        grams_per_square_metre,
    };
    stock.sheets = vec![board("large", "60x60", Some(9_000)), board("small", "20x24", None)];
    let found = &made(&hung(vec![Piece::starting()]), &stock).things[0];
    let mount = found.parts.iter().find(|(part, _)| part.name == "mount board").expect("a mount");
    // 20 × 24 in are 0.309 676 8 m², 1/16 in thick, of 530, 600 and 700 kg/m³.
    assert_eq!(mount.1, mass((260_554, 294_967, 344_129)), "by the density of mat board");
}

/// The kerf is that of the sticks that are bought, not of the first in the list.
#[test]
fn kerfs_of_the_sticks_that_are_bought() {
    let mut stock = Stock::offered();
    let stick = |name: &str, long: &str, kerf: &str| Stick {
        name: name.to_owned(),
        length: length(long),
        kerf: length(kerf),
        trim: Length::ZERO,
    };
    stock.sticks = vec![stick("short", "20", "1/2"), stick("long", "120", "1/8")];
    let found = made(&hung(vec![Piece::starting()]), &stock);
    let (_, moulding) = found.things[0].rails.expect("rails");
    assert_eq!(moulding.with_kerfs - moulding.exact, length("3/8"), "three kerfs of 1/8 in");
}

/// From 30 × 40 in on, either way up, a brace across the middle of the longer bars (common practice, no source): 40 - 2 × 1 1/4 long.
#[test]
fn large_canvases_have_a_brace() {
    let braces = |face: &str| -> Vec<PartExtent> {
        let found = thing(&canvas(face, Canvas::starting()));
        found
            .parts
            .iter()
            .filter(|(part, _)| part.name == "cross brace")
            .map(|(part, _)| part.extent)
            .collect()
    };
    assert_eq!(braces("40x60"), [PartExtent::Length(length("37.5"))]);
    assert_eq!(braces("60x40"), [PartExtent::Length(length("37.5"))]);
    assert_eq!(braces("30x40"), [PartExtent::Length(length("27.5"))]);
    assert_eq!(braces("29.5x40"), []);
    assert_eq!(braces("30x39.5"), []);
}
