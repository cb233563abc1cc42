//! Papers, read back by another program and measured against what was stated.

use lopdf::{Document, Object};
use overmantel::figures::Figures;
use overmantel::papers::jpeg::Photo;
use overmantel::papers::{Job, Kind, Paper, Reader, pdf, read_date};
use overmantel::plan::Plan;
use overmantel::stock::Stock;
use overmantel_tests::given::demo;
use read::{Seen, near, pages};

mod code;
mod files;
mod fonts;
mod grouped;
mod photos;
mod read;
mod readers;
mod structure;
mod template;
mod viewers;

const DEMOS: [&str; 4] = ["low-water", "harbour-pair", "three-along-the-stairs", "evening-by-the-lamp"];

/// A paper as bytes.
fn bytes(plan: &Plan, kind: Kind, paper: Paper, photos: &[Option<Photo>]) -> Vec<u8> {
    let (figures, stock) = (Figures::of(plan).expect("figures"), Stock::offered());
    let job = Job {
        author: String::from("Orla Tidewell"),
        date: Some((2026, 11, 26)),
        // All that there is to say.
        reader: Reader::Maker,
        ..Job::new(plan, &figures, &stock, paper)
    };
    pdf::write(&job.document(kind).expect("a document"), photos)
}

fn read_back(plan: &Plan, kind: Kind, paper: Paper) -> (Document, Vec<Seen>) {
    let document = Document::load_mem(&bytes(plan, kind, paper, &[])).expect("a PDF that lopdf reads");
    let seen = pages(&document);
    (document, seen)
}

#[test]
fn every_page_has_its_size_and_both_bars_at_full_length() {
    for name in DEMOS {
        let plan = demo(name);
        // ISO 216; ANSI/ASME Y14.1 A: 8 1/2 × 11 in.
        for (paper, size) in [(Paper::A4, [210.0, 297.0]), (Paper::Letter, [215.9, 279.4])] {
            for kind in Kind::ALL {
                let (_, seen) = read_back(&plan, kind, paper);
                assert!(!seen.is_empty(), "{name} {kind:?} has a page");
                for page in &seen {
                    assert!(near(page.size[0], size[0]) && near(page.size[1], size[1]), "{:?}", page.size);
                    assert_eq!(page.sized(100.0, 1.4).len(), 1, "{name} {kind:?}: a bar of 100 mm");
                    assert_eq!(page.sized(101.6, 1.4).len(), 1, "{name} {kind:?}: a bar of 4 in, 101.6 mm");
                }
            }
        }
    }
}

#[test]
fn nothing_is_drawn_beyond_the_part_of_a_page_that_printers_reach() {
    // About a quarter of an inch stays blank (common practice, no source).
    let reach = 6.0;
    for name in DEMOS {
        let plan = demo(name);
        for (paper, kind) in
            [Paper::A4, Paper::Letter].into_iter().flat_map(|paper| Kind::ALL.map(|kind| (paper, kind)))
        {
            for page in read_back(&plan, kind, paper).1 {
                let [width, height] = page.size;
                let rects = page
                    .rects
                    .iter()
                    .map(|(rect, _)| [rect[0], rect[1], rect[0] + rect[2], rect[1] + rect[3]]);
                for [x, y, right, top] in rects.chain(page.lines.iter().map(|(line, _)| *line)) {
                    let (least_x, most_x) = (x.min(right), x.max(right));
                    let (least_y, most_y) = (y.min(top), y.max(top));
                    assert!(
                        least_x >= reach && most_x <= width - reach,
                        "{name} {kind:?}: {least_x} to {most_x}"
                    );
                    assert!(
                        least_y >= reach && most_y <= height - reach,
                        "{name} {kind:?}: {least_y} to {most_y}"
                    );
                }
            }
        }
    }
}

/// The rectangle of the wall on a page: the largest that is filled.
fn wall_of(page: &Seen) -> [f64; 4] {
    let area = |rect: &[f64; 4]| rect[2] * rect[3];
    let rects = page.rects.iter().filter(|(_, is_filled)| *is_filled).map(|(rect, _)| *rect);
    rects.max_by(|one, other| area(one).total_cmp(&area(other))).expect("a wall")
}

