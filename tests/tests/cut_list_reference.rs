//! Rails, sheets, mats and parcels against worked examples.
//!
//! No expected value here is from Overmantel: each was worked out on paper from the rule that stands above it, or is an example of the
//! trade's. Numbers without a unit are inches.

use overmantel::cut_list::{
    Carton, Charged, Rails, diagonal, grid_yield, mat_cut, moulding, pack, refusal, roll_up, sheet_for,
    sheets_needed, takers,
};
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::length::Length;
use overmantel::plan::Material;
use overmantel::stock::{SheetStock, Stick, Stock, VolumeDivisor};
use overmantel::weigh::Mass;
use overmantel_tests::given::{length, lengths, size};

fn stick(length_text: &str, kerf: &str, trim: &str) -> Stick {
    Stick { name: "ours".to_owned(), length: length(length_text), kerf: length(kerf), trim: length(trim) }
}

/// Long points are the outside, short points the sight; exactly 2(W + H); by rule 2(w + h) + 8F; with three kerfs of 1/8 in that much
/// more. A face of 1 1/4, a lip of 1/4 and 1/8 of allowance round 24 × 36: 26 1/8 × 38 1/8 outside, 23 5/8 × 35 5/8 to be seen.
#[test]
fn rails_and_moulding() {
    let check = |nominal: &str, outside: &str, face: &str, sight: &str, totals: [&str; 3]| {
        let rails = Rails::of(size(outside), length(face));
        let short = Size::new(rails.across.short_point, rails.upright.short_point);
        assert_eq!(short, size(sight), "{nominal}");
        let Size { width, height } = size(outside);
        assert_eq!(rails.long_points(), [width, width, height, height]);
        let found = moulding(size(outside), size(nominal), length(face), length("0.125"));
        assert_eq!([found.exact, found.by_rule, found.with_kerfs], totals.map(length), "{nominal}");
    };
    check("16x20", "17.625x21.625", "1", "15.625x19.625", ["78.5", "80", "78.875"]);
    check("24x36", "26.125x38.125", "1.25", "23.625x35.625", ["128.5", "130", "128.875"]);
    check("20x24", "23.625x27.625", "2", "19.625x23.625", ["102.5", "104", "102.875"]);
    check("11x14", "12.25x15.25", ".75", "10.75x13.75", ["55", "56", "55.375"]);
    check(
        "500 mm x 700 mm",
        "531 mm x 731 mm",
        "20 mm",
        "491 mm x 691 mm",
        ["2524 mm", "2560 mm", "2533.525 mm"],
    );
    check(
        "300 mm x 400 mm",
        "322 mm x 422 mm",
        "15 mm",
        "292 mm x 392 mm",
        ["1488 mm", "1520 mm", "1497.525 mm"],
    );
}

/// The same total as manuals for cutting frames reckon it, for the frame of 24 × 36 above: 2(D1 + D2) + 4(2(F - R) + A) + 3C from its
/// nominal size; 2(D1 + D2) + 4 × 2F + 3C from its sight; 2(D1 + D2) + 3C from its outside. Each is 128 7/8 in.
#[test]
fn moulding_from_three_sizes() {
    let [face, lip, play, kerf] = ["1.25", ".25", ".125", ".125"].map(length);
    let round = |text: &str| (size(text).width + size(text).height) * 2;
    let from_nominal = round("24x36") + ((face - lip) * 2 + play) * 4 + kerf * 3;
    let from_sight = round("23.625x35.625") + face * 2 * 4 + kerf * 3;
    let from_outside = round("26.125x38.125") + kerf * 3;
    let found = moulding(size("26.125x38.125"), size("24x36"), face, kerf).with_kerfs;
    assert_eq!([from_nominal, from_sight, from_outside], [found; 3]);
    assert_eq!(found, length("128.875"));
}

/// Rules as shops print them (common practice, no source): 16 × 20 with a face of 2 in takes 72 + 16 = 88 in, and 1/4 to be safe; a face
/// of 66 mm round two sides of 712 mm together takes 1424 + 528 mm, and 4 to be safe: 1956.
#[test]
fn moulding_by_the_shops_rule() {
    let by_rule = |nominal: &str, face: &str| {
        moulding(size(nominal).grown(length(face)), size(nominal), length(face), Length::ZERO).by_rule
    };
    assert_eq!(by_rule("16x20", "2") + length("1/4"), length("88 1/4"));
    assert_eq!(by_rule("300 mm x 412 mm", "66 mm") + length("4 mm"), length("1956 mm"));
}

