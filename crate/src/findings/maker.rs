//! What the stock does not take: sheets, rolls, sticks, sizes and parcels.

use super::context::{Context, image, length, on_pieces, words};
use super::place::resized;
use super::{About, Authority, Case, Row, Severity, Value};
use crate::field::{Edit, To};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::making::{Print, Thing};
use crate::plan::{self, Finish, Glazing, Material};

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "no-sheet",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Stock,
        words: "The {part} can't be cut: {why}.",
        find: no_sheet,
    },
    Row {
        code: "no-roll",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Stock,
        words: "No roll in the stock list is large enough for a print of {print}; make it smaller.",
        find: no_roll,
    },
    Row {
        code: "no-stick",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Stock,
        words: "A leg of {rail} is longer than the longest stick in the stock list allows, {stick}.",
        find: no_stick,
    },
    Row {
        code: "metal-not-offered",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Stock,
        words: "There is no print on metal of {size} in the stock list; a size from the list costs less than one made to measure.",
        find: metal_not_offered,
    },
    Row {
        code: "no-parcel",
        about: About::Site,
        severity: Severity::Disappoints,
        authority: Authority::Stock,
        words: "No carrier in the stock list takes a box of {length} × {width} × {height}: it has to be collected.",
        find: no_parcel,
    },
];

fn is_metal(on: &Context<'_>, thing: &Thing) -> bool {
    matches!(on.plan.pieces[thing.pieces[0]].finish, Finish::Aluminium(_))
}

fn unprinted<'t>(on: &Context<'_>, thing: &'t Thing) -> Option<&'t Print> {
    thing.prints.iter().find(|print| print.rolls.is_empty() && !is_metal(on, thing))
}

/// The longest leg of a thing and the longest stick, where that is too short for it.
fn unsawn(on: &Context<'_>, thing: &Thing) -> Option<(Length, Length)> {
    let rail = thing.rails.map(|(rails, _)| rails.across.long_point.max(rails.upright.long_point))?;
    let stick = on.stock.sticks.iter().map(|stick| stick.length - stick.trim).max()?;
    (rail > stick).then_some((rail, stick))
}

/// The first thing that the stock can't make: the others are made alike, as a rule.
fn refused<'l>(on: &'l Context<'_>) -> Option<&'l Thing> {
    on.things().iter().find(|thing| {
        thing.blanks.iter().any(|blank| blank.sheet.is_err())
            || unprinted(on, thing).is_some()
            || unsawn(on, thing).is_some()
    })
}

/// Images so much smaller that what is as large as `part` now is no larger than `limit`, turned as it is.
fn smaller(on: &Context<'_>, case: Case, thing: &Thing, part: Size, limit: Size) -> Case {
    let (short, long) = (limit.width.min(limit.height), limit.width.max(limit.height));
    let limit = if part.width > part.height { Size::new(long, short) } else { Size::new(short, long) };
    let now = on.plan.pieces[thing.pieces[0]].image;
    let excess = |part: Length, limit: Length| (part - limit).max(Length::ZERO);
    let wanted = Size::new(
        now.width - excess(part.width, limit.width),
        now.height - excess(part.height, limit.height),
    );
    if !wanted.is_positive() {
        return case;
    }
    // Of the same shape, within what is wanted.
    let by_width = super::context::over(wanted.width, now.width);
    let ratio = by_width.min(super::context::over(wanted.height, now.height));
    let size = on.size_of(now, ratio);
    let alike: Vec<usize> =
        on.pieces().filter(|(_, piece, _)| piece.image == now).map(|(piece, _, _)| piece).collect();
    resized(on, case, &alike, size)
}

