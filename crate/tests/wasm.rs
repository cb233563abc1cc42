//! The core in a browser: the same bytes as natively, and the boundary as the page calls it.
#![cfg(target_arch = "wasm32")]

use overmantel::wasm::{Desk, picture_header};
use wasm_bindgen::JsValue;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

mod drawings;

wasm_bindgen_test_configure!(run_in_browser);

const PLAN: &str = include_str!("../../demo-data/plans/low-water.json");

fn bench() -> Desk {
    Desk::new(PLAN).unwrap_or_else(|_| panic!("the demo's plan is a plan"))
}

/// A property of a struct that was handed over, by a path such as `span.0`.
fn property(value: &JsValue, path: &str) -> JsValue {
    path.split('.').fold(value.clone(), |value, name| {
        js_sys::Reflect::get(&value, &JsValue::from_str(name)).unwrap_or(JsValue::UNDEFINED)
    })
}

fn text(value: &JsValue, path: &str) -> String {
    property(value, path).as_string().unwrap_or_default()
}

#[wasm_bindgen_test]
fn drawings_have_the_bytes_that_they_have_natively() {
    for case in &drawings::CASES {
        assert_eq!(drawings::hash(case), case.hash, "{}", case.name);
    }
}

#[wasm_bindgen_test]
fn papers_have_the_bytes_that_they_have_natively() {
    for (name, plan, expected) in drawings::PAPERS {
        assert_eq!(drawings::papers_hash(plan), expected, "{name}");
    }
}

#[wasm_bindgen_test]
fn likenesses_have_the_bytes_that_they_have_natively() {
    assert_eq!(drawings::likenesses_hash(), drawings::LIKENESSES);
}

#[wasm_bindgen_test]
fn a_change_is_made_and_undone() {
    let mut bench = bench();
    let done = bench.set("wall.width", "4 m").expect("handed over").js_value();
    assert!(property(&done, "error").is_undefined(), "{done:?}");
    let field = bench.field("wall.width").expect("handed over").expect("a field").js_value();
    assert_eq!(text(&field, "text"), "13' 1 1/2\"", "4 m = 157.48 in, to the nearest 1/16");
    assert_eq!(property(&field, "rounded"), JsValue::TRUE);
    assert!(bench.undo().is_some_and(|said| said.starts_with("Undone")));
    let field = bench.field("wall.width").expect("handed over").expect("a field").js_value();
    assert_eq!(text(&field, "text"), "12' 0\"");
    assert!(bench.redo().is_some_and(|said| said.starts_with("Redone")));
    assert!(bench.redo().is_none(), "there is nothing further on");
}

#[wasm_bindgen_test]
fn a_wrong_text_is_explained_and_its_place_is_counted_as_javascript_counts() {
    let mut bench = bench();
    // The prime before the mistake has three bytes, and is one of JavaScript's code units.
    let refused = bench.set("wall.width", "12′ what").expect("handed over").js_value();
    assert!(text(&refused, "error").contains("what"), "{refused:?}");
    let span = [property(&refused, "span.0"), property(&refused, "span.1")];
    assert_eq!(span, [JsValue::from(4), JsValue::from(8)]);
}

#[wasm_bindgen_test]
fn what_is_no_plan_is_refused_with_a_sentence() {
    let error = match Desk::new("{\"overmantel\": 7}") {
        Err(error) => JsValue::from(error),
        Ok(_) => panic!("version 7 is not known"),
    };
    assert!(text(&error, "message").contains("version 7"), "{error:?}");
    let mut bench = bench();
    let refused = bench.open("not a plan").expect("handed over").js_value();
    assert!(text(&refused, "error").starts_with("this is not an Overmantel plan file"), "{refused:?}");
    assert!(bench.plan_file().contains("Low water"), "the plan is as it was");
}

