//! Proposals with several options: what each costs once it is changed, the answer, and the list of what was sent. The amounts are of
//! this test's own: nobody sells at them.
//!
//! Of the starting plan's three frames each takes 2 (20 + 24) + 8 × 3/4 = 94 in of moulding by the shops' rule (common practice, no
//! source), 7 5/6 ft; at 12.00 a foot 94.00. With paper at 30, mat 20, glass 10, mount and backing 5 each: 164.00, three of them
//! 492.00; a tax of 20 % on top makes 590.40, of which a deposit of 30 % is 177.12.

use overmantel::compare::{Beside, apart};
use overmantel::field::Field;
use overmantel::fields;
use overmantel::figures::Figures;
use overmantel::link::{self, Decided, Link};
use overmantel::papers::Paper;
use overmantel::papers::sheet::{Item, Role};
use overmantel::plan::{self, Plan};
use overmantel::prices::{Asked, Book, file as book_file, priced};
use overmantel::proposal::sent::{self, Sent, Settled, State};
use overmantel::proposal::{BookShare, Offer, Proposal, Reply, Verdict, reply_text};
use overmantel::stock::Stock;
use overmantel_tests::given::changed;

const BOOK: &str = r#"{ "overmantel_prices": 1, "name": "of this test", "currency": "EUR",
    "tax": { "percent": "20" , "included": false }, "rows": [
    { "for": "paper", "by": { "size": [{ "size": ["24 in", "30 in"], "price": "77" }] } },
    { "for": "paper", "by": { "each": "30" } }, { "for": "mat", "by": { "each": "20" } },
    { "for": "frame", "only": "poplar", "by": { "foot": "20" } },
    { "for": "frame", "by": { "foot": "12" } }, { "for": "glass", "by": { "each": "10" } },
    { "for": "mount", "by": { "each": "5" } }, { "for": "backing", "by": { "each": "5" } },
    { "for": "canvas", "by": { "each": "100" } }, { "for": "edge_mirrored", "by": { "each": "3" } },
    { "for": "shipping", "only": "to the mainland", "by": { "steps": [{ "up_to": "60 in", "price": "8" }] } },
    { "for": "shipping", "only": "to the islands", "by": { "once": "40" } },
    { "for": "tax", "only": "sent abroad", "by": { "percent": "0" } },
    { "for": "deposit", "by": { "percent": "30" } } ] }"#;

fn book() -> Book {
    Book::read(BOOK).expect("a book")
}

fn canvas() -> Plan {
    changed(Plan::starting(), &[("piece.all.material", "canvas")])
}

/// Framed paper and canvas, priced by the book of which so much goes along.
fn proposal(share: BookShare, with: &[&str]) -> Proposal {
    let stock = Stock::offered();
    let with: Vec<String> = with.iter().map(|&name| name.to_owned()).collect();
    let offer = |name: &str, plan: Plan| {
        let mut offer = Offer { with: with.clone(), ..Offer::of(name, plan) };
        offer.price(&stock, Some(&book())).expect("a plan");
        offer
    };
    let offers = vec![offer("Framed on paper", Plan::starting()), offer("Three canvases", canvas())];
    let (title, number) = ("For the landing".to_owned(), "2026-009".to_owned());
    let mut made = Proposal { title, number, offers, ..Proposal::default() };
    made.send_book(&book(), share, &stock).expect("plans");
    made
}

#[test]
fn a_total_is_one_number_with_its_parts() {
    let told = |with: &[&str]| {
        let offer = proposal(BookShare::Nothing, with).offers.remove(0);
        (offer.total, offer.prices[6..].to_vec())
    };
    assert_eq!(
        told(&[]),
        (
            "EUR 590.40".to_owned(),
            [
                "subtotal EUR 492.00",
                "tax, 20 % EUR 98.40",
                "total EUR 590.40",
                "deposit, when you order EUR 177.12",
                "rest, before it is sent EUR 413.28"
            ]
            .map(str::to_owned)
            .to_vec()
        )
    );
    // Shipping by size and by where it goes; a tax by another rate: 492 + 3 × 8 = 516, and 492 + 40 = 532 with 0 %.
    assert_eq!(told(&["to the mainland"]).0, "EUR 619.20");
    assert_eq!(told(&["to the islands", "sent abroad"]).0, "EUR 532.00");
    // A name that no row waits for asks for nothing.
    assert_eq!(told(&["to the moon"]).0, "EUR 590.40");
}

