//! The vocabulary of drawing: the sheet, its inks and view, the pictures on it, the figures that are fields.

use super::pixel_rect::PixelRect;
use super::window::Window;
use crate::colour::Colour;
use crate::field::Field;
use crate::length::Length;
use crate::resample::Pyramid;
use crate::scene::Tone;

/// Pixels along one side of a drawing at most.
pub const MOST_SIDE_PX: u32 = 16_384;

/// A picture ready to be drawn: a copy, perhaps reduced, of the file that the plan names.
#[derive(Clone, Debug)]
pub struct LoadedPicture {
    /// The pixels, at several sizes.
    pub pyramid: Pyramid,
    /// Width of the file in pixels, which crops are measured in.
    pub file_width_px: u32,
    /// Height of the file in pixels.
    pub file_height_px: u32,
    /// A number that changes when the picture does.
    pub revision: u64,
}

/// What to draw on.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Width in device pixels, at most [`MOST_SIDE_PX`].
    pub width_px: u32,
    /// Height in device pixels, likewise.
    pub height_px: u32,
    /// Device pixels to one CSS pixel; lettering and line widths grow with it. Default: 1.
    pub pixel_ratio: f32,
    /// The inks. Default: [`Theme::LIGHT`].
    pub theme: Theme,
    /// Whether dimension lines, centre lines and the scale bar are drawn. Default: yes.
    pub lines: bool,
    /// Which view is drawn. Default: the elevation.
    pub view: View,
    /// Whether something is being dragged: pieces then keep the pixels they have, and may lie up to one of them off. Default: no.
    pub in_motion: bool,
    /// The field whose dimension is chosen, drawn in red. Default: none.
    pub chosen: Option<Field>,
    /// Lines across the wall, drawn in red, at which something that is dragged has stopped. Default: none.
    pub guides: Vec<Guide>,
    /// The part of the elevation that fills the sheet. Default: all of it.
    pub window: Window,
}

/// A line across the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guide {
    /// From the floor to the ceiling, so far from the left corner.
    Upright(Length),
    /// From corner to corner, so far from the floor.
    Level(Length),
}

/// From where the room is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum View {
    /// The wall as an architect draws it: every length along it and up it true to scale.
    #[default]
    Elevation,
    /// From the viewer's place, in perspective; without dimension lines.
    Oblique,
}

impl Sheet {
    /// A light sheet with all lines, one device pixel to the CSS pixel.
    #[must_use]
    pub fn new(width_px: u32, height_px: u32) -> Self {
        Self {
            width_px: width_px.clamp(1, MOST_SIDE_PX),
            height_px: height_px.clamp(1, MOST_SIDE_PX),
            pixel_ratio: 1.0,
            theme: Theme::LIGHT,
            lines: true,
            view: View::Elevation,
            in_motion: false,
            chosen: None,
            guides: Vec::new(),
            window: Window::WHOLE,
        }
    }

    /// The same size, seen and lettered as on another sheet; whole, and with nothing chosen.
    #[must_use]
    pub fn with_look_of(self, other: &Self) -> Self {
        let Self { pixel_ratio, theme, lines, view, .. } = other.clone();
        Self { pixel_ratio, theme, lines, view, ..self }
    }
}

/// The inks of a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// The sheet that is drawn on.
    pub sheet: Colour,
    /// Lines and lettering.
    pub ink: Colour,
    /// Lesser lines.
    pub quiet: Colour,
    /// What is chosen; the centre and eye lines.
    pub red: Colour,
}

impl Theme {
    /// Warm paper and dark ink.
    pub const LIGHT: Self = Self {
        sheet: Colour::hex(0xf7_f4_ec),
        ink: Colour::hex(0x24_32_3a),
        quiet: Colour::hex(0x6b_74_70),
        red: Colour::hex(0xb8_40_2a),
    };
    /// A dark sheet and light ink.
    pub const DARK: Self = Self {
        sheet: Colour::hex(0x1d_24_27),
        ink: Colour::hex(0xe7_e2_d4),
        quiet: Colour::hex(0x98_a1_9c),
        red: Colour::hex(0xef_8a_6d),
    };

    /// The ink of a line.
    #[must_use]
    pub const fn toned(&self, tone: Tone) -> Colour {
        match tone {
            Tone::Ink => self.ink,
            Tone::Red => self.red,
            Tone::Quiet => self.quiet,
        }
    }

    /// The inks for lines on a ground of another colour: of dark and light, the one with more contrast.
    #[must_use]
    pub fn on(ground: Colour) -> Self {
        let (dark, light) = (Self::LIGHT, Self::DARK);
        let chosen = if dark.ink.contrast(ground) >= light.ink.contrast(ground) { dark } else { light };
        // The lesser inks are mixed with the plain one until they can be read (WCAG 2.2, 1.4.3: 4.5 to 1).
        let legible = |ink: Colour| {
            [0.0, 0.2, 0.4, 0.6, 0.8]
                .map(|share| ink.mixed(chosen.ink, share))
                .into_iter()
                .find(|mixed| mixed.contrast(ground) >= 4.5)
                .unwrap_or(chosen.ink)
        };
        Self { sheet: ground, quiet: legible(chosen.quiet), red: legible(chosen.red), ..chosen }
    }
}

/// A figure on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The field that it is.
    pub field: Field,
    /// Where it stands.
    pub area: PixelRect,
}
