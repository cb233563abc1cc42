//! The print-ready picture of a piece: which pixels of its file, at which density, and what goes round them.
//!
//! What is printed of the picture stands in the middle, in whole pixels. Round it lies a band on each side (the white border of a
//! sheet, the edge of a canvas) and beyond that the bleed. All are measured outwards from the picture at one density and rounded
//! there, so that no error adds up: bands and bleed fill the file without a gap, and each line is at most half a pixel off.
//!
//! - Paper: the picture and the white border of its sheet, unless that is left to the shop.
//! - Canvas: the face and, on all four sides, its edge: the picture itself where it is wrapped round (what is kept has it already), in
//!   mirror image, or in the colour stated.
//! - Aluminium: the picture.
//!
//! What is outermost goes on into the bleed: a colour as it is, a picture in its own pixels as far as its file has any beyond what is kept, and from
//! there on in mirror image. A mirrored edge goes on in mirror image.
//!
//! ```
//! use overmantel::{figures::Figures, length::Length, plan::{Picture, Plan}, print_file::{Recipe, PrintWish}};
//! let mut plan = Plan::starting();
//! plan.pieces[0].picture = Some(0);
//! plan.split = None;
//! plan.pictures = vec![Picture { name: "Low water".into(), file: "low-water.png".into(), width_px: 4000, height_px: 6000, subject: None }];
//! let figures = Figures::of(&plan).unwrap();
//! let recipe = Recipe::of(&plan, &figures, 0, PrintWish::default()).unwrap();
//! assert_eq!(recipe.printed_px, (4000, 5000), "16 × 20 in at 250 px/in, as in the file");
//! let bleed = PrintWish { bleed: Length::inches_ratio(1, 8), ..PrintWish::default() };
//! let recipe = Recipe::of(&plan, &figures, 0, bleed).unwrap();
//! assert_eq!(recipe.size_px(), (4062, 5062), "1/8 in is 31 1/4 px on each side");
//! assert_eq!(recipe.margins.top.own_px, 31, "500 px of the picture are left over at the top");
//! assert_eq!(recipe.margins.left.own_px, 0, "and none at the sides, so those are its mirror image");
//! ```

use crate::colour::Colour;
use crate::figures::Figures;
use crate::geometry::{Sides, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::{Canvas, Edge, Finish, Plan};
use crate::print::{Exact, PixelCrop, Source};
use crate::resample;
use crate::rounding::{Mode, divide};

mod bleed;
mod error;
pub mod form;
pub mod png;
pub mod resolution;
mod rows;
mod words;

pub use error::PrintFileError;
pub use form::Form;
pub use rows::Rows;

/// Limits of a print-ready picture.
pub mod limits {
    use crate::length::Length;
    /// Pixels along one side at most.
    pub const SIDE_PX: u32 = 400_000;
    /// Pixels per inch that can be asked for, from the least to the most.
    pub const DENSITY: [u32; 2] = [10, 2_400];
    /// The widest bleed.
    pub const BLEED: Length = Length::mm(100);
}

/// What is wished of a print-ready picture besides what its plan says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrintWish {
    /// Pixels per inch, for which the picture is scaled. Default: those of the file, and no pixel is changed.
    pub density: Option<u32>,
    /// Picture or colour beyond the outermost line, on each side. Default: none.
    pub bleed: Length,
    /// Whether the white border of a sheet is part of the file. Default: it is.
    pub has_border: bool,
}

impl Default for PrintWish {
    fn default() -> Self {
        Self { density: None, bleed: Length::ZERO, has_border: true }
    }
}

/// What is taken of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// Pixels as they are.
    Pixels(PixelCrop),
    /// A part, which need not be of whole pixels, to be scaled.
    Scaled(Source),
}

/// What fills one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// The picture in mirror image, from its edge outwards.
    Mirrored,
    /// A colour.
    Plain(Colour),
}

