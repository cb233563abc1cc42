//! Flow: headings, text, tables and drawings one below the other, on as many pages as they need. Every page says which paper it is
//! part of, and carries two bars to measure it by.

use super::Said;
use super::sheet::{Block, Hand, INK, Item, Page, QUIET, RED, RULE, Role, THIN};
use super::{Job, Kind, Paper};
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::text::{Face, glyph_number, typeset};
use std::collections::BTreeSet;

/// Left and right of what is printed. Printers leave about a quarter of an inch blank (common practice, no source).
const SIDE: Length = Length::mm(16);
/// Above what is printed.
const TOP: Length = Length::mm(14);
/// What the bars and the page's number take at the bottom, with the room above them.
pub(super) const FOOT: Length = Length::mm(26);

/// Sentences.
pub(super) const BODY: Hand = Hand::new(Face::Serif, 105, INK);
/// Notes.
pub(super) const NOTE: Hand = Hand::new(Face::SerifItalic, 95, QUIET);
/// Figures and words in tables and on drawings.
pub(super) const SANS: Hand = Hand::new(Face::Sans, 92, INK);
/// What heads a column.
const COLUMN: Hand = Hand::new(Face::SansMedium, 85, QUIET);
/// Headings.
pub(super) const HEADING: Hand = Hand::new(Face::SansMedium, 110, RED);
/// The title.
const TITLE: Hand = Hand::new(Face::SerifBold, 190, INK);
/// What stands at the top and bottom of pages.
const SMALL: Hand = Hand::new(Face::Sans, 80, QUIET);

/// A table.
#[derive(Default)]
pub(super) struct Table {
    /// What stands over each column.
    pub(super) columns: Vec<String>,
    /// Its rows, each with a text for every column.
    pub(super) rows: Vec<Vec<String>>,
    /// How many of the last columns are numbers, set to the right.
    pub(super) numbers: usize,
}

impl Table {
    pub(super) fn new(columns: &[&str]) -> Self {
        Self {
            columns: columns.iter().map(|&column| column.to_owned()).collect(),
            rows: Vec::new(),
            numbers: 0,
        }
    }
}

/// A page that ends so much earlier than its paper would let it, so that more is left for the last one.
#[derive(Clone, Copy, Default)]
pub(super) struct Early {
    page: usize,
    by: Length,
}

/// Lines that a last page has at least.
const FEWEST_LINES: usize = 3;

/// A paper's pages, of which the last does not hold a line or two alone: those take others with them from the page before.
pub(super) fn without_lone_lines(pages: &dyn Fn(Early) -> Vec<Page>) -> Vec<Page> {
    let plain = pages(Early::default());
    let lines = lines_on_last(&plain);
    if plain.len() < 2 || lines >= FEWEST_LINES {
        return plain;
    }
    let step = BODY.em.times_ratio(128, 100);
    // A paragraph may leave as a whole, a table by its rows: the page ends earlier until enough has come.
    (1..=MOST_EARLIER)
        .map(|more| pages(Early { page: plain.len() - 2, by: step * more }))
        .find(|laid| laid.len() == plain.len() && lines_on_last(laid) >= FEWEST_LINES)
        .unwrap_or(plain)
}

/// So many lines earlier a page ends at most.
const MOST_EARLIER: i64 = 12;

/// How many lines of text are on the last page; what is drawn or tabled counts as enough.
fn lines_on_last(pages: &[Page]) -> usize {
    let blocks = pages.last().map_or(&[][..], |page| &page.blocks).iter();
    blocks
        .map(|block| match block.role {
            Role::Furniture => 0,
            Role::Drawing(_) | Role::Cell { .. } => FEWEST_LINES,
            _ => block.items.iter().filter(|item| matches!(item, Item::Text(_))).count(),
        })
        .sum()
}

/// Pages in the making.
pub(super) struct Flow {
    early: Early,
    paper: Size,
    pages: Vec<Page>,
    /// How far up what is still free on the last page reaches.
    y: Length,
    tables: usize,
    /// Where what follows begins: beside a small drawing, further in.
    left: Length,
    /// What stands at the top of each page but the first.
    running: String,
}

