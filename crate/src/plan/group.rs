//! How pieces stand together, where they hang, and by what.

use super::limits;
use crate::described::{
    Absent, Choosable, Entry, Form, Member, OneOf, Referred, Row, Shape, Thing, Variants, Words, maybe_filled,
};
use crate::length::Length;

/// The pieces as one thing on the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
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

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Length, Referred, Row, Shape, Words, limits};

    const MINUS_PIECE: Length = Length::from_units(-limits::PIECE.units());
    const MINUS_ROOM: Length = Length::from_units(-limits::ROOM.units());
    pub static GROUP_ARRANGEMENT: Row = Row::new("group.arrangement", "arrangement", 1, "arrangement of the pieces", "", Form::tagged()).needed();
    pub static GROUP_STEP: Row = Row::length("group.step", "", 2, "rise from one piece to the next", "", Length::inches(6)).range(MINUS_PIECE, limits::PIECE).frozen(Length::ZERO);
    pub static GROUP_GAP: Row = Row::length("group.gap", "gap", 3, "gap between pieces", "From outside to outside.", Length::inches(3)).needed();
    pub static GROUP_ALIGN: Row = Row::choice("group.align", "align", 4, "which edges are in line", "").absent(Absent::Default);
    pub static GROUP_ACROSS: Row = Row::new("group.across", "across", 5, "place of the group along the wall", "", Form::tagged()).needed();
    pub static GROUP_OVER: Row = Row::new("", "", 6, "fixture over which the group hangs", "", Form::Reference(Referred::Fixture));
    pub static GROUP_CENTRE_ACROSS: Row = Row::length("", "", 6, "distance from the left corner to the middle of the group", "", Length::ZERO).range(MINUS_ROOM, limits::ROOM);
    pub static GROUP_UP: Row = Row::new("group.up", "up", 7, "height by which the group hangs", "", Form::tagged()).needed();
    pub static GROUP_CENTRE_UP: Row = Row::length("", "", 8, "height of the group's centre from the floor", "", Length::ZERO).range(MINUS_ROOM, limits::ROOM);
    pub static GROUP_ABOVE: Row = Row::new("", "fixture", 9, "fixture above which the group hangs", "", Form::Reference(Referred::Fixture)).needed();
    pub static GROUP_CLEARANCE: Row = Row::length("group.clearance", "clearance", 8, "clearance below the group", "", Length::inches(8)).range(Length::ZERO, limits::ROOM).frozen(Length::ZERO).needed();

    pub static SHARED_BAR: Row = Row::length("shared.bar", "bar", 1, "board between openings", "Board between one opening and the next.", Length::inches(2)).frozen(Length::ZERO).needed();

    pub static FIXING_KIND: Row = Row::new("fixing.kind", "", 1, "what the pieces hang by", "", Form::tagged());
    pub(super) static FIXING_SIDES_BY: Row = Row::new("", "", 6, "", "", Form::OneOf(Shape::ByKeys));
    pub static FIXING_FROM_SIDES: Row = Row::length("fixing.inset", "inset", 2, "hangers from the sides", "From each side to the rings; where the piece holds them when left out.", Length::inches_ratio(3, 8));
    pub(super) static FIXING_DOWN_BY: Row = Row::new("", "", 7, "", "", Form::OneOf(Shape::ByKeys));
    pub static FIXING_DOWN: Row = Row::length("fixing.down", "down", 3, "hangers from the upper edge", "From the upper edge to the rings; a quarter of the height, a third with a wire, when left out.", Length::inches(5));
    pub static FIXING_SLACK: Row = Row::length("fixing.slack", "slack", 4, "wire longer than the span", "", Length::inches(1)).frozen(Length::ZERO).needed();
    pub(super) static FIXING_TWO_HOOKS: Row = Row::new("", "hooks_apart", 5, "two hooks", "", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub static FIXING_APART: Row = Row::length("fixing.apart", "", 1, "fixing apart", "", Length::inches(6)).frozen(Length::ZERO);
}
pub use rows::*;

impl Thing for Group {
    fn title(&self) -> (&'static str, &'static str) {
        ("Group", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { arrangement, gap, align, across, up } = self;
        vec![
            Member::one_of(&GROUP_ARRANGEMENT, arrangement),
            Member::of(&GROUP_GAP, gap),
            Member::choice(&GROUP_ALIGN, align),
            Member::one_of(&GROUP_ACROSS, across),
            Member::one_of(&GROUP_UP, up),
        ]
    }
}

/// How pieces stand together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Arrangement {
    /// Side by side, from left to right.
    #[default]
    Row,
    /// One below the other, from the top down.
    Column,
    /// Side by side, the centre of each so much higher than the one before (lower, when negative), as on stairs.
    Stepped(Length),
}

