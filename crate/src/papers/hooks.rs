//! The template of the hooks alone: one for each thing whose hooks lie otherwise, at full size on its side, on as few sheets as they reach
//! over. What several things have alike is marked from one template, moved along.

use super::flow::foot;
use super::hanging::{hooks, hung, mark_of, text};
use super::sheet::{BOLD, Block, Hand, INK, Item, Page, QUIET, RED, RULE, Role, THIN};
use super::{Job, Kind, Said};
use crate::geometry::{Point, Rect, Size};
use crate::hang::Hanging;
use crate::length::Length;
use crate::text::{Face, typeset};

/// Left and right of what is printed: printers leave about a quarter of an inch blank (common practice, no source).
const SIDE: Length = Length::inches_ratio(1, 4);
/// How far two neighbours show the same.
const OVERLAP: Length = Length::mm(10);
/// A mark is so large.
const MARK: Length = Length::mm(5);
/// Lines are so wide.
const LINE: Length = Length::micrometres(350);
/// From the upper edge of the sheet to the line of the hooks.
const DOWN: Length = Length::mm(60);

/// Things whose hooks lie alike, by their numbers, with the first of them.
fn alike<'a>(job: &Job<'a>) -> Vec<(Vec<usize>, &'a Hanging)> {
    let from_first = |hanging: &Hanging| -> Vec<(Length, Length)> {
        let first = hanging.hooks.first().copied().unwrap_or_default();
        hanging.hooks.iter().map(|hook| (hook.x - first.x, hook.y - first.y)).collect()
    };
    let mut found: Vec<(Vec<usize>, &Hanging)> = Vec::new();
    for (index, hanging) in hung(job).into_iter().enumerate() {
        match found.iter_mut().find(|(_, known)| from_first(known) == from_first(hanging)) {
            Some((numbers, _)) => numbers.push(index),
            None => found.push((vec![index], hanging)),
        }
    }
    found
}

pub(super) fn pages(job: &Job<'_>) -> Vec<Page> {
    let alike = alike(job);
    let upright = job.paper.size();
    let paper = Size::new(upright.height, upright.width);
    let window = paper.width - SIDE * 2;
    let count = |hanging: &Hanging| {
        let step = (window - OVERLAP).units();
        let ends = hanging.hooks.first().zip(hanging.hooks.last());
        let span = ends.map_or(Length::ZERO, |(first, last)| last.x - first.x);
        ((span + MARK - OVERLAP).units().max(1) + step - 1) / step
    };
    let all: i64 = alike.iter().map(|(_, hanging)| count(hanging)).sum();
    let mut pages: Vec<Page> = Vec::new();
    for (numbers, hanging) in &alike {
        for sheet in 0..count(hanging) {
            let number = ["page ", &(pages.len() + 1).to_string(), " of ", &all.to_string()].said();
            pages.push(page(job, (numbers, hanging), [sheet, count(hanging)], (paper, &number)));
        }
    }
    pages
}

