//! The survey of works against the trade's own formulae, written out here without the project's code, and lists as other programs write them.
//!
//! Formulae: a print of `px` pixels at `ppi` is px / ppi inches; filling W × H takes k = max(W / px_w, H / px_h), is 1 / k ppi fine and loses
//! 1 - (W / k)(H / k) / (px_w px_h); fitting inside takes the smaller of the two; an opening is the sheet less twice the overlap, and a border half of
//! what the frame is wider; a sheet goes on a roll when its smaller side and two margins do; pixels merge from cot 1′ / ppi inches. Common practice,
//! no source, but for the acuity (ISO 8596). What this project chose itself is named where it stands.

use num_rational::Ratio;
use overmantel::fit::Way;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::stock::Stock;
use overmantel::works::survey::{LeftOut, Limit, On, Question, Shape, Survey, survey};
use overmantel::works::{Fault, Key, Work, Works};
use std::collections::BTreeSet;

type Q = Ratio<i128>;

fn q(over: i128, under: i128) -> Q {
    Q::new(over, under)
}

/// Prints of four sizes and frames of three, one of them both; rolls of 17 and 24 in with 1/8 in left on each side.
const STOCK: &str = r#"{ "overmantel_stock": 1,
    "sizes": { "replace": [
        { "name": "8 x 10", "series": "ours", "system": "inches", "size": ["8 in", "10 in"], "print": true, "frame": false },
        { "name": "12 x 18", "series": "ours", "system": "inches", "size": ["12 in", "18 in"], "print": true, "frame": false },
        { "name": "16 x 20", "series": "ours", "system": "inches", "size": ["16 in", "20 in"], "print": true, "frame": true },
        { "name": "24 x 36", "series": "ours", "system": "inches", "size": ["24 in", "36 in"], "print": true, "frame": false },
        { "name": "18 x 24", "series": "ours", "system": "inches", "size": ["18 in", "24 in"], "print": false, "frame": true },
        { "name": "11 x 14", "series": "ours", "system": "inches", "size": ["11 in", "14 in"], "print": false, "frame": true } ] },
    "rolls": { "replace": [
        { "name": "narrow", "width": "17 in", "margin": "1/8 in" },
        { "name": "wide", "width": "24 in", "margin": "1/8 in", "longest": "30 in" } ] } }"#;

/// Width, height, whether it is on offer as a print and as a frame.
const SIZES: [(i128, i128, bool, bool); 6] = [
    (8, 10, true, false),
    (12, 18, true, false),
    (16, 20, true, true),
    (24, 36, true, false),
    (18, 24, false, true),
    (11, 14, false, true),
];

/// A size in a way, with its resolution, what it loses, and what stands against it.
type Told = (i128, i128, &'static str, Q, Q, Vec<&'static str>);

/// Everything that the formulae say of a picture on paper, at 200 ppi.
fn expected((across, down): (i128, i128)) -> BTreeSet<Told> {
    let is_wide = across > down;
    let turned = |short: i128, long: i128| if is_wide { (long, short) } else { (short, long) };
    let filled = |(width, height): (i128, i128)| {
        let ppi = q(across, width).min(q(down, height));
        let lost = q(1, 1) - ppi * width * ppi * height / q(across * down, 1);
        (ppi, lost)
    };
    let limits = |ppi: Q, (width, height): (i128, i128)| {
        let (short, long) = (width.min(height), width.max(height));
        // 17 - 2/8 and 24 - 2/8, of which the second may be 30 in long.
        let on_narrow = q(short, 1) <= q(67, 4);
        let on_wide = q(short, 1) <= q(95, 4) && long <= 30;
        let mut found = Vec::new();
        if ppi < q(200, 1) {
            found.push("file");
        }
        if !on_narrow && !on_wide {
            found.push("roll");
        }
        found
    };
    let mut told = BTreeSet::new();
    for (short, long, is_print, _) in SIZES {
        let size = turned(short, long);
        let (ppi, lost) = filled(size);
        // Whole where less than 1/200 is lost: this project's own choice.
        let is_whole = lost < q(1, 200);
        told.insert((size.0, size.1, if is_whole { "whole" } else { "crop" }, ppi, lost, limits(ppi, size)));
        // Inside a border of 1/2 in: this project's own choice.
        let ppi = q(across, size.0 - 1).max(q(down, size.1 - 1));
        told.insert((size.0, size.1, "border", ppi, q(0, 1), limits(ppi, size)));
        if !is_whole || !is_print {
            continue;
        }
        for (short, long, _, is_frame) in SIZES {
            let frame = turned(short, long);
            // The mat covers 1/8 in of the sheet; borders of 1 1/2 to 4 in (the most is this project's own choice).
            let border = |frame: i128, sheet: i128| (q(frame, 1) - (q(sheet, 1) - q(1, 4))) / 2;
            let (side, top) = (border(frame.0, size.0), border(frame.1, size.1));
            let is_held = [side, top].iter().all(|border| *border >= q(3, 2) && *border <= q(4, 1));
            if is_frame && is_held && size.0 <= frame.0 && size.1 <= frame.1 {
                let (ppi, lost) = filled(size);
                told.insert((frame.0, frame.1, "mat", ppi, lost, limits(ppi, size)));
            }
        }
    }
    told
}

