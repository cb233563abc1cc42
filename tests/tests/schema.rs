//! The published schemas: what they say is what is read and written, by the judgement of another library (`jsonschema`).
//!
//! `BLESS=1` rewrites the committed schemas, and fails, so that a blessing run never looks green.

use jsonschema::Validator;
use overmantel::figures::Figures;
use overmantel::plan::{Plan, file};
use overmantel::report::{self, report};
use overmantel::stock::{self, Stock};
use overmantel_builder::paths;
use serde_json::{Value, json};
use std::fs;
use std::path::PathBuf;

fn committed(name: &str) -> PathBuf {
    paths::root().join("crate/schema").join(name)
}

#[track_caller]
fn check_committed(name: &str, derived: &str) {
    let path = committed(name);
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, derived).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        panic!("{} was rewritten; look at what changed, then run without BLESS", path.display());
    }
    let found = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    assert!(found == derived, "{} is not what the structs say; see BLESS in DEVELOPERS.md", path.display());
}

#[test]
fn the_plans_schema_is_that_of_the_structs() {
    check_committed("plan.schema.json", &file::schema());
}

#[test]
fn the_figures_schema_is_that_of_the_structs() {
    check_committed("figures.schema.json", &report::schema());
}

#[test]
fn the_findings_schema_is_that_of_the_structs() {
    check_committed("findings.schema.json", &report::findings_schema());
}

#[test]
fn the_proposals_schema_is_that_of_the_rows() {
    check_committed("proposal.schema.json", &overmantel::proposal::schema());
}

#[test]
fn the_schema_of_what_was_sent_is_that_of_the_rows() {
    check_committed("sent.schema.json", &overmantel::proposal::sent::schema());
}

#[test]
fn the_schema_of_a_list_of_works_is_that_of_its_columns() {
    check_committed("works.schema.json", &overmantel::works::schema());
}

#[test]
fn the_schema_of_a_survey_of_works_is_that_of_the_structs() {
    check_committed("works-survey.schema.json", &report::works_schema());
}

/// A list as its schema has it is read without a word, and its survey is valid; what the schema refuses is told.
#[test]
fn lists_of_works_and_their_surveys_are_valid() {
    use overmantel::works::{Works, survey};
    let (lists, surveys) = (validator("works.schema.json"), validator("works-survey.schema.json"));
    let list = json!({ "overmantel_works": 1, "units": "cm", "works": [
        { "identifier": "W-1", "title": "Ebb", "dateCreated": "2023-05", "width": 60, "height": "79.5", "availability": "InStock",
          "artEdition": "7/50", "price": 1250, "priceCurrency": "EUR", "widthPx": 6000, "heightPx": 8000, "subject": [500, 380],
          "signature": "bottom right", "rack": 3 },
        { "title": null, "file": "ebb.jpg" } ] });
    assert!(lists.is_valid(&list));
    let works = Works::read(&list.to_string()).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(works.problems, []);
    let found = |works: &Works| {
        let asked = survey::Question::default();
        let found = survey::survey(&works.works, &Stock::offered(), &asked);
        serde_json::to_value(report::works(works, &asked, &found, &[])).unwrap_or_default()
    };
    let demo = fs::read_to_string(paths::root().join("demo-data/works/works.csv"));
    let demo = Works::read(&demo.unwrap_or_default()).unwrap_or_else(|why| panic!("{why}"));
    for survey in [found(&works), found(&demo)] {
        let why: Vec<String> = surveys.iter_errors(&survey).map(|error| error.to_string()).collect();
        assert!(why.is_empty(), "{why:?}");
    }
    for (member, value) in [("subject", json!([500])), ("widthPx", json!("x")), ("title", json!({}))] {
        let mut wrong = list.clone();
        wrong["works"][0][member] = value;
        assert!(!lists.is_valid(&wrong), "{member}");
        assert!(!Works::read(&wrong.to_string()).unwrap_or_else(|why| panic!("{why}")).problems.is_empty());
    }
}

#[test]
fn the_schema_of_what_a_photograph_says_is_that_of_the_structs() {
    check_committed("room.schema.json", &overmantel::photograph::report::schema());
}

