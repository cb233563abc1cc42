//! What is unwise about where things are on the wall.

use super::context::{Context, image, length, over, set, set_length, words};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::arrange::covers;
use crate::field::{self, Edit, Field, To};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::measure::Grade;
use crate::plan::{
    self, Across, Arrangement, Fixture, FixtureKind, GroupAcross, GroupUp, Relation, Swing, System,
};
use crate::print::Exact;
use crate::rounding::Mode;
use crate::stock::thresholds::*;

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "beyond-the-wall",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "{thing} extends {by} beyond {edge}.",
        find: beyond_the_wall,
    },
    Row {
        code: "covers-a-fixture",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "{piece} hangs over the {fixture}, which has to stay clear.",
        find: |on| covered(on, Relation::KeepClear),
    },
    Row {
        code: "behind-furniture",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "{piece} reaches down behind the {fixture}.",
        find: |on| covered(on, Relation::HangAbove),
    },
    Row {
        code: "near-a-fitting",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "{piece} is {by} from the {fixture}; leave {room} so that people can reach it.",
        find: near_a_fitting,
    },
    Row {
        code: "door-swing",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The {door} opens against {piece}.",
        find: door_swing,
    },
    Row {
        code: "above-a-radiator",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "{piece} hangs in the warm air above the {radiator}, which dries out paper, canvas and glue.",
        find: above_a_radiator,
    },
    Row {
        code: "past-the-wall",
        about: About::Fixtures,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The casing of the {fixture} extends {by} past the wall: measure both again.",
        find: past_the_wall,
    },
    Row {
        code: "two-in-one-place",
        about: About::Fixtures,
        severity: Severity::Taste,
        authority: Authority::Sizes,
        words: "The {one} and the {other} overlap, with their casings where they have one: measure again where they are.",
        find: overlapping,
    },
    Row {
        code: "beside-a-window",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "{piece} is {by} beside the {window}: the light dazzles people who look at it. {far} or more is easier on the eye.",
        find: beside_a_window,
    },
    Row {
        code: "wider-than-furniture",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The group is {group} wide and the {fixture} below it only {width}: the wall looks bottom-light.",
        find: |on| share_of_furniture(on, true),
    },
    Row {
        code: "share-of-furniture",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The group fills {share} of the {fixture}'s width; {usual} is usual.",
        find: |on| share_of_furniture(on, false),
    },
    Row {
        code: "gap",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The gap between the pieces is {gap}; {least} to {most} is usual.",
        find: gap,
    },
    Row {
        code: "near-furniture",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The group starts {clearance} above the {fixture}; with less than {least}, heads and cushions touch it.",
        find: |on| clearance(on, true),
    },
    Row {
        code: "high-above-furniture",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The group starts {clearance} above the {fixture}; with more than {most}, the two no longer look like they belong together.",
        find: |on| clearance(on, false),
    },
    Row {
        code: "near-the-ceiling",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The group ends {by} below {what}; {least} or more looks better.",
        find: near_the_ceiling,
    },
    Row {
        code: "near-a-corner",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The group is {by} from the {side} corner; {least} or more looks better.",
        find: near_a_corner,
    },
    Row {
        code: "centre-height",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Guidance("Glasgow Museums Display Guidelines"),
        words: "The centre is {centre} above the floor; {low} to {high} suits people who stand.",
        find: |on| centre_height(on, false),
    },
    Row {
        code: "centre-height-seated",
        about: About::Hanging,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The centre is {centre} above the floor; {low} to {high} suits people who sit.",
        find: |on| centre_height(on, true),
    },
];

