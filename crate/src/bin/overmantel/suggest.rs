//! `overmantel suggest`: whole plans for a wall, each with its reasons.

use super::failure::{ChoiceError, Failure};
use clap::{Args, ValueEnum};
use overmantel::plan::{System, file};
use overmantel::suggest::wishes::amount;
use overmantel::suggest::{Lean, Make, Question, SuggestionWish, Suggestions, suggest};
use overmantel::{findings::Value, plan::Plan, report};
use std::path::PathBuf;
use std::process::ExitCode;

pub(crate) const HELP: &str = "\
Every combination of count, make-up, size, arrangement, gap and place is considered, from the sizes in the stock list, for the plan's wall,
furniture and pictures. The best of each count and make-up is kept, and a few of those are printed: first the one with the fewest points, and then
each time the one with the fewest once 10 points are added if an earlier one has as many pieces, and 10 if one is of the same material. So a
good plan of another kind can come before one with fewer points that is much like the first. Points are given for what is less
good about a plan, so fewer are better: for coarse prints, what is cropped, what is made to measure, the price, the share of the
furniture's width, the height, ceiling and corners, and unequal sizes. --lean makes one of them matter more or less. A plan that cannot be
made, hangs over what has to stay clear or costs more than --budget is never suggested; one with serious `findings` (for your
safety, will disappoint) only if there is nothing better, and then it says so.

Exit codes: 0 something is suggested; 1 the plan is not possible or a file can't be read; 2 the command was not understood;
3 nothing can be suggested.

Examples:
  overmantel suggest plan.json
      in words
  overmantel suggest plan.json --count 3 --in centimetres --lean sharpness=300
      three pieces in sizes of whole centimetres; sharpness matters three times as much
  overmantel suggest plan.json --ask largest
      the largest prints that the files allow, made like the plan's pieces
  overmantel suggest plan.json --book ours.json --budget 400 --json | jq '.suggestions[] | {words, points, reasons}'
      within a budget, as data; `overmantel schema suggestions` prints what every name means
  overmantel suggest plan.json --take 1 > first.json
      the first suggestion, as a plan";

/// The plan, and what you want.
#[derive(Args)]
pub(crate) struct SuggestFor {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// Your own stock list, which replaces or adds to the standard one and to the limits of findings
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// Your price book; anything it has no price for is not suggested
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// The most it may cost, in the book's currency, such as 400 or 399.50
    #[arg(long, value_name = "AMOUNT", requires = "book")]
    budget: Option<String>,
    /// What to suggest; all but `best` and `wall` keep the plan's number of pieces and how they are made
    #[arg(long, value_enum, value_name = "QUESTION")]
    ask: Option<Asked>,
    /// How many pieces there may be; can be repeated
    #[arg(long, value_name = "1|2|3", value_parser = super::given::whole::<u8>(1, 3))]
    count: Vec<u8>,
    /// How they may be made; can be repeated
    #[arg(long, value_enum, value_name = "MAKE")]
    make: Vec<Made>,
    /// The system of units of the sizes; the plan's when left out
    #[arg(long = "in", value_enum, value_name = "SYSTEM")]
    system: Option<Sizes>,
    /// How much price, size, sharpness or off-the-shelf matters, in percent of normal; can be repeated
    #[arg(long, value_name = "TERM=PERCENT")]
    lean: Vec<String>,
    /// How many suggestions at most
    #[arg(long, value_name = "NUMBER", default_value_t = 4, value_parser = super::given::whole::<u8>(1, 18))]
    most: u8,
    /// Print JSON
    #[arg(long)]
    json: bool,
    /// Print the plan of the suggestion with this number instead
    #[arg(long, value_name = "NUMBER", conflicts_with = "json")]
    take: Option<usize>,
}

/// What to suggest.
#[derive(Clone, Copy, ValueEnum)]
enum Asked {
    /// What suits the wall and its furniture best
    Best,
    /// The largest that these files allow at the resolution wanted
    Largest,
    /// What fills the wall itself, whatever its furniture
    Wall,
    /// What fits the frame in hand
    Frame,
    /// The same, in sizes of the other system of units
    OtherSystem,
}

/// How pieces are made.
#[derive(Clone, Copy, ValueEnum)]
enum Made {
    /// On paper, framed to the edge
    Framed,
    /// On paper, framed behind a mat
    Matted,
    /// On paper with a white border, framed
    Bordered,
    /// On canvas
    Canvas,
    /// On canvas in a floater frame
    Floated,
    /// On aluminium
    Aluminium,
}

