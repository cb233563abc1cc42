//! Pages as streams of drawing, with what each part is to a reader.

use super::super::jpeg::Photo;
use super::super::sheet::{Block, Item, Lettering, Line, Page, Role, Step, TONED};
use super::{SHORT, font_name, picture_name, points};
use crate::colour::Colour;
use crate::geometry::{Point, Rect};
use crate::length::{Length, Unit};
use crate::text::{Face, glyph_number, unset};
use pdf_writer::types::StructRole;
use pdf_writer::{Content, Name, Ref, Str, TextStr};
use std::collections::{BTreeMap, BTreeSet};

/// An element of the structure.
pub(super) struct Element {
    pub(super) role: StructRole,
    /// What it says, for a drawing.
    pub(super) words: Option<String>,
    /// On which page its content is, and which of the page's contents that is.
    pub(super) content: Option<(Ref, i32)>,
    /// The elements in it.
    pub(super) children: Vec<usize>,
}

impl Element {
    const fn of(role: StructRole) -> Self {
        Self { role, words: None, content: None, children: Vec::new() }
    }
}

/// What pages are made of besides their streams.
pub(super) struct Tagged<'a> {
    /// The faces that are used, with the letters of their glyphs.
    pub(super) fonts: BTreeMap<Face, BTreeMap<u16, char>>,
    /// The pictures that are used.
    pub(super) pictures: BTreeSet<usize>,
    /// All elements, the whole document first.
    pub(super) elements: Vec<Element>,
    /// Of each page, to which element each of its contents belongs.
    pub(super) marked: Vec<Vec<usize>>,
    photos: &'a [Option<Photo>],
    /// The table that is being written, its number and that of its row.
    table: Option<(usize, usize)>,
    row: Option<(usize, usize)>,
}

impl<'a> Tagged<'a> {
    pub(super) fn new(photos: &'a [Option<Photo>]) -> Self {
        Self {
            fonts: BTreeMap::new(),
            pictures: BTreeSet::new(),
            elements: vec![Element::of(StructRole::Document)],
            marked: Vec::new(),
            photos,
            table: None,
            row: None,
        }
    }

    /// The stream of a page.
    pub(super) fn page(&mut self, page: &Page, id: Ref) -> Vec<u8> {
        let mut stream = Content::with_settings(SHORT);
        self.marked.push(Vec::new());
        for block in &page.blocks {
            self.block(&mut stream, block, id);
        }
        stream.finish().into_vec()
    }

    fn block(&mut self, stream: &mut Content, block: &Block, page: Ref) {
        let (role, name): (_, &[u8]) = match &block.role {
            Role::Title => (StructRole::H1, b"H1"),
            Role::Heading => (StructRole::H2, b"H2"),
            Role::Text => (StructRole::P, b"P"),
            Role::Cell { is_head: true, .. } => (StructRole::TH, b"TH"),
            Role::Cell { .. } => (StructRole::TD, b"TD"),
            Role::Drawing(_) => (StructRole::Figure, b"Figure"),
            Role::Furniture => {
                stream.begin_marked_content(Name(b"Artifact"));
                block.items.iter().for_each(|item| self.item(stream, item));
                stream.end_marked_content();
                return;
            }
        };
        let parent = match block.role {
            Role::Cell { table, row, .. } => self.row(table, row),
            _ => 0,
        };
        let element = self.push(parent, Element::of(role));
        if let Role::Drawing(words) = &block.role {
            self.elements[element].words = Some(words.clone());
        }
        let of_page = self.marked.last_mut().map_or(0, |of_page| {
            of_page.push(element);
            of_page.len() - 1
        });
        let number = i32::try_from(of_page).unwrap_or(i32::MAX);
        self.elements[element].content = Some((page, number));
        stream.begin_marked_content_with_properties(Name(name)).properties().identify(number);
        block.items.iter().for_each(|item| self.item(stream, item));
        stream.end_marked_content();
    }

    fn push(&mut self, parent: usize, element: Element) -> usize {
        let index = self.elements.len();
        self.elements.push(element);
        self.elements[parent].children.push(index);
        index
    }

    /// The element of a row of a table.
    fn row(&mut self, table: usize, row: usize) -> usize {
        let of_table = match self.table {
            Some((known, element)) if known == table => element,
            _ => {
                self.row = None;
                self.push(0, Element::of(StructRole::Table))
            }
        };
        self.table = Some((table, of_table));
        let of_row = match self.row {
            Some((known, element)) if known == row => element,
            _ => self.push(of_table, Element::of(StructRole::TR)),
        };
        self.row = Some((row, of_row));
        of_row
    }

    fn item(&mut self, stream: &mut Content, item: &Item) {
        match item {
            Item::Text(lettering) => self.text(stream, lettering),
            Item::Line(line) => draw_line(stream, line),
            Item::Shape { path, fill, line } => shape(stream, path, *fill, *line),
            Item::Picture { rect, shows, file_px } => match shows {
                Some((index, source)) if self.photos.get(*index).is_some_and(Option::is_some) => {
                    self.pictures.insert(*index);
                    if let Some(photo) = &self.photos[*index] {
                        let laid = photo.laid(*rect, *source, *file_px, Unit::Point);
                        picture(stream, *rect, *index, laid);
                    }
                }
                _ => shape(stream, &super::super::sheet::outline_of(*rect), Some(TONED), None),
            },
        }
    }

