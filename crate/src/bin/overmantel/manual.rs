//! `overmantel manual`: manual pages and shell completions.

use super::failure::Failure;
use super::files;
use super::help::command;
use super::say::sum_up;
use clap::{Args, ValueEnum};
use clap_complete::{Shell, generate};
use clap_mangen::Man;
use std::path::PathBuf;

pub(crate) const HELP: &str = "\
Two folders are written into the one that you name: man1, with a page for each command, and completions, with a file for each of bash, zsh,
fish, PowerShell and Elvish. Copy them to where your system and your shell look for them.

Examples:
  overmantel manual here
      then `man here/man1/overmantel-draw.1`, or `source here/completions/overmantel.bash`
  overmantel manual ~/.local/share/man --force
      where `man` looks by itself on many systems";

/// Where to write.
#[derive(Args)]
pub(crate) struct Manual {
    /// The folder to write to; created if it does not exist
    #[arg(value_name = "FOLDER")]
    folder: PathBuf,
    /// Overwrite files that already exist
    #[arg(long)]
    force: bool,
}

/// What the program is called.
const NAME: &str = "overmantel";

pub(crate) fn run(stated: &Manual) -> Result<(), Failure> {
    if files::is_dash(&stated.folder) {
        return Err(Failure::FolderWanted);
    }
    let mut written = pages()?;
    for shell in Shell::value_variants() {
        let mut script = Vec::new();
        generate(*shell, &mut command(), NAME, &mut script);
        written.push((format!("completions/{}", clap_complete::Generator::file_name(shell, NAME)), script));
    }
    let place = |name: &str| stated.folder.join(name);
    written.iter().try_for_each(|(name, _)| files::check_free(&place(name), stated.force))?;
    for folder in ["man1", "completions"] {
        files::make_folder(&place(folder))?;
    }
    for (name, text) in &written {
        files::put(&place(name), stated.force, text)?;
    }
    sum_up(format_args!("{} files in {}", written.len(), stated.folder.display()));
    Ok(())
}

/// A page for the program, and one for each of its commands.
fn pages() -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let mut whole = command();
    whole.build();
    let own = whole.get_subcommands().filter(|task| task.get_name() != "help").cloned();
    let mut pages = Vec::new();
    for task in [whole.clone()].into_iter().chain(own) {
        let name = task.get_display_name().unwrap_or(NAME).to_owned();
        let mut page = Vec::new();
        Man::new(task).title(&name).render(&mut page).map_err(Failure::Output)?;
        pages.push((format!("man1/{name}.1"), page));
    }
    Ok(pages)
}
