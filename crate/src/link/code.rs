//! Things by the numbers of their rows: a map of CBOR (RFC 8949) from numbers to values.
//!
//! A member that is as usual is left out; a number that the reader does not know is skipped and counted. What is usual is
//! another thing of the same kind, walked beside the one that is written: the frozen one of version 1, or the piece before.

use super::LinkError;
use crate::colour::Colour;
use crate::described::{Form, List, Maybe, Member, OneOf, Packing, Row, Shape, Slot, Thing, set_frozen};
use crate::length::{Length, UNITS_PER_INCH, UNITS_PER_MICROMETRE};
use minicbor::data::Type;
use minicbor::{Decoder, Encoder};
use std::collections::BTreeMap;

type Coded<T = ()> = Result<T, LinkError>;

pub(super) fn broken(_why: minicbor::decode::Error) -> LinkError {
    LinkError::Broken
}

/// Writes with an encoder of bytes in memory, which cannot fail.
macro_rules! put {
    ($bytes:expr, $($call:tt)*) => {{ let _infallible = Encoder::new($bytes).$($call)*; }};
}

/// Values by their numbers, on their way into a link.
#[derive(Default)]
pub(super) struct Out(BTreeMap<u64, Vec<u8>>);

impl Out {
    /// Bytes of the value of a number.
    pub(super) fn length_of(&self, number: u64) -> usize {
        self.0.get(&number).map_or(0, Vec::len)
    }

    /// The map that was written.
    pub(super) fn map(self) -> Vec<u8> {
        let mut map = Vec::new();
        put!(&mut map, map(self.0.len() as u64));
        for (number, value) in self.0 {
            put!(&mut map, u64(number));
            map.extend(value);
        }
        map
    }

    fn whole(&mut self, number: u64, value: i64, usual: i64) {
        if value != usual {
            let mut bytes = Vec::new();
            put!(&mut bytes, i64(value));
            self.0.insert(number, bytes);
        }
    }

    fn length(&mut self, number: u64, value: Length, usual: Length) {
        self.whole(number, packed(value), packed(usual));
    }

    /// A map of its own; an empty one only where it says that there is something.
    fn nested(&mut self, number: u64, inner: Self, is_said: bool) {
        if is_said || !inner.0.is_empty() {
            self.0.insert(number, inner.map());
        }
    }

    fn null(&mut self, number: u64) {
        let mut bytes = Vec::new();
        put!(&mut bytes, null());
        self.0.insert(number, bytes);
    }

    /// Strings of bytes; an empty one stands for none.
    pub(super) fn blobs(&mut self, number: u64, values: &[Vec<u8>]) {
        if values.iter().any(|value| !value.is_empty()) {
            let mut bytes = Vec::new();
            put!(&mut bytes, array(values.len() as u64));
            for value in values {
                put!(&mut bytes, bytes(value));
            }
            self.0.insert(number, bytes);
        }
    }

    /// What of a thing is not as usual.
    pub(super) fn thing(&mut self, value: &mut dyn Thing, usual: &mut dyn Thing) {
        let count = value.members().len();
        for index in 0..count {
            let row = value.members()[index].row;
            self.member(value.members().swap_remove(index), usual.members().swap_remove(index));
            // What is usual of the rest may follow from this.
            if decides(&mut value.members()[index].slot, &mut usual.members()[index].slot) {
                usual.stated(row, true);
            }
        }
    }