fn stock() -> Stock {
    Stock::read(STOCK).unwrap_or_else(|why| panic!("{why}"))
}

fn of_px(px: (u32, u32)) -> Work {
    Work { title: "Ebb".into(), px: Some(px), ..Work::default() }
}

fn whole_inches(length: Length) -> i128 {
    let inches = length.units() / Length::inches(1).units();
    assert_eq!(Length::inches(inches), length);
    inches.into()
}

fn told(found: &Survey) -> BTreeSet<Told> {
    let one = &found.suited[0];
    let all = one.prints.iter().chain(&one.limited).map(|printed| {
        let way = match printed.way {
            Way::Whole => "whole",
            Way::Matted => "mat",
            Way::Bordered => "border",
            Way::Cropped => "crop",
        };
        let limits = printed.limits.iter().map(|limit| match limit {
            Limit::File => "file",
            Limit::Roll => "roll",
            Limit::Sheet => "sheet",
            Limit::SmallerSide => "side",
        });
        let (width, height) = (whole_inches(printed.size.width), whole_inches(printed.size.height));
        (width, height, way, printed.ppi, printed.lost.share, limits.collect())
    });
    let set: BTreeSet<Told> = all.collect();
    assert_eq!(set.len(), one.prints.len() + one.limited.len(), "nothing is told twice");
    set
}

#[test]
fn every_size_in_every_way_is_as_the_formulae_say() {
    let (stock, asked) = (stock(), Question::default());
    let mut seen = BTreeSet::new();
    let sides = [1600, 1980, 2400, 2500, 3024, 3200, 3999, 4000, 4032, 4800, 6000, 9001];
    for across in sides {
        for down in sides {
            let found = survey(&[of_px((across, down))], &stock, &asked);
            let expected = expected((across.into(), down.into()));
            if expected.iter().all(|one| !one.5.is_empty()) {
                assert_eq!((found.suited.len(), &found.left_out[..]), (0, &[(LeftOut::Print, 1)][..]));
                continue;
            }
            let mut expected = expected;
            // One print in a mat for a frame: where several fit, the one that is told is one of them.
            let told = told(&found);
            let key = |one: &Told| (one.0, one.1, one.2);
            assert_eq!(
                told.iter().map(key).collect::<BTreeSet<_>>(),
                expected.iter().map(key).collect::<BTreeSet<_>>(),
                "{across} x {down}"
            );
            expected.retain(|one| told.contains(one));
            assert_eq!(expected, told, "{across} x {down}");
            seen.extend(told.iter().map(|one| (one.2, one.5.clone())));
        }
    }
    for way in ["whole", "mat", "border", "crop"] {
        for limits in [vec![], vec!["file"]] {
            assert!(seen.contains(&(way, limits.clone())), "{way} {limits:?} was never seen");
        }
    }
    assert!(seen.contains(&("crop", vec!["file", "roll"])), "{seen:?}");
}

