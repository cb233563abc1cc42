//! The command line: the figures of a plan as data, what is unwise about it, what else could hang there, its drawing and its sections as pictures, the plan as a link and back.

use clap::{FromArgMatches, Parser, Subcommand};
use failure::Failure;
use files::{Destination, JSON};
use say::{say, say_json, sum_up, tell};
use std::path::PathBuf;
use std::process::ExitCode;

mod batch;
mod failure;
mod files;
mod figures;
mod findings;
mod given;
mod help;
mod link;
mod manual;
mod papers;
mod picture;
mod pictures;
mod plan;
mod prices;
mod print_file;
mod room;
mod rows;
mod proposal;
mod say;
mod section;
mod stock;
mod studio;
mod suggest;
mod svg;
mod works;

/// To-scale layouts of one to three pictures on a wall: every size from the pixel to the hook.
#[derive(Parser)]
#[command(name = "overmantel", version, after_long_help = EXAMPLES)]
struct Arguments {
    /// Print only warnings and errors
    #[arg(long, short, global = true, display_order = 900)]
    quiet: bool,
    #[command(subcommand)]
    task: Task,
}

const EXAMPLES: &str = "\
Examples:
  overmantel plan --wall 144x96in --picture demo-data/pictures/three-boats.jpg --out plan.json
      a first plan of a picture on a wall 144 in wide and 96 in high
  overmantel figures demo-data/plans/low-water.json
      every computed measure of the plan, as JSON
  overmantel findings demo-data/plans/low-water.json
      what is unwise about the plan, why, and what would fix it
  overmantel prices demo-data/plans/low-water.json --book demo-data/prices/example.json --compare
      what it costs by a price book, and the same wall on canvas and on aluminium
  overmantel suggest demo-data/plans/low-water.json
      other plans for the same wall, each with its reasons
  overmantel draw demo-data/plans/low-water.json --out wall.png --width 2400
      the wall with its pieces and dimensions, 2400 pixels wide
  overmantel section demo-data/plans/low-water.json --piece 2 --out section.png
      a cut through the second piece, every layer to scale
  overmantel link demo-data/plans/low-water.json --address https://example.org/wall.html
      the plan as a link, and `overmantel open LINK` the plan again
  overmantel papers demo-data/plans/low-water.json --out papers --pictures demo-data/pictures --smaller
      what the buyer, the print shop, the framer and the person who hangs it need, as PDF
  overmantel print-file demo-data/plans/low-water.json --out prints --pictures demo-data/pictures --smaller
      each piece as a print-ready picture, with its border, edges and bleed
  overmantel svg demo-data/plans/low-water.json --of hanging --out hanging.svg
      the wall with its hooks, at full size
  overmantel rows demo-data/plans/low-water.json --of cuts
      every part and opening to cut, as CSV
  overmantel works demo-data/works/works.csv --since 2023 --size 24x36in --on canvas --available
      which works print at 24 × 36 in on canvas, whole or how else, and whose originals are still available
  overmantel stock --out ours.json
      the sizes, mouldings, sheets and parcels in the standard list, to change into your shop's
  overmantel manual here
      manual pages, and completions for shells

A plan is a JSON file in which every length is text with its unit, such as \"16 1/2 in\" or \"41.9 cm\"; - reads it from standard input.
Results go to standard output or into files; how far the work is, and what was done, to standard error, where --quiet leaves only warnings
and errors. Output is first written to a temporary file, which gets its name when it is complete; --out - prints it. A file that already exists
is left alone unless you give --force, and the input is never overwritten.
Where several plans can be given, * and ? stand for any letters and ** for any folders, whether the shell knows them or not. If a plan fails, the
others are still worked on, and the exit code is 1.
Every JSON output has a \"version\", which rises when a name in it goes or changes its meaning.
Help is in colour on a terminal only, and never where the variable NO_COLOR is set.
Exit codes: 0 done; 1 the plan is not possible, or a file or a link can't be read or written; 2 the command was not understood;
3 `findings` found something, `prices` lacks a price, `suggest` has nothing to suggest, or none of the works suits.";

const SCHEMA_HELP: &str = "\
Example:
  overmantel schema figures > figures.schema.json
      what every name in the output of `overmantel figures` means, its unit and how it is rounded";