/// What each stick is cut into, and what is left of it.
#[track_caller]
fn check_pack(rails: &str, stick: &Stick, expected: &[(&[usize], &str)]) {
    let cuts = pack(&lengths(rails), stick).unwrap_or_else(|error| panic!("{error}"));
    let found: Vec<_> = cuts.iter().map(|cuts| (cuts.rails.as_slice(), cuts.left)).collect();
    let expected: Vec<_> = expected.iter().map(|(rails, left)| (*rails, length(left))).collect();
    assert_eq!(found, expected, "{rails}");
}

#[test]
fn rails_into_sticks() {
    // A caution of the trade's (common practice, no source): two rails of 24 in don't come out of 48; take 24 and 20 from each, 44 1/8 in.
    check_pack("24 24 20 20", &stick("48", ".125", "0"), &[(&[0, 2], "3.875"), (&[1, 3], "3.875")]);
    // All four from one stick that is just their sum, without a kerf.
    let all = pack(&lengths("24 24 20 20"), &stick("88", "0", "0")).unwrap_or_default();
    assert_eq!((all.len(), all[0].left), (1, Length::ZERO));
    // 16 × 20 in a face of 1: 2 × 17 5/8 + 2 × 21 5/8 + 3 × 1/8 = 78 7/8 of 95.
    check_pack("17.625 17.625 21.625 21.625", &stick("96", ".125", "1"), &[(&[2, 3, 0, 1], "16.125")]);
    // On both sides of what a stick holds: 23 3/4 + 24 + 24 + 3 × 1/8 + 22 7/8 = 95.
    check_pack("23.75 24 24 22.875", &stick("96", ".125", "1"), &[(&[1, 2, 0, 3], "0")]);
    let two = pack(&lengths("23.75 24 24 22.876"), &stick("96", ".125", "1")).unwrap_or_default();
    assert_eq!(two.len(), 2);
    // Longest first wherever they fit would take three: 42 + 42, 40 3/4 + 40 3/4 + 12, 12. Two hold 42 + 40 3/4 + 12 + 1/4 = 95 each.
    let fewest = pack(&lengths("42 42 40.75 40.75 12 12"), &stick("96", ".125", "1")).unwrap_or_default();
    assert_eq!(fewest.len(), 2);
    assert!(fewest.iter().all(|cuts| cuts.left == Length::ZERO));
    // One stick just holds one rail.
    check_pack("95", &stick("96", ".125", "1"), &[(&[0], "0")]);
    assert_eq!(pack(&[], &stick("96", ".125", "1")), Ok(Vec::new()));
}

#[test]
fn rails_that_cannot_be_packed() {
    let check = |rails: &str, sentence: &str| {
        assert_eq!(
            pack(&lengths(rails), &stick("96", ".125", "1")).map_err(|why| why.to_string()),
            Err(sentence.to_owned())
        );
    };
    check(
        "20 95.001",
        "leg 2 is 95.001 in long and a stick \"ours\" allows 95 in; choose longer sticks or a smaller frame",
    );
    check("20 0", "leg 2 is 0 in long; a leg must be longer than zero");
    check("-1", "leg 1 is -1 in long; a leg must be longer than zero");
    assert_eq!(pack(&[length("20"); 12], &stick("96", ".125", "1")).map(|cuts| cuts.len()), Ok(3));
    check(
        "1 1 1 1 1 1 1 1 1 1 1 1 1",
        "13 legs were given, and at most 12 are packed at once; pack them in several lots",
    );
}