fn no_sheet(on: &Context<'_>) -> Vec<Case> {
    let Some(thing) = refused(on) else { return Vec::new() };
    let lacking = thing.blanks.iter().filter_map(|blank| Some((blank, blank.sheet.as_ref().err()?)));
    lacking
        .map(|(blank, why)| {
            let mut case = Case::of([words(blank.part), words(why.to_string())]).on(blank.part);
            let rows = on.stock.sheets.iter().filter(|row| {
                row.material == blank.material && crate::cut_list::is_as_thick(row.thickness, blank.thickness)
            });
            if let Some(largest) =
                rows.max_by_key(|row| (row.size.width.min(row.size.height), row.size.width))
            {
                case = smaller(on, case, thing, blank.size, largest.size);
            }
            if blank.material == Material::Glass {
                case = case.mend(
                    "Use acrylic",
                    on_pieces(&thing.pieces, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO))),
                );
            }
            case
        })
        .collect()
}

fn no_roll(on: &Context<'_>) -> Vec<Case> {
    let Some(thing) = refused(on) else { return Vec::new() };
    let Some(print) = unprinted(on, thing) else { return Vec::new() };
    let case = Case::of([Value::Size(print.size)]);
    let widest = on.stock.rolls.iter().max_by_key(|roll| roll.width - roll.margin * 2);
    let Some(roll) = widest else { return vec![case] };
    let across = roll.width - roll.margin * 2;
    let along = roll.longest.unwrap_or(print.size.width.max(print.size.height));
    vec![smaller(on, case, thing, print.size, Size::new(across, along))]
}

fn no_stick(on: &Context<'_>) -> Vec<Case> {
    let Some(thing) = refused(on) else { return Vec::new() };
    let Some((rail, stick)) = unsawn(on, thing) else { return Vec::new() };
    let outside = on.figures.build_ups[thing.pieces[0]].outside;
    let case = Case::of([length(rail), length(stick)]);
    vec![
        smaller(on, case, thing, outside, Size::new(stick, stick))
            .mend("Leave out the frame", on_pieces(&thing.pieces, &plan::FRAME, To::yes(false))),
    ]
}

fn metal_not_offered(on: &Context<'_>) -> Vec<Case> {
    let either_way = |row: Size, size: Size| row == size || Size::new(row.height, row.width) == size;
    let listed = |size: Size| on.stock.sizes.iter().any(|row| row.is_print && either_way(row.size, size));
    let odd: Vec<(usize, Size)> = on
        .pieces()
        .filter(|(_, piece, _)| matches!(piece.finish, Finish::Aluminium(_)) && !listed(piece.image))
        .map(|(piece, stated, _)| (piece, stated.image))
        .collect();
    let Some(&(_, size)) = odd.first() else { return Vec::new() };
    // The size of the plan's own system that is nearest, turned alike, and no larger than a quarter of its sides away.
    let turned = |row: Size| {
        if (row.width > row.height) == (size.width > size.height) {
            row
        } else {
            Size::new(row.height, row.width)
        }
    };
    let off = |row: Size| (row.width - size.width).abs() + (row.height - size.height).abs();
    let own = on.stock.sizes.iter().filter(|row| row.is_print && row.system == on.plan.units.first);
    let nearest = own.map(|row| turned(row.size)).min_by_key(|row| off(*row));
    let case = Case::of([Value::Size(size)]);
    let near = nearest.filter(|row| off(*row) * 2 <= size.width + size.height);
    let Some(near) = near else { return vec![case] };
    let settings: Vec<Edit> =
        odd.iter().filter(|entry| entry.1 == size).map(|entry| image(entry.0, near)).collect();
    vec![case.mend(["Make it ", &on.size_text(near)].concat(), settings)]
}

fn no_parcel(on: &Context<'_>) -> Vec<Case> {
    let Some(thing) = on.things().iter().find(|thing| thing.carriers.is_empty()) else { return Vec::new() };
    let carton = thing.carton;
    let case = Case::of([carton.length, carton.width, carton.height].map(length));
    let outside: Rect = Rect::new(Length::ZERO, Length::ZERO, on.figures.build_ups[thing.pieces[0]].outside);
    let longest = on.stock.parcels.iter().filter_map(|row| row.longest).max();
    let Some(longest) = longest else { return vec![case] };
    let within = (longest - crate::making::PACKING * 2).max(Length::ZERO);
    vec![smaller(on, case, thing, outside.size, Size::new(within, within))]
}
