//! Any text as a price book. Run with
//! `mkdir -p tests/fuzz/corpus/price_book && cargo +nightly fuzz run price_book tests/fuzz/corpus/price_book tests/fuzz/seeds/price_book --fuzz-dir tests/fuzz --sanitizer none`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| overmantel_tests::price_book_is_read_or_refused(text));
