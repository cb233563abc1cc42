//! Hardware, counted and measured by hand. Numbers and distances are common practice, no source; what hangers carry is from memory.

use overmantel::cut_list::{CutPart, Extent};
use overmantel::figures::Figures;
use overmantel::hardware::{hardware, screw_for};
use overmantel::length::Length;
use overmantel::making::things;
use overmantel::plan::{Plan, System};
use overmantel::stock::Stock;
use overmantel_tests::given::{changed, length, size};

fn of(changes: &[(&str, &str)]) -> Vec<CutPart> {
    let plan = changed(Plan::starting(), &[&[("pieces.count", "one")], changes].concat());
    let figures = Figures::of(&plan).expect("figures");
    let thing = things(&plan, &figures, &Stock::offered()).remove(0);
    hardware(&plan, &figures, &Stock::offered(), &thing)
}

#[track_caller]
fn check(parts: &[CutPart], name: &str, quantity: u32, extent: Extent, note: &str) {
    let found = parts.iter().find(|part| part.name == name);
    let found = found.unwrap_or_else(|| {
        panic!("no {name} in {:?}", parts.iter().map(|part| &part.name).collect::<Vec<_>>())
    });
    assert_eq!((found.quantity, found.extent), (quantity, extent), "{name}");
    assert!(found.note.contains(note), "{name}: {}", found.note);
}

const CANVAS: (&str, &str) = ("piece.all.material", "canvas");

/// 16 × 20 in on a board of 20 × 24: 21 1/8 × 25 1/8 outside, the rabbet 20 1/8 × 24 1/8.
#[test]
fn of_a_framed_print() {
    let parts = of(&[]);
    check(&parts, "hinge", 2, Extent::Each, "top edge only");
    check(&parts, "V-nail", 8, Extent::Each, "two, one above the other");
    // 20 1/8 / 4 and 24 1/8 / 4, up: 6 and 7 on each of two sides.
    check(&parts, "point", 26, Extent::Each, "4\"");
    check(&parts, "sealing tape", 1, Extent::Length(length("88")), "glazing");
    check(&parts, "dust cover", 1, Extent::Size(size("20 7/8 x 24 7/8")), "kraft");
    // Wood 1 1/8 deep would take 1 in; hangers take 3/4 at the most.
    check(&parts, "D-ring on one screw", 2, Extent::Each, "3/4\" at most, in wood 1 1/8\"");
    check(&parts, "bumper", 2, Extent::Each, "lower corners");
    check(&parts, "hook with its nail or screw", 2, Extent::Each, "rated for");
    assert!(!parts.iter().any(|part| part.name == "wire" || part.name == "stretcher key"));
}

/// Rings at 3/8 in from each side of 21 1/8: a span of 20 3/8, a wire 1 in longer, and 6 in for each end.
#[test]
fn of_a_wire() {
    let parts = of(&[("fixing.kind", "one_hook")]);
    check(&parts, "wire", 1, Extent::Length(length("33 3/8")), "four times the weight");
    check(&parts, "hook with its nail or screw", 1, Extent::Each, "rated for");
}

/// A canvas of 30 × 40 in on bars of 1 1/2, by a cleat 26 in long: screws go through 1/2 in of it, and 1 1/4 is the longest for which
/// 1/8 in is left (20 mm and the cleat allow 1.287 in).
#[test]
fn of_a_canvas_on_a_cleat() {
    let parts =
        of(&[CANVAS, ("piece.all.width", "30"), ("piece.all.height", "40"), ("fixing.kind", "cleat")]);
    check(&parts, "stretcher key", 12, Extent::Each, "corner");
    let cleat = "cleat of 1/2 in plywood";
    check(&parts, cleat, 2, Extent::Length(length("26")), "screws of 1 1/4\"");
    check(&parts, "strip", 1, Extent::Length(length("26")), "1/2\" thick");
    check(&parts, "wall screw with its plug", 3, Extent::Each, "rated for");
    assert!(!parts.iter().any(|part| part.name == "bumper"), "the strip holds it off the wall");
    check(&of(&[CANVAS]), "stretcher key", 8, Extent::Each, "corner");
}

/// A floater frame of 1/4 in of gap round 16 × 20: 16 1/2 × 20 1/2 inside, 2 screws for each of four sides.
#[test]
fn of_a_floater_frame() {
    let parts = of(&[CANVAS, ("piece.all.floater", "yes")]);
    check(&parts, "screw", 8, Extent::Each, "1/4\" all round");
}

