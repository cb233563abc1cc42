//! Links: how long they are, what older and newer pages make of each other's, and that every link ever issued stays readable.
//!
//! `tests/links/<version>/` has a link a file, with the plan that it stood for beside it. Files are added there, never changed.

use overmantel::link::{self, Answer, Decided, Detail, Link, Sketch};
use overmantel::plan::{FixtureKind, Plan, System, file};
use overmantel::resample::Raster;
use overmantel_tests::{link_of_deflated, link_round};
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests/ is in the repository").to_path_buf()
}

fn demo(name: &str) -> Plan {
    let path = root().join("demo-data/plans").join(name);
    file::read(&fs::read_to_string(path).expect("a plan of the demo")).expect("a plan")
}

/// A picture of the demo, as a page would have it.
fn picture(name: &str) -> Raster {
    let image =
        image::open(root().join("demo-data/pictures").join(name)).expect("a picture of the demo").to_rgba8();
    Raster::new(image.width(), image.height(), image.into_raw()).expect("it has pixels")
}

/// Every link that is kept, with its name and the plan beside it.
fn issued() -> Vec<(String, String, String)> {
    let mut found = Vec::new();
    for version in fs::read_dir(root().join("tests/links")).expect("links").flatten() {
        for entry in fs::read_dir(version.path()).expect("a version").flatten() {
            let path = entry.path();
            if path.extension().is_some_and(|ending| ending == "link") {
                let read = |path: &Path| fs::read_to_string(path).expect("a text");
                found.push((path.display().to_string(), read(&path), read(&path.with_extension("json"))));
            }
        }
    }
    assert!(found.len() >= 16, "{} links are kept", found.len());
    found
}

#[test]
fn every_link_ever_issued_is_read_as_the_plan_that_it_was() {
    for (name, link, plan) in issued() {
        let (read, unread) = link::read(&link).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert_eq!(unread, 0, "{name}");
        assert_eq!(Ok(&read.plan), file::read(&plan).as_ref(), "{name}");
        // Files of plans in centimetres used to say of zero that it was in inches.
        let is_metric = read.plan.units.first == System::Centimetres;
        let written = if is_metric { plan.replace("\"0 in\"", "\"0 mm\"") } else { plan };
        assert_eq!(file::write(&read.plan), written.trim_end(), "{name}");
    }
}

#[test]
fn a_link_cut_short_or_with_a_bit_flipped_is_refused_in_a_sentence() {
    use base64::Engine as _;
    let base64 = base64::engine::general_purpose::URL_SAFE_NO_PAD;
    let refused = |text: &str, name: &str| {
        let why = link::read(text).expect_err(name);
        let is_told = ["incomplete", "has version", "no link in this"]
            .iter()
            .any(|words| why.to_string().contains(words));
        assert!(is_told, "{name}: {why}");
    };
    for (name, link, _) in issued() {
        let link = link.trim().rsplit('#').next().expect("a last part");
        for end in 0..link.len() {
            refused(&link[..end], &name);
        }
        let bytes = base64.decode(link).expect("base64");
        for bit in 0..bytes.len() * 8 {
            let mut flipped = bytes.clone();
            flipped[bit / 8] ^= 1 << (bit % 8);
            refused(&base64.encode(flipped), &name);
        }
        refused(&format!("{link}A"), &name);
        refused(&format!("{link}AAAA"), &name);
    }
}

/// A link with three pictures, in so much detail.
fn of_three(plan: &Plan, detail: Detail, around: usize) -> String {
    let names = ["low-water-evening.jpg", "harbour-morning.jpg", "three-boats.jpg"];
    let mut link = Link::of(plan.clone());
    let room = link::room(&link, detail, names.len(), around);
    link.sketches = names.iter().map(|name| Some(Sketch::of(&picture(name), detail, room))).collect();
    link::write(&link)
}

/// Three framed pieces over a sofa: with the colours of their pictures in under 400 characters, with a hint of each in a QR code
/// (929 bytes at most), with a likeness of each in the 2,000 characters that chats carry; the address included.
#[test]
fn links_are_short() {
    let mut plan = demo("three-along-the-stairs.json");
    plan.fixtures = demo("low-water.json").fixtures;
    let bare = link::write(&Link::of(plan.clone())).len();
    for page in ["https://example.org/", "https://example.org/a/folder/with/a/long/name/overmantel.html"] {
        let lengths = Detail::ALL.map(|detail| {
            link::address(page, &of_three(&plan, detail, page.len() + 1)).expect("an address").len()
        });
        assert!(bare < lengths[0] && lengths[0] - page.len() < 400, "{bare}, {lengths:?}");
        assert!(lengths[0] < lengths[1] && lengths[1] < 930, "{lengths:?}");
        assert!((1_900..=2_000).contains(&lengths[2]), "{lengths:?}");
    }
}

