//! Rows of a picture going in from the top down, rows of its print-ready file coming out.
//!
//! What is held at any time: where the top is in mirror image, as many rows as that is deep, until they are there; where the bottom is,
//! the last as many; where the picture is scaled, the rows under the filter.

use super::form::Form;
use super::{Fill, Margin, Recipe, Taken};
use crate::print::{Exact, Source};
use crate::resample::{RasterPart, Stream};
use std::collections::VecDeque;
use std::ops::Range;

/// Rows on their way from a picture to its print-ready file.
///
/// ```
/// use overmantel::{colour::Colour, figures::Figures, plan::{Picture, Plan}, print_file::{Form, Recipe, Rows, PrintWish}};
/// let mut plan = Plan::starting();
/// (plan.pieces[0].picture, plan.split) = (Some(0), None);
/// plan.pictures = vec![Picture { name: "Flats".into(), file: "flats.png".into(), width_px: 8, height_px: 10, subject: None }];
/// let recipe = Recipe::of(&plan, &Figures::of(&plan).unwrap(), 0, PrintWish::default()).unwrap();
/// let mut rows = Rows::new(&recipe, Form::RGB, &Form::RGB.pixel(Colour::hex(0xff_ff_ff)));
/// let mut file = Vec::new();
/// for row in rows.needed() {
///     let row = vec![row as u8; 8 * 3];
///     rows.take(&row, &mut |row| file.extend_from_slice(row));
/// }
/// assert_eq!(file.len(), 8 * 10 * 3);
/// ```
pub struct Rows {
    form: Form,
    taking: Taking,
    frame: Frame,
}

/// How a row of the printed picture comes from those of the file.
enum Taking {
    /// Some of its pixels, as bytes of the row, for so many rows from one on.
    Pixels { bytes: Range<usize>, rows: Range<u32> },
    /// Scaled; and one row of the result.
    Scaled(Box<Stream>, Vec<u8>),
}

impl Rows {
    /// By a recipe, for pixels of a form; `colour` is the pixel of what is plain.
    #[must_use]
    pub fn new(recipe: &Recipe, form: Form, colour: &[u8]) -> Self {
        let taking = match recipe.taken {
            Taken::Pixels(crop) => {
                let left = crop.left as usize * form.bytes();
                let bytes = left..left + crop.width as usize * form.bytes();
                Taking::Pixels { bytes, rows: crop.top..crop.top + crop.height }
            }
            Taken::Scaled(source) => {
                let stream = Stream::new(recipe.picture_px, part(source), recipe.taken_px());
                let row = vec![0; recipe.taken_px().0 as usize * form.bytes()];
                Taking::Scaled(Box::new(stream), row)
            }
        };
        Self { form, taking, frame: Frame::new(recipe, form.bytes(), colour) }
    }

    /// The rows of the picture that are needed, counted from 0. All of them are to be taken, in their order, and no others.
    #[must_use]
    pub fn needed(&self) -> Range<u32> {
        match &self.taking {
            Taking::Pixels { rows, .. } => rows.clone(),
            Taking::Scaled(stream, _) => {
                let side = |row| u32::try_from(row).unwrap_or(u32::MAX);
                side(stream.rows().start)..side(stream.rows().end)
            }
        }
    }

    /// Takes a whole row of the picture. The rows of the file that this completes go to `finished`.
    pub fn take(&mut self, row: &[u8], finished: &mut dyn FnMut(&[u8])) {
        let Self { form, taking, frame } = self;
        match taking {
            Taking::Pixels { bytes, .. } => frame.take(&row[bytes.clone()], finished),
            Taking::Scaled(stream, scaled) => stream.take(
                |columns, light| form.read(&row[columns.start * form.bytes()..], light),
                &mut |light| {
                    form.write(light, scaled);
                    frame.take(scaled, finished);
                },
            ),
        }
    }
}

