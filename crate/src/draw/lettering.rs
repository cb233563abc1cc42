//! Lettering: labels as masks of coverage, kept from one drawing to the next.
//!
//! A label's mask begins on whole pixels, so that the same label is the same mask wherever it stands.

use super::brush::to_skia;
use super::pixel_rect::PixelRect;
use crate::colour::Colour;
use crate::text::{Face, outline, width};
use kurbo::Affine;
use std::collections::BTreeMap;
use tiny_skia::{FillRule, Mask, PixmapMut, Transform};

/// Masks kept at most; beyond that all are made again.
const MOST_KEPT: usize = 256;

/// The labels that have been drawn.
#[derive(Default)]
pub(super) struct Lettering {
    kept: BTreeMap<Key, Label>,
}

/// What a mask is of; sizes are the bits of their number.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    /// A text of this size, perhaps running upwards.
    Text(String, u32, bool),
    /// The oblique stroke at the end of a dimension line, reaching so far.
    Tick(u32),
}

struct Label {
    mask: Option<Mask>,
    /// From the middle of the text to the upper left corner of the mask, in pixels.
    corner: (f32, f32),
}

impl Lettering {
    /// Letters a text with its middle at a point: across between its ends, and down at half the height of its figures.
    /// Returns what may have changed.
    pub(super) fn letter(
        &mut self,
        canvas: &mut PixmapMut<'_>,
        text: &str,
        em: f32,
        middle: (f32, f32),
        upright: bool,
        ink: Colour,
    ) -> PixelRect {
        if self.kept.len() > MOST_KEPT {
            self.kept.clear();
        }
        let key = Key::Text(text.to_owned(), em.to_bits(), upright);
        let label = self.kept.entry(key).or_insert_with(|| make(text, em, upright));
        lay(canvas, label, middle, ink)
    }

    /// Draws the oblique stroke at the end of a dimension line, its middle at a point, reaching so far to each side. Returns
    /// what may have changed.
    pub(super) fn tick(
        &mut self,
        canvas: &mut PixmapMut<'_>,
        reach: f32,
        middle: (f32, f32),
        ink: Colour,
    ) -> PixelRect {
        let key = Key::Tick(reach.to_bits());
        let label = self.kept.entry(key).or_insert_with(|| make_tick(reach));
        lay(canvas, label, middle, ink)
    }
}

/// Lays a label with its middle at a point.
fn lay(canvas: &mut PixmapMut<'_>, label: &Label, middle: (f32, f32), ink: Colour) -> PixelRect {
    let corner = (middle.0 + label.corner.0, middle.1 + label.corner.1);
    if let Some(mask) = &label.mask {
        blend(canvas, mask, corner, ink);
    }
    PixelRect::from_xywh(corner.0, corner.1, -label.corner.0 * 2.0, -label.corner.1 * 2.0)
}

/// How wide a text is, in pixels.
pub(super) fn length(text: &str, em: f32) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "a width on a screen")]
    let length = width(Face::Sans, text, f64::from(em)) as f32;
    length
}

/// Room round a text for what its letters reach above and below their line, in em.
const ROOM: f32 = 0.3;

fn make(text: &str, em: f32, upright: bool) -> Label {
    let length = length(text, em);
    let (along, across) = ((length + em * ROOM * 2.0).ceil(), (em * (1.0 + ROOM)).ceil());
    // Figures are about 0.64 em high; their middle is the middle of the mask.
    let baseline = across / 2.0 + em * 0.32;
    let (width, height) = if upright { (across, along) } else { (along, across) };
    let whole = |px: f32| u32::try_from(crate::rounding::nearest(f64::from(px))).unwrap_or(1).max(1);
    let mut mask = Mask::new(whole(width), whole(height));
    let start = f64::from((along - length) / 2.0);
    let place = if upright {
        Affine::new([0.0, -1.0, 1.0, 0.0, f64::from(baseline), f64::from(along) - start])
    } else {
        Affine::translate((start, f64::from(baseline)))
    };
    let path = place * outline(Face::Sans, text, f64::from(em));
    if let (Some(mask), Some(path)) = (mask.as_mut(), to_skia(&path)) {
        mask.fill_path(&path, FillRule::Winding, true, Transform::identity());
    }
    Label { mask, corner: (-width / 2.0, -height / 2.0) }
}

fn make_tick(reach: f32) -> Label {
    let (thick, half) = (reach * 0.17, (reach * 1.3).ceil());
    let side = u32::try_from(crate::rounding::nearest(f64::from(half * 2.0))).unwrap_or(1).max(1);
    let mut mask = Mask::new(side, side);
    let [near, far, thick] = [half - reach, half + reach, thick].map(f64::from);
    let mut path = kurbo::BezPath::new();
    path.move_to((near - thick, far - thick));
    path.line_to((far - thick, near - thick));
    path.line_to((far + thick, near + thick));
    path.line_to((near + thick, far + thick));
    path.close_path();
    if let (Some(mask), Some(path)) = (mask.as_mut(), to_skia(&path)) {
        mask.fill_path(&path, FillRule::Winding, true, Transform::identity());
    }
    Label { mask, corner: (-half, -half) }
}

/// Lays ink over the canvas where the mask covers it.
fn blend(canvas: &mut PixmapMut<'_>, mask: &Mask, corner: (f32, f32), ink: Colour) {
    let nearest = |px: f32| crate::rounding::nearest(f64::from(px));
    let (left, top) = (nearest(corner.0), nearest(corner.1));
    let (width, height) = (i64::from(canvas.width()), i64::from(canvas.height()));
    let (own_width, own_height) = (i64::from(mask.width()), i64::from(mask.height()));
    let ink = [ink.red, ink.green, ink.blue].map(u32::from);
    let index = |at: i64| usize::try_from(at).unwrap_or(0);
    let data = canvas.data_mut();
    for row in top.max(0)..(top + own_height).min(height) {
        for column in left.max(0)..(left + own_width).min(width) {
            let cover = u32::from(mask.data()[index((row - top) * own_width + column - left)]);
            if cover == 0 {
                continue;
            }
            let at = index((row * width + column) * 4);
            for (channel, ink) in data[at..at + 3].iter_mut().zip(ink) {
                let mixed = (u32::from(*channel) * (255 - cover) + ink * cover + 127) / 255;
                *channel = u8::try_from(mixed).unwrap_or(u8::MAX);
            }
        }
    }
}
