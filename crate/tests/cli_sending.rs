//! The command line's ways out and in: links, proposals, a studio's page.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use command::{check_refused, overmantel, path, plan, root, scratch, text};
use overmantel::proposal::{Proposal, in_text};
use std::fs;
use std::path::Path;

mod command;

#[test]
fn a_link_and_back() {
    let file = plan("low-water.json");
    let pictures = root().join("demo-data/pictures");
    let address = "https://example.org/overmantel.html";
    let told = |arguments: &[&str]| {
        text(&overmantel(&[&["link", path(&file)], arguments].concat()).stdout).trim().to_owned()
    };
    let bare = told(&["--sketches", "none"]);
    assert_eq!(told(&["--address", address, "--sketches", "none"]), format!("{address}#{bare}"));
    let lengths = ["colours", "hint", "likeness"]
        .map(|sketches| told(&["--pictures", path(&pictures), "--sketches", sketches]).len());
    assert!(bare.len() < lengths[0] && lengths.is_sorted() && lengths[2] < 2_000, "{lengths:?}");

    let opened = overmantel(&["open", &format!("{address}#{bare}")]);
    assert_eq!((opened.status.code(), text(&opened.stderr).as_str()), (Some(0), ""));
    let again = scratch("link").join("again.json");
    fs::write(&again, &opened.stdout).unwrap_or_else(|error| panic!("{error}"));
    let figures = |plan: &Path| text(&overmantel(&["figures", path(plan)]).stdout);
    assert_eq!(figures(&again), figures(&file));

    let missing = overmantel(&["link", path(&file)]);
    assert!(
        text(&missing.stderr)
            .contains("low-water-evening.jpg was not found, so the link has no colours or likeness of it")
    );
    assert_eq!(missing.status.code(), Some(0));
    check_refused(&["open", &bare[..bare.len() - 1]], 1, "the link is incomplete");
    check_refused(&["open", ""], 1, "there is no link in this");
    check_refused(
        &["link", path(&file), "--address", "file:///wall.html"],
        1,
        "is not the address of a published page",
    );
    check_refused(&["link", path(&file), "--sketches", "huge"], 2, "likeness");
}