/// Y = max(⌊W/w⌋ ⌊H/h⌋, ⌊W/h⌋ ⌊H/w⌋). On paper, without trim or mixed directions.
#[test]
fn blanks_of_a_sheet() {
    let blanks = ["16x20", "11x14", "18x24", "20x24", "24x36"];
    for (sheet, yields) in
        [("32x40", [4, 6, 2, 2, 1]), ("40x60", [6, 12, 4, 4, 2]), ("48x96", [12, 24, 10, 8, 4])]
    {
        let found = blanks.map(|blank| grid_yield(size(blank), size(sheet)));
        assert_eq!(found, yields, "{sheet}");
    }
    for (blank, yields) in [("28x36", 1), ("30x40", 1), ("32.125x40", 0), ("40x32", 1), ("36x36", 0)] {
        assert_eq!(grid_yield(size(blank), size("32x40")), yields, "{blank}");
    }
    // More blanks than an `i64` counts: (10 m / one unit)², a unit being 1/1440 µm.
    let unit = Length::from_units(1);
    assert_eq!(grid_yield(Size::new(unit, unit), size("10 m x 10 m")), 14_400_000_000_i128.pow(2));
    assert_eq!(grid_yield(size("0x10"), size("32x40")), 0);
    assert_eq!(grid_yield(size("-1x10"), size("32x40")), 0);
}

/// Sheets of mat board by area: 32 × 40 in 1280, 80 × 120 cm 1488, 40 × 60 in 2400 in².
#[test]
fn which_sheet_to_buy() {
    let stock = Stock::offered();
    let check = |material, thickness: Option<&str>, blank: &str, expected: &str| {
        let found = sheet_for(&stock, material, thickness.map(length), size(blank));
        assert_eq!(found.map(|sheet| sheet.name.as_str()), Ok(expected), "{blank}");
    };
    let mat = Material::MatBoard;
    check(mat, Some("1/16"), "28x36", "mat board, 4-ply, 32 × 40 in");
    check(mat, Some("1/16"), "40x32", "mat board, 4-ply, 32 × 40 in");
    check(mat, Some("1/16"), "34x44", "mat board, 4-ply, 40 × 60 in");
    check(mat, Some("1/16"), "32.125x40", "mat board, 4-ply, 40 × 60 in");
    check(mat, Some("1/8"), "28x36", "mat board, 8-ply, 32 × 40 in");
    check(mat, Some("1.4 mm"), "28x36", "mount board, 1.4 mm, 80 × 120 cm");
    check(Material::Aluminium, None, "40x60", "aluminium, 0.045 in, 40 × 60 in, the most of many presses");
    check(Material::Aluminium, None, "40x61", "aluminium, 0.045 in, 4 × 8 ft");
    let refused = |material, thickness: Option<&str>, blank: &str, sentence: &str| {
        let found = sheet_for(&stock, material, thickness.map(length), size(blank));
        assert_eq!(
            found.map(|sheet| sheet.name.as_str()).map_err(|why| why.to_string()),
            Err(sentence.to_owned())
        );
    };
    refused(
        mat,
        Some("1/16"),
        "61x104",
        "no sheet of mat board, 1/16 in thick is large enough for 61 in × 104 in; the largest in the stock list is 60 in × 104 in, so make the piece smaller or add a larger sheet",
    );
    refused(
        Material::Oak,
        None,
        "8x10",
        "the stock list has no sheet of oak; add one, or choose another material",
    );
    refused(
        Material::Glass,
        Some("4 mm"),
        "8x10",
        "the stock list has no sheet of glass, 4 mm thick; add one, or choose another material",
    );
    // It is the area that counts: 60 × 20 is 1200 in², 36 × 36 is 1296, whichever stands first.
    let sheet = |of: &str| SheetStock {
        name: of.to_owned(),
        material: Material::Glass,
        thickness: length("2 mm"),
        size: size(of),
        grams_per_square_metre: None,
    };
    for sheets in [["60x20", "36x36"], ["36x36", "60x20"]] {
        let stock = Stock { sheets: sheets.map(sheet).into(), ..stock.clone() };
        let found = sheet_for(&stock, Material::Glass, None, size("15x15"));
        assert_eq!(found.map(|sheet| sheet.name.as_str()), Ok("60x20"));
        let found = sheet_for(&stock, Material::Glass, None, size("61x15"));
        assert!(
            found
                .is_err_and(|why| why.to_string().contains("the largest in the stock list is 36 in × 36 in"))
        );
    }
}

