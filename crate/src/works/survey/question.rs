//! What is asked of a body of work, in plain fields.

use crate::fit::Way;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{Aluminium, Canvas, Finish, Paper, Piece, System};
use crate::print::sharpness::STANDARDS;
use crate::stock::{Stock, thresholds::SOFT_PPI};
use crate::works::Work;

/// What prints are on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum On {
    /// Paper.
    #[default]
    Paper,
    /// Stretched canvas, its edges in mirror image.
    Canvas,
    /// Aluminium.
    Aluminium,
}

impl On {
    /// Each of them.
    pub const ALL: [Self; 3] = [Self::Paper, Self::Canvas, Self::Aluminium];

    /// In a word.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Paper => "paper",
            Self::Canvas => "canvas",
            Self::Aluminium => "aluminium",
        }
    }

    /// The resolution that a print on it keeps at least, unless another is asked for: "good" of the usual standards; on canvas, which
    /// forgives, that below which the stock's own limit calls a print soft. Common practice, no source.
    #[must_use]
    pub fn standard_ppi(self, stock: &Stock) -> u32 {
        match self {
            Self::Canvas => {
                let (over, under) = stock.limit_number(&SOFT_PPI);
                u32::try_from((over + under - 1) / under.max(1)).unwrap_or(STANDARDS[3].ppi)
            }
            Self::Paper | Self::Aluminium => STANDARDS[2].ppi,
        }
    }

    /// Whether it is printed so: canvas and aluminium go to the edge.
    #[must_use]
    pub const fn allows(self, way: Way) -> bool {
        matches!(self, Self::Paper) || matches!(way, Way::Whole | Way::Cropped)
    }

    /// A piece of it, as is usual.
    pub(super) fn piece(self, image: Size, system: System) -> Piece {
        let finish = match self {
            Self::Paper => Finish::Paper(Paper::starting_in(system)),
            Self::Canvas => Finish::Canvas(Canvas::starting_in(system)),
            Self::Aluminium => Finish::Aluminium(Aluminium::starting_in(system)),
        };
        Piece { image, finish, ..Piece::starting_in(system) }
    }
}

/// The shape of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Higher than wide.
    Portrait,
    /// Wider than high.
    Landscape,
    /// Its sides differ by less than a twentieth of the longer one.
    Square,
    /// At least twice as wide as high.
    Panorama,
}

impl Shape {
    /// Whether a picture of so many pixels has it; the limits are our own choice, no source.
    #[must_use]
    pub fn is_of(self, (width, height): (u32, u32)) -> bool {
        let (width, height) = (u64::from(width), u64::from(height));
        let is_square = width.abs_diff(height) * 20 < width.max(height);
        match self {
            Self::Square => is_square,
            Self::Portrait => height > width && !is_square,
            Self::Landscape => width > height && !is_square,
            Self::Panorama => width >= height * 2,
        }
    }

    /// In a word.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Portrait => "portrait",
            Self::Landscape => "landscape",
            Self::Square => "square",
            Self::Panorama => "panorama",
        }
    }
}

/// What is asked. What is not stated leaves nothing out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Question {
    /// Made in this year or later. A work made over several years counts by the last.
    pub since: Option<u16>,
    /// Made in this year or earlier.
    pub until: Option<u16>,
    /// On offer in this size, either way round: of the print, or of the frame round its mat.
    pub size: Option<Size>,
    /// Printed on this.
    pub on: On,
    /// At least so many pixels per inch; the material's own standard when `None`.
    pub least_ppi: Option<u32>,
    /// Printed in one of these ways; in any when empty.
    pub ways: Vec<Way>,
    /// Only works of which the list says that the original can be had.
    pub is_available: bool,
    /// Of this shape.
    pub shape: Option<Shape>,
    /// With all of these words in the title, upper and lower case alike.
    pub words: Vec<String>,
    /// The longest that the smaller side of a print may be, where a maker has such a limit besides the stock's rolls and sheets.
    pub smaller_side: Option<Length>,
    /// Only sizes that are defined in this system.
    pub system: Option<System>,
}

/// Why a work is left out: the first thing asked that it does not meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeftOut {
    /// It was made earlier or later.
    Year,
    /// It has no date that could be read.
    Undated,
    /// The list does not say that its original can be had.
    Unavailable,
    /// Its title has other words.
    Words,
    /// It is not known how many pixels its file has.
    Pixels,
    /// It has another shape.
    Shape,
    /// It can't be printed so.
    Print,
}

impl LeftOut {
    /// In words, to stand behind how many of them there are.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Year => "made in other years",
            Self::Undated => "without a date",
            Self::Unavailable => "not said to be available",
            Self::Words => "with another title",
            Self::Pixels => "whose pixels are not known",
            Self::Shape => "of another shape",
            Self::Print => "that can't be printed so",
        }
    }
}

impl Question {
    /// Why a work is left out before its prints are looked at; `None` where it is not.
    #[must_use]
    pub fn leaves_out(&self, work: &Work) -> Option<LeftOut> {
        if self.since.is_some() || self.until.is_some() {
            let Some(created) = work.created else { return Some(LeftOut::Undated) };
            let year = created.year();
            if self.since.is_some_and(|since| year < since) || self.until.is_some_and(|until| year > until) {
                return Some(LeftOut::Year);
            }
        }
        if self.is_available && !work.is_available() {
            return Some(LeftOut::Unavailable);
        }
        let title = work.title.to_lowercase();
        if self.words.iter().any(|word| !title.contains(&word.to_lowercase())) {
            return Some(LeftOut::Words);
        }
        let Some(px) = work.px else { return Some(LeftOut::Pixels) };
        self.shape.is_some_and(|shape| !shape.is_of(px)).then_some(LeftOut::Shape)
    }

    /// Whether a way to print is allowed.
    #[must_use]
    pub fn allows(&self, way: Way) -> bool {
        self.on.allows(way) && (self.ways.is_empty() || self.ways.contains(&way))
    }
}
