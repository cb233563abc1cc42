//! Why the desk does not take what it is given.

use crate::figures::NoAnswer;
use crate::link::LinkError;
use crate::photograph::room::RoomError;
use crate::plan::file::FileError;
use crate::prices::file::BookError;
use crate::stock::file::StockError;
use crate::suggest::SuggestError;
use std::fmt;

/// Why the desk does not take what it is given.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DeskError {
    /// The plan file can't be read.
    File(#[from] FileError),
    /// The link can't be read.
    Link(#[from] LinkError),
    /// The plan has no answer.
    NoAnswer(#[from] NoAnswer),
    /// The stock file can't be read.
    Stock(StockError),
    /// The price book can't be read.
    Book(BookError),
    /// Nothing can be suggested.
    Suggest(#[from] SuggestError),
    /// Nothing is known of a photograph's wall.
    Room(#[from] RoomError),
    /// Nothing was suggested yet.
    NotAsked,
    /// What was suggested is not suggested any more.
    Gone,
    /// The only piece was to be removed.
    LastPiece,
    /// Of several pieces none was named.
    WhichPiece,
}

impl fmt::Display for DeskError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File(why) => why.fmt(f),
            Self::Link(why) => why.fmt(f),
            Self::NoAnswer(why) => why.fmt(f),
            Self::Stock(why) => why.fmt(f),
            Self::Book(why) => why.fmt(f),
            Self::Suggest(why) => why.fmt(f),
            Self::Room(why) => why.fmt(f),
            Self::NotAsked => f.write_str("there are no suggestions yet; ask for some first"),
            Self::LastPiece => {
                f.write_str("the last piece stays; choose another picture or size for it instead")
            }
            Self::WhichPiece => f.write_str(
                "choose one piece first: go to its size or its picture with the arrows, or press it",
            ),
            Self::Gone => f.write_str("this suggestion is out of date; choose another"),
        }
    }
}