/// A package of 25/64 in (2 mm of glass, 1/16 + 1/16 + 3/16) in a rabbet of 1/4 in is proud of it: clips instead of points.
#[test]
fn of_a_package_that_stands_proud() {
    let parts = of(&[("piece.all.frame.rabbet_depth", "1/4")]);
    check(&parts, "clip with its screw", 26, Extent::Each, "proud of the frame");
    assert!(!parts.iter().any(|part| part.name == "point"));
}

/// Above 24 in of width one more hinge for each foot that is begun: 40 in take 2 + 2.
#[test]
fn of_a_wide_sheet() {
    check(&of(&[("piece.all.width", "40")]), "hinge", 4, Extent::Each, "top edge");
    check(&of(&[("piece.all.width", "24")]), "hinge", 2, Extent::Each, "top edge");
}

/// Pieces in one frame have one set of hardware, and hinges for each sheet.
#[test]
fn of_three_in_one_frame() {
    let plan = changed(Plan::starting(), &[("shared", "all in one frame")]);
    let figures = Figures::of(&plan).expect("figures");
    let things = things(&plan, &figures, &Stock::offered());
    assert_eq!(things.len(), 1);
    let parts = hardware(&plan, &figures, &Stock::offered(), &things[0]);
    check(&parts, "hinge", 6, Extent::Each, "top edge");
    assert_eq!(parts.iter().filter(|part| part.name.starts_with("D-ring")).count(), 1);
}

/// 1/8 in of wood is left before the point: 10, 12, 16 and 20 mm are sold, and 3/8, 1/2, 5/8, 3/4 in.
#[test]
fn screws_stay_in_the_wood() {
    let most = Length::inches(1);
    let check =
        |depth, expected| assert_eq!(screw_for(depth, most, System::Centimetres), expected, "{depth:?}");
    check(Length::mm(13), None);
    check(Length::micrometres(13_175), Some(Length::mm(10)));
    check(Length::mm(18), Some(Length::mm(12)));
    check(Length::mm(20), Some(Length::mm(16)));
    check(Length::mm(200), Some(Length::mm(25)));
    assert_eq!(screw_for(length("1/2"), most, System::Inches), Some(length("3/8")));
}

/// An original is weighed by nobody but its owner: its frame alone says nothing of what it needs (common practice, no source).
#[test]
fn of_an_original_nothing_is_rated_by_its_frame_alone() {
    let parts = of(&[
        ("piece.all.material", "the original"),
        ("piece.all.floater", "with"),
        ("fixing.kind", "a wire over one hook"),
    ]);
    check(&parts, "wire", 1, parts_of(&parts, "wire").extent, "holds at least four times the weight");
    let hook = parts_of(&parts, "hook with its nail or screw");
    assert_eq!(hook.note, "weigh the piece first");
    // The same of a canvas, which can be calculated.
    let parts = of(&[CANVAS, ("fixing.kind", "a wire over one hook")]);
    assert!(parts_of(&parts, "hook with its nail or screw").note.starts_with("each rated for at least "));
}

#[track_caller]
fn parts_of<'a>(parts: &'a [CutPart], name: &str) -> &'a CutPart {
    parts.iter().find(|part| part.name == name).unwrap_or_else(|| panic!("no {name}"))
}

/// Rings 1 in down and 3/8 in from the sides of 21 1/8 in are 20 3/8 in apart. With 3 in more of wire its halves are 11 11/16 in long,
/// and it rises √(11.6875² - 10.1875²) = 5.73 in: the hook would stand 4.73 in above the top edge.
#[test]
fn a_hook_above_the_top_edge_is_not_suitable() {
    let stock = Stock::offered();
    let plan = changed(
        Plan::starting(),
        &[
            ("pieces.count", "one"),
            ("fixing.kind", "a wire over one hook"),
            ("fixing.down", "1"),
            ("fixing.inset", "3/8"),
            ("fixing.slack", "3"),
        ],
    );
    let figures = Figures::of(&plan).expect("figures");
    let thing = things(&plan, &figures, &stock).remove(0);
    let hanging = &figures.hanging[0];
    assert!(hanging.drop < length("-4.7") && hanging.drop > length("-4.8"), "{:?}", hanging.drop);
    let against =
        overmantel::hangers::against(&plan, &figures, &stock, &thing, (plan.fixing.hanger, hanging));
    assert!(against.contains(&overmantel::hangers::Against::Shows), "{against:?}");
    let found = overmantel::findings::findings(&plan, &figures, &stock);
    let said = found.iter().find(|finding| finding.code == "wire-in-sight").expect("a finding");
    assert!(
        said.sentence.starts_with("Pulled tight, the wire is 4 3/4\" above the top edge; "),
        "{}",
        said.sentence
    );
}
