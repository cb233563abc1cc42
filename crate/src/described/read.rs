//! Reading a thing from a file, by its rows.

use super::{
    Absent, Entry, Form, List, Member, OneOf, Referred, Row, Shape, Slot, Thing, are_one_value, bare, start,
};
use crate::colour::Colour;
use crate::json::{self, Node};
use crate::length::Unit;
use crate::length::parse::{ParseError, parse};
use crate::quoted::short;
use std::fmt;

/// What is wrong at a place in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FormFault {
    /// A key is missing.
    Missing(&'static str),
    /// A key is not known.
    Unknown {
        /// The key.
        key: String,
        /// Those that are known there.
        known: Vec<&'static str>,
    },
    /// A name that is none of those that can be chosen.
    NoChoice {
        /// The name.
        given: String,
        /// Those that can be chosen.
        allowed: Vec<&'static str>,
    },
    /// A value of another kind.
    Kind {
        /// What stands there.
        given: &'static str,
        /// What has to.
        wanted: &'static str,
    },
    /// A list of another length.
    Count {
        /// How many are in it.
        given: usize,
        /// How many have to be.
        wanted: usize,
    },
    /// A number that is less than nothing, or too large.
    NotWhole(String),
    /// A name without what belongs to it.
    Alone,
    /// Two keys of which only one can stand.
    Both([&'static str; 2]),
    /// No colour.
    NoColour(String),
    /// No length.
    NoLength(ParseError),
    /// No amount, or too large a one.
    NoAmount(String),
    /// A name that leads nowhere.
    Nowhere {
        /// To what it should lead.
        of: Referred,
        /// The name.
        name: String,
    },
}

impl fmt::Display for FormFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let quoted =
            |keys: &[&str]| keys.iter().map(|key| format!("\"{key}\"")).collect::<Vec<_>>().join(", ");
        match self {
            Self::Missing(key) => write!(f, "\"{key}\" is missing; write it"),
            Self::Unknown { key, known } => {
                write!(f, "\"{}\" is not a known name here; known names are {}", short(key), quoted(known))
            }
            Self::NoChoice { given, allowed } => {
                write!(f, "\"{}\" can't be chosen here; choose one of {}", short(given), quoted(allowed))
            }
            Self::Kind { given, wanted } => write!(f, "there is {given} where {wanted} is expected"),
            Self::Count { given, wanted } => {
                write!(f, "the list has {given} entries; write {wanted}")
            }
            Self::NotWhole(given) => {
                write!(f, "{given} is not possible here; write a whole number from 0 upwards")
            }
            Self::Alone => f.write_str("a name is alone here; write what belongs to it after it, in braces"),
            Self::Both([one, other]) => {
                write!(f, "both \"{}\" and \"{}\" are given; keep one of the two", short(one), short(other))
            }
            Self::NoColour(given) => {
                write!(f, "\"{}\" is not a colour; write it as #rrggbb, such as #d5dcd6", short(given))
            }
            Self::NoLength(why) => why.fmt(f),
            Self::NoAmount(given) => {
                write!(f, "\"{}\" is not an amount; write one such as 12 or 12.50", short(given))
            }
            Self::Nowhere { of, name } => {
                let what = match of {
                    Referred::Fixture => "fixture",
                    Referred::Picture => "picture",
                };
                write!(f, "the plan has no {what} called \"{}\"; write one of its names", short(name))
            }
        }
    }
}

/// What is wrong in a file, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormError {
    /// The way to the place: keys and numbers, from the outside inwards.
    pub way: Vec<String>,
    /// What is wrong there.
    pub fault: FormFault,
}

impl FormError {
    /// In a sentence, with line and column in the text that was read.
    pub(crate) fn text(&self, text: &str) -> String {
        let (line, column) = json::position(text, &self.way);
        let way: Vec<String> = self.way.iter().map(|step| short(step).to_string()).collect();
        let way = if way.is_empty() { String::new() } else { way.join(", ") + ": " };
        format!("{way}{} (line {line}, column {column})", self.fault)
    }
}

type Read<T = ()> = Result<T, FormError>;

