//! `overmantel findings`: what is unwise about a plan, why, and what would fix it.

use super::failure::{Failure, RemedyError};
use clap::{Args, ValueEnum};
use overmantel::field::Field;
use overmantel::findings::{Finding, Remedy, Severity};
use overmantel::plan::{Plan, file};
use overmantel::report::{self, FindingReport, Findings};
use overmantel::stock::Stock;
use overmantel::{fields, figures::Figures, mend};
use std::path::PathBuf;
use std::process::ExitCode;

pub(crate) const HELP: &str =
    "\
Each finding has a stable code, a severity, the reason with its numbers, what it is based on, and remedies: changes to the
plan that were tried, remove the finding and cause none that is more severe. The severities, the mildest first: taste,
disappoints, safety, cannot-be-made.

Exit codes: 0 nothing as severe as --least was found; 1 the plan is not possible or a file can't be read or written;
2 the command was not understood; 3 something was found.

Examples:
  overmantel findings plan.json
      in words
  overmantel findings plan.json --json --least safety | jq '.findings[] | {code, severity, remedies}'
      as data, from safety on; `overmantel schema findings` prints what every name means
  overmantel findings plan.json --mend gap > mended.json
      the plan with the first remedy of the finding \"gap\"
  overmantel findings plan.json --mend \"door-swing/second door/1\" > mended.json
      with the remedy of this name; each remedy's name is in brackets after it
  overmantel findings plan.json --stock shop.json
      with limits of your own: the list \"thresholds\" of a stock file";

/// The plan, and which findings.
#[derive(Args)]
pub(crate) struct FindingsOf {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// Your own stock list, which replaces or adds to the standard one and to the limits of findings
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// Only findings as severe as this, or more
    #[arg(long, value_enum, default_value_t = Least::Taste, value_name = "SEVERITY")]
    least: Least,
    /// Print JSON
    #[arg(long)]
    json: bool,
    /// Print the plan with a remedy instead. Give the remedy's name, or the finding's code if only one finding has it: then its first
    /// remedy is used, or the one with this number after a colon
    #[arg(long, value_name = "NAME or CODE[:NUMBER]", conflicts_with = "json")]
    mend: Option<String>,
}

/// How severe findings are.
#[derive(Clone, Copy, ValueEnum)]
enum Least {
    /// A matter of taste
    Taste,
    /// It can be made but will disappoint
    Disappoints,
    /// Someone could get hurt
    Safety,
    /// It cannot be made
    CannotBeMade,
}

impl Least {
    fn severity(self) -> Severity {
        match self {
            Self::Taste => Severity::Taste,
            Self::Disappoints => Severity::Disappoints,
            Self::Safety => Severity::Safety,
            Self::CannotBeMade => Severity::CannotBeMade,
        }
    }
}

/// What a script is told when something was found.
const FOUND: u8 = 3;

pub(crate) fn run(stated: &FindingsOf) -> Result<ExitCode, Failure> {
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    if let Some(wanted) = &stated.mend {
        let found = mend::findings(&plan, &figures, &stock);
        let remedy = remedy(&found, wanted)?;
        let mended = mend::with(&plan, &stock, remedy)?;
        super::sum_up(&remedy.words);
        super::say_json(&(file::write(&mended) + "\n"))?;
        return Ok(ExitCode::SUCCESS);
    }
    let found = report::findings(&plan, &figures, &stock, stated.least.severity());
    if stated.json {
        let text = serde_json::to_string_pretty(&found)?;
        super::say_json(
            &(text
                + "
"),
        )?;
    } else {
        super::say(&in_words(&found, &plan, &stock))?;
    }
    Ok(if found.findings.is_empty() { ExitCode::SUCCESS } else { ExitCode::from(FOUND) })
}

/// The remedy that is meant: by its name, or by the code of the only finding that has it, with the number of the remedy behind a
/// colon where it is not the first.
fn remedy<'f>(found: &'f [Finding], wanted: &str) -> Result<&'f Remedy, RemedyError> {
    let named = found.iter().flat_map(|finding| &finding.remedies).find(|remedy| remedy.id == wanted);
    if let Some(remedy) = named {
        return Ok(remedy);
    }
    let (code, number) = match wanted.split_once(':') {
        None => (wanted, 1),
        Some((code, number)) => {
            let number = number.parse::<usize>().ok().filter(|number| *number > 0);
            (code, number.ok_or_else(|| RemedyError::Number(wanted.to_owned()))?)
        }
    };
    let of_code: Vec<&Finding> = found.iter().filter(|finding| finding.code == code).collect();
    match of_code[..] {
        [] => Err(RemedyError::NoFinding(code.to_owned())),
        [finding] => finding
            .remedies
            .get(number - 1)
            .ok_or_else(|| RemedyError::NoRemedy { code: code.to_owned(), count: finding.remedies.len() }),
        _ => {
            let first = of_code.iter().filter_map(|finding| finding.remedies.first());
            let names: Vec<String> = first.map(|remedy| format!("\"{}\"", remedy.id)).collect();
            Err(RemedyError::Several {
                code: code.to_owned(),
                count: of_code.len(),
                names: names.join(" or "),
            })
        }
    }
}

fn in_words(found: &Findings, plan: &Plan, stock: &Stock) -> String {
    let mut text = format!(
        "{}: {}\n",
        found.title,
        match found.findings.len() {
            0 => "nothing to note".to_owned(),
            1 => "1 note".to_owned(),
            count => format!("{count} notes"),
        }
    );
    for FindingReport { code, severity, sentence, authority, remedies, .. } in &found.findings {
        text += &format!("\n{code} ({severity})\n  {sentence}\n  {}\n", authority.words);
        for (index, remedy) in remedies.iter().enumerate() {
            let settings: Vec<String> =
                remedy.settings.iter().map(|[field, to]| setting(plan, stock, field, to)).collect();
            let (words, id) = (&remedy.words, &remedy.id);
            text += &format!("  {}. {words} ({}) [{id}]\n", index + 1, settings.join("; "));
        }
    }
    text
}

/// A field by its label, and what it is given: an option by its words.
fn setting(plan: &Plan, stock: &Stock, field: &str, to: &str) -> String {
    let Some(field) = Field::named(field) else { return to.to_owned() };
    let options = fields::read(plan, stock, field).map(|value| value.options).unwrap_or_default();
    let words = options.into_iter().find(|choice| choice.key == to).map(|choice| choice.words);
    format!("{}: {}", field.label(), words.unwrap_or_else(|| to.to_owned()))
}
