//! What stands in front of the wall or is built into it.

use super::limits;
use crate::colour::Colour;
use crate::described::{
    Absent, Choosable, Entry, Form, Item, Member, OneOf, Row, Shape, Thing, Variants, Words, maybe_filled,
};
use crate::geometry::Size;
use crate::length::{Grade, Length};

/// What kind of thing a fixture is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "plain names of things in a room")]
pub enum FixtureKind {
    #[default]
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
    Television,
    Bookcase,
    Desk,
    Stairs,
    Curtain,
    PictureRail,
    Beam,
}

impl Choosable for FixtureKind {
    const NAME: &'static str = "Kind";
    /// Furniture first.
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Sofa, Entry::new("sofa", 0, "sofa")),
        (Self::Sideboard, Entry::new("sideboard", 1, "sideboard")),
        (Self::Bed, Entry::new("bed", 2, "bed")),
        (Self::Table, Entry::new("table", 3, "table")),
        (Self::Lamp, Entry::new("lamp", 4, "lamp")),
        (Self::Plant, Entry::new("plant", 5, "plant")),
        (Self::Mantel, Entry::new("mantel", 6, "mantel")),
        (Self::Radiator, Entry::new("radiator", 7, "radiator")),
        (Self::Door, Entry::new("door", 8, "door")),
        (Self::Window, Entry::new("window", 9, "window")),
        (Self::Switch, Entry::new("light_switch", 10, "light switch")),
        (Self::Socket, Entry::new("socket", 11, "socket")),
        (Self::Thermostat, Entry::new("thermostat", 12, "thermostat")),
        (Self::Television, Entry::new("television", 13, "television")),
        (Self::Bookcase, Entry::new("bookcase", 14, "bookcase")),
        (Self::Desk, Entry::new("desk", 15, "desk")),
        (Self::Stairs, Entry::new("stairs", 16, "flight of stairs")),
        (Self::Curtain, Entry::new("curtain", 17, "curtain")),
        (Self::PictureRail, Entry::new("picture_rail", 18, "picture rail")),
        (Self::Beam, Entry::new("beam", 19, "beam")),
    ];
}

impl FixtureKind {
    /// Whether it stands in front of the wall, and not in it or on it.
    #[must_use]
    pub const fn stands_before_wall(self) -> bool {
        use FixtureKind::{Bed, Bookcase, Desk, Lamp, Plant, Sideboard, Sofa, Stairs, Table, Television};
        matches!(self, Sofa | Sideboard | Bed | Table | Lamp | Plant | Television | Bookcase | Desk | Stairs)
    }

    /// Whether it hangs before the wall or runs along it, and crosses what is there.
    #[must_use]
    pub const fn crosses_others(self) -> bool {
        matches!(self, Self::Curtain | Self::PictureRail | Self::Beam)
    }

    /// Whether it runs across the whole wall.
    #[must_use]
    pub const fn spans_wall(self) -> bool {
        matches!(self, Self::PictureRail | Self::Beam)
    }

    /// Whether pictures can hang above it at all.
    #[must_use]
    pub const fn has_room_above(self) -> bool {
        !self.crosses_others()
    }

    /// The colour of its fabric or wood where nobody has stated another; none where nobody chooses one.
    #[must_use]
    pub const fn usual_colour(self) -> Option<Colour> {
        Some(Colour::hex(match self {
            Self::Sofa => 0x74_84_86,
            Self::Bed => 0xb7_b3_a2,
            Self::Curtain => 0xb4_ab_97,
            Self::Sideboard | Self::Table | Self::Bookcase | Self::Desk => 0x94_73_54,
            _ => return None,
        }))
    }

    /// Whether its depth is worth stating: it is more than a plate on the wall or a leaf in it.
    #[must_use]
    pub const fn has_depth(self) -> bool {
        self.stands_before_wall() || self.crosses_others() || matches!(self, Self::Mantel | Self::Radiator)
    }

    /// Whether it is built into the wall, with a casing round it.
    #[must_use]
    pub const fn has_casing(self) -> bool {
        matches!(self, Self::Door | Self::Window)
    }

    /// Several of them in a sentence.
    #[must_use]
    pub fn names(self) -> String {
        match self {
            Self::Switch => "light switches".into(),
            Self::Stairs => "flights of stairs".into(),
            other => [other.name(), "s"].concat(),
        }
    }

    /// Its name in a sentence.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.entry().words
    }
}

/// The casing of a door or a window: 2 1/4 to 3 1/2 in is usual (common practice, no source).
pub const CASING: Length = Length::inches_ratio(5, 2);

