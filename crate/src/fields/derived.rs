//! Lengths that follow from a plan and can be asked for all the same: the group's place and width, the outside of pieces.

use super::FieldError;
use crate::described::Row;
use crate::field::{self, Field, Whose};
use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{self, Arrangement, GroupAcross, GroupUp, HangerPlace, Plan};

/// What such a field says now.
pub(super) fn derived(plan: &Plan, field: Field) -> Option<Length> {
    let is = |one: &'static Row| *field.row == *one;
    let known = [
        &field::GROUP_LEFT,
        &field::GROUP_RIGHT,
        &field::GROUP_MIDDLE,
        &field::GROUP_CENTRE,
        &field::GROUP_BOTTOM,
        &field::GROUP_WIDTH,
        &field::OUTSIDE_WIDTH,
        &field::OUTSIDE_HEIGHT,
        &plan::FIXING_FROM_SIDES,
        &plan::FIXING_DOWN,
    ];
    if !known.contains(&field.row) {
        return None;
    }
    let figures = Figures::of(plan).ok()?;
    let group = figures.arranged.group;
    Some(if is(&field::GROUP_LEFT) {
        group.x
    } else if is(&field::GROUP_RIGHT) {
        plan.wall.size.width - group.right()
    } else if is(&field::GROUP_MIDDLE) {
        group.centre().x
    } else if is(&field::GROUP_CENTRE) {
        group.centre().y
    } else if is(&field::GROUP_BOTTOM) {
        group.y
    } else if is(&field::GROUP_WIDTH) {
        group.size.width
    } else if is(&plan::FIXING_FROM_SIDES) {
        figures.hanging.first()?.places.from_sides
    } else if is(&plan::FIXING_DOWN) {
        figures.hanging.first()?.places.down
    } else {
        let outside = figures.build_ups.get(*field.pieces_of(plan).first()?)?.outside;
        if is(&field::OUTSIDE_WIDTH) { outside.width } else { outside.height }
    })
}

/// Changes what is stated so that a derived length comes out as asked for; whether the field is one.
pub(super) fn write(
    changed: &mut Plan,
    plan: &Plan,
    field: Field,
    length: Length,
) -> Result<bool, FieldError> {
    if derived(plan, field).is_none() {
        return Ok(false);
    }
    let figures = Figures::of(plan)?;
    let size = figures.arranged.group.size;
    let is = |one: &'static Row| *field.row == *one;
    let across = |x| GroupAcross::CentreAt(x);
    if is(&field::GROUP_LEFT) {
        changed.group.across = across(length + size.width.half());
    } else if is(&field::GROUP_RIGHT) {
        changed.group.across = across(plan.wall.size.width - length - (size.width - size.width.half()));
    } else if is(&field::GROUP_MIDDLE) {
        changed.group.across = across(length);
    } else if is(&field::GROUP_CENTRE) {
        changed.group.up = GroupUp::CentreAt(length);
    } else if is(&field::GROUP_BOTTOM) {
        changed.group.up = GroupUp::CentreAt(length + size.height.half());
    } else if is(&field::GROUP_WIDTH) {
        widen_group(changed, length - size.width);
    } else if is(&plan::FIXING_FROM_SIDES) || is(&plan::FIXING_DOWN) {
        let [sides, down] = changed.fixing.places_mut();
        *if is(&plan::FIXING_DOWN) { down } else { sides } = HangerPlace::At(length);
    } else {
        let is_wider = is(&field::OUTSIDE_WIDTH);
        if changed.shared.is_some() && field.of != Whose::Plan {
            grow_shared(changed, is_wider, length - if is_wider { size.width } else { size.height });
            return Ok(true);
        }
        for piece in field.pieces_of(plan) {
            let outside = figures.build_ups[piece].outside;
            let by = length - if is_wider { outside.width } else { outside.height };
            changed.pieces[piece].grow(one_way(is_wider, by));
        }
    }
    Ok(true)
}

fn one_way(is_wider: bool, by: Length) -> Size {
    if is_wider { Size::new(by, Length::ZERO) } else { Size::new(Length::ZERO, by) }
}

/// Makes the group wider by so much: side by side every piece takes its part of it, to the last unit; in a column every
/// piece takes all of it. Gaps stay as they are.
fn widen_group(plan: &mut Plan, by: Length) {
    if plan.shared.is_some() {
        grow_shared(plan, true, by);
        return;
    }
    if plan.group.arrangement.is_mixed() {
        // The first takes half of it, each of the others the other half.
        let halves: Vec<Length> = by.parts(2).collect();
        for (index, piece) in plan.pieces.iter_mut().enumerate() {
            piece.grow(one_way(true, halves[index.min(1)]));
        }
        return;
    }
    let is_column = plan.group.arrangement == Arrangement::Column;
    for (part, piece) in parts(by, plan.pieces.len(), !is_column).into_iter().zip(&mut plan.pieces) {
        piece.grow(one_way(true, part));
    }
}

/// Makes a shared frame wider, or higher: along the row every image takes its part, across it every image takes all.
fn grow_shared(plan: &mut Plan, is_wider: bool, by: Length) {
    let is_along = is_wider != (plan.group.arrangement == Arrangement::Column);
    for (part, piece) in parts(by, plan.pieces.len(), is_along).into_iter().zip(&mut plan.pieces) {
        piece.grow_sheet(one_way(is_wider, part));
    }
    if let Some(first) = plan.pieces.first_mut() {
        first.grow_board(one_way(is_wider, by));
    }
}

/// What each of several takes of a length: its part, or all of it.
fn parts(by: Length, count: usize, is_shared: bool) -> Vec<Length> {
    let whole = u32::try_from(count).unwrap_or(1).max(1);
    if is_shared { by.parts(whole).collect() } else { vec![by; count] }
}
