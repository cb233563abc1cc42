//! What may be missing, and what can be a member by its value alone.

use super::{Member, Row, Slot, Thing};
use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::Length;

/// A value whose type says what kind of slot it fills.
pub trait Leaf {
    /// Where it is.
    fn slot(&mut self) -> Slot<'_>;
}

macro_rules! leaf {
    ($($type:ty => $slot:ident),*) => {$(
        impl Leaf for $type {
            fn slot(&mut self) -> Slot<'_> {
                Slot::$slot(self)
            }
        }
    )*};
}
leaf!(
    Length => Length, Size => Size, Colour => Colour, u16 => Number, u32 => Number, i64 => Number,
    bool => Flag, String => Text, usize => Reference
);

impl<T: Thing> Leaf for T {
    fn slot(&mut self) -> Slot<'_> {
        Slot::Thing(Box::new(self))
    }
}

/// What may be missing.
pub trait Maybe {
    /// Whether it is there.
    fn is_there(&self) -> bool;
    /// Puts it there as it usually is, in place of what is there.
    fn fill(&mut self);
    /// Removes it.
    fn clear(&mut self);
    /// What is there.
    fn inner(&mut self) -> Option<Member<'_>>;
}

/// An option with what fills it.
struct Filled<'a, T> {
    option: &'a mut Option<T>,
    row: &'static Row,
    usual: Usual<T>,
}

/// What fills an option; made only where it is needed, since most walks fill nothing.
enum Usual<T> {
    Value(T),
    Made(fn() -> T),
}

impl<T: Leaf + Clone> Maybe for Filled<'_, T> {
    fn is_there(&self) -> bool {
        self.option.is_some()
    }

    fn fill(&mut self) {
        *self.option = Some(match &self.usual {
            Usual::Value(value) => value.clone(),
            Usual::Made(make) => make(),
        });
    }

    fn clear(&mut self) {
        *self.option = None;
    }

    fn inner(&mut self) -> Option<Member<'_>> {
        self.option.as_mut().map(|value| Member::of(self.row, value))
    }
}

/// A member that may be missing: `inner` is the row of what is there, which `usual` fills in.
pub fn maybe_filled<'a, T: Leaf + Clone + 'a>(
    row: &'static Row,
    option: &'a mut Option<T>,
    inner: &'static Row,
    usual: T,
) -> Member<'a> {
    Member { row, slot: Slot::Maybe(Box::new(Filled { option, row: inner, usual: Usual::Value(usual) })) }
}

/// A thing that may be missing.
pub fn maybe<'a, T: Thing + Clone + Default + 'a>(
    row: &'static Row,
    option: &'a mut Option<T>,
) -> Member<'a> {
    let usual = Usual::Made(super::usual::<T>);
    Member { row, slot: Slot::Maybe(Box::new(Filled { option, row: &ITSELF, usual })) }
}

/// The row of a thing within what may be missing.
pub static ITSELF: Row = Row::thing("", 0, "");