    /// A member, and the usual one.
    pub(super) fn member(&mut self, Member { row, slot }: Member<'_>, usual: Member<'_>) {
        let number = row.number;
        match (slot, usual.slot) {
            (Slot::Length(value), Slot::Length(usual)) => self.length(number, *value, *usual),
            (Slot::Size(value), Slot::Size(usual)) => {
                self.length(number, value.width, usual.width);
                self.length(number + 1, value.height, usual.height);
            }
            (Slot::Colour(value), Slot::Colour(usual)) => self.whole(number, rgb(*value), rgb(*usual)),
            (Slot::Number(value), Slot::Number(usual)) => self.whole(number, value.get(), usual.get()),
            (Slot::Flag(value), Slot::Flag(usual)) => {
                self.whole(number, i64::from(*value), i64::from(*usual));
            }
            (Slot::Reference(value), Slot::Reference(usual)) => {
                self.whole(number, to_whole(*value), to_whole(*usual));
            }
            (Slot::Choice(value), Slot::Choice(usual)) => {
                let number_of = |entries: Vec<_>, place: usize| {
                    let entry: &crate::described::Entry = entries[place];
                    entry.number
                };
                let (value, usual) =
                    (number_of(value.entries(), value.place()), number_of(usual.entries(), usual.place()));
                self.whole(number, value, usual);
            }
            (Slot::Text(value), Slot::Text(usual)) if value != usual => {
                let mut bytes = Vec::new();
                put!(&mut bytes, str(value));
                self.0.insert(number, bytes);
            }
            (Slot::Pair(one, other), Slot::Pair(usual_one, usual_other)) => {
                let ([one, other], usual) = ([one.get(), other.get()], [usual_one.get(), usual_other.get()]);
                match packing(row) {
                    Packing::Nested => {
                        let mut inner = Self::default();
                        inner.whole(1, one, usual[0]);
                        inner.whole(2, other, usual[1]);
                        self.nested(number, inner, false);
                    }
                    Packing::InTurn => {
                        self.whole(number, one, usual[0]);
                        self.whole(number + 1, other, usual[1]);
                    }
                    Packing::Together => self.whole(number, one << 16 | other, usual[0] << 16 | usual[1]),
                }
            }
            (Slot::OneOf(mut value), Slot::OneOf(mut usual)) => match row.form {
                Form::OneOf(Shape::Board) => self.board(number, value.as_mut(), usual.as_mut()),
                _ => self.one_of(number, value.as_mut(), usual.as_mut()),
            },
            (Slot::Maybe(mut value), Slot::Maybe(mut usual)) => {
                self.maybe(number, value.as_mut(), usual.as_mut());
            }
            (Slot::Thing(mut value), Slot::Thing(mut usual)) => {
                let mut inner = Self::default();
                inner.thing(&mut value, &mut usual);
                self.nested(number, inner, false);
            }
            (Slot::List(list), Slot::List(_)) => self.list(number, list),
            // Both are of one row, so that their slots are of one kind.
            _ => {}
        }
    }

    fn one_of(&mut self, number: u64, value: &mut dyn OneOf, usual: &mut dyn OneOf) {
        let (place, usual_place) = (value.place(), usual.place());
        let entries = value.variants().entries;
        self.whole(number, entries[place].number, entries[usual_place].number);
        if place != usual_place {
            turn(usual, place);
        }
        for (value, usual) in value.members().into_iter().zip(usual.members()) {
            self.member(value, usual);
        }
    }

    /// Nothing, or a map of the material and the thickness.
    fn board(&mut self, number: u64, value: &mut dyn OneOf, usual: &mut dyn OneOf) {
        let (place, was_there) = (value.place(), usual.place() != 0);
        if place == 0 {
            if was_there {
                self.null(number);
            }
            return;
        }
        if !was_there {
            turn(usual, 1);
        }
        let entries = value.variants().entries;
        let mut inner = Self::default();
        inner.whole(1, entries[place].number, entries[usual.place()].number);
        for (value, usual) in value.members().into_iter().zip(usual.members()) {
            inner.member(value, usual);
        }
        self.nested(number, inner, !was_there);
    }

    fn maybe(&mut self, number: u64, value: &mut dyn Maybe, usual: &mut dyn Maybe) {
        let was_there = usual.is_there();
        if !value.is_there() {
            if was_there {
                self.null(number);
            }
            return;
        }
        if !was_there {
            fill(usual);
        }
        let (Some(value), Some(usual)) = (value.inner(), usual.inner()) else { return };
        let mut inner = Self::default();
        match (value, usual) {
            (Member { slot: Slot::Thing(mut value), .. }, Member { slot: Slot::Thing(mut usual), .. }) => {
                inner.thing(&mut value, &mut usual);
            }
            (value, usual) => inner.member(value, usual),
        }
        self.nested(number, inner, !was_there);
    }

