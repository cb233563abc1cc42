//! The hanging plan: every hook from one corner of the wall and from the floor, what carries how much, and what to beware of.

use super::Said;
use super::cut::tick;
use super::elevation::{Manner, View, extent, in_words, moved, scale_for, wall};
use super::flow::{BODY, Early, Flow, NOTE, Table, circle};
use super::sheet::{Hand, INK, Item, Page, QUIET, RED, Role, THIN, WHITE};
use super::{Job, Kind};
use crate::colour::Colour;
use crate::findings::{Severity, findings};
use crate::geometry::{Point, Rect, Size};
use crate::hang::{HangerPlaces, Hanging};
use crate::hangers::{self, NeededRating, carried_by, ways};
use crate::length::Length;
use crate::making::{Thing, things};
use crate::measure::{self, Grade, print_in};
use crate::plan::{FixtureKind, Hanger, Plan, System, Units};
use crate::rounding::nearest;
use crate::spec::capital;
use crate::stock::name_in;
use crate::text::{Face, typeset};
use crate::weigh::{in_kilograms, in_pounds};

/// A hook: its number is its place in the list, from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Hook {
    /// What hangs on it: its place among the things, and in words.
    pub(super) thing: usize,
    pub(super) of: String,
    /// On the wall.
    pub(super) at: Point,
}

/// What hangs and by what, each thing once.
pub(super) fn hung<'a>(job: &Job<'a>) -> Vec<&'a Hanging> {
    let together = if job.plan.shared.is_some() { job.plan.pieces.len() } else { 1 };
    job.figures.hanging.iter().step_by(together.max(1)).collect()
}

/// Every hook, in the order of the plan.
pub(super) fn hooks(job: &Job<'_>) -> Vec<Hook> {
    let hung = hung(job);
    let mut found = Vec::new();
    for (index, hanging) in hung.iter().enumerate() {
        let piece =
            if hung.len() == 1 { "the piece".into() } else { ["piece ", &(index + 1).to_string()].said() };
        for (side, at) in hanging.hooks.iter().enumerate() {
            let is_cleat = job.plan.fixing.hanger == Hanger::Cleat;
            let side = match (hanging.hooks.len(), side, is_cleat) {
                (1, ..) => "",
                (_, 0, false) => ", left",
                (_, _, false) => ", right",
                (_, 0, true) => ", left end of the cleat",
                (_, _, true) => ", right end of the cleat",
            };
            found.push(Hook { thing: index, of: [&piece, side].said(), at: *at });
        }
    }
    found
}

/// What stands above the drawing.
const FIRST: &str =
    "First read \"Before you drill\" below. Local codes and licensed practice come before this paper.";

/// What must be read before a hole is made (common practice, no source, but where one is named).
fn cautions(job: &Job<'_>) -> [&'static str; 4] {
    [
    "Local codes and licensed practice come first; where they differ from this paper, follow them. Before you drill, find out what is in the wall: cables and pipes often run straight up, down and across from switches, sockets, lamps, taps and radiators (tinted on the drawing). Elsewhere only a detector finds them. If you can't be sure, don't drill.",
    "What a fixing carries depends on the wall. If you don't know the wall, assume the worst: drill one test hole where a picture will hide it, and ask someone who is licensed.",
    "Above a bed, a cot or a seat, acrylic is safer than glass, closed hooks are safer than open ones, and two fixings are safer than one. Within reach of children or animals: nothing that swings or hangs by one nail. In an earthquake area: closed hooks, no wire, and a stop at the bottom.",
    job.rule(
        "In public corridors nothing may project more than 4 in (102 mm) between 27 and 80 in (686 and 2032 mm) above the floor (ADA Standards 2010, 307.2); other countries have their own rules.",
        "In public corridors nothing may project more than 102 mm between 686 and 2032 mm above the floor in the United States (ADA Standards 2010, 307.2); other countries have their own rules.",
    ),
]
}

