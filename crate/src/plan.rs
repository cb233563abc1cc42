//! The plan: only what a person states. It is what is saved, linked, undone and compared; nothing derived is in it.
//!
//! Lengths are exact whatever unit they were typed in. A fixture is named by the place it has in the list; the
//! file form ([`mod@file`]) names it by its name. What the plan consists of is described once, beside its structs
//! ([`crate::described`]): a row for each member, which files, links, fields, checks and starting values walk over.
//!
//! ```
//! use overmantel::plan::{Finish, Plan};
//! let plan = Plan::starting();
//! assert_eq!(plan.pieces.len(), 3, "a triptych over a sofa is where a new user starts");
//! assert!(matches!(plan.pieces[0].finish, Finish::Paper(_)));
//! ```

use crate::described::{
    Absent, Choosable, Entry, Form, Member, Referred, Row, Thing, Words, maybe, maybe_filled,
};
use crate::geometry::Size;
use crate::length::Length;
use crate::length::Unit;

mod check;
pub mod file;
mod fixing;
mod fixture;
mod framing;
mod group;
mod in_hand;
mod material;
mod moulding;
mod picture;
mod piece;
mod site;
mod starting;
mod wall;

pub use check::PlanError;
pub(crate) use check::called;
pub use fixing::*;
pub use fixture::*;
pub use framing::*;
pub use group::*;
pub use in_hand::*;
pub use material::*;
pub use moulding::*;
pub use picture::*;
pub use piece::*;
pub use site::*;
pub use wall::*;

