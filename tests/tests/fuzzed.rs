//! What random input, grown by coverage, has found to be worth trying: the seeds of the fuzz targets, tried once each.

use overmantel_tests::{
    bytes_as_link, length_round_trip, plan_file_is_read_or_refused, price_book_is_read_or_refused,
};
use std::path::Path;

fn each(target: &str, judge: impl Fn(&[u8])) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/seeds").join(target);
    let files: Vec<_> = std::fs::read_dir(&folder).expect("seeds").filter_map(Result::ok).collect();
    assert!(files.len() > 100, "{} has {} seeds", folder.display(), files.len());
    for file in files {
        judge(&std::fs::read(file.path()).expect("a seed"));
    }
}

fn text(judge: impl Fn(&str)) -> impl Fn(&[u8]) {
    // The targets that take a text are given as much of the bytes as is one.
    move |bytes| {
        let end = std::str::from_utf8(bytes).map_or_else(|error| error.valid_up_to(), str::len);
        judge(&String::from_utf8_lossy(&bytes[..end]));
    }
}

#[test]
fn links() {
    each("link", bytes_as_link);
}

#[test]
fn plan_files() {
    each("plan_file", text(plan_file_is_read_or_refused));
}

#[test]
fn price_books() {
    each("price_book", text(price_book_is_read_or_refused));
}

#[test]
fn lengths() {
    each("length_parse", text(length_round_trip));
}