#[test]
fn the_proposal_draws_the_triptych_to_scale() {
    // 12 × 8 ft at 1 in to 2 ft; frames of 16 - 2/8 + 2 × 2 1/8 + 9/8 = 21 1/8 by 25 1/8 in, 3 in apart over a sofa of 34 in with 8 in between.
    let (_, seen) = read_back(&demo("low-water"), Kind::Proposal, Paper::A4);
    let wall = wall_of(&seen[0]);
    assert!(near(wall[2], 152.4) && near(wall[3], 101.6), "6 and 4 in: {wall:?}");
    let inch = 25.4 / 24.0;
    let mut frames = seen[0].sized(21.125 * inch, 25.125 * inch);
    frames.sort_by(|one, other| one[0].total_cmp(&other[0]));
    assert_eq!(frames.len(), 3);
    for (index, frame) in frames.iter().enumerate() {
        // (144 - 3 × 21 1/8 - 2 × 3) / 2 = 37 5/16 from the corner, and 24 1/8 from one to the next.
        let left = 37.3125 + 24.125 * f64::from(u8::try_from(index).expect("three"));
        assert!(near(frame[0] - wall[0], left * inch), "piece {index}: {frame:?}");
        assert!(near(frame[1] - wall[1], 42.0 * inch), "34 + 8 in from the floor: {frame:?}");
    }
}

#[test]
fn every_outside_is_where_the_figures_have_it() {
    for name in DEMOS {
        let plan = demo(name);
        let figures = Figures::of(&plan).expect("figures");
        for kind in [Kind::Proposal, Kind::Hanging] {
            let (_, seen) = read_back(&plan, kind, Paper::A4);
            let wall = wall_of(&seen[0]);
            let scale = plan.wall.size.width.to_mm() / wall[2];
            assert!((scale - scale.round()).abs() < 1e-3, "{name}: a whole scale, 1:{scale}");
            assert!(near(wall[3] * scale, plan.wall.size.height.to_mm()), "{name}: high as it is wide");
            for outside in &figures.arranged.outsides {
                let found =
                    seen[0].sized(outside.size.width.to_mm() / scale, outside.size.height.to_mm() / scale);
                let is_there = found.iter().any(|rect| {
                    near(rect[0] - wall[0], outside.x.to_mm() / scale)
                        && near(rect[1] - wall[1], outside.y.to_mm() / scale)
                });
                assert!(is_there, "{name} {kind:?}: {outside:?} in {found:?}");
            }
        }
    }
}

/// The red of what must not be missed, as it stands in a stream.
fn is_red(ink: [f64; 3]) -> bool {
    [0xb8, 0x40, 0x2a].iter().zip(ink).all(|(code, share)| (f64::from(*code) / 255.0 - share).abs() < 1e-3)
}

#[test]
fn every_hook_is_marked_where_the_figures_have_it() {
    for name in DEMOS {
        let plan = demo(name);
        let figures = Figures::of(&plan).expect("figures");
        let (_, seen) = read_back(&plan, Kind::Hanging, Paper::Letter);
        let page = &seen[0];
        let wall = wall_of(page);
        let scale = plan.wall.size.width.to_mm() / wall[2];
        // The level stroke of each cross is 2.6 mm long.
        let crosses: Vec<[f64; 2]> = page
            .lines
            .iter()
            .filter(|([x, y, right, top], ink)| {
                is_red(*ink) && near(right - x, 2.6) && (top - y).abs() < 0.01
            })
            .map(|([x, y, right, _], _)| [f64::midpoint(*x, *right) - wall[0], y - wall[1]])
            .collect();
        let hooks: Vec<_> = figures.hanging.iter().flat_map(|hanging| &hanging.hooks).collect();
        assert_eq!(crosses.len(), hooks.len(), "{name}");
        for hook in hooks {
            let is_marked = crosses
                .iter()
                .any(|[x, y]| near(*x, hook.x.to_mm() / scale) && near(*y, hook.y.to_mm() / scale));
            assert!(is_marked, "{name}: {hook:?}");
        }
        assert!(page.text.contains("Before you drill"), "{name}: in plain sight");
    }
}

