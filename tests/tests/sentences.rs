//! Sentences of the specification, the comparison and the papers, word by word where they once said something else or nothing.

use overmantel::compare::{differences, summary};
use overmantel::desk::Desk;
use overmantel::figures::Figures;
use overmantel::hangers::{carried_by, ways};
use overmantel::making::things;
use overmantel::plan::{Fixture, FixtureKind, Hanger, Plan, System};
use overmantel::spec::{self, Run, short, short_text};
use overmantel::stock::Stock;
use overmantel_tests::given::{changed, picture};

fn figures(plan: &Plan) -> Figures {
    Figures::of(plan).expect("the plan has an answer")
}

/// The full specification as it is read aloud.
fn told(plan: &Plan) -> String {
    spec::order_text(plan, &figures(plan), &Stock::offered())
}

#[track_caller]
fn has(text: &str, part: &str) {
    assert!(text.contains(part), "\"{part}\" in:\n{text}");
}

#[track_caller]
fn has_not(text: &str, part: &str) {
    assert!(!text.contains(part), "no \"{part}\" in:\n{text}");
}

/// Pieces of 16 × 20 in, uncovered and uncropped where the pictures have 4 : 5, each with its picture.
fn hung(pictures: &[(&str, u32, u32)], pieces: usize) -> Plan {
    let mut plan = Plan { pictures: Vec::new(), split: None, ..Plan::starting() };
    plan.pictures = pictures.iter().map(|&(name, wide, high)| picture(name, wide, high)).collect();
    plan.pieces.truncate(pieces);
    for (index, piece) in plan.pieces.iter_mut().enumerate() {
        piece.picture = Some(index % pictures.len());
    }
    plan
}

/// 3200 over 16 in are 200 ppi, 4000 are 250, 4800 are 300.
#[test]
fn each_file_is_told_with_its_own_pixels_and_resolution() {
    let (first, second) = (("Ebb", 3200, 4000), ("Mudflats", 4000, 5000));
    let sentence = "The files have 3200 × 4000 and 4000 × 5000 px: 200 and 250 ppi as hung";
    has(&told(&hung(&[first, second], 2)), sentence);
    // Of three files that differ in one, each has its place.
    let three = hung(&[first, second, ("Slack", 3200, 4000)], 3);
    has(
        &told(&three),
        "The files have 3200 × 4000, 4000 × 5000 and 3200 × 4000 px: 200, 250 and 200 ppi as hung",
    );
    has(&told(&hung(&[first], 1)), "The file has 3200 × 4000 px: 200 ppi as hung");
    has(&told(&hung(&[first], 3)), "The file has 3200 × 4000 px: 200 ppi as hung");
    let alike = hung(&[first, ("Slack", 3200, 4000)], 2);
    has(&told(&alike), "The files have 3200 × 4000 px each: 200 ppi each as hung");
    // One file at two sizes: 12 in wide, 3200 / 12 = 266.
    let twice = changed(hung(&[first], 2), &[("piece.1.image", "12 x 15")]);
    has(&told(&twice), "The file has 3200 × 4000 px: 200 and 266 ppi as hung");
}

#[test]
fn pictures_are_named_in_quotation_marks() {
    let plan = hung(&[("Ebb", 3200, 4000), ("In the lock, noon", 4000, 5000)], 2);
    has(&told(&plan), "Each shows a picture of its own: “Ebb” and “In the lock, noon”.");
    let subject = changed(plan.clone(), &[("picture.1.subject", "what matters is near its left edge")]);
    has(&told(&subject), " In “Ebb” ");
    let split = changed(plan.clone(), &[("pieces.share", "a part of one picture")]);
    has(&told(&split), "“Ebb” runs over two panels.");
    let in_short = &short_text(&plan, &figures(&plan), &Stock::offered())[0].1[0];
    has(in_short, "“Ebb” and “In the lock, noon”");
    let differing = summary(&plan, &split, &Stock::offered(), None).expect("a summary");
    has(&differing.changes.join("; "), "Pictures: “Ebb”, “In the lock, noon” became “Ebb”, ");
    // Where there is none yet, nothing is quoted.
    let mut bare = plan;
    bare.pieces[1].picture = None;
    has(&told(&bare), "“Ebb” and no picture yet.");
}

#[test]
fn an_original_is_a_part_of_nothing() {
    let mut plan = hung(&[("Ebb", 3200, 4000), ("Slack", 3200, 4000)], 2);
    plan = changed(plan, &[("piece.all.material", "the original")]);
    has(&told(&plan), "Each is a work of its own: “Ebb” and “Slack”.");
    // Unless the work itself was made in panels: then nothing is cut.
    let panels = changed(plan, &[("pieces.share", "one panel of a single work")]);
    assert!(panels.split.is_some(), "the choice is the same as that of a print");
    has(
        &told(&panels),
        "“Ebb” runs over two panels. Each is one panel of a single work; in its photograph, ",
    );
    has_not(&told(&panels), "part of one picture");
    let shown =
        overmantel::fields::read(&panels, &Stock::offered(), (&overmantel::field::PIECES_SHOWN).into());
    assert_eq!(shown.expect("a field").text, "one work in two panels");
}

