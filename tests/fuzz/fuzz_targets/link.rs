//! Any bytes as a link: as its letters, as what is deflated in it, and as the map in that. Run with
//! `cargo +nightly fuzz run link --fuzz-dir tests/fuzz`.
#![no_main]

use libfuzzer_sys::fuzz_target;
use overmantel_tests::{link_is_read_or_refused, link_of_deflated, link_round};

fuzz_target!(|bytes: &[u8]| {
    let Some((&kind, bytes)) = bytes.split_first() else { return };
    match kind % 8 {
        0 => link_is_read_or_refused(&String::from_utf8_lossy(bytes)),
        1 => link_is_read_or_refused(&link_of_deflated(1, bytes)),
        // Most of what there is to find is in the map.
        _ => link_is_read_or_refused(&link_round(1, bytes)),
    }
});
