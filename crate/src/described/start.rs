//! What a thing is to begin with, and what a link of version 1 means where it says nothing: both by its rows.
//!
//! Choices begin with the default of their type.

use super::{Form, Member, Packing, Row, Shape, Slot, Thing, Words};
use crate::geometry::Size;
use crate::length::Length;

/// A thing as it usually is.
#[must_use]
pub fn usual<T: Thing + Default>() -> T {
    let mut thing = T::default();
    start(&mut thing);
    thing
}

/// Gives every member its usual value.
pub fn start(thing: &mut dyn Thing) {
    thing.members().into_iter().for_each(|member| set(member, false));
    thing.started();
}

/// Gives every member what a link of version 1 means that leaves it out.
pub fn freeze(thing: &mut dyn Thing) {
    thing.members().into_iter().for_each(|member| set(member, true));
    thing.frozen();
}

/// Gives a member what a link of version 1 means that leaves it out.
pub fn set_frozen(member: Member<'_>) {
    set(member, true);
}

/// Gives a member its value.
fn set(Member { row, slot }: Member<'_>, is_frozen: bool) {
    match (slot, row.form) {
        (Slot::Length(length), Form::Length { usual, frozen, .. }) => {
            *length = if is_frozen { frozen } else { usual };
        }
        (Slot::Size(size), Form::Size { usual, .. }) => *size = usual,
        (Slot::Colour(colour), Form::Colour(usual)) => *colour = usual,
        (Slot::Number(number), Form::Number { usual, .. }) => number.put(usual),
        (Slot::Pair(one, other), Form::Pair { usual, packing, .. }) => {
            // In one number, nothing is what a link leaves out.
            let usual = if is_frozen && packing == Packing::Together { [0, 0] } else { usual };
            one.put(usual[0]);
            other.put(usual[1]);
        }
        (Slot::OneOf(mut one), _) => one.members().into_iter().for_each(|member| set(member, is_frozen)),
        (Slot::Maybe(mut maybe), Form::Maybe { usual, frozen, .. }) => {
            if if is_frozen { frozen } else { usual } {
                maybe.fill();
                maybe.inner().into_iter().for_each(|member| set(member, is_frozen));
            } else {
                maybe.clear();
            }
        }
        (Slot::Thing(mut thing), _) if is_frozen => freeze(&mut thing),
        (Slot::Thing(mut thing), _) => start(&mut thing),
        _ => {}
    }
}

impl Form {
    /// A size of at most so much each way.
    #[must_use]
    pub const fn size(usual: Size, most: Length) -> Self {
        Self::Size { most, usual, sides: None }
    }

    /// The middle of a crop, or a point of a picture: thousandths from the left and from the top.
    #[must_use]
    pub const fn focus(sides: Option<[&'static Row; 2]>) -> Self {
        Self::Pair { least: 0, most: 1000, usual: [500, 500], packing: Packing::Nested, sides }
    }

    /// What may be missing, and is at first.
    #[must_use]
    pub const fn maybe(words: Words) -> Self {
        Self::Maybe { usual: false, frozen: false, words }
    }

    /// One of several, each with members of its own.
    #[must_use]
    pub const fn tagged() -> Self {
        Self::OneOf(Shape::Tagged(None))
    }
}
