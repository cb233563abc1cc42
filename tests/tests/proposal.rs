//! Proposals as they lie in a page: whole, inert, and bounded.

use overmantel::figures::Figures;
use overmantel::link;
use overmantel::plan::{Plan, System, limits};
use overmantel::prices::Book;
use overmantel::proposal::{Offer, Offered, Proposal, brief_sizes, in_page, in_text, studio};
use overmantel::spec::table::table;
use overmantel::text::typeset;

/// A start of a JPEG: FF D8 FF E0 00 10 4A 46 49 46 00, then as base64 by the table of RFC 4648, section 4.
const JPEG: &str = "/9j/4AAQSkZJRgA=";

fn picture() -> overmantel::plan::Picture {
    overmantel::plan::Picture {
        name: "Ebb </script>".to_owned(),
        file: "ebb.jpg".to_owned(),
        width_px: 3000,
        height_px: 2000,
        subject: None,
    }
}

fn proposal() -> Proposal {
    let plan = Plan { pictures: vec![picture()], ..Plan::starting() };
    let line = |text: &str| vec![text.to_owned()];
    let offer = Offer {
        with: line("varnish"),
        prices: line("Three prints, framed: 640 EUR"),
        total: "EUR 640.00".to_owned(),
        apart: "the one we spoke of </script>".to_owned(),
        news: line("Size: 16 × 20\" became 20 × 24\""),
        ..Offer::of("Framed <!-- on paper", plan.clone())
    };
    Proposal {
        number: "2026-014".to_owned(),
        revision: 2,
        title: "Three for the stäirs <!--".to_owned(),
        from: "The painter".to_owned(),
        contact: "The old pilot house\nTidal flats".to_owned(),
        emblem: JPEG.to_owned(),
        client: "The harbour office </SCRIPT>".to_owned(),
        date: Some((2026, 11, 30)),
        note: "As we said: ½ … 𝄞.\n</SCRIPT><script>alert(1)</script>".to_owned(),
        address: "https://example.org/overmantel.html".to_owned(),
        valid_until: Some((2027, 1, 31)),
        offers: vec![offer, Offer::of("The same again", plan)],
        copies: vec![(picture().name, JPEG.to_owned())],
        book: Some(Book { name: "ours".to_owned(), currency: "EUR".to_owned(), ..Book::default() }),
    }
}

#[test]
fn a_proposal_comes_back_whole_and_cannot_end_its_element() {
    let text = proposal().write().expect("a proposal");
    assert!(!text.contains('<') && text.is_ascii(), "{text}");
    assert_eq!(Proposal::read(&text), Ok(proposal()));
    assert_eq!(text.matches(JPEG).count(), 2, "a picture of two plans is there once, and the mark");
    // Another library reads the same texts.
    let value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(value["note"], proposal().note);
    assert_eq!(value["valid_until"], "2027-01-31");
    assert_eq!(value["options"][0]["prices"][0], "Three prints, framed: 640 EUR");
    // What may be left out is.
    let plain = Proposal {
        title: "One".to_owned(),
        offers: vec![Offer::of("", Plan::starting())],
        ..Proposal::default()
    };
    assert_eq!(Proposal::read(&plain.write().expect("a proposal")), Ok(plain));
    let why = Proposal::read(&text.replace("2027-01-31", "2027-01-32")).expect_err("no day").to_string();
    assert!(why.starts_with("\"2027-01-32\" is not a date"), "{why}");
}

/// Written by the page of the version before, with one plan.
#[test]
fn a_proposal_of_version_1_opens_for_ever() {
    let text = include_str!("../proposals/1/dusk.json");
    let read = Proposal::read(text).expect("a proposal");
    assert_eq!((read.title.as_str(), read.from.as_str()), ("Dusk over the mole", "The painter"));
    assert_eq!((read.revision, read.valid_until, read.offers.len()), (1, Some((2027, 1, 31)), 1));
    assert_eq!(read.note, "As we said.\n\nBoth weeks are fine.");
    let offer = &read.offers[0];
    assert_eq!(offer.prices, ["One print, framed: 240 EUR", "Packing: 12 EUR"]);
    assert_eq!((offer.name.as_str(), offer.plan.pieces.len(), offer.plan.pictures.len()), ("", 1, 1));
    let copies = read.copies_of(&offer.plan);
    assert!(matches!(&copies[..], [Some(jpeg)] if jpeg.starts_with("/9j/")), "{copies:?}");
    // One that was written before there was such a date has none.
    let older = text.replace("\"valid_until\":\"2027-01-31\",", "");
    assert_ne!(older, text);
    assert_eq!(Proposal::read(&older).expect("a proposal").valid_until, None);
    // The answer to it finds the plan that it answers, and says what it did.
    let (answer, unread) = link::read(include_str!("../proposals/1/dusk-answer.txt")).expect("an answer");
    let told = answer.answer.expect("an answer");
    assert_eq!((told.to, unread), (link::mark(&offer.plan), 0));
    assert_eq!((told.from.as_str(), told.decided.size, told.option), ("A buyer", true, 0));
}

