//! What the tests of this package and its fuzz targets share.

pub mod given;
pub mod share;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use overmantel::figures::Figures;
use overmantel::length::{Unit, parse::parse, print::exact};
use overmantel::link;
use overmantel::plan::file;
use overmantel::prices::Book;

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

/// A link of this version round these bytes, put together by the standards: stored blocks of RFC 1951 (3.2.4), the checksum of
/// RFC 1952, the alphabet of RFC 4648 (5).
#[must_use]
pub fn link_round(version: u8, map: &[u8]) -> String {
    let mut deflated = Vec::new();
    let blocks: Vec<&[u8]> = if map.is_empty() { vec![map] } else { map.chunks(0xff_ff).collect() };
    for (index, block) in blocks.iter().enumerate() {
        let length = u16::try_from(block.len()).unwrap_or(u16::MAX);
        deflated.push(u8::from(index + 1 == blocks.len()));
        deflated.extend(length.to_le_bytes());
        deflated.extend((!length).to_le_bytes());
        deflated.extend(*block);
    }
    link_of_deflated(version, &deflated)
}

/// A link of this version round bytes that are deflated already, or are said to be.
#[must_use]
pub fn link_of_deflated(version: u8, deflated: &[u8]) -> String {
    let sum = crc32fast::hash(&[&[version], deflated].concat());
    URL_SAFE_NO_PAD.encode([&[version][..], &sum.to_le_bytes(), deflated].concat())
}

/// Reads any text as a link. What is read must be written and read again as the same; what is not must be refused in a sentence.
///
/// # Panics
/// When either does not hold.
pub fn link_is_read_or_refused(text: &str) {
    match link::read(text) {
        Ok((read, _)) => {
            let written = link::write(&read);
            assert_eq!(link::read(&written), Ok((read, 0)), "{text:?} was written {written:?}");
        }
        Err(why) => is_sentence(&why.to_string()),
    }
}

/// Whether what is said of a refused text is one.
fn is_sentence(why: &str) {
    assert!(why.contains(' ') && !why.ends_with('.'), "no sentence: {why:?}");
}

/// Reads any bytes as a link: by the first of them as its letters, as what is deflated in it, or as the map in that, in which most
/// of what there is to find is.
///
/// # Panics
/// As [`link_is_read_or_refused`].
pub fn bytes_as_link(bytes: &[u8]) {
    let Some((&kind, bytes)) = bytes.split_first() else { return };
    match kind % 8 {
        0 => link_is_read_or_refused(&String::from_utf8_lossy(bytes)),
        1 => link_is_read_or_refused(&link_of_deflated(1, bytes)),
        _ => link_is_read_or_refused(&link_round(1, bytes)),
    }
}

/// Reads any text as a plan file. What is read is worked out or refused, and written and read again as the same.
///
/// # Panics
/// When it does not hold.
pub fn plan_file_is_read_or_refused(text: &str) {
    match file::read(text) {
        Ok(plan) => {
            assert_eq!(file::read(&file::write(&plan)).as_ref(), Ok(&plan));
            if let Err(why) = Figures::of(&plan) {
                assert!(why.to_string().contains("; "), "no remedy in {why:?}");
            }
        }
        Err(why) => is_sentence(&why.to_string()),
    }
}

/// Reads any text as a price book.
///
/// # Panics
/// When it is refused without a sentence.
pub fn price_book_is_read_or_refused(text: &str) {
    if let Err(why) = Book::read(text) {
        assert!(why.to_string().contains(" ") && !why.to_string().ends_with('.'), "no sentence: {why:?}");
    }
}
