//! What is bought to make a plan, and how it travels: sticks, rolls, tubes, boxes and carriers on both sides of their limits.
//!
//! No expected value here is from Overmantel; each is worked out on paper from the sizes that a test states. Rolls, sticks, tubes and
//! carriers are those of the stock: common practice, no source, and the margin of a roll and the trim of a stick from memory.

use overmantel::findings::findings;
use overmantel::making::{Sticks, Thing, making, things};
use overmantel::plan::*;
use overmantel::stock::{Parcel, Stick, Stock};
use overmantel_tests::given::{figures, hung, length, piece};

fn canvas(image: &str) -> Plan {
    hung(vec![piece(image, Finish::Canvas(Canvas::starting()))])
}

fn bare_paper(image: &str) -> Plan {
    let paper = Paper { framing: Framing::NONE, ..Paper::starting() };
    hung(vec![piece(image, Finish::Paper(paper))])
}

#[track_caller]
fn thing(plan: &Plan, stock: &Stock) -> Thing {
    things(plan, &figures(plan), stock).remove(0)
}

fn carriers(thing: &Thing) -> Vec<String> {
    thing.carriers.iter().map(|(name, _)| name.clone()).collect()
}

#[track_caller]
fn sticks(plan: &Plan, stock: &Stock) -> Result<Sticks, String> {
    let mouldings = making(plan, &figures(plan), stock).mouldings;
    let rails = mouldings.into_iter().next().unwrap_or_else(|| panic!("no rails"));
    rails.bought.map_err(|why| why.to_string())
}

fn stick(name: &str, of: &str, trim: &str) -> Stick {
    Stick { name: name.to_owned(), length: length(of), kerf: length("1/8"), trim: length(trim) }
}

/// Each frame takes 21 1/8, 21 1/8, 25 1/8 and 25 1/8 in, with three kerfs 92 7/8; all rails together are 277 1/2, more than two sticks
/// of any length give. Three sticks of 2.4 m are 283.46 in; three of 8 ft 288, of 9 ft 324, of 10 ft 360, of 3 m 354.33. A plan in
/// inches buys by the foot, one in centimetres by the metre.
#[test]
fn the_sticks_of_which_least_is_bought() {
    let plan = Plan::starting();
    let stock = Stock::offered();
    let bought = sticks(&plan, &stock).expect("sticks");
    assert_eq!((bought.stick.name.as_str(), bought.sticks.len()), ("8 ft", 3));
    let metric = Plan { units: Units { first: System::Centimetres, both: false }, ..plan.clone() };
    let bought = sticks(&metric, &stock).expect("sticks");
    assert_eq!((bought.stick.name.as_str(), bought.sticks.len()), ("2.4 m", 3));
    let across_and_upright = ["21 1/8", "21 1/8", "25 1/8", "25 1/8"].map(length);
    assert_eq!(bought.rails, across_and_upright.repeat(3), "head, foot, left, right of each");
    let mut cut: Vec<usize> = bought.sticks.iter().flat_map(|cuts| cuts.rails.clone()).collect();
    cut.sort_unstable();
    assert_eq!(cut, (0..12).collect::<Vec<_>>(), "every rail once");
    // 2400 mm - 1 in - 92 7/8 in.
    assert!(bought.sticks.iter().all(|cuts| cuts.left == length("2400 mm") - length("93 7/8")));

    // Of 47 in, with nothing to trim, each gives 21 1/8 + 25 1/8 + 1/8 = 46 3/8: six are 282 in. Of 94 three are as much.
    let check = |rows: &[Stick], name: &str, count: usize| {
        let found = sticks(&plan, &Stock { sticks: rows.to_vec(), ..stock.clone() }).expect("sticks");
        assert_eq!((found.stick.name.as_str(), found.sticks.len()), (name, count));
    };
    let (short, long) = (stick("short", "47", "0"), stick("long", "94", "0"));
    check(&[short.clone(), long.clone()], "short", 6);
    check(&[long.clone(), short.clone()], "long", 3);
    check(&[stick("longer", "95", "0"), short.clone()], "short", 6);
    check(&[short, stick("shorter", "93", "0")], "shorter", 3);
    // What is no whole number of inches comes after what is, however little is wasted, but before nothing.
    check(&[stick("odd", "93.5", "0"), long.clone()], "long", 3);
    check(&[stick("odd", "93.5", "0")], "odd", 3);
    // One in which a rail of 25 1/8 does not go is left out.
    check(&[stick("too short", "25", "0"), long], "long", 3);
}

