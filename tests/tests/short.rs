//! A plan in short: what its fields do, what is said of it, and how it stands beside another. Sums were done on paper.

use overmantel::compare::summary;
use overmantel::desk::Desk;
use overmantel::field::Field;
use overmantel::fields;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{Finish, Glazing, GroupAcross, GroupUp, Picture, Plan, System, Units};
use overmantel::spec::{in_plain_words, short};
use overmantel::stock::Stock;
use overmantel_tests::given::{changed, length};

/// A starting plan with two pictures.
fn pictured() -> Plan {
    let picture = |name: &str| Picture {
        name: name.to_owned(),
        file: format!("{name}.jpg"),
        width_px: 4800,
        height_px: 6000,
        ..Picture::default()
    };
    let mut plan = Plan { pictures: vec![picture("Ebb"), picture("Slack water")], ..Plan::starting() };
    for (index, piece) in plan.pieces.iter_mut().enumerate() {
        piece.picture = Some(index.min(1));
    }
    plan
}

fn said(plan: &Plan, field: &str) -> String {
    let field = Field::named(field).expect("a field");
    fields::read(plan, &Stock::offered(), field).expect("the plan has it").text
}

fn text(plan: &Plan) -> String {
    let stock = Stock::offered();
    let lines: String =
        short::short(plan).iter().map(|line| in_plain_words(plan, &stock, &line.runs)).collect();
    let result = short::result(plan, &Figures::of(plan).expect("an answer"), &stock, None);
    lines + &in_plain_words(plan, &stock, &result)
}

/// 16 + 2 × 2 1/8 - 2 × 1/8 + ... = 21 1/8 outside, as the build-up has it; 3 × 21 1/8 + 2 × 3 = 69 3/8 in = 5' 9 3/8". 4800
/// pixels fill 16 in less what the mat covers: 300 ppi, cot 1′ / 300 = 11.46 in, up to the next whole inch 12.
#[test]
fn it_says_what_is_decided_and_what_comes_of_it() {
    let text = text(&pictured());
    for words in [
        "Hang three pictures: “Ebb”, “Slack water” and “Slack water”.",
        "Each 16 × 20\" on paper.",
        "mat: warm white",
        "They hang above the sofa.",
        "The wall is 12' 0\" × 8' 0\", ",
        "There is a sofa, 7' 0\" wide.",
        "Each is 21 1/8 × 25 1/8\" outside, 1 1/8\" deep, about ",
        "; together 5' 9 3/8\" wide.",
        "Sharp from 12\" away.",
    ] {
        assert!(text.contains(words), "{words} in:\n{text}");
    }
}

#[test]
fn how_many_pictures_and_how_many_panels_are_one_choice() {
    let split = changed(pictured(), &[("pieces.shown", "split 2")]);
    assert_eq!((split.pieces.len(), split.split.map(|split| split.picture)), (2, Some(0)));
    assert_eq!(said(&split, "pieces.shown"), "one picture across two panels");
    let apart = changed(split, &[("pieces.shown", "3")]);
    assert_eq!((apart.pieces.len(), apart.split), (3, None));
    assert_eq!(said(&apart, "pieces.shown"), "three pictures");
}

#[test]
fn a_frame_is_taken_off_and_put_on_with_its_glass() {
    let bare = changed(pictured(), &[("piece.all.look.frame", "none")]);
    for piece in &bare.pieces {
        let framing = piece.finish.framing().expect("paper has a framing");
        assert!(framing.frame.is_none() && framing.glazing == Glazing::None);
    }
    let framed = changed(bare, &[("piece.all.look.frame", "flat, 1 in")]);
    assert_eq!(said(&framed, "piece.all.look.frame"), "flat, 1 in");
    let framing = framed.pieces[2].finish.framing().expect("a framing");
    assert_eq!(framing.frame.as_ref().map(|frame| frame.face), Some(length("1")));
    assert!(matches!(framing.glazing, Glazing::Glass(_)), "paper is not framed without glazing");
}

#[test]
fn a_mat_comes_in_a_colour_or_not_at_all() {
    let none = changed(pictured(), &[("piece.all.look.mat", "none")]);
    assert!(
        none.pieces.iter().all(|piece| piece.finish.framing().is_some_and(|framing| framing.mat.is_none()))
    );
    let black = changed(none, &[("piece.all.look.mat", "#2a2928")]);
    assert_eq!(said(&black, "piece.all.look.mat"), "black");
    assert_eq!(said(&black, "piece.all.mat.border"), said(&Plan::starting(), "piece.all.mat.border"));
}

