//! `overmantel stock`: what is on offer, as a stock file.

use super::failure::Failure;
use clap::Args;
use std::path::PathBuf;

pub(crate) const HELP: &str =
    "\
The stock list is what every other command buys and cuts from: standard sizes, rolls, sheets, mouldings, sticks, stretcher bars, parcels,
tubes, densities, and the limits that `findings` uses. It is printed in full, every length as text with its unit. Change what
is different in your shop and give the file to --stock of the other commands. `overmantel schema stock` prints what every name means.
Your own file can be shorter: a list that it leaves out stays as it is, a list under \"replace\" replaces the standard
one, and rows under \"add\" are added to it:
  { \"overmantel_stock\": 1, \"sticks\": { \"replace\": [
      { \"name\": \"ours\", \"length\": \"13 ft\", \"kerf\": \"1/8 in\", \"trim\": \"2 in\" } ] } }
With --stock, that file on top of the standard list is printed in full: both are the same stock.

Examples:
  overmantel stock --out ours.json
      a file to change; one that already exists is left alone unless you give --force
  overmantel stock | jq '.mouldings.replace[].name'
      the mouldings in the standard list
  overmantel stock --stock ours.json | jq '.thresholds[\"widest gap between pieces\"]'
      the widest gap that is not a finding, by your own file
  overmantel figures plan.json --stock ours.json
      a plan's measures, calculated with it";

/// Which stock list, and where to write it.
#[derive(Args)]
pub(crate) struct StockOf {
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    #[command(flatten)]
    to: super::To,
}

pub(crate) fn run(stated: &StockOf) -> Result<(), Failure> {
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    stated.to.put(&(stock.write() + "\n"))
}
