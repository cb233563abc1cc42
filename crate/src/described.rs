//! Descriptions: what a thing consists of, written down once beside its struct; whatever reads, writes, checks or changes
//! it walks over that.
//!
//! A [`Row`] says all there is to know of one member: the field's name, its key in a file, its number in a link, its
//! label, unit, range and usual value. [`Thing::members`] pairs each row with the place of its value; it takes the
//! struct apart by name, so that a member which is forgotten does not compile. What is one of several ([`Choosable`],
//! [`OneOf`]) is a table of entries: key, number and words stand in one place.
//!
//! ```
//! use overmantel::described::{Slot, at, usual};
//! use overmantel::length::Length;
//! use overmantel::plan::{FRAME_FACE, Frame};
//! let mut frame: Frame = usual();
//! assert_eq!(frame.face, Length::inches_ratio(3, 4), "what its row gives it to start with");
//! at(&mut frame, &FRAME_FACE, &mut |slot| {
//!     if let Slot::Length(face) = slot { **face = Length::inches(1) }
//! });
//! assert_eq!(frame.face, Length::inches(1));
//! ```

use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::{Grade, Length};
use std::ops::ControlFlow::{self, Break, Continue};

mod bare;
mod choice;
mod file;
#[cfg(feature = "schema")]
mod left_out;
mod list;
mod maybe;
mod metric;
mod range;
pub(crate) mod read;
#[cfg(feature = "schema")]
pub(crate) mod schema;
mod start;
pub(crate) mod write;

pub(crate) use bare::{are_one_value, bare};
pub use choice::{Choice, Choosable, Entry, OneOf, Variants};
pub use file::{FileError, FileFault, Format};
pub use list::{Item, List};
pub use maybe::{ITSELF, Leaf, Maybe, maybe, maybe_filled};
pub use metric::{Held, lengths, to_metric};
pub use range::{Fault, fault, within};
pub use read::{FormError, FormFault};
pub use start::{freeze, set_frozen, start, usual};

/// All there is to know of a member, but for where its value is.
#[derive(Debug)]
pub struct Row {
    /// The field's name among those of its owner, such as `wall.skirting`; empty where it is no field.
    pub name: &'static str,
    /// Its key in a file. Empty for what stands in the braces of the thing that it is a part of.
    pub key: &'static str,
    /// Its number in a link, for ever.
    pub number: u64,
    /// What it is called. Of a piece or a fixture `*` is "piece 1" and so on; where there is none, "of piece 1" follows.
    pub label: &'static str,
    /// What it means, for the schema; empty where the key says it.
    pub about: &'static str,
    /// Of which kind it is, with its range and what it is when nothing else is said.
    pub form: Form,
    /// What a file does without it.
    pub absent: Absent,
    /// Lengths in inches that it may have to begin with, each with the round one that takes its place in a plan in centimetres. Of
    /// a size both sides.
    pub metric: &'static [(Length, Length)],
}

/// Rows of one name are one field, such as the floater frame of a canvas and of an original.
impl PartialEq for Row {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other) || !self.name.is_empty() && self.name == other.name
    }
}

impl Eq for Row {}

/// What a file does where a member is as usual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Absent {
    /// It has to be there.
    Never,
    /// It is written, and may be left out or null.
    MayBe,
    /// It is written, and may be left out; it may not be null.
    Default,
    /// It is left out, and may be null.
    Usual,
    /// It is left out, and may not be null.
    Silent,
}

