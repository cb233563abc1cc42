//! Proposals as they lie in a page: whole, inert, and bounded.

use overmantel::figures::Figures;
use overmantel::plan::{Plan, System, limits};
use overmantel::proposal::{Offered, Proposal, brief_sizes, in_page, studio};
use overmantel::spec::table::table;
use overmantel::text::typeset;

/// A start of a JPEG: FF D8 FF E0 00 10 4A 46 49 46 00, then as base64 by the table of RFC 4648, section 4.
const JPEG: &str = "/9j/4AAQSkZJRgA=";

fn proposal() -> Proposal {
    let picture = overmantel::plan::Picture {
        name: "Ebb </script>".to_owned(),
        file: "ebb.jpg".to_owned(),
        width_px: 3000,
        height_px: 2000,
        subject: None,
    };
    Proposal {
        title: "Three for the stäirs <!--".to_owned(),
        from: "The painter".to_owned(),
        note: "As we said: ½ … 𝄞.\n</SCRIPT><script>alert(1)</script>".to_owned(),
        address: "https://example.org/overmantel.html".to_owned(),
        valid_until: Some((2027, 1, 31)),
        prices: vec!["Three prints, framed: 640 EUR".to_owned()],
        plan: Plan { pictures: vec![picture], ..Plan::starting() },
        copies: vec![Some(JPEG.to_owned())],
    }
}

#[test]
fn a_proposal_comes_back_whole_and_cannot_end_its_element() {
    let text = proposal().write().expect("a proposal");
    assert!(!text.contains('<') && text.is_ascii(), "{text}");
    assert_eq!(Proposal::read(&text), Ok(proposal()));
    // Another library reads the same texts.
    let value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(value["note"], proposal().note);
    assert_eq!(value["valid_until"], "2027-01-31");
    // One that was written before there was such a date has none.
    let older = text.replace("\"valid_until\":\"2027-01-31\",", "");
    assert_eq!(Proposal::read(&older), Ok(Proposal { valid_until: None, ..proposal() }));
    let why = Proposal::read(&text.replace("2027-01-31", "2027-01-32")).expect_err("no day").to_string();
    assert!(why.starts_with("\"2027-01-32\" is not a date"), "{why}");
}

#[test]
fn what_is_no_proposal_is_refused_in_a_sentence() {
    let check = |text: &str, words: &str| {
        let why = Proposal::read(text).expect_err(words).to_string();
        assert!(why.contains(words) && !why.ends_with('.'), "{why}");
    };
    let text = proposal().write().expect("a proposal");
    check("", "can't be read");
    check(&text[..text.len() - 9], "can't be read");
    check(&text.replace("\"overmantel_proposal\":1", "\"overmantel_proposal\":2"), "has version 2");
    check(&text.replace("\"from\"", "\"form\""), "form");
    check(&text.replace("\\\"overmantel\\\"", "\\\"other\\\""), "not an Overmantel plan file");
    check(
        &text.replace("The painter", &"a".repeat(121)),
        "the sender of the proposal has 121 characters; write at most 120",
    );
    let long = Proposal { prices: vec![String::from("1"); 61], ..proposal() };
    assert!(long.write().expect_err("too many").to_string().contains("61 lines of prices, and at most 60"));
    let long =
        Proposal { copies: vec![Some("/9j/".to_owned() + &"A".repeat(limits::COPY_BYTES))], ..proposal() };
    assert!(long.write().expect_err("too long").to_string().contains("at most 1000000"));
}