/// Everything that is stated about one wall.
///
/// ```
/// use overmantel::length::Length;
/// use overmantel::plan::{Plan, file};
///
/// let mut plan = Plan::starting();
/// plan.wall.size.width = Length::mm(4_200);
/// assert!(plan.check().is_ok());
/// // A plan file has every length as text with its unit, and reads back to the same plan.
/// let text = file::write(&plan);
/// assert!(text.contains("\"4200 mm\""));
/// assert_eq!(file::read(&text).as_ref(), Ok(&plan));
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// What the plan is called.
    pub title: String,
    /// How lengths are shown and bare numbers read.
    pub units: Units,
    /// The wall.
    pub wall: Wall,
    /// Where the viewer stands.
    pub viewing: Viewing,
    /// What stands in front of the wall or is built into it; at most [`limits::FIXTURES`].
    pub fixtures: Vec<Fixture>,
    /// The picture files that pieces are made from; at most [`limits::PICTURES`].
    pub pictures: Vec<Picture>,
    /// One to three pieces, from left to right or from the top down.
    pub pieces: Vec<Piece>,
    /// When all pieces together show one picture.
    pub split: Option<Split>,
    /// When all pieces share one frame.
    pub shared: Option<Shared>,
    /// How the pieces are arranged, and where.
    pub group: Group,
    /// What each piece hangs by.
    pub fixing: Fixing,
    /// Resolution that a print should have at least, in pixels per inch.
    pub fineness: u32,
    /// Resolution at which the print shop wants files, in pixels per inch; when `None`, files keep all their pixels.
    pub file_resolution: Option<u32>,
    /// A frame that the user already has.
    pub in_hand: Option<InHand>,
    /// The space on the wall that the group may take.
    pub space: Option<Size>,
    /// What the place and the way there are like.
    pub site: Site,
    /// How far off the wall and what stands before it may be, where they were measured in a photograph.
    pub from_photograph: Option<Length>,
}

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Length, Row, Size, Words, limits};

    pub static TITLE: Row = Row::new("title", "title", 1, "title", "What the plan is called.", Form::Text { most: limits::NAME, may_be_empty: false }).needed();
    pub(super) static UNITS: Row = Row::thing("", 2, "");
    pub static UNITS_FIRST: Row = Row::choice("units", "units", 1, "units", "The system shown first, in which a length without a unit is read.").absent(Absent::Default);
    pub(super) static UNITS_BOTH: Row = Row::new("", "both_units", 2, "both systems of units", "Show every length in the other system too.", Form::Flag(Words::NONE)).absent(Absent::Default);
    pub(super) static WALL: Row = Row::thing("wall", 3, "The wall.").needed();
    pub(super) static VIEWING: Row = Row::thing("viewing", 4, "Where the viewer stands.");
    pub(super) static FIXTURES: Row = Row::new("", "fixtures", 5, "fixtures", "What stands in front of the wall or is built into it.", Form::List { least: 0, most: limits::FIXTURES, what: "fixtures" }).absent(Absent::Default);
    pub(super) static PICTURES: Row = Row::new("", "pictures", 6, "pictures", "The picture files.", Form::List { least: 0, most: limits::PICTURES, what: "pictures" }).absent(Absent::Default);
    pub static SPLIT: Row = Row::new("", "split", 8, "one picture over all pieces", "One picture over all pieces.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static PIECES: Row = Row::new("", "pieces", 7, "pieces", "One to three pieces, from left to right or from the top down.", Form::List { least: 1, most: limits::PIECES, what: "pieces" }).needed();
    pub(super) static GROUP: Row = Row::thing("group", 9, "How the pieces are arranged, and where they hang.").needed();
    pub(super) static FIXING: Row = Row::thing("fixing", 10, "What each piece hangs by.");
    pub static SHARED: Row = Row::new("shared", "shared", 11, "a frame for each piece, or one for all", "One frame for all pieces.", Form::maybe(Words::no_yes("separate", "all in one frame"))).absent(Absent::Usual);
    pub static FINENESS: Row = Row::new("fineness", "fineness", 12, "lowest resolution wanted", "Resolution that a print should have at least, in pixels per inch; 200 when left out.", Form::Number { least: 1, most: 2_400, usual: 200, unit: " ppi" });
    pub static FILE_RESOLUTION: Row = Row::new("file_resolution", "file_resolution", 16, "resolution of the files for the print shop", "Resolution at which the print shop wants files, in pixels per inch; when left out, files keep all their pixels.", Form::maybe(Words::no_yes("with all their pixels", "scaled to"))).absent(Absent::Usual);
    pub static FILE_RESOLUTION_PPI: Row = Row::new("file_resolution.ppi", "", 1, "resolution to scale the files to", "", Form::Number { least: 10, most: 2_400, usual: 300, unit: " ppi" });
    pub static IN_HAND: Row = Row::new("", "in_hand", 13, "frame you already have", "A frame that you already have.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub static SPACE: Row = Row::new("space", "space", 14, "space for the pictures", "Width and height that the group may take up on the wall.", Form::maybe(Words::no_yes("any width and height", "no more than"))).absent(Absent::Usual);
    pub static SPACE_SIZE: Row = Row::new("space.size", "", 1, "size of the space for the pictures", "", Form::size(Size::inches(144, 96), limits::ROOM));
    pub(super) static SITE: Row = Row::thing("site", 15, "The place where the pieces hang, and the way there.").absent(Absent::Usual);
    pub static FROM_PHOTOGRAPH: Row = Row::new("from_photograph", "from_photograph", 17, "how the wall was measured", "How far off the wall and what stands in front of it may be, where they were measured in a photograph; left out where they were measured by hand.", Form::maybe(Words::no_yes("by hand", "in a photograph"))).absent(Absent::Usual);
    pub static FROM_PHOTOGRAPH_OFF: Row = Row::length("from_photograph.off", "", 1, "how far off what was measured in a photograph may be", "", Length::mm(10)).range(Length::mm(1), Length::mm(2_000));
}
pub use rows::*;

impl Thing for Plan {
    fn title(&self) -> (&'static str, &'static str) {
        ("Plan", "A plan of Overmantel: pictures on a wall.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self {
            title,
            units,
            wall,
            viewing,
            fixtures,
            pictures,
            pieces,
            split,
            shared,
            group,
            fixing,
            fineness,
            file_resolution,
            in_hand,
            space,
            site,
            from_photograph,
        } = self;
        vec![
            Member::of(&TITLE, title),
            Member::of(&UNITS, units),
            Member::of(&WALL, wall),
            Member::of(&VIEWING, viewing),
            Member::list(&FIXTURES, fixtures),
            Member::list(&PICTURES, pictures),
            maybe(&SPLIT, split),
            Member::list(&PIECES, pieces),
            Member::of(&GROUP, group),
            Member::of(&FIXING, fixing),
            maybe(&SHARED, shared),
            Member::of(&FINENESS, fineness),
            maybe_filled(&FILE_RESOLUTION, file_resolution, &FILE_RESOLUTION_PPI, 300),
            maybe(&IN_HAND, in_hand),
            maybe_filled(&SPACE, space, &SPACE_SIZE, Size::inches(144, 96)),
            Member::of(&SITE, site),
            maybe_filled(&FROM_PHOTOGRAPH, from_photograph, &FROM_PHOTOGRAPH_OFF, Length::mm(10)),
        ]
    }

    fn names(&self, of: Referred) -> Vec<String> {
        match of {
            Referred::Fixture => self.fixtures.iter().map(|fixture| fixture.name.clone()).collect(),
            Referred::Picture => self.pictures.iter().map(|picture| picture.name.clone()).collect(),
        }
    }
}

/// Limits of a plan, held when a file is read and when a field is changed.
pub mod limits {
    use crate::length::Length;
    /// Pieces at most.
    pub const PIECES: usize = 3;
    /// Fixtures at most.
    pub const FIXTURES: usize = 24;
    /// Picture files at most.
    pub const PICTURES: usize = 12;
    /// Characters of a name or title at most.
    pub const NAME: usize = 120;
    /// Bytes of a plan file at most.
    pub const FILE_BYTES: usize = 256 * 1024;
    /// Characters of a reduced picture in a plan file at most.
    pub const COPY_BYTES: usize = 1_000_000;
    /// Bytes of a plan file with its reduced pictures at most.
    pub const FULL_FILE_BYTES: usize = FILE_BYTES + PICTURES * COPY_BYTES;
    /// The largest wall or distance: 100 m.
    pub const ROOM: Length = Length::mm(100_000);
    /// The largest piece: 10 m.
    pub const PIECE: Length = crate::described::MOST_LENGTH;
    /// Grams per square metre of a paper or a canvas at most.
    pub const GRAMMAGE: u32 = 2_000;
    /// Highest resolution that can be wanted, in pixels per inch.
    pub const FINENESS: u32 = 2_400;
    /// Parts of a ratio of top to bottom at most.
    pub const RATIO_PARTS: u16 = 100;
    /// Pixels along one side of a picture file at most.
    pub const PICTURE_SIDE_PX: u32 = 200_000;
}

/// The system of units in which a bare number is read and a length is shown first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum System {
    /// Inches and feet.
    #[default]
    Inches,
    /// Centimetres.
    Centimetres,
}