fn beyond_the_wall(on: &Context<'_>) -> Vec<Case> {
    let (wall, group) = (on.plan.wall.size, on.figures.arranged.group);
    let mut found = Vec::new();
    let mut beyond = |about, name: &str, rect: Rect, mends: &[(&str, Edit)]| {
        let edges = [
            (-rect.x, "the left corner of the wall"),
            (rect.right() - wall.width, "the right corner of the wall"),
            (rect.top() - wall.height, "the ceiling"),
            (-rect.y, "the floor"),
        ];
        for (by, edge) in edges.into_iter().filter(|(by, _)| *by > Length::ZERO) {
            let by = Value::Length(by, Grade::Room);
            let case = Case::of([words(name), by, words(edge)]).about(about).on(&[name, edge].concat());
            let mended = mends.iter().fold(case, |case, (words, set)| case.mend(*words, [set.clone()]));
            found.push(mended);
        }
    };
    for (index, fixture, rect) in on.fixtures() {
        let mends = [
            (
                "Put it in the middle",
                set(Field::fixture(&plan::FIXTURE_ACROSS, index), To::one_of(&Across::Middle)),
            ),
            (
                "Stand it on the floor",
                set_length(Field::fixture(&plan::FIXTURE_FROM_FLOOR, index), Length::ZERO),
            ),
        ];
        beyond(About::Fixtures, &["The ", &fixture.name].concat(), rect, &mends);
    }
    let under = wall.height - on.plan.site.cornice - on.limit(&UNDER_CEILING) - group.size.height;
    let mut mends = vec![
        ("Hang it in the middle of the wall", set(&plan::GROUP_ACROSS, To::one_of(&GroupAcross::WallMiddle))),
        ("Hang it at eye level", set(&plan::GROUP_UP, To::one_of(&GroupUp::EyeLevel))),
        ("Hang it below the ceiling", set_length(&field::GROUP_BOTTOM, on.to_mark(under, Mode::Down))),
    ];
    if on.plan.pieces.len() > 1 && on.plan.shared.is_none() {
        mends.push(("Move the pieces closer together", set_length(&plan::GROUP_GAP, on.limit(&LEAST_GAP))));
    }
    beyond(About::Hanging, on.all(), group, &mends);
    found
}

/// The case with ways out of a rectangle with so much room round it: above, to its sides, below.
pub(super) fn moved_away(on: &Context<'_>, case: Case, rect: Rect, room: Length) -> Case {
    let size = on.figures.arranged.group.size;
    let left = on.to_mark(rect.x - room - size.width, Mode::Down);
    let right = on.to_mark(rect.right() + room, Mode::Up);
    let above = on.to_mark(rect.top() + room, Mode::Up);
    let below = on.to_mark(rect.y - room - size.height, Mode::Down);
    case.mend("Move it to the left", [set_length(&field::GROUP_LEFT, left)])
        .mend("Move it to the right", [set_length(&field::GROUP_LEFT, right)])
        .mend("Raise it", [set_length(&field::GROUP_BOTTOM, above)])
        .mend("Lower it", [set_length(&field::GROUP_BOTTOM, below)])
}

/// The first piece that has something in common with a rectangle.
pub(super) fn touching(on: &Context<'_>, rect: Rect) -> Option<(usize, Rect)> {
    let outsides = on.figures.arranged.outsides.iter().copied().enumerate();
    outsides.into_iter().find(|(_, outside)| outside.common(rect).is_some())
}

fn wider(rect: Rect, room: Length) -> Rect {
    rect.grown(room)
}

fn covered(on: &Context<'_>, relation: Relation) -> Vec<Case> {
    let is_above = relation == Relation::HangAbove;
    let of_relation = on.fixtures().filter(|(_, fixture, _)| fixture.is_hung_above() == is_above);
    let covered = of_relation.filter_map(|(index, fixture, _)| {
        let rect = on.figures.arranged.taken[index];
        let outsides = &on.figures.arranged.outsides;
        let piece = outsides.iter().position(|&outside| covers(outside, fixture, rect))?;
        // What hangs over the opening itself, and not over its casing alone, is another case.
        if fixture.kind.has_casing() && touching(on, on.figures.arranged.fixtures[index]).is_some() {
            return None;
        }
        let case = Case::of([words(on.one(piece)), words(fixture.name.as_str())]).on(&fixture.name);
        let room = on.limit(if relation == Relation::KeepClear { &ROUND_FITTINGS } else { &LEAST_CLEARANCE });
        Some(moved_away(on, case, rect, room))
    });
    covered.collect()
}