/// Of which kind a member is.
#[derive(Clone, Copy, Debug)]
pub enum Form {
    /// A length.
    Length {
        /// How finely it is shown.
        grade: Grade,
        /// From this on.
        least: Length,
        /// Up to this.
        most: Length,
        /// To begin with, and where a file leaves it out.
        usual: Length,
        /// Where a link of version 1 leaves it out.
        frozen: Length,
    },
    /// A width and a height.
    Size {
        /// Up to this, each; they are more than zero.
        most: Length,
        /// To begin with, and where a link of version 1 leaves it out.
        usual: Size,
        /// The fields of width and height by themselves.
        sides: Option<[&'static Row; 2]>,
    },
    /// A colour.
    Colour(Colour),
    /// A whole number.
    Number {
        /// From this on.
        least: i64,
        /// Up to this.
        most: i64,
        /// To begin with, and where it is left out.
        usual: i64,
        /// Its unit, as a sentence says it.
        unit: &'static str,
    },
    /// An amount of money or a percentage: hundredths in a whole number, and text such as `12.50` in a file.
    Amount {
        /// Up to this.
        most: i64,
    },
    /// Two whole numbers.
    Pair {
        /// From this on, each.
        least: i64,
        /// Up to this, each.
        most: i64,
        /// To begin with, and where it is left out.
        usual: [i64; 2],
        /// How they stand in a link.
        packing: Packing,
        /// The fields of each by itself, in hundredths.
        sides: Option<[&'static Row; 2]>,
    },
    /// Yes or no.
    Flag(Words),
    /// Text on one line, of at most so many characters; `may_be_empty` for a file's name.
    Text {
        /// Characters at most.
        most: usize,
        /// Whether it may be empty.
        may_be_empty: bool,
    },
    /// Another thing of the plan, by its place in its list.
    Reference(Referred),
    /// One of several.
    Choice,
    /// One of several, where a file has these keys with yes or no in place of one name.
    Flags(&'static [(&'static str, &'static str, Absent)]),
    /// One of several, each with members of its own.
    OneOf(Shape),
    /// What may be missing.
    Maybe {
        /// Whether it is there to begin with.
        usual: bool,
        /// Whether it is there where a link of version 1 does not say.
        frozen: bool,
        /// With it and without it.
        words: Words,
    },
    /// A thing with members of its own.
    Thing,
    /// Things one after the other.
    List {
        /// How many at least.
        least: usize,
        /// How many at most.
        most: usize,
        /// What they are called.
        what: &'static str,
    },
}

/// How two numbers stand in a link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Packing {
    /// In a map of their own, as 1 and 2.
    Nested,
    /// One after the other, the second by the next number.
    InTurn,
    /// In one number: the first times 2¹⁶ plus the second.
    Together,
}

/// To what a reference leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Referred {
    /// A fixture.
    Fixture,
    /// A picture.
    Picture,
}

/// How what is one of several, each with members of its own, stands in a file and in a link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A name, or a name with its members behind it; `Some` for the one that is left out.
    Tagged(Option<usize>),
    /// By the keys of its members, which stand among those of its owner.
    ByKeys,
    /// As tagged; in a link nothing for the first, otherwise a map of its number as 1 and its members.
    Board,
}

/// Words for yes and no.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Words {
    /// Where it is so.
    pub yes: &'static str,
    /// Where it is not.
    pub no: &'static str,
    /// Which of the two is offered first.
    pub yes_first: bool,
}

impl Words {
    /// Where nobody is asked.
    pub const NONE: Self = Self { yes: "", no: "", yes_first: false };

    /// Yes before no.
    #[must_use]
    pub const fn yes_no(yes: &'static str, no: &'static str) -> Self {
        Self { yes, no, yes_first: true }
    }

    /// No before yes.
    #[must_use]
    pub const fn no_yes(no: &'static str, yes: &'static str) -> Self {
        Self { yes, no, yes_first: false }
    }
}

/// No part of a plan is longer: 10 m.
pub const MOST_LENGTH: Length = Length::mm(10_000);

impl Row {
    /// A member of some kind, which a file writes and may leave out.
    #[must_use]
    pub const fn new(
        name: &'static str,
        key: &'static str,
        number: u64,
        label: &'static str,
        about: &'static str,
        form: Form,
    ) -> Self {
        Self { name, key, number, label, about, form, absent: Absent::MayBe, metric: &[] }
    }

    /// A length of a piece's part: nothing to 10 m.
    #[must_use]
    pub const fn length(
        name: &'static str,
        key: &'static str,
        number: u64,
        label: &'static str,
        about: &'static str,
        usual: Length,
    ) -> Self {
        let form = Form::Length {
            grade: Grade::Piece,
            least: Length::ZERO,
            most: MOST_LENGTH,
            usual,
            frozen: usual,
        };
        Self::new(name, key, number, label, about, form)
    }

    /// A choice from a table.
    #[must_use]
    pub const fn choice(
        name: &'static str,
        key: &'static str,
        number: u64,
        label: &'static str,
        about: &'static str,
    ) -> Self {
        Self::new(name, key, number, label, about, Form::Choice)
    }

    /// A colour, `0xrrggbb` to begin with.
    #[must_use]
    pub const fn colour(
        name: &'static str,
        key: &'static str,
        number: u64,
        label: &'static str,
        about: &'static str,
        usual: u32,
    ) -> Self {
        Self::new(name, key, number, label, about, Form::Colour(Colour::hex(usual)))
    }