/// Reads a thing from a group; what is left out stays as it is, or as its row has it.
///
/// # Errors
/// What is wrong, and where.
pub(crate) fn read(thing: &mut dyn Thing, node: &Node, bare: Unit) -> Read {
    Reader { bare, way: Vec::new(), fixtures: Vec::new(), pictures: Vec::new() }.thing(thing, node)
}

struct Reader {
    /// The unit of a length that is written without one.
    bare: Unit,
    way: Vec<String>,
    fixtures: Vec<String>,
    pictures: Vec<String>,
}

impl Reader {
    fn fault<T>(&self, fault: FormFault) -> Read<T> {
        Err(FormError { way: self.way.clone(), fault })
    }

    fn kind<T>(&self, node: &Node, wanted: &'static str) -> Read<T> {
        self.fault(FormFault::Kind { given: node.kind(), wanted })
    }

    /// Reads what stands one step further on the way.
    fn further<T>(&mut self, step: impl Into<String>, read: impl FnOnce(&mut Self) -> Read<T>) -> Read<T> {
        self.way.push(step.into());
        let found = read(self)?;
        self.way.pop();
        Ok(found)
    }

    fn thing(&mut self, thing: &mut dyn Thing, node: &Node) -> Read {
        if let Some(Member { row, slot }) = bare(thing) {
            return self.value(slot, row, node);
        }
        let Node::Group(entries) = node else { return self.kind(node, "an object in braces") };
        let known = keys(thing);
        if let Some((key, _)) = entries.iter().find(|(key, _)| !known.contains(&key.as_str())) {
            self.way.push(key.clone());
            return self.fault(FormFault::Unknown { key: key.clone(), known });
        }
        self.members(thing, node)
    }

    /// One member after the other: what is stated of one may say what is usual for those behind it.
    fn members(&mut self, thing: &mut dyn Thing, group: &Node) -> Read {
        let count = thing.members().len();
        for index in 0..count {
            let member = thing.members().swap_remove(index);
            let row = member.row;
            self.member(member, group)?;
            thing.stated(row, false);
            if let Form::List { .. } = row.form {
                self.fixtures = thing.names(Referred::Fixture);
                self.pictures = thing.names(Referred::Picture);
            }
        }
        Ok(())
    }

    fn member(&mut self, Member { row, slot }: Member<'_>, group: &Node) -> Read {
        match (row.key, slot, row.form) {
            ("", Slot::Thing(mut thing), _) => self.members(&mut thing, group),
            ("", Slot::OneOf(mut one), Form::OneOf(Shape::ByKeys)) => self.by_keys(one.as_mut(), group),
            ("", Slot::Choice(mut choice), Form::Flags(keys)) => {
                let mut told = Vec::new();
                for &(key, _, _) in keys {
                    match group.get(key) {
                        None | Some(Node::Flag(false)) => {}
                        Some(Node::Flag(true)) => told.push(key),
                        Some(node) => return self.further(key, |reader| reader.kind(node, "true or false")),
                    }
                }
                let told = told.join(" ");
                let entries = choice.entries();
                let stated = entries.iter().position(|entry| entry.key == told && entry.is_written);
                let none = || entries.iter().position(|entry| !entry.is_written);
                choice.choose(stated.or_else(none).unwrap_or(0));
                Ok(())
            }
            (key, slot, _) => match group.get(key) {
                None if row.absent == Absent::Never => self.fault(FormFault::Missing(key)),
                None => {
                    absent(slot, row);
                    Ok(())
                }
                Some(Node::Null) if matches!(row.absent, Absent::MayBe | Absent::Usual) => {
                    absent(slot, row);
                    Ok(())
                }
                Some(node) => self.further(key, |reader| reader.value(slot, row, node)),
            },
        }
    }

