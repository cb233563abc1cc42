//! The template: outside edges, hooks and centre lines at full size, over as many sheets as it takes.
//!
//! Each sheet is a window on the same drawing, so that what two of them show is the same. Windows reach over their neighbours by
//! [`OVERLAP`]; the crosses lie in the middle of that, in the same places on both. A sheet on which nothing is drawn is left out.

use super::Said;
use super::flow::{BODY, Flow, NOTE, SANS, foot};
use super::hanging::{hooks, mark_of, text};
use super::sheet::{BOLD, Block, Hand, INK, Item, Line, Page, QUIET, RED, RULE, Role, THIN, WHITE};
use super::{Job, Kind, Paper, PaperError};
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::spec::capital;
use crate::text::Face;

/// How far two neighbours show the same.
pub const OVERLAP: Length = Length::mm(10);
/// Left and right of the window on a sheet; printers leave about a quarter of an inch blank (common practice, no source).
const SIDE: Length = Length::mm(10);
/// Below and above the window.
const ENDS: [Length; 2] = [Length::mm(26), Length::mm(18)];
/// A hook's mark at full size, and how wide its lines are.
const HOOK: (Length, Length) = (Length::mm(5), Length::micrometres(350));
/// Round what is drawn.
const ROUND: Length = Length::mm(12);
/// Room for the names of the rows, left of the map of the sheets.
const ROW_NAMES: Length = Length::mm(16);
/// More sheets than this nobody joins.
pub const MOST_SHEETS: usize = 150;

/// How a template is parted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tiles {
    /// The part of the wall that is covered.
    pub whole: Rect,
    /// What a sheet shows of it.
    pub window: Size,
    /// Sheets across and upwards.
    pub count: (i64, i64),
}

impl Tiles {
    /// Parts a template: n = ⌈(W - o) / (p - o)⌉ sheets of p with overlaps of o.
    #[must_use]
    pub fn of(group: Rect, paper: Paper) -> Self {
        let whole = group.grown(ROUND);
        let size = paper.size();
        let window = Size::new(size.width - SIDE * 2, size.height - ENDS[0] - ENDS[1]);
        let count = |whole: Length, window: Length| {
            let (least, step) = ((whole - OVERLAP).units(), (window - OVERLAP).units());
            (least.max(1) + step - 1) / step
        };
        Self {
            count: (count(whole.size.width, window.width), count(whole.size.height, window.height)),
            whole,
            window,
        }
    }

    /// What a sheet shows, counted from the lower left.
    #[must_use]
    pub fn shown(&self, column: i64, row: i64) -> Rect {
        let x = self.whole.x + (self.window.width - OVERLAP) * column;
        Rect::new(x, self.whole.y + (self.window.height - OVERLAP) * row, self.window)
    }

    /// The lines in the middle of overlaps: across and upwards.
    fn joints(&self) -> [Vec<Length>; 2] {
        let lines = |from: Length, window: Length, count: i64| {
            (1..count).map(|index| from + (window - OVERLAP) * index + OVERLAP.half()).collect()
        };
        [
            lines(self.whole.x, self.window.width, self.count.0),
            lines(self.whole.y, self.window.height, self.count.1),
        ]
    }
}