    /// A thing with members of its own, which is no field itself.
    #[must_use]
    pub const fn thing(key: &'static str, number: u64, about: &'static str) -> Self {
        Self::new("", key, number, "", about, Form::Thing)
    }

    /// A part of another field that can be asked for by itself: it is in no file and no link of its own.
    #[must_use]
    pub const fn part(name: &'static str, label: &'static str, form: Form) -> Self {
        Self::new(name, "", 0, label, "", form)
    }

    /// It has to be in a file.
    #[must_use]
    pub const fn needed(mut self) -> Self {
        self.absent = Absent::Never;
        self
    }

    /// What a file does without it.
    #[must_use]
    pub const fn absent(mut self, absent: Absent) -> Self {
        self.absent = absent;
        self
    }

    /// Of a length: shown so finely.
    #[must_use]
    pub const fn grade(mut self, shown: Grade) -> Self {
        if let Form::Length { grade, .. } = &mut self.form {
            *grade = shown;
        }
        self
    }

    /// Of a length: from this to that.
    #[must_use]
    pub const fn range(mut self, from: Length, to: Length) -> Self {
        if let Form::Length { least, most, .. } = &mut self.form {
            *least = from;
            *most = to;
        }
        self
    }

    /// Of a length: more than zero.
    #[must_use]
    pub const fn positive(mut self) -> Self {
        if let Form::Length { least, .. } = &mut self.form {
            *least = Length::from_units(1);
        }
        self
    }

    /// Of a length: what a link of version 1 means that leaves it out.
    #[must_use]
    pub const fn frozen(mut self, value: Length) -> Self {
        if let Form::Length { frozen, .. } = &mut self.form {
            *frozen = value;
        }
        self
    }
}

