//! Drawings as SVG and rows as CSV and JSON, read back by other programs.

use super::{DEMOS, demo, near};
use overmantel::figures::Figures;
use overmantel::papers::data::{Rows, cuts, order};
use overmantel::papers::svg::{Drawing, write};
use overmantel::papers::{Job, Paper};
use overmantel::plan::Plan;
use overmantel::stock::Stock;

fn svg(plan: &Plan, drawing: Drawing) -> Result<String, String> {
    let (figures, stock) = (Figures::of(plan).expect("figures"), Stock::offered());
    write(&Job::new(plan, &figures, &stock, Paper::A4), drawing, &[], false).map_err(|why| why.to_string())
}

/// The corners of an outline of four: left, upper, right and lower edge.
fn edges(data: &str) -> Option<[f64; 4]> {
    let corners: Vec<Vec<f64>> = data
        .strip_suffix('Z')?
        .split(['M', 'L'])
        .skip(1)
        .map(|corner| corner.split(' ').filter_map(|number| number.parse().ok()).collect())
        .collect();
    let [a, b, c, _] = corners.as_slice() else { return None };
    Some([a[0], c[1], b[0], a[1]])
}

#[test]
fn a_millimetre_of_the_file_is_one_of_the_wall() {
    for name in DEMOS {
        let plan = demo(name);
        let figures = Figures::of(&plan).expect("figures");
        for drawing in [Drawing::Elevation, Drawing::Hanging] {
            let text = svg(&plan, drawing).expect("a drawing");
            let document = roxmltree::Document::parse(&text).expect("XML");
            let root = document.root_element();
            let view: Vec<&str> = root.attribute("viewBox").expect("a view").split(' ').collect();
            let size =
                ["width", "height"].map(|side| root.attribute(side).expect("a size").trim_end_matches("mm"));
            assert_eq!([view[2], view[3]], size, "a unit is a millimetre");
            let rects: Vec<[f64; 4]> =
                root.descendants().filter_map(|node| edges(node.attribute("d")?)).collect();
            let is_sized = |rect: &&[f64; 4], width: f64, height: f64| {
                near(rect[2] - rect[0], width) && near(rect[3] - rect[1], height)
            };
            let size = plan.wall.size;
            let wall = rects.iter().find(|rect| is_sized(rect, size.width.to_mm(), size.height.to_mm()));
            let wall = wall.unwrap_or_else(|| panic!("{name} {drawing:?}: the wall"));
            for outside in &figures.arranged.outsides {
                let is_there = rects.iter().any(|rect| {
                    is_sized(&rect, outside.size.width.to_mm(), outside.size.height.to_mm())
                        && near(rect[0] - wall[0], outside.x.to_mm())
                        && near(wall[3] - rect[3], outside.y.to_mm())
                });
                assert!(is_there, "{name} {drawing:?}: {outside:?}");
            }
        }
    }
}

#[test]
fn a_section_is_as_deep_as_the_piece() {
    // A frame of 1 1/8 in is 28.575 mm; the moulding's foot lies on the wall and its front is that far from it.
    let text = svg(&demo("low-water"), Drawing::Section(1)).expect("a section");
    let document = roxmltree::Document::parse(&text).expect("XML");
    let across = document.descendants().filter_map(|node| {
        let data = node.attribute("d")?.strip_suffix('Z')?;
        let xs =
            data.split(['M', 'L']).skip(1).filter_map(|corner| corner.split(' ').next()?.parse::<f64>().ok());
        let (least, most) = xs.fold((f64::MAX, f64::MIN), |(least, most), x| (least.min(x), most.max(x)));
        (node.attribute("fill") == Some("#3b2b20")).then_some(most - least)
    });
    let moulding: Vec<f64> = across.collect();
    assert!(moulding.iter().any(|across| near(*across, 28.575)), "{moulding:?}");
    let why = svg(&demo("low-water"), Drawing::Section(3)).expect_err("three pieces");
    assert_eq!(why, "there is no piece 4; choose a piece from 1 to 3");
}

#[test]
fn a_title_cannot_break_out_of_the_file() {
    let mut plan = demo("low-water");
    plan.title = String::from("</title><script>alert(1)</script> & \"ebb\"");
    let text = svg(&plan, Drawing::Hanging).expect("a drawing");
    let document = roxmltree::Document::parse(&text).expect("XML");
    let title = document.descendants().find(|node| node.has_tag_name("title")).and_then(|node| node.text());
    assert_eq!(title, Some(plan.title.as_str()));
    assert!(!document.descendants().any(|node| node.has_tag_name("script")));
}