impl Choosable for System {
    const NAME: &'static str = "Units";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Inches, Entry::new("inches", 0, "inches")),
        (Self::Centimetres, Entry::new("centimetres", 1, "centimetres")),
    ];
}

impl System {
    /// The unit of a number that is written without one.
    #[must_use]
    pub const fn bare_unit(self) -> Unit {
        match self {
            Self::Inches => Unit::Inch,
            Self::Centimetres => Unit::Centimetre,
        }
    }

    /// This system and then the other, as a paper's columns stand.
    ///
    /// ```
    /// use overmantel::plan::System;
    /// assert_eq!(System::Centimetres.with_other().map(System::of_column), ["mm", "inches"]);
    /// ```
    #[must_use]
    pub const fn with_other(self) -> [Self; 2] {
        [self, self.other()]
    }

    /// What heads a column of cut sizes.
    #[must_use]
    pub const fn of_column(self) -> &'static str {
        match self {
            Self::Inches => "inches",
            Self::Centimetres => "mm",
        }
    }

    /// The other system.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Inches => Self::Centimetres,
            Self::Centimetres => Self::Inches,
        }
    }
}

/// How lengths are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Units {
    /// The system that comes first and in which bare numbers are read.
    pub first: System,
    /// Whether every length is shown in the other system too.
    pub both: bool,
}

impl Thing for Units {
    fn title(&self) -> (&'static str, &'static str) {
        ("", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { first, both } = self;
        vec![Member::choice(&UNITS_FIRST, first), Member::of(&UNITS_BOTH, both)]
    }
}

impl Plan {
    /// Whether any length of the plan is out of its range, names are missing or doubled, or references lead nowhere.
    ///
    /// # Errors
    /// What was given and what is allowed.
    pub fn check(&self) -> Result<(), PlanError> {
        check::plan(self)
    }

    /// Whether all pieces are works themselves, and none is printed.
    #[must_use]
    pub fn are_all_originals(&self) -> bool {
        self.pieces.iter().all(|piece| piece.finish.is_original())
    }
}