#[test]
fn a_page_has_it_inside_and_its_script_and_style_as_they_were() {
    let page = "<!doctype html><head><meta policy><title>Overmantel</title><style>p{}</style></head><body>\n\
        <script type=\"application/json\" class=\"demo-plan\" data-name=\"a.json\">{}</script>\n\
        <script>let a=1;</script>\n\
        <script type=\"application/wasm;base64\" class=\"core\" data-parts=\"1\">AGFzbQ==</script>\n</body>";
    let once = in_page(page, &proposal()).expect("a page");
    assert!(once.contains("<title>Three for the st&#228;irs &#60;!--</title><style>p{}</style>"), "{once}");
    assert!(once.contains("AGFzbQ==") && !once.contains("demo-plan") && once.is_ascii(), "{once}");
    let (_, behind) = once.split_once("</script>\n<script>let a=1;</script>\n").expect("its script");
    assert!(behind.ends_with("data-parts=\"1\">AGFzbQ==</script>\n</body>"), "{once}");
    let squeezed = |text: String| text.replace("\n\n", "\n");
    let twice = in_page(&once, &proposal()).expect("a page");
    assert_eq!(squeezed(twice), squeezed(once), "what was inside before is left out");
    let older =
        "<title>Overmantel</title><script type=\"x\" id=\"core\">AA==</script>\n<script>let a=1;</script>";
    let older = in_page(older, &proposal()).expect("a page of before");
    assert!(older.contains("id=\"core\">AA==</script>") && older.contains("overmantel_proposal"), "{older}");
    assert!(
        in_page("<p>", &proposal()).expect_err("no page").to_string().contains("not a page of Overmantel")
    );
}

#[test]
fn a_studios_page_has_its_pictures_in_place_of_the_demos() {
    let page = "<title>Overmantel</title>\
        <script type=\"application/json\" class=\"demo-plan\" data-name=\"a.json\">{}</script>\n<script>let a=1;</script>\n\
        <script type=\"x\" class=\"core\" data-parts=\"1\">AA==</script>";
    let picture =
        overmantel::plan::Picture { file: "a\"><b>.jpg".to_owned(), ..proposal().plan.pictures[0].clone() };
    let plan = Plan { pictures: vec![picture], ..proposal().plan };
    let stock = "{ \"overmantel_stock\": 1 }";
    let book = "{ \"overmantel_prices\": 1, \"name\": \"</script>\", \"currency\": \"EUR\", \"rows\": [{ \"for\": \"paper\", \"by\": { \"each\": \"9\" } }] }";
    let offered = Offered { stock: Some(stock), book: Some(book) };
    let made = studio(page, &plan, &[JPEG.to_owned()], offered).expect("a page");
    assert!(made.contains(&format!("data-name=\"a&quot;>&#60;b>.jpg\">{JPEG}</script>")), "{made}");
    assert!(!made.contains("a.json") && made.contains(stock) && !made.contains("Ebb </script>"), "{made}");
    let why = studio(page, &plan, &[], Offered::default()).expect_err("a picture is missing");
    assert_eq!(why.to_string(), "the plan names 1 pictures, and 0 were given; give one for each");
    assert!(
        made.contains("id=\"own-prices\">{ \"overmantel_prices\": 1, \"name\": \"\\u003c/script>\""),
        "{made}"
    );
    let why = studio(page, &plan, &[JPEG.to_owned()], Offered { book: Some("[]"), ..offered });
    assert!(why.expect_err("no price book").to_string().contains("price book"));
    // A proposal made of it has the stock still, and not the prices; another studio's page has its own.
    let next = in_page(&made, &proposal()).expect("a page");
    assert!(next.contains(stock) && !next.contains("own-prices"), "{next}");
    let other = "{\"overmantel_stock\":1}";
    let next = studio(&made, &plan, &[JPEG.to_owned()], Offered { stock: Some(other), book: None });
    assert!(next.as_ref().is_ok_and(|next| next.contains(other) && !next.contains(stock)), "{next:?}");
}

#[test]
fn the_sizes_looked_for_first_say_what_the_table_says() {
    for first in [System::Inches, System::Centimetres] {
        let mut plan = Plan::starting();
        plan.units.first = first;
        let figures = Figures::of(&plan).expect("a plan");
        let lines = brief_sizes(&plan, &figures);
        let terms = ["Image", "Mat opening", "Frame to order", "Outside"];
        let rows = table(&figures, 0).into_iter().filter(|row| terms.contains(&row.term));
        let expected: Vec<String> = rows
            .map(|row| {
                let both = match first {
                    System::Inches => [&row.inches, &row.centimetres],
                    System::Centimetres => [&row.centimetres, &row.inches],
                };
                format!("{}: {} · {}", row.term, typeset(both[0]), typeset(both[1]))
            })
            .collect();
        assert!(expected.len() >= 3, "{expected:?}");
        assert_eq!(lines, expected);
    }
}
