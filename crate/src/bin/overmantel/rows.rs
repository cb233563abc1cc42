//! `overmantel rows`: what is ordered and what is cut, as rows for other programs.

use super::failure::Failure;
use clap::{Args, ValueEnum};
use overmantel::figures::Figures;
use overmantel::papers::data::{Rows, cuts, order};
use overmantel::papers::{Job, Paper};
use std::path::PathBuf;

pub(crate) const HELP: &str =
    "\
CSV by RFC 4180, with a header line; JSON with the same columns and what each means. Lengths are numbers, in millimetres to
the nearest micrometre and in inches to the nearest millionth; weights are to the nearest gram.

Examples:
  overmantel rows plan.json --of cuts > cuts.csv
  overmantel rows plan.json --of order --json | jq '.rows[].crop_width_px'
  overmantel rows plan.json --of cuts --columns
      what each column means";

/// The plan, which rows, and how.
#[derive(Args)]
pub(crate) struct RowsOf {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// What
    #[arg(long, value_enum)]
    of: What,
    /// Print JSON
    #[arg(long)]
    json: bool,
    /// Only print what each column means
    #[arg(long)]
    columns: bool,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
}

#[derive(Clone, Copy, ValueEnum)]
enum What {
    /// For the print shop: a row for each size of each print
    Order,
    /// For the framer: a row for each part, and for each opening of a mat
    Cuts,
}

pub(crate) fn run(stated: &RowsOf) -> Result<(), Failure> {
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    let job = Job::new(&plan, &figures, &stock, Paper::A4);
    let rows: Rows = match stated.of {
        What::Order => order(&job),
        What::Cuts => cuts(&job),
    };
    if stated.columns {
        let told = rows.columns.iter().map(|(name, meaning)| format!("{name}: {meaning}\n"));
        return super::say(&told.collect::<String>());
    }
    if stated.json {
        let text = serde_json::to_string_pretty(&rows.json())?;
        return super::say_json(
            &(text
                + "
"),
        );
    }
    super::say(&rows.csv())
}