/// What lies beyond one edge of the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Margin {
    /// Pixels of the band next to the picture: the border of a sheet, the edge of a canvas.
    pub band_px: u32,
    /// Pixels of the bleed beyond it.
    pub bleed_px: u32,
    /// How many of those are the picture's own, from its edge outwards: there is no band then.
    pub own_px: u32,
    /// What the band and the rest of the bleed are filled with.
    pub fill: Fill,
}

impl Margin {
    /// Pixels of band and bleed.
    #[must_use]
    pub const fn px(&self) -> u32 {
        self.band_px + self.bleed_px
    }

    /// Those that are not the picture's own.
    #[must_use]
    pub const fn filled_px(&self) -> u32 {
        self.px() - self.own_px
    }
}

/// One margin for each side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Margins {
    /// On the left, seen from the front.
    pub left: Margin,
    /// At the top.
    pub top: Margin,
    /// On the right, seen from the front.
    pub right: Margin,
    /// At the bottom.
    pub bottom: Margin,
}

/// How a print-ready picture is made: whole pixels, from the upper left corner, as files store them.
///
/// ```
/// use overmantel::plan::{Picture, Plan};
/// use overmantel::print_file::{PrintWish, Recipe};
/// use overmantel::{figures::Figures, length::Length};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let mut plan = Plan::starting();
/// # plan.split = None;
/// plan.pictures = vec![Picture { file: "flats.jpg".into(), name: "Flats".into(), width_px: 4000, height_px: 5000, subject: None }];
/// plan.pieces.truncate(1);
/// plan.pieces[0].picture = Some(0);
/// let wish = PrintWish { density: None, bleed: Length::ZERO, has_border: true };
/// // A print of 16 × 20 in has the shape of 4000 × 5000 pixels: nothing is cropped, and nothing is scaled.
/// assert_eq!(Recipe::of(&plan, &Figures::of(&plan)?, 0, wish)?.size_px(), (4000, 5000));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Recipe {
    /// Which of the plan's pictures.
    pub picture: usize,
    /// The size of its file in pixels, upright.
    pub picture_px: (u32, u32),
    /// What is taken of it: what is printed, and its own pixels in the bleed.
    pub taken: Taken,
    /// How many pixels what is printed becomes in the print-ready file, without band and bleed.
    pub printed_px: (u32, u32),
    /// Pixels per inch, exactly.
    pub pixels_per_inch: Exact,
    /// Pixels of the picture's own file to the inch.
    pub file_pixels_per_inch: Exact,
    /// What goes round it.
    pub margins: Margins,
    /// What the band is in words; empty where there is none.
    pub band: &'static str,
    /// What all of it measures in print, with bands and bleed.
    pub size: Size,
    /// What is left of it when the bleed is cut off.
    pub trimmed: Size,
}