#[test]
fn rows_of_the_sum_are_refused_where_they_make_no_sense() {
    let check = |row: &str, words: &str| {
        let text =
            format!(r#"{{ "overmantel_prices": 1, "name": "x", "currency": "EUR", "rows": [{row}] }}"#);
        let why = Book::read(&text).expect_err(row).to_string();
        assert!(why.contains(words), "{why}");
    };
    check(r#"{ "for": "tax", "by": { "once": "3" } }"#, "a tax is by \"percent\"");
    check(
        r#"{ "for": "deposit", "by": { "each": "3" } }"#,
        "a deposit is by \"percent\", or an amount \"once\"",
    );
    check(r#"{ "for": "deposit", "by": { "percent": "101" } }"#, "the percentage is more than 100");
    // A deposit of more than the total is the total.
    let once = BOOK.replace("\"percent\": \"30\"", "\"once\": \"9999\"");
    let (plan, stock) = (Plan::starting(), Stock::offered());
    let price =
        priced(&plan, &Figures::of(&plan).expect("a plan"), &stock, &Book::read(&once).expect("a book"));
    assert_eq!(price.totals.map(|totals| (totals.total, totals.deposit)), Some((59_040, Some(59_040))));
}

#[test]
fn a_change_is_priced_anew_where_the_book_goes_along() {
    let stock = Stock::offered();
    let quote = |share: BookShare, changes: &[(&str, &str)]| {
        let sent = proposal(share, &[]);
        let now = changed(Plan::starting(), changes);
        let quote = sent.quote(&sent.offers[0], &now, &stock).expect("a plan");
        (quote.total.unwrap_or_default(), quote.said.unwrap_or_default())
    };
    let told = |total: &str, said: &str| (total.to_owned(), said.to_owned());
    for share in [BookShare::Nothing, BookShare::Needed, BookShare::All] {
        assert_eq!(quote(share, &[]), told("EUR 590.40", ""), "as it was sent");
        // Another place, wall or title costs nothing, whether a book is there or not.
        let same = told("EUR 590.40", "The changes leave the price as it was.");
        assert_eq!(quote(share, &[("wall.width", "13 ft")]), same);
    }
    let new = told("", "Prices are for the plan as sent; this change needs a new price.");
    assert_eq!(quote(BookShare::Nothing, &[("piece.all.material", "canvas")]), new);
    assert_eq!(quote(BookShare::Nothing, &[("piece.all.image", "20 x 24 in")]), new);
    // Canvas is one of the options, so that its row goes along: 3 × 103 = 309, and 20 % on top.
    let canvas = told("EUR 370.80", "As changed, it costs EUR 370.80; as it was sent, EUR 590.40.");
    assert_eq!(quote(BookShare::Needed, &[("piece.all.material", "canvas")]), canvas);
    // Walnut stands before the row that counts for oak: 94 in at 20.00 a foot are 156.67, each of them (164 - 94 + 156.67).
    let poplar = told("EUR 816.01", "As changed, it costs EUR 816.01; as it was sent, EUR 590.40.");
    for share in [BookShare::Needed, BookShare::All] {
        assert_eq!(quote(share, &[("piece.all.frame.material", "poplar")]), poplar);
    }
    // Acrylic has no row.
    let (total, said) = quote(BookShare::All, &[("piece.all.glazing", "acrylic")]);
    assert_eq!(total, "");
    assert_eq!(said, "This change needs a new price: the prices sent with it have none for acrylic.");
}

#[test]
fn a_reduced_book_says_what_the_whole_one_says_or_nothing() {
    let (stock, whole, plan) = (Stock::offered(), book(), Plan::starting());
    let figures = Figures::of(&plan).expect("a plan");
    let with = ["to the islands".to_owned()];
    let reduced = whole.reduced(&[Asked { plan: &plan, figures: &figures, with: &with }], &stock);
    let parts: Vec<&str> = reduced.rows.iter().map(|row| row.part.name()).collect();
    let expected = [
        "paper",
        "paper",
        "mat",
        "frame",
        "frame",
        "glass",
        "mount board",
        "backing",
        "mirrored wrap",
        "shipping",
        "deposit",
    ];
    assert_eq!(parts, expected, "nothing for canvas, for the mainland, or for a tax that is not asked for");
    assert_eq!(Book::read(&book_file::write(&reduced)), Ok(reduced.clone()), "it goes as a file");
    // Whatever the plan becomes.
    let materials = ["paper", "canvas", "aluminium", "original"];
    let (mut same, mut none) = (0, 0);
    for material in materials {
        for (field, values) in [
            ("piece.all.image", ["8 x 10 in", "24 x 30 in", "40 x 50 cm"]),
            ("piece.all.glazing", ["none", "glass", "acrylic"]),
            ("piece.all.frame.material", ["poplar", "oak", "pine"]),
            ("canvas.edge", ["mirrored", "carried", "plain"]),
        ] {
            for value in values {
                let one = changed(Plan::starting(), &[("piece.all.material", material)]);
                let Some(named) = Field::named(field) else { continue };
                let Ok(now) = fields::write(&one, &stock, named, value) else { continue };
                let figures = Figures::of(&now).expect("a plan");
                let totals =
                    [&whole, &reduced].map(|book| priced(&now, &figures, &stock, &book.asking(&with)).totals);
                match totals {
                    [whole, Some(reduced)] => {
                        assert_eq!(whole, Some(reduced), "{material} {field} {value}");
                        same += 1;
                    }
                    [_, None] => none += 1,
                }
            }
        }
    }
    assert!(same >= 8 && none >= 8, "both came up: {same} with a total, {none} without");
}

#[test]
fn an_answer_says_which_and_what_changed_in_a_few_lines() {
    let stock = Stock::offered();
    let mut sent = proposal(BookShare::All, &[]);
    sent.address = "https://example.org/wall.html".to_owned();
    let now = changed(canvas(), &[("piece.all.image", "20 x 24 in"), ("units", "centimetres")]);
    let reply = Reply {
        offer: 1,
        plan: &now,
        verdict: Verdict::Accepted,
        decided: Decided::default(),
        from: "Anna at the lock".to_owned(),
        note: "By Easter, please.\nThank you.".to_owned(),
        date: "2026-12-01".to_owned(),
    };
    let answer = reply.answer(&sent).expect("an option");
    let link = link::write(&Link { answer: Some(answer.clone()), ..Link::of(now.clone()) });
    let text = reply_text(&sent, &reply, &stock, &link).expect("a text");
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "Answer to: For the landing (2026-009)");
    assert_eq!(lines[1], "From: Anna at the lock, 1 December 2026");
    assert_eq!(lines[2], "I'd like this one: Three canvases.");
    let changes: Vec<&&str> = lines.iter().filter(|line| line.starts_with("- ")).collect();
    assert!((1..=10).contains(&changes.len()), "{text}");
    // In the client's units: 16 × 20 in are 40.6 × 50.8 cm, and 20 × 24 in 50.8 × 61 cm.
    assert!(changes.iter().any(|line| line.contains("40.6 × 50.8") && line.contains("50.8 × 61")), "{text}");
    assert!(text.contains("\nPrice: EUR 370.80.\n"), "a canvas has one price whatever its size: {text}");
    assert!(text.contains("\n\nBy Easter, please.\nThank you.\n\n"), "{text}");
    assert!(text.ends_with(&format!("\nhttps://example.org/wall.html#{link}\n")), "{text}");
    // The whole text is read as a link.
    let (came, unread) = link::read(&text).expect("an answer");
    assert_eq!((came.plan, came.answer, unread), (now.clone(), Some(answer), 0));
    // None of them: nothing is said of changes.
    let declined = Reply { verdict: Verdict::Declined, note: String::new(), ..reply.clone() };
    let text = reply_text(&sent, &declined, &stock, &link).expect("a text");
    assert!(text.contains("None of these, thank you.\n\nTo see it") && !text.contains("- "), "{text}");
    let nowhere = Reply { offer: 2, ..reply };
    assert!(nowhere.answer(&sent).is_err() && reply_text(&sent, &nowhere, &stock, &link).is_err());
}

fn answered(sent: &Proposal, verdict: Verdict, date: &str) -> String {
    let plan = sent.offers[0].plan.clone();
    let (from, note, date) = ("A buyer".to_owned(), String::new(), date.to_owned());
    let reply = Reply { offer: 0, plan: &plan, verdict, decided: Decided::default(), from, note, date };
    link::write(&Link { answer: Some(reply.answer(sent).expect("an option")), ..Link::of(plan.clone()) })
}

#[test]
fn the_list_of_what_was_sent_says_what_became_of_it() {
    let proposal = Proposal { valid_until: Some((2026, 12, 31)), ..proposal(BookShare::Nothing, &[]) };
    let mut sent = Sent::of(&proposal).expect("a proposal");
    let state = |sent: &Sent, day| sent.state(Some(day)).expect("a proposal");
    let (before, after) = ((2026, 12, 31), (2027, 1, 1));
    assert_eq!([state(&sent, before), state(&sent, after)], [State::Open, State::Lapsed]);
    sent.take(&answered(&proposal, Verdict::Open, "2026-12-02")).expect("an answer");
    assert_eq!([state(&sent, before), state(&sent, after)], [State::Answered; 2], "an answer came in time");
    sent.take(&answered(&proposal, Verdict::Declined, "2026-12-03")).expect("an answer");
    assert_eq!(state(&sent, before), State::Declined);
    let accepted = answered(&proposal, Verdict::Accepted, "2026-12-04");
    sent.take(&accepted).expect("an answer");
    sent.take(&format!("https://example.org/wall.html#{accepted}")).expect("the same");
    assert_eq!((state(&sent, before), sent.answered().len()), (State::Accepted, 3), "none is there twice");
    assert_eq!(sent.answered()[2].number, "2026-009");
    let settled = Sent { settled: Settled::Declined, ..sent.clone() };
    assert_eq!(state(&settled, before), State::Declined, "its sender knows better");
    assert!(sent.take(&link::write(&Link::of(Plan::starting()))).is_err(), "a plan is no answer");
    assert_eq!(sent::read(&sent::write(&[sent.clone(), settled.clone()])), Ok(vec![sent, settled]));
    assert!(
        sent::read("{ \"overmantel_sent\": 2, \"proposals\": [] }")
            .expect_err("later")
            .to_string()
            .contains("version 2")
    );
}

#[test]
fn a_later_version_says_what_is_new() {
    let stock = Stock::offered();
    let before = proposal(BookShare::Nothing, &[]);
    let mut next = proposal(BookShare::Nothing, &[]);
    next.offers[0].plan = changed(Plan::starting(), &[("piece.all.image", "20 x 24 in")]);
    next.offers[0].total = "EUR 700.00".to_owned();
    next.offers.push(Offer::of("The original", Plan::starting()));
    next.follow(&before, &stock).expect("plans");
    assert_eq!((next.number.as_str(), next.revision), ("2026-009", 2));
    assert_eq!(next.heading(), "For the landing (2026-009, version 2)");
    let news = &next.offers[0].news;
    assert!(news.iter().any(|line| line.contains("20 × 24")), "{news:?}");
    assert!(news.contains(&"Price: EUR 590.40 became EUR 700.00".to_owned()), "{news:?}");
    assert_eq!(next.offers[1].news, Vec::<String>::new(), "nothing is new in it");
    assert_eq!(next.offers[2].news, ["New in this version"]);
    assert_eq!(Proposal::read(&next.write().expect("a proposal")), Ok(next));
}

#[test]
fn its_validity_is_told_by_the_day() {
    let sent = Proposal { valid_until: Some((2027, 1, 31)), ..proposal(BookShare::Nothing, &[]) };
    let on = |day| sent.validity(Some(day)).unwrap_or_default();
    assert_eq!(on((2027, 1, 31)), "This proposal is valid until 31 January 2027.");
    assert_eq!(
        on((2027, 2, 1)),
        "This proposal was valid until 31 January 2027, which has passed; ask whether it still holds."
    );
    assert_eq!(proposal(BookShare::Nothing, &[]).validity(Some((2027, 1, 31))), None);
}

#[test]
fn each_option_is_the_plan_that_it_is() {
    let text = proposal(BookShare::Needed, &["to the islands"]).write().expect("a proposal");
    let read = Proposal::read(&text).expect("a proposal");
    let material =
        |plan: &Plan| fields::read(plan, &Stock::offered(), Field::piece(&plan::PIECE_MATERIAL, 0));
    let told: Vec<String> =
        read.offers.iter().filter_map(|offer| Some(material(&offer.plan)?.text)).collect();
    assert_eq!(told, ["paper", "canvas"]);
    assert_eq!(read.offers[1].with, ["to the islands"]);
}

fn texts(page: &overmantel::papers::sheet::Page) -> String {
    let text = |item: &Item| if let Item::Text(line) = item { Some(line.text.clone()) } else { None };
    page.blocks.iter().flat_map(|block| &block.items).filter_map(text).collect::<Vec<_>>().join("\n")
}

#[test]
fn its_paper_compares_the_options_and_has_a_page_for_each() {
    let mut sent = proposal(BookShare::Nothing, &[]);
    sent.client = "The harbour office".to_owned();
    sent.address = "https://example.org/wall.html".to_owned();
    sent.offers
        .push(Offer::of("The original", changed(Plan::starting(), &[("piece.all.material", "original")])));
    let stock = Stock::offered();
    for paper in [Paper::A4, Paper::Letter] {
        let (document, photos) = sent.paper(&stock, paper).expect("plans");
        assert_eq!((document.pages.len(), photos.len()), (4, 0), "one that compares, and one each");
        let first = texts(&document.pages[0]);
        for words in [
            "For the landing",
            "Proposal 2026-009 · for The harbour office",
            "Framed on paper",
            "Three canvases",
            "The original",
            "EUR 590.40",
            "EUR 370.80",
            "page 1 of 4",
        ] {
            assert!(first.contains(words), "{words} in {first}");
        }
        let drawings = |page: usize| {
            document.pages[page].blocks.iter().filter(|block| matches!(block.role, Role::Drawing(_))).count()
        };
        assert_eq!([drawings(0), drawings(1), drawings(2)], [3, 2, 2], "the walls; the wall, and its code");
        let second = texts(&document.pages[2]);
        for words in [
            "For the landing: Three canvases",
            "total EUR 370.80",
            "deposit, when you order EUR 111.24",
            "page 3 of 4",
        ] {
            assert!(second.contains(words), "{words} in {second}");
        }
        assert!(!second.contains("590.40"), "what another option costs stands on its own page: {second}");
    }
    // Of one option alone there is nothing to compare.
    sent.offers.truncate(1);
    let (document, _) = sent.paper(&stock, Paper::A4).expect("a plan");
    assert!(texts(&document.pages[0]).starts_with("Proposal\n"), "{}", texts(&document.pages[0]));
    assert!(document.pages.iter().all(|page| !texts(page).contains("All walls at one scale")));
}

#[test]
fn what_sets_an_option_apart_does_not_say_its_name_twice() {
    let (paper, canvas, stock) = (Plan::starting(), canvas(), Stock::offered());
    let found = apart(&[&paper, &canvas].map(|plan| Beside { plan, book: None }), &stock).expect("plans");
    let line = |name: &str, own: &str| {
        Offer { apart: own.to_owned(), ..Offer::of(name, canvas.clone()) }.set_apart(&found[1])
    };
    assert_eq!(line("Three canvases", ""), format!("canvas, 1 1/2\" deep, mirrored wrap: {}", found[1].best));
    assert_eq!(line("Canvas, 1 1/2\" deep, mirrored wrap", ""), found[1].best);
    assert_eq!(line("Canvas", "the one you saw"), "the one you saw");
    assert!(!found[1].best.is_empty());
}

/// A grey JPEG of 64 by 48 pixels.
fn tiny() -> String {
    use base64::Engine as _;
    let mut image = Vec::new();
    let grey = image::ImageBuffer::from_pixel(64, 48, image::Luma([128_u8]));
    image::codecs::jpeg::JpegEncoder::new(&mut image).encode_image(&grey).expect("a JPEG");
    base64::engine::general_purpose::STANDARD.encode(image)
}

#[test]
fn an_option_seen_in_a_room_has_a_page_for_that() {
    let mut sent = proposal(BookShare::Nothing, &[]);
    sent.offers[1].in_room = tiny();
    assert_eq!(Proposal::read(&sent.write().expect("a proposal")).expect("the same"), sent);
    let along = sent.along();
    let seen: Vec<&String> = along.iter().filter(|line| line.contains("the room")).collect();
    assert_eq!(seen.len(), 1, "{along:?}");
    assert!(seen[0].contains("Three canvases, 64 × 48 px"), "{seen:?}");
    let (document, photos) = sent.paper(&Stock::offered(), Paper::A4).expect("plans");
    assert_eq!((document.pages.len(), photos.len()), (4, 1), "one that compares, one each, and the room");
    let shown = document.pages[3].blocks.iter().flat_map(|block| &block.items).find_map(|item| match item {
        Item::Picture { rect, shows: Some((0, _)), .. } => Some(rect.size),
        _ => None,
    });
    let shown = shown.expect("the photograph, which is the first of all pictures");
    // 64 to 48, as wide as the page is between its margins.
    assert_eq!(shown.width.times_ratio(3, 4), shown.height);
    assert!(texts(&document.pages[3]).contains("Measure the wall before you drill"));
    sent.offers[1].in_room = "no picture".to_owned();
    let why = sent.write().expect_err("what is no JPEG").to_string();
    assert!(why.contains("the view in the photograph"), "{why}");
}

/// A picture of 9 to 4 may run over three upright panels: each of them has the line of text.
#[test]
fn a_line_of_text_stands_on_every_panel_of_a_long_picture() {
    let grey = |width: u32, height: u32| {
        let pixels = vec![128; width as usize * height as usize * 4];
        overmantel::resample::Raster::new(width, height, pixels).expect("a picture")
    };
    let thirds = |width: u32, height: u32, along: fn(u32, u32) -> u32| {
        let marked = overmantel::draw::across(&grey(width, height), "Tidal flats");
        let mut changed = [0; 3];
        for (index, pixel) in marked.pixels().as_chunks::<4>().0.iter().enumerate() {
            let index = u32::try_from(index).expect("a pixel");
            let at = along(index % width, index / width);
            changed[at.min(2) as usize] += u32::from(pixel[0] != 128);
        }
        changed
    };
    for changed in [thirds(900, 400, |x, _| x / 300), thirds(400, 900, |_, y| y / 300)] {
        assert!(changed.iter().all(|&count| count > 800), "{changed:?}");
    }
}

#[test]
fn the_list_is_looked_through_and_ordered() {
    use overmantel::proposal::listed::{Listed, Order, chosen};
    let listed = |number: &str, client: &str, until: Option<(u16, u8, u8)>, settled: Settled| {
        let mut proposal = proposal(BookShare::Nothing, &[]);
        (proposal.number, proposal.client, proposal.valid_until) =
            (number.to_owned(), client.to_owned(), until);
        let sent = Sent { settled, ..Sent::of(&proposal).expect("a proposal") };
        Listed::of(&sent, &proposal, Some((2026, 12, 1))).expect("a proposal")
    };
    let list = [
        listed("2026-10", "Ærøskøbing harbour", Some((2027, 1, 31)), Settled::Accepted),
        listed("2026-9", "the pilots", None, Settled::ByAnswers),
        listed("2026-8", "The ferry", Some((2026, 11, 1)), Settled::ByAnswers),
    ];
    assert_eq!(chosen(&list, "", Order::Sent), [0, 1, 2]);
    assert_eq!(chosen(&list, "", Order::Number), [2, 1, 0], "8, 9, 10");
    assert_eq!(chosen(&list, "", Order::Client), [2, 1, 0], "ferry, pilots, Ærø");
    assert_eq!(chosen(&list, "", Order::Validity), [2, 0, 1], "without an end last");
    assert_eq!(chosen(&list, "", Order::State), [1, 0, 2], "open, accepted, lapsed");
    assert_eq!(chosen(&list, "HARBOUR ærø", Order::Sent), [0]);
    assert_eq!(chosen(&list, "lapsed", Order::Sent), [2]);
    assert_eq!(chosen(&list, "31 January 2027", Order::Sent), [0]);
    assert!(chosen(&list, "kayak", Order::Sent).is_empty());
}