impl Flow {
    /// The first page, with its title.
    pub(super) fn new(job: &Job<'_>, kind: Kind, early: Early) -> Self {
        let (title, kind) = (job.titled(kind), kind.title());
        let mut flow = Self {
            early,
            paper: job.paper.size(),
            pages: Vec::new(),
            y: Length::ZERO,
            tables: 0,
            left: SIDE,
            running: [kind, ": ", title].said(),
        };
        flow.turn();
        flow.y = flow.paper.height - TOP - HEADING.em;
        let mut items = vec![HEADING.write(SIDE, flow.y, kind)];
        let room = flow.width() - HEADING.width(kind) - Length::mm(4);
        let made = SMALL.wrapped(&typeset(&job.made()), room).into_iter().next().unwrap_or_default();
        items.push(SMALL.ending(flow.right(), flow.y, made));
        flow.push(Role::Furniture, items);
        let lines = TITLE.wrapped(&typeset(title), flow.width());
        let mut items = Vec::new();
        for line in lines {
            flow.y -= TITLE.em.times_ratio(112, 100);
            items.push(TITLE.write(SIDE, flow.y, line));
        }
        flow.push(Role::Title, items);
        let reference = typeset(&job.reference);
        if !reference.is_empty() {
            flow.y -= Length::mm(1);
            let mut items = Vec::new();
            for line in SANS.wrapped(&reference, flow.width()) {
                flow.y -= SANS.em.times_ratio(130, 100);
                items.push(SANS.write(SIDE, flow.y, line));
            }
            flow.push(Role::Furniture, items);
        }
        flow.y -= Length::mm(3);
        flow.rule();
        flow.y -= Length::mm(2);
        flow
    }

    pub(super) fn right(&self) -> Length {
        self.paper.width - SIDE
    }

    pub(super) fn width(&self) -> Length {
        self.right() - self.left
    }

    /// Sets what follows further in, until it is called with nothing; returns how far down the page is free.
    pub(super) fn set_in(&mut self, by: Length) -> Length {
        self.left = SIDE + by;
        self.y
    }

    /// Goes down at least to here.
    pub(super) fn go_down(&mut self, y: Length) {
        self.y = self.y.min(y);
    }

    /// How much is free on this page, above its bottom.
    pub(super) fn room(&self) -> Length {
        let is_early = self.pages.len() == self.early.page + 1;
        self.y - FOOT - if is_early { self.early.by } else { Length::ZERO }
    }

    /// Begins a page. A heading at the bottom of the one before goes with what it heads.
    pub(super) fn turn(&mut self) {
        let mut heading = None;
        if let Some(blocks) = self.pages.last_mut().map(|page| &mut page.blocks)
            && blocks.len() > 1
            && blocks.last().is_some_and(|block| block.role == Role::Heading)
        {
            heading = blocks.pop();
        }
        self.begin_page();
        if let Some(Block { items, .. }) = heading {
            self.place_heading(items.into_iter().filter_map(|item| match item {
                Item::Text(line) => Some(line.text),
                _ => None,
            }));
        }
    }

    fn begin_page(&mut self) {
        self.pages.push(Page { size: self.paper, blocks: Vec::new() });
        self.y = self.paper.height - TOP;
        if self.pages.len() > 1 {
            let y = self.y - SMALL.em;
            let lines = SMALL.wrapped(&typeset(&self.running), self.width());
            let head = lines.into_iter().next().unwrap_or_default();
            self.push(Role::Furniture, vec![SMALL.write(SIDE, y, head)]);
            self.y = y - Length::mm(2);
            self.rule();
            self.y -= Length::mm(2);
        }
    }

    /// Turns the page where less than so much is free.
    pub(super) fn need(&mut self, height: Length) {
        if self.room() < height {
            self.turn();
        }
    }

    #[inline(never)]
    pub(super) fn push(&mut self, role: Role, items: Vec<Item>) {
        let items = match role {
            Role::Drawing(_) => items.into_iter().map(|item| held(item, self.paper)).collect(),
            _ => items,
        };
        if let Some(page) = self.pages.last_mut() {
            page.blocks.push(Block { role, items });
        }
    }

    fn rule(&mut self) {
        let (left, right, y) = (self.left, self.right(), self.y);
        self.push(Role::Furniture, vec![Item::line((left, y), (right, y), THIN, RULE)]);
    }

    /// Takes a strip of the page for a drawing; on the next page, where this one is too full.
    pub(super) fn strip(&mut self, height: Length) -> Rect {
        self.need(height);
        self.y -= height;
        Rect::new(SIDE, self.y, Size::new(self.width(), height))
    }

    #[inline(never)]
    pub(super) fn heading(&mut self, text: &str) {
        self.need(BEFORE_A_TABLE);
        let lines = HEADING.wrapped(&typeset(text), self.width());
        self.place_heading(lines.into_iter());
    }

