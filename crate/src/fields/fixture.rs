//! Fixtures added, replaced and removed.

use super::FieldError;
use crate::colour::Colour;
use crate::field::{Field, Whose};
use crate::figures::Figures;
use crate::length::Length;
use crate::plan::{Across, Fixture, FixtureKind, GroupAcross, GroupUp, Plan, System, limits};

/// Adds a fixture of this kind, with a name of its own, where nothing stands.
pub(crate) fn add(plan: &mut Plan, kind: FixtureKind) -> Result<(), FieldError> {
    if plan.fixtures.len() == limits::FIXTURES {
        return Err(FieldError::Full);
    }
    let mut fixture = Fixture::starting_on(kind, plan.wall.size, plan.units.first);
    fixture.name = own_name(plan, kind, usize::MAX);
    fixture.across = free_place(plan, &fixture);
    plan.fixtures.push(fixture);
    Ok(())
}

/// Puts a fixture of this kind in place of another.
pub(super) fn replace(plan: &mut Plan, number: usize, kind: FixtureKind) {
    let name = own_name(plan, kind, number);
    let (wall, system) = (plan.wall.size, plan.units.first);
    if let Some(fixture) = plan.fixtures.get_mut(number) {
        *fixture = Fixture { name, ..Fixture::starting_on(kind, wall, system) };
    }
}

/// The usual place of a fixture or, where something stands already, the first place from the left where nothing does.
fn free_place(plan: &Plan, fixture: &Fixture) -> Across {
    let step = match plan.units.first {
        System::Inches => Length::inches(2),
        System::Centimetres => Length::mm(50),
    };
    let standing = crate::arrange::arrange(plan, &[]).fixtures;
    let is_free = |across: Across| {
        let mut tried = plan.clone();
        tried.fixtures = vec![Fixture { across, ..fixture.clone() }];
        let places = crate::arrange::arrange(&tried, &[]).fixtures;
        places.iter().all(|place| standing.iter().all(|other| place.common(other.grown(step)).is_none()))
    };
    if is_free(fixture.across) || fixture.kind.spans_wall() {
        return fixture.across;
    }
    let mut left = step;
    while left + fixture.size.width <= plan.wall.size.width {
        if is_free(Across::FromLeft(left)) {
            return Across::FromLeft(left);
        }
        left += step;
    }
    fixture.across
}

/// Gives a fixture a colour; its usual one is not stated. Whether it is one that has a colour.
pub(super) fn colour(plan: &mut Plan, field: Field, colour: Colour) -> bool {
    let Whose::Fixture(number) = field.of else { return false };
    let Some(fixture) = plan.fixtures.get_mut(number) else { return false };
    let Some(usual) = fixture.kind.usual_colour() else { return false };
    fixture.colour = (colour != usual).then_some(colour);
    true
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

/// Removes a fixture; what was placed by it stays where it is.
pub(super) fn remove(plan: &mut Plan, number: usize) {
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
