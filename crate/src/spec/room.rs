//! The wall and what stands there, in sentences.

use super::Writer;
use crate::field::{self, Field};
use crate::length::Length;
use crate::plan::{self, Across, FixtureKind, Glazing, Piece, Plan, Relation, ViewerOffset};
use crate::words::in_units;

/// The wall, and from where it is seen.
pub(super) fn wall(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    writer
        .text("The wall is ")
        .field(&plan::WALL_WIDTH)
        .text(" wide and ")
        .field(&plan::WALL_HEIGHT)
        .text(" high, ")
        .field(&plan::WALL_FINISH)
        .text(", painted ");
    writer.field(&plan::WALL_PAINT).text(", over ").field(&plan::WALL_FLOOR);
    writer.text(&in_units(" with a baseboard of ", plan.units.first)).field(&plan::WALL_SKIRTING);
    if plan.from_photograph.is_some() {
        writer
            .text(", measured ")
            .field(&plan::FROM_PHOTOGRAPH)
            .text(", ± ")
            .field(&plan::FROM_PHOTOGRAPH_OFF);
    }
    writer.text(". People see it ").field(&plan::VIEWING_LIGHT).text(" from ");
    writer.field(&plan::VIEWING_DISTANCE).text(", ");
    if plan.viewing.aside != ViewerOffset::Straight {
        writer.field(&plan::VIEWING_ASIDE).text(" ");
    }
    writer.field(&plan::VIEWING_SIDE);
    writer.text(", at an eye level of ").field(&plan::VIEWING_EYE_LEVEL);
    writer.text("; ").field(&plan::VIEWING_FIGURE).text(" is drawn for scale");
    let is_glazed =
        |piece: &Piece| piece.finish.framing().is_some_and(|framing| framing.glazing != Glazing::None);
    if plan.pieces.iter().any(is_glazed) {
        writer.text(", and ").field(&plan::VIEWING_REFLECTION).text(" in the glazing");
    }
    writer.text(".");
    writer
}

/// What stands before the wall and is built into it.
pub(super) fn fixtures(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    for (index, fixture) in plan.fixtures.iter().enumerate() {
        let field = |row| Field::fixture(row, index);
        let article = if index == 0 { "A " } else { "a " };
        writer.text(article).field(field(&plan::FIXTURE_KIND));
        if fixture.kind.usual_colour().is_some() {
            writer.text(" in ").field(field(&plan::FIXTURE_COLOUR));
        }
        writer.text(", ").field(field(&plan::FIXTURE_WIDTH));
        if fixture.kind.has_depth() {
            writer
                .text(" wide, ")
                .field(field(&plan::FIXTURE_HEIGHT))
                .text(" high and ")
                .field(field(&plan::FIXTURE_DEPTH));
            writer.text(" deep, ");
        } else {
            writer.text(" wide and ").field(field(&plan::FIXTURE_HEIGHT)).text(" high, ");
        }
        if fixture.across != Across::Middle {
            writer.field(field(&plan::FIXTURE_DISTANCE)).text(" ");
        }
        writer.field(field(&plan::FIXTURE_ACROSS));
        if fixture.from_floor > Length::ZERO || fixture.relation == Relation::KeepClear {
            writer.text(" and ").field(field(&plan::FIXTURE_FROM_FLOOR)).text(" from the floor");
        }
        if fixture.kind.has_casing() {
            writer.text(", with a casing of ").field(field(&plan::FIXTURE_CASING));
        }
        if fixture.kind.has_room_above() {
            writer.text(", and ").field(field(&plan::FIXTURE_RELATION));
        }
        if fixture.kind == FixtureKind::Stairs {
            writer.text(", and it ").field(field(&plan::FIXTURE_RISE));
        }
        if fixture.kind == FixtureKind::Door {
            writer.text(", and it ").field(field(&plan::FIXTURE_SWING));
        }
        writer.text(if index + 1 == plan.fixtures.len() { ". " } else { "; " });
    }
    if plan.fixtures.is_empty() {
        writer.text("Nothing yet. ");
    }
    writer.field(&field::FIXTURES_ADD);
    writer
}
