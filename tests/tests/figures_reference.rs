//! The figures as `overmantel figures` prints them: loads, gaps, clearances, what is seen, what a carrier bills.
//!
//! No expected value was computed by Overmantel: each was worked out on paper, from the sum that stands beside it.

use overmantel::plan::file;
use overmantel::report::report;
use overmantel::stock::Stock;
use overmantel_builder::paths;
use overmantel_tests::given::figures;
use serde_json::{Value, json};
use std::fs;

fn told(text: &str) -> Value {
    let plan = file::read(text).unwrap_or_else(|why| panic!("{why}"));
    serde_json::to_value(report(&plan, &figures(&plan), &Stock::offered(), 1))
        .unwrap_or_else(|why| panic!("{why}"))
}

fn demo(name: &str) -> Value {
    let path = paths::root().join("demo-data/plans").join(name);
    told(&fs::read_to_string(path).unwrap_or_else(|why| panic!("{why}")))
}

/// A plan of these pieces in a row on a bare wall of 144 × 96 in, with what else is stated of it.
fn row(pieces: &Value, gap: &str, more: &Value) -> Value {
    let mut plan = json!({
        "overmantel": 1, "title": "Ebb", "wall": { "size": ["144 in", "96 in"] },
        "group": { "arrangement": "row", "gap": gap, "across": "wall_middle", "up": "eye_level" },
        "pieces": pieces,
    });
    if let (Some(plan), Some(more)) = (plan.as_object_mut(), more.as_object()) {
        plan.extend(more.clone());
    }
    told(&plan.to_string())
}

fn at<'v>(told: &'v Value, pointer: &str) -> &'v Value {
    told.pointer(pointer).unwrap_or_else(|| panic!("no {pointer}"))
}

#[track_caller]
fn check_exact(told: &Value, pointer: &str, expected: &str) {
    assert_eq!(at(told, pointer)["exact"], json!(expected), "{pointer}");
}

#[track_caller]
fn check_near(told: &Value, pointer: &str, expected: f64, by: f64) {
    let found = at(told, pointer).as_f64().unwrap_or_else(|| panic!("{pointer} is no number"));
    assert!((found - expected).abs() <= by, "{pointer}: {found}, not {expected}");
}

/// What hangs, in kilograms as it is printed.
fn kilograms(told: &Value) -> f64 {
    let text = at(told, "/things/0/weight/likely").as_str().unwrap_or_default();
    text.trim_end_matches(" kg").parse().unwrap_or_else(|_| panic!("{text}"))
}

fn canvases(count: usize, image: [&str; 2], edge: &str) -> Value {
    let canvas = json!({ "image": image, "made": { "canvas": { "depth": "3/2 in", "edge": edge } } });
    Value::Array(vec![canvas; count])
}

fn wired(slack: &str, apart: Option<&str>) -> Value {
    let fixing = json!({ "wire": { "inset": "2 in", "down": "9 in", "slack": slack, "hooks_apart": apart } });
    row(&canvases(1, ["20 in", "20 in"], "mirrored"), "0", &json!({ "fixing": fixing }))
}

/// Legs of 10 in from rings 16 in apart: √(10² - 8²) = 6, so that sin a = 0.6 and tan a = 0.75: T = W / 1.2, inwards W / 1.5.
/// Standard gravity is 9.80665 m/s² (from memory). The weight is printed to the gram, which is 0.01 N.
#[test]
fn a_wire_over_one_hook() {
    let told = wired("4 in", None);
    let newtons = kilograms(&told) * 9.806_65;
    let load = "/pieces/0/hanging/load";
    check_exact(&told, "/pieces/0/hanging/wire_rise", "6 in");
    check_near(&told, &format!("{load}/per_hook/likely_newtons"), newtons, 0.02);
    check_near(&told, &format!("{load}/wire_tension/likely_newtons"), newtons / 1.2, 0.02);
    check_near(&told, &format!("{load}/ring_inward/likely_newtons"), newtons / 1.5, 0.02);
    let per_hook = at(&told, &format!("{load}/per_hook/as_weight"));
    assert_eq!(per_hook, at(&told, "/things/0/weight"), "one hook carries all of it");
    // ±15 % at the least (common practice, no source).
    let most = at(&told, &format!("{load}/per_hook/most_newtons")).as_f64().unwrap_or_default();
    assert!(most >= newtons * 1.15 - 0.02, "{most}");
}

