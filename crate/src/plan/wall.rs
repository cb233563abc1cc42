//! The wall, and from where it is seen.

use crate::colour::Colour;
use crate::described::{Absent, Choosable, Entry, Form, Member, OneOf, Row, Shape, Thing, Variants, Words};
use crate::geometry::Size;
use crate::length::{Grade, Length};

use super::limits;

/// The wall, seen square on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
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

const ROOM: Form = Form::Length {
    grade: Grade::Room,
    least: Length::from_units(1),
    most: limits::ROOM,
    usual: Length::ZERO,
    frozen: Length::ZERO,
};

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Grade, Length, ROOM, Row, Shape, Size, Words, limits};

    pub static WALL_WIDTH: Row = Row::part("wall.width", "width of the wall", ROOM);
    pub static WALL_HEIGHT: Row = Row::part("wall.height", "height of the wall", ROOM);
    pub static WALL_SIZE: Row = Row::new("wall.size", "size", 1, "size of the wall", "Width and height.", Form::Size { most: limits::ROOM, usual: Size::inches(144, 96), sides: Some([&WALL_WIDTH, &WALL_HEIGHT]) }).needed().metric(&[(Length::inches(144), Length::mm(3600)), (Length::inches(96), Length::mm(2400))]);
    pub static WALL_PAINT: Row = Row::colour("wall.paint", "paint", 3, "paint of the wall", "Colour of its paint, as #rrggbb.", 0xd5_dc_d6);
    pub static WALL_FLOOR: Row = Row::colour("wall.floor", "floor", 4, "colour of the floor", "Colour of the floor, as #rrggbb.", 0xa5_83_63);
    pub static WALL_SKIRTING: Row = Row::length("wall.skirting", "skirting", 5, "height of the baseboard (skirting)", "Height of the baseboard (skirting); 0 for none.", Length::inches(4)).range(Length::ZERO, limits::ROOM).metric(&[(Length::inches(4), Length::mm(100))]);
    pub static WALL_FINISH: Row = Row::choice("wall.finish", "finish", 6, "finish of the wall", "How the wall is finished under its paint; smooth when left out.").absent(Absent::Silent);

    pub static VIEWING_DISTANCE: Row = Row::length("viewing.distance", "distance", 1, "viewing distance", "From the eye to the wall.", Length::inches(108)).range(Length::from_units(1), limits::ROOM).grade(Grade::Room).needed().metric(&[(Length::inches(108), Length::mm(2750))]);
    pub static VIEWING_EYE_LEVEL: Row = Row::length("viewing.eye_level", "eye_level", 2, "eye level", "From the floor to the eye level.", Length::inches(57)).range(Length::ZERO, limits::ROOM).needed().metric(&[(Length::inches(57), Length::mm(1450))]);
    pub static VIEWING_SIDE: Row = Row::new("viewing.side", "aside", 3, "where the viewer stands", "Where the viewer stands; in front of the middle of the group when left out.", Form::OneOf(Shape::Tagged(Some(0)))).absent(Absent::Usual);
    pub static VIEWING_ASIDE: Row = Row::length("viewing.aside", "", 4, "how far the viewer stands to the side", "", Length::inches(24)).range(Length::ZERO, limits::ROOM).grade(Grade::Room).frozen(Length::ZERO).metric(&[(Length::inches(24), Length::mm(600))]);
    pub static VIEWING_FIGURE: Row = Row::new("viewing.figure", "", 5, "figure drawn for scale", "", Form::Flags(&[("figure", "Draw a figure for scale.", Absent::Default), ("seated", "The figure is seated.", Absent::Silent)]));
    pub static VIEWING_REFLECTION: Row = Row::new("viewing.reflection", "reflection", 7, "reflection in the glazing", "Glass and acrylic show a faint reflection of the room.", Form::Flag(Words::yes_no("a faint reflection", "no reflection"))).absent(Absent::Silent);
    pub static VIEWING_LIGHT: Row = Row::choice("viewing.light", "light", 6, "light in the room", "The light in the room; daylight when left out.").absent(Absent::Default);
}
pub use rows::*;

