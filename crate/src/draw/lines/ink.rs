//! Inks that can be read: each line and figure against the very pixels it will lie on.
//!
//! Lettering has a contrast of 4.5 to 1 at least (WCAG 2.2, 1.4.3 Contrast (Minimum)), lines 3 to 1 (1.4.11 Non-text Contrast).
//! Of black and white one has more than 4.5 to 1 on any colour: at the worst, on a luminance of 0.179, both have 4.58.

use super::super::Area;
use super::super::Theme;
use super::super::projection::pixels;
use super::{Placed, Stroke, overlap};
use crate::colour::{Colour, decode_table};
use crate::scene::Tone;
use tiny_skia::PixmapRef;

/// Least contrast of lettering.
const LETTERING: f32 = 4.5;
/// The luminance on which black and white have the same contrast: √(1.05 × 0.05) − 0.05.
const MIDDLE: f32 = 0.179;
/// Least contrast of lines, with a little to spare for the grain of a wall.
const LINES: f32 = 3.2;

/// Gives everything an ink for what it lies on. Where that is the sheet, it is in the inks of the sheet; on the wall in those
/// that suit its `paint`, as far as they can be read.
pub(super) fn choose(placed: &mut Placed, canvas: &PixmapRef<'_>, sheet: &Theme, paint: Colour) {
    let wall = if paint.luminance() > MIDDLE { Theme::LIGHT } else { Theme::DARK };
    let inks = Inks { sheet: *sheet, wall };
    let ground = Ground { canvas, light: decode_table() };
    for label in &mut placed.labels {
        let found = ground.range(label.area);
        let theme = inks.theme(found.is_all(sheet.sheet));
        let ink = inks.first(theme, label.tone, |ink| found.contrast(ink) >= LETTERING);
        label.ink = ink.unwrap_or_else(|| {
            // On a small field of the wall's paint, or of the sheet.
            let plain = if label.on_wall { paint } else { sheet.sheet };
            label.ground = Some(plain);
            let theme = inks.theme(!label.on_wall);
            inks.first(theme, label.tone, |ink| ink.contrast(plain) >= LETTERING).unwrap_or(theme.ink)
        });
    }
    for tick in &mut placed.ticks {
        let found = ground.range(tick.area());
        let theme = inks.theme(found.is_all(sheet.sheet));
        let ink = inks.first(theme, tick.tone, |ink| found.contrast(ink) >= LINES);
        // Over an edge: for most of what it lies on.
        let area = tick.area();
        let ends = [theme.ink, Colour::hex(0x00_00_00), Colour::hex(0xff_ff_ff)];
        tick.ink = ink.unwrap_or_else(|| {
            ends.into_iter().rev().max_by_key(|&ink| ground.readable(area, ink)).unwrap_or(theme.ink)
        });
    }
    let strokes = std::mem::take(&mut placed.strokes);
    for stroke in strokes {
        part(&stroke, &ground, &inks, &mut placed.strokes);
    }
}

/// Divides a stroke where what it lies on changes so much that its ink must.
fn part(stroke: &Stroke, ground: &Ground<'_, '_>, inks: &Inks, parts: &mut Vec<Stroke>) {
    let Area { x, y, width, height } = stroke.area;
    let upright = height > width;
    let canvas =
        Area { x: 0.0, y: 0.0, width: pixels(ground.canvas.width()), height: pixels(ground.canvas.height()) };
    if !overlap(stroke.area, canvas) {
        return;
    }
    let (start, end) = if upright { (y, y + height) } else { (x, x + width) };
    // Beyond the canvas there is nothing to see.
    let most = if upright { canvas.height } else { canvas.width };
    let (start, end) = (start.max(0.0), end.min(most));
    let mut push = |from: f32, to: f32, ink: Colour| {
        let area = if upright {
            Area { y: from, height: to - from, ..stroke.area }
        } else {
            Area { x: from, width: to - from, ..stroke.area }
        };
        parts.push(Stroke { area, ink, ..*stroke });
    };
    let thick = if upright { width } else { height };
    let step = thick.max(1.0);
    let mut kept: Option<(f32, Colour, Range)> = None;
    let mut along = start;
    while along < end {
        let spot = (along + step / 2.0).min(end - 0.5);
        let across = if upright { x } else { y } + thick / 2.0;
        let found = if upright { ground.at(across, spot) } else { ground.at(spot, across) };
        let holds = kept.as_ref().is_some_and(|(_, ink, range)| {
            // Most pixels are like the one before.
            range.is_all(found) || Range::of(found, ground).contrast(*ink) >= LINES
        });
        if !holds {
            if let Some((from, ink, _)) = kept.take() {
                push(from, along, ink);
            }
            let range = Range::of(found, ground);
            let theme = inks.theme(found == inks.sheet.sheet);
            let ink = inks.first(theme, stroke.tone, |ink| range.contrast(ink) >= LINES).unwrap_or(theme.ink);
            kept = Some((along, ink, range));
        }
        along += step;
    }
    if let Some((from, ink, _)) = kept {
        push(from, end, ink);
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

/// What is drawn already.
struct Ground<'a, 'b> {
    canvas: &'a PixmapRef<'b>,
    light: &'static [f32; 256],
}

/// The darkest and the lightest of some pixels, as luminance; and their colour where it is one.
struct Range {
    low: f32,
    high: f32,
    one: Option<Colour>,
}

impl Range {
    fn of(colour: Colour, ground: &Ground<'_, '_>) -> Self {
        let luminance = ground.luminance(colour);
        Self { low: luminance, high: luminance, one: Some(colour) }
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

impl Ground<'_, '_> {
    fn luminance(&self, Colour { red, green, blue }: Colour) -> f32 {
        let light = |code: u8| self.light[usize::from(code)];
        0.2126 * light(red) + 0.7152 * light(green) + 0.0722 * light(blue)
    }

    fn at(&self, x: f32, y: f32) -> Colour {
        let whole = |at: f32, most: u32| {
            let most = most.saturating_sub(1);
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates at 0")]
            let at = at as u32;
            at.min(most) as usize
        };
        let (x, y) = (whole(x, self.canvas.width()), whole(y, self.canvas.height()));
        let index = (y * self.canvas.width() as usize + x) * 4;
        match self.canvas.data().get(index..index + 3) {
            Some(&[red, green, blue]) => Colour { red, green, blue },
            _ => Colour::hex(0),
        }
    }

    /// How many pixels of an area an ink for lines can be told from.
    fn readable(&self, area: Area, ink: Colour) -> usize {
        let mut readable = 0;
        self.each(area, |found| {
            readable += usize::from(Range::of(found, self).contrast(ink) >= LINES);
        });
        readable
    }

    fn each(&self, area: Area, mut see: impl FnMut(Colour)) {
        let mut y = area.y;
        while y < area.y + area.height {
            let mut x = area.x;
            while x < area.x + area.width {
                see(self.at(x, y));
                x += 1.0;
            }
            y += 1.0;
        }
    }

    /// The range of an area.
    fn range(&self, area: Area) -> Range {
        let first = self.at(area.x, area.y);
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