pub(super) fn pages(job: &Job<'_>, early: Early) -> Vec<Page> {
    let mut flow = Flow::new(job, Kind::Hanging, early);
    let hooks = hooks(job);
    flow.caution(FIRST);
    let (items, size, scale) = drawn(job, flow.width());
    let strip = flow.strip(size.height);
    let by = Point::new(strip.x + (strip.size.width - size.width).half(), strip.y);
    let table = table(job.plan, &hooks);
    let words: Vec<String> = table.rows.iter().map(|row| row.join(", ")).collect();
    let words = ["The wall with each hook from the left corner and the floor: ", &words.join("; ")].said();
    flow.push(Role::Drawing(words), moved(items, by));
    let scale = in_words(scale, job.plan.units.first);
    flow.text(
        NOTE,
        &[
            "The wall, flat and to scale, ",
            &scale,
            ". Every distance along the wall is measured from its left corner, never from hook to hook.",
        ]
        .said(),
    );
    flow.table(&table);
    flow.heading("Before you drill");
    // What is so of this plan comes before what is so of every wall.
    for finding in findings(job.plan, job.figures, job.stock) {
        if finding.severity >= Severity::Safety {
            flow.caution(&["In this plan: ", &finding.sentence, " (", finding.authority.words(), ")"].said());
        }
    }
    if let Some(off) = job.plan.from_photograph {
        let off = measure::shown(off, Grade::Piece, job.plan.units);
        flow.caution(
            &[
                "The wall and what stands before it were measured in a photograph: every length from a corner, from the floor and from furniture is from the photograph, ± ",
                &off,
                ". Measure them on the wall before you drill; distances between hooks are not from the photograph.",
            ]
            .said(),
        );
    }
    for caution in cautions(job) {
        flow.caution(caution);
    }
    for words in in_line(job, &hooks) {
        flow.caution(&words);
    }
    hardware(job, &mut flow);
    steps(job, &hooks, &mut flow);
    super::lit::light(job, &mut flow);
    flow.finish()
}

/// The hooks in both systems, to the nearest 1/16 in and 1 mm.
fn table(plan: &Plan, hooks: &[Hook]) -> Table {
    let (hanger, first) = (plan.fixing.hanger, plan.units.first);
    let mark = if hanger == Hanger::Cleat { "Mark" } else { hanger.at_wall(false) };
    // A length from a photograph is never told without saying so.
    let off = plan.from_photograph.map(|off| print_in(off, Grade::Piece, first));
    let head = |from: &str| match &off {
        Some(off) => [from, ", from the photograph, ± ", off].said(),
        None => from.into(),
    };
    let (across, up) = (head("From the left corner"), head("From the floor"));
    let mut table = Table::new(&[&capital(mark), "For", &across, "", &up, ""]);
    for (number, hook) in (1..).zip(hooks) {
        let mut row = vec![number.to_string(), hook.of.clone()];
        for length in [hook.at.x, hook.at.y] {
            row.extend(both(first, length));
        }
        table.rows.push(row);
    }
    table
}

/// To the nearest millimetre.
fn in_millimetres(length: Length) -> String {
    use crate::length::print::{Style, print};
    print(length, Style::Millimetres { decimals: 0 }).text
}

/// A distance in both systems, the plan's own first.
pub(super) fn text(job: &Job<'_>, length: Length) -> String {
    let [own, other] = both(job.plan.units.first, length);
    [&own, " = ", &other].said()
}

/// On the wall: to the nearest 1/16 in and 1 mm, the plan's own system first.
fn both(first: System, length: Length) -> [String; 2] {
    first.with_other().map(|system| match system {
        System::Inches => print_in(length, Grade::Piece, system),
        System::Centimetres => in_millimetres(length),
    })
}

