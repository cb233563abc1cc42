//! What went wrong, as one plain sentence that names the remedy.

use std::error::Error;
use std::fmt;

/// A step that could not be done: one plain sentence for the person at the terminal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure(String);

/// A step's result.
pub type Outcome<T> = Result<T, Failure>;

impl Failure {
    /// A failure that is told in this sentence.
    pub fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}

impl Error for Failure {}
