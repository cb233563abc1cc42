//! Prices by a book, worked out on paper. The amounts are of this test's own: nobody sells at them.
//!
//! The starting plan has three prints of 16 × 20 in on boards of 20 × 24 in frames of 3/4 in of oak, with 2 mm of glass, a mount and a
//! backing; 2 (20 + 24) + 8 × 3/4 = 94 in of moulding each by the shops' rule (common practice, no source). 1 in = 2.54 cm.

use overmantel::figures::Figures;
use overmantel::plan::Plan;
use overmantel::prices::{Book, Price, PricedPart, compared, file::BookError, priced};
use overmantel::stock::Stock;
use overmantel_tests::given::{changed, length};

fn book(rows: &str, more: &str) -> Result<Book, BookError> {
    Book::read(&format!(
        r#"{{ "overmantel_prices": 1, "name": "of this test", "currency": "EUR", {more} "rows": [{rows}] }}"#
    ))
}

fn price(plan: &Plan, rows: &str, more: &str) -> Price {
    let figures = Figures::of(plan).expect("an answer");
    priced(plan, &figures, &Stock::offered(), &book(rows, more).expect("a book"))
}

/// The price of one part of the starting plan with these changes, in hundredths.
#[track_caller]
fn check(changes: &[(&str, &str)], rows: &str, expected: i64) {
    let found = price(&changed(Plan::starting(), changes), rows, "");
    let lines: Vec<(i64, i64)> = found.lines.iter().map(|line| (line.count, line.each)).collect();
    assert_eq!(lines, [(3, expected)], "{rows}");
    assert_eq!(found.sum, 3 * expected);
}

