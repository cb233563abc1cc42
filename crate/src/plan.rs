//! The plan: only what a person states. It is what is saved, linked, undone and compared; nothing derived is in it.
//!
//! Lengths are exact whatever unit they were typed in. A fixture is named by the place it has in the list; the
//! file form ([`mod@file`]) names it by its name.
//!
//! ```
//! use overmantel::plan::{Finish, Plan};
//! let plan = Plan::starting();
//! assert_eq!(plan.pieces.len(), 3, "a triptych over a sofa is where a new user starts");
//! assert!(matches!(plan.pieces[0].finish, Finish::Paper(_)));
//! ```

use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::{Length, Unit};

pub mod file;
mod material;
mod piece;
mod site;
mod starting;

pub use material::Material;
pub use piece::*;
pub use site::*;

/// Everything that is stated about one wall.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// What the plan is called.
    pub title: String,
    /// How lengths are shown and bare numbers read.
    pub units: Units,
    /// The wall.
    pub wall: Wall,
    /// From where it is seen.
    pub viewing: Viewing,
    /// What stands before the wall or is let into it; at most [`limits::FIXTURES`].
    pub fixtures: Vec<Fixture>,
    /// The picture files that pieces are made from; at most [`limits::PICTURES`].
    pub pictures: Vec<Picture>,
    /// One to three pieces, from left to right or from the top down.
    pub pieces: Vec<Piece>,
    /// When all pieces together show one picture.
    pub split: Option<Split>,
    /// When all pieces share one frame.
    pub shared: Option<Shared>,
    /// How the pieces stand together and where.
    pub group: Group,
    /// What each piece hangs by.
    pub fixing: Fixing,
    /// Pixels to the inch that a print is wished to have at least.
    pub fineness: u32,
    /// A frame that is there already.
    pub in_hand: Option<InHand>,
    /// The space on the wall that the group may take.
    pub space: Option<Size>,
    /// What the place and the way there are like.
    pub site: Site,
}

/// Limits of a plan, held when a file is read and when a field is changed.
pub mod limits {
    use crate::length::Length;
    /// Pieces at the most.
    pub const PIECES: usize = 3;
    /// Fixtures at the most.
    pub const FIXTURES: usize = 24;
    /// Picture files at the most.
    pub const PICTURES: usize = 12;
    /// Characters of a name or title at the most.
    pub const NAME: usize = 120;
    /// Bytes of a plan file at the most.
    pub const FILE_BYTES: usize = 256 * 1024;
    /// Characters of a reduced picture in a plan file at the most.
    pub const COPY_BYTES: usize = 1_000_000;
    /// Bytes of a plan file with its reduced pictures at the most.
    pub const FULL_FILE_BYTES: usize = FILE_BYTES + PICTURES * COPY_BYTES;
    /// The largest wall or distance: 100 m.
    pub const ROOM: Length = Length::mm(100_000);
    /// The largest piece: 10 m.
    pub const PIECE: Length = Length::mm(10_000);
    /// Grams to the square metre of a paper or a cloth at the most.
    pub const GRAMMAGE: u32 = 2_000;
    /// Pixels to the inch that can be wished for at the most.
    pub const FINENESS: u32 = 2_400;
    /// Parts of a ratio of head to foot at the most.
    pub const RATIO_PARTS: u16 = 100;
    /// Pixels along one side of a picture file at the most.
    pub const PICTURE_SIDE_PX: u32 = 200_000;
}

/// The system of units in which a bare number is read and a length is shown first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum System {
    /// Inches and feet.
    Inches,
    /// Centimetres.
    Centimetres,
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Units {
    /// The system that comes first and in which bare numbers are read.
    pub first: System,
    /// Whether every length is shown in the other system too.
    pub both: bool,
}

/// The wall, seen square on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wall {
    /// Clear width and height, from the floor to the ceiling.
    pub size: Size,
    /// Its paint.
    pub paint: Colour,
    /// The floor's colour.
    pub floor: Colour,
    /// Height of the skirting board; zero for none.
    pub skirting: Length,
    /// How it is finished under its paint.
    pub finish: WallFinish,
}