/// Between two dimension lines.
const LANE: Length = Length::micrometres(5400);
/// From the wall to the first of them.
const OFF: Length = Length::mm(4);
/// Figures on the drawing.
const FIGURE: Hand = Hand::new(Face::Sans, 84, INK);
/// Where cables and pipes often run.
const TINT: Colour = Colour::hex(0xfb_e9_e2);
const BROKEN: [Length; 4] = [Length::mm(4), Length::mm(1), Length::micrometres(600), Length::mm(1)];

/// The level line that the hooks are marked from: at the lowest of them.
fn datum(hooks: &[Hook]) -> Length {
    hooks.iter().map(|hook| hook.at.y).min().unwrap_or_default()
}

/// The wall with its hooks, in a strip of this width: from its own lower left corner, how large, how many times smaller.
pub(super) fn drawn(job: &Job<'_>, width: Length) -> (Vec<Item>, Size, i64) {
    let scene = job.scene();
    let hooks = hooks(job);
    let mut heights: Vec<Length> = hooks.iter().map(|hook| hook.at.y).collect();
    crate::order::sort(&mut heights);
    heights.dedup();
    let times = |count: usize| LANE * i64::try_from(count).unwrap_or(0);
    let (beside, below) = (OFF + times(heights.len()), OFF + times(hooks.len()) + Length::mm(2));
    let (size, shown) = (scene.wall.size, extent(&scene));
    let room = [(shown.size.width, width - beside - Length::mm(2)), (shown.size.height, Length::mm(112))];
    let scale = scale_for(job.plan.units.first, &room);
    // What a plan has beyond its wall is drawn too.
    let beyond = |length: Length| length.times_ratio(1, scale);
    let origin = Point::new(beside - beyond(shown.x), below - beyond(shown.y));
    let view = View { scale, origin };
    let on_paper = view.rect(Rect::new(Length::ZERO, Length::ZERO, size));
    let mut items = wall(job.plan, &scene, view, Manner::Outlined);
    let outline = Item::rect(on_paper, None, Some((THIN, INK)));
    items.splice(1..1, bands(job, view).into_iter().chain([outline]));
    let datum = datum(&hooks);
    let (left, right) = (on_paper.x, on_paper.right());
    items.push(Item::dashed((left, view.y(datum)), (right, view.y(datum)), RED, &BROKEN));
    let named = Hand { ink: RED, ..FIGURE };
    items.push(named.ending(right - Length::mm(1), view.y(datum) + Length::mm(1), "datum line"));
    for (lane, height) in (0..).zip(&heights) {
        let (x, y) = (left - OFF - LANE * lane - LANE.half(), view.y(*height));
        if *height != datum {
            items.push(Item::dashed((left, y), (right, y), QUIET, &[Length::mm(1), Length::mm(1)]));
        }
        items.push(Item::line((left - Length::mm(1), y), (x - Length::mm(1), y), THIN, QUIET));
        dimension(Point::new(x, on_paper.y), Point::new(x, y), &text(job, *height), &mut items);
    }
    items.push(Item::line(
        (left - Length::mm(1), on_paper.y),
        (left - OFF - times(heights.len()), on_paper.y),
        THIN,
        QUIET,
    ));
    let mut order: Vec<(usize, &Hook)> = hooks.iter().enumerate().collect();
    crate::order::sort_by_key(&mut order, |(index, hook)| (hook.at.x, *index));
    for (lane, (_, hook)) in (0..).zip(&order) {
        let (x, y) = (view.x(hook.at.x), on_paper.y - OFF - LANE * lane - LANE.half());
        items.push(Item::line((x, view.y(hook.at.y)), (x, y - Length::mm(1)), THIN.half(), QUIET));
        dimension(Point::new(left, y), Point::new(x, y), &text(job, hook.at.x), &mut items);
    }
    if job.plan.fixing.hanger == Hanger::Cleat {
        items.extend(hooks.chunks_exact(2).map(|ends| {
            let [from, to] = [view.point(ends[0].at), view.point(ends[1].at)];
            Item::line((from.x, from.y), (to.x, to.y), THIN * 3, RED)
        }));
    }
    let foot = on_paper.y - OFF - times(hooks.len());
    items.push(Item::line((left, on_paper.y - Length::mm(1)), (left, foot), THIN, QUIET));
    for (index, hook) in hooks.iter().enumerate() {
        mark(view.point(hook.at), &(index + 1).to_string(), &mut items);
    }
    let corner = view.point(Point::new(shown.right(), shown.top()));
    (items, Size::new(corner.x + Length::mm(2), corner.y + Length::mm(2)), scale)
}