    fn list(&mut self, number: u64, list: &mut dyn List) {
        if list.count() == 0 {
            return;
        }
        let mut bytes = Vec::new();
        put!(&mut bytes, array(list.count() as u64));
        for place in 0..list.count() {
            let mut usual = list.measure(place);
            let mut inner = Self::default();
            inner.thing(list.item(place), usual.as_mut());
            bytes.extend(inner.map());
        }
        self.0.insert(number, bytes);
    }
}

/// Gives the usual member what may decide on others; whether it is one that may.
fn decides(value: &mut Slot<'_>, usual: &mut Slot<'_>) -> bool {
    match (value, usual) {
        (Slot::Choice(value), Slot::Choice(usual)) => {
            usual.choose(value.place());
            true
        }
        (Slot::Text(value), Slot::Text(usual)) => {
            usual.clone_from(value);
            true
        }
        _ => false,
    }
}

/// Turns a value into another of several, as version 1 measures it.
fn turn(value: &mut dyn OneOf, place: usize) {
    value.turn(place);
    value.members().into_iter().for_each(set_frozen);
}

/// Puts what may be missing there, as version 1 measures it.
fn fill(value: &mut dyn Maybe) {
    value.fill();
    value.inner().into_iter().for_each(set_frozen);
}

fn packing(row: &Row) -> Packing {
    if let Form::Pair { packing, .. } = row.form { packing } else { Packing::InTurn }
}

fn rgb(Colour { red, green, blue }: Colour) -> i64 {
    i64::from(red) << 16 | i64::from(green) << 8 | i64::from(blue)
}

/// Values by their numbers, out of a link: what has not been asked for yet, and how much could not be understood.
pub(super) struct In<'a> {
    found: Vec<(u64, &'a [u8])>,
    unread: usize,
}

impl<'a> In<'a> {
    /// The values of a map, whose numbers rise.
    pub(super) fn of(bytes: &'a [u8]) -> Coded<Self> {
        let mut decoder = Decoder::new(bytes);
        let count = decoder.map().map_err(broken)?.ok_or(LinkError::Broken)?;
        let mut found: Vec<(u64, &[u8])> = Vec::new();
        for _ in 0..count {
            let number = decoder.u64().map_err(broken)?;
            if found.last().is_some_and(|&(last, _)| last >= number) {
                return Err(LinkError::Broken);
            }
            found.push((number, value(&mut decoder)?));
        }
        if decoder.position() != bytes.len() {
            return Err(LinkError::Broken);
        }
        Ok(Self { found, unread: 0 })
    }

    /// How much of what was read is not known here.
    pub(super) fn unread(&self) -> usize {
        self.unread + self.found.len()
    }

    /// Counts something more that is not known here.
    pub(super) const fn leave_unread(&mut self) {
        self.unread += 1;
    }

