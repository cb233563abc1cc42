//! Paints the pictures of the demo.
fn main() {}
