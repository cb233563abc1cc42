//! What the tests of this package and its fuzz targets share.

use overmantel::length::{Unit, parse::parse, print::exact};

/// Reads any text as a length. What is read must be written and read again as the same; what is not must say where.
///
/// # Panics
/// When either does not hold.
pub fn length_round_trip(text: &str) {
    for bare in [Unit::Inch, Unit::Millimetre] {
        match parse(text, bare) {
            Ok(length) => {
                let written = exact(length);
                assert_eq!(parse(&written, Unit::Metre), Ok(length), "{text:?} was written {written:?}");
            }
            Err(error) => {
                assert!(text.starts_with(&error.text), "{text:?} was reported as {:?}", error.text);
                let fault = error.text.get(error.span.clone());
                assert!(
                    fault.is_some_and(|fault| !fault.is_empty() || text.is_empty()),
                    "fault of {text:?} at {:?}",
                    error.span
                );
                let sentence = format!("{error}");
                assert!(!sentence.ends_with('.') && sentence.contains("; "), "no remedy in {sentence:?}");
            }
        }
    }
}