/// A position along the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Across {
    /// In the middle of the wall.
    #[default]
    Middle,
    /// The left edge, from the left corner.
    FromLeft(Length),
    /// The right edge, from the right corner.
    FromRight(Length),
}

static ACROSS: Variants = Variants {
    name: "Across",
    about: "",
    entries: &[
        Entry::new("middle", 0, "in the middle").about("In the middle of the wall."),
        Entry::new("from_left", 1, "from the left corner").about("Its left edge, from the left corner."),
        Entry::new("from_right", 2, "from the right corner").about("Its right edge, from the right corner."),
    ],
};

impl OneOf for Across {
    fn variants(&self) -> &'static Variants {
        &ACROSS
    }

    fn place(&self) -> usize {
        match self {
            Self::Middle => 0,
            Self::FromLeft(_) => 1,
            Self::FromRight(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        let x = match *self {
            Self::Middle => Length::ZERO,
            Self::FromLeft(x) | Self::FromRight(x) => x,
        };
        *self = [Self::Middle, Self::FromLeft(x), Self::FromRight(x)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::Middle => Vec::new(),
            Self::FromLeft(x) | Self::FromRight(x) => vec![Member::of(&FIXTURE_DISTANCE, x)],
        }
    }
}

/// What pictures have to do with a fixture.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Relation {
    /// Pictures may hang above it.
    #[default]
    HangAbove,
    /// Pictures must not cover it.
    KeepClear,
}

impl Choosable for Relation {
    const NAME: &'static str = "Relation";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::HangAbove, Entry::new("above", 0, "pictures may hang above it")),
        (Self::KeepClear, Entry::new("clear", 1, "pictures keep clear of it")),
    ];
}

/// To which side a door opens against the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Swing {
    /// Away from the wall, or nobody has said.
    #[default]
    Clear,
    /// Against the wall to its left.
    Left,
    /// Against the wall to its right.
    Right,
}

impl Choosable for Swing {
    const NAME: &'static str = "Swing";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Clear, Entry::new("clear", 0, "opens away from this wall").left_out()),
        (
            Self::Left,
            Entry::new("left", 1, "opens against the wall on its left")
                .about("Against the wall on its left."),
        ),
        (
            Self::Right,
            Entry::new("right", 2, "opens against the wall on its right")
                .about("Against the wall on its right."),
        ),
    ];
}

/// To which side a flight of stairs rises.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Rise {
    /// Up to the right.
    #[default]
    Right,
    /// Up to the left.
    Left,
}

impl Choosable for Rise {
    const NAME: &'static str = "Rise";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Right, Entry::new("right", 0, "rises to the right").left_out()),
        (Self::Left, Entry::new("left", 1, "rises to the left").about("Up to the left.")),
    ];
}

/// A step is at most so high: 7 3/4 in (International Residential Code R311.7.5, from memory).
const MOST_RISER: Length = Length::inches_ratio(31, 4);

/// Something that stands before the wall or is let into it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
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
    /// How wide the casing of a door or a window is, outside its stated size.
    pub casing: Length,
    /// To which side it rises, for stairs.
    pub rise: Rise,
    /// The colour of its fabric or wood; as usual when `None`.
    pub colour: Option<Colour>,
}

impl Fixture {
    /// How wide the casing round it is: that of a door at both sides and above, of a window all round; nothing for the rest.
    #[must_use]
    pub const fn casing(&self) -> Length {
        if self.kind.has_casing() { self.casing } else { Length::ZERO }
    }

    /// Whether pictures may hang above it.
    #[must_use]
    pub fn is_hung_above(&self) -> bool {
        self.relation == Relation::HangAbove && self.kind.has_room_above()
    }

    /// How many steps stairs have: the fewest of which none is too high.
    #[must_use]
    pub const fn steps(&self) -> i64 {
        steps(self.size.height)
    }
}