impl Thing for Wall {
    fn title(&self) -> (&'static str, &'static str) {
        ("Wall", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { size, paint, floor, skirting, finish } = self;
        vec![
            Member::of(&WALL_SIZE, size),
            Member::of(&WALL_PAINT, paint),
            Member::of(&WALL_FLOOR, floor),
            Member::of(&WALL_SKIRTING, skirting),
            Member::choice(&WALL_FINISH, finish),
        ]
    }
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

impl Choosable for WallFinish {
    const NAME: &'static str = "WallFinish";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Smooth, Entry::new("smooth", 0, "smooth").about("Even under its paint.")),
        (Self::Plaster, Entry::new("plaster", 1, "plastered by hand").about("Uneven, put on by hand.")),
    ];
}

/// Where the viewer stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Viewing {
    /// From the eye to the wall.
    pub distance: Length,
    /// From the floor to the eye level by which pictures are hung.
    pub eye_level: Length,
    /// How far to one side of the middle of the group the viewer stands.
    pub aside: ViewerOffset,
    /// A figure for scale, where one is wanted.
    pub figure: Option<Posture>,
    /// By which light.
    pub light: Lighting,
    /// Whether the room is faintly mirrored in glass and acrylic.
    pub reflection: bool,
}

impl Thing for Viewing {
    fn title(&self) -> (&'static str, &'static str) {
        ("Viewing", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { distance, eye_level, aside, figure, light, reflection } = self;
        vec![
            Member::of(&VIEWING_DISTANCE, distance),
            Member::of(&VIEWING_EYE_LEVEL, eye_level),
            Member::one_of(&VIEWING_SIDE, aside),
            Member::choice(&VIEWING_FIGURE, figure),
            Member::of(&VIEWING_REFLECTION, reflection),
            Member::choice(&VIEWING_LIGHT, light),
        ]
    }
}

/// Where along the wall a viewer stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ViewerOffset {
    /// Before the middle of the group.
    #[default]
    Straight,
    /// To its left by so much.
    Left(Length),
    /// To its right by so much.
    Right(Length),
}

impl ViewerOffset {
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

static ASIDE: Variants = Variants {
    name: "Aside",
    about: "",
    entries: &[
        Entry::new("straight", 0, "straight in front of the pictures").left_out(),
        Entry::new("left", 1, "to the left of the middle of the pictures")
            .about("To the left of the middle of the group, by this distance."),
        Entry::new("right", 2, "to the right of the middle of the pictures")
            .about("To its right, by this distance."),
    ],
};

impl OneOf for ViewerOffset {
    fn variants(&self) -> &'static Variants {
        &ASIDE
    }

    fn place(&self) -> usize {
        match self {
            Self::Straight => 0,
            Self::Left(_) => 1,
            Self::Right(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        let by = match *self {
            Self::Straight => Length::inches(24),
            Self::Left(by) | Self::Right(by) => by,
        };
        *self = [Self::Straight, Self::Left(by), Self::Right(by)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::Straight => Vec::new(),
            Self::Left(by) | Self::Right(by) => vec![Member::of(&VIEWING_ASIDE, by)],
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

impl Choosable for Option<Posture> {
    const NAME: &'static str = "";
    const ALL: &'static [(Self, Entry)] = &[
        (Some(Posture::Standing), Entry::new("figure", 1, "a standing figure")),
        (Some(Posture::Seated), Entry::new("figure seated", 2, "a seated figure")),
        (None, Entry::new("none", 0, "no figure").left_out()),
    ];
}

/// The light that a wall is drawn in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Lighting {
    /// Daylight from a window, soft and from the left.
    #[default]
    Day,
    /// A lamp in the evening: warm, and with deeper shadows.
    Evening,
}

impl Choosable for Lighting {
    const NAME: &'static str = "Light";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Day, Entry::new("day", 0, "by daylight").about("Daylight from a window.")),
        (Self::Evening, Entry::new("evening", 1, "by a lamp in the evening").about("A lamp in the evening.")),
    ];
}