/// By hand from RFC 8949: a map of two (a2), 1 to the text "A" (01 61 41), 7 to an array of one empty map (07 81 a0).
const LEAST: [u8; 7] = [0xa2, 0x01, 0x61, 0x41, 0x07, 0x81, 0xa0];

#[test]
fn a_link_is_what_the_standards_say() {
    let (read, unread) = link::read(&link_round(1, &LEAST)).expect("a link");
    assert_eq!((read.plan.title.as_str(), read.plan.pieces.len(), unread), ("A", 1, 0));
    // 3 to { 1 to 12096 = 151 1/5 in sixteenths times five }: a wall of 151 3/16 in is 2419 sixteenths, 12095 = 0x2f3f.
    let wider = [&[0xa3], &LEAST[1..4], &[0x03, 0xa1, 0x01, 0x19, 0x2f, 0x3f], &LEAST[4..]].concat();
    let (read, _) = link::read(&link_round(1, &wider)).expect("a link");
    assert_eq!(overmantel::length::print::exact(read.plan.wall.size.width), "151 3/16 in");
}

#[test]
fn what_a_newer_page_states_is_skipped_and_counted() {
    // A field 31 with a map in it, and a field 3 of the wall with one that is not known: 2 to 9.
    let newer = [
        &[0xa4],
        &LEAST[1..4],
        &[0x05, 0x81, 0xa2, 0x01, 0x18, 0x63, 0x18, 0x28, 0x01],
        &LEAST[4..],
        &[0x18, 0x1f, 0xa1, 0x01, 0x02],
    ]
    .concat();
    let (read, unread) = link::read(&link_round(1, &newer)).expect("a link of a newer page");
    // The kind 99 of a fixture, its field 40, and the field 31 of the plan.
    assert_eq!(unread, 3);
    assert_eq!(read.plan.fixtures[0].kind, FixtureKind::Sofa);
    let why = link::read(&link_round(2, &LEAST)).expect_err("of a later version").to_string();
    assert!(why.contains("has version 2") && why.contains("a newer page"), "{why}");
}

#[test]
fn what_is_hostile_is_refused_in_a_sentence() {
    let check = |text: String, words: &str| {
        let why = link::read(&text).expect_err(words).to_string();
        assert!(why.contains(words) && !why.ends_with('.'), "{why}");
    };
    check("A".repeat(link::MOST_CHARACTERS + 1), "at most 65536 are allowed");
    check("  \n".to_owned(), "no link in this");
    check("AQ%20A".to_owned(), "letters, digits, - and _ only");
    // Fifty million zeros, deflated by another library.
    check(link_of_deflated(1, &bomb()), "more than 98304 bytes");
    // Bytes behind the end of what is deflated, and of the map.
    let one = [&[1, 7, 0, 0xf8, 0xff], &LEAST[..], &[0]].concat();
    check(link_of_deflated(1, &one), "not a complete link");
    check(link_round(1, &[&LEAST[..], &[0]].concat()), "not a complete link");
    // A field twice; an array that says it has four thousand million; a map without an end; 40,000 arrays within each other.
    check(link_round(1, &[0xa2, 1, 0x61, 0x41, 1, 0x61, 0x41]), "not a complete link");
    check(link_round(1, &[0xa1, 7, 0x9a, 0xff, 0xff, 0xff, 0xff]), "not a complete link");
    check(link_round(1, &[0xa1, 7, 0x84, 0xa0, 0xa0, 0xa0, 0xa0]), "at most 3");
    check(link_round(1, &[0xbf, 1, 0x61, 0x41, 0xff]), "not a complete link");
    check(link_round(1, &[&[0xa1, 7], &[0x81; 40_000][..]].concat()), "not a complete link");
    // No pieces; a wall of nothing; a wall of 2^62; a reference to a picture that is not there.
    check(link_round(1, &[0xa1, 1, 0x61, 0x41]), "a plan takes 1 to 3");
    check(link_round(1, &[&[0xa3], &LEAST[1..4], &[3, 0xa1, 1, 0], &LEAST[4..]].concat()), "more than zero");
    let far = [3, 0xa1, 1, 0x1b, 0x40, 0, 0, 0, 0, 0, 0, 0];
    check(link_round(1, &[&[0xa3], &LEAST[1..4], &far, &LEAST[4..]].concat()), "allowed: 0 in to 100 m");
    check(link_round(1, &[&LEAST[..6], &[0xa1, 1, 0xa1, 1, 5]].concat()), "is not in the plan");
    // A control character in the title.
    check(link_round(1, &[&[0xa2, 1, 0x61, 7], &LEAST[4..]].concat()), "control character");
}

