//! How far a long piece of work is: a bar where somebody looks on, nothing but its end where not.

use std::io::{IsTerminal, Write};

/// Places of the bar.
const PLACES: u32 = 30;

/// A bar on standard error, if that is a terminal.
pub(super) struct Progress {
    label: String,
    is_shown: bool,
    permille: u32,
}

impl Progress {
    pub(super) fn new(label: String) -> Self {
        Self { label, is_shown: std::io::stderr().is_terminal(), permille: 0 }
    }

    /// So many of all are done.
    pub(super) fn at(&mut self, done: u32, all: u32) {
        let permille = u32::try_from(u64::from(done) * 1000 / u64::from(all.max(1))).unwrap_or(1000);
        if !self.is_shown || permille == self.permille {
            return;
        }
        self.permille = permille;
        let full = (permille * PLACES / 1000) as usize;
        let bar = ["#".repeat(full), ".".repeat(PLACES as usize - full)].concat();
        eprint!("\r{} {bar} {} %", self.label, permille / 10);
        let _ = std::io::stderr().flush();
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.permille > 0 {
            eprint!("\r{}\r", " ".repeat(self.label.len() + PLACES as usize + 8));
            let _ = std::io::stderr().flush();
        }
    }
}
