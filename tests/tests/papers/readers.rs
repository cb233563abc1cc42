//! For whom a paper is: a client's proposal and a maker's, the template of the hooks alone, and headings that stay with what they head.

use super::read::pages;
use super::{demo, is_red, near};
use overmantel::figures::Figures;
use overmantel::findings::{Severity, findings};
use overmantel::papers::sheet::Role;
use overmantel::papers::{Job, Kind, Paper, Reader, pdf};
use overmantel::plan::Plan;
use overmantel::stock::Stock;
use overmantel_tests::given::changed;

const DEMOS: [&str; 4] = ["low-water", "harbour-pair", "evening-by-the-lamp", "three-along-the-stairs"];

/// What a paper says, all of it.
fn said(plan: &Plan, kind: Kind, tell: impl FnOnce(Job<'_>) -> Job<'_>) -> String {
    let (figures, stock) = (Figures::of(plan).expect("figures"), Stock::offered());
    let job = tell(Job::new(plan, &figures, &stock, Paper::Letter));
    let file = pdf::write(&job.document(kind).expect("a document"), &[]);
    let document = lopdf::Document::load_mem(&file).expect("a PDF that lopdf reads");
    pages(&document).iter().map(|page| page.text.clone() + "\n").collect()
}

/// A client reads the pictures, how they are made, where they hang and what is for her safety; what only a maker needs, and what is a matter
/// of the maker's judgement, is left out.
#[test]
fn a_client_reads_less_than_a_maker() {
    let plan = changed(
        demo("low-water"),
        &[("piece.all.glazing", "glass"), ("site.ground", "in an earthquake area"), ("group.gap", "6")],
    );
    let stock = Stock::offered();
    let found = findings(&plan, &Figures::of(&plan).expect("figures"), &stock);
    let of = |severity| found.iter().find(|finding| finding.severity == severity);
    let safety = of(Severity::Safety).expect("glass where it shakes");
    let start = |text: &str| text.split_whitespace().take(5).collect::<Vec<_>>().join(" ");
    let [client, maker] = [Reader::Client, Reader::Maker].map(|reader| {
        said(&plan, Kind::Proposal, |job| Job { reader, ..job })
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    });
    for text in [&client, &maker] {
        assert!(text.contains(&start(&safety.sentence)), "{} in {text}", safety.sentence);
        assert!(text.contains("How each is made") && text.contains("The picture") && text.contains("Care"));
    }
    for words in [
        "behind the picture",
        "310 g/m",
        "covering",
        "order the frame as",
        "The wall is",
        "in from the sides",
        "ppi",
    ] {
        assert!(maker.contains(words), "{words} in {maker}");
        assert!(!client.contains(words), "{words} in {client}");
    }
}

/// Full size, from the figures: the first two hooks of each piece are 20 3/8 in apart, which takes two sheets of 11 in on their sides; a mark
/// is 5 mm across and its lines 0.35 mm. The reference is the hooks' own distance.
#[test]
fn the_hooks_alone_are_at_full_size_on_two_sheets() {
    let plan = demo("low-water");
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let job = Job { hooks_only: true, ..Job::new(&plan, &figures, &stock, Paper::Letter) };
    let file = pdf::write(&job.document(Kind::Template).expect("a template"), &[]);
    let seen = pages(&lopdf::Document::load_mem(&file).expect("a PDF"));
    assert_eq!(seen.len(), 2, "all three pieces are alike");
    let marks: Vec<Vec<f64>> = seen
        .iter()
        .map(|page| {
            assert!(near(page.size[0], 279.4) && near(page.size[1], 215.9), "{:?}", page.size);
            let is_mark = |&&([x1, y1, x2, y2], ink): &&([f64; 4], [f64; 3])| {
                is_red(ink) && near(y1, y2) && near((x2 - x1).abs(), 5.0)
            };
            page.lines.iter().filter(is_mark).map(|([x1, _, x2, _], _)| (x1 + x2) / 2.0).collect()
        })
        .collect();
    let [[left], [right]] = [marks[0].as_slice(), marks[1].as_slice()] else { panic!("{marks:?}") };
    // Windows are 11 in less 1/4 in on both sides, and share 10 mm.
    let apart = right + (279.4 - 12.7 - 10.0) - left;
    let hooks = &figures.hanging[0].hooks;
    assert!(near(apart, (hooks[1].x - hooks[0].x).to_mm()), "{apart}");
    let text: String = seen.iter().map(|page| page.text.clone()).collect();
    for place in ["piece 1, left", "piece 3, right", "from the floor", "before you drill"] {
        assert!(text.contains(place), "{place} in {text}");
    }
    // What hangs otherwise has a template of its own.
    let stairs = demo("three-along-the-stairs");
    let words = said(&stairs, Kind::Template, |job| Job { hooks_only: true, ..job });
    assert!(words.contains("Hooks of piece"), "{words}");
}

/// On no page of any paper is a heading the last of what is said.
#[test]
fn no_heading_stands_alone_at_the_foot() {
    let mut headings = 0;
    for name in DEMOS {
        for fixtures in 0..4 {
            let adds = vec![("fixtures.add", "sofa"); fixtures];
            let plan = changed(demo(name), &adds);
            let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
            for paper in [Paper::A4, Paper::Letter] {
                for reader in [Reader::Client, Reader::Maker] {
                    let job = Job { reader, ..Job::new(&plan, &figures, &stock, paper) };
                    for kind in Kind::ALL.into_iter().filter(|kind| *kind != Kind::Template) {
                        for page in job.document(kind).expect("a document").pages {
                            let mut said = page.blocks.iter().filter(|block| block.role != Role::Furniture);
                            headings += said.clone().filter(|block| block.role == Role::Heading).count();
                            assert!(
                                said.next_back().is_none_or(|block| block.role != Role::Heading),
                                "{name} {kind:?}"
                            );
                        }
                    }
                }
            }
        }
    }
    assert!(headings > 500, "{headings} headings");
}

/// A plan in centimetres has kilograms first, or alone.
#[test]
fn metric_papers_have_kilograms_first() {
    let metric = changed(demo("low-water"), &[("units", "centimetres")]);
    let words = said(&metric, Kind::Hanging, |job| job) + &said(&metric, Kind::Cuts, |job| job);
    let pounds = words.match_indices(" lb").count();
    assert!(words.contains(" kg"), "{words}");
    for (at, _) in words.match_indices(" lb") {
        let line = words[..at].rsplit(['\n', '(']).next().unwrap_or_default();
        let before = words[..at].rfind(" kg").unwrap_or(0);
        assert!(words[..at].len() - before < 60, "{pounds} times lb, here without kg before: {line}");
    }
}