#[test]
fn hooks_are_told_from_one_corner_and_never_from_each_other() {
    // Rings 3/8 in from the sides of frames 21 1/8 in wide, the first 37 5/16 in from the corner; 5 in below an upper edge at 67 1/8.
    let (_, seen) = read_back(&demo("low-water"), Kind::Hanging, Paper::A4);
    let text = &seen[0].text;
    // 37 11/16 in = 957.26, 58 1/16 = 1474.8, 61 13/16 = 1570.0, 106 5/16 = 2700.3, 62 1/8 = 1577.98 mm.
    for told in [
        "37¹¹⁄₁₆″",
        "957 mm",
        "58¹⁄₁₆″",
        "1475 mm",
        "61¹³⁄₁₆″",
        "1570 mm",
        "106⁵⁄₁₆″",
        "2700 mm",
        "62¹⁄₈″",
        "1578 mm",
    ] {
        assert!(text.contains(told), "{told} in {text}");
    }
    // From one hook to the next it would be 20 3/8 in, 517.5 mm.
    assert!(!text.contains("20³⁄₈″") && !text.contains("518 mm"), "{text}");
}

/// The demo over the sofa: mats that cover 1/8 in, cut to 1/32; a ceiling at 96 in and centres at 54 9/16: tan 30° × 41 7/16 = 23.924 in.
#[test]
fn what_comes_back_is_measured_and_what_hangs_is_lit_and_recorded() {
    let told = |name: &str, kind, words: &[&str]| {
        let (_, seen) = read_back(&demo(name), kind, Paper::A4);
        let text = seen.iter().map(|page| page.text.replace('\n', " ")).collect::<Vec<_>>().join(" ");
        for words in words {
            assert!(text.contains(words), "{kind:?}: {words} in {text}");
        }
    };
    // 2 × (1/8 - 1/32) = 3/16 in = 4.8 mm.
    told(
        "low-water",
        Kind::Assembly,
        &["Sheet", "4.8 mm", "the mat covers its edges", "top edge only", "Weigh it"],
    );
    told("three-along-the-stairs", Kind::Assembly, &["Nothing covers its edges"]);
    told(
        "low-water",
        Kind::Hanging,
        &["Ways to hang it", "two keyhole plates", "recommended", "Lighting", "608 mm"],
    );
    told("low-water", Kind::Cuts, &["Hardware", "D-ring on one screw", "dust cover", "V-nail"]);
    told("low-water", Kind::Record, &["Piece 3", "Number, size of edition", "Where it hangs", "1578 mm"]);
}

#[test]
fn letters_survive() {
    let mut plan = demo("low-water");
    plan.title = String::from("Zoë’s café: “ebb” × ½ of Ærø – Señor Müller’s 3 µm");
    plan.pictures[0].name = String::from("Ségou, à l’œuvre");
    for (kind, words) in
        [(Kind::Proposal, "Ségou, à l’œuvre"), (Kind::Order, "Ségou, à l’œuvre"), (Kind::Cuts, "×")]
    {
        let (_, seen) = read_back(&plan, kind, Paper::A4);
        let text = seen[0].text.replace('\n', " ");
        assert!(text.contains(&plan.title), "{kind:?}: {text}");
        assert!(text.contains(words), "{kind:?}: {text}");
    }
    let (document, _) = read_back(&plan, Kind::Order, Paper::A4);
    let info = document.trailer.get(b"Info").and_then(Object::as_reference).expect("about the file");
    let title = document.get_dictionary(info).and_then(|info| info.get(b"Title")).expect("a title");
    assert_eq!(
        lopdf::decode_text_string(title).expect("text"),
        plan.title.clone() + ": Order for the print shop"
    );
}