/// Values worked out in a handbook of the trade: 4000 × 6000 px at 16 × 20 in is 250 ppi and loses 1/6, at 24 × 36 in 166 2/3 ppi and nothing;
/// 3024 × 4032 px at 20 × 30 in is 134.4 ppi and loses 1/9; 300 ppi merge from 11.459 in.
#[test]
fn check_values_of_the_trade() {
    let stock = Stock::offered();
    let asked = |size| Question { size: Some(size), least_ppi: Some(100), ..Question::default() };
    for (px, size, way, ppi, lost) in [
        ((4000, 6000), Size::inches(16, 20), Way::Cropped, q(250, 1), q(1, 6)),
        ((4000, 6000), Size::inches(24, 36), Way::Whole, q(500, 3), q(0, 1)),
        ((3024, 4032), Size::inches(20, 30), Way::Cropped, q(672, 5), q(1, 9)),
        ((6000, 9000), Size::inches(24, 36), Way::Whole, q(250, 1), q(0, 1)),
    ] {
        let found = survey(&[of_px(px)], &stock, &asked(size));
        let one = found.suited[0].prints.iter().find(|one| one.way == way);
        let one = one.unwrap_or_else(|| panic!("{px:?} at {size:?}"));
        assert_eq!((one.ppi, one.lost.share, one.size), (ppi, lost, size));
    }
    let found = survey(&[of_px((4800, 6000))], &stock, &asked(Size::inches(16, 20)));
    assert!((found.suited[0].prints[0].sharp_from.to_inches() - 11.459).abs() < 0.001);
}

/// 6000 × 4000 px: 40 × 26.667 in at 150, 30 × 20 at 200, 25 × 16.667 at 240, 20 × 13.333 at 300; on a roll of 17 in no more than 16 3/4 in across.
#[test]
fn the_largest_print_is_what_file_and_roll_allow() {
    let narrow = r#"{ "overmantel_stock": 1, "rolls": { "replace": [ { "name": "narrow", "width": "17 in", "margin": "1/8 in" } ] } }"#;
    let narrow = Stock::read(narrow).unwrap_or_else(|why| panic!("{why}"));
    let inches = |size: Size| [size.width, size.height].map(Length::to_inches);
    let check = |stock: &Stock, asked: &Question, expected: [([f64; 2], Limit); 4]| {
        let found = survey(&[of_px((6000, 4000))], stock, asked);
        for (largest, (size, limit)) in found.suited[0].largest.iter().zip(expected) {
            let found = inches(largest.size);
            let is_near = found.iter().zip(size).all(|(one, other)| (one - other).abs() < 0.001);
            assert!(is_near && largest.limit == limit, "{largest:?} {found:?} and not {size:?} {limit:?}");
        }
    };
    use Limit::{File, Roll, SmallerSide};
    let file = [[40.0, 26.667], [30.0, 20.0], [25.0, 16.667], [20.0, 13.333]];
    check(&Stock::offered(), &Question::default(), file.map(|size| (size, File)));
    // 16 3/4 × 3/2 = 25 1/8.
    let held = [25.125, 16.75];
    check(&narrow, &Question::default(), [(held, Roll), (held, Roll), (file[2], File), (file[3], File)]);
    let asked = Question { smaller_side: Some(Length::inches(14)), ..Question::default() };
    let held = [21.0, 14.0];
    check(
        &Stock::offered(),
        &asked,
        [(held, SmallerSide), (held, SmallerSide), (held, SmallerSide), (file[3], File)],
    );
    // A canvas 1 1/2 in deep with 1 in of staple margin takes 2 × 2 1/2 = 5 in more each way: 16 3/4 - 5 = 11 3/4, × 3/2 = 17 5/8.
    let asked = Question { on: On::Canvas, ..Question::default() };
    check(&narrow, &asked, [([17.625, 11.75], Roll); 4]);
}

