//! Inks that can be read: each line and figure against the very pixels it will lie on.
//!
//! Lettering has a contrast of 4.5 to 1 at least (WCAG 2.2, 1.4.3 Contrast (Minimum)), lines 3 to 1 (1.4.11 Non-text Contrast).
//! Of black and white one has more than 4.5 to 1 on any colour: at the worst, on a luminance of 0.179, both have 4.58.

use super::super::Theme;
use super::super::pixel_rect::PixelRect;
use super::super::projection::pixels;
use super::{Placed, Stroke, Tick};
use crate::colour::{Colour, decode_table};
use crate::scene::Tone;
use tiny_skia::PixmapRef;

/// Least contrast of lettering.
const LETTERING: f32 = 4.5;
/// The same where only some of the pixels are looked at: with a little to spare for the grain of a wall.
const LETTERING_ON_GRAIN: f32 = 4.65;
/// The luminance on which black and white have the same contrast: √(1.05 × 0.05) − 0.05.
const MIDDLE: f32 = 0.179;
/// A tick over an edge is read by so much of what is round it.
const MOST_OF_IT: f32 = 0.7;
/// Least contrast of lines, with a little to spare for the grain of a wall.
const LINES: f32 = 3.2;

/// Gives everything an ink for what it lies on. Where that is the sheet, it is in the inks of the sheet; on the wall in those
/// that suit its `paint`, as far as they can be read.
///
/// Of a box some pixels in each row are looked at, `line` apart; of a line those that are its own thickness apart.
pub(super) fn choose(placed: &mut Placed, canvas: &PixmapRef<'_>, sheet: &Theme, paint: Colour, line: f32) {
    let wall = if paint.luminance() > MIDDLE { Theme::LIGHT } else { Theme::DARK };
    let inks = Inks { sheet: *sheet, wall };
    let ground = Ground {
        pixels: canvas.data().as_chunks().0,
        size: (canvas.width(), canvas.height()),
        light: decode_table(),
        step: line.round().max(1.0),
    };
    for label in &mut placed.labels {
        let found = ground.range(label.area);
        let theme = inks.theme(found.is_all(sheet.sheet));
        let ink = inks.first(theme, label.tone, |ink| found.contrast(ink) >= LETTERING_ON_GRAIN);
        label.ink = ink.unwrap_or_else(|| {
            // On a small field of the wall's paint, or of the sheet.
            let plain = if label.on_wall { paint } else { sheet.sheet };
            label.ground = Some(plain);
            let theme = inks.theme(!label.on_wall);
            inks.first(theme, label.tone, |ink| ink.contrast(plain) >= LETTERING).unwrap_or(theme.ink)
        });
    }
    for tick in &mut placed.ticks {
        let found = ground.range(tick.area().grown(1.0));
        let theme = inks.theme(found.is_all(sheet.sheet));
        let ink = inks.first(theme, tick.tone, |ink| found.contrast(ink) >= LINES);
        // Over an edge: the one that suits most of what is round it, if that is nearly all.
        let over_an_edge = || {
            let ends = [Colour::hex(0xff_ff_ff), Colour::hex(0x00_00_00), theme.ink];
            let shares = ends.map(|ink| (ground.readable_share(tick.area(), ink), ink));
            let best = shares.into_iter().max_by(|one, other| one.0.total_cmp(&other.0));
            best.filter(|&(share, _)| share >= MOST_OF_IT).map(|(_, ink)| ink)
        };
        tick.ink = ink.or_else(over_an_edge).unwrap_or_else(|| {
            // On a small field of what is just behind it.
            let plain = colour(ground.at(tick.middle.0, tick.middle.1));
            tick.ground = Some(plain);
            inks.first(theme, tick.tone, |ink| ink.contrast(plain) >= LINES).unwrap_or(theme.ink)
        });
    }
    one_field_for_neighbours(&mut placed.ticks);
    let strokes = std::mem::take(&mut placed.strokes);
    for stroke in strokes {
        part(&stroke, &ground, &inks, &mut placed.strokes);
    }
}

/// Ticks that lie on each other's fields have one field's colour and ink between them.
fn one_field_for_neighbours(ticks: &mut [Tick]) {
    let mut fields: Vec<(PixelRect, Colour, Colour)> = Vec::new();
    // A tick that takes over a field extends it: at most each by the one before.
    for _ in 0..ticks.len() {
        let before = fields.len();
        for tick in ticks.iter_mut() {
            let area = tick.field();
            let known = fields.iter().find(|(field, ..)| field.overlaps(area));
            match (known, tick.ground) {
                (Some(&(_, ground, ink)), own) if own != Some(ground) || tick.ink != ink => {
                    (tick.ground, tick.ink) = (Some(ground), ink);
                    fields.push((area, ground, ink));
                }
                (None, Some(ground)) => fields.push((area, ground, tick.ink)),
                _ => {}
            }
        }
        if fields.len() == before {
            break;
        }
    }
}

