//! Overmantel's core: to-scale layouts of one to three pictures on a wall, every size from the pixel to the hook.
//!
//! One way through the house: plan → build-up → arrangement → hanging → scene → pixels. A module imports only the
//! modules that stand above it in the list below. The core is pure: no input or output, no clock, no randomness, no
//! JavaScript; the same plan and pictures give the same bytes, natively and in wasm.

// The order of these lines is the order of dependence; a test holds it.
mod checksum;
pub mod quoted;
pub mod json;
mod order;
pub mod rounding;
pub mod length;
pub mod colour;
pub mod geometry;
pub mod described;
pub mod plan;
pub mod words;
pub mod field;
pub mod terms;
pub mod stock;
pub mod line_up;
pub mod framing;
pub mod print;
pub mod fit;
pub mod arrange;
pub mod hang;
pub mod figures;
pub mod weigh;
pub mod measure;
pub mod cut_list;
pub mod making;
pub mod hangers;
pub mod hardware;
pub mod tolerances;
pub mod picture_light;
pub mod asked;
pub mod starts;
pub mod findings;
pub mod fields;
pub mod mend;
pub mod prices;
pub mod suggest;
pub mod report;
pub mod spec;
pub mod compare;
pub mod text;
pub mod resample;
pub mod print_file;
pub mod scene;
pub mod true_size;
pub mod draw;
pub mod link;
pub mod papers;
pub mod picture_file;
pub mod proposal;
pub mod desk;
#[cfg(target_arch = "wasm32")]
pub mod wasm;
