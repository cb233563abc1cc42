//! What things are made of, by name: material and colour apart, boards by their colour, mouldings told by whatever differs.
//!
//! Names are our own; a colour's name (dark oak) is never that of a wood.

use overmantel::figures::Figures;
use overmantel::making::making;
use overmantel::papers::{Job, Paper, data};
use overmantel::plan::Plan;
use overmantel::spec::{self, lists};
use overmantel::stock::Stock;
use overmantel_tests::given::{changed, write};

/// What is told of a plan: the mats as they are marked, the rows to buy, the parts' materials, the text for a buyer, and the cut list for other programs.
struct Told {
    mats: Vec<String>,
    bought: Vec<(String, String)>,
    parts: Vec<(String, String)>,
    text: String,
    csv: String,
}

fn told(plan: &Plan, stock: &Stock) -> Told {
    let figures = Figures::of(plan).expect("an answer");
    let lists = lists::cuts(plan, &figures, stock, None);
    let cell = |list: &lists::List, columns: [usize; 2]| -> Vec<(String, String)> {
        list.rows.iter().map(|row| (row.cells[columns[0]].clone(), row.cells[columns[1]].clone())).collect()
    };
    let (parts, bought) = (lists.first().expect("parts"), lists.last().expect("what to buy"));
    let paragraphs = spec::text(plan, &figures, stock).into_iter().flat_map(|(_, paragraphs)| paragraphs);
    let mats = lists.iter().find(|list| list.caption.starts_with("Mat: ")).into_iter();
    Told {
        mats: mats.flat_map(|list| list.rows.iter().map(|row| row.cells[0].clone())).collect(),
        bought: cell(bought, [0, 1]),
        parts: cell(parts, [0, 4]),
        text: paragraphs.collect::<Vec<_>>().join("\n"),
        csv: data::cuts(&Job::new(plan, &figures, stock, Paper::A4)).csv(),
    }
}

/// The starting plan has frames of oak in the colour "dark oak".
#[test]
fn a_colour_is_never_told_as_a_wood() {
    let stock = Stock::offered();
    let check = |changes: &[(&str, &str)], made_of: &str, moulding: &str, sentence: &str| {
        let plan = changed(Plan::starting(), changes);
        let Told { bought, parts, text, csv, .. } = told(&plan, &stock);
        let rails: Vec<&str> =
            parts.iter().filter(|part| part.0.starts_with("leg")).map(|part| part.1.as_str()).collect();
        assert_eq!(rails, [made_of; 2]);
        let names: Vec<&str> = bought.iter().map(|row| row.0.as_str()).collect();
        let start = format!("{moulding}: stick 1 of ");
        assert!(names.iter().any(|name| name.starts_with(&start)), "{moulding} in {names:?}");
        assert!(text.contains(sentence), "{sentence} in {text}");
        assert!(csv.contains(&format!("\"{made_of}\"")), "{made_of} in {csv}");
    };
    check(
        &[("piece.all.frame.material", "pine")],
        "pine, stained dark oak",
        "pine moulding, stained dark oak, 3/4\" wide",
        "The frame is a flat pine moulding, stained dark oak, 3/4\" wide and 1 1/8\" deep",
    );
    check(
        &[("piece.all.frame.colour", "oak")],
        "oak, unstained",
        "oak moulding, unstained, 3/4\" wide",
        "The frame is a flat oak moulding, unstained,",
    );
    check(
        &[("piece.all.frame.surface", "painted"), ("piece.all.frame.colour", "white")],
        "oak, painted white",
        "oak moulding, painted white, 3/4\" wide",
        "flat oak moulding, painted white,",
    );
    check(
        &[
            ("piece.all.frame.material", "aluminium"),
            ("piece.all.frame.surface", "brushed"),
            ("piece.all.frame.colour", "black"),
        ],
        "aluminium, brushed, black",
        "aluminium moulding, brushed, black, 3/4\" wide",
        "flat aluminium moulding, brushed, black,",
    );
    check(
        &[("piece.all.material", "canvas"), ("piece.all.floater", "with")],
        "obeche, stained dark oak",
        "obeche floater, stained dark oak, 3/8\" wide",
        "in a floater frame of obeche, stained dark oak, 3/8\" wide",
    );
}

