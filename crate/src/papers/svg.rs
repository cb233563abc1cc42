//! Drawings by themselves as SVG, at true size: a millimetre of the file is one of the wall, or of the piece.
//!
//! Lettering and lines are as thick as on the paper that the drawing would be printed on, times its scale, so that the file printed at
//! that scale looks as the paper does.

use super::elevation::Manner;
use super::jpeg::Photo;
use super::pdf::escaped;
use super::sheet::{Item, Lettering, Line, Step, TONED};
use super::{Job, PaperError, cut, elevation, hanging};
use crate::geometry::{Point, Size};
use crate::length::{Length, UNITS_PER_MICROMETRE, Unit};
use crate::measure::Grade;
use crate::rounding::{Mode, divide};
use crate::scene::{in_words, section::section};
use crate::text::Face;
use std::collections::BTreeSet;

/// Which drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawing {
    /// The wall with its dimension lines.
    Elevation,
    /// The pieces with their dimension lines, and no wall.
    Pieces,
    /// The wall with its hooks.
    Hanging,
    /// A cut through a piece, by its index.
    Section(usize),
}

/// As wide as a drawing is on paper, at most.
const WIDTH: Length = Length::mm(178);

/// Writes a drawing on white, or on nothing. `photos` has a place for each picture of the plan.
///
/// # Errors
/// When the plan has no such piece.
pub fn write(
    job: &Job<'_>,
    drawing: Drawing,
    photos: &[Option<Photo>],
    is_clear: bool,
) -> Result<String, PaperError> {
    let (plan, figures) = (job.plan, job.figures);
    let (items, size, scale, words) = match drawing {
        Drawing::Elevation | Drawing::Pieces => {
            let (mut scene, mut manner) = (job.scene(), Manner::Coloured);
            if drawing == Drawing::Pieces {
                (scene.fixtures, manner) = (Vec::new(), Manner::Alone);
            }
            let drawn = elevation::dimensioned(plan, &scene, Size::new(WIDTH, Length::mm(150)), manner);
            (drawn.items, drawn.size, drawn.scale, in_words(plan, figures))
        }
        Drawing::Hanging => {
            let (items, size, scale) = hanging::drawn(job, WIDTH);
            let hooks = hanging::hooks(job);
            let told = hooks.iter().map(|hook| {
                [
                    &hook.of,
                    ": ",
                    &job.both(hook.at.x, Grade::Piece),
                    " from the left corner, ",
                    &job.both(hook.at.y, Grade::Piece),
                    " from the floor",
                ]
                .concat()
            });
            (items, size, scale, told.collect::<Vec<_>>().join("; "))
        }
        Drawing::Section(piece) => {
            let cut = section(plan, figures, piece)
                .ok_or(PaperError::NoPiece { count: plan.pieces.len(), piece })?;
            let (items, height, scale) = cut::drawn(&cut, WIDTH, plan.units.first);
            (items, Size::new(WIDTH, height), scale, cut.in_words())
        }
    };
    Ok(Svg { size, scale, photos, text: String::new() }.drawn(&items, &plan.title, &words, is_clear))
}

struct Svg<'a> {
    size: Size,
    scale: i64,
    photos: &'a [Option<Photo>],
    text: String,
}