/// How a wall is finished under its paint.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum WallFinish {
    /// Smooth.
    #[default]
    Smooth,
    /// Plaster put on by hand: not quite even, which light from the side shows.
    Plaster,
}

/// Where the viewer stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Viewing {
    /// From the eye to the wall.
    pub distance: Length,
    /// From the floor to the eye level by which pictures are hung.
    pub eye_level: Length,
    /// How far to one side of the middle of the group the viewer stands.
    pub aside: Aside,
    /// A figure for scale, where one is wanted.
    pub figure: Option<Posture>,
    /// By which light.
    pub light: LightOf,
    /// Whether the room is faintly mirrored in glass and acrylic.
    pub reflection: bool,
}

/// Where along the wall a viewer stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Aside {
    /// Before the middle of the group.
    #[default]
    Straight,
    /// To its left by so much.
    Left(Length),
    /// To its right by so much.
    Right(Length),
}

impl Aside {
    /// How far to the right of the middle; less than nothing to its left.
    #[must_use]
    pub fn to_the_right(self) -> Length {
        match self {
            Self::Straight => Length::ZERO,
            Self::Left(by) => -by,
            Self::Right(by) => by,
        }
    }
}

/// How a figure for scale holds itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Posture {
    /// Upright, 170 cm high.
    Standing,
    /// On a seat of its own, the same person.
    Seated,
}

/// The light that a wall is drawn in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum LightOf {
    /// Daylight from a window, soft and from the left.
    #[default]
    Day,
    /// A lamp in the evening: warm, and with deeper shadows.
    Evening,
}

/// What kind of thing a fixture is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "plain names of things in a room")]
pub enum FixtureKind {
    Sofa,
    Sideboard,
    Bed,
    Table,
    Lamp,
    Plant,
    Mantel,
    Radiator,
    Door,
    Window,
    Switch,
    Socket,
    Thermostat,
}

impl FixtureKind {
    /// Every kind, furniture first.
    pub const ALL: [Self; 13] = [
        Self::Sofa,
        Self::Sideboard,
        Self::Bed,
        Self::Table,
        Self::Lamp,
        Self::Plant,
        Self::Mantel,
        Self::Radiator,
        Self::Door,
        Self::Window,
        Self::Switch,
        Self::Socket,
        Self::Thermostat,
    ];

    /// Whether it stands before the wall, and not in it or on it.
    #[must_use]
    pub const fn stands_before_wall(self) -> bool {
        matches!(self, Self::Sofa | Self::Sideboard | Self::Bed | Self::Table | Self::Lamp | Self::Plant)
    }

    /// Whether its depth is worth stating: it is more than a plate on the wall or a leaf in it.
    #[must_use]
    pub const fn has_depth(self) -> bool {
        self.stands_before_wall() || matches!(self, Self::Mantel | Self::Radiator)
    }

    /// Its name in a sentence and in a plan file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sofa => "sofa",
            Self::Sideboard => "sideboard",
            Self::Bed => "bed",
            Self::Table => "table",
            Self::Lamp => "lamp",
            Self::Plant => "plant",
            Self::Mantel => "mantel",
            Self::Radiator => "radiator",
            Self::Door => "door",
            Self::Window => "window",
            Self::Switch => "light switch",
            Self::Socket => "socket",
            Self::Thermostat => "thermostat",
        }
    }
}

/// A position along the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Across {
    /// In the middle of the wall.
    Middle,
    /// The left edge, from the left corner.
    FromLeft(Length),
    /// The right edge, from the right corner.
    FromRight(Length),
}

/// What pictures have to do with a fixture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// Pictures may hang above it.
    HangAbove,
    /// Pictures must not cover it.
    KeepClear,
}

/// Something that stands before the wall or is let into it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fixture {
    /// What it is.
    pub kind: FixtureKind,
    /// Its name; no two fixtures of a plan share one.
    pub name: String,
    /// Width and height.
    pub size: Size,
    /// From the wall to its front.
    pub depth: Length,
    /// Where it is along the wall.
    pub across: Across,
    /// From the floor to its lower edge.
    pub from_floor: Length,
    /// Whether pictures hang above it or keep clear of it.
    pub relation: Relation,
    /// To which side it opens against the wall, for a door.
    pub swing: Swing,
}