/// A hook: a circle with a cross in it, and its number.
pub(super) fn mark(at: Point, number: &str, items: &mut Vec<Item>) {
    mark_of(at, (Length::micrometres(2600), THIN), number, items);
}

/// A cross in a circle, so large and of lines so wide, with a number beside it.
pub(super) fn mark_of(at: Point, (size, line): (Length, Length), number: &str, items: &mut Vec<Item>) {
    let reach = size.half();
    items.push(Item::Shape {
        path: circle(at, size.times_ratio(9, 26)),
        fill: Some(WHITE),
        line: Some((line, RED)),
    });
    items.push(Item::line((at.x - reach, at.y), (at.x + reach, at.y), line, RED));
    items.push(Item::line((at.x, at.y - reach), (at.x, at.y + reach), line, RED));
    let hand = Hand { ink: RED, face: Face::SansMedium, ..FIGURE };
    items.push(hand.write(at.x + reach, at.y + Length::micrometres(800), number));
}

/// A level or upright dimension line with its figure in a gap of it, or beyond its end where it is too short.
fn dimension(from: Point, to: Point, figure: &str, items: &mut Vec<Item>) {
    let text = typeset(figure);
    let is_upright = from.x == to.x;
    let (long, wide) = (to.x - from.x + to.y - from.y, FIGURE.width(&text) + Length::mm(3));
    items.push(Item::line((from.x, from.y), (to.x, to.y), THIN, INK));
    let along = if long > wide + Length::mm(4) { long.half() } else { long + wide.half() + Length::mm(1) };
    let (middle, field) = if is_upright {
        (Point::new(from.x, from.y + along), Size::new(FIGURE.em, wide))
    } else {
        (Point::new(from.x + along, from.y), Size::new(wide, FIGURE.em))
    };
    let corner = (middle.x - field.width.half(), middle.y - field.height.half());
    items.push(Item::rect(Rect::new(corner.0, corner.1, field), Some(WHITE), None));
    items.extend([tick(from, INK), tick(to, INK)]);
    items.push(FIGURE.centred(middle, is_upright, text));
}