    fn value(&mut self, slot: Slot<'_>, row: &'static Row, node: &Node) -> Read {
        match (slot, node) {
            (Slot::Length(length), _) => *length = self.length(node)?,
            (Slot::Size(size), _) => {
                let [width, height] = self.two(node)?;
                size.width = self.further("number 1", |reader| reader.length(width))?;
                size.height = self.further("number 2", |reader| reader.length(height))?;
            }
            (Slot::Colour(colour), Node::Text(text)) => match Colour::parse(text) {
                Some(read) => *colour = read,
                None => return self.fault(FormFault::NoColour(text.clone())),
            },
            (Slot::Number(number), Node::Text(text)) if let Form::Amount { most } = row.form => {
                match hundredths(text).filter(|amount| *amount <= most) {
                    Some(amount) => number.put(amount),
                    None => return self.fault(FormFault::NoAmount(text.clone())),
                }
            }
            (Slot::Number(_), _) if matches!(row.form, Form::Amount { .. }) => {
                return self.kind(node, "text such as \"12.50\"");
            }
            (Slot::Number(number), _) => number.put(self.whole(node)?),
            (Slot::Pair(one, other), _) => {
                let [first, second] = self.two(node)?;
                one.put(self.further("number 1", |reader| reader.whole(first))?);
                other.put(self.further("number 2", |reader| reader.whole(second))?);
            }
            (Slot::Flag(flag), Node::Flag(read)) => *flag = *read,
            (Slot::Text(text), Node::Text(read)) => text.clone_from(read),
            (Slot::Reference(place), Node::Text(name)) => {
                let Form::Reference(of) = row.form else { return Ok(()) };
                let names = if of == Referred::Fixture { &self.fixtures } else { &self.pictures };
                match names.iter().position(|known| known == name) {
                    Some(found) => *place = found,
                    None => return self.fault(FormFault::Nowhere { of, name: name.clone() }),
                }
            }
            (Slot::Choice(mut choice), Node::Text(given)) => {
                let entries = choice.entries();
                match entries.iter().position(|entry| entry.key == given && entry.is_written) {
                    Some(place) => choice.choose(place),
                    None => return self.no_choice(given, &entries),
                }
            }
            (Slot::OneOf(mut one), _) => return self.tagged(one.as_mut(), node),
            (Slot::Maybe(mut maybe), _) => {
                maybe.fill();
                let Some(Member { slot, row }) = maybe.inner() else { return Ok(()) };
                return self.value(slot, row, node);
            }
            (Slot::Thing(mut thing), _) => return self.thing(&mut thing, node),
            (Slot::List(list), Node::List(items)) => return self.list(list, row, items),
            (Slot::Flag(_), _) => return self.kind(node, "true or false"),
            (Slot::List(_), _) => return self.kind(node, "a list"),
            (Slot::Colour(_) | Slot::Text(_) | Slot::Reference(_) | Slot::Choice(_), _) => {
                return self.kind(node, "text");
            }
        }
        Ok(())
    }

    fn length(&self, node: &Node) -> Read<crate::length::Length> {
        let Node::Text(text) = node else { return self.kind(node, "text such as \"16 in\"") };
        parse(text, self.bare)
            .map_err(|why| FormError { way: self.way.clone(), fault: FormFault::NoLength(why) })
    }

    fn whole(&self, node: &Node) -> Read<i64> {
        match node {
            Node::Whole(number) if (0..=i64::from(u32::MAX)).contains(number) => Ok(*number),
            Node::Whole(number) => self.fault(FormFault::NotWhole(number.to_string())),
            _ => self.kind(node, "a whole number"),
        }
    }