#[test]
fn letters_of_every_european_tongue_in_latin_are_in_every_face() {
    use overmantel::text::{Face, glyph_number};
    // The Unicode Standard, block Latin Extended-A, but for the deprecated ŉ and the long ſ; Ș and Ț of Romanian.
    let extended = (0x100..=0x17f).filter_map(char::from_u32).filter(|letter| !"ŉſ".contains(*letter));
    for letter in extended.chain("ȘșȚțẀẁẂẃẄẅỲỳẞ–—‘’‚“”„†•…′″‹›«»€™".chars())
    {
        for face in Face::ALL {
            let there = glyph_number(face, letter);
            assert!(there.is_some_and(|glyph| glyph > 0), "{face:?} has {letter}");
            let size = |letter: char| {
                let outline = overmantel::text::outline(face, &letter.to_string(), 1000.0);
                outline.control_box().size()
            };
            assert!(size(letter).width > 0.0 && size(letter) != size('\u{fffd}'), "{face:?} draws {letter}");
        }
    }
    // A mark makes a letter higher.
    let top = |letter: &str| -overmantel::text::outline(Face::Sans, letter, 1.0).control_box().y0;
    for (marked, plain) in [("š", "s"), ("ő", "o"), ("Ž", "Z"), ("ğ", "g"), ("ă", "a"), ("ł", "ı")] {
        assert!(top(marked) > top(plain) + 0.1, "{marked} above {plain}");
    }
    let mut plan = demo("low-water");
    plan.title = String::from("Łódź, Győr, Šibenik, Žilina, Muğla, Țigănești, Gżira, Þingvellir");
    for kind in Kind::ALL {
        let (_, seen) = read_back(&plan, kind, Paper::A4);
        let text = seen[0].text.replace('\n', " ");
        assert!(text.contains(&plan.title), "{kind:?}: {text}");
        assert!(!text.contains("this typeface does not have"), "{kind:?}: {text}");
    }
}

#[test]
fn a_letter_that_the_face_lacks_is_still_read() {
    let mut plan = demo("low-water");
    plan.title = String::from("渚 with a shore");
    let (_, seen) = read_back(&plan, Kind::Proposal, Paper::A4);
    let told = "A box stands for a letter that this typeface does not have (U+6E1A); copied text still has the right letters.";
    assert!(seen[0].text.contains(told), "{}", seen[0].text);
    assert!(seen[0].meant.contains(&plan.title), "{:?}", seen[0].meant);
    // A fraction is meant as it is typed.
    assert!(seen[0].meant.iter().any(|meant| meant.contains("21 1/8″")), "{:?}", seen[0].meant);
}

#[test]
fn the_file_says_what_it_is_and_is_not_scaled() {
    let (document, _) = read_back(&demo("harbour-pair"), Kind::Template, Paper::A4);
    let catalog = document.catalog().expect("a catalog");
    let text = |key: &[u8]| catalog.get(key).expect("an entry").clone();
    assert_eq!(text(b"Lang").as_str().expect("a language"), b"en");
    let of = |key: &[u8], inner: &[u8]| {
        document
            .dereference(&text(key))
            .expect("an object")
            .1
            .as_dict()
            .and_then(|dict| dict.get(inner).cloned())
    };
    assert_eq!(of(b"ViewerPreferences", b"PrintScaling").expect("stated"), Object::Name(b"None".to_vec()));
    assert_eq!(of(b"MarkInfo", b"Marked").expect("stated"), Object::Boolean(true));
    assert_eq!(of(b"StructTreeRoot", b"Type").expect("stated"), Object::Name(b"StructTreeRoot".to_vec()));
    let info = document.trailer.get(b"Info").and_then(Object::as_reference).expect("about the file");
    let info = document.get_dictionary(info).expect("about the file");
    let text = |key: &[u8]| lopdf::decode_text_string(info.get(key).expect("told")).expect("text");
    assert_eq!(text(b"Author"), "Orla Tidewell");
    assert_eq!(text(b"Title"), "Two harbours beside the window: Template at full size");
    assert_eq!(info.get(b"CreationDate").and_then(Object::as_str).expect("a date"), b"D:20261126");
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    for kind in Kind::ALL {
        let plan = demo("evening-by-the-lamp");
        assert_eq!(bytes(&plan, kind, Paper::A4, &[]), bytes(&plan, kind, Paper::A4, &[]), "{kind:?}");
    }
}

#[test]
fn dates_are_days_of_the_calendar() {
    assert_eq!(read_date("2028-02-29"), Ok((2028, 2, 29)));
    for text in
        ["2026-02-29", "2026-13-01", "26 November", "2026-11-31", "", "2026-11", "2026-+1-01", "1900-02-29"]
    {
        let why = read_date(text).expect_err(text).to_string();
        assert_eq!(why, format!("\"{text}\" is not a date; write year, month and day, such as 2026-11-26"));
    }
}