#[test]
fn the_suggestions_schema_is_that_of_the_structs() {
    check_committed("suggestions.schema.json", &report::suggestions_schema());
}

#[test]
fn suggestions_are_valid() {
    let (schema, plans) = (validator("suggestions.schema.json"), validator("plan.schema.json"));
    let (plan, stock) = (Plan::starting(), Stock::offered());
    let text = fs::read_to_string(paths::root().join("demo-data/prices/example.json"));
    let book =
        overmantel::prices::Book::read(&text.unwrap_or_default()).unwrap_or_else(|why| panic!("{why}"));
    let wish = overmantel::suggest::SuggestionWish { book: Some(&book), ..Default::default() };
    let found = overmantel::suggest::suggest(&plan, &stock, &wish).unwrap_or_else(|why| panic!("{why}"));
    let told = report::suggestions(&plan, &stock, &wish, &found).unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(told.suggestions.len(), 4);
    let written = serde_json::to_value(&told).unwrap_or_default();
    let why: Vec<String> = schema.iter_errors(&written).map(|error| error.to_string()).collect();
    assert!(why.is_empty(), "{why:?}");
    assert!(told.suggestions.iter().all(|one| plans.is_valid(&one.plan)), "each is a plan file");
}

#[test]
fn the_schemas_of_prices_are_those_of_the_structs() {
    let [output, book] = [report::prices_schema(), overmantel::prices::file::schema()];
    if std::env::var_os("BLESS").is_some() {
        let written = std::panic::catch_unwind(|| check_committed("prices.schema.json", &output));
        assert!(written.is_err());
    } else {
        check_committed("prices.schema.json", &output);
    }
    check_committed("price-book.schema.json", &book);
}

#[test]
fn the_demos_price_book_and_its_prices_are_valid() {
    let text = fs::read_to_string(paths::root().join("demo-data/prices/example.json"));
    let text = text.unwrap_or_else(|error| panic!("{error}"));
    let book = overmantel::prices::Book::read(&text).unwrap_or_else(|why| panic!("{why}"));
    let (plan, stock) = (Plan::starting(), Stock::offered());
    let figures = Figures::of(&plan).unwrap_or_else(|why| panic!("{why}"));
    let price = overmantel::prices::priced(&plan, &figures, &stock, &book);
    let choices = overmantel::prices::compared(&plan, &stock, &book);
    let written =
        serde_json::to_value(report::prices(&plan.title, &book, &price, &choices)).unwrap_or_default();
    for (schema, value) in [("price-book", parsed(&text)), ("prices", written)] {
        let schema = validator(&format!("{schema}.schema.json"));
        let why: Vec<String> = schema.iter_errors(&value).map(|error| error.to_string()).collect();
        assert!(why.is_empty(), "{why:?}");
    }
}

#[test]
fn findings_are_valid() {
    let schema = validator("findings.schema.json");
    let plan = file::read(
        r##"{ "overmantel": 1, "title": "Ebb", "wall": { "size": ["9 ft", "7 ft"] }, "fixtures": [{ "kind": "bed" }],
        "site": { "public_way": true, "earthquakes": true, "direct_sun": true, "car": ["10 in", "10 in"] },
        "group": { "arrangement": "row", "gap": "9 in", "across": "wall_middle", "up": "eye_level" },
        "pieces": [{ "image": ["20 in", "30 in"], "made": { "paper": {} } }, { "image": ["50 in", "70 in"], "made": { "canvas": { "depth": "1 in", "edge": "mirrored", "fold": "1 in" } } }] }"##,
    );
    let plan = plan.unwrap_or_else(|why| panic!("{why}"));
    let figures = Figures::of(&plan).unwrap_or_else(|why| panic!("{why}"));
    let found = report::findings(&plan, &figures, &Stock::offered(), overmantel::findings::Severity::Taste);
    assert!(found.findings.len() > 6 && found.worst == Some("cannot be made"), "{found:?}");
    let written = serde_json::to_value(&found).unwrap_or_default();
    let why: Vec<String> = schema.iter_errors(&written).map(|error| error.to_string()).collect();
    assert!(why.is_empty(), "{why:?}");
}