impl Svg<'_> {
    /// A length on the paper as millimetres of what is drawn, to a micrometre.
    fn mm(&self, length: Length) -> String {
        let um = divide(
            i128::from(length.units()) * i128::from(self.scale),
            UNITS_PER_MICROMETRE.into(),
            Mode::HalfAway,
        );
        let (sign, um) = if um < 0 { ("-", -um) } else { ("", um) };
        let rest = (1000 + um % 1000).to_string();
        let whole = [sign, &(um / 1000).to_string(), ".", &rest[1..]].concat();
        whole.trim_end_matches('0').trim_end_matches('.').to_owned()
    }

    /// A place: in the file y runs down from the upper edge.
    fn at(&self, point: Point) -> [String; 2] {
        [self.mm(point.x), self.mm(self.size.height - point.y)]
    }

    fn add(&mut self, parts: &[&str]) {
        parts.iter().for_each(|part| self.text += part);
    }

    fn drawn(mut self, items: &[Item], title: &str, words: &str, is_clear: bool) -> String {
        let (width, height) = (self.mm(self.size.width), self.mm(self.size.height));
        self.add(&[
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"",
            &width,
            "mm\" height=\"",
            &height,
            "mm\" viewBox=\"0 0 ",
            &width,
            " ",
            &height,
            "\" role=\"img\" lang=\"en\">\n<title>",
            &escaped(title),
            "</title>\n<desc>",
            &escaped(words),
            "</desc>\n",
        ]);
        self.pictures(items);
        if !is_clear {
            self.add(&["<rect width=\"", &width, "\" height=\"", &height, "\" fill=\"#fff\"/>\n"]);
        }
        for (index, item) in items.iter().enumerate() {
            self.item(item, index);
        }
        self.text + "</svg>\n"
    }

    /// Each picture that is shown, once.
    fn pictures(&mut self, items: &[Item]) {
        let shown: BTreeSet<usize> = items
            .iter()
            .filter_map(|item| {
                if let Item::Picture { shows, .. } = item { shows.map(|shown| shown.0) } else { None }
            })
            .collect();
        for index in shown {
            if let Some(Some(photo)) = self.photos.get(index) {
                let data = base64(&photo.jpeg);
                let id = index.to_string();
                self.add(&[
                    "<defs><image id=\"p",
                    &id,
                    "\" width=\"1\" height=\"1\" preserveAspectRatio=\"none\" href=\"data:image/jpeg;base64,",
                    &data,
                    "\"/></defs>\n",
                ]);
            }
        }
    }

    fn item(&mut self, item: &Item, index: usize) {
        match item {
            Item::Text(lettering) => self.lettering(lettering),
            Item::Line(line) => self.line(line),
            Item::Shape { path, fill, line } => {
                let data = self.path(path);
                let fill = fill.map_or("none".to_owned(), |colour| colour.to_string());
                self.add(&["<path d=\"", &data, "\" fill=\"", &fill, "\""]);
                if let Some((width, ink)) = line {
                    let width = self.mm(*width);
                    self.add(&[" stroke=\"", &ink.to_string(), "\" stroke-width=\"", &width, "\""]);
                }
                self.add(&["/>\n"]);
            }
            Item::Picture { rect, shows, file_px } => {
                let path = self.path(&super::sheet::outline_of(*rect));
                let photo = shows
                    .and_then(|(index, source)| Some((index, source, self.photos.get(index)?.as_ref()?)));
                let Some((picture, source, photo)) = photo else {
                    return self.add(&["<path d=\"", &path, "\" fill=\"", &TONED.to_string(), "\"/>\n"]);
                };
                #[expect(clippy::cast_precision_loss, reason = "a scale has few digits")]
                let scale = self.scale as f64;
                let [a, b, c, d, e, f] =
                    photo.laid(*rect, source, *file_px, Unit::Millimetre).map(|value| value * scale);
                // The unit square of an image has its y down: turned over, it is that of the paper.
                let height = self.size.height.to_mm() * scale;
                let matrix = [a, -b, -c, d, e + c, height - f - d].map(decimal).join(" ");
                let (id, picture) = (index.to_string(), picture.to_string());
                self.add(&[
                    "<clipPath id=\"c",
                    &id,
                    "\"><path d=\"",
                    &path,
                    "\"/></clipPath><g clip-path=\"url(#c",
                    &id,
                    ")\"><use href=\"#p",
                    &picture,
                    "\" transform=\"matrix(",
                    &matrix,
                    ")\"/></g>\n",
                ]);
            }
        }
    }

    fn lettering(&mut self, Lettering { at, face, em, text, ink, is_upright }: &Lettering) {
        let [x, y] = self.at(*at);
        // Another face, where this one is not installed, is set as wide.
        let wide = self.mm(crate::text::length(*face, text, *em));
        let em = self.mm(*em);
        let (family, weight, style) = match face {
            Face::Sans | Face::SansMedium => {
                ("Alegreya Sans,sans-serif", if *face == Face::Sans { "400" } else { "500" }, "normal")
            }
            Face::SerifBold => ("Alegreya,serif", "700", "normal"),
            Face::Serif => ("Alegreya,serif", "400", "normal"),
            Face::SerifItalic => ("Alegreya,serif", "400", "italic"),
        };
        self.add(&[
            "<text x=\"",
            &x,
            "\" y=\"",
            &y,
            "\" font-size=\"",
            &em,
            "\" font-family=\"",
            family,
            "\" font-weight=\"",
            weight,
            "\" font-style=\"",
            style,
            "\" textLength=\"",
            &wide,
            "\" lengthAdjust=\"spacingAndGlyphs\" fill=\"",
            &ink.to_string(),
            "\"",
        ]);
        if *is_upright {
            self.add(&[" transform=\"rotate(-90 ", &x, " ", &y, ")\""]);
        }
        self.add(&[">", &escaped(text), "</text>\n"]);
    }

    fn line(&mut self, Line { from, to, width, ink, dashes }: &Line) {
        let ([x1, y1], [x2, y2]) = (self.at(*from), self.at(*to));
        let width = self.mm(*width);
        self.add(&[
            "<path d=\"M",
            &x1,
            " ",
            &y1,
            "L",
            &x2,
            " ",
            &y2,
            "\" stroke=\"",
            &ink.to_string(),
            "\" stroke-width=\"",
            &width,
            "\"",
        ]);
        if !dashes.is_empty() {
            let dashes: Vec<String> = dashes.iter().map(|dash| self.mm(*dash)).collect();
            self.add(&[" stroke-dasharray=\"", &dashes.join(" "), "\""]);
        }
        self.add(&["/>\n"]);
    }

    fn path(&self, steps: &[Step]) -> String {
        let place = |point: &Point| self.at(*point).join(" ");
        let step = |step: &Step| match step {
            Step::Move(to) => ["M", &place(to)].concat(),
            Step::Line(to) => ["L", &place(to)].concat(),
            Step::Curve(by) => ["C", &by.iter().map(place).collect::<Vec<_>>().join(" ")].concat(),
            Step::Close => "Z".to_owned(),
        };
        steps.iter().map(step).collect()
    }
}

/// A real number to a millionth.
fn decimal(value: f64) -> String {
    let millionths = crate::rounding::nearest(value * 1e6);
    let (sign, size) =
        if millionths < 0 { ("-", millionths.unsigned_abs()) } else { ("", millionths.unsigned_abs()) };
    let rest = (1_000_000 + size % 1_000_000).to_string();
    [sign, &(size / 1_000_000).to_string(), ".", &rest[1..]].concat()
}

/// Bytes as text (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let at = |index: usize| usize::from(three.get(index).copied().unwrap_or(0));
        let whole = at(0) << 16 | at(1) << 8 | at(2);
        for index in 0..4 {
            let letter = char::from(LETTERS[whole >> (18 - index * 6) & 63]);
            text.push(if index <= three.len() { letter } else { '=' });
        }
    }
    text
}
