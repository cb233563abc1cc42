//! Fields by number: one description of a thing both writes it and reads it.
//!
//! A thing is a map of CBOR (RFC 8949) from the numbers of its fields to their values. A field that is as usual is left out;
//! a number that the reader does not know is skipped and counted. A description takes its thing apart by name, so
//! that a field which is added to the plan and forgotten here does not compile.

use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::{Length, UNITS_PER_INCH, UNITS_PER_MICROMETRE};
use minicbor::data::Type;
use minicbor::decode::Error;
use minicbor::{Decoder, Encoder};

/// A link that its checksum passed and that is still not whole was made by something else.
pub(super) const BROKEN: &str = "this is no whole link of Overmantel: something in it is out of place; ask for it again, or for the plan as a file";

pub(super) type Coded<T = ()> = Result<T, String>;

pub(super) fn broken(_why: Error) -> String {
    String::from(BROKEN)
}

/// The fields of a thing, on their way into a link or out of it.
pub(super) enum Fields<'a> {
    /// Into a link: numbers and values so far.
    Out { bytes: Vec<u8>, count: u64 },
    /// Out of a link: what has not been asked for yet, and how much could not be understood.
    In { found: Vec<(u64, &'a [u8])>, unread: usize },
}

/// Writes with an encoder of bytes in memory, which cannot fail.
macro_rules! put {
    ($bytes:expr, $($call:tt)*) => {{ let _infallible = Encoder::new($bytes).$($call)*; }};
}

impl<'a> Fields<'a> {
    pub(super) fn writing() -> Self {
        Self::Out { bytes: Vec::new(), count: 0 }
    }

    /// The fields of a map, whose numbers rise.
    #[inline(never)]
    pub(super) fn reading(bytes: &'a [u8]) -> Coded<Self> {
        let mut decoder = Decoder::new(bytes);
        let count = decoder.map().map_err(broken)?.ok_or(BROKEN)?;
        let mut found: Vec<(u64, &[u8])> = Vec::new();
        for _ in 0..count {
            let key = decoder.u64().map_err(broken)?;
            if found.last().is_some_and(|&(last, _)| last >= key) {
                return Err(String::from(BROKEN));
            }
            found.push((key, value(&mut decoder)?));
        }
        if decoder.position() != bytes.len() {
            return Err(String::from(BROKEN));
        }
        Ok(Self::In { found, unread: 0 })
    }

    /// The map that was written.
    #[inline(never)]
    pub(super) fn map(self) -> Vec<u8> {
        let Self::Out { bytes, count } = self else { return Vec::new() };
        let mut map = Vec::new();
        put!(&mut map, map(count));
        map.extend(bytes);
        map
    }

    /// How much of what was read is not known here.
    pub(super) fn unread(&self) -> usize {
        match self {
            Self::Out { .. } => 0,
            Self::In { found, unread } => unread + found.len(),
        }
    }

    pub(super) fn is_reading(&self) -> bool {
        matches!(self, Self::In { .. })
    }

    /// Counts something that is not understood.
    pub(super) fn miss(&mut self, more: usize) {
        if let Self::In { unread, .. } = self {
            *unread += more;
        }
    }

    #[inline(never)]
    fn find(&mut self, key: u64) -> Option<&'a [u8]> {
        let Self::In { found, .. } = self else { return None };
        let place = found.iter().position(|&(known, _)| known == key)?;
        Some(found.remove(place).1)
    }

    #[inline(never)]
    fn put(&mut self, key: u64, value: &[u8]) {
        if let Self::Out { bytes, count } = self {
            put!(&mut *bytes, u64(key));
            bytes.extend_from_slice(value);
            *count += 1;
        }
    }

    /// A whole number; every other value that fits into one goes this way.
    #[inline(never)]
    pub(super) fn whole(&mut self, key: u64, value: &mut i64, usual: i64) -> Coded {
        if self.is_reading() {
            *value = match self.find(key) {
                Some(bytes) => Decoder::new(bytes).i64().map_err(broken)?,
                None => usual,
            };
        } else if *value != usual {
            let mut bytes = Vec::new();
            put!(&mut bytes, i64(*value));
            self.put(key, &bytes);
        }
        Ok(())
    }

    /// A number; one out of its type's range becomes the largest, which every check of a plan refuses.
    pub(super) fn number<T: TryFrom<i64> + Copy + Bounded>(
        &mut self,
        key: u64,
        value: &mut T,
        usual: T,
    ) -> Coded {
        let mut whole = value.to_whole();
        self.whole(key, &mut whole, usual.to_whole())?;
        *value = T::try_from(whole).unwrap_or(T::MOST);
        Ok(())
    }

    pub(super) fn flag(&mut self, key: u64, value: &mut bool, usual: bool) -> Coded {
        self.choice(key, value, usual, &[false, true])
    }

    /// One of several, by its place among them; one that is not known here is taken as usual.
    pub(super) fn choice<T: Copy + PartialEq>(
        &mut self,
        key: u64,
        value: &mut T,
        usual: T,
        all: &[T],
    ) -> Coded {
        let place = |one: T| all.iter().position(|&known| known == one).map_or(0, to_whole);
        let mut whole = place(*value);
        self.whole(key, &mut whole, place(usual))?;
        *value = match usize::try_from(whole).ok().and_then(|place| all.get(place)) {
            Some(&known) => known,
            None => {
                self.miss(1);
                usual
            }
        };
        Ok(())
    }

    #[inline(never)]
    pub(super) fn length(&mut self, key: u64, value: &mut Length, usual: Length) -> Coded {
        let mut whole = packed(*value);
        self.whole(key, &mut whole, packed(usual))?;
        *value = unpacked(whole);
        Ok(())
    }

    /// Width and height, as two fields.
    #[inline(never)]
    pub(super) fn size(&mut self, key: u64, value: &mut Size, usual: Size) -> Coded {
        self.length(key, &mut value.width, usual.width)?;
        self.length(key + 1, &mut value.height, usual.height)
    }

    #[inline(never)]
    pub(super) fn colour(&mut self, key: u64, value: &mut Colour, usual: Colour) -> Coded {
        let whole = |Colour { red, green, blue }: Colour| {
            i64::from(red) << 16 | i64::from(green) << 8 | i64::from(blue)
        };
        let mut rgb = whole(*value);
        self.whole(key, &mut rgb, whole(usual))?;
        *value = Colour::hex(u32::try_from(rgb & 0xff_ff_ff).unwrap_or(0));
        Ok(())
    }

    /// What is one of several and has an amount (0 where it has none), as two fields.
    pub(super) fn kind<T: Clone>(
        &mut self,
        key: u64,
        value: &mut T,
        usual: &T,
        apart: fn(&T) -> (i64, i64),
        together: fn(i64, i64) -> Option<T>,
    ) -> Coded {
        let ((mut kind, mut amount), (usual_kind, usual_amount)) = (apart(value), apart(usual));
        self.whole(key, &mut kind, usual_kind)?;
        self.whole(key + 1, &mut amount, if kind == usual_kind { usual_amount } else { 0 })?;
        *value = together(kind, amount).unwrap_or_else(|| {
            self.miss(1);
            usual.clone()
        });
        Ok(())
    }

    #[inline(never)]
    pub(super) fn text(&mut self, key: u64, value: &mut String, usual: &str) -> Coded {
        if self.is_reading() {
            let read = self.find(key).map(|bytes| Decoder::new(bytes).str().map_err(broken)).transpose()?;
            *value = read.unwrap_or(usual).to_owned();
        } else if value != usual {
            let mut bytes = Vec::new();
            put!(&mut bytes, str(value));
            self.put(key, &bytes);
        }
        Ok(())
    }

    /// A thing with fields of its own.
    pub(super) fn within<T: PartialEq>(
        &mut self,
        key: u64,
        value: &mut T,
        usual: &T,
        each: fn(&mut Fields<'_>, &mut T, &T) -> Coded,
    ) -> Coded {
        if self.is_reading() {
            let Some(bytes) = self.find(key) else { return Ok(()) };
            let mut inner = Fields::reading(bytes)?;
            each(&mut inner, value, usual)?;
            self.miss(inner.unread());
        } else if value != usual {
            let mut inner = Fields::writing();
            each(&mut inner, value, usual)?;
            self.put(key, &inner.map());
        }
        Ok(())
    }

    /// A thing that may be missing; `blank` is what its fields are measured by where none is usual.
    pub(super) fn maybe<T: Clone + PartialEq>(
        &mut self,
        key: u64,
        value: &mut Option<T>,
        usual: &Option<T>,
        blank: &T,
        each: fn(&mut Fields<'_>, &mut T, &T) -> Coded,
    ) -> Coded {
        let base = usual.as_ref().unwrap_or(blank);
        if self.is_reading() {
            let Some(bytes) = self.find(key) else {
                value.clone_from(usual);
                return Ok(());
            };
            if Decoder::new(bytes).datatype().map_err(broken)? == Type::Null {
                *value = None;
                return Ok(());
            }
            let (mut inner, mut thing) = (Fields::reading(bytes)?, base.clone());
            each(&mut inner, &mut thing, base)?;
            self.miss(inner.unread());
            *value = Some(thing);
        } else if value != usual {
            let mut bytes = Vec::new();
            match value {
                None => put!(&mut bytes, null()),
                Some(thing) => {
                    let mut inner = Fields::writing();
                    each(&mut inner, thing, base)?;
                    bytes = inner.map();
                }
            }
            self.put(key, &bytes);
        }
        Ok(())
    }

    /// Things one after the other, at most so many; `usual` is what each is measured by, from those before it.
    pub(super) fn list<T: Clone>(
        &mut self,
        key: u64,
        values: &mut Vec<T>,
        most: usize,
        usual: fn(&[T]) -> T,
        each: fn(&mut Fields<'_>, &mut T, &T) -> Coded,
    ) -> Coded {
        if self.is_reading() {
            values.clear();
            for bytes in self.find(key).map_or(Ok(Vec::new()), |bytes| items(bytes, most))? {
                let (mut inner, base) = (Fields::reading(bytes)?, usual(values));
                let mut thing = base.clone();
                each(&mut inner, &mut thing, &base)?;
                self.miss(inner.unread());
                values.push(thing);
            }
        } else if !values.is_empty() {
            let mut bytes = Vec::new();
            put!(&mut bytes, array(values.len() as u64));
            for index in 0..values.len() {
                let (before, rest) = values.split_at_mut(index);
                let mut inner = Fields::writing();
                each(&mut inner, &mut rest[0], &usual(before))?;
                bytes.extend(inner.map());
            }
            self.put(key, &bytes);
        }
        Ok(())
    }

    /// Strings of bytes, at most so many; an empty one stands for none.
    #[inline(never)]
    pub(super) fn blobs(&mut self, key: u64, values: &mut Vec<Vec<u8>>, most: usize) -> Coded {
        if self.is_reading() {
            let found = self.find(key).map_or(Ok(Vec::new()), |bytes| items(bytes, most))?;
            let read = |bytes: &[u8]| Decoder::new(bytes).bytes().map(<[u8]>::to_vec).map_err(broken);
            *values = found.into_iter().map(read).collect::<Coded<_>>()?;
        } else if values.iter().any(|value| !value.is_empty()) {
            let mut bytes = Vec::new();
            put!(&mut bytes, array(values.len() as u64));
            for value in values {
                put!(&mut bytes, bytes(value));
            }
            self.put(key, &bytes);
        }
        Ok(())
    }
}

/// The bytes of the next value, whatever it is.
#[inline(never)]
fn value<'a>(decoder: &mut Decoder<'a>) -> Coded<&'a [u8]> {
    let start = decoder.position();
    decoder.skip().map_err(broken)?;
    decoder.input().get(start..decoder.position()).ok_or_else(|| String::from(BROKEN))
}

#[inline(never)]
fn items(bytes: &[u8], most: usize) -> Coded<Vec<&[u8]>> {
    let mut decoder = Decoder::new(bytes);
    let count = decoder.array().map_err(broken)?.ok_or(BROKEN)?;
    if count > most as u64 {
        return Err(format!("the link has {count} of something of which a plan takes at most {most}"));
    }
    (0..count).map(|_| value(&mut decoder)).collect()
}

fn to_whole(place: usize) -> i64 {
    i64::try_from(place).unwrap_or(i64::MAX)
}

/// A number type with its largest value.
pub(super) trait Bounded {
    const MOST: Self;
    fn to_whole(self) -> i64;
}

macro_rules! bounded {
    ($($type:ty),*) => {$(
        impl Bounded for $type {
            const MOST: Self = <$type>::MAX;
            fn to_whole(self) -> i64 {
                i64::try_from(self).unwrap_or(i64::MAX)
            }
        }
    )*};
}
bounded!(u8, u16, u32, usize);

/// In what a length is counted in a link, the coarsest first: 1/16 in, 1 mm, 1/64 in, 1 µm, the unit of [`Length`].
const STEPS: [i64; 5] =
    [UNITS_PER_INCH / 16, UNITS_PER_MICROMETRE * 1_000, UNITS_PER_INCH / 64, UNITS_PER_MICROMETRE, 1];
/// No length of a plan is so long; a longer one is held to it, and the plan refused.
const MOST_UNITS: i64 = UNITS_PER_MICROMETRE * 1_000_000_000;

/// A length as one whole number: the count of the coarsest step that it is a multiple of, times five, and which step that is.
#[inline(never)]
pub(super) fn packed(length: Length) -> i64 {
    let units = length.units().clamp(-MOST_UNITS, MOST_UNITS);
    let step = STEPS.iter().position(|step| units % step == 0).unwrap_or(STEPS.len() - 1);
    let whole = (units / STEPS[step]).abs() * to_whole(STEPS.len()) + to_whole(step);
    if units < 0 { -whole } else { whole }
}

/// The length of such a number.
#[inline(never)]
pub(super) fn unpacked(whole: i64) -> Length {
    let (count, step) = (whole / to_whole(STEPS.len()), whole % to_whole(STEPS.len()));
    let step = STEPS[usize::try_from(step.abs()).unwrap_or(0)];
    Length::from_units(count.saturating_mul(step).clamp(-MOST_UNITS, MOST_UNITS))
}
