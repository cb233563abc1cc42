//! What a person reads says things in today's words and the trade's own: a table of old words, each with what to write instead.
//!
//! Read are the sentences in the source of the core and the command line, its help, the schemas, the documents, what is said of
//! the demo's plans and of any plan in both systems of units, and the page.

use overmantel::described::rows;
use overmantel::field::Field;
use overmantel::fields;
use overmantel::figures::Figures;
use overmantel::findings::findings;
use overmantel::mend;
use overmantel::papers::sheet::{Document, Item, Role};
use overmantel::papers::{Job, Kind, Paper, Reader};
use overmantel::plan::{Fixture, FixtureKind, Picture, Piece, Plan, System};
use overmantel::spec;
use overmantel::stock::Stock;
use overmantel::words::in_units;
use overmantel_tests::given::demo;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use regex::Regex;
use source::{Read, comments, described, files, lines, literals};
use std::sync::LazyLock;

#[path = "properties/any_plan.rs"]
mod any_plan;
#[path = "words/source.rs"]
mod source;
#[path = "words/table.rs"]
mod table;

const DEMOS: [&str; 4] = ["low-water", "harbour-pair", "three-along-the-stairs", "evening-by-the-lamp"];

/// An old word as it is looked for.
struct Old {
    pattern: Regex,
    instead: &'static str,
    innocent: &'static [&'static str],
}

static TABLE: LazyLock<Vec<Old>> = LazyLock::new(|| {
    let entries = table::OLD.iter().map(|&(pattern, instead, innocent)| {
        let pattern = Regex::new(&["(?i)", pattern].concat()).expect("a pattern");
        Old { pattern, instead, innocent }
    });
    entries.collect()
});

/// Every old word in what is read, with its place, its sentence and what to write instead.
fn complaints<'a>(read: impl IntoIterator<Item = &'a Read>) -> Vec<String> {
    let mut found = Vec::new();
    for Read { place, text } in read {
        for old in &*TABLE {
            let mut left = text.clone();
            for innocent in old.innocent {
                left = left.replace(innocent, "");
            }
            if let Some(word) = old.pattern.find(&left) {
                found.push(format!(
                    "{place}: “{}” in “{}”; write {}",
                    word.as_str(),
                    text.trim(),
                    old.instead
                ));
            }
        }
    }
    found
}

fn hold<'a>(read: impl IntoIterator<Item = &'a Read>) {
    let found = complaints(read);
    assert!(found.is_empty(), "{} old words:\n{}", found.len(), found.join("\n"));
}

/// The words that a plan in this system may not have.
fn of_the_other_system(system: System, place: &str, text: &str) -> Option<String> {
    let own = in_units(text, system);
    let said = match system {
        System::Inches => ["rebate", "skirting"],
        System::Centimetres => ["rabbet", "baseboard"],
    };
    let is_other = said.iter().any(|word| text.to_lowercase().contains(word)) || own != text;
    is_other.then(|| format!("{place}: a word of the other system of units in “{text}”"))
}

/// All that is said of a plan: the specification, long and short, findings with their remedies, fields with their options.
fn said_of(plan: &Plan, name: &str) -> Vec<Read> {
    let stock = Stock::offered();
    let Ok(figures) = Figures::of(plan) else { return Vec::new() };
    let mut read = Vec::new();
    let mut add = |what: &str, text: String| read.push(Read { place: format!("{name}, {what}"), text });
    for line in spec::order_text(plan, &figures, &stock).lines() {
        add("order text", line.to_owned());
    }
    let texts = [spec::text(plan, &figures, &stock), spec::short_text(plan, &figures, &stock)];
    for (heading, paragraphs) in texts.into_iter().flatten() {
        add("heading", heading.to_owned());
        paragraphs.into_iter().for_each(|text| add("text", text));
    }
    for finding in mend::findings(plan, &figures, &stock) {
        add(finding.code, finding.sentence);
        finding.remedies.into_iter().for_each(|remedy| add(finding.code, remedy.words));
    }
    for finding in findings(plan, &figures, &stock) {
        finding.remedies.into_iter().for_each(|remedy| add(finding.code, remedy.words));
    }
    for field in Field::all() {
        let Some(value) = fields::read(plan, &stock, field) else { continue };
        add("label", value.label);
        value.options.into_iter().for_each(|option| add("option", option.words));
    }
    read
}