/// Casings that reach past the wall, where what they go round does not: the wall or they are measured wrong.
fn past_the_wall(on: &Context<'_>) -> Vec<Case> {
    let wall = on.plan.wall.size;
    let is_within =
        |rect: Rect| rect.x >= Length::ZERO && rect.right() <= wall.width && rect.top() <= wall.height;
    let past = on.fixtures().filter(|(.., rect)| is_within(*rect)).filter_map(|(index, fixture, _)| {
        let taken = on.figures.arranged.taken[index];
        let over = [-taken.x, taken.right() - wall.width, taken.top() - wall.height];
        let by = over.into_iter().max().filter(|by| *by > Length::ZERO)?;
        let case = Case::of([words(fixture.name.as_str()), length(by)]).on(&fixture.name);
        // From whichever corner it is measured, so far that the casing ends there.
        let is_aside = over[0] > Length::ZERO || over[1] > Length::ZERO;
        let fits = taken.size.width <= wall.width && over[2] <= Length::ZERO;
        Some(match fixture.across {
            Across::FromLeft(_) | Across::FromRight(_) if is_aside && fits => {
                let from_left = matches!(fixture.across, Across::FromLeft(_));
                let is_near = (over[0] > Length::ZERO) == from_left;
                let casing = fixture.casing();
                let at = if is_near { casing } else { wall.width - fixture.size.width - casing };
                let how = ["Put it ", &on.text(at), " from the corner"].concat();
                case.mend(how, [set_length(Field::fixture(&plan::FIXTURE_DISTANCE, index), at)])
            }
            _ => case,
        })
    });
    past.collect()
}

/// Fixtures of one kind, in the wall or before it, that are in one place; what stands before the wall may well stand before a window.
fn overlapping(on: &Context<'_>) -> Vec<Case> {
    let fixtures: Vec<(usize, &Fixture)> =
        on.fixtures().map(|(index, fixture, _)| (index, fixture)).collect();
    let pairs = fixtures
        .iter()
        .enumerate()
        .flat_map(|(at, one)| fixtures[at + 1..].iter().map(move |other| (one, other)));
    let found = pairs.filter(|((one, first), (other, second))| {
        let taken = &on.figures.arranged.taken;
        let crosses = first.kind.crosses_others() || second.kind.crosses_others();
        !crosses
            && first.kind.stands_before_wall() == second.kind.stands_before_wall()
            && taken[*one].common(taken[*other]).is_some()
    });
    let case = |((_, one), (_, other)): (&(usize, &Fixture), &(usize, &Fixture))| {
        let names = [words(one.name.as_str()), words(other.name.as_str())];
        Case::of(names).on(&[&one.name, " and ", &other.name].concat())
    };
    found.map(case).collect()
}

fn near_a_fitting(on: &Context<'_>) -> Vec<Case> {
    let room = on.limit(&ROUND_FITTINGS);
    let clear = on.fixtures().filter(|(_, fixture, _)| {
        let is_reached =
            matches!(fixture.kind, FixtureKind::Switch | FixtureKind::Socket | FixtureKind::Thermostat);
        is_reached && fixture.relation == Relation::KeepClear
    });
    let near = clear.filter_map(|(_, fixture, rect)| {
        if touching(on, rect).is_some() {
            return None;
        }
        let (piece, outside) = touching(on, wider(rect, room))?;
        let apart = |one: Rect, other: Rect| {
            let across = (other.x - one.right()).max(one.x - other.right());
            across.max((other.y - one.top()).max(one.y - other.top()))
        };
        let by = length(apart(outside, rect));
        let case = Case::of([words(on.one(piece)), by, words(fixture.name.as_str()), length(room)]);
        Some(moved_away(on, case.on(&fixture.name), rect, room))
    });
    near.collect()
}

/// The part of the wall over which a door opens.
pub(super) fn swept(fixture: &Fixture, rect: Rect) -> Option<Rect> {
    let x = match fixture.swing {
        _ if fixture.kind != FixtureKind::Door => return None,
        Swing::Clear => return None,
        Swing::Left => rect.x - rect.size.width,
        Swing::Right => rect.right(),
    };
    Some(Rect::new(x, rect.y, rect.size))
}