/// With 4 in between the hooks each leg has (20 - 4) / 2 = 8 in and runs by (16 - 4) / 2 = 6: it rises by √28 = 5.291503.
/// T = (W / 2) × 8 / 5.291503 = 0.755929 W, inwards (W / 2) × 6 / 5.291503 = 0.566947 W.
#[test]
fn a_wire_over_two_hooks() {
    let told = wired("4 in", Some("4 in"));
    let newtons = kilograms(&told) * 9.806_65;
    let load = "/pieces/0/hanging/load";
    check_near(&told, &format!("{load}/per_hook/likely_newtons"), newtons / 2.0, 0.02);
    check_near(&told, &format!("{load}/wire_tension/likely_newtons"), newtons * 0.755_929, 0.02);
    check_near(&told, &format!("{load}/ring_inward/likely_newtons"), newtons * 0.566_947, 0.02);
}

#[test]
fn without_a_wire_or_a_rise_nothing_is_pulled_along_it() {
    let flat = wired("0", None);
    assert_eq!(at(&flat, "/pieces/0/hanging/load/wire_tension"), &Value::Null, "it would be without end");
    assert_eq!(at(&flat, "/pieces/0/hanging/load/ring_inward"), &Value::Null);
    let rings = demo("low-water.json");
    assert_eq!(at(&rings, "/pieces/0/hanging/load/wire_tension"), &Value::Null);
    // A bare original: nothing of it is weighed.
    let bare = json!([{ "image": ["20 in", "20 in"], "made": { "original": { "depth": "3/4 in" } } }]);
    assert_eq!(at(&row(&bare, "0", &json!({})), "/pieces/0/hanging/load"), &Value::Null);
}

/// The framed print of 20 × 30 in weighs 4.2004 kg by the densities of its parts (common practice and from memory): 41.1919 N, half
/// of it on each of two hooks. Outside it is 26 1/8 × 38 1/8 in and 3/4 deep; with 2 in of packing on each side its box has
/// 42 1/8 × 30 1/8 × 4 3/4 in = 6027.83 in³ = 98,778 cm³, which counts as 36.3 lb by 166,
/// as 43.4 lb by 139 and as 32.9 kg by 3000.
#[test]
fn what_two_hooks_carry_and_a_carrier_bills() {
    let framed = json!([{ "image": ["20 in", "30 in"], "made": { "paper": {
        "grammage": 310, "mount": "none", "backing": { "foam_board": "3/16 in" }, "glazing": { "glass": "2 mm" },
        "mat": { "opening": { "overlap": "1/8 in" }, "extent": { "board": ["24 in", "36 in"] }, "thickness": "1/16 in" },
        "frame": { "face": "1 1/4 in", "depth": "3/4 in", "rabbet_width": "1/4 in", "allowance": "1/8 in",
                   "rabbet_depth": "1/2 in", "material": "pine" } } } }]);
    let told = row(&framed, "0", &json!({}));
    check_near(&told, "/pieces/0/hanging/load/per_hook/likely_newtons", 20.596, 0.006);
    assert_eq!(at(&told, "/pieces/0/hanging/load/per_hook/as_weight/likely"), &json!("2.100 kg"));
    let carriers = at(&told, "/things/0/carriers").as_array().cloned().unwrap_or_default();
    let billed: Vec<_> =
        carriers.iter().map(|one| one["billed_weight"].as_str().unwrap_or_default()).collect();
    // The smaller parcel takes 130 in of length and girth: 42 1/8 + 2 (30 1/8 + 4 3/4) = 111 7/8.
    assert_eq!(billed, ["37 lb", "44 lb", "33 kg"]);
    let most: Vec<_> =
        carriers.iter().map(|one| one["most_billed_weight"].as_str().unwrap_or_default()).collect();
    assert_eq!(most, billed, "it can't weigh as much as its box counts");
}

