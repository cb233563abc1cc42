//! Sheets: what is on a paper, placed in exact lengths. The PDF, the preview on the page and the drawing files translate it.
//!
//! The frame of reference is the paper's: origin at its lower left corner, x to the right, y up.

use super::Said;
use crate::colour::Colour;
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::print::Source;
use crate::text::{self, Face};

/// Ink of lines and lettering, on white paper.
pub const INK: Colour = crate::draw::Theme::LIGHT.ink;
/// Lesser ink.
pub const QUIET: Colour = crate::draw::Theme::LIGHT.quiet;
/// What a sheet is about; what must not be missed.
pub const RED: Colour = crate::draw::Theme::LIGHT.red;
/// Thin rules between rows.
pub const RULE: Colour = Colour::hex(0xc9_c4_b4);
/// What stands where there is no copy of a picture.
pub const TONED: Colour = Colour::hex(0xd8_d4_c6);
/// Paper.
pub const WHITE: Colour = Colour::hex(0xff_ff_ff);
/// A thin line.
pub const THIN: Length = Length::micrometres(180);
/// A line of an outline.
pub const BOLD: Length = Length::micrometres(350);

/// A paper: what is printed together, and what its file says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// Who made it; empty for nobody.
    pub author: String,
    /// When, as year, month and day.
    pub date: Option<(u16, u8, u8)>,
    /// Its pages.
    pub pages: Vec<Page>,
}

/// A page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// The paper.
    pub size: Size,
    /// What is on it, in reading order; later blocks lie over earlier ones.
    pub blocks: Vec<Block>,
}

/// Some items that are one thing to a reader.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// What it is.
    pub role: Role,
    /// What is drawn.
    pub items: Vec<Item>,
}

/// What a block is to a reader.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Role {
    /// The title.
    Title,
    /// A heading.
    Heading,
    /// Text.
    Text,
    /// A cell of a table: which table of the document, which row of it, and whether it heads its column or row.
    Cell {
        /// Counted through the document.
        table: usize,
        /// Counted through the table.
        row: usize,
        /// Whether it is a heading.
        is_head: bool,
    },
    /// A drawing, and what it says in words.
    Drawing(String),
    /// What is on every page, or only adorns it.
    Furniture,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Item {
    /// A line of text.
    Text(Lettering),
    /// A straight line.
    Line(Line),
    /// An area.
    Shape {
        /// Its outline.
        path: Vec<Step>,
        /// What fills it.
        fill: Option<Colour>,
        /// Thickness and ink of the line round it.
        line: Option<(Length, Colour)>,
    },
    /// A part of a picture; toned where there is no copy of it.
    Picture {
        /// Where.
        rect: Rect,
        /// Which of the plan's pictures, and which part of it in pixels of the file.
        shows: Option<(usize, Source)>,
        /// The size of the file in pixels.
        file_px: (u32, u32),
    },
}

/// A line of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lettering {
    /// Where its baseline begins.
    pub at: Point,
    /// In which face.
    pub face: Face,
    /// Its size.
    pub em: Length,
    /// What it says, as it is set.
    pub text: String,
    /// Its ink.
    pub ink: Colour,
    /// Whether it reads upwards.
    pub is_upright: bool,
}

/// A straight line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// From here.
    pub from: Point,
    /// To here.
    pub to: Point,
    /// How thick.
    pub width: Length,
    /// Its ink.
    pub ink: Colour,
    /// Strokes and spaces in turn; whole when empty.
    pub dashes: Vec<Length>,
}

/// A step of an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Begins here.
    Move(Point),
    /// Straight to here.
    Line(Point),
    /// In a curve to the last point, by way of the other two.
    Curve([Point; 3]),
    /// Back to where it began.
    Close,
}

/// The four corners of a rectangle as an outline.
#[must_use]
#[inline(never)]
pub fn outline_of(rect: Rect) -> Vec<Step> {
    let (right, top) = (rect.right(), rect.top());
    vec![
        Step::Move(Point::new(rect.x, rect.y)),
        Step::Line(Point::new(right, rect.y)),
        Step::Line(Point::new(right, top)),
        Step::Line(Point::new(rect.x, top)),
        Step::Close,
    ]
}

// Not inlined: one copy of each in the page, however much is drawn.
impl Item {
    /// An upright rectangle.
    #[must_use]
    #[inline(never)]
    pub fn rect(rect: Rect, fill: Option<Colour>, line: Option<(Length, Colour)>) -> Self {
        Self::Shape { path: outline_of(rect), fill, line }
    }

    /// A whole line.
    #[must_use]
    #[inline(never)]
    pub fn line(from: (Length, Length), to: (Length, Length), width: Length, ink: Colour) -> Self {
        let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        Self::Line(Line { from, to, width, ink, dashes: Vec::new() })
    }

    /// A broken line.
    #[must_use]
    #[inline(never)]
    pub fn dashed(from: (Length, Length), to: (Length, Length), ink: Colour, dashes: &[Length]) -> Self {
        let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        Self::Line(Line { from, to, width: THIN, ink, dashes: dashes.to_vec() })
    }
}

/// How a line of text is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hand {
    /// In which face.
    pub face: Face,
    /// Its size.
    pub em: Length,
    /// Its ink.
    pub ink: Colour,
}

impl Hand {
    /// A face at a size in tenths of a point.
    #[must_use]
    pub const fn new(face: Face, tenths_of_point: i64, ink: Colour) -> Self {
        Self { face, em: Length::inches_ratio(tenths_of_point, 720), ink }
    }

    /// How wide a text is.
    #[must_use]
    pub fn width(self, set: &str) -> Length {
        text::length(self.face, set, self.em)
    }

    /// A text whose baseline begins here.
    #[must_use]
    #[inline(never)]
    pub fn write(self, x: Length, y: Length, set: impl Into<String>) -> Item {
        let Self { face, em, ink } = self;
        Item::Text(Lettering { at: Point::new(x, y), face, em, text: set.into(), ink, is_upright: false })
    }

    /// A text with its middle here: across between its ends, and up at half the height of its figures.
    #[must_use]
    #[inline(never)]
    pub fn centred(self, middle: Point, is_upright: bool, set: impl Into<String>) -> Item {
        let text = set.into();
        let Self { face, em, ink } = self;
        // Figures are about 0.64 em high.
        let (along, down) = (self.width(&text).half(), em.times_ratio(32, 100));
        let at = if is_upright {
            Point::new(middle.x + down, middle.y - along)
        } else {
            Point::new(middle.x - along, middle.y - down)
        };
        Item::Text(Lettering { at, face, em, text, ink, is_upright })
    }

    /// A text that ends here.
    #[must_use]
    #[inline(never)]
    pub fn ending(self, right: Length, y: Length, set: impl Into<String>) -> Item {
        let text = set.into();
        self.write(right - self.width(&text), y, text)
    }

    /// A text in lines no longer than a width, where its words allow that; a word that does not is broken.
    #[must_use]
    pub fn wrapped(self, set: &str, width: Length) -> Vec<String> {
        let mut lines = Vec::new();
        for paragraph in set.split('\n') {
            let mut line = String::new();
            for word in paragraph.split(' ') {
                let longer = if line.is_empty() { word.to_owned() } else { [&line, " ", word].said() };
                if self.width(&longer) <= width {
                    line = longer;
                    continue;
                }
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                }
                for letter in word.chars() {
                    line.push(letter);
                    if self.width(&line) > width && line.chars().count() > 1 {
                        line.pop();
                        lines.push(std::mem::take(&mut line));
                        line.push(letter);
                    }
                }
            }
            lines.push(line);
        }
        lines
    }
}