#[derive(Subcommand)]
enum Task {
    /// Print a first plan to start from, for a wall and one to three picture files
    #[command(after_long_help = plan::HELP)]
    Plan(plan::FirstPlan),
    /// Print the standard stock list, or your own on top of it, as a stock file
    #[command(after_long_help = stock::HELP)]
    Stock(stock::StockOf),
    /// Print every computed measure of a plan as JSON
    #[command(after_long_help = figures::HELP)]
    Figures(figures::FiguresOf),
    /// Say what is unwise about a plan, why, and what would fix it
    #[command(after_long_help = findings::HELP)]
    Findings(findings::FindingsOf),
    /// Say what a plan costs by your own price book, line by line
    #[command(after_long_help = prices::HELP)]
    Prices(prices::PricesOf),
    /// Suggest whole plans for a plan's wall, with reasons
    #[command(after_long_help = suggest::HELP)]
    Suggest(suggest::SuggestFor),
    /// Write the papers of plans as PDF: proposal, order, cut list, hanging plan, template
    #[command(after_long_help = papers::HELP)]
    Papers(papers::Papers),
    /// Write pieces as print-ready pictures: what is kept of each at full resolution, with border, edges and bleed
    #[command(after_long_help = print_file::HELP)]
    PrintFile(print_file::PrintFile),
    /// Draw a plan's wall as a PNG
    #[command(after_long_help = picture::HELP)]
    Draw(picture::Draw),
    /// Measure a wall in a photograph with a sheet of paper on it, and draw a plan's pieces there
    #[command(after_long_help = room::HELP)]
    Room(Box<room::RoomOf>),
    /// Draw a cut through a piece as a PNG
    #[command(after_long_help = section::HELP)]
    Section(section::Section),
    /// Print a plan as a link
    #[command(after_long_help = link::HELP)]
    Link(link::LinkTo),
    /// Print the plan of a link
    #[command(after_long_help = link::OPEN_HELP)]
    Open(link::Open),
    /// Write the wall, its hanging plan or a section as SVG, at true size
    #[command(after_long_help = svg::HELP)]
    Svg(svg::SvgOf),
    /// Print what is ordered or cut as CSV or JSON
    #[command(after_long_help = rows::HELP)]
    Rows(rows::RowsOf),
    /// Put a plan with its pictures, prices and a message into a copy of the page
    #[command(after_long_help = proposal::HELP)]
    Proposal(Box<proposal::ProposalOf>),
    /// Make a page from a folder of pictures for buyers to start from
    #[command(after_long_help = studio::HELP)]
    Studio(studio::StudioOf),
    /// Say which of your works print at which size, from a list of them or a folder of their pictures
    #[command(after_long_help = works::HELP)]
    Works(Box<works::WorksOf>),
    /// Write manual pages and shell completions
    #[command(after_long_help = manual::HELP)]
    Manual(manual::Manual),
    /// Print the JSON Schema of the plan file, the figures, the findings, the prices, the suggestions, the stock file, the price book, a proposal, the list of those sent, what a photograph says, the list of works or what its survey says
    #[command(after_long_help = SCHEMA_HELP)]
    Schema {
        /// Which schema
        #[arg(value_enum, default_value_t = Form::Plan)]
        form: Form,
    },
}

/// A format that a schema describes.
#[derive(Clone, Copy, clap::ValueEnum)]
enum Form {
    /// The plan file
    Plan,
    /// The output of `overmantel figures`
    Figures,
    /// The output of `overmantel findings --json`
    Findings,
    /// The output of `overmantel prices --json`
    Prices,
    /// The output of `overmantel suggest --json`
    Suggestions,
    /// The stock file
    Stock,
    /// The price book
    PriceBook,
    /// The data of a proposal, as it lies in its page
    Proposal,
    /// The list of proposals that were sent
    Sent,
    /// The output of `overmantel room --json`
    Room,
    /// The list of works
    Works,
    /// The output of `overmantel works --json`
    WorksSurvey,
}