#[test]
fn moulding_that_cannot_be_had_is_said_so() {
    let plan = Plan { pieces: vec![Piece::starting()], ..Plan::starting() };
    let stock = Stock { sticks: Vec::new(), ..Stock::offered() };
    assert_eq!(sticks(&plan, &stock), Err("the stock list has no sticks of moulding; add one".to_owned()));
    // The first row says how wide the saw cuts; without one it takes nothing.
    let (_, moulding) = thing(&plan, &stock).rails.expect("a frame");
    assert_eq!(moulding.with_kerfs, length("92.5"));
    let wide = Stick { kerf: length("1/4"), ..stick("wide", "96", "0") };
    let stock = Stock { sticks: vec![wide, stick("narrow", "96", "0")], ..stock };
    assert_eq!(thing(&plan, &stock).rails.map(|(_, moulding)| moulding.with_kerfs), Some(length("93.25")));
    let stock = Stock { sticks: vec![stick("a", "20", "1"), stick("b", "25", "0")], ..stock };
    let why = sticks(&plan, &stock).expect_err("no stick is long enough");
    assert_eq!(
        why,
        "leg 3 is 25 1/8 in long and a stick \"b\" allows 25 in; choose longer sticks or a smaller frame"
    );
}

/// Rolls take the shorter side with 1/8 in on each side of it: 23 3/4 of 24 in, 63 3/4 of 64. A cloth is wider by 5 in than its face.
#[test]
fn rolls_that_take_a_print() {
    let stock = Stock::offered();
    let rolls = |plan: &Plan| thing(plan, &stock).prints[0].rolls.clone();
    let from = |width: &str| -> Vec<String> {
        let all =
            ["24 in (61 cm)", "36 in (91.4 cm)", "44 in (111.8 cm)", "60 in (152.4 cm)", "64 in (162.6 cm)"];
        all.iter().skip_while(|name| !name.starts_with(width)).map(|name| format!("roll, {name}")).collect()
    };
    for turned in [false, true] {
        let paper =
            |short: &str| bare_paper(&if turned { format!("90x{short}") } else { format!("{short}x90") });
        assert_eq!(rolls(&paper("23.75")), from("24"));
        assert_eq!(rolls(&paper("23.751")), from("36"));
        assert_eq!(rolls(&paper("55")), from("60"));
        assert_eq!(rolls(&paper("63.75")), from("64"));
        assert_eq!(rolls(&paper("63.751")), from("none"));
    }
    assert_eq!(rolls(&canvas("38.75x50")), from("44"));
    assert_eq!(rolls(&canvas("38.751x50")), from("60"));
}

/// A tube is 2 in longer than the shorter side. Paper goes into the first of the stock, canvas into the second, or into the last where
/// there is no second.
#[test]
fn tubes_for_what_is_rolled() {
    let mut stock = Stock::offered();
    let tube = |plan: &Plan, stock: &Stock| {
        thing(plan, stock).prints[0].tube.clone().map(|(name, rolled)| (name, rolled.tube_length))
    };
    let known = |name: &str, of: &str| Some((name.to_owned(), length(of)));
    assert_eq!(tube(&bare_paper("24x36"), &stock), known("tube for paper, 3 in", "26"));
    assert_eq!(tube(&canvas("24x36"), &stock), known("tube for canvas, 4 in", "31"));
    stock.tubes.truncate(1);
    assert_eq!(tube(&canvas("36x24"), &stock), known("tube for paper, 3 in", "31"));
    stock.tubes.clear();
    assert_eq!(tube(&bare_paper("24x36"), &stock), None);
}

