//! What hangers carry and hold in: both sides of every limit. What hangers carry is from memory: a D-ring on three screws 45 kg, a large
//! sawtooth hanger 11 kg, a keyhole plate 11 kg, a cleat 20 kg for each 12 in; each for twice its share (common practice, no source).

use super::{check, found};
use overmantel::figures::Figures;
use overmantel::hangers::{Against, carries, fixings, share, to_buy, ways};
use overmantel::length::Length;
use overmantel::making::things;
use overmantel::plan::{Hanger, HangerPlace, Plan, System};
use overmantel::print::Exact;
use overmantel::stock::Stock;
use overmantel_tests::given::changed;

const ONE: (&str, &str) = ("pieces.count", "one");
const CANVAS: (&str, &str) = ("piece.all.material", "canvas");

fn one(changes: &[(&str, &str)]) -> Plan {
    changed(changed(Plan::starting(), &[ONE]), changes)
}

/// A print of 30 × 40 in behind 4 mm of glass weighs more than 11 kg and less than 22: too much for teeth and plates, not for rings.
#[test]
fn too_heavy_for_its_hanger() {
    let heavy = [
        ("piece.all.width", "30"),
        ("piece.all.height", "40"),
        ("piece.all.glazing", "glass"),
        ("piece.all.glazing.thickness", "4 mm"),
    ];
    let plan = one(&heavy);
    let figures = Figures::of(&plan).expect("figures");
    let thing = things(&plan, &figures, &Stock::offered()).remove(0);
    let kilograms = thing.mass.most_mg / 1_000_000;
    assert!((12..=20).contains(&kilograms), "{kilograms} kg: above 11 and below 22");
    for (kind, expected) in [("rings", false), ("sawtooth", true), ("keyholes", true), ("cleat", false)] {
        check("hanger-overloaded", &changed(plan.clone(), &[("fixing.kind", kind)]), expected);
    }
}

/// A small frame hangs by whatever is there.
#[test]
fn light_things_hang_by_anything() {
    let plan = one(&[("piece.all.width", "5"), ("piece.all.height", "7"), ("piece.all.mat", "no")]);
    for kind in ["rings", "one_hook", "sawtooth", "keyholes", "cleat"] {
        check("hanger-overloaded", &changed(plan.clone(), &[("fixing.kind", kind)]), false);
        check("too-shallow-for-the-hanger", &changed(plan.clone(), &[("fixing.kind", kind)]), false);
    }
}

/// Half an inch of wood holds a ring's or a plate's screws, 5/8 a cleat's, 3/8 those of teeth (from memory).
#[test]
fn too_shallow_for_its_screws() {
    for (kind, with, without) in [
        ("rings", "7/16", "1/2"),
        ("keyholes", "7/16", "1/2"),
        ("cleat", "9/16", "5/8"),
        ("sawtooth", "5/16", "3/8"),
    ] {
        let plan = one(&[CANVAS, ("fixing.kind", kind)]);
        let deep = |depth| changed(plan.clone(), &[("piece.all.canvas.depth", depth)]);
        check("too-shallow-for-the-hanger", &deep(without), false);
        check("too-shallow-for-the-hanger", &deep(with), true);
    }
}

/// A row of teeth in the middle is one point: above 24 in or 5 kg two are wanted (common practice, no source).
#[test]
fn one_row_of_teeth() {
    let wide = |width| one(&[CANVAS, ("fixing.kind", "sawtooth"), ("piece.all.width", width)]);
    check("one-hook", &wide("24"), false);
    check("one-hook", &wide("24 1/16"), true);
    let shaken = |kind| one(&[CANVAS, ("fixing.kind", kind), ("site.ground", "in an earthquake area")]);
    for (kind, expected) in [("sawtooth", true), ("one_hook", true), ("rings", false), ("cleat", false)] {
        check("wire-where-it-shakes", &shaken(kind), expected);
    }
}

/// Teeth hang on nothing between two blocks; what is offered hangs.
#[test]
fn teeth_between_blocks() {
    let plan = one(&[("piece.all.material", "aluminium"), ("fixing.kind", "sawtooth")]);
    check("rings-in-nothing", &plan, true);
    let found = found(&plan, &Stock::offered());
    let finding = found.iter().find(|finding| finding.code == "rings-in-nothing").expect("found");
    assert!(finding.sentence.contains("cannot hold a sawtooth hanger"), "{}", finding.sentence);
    assert!(!finding.remedies.is_empty(), "two rings hold");
}

/// Stated places that another hanger does not have go back to the piece.
#[test]
fn another_hanger_lets_go_of_places_that_do_not_hold_it() {
    let stated = one(&[("fixing.inset", "3/8"), ("fixing.down", "5")]);
    let teeth = changed(stated.clone(), &[("fixing.kind", "sawtooth")]);
    assert_eq!([teeth.fixing.from_sides, teeth.fixing.down], [HangerPlace::Usual; 2]);
    let cleat = changed(stated.clone(), &[("fixing.kind", "cleat")]);
    assert_eq!(cleat.fixing.down, HangerPlace::At(Length::inches(5)), "from leg to leg");
    let plates = changed(stated, &[("fixing.kind", "keyholes")]);
    assert_eq!(plates.fixing.down, HangerPlace::At(Length::inches(5)), "those are held");
}

