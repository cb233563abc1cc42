//! Any bytes as a link: as its letters, as what is deflated in it, and as the map in that. Run with
//! `mkdir -p tests/fuzz/corpus/link && cargo +nightly fuzz run link tests/fuzz/corpus/link tests/fuzz/seeds/link --fuzz-dir tests/fuzz --sanitizer none`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| overmantel_tests::bytes_as_link(bytes));