/// Canvas is printed to the edge, and forgives: 150 ppi in place of 200, or what the stock's own limit says.
#[test]
fn materials_have_standards_of_their_own() {
    let asked = |on| Question { on, ..Question::default() };
    let stock = Stock::offered();
    for (on, ppi) in [(On::Paper, 200), (On::Canvas, 150), (On::Aluminium, 200)] {
        let found = survey(&[of_px((9000, 6000))], &stock, &asked(on));
        assert_eq!(found.least_ppi, ppi);
        let one = &found.suited[0];
        let is_edge = |way: Way| matches!(way, Way::Whole | Way::Cropped);
        assert_eq!(one.prints.iter().all(|printed| is_edge(printed.way)), on != On::Paper);
    }
    let own = r#"{ "overmantel_stock": 1, "thresholds": { "pixels to the inch below which a print is soft": "120" } }"#;
    let own = Stock::read(own).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(survey(&[of_px((9000, 6000))], &own, &asked(On::Canvas)).least_ppi, 120);
    // The largest sheet of aluminium in the standard list is 48 × 120 in or 100 × 300 cm; 60 in across is on none.
    let huge = Question { on: On::Aluminium, size: Some(Size::inches(60, 90)), ..Question::default() };
    assert_eq!(survey(&[of_px((30_000, 20_000))], &stock, &huge).left_out, [(LeftOut::Print, 1)]);
}

#[test]
fn each_thing_asked_leaves_out_what_it_should() {
    let list = "title,dateCreated,availability,widthPx,heightPx,subject,signature\n\
                Ebb near the mole,2022/2024,available,6000,9000,,\n\
                The mole,2023-05,sold,6000,9000,,\n\
                Undated,,available,6000,9000,,\n\
                Ebb on the flats,2019,available,9000,6000,,\n\
                No pixels,2024,available,,,,\n\
                Wide,2024,available,9000,3000,100 500,bottom right\n\
                Square,2024,,6000,6100,,\n";
    let works = Works::read(list).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(works.problems, []);
    let stock = Stock::offered();
    let titles = |asked: &Question| {
        let found = survey(&works.works, &stock, asked);
        let titles = found.suited.iter().map(|one| works.works[one.work].title.clone()).collect::<Vec<_>>();
        (titles.join("; "), found.left_out)
    };
    let usual = Question::default();
    use LeftOut::{Pixels, Print, Shape as OtherShape, Unavailable, Undated, Words, Year};
    for (asked, expected, left_out) in [
        (
            usual.clone(),
            "Ebb near the mole; The mole; Undated; Ebb on the flats; Wide; Square",
            vec![(Pixels, 1)],
        ),
        (
            Question { since: Some(2024), ..usual.clone() },
            "Ebb near the mole; Wide; Square",
            vec![(Year, 2), (Undated, 1), (Pixels, 1)],
        ),
        (
            Question { until: Some(2023), ..usual.clone() },
            "The mole; Ebb on the flats",
            vec![(Year, 4), (Undated, 1)],
        ),
        (
            Question { is_available: true, ..usual.clone() },
            "Ebb near the mole; Undated; Ebb on the flats; Wide",
            vec![(Unavailable, 2), (Pixels, 1)],
        ),
        (
            Question { words: vec!["EBB".into(), "mole".into()], ..usual.clone() },
            "Ebb near the mole",
            vec![(Words, 6)],
        ),
        (
            Question { shape: Some(Shape::Panorama), ..usual.clone() },
            "Wide",
            vec![(Pixels, 1), (OtherShape, 5)],
        ),
        (
            Question { shape: Some(Shape::Square), ..usual.clone() },
            "Square",
            vec![(Pixels, 1), (OtherShape, 5)],
        ),
        (
            Question { shape: Some(Shape::Portrait), ..usual.clone() },
            "Ebb near the mole; The mole; Undated",
            vec![(Pixels, 1), (OtherShape, 3)],
        ),
        (
            Question { size: Some(Size::inches(24, 36)), ways: vec![Way::Whole], ..usual.clone() },
            "Ebb near the mole; The mole; Undated; Ebb on the flats",
            vec![(Pixels, 1), (Print, 2)],
        ),
    ] {
        assert_eq!(titles(&asked), (expected.to_owned(), left_out), "{asked:?}");
    }
    // 9000 × 3000 px fill 36 × 24 in from 4500 of the 9000: what is kept at 10 % lies in it, and the signature at 94 % does not.
    let asked = Question {
        size: Some(Size::inches(36, 24)),
        least_ppi: Some(100),
        words: vec!["wide".into()],
        ways: vec![Way::Cropped],
        ..usual
    };
    let found = survey(&works.works, &stock, &asked);
    let one = &found.suited[0].prints[0];
    assert_eq!(
        (one.lost.share, one.lost.left_px, one.loses_subject, one.loses_signature),
        (q(1, 2), q(0, 1), false, true)
    );
}

