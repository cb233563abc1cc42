//! Fields: what of a plan a person can read and change, by identity; and changes as data.
//!
//! A [`Field`] is a row of the plan's description and whose it is: the plan's, all pieces', one piece's. What is not stated but can be
//! asked for all the same (the group's width, how many pieces there are) has a row here. At the boundary a field is a name such
//! as `wall.width` or `piece.0.frame.face`; within, it is a value that the compiler knows.
//!
//! ```
//! use overmantel::field::Field;
//! use overmantel::plan::FRAME_FACE;
//! let field = Field::piece(&FRAME_FACE, 0);
//! assert_eq!(field.to_string(), "piece.0.frame.face");
//! assert_eq!(Field::named("piece.0.frame.face"), Some(field));
//! assert_eq!(field.label(), "width of the frame's face of piece 1");
//! ```

use crate::colour::Colour;
use crate::described::{Choosable, Form, OneOf, Row, Words, rows};
use crate::geometry::Size;
use crate::length::{Grade, Length};
use crate::plan::{Fixture, FixtureKind, Focus, Picture, Piece, Plan, called, limits};
use crate::words::in_units;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::LazyLock;

/// A field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Field {
    /// What it is.
    pub row: &'static Row,
    /// Whose it is.
    pub of: Whose,
}

/// Whose a field is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whose {
    /// The plan's.
    Plan,
    /// Every piece's: what the first has is read, all are changed.
    Pieces,
    /// One piece's.
    Piece(usize),
    /// A fixture's.
    Fixture(usize),
    /// A picture's.
    Picture(usize),
}

/// A length that follows from the plan.
const fn follows(grade: Grade) -> Form {
    let most = limits::ROOM;
    Form::Length {
        grade,
        least: Length::from_units(-most.units()),
        most,
        usual: Length::ZERO,
        frozen: Length::ZERO,
    }
}

const OFFER: Form = Form::Text { most: limits::NAME, may_be_empty: true };

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod follow {
    use super::{Form, Grade, OFFER, Row, Words, follows};

    pub static GROUP_LEFT: Row = Row::part("group.left", "distance from the left corner to the group", follows(Grade::Room));
    pub static GROUP_RIGHT: Row = Row::part("group.right", "distance from the group to the right corner", follows(Grade::Room));
    pub static GROUP_MIDDLE: Row = Row::part("group.middle", "distance from the left corner to the middle of the group", follows(Grade::Room));
    pub static GROUP_CENTRE: Row = Row::part("group.centre", "height of the group's centre above the floor", follows(Grade::Piece));
    pub static GROUP_BOTTOM: Row = Row::part("group.bottom", "height of the group's bottom edge above the floor", follows(Grade::Piece));
    pub static GROUP_WIDTH: Row = Row::part("group.width", "width of the group", follows(Grade::Room));
    pub static OUTSIDE_WIDTH: Row = Row::part("outside_width", "outside width", follows(Grade::Piece));
    pub static OUTSIDE_HEIGHT: Row = Row::part("outside_height", "outside height", follows(Grade::Piece));
    pub static FIXTURES_ADD: Row = Row::part("fixtures.add", "add something to the wall", Form::Choice);
    pub static PIECES_COUNT: Row = Row::part("pieces.count", "number of pieces", Form::Choice);
    pub static PIECES_SHARE: Row = Row::part("pieces.share", "what each piece shows", Form::Flag(Words::no_yes("a picture of its own", "a part of one picture")));
    pub static PIECES_SHOWN: Row = Row::part("pieces.shown", "how many pictures", Form::Choice);
    pub static GROUP_PLACE: Row = Row::part("group.place", "where they hang", Form::Choice);
    pub static FRAME_LOOK: Row = Row::part("look.frame", "frame", Form::Choice);
    pub static MAT_LOOK: Row = Row::part("look.mat", "mat", Form::Choice);
    pub static FLOATER_LOOK: Row = Row::part("look.floater", "floater frame", Form::Choice);
    pub static FRAME_PROFILE: Row = Row::part("frame.profile", "moulding of the frame", Form::Choice);
    pub static FLOATER_PROFILE: Row = Row::part("floater.profile", "moulding of the floater frame", Form::Choice);
    pub static OFFER_SPACE: Row = Row::part("offer.space", "largest image that fits the space", OFFER);
    pub static OFFER_START: Row = Row::part("offer.start", "plan to start from", OFFER);
    pub static OFFER_IN_HAND: Row = Row::part("offer.in_hand", "print for the frame you already have", OFFER);
    pub static OFFER_FIT: Row = Row::part("offer.fit", "size on offer", OFFER);

    pub(super) static OF_PLAN: [&Row; 13] = [&GROUP_LEFT, &GROUP_RIGHT, &GROUP_MIDDLE, &GROUP_CENTRE, &GROUP_BOTTOM, &GROUP_WIDTH, &FIXTURES_ADD, &PIECES_COUNT, &PIECES_SHARE, &PIECES_SHOWN, &GROUP_PLACE, &OFFER_SPACE, &OFFER_START];
    pub(super) static OF_PIECES: [&Row; 9] = [&OUTSIDE_WIDTH, &OUTSIDE_HEIGHT, &FRAME_PROFILE, &FLOATER_PROFILE, &FRAME_LOOK, &MAT_LOOK, &FLOATER_LOOK, &OFFER_IN_HAND, &OFFER_FIT];
}
pub use follow::*;

