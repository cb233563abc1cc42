//! placeholder
/// placeholder
#[must_use]
pub fn focal_35mm(_start: &[u8]) -> Option<f64> {
    None
}