    fn two<'n>(&self, node: &'n Node) -> Read<[&'n Node; 2]> {
        match node {
            Node::List(items) => match &items[..] {
                [one, other] => Ok([one, other]),
                _ => self.fault(FormFault::Count { given: items.len(), wanted: 2 }),
            },
            _ => self.kind(node, "a list"),
        }
    }

    fn no_choice<T>(&self, given: &str, entries: &[&'static Entry]) -> Read<T> {
        let allowed = entries.iter().filter(|entry| entry.is_written).map(|entry| entry.key).collect();
        self.fault(FormFault::NoChoice { given: given.to_owned(), allowed })
    }

    /// A name, or a name with its members behind it.
    fn tagged(&mut self, one: &mut dyn OneOf, node: &Node) -> Read {
        let (name, inner) = match node {
            Node::Text(name) => (name, None),
            Node::Group(entries) => match &entries[..] {
                [(name, inner)] => (name, Some(inner)),
                _ => return self.kind(node, "an object with one name in it"),
            },
            _ => return self.kind(node, "a name, alone or with what belongs to it in braces"),
        };
        let entries = one.variants().entries;
        let place = entries.iter().position(|entry| entry.key == name && entry.is_written);
        let Some(place) = place else {
            return self.no_choice(name, &entries.iter().collect::<Vec<_>>());
        };
        one.turn(place);
        let mut members = one.members();
        match (inner, members.len()) {
            (None, 0) => Ok(()),
            (None, _) => self.fault(FormFault::Alone),
            (Some(inner), _) if are_one_value(&members) => {
                let Member { row, slot } = members.remove(0);
                self.further(name.clone(), |reader| reader.value(slot, row, inner))
            }
            (Some(inner), _) => {
                drop(members);
                self.further(name.clone(), |reader| reader.thing(&mut Payload(one), inner))
            }
        }
    }

    /// By the key of its member among those of its owner.
    fn by_keys(&mut self, one: &mut dyn OneOf, group: &Node) -> Read {
        let entries = one.variants().entries;
        let is_there = |key: &str| group.get(key).is_some_and(|node| *node != Node::Null);
        let found: Vec<usize> = (0..entries.len()).filter(|&at| is_there(entries[at].key)).collect();
        match found[..] {
            [] => Ok(()),
            [place] => {
                one.turn(place);
                self.members(&mut Payload(one), group)
            }
            [first, second, ..] => self.fault(FormFault::Both([entries[first].key, entries[second].key])),
        }
    }

    fn list(&mut self, list: &mut dyn List, row: &'static Row, items: &[Node]) -> Read {
        list.clear();
        let Form::List { most, .. } = row.form else { return Ok(()) };
        for (index, item) in items.iter().enumerate() {
            list.push();
            let thing = list.item(index);
            start(thing);
            self.further(format!("number {}", index + 1), |reader| reader.thing(thing, item))?;
            // What is too many is counted by the plan's check; so much is enough for it.
            if index > most {
                break;
            }
        }
        Ok(())
    }
}

/// An amount as it is written, `12` or `12.50`, in hundredths.
fn hundredths(text: &str) -> Option<i64> {
    let (whole, decimals) = text.trim().split_once('.').unwrap_or((text.trim(), ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let is_amount = !whole.is_empty() && digits(whole) && digits(decimals) && decimals.len() <= 2;
    let padded = [whole, decimals, &"00"[decimals.len().min(2)..]].concat();
    padded.parse().ok().filter(|_| is_amount)
}

/// What a file means that leaves a member out.
pub(super) fn absent(slot: Slot<'_>, row: &'static Row) {
    match (slot, row.form) {
        (Slot::Maybe(mut maybe), _) => maybe.clear(),
        (Slot::OneOf(mut one), Form::OneOf(Shape::Tagged(Some(place)))) => one.turn(place),
        (Slot::List(list), _) => list.clear(),
        _ => {}
    }
}

/// Gives a member what [`super::write::values`] has of it; what that can't be read from stays.
#[cfg(feature = "schema")]
pub(super) fn put(slot: Slot<'_>, row: &'static Row, node: &Node) {
    let mut reader = Reader { bare: Unit::Inch, way: Vec::new(), fixtures: Vec::new(), pictures: Vec::new() };
    let _unread = reader.value(slot, row, node);
}

/// The members of one of several, as a thing.
pub(super) struct Payload<'a>(pub(super) &'a mut dyn OneOf);

impl Thing for Payload<'_> {
    fn title(&self) -> (&'static str, &'static str) {
        ("", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        self.0.members()
    }
}

/// The keys that a thing has in a file.
fn keys(thing: &mut dyn Thing) -> Vec<&'static str> {
    let mut known = Vec::new();
    for Member { row, slot } in thing.members() {
        match (row.key, slot, row.form) {
            ("", Slot::Thing(mut thing), _) => known.extend(keys(&mut thing)),
            ("", Slot::OneOf(one), _) => {
                let keys = one.variants().entries.iter().map(|entry| entry.key);
                known.extend(keys.filter(|key| !key.is_empty()));
            }
            ("", _, Form::Flags(flags)) => known.extend(flags.iter().map(|flag| flag.0)),
            (key, ..) => known.push(key),
        }
    }
    known
}