#[wasm_bindgen_test]
fn the_view_has_every_paragraph_and_the_sizes() {
    let view = bench().view(None).expect("handed over").js_value();
    let headings: Vec<String> =
        (0..6).map(|index| text(&view, &format!("paragraphs.{index}.about"))).collect();
    assert_eq!(headings, ["wall", "fixtures", "picture", "fit", "made", "hanging"]);
    assert_eq!(text(&view, "table.0.term"), "Image");
    assert_eq!(text(&view, "table.0.inches"), "16 × 20″");
}

#[wasm_bindgen_test]
fn the_sentences_carry_their_fields() {
    let view = bench().view(None).expect("handed over").js_value();
    let field = (0..40).map(|index| property(&view, &format!("paragraphs.0.runs.{index}")));
    let field = field.into_iter().find(|run| text(run, "field") == "wall.width").expect("the wall's width");
    assert_eq!(text(&field, "run"), "field");
    assert_eq!(text(&field, "kind"), "length");
    assert_eq!(text(&field, "text"), "12' 0\"");
    assert_eq!(text(&field, "other"), "365.8 cm", "144 × 2.54 = 365.76");
    assert_eq!(property(&field, "rounded"), JsValue::FALSE);
}

#[wasm_bindgen_test]
fn a_row_of_the_fits_is_an_offer_that_can_be_taken() {
    let mut bench = bench();
    let fits = bench.fits(None).expect("handed over").js_value();
    let columns = property(&fits, "columns.length");
    assert_eq!(property(&fits, "rows.0.cells.length"), columns, "a cell for every column");
    let (field, code) = (text(&fits, "rows.0.offer.0"), text(&fits, "rows.0.offer.1"));
    assert_eq!(field, "offer.fit.all");
    let done = bench.set(&field, &code).expect("handed over").js_value();
    assert!(property(&done, "error").is_undefined(), "{done:?}");
    let field = bench.field("piece.0.image").expect("handed over").expect("a field").js_value();
    assert_eq!(text(&field, "text").replace('"', " in"), text(&fits, "rows.0.cells.0"));
    let gone = bench.set("offer.fit.all", "nothing of the kind").expect("handed over").js_value();
    assert!(text(&gone, "error").contains("not on offer"), "{gone:?}");
}

#[wasm_bindgen_test]
fn the_lists_of_cuts_follow_the_users_own_stock() {
    let mut bench = bench();
    let own = r#"{ "overmantel_stock": 1, "sticks": { "replace": [
        { "name": "short", "length": "60 in", "kerf": "1/8 in", "trim": "0" } ] } }"#;
    let done = bench.open_stock(own).expect("handed over").js_value();
    assert!(property(&done, "error").is_undefined(), "{done:?}");
    let lists = bench.cuts(None).expect("handed over");
    let lists: Vec<JsValue> = lists.into_iter().map(|list| list.js_value()).collect();
    let bought = lists.last().expect("what to buy");
    let names: Vec<String> = (0..30)
        .map(|index| text(bought, &format!("rows.{index}.cells.0")))
        .filter(|name| name.contains(": stick "))
        .collect();
    // Twelve rails of 21 1/8 and 25 1/8 in: two to a stick of 60 in.
    assert_eq!(names.len(), 6, "{names:?}");
    assert!(bench.stock_file().contains("\"short\""));
    let refused = bench.open_stock("[]").expect("handed over").js_value();
    assert!(!text(&refused, "error").is_empty());
    assert!(bench.stock_file().contains("\"short\""), "the list is as it was");
}

#[wasm_bindgen_test]
fn a_file_is_known_by_its_first_bytes() {
    let gif = b"GIF89a\x0a\x00\x14\x00\x80\x00\x00";
    let header = picture_header(gif, "small.gif").expect("handed over").js_value();
    assert!(property(&header, "error").is_undefined(), "{header:?}");
    assert_eq!(property(&header, "width_px"), JsValue::from(10));
    assert_eq!(property(&header, "height_px"), JsValue::from(20));
    let refused = picture_header(b"dear painter", "letter.txt").expect("handed over").js_value();
    assert!(text(&refused, "error").starts_with("letter.txt is not a picture"), "{refused:?}");
}