fn bomb() -> Vec<u8> {
    use std::io::Write as _;
    let mut encoder = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::best());
    encoder.write_all(&vec![0; 50_000_000]).expect("memory");
    encoder.finish().expect("memory")
}

#[test]
fn a_link_is_found_in_what_mails_make_of_it() {
    let sent = Link::of(demo("low-water.json"));
    let text = link::write(&sent);
    let (head, tail) = text.split_at(60);
    for mail in [
        format!("Look: https://example.org/wall.html#{text}"),
        format!("  {head}\r\n{tail}\n"),
        format!("Her answer: #1 on the list\n#{head}\n  {tail}"),
    ] {
        assert_eq!(link::read(&mail), Ok((sent.clone(), 0)), "{mail}");
    }
}

/// Mean distance of two pictures of one size, in codes of a channel.
fn apart(one: &Raster, other: &Raster) -> f64 {
    let sum: u64 = one.pixels().iter().zip(other.pixels()).map(|(a, b)| u64::from(a.abs_diff(*b))).sum();
    #[expect(clippy::cast_precision_loss, reason = "a test's measure")]
    let mean = sum as f64 / (one.pixels().len() / 4 * 3) as f64;
    mean
}

#[test]
fn a_sketch_is_like_its_picture_and_more_so_in_more_detail() {
    let picture = picture("harbour-morning.jpg");
    let distances = Detail::ALL.map(|detail| {
        let sketch = Sketch::of(&picture, detail, 400).raster().expect("pixels");
        // The picture at the same size, by another library's filter.
        let image =
            image::RgbaImage::from_raw(picture.width_px(), picture.height_px(), picture.pixels().to_vec())
                .expect("pixels");
        let small = image::imageops::resize(
            &image,
            sketch.width_px(),
            sketch.height_px(),
            image::imageops::FilterType::Triangle,
        );
        apart(&sketch, &Raster::new(sketch.width_px(), sketch.height_px(), small.into_raw()).expect("pixels"))
    });
    assert!(distances[0] < 30.0 && distances[1] < 20.0 && distances[2] < 12.0, "{distances:?}");
    let grey = Raster::new(40, 30, [90, 120, 150, 255].repeat(1200)).expect("pixels");
    for detail in Detail::ALL {
        let sketch = Sketch::of(&grey, detail, 400).raster().expect("pixels");
        for (code, wanted) in sketch.pixels()[..3].iter().zip([90_u8, 120, 150]) {
            assert!(code.abs_diff(wanted) <= 3, "{:?}", &sketch.pixels()[..3]);
        }
    }
}

#[test]
fn an_answer_says_what_it_answers() {
    let plan = demo("low-water.json");
    let decided = Decided { size: true, ..Decided::default() };
    let answer = Answer {
        to: link::mark(&plan),
        decided,
        from: "A buyer".to_owned(),
        note: "The middle one\nlower, please.".to_owned(),
        ..Answer::default()
    };
    let sent = Link { answer: Some(answer), ..Link::of(plan) };
    assert_eq!(link::read(&link::write(&sent)), Ok((sent, 0)));
}

/// What another library reads off a QR code that is drawn at two pixels a module.
fn read_off(text: &str) -> Option<String> {
    let square = link::CodeSquare::of(text)?;
    let (side, pixels) = (square.side() as usize * 2, square.pixels(2));
    let mut sheet =
        rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| pixels[(y * side + x) * 4]);
    Some(sheet.detect_grids().first()?.decode().ok()?.1)
}

#[test]
fn a_qr_code_is_read_by_another_library_and_what_is_too_long_has_none() {
    for length in [1, 100, 400, 900] {
        let text = format!("https://example.org/#{}", "aB3-_".repeat(length / 5 + 1));
        assert_eq!(read_off(&text).as_deref(), Some(text.as_str()), "{length}");
    }
    // ISO/IEC 18004, table 7: version 21 holds 929 bytes at level L (from memory), and no version that is drawn holds more.
    assert!(
        link::CodeSquare::of(&"a".repeat(929)).is_some() && link::CodeSquare::of(&"a".repeat(930)).is_none()
    );
}