/// Each size from sheets of its own: five of 16 × 20 at four to a sheet are two sheets, one of 24 × 36 another.
#[test]
fn how_many_sheets() {
    let check = |blanks: &[&str], sheets: Option<i128>| {
        let blanks: Vec<Size> = blanks.iter().map(|text| size(text)).collect();
        assert_eq!(sheets_needed(&blanks, size("32x40")), sheets, "{blanks:?}");
    };
    check(&[], Some(0));
    check(&["16x20"; 4], Some(1));
    check(&["16x20"; 5], Some(2));
    check(&["16x20", "20x16", "16x20", "20x16"], Some(1));
    check(&["16x20", "24x36", "16x20", "16x20", "16x20", "16x20"], Some(3));
    check(&["16x20", "36x36"], None);
}

fn rect(x: &str, y: &str, extent: &str) -> Rect {
    Rect::new(length(x), length(y), size(extent))
}

/// On paper: a board of 16 × 20 with an opening of 10 3/4 × 13 3/4, 2 in from the left and 3 3/8 from the foot, has 3 1/4 on the right and
/// 2 7/8 at the head; seen from the back, left and right change places. A bevel in 1/16 in makes the hole at the face 1/8 larger.
#[test]
fn measures_of_a_mat() {
    // Where the board lies in its piece is of no account.
    for (x, y) in [("0", "0"), ("7", "-3")] {
        let board = rect(x, y, "16x20");
        let opening = rect("2", "3.375", "10.75x13.75").moved(board.x, board.y);
        let cut = mat_cut(board, opening, length("1/16")).unwrap_or_else(|error| panic!("{error}"));
        let [left, top, right, bottom] = ["2", "2.875", "3.25", "3.375"].map(length);
        assert_eq!(cut.face, Sides { left, top, right, bottom });
        assert_eq!(cut.back, Sides { left: right, top, right: left, bottom });
        assert_eq!((cut.board, cut.opening), (size("16x20"), size("10.75x13.75")));
        assert_eq!(cut.face_opening, size("10.875x13.875"));
        assert_eq!(cut.sums(), size("16x20"));
    }
    let board = rect("0", "0", "16x20");
    let check = |opening: Rect, sentence: &str| {
        assert_eq!(
            mat_cut(board, opening, length("1/16")).map_err(|why| why.to_string()),
            Err(sentence.to_owned())
        );
    };
    check(
        rect("1/16", "3", "10x10"),
        "the narrowest border is 1/16 in and the bevel takes 1/16 in of it; make the board larger or the opening smaller",
    );
    check(
        rect("3", "3", "14x10"),
        "the narrowest border is -1 in and the bevel takes 1/16 in of it; make the board larger or the opening smaller",
    );
    check(rect("3", "3", "0x10"), "the opening is 0 in × 10 in; it must be more than zero");
    assert!(mat_cut(board, rect("0.063", "3", "10x10"), length("1/16")).is_ok());
}

/// Square roots to a thousandth: of 656, 1872 and 5200, and of 304.625 for 10 3/4 × 13 3/4 (17.4535); the paper of A4 by ISO 216.
#[test]
fn diagonals() {
    for (text, thousandths) in
        [("16x20", 25_612), ("24x36", 43_267), ("40x60", 72_111), ("10.75x13.75", 17_454), ("3x4", 5_000)]
    {
        let found = diagonal(size(text)).to_nearest(length("0.001"));
        assert_eq!(found, Length::inches_ratio(thousandths, 1000), "{text}");
    }
    // 210² + 297² = 132309; 363.743² = 132308.97.
    assert_eq!(diagonal(size("210 mm x 297 mm")).to_nearest(length("0.001 mm")), length("363.743 mm"));
}

/// L + 2(W + H), and L W H / 139 in³ up to the next pound. Two of these are printed by the trade (30 × 10 × 10 and 30 × 10 × 15; common
/// practice, no source), the others were worked out on paper.
#[test]
fn parcels() {
    let check = |sides: [i64; 3], girth: i64, pounds: i128| {
        let [length, width, height] = sides.map(Length::inches);
        let carton = Carton { length, width, height };
        assert_eq!(carton.length_and_girth(), Length::inches(girth), "{sides:?}");
        let charged = carton.volume_weight(VolumeDivisor::CubicInchesPerPound(139));
        assert_eq!(charged, Charged::Pounds(pounds), "{sides:?}");
        assert_eq!(charged.to_string(), format!("{pounds} lb"));
    };
    check([44, 32, 4], 116, 41);
    check([48, 36, 5], 130, 63);
    check([30, 20, 4], 78, 18);
    check([66, 10, 10], 106, 48);
    check([30, 10, 10], 70, 22);
    check([30, 15, 10], 80, 33);
    check([139, 1, 1], 143, 1);
    check([139, 2, 1], 145, 2);
    // 60 × 40 × 10 cm are 24000 cm³: 4.8 kg at 5000, and 5 at 4800 exactly.
    let [length, width, height] = [600, 400, 100].map(Length::mm);
    let carton = Carton { length, width, height };
    for divisor in [5000, 4800] {
        let charged = carton.volume_weight(VolumeDivisor::CubicCentimetresPerKilogram(divisor));
        assert_eq!(charged.to_string(), "5 kg", "{divisor}");
    }
}

