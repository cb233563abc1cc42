//! Drawing: the scene as pixels.
//!
//! A [`Painter`] keeps what it has made: the room, and each piece at its scale. A drawing is then the room copied, the
//! pieces' shadows taken from its light, the pieces copied in, and the lines on top; while one thing is moved only that
//! is done again. What is kept never changes the outcome: a painter that has drawn before gives the same bytes as a new one.
//!
//! Lengths become pixels in [`projection`] and nowhere else.
//!
//! ```
//! use overmantel::{draw::{Painter, Sheet}, figures::Figures, plan::Plan, scene::scene};
//! let plan = Plan::starting();
//! let scene = scene(&plan, &Figures::of(&plan).unwrap());
//! let mut painter = Painter::default();
//! let drawing = painter.draw(&scene, &[], &Sheet::new(600, 400));
//! assert_eq!(drawing.pixels.len(), 600 * 400 * 4);
//! ```

mod across;
mod between;
mod brush;
pub mod captioned;
mod corner;
mod cut_out;
mod face;
mod figure;
mod furniture;
mod graded;
mod lettering;
mod light;
pub mod lines;
mod moulding;
mod oblique;
mod painter;
mod piece;
mod print_alone;
mod pixel_rect;
pub mod projection;
mod room;
mod rows;
pub mod section;
mod shadow;
mod sheet;
mod texture;
mod wall;
mod window;

pub use across::across;
pub(crate) use brush::to_skia;
pub use cut_out::cut_out;
pub use furniture::{Shape, shapes};
pub(crate) use oblique::camera::Camera;
pub(crate) use painter::Side;
pub use painter::{Drawing, Painter};
pub(crate) use piece::part_of;
pub use pixel_rect::PixelRect;
pub use print_alone::print_on_wall;
pub use sheet::{Guide, LoadedPicture, MOST_SIDE_PX, Mark, Sheet, Theme, View};
pub use window::Window;
