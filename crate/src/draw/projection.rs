//! From exact lengths on the wall to pixels: the one place where they meet.

use super::pixel_rect::PixelRect;
use super::sheet::{MOST_SIDE_PX, Sheet};
use super::window::Window;
use crate::geometry::{Point, Rect, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::rounding::nearest;
use crate::scene::{Lane, Scene};

/// How lengths on the wall become device pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Projection {
    /// Device pixels to one inch of the wall.
    pub scale: f32,
    /// Where the left corner of the wall is, in device pixels from the left.
    pub left: f32,
    /// Where the floor meets the wall, in device pixels from the top.
    pub floor: f32,
    /// Size of lettering (the em) in device pixels.
    pub em: f32,
    /// Whether the drawing is so narrow that labels are kept short.
    pub narrow: bool,
    /// Whether it is so low that the room goes to the wall: it has no scale bar.
    pub low: bool,
    /// Device pixels of a thin line.
    pub line: f32,
    /// Height of the strip of floor below the wall, in device pixels.
    pub floor_strip: f32,
}

/// What something covers on whole pixels, and where it truly lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Snapped {
    /// The pixels: at least one across and down.
    pub rect: PixelRect<i64>,
    /// How far right of and below the first pixel's own corner its corner truly lies, in sixteenths of a pixel.
    pub off: (i8, i8),
}

impl Snapped {
    /// The same, off the drawing: from its own corner on, at a scale in pixels per inch.
    pub(super) fn alone(size: Size, scale: f32) -> Self {
        let whole = |length| {
            let px = u32::try_from(nearest(f64::from(inches(length) * scale))).unwrap_or(1);
            px.clamp(1, MOST_SIDE_PX * 2)
        };
        Self { rect: PixelRect::of_size((whole(size.width), whole(size.height))), off: (0, 0) }
    }
}

/// What a drawing needs round the wall, in device pixels.
struct Margins {
    left: f32,
    top: f32,
    right: f32,
    bottom: f32,
}

/// Below this width in CSS pixels a drawing is lettered smaller and its lanes are closer.
const NARROW_PX: f32 = 560.0;
/// Below this height in CSS pixels, where that is less than the wall would fill, it is lettered smaller still.
const LOW_PX: f32 = 480.0;

impl Projection {
    /// The largest scale at which the wall and its lines fit on the sheet.
    #[must_use]
    pub fn fit(scene: &Scene, sheet: &Sheet) -> Self {
        let low = is_low(scene, sheet);
        let (em, margins) = lettering(scene, sheet, low);
        let (width, height) = (pixels(sheet.width_px), pixels(sheet.height_px));
        let floor_strip = em * 1.3;
        let wall = scene.wall.size;
        let room = ((width - margins.left - margins.right).max(1.0), height - margins.top - margins.bottom);
        let scale = (room.0 / inches(wall.width)).min((room.1 - floor_strip).max(1.0) / inches(wall.height));
        let spare = (
            room.0 - inches(wall.width) * scale,
            (room.1 - floor_strip - inches(wall.height) * scale).max(0.0),
        );
        Self {
            scale,
            left: (margins.left + spare.0 / 2.0).round(),
            floor: (margins.top + spare.1 / 2.0 + inches(wall.height) * scale).round(),
            em,
            narrow: low || is_narrow(sheet),
            low,
            line: sheet.pixel_ratio.max(1.0),
            floor_strip,
        }
        .seen_through(sheet)
    }

    /// The same through the window of a sheet.
    fn seen_through(self, sheet: &Sheet) -> Self {
        let Window { zoom, x, y } = sheet.window;
        if sheet.window == Window::WHOLE {
            return self;
        }
        Self {
            scale: self.scale * zoom,
            left: ((self.left - x * pixels(sheet.width_px)) * zoom).round(),
            floor: ((self.floor - y * pixels(sheet.height_px)) * zoom).round(),
            floor_strip: self.floor_strip * zoom,
            ..self
        }
    }

    /// For walls that stand side by side on sheets of one kind: the windows in which they have one scale, and their floors are level.
    #[must_use]
    pub fn side_by_side(scenes: &[Scene], sheet: &Sheet) -> Vec<Window> {
        let whole = Sheet { window: Window::WHOLE, ..sheet.clone() };
        let fitted: Vec<Self> = scenes.iter().map(|scene| Self::fit(scene, &whole)).collect();
        let scale = fitted.iter().map(|one| one.scale).fold(f32::INFINITY, f32::min);
        let floor = fitted.iter().map(|one| one.floor).fold(0.0, f32::max);
        let window = |one: &Self| {
            let zoom = scale / one.scale;
            Window {
                zoom,
                x: (1.0 - 1.0 / zoom) / 2.0,
                y: (one.floor - floor / zoom) / pixels(sheet.height_px),
            }
        };
        fitted.iter().map(window).collect()
    }

    /// How near one can go: pieces are drawn whole, and the largest may have so many pixels as two sheets; eight times at most.
    #[must_use]
    pub fn most_zoom(scene: &Scene, sheet: &Sheet) -> f32 {
        let whole = Self::fit(scene, &Sheet { window: Window::WHOLE, ..sheet.clone() });
        let covered = |size: Size| whole.length(size.width) * whole.length(size.height);
        let most = scene.pieces.iter().map(|piece| covered(piece.outside.size)).fold(1.0, f32::max);
        let sheets = 2.0 * pixels(sheet.width_px) * pixels(sheet.height_px);
        libm::sqrtf(sheets / most).clamp(1.0, 8.0)
    }