#[test]
fn rows_are_read_as_they_were_written() {
    let mut plan = demo("low-water");
    plan.pictures[0].name = String::from("=\"Ebb\", the first of two");
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let job = Job::new(&plan, &figures, &stock, Paper::A4);
    for rows in [order(&job), cuts(&job)] {
        let text = rows.csv();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let names: Vec<String> = reader.headers().expect("names").iter().map(str::to_owned).collect();
        let json = rows.json();
        let columns = json["columns"].as_object().expect("columns");
        assert_eq!(names, columns.keys().cloned().collect::<Vec<_>>());
        assert!(columns.values().all(|meaning| meaning.as_str().is_some_and(|text| text.len() >= 8)));
        let records: Vec<csv::StringRecord> =
            reader.records().map(|record| record.expect("a record")).collect();
        assert_eq!(records.len(), json["rows"].as_array().expect("rows").len());
        for (record, row) in records.iter().zip(json["rows"].as_array().expect("rows")) {
            for (name, cell) in names.iter().zip(record) {
                match &row[name] {
                    serde_json::Value::Null => assert_eq!(cell, ""),
                    // What a spreadsheet would take for a formula is made harmless.
                    serde_json::Value::String(text) if text.starts_with('=') => {
                        assert_eq!(cell, ["'", text].concat())
                    }
                    serde_json::Value::String(text) => assert_eq!(cell, text),
                    number => assert!(
                        (cell.parse::<f64>().expect(cell) - number.as_f64().expect("a number")).abs() < 1e-9
                    ),
                }
            }
        }
    }
}

/// What spreadsheets take for formulas: a cell that begins with one of these signs, also in their full-width forms, and also where a program
/// divides at another sign than the comma (common practice, no source). Numbers of our own stay numbers.
#[test]
fn no_text_is_a_formula() {
    let check = |text: &str, cell: &str| {
        let value = |value| vec![vec![value, serde_json::json!(-3)]];
        let rows = Rows { columns: &[("name", "its name"), ("left", "how far")], rows: value(text.into()) };
        let written = rows.csv();
        let (_, line) = written.split_once("\r\n").expect("a line of names");
        assert_eq!(line, [cell, ",-3\r\n"].concat(), "{text:?}");
        let mut reader = csv::Reader::from_reader(written.as_bytes());
        let record = reader.records().next().expect("a record").expect("a record");
        assert_eq!(record[0].replace('\'', ""), text.replace('\'', ""), "nothing else is changed");
    };
    for sign in ["=", "+", "-", "@", "＝", "＋", "－", "＠"] {
        check(&[sign, "1+1"].concat(), &["'", sign, "1+1"].concat());
        check(&[" ", sign, "1"].concat(), &[" '", sign, "1"].concat());
        check(&["a;", sign, "1"].concat(), &["\"a;'", sign, "1\""].concat());
        check(&["a\t", sign, "1"].concat(), &["\"a\t'", sign, "1\""].concat());
        check(&["a, ", sign, "1"].concat(), &["\"a, '", sign, "1\""].concat());
        check(&["a\n", sign, "1"].concat(), &["\"a\n'", sign, "1\""].concat());
        check(&["a;\"", sign, "1"].concat(), &["\"a;\"\"'", sign, "1\""].concat());
        check(&["a", sign, "1"].concat(), &["a", sign, "1"].concat());
    }
    check("\tebb", "\"'\tebb\"");
    check("\rebb", "\"'\rebb\"");
    check("Ebb, slack; flood", "\"Ebb, slack; flood\"");
}

#[test]
fn rows_have_the_measures() {
    let plan = demo("low-water");
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let job = Job::new(&plan, &figures, &stock, Paper::A4);
    let row = |rows: &serde_json::Value, column: &str, name: &str| {
        rows["rows"].as_array().expect("rows").iter().find(|row| row[column] == name).expect(name).clone()
    };
    let cuts = cuts(&job).json();
    // 16 - 2/8 by 20 - 2/8 in; the rest of a board of 20 by 24 in, in halves: 2 1/8 in = 53.975 mm.
    let opening = row(&cuts, "part", "mat opening (at the picture)");
    assert_eq!((opening["width_in"].as_f64(), opening["height_in"].as_f64()), (Some(15.75), Some(19.75)));
    assert_eq!((opening["left_mm"].as_f64(), opening["foot_mm"].as_f64()), (Some(53.975), Some(53.975)));
    // 21 1/8 in = 536.575 mm.
    let rail = row(&cuts, "part", "leg");
    assert_eq!((rail["width_mm"].as_f64(), rail["number"].as_i64()), (Some(536.575), Some(2)));
    let order = order(&job).json();
    // Three parts of one picture are three prints, a row each, with its number.
    let prints = order["rows"].as_array().expect("rows");
    let numbers: Vec<_> =
        prints.iter().map(|print| (print["print"].as_i64(), print["pieces"].as_str())).collect();
    assert_eq!(numbers, [(Some(1), Some("1")), (Some(2), Some("2")), (Some(3), Some("3"))]);
    let print = &prints[0];
    assert_eq!((print["width_mm"].as_f64(), print["height_in"].as_f64()), (Some(406.4), Some(20.0)));
    assert_eq!((print["sheet_width_in"].as_f64(), print["canvas_width_in"].as_f64()), (Some(16.0), None));
    // Where crops lie is held elsewhere; here that they lie within the file.
    let px = |name: &str| print[name].as_i64().expect(name);
    assert!(
        px("crop_left_px") + px("crop_width_px") <= 9000 && px("crop_top_px") + px("crop_height_px") <= 4200
    );
}
