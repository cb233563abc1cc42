//! Two plans beside each other: the differences in words, each written out by hand from what was changed.

use overmantel::compare::differences;
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::stock::Stock;
use overmantel_tests::given;

fn changed(plan: &Plan, changes: &[(&str, &str)]) -> Plan {
    changes.iter().fold(plan.clone(), |plan, (field, text)| {
        given::write(&plan, &Stock::offered(), field, text).unwrap_or_else(|why| panic!("{field}: {}", why))
    })
}

fn words(one: &Plan, other: &Plan) -> Vec<String> {
    differences(one, other, &Stock::offered()).unwrap().iter().map(|row| row.in_words()).collect()
}

#[track_caller]
fn has(words: &[String], wanted: &str) {
    assert!(words.iter().any(|row| row == wanted), "{wanted} is not among {words:#?}");
}

#[test]
fn a_plan_beside_itself_has_no_differences_in_any_unit_or_under_any_title() {
    let plan = Plan::starting();
    let mut other = plan.clone();
    other.title = "Another".to_owned();
    other.units = Units { first: System::Centimetres, both: true };
    assert_eq!(words(&plan, &other), Vec::<String>::new());
}

#[test]
fn a_size_says_what_it_was_and_what_it_became_once_for_all_pieces_and_one_by_one_where_they_differ() {
    let two = changed(&Plan::starting(), &[("pieces.count", "two"), ("piece.all.image", "16 x 20 in")]);
    let larger = changed(&two, &[("piece.all.image", "20 x 24 in")]);
    let rows = words(&two, &larger);
    has(&rows, "Image of each piece: 16 × 20\" became 20 × 24\"");
    assert_eq!(rows.iter().filter(|row| row.starts_with("Image of")).count(), 1, "{rows:#?}");
    let one_larger = changed(&two, &[("piece.1.image", "20 x 24 in")]);
    let rows = words(&two, &one_larger);
    has(&rows, "Image of piece 2: 16 × 20\" became 20 × 24\"");
    assert!(!rows.iter().any(|row| row.contains("piece 1:") && row.starts_with("Image")), "{rows:#?}");
    has(&words(&larger, &two), "Image of each piece: 20 × 24\" became 16 × 20\"");
}

#[test]
fn choices_counts_and_what_came_with_them_are_told() {
    let two = changed(&Plan::starting(), &[("pieces.count", "two")]);
    has(&words(&two, &changed(&two, &[("pieces.count", "three")])), "Number of pieces: two became three");
}

#[test]
fn what_is_rounded_to_the_same_text_is_told_in_the_other_system() {
    // 4000 and 4001 mm are 157.480 and 157.520 in: to the eighth both 157 1/2, and to the millimetre they differ.
    let [one, other] =
        ["4000 mm", "4001 mm"].map(|width| changed(&Plan::starting(), &[("wall.width", width)]));
    has(&words(&one, &other), "Width of the wall: 13' 1 1/2\" (400 cm) became 13' 1 1/2\" (400.1 cm)");
}

#[test]
fn fixtures_are_the_same_where_they_are_called_the_same_wherever_they_stand_in_the_list() {
    let with = |kinds: &[FixtureKind]| {
        let mut plan = Plan::starting();
        plan.fixtures = kinds.iter().map(|&kind| Fixture::starting(kind)).collect();
        // Over none of them.
        (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::CentreAt(Length::inches(57)));
        plan
    };
    let (sofa, lamp) = (FixtureKind::Sofa, FixtureKind::Lamp);
    assert_eq!(words(&with(&[sofa, lamp]), &with(&[lamp, sofa])), Vec::<String>::new());
    let name = Fixture::starting(lamp).name;
    let rows = words(&with(&[sofa]), &with(&[sofa, lamp]));
    // A lamp as it starts: 16 × 60 in, 16 in deep, a foot from the left corner.
    let stated = "width 1' 4\", height 60\", depth 16\", distance from the corner 1' 0\", from the left corner, pictures keep clear of it";
    assert_eq!(rows, [format!("{} is new: {stated}", capital(&name))]);
    let rows = words(&with(&[lamp, sofa]), &with(&[sofa]));
    assert_eq!(rows, [format!("{} is gone; it was: {stated}", capital(&name))]);
}

/// A mat, a frame or a canvas that only one of the plans has is one line with all that is stated of it, and not a line for each field.
#[test]
fn what_is_new_or_gone_as_a_whole_is_told_once() {
    let framed = Plan::starting();
    let canvas = changed(&framed, &[("piece.all.material", "canvas")]);
    let rows = words(&framed, &canvas);
    has(&rows, "Material of each piece: paper became canvas");
    has(&rows, "Paper of each piece is gone; it was: weight of the paper 310 g/m²");
    has(&rows, "Glazing of each piece is gone; it was: glass, thickness of the glazing 5/64\", plain");
    let canvases: Vec<&String> =
        rows.iter().filter(|row| row.starts_with("Canvas of each piece is new: ")).collect();
    assert_eq!(canvases.len(), 1, "{rows:#?}");
    assert!(canvases[0].contains("weight of the canvas 400 g/m²"), "{rows:#?}");
    // Neither what is not there on either side, nor how a size is stated.
    for row in &rows {
        assert!(!row.contains("without") && !row.starts_with("Whether"), "{row}");
    }
    let unmatted = changed(&framed, &[("piece.all.mat", "without")]);
    let rows = words(&framed, &unmatted);
    has(
        &rows,
        "Mat of each piece is gone; it was: warm white, width of the mat border 2 1/8\", covering the sheet by 1/8\", thickness of the mat board 1/16\"",
    );
    assert_eq!(rows.iter().filter(|row| row.contains("mat") || row.contains("Mat")).count(), 1, "{rows:#?}");
}

fn capital(name: &str) -> String {
    name[..1].to_uppercase() + &name[1..]
}
