//! Several plans, one after the other: which they are, how far the work is, and what came of it.

use crate::failure::Failure;
use crate::files;
use crate::say::{note, sum_up, tell};
use clap::Args;
use std::cell::Cell;
use std::fmt::Display;
use std::path::{Path, PathBuf};

/// The plans that a command works on.
#[derive(Args)]
pub(crate) struct Plans {
    /// The plan files; one of them may be - for standard input. * and ? stand for any letters and ** for any folders, where the shell
    /// leaves that to the program
    #[arg(required = true, value_name = "PLAN")]
    plans: Vec<PathBuf>,
}

impl Plans {
    /// The plan files, each once: a pattern's in the order of their names.
    ///
    /// # Errors
    /// When a pattern is none or matches no file, or what is made of two plans would have the same names.
    pub(crate) fn files(&self) -> Result<Vec<PathBuf>, Failure> {
        let mut files: Vec<PathBuf> = Vec::new();
        for plan in &self.plans {
            for file in matching(plan)? {
                if !files.contains(&file) {
                    files.push(file);
                }
            }
        }
        check_names(&files)?;
        Ok(files)
    }
}

/// The files that are meant: the one of this name, or those that a pattern matches.
fn matching(plan: &Path) -> Result<Vec<PathBuf>, Failure> {
    let pattern = plan.to_str().filter(|name| name.contains(['*', '?', '[']) && !plan.exists());
    let Some(pattern) = pattern else { return Ok(vec![plan.to_owned()]) };
    let found =
        glob::glob(pattern).map_err(|why| Failure::Pattern { pattern: pattern.to_owned(), why: why.msg })?;
    let mut found: Vec<PathBuf> = found.flatten().filter(|path| path.is_file()).collect();
    found.sort();
    if found.is_empty() { Err(Failure::NoMatch(pattern.to_owned())) } else { Ok(found) }
}

/// Sees that no two plans would have papers or pictures of the same names.
fn check_names(plans: &[PathBuf]) -> Result<(), Failure> {
    for (index, other) in plans.iter().enumerate() {
        let stem = files::stem(other);
        // Some file systems hold large and small letters for the same.
        let is_same = |one: &&PathBuf| files::stem(one).to_lowercase() == stem.to_lowercase();
        if let Some(one) = plans[..index].iter().find(is_same) {
            return Err(Failure::SameName { one: one.clone(), other: other.clone(), stem });
        }
    }
    Ok(())
}

/// A plan whose turn it is.
pub(crate) struct Turn<'a> {
    /// Its file.
    pub(crate) path: &'a Path,
    number: usize,
    of: usize,
    written: &'a Cell<usize>,
}

impl Turn<'_> {
    /// Whether it is the only one.
    pub(crate) fn is_alone(&self) -> bool {
        self.of == 1
    }

    /// Counts a file that was written, and tells of it.
    pub(crate) fn wrote(&self, what: impl Display) {
        self.written.set(self.written.get() + 1);
        note(format_args!("{}{what}", self.place()));
    }

    /// Which of several it is.
    fn place(&self) -> String {
        if self.is_alone() { String::new() } else { format!("{} of {}: ", self.number, self.of) }
    }
}

/// Does a task for each plan, goes on after one that fails, and says at the end what was made; `made` is one of what is written, and
/// several.
///
/// # Errors
/// Why the only plan failed, or how many of several did.
pub(crate) fn each(
    plans: &[PathBuf],
    made: [&str; 2],
    mut task: impl FnMut(&Turn<'_>) -> Result<(), Failure>,
) -> Result<(), Failure> {
    let (written, of) = (Cell::new(0), plans.len());
    let mut failed = Vec::new();
    for (index, path) in plans.iter().enumerate() {
        let turn = Turn { path, number: index + 1, of, written: &written };
        match task(&turn) {
            Ok(()) => {}
            Err(why) if of == 1 => return Err(why),
            Err(why) => {
                let (why, name) = (why.to_string(), path.display().to_string());
                // What a file says wrong is told with its name.
                let line = if why.starts_with(&name) { why } else { format!("{name}: {why}") };
                note(format_args!("{}{line}", turn.place()));
                failed.push(line);
            }
        }
    }
    let made = match written.get() {
        1 => format!("1 {}", made[0]),
        count => format!("{count} {}", made[1]),
    };
    if failed.is_empty() {
        sum_up(if of == 1 { format!("{made} written") } else { format!("{made} of {of} plans written") });
        return Ok(());
    }
    // Among what was told of all plans this would not be seen.
    failed.iter().for_each(|line| tell(format_args!("failed: {line}")));
    Err(Failure::Some { failed: failed.len(), of, made })
}