/// Every row that is a field, by the kind of its owner and its name.
static NAMED: LazyLock<[BTreeMap<&'static str, &'static Row>; 4]> = LazyLock::new(|| {
    let listed = |thing: &mut dyn crate::described::Thing, more: &[&'static Row]| {
        let mut named = BTreeMap::new();
        let mut add = |row: &'static Row| {
            if !row.name.is_empty() {
                named.entry(row.name).or_insert(row);
            }
        };
        rows(thing, &mut add);
        more.iter().for_each(|row| add(row));
        named
    };
    [
        listed(&mut Plan::starting(), &OF_PLAN),
        listed(&mut Piece::starting(), &OF_PIECES),
        listed(&mut Fixture::starting(FixtureKind::Sofa), &[]),
        listed(&mut Picture::default(), &[]),
    ]
});

impl Field {
    /// Every field that a plan can have, of the first piece, fixture and picture where it is one's.
    pub fn all() -> impl Iterator<Item = Self> {
        let owners = [Whose::Plan, Whose::Piece(0), Whose::Fixture(0), Whose::Picture(0)];
        owners
            .into_iter()
            .zip(NAMED.iter())
            .flat_map(|(of, named)| named.values().map(move |row| Self { row, of }))
    }

    /// A field of every piece.
    #[must_use]
    pub const fn pieces(row: &'static Row) -> Self {
        Self { row, of: Whose::Pieces }
    }

    /// A field of one piece.
    #[must_use]
    pub const fn piece(row: &'static Row, piece: usize) -> Self {
        Self { row, of: Whose::Piece(piece) }
    }

    /// A field of one piece, or of all.
    #[must_use]
    pub fn chosen(row: &'static Row, piece: Option<usize>) -> Self {
        Self { row, of: piece.map_or(Whose::Pieces, Whose::Piece) }
    }

    /// A field of a fixture.
    #[must_use]
    pub const fn fixture(row: &'static Row, fixture: usize) -> Self {
        Self { row, of: Whose::Fixture(fixture) }
    }

    /// A field of a picture.
    #[must_use]
    pub const fn picture(row: &'static Row, picture: usize) -> Self {
        Self { row, of: Whose::Picture(picture) }
    }

    /// The field of a name, as [`fmt::Display`] writes it; none where there is no such field in any plan.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let [of_plan, of_piece, of_fixture, of_picture] = &*NAMED;
        if let Some(row) = of_plan.get(name) {
            return Some(Self { row, of: Whose::Plan });
        }
        // Offers of a piece have its number behind them.
        if let Some((offer @ ("offer.in_hand" | "offer.fit"), which)) = name.rsplit_once('.') {
            return Some(Self { row: of_piece.get(offer)?, of: piece(which)? });
        }
        let (kind, rest) = name.split_once('.')?;
        let (which, name) = rest.split_once('.')?;
        let (named, of) = match kind {
            "piece" => (of_piece, piece(which)?),
            "fixture" => (of_fixture, Whose::Fixture(which.parse().ok()?)),
            "picture" => (of_picture, Whose::Picture(which.parse().ok()?)),
            _ => return None,
        };
        Some(Self { row: named.get(name)?, of })
    }

    /// What it is, in words: in a mistake, in a list of differences, and for whoever has the page read aloud.
    #[must_use]
    pub fn label(&self) -> String {
        called(self.row.label, &self.whose())
    }

    /// Whose it is, in words; nothing where it is the plan's.
    #[must_use]
    pub fn whose(&self) -> String {
        let number = |kind: &str, index: usize| [kind, " ", &(index + 1).to_string()].concat();
        match self.of {
            Whose::Plan => String::new(),
            Whose::Pieces => String::from("each piece"),
            Whose::Piece(piece) => number("piece", piece),
            Whose::Fixture(fixture) => number("fixture", fixture),
            Whose::Picture(picture) => number("picture", picture),
        }
    }

    /// The same in a plan: with the names of its fixtures and pictures, in the words of its units.
    #[must_use]
    pub fn label_in(&self, plan: &Plan) -> String {
        let name = match self.of {
            Whose::Fixture(fixture) => {
                plan.fixtures.get(fixture).map(|fixture| ["the ", &fixture.name].concat())
            }
            Whose::Picture(picture) => {
                plan.pictures.get(picture).map(|picture| ["“", &picture.name, "”"].concat())
            }
            _ => None,
        };
        match name {
            Some(name) => called(&in_units(self.row.label, plan.units.first), &name),
            None => in_units(&self.label(), plan.units.first).into_owned(),
        }
    }

    /// Whether it is stated in a plan itself, and does not follow from it.
    #[must_use]
    pub fn is_stated(&self) -> bool {
        !OF_PLAN.contains(&self.row) && !OF_PIECES.contains(&self.row)
    }

    /// The pieces that it is of.
    #[must_use]
    pub fn pieces_of(&self, plan: &Plan) -> Vec<usize> {
        match self.of {
            Whose::Pieces => (0..plan.pieces.len()).collect(),
            Whose::Piece(piece) if piece < plan.pieces.len() => vec![piece],
            _ => Vec::new(),
        }
    }
}

