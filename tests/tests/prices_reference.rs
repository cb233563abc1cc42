//! Prices by a book, worked out on paper. The amounts are of this test's own: nobody sells at them.
//!
//! The starting plan has three prints of 16 × 20 in on boards of 20 × 24 in frames of 3/4 in of oak, with 2 mm of glass, a mount and a
//! backing; 2 (20 + 24) + 8 × 3/4 = 94 in of moulding each by the shops' rule (common practice, no source). 1 in = 2.54 cm.

use overmantel::figures::Figures;
use overmantel::plan::Plan;
use overmantel::prices::{Book, Line, Missing, Price, PricedPart, Totals, compared, file::BookError, priced};
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
    assert_eq!(found.totals.map(|totals| totals.total), found.missing.is_empty().then_some(3 * expected));
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

/// What a plan has that these rows have no price for.
fn missing(plan: &Plan, rows: &str) -> Vec<String> {
    price(plan, rows, "").missing.iter().map(Missing::name).collect()
}

#[test]
fn what_has_no_price_is_named_and_there_is_no_total() {
    let plan = changed(Plan::starting(), &[]);
    let found = price(&plan, r#"{ "for": "paper", "by": { "each": "1" } }"#, "");
    let told: Vec<String> = found.missing.iter().map(Missing::name).collect();
    assert_eq!(told, ["mat", "frame", "glass", "mount board", "backing"]);
    assert_eq!(found.totals, None);
    let text = found.text(&book("", "").expect("a book"));
    assert_eq!(text[1], "no total: the price book has no price for mat, frame, glass, mount board, backing");
    assert_eq!(
        text[2],
        r#"missing: mat, 20 × 24"; add a row such as { "for": "mat", "by": { "each": "AMOUNT" } }"#
    );
    assert!(text.iter().all(|line| !line.starts_with("total")), "{text:?}");
    // The row proposed is refused until its amount is filled in, and then it is what was missing.
    let row = found.missing[0].row();
    assert!(book(&row, "").is_err());
    assert_eq!(
        missing(&plan, &row.replace("AMOUNT", "2")),
        ["paper", "frame", "glass", "mount board", "backing"]
    );
    assert_eq!(
        missing(&changed(Plan::starting(), &[("piece.all.material", "aluminium")]), ""),
        ["aluminium"]
    );
    // A list of sizes without this one says so; so does a row for another wood.
    let sizes = r#"{ "for": "paper", "by": { "size": [{ "size": ["8 in", "10 in"], "price": "1" }] } }"#;
    let found = price(&plan, sizes, "");
    assert_eq!(
        found.missing[0].text(),
        r#"missing: paper, 16 × 20" (no row fits it); add a row such as { "for": "paper", "by": { "each": "AMOUNT" } }"#
    );
    // Carriage by steps that end below 24 3/8 + 28 3/8 in is missing too, though a book may be without carriage.
    let steps = |most: &str| {
        format!(
            r#"{ALL}, {{ "for": "shipping", "by": {{ "steps": [{{ "up_to": "{most}", "price": "9" }}] }} }}"#
        )
    };
    assert_eq!(missing(&plan, &steps("20 in")), ["shipping"]);
    assert_eq!(missing(&plan, &steps("120 in")), [""; 0]);
    // In one frame there is one mat; three prints are in it.
    let rows = r#"{ "for": "paper", "by": { "each": "1" } }, { "for": "mat", "by": { "each": "5" } }"#;
    let found = price(&changed(Plan::starting(), &[("shared", "all in one frame")]), rows, "");
    let counts: Vec<(PricedPart, i64)> = found.lines.iter().map(|line| (line.part, line.count)).collect();
    assert_eq!(counts, [(PricedPart::Paper, 3), (PricedPart::Mat, 1)]);
}

/// Rows for every part of the starting plan: 20 + 10 + 60 + 12 + 3 + 2 = 107 a piece, 321 in all.
const ALL: &str = r#"{ "for": "paper", "by": { "each": "20" } }, { "for": "mat", "by": { "each": "10" } },
    { "for": "frame", "by": { "each": "60" } }, { "for": "glass", "by": { "each": "12" } },
    { "for": "mount", "by": { "each": "3" } }, { "for": "backing", "by": { "each": "2" } }"#;

/// The totals of the starting plan by [`ALL`] and these rows, with what is asked for.
fn totals(rows: &str, more: &str, asked: &[&str]) -> Totals {
    let mut book = book(&[ALL, rows].join(""), more).expect("a book");
    for name in asked {
        book.ask_for(name, true).expect("a row that waits");
    }
    let plan = changed(Plan::starting(), &[]);
    let found = priced(&plan, &Figures::of(&plan).expect("an answer"), &Stock::offered(), &book);
    found.totals.unwrap_or_else(|| panic!("missing: {:?}", found.missing))
}

/// 8.25 % of 321.00 are 26.4825, and of what has it in it 321 × 8.25 / 108.25 = 24.4642.
#[test]
fn taxes() {
    let of = |tax: &str| {
        let Totals { subtotal, tax, total, .. } = totals("", tax, &[]);
        (subtotal, tax, total)
    };
    assert_eq!(of(""), (32_100, 0, 32_100));
    assert_eq!(of(r#""tax": { "percent": "8.25" },"#), (32_100, 2648, 34_748));
    assert_eq!(of(r#""tax": { "percent": "8.25", "included": true },"#), (32_100, 2446, 32_100));
}

/// 321.00 to whole fives and to whole 0.50; a tenth on top of 325 is 32.50, and within 325 it is 325 / 11 = 29.545.
#[test]
fn the_subtotal_is_rounded_as_the_book_says() {
    let of = |more: &str| {
        let Totals { subtotal, rounding, tax, total, .. } = totals("", more, &[]);
        (subtotal, rounding, tax, total)
    };
    assert_eq!(of(r#""rounding": { "to": "5", "mode": "up" },"#), (32_100, 400, 0, 32_500));
    assert_eq!(of(r#""rounding": { "to": "5", "mode": "down" },"#), (32_100, -100, 0, 32_000));
    assert_eq!(of(r#""rounding": { "to": "5", "mode": "nearest" },"#), (32_100, -100, 0, 32_000));
    assert_eq!(of(r#""rounding": { "to": "2", "mode": "nearest" },"#), (32_100, 100, 0, 32_200), "a tie");
    assert_eq!(of(r#""rounding": { "to": "0.50", "mode": "up" },"#), (32_100, 0, 0, 32_100));
    let taxed = |included| {
        of(&format!(r#""rounding": {{ "to": "5", "mode": "up" }}, "tax": {{ "percent": "10"{included} }},"#))
    };
    assert_eq!(taxed(""), (32_100, 400, 3250, 35_750));
    assert_eq!(taxed(r#", "included": true"#), (32_100, 400, 2955, 32_500));
    let book =
        book(ALL, r#""rounding": { "to": "5", "mode": "up" }, "tax": { "percent": "10" },"#).expect("a book");
    let plan = changed(Plan::starting(), &[]);
    let text = priced(&plan, &Figures::of(&plan).expect("an answer"), &Stock::offered(), &book).text(&book);
    let sums = [
        "subtotal EUR 321.00",
        "rounded up to the next 5.00 EUR 4.00",
        "tax, 10 % EUR 32.50",
        "total EUR 357.50",
    ];
    assert_eq!(text[6..], sums);
}

/// By the united measure of the image, 36 in; three pieces. A discount takes nothing off packing, shipping and hanging.
#[test]
fn extras_shipping_hanging_and_discounts() {
    let rows = r#", { "for": "extra", "only": "varnish", "by": { "united_inch": "0.50" } },
        { "for": "extra", "only": "finished by hand", "by": { "steps": [{ "up_to": "40 in", "price": "25" }] } },
        { "for": "packing", "by": { "each": "4" } },
        { "for": "shipping", "only": "abroad", "by": { "once": "60" } },
        { "for": "shipping", "only": "by van", "by": { "each": "8" } },
        { "for": "hanging", "only": "hung by us", "by": { "each": "15" } },
        { "for": "discount", "only": "regular", "by": { "percent": "10" } },
        { "for": "discount", "only": "voucher", "by": { "once": "20" } }"#;
    let of = |asked: &[&str]| totals(rows, "", asked).total;
    assert_eq!(of(&[]), 32_100 + 3 * 400, "packing has no name, and always counts");
    assert_eq!(of(&["varnish"]), 33_300 + 3 * 1800);
    assert_eq!(of(&["varnish", "finished by hand"]), 33_300 + 3 * (1800 + 2500));
    assert_eq!(of(&["abroad"]), 33_300 + 6000, "once for everything");
    assert_eq!(of(&["by van", "hung by us"]), 33_300 + 3 * (800 + 1500));
    // A tenth of 321.00 are 32.10; of 321 + 54 they are 37.50.
    assert_eq!(of(&["regular", "abroad"]), 33_300 + 6000 - 3210);
    assert_eq!(of(&["regular", "varnish"]), 33_300 + 5400 - 3750);
    assert_eq!(of(&["regular", "voucher"]), 33_300 - 3210 - 2000, "each of the same lines");
    // More than everything is not given back.
    let given = totals(r#", { "for": "discount", "by": { "once": "9999" } }"#, "", &[]);
    assert_eq!((given.full, given.subtotal, given.total), (32_100, 0, 0));
    let mut book = book(&[ALL, rows].join(""), "").expect("a book");
    let why = book.ask_for("vernish", true).expect_err("no such row").to_string();
    assert_eq!(
        why,
        "the price book has no row that is only for \"vernish\"; it has \"varnish\", \"finished by hand\", \"abroad\", \"by van\", \"hung by us\", \"regular\", \"voucher\""
    );
    // Left again, it is as before.
    book.ask_for("varnish", true).expect("a row");
    book.ask_for("varnish", false).expect("a row");
    assert_eq!(book.asked, [""; 0]);
}

/// What an original costs is in the book by its title, by its file or by its size; without a row it is missing, and never nothing.
#[test]
fn originals() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/plans/low-water.json");
    let text = std::fs::read_to_string(path).expect("a plan of the demo");
    let plan = overmantel::plan::file::read(&text).expect("a plan");
    let plan = changed(plan, &[("piece.all.material", "the original")]);
    let names: Vec<(String, String)> =
        plan.pictures.iter().map(|picture| (picture.name.clone(), picture.file.clone())).collect();
    let told = missing(&plan, "");
    let (name, file) = names.first().expect("a picture");
    assert!(told.contains(&format!("original \"{name}\"")), "{name} in {told:?}");
    let stem = file.trim_end_matches(".jpg");
    for only in [name, file, stem] {
        let row = format!(r#"{{ "for": "original", "only": "{only}", "by": {{ "each": "700" }} }}"#);
        let found = price(&plan, &row, "");
        let lines: Vec<(String, i64)> = found.lines.iter().map(|line| (line.name(), line.each)).collect();
        assert_eq!(lines, [(format!("original \"{name}\""), 70_000)], "by {only}");
    }
    // By another's title it is missing.
    let other = r#"{ "for": "original", "only": "Elsewhere", "by": { "each": "700" } }"#;
    assert!(missing(&plan, other).contains(&format!("original \"{name}\"")));
    // By size: 36 in at 12.00.
    let found = price(&plan, r#"{ "for": "original", "by": { "united_inch": "12" } }"#, "");
    assert!(found.lines.iter().all(|line| line.each == 43_200), "{:?}", found.lines);
}

/// A coated glass has a row of its own, and is never priced as a plain one.
#[test]
fn coated_glazing_is_priced_apart() {
    let coatings = [
        ("plain", "glass"),
        ("with a UV filter", "glass_uv"),
        ("anti-reflective", "glass_anti_reflective"),
        ("anti-reflective with a UV filter", "glass_uv_anti_reflective"),
    ];
    for (material, prefix) in [("glass", "glass"), ("acrylic", "acrylic")] {
        for (coating, key) in coatings {
            let key = key.replacen("glass", prefix, 1);
            let changes = [("piece.all.glazing", material), ("piece.all.glazing.coating", coating)];
            let row = format!(r#"{{ "for": "{key}", "by": {{ "each": "5" }} }}"#);
            check(&changes, &row, 500);
            let plan = changed(Plan::starting(), &changes);
            let others = coatings.iter().map(|(_, key)| key.replacen("glass", prefix, 1));
            let others: Vec<String> = others
                .filter(|other| *other != key)
                .map(|other| format!(r#"{{ "for": "{other}", "by": {{ "each": "5" }} }}"#))
                .collect();
            let found = price(&plan, &others.join(", "), "");
            assert!(found.lines.is_empty(), "{key} by {:?}", found.lines);
            assert!(found.missing.iter().any(|missing| missing.row().contains(&format!("\"{key}\""))));
        }
    }
}

/// An edge of a colour of its own, and a mat by its colour.
#[test]
fn colours_may_be_priced() {
    let rows = r#"{ "for": "edge_plain", "only": "white", "by": { "each": "0" } }, { "for": "edge_plain", "by": { "each": "4" } }"#;
    let plan = |colour| {
        let changes = [
            ("piece.all.material", "canvas"),
            ("piece.all.canvas.edge", "a solid edge"),
            ("piece.all.canvas.edge_colour", colour),
        ];
        changed(Plan::starting(), &changes)
    };
    for (colour, each) in [("white", 0), ("black", 400), ("#123456", 400)] {
        assert_eq!(price(&plan(colour), rows, "").lines[0].each, each, "{colour}");
    }
    let mats = r#"{ "for": "mat", "only": "black", "by": { "each": "9" } }, { "for": "mat", "by": { "each": "5" } }"#;
    check(&[], mats, 500);
    check(&[("piece.all.mat.colour", "black")], mats, 900);
}

/// A name that the stock does not have is told, with those that it has; a title of an original is not, since a book has more of them.
#[test]
fn names_that_match_nothing_are_told() {
    let rows = r##"{ "for": "frame", "only": "oke, 20 mm", "by": { "each": "1" } }, { "for": "frame", "only": "oak, 20 mm", "by": { "each": "1" } },
        { "for": "frame", "only": "oak", "by": { "each": "1" } }, { "for": "original", "only": "Elsewhere", "by": { "each": "1" } },
        { "for": "paper", "only": "matt", "by": { "each": "1" } }, { "for": "mat", "only": "#123456", "by": { "each": "1" } },
        { "for": "mount", "only": "mat_board", "by": { "each": "1" } }, { "for": "shipping", "only": "abroad", "by": { "each": "1" } }"##;
    let found = price(&changed(Plan::starting(), &[]), rows, "").unmatched;
    let told: Vec<(usize, &str)> = found.iter().map(|row| (row.row, row.name.as_str())).collect();
    assert_eq!(told, [(1, "oke, 20 mm"), (5, "matt"), (7, "mat_board")]);
    let text = found[0].to_string();
    assert!(text.starts_with("the price book, row 1: there is no frame \"oke, 20 mm\", so this row never counts; there are \"thin box, 1/2 in\""), "{text}");
    assert_eq!(
        found[1].to_string(),
        "the price book, row 5: a row for paper can't be only for \"matt\", so it never counts; leave out \"only\""
    );
    assert!(found[2].to_string().ends_with(
        "\"mat board\", \"foam board\", \"fluted board\", \"hardboard\", \"MDF\", \"aluminium composite\""
    ));
    // By a stock of one's own it is another matter.
    let own = r#"{ "overmantel_stock": 1, "mouldings": { "add": [{ "name": "oke, 20 mm", "face": "20 mm", "depth": "30 mm", "material": "oak" }] } }"#;
    let stock = Stock::read(own).expect("a stock");
    let rows: Vec<usize> =
        book(rows, "").expect("a book").unmatched(&stock).iter().map(|row| row.row).collect();
    assert_eq!(rows, [5, 7]);
}

/// A book as version 1 had it before originals, extras and rounding: it opens for ever, and prices what it priced.
#[test]
fn a_book_of_earlier_form() {
    let earlier = r#"{ "overmantel_prices": 1, "name": "ours", "example": true, "currency": "USD", "tax": { "percent": "10", "included": false },
        "rows": [ { "for": "paper", "by": { "size": [{ "size": ["16 in", "20 in"], "price": "30" }] } },
        { "for": "edge_carried", "by": { "each": "5" } },
        { "for": "mat", "by": { "steps": [{ "up_to": "30 in", "price": "10" }, { "up_to": "50 in", "price": "20" }] } },
        { "for": "frame", "only": "oak", "by": { "foot": "10" } }, { "for": "floater", "by": { "foot": "5" } },
        { "for": "glass", "by": { "united_inch": "0.50" } }, { "for": "acrylic", "by": { "united_inch": "1" } },
        { "for": "mount", "by": { "square_foot": "2" } }, { "for": "backing", "by": { "square_foot": "2" } },
        { "for": "handling", "by": { "each": "10" } } ] }"#;
    let book = Book::read(earlier).expect("a book of earlier form");
    let plan = changed(Plan::starting(), &[]);
    let found = priced(&plan, &Figures::of(&plan).expect("an answer"), &Stock::offered(), &book);
    // 3 × 173.67, and a tenth on top.
    assert_eq!(found.totals.map(|totals| (totals.subtotal, totals.total)), Some((52_101, 57_311)));
}

#[test]
fn the_same_wall_in_other_materials() {
    let rows = r#"{ "for": "paper", "by": { "each": "1" } }, { "for": "canvas", "by": { "each": "2" } },
                  { "for": "aluminium", "by": { "each": "4" } }"#;
    let found =
        compared(&changed(Plan::starting(), &[]), &Stock::offered(), &book(rows, "").expect("a book"));
    let sum = |price: &Price| price.lines.iter().map(Line::all).sum();
    let told: Vec<(&str, bool, i64)> =
        found.iter().map(|choice| (choice.material, choice.is_plans_own, sum(&choice.price))).collect();
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
        "the price book, row 1: the width and height of a step is 0 in; it must be more than zero",
    );
    let by = |part: &str, by: &str| format!(r#"{{ "for": "{part}", "by": {{ "{by}": "5" }} }}"#);
    check(
        &by("extra", "each"),
        "",
        "the price book, row 1: an extra has no name; give it one with \"only\", such as \"varnish\"",
    );
    check(
        &by("paper", "once"),
        "",
        "the price book, row 1: the price of paper is for each piece or by its size; \"percent\" is for a discount, a tax or a deposit, and \"once\" for an extra, handling, packing, shipping, hanging, a discount or a deposit",
    );
    for way in ["each", "square_foot"] {
        check(
            &by("discount", way),
            "",
            "the price book, row 1: a discount is by \"percent\", or an amount \"once\"",
        );
    }
    check(
        r#"{ "for": "discount", "by": { "percent": "100.01" } }"#,
        "",
        "the price book, row 1: the percentage is more than 100; write 0 to 100",
    );
    check(
        "",
        r#""rounding": { "to": "0", "mode": "up" },"#,
        "the price book rounds to zero; write the smallest step, such as \"1\" or \"0.05\", or leave out \"rounding\"",
    );
    check(
        "",
        r#""tax": { "percent": "101" },"#,
        "the tax is more than 100 percent; write the percentage, such as 20",
    );
    let later = Book::read(r#"{ "overmantel_prices": 2 }"#).expect_err("a later version");
    assert_eq!(
        later.to_string(),
        "the price book has version 2, and this program reads version 1; open it with a newer one"
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
