//! What the program says: on standard output what was asked for, on standard error all else. What others have written (names in
//! plans, names of files, what a file says of itself) reaches no terminal as anything but letters.

use crate::failure::Failure;
use std::fmt::{Display, Write as _};
use std::io::{ErrorKind, Write, stderr, stdout};
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether only what went wrong, or was not as asked, is told on standard error.
static IS_QUIET: AtomicBool = AtomicBool::new(false);

/// Asks for quiet.
pub(crate) fn be_quiet() {
    IS_QUIET.store(true, Ordering::Relaxed);
}

/// Whether quiet was asked for.
pub(crate) fn is_quiet() -> bool {
    IS_QUIET.load(Ordering::Relaxed)
}

/// In place of what is not shown.
const UNSHOWN: char = '\u{fffd}';

/// Whether a terminal may take a character for an order, or for one to turn the letters that follow: control characters (C0, C1 and
/// delete), and the marks, embeddings, overrides and isolates of bidirectional text (Unicode Standard Annex 9, 2).
pub(crate) fn is_order(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}')
}

/// A text of several lines as a terminal may have it.
pub(crate) fn harmless(text: &str) -> String {
    let mut letters = text.chars().peekable();
    let mut plain = String::with_capacity(text.len());
    while let Some(letter) = letters.next() {
        let is_line = letter == '\r' && letters.peek() == Some(&'\n');
        let is_kept = is_line || matches!(letter, '\n' | '\t') || !is_order(letter);
        plain.push(if is_kept { letter } else { UNSHOWN });
    }
    plain
}

/// Prints words or rows.
///
/// # Errors
/// When standard output takes nothing; a reader that has gone away is no error.
pub(crate) fn say(text: &str) -> Result<(), Failure> {
    put(harmless(text).as_bytes())
}

/// Prints JSON. What is harmful stands inside texts there, where it can be spelled otherwise.
///
/// # Errors
/// As [`say`].
pub(crate) fn say_json(text: &str) -> Result<(), Failure> {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        if is_order(letter) && !matches!(letter, '\n' | '\r' | '\t') {
            // A text takes any number of letters.
            let _ = write!(plain, "\\u{:04x}", u32::from(letter));
        } else {
            plain.push(letter);
        }
    }
    put(plain.as_bytes())
}

/// Writes bytes to standard output, such as a drawing's.
///
/// # Errors
/// As [`say`].
pub(crate) fn put(bytes: &[u8]) -> Result<(), Failure> {
    let mut out = stdout();
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Err(why) if why.kind() != ErrorKind::BrokenPipe => Err(Failure::Output(why)),
        _ => Ok(()),
    }
}

/// Tells how far the work is, unless quiet was asked for.
pub(crate) fn note(line: impl Display) {
    if !is_quiet() {
        tell_line(line);
    }
}

/// Tells what was done, with the program's name before it, unless quiet was asked for.
pub(crate) fn sum_up(what: impl Display) {
    if !is_quiet() {
        tell(what);
    }
}

/// Tells on standard error what went wrong or is not as asked, with the program's name before it.
pub(crate) fn tell(what: impl Display) {
    tell_line(format_args!("overmantel: {what}"));
}

/// Tells a line on standard error.
pub(crate) fn tell_line(line: impl Display) {
    // Where nobody listens there is nobody to tell.
    let _ = writeln!(stderr(), "{}", harmless(&line.to_string()));
}
