//! The survey: how large each work prints, in which sizes on offer and in what way, what limits it, and from how near it is sharp.
//!
//! A size on offer is that of the print, or of the frame round its mat. Of each size and way the best is told, in the order of [`crate::fit`], whose rules are
//! those of the sizes that suit one picture; what a roll takes is [`Roll::takes`], what a sheet [`sheet_for`], how large a file prints [`largest`], and
//! from where it is sharp [`merging_distance`].
//!
//! ```
//! use overmantel::{geometry::Size, stock::Stock};
//! use overmantel::works::{Works, survey::{On, Question, survey}};
//! let list = "title,dateCreated,availability,widthPx,heightPx\n\
//!             Ebb near the mole,2024,available,4000,6000\n\
//!             Two lanterns,2024,available,3000,4500\n\
//!             Old pier,2019,available,4000,6000\n\
//!             Low sun,2023,sold,4000,6000\n";
//! let works = Works::read(list)?;
//! // Works of 2023 or later that print at 24 × 36 in on canvas at 150 ppi or better, still available. 3000 / 24 is 125 ppi.
//! let asked = Question {
//!     since: Some(2023), size: Some(Size::inches(24, 36)), on: On::Canvas, least_ppi: Some(150), is_available: true,
//!     ..Question::default()
//! };
//! let found = survey(&works.works, &Stock::offered(), &asked);
//! let titles: Vec<&str> = found.suited.iter().map(|one| works.works[one.work].title.as_str()).collect();
//! assert_eq!(titles, ["Ebb near the mole"]);
//! # Ok::<(), overmantel::works::ListError>(())
//! ```

use super::{Signed, Work};
use crate::cut_list::{is_as_thick, sheet_for};
use crate::described::MOST_LENGTH;
use crate::fit::{Fit, FitWish, Lost, Way, from_picture, largest_of_shape};
use crate::framing::build_up;
use crate::geometry::{Sides, Size};
use crate::length::Length;
use crate::measure::{Grade, size as shown_size};
use crate::plan::{Finish, Focus, Material, Piece, System};
use crate::print::sharpness::largest;
use crate::print::{Exact, merging_distance};
use crate::stock::{Roll, SheetStock, StandardSize, Stock};
use std::collections::BTreeMap;

mod question;

pub use question::{LeftOut, On, Question, Shape};

/// The resolutions at which the largest print is told, coarsest first: common practice, no source.
pub const RESOLUTIONS: [u32; 4] = [150, 200, 240, 300];

/// What keeps a print from being larger, or from being made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Limit {
    /// The file has no more pixels.
    File,
    /// No roll in the stock list is wide enough, or none may be printed so long.
    Roll,
    /// No sheet in the stock list is large enough.
    Sheet,
    /// The smaller side is longer than the maker prints.
    SmallerSide,
}

impl Limit {
    /// In words, to stand behind "limited by".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::File => "the file",
            Self::Roll => "the roll",
            Self::Sheet => "the sheet",
            Self::SmallerSide => "the maker's smaller side",
        }
    }
}

/// The largest print of a whole picture at a resolution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Largest {
    /// Pixels per inch at least.
    pub ppi: u32,
    /// Its size.
    pub size: Size,
    /// Why it is no larger.
    pub limit: Limit,
}

/// A work in one size on offer, in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The size by its name: of the print, or of the frame round its mat.
    pub name: String,
    /// That size, turned as the picture is.
    pub size: Size,
    /// In what way.
    pub way: Way,
    /// The sheet that is printed.
    pub sheet: Size,
    /// The picture on it.
    pub image: Size,
    /// White paper round the picture, or the board round the opening of a mat.
    pub borders: Sides,
    /// Pixels per inch.
    pub ppi: Exact,
    /// What of the picture is lost.
    pub lost: Lost,
    /// From where its pixels merge for a good eye.
    pub sharp_from: Length,
    /// What stands against it; empty where it can be printed so.
    pub limits: Vec<Limit>,
    /// Whether what must be kept is cropped off.
    pub loses_subject: bool,
    /// Whether the signature is cropped off.
    pub loses_signature: bool,
}

/// What there is to say of one work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Surveyed {
    /// Its place in the list.
    pub work: usize,
    /// Pixels of its file.
    pub px: (u32, u32),
    /// The largest prints of the whole picture, at each of [`RESOLUTIONS`]; none where nothing can be printed.
    pub largest: Vec<Largest>,
    /// The largest at the resolution that prints keep at least.
    pub at_standard: Option<Largest>,
    /// Sizes that can be printed, those with the most to say for them first.
    pub prints: Vec<Printed>,
    /// Sizes that can't, with what stands against them.
    pub limited: Vec<Printed>,
}

