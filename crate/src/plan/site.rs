//! The site: what the place and the way there are like, as far as it bears on what is wise.

use super::limits;
use crate::described::{
    Absent, Choosable, Entry, Form, Member, OneOf, Row, Shape, Thing, Variants, Words, maybe_filled,
};
use crate::geometry::Size;
use crate::length::Length;

/// The place where the pieces hang, and the way there. A plan that says nothing of it means a home of which nothing is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Site {
    /// Of what the wall is built.
    pub built: Built,
    /// Whether it is a public corridor, on which people pass close by.
    pub is_public_way: bool,
    /// Whether there may be earthquakes.
    pub has_earthquakes: bool,
    /// Whether the sun falls on the wall.
    pub has_sun: bool,
    /// Whether a window is opposite, to be mirrored in glazing.
    pub has_window_opposite: bool,
    /// Height of the cornice, from the ceiling down; zero for none.
    pub cornice: Length,
    /// What each fixing is rated for in pounds, if that is known: one of [`RATINGS`].
    pub rated_pounds: Option<u16>,
    /// Where the pieces are signed.
    pub signature: Signature,
    /// Width and height of what they have to pass, in the order of [`WAYS`].
    pub ways: [Option<Size>; 3],
}

/// What something on the way measures before it is measured: a door of 30 × 80 in (from memory).
const PASSAGE: Size = Size::inches(30, 80);

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Length, PASSAGE, Row, Shape, Words, limits};

    const SIZE: Form = Form::size(PASSAGE, limits::ROOM);
    pub static SITE_WALL: Row = Row::choice("site.wall", "wall", 1, "what the wall is built of", "What the wall is built of.").absent(Absent::Usual);
    pub static SITE_WAY: Row = Row::new("site.way", "public_way", 2, "home or public corridor", "The wall is in a public corridor, where people pass close by.", Form::Flag(Words::no_yes("in a home", "in a public corridor"))).absent(Absent::Silent);
    pub static SITE_GROUND: Row = Row::new("site.ground", "earthquakes", 3, "risk of earthquakes", "The place is in an earthquake area.", Form::Flag(Words::no_yes("with no earthquakes to plan for", "in an earthquake area"))).absent(Absent::Silent);
    pub static SITE_SUN: Row = Row::new("site.sun", "direct_sun", 4, "sun on the wall", "The sun shines on the wall.", Form::Flag(Words::no_yes("out of the sun", "in direct sun"))).absent(Absent::Silent);
    pub static SITE_OPPOSITE: Row = Row::new("site.opposite", "window_opposite", 5, "window opposite", "There is a window opposite.", Form::Flag(Words::no_yes("no window opposite", "a window opposite"))).absent(Absent::Silent);
    pub static SITE_CORNICE: Row = Row::length("site.cornice", "cornice", 6, "height of the cornice", "Height of the cornice, from the ceiling down.", Length::ZERO).range(Length::ZERO, limits::ROOM).absent(Absent::Usual);
    pub static SITE_RATED: Row = Row::new("site.rated", "rated_pounds", 7, "whether the rating of the fixings is known", "What each fixing is rated for: 10, 20, 30, 50, 75 or 100 lb.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static SITE_RATED_POUNDS: Row = Row::new("", "", 1, "rating of each fixing", "", Form::Number { least: 10, most: 100, usual: 0, unit: " lb" });
    pub static SITE_SIGNATURE: Row = Row::new("site.signature", "signature", 8, "where the pieces are signed", "Where the pieces are signed.", Form::OneOf(Shape::Tagged(Some(0)))).absent(Absent::Usual);
    pub static SITE_SIGNATURE_BY: Row = Row::length("site.signature.by", "", 9, "space for the signature", "", Length::inches_ratio(1, 2)).frozen(Length::ZERO).metric(&[(Length::inches_ratio(1, 2), Length::mm(12))]);
    pub static SITE_DOOR: Row = Row::new("site.door", "door", 10, "whether there is a narrow door on the way", "Width and height of the narrowest door on the way.", Form::maybe(Words::no_yes("no narrow door", "a door of"))).absent(Absent::Usual);
    pub static SITE_DOOR_SIZE: Row = Row::new("site.door.size", "", 1, "size of the narrowest door on the way", "", SIZE).metric(&[(Length::inches(30), Length::mm(800)), (Length::inches(80), Length::mm(2000))]);
    pub static SITE_STAIRS: Row = Row::new("site.stairs", "stairs", 11, "whether there are narrow stairs on the way", "Width and height of the narrowest turn of the stairs.", Form::maybe(Words::no_yes("no narrow stairs", "stairs with a turn of"))).absent(Absent::Usual);
    pub static SITE_STAIRS_SIZE: Row = Row::new("site.stairs.size", "", 1, "size of the narrowest turn of the stairs", "", SIZE).metric(&[(Length::inches(30), Length::mm(800)), (Length::inches(80), Length::mm(2000))]);
    pub static SITE_CAR: Row = Row::new("site.car", "car", 12, "whether it goes in a car", "Width and height of the opening of the car.", Form::maybe(Words::no_yes("no car", "a car with an opening of"))).absent(Absent::Usual);
    pub static SITE_CAR_SIZE: Row = Row::new("site.car.size", "", 1, "size of the car's opening", "", SIZE).metric(&[(Length::inches(30), Length::mm(800)), (Length::inches(80), Length::mm(2000))]);
}
pub use rows::*;