/// Divides a stroke where what it lies on changes so much that its ink must.
#[inline(never)]
fn part(stroke: &Stroke, ground: &Ground<'_>, inks: &Inks, parts: &mut Vec<Stroke>) {
    let PixelRect { left, top, right, bottom } = stroke.area;
    let (width, height) = (stroke.area.width(), stroke.area.height());
    let upright = height > width;
    let canvas = PixelRect::from_xywh(0.0, 0.0, pixels(ground.size.0), pixels(ground.size.1));
    if !stroke.area.overlaps(canvas) {
        return;
    }
    let (start, end) = if upright { (top, bottom) } else { (left, right) };
    // Beyond the canvas there is nothing to see.
    let most = if upright { canvas.bottom } else { canvas.right };
    let (start, end) = (start.max(0.0), end.min(most));
    let mut push = |from: f32, to: f32, ink: Colour| {
        let area = if upright {
            PixelRect { top: from, bottom: to, ..stroke.area }
        } else {
            PixelRect { left: from, right: to, ..stroke.area }
        };
        parts.push(Stroke { area, ink, ..*stroke });
    };
    let thick = if upright { width } else { height };
    let step = thick.max(1.0);
    // What it is seen against lies at its sides.
    let near = if upright { left } else { top };
    let side = [near - 0.5, near + thick + 0.5];
    let side = side.map(|at| if upright { ground.column(at) } else { ground.row(at) });
    let mut kept: Option<Kept> = None;
    let mut along = start;
    while along < end {
        let spot = (along + step / 2.0).min(end - 0.5);
        let sides = if upright {
            let row = ground.row(spot);
            side.map(|column| ground.pixels[row + column])
        } else {
            let column = ground.column(spot);
            side.map(|row| ground.pixels[row + column])
        };
        // Most are like those before.
        if !kept.as_ref().is_some_and(|kept| sides == kept.on || kept.holds(sides, ground)) {
            let one = Range::of(sides[0], ground);
            let both = Range::of(sides[1], ground).and(&one);
            let theme = inks.theme(sides.map(colour).contains(&inks.sheet.sheet));
            let readable = |range: &Range| inks.first(theme, stroke.tone, |ink| range.contrast(ink) >= LINES);
            // Along an edge that no ink is right for: for one side of it.
            let ink = readable(&both).or_else(|| readable(&one)).unwrap_or(theme.ink);
            let from = match kept.take() {
                Some(kept) if kept.ink == ink => kept.from,
                Some(kept) => {
                    push(kept.from, along, kept.ink);
                    along
                }
                None => along,
            };
            kept = Some(Kept { from, ink, on: sides, light: ink.luminance() + 0.05 });
        }
        along += step;
    }
    if let Some(kept) = kept {
        push(kept.from, end, kept.ink);
    }
}

/// The part of a stroke that is followed: from where, in which ink, last on which colours at its sides.
struct Kept {
    from: f32,
    ink: Colour,
    on: [Pixel; 2],
    /// The ink's luminance, and the 0.05 that a contrast adds.
    light: f32,
}

impl Kept {
    fn holds(&self, sides: [Pixel; 2], ground: &Ground<'_>) -> bool {
        let [one, other] = sides.map(|side| ground.luminance(side) + 0.05);
        self.light >= one.max(other) * LINES || one.min(other) >= self.light * LINES
    }
}

/// The inks at hand.
struct Inks {
    sheet: Theme,
    wall: Theme,
}

impl Inks {
    fn theme(&self, is_sheet: bool) -> &Theme {
        if is_sheet { &self.sheet } else { &self.wall }
    }

    /// The first ink that will do: as the theme has it, then more and more like its plain ink, then black and white; then
    /// those of the other theme.
    fn first(&self, theme: &Theme, tone: Tone, will_do: impl Fn(Colour) -> bool) -> Option<Colour> {
        let (dark, light) = (Theme::LIGHT, Theme::DARK);
        let (black, white) = (Colour::hex(0x00_00_00), Colour::hex(0xff_ff_ff));
        let is_dark = theme.ink.luminance() < MIDDLE;
        let order = if is_dark { [(dark, black), (light, white)] } else { [(light, white), (dark, black)] };
        for (theme, end) in order {
            let stated = theme.toned(tone);
            for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let mixed = stated.mixed(theme.ink, share);
                if will_do(mixed) {
                    return Some(mixed);
                }
            }
            for share in [0.35, 0.7, 1.0] {
                let mixed = theme.ink.mixed(end, share);
                if will_do(mixed) {
                    return Some(mixed);
                }
            }
        }
        None
    }
}