/// The works that suit what was asked, and how many do not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Survey {
    /// Those that do, in the order of the list.
    pub suited: Vec<Surveyed>,
    /// How many were left out for each reason, in the order in which they are asked.
    pub left_out: Vec<(LeftOut, usize)>,
    /// The resolution that prints keep at least.
    pub least_ppi: u32,
}

/// Surveys works from the stock's sizes, rolls and sheets.
#[must_use]
pub fn survey(works: &[Work], stock: &Stock, asked: &Question) -> Survey {
    let surveyor = Surveyor::of(stock, asked);
    let mut suited = Vec::new();
    let mut counts: BTreeMap<LeftOut, usize> = BTreeMap::new();
    for (place, work) in works.iter().enumerate() {
        let found = match (asked.leaves_out(work), work.px) {
            (None, Some(px)) => surveyor.survey(place, work, px).ok_or(LeftOut::Print),
            (why, _) => Err(why.unwrap_or(LeftOut::Pixels)),
        };
        match found {
            Ok(one) => suited.push(one),
            Err(why) => *counts.entry(why).or_default() += 1,
        }
    }
    Survey { suited, left_out: counts.into_iter().collect(), least_ppi: surveyor.least_ppi }
}

/// From what all works are judged.
struct Surveyor<'a> {
    stock: &'a Stock,
    asked: &'a Question,
    sizes: Vec<StandardSize>,
    least_ppi: u32,
    system: System,
    /// What is printed besides the image, in all: the edges and the staple margin of a canvas.
    beyond: Size,
    /// The sizes within which one side lies across and one along, longer along; each roll and sheet has one.
    windows: Vec<Size>,
}

impl<'a> Surveyor<'a> {
    fn of(stock: &'a Stock, asked: &'a Question) -> Self {
        let system = asked.system.unwrap_or_default();
        let piece = asked.on.piece(Size::inches(100, 100), system);
        let cloth = build_up(&piece).ok().and_then(|sizes| sizes.cloth);
        let beyond = cloth.map_or_else(Size::default, |cloth| {
            Size::new(cloth.width - piece.image.width, cloth.height - piece.image.height)
        });
        let least_ppi = asked.least_ppi.unwrap_or_else(|| asked.on.standard_ppi(stock));
        let windows = match asked.on {
            On::Aluminium => {
                let is_it = |row: &&SheetStock| {
                    metal(&piece).is_some_and(|(material, thickness)| {
                        row.material == material && is_as_thick(row.thickness, thickness)
                    })
                };
                stock.sheets.iter().filter(is_it).map(|row| upright(row.size)).collect()
            }
            On::Paper | On::Canvas => stock.rolls.iter().map(|roll| within(roll, beyond)).collect(),
        };
        Self { stock, asked, sizes: sizes(stock, asked, system), least_ppi, system, beyond, windows }
    }

    /// What there is to say of a work; none where it can't be printed as asked.
    fn survey(&self, place: usize, work: &Work, px: (u32, u32)) -> Option<Surveyed> {
        let wish = FitWish {
            fineness_ppi: Exact::from_integer(self.least_ppi.into()),
            focus: work.subject.unwrap_or(Focus::MIDDLE),
            ..FitWish::default()
        };
        let (mut prints, mut limited): (Vec<Printed>, Vec<Printed>) = (Vec::new(), Vec::new());
        for fit in from_picture(px, &self.sizes, &wish) {
            let (size, listed) = (fit.nominal(), fit.frame.unwrap_or(fit.print).listed);
            if !self.asked.allows(fit.way) || self.asked.size.is_some_and(|asked| !is_alike(asked, size)) {
                continue;
            }
            let is_there = |other: &Printed| (other.way, other.size) == (fit.way, size);
            if prints.iter().chain(&limited).any(is_there) {
                continue;
            }
            let printed = self.printed(&fit, &listed.name, work, px);
            if printed.limits.is_empty() { prints.push(printed) } else { limited.push(printed) }
        }
        (!prints.is_empty()).then(|| Surveyed {
            work: place,
            px,
            largest: RESOLUTIONS.iter().filter_map(|&ppi| self.largest(px, ppi)).collect(),
            at_standard: self.largest(px, self.least_ppi),
            prints,
            limited,
        })
    }