/// Outsides 21 1/8 in wide and 3 in apart; images of 16 in lie (21 1/8 - 16) / 2 = 2 9/16 within them, and the mat covers 1/8 more.
/// 9000 px lie behind 69 3/8 - 2 × 2 9/16 = 64 1/4 in, 140.077821 to the inch.
#[test]
fn gaps_and_what_is_seen_of_the_demo() {
    let told = demo("low-water.json");
    assert_eq!(at(&told, "/gaps").as_array().map(Vec::len), Some(2));
    for gap in ["/gaps/0", "/gaps/1"] {
        check_exact(&told, &format!("{gap}/outside"), "3 in");
        check_exact(&told, &format!("{gap}/image"), "8 1/8 in");
        check_exact(&told, &format!("{gap}/seen"), "8 3/8 in");
        check_near(&told, &format!("{gap}/pixels_behind"), 8.125 * 9000.0 / 64.25, 1e-6);
        check_near(&told, &format!("{gap}/pixels_not_seen"), 8.375 * 9000.0 / 64.25, 1e-6);
    }
    assert_eq!(at(&told, "/gaps/1/between"), &json!([2, 3]));
    check_exact(&told, "/pieces/0/seen/size/width", "15 3/4 in");
    // 15.75 × 19.75 of 16 × 20 in.
    check_near(&told, "/pieces/0/seen/share", 0.972_070, 6e-7);
    // 1/8 in from the left edge of the picture, which is the left edge of the first image.
    check_near(&told, "/pieces/0/seen/picture_px/0", 0.125 * 9000.0 / 64.25, 1e-6);
    check_near(&told, "/pieces/0/seen/picture_px/2", 15.75 * 9000.0 / 64.25, 1e-6);
}

/// One picture of 9000 × 3000 px over three canvases in 60 in: panels of (60 - 2 × 2) / 3 in, 150 px to the inch, 300 px behind
/// each gap of 2 in; with the strips kept, none. Carried round edges of 1 1/2 in it covers 63 × 23 in, of which the height binds:
/// 3000 / 23 px to the inch, and across the gap both show 1 in of the same.
#[test]
fn pixels_behind_the_gaps_of_a_split_picture() {
    let behind = |edge: &str, strips: &str| {
        let more = json!({
            "pictures": [{ "name": "Ebb", "file": "ebb.jpg", "pixels": [9000, 3000] }],
            "split": { "picture": "Ebb", "strips": strips },
        });
        let told = row(&canvases(3, ["56/3 in", "20 in"], edge), "2 in", &more);
        check_exact(&told, "/gaps/0/image", "2 in");
        assert_eq!(at(&told, "/pieces/0/seen/share"), &json!(1.0), "nothing lies over a canvas");
        (at(&told, "/gaps/0/pixels_behind").clone(), at(&told, "/gaps/0/pixels_not_seen").clone())
    };
    assert_eq!(behind("mirrored", "hidden"), (json!(300.0), json!(300.0)));
    assert_eq!(behind("mirrored", "kept"), (json!(0.0), json!(0.0)));
    assert_eq!(behind("carried", "hidden"), (json!(-130.434_783), json!(260.869_565)));
}