/// Shares by hand: half of the weight on each of two, all of it on one, on each 12 in of a cleat 12/26 for one of 26 in.
#[test]
fn shares_of_the_weight() {
    let stock = Stock::offered();
    let plan = one(&[CANVAS, ("piece.all.width", "30")]);
    let figures = Figures::of(&plan).expect("figures");
    let thing = things(&plan, &figures, &stock).remove(0);
    let ways = ways(&plan, &figures, &stock, &thing);
    let hanging = |hanger| {
        let way = ways.iter().find(|way| way.hanger == hanger).expect("a way");
        way.hanging.clone().expect("it hangs")
    };
    let rings = hanging(Hanger::Rings);
    assert_eq!(share(Hanger::Rings, &rings), Some(Exact::new(1, 2)));
    assert_eq!(carries(Hanger::Rings, &rings, &stock), Some(45_000_000), "2 × 45 kg, half of it");
    assert_eq!(share(Hanger::Sawtooth, &hanging(Hanger::Sawtooth)), Some(Exact::from_integer(1)));
    let cleat = hanging(Hanger::Cleat);
    assert_eq!(cleat.span, Length::inches(26), "2 in from each side");
    assert_eq!(share(Hanger::Cleat, &cleat), Some(Exact::new(12, 26)));
    assert_eq!(carries(Hanger::Cleat, &cleat, &stock), Some(21_666_666), "20 kg × 26 / 12 / 2");
    assert_eq!(
        fixings(Hanger::Cleat, &cleat, System::Inches),
        3,
        "one at each end and one every 16 in between"
    );
    assert_eq!(fixings(Hanger::Rings, &rings, System::Inches), 2);
    // 9 kg for twice half of the weight: up to 9 kg, and then the next.
    let bought = |mg| to_buy(Hanger::Rings, &rings, &stock, mg).map(|sold| sold.name.as_str());
    assert_eq!(bought(9_000_000), Some("D-ring on one screw"));
    assert_eq!(bought(9_000_001), Some("D-ring on two screws"));
    assert_eq!(bought(45_000_001), None);
}

/// A cleat above 20 kg, teeth for what is small and light, two rings otherwise (common practice, no source).
#[test]
fn which_way_is_advised() {
    let stock = Stock::offered();
    let advised = |plan: &Plan| {
        let figures = Figures::of(plan).expect("figures");
        let thing = things(plan, &figures, &stock).remove(0);
        let ways = ways(plan, &figures, &stock, &thing);
        let way = ways.into_iter().find(|way| way.is_advised).expect("one is advised");
        assert_eq!(way.against, [], "nothing speaks against it");
        (way.key, thing.mass.most_mg / 1_000_000)
    };
    assert_eq!(advised(&one(&[])).0, "rings");
    assert_eq!(
        advised(&one(&[CANVAS, ("piece.all.width", "8"), ("piece.all.height", "10")])),
        ("sawtooth", 0)
    );
    let large = [
        ("piece.all.width", "40"),
        ("piece.all.height", "60"),
        ("piece.all.glazing", "glass"),
        ("piece.all.glazing.thickness", "4 mm"),
    ];
    let (key, kilograms) = advised(&one(&large));
    assert!(kilograms > 20, "{kilograms}");
    assert_eq!(key, "cleat");
}

#[test]
fn what_speaks_against_a_way_is_told() {
    let units = Plan::starting().units;
    let quarter = Length::inches_ratio(1, 4);
    let least = Length::inches_ratio(1, 2);
    assert_eq!(
        Against::TooShallow { depth: quarter, least }.text(units),
        "the wood is 1/4\" deep and it needs 1/2\""
    );
    assert_eq!(Against::TooHeavy { carries_mg: 4_000_000 }.text(units), "carries at most 8.82 lb");
}

/// What hangers carry is a row of the stock: with weaker rings the same piece is too heavy, and with none there is nothing to say.
#[test]
fn hangers_come_from_the_stock() {
    let mut plan = Plan::starting();
    plan.fixing.hanger = Hanger::Rings;
    let with = |rows: &str| {
        let own = format!(r#"{{ "overmantel_stock": 1, "hangers": {{ "replace": [{rows}] }} }}"#);
        Stock::read(&own).expect("a stock")
    };
    let codes = |stock: &Stock| -> Vec<&str> {
        let figures = Figures::of(&plan).expect("figures");
        let found = overmantel::findings::findings(&plan, &figures, stock);
        let about = ["hanger-overloaded", "too-shallow-for-the-hanger", "hanger-not-in-stock"];
        found.iter().map(|finding| finding.code).filter(|code| about.contains(code)).collect()
    };
    let row = |name: &str, fitting: &str, grams: u32, wood: &str| {
        format!(
            r#"{{ "name": "{name}", "fitting": "{fitting}", "carries_grams": {grams}, "least_wood": "{wood}" }}"#
        )
    };
    assert_eq!(codes(&Stock::offered()), [""; 0]);
    assert_eq!(codes(&with(&row("tiny ring", "ring", 500, "1/4 in"))), ["hanger-overloaded"]);
    assert_eq!(codes(&with(&row("long ring", "ring", 50_000, "4 in"))), ["too-shallow-for-the-hanger"]);
    assert_eq!(codes(&with(&row("cleat", "cleat", 50_000, "1/2 in"))), ["hanger-not-in-stock"]);
    assert_eq!(Stock::read(&Stock::offered().write()).expect("it reads"), Stock::offered());
}