    fn text(&mut self, stream: &mut Content, lettering: &Lettering) {
        let Lettering { at, face, em, text, ink, is_upright } = lettering;
        let glyphs = self.fonts.entry(*face).or_default();
        let mut bytes = Vec::new();
        let mut is_plain = !text.contains('⁄');
        for letter in text.chars() {
            let glyph = glyph_number(*face, letter);
            bytes.extend(glyph.unwrap_or(0).to_be_bytes());
            match glyph {
                Some(glyph) => drop(glyphs.entry(glyph).or_insert(letter)),
                None => is_plain = false,
            }
        }
        if !is_plain {
            // What is set in small figures, or lacks a letter, is still read as it is meant.
            let plain = unset(text);
            let mut span = stream.begin_marked_content_with_properties(Name(b"Span"));
            span.properties().actual_text(TextStr(&plain));
        }
        fill_colour(stream, *ink);
        stream.begin_text().set_font(Name(font_name(*face).as_bytes()), points(*em));
        let turned = if *is_upright { [0.0, 1.0, -1.0, 0.0] } else { [1.0, 0.0, 0.0, 1.0] };
        let [a, b, c, d] = turned;
        stream.set_text_matrix([a, b, c, d, points(at.x), points(at.y)]);
        stream.show(Str(&bytes)).end_text();
        if !is_plain {
            stream.end_marked_content();
        }
    }
}

fn channels(colour: Colour) -> [f32; 3] {
    [colour.red, colour.green, colour.blue].map(|channel| f32::from(channel) / 255.0)
}

fn fill_colour(stream: &mut Content, colour: Colour) {
    let [red, green, blue] = channels(colour);
    stream.set_fill_rgb(red, green, blue);
}

fn stroke_with(stream: &mut Content, width: Length, colour: Colour) {
    let [red, green, blue] = channels(colour);
    stream.set_stroke_rgb(red, green, blue).set_line_width(points(width));
}

fn draw_line(stream: &mut Content, Line { from, to, width, ink, dashes }: &Line) {
    stroke_with(stream, *width, *ink);
    if !dashes.is_empty() {
        stream.set_dash_pattern(dashes.iter().map(|&dash| points(dash)), 0.0);
    }
    stream.move_to(points(from.x), points(from.y)).line_to(points(to.x), points(to.y)).stroke();
    if !dashes.is_empty() {
        stream.set_dash_pattern([], 0.0);
    }
}

fn shape(stream: &mut Content, path: &[Step], fill: Option<Colour>, line: Option<(Length, Colour)>) {
    if let Some(colour) = fill {
        fill_colour(stream, colour);
    }
    if let Some((width, ink)) = line {
        stroke_with(stream, width, ink);
    }
    // An upright rectangle is written as one, so that it can be measured as one.
    match path {
        [Step::Move(first), Step::Line(_), Step::Line(across), Step::Line(last), Step::Close]
            if first.x == last.x && last.y == across.y =>
        {
            let (x, y) = (points(first.x), points(first.y));
            stream.rect(x, y, points(across.x - first.x), points(across.y - first.y));
        }
        _ => path.iter().for_each(|step| follow(stream, *step)),
    }
    match (fill, line) {
        (Some(_), Some(_)) => stream.fill_nonzero_and_stroke(),
        (Some(_), None) => stream.fill_nonzero(),
        (None, Some(_)) => stream.stroke(),
        (None, None) => stream.end_path(),
    };
}

fn follow(stream: &mut Content, step: Step) {
    let place = |point: Point| (points(point.x), points(point.y));
    match step {
        Step::Move(to) => {
            let (x, y) = place(to);
            stream.move_to(x, y);
        }
        Step::Line(to) => {
            let (x, y) = place(to);
            stream.line_to(x, y);
        }
        Step::Curve(by) => {
            let [(x1, y1), (x2, y2), (x3, y3)] = by.map(place);
            stream.cubic_to(x1, y1, x2, y2, x3, y3);
        }
        Step::Close => drop(stream.close_path()),
    }
}

/// The whole picture, laid so that the part that is shown falls on the rectangle, and clipped to it.
fn picture(stream: &mut Content, rect: Rect, index: usize, laid: [f64; 6]) {
    #[expect(clippy::cast_possible_truncation, reason = "a place on a page keeps 24 bits")]
    let matrix = laid.map(|value| value as f32);
    stream.save_state();
    stream.rect(points(rect.x), points(rect.y), points(rect.size.width), points(rect.size.height));
    stream.clip_nonzero().end_path().transform(matrix);
    stream.x_object(Name(picture_name(index).as_bytes())).restore_state();
}