/// The same picture over three canvases of 20 × 14 in, two stacked beside the first: 42 × 30 in over all, 3000 / 30 px to the inch, and
/// 200 px behind each gap of 2 in; with the strips kept, none.
#[test]
fn pixels_behind_the_gaps_of_a_stack() {
    for arrangement in ["stack_right", "stack_left"] {
        for (strips, behind) in [("hidden", 200.0), ("kept", 0.0)] {
            let more = json!({
                "pictures": [{ "name": "Ebb", "file": "ebb.jpg", "pixels": [9000, 3000] }],
                "split": { "picture": "Ebb", "strips": strips },
                "group": { "arrangement": arrangement, "gap": "2 in", "across": "wall_middle", "up": "eye_level" },
            });
            let told = row(&canvases(3, ["20 in", "14 in"], "mirrored"), "2 in", &more);
            for gap in 0..2 {
                check_exact(&told, &format!("/gaps/{gap}/image"), "2 in");
                let found = at(&told, &format!("/gaps/{gap}/pixels_behind"));
                assert_eq!(found, &json!(behind), "{arrangement} {strips} {gap}");
            }
        }
    }
}

#[test]
fn gaps_where_there_is_no_common_picture_or_one_frame() {
    let two = canvases(2, ["20 in", "20 in"], "mirrored");
    let told = row(&two, "2 in", &json!({}));
    assert_eq!(at(&told, "/gaps/0/pixels_behind"), &Value::Null);
    // One below the other: the gap is upright.
    let up = json!({ "group": { "arrangement": "column", "gap": "5 in", "across": "wall_middle", "up": "eye_level" } });
    check_exact(&row(&two, "0", &up), "/gaps/0/image", "5 in");
    let framed = json!([
        { "image": ["8 in", "10 in"], "made": { "paper": { "mat": { "opening": { "overlap": "1/8 in" }, "extent": { "border": "2 in" } }, "frame": { "face": "3/4 in" } } } },
        { "image": ["8 in", "10 in"], "made": { "paper": { "mat": { "opening": { "overlap": "1/8 in" }, "extent": { "border": "2 in" } }, "frame": { "face": "3/4 in" } } } }
    ]);
    let shared = row(&framed, "0", &json!({ "shared": { "bar": "2 in" } }));
    assert_eq!(at(&shared, "/gaps/0/outside"), &Value::Null);
    // Openings 2 in apart at the picture; each image reaches 1/8 in behind the mat.
    check_exact(&shared, "/gaps/0/seen", "2 in");
    check_exact(&shared, "/gaps/0/image", "1 3/4 in");
}

/// The first of three pieces of 21 1/8 × 25 1/8 in stands 37 5/16 in from the left corner and 42 in up, on a wall of 144 × 96. The
/// sofa is 84 × 34 in, from 30 in on; the switch plate of 2 3/4 × 4 1/2 in begins 144 - 7 1/4 - 2 3/4 = 134 in from the left corner.
#[test]
fn clearances_to_wall_and_fixtures() {
    let told = demo("low-water.json");
    let first = "/pieces/0/clearances";
    check_exact(&told, &format!("{first}/ceiling"), "28 7/8 in");
    check_exact(&told, &format!("{first}/floor"), "42 in");
    check_exact(&told, &format!("{first}/left_corner"), "37 5/16 in");
    check_exact(&told, &format!("{first}/right_corner"), "85 9/16 in");
    let [sofa, switch] = [0, 1].map(|at| format!("{first}/fixtures/{at}"));
    assert_eq!(at(&told, &format!("{sofa}/name")), &json!("sofa"));
    check_exact(&told, &format!("{sofa}/below"), "8 in");
    for side in ["left", "above", "right"] {
        assert_eq!(at(&told, &format!("{sofa}/{side}")), &Value::Null, "{side}");
    }
    // 134 - 37 5/16 - 21 1/8 = 75 9/16; level with the piece, so neither above nor below.
    check_exact(&told, &format!("{switch}/right"), "75 9/16 in");
    assert_eq!(at(&told, &format!("{switch}/below")), &Value::Null);
    // To the casing of a window, 2 1/2 in beside it (common practice, no source): 40 + 100 cm + 63.5 mm from the left corner.
    let pair = demo("harbour-pair.json");
    let left = at(&pair, "/pieces/0/clearances/left_corner/mm").as_f64().unwrap_or_default();
    check_near(&pair, "/pieces/0/clearances/fixtures/1/left/mm", left - 1463.5, 1e-6);
}