/// A picture file. The picture itself is not in the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Its title; no two pictures of a plan share one.
    pub name: String,
    /// The name of its file.
    pub file: String,
    /// Pixels from left to right, upright.
    pub width_px: u32,
    /// Pixels from top to bottom, upright.
    pub height_px: u32,
    /// What must not be cut in it: a figure, a boat.
    pub subject: Option<Focus>,
}

/// What becomes of the strip of the picture that would lie behind a gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strips {
    /// It is hidden behind the gap, so that lines meet across it.
    Hidden,
    /// Nothing is lost: each panel goes on where the one before ends.
    Kept,
}

/// One picture over all the pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Split {
    /// Which of [`Plan::pictures`].
    pub picture: usize,
    /// What the crop keeps.
    pub focus: Focus,
    /// What becomes of the strips behind the gaps.
    pub strips: Strips,
}

/// How pieces stand together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrangement {
    /// Side by side, from left to right.
    Row,
    /// One below the other, from the top down.
    Column,
    /// Side by side, the centre of each so much higher than the one before (lower, when negative), as on stairs.
    Stepped(Length),
}

/// Which edges of unequal pieces lie on one line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Their middles.
    Centre,
    /// In a row their upper edges, in a column their left edges.
    Start,
    /// In a row their lower edges, in a column their right edges.
    End,
}

/// Where the group is along the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroupAcross {
    /// Its middle on that of the wall.
    WallMiddle,
    /// Its middle on that of a fixture.
    FixtureMiddle(usize),
    /// Its middle so far from the left corner.
    CentreAt(Length),
}

/// How high the group hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroupUp {
    /// Its middle at eye level.
    EyeLevel,
    /// Its middle at this height.
    CentreAt(Length),
    /// Its lower edge so far above a fixture.
    Above {
        /// Which of [`Plan::fixtures`].
        fixture: usize,
        /// From the top of the fixture to the lower edge of the group.
        clearance: Length,
    },
}

/// The pieces as one thing on the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Group {
    /// How they stand together.
    pub arrangement: Arrangement,
    /// From the outside of one to the outside of the next.
    pub gap: Length,
    /// Which edges lie on one line.
    pub align: Align,
    /// Where along the wall.
    pub across: GroupAcross,
    /// How high.
    pub up: GroupUp,
}

/// One frame for all pieces, with one mat that has an opening for each. Mat, frame and what goes with them are those of
/// the first piece; in a row or a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shared {
    /// Board between one opening and the next, both measured at the art.
    pub bar: Length,
}

/// What was measured of a frame that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Its glass, or the mat or board that came with it: the nominal size.
    Glass,
    /// Its rabbet, from wall to wall at the back.
    Rabbet,
    /// Its sight opening, from lip to lip at the front.
    Sight,
    /// Its outside.
    Outside,
}

/// A frame that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InHand {
    /// What was measured.
    pub measured: Measured,
    /// Its width and height.
    pub size: Size,
    /// Width of the moulding's face.
    pub face: Length,
    /// Width of the rabbet.
    pub rabbet_width: Length,
    /// Play in the rabbet, in total over both sides.
    pub allowance: Length,
}

/// What a piece hangs by, the same for every piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fixing {
    /// Two rings on two hooks, no wire.
    Rings {
        /// From each side of the outside to the middle of the ring.
        inset: Length,
        /// From the upper edge of the outside to where the ring rests on its hook.
        down: Length,
    },
    /// A wire over one hook, or over two.
    Wire {
        /// From each side of the outside to the middle of the ring.
        inset: Length,
        /// From the upper edge of the outside to the rings.
        down: Length,
        /// By how much the wire is longer than the straight line between the rings.
        slack: Length,
        /// Distance between two hooks; `None` for a single one.
        hooks_apart: Option<Length>,
    },
}

impl Plan {
    /// Whether any length of the plan is out of its range, names are missing or doubled, or references lead nowhere.
    ///
    /// # Errors
    /// A plain sentence that says what was given and what is allowed.
    pub fn check(&self) -> Result<(), String> {
        check::plan(self)
    }
}

mod check;
