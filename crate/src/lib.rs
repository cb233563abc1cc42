//! Overmantel's core: to-scale layouts of one to three pictures on a wall, every size from the pixel to the hook.
//!
//! A plan in, its figures and a PNG out:
//!
//! ```
//! use overmantel::draw::{Painter, Sheet, projection::Projection};
//! use overmantel::{figures::Figures, plan::file, scene::scene};
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let plan = file::read(r#"{
//!     "overmantel": 1, "title": "Ebb", "wall": { "size": ["144 in", "96 in"] },
//!     "group": { "arrangement": "row", "gap": "3 in", "across": "wall_middle", "up": "eye_level" },
//!     "pieces": [{ "image": ["16 in", "20 in"], "made": { "canvas": { "depth": "3/2 in", "edge": "mirrored" } } }]
//! }"#)?;
//!
//! // The middle of the wall is 72 in from its corner, and half of the canvas is 8 in.
//! let figures = Figures::of(&plan)?;
//! assert_eq!(figures.arranged.outsides[0].x.to_inches(), 64.0);
//!
//! let scene = scene(&plan, &figures);
//! let mut sheet = Sheet::new(600, 600);
//! sheet.height_px = Projection::height_for_width(&scene, &sheet);
//! let mut painter = Painter::default();
//! // Pictures go into the second argument; without one, a single colour is drawn in its place.
//! let drawing = painter.draw(&scene, &[], &sheet);
//!
//! let mut file = Vec::new();
//! let mut encoder = png::Encoder::new(&mut file, sheet.width_px, sheet.height_px);
//! encoder.set_color(png::ColorType::Rgba);
//! encoder.write_header()?.write_image_data(drawing.pixels)?;
//! assert_eq!(file[..8], *b"\x89PNG\r\n\x1a\n");
//! # Ok(())
//! # }
//! ```
//!
//! What is unwise about a plan is in [`findings`], other plans for its wall in [`suggest`], which of your works suit a size in [`works`], what it costs in [`prices`]; papers, drawings
//! in lines and rows for other programs come from [`papers`], links from [`link`], and [`report`] has all figures as JSON.
//! Features: `schema` for JSON Schemas, `cli` for the command line; none is on by default.
//!
//! One way through the house: plan → build-up → arrangement → hanging → scene → pixels. A module imports only the
//! modules that stand above it in the list below. The core is pure: no input or output, no clock, no randomness, no
//! JavaScript; the same plan and pictures give the same bytes, natively and in wasm.

// The order of these lines is the order of dependence; a test holds it.
mod checksum;
pub mod quoted;
pub mod json;
mod order;
mod cells;
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
pub mod addressed;
pub mod mend;
pub mod prices;
pub mod suggest;
pub mod picture_file;
pub mod picture_header;
pub mod works;
pub mod report;
pub mod spec;
pub mod compare;
pub mod text;
pub mod resample;
pub mod print_file;
pub mod scene;
pub mod true_size;
pub mod draw;
pub mod photograph;
pub mod link;
pub mod papers;
pub mod proposal;
pub mod desk;
#[cfg(target_arch = "wasm32")]
pub mod wasm;

/// The examples of the package's README are run as well.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