static ARRANGEMENTS: Variants = Variants {
    name: "Arrangement",
    about: "",
    entries: &[
        Entry::new("row", 0, "a row"),
        Entry::new("column", 1, "a column"),
        Entry::new("stepped", 2, "steps").about("Each so much higher than the one before."),
    ],
};

impl OneOf for Arrangement {
    fn variants(&self) -> &'static Variants {
        &ARRANGEMENTS
    }

    fn place(&self) -> usize {
        match self {
            Self::Row => 0,
            Self::Column => 1,
            Self::Stepped(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        *self = [Self::Row, Self::Column, Self::Stepped(Length::inches(6))][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::Row | Self::Column => Vec::new(),
            Self::Stepped(rise) => vec![Member::of(&GROUP_STEP, rise)],
        }
    }
}

/// Which edges of unequal pieces lie on one line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// Their middles.
    #[default]
    Centre,
    /// In a row their upper edges, in a column their left edges.
    Start,
    /// In a row their lower edges, in a column their right edges.
    End,
}

impl Choosable for Align {
    const NAME: &'static str = "Align";
    /// The words are those of a row.
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Centre, Entry::new("centre", 0, "their centres")),
        (
            Self::Start,
            Entry::new("start", 1, "their upper edges")
                .about("Upper edges in a row, left edges in a column."),
        ),
        (
            Self::End,
            Entry::new("end", 2, "their lower edges").about("Lower edges in a row, right edges in a column."),
        ),
    ];
}

/// Where the group is along the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum GroupAcross {
    /// Its middle on that of the wall.
    #[default]
    WallMiddle,
    /// Its middle on that of a fixture.
    FixtureMiddle(usize),
    /// Its middle so far from the left corner.
    CentreAt(Length),
}

static GROUP_ACROSS_VARIANTS: Variants = Variants {
    name: "GroupAcross",
    about: "",
    entries: &[
        Entry::new("wall_middle", 0, "in the middle of the wall"),
        Entry::new("fixture_middle", 1, "").about("Over the middle of the fixture of this name."),
        Entry::new("centre_at", 2, "at a distance from the left corner")
            .about("Middle of the group from the left corner."),
    ],
};

impl OneOf for GroupAcross {
    fn variants(&self) -> &'static Variants {
        &GROUP_ACROSS_VARIANTS
    }

    fn place(&self) -> usize {
        match self {
            Self::WallMiddle => 0,
            Self::FixtureMiddle(_) => 1,
            Self::CentreAt(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        *self = [Self::WallMiddle, Self::FixtureMiddle(0), Self::CentreAt(Length::ZERO)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::WallMiddle => Vec::new(),
            Self::FixtureMiddle(fixture) => vec![Member::of(&GROUP_OVER, fixture)],
            Self::CentreAt(x) => vec![Member::of(&GROUP_CENTRE_ACROSS, x)],
        }
    }
}

/// How high the group hangs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum GroupUp {
    /// Its middle at eye level.
    #[default]
    EyeLevel,
    /// Its middle at this height.
    CentreAt(Length),
    /// Its lower edge so far above a fixture.
    Above {
        /// Which of [`Plan::fixtures`](super::Plan::fixtures).
        fixture: usize,
        /// From the top of the fixture to the lower edge of the group.
        clearance: Length,
    },
}

static GROUP_UP_VARIANTS: Variants = Variants {
    name: "GroupUp",
    about: "",
    entries: &[
        Entry::new("eye_level", 0, "centred at eye level"),
        Entry::new("centre_at", 1, "centred at a height").about("Middle of the group from the floor."),
        Entry::new("above", 2, "").about("Lower edge above a fixture."),
    ],
};

impl OneOf for GroupUp {
    fn variants(&self) -> &'static Variants {
        &GROUP_UP_VARIANTS
    }

    fn place(&self) -> usize {
        match self {
            Self::EyeLevel => 0,
            Self::CentreAt(_) => 1,
            Self::Above { .. } => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        let above = Self::Above { fixture: 0, clearance: Length::inches(8) };
        *self = [Self::EyeLevel, Self::CentreAt(Length::ZERO), above][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::EyeLevel => Vec::new(),
            Self::CentreAt(y) => vec![Member::of(&GROUP_CENTRE_UP, y)],
            Self::Above { fixture, clearance } => {
                vec![Member::of(&GROUP_ABOVE, fixture), Member::of(&GROUP_CLEARANCE, clearance)]
            }
        }
    }
}

/// One frame for all pieces, with one mat that has an opening for each. Mat, frame and what goes with them are those of
/// the first piece; in a row or a column.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Shared {
    /// Board between one opening and the next, both measured at the art.
    pub bar: Length,
}

impl Thing for Shared {
    fn title(&self) -> (&'static str, &'static str) {
        ("Shared", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { bar } = self;
        vec![Member::of(&SHARED_BAR, bar)]
    }
}

/// What a piece hangs by, the same for every piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fixing {
    /// What is on its back.
    pub hanger: Hanger,
    /// From each side of the outside to the middle of the ring.
    pub from_sides: HangerPlace,
    /// From the upper edge of the outside to the rings.
    pub down: HangerPlace,
}

