//! Things one after the other.

use super::{Leaf, Slot, Thing, freeze};

/// What a list has in it.
pub trait Item: Thing + Clone + Default {
    /// What is appended to those before it.
    fn next(_before: &[Self]) -> Self {
        Self::default()
    }

    /// What a link measures it by: those before it, or the usual one of version 1.
    fn measure(_before: &[Self]) -> Self {
        let mut item = Self::next(&[]);
        freeze(&mut item);
        item
    }
}

/// Things one after the other.
pub trait List {
    /// How many there are.
    fn count(&self) -> usize;
    /// Removes all.
    fn clear(&mut self);
    /// Appends a usual one.
    fn push(&mut self);
    /// Appends one as a link measures it.
    fn push_measure(&mut self);
    /// What a link measures one of them by.
    fn measure(&self, place: usize) -> Box<dyn Thing>;
    /// One of them.
    fn item(&mut self, place: usize) -> &mut dyn Thing;
}

impl<T: Item + 'static> List for Vec<T> {
    fn count(&self) -> usize {
        self.len()
    }

    fn clear(&mut self) {
        self.clear();
    }

    fn push(&mut self) {
        self.push(T::next(self));
    }

    fn push_measure(&mut self) {
        self.push(T::measure(self));
    }

    fn measure(&self, place: usize) -> Box<dyn Thing> {
        Box::new(T::measure(&self[..place]))
    }

    fn item(&mut self, place: usize) -> &mut dyn Thing {
        &mut self[place]
    }
}

/// Things that may be missing all together.
impl<T: Item + 'static> Leaf for Vec<T> {
    fn slot(&mut self) -> Slot<'_> {
        Slot::List(self)
    }
}
