//! Any text as a length. Run with
//! `mkdir -p tests/fuzz/corpus/length_parse && cargo +nightly fuzz run length_parse tests/fuzz/corpus/length_parse tests/fuzz/seeds/length_parse --fuzz-dir tests/fuzz --sanitizer none`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| overmantel_tests::length_round_trip(text));
