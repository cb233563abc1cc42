//! The section as pixels: the cut on the left, to one scale, and what its parts are on the right.

use super::brush;
use super::lettering::{self, Lettering};
use super::pixel_rect::PixelRect;
use super::projection::pixels;
use super::sheet::{MOST_SIDE_PX, Sheet};
use crate::colour::Colour;
use crate::geometry::Point;
use crate::length::Length;
use crate::plan::{Material, System};
use crate::scene::section::{CutPart, Section, Substance};
use crate::text::typeset;
use tiny_skia::{Pixmap, PixmapMut};

/// A section drawn.
#[derive(Debug)]
pub struct SectionDrawing {
    /// sRGB, four bytes a pixel, opaque.
    pub pixels: Vec<u8>,
    /// Width in device pixels.
    pub width_px: u32,
    /// Height in device pixels: what the section needs at the sheet's width.
    pub height_px: u32,
    /// Device pixels to one inch.
    pub scale: f32,
    /// Where the wall meets the lower edge of the outside, in device pixels from the left and from the top.
    pub origin: (f32, f32),
}

/// How high a cut is at most, in CSS pixels.
const MOST_HEIGHT: f32 = 430.0;
/// Distance of lines of text, in em.
const LINE: f32 = 1.35;
/// Distance of the lines of depths, in em.
const LANE: f32 = 1.7;

/// A note set in lines of text.
struct Set {
    at: (f32, f32),
    lines: Vec<String>,
    /// The middle of its first line, from the top.
    y: f32,
}

/// Draws a section on a sheet of this width; the sheet's own height plays no part. In `system` the scale bar is divided.
#[must_use]
pub fn draw(section: &Section, sheet: &Sheet, system: System) -> SectionDrawing {
    let width_px = sheet.width_px.clamp(1, MOST_SIDE_PX);
    let (width, ratio) = (pixels(width_px), sheet.pixel_ratio);
    let em = ratio * if width / ratio < 480.0 { 12.0 } else { 13.5 };
    let margin = em;
    // The notes take what they need, up to so much of the width.
    let longest =
        section.notes.iter().map(|note| lettering::length(&typeset(&note.text), em)).fold(0.0, f32::max);
    let column = longest.min(width * 0.52);
    let room = (width - column - em * 3.4 - margin * 2.0).max(em * 3.0);
    let (across, up) = (inches(section.bounds.size.width), inches(section.bounds.size.height));
    let scale = (room / across).min(MOST_HEIGHT * ratio / up);
    let cut_height = up * scale;
    let mut notes = set(section, em, column, |point| {
        (
            margin + inches(point.x - section.bounds.x) * scale,
            margin + cut_height - inches(point.y - section.bounds.y) * scale,
        )
    });
    let text_end = spread(&mut notes, em, margin + em, margin + cut_height);
    let lanes = f32::from(u8::try_from(section.depths.len()).unwrap_or(u8::MAX)) * em * LANE;
    // Depths stand below the cut, and below the notes where these need more room than the cut.
    let foot = margin + cut_height;
    let below = foot.max(text_end - em * LINE / 2.0);
    let height = below + lanes + em * 2.6;
    let height_px =
        u32::try_from(crate::rounding::nearest(f64::from(height.ceil()))).unwrap_or(1).clamp(1, MOST_SIDE_PX);
    let origin =
        (margin - inches(section.bounds.x) * scale, margin + cut_height + inches(section.bounds.y) * scale);
    let mut pixmap = Pixmap::new(width_px, height_px);
    if let Some(pixmap) = &mut pixmap {
        let ground = sheet.theme.sheet;
        pixmap.fill(tiny_skia::Color::from_rgba8(ground.red, ground.green, ground.blue, 255));
        let mut table = Table {
            canvas: pixmap.as_mut(),
            lettering: Lettering::default(),
            sheet,
            em,
            line: ratio.max(1.0),
            scale,
            origin,
        };
        section.parts.iter().for_each(|part| table.part(part));
        if let Some(at) = section.left_out {
            table.broken(at);
        }
        let edge = margin + across * scale;
        notes.iter().for_each(|note| table.note(note, edge, em));
        table.depths(section, foot, below);
        table.scale_bar(system, width - margin, height - em * 1.1);
    }
    let pixels = pixmap.map_or_else(Vec::new, Pixmap::take);
    SectionDrawing { pixels, width_px, height_px, scale, origin }
}

