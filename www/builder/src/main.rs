//! Builds the page.
fn main() {}