#[test]
fn mats_are_named_and_bought_by_their_colour() {
    let stock = Stock::offered();
    let boards = |plan: &Plan| -> Vec<(String, String)> {
        let rows = told(plan, &stock).bought.into_iter();
        rows.filter(|row| row.0.starts_with("mat board")).collect()
    };
    // Three mats, and three mounts of which nobody sees the colour.
    let plan = changed(Plan::starting(), &[]);
    let names = |plan: &Plan| -> Vec<String> { boards(plan).into_iter().map(|row| row.0).collect() };
    let any = "mat board, any colour, 1/16\" thick";
    assert_eq!(names(&plan), ["mat board, warm white, 1/16\" thick", any]);
    // One of the mats black: of each colour sheets of its own.
    let two = changed(Plan::starting(), &[("piece.2.mat.colour", "black")]);
    assert_eq!(names(&two), ["mat board, warm white, 1/16\" thick", any, "mat board, black, 1/16\" thick"]);
    // Two in one frame, of which the one behind shows cream.
    let double = [("piece.all.mat.double", "double"), ("piece.all.mat.inner_colour", "cream")];
    let double = changed(Plan::starting(), &double);
    let mats: Vec<(String, String)> =
        told(&double, &stock).parts.into_iter().filter(|part| part.0.ends_with("mat")).collect();
    let colours: Vec<&str> = mats.iter().map(|mat| mat.1.as_str()).collect();
    assert_eq!(colours, ["mat board, warm white", "mat board, cream"], "{mats:?}");
    assert_eq!(
        told(&double, &stock).mats,
        [
            "top mat, warm white, from the face",
            "top mat, warm white, from the back",
            "bottom mat, cream, from the face",
            "bottom mat, cream, from the back"
        ]
    );
    assert_eq!(
        names(&double),
        ["mat board, warm white, 1/16\" thick", "mat board, cream, 1/16\" thick", any]
    );
}

/// Of two mouldings to buy whatever differs is said, and nothing else.
#[test]
fn mouldings_are_told_apart_by_whatever_differs() {
    let stock = Stock::offered();
    let names = |field: &str, text: &str| -> Vec<String> {
        let plan = changed(Plan::starting(), &[(field, text)]);
        let figures = Figures::of(&plan).expect("an answer");
        making(&plan, &figures, &stock).mouldings.into_iter().map(|moulding| moulding.words).collect()
    };
    let same = "oak moulding, stained dark oak, 3/4\" wide";
    assert_eq!(names("piece.1.frame.allowance", "1/8"), [same]);
    let with = |one: &str, other: &str| [format!("{same}, {one}"), format!("{same}, {other}")];
    assert_eq!(names("piece.2.frame.depth", "2"), with("1 1/8\" deep", "2\" deep"));
    assert_eq!(
        names("piece.2.frame.rabbet_depth", "3/4"),
        with("rabbet 1/4\" wide and 5/8\" deep", "rabbet 1/4\" wide and 3/4\" deep")
    );
    assert_eq!(
        names("piece.2.frame.rabbet_width", "3/8"),
        with("rabbet 1/4\" wide and 5/8\" deep", "rabbet 3/8\" wide and 5/8\" deep")
    );
    assert_eq!(names("piece.2.frame.shape", "scooped"), with("flat", "scooped"));
    assert_eq!(
        names("piece.2.frame.material", "pine"),
        [same.to_owned(), same.replace("oak moulding", "pine moulding")]
    );
}

/// A moulding of one's own has its wood by name and its colour; taking it takes both.
#[test]
fn a_moulding_of_the_stock_has_its_wood_and_its_colour() {
    let stock = Stock::read(
        r##"{ "overmantel_stock": 1, "mouldings": { "add": [
            { "name": "ash, 25 mm", "face": "25 mm", "rabbet_width": "6 mm", "rabbet_depth": "18 mm", "depth": "32 mm",
              "material": "oak", "wood": "ash", "colour": "#d2c6b0" }] } }"##,
    )
    .expect("a stock");
    let stock = Stock::read(&stock.write()).expect("a stock, written and read");
    let set = |plan: &Plan, name: &str, text: &str| write(plan, &stock, name, text).expect("it can be set");
    let plan = set(&Plan::starting(), "piece.all.frame.profile", "ash, 25 mm");
    let Told { bought, text, .. } = told(&plan, &stock);
    let words = "ash moulding, stained limed ash";
    assert!(bought.iter().any(|row| row.0.starts_with(words)), "{bought:?}");
    assert!(text.contains("flat ash moulding, stained limed ash, 1\" wide"), "{text}");
    // In another colour it is another moulding, of which the stock knows no wood.
    let Told { text, .. } = told(&set(&plan, "piece.all.frame.colour", "black"), &stock);
    assert!(text.contains("flat oak moulding, stained black"), "{text}");
}
