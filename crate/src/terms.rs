//! Terms of the trade, each with what it means in one sentence: they are explained where they first stand.
//!
//! Meanings are common practice, no source.

use crate::plan::Units;
use crate::words::in_units;
use std::borrow::Cow;

/// A term.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each has its meaning in the table")]
pub enum Term {
    Mat,
    MatOpening,
    BottomMat,
    Glazing,
    Spacer,
    MountBoard,
    Backing,
    Moulding,
    Rabbet,
    Allowance,
    Bars,
    Edge,
    StapleMargin,
    Floater,
    StandOff,
    SubFrame,
}

/// What a term is told by at the boundary, what it is called with inches, and what it means.
struct Meaning {
    term: Term,
    key: &'static str,
    words: &'static str,
    meaning: &'static str,
}

#[rustfmt::skip]
const MEANINGS: [Meaning; 16] = [
    Meaning { term: Term::Mat, key: "mat", words: "mat", meaning: "A board with an opening, between the picture and the glazing: it frames the picture and keeps the glazing off it." },
    Meaning { term: Term::MatOpening, key: "mat-opening", words: "mat opening", meaning: "The window cut in the mat, measured at the picture: a little smaller than the sheet, so that its edge is covered." },
    Meaning { term: Term::BottomMat, key: "bottom-mat", words: "bottom mat", meaning: "A second mat under the top one: a narrow strip of it shows round the picture." },
    Meaning { term: Term::Glazing, key: "glazing", words: "glazing", meaning: "The glass or acrylic in front of the picture." },
    Meaning { term: Term::Spacer, key: "spacer", words: "spacer", meaning: "A strip hidden under the lip of the frame that keeps the glazing off the picture." },
    Meaning { term: Term::MountBoard, key: "mount-board", words: "mount board", meaning: "The board that the print is fixed to." },
    Meaning { term: Term::Backing, key: "backing", words: "backing", meaning: "The board that closes the frame at the back." },
    Meaning { term: Term::Moulding, key: "moulding", words: "moulding", meaning: "The length of wood or metal that the four legs of a frame are cut from." },
    Meaning { term: Term::Rabbet, key: "rabbet", words: "rabbet", meaning: "The step at the back of the moulding that the picture, its boards and the glazing sit in." },
    Meaning { term: Term::Allowance, key: "allowance", words: "allowance", meaning: "How much larger the frame is made than what goes into it, so that it drops in and can swell." },
    Meaning { term: Term::Bars, key: "bars", words: "bars", meaning: "The wooden bars that the canvas is stretched over." },
    Meaning { term: Term::Edge, key: "edge", words: "edges", meaning: "The sides of a stretched canvas: the image goes on round them, is mirrored on them, or they have one colour." },
    Meaning { term: Term::StapleMargin, key: "staple-margin", words: "staple margin", meaning: "The canvas behind the bars, where it is stapled." },
    Meaning { term: Term::Floater, key: "floater", words: "floater frame", meaning: "A frame that holds the work from behind and leaves a gap all round it, so that it seems to float." },
    Meaning { term: Term::StandOff, key: "stand-off", words: "off the wall", meaning: "Blocks or bars behind the sheet hold it away from the wall, so that it casts a shadow." },
    Meaning { term: Term::SubFrame, key: "sub-frame", words: "sub-frame", meaning: "A frame of bars fixed to the back of a sheet, which keeps it flat and carries the hangers." },
];

impl Term {
    fn row(self) -> &'static Meaning {
        MEANINGS.iter().find(|row| row.term == self).unwrap_or(&MEANINGS[0])
    }

    /// What it is told by.
    #[must_use]
    pub fn key(self) -> &'static str {
        self.row().key
    }

    /// The term of this key.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        MEANINGS.iter().find(|row| row.key == key).map(|row| row.term)
    }

    /// What it is called in the units of a plan.
    ///
    /// ```
    /// use overmantel::{plan::{System, Units}, terms::Term};
    /// assert_eq!(Term::Rabbet.words(Units { first: System::Inches, both: false }), "rabbet");
    /// assert_eq!(Term::Rabbet.words(Units { first: System::Centimetres, both: false }), "rebate");
    /// ```
    #[must_use]
    pub fn words(self, units: Units) -> Cow<'static, str> {
        in_units(self.row().words, units.first)
    }

    /// What it means, in a sentence.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        self.row().meaning
    }
}
