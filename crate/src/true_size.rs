//! A part of a print at its true size on a screen, and the whole wall: once the screen has been measured with a card.
//!
//! A card of ISO/IEC 7810, size ID-1, is 85.60 × 53.98 mm: a bank card, an identity card. Its width in pixels is all that is asked. On
//! a television or before a projector a card is a few pixels; there a metre or a yard of tape is held to the wall.
//!
//! ```
//! use overmantel::true_size::{Held, Screen};
//! // 326 pixels to the inch: 85.60 mm are 3.3701 in, 1098.6 pixels.
//! let screen = Screen::of_card(1098.6).unwrap();
//! assert!((screen.pixels_per_inch - 326.0).abs() < 0.1);
//! assert!(Screen::of_card(3.0).is_err());
//! // A television of 55 in has 1920 pixels over 1217.6 mm: 1576.9 to the metre.
//! let television = Screen::of(1576.9, Held::Metre).unwrap();
//! assert!((television.pixels_per_inch - 40.05).abs() < 0.01);
//! ```

use crate::described::{Choosable, Entry};
use crate::figures::Figures;
use crate::length::Length;
use crate::measure;
use crate::plan::{Finish, Plan, System};
use crate::print::{Exact, merging_distance};
use crate::resample::{Raster, RasterPart, resample};
use crate::rounding::{Mode, divide, nearest};

/// Width of a card of size ID-1 in millimetres (ISO/IEC 7810:2019, as quoted).
pub const CARD_MM: f64 = 85.60;
/// Its height in millimetres (likewise).
pub const CARD_HEIGHT_MM: f64 = 53.98;
/// How far an eye is from the screen that it looks at: an arm's length, 60 cm. Common practice, no source.
pub const ARM: Length = Length::mm(600);

/// A screen as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screen {
    /// Its pixels per inch.
    pub pixels_per_inch: f64,
}

/// What is held to a screen to measure it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Held {
    /// A card of size ID-1.
    #[default]
    Card,
    /// A ruler, by 30 cm of it.
    Ruler,
    /// A ruler, by 12 in of it.
    Foot,
    /// A metre of tape.
    Metre,
    /// A yard of tape.
    Yard,
}

impl Choosable for Held {
    const NAME: &'static str = "Held";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Card, Entry::new("card", 0, "a bank card (85.6 mm wide)")),
        (Self::Ruler, Entry::new("ruler", 1, "30 cm of a ruler")),
        (Self::Foot, Entry::new("foot", 2, "12 in of a ruler")),
        (Self::Metre, Entry::new("metre", 3, "a metre of tape (a television, a projector)")),
        (Self::Yard, Entry::new("yard", 4, "a yard of tape (a television, a projector)")),
    ];
}

impl Held {
    /// How wide it is in millimetres: a foot is 304.8 mm and a yard 914.4 mm (the international yard of 1959).
    #[must_use]
    pub const fn width_mm(self) -> f64 {
        match self {
            Self::Card => CARD_MM,
            Self::Ruler => 300.0,
            Self::Foot => 304.8,
            Self::Metre => 1000.0,
            Self::Yard => 914.4,
        }
    }

    /// What is at hand where people measure in this system.
    #[must_use]
    pub const fn in_system(system: System) -> [Self; 3] {
        match system {
            System::Centimetres => [Self::Card, Self::Ruler, Self::Metre],
            System::Inches => [Self::Card, Self::Foot, Self::Yard],
        }
    }
}

/// Why a screen can't be measured so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotACard {
    given_px: f64,
    held: Held,
}

impl std::fmt::Display for NotACard {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let given = nearest(self.given_px);
        let [least, most] = self.held.range_px().map(nearest);
        let what = self.held.entry().words;
        write!(
            f,
            "{what}, {given} pixels wide, would be on no screen that there is ({least} to {most} are taken); hold it to the outline again"
        )
    }
}

impl std::error::Error for NotACard {}

impl Screen {
    /// By the width of a card on it, in pixels.
    ///
    /// # Errors
    /// As [`of`](Self::of).
    pub fn of_card(width_px: f64) -> Result<Self, NotACard> {
        Self::of(width_px, Held::Card)
    }

    /// By the width of what is held to it, in pixels.
    ///
    /// # Errors
    /// Where a card would have less than 15 or more than 6000 pixels: a picture of 11 m from a projector of 1920, and finer than any
    /// screen.
    pub fn of(width_px: f64, held: Held) -> Result<Self, NotACard> {
        let [least, most] = held.range_px();
        if !(least..=most).contains(&width_px) {
            return Err(NotACard { given_px: if width_px.is_finite() { width_px } else { 0.0 }, held });
        }
        Ok(Self { pixels_per_inch: width_px / held.width_mm() * 25.4 })
    }
}

impl Held {
    /// How many pixels it can have on a screen.
    fn range_px(self) -> [f64; 2] {
        [15.0, 6000.0].map(|card| card * self.width_mm() / CARD_MM)
    }
}

/// From where a print is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeenFrom {
    /// From as near as the screen is.
    Close,
    /// From the plan's viewing distance: as large as it is seen from there.
    Distance,
}

/// What of a print fills a screen.
#[derive(Clone, Debug, PartialEq)]
pub struct TruePart {
    /// Which of the plan's pictures.
    pub picture: usize,
    /// The pixels of its file that are needed: left, top, width, height.
    pub needed: [u32; 4],
    /// The part of those that is shown.
    pub part: RasterPart,
    /// Where on the screen it is shown: left, top, width, height in pixels.
    pub place: [u32; 4],
    /// Pixels of the screen to an inch of the print.
    pub scale: f64,
    /// Pixels of the file to an inch of the print.
    pub pixels_per_inch: Exact,
}