/// Where the value of a member is.
pub enum Slot<'a> {
    /// A length.
    Length(&'a mut Length),
    /// A width and a height.
    Size(&'a mut Size),
    /// A colour.
    Colour(&'a mut Colour),
    /// A whole number.
    Number(&'a mut dyn Whole),
    /// Two whole numbers.
    Pair(&'a mut dyn Whole, &'a mut dyn Whole),
    /// Yes or no.
    Flag(&'a mut bool),
    /// Text.
    Text(&'a mut String),
    /// The place of another thing in its list.
    Reference(&'a mut usize),
    /// One of several.
    Choice(Box<dyn Choice + 'a>),
    /// One of several, each with members of its own.
    OneOf(Box<dyn OneOf + 'a>),
    /// What may be missing.
    Maybe(Box<dyn Maybe + 'a>),
    /// A thing with members of its own.
    Thing(Box<dyn Thing + 'a>),
    /// Things one after the other.
    List(&'a mut dyn List),
}

/// A member: its row, and where its value is.
pub struct Member<'a> {
    /// All else there is to know of it.
    pub row: &'static Row,
    /// Its value.
    pub slot: Slot<'a>,
}

impl<'a> Member<'a> {
    /// A member by its value.
    pub fn of(row: &'static Row, value: &'a mut impl Leaf) -> Self {
        Self { row, slot: value.slot() }
    }

    /// A member that is a thing.
    pub fn thing(row: &'static Row, thing: impl Thing + 'a) -> Self {
        Self { row, slot: Slot::Thing(Box::new(thing)) }
    }

    /// A member that is one of several with members of their own.
    pub fn one_of(row: &'static Row, value: impl OneOf + 'a) -> Self {
        Self { row, slot: Slot::OneOf(Box::new(value)) }
    }

    /// A member that is a list.
    pub fn list(row: &'static Row, list: &'a mut impl List) -> Self {
        Self { row, slot: Slot::List(list) }
    }

    /// A member that is chosen from a table.
    pub fn choice(row: &'static Row, value: impl Choice + 'a) -> Self {
        Self { row, slot: Slot::Choice(Box::new(value)) }
    }
}

/// Something that consists of members.
pub trait Thing {
    /// Its name in a schema, and what it is.
    fn title(&self) -> (&'static str, &'static str);

    /// Its members, in the order of a file.
    fn members(&mut self) -> Vec<Member<'_>>;

    /// A file, or a link, has stated a member; what follows from that and is not stated itself.
    fn stated(&mut self, _row: &'static Row, _in_link: bool) {}

    /// What it is to begin with, as far as rows don't tell.
    fn started(&mut self) {}

    /// What a link of version 1 means where it says nothing, as far as rows don't tell.
    fn frozen(&mut self) {}

    /// Whether a file that leaves it out means this.
    fn is_usual(&self) -> bool {
        false
    }

    /// The names by which its members can be referred to.
    fn names(&self, _of: Referred) -> Vec<String> {
        Vec::new()
    }
}

macro_rules! handed_on {
    ($($holder:ty),*) => {$(
        impl<T: Thing + ?Sized> Thing for $holder {
        fn title(&self) -> (&'static str, &'static str) {
            (**self).title()
        }

        fn members(&mut self) -> Vec<Member<'_>> {
            (**self).members()
        }

        fn stated(&mut self, row: &'static Row, in_link: bool) {
            (**self).stated(row, in_link);
        }

        fn started(&mut self) {
            (**self).started();
        }

        fn frozen(&mut self) {
            (**self).frozen();
        }

        fn is_usual(&self) -> bool {
            (**self).is_usual()
        }

        fn names(&self, of: Referred) -> Vec<String> {
            (**self).names(of)
        }
    }
    )*};
}
handed_on!(&mut T, Box<T>);

/// A whole number of some type.
pub trait Whole {
    /// The number.
    fn get(&self) -> i64;
    /// Another number; one out of the type's range becomes its largest, which every range refuses.
    fn put(&mut self, number: i64);
}

macro_rules! whole {
    ($($type:ty),*) => {$(
        impl Whole for $type {
            fn get(&self) -> i64 {
                i64::from(*self)
            }

            fn put(&mut self, number: i64) {
                *self = Self::try_from(number).unwrap_or(Self::MAX);
            }
        }
    )*};
}
whole!(u16, u32, i64);

/// Visits every member of a thing that it has now, with those of its members, until the visitor has seen enough; lists
/// are one member.
pub fn each(thing: &mut dyn Thing, visit: &mut Visitor<'_>) -> ControlFlow<()> {
    thing.members().into_iter().try_for_each(|member| inner(member, visit))
}

/// What looks at a member, and whether the walk goes on.
pub type Visitor<'a> = dyn FnMut(&'static Row, &mut Slot<'_>) -> ControlFlow<()> + 'a;

fn inner(Member { row, mut slot }: Member<'_>, visit: &mut Visitor<'_>) -> ControlFlow<()> {
    visit(row, &mut slot)?;
    match (slot, row.form) {
        (Slot::Size(size), Form::Size { sides: Some([width, height]), .. }) => {
            visit(width, &mut Slot::Length(&mut size.width))?;
            visit(height, &mut Slot::Length(&mut size.height))
        }
        (Slot::Pair(one, other), Form::Pair { sides: Some([first, second]), .. }) => {
            visit(first, &mut Slot::Number(one))?;
            visit(second, &mut Slot::Number(other))
        }
        (Slot::OneOf(mut one), _) => one.members().into_iter().try_for_each(|member| inner(member, visit)),
        (Slot::Maybe(mut maybe), _) => maybe.inner().map_or(Continue(()), |member| inner(member, visit)),
        (Slot::Thing(mut thing), _) => each(&mut thing, visit),
        _ => Continue(()),
    }
}

/// Visits the member of this row, if the thing has it now; whether it has.
pub fn at(thing: &mut dyn Thing, row: &'static Row, visit: &mut dyn FnMut(&mut Slot<'_>)) -> bool {
    let found = each(thing, &mut |of, slot| {
        if of != row {
            return Continue(());
        }
        visit(slot);
        Break(())
    });
    found.is_break()
}

/// Visits every row that a thing can have, whatever of it is there; lists are one row.
pub fn rows(thing: &mut dyn Thing, visit: &mut dyn FnMut(&'static Row)) {
    for member in thing.members() {
        inner_rows(member, visit);
    }
}

fn inner_rows(Member { row, slot }: Member<'_>, visit: &mut dyn FnMut(&'static Row)) {
    visit(row);
    if let Form::Size { sides: Some(sides), .. } | Form::Pair { sides: Some(sides), .. } = row.form {
        sides.into_iter().for_each(&mut *visit);
    }
    match slot {
        Slot::OneOf(mut one) => {
            for at in 0..one.variants().entries.len() {
                one.turn(at);
                one.members().into_iter().for_each(|member| inner_rows(member, visit));
            }
        }
        Slot::Maybe(mut maybe) => {
            maybe.fill();
            maybe.inner().into_iter().for_each(|member| inner_rows(member, visit));
        }
        Slot::Thing(mut thing) => rows(&mut thing, visit),
        _ => {}
    }
}