/// A system of units.
#[derive(Clone, Copy, ValueEnum)]
pub(crate) enum Sizes {
    /// Inches
    Inches,
    /// Centimetres
    Centimetres,
}

impl Sizes {
    pub(crate) const fn system(self) -> System {
        match self {
            Self::Inches => System::Inches,
            Self::Centimetres => System::Centimetres,
        }
    }
}

/// What a script is told when nothing can be suggested.
const NOTHING: u8 = 3;

pub(crate) fn run(stated: &SuggestFor) -> Result<ExitCode, Failure> {
    let plan = super::files::read_plan(&stated.plan)?;
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    let book = stated.book.as_deref().map(super::files::read_book).transpose()?;
    let counts: Vec<usize> = stated.count.iter().map(|&count| count.into()).collect();
    let makes: Vec<Make> = stated.make.iter().map(|&make| Make::ALL[make as usize]).collect();
    let usual = SuggestionWish::default();
    let wish = SuggestionWish {
        question: stated.ask.map_or(Question::Best, |asked| Question::ALL[asked as usize].0),
        lean: lean(&stated.lean)?,
        counts: if counts.is_empty() { usual.counts } else { &counts },
        makes: if makes.is_empty() { usual.makes } else { &makes },
        system: stated.system.map(Sizes::system),
        book: book.as_ref(),
        budget: stated.budget.as_deref().map(amount).transpose()?,
        most: stated.most.into(),
    };
    let found = suggest(&plan, &stock, &wish)?;
    if let Some(number) = stated.take {
        let one = number.checked_sub(1).and_then(|index| found.suggestions.get(index));
        let one = one.ok_or(ChoiceError::NoSuggestion { number, count: found.suggestions.len() })?;
        super::sum_up(&one.words);
        super::say_json(&(file::write(&one.plan) + "\n"))?;
    } else if stated.json {
        let told = report::suggestions(&plan, &stock, &wish, &found)?;
        let text = serde_json::to_string_pretty(&told)?;
        super::say_json(
            &(text
                + "
"),
        )?;
    } else {
        super::say(&in_words(&plan, &wish, &found))?;
    }
    Ok(if found.suggestions.is_empty() { ExitCode::from(NOTHING) } else { ExitCode::SUCCESS })
}

/// Reads leans, one behind the other.
fn lean(stated: &[String]) -> Result<Lean, ChoiceError> {
    let mut lean = Lean::EVEN;
    for text in stated {
        let read = text.split_once('=').and_then(|(term, percent)| {
            let percent = percent.parse::<u16>().ok().filter(|percent| *percent <= Lean::MOST)?;
            match term {
                "price" => lean.price = percent,
                "size" => lean.size = percent,
                "sharpness" => lean.sharpness = percent,
                "off-the-shelf" => lean.off_the_shelf = percent,
                _ => return None,
            }
            Some(())
        });
        read.ok_or_else(|| ChoiceError::NoLean(text.clone()))?;
    }
    Ok(lean)
}

fn in_words(plan: &Plan, wish: &SuggestionWish<'_>, found: &Suggestions) -> String {
    let mut text = format!(
        "{}: {} of {} combinations\n",
        plan.title,
        match found.suggestions.len() {
            0 => "nothing can be suggested".to_owned(),
            1 => "1 suggestion".to_owned(),
            count => format!("{count} suggestions"),
        },
        found.considered
    );
    if wish.book.is_some_and(|book| book.is_example) {
        text += "The price book is an example; nobody sells at its prices.\n";
    }
    for (index, one) in found.suggestions.iter().enumerate() {
        let points = Value::Share(one.total).shown(plan.units);
        text += &format!("\n{}. {} ({points} points)\n  {}\n", index + 1, one.words, one.reasons.join("; "));
        for caution in &one.cautions {
            text += &format!("  {caution}\n");
        }
        if let Some((price, book)) = one.price.as_ref().zip(wish.book)
            && let Some(totals) = price.totals
        {
            text += &format!("  {}\n", book.text(totals.total));
        }
    }
    if let Some(said) = found.said() {
        text += &format!("\n{said}\n");
    }
    if found.suggestions.is_empty() {
        text += "\nAllow another make-up, fewer or more pieces, or more money, or make space on the wall.\n";
    }
    text
}
