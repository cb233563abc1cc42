//! Colours of the room as a person states them: by name or as #rrggbb, and what is drawn of them. No number is from Overmantel.

use overmantel::colour::Colour;
use overmantel::desk::Desk;
use overmantel::draw::{Sheet, View};
use overmantel::plan::*;
use overmantel_tests::given;

fn room(kind: FixtureKind) -> Plan {
    let mut plan = Plan { fixtures: vec![Fixture::starting(kind)], ..Plan::starting() };
    (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::EyeLevel);
    plan
}

#[test]
fn every_colour_of_the_room_takes_a_name_or_a_code() {
    for (field, name, code) in [
        ("wall.paint", "ink blue", "#2b394a"),
        ("wall.floor", "oak boards", "#a58363"),
        ("fixture.0.colour", "rust", "#9c5a3c"),
    ] {
        for (text, told) in
            [(name, name), (code, name), (&code[1..], name), ("#12aB34", "#12ab34"), (" #123456 ", "#123456")]
        {
            let mut desk = Desk::new(room(FixtureKind::Sofa)).expect("an answer");
            given::set(&mut desk, field, text).unwrap_or_else(|why| panic!("{field} = {text}: {why:?}"));
            let value = given::read(desk.plan(), desk.stock(), field).expect("a field");
            assert_eq!(value.text, told, "{field} = {text}");
        }
        for nonsense in ["", "bluish", "#12", "#12345g", "#1234567", "rgb(1, 2, 3)"] {
            let mut desk = Desk::new(room(FixtureKind::Sofa)).expect("an answer");
            let why = given::set(&mut desk, field, nonsense).expect_err(nonsense).to_string();
            assert!(why.contains("is not one of the colours here; choose"), "{field}: {why}");
            assert!(why.ends_with("or write a colour as #rrggbb"), "{field}: {why}");
        }
    }
}

#[test]
fn a_usual_colour_is_not_stated_and_a_switch_has_none() {
    let mut desk = Desk::new(room(FixtureKind::Sofa)).expect("an answer");
    given::set(&mut desk, "fixture.0.colour", "rust").expect("taken");
    assert_eq!(desk.plan().fixtures[0].colour, Some(Colour::hex(0x9c_5a_3c)));
    given::set(&mut desk, "fixture.0.colour", "slate grey").expect("taken");
    assert_eq!(desk.plan(), &room(FixtureKind::Sofa));
    let mut desk = Desk::new(room(FixtureKind::Switch)).expect("an answer");
    assert!(given::read(desk.plan(), desk.stock(), "fixture.0.colour").is_none());
    assert!(given::set(&mut desk, "fixture.0.colour", "rust").is_err());
}

/// The pixels that another colour of the fixture changes, as channels from 0 to 255.
fn changed(kind: FixtureKind, view: View, colour: u32) -> Vec<[f64; 3]> {
    let draw = |colour: u32| {
        let mut plan = room(kind);
        plan.fixtures[0].colour = Some(Colour::hex(colour));
        let mut desk = Desk::new(plan).expect("an answer");
        let mut sheet = Sheet { view, lines: false, ..Sheet::new(700, 1) };
        sheet.height_px = desk.height_for_width(&sheet);
        desk.draw(&sheet).pixels.to_vec()
    };
    let (drawn, other) = (draw(colour), draw(0x40_a0_60));
    let pairs = drawn.chunks_exact(4).zip(other.chunks_exact(4));
    let differing = pairs.filter(|(one, other)| one != other);
    differing.map(|(pixel, _)| [pixel[0], pixel[1], pixel[2]].map(f64::from)).collect()
}

#[test]
fn a_colour_is_seen_in_both_views_with_light_and_shadow_on_it() {
    for kind in [
        FixtureKind::Sofa,
        FixtureKind::Bed,
        FixtureKind::Curtain,
        FixtureKind::Sideboard,
        FixtureKind::Bookcase,
    ] {
        for view in [View::Elevation, View::Oblique] {
            let red = changed(kind, view, 0xb0_30_20);
            let what = format!("{} {view:?}", kind.name());
            assert!(red.len() > 2000, "{what}: {} pixels", red.len());
            let reddish = red.iter().filter(|[red, green, blue]| red > green && red > blue).count();
            assert!(reddish * 100 > red.len() * 95, "{what}: {reddish} of {}", red.len());
            // White is not blown out and black not drowned: what is turned away from the light differs from what is turned to it.
            for colour in [0xff_ff_ff, 0x00_00_00] {
                let mut light: Vec<f64> =
                    changed(kind, view, colour).iter().map(|pixel| pixel.iter().sum()).collect();
                light.sort_by(f64::total_cmp);
                let at = |share: usize| light[light.len() * share / 1000] / 3.0;
                assert!(at(995) - at(5) > 6.0, "{what} in {colour:06x}: {} to {}", at(5), at(995));
                assert!(
                    at(950) < 254.0 && at(500) > 4.0,
                    "{what} in {colour:06x}: {} and {}",
                    at(950),
                    at(500)
                );
            }
        }
    }
}