#[test]
fn what_is_no_proposal_is_refused_in_a_sentence() {
    let check = |text: &str, words: &str| {
        let why = Proposal::read(text).expect_err(words).to_string();
        assert!(why.contains(words) && !why.ends_with('.'), "{why}");
    };
    let text = proposal().write().expect("a proposal");
    check("", "this is not an Overmantel proposal");
    check(&text[..text.len() - 9], "this is not an Overmantel proposal");
    check(&text.replace("\"overmantel_proposal\":2", "\"overmantel_proposal\":3"), "has version 3");
    check(&text.replace("\"from\"", "\"form\""), "form");
    check(&text.replace("\\\"overmantel\\\"", "\\\"other\\\""), "not an Overmantel plan file");
    check(
        &text.replace("The painter", &"a".repeat(121)),
        "the sender of the proposal has 121 characters; write at most 120",
    );
    check(
        &text.replace("\"revision\":2", "\"revision\":0"),
        "the version of the proposal is 0; allowed: 1 to 999",
    );
    check(&text.replace(JPEG, "R0lGODlh"), "is not a JPEG file in base64");
    let refused = |wrong: Proposal, words: &str| {
        let why = wrong.write().expect_err(words).to_string();
        assert!(why.contains(words), "{why}");
    };
    let many = |count: usize| vec![Offer::of("", Plan::starting()); count];
    refused(Proposal { offers: many(0), ..proposal() }, "has 0 options; it takes 1 to 6");
    refused(Proposal { offers: many(7), ..proposal() }, "has 7 options; it takes 1 to 6");
    let long = Offer { prices: vec![String::from("1"); 61], ..Offer::of("", Plan::starting()) };
    refused(Proposal { offers: vec![long], ..proposal() }, "61 lines of prices, and at most 60");
    let jpeg = "/9j/".to_owned() + &"A".repeat(limits::COPY_BYTES);
    refused(Proposal { copies: vec![(picture().name, jpeg)], ..proposal() }, "write at most 1000000");
    // A title leads to one picture.
    let mut alike = proposal();
    alike.offers[1].plan.pictures[0].width_px = 3001;
    refused(
        alike,
        "different pictures of the proposal are called \"Ebb </script>\"; give one of them another title",
    );
}

#[test]
fn a_page_has_it_inside_and_its_script_and_style_as_they_were() {
    let page = "<!doctype html><head><meta policy><title>Overmantel</title><style>p{}</style></head><body>\n\
        <script type=\"application/json\" class=\"demo-plan\" data-name=\"a.json\">{}</script>\n\
        <script>let a=1;</script>\n\
        <script type=\"application/wasm;base64\" class=\"core\" data-parts=\"1\">AGFzbQ==</script>\n</body>";
    let once = in_page(page, &proposal(), None).expect("a page");
    assert!(once.contains("<title>Three for the st&#228;irs &#60;!--</title><style>p{}</style>"), "{once}");
    assert!(once.contains("AGFzbQ==") && !once.contains("demo-plan") && once.is_ascii(), "{once}");
    let (_, behind) = once.split_once("</script>\n<script>let a=1;</script>\n").expect("its script");
    assert!(behind.ends_with("data-parts=\"1\">AGFzbQ==</script>\n</body>"), "{once}");
    assert_eq!(in_text(&once).and_then(Proposal::read), Ok(proposal()), "it is found in it");
    assert!(in_text(page).expect_err("nothing inside").to_string().contains("no proposal in this file"));
    let squeezed = |text: String| text.replace("\n\n", "\n");
    let twice = in_page(&once, &proposal(), None).expect("a page");
    assert_eq!(squeezed(twice), squeezed(once), "what was inside before is left out");
    // Pictures of the demo stand among the core's blocks, before and between its two parts.
    let picture =
        "<script type=\"image/avif;base64\" class=\"demo-picture\" data-name=\"ebb.jpg\">AAAA</script>\n";
    let core = "<script type=\"application/wasm;base64\" class=\"core\"";
    let rest = format!(
        "{picture}<script type=\"application/wasm;base64\" class=\"rest\" data-parts=\"1\">AA==</script>\n</body>"
    );
    let parted = page.replace(core, &format!("{picture}{core}")).replace("</body>", &rest);
    assert_eq!(parted.matches("demo-picture").count(), 2);
    let parted = in_page(&parted, &proposal(), None).expect("a page");
    assert!(!parted.contains("demo-picture"), "{parted}");
    assert!(parted.ends_with(&rest[picture.len()..]) && parted.contains("AGFzbQ=="), "{parted}");
    let older =
        "<title>Overmantel</title><script type=\"x\" id=\"core\">AA==</script>\n<script>let a=1;</script>";
    let older = in_page(older, &proposal(), None).expect("a page of before");
    assert!(older.contains("id=\"core\">AA==</script>") && older.contains("overmantel_proposal"), "{older}");
    assert!(
        in_page("<p>", &proposal(), None)
            .expect_err("no page")
            .to_string()
            .contains("not a page of Overmantel")
    );
}

#[test]
fn a_studios_page_has_its_pictures_in_place_of_the_demos() {
    let page = "<title>Overmantel</title>\
        <script type=\"application/json\" class=\"demo-plan\" data-name=\"a.json\">{}</script>\n<script>let a=1;</script>\n\
        <script type=\"x\" class=\"core\" data-parts=\"1\">AA==</script>";
    let picture = overmantel::plan::Picture { file: "a\"><b>.jpg".to_owned(), ..picture() };
    let plan = Plan { pictures: vec![picture], ..Plan::starting() };
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
    // A proposal by a list of one's own has it beside it.
    let own = in_page(page, &proposal(), Some(stock)).expect("a page");
    assert!(own.contains("id=\"own-stock\">{ \"overmantel_stock\": 1 }</script>"), "{own}");
    // A proposal made of it has the stock still, and not the prices; another studio's page has its own.
    let next = in_page(&made, &proposal(), None).expect("a page");
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