    fn take(&mut self, number: u64) -> Option<&'a [u8]> {
        let place = self.found.iter().position(|&(known, _)| known == number)?;
        Some(self.found.remove(place).1)
    }

    fn whole(&mut self, number: u64) -> Coded<Option<i64>> {
        self.take(number).map(|bytes| Decoder::new(bytes).i64().map_err(broken)).transpose()
    }

    fn length(&mut self, number: u64, value: &mut Length) -> Coded {
        if let Some(whole) = self.whole(number)? {
            *value = unpacked(whole);
        }
        Ok(())
    }

    /// The values of a map within this one.
    fn within<T>(&mut self, bytes: &'a [u8], read: impl FnOnce(&mut Self) -> Coded<T>) -> Coded<T> {
        let mut inner = Self::of(bytes)?;
        let found = read(&mut inner)?;
        self.unread += inner.unread();
        Ok(found)
    }

    /// Strings of bytes, at most so many.
    pub(super) fn blobs(&mut self, number: u64, most: usize) -> Coded<Vec<Vec<u8>>> {
        let found = self.take(number).map_or(Ok(Vec::new()), |bytes| items(bytes, most))?;
        let read = |bytes: &[u8]| Decoder::new(bytes).bytes().map(<[u8]>::to_vec).map_err(broken);
        found.into_iter().map(read).collect()
    }

    /// Gives a thing, which is as usual, what is not.
    pub(super) fn thing(&mut self, thing: &mut dyn Thing) -> Coded {
        let count = thing.members().len();
        for index in 0..count {
            let member = thing.members().swap_remove(index);
            let (row, may_decide) = (member.row, matches!(member.slot, Slot::Choice(_) | Slot::Text(_)));
            self.member(member)?;
            if may_decide {
                thing.stated(row, true);
            }
        }
        Ok(())
    }

    /// Gives a member, which is as usual, another value where there is one.
    pub(super) fn member(&mut self, Member { row, slot }: Member<'_>) -> Coded {
        let number = row.number;
        match slot {
            Slot::Length(length) => self.length(number, length)?,
            Slot::Size(size) => {
                self.length(number, &mut size.width)?;
                self.length(number + 1, &mut size.height)?;
            }
            Slot::Colour(colour) => {
                if let Some(whole) = self.whole(number)? {
                    *colour = Colour::hex(u32::try_from(whole & 0xff_ff_ff).unwrap_or(0));
                }
            }
            Slot::Number(value) => {
                if let Some(whole) = self.whole(number)? {
                    value.put(whole);
                }
            }
            Slot::Flag(flag) => match self.whole(number)? {
                Some(whole @ (0 | 1)) => *flag = whole == 1,
                Some(_) => self.unread += 1,
                None => {}
            },
            Slot::Reference(place) => {
                if let Some(whole) = self.whole(number)? {
                    *place = usize::try_from(whole).unwrap_or(usize::MAX);
                }
            }
            Slot::Choice(mut choice) => {
                if let Some(whole) = self.whole(number)? {
                    match choice.entries().iter().position(|entry| entry.number == whole) {
                        Some(place) => choice.choose(place),
                        None => self.unread += 1,
                    }
                }
            }
            Slot::Text(text) => {
                if let Some(bytes) = self.take(number) {
                    Decoder::new(bytes).str().map_err(broken)?.clone_into(text);
                }
            }
            Slot::Pair(one, other) => match packing(row) {
                Packing::Together => {
                    if let Some(whole) = self.whole(number)? {
                        one.put(whole >> 16);
                        other.put(whole & 0xff_ff);
                    }
                }
                Packing::InTurn => {
                    self.whole(number)?.into_iter().for_each(|whole| one.put(whole));
                    self.whole(number + 1)?.into_iter().for_each(|whole| other.put(whole));
                }
                Packing::Nested => {
                    if let Some(bytes) = self.take(number) {
                        self.within(bytes, |inner| {
                            inner.whole(1)?.into_iter().for_each(|whole| one.put(whole));
                            inner.whole(2)?.into_iter().for_each(|whole| other.put(whole));
                            Ok(())
                        })?;
                    }
                }
            },
            Slot::OneOf(mut one) => match row.form {
                Form::OneOf(Shape::Board) => self.board(number, one.as_mut())?,
                _ => self.one_of(number, one.as_mut())?,
            },
            Slot::Maybe(mut maybe) => self.maybe(number, maybe.as_mut())?,
            Slot::Thing(mut thing) => {
                if let Some(bytes) = self.take(number) {
                    self.within(bytes, |inner| inner.thing(&mut thing))?;
                }
            }
            Slot::List(list) => self.list(number, list, row)?,
        }
        Ok(())
    }

    fn one_of(&mut self, number: u64, one: &mut dyn OneOf) -> Coded {
        if let Some(whole) = self.whole(number)? {
            match one.variants().entries.iter().position(|entry| entry.number == whole) {
                Some(place) if place == one.place() => {}
                Some(place) => turn(one, place),
                None => {
                    // Its amount goes with it.
                    self.unread += 1;
                    self.take(number + 1);
                    return Ok(());
                }
            }
        }
        one.members().into_iter().try_for_each(|member| self.member(member))
    }

    fn board(&mut self, number: u64, board: &mut dyn OneOf) -> Coded {
        let Some(bytes) = self.take(number) else { return Ok(()) };
        if Decoder::new(bytes).datatype().map_err(broken)? == Type::Null {
            board.turn(0);
            return Ok(());
        }
        if board.place() == 0 {
            turn(board, 1);
        }
        self.within(bytes, |inner| {
            if let Some(whole) = inner.whole(1)? {
                match board.variants().entries.iter().skip(1).position(|entry| entry.number == whole) {
                    Some(place) => board.turn(place + 1),
                    None => inner.unread += 1,
                }
            }
            board.members().into_iter().try_for_each(|member| inner.member(member))
        })
    }

    fn maybe(&mut self, number: u64, maybe: &mut dyn Maybe) -> Coded {
        let Some(bytes) = self.take(number) else { return Ok(()) };
        if Decoder::new(bytes).datatype().map_err(broken)? == Type::Null {
            maybe.clear();
            return Ok(());
        }
        if !maybe.is_there() {
            fill(maybe);
        }
        let Some(member) = maybe.inner() else { return Ok(()) };
        self.within(bytes, |inner| match member {
            Member { slot: Slot::Thing(mut thing), .. } => inner.thing(&mut thing),
            member => inner.member(member),
        })
    }

    fn list(&mut self, number: u64, list: &mut dyn List, row: &'static Row) -> Coded {
        list.clear();
        let most = if let Form::List { most, .. } = row.form { most } else { 0 };
        for (place, bytes) in
            self.take(number).map_or(Ok(Vec::new()), |bytes| items(bytes, most))?.into_iter().enumerate()
        {
            list.push_measure();
            self.within(bytes, |inner| inner.thing(list.item(place)))?;
        }
        Ok(())
    }
}

