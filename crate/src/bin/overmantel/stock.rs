//! `overmantel stock`: what is on offer, as a stock file.

use super::failure::Failure;
use clap::Args;
use std::path::PathBuf;

pub(crate) const HELP: &str = "\
The stock is what every other command buys and cuts from: standard sizes, rolls, sheets, mouldings, sticks, stretcher bars, parcels,
tubes, densities, and the limits from which `findings` speaks. It is printed whole, every length as text with its unit. Change what
your shop has otherwise and give the file to --stock of the other commands. `overmantel schema stock` prints what every name means.
A file of your own may be shorter: a list that it leaves out is as on offer, a list under \"replace\" stands in place of the one on
offer, and rows under \"add\" stand beside it:
  { \"overmantel_stock\": 1, \"sticks\": { \"replace\": [
      { \"name\": \"ours\", \"length\": \"13 ft\", \"kerf\": \"1/8 in\", \"trim\": \"2 in\" } ] } }
With --stock, that file over what is on offer is printed whole: both are the same stock.

Examples:
  overmantel stock --out ours.json
      a file to change; one that is there already is left alone unless --force is given
  overmantel stock | jq '.mouldings.replace[].name'
      the mouldings on offer
  overmantel stock --stock ours.json | jq '.thresholds[\"widest gap between pieces\"]'
      from where a gap is called wide, by your own file
  overmantel figures plan.json --stock ours.json
      a plan made from it";

/// Which stock, and where to.
#[derive(Args)]
pub(crate) struct StockOf {
    /// A list of your own that replaces or adds to what is on offer
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    #[command(flatten)]
    to: super::To,
}

pub(crate) fn run(stated: &StockOf) -> Result<(), Failure> {
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    stated.to.put(&(stock.write() + "\n"))
}
