//! The command line as its help, its manual pages and its completions describe it: short with -h, at length with --help.

use super::Arguments;
use clap::{Command, CommandFactory};

/// What a script is told by most commands; those that tell it more say so themselves.
const CODES: &str = "\
Exit codes: 0 done; 1 the plan is not possible, or a file can't be read or written; 2 the command was not understood.";

/// Every command with its help in both lengths.
pub(crate) fn command() -> Command {
    Arguments::command().mut_subcommands(|task| {
        let long = task.get_after_long_help().map(ToString::to_string).unwrap_or_default();
        let codes = if long.contains("Exit codes: ") { "" } else { CODES };
        task.after_long_help([&long, codes].join("\n\n").trim().to_owned())
    })
}
