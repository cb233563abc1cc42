//! How far a long piece of work is: a bar on a terminal, else a line now and then.

use crate::say::{is_quiet, note};
use std::io::{IsTerminal, Write};
use std::time::{Duration, Instant};

/// Places of the bar.
const PLACES: u32 = 30;

/// From one line to the next, where there is no bar.
const LINE: Duration = Duration::from_secs(10);

/// A bar on standard error, or lines.
pub(super) struct Progress {
    label: String,
    is_bar: bool,
    permille: u32,
    shown_at: Instant,
}

impl Progress {
    pub(super) fn new(label: String) -> Self {
        Self {
            label,
            is_bar: std::io::stderr().is_terminal() && !is_quiet(),
            permille: 0,
            shown_at: Instant::now(),
        }
    }

    /// So many of all are done.
    pub(super) fn at(&mut self, done: u32, all: u32) {
        let permille = u32::try_from(u64::from(done) * 1000 / u64::from(all.max(1))).unwrap_or(1000);
        if permille == self.permille {
            return;
        }
        self.permille = permille;
        if !self.is_bar {
            if self.shown_at.elapsed() >= LINE {
                self.shown_at = Instant::now();
                note(format_args!("{}: {} %", self.label, permille / 10));
            }
            return;
        }
        let full = (permille * PLACES / 1000) as usize;
        let bar = ["#".repeat(full), ".".repeat(PLACES as usize - full)].concat();
        eprint!("\r{} {bar} {} %", self.label, permille / 10);
        let _ = std::io::stderr().flush();
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.is_bar && self.permille > 0 {
            eprint!("\r{}\r", " ".repeat(self.label.len() + PLACES as usize + 8));
            let _ = std::io::stderr().flush();
        }
    }
}