#[test]
fn a_proposal_in_a_page() {
    let folder = scratch("proposal");
    let (page, out) = (folder.join("page.html"), folder.join("proposal.html"));
    let html =
        "<title>Overmantel</title><script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>";
    fs::write(&page, html).unwrap_or_else(|error| panic!("{error}"));
    let file = plan("harbour-pair.json");
    let pictures = root().join("demo-data/pictures");
    let arguments = ["proposal", path(&file), "--page", path(&page), "--out", path(&out)];
    let more = [
        "--pictures",
        path(&pictures),
        "--smaller",
        "--from",
        "The painter",
        "--price",
        "Two canvases: 520 EUR",
    ];
    let output = overmantel(&[&arguments[..], &more[..]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(
        text(&output.stderr)
            .lines()
            .all(|line| line.contains("is a smaller copy; all figures are for 4800 × 6000")
                || line.contains("goes along: "))
    );
    let written = fs::read_to_string(&out).unwrap_or_default();
    assert!(
        written.contains("520 EUR")
            && written.contains("/9j/")
            && written.ends_with("<script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>")
    );
    check_refused(
        &["proposal", path(&file), "--page", path(&file), "--out", path(&out), "--force"],
        1,
        "not a page of Overmantel",
    );

    // A studio's page of a folder, with a table of titles.
    let paintings = folder.join("paintings");
    fs::create_dir_all(&paintings).unwrap_or_else(|error| panic!("{error}"));
    for name in ["three-boats.jpg", "harbour-morning.jpg"] {
        fs::copy(pictures.join(name), paintings.join(name)).unwrap_or_else(|error| panic!("{error}"));
    }
    let arguments = ["studio", path(&paintings), "--page", path(&page), "--out", path(&out), "--force"];
    let table = |rows: &str| {
        fs::write(paintings.join("pictures.csv"), rows).unwrap_or_else(|error| panic!("{error}"))
    };
    table("three-boats.jpg, Three boats, drying\n");
    assert_eq!(text(&overmantel(&arguments).stderr), "");
    let written = fs::read_to_string(&out).unwrap_or_default();
    assert!(written.contains("Three boats, drying") && !written.contains("harbour-morning"));
    // With prices in it, and a proposal whose prices are those of a book.
    let book = root().join("demo-data/prices/example.json");
    let priced = [arguments.as_slice(), &["--book", path(&book)]].concat();
    assert_eq!(text(&overmantel(&priced).stderr), "");
    let written = fs::read_to_string(&out).unwrap_or_default();
    assert!(written.contains("id=\"own-prices\">{") && written.contains("nobody sells at these prices"));
    let unpriced = [arguments.as_slice(), &["--book", path(&file)]].concat();
    check_refused(&unpriced, 1, "this is not an Overmantel price book");
    proposals_with_a_book(&folder, &page, &file, &book);
    table("../plans/low-water.json, A plan\n");
    check_refused(&arguments, 1, "that picture is not in the folder");
    table("three-boats.jpg\n");
    check_refused(&arguments, 1, "write the file's name, a comma and the title");
}

/// By a price book a proposal has a total only where everything has a price; a line beside it stands apart.
fn proposals_with_a_book(folder: &Path, page: &Path, file: &Path, book: &Path) {
    let out = folder.join("priced.html");
    let base = ["proposal", path(file), "--page", path(page), "--out", path(&out)];
    let with = |book: &Path, more: &[&str]| {
        let _ = fs::remove_file(&out);
        let output = overmantel(&[&base[..], &["--book", path(book)], more].concat());
        (output.status.code(), text(&output.stderr), fs::read_to_string(&out).unwrap_or_default())
    };
    let (code, _, written) = with(book, &["--price", "carriage 20 USD", "--with", "varnish"]);
    assert_eq!(code, Some(0));
    for part in ["total USD ", "not in this total: carriage 20 USD", "\u{d7} varnish, "] {
        let part = part.replace('\u{d7}', "\\u00d7");
        assert!(written.contains(&part), "{part} in {written}");
    }
    let few = folder.join("few.json");
    let write = |path: &Path, text: &str| fs::write(path, text).unwrap_or_else(|error| panic!("{error}"));
    let rows = |rows: &str| {
        write(
            &few,
            &format!(r#"{{ "overmantel_prices": 1, "name": "few", "currency": "EUR", "rows": [{rows}] }}"#),
        );
    };
    rows("");
    let (code, said, written) = with(&few, &[]);
    assert_eq!((code, written.as_str()), (Some(3), ""), "{said}");
    assert!(said.contains(r#"add a row such as { "for": "canvas", "by": { "each": "AMOUNT" } }"#), "{said}");
    let (code, said, written) = with(&few, &["--without-prices", "--price", "Two canvases: 520 EUR"]);
    assert_eq!(
        (code, said.contains("no price for"), said.contains("canvas")),
        (Some(0), false, false),
        "{said}"
    );
    assert!(written.contains("\"Two canvases: 520 EUR\"") && written.contains("\"total\":\"\""), "{written}");
    // On paper it is the same: nothing is written, unless it is to go without prices.
    let sheets = folder.join("sheets");
    let paper = |more: &[&str]| {
        let base = ["papers", path(file), "--out", path(&sheets), "--sheet", "proposal", "--smaller"];
        let pictures = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-data/pictures");
        let output = overmantel(&[&base[..], &["--pictures", pictures, "--book", path(&few)], more].concat());
        let count = fs::read_dir(&sheets).map_or(0, Iterator::count);
        (output.status.success(), text(&output.stderr), count)
    };
    let (is_written, said, count) = paper(&[]);
    assert!(!is_written && count == 0 && said.contains("add the rows, or use --without-prices"), "{said}");
    let (is_written, said, count) = paper(&["--without-prices"]);
    assert!(is_written && count == 1, "{said}");
    // The stock stated is the one that counts: a price for its floater is one only with it.
    let stock = folder.join("stock.json");
    write(
        &stock,
        r#"{ "overmantel_stock": 1, "mouldings": { "replace": [{ "name": "tray", "floater": true, "face": "10 mm", "depth": "50 mm", "material": "pine" }] } }"#,
    );
    rows(
        r#"{ "for": "canvas", "by": { "each": "100" } }, { "for": "floater", "only": "tray", "by": { "each": "50" } }"#,
    );
    let (code, said, _) = with(&few, &[]);
    assert!(code == Some(3) && said.contains("missing: floater"), "{said}");
    let (code, _, written) = with(&few, &["--stock", path(&stock)]);
    assert_eq!(code, Some(0));
    assert!(written.contains("floater") && written.contains("total EUR "), "{written}");
}

/// Three options, sent, and sent again changed.
#[test]
fn a_proposal_with_options() {
    let folder = scratch("options");
    let page = folder.join("page.html");
    let html =
        "<title>Overmantel</title><script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>";
    fs::write(&page, html).unwrap_or_else(|error| panic!("{error}"));
    let [first, second] = ["low-water.json", "harbour-pair.json"].map(plan);
    let (pictures, book) = (root().join("demo-data/pictures"), root().join("demo-data/prices/example.json"));
    let mark = pictures.join("three-boats.jpg");
    let sent = |out: &Path, plans: &[&Path], more: &[&str]| {
        let _ = fs::remove_file(out);
        let plans: Vec<&str> = plans.iter().map(|plan| path(plan)).collect();
        let base = [
            "--page",
            path(&page),
            "--out",
            path(out),
            "--pictures",
            path(&pictures),
            "--smaller",
            "--book",
            path(&book),
        ];
        overmantel(&[&["proposal"], &plans[..], &base[..], more].concat())
    };
    let read = |file: &Path| {
        let page = fs::read_to_string(file).unwrap_or_default();
        Proposal::read(in_text(&page).unwrap_or_else(|why| panic!("{why}")))
            .unwrap_or_else(|why| panic!("{why}"))
    };
    let one = folder.join("one.html");
    let said = [
        "--name",
        "Three on paper",
        "--name",
        "A pair of canvases",
        "--number",
        "2026-014",
        "--client",
        "The harbour office",
        "--contact",
        "The old pilot house",
        "--mark",
        path(&mark),
        "--date",
        "2026-11-30",
        "--title",
        "For the landing",
        "--largest",
        "600",
        "--with",
        "varnish",
        "--send-prices",
        "needed",
    ];
    let output = sent(&one, &[&first, &second], &said);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let made = read(&one);
    assert_eq!(
        (made.title.as_str(), made.number.as_str(), made.revision),
        ("For the landing", "2026-014", 1)
    );
    assert_eq!(
        made.offers.iter().map(|offer| offer.name.as_str()).collect::<Vec<_>>(),
        ["Three on paper", "A pair of canvases"]
    );
    assert!(made.offers.iter().all(|offer| offer.total.starts_with("USD ") && offer.with == ["varnish"]));
    // Each picture once, no longer than it may be, by another reader.
    let names: Vec<&String> =
        made.offers.iter().flat_map(|offer| &offer.plan.pictures).map(|picture| &picture.name).collect();
    assert!(made.copies.len() <= names.len() && !made.copies.is_empty(), "{names:?}");
    for (title, jpeg) in &made.copies {
        let bytes = STANDARD.decode(jpeg).unwrap_or_else(|why| panic!("{title}: {why}"));
        let (width, height) =
            image::load_from_memory(&bytes).map_or((0, 0), |image| (image.width(), image.height()));
        assert_eq!(width.max(height), 600, "{title}");
    }
    // Only the rows that are needed: no aluminium, and of the extras the one that is asked for.
    let rows = made.book.as_ref().map_or(0, |book| book.rows.len());
    let told = text(&output.stderr);
    assert!(
        (1..31).contains(&rows) && told.contains(&format!("goes along: your prices in {rows} rows")),
        "{told}"
    );
    assert!(told.contains("480 × 600 px"), "{told}");

    assert!(
        made.offers.iter().all(|offer| offer.in_room.is_empty()),
        "the room is shown only when asked for"
    );
    // Each option in a photograph of 1600 by 1200 pixels, and they differ.
    let photo = root().join("tests/rooms/green-sofa/photo.jpg");
    let roomy = folder.join("roomy.html");
    let output = sent(&roomy, &[&first, &second], &["--photo", path(&photo)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(text(&output.stderr).contains("the room as you photographed it, with "));
    let views: Vec<Vec<u8>> = read(&roomy)
        .offers
        .iter()
        .map(|offer| STANDARD.decode(&offer.in_room).unwrap_or_else(|why| panic!("{why}")))
        .collect();
    assert_ne!(views[0], views[1]);
    for view in views {
        let image = image::load_from_memory(&view).unwrap_or_else(|why| panic!("{why}"));
        assert_eq!((image.width(), image.height()), (1600, 1200));
    }
    let output = sent(&folder.join("none.html"), &[&first], &["--marks", path(&photo)]);
    assert_eq!(output.status.code(), Some(2), "marks of no photograph: {}", text(&output.stderr));

    // A line across the pictures changes them.
    let across = folder.join("across.html");
    assert_eq!(
        sent(&across, &[&first, &second], &[&said[..], &["--across", "Tidal flats"]].concat()).status.code(),
        Some(0)
    );
    assert!(
        read(&across)
            .copies
            .iter()
            .zip(&made.copies)
            .all(|(one, other)| one.0 == other.0 && one.1 != other.1)
    );

    // Sent again.
    let two = folder.join("two.html");
    let output = sent(
        &two,
        &[&first, &second],
        &["--name", "Three on paper", "--name", "The pair, larger", "--after", path(&one)],
    );
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let next = read(&two);
    assert_eq!((next.number.as_str(), next.revision), ("2026-014", 2));
    assert_eq!(next.offers[1].news, ["New in this version"]);
    assert!(
        next.offers[0].news.iter().any(|line| line.starts_with("Price: USD ")),
        "without the varnish: {:?}",
        next.offers[0].news
    );

    let output = sent(&one, &[first.as_path(); 7], &[]);
    assert!(text(&output.stderr).contains("the proposal has 7 options; it takes 1 to 6") && !one.exists());
    let output = sent(&one, &[&first], &["--after", path(&page)]);
    assert!(text(&output.stderr).contains("there is no proposal in this file"), "{}", text(&output.stderr));
}