impl Thing for Site {
    fn title(&self) -> (&'static str, &'static str) {
        ("Site", "The place where the pieces hang, and the way there; what is left out is not known.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self {
            built,
            is_public_way,
            has_earthquakes,
            has_sun,
            has_window_opposite,
            cornice,
            rated_pounds,
            signature,
            ways: [door, stairs, car],
        } = self;
        vec![
            Member::choice(&SITE_WALL, built),
            Member::of(&SITE_WAY, is_public_way),
            Member::of(&SITE_GROUND, has_earthquakes),
            Member::of(&SITE_SUN, has_sun),
            Member::of(&SITE_OPPOSITE, has_window_opposite),
            Member::of(&SITE_CORNICE, cornice),
            maybe_filled(&SITE_RATED, rated_pounds, &SITE_RATED_POUNDS, 0),
            Member::one_of(&SITE_SIGNATURE, signature),
            maybe_filled(&SITE_DOOR, door, &SITE_DOOR_SIZE, PASSAGE),
            maybe_filled(&SITE_STAIRS, stairs, &SITE_STAIRS_SIZE, PASSAGE),
            maybe_filled(&SITE_CAR, car, &SITE_CAR_SIZE, PASSAGE),
        ]
    }
}

/// Of what a wall is built.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Built {
    /// Nobody has said.
    #[default]
    Unstated,
    /// Plasterboard, away from its studs.
    Plasterboard,
    /// The studs of a framed wall, or boards.
    Timber,
    /// Brick, stone or concrete.
    Masonry,
}

impl Choosable for Built {
    const NAME: &'static str = "Built";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Unstated, Entry::new("unstated", 0, "of a construction not known yet").left_out()),
        (Self::Plasterboard, Entry::new("plasterboard", 1, "of plasterboard").about("Away from its studs.")),
        (Self::Timber, Entry::new("timber", 2, "of studs or boards").about("Studs or boards.")),
        (Self::Masonry, Entry::new("masonry", 3, "of masonry").about("Brick, stone or concrete.")),
    ];
}

/// Where a piece is signed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Signature {
    /// Nowhere.
    #[default]
    None,
    /// On the white paper below the image, taking so much of it.
    Below(Length),
    /// In the picture, so far from the edge of what is printed.
    Within(Length),
}

static SIGNATURES: Variants = Variants {
    name: "Signature",
    about: "",
    entries: &[
        Entry::new("none", 0, "not signed").left_out(),
        Entry::new("below", 1, "signed below the image, in a space of")
            .about("On the white paper below the image, in this height."),
        Entry::new("within", 2, "signed in the picture, at a distance from its edge of")
            .about("In the picture, this far from the edge of what is printed."),
    ],
};

impl OneOf for Signature {
    fn variants(&self) -> &'static Variants {
        &SIGNATURES
    }

    fn place(&self) -> usize {
        match self {
            Self::None => 0,
            Self::Below(_) => 1,
            Self::Within(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        let by = match *self {
            Self::None => Length::inches_ratio(1, 2),
            Self::Below(by) | Self::Within(by) => by,
        };
        *self = [Self::None, Self::Below(by), Self::Within(by)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::None => Vec::new(),
            Self::Below(by) | Self::Within(by) => vec![Member::of(&SITE_SIGNATURE_BY, by)],
        }
    }
}

/// What picture hooks are sold for, in pounds (common practice, no source).
pub const RATINGS: [u16; 6] = [10, 20, 30, 50, 75, 100];

/// What pieces may have to pass.
pub const WAYS: [&str; 3] = ["door", "turn of the stairs", "car"];