/// What is on the back of a piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hanger {
    /// Two rings on two hooks, no wire.
    #[default]
    Rings,
    /// A wire over one hook, or over two.
    Wire {
        /// By how much the wire is longer than the straight line between the rings.
        slack: Length,
        /// Distance between two hooks; `None` for a single one.
        hooks_apart: Option<Length>,
    },
}

impl Hanger {
    /// A wire over one hook or over two, as it is to begin with.
    #[must_use]
    pub const fn wire(hooks_apart: Option<Length>) -> Self {
        Self::Wire { slack: Length::inches(1), hooks_apart }
    }

    /// How far apart two hooks under a wire are; `None` without a wire over two hooks.
    #[must_use]
    pub const fn hooks_apart(&self) -> Option<Length> {
        match self {
            Self::Wire { hooks_apart, .. } => *hooks_apart,
            Self::Rings => None,
        }
    }
}

impl Thing for Fixing {
    fn title(&self) -> (&'static str, &'static str) {
        ("", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::one_of(&FIXING_KIND, self)]
    }

    /// Version 1 knew no usual place.
    fn frozen(&mut self) {
        for (place, row) in self.places_mut().into_iter().zip([&FIXING_FROM_SIDES, &FIXING_DOWN]) {
            if let Form::Length { frozen, .. } = row.form {
                *place = HangerPlace::At(frozen);
            }
        }
    }
}

impl Fixing {
    /// Where the hangers are, from the sides and from the upper edge.
    pub const fn places_mut(&mut self) -> [&mut HangerPlace; 2] {
        [&mut self.from_sides, &mut self.down]
    }

    /// The same with the hangers where each piece holds them.
    #[must_use]
    pub fn at_usual_places(self) -> Self {
        Self { hanger: self.hanger, ..Self::default() }
    }
}

/// Where the rings are, from the sides or from the upper edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HangerPlace {
    /// Where the piece holds them; see [`crate::hang::hanger_places`].
    #[default]
    Usual,
    /// So far, measured on the outside.
    At(Length),
}

impl HangerPlace {
    /// The distance, with that of the usual place.
    #[must_use]
    pub fn or(self, usual: Length) -> Length {
        match self {
            Self::Usual => usual,
            Self::At(length) => length,
        }
    }
}

/// A place of the rings with its row.
struct HangerPlaceOf<'a> {
    place: &'a mut HangerPlace,
    row: &'static Row,
}

/// The key of rings at their usual place.
pub const USUAL_PLACE: &str = "usual";

static SIDES_BY: Variants =
    Variants { name: "", about: "", entries: &[Entry::new("", 0, ""), Entry::new("inset", 1, "")] };
static DOWN_BY: Variants =
    Variants { name: "", about: "", entries: &[Entry::new("", 0, ""), Entry::new("down", 1, "")] };

impl OneOf for HangerPlaceOf<'_> {
    fn variants(&self) -> &'static Variants {
        if *self.row == FIXING_DOWN { &DOWN_BY } else { &SIDES_BY }
    }

    fn place(&self) -> usize {
        usize::from(*self.place != HangerPlace::Usual)
    }

    fn turn(&mut self, place: usize) {
        *self.place = [HangerPlace::Usual, HangerPlace::At(self.place.or(Length::ZERO))][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self.place {
            HangerPlace::Usual => Vec::new(),
            HangerPlace::At(length) => vec![Member::of(self.row, length)],
        }
    }
}

static FIXINGS: Variants = Variants {
    name: "Fixing",
    about: "",
    entries: &[
        Entry::new("rings", 0, "two rings").about("Two rings on two hooks."),
        Entry::new("wire", 1, "a wire").about("A wire over one hook, or over two."),
    ],
};

impl OneOf for Fixing {
    fn variants(&self) -> &'static Variants {
        &FIXINGS
    }

    fn place(&self) -> usize {
        match self.hanger {
            Hanger::Rings => 0,
            Hanger::Wire { .. } => 1,
        }
    }

    fn turn(&mut self, place: usize) {
        self.hanger = [Hanger::Rings, Hanger::wire(None)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { hanger, from_sides, down } = self;
        let mut members = vec![
            Member::one_of(&FIXING_SIDES_BY, HangerPlaceOf { place: from_sides, row: &FIXING_FROM_SIDES }),
            Member::one_of(&FIXING_DOWN_BY, HangerPlaceOf { place: down, row: &FIXING_DOWN }),
        ];
        if let Hanger::Wire { slack, hooks_apart } = hanger {
            members.push(Member::of(&FIXING_SLACK, slack));
            let apart = Length::inches(6);
            members.push(maybe_filled(&FIXING_TWO_HOOKS, hooks_apart, &FIXING_APART, apart));
        }
        members
    }
}