/// Lists as spreadsheets write them: with the mark of the order of bytes, with semicolons and decimal commas, with tabs.
#[test]
fn lists_are_read_as_spreadsheets_write_them_and_written_back_as_they_were() {
    let lists = [
        "identifier,title,width (cm),height (cm),file\r\nW-1,\"Ebb, low\",\"60,5\",80,ebb.jpg\r\n",
        "\u{feff}identifier;title;width (cm);height (cm);file\r\nW-1;\"Ebb, low\";60,5;80;ebb.jpg\r\n",
        "identifier\ttitle\twidth (cm)\theight (cm)\tfile\nW-1\t\"Ebb, low\"\t60.5\t80\tebb.jpg",
        "\n\nTitle;Height [mm];File;Width [mm];shelf;Identifier\n\"Ebb, low\";800;ebb.jpg;605;\"a \"\"b\"\"\";W-1\n\n\n",
        "{ \"overmantel_works\": 1, \"units\": \"cm\", \"works\": [ { \"shelf\": 1.50, \"title\": \"Ebb, low\", \"identifier\": \"W-1\", \"width\": 60.5, \"height\": \"80\", \"file\": \"ebb.jpg\" } ] }",
    ];
    for list in lists {
        let mut works = Works::read(list).unwrap_or_else(|why| panic!("{list}: {why}"));
        assert_eq!(works.problems, [], "{list}");
        let work = &works.works[0];
        assert_eq!(
            (work.identifier.as_str(), work.title.as_str(), work.file.as_str()),
            ("W-1", "Ebb, low", "ebb.jpg")
        );
        assert_eq!(work.size, Some(Size::new(Length::mm(605), Length::mm(800))), "{list}");
        assert_eq!(works.write(), list);
        works.set(0, Key::Title, "=1+1; \"x\"");
        works.set(0, Key::WidthPx, "6000");
        works.set(0, Key::HeightPx, "4000");
        let place = works.add();
        works.set(place, Key::File, "neu.jpg");
        let written = works.write();
        let again = Works::read(&written).unwrap_or_else(|why| panic!("{written}: {why}"));
        assert_eq!(again.problems, [], "{written}");
        assert_eq!((again.works[0].px, again.works[0].title.as_str()), (Some((6000, 4000)), "=1+1; \"x\""));
        assert_eq!((again.works[1].file.as_str(), again.works.len()), ("neu.jpg", 2));
        // Spreadsheets take what begins so for a formula.
        assert!(list.starts_with('{') || written.contains("'=1+1"), "{written}");
    }
    // What is not set stays as it was, byte for byte.
    let mut works = Works::read(lists[3]).unwrap_or_else(|why| panic!("{why}"));
    works.set(0, Key::File, "flut.jpg");
    assert_eq!(works.write(), lists[3].replace("ebb.jpg", "flut.jpg"));
    works.set(0, Key::WidthPx, "6000");
    let expected = lists[3]
        .replace("ebb.jpg", "flut.jpg")
        .replace("Identifier\n", "Identifier;widthPx\n")
        .replace(";W-1\n", ";W-1;6000\n");
    assert_eq!(works.write(), expected);
}