#[test]
fn a_proposal_speaks_of_what_there_is_and_not_of_what_there_is_not() {
    for (name, told) in [
        (
            "low-water",
            "Printed 16 × 20″ on paper of 310 g/m². It comes with a single mat, warm white, with a border of 2¹⁄₈″ (1¹⁵⁄₁₆″ visible), covering",
        ),
        (
            "harbour-pair",
            "on bars 3.8 cm deep, with a mirrored wrap; in a floater frame of oak, unstained, 1 cm wide and 5 cm deep, with a gap of 0.6 cm round it",
        ),
        (
            "three-along-the-stairs",
            "Piece 2: Printed 24 × 16″ on aluminium, a sheet ³⁄₆₄″ thick with square corners, floating ³⁄₄″ off the wall",
        ),
        (
            "evening-by-the-lamp",
            "plastered by hand, painted in a custom colour, over a floor in a custom colour with a skirting of 10 cm.",
        ),
    ] {
        let (_, seen) = read_back(&demo(name), Kind::Proposal, Paper::A4);
        let text = seen.iter().map(|page| page.text.replace('\n', " ")).collect::<String>();
        assert!(text.contains(told), "{name}: {text}");
        for odd in [
            "of 0 ",
            "by 0",
            " 0 cm",
            "no figure",
            "no reflection",
            "kept out of the crop",
            "another moulding",
            "#3f",
            "no source",
            "0.19",
        ] {
            assert!(!text.contains(odd), "{name} says {odd}: {text}");
        }
    }
}

#[test]
fn long_names_stay_on_the_page() {
    use overmantel::papers::sheet::Item;
    let mut plan = demo("harbour-pair");
    // As long as a name may be, with and without a place to part it.
    let long = |letter: &str| [letter; 40].join(" ") + &"m".repeat(41);
    plan.title = long("W");
    for (picture, letter) in plan.pictures.iter_mut().zip(["M", "Q"]) {
        picture.name = long(letter);
    }
    plan.fixtures[0].name = "W".repeat(120);
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let job = Job {
        author: "W".repeat(120),
        note: "W".repeat(400),
        ..Job::new(&plan, &figures, &stock, Paper::A4)
    };
    for kind in Kind::ALL {
        for page in job.document(kind).expect("a document").pages {
            for item in page.blocks.iter().flat_map(|block| &block.items) {
                if let Item::Text(text) = item
                    && !text.is_upright
                {
                    let end = text.at.x + overmantel::text::length(text.face, &text.text, text.em);
                    let right = page.size.width - overmantel::length::Length::mm(6);
                    assert!(
                        text.at.x > overmantel::length::Length::mm(6) && end < right,
                        "{kind:?}: {}",
                        text.text
                    );
                }
            }
        }
    }
}

/// A total stands in a proposal only where everything has a price; otherwise what is missing does.
#[test]
fn a_proposal_has_a_total_only_where_everything_has_a_price() {
    let plan = demo("low-water");
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let text = |rows: &str| {
        let book = format!(
            r#"{{ "overmantel_prices": 1, "name": "of this test", "currency": "EUR", "rows": [{rows}] }}"#
        );
        let book = overmantel::prices::Book::read(&book).expect("a book");
        let job = Job { book: Some(&book), ..Job::new(&plan, &figures, &stock, Paper::A4) };
        let pages = job.document(Kind::Proposal).expect("a document").pages;
        let items = pages.into_iter().flat_map(|page| page.blocks).flat_map(|block| block.items);
        let texts = items.filter_map(|item| match item {
            overmantel::papers::sheet::Item::Text(text) if !text.text.is_empty() => Some(text.text),
            _ => None,
        });
        texts.collect::<Vec<_>>().join(" ")
    };
    let row = |part: &str| format!(r#"{{ "for": "{part}", "by": {{ "each": "5" }} }}"#);
    let all = ["paper", "mat", "frame", "glass", "mount", "backing"].map(row);
    let whole = text(&all.join(", "));
    assert!(whole.contains("Total EUR 90.00") && !whole.contains("There is no total"), "{whole}");
    let part = text(&all[..4].join(", "));
    assert!(
        part.contains("There is no total: the price book has no price for mount board, backing."),
        "{part}"
    );
    assert!(!part.contains("Total EUR") && !part.contains("EUR 60.00"), "{part}");
}