fn piece(which: &str) -> Option<Whose> {
    match which {
        "all" => Some(Whose::Pieces),
        number => number.parse().ok().map(Whose::Piece),
    }
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = self.row.name;
        let which = match self.of {
            Whose::Pieces => String::from("all"),
            Whose::Piece(index) | Whose::Fixture(index) | Whose::Picture(index) => index.to_string(),
            Whose::Plan => return f.write_str(name),
        };
        match self.of {
            Whose::Fixture(_) => write!(f, "fixture.{which}.{name}"),
            Whose::Picture(_) => write!(f, "picture.{which}.{name}"),
            _ if name.starts_with("offer.") => write!(f, "{name}.{which}"),
            _ => write!(f, "piece.{which}.{name}"),
        }
    }
}

impl From<&'static Row> for Field {
    fn from(row: &'static Row) -> Self {
        Self { row, of: Whose::Plan }
    }
}

/// What a field is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum To {
    /// A length.
    Length(Length),
    /// A width and a height.
    Size(Size),
    /// A whole number.
    Number(u32),
    /// Parts at the top and bottom.
    Ratio(u16, u16),
    /// A share of a picture's side, in thousandths.
    Permille(u16),
    /// A colour.
    Colour(Colour),
    /// The option with this key.
    Option(String),
    /// Plain text.
    Text(String),
}

impl To {
    /// A value from a table.
    #[must_use]
    pub fn choice(value: impl Choosable) -> Self {
        Self::Option(value.entry().key.to_owned())
    }

    /// What is one of several, whatever its members are.
    #[must_use]
    pub fn one_of(value: &impl OneOf) -> Self {
        Self::Option(value.variants().entries[value.place()].key.to_owned())
    }

    /// With a part, or without it; so, or not so.
    #[must_use]
    pub fn yes(is_so: bool) -> Self {
        Self::Option(String::from(if is_so { "yes" } else { "no" }))
    }

    /// What is kept of a picture.
    #[must_use]
    pub fn focus(focus: Focus) -> Self {
        Self::Option(focus_key(focus))
    }

    /// An option by its key.
    #[must_use]
    pub fn key(key: &str) -> Self {
        Self::Option(key.to_owned())
    }
}

/// The key of hanging above a fixture.
#[must_use]
pub fn above(fixture: usize) -> String {
    ["above ", &fixture.to_string()].concat()
}

/// The key of hanging over the middle of a fixture.
#[must_use]
pub fn over_middle(fixture: usize) -> String {
    ["fixture_middle ", &fixture.to_string()].concat()
}

/// A point of a picture as a key.
pub(crate) fn focus_key(focus: Focus) -> String {
    [&focus.x_permille.to_string(), ",", &focus.y_permille.to_string()].concat()
}

/// As a field takes it: lengths exactly, options by their keys.
impl fmt::Display for To {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use crate::length::print::exact;
        match self {
            Self::Length(length) => f.write_str(&exact(*length)),
            Self::Size(size) => write!(f, "{} x {}", exact(size.width), exact(size.height)),
            Self::Number(number) => number.fmt(f),
            Self::Ratio(head, foot) => write!(f, "{foot} : {head}"),
            Self::Permille(permille) if permille % 10 == 0 => write!(f, "{} %", permille / 10),
            Self::Permille(permille) => write!(f, "{}.{} %", permille / 10, permille % 10),
            Self::Colour(colour) => colour.fmt(f),
            Self::Option(text) | Self::Text(text) => f.write_str(text),
        }
    }
}

/// A change: a field, and what it is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// What is changed.
    pub field: Field,
    /// Into what.
    pub to: To,
}

impl Edit {
    /// A field is given a value.
    #[must_use]
    pub fn new(field: impl Into<Field>, to: To) -> Self {
        Self { field: field.into(), to }
    }

    /// A field is given a length.
    #[must_use]
    pub fn length(field: impl Into<Field>, length: Length) -> Self {
        Self::new(field, To::Length(length))
    }
}