/// The part of a piece's print about a point (shares of its width from the left and of its height from the top) that fills a
/// screen of this size, as large as it is. `None` where the piece shows no picture.
#[must_use]
pub fn part(
    plan: &Plan,
    figures: &Figures,
    piece: usize,
    screen: Screen,
    screen_px: (u32, u32),
    about: (f64, f64),
    from: SeenFrom,
) -> Option<TruePart> {
    let picture = plan.split.map(|split| split.picture).or(plan.pieces.get(piece)?.picture)?;
    let file = plan.pictures.get(picture)?;
    let cut = figures.cuts.get(piece)?.as_ref()?;
    let sizes = figures.build_ups.get(piece)?;
    let (image, source) = (sizes.image.size, cut.part(sizes.picture, sizes.image));
    let scale = match from {
        SeenFrom::Close => screen.pixels_per_inch,
        SeenFrom::Distance => screen.pixels_per_inch * ARM.to_inches() / plan.viewing.distance.to_inches(),
    };
    let ppi = inexact(cut.pixels_per_inch);
    let along = |screen_px: u32, image: Length, start: Exact, at: f64, file_px: u32| {
        let all = image.to_inches() * scale;
        let shown = all.min(f64::from(screen_px));
        let first = (at.clamp(0.0, 1.0) * all - shown / 2.0).clamp(0.0, all - shown);
        let (from, long) = (inexact(start) + first / scale * ppi, shown / scale * ppi);
        // Some more at each side, for the filter.
        let low = libm::floor(from - 4.0).max(0.0);
        let high = libm::ceil(from + long + 4.0).min(f64::from(file_px));
        let whole = |px: f64| u32::try_from(nearest(px)).unwrap_or(0);
        let place = (whole((f64::from(screen_px) - shown) / 2.0), whole(shown).max(1));
        (whole(low), whole(high - low).max(1), from - low, long, place)
    };
    let (width, height) = screen_px;
    let across = along(width, image.width, source.left, about.0, file.width_px);
    let down = along(height, image.height, source.top, about.1, file.height_px);
    Some(TruePart {
        picture,
        needed: [across.0, down.0, across.1, down.1],
        part: RasterPart { left: across.2, top: down.2, width: across.3, height: down.3 },
        place: [across.4.0, down.4.0, across.4.1, down.4.1],
        scale,
        pixels_per_inch: cut.pixels_per_inch,
    })
}

impl TruePart {
    /// The part, as the print has it: `pixels` are those that are [needed](Self::needed), or the same reduced.
    #[must_use]
    pub fn scaled(&self, pixels: &Raster) -> Raster {
        let across = f64::from(pixels.width_px()) / f64::from(self.needed[2]);
        let down = f64::from(pixels.height_px()) / f64::from(self.needed[3]);
        let RasterPart { left, top, width, height } = self.part;
        let part =
            RasterPart { left: left * across, top: top * down, width: width * across, height: height * down };
        resample(pixels, part, self.place[2], self.place[3])
    }

    /// The same from a copy of the whole file, perhaps reduced.
    #[must_use]
    pub fn scaled_copy(&self, copy: &Raster, file_px: (u32, u32)) -> Raster {
        let across = f64::from(copy.width_px()) / f64::from(file_px.0.max(1));
        let down = f64::from(copy.height_px()) / f64::from(file_px.1.max(1));
        let RasterPart { left, top, width, height } = self.part;
        let part = RasterPart {
            left: (f64::from(self.needed[0]) + left) * across,
            top: (f64::from(self.needed[1]) + top) * down,
            width: width * across,
            height: height * down,
        };
        resample(copy, part, self.place[2], self.place[3])
    }
}

/// What there is to say of a print that is looked at so.
#[must_use]
pub fn in_words(plan: &Plan, shown: &TruePart, piece: usize, from: SeenFrom) -> String {
    let ppi = divide(*shown.pixels_per_inch.numer(), *shown.pixels_per_inch.denom(), Mode::Down);
    let on = match plan.pieces.get(piece).map(|piece| &piece.finish) {
        Some(Finish::Canvas(_)) => " on canvas",
        Some(Finish::Aluminium(_)) => " on aluminium",
        Some(Finish::Paper(_)) => " on paper",
        _ => "",
    };
    let units = plan.units;
    let sharp = measure::from_afar(merging_distance(shown.pixels_per_inch), units);
    let distance = measure::shown(plan.viewing.distance, measure::Grade::Room, units);
    let arm = measure::from_afar(ARM, units);
    match from {
        SeenFrom::Close => [
            &ppi.to_string(),
            " ppi",
            on,
            ", at its true size. Sharp from ",
            &sharp,
            " away; people look at it from ",
            &distance,
            ".",
        ]
        .concat(),
        SeenFrom::Distance => [
            &ppi.to_string(),
            " ppi",
            on,
            ", as large as it looks from ",
            &distance,
            " when the screen is ",
            &arm,
            " from your eye.",
        ]
        .concat(),
    }
}

fn inexact(number: Exact) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "pixels of a screen")]
    let (numer, denom) = (*number.numer() as f64, *number.denom() as f64);
    numer / denom
}