#[test]
fn each_way_to_price() {
    check(&[], r#"{ "for": "handling", "by": { "each": "7.50" } }"#, 750);
    let sizes = r#"{ "for": "paper", "by": { "size": [{ "size": ["20 in", "16 in"], "price": "30" }] } }"#;
    check(&[], sizes, 3000);
    // 320 / 144 square feet at 20.00 are 44.444; 0.4064 × 0.508 m = 0.20645 m² at 100.00 are 20.645.
    check(&[], r#"{ "for": "paper", "by": { "square_foot": "20" } }"#, 4444);
    check(&[], r#"{ "for": "paper", "by": { "square_metre": "100" } }"#, 2065);
    // 44 in at 0.55; 111.76 cm at 0.25 are 27.94.
    check(&[], r#"{ "for": "glass", "by": { "united_inch": "0.55" } }"#, 2420);
    check(&[], r#"{ "for": "mat", "by": { "united_centimetre": "0.25" } }"#, 2794);
    // Up to 44 in is up to 44 in.
    let steps = |first: &str| {
        format!(
            r#"{{ "for": "mat", "by": {{ "steps": [{{ "up_to": "60 in", "price": "9" }}, {{ "up_to": "{first}", "price": "5" }}] }} }}"#
        )
    };
    check(&[], &steps("44 in"), 500);
    check(&[], &steps("43.9 in"), 900);
    // 94 in of moulding are 7 5/6 ft at 12.00, and 2.3876 m at 10.00.
    check(&[], r#"{ "for": "frame", "by": { "foot": "12" } }"#, 9400);
    check(&[], r#"{ "for": "frame", "by": { "metre": "10" } }"#, 2388);
    let canvas = ("piece.all.material", "canvas");
    check(&[canvas], r#"{ "for": "canvas", "by": { "each": "40" } }"#, 4000);
    check(&[canvas], r#"{ "for": "edge_mirrored", "by": { "each": "3" } }"#, 300);
    check(&[("piece.all.material", "aluminium")], r#"{ "for": "aluminium", "by": { "each": "50" } }"#, 5000);
    check(&[("piece.all.glazing", "acrylic")], r#"{ "for": "acrylic", "by": { "each": "8" } }"#, 800);
}

#[test]
fn the_first_row_that_suits_counts() {
    let rows = r#"{ "for": "frame", "only": "pine", "by": { "each": "1" } },
                  { "for": "frame", "only": "oak", "by": { "each": "2" } },
                  { "for": "frame", "by": { "each": "3" } }"#;
    check(&[], rows, 200);
    check(&[("piece.all.frame.material", "pine")], rows, 100);
    check(&[("piece.all.frame.material", "MDF")], rows, 300);
    // A size that is not on the list goes on to the next row.
    let rows = r#"{ "for": "paper", "by": { "size": [{ "size": ["8 in", "10 in"], "price": "1" }] } },
                  { "for": "paper", "by": { "each": "2" } }"#;
    check(&[], rows, 200);
    check(&[("piece.all.image", "10 x 8")], rows, 100);
}

#[test]
fn what_has_no_price_is_named() {
    let found = price(&changed(Plan::starting(), &[]), r#"{ "for": "paper", "by": { "each": "1" } }"#, "");
    assert_eq!(found.unpriced, ["mat", "frame", "glass", "mount", "backing"]);
    assert_eq!(found.sum, 300);
    let found = price(&changed(Plan::starting(), &[("piece.all.material", "aluminium")]), "", "");
    assert_eq!(found.unpriced, ["aluminium"]);
    // In one frame there is one mat; three prints are in it.
    let rows = r#"{ "for": "paper", "by": { "each": "1" } }, { "for": "mat", "by": { "each": "5" } }"#;
    let found = price(&changed(Plan::starting(), &[("shared", "all in one frame")]), rows, "");
    let counts: Vec<(PricedPart, i64)> = found.lines.iter().map(|line| (line.part, line.count)).collect();
    assert_eq!(counts, [(PricedPart::Paper, 3), (PricedPart::Mat, 1)]);
}

/// 8.25 % of 30.00 is 2.475, and of what has it in it 30 × 8.25 / 108.25 = 2.2864.
#[test]
fn taxes() {
    let rows = r#"{ "for": "handling", "by": { "each": "10" } }"#;
    let of = |tax: &str| {
        let found = price(&changed(Plan::starting(), &[]), rows, tax);
        (found.sum, found.tax, found.total)
    };
    assert_eq!(of(""), (3000, 0, 3000));
    assert_eq!(of(r#""tax": { "percent": "8.25" },"#), (3000, 248, 3248));
    assert_eq!(of(r#""tax": { "percent": "8.25", "included": true },"#), (3000, 229, 3000));
}

#[test]
fn the_same_wall_in_other_materials() {
    let rows = r#"{ "for": "paper", "by": { "each": "1" } }, { "for": "canvas", "by": { "each": "2" } },
                  { "for": "aluminium", "by": { "each": "4" } }"#;
    let found =
        compared(&changed(Plan::starting(), &[]), &Stock::offered(), &book(rows, "").expect("a book"));
    let told: Vec<(&str, bool, i64)> =
        found.iter().map(|choice| (choice.material, choice.is_plans_own, choice.price.sum)).collect();
    assert_eq!(told, [("paper", true, 300), ("canvas", false, 600), ("aluminium", false, 1200)]);
    // A frame of 1 1/8 in; bars of 1 1/2; a sheet of 0.045 in on blocks of 3/4.
    let depths: Vec<_> = found.iter().map(|choice| choice.depth).collect();
    assert_eq!(depths, [length("1 1/8"), length("1 1/2"), length("0.795")]);
    assert!(found.iter().all(|choice| choice.mass.likely_mg > 0 && choice.care.len() > 20));
}

#[test]
fn what_is_wrong_with_a_book_is_said() {
    let check = |rows: &str, more: &str, expected: &str| {
        let why = book(rows, more).expect_err(expected).to_string();
        // Line and column are those of this test's own text.
        assert_eq!(why.split(" (line ").next(), Some(expected));
    };
    let each = |price: &str| format!(r#"{{ "for": "paper", "by": {{ "each": "{price}" }} }}"#);
    for price in ["", "-1", "1.234", "1,50", "many", "9999999999999"] {
        let why = format!(
            "the price book can't be read: rows, number 1, by, each: \"{price}\" is not an amount; write one such as 12 or 12.50"
        );
        check(&each(price), "", &why);
    }
    check(
        r#"{ "for": "mat", "by": { "steps": [{ "up_to": "0 in", "price": "1" }] } }"#,
        "",
        "the price book, row 1: the width and height of a step is 0 in; it must be more than nothing",
    );
    check("", r#""tax": { "percent": "101" },"#, "the tax is more than 100 percent; write the percent alone");
    let later = Book::read(r#"{ "overmantel_prices": 2 }"#).expect_err("a later version");
    assert_eq!(
        later.to_string(),
        "the price book is of version 2; this program reads version 1, so open it with a newer one"
    );
    let list = Book::read("[]").expect_err("no book").to_string();
    assert!(list.starts_with("this is not an Overmantel price book: "), "{list}");
}

#[test]
fn the_demos_book_says_that_it_is_an_example() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/prices/example.json");
    let book = Book::read(&std::fs::read_to_string(path).expect("the demo's book")).expect("a book");
    assert!(book.is_example && book.name.contains("example"), "{}", book.name);
    assert_eq!(book.text(123_405), "USD 1234.05");
}
