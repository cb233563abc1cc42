//! What a plan in centimetres has to begin with: in place of every length in inches the round one that its row states.
//!
//! Files and links are not read by this: what they leave out is what it always was.

use super::{Member, Row, Slot, Thing};
use crate::geometry::Size;
use crate::length::Length;

impl Row {
    /// Of a length or a size: with the round metric length in place of each that it may have to begin with.
    #[must_use]
    pub const fn metric(mut self, pairs: &'static [(Length, Length)]) -> Self {
        self.metric = pairs;
        self
    }
}

/// A length of a thing, by its row.
pub type Held = (&'static Row, Length);

/// The lengths of a thing and of all that is in it but for lists; of sizes both sides.
pub fn lengths(thing: &mut dyn Thing) -> Vec<Held> {
    let mut found = Vec::new();
    each(thing, &mut |row, length| {
        found.push((row, *length));
    });
    found
}

/// Puts round metric lengths in place of those that a thing has to begin with. What was there before, as [`lengths`] gave it, stays.
pub fn to_metric(thing: &mut dyn Thing, before: &[Held]) {
    each(thing, &mut |row, length| {
        let is_new = !before.contains(&(row, *length));
        if let (true, Some((_, metric))) = (is_new, row.metric.iter().find(|(inches, _)| inches == length)) {
            *length = *metric;
        }
    });
}

fn each(thing: &mut dyn Thing, act: &mut dyn FnMut(&'static Row, &mut Length)) {
    thing.members().into_iter().for_each(|member| of_member(member, act));
}

fn of_member(Member { row, slot }: Member<'_>, act: &mut dyn FnMut(&'static Row, &mut Length)) {
    match slot {
        Slot::Length(length) => act(row, length),
        Slot::Size(Size { width, height }) => {
            act(row, width);
            act(row, height);
        }
        Slot::OneOf(mut one) => one.members().into_iter().for_each(|member| of_member(member, act)),
        Slot::Maybe(mut maybe) => {
            if let Some(member) = maybe.inner() {
                of_member(member, act);
            }
        }
        Slot::Thing(mut thing) => each(&mut thing, act),
        _ => {}
    }
}