/// A box is 2 in larger on each side (2 to 3 in is common practice, no source). Round canvas on bars of 1 1/2, w × h: h + 4 long, with a
/// girth of 2 (w + 4 + 5 1/2). The smaller limit is 130 in and the larger 165, both 108 long.
#[test]
fn carriers_by_the_size_of_the_box() {
    let stock = Stock::offered();
    let all: Vec<String> = stock.parcels.iter().map(|parcel| parcel.name.clone()).collect();
    let check = |image: &str, first: usize| {
        assert_eq!(carriers(&thing(&canvas(image), &stock)), all[first..], "{image}");
    };
    // 63 + 2 × 33 1/2 = 130.
    check("24x59", 0);
    check("24x59.001", 1);
    check("59x24", 0);
    // 104 + 4 = 108; 108 + 2 × 28 1/2 = 165.
    check("19x104", 1);
    check("19.001x104", 2);
    check("18x104.001", 2);
}

/// By the most that it may weigh: the starting piece 3,299.252 g, so that a limit of 3,300 g takes it and one of 3,299 does not. (The
/// weight is worked out in `making_reference.rs`.)
#[test]
fn carriers_by_weight() {
    let plan = hung(vec![Piece::starting()]);
    let parcel = |most_grams: u32| Parcel {
        name: most_grams.to_string(),
        longest: None,
        length_and_girth: None,
        most_grams: Some(most_grams),
        volume_divisor: None,
    };
    let stock = Stock { parcels: [3_299, 3_300, 2_869].map(parcel).into(), ..Stock::offered() };
    assert_eq!(carriers(&thing(&plan, &stock)), ["3300"]);
}

/// The finding codes and sentences on what the stock does not take.
#[track_caller]
fn refused(plan: &Plan, stock: &Stock) -> Vec<(&'static str, String)> {
    let codes = ["no-sheet", "no-roll", "no-stick"];
    let found = findings(plan, &figures(plan), stock);
    found
        .into_iter()
        .filter(|finding| codes.contains(&finding.code))
        .map(|finding| (finding.code, finding.sentence))
        .collect()
}

#[test]
fn what_the_stock_does_not_take_is_said_once() {
    let stock = Stock::offered();
    let metal = |image: &str| piece(image, Finish::Aluminium(Aluminium::starting()));
    // Metal is on no roll, and 48 × 120 is its largest sheet (common practice, no source).
    assert_eq!(refused(&hung(vec![metal("48x120")]), &stock), []);
    let no_sheet = "The sheet can't be cut: no sheet of aluminium, 0.045 in thick is large enough for 48.001 in × 120 in; the largest in the stock list is 48 in × 120 in, so make the piece smaller or add a larger sheet.";
    let expected = [("no-sheet", no_sheet.to_owned())];
    assert_eq!(refused(&hung(vec![metal("48.001x120")]), &stock), expected);
    // Of three alike it is said of the first.
    assert_eq!(refused(&hung(vec![metal("48.001x120"); 3]), &stock), expected);
    // What the first takes does not excuse the second.
    assert_eq!(refused(&hung(vec![metal("48x96"), metal("48.001x120")]), &stock), expected);
    // A canvas is on bars, and needs no sheet: 60 + 5 in of cloth.
    let no_roll =
        "No roll in the stock list is large enough for a print of 65 × 67\"; make it smaller.".to_owned();
    assert_eq!(refused(&canvas("60x62"), &stock), [("no-roll", no_roll)]);
    // Floater sides of 118 3/4 + 2 × 5/8 = 120 in, of 119 that a stick of 10 ft gives; the cloth is narrow enough.
    let floated = Canvas { floater: Some(Floater::starting()), ..Canvas::starting() };
    let plan = |image: &str| hung(vec![piece(image, Finish::Canvas(floated.clone()))]);
    assert_eq!(refused(&plan("20x117.75"), &stock), []);
    let no_stick =
        "A leg of 120\" is longer than the longest stick in the stock list allows, 119\".".to_owned();
    for image in ["20x118.75", "118.75x20"] {
        assert_eq!(refused(&plan(image), &stock), [("no-stick", no_stick.clone())]);
    }
    // An original is on no roll, whatever its size.
    let original = piece("70x80", Finish::Original(Original::starting()));
    assert_eq!(refused(&hung(vec![original]), &stock), []);
}
