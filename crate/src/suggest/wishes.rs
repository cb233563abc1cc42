//! Wishes as a person states them: a sentence with a few things to choose in it, by their words.

use super::{Lean, Make, Question, Wish};
use crate::plan::limits::PIECES;
use crate::prices::{Book, limits};

/// Something to choose, in a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wishable {
    /// The words before it.
    pub before: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub label: &'static str,
    /// What is chosen.
    pub text: String,
    /// What may be chosen; none where an amount may be written.
    pub options: Vec<&'static str>,
}

/// Leans by their words, in percent of what is usual: how much is our own choice.
const LEANS: [(&str, u16); 3] = [("less", 25), ("as usual", 100), ("more", 400)];
const COUNTS: [&str; 1 + PIECES] = ["one, two or three pieces", "one piece", "two pieces", "three pieces"];
/// Several make-ups under one name.
const MAKES: [(&str, &[Make]); 3] = [
    ("made in any way", &Make::ALL),
    ("on paper, framed", &[Make::Framed, Make::Matted, Make::Bordered]),
    ("on canvas, with a floater frame or without", &[Make::Canvas, Make::Floated]),
];
const ANY_SUM: &str = "any sum";

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
        let Wish { question, counts, makes, lean, budget, .. } = Wish::default();
        Self { question, counts: counts.to_vec(), makes: makes.to_vec(), lean, budget }
    }
}

impl Wishes {
    /// What there is to choose, in the order of a sentence. What does not count for the question asked is left out.
    #[must_use]
    pub fn offered(&self, book: Option<&Book>) -> Vec<Wishable> {
        let choice = |before, name, label, text: &str, options: Vec<&'static str>| Wishable {
            before,
            name,
            label,
            text: text.to_owned(),
            options,
        };
        let asked = Question::ALL.iter().find(|row| row.0 == self.question).map_or("", |row| row.1);
        let questions = Question::ALL.iter().map(|row| row.1).collect();
        let mut offered = vec![choice("Show ", "question", "what is asked", asked, questions)];
        if matches!(self.question, Question::Best | Question::FillsWall) {
            let count = if let [count] = self.counts[..] { count } else { 0 };
            offered.push(choice(": ", "count", "how many pieces", COUNTS[count], COUNTS.to_vec()));
            let several = MAKES.iter().find(|row| row.1 == self.makes).map(|row| row.0);
            let single = Make::ALL.map(Make::words);
            let text = several.or(self.makes.first().map(|make| make.words())).unwrap_or_default();
            let options = MAKES.iter().map(|row| row.0).chain(single).collect();
            offered.push(choice(", ", "make", "how they are made", text, options));
        }
        if self.question != Question::Largest {
            let Lean { price, size, sharpness, off_the_shelf } = self.lean;
            let leans = [
                (". How well it fills its place counts ", "size", size),
                (", how fine the prints are ", "sharpness", sharpness),
                (", that it is sold ready-made ", "off-the-shelf", off_the_shelf),
                (", what it costs ", "price", price),
            ];
            for (before, name, lean) in leans.into_iter().take(if book.is_some() { 4 } else { 3 }) {
                let text = LEANS.iter().find(|row| row.1 == lean).map_or("", |row| row.0);
                offered.push(choice(before, name, name, text, LEANS.map(|row| row.0).to_vec()));
            }
        }
        if let Some(book) = book {
            let text = self.budget.map_or(ANY_SUM.to_owned(), |budget| book.told(budget));
            offered.push(choice(". It may cost ", "budget", "the most it may cost", &text, Vec::new()));
        }
        offered
    }

    /// Chooses something by its name.
    ///
    /// # Errors
    /// A plain sentence when there is no such thing to choose.
    pub fn choose(&mut self, name: &str, text: &str) -> Result<(), String> {
        let unknown =
            || format!("\"{text}\" is not among what can be chosen; choose one of the words offered");
        let lean = || LEANS.iter().find(|row| row.0 == text).map(|row| row.1).ok_or_else(unknown);
        match name {
            "question" => {
                self.question = Question::ALL.iter().find(|row| row.1 == text).ok_or_else(unknown)?.0;
            }
            "count" => {
                let index = COUNTS.iter().position(|words| *words == text).ok_or_else(unknown)?;
                self.counts = if index == 0 { (1..=PIECES).collect() } else { vec![index] };
            }
            "make" => {
                let several = MAKES.iter().find(|row| row.0 == text).map(|row| row.1.to_vec());
                let single = Make::ALL.into_iter().find(|make| make.words() == text).map(|make| vec![make]);
                self.makes = several.or(single).ok_or_else(unknown)?;
            }
            "size" => self.lean.size = lean()?,
            "sharpness" => self.lean.sharpness = lean()?,
            "off-the-shelf" => self.lean.off_the_shelf = lean()?,
            "price" => self.lean.price = lean()?,
            "budget" => {
                // An amount may have its currency before it, as it is shown.
                let number = text.trim_start_matches(|letter: char| !letter.is_ascii_digit());
                let none = text.trim().is_empty() || text.trim() == ANY_SUM;
                self.budget =
                    if none { None } else { Some(amount(number).map_err(|_| not_an_amount(text))?) };
            }
            _ => return Err(unknown()),
        }
        Ok(())
    }

    /// The wish, with a book's prices where there is one.
    #[must_use]
    pub fn wish<'a>(&'a self, book: Option<&'a Book>) -> Wish<'a> {
        let &Self { question, ref counts, ref makes, lean, budget } = self;
        Wish { question, counts, makes, lean, book, budget, most: 6, ..Wish::default() }
    }
}

/// Reads an amount in hundredths of a currency, such as `400` or `399.50`, or `399,50`; without marks between thousands.
///
/// # Errors
/// A plain sentence when it is none.
pub fn amount(text: &str) -> Result<i64, String> {
    let plain = text.trim().replace(',', ".");
    let (units, cents) = plain.split_once('.').unwrap_or((&plain, "0"));
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let read = || {
        let cents = if cents.len() == 1 { cents.parse::<i64>().ok()? * 10 } else { cents.parse().ok()? };
        let all = units.parse::<i64>().ok()?.checked_mul(100)?.checked_add(cents)?;
        (all <= limits::AMOUNT && cents < 100).then_some(all)
    };
    let read = if digits(units) && digits(cents) && cents.len() <= 2 { read() } else { None };
    read.ok_or_else(|| not_an_amount(text))
}

fn not_an_amount(text: &str) -> String {
    format!("\"{text}\" is no amount; write one such as 400 or 399.50")
}