#[test]
fn a_canvas_gets_a_floater_frame_and_loses_it() {
    let canvas = changed(pictured(), &[("piece.all.material", "canvas")]);
    assert_eq!(said(&canvas, "piece.all.look.floater"), "none");
    let stock = Stock::offered();
    let name = stock.mouldings.iter().find(|row| row.is_floater).expect("a floater is on offer").name.clone();
    let floated = changed(canvas, &[("piece.all.look.floater", name.as_str())]);
    assert_eq!(said(&floated, "piece.all.look.floater"), name);
    assert!(floated.pieces.iter().all(|piece| piece.finish.floater().is_some()));
    let bare = changed(floated, &[("piece.all.look.floater", "none")]);
    assert!(bare.pieces.iter().all(|piece| piece.finish.floater().is_none()));
    assert!(bare.pieces.iter().all(|piece| matches!(piece.finish, Finish::Canvas(_))));
}

#[test]
fn where_they_hang_is_one_choice() {
    let wall = changed(pictured(), &[("group.place", "wall")]);
    assert_eq!((wall.group.across, wall.group.up), (GroupAcross::WallMiddle, GroupUp::EyeLevel));
    let above = changed(wall, &[("group.place", "above 0")]);
    assert_eq!(above.group.across, GroupAcross::FixtureMiddle(0));
    assert_eq!(above.group.up, GroupUp::Above { fixture: 0, clearance: Length::inches(8) });
    // A plan in centimetres gets the round 20 cm of its units.
    let metric = Plan { units: Units { first: System::Centimetres, both: false }, ..pictured() };
    let metric = changed(metric, &[("group.place", "wall"), ("group.place", "above 0")]);
    assert_eq!(metric.group.up, GroupUp::Above { fixture: 0, clearance: Length::mm(200) });
    let moved = changed(above, &[("group.middle", "5'")]);
    assert_eq!(said(&moved, "group.place"), "above the sofa, moved along");
    let higher = changed(moved, &[("group.centre", "6'")]);
    assert_eq!(said(&higher, "group.place"), "where they were moved to");
}

#[test]
fn the_wall_is_one_size_and_shows_as_two_lengths() {
    let plan = changed(pictured(), &[("wall.size", "4.2 x 2.6 m")]);
    assert_eq!(plan.wall.size, Size::new(Length::mm(4200), Length::mm(2600)));
    assert_eq!(said(&plan, "wall.width"), "13' 9 3/8\"", "4200 mm are 165.354 in");
}

/// The same three on canvas: no glass, no mat; lighter, and deeper: bars of 1 1/2 in against a frame of 1 1/8.
#[test]
fn two_plans_are_weighed_up() {
    let (paper, stock) = (pictured(), Stock::offered());
    let canvas = changed(paper.clone(), &[("piece.all.material", "canvas")]);
    let found = summary(&paper, &canvas, &stock, None).expect("both have answers");
    let row = |label: &str| found.rows.iter().find(|row| row.label == label).expect("a row");
    assert_eq!(row("Size").one, "three of 16 × 20\", outside 21 1/8 × 25 1/8\"");
    assert_eq!(row("Size").other, "three of 16 × 20\", outside 16 × 20\"");
    assert_eq!((row("Depth").one.as_str(), row("Depth").other.as_str()), ("1 1/8\"", "1 1/2\""));
    assert!(
        row("Advantages").one.contains("closer to the wall")
            && row("Advantages").one.contains("protected by its glazing")
    );
    assert!(
        row("Advantages").other.contains("lighter") && row("Advantages").other.contains("no reflections")
    );
    let told = "Make-up: paper in a mat, framed behind glass became canvas, 1 1/2\" deep, mirrored wrap";
    assert!(found.changes.iter().any(|change| change == told), "{:?}", found.changes);
    assert!(found.changes.len() <= 6, "{:?}", found.changes);
}

#[test]
fn a_plan_stands_beside_what_it_was() {
    let mut desk = Desk::new(pictured()).expect("an answer");
    let material = Field::pieces(&overmantel::plan::PIECE_MATERIAL);
    desk.set(material, "canvas").expect("canvas can be had");
    desk.set(Field::pieces(&overmantel::plan::CANVAS_EDGE), "plain").expect("any edge can be had");
    let beside = desk.beside();
    let words: Vec<&str> = beside.iter().map(|one| one.words).collect();
    assert_eq!(words[..2], ["as it was on paper", "before the last step"], "{words:?}");
    assert!(matches!(beside[0].plan.pieces[0].finish, Finish::Paper(_)));
    assert!(words.contains(&"the same on aluminium") && !words.contains(&"the same on canvas"), "{words:?}");
}