impl Recipe {
    /// How the print-ready picture of a piece, counted from 0, is made. The plan's pictures have the pixels that their files have.
    ///
    /// # Errors
    /// When there is nothing to print, no picture, or a wish cannot be met.
    pub fn of(plan: &Plan, figures: &Figures, piece: usize, wish: PrintWish) -> Result<Self, PrintFileError> {
        let count = plan.pieces.len();
        let stated = plan.pieces.get(piece).ok_or(PrintFileError::NoPiece { count, piece })?;
        let colour = match &stated.finish {
            Finish::Original(_) => return Err(PrintFileError::Original(piece)),
            Finish::Canvas(Canvas { edge: Edge::Plain(colour), .. }) => *colour,
            _ => WHITE,
        };
        let picture = plan.split.map(|split| split.picture).or(stated.picture);
        let Some((picture, cut)) = picture.zip(figures.cuts[piece]) else {
            return Err(PrintFileError::NoPicture(piece));
        };
        if !(Length::ZERO..=limits::BLEED).contains(&wish.bleed) {
            return Err(PrintFileError::Bleed(wish.bleed));
        }
        let [least, most] = limits::DENSITY;
        if let Some(density) = wish.density.filter(|density| !(least..=most).contains(density)) {
            return Err(PrintFileError::Density(density));
        }
        let file = &plan.pictures[picture];
        let picture_px = (file.width_px, file.height_px);
        let sizes = &figures.build_ups[piece];
        let printed = sizes.picture.size;
        let pixels_per_inch = wish.density.map_or(cut.pixels_per_inch, |density| whole(density.into()));
        let px = |length: Length| divide_px(pixels_per_inch, length);
        let (taken, printed_px) = if wish.density.is_some() {
            let side = |length| held(px(length).max(1));
            (Taken::Scaled(cut.source), (side(printed.width), side(printed.height)))
        } else {
            let crop = cut.whole_px(picture_px);
            (Taken::Pixels(crop), (crop.width, crop.height))
        };
        let (band, widths) = match &stated.finish {
            Finish::Paper(_) if wish.has_border && sizes.sheet_borders != Sides::default() => {
                ("white border", sizes.sheet_borders)
            }
            // Carried round the edges, the wrap is part of the picture.
            Finish::Canvas(canvas) if canvas.edge != Edge::Carried => ("edge", Sides::all(sizes.wrap)),
            _ => ("", Sides::default()),
        };
        let is_plain = match &stated.finish {
            Finish::Canvas(canvas) => matches!(canvas.edge, Edge::Plain(_)),
            _ => true,
        };
        let margin = |width: Length| Margin {
            band_px: held(px(width)),
            bleed_px: held(px(width + wish.bleed) - px(width)),
            own_px: 0,
            fill: if is_plain && width > Length::ZERO { Fill::Plain(colour) } else { Fill::Mirrored },
        };
        let trimmed = Size::new(
            printed.width + widths.left + widths.right,
            printed.height + widths.top + widths.bottom,
        );
        let mut recipe = Self {
            picture,
            picture_px,
            taken,
            printed_px,
            pixels_per_inch,
            file_pixels_per_inch: cut.pixels_per_inch,
            margins: Margins {
                left: margin(widths.left),
                top: margin(widths.top),
                right: margin(widths.right),
                bottom: margin(widths.bottom),
            },
            band,
            size: trimmed.grown(wish.bleed),
            trimmed,
        };
        let size_px = recipe.size_px();
        if size_px.0.max(size_px.1) > limits::SIDE_PX {
            return Err(PrintFileError::Large { piece, size_px });
        }
        recipe.reach_into_bleed();
        Ok(recipe)
    }

    /// Pixels of the whole file, width first.
    #[must_use]
    pub const fn size_px(&self) -> (u32, u32) {
        let Margins { left, top, right, bottom } = &self.margins;
        (left.px() + self.printed_px.0 + right.px(), top.px() + self.printed_px.1 + bottom.px())
    }

    /// Pixels of the file that are the picture itself, width first: what is printed, and its own pixels in the bleed.
    #[must_use]
    pub const fn taken_px(&self) -> (u32, u32) {
        let Margins { left, top, right, bottom } = &self.margins;
        (left.own_px + self.printed_px.0 + right.own_px, top.own_px + self.printed_px.1 + bottom.own_px)
    }

    /// The colour that is beside the picture, if any: there is never more than one.
    #[must_use]
    pub fn colour(&self) -> Option<Colour> {
        let Margins { left, top, right, bottom } = self.margins;
        [left, top, right, bottom].into_iter().find_map(|margin| match margin.fill {
            Fill::Plain(colour) => Some(colour),
            Fill::Mirrored => None,
        })
    }