/// One sheet of those that a thing's hooks reach over.
fn page(
    job: &Job<'_>,
    (numbers, hanging): (&[usize], &Hanging),
    [sheet, count]: [i64; 2],
    (paper, number): (Size, &str),
) -> Page {
    let window = Size::new(paper.width - SIDE * 2, MARK * 2);
    let first = hanging.hooks.first().copied().unwrap_or_default();
    let from = first.x - MARK.half() + (window.width - OVERLAP) * sheet;
    let level = paper.height - DOWN;
    let x_of = |x: Length| SIDE + x - from;
    let mut items = Vec::new();
    let last = hanging.hooks.last().copied().unwrap_or_default();
    let shown = Rect::new(from, first.y - MARK, window);
    let ends = [first.x - MARK.half(), last.x + MARK.half()].map(|x| x_of(x.clamp(from, shown.right())));
    let line = |items: &mut Vec<Item>, from: (Length, Length), to: (Length, Length), ink| {
        items.push(Item::line(from, to, LINE, ink));
    };
    line(&mut items, (ends[0], level), (ends[1], level), RED);
    let middle = first.x + (last.x - first.x).half();
    if shown.x <= middle && middle <= shown.right() {
        let x = x_of(middle);
        items.push(Item::dashed(
            (x, level - Length::mm(8)),
            (x, level + Length::mm(16)),
            INK,
            &[Length::mm(4), Length::mm(2)],
        ));
        let hand = Hand::new(Face::Sans, 80, QUIET);
        // Within the paper, wherever the middle is on it.
        let (words, y) = (String::from("middle of the piece"), level + Length::mm(18));
        let beside = Length::mm(2);
        items.push(if x > paper.width.half() {
            hand.ending(x - beside, y, words)
        } else {
            hand.write(x + beside, y, words)
        });
    }
    for (index, hook) in hanging.hooks.iter().enumerate() {
        if shown.x <= hook.x && hook.x <= shown.right() {
            let at = Point::new(x_of(hook.x), level + (hook.y - first.y));
            mark_of(at, (MARK, LINE), "", &mut items);
            // Within the paper: beside the mark, towards the other one.
            let (label, hand) =
                (["hook ", &(index + 1).to_string()].said(), Hand::new(Face::SansMedium, 92, RED));
            let (beside, y) = (MARK.times_ratio(3, 4), at.y + Length::mm(2));
            items.push(if index == 0 {
                hand.write(at.x + beside, y, label)
            } else {
                hand.ending(at.x - beside, y, label)
            });
        }
    }
    // Where sheets meet: the right one is trimmed along its broken line and laid over the left one, cross on cross.
    for joint in [sheet, sheet + 1].into_iter().filter(|joint| (1..count).contains(joint)) {
        let x = x_of(first.x - MARK.half() + (window.width - OVERLAP) * joint + OVERLAP.half());
        items.push(Item::dashed(
            (x, level - Length::mm(22)),
            (x, level + Length::mm(22)),
            RULE,
            &[Length::mm(2), Length::mm(2)],
        ));
        for up in [Length::mm(-15), Length::mm(15)] {
            let (y, reach) = (level + up, Length::mm(4));
            items.push(Item::line((x - reach, y), (x + reach, y), THIN, INK));
            items.push(Item::line((x, y - reach), (x, y + reach), BOLD, INK));
        }
    }
    let mut words = words(job, numbers, hanging, [sheet, count]);
    let title = Hand::new(Face::SansMedium, 130, RED);
    let mut y = paper.height - Length::mm(14);
    let mut told = vec![title.write(SIDE, y, words.remove(0))];
    y -= Length::mm(6);
    let small = Hand::new(Face::Sans, 80, QUIET);
    let named = [Kind::Template.title(), ": ", &job.plan.title].said();
    let lines = small.wrapped(&typeset(&named), window.width);
    told.push(small.write(SIDE, y, lines.into_iter().next().unwrap_or_default()));
    let body = Hand::new(Face::Serif, 105, INK);
    y = level - Length::mm(32);
    for paragraph in words {
        for text in body.wrapped(&typeset(&paragraph), window.width) {
            y -= body.em.times_ratio(128, 100);
            told.push(body.write(SIDE, y, text));
        }
        y -= Length::micrometres(1200);
    }
    told.extend(foot(paper, number));
    let seen = ["The hooks of ", &pieces(job, numbers), " at full size"].said();
    Page {
        size: paper,
        blocks: vec![
            Block { role: Role::Drawing(seen), items },
            Block { role: Role::Furniture, items: told },
        ],
    }
}

/// Which things it is for.
fn pieces(job: &Job<'_>, numbers: &[usize]) -> String {
    if hung(job).len() == 1 {
        return "the piece".into();
    }
    let each: Vec<String> = numbers.iter().map(|number| (number + 1).to_string()).collect();
    [if each.len() > 1 { "pieces " } else { "piece " }, &each.join(", ")].said()
}

/// A title, and on the first sheet what to do.
fn words(job: &Job<'_>, numbers: &[usize], hanging: &Hanging, [sheet, count]: [i64; 2]) -> Vec<String> {
    let sheets = if count == 1 {
        String::new()
    } else {
        [", sheet ", &(sheet + 1).to_string(), " of ", &count.to_string()].said()
    };
    let mut words = vec![["Hooks of ", &pieces(job, numbers), &sheets].said()];
    if sheet > 0 {
        words.push("Trim this sheet along the dashed line at the left, lay it over the previous one so that the crosses meet, and tape it.".into());
        return words;
    }
    let places: Vec<String> = hooks(job)
        .iter()
        .filter(|hook| numbers.contains(&hook.thing))
        .map(|hook| {
            let [x, y] = [hook.at.x, hook.at.y].map(|length| text(job, length));
            [&hook.of, ": ", &x, " from the left corner, ", &y, " from the floor"].said()
        })
        .collect();
    words.push(["On the wall: ", &places.join("; "), "."].said());
    words.push(
        ["The red line is level. From it to the top edge of the piece it is ", &text(job, hanging.drop), "."]
            .said(),
    );
    words.push("Print at 100 % and measure both bars. Tape it to the wall with its first mark at the place stated and the red line level. Check for cables and pipes at each mark, and mark the holes through the paper. Compare them with the hanging plan before you drill: if the two differ, the hanging plan is right. Its cautions apply here too.".into());
    words
}