    fn place_heading(&mut self, lines: impl Iterator<Item = String>) {
        self.y -= Length::mm(3);
        let mut items = Vec::new();
        for line in lines {
            self.y -= HEADING.em.times_ratio(115, 100);
            items.push(HEADING.write(self.left, self.y, line));
        }
        self.push(Role::Heading, items);
        self.y -= Length::micrometres(1600);
    }

    /// A paragraph.
    #[inline(never)]
    pub(super) fn text(&mut self, hand: Hand, text: &str) {
        self.paragraph(hand, text, Length::ZERO);
    }

    /// A paragraph beside a red rule: what must not be missed.
    #[inline(never)]
    pub(super) fn caution(&mut self, text: &str) {
        self.paragraph(BODY, text, Length::mm(4));
    }

    /// A paragraph, set in by so much beside a rule.
    fn paragraph(&mut self, hand: Hand, text: &str, indent: Length) {
        let lines = hand.wrapped(&typeset(text.trim()), self.width() - indent);
        let step = hand.em.times_ratio(128, 100);
        let mut rest = lines.as_slice();
        while !rest.is_empty() {
            self.need(step * 2);
            let count = usize::try_from(self.room().units() / step.units()).unwrap_or(1).clamp(1, rest.len());
            // A last line does not stand alone at the top of a page.
            let count = if count > 2 && rest.len() == count + 1 { count - 1 } else { count };
            let (now, later) = rest.split_at(count);
            let top = self.y;
            let mut items = Vec::new();
            for line in now {
                self.y -= step;
                items.push(hand.write(
                    self.left + indent,
                    self.y + hand.em.times_ratio(28, 100),
                    line.as_str(),
                ));
            }
            if indent > Length::ZERO {
                let x = self.left + Length::mm(1);
                items.push(Item::line((x, top), (x, self.y), Length::micrometres(600), RED));
            }
            self.push(Role::Text, items);
            rest = later;
        }
        self.y -= Length::micrometres(1200);
    }

    /// A table under its heading, which never stands alone at the bottom of a page.
    pub(super) fn titled(&mut self, heading: &str, table: &Table) {
        if !table.rows.is_empty() {
            self.need(self.kept_together(table) + BEFORE_A_TABLE);
            self.heading(heading);
            self.table(table);
        }
    }

    /// What of a table stays together: all of a short one, otherwise its top and its first row.
    fn kept_together(&self, table: &Table) -> Length {
        let widths = self.widths(table);
        let tall = |texts: &[String], hand: Hand| {
            let cells = texts.iter().zip(&widths);
            height(&cells.map(|(text, width)| hand.wrapped(&typeset(text), *width)).collect::<Vec<_>>())
        };
        let head = tall(&table.columns, COLUMN);
        let mut rows = table.rows.iter().map(|row| tall(row, SANS));
        let first = rows.next().unwrap_or_default();
        let whole = head + first + rows.sum::<Length>();
        if whole <= Length::mm(60) { whole } else { head + first }
    }