fn main() -> ExitCode {
    let parsed = help::command().try_get_matches();
    let stated = match parsed.and_then(|mut matches| Arguments::from_arg_matches_mut(&mut matches)) {
        Ok(stated) => stated,
        Err(why) => return not_understood(&why),
    };
    if stated.quiet {
        say::be_quiet();
    }
    let outcome = match stated.task {
        Task::Plan(stated) => plan::run(&stated).map(done),
        Task::Stock(stated) => stock::run(&stated).map(done),
        Task::Figures(stated) => figures::run(&stated).map(done),
        Task::Findings(stated) => findings::run(&stated),
        Task::Prices(stated) => prices::run(&stated),
        Task::Suggest(stated) => suggest::run(&stated),
        Task::Papers(stated) => papers::run(&stated).map(done),
        Task::PrintFile(stated) => print_file::run(&stated).map(done),
        Task::Draw(draw) => picture::run(&draw).map(done),
        Task::Room(stated) => room::run(&stated).map(done),
        Task::Section(stated) => section::run(&stated).map(done),
        Task::Link(stated) => link::run(&stated).map(done),
        Task::Proposal(stated) => proposal::run(&stated).map(done),
        Task::Studio(stated) => studio::run(&stated).map(done),
        Task::Open(stated) => link::open(&stated).map(done),
        Task::Svg(stated) => svg::run(&stated).map(done),
        Task::Rows(stated) => rows::run(&stated).map(done),
        Task::Works(stated) => works::run(&stated),
        Task::Manual(stated) => manual::run(&stated).map(done),
        Task::Schema { form: Form::Plan } => say_json(&overmantel::plan::file::schema()).map(done),
        Task::Schema { form: Form::Figures } => say_json(&overmantel::report::schema()).map(done),
        Task::Schema { form: Form::Findings } => say_json(&overmantel::report::findings_schema()).map(done),
        Task::Schema { form: Form::Prices } => say_json(&overmantel::report::prices_schema()).map(done),
        Task::Schema { form: Form::Suggestions } => {
            say_json(&overmantel::report::suggestions_schema()).map(done)
        }
        Task::Schema { form: Form::PriceBook } => say_json(&overmantel::prices::file::schema()).map(done),
        Task::Schema { form: Form::Proposal } => say_json(&overmantel::proposal::schema()).map(done),
        Task::Schema { form: Form::Sent } => say_json(&overmantel::proposal::sent::schema()).map(done),
        Task::Schema { form: Form::Room } => say_json(&overmantel::photograph::report::schema()).map(done),
        Task::Schema { form: Form::Works } => say_json(&overmantel::works::schema()).map(done),
        Task::Schema { form: Form::WorksSurvey } => say_json(&overmantel::report::works_schema()).map(done),
        Task::Schema { form: Form::Stock } => say_json(&overmantel::stock::file::schema()).map(done),
    };
    match outcome {
        Ok(code) => code,
        Err(why) => {
            tell(&why);
            match why {
                Failure::Unpriced(_) => ExitCode::from(prices::UNPRICED),
                _ => ExitCode::FAILURE,
            }
        }
    }
}

fn done((): ()) -> ExitCode {
    ExitCode::SUCCESS
}

/// Says what is not understood, or what was asked to be explained; in colours only where nothing of it can harm a terminal.
fn not_understood(why: &clap::Error) -> ExitCode {
    let is_harmless =
        std::env::args_os().all(|argument| !argument.to_string_lossy().chars().any(say::is_order));
    if is_harmless {
        why.exit();
    }
    why.render().to_string().lines().for_each(say::tell_line);
    u8::try_from(why.exit_code()).map_or(ExitCode::FAILURE, ExitCode::from)
}

/// Where a text goes: to standard output, or into a file.
#[derive(clap::Args)]
struct To {
    /// The file to write, with a name that ends in .json; when left out, or with -, it is printed
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Overwrite a file that already exists
    #[arg(long, requires = "out")]
    force: bool,
}

impl To {
    /// Where a JSON file goes.
    fn destination(&self) -> Result<Destination, Failure> {
        let Some(path) = &self.out else { return Ok(Destination::Standard) };
        Destination::of(path, self.force, JSON)
    }

    /// Puts JSON there.
    fn put(&self, text: &str) -> Result<(), Failure> {
        match self.destination()? {
            Destination::Standard => say_json(text),
            file => file.put(text.as_bytes()),
        }
    }
}
