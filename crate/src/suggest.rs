//! Suggestions: whole plans for a wall, the best first, each with its reasons.
//!
//! Every combination of count, make-up, size of each piece, arrangement, gap and place is considered; of each count and make-up
//! the best is kept, and of three also the best in which two are stacked beside the first, their outer edges in line with its own. Pieces that hang together are made alike, since frames that do not match are unwise
//! ([`crate::findings`]); panels of one picture are of one size too, so that two of them with a gap between are always higher than
//! the third: one picture is never suggested as a large panel with two stacked beside it. The large one of a mixed group is the first
//! picture of the plan, since suggestions keep the order of the pictures. Of what is kept the best is told first, and then what is best and another thing: [`ALIKE`]. What could be better than what is kept is never passed over: a
//! combination is left out only when the points that are certain already reach those of what is kept.
//!
//! # Points
//! A plan has points for what is less good about it; fewer are better. Each term ([`TERMS`]) is a whole number by whole-number
//! rules; what is of single pieces counts as their mean. How many points a thing is worth is our own choice, no source; the
//! limits are those of the findings ([`crate::stock::thresholds`]), with their sources.
//!
//! # Never broken
//! A plan that cannot be made, reaches beyond the wall, hangs over what has to stay clear or behind furniture, goes beyond the
//! space stated or costs more than the budget is no suggestion.
//!
//! # Never against the findings
//! What has a finding for your safety, or one that will disappoint, comes after everything that has none, whatever its points; it
//! is suggested only where nothing on offer is without, and says then what stands ([`Suggestion::cautions`]). Of those the ones
//! with the fewest findings are suggested ([`crate::findings::Grave::rank`]). Pieces are made as the plan's own are; where that
//! would be unwise, with the remedies of the findings, such as acrylic in place of glass, and hung from two rings in place of a
//! wire. A finding about a fixture or a frame in hand as it was measured is none about a suggestion.
//!
//! ```
//! use overmantel::{figures::Figures, plan::Plan, stock::Stock, suggest::{SuggestionWish, suggest}};
//! let found = suggest(&Plan::starting(), &Stock::offered(), &SuggestionWish::default()).unwrap();
//! assert_eq!(found.suggestions.len(), 4);
//! let best = Figures::of(&found.suggestions[0].plan).unwrap();
//! assert!(best.arranged.group.size.width <= overmantel::length::Length::inches(63), "3/4 of a sofa of 84 in");
//! ```

use crate::figures::Figures;
use crate::plan::{Plan, System};
use crate::prices::{Book, Price, priced};
use crate::print::Exact;
use crate::stock::Stock;

mod best;
mod error;
mod first;
mod hung;
mod offer;
mod pattern;
mod reasons;
mod rules;
mod search;
mod stacked;
pub mod wishes;

pub use error::SuggestError;
pub use first::{FirstError, first_plan};
pub(crate) use offer::picture_points;
pub use offer::{Make, Offered};
pub use search::{Combination, Form, Hang, Space};

/// What points are given for, in the order of [`Points`], with how many and on what they rest.
pub const TERMS: [(&str, &str); 9] = [
    (
        "sharpness",
        "1 for each percent, or part of one, that the resolution is below the one you want, and 30 more where the print is coarse",
    ),
    (
        "crop",
        "2 for each percent of a picture that is lost, and 30 more where that is more than may be cropped",
    ),
    ("off the shelf", "15 for a frame made to measure, 10 for a print of a size that is not on offer"),
    ("price", "50 for the whole budget, or without a budget for three times the most expensive piece"),
    (
        "fill",
        "2 for each percent by which the group is beyond the usual share of the width below it, and 30 more where it is wider than that",
    ),
    ("height", "1 for each inch from the middle of the group to eye level"),
    (
        "room",
        "10 near the ceiling or a cornice, 10 near a corner, 10 nearer to the furniture below than usual or further",
    ),
    (
        "border",
        "3 for each percent of the shorter side by which the borders at the sides and at the top differ",
    ),
    (
        "set",
        "12 for a pair of different sizes; for three, 4 where only the outer ones are the same, otherwise 16; for two stacked beside one, 4 where these are the same, otherwise 16, and 1 for each percent of its height by which they are further apart than the gap",
    ),
];

/// So many points more has, when the next suggestion is chosen, what has as many pieces as one that is told already and stands together
/// like it, and so many what is of the same material: our own choice.
pub const ALIKE: i64 = 10;

/// The points of a plan, term by term, in sixths of a point, so that the mean of two or three is exact.
pub type Points = [i64; 9];

/// How much each of four terms counts, in percent of what is usual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lean {
    /// What it costs.
    pub price: u16,
    /// How well it fills its place.
    pub size: u16,
    /// How fine the prints are.
    pub sharpness: u16,
    /// Whether it is sold ready-made.
    pub off_the_shelf: u16,
}

impl Lean {
    /// As is usual.
    pub const EVEN: Self = Self { price: 100, size: 100, sharpness: 100, off_the_shelf: 100 };
    /// Percent at most.
    pub const MOST: u16 = 1000;

    /// The weight of each term in percent.
    pub(crate) fn weights(self) -> Points {
        let of = i64::from;
        [of(self.sharpness), 100, of(self.off_the_shelf), of(self.price), of(self.size), 100, 100, 100, 100]
    }
}

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Question {
    /// What suits the wall and its furniture best.
    #[default]
    Best,
    /// The largest in which the files are at least at the resolution wanted, made as the plan's pieces are.
    Largest,
    /// What suits the wall itself, wherever its furniture stands.
    FillsWall,
    /// What goes into the frame in hand.
    FitsFrame,
    /// The same, in sizes of the other system of units.
    OtherSystem,
}