fn door_swing(on: &Context<'_>) -> Vec<Case> {
    let opening = on.fixtures().filter_map(|(index, fixture, rect)| {
        let swept = swept(fixture, rect)?;
        let (piece, _) = touching(on, swept)?;
        let name = on.one(piece).to_ascii_lowercase();
        let case = Case::of([words(fixture.name.as_str()), words(name)]).on(&fixture.name);
        let swing = set(Field::fixture(&plan::FIXTURE_SWING, index), To::choice(Swing::Clear));
        let case = case.mend("Let it open away from this wall", [swing]);
        Some(moved_away(on, case, swept, Length::ZERO))
    });
    opening.collect()
}

/// The part of the wall where the air of a radiator rises.
pub(super) fn warm_air(fixture: &Fixture, rect: Rect, wall: Length) -> Option<Rect> {
    let is_warm = fixture.kind == FixtureKind::Radiator;
    is_warm.then(|| Rect::new(rect.x, rect.top(), Size::new(rect.size.width, wall)))
}

fn above_a_radiator(on: &Context<'_>) -> Vec<Case> {
    let warm = on.fixtures().filter_map(|(_, fixture, rect)| {
        let (piece, _) = touching(on, warm_air(fixture, rect, on.plan.wall.size.height)?)?;
        let case = Case::of([words(on.one(piece)), words(fixture.name.as_str())]).on(&fixture.name);
        Some(moved_away(on, case, rect, Length::ZERO))
    });
    warm.collect()
}

fn beside_a_window(on: &Context<'_>) -> Vec<Case> {
    let far = on.limit(&BESIDE_WINDOW);
    let windows = on.fixtures().filter(|(_, fixture, _)| fixture.kind == FixtureKind::Window);
    let beside = windows.filter_map(|(_, fixture, rect)| {
        if touching(on, rect).is_some() {
            return None;
        }
        let band = Rect::new(rect.x - far, rect.y, Size::new(rect.size.width + far * 2, rect.size.height));
        let (piece, outside) = touching(on, band)?;
        let by = (rect.x - outside.right()).max(outside.x - rect.right());
        let name = words(fixture.name.as_str());
        let case = Case::of([words(on.one(piece)), length(by), name, length(far)]).on(&fixture.name);
        Some(moved_away(on, case, rect, far))
    });
    beside.collect()
}

/// What the group is hung above by the plan, with its number, its name and where it is.
fn hung_above<'a>(on: &Context<'a>) -> Option<(&'a str, Rect)> {
    let GroupUp::Above { fixture, .. } = on.plan.group.up else { return None };
    let stated = on.plan.fixtures.get(fixture)?;
    (stated.is_hung_above() && stated.kind != FixtureKind::Stairs)
        .then(|| (stated.name.as_str(), on.figures.arranged.fixtures[fixture]))
}

/// Images as large as it takes to make the group so wide, in words.
fn so_wide(on: &Context<'_>, case: Case, wanted: Length) -> Case {
    let images = on.plan.pieces.iter().map(|piece| piece.image.width);
    let along = match on.plan.group.arrangement {
        Arrangement::Column => images.max().unwrap_or_default(),
        Arrangement::Row | Arrangement::Stepped(_) => images.sum(),
        // The first, and the widest of the others.
        Arrangement::StackRight | Arrangement::StackLeft => {
            let mut images = images;
            images.next().unwrap_or_default() + images.max().unwrap_or_default()
        }
    };
    let then = along + wanted - on.figures.arranged.group.size.width;
    if then <= Length::ZERO {
        return case;
    }
    let first = on.plan.pieces[0].image;
    let ratio = over(then, along);
    let told = on.size_text(on.size_of(first, ratio));
    let is_alike = on.plan.pieces.iter().all(|piece| piece.image == first);
    let how = if then < along { "smaller" } else { "larger" };
    let what = match (on.plan.pieces.len(), is_alike) {
        (1, _) => ["Make it ", &told].concat(),
        (_, true) => ["Make each ", &told].concat(),
        _ => ["Make all of them ", how].concat(),
    };
    let each = on.plan.pieces.iter().enumerate();
    let images = each.map(|(piece, stated)| image(piece, on.size_of(stated.image, ratio)));
    case.mend(what, images.collect::<Vec<Edit>>())
}

/// Pieces are not hung closer than this to fit what stands below them (common practice, no source).
const CLOSEST: Length = Length::inches(1);