    /// A table: its first column names the row.
    pub(super) fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let widths = self.widths(table);
        self.tables += 1;
        let number = self.tables;
        let cells = |texts: &[String], hand: Hand| -> Vec<Vec<String>> {
            let cells = texts.iter().zip(&widths);
            cells.map(|(text, width)| hand.wrapped(&typeset(text), *width)).collect()
        };
        let to_right = table.columns.len() - table.numbers;
        let head = cells(&table.columns, COLUMN);
        let rows: Vec<_> = table.rows.iter().map(|row| cells(row, SANS)).collect();
        self.need(self.kept_together(table));
        self.row(&head, &widths, (COLUMN, to_right), Role::Cell { table: number, row: 0, is_head: true });
        for (index, row) in (1..).zip(&rows) {
            if self.room() < height(row) {
                self.turn();
                self.row(&head, &widths, (COLUMN, to_right), Role::Furniture);
            }
            self.row(
                row,
                &widths,
                (SANS, to_right),
                Role::Cell { table: number, row: index, is_head: false },
            );
        }
        self.y -= Length::micrometres(1800);
    }

    /// How wide each column is: as it needs, or the widest no wider than what is left for them.
    fn widths(&self, table: &Table) -> Vec<Length> {
        let natural: Vec<Length> = (0..table.columns.len())
            .map(|column| {
                let cells = table.rows.iter().filter_map(|row| row.get(column));
                let widest = cells.map(|cell| SANS.width(&typeset(cell))).max().unwrap_or_default();
                widest.max(COLUMN.width(&table.columns[column])) + Length::micrometres(50)
            })
            .collect();
        let gaps = GAP * i64::try_from(natural.len()).unwrap_or(1) - GAP;
        let room = self.width() - gaps;
        let sum = |cap: Length| natural.iter().map(|width| (*width).min(cap)).sum::<Length>();
        let (mut low, mut high) = (Length::mm(6), room);
        while high - low > Length::micrometres(100) {
            let middle = low + (high - low).half();
            if sum(middle) <= room { low = middle } else { high = middle }
        }
        let cap = if sum(room) <= room { room } else { low };
        let mut widths: Vec<Length> = natural.iter().map(|width| (*width).min(cap)).collect();
        // What is left over parts the columns, or brings the numbers to the right.
        let over = (room - widths.iter().copied().sum()).max(Length::ZERO);
        let count = widths.len();
        if table.numbers > 0 {
            widths[count - table.numbers - 1] += over;
        } else {
            let each = over.times_ratio(1, i64::try_from(count).unwrap_or(1)).min(MOST_BETWEEN);
            widths[..count - 1].iter_mut().for_each(|width| *width += each);
        }
        widths
    }

    /// A row; cells from `to_right` on end at the right of their columns.
    fn row(&mut self, cells: &[Vec<String>], widths: &[Length], (hand, to_right): (Hand, usize), role: Role) {
        let (mut x, top) = (self.left, self.y);
        for (index, (lines, width)) in cells.iter().zip(widths).enumerate() {
            let mut y = top - PAD;
            let mut items = Vec::new();
            for line in lines {
                y -= SANS.em.times_ratio(122, 100);
                let base = y + SANS.em.times_ratio(24, 100);
                items.push(if index < to_right {
                    hand.write(x, base, line.as_str())
                } else {
                    hand.ending(x + *width, base, line.as_str())
                });
            }
            self.push(role.clone(), items);
            x += *width + GAP;
        }
        self.y -= height(cells);
        self.rule();
    }

    /// The pages, each with its bottom.
    pub(super) fn finish(self) -> Vec<Page> {
        self.finish_before(0)
    }

    /// The pages, each with its bottom; so many others follow.
    pub(super) fn finish_before(self, others: usize) -> Vec<Page> {
        let mut pages = self.pages;
        let count = pages.len() + others;
        number(&mut pages, self.paper, count);
        pages
    }

    /// The pages without their bottoms, for [`number`].
    pub(super) fn unnumbered(self) -> Vec<Page> {
        self.pages
    }
}

/// Gives each page its bottom, with its number among so many.
pub(super) fn number(pages: &mut [Page], paper: Size, count: usize) {
    for (index, page) in pages.iter_mut().enumerate() {
        let items = foot(paper, &["page ", &(index + 1).to_string(), " of ", &count.to_string()].said());
        page.blocks.push(Block { role: Role::Furniture, items });
    }
}

/// Between two columns.
const GAP: Length = Length::micrometres(3200);
/// What is left over parts two columns by so much more at most.
const MOST_BETWEEN: Length = Length::mm(12);
/// Above and below the text of a row.
const PAD: Length = Length::micrometres(650);
/// Room for a heading with something below it.
const BEFORE_A_TABLE: Length = Length::mm(22);

fn height(cells: &[Vec<String>]) -> Length {
    let lines = cells.iter().map(Vec::len).max().unwrap_or(1);
    SANS.em.times_ratio(122, 100) * i64::try_from(lines).unwrap_or(1) + PAD * 2
}

/// The two bars, what they are for, and what else is to be said at the bottom.
pub(super) fn foot(paper: Size, right: &str) -> Vec<Item> {
    let mut items = Vec::new();
    for (y, bar, parts, name) in
        [(Length::mm(17), Length::mm(100), 10, "100 mm"), (Length::mm(12), Length::inches(4), 4, "4 in")]
    {
        let thick = Length::micrometres(1400);
        items.push(Item::rect(Rect::new(SIDE, y, Size::new(bar, thick)), None, Some((THIN, INK))));
        for (index, part) in bar.parts(parts).enumerate().filter(|(index, _)| index % 2 == 0) {
            let from = SIDE + part * i64::try_from(index).unwrap_or(0);
            items.push(Item::rect(Rect::new(from, y, Size::new(part, thick)), Some(INK), None));
        }
        items.push(SMALL.write(SIDE + bar + Length::mm(2), y, name));
    }
    let right_edge = paper.width - SIDE;
    items.push(SMALL.ending(right_edge, Length::mm(17), "measure the bars; print at 100 %"));
    items.push(SMALL.ending(right_edge, Length::mm(12), right));
    items
}

