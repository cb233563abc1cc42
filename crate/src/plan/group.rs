//! How pieces stand together, and where they hang.

use super::limits;
use crate::described::{Absent, Choosable, Entry, Form, Member, OneOf, Referred, Row, Thing, Variants};
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
    use super::{Absent, Form, Length, Referred, Row, limits};

    const MINUS_PIECE: Length = Length::from_units(-limits::PIECE.units());
    const MINUS_ROOM: Length = Length::from_units(-limits::ROOM.units());
    pub static GROUP_ARRANGEMENT: Row = Row::new("group.arrangement", "arrangement", 1, "arrangement of the pieces", "", Form::tagged()).needed();
    pub static GROUP_STEP: Row = Row::length("group.step", "", 2, "rise from one piece to the next", "", Length::inches(6)).range(MINUS_PIECE, limits::PIECE).frozen(Length::ZERO).metric(&[(Length::inches(6), Length::mm(150))]);
    pub static GROUP_GAP: Row = Row::length("group.gap", "gap", 3, "gap between pieces", "From the outside of one to the outside of the next.", Length::inches(3)).needed().metric(&[(Length::inches(3), Length::mm(80))]);
    pub static GROUP_ALIGN: Row = Row::choice("group.align", "align", 4, "which edges are in line", "").absent(Absent::Default);
    pub static GROUP_ACROSS: Row = Row::new("group.across", "across", 5, "where the group hangs along the wall", "", Form::tagged()).needed();
    pub static GROUP_OVER: Row = Row::new("", "", 6, "fixture over which the group hangs", "", Form::Reference(Referred::Fixture));
    pub static GROUP_CENTRE_ACROSS: Row = Row::length("", "", 6, "distance from the left corner to the middle of the group", "", Length::ZERO).range(MINUS_ROOM, limits::ROOM);
    pub static GROUP_UP: Row = Row::new("group.up", "up", 7, "how high the group hangs", "", Form::tagged()).needed();
    pub static GROUP_CENTRE_UP: Row = Row::length("", "", 8, "height of the group's centre from the floor", "", Length::ZERO).range(MINUS_ROOM, limits::ROOM);
    pub static GROUP_ABOVE: Row = Row::new("", "fixture", 9, "fixture above which the group hangs", "", Form::Reference(Referred::Fixture)).needed();
    pub static GROUP_CLEARANCE: Row = Row::length("group.clearance", "clearance", 8, "clearance below the group", "", Length::inches(8)).range(Length::ZERO, limits::ROOM).frozen(Length::ZERO).needed().metric(&[(Length::inches(8), Length::mm(200))]);

    pub static SHARED_BAR: Row = Row::length("shared.bar", "bar", 1, "width of the board between openings", "Board between one opening and the next.", Length::inches(2)).frozen(Length::ZERO).needed().metric(&[(Length::inches(2), Length::mm(50))]);
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
    /// The first, and to its right the others, one below the other.
    StackRight,
    /// The first, and to its left the others, one below the other.
    StackLeft,
}

impl Arrangement {
    /// Whether the others are stacked beside the first.
    #[must_use]
    pub const fn is_mixed(self) -> bool {
        matches!(self, Self::StackRight | Self::StackLeft)
    }
}

static ARRANGEMENTS: Variants = Variants {
    name: "Arrangement",
    about: "",
    entries: &[
        Entry::new("row", 0, "a row"),
        Entry::new("column", 1, "a column"),
        Entry::new("stepped", 2, "steps").about("Each is this much higher than the one before."),
        Entry::new("stack_right", 3, "a group, the others stacked to the right of the first")
            .about("The first, and to its right the others, one below the other."),
        Entry::new("stack_left", 4, "a group, the others stacked to the left of the first")
            .about("The same with the others to its left."),
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
            Self::StackRight => 3,
            Self::StackLeft => 4,
        }
    }

    fn turn(&mut self, place: usize) {
        let steps = Self::Stepped(Length::inches(6));
        *self = [Self::Row, Self::Column, steps, Self::StackRight, Self::StackLeft][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::Row | Self::Column | Self::StackRight | Self::StackLeft => Vec::new(),
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
    /// Beside one, the upper edge of a stack and its lower edge with those of the one, where its pieces then are no closer than the gap;
    /// elsewhere their middles.
    Both,
}

impl Choosable for Align {
    const NAME: &'static str = "Align";
    /// The words are those of a row.
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Centre, Entry::new("centre", 0, "their centres")),
        (
            Self::Start,
            Entry::new("start", 1, "their top edges").about("Top edges in a row, left edges in a column."),
        ),
        (
            Self::End,
            Entry::new("end", 2, "their bottom edges")
                .about("Bottom edges in a row, right edges in a column."),
        ),
        (
            Self::Both,
            Entry::new("both", 3, "their outer edges").about(
                "Upper and lower edges, where the others are stacked beside the first; elsewhere centres.",
            ),
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
        Entry::new("above", 2, "").about("Bottom edge of the group above a fixture."),
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
    /// Board between one opening and the next, both measured at the picture.
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