/// The bytes of the next value, whatever it is.
fn value<'a>(decoder: &mut Decoder<'a>) -> Coded<&'a [u8]> {
    let start = decoder.position();
    decoder.skip().map_err(broken)?;
    decoder.input().get(start..decoder.position()).ok_or(LinkError::Broken)
}

fn items(bytes: &[u8], most: usize) -> Coded<Vec<&[u8]>> {
    let mut decoder = Decoder::new(bytes);
    let given = decoder.array().map_err(broken)?.ok_or(LinkError::Broken)?;
    if given > most as u64 {
        return Err(LinkError::TooMany { given, most });
    }
    (0..given).map(|_| value(&mut decoder)).collect()
}

fn to_whole(place: usize) -> i64 {
    i64::try_from(place).unwrap_or(i64::MAX)
}

/// In what a length is counted in a link, the coarsest first: 1/16 in, 1 mm, 1/64 in, 1 µm, the unit of [`Length`].
const STEPS: [i64; 5] =
    [UNITS_PER_INCH / 16, UNITS_PER_MICROMETRE * 1_000, UNITS_PER_INCH / 64, UNITS_PER_MICROMETRE, 1];
/// No length of a plan is so long; a longer one is held to it, and the plan refused.
const MOST_UNITS: i64 = UNITS_PER_MICROMETRE * 1_000_000_000;

/// A length as one whole number: the count of the coarsest step that it is a multiple of, times five, and which step that is.
fn packed(length: Length) -> i64 {
    let units = length.units().clamp(-MOST_UNITS, MOST_UNITS);
    let step = STEPS.iter().position(|step| units % step == 0).unwrap_or(STEPS.len() - 1);
    let whole = (units / STEPS[step]).abs() * to_whole(STEPS.len()) + to_whole(step);
    if units < 0 { -whole } else { whole }
}

/// The length of such a number.
fn unpacked(whole: i64) -> Length {
    let (count, step) = (whole / to_whole(STEPS.len()), whole % to_whole(STEPS.len()));
    let step = STEPS[usize::try_from(step.abs()).unwrap_or(0)];
    Length::from_units(count.saturating_mul(step).clamp(-MOST_UNITS, MOST_UNITS))
}
