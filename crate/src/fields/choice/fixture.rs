//! What is chosen of a fixture: its kind, its place, and what pictures have to do with it.

use super::*;

/// To which side a door opens.
const SWINGS: [&str; 3] = [
    "opens away from this wall",
    "opens against the wall to its left",
    "opens against the wall to its right",
];

pub(super) fn fixture_options(fixture: &Fixture, part: &str) -> Option<Choice> {
    match part {
        "kind" => {
            let mut options: Vec<&str> = FixtureKind::ALL.iter().map(|kind| kind.name()).collect();
            options.push(TAKE_AWAY);
            of(&options, fixture.kind.name())
        }
        "across" => {
            let index = match fixture.across {
                Across::Middle => 0,
                Across::FromLeft(_) => 1,
                Across::FromRight(_) => 2,
            };
            of(&ACROSS, name_of(&ACROSS, index))
        }
        "swing" if fixture.kind == FixtureKind::Door => of(&SWINGS, name_of(&SWINGS, fixture.swing as usize)),
        "pictures" => {
            let options = ["pictures may hang above it", "pictures keep clear of it"];
            of(&options, name_of(&options, usize::from(fixture.relation == Relation::KeepClear)))
        }
        _ => None,
    }
}

/// A fixture of this kind with a name of its own.
pub(super) fn add_fixture(plan: &mut Plan, kind: FixtureKind) -> Result<(), FieldError> {
    if plan.fixtures.len() == limits::FIXTURES {
        return Err(FieldError::from(format!(
            "this plan has {} fixtures already, and takes no more",
            limits::FIXTURES
        )));
    }
    let mut fixture = Fixture::starting(kind);
    fixture.name = own_name(plan, kind, usize::MAX);
    fixture.across = free_place(plan, &fixture);
    plan.fixtures.push(fixture);
    Ok(())
}

/// The usual place of a fixture or, where something stands already, the first place from the left where nothing does.
fn free_place(plan: &Plan, fixture: &Fixture) -> Across {
    let standing = crate::arrange::arrange(plan, &[]).fixtures;
    let is_free = |across: Across| {
        let mut tried = plan.clone();
        tried.fixtures = vec![Fixture { across, ..fixture.clone() }];
        let room = crate::geometry::Sides::all(-Length::inches(2));
        let places = crate::arrange::arrange(&tried, &[]).fixtures;
        places.iter().all(|place| standing.iter().all(|other| place.common(other.shrunk(room)).is_none()))
    };
    if is_free(fixture.across) {
        return fixture.across;
    }
    let step = Length::inches(2);
    let mut left = step;
    while left + fixture.size.width <= plan.wall.size.width {
        if is_free(Across::FromLeft(left)) {
            return Across::FromLeft(left);
        }
        left += step;
    }
    fixture.across
}

fn own_name(plan: &Plan, kind: FixtureKind, but: usize) -> String {
    let taken = |name: &str| {
        plan.fixtures.iter().enumerate().any(|(index, known)| index != but && known.name == name)
    };
    let mut name = kind.name().to_owned();
    let mut number = 2;
    while taken(&name) {
        name = format!("{} {number}", kind.name());
        number += 1;
    }
    name
}

pub(super) fn write_fixture(plan: &mut Plan, number: usize, part: &str, index: usize) {
    if part == "kind" && index == FixtureKind::ALL.len() {
        remove_fixture(plan, number);
        return;
    }
    let wall = plan.wall.size.width;
    let renamed = (part == "kind").then(|| own_name(plan, FixtureKind::ALL[index], number));
    let Some(fixture) = plan.fixtures.get_mut(number) else { return };
    match part {
        "kind" => {
            let new = Fixture::starting(FixtureKind::ALL[index]);
            *fixture = Fixture { name: renamed.unwrap_or_default(), ..new };
        }
        "across" => {
            let width = fixture.size.width;
            let left = match fixture.across {
                Across::Middle => (wall - width).half(),
                Across::FromLeft(x) => x,
                Across::FromRight(x) => wall - x - width,
            };
            fixture.across = match index {
                0 => Across::Middle,
                1 => Across::FromLeft(left),
                _ => Across::FromRight(wall - left - width),
            };
        }
        "swing" => fixture.swing = [Swing::Clear, Swing::Left, Swing::Right][index],
        _ => {
            fixture.relation = if index == 0 { Relation::HangAbove } else { Relation::KeepClear };
        }
    }
}

/// Takes a fixture away; what was placed by it stays where it is.
fn remove_fixture(plan: &mut Plan, number: usize) {
    if number >= plan.fixtures.len() {
        return;
    }
    let centre = Figures::of(plan).map(|figures| figures.arranged.group.centre()).unwrap_or_default();
    plan.fixtures.remove(number);
    let moved =
        |index: usize| if index > number { Some(index - 1) } else { (index < number).then_some(index) };
    if let GroupAcross::FixtureMiddle(index) = plan.group.across {
        plan.group.across = moved(index).map_or(GroupAcross::CentreAt(centre.x), GroupAcross::FixtureMiddle);
    }
    if let GroupUp::Above { fixture, clearance } = plan.group.up {
        plan.group.up = moved(fixture)
            .map_or(GroupUp::CentreAt(centre.y), |fixture| GroupUp::Above { fixture, clearance });
    }
}
