//! What a file means that leaves a member out, as the file would say it; and what of that follows from what else is stated. For schemas.

use super::read::{absent, put};
use super::write::values;
use super::{Absent, Member, Slot, Thing};
use crate::json::Node;
use crate::length::Length;

/// What the members of a thing are where a file leaves them out.
pub(super) struct LeftOut {
    /// By their keys; what a file has no word for is not among them.
    usual: Vec<(&'static str, Node)>,
    /// Keys of what follows from another member, and that one's key.
    follows: Vec<(&'static str, &'static str)>,
    /// The same of what may be missing in it, by the name of that first.
    pub(super) within: Vec<Following>,
}

/// The name of a thing, the key of its member, and the key of what that follows in the thing it belongs to.
pub(super) type Following = (&'static str, &'static str, &'static str);

impl LeftOut {
    /// Looks at a thing as it is to begin with, which then has nothing in it that may be left out.
    pub(super) fn of(thing: &mut dyn Thing) -> Self {
        leave_out(thing);
        let usual = values(thing);
        let mut found = Self { usual, follows: Vec::new(), within: Vec::new() };
        let (own, inner) = (values(thing), values_within(thing));
        let count = thing.members().len();
        for index in 0..count {
            let mut other = 0;
            while let Some(cause) = change(thing, index, other) {
                other += 1;
                // What may be missing is filled and taken out again, so it comes last.
                let (own_now, inner_now) = (values(thing), values_within(thing));
                let differs = |key| get(&own, key) != get(&own_now, key) && key != cause;
                let keys = own.iter().chain(&own_now).map(|(key, _)| *key);
                found.follows.extend(keys.filter(|key| differs(*key)).map(|key| (key, cause)));
                let moved = inner.iter().zip(&inner_now).filter(|(one, other)| one != other);
                found.within.extend(moved.map(|((name, key, _), _)| (*name, *key, cause)));
                restore(thing, &own);
            }
        }
        found
    }

    /// What a member is, as the file would say it.
    pub(super) fn usual(&self, key: &str) -> Option<Node> {
        get(&self.usual, key).cloned()
    }

    /// The key of what a member follows.
    pub(super) fn followed(&self, key: &str) -> Option<&'static str> {
        self.follows.iter().find(|(known, _)| *known == key).map(|(_, cause)| *cause)
    }
}

fn get<'n>(values: &'n [(&'static str, Node)], key: &str) -> Option<&'n Node> {
    values.iter().find(|(known, _)| *known == key).map(|(_, node)| node)
}

fn leave_out(thing: &mut dyn Thing) {
    for Member { row, slot } in thing.members() {
        if row.absent != Absent::Never {
            absent(slot, row);
        }
    }
}

/// What the members of things are that may be missing, were they there.
fn values_within(thing: &mut dyn Thing) -> Vec<(&'static str, &'static str, Node)> {
    let mut found = Vec::new();
    for Member { slot, .. } in thing.members() {
        let Slot::Maybe(mut maybe) = slot else { continue };
        maybe.fill();
        if let Some(Member { slot: Slot::Thing(mut inner), .. }) = maybe.inner() {
            leave_out(&mut inner);
            let (name, _) = inner.title();
            found.extend(values(&mut inner).into_iter().map(|(key, node)| (name, key, node)));
        }
        maybe.clear();
    }
    found
}

/// States another value of a member, the next at each call; its key, or nothing when there are no more.
fn change(thing: &mut dyn Thing, index: usize, other: usize) -> Option<&'static str> {
    let Member { row, slot } = thing.members().swap_remove(index);
    if row.key.is_empty() || !is_another(slot, other) {
        return None;
    }
    thing.stated(row, false);
    Some(row.key)
}

/// Puts another value where one is: of a choice each, of what may be missing that it is there, of a length one that is longer.
fn is_another(slot: Slot<'_>, other: usize) -> bool {
    match slot {
        Slot::Choice(mut choice) if other < choice.entries().len() => choice.choose(other),
        Slot::Maybe(mut maybe) if other == 0 => maybe.fill(),
        Slot::Length(length) if other == 0 => *length += Length::from_units(1),
        _ => return false,
    }
    true
}

/// Gives every member the value that it had, and nothing follows from that.
fn restore(thing: &mut dyn Thing, own: &[(&'static str, Node)]) {
    for Member { row, slot } in thing.members() {
        match (get(own, row.key), slot) {
            (Some(node), slot) => put(slot, row, node),
            (None, Slot::Choice(mut choice)) => {
                let unnamed = choice.entries().iter().position(|entry| !entry.is_written);
                unnamed.into_iter().for_each(|place| choice.choose(place));
            }
            (None, slot) => absent(slot, row),
        }
    }
}