    /// Bytes of memory that making the file takes, about and at most, besides what reading the picture takes: rows that stand in
    /// mirror image are held until they are written, and so are those under the filter where the picture is scaled.
    ///
    /// ```
    /// # use overmantel::{figures::Figures, length::Length, plan::{Picture, Plan}, print_file::{Form, Recipe, PrintWish}};
    /// # let mut plan = Plan::starting();
    /// # (plan.pieces[0].picture, plan.split) = (Some(0), None);
    /// # plan.pictures = vec![Picture { name: "Flats".into(), file: "flats.png".into(), width_px: 4000, height_px: 5000, subject: None }];
    /// # let figures = Figures::of(&plan).unwrap();
    /// let bleed = PrintWish { bleed: Length::inches(1), ..PrintWish::default() };
    /// let recipe = Recipe::of(&plan, &figures, 0, bleed).unwrap();
    /// assert_eq!(recipe.held_bytes(Form::RGB), 5 * 250 * 4500 * 3, "an inch at the top, three times, and at the bottom, twice");
    /// ```
    #[must_use]
    pub fn held_bytes(&self, form: Form) -> u64 {
        // At the top they are held, and then wait with what they are written before; at the bottom they only wait.
        let rows = |margin: Margin, mirrored: u64| {
            let times = if margin.fill == Fill::Mirrored { mirrored } else { 1 };
            u64::from(margin.filled_px()) * times
        };
        let row_bytes = u64::from(self.size_px().0) * form.bytes() as u64;
        let margins = (rows(self.margins.top, 3) + rows(self.margins.bottom, 2)).saturating_mul(row_bytes);
        let Taken::Scaled(source) = self.taken else { return margins };
        let whole = |value: Exact| u64::try_from(value.ceil().to_integer()).unwrap_or(u64::MAX);
        let down = whole(source.height).div_ceil(self.taken_px().1.into()).max(1);
        let filter = (resample::rows_held(down)).saturating_mul(whole(source.width));
        margins.saturating_add(filter.saturating_mul(size_of::<resample::Light>() as u64))
    }

    /// Whether the picture has more pixels than its file: then nothing is sharper for it.
    #[must_use]
    pub fn is_enlarged(&self) -> bool {
        self.pixels_per_inch > self.file_pixels_per_inch
    }

    /// Pixels to a length, to the nearest: density as files state it, to the inch, the centimetre or the metre.
    #[must_use]
    pub fn pixels_to(&self, length: Length) -> u32 {
        u32::try_from(divide_px(self.pixels_per_inch, length)).unwrap_or(u32::MAX)
    }
}

/// The paper that nothing is printed on.
const WHITE: Colour = Colour::hex(0xff_ff_ff);

fn whole(number: i128) -> Exact {
    Exact::from_integer(number)
}

/// A length in pixels, to the nearest.
fn divide_px(pixels_per_inch: Exact, length: Length) -> i128 {
    let units = i128::from(length.units()) * *pixels_per_inch.numer();
    divide(units, i128::from(UNITS_PER_INCH) * *pixels_per_inch.denom(), Mode::HalfAway)
}

/// Far more pixels than any limit allows stay more than it allows.
fn held(pixels: i128) -> u32 {
    u32::try_from(pixels.clamp(0, 1 << 28)).unwrap_or_default()
}

/// Whether a picture's file is the one that a plan counts on: the same pixels, or more of them in the same shape. `may_be_smaller` lets
/// fewer of them pass. Both are upright, width first. What is to be said of it, where it is not just the same.
///
/// # Errors
/// When it is not.
pub fn is_meant(
    file: &str,
    stated: (u32, u32),
    found: (u32, u32),
    may_be_smaller: bool,
) -> Result<Option<String>, PrintFileError> {
    if stated == found {
        return Ok(None);
    }
    let (wide, high) = (u64::from(found.0) * u64::from(stated.1), u64::from(found.1) * u64::from(stated.0));
    // Copies are scaled to whole pixels: each side may be off by one.
    let tolerance = u64::from(stated.0) + u64::from(stated.1);
    if wide.abs_diff(high) > tolerance {
        return Err(PrintFileError::Shape { file: file.to_owned(), stated, found });
    }
    if found.0 < stated.0 && !may_be_smaller {
        return Err(PrintFileError::Smaller { file: file.to_owned(), stated, found });
    }
    let [stated_px, found_px] =
        [stated, found].map(|(width, height)| [width.to_string(), height.to_string()].join(" × "));
    Ok(Some(format!("{file} has {found_px} pixels where the plan expects {stated_px}: it is used as it is")))
}