/// What is said on a page of the letters on it that the faces lack; nothing where they have all of them.
pub(super) fn lacking(page: &Page) -> Option<Block> {
    let mut lacks = BTreeSet::new();
    for item in page.blocks.iter().flat_map(|block| &block.items) {
        if let Item::Text(line) = item {
            lacks.extend(line.text.chars().filter(|letter| glyph_number(line.face, *letter).is_none()));
        }
    }
    let names = lacks.iter().take(MOST_NAMED).map(|letter| format!("U+{:04X}", u32::from(*letter)));
    let mut names = names.collect::<Vec<_>>().join(", ");
    if lacks.is_empty() {
        return None;
    }
    if lacks.len() > MOST_NAMED {
        names += " and others";
    }
    let text = [
        "A box stands for a letter that this typeface does not have (",
        &names,
        "); copied text still has the right letters.",
    ]
    .said();
    Some(Block { role: Role::Text, items: vec![Hand { ink: RED, ..SMALL }.write(SIDE, LACKING, text)] })
}

/// How far up it is said, between the bars and what stands above them.
const LACKING: Length = Length::mm(21);
/// So many letters are named, by their numbers in Unicode.
const MOST_NAMED: usize = 6;

impl Paper {
    /// Its size.
    #[must_use]
    pub const fn size(self) -> Size {
        match self {
            Self::A4 => Size::new(Length::mm(210), Length::mm(297)),
            Self::Letter => Size::new(Length::inches_ratio(17, 2), Length::inches(11)),
        }
    }
}

/// A circle as an outline, by four curves.
pub(super) fn circle(middle: Point, radius: Length) -> Vec<super::sheet::Step> {
    use super::sheet::Step;
    // The control points of a quarter lie 0.5523 of the radius along.
    let along = radius.times_ratio(5523, 10_000);
    let at = |x: Length, y: Length| Point::new(middle.x + x, middle.y + y);
    let zero = Length::ZERO;
    vec![
        Step::Move(at(radius, zero)),
        Step::Curve([at(radius, along), at(along, radius), at(zero, radius)]),
        Step::Curve([at(-along, radius), at(-radius, along), at(-radius, zero)]),
        Step::Curve([at(-radius, -along), at(-along, -radius), at(zero, -radius)]),
        Step::Curve([at(along, -radius), at(radius, -along), at(radius, zero)]),
        Step::Close,
    ]
}

/// A drawing of a plan that nobody would make may reach beyond its paper: there it ends at the paper's edge.
fn held(item: Item, paper: Size) -> Item {
    use super::sheet::Step;
    let hold =
        |at: Point| Point::new(at.x.clamp(Length::ZERO, paper.width), at.y.clamp(Length::ZERO, paper.height));
    match item {
        Item::Text(mut text) => {
            let long = crate::text::length(text.face, &text.text, text.em);
            let (across, up) = if text.is_upright { (Length::ZERO, long) } else { (long, Length::ZERO) };
            let within = |at: Length, room: Length| at.min(room).max(Length::ZERO);
            text.at =
                Point::new(within(text.at.x, paper.width - across), within(text.at.y, paper.height - up));
            Item::Text(text)
        }
        Item::Line(mut line) => {
            (line.from, line.to) = (hold(line.from), hold(line.to));
            Item::Line(line)
        }
        Item::Shape { path, fill, line } => {
            let step = |step: Step| match step {
                Step::Move(to) => Step::Move(hold(to)),
                Step::Line(to) => Step::Line(hold(to)),
                Step::Curve(points) => Step::Curve(points.map(hold)),
                Step::Close => Step::Close,
            };
            Item::Shape { path: path.into_iter().map(step).collect(), fill, line }
        }
        Item::Picture { rect, shows, file_px } => {
            let whole = Rect::new(Length::ZERO, Length::ZERO, paper);
            // A picture is not pressed together: what is beyond the paper is toned.
            let shows = shows.filter(|_| rect.common(whole) == Some(rect));
            Item::Picture { rect: rect.common(whole).unwrap_or_default(), shows, file_px }
        }
    }
}