fn share_of_furniture(on: &Context<'_>, is_wider: bool) -> Vec<Case> {
    let Some((name, below)) = hung_above(on) else { return Vec::new() };
    let (group, below) = (on.figures.arranged.group.size.width, below.size.width);
    let (least, most) = (on.number(&LEAST_SHARE), on.number(&MOST_SHARE));
    let share = over(group, below);
    let part =
        |of: Exact| Length::from_ratio(i128::from(below.units()) * of.numer(), *of.denom(), Mode::Down);
    if is_wider {
        if group <= below {
            return Vec::new();
        }
        let case =
            Case::of([Value::Length(group, Grade::Room), words(name), Value::Length(below, Grade::Room)]);
        return vec![so_wide(on, case, part(most))];
    }
    if share >= least && share <= most || group > below {
        return Vec::new();
    }
    let usual = if (least, most) == (Exact::new(2, 3), Exact::new(3, 4)) {
        String::from("67 to 75 %")
    } else {
        [Value::Percent(least), Value::Percent(most)].map(|value| value.shown(on.plan.units)).join(" to ")
    };
    // A mark or two within, since images are rounded down.
    let wanted = if share < least { part(least) + Length::inches_ratio(1, 2) } else { part(most) };
    let mut case = so_wide(on, Case::of([Value::Percent(share), words(name), words(usual)]), wanted);
    let count = i64::try_from(on.plan.pieces.len()).unwrap_or(1) - 1;
    let is_row = on.plan.group.arrangement == Arrangement::Row && on.plan.shared.is_none();
    if is_row && count > 0 {
        let gap = on.plan.group.gap + (wanted - group).times_ratio(1, count);
        let gap = on.to_mark(gap, Mode::Down);
        if gap >= CLOSEST {
            let how = ["Hang them ", &on.text(gap), " apart"].concat();
            case = case.mend(how, [set_length(&plan::GROUP_GAP, gap)]);
        }
    }
    vec![case]
}

fn gap(on: &Context<'_>) -> Vec<Case> {
    if on.plan.pieces.len() < 2 || on.plan.shared.is_some() {
        return Vec::new();
    }
    let (gap, least, most) = (on.plan.group.gap, on.limit(&LEAST_GAP), on.limit(&MOST_GAP));
    if (least..=most).contains(&gap) {
        return Vec::new();
    }
    let wanted = if gap < least { on.to_mark(least, Mode::Up) } else { on.to_mark(most, Mode::Down) };
    let case = Case::of([gap, least, most].map(length));
    vec![
        case.mend(
            ["Hang them ", &on.text(wanted), " apart"].concat(),
            [set_length(&plan::GROUP_GAP, wanted)],
        ),
    ]
}

/// The nearest furniture that the group hangs over: its name and its upper edge.
fn furniture_below<'a>(on: &Context<'a>) -> Option<(usize, &'a str, Length)> {
    let group = on.figures.arranged.group;
    let below = on.fixtures().filter(|(_, fixture, rect)| {
        let is_furniture = matches!(
            fixture.kind,
            FixtureKind::Sofa
                | FixtureKind::Sideboard
                | FixtureKind::Bed
                | FixtureKind::Table
                | FixtureKind::Desk
        );
        is_furniture
            && fixture.is_hung_above()
            && rect.x < group.right()
            && group.x < rect.right()
            && rect.top() <= group.y
    });
    below.map(|(index, fixture, rect)| (index, fixture.name.as_str(), rect.top())).max_by_key(|found| found.2)
}

fn clearance(on: &Context<'_>, is_near: bool) -> Vec<Case> {
    let Some((fixture, name, top)) = furniture_below(on) else { return Vec::new() };
    let clearance = on.figures.arranged.group.y - top;
    let (least, most) = (on.limit(&LEAST_CLEARANCE), on.limit(&MOST_CLEARANCE));
    let is_wrong = if is_near { clearance < least } else { clearance > most };
    if !is_wrong {
        return Vec::new();
    }
    let usual = match on.plan.units.first {
        System::Inches => Length::inches(8),
        System::Centimetres => Length::mm(200),
    };
    let usual = usual.max(least).min(most);
    let case = Case::of([length(clearance), words(name), length(if is_near { least } else { most })]);
    let settings =
        [set(&plan::GROUP_UP, To::Option(field::above(fixture))), set_length(&plan::GROUP_CLEARANCE, usual)];
    vec![case.mend(["Hang it ", &on.text(usual), " above the ", name].concat(), settings)]
}