/// Red, green, blue and nothing more.
type Pixel = [u8; 4];

fn colour([red, green, blue, _]: Pixel) -> Colour {
    Colour { red, green, blue }
}

/// What is drawn already.
struct Ground<'a> {
    pixels: &'a [Pixel],
    size: (u32, u32),
    light: &'static [f32; 256],
    step: f32,
}

/// The darkest and the lightest of some pixels, as luminance; and their colour where it is one.
struct Range {
    low: f32,
    high: f32,
    one: Option<Colour>,
}

impl Range {
    fn of(pixel: Pixel, ground: &Ground<'_>) -> Self {
        let luminance = ground.luminance(pixel);
        Self { low: luminance, high: luminance, one: Some(colour(pixel)) }
    }

    fn and(mut self, other: &Self) -> Self {
        (self.low, self.high) = (self.low.min(other.low), self.high.max(other.high));
        self
    }

    fn is_all(&self, colour: Colour) -> bool {
        self.one == Some(colour)
    }

    /// The least contrast of an ink with any of them.
    fn contrast(&self, ink: Colour) -> f32 {
        let (ink, low, high) = (ink.luminance() + 0.05, self.low + 0.05, self.high + 0.05);
        if ink > high {
            ink / high
        } else if ink < low {
            low / ink
        } else {
            1.0
        }
    }
}

impl Ground<'_> {
    fn luminance(&self, [red, green, blue, _]: Pixel) -> f32 {
        let light = |code: u8| self.light[usize::from(code)];
        0.2126 * light(red) + 0.7152 * light(green) + 0.0722 * light(blue)
    }

    /// The column of pixels at a place, or the nearest to it.
    fn column(&self, x: f32) -> usize {
        whole(x, self.size.0)
    }

    /// The first pixel of the row at a place, or of the nearest to it.
    fn row(&self, y: f32) -> usize {
        whole(y, self.size.1) * self.size.0 as usize
    }

    fn at(&self, x: f32, y: f32) -> Pixel {
        self.pixels[self.row(y) + self.column(x)]
    }

    /// From what share of the pixels along the sides of an area an ink for lines can be told.
    fn readable_share(&self, area: PixelRect, ink: Colour) -> f32 {
        let PixelRect { left, top, right, bottom } = area;
        let (mut readable, mut seen) = (0.0_f32, 0.0_f32);
        for side in [
            PixelRect { bottom: top + 1.0, ..area },
            PixelRect { right: left + 1.0, ..area },
            PixelRect { top: bottom, bottom: bottom + 1.0, ..area },
            PixelRect { left: right, right: right + 1.0, ..area },
        ] {
            self.each(side, |found| {
                seen += 1.0;
                readable += f32::from(u8::from(Range::of(found, self).contrast(ink) >= LINES));
            });
        }
        readable / seen.max(1.0)
    }

    /// Sees pixels of an area: in every row some, in the next row those beside them, and both ends.
    fn each(&self, area: PixelRect, mut see: impl FnMut(Pixel)) {
        // Far outside there is nothing but the nearest pixel; and beyond 2²⁴ a step of one pixel is none.
        let near = |at: f32, side: u32| at.clamp(-FAR, pixels(side) + FAR);
        let (across, down) = self.size;
        let area = PixelRect {
            left: near(area.left, across),
            top: near(area.top, down),
            right: near(area.right, across),
            bottom: near(area.bottom, down),
        };
        let (mut y, mut shift) = (area.top, 0.0);
        while y < area.bottom {
            let row = &self.pixels[self.row(y)..];
            see(row[self.column(area.left)]);
            let mut x = area.left + shift;
            while x < area.right {
                see(row[self.column(x)]);
                x += self.step;
            }
            see(row[self.column(area.right - 1.0)]);
            y += 1.0;
            shift = if shift + 1.0 < self.step { shift + 1.0 } else { 0.0 };
        }
    }

    /// The range of an area.
    #[inline(never)]
    fn range(&self, area: PixelRect) -> Range {
        let first = self.at(area.left, area.top);
        let mut range = Range::of(first, self);
        let mut last = first;
        self.each(area, |found| {
            if found != last {
                let luminance = self.luminance(found);
                range.low = range.low.min(luminance);
                range.high = range.high.max(luminance);
                if found != first {
                    range.one = None;
                }
                last = found;
            }
        });
        range
    }
}

/// Pixels beside a drawing that an area is looked at in.
const FAR: f32 = 256.0;

fn whole(at: f32, most: u32) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates at 0")]
    let at = at as u32;
    at.min(most.saturating_sub(1)) as usize
}
