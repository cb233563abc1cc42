//! Wishes as a person states them: a sentence with a few things to choose in it, told by their places in the lists offered.

use super::{Lean, Make, Question, SuggestionWish};
use crate::plan::limits::PIECES;
use crate::prices::{Book, limits};
use crate::quoted::short;

/// Something to choose, in a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wishable {
    /// The words before it.
    pub before: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub label: &'static str,
    /// What is chosen, in words.
    pub text: String,
    /// Its place among what may be chosen.
    pub place: Option<usize>,
    /// What may be chosen, in words; none where an amount may be written.
    pub options: Vec<&'static str>,
}

/// Leans by their words, in percent of what is usual: how much is our own choice.
const LEANS: [(&str, u16); 3] = [("less", 25), ("normally", 100), ("more", 400)];
const COUNTS: [&str; 1 + PIECES] = ["one, two or three pieces", "one piece", "two pieces", "three pieces"];
/// Several make-ups under one name.
const MAKES: [(&str, &[Make]); 3] = [
    ("made in any way", &Make::ALL),
    ("on paper, framed", &[Make::Framed, Make::Matted, Make::Bordered]),
    ("on canvas, with a floater frame or without", &[Make::Canvas, Make::Floated]),
];
const ANY_SUM: &str = "any amount";

/// What is wished, as it was chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wishes {
    question: Question,
    counts: Vec<usize>,
    makes: Vec<Make>,
    lean: Lean,
    budget: Option<i64>,
}

impl Default for Wishes {
    fn default() -> Self {
        let SuggestionWish { question, counts, makes, lean, budget, .. } = SuggestionWish::default();
        Self { question, counts: counts.to_vec(), makes: makes.to_vec(), lean, budget }
    }
}

