//! Writing a thing into a file, by its rows.

use super::read::Payload;
use super::{Absent, Form, Member, OneOf, Referred, Row, Shape, Slot, Thing, are_one_value, bare};
use crate::json::Node;
use crate::length::print::exact;
use crate::length::{Length, Unit};

/// A thing as a group.
#[must_use]
pub(crate) fn write(thing: &mut dyn Thing) -> Node {
    write_in(thing, Unit::Inch)
}

/// A thing as a group whose lengths of nothing are written in this unit: of all others the length itself says which is shorter.
#[must_use]
pub(crate) fn write_in(thing: &mut dyn Thing, of_nothing: Unit) -> Node {
    let names = [Referred::Fixture, Referred::Picture].map(|of| thing.names(of));
    Writer { names, of_nothing }.thing(thing)
}

/// What each member of a thing is, whether a file would write it or leave it out; without those that a file has no word for.
#[cfg(feature = "schema")]
pub(super) fn values(thing: &mut dyn Thing) -> Vec<(&'static str, Node)> {
    let writer = Writer { names: [Vec::new(), Vec::new()], of_nothing: Unit::Inch };
    let mut found = Vec::new();
    for Member { row, slot } in thing.members() {
        match (row.key, slot, row.form) {
            ("", Slot::OneOf(mut one), _) => found.extend(values(&mut Payload(one.as_mut()))),
            ("", Slot::Choice(choice), Form::Flags(keys)) => {
                let told = choice.entries()[choice.place()].key;
                found.extend(
                    keys.iter().map(|(key, ..)| (*key, Node::Flag(told.split(' ').any(|word| word == *key)))),
                );
            }
            ("", ..) => {}
            (key, slot, _) => found.extend(writer.stated(slot, row, false).map(|node| (key, node))),
        }
    }
    found
}

struct Writer {
    /// Of fixtures, and of pictures.
    names: [Vec<String>; 2],
    /// The unit of a length of nothing.
    of_nothing: Unit,
}

impl Writer {
    fn length(&self, length: Length) -> Node {
        let is_metric = self.of_nothing != Unit::Inch && length == Length::ZERO;
        if is_metric { Node::text("0 mm") } else { Node::Text(exact(length)) }
    }

    fn thing(&self, thing: &mut dyn Thing) -> Node {
        if let Some(Member { row, slot }) = bare(thing) {
            return self.stated(slot, row, false).unwrap_or(Node::Null);
        }
        let mut entries = Vec::new();
        self.members(thing, &mut entries);
        Node::Group(entries)
    }

    fn members(&self, thing: &mut dyn Thing, entries: &mut Vec<(String, Node)>) {
        for Member { row, slot } in thing.members() {
            match (row.key, slot, row.form) {
                ("", Slot::Thing(mut thing), _) => self.members(&mut thing, entries),
                ("", Slot::OneOf(mut one), _) => self.members(&mut Payload(one.as_mut()), entries),
                ("", Slot::Choice(choice), Form::Flags(keys)) => {
                    let told = choice.entries()[choice.place()].key;
                    for &(key, _, absent) in keys {
                        let is_so = told.split(' ').any(|word| word == key);
                        if is_so || absent != Absent::Silent {
                            entries.push((key.to_owned(), Node::Flag(is_so)));
                        }
                    }
                }
                (key, slot, _) => {
                    if let Some(node) = self.value(slot, row) {
                        entries.push((key.to_owned(), node));
                    }
                }
            }
        }
    }

    /// The value of a member; none where it is left out.
    fn value(&self, slot: Slot<'_>, row: &'static Row) -> Option<Node> {
        self.stated(slot, row, matches!(row.absent, Absent::Usual | Absent::Silent))
    }

    /// The value of a member; none where there is no word for it, or where it is as usual and then left out.
    fn stated(&self, slot: Slot<'_>, row: &'static Row, is_left_out: bool) -> Option<Node> {
        Some(match (slot, row.form) {
            (Slot::Length(given), Form::Length { usual, .. }) if is_left_out && *given == usual => {
                return None;
            }
            (Slot::Length(given), _) => self.length(*given),
            (Slot::Size(size), _) => Node::List(vec![self.length(size.width), self.length(size.height)]),
            (Slot::Colour(colour), _) => Node::Text(colour.to_string()),
            (Slot::Number(number), Form::Amount { .. }) => {
                let (units, cents) = (number.get() / 100, number.get() % 100 + 100);
                Node::Text([&units.to_string(), ".", &cents.to_string()[1..]].concat())
            }
            (Slot::Number(number), _) => Node::Whole(number.get()),
            (Slot::Pair(one, other), _) => Node::List(vec![Node::Whole(one.get()), Node::Whole(other.get())]),
            (Slot::Flag(false), _) if is_left_out => return None,
            (Slot::Flag(flag), _) => Node::Flag(*flag),
            (Slot::Text(text), _) => Node::Text(text.clone()),
            (Slot::Reference(place), Form::Reference(of)) => {
                let names = &self.names[usize::from(of == Referred::Picture)];
                Node::Text(names.get(*place).cloned().unwrap_or_default())
            }
            (Slot::Reference(_), _) => return None,
            (Slot::Choice(choice), _) => {
                let entry = choice.entries()[choice.place()];
                if !entry.is_written || is_left_out && entry.number == 0 {
                    return None;
                }
                Node::text(entry.key)
            }
            (Slot::OneOf(one), Form::OneOf(Shape::Tagged(Some(place))))
                if is_left_out && one.place() == place =>
            {
                return None;
            }
            (Slot::OneOf(one), _) if !one.variants().entries[one.place()].is_written => return None,
            (Slot::OneOf(mut one), _) => self.tagged(one.as_mut()),
            (Slot::Maybe(mut maybe), _) => {
                let Member { row, slot } = maybe.inner()?;
                return self.value(slot, row);
            }
            (Slot::Thing(mut thing), _) => {
                if is_left_out && thing.is_usual() {
                    return None;
                }
                let node = self.thing(&mut thing);
                if is_left_out && node == Node::Group(Vec::new()) {
                    return None;
                }
                node
            }
            (Slot::List(list), _) => {
                Node::List((0..list.count()).map(|place| self.thing(list.item(place))).collect())
            }
        })
    }

    fn tagged(&self, one: &mut dyn OneOf) -> Node {
        let key = one.variants().entries[one.place()].key;
        let mut members = one.members();
        if members.is_empty() {
            return Node::text(key);
        }
        let inner = if are_one_value(&members) {
            let Member { row, slot } = members.remove(0);
            self.value(slot, row).unwrap_or(Node::Null)
        } else {
            drop(members);
            self.thing(&mut Payload(one))
        };
        Node::Group(vec![(key.to_owned(), inner)])
    }
}
