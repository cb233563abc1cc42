//! What is one of several: a table of entries, in which key, number and words stand beside the value.

use super::Member;

/// One of several: how it is called in a file, in a link and in a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its key, in a file and for whoever chooses it.
    pub key: &'static str,
    /// Its number in a link, for ever.
    pub number: i64,
    /// Its words in a sentence; empty where it is not offered by itself.
    pub words: &'static str,
    /// What it means, for the schema.
    pub about: &'static str,
    /// Whether a file says it; otherwise it is what a file leaves out.
    pub is_written: bool,
}

impl Entry {
    /// A key, a number and words.
    #[must_use]
    pub const fn new(key: &'static str, number: i64, words: &'static str) -> Self {
        Self { key, number, words, about: "", is_written: true }
    }

    /// What a file leaves out.
    #[must_use]
    pub const fn left_out(self) -> Self {
        Self { is_written: false, ..self }
    }

    /// With what it means.
    #[must_use]
    pub const fn about(self, about: &'static str) -> Self {
        Self { about, ..self }
    }
}

/// A type whose values are listed in one table.
pub trait Choosable: Copy + PartialEq + 'static {
    /// Its name in a schema.
    const NAME: &'static str;
    /// Every value with its entry, in the order in which they are offered.
    const ALL: &'static [(Self, Entry)];

    /// Every value, in the order of the table.
    fn all() -> impl Iterator<Item = Self> {
        Self::ALL.iter().map(|(value, _)| *value)
    }

    /// The entry of this value.
    #[must_use]
    fn entry(self) -> &'static Entry {
        &Self::ALL[self.place()].1
    }

    /// Its place in the table.
    #[must_use]
    fn place(self) -> usize {
        Self::ALL.iter().position(|(value, _)| *value == self).unwrap_or(0)
    }

    /// The value with this key.
    #[must_use]
    fn of_key(key: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, entry)| entry.key == key).map(|&(value, _)| value)
    }
}

/// A value that is chosen from a table.
pub trait Choice {
    /// Its name in a schema, and what it is.
    fn title(&self) -> (&'static str, &'static str);
    /// The entries that can be chosen.
    fn entries(&self) -> Vec<&'static Entry>;
    /// Which of them it is.
    fn place(&self) -> usize;
    /// Chooses another.
    fn choose(&mut self, place: usize);
}

impl<T: Choosable> Choice for &mut T {
    fn title(&self) -> (&'static str, &'static str) {
        (T::NAME, "")
    }

    fn entries(&self) -> Vec<&'static Entry> {
        T::ALL.iter().map(|(_, entry)| entry).collect()
    }

    fn place(&self) -> usize {
        (**self).place()
    }

    fn choose(&mut self, place: usize) {
        if let Some(&(value, _)) = T::ALL.get(place) {
            **self = value;
        }
    }
}

/// What a value with members can be.
#[derive(Debug)]
pub struct Variants {
    /// Its name in a schema.
    pub name: &'static str,
    /// What it is, for the schema.
    pub about: &'static str,
    /// The entries, in the order in which they are offered.
    pub entries: &'static [Entry],
}

/// A value that is one of several, each with members of its own.
pub trait OneOf {
    /// What it can be.
    fn variants(&self) -> &'static Variants;
    /// Which of them it is.
    fn place(&self) -> usize;
    /// Turns it into another; an amount that both have stays.
    fn turn(&mut self, place: usize);
    /// Its members as it is now.
    fn members(&mut self) -> Vec<Member<'_>>;
}

impl<T: OneOf + ?Sized> OneOf for &mut T {
    fn variants(&self) -> &'static Variants {
        (**self).variants()
    }

    fn place(&self) -> usize {
        (**self).place()
    }

    fn turn(&mut self, place: usize) {
        (**self).turn(place);
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        (**self).members()
    }
}