fn part(source: Source) -> RasterPart {
    let real = |value: Exact| {
        #[expect(clippy::cast_precision_loss, reason = "an edge: a place in a picture keeps 53 bits")]
        let quotient = *value.numer() as f64 / *value.denom() as f64;
        quotient
    };
    let [left, top, width, height] = [source.left, source.top, source.width, source.height].map(real);
    RasterPart { left, top, width, height }
}

/// What goes round the picture: round what is printed and its own pixels in the bleed.
struct Frame {
    bytes: usize,
    colour: Vec<u8>,
    margins: super::Margins,
    height: usize,
    /// Rows of the picture that came so far.
    seen: usize,
    /// Finished rows: at the top until they are enough to be turned over, later the last for the bottom.
    held: VecDeque<Vec<u8>>,
    /// A row of the colour, and one to be filled.
    plain: Vec<u8>,
    row: Vec<u8>,
}

impl Frame {
    fn new(recipe: &Recipe, bytes: usize, colour: &[u8]) -> Self {
        let width = recipe.size_px().0 as usize;
        Self {
            bytes,
            colour: colour.to_vec(),
            margins: recipe.margins,
            height: recipe.taken_px().1 as usize,
            seen: 0,
            held: VecDeque::new(),
            plain: colour.repeat(width),
            row: Vec::new(),
        }
    }

    /// How many rows of the picture a margin is made of: as many as it is deep, or all.
    fn made_of(&self, margin: Margin) -> usize {
        if margin.fill == Fill::Mirrored { (margin.filled_px() as usize).min(self.height) } else { 0 }
    }

    fn take(&mut self, printed: &[u8], finished: &mut dyn FnMut(&[u8])) {
        let (top, bottom) = (self.margins.top, self.margins.bottom);
        let mut row = std::mem::take(&mut self.row);
        self.widen(printed, &mut row);
        if self.seen == 0 && top.fill != Fill::Mirrored {
            (0..top.filled_px()).for_each(|_| finished(&self.plain));
        }
        self.seen += 1;
        let head = self.made_of(top);
        if self.seen >= head {
            let is_turned = self.seen == head;
            if is_turned {
                self.held.push_back(std::mem::take(&mut row));
                for up in (0..top.filled_px() as usize).rev() {
                    finished(&self.held[mirrored(up, self.height)]);
                }
                self.held.iter().for_each(|row| finished(row));
            } else {
                finished(&row);
            }
            let foot = self.made_of(bottom);
            if !is_turned && foot > 0 {
                self.held.push_back(std::mem::take(&mut row));
            }
            while self.held.len() > foot {
                row = self.held.pop_front().unwrap_or_default();
            }
        } else {
            self.held.push_back(std::mem::take(&mut row));
        }
        self.row = row;
        if self.seen == self.height {
            let first = self.height - self.held.len();
            for down in 0..bottom.filled_px() as usize {
                match bottom.fill {
                    Fill::Plain(_) => finished(&self.plain),
                    Fill::Mirrored => {
                        finished(&self.held[self.height - 1 - mirrored(down, self.height) - first]);
                    }
                }
            }
        }
    }

    /// A row of the picture with what is on its left and right.
    fn widen(&self, printed: &[u8], row: &mut Vec<u8>) {
        let width = printed.len() / self.bytes;
        let pixel = |index: usize| &printed[index * self.bytes..][..self.bytes];
        row.clear();
        let left = self.margins.left;
        for out in (0..left.filled_px() as usize).rev() {
            row.extend_from_slice(match left.fill {
                Fill::Plain(_) => &self.colour,
                Fill::Mirrored => pixel(mirrored(out, width)),
            });
        }
        row.extend_from_slice(printed);
        let right = self.margins.right;
        for out in 0..right.filled_px() as usize {
            row.extend_from_slice(match right.fill {
                Fill::Plain(_) => &self.colour,
                Fill::Mirrored => pixel(width - 1 - mirrored(out, width)),
            });
        }
    }
}

/// The pixel that is seen so many beyond an edge, counted inwards from it; there and back where the picture is smaller than that.
const fn mirrored(out: usize, length: usize) -> usize {
    let place = out % (2 * length);
    if place < length { place } else { 2 * length - 1 - place }
}