/// See [`Fixture::steps`].
#[must_use]
pub(crate) const fn steps(height: Length) -> i64 {
    let (whole, most) = (height.units(), MOST_RISER.units());
    let count = whole / most + (whole % most > 0) as i64;
    if count < 1 { 1 } else { count }
}

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Grade, Length, Row, Shape, Size, Words, limits};

    const SIDE: Form = Form::Length { grade: Grade::Piece, least: Length::from_units(1), most: limits::ROOM, usual: Length::ZERO, frozen: Length::ZERO };
    pub static FIXTURE_KIND: Row = Row::choice("kind", "kind", 1, "kind", "What it is.").needed();
    pub static FIXTURE_NAME: Row = Row::new("name", "name", 2, "name", "Its name; no two fixtures share one. When left out, the name of its kind.", Form::Text { most: limits::NAME, may_be_empty: false });
    pub static FIXTURE_WIDTH: Row = Row::part("width", "width", SIDE).grade(Grade::Room);
    pub static FIXTURE_HEIGHT: Row = Row::part("height", "height", SIDE);
    pub static FIXTURE_SIZE: Row = Row::new("", "size", 3, "size", "Width and height; the usual size of its kind when left out.", Form::Size { most: limits::ROOM, usual: Size::inches(84, 34), sides: Some([&FIXTURE_WIDTH, &FIXTURE_HEIGHT]) });
    pub static FIXTURE_DEPTH: Row = Row::length("depth", "depth", 5, "depth", "From the wall to its front; the usual depth of its kind when left out.", Length::inches(36)).range(Length::ZERO, limits::ROOM);
    pub static FIXTURE_ACROSS: Row = Row::new("across", "across", 6, "where * is along the wall", "Where it is along the wall.", Form::OneOf(Shape::Tagged(None)));
    pub static FIXTURE_DISTANCE: Row = Row::length("distance", "", 7, "distance of * from the corner", "", Length::ZERO).range(Length::from_units(-limits::ROOM.units()), limits::ROOM).grade(Grade::Room);
    pub static FIXTURE_FROM_FLOOR: Row = Row::length("from_floor", "from_floor", 8, "height of * above the floor", "From the floor to its lower edge.", Length::ZERO).range(Length::ZERO, limits::ROOM);
    pub static FIXTURE_RELATION: Row = Row::choice("pictures", "pictures", 9, "whether pictures may hang above *", "Whether pictures hang above it or keep clear of it.");
    pub static FIXTURE_SWING: Row = Row::choice("swing", "swing", 10, "way that * opens", "To which side a door opens against the wall.").absent(Absent::Usual);
    pub static FIXTURE_CASING: Row = Row::length("casing", "casing", 11, "width of the casing of *", "How wide the casing of a door or a window is, outside its size.", super::CASING).range(Length::ZERO, Length::inches(24)).absent(Absent::Usual);
    pub static FIXTURE_RISE: Row = Row::choice("rise", "rises", 12, "which way * rises", "To which side stairs rise.").absent(Absent::Usual);
    pub static FIXTURE_COLOUR: Row = Row::new("colour", "colour", 13, "colour of *", "The colour of its fabric or wood, as #rrggbb; as usual for its kind when left out.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static FIXTURE_COLOUR_ITSELF: Row = Row::colour("", "", 1, "colour of *", "", 0x74_84_86);
}
pub use rows::*;

impl Thing for Fixture {
    fn title(&self) -> (&'static str, &'static str) {
        ("Fixture", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { kind, name, size, depth, across, from_floor, relation, swing, casing, rise, colour } =
            self;
        let usual = kind.usual_colour().unwrap_or_default();
        vec![
            Member::choice(&FIXTURE_KIND, kind),
            Member::of(&FIXTURE_NAME, name),
            Member::of(&FIXTURE_SIZE, size),
            Member::of(&FIXTURE_DEPTH, depth),
            Member::one_of(&FIXTURE_ACROSS, across),
            Member::of(&FIXTURE_FROM_FLOOR, from_floor),
            Member::choice(&FIXTURE_RELATION, relation),
            Member::choice(&FIXTURE_SWING, swing),
            Member::of(&FIXTURE_CASING, casing),
            Member::choice(&FIXTURE_RISE, rise),
            maybe_filled(&FIXTURE_COLOUR, colour, &FIXTURE_COLOUR_ITSELF, usual),
        ]
    }

    /// All else is usual for its kind.
    fn stated(&mut self, row: &'static Row, in_link: bool) {
        if *row == FIXTURE_KIND && in_link {
            self.frozen();
        } else if *row == FIXTURE_KIND {
            *self = Self::starting(self.kind);
        }
    }

    /// The usual sizes of kinds when links of version 1 began; most kinds had none of their own.
    fn frozen(&mut self) {
        let (size, depth, relation) = match self.kind {
            FixtureKind::Sofa => (Size::inches(84, 34), 36, Relation::HangAbove),
            FixtureKind::Sideboard => (Size::inches(60, 32), 18, Relation::HangAbove),
            _ => (Size::inches(36, 48), 1, Relation::KeepClear),
        };
        *self = Self {
            kind: self.kind,
            name: self.kind.name().to_owned(),
            size,
            depth: Length::inches(depth),
            relation,
            casing: CASING,
            ..Self::default()
        };
    }
}

impl Item for Fixture {
    fn next(_before: &[Self]) -> Self {
        Self::starting(FixtureKind::Sofa)
    }
}
