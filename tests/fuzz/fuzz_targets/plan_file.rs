//! Any text as a plan file. Run with
//! `mkdir -p tests/fuzz/corpus/plan_file && cargo +nightly fuzz run plan_file tests/fuzz/corpus/plan_file tests/fuzz/seeds/plan_file --fuzz-dir tests/fuzz --sanitizer none`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| overmantel_tests::plan_file_is_read_or_refused(text));