/// How much of a section a small drawing shows, from top to bottom.
const SMALL_HEIGHT: Length = Length::inches_ratio(15, 8);

/// Draws the moulding of a section with what lies near it, without a word, always to the same scale: to choose by.
#[must_use]
pub fn draw_small(section: &Section, sheet: &Sheet) -> Option<Vec<u8>> {
    let mut pixmap = Pixmap::new(sheet.width_px, sheet.height_px)?;
    let ground = sheet.theme.sheet;
    pixmap.fill(tiny_skia::Color::from_rgba8(ground.red, ground.green, ground.blue, 255));
    let scale = pixels(sheet.height_px) / inches(SMALL_HEIGHT);
    let rail = section.parts.iter().find(|part| matches!(part.substance, Substance::Moulding(_)));
    let corners = &rail.or(section.parts.last())?.corners;
    let middle = |pick: fn(&Point) -> Length| {
        let (least, most) = (corners.iter().map(pick).min(), corners.iter().map(pick).max());
        inches(least.unwrap_or_default() + most.unwrap_or_default()) / 2.0
    };
    let origin = (
        pixels(sheet.width_px) / 2.0 - middle(|corner| corner.x) * scale,
        pixels(sheet.height_px) / 2.0 + middle(|corner| corner.y) * scale,
    );
    let mut table = Table {
        canvas: pixmap.as_mut(),
        lettering: Lettering::default(),
        sheet,
        em: sheet.pixel_ratio * 12.0,
        line: sheet.pixel_ratio.max(1.0),
        scale,
        origin,
    };
    section.parts.iter().for_each(|part| table.part(part));
    Some(pixmap.take())
}

#[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
fn inches(length: Length) -> f32 {
    length.to_inches() as f32
}

/// Sets the notes in lines no longer than the column, in the order of their heights.
fn set(section: &Section, em: f32, column: f32, place: impl Fn(Point) -> (f32, f32)) -> Vec<Set> {
    let mut notes: Vec<Set> = section
        .notes
        .iter()
        .map(|note| Set { at: place(note.at), lines: wrapped(&typeset(&note.text), em, column), y: 0.0 })
        .collect();
    crate::order::sort_by(&mut notes, |a, b| a.at.1.total_cmp(&b.at.1));
    notes
}