    /// The wall, or the floor from above, alone on a sheet: its lower edge lies so many pixels from the top.
    pub(crate) const fn flat(scale: f32, floor: f32) -> Self {
        Self { scale, left: 0.0, floor, em: 0.0, narrow: false, low: false, line: 1.0, floor_strip: 0.0 }
    }

    /// The height in device pixels of a sheet that a wall fills at a given width.
    #[must_use]
    pub fn height_for_width(scene: &Scene, sheet: &Sheet) -> u32 {
        let (em, margins) = lettering(scene, sheet, false);
        let scale =
            (pixels(sheet.width_px) - margins.left - margins.right).max(1.0) / inches(scene.wall.size.width);
        let height = inches(scene.wall.size.height) * scale + em * 1.3 + margins.top + margins.bottom;
        u32::try_from(nearest(f64::from(height))).unwrap_or(1).max(1)
    }

    /// A place along the wall in device pixels from the left of the drawing.
    #[must_use]
    pub fn x(self, x: Length) -> f32 {
        self.left + inches(x) * self.scale
    }

    /// A height above the floor in device pixels from the top of the drawing.
    #[must_use]
    pub fn y(self, y: Length) -> f32 {
        self.floor - inches(y) * self.scale
    }

    /// A length in device pixels.
    #[must_use]
    pub fn length(self, length: Length) -> f32 {
        inches(length) * self.scale
    }

    /// The whole pixels that something covers: each of its edges at the nearest.
    #[must_use]
    pub fn on_pixels(self, rect: Rect) -> Snapped {
        let whole = |at: f32| i32::try_from(nearest(f64::from(at))).unwrap_or(0);
        let length = |from: i32, to: f32| {
            let px = u32::try_from(i64::from(whole(to)) - i64::from(from)).unwrap_or(1);
            px.clamp(1, MOST_SIDE_PX * 2)
        };
        let (x, y) = (self.x(rect.x), self.y(rect.top()));
        let (left, top) = (whole(x), whole(y));
        let size_px = (length(left, self.x(rect.right())), length(top, self.y(rect.y)));
        let sixteenths = |off: f64| i8::try_from(nearest(off * 16.0)).unwrap_or(0);
        let off = (sixteenths(f64::from(x) - f64::from(left)), sixteenths(f64::from(y) - f64::from(top)));
        let corner = PixelRect::from_xywh(i64::from(left), i64::from(top), 0, 0);
        Snapped { rect: corner.sized(size_px), off }
    }

    /// The place on the wall under a pixel, to the nearest 1/64 in.
    #[must_use]
    pub fn place(self, x_px: f32, y_px: f32) -> Point {
        Point::new(self.reach(x_px - self.left), self.reach(self.floor - y_px))
    }

    /// The length that so many device pixels reach over, to the nearest 1/64 in.
    #[must_use]
    pub fn reach(self, px: f32) -> Length {
        const STEP: i64 = UNITS_PER_INCH / 64;
        let steps = nearest(f64::from(px) / f64::from(self.scale) * 64.0);
        Length::from_units(steps.clamp(-(1 << 32), 1 << 32) * STEP)
    }
}

fn is_narrow(sheet: &Sheet) -> bool {
    pixels(sheet.width_px) / sheet.pixel_ratio.clamp(0.25, 16.0) < NARROW_PX
}

/// Whether the lines have room only in height, and little of that.
fn is_low(scene: &Scene, sheet: &Sheet) -> bool {
    let height = pixels(sheet.height_px) / sheet.pixel_ratio.clamp(0.25, 16.0);
    sheet.lines && height < LOW_PX && sheet.height_px < Projection::height_for_width(scene, sheet)
}

fn lettering(scene: &Scene, sheet: &Sheet, low: bool) -> (f32, Margins) {
    let ratio = sheet.pixel_ratio.clamp(0.25, 16.0);
    let narrow = low || is_narrow(sheet);
    let em = match (low, narrow) {
        (true, _) => 11.0,
        (_, true) => 12.5,
        _ => 14.5,
    } * ratio;
    if !sheet.lines {
        return (em, Margins { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
    }
    let lanes = |least: u8, count: fn(Lane) -> Option<u8>| {
        let lines = scene.dimensions.iter().filter_map(|line| count(line.lane)).map(|lane| lane + 1);
        f32::from(lines.fold(least, u8::max)) * em * LANE_EM
    };
    let side = if narrow { 0.4 } else { 1.0 } * em;
    let margins = Margins {
        left: side + lanes(0, |lane| if let Lane::Left(lane) = lane { Some(lane) } else { None }),
        top: em * 0.5 + lanes(0, |lane| if let Lane::Above(lane) = lane { Some(lane) } else { None }),
        right: side + lanes(0, |lane| if let Lane::Right(lane) = lane { Some(lane) } else { None }),
        bottom: em * if low { 0.3 } else { 2.2 }
            + lanes(scene.lanes_below, |lane| if let Lane::Below(lane) = lane { Some(lane) } else { None }),
    };
    (em, margins)
}

/// Distance between two lanes of dimension lines, in em.
pub(super) const LANE_EM: f32 = 1.9;

#[expect(clippy::cast_possible_truncation, reason = "a coordinate on a screen keeps 24 bits")]
fn inches(length: Length) -> f32 {
    length.to_inches() as f32
}

#[expect(clippy::cast_precision_loss, reason = "at most 16384")]
pub(super) fn pixels(px: u32) -> f32 {
    px as f32
}