/// Whatever is wrong with single cells is told with its place, and the rest stands.
#[test]
fn what_is_wrong_is_told_with_row_and_column() {
    let list = "identifier,title,title,dateCreated,width,height,availability,artEdition,price,widthPx,heightPx,subject,signature\n\
                W-1,Ebb,,14.05.2023,60 c m,-2 cm,perhaps,8/7,1.250,0,x,1 2 3,inside\n\
                W-1,Two,,2023,10 in,,,,,,600,,\n\
                W-3,Three,,2023,,,,,,,,,,too,many\n\
                ,,,,1 in,1 in,,,,,,,\n";
    let works = Works::read(list).unwrap_or_else(|why| panic!("{why}"));
    let told: Vec<String> = works.problems.iter().map(ToString::to_string).collect();
    for (begin, has) in [
        ("row 1, title: ", "twice"),
        ("row 2, dateCreated: \"14.05.2023\" is not a date", "2023-05-14"),
        ("row 2, width: ", "unit"),
        ("row 2, height: -2 cm is out of range", "more than 0"),
        ("row 2, availability: \"perhaps\"", "reserved"),
        ("row 2, artEdition: \"8/7\" is not an edition", "7/50"),
        ("row 2, price: \"1.250\" is not an amount", "thousands"),
        ("row 2, widthPx: \"0\"", "whole number"),
        ("row 2, heightPx: \"x\"", "whole number"),
        ("row 2, subject: \"1 2 3\"", "500 380"),
        ("row 2, signature: \"inside\"", "bottom right"),
        ("row 3, identifier: \"W-1\" is the identifier of row 2 too", "one of its own"),
        ("row 3, width: it stands without the height", "both"),
        ("row 3, heightPx: it stands without the widthPx", "both"),
        ("row 4: it has 15 cells, and there are 13 columns", "quotation marks"),
        ("row 5: it has neither", "identifier"),
    ] {
        assert!(told.iter().any(|line| line.starts_with(begin) && line.contains(has)), "{begin}: {told:#?}");
    }
    assert_eq!(told.len(), 16, "{told:#?}");
    assert_eq!(works.works.len(), 4, "every row stands");
    assert_eq!(works.works[0].title, "Ebb");
    assert_eq!(works.write(), list);
}

#[test]
fn lists_that_are_none_are_refused_in_a_sentence() {
    let many = format!("title\n{}", "x\n".repeat(5001));
    let wide = format!("title{}\n", ",x".repeat(300));
    for (list, words) in [
        ("", "empty"),
        ("\n\r\n", "empty"),
        ("a,b\n1,2\n", "begin with names such as"),
        (many.as_str(), "5001 works, and at most 5000"),
        (wide.as_str(), "301 columns"),
        ("{", "not JSON"),
        ("{}", "another form"),
        ("[1]", "another form"),
        ("{ \"overmantel_works\": 2, \"works\": [] }", "version 2"),
        ("{ \"overmantel_works\": 1, \"works\": [3] }", "another form"),
        ("{ \"overmantel_works\": 1, \"overmantel_works\": 1, \"works\": [] }", "twice"),
    ] {
        let why = Works::read(list).map(|works| works.works.len()).expect_err(words).to_string();
        assert!(why.contains(words), "{why}");
        assert!(why.len() < 400, "{why}");
    }
    let most = format!("title\n{}", "x\n".repeat(5000));
    assert_eq!(Works::read(&most).map(|works| works.works.len()), Ok(5000));
}

/// Long texts, a thousand faults, quotation marks that never close, letters that turn the line: all are read, and nothing of it is a message without end.
#[test]
fn hostile_lists_do_no_harm() {
    let mess = format!(
        "title,price\n\"{}\",x\n\u{202e}evil,\u{1b}[2J\n\"never closed, {}",
        "x".repeat(100_000),
        "a,b\n".repeat(1000)
    );
    let works = Works::read(&mess).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(works.works.len(), 3);
    assert!(works.works[0].title.chars().count() <= 120);
    assert!(works.problems.iter().all(|problem| problem.to_string().len() < 600), "{:?}", works.problems);
    assert_eq!(works.write(), mess);
    let faults = format!("title,price\n{}", "x,y\n".repeat(4000));
    let works = Works::read(&faults).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(works.problems.len(), 1001);
    assert_eq!(works.problems[1000].fault, Fault::More(3000));
    for end in 0..200 {
        let text: String =
            "identifier;title\r\n\"a\"\"b\";\"c\nd\"\r\n\u{feff};é\r\n".chars().take(end).collect();
        if let Ok(works) = Works::read(&text) {
            assert_eq!(works.write(), text);
        }
    }
}

/// What the demo's list has wrong with it, which is there on purpose.
#[test]
fn the_demo_list_has_its_gaps() {
    let path = overmantel_builder::paths::root().join("demo-data/works/works.csv");
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let works = Works::read(&text).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!((works.works.len(), works.problems.len()), (62, 7), "{:#?}", works.problems);
    assert_eq!(works.write(), text);
    assert!(works.works.iter().any(|work| work.title.contains('ö')));
    assert!(works.works.iter().any(|work| work.px.is_some_and(|px| Shape::Panorama.is_of(px))));
}