/// Fixtures that a cable or a pipe leads to.
fn leads<'a>(job: &Job<'a>) -> impl Iterator<Item = (&'a str, Rect)> + use<'a> {
    let of = |kind| {
        matches!(
            kind,
            FixtureKind::Switch | FixtureKind::Socket | FixtureKind::Thermostat | FixtureKind::Radiator
        )
    };
    let all = job.plan.fixtures.iter().zip(&job.figures.arranged.fixtures);
    all.filter(move |(fixture, _)| of(fixture.kind)).map(|(fixture, rect)| (fixture.name.as_str(), *rect))
}

/// Straight up, down and across from each of them.
fn bands(job: &Job<'_>, view: View) -> Vec<Item> {
    let size = job.plan.wall.size;
    let zero = Length::ZERO;
    let both = |rect: Rect| {
        [
            Rect::new(rect.x, zero, Size::new(rect.size.width, size.height)),
            Rect::new(zero, rect.y, Size::new(size.width, rect.size.height)),
        ]
    };
    let whole = Rect::new(zero, zero, size);
    let within = leads(job).flat_map(|(_, rect)| both(rect)).filter_map(|band| band.common(whole));
    within.map(|band| Item::rect(view.rect(band), Some(TINT), None)).collect()
}

/// How near to such a line a hook is named: a drill's width and a hand's error (common practice, no source).
const NEAR: Length = Length::mm(50);

/// The hooks that are in line with something that a cable or a pipe leads to.
fn in_line(job: &Job<'_>, hooks: &[Hook]) -> Vec<String> {
    let mut found = Vec::new();
    for (name, rect) in leads(job) {
        let is_near = |from: Length, to: Length, at: Length| (from - NEAR..=to + NEAR).contains(&at);
        let numbers: Vec<String> = (1..)
            .zip(hooks)
            .filter(|(_, hook)| {
                is_near(rect.x, rect.right(), hook.at.x) || is_near(rect.y, rect.top(), hook.at.y)
            })
            .map(|(number, _): (u32, _)| number.to_string())
            .collect();
        if !numbers.is_empty() {
            let which = [if numbers.len() == 1 { "Hook " } else { "Hooks " }, &numbers.join(", ")].said();
            found.push(
                [&which, ": in line with the ", name, ". Find its cable or pipe before you drill."].said(),
            );
        }
    }
    found
}

/// What each thing weighs, and what carries it.
fn hardware(job: &Job<'_>, flow: &mut Flow) {
    flow.heading("Weights and fixings");
    let hanger = job.plan.fixing.hanger;
    let things = things(job.plan, job.figures, job.stock);
    let at_wall = capital(hanger.at_wall(true));
    let mut table = Table::new(&[
        "Piece",
        "Weight, about",
        "On its back",
        &at_wall,
        "Rating of each wall fixing, at least",
    ]);
    let hung = hung(job);
    for (index, (thing, hanging)) in things.iter().zip(&hung).enumerate() {
        // Who works in inches reads both; nobody works in centimetres and pounds.
        let first = job.plan.units.first;
        let weight = measure::weight(thing.mass, Units { first, both: first == System::Inches });
        let sold = hangers::to_buy(hanger, hanging, job.stock, thing.rated_mg());
        let count = hangers::fixings(hanger, hanging, first);
        table.rows.push(vec![
            if hung.len() == 1 { "the piece".into() } else { (index + 1).to_string() },
            if thing.mass.likely_mg > 0 { weight } else { "weigh it".into() },
            sold.map_or("nothing on sale carries this".into(), |sold| {
                name_in(&sold.name, job.plan.units.first).into_owned()
            }),
            count.to_string(),
            rated(job, thing, count),
        ]);
    }
    flow.table(&table);
    let first = hung.first();
    let mut words = String::from(
        "Weights are calculated, not weighed: weigh each piece ready to hang, and choose the fixings by that. Each fixing should be rated for its share of at least twice the weight (common practice, no source); the rating on the packet applies to the wall named there. ",
    );
    let is_single = first.is_some_and(|hanging| hanging.hooks.len() == 1);
    let heavy = things.iter().any(|thing| thing.mass.most_mg > 5_000_000)
        || job.figures.arranged.outsides.iter().any(|outside| outside.size.width > Length::inches(24));
    if is_single && heavy {
        words += job.rule(
            "Above about 11 lb, or 24 in in width, use two points instead of one. ",
            "Above about 5 kg, or 61 cm in width, use two points instead of one. ",
        );
    }
    for thing in things.iter().filter(|thing| !thing.not_weighed.is_empty()).take(1) {
        words += &["Not included in these weights: ", thing.not_weighed, ". "].said();
    }
    // What all have alike is said once.
    let alike = hung.iter().all(|hanging| (hanging.places, hanging.wire) == (hung[0].places, hung[0].wire));
    for (index, hanging) in hung.iter().enumerate().take(if alike { 1 } else { hung.len() }) {
        let of = if alike { String::new() } else { [" of piece ", &(index + 1).to_string()].said() };
        words += &on_the_back(job, hanging, &of);
    }
    if hung.iter().any(|hanging| hanging.wire.is_some()) {
        words += "Use wire with a breaking strength of at least four times the weight (common practice, no source), never cord. ";
    }
    if !hung.is_empty() {
        words += "The screws in its back must be shorter than the wood is deep; the cut list says how long they are.";
    }
    flow.text(BODY, &words);
    other_ways(job, &things, flow);
}

/// Where the hangers of a thing are, and its wire, in sentences.
fn on_the_back(job: &Job<'_>, hanging: &Hanging, of: &str) -> String {
    let mut words = String::new();
    if let Some(wire) = hanging.wire {
        let angle = nearest(wire.angle_degrees()).to_string();
        words += &[
            "The wire",
            of,
            " is ",
            &text(job, wire.length),
            " from ring to ring, plus about ",
            job.rule("6 in", "15 cm"),
            " at each end to wind round itself; pulled tight it rises ",
            &text(job, wire.rise),
            " above the rings, at ",
            &angle,
            "° from horizontal. ",
        ]
        .said();
    }
    let HangerPlaces { from_sides, down } = hanging.places;
    let (down, from_sides, drop) = (text(job, down), text(job, from_sides), text(job, hanging.drop));
    words += &match job.plan.fixing.hanger {
        Hanger::Rings | Hanger::Wire { .. } => [
            "The rings",
            of,
            " are ",
            &down,
            " below the top edge and ",
            &from_sides,
            " in from the sides; the hook is ",
            &drop,
            " below the top edge. ",
        ]
        .said(),
        Hanger::Keyholes => [
            "The upper ends of the slots",
            of,
            " are ",
            &down,
            " below the top edge, with their middles ",
            &from_sides,
            " in from the sides. ",
        ]
        .said(),
        Hanger::Sawtooth => ["The teeth", of, " are ", &down, " below the top edge, in the middle. "].said(),
        Hanger::Cleat => [
            "The cleat",
            of,
            " is ",
            &text(job, hanging.span),
            " long. The half on the back hooks over the other half ",
            &down,
            " below the top edge, and ends ",
            &from_sides,
            " in from the sides. A strip as thick as the cleat, ",
            &text(job, hanging.off_wall),
            ", across the bottom of the back keeps the piece upright. ",
        ]
        .said(),
    };
    words
}

/// Every way to hang the heaviest thing: its drop, what it carries, and what speaks against it.
fn other_ways(job: &Job<'_>, things: &[Thing], flow: &mut Flow) {
    let Some(thing) = things.iter().max_by_key(|thing| thing.mass.most_mg) else { return };
    let units = job.plan.units;
    let mut table = Table::new(&["Hung by", "Drop from the top edge", "Carries about", "For this piece"]);
    for way in ways(job.plan, job.figures, job.stock, thing) {
        let is_planned =
            job.plan.fixing.hanger.offered().is_some_and(|place| Hanger::OFFERED[place].0 == way.key);
        // The plan's own hangers are where the plan has them.
        let first = thing.pieces.first().and_then(|&piece| job.figures.hanging.get(piece));
        let planned = first.filter(|_| is_planned).cloned();
        let against: Vec<String> = way.against.iter().map(|against| against.text(units)).collect();
        let verdict = match (against.is_empty(), way.is_advised) {
            (true, true) => String::from("recommended"),
            (true, false) => String::from("suitable"),
            (false, _) => ["no: ", &against.join("; ")].said(),
        };
        let carried = carried_by(&job.plan.pieces[thing.pieces[0]], way.hanger);
        let verdict = match carried.filter(|_| against.is_empty()) {
            Some(carried) => [&verdict, ", ", carried].said(),
            None => verdict,
        };
        table.rows.push(vec![
            way.words.into(),
            planned.or(way.hanging).map_or(String::new(), |hanging| text(job, hanging.drop)),
            way.carries_mg.map_or(String::new(), |mg| match units.first {
                System::Inches => in_pounds(mg, 0),
                System::Centimetres => in_kilograms(mg, 0),
            }),
            if is_planned { ["as planned; ", &verdict].said() } else { verdict },
        ]);
    }
    let of = if things.len() > 1 { ", for the heaviest piece" } else { "" };
    flow.titled(&["Ways to hang it", of].said(), &table);
    let longer = job.rule("1 in", "2.5 cm");
    flow.text(NOTE, &["The planned way has its hangers where the plan puts them, the others in their usual place; a wire is ", longer, " longer than its span. What hangers carry is from memory, and half of what the largest on sale can hold: what it says on the packet comes first."].said());
}

/// The rating that each fixing must have.
fn rated(job: &Job<'_>, thing: &Thing, count: u32) -> String {
    let first = job.plan.units.first;
    match NeededRating::of(job.stock, thing.rated_mg(), count) {
        None => "not known: weigh it ready to hang, and take twice its share".into(),
        Some(needed) if needed.sold.is_some() => {
            [&needed.text(first), "; twice its share of the most it may weigh is ", &needed.share(first)]
                .said()
        }
        Some(needed) => {
            [&needed.text(first), ": into studs or masonry, or on a cleat; ask someone who is licensed"]
                .said()
        }
    }
}

/// What to do where a cross is.
fn at_the_cross(job: &Job<'_>) -> String {
    let sticks_out = job.rule("1/8 in", "3 mm");
    match job.plan.fixing.hanger {
        Hanger::Rings | Hanger::Wire { .. } => {
            "A cross marks where the ring, or the wire pulled tight, rests. The nail or screw of a picture hook goes in higher: hold the hook with its seat on the cross, and mark its hole.".into()
        }
        Hanger::Cleat => {
            ["Two crosses mark the ends of one cleat: the top edge of its half on the wall runs from one to the other, with the long face away from the wall. Screw it on at both ends and every ", job.rule("16 in", "40 cm"), " between, into studs where there are any, and check it with a level before you tighten the last screw."].said()
        }
        Hanger::Sawtooth => {
            ["A cross marks where the teeth rest: the screw goes in there, slightly upwards, and sticks out by ", sticks_out, "."].said()
        }
        Hanger::Keyholes => {
            ["A cross marks where the upper end of a slot rests: the screw goes in there, level, and sticks out by slightly more than the thickness of the plate, about ", sticks_out, ". Try the depth on one side before you mark the other."].said()
        }
    }
}

/// The order of steps.
fn steps(job: &Job<'_>, hooks: &[Hook], flow: &mut Flow) {
    let datum = datum(hooks);
    let is_level = hooks.iter().all(|hook| hook.at.y == datum);
    let line = text(job, datum);
    let along = if is_level {
        String::from(
            "Along the datum line, measure each hook's distance from the left corner, with the end of the tape in the corner every time, and mark it with a cross. Never measure from one hook to the next.",
        )
    } else {
        String::from(
            "Along the datum line, measure each hook's distance from the left corner, with the end of the tape in the corner every time. From there go up to its height, with a level. Never measure from one hook to the next.",
        )
    };
    let steps = [
        "Compare the wall with the drawing: its width, its height, and what is on it. If a measurement differs, stop and have the plan changed.".into(),
        ["At the left corner, measure ", &line, " up from the floor and make a mark. From that mark, draw a level line across the wall: this is the datum line, red on the drawing. Floors are rarely level, so measure up only once."].said(),
        along,
        at_the_cross(job),
        "Check for cables and pipes at each hole. Wear safety glasses, drill, and set the fixings. Pull each one with twice its load before you hang anything on it.".into(),
        "Put bumpers on the lower corners. Hang from the middle outwards, with two people for large or heavy pieces; level each piece by its top edge.".into(),
        "Look at it from where people will see it, and write down what you changed.".into(),
    ];
    flow.heading("Step by step");
    for (number, step) in (1..).zip(steps) {
        let number: u32 = number;
        flow.text(BODY, &[&number.to_string(), ". ", &step].said());
    }
    flow.text(NOTE, "Inches are rounded to the nearest 1/16, millimetres to whole ones; both are rounded from the exact place.");
}