/// A level or upright line at full size, on the wall.
#[derive(Clone, Copy)]
struct Stroke {
    from: Point,
    to: Point,
    kind: Of,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Of {
    Outside,
    Centre,
    Datum,
}

fn strokes(job: &Job<'_>) -> Vec<Stroke> {
    let scene = job.scene();
    let mut strokes = Vec::new();
    for piece in &scene.pieces {
        let rect = piece.outside;
        let (left, right, foot, head) = (rect.x, rect.right(), rect.y, rect.top());
        let mut add = |kind, from: (Length, Length), to: (Length, Length)| {
            strokes.push(Stroke { from: Point::new(from.0, from.1), to: Point::new(to.0, to.1), kind });
        };
        add(Of::Outside, (left, foot), (right, foot));
        add(Of::Outside, (left, head), (right, head));
        add(Of::Outside, (left, foot), (left, head));
        add(Of::Outside, (right, foot), (right, head));
        let middle = rect.centre().x;
        add(Of::Centre, (middle, foot), (middle, head));
        for hook in scene.hooks.iter().filter(|hook| rect.contains(**hook)) {
            add(Of::Datum, (left, hook.y), (right, hook.y));
        }
    }
    strokes
}

/// What of a stroke is within a window.
fn within(stroke: Stroke, window: Rect) -> Option<Stroke> {
    let hold =
        |at: Point| Point::new(at.x.clamp(window.x, window.right()), at.y.clamp(window.y, window.top()));
    let is_level = stroke.from.y == stroke.to.y;
    let is_beside = if is_level {
        stroke.from.y < window.y || stroke.from.y > window.top()
    } else {
        stroke.from.x < window.x || stroke.from.x > window.right()
    };
    let held = Stroke { from: hold(stroke.from), to: hold(stroke.to), ..stroke };
    (!is_beside && held.from != held.to).then_some(held)
}

/// The name of a sheet: its row from the top, and its place in that.
fn name(tiles: &Tiles, column: i64, row: i64) -> String {
    [&row_name(tiles, row), ", sheet ", &(column + 1).to_string()].said()
}

fn row_name(tiles: &Tiles, row: i64) -> String {
    ["row ", &(tiles.count.1 - row).to_string()].said()
}

pub(super) fn pages(job: &Job<'_>) -> Result<Vec<Page>, PaperError> {
    let tiles = Tiles::of(job.figures.arranged.group, job.paper);
    let strokes = strokes(job);
    let mut sheets = Vec::new();
    // All that would be told is how many there are: enough for the largest group, which is no wider than a wall.
    for row in (0..tiles.count.1).rev() {
        for column in 0..tiles.count.0 {
            let window = tiles.shown(column, row);
            let shown: Vec<Stroke> = strokes.iter().filter_map(|stroke| within(*stroke, window)).collect();
            if !shown.is_empty() {
                sheets.push((column, row, shown));
            }
        }
    }
    if sheets.len() > MOST_SHEETS {
        return Err(PaperError::Sheets(sheets.len()));
    }
    let mut pages = front(job, &tiles, &sheets);
    let count = pages.len() + sheets.len();
    for (column, row, shown) in &sheets {
        let number = pages.len() + 1;
        pages.push(sheet(job, &tiles, [*column, *row], shown, [number, count]));
    }
    Ok(pages)
}

/// The map of the sheets, and how they are joined.
fn front(job: &Job<'_>, tiles: &Tiles, sheets: &[(i64, i64, Vec<Stroke>)]) -> Vec<Page> {
    let mut flow = Flow::new(job, Kind::Template, super::flow::Early::default());
    let (whole, width) = (tiles.whole.size, flow.width());
    let scale = super::elevation::scale_for(
        job.plan.units.first,
        &[
            (whole.width + Length::mm(400), width - ROW_NAMES),
            (whole.height + Length::mm(400), Length::mm(120)),
        ],
    );
    let to_paper = |length: Length| length.times_ratio(1, scale);
    let last = tiles.shown(tiles.count.0 - 1, tiles.count.1 - 1);
    let tall = to_paper(last.top() - tiles.whole.y) + Length::mm(4);
    let strip = flow.strip(tall);
    let left = strip.x + (width - to_paper(last.right() - tiles.whole.x) + ROW_NAMES).half();
    let at = |point: Point| {
        (
            left + to_paper(point.x - tiles.whole.x),
            strip.y + Length::mm(1) + to_paper(point.y - tiles.whole.y),
        )
    };
    let (mut items, mut names) = (Vec::new(), Vec::new());
    for row in 0..tiles.count.1 {
        for column in 0..tiles.count.0 {
            let shown = tiles.shown(column, row);
            let (x, y) = at(Point::new(shown.x, shown.y));
            let rect = Rect::new(x, y, Size::new(to_paper(shown.size.width), to_paper(shown.size.height)));
            let is_there = sheets.iter().any(|sheet| (sheet.0, sheet.1) == (column, row));
            items.push(Item::rect(rect, None, Some((THIN, if is_there { QUIET } else { RULE }))));
            if is_there {
                names.push((rect.centre(), (column + 1).to_string()));
            }
        }
        let shown = tiles.shown(0, row);
        let (x, y) = at(Point::new(shown.x, shown.centre().y));
        items.push(SANS.write(x - ROW_NAMES, y - SANS.em.half().half(), row_name(tiles, row)));
    }
    for (_, _, shown) in sheets {
        items.extend(shown.iter().map(|stroke| line(*stroke, at(stroke.from), at(stroke.to))));
    }
    for (middle, name) in names {
        let field = Size::new(SANS.width(&name) + Length::mm(1), SANS.em);
        let corner = Point::new(middle.x - field.width.half(), middle.y - field.height.half());
        items.push(Item::rect(Rect::new(corner.x, corner.y, field), Some(WHITE), None));
        items.push(SANS.centred(middle, false, name));
    }
    let count = sheets.len().to_string();
    let map = ["The sheets and where they go: ", &count, " of them."].said();
    flow.push(Role::Drawing(map), items);
    let sum = [
        &count,
        " sheets besides this one. Each has the number of its row, counted from the top, and its number in the row, counted from the left. Empty ones are left out. They overlap by ",
        &text(job, OVERLAP),
        ".",
    ]
    .said();
    flow.text(BODY, &sum);
    flow.heading("How to use it");
    for step in [
        job.rule(
            "1. Print at 100 %, without fitting to the page, and measure both bars on the first sheet. If they are off by more than 1/64 in over 4 in, the printer has scaled it: print it again.",
            "1. Print at 100 %, without fitting to the page, and measure both bars on the first sheet. If they are off by more than half a millimetre over 100 mm, the printer has scaled it: print it again.",
        ),
        "2. Trim each sheet along the dashed line at the left and at the bottom. Lay it over its neighbour so that the crosses meet, and tape it.",
        "3. Draw a level line on the wall where the hanging plan has its datum line. Tape the template to the wall so that its red line is on that line, with one hook at its distance from the left corner.",
        "4. Mark the hooks through the paper and check for cables and pipes at each. Remove the template, and compare the marks with the hanging plan before you drill.",
    ] {
        flow.text(BODY, step);
    }
    let off = job
        .rule("six feet a template can easily be 1/8 in off", "two metres a template can easily be 3 mm off");
    flow.caution(&["Paper stretches and tape creeps: over ", off, ". If it differs from the hanging plan, the hanging plan is right. Its cautions apply here too: read them before you drill."].said());
    flow.text(NOTE, "Black: outside edges. Red: the level of the hooks, and each place where ring, wire, slot, teeth or cleat rest. Dashed: the middle of each piece.");
    flow.finish_before(sheets.len())
}

fn line(stroke: Stroke, from: (Length, Length), to: (Length, Length)) -> Item {
    let (width, ink, dashes) = match stroke.kind {
        Of::Outside => (BOLD, INK, Vec::new()),
        Of::Datum => (THIN, RED, Vec::new()),
        Of::Centre => (THIN, QUIET, vec![Length::mm(4), Length::mm(2)]),
    };
    Item::Line(Line { from: Point::new(from.0, from.1), to: Point::new(to.0, to.1), width, ink, dashes })
}

/// One sheet at full size.
fn sheet(
    job: &Job<'_>,
    tiles: &Tiles,
    [column, row]: [i64; 2],
    shown: &[Stroke],
    [number, count]: [usize; 2],
) -> Page {
    let paper = job.paper.size();
    let window = tiles.shown(column, row);
    let at = |point: Point| (SIDE + point.x - window.x, ENDS[0] + point.y - window.y);
    let frame = Rect::new(SIDE, ENDS[0], window.size);
    let mut items: Vec<Item> =
        shown.iter().map(|stroke| line(*stroke, at(stroke.from), at(stroke.to))).collect();
    let mut hooks_here = Vec::new();
    for (index, hook) in hooks(job).iter().enumerate() {
        if window.contains(hook.at) {
            let (x, y) = at(hook.at);
            let label = (index + 1).to_string();
            mark_of(Point::new(x, y), HOOK, &label, &mut items);
            hooks_here.push(label);
        }
    }
    // Sides that meet a neighbour are trimmed at the left and at the bottom.
    let dashes = [Length::mm(2), Length::mm(2)];
    if column > 0 {
        let x = frame.x + OVERLAP.half();
        items.push(Item::dashed((x, frame.y), (x, frame.top()), RULE, &dashes));
    }
    if row > 0 {
        let y = frame.y + OVERLAP.half();
        items.push(Item::dashed((frame.x, y), (frame.right(), y), RULE, &dashes));
    }
    items.extend(crosses(tiles, window, &at));
    let big = Hand::new(Face::SansMedium, 160, RED);
    let small = Hand::new(Face::Sans, 80, QUIET);
    let top = paper.height - Length::mm(12);
    let name = name(tiles, column, row);
    let mut head = vec![big.write(SIDE, top, capital(&name))];
    let left = SIDE + big.width(&capital(&name)) + Length::mm(4);
    let title = [Kind::Template.title(), ": ", &job.plan.title].said();
    let lines = small.wrapped(&crate::text::typeset(&title), frame.right() - left);
    head.push(small.write(left, top, lines.into_iter().next().unwrap_or_default()));
    head.extend(foot(paper, &["page ", &number.to_string(), " of ", &count.to_string()].said()));
    let mut words = [&capital(&name), ", at full size"].said();
    if !hooks_here.is_empty() {
        words += &[", with hook ", &hooks_here.join(", ")].said();
    }
    Page {
        size: paper,
        blocks: vec![
            Block { role: Role::Drawing(words), items },
            Block { role: Role::Furniture, items: head },
        ],
    }
}

/// Crosses in the middle of the overlaps: at the joints, and half way between two of them.
fn crosses(tiles: &Tiles, window: Rect, at: &impl Fn(Point) -> (Length, Length)) -> Vec<Item> {
    let [across, up] = tiles.joints();
    let mut places = Vec::new();
    for row in 0..tiles.count.1 {
        let y = tiles.shown(0, row).centre().y;
        places.extend(across.iter().map(|&x| Point::new(x, y)));
    }
    for column in 0..tiles.count.0 {
        let x = tiles.shown(column, 0).centre().x;
        places.extend(up.iter().map(|&y| Point::new(x, y)));
    }
    places.extend(across.iter().flat_map(|&x| up.iter().map(move |&y| Point::new(x, y))));
    let reach = Length::mm(4);
    let mut items = Vec::new();
    for place in places.into_iter().filter(|place| window.contains(*place)) {
        let (x, y) = at(place);
        items.push(Item::line((x - reach, y), (x + reach, y), THIN, INK));
        items.push(Item::line((x, y - reach), (x, y + reach), THIN, INK));
        let path = super::flow::circle(Point::new(x, y), Length::mm(2));
        items.push(Item::Shape { path, fill: None, line: Some((THIN, INK)) });
    }
    items
}