#[test]
fn the_stocks_schema_is_that_of_the_structs() {
    check_committed("stock.schema.json", &stock::file::schema());
}

#[test]
fn what_is_on_offer_is_valid() {
    let schema = validator("stock.schema.json");
    let written = parsed(&Stock::offered().write());
    let why: Vec<String> = schema.iter_errors(&written).map(|error| error.to_string()).collect();
    assert!(why.is_empty(), "{why:?}");
}

fn validator(name: &str) -> Validator {
    let text = fs::read_to_string(committed(name)).unwrap_or_else(|error| panic!("{name}: {error}"));
    let schema: Value = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert!(jsonschema::meta::is_valid(&schema), "{name} is no schema");
    jsonschema::validator_for(&schema).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The text of each plan of the demo.
fn demo_plans() -> Vec<(PathBuf, String)> {
    let folder = paths::root().join("demo-data/plans");
    let entries = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    entries
        .flatten()
        .map(|entry| {
            let text = fs::read_to_string(entry.path()).unwrap_or_else(|error| panic!("{error}"));
            (entry.path(), text)
        })
        .collect()
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn plans_and_their_figures_are_valid() {
    let (plans, figures) = (validator("plan.schema.json"), validator("figures.schema.json"));
    let mut texts = demo_plans();
    assert_eq!(texts.len(), 4);
    texts.push((PathBuf::from("starting"), file::write(&Plan::starting())));
    for (path, text) in texts {
        let why: Vec<String> = plans.iter_errors(&parsed(&text)).map(|error| error.to_string()).collect();
        assert!(why.is_empty(), "{}: {why:?}", path.display());
        let plan = file::read(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let worked_out = Figures::of(&plan).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let found = serde_json::to_value(report(&plan, &worked_out, &Stock::offered(), 3))
            .unwrap_or_else(|error| panic!("{error}"));
        let why: Vec<String> = figures.iter_errors(&found).map(|error| error.to_string()).collect();
        assert!(why.is_empty(), "figures of {}: {why:?}", path.display());
        let written = parsed(&file::write(&plan));
        assert!(plans.is_valid(&written), "{} as it is written again", path.display());
    }
}

/// Whether the schema can see a fault, or only the reader.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Seen {
    ByBoth,
    /// A rule that no schema of this kind can say: a name that leads nowhere, a length that is out of range.
    ByTheReader,
}

/// A good plan, changed at one place (a JSON pointer; a field that is not there is added), is refused with this sentence.
fn check_refused(pointer: &str, value: Value, seen: Seen, sentence: &str) {
    let mut plan = parsed(include_str!("../../demo-data/plans/low-water.json"));
    let (parent, key) = pointer.rsplit_once('/').unwrap_or_else(|| panic!("{pointer}"));
    let parent = plan.pointer_mut(parent).unwrap_or_else(|| panic!("no {parent}"));
    match parent {
        Value::Array(items) => items[key.parse::<usize>().unwrap_or_else(|_| panic!("{pointer}"))] = value,
        Value::Object(fields) if value == json!("taken away") => {
            assert!(fields.remove(key).is_some(), "no {pointer}");
        }
        other => other[key] = value,
    }
    let valid = validator("plan.schema.json").is_valid(&plan);
    assert_eq!(valid, seen == Seen::ByTheReader, "by the schema: {pointer}");
    let text = plan.to_string();
    let error = file::read(&text).expect_err(pointer).to_string();
    // Line and column are those of this test's own text.
    let error = error.split(" (line ").next().unwrap_or_default();
    let error = error.split(", at line ").next().unwrap_or_default();
    assert_eq!(error, sentence);
}

#[test]
fn the_form_is_held_by_schema_and_reader() {
    fn check(pointer: &str, value: Value, sentence: &str) {
        check_refused(pointer, value, Seen::ByBoth, sentence);
    }
    let unread = |rest: &str| format!("the plan file can't be read: {rest}");
    check(
        "/overmantel",
        json!(2),
        "the plan file has version 2, and this program reads version 1; open it with a newer one",
    );
    check(
        "/overmantel",
        json!("taken away"),
        "this is not an Overmantel plan file: \"overmantel\" is missing; write it",
    );
    check("/wall", json!("taken away"), &unread("\"wall\" is missing; write it"));
    check("/wall/size", json!("taken away"), &unread("wall: \"size\" is missing; write it"));
    check("/group/gap", json!("taken away"), &unread("group: \"gap\" is missing; write it"));
    check(
        "/pieces/0/image",
        json!("taken away"),
        &unread("pieces, number 1: \"image\" is missing; write it"),
    );
    check(
        "/wall/colour",
        json!("#ffffff"),
        &unread(
            "wall, colour: \"colour\" is not a known name here; known names are \"size\", \"paint\", \"floor\", \"skirting\", \"finish\"",
        ),
    );
    check(
        "/fixing/rings/slack",
        json!("1 in"),
        &unread(
            "fixing, rings, slack: \"slack\" is not a known name here; known names are \"inset\", \"down\"",
        ),
    );
    check(
        "/group/up/above/gap",
        json!("1 in"),
        &unread(
            "group, up, above, gap: \"gap\" is not a known name here; known names are \"fixture\", \"clearance\"",
        ),
    );
    check(
        "/units",
        json!("furlongs"),
        &unread("units: \"furlongs\" can't be chosen here; choose one of \"inches\", \"centimetres\""),
    );
    check(
        "/wall/skirting",
        json!(4),
        &unread("wall, skirting: there is a number where text such as \"16 in\" is expected"),
    );
    check(
        "/wall/size/0",
        json!(144),
        &unread("wall, size, number 1: there is a number where text such as \"16 in\" is expected"),
    );
    check("/wall/size", json!(["12'"]), &unread("wall, size: the list has 1 entries; write 2"));
    check("/wall/size", json!(["12'", "8'", "1'"]), &unread("wall, size: the list has 3 entries; write 2"));
    check(
        "/pieces/0/made",
        json!("paper"),
        &unread("pieces, number 1, made: a name is alone here; write what belongs to it after it, in braces"),
    );
    check(
        "/pieces/0/focus",
        json!([500, -1]),
        &unread(
            "pieces, number 1, focus, number 2: -1 is not possible here; write a whole number from 0 upwards",
        ),
    );
    check(
        "/pictures/0/pixels",
        json!([9000.5, 4200]),
        &unread(
            "pictures, number 1, pixels, number 1: there is a number with a decimal point where a whole number is expected",
        ),
    );
    check(
        "/wall/paint",
        json!("green"),
        "the plan file can't be read: wall, paint: \"green\" is not a colour; write it as #rrggbb, such as #d5dcd6",
    );
    check(
        "/wall/floor",
        json!("#12345g"),
        "the plan file can't be read: wall, floor: \"#12345g\" is not a colour; write it as #rrggbb, such as #d5dcd6",
    );
    check("/title", json!(""), "the title is empty; write at least one character");
    check("/title", json!("é".repeat(121)), "the title has 121 characters; write at most 120");
    check(
        "/fixtures/1/name",
        json!("s".repeat(121)),
        "the name of fixture 2 has 121 characters; write at most 120",
    );
    check(
        "/pictures/0/file",
        json!("f".repeat(241)),
        "the file name of Low water, evening has 241 characters; write at most 240",
    );
    let long = format!("{}1 in", " ".repeat(70));
    check(
        "/wall/skirting",
        json!(long),
        "the plan file can't be read: wall, skirting: the text is too long for a length; write at most 64 characters",
    );
    check(
        "/pictures/0/pixels",
        json!([0, 4200]),
        "the number of pixels of Low water, evening is 0 and 4200; allowed for each: 1 to 200000",
    );
    check(
        "/pictures/0/pixels",
        json!([200_001, 4200]),
        "the number of pixels of Low water, evening is 200001 and 4200; allowed for each: 1 to 200000",
    );
    check(
        "/split/focus",
        json!([500, 1001]),
        "what the panels keep of the picture is 500 and 1001; allowed for each: 0 to 1000",
    );
    check("/pieces", json!([]), "0 pieces were given; a plan takes 1 to 3");
    let piece = parsed(include_str!("../../demo-data/plans/low-water.json"))["pieces"][0].clone();
    check("/pieces", json!([piece, piece, piece, piece]), "4 pieces were given; a plan takes 1 to 3");
    let sofas: Vec<Value> =
        (0..25).map(|index| json!({ "kind": "sofa", "name": format!("sofa {index}") })).collect();
    let group = "the plan file can't be read: group, across, fixture_middle: the plan has no fixture called \"sofa\"; write one of its names";
    check("/fixtures", json!(sofas), group);
    let mut sofas = sofas;
    sofas[0]["name"] = json!("sofa");
    check("/fixtures", json!(sofas), "25 fixtures were given; a plan takes 0 to 24");
    let picture = |index: usize| {
        let name = if index == 0 { "Low water, evening".to_owned() } else { format!("picture {index}") };
        json!({ "name": name, "file": "p.jpg", "pixels": [9000, 4200] })
    };
    let pictures: Vec<Value> = (0..13).map(picture).collect();
    check("/pictures", json!(pictures), "13 pictures were given; a plan takes 0 to 12");
}

#[test]
fn what_only_the_reader_can_see() {
    fn check(pointer: &str, value: Value, sentence: &str) {
        check_refused(pointer, value, Seen::ByTheReader, sentence);
    }
    // Names that lead nowhere, or to two things.
    check(
        "/split/picture",
        json!("High water"),
        "the plan file can't be read: split, picture: the plan has no picture called \"High water\"; write one of its names",
    );
    check(
        "/pieces/1/picture",
        json!("High water"),
        "the plan file can't be read: pieces, number 2, picture: the plan has no picture called \"High water\"; write one of its names",
    );
    check(
        "/group/across",
        json!({ "fixture_middle": "bed" }),
        "the plan file can't be read: group, across, fixture_middle: the plan has no fixture called \"bed\"; write one of its names",
    );
    check(
        "/fixtures",
        json!([{ "kind": "sofa" }, { "kind": "sofa" }]),
        "two fixtures are called sofa; give each a name of its own",
    );
    check("/title", json!("  "), "the title is empty; write at least one character");
    check(
        "/title",
        json!("two\nlines"),
        "the title has a control character in it; write plain text on one line",
    );
    // Lengths that are none, or out of range.
    check("/pieces/0/image/0", json!("-16 in"), "the width of piece 1 is -16 in; it must be more than zero");
    check("/pieces/0/image/1", json!("0"), "the height of piece 1 is 0 in; it must be more than zero");
    check(
        "/group/gap",
        json!("-1 in"),
        "the gap between pieces is -1 in; allowed: 0 in to 10 m (about 32 ft)",
    );
    check(
        "/wall/size/0",
        json!("101 m"),
        "the width of the wall is 101000 mm; allowed: 0 in to 100 m (about 328 ft)",
    );
    check(
        "/wall/skirting",
        json!("9 ft"),
        "the height of the baseboard (skirting) is 108 in; allowed: 0 in to 96 in",
    );
    check(
        "/pieces/0/made/paper/frame/rabbet_width",
        json!("1 in"),
        "the rabbet (rebate) is 1 in wide and the moulding's face 3/4 in; make the rabbet narrower or the face wider, as the lip is part of the face",
    );
    check(
        "/wall/skirting",
        json!("four"),
        "the plan file can't be read: wall, skirting: “four” is not a number; write digits first, as in 16 1/2 in",
    );
    check(
        "/pieces/2/made/paper/mat/extent/border",
        json!("2 elbows"),
        "the plan file can't be read: pieces, number 3, made, paper, mat, extent, border: “elbows” is not a unit; use in, ft, mm, cm, m or pt",
    );
    // JSON Schema takes a whole number with a point for an integer (draft 2020-12, 6.1.1); the reader wants it written as one.
    check(
        "/pictures/0/pixels/0",
        json!(9000.0),
        "the plan file can't be read: pictures, number 1, pixels, number 1: there is a number with a decimal point where a whole number is expected",
    );
}

#[test]
fn what_is_no_plan_at_all() {
    let check = |text: &str, sentence: &str| {
        assert_eq!(file::read(text).map_err(|why| why.to_string()), Err(sentence.to_owned()))
    };
    let not_a_plan = |rest: &str| format!("this is not an Overmantel plan file: {rest}");
    check("", &not_a_plan("it is empty"));
    check("[]", &not_a_plan("there is a list where an object in braces is expected (line 1, column 1)"));
    check("{\"overmantel\": 1,", &not_a_plan("it stops short or is not JSON at line 1 column 17"));
    check("{\n", &not_a_plan("it stops short or is not JSON at line 2 column 0"));
    check("picture", &not_a_plan("it stops short or is not JSON at line 1 column 1"));
    let most = overmantel::plan::limits::FILE_BYTES;
    let sentence = format!("the plan file has {} bytes, and a plan may have at most {most}", most + 1);
    check(&" ".repeat(most + 1), &sentence);
    check(
        "{\"overmantel\": 1, \"overmantel\": 1}",
        &not_a_plan("overmantel: \"overmantel\" is here twice; keep one (line 1, column 30)"),
    );
}

/// Every property of a schema, with its name and that of what it belongs to.
fn properties(schema: &Value) -> Vec<(String, Value)> {
    let no = serde_json::Map::new();
    let listed = schema["$defs"].as_object().unwrap_or(&no);
    let things = listed.iter().map(|(name, thing)| (name.as_str(), thing)).chain([("", schema)]);
    let of = |(name, thing): (&str, &Value)| -> Vec<(String, Value)> {
        let own = thing["properties"].as_object().cloned().unwrap_or_default();
        own.into_iter().map(|(key, about)| (format!("{name}.{key}"), about)).collect()
    };
    things.flat_map(of).collect()
}

/// Whether a property is, or has in it, something of this type.
fn is_of(property: &Value, kind: &str) -> bool {
    let named = |value: &Value| match value {
        Value::Array(kinds) => kinds.iter().any(|one| one == kind),
        value => value == kind,
    };
    named(&property["type"]) || named(&property["items"]["type"])
}

#[test]
fn every_number_says_to_what_it_is_rounded() {
    for name in ["figures", "findings", "prices", "suggestions"] {
        let text = fs::read_to_string(committed(&format!("{name}.schema.json"))).unwrap_or_default();
        let mut seen = 0;
        for (key, property) in properties(&parsed(&text)) {
            let about = property["description"].as_str().unwrap_or_default();
            let says = |words: &[&str]| words.iter().any(|word| about.contains(word));
            if is_of(&property, "number") {
                seen += 1;
                assert!(says(&[" decimals"]), "{name}: {key} is a number: {about}");
            }
            if is_of(&property, "integer") {
                seen += 1;
                assert!(
                    says(&["whole", "counted from 1", "How many", "considered", "calculated"]),
                    "{name}: {key} is an integer: {about}"
                );
            }
        }
        assert!(seen > 0, "{name} has numbers");
    }
}

#[test]
fn every_default_is_valid() {
    for (name, least) in [("plan", 60), ("stock", 20), ("price-book", 4)] {
        let text = fs::read_to_string(committed(&format!("{name}.schema.json"))).unwrap_or_default();
        let schema = parsed(&text);
        let stated = properties(&schema);
        let with_default: Vec<_> =
            stated.iter().filter(|(_, property)| property.get("default").is_some()).collect();
        assert!(with_default.len() >= least, "{name}: {}", with_default.len());
        for (key, property) in with_default {
            let alone = json!({ "$defs": schema["$defs"], "allOf": [property] });
            let valid = jsonschema::validator_for(&alone).unwrap_or_else(|error| panic!("{key}: {error}"));
            assert!(valid.is_valid(&property["default"]), "{name}: {key}: {}", property["default"]);
        }
    }
}