/// The outside and the depth with 2 in of packing on each side, the longest first: 26 1/8 + 4, 38 1/8 + 4, 1 1/8 + 4.
#[test]
fn cartons() {
    let sides = ["42.125", "30.125", "5.125"].map(length);
    for outside in ["26.125x38.125", "38.125x26.125"] {
        let carton = Carton::round(size(outside), length("1.125"), length("2"));
        assert_eq!([carton.length, carton.width, carton.height], sides);
    }
}

/// Limits of 108 in, of 130 or 165 in with the girth, of 70 or 150 lb (31.751 and 68.038 kg): common practice, no source.
#[test]
fn which_parcels_take_a_carton() {
    let stock = Stock::offered();
    let check = |sides: [&str; 3], grams: i64, names: &[&str]| {
        let [length, width, height] = sides.map(length);
        let carton = Carton { length, width, height };
        let found: Vec<&str> =
            takers(&stock, carton, Mass::exactly(grams * 1000)).map(|parcel| parcel.name.as_str()).collect();
        assert_eq!(found, names, "{sides:?}, {grams} g");
    };
    let (smaller, larger, freight) = (
        "example of a parcel, smaller limit",
        "example of a parcel, larger limit",
        "example of freight on a pallet",
    );
    check(["48", "36", "5"], 31_751, &[smaller, larger, freight]);
    check(["48", "36", "5"], 31_752, &[larger, freight]);
    check(["48", "36", "5"], 68_038, &[larger, freight]);
    check(["48", "36", "5"], 68_039, &[freight]);
    check(["48", "36", "5.001"], 1_000, &[larger, freight]);
    check(["108", "5", "5"], 1_000, &[smaller, larger, freight]);
    check(["108.001", "5", "5"], 1_000, &[freight]);
    check(["65", "45", "5"], 1_000, &[larger, freight]);
    check(["65", "45", "5.001"], 1_000, &[freight]);

    let carton = |text: &str| Carton { length: length(text), width: length("36"), height: length("5") };
    let why = |text, mass| refusal(&stock.parcels[0], carton(text), mass);
    assert_eq!(why("48", Mass::exactly(1)), None);
    assert_eq!(
        why("109", Mass::exactly(1)).as_deref(),
        Some("the longest side is 109 in; \"example of a parcel, smaller limit\" takes up to 108 in")
    );
    assert_eq!(
        why("49", Mass::exactly(1)).as_deref(),
        Some("length and girth is 131 in; \"example of a parcel, smaller limit\" takes up to 130 in")
    );
    let heavy = Mass { least_mg: 1, likely_mg: 30_000_000, most_mg: 34_500_000 };
    assert_eq!(
        why("48", heavy).as_deref(),
        Some("it may weigh 34.500 kg; \"example of a parcel, smaller limit\" takes up to 31.751 kg")
    );
}

/// A tube is 2 in longer than the shorter side, and π × 3, 4, 6 in round: 9.425, 12.566, 18.850 (length and widths common practice, no
/// source).
#[test]
fn tubes() {
    let stock = Stock::offered();
    for (tube, thousandths) in stock.tubes.iter().zip([9_425, 12_566, 18_850]) {
        for sheet in ["24x36", "36x24"] {
            let rolled = roll_up(size(sheet), tube);
            assert_eq!((rolled.along, rolled.round), (length("24"), length("36")));
            assert_eq!(rolled.tube_length, length("26"));
            let circumference = rolled.circumference.to_nearest(length("0.001"));
            assert_eq!(circumference, Length::inches_ratio(thousandths, 1000), "{}", tube.name);
        }
    }
    assert_eq!(stock.tubes.len(), 3);
}