/// A sheet of aluminium has wood only where its blocks or its sub-frame are (common practice, no source).
#[test]
fn every_way_to_hang_a_sheet_says_what_holds_it_or_what_is_missing() {
    let stock = Stock::offered();
    let check = |changes: &[(&str, &str)], teeth: Option<&str>, cleat: &str| {
        let plan = changed(Plan::starting(), &[&[("piece.all.material", "aluminium")], changes].concat());
        let figures = figures(&plan);
        let thing = things(&plan, &figures, &stock).remove(0);
        for way in ways(&plan, &figures, &stock, &thing) {
            let against: Vec<String> = way.against.iter().map(|one| one.text(plan.units)).collect();
            match (way.hanger, teeth) {
                (Hanger::Sawtooth, Some(why)) => assert_eq!(against, [why]),
                (Hanger::Cleat, _) => assert_eq!(carried_by(&plan.pieces[0], way.hanger), Some(cleat)),
                _ => assert_eq!(against, [""; 0], "{:?}", way.hanger),
            }
        }
    };
    let none = "it needs wood in the middle of the top, and there is none";
    check(&[], Some(none), "across the two upper float blocks");
    check(&[("piece.all.aluminium.back", "on a sub-frame")], None, "along the top bar of the sub-frame");
    assert_eq!(carried_by(&Plan::starting().pieces[0], Hanger::Cleat), None, "a frame is its own wood");
}

#[test]
fn a_moulding_that_is_not_in_stock_has_the_same_name_in_short_and_in_full() {
    let plan = changed(Plan::starting(), &[("piece.all.frame.face", "1 3/16")]);
    let read = |row| overmantel::fields::read(&plan, &Stock::offered(), row).expect("a field").text;
    let [in_full, in_short] = [&overmantel::field::FRAME_PROFILE, &overmantel::field::FRAME_LOOK]
        .map(|row| read(overmantel::field::Field::piece(row, 0)));
    assert_eq!(in_full, in_short);
    has(&in_full, ", 1 3/16");
}

#[test]
fn where_the_viewer_stands_reads_as_english() {
    let plan = changed(
        Plan::starting(),
        &[("viewing.side", "to the left of the middle of the pictures"), ("viewing.aside", "2'")],
    );
    has(&told(&plan), ", 2' 0\" to the left of the middle of the pictures, at an eye level of ");
}

#[test]
fn a_colour_without_a_name_is_told_as_a_colour() {
    let stock = Stock::offered();
    let plan = Plan::starting();
    let own = changed(plan.clone(), &[("wall.paint", "#8a9b7c"), ("piece.all.mat.colour", "#102030")]);
    let found = differences(&plan, &own, &stock).expect("differences");
    let said: Vec<String> = found.iter().map(overmantel::compare::Difference::in_words).collect();
    assert!(said[0].ends_with(" became the colour #8a9b7c"), "{said:?}");
    let lines = summary(&plan, &own, &stock, None).expect("a summary").changes.join("\n");
    has(&lines, ", the colour #8a9b7c");
    has(&lines, "mat in the colour #102030");
    let mut desk = Desk::new(plan.clone()).expect("a desk");
    desk.set(&overmantel::plan::WALL_PAINT, "#8a9b7c").expect("a colour");
    has(&desk.said_since(&plan), " became the colour #8a9b7c");
}

#[test]
fn what_stands_there_is_a_sentence() {
    let said = |names: &[(FixtureKind, &str)]| {
        let mut plan = Plan { fixtures: Vec::new(), ..Plan::starting() };
        plan.group.up = overmantel::plan::GroupUp::EyeLevel;
        plan.group.across = overmantel::plan::GroupAcross::WallMiddle;
        for &(kind, name) in names {
            let fixture = Fixture::starting_on(kind, plan.wall.size, System::Inches);
            plan.fixtures.push(Fixture { name: name.to_owned(), ..fixture });
        }
        let line = short::short(&plan).pop().expect("a line");
        let runs = line.runs.into_iter();
        runs.map(|run| match run {
            Run::Text(text) => text,
            Run::Field(field) => format!("[{}]", field.row.name),
            other => panic!("{other:?}"),
        })
        .collect::<String>()
    };
    use FixtureKind::{Door, Plant, Socket, Sofa, Stairs, Switch};
    has(&said(&[(Sofa, "sofa")]), "There is a [kind], [width] wide. [fixtures.add]");
    has(&said(&[(Sofa, "sofa"), (Switch, "light switch")]), " wide; also a light switch. ");
    has(
        &said(&[(Sofa, "sofa"), (Switch, "light switch"), (Door, "old door")]),
        " wide; also a light switch and an old door. ",
    );
    has(&said(&[(Sofa, "sofa"), (Socket, "socket"), (Socket, "socket 2")]), " wide; also two sockets. ");
    has(
        &said(&[(Sofa, "sofa"), (Socket, "socket"), (Door, "door"), (Plant, "plant"), (Socket, "socket 2")]),
        "; also two sockets and 2 more. ",
    );
    has(&said(&[(Switch, "light switch"), (Switch, "light switch 2")]), "There are two light switches. ");
    has(&said(&[(Door, "the back door")]), "There is the back door. ");
    has(&said(&[(Stairs, "flight of stairs"), (Door, "door")]), "; also a door. ");
}