/// What stands on a paper: cells and headings as they are, lines of text joined to paragraphs.
fn on_paper(document: &Document, place: &str) -> Vec<Read> {
    let text = |item: &Item| match item {
        Item::Text(lettering) => Some(lettering.text.clone()),
        _ => None,
    };
    let blocks = document.pages.iter().flat_map(|page| &page.blocks).map(|block| {
        let mut text = block.items.iter().filter_map(text).collect::<Vec<_>>().join(" ");
        if let Role::Drawing(words) = &block.role {
            text = [&text, " ", words].concat();
        }
        Read { place: place.to_owned(), text }
    });
    blocks.collect()
}

fn papers_of(plan: &Plan, name: &str) -> Vec<Read> {
    let (figures, stock) = (Figures::of(plan).expect("figures"), Stock::offered());
    let mut read = Vec::new();
    for reader in [Reader::Client, Reader::Maker] {
        let job = Job { reader, ..Job::new(plan, &figures, &stock, Paper::A4) };
        for kind in Kind::ALL {
            let document = job.document(kind).expect("a document");
            read.extend(on_paper(&document, &format!("{name}, {kind:?} of paper")));
        }
    }
    read
}

/// The demo's plans in both systems, without the names that a person gave.
fn plans() -> Vec<(String, Plan)> {
    let mut plans = Vec::new();
    for name in DEMOS {
        for system in [System::Inches, System::Centimetres] {
            let mut plan = demo(name);
            plan.units.first = system;
            plans.push((format!("{name} in {system:?}"), plan));
        }
    }
    plans
}

/// Cautions that name both for whoever reads them.
fn is_for_both(text: &str) -> bool {
    text.contains("(rebate)") || text.contains("(skirting)")
}

#[test]
fn a_check_that_reads_an_old_sentence_complains() {
    let read = |text: &str| Read { place: String::from("here"), text: text.to_owned() };
    let old = [
        read("The mat is 2\" wide at the head and 3\" at the foot."),
        read("The upper mat is white."),
        read("Take it away."),
        read("1/8 in of play in the rabbet"),
        read("the density of the file"),
        read("This is the plan of the link."),
    ];
    for one in &old {
        assert!(!complaints([one]).is_empty(), "nothing against {:?}", one.text);
    }
    assert_eq!(
        complaints([&read("in earthquake country")]),
        ["here: “earthquake country” in “in earthquake country”; write in an earthquake area"]
    );
    // Words that only look like old ones.
    let innocent = [
        "heads and cushions touch it, and so does the headboard",
        "priced by the foot or the square foot",
        "a picture rail",
        "a mount board",
        "a dry cloth",
        "warm air",
        "outside length (long points)",
        "the density of oak",
    ];
    for text in innocent {
        assert_eq!(complaints([&read(text)]), [""; 0], "{text}");
    }
    assert!(of_the_other_system(System::Centimetres, "here", "The rabbet is deep.").is_some());
    assert!(of_the_other_system(System::Inches, "here", "a skirting of 4 in").is_some());
    assert!(of_the_other_system(System::Inches, "here", "a baseboard of 4 in").is_none());
}

#[test]
fn sentences_in_the_source_have_no_old_words() {
    let read: Vec<Read> = files("crate/src", &["rs"]).iter().flat_map(|file| literals(file)).collect();
    assert!(read.len() > 2_000, "{} sentences were found", read.len());
    hold(&read);
}

