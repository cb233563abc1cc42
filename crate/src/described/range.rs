//! Whether what is stated lies in its range.

use super::{Form, Row, Slot, Thing, each};
use crate::length::print::plain;
use crate::length::{Length, Unit};
use std::fmt;
use std::ops::ControlFlow::{Break, Continue};

/// A value out of its range.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A length.
    Length {
        /// What was given.
        given: Length,
        /// The least that is taken.
        least: Length,
        /// The most.
        most: Length,
    },
    /// The width or the height of a size.
    Side {
        /// Which of the two.
        side: &'static str,
        /// What was given.
        given: Length,
        /// The most that is taken.
        most: Length,
    },
    /// Whole numbers: one, or two.
    Numbers {
        /// What was given.
        given: Vec<i64>,
        /// The least that each may be.
        least: i64,
        /// The most.
        most: i64,
        /// Their unit, with a blank before it.
        unit: &'static str,
    },
    /// A text without a letter.
    Empty,
    /// A text that is too long.
    Long {
        /// Characters given.
        given: usize,
        /// Characters at most.
        most: usize,
    },
    /// A text with a control character in it.
    Control,
}

/// What follows what the value is called.
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length { given, least, .. } if *given < *least && *least == Length::from_units(1) => {
                write!(f, "is {}; it must be more than zero", plain(*given))
            }
            Self::Length { given, least, most } => {
                let least = if *least == Length::from_units(1) { Length::ZERO } else { *least };
                write!(f, "is {}; allowed: {} to {}", plain(*given), limit(least), limit(*most))
            }
            Self::Side { side, given, .. } if *given <= Length::ZERO => {
                write!(f, "has a {side} of {}; it must be more than zero", plain(*given))
            }
            Self::Side { side, given, most } => {
                write!(f, "has a {side} of {}; allowed: up to {}", plain(*given), limit(*most))
            }
            Self::Numbers { given, least, most, unit } => {
                let told: Vec<String> = given.iter().map(ToString::to_string).collect();
                let each = if given.len() > 1 { "allowed for each:" } else { "allowed:" };
                write!(f, "is {}{unit}; {each} {least} to {most}", told.join(" and "))
            }
            Self::Empty => f.write_str("is empty; write at least one character"),
            Self::Long { given, most } => write!(f, "has {given} characters; write at most {most}"),
            Self::Control => f.write_str("has a control character in it; write plain text on one line"),
        }
    }
}

/// A limit in words: in metres with feet beside them where it is one of the large ones.
fn limit(length: Length) -> String {
    let metre = Unit::Metre.length();
    if length == Length::ZERO || length.to_nearest(metre) != length {
        return plain(length);
    }
    let metres = length.units() / metre.units();
    let feet = length.units() / Unit::Foot.length().units();
    format!("{metres} m (about {feet} ft)")
}

/// Whether a length is within limits that a row can't say.
///
/// # Errors
/// What follows what the length is called.
pub fn within(given: Length, least: Length, most: Length) -> Result<(), Fault> {
    if (least..=most).contains(&given) { Ok(()) } else { Err(Fault::Length { given, least, most }) }
}

/// The first member of a thing that is out of its range, with its row; lists are for their owner to look at.
#[must_use]
pub fn fault(thing: &mut dyn Thing) -> Option<(&'static Row, Fault)> {
    let mut found = None;
    let _ = each(thing, &mut |row, slot| {
        found = of(row, slot).map(|fault| (row, fault));
        if found.is_some() { Break(()) } else { Continue(()) }
    });
    found
}

fn of(row: &'static Row, slot: &Slot<'_>) -> Option<Fault> {
    match (slot, row.form) {
        (Slot::Length(given), Form::Length { least, most, .. }) => within(**given, least, most).err(),
        (Slot::Size(size), Form::Size { most, sides: None, .. }) => {
            let sides = [("width", size.width), ("height", size.height)];
            let wrong = sides.into_iter().find(|(_, given)| *given <= Length::ZERO || *given > most);
            wrong.map(|(side, given)| Fault::Side { side, given, most })
        }
        (Slot::Number(number), Form::Number { least, most, unit, .. }) => {
            numbers(&[number.get()], least, most, unit)
        }
        (Slot::Pair(one, other), Form::Pair { least, most, .. }) => {
            numbers(&[one.get(), other.get()], least, most, "")
        }
        (Slot::Text(text), Form::Text { most, may_be_empty }) => {
            let given = text.chars().count();
            if text.trim().is_empty() && !may_be_empty {
                Some(Fault::Empty)
            } else if given > most {
                Some(Fault::Long { given, most })
            } else if text.chars().any(char::is_control) && !may_be_empty {
                Some(Fault::Control)
            } else {
                None
            }
        }
        _ => None,
    }
}

fn numbers(given: &[i64], least: i64, most: i64, unit: &'static str) -> Option<Fault> {
    let is_taken = given.iter().all(|number| (least..=most).contains(number));
    (!is_taken).then(|| Fault::Numbers { given: given.to_vec(), least, most, unit })
}