impl Question {
    /// Every question with its words.
    pub const ALL: [(Self, &'static str); 5] = [
        (Self::Best, "what suits this wall best"),
        (Self::Largest, "the largest that these files allow"),
        (Self::FillsWall, "what fills this wall"),
        (Self::FitsFrame, "what fits the frame you already have"),
        (Self::OtherSystem, "the same in sizes of the other system"),
    ];
}

/// What is wished of suggestions.
#[derive(Clone, Copy, Debug)]
pub struct SuggestionWish<'a> {
    /// What is asked; every question but the first and the third is of as many pieces as the plan has, made as they are.
    pub question: Question,
    /// How much the terms count.
    pub lean: Lean,
    /// How many pieces there may be.
    pub counts: &'a [usize],
    /// How they may be made.
    pub makes: &'a [Make],
    /// Only sizes that are defined in this system; the plan's first when `None`.
    pub system: Option<System>,
    /// The prices; what has none is then no suggestion.
    pub book: Option<&'a Book>,
    /// What may be paid at most, in hundredths of the book's currency; without a book it is not held.
    pub budget: Option<i64>,
    /// So many suggestions at most.
    pub most: usize,
}

impl Default for SuggestionWish<'_> {
    fn default() -> Self {
        Self {
            question: Question::Best,
            lean: Lean::EVEN,
            counts: &[1, 2, 3],
            makes: &Make::ALL,
            system: None,
            book: None,
            budget: None,
            most: 4,
        }
    }
}

/// A whole plan, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggestion {
    /// The plan.
    pub plan: Plan,
    /// What it is, in short.
    pub words: String,
    /// Its points, term by term, as they are without a lean.
    pub points: Points,
    /// All of them, as they are leaned.
    pub total: Exact,
    /// What it costs, where there is a book.
    pub price: Option<Price>,
    /// Why, in short sentences.
    pub reasons: Vec<String>,
    /// What is grave about it all the same, since nothing on offer has less against it: in sentences, what matters most first.
    pub cautions: Vec<String>,
}

/// Suggestions, and how many combinations there were.
///
/// ```
/// use overmantel::suggest::{SuggestionWish, suggest};
/// use overmantel::{plan::Plan, stock::Stock};
///
/// let wish = SuggestionWish { counts: &[2], most: 1, ..SuggestionWish::default() };
/// let found = suggest(&Plan::starting(), &Stock::offered(), &wish)?;
/// assert_eq!(found.suggestions[0].plan.pieces.len(), 2);
/// assert!(!found.suggestions[0].reasons.is_empty());
/// # Ok::<(), overmantel::suggest::SuggestError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Suggestions {
    /// The best first, and then each time the best once [`ALIKE`] is added for what it shares with those before it.
    pub suggestions: Vec<Suggestion>,
    /// Combinations considered: looked at, or left out since they could not be better.
    pub considered: u64,
    /// Of those, those that had to be calculated.
    pub looked_at: u64,
}

impl Suggestions {
    /// What is to be said of all of them: that they have cautions, where that could not be had otherwise.
    #[must_use]
    pub fn said(&self) -> Option<&'static str> {
        let cautioned = self.suggestions.iter().filter(|one| !one.cautions.is_empty()).count();
        match cautioned {
            0 => None,
            count if count == self.suggestions.len() => Some(
                "Everything on offer here has a caution; these have the fewest, and each one lists them.",
            ),
            _ => Some(
                "Where everything of a kind has a caution, this is the one with the fewest, and it lists them.",
            ),
        }
    }
}

/// Suggests plans for the wall of a plan, with what stands there, its pictures and what hangs now as a pattern.
///
/// # Errors
/// When the plan has no answer, or an original hangs there, or what is asked for needs a picture or a frame in hand.
pub fn suggest(plan: &Plan, stock: &Stock, wish: &SuggestionWish<'_>) -> Result<Suggestions, SuggestError> {
    let (counts, makes) = ([plan.pieces.len()], Make::of(plan));
    let mut wish = *wish;
    if !matches!(wish.question, Question::Best | Question::FillsWall) {
        (wish.counts, wish.makes) = (&counts, &makes);
    }
    if wish.question == Question::OtherSystem {
        wish.system = Some(plan.units.first.other());
    }
    let mut for_frame = None;
    if wish.question == Question::FitsFrame {
        wish.makes = &[Make::Framed, Make::Matted, Make::Bordered];
        for_frame = Some(offer::with_frame_in_hand(plan, stock)?);
    }
    let (stock, wish) = (for_frame.as_ref().unwrap_or(stock), &wish);
    let space = Space::of(plan, stock, wish)?;
    let best::Best { picked, considered, looked_at } = space.best();
    let mut suggestions = Vec::new();
    for choice in picked {
        let made = space.plan(&choice);
        let figures = Figures::of(&made)?;
        let points = space.points(&choice).unwrap_or_default();
        suggestions.push(Suggestion {
            words: reasons::words(&made, &figures, wish.system.unwrap_or(plan.units.first), &space, &choice),
            reasons: reasons::reasons(&made, &figures, &space, &choice),
            cautions: reasons::cautions(&made, &figures, &space),
            total: Exact::new(space.total(&points).into(), 600),
            price: wish.book.map(|book| priced(&made, &figures, stock, book)),
            points,
            plan: made,
        });
    }
    Ok(Suggestions { suggestions, considered, looked_at })
}