fn near_the_ceiling(on: &Context<'_>) -> Vec<Case> {
    let (group, cornice) = (on.figures.arranged.group, on.plan.site.cornice);
    let least = on.limit(&UNDER_CEILING);
    // A beam above the group is its ceiling.
    let beam = on.fixtures().filter(|(_, fixture, rect)| {
        let is_over = rect.x < group.right() && group.x < rect.right() && rect.y >= group.top();
        fixture.kind == FixtureKind::Beam && is_over
    });
    let under = beam.map(|(_, fixture, rect)| (rect.y, fixture.name.as_str())).min();
    let ceiling = on.plan.wall.size.height - cornice;
    let beam = under.filter(|(foot, _)| *foot < ceiling);
    let by = beam.map_or(ceiling, |(foot, _)| foot) - group.top();
    // Beyond the ceiling it can't hang at all.
    if by >= least || group.top() > on.plan.wall.size.height {
        return Vec::new();
    }
    let what = match beam {
        Some((_, name)) => ["the ", name].concat(),
        None if cornice > Length::ZERO => String::from("the cornice"),
        None => String::from("the ceiling"),
    };
    let lower = on.to_mark(group.y - (least - by), Mode::Down);
    let case = Case::of([length(by), words(what), length(least)]);
    vec![
        case.mend(
            ["Lower it by ", &on.text(group.y - lower)].concat(),
            [set_length(&field::GROUP_BOTTOM, lower)],
        )
        .mend("Hang it at eye level", [set(&plan::GROUP_UP, To::one_of(&GroupUp::EyeLevel))]),
    ]
}

fn near_a_corner(on: &Context<'_>) -> Vec<Case> {
    let (group, wall) = (on.figures.arranged.group, on.plan.wall.size.width);
    let least = on.limit(&FROM_CORNER);
    let sides = [(group.x, "left", least), (wall - group.right(), "right", wall - least - group.size.width)];
    let near = sides.into_iter().filter(|(by, _, _)| (Length::ZERO..least).contains(by));
    near.map(|(by, side, left)| {
        let left = on.to_mark(left, if side == "left" { Mode::Up } else { Mode::Down });
        Case::of([length(by), words(side), length(least)])
            .on(side)
            .mend(
                "Hang it in the middle of the wall",
                [set(&plan::GROUP_ACROSS, To::one_of(&GroupAcross::WallMiddle))],
            )
            .mend("Move it from the corner", [set_length(&field::GROUP_LEFT, left)])
    })
    .collect()
}

fn centre_height(on: &Context<'_>, seated: bool) -> Vec<Case> {
    let (centre, eye) = (on.figures.arranged.group.centre().y, on.plan.viewing.eye_level);
    let highest_seated = on.limit(&HIGHEST_SEATED);
    if seated != (eye <= highest_seated) {
        return Vec::new();
    }
    let (low, high) = if seated {
        (on.limit(&LOWEST_SEATED), highest_seated)
    } else {
        (on.limit(&LOWEST_CENTRE), on.limit(&HIGHEST_CENTRE))
    };
    if (low..=high).contains(&centre) {
        return Vec::new();
    }
    let wanted = if centre < low { on.to_mark(low, Mode::Up) } else { on.to_mark(high, Mode::Down) };
    vec![
        Case::of([centre, low, high].map(length))
            .mend("Hang it at eye level", [set(&plan::GROUP_UP, To::one_of(&GroupUp::EyeLevel))])
            .mend(["Centre it at ", &on.text(wanted)].concat(), [set_length(&field::GROUP_CENTRE, wanted)]),
    ]
}

/// A piece with another image, in words.
pub(super) fn resized(on: &Context<'_>, case: Case, pieces: &[usize], size: Size) -> Case {
    if !size.is_positive() {
        return case;
    }
    let settings: Vec<Edit> = pieces.iter().map(|&piece| image(piece, size)).collect();
    case.mend(["Make it ", &on.size_text(size)].concat(), settings)
}
