//! Photographs of rooms: the wall and the camera found from a sheet of paper and long lines, lengths measured with how far off they may
//! be, the light read off, and the pieces of a plan drawn where they would hang.
//!
//! Positions in a photograph are pixels from the upper left corner of its upper left pixel, so that pixel has its middle at (0.5, 0.5).
//! Places on the wall are millimetres from the middle of the sheet: along the wall to the right, up, and out from it. Both are `f64`, and
//! nothing of them enters a plan but by a person's consent.

mod sums;
pub mod exif;
mod pieces;
mod trace;
pub mod grey;
pub mod paper;
pub mod segments;
pub mod sheet;
pub mod camera;
pub mod estimate;
pub mod lines;
pub mod light;
mod before;
pub mod room;
pub mod measured;
pub mod view;
pub mod report;
pub mod mark;
pub mod taken;