/// What is written for people, beside the code.
const DOCUMENTS: [&str; 6] = [
    "README.md",
    "DEVELOPERS.md",
    "demo-data/README.md",
    "crate/README.md",
    "crate/CHANGELOG.md",
    "www/builder/library/README.md",
];

#[test]
fn help_and_what_is_documented_has_no_old_words() {
    let mut read: Vec<Read> = files("crate/src", &["rs"]).iter().flat_map(|file| comments(file)).collect();
    assert!(read.len() > 5_000, "{} comments were found", read.len());
    for document in DOCUMENTS {
        read.extend(lines(document));
    }
    for folder in ["crate/schema", "demo-data/plans", "demo-data/prices"] {
        read.extend(files(folder, &["json"]).iter().flat_map(|file| described(file)));
    }
    hold(&read);
}

#[test]
fn rows_and_choices_have_no_old_words() {
    let mut read = Vec::new();
    let mut add = |row: &'static overmantel::described::Row| {
        for text in [row.label, row.about] {
            read.push(Read { place: format!("row {}", row.name), text: text.to_owned() });
        }
    };
    rows(&mut Plan::starting(), &mut add);
    rows(&mut Piece::starting(), &mut add);
    rows(&mut Fixture::starting(FixtureKind::Door), &mut add);
    rows(&mut Picture::default(), &mut add);
    assert!(read.len() > 150, "{} texts of rows were found", read.len());
    hold(&read);
}

#[test]
fn what_is_said_of_the_demos_plans_has_no_old_words() {
    for (name, plan) in plans() {
        let read = [said_of(&plan, &name), papers_of(&plan, &name)].concat();
        assert!(read.len() > 300, "{name}: {} texts were found", read.len());
        hold(&read);
        let of_units = read.iter().filter(|read| !is_for_both(&read.text));
        let wrong: Vec<String> = of_units
            .filter_map(|Read { place, text }| of_the_other_system(plan.units.first, place, text))
            .collect();
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }
}

#[test]
fn what_is_said_of_any_plan_has_no_old_words() {
    let mut runner = TestRunner::deterministic();
    let any = any_plan::any_plan();
    let mut checked = 0;
    for _ in 0..60 {
        let mut plan = any.new_tree(&mut runner).expect("a plan").current();
        for system in [System::Inches, System::Centimetres] {
            plan.units.first = system;
            // What a person names stays as it is named.
            for (index, fixture) in plan.fixtures.iter_mut().enumerate() {
                fixture.name = format!("thing {index}");
            }
            for (index, picture) in plan.pictures.iter_mut().enumerate() {
                (picture.name, picture.file) = (format!("picture {index}"), format!("{index}.jpg"));
            }
            plan.title = String::from("A plan");
            let read = said_of(&plan, "any plan");
            checked += usize::from(!read.is_empty());
            hold(&read);
            let wrong: Vec<String> = read
                .iter()
                .filter(|read| !is_for_both(&read.text))
                .filter_map(|Read { place, text }| of_the_other_system(system, place, text))
                .collect();
            assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        }
    }
    assert!(checked > 40, "{checked} plans were possible");
}

#[test]
fn the_page_has_none_of_the_old_phrases() {
    let mut read = Vec::new();
    for file in files("www", &["html"]).into_iter().chain(files("www/src", &["ts"])) {
        let pending = table::PENDING.contains(&file.as_str());
        let found: Vec<String> = lines(&file)
            .into_iter()
            .flat_map(|Read { place, text }| {
                table::PAGE.iter().filter_map(move |(old, instead)| {
                    let is_there = text.to_lowercase().contains(&old.to_lowercase());
                    is_there.then(|| format!("{place}: “{old}”; write {instead}"))
                })
            })
            .collect();
        if pending {
            assert!(!found.is_empty(), "{file} has no old phrase any more: take it out of PENDING");
        } else {
            read.extend(found);
        }
    }
    assert!(read.is_empty(), "{}", read.join("\n"));
}