/// A text in lines that are no longer than the column, where its words allow that.
fn wrapped(text: &str, em: f32, column: f32) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let Some(line) = lines.last_mut() else { continue };
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if line.is_empty() || lettering::length(&longer, em) <= column + 0.5 {
            *line = longer;
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

/// Gives each note a place beside its part, none over another, from `top` to about `bottom`; returns where they end.
fn spread(notes: &mut [Set], em: f32, top: f32, bottom: f32) -> f32 {
    let tall = |note: &Set| pixels(u32::try_from(note.lines.len()).unwrap_or(1)) * em * LINE + em * 0.25;
    let all: f32 = notes.iter().map(tall).sum();
    let mut least = top.min((bottom - all).max(em));
    for index in 0..notes.len() {
        // What is still to come has to fit below, as far as it can.
        let rest: f32 = notes[index..].iter().map(tall).sum();
        let y = notes[index].at.1.min(bottom - rest + em * LINE / 2.0).max(least);
        notes[index].y = y;
        least = y + tall(&notes[index]);
    }
    least
}

struct Table<'a, 'b> {
    canvas: PixmapMut<'b>,
    lettering: Lettering,
    sheet: &'a Sheet,
    em: f32,
    line: f32,
    scale: f32,
    origin: (f32, f32),
}

impl Table<'_, '_> {
    fn x(&self, x: Length) -> f32 {
        self.origin.0 + inches(x) * self.scale
    }

    fn y(&self, y: Length) -> f32 {
        self.origin.1 - inches(y) * self.scale
    }

    fn part(&mut self, part: &CutPart) {
        let corners: Vec<(f32, f32)> =
            part.corners.iter().map(|corner| (self.x(corner.x), self.y(corner.y))).collect();
        let fill = self.fill(part.substance);
        brush::polygon(&mut self.canvas, &corners, fill);
        if part.substance == Substance::Wall {
            self.hatch(&corners);
            return;
        }
        // Outlines of paper would be thicker than the paper.
        if part.substance != Substance::Sheet {
            for (index, &from) in corners.iter().enumerate() {
                self.stroke(
                    from,
                    corners[(index + 1) % corners.len()],
                    self.sheet.theme.ink,
                    self.line * 0.8,
                );
            }
        }
    }

    fn fill(&self, substance: Substance) -> Colour {
        match substance {
            Substance::Wall => self.sheet.theme.sheet.mixed(self.sheet.theme.quiet, 0.25),
            Substance::Moulding(colour) => colour,
            Substance::Wood => Colour::hex(0xd2_b3_86),
            Substance::Glazing => Colour::hex(0xb4_d3_d6),
            Substance::Mat(colour) => colour,
            // What the drawing is about.
            Substance::Sheet => self.sheet.theme.red,
            Substance::Metal => Colour::hex(0xaa_b1_b6),
            Substance::Board(material) => Colour::hex(match material {
                Material::FoamBoard => 0xf4_f2_ea,
                Material::FlutedBoard => 0xdd_e5_e2,
                Material::Hardboard => 0x9a_77_54,
                Material::Mdf => 0xc4_a0_74,
                Material::AluminiumComposite => 0xb9_bf_c4,
                _ => 0xe6_de_cb,
            }),
        }
    }

    /// Oblique lines over the wall, the sign of what is cut and goes on.
    fn hatch(&mut self, corners: &[(f32, f32)]) {
        let bound = |pick: fn(&(f32, f32)) -> f32, most: bool| {
            let values = corners.iter().map(pick);
            if most { values.fold(f32::MIN, f32::max) } else { values.fold(f32::MAX, f32::min) }
        };
        let (left, right) = (bound(|c| c.0, false), bound(|c| c.0, true));
        let (top, bottom) = (bound(|c| c.1, false), bound(|c| c.1, true));
        let step = self.em * 0.6;
        let mut y = top - (right - left);
        while y < bottom {
            // From the left side down to the right one, held within top and bottom.
            let (from, to) = (y.max(top), (y + right - left).min(bottom));
            if to > from {
                let ink = self.sheet.theme.quiet;
                self.stroke((left + from - y, from), (left + to - y, to), ink, self.line * 0.6);
            }
            y += step;
        }
        self.stroke((right, top), (right, bottom), self.sheet.theme.ink, self.line * 1.4);
    }

    fn stroke(&mut self, from: (f32, f32), to: (f32, f32), ink: Colour, width: f32) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = libm::hypotf(dx, dy);
        if length <= 0.0 {
            return;
        }
        let (nx, ny) = (-dy / length * width / 2.0, dx / length * width / 2.0);
        let corners = [
            (from.0 + nx, from.1 + ny),
            (to.0 + nx, to.1 + ny),
            (to.0 - nx, to.1 - ny),
            (from.0 - nx, from.1 - ny),
        ];
        brush::polygon(&mut self.canvas, &corners, ink);
    }

    /// A break: a strip of the ground between two jagged lines, where the package goes on alike.
    fn broken(&mut self, at: Point) {
        let (left, right, y) = (self.x(Length::ZERO) + self.line, self.x(at.x) + self.em * 0.6, self.y(at.y));
        let (half, tooth) = (self.em * 0.2, self.em * 0.3);
        let jag = |index: u16| if index.is_multiple_of(2) { -tooth / 2.0 } else { tooth / 2.0 };
        let steps = 9_u16;
        let along = |index: u16| left + (right - left) * f32::from(index) / f32::from(steps);
        let upper: Vec<(f32, f32)> = (0..=steps).map(|index| (along(index), y - half + jag(index))).collect();
        let lower: Vec<(f32, f32)> = upper.iter().map(|&(x, y)| (x, y + half * 2.0)).collect();
        let strip: Vec<(f32, f32)> = upper.iter().chain(lower.iter().rev()).copied().collect();
        brush::polygon(&mut self.canvas, &strip, self.sheet.theme.sheet);
        for line in [&upper, &lower] {
            for pair in line.windows(2) {
                self.stroke(pair[0], pair[1], self.sheet.theme.quiet, self.line * 0.8);
            }
        }
    }

    /// A dot on a part, a line to its note, and the note.
    fn note(&mut self, note: &Set, edge: f32, em: f32) {
        let ink = self.sheet.theme.quiet;
        let column = edge + em * 2.6;
        self.stroke(note.at, (edge, note.at.1), ink, self.line * 0.7);
        self.stroke((edge, note.at.1), (column - em * 0.4, note.y), ink, self.line * 0.7);
        // A dot with a rim, to be seen on light and on dark.
        for (radius, ink) in [(2.6, self.sheet.theme.sheet), (1.7, self.sheet.theme.ink)] {
            let radius = self.line * radius;
            let area =
                PixelRect::from_xywh(note.at.0 - radius, note.at.1 - radius, radius * 2.0, radius * 2.0);
            brush::rounded(&mut self.canvas, area, [radius, radius], ink);
        }
        let mut y = note.y;
        for line in &note.lines {
            self.write(line, em, column, y, self.sheet.theme.ink);
            y += em * LINE;
        }
    }

    /// Writes a text that begins at `left`, its middle at `y`.
    fn write(&mut self, text: &str, em: f32, left: f32, y: f32, ink: Colour) {
        let middle = left + lettering::length(text, em) / 2.0;
        self.lettering.letter(&mut self.canvas, text, em, (middle, y), false, ink);
    }

    /// The depths below the cut, the shortest nearest to it; each figure stands behind the longest. Their lines come down from the
    /// foot of the cut.
    fn depths(&mut self, section: &Section, foot: f32, below: f32) {
        let mut depths: Vec<_> = section.depths.iter().collect();
        crate::order::sort_by_key(&mut depths, |depth| depth.to - depth.from);
        let (em, ink) = (self.em, self.sheet.theme.ink);
        let end = depths.iter().map(|depth| self.x(depth.to)).fold(0.0, f32::max);
        for (index, depth) in depths.into_iter().enumerate() {
            let lane = pixels(u32::try_from(index).unwrap_or(0)) + 0.7;
            let y = below + lane * em * LANE;
            let (from, to) = (self.x(depth.from), self.x(depth.to));
            self.stroke((from, y), (to, y), ink, self.line * 0.8);
            for x in [from, to] {
                self.stroke((x, foot), (x, y + em * 0.3), self.sheet.theme.quiet, self.line * 0.6);
                self.lettering.tick(&mut self.canvas, em * 0.26, (x, y), ink);
            }
            self.write(&typeset(&depth.text), em, end + em * 1.1, y, ink);
        }
    }

    /// A bar of one length, its right end at `right`.
    fn scale_bar(&mut self, system: System, right: f32, y: f32) {
        let (length, name) = match system {
            System::Inches => (Length::inches(1), "1\""),
            System::Centimetres => (Length::mm(20), "2 cm"),
        };
        let (name, bar) = (typeset(name), inches(length) * self.scale);
        let left = right - bar;
        let em = self.em * 0.9;
        let area = PixelRect::from_xywh(left, y, bar, self.em * 0.26);
        brush::crisp(&mut self.canvas, area, self.sheet.theme.ink);
        let text = lettering::length(&name, em);
        self.write(&name, em, left - text - em * 0.5, y + self.em * 0.13, self.sheet.theme.ink);
    }
}
