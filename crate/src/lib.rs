//! Overmantel's core: to-scale layouts of one to three pictures on a wall, every size from the pixel to the hook.
//!
//! One way through the house: plan → build-up → arrangement → hanging → scene → pixels. A module imports only the
//! modules that stand above it in the list below. The core is pure: no input or output, no clock, no randomness, no
//! JavaScript; the same plan and pictures give the same bytes, natively and in wasm.

// The order of these lines is the order of dependence; a test holds it.
// rustfmt would sort them.

pub mod arrange;
pub mod colour;
pub mod fields;
pub mod figures;
pub mod framing;
pub mod geometry;
pub mod hang;
pub mod length;
pub mod report;
pub mod measure;
pub mod plan;
pub mod print;
pub mod resample;
pub mod scene;
pub mod draw;
pub mod rounding;
pub mod stock;
pub mod text;
