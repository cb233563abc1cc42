//! Lengths that follow from a plan and can be asked for all the same.

use super::*;

/// Lengths that follow from the plan and can be asked for all the same: the group's place and width, and the outside of
/// pieces.
pub(super) fn derived(plan: &Plan, field: &str) -> Option<(Length, Grade)> {
    let path: Vec<&str> = field.split('.').collect();
    let figures = Figures::of(plan).ok()?;
    let group = figures.arranged.group;
    Some(match path[..] {
        ["group", "left"] => (group.x, Grade::Room),
        ["group", "right"] => (plan.wall.size.width - group.right(), Grade::Room),
        ["group", "middle"] => (group.centre().x, Grade::Room),
        ["group", "centre"] => (group.centre().y, Grade::Piece),
        ["group", "bottom"] => (group.y, Grade::Piece),
        ["group", "width"] => (group.size.width, Grade::Room),
        ["piece", which, part @ ("outside_width" | "outside_height")] => {
            let index = if which == "all" { 0 } else { which.parse::<usize>().ok()? };
            let outside = figures.build_ups.get(index)?.outside;
            (if part == "outside_width" { outside.width } else { outside.height }, Grade::Piece)
        }
        _ => return None,
    })
}

/// Changes what is stated so that a derived length comes out as asked for.
pub(super) fn write_derived(
    changed: &mut Plan,
    plan: &Plan,
    field: &str,
    length: Length,
) -> Result<(), FieldError> {
    let figures = Figures::of(plan)?;
    let group = figures.arranged.group;
    let size = group.size;
    let across = GroupAcross::CentreAt;
    let path: Vec<&str> = field.split('.').collect();
    match path[..] {
        ["group", "left"] => changed.group.across = across(length + size.width.half()),
        ["group", "right"] => {
            changed.group.across = across(plan.wall.size.width - length - (size.width - size.width.half()));
        }
        ["group", "middle"] => changed.group.across = across(length),
        ["group", "centre"] => changed.group.up = GroupUp::CentreAt(length),
        ["group", "bottom"] => changed.group.up = GroupUp::CentreAt(length + size.height.half()),
        ["group", "width"] => widen_group(changed, length - size.width),
        ["piece", _, part] if changed.shared.is_some() => {
            let by = length - if part == "outside_width" { size.width } else { size.height };
            let wider = part == "outside_width";
            grow_shared(changed, wider, by);
        }
        ["piece", which, part] => {
            for (index, sizes) in figures.build_ups.iter().enumerate() {
                if which != "all" && which.parse() != Ok(index) {
                    continue;
                }
                let grown = if part == "outside_width" {
                    Size::new(length - sizes.outside.width, Length::ZERO)
                } else {
                    Size::new(Length::ZERO, length - sizes.outside.height)
                };
                changed.pieces[index].grow(grown);
            }
        }
        _ => return Err(unknown(field)),
    }
    Ok(())
}

/// Makes the group wider by so much: side by side every piece takes its part of it, to the last unit; in a column every
/// piece takes all of it. Gaps stay as they are.
fn widen_group(plan: &mut Plan, by: Length) {
    if plan.shared.is_some() {
        grow_shared(plan, true, by);
        return;
    }
    let count = u32::try_from(plan.pieces.len()).unwrap_or(1).max(1);
    let column = plan.group.arrangement == Arrangement::Column;
    let parts: Vec<Length> = if column { vec![by; plan.pieces.len()] } else { by.parts(count).collect() };
    for (piece, part) in plan.pieces.iter_mut().zip(parts) {
        piece.grow(Size::new(part, Length::ZERO));
    }
}

/// Makes a shared frame wider, or higher: along the row every image takes its part, across it every image takes all.
fn grow_shared(plan: &mut Plan, wider: bool, by: Length) {
    let count = u32::try_from(plan.pieces.len()).unwrap_or(1).max(1);
    let along = wider != (plan.group.arrangement == Arrangement::Column);
    let parts: Vec<Length> = if along { by.parts(count).collect() } else { vec![by; plan.pieces.len()] };
    let size =
        |part: Length| if wider { Size::new(part, Length::ZERO) } else { Size::new(Length::ZERO, part) };
    for (piece, part) in plan.pieces.iter_mut().zip(parts) {
        piece.grow_sheet(size(part));
    }
    if let Some(first) = plan.pieces.first_mut() {
        first.grow_board(size(by));
    }
}