    fn printed(&self, fit: &Fit<'_>, name: &str, work: &Work, px: (u32, u32)) -> Printed {
        let sheet = fit.sheet();
        let mut limits = Vec::new();
        if !fit.keeps_fineness {
            limits.push(Limit::File);
        }
        let printed = Size::new(sheet.width + self.beyond.width, sheet.height + self.beyond.height);
        match metal(&self.asked.on.piece(sheet, self.system)) {
            Some((material, thickness))
                if sheet_for(self.stock, material, Some(thickness), printed).is_err() =>
            {
                limits.push(Limit::Sheet);
            }
            None if !self.stock.rolls.iter().any(|roll| roll.takes(printed)) => limits.push(Limit::Roll),
            _ => {}
        }
        if self.asked.smaller_side.is_some_and(|most| sheet.width.min(sheet.height) > most) {
            limits.push(Limit::SmallerSide);
        }
        let is_lost = |point: Focus| {
            let at = |permille: u16, px: u32| Exact::new(i128::from(permille) * i128::from(px), 1000);
            let (x, y) = (at(point.x_permille, px.0), at(point.y_permille, px.1));
            let source = fit.cut.source;
            x < source.left
                || x > source.left + source.width
                || y < source.top
                || y > source.top + source.height
        };
        let signed = match work.signature {
            Some(Signed::At(point)) => Some(point),
            _ => None,
        };
        Printed {
            name: name.to_owned(),
            size: fit.nominal(),
            way: fit.way,
            sheet,
            image: fit.image,
            borders: fit.borders,
            ppi: fit.cut.pixels_per_inch,
            lost: fit.lost,
            sharp_from: merging_distance(fit.cut.pixels_per_inch),
            limits,
            loses_subject: work.subject.is_some_and(is_lost),
            loses_signature: signed.is_some_and(is_lost),
        }
    }

    /// The largest print of a whole picture at a resolution: what the file allows, or the largest of its shape that a roll or a sheet takes.
    fn largest(&self, px: (u32, u32), ppi: u32) -> Option<Largest> {
        let size = largest(px, None, Exact::from_integer(ppi.into()))?;
        let mut found = Largest { ppi, size, limit: Limit::File };
        let shape = Exact::new(px.0.into(), px.1.into());
        let turned = |window: Size| if px.0 > px.1 { Size::new(window.height, window.width) } else { window };
        let within = |window: Size, size: Size| size.width <= window.width && size.height <= window.height;
        let windows = || self.windows.iter().map(|&window| turned(window));
        if !windows().any(|window| within(window, found.size)) {
            let held = windows().filter_map(|window| largest_of_shape(shape, window));
            found.size = held.max_by_key(|size| (size.width, size.height))?;
            found.limit = if self.asked.on == On::Aluminium { Limit::Sheet } else { Limit::Roll };
        }
        if let Some(most) = self.asked.smaller_side
            && found.size.width.min(found.size.height) > most
        {
            found.size = largest_of_shape(shape, turned(Size::new(most, MOST_LENGTH)))?;
            found.limit = Limit::SmallerSide;
        }
        Some(found)
    }
}

/// The sizes that a question is of: those on offer, and the one that it names where it is not among them.
fn sizes(stock: &Stock, asked: &Question, system: System) -> Vec<StandardSize> {
    let is_of = |row: &&StandardSize| asked.system.is_none_or(|system| row.system == system);
    let mut sizes: Vec<StandardSize> = stock.sizes.iter().filter(is_of).cloned().collect();
    let Some(size) = asked.size else { return sizes };
    if !sizes.iter().any(|row| is_alike(row.size, size)) {
        let name = shown_size(size, Grade::Piece, system).text;
        let series = String::new();
        sizes.push(StandardSize { name, series, system, size, is_print: true, is_frame: true });
    }
    // Only a print of this size, or a mat in a frame of this size, can be an answer.
    sizes.retain(|row| row.is_print || is_alike(row.size, size));
    sizes.iter_mut().filter(|row| !is_alike(row.size, size)).for_each(|row| row.is_frame = false);
    sizes
}

/// What a sheet of metal is made of, and how thick it is.
fn metal(piece: &Piece) -> Option<(Material, Length)> {
    match &piece.finish {
        Finish::Aluminium(sheet) => Some((Material::Aluminium, sheet.thickness)),
        _ => None,
    }
}

/// The largest image that a roll takes upright, with what is printed beyond it.
fn within(roll: &Roll, beyond: Size) -> Size {
    let along = roll.longest.unwrap_or(MOST_LENGTH);
    Size::new(roll.width - roll.margin * 2 - beyond.width, along - beyond.height)
}

fn upright(size: Size) -> Size {
    Size::new(size.width.min(size.height), size.width.max(size.height))
}

fn is_alike(one: Size, other: Size) -> bool {
    upright(one) == upright(other)
}