impl Wishes {
    /// What there is to choose, in the order of a sentence. What does not count for the question asked is left out.
    #[must_use]
    pub fn offered(&self, book: Option<&Book>) -> Vec<Wishable> {
        let choice = |before, name, label, place: Option<usize>, options: Vec<&'static str>| {
            let text = place.and_then(|place| options.get(place)).copied().unwrap_or_default().to_owned();
            Wishable { before, name, label, text, place, options }
        };
        let asked = Question::ALL.iter().position(|row| row.0 == self.question);
        let questions = Question::ALL.iter().map(|row| row.1).collect();
        let mut offered = vec![choice("Show ", "question", "what to suggest", asked, questions)];
        if matches!(self.question, Question::Best | Question::FillsWall) {
            let count = if let [count] = self.counts[..] { count } else { 0 };
            offered.push(choice(": ", "count", "how many pieces", Some(count), COUNTS.to_vec()));
            let made = makes();
            let place = made.iter().position(|(_, makes)| *makes == self.makes);
            let options = made.into_iter().map(|(words, _)| words).collect();
            offered.push(choice(", ", "make", "how they are made", place, options));
        }
        if self.question != Question::Largest {
            let Lean { price, size, sharpness, off_the_shelf } = self.lean;
            let leans = [
                (
                    ". How well it fills its place matters: ",
                    "size",
                    "how much it matters that it fills its place",
                    size,
                ),
                (
                    ", how sharp the prints are: ",
                    "sharpness",
                    "how much it matters that the prints are sharp",
                    sharpness,
                ),
                (
                    ", that it is sold ready-made: ",
                    "off-the-shelf",
                    "how much it matters that it is sold ready-made",
                    off_the_shelf,
                ),
                (", what it costs: ", "price", "how much the price matters", price),
            ];
            for (before, name, label, lean) in leans.into_iter().take(if book.is_some() { 4 } else { 3 }) {
                let place = LEANS.iter().position(|row| row.1 == lean);
                offered.push(choice(before, name, label, place, LEANS.map(|row| row.0).to_vec()));
            }
        }
        if let Some(book) = book {
            let text = self.budget.map_or(ANY_SUM.to_owned(), |budget| book.text(budget));
            let amount = choice(". It may cost ", "budget", "the most it may cost", None, Vec::new());
            offered.push(Wishable { text, ..amount });
        }
        offered
    }

    /// Chooses something by its name: the place of an option, or an amount.
    ///
    /// # Errors
    /// When there is no such thing to choose.
    pub fn choose(&mut self, name: &str, chosen: &str) -> Result<(), WishError> {
        let unknown = || WishError::Unknown(chosen.to_owned());
        let place = chosen.parse::<usize>().ok();
        let lean = || place.and_then(|place| LEANS.get(place)).map(|row| row.1).ok_or_else(unknown);
        match name {
            "question" => {
                let row = place.and_then(|place| Question::ALL.get(place)).ok_or_else(unknown)?;
                self.question = row.0;
            }
            "count" => {
                let count = place.filter(|&count| count <= PIECES).ok_or_else(unknown)?;
                self.counts = if count == 0 { (1..=PIECES).collect() } else { vec![count] };
            }
            "make" => {
                let made = place.and_then(|place| makes().into_iter().nth(place));
                self.makes = made.ok_or_else(unknown)?.1;
            }
            "size" => self.lean.size = lean()?,
            "sharpness" => self.lean.sharpness = lean()?,
            "off-the-shelf" => self.lean.off_the_shelf = lean()?,
            "price" => self.lean.price = lean()?,
            "budget" => {
                // An amount may have its currency before it, as it is shown.
                let number = chosen.trim_start_matches(|letter: char| !letter.is_ascii_digit());
                let is_any = ["", ANY_SUM].contains(&chosen.trim());
                self.budget = if is_any {
                    None
                } else {
                    Some(amount(number).map_err(|_| WishError::NoAmount(chosen.to_owned()))?)
                };
            }
            _ => return Err(unknown()),
        }
        Ok(())
    }

    /// The wish, with a book's prices where there is one.
    #[must_use]
    pub fn wish<'a>(&'a self, book: Option<&'a Book>) -> SuggestionWish<'a> {
        let &Self { question, ref counts, ref makes, lean, budget } = self;
        SuggestionWish { question, counts, makes, lean, book, budget, most: 6, ..SuggestionWish::default() }
    }
}

/// The make-ups that can be chosen, several under one name first.
fn makes() -> Vec<(&'static str, Vec<Make>)> {
    let single = Make::ALL.map(|make| (make.words(), vec![make]));
    MAKES.iter().map(|(words, makes)| (*words, makes.to_vec())).chain(single).collect()
}

/// Why something can't be wished.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WishError {
    /// There is no such thing to choose.
    Unknown(String),
    /// The text is not a valid amount.
    NoAmount(String),
}

impl std::fmt::Display for WishError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unknown(chosen) => {
                write!(f, "\"{}\" can't be chosen here; choose one of those offered", short(chosen))
            }
            Self::NoAmount(text) => {
                write!(f, "\"{}\" is not an amount; write one such as 400 or 399.50", short(text))
            }
        }
    }
}

/// Reads an amount in hundredths of a currency, such as `400` or `399.50`, or `399,50`; without marks between thousands.
///
/// # Errors
/// When it is none.
pub fn amount(text: &str) -> Result<i64, WishError> {
    let plain = text.trim().replace(',', ".");
    let (units, cents) = plain.split_once('.').unwrap_or((&plain, "0"));
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let read = || {
        let cents = if cents.len() == 1 { cents.parse::<i64>().ok()? * 10 } else { cents.parse().ok()? };
        let all = units.parse::<i64>().ok()?.checked_mul(100)?.checked_add(cents)?;
        (all <= limits::AMOUNT && cents < 100).then_some(all)
    };
    let read = if digits(units) && digits(cents) && cents.len() <= 2 { read() } else { None };
    read.ok_or_else(|| WishError::NoAmount(text.to_owned()))
}
