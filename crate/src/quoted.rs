//! Texts of others as messages quote them: short, so that what is wrong and what to do stay in sight.
//!
//! ```
//! use overmantel::quoted::short;
//! assert_eq!(short("sage").to_string(), "sage");
//! assert_eq!(short(&"sea".repeat(40)).to_string(), "sea".repeat(26) + "se…", "cut at 80 characters");
//! ```

use std::fmt;

/// Characters of a text in a message at most.
pub const MOST: usize = 80;

/// A text as a message quotes it; see [`short`].
#[derive(Clone, Copy, Debug)]
pub struct Short<'a>(&'a str);

/// A text as a message quotes it: what is longer than [`MOST`] characters is cut there, with an ellipsis.
#[must_use]
pub const fn short(text: &str) -> Short<'_> {
    Short(text)
}

impl fmt::Display for Short<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.char_indices().nth(MOST) {
            Some((end, _)) => {
                f.write_str(&self.0[..end])?;
                f.write_str("…")
            }
            None => f.write_str(self.0),
        }
    }
}
